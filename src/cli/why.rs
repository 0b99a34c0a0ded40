//! `leeside why`: how a printed value came about.

use super::make::UnitsName;
use super::{Laid, Said};
use crate::check;
use crate::compose;
use crate::course::timetable;
use crate::diag::Outcome;
use crate::load;
use crate::plan;
use clap::Args;
use serde_json::json;
use std::path::PathBuf;

/// Tell where a printed value comes from: its steps, assumptions and sources
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside why content/trips/quillback-ridge.yaml camp.tarn-bench.night"
)]
pub struct Why {
    /// Trip or lesson file, or - for standard input
    #[arg(value_name = "TRIP.yaml")]
    pub trip: PathBuf,
    /// Which value; without it, the ids that there are
    #[arg(value_name = "ID")]
    pub id: Option<String>,
    /// As JSON, for other programs
    #[arg(long)]
    pub json: bool,
    /// Units of the values
    #[arg(long, value_enum, ignore_case = true)]
    pub units: Option<UnitsName>,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// Runs the command.
///
/// # Errors
/// Every problem of the library or the trip; an id that the trip does not have.
pub fn run(args: &Why) -> Outcome<Said> {
    let written = load::trip_file(&args.trip)?;
    let (library, _) = super::library(&args.content.over(&written)?)?;
    let (mut trip, warnings) = check::trip(&written, &library)?;
    if let Some(units) = args.units {
        trip.units = units.units();
    }
    let planned = plan::plan(&trip, &library)
        .and_then(|planned| timetable::with_practice(&trip, &library, planned))
        .map_err(|problems| super::located(problems, &written))?;
    let statements = compose::stated(&trip, &planned, &library, trip.units)
        .map_err(|problems| super::located(problems, &written))?;
    let words = |one: &plan::Statement| compose::words::value(&one.value, trip.units);
    let result = match &args.id {
        Some(id) => {
            let why = compose::why::why(&statements, &library, trip.units, id)?;
            if args.json {
                format!("{:#}\n", json!({"format": "leeside-why/1", "why": why}))
            } else {
                why.text()
            }
        }
        None if args.json => {
            let ids: Vec<_> = statements
                .iter()
                .map(|one| json!({"id": one.id, "text": words(one), "si": one.value.si()}))
                .collect();
            format!("{:#}\n", json!({"format": "leeside-why/1", "ids": ids}))
        }
        None => statements
            .iter()
            .map(|one| format!("{}  {}\n", one.id, words(one)))
            .collect(),
    };
    Ok(Said {
        result,
        warnings,
        ..Said::default()
    })
}
