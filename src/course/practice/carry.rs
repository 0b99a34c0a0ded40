//! Problems about what is carried: spare fuel, the shelf of canisters.

use super::desk::{Desk, Kit, cell, plain, size, up_to_five};
use super::stores::{residue, weigh_notice};
use super::types::{Above, Accept, Draft, Level, Table};
use crate::course::dice::Dice;
use crate::nouns::Signal;
use crate::phrase::{Phrase, phrase};
use crate::plan::Worked;

/// Spare shares of the table and problems.
const SPARES: [f64; 4] = [0.15, 0.2, 0.25, 0.3];

/// Likely grams of the table.
const LIKELY: [f64; 6] = [80.0, 120.0, 160.0, 200.0, 300.0, 400.0];

pub(super) fn above_spare(_: &Kit<'_>, level: Level) -> Above {
    let notice = (Signal::Notice, phrase!("practice-spare-wind-spills-one"));
    if level != Level::Table {
        return Above {
            numbers: vec![phrase!("practice-what-carried-rounded-up")],
            table: None,
            careful: vec![notice],
        };
    }
    let mut head = vec![phrase!("practice-likely-fuel-g")];
    head.extend(SPARES.map(|share| {
        let percent = share * 100.0;
        phrase!("practice-spare", percent = percent)
    }));
    let rows = LIKELY
        .into_iter()
        .map(|likely| {
            let mut row = vec![cell(plain(likely))];
            row.extend(SPARES.map(|share| cell(plain(up_to_five(likely * (1.0 + share))))));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!("practice-grams-carry-spare-added"),
            head,
            rows,
        }),
        careful: vec![notice],
    }
}

pub(super) fn spare(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let share = desk.dice.pick(&SPARES);
    let percent = share * 100.0;
    if level == Level::Table {
        let likely = desk.dice.pick(&LIKELY);
        let kitchens = desk.dice.between(2, 4, 1);
        let one = desk.lines.given(
            phrase!(
                "sum-to-carry-with-spare",
                likely = likely,
                percent = percent
            ),
            Worked::given(up_to_five(likely * (1.0 + share))),
            "g",
            phrase!("why-from-table"),
        );
        let answer = desk.lines.work(
            phrase!("sum-for-all-kitchens"),
            format!("{kitchens} x {one}"),
            "g",
            Phrase::none(),
        );
        return Draft {
            ask: phrase!(
                "practice-kitchens-burn-about-g",
                kitchens = kitchens,
                likely = likely,
                percent = percent
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    let day = desk.dice.between(24, 120, 2);
    let days = desk.dice.between(2, 6, 1);
    let likely = desk.lines.work(
        phrase!("sum-likely-fuel"),
        format!("{days} x {day}"),
        "g",
        Phrase::none(),
    );
    let with = desk.lines.work(
        phrase!("sum-with-spare-share"),
        format!("{likely} x (1 + {share})"),
        "g",
        Phrase::none(),
    );
    if level == Level::Step {
        let answer = desk.five_up(&with);
        return Draft {
            ask: phrase!(
                "practice-kitchen-burns-about-g",
                day = day,
                days = days,
                percent = percent
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    let longer = desk.lines.work(
        phrase!("sum-with-one-day-more"),
        format!("{likely} + {day}"),
        "g",
        Phrase::none(),
    );
    let larger = if longer.value() > with.value() {
        longer
    } else {
        with
    };
    let larger = desk
        .lines
        .given(phrase!("sum-larger-two"), larger, "g", Phrase::none());
    let answer = desk.five_up(&larger);
    Draft {
        ask: phrase!(
            "practice-kitchen-burns-about-g-day",
            day = day,
            days = days,
            percent = percent
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "g".to_owned(),
    }
}

/// Letters of the shelf.
const LETTERS: [&str; 6] = ["A", "B", "C", "D", "E", "F"];

/// A part-used canister on the shelf: stamped empty and weighed, grams.
struct Used {
    name: Phrase,
    tare: f64,
    weighed: f64,
}

/// The shelf of a seed: the same for all problems of a level.
fn on_shelf(kit: &Kit<'_>, level: Level, seed: u64) -> Vec<Used> {
    let mut dice = Dice::new(seed, &[0x0073_6865_6c66, u64::from(level.number())]);
    LETTERS
        .iter()
        .map(|_| {
            let one = kit.canisters[dice.below(kit.canisters.len())];
            let off = one.tare_spread.in_grams().floor();
            let tare = one.tare.in_grams().round() - off + dice.below(2 * off as usize + 1) as f64;
            let left = (one.net.in_grams() * dice.between(15, 85, 1) / 100.0).round();
            Used {
                name: size(one),
                tare,
                weighed: tare + left,
            }
        })
        .collect()
}

pub(super) fn above_shelf(kit: &Kit<'_>, level: Level, seed: u64) -> Above {
    let mut head = vec![
        phrase!("practice-tag"),
        phrase!("practice-canister"),
        phrase!("practice-stamped-empty-g"),
        phrase!("practice-weighs-g"),
    ];
    if level == Level::Table {
        head.push(phrase!("practice-fuel-left-g"));
    }
    let rows = on_shelf(kit, level, seed)
        .into_iter()
        .zip(LETTERS)
        .map(|(one, letter)| {
            let mut row = vec![
                cell(letter),
                one.name,
                cell(plain(one.tare)),
                cell(plain(one.weighed)),
            ];
            if level == Level::Table {
                row.push(cell(plain(one.weighed - one.tare)));
            }
            row
        })
        .collect();
    let mut numbers = Vec::new();
    if level == Level::Trip {
        numbers.push(phrase!(
            "practice-count-g-every-canister",
            residue = plain(residue(kit))
        ));
    }
    Above {
        numbers,
        table: Some(Table {
            caption: phrase!("practice-shelf-weighed-today"),
            head,
            rows,
        }),
        careful: vec![weigh_notice()],
    }
}

pub(super) fn shelf(desk: &mut Desk<'_, '_>, level: Level, seed: u64) -> Draft {
    let kit = desk.kit;
    let shelf = on_shelf(kit, level, seed);
    let count = if level == Level::Table { 3 } else { 2 };
    let mut taken: Vec<usize> = (0..LETTERS.len()).collect();
    while taken.len() > count {
        let away = desk.dice.below(taken.len());
        taken.remove(away);
    }
    let letters: Vec<&str> = taken.iter().map(|index| LETTERS[*index]).collect();
    let said = match letters.as_slice() {
        [a, b, c] => phrase!("practice-three-canisters", a = a, b = b, c = c),
        [a, b] => phrase!("practice-two-canisters", a = a, b = b),
        many => cell(many.join(" ")),
    };
    let mut each = Vec::new();
    for index in taken {
        let one = &shelf[index];
        let letter = LETTERS[index];
        each.push(if level == Level::Table {
            desk.lines.given(
                phrase!("sum-fuel-left-in", letter = letter),
                Worked::given(one.weighed - one.tare),
                "g",
                phrase!("why-from-table"),
            )
        } else {
            desk.lines.work(
                phrase!("sum-fuel-left-in", letter = letter),
                format!("{} - {}", one.weighed, one.tare),
                "g",
                Phrase::none(),
            )
        });
    }
    let sum = each
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join(" + ");
    let all = desk
        .lines
        .work(phrase!("sum-fuel-in-all"), sum, "g", Phrase::none());
    if level != Level::Trip {
        return Draft {
            ask: phrase!("practice-canisters-go-on-trip", said = said),
            accept: Accept::exact(&all),
            answer: all,
            unit: "g".to_owned(),
        };
    }
    let new = kit.canisters[desk.dice.below(kit.canisters.len().min(2))];
    let lost = residue(kit);
    let need = (all.value() + desk.dice.between(40, 420, 5)).round();
    let need = Worked::given(up_to_five(need));
    let usable = desk.lines.work(
        phrase!("sum-usable-of-that"),
        format!("{all} - {count} x {}", plain(lost)),
        "g",
        Phrase::none(),
    );
    let missing = desk.lines.work(
        phrase!("sum-still-missing"),
        format!("{need} - {usable}"),
        "g",
        Phrase::none(),
    );
    let full = desk.lines.work(
        phrase!("sum-new-canister-gives", new = size(new)),
        format!("{} - {}", plain(new.net.in_grams().round()), plain(lost)),
        "g",
        Phrase::none(),
    );
    let wanted = desk.lines.work(
        phrase!("sum-new-canisters"),
        format!("{missing} / {full}"),
        "",
        Phrase::none(),
    );
    let answer = desk.whole_up(phrase!("sum-whole-canisters"), &wanted, "canisters");
    Draft {
        ask: phrase!(
            "practice-trip-needs-g-fuel",
            need = need,
            said = said,
            new = size(new)
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "canisters".to_owned(),
    }
}
