//! Whether a module, caution, item or drawing applies to a trip, and why.

use crate::nouns::{AppliesWhen, Trip};
use crate::units::say;

/// Whether all conditions hold on a trip.
#[must_use]
pub fn applies(when: &AppliesWhen, trip: &Trip) -> bool {
    judge(when, trip).is_ok()
}

/// Why conditions hold on a trip, or the first that does not.
///
/// # Errors
/// The words for a condition that does not hold: `nobody burns alcohol`.
pub fn judge(when: &AppliesWhen, trip: &Trip) -> Result<String, String> {
    let mut because = Vec::new();
    let mut test = |holds: bool, yes: String, no: String| {
        if holds {
            because.push(yes);
            Ok(())
        } else {
            Err(no)
        }
    };
    if let Some(kind) = when.kind {
        test(
            trip.kind == kind,
            format!("it is a {kind}"),
            format!("only for a {kind}"),
        )?;
    }
    if let Some(flame) = when.flame {
        test(
            flame != trip.without_flame(),
            if flame {
                "a stove may be lit".to_owned()
            } else {
                "no stove may be lit".to_owned()
            },
            if flame {
                "no stove may be lit".to_owned()
            } else {
                "only where no stove may be lit".to_owned()
            },
        )?;
    }
    // Where none may be lit, no stove goes along.
    let kitchens = if trip.without_flame() {
        &[]
    } else {
        trip.kitchens.as_slice()
    };
    if !when.fuel.is_empty() {
        let burnt = kitchens
            .iter()
            .find(|kitchen| when.fuel.contains(&kitchen.fuel.kind));
        test(
            burnt.is_some(),
            burnt.map_or_else(String::new, |kitchen| {
                format!("{} burns {}", kitchen.name, kitchen.fuel.name)
            }),
            format!("nobody burns {}", any(&when.fuel)),
        )?;
    }
    if !when.stove.is_empty() {
        let used = kitchens
            .iter()
            .find(|kitchen| when.stove.contains(&kitchen.stove.family));
        test(
            used.is_some(),
            used.map_or_else(String::new, |kitchen| {
                format!("{} cooks on {}", kitchen.name, kitchen.stove.name)
            }),
            format!("no stove is {}", any(&when.stove)),
        )?;
    }
    if let Some(limit) = when.colder_than {
        let cold = trip.camps.iter().find(|camp| camp.night < limit);
        let said = say::temperature(limit, trip.units);
        test(
            cold.is_some(),
            cold.map_or_else(String::new, |camp| {
                format!("nights below {said} at {}", camp.name)
            }),
            format!("no night is below {said}"),
        )?;
    }
    if let Some(limit) = when.higher_than {
        let high = trip.camps.iter().find(|camp| camp.elevation > limit);
        let said = say::elevation(limit, trip.units);
        test(
            high.is_some(),
            high.map_or_else(String::new, |camp| format!("{} is above {said}", camp.name)),
            format!("no camp is above {said}"),
        )?;
    }
    if let Some(least) = when.people_from {
        test(
            trip.people.all() >= least,
            format!("{} people", trip.people.all()),
            format!("fewer than {least} people"),
        )?;
    }
    if let Some(limit) = when.youngest_under {
        // An unknown age is taken for young: the cautious side.
        test(
            trip.people.youngest.is_none_or(|age| age < limit),
            "someone may be young".to_owned(),
            format!("nobody is under {limit}"),
        )?;
    }
    if !when.place.is_empty() {
        let there = trip
            .camps
            .iter()
            .find(|camp| when.place.contains(&camp.place));
        test(
            there.is_some(),
            there.map_or_else(String::new, |camp| {
                format!("{} is in {}", camp.name, camp.place)
            }),
            format!("no camp is in {}", when.place.join(" or ")),
        )?;
    }
    if !when.place_other_than.is_empty() {
        let there = trip
            .camps
            .iter()
            .find(|camp| !when.place_other_than.contains(&camp.place));
        test(
            there.is_some(),
            there.map_or_else(String::new, |camp| {
                format!("{} is in {}", camp.name, camp.place)
            }),
            format!("every camp is in {}", when.place_other_than.join(" or ")),
        )?;
    }
    if !when.water_from.is_empty() {
        let from = trip
            .camps
            .iter()
            .find(|camp| when.water_from.contains(&camp.water_from));
        test(
            from.is_some(),
            from.map_or_else(String::new, |camp| {
                format!("water from {} at {}", camp.water_from, camp.name)
            }),
            format!("no water from {}", any(&when.water_from)),
        )?;
    }
    if !when.arrival.is_empty() {
        test(
            trip.arrival.is_some_and(|how| when.arrival.contains(&how)),
            "how they arrive".to_owned(),
            format!("they do not arrive by {}", any(&when.arrival)),
        )?;
    }
    if !when.treatment.is_empty() {
        test(
            when.treatment.contains(&trip.treatment),
            format!("water treated by {}", trip.treatment),
            format!("water is not treated by {}", any(&when.treatment)),
        )?;
    }
    if when.diet {
        test(
            !trip.people.diet.is_empty(),
            "someone has a diet or allergy".to_owned(),
            "no diet is stated".to_owned(),
        )?;
    }
    if !when.any.is_empty() {
        let judged: Vec<Result<String, String>> =
            when.any.iter().map(|one| judge(one, trip)).collect();
        let holds = judged.iter().find_map(|one| one.as_ref().ok());
        let fails = judged.iter().filter_map(|one| one.as_ref().err().cloned());
        test(
            holds.is_some(),
            holds.cloned().unwrap_or_default(),
            fails.collect::<Vec<_>>().join(", and "),
        )?;
    }
    Ok(if because.is_empty() {
        "it always applies".to_owned()
    } else {
        because.join("; ")
    })
}

fn any<T: std::fmt::Display>(words: &[T]) -> String {
    let words: Vec<String> = words.iter().map(ToString::to_string).collect();
    words.join(" or ")
}
