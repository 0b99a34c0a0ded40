//! The commands; the only room that chains stages and prints.
//!
//! Each command lives in a file of its own: its arguments, and a `run` that
//! returns what to say or every problem. Here they are put together, and what
//! they return becomes text on a terminal and an exit status.

pub mod boil;
pub mod canister;
pub mod check;
pub mod completions;
pub mod files;
pub mod list;
pub mod make;
pub mod man;
pub mod new;
pub mod plan;
pub mod practice;
mod press;
pub mod schema;
pub mod season;
pub mod shelf;
pub mod show;
mod speech;
pub mod terminal;
pub mod trial;
pub mod typed;
pub mod unpack;
pub mod why;

use crate::diag::{Messages, Outcome, Problem, Told};
use crate::load::Written;
use clap::{CommandFactory as _, Parser, Subcommand};
use speech::Speech;
use std::path::PathBuf;
use std::process::ExitCode;
use terminal::{Heard, to_stderr, to_stdout};

/// Turns a trip file into the papers of a camp-kitchen lesson or departure:
/// checklists, handouts, lesson plans, briefing sheets, skills checks, with
/// fuel, water and time worked out for that trip.
#[derive(Parser, Debug)]
#[command(name = "leeside", version, max_term_width = 100)]
struct Cli {
    /// Say only what is wrong or deserves a look
    #[arg(short, long, global = true)]
    quiet: bool,
    /// Language of messages, and of sheets where some are made, whatever a trip states; of several
    /// a packet each, and the first speaks; `es+en`: both beside each other on briefing and kitchen card
    #[arg(long, global = true, value_name = "CODE", value_delimiter = ',')]
    language: Vec<String>,
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
    Completions(completions::Completions),
    Man(man::Man),
    New(new::New),
    Trial(trial::Trial),
    Practice(practice::Practice),
    Schema(schema::Schema),
    Season(season::SeasonArgs),
    Shelf(shelf::Shelf),
    Show(show::Show),
    Unpack(unpack::Unpack),
    Why(why::Why),
}

/// What a command has to say when it went well.
#[derive(Debug, Default)]
pub struct Said {
    /// The result, for standard output.
    pub result: String,
    /// Messages, for standard error.
    pub message: Told,
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

/// The commands, by name.
fn commands() -> Vec<String> {
    let command = Cli::command();
    let named = command.get_subcommands().map(|one| one.get_name());
    named.map(str::to_owned).collect()
}

/// Reads the command line, runs the command, prints, and tells the exit status.
#[must_use]
pub fn run() -> ExitCode {
    let mut cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => return ExitCode::from(misread(&error)),
    };
    cli.command.speak(&cli.language);
    let told = match outcome(&cli.command) {
        Ok(said) => {
            let is_heard = !cli.quiet && !said.message.is_empty();
            let messages = match said.warnings.is_empty() && !is_heard {
                true => Messages::english(),
                false => Speech::typed().messages(),
            };
            to_stderr(&terminal::report(&said.warnings, &messages));
            if is_heard {
                to_stderr(&said.message.said_in(&messages));
            }
            match to_stdout(&said.result) {
                Heard::All if said.wrong => WRONG,
                Heard::All => DONE,
                Heard::No(problem) => {
                    to_stderr(&terminal::report(&[*problem], &Speech::typed().messages()));
                    UNWRITABLE
                }
            }
        }
        Err(problems) => {
            to_stderr(&terminal::report(&problems, &Speech::typed().messages()));
            status(&problems)
        }
    };
    ExitCode::from(told)
}

impl Command {
    /// Hands the languages of the flag to the commands that make sheets or ask questions in one.
    fn speak(&mut self, languages: &[String]) {
        match self {
            Self::Make(make) => make.language = languages.to_vec(),
            Self::Check(check) => check.language = languages.first().cloned(),
            Self::New(new) => new.language = languages.first().cloned(),
            _ => {}
        }
    }
}

/// What the command line asks for.
fn outcome(command: &Command) -> Outcome<Said> {
    match command {
        Command::Make(args) => make::said(args),
        Command::Plan(args) => plan::run(args),
        Command::Check(args) => check::run(args),
        Command::List(args) => list::run(args),
        Command::Boil(args) => boil::run(args),
        Command::Canister(args) => canister::run(args),
        Command::Completions(args) => completions::run(args, Cli::command()),
        Command::Man(args) => man::run(args, Cli::command()),
        Command::New(args) => new::run(args),
        Command::Trial(args) => trial::run(args),
        Command::Practice(args) => practice::run(args),
        Command::Schema(args) => schema::run(args),
        Command::Season(args) => season::run(args),
        Command::Shelf(args) => shelf::run(args),
        Command::Show(args) => show::run(args),
        Command::Unpack(args) => unpack::run(args),
        Command::Why(args) => why::run(args),
    }
}

/// A command line that is a question for help, or that cannot be read: what is said, and the
/// exit status.
fn misread(error: &clap::Error) -> u8 {
    if let Some(problem) = typed::mistaken(error, &commands()) {
        to_stderr(&terminal::report(&[problem], &Speech::typed().messages()));
        return UNREADABLE;
    }
    // a closed pipe is no reason to fail
    let _ = error.print();
    if error.use_stderr() { UNREADABLE } else { DONE }
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

/// Problems of later stages name a key path only: their places are looked up in the file.
fn located(problems: Vec<Problem>, written: &Written) -> Vec<Problem> {
    let located = problems.into_iter().map(|one| written.locate(one));
    located.collect()
}

/// The library for a command, with the warnings of its files.
///
/// # Errors
/// Every problem of the library.
pub fn library(content: &[PathBuf]) -> Outcome<(crate::nouns::Library, Vec<Problem>)> {
    crate::ready::library(content).map(|ready| (ready.library, ready.warnings))
}

/// What is laid over the built-in content.
#[derive(clap::Args, Clone, Debug, Default)]
pub struct Laid {
    /// A folder of content and templates laid over the built-in ones; of several, each over the
    /// one before
    #[arg(id = "content", long = "content", value_name = "DIR")]
    pub folders: Vec<PathBuf>,
}

/// Where papers are put.
#[derive(clap::Args, Clone, Debug)]
pub struct Out {
    /// Folder in which each packet gets one of its own
    #[arg(
        id = "out",
        short = 'o',
        long = "out",
        alias = "output",
        value_name = "DIR",
        default_value = "out"
    )]
    pub folder: PathBuf,
}

impl Laid {
    /// The folders that a trip names, and over them those of the command line.
    ///
    /// # Errors
    /// What the trip names is no folder.
    pub fn over(&self, trip: &crate::load::Written) -> Outcome<Vec<PathBuf>> {
        let mut folders = trip.content()?;
        folders.extend_from_slice(&self.folders);
        Ok(folders)
    }
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
