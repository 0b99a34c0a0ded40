//! Bleach for a sanitising rinse.

use crate::units::{Fraction, Volume};

/// Bleach for each litre of water to reach a strength of available chlorine.
///
/// Formula: mL per litre = ppm / (10 x percent), percent being the available chlorine on the label.
///
/// Valid: label strengths of about 1-15 %, targets far below them; ppm as mg/L. Old bleach is
/// weaker than its label. Plain, unscented bleach only.
///
/// Source: WHO, annex G, table G.1, sodium hypochlorite: concentration and use, 2014 (5 % is
/// taken as 50 000 ppm).
///
/// Example: 100 ppm from 5.25 %: 1.9 mL a litre; from 8.25 %: 1.2 mL.
/// ```
/// use leeside::physics::disinfect::bleach_per_litre;
/// use leeside::units::Fraction;
/// let [weak, strong] = [5.25, 8.25].map(|label| bleach_per_litre(100.0, Fraction::percent(label)));
/// assert!((weak.in_millilitres() - 1.905).abs() < 0.001);
/// assert!((strong.in_millilitres() - 1.212).abs() < 0.001);
/// ```
#[must_use]
pub fn bleach_per_litre(target_ppm: f64, label: Fraction) -> Volume {
    Volume::millilitres(target_ppm / (10.0 * label.in_percent()))
}
