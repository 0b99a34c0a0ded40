//! How easily a kitchen's stove falls over: the push at the rim first, then the tilt.

use super::cold;
use super::outline::StackOutline;
use super::steps::{Lines, Worked};
use super::types::{KitchenPlan, Role, StabilityPlan};
use crate::nouns::{
    Basis, Blend, Container, ContainerKind, Geometry, Kitchen, Library, Pot, Stove,
};
use crate::phrase::{Phrase, phrase};
use crate::physics::stability::{
    Base, Burner, Canister, Pot as Standing, Stack, Stand, base_radius, centre_of_mass, depth,
    rim_push, shim, tip_angle, total_mass,
};
use crate::units::{Angle, Length, Mass, Units, Volume, say};
use std::f64::consts::PI;

/// How a note on a large pot begins.
pub(crate) const LARGE_POT: &str = "stand-large-pot";

/// How a note on a pot wider than its canister begins.
pub(crate) const OVERHANG: &str = "stand-wide-pot";

/// How far a pot may stand out over its canister on each side before that is worth a word: every
/// pot of a litre stands out a little (assumption).
const REAL_OVERHANG: Length = Length::millimetres(30.0);

/// Folding legs for a canister as they are sold, generic: three feet 75 mm from the middle,
/// 30 g, the canister lifted by 8 mm (assumption).
const STAND_FEET: u32 = 3;
const STAND_RADIUS: Length = Length::millimetres(75.0);
const STAND: Stand = Stand {
    mass: Mass::grams(30.0),
    lift: Length::millimetres(8.0),
};

/// A slope that looks level (assumption), for the shim that people can picture.
const SLIGHT_SLOPE: Angle = Angle::degrees(5.0);

/// A pot as a cylinder as tall as wide.
fn cylinder(pot: &Pot, water: Volume, density: f64) -> Standing {
    let side = Length::metres(libm::cbrt(4.0 * pot.capacity.in_litres() * 1e-3 / PI));
    Standing {
        mass: pot.mass,
        diameter: side,
        height: side,
        water: Mass::kilograms(water.in_litres() * density),
    }
}

/// A canister with some fuel in it.
fn canister(size: &Container, fuel: Mass, blend: &Blend) -> Canister {
    Canister {
        diameter: size.diameter,
        height: size.height,
        shell: size.tare,
        fuel,
        fuel_volume: cold::of_blend(fuel, blend).volume_at_15_celsius(),
    }
}

/// What a stove stands on without a canister under it.
fn stack(stove: &Stove, under: Option<Canister>, pot: Standing) -> Stack {
    let (base, height) = match (stove.geometry, under) {
        (
            Geometry::Legs {
                count,
                radius,
                height,
            },
            _,
        ) => (Base::Legs { count, radius }, height),
        (Geometry::Round { diameter, height }, _) => (Base::Round { diameter }, height),
        (Geometry::OnCanister, Some(canister)) => (
            Base::Round {
                diameter: canister.diameter,
            },
            stove.burner_height,
        ),
        (Geometry::OnCanister, None) => (
            Base::Round {
                diameter: Length::ZERO,
            },
            stove.burner_height,
        ),
    };
    let canister = under.filter(|_| stove.geometry == Geometry::OnCanister);
    Stack {
        base,
        stand: None,
        canister,
        burner: Burner {
            mass: stove.burner_mass,
            height,
        },
        pot,
    }
}

/// A stack with full and with nearly empty fuel.
struct Pair {
    pot: usize,
    size: Option<Container>,
    full: Stack,
    empty: Stack,
}

impl Pair {
    fn worst(&self) -> f64 {
        tip_angle(&self.full)
            .in_degrees()
            .min(tip_angle(&self.empty).in_degrees())
    }

    /// The canister that the pot stands out far over.
    fn overhang(&self) -> Option<&Container> {
        let size = self.size.as_ref()?;
        (self.full.pot.diameter - size.diameter > REAL_OVERHANG * 2.0).then_some(size)
    }
}

/// The fullest batch of each pot that is used, on this stove.
fn fullest(plan: &KitchenPlan) -> Vec<(usize, Volume)> {
    let mut fullest: Vec<(usize, Volume)> = Vec::new();
    for batch in plan.rows.iter().flat_map(|row| &row.batches) {
        match fullest.iter_mut().find(|(pot, _)| *pot == batch.pot) {
            Some((_, water)) => *water = water.max(batch.water),
            None => fullest.push((batch.pot, batch.water)),
        }
    }
    fullest.sort_by_key(|(pot, _)| *pot);
    fullest
}

/// The sizes of canister that stand under this stove: those handed out, else the usual one.
fn under<'a>(stove: &Stove, library: &'a Library, plan: &KitchenPlan) -> Vec<&'a Container> {
    if stove.geometry != Geometry::OnCanister {
        return Vec::new();
    }
    let mut sizes: Vec<&Container> = plan
        .containers
        .iter()
        .filter(|one| one.kind == ContainerKind::Canister)
        .filter_map(|one| library.containers.get(&one.container))
        .collect();
    sizes.sort_by(|a, b| a.id.cmp(&b.id));
    sizes.dedup_by(|a, b| a.id == b.id);
    if sizes.is_empty() {
        sizes.extend(cold::usual_size(library));
    }
    sizes
}

fn pairs(kitchen: &Kitchen, library: &Library, plan: &KitchenPlan) -> Vec<Pair> {
    pairs_of(kitchen, library, plan, &fullest(plan))
}

/// A pot on a kitchen's stove in place of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stood {
    /// The least tilt that tips it, full or nearly empty canister.
    pub(crate) tilt: Angle,
    /// Whether it stands out far over its canister.
    pub(crate) overhangs: bool,
}

/// How one pot with so much water in it would stand on a kitchen's stove.
pub(crate) fn with_pot(
    kitchen: &Kitchen,
    library: &Library,
    plan: &KitchenPlan,
    pot: &Pot,
    water: Volume,
) -> Option<Stood> {
    let kitchen = Kitchen {
        pots: vec![pot.clone()],
        ..kitchen.clone()
    };
    let pairs = pairs_of(&kitchen, library, plan, &[(0, water)]);
    let tilt = pairs.iter().map(Pair::worst).reduce(f64::min)?;
    Some(Stood {
        tilt: Angle::degrees(tilt),
        overhangs: pairs.iter().any(|pair| pair.overhang().is_some()),
    })
}

fn pairs_of(
    kitchen: &Kitchen,
    library: &Library,
    plan: &KitchenPlan,
    fullest: &[(usize, Volume)],
) -> Vec<Pair> {
    let stove = &kitchen.stove;
    let blend = cold::new_blend(kitchen, library);
    let figures = &library.figures;
    let mut pairs = Vec::new();
    for &(index, water) in fullest {
        let Some(pot) = kitchen.pots.get(index) else {
            continue;
        };
        let pot = cylinder(pot, water, figures.water_density.value);
        if stove.geometry == Geometry::OnCanister {
            for size in under(stove, library, plan) {
                let of = |fuel| stack(stove, Some(canister(size, fuel, &blend)), pot);
                pairs.push(Pair {
                    pot: index,
                    full: of(size.net),
                    empty: of(figures.nearly_empty.value.min(size.net)),
                    size: Some(size.clone()),
                });
            }
        } else {
            let standing = stack(stove, None, pot);
            pairs.push(Pair {
                pot: index,
                full: standing,
                empty: standing,
                size: None,
            });
        }
    }
    pairs
}

/// How easily the least stable of a kitchen's pots and canisters tips; none where nothing is
/// cooked.
pub(crate) fn work(
    kitchen: &Kitchen,
    library: &Library,
    plan: &KitchenPlan,
) -> Option<StabilityPlan> {
    let pairs = pairs(kitchen, library, plan);
    let worst = pairs
        .iter()
        .min_by(|a, b| a.worst().total_cmp(&b.worst()))?;
    let (full, empty) = (&worst.full, &worst.empty);
    let push = rim_push(full).min(rim_push(empty));
    let tips = tip_angle(full).min(tip_angle(empty));
    let width = base_radius(&full.base) * 2.0;
    let mut notes = vec![phrase!(
        "stand-level",
        slope = say::plain(SLIGHT_SLOPE.in_degrees(), 0),
        shim = say::plain(shim(SLIGHT_SLOPE, width).in_millimetres(), 0)
    )];
    notes.extend(pot_notes(kitchen, worst));
    notes.extend(stand_note(worst));
    Some(StabilityPlan {
        tip_angle_full: tip_angle(full),
        tip_angle_worst: tips,
        rim_push: push,
        pot: worst.pot,
        shim: shim(tips, width),
        notes,
        steps: steps(worst, plan),
    })
}

/// The sizes of the stack that tips at the least tilt, for the drawing of it.
pub(crate) fn outline(
    kitchen: &Kitchen,
    library: &Library,
    plan: &KitchenPlan,
) -> Option<StackOutline> {
    let pairs = pairs(kitchen, library, plan);
    let worst = pairs
        .iter()
        .min_by(|a, b| a.worst().total_cmp(&b.worst()))?;
    let full_is_worse = tip_angle(&worst.full).in_degrees() <= tip_angle(&worst.empty).in_degrees();
    let stack = if full_is_worse {
        &worst.full
    } else {
        &worst.empty
    };
    let water = Volume::litres(stack.pot.water.in_kilograms());
    Some(StackOutline {
        base: base_radius(&stack.base),
        legs: matches!(stack.base, Base::Legs { .. }),
        canister: stack.canister.map(|one| (one.diameter, one.height)),
        burner: stack.burner.height,
        pot: (stack.pot.diameter, stack.pot.height),
        water: depth(water, stack.pot.diameter),
        centre: centre_of_mass(stack),
    })
}

/// Words on pots that are too large for what they stand on.
fn pot_notes(kitchen: &Kitchen, pair: &Pair) -> Vec<Phrase> {
    let mut notes = Vec::new();
    let Some(pot) = kitchen.pots.get(pair.pot) else {
        return notes;
    };
    if kitchen.stove.geometry != Geometry::OnCanister {
        return notes;
    }
    let largest = kitchen
        .pots
        .iter()
        .map(|pot| pot.capacity)
        .fold(Volume::ZERO, Volume::max);
    if let Some(limit) = kitchen.stove.warn_pot_above
        && largest > limit
    {
        notes.push(phrase!(
            "stand-large-pot",
            pot = say::volume(largest, Units::Metric),
            limit = say::volume(limit, Units::Metric)
        ));
    }
    if let Some(size) = pair.overhang() {
        notes.push(phrase!(
            "stand-wide-pot",
            pot = pot,
            across = say::plain(pair.full.pot.diameter.in_millimetres(), 0),
            canister = size.name,
            its = say::plain(size.diameter.in_millimetres(), 0)
        ));
    }
    notes
}

/// The same stack with the canister on folding legs: better or worse, said plainly.
fn stand_note(pair: &Pair) -> Option<Phrase> {
    pair.size.as_ref()?;
    let on_legs = |stack: &Stack| Stack {
        base: Base::Legs {
            count: STAND_FEET,
            radius: STAND_RADIUS,
        },
        stand: Some(STAND),
        ..*stack
    };
    let angle = |stack: Stack| tip_angle(&stack).in_degrees();
    let bare = pair.worst();
    let legs = angle(on_legs(&pair.full)).min(angle(on_legs(&pair.empty)));
    let feet = say::plain(STAND_RADIUS.in_millimetres(), 0);
    let (bare_text, legs_text) = (say::plain(bare, 1), say::plain(legs, 1));
    Some(if legs < bare {
        phrase!(
            "stand-legs-worse",
            feet = feet,
            legs = legs_text,
            bare = bare_text
        )
    } else {
        phrase!(
            "stand-legs",
            feet = feet,
            legs = legs_text,
            bare = bare_text
        )
    })
}

/// The arithmetic of the emptier stack, in metres and kilograms.
fn steps(pair: &Pair, plan: &KitchenPlan) -> Vec<super::types::Step> {
    let stack = &pair.empty;
    let mut lines = Lines::at(format!("kitchen.{}.stability", plan.slug));
    let metres = |length: Length| Worked::four(length.in_metres());
    let kilograms = |mass: Mass| Worked::four(mass.in_kilograms());
    let radius = lines.given(
        phrase!("line-from-middle-base-nearest"),
        metres(base_radius(&stack.base)),
        "m",
        Phrase::none(),
    );
    let mut foot = Length::ZERO;
    let mut masses = Vec::new();
    let mut moments = Vec::new();
    let mut body = |mass: Mass, height: Length| {
        masses.push(kilograms(mass).to_string());
        moments.push(format!("{} x {}", kilograms(mass), metres(height)));
    };
    if let Some(canister) = stack.canister {
        body(canister.shell, canister.height / 2.0);
        body(
            canister.fuel,
            depth(canister.fuel_volume, canister.diameter) / 2.0,
        );
        foot = canister.height;
    }
    body(stack.burner.mass, foot + stack.burner.height / 2.0);
    foot += stack.burner.height;
    body(stack.pot.mass, foot + stack.pot.height * 0.4);
    let water = depth(
        Volume::litres(stack.pot.water.in_kilograms()),
        stack.pot.diameter,
    );
    body(stack.pot.water, foot + water / 2.0);
    let say = if stack.canister.is_some() {
        phrase!("line-mass-on-canister")
    } else {
        phrase!("line-mass")
    };
    let mass = lines.work(say, masses.join(" + "), "kg", Phrase::none());
    let centre = lines.work(
        phrase!("line-height-centre-mass-each"),
        format!("({}) / {mass}", moments.join(" + ")),
        "m",
        phrase!("why-filled-cylinders", basis = Basis::Assumption),
    );
    let rim = lines.work(
        phrase!("line-height-pots-rim"),
        format!("{} + {}", metres(foot), metres(stack.pot.height)),
        "m",
        phrase!("why-tall-as-wide", basis = Basis::Assumption),
    );
    lines.role(Role::Push).work(
        phrase!("line-sideways-push-rim-tips"),
        format!("{mass} x 9.80665 x {radius} / {rim}"),
        "N",
        Phrase::none(),
    );
    let slope = lines.work(
        phrase!("line-tilt-tips-slope-edge"),
        format!("{radius} / {centre}"),
        "",
        Phrase::none(),
    );
    lines.role(Role::Tilt).given(
        phrase!("line-same-degrees"),
        Worked::four(libm::atan(slope.value()).to_degrees()),
        "°",
        Phrase::none(),
    );
    debug_assert!(total_mass(stack) > Mass::ZERO && centre_of_mass(stack) > Length::ZERO);
    lines.steps()
}
