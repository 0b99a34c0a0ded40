//! Facts and rules as people read them, in the reader's units.

use super::applies::Reason;
use crate::nouns::{FactValue, RuleValue};
use crate::units::{Length, Time, Units, Volume, Warming, say};

/// A fact's value in words: `200 ft`, `5 to 9 °C`, `77 °C`.
#[must_use]
pub fn fact(value: &FactValue, units: Units) -> String {
    match value {
        FactValue::Length(length) => self::length(*length, units),
        FactValue::Temperature(point) => say::temperature(*point, units),
        FactValue::Warming(difference) => warming(*difference, units),
        FactValue::Mass(mass) => {
            if mass.in_grams() < 1000.0 {
                say::fuel(*mass, units)
            } else {
                say::load(*mass, units)
            }
        }
        FactValue::Volume(volume) => self::volume(*volume, units),
        FactValue::Time(time) => self::time(*time),
        FactValue::Pressure(pressure) => {
            format!("{} kPa", say::significant(pressure.in_kilopascals(), 3))
        }
        FactValue::Fraction(share) => format!("{}%", say::significant(share.in_percent(), 3)),
        FactValue::Angle(angle) => format!("{}°", say::number(angle.in_degrees(), 0)),
        FactValue::Number(number) => say::significant(*number, 4),
        FactValue::Between(low, high) => between(&fact(low, units), &fact(high, units)),
        FactValue::Text(words) => words.clone(),
    }
}

/// A rule's value in words.
#[must_use]
pub fn rule(value: &RuleValue, units: Units) -> String {
    match value {
        RuleValue::Length(length) if *length == Length::ZERO => "none".to_owned(),
        RuleValue::Length(length) => self::length(*length, units),
        RuleValue::Text(words) => words.clone(),
    }
}

/// A volume; quarts of large ones are whole, as nobody measures 10.6 of them.
#[must_use]
pub fn volume(volume: Volume, units: Units) -> String {
    let quarts = volume.in_quarts();
    if units == Units::Us && quarts >= 4.0 {
        format!("{} qt", say::number(quarts, 0))
    } else {
        say::volume(volume, units)
    }
}

/// A length: small ones as on a ruler, others as on the ground.
#[must_use]
pub fn length(length: Length, units: Units) -> String {
    let feet = length.in_feet();
    if units == Units::Us && feet >= 2.0 && (feet - feet.round()).abs() < 0.05 {
        say::distance(length, units)
    } else if length.in_metres() < 0.5 {
        say::small_length(length, units)
    } else {
        say::distance(length, units)
    }
}

/// A time: seconds where minutes would not be whole.
#[must_use]
pub fn time(time: Time) -> String {
    let minutes = time.in_minutes();
    let seconds = minutes * 60.0;
    if minutes < 2.0 && (minutes - minutes.round()).abs() > 0.01 {
        format!("{} s", say::significant(seconds, 2))
    } else if minutes >= 48.0 * 60.0 && minutes % 1440.0 == 0.0 {
        format!("{} days", say::number(minutes / 1440.0, 0))
    } else {
        say::time(time)
    }
}

/// A difference of temperatures, which has no zero point to shift.
#[must_use]
pub fn warming(difference: Warming, units: Units) -> String {
    let metric = format!("{} °C", say::significant(difference.kelvins(), 2));
    let us = format!("{} °F", say::significant(difference.kelvins() * 1.8, 2));
    match units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => format!("{metric} ({us})"),
    }
}

/// Why something applies, or does not.
#[must_use]
pub fn reason(reason: &Reason, holds: bool, units: Units) -> String {
    match reason {
        Reason::Kind(kind) if holds => format!("it is a {kind}"),
        Reason::Kind(kind) => format!("only for a {kind}"),
        Reason::Flame(flame) => match (flame, holds) {
            (true, true) => "a stove may be lit".to_owned(),
            (true, false) | (false, true) => "no stove may be lit".to_owned(),
            (false, false) => "only where no stove may be lit".to_owned(),
        },
        Reason::Fuel { of, found } => match found {
            Some((kitchen, fuel)) => format!("{kitchen} burns {fuel}"),
            None => format!("nobody burns {}", any(of)),
        },
        Reason::Stove { of, found } => match found {
            Some((kitchen, stove)) => format!("{kitchen} cooks on {stove}"),
            None => format!("no stove is {}", any(of)),
        },
        Reason::ColderThan(limit, found) => {
            let limit = say::temperature(*limit, units);
            match found {
                Some(camp) => format!("nights below {limit} at {camp}"),
                None => format!("no night is below {limit}"),
            }
        }
        Reason::HigherThan(limit, found) => {
            let limit = say::elevation(*limit, units);
            match found {
                Some(camp) => format!("{camp} is above {limit}"),
                None => format!("no camp is above {limit}"),
            }
        }
        Reason::PeopleFrom(_, people) if holds => format!("{people} people"),
        Reason::PeopleFrom(least, _) => format!("fewer than {least} people"),
        Reason::YoungestUnder(_) if holds => "someone may be young".to_owned(),
        Reason::YoungestUnder(limit) => format!("nobody is under {limit}"),
        Reason::Place { of, found } => match found {
            Some((camp, place)) => format!("{camp} is in {place}"),
            None => format!("no camp is in {}", any(of)),
        },
        Reason::PlaceOtherThan { of, found } => match found {
            Some((camp, place)) => format!("{camp} is in {place}"),
            None => format!("every camp is in {}", any(of)),
        },
        Reason::WaterFrom { of, found } => match found {
            Some((camp, from)) => format!("water from {from} at {camp}"),
            None => format!("no water from {}", any(of)),
        },
        Reason::Arrival(_) if holds => "how they arrive".to_owned(),
        Reason::Arrival(of) => format!("they do not arrive by {}", any(of)),
        Reason::Treatment(_, how) if holds => format!("water treated by {how}"),
        Reason::Treatment(of, _) => format!("water is not treated by {}", any(of)),
        Reason::Washing(_, how) if holds => format!("they wash up by {how}"),
        Reason::Washing(of, _) => format!("they do not wash up by {}", any(of)),
        Reason::Diet if holds => "someone has a diet or allergy".to_owned(),
        Reason::Diet => "no diet is stated".to_owned(),
        Reason::AnyOf(reasons) => {
            let joint = if holds { "; " } else { ", and " };
            let said = reasons.iter().map(|one| self::reason(one, holds, units));
            said.collect::<Vec<_>>().join(joint)
        }
    }
}

fn any<T: std::fmt::Display>(words: &[T]) -> String {
    let words: Vec<String> = words.iter().map(ToString::to_string).collect();
    words.join(" or ")
}

/// Two values of a kind with the unit said once where it is the same.
fn between(low: &str, high: &str) -> String {
    let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
    match (low.split_once(' '), unit(high)) {
        (Some((number, unit)), Some(other)) if unit == other && !unit.contains('(') => {
            format!("{number} to {high}")
        }
        _ => match (low.strip_suffix('%'), high.strip_suffix('%')) {
            (Some(number), Some(_)) => format!("{number} to {high}"),
            _ => format!("{low} to {high}"),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Temperature;

    #[test]
    fn says_facts_in_the_readers_units() {
        let low = FactValue::Temperature(Temperature::celsius(5.0));
        let high = FactValue::Temperature(Temperature::celsius(9.0));
        let range = FactValue::Between(Box::new(low), Box::new(high));
        assert_eq!(fact(&range, Units::Metric), "5 to 9 °C");
        assert_eq!(
            fact(&FactValue::Length(Length::feet(200.0)), Units::Metric),
            "61 m"
        );
        assert_eq!(time(Time::minutes(0.5)), "30 s");
    }
}
