//! Canisters in use: what is in them, and which comes up behind an empty one.

use crate::nouns::Container;
use crate::physics::burn::Lump;
use crate::physics::vapour::Liquid;
use crate::units::{Length, Mass, Temperature};

/// No more than this above what always stays in is nothing.
pub(super) const NOTHING: Mass = Mass::grams(0.05);

/// A canister in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Can {
    /// What is in it now.
    pub(super) liquid: Liquid,
    /// Mass of the empty shell.
    pub(super) tare: Mass,
    /// Index among the kitchen's containers.
    pub(super) container: usize,
    /// Which of those alike, from 1.
    pub(super) number: u32,
    /// How many more like it, untouched, stand behind it.
    pub(super) alike: u32,
    /// Whether it is untouched itself.
    pub(super) fresh: bool,
    /// Its size.
    pub(super) shell: Shell,
}

/// Leaves this much in a canister that has been opened; the next one like it comes up behind it,
/// and an empty one goes, unless it is the last.
pub(super) fn open(cans: &mut Vec<Can>, index: usize, after: Liquid) {
    let can = cans[index];
    if can.fresh && can.alike > 0 {
        let next = Can {
            number: can.number + 1,
            alike: can.alike - 1,
            ..can
        };
        cans.insert(index + 1, next);
    }
    cans[index] = Can {
        liquid: after,
        alike: 0,
        fresh: false,
        ..can
    };
    if cans[index].left() <= NOTHING && cans.len() > 1 {
        cans.remove(index);
    }
}

/// The size of a shell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Shell {
    pub(super) diameter: Length,
    pub(super) height: Length,
    pub(super) residue: Mass,
}

impl Shell {
    pub(super) fn of(container: &Container) -> Self {
        Self {
            diameter: container.diameter,
            height: container.height,
            residue: container.residue,
        }
    }
}

impl Can {
    /// Fuel in it that can be burnt.
    pub(super) fn left(&self) -> Mass {
        (self.liquid.total() - self.shell.residue).max(Mass::ZERO)
    }

    /// As the physics has it, at a temperature.
    pub(super) fn lump(&self, at: Temperature) -> Lump {
        Lump {
            liquid: self.liquid,
            temperature: at,
            tare: self.tare,
            diameter: self.shell.diameter,
            height: self.shell.height,
        }
    }
}
