//! The shelf: canisters that are tagged, weighed, handed out and come back.
//!
//! What is kept is a ledger, a table of [`Movement`]s to which lines are only ever added; what
//! stands on the shelf now is worked out from it ([`Stock`]). The state is a function of the set
//! of lines and not of their order in the file, so that two copies that were edited apart are
//! one ledger again when their lines are laid together.
//!
//! 1. [`Ledger::read`] reads the file's text, and says what in it is no line of a ledger;
//! 2. [`Stock::of`] works out where each canister is, and what was odd on the way;
//! 3. [`doubts`] judges a new line before it is added: refused, or to be said twice;
//! 4. [`Ledger::added`] gives the text to add to the file;
//! 5. [`assign()`] says which canister goes with which departure of a season.

/// The note of a correction by which the line that it names counts for nothing.
pub const VOID: &str = "void";

mod assign;
mod doubt;
mod learn;
mod ledger;
mod movement;
mod stock;
mod tag;

pub use assign::{
    ASSIGNED, Assignment, Choice, Given, Going, House, Offer, TakenFrom, alone, assign, enough,
};
pub use doubt::{Doubt, doubts};
pub use learn::{Learnt, Outing, Ratio, Told, learn, quantile, told};
pub use ledger::{Ledger, tag, time};
pub use movement::{Action, HEADINGS, Movement, TareFrom};
pub use stock::{Kept, Oddity, Standing, Stock};
pub use tag::{NoTag, Tag, check_character};
