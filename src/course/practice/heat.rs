//! Problems about heat: fuel for a meal, water from snow.

use super::desk::{Desk, Kit, TABLE_EFFICIENCY, cell, tenth, two};
use super::types::{Above, Accept, Draft, Level, Table};
use crate::nouns::{Fuel, Signal};
use crate::phrase::{Phrase, phrase};
use crate::physics::{fuel as burning, water};
use crate::plan::Worked;
use crate::units::{Energy, Fraction, Length, Mass, Temperature, say};

/// Heat sums agree this well, percent: figures of two digits, temperatures of a tenth.
pub(super) const HEAT_PERCENT: f64 = 3.0;

/// The heights of columns in a table of fuel: fewer than the boiling table has.
fn columns(kit: &Kit<'_>) -> Vec<Length> {
    if kit.us() {
        [0.0, 4000.0, 8000.0, 12_000.0].map(Length::feet).to_vec()
    } else {
        [0.0, 1000.0, 2000.0, 3000.0, 4000.0]
            .map(Length::metres)
            .to_vec()
    }
}

/// The water temperatures of rows.
pub(super) fn waters(kit: &Kit<'_>) -> Vec<Temperature> {
    if kit.us() {
        [35.0, 40.0, 50.0, 60.0]
            .map(Temperature::fahrenheit)
            .to_vec()
    } else {
        [2.0, 5.0, 10.0, 15.0].map(Temperature::celsius).to_vec()
    }
}

/// The snow temperatures of rows and problems.
fn snows(kit: &Kit<'_>) -> Vec<Temperature> {
    if kit.us() {
        [23.0, 14.0, 5.0].map(Temperature::fahrenheit).to_vec()
    } else {
        [-2.0, -5.0, -10.0, -15.0]
            .map(Temperature::celsius)
            .to_vec()
    }
}

/// The mass of one of the reader's units of water.
fn one_mass(kit: &Kit<'_>) -> Mass {
    Mass::kilograms(kit.volume(1.0).in_litres() * kit.library.figures.water_density.value)
}

/// Heat to warm one of the reader's units of water.
pub(super) fn one_heat(kit: &Kit<'_>, from: Temperature, to: Temperature) -> Energy {
    let c = kit.library.figures.water_heat.value;
    water::heat_to_warm(one_mass(kit), c, to - from)
}

/// Grams of the table's gas for a heat, to a tenth.
fn table_grams(kit: &Kit<'_>, heat: Energy) -> Worked {
    let share = Fraction::percent(TABLE_EFFICIENCY);
    tenth(burning::fuel_for(heat, share, kit.gas.heating_value).in_grams())
}

pub(super) fn boil_at(kit: &Kit<'_>, height: Length) -> Temperature {
    Temperature::celsius(kit.boils(height).value())
}

/// What a sum of fuel is no leave to do.
fn fuel_notice() -> (Signal, Phrase) {
    (Signal::Notice, phrase!("practice-these-sums-without-pots"))
}

pub(super) fn heat_above(kit: &Kit<'_>, fuels: &[&Fuel]) -> Above {
    Above {
        numbers: kit.heat_numbers(fuels),
        table: Some(kit.boiling_table()),
        careful: vec![fuel_notice()],
    }
}

pub(super) fn above_fuel(kit: &Kit<'_>, level: Level) -> Above {
    if level != Level::Table {
        return heat_above(kit, &kit.fuels);
    }
    let unit = kit.volume_unit();
    let mut head = vec![phrase!("practice-water-start")];
    head.extend(
        columns(kit)
            .iter()
            .map(|height| cell(say::elevation(*height, kit.units))),
    );
    let rows = waters(kit)
        .into_iter()
        .map(|from| {
            let mut row = vec![cell(say::temperature(from, kit.units))];
            row.extend(columns(kit).into_iter().map(|height| {
                let grams = table_grams(kit, one_heat(kit, from, boil_at(kit, height)));
                cell(say::plain(grams.value(), 1))
            }));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!(
                "practice-grams-bring-1-boil",
                gas = kit.gas.name,
                unit = unit,
                efficiency = TABLE_EFFICIENCY
            ),
            head,
            rows,
        }),
        careful: vec![fuel_notice()],
    }
}

pub(super) fn fuel(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    match level {
        Level::Table => fuel_table(desk),
        Level::Step => fuel_step(desk),
        Level::Trip => fuel_trip(desk),
    }
}

fn fuel_table(desk: &mut Desk<'_, '_>) -> Draft {
    let kit = desk.kit;
    let from = desk.dice.pick(&waters(kit));
    let height = desk.dice.pick(&columns(kit));
    let number = desk.dice.between(3, 12, 1) / 2.0;
    let unit = kit.volume_unit();
    let (from_words, height_words) = (
        say::temperature(from, kit.units),
        say::elevation(height, kit.units),
    );
    let one = desk.lines.given(
        phrase!(
            "sum-fuel-1-from",
            unit = unit,
            from_words = from_words,
            height_words = height_words
        ),
        table_grams(kit, one_heat(kit, from, boil_at(kit, height))),
        "g",
        phrase!("why-from-table"),
    );
    let answer = desk.lines.work(
        phrase!("sum-fuel"),
        format!("{} x {one}", Worked::given(number)),
        "g",
        Phrase::none(),
    );
    Draft {
        ask: phrase!(
            "practice-kitchen-fetches-water-how",
            height = height_words,
            water = from_words,
            gas = kit.gas.name,
            volume = kit.say_volume(number)
        ),
        accept: Accept::percent(&answer, HEAT_PERCENT),
        answer,
        unit: "g".to_owned(),
    }
}

/// The share of the heat that a stove of a fuel passes on: the range that problems draw from.
fn usual_share(fuel: &Fuel) -> (u32, u32) {
    match fuel.kind {
        crate::nouns::FuelKind::Canister => (40, 60),
        crate::nouns::FuelKind::Alcohol | crate::nouns::FuelKind::Tablet => (30, 40),
        _ => (35, 50),
    }
}

fn a_fuel<'a>(desk: &mut Desk<'_, 'a>) -> &'a Fuel {
    let index = desk.dice.below(desk.kit.fuels.len());
    desk.kit.fuels[index]
}

/// Heat and fuel for litres that are warmed.
fn burnt(desk: &mut Desk<'_, '_>, heat: &Worked, fuel: &Fuel, share: &Worked) -> Worked {
    let gram = desk.lines.given(
        phrase!("sum-heat-gram", fuel = fuel.name),
        desk.kit.in_a_gram(fuel),
        "kJ",
        Phrase::none(),
    );
    desk.lines.work(
        phrase!("sum-fuel"),
        format!("{heat} / ({share} x {gram})"),
        "g",
        Phrase::none(),
    )
}

fn fuel_step(desk: &mut Desk<'_, '_>) -> Draft {
    let fuel = a_fuel(desk);
    let number = desk.dice.between(2, 12, 1) / 2.0;
    let water = desk.water(phrase!("sum-water"), number);
    let from = desk.stream();
    let camp = desk.camp();
    let (least, most) = usual_share(fuel);
    let share = desk.efficiency(least, most);
    let c = desk.kit.water_heat();
    let heat = desk.lines.work(
        phrase!("line-heat-into-water"),
        format!("{} x {c} x ({} - {})", water.worth, camp.worth, from.worth),
        "kJ",
        Phrase::none(),
    );
    let answer = burnt(desk, &heat, fuel, &share.worth);
    Draft {
        ask: phrase!(
            "practice-supper-takes-boiling-water",
            water = water.words,
            from = from.words,
            camp = camp.words,
            share = share.words,
            fuel = fuel.name
        ),
        accept: Accept::percent(&answer, HEAT_PERCENT),
        answer,
        unit: "g".to_owned(),
    }
}

fn fuel_trip(desk: &mut Desk<'_, '_>) -> Draft {
    let fuel = a_fuel(desk);
    let people = desk.dice.between(3, 8, 1);
    let nights = desk.dice.between(2, 5, 1);
    let supper = desk.dice.pick(&[0.5, 0.6, 0.8, 1.0]);
    let breakfast = desk.dice.pick(&[0.3, 0.4, 0.5]);
    let spare = desk.dice.pick(&[0.2, 0.25, 0.3]);
    let percent = spare * 100.0;
    let kit = desk.kit;
    let unit = kit.volume_unit();
    let day = desk.lines.work(
        phrase!("sum-boiling-water-day"),
        format!("{people} x ({supper} + {breakfast})"),
        unit,
        Phrase::none(),
    );
    let mut all = desk.lines.work(
        phrase!("sum-for-the-trip"),
        format!("{day} x {nights}"),
        unit,
        Phrase::none(),
    );
    if kit.us() {
        all = desk.lines.work(
            phrase!("sum-in-litres"),
            format!("{all} x 0.9464"),
            "L",
            Phrase::none(),
        );
    }
    let from = desk.stream();
    let camp = desk.camp();
    let (least, most) = usual_share(fuel);
    let share = desk.efficiency(least, most);
    let c = kit.water_heat();
    let heat = desk.lines.work(
        phrase!("line-heat-into-water"),
        format!("{all} x {c} x ({} - {})", camp.worth, from.worth),
        "kJ",
        Phrase::none(),
    );
    let likely = burnt(desk, &heat, fuel, &share.worth);
    let more = desk.lines.work(
        phrase!("sum-with-the-spare"),
        format!("{likely} x (1 + {spare})"),
        "g",
        Phrase::none(),
    );
    let answer = desk.five_up(&more);
    Draft {
        ask: phrase!(
            "practice-people-nights-supper-takes",
            people = people,
            nights = nights,
            supper = kit.say_volume(supper),
            breakfast = kit.say_volume(breakfast),
            from = from.words,
            camp = camp.words,
            share = share.words,
            fuel = fuel.name,
            percent = percent
        ),
        accept: Desk::five_accepted(&more, HEAT_PERCENT),
        answer,
        unit: "g".to_owned(),
    }
}

pub(super) fn above_snow(kit: &Kit<'_>, level: Level) -> Above {
    let figures = &kit.library.figures;
    let drink = figures.melt_to.value;
    if level != Level::Table {
        let mut above = heat_above(kit, &[kit.gas]);
        above.table = None;
        let [ice, fusion] = snow_numbers(kit);
        above.numbers.insert(
            0,
            phrase!("practice-kj-warm-snow-1", ice = ice, fusion = fusion),
        );
        above.careful.push(scorch());
        return above;
    }
    let unit = kit.volume_unit();
    let sea = boil_at(kit, Length::ZERO);
    let rows = snows(kit)
        .into_iter()
        .map(|snow| {
            let mut row = vec![cell(say::temperature(snow, kit.units))];
            row.extend([drink, sea].map(|to| {
                cell(say::plain(
                    table_grams(kit, melted(kit, snow, to)).value(),
                    1,
                ))
            }));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!(
                "practice-grams-make-1-water",
                gas = kit.gas.name,
                unit = unit,
                efficiency = TABLE_EFFICIENCY
            ),
            head: vec![
                phrase!("practice-snow"),
                phrase!("practice-drink", drink = say::temperature(drink, kit.units)),
                phrase!("practice-boil-sea"),
            ],
            rows,
        }),
        careful: vec![fuel_notice(), scorch()],
    }
}

fn scorch() -> (Signal, Phrase) {
    (Signal::Notice, phrase!("practice-begin-with-some-water"))
}

/// Heat that makes one of the reader's units of water from snow.
fn melted(kit: &Kit<'_>, snow: Temperature, to: Temperature) -> Energy {
    let figures = &kit.library.figures;
    let melt = water::heat_to_melt(
        one_mass(kit),
        figures.ice_heat.value,
        snow,
        figures.fusion.value,
    );
    melt + one_heat(kit, Temperature::celsius(0.0), to)
}

/// Heat to warm ice, and to melt it, rounded for a pencil.
fn snow_numbers(kit: &Kit<'_>) -> [Worked; 2] {
    let figures = &kit.library.figures;
    [
        two(figures.ice_heat.value.in_kilojoules_per_kilogram_kelvin()),
        two(figures.fusion.value.in_joules_per_kilogram() / 10_000.0),
    ]
    .map(|worked| {
        // Heat to melt is hundreds: its two digits are of tens.
        if worked.value() > 10.0 {
            Worked::given(worked.value() * 10.0)
        } else {
            worked
        }
    })
}

pub(super) fn snow(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let drink = kit.library.figures.melt_to.value;
    let snow_at = desk.dice.pick(&snows(kit));
    if level == Level::Table {
        let boil = desk.dice.below(2) == 1;
        let number = desk.dice.between(3, 16, 1) / 2.0;
        let unit = kit.volume_unit();
        let to = if boil {
            boil_at(kit, Length::ZERO)
        } else {
            drink
        };
        let goal = if boil {
            phrase!("practice-brought-boil-sea")
        } else {
            phrase!("practice-drink-2")
        };
        let words = say::temperature(snow_at, kit.units);
        let one = desk.lines.given(
            phrase!(
                "sum-fuel-1-from-snow",
                unit = unit,
                words = words,
                goal = goal
            ),
            table_grams(kit, melted(kit, snow_at, to)),
            "g",
            phrase!("why-from-table"),
        );
        let answer = desk.lines.work(
            phrase!("sum-fuel"),
            format!("{} x {one}", Worked::given(number)),
            "g",
            Phrase::none(),
        );
        return Draft {
            ask: phrase!(
                "practice-snow-how-many-grams",
                words = words,
                gas = kit.gas.name,
                volume = kit.say_volume(number),
                goal = goal
            ),
            accept: Accept::percent(&answer, HEAT_PERCENT),
            answer,
            unit: "g".to_owned(),
        };
    }
    let trip = (level == Level::Trip).then(|| {
        (
            desk.dice.between(2, 6, 1),
            desk.dice.pick(&[3.0, 3.5, 4.0]),
            desk.dice.between(2, 5, 1),
        )
    });
    let (litres, words) = match trip {
        None => {
            let number = desk.dice.between(2, 12, 1) / 2.0;
            let told = desk.water(phrase!("sum-water-wanted"), number);
            (told.worth, told.words)
        }
        Some((people, each, days)) => {
            let unit = kit.volume_unit();
            let mut all = desk.lines.work(
                phrase!("sum-water-trip"),
                format!("{people} x {each} x {days}"),
                unit,
                Phrase::none(),
            );
            if kit.us() {
                all = desk.lines.work(
                    phrase!("sum-in-litres"),
                    format!("{all} x 0.9464"),
                    "L",
                    Phrase::none(),
                );
            }
            (all, kit.say_volume(each))
        }
    };
    let told = desk.temperature(phrase!("sum-snow"), snow_at);
    let to = desk.temperature(phrase!("sum-water-drink"), drink);
    let [ice, fusion] = snow_numbers(kit);
    let c = kit.water_heat();
    let melt = desk.lines.work(
        phrase!("line-heat-to-melt"),
        format!("{litres} x ({ice} x (0 - {}) + {fusion})", told.worth),
        "kJ",
        Phrase::none(),
    );
    let warm = desk.lines.work(
        phrase!("sum-heat-into-its-water"),
        format!("{litres} x {c} x ({} - 0)", to.worth),
        "kJ",
        Phrase::none(),
    );
    let heat = desk.lines.work(
        phrase!("sum-heat-all"),
        format!("{melt} + {warm}"),
        "kJ",
        Phrase::none(),
    );
    let share = desk.efficiency(40, 60);
    let likely = burnt(desk, &heat, kit.gas, &share.worth);
    let Some((people, _, days)) = trip else {
        return Draft {
            ask: phrase!(
                "practice-you-want-water-drink",
                words = words,
                to = to.words,
                snow = told.words,
                share = share.words,
                gas = kit.gas.name
            ),
            accept: Accept::percent(&likely, HEAT_PERCENT),
            answer: likely,
            unit: "g".to_owned(),
        };
    };
    let answer = desk.five_up(&likely);
    Draft {
        ask: phrase!(
            "practice-people-drink-person-day",
            people = people,
            words = words,
            days = days,
            snow = told.words,
            to = to.words,
            share = share.words,
            gas = kit.gas.name
        ),
        accept: Desk::five_accepted(&likely, HEAT_PERCENT),
        answer,
        unit: "g".to_owned(),
    }
}
