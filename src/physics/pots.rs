//! How an amount of water is boiled in the pots there are.

use crate::units::{Fraction, Volume};

/// What two volumes may differ by and still be the same, litres: far below what anyone measures,
/// far above what sums of decimals in binary go wrong by.
const SAME_L: f64 = 1e-9;

/// A last batch smaller than this share of a potful is not boiled on its own.
const NOT_WORTH_A_BATCH: f64 = 0.1;

/// The batches in which an amount is boiled: for each the pot (index into `capacities`) and the
/// water in it, in the order of boiling.
///
/// Formula: a pot holds capacity x fill. The largest pot is filled while more is left than any
/// pot holds; what is left takes the smallest pot that holds it; a last batch under a tenth of
/// a potful of the largest pot is shared equally among the others, if there are any.
///
/// Valid: capacities and fill above 0. No pot, or no water: no batches. Volumes that differ by
/// less than 1e-9 L are equal, so that 1.5 L fits a 2 L pot filled to 0.75.
///
/// Source: a rule of this tool (assumption): largest pot first, no pot lit for a splash.
///
/// Example: 4.0 L in pots of 3 L and 1.5 L at 0.75: 2.25 L in the large one, then 1.75 L in it again.
/// ```
/// use leeside::physics::pots::batches;
/// use leeside::units::{Fraction, Volume};
/// let pots = [Volume::litres(3.0), Volume::litres(1.5)];
/// let plan = batches(Volume::litres(4.0), &pots, Fraction::of_one(0.75));
/// assert_eq!(plan, [(0, Volume::litres(2.25)), (0, Volume::litres(1.75))]);
/// ```
#[must_use]
pub fn batches(amount: Volume, capacities: &[Volume], fill: Fraction) -> Vec<(usize, Volume)> {
    batches_capped(amount, capacities, fill, Volume::litres(f64::INFINITY))
}

/// As [`batches`], where no batch may be larger than a cap: what one filling of an alcohol
/// burner can boil.
///
/// Formula: as [`batches`] where no pot holds more than the cap. Else as few batches as the cap
/// allows, all equal, in the first pot that holds the cap: a splash of its own would take a filling
/// and a wait of its own, and a burner that runs out before the boil tempts someone to refill it
/// hot.
///
/// Valid: capacities, fill and cap above 0; no pot, no water or no cap left: no batches.
///
/// Source: a rule of this tool (assumption).
///
/// Example: 1.5 L in a 2 L pot with a burner that boils 0.9 L a filling: two batches.
/// ```
/// use leeside::physics::pots::batches_capped;
/// use leeside::units::{Fraction, Volume};
/// let cap = Volume::litres(0.9);
/// let plan = batches_capped(Volume::litres(1.5), &[Volume::litres(2.0)], Fraction::of_one(0.75), cap);
/// assert_eq!(plan, [(0, Volume::litres(0.75)), (0, Volume::litres(0.75))]);
/// ```
#[must_use]
pub fn batches_capped(
    amount: Volume,
    capacities: &[Volume],
    fill: Fraction,
    cap: Volume,
) -> Vec<(usize, Volume)> {
    let holds: Vec<f64> = capacities
        .iter()
        .map(|capacity| (*capacity * fill.in_one()).min(cap).in_litres())
        .collect();
    // The first of equal pots, both ways.
    let Some(largest) = (0..holds.len())
        .rev()
        .max_by(|a, b| holds[*a].total_cmp(&holds[*b]))
    else {
        return Vec::new();
    };
    let potful = holds[largest];
    let litres = amount.in_litres();
    let workable = potful.is_finite() && potful > SAME_L && litres.is_finite() && litres > SAME_L;
    if !workable {
        return Vec::new();
    }

    if potful >= cap.in_litres() - SAME_L && litres > potful + SAME_L {
        let count = (litres / potful - SAME_L).ceil().max(1.0);
        return vec![(largest, Volume::litres(litres / count)); count as usize];
    }

    let mut batches = Vec::new();
    // Taken from the whole each time: thousands of subtractions would gather their errors.
    let left = |filled: usize| litres - potful * filled as f64;
    while left(batches.len()) > potful + SAME_L {
        batches.push((largest, potful));
    }
    let rest = left(batches.len());
    let share = rest / batches.len() as f64;
    let splash = !batches.is_empty() && rest < NOT_WORTH_A_BATCH * potful - SAME_L;
    if splash && potful + share > cap.in_litres() + SAME_L {
        let count = batches.len() + 1;
        return vec![(largest, Volume::litres(litres / count as f64)); count];
    }
    if splash {
        for (_, water) in &mut batches {
            *water += share;
        }
    } else {
        let smallest = (0..holds.len())
            .filter(|pot| holds[*pot] >= rest - SAME_L)
            .min_by(|a, b| holds[*a].total_cmp(&holds[*b]))
            .unwrap_or(largest);
        batches.push((smallest, rest));
    }
    batches
        .into_iter()
        .map(|(pot, water)| (pot, Volume::litres(water)))
        .collect()
}
