//! `leeside shelf`: the ledger of canisters, from the warehouse's side.

mod assign;
mod labels;
mod learn;
mod list;

use super::{Laid, Said};
use crate::diag::{Outcome, Problem, Severity, Source, Told, told};
use crate::load;
use crate::nouns::{Blend, Connection, Container, ContainerKind, Id};
use crate::shelf::{self, Action, Ledger, Movement, Stock, Tag, TareFrom};
use crate::units::Mass;
use crate::write;
use clap::{Args, Subcommand};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Keep the ledger of tagged canisters: what came, went out, came back and what is in it
///
/// Every command adds lines to one table (shelf.csv) that opens in a spreadsheet; nothing in it
/// is ever changed or taken away. What cannot be is refused; what is unlikely has to be said
/// twice, with --sure.
#[derive(Args, Debug)]
#[command(after_help = "Examples:
  leeside shelf receive --size 'canister 230 g' --count 12 --tare '150 g' --who Kim
  leeside shelf issue F-014 F-015 --departure june-1
  leeside shelf return F-014='251 g' F-015='302 g'
  leeside shelf list
  leeside shelf assign --season content/seasons/summer-2027.csv")]
pub struct Shelf {
    #[command(subcommand)]
    what: What,
}

#[derive(Subcommand, Debug)]
enum What {
    /// New canisters come to the shelf; each is given the next free tag
    Receive(Receive),
    /// Canisters are put on the scale: `F-014='291 g'`
    Weigh(Several),
    /// Canisters are kept for a departure
    Reserve(Several),
    /// Canisters go out with a departure
    Issue(Several),
    /// Canisters are laid down where a departure will pick them up
    Drop(Several),
    /// Canisters come back, best with what they weigh: `F-014='251 g'`
    Return(Several),
    /// Canisters are set aside: dented, leaking, label gone
    Quarantine(Several),
    /// Canisters are set aside to be burnt empty in lessons
    BurnDown(Several),
    /// Canisters are gone for good: empty, made safe, recycled
    Retire(Several),
    /// Canisters cannot be found
    Lost(Several),
    /// Say what an earlier line should have said; the line stays
    Correct(Correct),
    /// Lay another copy of the ledger, edited apart, together with this one
    Merge(Merge),
    /// What stands on the shelf, is out, is odd
    List(list::List),
    /// Which canister goes with which departure of a season, and what is short
    Assign(Box<assign::Assign>),
    /// Labels for canisters, with a code to scan, on a sheet of labels
    Labels(Box<labels::Labels>),
    /// What returns teach: fuel used against fuel planned, by stove, season and place
    Learn(learn::Learn),
}

/// Where the ledger is.
#[derive(Args, Debug)]
struct Where {
    /// The ledger
    #[arg(long, value_name = "FILE", default_value = "shelf.csv")]
    shelf: PathBuf,
    /// Own content
    #[command(flatten)]
    content: Laid,
}

/// What every line says.
#[derive(Args, Debug)]
struct Line {
    #[command(flatten)]
    place: Where,
    /// Who does it
    #[arg(long, default_value = "")]
    who: String,
    /// When, as 2027-05-14T09:30; without it now, in universal time
    #[arg(long, value_name = "TIME", value_parser = shelf::time)]
    at: Option<String>,
    /// Anything else
    #[arg(long, default_value = "")]
    note: String,
    /// Which scale was used
    #[arg(long, default_value = "")]
    scale: String,
    /// Do what is unlikely all the same
    #[arg(long)]
    sure: bool,
}

#[derive(Args, Debug)]
struct Receive {
    /// Their size, for example 'canister 230 g'
    #[arg(long)]
    size: String,
    /// How many alike
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1000))]
    count: u32,
    /// The first one's tag; without it the next free one
    #[arg(long, value_parser = shelf::tag)]
    tag: Option<Tag>,
    /// Mass on the scale; without it full
    #[arg(long, value_parser = super::quantity::<Mass>)]
    gross: Option<Mass>,
    /// Mass empty, from the label; without it the table's, which may be off
    #[arg(long, value_parser = super::quantity::<Mass>)]
    tare: Option<Mass>,
    /// Composition by mass, for example 'propane 30, isobutane 70'
    #[arg(long, value_parser = blend)]
    gas: Option<Blend>,
    /// How they join a stove: thread, clip, pierce
    #[arg(long, value_parser = connection)]
    connection: Option<Connection>,
    #[command(flatten)]
    line: Line,
}

#[derive(Args, Debug)]
struct Several {
    /// Tags, each with its mass on the scale where it was weighed
    #[arg(required = true, value_name = "TAG[=MASS]", value_parser = weighed)]
    tags: Vec<(Tag, Option<Mass>)>,
    /// The departure
    #[arg(long, default_value = "")]
    departure: String,
    /// The leg of it, from 1
    #[arg(long)]
    leg: Option<u32>,
    #[command(flatten)]
    line: Line,
}

#[derive(Args, Debug)]
struct Correct {
    /// The line's id: the first cell of its row
    #[arg(value_name = "ID")]
    id: String,
    /// It counts for nothing
    #[arg(long)]
    void: bool,
    /// The right tag
    #[arg(long, value_parser = shelf::tag)]
    tag: Option<Tag>,
    /// The right mass on the scale
    #[arg(long, value_parser = super::quantity::<Mass>)]
    gross: Option<Mass>,
    /// The right mass empty
    #[arg(long, value_parser = super::quantity::<Mass>)]
    tare: Option<Mass>,
    /// The right departure
    #[arg(long, default_value = "")]
    departure: String,
    #[command(flatten)]
    line: Line,
}

#[derive(Args, Debug)]
struct Merge {
    /// The other copy
    #[arg(value_name = "OTHER.csv")]
    other: PathBuf,
    #[command(flatten)]
    place: Where,
}

/// Runs the command.
///
/// # Errors
/// What in the ledger or the new lines is wrong; then nothing was added.
pub fn run(args: &Shelf) -> Outcome<Said> {
    match &args.what {
        What::Receive(args) => receive(args),
        What::Weigh(args) => several(args, Action::Weigh),
        What::Reserve(args) => several(args, Action::Reserve),
        What::Issue(args) => several(args, Action::Issue),
        What::Drop(args) => several(args, Action::Drop),
        What::Return(args) => several(args, Action::Return),
        What::Quarantine(args) => several(args, Action::Quarantine),
        What::BurnDown(args) => several(args, Action::BurnDown),
        What::Retire(args) => several(args, Action::Retire),
        What::Lost(args) => several(args, Action::Lost),
        What::Correct(args) => correct(args),
        What::Merge(args) => merge(args),
        What::List(args) => list::run(args),
        What::Assign(args) => assign::run(args),
        What::Labels(args) => labels::run(args),
        What::Learn(args) => learn::run(args),
    }
}

/// Reads a ledger; one that is not there yet has no lines.
fn read(path: &Path) -> Outcome<Ledger> {
    let source = if path.exists() {
        load::read(path)?
    } else {
        Source {
            name: path.display().to_string().into(),
            text: "".into(),
        }
    };
    Ledger::read(&source)
}

fn receive(args: &Receive) -> Outcome<Said> {
    let wanted = crate::nouns::id(&args.size);
    enter(&args.line, |stock, containers| {
        let Some(size) = container(containers, &wanted) else {
            let known: Vec<&str> = canisters(containers).map(|one| one.name.as_str()).collect();
            return Err(vec![Problem::error(
                "shelf.size",
                told!("no canister is called `{size}`", size = args.size),
                told!("write one of: {known}", known = known.join(", ")),
            )]);
        };
        let mut tags = Vec::new();
        let (prefix, mut number) = first_tag(stock, args.tag.as_ref());
        while tags.len() < args.count as usize {
            let tag = Tag::numbered(&prefix, number);
            if args.tag.is_some() || !stock.canisters.contains_key(&tag) {
                tags.push(tag);
            }
            number = number.saturating_add(1);
        }
        let tare = args
            .tare
            .map_or((size.tare, TareFrom::Table), |tare| (tare, TareFrom::Label));
        Ok(tags
            .into_iter()
            .map(|tag| {
                let mut line = start(&args.line, tag, Action::Receive);
                line.size = Some(size.id.clone());
                line.gross = Some(args.gross.unwrap_or(tare.0 + size.net));
                line.tare = Some(tare);
                line.gas = args.gas;
                line.connection = args.connection;
                line
            })
            .collect())
    })
}

/// The canisters of the catalogue.
fn canisters(containers: &BTreeMap<Id, Container>) -> impl Iterator<Item = &Container> {
    containers
        .values()
        .filter(|one| one.kind == ContainerKind::Canister)
}

/// The canister that `canister-230`, `canister 230 g` or `230 g` means.
fn container<'a>(containers: &'a BTreeMap<Id, Container>, wanted: &str) -> Option<&'a Container> {
    let squeezed = |text: &str| text.replace([' ', '-'], "");
    let wanted = squeezed(wanted);
    canisters(containers).find(|one| {
        let name = squeezed(&one.name);
        squeezed(&one.id) == wanted
            || name == wanted
            || name.strip_prefix("canister") == Some(wanted.as_str())
    })
}

/// The letters of the first new tag, and its number: as asked, else after the highest one.
fn first_tag(stock: &Stock, asked: Option<&Tag>) -> (String, u32) {
    if let Some((prefix, number)) = asked.and_then(Tag::parts) {
        return (prefix.to_owned(), number);
    }
    stock
        .canisters
        .keys()
        .filter_map(Tag::parts)
        .max_by_key(|(_, number)| *number)
        .map_or_else(
            || ("F".to_owned(), 1),
            |(prefix, number)| (prefix.to_owned(), number.saturating_add(1)),
        )
}

fn several(args: &Several, action: Action) -> Outcome<Said> {
    let for_departure = matches!(action, Action::Issue | Action::Drop | Action::Reserve);
    if for_departure && args.departure.trim().is_empty() {
        return Err(vec![Problem::error(
            "flag.departure",
            "no departure is named",
            "say which one they go to, for example `--departure june-1`",
        )]);
    }
    enter(&args.line, |_, _| {
        Ok(args
            .tags
            .iter()
            .map(|(tag, gross)| {
                let mut line = start(&args.line, tag.clone(), action);
                line.gross = *gross;
                line.departure.clone_from(&args.departure);
                line.leg = args.leg;
                line
            })
            .collect())
    })
}

fn correct(args: &Correct) -> Outcome<Said> {
    let ledger = read(&args.line.place.shelf)?;
    let Some(wrong) = ledger.lines().iter().find(|line| line.id() == args.id) else {
        let ids: Vec<String> = ledger.lines().iter().map(Movement::id).collect();
        let near = crate::diag::nearest(&args.id, ids.iter().map(String::as_str));
        return Err(vec![Problem::error(
            "shelf.line",
            told!("the ledger has no line {id}", id = args.id),
            near.map_or_else(
                || Told::from("the first cell of each row is its id"),
                |near| told!("did you mean {near}?", near),
            ),
        )]);
    };
    let said = args.void
        || args.tag.is_some()
        || args.gross.is_some()
        || args.tare.is_some()
        || !args.departure.is_empty();
    if !said {
        return Err(vec![Problem::error(
            "flag.correct",
            "nothing is said that should be otherwise",
            "add --gross, --tare, --tag or --departure, or --void where the line counts for nothing",
        )]);
    }
    let tag = args.tag.clone().unwrap_or_else(|| wrong.tag.clone());
    let size = wrong.size.clone();
    enter(&args.line, |_, _| {
        let mut line = start(&args.line, tag.clone(), Action::Correct);
        line.size.clone_from(&size);
        line.gross = args.gross;
        line.tare = args.tare.map(|tare| (tare, TareFrom::Label));
        line.departure.clone_from(&args.departure);
        line.corrects.clone_from(&args.id);
        if args.void {
            shelf::VOID.clone_into(&mut line.note);
        }
        Ok(vec![line])
    })
}

fn merge(args: &Merge) -> Outcome<Said> {
    let turn = write::turn(&args.place.shelf)?;
    let here = read(&args.place.shelf)?;
    let other = Ledger::read(&load::read(&args.other)?)?;
    let before = here.lines().len();
    let one = here.merged(other);
    write::single(&args.place.shelf, one.text().as_bytes(), true)?;
    drop(turn);
    let stock = Stock::of(one.lines());
    let mut message = told!(
        "{before} lines came in; the ledger has {count} now\n",
        before = one.lines().len() - before,
        count = one.lines().len()
    );
    for odd in &stock.oddities {
        message.line(told!(
            "look: {what} (line {line})",
            what = odd.what,
            line = odd.line
        ));
    }
    Ok(Said {
        message,
        warnings: one.warnings,
        ..Said::default()
    })
}

/// A line with what every line says.
fn start(args: &Line, tag: Tag, action: Action) -> Movement {
    let mut line = Movement::new(&args.at.clone().unwrap_or_else(now), &args.who, tag, action);
    line.note.clone_from(&args.note);
    line.scale.clone_from(&args.scale);
    line
}

/// Judges new lines one after the other and adds all of them, or none.
fn enter(
    args: &Line,
    lines: impl FnOnce(&Stock, &BTreeMap<Id, Container>) -> Outcome<Vec<Movement>>,
) -> Outcome<Said> {
    let (library, mut warnings) = super::library(&args.place.content.folders)?;
    let turn = write::turn(&args.place.shelf)?;
    let mut ledger = read(&args.place.shelf)?;
    let torn = ledger.torn;
    warnings.append(&mut ledger.warnings);
    let mut stock = Stock::of(ledger.lines());
    let mut text = String::new();
    let mut message = Told::NOTHING;
    let mut against = Vec::new();
    for line in lines(&stock, &library.containers)? {
        for doubt in shelf::doubts(&stock, &library.containers, &line) {
            let mut problem = doubt.problem;
            if args.sure && !doubt.refused {
                problem.severity = Severity::Warning;
                warnings.push(problem);
            } else {
                against.push(problem);
            }
        }
        message.line(told!(
            "{tag} {action}",
            tag = line.tag.sticker(),
            action = Told::from(line.action.word())
        ));
        text.push_str(&ledger.add(vec![line]));
        stock = Stock::of(ledger.lines());
    }
    if !against.is_empty() {
        return Err(against);
    }
    turn.add(torn, &text)?;
    Ok(Said {
        message,
        warnings,
        ..Said::default()
    })
}

/// The clock, in universal time. A ledger says when; no sheet and no sum reads it.
#[allow(
    clippy::disallowed_methods,
    reason = "a ledger's line says when it was written"
)]
fn now() -> String {
    let seconds = std::time::SystemTime::now()
        .duration_since(std::time::UNIX_EPOCH)
        .map_or(0, |since| since.as_secs());
    let (days, rest) = (seconds / 86_400, seconds % 86_400);
    let (year, month, day) = civil(days);
    format!(
        "{year:04}-{month:02}-{day:02}T{:02}:{:02}:{:02}",
        rest / 3600,
        rest / 60 % 60,
        rest % 60
    )
}

/// The day of the Gregorian calendar that is so many days after 1 January 1970: whole
/// cycles of 400 years have 146 097 days, and counted from March every month but the
/// last has a fixed length. Day 0 is 1970-01-01, day 20 000 is 2024-10-04.
fn civil(days: u64) -> (u64, u64, u64) {
    let shifted = days + 719_468;
    let (cycle, of_cycle) = (shifted / 146_097, shifted % 146_097);
    let year_of_cycle = (of_cycle - of_cycle / 1460 + of_cycle / 36_524 - of_cycle / 146_096) / 365;
    let of_year = of_cycle - (365 * year_of_cycle + year_of_cycle / 4 - year_of_cycle / 100);
    let from_march = (5 * of_year + 2) / 153;
    let day = of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 {
        from_march + 3
    } else {
        from_march - 9
    };
    let year = cycle * 400 + year_of_cycle + u64::from(month <= 2);
    (year, month, day)
}

fn blend(text: &str) -> Result<Blend, String> {
    let blend = Blend::read(text).map_err(|bad| format!("{}; {}", bad.message, bad.help))?;
    if blend.adds_up() {
        Ok(blend)
    } else {
        Err("the shares do not add up to 100; write them by mass, as on the label".to_owned())
    }
}

fn connection(text: &str) -> Result<Connection, String> {
    Connection::from_word(text)
        .ok_or_else(|| format!("`{text}` is no way to join; write thread, clip or pierce"))
}

fn weighed(text: &str) -> Result<(Tag, Option<Mass>), String> {
    match text.split_once('=') {
        None => Ok((shelf::tag(text)?, None)),
        Some((tag, mass)) => Ok((shelf::tag(tag)?, Some(super::quantity(mass)?))),
    }
}

#[cfg(test)]
mod tests {
    use super::civil;

    #[test]
    fn days_are_those_of_the_calendar() {
        // 2000-02-29 is day 11 016, 2024-10-04 day 20 000 (date -u -d @.., GNU coreutils)
        assert_eq!(civil(0), (1970, 1, 1));
        assert_eq!(civil(11_016), (2000, 2, 29));
        assert_eq!(civil(20_000), (2024, 10, 4));
        assert_eq!(civil(47_540), (2100, 2, 28));
        assert_eq!(civil(47_541), (2100, 3, 1));
    }
}
