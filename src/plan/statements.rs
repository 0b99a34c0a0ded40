//! What a trip's papers say, as typed values under ids: what two sheets say comes from one
//! statement, so that they cannot differ.
//!
//! An id tells where the thing stands in the trip: `camp.tarn-bench.night`,
//! `kitchen.blue.leg-1.issued`, `kitchen.blue.tarn-bench.supper.fuel`, `fact.greywater.distance`,
//! `rule.tarn-bench.greywater.distance`. Each printed line of a working has one too. Nothing here
//! is in words but what a person wrote.

use super::on_the_way::{Change, ChangeKind, fuel_so_far};
use super::types::{
    CampPlan, ComparisonRow, ContainerPlan, KitchenPlan, Plan, Role, Row, Step, StepId, Usual,
    step_of,
};
use crate::nouns::{Assumed, Fact, FactValue, Id, Library, RuleValue, Trip, id};
use crate::units::{
    Angle, Energy, Force, Fraction, HeatingValue, Length, Mass, Power, Pressure, Temperature, Time,
    Volume, Warming,
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
            Self::Between(..) | Self::Words(_) => return None,
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

    /// Adds what changes when something about the trip does.
    pub fn add_changes(&mut self, plan: &Plan, changes: &[Change]) {
        for change in changes {
            for (kitchen, more) in plan.kitchens.iter().zip(&change.more) {
                let id = change_id(&kitchen.slug, &change.kind);
                if let Some(more) = more {
                    self.worked(id, Value::Mass(*more), None);
                }
            }
        }
    }

    fn put(&mut self, id: String, value: Value, origin: Origin) {
        self.put_all(Statement {
            id,
            value,
            origin,
            step: None,
            sources: Vec::new(),
        });
    }

    fn worked(&mut self, id: String, value: Value, step: Option<&Step>) {
        self.put_all(Statement {
            id,
            value,
            origin: Origin::Worked,
            step: step.map(|step| step.id.clone()),
            sources: Vec::new(),
        });
    }

    fn put_all(&mut self, statement: Statement) {
        self.by_id.insert(statement.id.clone(), statement);
    }

    fn lines(&mut self, steps: &'a [Step]) {
        for step in steps {
            self.steps.insert(&step.id, step);
            let value = Value::Line(step.number(), step.unit.clone());
            self.worked(step.id.to_string(), value, Some(step));
            let what = Value::Words(step.say.to_string());
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
    let what = match kind {
        ChangeKind::PersonMore => "person-more",
        ChangeKind::NightMore(_) => "night-more",
        ChangeKind::Colder => "colder",
        ChangeKind::FromSnow => "from-snow",
        ChangeKind::MoreWind => "more-wind",
    };
    format!("kitchen.{kitchen}.change.{what}")
}

/// What the papers of a trip may say.
#[must_use]
pub fn statements<'a>(plan: &'a Plan, trip: &Trip, library: &Library) -> Statements<'a> {
    let mut all = Statements::default();
    party(&mut all, plan, trip);
    for (index, camp) in plan.camps.iter().enumerate() {
        self::camp(&mut all, plan, camp, index);
    }
    for (index, kitchen) in plan.kitchens.iter().enumerate() {
        self::kitchen(&mut all, plan, kitchen, index);
    }
    for row in &plan.comparison {
        stove(&mut all, row);
    }
    for crossing in &plan.crossings {
        let id = format!("stove.{}.lighter-from", crossing.after);
        all.worked(id, Value::Number(f64::from(crossing.nights)), None);
    }
    for one in &plan.assumed {
        let at = assumed_id(&one.what);
        let origin = || Origin::Assumed(one.clone());
        all.put(format!("{at}.why"), Value::Words(one.why.clone()), origin());
        all.put(at, Value::Words(one.value.clone()), origin());
    }
    figures(&mut all, library);
    content(&mut all, library);
    all
}

/// Where a value of the trip's file comes from: stated, or assumed under its key path.
fn stated(plan: &Plan, path: &str) -> Origin {
    let assumed = plan.assumed.iter().find(|one| one.what == path);
    assumed.map_or(Origin::Trip, |one| Origin::Assumed(one.clone()))
}

fn party(all: &mut Statements<'_>, plan: &Plan, trip: &Trip) {
    let people = &trip.people;
    for (key, count) in [
        ("people", plan.people),
        ("learners", people.learners),
        ("instructors", people.instructors),
        ("nights", plan.nights),
    ] {
        let origin = stated(plan, &format!("people.{key}"));
        all.put(
            format!("trip.{key}"),
            Value::Number(f64::from(count)),
            origin,
        );
    }
    let confidence = Value::Fraction(plan.confidence);
    all.put(
        "trip.confidence".into(),
        confidence,
        stated(plan, "confidence"),
    );
    let step = Value::Length(trip.step);
    all.put("trip.step".into(), step, stated(plan, "step_length"));
    if let Some(age) = people.youngest {
        let age = Value::Number(f64::from(age));
        all.put("trip.youngest".into(), age, Origin::Trip);
    }
}

fn camp<'a>(all: &mut Statements<'a>, plan: &'a Plan, camp: &'a CampPlan, index: usize) {
    let at = format!("camp.{}", camp.slug);
    let step = |role| step_of(&camp.steps, role);
    let key = |key: &str| stated(plan, &format!("camps[{index}].{key}"));
    all.lines(&camp.steps);
    let nights = Value::Number(f64::from(camp.nights));
    all.put(format!("{at}.nights"), nights, key("nights"));
    let height = Value::Height(camp.elevation);
    all.put(format!("{at}.elevation"), height, key("elevation"));
    let pressure = Value::Pressure(camp.pressure);
    all.worked(format!("{at}.pressure"), pressure, step(Role::Pressure));
    let boils = Value::Temperature(camp.boiling);
    all.worked(format!("{at}.boils"), boils, step(Role::Boils));
    for (name, value) in [
        ("day", camp.day),
        ("night", camp.night),
        ("water", camp.water),
    ] {
        all.put(format!("{at}.{name}"), Value::Temperature(value), key(name));
    }
    let hold = Value::Time(camp.hold);
    all.put(format!("{at}.safe-boil"), hold, stated(plan, "boil_rules"));
    for water in plan.greywater.iter().filter(|water| water.camp == index) {
        all.lines(&water.working);
        let step = |role| step_of(&water.working, role);
        let litres = Value::Volume(water.per_day);
        all.worked(format!("{at}.wash-water"), litres, step(Role::WashWater));
        let distance = Value::Length(water.distance);
        let by = step(Role::WashDistance);
        all.worked(format!("{at}.wash-distance"), distance, by);
        let steps = Value::Number(f64::from(water.steps));
        all.worked(format!("{at}.wash-steps"), steps, step(Role::WashSteps));
        all.worked(
            format!("{at}.wash-method"),
            Value::Words(water.method.clone()),
            None,
        );
    }
    for rule in plan.rules.iter().filter(|rule| rule.camp == index) {
        all.put_all(Statement {
            id: format!("rule.{}.{}", camp.slug, rule.rule),
            value: Value::from(&rule.said.value),
            origin: Origin::Rule {
                from: rule.said.from.clone(),
                checked: rule.said.checked.clone(),
            },
            step: None,
            sources: rule.said.sources.clone(),
        });
    }
}

fn kitchen<'a>(all: &mut Statements<'a>, plan: &'a Plan, kitchen: &'a KitchenPlan, index: usize) {
    let at = format!("kitchen.{}", kitchen.slug);
    all.lines(&kitchen.steps);
    all.lines(&kitchen.fuel.steps);
    let people = Value::Number(f64::from(kitchen.people));
    let path = format!("kitchens[{index}].people");
    all.put(format!("{at}.people"), people, stated(plan, &path));
    fuel(all, kitchen, &at);
    for row in &kitchen.rows {
        if let Some(camp) = plan.camps.get(row.camp) {
            meal(
                all,
                row,
                &format!("{at}.{}.{}", camp.slug, id(row.meal.word())),
            );
        }
    }
    for (number, container) in kitchen.containers.iter().enumerate() {
        self::container(all, container, &container_id(kitchen, number));
    }
    for cold in &kitchen.cold {
        let Some(camp) = plan.camps.get(cold.camp) else {
            continue;
        };
        let at = format!("{at}.{}.{}", camp.slug, id(cold.meal.word()));
        let fuel = Value::Temperature(cold.fuel_temperature);
        all.worked(format!("{at}.canister-temperature"), fuel, None);
        let (start, low) = (cold.gauge_start, cold.gauge_low);
        all.worked(format!("{at}.gauge-start"), Value::Pressure(start), None);
        all.worked(format!("{at}.gauge-low"), Value::Pressure(low), None);
        let usable = Value::Fraction(cold.usable);
        all.worked(format!("{at}.usable"), usable, None);
    }
    if let Some(stability) = &kitchen.stability {
        all.lines(&stability.steps);
        let step = |role| step_of(&stability.steps, role);
        let push = Value::Force(stability.rim_push);
        all.worked(format!("{at}.push"), push, step(Role::Push));
        let tilt = Value::Angle(stability.tip_angle_worst);
        all.worked(format!("{at}.tilt"), tilt, step(Role::Tilt));
        let full = Value::Angle(stability.tip_angle_full);
        all.worked(format!("{at}.tilt-full"), full, None);
        let shim = Value::Length(stability.shim);
        all.worked(format!("{at}.shim"), shim, None);
    }
    for night in fuel_so_far(plan, index) {
        let at = format!("{at}.night-{}", night.night);
        all.worked(format!("{at}.left"), Value::Mass(night.left), None);
        all.worked(format!("{at}.left-low"), Value::Mass(night.low), None);
        all.worked(format!("{at}.left-high"), Value::Mass(night.high), None);
        if let Some(scale) = night.scale {
            all.worked(format!("{at}.scale"), Value::Mass(scale), None);
        }
    }
}

/// The id of a container of a kitchen: by its tag, else by its number among what is handed out.
#[must_use]
pub fn container_id(kitchen: &KitchenPlan, number: usize) -> String {
    let tag = kitchen.containers.get(number);
    let tag = tag.and_then(|container| container.tag.as_deref());
    let name = tag.map_or_else(|| format!("new-{}", number + 1), part);
    format!("kitchen.{}.container.{name}", kitchen.slug)
}

fn fuel(all: &mut Statements<'_>, kitchen: &KitchenPlan, at: &str) {
    let fuel = &kitchen.fuel;
    let of_all = |role| {
        let mut steps = fuel.steps.iter();
        steps.rfind(|step| step.leg.is_none() && step.role == role)
    };
    let heating = step_of(&kitchen.steps, Role::HeatingValue);
    let value = Value::Line(
        fuel.heating_value.in_megajoules_per_kilogram(),
        "MJ/kg".to_owned(),
    );
    all.worked(format!("{at}.heating-value"), value, heating);
    for (name, mass, role) in [
        ("likely", fuel.likely, Role::Likely),
        ("at-confidence", fuel.at_confidence, Role::AtConfidence),
        ("spare", fuel.spare, Role::Spare),
        ("needed", fuel.carry, Role::Carry),
    ] {
        all.worked(format!("{at}.{name}"), Value::Mass(mass), of_all(role));
    }
    let day = Value::Mass(Mass::grams(fuel.grams_per_person_day));
    all.worked(format!("{at}.person-day"), day, of_all(Role::PersonDay));
    for (index, leg) in fuel.legs.iter().enumerate() {
        let of_leg = |role| {
            let mut steps = fuel.steps.iter();
            steps.rfind(|step| step.leg == Some(index) && step.role == role)
        };
        let at = format!("{at}.leg-{}", index + 1);
        for (name, mass, role) in [
            ("likely", leg.likely, Role::Likely),
            ("at-confidence", leg.at_confidence, Role::AtConfidence),
            ("spare", leg.spare, Role::Spare),
            ("needed", leg.carry, Role::Carry),
        ] {
            all.worked(format!("{at}.{name}"), Value::Mass(mass), of_leg(role));
        }
    }
    if let Usual::Held { low, high, .. } = &fuel.usual {
        let grams = |grams: f64| Box::new(Value::Mass(Mass::grams(grams)));
        let value = Value::Between(grams(*low), grams(*high));
        all.worked(format!("{at}.usual"), value, None);
    }
    let legs = fuel.legs.len().max(1);
    let net = |one: &ContainerPlan| one.net * f64::from(one.count);
    for leg in 0..legs {
        let mine = kitchen.containers.iter().filter(|one| one.leg == leg);
        let issued: Mass = mine.map(net).sum();
        let id = format!("{at}.leg-{}.issued", leg + 1);
        all.worked(id, Value::Mass(issued), None);
    }
    if fuel.legs.is_empty() {
        let id = format!("{at}.leg-1.needed");
        all.worked(id, Value::Mass(fuel.carry), of_all(Role::Carry));
    }
    let issued: Mass = kitchen.containers.iter().map(net).sum();
    all.worked(format!("{at}.issued"), Value::Mass(issued), None);
    for share in &fuel.spread {
        let value = Value::Fraction(Fraction::of_one(share.share));
        all.worked(format!("{at}.spread.{}", share.input), value, None);
    }
}

fn meal<'a>(all: &mut Statements<'a>, row: &'a Row, at: &str) {
    all.lines(&row.steps);
    all.lines(&row.loss_steps);
    let minutes = step_of(&row.steps, Role::Minutes);
    all.worked(format!("{at}.fuel"), Value::Mass(row.fuel), row.fuel_step());
    let total = Value::Mass(row.fuel * f64::from(row.times));
    all.worked(format!("{at}.fuel-in-all"), total, row.fuel_step());
    all.worked(format!("{at}.minutes"), Value::Time(row.minutes), minutes);
    for (name, value) in [
        ("water", Value::Volume(row.water)),
        ("times", Value::Number(f64::from(row.times))),
        ("batches", Value::Number(row.batches.len() as f64)),
        ("fills", Value::Number(f64::from(row.fills))),
        ("flame", Value::Time(row.flame)),
        ("hold", Value::Time(row.hold)),
        ("light", Value::Mass(row.to_light)),
        ("efficiency", Value::Fraction(row.efficiency)),
        ("still-share", Value::Fraction(row.still_share)),
        ("flame-factor", Value::Number(row.flame_factor)),
        ("lost", Value::Energy(row.lost)),
        ("heat.water", Value::Energy(row.heat.water)),
        ("heat.pot", Value::Energy(row.heat.pot)),
        ("heat.melt", Value::Energy(row.heat.melt)),
        ("heat.simmer", Value::Energy(row.heat.simmer)),
        ("heat.useful", Value::Energy(row.heat.useful)),
    ] {
        all.worked(format!("{at}.{name}"), value, None);
    }
    for (number, batch) in row.batches.iter().enumerate() {
        let id = format!("{at}.batch-{}", number + 1);
        all.worked(id, Value::Volume(batch.water), None);
    }
}

fn container(all: &mut Statements<'_>, container: &ContainerPlan, at: &str) {
    for (name, mass) in [
        ("size", container.size),
        ("net", container.net),
        ("usable", container.usable),
        ("gross", container.gross),
    ] {
        all.worked(format!("{at}.{name}"), Value::Mass(mass), None);
    }
    let count = Value::Number(f64::from(container.count));
    all.worked(format!("{at}.count"), count, None);
    if let Some(tare) = container.tare {
        all.worked(format!("{at}.tare"), Value::Mass(tare), None);
    }
    if let Some(fill) = container.fill {
        all.worked(format!("{at}.fill"), Value::Volume(fill), None);
    }
}

fn stove(all: &mut Statements<'_>, row: &ComparisonRow) {
    let at = format!("stove.{}.{}", row.stove, row.fuel);
    let energy = row.energy_per_kilogram_with_container;
    for (name, value) in [
        ("fuel", Value::Mass(row.fuel_mass)),
        ("start", Value::Mass(row.start_mass)),
        ("average", Value::Mass(row.average_mass)),
        ("minutes-per-litre", Value::Time(row.minutes_per_litre)),
        ("containers", Value::Number(f64::from(row.containers))),
        ("fossil-co2", Value::Mass(row.fossil_co2)),
        ("energy-per-litre", Value::Energy(row.energy_per_litre)),
        ("energy-per-kilogram", Value::Energy(energy)),
        ("container-share", Value::Number(row.container_share)),
    ] {
        all.worked(format!("{at}.{name}"), value, None);
    }
    if let Some(push) = row.rim_push {
        all.worked(format!("{at}.push"), Value::Force(push), None);
    }
    if let Some(tilt) = row.tip_angle {
        all.worked(format!("{at}.tilt"), Value::Angle(tilt), None);
    }
    if let Some(price) = row.price {
        all.worked(format!("{at}.price"), Value::Number(price), None);
    }
    for (nights, mass) in (1..).zip(&row.by_nights) {
        all.worked(format!("{at}.night-{nights}"), Value::Mass(*mass), None);
    }
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

/// The library's figures that sheets name, and the heat in its fuels.
fn figures(all: &mut Statements<'_>, library: &Library) {
    let figures = &library.figures;
    for (name, value, sources) in [
        (
            "round-up",
            Value::Mass(figures.round_up.value),
            &figures.round_up.sources,
        ),
        (
            "fill",
            Value::Fraction(figures.fill.value),
            &figures.fill.sources,
        ),
        (
            "set-up",
            Value::Time(figures.set_up.value),
            &figures.set_up.sources,
        ),
    ] {
        all.put_all(Statement {
            id: format!("figure.{name}"),
            value,
            origin: Origin::Worked,
            step: None,
            sources: sources.clone(),
        });
    }
    for fuel in library.fuels.values() {
        let heat = |value: HeatingValue| {
            Value::Line(value.in_megajoules_per_kilogram(), "MJ/kg".to_owned())
        };
        let (low, high) = fuel.heating_range;
        for (name, value) in [
            ("heating-value", fuel.heating_value),
            ("heating-low", low),
            ("heating-high", high),
        ] {
            all.put_all(Statement {
                id: format!("fuel.{}.{name}", fuel.id),
                value: heat(value),
                origin: Origin::Worked,
                step: None,
                sources: fuel.sources.clone(),
            });
        }
    }
    for stove in library.stoves.values() {
        let id = format!("stove.{}.calm-efficiency", stove.id);
        all.put(id, Value::Fraction(stove.efficiency.likely), Origin::Worked);
    }
}

/// The facts of the modules: of those that apply, and of those that they may name.
fn content(all: &mut Statements<'_>, library: &Library) {
    for module in library.modules.values() {
        for (name, fact) in &module.facts {
            all.put_all(Statement {
                id: format!("fact.{}.{name}", module.id),
                value: Value::from(&fact.value),
                origin: Origin::Fact(Box::new(fact.clone())),
                step: None,
                sources: fact.sources.clone(),
            });
        }
    }
}
