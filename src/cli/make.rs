//! `leeside make`: writes the packets of one or several trips.

use super::{Laid, Out, Said, press};
use crate::check;
use crate::compose::{self, bundles::Bundle};
use crate::diag::{Outcome, Problem, Told, told};
use crate::load::{ENGLISH, Written};
use crate::nouns;
use crate::packet::{Format, Job, Line, Lines, Packet, Press};
use crate::units::Units;
use crate::write::{self, Fate};
use clap::{Args, ValueEnum};
use rayon::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Write the packet of papers for one trip or several.
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside make content/trips/quillback-ridge.yaml --paper a4\n\n\
        A folder stands for the trips that lie in it, `-` for a trip on standard input."
)]
pub struct Make {
    /// Trip or lesson files, folders of them, or - for standard input
    #[arg(required = true, value_name = "TRIP.yaml")]
    pub trips: Vec<PathBuf>,
    /// Where to
    #[command(flatten)]
    pub out: Out,
    /// Only this sheet; may be given several times
    #[arg(long, alias = "sheets", value_name = "NAME", value_delimiter = ',')]
    pub sheet: Vec<String>,
    /// The sheets of one reader, with all of them in one `packet.pdf` to print: tonight,
    /// learners, field, office, all
    #[arg(long, value_name = "NAME")]
    pub bundle: Option<String>,
    /// Formats, with commas between
    #[arg(
        long,
        alias = "formats",
        value_enum,
        ignore_case = true,
        value_delimiter = ',',
        default_value = "pdf,html,md"
    )]
    pub format: Vec<FormatName>,
    /// Larger print; sheets may then take more sides
    #[arg(long)]
    pub large_print: bool,
    /// Whom the fuel worksheet is for, whatever `level` the trip states
    #[arg(long, value_enum, ignore_case = true)]
    pub level: Option<LevelName>,
    /// Languages of the sheets, whatever the trip states; of several, a packet each
    #[arg(skip)]
    pub language: Vec<String>,
    /// Units on the sheets
    #[arg(long, value_enum, ignore_case = true)]
    pub units: Option<UnitsName>,
    /// Paper
    #[arg(long, value_enum, ignore_case = true)]
    pub paper: Option<PaperName>,
    /// Write over files that someone has changed since
    #[arg(long)]
    pub force: bool,
    /// Write nothing; list what would be written, replaced and kept
    #[arg(short = 'n', long)]
    pub dry_run: bool,
    /// Say what was written as JSON on standard output
    #[arg(long)]
    pub json: bool,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
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

/// Forms of the fuel worksheet on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum LevelName {
    /// A look into a table and one multiplication
    Scout,
    /// From water to grams, line by line
    Leader,
    /// The same with what is lost to the air
    Instructor,
}

impl LevelName {
    const fn level(self) -> nouns::Level {
        match self {
            Self::Scout => nouns::Level::Scout,
            Self::Leader => nouns::Level::AdultBeginner,
            Self::Instructor => nouns::Level::InstructorCandidate,
        }
    }
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
                level: self.level.map(LevelName::level),
                revision: None,
            },
        })
    }
}

/// What was written, or what would be, and what to say about it.
pub struct Made {
    /// The folders, in the order of the trips.
    pub folders: Vec<PathBuf>,
    /// The sheets that were made for each, by the stem of their files.
    pub lines: Vec<Lines>,
    /// What deserves a look.
    pub warnings: Vec<Problem>,
    /// For each, what would become of each file; none where they were written.
    pub would: Vec<Vec<(String, Fate)>>,
}

/// Runs the command and puts what it did into words.
///
/// # Errors
/// As [`run`].
pub fn said(make: &Make) -> Outcome<Said> {
    let made = run(make)?;
    let (result, message) = match (make.json, make.dry_run) {
        (true, _) => (json(&made), Told::NOTHING),
        (false, true) => (would(&made), Told::NOTHING),
        (false, false) => (String::new(), Told::as_written(report(&made))),
    };
    Ok(Said {
        result,
        message,
        warnings: made.warnings,
        ..Said::default()
    })
}

/// Runs the command: load, check, plan, compose, render, write, all or nothing.
///
/// # Errors
/// Every problem of trips, content and templates; then nothing was written. A
/// code that starts with `write.` says that the disk stood in the way.
pub fn run(make: &Make) -> Outcome<Made> {
    let job = make.job()?;
    let trips = super::files::trips(&make.trips)?;
    distinct(&trips)?;
    let (presses, wanted, mut warnings) = presses(make, &trips)?;
    let bar = super::terminal::progress(wanted.len(), "{wide_bar} {pos} of {len} packets");
    let outcomes: Vec<Outcome<(&Press, Packet)>> = wanted
        .par_iter()
        .map(|one| {
            let press = &presses[&one.press];
            let packet = made(one, press, &job);
            bar.inc(1);
            packet.map(|packet| (press, packet))
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
    let made = if make.dry_run {
        looked_at(&make.out.folder, packets)?
    } else {
        put(&make.out.folder, packets, make.force)?
    };
    warnings.extend(made.warnings);
    Ok(Made { warnings, ..made })
}

/// What prints, by the folders of content that are laid over the library, and by language.
type Presses = BTreeMap<(Vec<PathBuf>, String), Press>;

/// One packet to make: a trip, its folders of content, a language, and whether it is the trip's
/// first, whose folder has the trip's own name.
struct Wanted<'w> {
    written: &'w Written,
    press: (Vec<PathBuf>, String),
    first: bool,
}

/// What prints each trip, and what is to be printed: one press for all packets that have the same
/// folders of content and one language.
///
/// # Errors
/// Every problem of content and templates, and languages that are not there.
fn presses<'w>(
    make: &Make,
    trips: &'w [Written],
) -> Outcome<(Presses, Vec<Wanted<'w>>, Vec<Problem>)> {
    let mut presses = Presses::new();
    let mut wanted = Vec::new();
    let mut warnings = Vec::new();
    let mut problems = Vec::new();
    for written in trips {
        let folders = match make.content.over(written) {
            Ok(folders) => folders,
            Err(more) => {
                problems.extend(more);
                continue;
            }
        };
        let english = (folders.clone(), ENGLISH.to_owned());
        if !presses.contains_key(&english) {
            let (press, more) = press::of(&english.0, &english.1)?;
            warnings.extend(more);
            presses.insert(english.clone(), press);
        }
        let mut languages = make.language.clone();
        if languages.is_empty() {
            languages = check::wanted_in(written, presses[&english].library());
        }
        for (number, language) in languages.iter().enumerate() {
            let key = (folders.clone(), language.to_lowercase());
            if !presses.contains_key(&key) {
                match press::of(&key.0, &key.1) {
                    Ok((press, _)) => {
                        presses.insert(key.clone(), press);
                    }
                    Err(more) => {
                        let of_file = make.language.is_empty();
                        problems.extend(more.into_iter().map(|one| {
                            if of_file {
                                press::asked(written, one)
                            } else {
                                one
                            }
                        }));
                        continue;
                    }
                }
            }
            wanted.push(Wanted {
                written,
                press: key,
                first: number == 0,
            });
        }
    }
    if problems.is_empty() {
        Ok((presses, wanted, warnings))
    } else {
        Err(problems)
    }
}

/// The packet of a further language has its code behind the trip's name.
fn made(one: &Wanted<'_>, press: &Press, job: &Job) -> Outcome<Packet> {
    let packet = press.packet(one.written, job)?;
    let slug = if one.first {
        packet.slug
    } else {
        format!("{}-{}", packet.slug, one.press.1.replace('+', "-"))
    };
    Ok(Packet { slug, ..packet })
}

/// Puts packets down beside what lies there already.
///
/// # Errors
/// What stands in the way on the disk, and files that someone has changed; then nothing was
/// written.
pub(super) fn put(out: &Path, packets: Vec<(&Press, Packet)>, force: bool) -> Outcome<Made> {
    let place = write::Place::take(out)?;
    let (ready, made) = beside(&place, packets)?;
    Ok(Made {
        folders: place.put(&ready, force)?,
        ..made
    })
}

/// What would become of each file of packets; nothing is written.
///
/// # Errors
/// A folder that cannot be read.
fn looked_at(out: &Path, packets: Vec<(&Press, Packet)>) -> Outcome<Made> {
    let place = write::Place::look(out);
    let (ready, made) = beside(&place, packets)?;
    let fates = ready.iter().map(|packet| place.fates(packet));
    Ok(Made {
        folders: ready.iter().map(|packet| out.join(&packet.slug)).collect(),
        would: fates.collect::<Outcome<_>>()?,
        ..made
    })
}

/// Packets with their index pages, made with what lies in their folders already.
fn beside(
    place: &write::Place,
    packets: Vec<(&Press, Packet)>,
) -> Outcome<(Vec<write::Packet>, Made)> {
    let mut lines = Vec::new();
    let mut warnings = Vec::new();
    let mut ready = Vec::new();
    for (press, mut packet) in packets {
        lines.push(packet.lines.clone());
        warnings.append(&mut packet.warnings);
        let lying = place.lying(&packet.slug)?;
        let packet = press.indexed(packet, &lying.sections, &lying.files)?;
        ready.push(write::Packet {
            sections: packet.sections(),
            slug: packet.slug,
            about: packet.about,
            files: packet.files,
            gone: packet.gone,
        });
    }
    let made = Made {
        folders: Vec::new(),
        lines,
        warnings,
        would: Vec::new(),
    };
    Ok((ready, made))
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
                    told!(
                        "`{other}` and `{file}` would both go into the folder `{slug}`",
                        other,
                        file,
                        slug
                    ),
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

/// What to say when all went well: folders, then the print guide of each.
#[must_use]
pub fn report(made: &Made) -> String {
    let mut text = String::new();
    for (folder, lines) in made.folders.iter().zip(&made.lines) {
        text.push_str(&format!("{}\n", folder.display()));
        text.push_str(&guide(lines));
        let index = folder.join("index.html");
        text.push_str(&format!("  open {}\n", index.display()));
    }
    text
}

/// What a run would do, a line a file.
fn would(made: &Made) -> String {
    let mut text = String::new();
    for (folder, fates) in made.folders.iter().zip(&made.would) {
        for (path, fate) in fates {
            let path = folder.join(path);
            text.push_str(&format!("{:9}  {}\n", fate.word(), path.display()));
        }
    }
    text
}

/// `leeside-make/1`.
fn json(made: &Made) -> String {
    let mut would = made.would.iter();
    let packets: Vec<Value> = made
        .folders
        .iter()
        .zip(&made.lines)
        .map(|(folder, lines)| {
            let sheets: Vec<Value> = Line::in_order(lines)
                .into_iter()
                .flat_map(|(stem, line)| {
                    line.formats.keys().map(move |ending| (stem, line, ending))
                })
                .map(|(stem, line, ending)| {
                    json!({
                        "file": line.file(stem, ending),
                        "sheet": line.sheet,
                        "title": line.title,
                        "copies": line.copies,
                        "sides": line.pages,
                        "print": line.print,
                    })
                })
                .collect();
            let mut packet = json!({
                "folder": folder.display().to_string(),
                "open": folder.join("index.html").display().to_string(),
                "sheets": sheets,
            });
            if let (Some(fates), Some(packet)) = (would.next(), packet.as_object_mut()) {
                let fates = fates
                    .iter()
                    .map(|(path, fate)| json!({"file": path, "fate": fate.word()}));
                packet.insert("would".to_owned(), fates.collect());
            }
            packet
        })
        .collect();
    format!(
        "{:#}\n",
        json!({"format": "leeside-make/1", "packets": packets})
    )
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
