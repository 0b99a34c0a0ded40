//! `leeside shelf list`: what stands on the shelf, is out, is odd.

use super::super::Said;
use super::Where;
use crate::diag::Outcome;
use crate::nouns::Library;
use crate::shelf::{Kept, Stock, TareFrom};
use crate::units::{Mass, say};
use clap::Args;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write as _;

#[derive(Args, Debug)]
pub(super) struct List {
    /// Only those that stand so, for example 'on the shelf' or 'out with june-1'
    #[arg(long, value_name = "WORDS")]
    standing: Option<String>,
    /// Say it as JSON on standard output
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    place: Where,
}

/// Runs the command.
pub(super) fn run(args: &List) -> Outcome<Said> {
    let (library, mut warnings) = super::super::library(&args.place.content.folders)?;
    let mut ledger = super::read(&args.place.shelf)?;
    warnings.append(&mut ledger.warnings);
    let stock = Stock::of(ledger.lines());
    let shown: Vec<&Kept> = stock
        .canisters
        .values()
        .filter(|kept| {
            args.standing
                .as_ref()
                .is_none_or(|wanted| kept.standing.words().contains(wanted.trim()))
        })
        .collect();
    Ok(Said {
        result: if args.json {
            as_json(&stock, &shown)
        } else {
            as_text(&library, &stock, &shown)
        },
        warnings,
        ..Said::default()
    })
}

fn grams(mass: Option<Mass>) -> Value {
    mass.map_or(Value::Null, |mass| {
        json!((mass.in_grams() * 1e6).round() / 1e6)
    })
}

fn as_json(stock: &Stock, shown: &[&Kept]) -> String {
    let value = json!({
        "format": "leeside-shelf/1",
        "canisters": shown.iter().map(|kept| json!({
            "tag": kept.tag.sticker(),
            "size": kept.size,
            "gross_g": grams(kept.gross),
            "tare_g": grams(kept.tare.map(|(tare, _)| tare)),
            "tare_from": kept.tare.map(|(_, from)| from.word()),
            "net_g": grams(kept.net()),
            "weighed": kept.weighed,
            "gas": kept.gas.map(|gas| gas.to_string()),
            "connection": kept.connection.map(|joins| joins.word()),
            "standing": kept.standing.words(),
            "since": kept.since,
        })).collect::<Vec<_>>(),
        "odd": stock.oddities.iter().map(|odd| json!({
            "tag": odd.tag.sticker(),
            "line": odd.line,
            "what": odd.what.to_string(),
        })).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

fn as_text(library: &Library, stock: &Stock, shown: &[&Kept]) -> String {
    if shown.is_empty() {
        return "No canister stands so.\n".to_owned();
    }
    let mut text = format!(
        "{:<10} {:<16} {:>8} {:>8} {:>8}  {:<28} {}\n",
        "tag", "size", "fuel g", "scale g", "empty g", "where", "since"
    );
    let number = |mass: Option<Mass>| {
        mass.map_or_else(|| "?".to_owned(), |mass| say::number(mass.in_grams(), 0))
    };
    let mut sums: BTreeMap<String, (u32, Mass)> = BTreeMap::new();
    for kept in shown {
        let size = kept.size.as_ref().map_or("?", |id| {
            library.containers.get(id).map_or(id, |one| &one.name)
        });
        let guess = match kept.tare {
            Some((_, TareFrom::Table)) => "*",
            _ => "",
        };
        let stale = if kept.weighed { "" } else { " (unweighed)" };
        let _ = writeln!(
            text,
            "{:<10} {:<16} {:>8} {:>8} {:>8}  {:<28} {}",
            kept.tag.sticker(),
            size,
            number(kept.net()),
            number(kept.gross),
            format!("{}{guess}", number(kept.tare.map(|(tare, _)| tare))),
            format!("{}{stale}", kept.standing.words()),
            kept.since
        );
        if kept.standing.is_on_shelf() {
            let sum = sums.entry(size.to_owned()).or_insert((0, Mass::ZERO));
            sum.0 += 1;
            sum.1 += kept.net().unwrap_or(Mass::ZERO);
        }
    }
    if shown
        .iter()
        .any(|kept| matches!(kept.tare, Some((_, TareFrom::Table))))
    {
        text.push_str("* the table's mass empty, which may be off: what is in it is a guess\n");
    }
    for (size, (count, fuel)) in sums {
        let _ = writeln!(
            text,
            "on the shelf: {count} x {size}, {} g of fuel",
            say::number(fuel.in_grams(), 0)
        );
    }
    for odd in &stock.oddities {
        let _ = writeln!(text, "look: {} (line {})", odd.what, odd.line);
    }
    text
}
