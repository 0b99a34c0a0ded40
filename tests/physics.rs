//! The calculation held against tables from outside: standards, reference libraries, worked examples.
//! Each table in `tests/reference/` names its sources in its first line.

mod burn;
mod gas;
mod heat;
mod heating;
mod laws;
mod stack;
mod water;

use leeside::units::{HeatingValue, SpecificHeat};
use std::collections::BTreeMap;

/// A row of a reference table, by the names in its head.
pub(crate) struct Row(BTreeMap<String, String>);

impl Row {
    pub(crate) fn text(&self, column: &str) -> &str {
        self.0
            .get(column)
            .unwrap_or_else(|| panic!("no column {column}"))
    }

    pub(crate) fn has(&self, column: &str) -> bool {
        !self.text(column).is_empty()
    }

    pub(crate) fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse()
            .unwrap_or_else(|_| panic!("{column}: `{text}` is no number"))
    }
}

/// The rows of a table; at least `least`, so that an empty file cannot pass for a good one.
pub(crate) fn table(text: &str, least: usize) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let rows: Vec<Row> = reader
        .deserialize()
        .map(|row| Row(row.expect("a reference table reads")))
        .collect();
    assert!(rows.len() >= least, "only {} rows", rows.len());
    rows
}

/// Fails unless a value lies within an absolute distance of what was expected.
#[track_caller]
pub(crate) fn near(what: &str, value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{what}: {value}, expected {expected} within {tolerance}"
    );
}

/// Fails unless a value lies within a share of what was expected.
#[track_caller]
pub(crate) fn near_share(what: &str, value: f64, expected: f64, share: f64) {
    near(what, value, expected, expected.abs() * share);
}

// Properties as the content states them, with their sources there.
const WATER: SpecificHeat = SpecificHeat::kilojoules_per_kilogram_kelvin(4.186);
const ICE: SpecificHeat = SpecificHeat::kilojoules_per_kilogram_kelvin(2.10);
const FUSION: HeatingValue = HeatingValue::joules_per_kilogram(333_550.0);
const STEAM: HeatingValue = HeatingValue::joules_per_kilogram(2_260_000.0);
