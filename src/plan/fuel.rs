//! A kitchen's fuel in all: sum, spill, spare, and what to carry.

use super::camps::{CampWork, behind, nights, sources};
use super::needs;
use super::places;
use super::rows;
use super::setup::{Handed, Heating, Setup};
use super::spread::{self, Draws};
use super::steps::{Lines, Worked};
use super::types::{CampPlan, Decides, FuelPlan, KitchenPlan, Leg, Role, Row, Step, Usual};
use super::usual;
use crate::diag::Outcome;
use crate::nouns::{Blend, Fuel, FuelKind, Kind, Kitchen, Library, Spare, Trip};
use crate::phrase::{Phrase, phrase};
use crate::units::{Fraction, HeatingValue, Mass};
use std::ops::Range;
use std::sync::Arc;

/// What every kitchen of a trip is worked from.
#[derive(Clone, Debug)]
pub(crate) struct Base<'a> {
    /// The trip.
    pub(crate) trip: &'a Trip,
    /// The library.
    pub(crate) library: &'a Library,
    /// Its camps, worked out.
    pub(crate) camps: Vec<CampWork>,
    /// The draws.
    pub(crate) draws: Arc<Draws>,
    /// Whether anybody reads what share each input has in the spread.
    pub(crate) with_shares: bool,
    /// What the practice burns of a lesson take, a mass a kitchen, none where a kitchen is never
    /// lit; empty where there is no lesson.
    pub(crate) practice: &'a [Option<Mass>],
}

/// The heating value of a gas mixture, by mass.
fn mixed(library: &Library, blend: &Blend) -> Option<[(f64, HeatingValue); 3]> {
    let of = |id: &str| library.fuels.get(id).map(|fuel: &Fuel| fuel.heating_value);
    Some([
        (blend.propane.in_one(), of("propane")?),
        (blend.isobutane.in_one(), of("isobutane")?),
        (blend.butane.in_one(), of("n-butane")?),
    ])
}

/// The heating value that a kitchen's rows are worked with: the trip's own; for canisters the mass
/// mean of what is handed out, or of its blend; else the fuel's.
pub(crate) fn heating(
    kitchen: &Kitchen,
    library: &Library,
    handed_out: Option<Blend>,
    at: &str,
) -> (Heating, Vec<Step>) {
    let mut lines = Lines::at(at);
    lines.role(Role::HeatingValue);
    let fuel = &kitchen.fuel;
    let mj = |value: HeatingValue| Worked::four(value.in_megajoules_per_kilogram());
    if let Some(stated) = kitchen.heating_value {
        let printed = lines.given(
            phrase!("line-heating-value-of", fuel = fuel.name),
            mj(stated),
            "MJ/kg",
            phrase!("why-trip"),
        );
        let heating = Heating {
            value: stated,
            printed,
        };
        return (heating, lines.steps());
    }
    let pure = ["propane", "isobutane", "n-butane"].contains(&fuel.id.as_str());
    let unknown = &library.figures.unknown_blend;
    let blend = handed_out
        .or(kitchen.blend)
        .or((!pure).then_some(unknown.value));
    if fuel.kind == FuelKind::Canister
        && let Some(blend) = blend
        && let Some(parts) = mixed(library, &blend)
    {
        let exact: f64 = parts
            .iter()
            .map(|(share, value)| share * value.in_joules_per_kilogram())
            .sum();
        let terms: Vec<String> = parts
            .iter()
            .filter(|(share, _)| *share > 0.0)
            .map(|(share, value)| format!("{} x {}", Worked::four(*share), mj(*value)))
            .collect();
        let why = if handed_out.is_some() || kitchen.blend.is_some() {
            sources(&fuel.sources)
        } else {
            behind(unknown)
        };
        let printed = lines.work(
            phrase!("line-heating-value-of-blend", blend = blend),
            terms.join(" + "),
            "MJ/kg",
            why,
        );
        let heating = Heating {
            value: HeatingValue::joules_per_kilogram(exact),
            printed,
        };
        return (heating, lines.steps());
    }
    let printed = lines.given(
        phrase!("line-heating-value-of", fuel = fuel.name),
        mj(fuel.heating_value),
        "MJ/kg",
        sources(&fuel.sources),
    );
    let heating = Heating {
        value: fuel.heating_value,
        printed,
    };
    (heating, lines.steps())
}

/// Plans a kitchen: its rows and its fuel, with what the canisters bring that it is handed.
///
/// # Errors
/// When its efficiency cannot be worked out.
pub(crate) fn kitchen(
    base: &Base<'_>,
    kitchen: &Kitchen,
    index: usize,
    handed: &Handed,
) -> Outcome<KitchenPlan> {
    let (trip, library) = (base.trip, base.library);
    let slug = places::kitchen(trip, index);
    let at = format!("kitchen.{slug}");
    let (heating, steps) = heating(kitchen, library, handed.blend, &at);
    let mut setup = Setup::new(
        library,
        kitchen,
        index,
        &trip.file,
        trip.units,
        heating.clone(),
        at.clone(),
    )?;
    setup.powers.clone_from(&handed.powers);
    let mut rows = Vec::new();
    let mut days: Vec<Vec<(u32, Row)>> = Vec::new();
    for (camp, work) in base.camps.iter().enumerate() {
        let mut day = Vec::new();
        for need in needs::needs(trip, library, kitchen, camp, work) {
            let row = rows::work(&setup, camp, work, &need)?;
            if need.times > 0 {
                rows.push(row.clone());
            }
            day.push((need.a_day, row));
        }
        days.push(day);
    }
    let practice = base.practice.get(index).copied();
    let fuel = Sums {
        base,
        kitchen,
        heating: &heating,
        rows: &rows,
        days: &days,
        at: format!("{at}.fuel"),
        practice: practice.flatten().unwrap_or(Mass::ZERO),
    }
    .fuel();
    Ok(KitchenPlan {
        name: kitchen.name.clone(),
        slug,
        people: kitchen.people,
        stove: kitchen.stove.id.clone(),
        stove_name: kitchen.stove.name.clone(),
        family: kitchen.stove.family,
        fuel_id: kitchen.fuel.id.clone(),
        fuel_name: kitchen.fuel.name.clone(),
        steps,
        rows,
        fuel,
        containers: Vec::new(),
        cold: Vec::new(),
        stability: None,
        stays_cold: practice == Some(None),
    })
}

/// Everything that a kitchen's fuel is summed from.
struct Sums<'a> {
    base: &'a Base<'a>,
    kitchen: &'a Kitchen,
    heating: &'a Heating,
    rows: &'a [Row],
    days: &'a [Vec<(u32, Row)>],
    at: String,
    practice: Mass,
}

/// What a leg carries, and what decides it.
struct Carried {
    carry: Worked,
    decides: Decides,
}

impl Sums<'_> {
    fn fuel(&self) -> FuelPlan {
        let trip = self.base.trip;
        let camps = trip.camps.len();
        let mut lines = Lines::at(self.at.as_str());
        if self.rows.iter().any(|row| row.stops.is_some()) {
            return self.without_sums(camps);
        }
        let by_camp = self.by_camp(&mut lines);
        let sum = if by_camp.len() == 1 {
            by_camp[0].1.clone()
        } else {
            lines.role(Role::Sum).work(
                phrase!("sum-fuel-in-all"),
                joined(&by_camp),
                "g",
                Phrase::none(),
            )
        };
        let likely = self.with_spill(&mut lines, 0, &sum);
        let all: Vec<&Row> = self.rows.iter().collect();
        let spread = self.spread(&all);
        let days: Vec<Mass> = (0..camps)
            .map(|camp| Mass::grams(self.day(&mut Lines::default(), camp).value()))
            .collect();

        let (carry, legs, decides) = match trip.resupply.filter(|at| *at > 0 && *at < camps) {
            None => {
                let at = lines.role(Role::AtConfidence).given(
                    self.confidence_say(0),
                    Worked::four_up(spread.at_confidence.in_grams()),
                    "g",
                    phrase!("why-draws"),
                );
                let carried = self.carry(&mut lines, 0, &likely, &at, 0..camps);
                (carried.carry, Vec::new(), carried.decides)
            }
            Some(at) => self.legs(&mut lines, &by_camp, &[0..at, at..camps]),
        };
        let person_days = f64::from(self.kitchen.people) * f64::from(nights(&trip.camps).max(1));
        lines.role(Role::PersonDay).work(
            phrase!("line-person-day"),
            format!(
                "{likely} / ({} x {})",
                self.kitchen.people,
                nights(&trip.camps).max(1)
            ),
            "g",
            Phrase::none(),
        );
        let likely = Mass::grams(likely.value());
        let carry = Mass::grams(carry.value());
        let grams_per_person_day = likely.in_grams() / person_days.max(1.0);
        let plans: Vec<&CampPlan> = self.base.camps.iter().map(|work| &work.plan).collect();
        FuelPlan {
            kind: self.kitchen.fuel.kind,
            heating_value: self.heating.value,
            likely,
            at_confidence: spread.at_confidence,
            spare: carry - likely,
            carry,
            practice: self.practice,
            decides,
            grams_per_person_day,
            usual: usual::held(trip, self.kitchen, &plans, grams_per_person_day),
            spread: spread.shares,
            may_fail: spread.may_fail,
            legs,
            days,
            steps: lines.steps(),
        }
    }

    /// Where a pot never boils there is nothing to add up.
    fn without_sums(&self, camps: usize) -> FuelPlan {
        FuelPlan {
            kind: self.kitchen.fuel.kind,
            heating_value: self.heating.value,
            likely: Mass::ZERO,
            at_confidence: Mass::ZERO,
            spare: Mass::ZERO,
            carry: Mass::ZERO,
            practice: self.practice,
            decides: Decides::Confidence,
            grams_per_person_day: 0.0,
            usual: Usual::NotHeld {
                why: phrase!("usual-never-boils"),
            },
            spread: Vec::new(),
            may_fail: Fraction::of_one(1.0),
            legs: Vec::new(),
            days: vec![Mass::ZERO; camps],
            steps: Vec::new(),
        }
    }

    /// The rows of each camp summed, printed.
    fn by_camp(&self, lines: &mut Lines) -> Vec<(usize, Worked)> {
        let mut sums = Vec::new();
        for (camp, work) in self.base.camps.iter().enumerate() {
            let terms: Vec<String> = self
                .rows
                .iter()
                .filter(|row| row.camp == camp)
                .map(|row| format!("{} x {}", row.times, row.grams()))
                .collect();
            if terms.is_empty() {
                continue;
            }
            // the one place of a lesson has no name of its own
            let say = match self.base.trip.kind {
                Kind::Lesson => phrase!("line-fuel-at-this-place"),
                Kind::Trip => phrase!("line-fuel-at", camp = work.plan.name),
            };
            sums.push((
                camp,
                lines
                    .role(Role::AtCamp(camp))
                    .work(say, terms.join(" + "), "g", Phrase::none()),
            ));
        }
        if sums.is_empty() {
            sums.push((
                0,
                lines.role(Role::Sum).given(
                    phrase!("line-nothing-lit-fuel-all"),
                    Worked::four(0.0),
                    "g",
                    Phrase::none(),
                ),
            ));
        }
        sums
    }

    /// `leg` counts from 1; 0 is all of the trip.
    fn with_spill(&self, lines: &mut Lines, leg: usize, sum: &Worked) -> Worked {
        let figure = &self.base.library.figures.spill_likely;
        let factor = Worked::given(1.0 + figure.value.in_one());
        let percent = Worked::given(figure.value.in_percent());
        lines.role(Role::Likely).work(
            phrase!("line-likely", leg = leg, percent = percent),
            format!("{factor} x {sum}"),
            "g",
            behind(figure),
        )
    }

    fn confidence_say(&self, leg: usize) -> Phrase {
        let percent = Worked::given(self.base.trip.confidence.in_percent());
        phrase!("line-at-confidence", leg = leg, percent = percent)
    }

    fn spread(&self, rows: &[&Row]) -> spread::Spread {
        let base = self.base;
        spread::draw(
            base.trip,
            (&base.library.figures, &base.draws),
            base.with_shares,
            rows,
            self.kitchen,
            self.heating.value,
        )
    }

    /// The likely fuel of a full day at a camp, spill included.
    fn day(&self, lines: &mut Lines, camp: usize) -> Worked {
        let terms: Vec<String> = self.days[camp]
            .iter()
            .map(|(a_day, row)| format!("{a_day} x {}", row.grams()))
            .collect();
        if terms.is_empty() {
            return Worked::four(0.0);
        }
        let figure = &self.base.library.figures.spill_likely;
        let factor = Worked::given(1.0 + figure.value.in_one());
        lines.role(Role::SpareDay(camp)).work(
            phrase!("line-full-day-at", camp = self.base.camps[camp].plan.name),
            format!("{factor} x ({})", terms.join(" + ")),
            "g",
            Phrase::none(),
        )
    }

    /// The spare: full days at the costliest of some camps, half of them where the leg has one
    /// night.
    fn spare(&self, lines: &mut Lines, leg: usize, camps: Range<usize>) -> Worked {
        let trip = self.base.trip;
        let days = match trip.spare {
            _ if trip.kind == Kind::Lesson => 0.0,
            Spare::None => 0.0,
            Spare::OneExtraDay => 1.0,
            Spare::TwoExtraDays => 2.0,
        };
        let days = if nights(&trip.camps[camps.clone()]) <= 1 {
            days / 2.0
        } else {
            days
        };
        let nothing = Worked::four(0.0);
        let worth = |camp: usize| self.day(&mut Lines::default(), camp).value();
        // The first of equal days.
        let costliest = camps.rev().max_by(|a, b| worth(*a).total_cmp(&worth(*b)));
        let Some(camp) = costliest.filter(|camp| days > 0.0 && worth(*camp) > 0.0) else {
            return nothing;
        };
        let one = self.day(lines, camp);
        if days == 1.0 {
            return one;
        }
        lines.role(Role::Spare).work(
            phrase!("line-spare-days", leg = leg),
            format!("{} x {one}", Worked::given(days)),
            "g",
            Phrase::none(),
        )
    }

    /// What to take: the larger of the percentile and likely + spare, up to the next 5 g.
    fn carry(
        &self,
        lines: &mut Lines,
        leg: usize,
        likely: &Worked,
        at_confidence: &Worked,
        camps: Range<usize>,
    ) -> Carried {
        let spare = self.spare(lines, leg, camps);
        let with_spare = if spare.value() > 0.0 {
            lines.role(Role::WithSpare).work(
                phrase!("line-with-spare", leg = leg),
                format!("{likely} + {spare}"),
                "g",
                Phrase::none(),
            )
        } else {
            likely.clone()
        };
        let (larger, decides) = if at_confidence.value() > with_spare.value() {
            (at_confidence, Decides::Confidence)
        } else {
            (&with_spare, Decides::Spare)
        };
        let figure = &self.base.library.figures.round_up;
        let step = figure.value.in_grams();
        // A whole multiple stays: it must not go up by a hair of binary fraction.
        let count = (larger.value() / step - 1e-9).ceil().max(0.0);
        let carry = lines.role(Role::Carry).work(
            phrase!("line-carry", leg = leg, larger = larger),
            format!("{} x {}", Worked::given(count), Worked::given(step)),
            "g",
            behind(figure),
        );
        Carried { carry, decides }
    }

    /// Legs between two handings-out of fuel.
    fn legs(
        &self,
        lines: &mut Lines,
        by_camp: &[(usize, Worked)],
        ranges: &[Range<usize>],
    ) -> (Worked, Vec<Leg>, Decides) {
        let mut legs = Vec::new();
        let mut carried = Vec::new();
        for (number, range) in ranges.iter().enumerate() {
            let leg = number + 1;
            lines.leg(Some(number));
            let mine: Vec<(usize, Worked)> = by_camp
                .iter()
                .filter(|(camp, _)| range.contains(camp))
                .cloned()
                .collect();
            let sum = match mine.as_slice() {
                [] => Worked::four(0.0),
                [(_, only)] => only.clone(),
                many => lines.role(Role::Sum).work(
                    phrase!("line-fuel-of-leg", leg = leg),
                    joined(many),
                    "g",
                    Phrase::none(),
                ),
            };
            let likely = self.with_spill(lines, leg, &sum);
            let rows: Vec<&Row> = self
                .rows
                .iter()
                .filter(|row| range.contains(&row.camp))
                .collect();
            let spread = self.spread(&rows);
            let at = lines.role(Role::AtConfidence).given(
                self.confidence_say(leg),
                Worked::four_up(spread.at_confidence.in_grams()),
                "g",
                phrase!("why-draws"),
            );
            let Carried { carry, decides } = self.carry(lines, leg, &likely, &at, range.clone());
            carried.push(carry.to_string());
            let (likely, carry) = (Mass::grams(likely.value()), Mass::grams(carry.value()));
            legs.push(Leg {
                from: range.start,
                until: range.end,
                likely,
                at_confidence: spread.at_confidence,
                spare: carry - likely,
                carry,
                decides,
            });
        }
        lines.leg(None);
        let carry = lines.role(Role::Carry).work(
            phrase!("line-on-all-legs"),
            carried.join(" + "),
            "g",
            Phrase::none(),
        );
        // Of the whole, whatever decides the leg that takes most.
        let decides = legs
            .iter()
            .rev()
            .max_by(|a, b| a.carry.in_grams().total_cmp(&b.carry.in_grams()))
            .map_or(Decides::Confidence, |leg| leg.decides);
        (carry, legs, decides)
    }
}

fn joined(sums: &[(usize, Worked)]) -> String {
    let terms: Vec<String> = sums.iter().map(|(_, sum)| sum.to_string()).collect();
    terms.join(" + ")
}
