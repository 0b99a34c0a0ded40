//! `leeside season`: the packets of a table of departures, and the papers of the season.

mod papers;
pub(in crate::cli) mod rows;
mod shop;

use super::make::{FormatName, PaperName, UnitsName, formats};
use super::{Laid, Out, Said};
use crate::compose::{self, bundles::Bundle};
use crate::diag::{Outcome, Problem, told};
use crate::load::ENGLISH;
use crate::nouns::{Date, Trip};
use crate::packet::{Job, Kept, Packet, Press};
use crate::ready;
use crate::season::{self, Departure};
use crate::write;
use clap::{Args, Subcommand};
use rayon::prelude::*;
use rows::{Reading, Rows};
use shop::PrintBy;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Count, rate and time left.
const PROGRESS: &str = "{wide_bar} {pos} of {len} departures, {per_sec}, {eta} left";

/// Make the packets of a season's departures, each row of a table laid over a trip file
#[derive(Args, Debug)]
#[command(
    args_conflicts_with_subcommands = true,
    subcommand_negates_reqs = true,
    after_help = "The table is .xlsx, or CSV from any spreadsheet; `leeside season --template` writes one to start from.\n\
    Only what changed since the last run is made again. In slices: run 1/3, 2/3, 3/3, then `leeside season join`.\n\
    Example: leeside season content/seasons/summer-2027.csv --out out/summer"
)]
pub struct SeasonArgs {
    /// The table: a departure a row
    #[arg(value_name = "TABLE", required_unless_present = "template")]
    pub table: Option<PathBuf>,
    /// What packets are made from and where they lie
    #[command(flatten)]
    pub making: Making,
    /// Only departures from this day on
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub from: Option<Date>,
    /// Only so many days, with --from
    #[arg(long, value_name = "N", requires = "from")]
    pub days: Option<u32>,
    /// One part of the work, such as 2/3; then `leeside season join`
    #[arg(long, value_name = "K/N", value_parser = slice)]
    pub slice: Option<(usize, usize)>,
    /// Make no packet: as `leeside season join`
    #[arg(long, conflicts_with = "slice")]
    pub join: bool,
    /// Print a table to start from
    #[arg(long)]
    pub template: bool,
    /// What else to do with a season
    #[command(subcommand)]
    pub what: Option<What>,
}

/// What else to do with a season.
#[derive(Subcommand, Debug)]
pub enum What {
    /// Make no packet: put the season's papers together from those that lie there
    Join(Box<Join>),
}

/// The papers of a season alone.
#[derive(Args, Debug)]
pub struct Join {
    /// The table: a departure a row
    #[arg(value_name = "TABLE")]
    pub table: PathBuf,
    /// What packets are made from and where they lie
    #[command(flatten)]
    pub making: Making,
}

/// What packets are made from and where they lie.
#[derive(Args, Debug)]
pub struct Making {
    /// How the table is read
    #[command(flatten)]
    pub reading: Reading,
    /// Who gets which canister: the table that `leeside shelf assign` wrote
    #[arg(long, value_name = "FILE")]
    pub assigned: Option<PathBuf>,
    /// Where to
    #[command(flatten)]
    pub out: Out,
    /// Files for the print shop, each departure on leaves of its own and all return sheets at the end
    #[arg(
        long,
        value_enum,
        ignore_case = true,
        default_value = "both",
        value_name = "WHAT"
    )]
    pub print_by: PrintBy,
    /// One bad row stops the whole
    #[arg(long)]
    pub strict: bool,
    /// Units on the sheets
    #[arg(long, value_enum, ignore_case = true)]
    pub units: Option<UnitsName>,
    /// Paper
    #[arg(long, value_enum, ignore_case = true)]
    pub paper: Option<PaperName>,
    /// Larger print
    #[arg(long)]
    pub large_print: bool,
    /// Write over files that someone has changed since
    #[arg(long)]
    pub force: bool,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

fn day(text: &str) -> Result<Date, String> {
    Date::read(text).ok_or_else(|| "write a day as 2027-06-01".to_owned())
}

fn slice(text: &str) -> Result<(usize, usize), String> {
    let wrong = || "write which part of how many, such as 2/3".to_owned();
    let (part, of) = text.split_once('/').ok_or_else(wrong)?;
    match (part.trim().parse(), of.trim().parse()) {
        (Ok(part), Ok(of)) if (1..=of).contains(&part) => Ok((part, of)),
        _ => Err(wrong()),
    }
}

/// Problems of rows that are told; more are counted.
const MOST_TOLD: usize = 100;

/// A departure that can be made.
struct Ready<'a> {
    departure: &'a Departure,
    /// What its files are made from.
    made_from: String,
    /// Its first day.
    starts: Option<Date>,
    /// Its last day.
    ends: Option<Date>,
    /// Tags of the canisters on hand that it may take.
    tags: Vec<String>,
}

/// A packet made again, with what was kept of the one that lay there before.
type Remade = (Packet, Option<Kept>);

/// What a run knows.
struct Run<'a> {
    press: Press,
    job: Job,
    rows: &'a Rows,
    place: write::Place,
    out: &'a Path,
    print_by: PrintBy,
    force: bool,
}

/// Runs the command.
///
/// # Errors
/// What is wrong with the table as a whole, with content and templates, with the disk; with
/// `--strict`, any bad row.
pub fn run(args: &SeasonArgs) -> Outcome<Said> {
    if let Some(What::Join(join)) = &args.what {
        return season(&join.table, &join.making, None);
    }
    match args.table.as_deref().filter(|_| !args.template) {
        Some(table) => season(table, &args.making, (!args.join).then_some(args)),
        None => Ok(Said {
            result: season::template(),
            ..Said::default()
        }),
    }
}

/// Makes the packets that are asked for, if any, and what a whole season has beside them.
fn season(table: &Path, making: &Making, make: Option<&SeasonArgs>) -> Outcome<Said> {
    let (table, mut bad) = Rows::read(table, &making.reading, making.assigned.as_deref())?;
    let folders = table.content(&making.content)?;
    let ready = ready::library(&folders)?;
    let ready = match table.language(&ready.library)? {
        language if language == ENGLISH => ready,
        language => ready::library_in(&folders, &language)?,
    };
    let run = Run {
        press: Press::new(&ready.assets, ready.library, ready.digest)?,
        job: job(making),
        rows: &table,
        place: match make.and_then(|args| args.slice) {
            Some((part, of)) => write::Place::take_part(&making.out.folder, part, of)?,
            None => write::Place::take(&making.out.folder)?,
        },
        out: &making.out.folder,
        print_by: making.print_by,
        force: making.force,
    };
    let rows = run.survey(&mut bad);
    if making.strict && !bad.is_empty() {
        return Err(first(bad));
    }
    let mut message = told!(
        "{name}: {count} departures",
        name = table.name,
        count = table.departures.len()
    );
    for told in &table.told {
        message.push(told!("; {told}", told));
    }
    message.push("\n");
    if let Some(args) = make {
        let wanted: Vec<&Ready<'_>> = rows
            .iter()
            .enumerate()
            .filter(|(index, row)| chosen(args, *index, row))
            .map(|(_, row)| row)
            .collect();
        let changed = run.make(&wanted, &mut bad)?;
        message.line(told!(
            "{changed} made, {same} as they were",
            changed,
            same = wanted.len() - changed
        ));
    }
    if make.is_none_or(|args| args.slice.is_none()) {
        for gone in run.withdraw()? {
            message.line(told!("withdrawn: {gone}", gone));
        }
        run.join(&rows)?;
        let page = making.out.folder.join("season/index.html");
        message.line(told!("open {page}", page = page.display()));
    }
    Ok(Said {
        message,
        wrong: !bad.is_empty(),
        warnings: ready.warnings.into_iter().chain(first(bad)).collect(),
        ..Said::default()
    })
}

/// The field papers of each departure, bound.
fn job(making: &Making) -> Job {
    Job {
        formats: formats(&[FormatName::Pdf, FormatName::Html]),
        bundle: Some(Bundle::Field),
        options: compose::Options {
            only: Bundle::Field
                .sheets()
                .into_iter()
                .map(str::to_owned)
                .collect(),
            units: making.units.map(UnitsName::units),
            paper: making.paper.map(PaperName::paper),
            large_print: making.large_print,
            level: None,
            revision: None,
        },
    }
}

/// The first problems, and how many more there are.
fn first(mut problems: Vec<Problem>) -> Vec<Problem> {
    if problems.len() > MOST_TOLD {
        let more = problems.len() - MOST_TOLD;
        problems.truncate(MOST_TOLD);
        problems.push(Problem::error(
            "season.more",
            told!("and {more} more problems in other rows", more),
            "mend these first",
        ));
    }
    problems
}

/// Whether a departure is to be made in this run.
fn chosen(args: &SeasonArgs, index: usize, row: &Ready<'_>) -> bool {
    let slice = args.slice.is_none_or(|(part, of)| index % of == part - 1);
    let days = args.from.is_none_or(|from| {
        row.starts.is_some_and(|starts| {
            starts >= from && args.days.is_none_or(|days| starts < from.plus_days(days))
        })
    });
    slice && days
}

impl<'a> Run<'a> {
    /// A departure's trip as meant.
    fn trip(&self, departure: &Departure) -> Outcome<Option<Trip>> {
        let found = self.rows.trip(self.press.library(), departure)?;
        Ok(found.map(|(trip, _)| trip))
    }

    /// Checks every departure that takes place; what is wrong with one is told and costs the
    /// others nothing.
    fn survey(&self, bad: &mut Vec<Problem>) -> Vec<Ready<'a>> {
        let going: Vec<&Departure> = self.rows.going().collect();
        let found: Vec<Outcome<Option<Ready<'a>>>> = going
            .par_iter()
            .map(|departure| {
                let trip = self.trip(departure)?;
                Ok(trip.map(|trip| Ready {
                    departure,
                    made_from: self.press.made_from(&trip, &self.job),
                    starts: trip.starts,
                    ends: trip.ends(),
                    tags: trip
                        .canisters_on_hand
                        .iter()
                        .map(|canister| canister.tag.clone())
                        .collect(),
                }))
            })
            .collect();
        let mut ready = Vec::new();
        for one in found {
            match one {
                Ok(one) => ready.extend(one),
                Err(problems) => bad.extend(problems),
            }
        }
        ready
    }

    /// What the manifest of a departure's packet keeps, where its bound packet is there.
    fn kept(&self, slug: &str) -> Option<Kept> {
        let kept = Kept::of(&self.place.sections(slug).ok()?)?;
        self.out
            .join(slug)
            .join("packet.pdf")
            .exists()
            .then_some(kept)
    }

    /// Makes those packets that are not as they should be; a few at a time, so that a long
    /// season needs no more room than a short one. Gives back how many were made.
    fn make(&self, wanted: &[&Ready<'_>], bad: &mut Vec<Problem>) -> Outcome<usize> {
        let bar = crate::cli::terminal::progress(wanted.len(), PROGRESS);
        let mut changed = 0;
        for few in wanted.chunks(2 * rayon::current_num_threads()) {
            let made: Vec<(&Ready<'_>, Outcome<Option<Remade>>)> =
                few.par_iter().map(|row| (*row, self.remade(row))).collect();
            for (row, outcome) in made {
                bar.inc(1);
                let packet = match outcome {
                    Ok(None) => continue,
                    Ok(Some(packet)) => packet,
                    Err(problems) => {
                        bad.extend(problems.into_iter().map(|one| row.departure.problem(one)));
                        continue;
                    }
                };
                match self.put(row, packet) {
                    Ok(()) => changed += 1,
                    // a file that someone changed costs its own departure alone
                    Err(problems) if problems.iter().all(|one| one.code == "write.edited") => {
                        bad.extend(problems.into_iter().map(|one| row.departure.problem(one)));
                    }
                    Err(problems) => return Err(problems),
                }
            }
        }
        bar.finish_and_clear();
        Ok(changed)
    }

    /// A departure's packet made again, with what was kept of the one before; none where it is
    /// as it should be.
    fn remade(&self, row: &Ready<'_>) -> Outcome<Option<Remade>> {
        let old = self.kept(&row.departure.slug);
        // one that has left keeps the papers that it took along
        let stays =
            |old: &Kept| old.made_from == row.made_from || self.rows.in_hand.is_gone(row.departure);
        if old.as_ref().is_some_and(stays) {
            return Ok(None);
        }
        let Some(trip) = self.trip(row.departure)? else {
            return Ok(None);
        };
        Ok(Some((self.press.print(&trip, &self.job)?, old)))
    }

    fn put(&self, row: &Ready<'_>, (mut packet, old): Remade) -> Outcome<()> {
        let kept = Kept {
            table: self.rows.stem.clone(),
            made_from: row.made_from.clone(),
            row: packet.row_of(&row.departure.name),
        };
        if let Some(old) = old.filter(|old| old.row.revision != kept.row.revision) {
            self.press.slip(&mut packet, &old.row, &kept.row)?;
        }
        let lying = self.place.lying(&packet.slug)?;
        let packet = self.press.indexed(packet, &lying.sections, &lying.files)?;
        let mut sections = packet.sections();
        kept.add_to(&mut sections);
        let packet = write::Packet {
            sections,
            slug: packet.slug,
            about: packet.about,
            files: packet.files,
            gone: packet.gone,
        };
        self.place.put(&[packet], self.force).map(|_| ())
    }

    /// Moves packets of this table aside that have no departure any more.
    fn withdraw(&self) -> Outcome<Vec<String>> {
        let going: BTreeSet<&str> = self.rows.going().map(|one| one.slug.as_str()).collect();
        let mut gone = Vec::new();
        for slug in self.place.slugs()? {
            let of_this = || {
                let kept = Kept::of(&self.place.sections(&slug).ok()?)?;
                (kept.table == self.rows.stem).then_some(())
            };
            if !going.contains(slug.as_str()) && of_this().is_some() {
                self.place.withdraw(&slug)?;
                gone.push(slug);
            }
        }
        Ok(gone)
    }
}
