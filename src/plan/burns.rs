//! Burns that were worked out before.
//!
//! Canisters are chosen by trying them over and over, kitchens that are alike try the same ones,
//! and what was chosen is judged once more when it has been handed out. A memory is of one plan:
//! it is made where the plan is decided and goes with it, so that no plan hangs on another.

use super::cans::{Can, Shell};
use super::terms::Terms;
use crate::nouns::Feed;
use crate::physics::burn::{Around, Burner};
use crate::physics::vapour::Liquid;
use crate::units::{HeatingValue, Mass, Pressure, Temperature};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// The burns of one plan, and what came of each.
#[derive(Debug)]
pub(crate) struct Memory<Went>(RefCell<Known<Went>>);

#[derive(Debug)]
struct Known<Went> {
    /// What burns hang on, in the order in which it came up.
    under: Vec<(Under<()>, Terms)>,
    went: BTreeMap<Burn, Went>,
}

impl<Went> Default for Memory<Went> {
    fn default() -> Self {
        Self(RefCell::new(Known {
            under: Vec::new(),
            went: BTreeMap::new(),
        }))
    }
}

/// All that a burn hangs on beside the canister and the figures of the library: the stove and its
/// gas, the pots, the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Under<Pots> {
    pub(super) feed: Feed,
    pub(super) least_gauge: Pressure,
    pub(super) burner: Burner,
    pub(super) heating_value: HeatingValue,
    pub(super) start: Temperature,
    pub(super) around: Around,
    pub(super) pots: Pots,
}

/// A burn: under what, the canister to the last bit, and what share of the turn is done on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Burn {
    under: usize,
    liquid: [u64; 3],
    tare: u64,
    shell: [u64; 3],
    share: u64,
}

impl Burn {
    fn of(under: usize, can: &Can, share: f64) -> Self {
        let bits = |mass: Mass| mass.in_kilograms().to_bits();
        let Liquid {
            propane,
            isobutane,
            butane,
        } = can.liquid;
        let Shell {
            diameter,
            height,
            residue,
        } = can.shell;
        Self {
            under,
            liquid: [propane, isobutane, butane].map(bits),
            tare: bits(can.tare),
            shell: [
                diameter.in_metres().to_bits(),
                height.in_metres().to_bits(),
                bits(residue),
            ],
            share: share.to_bits(),
        }
    }
}

impl<Went: Copy> Memory<Went> {
    /// The number of what a burn hangs on.
    pub(super) fn number(&self, under: Under<&Terms>) -> usize {
        let Under {
            feed,
            least_gauge,
            burner,
            heating_value,
            start,
            around,
            pots,
        } = under;
        let round = Under {
            feed,
            least_gauge,
            burner,
            heating_value,
            start,
            around,
            pots: (),
        };
        let mut memory = self.0.borrow_mut();
        let same = |one: &(Under<()>, Terms)| one.0 == round && one.1 == *pots;
        if let Some(number) = memory.under.iter().position(same) {
            return number;
        }
        memory.under.push((round, pots.clone()));
        memory.under.len() - 1
    }

    /// A burn from memory, or worked out now.
    pub(super) fn of(
        &self,
        under: usize,
        can: &Can,
        share: f64,
        burn: impl FnOnce() -> Went,
    ) -> Went {
        let key = Burn::of(under, can, share);
        if let Some(went) = self.0.borrow().went.get(&key) {
            return *went;
        }
        let went = burn();
        self.0.borrow_mut().went.insert(key, went);
        went
    }
}
