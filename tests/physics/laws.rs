//! What must hold for any numbers: more or colder water never needs less, and pressure falls.

use super::{FUSION, ICE, WATER};
use leeside::physics::air::pressure_us_standard_atmosphere_1976;
use leeside::physics::canister::{drawn_rayleigh, left_when_pressure_falls_to, self_cooling};
use leeside::physics::pots::{batches, batches_capped};
use leeside::physics::vapour::{
    Component, Liquid, bubble_pressure_raoult, saturation_pressure_wagner,
};
use leeside::physics::water::{
    heat_to_melt, heat_to_warm, saturation_pressure_if97, saturation_temperature_if97,
};
use leeside::units::{
    Fraction, HeatingValue, Length, Mass, Pressure, SpecificHeat, Temperature, Volume, Warming,
};
use proptest::prelude::*;

fn liquid() -> impl Strategy<Value = Liquid> {
    (1.0..450.0f64, 0.0..1.0f64, 0.0..1.0f64, 0.0..1.0f64)
        .prop_filter("some gas", |(_, p, i, n)| p + i + n > 0.01)
        .prop_map(|(net, p, i, n)| {
            let [p, i, n] = [p, i, n].map(Fraction::of_one);
            Liquid::of(Mass::grams(net), p, i, n)
        })
}

proptest! {
    #[test]
    fn higher_is_thinner_and_boils_cooler(low in -400.0..10_999.0f64, up in 0.001..5000.0f64) {
        let at = |m: f64| pressure_us_standard_atmosphere_1976(Length::metres(m)).unwrap();
        let high = (low + up).min(11_000.0);
        prop_assert!(at(high) < at(low));
        let boil = |m| saturation_temperature_if97(at(m)).unwrap();
        prop_assert!(boil(high) < boil(low));
    }

    #[test]
    fn saturation_goes_there_and_back(kelvin in 273.16..640.0f64) {
        let p = saturation_pressure_if97(Temperature::kelvin(kelvin)).unwrap();
        let back = saturation_temperature_if97(p).unwrap().in_kelvin();
        prop_assert!((back - kelvin).abs() < 1e-6, "{kelvin} K came back as {back}");
    }

    #[test]
    fn more_or_colder_water_never_needs_less(
        mass in 0.0..50.0f64, more in 0.0..10.0f64, from in 0.0..60.0f64, colder in 0.0..30.0f64,
    ) {
        let heat = |mass: f64, from: f64| {
            heat_to_warm(Mass::kilograms(mass), WATER, Warming::of_kelvins(95.0 - from))
        };
        prop_assert!(heat(mass + more, from) >= heat(mass, from));
        prop_assert!(heat(mass, from - colder) >= heat(mass, from));
        let melt = |mass: f64, at: f64| {
            heat_to_melt(Mass::kilograms(mass), ICE, Temperature::celsius(at), FUSION)
        };
        prop_assert!(melt(mass + more, -from) >= melt(mass, -from));
        prop_assert!(melt(mass, -from - colder) >= melt(mass, -from));
    }

    #[test]
    fn warmer_gas_presses_more_and_lighter_gas_more_than_heavier(
        t in -60.0..80.0f64, up in 0.01..10.0f64,
    ) {
        let p = |gas, t| saturation_pressure_wagner(gas, Temperature::celsius(t)).unwrap();
        for gas in Component::ALL {
            prop_assert!(p(gas, t + up) > p(gas, t));
        }
        prop_assert!(p(Component::Propane, t) > p(Component::Isobutane, t));
        prop_assert!(p(Component::Isobutane, t) > p(Component::Butane, t));
    }

    #[test]
    fn drawing_takes_the_light_part_first(
        full in liquid(), kept in 0.0005..1.0f64, t in -40.0..40.0f64,
    ) {
        let t = Temperature::celsius(t);
        let left = drawn_rayleigh(&full, full.total() * kept, t);
        prop_assert!((left.total() / full.total() - kept).abs() < 1e-12);
        for gas in Component::ALL {
            let mass = left.mass_of(gas);
            prop_assert!(mass >= Mass::ZERO && mass <= full.mass_of(gas) * (1.0 + 1e-12));
        }
        let light = |liquid: &Liquid| liquid.mass_fraction(Component::Propane).in_one();
        prop_assert!(light(&left) <= light(&full) + 1e-12);
        let p = |liquid: &Liquid| bubble_pressure_raoult(liquid, t).unwrap();
        prop_assert!(p(&left) <= p(&full) * (1.0 + 1e-12));
    }

    #[test]
    fn drawing_twice_is_drawing_once(
        full in liquid(), first in 0.1..1.0f64, second in 0.1..1.0f64, t in -40.0..40.0f64,
    ) {
        let t = Temperature::celsius(t);
        let once = drawn_rayleigh(&full, full.total() * (first * second), t);
        let half_way = drawn_rayleigh(&full, full.total() * first, t);
        let twice = drawn_rayleigh(&half_way, full.total() * (first * second), t);
        for gas in Component::ALL {
            let apart = (once.mass_of(gas) - twice.mass_of(gas)) / full.total();
            prop_assert!(apart.abs() < 1e-9);
        }
    }

    #[test]
    fn what_is_left_at_the_floor_presses_as_the_floor(
        full in liquid(), t in -40.0..40.0f64, floor in 20.0..400.0f64,
    ) {
        let (t, floor) = (Temperature::celsius(t), Pressure::kilopascals(floor));
        let left = left_when_pressure_falls_to(&full, t, floor).in_one();
        prop_assert!((0.0..=1.0).contains(&left));
        let start = bubble_pressure_raoult(&full, t).unwrap();
        prop_assert_eq!(left == 1.0, start <= floor);
        if (1e-6..1.0).contains(&left) {
            let rest = drawn_rayleigh(&full, full.total() * left, t);
            let p = bubble_pressure_raoult(&rest, t).unwrap();
            prop_assert!((p / floor - 1.0).abs() < 1e-6, "{:?} at the floor {:?}", p, floor);
        }
    }

    #[test]
    fn more_drawn_or_less_there_cools_more(
        net in 20.0..450.0f64, drawn in 0.0..19.0f64, more in 0.1..20.0f64, tare in 90.0..220.0f64,
    ) {
        let cooling = |net: f64, drawn: f64| {
            let [net, tare, drawn] = [net, tare, drawn].map(Mass::grams);
            let [liquid, steel] = [2.4, 0.46].map(SpecificHeat::kilojoules_per_kilogram_kelvin);
            self_cooling(net, tare, drawn, HeatingValue::joules_per_kilogram(370_000.0), liquid, steel)
        };
        prop_assert!(cooling(net, drawn) >= Warming::ZERO);
        prop_assert!(cooling(net, drawn + more) > cooling(net, drawn));
        prop_assert!(cooling(net + more, drawn) <= cooling(net, drawn));
    }

    #[test]
    fn potfuls_add_up_and_fit(
        amount in 0.001..60.0f64, pots in prop::collection::vec(0.3..6.0f64, 1..4),
        fill in 0.3..0.9f64, cap in 0.2..3.0f64,
    ) {
        let volumes: Vec<Volume> = pots.iter().map(|pot| Volume::litres(*pot)).collect();
        let (water, fill) = (Volume::litres(amount), Fraction::of_one(fill));
        let plain = batches(water, &volumes, fill);
        let capped = batches_capped(water, &volumes, fill, Volume::litres(cap));
        for plan in [&plain, &capped] {
            let sum: Volume = plan.iter().map(|(_, water)| *water).sum();
            prop_assert!((sum.in_litres() - amount).abs() < 1e-6);
            for (pot, water) in plan.iter() {
                let share = *water / (volumes[*pot] * fill.in_one());
                prop_assert!(share > 0.0 && share < 1.1 + 1e-6, "a pot {share} full");
            }
        }
        prop_assert!(capped.iter().all(|(_, water)| water.in_litres() <= cap + 1e-6));
        prop_assert!(capped.len() >= plain.len());
    }
}
