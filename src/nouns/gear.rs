//! Stoves, fuels, pots and containers: generic items, no makes.

use super::Basis;
use super::words::words;
use super::{Id, Screen, Wind};
use crate::told::{Told, told};
use crate::units::{
    Fraction, HeatingValue, Length, Mass, Misread, Power, Pressure, SpecificHeat, Time, Volume,
};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fmt;

words! {
    /// Stove families.
    Family {
        /// Burner screwed on top of the canister.
        CanisterOnTop = "canister on top",
        /// Burner and pot made for each other, with fins to catch heat, on a canister.
        HeatExchanger = "heat exchanger",
        /// Burner on its own legs, canister beside it on a hose.
        CanisterBeside = "canister beside",
        /// Liquid white gas under pressure.
        WhiteGas = "white gas",
        /// Liquid kerosene under pressure.
        Kerosene = "kerosene",
        /// Open alcohol burner.
        Alcohol = "alcohol",
        /// Solid fuel tablets.
        Tablet = "tablet",
    }
}
words! {
    /// Kinds of fuel, which decide how it is carried and counted.
    FuelKind {
        /// Liquefied gas in a canister.
        Canister = "canister",
        /// White gas (petroleum naphtha).
        WhiteGas = "white gas",
        /// Kerosene.
        Kerosene = "kerosene",
        /// Ethanol, methanol or a denatured blend.
        Alcohol = "alcohol",
        /// Hexamine tablets.
        Tablet = "tablet",
    }
}
words! {
    /// How a canister joins a stove.
    Connection {
        /// A threaded valve.
        Thread = "thread",
        /// A push-and-clip valve.
        Clip = "clip",
        /// Pierced by the stove; no valve of its own.
        Pierce = "pierce",
    }
}
words! {
    /// What a canister stove draws.
    Feed {
        /// Vapour from the upright canister.
        Vapour = "vapour",
        /// Liquid from the canister turned over, with a preheat loop.
        Liquid = "liquid",
    }
}
words! {
    /// How a canister does at a meal; the later, the worse.
    Verdict {
        /// A full flame, or nearly.
        Fine = "fine",
        /// A smaller flame: it takes longer.
        Slow = "slow",
        /// A weak flame: it takes very long.
        Weak = "weak",
        /// No flame, or one that does not do the work.
        WillNotWork = "will not work",
    }
}

impl Verdict {
    /// The verdict on a mean power as a share of what the burner is set to: fine from 75 %, slow
    /// from 40 %, below it weak (limits of this project, an assumption). That it does not work at
    /// all is no matter of a share.
    #[must_use]
    pub fn of_share(share: Fraction) -> Self {
        if share >= Fraction::percent(75.0) {
            Self::Fine
        } else if share >= Fraction::percent(40.0) {
            Self::Slow
        } else {
            Self::Weak
        }
    }

    /// Whether a cook gets a meal out of it without much trouble.
    #[must_use]
    pub fn does(self) -> bool {
        self <= Self::Slow
    }
}
words! {
    /// What holds a fuel.
    ContainerKind {
        /// A gas canister.
        Canister = "canister",
        /// A fuel bottle.
        Bottle = "bottle",
        /// A pack of tablets.
        Pack = "pack",
    }
}

/// Low, likely and high value of something uncertain.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct Range {
    /// The least to expect.
    pub low: Fraction,
    /// The likely value.
    pub likely: Fraction,
    /// The most to expect.
    pub high: Fraction,
}

/// Factors on efficiency by wind, for one screen.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct WindFactors {
    /// In calm air.
    pub calm: f64,
    /// In a breeze.
    pub breezy: f64,
    /// In wind.
    pub windy: f64,
    /// Whether in wind it may not boil at all.
    pub may_fail_windy: bool,
}

impl WindFactors {
    /// The factor in a wind.
    #[must_use]
    pub fn at(self, wind: Wind) -> f64 {
        match wind {
            Wind::Calm => self.calm,
            Wind::Breezy => self.breezy,
            Wind::Windy => self.windy,
        }
    }
}

/// Usual grams of fuel per person and day, field use; none where the stove is not a plan.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize, Serialize)]
pub struct UsualRange {
    /// Summer, boil only.
    pub boil_only: Option<(f64, f64)>,
    /// Summer, cooks and washes hot.
    pub hot_wash: Option<(f64, f64)>,
    /// Shoulder season.
    pub shoulder: Option<(f64, f64)>,
    /// Winter, all water from snow.
    pub winter: Option<(f64, f64)>,
}

/// What the base of a stove is, for stability.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub enum Geometry {
    /// The burner stands on the canister.
    OnCanister,
    /// The burner stands on its own legs.
    Legs {
        /// How many.
        count: u32,
        /// Radius of the circle through their feet.
        radius: Length,
        /// Height of the pot support above the ground.
        height: Length,
    },
    /// A round base (alcohol burner in its stand, tablet holder).
    Round {
        /// Diameter of the base.
        diameter: Length,
        /// Height of the pot support above the ground.
        height: Length,
    },
}

/// How much of the heat of a burner counts for a screen kind; kept with the stove.
pub type HeatExtent = BTreeMap<Screen, WindFactors>;

/// A generic stove of the catalogue, with the trip's own values laid over it.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Stove {
    /// Its id: `canister-on-top`.
    pub id: Id,
    /// As people read it.
    pub name: String,
    /// Its family.
    pub family: Family,
    /// The fuel it takes when the trip does not say.
    pub fuel: Id,
    /// The fuels it may take.
    pub fuels: Vec<Id>,
    /// How its canister joins, for canister stoves.
    pub connection: Option<Connection>,
    /// Whether it is made for liquid feed.
    pub liquid_feed: bool,
    /// Efficiency on a calm day, before the wind factor.
    pub efficiency: Range,
    /// Wind factors by screen.
    pub wind: HeatExtent,
    /// The screen it has when the trip does not say.
    pub screen: Screen,
    /// Burner power.
    pub power: Power,
    /// Least flame; equal to the power when it cannot be turned down.
    pub least_power: Power,
    /// Fuel burnt to light it once.
    pub to_light: Mass,
    /// Alcohol: fuel in one fill; the burner is filled to three quarters.
    pub one_fill: Option<Volume>,
    /// Alcohol: the wait before the next fill.
    pub refill_wait: Time,
    /// Least working gauge pressure (canister).
    pub least_gauge: Pressure,
    /// Whether a regulator holds its power as the canister's pressure falls.
    pub regulated: bool,
    /// Whether a valve shuts it off at once.
    pub shut_off: bool,
    /// Mass of the stove with its stand, pump and screen, no fuel.
    pub mass: Mass,
    /// Mass of the burner alone, on top of its base.
    pub burner_mass: Mass,
    /// Height of the burner.
    pub burner_height: Length,
    /// The base it stands on.
    pub geometry: Geometry,
    /// Usual grams per person and day.
    pub usual: UsualRange,
    /// Spare parts that go with it.
    pub spares: Vec<String>,
    /// Pot warning on top of a canister: warn above this volume.
    pub warn_pot_above: Option<Volume>,
    /// How its figures are known.
    pub basis: Basis,
    /// Where from.
    pub sources: Vec<Id>,
}

impl Stove {
    /// Whether its flame can be turned down.
    #[must_use]
    pub fn turns_down(&self) -> bool {
        !matches!(self.family, Family::Alcohol | Family::Tablet) && self.least_power < self.power
    }
}

/// Composition of a canister by mass; the shares sum to one.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct Blend {
    /// Propane.
    pub propane: Fraction,
    /// Isobutane (2-methylpropane).
    pub isobutane: Fraction,
    /// Normal butane.
    pub butane: Fraction,
}

impl Blend {
    /// How far the shares may be from 100 %, in percent: labels round.
    const ROUNDING: f64 = 0.5;

    /// Reads `propane 25, isobutane 75`: shares by mass, in any order; `butane` is n-butane.
    /// Shares that do not add up are kept as written: see [`Blend::adds_up`].
    ///
    /// # Errors
    /// A [`Misread`] when a part has no share, is no gas of canisters or is named twice.
    pub fn read(text: &str) -> Result<Self, Misread> {
        let misread = |message: Told| Misread {
            message,
            help: Told::from("write shares by mass, for example `propane 25, isobutane 75`"),
        };
        let mut shares = [None; 3];
        for part in text.split(',') {
            let (name, share) = part
                .trim()
                .rsplit_once(char::is_whitespace)
                .ok_or_else(|| {
                    misread(told!(
                        "`{part}` is no gas with its share",
                        part = part.trim()
                    ))
                })?;
            let gas = match super::id(name).as_str() {
                "propane" => 0,
                "isobutane" | "iso-butane" | "i-butane" => 1,
                "butane" | "n-butane" | "normal-butane" => 2,
                _ => {
                    return Err(misread(told!(
                        "`{name}` is not a gas of canisters: propane, isobutane or n-butane",
                        name = name.trim()
                    )));
                }
            };
            let share: f64 = share
                .trim_end_matches('%')
                .parse()
                .ok()
                .filter(|share: &f64| share.is_finite() && *share >= 0.0)
                .ok_or_else(|| misread(told!("`{share}` is not a share in percent", share)))?;
            if shares[gas].replace(share).is_some() {
                return Err(misread(told!(
                    "`{name}` is named twice",
                    name = name.trim()
                )));
            }
        }
        let [propane, isobutane, butane] =
            shares.map(|share| Fraction::percent(share.unwrap_or(0.0)));
        Ok(Self {
            propane,
            isobutane,
            butane,
        })
    }

    /// All shares together.
    #[must_use]
    pub fn sum(&self) -> Fraction {
        self.propane + self.isobutane + self.butane
    }

    /// Whether the shares add to 100 %, as near as labels round.
    #[must_use]
    pub fn adds_up(&self) -> bool {
        (self.sum().in_percent() - 100.0).abs() <= Self::ROUNDING
    }
}

impl fmt::Display for Blend {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts: Vec<String> = [
            ("propane", self.propane),
            ("isobutane", self.isobutane),
            ("n-butane", self.butane),
        ]
        .iter()
        .filter(|(_, share)| *share > Fraction::ZERO)
        .map(|(name, share)| {
            format!(
                "{name} {}",
                crate::units::say::significant(share.in_percent(), 4)
            )
        })
        .collect();
        f.write_str(&parts.join(", "))
    }
}

/// A fuel.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Fuel {
    /// Its id: `white-gas`, `ethanol`, `propane`.
    pub id: Id,
    /// As people read it.
    pub name: String,
    /// Its kind.
    pub kind: FuelKind,
    /// Lower heating value, as burnt (gas basis for canister gas).
    pub heating_value: HeatingValue,
    /// Low and high of the heating value where sources differ or blends vary.
    pub heating_range: (HeatingValue, HeatingValue),
    /// Density of the liquid, kg/L, at about 15 °C.
    pub density: f64,
    /// Fossil CO2 by mass of fuel burnt, g/g (0 for bio-ethanol).
    pub fossil_co2: f64,
    /// Names in other countries and trades.
    pub also_called: Vec<String>,
    /// What it does to people and pots, for the learner.
    pub note: String,
    /// Where the values come from.
    pub sources: Vec<Id>,
}

/// A container on sale or in the store room, generic.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Container {
    /// Its id: `canister-230`, `bottle-1l`.
    pub id: Id,
    /// As people read it: `canister 230 g`.
    pub name: String,
    /// Its kind.
    pub kind: ContainerKind,
    /// Which kinds of fuel it holds.
    pub fuels: Vec<FuelKind>,
    /// Net mass of fuel when full (canister, pack).
    pub net: Mass,
    /// Capacity (bottle).
    pub capacity: Volume,
    /// Most of the capacity that may be filled (0.75-0.80 of a bottle).
    pub fill: Fraction,
    /// Typical mass empty.
    pub tare: Mass,
    /// How far the tare may be off.
    pub tare_spread: Mass,
    /// Outer diameter.
    pub diameter: Length,
    /// Height.
    pub height: Length,
    /// What cannot be used: a mass a canister.
    pub residue: Mass,
    /// What cannot be used: a share of a bottle or fill.
    pub residue_share: Fraction,
}

/// From this share of its filling on a canister counts as full: scales and fillings differ by a
/// little (an assumption).
const FULL: f64 = 0.97;

impl Container {
    /// Whether one with so much fuel in it counts as full, and not as part-used.
    #[must_use]
    pub fn is_full(&self, net: Mass) -> bool {
        net >= self.net * FULL
    }
}

/// A canister size with its tare, as the plan hands it out.
pub type Canister = Container;

/// What a pot is made of.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Material {
    /// `aluminium`, `titanium`, `stainless`.
    pub id: Id,
    /// As people read it.
    pub name: String,
    /// Specific heat.
    pub specific_heat: SpecificHeat,
    /// Mass of a pot of no capacity (lid and handle), when none is stated.
    pub base_mass: Mass,
    /// Mass per litre of capacity, when none is stated.
    pub mass_per_litre: Mass,
    /// Where the value comes from.
    pub sources: Vec<Id>,
}

/// A pot.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Pot {
    /// Its material.
    pub material: Id,
    /// Its specific heat.
    pub specific_heat: SpecificHeat,
    /// Capacity to the brim.
    pub capacity: Volume,
    /// Mass with lid.
    pub mass: Mass,
    /// Whether the mass was stated or comes from the catalogue's rule.
    pub mass_stated: bool,
}

impl Pot {
    /// As people read it: `aluminium 3 L`.
    #[must_use]
    pub fn name(&self) -> String {
        format!(
            "{} {} L",
            self.material,
            crate::units::say::significant(self.capacity.in_litres(), 3)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blends_are_read_as_people_write_them() {
        let blend = Blend::read("propane 25, isobutane 75").unwrap();
        assert_eq!(blend.propane, Fraction::percent(25.0));
        assert!(blend.adds_up() && blend.butane == Fraction::ZERO);
        assert_eq!(
            Blend::read("Butane 70%, propane 30%").unwrap(),
            Blend::read("propane 30, n-butane 70").unwrap()
        );
        assert!(!Blend::read("propane 30, isobutane 50").unwrap().adds_up());
        for wrong in [
            "",
            "propane",
            "helium 5",
            "propane x",
            "propane 50, propane 50",
            "propane -5",
        ] {
            assert!(Blend::read(wrong).is_err(), "{wrong}");
        }
    }
}
