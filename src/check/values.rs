//! Single values: what a person typed to what it means, or a problem there.

use super::countries::near_places;
use super::desk::{Desk, shown, suggestion};
use super::mend;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{Blend, Date, Id, Library, Place, id};
use crate::units::{Fraction, Quantity, Temperature};
use std::ops::RangeInclusive;

/// The place whose rules hold where a camp names none.
pub(super) const USUAL_PLACE: &str = "inland-forest";

/// Titles and names are a line, not a page.
pub(super) const LONGEST_LINE: usize = 200;

impl Desk {
    /// A scalar as typed.
    pub fn scalar<'n>(&self, node: &'n Node, what: &'static str) -> Option<&'n str> {
        match &node.value {
            Value::Text(text) => Some(text),
            _ => self.error(
                node,
                "value.shape",
                told!(
                    "expected {what}, found {kind}",
                    what = Told::from(what),
                    kind = Told::from(node.kind())
                ),
                if node.is_bracketed() {
                    "leave the brackets out, or put quotes around a text that starts with one"
                } else {
                    "write one value after the colon"
                },
            ),
        }
    }

    /// A line of plain text: not empty, not long, one line.
    pub fn line(&self, node: &Node, what: &'static str) -> Option<String> {
        let text = self.scalar(node, what)?.trim();
        if text.is_empty() {
            return self.error(
                node,
                "value.empty",
                told!(
                    "expected {what}, found nothing between the quotes",
                    what = Told::from(what)
                ),
                "write a few words",
            );
        }
        if text.chars().count() > LONGEST_LINE {
            return self.error(
                node,
                "value.long",
                told!(
                    "{what} is {count} characters long; {LONGEST_LINE} fit on paper",
                    what = Told::from(what),
                    count = text.chars().count(),
                    LONGEST_LINE
                ),
                "shorten it",
            );
        }
        if let Some(c) = text.chars().find(|c| c.is_control() && *c != '\n') {
            return self.error(
                node,
                "value.control",
                told!(
                    "{what} holds a control character (U+{c})",
                    what = Told::from(what),
                    c = format!("{:04X}", c as u32)
                ),
                "write plain text",
            );
        }
        Some(text.split_whitespace().collect::<Vec<_>>().join(" "))
    }

    /// A quantity with its unit.
    pub fn quantity<Q: Quantity>(&self, node: &Node) -> Option<Q> {
        let text = self.scalar(node, Q::NAME)?;
        match Q::read(text) {
            Ok(value) => Some(value),
            Err(misread) => self.error(node, "value.quantity", misread.message, misread.help),
        }
    }

    /// A quantity inside a range; `limits` says the range as a person reads it.
    pub fn within<Q: Quantity + PartialOrd>(
        &self,
        node: &Node,
        range: RangeInclusive<Q>,
        limits: &'static str,
    ) -> Option<Q> {
        let value = self.quantity::<Q>(node)?;
        if range.contains(&value) {
            return Some(value);
        }
        let side = Told::from(if value < *range.start() {
            "low"
        } else {
            "high"
        });
        self.error(
            node,
            "value.range",
            told!(
                "`{node}` is too {side}",
                node = shown(node.text().unwrap_or_default()),
                side
            ),
            told!("write {limits}", limits = Told::from(limits)),
        )
    }

    /// A temperature of air, water or snow outdoors.
    pub fn outdoor_temperature(&self, node: &Node) -> Option<Temperature> {
        self.within(
            node,
            Temperature::celsius(-60.0)..=Temperature::celsius(60.0),
            "a temperature from -60 C to 60 C (-76 F to 140 F)",
        )
    }

    /// A plain number.
    pub fn number(
        &self,
        node: &Node,
        what: &'static str,
        range: RangeInclusive<f64>,
    ) -> Option<f64> {
        let text = self.scalar(node, what)?.trim();
        let plain = text.replace('\u{2212}', "-");
        let digits = !plain.is_empty()
            && plain
                .chars()
                .all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
        let value = digits.then(|| plain.parse::<f64>().ok()).flatten();
        match value {
            Some(value) if range.contains(&value) => Some(value),
            Some(_) => self.error(
                node,
                "value.range",
                told!(
                    "`{value}` is out of range for {what}",
                    value = shown(text),
                    what = Told::from(what)
                ),
                told!(
                    "write a number from {start} to {end}",
                    start = range.start(),
                    end = range.end()
                ),
            ),
            None => self.error(
                node,
                "value.number",
                told!(
                    "expected {what} (a number), found `{value}`",
                    what = Told::from(what),
                    value = shown(text)
                ),
                match text.trim_matches(|c: char| !c.is_ascii_digit() && c != '.') {
                    bare if bare.parse::<f64>().is_ok() => {
                        told!("write the number alone: `{bare}`", bare)
                    }
                    _ => Told::from("write a plain number such as `12` or `0.5`"),
                },
            ),
        }
    }

    /// A whole number.
    pub fn whole(
        &self,
        node: &Node,
        what: &'static str,
        range: RangeInclusive<u32>,
    ) -> Option<u32> {
        let text = self.scalar(node, what)?.trim();
        let wanted = told!(
            "write a whole number from {start} to {end}",
            start = range.start(),
            end = range.end()
        );
        if !text.is_empty() && text.chars().all(|c| c.is_ascii_digit()) {
            return match text.parse::<u32>() {
                Ok(value) if range.contains(&value) => Some(value),
                _ => self.error(
                    node,
                    "value.range",
                    told!(
                        "`{value}` is out of range for {what}",
                        value = shown(text),
                        what = Told::from(what)
                    ),
                    wanted,
                ),
            };
        }
        let message = match text.parse::<f64>() {
            Ok(value) if value < 0.0 => told!(
                "{what} cannot be below zero: `{value}`",
                what = Told::from(what),
                value = shown(text)
            ),
            Ok(value) if value.is_finite() => {
                told!(
                    "{what} must be a whole number, not `{value}`",
                    what = Told::from(what),
                    value = shown(text)
                )
            }
            _ => told!(
                "expected {what} (a whole number), found `{value}`",
                what = Told::from(what),
                value = shown(text)
            ),
        };
        let meant = mend::whole(text).filter(|value| range.contains(value));
        let help = match meant {
            Some(value) => told!("write the number alone: `{value}`", value),
            None if text.starts_with(|c: char| c.is_ascii_digit())
                && text.contains(['-', '\u{2013}']) =>
            {
                Told::from("write one number; plan for the larger one")
            }
            None => wanted,
        };
        self.error(node, "value.whole", message, help)
    }

    /// Yes or no, as people write them.
    pub fn yes_no(&self, node: &Node) -> Option<bool> {
        let text = self.scalar(node, "yes or no")?;
        match text.trim().to_lowercase().as_str() {
            "yes" | "true" | "y" | "on" => Some(true),
            "no" | "false" | "n" | "off" => Some(false),
            _ => self.error(
                node,
                "value.yes-no",
                told!("expected yes or no, found `{value}`", value = shown(text)),
                "write `yes` or `no`",
            ),
        }
    }

    /// One of a closed set of words; a space and a hyphen are the same.
    pub fn word<T: Copy>(
        &self,
        node: &Node,
        what: &'static str,
        all: &[T],
        word: impl Fn(T) -> &'static str,
    ) -> Option<T> {
        let text = self.scalar(node, what)?;
        let wanted = id(text);
        if let Some(found) = all.iter().find(|one| id(word(**one)) == wanted) {
            return Some(*found);
        }
        let words: Vec<&str> = all.iter().map(|one| word(*one)).collect();
        self.error(
            node,
            "value.word",
            told!(
                "`{value}` is not known here as {what}",
                value = shown(text),
                what = Told::from(what)
            ),
            suggestion(text, words),
        )
    }

    /// A day.
    pub fn date(&self, node: &Node) -> Option<Date> {
        let text = self.scalar(node, "a date")?;
        Date::read(text).or_else(|| {
            self.error(
                node,
                "value.date",
                told!(
                    "`{value}` is not a day of the calendar, written as year-month-day",
                    value = shown(text)
                ),
                mend::day(text)
                    .unwrap_or_else(|| Told::from("write year-month-day, such as `2027-05-14`")),
            )
        })
    }

    /// A time of day, as minutes after midnight.
    pub fn clock(&self, node: &Node) -> Option<u32> {
        let text = self.scalar(node, "a time of day")?.trim();
        let read = || {
            let (hour, minute) = text.split_once(':')?;
            let digits = |part: &str| {
                !part.is_empty() && part.len() <= 2 && part.chars().all(|c| c.is_ascii_digit())
            };
            if !digits(hour) || !digits(minute) || minute.len() != 2 {
                return None;
            }
            let (hour, minute) = (hour.parse::<u32>().ok()?, minute.parse::<u32>().ok()?);
            (hour < 24 && minute < 60).then_some(hour * 60 + minute)
        };
        read().or_else(|| {
            self.error(
                node,
                "value.clock",
                told!("`{value}` is not a time of day", value = shown(text)),
                mend::clock_meant(text).map_or_else(
                    || Told::from("write hours and minutes of 24 hours, such as `9:00` or `14:30`"),
                    |meant| told!("write `{meant}`", meant),
                ),
            )
        })
    }

    /// A share above 0 and at most 100 %.
    pub fn efficiency(&self, node: &Node) -> Option<Fraction> {
        let value = self.quantity::<Fraction>(node)?;
        if value > Fraction::percent(100.0) {
            return self.error(
                node,
                "value.efficiency",
                "an efficiency over 100 % would make heat from nothing",
                "write the share of the fuel's heat that ends up in water and pot, such as `45%`",
            );
        }
        if value <= Fraction::ZERO {
            return self.error(
                node,
                "value.efficiency",
                "a stove with an efficiency of 0 % or less never boils",
                "write the share of the fuel's heat that ends up in water and pot, such as `45%`",
            );
        }
        Some(value)
    }

    /// The make-up of canister gas by mass: `propane 30, isobutane 70`.
    pub fn blend(&self, node: &Node) -> Option<Blend> {
        const HELP: &str = "write shares by mass that add to 100, such as `propane 30, isobutane 70`; gases: propane, isobutane, n-butane";
        let text = self.scalar(node, "a blend")?;
        let blend = match Blend::read(text) {
            Ok(blend) => blend,
            Err(misread) => return self.error(node, "value.blend", misread.message, HELP),
        };
        let sum = blend.sum();
        if !blend.adds_up() {
            return self.error(
                node,
                "value.blend",
                told!(
                    "the shares of the blend add to {sum} %, not 100 %",
                    sum = crate::units::say::significant(sum.in_percent(), 4)
                ),
                HELP,
            );
        }
        // labels round: 33, 33 and 33 are thirds
        let exact = |share: Fraction| Fraction::of_one(share / sum);
        Some(Blend {
            propane: exact(blend.propane),
            isobutane: exact(blend.isobutane),
            butane: exact(blend.butane),
        })
    }

    /// An id of something in the library, by id or by name.
    pub fn named<'l, T>(
        &self,
        node: &Node,
        what: &'static str,
        known: &'l std::collections::BTreeMap<Id, T>,
        name: impl Fn(&T) -> &str,
    ) -> Option<&'l T> {
        let text = self.scalar(node, what)?;
        let wanted = id(text);
        known
            .get(&wanted)
            .or_else(|| known.values().find(|one| id(name(one)) == wanted))
            .or_else(|| {
                self.error(
                    node,
                    "name.unknown",
                    told!(
                        "there is no {what} named `{value}`",
                        what = Told::from(what),
                        value = shown(text)
                    ),
                    suggestion(&wanted, known.keys().map(String::as_str)),
                )
            })
    }

    /// An entry that must be in the library for a default to work.
    pub fn catalogue<'l, T>(
        &self,
        node: &Node,
        what: &'static str,
        known: &'l std::collections::BTreeMap<Id, T>,
        wanted: &str,
    ) -> Option<&'l T> {
        known.get(wanted).or_else(|| {
            self.error(
                node,
                "name.unknown",
                told!(
                    "the library has no {what} `{wanted}`, which is the default here",
                    what = Told::from(what),
                    wanted
                ),
                "state it in the trip, or add it to the library",
            )
        })
    }
}

impl Desk {
    /// A place by id or title.
    pub fn place<'l>(&self, node: &Node, library: &'l Library) -> Option<&'l Place> {
        let wanted = id(self.scalar(node, "a place")?);
        let places = &library.places;
        places
            .get(&wanted)
            .or_else(|| places.values().find(|one| id(&one.title) == wanted))
            .or_else(|| self.no_place(node, library))
    }

    /// An error: no place has this name.
    pub fn no_place<T>(&self, node: &Node, library: &Library) -> Option<T> {
        let text = node.text().unwrap_or_default();
        self.error(
            node,
            "name.unknown",
            told!("there is no place named `{value}`", value = shown(text)),
            near_places(&id(text), &library.places, USUAL_PLACE),
        )
    }
}

/// Whether a text has the unit feet.
pub(super) fn in_feet(node: &Node) -> bool {
    let text = node.text().unwrap_or_default().trim().to_lowercase();
    ["ft", "feet", "foot", "ft."]
        .iter()
        .any(|unit| text.ends_with(unit))
}

/// The parts of the library that several readers ask for.
impl Desk {
    /// A fuel by id, name, kind or one of its other names.
    pub fn fuel<'l>(&self, node: &Node, library: &'l Library) -> Option<&'l crate::nouns::Fuel> {
        let text = self.scalar(node, "a fuel")?;
        let wanted = id(text);
        library.fuel_called(text).or_else(|| {
            self.error(
                node,
                "name.unknown",
                told!("there is no fuel named `{value}`", value = shown(text)),
                suggestion(&wanted, library.fuels.keys().map(String::as_str)),
            )
        })
    }
}
