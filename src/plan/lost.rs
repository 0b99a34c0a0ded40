//! How the heat lost on the way comes about, line by line: the flow into the pot, what a pot loses,
//! the mean of what stays, minutes, loss.

use super::camps::{CampWork, assumption, behind, temperature};
use super::heat::Heated;
use super::needs::Need;
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::types::{Batch, counted};
use crate::nouns::WaterFrom;
use crate::phrase::{Arg, Phrase, Said, phrase};
use crate::physics::heating::{Heating, Phase};
use crate::units::{Power, Time};

/// A batch as it is heated.
pub(crate) struct Way {
    /// What becomes of it.
    pub(crate) heating: Heating,
    /// Heat that reaches its pot.
    pub(crate) flow: Power,
}

/// What the lines of a row's loss share.
pub(crate) struct Working<'a> {
    pub(crate) setup: &'a Setup<'a>,
    pub(crate) work: &'a CampWork,
    pub(crate) need: &'a Need,
    pub(crate) power: Power,
}

/// What is done in a stretch of a heating.
#[derive(Clone, Copy)]
enum Stage {
    Ice,
    Melt,
    Water,
}

impl Said for Stage {
    fn said(&self) -> Arg {
        let word = match self {
            Self::Ice => "ice",
            Self::Melt => "melt",
            Self::Water => "water",
        };
        Arg::Word(word.to_owned())
    }
}

/// A stretch of a heating as it is printed.
struct Stretch {
    name: Stage,
    from: Worked,
    to: Worked,
    /// kJ for one kelvin of a kilogram of what is warmed; none while it melts.
    specific: Option<Worked>,
}

impl Working<'_> {
    /// Prints the way of every part of a row; gives the heat lost, kJ.
    pub(crate) fn print(
        &self,
        lines: &mut Lines,
        share: &Worked,
        useful: &Worked,
        parts: &[Heated],
        ways: &[Vec<Way>],
    ) -> Worked {
        let Working { setup, need, .. } = self;
        let air = temperature(
            lines,
            phrase!("line-air-around-pot"),
            need.air,
            setup.units,
            phrase!("why-trip"),
        );
        let power = Worked::given(self.power.in_kilowatts());
        let flow = lines.work(
            phrase!("line-heat-that-reaches"),
            format!("{power} x 1000 x {share}"),
            "W",
            assumption(),
        );
        let mut minutes = Vec::new();
        for (part, ways) in parts.iter().zip(ways) {
            for (pot, count) in counted(&part.batches) {
                let mine = |index: &usize| part.batches[*index].pot == pot;
                let first = (0..part.batches.len()).find(mine).unwrap_or(0);
                let group: Vec<&Batch> = part
                    .batches
                    .iter()
                    .filter(|batch| batch.pot == pot)
                    .collect();
                minutes.extend(self.print_pot(
                    lines,
                    part,
                    (pot, count),
                    &group,
                    &ways[first],
                    (&flow, &air),
                ));
            }
        }
        if minutes.is_empty() {
            return lines.given(
                phrase!("line-lost-on-the-way"),
                Worked::four(0.0),
                "kJ",
                Phrase::none(),
            );
        }
        let sum: Vec<String> = minutes.iter().map(ToString::to_string).collect();
        lines.work(
            phrase!("line-lost-on-the-way"),
            format!("{flow} x ({}) x 60 / 1000 - {useful}", sum.join(" + ")),
            "kJ",
            Phrase::none(),
        )
    }

    /// The minutes of one pot of a part, stretch by stretch.
    fn print_pot(
        &self,
        lines: &mut Lines,
        part: &Heated,
        (pot, count): (usize, usize),
        group: &[&Batch],
        way: &Way,
        (flow, air): (&Worked, &Worked),
    ) -> Vec<Worked> {
        let Heating::Done { phases } = &way.heating else {
            return Vec::new();
        };
        if phases.iter().all(|phase| phase.time == Time::ZERO) {
            return Vec::new();
        }
        let (setup, figures) = (self.setup, self.setup.figures);
        let name = &setup.kitchen.pots[pot];
        let each = self.print_surface(lines, pot);
        let litres: f64 = group.iter().map(|batch| batch.water.in_litres()).sum();
        let kilograms = Worked::four(litres * figures.water_density.value);
        let of = &setup.kitchen.pots[pot];
        let mass = Worked::four(of.mass.in_kilograms());
        let metal = Worked::given(of.specific_heat.in_kilojoules_per_kilogram_kelvin());
        let mut minutes = Vec::new();
        for (stretch, phase) in self.stretches(part).iter().zip(phases) {
            if phase.time == Time::ZERO {
                continue;
            }
            let heat = match &stretch.specific {
                Some(c) => lines.work(
                    phrase!("line-heat-of-stage", stage = stretch.name, pot = name),
                    format!(
                        "({kilograms} x {c} + {count} x {mass} x {metal}) x ({} - {})",
                        stretch.to, stretch.from
                    ),
                    "kJ",
                    Phrase::none(),
                ),
                None => {
                    let fusion =
                        Worked::given(figures.fusion.value.in_joules_per_kilogram() / 1000.0);
                    lines.work(
                        phrase!("line-heat-of-stage", stage = stretch.name, pot = name),
                        format!("{kilograms} x {fusion}"),
                        "kJ",
                        Phrase::none(),
                    )
                }
            };
            let mean = self.print_mean(lines, stretch, phase, flow, &each, air);
            minutes.push(lines.work(
                phrase!("line-minutes-of-stage", stage = stretch.name),
                format!("{heat} x 1000 / {mean} / 60"),
                "min",
                Phrase::none(),
            ));
        }
        minutes
    }

    /// What a pot loses for each degree above the air.
    fn print_surface(&self, lines: &mut Lines, pot: usize) -> Worked {
        let setup = self.setup;
        let of = &setup.kitchen.pots[pot];
        let cubic_metres = Worked::four(of.capacity.in_litres() / 1000.0);
        let h = Worked::given(setup.flame(self.need.wind).loss);
        lines.work(
            phrase!("line-pot-loses", pot = of, wind = self.need.wind),
            format!("{h} x 1.5 x 3.1416 x (4 x {cubic_metres} / 3.1416)^(2 / 3)"),
            "W",
            behind(&setup.figures.pot_loss),
        )
    }

    /// The stretches of a part: ice, melting, water.
    fn stretches(&self, part: &Heated) -> [Stretch; 3] {
        let figures = self.setup.figures;
        let c = Worked::given(figures.water_heat.value.in_kilojoules_per_kilogram_kelvin());
        let ice = Worked::given(figures.ice_heat.value.in_kilojoules_per_kilogram_kelvin());
        let zero = Worked::given(0.0);
        let snow = self.work.plan.water_from == WaterFrom::Snow;
        let from = if snow {
            zero.clone()
        } else {
            self.work.water.clone()
        };
        [
            Stretch {
                name: Stage::Ice,
                from: self.work.water.clone(),
                to: zero.clone(),
                specific: Some(ice),
            },
            Stretch {
                name: Stage::Melt,
                from: zero.clone(),
                to: zero,
                specific: None,
            },
            Stretch {
                name: Stage::Water,
                from,
                to: part.end_printed.clone(),
                specific: Some(c),
            },
        ]
    }

    /// The mean of what stays in the pot.
    fn print_mean(
        &self,
        lines: &mut Lines,
        stretch: &Stretch,
        phase: &Phase,
        flow: &Worked,
        each: &Worked,
        air: &Worked,
    ) -> Worked {
        if !self.setup.kitchen.lid {
            return lines.given(
                phrase!("line-stays-without-lid", stage = stretch.name),
                Worked::four((phase.heat / phase.time.in_seconds()).in_joules()),
                "W",
                behind(&self.setup.figures.open_top),
            );
        }
        let mut stays = |say: Phrase, at: &Worked| {
            lines.work(
                say,
                format!("{flow} - {each} x ({at} - {air})"),
                "W",
                Phrase::none(),
            )
        };
        let first = stays(phrase!("line-stays-at-start"), &stretch.from);
        if stretch.specific.is_none() {
            return first;
        }
        let last = stays(phrase!("line-stays-at-end"), &stretch.to);
        lines.work(
            phrase!("line-mean-of-two"),
            format!("(({first}^(1 / 3) + {last}^(1 / 3)) / 2)^3"),
            "W",
            phrase!("why-close-to-mean"),
        )
    }

    /// Prints why a pot never boils.
    pub(crate) fn print_stop(&self, lines: &mut Lines, share: &Worked, part: &Heated, pot: usize) {
        let (setup, need) = (self.setup, self.need);
        let air = temperature(
            lines,
            phrase!("line-air-around-pot"),
            need.air,
            setup.units,
            phrase!("why-trip"),
        );
        let power = Worked::given(self.power.in_kilowatts());
        let flow = lines.work(
            phrase!("line-heat-that-reaches"),
            format!("{power} x 1000 x {share}"),
            "W",
            assumption(),
        );
        let each = self.print_surface(lines, pot);
        let margin = Worked::given(setup.figures.boil_margin.value);
        let end = &part.end_printed;
        lines.work(
            if setup.kitchen.lid {
                phrase!("line-would-need")
            } else {
                phrase!("line-would-need-with-lid")
            },
            format!("{margin} x {each} x ({end} - {air})"),
            "W",
            behind(&setup.figures.boil_margin),
        );
        if setup.kitchen.lid {
            lines.work_temperature(
                phrase!("line-stops-at"),
                format!("{air} + {flow} / ({margin} x {each})"),
                Phrase::none(),
            );
        }
    }
}
