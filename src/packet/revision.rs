//! Which state of trip, content and program a sheet was made from, in a few characters.

use super::{Job, Press};
use crate::nouns::Trip;
use sha2::{Digest as _, Sha256};
use std::sync::Arc;

impl Press {
    /// The revision of a trip's sheets: the trip as meant (not the name of its file or folder),
    /// the content, the program, units and print size. Two papers with the same revision say
    /// the same; which sheets and formats were asked for does not count.
    pub(super) fn revision(&self, trip: &Trip, job: &Job) -> String {
        let meant = Trip {
            file: Arc::from(""),
            slug: String::new(),
            ..trip.clone()
        };
        let options = &job.options;
        let look = (options.units, options.paper, options.large_print);
        self.revision_of(&format!("{meant:?} {look:?}"))
    }

    /// The revision of anything that is made from a text with this content and program.
    pub(super) fn revision_of(&self, text: &str) -> String {
        let mut hash = Sha256::new();
        hash.update(env!("CARGO_PKG_VERSION"));
        hash.update(self.content);
        hash.update(text);
        let digest = hash.finalize();
        format!("{:02x}{:02x}{:02x}", digest[0], digest[1], digest[2])
    }
}
