//! `leeside practice`: a problem sheet and its worked key.

use super::Said;
use super::make::{FormatName, PaperName, UnitsName, formats, put, report};
use crate::compose;
use crate::course::practice::{self, Level, Request, Topic};
use crate::diag::Outcome;
use crate::packet::{Job, Press};
use crate::ready;
use crate::units::Units;
use clap::Args;
use std::path::PathBuf;

/// Write practice problems and their key, each step worked
#[derive(Args, Debug)]
#[command(
    after_help = "Topics (see also leeside list topics): fuel, boils, canister, height, snow, spare, steps, bleach, minutes, push, shelf, all\n\
                  Example: leeside practice --topic fuel --count 10 --seed 7"
)]
pub struct Practice {
    /// What the problems are about; several with commas between, or `all`
    #[arg(
        long,
        value_name = "TOPIC",
        value_delimiter = ',',
        default_value = "all"
    )]
    pub topic: Vec<String>,
    /// How many problems
    #[arg(long, value_name = "N", default_value = "10", value_parser = count)]
    pub count: usize,
    /// The number that the problems are drawn from: the same seed, the same sheet
    #[arg(long, value_name = "N", value_parser = seed, allow_hyphen_values = true)]
    pub seed: u64,
    /// 1 read it off the table, 2 work it out, 3 plan the trip; left out, from 1 to 3
    #[arg(long, value_name = "1-3", value_parser = level)]
    pub level: Option<Level>,
    /// Folder in which the two sheets get one of their own
    #[arg(
        short,
        long,
        alias = "output",
        value_name = "DIR",
        default_value = "out"
    )]
    pub out: PathBuf,
    /// Formats, with commas between
    #[arg(
        long,
        value_enum,
        ignore_case = true,
        value_delimiter = ',',
        default_value = "pdf,html,md"
    )]
    pub format: Vec<FormatName>,
    /// Larger print
    #[arg(long)]
    pub large_print: bool,
    /// The learners' units
    #[arg(long, value_enum, ignore_case = true, default_value = "metric")]
    pub units: UnitsName,
    /// Paper
    #[arg(long, value_enum, ignore_case = true, default_value = "letter")]
    pub paper: PaperName,
    /// Write over files that someone has changed since
    #[arg(long)]
    pub force: bool,
    /// A folder of content and templates laid over the built-in ones
    #[arg(long, value_name = "DIR")]
    pub content: Option<PathBuf>,
}

/// More problems than anyone prints, or numbers to draw from.
const MOST: usize = 200;

fn count(text: &str) -> Result<usize, String> {
    match text.trim().parse::<usize>() {
        Ok(count) if (1..=MOST).contains(&count) => Ok(count),
        _ => Err(format!(
            "that is no number of problems; write 1 to {MOST}, for example `--count 10`"
        )),
    }
}

fn seed(text: &str) -> Result<u64, String> {
    text.trim().parse().map_err(|_| {
        "a seed is a whole number, 0 or more; write any you like, for example `--seed 7`, and keep \
         it to make the same sheet again"
            .to_owned()
    })
}

fn level(text: &str) -> Result<Level, String> {
    Level::ALL
        .into_iter()
        .find(|level| level.number().to_string() == text.trim())
        .ok_or_else(|| {
            let levels = Level::ALL.map(|level| format!("{} ({})", level.number(), level.title()));
            format!("there is no such level; write {}", levels.join(", "))
        })
}

/// The words of a request that make a name: topics, level, seed.
fn slug(request: &Request) -> String {
    let mut parts = vec!["practice".to_owned(), topics(&request.topics, "-")];
    if let Some(level) = request.level {
        parts.push(format!("level-{}", level.number()));
    }
    parts.push(request.seed.to_string());
    parts.join("-")
}

fn topics(topics: &[Topic], between: &str) -> String {
    if topics.len() == Topic::ALL.len() {
        "all".to_owned()
    } else {
        let words: Vec<&str> = topics.iter().map(|topic| topic.word()).collect();
        words.join(between)
    }
}

/// The command that makes the same problems again.
fn command(request: &Request) -> String {
    let level = request
        .level
        .map_or_else(String::new, |level| format!(" --level {}", level.number()));
    let units = match request.units {
        Units::Us => " --units us",
        Units::Metric => "",
        Units::Both => " --units both",
    };
    format!(
        "leeside practice --topic {} --count {} --seed {}{level}{units}",
        topics(&request.topics, ","),
        request.count,
        request.seed
    )
}

/// Runs the command.
///
/// # Errors
/// A topic that is not there, problems of content and templates, a disk in the way.
pub fn run(args: &Practice) -> Outcome<Said> {
    let request = Request {
        topics: Topic::read(&args.topic)?,
        count: args.count,
        level: args.level,
        seed: args.seed,
        units: args.units.units(),
    };
    let ready = ready::library(args.content.as_deref())?;
    let press = Press::new(&ready.assets, ready.library, ready.digest)?;
    let set = practice::practice(press.library(), &request)?;
    let job = Job {
        formats: formats(&args.format),
        bundle: None,
        options: compose::Options {
            paper: Some(args.paper.paper()),
            large_print: args.large_print,
            ..compose::Options::default()
        },
    };
    let packet = press.practice(&set, &slug(&request), &job, &command(&request))?;
    let mut made = put(&args.out, &press, vec![packet], args.force)?;
    let warnings = ready
        .warnings
        .into_iter()
        .chain(std::mem::take(&mut made.warnings))
        .collect();
    Ok(Said {
        message: report(&made),
        warnings,
        ..Said::default()
    })
}
