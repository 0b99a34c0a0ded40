//! Fuel for a heat, efficiency from a measured boil, and carbon dioxide.

use crate::units::{
    Energy, Fraction, HeatingValue, Mass, Power, SpecificHeat, Temperature, Time, Warming,
};

/// Fuel to bring a useful heat into water and pot.
///
/// Formula: m = Q / (efficiency x heating value) (J, -, J/kg; kg).
///
/// Valid: efficiency above 0, at most 1; heating value and efficiency on the same basis (lower).
///
/// Source: definition of the thermal efficiency.
///
/// Example: 360 kJ at 50 % with 45.0 MJ/kg: 16 g.
/// ```
/// use leeside::physics::fuel::fuel_for;
/// use leeside::units::{Energy, Fraction, HeatingValue};
/// let value = HeatingValue::megajoules_per_kilogram(45.0);
/// let fuel = fuel_for(Energy::kilojoules(360.0), Fraction::percent(50.0), value);
/// assert!((fuel.in_grams() - 16.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn fuel_for(useful: Energy, efficiency: Fraction, value: HeatingValue) -> Mass {
    useful / efficiency / value
}

/// Fuel that a flame of a power burns in a time.
///
/// Formula: m = P t / heating value (W, s, J/kg; kg), P being the heat of the fuel burnt.
///
/// Valid: a steady flame; heating value above 0.
///
/// Source: definition of the heating value.
///
/// Example: 2.5 kW for 8 minutes with 46 MJ/kg: 26.1 g.
/// ```
/// use leeside::physics::fuel::fuel_burnt;
/// use leeside::units::{HeatingValue, Power, Time};
/// let value = HeatingValue::megajoules_per_kilogram(46.0);
/// let fuel = fuel_burnt(Power::kilowatts(2.5), Time::minutes(8.0), value);
/// assert!((fuel.in_grams() - 26.087).abs() < 0.001);
/// ```
#[must_use]
pub fn fuel_burnt(power: Power, time: Time, value: HeatingValue) -> Mass {
    power * time / value
}

/// What was weighed and read in one measured boil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialRun {
    /// Water in the pot at the start.
    pub water: Mass,
    /// Temperature of the water at the start.
    pub start: Temperature,
    /// Temperature of the water at the end.
    pub end: Temperature,
    /// Water lost as steam: mass of water before less after.
    pub evaporated: Mass,
    /// Fuel burnt: mass of the fuel container before less after.
    pub fuel: Mass,
}

impl TrialRun {
    fn warming(&self) -> Warming {
        self.end - self.start
    }

    fn share_of_fuel(&self, useful: Energy, value: HeatingValue) -> Fraction {
        Fraction::of_one(useful / (value * self.fuel))
    }
}

/// Thermal efficiency of a measured boil as the Water Boiling Test defines it: steam counts,
/// the pot does not.
///
/// Formula: (c m_water (T_end - T_start) + L m_evaporated) / (m_fuel x heating value).
///
/// Valid: fuel burnt above 0. The test's constants are c = 4.186 kJ/(kg K) and L = 2260 kJ/kg.
///
/// Source: The Water Boiling Test, version 4.2.3, Global Alliance for Clean Cookstoves, 2014.
///
/// Example: 1000 g from 20 C to 93.98 C, 28 g of steam, 14.5 g of isobutane: 56.5 %.
/// ```
/// use leeside::physics::fuel::{TrialRun, thermal_efficiency_wbt};
/// use leeside::units::{HeatingValue, Mass, SpecificHeat, Temperature};
/// let run = TrialRun {
///     water: Mass::grams(1000.0),
///     start: Temperature::celsius(20.0),
///     end: Temperature::celsius(93.9842),
///     evaporated: Mass::grams(28.0),
///     fuel: Mass::grams(14.5),
/// };
/// let efficiency = thermal_efficiency_wbt(
///     &run,
///     HeatingValue::megajoules_per_kilogram(45.5524),
///     SpecificHeat::kilojoules_per_kilogram_kelvin(4.186),
///     HeatingValue::megajoules_per_kilogram(2.26),
/// );
/// assert!((efficiency.in_one() - 0.56468).abs() < 1e-5);
/// ```
#[must_use]
pub fn thermal_efficiency_wbt(
    run: &TrialRun,
    value: HeatingValue,
    c: SpecificHeat,
    latent: HeatingValue,
) -> Fraction {
    run.share_of_fuel(
        c * run.water * run.warming() + latent * run.evaporated,
        value,
    )
}

/// The part of a measured boil's fuel that went into the pot itself: add it to
/// [`thermal_efficiency_wbt`] for the efficiency that counts the pot.
///
/// Formula: c_pot m_pot (T_end - T_start) / (m_fuel x heating value).
///
/// Valid: fuel burnt above 0; the pot as warm as its water at both ends.
///
/// Source: heat balance; the Water Boiling Test 4.2.3 leaves the pot out.
///
/// Example: a 150 g aluminium pot (0.8969 kJ/(kg K)) in the run of [`thermal_efficiency_wbt`]: 1.5 %.
/// ```
/// use leeside::physics::fuel::{TrialRun, pot_share};
/// use leeside::units::{HeatingValue, Mass, SpecificHeat, Temperature};
/// let run = TrialRun {
///     water: Mass::grams(1000.0),
///     start: Temperature::celsius(20.0),
///     end: Temperature::celsius(93.9842),
///     evaporated: Mass::grams(28.0),
///     fuel: Mass::grams(14.5),
/// };
/// let aluminium = SpecificHeat::kilojoules_per_kilogram_kelvin(0.8969);
/// let value = HeatingValue::megajoules_per_kilogram(45.5524);
/// let share = pot_share(&run, value, Mass::grams(150.0), aluminium);
/// assert!((share.in_percent() - 1.507).abs() < 0.001);
/// ```
#[must_use]
pub fn pot_share(
    run: &TrialRun,
    value: HeatingValue,
    pot: Mass,
    pot_heat: SpecificHeat,
) -> Fraction {
    run.share_of_fuel(pot_heat * pot * run.warming(), value)
}

/// Efficiency of a measured boil in the sense in which boils are planned: water and pot, no steam.
/// Planning with the test's own figure, which counts steam, would take too little fuel.
///
/// Formula: (c m_water + c_pot m_pot) (T_end - T_start) / (m_fuel x heating value).
///
/// Valid: fuel burnt above 0; the pot as warm as its water at both ends.
///
/// Source: heat balance of the plan itself, so that planning the measured boil gives back the
/// fuel measured.
///
/// Example: the run of [`thermal_efficiency_wbt`] in a 150 g aluminium pot: 48.4 %.
/// ```
/// use leeside::physics::fuel::{TrialRun, efficiency_to_plan};
/// use leeside::units::{HeatingValue, Mass, SpecificHeat, Temperature};
/// let run = TrialRun {
///     water: Mass::grams(1000.0),
///     start: Temperature::celsius(20.0),
///     end: Temperature::celsius(93.9842),
///     evaporated: Mass::grams(28.0),
///     fuel: Mass::grams(14.5),
/// };
/// let efficiency = efficiency_to_plan(
///     &run,
///     HeatingValue::megajoules_per_kilogram(45.5524),
///     SpecificHeat::kilojoules_per_kilogram_kelvin(4.186),
///     Mass::grams(150.0),
///     SpecificHeat::kilojoules_per_kilogram_kelvin(0.8969),
/// );
/// assert!((efficiency.in_percent() - 48.394).abs() < 0.001);
/// ```
#[must_use]
pub fn efficiency_to_plan(
    run: &TrialRun,
    value: HeatingValue,
    c: SpecificHeat,
    pot: Mass,
    pot_heat: SpecificHeat,
) -> Fraction {
    let useful = c * run.water * run.warming() + pot_heat * pot * run.warming();
    run.share_of_fuel(useful, value)
}

/// An efficiency measured in one wind, taken to another with the same windscreen.
///
/// Formula: efficiency x factor of the trip's wind / factor of the trial's wind, so that a trial
/// made in wind is not charged for it twice.
///
/// Valid: factors above 0, at most 1.
///
/// Source: definition of the wind factor; the factors themselves are assumptions.
///
/// Example: 47 % measured in calm (0.95), planned in wind (0.80): 39.6 %.
/// ```
/// use leeside::physics::fuel::efficiency_in_other_wind;
/// use leeside::units::Fraction;
/// let (calm, windy) = (Fraction::of_one(0.95), Fraction::of_one(0.80));
/// let efficiency = efficiency_in_other_wind(Fraction::percent(47.0), calm, windy);
/// assert!((efficiency.in_percent() - 39.579).abs() < 0.001);
/// ```
#[must_use]
pub fn efficiency_in_other_wind(
    measured: Fraction,
    factor_measured_in: Fraction,
    factor_planned_for: Fraction,
) -> Fraction {
    measured * (factor_planned_for / factor_measured_in)
}

/// Carbon dioxide from burning a fuel, by an emission factor on its energy.
///
/// Formula: m_CO2 = m_fuel x heating value x factor (factor in t/TJ, which is g/MJ).
///
/// Valid: factor and heating value on the same (lower) basis; complete burning.
///
/// Source: IPCC 2006 Guidelines for National Greenhouse Gas Inventories, volume 2, chapters 1 and 2.
///
/// Example: 100 g of LPG with 45.7 MJ/kg at 63.1 t/TJ: 288 g.
/// ```
/// use leeside::physics::fuel::co2_from_emission_factor;
/// use leeside::units::{HeatingValue, Mass};
/// let value = HeatingValue::megajoules_per_kilogram(45.7);
/// let co2 = co2_from_emission_factor(Mass::grams(100.0), value, 63.1);
/// assert!((co2.in_grams() - 288.367).abs() < 0.001);
/// ```
#[must_use]
pub fn co2_from_emission_factor(
    fuel: Mass,
    value: HeatingValue,
    factor_tonnes_per_terajoule: f64,
) -> Mass {
    Mass::grams((value * fuel).in_megajoules() * factor_tonnes_per_terajoule)
}

/// Carbon dioxide from burning a fuel, by the carbon in it.
///
/// Formula: m_CO2 = m_fuel x carbon share x 44.009 / 12.011.
///
/// Valid: complete burning; the carbon share by mass, 0 to 1.
///
/// Source: stoichiometry; molar masses from the standard atomic weights (IUPAC).
///
/// Example: methanol is 37.48 % carbon: 1.373 g for each gram (44/32 in round numbers).
/// ```
/// use leeside::physics::fuel::co2_from_carbon;
/// use leeside::units::{Fraction, Mass};
/// let co2 = co2_from_carbon(Mass::grams(1.0), Fraction::percent(37.48));
/// assert!((co2.in_grams() - 1.3733).abs() < 0.0001);
/// ```
#[must_use]
pub fn co2_from_carbon(fuel: Mass, carbon: Fraction) -> Mass {
    const CARBON_DIOXIDE_PER_CARBON: f64 = 44.009 / 12.011;
    fuel * carbon.in_one() * CARBON_DIOXIDE_PER_CARBON
}
