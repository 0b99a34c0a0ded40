//! What several test modules share: trips and a small library built by hand.

pub mod content;
pub mod folder;
pub mod trips;
