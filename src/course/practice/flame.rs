//! Problems about time and height: minutes at the stove, where water boils.

use super::desk::{Desk, Kit, TABLE_EFFICIENCY, cell, plain, tenth};
use super::heat::{HEAT_PERCENT, boil_at, heat_above, one_heat, waters};
use super::types::{Above, Accept, Draft, Level, Table};
use crate::nouns::Signal;
use crate::phrase::{Phrase, phrase};
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

fn never_leave() -> (Signal, Phrase) {
    (Signal::Warning, phrase!("practice-pot-can-boil-early"))
}

pub(super) fn above_minutes(kit: &Kit<'_>, level: Level) -> Above {
    if level != Level::Table {
        let mut above = heat_above(kit, &[]);
        above.numbers.push(phrase!("practice-kilowatt-1-kj-second"));
        above.careful = vec![never_leave()];
        return above;
    }
    let mut head = vec![phrase!("practice-water-start")];
    head.extend(POWERS.map(|power| cell(format!("{power} kW"))));
    let rows = waters(kit)
        .into_iter()
        .map(|from| {
            let mut row = vec![cell(say::temperature(from, kit.units))];
            row.extend(
                POWERS.map(|power| cell(say::plain(table_minutes(kit, from, power).value(), 1))),
            );
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!(
                "practice-minutes-bring-1-boil",
                unit = kit.volume_unit(),
                efficiency = TABLE_EFFICIENCY
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
            phrase!(
                "sum-minutes-1-from-with",
                unit = kit.volume_unit(),
                words = words,
                power = power
            ),
            table_minutes(kit, from, power),
            "min",
            phrase!("why-from-table"),
        );
        let answer = desk.lines.work(
            phrase!("sum-minutes"),
            format!("{} x {one}", Worked::given(number)),
            "min",
            Phrase::none(),
        );
        return Draft {
            ask: phrase!(
                "practice-sea-burner-kw-heats",
                power = power,
                volume = kit.say_volume(number),
                words = words
            ),
            accept: Accept::percent(&answer, HEAT_PERCENT),
            answer,
            unit: "min".to_owned(),
        };
    }
    let number = desk.dice.between(2, 6, 1) / 2.0;
    let water = desk.water(phrase!("sum-water"), number);
    let from = desk.stream();
    let camp = desk.camp();
    let share = desk.efficiency(35, 60);
    let c = kit.water_heat();
    let heat = desk.lines.work(
        phrase!("line-heat-into-water"),
        format!("{} x {c} x ({} - {})", water.worth, camp.worth, from.worth),
        "kJ",
        Phrase::none(),
    );
    let flame = desk.lines.work(
        phrase!("line-minutes-in-all"),
        format!("{heat} / ({power} x {} x 60)", share.worth),
        "min",
        Phrase::none(),
    );
    if level == Level::Step {
        return Draft {
            ask: phrase!(
                "practice-burner-kw-heats-water",
                power = power,
                water = water.words,
                from = from.words,
                camp = camp.words,
                share = share.words
            ),
            accept: Accept::percent(&flame, HEAT_PERCENT),
            answer: flame,
            unit: "min".to_owned(),
        };
    }
    let boils = desk.dice.between(2, 5, 1);
    let set_up = Worked::given(kit.library.figures.set_up.value.in_minutes());
    let answer = desk.lines.work(
        phrase!("sum-time-suppers-water"),
        format!("{boils} x ({flame} + {set_up})"),
        "min",
        Phrase::none(),
    );
    Draft {
        ask: phrase!(
            "practice-supper-takes-boils-one",
            boils = boils,
            water = water.words,
            from = from.words,
            camp = camp.words,
            power = power,
            share = share.words,
            set_up = set_up
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
        Level::Step => above
            .numbers
            .push(phrase!("practice-between-two-rows-boiling")),
        Level::Trip => {
            let factor = kit.library.figures.simmer_factor.value;
            let factors = COOLER.map(|by| {
                let times = libm::pow(factor, by / 10.0);
                phrase!(
                    "practice-cooler-times",
                    by = by,
                    times = say::plain(times, 2)
                )
            });
            let factors = factors
                .into_iter()
                .reduce(|some, more| phrase!("practice-cooler-and", some = some, more = more));
            let factors = factors.unwrap_or_default();
            above.numbers.push(phrase!(
                "practice-simmering-takes-times-long",
                factor = plain(factor),
                factors = factors
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
                    phrase!(
                        "sum-water-boils-at-height",
                        height = say::elevation(height, kit.units)
                    ),
                    boils(kit, height),
                    unit,
                    phrase!("why-from-table"),
                )
            });
            let answer = desk.lines.work(
                phrase!("sum-cooler-by"),
                format!("{below} - {above}"),
                unit,
                Phrase::none(),
            );
            Draft {
                ask: phrase!(
                    "practice-you-move-camp-from",
                    low = say::elevation(low, kit.units),
                    high = say::elevation(high, kit.units),
                    unit = unit
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
                    phrase!(
                        "sum-water-boils-at-height",
                        height = say::elevation(height, kit.units)
                    ),
                    boils(kit, height),
                    unit,
                    phrase!("why-from-table"),
                )
            });
            let done = desk.lines.work(
                phrase!("sum-share-climb"),
                format!(
                    "({} - {}) / ({} - {})",
                    number(here),
                    number(low),
                    number(high),
                    number(low)
                ),
                "",
                Phrase::none(),
            );
            let fall = desk.lines.work(
                phrase!("sum-fall"),
                format!("({below} - {above}) x {done}"),
                unit,
                Phrase::none(),
            );
            let answer = desk.lines.work(
                phrase!("sum-water-boils-there"),
                format!("{below} - {fall}"),
                unit,
                Phrase::none(),
            );
            Draft {
                ask: phrase!("practice-your-camp-lies-how", words = words, unit = unit),
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
                    phrase!(
                        "sum-water-boils-at-height",
                        height = say::elevation(height, kit.units)
                    ),
                    kit.boils(height),
                    "°C",
                    phrase!("why-from-table"),
                )
            });
            let cooler = desk.lines.work_temperature(
                phrase!("sum-cooler-by"),
                format!("{sea} - {camp}"),
                Phrase::none(),
            );
            let factor = Worked::given(kit.library.figures.simmer_factor.value);
            let times = desk.lines.work(
                phrase!("sum-times-long"),
                format!("{factor}^({cooler} / 10)"),
                "",
                phrase!("why-common-practice"),
            );
            let answer = desk.lines.work(
                phrase!("sum-simmer"),
                format!("{simmer} x {times}"),
                "min",
                phrase!("why-taste-no-rule-replaces"),
            );
            Draft {
                ask: phrase!(
                    "practice-lentils-simmer-minutes-sea",
                    simmer = simmer,
                    words = words
                ),
                accept: Accept::percent(&answer, 5.0),
                answer,
                unit: "min".to_owned(),
            }
        }
    }
}
