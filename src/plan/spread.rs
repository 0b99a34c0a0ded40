//! How far the need may lie from the likely: the same 4096 draws for every trip.
//!
//! Worked unrounded. Each input is triangular and drawn by its inverse; a heating is worked again for
//! every draw, its logarithm by a fraction of polynomials: only `+ - x /` and square roots, so that
//! every machine gets the same bits. Efficiency, water, amount, spill, the pot's loss and one factor of
//! the wind are drawn once a kitchen and trip: a stove that is worse than thought is worse every day.
//! A second factor of the wind, and whether the day is a class windier or calmer than said, are drawn
//! once a camp-day (a supper to the next breakfast). A draw belongs to its input, camp and day and
//! never moves when another night is added: more nights never need less.

use super::terms::{HeatTerm, HoldTerm, TermWind};
use super::types::{Row, SpreadShare};
use crate::nouns::{Camp, Figures, Kitchen, Trip};
use crate::physics::heating::Loss;
use crate::units::{Fraction, HeatingValue, Mass, Temperature, Warming};
use std::borrow::Cow;

/// How many draws.
const DRAWS: usize = 4096;

/// The inputs, in the order in which equal shares are listed.
const INPUTS: [&str; 6] = ["efficiency", "wind", "water", "amount", "spill", "loss"];

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
    /// Factors on what reaches a pot, for the whole trip.
    trip_wind: Vec<f64>,
    /// Factors on a pot's loss and on a burner's least flame.
    loss: Vec<f64>,
    /// What the wind of a camp-day is, by camp, then day.
    days: Vec<Vec<DayWind>>,
}

/// The wind of one camp-day in every draw.
#[derive(Clone, Debug)]
struct DayWind {
    /// Factors on what reaches a pot.
    factor: Vec<f64>,
    /// Which wind it is: 0 the next calmer, 1 the one said, 2 the next windier.
    class: Vec<u8>,
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
        let other = figures.other_wind.value.in_one();
        let day_wind = |camp: usize, day: u32| {
            let key = 16 + camp as u64 * 1_000_003 + u64::from(day);
            let class = shuffled(key + 500_009)
                .into_iter()
                .map(|u| {
                    if u < other {
                        2
                    } else {
                        u8::from(u < 1.0 - other)
                    }
                })
                .collect();
            DayWind {
                factor: drawn(key, around(figures.wind_spread.value)),
                class,
            }
        };
        let days = camps
            .iter()
            .enumerate()
            .map(|(camp, at)| {
                (0..at.nights.max(1))
                    .map(|day| day_wind(camp, day))
                    .collect()
            })
            .collect();
        Self {
            efficiency: shuffled(1),
            water: drawn(2, water(figures)),
            amount: drawn(3, around(figures.amount_spread.value)),
            spill: drawn(4, spill(figures)),
            trip_wind: drawn(5, around(figures.trip_wind_spread.value)),
            loss: drawn(6, around(figures.loss_spread.value)),
            days,
        }
    }
}

/// Low, likely and high kelvins that the water is warmer.
fn water(figures: &Figures) -> [f64; 3] {
    let kelvins = figures.water_spread.value.kelvins();
    [-kelvins, 0.0, kelvins]
}

/// Low, likely and high factor of something that may be off by a share of itself.
fn around(share: Fraction) -> [f64; 3] {
    let share = share.in_one();
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

/// A potful as the draws heat it: W, J/K, °C.
struct Pot {
    times: f64,
    water: f64,
    pot: f64,
    /// Heat to warm the ice by a kelvin and to melt it, where it is snow.
    snow: Option<(f64, f64)>,
    start: f64,
    end: f64,
    air: f64,
    /// The flame, W of fuel.
    power: f64,
    winds: [PotWind; 3],
    /// Heat of the fuel that counts where it does not boil.
    unboiled: f64,
}

/// A potful in one wind.
#[derive(Clone, Copy)]
struct PotWind {
    flow: f64,
    each: f64,
    /// What evaporates without a lid: at the middles of equal steps of the way, and at its end.
    open: Option<([f64; OPEN_STEPS], f64)>,
}

/// Steps of the way of an open pot in a draw.
const OPEN_STEPS: usize = 8;

/// A camp-day's potfuls and holds.
struct Day {
    camp: usize,
    day: usize,
    pots: Vec<Pot>,
    holds: Vec<(f64, HoldTerm)>,
}

/// A leg's need as a function of the uncertain inputs.
struct Need {
    days: Vec<Day>,
    to_light_kg: f64,
    heating: f64,
    margin: f64,
}

/// Which inputs move and which stay at their likely values.
#[derive(Clone, Copy)]
struct Moving([bool; 6]);

/// The need at a percentile and the share that each input has in the spread.
pub(crate) struct Spread {
    /// Need at the confidence asked for.
    pub(crate) at_confidence: Mass,
    /// Shares of the variance, largest first; empty where nothing is burnt.
    pub(crate) shares: Vec<SpreadShare>,
    /// Share of the draws in which some pot does not boil.
    pub(crate) may_fail: Fraction,
}

/// What all draws give.
struct Drawn {
    kilograms: Vec<f64>,
    unboiled: usize,
}

/// Draws the need of a leg's rows; the shares take five times as long, and are left out where
/// nobody reads them.
pub(crate) fn draw(
    trip: &Trip,
    (figures, draws): (&Figures, &Draws),
    with_shares: bool,
    rows: &[&Row],
    kitchen: &Kitchen,
    heating: HeatingValue,
) -> Spread {
    let need = gather(rows, &trip.camps, heating, figures);
    if rows.is_empty() {
        return Spread {
            at_confidence: Mass::ZERO,
            shares: Vec::new(),
            may_fail: Fraction::ZERO,
        };
    }
    let context = Context {
        kitchen,
        figures,
        draws,
    };
    let mut all = context.evaluate(&need, Moving([true; 6]));
    let may_fail = Fraction::of_one(all.unboiled as f64 / DRAWS as f64);
    let rank = (trip.confidence.in_one() * DRAWS as f64).ceil() as usize;
    let (_, at_confidence, _) = all
        .kilograms
        .select_nth_unstable_by(rank.clamp(1, DRAWS) - 1, f64::total_cmp);
    let at_confidence = *at_confidence;

    if !with_shares {
        return Spread {
            at_confidence: Mass::kilograms(at_confidence),
            shares: Vec::new(),
            may_fail,
        };
    }
    let mut shares: Vec<SpreadShare> = INPUTS
        .iter()
        .enumerate()
        .map(|(index, input)| {
            let mut moving = [false; 6];
            moving[index] = true;
            SpreadShare {
                input,
                share: variance(&context.evaluate(&need, Moving(moving)).kilograms),
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
        may_fail,
    }
}

fn variance(values: &[f64]) -> f64 {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / values.len() as f64
}

/// Sorts the rows' potfuls and holds by camp-day.
fn gather(rows: &[&Row], camps: &[Camp], heating: HeatingValue, figures: &Figures) -> Need {
    let mut need = Need {
        days: Vec::new(),
        to_light_kg: 0.0,
        heating: heating.in_joules_per_kilogram(),
        margin: figures.boil_margin.value,
    };
    for row in rows {
        let nights = camps[row.camp].nights.max(1);
        need.to_light_kg += row.terms.to_light.in_kilograms() * f64::from(row.times);
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
                        pots: Vec::new(),
                        holds: Vec::new(),
                    });
                    need.days.len() - 1
                }
            };
            let day = &mut need.days[index];
            let pots = row.terms.heating.iter();
            day.pots
                .extend(pots.map(|term| pot(term, times, figures.unboiled.value)));
            let holds = row.terms.holds.iter();
            day.holds
                .extend(holds.map(|term| (term.count * times, *term)));
        }
    }
    need
}

/// A potful as the draws heat it.
fn pot(term: &HeatTerm, times: f64, unboiled: f64) -> Pot {
    let of = &term.potful;
    let kilograms = of.water.in_kilograms();
    let from = if of.snow.is_some() {
        Temperature::celsius(0.0)
    } else {
        of.start
    };
    let rise = (of.end - from).max(Warming::ZERO).kelvins();
    let open = |loss: &Loss| {
        loss.open.map(|open| {
            let mut middles = [0.0; OPEN_STEPS];
            for (step, middle) in middles.iter_mut().enumerate() {
                let way = (step as f64 + 0.5) / OPEN_STEPS as f64;
                let at = from + Warming::of_kelvins(rise * way);
                *middle = open.evaporation(at).in_watts();
            }
            (middles, open.evaporation(of.end).in_watts())
        })
    };
    Pot {
        times: term.count * times,
        water: of.water_heat.in_joules_per_kilogram_kelvin() * kilograms,
        pot: of.pot_joules_per_kelvin,
        snow: of.snow.map(|snow| {
            (
                snow.heat.in_joules_per_kilogram_kelvin() * kilograms,
                snow.fusion.in_joules_per_kilogram() * kilograms,
            )
        }),
        start: of.start.in_celsius(),
        end: of.end.in_celsius(),
        air: term.winds[1].loss.air.in_celsius(),
        power: term.power.in_watts(),
        winds: term.winds.map(|TermWind { flow, loss }| PotWind {
            flow: flow.in_watts(),
            each: loss.watts_per_kelvin,
            open: open(&loss),
        }),
        unboiled: unboiled * term.likely.in_joules(),
    }
}

/// Mean of what stays between a flow at the start and one at the end, both above zero: their
/// logarithmic mean, the inverse hyperbolic tangent by a fraction of polynomials (Padé; 0.06 % off
/// where one is eight times the other).
fn mean(first: f64, last: f64) -> f64 {
    let sum = first + last;
    let y = (first - last) / sum;
    let z = y * y;
    let over = 945.0 + z * (225.0 * z - 1050.0);
    let under = 945.0 + z * (64.0 * z - 735.0);
    0.5 * sum * over / under
}

/// What a draw makes of a potful.
struct Draw {
    /// Factor on what reaches the pot.
    through: f64,
    /// Kelvins that water or snow are warmer.
    warmer: f64,
    /// Factor on the amount of water.
    more: f64,
    /// Factor on the pot's loss.
    loss: f64,
    margin: f64,
}

impl Pot {
    /// Seconds to its end in one wind; none where it never gets there.
    fn seconds(&self, wind: &PotWind, draw: &Draw) -> Option<f64> {
        let flow = wind.flow * draw.through;
        let each = wind.each * draw.loss;
        let evaporates = wind.open.map_or(0.0, |(_, end)| end * draw.loss);
        let at_end = each * (self.end - self.air) + evaporates;
        let stays = |at: f64| flow - each * (at - self.air);
        let mut seconds = 0.0;
        let mut from = self.start + draw.warmer;
        if self.snow.is_none() && from >= self.end {
            return Some(0.0);
        }
        if at_end > 0.0 && flow < draw.margin * at_end {
            return None;
        }
        if let Some((ice, melt)) = self.snow {
            from = from.min(0.0);
            let at_zero = stays(0.0);
            if at_zero <= 0.0 || stays(from) <= 0.0 {
                return None;
            }
            if from < 0.0 {
                let heat = (ice * draw.more + self.pot) * -from;
                seconds += heat / mean(stays(from), at_zero);
            }
            seconds += melt * draw.more / at_zero;
            from = 0.0;
        }
        let heat = (self.water * draw.more + self.pot) * (self.end - from);
        match wind.open {
            None => seconds += heat / mean(stays(from), stays(self.end)),
            Some((middles, _)) => {
                let step = 1.0 / OPEN_STEPS as f64;
                for (index, evaporates) in middles.iter().enumerate() {
                    let at = from + (self.end - from) * step * (index as f64 + 0.5);
                    let net = stays(at) - evaporates * draw.loss;
                    if net <= 0.0 {
                        return None;
                    }
                    seconds += heat * step / net;
                }
            }
        }
        Some(seconds)
    }
}

/// What the draws mean for one kitchen.
struct Context<'a> {
    kitchen: &'a Kitchen,
    figures: &'a Figures,
    draws: &'a Draws,
}

impl Context<'_> {
    /// Factor on the efficiency for a uniform draw.
    fn efficiency(&self, u: f64) -> f64 {
        if let Some(measured) = self.kitchen.measured {
            let spread = measured
                .spread
                .unwrap_or(self.figures.measured_spread.value);
            let [low, likely, high] = around(spread);
            triangular(u, low, likely, high)
        } else {
            let range = self.kitchen.stove.efficiency;
            let likely = range.likely.in_one();
            triangular(
                u,
                range.low.in_one() / likely,
                1.0,
                range.high.in_one() / likely,
            )
        }
    }

    /// The need in kilograms for each draw.
    fn evaluate(&self, need: &Need, Moving(moving): Moving) -> Drawn {
        let [efficiency, windy, watery, amounts, spilling, losing] = moving;
        let figures = self.figures;
        let still = [1.0; 3];
        let e: Vec<f64> = if efficiency {
            self.draws
                .efficiency
                .iter()
                .map(|u| self.efficiency(*u))
                .collect()
        } else {
            vec![1.0; DRAWS]
        };
        let warmer = drawn(watery, &self.draws.water, water(figures));
        let more = drawn(amounts, &self.draws.amount, still);
        let spills = drawn(spilling, &self.draws.spill, spill(figures));
        let trip_wind = drawn(windy, &self.draws.trip_wind, still);
        let losses = drawn(losing, &self.draws.loss, still);

        let mut joules = vec![0.0; DRAWS];
        let mut fails = vec![false; DRAWS];
        for day in &need.days {
            let wind = &self.draws.days[day.camp][day.day];
            let gusts = drawn(windy, &wind.factor, still);
            for k in 0..DRAWS {
                let class = if windy { usize::from(wind.class[k]) } else { 1 };
                let draw = Draw {
                    through: e[k] * trip_wind[k] * gusts[k],
                    warmer: warmer[k],
                    more: more[k],
                    loss: losses[k],
                    margin: need.margin,
                };
                let mut sum = 0.0;
                for pot in &day.pots {
                    sum += pot.times
                        * match pot.seconds(&pot.winds[class], &draw) {
                            Some(seconds) => seconds * pot.power,
                            None => {
                                fails[k] = true;
                                pot.unboiled
                            }
                        };
                }
                for (times, hold) in &day.holds {
                    let flame =
                        hold.lost[class].in_watts() * draw.loss / (hold.share.in_one() * e[k]);
                    let flame = flame.max(hold.least.in_watts() * draw.loss);
                    sum += times * flame * hold.time.in_seconds();
                }
                joules[k] += sum;
            }
        }
        let kilograms = joules
            .iter()
            .zip(spills.iter())
            .map(|(joules, spill)| (joules / need.heating + need.to_light_kg) * (1.0 + spill))
            .collect();
        Drawn {
            kilograms,
            unboiled: fails.iter().filter(|fails| **fails).count(),
        }
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
