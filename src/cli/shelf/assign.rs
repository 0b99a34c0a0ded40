//! `leeside shelf assign`: which canister goes with which departure of a season.

use super::super::Said;
use super::super::season::rows::{Reading, Rows};
use super::Where;
use crate::diag::{Outcome, Problem, told};
use crate::nouns::{CanisterOnHand, Connection, Kind, Trip};
use crate::packet::{Handed, Press};
use crate::ready;
use crate::shelf::{self, Assignment, Choice, Going, House, Offer, Stock, Told};
use crate::units::{Mass, Temperature, say};
use crate::write;
use clap::Args;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::PathBuf;

#[derive(Args, Debug)]
pub(super) struct Assign {
    /// The season's table: a departure a row
    #[arg(long, value_name = "TABLE")]
    season: PathBuf,
    #[command(flatten)]
    reading: Reading,
    /// Days between coming back and leaving again
    #[arg(long, value_name = "DAYS", default_value_t = 2, value_parser = clap::value_parser!(u32).range(0..=60))]
    turnaround: u32,
    /// Part-used canisters with less fuel than this stay at home
    #[arg(long, value_name = "MASS", default_value = "30 g", value_parser = super::super::quantity::<Mass>)]
    floor: Mass,
    /// Where a night is as cold as this, frost is likely: full canisters only
    #[arg(long, value_name = "TEMPERATURE", default_value = "0 C", value_parser = super::super::quantity::<Temperature>)]
    frost: Temperature,
    /// The table to write, for `leeside season --assigned`
    #[arg(long, value_name = "FILE", default_value = "assigned.csv")]
    out: PathBuf,
    #[command(flatten)]
    place: Where,
}

/// A trip to serve: as the shelf sees it, as meant, and the mass of the canisters that it buys
/// when it is offered none.
struct Served {
    going: Going,
    trip: Trip,
    bought: Mass,
}

/// Runs the command.
pub(super) fn run(args: &Assign) -> Outcome<Said> {
    let ready = ready::library(&args.place.content.folders)?;
    let press = Press::new(&ready.assets, ready.library, ready.digest)?;
    let (rows, mut bad) = Rows::read(&args.season, &args.reading, None)?;
    let mut ledger = super::read(&args.place.shelf)?;
    let mut warnings = ready.warnings;
    warnings.append(&mut ledger.warnings);
    let stock = Stock::of(ledger.lines());
    let told = shelf::told(ledger.lines());
    let served = served(&rows, &press, args, &mut bad);
    let is_over = |one: &Served| told.get(&one.going.name).is_some_and(Told::is_over);
    let (over, served): (Vec<Served>, Vec<Served>) = served.into_iter().partition(is_over);
    let mut goings: Vec<Going> = served.iter().map(|one| one.going.clone()).collect();
    let house = House {
        turnaround: args.turnaround,
        floor: args.floor,
    };
    let sizes = &press.library().containers;
    let mut assignment = shelf::assign(&goings, &stock, sizes, &house, |index, offers| {
        chosen(&press, &served[index], offers)
    })?;
    let alone: Vec<Outcome<Choice>> = served
        .par_iter()
        .map(|one| {
            let offers = shelf::alone(&one.going, &goings, &stock, sizes, &house);
            chosen(&press, one, &offers)
        })
        .collect();
    let alone: Vec<Choice> = alone.into_iter().collect::<Outcome<_>>()?;
    let result = report(&goings, over.len(), &assignment, &alone);
    for one in over {
        if let Some(told) = told.get(&one.going.name) {
            assignment.add_over(goings.len(), told, &stock, sizes);
            goings.push(one.going);
        }
    }
    write::single(&args.out, assignment.table(&goings).as_bytes(), true)?;
    warnings.extend(bad.iter().cloned());
    Ok(Said {
        message: told!("wrote {out}\n", out = args.out.display()),
        result,
        wrong: !bad.is_empty(),
        warnings,
    })
}

/// The departures that can be served; those without a first day are told.
fn served(rows: &Rows, press: &Press, args: &Assign, bad: &mut Vec<Problem>) -> Vec<Served> {
    let found: Vec<_> = rows
        .going()
        .collect::<Vec<_>>()
        .into_par_iter()
        .map(|departure| {
            let found = rows.trip(press.library(), departure).and_then(|found| {
                let Some((trip, _)) = found else {
                    return Ok(None);
                };
                let bare = Trip {
                    canisters_on_hand: Vec::new(),
                    ..trip.clone()
                };
                let bought = press.handed(&bare)?.bought;
                Ok(Some((trip, bought)))
            });
            (departure, found)
        })
        .collect();
    let mut served = Vec::new();
    for (departure, outcome) in found {
        let (trip, bought) = match outcome {
            Ok(Some(found)) => found,
            Ok(None) => continue,
            Err(problems) => {
                bad.extend(problems);
                continue;
            }
        };
        let (Some(leaves), Some(back)) = (trip.starts, trip.ends()) else {
            bad.push(departure.problem(Problem::error(
                "shelf.no-day",
                "no first day is known, so no canister can be given to it",
                "write it in a column `start date`",
            )));
            continue;
        };
        let going = Going {
            name: departure.name.clone(),
            leaves,
            back,
            lesson: trip.kind == Kind::Lesson,
            frost: trip.camps.iter().any(|camp| camp.night <= args.frost),
        };
        served.push(Served {
            going,
            trip,
            bought,
        });
    }
    served
}

/// What a trip takes of what it is offered, by the calculation of its packet.
fn chosen(press: &Press, served: &Served, offers: &[Offer]) -> Outcome<Choice> {
    let trip = &served.trip;
    let places = trip.kitchens.len() * trip.camps.len().max(1);
    let offers = shelf::enough(offers, served.bought, places);
    let on_hand = offers.iter().map(|offer| CanisterOnHand {
        tag: offer.tag.sticker(),
        container: offer.size.clone(),
        gross: offer.tare + offer.net,
        tare: Some(offer.tare),
        blend: offer
            .gas
            .unwrap_or(press.library().figures.unknown_blend.value),
        blend_stated: offer.gas.is_some(),
        present: None,
        connection: offer.connection.unwrap_or(Connection::Thread),
    });
    let trip = Trip {
        canisters_on_hand: on_hand.collect(),
        ..trip.clone()
    };
    let Handed {
        taken,
        new,
        bought,
        exact,
    } = press.handed(&trip)?;
    let taken = taken.into_iter().filter_map(|(tag, rest)| {
        let offer = offers.iter().find(|offer| offer.tag.sticker() == tag)?;
        Some((offer.tag.clone(), rest))
    });
    Ok(Choice {
        taken: taken.collect(),
        new,
        bought,
        exact,
    })
}

/// What a person reads: how much was shared out, how good it is, and what is short, by week.
fn report(goings: &[Going], over: usize, assignment: &Assignment, alone: &[Choice]) -> String {
    let kilograms = |mass: Mass| say::number(mass.in_grams() / 1000.0, 2);
    let sum = |choices: &[Choice]| -> Mass {
        let masses = choices.iter().map(|choice| choice.bought);
        masses.fold(Mass::ZERO, |sum, mass| sum + mass)
    };
    let exact = |choices: &[Choice]| choices.iter().filter(|choice| choice.exact).count();
    let new: u32 = assignment
        .choices
        .iter()
        .flat_map(|choice| choice.new.values())
        .sum();
    let mut text = format!(
        "{} departures: {} canisters given, {new} new ones to order\n\
         the best choice of what was there is known for {} of them\n",
        goings.len(),
        assignment.given.len(),
        exact(&assignment.choices),
    );
    if over > 0 {
        let _ = writeln!(
            text,
            "{over} more are over: what they took stays in the table"
        );
    }
    let (bought, least) = (sum(&assignment.choices), sum(alone));
    let about = if exact(alone) == alone.len() {
        ""
    } else {
        "about "
    };
    let _ = writeln!(
        text,
        "the new ones weigh {} kg; each departure alone with the whole shelf would need {about}{} kg, \
         and no sharing out needs less",
        kilograms(bought),
        kilograms(if least < bought { least } else { bought })
    );
    let mut weeks: BTreeMap<String, BTreeMap<&str, u32>> = BTreeMap::new();
    for (going, choice) in goings.iter().zip(&assignment.choices) {
        let week = weeks.entry(going.leaves.monday().to_string()).or_default();
        for (name, count) in &choice.new {
            *week.entry(name).or_default() += count;
        }
    }
    for (week, short) in weeks.iter().filter(|(_, short)| !short.is_empty()) {
        let short: Vec<String> = short
            .iter()
            .map(|(name, count)| format!("{count} x {name}"))
            .collect();
        let _ = writeln!(text, "short in the week of {week}: {}", short.join(", "));
    }
    for told in &assignment.told {
        let _ = writeln!(text, "look: {told}");
    }
    text
}
