//! `leeside make`: writes the packets of one or several trips.

use crate::check;
use crate::compose::{self, bundles::Bundle};
use crate::diag::{self, Outcome, Problem};
use crate::load::{self, Written};
use crate::nouns;
use crate::packet::{Format, Job, Line, Lines, Packet, Press};
use crate::ready::{self, Ready};
use crate::units::Units;
use crate::write;
use clap::{Args, ValueEnum};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// Write the packet of papers for one trip or several.
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside make content/trips/quillback-ridge.yaml --paper a4")]
pub struct Make {
    /// Trip or lesson files
    #[arg(required = true, value_name = "TRIP.yaml")]
    pub trips: Vec<PathBuf>,
    /// Folder in which each trip gets its own
    #[arg(long, value_name = "DIR", default_value = "out")]
    pub out: PathBuf,
    /// Only this sheet; may be given several times
    #[arg(long, value_name = "NAME", value_delimiter = ',')]
    pub sheet: Vec<String>,
    /// The sheets of one reader, with all of them in one `packet.pdf` to print: tonight,
    /// learners, field, office, all
    #[arg(long, value_name = "NAME")]
    pub bundle: Option<String>,
    /// Formats, with commas between
    #[arg(long, value_enum, value_delimiter = ',', default_value = "pdf,html,md")]
    pub format: Vec<FormatName>,
    /// Larger print; sheets may then take more sides
    #[arg(long)]
    pub large_print: bool,
    /// Units on the sheets
    #[arg(long, value_enum)]
    pub units: Option<UnitsName>,
    /// Paper
    #[arg(long, value_enum)]
    pub paper: Option<PaperName>,
    /// Write over files that someone has changed since
    #[arg(long)]
    pub force: bool,
    /// A folder of content and templates laid over the built-in ones
    #[arg(long, value_name = "DIR")]
    pub content: Option<PathBuf>,
}

/// Formats on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, ValueEnum)]
pub enum FormatName {
    /// To print
    Pdf,
    /// For screen and phone
    Html,
    /// Markdown
    Md,
    /// For a word processor
    Docx,
}

/// Units on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UnitsName {
    /// Feet, Fahrenheit, ounces beside grams
    Us,
    /// Metres, Celsius, grams
    Metric,
    /// Metric with US in brackets
    Both,
}

/// Paper on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperName {
    /// 8.5 x 11 in
    Letter,
    /// 210 x 297 mm
    A4,
}

/// The formats of a command line, each once, in order.
pub(super) fn formats(names: &[FormatName]) -> Vec<Format> {
    let mut formats: Vec<Format> = names
        .iter()
        .map(|name| match name {
            FormatName::Pdf => Format::Pdf,
            FormatName::Html => Format::Html,
            FormatName::Md => Format::Md,
            FormatName::Docx => Format::Docx,
        })
        .collect();
    formats.sort_unstable();
    formats.dedup();
    formats
}

impl UnitsName {
    /// The units that it names.
    pub(super) const fn units(self) -> Units {
        match self {
            Self::Us => Units::Us,
            Self::Metric => Units::Metric,
            Self::Both => Units::Both,
        }
    }
}

impl PaperName {
    /// The paper that it names.
    pub(super) const fn paper(self) -> nouns::Paper {
        match self {
            Self::Letter => nouns::Paper::Letter,
            Self::A4 => nouns::Paper::A4,
        }
    }
}

impl Make {
    /// What is made of each trip.
    fn job(&self) -> Outcome<Job> {
        let bundle = self.bundle.as_deref().map(Bundle::find).transpose()?;
        let mut only = self.sheet.clone();
        only.extend(
            bundle
                .into_iter()
                .flat_map(Bundle::sheets)
                .map(str::to_owned),
        );
        compose::wanted(&only)?;
        Ok(Job {
            formats: formats(&self.format),
            bundle,
            options: compose::Options {
                only,
                units: self.units.map(UnitsName::units),
                paper: self.paper.map(PaperName::paper),
                large_print: self.large_print,
                revision: None,
            },
        })
    }
}

/// What was written, and what to say about it.
pub struct Made {
    /// The folders, in the order of the trips.
    pub folders: Vec<PathBuf>,
    /// The sheets that were made for each, by the stem of their files.
    pub lines: Vec<Lines>,
    /// What deserves a look.
    pub warnings: Vec<Problem>,
}

/// Runs the command: load, check, plan, compose, render, write, all or nothing.
///
/// # Errors
/// Every problem of trips, content and templates; then nothing was written. A
/// code that starts with `write.` says that the disk stood in the way.
pub fn run(make: &Make) -> Outcome<Made> {
    let job = make.job()?;
    let Ready {
        assets,
        library,
        digest,
        mut warnings,
    } = ready::library(make.content.as_deref())?;
    let trips = read(make)?;
    distinct(&trips)?;
    let press = Press::new(&assets, library, digest)?;
    let bar = progress(trips.len());
    let outcomes: Vec<Outcome<Packet>> = trips
        .par_iter()
        .map(|written| {
            let packet = press.packet(written, &job);
            bar.inc(1);
            packet
        })
        .collect();
    bar.finish_and_clear();
    let mut packets = Vec::new();
    let mut problems = Vec::new();
    for outcome in outcomes {
        match outcome {
            Ok(one) => packets.push(one),
            Err(more) => problems.extend(more),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let made = put(&make.out, &press, packets, make.force)?;
    warnings.extend(made.warnings);
    Ok(Made { warnings, ..made })
}

/// Puts packets down beside what lies there already.
///
/// # Errors
/// What stands in the way on the disk, and files that someone has changed; then nothing was
/// written.
pub(super) fn put(out: &Path, press: &Press, packets: Vec<Packet>, force: bool) -> Outcome<Made> {
    let turn = write::Place::take(out)?;
    let mut lines = Vec::new();
    let mut warnings = Vec::new();
    let mut ready = Vec::new();
    for mut packet in packets {
        lines.push(packet.lines.clone());
        warnings.append(&mut packet.warnings);
        let lying = turn.lying(&packet.slug)?;
        let packet = press.indexed(packet, &lying.sections, &lying.files)?;
        ready.push(write::Packet {
            sections: packet.sections(),
            slug: packet.slug,
            about: packet.about,
            files: packet.files,
            gone: packet.gone,
        });
    }
    Ok(Made {
        folders: turn.put(&ready, force)?,
        lines,
        warnings,
    })
}

/// The trip files as written.
fn read(make: &Make) -> Outcome<Vec<Written>> {
    let mut trips = Vec::new();
    let mut problems = Vec::new();
    for path in &make.trips {
        match load::trip_file(path) {
            Ok(written) => trips.push(written),
            Err(more) => problems.extend(more),
        }
    }
    if problems.is_empty() {
        Ok(trips)
    } else {
        Err(problems)
    }
}

/// Two trips of one call must not share a folder.
fn distinct(trips: &[Written]) -> Outcome<()> {
    let mut seen: BTreeMap<String, &str> = BTreeMap::new();
    let mut problems = Vec::new();
    for written in trips {
        let file = &*written.source.name;
        let slug = check::slug(file);
        if let Some(other) = seen.insert(slug.clone(), file) {
            problems.push(
                Problem::error(
                    "make.same_name",
                    format!("`{other}` and `{file}` would both go into the folder `{slug}`"),
                    "give one of the files another name, or make them one at a time",
                )
                .in_file(file.to_owned()),
            );
        }
    }
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

/// A progress line, on a terminal only.
fn progress(trips: usize) -> ProgressBar {
    let target = if std::io::stderr().is_terminal() && trips > 1 {
        ProgressDrawTarget::stderr()
    } else {
        ProgressDrawTarget::hidden()
    };
    let bar = ProgressBar::with_draw_target(u64::try_from(trips).ok(), target);
    if let Ok(style) = ProgressStyle::with_template("{wide_bar} {pos} of {len} trips") {
        bar.set_style(style);
    }
    bar
}

/// What to say when all went well: folders, then the print guide of each.
#[must_use]
pub fn report(made: &Made) -> String {
    let mut text = String::new();
    if !made.warnings.is_empty() {
        text.push_str(&diag::report(&made.warnings));
    }
    for (folder, lines) in made.folders.iter().zip(&made.lines) {
        text.push_str(&format!("{}\n", folder.display()));
        text.push_str(&guide(lines));
        let index = folder.join("index.html");
        text.push_str(&format!("  open {}\n", index.display()));
    }
    text
}

/// The print guide: a line for each sheet, then the paper that it takes in all.
fn guide(lines: &Lines) -> String {
    let files: Vec<(String, &Line)> = Line::in_order(lines)
        .into_iter()
        .filter(|(_, line)| line.copies > 0)
        .map(|(stem, line)| {
            let ending = if line.pages.is_some() { "pdf" } else { "" };
            let any = line.formats.keys().next().map_or("", String::as_str);
            let ending = if ending.is_empty() { any } else { ending };
            (line.file(stem, ending), line)
        })
        .collect();
    let wide = files.iter().map(|(file, _)| file.len()).max().unwrap_or(0);
    let mut text = String::new();
    for (file, line) in &files {
        let sides = line.pages.map_or_else(String::new, |sides| {
            format!(", {sides} {}", if sides == 1 { "side" } else { "sides" })
        });
        text.push_str(&format!(
            "  {file:wide$}  print {}{sides}; {}\n",
            line.copies, line.print
        ));
    }
    let single = files.iter().filter(|(_, line)| !line.folder.is_empty());
    let leaves: usize = single.map(|(_, line)| line.leaves_of_all()).sum();
    if leaves > 0 {
        let word = if leaves == 1 { "leaf" } else { "leaves" };
        text.push_str(&format!("  {leaves} {word} of paper in all\n"));
    }
    text
}
