//! Problems about what is carried: spare fuel, the shelf of canisters.

use super::desk::{Desk, Kit, plain, size, up_to_five};
use super::stores::{residue, weigh_notice};
use super::{Above, Accept, Draft, Level, Table};
use crate::course::dice::Dice;
use crate::nouns::Signal;
use crate::plan::Worked;

/// Spare shares of the table and problems.
const SPARES: [f64; 4] = [0.15, 0.2, 0.25, 0.3];

/// Likely grams of the table.
const LIKELY: [f64; 6] = [80.0, 120.0, 160.0, 200.0, 300.0, 400.0];

pub(super) fn above_spare(_: &Kit<'_>, level: Level) -> Above {
    let notice = (
        Signal::Notice,
        "Spare is for wind, spills and one more night, and comes home full. The leader says how much."
            .to_owned(),
    );
    if level != Level::Table {
        return Above {
            numbers: vec!["What is carried is rounded up to the next 5 g.".to_owned()],
            table: None,
            careful: vec![notice],
        };
    }
    let mut head = vec!["Likely fuel, g".to_owned()];
    head.extend(SPARES.map(|share| format!("{} % spare", share * 100.0)));
    let rows = LIKELY
        .into_iter()
        .map(|likely| {
            let mut row = vec![plain(likely)];
            row.extend(SPARES.map(|share| plain(up_to_five(likely * (1.0 + share)))));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: "Grams to carry, spare added and rounded up to 5 g".to_owned(),
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
            format!("to carry for {likely} g with {percent} % spare"),
            Worked::given(up_to_five(likely * (1.0 + share))),
            "g",
            "from the table",
        );
        let answer = desk
            .lines
            .work("for all kitchens", format!("{kitchens} x {one}"), "g", "");
        return Draft {
            ask: format!(
                "{kitchens} kitchens burn about {likely} g each, and each carries {percent} % spare. How \
                 many grams do they carry in all?"
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    let day = desk.dice.between(24, 120, 2);
    let days = desk.dice.between(2, 6, 1);
    let likely = desk
        .lines
        .work("likely fuel", format!("{days} x {day}"), "g", "");
    let with = desk.lines.work(
        "with the spare share",
        format!("{likely} x (1 + {share})"),
        "g",
        "",
    );
    if level == Level::Step {
        let answer = desk.five_up(&with);
        return Draft {
            ask: format!(
                "A kitchen burns about {day} g a day for {days} days and carries {percent} % spare, \
                 rounded up to 5 g. How many grams is that?"
            ),
            accept: Accept::exact(&answer),
            answer,
            unit: "g".to_owned(),
        };
    }
    let longer = desk
        .lines
        .work("with one day more", format!("{likely} + {day}"), "g", "");
    let larger = if longer.value() > with.value() {
        longer
    } else {
        with
    };
    let larger = desk.lines.given("the larger of the two", larger, "g", "");
    let answer = desk.five_up(&larger);
    Draft {
        ask: format!(
            "A kitchen burns about {day} g a day for {days} days. It carries {percent} % spare or fuel \
             for one day more, whichever is more, rounded up to 5 g. How many grams is that?"
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
    name: String,
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
    let mut head: Vec<String> = ["", "Canister", "stamped empty, g", "weighs, g"]
        .map(str::to_owned)
        .to_vec();
    head[0] = "Tag".to_owned();
    if level == Level::Table {
        head.push("fuel left, g".to_owned());
    }
    let rows = on_shelf(kit, level, seed)
        .into_iter()
        .zip(LETTERS)
        .map(|(one, letter)| {
            let mut row = vec![
                letter.to_owned(),
                one.name,
                plain(one.tare),
                plain(one.weighed),
            ];
            if level == Level::Table {
                row.push(plain(one.weighed - one.tare));
            }
            row
        })
        .collect();
    let mut numbers = Vec::new();
    if level == Level::Trip {
        numbers.push(format!(
            "Count {} g of every canister, new or used, as lost: the flame is too weak for them.",
            plain(residue(kit))
        ));
    }
    Above {
        numbers,
        table: Some(Table {
            caption: "The shelf, weighed today".to_owned(),
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
        [a, b, c] => format!("{a}, {b} and {c}"),
        many => many.join(" and "),
    };
    let mut each = Vec::new();
    for index in taken {
        let one = &shelf[index];
        let letter = LETTERS[index];
        each.push(if level == Level::Table {
            desk.lines.given(
                format!("fuel left in {letter}"),
                Worked::given(one.weighed - one.tare),
                "g",
                "from the table",
            )
        } else {
            desk.lines.work(
                format!("fuel left in {letter}"),
                format!("{} - {}", one.weighed, one.tare),
                "g",
                "",
            )
        });
    }
    let sum = each
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join(" + ");
    let all = desk.lines.work("fuel in all", sum, "g", "");
    if level != Level::Trip {
        return Draft {
            ask: format!(
                "Canisters {said} go on the trip. How many grams of fuel are in them together?"
            ),
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
        "of that it can use",
        format!("{all} - {count} x {}", plain(lost)),
        "g",
        "",
    );
    let missing = desk
        .lines
        .work("still missing", format!("{need} - {usable}"), "g", "");
    let full = desk.lines.work(
        format!("what a new {} gives", size(new)),
        format!("{} - {}", plain(new.net.in_grams().round()), plain(lost)),
        "g",
        "",
    );
    let wanted = desk
        .lines
        .work("new canisters", format!("{missing} / {full}"), "", "");
    let answer = desk.whole_up("whole canisters", &wanted, "canisters");
    Draft {
        ask: format!(
            "The trip needs {need} g of fuel. Canisters {said} are used up first; the rest comes from \
             new ones, each a {}. How many new ones are needed?",
            size(new)
        ),
        accept: Accept::exact(&answer),
        answer,
        unit: "canisters".to_owned(),
    }
}
