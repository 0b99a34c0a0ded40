//! As written to as meant, or every problem at once.
//!
//! [`library`] makes the library from content files, [`trip`] a trip or
//! lesson, [`trial`] a burn trial. Each returns the value with its warnings,
//! or every problem it could find: with file, line and column, the line, what
//! was expected and what to write instead. Every default that is filled in is
//! listed in `assumed`.

mod content;
mod countries;
mod desk;
mod gear;
mod mend;
mod plausible;
mod rules;
mod stale;
mod trial;
mod trip;
mod values;

use crate::diag::{Outcome, Problem};
use crate::load::{self, Written};
use crate::nouns::{Library, Trial, Trip};

pub use countries::{countries, languages};
pub use mend::{clock_meant, day_meant};
pub use stale::{Due, stale};

/// The library as meant, with the warnings.
///
/// # Errors
/// Every problem of its files and of the links between them.
pub fn library(files: &load::Library) -> Outcome<(Library, Vec<Problem>)> {
    content::library(files)
}

/// A trip or lesson as meant, with the warnings.
///
/// # Errors
/// Every problem of the file.
pub fn trip(written: &Written, library: &Library) -> Outcome<(Trip, Vec<Problem>)> {
    trip::trip(written, library)
}

/// A burn trial as meant, with the warnings.
///
/// # Errors
/// Every problem of the file, impossible runs included.
pub fn trial(written: &Written, library: &Library) -> Outcome<(Trial, Vec<Problem>)> {
    trial::trial(written, library)
}

pub use content::{Reading, reading};
pub use trip::{slug, wanted_in};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::report;

    fn built_in() -> Library {
        let files = load::library(&[]).unwrap_or_else(|problems| panic!("{}", report(&problems)));
        let (library, warnings) =
            library(&files).unwrap_or_else(|problems| panic!("{}", report(&problems)));
        eprintln!("{}", report(&warnings));
        library
    }

    #[test]
    fn the_built_in_library_and_its_trips_are_sound() {
        let library = built_in();
        let assets = load::assets(&[]).unwrap();
        for (path, source) in &assets.content {
            let outcome = if path.starts_with("trips/") {
                let written = load::text(&source.name, &source.text).unwrap();
                trip(&written, &library).map(|(trip, warnings)| {
                    eprintln!("{}\n{}", report(&warnings), trip.title);
                })
            } else if path.starts_with("trials/") {
                let written = load::text(&source.name, &source.text).unwrap();
                trial(&written, &library).map(|_| ())
            } else {
                continue;
            };
            outcome.unwrap_or_else(|problems| panic!("{path}\n{}", report(&problems)));
        }
    }
}
