//! The quantities and their arithmetic.

use serde::{Deserialize, Serialize};
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident { $($(#[$udoc:meta])* $unit:ident = $factor:expr;)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Deserialize, Serialize)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            $(
                $(#[$udoc])*
                #[must_use]
                pub const fn $unit(value: f64) -> Self {
                    Self(value * $factor)
                }
            )+

            /// The larger of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// Whether the number is neither NaN nor infinite.
            #[must_use]
            pub fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self { Self(self.0 + other.0) }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) { self.0 += other.0; }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self { Self(self.0 - other.0) }
        }
        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self { Self(-self.0) }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self { Self(self.0 * factor) }
        }
        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, factor: f64) -> Self { Self(self.0 / factor) }
        }
        /// The ratio of two of a kind is a plain number.
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 { self.0 / other.0 }
        }
        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                Self(items.map(|item| item.0).sum())
            }
        }
    };
}

macro_rules! accessors {
    ($name:ident { $($(#[$doc:meta])* $get:ident = $factor:expr;)+ }) => {
        impl $name {
            $(
                $(#[$doc])*
                #[must_use]
                pub const fn $get(self) -> f64 { self.0 / $factor }
            )+
        }
    };
}

quantity! {
    /// A mass; base unit kilogram.
    Mass {
        /// From kilograms.
        kilograms = 1.0;
        /// From grams.
        grams = 1e-3;
        /// From avoirdupois ounces (28.349 523 125 g exactly).
        ounces = 0.028_349_523_125;
        /// From avoirdupois pounds (453.592 37 g exactly).
        pounds = 0.453_592_37;
    }
}
accessors! { Mass {
    /// In kilograms.
    in_kilograms = 1.0;
    /// In grams.
    in_grams = 1e-3;
    /// In ounces.
    in_ounces = 0.028_349_523_125;
    /// In pounds.
    in_pounds = 0.453_592_37;
} }

quantity! {
    /// A length, height or distance; base unit metre.
    Length {
        /// From metres.
        metres = 1.0;
        /// From kilometres.
        kilometres = 1000.0;
        /// From centimetres.
        centimetres = 0.01;
        /// From millimetres.
        millimetres = 0.001;
        /// From feet (0.3048 m exactly).
        feet = 0.3048;
        /// From inches (25.4 mm exactly).
        inches = 0.0254;
        /// From yards (0.9144 m exactly).
        yards = 0.9144;
        /// From statute miles (1609.344 m exactly).
        miles = 1609.344;
    }
}
accessors! { Length {
    /// In metres.
    in_metres = 1.0;
    /// In kilometres.
    in_kilometres = 1000.0;
    /// In centimetres.
    in_centimetres = 0.01;
    /// In millimetres.
    in_millimetres = 0.001;
    /// In feet.
    in_feet = 0.3048;
    /// In inches.
    in_inches = 0.0254;
    /// In yards.
    in_yards = 0.9144;
} }

quantity! {
    /// A volume; base unit litre.
    Volume {
        /// From litres.
        litres = 1.0;
        /// From millilitres.
        millilitres = 1e-3;
        /// From US fluid ounces (29.573 529 562 5 mL exactly).
        fluid_ounces = 0.029_573_529_562_5;
        /// From US cups (8 fl oz).
        cups = 0.236_588_236_5;
        /// From US liquid pints.
        pints = 0.473_176_473;
        /// From US liquid quarts.
        quarts = 0.946_352_946;
        /// From US liquid gallons.
        gallons = 3.785_411_784;
    }
}
accessors! { Volume {
    /// In litres.
    in_litres = 1.0;
    /// In millilitres.
    in_millilitres = 1e-3;
    /// In US fluid ounces.
    in_fluid_ounces = 0.029_573_529_562_5;
    /// In US liquid quarts.
    in_quarts = 0.946_352_946;
} }

quantity! {
    /// A pressure, absolute or gauge as the name beside it says; base unit pascal.
    Pressure {
        /// From pascals.
        pascals = 1.0;
        /// From kilopascals.
        kilopascals = 1000.0;
        /// From hectopascals, which are millibars.
        hectopascals = 100.0;
        /// From bars.
        bars = 100_000.0;
        /// From conventional inches of mercury (3386.389 Pa).
        inches_of_mercury = 3_386.389;
        /// From pounds-force per square inch.
        psi = 6_894.757_293_168;
    }
}
accessors! { Pressure {
    /// In pascals.
    in_pascals = 1.0;
    /// In kilopascals.
    in_kilopascals = 1000.0;
    /// In hectopascals.
    in_hectopascals = 100.0;
    /// In megapascals.
    in_megapascals = 1e6;
} }

quantity! {
    /// An amount of heat or chemical energy; base unit joule.
    Energy {
        /// From joules.
        joules = 1.0;
        /// From kilojoules.
        kilojoules = 1e3;
        /// From megajoules.
        megajoules = 1e6;
    }
}
accessors! { Energy {
    /// In joules.
    in_joules = 1.0;
    /// In kilojoules.
    in_kilojoules = 1e3;
    /// In megajoules.
    in_megajoules = 1e6;
} }

quantity! {
    /// A rate of heat; base unit watt.
    Power {
        /// From watts.
        watts = 1.0;
        /// From kilowatts.
        kilowatts = 1000.0;
        /// From British thermal units (international table) an hour.
        btu_an_hour = 0.293_071_070_172_222_2;
    }
}
accessors! { Power {
    /// In watts.
    in_watts = 1.0;
    /// In kilowatts.
    in_kilowatts = 1000.0;
} }

quantity! {
    /// A stretch of time; base unit second.
    Time {
        /// From seconds.
        seconds = 1.0;
        /// From minutes.
        minutes = 60.0;
        /// From hours.
        hours = 3600.0;
    }
}
accessors! { Time {
    /// In seconds.
    in_seconds = 1.0;
    /// In minutes.
    in_minutes = 60.0;
    /// In hours.
    in_hours = 3600.0;
} }

quantity! {
    /// Heat released by burning a mass of fuel; base unit joule per kilogram.
    HeatingValue {
        /// From joules per kilogram.
        joules_per_kilogram = 1.0;
        /// From megajoules per kilogram (the same number as kilojoules per gram).
        megajoules_per_kilogram = 1e6;
    }
}
accessors! { HeatingValue {
    /// In joules per kilogram.
    in_joules_per_kilogram = 1.0;
    /// In megajoules per kilogram.
    in_megajoules_per_kilogram = 1e6;
} }

quantity! {
    /// Heat to warm a mass by one kelvin; base unit joule per kilogram and kelvin.
    SpecificHeat {
        /// From joules per kilogram and kelvin.
        joules_per_kilogram_kelvin = 1.0;
        /// From kilojoules per kilogram and kelvin.
        kilojoules_per_kilogram_kelvin = 1000.0;
    }
}
accessors! { SpecificHeat {
    /// In joules per kilogram and kelvin.
    in_joules_per_kilogram_kelvin = 1.0;
    /// In kilojoules per kilogram and kelvin.
    in_kilojoules_per_kilogram_kelvin = 1000.0;
} }

quantity! {
    /// A force; base unit newton.
    Force {
        /// From newtons.
        newtons = 1.0;
    }
}
accessors! { Force {
    /// In newtons.
    in_newtons = 1.0;
} }

quantity! {
    /// An angle; base unit degree.
    Angle {
        /// From degrees.
        degrees = 1.0;
    }
}
accessors! { Angle {
    /// In degrees.
    in_degrees = 1.0;
} }

quantity! {
    /// A share of a whole: 1 is all of it.
    Fraction {
        /// From a share (0.45).
        of_one = 1.0;
        /// From percent (45).
        percent = 0.01;
    }
}
accessors! { Fraction {
    /// As a share of one.
    in_one = 1.0;
    /// In percent.
    in_percent = 0.01;
} }

quantity! {
    /// A difference of two temperatures; base unit kelvin.
    Warming {
        /// From kelvins (or Celsius degrees of difference).
        of_kelvins = 1.0;
        /// From Fahrenheit degrees of difference.
        of_fahrenheit_degrees = 5.0 / 9.0;
    }
}
accessors! { Warming {
    /// In kelvins.
    kelvins = 1.0;
    /// In Fahrenheit degrees of difference.
    fahrenheit_degrees = (5.0 / 9.0);
} }

/// Kelvins between absolute zero and 0 °C, by definition of the Celsius scale.
const ZERO_CELSIUS: f64 = 273.15;

/// A temperature: a point on a scale, not a difference. Held in degrees Celsius.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Deserialize, Serialize)]
pub struct Temperature(f64);

impl Temperature {
    /// From degrees Celsius.
    #[must_use]
    pub const fn celsius(value: f64) -> Self {
        Self(value)
    }

    /// From degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(value: f64) -> Self {
        Self((value - 32.0) * 5.0 / 9.0)
    }

    /// From kelvins.
    #[must_use]
    pub const fn kelvin(value: f64) -> Self {
        Self(value - ZERO_CELSIUS)
    }

    /// In degrees Celsius.
    #[must_use]
    pub const fn in_celsius(self) -> f64 {
        self.0
    }

    /// In degrees Fahrenheit.
    #[must_use]
    pub const fn in_fahrenheit(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }

    /// In kelvins.
    #[must_use]
    pub const fn in_kelvin(self) -> f64 {
        self.0 + ZERO_CELSIUS
    }

    /// The warmer of two.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// The colder of two.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// Whether the number is neither NaN nor infinite.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.0.is_finite()
    }

    /// The temperature halfway between two.
    #[must_use]
    pub fn midway(self, other: Self) -> Self {
        Self(f64::midpoint(self.0, other.0))
    }
}

impl Sub for Temperature {
    type Output = Warming;
    fn sub(self, other: Self) -> Warming {
        Warming(self.0 - other.0)
    }
}
impl Add<Warming> for Temperature {
    type Output = Self;
    fn add(self, warming: Warming) -> Self {
        Self(self.0 + warming.0)
    }
}
impl Sub<Warming> for Temperature {
    type Output = Self;
    fn sub(self, warming: Warming) -> Self {
        Self(self.0 - warming.0)
    }
}

/// Specific heat x mass x warming is heat.
impl Mul<Mass> for SpecificHeat {
    type Output = HeatCapacity;
    fn mul(self, mass: Mass) -> HeatCapacity {
        HeatCapacity(self.0 * mass.0)
    }
}

/// Heat to warm a whole body by one kelvin, J/K; the middle of a product.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct HeatCapacity(f64);

impl Mul<Warming> for HeatCapacity {
    type Output = Energy;
    fn mul(self, warming: Warming) -> Energy {
        Energy(self.0 * warming.0)
    }
}
impl Mul<Mass> for HeatingValue {
    type Output = Energy;
    fn mul(self, mass: Mass) -> Energy {
        Energy(self.0 * mass.0)
    }
}
impl Div<HeatingValue> for Energy {
    type Output = Mass;
    fn div(self, value: HeatingValue) -> Mass {
        Mass(self.0 / value.0)
    }
}
impl Mul<Time> for Power {
    type Output = Energy;
    fn mul(self, time: Time) -> Energy {
        Energy(self.0 * time.0)
    }
}
impl Div<Power> for Energy {
    type Output = Time;
    fn div(self, power: Power) -> Time {
        Time(self.0 / power.0)
    }
}
impl Mul<Fraction> for Power {
    type Output = Power;
    fn mul(self, share: Fraction) -> Power {
        Power(self.0 * share.0)
    }
}
impl Div<Fraction> for Power {
    type Output = Power;
    fn div(self, share: Fraction) -> Power {
        Power(self.0 / share.0)
    }
}
impl Div<Fraction> for Energy {
    type Output = Energy;
    fn div(self, share: Fraction) -> Energy {
        Energy(self.0 / share.0)
    }
}
impl Mul<Fraction> for Energy {
    type Output = Energy;
    fn mul(self, share: Fraction) -> Energy {
        Energy(self.0 * share.0)
    }
}
