//! Reads and checks the built-in content while the program is built, so that a
//! run starts with the library as meant and not with forty files to read.
//!
//! It is the program's own rooms that do it, compiled here once more; `ready`
//! takes what they made. Content with a problem or a warning is not kept: then
//! every run reads the files itself and says what is wrong with them.

#![allow(
    dead_code,
    unused_imports,
    reason = "the rooms are whole, and only part of them is needed here"
)]
#![allow(
    clippy::disallowed_methods,
    reason = "a build script is told its folders by cargo and hands over a file"
)]

/// The program holds its files inside; here they are read from disk, so that a
/// new one is seen.
macro_rules! embedded {
    ($files:expr) => {
        include_dir::Dir::new("", &[])
    };
}

mod check;
mod diag;
mod doc;
mod load;
mod markdown;
mod nouns;
mod physics;
mod told;
mod units;

use std::path::{Path, PathBuf};

fn main() {
    println!("cargo::rerun-if-changed=content");
    println!("cargo::rerun-if-changed=templates");
    let root = PathBuf::from(std::env::var("CARGO_MANIFEST_DIR").unwrap_or_default());
    let out = PathBuf::from(std::env::var("OUT_DIR").unwrap_or_default());
    let library = library(&root.join("content"));
    let bytes = postcard::to_allocvec(&library).expect("a library can be written as bytes");
    std::fs::write(out.join("library.bin"), bytes).expect("cargo's own folder can be written to");
}

/// The library as meant, if nothing at all is to be said of it.
fn library(content: &Path) -> Option<nouns::Library> {
    let assets = load::assets_built_in(content).ok()?;
    let files = load::library_of(assets).ok()?;
    let (library, warnings) = check::library(&files).ok()?;
    warnings.is_empty().then_some(library)
}
