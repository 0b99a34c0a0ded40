//! The burn of a canister held against an integration by reference libraries.

use super::{Row, near, near_share, table};
use leeside::nouns::{Screen, Verdict, Wind};
use leeside::physics::burn::{Around, Burner, Burnt, Gas, Lump, burn_lump};
use leeside::physics::vapour::{Component, Liquid};
use leeside::units::{
    Fraction, HeatingValue, Length, Mass, Power, Pressure, SpecificHeat, Temperature, Time,
};

/// Assumptions of the calculation, as the table names them: W/(m2 K) by wind.
fn film(row: &Row) -> f64 {
    let films = [10.0, 27.0, 38.0];
    let wind = Wind::from_word(row.text("wind")).expect("a wind");
    let at = Wind::ALL.iter().position(|one| *one == wind).unwrap();
    let screen = Screen::from_word(row.text("screen")).expect("a screen");
    let calmer = matches!(screen, Screen::Natural | Screen::Partial);
    films[at - usize::from(calmer && at > 0)]
}

/// Lower heating values of propane, isobutane, n-butane as the table takes them, MJ/kg.
const VALUES: [f64; 3] = [46.34, 45.55, 45.72];

fn burn(row: &Row) -> Burnt {
    let kilowatts = |column| Power::kilowatts(row.number(column));
    let shares =
        ["propane_start", "isobutane_start", "n_butane_start"].map(|column| row.number(column));
    let [propane, isobutane, butane] = shares.map(Fraction::of_one);
    let net = Mass::grams(row.number("net_start_g"));
    let lump = Lump {
        liquid: Liquid::of(net, propane, isobutane, butane),
        temperature: Temperature::celsius(row.number("start_c")),
        tare: Mass::grams(row.number("tare_g")),
        diameter: Length::millimetres(row.number("diameter_mm")),
        height: Length::millimetres(row.number("height_mm")),
    };
    let on_top = row.text("stands") == "on top";
    let around = Around {
        air: Temperature::celsius(row.number("air_c")),
        pressure: Pressure::kilopascals(row.number("p_amb_kpa")),
        film: film(row),
        warmth: Power::watts(if on_top { 5.0 } else { 0.0 }),
    };
    let burner = Burner {
        set: kilowatts("p_set_kw"),
        family: kilowatts("family_power_kw"),
        open: 2.0,
        regulated: (row.text("regulated") == "yes").then_some(Pressure::kilopascals(60.0)),
    };
    let value: f64 = shares
        .iter()
        .zip(VALUES)
        .map(|(share, value)| share * value)
        .sum();
    let [liquid_heat, steel_heat] = [2.4, 0.46].map(SpecificHeat::kilojoules_per_kilogram_kelvin);
    let gas = Gas {
        latent: HeatingValue::joules_per_kilogram(370_000.0),
        liquid_heat,
        steel_heat,
        heating_value: HeatingValue::megajoules_per_kilogram(value),
        residue: Mass::grams(4.0),
    };
    let minutes = Time::minutes(row.number("minutes"));
    burn_lump(
        &lump,
        &around,
        &burner,
        &gas,
        minutes,
        |_| Some(minutes),
        |_| (),
    )
}

fn verdict(burnt: &Burnt, set: f64) -> Verdict {
    if burnt.done {
        Verdict::of_share(Fraction::of_one(burnt.mean.in_kilowatts() / set))
    } else {
        Verdict::WillNotWork
    }
}

/// `canister_burn.csv`: scipy 1.17.1 (DOP853) on pure pressures of reference equations of state
/// (CoolProp: Lemmon 2009, Buecker and Wagner 2006), US Standard Atmosphere 1976: 0.2 K, 2 kPa,
/// 1 % of the mean power, 0.005 of the composition, the verdict exactly.
#[test]
fn every_burn_of_the_table() {
    for row in table(include_str!("../reference/canister_burn.csv"), 104) {
        let what = |column: &str| format!("row {} ({}): {column}", row.text("id"), row.text("why"));
        let burnt = burn(&row);
        let kilopascals = |column: &str, value: Pressure| {
            near(
                &what(column),
                value.in_kilopascals(),
                row.number(column),
                2.0,
            );
        };
        kilopascals("gauge_start_kpa", burnt.gauge_start);
        kilopascals("gauge_end_kpa", burnt.gauge_end);
        let end = burnt.after.temperature.in_celsius();
        near(&what("T_end_c"), end, row.number("T_end_c"), 0.2);
        let liquid = &burnt.after.liquid;
        let verdict = verdict(&burnt, row.number("p_set_kw"));
        let share = row.number("share");
        if [0.75, 0.40].iter().all(|edge| (share - edge).abs() > 0.005) {
            assert_eq!(verdict.word(), row.text("verdict"), "{}", what("verdict"));
        }
        let parts = [
            (Component::Propane, "propane_left"),
            (Component::Isobutane, "isobutane_left"),
            (Component::Butane, "n_butane_left"),
        ];
        for (part, column) in parts {
            let share = liquid.mass_fraction(part).in_one();
            near(&what(column), share, row.number(column), 0.005);
        }
        near(
            &what("left_g"),
            liquid.total().in_grams(),
            row.number("left_g"),
            0.3,
        );
        // the table's mean is over all the minutes asked for, also where it ran empty before
        let asked = row.number("minutes") * 60.0;
        let mean = burnt.mean.in_kilowatts() * burnt.time.in_seconds() / asked;
        near_share(
            &what("mean_power_kw"),
            mean,
            row.number("mean_power_kw"),
            0.01,
        );
    }
}
