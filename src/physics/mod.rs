//! The calculation: pure functions of quantities.
//!
//! A property (a specific heat, a latent heat, a coefficient, a default) is an
//! argument, because it is data with a source of its own; only the coefficients
//! of a correlation stand in its function. A function whose method could be
//! exchanged carries the method in its name, so that a second one can stand
//! beside it. Every public function states its formula, the range in which it
//! is valid, its source and a worked example.

pub mod air;
pub mod burn;
pub mod canister;
pub mod disinfect;
pub mod fuel;
pub mod heating;
pub mod pots;
pub mod simmer;
pub mod stability;
pub mod sun;
pub mod time;
pub mod vapour;
pub mod walking;
pub mod water;
pub mod wind;
