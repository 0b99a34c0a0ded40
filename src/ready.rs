//! The library for a run: the built-in one as it was checked when the program
//! was built, or the files read and checked now when a folder is laid over them.

use crate::check;
use crate::diag::{Outcome, Problem};
use crate::load::{self, Assets};
use crate::nouns::Library;
use sha2::{Digest as _, Sha256};
use std::path::PathBuf;

/// What `src/build.rs` made of `content/`: `Option<Library>`, none where there
/// was something to say of it.
static BUILT_IN: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/library.bin"));

/// All that a run prints from.
#[derive(Clone, Debug)]
pub struct Ready {
    /// Templates and fonts; content only where it was read now.
    pub assets: Assets,
    /// The library as meant.
    pub library: Library,
    /// The SHA-256 (FIPS 180-4) of the library as meant, equal on every processor.
    pub digest: [u8; 32],
    /// What deserves a look in its files.
    pub warnings: Vec<Problem>,
}

/// The built-in library with folders laid over it, each over the one before.
///
/// # Errors
/// Every problem of the files and of the links between them.
pub fn library(overlays: &[PathBuf]) -> Outcome<Ready> {
    if overlays.is_empty()
        && let Some(library) = built_in()
    {
        return Ok(Ready {
            assets: load::templates(),
            library,
            digest: Sha256::digest(BUILT_IN).into(),
            warnings: Vec::new(),
        });
    }
    of(load::library(overlays)?)
}

/// The same in a language.
///
/// # Errors
/// As [`library`]; a language that is not there, and texts that it does not say.
pub fn library_in(overlays: &[PathBuf], language: &str) -> Outcome<Ready> {
    if language == load::ENGLISH {
        return library(overlays);
    }
    of(load::library(overlays)?.in_language(language)?)
}

fn of(files: load::Library) -> Outcome<Ready> {
    let (library, warnings) = check::library(&files)?;
    // the bytes that src/build.rs would have kept; a library always has some
    let bytes = postcard::to_allocvec(&Some(&library)).unwrap_or_default();
    Ok(Ready {
        assets: files.assets,
        digest: Sha256::digest(bytes).into(),
        library,
        warnings,
    })
}

fn built_in() -> Option<Library> {
    postcard::from_bytes(BUILT_IN).ok().flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_library_made_ready_is_what_its_files_say() {
        let files = load::library(&[]).unwrap();
        let (library, warnings) = check::library(&files).unwrap();
        assert_eq!(warnings, Vec::new());
        assert!(library.modules.len() > 20);
        assert_eq!(built_in().as_ref(), Some(&library));
        assert_eq!(postcard::to_allocvec(&Some(&library)).unwrap(), BUILT_IN);
    }
}
