//! What would make a pot boil that never does: a lid, a screen, a smaller pot, another stove.

use super::flame;
use super::setup::Setup;
use super::terms::{Remedy, Stops};
use crate::nouns::{Family, FuelKind, Screen, Wind};
use crate::phrase::{Phrase, phrase};
use crate::physics::heating::{Loss, surface_m2};
use crate::units::{Fraction, Power, Temperature, Volume, say};

/// The smallest pot that anyone would be sent for.
const LEAST_POT: Volume = Volume::litres(0.4);

/// A pot that never gets to its end.
pub(crate) struct Stopped {
    /// Its capacity.
    pub(crate) capacity: Volume,
    /// Where it should get to.
    pub(crate) end: Temperature,
    /// The air around.
    pub(crate) air: Temperature,
    /// The wind.
    pub(crate) wind: Wind,
    /// The flame's power.
    pub(crate) power: Power,
}

impl Stopped {
    /// Whether a flow is enough for a loss.
    fn enough(&self, setup: &Setup<'_>, flow: Power, loss: &Loss) -> bool {
        flow >= loss.at(self.end) * setup.figures.boil_margin.value
    }

    /// One change at a time that would do, the cheapest first.
    pub(crate) fn remedies(&self, setup: &Setup<'_>) -> Vec<Remedy> {
        let mut found = Vec::new();
        let mine = *setup.flame(self.wind);
        let flow = self.power * mine.share();
        let loss = |flame: &flame::Flame, capacity, lid| {
            flame::loss(setup.figures, flame, capacity, self.air, lid)
        };
        let lid = setup.kitchen.lid;
        if !lid && self.enough(setup, flow, &loss(&mine, self.capacity, true)) {
            found.push(Remedy::Lid);
        }
        if let Some(screen) = self.screen(setup) {
            found.push(Remedy::Screen(screen));
        }
        found.extend(self.smaller(setup, flow, &mine));
        found.extend(self.stove(setup).map(Remedy::Stove));
        found
    }

    /// The least screen that would do, of those that this stove may have.
    fn screen(&self, setup: &Setup<'_>) -> Option<Screen> {
        let stove = &setup.kitchen.stove;
        [Screen::Partial, Screen::Full]
            .into_iter()
            .filter(|screen| {
                *screen > setup.kitchen.screen
                    && !(stove.family == Family::CanisterOnTop && *screen == Screen::Full)
            })
            .find(|screen| {
                let Some(factors) = stove.wind.get(screen) else {
                    return false;
                };
                let efficiency = flame::still_efficiency(setup.kitchen, setup.factors);
                let flames = flame::flames(
                    setup.library,
                    stove.family,
                    efficiency,
                    stove.power,
                    *screen,
                    *factors,
                );
                let one = &flames[self.wind as usize];
                let lid = setup.kitchen.lid;
                let loss = flame::loss(setup.figures, one, self.capacity, self.air, lid);
                self.enough(setup, self.power * one.share(), &loss)
            })
    }

    /// The largest pot that would boil, rounded down to a tenth of a litre.
    fn smaller(&self, setup: &Setup<'_>, flow: Power, flame: &flame::Flame) -> Option<Remedy> {
        // The whole loss grows with the surface, open top included.
        let loss = flame::loss(
            setup.figures,
            flame,
            self.capacity,
            self.air,
            setup.kitchen.lid,
        );
        let needed = loss.at(self.end) * setup.figures.boil_margin.value;
        let surface = surface_m2(self.capacity) * (flow / needed);
        let litres =
            self.capacity.in_litres() * libm::pow(surface / surface_m2(self.capacity), 1.5);
        let tenths = Volume::litres(libm::floor(litres * 10.0) / 10.0);
        (tenths >= LEAST_POT).then_some(Remedy::Pot(tenths))
    }

    /// The catalogue's first other stove, behind its own screen, that would do: none that may fail in
    /// this wind or this cold, or lacks a valve that this one has.
    fn stove(&self, setup: &Setup<'_>) -> Option<String> {
        let mut stoves: Vec<_> = setup.library.stoves.values().collect();
        stoves.sort_by_key(|stove| stove.family);
        stoves
            .into_iter()
            .filter(|stove| stove.family != setup.kitchen.stove.family)
            // no valve is given up for it, and in frost what a canister gives is another question
            .filter(|stove| stove.shut_off || !setup.kitchen.stove.shut_off)
            .filter(|stove| {
                let fuel = setup.library.fuels.get(&stove.fuel);
                let gas = fuel.is_some_and(|fuel| fuel.kind == FuelKind::Canister);
                !gas || self.air > Temperature::celsius(0.0)
            })
            .find(|stove| {
                let Some(factors) = stove.wind.get(&stove.screen) else {
                    return false;
                };
                if self.wind == Wind::Windy && factors.may_fail_windy {
                    return false;
                }
                let likely: Fraction = stove.efficiency.likely;
                let flames = flame::flames(
                    setup.library,
                    stove.family,
                    likely,
                    stove.power,
                    stove.screen,
                    *factors,
                );
                let one = &flames[self.wind as usize];
                let lid = setup.kitchen.lid;
                let loss = flame::loss(setup.figures, one, self.capacity, self.air, lid);
                self.enough(setup, stove.power * one.share(), &loss)
            })
            .map(|stove| stove.name.clone())
    }
}

impl Stops {
    /// What would make it boil, or that nothing known would: a lid on the pot, or another stove.
    #[must_use]
    pub fn remedy(&self) -> Phrase {
        self.remedy_saying(|most| most)
    }

    /// The same, with the words of the largest pot that would boil put as a sheet puts them.
    pub fn remedy_saying(&self, pot: impl Fn(String) -> String) -> Phrase {
        match self.each_remedy(&pot) {
            None => phrase!("remedy-none"),
            Some(remedies) => phrase!("remedy-takes", remedies = remedies),
        }
    }

    /// What would make it boil, one or another; none where nothing known would.
    #[must_use]
    pub fn any_remedy(&self) -> Option<Phrase> {
        self.each_remedy(&|most| most)
    }

    /// What would make it boil on this stove: where all stoves stand side by side, each row says of
    /// itself whether it does.
    #[must_use]
    pub fn remedy_but_stove(&self) -> Option<Phrase> {
        let own = self
            .remedies
            .iter()
            .filter(|one| !matches!(one, Remedy::Stove(_)));
        let joined = own
            .map(Remedy::says)
            .reduce(|some, more| phrase!("remedy-or", some = some, more = more))?;
        Some(phrase!("remedy-takes", remedies = joined))
    }

    fn each_remedy(&self, pot: &impl Fn(String) -> String) -> Option<Phrase> {
        let each = self.remedies.iter().map(|one| one.saying(pot));
        each.reduce(|some, more| phrase!("remedy-or", some = some, more = more))
    }
}

impl Remedy {
    /// As a sentence has it: a pot of at most 1.3 L.
    #[must_use]
    pub fn says(&self) -> Phrase {
        self.saying(&|most| most)
    }

    /// The same, with the capacity of a pot put as a sheet puts it.
    fn saying(&self, pot: &impl Fn(String) -> String) -> Phrase {
        match self {
            Self::Lid => phrase!("remedy-lid"),
            Self::Screen(screen) => phrase!("remedy-screen", screen = screen),
            Self::Pot(most) => {
                let litres = format!("{} L", say::plain_significant(most.in_litres(), 3));
                phrase!("remedy-pot", most = pot(litres))
            }
            Self::Stove(name) => phrase!("remedy-stove", stove = name),
        }
    }
}
