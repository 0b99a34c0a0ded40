//! Which modules apply, their cautions with facts filled in, and what the numbers themselves
//! make worth saying.

use super::applies::{applies, judge};
use super::filler::{Filler, Piece};
use super::terms::Remedy;
use super::types::{CautionPlan, KitchenPlan, ModulePlan, RulePlan, Usual};
use crate::nouns::{Family, Kitchen, Library, Module, Signal, Trip, WaterFrom, id};
use crate::units::{Time, say};

/// Below this age a lit stove takes an adult beside it.
const YOUNG: u32 = 16;

/// More fillings than this for one meal and the burner does not suit the kitchen.
const MOST_FILLS: u32 = 3;

/// The modules of the library in their order, each with whether it applies and why.
pub(crate) fn modules(trip: &Trip, library: &Library) -> Vec<ModulePlan> {
    in_order(library)
        .into_iter()
        .map(|module| {
            let verdict = judge(&module.applies, trip);
            ModulePlan {
                id: module.id.clone(),
                title: module.title.clone(),
                applies: verdict.is_ok(),
                why: verdict.unwrap_or_else(|why_not| why_not),
            }
        })
        .collect()
}

fn in_order(library: &Library) -> Vec<&Module> {
    let mut all: Vec<&Module> = library.modules.values().collect();
    all.sort_by_key(|module| module.order);
    all
}

/// The cautions of the modules that apply, as plain text.
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
            let filler = Filler {
                library,
                trip,
                units: trip.units,
            };
            let part = |text: &str| {
                let pieces = filler.pieces(module, text, &caution.applies);
                let words: String = pieces.iter().map(Piece::words).collect();
                plain(&words)
            };
            let mut text = format!("{}:", part(&caution.hazard).trim_end_matches('.'));
            for sentence in [&caution.consequence, &caution.avoid, &caution.respond] {
                let words = part(sentence);
                if !words.is_empty() {
                    text.push(' ');
                    text.push_str(words.trim_end_matches('.'));
                    text.push('.');
                }
            }
            all.push(CautionPlan {
                signal: caution.signal,
                module: module.id.clone(),
                id: caution.id.clone(),
                text,
            });
        }
    }
    all
}

/// Markdown's marks of emphasis taken out, on one line.
fn plain(text: &str) -> String {
    text.replace(['*', '`'], "")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

/// Gathers what the plan itself says.
struct Raised(Vec<CautionPlan>);

impl Raised {
    fn say(&mut self, signal: Signal, id: impl Into<String>, text: impl Into<String>) {
        self.0.push(CautionPlan {
            signal,
            module: "plan".to_owned(),
            id: id.into(),
            text: text.into(),
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
            format!(
                "{count} of the rules were read long ago (up to {oldest} days): ask the land \
                 manager again."
            ),
        );
    }
    raised.0
}

/// Fire rules: not stated is not known, never allowed.
fn restrictions(trip: &Trip, raised: &mut Raised) {
    let known = &trip.restrictions;
    let said = known
        .stage
        .as_ref()
        .map_or_else(String::new, |stage| format!(" \u{201c}{stage}\u{201d}"));
    if trip.without_flame() {
        raised.say(
            Signal::Warning,
            "no-flame",
            format!("Fire rule{said}: no stove may be lit. All meals are cold."),
        );
    } else if known.stoves.is_none() && known.stage.is_none() && !trip.lights_nothing() {
        raised.say(
            Signal::Notice,
            "fire-rule-unknown",
            "Fire rule not known: ask the land manager; write down the stage, who told you, when.",
        );
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
            format!(
                "{lit} lit stoves need {needed:.0} adults beside them and there are {}: light \
                 fewer at a time. No flame without an adult beside it.",
                people.instructors
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
            "All water here hangs on one stove: where it must be melted from snow, take a second \
             stove.",
        );
    }
}

/// Pots that never boil, and what would make them.
fn never_boils(trip: &Trip, plan: &KitchenPlan, raised: &mut Raised) {
    for row in plan.failing() {
        let Some(stops) = &row.stops else { continue };
        let remedies: Vec<String> = stops.remedies.iter().map(Remedy::words).collect();
        let remedy = if remedies.is_empty() {
            "Nothing that is known here would: plan this meal cold.".to_owned()
        } else {
            format!("What would: {}.", remedies.join("; or "))
        };
        raised.say(
            Signal::Warning,
            format!("never-boils-{}-{}-{}", id(&plan.name), row.camp + 1, row.meal.word()),
            format!(
                "{}: the pot for {} at {} never boils on this stove: it stops at {}. {remedy} No fuel \
                 is counted for this kitchen until it does.",
                plan.name,
                row.meal,
                trip.camps[row.camp].name,
                say::temperature(stops.at, trip.units)
            ),
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
            format!(
                "{}: in the wind at {} this stove may not boil at all behind the windscreen \
                 \u{201c}{}\u{201d}. Find shelter, or take a stove with a proper screen.",
                plan.name,
                failing.join(", "),
                kitchen.screen
            ),
        );
    }
    never_boils(trip, plan, raised);
    if plan.boils() && plan.rows.iter().any(|row| !row.can_hold) {
        raised.say(
            Signal::Caution,
            format!("cannot-hold-{key}"),
            format!(
                "{}: {} cannot hold a simmer in this wind: the pot loses more than the flame brings. \
                 Take food that only needs a boil, a smaller pot, or shelter.",
                plan.name, plan.stove_name
            ),
        );
    }
    if let Some(row) = plan.rows.iter().max_by_key(|row| row.fills)
        && row.fills > MOST_FILLS
    {
        raised.say(
            Signal::Warning,
            format!("fills-{key}"),
            format!(
                "{}: {} takes {} fillings of the burner, each after it is cold. This stove does \
                 not suit this kitchen. Never refill a burner that is lit or hot.",
                plan.name, row.meal, row.fills
            ),
        );
    }
    let holds = plan.rows.iter().any(|row| row.hold > Time::ZERO);
    let cannot_turn_down = matches!(kitchen.stove.family, Family::Alcohol | Family::Tablet)
        || kitchen.stove.least_power >= kitchen.stove.power;
    if holds && cannot_turn_down {
        raised.say(
            Signal::Notice,
            format!("no-simmer-{key}"),
            format!(
                "{}: {} cannot be turned down. Bring it to the boil, put the lid on, take it off \
                 the heat and keep it wrapped and warm.",
                plan.name, plan.stove_name
            ),
        );
    }
}

/// Grams a person and day outside what is usual.
fn usual(plan: &KitchenPlan, raised: &mut Raised) {
    let grams = say::number(plan.fuel.grams_per_person_day, 0);
    let key = id(&plan.name);
    match &plan.fuel.usual {
        Usual::Held {
            season,
            low,
            high,
            inside: false,
        } => raised.say(
            Signal::Notice,
            format!("unusual-{key}"),
            format!(
                "{}: {grams} g of fuel a person and day is unusual ({season}: {} to {} g). Check \
                 water, wind and how much is cooked.",
                plan.name,
                say::number(*low, 0),
                say::number(*high, 0)
            ),
        ),
        Usual::NotAPlan { season } => raised.say(
            Signal::Warning,
            format!("no-plan-{key}"),
            format!(
                "{}: {} is no plan for {season}. Take another stove.",
                plan.name, plan.stove_name
            ),
        ),
        _ => {}
    }
}
