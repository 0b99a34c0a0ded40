//! A pot on a stove: `leeside boil --stove`, with what it loses on the way.

use super::camps::{assumption, behind, temperature};
use super::pot::{Boil, BoilOn, Start};
use super::steps::{Lines, Worked};
use crate::nouns::Figures;
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::{self, Heating, Potful, Snow};
use crate::physics::water;
use crate::units::{Energy, Mass, Temperature, Time, Warming, say};

/// What becomes of a pot on its stove.
pub(super) struct Way {
    pub(super) time: Option<Time>,
    pub(super) lost: Option<Energy>,
    pub(super) stops: Option<Temperature>,
    pub(super) share: Worked,
    pub(super) lost_printed: Worked,
}

/// The loss on the way, line by line.
pub(super) fn on_a_stove(
    lines: &mut Lines,
    boil: &Boil,
    on: &BoilOn,
    figures: &Figures,
    useful: &Worked,
    (boiling, end): (Temperature, &Worked),
) -> Way {
    let snow = matches!(boil.start, Start::Snow(_));
    let (Start::Water(start) | Start::Snow(start)) = boil.start;
    let one = Warming::of_kelvins(1.0);
    let potful = Potful {
        water: Mass::kilograms(boil.water.in_litres() * figures.water_density.value),
        water_heat: figures.water_heat.value,
        pot_joules_per_kelvin: boil.pot.as_ref().map_or(0.0, |pot| {
            water::heat_to_warm(pot.mass, pot.specific_heat, one).in_joules()
        }),
        start,
        end: boil.to.unwrap_or(boiling),
        snow: snow.then_some(Snow {
            heat: figures.ice_heat.value,
            fusion: figures.fusion.value,
        }),
    };
    let heated = heating::heat(on.flow(), &on.loss, &potful, figures.boil_margin.value);
    let still = lines.given(
        phrase!("line-still-share"),
        Worked::four(on.still.in_one()),
        "",
        phrase!(
            "why-reference-boil",
            percent = say::plain_significant(boil.efficiency.in_percent(), 4)
        ),
    );
    let factor = lines.given(
        phrase!(
            "line-left-behind-screen",
            screen = on.stands.1,
            wind = on.stands.0
        ),
        Worked::four(on.factor),
        "",
        assumption(),
    );
    let share = lines.work(
        phrase!("line-share-that-reaches"),
        format!("{still} x {factor}"),
        "",
        Phrase::none(),
    );
    let power = Worked::given(on.power.in_kilowatts());
    let flow = lines.work(
        phrase!("line-heat-that-reaches"),
        format!("{power} x 1000 x {share}"),
        "W",
        Phrase::none(),
    );
    let air = temperature(
        lines,
        phrase!("line-air-around-pot"),
        on.loss.air,
        boil.units,
        Phrase::none(),
    );
    let cubic_metres = Worked::four(on.capacity.in_litres() / 1000.0);
    let h = Worked::given(on.coefficient);
    let each = lines.work(
        phrase!(
            "line-a-pot-loses",
            litres = Worked::four(on.capacity.in_litres()).text()
        ),
        format!("{h} x 1.5 x 3.1416 x (4 x {cubic_metres} / 3.1416)^(2 / 3)"),
        "W",
        behind(&figures.pot_loss),
    );
    let nothing = Worked::four(0.0);
    let Heating::Done { phases } = &heated else {
        let margin = Worked::given(figures.boil_margin.value);
        lines.work(
            phrase!("line-would-need-under-lid"),
            format!("{margin} x {each} x ({end} - {air})"),
            "W",
            behind(&figures.boil_margin),
        );
        let stops = match heated {
            Heating::Stops { at } => Some(at),
            Heating::Done { .. } => None,
        };
        lines.given(
            phrase!("line-stops-before"),
            Worked::hundredths(stops.map_or(f64::NAN, Temperature::in_celsius)),
            "°C",
            Phrase::none(),
        );
        return Way {
            time: None,
            lost: None,
            stops,
            share,
            lost_printed: nothing,
        };
    };
    let mean: Energy = phases.iter().map(|phase| phase.heat).sum();
    let time = heated.time().unwrap_or(Time::ZERO);
    let lost_printed = if time == Time::ZERO {
        nothing
    } else {
        let stays = stays_line(
            lines,
            on,
            &flow,
            &each,
            &air,
            (start, end),
            snow,
            mean / time.in_seconds(),
        );
        let minutes = lines.work(
            phrase!("line-minutes-in-all"),
            format!("{useful} x 1000 / {stays} / 60"),
            "min",
            Phrase::none(),
        );
        lines.work(
            phrase!("line-lost-on-the-way"),
            format!("{flow} x {minutes} x 60 / 1000 - {useful}"),
            "kJ",
            Phrase::none(),
        )
    };
    Way {
        time: heated.time(),
        lost: heated.lost(on.flow()),
        stops: None,
        share,
        lost_printed,
    }
}

/// The mean of what stays in the pot: by hand for water under a lid, else as worked in small steps.
#[expect(clippy::too_many_arguments, reason = "one printed paragraph")]
fn stays_line(
    lines: &mut Lines,
    on: &BoilOn,
    flow: &Worked,
    each: &Worked,
    air: &Worked,
    (start, end): (Temperature, &Worked),
    snow: bool,
    exact: Energy,
) -> Worked {
    if snow || on.loss.open.is_some() {
        return lines.given(
            phrase!("line-stays-in-the-mean"),
            Worked::four(exact.in_joules()),
            "W",
            phrase!("why-heat-balance"),
        );
    }
    let start = Worked::hundredths(start.in_celsius());
    let first = lines.work(
        phrase!("line-stays-at-start"),
        format!("{flow} - {each} x ({start} - {air})"),
        "W",
        Phrase::none(),
    );
    let last = lines.work(
        phrase!("line-stays-at-end"),
        format!("{flow} - {each} x ({end} - {air})"),
        "W",
        Phrase::none(),
    );
    lines.work(
        phrase!("line-mean-of-two"),
        format!("(({first}^(1 / 3) + {last}^(1 / 3)) / 2)^3"),
        "W",
        phrase!("why-close-to-mean"),
    )
}
