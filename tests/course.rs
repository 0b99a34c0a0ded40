//! The timetable: what is taught when, where and by how many, held to its rules on seeded
//! courses, and the choice of segments to a search through every set.

use leeside::course::timetable::{self, Course, Covering, Timetable, What, Why};
use leeside::diag::{Outcome, report};
use leeside::nouns::{Fallback, Library, SegmentKind, Session, Trip};
use leeside::plan::Plan;
use leeside::units::Time;
use leeside::{check, load, plan};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

mod choice;

static LIBRARY: LazyLock<Library> = LazyLock::new(|| {
    let files = good(load::library(None));
    good(check::library(&files)).0
});

/// The lesson of ten teenagers, three stoves and two adults, with its numbers.
static BOATHOUSE: LazyLock<(Trip, Plan)> = LazyLock::new(|| {
    let trip = demo("boathouse-evening.yaml");
    let plan = good(plan::plan(&trip, &LIBRARY));
    (trip, plan)
});

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

fn demo(name: &str) -> Trip {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content/trips");
    let written = good(load::trip_file(&path.join(name)));
    good(check::trip(&written, &LIBRARY)).0
}

/// The course of a trip; `plan` only has to hold the same kitchens.
fn course<'a>(trip: &'a Trip, plan: &Plan) -> Outcome<Course<'a>> {
    let modules = timetable::applying(trip, &LIBRARY);
    timetable::timetable(trip, &LIBRARY, plan, &modules)
}

/// Start and name of each line, in words.
fn lines(table: &Timetable<'_>) -> Vec<String> {
    table
        .entries
        .iter()
        .map(|entry| {
            let what = match &entry.what {
                What::Segment(module, segment) => format!("{}.{}", module.id, segment.id),
                What::Recall(_) => "recall".to_owned(),
                What::Drill => "drill".to_owned(),
                What::AllOff => "all off".to_owned(),
                What::Cooling => "cooling".to_owned(),
                What::Break => "break".to_owned(),
            };
            let lit = if entry.flame { " lit" } else { "" };
            format!("{}:{:02} {what}{lit}", entry.starts / 60, entry.starts % 60)
        })
        .collect()
}

fn place(lines: &[String], wanted: &str) -> usize {
    lines
        .iter()
        .position(|line| line.ends_with(wanted))
        .unwrap_or_else(|| panic!("no `{wanted}` in {lines:#?}"))
}

/// Minutes of segments of the library, all rounds of one each: (least, usual).
fn minutes_of(names: &[&str]) -> (f64, f64) {
    let (mut least, mut usual) = (0.0, 0.0);
    for name in names {
        let (module, id) = name.split_once('.').unwrap();
        let mut segments = LIBRARY.modules[module].segments.iter();
        let segment = segments.find(|one| one.id == id).unwrap();
        least += segment.least.in_minutes();
        usual += segment.usual.in_minutes();
    }
    (least, usual)
}

/// What safety requires of the boathouse's modules with nothing lit.
const REQUIRED: [&str; 8] = [
    "carbon-monoxide.out-first",
    "canister-stoves.join-dry",
    "liquid-fuel-stoves.prime-dry",
    "alcohol-stoves.water-dry-run",
    "burns-scalds-tip-over.cold-pour",
    "burns-scalds-tip-over.scald-drill",
    "lighting-and-flames.dry-lighting",
    "lighting-and-flames.all-off-drill",
];

#[test]
fn ten_teenagers_three_stoves_two_adults() {
    let (trip, plan) = &*BOATHOUSE;
    let course = good(course(trip, plan));
    let [evening] = &course.sessions[..] else {
        panic!("one session");
    };
    let lines = lines(evening);
    assert!(lines[0].starts_with("18:00 "), "{lines:#?}");
    assert!(evening.ends <= 18 * 60 + 150 && evening.least_ends <= evening.ends);
    // By hand: required 42 at the least and 68 as usual; ten learners one to one at two lit
    // stations are five rounds of 10 to 15; cooling 10, a break 10: no less than 112 minutes. With
    // usual minutes (68 + 75 + 12 + 10) the evening would not hold the flame; it must.
    assert_eq!(minutes_of(&REQUIRED), (42.0, 68.0));
    assert_eq!(
        minutes_of(&["lighting-and-flames.first-flame"]),
        (10.0, 15.0)
    );
    assert!(evening.least_ends - evening.starts >= 112);
    let flame = &evening.entries[place(&lines, "first-flame lit")];
    assert_eq!((flame.rounds, flame.least), (5, 50));
    assert!((50..=75).contains(&flame.minutes));
    // Everything required is in, before the first flame, and stays.
    for name in REQUIRED {
        let at = place(&lines, name);
        assert!(at < place(&lines, "first-flame lit"), "{name}");
        assert_eq!(evening.entries[at].drop, None, "{name}");
    }
    // Say and dry-run first, then the drill, the first flame before every other flame, then the
    // call, and cooling last.
    let order = [
        "burns-scalds-tip-over.cold-pour",
        "lighting-and-flames.dry-lighting",
        "lighting-and-flames.all-off-drill",
        "lighting-and-flames.first-flame lit",
        "all off lit",
        "lighting-and-flames.cool-down",
    ];
    let places: Vec<usize> = order.iter().map(|wanted| place(&lines, wanted)).collect();
    assert!(places.is_sorted(), "{lines:#?}");
    assert_eq!(*places.last().unwrap(), lines.len() - 1);
    assert_eq!(
        lines.iter().filter(|line| line.ends_with("break")).count(),
        1
    );
    // Two adults, one beside each lit stove: two lit, the third cold.
    assert_eq!(evening.lit, 2);
    assert_eq!(evening.groups.len(), 3);
    // White gas is primed at the only station that burns it: ten rounds of 10, no room.
    let primed = evening
        .left_out
        .iter()
        .find(|one| one.segment.id == "prime-lit")
        .unwrap();
    assert_eq!((primed.minutes, primed.why), (100, Why::NoRoom));
    // Safety kit: 10 L a live place.
    let safety = &course.safety;
    assert_eq!((safety.live, safety.burn_kits, safety.lighters), (2, 2, 1));
    assert!((safety.water.in_litres() - 20.0).abs() < 1e-9);
    assert_eq!(safety.hair_ties, 10);
    assert_eq!(course.part_used[0].0, "F-009");
    // Each of the three stations is lit in some round, so that each needs its stove.
    assert!(
        course.kit.contains(&("stove and fuel".to_owned(), 3)),
        "{:?}",
        course.kit
    );
    // In the storm: 45 minutes indoors, nothing lit, and what is lit is refused by name.
    let storm = course.fallback.as_ref().unwrap();
    assert!(storm.ends <= 18 * 60 + 45);
    assert!(storm.entries.iter().all(|entry| !entry.flame) && storm.lit == 0);
    let refused: Vec<&str> = storm
        .left_out
        .iter()
        .filter(|one| one.why == Why::Indoors)
        .map(|one| one.segment.id.as_str())
        .collect();
    assert!(refused.contains(&"first-flame") && refused.contains(&"prime-lit"));
}

#[test]
fn practice_fuel_is_power_by_time_over_heating_value() {
    let (trip, plan) = &*BOATHOUSE;
    let course = good(course(trip, plan));
    assert_eq!(course.practice_fuel.len(), 3);
    for one in &course.practice_fuel {
        // By hand: a joule is a watt second; grams are joules over joules a gram.
        let stove = &trip.kitchens[one.station].stove;
        let value = plan.kitchens[one.station].fuel.heating_value;
        let burnt = f64::from(one.minutes) * 60.0 * stove.power.in_watts()
            / (value.in_megajoules_per_kilogram() * 1000.0)
            + f64::from(one.lightings) * stove.to_light.in_grams();
        assert!((one.burnt.in_grams() - burnt).abs() < 1e-6, "{one:?}");
        assert!(one.set_out >= one.burnt && one.set_out.in_grams() - burnt < 5.0 + 1e-9);
    }
}

#[test]
fn several_sessions_recall_and_never_teach_twice() {
    let (trip, plan) = &*BOATHOUSE;
    let mut trip = trip.clone();
    trip.course.sessions = [18 * 60, 19 * 60, 9 * 60]
        .iter()
        .zip(["One", "Two", "Three"])
        .map(|(starts, name)| Session {
            name: name.to_owned(),
            length: Time::minutes(75.0),
            starts: *starts,
        })
        .collect();
    let course = good(course(&trip, plan));
    assert_eq!(course.sessions.len(), 3);
    let mut seen = BTreeSet::new();
    for (index, table) in course.sessions.iter().enumerate() {
        let recalls = matches!(table.entries[0].what, What::Recall(_));
        assert_eq!(recalls, index > 0, "{}", table.name);
        assert!(table.ends <= table.starts + 75, "{}", table.name);
        for entry in &table.entries {
            if let What::Segment(module, segment) = entry.what
                && segment.id != "cool-down"
            {
                let name = format!("{}.{}", module.id, segment.id);
                assert!(seen.insert(name.clone()), "{name} twice");
            }
        }
        keeps_the_rules(&trip, table);
    }
    let lit_when = course
        .coverage
        .iter()
        .find(|one| one.objective == "light-from-side")
        .unwrap();
    assert_eq!(lit_when.sessions.len(), 3);
    assert!(
        lit_when
            .sessions
            .iter()
            .any(|one| *one >= Some(Covering::Practised))
    );
    for one in &course.coverage {
        for (session, covering) in course.sessions.iter().zip(&one.sessions) {
            let taught = session.entries.iter().any(|entry| {
                matches!(entry.what, What::Segment(module, segment)
                    if module.id == one.module.id && segment.objectives.contains(&one.objective))
            });
            assert_eq!(taught, covering.is_some(), "{}", one.objective);
        }
    }
}

#[test]
fn what_people_and_stoves_cannot_give_is_refused_in_words() {
    let (trip, plan) = &*BOATHOUSE;
    let refused = |change: &dyn Fn(&mut Trip)| {
        let mut trip = trip.clone();
        change(&mut trip);
        let problems = course(&trip, plan).expect_err("a problem");
        let one = problems[0].clone();
        (
            one.code,
            one.path.unwrap_or_default(),
            one.message,
            one.help,
        )
    };
    let (code, path, message, help) =
        refused(&|trip| trip.course.sessions[0].length = Time::minutes(30.0));
    assert_eq!((code, path.as_str()), ("course.minutes", "course.minutes"));
    // 42 minutes at the least: see above.
    assert!(message.starts_with("12 minutes are missing"), "{message}");
    assert!(help.starts_with("write `minutes: 42` or more"), "{help}");
    for title in ["Lighting, with nothing in it", "All off"] {
        assert!(message.contains(title), "{message}");
    }
    let (code, path, ..) = refused(&|trip| {
        trip.course.fallback = Some(Fallback {
            length: Time::minutes(20.0),
            indoors: true,
        });
    });
    assert_eq!(
        (code, path.as_str()),
        ("course.minutes", "course.fallback.minutes")
    );
    let (code, path, message, _) = refused(&|trip| trip.course.stations = 4);
    assert_eq!(
        (code, path.as_str()),
        ("course.stations", "course.stations")
    );
    assert!(message.contains('4') && message.contains('3'), "{message}");
    let (code, path, message, _) = refused(&|trip| trip.people.instructors = 0);
    assert_eq!(
        (code, path.as_str()),
        ("course.adults", "people.instructors")
    );
    assert!(message.contains("no stove can be lit"), "{message}");
}

/// What every timetable must keep, whatever was asked for.
fn keeps_the_rules(trip: &Trip, table: &Timetable<'_>) {
    let mut now = table.starts;
    for entry in &table.entries {
        assert_eq!(entry.starts, now, "a gap or an overlap");
        assert!(entry.minutes >= entry.least && entry.minutes % entry.rounds == 0);
        now = entry.ends();
    }
    assert_eq!(table.ends, now);
    if trip.course.stated {
        assert!(
            table.ends <= table.starts + table.length,
            "{:#?}",
            lines(table)
        );
    }
    let at = |module: &str, segment: &str| {
        table.entries.iter().position(|entry| {
            matches!(entry.what, What::Segment(one, other)
                if one.id == module && other.id == segment)
        })
    };
    for (index, entry) in table.entries.iter().enumerate() {
        let What::Segment(module, segment) = entry.what else {
            continue;
        };
        assert!(!(segment.flame && table.indoors), "a flame indoors");
        for before in &segment.after {
            let (other, id) = before.split_once('.').unwrap_or((&module.id, before));
            let cooling = id == "cool-down" || segment.id == "cool-down";
            if let Some(place) = at(other, id).filter(|_| !cooling) {
                assert!(place < index, "{before} must be before {}", segment.id);
            }
        }
    }
    drops_leave_what_is_kept_whole(table);
    // Nothing is lit in a break or just before it; and what is longer than an hour and a half has
    // one, where a segment with nothing lit ends well away from start and end.
    let mut rests = 0;
    let mut could_rest = false;
    for (index, entry) in table.entries.iter().enumerate() {
        if entry.what == What::Break {
            rests += 1;
            assert!(!entry.flame && entry.drop.is_none());
            assert!(index > 0 && !table.entries[index - 1].flame);
        }
        let (before, after) = (entry.ends() - table.starts, table.ends - entry.ends());
        could_rest |= !entry.flame && before >= 20 && after >= 20;
    }
    assert!(table.ends - table.starts <= 100 || !could_rest || rests > 0);
    let lit: Vec<usize> = (0..table.entries.len())
        .filter(|index| table.entries[*index].flame)
        .collect();
    if let (Some(first), Some(last)) = (lit.first(), lit.last()) {
        let what = |index: usize| &table.entries[index].what;
        assert_eq!(*what(*last), What::AllOff);
        let cools = |what: &What<'_>| match what {
            What::Cooling => true,
            What::Segment(_, segment) => segment.id == "cool-down",
            _ => false,
        };
        assert!(cools(what(last + 1)), "cooling follows the last flame");
        assert_eq!(table.entries[last + 1].drop, None);
        assert!((0..*first).any(|index| match what(index) {
            What::Drill => true,
            What::Segment(_, segment) => segment.id == "all-off-drill",
            _ => false,
        }));
    }
    // Stations: never more lit than adults, stoves and the file allow, and no two groups at one
    // but where a party looks on.
    let adults = trip.people.adults_per_lit_stove;
    for rotation in &table.rotations {
        let What::Segment(_, segment) = table.entries[rotation.entry].what else {
            panic!("a rotation without a segment");
        };
        let looks_on = segment.kind == SegmentKind::Show;
        let mut turns: Vec<Vec<u32>> = vec![Vec::new(); table.groups.len()];
        let mut starts = table.entries[rotation.entry].starts;
        for round in &rotation.rounds {
            assert_eq!(round.starts, starts);
            starts += round.minutes;
            let mut stations = BTreeSet::new();
            let mut lit: BTreeMap<usize, u32> = BTreeMap::new();
            for (group, place) in round.places.iter().enumerate() {
                let Some(place) = place else {
                    continue;
                };
                assert!(place.station < trip.kitchens.len());
                let alone = stations.insert(place.station);
                let beside = looks_on && lit.contains_key(&place.station);
                assert!(alone || (beside && place.at_flame.is_some()), "a clash");
                if let Some((first, last)) = place.at_flame {
                    *lit.entry(place.station).or_insert(0) += last + 1 - first;
                    turns[group].extend(first..=last);
                }
            }
            assert!(!lit.is_empty(), "a round for nobody");
            let count = lit.len() as f64;
            assert!(count * adults <= f64::from(trip.people.instructors) + 1e-9);
            assert!(count <= f64::from(trip.course.stations.min(trip.kitchens.len() as u32)));
            // The ratio of the segment: so many learners at each flame, and no more.
            assert!(
                lit.values()
                    .all(|at| *at <= segment.learners_per_instructor)
            );
        }
        assert_eq!(starts, table.entries[rotation.entry].ends());
        for (group, turns) in table.groups.iter().zip(turns) {
            let everyone: Vec<u32> = (1..=group.learners).collect();
            assert_eq!(turns, everyone, "each learner of {} once", group.name);
        }
    }
}

/// Whatever is dropped, first marks first, nothing that stays needs it.
fn drops_leave_what_is_kept_whole(table: &Timetable<'_>) {
    let marks: BTreeSet<u32> = table
        .entries
        .iter()
        .filter_map(|entry| entry.drop)
        .collect();
    assert_eq!(marks, (1..=marks.len() as u32).collect(), "each mark once");
    let named = |module: &str, id: &str| {
        table.entries.iter().find(|entry| {
            matches!(entry.what, What::Segment(one, other)
                if one.id == module && other.id == id)
        })
    };
    for entry in &table.entries {
        let What::Segment(module, segment) = entry.what else {
            assert_eq!(entry.drop, None);
            continue;
        };
        for before in &segment.after {
            let (other, id) = before.split_once('.').unwrap_or((&module.id, before));
            if id == "cool-down" || segment.id == "cool-down" {
                continue;
            }
            let Some(mark) = named(other, id).and_then(|needed| needed.drop) else {
                continue;
            };
            assert!(
                entry.drop.is_some_and(|own| own < mark),
                "{} needs {before}, which goes first",
                segment.id
            );
        }
    }
}

/// What safety requires with nothing lit comes before the first flame of a course, whatever the
/// subjects.
fn required_before_any_flame(trip: &Trip, course: &Course<'_>) {
    let all: Vec<_> = course
        .sessions
        .iter()
        .flat_map(|table| &table.entries)
        .collect();
    let Some(first) = all.iter().position(|entry| entry.flame) else {
        return;
    };
    for module in timetable::applying(trip, &LIBRARY) {
        let mut segments = module.segments.iter();
        let required = segments
            .by_ref()
            .filter(|one| one.required && !one.flame && plan::applies(&one.applies, trip));
        for segment in required {
            let held = all[..first].iter().any(|entry| {
                matches!(entry.what, What::Segment(one, other)
                    if one.id == module.id && other.id == segment.id)
            });
            assert!(held, "{}.{} comes before any flame", module.id, segment.id);
        }
    }
}

fn cases(count: u32) -> ProptestConfig {
    ProptestConfig {
        cases: count,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(cases(3000))]

    /// Courses of any size: people, adults, stations, minutes, subjects, sessions.
    #[test]
    fn every_timetable_keeps_the_rules(
        learners in 1u32..40,
        instructors in 0u32..6,
        adults in prop::sample::select(vec![0.0, 0.5, 1.0, 2.0]),
        stations in 1u32..4,
        minutes in 40u32..300,
        sessions in 1usize..4,
        subjects in prop::collection::vec(any::<prop::sample::Index>(), 0..5),
        known in prop::collection::vec(any::<prop::sample::Index>(), 0..5),
        indoors: bool,
        stated: bool,
    ) {
        let (boathouse, plan) = &*BOATHOUSE;
        let mut trip = boathouse.clone();
        trip.people.learners = learners;
        trip.people.instructors = instructors;
        trip.people.adults_per_lit_stove = adults;
        let ids: Vec<&String> = LIBRARY.modules.keys().collect();
        let mut focus: Vec<String> = Vec::new();
        for index in subjects {
            let id = (*index.get(&ids)).clone();
            if !focus.contains(&id) {
                focus.push(id);
            }
        }
        let objectives: Vec<String> = LIBRARY
            .modules
            .values()
            .flat_map(|module| module.objectives.keys().map(|id| format!("{}.{id}", module.id)))
            .collect();
        trip.course.known = known.iter().map(|index| index.get(&objectives).clone()).collect();
        trip.course.focus = focus;
        trip.course.stations = stations;
        trip.course.indoors = indoors;
        trip.course.stated = stated;
        trip.course.fallback = None;
        trip.course.sessions = (0..sessions)
            .map(|index| Session {
                name: format!("Session {}", index + 1),
                length: Time::minutes(f64::from(minutes)),
                starts: 540,
            })
            .collect();
        match course(&trip, plan) {
            Ok(course) => {
                prop_assert_eq!(course.sessions.len(), sessions);
                for table in &course.sessions {
                    keeps_the_rules(&trip, table);
                }
                required_before_any_flame(&trip, &course);
                // What safety requires of the subjects is in one of the sessions.
                for module in &course.subjects {
                    for segment in module.segments.iter().filter(|one| one.required && !one.flame) {
                        let held = course.sessions.iter().flat_map(|table| &table.entries).any(
                            |entry| matches!(entry.what, What::Segment(one, other)
                                if one.id == module.id && other.id == segment.id),
                        );
                        prop_assert!(
                            held || !plan::applies(&segment.applies, &trip),
                            "{}.{} is missing", module.id, segment.id
                        );
                    }
                }
            }
            Err(problems) => {
                prop_assert!(stated, "nobody asked, so nothing can be asked wrongly");
                for problem in &problems {
                    prop_assert!(["course.minutes", "course.adults"].contains(&problem.code));
                }
            }
        }
    }
}
