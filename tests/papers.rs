//! The papers around a lesson say what is true of this lesson: its hazards, its adults, its stoves,
//! its age; what is asked for is what its hours use; nothing is made of a lesson that lights nothing
//! but what it needs.

use crate::support::content;
use leeside::compose::{Engine, Options, Sheet, compose};
use leeside::course::timetable::{self, OWN_STOVE, Spot, thing};
use leeside::diag::{Outcome, report};
use leeside::nouns::{Library, Signal, Trip};
use leeside::plan::{self, Plan};
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Engine)> =
    LazyLock::new(|| (content::library(), good(Engine::new(&content::templates()))));

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

/// A lesson with its papers.
struct Lesson {
    trip: Trip,
    plan: Plan,
    sheets: Vec<Sheet>,
}

impl Lesson {
    fn of(name: &str, text: &str) -> Self {
        let (library, engine) = &*BUILT_IN;
        let trip = content::trip(name, text, library);
        let planned = good(plan::plan(&trip, library));
        let plan = good(timetable::with_practice(&trip, library, planned));
        let sheets = good(compose(&trip, &plan, library, engine, &Options::default()));
        Self { trip, plan, sheets }
    }

    fn example(name: &str) -> Self {
        let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("the example");
        Self::of(name, &text)
    }

    /// The text of every sheet of a name, one after the other; empty where there is none.
    fn sheet(&self, name: &str) -> String {
        let named = self.sheets.iter().filter(|one| one.name == name);
        named.map(|one| one.markdown.as_str()).collect()
    }

    fn course(&self) -> timetable::Course<'_> {
        let library = &BUILT_IN.0;
        let modules = timetable::applying(&self.trip, library);
        good(timetable::timetable(
            &self.trip, library, &self.plan, &modules,
        ))
    }
}

/// Two alcohol burners, two adults, an allergy, and a shorter plan indoors.
const MEADOW: &str = "\
kind: lesson
title: Cocoa under the alders
starts: 2027-05-19
units: metric
people:
  learners: 9
  instructors: 2
  youngest: 11
  diet: milk, strict
menu:
  supper:
    boil: 0.2 L
water_treatment: tap
place: outdoors
elevation: 20 m
day: 13 C
wind: breezy
stations:
  - name: Heron
    stove: alcohol
    windscreen: full
    pots:
      - aluminium 1 L
  - name: Otter
    stove: alcohol
    windscreen: full
    pots:
      - aluminium 1 L
course:
  minutes: 75
  starts: 16:00
  focus:
    - alcohol-stoves
  fallback:
    minutes: 75
    place: indoors
restrictions:
  stoves: yes
  stage: none
  checked: 2027-05-18, meadow warden
";

/// Grown-ups, high up, who boil their water.
const SADDLE: &str = "\
kind: lesson
title: Supper under the saddle
starts: 2027-08-06
units: metric
people:
  learners: 6
  instructors: 3
  youngest: 18
menu:
  supper:
    boil: 0.45 L
water_treatment: boil
place: outdoors
elevation: 3250 m
day: 6 C
wind: breezy
stations:
  - name: Crag
    stove: white gas
    windscreen: full
    pots:
      - aluminium 2.5 L
course:
  minutes: 120
  starts: 18:30
  latitude: 46
  focus:
    - liquid-fuel-stoves
restrictions:
  stoves: yes
  stage: none
  checked: 2027-08-05, hut keeper
";

const LIT: [&str; 4] = [
    "boathouse-evening",
    "family-evening",
    "one-adult-one-stove",
    "school-yard",
];

static ALL: LazyLock<Vec<(&'static str, Lesson)>> = LazyLock::new(|| {
    let examples = LIT.map(|name| (name, Lesson::example(name)));
    let own = [
        ("meadow", Lesson::of("meadow.yaml", MEADOW)),
        ("saddle", Lesson::of("saddle.yaml", SADDLE)),
    ];
    examples.into_iter().chain(own).collect()
});

/// The words of a text, without its facts, that stand between two of them.
fn told(sheet: &str, words: &str) -> bool {
    let mut parts = words.split(['{', '}']).step_by(2);
    parts.all(|part| sheet.contains(part.trim()))
}

/// A risk assessment without what kills is none: every DANGER of the lesson's subjects stands in it,
/// whatever the clock gives minutes to, the gravest of the stoves that are lit, and the allergy.
#[test]
fn a_risk_assessment_names_what_can_kill() {
    for (name, lesson) in &*ALL {
        let sheet = lesson.sheet("risk-assessment");
        let mut dangers = 0;
        for module in timetable::applying(&lesson.trip, &BUILT_IN.0) {
            let own = !module.applies.fuel.is_empty();
            let lit = own
                && lesson.burns().iter().any(|at| {
                    let kitchen = &lesson.trip.kitchens[*at];
                    module.applies.holds_for(&lesson.trip, kitchen)
                });
            for (at, caution) in module.cautions.iter().enumerate() {
                let grave = caution.signal == Signal::Danger;
                let diet = module.applies.diet;
                if !(grave || (lit && at == 0) || diet)
                    || !plan::applies(&caution.applies, &lesson.trip)
                {
                    continue;
                }
                let stands = told(&sheet, &caution.hazard) && told(&sheet, &caution.avoid);
                assert!(stands, "{name}: {}: {}", module.id, caution.hazard);
                dangers += usize::from(grave);
            }
        }
        assert!(dangers >= 1, "{name}");
    }
}

impl Lesson {
    /// The stations at which something burns.
    fn burns(&self) -> Vec<usize> {
        let course = self.course();
        let rows = course.sessions.iter().flat_map(|table| &table.rows);
        let lit = rows.flat_map(|row| &row.places).filter(|place| place.lit);
        let mut at: Vec<usize> = lit
            .filter_map(|place| match place.at {
                Spot::Station(station) => Some(station),
                _ => None,
            })
            .collect();
        at.sort_unstable();
        at.dedup();
        at
    }
}

/// No adult is promised who is not there.
#[test]
fn an_adult_without_a_stove_is_named_only_where_there_is_one() {
    for (name, lesson) in &*ALL {
        let course = lesson.course();
        let rows: Vec<_> = course
            .sessions
            .iter()
            .flat_map(|table| &table.rows)
            .collect();
        let away = rows.iter().filter(|row| {
            let apart = |place: &&timetable::Place<'_>| !place.lit && !place.learners.is_empty();
            row.places.iter().any(|place| place.lit) && row.places.iter().any(|one| apart(&one))
        });
        let free: Vec<u32> = away.map(|row| row.free_adults).collect();
        let there = free.iter().min().is_some_and(|free| *free > 0);
        let letter = lesson.sheet("parent-letter");
        assert_eq!(
            letter.contains("another adult has no stove"),
            there,
            "{name}"
        );
        let risks = lesson.sheet("risk-assessment");
        assert_eq!(
            risks.contains("adult more without a stove"),
            there,
            "{name}"
        );
        assert_eq!(
            risks.contains("nobody waits elsewhere"),
            free.is_empty(),
            "{name}"
        );
    }
    let alone = Lesson::example("one-adult-one-stove");
    assert!(!alone.sheet("parent-letter").contains("another adult"));
}

/// 3 min above 6 500 ft (1 981 m), 1 min below: US Centers for Disease Control and Prevention, 'Making
/// Water Safe in an Emergency'. Those who hold the pot read it on the card.
#[test]
fn minutes_of_a_rolling_boil_stand_on_card_and_briefing() {
    for (height, minutes) in [("3250 m", 3), ("1200 m", 1)] {
        let lesson = Lesson::of("saddle.yaml", &SADDLE.replace("3250 m", height));
        let wanted = format!("{minutes} min");
        for name in ["briefing-sheet", "kitchen-checklist", "lesson-handout"] {
            let sheet = leeside::markdown::without_marks(&lesson.sheet(name));
            let lines: Vec<&str> = sheet
                .lines()
                .filter(|line| line.contains("rolling boil"))
                .collect();
            let said = lines
                .iter()
                .any(|line| line.contains(&format!(" {wanted}")));
            assert!(said, "{name} at {height}: {lines:?}");
        }
    }
    let tap = Lesson::example("school-yard");
    assert!(!tap.sheet("kitchen-checklist").contains("Safe to drink"));
}

/// A burner without a valve is not turned down or shut off.
#[test]
fn a_burner_without_a_valve_is_put_out() {
    let lesson = Lesson::of("meadow.yaml", MEADOW);
    for name in ["learner-page", "station-posters", "lesson-plan", "slides"] {
        let sheet = lesson.sheet(name);
        assert!(!sheet.is_empty(), "{name}");
        for words in [
            "reach the valve",
            "turn it down, shut it off",
            "can shut it off",
            "hut it off, then",
        ] {
            assert!(!sheet.contains(words), "{name}: {words}");
        }
    }
    assert!(lesson.sheet("learner-page").contains("without a valve"));
    let gas = Lesson::example("one-adult-one-stove");
    assert!(gas.sheet("learner-page").contains("reach the valve"));
    assert!(!gas.sheet("learner-page").contains("without a valve"));
}

/// The rows of the equipment request: (what, how many, for).
fn asked(lesson: &Lesson) -> Vec<(String, String, String)> {
    let sheet = leeside::markdown::without_marks(&lesson.sheet("equipment-request"));
    let rows = sheet.lines().filter(|line| line.contains("| [ ] |"));
    rows.map(|line| {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        (
            cells[1].to_owned(),
            cells[2].to_owned(),
            cells[3].to_owned(),
        )
    })
    .collect()
}

/// One stove is asked for once, by its own name, whatever the segments call it.
#[test]
fn a_stove_is_asked_for_once() {
    for (name, lesson) in &*ALL {
        let rows = asked(lesson);
        for kitchen in &lesson.trip.kitchens {
            let of_it: Vec<_> = rows
                .iter()
                .filter(|(what, ..)| *what == kitchen.stove.name)
                .collect();
            assert!(of_it.len() <= 1, "{name}: {rows:?}");
            let count: u32 = of_it
                .iter()
                .map(|(_, count, _)| count.parse::<u32>().unwrap())
                .sum();
            let alike = lesson
                .trip
                .kitchens
                .iter()
                .filter(|one| one.stove.name == kitchen.stove.name);
            assert!(count as usize <= alike.count(), "{name}: {rows:?}");
        }
        assert!(
            !rows.iter().any(|(what, ..)| what == "stove"),
            "{name}: {rows:?}"
        );
    }
    let yard = asked(&Lesson::example("school-yard"));
    for (stove, station) in [
        ("canister on top", "One"),
        ("white gas stove", "Two"),
        ("alcohol burner", "Three"),
    ] {
        let row = (stove.to_owned(), "1".to_owned(), station.to_owned());
        assert!(yard.contains(&row), "{yard:?}");
    }
}

/// The names that stand for a station's own stove are those that content uses.
#[test]
fn content_calls_a_stove_by_these_names() {
    let modules = BUILT_IN.0.modules.values();
    let segments: Vec<_> = modules.flat_map(|module| &module.segments).collect();
    for own in OWN_STOVE {
        let mut kit = segments.iter().flat_map(|one| &one.kit);
        assert!(kit.any(|(what, ..)| thing(what) == own), "{own}");
    }
}

/// What the shorter plan uses is fetched too.
#[test]
fn the_shorter_plans_things_are_asked_for() {
    let mut seen = 0;
    for (name, lesson) in &*ALL {
        let rows = asked(lesson);
        let course = lesson.course();
        let entries = course.fallback.iter().flat_map(|table| &table.entries);
        for (_, segment) in entries.flat_map(|entry| entry.segments()) {
            for (what, ..) in &segment.kit {
                let what = thing(what);
                let there = OWN_STOVE.contains(&what) || rows.iter().any(|(row, ..)| row == what);
                assert!(there, "{name}: {what}: {rows:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 3);
}

/// A lesson that cooks and lights nothing has no sum to work, no kitchen to run and no wind to watch.
#[test]
fn a_lesson_that_lights_nothing_has_no_papers_of_a_flame() {
    for name in ["rainy-day", "half-hour-wash-water"] {
        let lesson = Lesson::example(name);
        assert!(lesson.burns().is_empty(), "{name}");
        for none in ["fuel-worksheet", "fuel-worksheet-key", "kitchen-checklist"] {
            assert_eq!(lesson.sheet(none), "", "{name}: {none}");
        }
        for (sheet, words) in [
            ("briefing-sheet", "Weather stops it"),
            ("briefing-sheet", "avalanche"),
            ("briefing-sheet", "kitchen card"),
            ("lesson-plan", "the worksheet"),
            ("packing-list", "Lighter"),
            ("station-posters", "All off"),
            ("learner-page", "All off"),
            ("parent-letter", "near the stoves"),
            ("parent-letter", "fire rule"),
        ] {
            let text = lesson.sheet(sheet);
            assert!(
                !text.is_empty() && !text.contains(words),
                "{name}, {sheet}: {words}"
            );
        }
    }
}

/// A letter speaks of a child where there may be one, and asks leave to light where learners light.
#[test]
fn a_letter_is_to_those_who_take_part() {
    let grown = Lesson::of("saddle.yaml", SADDLE).sheet("parent-letter");
    assert!(
        !grown.contains("child") && !grown.contains("Fetched"),
        "{grown}"
    );
    let young = Lesson::of(
        "saddle.yaml",
        &SADDLE.replace("youngest: 18", "youngest: 17"),
    );
    assert!(young.sheet("parent-letter").contains("Your child"));
    for (name, lesson) in &*ALL {
        let letter = lesson.sheet("parent-letter");
        let course = lesson.course();
        let mut entries = course.sessions.iter().flat_map(|table| &table.entries);
        let lights = entries.any(|entry| entry.lights_each);
        assert_eq!(
            letter.contains("may light a stove"),
            lights && letter.contains("child"),
            "{name}"
        );
        for blank in ["Led by", "Where we meet", "return by", "We eat and drink"] {
            assert!(letter.contains(blank), "{name}: {blank}");
        }
    }
}

/// Learners of a lesson get the form that the file's assumed level names, and read what is handed
/// out beside the sum's own fuel.
#[test]
fn a_worksheet_is_for_the_assumed_level_and_names_the_practice() {
    let yard = Lesson::example("school-yard");
    assert!(
        yard.trip
            .assumed
            .iter()
            .any(|one| one.what == "course.level")
    );
    let form = leeside::markdown::without_marks(&yard.sheet("fuel-worksheet"));
    assert!(form.contains("## Look it up, then multiply"), "{form}");
    assert!(form.contains("is handed out to practise with"));
}
