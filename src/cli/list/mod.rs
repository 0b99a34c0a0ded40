//! `leeside list`: what the library holds, and which modules apply to a trip.

mod json;
mod places;

use super::{Laid, Said};
use crate::check;
use crate::compose::catalogue::text;
use crate::compose::said;
use crate::compose::{self, bundles::Bundle, sheets};
use crate::course::practice::Topic;
use crate::diag::{Outcome, Problem, told};
use crate::load;
use crate::nouns::{
    Basis, ContainerKind, Date, Id, Library, MealNeed, Menu, Module, QuestionKind, Sure, Trip,
};
use crate::units::say;
use clap::{Args, ValueEnum};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::PathBuf;

/// Show what the library holds
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside list modules --for content/trips/quillback-ridge.yaml")]
pub struct List {
    /// What to list
    #[arg(value_enum, ignore_case = true)]
    pub what: What,
    /// Only what applies to this trip, with the reason (modules and places)
    #[arg(long = "for", value_name = "TRIP.yaml")]
    pub trip: Option<PathBuf>,
    /// What each module teaches, asks and warns of, in numbers, and what teaches and assesses each
    /// objective
    #[arg(long, conflicts_with = "trip")]
    pub coverage: bool,
    /// How hard the learner text of each module is to read, with its hardest sentence
    #[arg(long, conflicts_with_all = ["trip", "coverage"])]
    pub reading: bool,
    /// What of the rules of places is stale on this day, and where to read them again
    #[arg(long, value_name = "DATE", conflicts_with = "json")]
    pub on: Option<String>,
    /// As JSON on standard output, for other programs
    #[arg(long)]
    pub json: bool,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// What can be listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum What {
    /// Subjects that are taught
    #[value(alias = "module")]
    Modules,
    /// Sheets of a packet, for `--sheet`
    #[value(alias = "sheet")]
    Sheets,
    /// Sheets by reader, for `--bundle`
    #[value(alias = "bundle")]
    Bundles,
    /// Stoves, pots and containers
    #[value(aliases = ["stoves", "stove", "pots", "pot", "containers", "container"])]
    Gear,
    /// Fuels
    #[value(alias = "fuel")]
    Fuels,
    /// Menus that a trip can name
    #[value(alias = "menu")]
    Menus,
    /// Kinds of place with their rules
    #[value(alias = "place")]
    Places,
    /// Organisations that a trip can name
    #[value(alias = "profile")]
    Profiles,
    /// Where the figures come from
    #[value(alias = "source")]
    Sources,
    /// What practice problems can be about
    #[value(alias = "topic")]
    Topics,
}

/// Runs the command.
///
/// # Errors
/// Every problem of the library or the trip.
pub fn run(args: &List) -> Outcome<Said> {
    if args.trip.is_some() && !matches!(args.what, What::Modules | What::Places) {
        return Err(vec![Problem::error(
            "flag.for",
            "`--for` picks modules and places; the rest is the same for every trip",
            "leave `--for` out, or list modules or places",
        )]);
    }
    if args.coverage && args.what != What::Modules {
        return Err(vec![Problem::error(
            "flag.coverage",
            "`--coverage` counts what modules hold",
            "write `leeside list modules --coverage`",
        )]);
    }
    if args.reading && args.what != What::Modules {
        return Err(vec![Problem::error(
            "flag.reading",
            "`--reading` reads the text of modules",
            "write `leeside list modules --reading`",
        )]);
    }
    let on = args
        .on
        .as_deref()
        .map(|day| on(args.what, day))
        .transpose()?;
    let written = args.trip.as_deref().map(load::trip_file).transpose()?;
    let folders = match &written {
        None => args.content.folders.clone(),
        Some(written) => args.content.over(written)?,
    };
    let (library, _) = super::library(&folders)?;
    let mut warnings = Vec::new();
    let trip = match &written {
        None => None,
        Some(written) => {
            let (trip, more) = check::trip(written, &library)?;
            warnings.extend(more);
            Some(trip)
        }
    };
    let result = if args.json {
        json::listed(args, &library, trip.as_ref())
    } else {
        in_columns(args, &library, trip.as_ref(), on)
    };
    Ok(Said {
        result,
        warnings,
        ..Said::default()
    })
}

/// What is asked for, in columns.
fn in_columns(args: &List, library: &Library, trip: Option<&Trip>, on: Option<Date>) -> String {
    let rows = match args.what {
        What::Modules if args.coverage => {
            let mut rows = coverage(library);
            rows.push(Vec::new());
            return table(&rows) + &table(&objectives(library));
        }
        What::Modules if args.reading => reading(library),
        What::Modules => modules(library, trip),
        What::Sheets => sheet_rows(),
        What::Bundles => bundles(),
        What::Gear => gear(library),
        What::Fuels => fuels(library),
        What::Menus => menus(library),
        What::Places => places::rows(library, trip, on),
        What::Profiles => profiles(library),
        What::Sources => sources(library),
        What::Topics => topics(),
    };
    table(&rows)
}

/// The day of `--on`.
fn on(what: What, day: &str) -> Outcome<Date> {
    if what != What::Places {
        return Err(vec![Problem::error(
            "flag.on",
            "`--on` says what of the rules of places is stale",
            "write `leeside list places --on 2027-11-26`; `leeside check --stale` has the rest",
        )]);
    }
    Date::read(day).ok_or_else(|| {
        vec![Problem::error(
            "flag.date",
            told!("`{day}` is no day", day),
            "write year, month and day, such as `leeside list places --on 2027-11-26`",
        )]
    })
}

/// Rows in columns as wide as they need; the last one runs free.
fn table(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns)
        .map(|column| {
            rows.iter()
                .filter(|row| row.len() > 1)
                .filter_map(|row| row.get(column))
                .map(|cell| cell.chars().count())
                .max()
                .unwrap_or(0)
        })
        .collect();
    let mut text = String::new();
    for row in rows {
        let mut line = String::new();
        for (column, cell) in row.iter().enumerate() {
            if column + 1 == row.len() {
                line.push_str(cell);
            } else {
                let width = widths[column];
                let _ = write!(line, "{cell:width$}  ");
            }
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}

fn in_order(library: &Library) -> Vec<&Module> {
    let mut modules: Vec<&Module> = library.modules.values().collect();
    modules.sort_by_key(|module| (module.order, &module.id));
    modules
}

fn modules(library: &Library, trip: Option<&Trip>) -> Vec<Vec<String>> {
    let Some(trip) = trip else {
        let mut rows = vec![row(["module", "", "about"])];
        rows.extend(in_order(library).into_iter().map(|module| {
            let hazard = if module.hazard { "hazard" } else { "" };
            row([&module.id, hazard, &module.title])
        }));
        return rows;
    };
    let mut rows = vec![row(["module", "applies", "why"])];
    rows.extend(in_order(library).into_iter().map(|module| {
        let verdict = module.applies.judged(trip);
        let applies = if verdict.is_ok() { "yes" } else { "no" };
        row([&module.id, applies, &said::verdict(&verdict, trip.units)])
    }));
    rows
}

/// How much of each thing a module holds, and the sums.
fn coverage(library: &Library) -> Vec<Vec<String>> {
    let mut rows = vec![row([
        "module",
        "facts",
        "seen",
        "no source",
        "cautions",
        "items",
        "objectives",
        "critical",
        "questions",
        "what now",
        "segments",
        "drawings",
        "sources",
    ])];
    let mut sums = [0_usize; 12];
    let mut all_sources = BTreeSet::new();
    for module in in_order(library) {
        let facts = module.facts.values();
        let sources: BTreeSet<&Id> = facts.clone().flat_map(|fact| &fact.sources).collect();
        let counts = [
            module.facts.len(),
            facts
                .clone()
                .filter(|fact| fact.basis == Basis::Published && fact.sure == Sure::Seen)
                .count(),
            facts.filter(|fact| fact.sources.is_empty()).count(),
            module.cautions.len(),
            module.items.len(),
            module.objectives.len(),
            module
                .objectives
                .values()
                .filter(|objective| objective.critical)
                .count(),
            module.questions.len(),
            module
                .questions
                .iter()
                .filter(|question| question.kind == QuestionKind::WhatNow)
                .count(),
            module.segments.len(),
            module.drawings.len(),
            sources.len(),
        ];
        all_sources.extend(sources);
        for (sum, count) in sums.iter_mut().zip(counts) {
            *sum += count;
        }
        let mut cells = vec![module.id.clone()];
        cells.extend(counts.map(|count| count.to_string()));
        rows.push(cells);
    }
    // a source of several modules counts once
    sums[11] = all_sources.len();
    let mut cells = vec!["all".to_owned()];
    cells.extend(sums.map(|sum| sum.to_string()));
    rows.push(cells);
    rows
}

/// What teaches each objective and what assesses it.
fn objectives(library: &Library) -> Vec<Vec<String>> {
    let mut rows = vec![row(["objective", "", "taught in", "assessed by"])];
    for module in in_order(library) {
        for objective in module.objectives.values() {
            let taught: Vec<&str> = module
                .segments
                .iter()
                .filter(|segment| segment.objectives.contains(&objective.id))
                .map(|segment| segment.id.as_str())
                .collect();
            let asked: Vec<&str> = module
                .questions
                .iter()
                .filter(|question| question.objective == objective.id)
                .map(|question| question.id.as_str())
                .collect();
            rows.push(row([
                &format!("{}.{}", module.id, objective.id),
                if objective.critical { "critical" } else { "" },
                &taught.join(", "),
                &asked.join(", "),
            ]));
        }
    }
    rows
}

/// The reading grade of each module and what it was counted from.
fn reading(library: &Library) -> Vec<Vec<String>> {
    let mut rows = vec![row([
        "module",
        "words",
        "sentences",
        "syllables",
        "grade",
        "hardest sentence",
    ])];
    for module in in_order(library) {
        let reading = check::reading(module);
        let hardest = reading.hardest.as_ref();
        rows.push(row([
            &module.id,
            &reading.words.to_string(),
            &reading.sentences.to_string(),
            &reading.syllables.to_string(),
            &format!("{:.2}", reading.grade()),
            &hardest.map_or_else(String::new, |sentence| {
                format!("{:.0}: {} ..", sentence.grade(), sentence.start)
            }),
        ]));
    }
    rows
}

fn sheet_rows() -> Vec<Vec<String>> {
    let mut rows = vec![row(["sheet", "folder", "for"])];
    rows.extend(
        sheets::ALL
            .iter()
            .map(|sheet| row([sheet.name, sheet.folder.word(), &sheet.about()])),
    );
    rows
}

/// What `leeside make --bundle` takes.
fn bundles() -> Vec<Vec<String>> {
    let mut rows = vec![row(["bundle", "sheets"])];
    rows.extend(
        Bundle::EVERY
            .into_iter()
            .map(|bundle| row([bundle.word(), &bundle.sheets().join(", ")])),
    );
    rows
}

/// What a trip's `menu` takes: what is boiled for each person, supper first.
fn menus(library: &Library) -> Vec<Vec<String>> {
    let litres = |need: &MealNeed| match need.boil.in_litres() {
        0.0 => "cold".to_owned(),
        boil => format!("{} L", say::significant(boil, 2)),
    };
    let mut rows = vec![row(["menu", "supper", "breakfast", "lunch", "drinks"])];
    rows.extend(library.menus.iter().map(|(id, menu)| {
        let [supper, breakfast, lunch, drinks] = menu_needs(menu).map(litres);
        row([id, &supper, &breakfast, &lunch, &drinks])
    }));
    rows
}

fn menu_needs(menu: &Menu) -> [&MealNeed; 4] {
    [&menu.supper, &menu.breakfast, &menu.lunch, &menu.drinks]
}

/// What a trip's `organisation` takes.
fn profiles(library: &Library) -> Vec<Vec<String>> {
    let mut rows = vec![row(["profile", "name"])];
    rows.extend(
        library
            .profiles
            .values()
            .map(|profile| row([&profile.id, &profile.name])),
    );
    rows
}

/// What `leeside practice --topic` takes.
fn topics() -> Vec<Vec<String>> {
    let mut rows = vec![row(["topic", "problems about"])];
    rows.extend(
        Topic::ALL
            .into_iter()
            .map(|topic| row([topic.word(), &text(&topic.title())])),
    );
    rows.push(row(["all", "each of them"]));
    rows
}

fn gear(library: &Library) -> Vec<Vec<String>> {
    let percent =
        |share: crate::units::Fraction| format!("{}%", say::number(share.in_percent(), 0));
    let grams = |mass: crate::units::Mass| format!("{} g", say::number(mass.in_grams(), 0));
    let mut rows = vec![row(["stove", "fuel", "efficiency", "power", "mass"])];
    for stove in library.stoves.values() {
        rows.push(row([
            &stove.id,
            &stove.fuels.join(", "),
            &format!(
                "{} ({} to {})",
                percent(stove.efficiency.likely),
                percent(stove.efficiency.low),
                percent(stove.efficiency.high)
            ),
            &format!("{} kW", say::significant(stove.power.in_kilowatts(), 3)),
            &grams(stove.mass),
        ]));
    }
    rows.push(Vec::new());
    rows.push(row(["pot", "", "heat to warm", "", "mass if not stated"]));
    for material in library.materials.values() {
        rows.push(row([
            &material.id,
            "",
            &format!(
                "{} kJ/(kg K)",
                say::significant(
                    material.specific_heat.in_kilojoules_per_kilogram_kelvin(),
                    3
                )
            ),
            "",
            &format!(
                "{} + {} a litre",
                grams(material.base_mass),
                grams(material.mass_per_litre)
            ),
        ]));
    }
    rows.push(Vec::new());
    rows.push(row(["container", "fuel", "holds", "", "mass empty"]));
    for container in library.containers.values() {
        let fuels: Vec<&str> = container.fuels.iter().map(|fuel| fuel.word()).collect();
        let holds = if container.kind == ContainerKind::Bottle {
            format!(
                "{} L filled to {}",
                say::significant(container.capacity.in_litres(), 3),
                percent(container.fill)
            )
        } else {
            grams(container.net)
        };
        rows.push(row([
            &container.id,
            &fuels.join(", "),
            &holds,
            "",
            &grams(container.tare),
        ]));
    }
    rows
}

fn fuels(library: &Library) -> Vec<Vec<String>> {
    let mut rows = vec![row(["fuel", "kind", "lower heating value", "also called"])];
    for fuel in library.fuels.values() {
        rows.push(row([
            &fuel.id,
            fuel.kind.word(),
            &format!(
                "{} MJ/kg",
                say::significant(fuel.heating_value.in_megajoules_per_kilogram(), 4)
            ),
            &fuel.also_called.join(", "),
        ]));
    }
    rows
}

fn sources(library: &Library) -> Vec<Vec<String>> {
    let mut rows = vec![row(["code", "read", "title, publisher, year"])];
    let codes = library.sources.keys().cloned().collect();
    let in_order = compose::words::by_number(&codes).into_iter();
    for source in in_order.filter_map(|code| library.sources.get(code)) {
        let year = if source.year.is_empty() {
            "no date"
        } else {
            &source.year
        };
        let about: Vec<&str> = [&source.title, &source.publisher, year]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect();
        let seen = source
            .seen
            .map_or_else(|| "no".to_owned(), |day| day.to_string());
        rows.push(row([&source.id, &seen, &about.join("; ")]));
    }
    rows
}
