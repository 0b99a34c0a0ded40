//! What prints in a language, or in one with another beside it.

use crate::diag::{Outcome, Problem, told};
use crate::load::Written;
use crate::packet::Press;
use crate::ready::{self, Ready};
use std::path::PathBuf;

/// What prints in `es`, or in `es+en`: Spanish with English beside it. With what deserves a look in
/// the content.
///
/// # Errors
/// Every problem of content and templates, and languages that are not there or stand beside
/// themselves.
pub(super) fn of(folders: &[PathBuf], language: &str) -> Outcome<(Press, Vec<Problem>)> {
    let (own, other) = named(language)?;
    let (press, warnings) = one(folders, &own)?;
    let press = match other {
        Some(other) => press.beside(one(folders, &other)?.0),
        None => press,
    };
    Ok((press, warnings))
}

/// A problem of a language that a trip file asks for, at its line.
pub(super) fn asked(written: &Written, problem: Problem) -> Problem {
    let named = problem.file.is_none() && problem.place.is_none();
    let problem = if named && written.root.get("language").is_some() {
        problem.at(written.source.name.clone(), "language")
    } else {
        problem
    };
    written.locate(problem)
}

/// The languages that `es+en` names: the first, and the one beside it.
///
/// # Errors
/// More than two, and one beside itself.
pub(super) fn named(language: &str) -> Outcome<(String, Option<String>)> {
    let mut parts = language.split('+').map(|one| one.trim().to_lowercase());
    let (own, other) = (parts.next().unwrap_or_default(), parts.next());
    if parts.next().is_some() || other.as_ref() == Some(&own) {
        return Err(vec![Problem::error(
            "language.beside",
            told!(
                "`{language}` does not name two languages to stand beside each other",
                language
            ),
            "write two of them with a plus between them, such as `es+en`",
        )]);
    }
    Ok((own, other))
}

fn one(folders: &[PathBuf], language: &str) -> Outcome<(Press, Vec<Problem>)> {
    let Ready {
        assets,
        library,
        digest,
        warnings,
    } = ready::library_in(folders, language)?;
    Ok((Press::new(&assets, library, digest)?, warnings))
}
