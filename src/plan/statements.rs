//! What a trip's papers say, as typed values under ids: what two sheets say comes from one
//! statement, so that they cannot differ.
//!
//! An id tells where the thing stands in the trip: `camp.tarn-bench.night`,
//! `kitchen.blue.leg-1.issued`, `kitchen.blue.tarn-bench.supper.fuel`, `fact.greywater.distance`,
//! `rule.tarn-bench.greywater.distance`. Each printed line of a working has one too. Nothing here
//! is in words but what a person wrote.

use super::change::{Change, ChangeKind, Trouble};
use super::types::{CautionPlan, KitchenPlan, Plan, Step};
use crate::nouns::{Assumed, Fact, FactValue, Id, RuleValue};
use crate::phrase::{Phrase, StepId};
use crate::units::{
    Angle, Energy, Force, Fraction, Length, Mass, Power, Pressure, Temperature, Time, Volume,
    Warming,
};
use std::collections::BTreeMap;

/// What a statement says.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A distance or size.
    Length(Length),
    /// A height above the sea.
    Height(Length),
    /// A point on the scale.
    Temperature(Temperature),
    /// A difference of temperatures.
    Warming(Warming),
    /// A mass.
    Mass(Mass),
    /// A volume.
    Volume(Volume),
    /// A time.
    Time(Time),
    /// A pressure.
    Pressure(Pressure),
    /// A share.
    Fraction(Fraction),
    /// An angle.
    Angle(Angle),
    /// A force.
    Force(Force),
    /// Heat.
    Energy(Energy),
    /// Power.
    Power(Power),
    /// A plain number.
    Number(f64),
    /// The result of a printed line, with its unit.
    Line(f64, String),
    /// From one value to another.
    Between(Box<Value>, Box<Value>),
    /// Words that a person wrote: a rule, a name.
    Words(String),
    /// What is told in a sentence.
    Phrase(Phrase),
}

impl Value {
    /// The value in SI units (kg, m, s, K, Pa, m³, J, N, rad, a share as a part of one); none for
    /// words and ranges.
    #[must_use]
    pub fn si(&self) -> Option<f64> {
        Some(match self {
            Self::Length(value) | Self::Height(value) => value.in_metres(),
            Self::Temperature(value) => value.in_kelvin(),
            Self::Warming(value) => value.kelvins(),
            Self::Mass(value) => value.in_kilograms(),
            Self::Volume(value) => value.in_litres() / 1000.0,
            Self::Time(value) => value.in_minutes() * 60.0,
            Self::Pressure(value) => value.in_kilopascals() * 1000.0,
            Self::Fraction(value) => value.in_one(),
            Self::Angle(value) => value.in_degrees().to_radians(),
            Self::Force(value) => value.in_newtons(),
            Self::Energy(value) => value.in_kilojoules() * 1000.0,
            Self::Power(value) => value.in_watts(),
            Self::Number(value) => *value,
            Self::Line(value, unit) => of_unit(*value, unit),
            Self::Between(..) | Self::Words(_) | Self::Phrase(_) => return None,
        })
    }
}

/// The result of a printed line in SI units.
fn of_unit(value: f64, unit: &str) -> f64 {
    match unit {
        "°C" => value + 273.15,
        "°" => value.to_radians(),
        "g" | "L" => value / 1000.0,
        "mL" => value / 1.0e6,
        "min" => value * 60.0,
        "kPa" | "kJ" | "kJ/°C" => value * 1000.0,
        "MJ/kg" | "kJ/g" => value * 1.0e6,
        _ => value,
    }
}

impl From<&FactValue> for Value {
    fn from(value: &FactValue) -> Self {
        match value {
            FactValue::Length(value) => Self::Length(*value),
            FactValue::Temperature(value) => Self::Temperature(*value),
            FactValue::Warming(value) => Self::Warming(*value),
            FactValue::Mass(value) => Self::Mass(*value),
            FactValue::Volume(value) => Self::Volume(*value),
            FactValue::Time(value) => Self::Time(*value),
            FactValue::Pressure(value) => Self::Pressure(*value),
            FactValue::Fraction(value) => Self::Fraction(*value),
            FactValue::Angle(value) => Self::Angle(*value),
            FactValue::Number(value) => Self::Number(*value),
            FactValue::Between(low, high) => Self::Between(
                Box::new(Self::from(low.as_ref())),
                Box::new(Self::from(high.as_ref())),
            ),
            FactValue::Text(words) => Self::Words(words.clone()),
        }
    }
}

impl From<&RuleValue> for Value {
    fn from(value: &RuleValue) -> Self {
        match value {
            RuleValue::Length(value) => Self::Length(*value),
            RuleValue::Text(words) => Self::Words(words.clone()),
        }
    }
}

/// Where a value comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// The trip's file says so.
    Trip,
    /// It was assumed, as the trip's file does not say.
    Assumed(Assumed),
    /// It is worked out; by printed lines where there are any.
    Worked,
    /// A fact of the content, with how it is known.
    Fact(Box<Fact>),
    /// A rule: of the trip, a place, or the default.
    Rule {
        /// `trip`, the place's id, or `default`.
        from: String,
        /// Who checked it and when.
        checked: Option<String>,
    },
}

/// One thing that the papers say.
#[derive(Clone, Debug, PartialEq)]
pub struct Statement {
    /// Where it stands.
    pub id: String,
    /// What it says.
    pub value: Value,
    /// Where it comes from.
    pub origin: Origin,
    /// The printed line that gives it, if one does.
    pub step: Option<StepId>,
    /// Its sources.
    pub sources: Vec<Id>,
}

/// All that a trip's papers may say, by id.
#[derive(Clone, Debug, Default)]
pub struct Statements<'a> {
    by_id: BTreeMap<String, Statement>,
    steps: BTreeMap<&'a StepId, &'a Step>,
}

impl<'a> Statements<'a> {
    /// A statement by its id.
    #[must_use]
    pub fn get(&self, id: &str) -> Option<&Statement> {
        self.by_id.get(id)
    }

    /// All of them, in order of id.
    pub fn iter(&self) -> impl Iterator<Item = &Statement> {
        self.by_id.values()
    }

    /// A printed line.
    #[must_use]
    pub fn step(&self, id: &StepId) -> Option<&'a Step> {
        self.steps.get(id).copied()
    }

    /// The lines behind a line, itself last, each once and after its inputs.
    #[must_use]
    pub fn working(&self, last: &StepId) -> Vec<&'a Step> {
        let mut lines = Vec::new();
        self.gather(last, &mut lines);
        lines
    }

    fn gather(&self, id: &StepId, lines: &mut Vec<&'a Step>) {
        let Some(step) = self.step(id) else {
            return;
        };
        if lines.iter().any(|line| line.id == *id) {
            return;
        }
        for input in step.formula.inputs() {
            self.gather(input, lines);
        }
        lines.push(step);
    }

    /// Adds what changes when something about the trip does: how the fuel to take moves under
    /// [`change_id`], and what becomes of each kitchen under it.
    pub fn add_changes(&mut self, plan: &Plan, changes: &[Change]) {
        for change in changes {
            for (index, (kitchen, one)) in plan.kitchens.iter().zip(&change.kitchens).enumerate() {
                let at = change_id(&kitchen.slug, &change.kind);
                let more = change.more(plan, index).map(Value::Mass);
                let stops = one.troubles.iter().find_map(|trouble| match trouble {
                    Trouble::Stops { at, .. } => Some(Value::Temperature(*at)),
                    _ => None,
                });
                for (id, value) in [
                    (at.clone(), more),
                    (format!("{at}.likely"), one.fuel.map(Value::Mass)),
                    (format!("{at}.needed"), one.carry.map(Value::Mass)),
                    (format!("{at}.minutes"), one.minutes.map(Value::Time)),
                    (format!("{at}.stops-at"), stops),
                ] {
                    if let Some(value) = value {
                        self.worked(id, value, None);
                    }
                }
            }
        }
    }

    /// Adds what is worked out from the plan.
    pub fn add(&mut self, id: impl Into<String>, value: Value) {
        self.worked(id.into(), value, None);
    }

    pub(super) fn put(&mut self, id: String, value: Value, origin: Origin) {
        self.put_all(Statement {
            id,
            value,
            origin,
            step: None,
            sources: Vec::new(),
        });
    }

    pub(super) fn worked(&mut self, id: String, value: Value, step: Option<&Step>) {
        self.put_all(Statement {
            id,
            value,
            origin: Origin::Worked,
            step: step.map(|step| step.id.clone()),
            sources: Vec::new(),
        });
    }

    pub(super) fn put_all(&mut self, statement: Statement) {
        self.by_id.insert(statement.id.clone(), statement);
    }

    pub(super) fn lines(&mut self, steps: &'a [Step]) {
        for step in steps {
            self.steps.insert(&step.id, step);
            let value = Value::Line(step.number(), step.unit.clone());
            self.worked(step.id.to_string(), value, Some(step));
            let what = Value::Phrase(step.say.clone());
            self.worked(format!("{}.what", step.id), what, Some(step));
        }
    }
}

/// A part of an id that a person's words stand in: letters, digits, hyphens and points.
#[must_use]
pub fn part(words: &str) -> String {
    let plain = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '.');
    let sign = |sign: char| if plain(sign) { sign } else { '-' };
    words.chars().map(sign).collect()
}

/// The id of how a kitchen's fuel moves with a change.
#[must_use]
pub fn change_id(kitchen: &str, kind: &ChangeKind) -> String {
    format!("kitchen.{kitchen}.change.{}", change_name(kind))
}

/// A change's name in ids: `windy`, `night-more`.
#[must_use]
pub fn change_name(kind: &ChangeKind) -> String {
    let plain = match kind {
        ChangeKind::AsPlanned => "as-planned",
        ChangeKind::Wind(wind) => wind.word(),
        ChangeKind::MoreWind => "more-wind",
        ChangeKind::Lid(true) => "lids-on",
        ChangeKind::Lid(false) => "no-lid",
        ChangeKind::Colder => "colder",
        ChangeKind::Warmer => "warmer",
        ChangeKind::PersonMore => "person-more",
        ChangeKind::NightMore(_) => "night-more",
        ChangeKind::Higher => "higher",
        ChangeKind::FromSnow => "from-snow",
        ChangeKind::LargerPot => "larger-pot",
        ChangeKind::Stove(stove) => return format!("stove-{}", part(stove)),
    };
    plain.to_owned()
}

/// The id of what the plan's own numbers warn of.
#[must_use]
pub fn caution_id(caution: &CautionPlan) -> String {
    format!("caution.{}", part(&caution.id))
}

/// The id of a container of a kitchen: by its tag, else by its number among what is handed out.
#[must_use]
pub fn container_id(kitchen: &KitchenPlan, number: usize) -> String {
    let tag = kitchen.containers.get(number);
    let tag = tag.and_then(|container| container.tag.as_deref());
    let name = tag.map_or_else(|| format!("new-{}", number + 1), part);
    format!("kitchen.{}.container.{name}", kitchen.slug)
}

/// The id of what was assumed under a key path: `assumed.camps.1.water-from`.
#[must_use]
pub fn assumed_id(path: &str) -> String {
    let at = |part: &str| match part.strip_suffix(']').and_then(|part| part.split_once('[')) {
        Some((name, index)) => {
            let number = index.parse::<usize>().map_or(0, |index| index + 1);
            format!("{}.{number}", self::part(name))
        }
        None => self::part(part),
    };
    let parts: Vec<String> = path.split('.').map(at).collect();
    format!("assumed.{}", parts.join("."))
}
