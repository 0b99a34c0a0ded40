//! A session of a lesson as page 1 shows it: the clock, who is where, what goes first.

use super::Inputs;
use super::common::Prose;
use crate::compose::words;
use crate::course::timetable::{Entry, Place, Rotation, Timetable, What, Why};
use crate::nouns::{Segment, SegmentKind};
use schemars::JsonSchema;
use serde::Serialize;

/// A session on the clock.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SessionView {
    /// Its name.
    pub name: String,
    /// Whether the name is printed: there are several.
    pub named: bool,
    /// Whether nothing is lit because it is indoors.
    pub indoors: bool,
    /// Whether something is lit.
    pub lit: bool,
    /// The clock.
    pub clock: Vec<ClockRow>,
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
    /// Who is where while something is lit.
    pub rotation: Vec<RoundRow>,
    /// The groups and their learners, for the head of that table: `A (4)`.
    pub group_names: Vec<String>,
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
    /// `drop 1`, or `keep`.
    #[schemars(example = &"keep")]
    pub drop: String,
}

/// A round of a segment with a flame.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RoundRow {
    /// Start.
    pub starts: String,
    /// The segment.
    pub title: String,
    /// For each group, where it is.
    pub places: Vec<PlaceView>,
}

/// Where a group is in a round.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct PlaceView {
    /// The station's name, or where it waits.
    pub at: String,
    /// Whether it is lit.
    pub lit: bool,
    /// Who is at the flame: `learner 2`, `learners 1 to 3`, `all`.
    pub who: String,
}

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
            .map(|one| format!("{} ({} min)", one.segment.title, one.minutes))
            .collect()
    };
    let (dropped, others) = (no_room(true), no_room(false));
    let refused: Vec<String> = table
        .left_out
        .iter()
        .filter(|one| one.why != Why::NoRoom && asked(one))
        .map(|one| one.segment.title.clone())
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
    SessionView {
        name: table.name.clone(),
        named,
        indoors: table.indoors,
        lit: table.lit > 0,
        clock: table
            .entries
            .iter()
            .enumerate()
            .map(|(index, entry)| {
                let rotation = table.rotations.iter().find(|one| one.entry == index);
                row(inputs, table, entry, rotation)
            })
            .collect(),
        starts: hour(table.starts),
        ends: hour(table.ends),
        least_end: hour(table.least_ends),
        has_drops: table.entries.iter().any(|entry| entry.drop.is_some()),
        has_dropped: !dropped.is_empty(),
        dropped: dropped.join(", "),
        has_others: !others.is_empty(),
        others: others.join(", "),
        has_refused: !refused.is_empty(),
        refused: refused.join(", "),
        has_recall: !recall.is_empty(),
        recall,
        groups: groups.join(", "),
        rotation: table
            .rotations
            .iter()
            .flat_map(|rotation| rounds(inputs, table, rotation))
            .collect(),
        group_names: table
            .groups
            .iter()
            .map(|one| format!("{} ({})", one.name, one.learners))
            .collect(),
    }
}

fn row(
    inputs: &Inputs<'_>,
    table: &Timetable<'_>,
    entry: &Entry<'_>,
    rotation: Option<&Rotation>,
) -> ClockRow {
    let all = || "all together".to_owned();
    let (title, kind, who) = match &entry.what {
        What::Segment(_, segment) => (
            segment.title.as_str(),
            segment.kind.word(),
            match rotation {
                Some(rotation) => at_the_flame(inputs, rotation),
                None => unlit(inputs, table, entry, segment),
            },
        ),
        What::Recall(_) => ("What do we still know?", SegmentKind::SayIt.word(), all()),
        What::Drill => ("\"All off\" drill", "do together, unlit", all()),
        What::AllOff => (
            "\"All off!\" called, stoves lit",
            SegmentKind::DoTogether.word(),
            all(),
        ),
        What::Cooling => (
            "Cold before it is packed",
            SegmentKind::DoTogether.word(),
            all(),
        ),
        What::Break => ("Break", "nothing lit", String::new()),
    };
    ClockRow {
        starts: hour(entry.starts),
        minutes: entry.minutes.to_string(),
        title: title.to_owned(),
        kind: if entry.rounds > 1 {
            format!("{kind}; {} rounds", entry.rounds)
        } else {
            kind.to_owned()
        },
        flame: entry.flame,
        who,
        drop: entry
            .drop
            // A space that does not break: the column is narrow.
            .map_or_else(|| "keep".to_owned(), |place| format!("drop\u{a0}{place}")),
    }
}

/// How learners share the adults while nothing is lit, and at which stations.
fn unlit(
    inputs: &Inputs<'_>,
    table: &Timetable<'_>,
    entry: &Entry<'_>,
    segment: &Segment,
) -> String {
    let learners: u32 = table.groups.iter().map(|group| group.learners).sum();
    let adults = inputs.trip.people.instructors.max(1);
    let parts = learners.div_ceil(segment.learners_per_instructor.max(1));
    let split = match parts {
        1 => "all together".to_owned(),
        parts if parts <= adults => format!("in {}", part_words(parts)),
        parts => format!("in {}, {} at a time", part_words(parts), adults),
    };
    let looked_at = matches!(
        segment.kind,
        SegmentKind::Talk | SegmentKind::Show | SegmentKind::SayIt
    );
    let kitchens = &inputs.trip.kitchens;
    if looked_at || entry.stations.is_empty() || entry.stations.len() == kitchens.len() {
        return split;
    }
    format!("at {}, {split}", names(inputs, &entry.stations))
}

fn part_words(parts: u32) -> String {
    match parts {
        2 => "halves".to_owned(),
        parts => format!("{} parts", words::in_words(parts)),
    }
}

/// How many stations are lit at a time and how many learners are at each.
fn at_the_flame(inputs: &Inputs<'_>, rotation: &Rotation) -> String {
    let mut stations: Vec<usize> = Vec::new();
    let (mut lit, mut most) = (0, 0);
    for round in &rotation.rounds {
        let mut at: Vec<(usize, u32)> = Vec::new();
        for place in round.places.iter().flatten() {
            let Some((first, last)) = place.at_flame else {
                continue;
            };
            let learners = last + 1 - first;
            match at.iter_mut().find(|(station, _)| *station == place.station) {
                Some((_, count)) => *count += learners,
                None => at.push((place.station, learners)),
            }
            if !stations.contains(&place.station) {
                stations.push(place.station);
            }
        }
        lit = lit.max(at.len());
        most = at.iter().map(|(_, count)| *count).fold(most, u32::max);
    }
    stations.sort_unstable();
    let learners = match most {
        1 => "1 learner".to_owned(),
        most => format!("up to {most} learners"),
    };
    let each = if lit > 1 { " each" } else { "" };
    if lit == stations.len() {
        format!("at {}, {learners}{each}", names(inputs, &stations))
    } else {
        format!("{lit} of {} stations lit, {learners}{each}", stations.len())
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

/// The rounds of a rotation as rows.
fn rounds(inputs: &Inputs<'_>, table: &Timetable<'_>, rotation: &Rotation) -> Vec<RoundRow> {
    let title = match table.entries.get(rotation.entry).map(|entry| &entry.what) {
        Some(What::Segment(_, segment)) => segment.title.clone(),
        _ => String::new(),
    };
    rotation
        .rounds
        .iter()
        .map(|round| RoundRow {
            starts: hour(round.starts),
            title: title.clone(),
            places: round
                .places
                .iter()
                .zip(&table.groups)
                .map(|(place, group)| place_view(inputs, *place, group.learners))
                .collect(),
        })
        .collect()
}

fn place_view(inputs: &Inputs<'_>, place: Option<Place>, learners: u32) -> PlaceView {
    let Some(place) = place else {
        return PlaceView {
            at: "behind the line".to_owned(),
            lit: false,
            who: String::new(),
        };
    };
    PlaceView {
        at: names(inputs, &[place.station]),
        lit: place.at_flame.is_some(),
        who: match place.at_flame {
            None => String::new(),
            Some((1, last)) if last == learners => "all".to_owned(),
            Some((first, last)) if first == last => format!("learner {first}"),
            Some((first, last)) => format!("learners {first} to {last}"),
        },
    }
}

/// Minutes after midnight as a clock shows them.
#[must_use]
pub fn hour(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60 % 24, minutes % 60)
}
