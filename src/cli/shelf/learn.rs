//! `leeside shelf learn`: fuel used against fuel planned, by stove, season and place.

use super::super::Said;
use super::super::season::rows::{Reading, Rows};
use super::Where;
use crate::diag::Outcome;
use crate::nouns::{FuelKind, Library, Stove, Trip};
use crate::plan;
use crate::shelf::{self, Learnt, Ratio, Told};
use crate::units::{Mass, say};
use clap::Args;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::PathBuf;

#[derive(Args, Debug)]
pub(super) struct Learn {
    /// The season's table: a departure a row
    #[arg(long, value_name = "TABLE")]
    season: PathBuf,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    place: Where,
}

/// From so many returns on something is learnt.
const LEAST: usize = 5;

/// Stove, months, place.
type Group = (String, &'static str, String);

/// A group's returns, with the stove that they burnt on.
type Gathered = BTreeMap<Group, (Stove, Vec<Ratio>)>;

/// Runs the command.
pub(super) fn run(args: &Learn) -> Outcome<Said> {
    let (library, mut warnings) = super::super::library(&args.place.content.folders)?;
    let (rows, bad) = Rows::read(&args.season, &args.reading, None)?;
    warnings.extend(bad);
    let mut ledger = super::read(&args.place.shelf)?;
    warnings.append(&mut ledger.warnings);
    let told = shelf::told(ledger.lines());
    let went: Vec<_> = rows
        .going()
        .filter_map(|departure| Some((departure, told.get(&departure.name)?)))
        .collect();
    let found: Vec<_> = went
        .into_par_iter()
        .map(|(departure, told)| {
            let trip = rows.trip(&library, departure);
            let ratio = trip.map(|found| {
                let (trip, _) = found?;
                Some(ratio(&departure.name, &trip, &library, told))
            });
            (departure, ratio)
        })
        .collect();
    let mut gathered = Gathered::new();
    let mut left_out = Vec::new();
    for (departure, outcome) in found {
        match outcome {
            Ok(None) => {}
            Ok(Some(Ok((group, stove, ratio)))) => {
                let (_, ratios) = gathered.entry(group).or_insert((stove, Vec::new()));
                ratios.push(ratio);
            }
            Ok(Some(Err(why))) => left_out.push(format!("{}: {why}", departure.name)),
            Err(problems) => warnings.extend(problems),
        }
    }
    Ok(Said {
        result: report(&gathered, &left_out),
        warnings,
        ..Said::default()
    })
}

/// Months that are one season wherever it is.
fn months(month: u8) -> &'static str {
    match month {
        3..=5 => "March to May",
        6..=8 => "June to August",
        9..=11 => "September to November",
        _ => "December to February",
    }
}

/// A departure's ratio and what it belongs to, or why nothing is learnt from it.
fn ratio(
    name: &str,
    trip: &Trip,
    library: &Library,
    told: &Told,
) -> Result<(Group, Stove, Ratio), String> {
    let used = told.used()?;
    let mut kitchens = trip.kitchens.iter();
    let stove = match kitchens.next() {
        Some(first) if kitchens.all(|other| other.stove.id == first.stove.id) => &first.stove,
        _ => return Err("its kitchens burn on several kinds of stove".to_owned()),
    };
    let plan = plan::plan_of_own_stoves(trip, library)
        .map_err(|_| "its plan cannot be worked out".to_owned())?;
    let canisters = plan
        .kitchens
        .iter()
        .filter(|kitchen| kitchen.fuel.kind == FuelKind::Canister);
    let planned = canisters.fold(Mass::ZERO, |sum, kitchen| sum + kitchen.fuel.likely);
    let people = trip.people.all();
    let fed = told.fed.unwrap_or(people);
    if planned <= Mass::ZERO || people == 0 || fed == 0 {
        return Err("no fuel of canisters was planned for it".to_owned());
    }
    let starts = trip.starts.ok_or("it has no first day")?;
    let mut places: Vec<&str> = trip.camps.iter().map(|camp| camp.place.as_str()).collect();
    places.dedup();
    let ratio = Ratio {
        departure: name.to_owned(),
        ratio: used / planned / (f64::from(fed) / f64::from(people)),
        notes: told.notes.clone(),
    };
    let group = (stove.name.clone(), months(starts.month), places.join(", "));
    Ok((group, stove.clone(), ratio))
}

fn report(gathered: &Gathered, left_out: &[String]) -> String {
    let mut text = String::new();
    for ((stove, months, place), (of, ratios)) in gathered {
        let count = ratios.len();
        let _ = writeln!(text, "{stove}, {months}, {place}: {count} returns");
        match shelf::learn(ratios).filter(|_| count >= LEAST) {
            None => {
                let _ = writeln!(text, "  too few to learn from: {LEAST} are the least");
            }
            Some(learnt) => text.push_str(&lesson(of, &learnt)),
        }
    }
    for why in left_out {
        let _ = writeln!(text, "not counted: {why}");
    }
    if text.is_empty() {
        "No departure of this table has come back with its canisters weighed.\n".to_owned()
    } else {
        text
    }
}

fn lesson(stove: &Stove, learnt: &Learnt) -> String {
    let percent = |share: f64| say::number(share * 100.0, 0);
    let mut text = format!(
        "  used {} % of what was planned; half of the returns from {} % to {} %\n",
        percent(learnt.median),
        percent(learnt.low),
        percent(learnt.high)
    );
    for far in &learnt.far {
        let why = match far.notes.join("; ") {
            none if none.is_empty() => "no note says why".to_owned(),
            notes => notes,
        };
        let _ = writeln!(
            text,
            "  far from the rest, and counted: {} with {} % ({why})",
            far.departure,
            percent(far.ratio)
        );
    }
    // never less fuel than the catalogue's best day would take
    let best = stove.efficiency.high.in_one();
    let efficiency = (stove.efficiency.likely.in_one() / learnt.median).min(best);
    // the quartiles of a normal spread lie 0.6745 of it from the middle (NIST/SEMATECH
    // e-Handbook, 1.3.6.6.1; the figure from memory)
    let spread = (learnt.high - learnt.low) / 2.0 / 0.6745 / learnt.median;
    let _ = writeln!(
        text,
        "  a kitchen may say, once somebody has looked at these returns:\n  \
         measured: {{efficiency: {} %, wind: calm, spread: {} %}}",
        percent(efficiency),
        percent(spread.clamp(0.01, 0.5))
    );
    text
}
