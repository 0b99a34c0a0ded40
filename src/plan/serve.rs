//! Kitchens get their containers, and with them their cold canisters and their stand.

use super::burning::Burns;
use super::cold;
use super::containers;
use super::fuel::{self, Base};
use super::given_out::{HandedOut, Note};
use super::setup::Handed;
use super::stability;
use super::types::{Assignment, CampPlan, CautionPlan, ColdRow, KitchenPlan};
use crate::diag::Outcome;
use crate::nouns::{Blend, Feed, FuelKind, Kitchen, Library, Signal, Verdict};
use crate::phrase::{Phrase, phrase};
use crate::units::{Mass, Power};

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

/// Whether what was handed out for the one is enough for the other, leg by leg.
fn enough(now: &[Mass], before: &[Mass]) -> bool {
    now.len() == before.len() && now.iter().zip(before).all(|(now, before)| now <= before)
}

/// Whether rows worked with the one are as good as rows worked with the other.
fn alike(a: &Handed, b: &Handed) -> bool {
    /// Power is found to a thousandth.
    const NEAR: f64 = 1e-3;
    let blends = match (&a.blend, &b.blend) {
        (None, None) => true,
        (Some(a), Some(b)) => same(a, b),
        _ => false,
    };
    let near = |(one, other): (&Power, &Power)| (*one / *other - 1.0).abs() <= NEAR;
    blends
        && a.powers.keys().eq(b.powers.keys())
        && a.powers.values().zip(b.powers.values()).all(near)
}

/// Hands out containers, and works canister kitchens again with the heating value of what they
/// got and with what the cold leaves of their flame, until it agrees or three rounds are over.
pub(crate) fn hand_out(
    base: &Base<'_>,
    camps: &[CampPlan],
    kitchens: &mut [KitchenPlan],
    burns: &Burns,
) -> Outcome<HandedOut> {
    const ROUNDS: usize = 3;
    let (trip, library) = (base.trip, base.library);
    let mut worked_with = vec![Handed::default(); kitchens.len()];
    let mut handed = containers::hand_out(trip, library, kitchens, camps, burns);
    for round in 0..ROUNDS {
        let mut agree = true;
        for (index, plan) in kitchens.iter_mut().enumerate() {
            let kitchen = &trip.kitchens[index];
            if kitchen.fuel.kind != FuelKind::Canister {
                continue;
            }
            let mine = &handed.containers[index];
            plan.containers.clone_from(mine);
            let now = Handed {
                blend: other_blend(kitchen, library, containers::mean_blend(mine)),
                powers: cold::powers(&cold::rows(trip, library, kitchen, plan, camps, burns)),
            };
            if alike(&now, &worked_with[index]) {
                continue;
            }
            let before = carried(plan);
            *plan = fuel::kitchen(base, kitchen, index, &now)?;
            worked_with[index] = now;
            let now = carried(plan);
            // Once chosen for what the cold leaves, what is handed out stays while it is enough.
            agree &= now == before || (round > 0 && enough(&now, &before));
        }
        if agree {
            break;
        }
        handed = containers::hand_out(trip, library, kitchens, camps, burns);
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
    let burns = Burns::default();
    let HandedOut {
        containers,
        assignment,
        mut notes,
    } = hand_out(base, &camps, kitchens, &burns)?;
    for ((plan, mine), kitchen) in kitchens.iter_mut().zip(containers).zip(&trip.kitchens) {
        plan.containers = mine;
        plan.cold = cold::rows(trip, library, kitchen, plan, &camps, &burns);
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
            says: Some(note.says),
        })
        .collect();
    cautions.sort_by_key(|caution| caution.signal);
    Ok(Served {
        assignment,
        cautions,
    })
}

/// What a leader does about a canister that is too cold: three short steps.
fn cold_canister(kitchen: &Kitchen, row: &ColdRow, camp: &str) -> Phrase {
    let how = if row.verdict == Verdict::Weak {
        let share = (row.power / row.set * 100.0).round();
        phrase!("cold-canister-gives", share = share)
    } else {
        phrase!("cold-canister-fails")
    };
    let turns = kitchen.stove.liquid_feed && kitchen.feed == Feed::Vapour;
    phrase!(
        "caution-cold-canister",
        kitchen = kitchen.name,
        meal = row.meal,
        camp = camp,
        how = how,
        turns = usize::from(turns)
    )
}

/// Cautions on one kitchen's canister and stand.
fn in_words(kitchen: &Kitchen, plan: &KitchenPlan, camps: &[CampPlan]) -> Vec<Note> {
    let id = |what: &str| format!("{what}-{}", crate::nouns::id(&kitchen.name));
    let mut notes = Vec::new();
    if let Some(row) = cold::worst(&plan.cold).filter(|row| !row.verdict.does()) {
        notes.push(Note {
            signal: if row.verdict == Verdict::Weak {
                Signal::Caution
            } else {
                Signal::Warning
            },
            id: id("cold-canister"),
            says: cold_canister(kitchen, row, &camps[row.camp].name),
        });
    }
    if containers::liquid_feed(kitchen) {
        notes.push(Note {
            signal: Signal::Warning,
            id: id("liquid-feed"),
            says: phrase!("caution-liquid-feed", kitchen = kitchen.name),
        });
    }
    if let Some(stability) = &plan.stability {
        let notes_of_pots =
            |note: &Phrase| [stability::LARGE_POT, stability::OVERHANG].contains(&note.id());
        let grave = stability.notes.iter().enumerate();
        for (number, note) in grave.filter(|(_, note)| notes_of_pots(note)) {
            notes.push(Note {
                signal: Signal::Warning,
                id: format!("{}-{}", id("pot"), number + 1),
                says: phrase!("caution-of-kitchen", kitchen = kitchen.name, says = note),
            });
        }
    }
    notes
}
