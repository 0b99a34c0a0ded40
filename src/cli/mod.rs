//! The commands; the only room that chains stages and prints.
//!
//! Each command lives in a file of its own: its arguments, and a `run` that
//! returns what to say or every problem. Here they are put together, and what
//! they return becomes text on a terminal and an exit status.

pub mod boil;
pub mod canister;
pub mod check;
pub mod list;
pub mod make;
pub mod new;
pub mod plan;
pub mod practice;
pub mod schema;
pub mod season;
pub mod shelf;
pub mod trial;
pub mod unpack;
pub mod why;

use crate::diag::{Outcome, Problem, report};
use crate::load;
use clap::{Parser, Subcommand};
use std::io::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

/// Turns a trip file into the papers of a camp-kitchen lesson or departure:
/// checklists, handouts, lesson plans, briefing sheets, skills checks, with
/// fuel, water and time worked out for that trip.
#[derive(Parser, Debug)]
#[command(name = "leeside", version, max_term_width = 100)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand, Debug)]
enum Command {
    Make(make::Make),
    Plan(plan::Plan),
    Check(check::Check),
    List(list::List),
    Boil(boil::Boil),
    Canister(canister::Canister),
    New(new::New),
    Trial(trial::Trial),
    Practice(practice::Practice),
    Schema(schema::Schema),
    Season(season::SeasonArgs),
    Shelf(shelf::Shelf),
    Unpack(unpack::Unpack),
    Why(why::Why),
}

/// What a command has to say when it went well.
#[derive(Debug, Default)]
pub struct Said {
    /// The result, for standard output.
    pub result: String,
    /// Messages, for standard error.
    pub message: String,
    /// What deserves a look, for standard error.
    pub warnings: Vec<Problem>,
    /// Whether the result itself says that something is wrong (`check --json`).
    pub wrong: bool,
}

/// Done.
const DONE: u8 = 0;
/// Something in the input is wrong; nothing was written.
const WRONG: u8 = 1;
/// The command line cannot be read.
const UNREADABLE: u8 = 2;
/// The disk stood in the way.
const UNWRITABLE: u8 = 3;

/// Reads the command line, runs the command, prints, and tells the exit status.
#[must_use]
pub fn run() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            let asked = !error.use_stderr();
            // a closed pipe is no reason to fail
            let _ = error.print();
            return ExitCode::from(if asked { DONE } else { UNREADABLE });
        }
    };
    let outcome =
        match &cli.command {
            Command::Make(args) => make::run(args)
                .map(|made| Said {
                    message: make::report(&made),
                    ..Said::default()
                })
                .map_err(|problems| located(problems, &args.trips)),
            Command::Plan(args) => plan::run(args)
                .map_err(|problems| located(problems, std::slice::from_ref(&args.trip))),
            Command::Check(args) => check::run(args),
            Command::List(args) => list::run(args),
            Command::Boil(args) => boil::run(args),
            Command::Canister(args) => canister::run(args),
            Command::New(args) => new::run(args),
            Command::Trial(args) => trial::run(args),
            Command::Practice(args) => practice::run(args),
            Command::Schema(args) => schema::run(args),
            Command::Season(args) => season::run(args),
            Command::Shelf(args) => shelf::run(args),
            Command::Unpack(args) => unpack::run(args),
            Command::Why(args) => why::run(args)
                .map_err(|problems| located(problems, std::slice::from_ref(&args.trip))),
        };
    match outcome {
        Ok(said) => {
            to_stderr(&report(&said.warnings));
            to_stderr(&said.message);
            let _ = std::io::stdout().write_all(said.result.as_bytes());
            let _ = std::io::stdout().flush();
            ExitCode::from(if said.wrong { WRONG } else { DONE })
        }
        Err(problems) => {
            to_stderr(&report(&problems));
            ExitCode::from(status(&problems))
        }
    }
}

/// The exit status of problems: a flag that cannot be read before a disk that
/// cannot be written to before anything else.
fn status(problems: &[Problem]) -> u8 {
    let any = |start: &str| {
        problems
            .iter()
            .any(|problem| problem.code.starts_with(start))
    };
    if any("flag.") {
        UNREADABLE
    } else if any("write.") {
        UNWRITABLE
    } else {
        WRONG
    }
}

/// Text for a person; a closed pipe is no reason to fail.
fn to_stderr(text: &str) {
    let _ = std::io::stderr().write_all(text.as_bytes());
}

/// Problems of later stages name a key path only: their places are looked up
/// in the files again.
fn located(problems: Vec<Problem>, files: &[PathBuf]) -> Vec<Problem> {
    let written: Vec<_> = if problems.iter().any(|problem| problem.place.is_none()) {
        files
            .iter()
            .filter_map(|path| load::trip_file(path).ok())
            .collect()
    } else {
        Vec::new()
    };
    problems
        .into_iter()
        .map(|problem| {
            written
                .iter()
                .fold(problem, |problem, written| written.locate(problem))
        })
        .collect()
}

/// The library for a command, with the warnings of its files.
///
/// # Errors
/// Every problem of the library.
pub fn library(
    content: Option<&std::path::Path>,
) -> Outcome<(crate::nouns::Library, Vec<Problem>)> {
    crate::ready::library(content).map(|ready| (ready.library, ready.warnings))
}

/// A quantity as a flag: what cannot be read is a fault of the command line.
///
/// # Errors
/// One sentence for the person who typed it.
pub fn quantity<Q: crate::units::Quantity>(text: &str) -> Result<Q, String> {
    Q::read(text).map_err(|misread| format!("{}; {}", misread.message, misread.help))
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    #[test]
    fn the_command_line_is_well_formed_and_every_command_has_an_example() {
        let mut command = Cli::command();
        command.build();
        command.clone().debug_assert();
        for one in command.get_subcommands() {
            if one.get_name() == "help" {
                continue;
            }
            let after = one.get_after_help().map(ToString::to_string);
            assert!(
                after.is_some_and(|text| text.contains("leeside ")),
                "{} has no example",
                one.get_name()
            );
        }
    }
}
