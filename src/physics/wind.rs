//! How wind falls off towards the ground.

use crate::units::{Fraction, Length};

/// Share of the wind at a reference height that is left at another height, over even ground.
///
/// Formula: u(z) / u(r) = ln(z / z0) / ln(r / z0), z0 the roughness length of the ground.
///
/// Valid: a mean over some ten minutes, neutral air, even ground far around, z at least some ten
/// times z0 and at most about 100 m; not on ridges, in gaps, behind or among obstacles, nor for
/// gusts. At or below z0, and for a reference at or below z0, there is none: 0.
///
/// Source: the logarithmic law of the atmosphere's surface layer (H. Tennekes, Journal of the
/// Atmospheric Sciences 30, 1973); roughness lengths by class in the WMO's guide to instruments
/// (WMO-No. 8): open flat grass 0.03 m. Both quoted second-hand.
///
/// Example: over open grass, 0.3 m up: 0.40 of the wind that is forecast for 10 m.
/// ```
/// use leeside::physics::wind::share_at_height_log_law;
/// use leeside::units::Length;
/// let m = Length::metres;
/// let share = share_at_height_log_law(m(0.3), m(10.0), m(0.03));
/// assert!((share.in_one() - 0.3964).abs() < 1e-4);
/// ```
#[must_use]
pub fn share_at_height_log_law(height: Length, reference: Length, roughness: Length) -> Fraction {
    if roughness <= Length::ZERO || height <= roughness || reference <= roughness {
        return Fraction::of_one(0.0);
    }
    Fraction::of_one(libm::log(height / roughness) / libm::log(reference / roughness))
}
