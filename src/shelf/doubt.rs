//! Judges a new line of the ledger before it is added: what cannot be is refused, what is
//! unlikely has to be said twice.

use super::movement::{Action, Movement, TareFrom};
use super::stock::{Kept, Standing, Stock};
use crate::diag::{Problem, Told, nearest, told};
use crate::nouns::{self, Container, Id};
use crate::units::{Mass, say};
use std::collections::{BTreeMap, BTreeSet};

/// A scale's step and a cap left on: so much heavier than last time is no fuel.
const SCALE_STEP: f64 = 3.0;

/// Less fuel than this cooks nothing: about what boils half a litre (common practice, no source).
const LITTLE: Mass = Mass::grams(10.0);

/// Grams in an ounce.
const OUNCE: f64 = 28.349_523_125;

/// What stands against a new line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// Whether it cannot be; else it is only unlikely, and counts when it is said twice.
    pub refused: bool,
    /// What is wrong and what to write.
    pub problem: Problem,
}

/// Everything that stands against a new line.
#[must_use]
pub fn doubts(stock: &Stock, containers: &BTreeMap<Id, Container>, line: &Movement) -> Vec<Doubt> {
    let mut found = Vec::new();
    let tag = line.tag.sticker();
    let before = stock.canisters.get(&line.tag);
    match (before, line.action) {
        (None, Action::Receive | Action::Correct) => {}
        (None, _) => {
            let known: Vec<String> = stock.canisters.keys().map(super::Tag::sticker).collect();
            let help = nearest(&tag, known.iter().map(String::as_str)).map_or_else(
                || Told::from("receive it first"),
                |near| told!("did you mean {near}? A new one is received first", near),
            );
            return vec![refused(
                "shelf.unknown",
                told!("no canister {tag} was ever received", tag),
                help,
            )];
        }
        (Some(kept), Action::Receive) if kept.standing != Standing::Retired => {
            return vec![refused(
                "shelf.known",
                told!(
                    "{tag} is {words} already",
                    tag,
                    words = kept.standing.told()
                ),
                "give the new one another tag; a canister that came back is a return",
            )];
        }
        (Some(kept), action) => found.extend(step_doubt(kept, action, line)),
    }
    found.extend(mixed(stock, line));
    found.extend(misspelt(stock, line));
    let size = line
        .size
        .as_ref()
        .or_else(|| before.and_then(|kept| kept.size.as_ref()))
        .and_then(|size| containers.get(size));
    match (line.gross, size) {
        (Some(gross), Some(size)) => found.extend(weight_doubt(before, line, gross, size)),
        (Some(_), None) if line.action != Action::Correct => found.push(refused(
            "shelf.size",
            told!("no size is known of {tag}", tag),
            "say its size, for example `--size 'canister 230 g'`",
        )),
        _ => {}
    }
    found
}

fn refused(code: &'static str, message: Told, help: impl Into<Told>) -> Doubt {
    Doubt {
        refused: true,
        problem: Problem::error(code, message, help),
    }
}

fn unlikely(code: &'static str, message: Told, help: impl Into<Told>) -> Doubt {
    Doubt {
        refused: false,
        problem: Problem::error(code, message, help),
    }
}

/// Whether a canister that stands so can do this step.
fn step_doubt(kept: &Kept, action: Action, line: &Movement) -> Option<Doubt> {
    let tag = kept.tag.sticker();
    let is = kept.standing.told();
    match (action, &kept.standing) {
        (Action::Issue | Action::Drop | Action::Reserve, Standing::Reserved { departure })
            if *departure != line.departure =>
        {
            Some(unlikely(
                "shelf.reserved",
                told!("{tag} is kept for {departure}", tag, departure),
                "take another, or say that you are sure with `--sure`",
            ))
        }
        (Action::Issue, Standing::Dropped { departure }) if *departure == line.departure => None,
        (Action::Issue | Action::Drop | Action::Reserve, standing) if !standing.is_on_shelf() => {
            Some(refused(
                "shelf.out",
                told!("{tag} cannot be handed out: it is {is}", tag, is),
                "take another, or write down first that it came back",
            ))
        }
        (Action::Issue | Action::Drop, _) if !kept.weighed && line.gross.is_none() => {
            Some(unlikely(
                "shelf.unweighed",
                told!("{tag} was not weighed since it came back", tag),
                "weigh it, or say that you are sure with `--sure`",
            ))
        }
        (Action::Issue | Action::Drop, _)
            if kept.tare.is_none_or(|(_, from)| from == TareFrom::Table) =>
        {
            Some(unlikely(
                "shelf.tare",
                told!(
                    "the mass of {tag} empty is only the table's: what is in it is a guess",
                    tag
                ),
                "read its label, or say that you are sure with `--sure`",
            ))
        }
        (Action::Issue | Action::Drop, _) if kept.net().is_some_and(|net| net < LITTLE) => {
            Some(unlikely(
                "shelf.empty",
                told!("{tag} is as good as empty: a few grams are left in it", tag),
                "take another, or say that you are sure with `--sure`",
            ))
        }
        (Action::Return, standing) if standing.is_on_shelf() => Some(unlikely(
            "shelf.not-out",
            told!("{tag} was not out: it is {is}", tag, is),
            "weigh it instead, or say that you are sure with `--sure`",
        )),
        (Action::Return | Action::Weigh, Standing::Retired) => Some(refused(
            "shelf.gone",
            told!("{tag} is {is}", tag, is),
            "look at the sticker again; a new canister is received",
        )),
        _ => None,
    }
}

/// One departure should not hold canisters that join in different ways.
fn mixed(stock: &Stock, line: &Movement) -> Option<Doubt> {
    if !matches!(line.action, Action::Issue | Action::Drop) {
        return None;
    }
    let joins = stock.canisters.get(&line.tag)?.connection?;
    let other = stock
        .with(&line.departure)
        .find(|kept| kept.connection.is_some_and(|other| other != joins))?;
    Some(unlikely(
        "shelf.mixed",
        told!(
            "{sticker} joins by {joins}, and {sticker_2} that {departure} has joins by {joins_2}",
            sticker = line.tag.sticker(),
            joins,
            sticker_2 = other.tag.sticker(),
            departure = line.departure,
            joins_2 = other.connection.map_or("", |joins| joins.word())
        ),
        "check the stoves, or say that you are sure with `--sure`",
    ))
}

/// Whether a departure's name is a slip for one that has canisters already. Names that differ in
/// a number or a letter that counts are neighbours, not slips: `june-1` and `june-2`, `Group A` and `Group B`.
fn misspelt(stock: &Stock, line: &Movement) -> Option<Doubt> {
    if !matches!(line.action, Action::Issue | Action::Drop | Action::Reserve) {
        return None;
    }
    let known: BTreeSet<&str> = stock
        .canisters
        .values()
        .filter_map(|kept| match &kept.standing {
            Standing::Reserved { departure }
            | Standing::Out { departure }
            | Standing::Dropped { departure } => Some(departure.as_str()),
            _ => None,
        })
        .collect();
    let counts = |name: &str| -> Vec<String> {
        let id = nouns::id(name).to_string();
        let words = id
            .split('-')
            .filter(|word| word.len() <= 2 || word.contains(|sign: char| sign.is_ascii_digit()));
        words.map(str::to_owned).collect()
    };
    let name = line.departure.as_str();
    if known.contains(name) {
        return None;
    }
    let same = known.into_iter().filter(|one| counts(one) == counts(name));
    let near = nearest(name, same)?;
    Some(unlikely(
        "shelf.departure",
        told!(
            "`{name}` has no canisters yet, and `{near}` has",
            name,
            near
        ),
        told!(
            "did you mean `{near}`? If not, say that you are sure with `--sure`",
            near
        ),
    ))
}

/// Whether a reading of the scale can be.
fn weight_doubt(
    before: Option<&Kept>,
    line: &Movement,
    gross: Mass,
    size: &Container,
) -> Option<Doubt> {
    let tag = line.tag.sticker();
    let g = |mass: Mass| format!("{} g", say::number(mass.in_grams(), 0));
    let known = line.tare.or_else(|| before.and_then(|kept| kept.tare));
    let (tare, spread) = match known {
        Some((tare, TareFrom::Label | TareFrom::Scale)) => (tare, Mass::grams(SCALE_STEP)),
        Some((tare, TareFrom::Table)) => (tare, size.tare_spread),
        None => (size.tare, size.tare_spread),
    };
    let full = tare + size.net;
    if gross < tare - spread {
        let ounces = Mass::grams(gross.in_grams() * OUNCE);
        let with_steel = gross + tare;
        let help = if ounces >= tare - spread && ounces <= full + spread {
            told!("were these ounces? That is {ounces}", ounces = g(ounces))
        } else if gross.in_grams() > 20.0 && with_steel <= full + spread {
            told!(
                "is this the fuel alone? On the scale it would be {with_steel}",
                with_steel = g(with_steel)
            )
        } else {
            Told::from("weigh it again, without anything else on the scale")
        };
        return Some(refused(
            "shelf.light",
            told!(
                "{gross} is lighter than {tag} empty, {tare}",
                gross = g(gross),
                tag,
                tare = g(tare)
            ),
            help,
        ));
    }
    if gross > full + spread {
        return Some(refused(
            "shelf.heavy",
            told!(
                "{gross} is heavier than {tag} full, {full}",
                gross = g(gross),
                tag,
                full = g(full)
            ),
            "weigh it alone, without its stove; is its size right?",
        ));
    }
    let last = before.and_then(|kept| kept.gross)?;
    (gross > last + Mass::grams(SCALE_STEP) && line.action != Action::Correct).then(|| {
        unlikely(
            "shelf.heavier",
            told!(
                "{tag} weighs {gross} now and weighed {last} before: canisters do not fill up",
                tag,
                gross = g(gross),
                last = g(last)
            ),
            "look at the sticker and weigh again, or say that you are sure with `--sure`",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Ledger, Tag};
    use super::*;
    use crate::nouns::{Connection, ContainerKind, FuelKind};
    use crate::units::{Fraction, Length, Volume};

    fn containers() -> BTreeMap<Id, Container> {
        let size = Container {
            id: "canister-230".into(),
            name: "canister 230 g".into(),
            kind: ContainerKind::Canister,
            fuels: vec![FuelKind::Canister],
            net: Mass::grams(230.0),
            capacity: Volume::ZERO,
            fill: Fraction::ZERO,
            tare: Mass::grams(150.0),
            tare_spread: Mass::grams(10.0),
            diameter: Length::millimetres(110.0),
            height: Length::millimetres(95.0),
            residue: Mass::grams(4.0),
            residue_share: Fraction::ZERO,
        };
        BTreeMap::from([(size.id.clone(), size)])
    }

    fn line(action: Action, grams: Option<f64>) -> Movement {
        let tag = Tag::numbered("F", 14);
        let mut line = Movement::new("2027-05-02T08:00:00", "K", tag, action);
        line.gross = grams.map(Mass::grams);
        line.departure = "june-1".into();
        line
    }

    fn shelf(extra: Vec<Movement>) -> Stock {
        let mut receive = line(Action::Receive, Some(300.0));
        receive.size = Some("canister-230".into());
        receive.tare = Some((Mass::grams(150.0), TareFrom::Label));
        receive.connection = Some(Connection::Thread);
        let mut ledger = Ledger::default();
        ledger.add(vec![receive]);
        ledger.add(extra);
        Stock::of(ledger.lines())
    }

    /// The codes of what stands against a line, refusals marked.
    fn told(stock: &Stock, line: &Movement) -> Vec<(&'static str, bool)> {
        doubts(stock, &containers(), line)
            .into_iter()
            .map(|doubt| (doubt.problem.code, doubt.refused))
            .collect()
    }

    #[test]
    fn readings_that_cannot_be_are_refused() {
        let stock = shelf(Vec::new());
        let weigh = |grams| told(&stock, &line(Action::Weigh, Some(grams)));
        assert_eq!(weigh(291.0), []);
        assert_eq!(weigh(120.0), [("shelf.light", true)]);
        assert_eq!(weigh(420.0), [("shelf.heavy", true)]);
        assert_eq!(weigh(340.0), [("shelf.heavier", false)]);
        let help = |grams| {
            doubts(&stock, &containers(), &line(Action::Weigh, Some(grams)))[0]
                .problem
                .help
                .clone()
        };
        assert!(help(10.3).contains("292 g"), "{}", help(10.3));
        assert!(help(141.0).contains("291 g"), "{}", help(141.0));
    }

    #[test]
    fn a_departure_that_is_misspelt_is_asked_about_and_a_neighbour_is_not() {
        for (known, name, asked) in [
            ("Otter club", "Oter club", true),
            ("Otter club", "Otter club", false),
            ("Group A", "Group B", false),
            ("june-1", "june-2", false),
            ("sands-08", "sand-08", true),
            ("heron", "plover", false),
        ] {
            let mut out = line(Action::Issue, None);
            out.departure = known.into();
            out.tag = Tag::numbered("F", 2);
            let mut receive = line(Action::Receive, Some(300.0));
            receive.tag = Tag::numbered("F", 2);
            let mut new = line(Action::Issue, None);
            new.departure = name.into();
            let told = told(&shelf(vec![receive, out]), &new);
            let wanted: &[(&str, bool)] = if asked {
                &[("shelf.departure", false)]
            } else {
                &[]
            };
            assert_eq!(told, wanted, "{name}");
        }
    }

    #[test]
    fn what_is_out_or_set_aside_is_not_handed_out() {
        for action in [
            Action::Issue,
            Action::Quarantine,
            Action::Lost,
            Action::Retire,
        ] {
            let stock = shelf(vec![line(action, None)]);
            let told = told(&stock, &line(Action::Issue, None));
            assert_eq!(told, [("shelf.out", true)], "{action}");
        }
        let mut kept = line(Action::Reserve, None);
        kept.departure = "june-2".into();
        let stock = shelf(vec![kept]);
        assert_eq!(
            told(&stock, &line(Action::Issue, None)),
            [("shelf.reserved", false)]
        );
        let stock = shelf(vec![line(Action::Issue, None), line(Action::Return, None)]);
        assert_eq!(
            told(&stock, &line(Action::Issue, None)),
            [("shelf.unweighed", false)]
        );
        let weighed = line(Action::Return, Some(251.0));
        let stock = shelf(vec![line(Action::Issue, None), weighed]);
        assert_eq!(told(&stock, &line(Action::Issue, None)), []);
    }

    #[test]
    fn an_unknown_tag_names_the_nearest() {
        let mut other = line(Action::Weigh, Some(291.0));
        other.tag = Tag::numbered("F", 15);
        let found = doubts(&shelf(Vec::new()), &containers(), &other);
        assert!(
            found[0].problem.help.contains("F-014"),
            "{}",
            found[0].problem.help
        );
        assert_eq!(
            told(&shelf(Vec::new()), &line(Action::Receive, None)),
            [("shelf.known", true)]
        );
    }
}
