//! Arithmetic as a reader with a pencil does it: each line is worked from the
//! rounded numbers printed before it.
//!
//! The printed formula is the computation: [`Lines::work`] evaluates the very
//! text that is printed, so that no line can differ from its result. A number
//! carries where it came from into the formula that it is put in, so that a
//! line knows its inputs by identity and never by their digits.

use super::step::{Role, Step};
use crate::phrase::{Arg, Phrase, Said, StepId, Token, Tokens};
use crate::units::say;

/// A number as it is printed: rounded once, and worked on with its rounded value.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Worked {
    /// Before rounding.
    exact: f64,
    value: f64,
    text: String,
    /// The step whose result it is; none for a number that is given.
    of: Option<StepId>,
}

/// Lifts a tie that binary fractions put a hair below it, as in 0.6 x 4.1875.
const TIE: f64 = 1.0 + 1e-12;

impl Worked {
    fn printed(exact: f64, text: String) -> Self {
        let value = text.parse().unwrap_or(f64::NAN);
        Self {
            exact,
            value,
            text,
            of: None,
        }
    }

    /// A result: four significant digits.
    pub(crate) fn four(value: f64) -> Self {
        Self::printed(value, say::plain_significant(value * TIE, 4))
    }

    /// A given number, with the digits it was given with (six at most).
    pub(crate) fn given(value: f64) -> Self {
        Self::printed(value, say::plain_significant(value * TIE, 6))
    }

    /// A temperature, to 0.01 degrees.
    pub(crate) fn hundredths(value: f64) -> Self {
        Self::printed(value, say::plain(value * TIE, 2))
    }

    /// The next number of four significant digits that is not below a value.
    pub(crate) fn four_up(value: f64) -> Self {
        let near = Self::four(value);
        if near.value >= value || !value.is_finite() || value <= 0.0 {
            return near;
        }
        let exponent = libm::floor(libm::log10(value)) as i32;
        let up = Self::four(near.value + libm::pow(10.0, f64::from(exponent - 3)));
        Self { exact: value, ..up }
    }

    /// As a number that is given: for where its own line stands elsewhere, or nowhere.
    pub(crate) fn without_line(self) -> Self {
        Self { of: None, ..self }
    }

    /// With where it is from.
    fn token(&self) -> Token {
        let (exact, text) = (self.exact, self.text());
        match &self.of {
            None if exact == self.value => Token::Words(text),
            None => Token::Number { exact, text },
            Some(step) => Token::Of {
                step: step.clone(),
                exact,
                text,
            },
        }
    }

    /// The rounded value.
    pub(crate) fn value(&self) -> f64 {
        self.value
    }

    /// As it stands on paper: a negative number in brackets.
    pub(crate) fn text(&self) -> String {
        if self.text.starts_with('-') {
            format!("({})", self.text)
        } else {
            self.text.clone()
        }
    }
}

/// Into a formula or the words of a line, with its identity: [`Lines`] takes it out again. For
/// other texts there is [`Worked::text`].
impl std::fmt::Display for Worked {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.token().marked())
    }
}

impl Said for Worked {
    fn said(&self) -> Arg {
        Arg::Printed(self.token())
    }
}

impl Step {
    /// Its result, to work on with.
    pub(crate) fn worked(&self) -> Worked {
        Worked {
            exact: self.exact,
            of: Some(self.id.clone()),
            ..Worked::printed(self.exact, self.value.clone())
        }
    }
}

/// The printed lines of one piece of arithmetic.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Lines {
    /// Where its lines stand: `kitchen.blue.tarn-bench.supper`.
    at: String,
    role: Role,
    leg: Option<usize>,
    steps: Vec<Step>,
}

impl Lines {
    /// Lines that stand somewhere in a trip: their ids start with it.
    pub(crate) fn at(at: impl Into<String>) -> Self {
        Self {
            at: at.into(),
            ..Self::default()
        }
    }

    /// What the next line is to those who look for it.
    pub(crate) fn role(&mut self, role: Role) -> &mut Self {
        self.role = role;
        self
    }

    /// Which leg the lines from here on belong to.
    pub(crate) fn leg(&mut self, leg: Option<usize>) {
        self.leg = leg;
    }

    /// The lines.
    pub(crate) fn steps(self) -> Vec<Step> {
        self.steps
    }

    /// Works a formula to four significant digits and prints it.
    pub(crate) fn work(
        &mut self,
        say: Phrase,
        formula: impl Into<String>,
        unit: &str,
        why: Phrase,
    ) -> Worked {
        let formula = Tokens::read(&formula.into());
        let result = Worked::four(evaluate(&formula));
        self.put(say, formula, result, unit, why)
    }

    /// Works a formula for a temperature, to 0.01 degrees, and prints it.
    pub(crate) fn work_temperature(
        &mut self,
        say: Phrase,
        formula: impl Into<String>,
        why: Phrase,
    ) -> Worked {
        let formula = Tokens::read(&formula.into());
        let result = Worked::hundredths(evaluate(&formula));
        self.put(say, formula, result, "°C", why)
    }

    /// Prints a number that is given or read from a table.
    pub(crate) fn given(&mut self, say: Phrase, value: Worked, unit: &str, why: Phrase) -> Worked {
        self.put(say, Tokens::default(), value, unit, why)
    }

    fn put(
        &mut self,
        say: Phrase,
        formula: Tokens,
        value: Worked,
        unit: &str,
        why: Phrase,
    ) -> Worked {
        let number = self.steps.len() + 1;
        let id = match self.at.as_str() {
            "" => StepId::new(&format!("line.{number}")),
            at => StepId::new(&format!("{at}.line.{number}")),
        };
        let exact = match formula.is_empty() {
            true => value.exact,
            false => evaluate_exact(&formula),
        };
        self.steps.push(Step {
            id: id.clone(),
            role: std::mem::take(&mut self.role),
            leg: self.leg,
            say,
            formula,
            exact,
            value: value.text.clone(),
            unit: unit.to_owned(),
            why,
        });
        Worked {
            exact,
            of: Some(id),
            ..value
        }
    }
}

/// What a formula gives with the numbers as printed.
fn evaluate(formula: &Tokens) -> f64 {
    worked_out(formula)
}

/// What a formula gives with its inputs unrounded.
fn evaluate_exact(formula: &Tokens) -> f64 {
    let exact: String = formula
        .iter()
        .map(|token| match token {
            Token::Words(words) => words.clone(),
            Token::Number { exact, .. } | Token::Of { exact, .. } => format!("({exact})"),
        })
        .collect();
    worked_out(&exact)
}

/// Works out a printed formula: numbers, `+ - x / ^`, brackets. Signs bind as
/// in school; not a number if the text is no formula.
fn worked_out(formula: &str) -> f64 {
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
        assert!((worked_out("4.8 x 4.186 x (89.98 - 4.00)") - 1_727.578_9).abs() < 1e-3);
        assert_eq!(worked_out("2 + 3 x 4"), 14.0);
        assert_eq!(worked_out("0 - (-5.00)"), 5.0);
        assert_eq!(worked_out("12 / 3 / 2"), 2.0);
        assert_eq!(worked_out("8 x 2^(10 / 10)"), 16.0);
        assert!(worked_out("2 +").is_nan());
        assert!(worked_out("(2").is_nan());
        assert!(worked_out("2 L").is_nan());
    }

    #[test]
    fn results_have_four_digits_and_chain_on_what_is_printed() {
        let mut lines = Lines::default();
        let third = lines.work(Phrase::none(), "10 / 3", "L", Phrase::none());
        assert_eq!(third.text(), "3.333");
        let whole = lines.work(Phrase::none(), format!("3 x {third}"), "L", Phrase::none());
        assert_eq!(whole.text(), "9.999");
        let steps = lines.steps();
        assert_eq!(steps[1].formula.to_string(), "3 x 3.333");
        assert_eq!((steps[1].number(), steps[1].exact), (9.999, 10.0));
    }

    #[test]
    fn equal_digits_of_different_lines_are_told_apart() {
        let mut lines = Lines::at("x");
        let given = lines.given(Phrase::none(), Worked::four(12.5), "g", Phrase::none());
        let worked = lines.work(Phrase::none(), "25 / 2", "g", Phrase::none());
        lines.work(
            Phrase::none(),
            format!("{given} + {worked} + 12.5"),
            "g",
            Phrase::none(),
        );
        let steps = lines.steps();
        let named = steps[2].formula.naming(|step| Some(format!("[{step}]")));
        assert_eq!(named, "[x.line.1] + [x.line.2] + 12.5");
        assert_eq!(steps[2].formula.to_string(), "12.5 + 12.5 + 12.5");
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
