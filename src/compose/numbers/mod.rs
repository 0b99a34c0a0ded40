//! The plan and the course as `leeside plan` prints them: as JSON, as aligned tables.

mod about;
mod course;
mod json;
mod table;

use super::catalogue;
use super::facts::{Filler, Piece};
use crate::course::{drawn, timetable};
use crate::diag::Outcome;
use crate::nouns::{Caution, Library, Module, Trip};
use crate::plan::{CautionPlan, Plan};
use serde_json::Value;

pub(super) use about::why;
pub use json::json;
pub use table::table;
pub(crate) use table::wrapped;

/// The course of a trip as JSON.
///
/// # Errors
/// A course that cannot be held.
pub fn course(trip: &Trip, library: &Library, plan: &Plan) -> Outcome<Value> {
    let modules = timetable::applying(trip, library);
    let laid = timetable::timetable(trip, library, plan, &modules)?;
    let check = drawn(trip, library, Some(&laid), trip.units)?;
    Ok(course::json(trip, &laid, &check))
}

/// What a caution says, as plain text: the plan's own words, or its module's with facts filled in.
#[must_use]
pub fn caution(trip: &Trip, library: &Library, one: &CautionPlan) -> String {
    if let Some(says) = &one.says {
        return catalogue::text(says);
    }
    let module = library.modules.get(&one.module);
    let found = module.and_then(|module| {
        let caution = module
            .cautions
            .iter()
            .find(|caution| caution.id == one.id)?;
        Some(of_module(trip, library, module, caution))
    });
    found.unwrap_or_default()
}

fn of_module(trip: &Trip, library: &Library, module: &Module, caution: &Caution) -> String {
    let filler = Filler {
        library,
        trip,
        units: trip.units,
    };
    let part = |text: &str| {
        let pieces = filler.pieces(module, text, &caution.applies);
        let words: String = pieces.iter().map(Piece::words).collect();
        plain(&words)
    };
    let mut text = format!("{}:", part(&caution.hazard).trim_end_matches('.'));
    for sentence in [&caution.consequence, &caution.avoid, &caution.respond] {
        let words = part(sentence);
        if !words.is_empty() {
            text.push(' ');
            text.push_str(words.trim_end_matches('.'));
            text.push('.');
        }
    }
    text
}

/// Markdown's marks of emphasis taken out, on one line.
fn plain(text: &str) -> String {
    text.replace(['*', '`'], "")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}
