//! `leeside check`: says what is wrong with trips, modules and templates, and
//! how to mend it.

mod language;

use super::season::rows::{Reading, Rows, is_table};
use super::speech::{Speech, as_json};
use super::{Laid, Said};
use crate::check::{self, Due};
use crate::compose::Engine;
use crate::course::timetable;
use crate::diag::{Messages, Outcome, Problem, Severity, Source, Told, told};
use crate::load::{self, Written};
use crate::nouns::{Date, Library, Trip};
use crate::plan;
use crate::ready;
use crate::units::say;
use clap::Args;
use rayon::prelude::*;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// Check trips, burn trials, tables of departures, modules and templates
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside check content/trips/quillback-ridge.yaml\n\n\
        Without a path the library itself is checked, and with `--language CODE` how far its content is \
        in that language and what is missing; a folder of trips is checked trip by trip, any \
        other folder as content laid over the library. `-` is standard input."
)]
pub struct Check {
    /// Trip files, burn trials, a season's table, content files, folders of either, or - for standard
    /// input
    #[arg(value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// How a season's table is read
    #[command(flatten)]
    pub reading: Reading,
    /// Say it as JSON on standard output
    #[arg(long)]
    pub json: bool,
    /// List what a keeper of the content must look at again by this day, with its address
    #[arg(long, value_name = "DATE", conflicts_with = "paths")]
    pub stale: Option<String>,
    /// The language to speak; without a path, the one whose content is held against the English
    #[arg(skip)]
    pub language: Option<String>,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// Runs the command.
///
/// # Errors
/// Every problem found, unless they are asked for as JSON.
pub fn run(args: &Check) -> Outcome<Said> {
    if let Some(day) = &args.stale {
        return stale(args, day);
    }
    if let (Some(language), true) = (&args.language, args.paths.is_empty()) {
        return language::said(args, language);
    }
    let found = found(args);
    let (problems, warnings): (Vec<Problem>, Vec<Problem>) = found
        .problems
        .into_iter()
        .partition(|problem| problem.severity == Severity::Error);
    if args.json {
        return Ok(Said {
            result: json(&problems, &warnings, &speech(args).messages()),
            wrong: !problems.is_empty(),
            ..Said::default()
        });
    }
    if !problems.is_empty() {
        let mut all = problems;
        all.extend(warnings);
        return Err(all);
    }
    let but = match warnings.len() {
        0 => Told::NOTHING,
        1 => Told::from("; look at the warning above"),
        count => told!("; look at the {count} warnings above", count),
    };
    Ok(Said {
        message: match found.checked {
            1 => told!("checked: nothing wrong in it{but}\n", but),
            count => told!(
                "{count} files checked: nothing wrong in them{but}\n",
                count,
                but
            ),
        },
        warnings,
        ..Said::default()
    })
}

/// What must be looked at again by a day.
fn stale(args: &Check, day: &str) -> Outcome<Said> {
    let Some(on) = Date::read(day) else {
        return Err(vec![Problem::error(
            "flag.date",
            told!("`{day}` is no day", day),
            "write year, month and day, such as `leeside check --stale 2027-11-26`",
        )]);
    };
    let files = load::library_with(&args.content.folders, &[])?;
    let (library, _) = check::library(&files)?;
    let due = check::stale(&library, on);
    let result = if args.json {
        stale_json(&due, on)
    } else {
        due.iter().fold(String::new(), |mut text, one| {
            let by = one
                .by
                .map_or_else(|| "never".to_owned(), |day| day.to_string());
            let Due {
                what, id, why, at, ..
            } = one;
            text.push_str(&format!("{by}\t{what}\t{id}\t{why}\t{}\n", at.join(" ")));
            text
        })
    };
    let message = match due.len() {
        0 => told!("nothing to look at again by {on}\n", on),
        1 => told!("one thing to look at again by {on}\n", on),
        count => told!(
            "{count} things to look at again by {on}, the longest overdue first\n",
            count,
            on
        ),
    };
    Ok(Said {
        result,
        message,
        ..Said::default()
    })
}

/// `leeside-stale/1`.
fn stale_json(due: &[Due], on: Date) -> String {
    let rows: Vec<Value> = due
        .iter()
        .map(|one| {
            json!({
                "by": one.by.map(|day| day.to_string()),
                "what": one.what,
                "id": one.id,
                "why": one.why,
                "at": one.at,
            })
        })
        .collect();
    let all = json!({"format": "leeside-stale/1", "on": on.to_string(), "due": rows});
    let mut text = serde_json::to_string_pretty(&all).unwrap_or_default();
    text.push('\n');
    text
}

struct Found {
    problems: Vec<Problem>,
    checked: usize,
}

/// A path sorted by what it holds.
enum Work {
    Overlay(PathBuf),
    Content(String, Source),
    File(Written),
    Table(PathBuf),
}

fn found(args: &Check) -> Found {
    let mut problems = Vec::new();
    let mut checked = 0;
    let mut content = Vec::new();
    let mut files = Vec::new();
    let mut overlays = Vec::new();
    let mut tables = Vec::new();
    for work in args.paths.iter().flat_map(|path| sorted(path)) {
        match work {
            Ok(Work::Overlay(folder)) => overlays.push(folder),
            Ok(Work::Content(path, source)) => content.push((path, source)),
            Ok(Work::File(written)) => files.push(written),
            Ok(Work::Table(path)) => tables.push(path),
            Err(more) => problems.extend(more),
        }
    }
    // each folder is laid over the built-in content by itself
    let alone = overlays.is_empty();
    for folder in overlays {
        let (more, count, _) = library(&[folder], &[]);
        problems.extend(more);
        checked += count;
    }
    let some = !content.is_empty() || !files.is_empty() || !tables.is_empty();
    let wanted = args.paths.is_empty() || some || alone;
    if wanted {
        let built_in =
            args.content.folders.is_empty() && content.is_empty() && !args.paths.is_empty();
        let (more, count, read) = if built_in {
            made_ready()
        } else {
            library(&args.content.folders, &content)
        };
        let of_library = more;
        if let Some(library) = &read {
            for written in &files {
                problems.extend(over(written, args, &content, library));
                problems.extend(language::of_sheets(written, args, library));
            }
            for path in &tables {
                problems.extend(table(path, args, library));
            }
            checked += files.len() + tables.len();
            if args.paths.is_empty() {
                let (more, count) = examples(&args.content.folders, library);
                problems.extend(more);
                checked += count;
            }
        }
        if args.paths.is_empty() {
            problems.extend(of_library);
            checked += count;
        } else {
            // warnings of the library are of no concern to who checks a trip
            let mine = |problem: &Problem| {
                content
                    .iter()
                    .any(|(_, source)| problem.file.as_deref() == Some(&*source.name))
            };
            problems.extend(
                of_library
                    .into_iter()
                    .filter(|problem| problem.severity == Severity::Error || mine(problem)),
            );
            checked += content.len();
        }
    }
    Found { problems, checked }
}

/// What a path stands for; a folder of trips stands for each of them.
fn sorted(path: &Path) -> Vec<Outcome<Work>> {
    if !path.is_dir() {
        return vec![one_file(path)];
    }
    if !load::holds_trips(path) {
        return vec![Ok(Work::Overlay(path.to_owned()))];
    }
    match load::trips_in(path) {
        Ok(files) => files
            .iter()
            .map(|file| load::trip_file(file).map(Work::File))
            .collect(),
        Err(problems) => vec![Err(problems)],
    }
}

fn one_file(path: &Path) -> Outcome<Work> {
    if is_table(path) {
        return Ok(Work::Table(path.to_owned()));
    }
    let source = load::read(path)?;
    if let Some(inside) = load::content_path(path) {
        return Ok(Work::Content(inside, source));
    }
    load::trip_file(path).map(Work::File)
}

/// The built-in library as it was checked when the program was built: whoever
/// checks a trip at each letter that is typed waits for the trip alone.
fn made_ready() -> (Vec<Problem>, usize, Option<Library>) {
    match ready::library(&[]) {
        Ok(ready) => (ready.warnings, 0, Some(ready.library)),
        Err(problems) => (problems, 0, None),
    }
}

/// The problems of the library, how many files it has, and the library if it
/// is sound.
fn library(
    overlays: &[PathBuf],
    more: &[(String, Source)],
) -> (Vec<Problem>, usize, Option<Library>) {
    let files = match load::library_with(overlays, more) {
        Ok(files) => files,
        Err(problems) => return (problems, 0, None),
    };
    let templates = files
        .assets
        .templates
        .iter()
        .map(|(name, source)| (name.clone(), source.text.to_string()))
        .collect();
    let mut problems = Engine::new(&templates).err().unwrap_or_default();
    for (name, source) in &files.assets.templates {
        // the built-in ones are held by the tests
        if load::are_words(name) && !source.name.starts_with(load::BUILT_IN) {
            problems.extend(load::page_words(source).err().unwrap_or_default());
        }
    }
    let count = files.files.len();
    match check::library(&files) {
        Ok((library, warnings)) => {
            problems.extend(warnings);
            (problems, count, Some(library))
        }
        Err(more) => {
            problems.extend(more);
            (problems, count, None)
        }
    }
}

/// Pots that never boil on their stove, as warnings at their kitchens.
fn never_boils(file: &std::sync::Arc<str>, plan: &plan::Plan) -> Vec<Problem> {
    let mut found = Vec::new();
    for (index, kitchen) in plan.kitchens.iter().enumerate() {
        for row in kitchen.failing() {
            let Some(stops) = &row.stops else { continue };
            let help = if stops.remedies.is_empty() {
                Told::from("plan this meal cold, or take another stove")
            } else {
                told!(
                    "take {remedies}",
                    remedies = Told::list(stops.remedies.iter().map(remedy), "; or ")
                )
            };
            let message = told!(
                "{name}: water for {meal} at {name_2} never boils on the {stove_name}: the pot stops at {in_celsius} C",
                name = kitchen.name,
                meal = Told::from(row.meal.word()),
                name_2 = plan.camps[row.camp].name,
                stove_name = kitchen.stove_name,
                in_celsius = format!("{:.0}", stops.at.in_celsius())
            );
            found.push(
                Problem::warning("plan.never-boils", message, help)
                    .at(file.clone(), format!("kitchens[{index}]")),
            );
        }
    }
    found
}

/// What would make a pot boil, as the help of a problem has it.
fn remedy(remedy: &plan::Remedy) -> Told {
    match remedy {
        plan::Remedy::Lid => "a lid on the pot".into(),
        plan::Remedy::Screen(screen) => told!("a {screen} windscreen", screen),
        plan::Remedy::Pot(most) => {
            let litres = say::plain_significant(most.in_litres(), 3);
            told!("a pot of at most {litres} L", litres)
        }
        plan::Remedy::Stove(stove) => told!("another stove ({stove})", stove),
    }
}

/// What a trip's plan and timetable find.
fn planned(trip: &Trip, library: &Library) -> Vec<Problem> {
    let mut found = Vec::new();
    let outcome = plan::plan_to_check(trip, library).and_then(|plan| {
        found.extend(never_boils(&trip.file, &plan));
        let modules = timetable::applying(trip, library);
        timetable::timetable(trip, library, &plan, &modules).map(|_| ())
    });
    found.extend(outcome.err().unwrap_or_default());
    found
}

/// The problems of a season's departures, each with its name and row, and what deserves a look in
/// one but not in the trip file that it stands on: that is told where the file is checked.
fn table(path: &Path, args: &Check, library: &Library) -> Vec<Problem> {
    let (rows, mut problems) = match Rows::read(path, &args.reading, None) {
        Ok(read) => read,
        Err(problems) => return problems,
    };
    let own = match rows.content(&args.content) {
        Ok(folders) if folders != args.content.folders => super::library(&folders).map(Some),
        Ok(_) => Ok(None),
        Err(more) => Err(more),
    };
    let own = match own {
        Ok(own) => own,
        Err(more) => {
            problems.extend(more);
            return problems;
        }
    };
    let library = own.as_ref().map_or(library, |(library, _)| library);
    let going: Vec<_> = rows.going().collect();
    let of_bases = rows.looks_of_bases(library);
    let found: Vec<Vec<Problem>> = going
        .into_par_iter()
        .map(|departure| match rows.trip(library, departure) {
            Ok(None) => Vec::new(),
            Ok(Some((trip, mut looks))) => {
                looks.retain(|one| {
                    let message = one.message.to_string();
                    !of_bases.iter().any(|known| message.ends_with(known))
                });
                let found = planned(&trip, library).into_iter();
                looks.extend(found.map(|one| departure.problem(one)));
                looks
            }
            Err(problems) => problems,
        })
        .collect();
    problems.extend(found.into_iter().flatten());
    problems
}

/// The problems of a trip, lesson or burn trial, those of its plan included.
fn one(written: &Written, library: &Library) -> Vec<Problem> {
    let is_trial = written.root.get("runs").is_some();
    let outcome = if is_trial {
        check::trial(written, library).map(|(trial, warnings)| {
            let planned = plan::trial(&trial, library).err();
            (planned.unwrap_or_default(), warnings)
        })
    } else {
        check::trip(written, library).map(|(trip, warnings)| (planned(&trip, library), warnings))
    };
    match outcome {
        Ok((planned, warnings)) => planned
            .into_iter()
            .chain(warnings)
            .map(|problem| written.locate(problem))
            .collect(),
        Err(problems) => problems,
    }
}

/// The problems of a trip or trial, and what is wrong in content that it brings itself.
fn over(
    written: &Written,
    args: &Check,
    content: &[(String, Source)],
    shared: &Library,
) -> Vec<Problem> {
    let folders = match args.content.over(written) {
        Ok(folders) if folders == args.content.folders => return one(written, shared),
        Ok(folders) => folders,
        Err(problems) => return problems,
    };
    let (mut problems, _, own) = library(&folders, content);
    problems.retain(|problem| problem.severity == Severity::Error);
    if let Some(own) = &own {
        problems.extend(one(written, own));
    }
    problems
}

/// The trips and trials that come with the content.
fn examples(overlays: &[PathBuf], library: &Library) -> (Vec<Problem>, usize) {
    let mut problems = Vec::new();
    let mut count = 0;
    let Ok(assets) = load::assets(overlays) else {
        return (problems, count);
    };
    for (path, source) in &assets.content {
        if !path.starts_with("trips/") && !path.starts_with("trials/") {
            continue;
        }
        count += 1;
        match load::text(&source.name, &source.text) {
            // their warnings are there to be seen by who makes them
            Ok(written) => problems.extend(
                one(&written, library)
                    .into_iter()
                    .filter(|problem| problem.severity == Severity::Error),
            ),
            Err(more) => problems.extend(more),
        }
    }
    (problems, count)
}

/// What is known of the language to speak.
fn speech(args: &Check) -> Speech {
    Speech::of(args.language.as_deref(), &args.paths, &args.content.folders)
}

/// `leeside-check/1`.
fn json(problems: &[Problem], warnings: &[Problem], messages: &Messages) -> String {
    let list = |problems: &[Problem]| -> Vec<Value> {
        problems.iter().map(|one| as_json(one, messages)).collect()
    };
    let all = json!({
        "format": "leeside-check/1",
        "problems": list(problems),
        "warnings": list(warnings),
    });
    let mut text = serde_json::to_string_pretty(&all).unwrap_or_default();
    text.push('\n');
    text
}
