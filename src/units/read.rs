//! Quantities as people type them: a number, then a unit.

use super::quantity::{
    Angle, Energy, Force, Fraction, HeatingValue, Length, Mass, Power, Pressure, Temperature, Time,
    Volume,
};
use crate::told::{Told, told};

/// Why a text is not the quantity that was wanted, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong, in a cook's words.
    pub message: Told,
    /// What to write instead.
    pub help: Told,
}

/// Units that are named where one is missing: the first spellings of each.
const MOST_UNITS: usize = 8;

/// Makes a quantity from a number in one unit.
pub type Maker<Q> = fn(f64) -> Q;

/// A quantity that a person can type.
pub trait Quantity: Sized + Copy + 'static {
    /// What it is, with its article: `a length`.
    const NAME: &'static str;
    /// Two or three ways to write one: "`8200 ft` or `2500 m`".
    const EXAMPLES: &'static str;
    /// Unit spellings and the constructor of each.
    const UNITS: &'static [(&'static str, Maker<Self>)];

    /// Reads `8200 ft`, `2.5km`, `−4 °C`, `45%`.
    ///
    /// # Errors
    /// A [`Misread`] when the number or the unit cannot be understood, the
    /// unit is missing or is one of another quantity.
    fn read(text: &str) -> Result<Self, Misread> {
        Self::as_written(text).map_err(|misread| Misread {
            help: meant::<Self>(text).unwrap_or(misread.help),
            ..misread
        })
    }

    /// As [`Quantity::read`], with help that does not look at what was typed.
    ///
    /// # Errors
    /// As [`Quantity::read`].
    fn as_written(text: &str) -> Result<Self, Misread> {
        let text = text.trim();
        let misread = |message: Told| Misread {
            message,
            help: told!("write {examples}", examples = Told::from(Self::EXAMPLES)),
        };
        let (number, unit) = split(text);
        if number.is_empty() {
            return Err(misread(told!(
                "expected {name} (a number and a unit), found `{shortened}`",
                name = Told::from(Self::NAME),
                shortened = shortened(text)
            )));
        }
        if number.contains(',') {
            return Err(misread(told!(
                "`{shortened}` has a comma; write the number without commas, with a point before decimals",
                shortened = shortened(number)
            )));
        }
        let value: f64 = number.replace('\u{2212}', "-").parse().map_err(|_| {
            misread(told!(
                "`{shortened}` is not a number",
                shortened = shortened(number)
            ))
        })?;
        if !value.is_finite() {
            return Err(misread(told!(
                "`{shortened}` is too large a number",
                shortened = shortened(number)
            )));
        }
        let unit = unit.trim();
        if unit.is_empty() {
            return Err(Misread {
                message: told!("`{shortened}` has no unit", shortened = shortened(text)),
                help: told!(
                    "say which unit is meant: {units}",
                    units = Self::UNITS
                        .iter()
                        .map(|(name, _)| *name)
                        .take(MOST_UNITS)
                        .collect::<Vec<_>>()
                        .join(", ")
                ),
            });
        }
        let wanted = folded(unit);
        if let Some((_, make)) = Self::UNITS.iter().find(|(name, _)| folded(name) == wanted) {
            return Ok(make(value));
        }
        Err(misread(match kind_of(&wanted) {
            Some(other) if other != Self::NAME => {
                told!(
                    "expected {name}, but `{shortened}` is {other}",
                    name = Told::from(Self::NAME),
                    shortened = shortened(text),
                    other = Told::from(other)
                )
            }
            _ => told!(
                "`{unit}` is not a unit of {name} that is known here",
                unit = shortened(unit),
                name = Told::from(bare(Self::NAME))
            ),
        }))
    }
}

/// What to write in place of a text that cannot be read, where that can be told.
fn meant<Q: Quantity>(text: &str) -> Option<Told> {
    // a long text was not meant as a number
    const LONGEST: usize = 40;
    if text.chars().count() > LONGEST {
        return None;
    }
    let number: String = split(text.trim()).0.to_owned();
    let unit = text.trim()[number.len().min(text.trim().len())..].trim();
    let turned = ["\u{b0}", "degrees", "degree", "deg", "deg."].contains(&unit);
    if Q::NAME == "a temperature" && turned && !number.is_empty() {
        return Some(told!(
            "say which scale is meant: `{number} C` or `{number} F`",
            number
        ));
    }
    let several = ["/", "-", "\u{2013}", " to ", " or ", "("];
    let one_of_several = text.chars().filter(char::is_ascii_digit).count() > 1
        && several
            .iter()
            .any(|sign| text.trim().get(1..).is_some_and(|rest| rest.contains(sign)));
    let read = |proposal: &String| Q::as_written(proposal).is_ok();
    let proposal = super::mend::proposals(text).into_iter().find(read)?;
    let fraction = text.contains('/') && proposal.contains('.');
    Some(if one_of_several && !fraction {
        told!("write one value, such as `{proposal}`", proposal)
    } else {
        told!("write `{proposal}`", proposal)
    })
}

/// `a length` without its article.
fn bare(name: &'static str) -> &'static str {
    name.split_once(' ').map_or(name, |(_, rest)| rest)
}

/// The number at the start of a text, and what follows it.
fn split(text: &str) -> (&str, &str) {
    let end = text
        .char_indices()
        .find(|&(i, c)| {
            let sign = i == 0 && matches!(c, '-' | '+' | '\u{2212}');
            !(sign || c.is_ascii_digit() || c == '.' || c == ',')
        })
        .map_or(text.len(), |(i, _)| i);
    let (number, unit) = text.split_at(end);
    if number.chars().any(|c| c.is_ascii_digit()) {
        (number, unit)
    } else {
        ("", text)
    }
}

/// Unit spellings compare without spaces, degree signs and dots.
fn folded(unit: &str) -> String {
    let plain: String = unit
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '°' | '.'))
        .collect();
    // `mm` and `Mm` differ, but nobody writes megametres; K, F and C stay capital
    if plain.len() == 1 {
        plain
    } else {
        plain.to_lowercase()
    }
}

fn shortened(text: &str) -> String {
    if text.chars().count() > 40 {
        text.chars().take(37).chain("...".chars()).collect()
    } else {
        text.to_owned()
    }
}

/// The quantity that a unit belongs to.
fn kind_of(unit: &str) -> Option<&'static str> {
    fn has<Q: Quantity>(unit: &str) -> Option<&'static str> {
        Q::UNITS
            .iter()
            .any(|(name, _)| folded(name) == unit)
            .then_some(Q::NAME)
    }
    has::<Temperature>(unit)
        .or_else(|| has::<Length>(unit))
        .or_else(|| has::<Mass>(unit))
        .or_else(|| has::<Volume>(unit))
        .or_else(|| has::<Time>(unit))
        .or_else(|| has::<Pressure>(unit))
        .or_else(|| has::<Fraction>(unit))
        .or_else(|| has::<Power>(unit))
        .or_else(|| has::<Energy>(unit))
        .or_else(|| has::<HeatingValue>(unit))
        .or_else(|| has::<Angle>(unit))
        .or_else(|| has::<Force>(unit))
}

macro_rules! readable {
    ($name:ident, $article:literal, $examples:literal, [$($unit:literal => $make:expr),+ $(,)?]) => {
        impl Quantity for $name {
            const NAME: &'static str = $article;
            const EXAMPLES: &'static str = $examples;
            const UNITS: &'static [(&'static str, Maker<Self>)] = &[$(($unit, $make)),+];
        }
    };
}

readable!(Length, "a length", "`8200 ft`, `2500 m` or `2.5 km`", [
    "ft" => Length::feet, "m" => Length::metres, "km" => Length::kilometres,
    "cm" => Length::centimetres, "mm" => Length::millimetres, "in" => Length::inches,
    "yd" => Length::yards, "mi" => Length::miles, "feet" => Length::feet, "foot" => Length::feet,
    "metres" => Length::metres, "meters" => Length::metres, "inches" => Length::inches,
    "yards" => Length::yards, "miles" => Length::miles,
]);
readable!(Temperature, "a temperature", "`41 F` or `5 C`", [
    "F" => Temperature::fahrenheit, "C" => Temperature::celsius, "K" => Temperature::kelvin,
    "f" => Temperature::fahrenheit, "c" => Temperature::celsius,
]);
readable!(Mass, "a mass", "`230 g`, `1.2 kg` or `8 oz`", [
    "g" => Mass::grams, "kg" => Mass::kilograms, "oz" => Mass::ounces, "lb" => Mass::pounds,
    "lbs" => Mass::pounds, "grams" => Mass::grams, "ounces" => Mass::ounces, "pounds" => Mass::pounds,
]);
readable!(Volume, "a volume", "`0.6 L`, `600 mL` or `20 fl oz`", [
    "L" => Volume::litres, "mL" => Volume::millilitres, "fl oz" => Volume::fluid_ounces,
    "cup" => Volume::cups, "cups" => Volume::cups, "pt" => Volume::pints, "qt" => Volume::quarts,
    "gal" => Volume::gallons, "l" => Volume::litres, "litre" => Volume::litres,
    "litres" => Volume::litres, "liter" => Volume::litres, "liters" => Volume::litres,
    "quart" => Volume::quarts, "quarts" => Volume::quarts, "pint" => Volume::pints,
    "pints" => Volume::pints, "gallon" => Volume::gallons, "gallons" => Volume::gallons,
]);
readable!(Time, "a time", "`8 min` or `1 h`", [
    "min" => Time::minutes, "s" => Time::seconds, "h" => Time::hours, "sec" => Time::seconds,
    "minutes" => Time::minutes, "minute" => Time::minutes, "seconds" => Time::seconds,
    "hours" => Time::hours, "hour" => Time::hours,
]);
readable!(Pressure, "a pressure", "`70.5 kPa` or `705 hPa`", [
    "kPa" => Pressure::kilopascals, "hPa" => Pressure::hectopascals, "mbar" => Pressure::hectopascals,
    "bar" => Pressure::bars, "Pa" => Pressure::pascals, "inHg" => Pressure::inches_of_mercury,
    "psi" => Pressure::psi,
]);
readable!(Fraction, "a share", "`45%`", ["%" => Fraction::percent, "percent" => Fraction::percent]);
readable!(Power, "a power", "`2.5 kW` or `2500 W`", [
    "W" => Power::watts, "kW" => Power::kilowatts, "BTU/h" => Power::btu_an_hour,
]);
readable!(Energy, "an amount of heat", "`350 kJ`", [
    "kJ" => Energy::kilojoules, "J" => Energy::joules, "MJ" => Energy::megajoules,
]);
readable!(HeatingValue, "a heating value", "`45.7 MJ/kg`", [
    "MJ/kg" => HeatingValue::megajoules_per_kilogram,
    "kJ/g" => HeatingValue::megajoules_per_kilogram,
    "kJ/kg" => |v| HeatingValue::joules_per_kilogram(v * 1000.0),
]);
readable!(Angle, "an angle", "`5 deg`", ["deg" => Angle::degrees, "degrees" => Angle::degrees]);
readable!(Force, "a force", "`2 N`", ["N" => Force::newtons]);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_people_write() {
        assert_eq!(Length::read("8200 ft"), Ok(Length::feet(8200.0)));
        assert_eq!(Length::read("2.5km"), Ok(Length::kilometres(2.5)));
        assert_eq!(
            Temperature::read("\u{2212}4 °C"),
            Ok(Temperature::celsius(-4.0))
        );
        assert_eq!(Volume::read("20 fl oz"), Ok(Volume::fluid_ounces(20.0)));
        assert_eq!(Volume::read("1L"), Ok(Volume::litres(1.0)));
        assert_eq!(Fraction::read("45%"), Ok(Fraction::percent(45.0)));
        assert_eq!(
            HeatingValue::read("45.7 MJ/kg"),
            Ok(HeatingValue::megajoules_per_kilogram(45.7))
        );
    }

    #[test]
    fn says_what_is_wrong() {
        assert!(
            Length::read("8200")
                .unwrap_err()
                .message
                .contains("no unit")
        );
        assert!(
            Length::read("40 F")
                .unwrap_err()
                .message
                .contains("a temperature")
        );
        assert!(Length::read("nan m").is_err());
        assert!(Length::read("inf m").is_err());
        assert!(Length::read("1e999 m").is_err());
        assert!(
            Length::read("1,000 m")
                .unwrap_err()
                .message
                .contains("comma")
        );
        assert!(Mass::read("").is_err());
    }
}
