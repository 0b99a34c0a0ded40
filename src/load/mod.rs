//! The only reader: files on disk and those compiled in, as written.
//!
//! A file becomes a tree of [`Node`]s in which every scalar is still the text
//! that a person typed (`yes`, `9:00`, `0310` and `2027-05-14` come through
//! untouched) and every node knows the [`Spot`] it stands at. What the words
//! mean is for `check` to say.
#![allow(
    clippy::disallowed_methods,
    reason = "the one room that reads files; everyone else is handed text"
)]
#![allow(
    clippy::result_large_err,
    reason = "a problem ends the reading of a file: it is made once, not in a loop"
)]

mod assets;
mod disk;
mod foreign;
mod language;
mod library;
mod merge;
mod messages;
mod node;
mod picture;
mod stamp;
mod wording;
mod words;
mod yaml;

pub use assets::{Assets, BUILT_IN, assets, assets_built_in, templates};
pub use disk::{LARGEST_FILE, STANDARD_INPUT, bytes, read, table, trips_in, yaml_files};
pub use language::{Coverage, ENGLISH, WORDS, of as of_language};
pub use library::{Library, content_path, holds_trips, library, library_of, library_with};
pub use messages::{MESSAGES, language_of_profile, messages};
pub use node::{Entry, Node, Spot, Value, folded_key, same_key};
pub use stamp::stamp;
pub use words::{are_words, page_words};
pub use yaml::parse;

use crate::diag::{Outcome, Problem, Source};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A file as written: a trip, a burn trial, a module.
#[derive(Clone, Debug)]
pub struct Written {
    /// Its name and text.
    pub source: Source,
    /// Its tree.
    pub root: Node,
}

/// Reads a trip or burn trial from disk.
///
/// # Errors
/// Problems of the file itself: missing, empty, too large, not text, not YAML.
pub fn trip_file(path: &Path) -> Outcome<Written> {
    written(read(path)?)
}

/// Reads a text that is in hand already.
///
/// # Errors
/// As [`trip_file`], for what a text alone can have wrong.
pub fn text(name: &str, text: &str) -> Outcome<Written> {
    written(Source {
        name: Arc::from(name),
        text: Arc::from(text.strip_prefix('\u{feff}').unwrap_or(text)),
    })
}

fn written(source: Source) -> Outcome<Written> {
    let root = parse(&source).map_err(|problem| vec![problem])?;
    Ok(Written { source, root })
}

impl Written {
    /// The folders of own content that the trip names under `content`, from the folder that its
    /// file lies in.
    ///
    /// # Errors
    /// What is named there is no folder.
    pub fn content(&self) -> Outcome<Vec<PathBuf>> {
        let Some(node) = self.root.get("content") else {
            return Ok(Vec::new());
        };
        let named = match &node.value {
            Value::List(items) => items.iter().collect(),
            _ => vec![node],
        };
        let beside = Path::new(&*self.source.name).parent();
        let mut folders = Vec::new();
        let mut problems = Vec::new();
        for node in named {
            let folder = node
                .text()
                .map(|name| beside.unwrap_or(Path::new("")).join(name));
            match folder.filter(|folder| folder.is_dir()) {
                Some(folder) => folders.push(folder),
                None => problems.push(node.problem(Problem::error(
                    "trip.content",
                    "there is no such folder beside the trip file",
                    "name the folder that holds your own content, such as `content: our-club`",
                ))),
            }
        }
        if problems.is_empty() {
            Ok(folders)
        } else {
            Err(problems)
        }
    }

    /// A problem of this file with its place found by its key path; a part of
    /// the path is enough, and a problem that has a place already keeps it.
    #[must_use]
    pub fn locate(&self, problem: Problem) -> Problem {
        if problem.place.is_some() || problem.file.as_ref() != Some(&self.source.name) {
            return problem;
        }
        let Some(path) = problem.path.clone() else {
            return problem;
        };
        let (spot, _) = self.root.nearest(&path);
        spot.problem(problem)
    }
}
