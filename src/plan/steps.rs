//! Arithmetic as a reader with a pencil does it: each line is worked from the
//! rounded numbers printed before it.
//!
//! The printed formula is the computation: [`Lines::work`] evaluates the very
//! text that is printed, so that no line can differ from its result.

use super::types::Step;
use crate::units::say;

/// A number as it is printed: rounded once, and worked on with its rounded value.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Worked {
    value: f64,
    text: String,
}

/// Lifts a tie that binary fractions put a hair below it, as in 0.6 x 4.1875.
const TIE: f64 = 1.0 + 1e-12;

impl Worked {
    fn printed(text: String) -> Self {
        let value = text.parse().unwrap_or(f64::NAN);
        Self { value, text }
    }

    /// A result: four significant digits.
    pub(crate) fn four(value: f64) -> Self {
        Self::printed(say::significant(value * TIE, 4))
    }

    /// A given number, with the digits it was given with (six at most).
    pub(crate) fn given(value: f64) -> Self {
        Self::printed(say::significant(value * TIE, 6))
    }

    /// A temperature, to 0.01 degrees.
    pub(crate) fn hundredths(value: f64) -> Self {
        Self::printed(say::number(value * TIE, 2))
    }

    /// The next number of four significant digits that is not below a value.
    pub(crate) fn four_up(value: f64) -> Self {
        let near = Self::four(value);
        if near.value >= value || !value.is_finite() || value <= 0.0 {
            return near;
        }
        let exponent = libm::floor(libm::log10(value)) as i32;
        Self::four(near.value + libm::pow(10.0, f64::from(exponent - 3)))
    }

    /// The rounded value.
    pub(crate) fn value(&self) -> f64 {
        self.value
    }

    /// As it stands in a formula: a negative number in brackets.
    pub(crate) fn text(&self) -> String {
        if self.text.starts_with('-') {
            format!("({})", self.text)
        } else {
            self.text.clone()
        }
    }
}

impl std::fmt::Display for Worked {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.text())
    }
}

/// The printed lines of one piece of arithmetic.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Lines(Vec<Step>);

impl Lines {
    /// The lines.
    pub(crate) fn steps(self) -> Vec<Step> {
        self.0
    }

    /// Works a formula to four significant digits and prints it.
    pub(crate) fn work(
        &mut self,
        say: impl Into<String>,
        formula: impl Into<String>,
        unit: &str,
        why: impl Into<String>,
    ) -> Worked {
        let formula = formula.into();
        let result = Worked::four(evaluate(&formula));
        self.put(say, formula, &result, unit, why);
        result
    }

    /// Works a formula for a temperature, to 0.01 degrees, and prints it.
    pub(crate) fn work_temperature(
        &mut self,
        say: impl Into<String>,
        formula: impl Into<String>,
        why: impl Into<String>,
    ) -> Worked {
        let formula = formula.into();
        let result = Worked::hundredths(evaluate(&formula));
        self.put(say, formula, &result, "°C", why);
        result
    }

    /// Prints a number that is given or read from a table.
    pub(crate) fn given(
        &mut self,
        say: impl Into<String>,
        value: Worked,
        unit: &str,
        why: impl Into<String>,
    ) -> Worked {
        self.put(say, String::new(), &value, unit, why);
        value
    }

    fn put(
        &mut self,
        say: impl Into<String>,
        formula: String,
        value: &Worked,
        unit: &str,
        why: impl Into<String>,
    ) {
        self.0.push(Step {
            say: say.into(),
            formula,
            value: value.text.clone(),
            unit: unit.to_owned(),
            why: why.into(),
        });
    }
}

/// Works out a printed formula: numbers, `+ - x / ^`, brackets. Signs bind as
/// in school; not a number if the text is no formula.
fn evaluate(formula: &str) -> f64 {
    let mut reader = Reader {
        rest: formula.trim_start(),
    };
    let value = reader.sum();
    if reader.rest.is_empty() {
        value
    } else {
        f64::NAN
    }
}

struct Reader<'a> {
    rest: &'a str,
}

impl Reader<'_> {
    fn take(&mut self, sign: char) -> bool {
        match self.rest.strip_prefix(sign) {
            Some(rest) => {
                self.rest = rest.trim_start();
                true
            }
            None => false,
        }
    }

    fn sum(&mut self) -> f64 {
        let mut value = self.product();
        loop {
            if self.take('+') {
                value += self.product();
            } else if self.take('-') {
                value -= self.product();
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut value = self.power();
        loop {
            if self.take('x') {
                value *= self.power();
            } else if self.take('/') {
                value /= self.power();
            } else {
                return value;
            }
        }
    }

    fn power(&mut self) -> f64 {
        let base = self.one();
        if self.take('^') {
            libm::pow(base, self.one())
        } else {
            base
        }
    }

    fn one(&mut self) -> f64 {
        if self.take('-') {
            return -self.one();
        }
        if self.take('(') {
            let value = self.sum();
            return if self.take(')') { value } else { f64::NAN };
        }
        let end = self
            .rest
            .find(|c: char| !(c.is_ascii_digit() || c == '.'))
            .unwrap_or(self.rest.len());
        let (number, rest) = self.rest.split_at(end);
        self.rest = rest.trim_start();
        number.parse().unwrap_or(f64::NAN)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_printed_formula_is_worked_as_in_school() {
        assert!((evaluate("4.8 x 4.186 x (89.98 - 4.00)") - 1_727.578_9).abs() < 1e-3);
        assert_eq!(evaluate("2 + 3 x 4"), 14.0);
        assert_eq!(evaluate("0 - (-5.00)"), 5.0);
        assert_eq!(evaluate("12 / 3 / 2"), 2.0);
        assert_eq!(evaluate("8 x 2^(10 / 10)"), 16.0);
        assert!(evaluate("2 +").is_nan());
        assert!(evaluate("(2").is_nan());
        assert!(evaluate("2 L").is_nan());
    }

    #[test]
    fn results_have_four_digits_and_chain_on_what_is_printed() {
        let mut lines = Lines::default();
        let third = lines.work("a third", "10 / 3", "L", "");
        assert_eq!(third.to_string(), "3.333");
        let whole = lines.work("three of them", format!("3 x {third}"), "L", "");
        assert_eq!(whole.to_string(), "9.999");
        assert_eq!(lines.steps()[1].formula, "3 x 3.333");
    }

    #[test]
    fn rounding_up_never_falls_below() {
        for value in [200.04, 199.96, 9.9996, 1234.4, 0.012_341] {
            let up = Worked::four_up(value).value();
            assert!(up >= value && up < value * 1.001, "{value} -> {up}");
        }
        assert_eq!(Worked::four_up(200.0).value(), 200.0);
    }
}
