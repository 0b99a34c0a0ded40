//! Problems about time and height: minutes at the stove, where water boils.

use super::desk::{Desk, Kit, TABLE_EFFICIENCY, plain, tenth};
use super::heat::{HEAT_PERCENT, boil_at, heat_above, one_heat, waters};
use super::{Above, Accept, Draft, Level, Table};
use crate::nouns::Signal;
use crate::physics::time;
use crate::plan::Worked;
use crate::units::{Fraction, Length, Power, Temperature, say};

/// The powers of burners in tables and problems, kW.
const POWERS: [f64; 4] = [1.5, 2.0, 2.5, 3.0];

fn table_minutes(kit: &Kit<'_>, from: Temperature, kilowatts: f64) -> Worked {
    let heat = one_heat(kit, from, boil_at(kit, Length::ZERO));
    let share = Fraction::percent(TABLE_EFFICIENCY);
    tenth(time::minutes_per_batch(heat, Power::kilowatts(kilowatts), share).in_minutes())
}

fn never_leave() -> (Signal, String) {
    (
        Signal::Warning,
        "A pot can boil early, spill or tip: the minutes are for planning. Stay with every lit stove."
            .to_owned(),
    )
}

pub(super) fn above_minutes(kit: &Kit<'_>, level: Level) -> Above {
    if level != Level::Table {
        let mut above = heat_above(kit, &[]);
        above
            .numbers
            .push("A kilowatt is 1 kJ a second, 60 kJ a minute.".to_owned());
        above.careful = vec![never_leave()];
        return above;
    }
    let mut head = vec!["Water at the start".to_owned()];
    head.extend(POWERS.map(|power| format!("{power} kW")));
    let rows = waters(kit)
        .into_iter()
        .map(|from| {
            let mut row = vec![say::temperature(from, kit.units)];
            row.extend(POWERS.map(|power| say::number(table_minutes(kit, from, power).value(), 1)));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: format!(
                "Minutes that bring 1 {} to the boil by the sea, {TABLE_EFFICIENCY} % of the heat in the pot",
                kit.volume_unit()
            ),
            head,
            rows,
        }),
        careful: vec![never_leave()],
    }
}

pub(super) fn minutes(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let power = desk.dice.pick(&POWERS);
    if level == Level::Table {
        let from = desk.dice.pick(&waters(kit));
        let number = desk.dice.between(2, 8, 1) / 2.0;
        let words = say::temperature(from, kit.units);
        let one = desk.lines.given(
            format!(
                "minutes for 1 {} from {words} with {power} kW",
                kit.volume_unit()
            ),
            table_minutes(kit, from, power),
            "min",
            "from the table",
        );
        let answer = desk.lines.work(
            "minutes",
            format!("{} x {one}", Worked::given(number)),
            "min",
            "",
        );
        return Draft {
            ask: format!(
                "By the sea, a burner of {power} kW heats {} of water from {words}. How many minutes \
                 until it boils?",
                kit.say_volume(number)
            ),
            accept: Accept::percent(&answer, HEAT_PERCENT),
            answer,
            unit: "min".to_owned(),
        };
    }
    let number = desk.dice.between(2, 6, 1) / 2.0;
    let water = desk.water("water", number);
    let from = desk.stream();
    let camp = desk.camp();
    let share = desk.efficiency(35, 60);
    let c = kit.water_heat();
    let heat = desk.lines.work(
        "heat into the water",
        format!("{} x {c} x ({} - {})", water.worth, camp.worth, from.worth),
        "kJ",
        "",
    );
    let flame = desk.lines.work(
        "minutes of flame",
        format!("{heat} / ({power} x {} x 60)", share.worth),
        "min",
        "",
    );
    if level == Level::Step {
        return Draft {
            ask: format!(
                "A burner of {power} kW heats {} of water from {} at {}; {} of its heat reaches the \
                 pot. How many minutes until it boils?",
                water.words, from.words, camp.words, share.words
            ),
            accept: Accept::percent(&flame, HEAT_PERCENT),
            answer: flame,
            unit: "min".to_owned(),
        };
    }
    let boils = desk.dice.between(2, 5, 1);
    let set_up = Worked::given(kit.library.figures.set_up.value.in_minutes());
    let answer = desk.lines.work(
        "time for supper's water",
        format!("{boils} x ({flame} + {set_up})"),
        "min",
        "",
    );
    Draft {
        ask: format!(
            "Supper takes {boils} boils, one after the other, of {} each, from {} at {}. The burner has \
             {power} kW, {} of its heat reaches the pot, and each boil needs {set_up} min to set up. How \
             many minutes from the start of the first set-up to the last boil?",
            water.words, from.words, camp.words, share.words
        ),
        accept: Accept::percent(&answer, HEAT_PERCENT),
        answer,
        unit: "min".to_owned(),
    }
}

/// Coolings for which the factor on simmering is printed, for those without a power key.
const COOLER: [f64; 7] = [2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0];

pub(super) fn above_height(kit: &Kit<'_>, level: Level) -> Above {
    let mut above = Above {
        numbers: Vec::new(),
        table: Some(kit.boiling_table()),
        careful: Vec::new(),
    };
    match level {
        Level::Table => {}
        Level::Step => above.numbers.push(
            "Between two rows the boiling point falls evenly, near enough: take the share of the \
             climb that you have done, and take that share of the fall."
                .to_owned(),
        ),
        Level::Trip => {
            let factor = kit.library.figures.simmer_factor.value;
            let factors = COOLER.map(|by| {
                let times = libm::pow(factor, by / 10.0);
                format!("{by} °C {}", say::number(times, 2))
            });
            above.numbers.push(format!(
                "Simmering takes {} times as long for each 10 °C that water boils cooler (common \
                 practice): {}^(cooler / 10). By steps: {}.",
                plain(factor),
                plain(factor),
                factors.join(", ")
            ));
        }
    }
    above
}

pub(super) fn height(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let (unit, boils): (&str, fn(&Kit<'_>, Length) -> Worked) = if kit.us() {
        ("°F", |kit, height| kit.boils_fahrenheit(height))
    } else {
        ("°C", |kit, height| kit.boils(height))
    };
    let rungs = kit.heights();
    match level {
        Level::Table => {
            let mut pair = [
                desk.dice.below(rungs.len()),
                desk.dice.below(rungs.len() - 1),
            ];
            // Never the same row twice.
            pair[1] += usize::from(pair[1] >= pair[0]);
            pair.sort_unstable();
            let [low, high] = pair.map(|index| rungs[index]);
            let [below, above] = [low, high].map(|height| {
                desk.lines.given(
                    format!("water boils at {}", say::elevation(height, kit.units)),
                    boils(kit, height),
                    unit,
                    "from the table",
                )
            });
            let answer = desk
                .lines
                .work("cooler by", format!("{below} - {above}"), unit, "");
            Draft {
                ask: format!(
                    "You move camp from {} up to {}. By how many {unit} does water boil cooler?",
                    say::elevation(low, kit.units),
                    say::elevation(high, kit.units)
                ),
                accept: Accept::within(&answer, 0.2, unit),
                answer,
                unit: unit.to_owned(),
            }
        }
        Level::Step => {
            let index = desk.dice.below(rungs.len() - 1);
            let share = desk.dice.between(1, 9, 1) / 10.0;
            let (low, high) = (rungs[index], rungs[index + 1]);
            let here = low + (high - low) * share;
            let number = |height: Length| {
                Worked::given(if kit.us() {
                    height.in_feet().round()
                } else {
                    height.in_metres().round()
                })
            };
            let words = say::elevation(here, kit.units);
            let [below, above] = [low, high].map(|height| {
                desk.lines.given(
                    format!("water boils at {}", say::elevation(height, kit.units)),
                    boils(kit, height),
                    unit,
                    "from the table",
                )
            });
            let done = desk.lines.work(
                "share of the climb",
                format!(
                    "({} - {}) / ({} - {})",
                    number(here),
                    number(low),
                    number(high),
                    number(low)
                ),
                "",
                "",
            );
            let fall = desk
                .lines
                .work("fall", format!("({below} - {above}) x {done}"), unit, "");
            let answer = desk
                .lines
                .work("water boils at", format!("{below} - {fall}"), unit, "");
            Draft {
                ask: format!(
                    "Your camp lies at {words}. At how many {unit} does water boil there?"
                ),
                accept: Accept::within(&answer, if kit.us() { 0.6 } else { 0.3 }, unit),
                answer,
                unit: unit.to_owned(),
            }
        }
        Level::Trip => {
            // Red lentils to brown ones, by the sea.
            let simmer = desk.dice.between(15, 30, 1);
            let index = 1 + desk.dice.below(rungs.len() - 1);
            let words = say::elevation(rungs[index], kit.units);
            let [sea, camp] = [Length::ZERO, rungs[index]].map(|height| {
                desk.lines.given(
                    format!("water boils at {}", say::elevation(height, kit.units)),
                    kit.boils(height),
                    "°C",
                    "from the table",
                )
            });
            let cooler = desk
                .lines
                .work_temperature("cooler by", format!("{sea} - {camp}"), "");
            let factor = Worked::given(kit.library.figures.simmer_factor.value);
            let times = desk.lines.work(
                "times as long",
                format!("{factor}^({cooler} / 10)"),
                "",
                "common practice",
            );
            let answer = desk.lines.work(
                "simmer",
                format!("{simmer} x {times}"),
                "min",
                "taste it: no rule replaces a bite",
            );
            Draft {
                ask: format!(
                    "Lentils simmer {simmer} minutes by the sea. How many minutes do they take at {words}?"
                ),
                accept: Accept::percent(&answer, 5.0),
                answer,
                unit: "min".to_owned(),
            }
        }
    }
}
