//! `leeside shelf labels`: labels for canisters, each with its tag and a code to scan.

use super::super::Said;
use super::super::make::PaperName;
use super::Where;
use crate::compose::labels::{Label, LabelSheet, labels};
use crate::diag::{Outcome, Problem, Told, told};
use crate::doc::Paper;
use crate::nouns::Library;
use crate::packet::Press;
use crate::ready;
use crate::shelf::{Kept, Stock, Tag, TareFrom};
use crate::units::{Length, say};
use crate::write;
use clap::Args;
use std::path::PathBuf;

#[derive(Args, Debug)]
pub(super) struct Labels {
    /// Tags; without any, all that stand on the shelf
    #[arg(value_name = "TAG", value_parser = crate::shelf::tag)]
    tags: Vec<Tag>,
    /// The label of the sheet to start with, counted along the rows: the ones before it are gone
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1000))]
    start: u32,
    /// The sheet's paper
    #[arg(long, value_enum, default_value = "a4")]
    paper: PaperName,
    /// Labels side by side
    #[arg(long, default_value_t = 3, value_parser = clap::value_parser!(u32).range(1..=20))]
    columns: u32,
    /// Labels one below the other
    #[arg(long, default_value_t = 8, value_parser = clap::value_parser!(u32).range(1..=50))]
    rows: u32,
    /// A label's width
    #[arg(long, default_value = "70 mm", value_parser = length)]
    width: Length,
    /// A label's height
    #[arg(long, default_value = "37 mm", value_parser = length)]
    height: Length,
    /// From the paper's left edge to the first label
    #[arg(long, default_value = "0 mm", value_parser = length)]
    left: Length,
    /// From the paper's upper edge to the first label
    #[arg(long, default_value = "0 mm", value_parser = length)]
    top: Length,
    /// From the start of a label to the start of the next one across; without it its width
    #[arg(long, value_parser = length)]
    across: Option<Length>,
    /// From the start of a label to the start of the next one down; without it its height
    #[arg(long, value_parser = length)]
    down: Option<Length>,
    /// The file to write
    #[arg(long, value_name = "FILE", default_value = "labels.pdf")]
    out: PathBuf,
    #[command(flatten)]
    place: Where,
}

/// Millimetres are no unit of a trip file, but those of label sheets.
fn length(text: &str) -> Result<Length, String> {
    let text = text.trim();
    let read = |ending: &str, metres: f64| {
        let number = text.strip_suffix(ending)?.trim().parse::<f64>().ok()?;
        (number.is_finite() && number >= 0.0).then(|| Length::metres(number * metres))
    };
    read("mm", 0.001)
        .or_else(|| read("cm", 0.01))
        .or_else(|| read("in", 0.0254))
        .ok_or_else(|| format!("`{text}` is no length of a label; write `70 mm` or `2.6 in`"))
}

/// Runs the command.
pub(super) fn run(args: &Labels) -> Outcome<Said> {
    let ready = ready::library(&args.place.content.folders)?;
    let press = Press::new(&ready.assets, ready.library, ready.digest)?;
    let mut ledger = super::read(&args.place.shelf)?;
    let mut warnings = ready.warnings;
    warnings.append(&mut ledger.warnings);
    let stock = Stock::of(ledger.lines());
    let chosen = chosen(args, &stock)?;
    let sheet = sheet(args)?;
    let all: Vec<Label> = chosen
        .into_iter()
        .map(|kept| label(kept, press.library()))
        .collect();
    let pages = labels(&sheet, args.start as usize, &all)?;
    let file = press.figures("Labels for canisters", sheet.paper, &pages)?;
    warnings.extend(file.warnings);
    write::single(&args.out, &file.bytes, true)?;
    Ok(Said {
        message: if file.pages == 1 {
            told!(
                "wrote {out}: {count} labels on 1 sheet; print them at 100 %, on plain paper first\n",
                out = args.out.display(),
                count = all.len()
            )
        } else {
            told!(
                "wrote {out}: {count} labels on {pages} sheets; print them at 100 %, on plain paper first\n",
                out = args.out.display(),
                count = all.len(),
                pages = file.pages
            )
        },
        warnings,
        ..Said::default()
    })
}

fn chosen<'a>(args: &Labels, stock: &'a Stock) -> Outcome<Vec<&'a Kept>> {
    let none = |message: Told| {
        vec![Problem::error(
            "shelf.unknown",
            message,
            "receive it first: `leeside shelf receive`",
        )]
    };
    if args.tags.is_empty() {
        let on_shelf = stock.canisters.values();
        let mut on_shelf: Vec<&Kept> = on_shelf
            .filter(|kept| kept.standing.is_on_shelf())
            .collect();
        // as people count: 2 before 10
        on_shelf.sort_by_key(|kept| kept.tag.parts());
        return match on_shelf.is_empty() {
            true => Err(none(Told::from("no canister stands on the shelf"))),
            false => Ok(on_shelf),
        };
    }
    let mut found = Vec::new();
    let mut problems = Vec::new();
    for tag in &args.tags {
        match stock.canisters.get(tag) {
            Some(kept) => found.push(kept),
            None => problems.extend(none(told!(
                "no canister {sticker} was ever received",
                sticker = tag.sticker()
            ))),
        }
    }
    if problems.is_empty() {
        Ok(found)
    } else {
        Err(problems)
    }
}

fn sheet(args: &Labels) -> Outcome<LabelSheet> {
    let sheet = LabelSheet {
        paper: match args.paper {
            PaperName::Letter => Paper::Letter,
            PaperName::A4 => Paper::A4,
        },
        columns: args.columns as usize,
        rows: args.rows as usize,
        size: (args.width, args.height),
        corner: (args.left, args.top),
        step: (
            args.across.unwrap_or(args.width),
            args.down.unwrap_or(args.height),
        ),
    };
    if sheet.is_possible() && args.start as usize <= sheet.count() {
        return Ok(sheet);
    }
    let paper = match sheet.paper {
        Paper::A4 => "A4 (210 x 297 mm)",
        Paper::Letter => "letter (8.5 x 11 in)",
    };
    Err(vec![Problem::error(
        "flag.labels",
        told!(
            "{columns} x {rows} labels from number {start} on do not lie on {paper} without touching each other",
            columns = sheet.columns,
            rows = sheet.rows,
            start = args.start,
            paper
        ),
        "measure the sheet: --columns, --rows, --width, --height, --left, --top, --across, --down",
    )])
}

/// A canister's label: what never changes about it.
fn label(kept: &Kept, library: &Library) -> Label {
    let size = kept.size.as_ref().map(|id| {
        let known = library.containers.get(id);
        known.map_or_else(|| id.to_string(), |size| size.name.clone())
    });
    let tare = kept.tare.map(|(tare, from)| {
        let grams = say::number(tare.in_grams(), 0);
        match from {
            TareFrom::Table => format!("empty about {grams} g: weigh"),
            _ => format!("empty {grams} g"),
        }
    });
    let gas = kept.gas.map(|gas| gas.to_string());
    Label {
        name: kept.tag.sticker(),
        lines: [size, tare, gas].into_iter().flatten().collect(),
    }
}
