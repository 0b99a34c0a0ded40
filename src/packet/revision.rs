//! Which state of trip, content and program a sheet was made from, in a few characters.

use super::kinds::Job;
use super::press::Press;
use crate::nouns::Trip;
use sha2::{Digest as _, Sha256};
use std::fmt::Write as _;
use std::sync::Arc;

/// Characters of a revision: enough to tell two papers of one departure apart by eye.
const SHORT: usize = 6;

/// The trip as meant (not the name of its file or folder), units and print size.
pub(super) fn meant(trip: &Trip, job: &Job) -> String {
    let meant = Trip {
        file: Arc::from(""),
        slug: String::new(),
        ..trip.clone()
    };
    let options = &job.options;
    let look = (options.units, options.paper, options.large_print);
    let level = options.level.map(|level| format!(" {level:?}"));
    format!("{meant:?} {look:?}{}", level.unwrap_or_default())
}

impl Press {
    /// The revision of a trip's sheets. Two papers with the same revision say the same; which
    /// sheets and formats were asked for does not count.
    pub(super) fn revision(&self, trip: &Trip, job: &Job) -> String {
        self.revision_of(&meant(trip, job))
    }

    /// The revision of anything that is made from a text with this content and program.
    pub(super) fn revision_of(&self, text: &str) -> String {
        let mut digest = self.digest_of(text);
        digest.truncate(SHORT);
        digest
    }

    /// The SHA-256 (FIPS 180-4) of a text with this content and program.
    pub(super) fn digest_of(&self, text: &str) -> String {
        let mut hash = Sha256::new();
        hash.update(env!("CARGO_PKG_VERSION"));
        hash.update(self.content);
        hash.update(text);
        let mut digest = String::with_capacity(64);
        for byte in hash.finalize() {
            // Writing to a String cannot fail.
            let _ = write!(digest, "{byte:02x}");
        }
        digest
    }
}
