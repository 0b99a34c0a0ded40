//! How the heat lost on the way comes about, line by line: the flow into the pot, what a pot loses,
//! the mean of what stays, minutes, loss.

use super::batches;
use super::camps::{CampWork, assumption, behind, temperature};
use super::heat::Heated;
use super::needs::Need;
use super::setup::Setup;
use super::steps::{Lines, Worked};
use super::types::Batch;
use crate::nouns::WaterFrom;
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

/// A stretch of a heating as it is printed.
struct Stretch {
    name: &'static str,
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
            "air around the pot",
            need.air,
            setup.units,
            "the trip",
        );
        let power = Worked::given(self.power.in_kilowatts());
        let flow = lines.work(
            "heat that reaches the pot",
            format!("{power} x 1000 x {share}"),
            "W",
            assumption(),
        );
        let mut minutes = Vec::new();
        for (part, ways) in parts.iter().zip(ways) {
            for (pot, count) in batches::counted(&part.batches) {
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
                "heat lost to the air on the way",
                Worked::four(0.0),
                "kJ",
                "",
            );
        }
        let sum: Vec<String> = minutes.iter().map(ToString::to_string).collect();
        lines.work(
            "heat lost to the air on the way",
            format!("{flow} x ({}) x 60 / 1000 - {useful}", sum.join(" + ")),
            "kJ",
            "",
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
        let name = setup.kitchen.pots[pot].name();
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
                    format!("heat to {} in the {name} pot", stretch.name),
                    format!(
                        "({kilograms} x {c} + {count} x {mass} x {metal}) x ({} - {})",
                        stretch.to, stretch.from
                    ),
                    "kJ",
                    "",
                ),
                None => {
                    let fusion =
                        Worked::given(figures.fusion.value.in_joules_per_kilogram() / 1000.0);
                    lines.work(
                        format!("heat to {} in the {name} pot", stretch.name),
                        format!("{kilograms} x {fusion}"),
                        "kJ",
                        "",
                    )
                }
            };
            let mean = self.print_mean(lines, stretch, phase, flow, &each, air);
            minutes.push(lines.work(
                format!("minutes to {}", stretch.name),
                format!("{heat} x 1000 / {mean} / 60"),
                "min",
                "",
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
            format!(
                "heat that the {} pot, as tall as wide, loses for each °C above the air, {}",
                of.name(),
                self.need.wind
            ),
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
                name: "warm the snow",
                from: self.work.water.clone(),
                to: zero.clone(),
                specific: Some(ice),
            },
            Stretch {
                name: "melt the snow",
                from: zero.clone(),
                to: zero,
                specific: None,
            },
            Stretch {
                name: "warm the water",
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
                format!(
                    "what stays of it while it is to {}, no lid: the mean",
                    stretch.name
                ),
                Worked::four((phase.heat / phase.time.in_seconds()).in_joules()),
                "W",
                behind(&self.setup.figures.open_top),
            );
        }
        let mut stays = |say: &str, at: &Worked| {
            lines.work(
                format!("what stays of it at the {say}"),
                format!("{flow} - {each} x ({at} - {air})"),
                "W",
                "",
            )
        };
        let first = stays("start", &stretch.from);
        if stretch.specific.is_none() {
            return first;
        }
        let last = stays("end", &stretch.to);
        lines.work(
            "the mean of the two, as it falls on the way",
            format!("(({first}^(1 / 3) + {last}^(1 / 3)) / 2)^3"),
            "W",
            "close to the exact mean",
        )
    }

    /// Prints why a pot never boils.
    pub(crate) fn print_stop(&self, lines: &mut Lines, share: &Worked, part: &Heated, pot: usize) {
        let (setup, need) = (self.setup, self.need);
        let air = temperature(
            lines,
            "air around the pot",
            need.air,
            setup.units,
            "the trip",
        );
        let power = Worked::given(self.power.in_kilowatts());
        let flow = lines.work(
            "heat that reaches the pot",
            format!("{power} x 1000 x {share}"),
            "W",
            assumption(),
        );
        let each = self.print_surface(lines, pot);
        let margin = Worked::given(setup.figures.boil_margin.value);
        let end = &part.end_printed;
        lines.work(
            if setup.kitchen.lid {
                "it would need more than this"
            } else {
                "it would need more than this with its lid on, and still more without"
            },
            format!("{margin} x {each} x ({end} - {air})"),
            "W",
            behind(&setup.figures.boil_margin),
        );
        if setup.kitchen.lid {
            lines.work_temperature(
                "so it never boils: it stops at",
                format!("{air} + {flow} / ({margin} x {each})"),
                "",
            );
        }
    }
}
