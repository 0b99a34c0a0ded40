//! What a trip says held against what trips are usually like (`content/plausible.yaml`).
//!
//! Single values are found in the file by their keys, pairs of values in the trip as meant. A
//! value outside the usual range is asked about, one that cannot be is refused; where the same
//! number with another unit would be usual, that is what is suggested.

use super::desk::{Desk, shown};
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{Blend, Bound, Date, Dimension, Library, Measure, Plausible, Trip};
use crate::units::{Fraction, HeatingValue, Length, Mass, Quantity as _, Temperature, Time};
use crate::units::{Volume, say};

/// Reads a value of a measure, in the unit of its dimension; none where it cannot be read.
fn read(measure: Measure, text: &str) -> Option<f64> {
    let text = text.trim();
    match measure.dimension() {
        Dimension::Volume => Volume::read(text).ok().map(Volume::in_litres),
        Dimension::Length => Length::read(text).ok().map(Length::in_metres),
        Dimension::Temperature => Temperature::read(text).ok().map(Temperature::in_celsius),
        Dimension::Warming => text.strip_suffix('K')?.trim().parse().ok(),
        Dimension::Mass => Mass::read(text).ok().map(Mass::in_grams),
        Dimension::Time => Time::read(text).ok().map(Time::in_minutes),
        Dimension::Fraction => Fraction::read(text).ok().map(Fraction::in_percent),
        Dimension::HeatingValue => HeatingValue::read(text)
            .ok()
            .map(HeatingValue::in_megajoules_per_kilogram),
        Dimension::Number => text.parse().ok().filter(|number: &f64| number.is_finite()),
    }
}

/// A value in the words of its dimension.
fn words(measure: Measure, value: f64) -> String {
    let number = say::significant(value, 3);
    match measure.dimension() {
        Dimension::Volume => format!("{number} L"),
        Dimension::Length => format!("{number} m"),
        Dimension::Temperature => format!("{number} C"),
        Dimension::Warming => format!("{number} K"),
        Dimension::Mass => format!("{number} g"),
        Dimension::Time => format!("{number} min"),
        Dimension::Fraction => format!("{number}%"),
        Dimension::HeatingValue => format!("{number} MJ/kg"),
        Dimension::Number => number,
    }
}

/// An end of a range as the table has it.
pub(super) fn bound(desk: &Desk, measure: Measure, node: &Node) -> Option<Bound> {
    let text = desk.scalar(node, "an end of the range")?.trim();
    let value = read(measure, text);
    value
        .map(|value| Bound {
            value,
            words: text.to_owned(),
        })
        .or_else(|| {
            desk.error(
                node,
                "content.plausible",
                told!(
                    "`{value}` is no {measure} that can be read",
                    value = shown(text),
                    measure = measure.word()
                ),
                told!("write it as `{measure}`", measure = words(measure, 20.0)),
            )
        })
}

/// The measure that a key path holds, if it is one of the table.
fn measure_of(path: &str) -> Option<Measure> {
    let plain: String = path
        .split('[')
        .map(|part| part.split_once(']').map_or(part, |(_, rest)| rest))
        .collect();
    let keys: Vec<String> = plain.split('.').map(crate::load::folded_key).collect();
    let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
    match keys.as_slice() {
        ["starts"] => Some(Measure::Year),
        ["drinking"] => Some(Measure::Drinking),
        ["step_length"] => Some(Measure::StepLength),
        ["people", "youngest"] => Some(Measure::Youngest),
        ["elevation"] | ["camps", "elevation"] => Some(Measure::Elevation),
        ["day"] | ["camps", "day"] => Some(Measure::DayAir),
        ["night"] | ["camps", "night"] => Some(Measure::NightAir),
        ["water"] | ["camps", "water"] => Some(Measure::Water),
        [.., "greywater", "distance"] => Some(Measure::GreywaterDistance),
        [.., "supper" | "breakfast" | "lunch" | "drinks", "boil"] => Some(Measure::MealWater),
        [.., "simmer"] => Some(Measure::SimmerTime),
        [.., "heating_value"] => Some(Measure::HeatingValue),
        [.., "blend" | "present"] => Some(Measure::Propane),
        _ => None,
    }
}

/// The value of a measure as typed: of a day its year, of a blend its propane.
fn typed(measure: Measure, text: &str) -> Option<f64> {
    match measure {
        Measure::Year => Some(f64::from(Date::read(text)?.year)),
        Measure::Propane => {
            let blend = Blend::read(text).ok()?;
            blend.adds_up().then(|| blend.propane.in_percent())
        }
        _ => read(measure, text),
    }
}

/// Holds every single value of a file against the table.
pub(super) fn values(desk: &Desk, root: &Node, library: &Library) {
    match &root.value {
        Value::Map(entries) => {
            for entry in entries {
                values(desk, &entry.node, library);
            }
        }
        Value::List(items) => items.iter().for_each(|item| values(desk, item, library)),
        Value::Text(text) => {
            let found = measure_of(&root.path).and_then(|measure| {
                let usual = library.plausible.get(&measure)?;
                Some((measure, usual, typed(measure, text)?))
            });
            if let Some((measure, usual, value)) = found {
                held(desk, root, (measure, usual), value, text);
            }
        }
        Value::Nothing => {}
    }
}

/// Holds pairs of values against the table: what no value tells alone.
pub(super) fn pairs(desk: &Desk, root: &Node, trip: &Trip, library: &Library) {
    for (measure, value, path) in of_trip(trip) {
        if let Some(usual) = library.plausible.get(&measure) {
            let node = part(root, &path).unwrap_or(root);
            held(desk, node, (measure, usual), value, &words(measure, value));
        }
    }
}

/// Pairs of a trip, each with the key path where it is told.
fn of_trip(trip: &Trip) -> Vec<(Measure, f64, String)> {
    let mut found = Vec::new();
    let lesson = trip.kind == crate::nouns::Kind::Lesson;
    let kitchens = if lesson { "stations" } else { "kitchens" };
    for (index, kitchen) in trip.kitchens.iter().enumerate() {
        let path = format!("{kitchens}[{index}].pots");
        let litres: f64 = kitchen
            .pots
            .iter()
            .map(|pot| pot.capacity.in_litres())
            .sum();
        // at a station people take turns
        if kitchen.people > 0 && !lesson {
            let each = litres / f64::from(kitchen.people);
            found.push((Measure::PotsAPerson, each, path.clone()));
        }
        let stated = kitchen.pots.iter().enumerate();
        for (at, pot) in stated.filter(|(_, pot)| pot.mass_stated) {
            let grams = pot.mass.in_grams() / pot.capacity.in_litres();
            found.push((Measure::PotMassALitre, grams, format!("{path}[{at}]")));
        }
    }
    for (index, camp) in trip.camps.iter().enumerate() {
        if let Some(fuel) = camp.fuel_temperature {
            let above = fuel.in_celsius() - camp.night.in_celsius();
            let path = format!("camps[{index}].fuel_temperature");
            found.push((Measure::FuelAboveNight, above, path));
        }
    }
    let people = &trip.people;
    if people.youngest.is_some_and(|age| age < 16) {
        let path = "people.adults_per_lit_stove".to_owned();
        found.push((Measure::AdultsByChildren, people.adults_per_lit_stove, path));
        if people.instructors == 0 {
            let alone = f64::from(people.learners);
            found.push((Measure::ChildrenAlone, alone, "people.learners".to_owned()));
        }
    }
    found.extend(of_course(trip));
    found
}

/// Pairs of the course.
fn of_course(trip: &Trip) -> Vec<(Measure, f64, String)> {
    let course = &trip.course;
    if !course.stated {
        return Vec::new();
    }
    let mut found = Vec::new();
    let several = course.sessions.len() > 1;
    for (index, session) in course.sessions.iter().enumerate() {
        let path = if several {
            format!("course.sessions[{index}].minutes")
        } else {
            "course.minutes".to_owned()
        };
        found.push((Measure::SessionLength, session.length.in_minutes(), path));
    }
    let sessions = u32::try_from(course.sessions.len()).unwrap_or(u32::MAX);
    let path = "course.sessions".to_owned();
    found.push((Measure::Sessions, f64::from(sessions), path));
    let longest = course
        .sessions
        .iter()
        .map(|session| session.length.in_minutes())
        .fold(0.0, f64::max);
    if let Some(fallback) = &course.fallback
        && longest > 0.0
    {
        let share = 100.0 * fallback.length.in_minutes() / longest;
        let path = "course.fallback.minutes".to_owned();
        found.push((Measure::FallbackShare, share, path));
    }
    found
}

/// The deepest part of a file that a key path leads to.
fn part<'n>(root: &'n Node, path: &str) -> Option<&'n Node> {
    let mut node = root;
    for step in path.split('.') {
        let (key, at) = match step.split_once('[') {
            Some((key, at)) => (key, at.trim_end_matches(']').parse::<usize>().ok()),
            None => (step, None),
        };
        let Some(next) = node.get(key) else { break };
        node = next;
        if let (Some(at), Value::List(items)) = (at, &next.value)
            && let Some(item) = items.get(at)
        {
            node = item;
        }
    }
    (!std::ptr::eq(node, root)).then_some(node)
}

/// One value against its range.
fn held(desk: &Desk, node: &Node, (measure, usual): (Measure, &Plausible), value: f64, text: &str) {
    if usual.usual(value) || desk.told(&node.path) {
        // what is refused already, or is usual
        return;
    }
    let below = usual.low.as_ref().is_some_and(|low| value < low.value)
        || usual
            .least
            .as_ref()
            .is_some_and(|least| value < least.value);
    let meant = meant(measure, usual, text);
    let question = meant.map_or(Told::NOTHING, |text| told!("was `{text}` meant? ", text));
    let found = shown(text);
    if usual.possible(value) {
        let side = Told::from(if below { "little" } else { "much" });
        let message = told!(
            "`{found}` is {side} for {say}: {range}",
            found,
            side,
            say = Told::of_library(&usual.say),
            range = range(usual.low.as_ref(), usual.high.as_ref(), "usual")
        );
        desk.warn(
            node,
            "trip.unusual",
            message,
            told!(
                "{question}{because}; leave it where it is true",
                question,
                because = Told::of_library(plain(&usual.because))
            ),
        );
    } else {
        let message = told!(
            "`{found}` cannot be right for {say}: {range}",
            found,
            say = Told::of_library(&usual.say),
            range = range(usual.least.as_ref(), usual.most.as_ref(), "possible")
        );
        let help = told!(
            "{question}{because}",
            question,
            because = Told::of_library(plain(&usual.because))
        );
        desk.error::<()>(node, "trip.implausible", message, help);
    }
}

/// A reason without its full stop, so that the sentence can go on.
fn plain(reason: &str) -> &str {
    reason.trim().trim_end_matches('.')
}

/// A range in words.
fn range(low: Option<&Bound>, high: Option<&Bound>, word: &'static str) -> Told {
    let word = Told::from(word);
    match (low, high) {
        (Some(low), Some(high)) => {
            told!(
                "{low} to {high} is {word}",
                low = low.words,
                high = high.words,
                word
            )
        }
        (Some(low), None) => told!("{low} or more is {word}", low = low.words, word),
        (None, Some(high)) if high.value == 0.0 => "none is usual".into(),
        (None, Some(high)) => told!("up to {high} is {word}", high = high.words, word),
        (None, None) => Told::NOTHING,
    }
}

/// The same number with a unit that makes it usual.
fn meant(measure: Measure, usual: &Plausible, text: &str) -> Option<String> {
    let text = text.trim();
    let end =
        text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '\u{2212}')))?;
    let number = text[..end].trim();
    usual
        .perhaps
        .iter()
        .map(|unit| format!("{number} {unit}"))
        .find(|other| other != text && read(measure, other).is_some_and(|value| usual.usual(value)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_known_wherever_they_stand() {
        let of = |path| measure_of(path);
        assert_eq!(of("camps[12].elevation"), Some(Measure::Elevation));
        assert_eq!(of("camps[0].menu.supper.boil"), Some(Measure::MealWater));
        assert_eq!(of("Step Length"), Some(Measure::StepLength));
        assert_eq!(
            of("camps[0].rules.greywater.distance"),
            Some(Measure::GreywaterDistance)
        );
        assert_eq!(of("course.day"), None);
        assert_eq!(of("title"), None);
    }

    #[test]
    fn a_bound_is_read_in_its_own_unit() {
        assert_eq!(read(Measure::MealWater, "600 mL"), Some(0.6));
        assert_eq!(read(Measure::FuelAboveNight, "50 K"), Some(50.0));
        assert_eq!(read(Measure::Youngest, "8"), Some(8.0));
        assert_eq!(read(Measure::Elevation, "8"), None);
        assert_eq!(typed(Measure::Year, "2027-05-14"), Some(2027.0));
        assert_eq!(
            typed(Measure::Propane, "propane 30, n-butane 70"),
            Some(30.0)
        );
    }
}
