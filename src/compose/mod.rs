//! Writes each sheet: one template filled from a view of the plan, the lesson
//! and the library, as Markdown.
//!
//! 1. [`Engine::new`] proves every template on a sample of its view;
//! 2. a view holds this trip's texts, flags and lists ([`view`]);
//! 3. the template turns it into Markdown;
//! 4. the Markdown is read back, and a caution that got lost is a problem.
//!
//! The sheets themselves stand in one table, [`sheets::ALL`].

pub mod advice;
pub mod bundles;
pub mod catalogue;
mod cautions;
mod charts;
mod drawings;
mod engine;
pub mod facts;
mod figures;
pub mod front;
pub mod labels;
mod learn;
mod leaves;
pub mod numbers;
pub mod practice;
mod proof;
mod prose;
pub mod said;
mod sample;
mod say;
mod scan;
pub mod season;
mod sheet;
pub mod sheets;
pub mod shop;
mod view;
pub mod what_if;
pub mod why;
pub mod words;

use crate::course::{skills, timetable};
use crate::diag::{Outcome, Problem, nearest, told};
use crate::doc;
use crate::markdown;
use crate::nouns::{self, Kind, Library, Module, Trip};
use crate::phrase::phrase;
use crate::plan::{self, Plan, Statements};
use crate::units::Units;
use rayon::prelude::*;
use sheets::{Copies, Reads, Row};
use view::{Filled, Inputs, OneKitchen};

pub use crate::plan::places::slug;
pub use engine::{Engine, Templates};
pub use sheet::{Options, Sheet};

/// Writes the sheets of a trip.
///
/// # Errors
/// Unknown sheet names, templates that are broken or name what is not there,
/// text that is not in the allowed Markdown, cautions that got lost.
pub fn compose(
    trip: &Trip,
    plan: &Plan,
    library: &Library,
    engine: &Engine,
    options: &Options,
) -> Outcome<Vec<Sheet>> {
    let rows = wanted(&options.only)?;
    let units = options.units.unwrap_or(trip.units);
    let mut inputs = Inputs::new(trip, plan, library, units, &rows)?;
    inputs.level = options.level;
    if let Err(problems) = &inputs.course
        && rows.iter().any(|row| row.name == view::lesson::NAME)
    {
        return Err(problems.clone());
    }
    let paper = match options.paper.unwrap_or(trip.paper) {
        nouns::Paper::Letter => doc::Paper::Letter,
        nouns::Paper::A4 => doc::Paper::A4,
    };
    let foot = engine.speaking(|| foot(library, options.revision.as_deref()));
    // the sheets on all cores; their order is the table's
    let made: Vec<Vec<Outcome<Sheet>>> = rows
        .par_iter()
        .map(|row| {
            let style = row.look.style(paper, options.large_print);
            engine.speaking(|| {
                let title = row.title();
                (row.fill)(&inputs, &title)
                    .into_iter()
                    .map(|filled| written(&inputs, engine, row, filled, &style, &foot))
                    .collect()
            })
        })
        .collect();
    let mut sheets = Vec::new();
    let mut problems = Vec::new();
    for papers in made {
        for (index, paper) in papers.into_iter().enumerate() {
            match paper {
                Ok(mut sheet) => {
                    distinct(&mut sheet, index, &sheets);
                    sheets.push(sheet);
                }
                Err(found) => problems.extend(found),
            }
        }
    }
    if problems.is_empty() {
        Ok(sheets)
    } else {
        Err(problems)
    }
}

/// The line at the foot of each page: which content, which state of it, whose word comes first.
fn foot(library: &Library, revision: Option<&str>) -> String {
    let edition = library.edition.to_string();
    let content = match revision {
        Some(revision) => phrase!("foot-revision", edition = edition, revision = revision),
        None => phrase!("foot-content", edition = edition),
    };
    format!(
        "{} {}",
        catalogue::text(&content),
        library.standing_line.trim()
    )
}

/// The page to learn from by oneself; none where nothing is checked.
///
/// # Errors
/// A skills check or sums that cannot be drawn.
pub fn learn(
    trip: &Trip,
    plan: &Plan,
    library: &Library,
    options: &Options,
) -> Outcome<Option<doc::learn::Page>> {
    let units = options.units.unwrap_or(trip.units);
    learn::page(&Inputs::new(trip, plan, library, units, &[])?)
}

/// Whose papers they are, as each sheet says at its head and foot.
fn group(profile: &nouns::Profile) -> doc::Group {
    let mut words = vec![profile.name.as_str()];
    // the number alone: what it is for stands on the sheets that call it
    words.extend(profile.phones.first().map(|phone| {
        let number = phone.find(|c: char| c == '+' || c.is_ascii_digit());
        number.map_or(phone.as_str(), |at| &phone[at..])
    }));
    doc::Group {
        line: words.join(", "),
        mark: profile
            .mark
            .as_ref()
            .map(|mark| drawings::mark(mark, &profile.name)),
    }
}

/// Two kitchens whose names make one file name get their number added.
fn distinct(sheet: &mut Sheet, index: usize, others: &[Sheet]) {
    let Some(kitchen) = sheet.kitchen.clone() else {
        return;
    };
    let taken = others
        .iter()
        .any(|other| other.file_stem() == sheet.file_stem());
    if taken || slug(&kitchen).is_empty() {
        sheet.kitchen = Some(format!("{kitchen} {}", index + 1));
    }
}

/// The changes that the sheets asked for speak of, each planned once.
fn changes(trip: &Trip, library: &Library, plan: &Plan, rows: &[&Row]) -> Vec<plan::Change> {
    let mut kinds = Vec::new();
    if read(rows, Reads::Changes) {
        kinds.extend(plan::changes_on_the_way(trip, plan));
    }
    if read(rows, Reads::WhatIf) && !trip.without_flame() {
        for kind in plan::changes_side_by_side(trip, plan) {
            if !kinds.contains(&kind) {
                kinds.push(kind);
            }
        }
    }
    plan::changes(trip, library, plan, &kinds)
}

/// Whether one of the sheets reads something that costs time.
fn read(rows: &[&Row], what: Reads) -> bool {
    rows.iter().any(|row| row.reads.contains(&what))
}

/// Whether a sheet that is asked for compares the trip's stoves with the others.
///
/// # Errors
/// As [`wanted`].
pub fn compares(only: &[String]) -> Outcome<bool> {
    Ok(read(&wanted(only)?, Reads::OtherStoves))
}

/// The rows of the table that are asked for, in the table's order.
///
/// # Errors
/// Names that no sheet has, each with the nearest right one.
pub fn wanted(only: &[String]) -> Outcome<Vec<&'static Row>> {
    let problems: Vec<Problem> = only
        .iter()
        .filter(|name| sheets::find(&nouns::id(name)).is_none())
        .map(|name| {
            let known = sheets::ALL.iter().map(|row| row.name);
            let help = nearest(&nouns::id(name), known.clone()).map_or_else(
                || {
                    told!(
                        "write one of {names}",
                        names = known.collect::<Vec<_>>().join(", ")
                    )
                },
                |near| told!("did you mean `{near}`?", near),
            );
            Problem::error(
                "flag.sheet",
                told!("no sheet is called `{name}`", name),
                help,
            )
        })
        .collect();
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(sheets::ALL
        .iter()
        .filter(|row| only.is_empty() || only.iter().any(|name| nouns::id(name) == row.name))
        .collect())
}

/// Fills, reads back and checks one sheet.
fn written(
    inputs: &Inputs<'_>,
    engine: &Engine,
    row: &Row,
    mut filled: Filled,
    style: &doc::Style,
    foot: &str,
) -> Outcome<Sheet> {
    filled.figures.values_mut().for_each(figures::clear);
    let template = row.template();
    let text = engine.fill(&template, &filled.view)?;
    let name = filled.kitchen.as_ref().map_or_else(
        || row.name.to_owned(),
        |kitchen| format!("{} of {kitchen}", row.name),
    );
    let mut style = style.clone();
    let own = filled.part.as_ref().map(|part| part.most_pages);
    if let (Some(own), Some(most)) = (own.or(filled.most_pages), &mut style.most_pages) {
        *most = own;
    }
    let mut document = markdown::read(&name, &text, &filled.figures, style.clone(), foot)?;
    document.group = inputs.trip.organisation.as_ref().map(group);
    let kitchen = filled.kitchen.as_deref();
    let needed = (row.needs)(inputs, kitchen);
    let lost = cautions::lost(&document, &needed, &template);
    if !lost.is_empty() {
        return Err(lost);
    }
    let mut sheet = Sheet {
        name: row.name.to_owned(),
        ending: String::new(),
        title: row.title(),
        folder: row.folder,
        about: row.about(),
        copies_for: catalogue::text(&row.copies.words()),
        copies: copies(
            row.copies,
            inputs.trip,
            inputs.of_sheet(kitchen).filter(|_| kitchen.is_some()),
        ),
        kitchen: filled.kitchen,
        markdown: markdown::without_marks(&text),
        figures: filled.figures,
        style,
        foot: foot.to_owned(),
        workings: why::workings(&document, &inputs.statements, inputs.library, inputs.units),
        document,
        print: row.print(),
        sides: row.sides,
    };
    if let Some(part) = filled.part {
        sheet.ending = part.ending;
        sheet.title = part.title;
        sheet.about = part.about;
        sheet.copies = u32::try_from(part.copies).unwrap_or(u32::MAX).max(1);
        sheet.copies_for = part.copies_for;
        sheet.print = part.print;
    }
    Ok(sheet)
}

/// How many copies a trip needs.
fn copies(rule: Copies, trip: &Trip, one: Option<OneKitchen<'_>>) -> u32 {
    let learners = trip.people.learners;
    let kitchens = u32::try_from(trip.kitchens.len()).unwrap_or(u32::MAX);
    let count = match rule {
        Copies::Shown => return 0,
        Copies::One => 1,
        Copies::PerKitchen if one.is_some() => 1,
        Copies::PerKitchen => kitchens,
        // A kitchen's own sheet goes to those who eat from it.
        Copies::PerLearner => one.map_or(learners, |one| one.kitchen.people.min(learners)),
        Copies::PerPerson => trip.people.all(),
        Copies::PerLeader if trip.kind == Kind::Lesson => 1,
        Copies::PerInstructor | Copies::PerLeader => trip.people.instructors,
        Copies::PerPair => learners.div_ceil(2),
        Copies::PerSix => learners.div_ceil(6),
    };
    count.max(1)
}

/// All that the papers of a trip may say: of its plan, its course, its bags and its exercises.
///
/// # Errors
/// A skills check that cannot be drawn.
pub fn stated<'a>(
    trip: &'a Trip,
    plan: &'a Plan,
    library: &'a Library,
    units: Units,
) -> Outcome<Statements<'a>> {
    let rows = wanted(&[])?;
    Ok(Inputs::new(trip, plan, library, units, &rows)?.statements)
}

impl<'a> Inputs<'a> {
    /// All that views are made of.
    ///
    /// # Errors
    /// A skills check that cannot be drawn.
    fn new(
        trip: &'a Trip,
        plan: &'a Plan,
        library: &'a Library,
        units: Units,
        rows: &[&Row],
    ) -> Outcome<Self> {
        let modules = timetable::applying(trip, library);
        let mut inputs = Self {
            trip,
            plan,
            library,
            filler: prose::Filler::new(library, trip, units),
            statements: plan::statements(plan, trip, library),
            units,
            level: None,
            course: timetable::timetable(trip, library, plan, &modules),
            modules,
            check: skills::Check::default(),
            changes: changes(trip, library, plan, rows),
        };
        inputs.statements.add_changes(plan, &inputs.changes);
        if let Ok(course) = &inputs.course {
            crate::course::stated::state(&mut inputs.statements, course, trip, plan);
        }
        let targets = crate::course::checked(trip, library, inputs.course.as_ref().ok());
        inputs.check.targets.clone_from(&targets);
        // a form asks of nothing that the handout tells in a sentence alone
        let (full, _) = view::handout::choose(&inputs);
        let told = |module: &Module| full.iter().any(|one| one.id == module.id);
        inputs.check = crate::course::drawn(targets, told, trip, library, units)?;
        let more = [
            view::packing::stated(&inputs),
            view::assess::stated(&inputs),
        ];
        for (id, value) in more.into_iter().flatten() {
            inputs.statements.add(id, value);
        }
        Ok(inputs)
    }
}
