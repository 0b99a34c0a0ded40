//! What holds at each camp: rules in force, and the water to get rid of.

use super::camps::{behind, known};
use super::places;
use super::steps::{Lines, Worked};
use super::types::{GreywaterPlan, Role, RulePlan};
use crate::nouns::{Basis, Camp, CampRule, Date, Kind, Library, RuleValue, Trip};
use crate::phrase::{Phrase, phrase};
use crate::units::{Length, Units, Volume};

/// The rule that says how far wash water is carried.
const DISTANCE: &str = "greywater.distance";
/// The rule that says how it is got rid of.
const METHOD: &str = "greywater.method";

/// Days from a fixed day to a date of the Gregorian calendar.
fn day_number(date: Date) -> i64 {
    // Years start in March, so that the leap day is the last (common practice of calendars).
    let (month, year) = (i64::from(date.month), i64::from(date.year));
    let (month, year) = if month > 2 {
        (month - 3, year)
    } else {
        (month + 9, year - 1)
    };
    365 * year + year / 4 - year / 100 + year / 400 + (153 * month + 2) / 5 + i64::from(date.day)
}

/// How many days old a place's rule is at the start of the trip (else at the library's edition),
/// when that is more than the place allows.
fn stale(trip: &Trip, library: &Library, camp: &Camp, rule: &CampRule) -> Option<u32> {
    let read = rule.as_of?;
    let allowed = library.places.get(&camp.place)?.stale_after;
    let days = day_number(trip.starts.unwrap_or(library.edition)) - day_number(read);
    u32::try_from(days).ok().filter(|days| *days > allowed)
}

/// The rules in force, camp by camp, by key.
pub(crate) fn rules(trip: &Trip, library: &Library) -> Vec<RulePlan> {
    let mut all = Vec::new();
    for (index, camp) in trip.camps.iter().enumerate() {
        let mut here: Vec<RulePlan> = camp
            .rules
            .iter()
            .map(|(key, said)| RulePlan {
                camp: index,
                rule: key.clone(),
                said: said.clone(),
                stale: stale(trip, library, camp, said),
            })
            .collect();
        if trip.kind == Kind::Trip && !camp.rules.contains_key(DISTANCE) {
            here.push(RulePlan {
                camp: index,
                rule: DISTANCE.to_owned(),
                said: default_distance(library),
                stale: None,
            });
            here.sort_by(|a, b| a.rule.cmp(&b.rule));
        }
        all.extend(here);
    }
    all
}

/// The distance where neither trip nor place says one.
fn default_distance(library: &Library) -> CampRule {
    let figure = &library.figures.greywater_distance;
    CampRule {
        value: RuleValue::Length(figure.value),
        from: "default".to_owned(),
        sources: figure.sources.clone(),
        as_of: None,
        checked: None,
        verify: false,
    }
}

/// The distance in force at a camp and where it comes from. A rule in words (`carry out`) gives
/// no distance: then the default stands, which is the cautious side.
fn distance(library: &Library, camp: &Camp) -> (Length, CampRule) {
    match camp.rules.get(DISTANCE) {
        Some(
            rule @ CampRule {
                value: RuleValue::Length(length),
                ..
            },
        ) => (*length, rule.clone()),
        _ => (
            library.figures.greywater_distance.value,
            default_distance(library),
        ),
    }
}

/// Water to get rid of at each camp; a lesson washes at home.
pub(crate) fn greywater(trip: &Trip, library: &Library) -> Vec<GreywaterPlan> {
    if trip.kind == Kind::Lesson {
        return Vec::new();
    }
    let Some(method) = library.figures.washing.get(&trip.washing) else {
        return Vec::new();
    };
    let people: u32 = trip.kitchens.iter().map(|kitchen| kitchen.people).sum();
    let kitchens = trip.kitchens.len();
    let per_kitchen: Volume = method.a_kitchen.iter().map(|(water, _)| *water).sum();
    let per_day = method.a_person * f64::from(people) + per_kitchen * kitchens as f64;
    let why = known(method.basis, &method.sources);
    trip.camps
        .iter()
        .enumerate()
        .map(|(index, camp)| {
            let mut lines = Lines::at(format!("camp.{}.greywater", places::camp(trip, index)));
            let mut terms = Vec::new();
            if method.a_person > Volume::ZERO {
                let litres = Worked::four(method.a_person.in_litres());
                terms.push(format!("{litres} x {people}"));
            }
            if per_kitchen > Volume::ZERO {
                let litres = Worked::four(per_kitchen.in_litres());
                terms.push(format!("{litres} x {kitchens}"));
            }
            if !terms.is_empty() {
                lines.role(Role::WashWater).work(
                    phrase!("line-wash-water", washing = trip.washing),
                    terms.join(" + "),
                    "L",
                    why.clone(),
                );
            }
            let (distance, rule) = distance(library, camp);
            let from = rule.from.clone();
            let steps = paces(&mut lines, trip, library, distance, &rule);
            GreywaterPlan {
                camp: index,
                per_day,
                distance,
                steps,
                method: how(camp, rule.verify),
                from,
                working: lines.steps(),
            }
        })
        .collect()
}

/// How wash water is got rid of at a camp, with 'verify' where nobody has read
/// that rule, or the one on the distance beside it, at its source.
fn how(camp: &Camp, verify_distance: bool) -> Phrase {
    let rule = camp.rules.get(METHOD);
    let method = match rule.map(|rule| &rule.value) {
        Some(RuleValue::Text(words)) => phrase!("as-written", words = words),
        _ => phrase!("wash-method-usual"),
    };
    if verify_distance || rule.is_some_and(|rule| rule.verify) {
        phrase!("to-verify", what = method)
    } else {
        method
    }
}

/// The distance in the user's own steps, up to the next whole one, printed.
fn paces(
    lines: &mut Lines,
    trip: &Trip,
    library: &Library,
    distance: Length,
    rule: &CampRule,
) -> u32 {
    let why = match rule.from.as_str() {
        "trip" => phrase!("why-trip"),
        "default" => behind(&library.figures.greywater_distance),
        place if rule.sources.is_empty() => {
            phrase!(
                "why-basis-of-place",
                basis = Basis::CommonPractice,
                place = place
            )
        }
        place => phrase!("why-place", place = place, sources = rule.sources),
    };
    let metres = if trip.units == Units::Us {
        let feet = Worked::given(distance.in_feet());
        lines.role(Role::WashDistance).work(
            phrase!("line-distance-from-water-metres"),
            format!("{feet} x 0.3048"),
            "m",
            why,
        )
    } else {
        lines.role(Role::WashDistance).given(
            phrase!("line-distance-from-water"),
            Worked::four(distance.in_metres()),
            "m",
            why,
        )
    };
    let step = Worked::four(trip.step.in_metres());
    let exact = lines.work(
        phrase!("line-your-steps", step = step),
        format!("{metres} / {step}"),
        "",
        phrase!("why-count-your-own"),
    );
    let whole = (exact.value() - 1e-9).ceil().max(0.0);
    lines.role(Role::WashSteps).given(
        phrase!("line-whole-steps"),
        Worked::given(whole),
        "",
        Phrase::none(),
    );
    whole as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_between_dates_count_leap_days() {
        let date = |text| Date::read(text).expect("a date");
        let apart = |a, b| day_number(date(b)) - day_number(date(a));
        assert_eq!(apart("2026-11-25", "2026-11-26"), 1);
        assert_eq!(apart("2027-02-28", "2027-03-01"), 1);
        assert_eq!(apart("2028-02-28", "2028-03-01"), 2);
        assert_eq!(apart("2026-01-01", "2027-01-01"), 365);
        assert_eq!(apart("2028-01-01", "2029-01-01"), 366);
        let start = date("2026-11-25");
        assert_eq!(day_number(start.plus_days(1000)) - day_number(start), 1000);
    }
}
