//! How easily a stove with its pot falls over.

use crate::units::{Angle, Force, Length, Mass, Volume};
use std::f64::consts::PI;

/// Standard acceleration of gravity, m/s2 (exact by convention, CGPM 1901).
const GRAVITY: f64 = 9.806_65;

/// Where a pot's centre of mass lies, as a share of its height: walls above, bottom below.
const POT_CENTRE: f64 = 0.4;

/// What the stove stands on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Base {
    /// A round foot, such as the bottom of a canister.
    Round {
        /// Across it.
        diameter: Length,
    },
    /// Legs, evenly spread.
    Legs {
        /// How many: three or more.
        count: u32,
        /// From the middle to each foot.
        radius: Length,
    },
}

/// A canister in the stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Canister {
    /// Across it.
    pub diameter: Length,
    /// Its height.
    pub height: Length,
    /// The empty shell.
    pub shell: Mass,
    /// The liquid in it.
    pub fuel: Mass,
    /// The room that the liquid takes.
    pub fuel_volume: Volume,
}

/// Folding legs under a canister.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// Its mass.
    pub mass: Mass,
    /// How far it lifts the canister.
    pub lift: Length,
}

/// The burner, with its pot supports.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burner {
    /// Its mass.
    pub mass: Mass,
    /// From what it stands on up to the pot.
    pub height: Length,
}

/// The pot with its water; a litre of water is taken as a kilogram.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pot {
    /// Empty mass.
    pub mass: Mass,
    /// Across it.
    pub diameter: Length,
    /// Its height up to the rim.
    pub height: Length,
    /// The water in it.
    pub water: Mass,
}

/// All that stands on one base, on one upright axis. A canister beside the stove is no part of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stack {
    /// What it stands on.
    pub base: Base,
    /// Legs under the canister, if any.
    pub stand: Option<Stand>,
    /// The canister under the burner, if it is there and not beside.
    pub canister: Option<Canister>,
    /// The burner.
    pub burner: Burner,
    /// The pot.
    pub pot: Pot,
}

/// Depth of a liquid in an upright cylinder.
///
/// Formula: h = 4 V / (pi D^2) (V in m3, D in m; m).
///
/// Valid: diameter above 0; a flat bottom.
///
/// Source: geometry of the cylinder.
///
/// Example: half a litre in a pot of 110 mm stands 52.6 mm deep.
/// ```
/// use leeside::physics::stability::depth;
/// use leeside::units::{Length, Volume};
/// let depth = depth(Volume::litres(0.5), Length::millimetres(110.0));
/// assert!((depth.in_millimetres() - 52.613).abs() < 0.001);
/// ```
#[must_use]
pub fn depth(volume: Volume, diameter: Length) -> Length {
    let d = diameter.in_metres();
    Length::metres(4.0 * volume.in_litres() * 1e-3 / (PI * d * d))
}

/// How far the nearest tipping edge of a base is from the middle.
///
/// Formula: r = D / 2 (round); r = R cos(pi / n) (n legs with feet at R: the inscribed circle).
///
/// Valid: three legs or more; fewer carry nothing and give 0.
///
/// Source: statics, geometry of the regular polygon.
///
/// Example: three legs of 75 mm reach no farther than a round foot of 75 mm across.
/// ```
/// use leeside::physics::stability::{Base, base_radius};
/// use leeside::units::Length;
/// let legs = Base::Legs { count: 3, radius: Length::millimetres(75.0) };
/// assert!((base_radius(&legs).in_millimetres() - 37.5).abs() < 1e-9);
/// ```
#[must_use]
pub fn base_radius(base: &Base) -> Length {
    match *base {
        Base::Round { diameter } => diameter / 2.0,
        Base::Legs { count, radius } if count >= 3 => radius * libm::cos(PI / f64::from(count)),
        Base::Legs { .. } => Length::ZERO,
    }
}

impl Stack {
    fn lift(&self) -> Length {
        self.stand.map_or(Length::ZERO, |stand| stand.lift)
    }

    fn burner_foot(&self) -> Length {
        self.lift()
            + self
                .canister
                .map_or(Length::ZERO, |canister| canister.height)
    }

    fn pot_foot(&self) -> Length {
        self.burner_foot() + self.burner.height
    }

    /// Each body: its mass, and the height of its centre.
    fn bodies(&self) -> Vec<(Mass, Length)> {
        let pot = self.pot;
        let water = Volume::litres(pot.water.in_kilograms());
        let mut bodies = vec![
            (
                self.burner.mass,
                self.burner_foot() + self.burner.height / 2.0,
            ),
            (pot.mass, self.pot_foot() + pot.height * POT_CENTRE),
            (
                pot.water,
                self.pot_foot() + depth(water, pot.diameter) / 2.0,
            ),
        ];
        if let Some(stand) = self.stand {
            bodies.push((stand.mass, stand.lift / 2.0));
        }
        if let Some(canister) = self.canister {
            let fuel = depth(canister.fuel_volume, canister.diameter);
            bodies.push((canister.shell, self.lift() + canister.height / 2.0));
            bodies.push((canister.fuel, self.lift() + fuel / 2.0));
        }
        bodies
    }
}

/// Mass of all that stands on the base.
///
/// Formula: sum of the masses.
///
/// Valid: masses of 0 or more.
///
/// Source: conservation of mass.
///
/// Example: a burner of 200 g with a 180 g pot and a litre of water: 1380 g.
/// ```
/// use leeside::physics::stability::{Base, Burner, Pot, Stack, total_mass};
/// use leeside::units::{Length, Mass};
/// let mm = Length::millimetres;
/// let stack = Stack {
///     base: Base::Legs { count: 4, radius: mm(80.0) },
///     stand: None,
///     canister: None,
///     burner: Burner { mass: Mass::grams(200.0), height: mm(70.0) },
///     pot: Pot {
///         mass: Mass::grams(180.0),
///         diameter: mm(140.0),
///         height: mm(120.0),
///         water: Mass::grams(1000.0),
///     },
/// };
/// assert!((total_mass(&stack).in_grams() - 1380.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn total_mass(stack: &Stack) -> Mass {
    stack.bodies().into_iter().map(|(mass, _)| mass).sum()
}

/// Height of the centre of mass above the ground.
///
/// Formula: h = sum of (m_i h_i) / sum of m_i; the pot's centre at 0.4 of its height, water and
/// fuel as filled cylinders, stand, burner and shell at half.
///
/// Valid: bodies on one upright axis; some mass.
///
/// Source: statics; the centres are assumptions.
///
/// Example: the stove of [`total_mass`]: 94.7 mm.
/// ```
/// use leeside::physics::stability::{Base, Burner, Pot, Stack, centre_of_mass};
/// use leeside::units::{Length, Mass};
/// let mm = Length::millimetres;
/// let stack = Stack {
///     base: Base::Legs { count: 4, radius: mm(80.0) },
///     stand: None,
///     canister: None,
///     burner: Burner { mass: Mass::grams(200.0), height: mm(70.0) },
///     pot: Pot {
///         mass: Mass::grams(180.0),
///         diameter: mm(140.0),
///         height: mm(120.0),
///         water: Mass::grams(1000.0),
///     },
/// };
/// assert!((centre_of_mass(&stack).in_millimetres() - 94.725).abs() < 0.001);
/// ```
#[must_use]
pub fn centre_of_mass(stack: &Stack) -> Length {
    let moments: f64 = stack
        .bodies()
        .into_iter()
        .map(|(mass, height)| mass.in_kilograms() * height.in_metres())
        .sum();
    Length::metres(moments / total_mass(stack).in_kilograms())
}

/// The tilt at which the stack falls over by itself.
///
/// Formula: angle = atan(r / h), r by [`base_radius`], h by [`centre_of_mass`].
///
/// Valid: rigid bodies at rest on firm ground. It is no limit to work up to: pots slide and soft
/// ground sinks before this, and a knock comes on top ([`rim_push`]).
///
/// Source: statics.
///
/// Example: the stove of [`total_mass`]: 30.8 degrees.
/// ```
/// use leeside::physics::stability::{Base, Burner, Pot, Stack, tip_angle};
/// use leeside::units::{Length, Mass};
/// let mm = Length::millimetres;
/// let stack = Stack {
///     base: Base::Legs { count: 4, radius: mm(80.0) },
///     stand: None,
///     canister: None,
///     burner: Burner { mass: Mass::grams(200.0), height: mm(70.0) },
///     pot: Pot {
///         mass: Mass::grams(180.0),
///         diameter: mm(140.0),
///         height: mm(120.0),
///         water: Mass::grams(1000.0),
///     },
/// };
/// assert!((tip_angle(&stack).in_degrees() - 30.845).abs() < 0.001);
/// ```
#[must_use]
pub fn tip_angle(stack: &Stack) -> Angle {
    let (r, h) = (base_radius(&stack.base), centre_of_mass(stack));
    Angle::degrees(libm::atan2(r.in_metres(), h.in_metres()).to_degrees())
}

/// The sideways push at the pot's rim that tips the stack, standing level.
///
/// Formula: F = m g r / h_rim, g = 9.80665 m/s2, h_rim from the ground to the rim.
///
/// Valid: a slow push on firm, level ground, no sliding; a knock needs less.
///
/// Source: statics (moments about the tipping edge).
///
/// Example: the stove of [`total_mass`]: 4.03 N, the weight of 411 g.
/// ```
/// use leeside::physics::stability::{Base, Burner, Pot, Stack, rim_push};
/// use leeside::units::{Length, Mass};
/// let mm = Length::millimetres;
/// let stack = Stack {
///     base: Base::Legs { count: 4, radius: mm(80.0) },
///     stand: None,
///     canister: None,
///     burner: Burner { mass: Mass::grams(200.0), height: mm(70.0) },
///     pot: Pot {
///         mass: Mass::grams(180.0),
///         diameter: mm(140.0),
///         height: mm(120.0),
///         water: Mass::grams(1000.0),
///     },
/// };
/// assert!((rim_push(&stack).in_newtons() - 4.029).abs() < 0.001);
/// ```
#[must_use]
pub fn rim_push(stack: &Stack) -> Force {
    let rim = stack.pot_foot() + stack.pot.height;
    let weight = total_mass(stack).in_kilograms() * GRAVITY;
    Force::newtons(weight * (base_radius(&stack.base) / rim))
}

/// The shim under one side that levels a base of a width on a slope, or the height that a tilt
/// lifts that side.
///
/// Formula: s = width x tan(slope).
///
/// Valid: slopes of 0 to below 90 degrees.
///
/// Source: geometry.
///
/// Example: 5 degrees across a 90 mm canister: 7.9 mm.
/// ```
/// use leeside::physics::stability::shim;
/// use leeside::units::{Angle, Length};
/// let height = shim(Angle::degrees(5.0), Length::millimetres(90.0));
/// assert!((height.in_millimetres() - 7.874).abs() < 0.001);
/// ```
#[must_use]
pub fn shim(slope: Angle, width: Length) -> Length {
    width * libm::tan(slope.in_degrees().to_radians())
}
