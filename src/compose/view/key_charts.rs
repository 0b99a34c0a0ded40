//! The charts of the fuel worksheet's key.

use super::common::Prose;
use super::{Inputs, OneKitchen};
use crate::compose::charts;
use crate::doc::Figure;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Calls for the charts of the key; each list has one call or none.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct KeyCharts {
    /// Fuel by use.
    pub uses: Vec<Prose>,
    /// What should be left, night by night.
    pub gauge: Vec<Prose>,
    /// Which input to measure first.
    pub spread: Vec<Prose>,
    /// A canister's pressure against what is left in it.
    pub pressure: Vec<Prose>,
    /// A canister through its worst meal.
    pub through: Vec<Prose>,
    /// Carried mass against nights; on the first kitchen's key.
    pub nights: Vec<Prose>,
    /// Whether there is one.
    pub has_nights: bool,
    /// Whether there is a canister.
    pub has_pressure: bool,
}

impl KeyCharts {
    /// The charts of a kitchen, their figures put among the sheet's.
    #[must_use]
    pub fn of(
        inputs: &Inputs<'_>,
        one: OneKitchen<'_>,
        figures: &mut BTreeMap<String, Figure>,
    ) -> Self {
        let mut call = |chart: Option<charts::Chart>| -> Vec<Prose> {
            chart.map(|chart| chart.call(figures)).into_iter().collect()
        };
        let pressure = call(charts::pressure(inputs, one));
        let through = call(charts::through(inputs, one));
        let nights = call(if one.index == 0 {
            charts::masses(inputs)
        } else {
            None
        });
        Self {
            uses: call(charts::uses(inputs, one)),
            gauge: call(charts::gauge(inputs, one, false)),
            spread: call(charts::spread(inputs, one)),
            has_nights: !nights.is_empty(),
            has_pressure: !pressure.is_empty(),
            pressure,
            through,
            nights,
        }
    }
}
