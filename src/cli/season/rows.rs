//! A season's table as the commands read it, with the trip files that its rows stand on.

use crate::check;
use crate::cli::Laid;
use crate::diag::{Outcome, Problem, Told, told};
use crate::load::{self, ENGLISH, Written};
use crate::nouns::{self, Library, Trip};
use crate::season::{self, Departure, InHand, assigned, dates, table};
use clap::{Args, ValueEnum};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// How a table is to be read.
#[derive(Args, Debug, Clone, Default)]
pub struct Reading {
    /// The trip file of rows that name none
    #[arg(long, value_name = "TRIP.yaml")]
    pub base: Option<PathBuf>,
    /// How days as 03/04/2027 are meant
    #[arg(long, value_enum, ignore_case = true)]
    pub dates: Option<OrderName>,
}

/// The order of days on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum OrderName {
    /// day/month/year
    DayFirst,
    /// month/day/year
    MonthFirst,
}

impl OrderName {
    const fn order(self) -> dates::Order {
        match self {
            Self::DayFirst => dates::Order::DayFirst,
            Self::MonthFirst => dates::Order::MonthFirst,
        }
    }
}

/// A season's table.
pub(in crate::cli) struct Rows {
    /// The file as it was named.
    pub(in crate::cli) name: String,
    /// Its name without folder and ending.
    pub(in crate::cli) stem: String,
    /// The departures, in the table's order.
    pub(in crate::cli) departures: Vec<Departure>,
    /// What was found out about the table, to be said.
    pub(in crate::cli) told: Vec<Told>,
    /// The numbers of rows that could not be used.
    pub(in crate::cli) left_out: Vec<usize>,
    /// What the shelf gives to departures.
    pub(in crate::cli) in_hand: InHand,
    bases: BTreeMap<String, Written>,
}

impl Rows {
    /// Reads a table and the trip files that it names, and says what is wrong with single rows.
    ///
    /// # Errors
    /// What is wrong with the table as a whole.
    pub(in crate::cli) fn read(
        path: &Path,
        reading: &Reading,
        given: Option<&Path>,
    ) -> Outcome<(Self, Vec<Problem>)> {
        let season = season::read(&read(path)?, reading.dates.map(OrderName::order))?;
        let in_hand = match given {
            Some(given) => assigned::read(&read(given)?, &season.departures)?,
            None => InHand::default(),
        };
        let mut bad = season.bad;
        let stem = path.file_stem().unwrap_or_default();
        let rows = Self {
            name: path.display().to_string(),
            stem: stem.to_string_lossy().into_owned(),
            bases: bases(path, reading, &season.departures, &mut bad),
            departures: season.departures,
            told: season.told,
            left_out: season.left_out,
            in_hand,
        };
        Ok((rows, bad))
    }

    /// The folders of content of the trip files that the departures stand on, and over them those
    /// of the command line.
    ///
    /// # Errors
    /// What is named is no folder; two trip files that name others.
    pub(in crate::cli) fn content(&self, laid: &Laid) -> Outcome<Vec<PathBuf>> {
        let mut bases = self.bases.values();
        let Some(first) = bases.next() else {
            return Ok(laid.folders.clone());
        };
        let folders = laid.over(first)?;
        for other in bases {
            if laid.over(other)? != folders {
                return Err(vec![
                    Problem::error(
                        "season.content",
                        "the trip files of one season name different folders of content",
                        "name the same folders in each, or make a season of each",
                    )
                    .at(other.source.name.clone(), "content".to_owned()),
                ]);
            }
        }
        Ok(folders)
    }

    /// The language of the papers: that of the trip files that the departures stand on.
    ///
    /// # Errors
    /// Two trip files that ask for others: the season's own papers speak one.
    pub(in crate::cli) fn language(&self, library: &Library) -> Outcome<String> {
        let of = |base: &Written| {
            check::wanted_in(base, library)
                .swap_remove(0)
                .to_lowercase()
        };
        let mut bases = self.bases.values();
        let first = bases.next();
        let language = first.map_or_else(|| ENGLISH.to_owned(), of);
        if let Some(first) = first.filter(|_| language.contains('+')) {
            return Err(vec![
                Problem::error(
                    "season.language",
                    told!("a season's papers speak one language, and this trip file asks for `{language}`", language),
                    "write one `language`; `leeside make` sets two beside each other",
                )
                .at(first.source.name.clone(), "language".to_owned()),
            ]);
        }
        match bases.find(|base| of(base) != language) {
            None => Ok(language),
            Some(other) => Err(vec![
                Problem::error(
                    "season.language",
                    "the trip files of one season ask for sheets in different languages",
                    "write one `language` in each, or make a season of each",
                )
                .at(other.source.name.clone(), "language".to_owned()),
            ]),
        }
    }

    /// What deserves a look in the trip files alone, whatever is laid over them.
    pub(in crate::cli) fn looks_of_bases(&self, library: &Library) -> BTreeSet<String> {
        let looks = |base: &Written| check::trip(base, library).map(|(_, warnings)| warnings);
        let found = self.bases.values().filter_map(|base| looks(base).ok());
        found.flatten().map(|one| one.message.to_string()).collect()
    }

    /// The departures that take place.
    pub(in crate::cli) fn going(&self) -> impl Iterator<Item = &Departure> {
        self.departures.iter().filter(|one| !one.cancelled)
    }

    /// A departure's trip as meant, and what deserves a look in it; none where the trip file that
    /// it stands on cannot be read, which was said.
    ///
    /// # Errors
    /// What is wrong with its row or its trip.
    pub(in crate::cli) fn trip(
        &self,
        library: &Library,
        departure: &Departure,
    ) -> Outcome<Option<(Trip, Vec<Problem>)>> {
        let Some(base) = self.bases.get(&departure.base) else {
            return Ok(None);
        };
        let told = |problems: Vec<Problem>| -> Vec<Problem> {
            let problems = problems.into_iter();
            problems.map(|one| departure.problem(one)).collect()
        };
        let written = departure.over(base, &self.in_hand)?;
        let (trip, warnings) = check::trip(&written, library).map_err(told)?;
        self.in_hand.holds(departure, &trip)?;
        let trip = Trip {
            slug: departure.slug.clone(),
            title: format!("{}: {}", trip.title, departure.name),
            ..trip
        };
        Ok(Some((trip, told(warnings))))
    }
}

/// Whether a path names a table, and not a trip.
pub(in crate::cli) fn is_table(path: &Path) -> bool {
    let ending = path.extension().unwrap_or_default();
    ["csv", "tsv", "xlsx"]
        .iter()
        .any(|known| ending.eq_ignore_ascii_case(known))
}

fn read(path: &Path) -> Outcome<table::Table> {
    table::read(&path.display().to_string(), &load::table(path)?)
}

/// The trip files that departures stand on, by the name that the table gives them.
fn bases(
    table: &Path,
    reading: &Reading,
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
        let path = match (departure.base.as_str(), &reading.base) {
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
        // in a table a file is named as people write it: `Gull Strand` is gull-strand.yaml
        let as_id = nouns::id(&departure.base).to_string();
        let found = load::trip_file(&path).or_else(|problems| {
            let is_missing = problems.iter().all(|one| one.code == "file.missing");
            let plain = beside.join(format!("{as_id}.yaml"));
            let found = load::trip_file(&plain)
                .ok()
                .filter(|_| is_missing && !departure.base.is_empty());
            found.ok_or(problems)
        });
        match found {
            Ok(written) => {
                bases.insert(departure.base.clone(), written);
            }
            Err(problems) => bad.extend(problems.into_iter().map(|one| departure.problem(one))),
        }
    }
    bases
}
