//! Quantities as people read them, in their own units.
//!
//! Every function takes the reader's [`Units`] and rounds to what the trade
//! would say aloud: feet to the nearest 10 above 1000, temperatures whole,
//! fuel in whole grams. Fuel and heat are always metric (kitchen scales and
//! canister labels are), with ounces beside the grams for US readers.

use super::{Length, Mass, Temperature, Time, Units, Volume};
use std::cell::Cell;

/// The decimal mark of figures that nobody reads: those that are worked on.
pub const POINT: char = '.';

thread_local! {
    /// The decimal mark of the language that is spoken on this thread.
    static MARK: Cell<char> = const { Cell::new(POINT) };
}

/// Runs something whose figures have another decimal mark: the comma of most languages.
///
/// What is spoken is an argument of every function that says a figure, some four hundred of them;
/// it is handed on beside them, and never beyond what runs here.
pub fn with_mark<T>(mark: char, run: impl FnOnce() -> T) -> T {
    struct Before(char);
    impl Drop for Before {
        fn drop(&mut self) {
            MARK.set(self.0);
        }
    }
    let _before = Before(MARK.replace(mark));
    run()
}

/// A text with the decimal mark that is spoken in place of each point between digits.
///
/// ```
/// use leeside::units::say::{in_mark, with_mark};
/// assert_eq!(with_mark(',', || in_mark("4.8 x (89.98 - 4.00). 2 L")), "4,8 x (89,98 - 4,00). 2 L");
/// ```
#[must_use]
pub fn in_mark(text: &str) -> String {
    let mark = MARK.get();
    if mark == POINT {
        return text.to_owned();
    }
    let mut made = String::with_capacity(text.len());
    let mut before = None;
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        let digit = |sign: Option<&char>| sign.is_some_and(char::is_ascii_digit);
        let between = sign == POINT && digit(before.as_ref()) && digit(signs.peek());
        made.push(if between { mark } else { sign });
        before = Some(sign);
    }
    made
}

/// A plain number with a fixed count of decimals and no trailing `-0`.
#[must_use]
pub fn number(value: f64, decimals: usize) -> String {
    in_mark(&plain(value, decimals))
}

/// A number to so many significant digits, written out, trailing zeros cut.
#[must_use]
pub fn significant(value: f64, digits: usize) -> String {
    in_mark(&plain_significant(value, digits))
}

/// As [`number`], with a point in every language: to be read again.
#[must_use]
pub fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.starts_with('-') && text.chars().all(|c| matches!(c, '-' | '0' | '.')) {
        text[1..].to_owned()
    } else {
        text
    }
}

/// As [`significant`], with a point in every language: to be read again.
#[must_use]
pub fn plain_significant(value: f64, digits: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return plain(value, 0);
    }
    let exponent = libm::floor(libm::log10(value.abs())) as i32;
    let wanted = digits as i32 - 1 - exponent;
    let scale = libm::pow(10.0, f64::from(wanted));
    let rounded = (value * scale).round() / scale;
    let text = plain(rounded, wanted.max(0) as usize);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

fn both(units: Units, metric: String, us: String) -> String {
    match units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => format!("{metric} ({us})"),
    }
}

fn trimmed(value: f64, decimals: usize) -> String {
    let text = plain(value, decimals);
    if text.contains('.') {
        in_mark(text.trim_end_matches('0').trim_end_matches('.'))
    } else {
        text
    }
}

/// A height above the sea: `8200 ft`, `2500 m`.
#[must_use]
pub fn elevation(height: Length, units: Units) -> String {
    both(
        units,
        format!("{} m", number(height.in_metres(), 0)),
        format!("{} ft", number(height.in_feet(), 0)),
    )
}

/// A distance on the ground: `200 ft`, `61 m`.
#[must_use]
pub fn distance(length: Length, units: Units) -> String {
    both(
        units,
        format!(
            "{} m",
            trimmed(length.in_metres(), usize::from(length.in_metres() < 10.0))
        ),
        format!("{} ft", number(length.in_feet(), 0)),
    )
}

/// A small length: `20 cm`, `8 in`.
#[must_use]
pub fn small_length(length: Length, units: Units) -> String {
    both(
        units,
        if length.in_centimetres() < 1.0 {
            format!("{} mm", number(length.in_millimetres(), 0))
        } else {
            format!("{} cm", trimmed(length.in_centimetres(), 1))
        },
        format!("{} in", trimmed(length.in_inches(), 1)),
    )
}

/// A temperature: `41 °F`, `5 °C`.
#[must_use]
pub fn temperature(point: Temperature, units: Units) -> String {
    both(
        units,
        format!("{} °C", number(point.in_celsius(), 0)).replace('-', "\u{2212}"),
        format!("{} °F", number(point.in_fahrenheit(), 0)).replace('-', "\u{2212}"),
    )
}

/// Fuel or another mass that is weighed in grams: `145 g`, `145 g (5.1 oz)`.
#[must_use]
pub fn fuel(mass: Mass, units: Units) -> String {
    let grams = format!("{} g", number(mass.in_grams(), 0));
    match units {
        Units::Metric => grams,
        Units::Us | Units::Both => format!("{grams} ({} oz)", number(mass.in_ounces(), 1)),
    }
}

/// A load that is carried: `1.2 kg`, `2 lb 10 oz`.
#[must_use]
pub fn load(mass: Mass, units: Units) -> String {
    let metric = if mass.in_grams() < 1000.0 {
        format!("{} g", number(mass.in_grams(), 0))
    } else {
        format!("{} kg", number(mass.in_kilograms(), 2))
    };
    let ounces = mass.in_ounces();
    let us = if ounces < 16.0 {
        format!("{} oz", number(ounces, 1))
    } else {
        format!("{} lb", number(mass.in_pounds(), 1))
    };
    both(units, metric, us)
}

/// A volume of water: `0.6 L`, `20 fl oz`, `2.1 qt`.
#[must_use]
pub fn volume(volume: Volume, units: Units) -> String {
    let metric = if volume.in_litres() < 0.1 {
        format!("{} mL", number(volume.in_millilitres(), 0))
    } else {
        format!(
            "{} L",
            trimmed(
                volume.in_litres(),
                if volume.in_litres() < 10.0 { 2 } else { 1 }
            )
        )
    };
    let us = if volume.in_quarts() < 0.99 {
        format!("{} fl oz", number(volume.in_fluid_ounces(), 0))
    } else {
        format!("{} qt", trimmed(volume.in_quarts(), 1))
    };
    both(units, metric, us)
}

/// A stretch of time: `12 min`, `1 h 5 min`.
#[must_use]
pub fn time(time: Time) -> String {
    let minutes = time.in_minutes();
    if minutes >= 59.5 {
        let whole = minutes.round();
        let (hours, rest) = ((whole / 60.0).floor(), whole % 60.0);
        if rest == 0.0 {
            format!("{hours:.0} h")
        } else {
            format!("{hours:.0} h {rest:.0} min")
        }
    } else if minutes < 10.0 {
        format!("{} min", trimmed(minutes, 1))
    } else {
        format!("{minutes:.0} min")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn says_it_in_the_readers_units() {
        assert_eq!(elevation(Length::feet(8200.0), Units::Us), "8200 ft");
        assert_eq!(elevation(Length::feet(8200.0), Units::Metric), "2499 m");
        assert_eq!(
            temperature(Temperature::fahrenheit(21.0), Units::Metric),
            "\u{2212}6 °C"
        );
        assert_eq!(volume(Volume::litres(0.6), Units::Metric), "0.6 L");
        assert_eq!(time(Time::minutes(65.0)), "1 h 5 min");
        assert_eq!(significant(0.123_456, 4), "0.1235");
        assert_eq!(significant(123_456.0, 4), "123500");
    }
}
