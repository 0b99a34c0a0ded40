//! The built-in content and trips read with it, as the commands do.

use leeside::compose::Templates;
use leeside::nouns::{Library, Trip};
use leeside::{check, diag, load};

/// The library that is compiled in.
pub fn library() -> Library {
    let files =
        load::library(None).unwrap_or_else(|problems| panic!("{}", diag::report(&problems)));
    check::library(&files)
        .unwrap_or_else(|problems| panic!("{}", diag::report(&problems)))
        .0
}

/// The templates that are compiled in.
pub fn templates() -> Templates {
    let files =
        load::library(None).unwrap_or_else(|problems| panic!("{}", diag::report(&problems)));
    files
        .assets
        .templates
        .iter()
        .map(|(name, source)| (name.clone(), source.text.to_string()))
        .collect()
}

/// A trip from its text.
pub fn trip(name: &str, text: &str, library: &Library) -> Trip {
    let written =
        load::text(name, text).unwrap_or_else(|problems| panic!("{}", diag::report(&problems)));
    check::trip(&written, library)
        .unwrap_or_else(|problems| panic!("{}", diag::report(&problems)))
        .0
}
