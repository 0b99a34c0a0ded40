//! What a keeper of the content must look at again by a day.

use crate::nouns::{Date, Library};

/// Days after which a page is looked up again.
const LOOK_AGAIN: u32 = 365;

/// One thing to look at again.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Due {
    /// The day by which it was due; none if nobody has ever looked.
    pub by: Option<Date>,
    /// `module`, `place` or `source`.
    pub what: &'static str,
    /// Its id or code.
    pub id: String,
    /// Why, in a few words.
    pub why: String,
    /// Where to look: addresses, else a file or a title.
    pub at: Vec<String>,
}

/// Modules whose review is due, rules of places that are stale, and sources that were looked up
/// more than a year before that day or never. The longest overdue first.
#[must_use]
pub fn stale(library: &Library, on: Date) -> Vec<Due> {
    let mut due: Vec<Due> = modules(library, on)
        .chain(places(library, on))
        .chain(sources(library, on))
        .collect();
    due.sort();
    due
}

fn modules(library: &Library, on: Date) -> impl Iterator<Item = Due> + '_ {
    library
        .modules
        .values()
        .filter(move |module| module.review_by <= on)
        .map(|module| Due {
            by: Some(module.review_by),
            what: "module",
            id: module.id.clone(),
            why: format!(
                "reviewed {}, again by {}",
                module.reviewed, module.review_by
            ),
            at: vec![module.file.to_string()],
        })
}

fn places(library: &Library, on: Date) -> impl Iterator<Item = Due> + '_ {
    library.places.values().flat_map(move |place| {
        place.rules.iter().filter_map(move |(key, rule)| {
            let read = rule.as_of?;
            let by = read.plus_days(place.stale_after);
            (by <= on).then(|| Due {
                by: Some(by),
                what: "place",
                id: format!("{} {key}", place.id),
                why: format!("read {read}, good for {} days", place.stale_after),
                at: rule
                    .sources
                    .iter()
                    .map(|code| address(library, code))
                    .collect(),
            })
        })
    })
}

fn sources(library: &Library, on: Date) -> impl Iterator<Item = Due> + '_ {
    library.sources.values().filter_map(move |source| {
        let by = source.seen.map(|day| day.plus_days(LOOK_AGAIN));
        by.is_none_or(|by| by <= on).then(|| Due {
            by,
            what: "source",
            id: source.id.clone(),
            why: source.seen.map_or_else(
                || "never looked up".to_owned(),
                |day| format!("looked up {day}"),
            ),
            at: vec![address(library, &source.id)],
        })
    })
}

/// Where a source is read: its address, else its title.
fn address(library: &Library, code: &str) -> String {
    library.sources.get(code).map_or_else(
        || code.to_owned(),
        |source| source.url.clone().unwrap_or_else(|| source.title.clone()),
    )
}
