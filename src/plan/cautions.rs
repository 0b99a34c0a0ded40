//! Which modules apply, their cautions with facts filled in, and what the numbers themselves
//! make worth saying.

use super::applies::applies;
use super::fire::fire_rule_lacks;
use super::types::{CautionPlan, KitchenPlan, ModulePlan, RulePlan, UNUSUAL, Usual};
use crate::nouns::{Kitchen, Library, Module, Signal, Trip, WaterFrom, id};
use crate::phrase::{Phrase, phrase};
use crate::units::{Time, say};

/// Below this age a lit stove takes an adult beside it.
const YOUNG: u32 = 16;

/// More fillings than this for one meal and the burner does not suit the kitchen.
const MOST_FILLS: u32 = 3;

/// The modules of the library in their order, each with whether it applies and why.
pub(crate) fn modules(trip: &Trip, library: &Library) -> Vec<ModulePlan> {
    in_order(library)
        .into_iter()
        .map(|module| ModulePlan {
            id: module.id.clone(),
            title: module.title.clone(),
            verdict: module.applies.judged(trip),
        })
        .collect()
}

fn in_order(library: &Library) -> Vec<&Module> {
    let mut all: Vec<&Module> = library.modules.values().collect();
    all.sort_by_key(|module| module.order);
    all
}

/// The cautions of the modules that apply.
pub(crate) fn of_modules(trip: &Trip, library: &Library) -> Vec<CautionPlan> {
    let mut all = Vec::new();
    for module in in_order(library) {
        if !applies(&module.applies, trip) {
            continue;
        }
        for caution in &module.cautions {
            if !applies(&caution.applies, trip) {
                continue;
            }
            all.push(CautionPlan {
                signal: caution.signal,
                module: module.id.clone(),
                id: caution.id.clone(),
                says: None,
            });
        }
    }
    all
}

/// Gathers what the plan itself says.
struct Raised(Vec<CautionPlan>);

impl Raised {
    fn say(&mut self, signal: Signal, id: impl Into<String>, says: Phrase) {
        self.0.push(CautionPlan {
            signal,
            module: "plan".to_owned(),
            id: id.into(),
            says: Some(says),
        });
    }
}

/// What the numbers and the trip's own words make worth saying.
pub(crate) fn of_plan(
    trip: &Trip,
    kitchens: &[KitchenPlan],
    rules: &[RulePlan],
) -> Vec<CautionPlan> {
    let mut raised = Raised(Vec::new());
    restrictions(trip, &mut raised);
    people(trip, &mut raised);
    snow(trip, kitchens, &mut raised);
    for (plan, kitchen) in kitchens.iter().zip(&trip.kitchens) {
        if trip.without_flame() {
            break;
        }
        stove(trip, plan, kitchen, &mut raised);
        usual(plan, &mut raised);
    }
    if let Some(oldest) = rules.iter().filter_map(|rule| rule.stale).max() {
        let count = rules.iter().filter(|rule| rule.stale.is_some()).count();
        raised.say(
            Signal::Notice,
            "stale-rules",
            phrase!("caution-stale-rules", count = count, days = oldest),
        );
    }
    raised.0
}

/// Fire rules: not stated is not known, never allowed.
fn restrictions(trip: &Trip, raised: &mut Raised) {
    let known = &trip.restrictions;
    if trip.without_flame() {
        raised.say(
            Signal::Warning,
            "no-flame",
            match &known.stage {
                Some(stage) => phrase!("caution-no-flame-by-stage", stage = stage),
                None => phrase!("caution-no-flame"),
            },
        );
    } else if known.stoves.is_none() && !trip.lights_nothing() {
        raised.say(
            Signal::Notice,
            "fire-rule-unknown",
            match &known.stage {
                Some(stage) => phrase!("caution-fire-rule-stage-only", stage = stage),
                None => phrase!("caution-fire-rule-unknown"),
            },
        );
    }
    for (id, says) in fire_rule_lacks(trip) {
        raised.say(Signal::Warning, id, says);
    }
}

/// Adults beside lit stoves.
fn people(trip: &Trip, raised: &mut Raised) {
    let people = &trip.people;
    let lit = if trip.lights_nothing() {
        0
    } else {
        trip.kitchens.len()
    };
    let needed = (people.adults_per_lit_stove * lit as f64).ceil();
    // An unknown age is no reason to count; the intake asks for it.
    let young = people.youngest.is_some_and(|age| age < YOUNG);
    if young && f64::from(people.instructors) < needed {
        raised.say(
            Signal::Warning,
            "adults",
            phrase!(
                "caution-adults",
                lit = lit,
                needed = needed,
                adults = people.instructors
            ),
        );
    }
}

/// Water from snow takes a spare day and a second stove.
fn snow(trip: &Trip, kitchens: &[KitchenPlan], raised: &mut Raised) {
    let from_snow = trip
        .camps
        .iter()
        .any(|camp| camp.water_from == WaterFrom::Snow);
    if from_snow && trip.second_stove != Some(true) && kitchens.len() < 2 {
        raised.say(
            Signal::Warning,
            "second-stove",
            phrase!("caution-second-stove"),
        );
    }
}

/// Pots that never boil, and what would make them.
fn never_boils(trip: &Trip, plan: &KitchenPlan, raised: &mut Raised) {
    for row in plan.failing() {
        let Some(stops) = &row.stops else { continue };
        let (camp, at) = (
            &trip.camps[row.camp].name,
            say::temperature(stops.at, trip.units),
        );
        let says = match stops.any_remedy() {
            None => phrase!(
                "caution-never-boils",
                kitchen = plan.name,
                meal = row.meal,
                camp = camp,
                at = at
            ),
            Some(remedies) => phrase!(
                "caution-never-boils-unless",
                kitchen = plan.name,
                meal = row.meal,
                camp = camp,
                at = at,
                remedies = remedies
            ),
        };
        raised.say(
            Signal::Warning,
            format!(
                "never-boils-{}-{}-{}",
                id(&plan.name),
                row.camp + 1,
                row.meal.word()
            ),
            says,
        );
    }
}

/// What a kitchen's stove cannot do.
fn stove(trip: &Trip, plan: &KitchenPlan, kitchen: &Kitchen, raised: &mut Raised) {
    let key = id(&plan.name);
    let failing: Vec<&str> = trip
        .camps
        .iter()
        .enumerate()
        .filter(|(camp, _)| {
            plan.at_camp(*camp)
                .any(|row| row.may_not_boil && row.stops.is_none())
        })
        .map(|(_, camp)| camp.name.as_str())
        .collect();
    if !failing.is_empty() {
        raised.say(
            Signal::Warning,
            format!("will-not-boil-{key}"),
            phrase!(
                "caution-will-not-boil",
                kitchen = plan.name,
                camps = failing.join(", "),
                screen = kitchen.screen
            ),
        );
    }
    never_boils(trip, plan, raised);
    if plan.boils() && plan.rows.iter().any(|row| !row.can_hold) {
        raised.say(
            Signal::Caution,
            format!("cannot-hold-{key}"),
            phrase!(
                "caution-cannot-hold",
                kitchen = plan.name,
                stove = plan.stove_name
            ),
        );
    }
    if let Some(row) = plan.rows.iter().max_by_key(|row| row.fills)
        && row.fills > MOST_FILLS
    {
        raised.say(
            Signal::Warning,
            format!("fills-{key}"),
            phrase!(
                "caution-fills",
                kitchen = plan.name,
                meal = row.meal,
                fills = row.fills
            ),
        );
    }
    let holds = plan.rows.iter().any(|row| row.hold > Time::ZERO);
    if holds && !kitchen.stove.turns_down() {
        raised.say(
            Signal::Notice,
            format!("no-simmer-{key}"),
            phrase!(
                "caution-no-simmer",
                kitchen = plan.name,
                stove = plan.stove_name
            ),
        );
    }
}

/// Grams a person and day outside what is usual.
fn usual(plan: &KitchenPlan, raised: &mut Raised) {
    let grams = say::plain(plan.fuel.grams_per_person_day, 0);
    let key = id(&plan.name);
    match &plan.fuel.usual {
        Usual::Held {
            season,
            low,
            high,
            inside: false,
        } => raised.say(
            Signal::Notice,
            format!("{UNUSUAL}{key}"),
            phrase!(
                "caution-unusual",
                kitchen = plan.name,
                grams = grams,
                season = season,
                low = say::plain(*low, 0),
                high = say::plain(*high, 0)
            ),
        ),
        Usual::NotAPlan { season } => raised.say(
            Signal::Warning,
            format!("no-plan-{key}"),
            phrase!(
                "caution-no-plan",
                kitchen = plan.name,
                stove = plan.stove_name,
                season = season
            ),
        ),
        _ => {}
    }
}
