//! A kitchen's canisters burnt through a leg, meal by meal: which is in use, how cold, how it does.

use super::burns::{Memory, Under};
use super::cans::{Can, NOTHING, open};
use super::types::{CampPlan, KitchenPlan, Row};
use crate::nouns::{
    Camp, Family, Feed, Figures, Geometry, Kitchen, Library, Meal, Screen, Trip, Verdict, Wind,
};
use crate::physics::burn::{Around, Burner, Burnt, Gas, Moment, burn_lump};
use crate::physics::heating::heat;
use crate::physics::vapour::{Liquid, bubble_pressure_raoult};
use crate::units::{Fraction, HeatingValue, Mass, Power, Pressure, Temperature, Time};
use std::collections::BTreeSet;
use std::ops::Range;

/// The burns of one plan that were worked out before.
pub(crate) type Burns = Memory<Went>;

/// A burn that takes this many times as long as at full power is given up.
const GIVEN_UP: f64 = 40.0;

/// Heat from the air into a canister, W/(m2 K): a class calmer in a screen's lee, not outside it.
pub(crate) fn film(figures: &Figures, wind: Wind, screen: Screen) -> f64 {
    let at = match (screen, wind) {
        (Screen::Natural | Screen::Partial, Wind::Breezy) => Wind::Calm,
        (Screen::Natural | Screen::Partial, Wind::Windy) => Wind::Breezy,
        _ => wind,
    };
    figures.canister_film.value.get(&at).copied().unwrap_or(0.0)
}

/// What a burner gives back to its canister at the family's power.
pub(crate) fn warmth(figures: &Figures, family: Family, geometry: Geometry) -> Power {
    let over_it = geometry == Geometry::OnCanister || family == Family::HeatExchanger;
    if over_it && family != Family::CanisterBeside {
        figures.burner_warmth.value
    } else {
        Power::ZERO
    }
}

/// A gas as the burn needs it.
pub(crate) fn gas(figures: &Figures, heating_value: HeatingValue, residue: Mass) -> Gas {
    Gas {
        latent: figures.gas_latent.value,
        liquid_heat: figures.gas_heat.value,
        steel_heat: figures.steel_heat.value,
        heating_value,
        residue,
    }
}

/// One use of the stove, in order of time.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turn<'a> {
    /// Index of its row.
    pub(super) at: usize,
    row: &'a Row,
    /// Fuel and shell when it is lit.
    start: Temperature,
    around: Around,
    /// What its burns hang on, as the memory of burns numbers it.
    under: usize,
}

/// How one turn went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Judged {
    /// Index of its row.
    pub(super) at: usize,
    /// Index among the kitchen's containers, and which of those alike.
    pub(super) container: usize,
    pub(super) number: u32,
    /// What was in it when it was lit.
    pub(super) liquid: Liquid,
    /// Fuel when it was lit.
    pub(super) start: Temperature,
    /// Fuel at the end, never below where the gauge is zero.
    pub(super) end: Temperature,
    pub(super) gauge_start: Pressure,
    pub(super) gauge_low: Pressure,
    /// Mean power while it heats.
    pub(super) mean: Power,
    pub(super) verdict: Verdict,
}

/// A kitchen's stove on its canisters, and the turns of a leg.
#[derive(Clone, Debug)]
pub(super) struct Leg<'a> {
    feed: Feed,
    least_gauge: Pressure,
    burner: Burner,
    heating_value: HeatingValue,
    figures: &'a Figures,
    /// Heat into a pot must be this many times what it loses at the end.
    margin: f64,
    turns: Vec<Turn<'a>>,
    burns: &'a Burns,
}

/// The air when a meal is cooked.
pub(super) fn air_at(camp: &Camp, meal: Meal) -> Temperature {
    if meal == Meal::Breakfast {
        camp.night
    } else {
        camp.day
    }
}

/// How hot the fuel is when a meal is lit.
pub(super) fn start_at(camp: &Camp, meal: Meal) -> Temperature {
    camp.fuel_temperature.unwrap_or_else(|| air_at(camp, meal))
}

/// A kitchen's burner at full power.
pub(super) fn burner(kitchen: &Kitchen, library: &Library) -> Burner {
    let stove = &kitchen.stove;
    let figures = &library.figures;
    Burner {
        set: stove.power,
        family: library
            .stoves
            .get(&stove.id)
            .map_or(stove.power, |stove| stove.power),
        open: figures.open_valve.value,
        regulated: stove.regulated.then_some(figures.regulator_gauge.value),
    }
}

impl<'a> Leg<'a> {
    /// The turns of a kitchen's rows at some camps: night by night, breakfast last.
    pub(super) fn of(
        trip: &'a Trip,
        library: &'a Library,
        kitchen: &'a Kitchen,
        plan: &'a KitchenPlan,
        camps: &[CampPlan],
        range: Range<usize>,
        burns: &'a Burns,
    ) -> Self {
        let heating_value = plan.fuel.heating_value;
        let figures = &library.figures;
        let stove = &kitchen.stove;
        let burner = burner(kitchen, library);
        let turn = |at: usize, row: &'a Row, camp: &Camp, pressure: Pressure| {
            let start = start_at(camp, row.meal);
            let around = Around {
                air: air_at(camp, row.meal),
                pressure,
                film: film(figures, camp.wind, kitchen.screen),
                warmth: warmth(figures, stove.family, stove.geometry),
            };
            let under = burns.number(Under {
                feed: kitchen.feed,
                least_gauge: stove.least_gauge,
                burner,
                heating_value,
                start,
                around,
                pots: &row.terms,
            });
            Turn {
                at,
                row,
                start,
                around,
                under,
            }
        };
        let mut turns = Vec::new();
        for index in range {
            let (camp, air) = (&trip.camps[index], &camps[index]);
            let nights = camp.nights.max(1);
            let of_camp = || {
                let mine = plan.rows.iter().enumerate();
                mine.filter(|(_, row)| row.camp == index && row.fuel > Mass::ZERO)
            };
            let breakfast = |row: &Row| row.meal == Meal::Breakfast;
            let before = of_camp().filter(|(_, row)| !breakfast(row));
            let mine: Vec<(Turn<'a>, u32)> = before
                .chain(of_camp().filter(|(_, row)| breakfast(row)))
                .map(|(at, row)| (turn(at, row, camp, air.pressure), row.times))
                .collect();
            for night in 0..nights {
                for (turn, times) in &mine {
                    // so many of its times fall on this night
                    let until =
                        |night: u32| u64::from(*times) * u64::from(night) / u64::from(nights);
                    turns.extend((until(night)..until(night + 1)).map(|_| *turn));
                }
            }
        }
        Self {
            feed: kitchen.feed,
            least_gauge: stove.least_gauge,
            burner,
            heating_value,
            figures,
            margin: figures.boil_margin.value,
            turns,
            burns,
        }
    }

    /// The turns, in order of time.
    pub(super) fn turns(&self) -> &[Turn<'a>] {
        &self.turns
    }

    /// Burns the canisters turn by turn, each with the first that does it well enough; a turn that
    /// none does alone takes one after the other.
    pub(super) fn judge(&self, cans: &mut Vec<Can>) -> Vec<Judged> {
        let mut judged = Vec::with_capacity(self.turns.len());
        for turn in &self.turns {
            judged.extend(self.turn(turn, cans));
        }
        judged
    }

    /// The rows that a fresh canister does not do well enough at every one of its turns.
    pub(super) fn not_done_by(&self, fresh: &Can) -> BTreeSet<usize> {
        let mut seen = BTreeSet::new();
        self.turns
            .iter()
            .filter(|turn| seen.insert(turn.at))
            .filter(|turn| {
                let went = self.tried(turn, fresh, 1.0);
                // what empties a canister takes more than one, which may do it
                !went.verdict.does() && !went.emptied
            })
            .map(|turn| turn.at)
            .collect()
    }

    /// Whether canisters do every turn well enough, but those of some rows.
    pub(super) fn does(&self, cans: &mut Vec<Can>, but: &BTreeSet<usize>) -> bool {
        self.turns.iter().all(|turn| {
            let judged = self.turn(turn, cans);
            but.contains(&turn.at) || judged.is_some_and(|one| one.verdict.does())
        })
    }

    /// One turn.
    fn turn(&self, turn: &Turn<'_>, cans: &mut Vec<Can>) -> Option<Judged> {
        let mut best: Option<(usize, Went)> = None;
        for (index, can) in cans.iter().enumerate() {
            let went = self.tried(turn, can, 1.0);
            let does = went.verdict.does();
            if best
                .as_ref()
                .is_none_or(|(_, best)| went.verdict < best.verdict)
            {
                best = Some((index, went));
            }
            if does {
                break;
            }
        }
        let (index, went) = best?;
        if went.verdict == Verdict::WillNotWork
            && let Some(judged) = self.one_after_the_other(turn, cans)
        {
            return Some(judged);
        }
        let judged = self.said(turn, &cans[index], &went);
        open(cans, index, went.after);
        Some(judged)
    }

    /// A turn that is more than one canister holds: each is burnt until it is empty.
    fn one_after_the_other(&self, turn: &Turn<'_>, cans: &mut Vec<Can>) -> Option<Judged> {
        let mut after = cans.clone();
        let mut share = 1.0;
        let (mut energy, mut time) = (0.0, 0.0);
        let mut said: Option<Judged> = None;
        let mut index = 0;
        while index < after.len() && share > 0.0 {
            // the last one stays in the list when it is empty
            if after[index].left() <= NOTHING {
                index += 1;
                continue;
            }
            let went = self.tried(turn, &after[index], share);
            if went.verdict == Verdict::WillNotWork && !went.emptied {
                index += 1;
                continue;
            }
            let judged = self.said(turn, &after[index], &went);
            said = Some(match said {
                Some(first) => Judged {
                    gauge_start: first.gauge_start,
                    liquid: first.liquid,
                    gauge_low: first.gauge_low.min(judged.gauge_low),
                    ..judged
                },
                None => judged,
            });
            // full ones that are alike do alike: all that are emptied are burnt at once
            let (part, alike) = if went.emptied {
                let part = went.time / heating_time(turn.row, went.mean, self.margin)?;
                let whole = (share / part - 1e-9).floor().max(1.0);
                let alike = if after[index].fresh {
                    whole.min(f64::from(after[index].alike) + 1.0)
                } else {
                    1.0
                };
                (part, alike)
            } else {
                (share, 1.0)
            };
            share -= part * alike;
            energy += went.mean.in_watts() * went.time.in_seconds() * alike;
            time += went.time.in_seconds() * alike;
            after[index].number += alike as u32 - 1;
            after[index].alike -= alike as u32 - 1;
            let before = after.len();
            open(&mut after, index, went.after);
            if after.len() >= before && !went.emptied {
                break;
            }
        }
        let mut judged = said.filter(|_| share <= 1e-9)?;
        judged.mean = Power::watts(energy / time);
        judged.verdict = Verdict::of_share(Fraction::of_one(judged.mean / self.burner.set));
        *cans = after;
        Some(judged)
    }

    fn said(&self, turn: &Turn<'_>, can: &Can, went: &Went) -> Judged {
        Judged {
            at: turn.at,
            container: can.container,
            number: can.number,
            liquid: can.liquid,
            start: turn.start,
            end: went.end,
            gauge_start: went.gauge_start,
            gauge_low: went.gauge_low,
            mean: went.mean,
            verdict: went.verdict,
        }
    }

    /// As [`Self::went`], of what was worked out before from memory.
    fn tried(&self, turn: &Turn<'_>, can: &Can, share: f64) -> Went {
        let burn = || self.went(turn, can, share, &mut |_| ());
        self.burns.of(turn.under, can, share, burn)
    }

    /// A share of a turn on one canister: the heating, then the holds at their own flame.
    pub(super) fn went(
        &self,
        turn: &Turn<'_>,
        can: &Can,
        share: f64,
        watch: &mut dyn FnMut(Moment),
    ) -> Went {
        match self.feed {
            Feed::Vapour => self.of_vapour(turn, can, share, watch),
            Feed::Liquid => self.of_liquid(turn, can, share),
        }
    }

    fn of_vapour(
        &self,
        turn: &Turn<'_>,
        can: &Can,
        share: f64,
        watch: &mut dyn FnMut(Moment),
    ) -> Went {
        let gas = gas(self.figures, self.heating_value, can.shell.residue);
        let full =
            heating_time(turn.row, self.burner.set, self.margin).unwrap_or(Time::ZERO) * share;
        let need = |power| heating_time(turn.row, power, self.margin).map(|time| time * share);
        let heated = burn_lump(
            &can.lump(turn.start),
            &turn.around,
            &self.burner,
            &gas,
            full * GIVEN_UP,
            need,
            &mut *watch,
        );
        let verdict = if heated.done || full <= Time::ZERO {
            Verdict::of_share(Fraction::of_one(heated.mean / self.burner.set))
        } else {
            Verdict::WillNotWork
        };
        let mut went = Went::of(&heated, verdict, can, turn);
        let (flame, held) = hold(turn.row);
        if held > Time::ZERO && verdict != Verdict::WillNotWork && share >= 1.0 {
            let burner = Burner {
                set: flame.min(self.burner.set),
                ..self.burner
            };
            let burnt = burn_lump(
                &heated.after,
                &turn.around,
                &burner,
                &gas,
                held,
                |_| Some(held),
                |moment| {
                    watch(Moment {
                        time: moment.time + heated.time,
                        ..moment
                    });
                },
            );
            went.gauge_low = went.gauge_low.min(burnt.gauge_low);
            went.end = not_below_zero_gauge(&burnt, can, turn);
            went.after = burnt.after.liquid;
            if burnt.emptied && !burnt.done {
                went.verdict = Verdict::WillNotWork;
            }
        }
        went
    }

    /// Turned over, a canister keeps its composition and, at the air's temperature, its pressure.
    fn of_liquid(&self, turn: &Turn<'_>, can: &Can, share: f64) -> Went {
        let pressure = bubble_pressure_raoult(&can.liquid, turn.start).unwrap_or(Pressure::ZERO);
        let gauge = pressure - turn.around.pressure;
        let time =
            heating_time(turn.row, self.burner.set, self.margin).unwrap_or(Time::ZERO) * share;
        let (flame, held) = hold(turn.row);
        let energy = self.burner.set * time + flame * held * share;
        let drawn =
            Mass::kilograms(energy.in_joules() / self.heating_value.in_joules_per_kilogram());
        let works = gauge >= self.least_gauge;
        let emptied = works && drawn > can.left();
        let drawn = if works {
            drawn.min(can.left())
        } else {
            Mass::ZERO
        };
        let total = can.liquid.total();
        let kept = if total > Mass::ZERO {
            (total - drawn) / total
        } else {
            0.0
        };
        Went {
            verdict: if works && !emptied {
                Verdict::Fine
            } else {
                Verdict::WillNotWork
            },
            mean: if works { self.burner.set } else { Power::ZERO },
            time: if energy.in_joules() > 0.0 {
                time * (drawn.in_kilograms() * self.heating_value.in_joules_per_kilogram()
                    / energy.in_joules())
            } else {
                Time::ZERO
            },
            gauge_start: gauge,
            gauge_low: gauge,
            end: turn.start,
            after: Liquid {
                propane: can.liquid.propane * kept,
                isobutane: can.liquid.isobutane * kept,
                butane: can.liquid.butane * kept,
            },
            emptied,
        }
    }
}

/// What a burn of one canister came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Went {
    pub(super) verdict: Verdict,
    /// Mean power while it heated, and how long that took.
    pub(super) mean: Power,
    time: Time,
    gauge_start: Pressure,
    gauge_low: Pressure,
    end: Temperature,
    after: Liquid,
    emptied: bool,
}

impl Went {
    fn of(burnt: &Burnt, verdict: Verdict, can: &Can, turn: &Turn<'_>) -> Self {
        Self {
            verdict,
            mean: burnt.mean,
            time: burnt.time,
            gauge_start: burnt.gauge_start,
            gauge_low: burnt.gauge_low,
            end: not_below_zero_gauge(burnt, can, turn),
            after: burnt.after.liquid,
            emptied: burnt.emptied && !burnt.done,
        }
    }
}

/// The fuel at the end of a burn: where the flame has gone out, no colder than where it did.
fn not_below_zero_gauge(burnt: &Burnt, can: &Can, turn: &Turn<'_>) -> Temperature {
    let end = burnt.after.temperature;
    if burnt.gauge_end >= Pressure::ZERO || burnt.gauge_start <= Pressure::ZERO {
        return end;
    }
    zero_gauge(&burnt.after.liquid, turn.around.pressure).map_or(end, |zero| {
        end.max(zero.min(can.lump(turn.start).temperature))
    })
}

/// The temperature at which a liquid's gauge pressure is zero, by halving.
pub(crate) fn zero_gauge(liquid: &Liquid, ambient: Pressure) -> Option<Temperature> {
    let (mut low, mut high) = (170.0, 340.0);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if bubble_pressure_raoult(liquid, Temperature::kelvin(middle))? < ambient {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(Temperature::kelvin(high))
}

/// How long all potfuls of a row take to heat at a power; none where one of them never gets there.
fn heating_time(row: &Row, power: Power, margin: f64) -> Option<Time> {
    let mut time = Time::ZERO;
    for term in &row.terms.heating {
        // in the camp's own wind
        let into = &term.winds[1];
        let flow = into.flow * (power / term.power);
        time += heat(flow, &into.loss, &term.potful, margin).time()? * term.count;
    }
    Some(time)
}

/// The flame that holds a row's potfuls, and how long in all.
fn hold(row: &Row) -> (Power, Time) {
    let mut time = Time::ZERO;
    let mut joules = 0.0;
    for term in &row.terms.holds {
        let flame = (term.lost[1] / term.share).max(term.least);
        let held = term.time * term.count;
        time += held;
        joules += (flame * held).in_joules();
    }
    if time > Time::ZERO {
        (Power::watts(joules / time.in_seconds()), time)
    } else {
        (Power::ZERO, Time::ZERO)
    }
}
