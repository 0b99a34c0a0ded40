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

/// What a row of the table burns, and how.
fn given(row: &Row) -> (Lump, Around, Burner, Gas) {
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
    (lump, around, burner, gas)
}

fn burn(row: &Row) -> Burnt {
    let (lump, around, burner, gas) = given(row);
    let minutes = Time::minutes(row.number("minutes"));
    let need = |_| Some(minutes);
    burn_lump(&lump, &around, &burner, &gas, minutes, need, |_| ())
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

/// A pot in still air at an invented size: it takes so many joules, and loses so many watts, more
/// than the flame gives where the power is low.
fn need_of(work: f64, lost: f64) -> impl Fn(Power) -> Option<Time> {
    move |power: Power| {
        let flow = 0.5 * power.in_watts() - lost;
        (flow > 0.0).then(|| Time::seconds(work / flow))
    }
}

/// What is given up would not have been done by the longest time either: burnt on from where it was
/// given up, whole minutes at a time, it is never done.
#[test]
fn what_is_given_up_would_never_have_been_done() {
    let mut given_up = 0;
    for row in table(include_str!("../reference/canister_burn.csv"), 104) {
        let (lump, around, burner, gas) = given(&row);
        if lump.temperature < around.air {
            continue;
        }
        for lost in [0.0, 150.0, 400.0] {
            let need = need_of(1.2e6, lost);
            let full = need(burner.set).map_or(0.0, Time::in_seconds);
            let longest = Time::seconds(full * 40.0);
            let first = burn_lump(&lump, &around, &burner, &gas, longest, &need, |_| ());
            if first.done || first.emptied || first.time >= longest || first.mean == Power::ZERO {
                continue;
            }
            given_up += 1;
            let energy = first.mean.in_watts() * first.time.in_seconds();
            let mut on = Vec::new();
            let rest = longest - first.time;
            burn_lump(
                &first.after,
                &around,
                &burner,
                &gas,
                rest,
                |_| Some(rest),
                |moment| on.push(moment),
            );
            let mut given = energy;
            for pair in on.windows(2) {
                let seconds = (pair[1].time - pair[0].time).in_seconds();
                let most = pair[0].power.max(pair[1].power);
                given += most.in_watts() * seconds;
                let time = first.time + pair[1].time;
                let mean = Power::watts(given / time.in_seconds());
                let done = need(mean).is_some_and(|need| need <= time);
                let what = row.text("id");
                assert!(!done, "row {what}, {lost} W lost: done after {time:?}");
            }
        }
    }
    assert!(given_up > 20, "{given_up} burns were given up");
}
