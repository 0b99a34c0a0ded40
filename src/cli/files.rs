//! The files that a command line names: a folder stands for the trips in it, `-` for standard
//! input.

use crate::diag::{Outcome, Problem};
use crate::load::{self, Written};
use std::path::{Path, PathBuf};

/// The trip files of a command line, as written, in the order named.
///
/// # Errors
/// Every file that cannot be read, and folders without a trip.
pub(super) fn trips(paths: &[PathBuf]) -> Outcome<Vec<Written>> {
    let mut trips = Vec::new();
    let mut problems = Vec::new();
    for path in paths {
        let files = match of(path) {
            Ok(files) => files,
            Err(more) => {
                problems.extend(more);
                continue;
            }
        };
        for file in files {
            match load::trip_file(&file) {
                Ok(written) => trips.push(written),
                Err(more) => problems.extend(more),
            }
        }
    }
    if problems.is_empty() {
        Ok(trips)
    } else {
        Err(problems)
    }
}

/// The trip files that a path stands for.
///
/// # Errors
/// A folder that cannot be listed or has no trip in it.
pub(super) fn of(path: &Path) -> Outcome<Vec<PathBuf>> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let files = load::trips_in(path)?;
    if files.is_empty() {
        return Err(vec![
            Problem::error(
                "file.unreadable",
                "this is a folder, and there is no trip file (.yaml) in it",
                "name the trip file, or the folder that it lies in",
            )
            .in_file(path.to_string_lossy().into_owned()),
        ]);
    }
    Ok(files)
}
