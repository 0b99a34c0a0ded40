//! How far the need may lie from the likely: the same 4096 draws for every trip.
//!
//! Worked unrounded. Each input is triangular and drawn by its inverse, with only `+ - x /` and
//! square roots, so that every machine gets the same bits. Efficiency, water, amount and spill
//! are drawn once a kitchen and trip: a stove that is worse than thought is worse every day. Wind
//! is drawn once a camp-day (a supper to the next breakfast). A draw belongs to its input, camp
//! and day and never moves when another night is added: more nights never need less.

use super::fuel::Base;
use super::types::{Row, SpreadShare, Terms};
use crate::nouns::{Camp, Figures, Kitchen, WaterFrom};
use crate::units::{HeatingValue, Mass};
use std::borrow::Cow;

/// How many draws.
const DRAWS: usize = 4096;

/// The inputs, in the order in which equal shares are listed.
const INPUTS: [&str; 5] = ["efficiency", "wind", "water", "amount", "spill"];

/// The draws of a trip. Uniform draws between 0 and 1, each value once (the middle of each of
/// 4096 equal slices, in an order of its own for every input, camp and day), and what they mean
/// where that is the same for every kitchen.
#[derive(Clone, Debug)]
pub(crate) struct Draws {
    /// Uniform: what it means depends on the stove.
    efficiency: Vec<f64>,
    /// Kelvins that the water is warmer.
    water: Vec<f64>,
    /// Factors on the amount of water.
    amount: Vec<f64>,
    /// Shares that are spilt.
    spill: Vec<f64>,
    /// Factors on the wind factor, by camp, then day.
    wind: Vec<Vec<Vec<f64>>>,
}

/// The next number of a fixed sequence (SplitMix64: Steele, Lea and Flood, 2014).
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// The slices in the order that belongs to a key.
fn shuffled(key: u64) -> Vec<f64> {
    let mut state = key.wrapping_mul(0xd134_2543_de82_ef95);
    let mut slices: Vec<u16> = (0..DRAWS as u16).collect();
    for left in (1..DRAWS).rev() {
        let pick = (next(&mut state) % (left as u64 + 1)) as usize;
        slices.swap(left, pick);
    }
    slices
        .into_iter()
        .map(|slice| (f64::from(slice) + 0.5) / DRAWS as f64)
        .collect()
}

impl Draws {
    /// The draws for these camps; those of a camp and day are the same on every trip.
    pub(crate) fn new(camps: &[Camp], figures: &Figures) -> Self {
        let drawn = |key: u64, [low, likely, high]: [f64; 3]| -> Vec<f64> {
            let mut values = shuffled(key);
            for value in &mut values {
                *value = triangular(*value, low, likely, high);
            }
            values
        };
        let wind = camps
            .iter()
            .enumerate()
            .map(|(camp, at)| {
                (0..at.nights.max(1))
                    .map(|day| {
                        let key = 16 + camp as u64 * 1_000_003 + u64::from(day);
                        drawn(key, wind(figures))
                    })
                    .collect()
            })
            .collect();
        Self {
            efficiency: shuffled(1),
            water: drawn(2, water(figures)),
            amount: drawn(3, amount(figures)),
            spill: drawn(4, spill(figures)),
            wind,
        }
    }
}

/// Low, likely and high kelvins that the water is warmer.
fn water(figures: &Figures) -> [f64; 3] {
    let kelvins = figures.water_spread.value.kelvins();
    [-kelvins, 0.0, kelvins]
}

/// Low, likely and high factor on the amount of water.
fn amount(figures: &Figures) -> [f64; 3] {
    let share = figures.amount_spread.value.in_one();
    [1.0 - share, 1.0, 1.0 + share]
}

/// Low, likely and high factor on the wind factor.
fn wind(figures: &Figures) -> [f64; 3] {
    let share = figures.wind_spread.value.in_one();
    [1.0 - share, 1.0, 1.0 + share]
}

/// Low, likely and high share that is spilt.
fn spill(figures: &Figures) -> [f64; 3] {
    let likely = figures.spill_likely.value.in_one();
    [0.0, likely, figures.spill_most.value.in_one().max(likely)]
}

/// A value of a triangular distribution for a uniform draw.
fn triangular(u: f64, low: f64, likely: f64, high: f64) -> f64 {
    let width = high - low;
    if width <= 0.0 {
        return likely;
    }
    if u * width < likely - low {
        low + (u * width * (likely - low)).sqrt()
    } else {
        high - ((1.0 - u) * width * (high - likely)).sqrt()
    }
}

/// What a camp-day needs, summed over its rows; heats in joules.
struct Day {
    camp: usize,
    day: usize,
    amount: f64,
    amount_per_kelvin: f64,
    pot: f64,
    pot_per_kelvin: f64,
    /// 1 / (wind factor x heating value), kg/J.
    per_joule: f64,
    /// The water can get no warmer than by this: snow stays snow.
    warmest: f64,
}

/// Something held at the boil on the whole leg.
struct Hold {
    power: f64,
    least: f64,
    seconds: f64,
}

/// A leg's need as a closed formula of the uncertain inputs.
struct Need {
    days: Vec<Day>,
    holds: Vec<Hold>,
    to_light_kg: f64,
    heating: f64,
}

/// Which inputs move and which stay at their likely values.
#[derive(Clone, Copy)]
struct Moving([bool; 5]);

/// The need at a percentile and the share that each input has in the spread.
pub(crate) struct Spread {
    /// Need at the confidence asked for.
    pub(crate) at_confidence: Mass,
    /// Shares of the variance, largest first; empty where nothing is burnt.
    pub(crate) shares: Vec<SpreadShare>,
}

/// Draws the need of a leg's rows; the shares take five times as long, and are left out where
/// nobody reads them.
pub(crate) fn draw(
    base: &Base<'_>,
    rows: &[&Row],
    kitchen: &Kitchen,
    heating: HeatingValue,
) -> Spread {
    let need = gather(rows, &base.trip.camps, heating);
    let Some(still) = rows.first().map(|row| row.still_efficiency.in_one()) else {
        return Spread {
            at_confidence: Mass::ZERO,
            shares: Vec::new(),
        };
    };
    let context = Context {
        kitchen,
        figures: &base.library.figures,
        still,
        draws: &base.draws,
    };
    let mut all = context.evaluate(&need, Moving([true; 5]));
    let rank = (base.trip.confidence.in_one() * DRAWS as f64).ceil() as usize;
    let (_, at_confidence, _) =
        all.select_nth_unstable_by(rank.clamp(1, DRAWS) - 1, f64::total_cmp);
    let at_confidence = *at_confidence;

    if !base.with_shares {
        return Spread {
            at_confidence: Mass::kilograms(at_confidence),
            shares: Vec::new(),
        };
    }
    let mut shares: Vec<SpreadShare> = INPUTS
        .iter()
        .enumerate()
        .map(|(index, input)| {
            let mut moving = [false; 5];
            moving[index] = true;
            SpreadShare {
                input,
                share: variance(&context.evaluate(&need, Moving(moving))),
            }
        })
        .collect();
    let whole: f64 = shares.iter().map(|one| one.share).sum();
    if whole > 0.0 {
        for one in &mut shares {
            one.share /= whole;
        }
        shares.sort_by(|a, b| b.share.total_cmp(&a.share));
    } else {
        shares.clear();
    }
    Spread {
        at_confidence: Mass::kilograms(at_confidence),
        shares,
    }
}

fn variance(values: &[f64]) -> f64 {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / values.len() as f64
}

/// Sums the rows by camp-day.
fn gather(rows: &[&Row], camps: &[Camp], heating: HeatingValue) -> Need {
    let heating = heating.in_joules_per_kilogram();
    let mut need = Need {
        days: Vec::new(),
        holds: Vec::new(),
        to_light_kg: 0.0,
        heating,
    };
    for row in rows {
        let terms: &Terms = &row.terms;
        let camp = &camps[row.camp];
        let nights = camp.nights.max(1);
        need.to_light_kg += terms.to_light.in_kilograms() * f64::from(row.times);
        for power in &terms.hold {
            let (power, least) = (power.in_watts(), terms.least.in_watts());
            let seconds = terms.hold_time.in_seconds() * f64::from(row.times);
            match need
                .holds
                .iter_mut()
                .find(|one| one.power == power && one.least == least)
            {
                Some(one) => one.seconds += seconds,
                None => need.holds.push(Hold {
                    power,
                    least,
                    seconds,
                }),
            }
        }
        let warmest = if camp.water_from == WaterFrom::Snow {
            (-camp.water.in_celsius()).max(0.0)
        } else {
            f64::INFINITY
        };
        for day in 0..nights {
            // One a day; what does not go round falls on the first days.
            let times = row.times / nights + u32::from(day < row.times % nights);
            if times == 0 {
                continue;
            }
            let times = f64::from(times);
            let at = (row.camp, day as usize);
            let index = match need.days.iter().position(|one| (one.camp, one.day) == at) {
                Some(index) => index,
                None => {
                    need.days.push(Day {
                        camp: at.0,
                        day: at.1,
                        amount: 0.0,
                        amount_per_kelvin: 0.0,
                        pot: 0.0,
                        pot_per_kelvin: 0.0,
                        per_joule: 1.0 / (row.wind_factor * heating),
                        warmest,
                    });
                    need.days.len() - 1
                }
            };
            let sum = &mut need.days[index];
            sum.amount += terms.amount.in_joules() * times;
            sum.amount_per_kelvin += terms.amount_per_kelvin.in_joules() * times;
            sum.pot += terms.pot.in_joules() * times;
            sum.pot_per_kelvin += terms.pot_per_kelvin.in_joules() * times;
        }
    }
    need
}

/// What the draws mean for one kitchen.
struct Context<'a> {
    kitchen: &'a Kitchen,
    figures: &'a Figures,
    still: f64,
    draws: &'a Draws,
}

impl Context<'_> {
    fn efficiency(&self, u: f64) -> f64 {
        let still = self.still;
        if self.kitchen.measured.is_some() {
            let spread = self.figures.measured_spread.value.in_one();
            still * triangular(u, 1.0 - spread, 1.0, 1.0 + spread)
        } else {
            let range = self.kitchen.stove.efficiency;
            triangular(
                u,
                range.low.in_one(),
                range.likely.in_one(),
                range.high.in_one(),
            )
        }
    }

    /// The need in kilograms for each draw.
    fn evaluate(&self, need: &Need, Moving(moving): Moving) -> Vec<f64> {
        let [efficiency, windy, watery, amounts, spilling] = moving;
        let figures = self.figures;
        let e: Vec<f64> = if efficiency {
            self.draws
                .efficiency
                .iter()
                .map(|u| self.efficiency(*u))
                .collect()
        } else {
            vec![self.still; DRAWS]
        };
        let warmer = drawn(watery, &self.draws.water, water(figures));
        let more = drawn(amounts, &self.draws.amount, amount(figures));
        let spills = drawn(spilling, &self.draws.spill, spill(figures));

        let mut all = vec![0.0; DRAWS];
        for day in &need.days {
            let gusts = drawn(windy, &self.draws.wind[day.camp][day.day], wind(figures));
            for k in 0..DRAWS {
                let dt = warmer[k].min(day.warmest);
                let heat = more[k] * (day.amount - dt * day.amount_per_kelvin).max(0.0)
                    + (day.pot - dt * day.pot_per_kelvin).max(0.0);
                all[k] += heat * day.per_joule / (e[k] * gusts[k]);
            }
        }
        for hold in &need.holds {
            for k in 0..DRAWS {
                let flame = (hold.power / e[k]).max(hold.least);
                all[k] += flame * hold.seconds / need.heating;
            }
        }
        for k in 0..DRAWS {
            all[k] = (all[k] + need.to_light_kg) * (1.0 + spills[k]);
        }
        all
    }
}

/// The draws of an input that moves, or its likely value every time.
fn drawn(moves: bool, values: &[f64], [_, likely, _]: [f64; 3]) -> Cow<'_, [f64]> {
    if moves {
        Cow::Borrowed(values)
    } else {
        Cow::Owned(vec![likely; DRAWS])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_triangular_draw_has_the_moments_of_the_textbook() {
        // Mean (a + b + c) / 3, variance (a2 + b2 + c2 - ab - ac - bc) / 18: NIST/SEMATECH and
        // every statistics text; from memory.
        let (a, c, b) = (0.30, 0.42, 0.52);
        let drawn: Vec<f64> = shuffled(1)
            .iter()
            .map(|u| triangular(*u, a, c, b))
            .collect();
        let mean = drawn.iter().sum::<f64>() / DRAWS as f64;
        assert!((mean - (a + b + c) / 3.0).abs() < 1e-5);
        let expected = (a * a + b * b + c * c - a * b - a * c - b * c) / 18.0;
        assert!((variance(&drawn) / expected - 1.0).abs() < 1e-3);
    }

    #[test]
    fn two_inputs_are_drawn_in_unrelated_orders() {
        for (one, other) in [(1, 2), (1, 16), (16, 17), (3, 1_000_019)] {
            let (x, y) = (shuffled(one), shuffled(other));
            let covariance: f64 = x.iter().zip(&y).map(|(x, y)| (x - 0.5) * (y - 0.5)).sum();
            // Four standard errors of a correlation of 4096 unrelated pairs.
            assert!((covariance * 12.0 / DRAWS as f64).abs() < 4.0 / 64.0);
        }
    }
}
