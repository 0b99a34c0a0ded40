//! Facts and rules as people read them, in the reader's units.

use super::catalogue::text;
use crate::course::timetable::{Covering, Why};
use crate::nouns::{FactValue, Library, RuleValue, Session};
use crate::phrase::{Arg, Phrase, Said, phrase};
use crate::plan::{Reason, Verdict};
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
        RuleValue::Length(length) if *length == Length::ZERO => text(&phrase!("length-none")),
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
        text(&phrase!("time-in-days", days = minutes / 1440.0))
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
pub fn verdict(verdict: &Verdict, units: Units) -> String {
    let joined = |reasons: &[Reason]| {
        let each = reasons.iter().map(|one| reason(one, true, units));
        each.reduce(|some, more| phrase!("applies-and", some = some, more = more))
            .unwrap_or_else(|| phrase!("applies-always"))
    };
    text(&match verdict {
        Ok(because) => joined(because),
        Err(not) => reason(not, false, units),
    })
}

fn reason(reason: &Reason, holds: bool, units: Units) -> Phrase {
    match reason {
        Reason::Kind(kind) if holds => phrase!("applies-kind", kind = kind),
        Reason::Kind(kind) => phrase!("applies-kind-not", kind = kind),
        Reason::Flame(flame) => match (flame, holds) {
            (true, true) => phrase!("applies-flame"),
            (true, false) | (false, true) => phrase!("applies-no-flame"),
            (false, false) => phrase!("applies-only-without-flame"),
        },
        Reason::Fuel { of, found } => match found {
            Some((kitchen, fuel)) => phrase!("applies-fuel", kitchen = kitchen, fuel = fuel),
            None => phrase!("applies-fuel-not", any = any(of)),
        },
        Reason::Stove { of, found } => match found {
            Some((kitchen, stove)) => phrase!("applies-stove", kitchen = kitchen, stove = stove),
            None => phrase!("applies-stove-not", any = any(of)),
        },
        Reason::Windscreen { of, found } => match found {
            Some((kitchen, screen)) => {
                phrase!("applies-windscreen", kitchen = kitchen, screen = screen)
            }
            None => phrase!("applies-windscreen-not", any = any(of)),
        },
        Reason::ColderThan(limit, found) => {
            let limit = say::temperature(*limit, units);
            match found {
                Some(camp) => phrase!("applies-colder", limit = limit, camp = camp),
                None => phrase!("applies-colder-not", limit = limit),
            }
        }
        Reason::HigherThan(limit, found) => {
            let limit = say::elevation(*limit, units);
            match found {
                Some(camp) => phrase!("applies-higher", camp = camp, limit = limit),
                None => phrase!("applies-higher-not", limit = limit),
            }
        }
        Reason::PeopleFrom(_, people) if holds => phrase!("applies-people", people = people),
        Reason::PeopleFrom(least, _) => phrase!("applies-people-not", people = least),
        Reason::YoungestUnder(_) if holds => phrase!("applies-young"),
        Reason::YoungestUnder(limit) => phrase!("applies-young-not", age = limit),
        Reason::Place { of, found } => match found {
            Some((camp, place)) => phrase!("applies-place", camp = camp, place = place),
            None => phrase!("applies-place-not", any = any(of)),
        },
        Reason::PlaceOtherThan { of, found } => match found {
            Some((camp, place)) => phrase!("applies-place", camp = camp, place = place),
            None => phrase!("applies-place-only", any = any(of)),
        },
        Reason::WaterFrom { of, found } => match found {
            Some((camp, from)) => phrase!("applies-water", from = from, camp = camp),
            None => phrase!("applies-water-not", any = any(of)),
        },
        Reason::Arrival(_) if holds => phrase!("applies-arrival"),
        Reason::Arrival(of) => phrase!("applies-arrival-not", any = any(of)),
        Reason::Treatment(_, how) if holds => phrase!("applies-treatment", how = how),
        Reason::Treatment(of, _) => phrase!("applies-treatment-not", any = any(of)),
        Reason::Washing(_, how) if holds => phrase!("applies-washing", how = how),
        Reason::Washing(of, _) => phrase!("applies-washing-not", any = any(of)),
        Reason::Diet if holds => phrase!("applies-diet"),
        Reason::Diet => phrase!("applies-diet-not"),
        Reason::AnyOf(reasons) => {
            let each = reasons.iter().map(|one| self::reason(one, holds, units));
            let joined = each.reduce(|some, more| match holds {
                true => phrase!("applies-or", some = some, more = more),
                false => phrase!("applies-or-not", some = some, more = more),
            });
            joined.unwrap_or_default()
        }
    }
}

/// One of several: this or that.
fn any<T: Said>(words: &[T]) -> Phrase {
    let each = words.iter().map(|one| phrase!("as-written", words = one));
    each.reduce(|some, more| phrase!("any-of", some = some, more = more))
        .unwrap_or_default()
}

/// An uncertain input: `wind`, `amount`.
#[must_use]
pub fn doubt(input: &str) -> String {
    let input = Arg::Word(input.to_owned());
    text(&phrase!("doubt-of", input = input))
}

/// Why a segment or subject is left out.
#[must_use]
pub fn left_out(why: Why) -> String {
    text(&match why {
        Why::NoRoom => phrase!("left-out-no-room"),
        Why::Indoors => phrase!("left-out-indoors"),
        Why::NoAdult => phrase!("left-out-no-adult"),
        Why::Ban => phrase!("left-out-ban"),
        Why::OutdoorsOnly => phrase!("left-out-outdoors-only"),
        Why::OpensFuel => phrase!("left-out-opens-fuel"),
        Why::Light => phrase!("left-out-light"),
        Why::NotHere => phrase!("left-out-not-here"),
        Why::Waits => phrase!("left-out-waits"),
    })
}

/// What is done for an objective.
#[must_use]
pub fn covering(covering: Covering) -> String {
    text(&match covering {
        Covering::Shown => phrase!("covered-shown"),
        Covering::Practised => phrase!("covered-practised"),
        Covering::PractisedLit => phrase!("covered-practised-lit"),
        Covering::Assessed => phrase!("covered-assessed"),
    })
}

/// Two values of a kind with the unit said once where it is the same.
fn between(low: &str, high: &str) -> String {
    let unit = |text: &str| text.split_once(' ').map(|(_, unit)| unit.to_owned());
    match (low.split_once(' '), unit(high)) {
        (Some((number, unit)), Some(other)) if unit == other && !unit.contains('(') => {
            from_to(number, high)
        }
        _ => match (low.strip_suffix('%'), high.strip_suffix('%')) {
            (Some(number), Some(_)) => from_to(number, high),
            _ => from_to(low, high),
        },
    }
}

/// `5 to 9 °C`.
#[must_use]
pub fn from_to(low: &str, high: &str) -> String {
    text(&phrase!("from-to", low = low, high = high))
}

/// The name of a session; one that nobody named has its number.
#[must_use]
pub fn session(name: &str) -> String {
    Session::number(name).map_or_else(
        || name.to_owned(),
        |number| text(&phrase!("session-unnamed", number = number)),
    )
}

/// Whose rule it is: the trip's own, a place's by its title, or the usual one.
#[must_use]
pub fn rule_from(from: &str, library: &Library) -> String {
    match from {
        "trip" => text(&phrase!("rule-from-trip")),
        "default" => text(&phrase!("rule-from-default")),
        place => library
            .places
            .get(place)
            .map_or_else(|| place.to_owned(), |place| place.title.clone()),
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
