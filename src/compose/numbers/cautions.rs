//! The cautions of a plan, as plain text.

use crate::compose::catalogue;
use crate::compose::facts::{Filler, Piece};
use crate::nouns::{Caution, Library, Module, Trip};
use crate::plan::CautionPlan;

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
