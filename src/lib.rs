//! `leeside` turns one trip file and a library of reviewed content modules
//! into the papers of a camp-kitchen lesson or departure.
//!
//! Data flows one way; the modules below stand in travel order:
//! `load` reads files as written, `check` turns them into a trip and a library
//! as meant (or every problem at once), `plan` decides every number, `course`
//! lays out the lesson, `compose` writes each sheet as Markdown, `markdown`
//! reads that into a [`doc::Document`], `render` draws it in each format, and
//! `write` puts the files down, all or none. [`packet::Press::packet`] is that journey for one
//! trip, from `check` to `render`, in one function.

/// The program holds its files inside; `build.rs` has another meaning for this.
macro_rules! embedded {
    ($files:expr) => {
        $files
    };
}

pub mod check;
pub mod cli;
pub mod compose;
pub mod course;
pub mod diag;
pub mod doc;
pub mod load;
pub mod markdown;
pub mod nouns;
pub mod packet;
pub mod phrase;
pub mod physics;
pub mod plan;
pub mod ready;
pub mod render;
pub mod season;
pub mod shelf;
pub mod told;
pub mod units;
pub mod write;
