//! Problems about a plan that one thing changes: wind, a lid left behind, a colder night, guests.
//!
//! The table is worked by [`crate::plan::boil`], as the trip's own table of changes is: a pot that
//! loses heat on its way, in each wind, with and without its lid.

use super::desk::{Desk, Kit, cell, size, tenth};
use super::heat::{HEAT_PERCENT, waters};
use super::stores::residue;
use super::types::{Above, Accept, Draft, Level, Table};
use crate::nouns::{Screen, Signal, Wind};
use crate::phrase::{Phrase, phrase};
use crate::plan::{self, Boil, BoilOn, BoilPot, Start, Worked};
use crate::units::{Length, Mass, Temperature, Units, say};

/// Water of one boil and what its pot holds, in the reader's units.
const POTFUL: (f64, f64) = (1.5, 2.0);

/// Guests.
const MORE: f64 = 2.0;

/// How far from a whole number a quotient stays that is rounded to one, so that the table's tenths
/// cannot carry it over.
const CLEAR: f64 = 0.15;

/// Draws before the last is let stand.
const TRIES: usize = 200;

/// What one boil meets.
#[derive(Clone, Copy, PartialEq)]
struct Scene {
    wind: Wind,
    lid: bool,
    water: Temperature,
}

/// Fuel of one boil by the sea, grams to a tenth, as the table prints it; not a number where the
/// pot never boils, and for water that is not in the table.
fn grams(kit: &Kit<'_>, scene: Scene) -> Worked {
    let waters = waters(kit);
    let table = kit.potfuls.get_or_init(|| {
        let all = scenes(&waters);
        all.map(|scene| burnt(kit, scene)).collect()
    });
    let at = scenes(&waters).position(|one| one == scene);
    tenth(at.map_or(f64::NAN, |at| table[at]))
}

/// Every boil of the table, row by row.
fn scenes(waters: &[Temperature]) -> impl Iterator<Item = Scene> {
    let rows = Wind::ALL
        .iter()
        .flat_map(|wind| [(*wind, true), (*wind, false)]);
    rows.flat_map(|(wind, lid)| {
        let waters = waters.iter().copied();
        waters.map(move |water| Scene { wind, lid, water })
    })
}

/// Fuel of one boil, grams.
fn burnt(kit: &Kit<'_>, scene: Scene) -> f64 {
    let (water, pot) = (kit.volume(POTFUL.0), kit.volume(POTFUL.1));
    let metal = kit.metal;
    let stove = kit.burner;
    let on = BoilOn::new(
        kit.library,
        stove,
        stove.efficiency.likely,
        stove.power,
        (scene.wind, Screen::Natural),
        pot,
        scene.water,
        scene.lid,
    );
    let boil = Boil {
        units: kit.units,
        water,
        start: Start::Water(scene.water),
        to: None,
        elevation: Length::ZERO,
        fuel: kit.gas.name.clone(),
        kind: kit.gas.kind,
        density: kit.gas.density,
        heating_value: kit.gas.heating_value,
        heating_value_why: Phrase::none(),
        efficiency: stove.efficiency.likely,
        pot: Some(BoilPot {
            mass: metal.base_mass + metal.mass_per_litre * pot.in_litres(),
            material: metal.name.clone(),
            specific_heat: metal.specific_heat,
        }),
        evaporated: Mass::ZERO,
        on,
    };
    let fuel = plan::boil(&boil, &kit.library.figures)
        .ok()
        .and_then(|boiled| boiled.fuel);
    fuel.map_or(f64::NAN, Mass::in_grams)
}

/// A row of the table: `breezy, lid on`.
fn stands(wind: Wind, lid: bool) -> Phrase {
    if lid {
        phrase!("practice-wind-lid", wind = wind)
    } else {
        phrase!("practice-wind-no-lid", wind = wind)
    }
}

/// `breezy, lid on, water at 10 °C`.
fn told(kit: &Kit<'_>, scene: Scene) -> Phrase {
    phrase!(
        "practice-scene",
        stands = stands(scene.wind, scene.lid),
        water = say::temperature(scene.water, kit.units)
    )
}

fn table(kit: &Kit<'_>) -> Table {
    let mut head = vec![phrase!("practice-wind-and-lid")];
    let waters = waters(kit);
    head.extend(
        waters
            .iter()
            .map(|water| cell(say::temperature(*water, kit.units))),
    );
    let mut rows = Vec::new();
    for wind in Wind::ALL.iter().copied() {
        for lid in [true, false] {
            let mut row = vec![stands(wind, lid)];
            row.extend(waters.iter().map(|water| {
                let water = *water;
                let one = grams(kit, Scene { wind, lid, water }).value();
                cell(if one.is_finite() {
                    say::plain(one, 1)
                } else {
                    "-".to_owned()
                })
            }));
            rows.push(row);
        }
    }
    Table {
        caption: phrase!(
            "practice-grams-one-boil",
            gas = kit.gas.name,
            water = kit.say_volume(POTFUL.0),
            pot = kit.say_volume(POTFUL.1)
        ),
        head,
        rows,
    }
}

/// The upper end of a class of wind.
fn up_to(kit: &Kit<'_>, wind: Wind) -> String {
    let metric = format!("{} m/s", say::plain_significant(wind.up_to(), 2));
    // 1 mph is 0.44704 m/s
    let us = format!("{} mph", say::plain(wind.up_to() / 0.44704, 0));
    match kit.units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => format!("{metric} ({us})"),
    }
}

pub(super) fn above(kit: &Kit<'_>, level: Level) -> Above {
    let [calm, breezy, windy] =
        [Wind::Calm, Wind::Breezy, Wind::Windy].map(|wind| up_to(kit, wind));
    let mut numbers = vec![phrase!(
        "practice-wind-classes",
        calm = calm,
        breezy = breezy,
        windy = windy
    )];
    if level != Level::Table {
        numbers.push(phrase!("practice-more-people-more-fuel"));
    }
    if level == Level::Trip {
        numbers.push(phrase!(
            "practice-last-g-canister-not",
            residue = say::plain(residue(kit), 0)
        ));
    }
    Above {
        numbers,
        table: Some(table(kit)),
        careful: vec![
            (Signal::Warning, phrase!("practice-no-screen-all-round")),
            (Signal::Notice, phrase!("practice-what-if-is-no-plan")),
        ],
    }
}

/// One thing that changes about a boil: what is said of it, and what the boil meets then.
fn change(desk: &mut Desk<'_, '_>, plan: Scene) -> (Phrase, Scene) {
    let kit = desk.kit;
    let mut then = plan;
    let colder: Vec<Temperature> = waters(kit)
        .into_iter()
        .filter(|water| *water < plan.water)
        .collect();
    match desk.dice.below(if colder.is_empty() { 2 } else { 3 }) {
        0 => {
            then.wind = if plan.wind == Wind::Calm && desk.dice.below(2) == 0 {
                Wind::Breezy
            } else {
                Wind::Windy
            };
            let by = up_to(kit, then.wind);
            (phrase!("practice-if-wind", wind = then.wind, by = by), then)
        }
        1 => {
            then.lid = false;
            (phrase!("practice-if-no-lid"), then)
        }
        _ => {
            then.water = desk.dice.pick(&colder);
            let fall = plan.water - then.water;
            let [c, f] = [fall.kelvins(), fall.kelvins() * 1.8].map(f64::round);
            let by = match kit.units {
                Units::Metric => format!("{c} °C"),
                Units::Us => format!("{f} °F"),
                Units::Both => format!("{c} °C ({f} °F)"),
            };
            let to = say::temperature(then.water, kit.units);
            (phrase!("practice-if-colder", by = by, to = to), then)
        }
    }
}

/// The trip as planned: calm or breezy, lid on.
fn planned(desk: &mut Desk<'_, '_>) -> Scene {
    Scene {
        wind: desk.dice.pick(&[Wind::Calm, Wind::Breezy]),
        lid: true,
        water: desk.dice.pick(&waters(desk.kit)),
    }
}

fn one_boil(desk: &mut Desk<'_, '_>, scene: Scene) -> Worked {
    let words = told(desk.kit, scene);
    let worth = grams(desk.kit, scene);
    desk.lines.given(
        phrase!("sum-one-boil", scene = words),
        worth,
        "g",
        phrase!("why-from-table"),
    )
}

fn within(answer: &Worked) -> Accept {
    let mut accept = Accept::percent(answer, HEAT_PERCENT);
    accept.says = phrase!("practice-within-table", percent = HEAT_PERCENT);
    accept
}

pub(super) fn what_if(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    match level {
        Level::Table => of_table(desk),
        Level::Step => of_a_day(desk),
        Level::Trip => of_a_trip(desk),
    }
}

fn of_table(desk: &mut Desk<'_, '_>) -> Draft {
    let before = planned(desk);
    let (changes, then) = change(desk, before);
    let boils = desk.dice.between(3, 12, 1);
    let one = one_boil(desk, then);
    let answer = desk.lines.work(
        phrase!("sum-fuel-now"),
        format!("{boils} x {one}"),
        "g",
        Phrase::none(),
    );
    Draft {
        ask: phrase!(
            "practice-if-boils",
            boils = boils,
            scene = told(desk.kit, before),
            changes = changes,
            gas = desk.kit.gas.name
        ),
        accept: within(&answer),
        answer,
        unit: "g".to_owned(),
    }
}

/// A kitchen's day as planned and what it meets.
struct Day {
    before: Scene,
    then: Scene,
    changes: Phrase,
    people: f64,
    guests: bool,
    /// Grams a day as planned, whole.
    fuel: f64,
}

impl Day {
    /// The day and what changes, in words.
    fn told(&self, kit: &Kit<'_>) -> Phrase {
        phrase!(
            "practice-if-day-scene",
            people = self.people,
            fuel = self.fuel,
            gas = kit.gas.name,
            scene = told(kit, self.before),
            changes = self.changes
        )
    }

    /// Times as much fuel as planned, by the table and the guests.
    fn times(&self, kit: &Kit<'_>) -> f64 {
        let guests = if self.guests { MORE } else { 0.0 };
        grams(kit, self.then).value() / grams(kit, self.before).value()
            * ((self.people + guests) / self.people)
    }
}

fn day(desk: &mut Desk<'_, '_>) -> Day {
    let before = planned(desk);
    let people = desk.dice.between(3, 8, 1);
    // a boil serves one to two: two to three quarters of a litre each at supper, less at breakfast
    let boils = desk
        .dice
        .between((people / 2.0).ceil() as u32, people as u32, 1);
    let fuel = (boils * grams(desk.kit, before).value()).round();
    let guests = phrase!("practice-if-guests", more = MORE);
    let (changes, then, more) = match desk.dice.below(5) {
        0 => (guests, before, true),
        1 | 2 => {
            let (first, then) = change(desk, before);
            let both = phrase!("practice-if-and", some = first, more = guests);
            (both, then, true)
        }
        _ => {
            let (changes, then) = change(desk, before);
            (changes, then, false)
        }
    };
    Day {
        before,
        then,
        changes,
        people,
        guests: more,
        fuel,
    }
}

/// Grams a day after the change, line by line.
fn now(desk: &mut Desk<'_, '_>, day: &Day) -> Worked {
    let mut sum = Worked::given(day.fuel).to_string();
    if day.then != day.before {
        let old = one_boil(desk, day.before);
        let new = one_boil(desk, day.then);
        let times = desk.lines.work(
            phrase!("sum-times-as-much"),
            format!("{new} / {old}"),
            "",
            Phrase::none(),
        );
        sum += &format!(" x {times}");
    }
    if day.guests {
        let people = day.people;
        let times = desk.lines.work(
            phrase!("sum-times-as-many"),
            format!("({people} + {MORE}) / {people}"),
            "",
            Phrase::none(),
        );
        sum += &format!(" x {times}");
    }
    desk.lines
        .work(phrase!("sum-fuel-a-day-now"), sum, "g", Phrase::none())
}

fn of_a_day(desk: &mut Desk<'_, '_>) -> Draft {
    let day = day(desk);
    let answer = now(desk, &day);
    Draft {
        ask: phrase!("practice-if-day", scene = day.told(desk.kit)),
        accept: within(&answer),
        answer,
        unit: "g".to_owned(),
    }
}

/// Whether a quotient rounds the same however the table was rounded.
fn is_clear(quotient: f64) -> bool {
    let part = quotient - quotient.floor();
    (CLEAR..=1.0 - CLEAR).contains(&part)
}

fn of_a_trip(desk: &mut Desk<'_, '_>) -> Draft {
    let kit = desk.kit;
    let lost = residue(kit);
    let how_many = desk.dice.below(2) == 0;
    let mut tries = 0;
    let (day, canister, days) = loop {
        let day = day(desk);
        let index = desk.dice.below(kit.canisters.len());
        let net = kit.canisters[index].net.in_grams().round();
        let usable = net - lost;
        let after = day.fuel * day.times(kit);
        // as planned one canister lasts, for as many whole days as it has
        let days = if how_many {
            desk.dice.between(3, 7, 1)
        } else {
            (usable / day.fuel).floor()
        };
        let quotient = if how_many {
            after * days / usable
        } else {
            usable / after
        };
        let fits = (2.0..=7.0).contains(&days) && (1.0..8.0).contains(&quotient);
        tries += 1;
        if fits && is_clear(quotient) || tries >= TRIES {
            break (day, index, days);
        }
    };
    let canister = kit.canisters[canister];
    let after = now(desk, &day);
    let net = Worked::given(canister.net.in_grams().round());
    let usable = desk.lines.work(
        phrase!("sum-canister-counts"),
        format!("{net} - {}", say::plain(lost, 0)),
        "g",
        Phrase::none(),
    );
    let told = day.told(kit);
    if how_many {
        let all = desk.lines.work(
            phrase!("sum-fuel-trip-now"),
            format!("{days} x {after}"),
            "g",
            Phrase::none(),
        );
        let quotient = desk.lines.work(
            phrase!("sum-canisters-needed"),
            format!("{all} / {usable}"),
            "",
            Phrase::none(),
        );
        let answer = desk.whole_up(phrase!("sum-whole-canisters"), &quotient, "canisters");
        return Draft {
            ask: phrase!(
                "practice-if-canisters",
                scene = told,
                days = days,
                canister = size(canister)
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "canisters".to_owned(),
        };
    }
    let quotient = desk.lines.work(
        phrase!("sum-days-rate"),
        format!("{usable} / {after}"),
        "",
        Phrase::none(),
    );
    let answer = desk.lines.given(
        phrase!("sum-whole-days"),
        Worked::given(quotient.value().floor().max(0.0)),
        "days",
        phrase!("why-rounded-down", number = quotient),
    );
    Draft {
        ask: phrase!(
            "practice-if-lasts",
            scene = told,
            days = days,
            canister = size(canister)
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "days".to_owned(),
    }
}
