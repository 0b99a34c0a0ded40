//! `leeside season`: the packets of a table of departures, and the papers of the season.

use super::Said;
use super::make::{FormatName, PaperName, UnitsName, formats};
use crate::compose::season::{self as papers, Listed, Row};
use crate::compose::{self, bundles::Bundle};
use crate::diag::{Outcome, Problem};
use crate::load::{self, Written};
use crate::nouns::{Date, Trip};
use crate::packet::{Job, Kept, Packet, Press};
use crate::ready;
use crate::render::html::{SeasonPage, SeasonRow};
use crate::render::pdf::{self, Part};
use crate::season::{self, Departure, InHand, dates, table};
use crate::write;
use clap::{Args, ValueEnum};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use rayon::prelude::*;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// Make the packets of a season's departures, each row of a table laid over a trip file
#[derive(Args, Debug)]
#[command(
    after_help = "The table is CSV from any spreadsheet; `leeside season --template` writes one to start from.\n\
    Only what changed since the last run is made again. In slices: run 1/3, 2/3, 3/3, then --join.\n\
    Example: leeside season content/seasons/example.csv --out out/season-2027"
)]
pub struct SeasonArgs {
    /// The table: a departure a row
    #[arg(value_name = "TABLE.csv", required_unless_present = "template")]
    pub table: Option<PathBuf>,
    /// The trip file of rows that name none
    #[arg(long, value_name = "TRIP.yaml")]
    pub base: Option<PathBuf>,
    /// Folder in which each departure gets its own
    #[arg(
        short,
        long,
        alias = "output",
        value_name = "DIR",
        default_value = "out"
    )]
    pub out: PathBuf,
    /// Only departures from this day on
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub from: Option<Date>,
    /// Only so many days, with --from
    #[arg(long, value_name = "N", requires = "from")]
    pub days: Option<u32>,
    /// One part of the work, such as 2/3; then --join
    #[arg(long, value_name = "K/N", value_parser = slice)]
    pub slice: Option<(usize, usize)>,
    /// Make no packet: put the season's papers together from those that lie there
    #[arg(long, conflicts_with = "slice")]
    pub join: bool,
    /// One bad row stops the whole
    #[arg(long)]
    pub strict: bool,
    /// How days as 03/04/2027 are meant
    #[arg(long, value_enum, ignore_case = true)]
    pub dates: Option<OrderName>,
    /// Print a table to start from
    #[arg(long)]
    pub template: bool,
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
    /// A folder of content and templates laid over the built-in ones
    #[arg(long, value_name = "DIR")]
    pub content: Option<PathBuf>,
}

/// The order of days on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum OrderName {
    /// day/month/year
    DayFirst,
    /// month/day/year
    MonthFirst,
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

/// Where the season's manifest keeps what each day's file was made from.
const DAYS: &str = "days";

/// Problems of rows that are told; more are counted.
const MOST_TOLD: usize = 100;

/// A departure that can be made.
struct Ready<'a> {
    departure: &'a Departure,
    /// What its files are made from.
    made_from: String,
    /// Its first day.
    starts: Option<Date>,
}

/// A packet made again, with what was kept of the one that lay there before.
type Remade = (Packet, Option<Kept>);

/// What a run knows.
struct Run<'a> {
    press: Press,
    job: Job,
    table: String,
    bases: BTreeMap<String, Written>,
    place: write::Place,
    out: &'a Path,
    force: bool,
}

/// Runs the command.
///
/// # Errors
/// What is wrong with the table as a whole, with content and templates, with the disk; with
/// `--strict`, any bad row.
pub fn run(args: &SeasonArgs) -> Outcome<Said> {
    let Some(path) = args.table.as_deref().filter(|_| !args.template) else {
        return Ok(Said {
            result: season::template(),
            ..Said::default()
        });
    };
    let name = path.display().to_string();
    let table = table::read(&name, &load::table(path)?)?;
    let order = args.dates.map(|order| match order {
        OrderName::DayFirst => dates::Order::DayFirst,
        OrderName::MonthFirst => dates::Order::MonthFirst,
    });
    let season = season::read(&table, order)?;
    let mut bad = season.bad;
    let bases = bases(args, path, &season.departures, &mut bad);
    let ready = ready::library(args.content.as_deref())?;
    let job = Job {
        formats: formats(&[FormatName::Pdf, FormatName::Html]),
        bundle: Some(Bundle::Field),
        options: compose::Options {
            only: Bundle::Field
                .sheets()
                .into_iter()
                .map(str::to_owned)
                .collect(),
            units: args.units.map(UnitsName::units),
            paper: args.paper.map(PaperName::paper),
            large_print: args.large_print,
            revision: None,
        },
    };
    let run = Run {
        press: Press::new(&ready.assets, ready.library, ready.digest)?,
        job,
        table: season::base_name(&name.replace(".csv", ".yaml")).to_string(),
        bases,
        place: write::Place::take(&args.out)?,
        out: &args.out,
        force: args.force,
    };
    let rows = run.survey(&season.departures, &mut bad);
    if args.strict && !bad.is_empty() {
        return Err(first(bad));
    }
    let mut message = format!("{name}: {} departures", season.departures.len());
    for told in &season.told {
        message.push_str(&format!("; {told}"));
    }
    message.push('\n');
    if !args.join {
        let wanted: Vec<&Ready<'_>> = rows
            .iter()
            .enumerate()
            .filter(|(index, row)| chosen(args, *index, row))
            .map(|(_, row)| row)
            .collect();
        let changed = run.make(&wanted, &mut bad)?;
        message.push_str(&format!(
            "{} made, {} as they were\n",
            changed,
            wanted.len() - changed
        ));
    }
    if args.slice.is_none() {
        for gone in run.withdraw(&season.departures)? {
            message.push_str(&format!("withdrawn: {gone}\n"));
        }
        run.join(&season.departures, &rows)?;
        let page = args.out.join("season/index.html");
        message.push_str(&format!("open {}\n", page.display()));
    }
    Ok(Said {
        message,
        wrong: !bad.is_empty(),
        warnings: ready.warnings.into_iter().chain(first(bad)).collect(),
        ..Said::default()
    })
}

/// The first problems, and how many more there are.
fn first(mut problems: Vec<Problem>) -> Vec<Problem> {
    if problems.len() > MOST_TOLD {
        let more = problems.len() - MOST_TOLD;
        problems.truncate(MOST_TOLD);
        problems.push(Problem::error(
            "season.more",
            format!("and {more} more problems in other rows"),
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

/// The trip files that departures stand on, by the name that the table gives them.
fn bases(
    args: &SeasonArgs,
    table: &Path,
    departures: &[Departure],
    bad: &mut Vec<Problem>,
) -> BTreeMap<String, Written> {
    let mut bases = BTreeMap::new();
    let mut seen = BTreeSet::new();
    for departure in departures.iter().filter(|one| !one.cancelled) {
        if !seen.insert(departure.base.clone()) {
            continue;
        }
        let beside = table.parent().unwrap_or(Path::new(""));
        let path = match (departure.base.as_str(), &args.base) {
            ("", Some(base)) => base.clone(),
            ("", None) => {
                bad.push(departure.problem(Problem::error(
                    "season.base",
                    "no trip file is named",
                    "name one in a column `base`, or for all rows with `--base TRIP.yaml`",
                )));
                continue;
            }
            (name, _) if Path::new(name).extension().is_some() => beside.join(name),
            (name, _) => beside.join(format!("{name}.yaml")),
        };
        match load::trip_file(&path) {
            Ok(written) => {
                bases.insert(departure.base.clone(), written);
            }
            Err(problems) => bad.extend(problems.into_iter().map(|one| departure.problem(one))),
        }
    }
    bases
}

impl Run<'_> {
    /// A departure's trip as meant.
    fn trip(&self, departure: &Departure) -> Outcome<Option<Trip>> {
        let Some(base) = self.bases.get(&departure.base) else {
            return Ok(None);
        };
        let told = |problems: Vec<Problem>| -> Vec<Problem> {
            problems
                .into_iter()
                .map(|one| departure.problem(one))
                .collect()
        };
        // containers from the shelf come in here, when a shelf assigns them
        let written = departure.over(base, &InHand::new())?;
        let (trip, _) = self.press.trip(&written).map_err(told)?;
        Ok(Some(Trip {
            slug: departure.slug.clone(),
            title: format!("{}: {}", trip.title, departure.name),
            ..trip
        }))
    }

    /// Checks every departure that takes place; what is wrong with one is told and costs the
    /// others nothing.
    fn survey<'d>(&self, departures: &'d [Departure], bad: &mut Vec<Problem>) -> Vec<Ready<'d>> {
        let going: Vec<&Departure> = departures.iter().filter(|one| !one.cancelled).collect();
        let found: Vec<Outcome<Option<Ready<'d>>>> = going
            .par_iter()
            .map(|departure| {
                let trip = self.trip(departure)?;
                Ok(trip.map(|trip| Ready {
                    departure,
                    made_from: self.press.made_from(&trip, &self.job),
                    starts: trip.starts,
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
        let bar = progress(wanted.len());
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
        if old
            .as_ref()
            .is_some_and(|old| old.made_from == row.made_from)
        {
            return Ok(None);
        }
        let Some(trip) = self.trip(row.departure)? else {
            return Ok(None);
        };
        Ok(Some((self.press.print(&trip, &self.job)?, old)))
    }

    fn put(&self, row: &Ready<'_>, (mut packet, old): Remade) -> Outcome<()> {
        let kept = Kept {
            table: self.table.clone(),
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
    fn withdraw(&self, departures: &[Departure]) -> Outcome<Vec<String>> {
        let going: BTreeSet<&str> = departures
            .iter()
            .filter(|one| !one.cancelled)
            .map(|one| one.slug.as_str())
            .collect();
        let mut gone = Vec::new();
        for slug in self.place.slugs()? {
            let of_this = || {
                let kept = Kept::of(&self.place.sections(&slug).ok()?)?;
                (kept.table == self.table).then_some(())
            };
            if !going.contains(slug.as_str()) && of_this().is_some() {
                self.place.withdraw(&slug)?;
                gone.push(slug);
            }
        }
        Ok(gone)
    }

    /// Puts the papers of the season together from the packets that lie there.
    fn join(&self, departures: &[Departure], rows: &[Ready<'_>]) -> Outcome<()> {
        let current: BTreeMap<&str, &str> = rows
            .iter()
            .map(|row| (row.departure.slug.as_str(), row.made_from.as_str()))
            .collect();
        let mut all: Vec<(&Departure, Option<Row>)> = departures
            .iter()
            .filter(|one| !one.cancelled)
            .map(|departure| {
                let row = self.kept(&departure.slug).map(|kept| {
                    let mut row = kept.row;
                    if current.get(departure.slug.as_str()) != Some(&kept.made_from.as_str()) {
                        row.red
                            .insert(0, "papers are older than the table".to_owned());
                    }
                    row
                });
                (departure, row)
            })
            .collect();
        let day = |row: &Option<Row>| row.as_ref().and_then(|row| row.day.clone());
        all.sort_by_key(|(departure, row)| (day(row).is_none(), day(row), departure.row));
        let listed: Vec<Listed<'_>> = all
            .iter()
            .filter_map(|(departure, row)| {
                row.as_ref().map(|row| Listed {
                    row,
                    notes: &departure.notes,
                })
            })
            .collect();
        let days = self.bind_days(&listed)?;
        let (list, page) = self
            .press
            .paper("day-list", &papers::day_list(&self.table, &listed))?;
        let index = self.press.season_page(&self.page(&all, days.keys()))?;
        let packet = write::Packet {
            slug: "season".to_owned(),
            about: vec![("title".to_owned(), self.table.clone())],
            files: vec![
                ("index.html".to_owned(), index),
                ("day-list.html".to_owned(), page),
                ("day-list.pdf".to_owned(), list.bytes),
                ("season.csv".to_owned(), csv(&all).into_bytes()),
            ],
            sections: BTreeMap::from([(DAYS.to_owned(), days)]),
            ..write::Packet::default()
        };
        self.place.put(&[packet], self.force).map(|_| ())
    }

    /// One file a day for the print shop: a cover, and each departure's packet behind a leaf
    /// with its name. A day whose file was made from the same is left as it is. Gives back the
    /// days, each with the mark of what its file was made from.
    fn bind_days(&self, listed: &[Listed<'_>]) -> Outcome<BTreeMap<String, Value>> {
        let before = self
            .place
            .sections("season")?
            .remove(DAYS)
            .unwrap_or_default();
        let mut days = BTreeMap::new();
        for (day, here) in papers::by_day(listed) {
            let path = self
                .out
                .join("days")
                .join(format!("{}.pdf", compose::slug(&day)));
            let said: Vec<String> = here
                .iter()
                .map(|one| format!("{:?} {:?}", one.row, one.notes))
                .collect();
            let mark = Value::from(self.press.mark(&said.join("\n")));
            let same = before.get(&day) == Some(&mark) && path.exists();
            days.insert(day.clone(), mark);
            if same {
                continue;
            }
            let (cover, _) = self.press.paper("cover", &papers::cover(&day, &here))?;
            let mut files = vec![(format!("Packets of {day}"), cover.bytes)];
            for one in &here {
                let (leaf, _) = self.press.paper("leaf", &papers::separator(one))?;
                let packet = self
                    .out
                    .join(season::slug(&one.row.name))
                    .join("packet.pdf");
                files.push((one.row.name.clone(), leaf.bytes));
                files.push((one.row.title.clone(), load::bytes(&packet)?));
            }
            let parts: Vec<Part<'_>> = files
                .iter()
                .map(|(title, bytes)| Part {
                    title: title.clone(),
                    bytes,
                    empty_backs: Vec::new(),
                })
                .collect();
            let bound = pdf::bind(&format!("{}: {day}", self.table), &parts)?;
            write::single(&path, &bound.bytes, true)?;
        }
        Ok(days)
    }

    /// What the season's page shows.
    fn page<'a>(
        &self,
        all: &[(&Departure, Option<Row>)],
        days: impl Iterator<Item = &'a String>,
    ) -> SeasonPage {
        let mut heads: Vec<String> = Vec::new();
        for (head, _) in all.iter().flat_map(|(departure, _)| &departure.notes) {
            if !heads.contains(head) {
                heads.push(head.clone());
            }
        }
        let red = all
            .iter()
            .filter(|(_, row)| row.as_ref().is_none_or(|row| !row.red.is_empty()));
        let mut ways = vec![
            (
                "Day list, and what to have ready".to_owned(),
                "day-list.html".to_owned(),
            ),
            ("Day list, to print".to_owned(), "day-list.pdf".to_owned()),
            (
                "This table for a spreadsheet".to_owned(),
                "season.csv".to_owned(),
            ),
        ];
        ways.extend(days.map(|day| {
            let file = format!("../days/{}.pdf", compose::slug(day));
            (format!("All packets of {day} in one file"), file)
        }));
        SeasonPage {
            title: format!("Season: {}", self.table),
            facts: vec![
                ("Departures".to_owned(), all.len().to_string()),
                ("To see to".to_owned(), red.count().to_string()),
            ],
            ways,
            rows: all
                .iter()
                .map(|(departure, row)| page_row(departure, row.as_ref(), &heads))
                .collect(),
            heads: heads
                .iter()
                .cloned()
                .chain(["Where".to_owned(), "Revision".to_owned()])
                .collect(),
            foot: "Made from the table and from the packets that lie beside this folder."
                .to_owned(),
        }
    }
}

fn page_row(departure: &Departure, row: Option<&Row>, heads: &[String]) -> SeasonRow {
    let note = |head: &String| {
        let found = departure.notes.iter().find(|(one, _)| one == head);
        found.map_or_else(String::new, |(_, note)| note.clone())
    };
    let mut cells: Vec<String> = heads.iter().map(note).collect();
    let Some(row) = row else {
        cells.extend([String::new(), String::new()]);
        return SeasonRow {
            name: departure.name.clone(),
            cells,
            red: vec!["no papers: its row has a problem, or it is not made yet".to_owned()],
            ..SeasonRow::default()
        };
    };
    cells.extend([row.places.clone(), row.revision.clone()]);
    SeasonRow {
        day: row.day.clone().unwrap_or_default(),
        name: departure.name.clone(),
        link: format!("../{}/index.html", departure.slug),
        trip: row.title.clone(),
        cells,
        red: row.red.clone(),
    }
}

/// The season's page as a table for a spreadsheet. A cell that a spreadsheet would take for a
/// formula starts with an apostrophe, which makes it text there.
fn csv(all: &[(&Departure, Option<Row>)]) -> String {
    let cell = |text: &str| {
        let text = text.replace(['\r', '\n'], " ");
        let formula = text.starts_with(['=', '+', '-', '@', '\t', '|', '%']);
        let text = if formula { format!("'{text}") } else { text };
        format!("\"{}\"", text.replace('"', "\"\""))
    };
    let mut text = "\u{feff}day,departure,trip,where,take,see to,revision,notes\r\n".to_owned();
    for (departure, row) in all {
        let notes: Vec<String> = departure
            .notes
            .iter()
            .map(|(head, note)| format!("{head}: {note}"))
            .collect();
        let none = Row {
            red: vec!["no papers".to_owned()],
            ..Row::default()
        };
        let row = row.as_ref().unwrap_or(&none);
        let cells = [
            row.day.clone().unwrap_or_default(),
            departure.name.clone(),
            row.title.clone(),
            row.places.clone(),
            papers::take(row),
            row.red.join("; "),
            row.revision.clone(),
            notes.join("; "),
        ];
        let line: Vec<String> = cells.iter().map(|text| cell(text)).collect();
        text.push_str(&line.join(","));
        text.push_str("\r\n");
    }
    text
}

/// Count, rate and time left, on a terminal only.
fn progress(departures: usize) -> ProgressBar {
    let target = if std::io::stderr().is_terminal() && departures > 1 {
        ProgressDrawTarget::stderr()
    } else {
        ProgressDrawTarget::hidden()
    };
    let bar = ProgressBar::with_draw_target(u64::try_from(departures).ok(), target);
    let form = "{wide_bar} {pos} of {len} departures, {per_sec}, {eta} left";
    if let Ok(style) = ProgressStyle::with_template(form) {
        bar.set_style(style);
    }
    bar
}
