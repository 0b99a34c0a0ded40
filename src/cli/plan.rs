//! `leeside plan`: the computed numbers of a trip, as a table or as JSON.

use super::Said;
use super::make::UnitsName;
use crate::check;
use crate::course;
use crate::course::timetable;
use crate::diag::Outcome;
use crate::load;
use crate::nouns::{Kind, Library, Trip};
use crate::plan;
use clap::Args;
use std::path::PathBuf;

/// Show the computed numbers of a trip: fuel, water, minutes, containers, rules
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside plan content/trips/quillback-ridge.yaml --steps")]
pub struct Plan {
    /// Trip or lesson file, or - for standard input
    #[arg(value_name = "TRIP.yaml")]
    pub trip: PathBuf,
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
    /// A folder of content and templates laid over the built-in ones
    #[arg(long, value_name = "DIR")]
    pub content: Option<PathBuf>,
}

/// Runs the command.
///
/// # Errors
/// Every problem of the library or the trip.
pub fn run(args: &Plan) -> Outcome<Said> {
    let (library, _) = super::library(args.content.as_deref())?;
    let written = load::trip_file(&args.trip)?;
    let (trip, warnings) = check::trip(&written, &library)?;
    let result = planned(args, trip, &library).map_err(|more| super::located(more, &written))?;
    Ok(Said {
        result,
        warnings,
        ..Said::default()
    })
}

/// The numbers of a trip as they are asked for.
fn planned(args: &Plan, mut trip: Trip, library: &Library) -> Outcome<String> {
    if let Some(units) = args.units {
        trip.units = units.units();
    }
    let planned = timetable::with_practice(&trip, library, plan::plan(&trip, library)?)?;
    Ok(if args.json {
        let mut whole = plan::json(&planned);
        if (trip.course.stated || trip.kind == Kind::Lesson)
            && let Some(map) = whole.as_object_mut()
        {
            let course = course::worked_out(&trip, library, &planned)?;
            map.insert("course".to_owned(), course);
        }
        if args.what_if
            && let Some(whole) = whole.as_object_mut()
        {
            let rows = plan::what_if(&trip, library);
            whole.insert("what_if".to_owned(), plan::what_if_json(&rows));
        }
        format!("{whole:#}\n")
    } else {
        let mut text = plan::table(&planned, trip.units, args.steps);
        if args.what_if {
            text += &plan::what_if_text(&plan::what_if(&trip, library), trip.units);
        }
        text
    })
}
