//! Curves and sizes that charts draw.

use crate::nouns::{Meal, Verdict};
use crate::units::{Length, Mass, Power, Pressure, Temperature, Time};

/// A canister's pressure against what is left in it.
#[derive(Clone, Debug, PartialEq)]
pub struct CanisterCurves {
    /// Gauge pressure below which the stove does not work.
    pub least: Pressure,
    /// One a camp that burns, in order of camps.
    pub curves: Vec<CanisterCurve>,
}

/// The curve of one camp.
#[derive(Clone, Debug, PartialEq)]
pub struct CanisterCurve {
    /// Its tag; none for a new one.
    pub tag: Option<String>,
    /// Index of the camp.
    pub camp: usize,
    /// The meal at which the fuel is coldest.
    pub meal: Meal,
    /// The fuel when the stove is lit.
    pub fuel_temperature: Temperature,
    /// Fuel left and gauge pressure, from what is in it now downwards.
    pub points: Vec<(Mass, Pressure)>,
}

impl StackOutline {
    /// Height of the pot's rim above the ground.
    #[must_use]
    pub fn rim(&self) -> Length {
        let under = self.canister.map_or(Length::ZERO, |(_, height)| height);
        under + self.burner + self.pot.1
    }
}

impl CanisterCurve {
    /// The gauge pressure with a share left of what is in it now.
    #[must_use]
    pub fn gauge_with(&self, share: f64) -> Pressure {
        let own = self.points.first().map_or(Mass::ZERO, |start| start.0);
        let off = |point: &&(Mass, Pressure)| (point.0 - own * share).in_grams().abs();
        let near = self.points.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        near.map_or(Pressure::ZERO, |point| point.1)
    }
}

/// A canister through the meal that is hardest on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Through {
    /// Index of the camp.
    pub camp: usize,
    /// The meal.
    pub meal: Meal,
    /// Its tag; none for a new one.
    pub tag: Option<String>,
    /// How it does.
    pub verdict: Verdict,
    /// The burner's full power.
    pub set: Power,
    /// Time since it was lit, gauge pressure and power.
    pub points: Vec<(Time, Pressure, Power)>,
}

impl Through {
    /// When it is lit, half way and at the end, each with its name in ids.
    #[must_use]
    pub fn told(&self) -> Vec<(&'static str, &(Time, Pressure, Power))> {
        let all = &self.points;
        let last = all.len().saturating_sub(1);
        let at = [("lit", 0), ("half-way", all.len() / 2), ("end", last)];
        at.into_iter()
            .filter_map(|(name, at)| Some((name, all.get(at)?)))
            .collect()
    }
}

/// The sizes of a stove with its pot, seen from the side, on one upright axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StackOutline {
    /// From the middle of the base to its nearest tipping edge.
    pub base: Length,
    /// Whether it stands on legs.
    pub legs: bool,
    /// Width and height of the canister under it.
    pub canister: Option<(Length, Length)>,
    /// From what the burner stands on up to the pot.
    pub burner: Length,
    /// Width and height of the pot.
    pub pot: (Length, Length),
    /// Depth of the water in it.
    pub water: Length,
    /// Height of the centre of mass above the ground.
    pub centre: Length,
}
