//! The built-in content and trips read with it, as the commands do.

use leeside::compose::Templates;
use leeside::nouns::{Library, Trip};
use leeside::{check, diag, load};

/// The library that is compiled in.
pub fn library() -> Library {
    let files = load::library(&[]).unwrap_or_else(|problems| panic!("{}", diag::report(&problems)));
    check::library(&files)
        .unwrap_or_else(|problems| panic!("{}", diag::report(&problems)))
        .0
}

/// The built-in library with a folder laid over it.
pub fn library_over(folder: &std::path::Path) -> Library {
    load::library(&[folder.to_owned()])
        .and_then(|files| check::library(&files))
        .unwrap_or_else(|problems| panic!("{}", diag::report(&problems)))
        .0
}

/// The templates that are compiled in.
pub fn templates() -> Templates {
    let files = load::library(&[]).unwrap_or_else(|problems| panic!("{}", diag::report(&problems)));
    files
        .assets
        .templates
        .iter()
        .map(|(name, source)| (name.clone(), source.text.to_string()))
        .collect()
}

/// A trip from its text.
pub fn trip(name: &str, text: &str, library: &Library) -> Trip {
    try_trip(name, text, library).unwrap_or_else(|problems| panic!("{}", diag::report(&problems)))
}

/// A trip from its text, or every problem of it.
pub fn try_trip(name: &str, text: &str, library: &Library) -> diag::Outcome<Trip> {
    let written = load::text(name, text)?;
    Ok(check::trip(&written, library)?.0)
}
