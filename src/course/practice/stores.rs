//! Problems about the store: boils for a pot, canisters by weight.

use super::desk::{Desk, Kit, plain, size};
use super::{Above, Accept, Draft, Level, Table};
use crate::course::dice::Dice;
use crate::nouns::Signal;
use crate::physics::pots;
use crate::plan::Worked;
use crate::units::{Volume, say};

/// Pots of problems, in the reader's units of volume.
const POTS: [f64; 5] = [1.0, 1.5, 2.0, 3.0, 4.0];

/// Amounts of the table of boils.
const AMOUNTS: [f64; 6] = [1.0, 2.0, 3.0, 4.0, 6.0, 8.0];

fn fill(kit: &Kit<'_>) -> Worked {
    Worked::given(kit.library.figures.fill.value.in_one())
}

/// Boils of an amount in one pot. None where the last boil is so small that a cook would share
/// it out among the others, or where a rounded sum could fall on either side.
fn boils_of(kit: &Kit<'_>, amount: f64, pot: f64) -> Option<f64> {
    let share = kit.library.figures.fill.value;
    let plan = pots::batches(Volume::litres(amount), &[Volume::litres(pot)], share);
    let simple = (amount / (pot * share.in_one()) - 1e-9).ceil();
    let boils = u32::try_from(plan.len()).map_or(f64::NAN, f64::from);
    (boils == simple).then_some(boils)
}

fn fill_notice(kit: &Kit<'_>) -> (Signal, String) {
    let percent = say::number(kit.library.figures.fill.value.in_percent(), 0);
    (
        Signal::Caution,
        format!(
            "A pot of more than about {percent} % boils over on hands and flame. Lift small pots, in \
             gloves, rather than one that you cannot hold level."
        ),
    )
}

pub(super) fn above_boils(kit: &Kit<'_>, level: Level) -> Above {
    let unit = kit.volume_unit();
    let share = fill(kit);
    let careful = vec![fill_notice(kit)];
    if level != Level::Table {
        return Above {
            numbers: vec![format!(
                "A pot is filled to {share} of what it holds. Boils are whole: round up."
            )],
            table: None,
            careful,
        };
    }
    let mut head = vec!["Water".to_owned()];
    head.extend(POTS.map(|pot| format!("pot of {pot} {unit}")));
    let rows = AMOUNTS
        .into_iter()
        .map(|amount| {
            let mut row = vec![format!("{amount} {unit}")];
            row.extend(POTS.map(|pot| {
                boils_of(kit, amount, pot).map_or_else(|| "-".to_owned(), |boils| boils.to_string())
            }));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: format!("Boils, each pot filled to {share} of what it holds"),
            head,
            rows,
        }),
        careful,
    }
}

/// One case of those that keep to the simple rule.
fn pick_case<T: Copy>(dice: &mut Dice, cases: &[T], otherwise: T) -> T {
    if cases.is_empty() {
        otherwise
    } else {
        dice.pick(cases)
    }
}

pub(super) fn boils(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let unit = kit.volume_unit();
    let share = fill(kit);
    if level == Level::Table {
        let cases: Vec<(f64, f64)> = AMOUNTS
            .into_iter()
            .flat_map(|amount| POTS.map(|pot| (amount, pot)))
            .filter(|(amount, pot)| boils_of(kit, *amount, *pot).is_some())
            .collect();
        let (amount, pot) = pick_case(&mut desk.dice, &cases, (2.0, 2.0));
        let boils = boils_of(kit, amount, pot).unwrap_or(f64::NAN);
        let answer = desk.lines.given(
            format!("boils of {amount} {unit} in a pot of {pot} {unit}"),
            Worked::given(boils),
            "boils",
            "from the table",
        );
        return Draft {
            ask: format!(
                "Supper takes {} of boiling water, and there is one pot of {}. How many boils is that?",
                kit.say_volume(amount),
                kit.say_volume(pot)
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "boils".to_owned(),
        };
    }
    let meals: &[f64] = if level == Level::Trip {
        &[0.4, 0.5, 0.6, 0.8, 1.0]
    } else {
        &[0.4, 0.5, 0.6, 0.8]
    };
    let mut cases = Vec::new();
    for people in 3..=9 {
        let people = f64::from(people);
        for each in meals {
            cases.extend(
                POTS[1..]
                    .iter()
                    .filter(|pot| boils_of(kit, people * each, **pot).is_some())
                    .map(|pot| (people, *each, *pot)),
            );
        }
    }
    let (people, supper, pot) = pick_case(&mut desk.dice, &cases, (4.0, 0.5, 2.0));
    let usable = desk
        .lines
        .work("one filling", format!("{pot} x {share}"), unit, "");
    let one_meal = |desk: &mut Desk<'_, '_>, meal: &str, each: f64| {
        let water = desk.lines.work(
            format!("water for {meal}"),
            format!("{people} x {each}"),
            unit,
            "",
        );
        let fillings = desk.lines.work(
            format!("fillings for {meal}"),
            format!("{water} / {usable}"),
            "",
            "",
        );
        desk.whole_up(&format!("boils for {meal}"), &fillings, "boils")
    };
    let first = one_meal(desk, "supper", supper);
    if level == Level::Step {
        return Draft {
            ask: format!(
                "{people} people take {} of boiling water each for supper. The pot holds {}. How many \
                 boils is that?",
                kit.say_volume(supper),
                kit.say_volume(pot)
            ),
            accept: Accept::exact(&first),
            answer: first,
            unit: "boils".to_owned(),
        };
    }
    let breakfasts: Vec<f64> = [0.3, 0.4, 0.5]
        .into_iter()
        .filter(|each| boils_of(kit, people * each, pot).is_some())
        .collect();
    let breakfast = pick_case(&mut desk.dice, &breakfasts, supper);
    let second = one_meal(desk, "breakfast", breakfast);
    let nights = desk.dice.between(2, 5, 1);
    let answer = desk.lines.work(
        "boils of the trip",
        format!("{nights} x ({first} + {second})"),
        "boils",
        "",
    );
    Draft {
        ask: format!(
            "{people} people, {nights} nights. Supper takes {} of boiling water a person, breakfast {}. \
             The kitchen has one pot of {}. How many boils does it plan for the whole trip?",
            kit.say_volume(supper),
            kit.say_volume(breakfast),
            kit.say_volume(pot)
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "boils".to_owned(),
    }
}

pub(super) fn weigh_notice() -> (Signal, String) {
    (
        Signal::Warning,
        "Weigh canisters off the stove, valve closed, away from flame. Never pierce or refill one; \
         an empty one is known by its weight, not by silence."
            .to_owned(),
    )
}

pub(super) fn above_canister(kit: &Kit<'_>, level: Level) -> Above {
    let table = (level == Level::Table).then(|| Table {
        caption: "Usual masses of canisters; one without a stamp may be off by the last column"
            .to_owned(),
        head: [
            "Canister",
            "fuel when full, g",
            "empty, g",
            "full, g",
            "off by, g",
        ]
        .map(str::to_owned)
        .to_vec(),
        rows: kit
            .canisters
            .iter()
            .map(|one| {
                let [net, tare, off] =
                    [one.net, one.tare, one.tare_spread].map(|mass| mass.in_grams().round());
                vec![
                    size(one),
                    plain(net),
                    plain(tare),
                    plain(net + tare),
                    plain(off),
                ]
            })
            .collect(),
    });
    let mut numbers = vec!["Canisters and scales are marked in grams.".to_owned()];
    if level == Level::Trip {
        numbers.push(format!(
            "The last {} g of a canister are not counted: the flame is too weak by then.",
            plain(residue(kit))
        ));
    }
    Above {
        numbers,
        table,
        careful: vec![weigh_notice()],
    }
}

/// What cannot be used of a canister, grams.
pub(super) fn residue(kit: &Kit<'_>) -> f64 {
    kit.canisters
        .first()
        .map_or(0.0, |one| one.residue.in_grams().round())
}

pub(super) fn canister(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let index = desk.dice.below(kit.canisters.len());
    let one = kit.canisters[index];
    let name = size(one);
    let net = one.net.in_grams().round();
    // A fifth to nine tenths full; for several days at least half.
    let least = if level == Level::Trip { 50 } else { 20 };
    let left = (net * desk.dice.between(least, 90, 1) / 100.0).round();
    if level == Level::Table {
        let tare = one.tare.in_grams().round();
        let weighed = Worked::given(tare + left);
        let empty = desk.lines.given(
            format!("{name}, empty"),
            Worked::given(tare),
            "g",
            "from the table",
        );
        let answer = desk
            .lines
            .work("fuel left", format!("{weighed} - {empty}"), "g", "");
        return Draft {
            ask: format!("A {name} weighs {weighed} g. How many grams of fuel are left in it?"),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    let off = one.tare_spread.in_grams().floor();
    let tare = one.tare.in_grams().round() - off + desk.dice.below(2 * off as usize + 1) as f64;
    let weighed = Worked::given(tare + left);
    if level == Level::Step {
        let answer = desk
            .lines
            .work("fuel left", format!("{weighed} - {tare}"), "g", "");
        return Draft {
            ask: format!(
                "A {name} is stamped {tare} g empty. It weighs {weighed} g. How many grams of fuel are \
                 left in it?"
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    // A day takes a third of it at the most, so that some are left, and a ninth at the least: no
    // canister of a kitchen lasts for weeks.
    let most = (left / 3.0).clamp(12.0, 130.0) as u32;
    let least = (left / 9.0).clamp(10.0, f64::from(most)) as u32;
    let day = desk.dice.between(least, most, 1);
    let after = Worked::given(weighed.value() - day);
    let used = desk.lines.work(
        "burnt on the first day",
        format!("{weighed} - {after}"),
        "g",
        "",
    );
    let usable = desk.lines.work(
        "fuel left that counts",
        format!("{after} - {tare} - {}", plain(residue(kit))),
        "g",
        "",
    );
    let days = desk
        .lines
        .work("days at that rate", format!("{usable} / {used}"), "", "");
    let whole = days.value().floor().max(0.0);
    let answer = desk.lines.given(
        "whole days",
        Worked::given(whole),
        "days",
        format!("{days} rounded down"),
    );
    Draft {
        ask: format!(
            "A {name}, stamped {tare} g empty, weighs {weighed} g in the morning and {after} g the next \
             morning. {} g in it cannot be burnt. For how many more whole days of the same cooking \
             does it last?",
            plain(residue(kit))
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "days".to_owned(),
    }
}
