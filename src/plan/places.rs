//! Names of camps and kitchens in ids and in the names of files: the one place that makes them.

use crate::nouns::Trip;

pub use crate::nouns::file_name as slug;

/// The name of a camp in ids; two camps of one name are told apart by their number.
#[must_use]
pub fn camp(trip: &Trip, index: usize) -> String {
    let names: Vec<&str> = trip.camps.iter().map(|camp| camp.name.as_str()).collect();
    distinct(&names, index)
}

/// The name of a kitchen in ids and file names; as [`camp`].
#[must_use]
pub fn kitchen(trip: &Trip, index: usize) -> String {
    let kitchens = trip.kitchens.iter();
    let names: Vec<&str> = kitchens.map(|kitchen| kitchen.name.as_str()).collect();
    distinct(&names, index)
}

/// The slug of one of several names, with its number where an earlier name has the same or none.
fn distinct(names: &[&str], index: usize) -> String {
    let own = slug(names.get(index).copied().unwrap_or_default());
    let taken = names.iter().take(index).any(|name| slug(name) == own);
    match (own.is_empty(), taken) {
        (true, _) => (index + 1).to_string(),
        (false, true) => format!("{own}-{}", index + 1),
        (false, false) => own,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_told_apart() {
        let names = ["Tarn bench", "Tarn Bench!", "***"];
        let slugs: Vec<String> = (0..3).map(|index| distinct(&names, index)).collect();
        assert_eq!(slugs, ["tarn-bench", "tarn-bench-2", "3"]);
    }
}
