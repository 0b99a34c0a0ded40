//! What is asked for and what comes out: the job, the packet.

use super::format::Format;
use super::lines::Lines;
use crate::compose::{self, bundles::Bundle, season::Row};
use crate::diag::Problem;
use crate::doc;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// What to make of each trip.
#[derive(Clone, Debug, Default)]
pub struct Job {
    /// The formats, in order.
    pub formats: Vec<Format>,
    /// The bundle whose sheets are bound in one file too.
    pub bundle: Option<Bundle>,
    /// Sheets, units, paper, print.
    pub options: compose::Options,
}

/// A packet ready to be written.
pub struct Packet {
    /// The name of its folder.
    pub slug: String,
    /// What its manifest says of it as a whole, in this order: `("title", "..")`.
    pub about: Vec<(String, String)>,
    /// Each file: its path inside the packet with `/` between folders, and its bytes. The
    /// index pages come with `Press::indexed`.
    pub files: Vec<(String, Vec<u8>)>,
    /// Its sheets.
    pub lines: Lines,
    /// What its sheets say, by the stem of their files: ids, words, values in SI units.
    pub says: BTreeMap<String, Value>,
    /// Sheets, by the stem of their files, that lie there and that the trip no longer has.
    pub gone: BTreeSet<String>,
    /// What its front page says.
    pub front: Front,
    /// What a season's papers say of it.
    pub row: Row,
    /// What deserves a look.
    pub warnings: Vec<Problem>,
}

/// What the front page of a packet says.
#[derive(Clone, Debug)]
pub struct Front {
    /// The trip.
    pub title: String,
    /// When, who, fuel, whom to call: each with its name.
    pub facts: Vec<(String, String)>,
    /// Which state of trip, content and program this is.
    pub revision: String,
    /// The library's standing line.
    pub(super) standing_line: String,
    /// The line at the foot of the page.
    pub(super) foot: String,
    /// The paper that is printed on.
    pub(super) paper: doc::Paper,
}
