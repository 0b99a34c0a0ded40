//! Kitchens get their containers, and with them their cold canisters and their stand.

use super::cold;
use super::containers::{self, HandedOut, Note};
use super::fuel::{self, Base};
use super::setup::Handed;
use super::stability;
use super::types::{Assignment, CampPlan, CautionPlan, ColdRow, KitchenPlan};
use crate::diag::Outcome;
use crate::nouns::{Blend, FuelKind, Kitchen, Library, Signal};
use crate::units::Mass;

/// What serving the kitchens brings beside their own fields.
pub(crate) struct Served {
    /// How good the choice of canisters is.
    pub(crate) assignment: Option<Assignment>,
    /// What the numbers make worth saying, gravest first.
    pub(crate) cautions: Vec<CautionPlan>,
}

/// How far shares may differ and be the same mixture.
const SAME: f64 = 1e-9;

fn same(a: &Blend, b: &Blend) -> bool {
    let off = |a: crate::units::Fraction, b: crate::units::Fraction| (a - b).in_one().abs() <= SAME;
    off(a.propane, b.propane) && off(a.isobutane, b.isobutane) && off(a.butane, b.butane)
}

/// The mixture that the rows must be worked with, where it is not the one they were first worked
/// with.
fn other_blend(kitchen: &Kitchen, library: &Library, handed: Option<Blend>) -> Option<Blend> {
    handed.filter(|blend| {
        kitchen.heating_value.is_none() && !same(blend, &cold::new_blend(kitchen, library))
    })
}

/// What a kitchen takes, leg by leg.
fn carried(plan: &KitchenPlan) -> Vec<Mass> {
    let legs = plan.fuel.legs.iter().map(|leg| leg.carry);
    std::iter::once(plan.fuel.carry).chain(legs).collect()
}

/// Hands out containers, and works canister kitchens again with the heating value of what they
/// got, until both agree.
fn hand_out(
    base: &Base<'_>,
    camps: &[CampPlan],
    kitchens: &mut [KitchenPlan],
) -> Outcome<HandedOut> {
    const ROUNDS: usize = 6;
    let (trip, library) = (base.trip, base.library);
    let mut worked_with: Vec<Option<Blend>> = vec![None; kitchens.len()];
    let mut handed = containers::hand_out(trip, library, kitchens, camps);
    for _ in 0..ROUNDS {
        let mut agree = true;
        for (index, plan) in kitchens.iter_mut().enumerate() {
            let kitchen = &trip.kitchens[index];
            if kitchen.fuel.kind != FuelKind::Canister {
                continue;
            }
            let mean = containers::mean_blend(&handed.containers[index]);
            let blend = other_blend(kitchen, library, mean);
            let known = match (&blend, &worked_with[index]) {
                (None, None) => true,
                (Some(a), Some(b)) => same(a, b),
                _ => false,
            };
            if known {
                continue;
            }
            let before = carried(plan);
            *plan = fuel::kitchen(
                base,
                kitchen,
                index,
                &Handed {
                    blend,
                    ..Handed::default()
                },
            )?;
            worked_with[index] = blend;
            agree &= carried(plan) == before;
        }
        if agree {
            break;
        }
        handed = containers::hand_out(trip, library, kitchens, camps);
    }
    Ok(handed)
}

/// Fills in what each kitchen is handed, its canisters in the cold and how easily it tips.
///
/// # Errors
/// When a kitchen cannot be worked out with what it is handed.
pub(crate) fn serve(base: &Base<'_>, kitchens: &mut [KitchenPlan]) -> Outcome<Served> {
    let (trip, library) = (base.trip, base.library);
    let camps: Vec<CampPlan> = base.camps.iter().map(|work| work.plan.clone()).collect();
    let HandedOut {
        containers,
        assignment,
        mut notes,
    } = hand_out(base, &camps, kitchens)?;
    for ((plan, mine), kitchen) in kitchens.iter_mut().zip(containers).zip(&trip.kitchens) {
        plan.containers = mine;
        plan.cold = cold::rows(trip, library, kitchen, plan, &camps);
        plan.stability = if trip.without_flame() {
            None
        } else {
            stability::work(kitchen, library, plan)
        };
        if !trip.without_flame() {
            notes.extend(in_words(kitchen, plan, &camps));
        }
    }
    let mut cautions: Vec<CautionPlan> = notes
        .into_iter()
        .map(|note| CautionPlan {
            signal: note.signal,
            module: "plan".to_owned(),
            id: note.id,
            text: note.text,
        })
        .collect();
    cautions.sort_by_key(|caution| caution.signal);
    Ok(Served {
        assignment,
        cautions,
    })
}

/// Cautions on one kitchen's canister and stand.
fn in_words(kitchen: &Kitchen, plan: &KitchenPlan, camps: &[CampPlan]) -> Vec<Note> {
    let id = |what: &str| format!("{what}-{}", crate::nouns::id(&kitchen.name));
    let mut notes = Vec::new();
    // What will not work before what is weak, then the lowest pressure.
    let worst = plan.cold.iter().filter(|row| !row.works).min_by(|a, b| {
        let weak = |row: &ColdRow| row.verdict() == "weak";
        let low = |row: &ColdRow| row.gauge_low.in_pascals();
        weak(a)
            .cmp(&weak(b))
            .then_with(|| low(a).total_cmp(&low(b)))
    });
    if let Some(row) = worst {
        notes.push(Note {
            // That it cools so far is an upper bound; too little pressure at the start is not.
            signal: if row.verdict() == "weak" {
                Signal::Caution
            } else {
                Signal::Warning
            },
            id: id("cold-canister"),
            text: format!(
                "{}, {} at {}: {}.",
                kitchen.name, row.meal, camps[row.camp].name, row.advice
            ),
        });
    }
    if containers::liquid_feed(kitchen) {
        notes.push(Note {
            signal: Signal::Warning,
            id: id("liquid-feed"),
            text: format!(
                "{} draws liquid: only on a stove whose maker provides for it. Light it upright \
                 and turn the canister over when the loop is hot.",
                kitchen.name
            ),
        });
    }
    if let Some(stability) = &plan.stability {
        for (number, note) in stability.notes.iter().enumerate().filter(|(_, note)| {
            note.starts_with(stability::LARGE_POT) || note.starts_with(stability::OVERHANG)
        }) {
            notes.push(Note {
                signal: Signal::Warning,
                id: format!("{}-{}", id("pot"), number + 1),
                text: format!("{}: {note}", kitchen.name),
            });
        }
    }
    notes
}
