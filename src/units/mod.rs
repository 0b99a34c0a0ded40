//! Quantities as small newtypes.
//!
//! Each quantity holds one `f64` in its base unit and names the unit in every
//! constructor and accessor, so that no bare number crosses a room. A
//! [`Temperature`] is a point on a scale and a [`Warming`] the distance between
//! two points: two temperatures cannot be added.
//!
//! ```compile_fail
//! use leeside::units::Temperature;
//! let nonsense = Temperature::celsius(5.0) + Temperature::celsius(10.0);
//! ```
//!
//! ```
//! use leeside::units::{Temperature, Warming};
//! let warming: Warming = Temperature::celsius(100.0) - Temperature::celsius(15.0);
//! assert_eq!(warming.kelvins(), 85.0);
//! ```
//!
//! [`Quantity::read`] turns what a person typed into a quantity; [`say`] turns
//! a quantity into what a person reads.

mod mend;
mod quantity;
mod read;
pub mod say;

pub use quantity::{
    Angle, Energy, Force, Fraction, HeatingValue, Length, Mass, Power, Pressure, SpecificHeat,
    Temperature, Time, Volume, Warming,
};
pub use read::{Maker, Misread, Quantity};

/// The units that a reader of the sheets wants to see.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize,
)]
pub enum Units {
    /// Feet, Fahrenheit, ounces, with grams for fuel (the scale of the trade).
    Us,
    /// Metres, Celsius, grams.
    Metric,
    /// Metric first, US customary in brackets.
    Both,
}
