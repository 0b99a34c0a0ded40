//! `leeside practice`: a problem sheet and its worked key, and a page to learn a subject from.

use super::make::{FormatName, PaperName, UnitsName, formats, put, report};
use super::{Laid, Out, Said};
use crate::check;
use crate::compose;
use crate::compose::catalogue;
use crate::course::practice::{self, Level, Request, Topic};
use crate::diag::{Outcome, Problem, Told, nearest, told};
use crate::load::{self, Written};
use crate::nouns::{self, Id, Library, Trip};
use crate::packet::{Format, Job, Press};
use crate::ready;
use crate::units::Units;
use clap::Args;
use serde_json::Value;
use std::path::PathBuf;

/// Write practice problems and their key, each step worked
#[derive(Args, Debug)]
#[command(
    after_help = "Topics (see also leeside list topics): fuel, boils, canister, height, snow, spare, steps, bleach, minutes, push, shelf, what-if, all\n\
                  Example: leeside practice --topic fuel --count 10 --seed 7\n\
                  Example: leeside practice --subject greywater --seed 7 --format html\n\
                  Example: leeside practice --for content/trips/school-yard.yaml --seed 7 --format html\n\n\
                  With a subject or a trip, and HTML among the formats, learn.html lies beside the sheets: \
                  one file to learn from without a network."
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
    /// Makes the page to learn these subjects from too; several with commas between
    #[arg(
        long,
        value_name = "SUBJECT",
        value_delimiter = ',',
        conflicts_with = "of"
    )]
    pub subject: Vec<String>,
    /// Makes the page to learn from for what this trip or lesson checks
    #[arg(long = "for", value_name = "TRIP.yaml")]
    pub of: Option<PathBuf>,
    /// How many problems
    #[arg(long, value_name = "N", default_value = "10", value_parser = count)]
    pub count: usize,
    /// The number that the problems are drawn from: the same seed, the same sheet
    #[arg(long, value_name = "N", value_parser = seed, allow_hyphen_values = true)]
    pub seed: u64,
    /// 1 read it off the table, 2 work it out, 3 plan the trip; left out, from 1 to 3
    #[arg(long, value_name = "1-3", value_parser = level)]
    pub level: Option<Level>,
    /// Where to
    #[command(flatten)]
    pub out: Out,
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
    /// Own content
    #[command(flatten)]
    pub content: Laid,
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
            let levels = Level::ALL
                .map(|level| format!("{} ({})", level.number(), catalogue::text(&level.title())));
            format!("there is no such level; write {}", levels.join(", "))
        })
}

/// The subjects by their names, or by a word that one of them alone has.
///
/// # Errors
/// Names of no subject, each with the nearest.
fn subjects(library: &Library, words: &[String]) -> Outcome<Vec<Id>> {
    let known = || library.modules.keys().map(String::as_str);
    let mut found = Vec::new();
    let mut wrong = Vec::new();
    for word in words {
        let wanted = nouns::id(word);
        let part: Vec<&str> = known()
            .filter(|name| name.split('-').any(|one| one == wanted))
            .collect();
        if library.modules.contains_key(&wanted) {
            found.push(wanted);
        } else if let [only] = part[..] {
            found.push(only.to_owned());
        } else {
            let help = match nearest(&wanted, known()) {
                _ if !part.is_empty() => told!("write one of {part}", part = part.join(", ")),
                Some(near) => told!("did you mean `{near}`?", near),
                None => Told::from("`leeside list modules` names the subjects"),
            };
            wrong.push(Problem::error(
                "practice.subject",
                told!("`{word}` names no subject of its own", word),
                help,
            ));
        }
    }
    if wrong.is_empty() {
        Ok(found)
    } else {
        Err(wrong)
    }
}

/// A lesson about these subjects with every kind of stove in it, so that all of what they teach
/// holds.
fn lesson(library: &Library, subjects: &[Id]) -> Outcome<Trip> {
    let titles: Vec<&str> = subjects
        .iter()
        .filter_map(|id| library.modules.get(id))
        .map(|module| module.title.as_str())
        .collect();
    let stations: String = library
        .stoves
        .keys()
        .enumerate()
        .map(|(index, stove)| format!("  - name: Station {}\n    stove: {stove}\n", index + 1))
        .collect();
    let focus: String = subjects.iter().map(|id| format!("    - {id}\n")).collect();
    let text = format!(
        "kind: lesson\ntitle: {}\npeople:\n  learners: 8\n  instructors: 4\nelevation: 200 m\n\
         stations:\n{stations}course:\n  minutes: 720\n  focus:\n{focus}",
        Value::String(titles.join(", "))
    );
    let written = load::text("the subjects", &text)?;
    Ok(check::trip(&written, library)?.0)
}

/// The trip or lesson whose page to learn from is asked for.
fn about(args: &Practice, of: Option<&Written>, library: &Library) -> Outcome<Option<Trip>> {
    if let Some(written) = of {
        return Ok(Some(check::trip(written, library)?.0));
    }
    if args.subject.is_empty() {
        return Ok(None);
    }
    lesson(library, &subjects(library, &args.subject)?).map(Some)
}

/// The words of a request that make a name: topics, level, seed, what the page is about.
fn slug(request: &Request, args: &Practice, about: Option<&Trip>) -> String {
    let mut parts = vec!["practice".to_owned(), topics(&request.topics, "-")];
    if let Some(level) = request.level {
        parts.push(format!("level-{}", level.number()));
    }
    parts.push(request.seed.to_string());
    if let Some(trip) = about {
        let own = if args.of.is_some() {
            trip.slug.clone()
        } else {
            trip.course.focus.join("-")
        };
        parts.push(own);
    }
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
    let of = args.of.as_deref().map(load::trip_file).transpose()?;
    let folders = match &of {
        None => args.content.folders.clone(),
        Some(written) => args.content.over(written)?,
    };
    let ready = ready::library(&folders)?;
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
    let about = about(args, of.as_ref(), press.library())?;
    let slug = slug(&request, args, about.as_ref());
    let only = match &about {
        Some(trip) if args.of.is_none() => trip.course.focus.clone(),
        _ => Vec::new(),
    };
    let command = command(&request);
    let packet = press.practice(&set, &slug, &job, &command, about.as_ref(), &only)?;
    let page = packet
        .files
        .iter()
        .any(|(path, _)| path.ends_with("learn.html"));
    if about.is_some() && formats(&args.format).contains(&Format::Html) && !page {
        return Err(vec![Problem::error(
            "practice.subject",
            "nothing is asked about that in a check: there is no page to learn it from",
            "`leeside list modules --coverage` shows what is asked about each subject",
        )]);
    }
    let mut made = put(&args.out.folder, vec![(&press, packet)], args.force)?;
    let warnings = ready
        .warnings
        .into_iter()
        .chain(std::mem::take(&mut made.warnings))
        .collect();
    Ok(Said {
        message: Told::as_written(report(&made)),
        warnings,
        ..Said::default()
    })
}
