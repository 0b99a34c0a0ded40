//! A session of a lesson as page 1 shows it: the clock, who is where, what goes first.

use super::Inputs;
use super::common::Prose;
use crate::compose::words;
use crate::course::stated::segment_id;
use crate::course::timetable::{Does, Entry, MOST_WAITING, Place, Row, Spot, Timetable, What, Why};
use crate::nouns::{SegmentKind, SessionKind};
use crate::units::{Time, say};
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
    /// Its kind, and rounds where there are several.
    pub kind: String,
    /// Whether something is lit.
    pub flame: bool,
    /// Where, and who is with whom.
    pub who: String,
    /// Adults who have no stove, while something is lit.
    pub free: String,
    /// `drop 1`, or `keep`.
    #[schemars(example = &"keep")]
    pub drop: String,
}

/// Who is where for some minutes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RoundRow {
    /// Start.
    pub starts: String,
    /// The segment.
    pub title: String,
    /// The lit stations and who is there; a dash where nothing is lit.
    pub lit: String,
    /// What the others do and where.
    pub others: String,
    /// Adults without a stove.
    pub free: String,
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
        others.push(format!("and {more} more"));
    }
    let mut refused: Vec<(&str, Vec<&str>)> = Vec::new();
    for one in &table.left_out {
        if one.why == Why::NoRoom || !asked(one) {
            continue;
        }
        let why = one.why.word();
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
        about.push(table.kind.word().to_owned());
    }
    let rotation = rotation(inputs, table);
    SessionView {
        name: table.name.clone(),
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
        groups: groups.join(", "),
        has_rotation: !rotation.is_empty(),
        rotation,
    }
}

/// What will be lit, or that nothing will and why.
pub(super) fn flames(inputs: &Inputs<'_>, table: &Timetable<'_>) -> String {
    if table.lit == 0 {
        return format!("Nothing is lit: {}", why_cold(inputs, table));
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
    let free = table
        .rows
        .iter()
        .filter(|row| row.places.iter().any(|place| place.lit))
        .map(|row| row.free_adults)
        .min()
        .unwrap_or(0);
    let turns = if table.entries.iter().any(|entry| entry.lights_each) {
        "each learner lights once"
    } else {
        "an adult lights and learners watch"
    };
    let free = match free {
        0 => "nobody is away from the flame then".to_owned(),
        one => words::count(one, "adult has no stove", "adults have no stove"),
    };
    format!(
        "{} lit, {}; {turns}; {free}",
        names(inputs, &stations),
        match table.lit {
            1 => "one at a time".to_owned(),
            more => format!("at most {} side by side", words::in_words(more)),
        },
    )
}

/// Why a session lights nothing.
fn why_cold(inputs: &Inputs<'_>, table: &Timetable<'_>) -> String {
    if table.indoors {
        return "this is indoors, and no fuel comes in".to_owned();
    }
    let lit = table.left_out.iter().filter(|one| one.segment.flame);
    let whys: Vec<Why> = lit.map(|one| one.why).collect();
    let room = table.more_for_a_flame();
    for why in [Why::Ban, Why::NoAdult, Why::Waits, Why::Light] {
        if whys.contains(&why) && room.is_none() {
            return match why {
                Why::NoAdult => {
                    "no adult would be free for those who wait. One adult more lights a \
                                 stove"
                        .to_owned()
                }
                Why::Waits => format!(
                    "someone would wait more than {}. Another adult and stove would do",
                    most_waiting(inputs)
                ),
                _ => why.word().to_owned(),
            };
        }
    }
    room.map_or_else(
        || "its subjects need no flame".to_owned(),
        |minutes| {
            format!(
                "no room in the minutes. {} more would hold a flame with all that it needs",
                inputs.of_session(table, "more-for-a-flame", in_minutes(minutes))
            )
        },
    )
}

/// How long one learner waits at the most.
fn waits(inputs: &Inputs<'_>, table: &Timetable<'_>) -> String {
    match table.waits {
        0 => "Everyone has something to do in every row.".to_owned(),
        most => format!(
            "One learner waits {} at the most, all rows together; {} is the limit.",
            inputs.of_session(table, "waits", in_minutes(most)),
            most_waiting(inputs),
        ),
    }
}

/// How long a learner may wait at the most.
fn most_waiting(inputs: &Inputs<'_>) -> String {
    inputs.say("course.most-waiting", in_minutes(MOST_WAITING))
}

/// Whole minutes as they are said.
pub(super) fn in_minutes(minutes: u32) -> String {
    say::time(Time::minutes(f64::from(minutes)))
}

fn row(inputs: &Inputs<'_>, table: &Timetable<'_>, entry: &Entry<'_>, index: usize) -> ClockRow {
    let rows: Vec<&Row<'_>> = table.rows.iter().filter(|row| row.entry == index).collect();
    let together = SegmentKind::DoTogether.word();
    let (title, kind) = match &entry.what {
        What::Carousel(stops) => {
            let titles: Vec<&str> = stops.iter().map(|one| one.segment.title.as_str()).collect();
            (titles.join(" / "), "side by side")
        }
        What::Segment(_, segment) => (segment.title.clone(), segment.kind.word()),
        What::Recall(_) => (
            "What do we still know?".to_owned(),
            SegmentKind::SayIt.word(),
        ),
        What::Drill => ("\"All off\" drill".to_owned(), "do together, unlit"),
        What::AllOff => ("\"All off!\" called, stoves lit".to_owned(), together),
        What::Cooling => ("Cold before it is packed".to_owned(), together),
        What::Break => ("Break".to_owned(), "nothing lit"),
        What::HandOut => ("Papers, groups, go or no go".to_owned(), "all together"),
        What::Worksheet => ("Fuel worksheet".to_owned(), "each alone"),
        What::Form => ("Check: written form".to_owned(), "each alone"),
        What::Check(Some((_, segment))) => (
            format!("Check: {}", segment.title),
            SegmentKind::Check.word(),
        ),
        What::Check(None) => (
            "Check: what is watched, unlit".to_owned(),
            SegmentKind::Check.word(),
        ),
        What::ClearUp => ("Clear up and count".to_owned(), together),
    };
    let kind = match entry.teacher {
        Some(teacher) => format!("{kind}; {} teaches", table.label(&[teacher])),
        None => kind.to_owned(),
    };
    let kept_busy = matches!(entry.what, What::Break | What::AllOff | What::HandOut);
    ClockRow {
        starts: hour(entry.starts),
        minutes: entry.minutes.to_string(),
        title,
        kind: if entry.rounds > 1 {
            format!("{kind}; {} rounds", entry.rounds)
        } else {
            kind
        },
        flame: entry.flame,
        who: if kept_busy && !entry.flame {
            String::new()
        } else {
            who(inputs, table, &rows)
        },
        free: rows
            .iter()
            .filter(|row| row.places.iter().any(|place| place.lit))
            .map(|row| row.free_adults)
            .min()
            .map_or_else(String::new, |free| format!("{free} free")),
        drop: entry
            .drop
            // A space that does not break: the column is narrow.
            .map_or_else(|| "keep".to_owned(), |place| format!("drop\u{a0}{place}")),
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
        let learners = words::count(most as u32, "learner", "learners");
        let names = names(inputs, &stations);
        return match stations.len() {
            1 => format!("at {names}, up to {learners}"),
            all if all == lit => format!("at {names}, up to {learners} each"),
            _ => format!("{lit} of {names}, up to {learners} each"),
        };
    }
    let first = rows.first().map_or(&[][..], |row| &row.places);
    let beside = |place: &&Place<'_>| matches!(place.does, Does::Beside(..));
    if first.iter().all(|place| beside(&place)) && !first.is_empty() {
        let begin: Vec<String> = first
            .iter()
            .map(|place| {
                format!(
                    "{} at {}",
                    table.label(&place.learners),
                    spot(inputs, place.at)
                )
            })
            .collect();
        return format!("{}; then on to the next place", begin.join(", "));
    }
    let parts: Vec<&Place<'_>> = first
        .iter()
        .filter(|place| place.does == Does::Entry)
        .collect();
    match parts[..] {
        [only] if (only.learners.len() as u32) < table.learners() => match only.at {
            Spot::Station(station) | Spot::Spare(station) => {
                format!("in turns at {}", names(inputs, &[station]))
            }
            Spot::Bench(_) | Spot::Line => "in turns".to_owned(),
        },
        [only] => match only.at {
            Spot::Station(station) | Spot::Spare(station) => {
                format!("all at {}", names(inputs, &[station]))
            }
            Spot::Bench(_) | Spot::Line => "all together".to_owned(),
        },
        [] => "all together".to_owned(),
        _ => format!(
            "in {} parts, an adult with each",
            words::in_words(parts.len() as u32)
        ),
    }
}

fn names(inputs: &Inputs<'_>, stations: &[usize]) -> String {
    let names: Vec<String> = stations
        .iter()
        .filter_map(|index| inputs.trip.kitchens.get(*index))
        .map(|kitchen| kitchen.name.clone())
        .collect();
    words::list(&names)
}

/// Who is where in the rows in which not all do the same.
fn rotation(inputs: &Inputs<'_>, table: &Timetable<'_>) -> Vec<RoundRow> {
    let mut found = Vec::new();
    for row in &table.rows {
        let lit = row.places.iter().any(|place| place.lit);
        let all_its_part = row.places.iter().all(|place| place.does == Does::Entry);
        if row.places.len() < 2 && !lit && all_its_part {
            continue;
        }
        let entry = table.entries.get(row.entry);
        let rests = !lit && entry.is_some_and(|entry| entry.flame);
        let title = match entry.map(|entry| &entry.what) {
            _ if rests => "Burners rest".to_owned(),
            Some(What::Segment(_, segment)) => segment.title.clone(),
            Some(What::Carousel(_)) => "Side by side".to_owned(),
            Some(What::Check(_)) => "Check".to_owned(),
            Some(What::AllOff) => "\"All off!\"".to_owned(),
            _ => String::new(),
        };
        let lit: Vec<String> = row
            .places
            .iter()
            .filter(|place| place.lit)
            .map(|place| {
                format!(
                    "{}: {}",
                    spot(inputs, place.at),
                    table.label(&place.learners)
                )
            })
            .collect();
        let others: Vec<String> = row
            .places
            .iter()
            .filter(|place| !place.lit)
            .map(|place| other(inputs, table, row, place))
            .collect();
        found.push(RoundRow {
            starts: hour(row.starts),
            title,
            lit: if lit.is_empty() {
                "-".to_owned()
            } else {
                lit.join("; ")
            },
            others: others.join("; "),
            free: row.free_adults.to_string(),
        });
    }
    found
}

fn other(inputs: &Inputs<'_>, table: &Timetable<'_>, row: &Row<'_>, place: &Place<'_>) -> String {
    let who = table.label(&place.learners);
    let all_off = table
        .entries
        .get(row.entry)
        .is_some_and(|one| one.what == What::AllOff);
    let does = match &place.does {
        Does::Entry if all_off => "behind the line, listening".to_owned(),
        Does::Entry => "their part".to_owned(),
        Does::Beside(_, segment) => segment.title.clone(),
        Does::Rehearse => "next turn, unlit".to_owned(),
        Does::Worksheet => "worksheet".to_owned(),
        Does::Cards if place.learners.len() == 1 => "study cards, alone".to_owned(),
        Does::Cards => "study cards, two and two".to_owned(),
        Does::Form => "written form".to_owned(),
        Does::Wait => "behind the line".to_owned(),
    };
    match place.at {
        Spot::Line => format!("{who}: {does}"),
        at => format!("{}, {who}: {does}", spot(inputs, at)),
    }
}

/// A place by name.
#[must_use]
pub fn spot(inputs: &Inputs<'_>, at: Spot) -> String {
    match at {
        Spot::Station(station) => names(inputs, &[station]),
        Spot::Spare(station) => format!("{}, second burner", names(inputs, &[station])),
        Spot::Bench(number) => format!("bench {number}"),
        Spot::Line => "behind the line".to_owned(),
    }
}

/// Minutes after midnight as a clock shows them.
#[must_use]
pub fn hour(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60 % 24, minutes % 60)
}
