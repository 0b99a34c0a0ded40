//! A place in a trip file, in words: `camps[0].water_from` is `Lower meadow: water from`.

use super::types::Plan;

impl Plan {
    /// What a key path is about, for people who do not count lists from nought.
    #[must_use]
    pub fn about(&self, path: &str) -> String {
        let mut owner = None;
        let mut rest: Vec<String> = Vec::new();
        for part in path.split('.') {
            let (name, index) = match part.strip_suffix(']').and_then(|part| part.split_once('[')) {
                Some((name, index)) => (name, index.parse::<usize>().ok()),
                None => (part, None),
            };
            let named = index.and_then(|index| match name {
                "camps" => self.camps.get(index).map(|camp| camp.name.clone()),
                "kitchens" | "stations" => {
                    self.kitchens.get(index).map(|kitchen| kitchen.name.clone())
                }
                _ => None,
            });
            let words = name.replace(['_', '-'], " ");
            match (named, index) {
                (Some(named), _) => owner = Some(named),
                (None, Some(index)) => rest.push(format!("{words} {}", index + 1)),
                (None, None) => rest.push(words),
            }
        }
        let rest = rest.join(", ");
        match owner {
            Some(owner) if rest.is_empty() => owner,
            Some(owner) => format!("{owner}: {rest}"),
            None => rest,
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{check, load, plan};

    #[test]
    fn a_place_in_the_file_is_said_in_words() {
        let (library, _) = check::library(&load::library(None).unwrap()).unwrap();
        let written = load::text(
            "trip.yaml",
            "title: A\npeople:\n  learners: 4\nstove: white gas\nwater_treatment: boil\n\
             camps:\n  - name: Low\n    nights: 1\n    elevation: 900 m\n",
        )
        .unwrap();
        let (trip, _) = check::trip(&written, &library).unwrap();
        let plan = plan::plan(&trip, &library).unwrap();
        assert_eq!(plan.about("camps[0].water_from"), "Low: water from");
        assert_eq!(plan.about("kitchens[0].pots"), "Kitchen 1: pots");
        assert_eq!(plan.about("camps[7].day"), "camps 8, day");
        assert_eq!(
            plan.about("course.fallback.place"),
            "course, fallback, place"
        );
        assert_eq!(plan.about("lid"), "lid");
    }
}
