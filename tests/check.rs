//! What a trip means: the defaults and counting that the README promises, overlays of content,
//! and that nothing a person may type makes the program fall over.

use leeside::diag::{Problem, report};
use leeside::nouns::{
    Library, Meal, Paper, Presumed, RuleValue, Screen, Spare, StoveRule, Trip, WaterFrom, Wind,
};
use leeside::units::{Fraction, Length, Power, Temperature, Units, Volume};
use leeside::{check, load, plan};
use std::fs;

mod typed;

const SHORT: &str = "title: Quillback Ridge spring traverse
starts: 2027-05-14
people:
  learners: 9
  instructors: 2
  youngest: 13
stove: white gas
water_treatment: filter
camps:
  - name: Lower meadow
    nights: 1
    elevation: 8200 ft
  - name: Tarn bench
    nights: 2
    elevation: 10100 ft
    water_from: snow
";

fn library() -> Library {
    let files = load::library(&[]).unwrap_or_else(|problems| panic!("{}", report(&problems)));
    check::library(&files)
        .unwrap_or_else(|problems| panic!("{}", report(&problems)))
        .0
}

fn read(text: &str, library: &Library) -> Result<(Trip, Vec<Problem>), Vec<Problem>> {
    check::trip(&load::text("trips/A Trip_2.yaml", text)?, library)
}

fn trip(text: &str, library: &Library) -> Trip {
    read(text, library)
        .unwrap_or_else(|problems| panic!("{}", report(&problems)))
        .0
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn a_short_trip_is_filled_in_and_every_default_is_listed() {
    let library = library();
    let trip = trip(SHORT, &library);
    assert_eq!(trip.slug, "a-trip-2");
    assert_eq!((trip.units, trip.paper), (Units::Us, Paper::Letter));
    let people: Vec<(&str, u32)> = trip
        .kitchens
        .iter()
        .map(|kitchen| (kitchen.name.as_str(), kitchen.people))
        .collect();
    // ceil(11 / 5), as even as can be, larger first
    assert_eq!(
        people,
        [("Kitchen 1", 4), ("Kitchen 2", 4), ("Kitchen 3", 3)]
    );
    let kitchen = &trip.kitchens[0];
    assert_eq!(kitchen.pots.len(), 1);
    assert!(close(kitchen.pots[0].capacity.in_litres(), 4.0 * 0.75));
    // aluminium: 60 g and 70 g a litre
    assert!(close(kitchen.pots[0].mass.in_grams(), 60.0 + 70.0 * 3.0));
    assert!(kitchen.lid);
    assert_eq!(kitchen.screen, kitchen.stove.screen);

    let low = &trip.camps[0];
    let day = 20.0 - 6.5 * 8200.0 * 0.3048 / 1000.0;
    assert!(close(low.day.in_celsius(), day));
    assert!(close(low.night.in_celsius(), day - 10.0));
    // midway between day and night, but at least 2 C
    assert!(close(low.water.in_celsius(), 2.0_f64.max(day - 5.0)));
    assert_eq!(
        (low.water_from, low.wind),
        (WaterFrom::Stream, Wind::Breezy)
    );
    assert_eq!(low.place, "inland-forest");
    assert!(close(low.drinking.in_litres(), 3.0));
    assert_eq!(
        low.rules["greywater.distance"].value,
        RuleValue::Length(Length::feet(200.0))
    );
    let high = &trip.camps[1];
    assert!(close(high.drinking.in_litres(), 4.0));
    assert!(close(
        high.water.in_celsius(),
        high.night.in_celsius().min(0.0)
    ));
    assert_eq!(high.menu.supper.boil, Volume::litres(0.6));
    assert_eq!(high.menu.breakfast.boil, Volume::litres(0.35));
    assert_eq!(
        (high.menu.drinks.boil, high.menu.drinks.times_a_day),
        (Volume::litres(0.25), 2)
    );
    assert!(high.menu.lunch.is_cold());
    // 95 % where a camp lives on snow
    assert_eq!(trip.confidence, Fraction::percent(95.0));
    assert_eq!(trip.spare, Spare::OneExtraDay);
    assert!(close(trip.people.adults_per_lit_stove, 1.0));
    assert!(close(trip.step.in_metres(), 0.76));
    assert_eq!(trip.restrictions.stage, None);

    let what: Vec<&str> = trip
        .assumed
        .iter()
        .map(|assumed| assumed.what.as_str())
        .collect();
    for expected in [
        "menu",
        "kitchens",
        "kitchens[0].pots",
        "kitchens[2].windscreen",
        "lid",
        "units",
        "camps[0].day",
        "camps[0].night",
        "camps[0].water",
        "camps[0].wind",
        "camps[0].place",
        "camps[1].drinking",
        "confidence",
        "spare",
        "first_meal",
        "last_meal",
        "washing",
        "boil_rules",
        "step_length",
        "people.adults_per_lit_stove",
    ] {
        assert!(what.contains(&expected), "{expected} in {what:?}");
    }
    assert!(!what.contains(&"camps[1].water_from"), "it is stated");
}

#[test]
fn what_is_stated_is_not_assumed() {
    let library = library();
    let text = SHORT
        .replace("8200 ft", "2500 m")
        .replace("stove: white gas\n", "")
        + "    day: 40 F
    night: 21 F
    water: 28 F
    wind: windy
    place: alpine snow
    rules:
      greywater:
        distance: 100 m
    menu:
      breakfast: cold
    fuel_temperature: 41 F
    pressure: 70.5 kPa
menu:
  supper:
    simmer: 8 min
kitchens:
  - name: Blue
    people: 6
    stove: white gas
    efficiency: 30%
    pots:
      - titanium 2 L, 210 g
  - name: Red
    stove: canister beside
    feed: liquid
    windscreen: full
    power: 3 kW
    measured:
      efficiency: 47%
      wind: breezy
resupply: Tarn bench
restrictions:
  stage: shut-off valve only
  checked: 2027-05-12, ranger desk
";
    let trip = trip(&text, &library);
    assert_eq!((trip.units, trip.paper), (Units::Metric, Paper::A4));
    let camp = &trip.camps[1];
    assert!(close(
        camp.day.in_celsius(),
        Temperature::fahrenheit(40.0).in_celsius()
    ));
    assert_eq!(camp.wind, Wind::Windy);
    let rule = &camp.rules["greywater.distance"];
    assert_eq!(rule.value, RuleValue::Length(Length::metres(100.0)));
    assert_eq!(rule.from, "trip");
    assert_eq!(rule.checked.as_deref(), Some("2027-05-12, ranger desk"));
    // the camp's menu lies over the trip's, key by key
    assert!(camp.menu.breakfast.is_cold() && !trip.camps[0].menu.breakfast.is_cold());
    assert!(close(camp.menu.supper.simmer.in_minutes(), 8.0));
    let [blue, red] = &trip.kitchens[..] else {
        panic!("two kitchens")
    };
    assert_eq!((blue.people, red.people), (6, 5));
    assert!(blue.pots[0].mass_stated);
    assert_eq!(blue.stove.efficiency.likely, Fraction::percent(30.0));
    assert_eq!(red.screen, Screen::Full);
    assert_eq!(red.stove.power, Power::kilowatts(3.0));
    assert!(red.measured.is_some());
    assert_eq!(trip.resupply, Some(1));
    assert_eq!(trip.restrictions.stoves, Some(StoveRule::WithShutOff));
    let blend = trip
        .assumed
        .iter()
        .find(|assumed| assumed.what == "kitchens[1].blend")
        .expect("a blend is assumed");
    let Presumed::Blend(value) = &blend.value else {
        panic!("{:?}", blend.value);
    };
    assert_eq!(value.to_string(), "propane 30, n-butane 70");
}

#[test]
fn what_people_type_means_what_they_mean() {
    let library = library();
    let plain = trip(SHORT, &library);
    let same = [
        SHORT.replace('\n', "\r\n"),
        format!("\u{feff}{SHORT}"),
        format!("---\n{SHORT}...\n"),
        SHORT
            .replace("learners", "Learners")
            .replace("white gas", "White-Gas"),
        SHORT
            .replace("learners: 9", "learners: &nine 9")
            .replace("elevation: 8200 ft", "elevation: 8200 feet"),
    ];
    for text in same {
        let other = trip(&text, &library);
        assert_eq!(other.title, plain.title, "{text}");
        assert_eq!(other.people, plain.people, "{text}");
        assert!(close(
            other.camps[0].elevation.in_metres(),
            plain.camps[0].elevation.in_metres()
        ));
        assert_eq!(other.kitchens[0].stove.id, plain.kitchens[0].stove.id);
    }
    let odd = SHORT
        .replace("Quillback Ridge spring traverse", "Hütte \u{1f986} שלום")
        .replace("Lower meadow", "no");
    let odd = trip(
        &format!("{odd}lid: no\nspare: no\nsecond_stove: yes\ndrinking: 1 gallon\n"),
        &library,
    );
    assert_eq!(odd.title, "Hütte \u{1f986} שלום");
    assert_eq!(odd.camps[0].name, "no");
    assert!(!odd.kitchens[0].lid);
    assert_eq!((odd.spare, odd.second_stove), (Spare::None, Some(true)));
    assert!(close(odd.camps[0].drinking.in_litres(), 3.785_411_784));
    let day = trip(&format!("{SHORT}spare: yes\n"), &library);
    assert_eq!(day.spare, Spare::OneExtraDay);
    let cold = SHORT.replace("water_from: snow", "day: \u{2212}5 °C\n    night: 10F");
    let cold = trip(&cold, &library);
    assert!(close(cold.camps[1].day.in_celsius(), -5.0));
}

#[test]
fn a_place_in_the_file_is_said_in_words() {
    let library = library();
    let text = SHORT.replace("    water_from: snow\n", "");
    let plan = plan::plan(&trip(&text, &library), &library).unwrap();
    assert_eq!(
        plan.about("camps[0].water_from"),
        "Lower meadow: water from"
    );
    assert_eq!(plan.about("kitchens[0].pots"), "Kitchen 1: pots");
    assert_eq!(plan.about("camps[7].day"), "camps 8, day");
    assert_eq!(
        plan.about("course.fallback.place"),
        "course, fallback, place"
    );
    assert_eq!(plan.about("lid"), "lid");
    let said = plan.assumed_in_words();
    let winds: Vec<&str> = said
        .iter()
        .map(|one| one.what.as_str())
        .filter(|what| what.ends_with("wind"))
        .collect();
    assert_eq!(winds, ["every camp: wind"]);
}

#[test]
fn the_days_hold_the_meals_that_are_counted() {
    let library = library();
    for first in ["breakfast", "lunch", "supper"] {
        for last in ["breakfast", "lunch", "supper"] {
            let text = SHORT.replace("2027-05-14", "2028-02-28");
            let text = format!("{text}menu: hot lunch\nfirst_meal: {first}\nlast_meal: {last}\n");
            let plan = plan::plan(&trip(&text, &library), &library).unwrap();
            assert_eq!(plan.days.len(), 4);
            // 2028 is a leap year
            assert_eq!(plan.days[1].date.unwrap().to_string(), "2028-02-29");
            for camp in 0..2 {
                for (index, meal) in [Meal::Breakfast, Meal::Lunch, Meal::Supper]
                    .into_iter()
                    .enumerate()
                {
                    let days = plan
                        .days
                        .iter()
                        .filter_map(|day| day.meals[index].as_ref())
                        .filter(|one| one.camp == camp)
                        .count();
                    let counted: u32 = plan.kitchens[0]
                        .rows
                        .iter()
                        .filter(|row| row.camp == camp && row.meal == meal)
                        .map(|row| row.times)
                        .sum();
                    assert_eq!(days as u32, counted, "{meal} {camp} {first} {last}");
                }
            }
        }
    }
}

/// The blocks of YAML in a Markdown file that start with a line that a test is after.
fn shown(file: &str, starts: &str) -> Vec<String> {
    let text = fs::read_to_string(format!("{}/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    text.split("```yaml\n")
        .skip(1)
        .filter_map(|rest| rest.split("```").next())
        .filter(|block| block.contains(starts))
        .map(str::to_owned)
        .collect()
}

#[test]
fn the_trip_files_that_the_guides_show_are_right() {
    let library = library();
    let short = shown("README.md", "people:");
    let long = shown("content/README.md", "people:");
    assert_eq!((short.len(), long.len()), (1, 2));
    for text in short.iter().chain(&long) {
        let trip = trip(text, &library);
        let plan = plan::plan(&trip, &library).unwrap_or_else(|more| panic!("{}", report(&more)));
        let modules = leeside::course::timetable::applying(&trip, &library);
        leeside::course::timetable::timetable(&trip, &library, &plan, &modules)
            .unwrap_or_else(|more| panic!("{}", report(&more)));
    }
}

#[test]
fn the_first_line_of_content_names_its_schema() {
    let content = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content");
    let mut folders = vec![content];
    let mut files = 0;
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            // what a language says has the keys of the English files, and their order
            if path.ends_with("es") {
                continue;
            }
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "yaml") {
                let text = fs::read_to_string(&path).unwrap();
                let schema = text
                    .lines()
                    .next()
                    .and_then(|line| line.strip_prefix("# yaml-language-server: $schema="))
                    .unwrap_or_else(|| panic!("{} names no schema", path.display()));
                let schema = path.parent().unwrap().join(schema);
                let kind = schema.file_stem().unwrap().to_str().unwrap();
                let told = std::process::Command::new(env!("CARGO_BIN_EXE_leeside"))
                    .args(["schema", kind])
                    .output()
                    .unwrap();
                assert_eq!(
                    fs::read_to_string(&schema).unwrap(),
                    String::from_utf8(told.stdout).unwrap(),
                    "write it anew: leeside schema {kind} > content/schema/{kind}.json"
                );
                files += 1;
            }
        }
    }
    assert!(files > 50, "{files}");
}

#[test]
fn a_word_under_focus_stands_for_every_module_it_names() {
    let library = library();
    let text = format!("{SHORT}course:\n  focus:\n    - canister\n    - greywater\n");
    let focus = trip(&text, &library).course.focus;
    assert_eq!(
        focus,
        ["canister-end-of-life", "canister-stoves", "greywater"]
    );
    let problems = read(&text.replace("canister", "kayak"), &library).unwrap_err();
    assert_eq!(problems[0].code, "name.unknown");
}

#[test]
fn a_stove_of_ones_own_stands_on_one_of_the_catalogue() {
    let library = library();
    let text = SHORT.replace(
        "stove: white gas",
        "stove:\n  extends: white gas\n  name: our old stove\n  power: 2 kW\n  mass: 500 g",
    );
    let trip = trip(&text, &library);
    let stove = &trip.kitchens[0].stove;
    assert_eq!(stove.name, "our old stove");
    assert_eq!(stove.power, Power::kilowatts(2.0));
    assert_eq!(stove.efficiency, library.stoves["white-gas"].efficiency);
}

#[test]
fn a_lesson_has_one_place_and_no_nights() {
    let library = library();
    let text = "kind: lesson
title: Stove evening
people:
  learners: 10
  instructors: 2
  youngest: 16
elevation: 310 m
stations:
  - name: One
    stove: canister beside
  - stove: alcohol
";
    let trip = trip(text, &library);
    assert_eq!(trip.camps.len(), 1);
    assert_eq!(
        (trip.camps[0].name.as_str(), trip.camps[0].nights),
        ("outdoors", 0)
    );
    assert_eq!(trip.spare, Spare::None);
    assert_eq!(trip.kitchens[1].name, "Station 2");
    assert_eq!(trip.kitchens[0].people + trip.kitchens[1].people, 12);
    assert!(close(trip.people.adults_per_lit_stove, 0.0));
}

#[test]
fn an_overlay_replaces_extends_and_takes_away() {
    let temp = tempfile::tempdir().unwrap();
    let put = |path: &str, text: &str| {
        let path = temp.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    };
    put(
        "modules/greywater.yaml",
        "extends: greywater\ntitle: Our wash water\npack: remove\n",
    );
    put(
        "gear/stoves.yaml",
        "extends: stoves\nbig-burner:\n  extends: white-gas\n  name: big burner\n  power: 5 kW\n",
    );
    put(
        "places/our-valley.yaml",
        "extends: inland-forest\ntitle: Our valley\n",
    );
    put("profiles/club.yaml", "name: Club\nunits: metric\n");
    put("notes.md", "not content, and in nobody's way\n");
    let built_in = library();
    let files =
        load::library(&[temp.path().to_owned()]).unwrap_or_else(|p| panic!("{}", report(&p)));
    let (ours, _) = check::library(&files).unwrap_or_else(|p| panic!("{}", report(&p)));
    let (module, before) = (&ours.modules["greywater"], &built_in.modules["greywater"]);
    assert_eq!(module.title, "Our wash water");
    assert_eq!(module.cautions, before.cautions);
    assert!(module.pack.is_empty() && !before.pack.is_empty());
    assert_eq!(ours.stoves["big-burner"].power, Power::kilowatts(5.0));
    assert_eq!(ours.stoves["white-gas"], built_in.stoves["white-gas"]);
    assert_eq!(
        ours.places["our-valley"].rules,
        built_in.places["inland-forest"].rules
    );
    let trip = trip(
        &(SHORT.replace("white gas", "big burner") + "organisation: club\n"),
        &ours,
    );
    assert_eq!(trip.units, Units::Metric);
    assert_eq!(trip.kitchens[0].stove.id, "big-burner");
}
