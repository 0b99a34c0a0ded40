//! A session of a lesson as page 1 shows it: the clock, who is where, what goes first.

use super::common::{Prose, most_wind};
use super::hours::{hour, in_minutes};
use super::lesson_rotation::{RoundRow, free_while_away, names, rotation, spot};
use super::{Inputs, lesson_menu};
use crate::compose::catalogue::{self, text};
use crate::compose::said;
use crate::course::stated::segment_id;
use crate::course::timetable::{Does, Entry, MOST_WAITING, Place, Row, Spot, Timetable, What, Why};
use crate::nouns::{SegmentKind, SessionKind};
use crate::phrase::{Phrase, phrase};
use schemars::JsonSchema;
use serde::Serialize;

/// A session on the clock.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SessionView {
    /// Its name.
    pub name: String,
    /// Whether the name is printed: there are several.
    pub named: bool,
    /// Its day and kind, as far as stated: `2027-05-02, teach-back`.
    pub about: String,
    /// Whether there is anything to say of them.
    pub has_about: bool,
    /// What is lit and by whom, or that nothing is and why.
    pub flames: String,
    /// How long one learner waits at the most.
    pub waits: String,
    /// Whether nothing is lit because it is indoors.
    pub indoors: bool,
    /// Whether something is lit.
    pub lit: bool,
    /// The clock.
    pub clock: Vec<ClockRow>,
    /// Call for the drawing of who is where, as a line of time.
    pub picture: Prose,
    /// Whether there is one.
    pub has_picture: bool,
    /// When it starts.
    pub starts: String,
    /// When it ends.
    pub ends: String,
    /// The minutes that are left then: `5 min in hand`.
    pub in_hand: String,
    /// Whether there are any.
    pub has_in_hand: bool,
    /// When it ends if each segment takes its least.
    pub least_end: String,
    /// Whether something may be dropped.
    pub has_drops: bool,
    /// What found no room though it is asked for, and what it costs.
    pub dropped: String,
    /// Whether something did not.
    pub has_dropped: bool,
    /// What else there is and what it would cost.
    pub others: String,
    /// Whether there is something.
    pub has_others: bool,
    /// What is refused here.
    pub refused: String,
    /// Whether something is.
    pub has_refused: bool,
    /// What is recalled first.
    pub recall: Vec<Prose>,
    /// Whether something is.
    pub has_recall: bool,
    /// Where the menu's water is boiled and when it is drunk, or why it is not made.
    pub menu: String,
    /// Whether there is a menu.
    pub has_menu: bool,
    /// The groups: `A 4, B 3, C 3`.
    pub groups: String,
    /// Who is where while something is lit or parts take turns.
    pub rotation: Vec<RoundRow>,
    /// Whether there is anything to say of it.
    pub has_rotation: bool,
}

/// A line of the clock.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ClockRow {
    /// When it starts.
    pub starts: String,
    /// Minutes.
    pub minutes: String,
    /// Its title.
    pub title: String,
    /// The wind under which the first flame is lit; empty elsewhere.
    pub go: String,
    /// Whether it is the first flame.
    pub has_go: bool,
    /// Its kind, and rounds where there are several.
    pub kind: String,
    /// Whether something is lit.
    pub flame: bool,
    /// Where, and who is with whom.
    pub who: String,
    /// Adults who have no stove, while something is lit; before that the minutes of flame, where they
    /// are fewer than those of the line.
    pub free: String,
    /// `drop 1`, or `keep`.
    #[schemars(example = &"keep")]
    pub drop: String,
}

/// Segments of other subjects that are named; the rest are counted.
const MOST_OTHERS: usize = 6;

/// A session in words.
#[must_use]
pub fn session(inputs: &Inputs<'_>, table: &Timetable<'_>, named: bool) -> SessionView {
    let asked = |one: &crate::course::timetable::LeftOut<'_>| {
        inputs
            .course
            .as_ref()
            .is_ok_and(|course| course.subjects.iter().any(|two| two.id == one.module.id))
    };
    let no_room = |subject: bool| -> Vec<String> {
        table
            .left_out
            .iter()
            .filter(|one| one.why == Why::NoRoom && asked(one) == subject)
            .map(|one| {
                let id = segment_id("", &one.module.id, &one.segment.id);
                let takes = format!("{} min", one.minutes);
                let takes = inputs.of_session(table, &format!("{}.takes", &id[1..]), takes);
                format!("{} ({takes})", one.segment.title)
            })
            .collect()
    };
    let (dropped, mut others) = (no_room(true), no_room(false));
    let more = others.len().saturating_sub(MOST_OTHERS);
    if more > 1 {
        others.truncate(MOST_OTHERS);
        others.push(text(&phrase!("lesson-others-more", count = more)));
    }
    let mut refused: Vec<(String, Vec<&str>)> = Vec::new();
    for one in &table.left_out {
        if one.why == Why::NoRoom || !asked(one) {
            continue;
        }
        let why = said::left_out(one.why);
        match refused.iter_mut().find(|(known, _)| *known == why) {
            Some((_, titles)) => titles.push(&one.segment.title),
            None => refused.push((why, vec![&one.segment.title])),
        }
    }
    let refused: Vec<String> = refused
        .into_iter()
        .map(|(why, titles)| format!("{} ({why})", titles.join(", ")))
        .collect();
    let recall: Vec<Prose> = table
        .entries
        .iter()
        .filter_map(|entry| match &entry.what {
            What::Recall(objectives) => Some(objectives),
            _ => None,
        })
        .flatten()
        .filter_map(|(module, id)| {
            let objective = module.objectives.get(id)?;
            Some(Prose::new(inputs.filler.line(module, &objective.say)))
        })
        .collect();
    let groups: Vec<String> = table
        .groups
        .iter()
        .map(|group| format!("{} {}", group.name, group.learners))
        .collect();
    let mut about = Vec::new();
    about.extend(table.date.map(|date| date.to_string()));
    if table.kind != SessionKind::Teach {
        about.push(catalogue::word(table.kind.word(), &[]));
    }
    let rotation = rotation(inputs, table);
    let menu = lesson_menu::paragraph(inputs, table);
    SessionView {
        name: said::session(&table.name),
        named,
        has_about: !about.is_empty(),
        about: about.join(", "),
        flames: flames(inputs, table),
        waits: waits(inputs, table),
        indoors: table.indoors,
        lit: table.lit > 0,
        clock: table
            .entries
            .iter()
            .enumerate()
            .map(|(index, entry)| row(inputs, table, entry, index))
            .collect(),
        picture: Prose::default(),
        has_picture: false,
        starts: hour(table.starts),
        ends: hour(table.ends),
        has_in_hand: in_hand(table) > 0,
        in_hand: text(&phrase!(
            "lesson-in-hand",
            minutes = inputs.of_session(table, "in-hand", in_minutes(in_hand(table)))
        )),
        least_end: hour(table.least_ends),
        has_drops: table.entries.iter().any(|entry| entry.drop.is_some()),
        has_dropped: !dropped.is_empty(),
        dropped: dropped.join(", "),
        has_others: !others.is_empty(),
        others: others.join(", "),
        has_refused: !refused.is_empty(),
        refused: refused.join("; "),
        has_recall: !recall.is_empty(),
        recall,
        has_menu: !menu.is_empty(),
        menu,
        groups: groups.join(", "),
        has_rotation: !rotation.is_empty(),
        rotation,
    }
}

/// What will be lit, or that nothing will and why.
pub(super) fn flames(inputs: &Inputs<'_>, table: &Timetable<'_>) -> String {
    if table.lit == 0 {
        return text(&why_cold(inputs, table));
    }
    let mut stations: Vec<usize> = Vec::new();
    for place in table.rows.iter().flat_map(|row| &row.places) {
        if let (true, Spot::Station(station)) = (place.lit, place.at)
            && !stations.contains(&station)
        {
            stations.push(station);
        }
    }
    stations.sort_unstable();
    let free = free_while_away(&table.rows).map_or_else(
        || phrase!("lesson-nobody-away"),
        |free| phrase!("lesson-adults-free", free = free),
    );
    let turns = match table.entries.iter().any(|entry| entry.lights_each) {
        true => phrase!("lesson-flames-each"),
        false => phrase!("lesson-flames-watched"),
    };
    text(&phrase!(
        "lesson-flames",
        stations = names(inputs, &stations),
        lit = table.lit,
        turns = turns,
        free = free
    ))
}

/// Minutes that a session leaves.
fn in_hand(table: &Timetable<'_>) -> u32 {
    (table.starts + table.length).saturating_sub(table.ends)
}

/// Why a session lights nothing.
fn why_cold(inputs: &Inputs<'_>, table: &Timetable<'_>) -> Phrase {
    if table.indoors {
        return phrase!("lesson-cold-indoors");
    }
    let lit = table.left_out.iter().filter(|one| one.segment.flame);
    let whys: Vec<Why> = lit.map(|one| one.why).collect();
    let room = table.more_for_a_flame();
    for why in [Why::Ban, Why::NoAdult, Why::Waits, Why::Light] {
        if whys.contains(&why) && room.is_none() {
            return match why {
                Why::NoAdult => phrase!("lesson-cold-adult"),
                Why::Waits => phrase!("lesson-cold-waits", most = most_waiting(inputs)),
                _ => phrase!("lesson-cold-because", why = said::left_out(why)),
            };
        }
    }
    room.map_or_else(
        || phrase!("lesson-cold-no-need"),
        |minutes| {
            let more = inputs.of_session(table, "more-for-a-flame", in_minutes(minutes));
            phrase!("lesson-cold-no-room", minutes = more)
        },
    )
}

/// How long one learner waits at the most.
fn waits(inputs: &Inputs<'_>, table: &Timetable<'_>) -> String {
    text(&match table.waits {
        0 => phrase!("lesson-waits-none"),
        most => phrase!(
            "lesson-waits",
            minutes = inputs.of_session(table, "waits", in_minutes(most)),
            limit = most_waiting(inputs)
        ),
    })
}

/// How long a learner may wait at the most.
fn most_waiting(inputs: &Inputs<'_>) -> String {
    inputs.say("course.most-waiting", in_minutes(MOST_WAITING))
}

fn row(inputs: &Inputs<'_>, table: &Timetable<'_>, entry: &Entry<'_>, index: usize) -> ClockRow {
    let rows: Vec<&Row<'_>> = table.rows.iter().filter(|row| row.entry == index).collect();
    let (title, mut kind) = title_and_kind(&entry.what);
    if let Some(teacher) = entry.teacher {
        let who = table.label(&[teacher]);
        kind = text(&phrase!("clock-teaches", kind = kind, who = who));
    }
    if entry.rounds > 1 {
        kind = text(&phrase!("clock-rounds", kind = kind, rounds = entry.rounds));
    }
    let first = table.entries.iter().position(|entry| entry.flame);
    let go = if first == Some(index) {
        let wind = inputs.say("figure.most-wind", most_wind(inputs.units));
        text(&phrase!("clock-go", wind = wind))
    } else {
        String::new()
    };
    let kept_busy = matches!(entry.what, What::Break | What::AllOff | What::HandOut);
    ClockRow {
        starts: hour(entry.starts),
        minutes: entry.minutes.to_string(),
        title: lesson_menu::title(inputs, table, index, title),
        has_go: !go.is_empty(),
        go,
        kind,
        flame: entry.flame,
        who: if kept_busy && !entry.flame {
            String::new()
        } else {
            who(inputs, table, &rows)
        },
        free: if entry.flame {
            at_the_flame(table, entry, &rows)
        } else {
            String::new()
        },
        drop: text(&match entry.drop {
            None => phrase!("clock-keep"),
            Some(place) if entry.lights_each && entry.rounds > 1 => {
                phrase!("clock-drop-rounds", place = place)
            }
            Some(place) => phrase!("clock-drop", place = place),
        }),
    }
}

/// Of the minutes of a line those in which something burns, where burners rest in between; and the
/// adults who have no stove then.
fn at_the_flame(table: &Timetable<'_>, entry: &Entry<'_>, rows: &[&Row<'_>]) -> String {
    let lit = |row: &&&Row<'_>| row.places.iter().any(|place| place.lit);
    let burns: u32 = rows.iter().filter(lit).map(|row| row.minutes).sum();
    let away = free_while_away(rows.iter().copied());
    let least = rows.iter().filter(lit).map(|row| row.free_adults).min();
    let adults = text(&match (away, least) {
        (None, Some(0)) => phrase!("clock-adults-there", adults = table.adults),
        (Some(free), _) | (None, Some(free)) => phrase!("clock-free", free = free),
        (None, None) => return String::new(),
    });
    if burns == entry.minutes {
        return adults;
    }
    let burns = text(&phrase!(
        "clock-burns",
        burns = burns,
        minutes = entry.minutes
    ));
    format!("{burns}, {adults}")
}

/// What an entry is, and how it is done.
fn title_and_kind(what: &What<'_>) -> (String, String) {
    let kind = |kind: SegmentKind| catalogue::word(kind.word(), &[]);
    let together = || kind(SegmentKind::DoTogether);
    match what {
        What::Carousel(stops) => {
            let titles: Vec<&str> = stops.iter().map(|one| one.segment.title.as_str()).collect();
            (titles.join(" / "), text(&phrase!("clock-side-by-side")))
        }
        What::Segment(_, segment) => (segment.title.clone(), kind(segment.kind)),
        What::Recall(_) => (text(&phrase!("clock-recall")), kind(SegmentKind::SayIt)),
        What::Drill => (
            text(&phrase!("clock-drill")),
            text(&phrase!("clock-together-unlit")),
        ),
        What::AllOff => (text(&phrase!("clock-all-off")), together()),
        What::Cooling => (text(&phrase!("clock-cooling")), together()),
        What::Break => (
            text(&phrase!("clock-break")),
            text(&phrase!("clock-nothing-lit")),
        ),
        What::HandOut => (
            text(&phrase!("clock-hand-out")),
            text(&phrase!("clock-all-together")),
        ),
        What::Worksheet => (
            text(&phrase!("clock-worksheet")),
            text(&phrase!("clock-each-alone")),
        ),
        What::Form => (
            text(&phrase!("clock-form")),
            text(&phrase!("clock-each-alone")),
        ),
        What::Check(Some((_, segment))) => (
            text(&phrase!("clock-check-of", title = segment.title)),
            kind(SegmentKind::Check),
        ),
        What::Check(None) => (
            text(&phrase!("clock-check-unlit")),
            kind(SegmentKind::Check),
        ),
        What::ClearUp => (text(&phrase!("clock-clear-up")), together()),
    }
}

/// Where the learners of an entry are: its lit stations, or the parts with nothing lit.
fn who(inputs: &Inputs<'_>, table: &Timetable<'_>, rows: &[&Row<'_>]) -> String {
    let mut stations: Vec<usize> = Vec::new();
    let (mut lit, mut most) = (0, 0);
    for row in rows {
        let flames = row.places.iter().filter(|place| place.lit);
        lit = lit.max(flames.clone().count());
        for place in flames {
            most = most.max(place.learners.len());
            if let Spot::Station(station) | Spot::Spare(station) = place.at
                && !stations.contains(&station)
            {
                stations.push(station);
            }
        }
    }
    if lit > 0 {
        stations.sort_unstable();
        let names = names(inputs, &stations);
        return text(&match stations.len() {
            1 => phrase!("clock-at-one", stations = names, most = most),
            all if all == lit => phrase!("clock-at-each", stations = names, most = most),
            _ => phrase!("clock-at-some", lit = lit, stations = names, most = most),
        });
    }
    let first = rows.first().map_or(&[][..], |row| &row.places);
    let beside = |place: &&Place<'_>| matches!(place.does, Does::Beside(..));
    if first.iter().all(|place| beside(&place)) && !first.is_empty() {
        let begin: Vec<String> = first
            .iter()
            .map(|place| {
                let who = table.label(&place.learners);
                let place = spot(inputs, place.at);
                text(&phrase!("clock-begins-at", who = who, place = place))
            })
            .collect();
        return text(&phrase!("clock-then-on", places = begin.join(", ")));
    }
    let parts: Vec<&Place<'_>> = first
        .iter()
        .filter(|place| place.does == Does::Entry)
        .collect();
    let at = |only: &Place<'_>| match only.at {
        Spot::Station(station) | Spot::Spare(station) => Some(names(inputs, &[station])),
        Spot::Bench(_) | Spot::Line => None,
    };
    text(&match parts[..] {
        [only] if (only.learners.len() as u32) < table.learners() => at(only).map_or_else(
            || phrase!("clock-in-turns"),
            |station| phrase!("clock-in-turns-at", station = station),
        ),
        [only] => at(only).map_or_else(
            || phrase!("clock-all-together"),
            |station| phrase!("clock-all-at", station = station),
        ),
        [] => phrase!("clock-all-together"),
        _ => phrase!("clock-in-parts", parts = parts.len()),
    })
}
