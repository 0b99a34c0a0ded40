//! Problems about the store: boils for a pot, canisters by weight.

use super::desk::{Desk, Kit, cell, plain, size};
use super::types::{Above, Accept, Draft, Level, Table};
use crate::course::dice::Dice;
use crate::nouns::{Meal, Signal};
use crate::phrase::{Phrase, phrase};
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

fn fill_notice(kit: &Kit<'_>) -> (Signal, Phrase) {
    let percent = say::plain(kit.library.figures.fill.value.in_percent(), 0);
    (
        Signal::Caution,
        phrase!("practice-pot-more-than-about", percent = percent),
    )
}

pub(super) fn above_boils(kit: &Kit<'_>, level: Level) -> Above {
    let unit = kit.volume_unit();
    let share = fill(kit);
    let careful = vec![fill_notice(kit)];
    if level != Level::Table {
        return Above {
            numbers: vec![phrase!("practice-pot-filled-what-holds", share = share)],
            table: None,
            careful,
        };
    }
    let mut head = vec![phrase!("practice-water")];
    head.extend(POTS.map(|pot| phrase!("practice-pot", pot = pot, unit = unit)));
    let rows = AMOUNTS
        .into_iter()
        .map(|amount| {
            let mut row = vec![cell(format!("{amount} {unit}"))];
            row.extend(POTS.map(|pot| {
                cell(
                    boils_of(kit, amount, pot)
                        .map_or_else(|| "-".to_owned(), |boils| boils.to_string()),
                )
            }));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!("practice-boils-each-pot-filled", share = share),
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
            phrase!("sum-boils-pot", amount = amount, unit = unit, pot = pot),
            Worked::given(boils),
            "boils",
            phrase!("why-from-table"),
        );
        return Draft {
            ask: phrase!(
                "practice-supper-takes-boiling-water-there",
                amount = kit.say_volume(amount),
                pot = kit.say_volume(pot)
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
    let usable = desk.lines.work(
        phrase!("sum-one-filling"),
        format!("{pot} x {share}"),
        unit,
        Phrase::none(),
    );
    let one_meal = |desk: &mut Desk<'_, '_>, meal: Meal, each: f64| {
        let water = desk.lines.work(
            phrase!("sum-water-for-meal", meal = meal),
            format!("{people} x {each}"),
            unit,
            Phrase::none(),
        );
        let fillings = desk.lines.work(
            phrase!("sum-fillings", meal = meal),
            format!("{water} / {usable}"),
            "",
            Phrase::none(),
        );
        desk.whole_up(phrase!("sum-boils-for", meal = meal), &fillings, "boils")
    };
    let first = one_meal(desk, Meal::Supper, supper);
    if level == Level::Step {
        return Draft {
            ask: phrase!(
                "practice-people-take-boiling-water",
                people = people,
                supper = kit.say_volume(supper),
                pot = kit.say_volume(pot)
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
    let second = one_meal(desk, Meal::Breakfast, breakfast);
    let nights = desk.dice.between(2, 5, 1);
    let answer = desk.lines.work(
        phrase!("sum-boils-trip"),
        format!("{nights} x ({first} + {second})"),
        "boils",
        Phrase::none(),
    );
    Draft {
        ask: phrase!(
            "practice-people-nights-supper-takes-boiling",
            people = people,
            nights = nights,
            supper = kit.say_volume(supper),
            breakfast = kit.say_volume(breakfast),
            pot = kit.say_volume(pot)
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "boils".to_owned(),
    }
}

pub(super) fn weigh_notice() -> (Signal, Phrase) {
    (
        Signal::Warning,
        phrase!("practice-weigh-canisters-off-stove"),
    )
}

pub(super) fn above_canister(kit: &Kit<'_>, level: Level) -> Above {
    let table = (level == Level::Table).then(|| Table {
        caption: phrase!("practice-usual-masses-canisters-one"),
        head: [
            phrase!("practice-canister"),
            phrase!("practice-fuel-when-full-g"),
            phrase!("practice-empty-g"),
            phrase!("practice-full-g"),
            phrase!("practice-off-g"),
        ]
        .to_vec(),
        rows: kit
            .canisters
            .iter()
            .map(|one| {
                let [net, tare, off] =
                    [one.net, one.tare, one.tare_spread].map(|mass| mass.in_grams().round());
                vec![
                    size(one),
                    cell(plain(net)),
                    cell(plain(tare)),
                    cell(plain(net + tare)),
                    cell(plain(off)),
                ]
            })
            .collect(),
    });
    let mut numbers = vec![phrase!("practice-canisters-scales-marked-grams")];
    if level == Level::Trip {
        numbers.push(phrase!(
            "practice-last-g-canister-not",
            residue = plain(residue(kit))
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
            phrase!("sum-empty", name = name),
            Worked::given(tare),
            "g",
            phrase!("why-from-table"),
        );
        let answer = desk.lines.work(
            phrase!("sum-fuel-left"),
            format!("{weighed} - {empty}"),
            "g",
            Phrase::none(),
        );
        return Draft {
            ask: phrase!("practice-weighs-g-how-many", name = name, weighed = weighed),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    let off = one.tare_spread.in_grams().floor();
    let tare = one.tare.in_grams().round() - off + desk.dice.below(2 * off as usize + 1) as f64;
    let weighed = Worked::given(tare + left);
    if level == Level::Step {
        let answer = desk.lines.work(
            phrase!("sum-fuel-left"),
            format!("{weighed} - {tare}"),
            "g",
            Phrase::none(),
        );
        return Draft {
            ask: phrase!(
                "practice-stamped-g-empty-weighs",
                name = name,
                tare = tare,
                weighed = weighed
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
        phrase!("sum-burnt-on-first-day"),
        format!("{weighed} - {after}"),
        "g",
        Phrase::none(),
    );
    let usable = desk.lines.work(
        phrase!("sum-fuel-left-counts"),
        format!("{after} - {tare} - {}", plain(residue(kit))),
        "g",
        Phrase::none(),
    );
    let days = desk.lines.work(
        phrase!("sum-days-rate"),
        format!("{usable} / {used}"),
        "",
        Phrase::none(),
    );
    let whole = days.value().floor().max(0.0);
    let answer = desk.lines.given(
        phrase!("sum-whole-days"),
        Worked::given(whole),
        "days",
        phrase!("why-rounded-down", number = days),
    );
    Draft {
        ask: phrase!(
            "practice-stamped-g-empty-weighs-g",
            name = name,
            tare = tare,
            weighed = weighed,
            after = after,
            residue = plain(residue(kit))
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "days".to_owned(),
    }
}
