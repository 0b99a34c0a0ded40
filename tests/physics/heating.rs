//! Heating with losses, held against the same balance integrated by a reference library.

use super::{FUSION, ICE, Row, WATER, near, near_share, table};
use leeside::physics::heating::{
    Heating, Loss, OpenTop, Potful, ReferenceBoil, Snow, flow_for, heat, mean_flow, surface_m2,
};
use leeside::units::{
    Fraction, HeatingValue, Mass, Power, SpecificHeat, Temperature, Volume, Warming,
};

/// A heating goes on only where the flow is this much above the loss at its end.
const MARGIN: f64 = 1.15;

fn rows() -> Vec<Row> {
    table(include_str!("../reference/heating.csv"), 100)
}

fn reference() -> ReferenceBoil {
    ReferenceBoil {
        pot: Potful {
            water: Mass::kilograms(1.0),
            water_heat: WATER,
            pot_joules_per_kelvin: 165.0 * 0.897,
            start: Temperature::celsius(15.0),
            end: Temperature::celsius(99.97),
            snow: None,
        },
        capacity: Volume::litres(1.5),
        air: Temperature::celsius(15.0),
    }
}

fn specific(material: &str) -> SpecificHeat {
    SpecificHeat::kilojoules_per_kilogram_kelvin(match material {
        "aluminium" => 0.897,
        "titanium" => 0.522,
        _ => 0.500,
    })
}

fn open_top(row: &Row, capacity: Volume) -> OpenTop {
    OpenTop::new(
        row.number("h_open"),
        6.0,
        capacity,
        Temperature::celsius(row.number("air_c")),
        Fraction::percent(50.0),
        HeatingValue::megajoules_per_kilogram(2.30),
    )
}

fn loss_of(row: &Row) -> Loss {
    let capacity = Volume::litres(row.number("pot_l"));
    Loss {
        watts_per_kelvin: row.number("h") * surface_m2(capacity),
        air: Temperature::celsius(row.number("air_c")),
        open: row.has("h_open").then(|| open_top(row, capacity)),
    }
}

fn potful_of(row: &Row) -> Potful {
    let c = specific(row.text("material"));
    Potful {
        water: Mass::kilograms(row.number("water_l")),
        water_heat: WATER,
        pot_joules_per_kelvin: row.number("pot_g") / 1000.0 * c.in_joules_per_kilogram_kelvin(),
        start: Temperature::celsius(row.number("start_c")),
        end: Temperature::celsius(row.number("end_c")),
        snow: (row.text("snow") == "yes").then_some(Snow {
            heat: ICE,
            fusion: FUSION,
        }),
    }
}

/// e0 and f of every row (f before any cap: caps belong to the catalogue).
#[test]
fn transfers_come_from_the_reference_boil() {
    let boil = reference();
    for row in rows() {
        let id = row.text("id");
        let power = Power::kilowatts(row.number("p_set_kw"));
        let efficiency = Fraction::of_one(row.number("efficiency"));
        let still = boil.flow(efficiency, power, 16.0);
        near_share(
            &format!("e0 of row {id}"),
            still / power,
            row.number("e0"),
            0.001,
        );
        let factor = row.number("factor");
        let windy = boil.flow(efficiency * factor, power, row.number("h"));
        let f = windy / still;
        near_share(
            &format!("f of row {id}"),
            f,
            row.number("f_uncapped"),
            0.001,
        );
    }
}

/// Minutes, fuel, heat lost on the way, or where it stops, of every row.
#[test]
fn every_heating_of_the_table() {
    let mut boiled = 0;
    for row in rows() {
        let id = row.text("id");
        let power = Power::kilowatts(row.number("power_kw"));
        let flow = power * Fraction::of_one(row.number("e0") * row.number("f"));
        let (loss, pot) = (loss_of(&row), potful_of(&row));
        near_share(
            &format!("surface in row {id}"),
            surface_m2(Volume::litres(row.number("pot_l"))),
            row.number("area_m2"),
            1e-4,
        );
        let heated = heat(flow, &loss, &pot, MARGIN);
        match heated {
            Heating::Done { phases } => {
                boiled += 1;
                let time = heated.time().expect("it boils");
                near_share(
                    &format!("minutes of row {id}"),
                    time.in_minutes(),
                    row.number("minutes"),
                    0.01,
                );
                let value = HeatingValue::megajoules_per_kilogram(row.number("lhv"));
                let fuel = power * time / value;
                near_share(
                    &format!("fuel of row {id}"),
                    fuel.in_grams(),
                    row.number("fuel_g"),
                    0.005,
                );
                let lost = heated.lost(flow).expect("it boils").in_kilojoules();
                let expected = row.number("heat_lost_kj");
                near(
                    &format!("lost in row {id}"),
                    lost,
                    expected,
                    (expected.abs() * 0.02).max(1.0),
                );
                // energy closes
                let useful: f64 = phases.iter().map(|phase| phase.heat.in_joules()).sum();
                let through = (flow * time).in_joules();
                near_share(
                    &format!("energy of row {id}"),
                    useful + lost * 1000.0,
                    through,
                    0.001,
                );
            }
            Heating::Stops { at } => {
                assert!(!row.has("minutes"), "row {id} boils");
                near(
                    &format!("stop of row {id}"),
                    at.in_celsius(),
                    row.number("stops_at_c"),
                    1.0,
                );
            }
        }
    }
    assert!((80..100).contains(&boiled), "{boiled} boil");
}

/// What holds a boil, and whether the flame gives it.
#[test]
fn every_hold_of_the_table() {
    for row in rows() {
        let id = row.text("id");
        // Held at the boil of the height, which is the end of all but the part-way heatings.
        if row.number("end_c") < 80.0 {
            continue;
        }
        let loss = loss_of(&row);
        let boil = Temperature::celsius(row.number("end_c"));
        if row.text("why") == "dip 77 C" || row.text("why") == "wash water 45 C" {
            continue;
        }
        let open = loss.open.map_or(Power::ZERO, |open| {
            open.evaporation(boil - Warming::of_kelvins(3.0))
        });
        let hold = loss.dry(boil) + open;
        near_share(
            &format!("hold of row {id}"),
            hold.in_watts(),
            row.number("hold_w"),
            0.01,
        );
        let power = Power::kilowatts(row.number("power_kw"));
        let flow = power * Fraction::of_one(row.number("e0") * row.number("f"));
        assert_eq!(hold <= flow, row.text("can_hold") == "yes", "row {id}");
    }
}

/// A flame without end loses nothing on the way; no wind and no lid costs about 3 % more to the
/// boil (D. J. C. MacKay, Sustainable Energy - without the hot air, 2009, chapter on gas; a pan in
/// still indoor air at full power).
#[test]
fn limits_are_those_of_the_books() {
    let boil = reference();
    let loss = |open| Loss {
        watts_per_kelvin: 16.0 * surface_m2(boil.capacity),
        air: boil.air,
        open,
    };
    let fierce = Power::kilowatts(1.0e6);
    let heated = heat(fierce, &loss(None), &boil.pot, MARGIN);
    let time = heated.time().expect("it boils");
    let useful = (4186.0 + 165.0 * 0.897) * (99.97 - 15.0);
    assert!(((fierce * time).in_joules() / useful - 1.0).abs() < 1e-4);

    let open = OpenTop::new(
        16.0,
        6.0,
        boil.capacity,
        boil.air,
        Fraction::percent(50.0),
        HeatingValue::megajoules_per_kilogram(2.30),
    );
    let flow = Power::kilowatts(1.3);
    let minutes = |open| {
        let heated = heat(flow, &loss(open), &boil.pot, MARGIN);
        heated.time().expect("it boils").in_minutes()
    };
    let more = minutes(Some(open)) / minutes(None) - 1.0;
    assert!((0.02..0.05).contains(&more), "{more}");
}

/// The mean flow that a pencil gives is that of the logarithm within 0.3 % down to the margin.
#[test]
fn the_mean_flow_by_hand_is_the_integral() {
    for ratio in [1.0, 1.01, 1.5, 2.0, 3.0, 5.0, 7.7] {
        let (first, last) = (1000.0, 1000.0 / ratio);
        let exact = if ratio == 1.0 {
            1000.0
        } else {
            (first - last) / libm::log(ratio)
        };
        let hand = mean_flow(Power::watts(first), Power::watts(last)).in_watts();
        near_share("mean flow", hand, exact, 0.003);
    }
}

/// The time is turned round with and without a lid, and where the air is warmer than the pot.
#[test]
fn a_flow_for_a_time_takes_that_time() {
    let boil = reference();
    for air in [-20.0, 15.0, 40.0] {
        for lid in [true, false] {
            let air = Temperature::celsius(air);
            let latent = HeatingValue::megajoules_per_kilogram(2.30);
            let open = OpenTop::new(
                30.0,
                6.0,
                boil.capacity,
                air,
                Fraction::percent(50.0),
                latent,
            );
            let loss = Loss {
                watts_per_kelvin: 30.0 * surface_m2(boil.capacity),
                air,
                open: (!lid).then_some(open),
            };
            for watts in [900.0, 1500.0, 3000.0] {
                let heated = heat(Power::watts(watts), &loss, &boil.pot, 1.0);
                let time = heated.time().expect("it boils");
                near_share(
                    "flow",
                    flow_for(time, &loss, &boil.pot).in_watts(),
                    watts,
                    1e-6,
                );
            }
        }
    }
}

/// Sixteen points give what twenty thousand equal steps give, also where little more reaches the pot
/// than leaves it.
#[test]
fn an_open_pot_takes_what_a_fine_sum_of_it_takes() {
    const STEPS: u32 = 20_000;
    let reference = reference();
    let air = Temperature::celsius(5.0);
    let loss = Loss {
        watts_per_kelvin: 30.0 * surface_m2(reference.capacity),
        air,
        open: Some(OpenTop::new(
            16.0,
            6.0,
            reference.capacity,
            air,
            Fraction::percent(50.0),
            HeatingValue::megajoules_per_kilogram(2.30),
        )),
    };
    let at_end = loss.at(reference.pot.end);
    let rise = reference.pot.end - reference.pot.start;
    let capacity = 4186.0 + reference.pot.pot_joules_per_kelvin;
    for times in [1.15, 1.5, 4.0] {
        let flow = at_end * times;
        let step = rise.kelvins() / f64::from(STEPS);
        let fine: f64 = (0..STEPS)
            .map(|count| {
                let way = Warming::of_kelvins(step * (f64::from(count) + 0.5));
                let stays = flow - loss.at(reference.pot.start + way);
                capacity * step / stays.in_watts()
            })
            .sum();
        let took = heat(flow, &loss, &reference.pot, MARGIN).time();
        let took = took.expect("it boils").in_seconds();
        near_share(&format!("{times} x the loss"), took, fine, 1e-5);
    }
}
