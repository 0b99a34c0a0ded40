//! The segments that hold here, each after what it needs, with rounds and minutes for these
//! people and stoves.

use super::lay::whole;
use super::rotation;
use super::types::Group;
use crate::nouns::{AppliesWhen, Id, Kitchen, Module, Segment, SegmentKind, Trip};
use crate::plan;
use std::collections::{BTreeMap, BTreeSet};

/// The module of lighting: its first flame comes before every other flame.
const LIGHTING: &str = "lighting-and-flames";
/// Its segment in which stoves cool.
const COOLING: &str = "lighting-and-flames.cool-down";
/// Its 'all off' drill.
const DRILL: &str = "lighting-and-flames.all-off-drill";
/// Most learners in a group at one stove; common practice, no source.
const MOST_IN_A_GROUP: u32 = 6;

/// The people and stoves that a lesson has.
pub(super) struct Ground {
    /// Learners; everyone where none are learners.
    pub learners: u32,
    /// Who can lead an unlit segment.
    pub leaders: u32,
    /// Stations.
    pub kitchens: usize,
    /// Stations that can be lit side by side.
    pub lit: u32,
    /// The groups.
    pub groups: Vec<Group>,
}

impl Ground {
    pub(super) fn new(trip: &Trip) -> Self {
        let people = &trip.people;
        let learners = if people.learners == 0 {
            people.all().max(1)
        } else {
            people.learners
        };
        let kitchens = trip.kitchens.len().max(1);
        let per_stove = people.adults_per_lit_stove;
        let supervised = if per_stove > 0.0 {
            // A ratio of 0.5 gives two stoves an adult; a part of an adult lights none.
            libm::floor(f64::from(people.instructors) / per_stove + 1e-9) as u32
        } else {
            u32::MAX
        };
        let lit = supervised
            .min(trip.course.stations)
            .min(u32::try_from(kitchens).unwrap_or(u32::MAX));
        let wanted = u32::try_from(kitchens).unwrap_or(u32::MAX);
        let count = wanted
            .max(learners.div_ceil(MOST_IN_A_GROUP))
            .clamp(1, learners);
        let groups = (0..count)
            .map(|index| Group {
                name: group_name(index),
                learners: learners / count + u32::from(index < learners % count),
            })
            .collect();
        Self {
            learners,
            leaders: people.instructors.max(1),
            kitchens,
            lit,
            groups,
        }
    }
}

fn group_name(index: u32) -> String {
    match u8::try_from(index) {
        Ok(small) if small < 26 => char::from(b'A' + small).to_string(),
        _ => (index + 1).to_string(),
    }
}

/// A segment with what a timetable needs of it.
pub(super) struct Piece<'a> {
    pub module: &'a Module,
    pub segment: &'a Segment,
    /// `module.segment`.
    pub name: Id,
    /// Place of its module among the subjects; none outside them.
    pub rank: Option<usize>,
    /// Worth of having it at all.
    pub worth: u32,
    /// Worth of each objective that it covers first.
    pub covers: Vec<(Id, u32)>,
    /// Fewest minutes of a round.
    pub least: u32,
    /// Usual minutes of a round.
    pub usual: u32,
    /// Rounds until everyone had a turn.
    pub rounds: u32,
    /// Who is lit together at one station and how often, when something is lit.
    pub parties: Vec<Party>,
    /// Stations lit side by side.
    pub together: usize,
    /// Stations that it can be lit at.
    pub places: Vec<usize>,
    /// Indices of what must come before, each less than its own.
    pub needs: Vec<usize>,
}

/// Groups at one lit station, and how many turns they need until each learner had one.
pub(super) struct Party {
    /// Indices of the groups.
    pub groups: Vec<usize>,
    /// Turns.
    pub turns: u32,
}

impl Piece<'_> {
    /// Whether learners do something at a flame in it.
    pub(super) fn does_lit(&self) -> bool {
        self.segment.flame && !looked_at(self.segment.kind)
    }

    /// Whether stoves cool in it.
    pub(super) fn cools(&self) -> bool {
        self.name == COOLING
    }

    /// Whether it is the 'all off' drill.
    pub(super) fn drills(&self) -> bool {
        self.name == DRILL
    }

    /// Fewest minutes, all rounds.
    pub(super) const fn least_in_all(&self) -> u32 {
        self.least * self.rounds
    }

    /// Usual minutes, all rounds.
    pub(super) const fn usual_in_all(&self) -> u32 {
        self.usual * self.rounds
    }
}

/// What the lesson is about: the focus, or every hazard of which safety requires a part here.
pub(super) fn subjects<'a>(trip: &Trip, modules: &[&'a Module]) -> Vec<&'a Module> {
    let focus = &trip.course.focus;
    if focus.is_empty() {
        let requires = |module: &Module| {
            let mut segments = module.segments.iter();
            segments.any(|one| one.required && plan::applies(&one.applies, trip))
        };
        let hazards = modules.iter().copied().filter(|one| one.hazard);
        return hazards.filter(|one| requires(one)).collect();
    }
    focus
        .iter()
        .filter_map(|id| modules.iter().copied().find(|module| module.id == *id))
        .collect()
}

/// Every segment that holds here, each after what it needs: unlit ones, those with a flame, then
/// what follows a flame.
pub(super) fn gather<'a>(trip: &Trip, ground: &Ground, modules: &[&'a Module]) -> Vec<Piece<'a>> {
    let subjects = subjects(trip, modules);
    let mut sorted = modules.to_vec();
    sorted.sort_by_key(|module| (module.order, &module.id));
    let written: Vec<(&Module, &Segment)> = sorted
        .iter()
        .flat_map(|module| {
            module
                .segments
                .iter()
                .map(move |segment| (*module, segment))
        })
        .filter(|(_, segment)| plan::applies(&segment.applies, trip))
        .filter(|(_, segment)| !(segment.flame && trip.without_flame()))
        .collect();
    let names: Vec<Id> = written
        .iter()
        .map(|(module, segment)| format!("{}.{}", module.id, segment.id))
        .collect();
    let (order, needs) = order(&written, &names, &subjects);
    order
        .iter()
        .enumerate()
        .map(|(at, index)| {
            let (module, segment) = written[*index];
            let needs = needs[*index]
                .iter()
                .filter_map(|need| order.iter().position(|other| other == need))
                // In a ring of segments one must go first.
                .filter(|position| *position < at)
                .collect();
            piece(
                trip,
                ground,
                &subjects,
                (module, segment),
                names[*index].clone(),
                needs,
            )
        })
        .collect()
}

/// The order of segments (indices), and what each needs (indices).
fn order(
    written: &[(&Module, &Segment)],
    names: &[Id],
    subjects: &[&Module],
) -> (Vec<usize>, Vec<BTreeSet<usize>>) {
    let by_name: BTreeMap<&str, usize> = names
        .iter()
        .enumerate()
        .map(|(index, name)| (name.as_str(), index))
        .collect();
    let cooling = by_name.get(COOLING).copied();
    let mut needs: Vec<BTreeSet<usize>> = written
        .iter()
        .map(|(module, segment)| {
            segment
                .after
                .iter()
                .filter_map(|before| {
                    let own = format!("{}.{before}", module.id);
                    by_name
                        .get(before.as_str())
                        .or_else(|| by_name.get(own.as_str()))
                        .copied()
                })
                .collect()
        })
        .collect();
    // Cooling goes wherever the last flame is; what follows it follows every flame.
    let follows: Vec<bool> = needs
        .iter_mut()
        .map(|needs| cooling.is_some_and(|cooling| needs.remove(&cooling)))
        .collect();
    if let Some(cooling) = cooling {
        needs[cooling].clear();
    }
    if let Some(drill) = by_name.get(DRILL).copied() {
        let before_drill = closure(&needs, drill);
        for index in 0..written.len() {
            if written[index].1.flame && index != drill && !before_drill.contains(&index) {
                needs[index].insert(drill);
            }
        }
    }
    // What safety requires with nothing lit comes before anything is lit.
    let lit_before = |needs: &[BTreeSet<usize>], index: usize| {
        let mut before = closure(needs, index).into_iter();
        before.any(|other| written[other].1.flame)
    };
    let first: Vec<usize> = (0..written.len())
        .filter(|index| {
            let segment = written[*index].1;
            segment.required && !segment.flame && !follows[*index] && !lit_before(&needs, *index)
        })
        .collect();
    for index in 0..written.len() {
        if written[index].1.flame {
            needs[index].extend(first.iter().copied());
        }
    }
    let phase = |index: usize| {
        if written[index].1.flame {
            1
        } else if follows[index] || lit_before(&needs, index) {
            2
        } else {
            0
        }
    };
    let keys: Vec<(u32, bool, usize, usize)> = (0..written.len())
        .map(|index| {
            let module = written[index].0;
            let rank = subjects.iter().position(|one| one.id == module.id);
            let phase = phase(index);
            let rank = if phase == 1 {
                rank.unwrap_or(usize::MAX)
            } else {
                0
            };
            (phase, phase != 1 || module.id != LIGHTING, rank, index)
        })
        .collect();
    let mut waiting: BTreeSet<usize> = (0..written.len()).collect();
    let mut order = Vec::new();
    while !waiting.is_empty() {
        let ready = waiting
            .iter()
            .copied()
            .filter(|index| needs[*index].iter().all(|need| !waiting.contains(need)))
            .min_by_key(|index| keys[*index])
            .or_else(|| waiting.first().copied());
        let Some(next) = ready else { break };
        waiting.remove(&next);
        order.push(next);
    }
    (order, needs)
}

/// All that something needs, and what that needs.
fn closure(needs: &[BTreeSet<usize>], of: usize) -> BTreeSet<usize> {
    let mut found = BTreeSet::new();
    let mut open: Vec<usize> = needs[of].iter().copied().collect();
    while let Some(next) = open.pop() {
        if found.insert(next) {
            open.extend(needs[next].iter().copied());
        }
    }
    found
}

fn piece<'a>(
    trip: &Trip,
    ground: &Ground,
    subjects: &[&Module],
    (module, segment): (&'a Module, &'a Segment),
    name: Id,
    needs: Vec<usize>,
) -> Piece<'a> {
    let rank = subjects.iter().position(|one| one.id == module.id);
    // The first subject weighs most, the last twice what lies outside them; hazards alike.
    let weight = match rank {
        Some(rank) if !trip.course.focus.is_empty() => subjects.len() - rank + 2,
        Some(_) => 2,
        None => 1,
    } as u32;
    let covers: Vec<(Id, u32)> = segment
        .objectives
        .iter()
        .map(|id| format!("{}.{id}", module.id))
        .filter(|id| !trip.course.known.contains(id))
        .flat_map(|id| {
            steps(segment.kind, segment.flame)
                .iter()
                .map(move |(step, worth)| (format!("{id} {step}"), worth * weight))
        })
        .collect();
    let watched = segment.learners_per_instructor.max(1);
    let mut places: Vec<usize> = (0..trip.kitchens.len())
        .filter(|index| {
            let kitchen = &trip.kitchens[*index];
            burns(&module.applies, kitchen) && burns(&segment.applies, kitchen)
        })
        .collect();
    if places.is_empty() {
        places = (0..trip.kitchens.len()).collect();
    }
    let parties = parties(ground, segment.kind, watched);
    let together = (ground.lit.max(1) as usize).min(places.len().max(1));
    let rounds = if segment.flame {
        rotation::order(&parties, together).len() as u32
    } else if segment.kind == SegmentKind::YouDoIt {
        (ground.groups.len() as u32).div_ceil(ground.leaders)
    } else {
        ground
            .learners
            .div_ceil(watched.saturating_mul(ground.leaders))
    };
    let least = whole(segment.least).max(1);
    Piece {
        module,
        segment,
        name,
        rank,
        worth: weight,
        covers,
        least,
        usual: whole(segment.usual).max(least),
        rounds: rounds.max(1),
        parties,
        together,
        places,
        needs,
    }
}

/// Whether a kitchen has the fuel and stove that something is about.
fn burns(when: &AppliesWhen, kitchen: &Kitchen) -> bool {
    (when.fuel.is_empty() || when.fuel.contains(&kitchen.fuel.kind))
        && (when.stove.is_empty() || when.stove.contains(&kitchen.stove.family))
}

/// Whether learners only look on or talk.
const fn looked_at(kind: SegmentKind) -> bool {
    matches!(
        kind,
        SegmentKind::Show | SegmentKind::Talk | SegmentKind::SayIt
    )
}

/// The steps that a segment takes with an objective and what each is worth, once: so that a
/// second telling adds little, and doing at the flame what was done dry still adds much.
const fn steps(kind: SegmentKind, flame: bool) -> &'static [(&'static str, u32)] {
    match (kind, flame) {
        (SegmentKind::Talk | SegmentKind::Show, false) => &[("shown", 1)],
        (SegmentKind::Talk | SegmentKind::Show, true) => &[("shown", 1), ("lit", 1)],
        (SegmentKind::SayIt, true) => &[("shown", 1), ("lit", 1), ("practised", 2)],
        (SegmentKind::SayIt | SegmentKind::DryRun, _)
        | (SegmentKind::DoTogether | SegmentKind::YouDoIt, false) => {
            &[("shown", 1), ("practised", 2)]
        }
        (SegmentKind::DoTogether | SegmentKind::YouDoIt, true) => &[
            ("shown", 1),
            ("lit", 1),
            ("practised", 2),
            ("practised lit", 2),
        ],
        (SegmentKind::Check, _) => &[("shown", 1), ("practised", 2), ("assessed", 2)],
    }
}

/// Who is at one lit station together: as many groups as one adult may watch where they look on,
/// else each group alone, with as many turns as one adult needs to watch all of it.
fn parties(ground: &Ground, kind: SegmentKind, watched: u32) -> Vec<Party> {
    let mut parties: Vec<(u32, Party)> = Vec::new();
    for (index, group) in ground.groups.iter().enumerate() {
        let room = parties
            .iter_mut()
            .find(|(count, _)| looked_at(kind) && count + group.learners <= watched);
        match room {
            Some((count, party)) => {
                *count += group.learners;
                party.groups.push(index);
            }
            None => parties.push((
                group.learners,
                Party {
                    groups: vec![index],
                    turns: group.learners.div_ceil(watched).max(1),
                },
            )),
        }
    }
    parties.into_iter().map(|(_, party)| party).collect()
}
