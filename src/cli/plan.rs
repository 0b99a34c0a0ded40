//! `leeside plan`: the computed numbers of a trip, as a table or as JSON.

use super::make::UnitsName;
use super::season::rows::{Reading, Rows, is_table};
use super::{Laid, Said};
use crate::check;
use crate::compose::{advice, numbers, what_if};
use crate::course::timetable;
use crate::diag::Outcome;
use crate::load;
use crate::nouns::{Kind, Library, Trip};
use crate::plan;
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;

/// Show the computed numbers of a trip: fuel, water, minutes, containers, rules
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside plan content/trips/quillback-ridge.yaml --steps")]
pub struct Plan {
    /// Trip or lesson file, a season's table, or - for standard input
    #[arg(value_name = "TRIP.yaml")]
    pub trip: PathBuf,
    /// How a season's table is read
    #[command(flatten)]
    pub reading: Reading,
    /// As JSON, in SI units, for other programs
    #[arg(long)]
    pub json: bool,
    /// Every line of the arithmetic too
    #[arg(long)]
    pub steps: bool,
    /// The trip again with one thing changed at a time: wind, lid, cold, people, pot, stove
    #[arg(long)]
    pub what_if: bool,
    /// Units of the table
    #[arg(long, value_enum, ignore_case = true)]
    pub units: Option<UnitsName>,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// Runs the command.
///
/// # Errors
/// Every problem of the library or the trip.
pub fn run(args: &Plan) -> Outcome<Said> {
    if is_table(&args.trip) {
        return season(args);
    }
    let written = load::trip_file(&args.trip)?;
    let (library, _) = super::library(&args.content.over(&written)?)?;
    let (trip, warnings) = check::trip(&written, &library)?;
    let result = if args.json {
        json(trip, args, &library).map(|whole| format!("{whole:#}\n"))
    } else {
        text(trip, args, &library)
    };
    let result = result.map_err(|more| super::located(more, &written))?;
    Ok(Said {
        result,
        warnings,
        ..Said::default()
    })
}

/// The plan of each departure of a season's table, under its name.
fn season(args: &Plan) -> Outcome<Said> {
    let (rows, mut bad) = Rows::read(&args.trip, &args.reading, None)?;
    let (library, _) = super::library(&rows.content(&args.content)?)?;
    let library = &library;
    let mut texts = String::new();
    let mut plans = Vec::new();
    for departure in rows.going() {
        let planned = rows.trip(library, departure).and_then(|found| {
            let Some((trip, _)) = found else {
                return Ok(());
            };
            if args.json {
                let plan = json(trip, args, library)?;
                plans.push(json!({"departure": departure.name, "plan": plan}));
            } else {
                texts += &format!("{}\n\n{}\n", departure.name, text(trip, args, library)?);
            }
            Ok(())
        });
        let told = planned.err().unwrap_or_default().into_iter();
        bad.extend(told.map(|one| departure.problem(one)));
    }
    if args.json {
        let all = json!({"format": "leeside-plans/1", "departures": plans});
        texts = format!("{all:#}\n");
    }
    Ok(Said {
        result: texts,
        wrong: !bad.is_empty(),
        warnings: bad,
        ..Said::default()
    })
}

fn planned(trip: &mut Trip, args: &Plan, library: &Library) -> Outcome<plan::Plan> {
    if let Some(units) = args.units {
        trip.units = units.units();
    }
    timetable::with_practice(trip, library, plan::plan(trip, library)?)
}

fn json(mut trip: Trip, args: &Plan, library: &Library) -> Outcome<Value> {
    let planned = planned(&mut trip, args, library)?;
    let mut whole = numbers::json(&planned, &trip, library);
    if let Some(map) = whole.as_object_mut() {
        if trip.course.stated || trip.kind == Kind::Lesson {
            let course = numbers::course(&trip, library, &planned)?;
            map.insert("course".to_owned(), course);
        }
        let advice = advice::json(&trip, library, &planned);
        map.insert("advice".to_owned(), advice);
        if args.what_if {
            let rows = changes(&trip, library, &planned);
            let rows = what_if::json(&rows, &planned, library, trip.units);
            map.insert("what_if".to_owned(), rows);
        }
    }
    Ok(whole)
}

fn text(mut trip: Trip, args: &Plan, library: &Library) -> Outcome<String> {
    let planned = planned(&mut trip, args, library)?;
    let mut text = numbers::table(&planned, &trip, library, args.steps);
    text += &advice::text(&trip, library, &planned);
    if args.what_if {
        let rows = changes(&trip, library, &planned);
        text += &what_if::text(&rows, &planned, library, trip.units);
    }
    Ok(text)
}

/// The trip with one thing changed at a time, each other stove among it.
fn changes(trip: &Trip, library: &Library, planned: &plan::Plan) -> Vec<plan::Change> {
    let kinds = plan::changes_of_all_stoves(trip, library, planned);
    plan::changes(trip, library, planned, &kinds)
}
