//! Fills in what the papers of a trip may say: the party, camps, kitchens, meals, containers,
//! stoves, figures and facts.

use super::advice::{Advice, FORECAST_HEIGHT, PotLimit, advice};
use super::change::{DEGREES, HIGHER};
use super::drawn::{canister_curves, canister_through, stack_outline};
use super::issue::issues;
use super::on_the_way::fuel_so_far;
use super::statements::{
    Origin, Statement, Statements, Value, assumed_id, caution_id, container_id,
};
use super::terms::Remedy;
use super::types::{
    CampPlan, ComparisonRow, ContainerPlan, KitchenPlan, Plan, Role, Row, Usual, step_of,
};
use crate::nouns::{Library, Trip, Wind, id};
use crate::units::{Fraction, HeatingValue, Mass, Warming};

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
        canister(&mut all, trip, library, plan, index);
        stack(&mut all, trip, library, plan, index);
        if let Some(own) = trip.kitchens.get(index) {
            let share = Value::Fraction(own.stove.efficiency.likely);
            all.add(format!("kitchen.{}.calm-efficiency", kitchen.slug), share);
        }
    }
    for row in &plan.comparison {
        stove(&mut all, row);
    }
    advised(&mut all, &advice(trip, library, plan), plan);
    for crossing in &plan.crossings {
        let id = format!("stove.{}.lighter-from", crossing.after);
        all.worked(id, Value::Number(f64::from(crossing.nights)), None);
    }
    for day in &plan.days {
        for (meal, name) in day.meals.iter().zip(["breakfast", "lunch", "supper"]) {
            if let Some(meal) = meal {
                let at = format!("day.{}.{name}", day.day);
                all.add(format!("{at}.water"), Value::Volume(meal.need.boil));
                all.add(format!("{at}.simmer"), Value::Time(meal.need.simmer));
            }
        }
    }
    all.add(
        "change.colder-by",
        Value::Warming(Warming::of_kelvins(DEGREES)),
    );
    all.add("change.higher-by", Value::Height(HIGHER));
    for one in &plan.assumed {
        let at = assumed_id(&one.what);
        let origin = || Origin::Assumed(one.clone());
        all.put(
            format!("{at}.why"),
            Value::Phrase((&one.why).into()),
            origin(),
        );
        all.put(at, Value::Phrase((&one.value).into()), origin());
    }
    // What the numbers make worth saying is a statement as a whole.
    for one in &plan.cautions {
        if let Some(says) = &one.says {
            all.worked(caution_id(one), Value::Phrase(says.clone()), None);
        }
    }
    figures(&mut all, library);
    content(&mut all, library);
    all
}

/// What is advised: on pots, melting, burning, wind.
fn advised(all: &mut Statements<'_>, advice: &Advice, plan: &Plan) {
    for (kitchen, one) in plan.kitchens.iter().zip(&advice.kitchens) {
        let at = format!("kitchen.{}.advice", kitchen.slug);
        if let Some(pot) = &one.pot {
            all.add(format!("{at}.pot.water"), Value::Volume(pot.water));
            if let PotLimit::Bears(limit)
            | PotLimit::Overhangs(limit)
            | PotLimit::NeverBoils(limit) = pot.limit
            {
                all.add(format!("{at}.pot.limit"), Value::Volume(limit));
            }
            if let Some(better) = pot.better {
                let capacity = Value::Volume(better.capacity);
                all.add(format!("{at}.pot.capacity"), capacity);
                if let Some(tilt) = better.tilt {
                    all.add(format!("{at}.pot.tilt"), Value::Angle(tilt));
                }
            }
        }
        for melt in &one.melting {
            let at = format!("{at}.melt.{}", plan.camps[melt.camp].slug);
            all.add(format!("{at}.in-an-hour"), Value::Volume(melt.in_an_hour));
            all.add(format!("{at}.a-day"), Value::Volume(melt.a_day));
            all.add(format!("{at}.time"), Value::Time(melt.time));
        }
        if let Some(burn) = &one.burn {
            all.add(format!("{at}.burn.fuel"), Value::Mass(burn.fuel));
            all.add(format!("{at}.burn.full"), Value::Time(burn.full));
            if let Some(least) = burn.least {
                all.add(format!("{at}.burn.least"), Value::Time(least));
            }
        }
    }
    let wind = &advice.wind;
    let speed = |speed: f64| Value::Line(speed, "m/s".to_owned());
    all.add("advice.wind.height", Value::Height(FORECAST_HEIGHT));
    all.add("advice.wind.share", Value::Fraction(wind.share));
    all.add("advice.wind.calm", speed(wind.calm_below));
    all.add("advice.wind.breezy", speed(wind.breezy_below));
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
            Value::Phrase(water.method.clone()),
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
    fuel(all, plan, kitchen, &at);
    for row in &kitchen.rows {
        if let Some(camp) = plan.camps.get(row.camp) {
            meal(
                all,
                row,
                &format!("{at}.{}.{}", camp.slug, id(row.meal.word())),
            );
        }
    }
    by_use(all, plan, kitchen, &at);
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

fn fuel(all: &mut Statements<'_>, plan: &Plan, kitchen: &KitchenPlan, at: &str) {
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
        ] {
            all.worked(format!("{at}.{name}"), Value::Mass(mass), of_leg(role));
        }
    }
    if let Usual::Held { low, high, .. } = &fuel.usual {
        let grams = |grams: f64| Box::new(Value::Mass(Mass::grams(grams)));
        let value = Value::Between(grams(*low), grams(*high));
        all.worked(format!("{at}.usual"), value, None);
    }
    for leg in issues(plan, kitchen) {
        let of_leg = |role| {
            let mine = (!fuel.legs.is_empty()).then_some(leg.leg);
            let mut steps = fuel.steps.iter();
            steps.rfind(|step| step.leg == mine && step.role == role)
        };
        // What practice burns stands in no line of the working.
        let summed = leg.practice == Mass::ZERO && !kitchen.stays_cold;
        let needed = of_leg(Role::Carry).filter(|_| summed);
        for (name, mass, step) in [
            ("needed", leg.needed, needed),
            ("practice", leg.practice, None),
            ("issued", leg.issued, None),
            ("gross", leg.gross, None),
        ] {
            all.worked(
                format!("{at}.leg-{}.{name}", leg.leg + 1),
                Value::Mass(mass),
                step,
            );
        }
    }
    let net = |one: &ContainerPlan| one.net * f64::from(one.count);
    let issued: Mass = kitchen.containers.iter().map(net).sum();
    all.worked(format!("{at}.issued"), Value::Mass(issued), None);
    for share in &fuel.spread {
        let value = Value::Fraction(Fraction::of_one(share.share));
        all.worked(format!("{at}.spread.{}", share.input), value, None);
    }
}

/// What of a kitchen's fuel cooks, melts snow and lights: meal by meal and camp by camp.
fn by_use(all: &mut Statements<'_>, plan: &Plan, kitchen: &KitchenPlan, at: &str) {
    const NAMES: [&str; 3] = ["fuel-in-all", "fuel-to-melt", "fuel-to-light"];
    for (index, camp) in plan.camps.iter().enumerate() {
        let at = format!("{at}.{}", camp.slug);
        let mut sums = [Mass::ZERO; 3];
        for row in kitchen.at_camp(index) {
            let parts = row.fuel_by_use();
            for ((name, part), sum) in NAMES.iter().zip(parts).zip(&mut sums) {
                *sum += part;
                let id = format!("{at}.{}.{name}", id(row.meal.word()));
                // the whole has its line of the working already
                if all.get(&id).is_none() {
                    all.worked(id, Value::Mass(part), None);
                }
            }
        }
        for (name, sum) in NAMES.iter().zip(sums) {
            all.worked(format!("{at}.{name}"), Value::Mass(sum), None);
        }
    }
}

/// A canister at the camps and through its worst meal.
fn canister(all: &mut Statements<'_>, trip: &Trip, library: &Library, plan: &Plan, index: usize) {
    let at = format!("kitchen.{}", plan.kitchens[index].slug);
    if let Some(worked) = canister_curves(trip, plan, index) {
        all.add(format!("{at}.least-gauge"), Value::Pressure(worked.least));
        for curve in &worked.curves {
            let at = format!("{at}.{}.canister", plan.camps[curve.camp].slug);
            let fuel = Value::Temperature(curve.fuel_temperature);
            all.add(format!("{at}.temperature"), fuel);
            for (name, share) in [("full", 1.0), ("half", 0.5), ("tenth", 0.1)] {
                let gauge = Value::Pressure(curve.gauge_with(share));
                all.add(format!("{at}.gauge-{name}"), gauge);
            }
        }
    }
    if let Some(through) = canister_through(trip, library, plan, index) {
        for (name, (time, gauge, power)) in through.told() {
            let at = format!("{at}.through.{name}");
            all.add(format!("{at}.minutes"), Value::Time(*time));
            all.add(format!("{at}.gauge"), Value::Pressure(*gauge));
            all.add(format!("{at}.power"), Value::Power(*power));
        }
    }
}

/// The sizes of a stove with its pot.
fn stack(all: &mut Statements<'_>, trip: &Trip, library: &Library, plan: &Plan, index: usize) {
    let Some(sizes) = stack_outline(trip, library, plan, index) else {
        return;
    };
    let at = format!("kitchen.{}", plan.kitchens[index].slug);
    all.add(format!("{at}.rim-height"), Value::Length(sizes.rim()));
    all.add(format!("{at}.base"), Value::Length(sizes.base));
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
    if row.water.in_litres() > 0.0 {
        let a_litre = Mass::grams(row.fuel.in_grams() / row.water.in_litres());
        all.worked(format!("{at}.fuel-per-litre"), Value::Mass(a_litre), None);
    }
    if let Some(stops) = &row.stops {
        let at_most = stops.remedies.iter().find_map(|one| match one {
            Remedy::Pot(most) => Some(Value::Volume(*most)),
            _ => None,
        });
        let stops = Value::Temperature(stops.at);
        all.worked(format!("{at}.stops-at"), stops, None);
        if let Some(most) = at_most {
            all.worked(format!("{at}.pot-at-most"), most, None);
        }
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
    let litre = Value::Energy(row.energy_per_litre);
    all.add(format!("{at}.energy-per-litre"), litre);
    if let Some(one) = &row.carried {
        let energy = one.energy_per_kilogram_with_container;
        for (name, value) in [
            ("fuel", Value::Mass(one.fuel)),
            ("start", Value::Mass(one.start)),
            ("average", Value::Mass(one.average)),
            ("minutes-per-litre", Value::Time(one.minutes_per_litre)),
            ("containers", Value::Number(f64::from(one.containers))),
            ("fossil-co2", Value::Mass(one.fossil_co2)),
            ("energy-per-kilogram", Value::Energy(energy)),
            ("container-share", Value::Number(one.container_share)),
        ] {
            all.add(format!("{at}.{name}"), value);
        }
    }
    if let Some(push) = row.rim_push {
        all.worked(format!("{at}.push"), Value::Force(push), None);
    }
    if let Some(tilt) = row.tip_angle {
        all.worked(format!("{at}.tilt"), Value::Angle(tilt), None);
    }
    if let Some(price) = row.carried.and_then(|one| one.price) {
        all.worked(format!("{at}.price"), Value::Number(price), None);
    }
    if let Some(why) = &row.why {
        all.add(format!("{at}.why"), Value::Phrase(why.clone()));
    }
    for (nights, mass) in (1..).zip(&row.by_nights) {
        all.worked(format!("{at}.night-{nights}"), Value::Mass(*mass), None);
    }
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
    // The upper end of the class 'windy': above it nothing is lit in the open.
    let most_wind = Value::Line(Wind::Windy.up_to(), "m/s".to_owned());
    all.put("figure.most-wind".to_owned(), most_wind, Origin::Worked);
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
