//! What stands on the shelf now: the state that a ledger's lines lead to.

use super::movement::{Action, Movement, TareFrom};
use super::tag::Tag;
use crate::diag::{Told, told};
use crate::nouns::{Blend, Connection, Id};
use crate::units::Mass;
use std::collections::BTreeMap;

/// Where a canister is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// On the shelf.
    Shelf,
    /// On the shelf, kept for a departure.
    Reserved {
        /// Which one.
        departure: String,
    },
    /// Out with a departure.
    Out {
        /// Which one.
        departure: String,
    },
    /// Laid down where a departure will pick it up.
    Dropped {
        /// Which one.
        departure: String,
    },
    /// Set aside as doubtful.
    Quarantine,
    /// Set aside to be burnt empty in lessons.
    BurnDown,
    /// Gone for good.
    Retired,
    /// Not found.
    Lost,
}

impl Standing {
    /// In a word or two: `on the shelf`, `out with june-1`.
    #[must_use]
    pub fn words(&self) -> String {
        self.told().to_string()
    }

    /// As [`Standing::words`], for a message.
    #[must_use]
    pub fn told(&self) -> Told {
        match self {
            Self::Shelf => "on the shelf".into(),
            Self::Reserved { departure } => told!("kept for {departure}", departure),
            Self::Out { departure } => told!("out with {departure}", departure),
            Self::Dropped { departure } => told!("laid down for {departure}", departure),
            Self::Quarantine => "set aside".into(),
            Self::BurnDown => "to be burnt empty in lessons".into(),
            Self::Retired => "gone for good".into(),
            Self::Lost => "lost".into(),
        }
    }

    /// Whether it can be taken from the shelf for a departure.
    #[must_use]
    pub fn is_on_shelf(&self) -> bool {
        matches!(self, Self::Shelf | Self::Reserved { .. })
    }
}

/// A canister as it is now.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Its tag.
    pub tag: Tag,
    /// Its size: the id of a container.
    pub size: Option<Id>,
    /// Mass empty, and where that is from.
    pub tare: Option<(Mass, TareFrom)>,
    /// Mass on the scale when it was last weighed.
    pub gross: Option<Mass>,
    /// Whether it was weighed since it last went out.
    pub weighed: bool,
    /// Composition when full.
    pub gas: Option<Blend>,
    /// How it joins a stove.
    pub connection: Option<Connection>,
    /// Where it is.
    pub standing: Standing,
    /// When it last moved.
    pub since: String,
}

impl Kept {
    /// Fuel in it, where scale and tare tell.
    #[must_use]
    pub fn net(&self) -> Option<Mass> {
        Some(self.gross? - self.tare?.0)
    }
}

/// What was odd on the way: the state is the later line's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Oddity {
    /// Which canister.
    pub tag: Tag,
    /// The id of the line.
    pub line: String,
    /// What is odd, one sentence.
    pub what: Told,
}

/// Every canister of a ledger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// By tag.
    pub canisters: BTreeMap<Tag, Kept>,
    /// What was odd, in order of time.
    pub oddities: Vec<Oddity>,
}

/// The lines of a ledger as their corrections say that they should have been, each with its id,
/// and the corrections of lines that there are not.
pub(super) fn corrected(lines: &[Movement]) -> (Vec<(String, Movement)>, Vec<&Movement>) {
    let mut corrections: BTreeMap<&str, &Movement> = BTreeMap::new();
    for line in lines.iter().filter(|line| line.action == Action::Correct) {
        // the last correction of a line holds
        corrections.insert(line.corrects.as_str(), line);
    }
    let mut right = Vec::new();
    for line in lines.iter().filter(|line| line.action != Action::Correct) {
        let id = line.id();
        match corrections.remove(id.as_str()) {
            None => right.push((id, line.clone())),
            Some(one) if one.note.eq_ignore_ascii_case(super::VOID) => {}
            Some(one) => right.push((id, line.corrected_by(one))),
        }
    }
    // corrections that are themselves corrected are lines that there are
    let known = |id: &str| lines.iter().any(|line| line.id() == id);
    let strange = corrections
        .into_iter()
        .filter(|(id, _)| !known(id))
        .map(|(_, line)| line);
    (right, strange.collect())
}

impl Stock {
    /// Works the lines of a ledger, in their order.
    #[must_use]
    pub fn of(lines: &[Movement]) -> Self {
        let mut stock = Self::default();
        let (lines, strange) = corrected(lines);
        for (id, line) in &lines {
            stock.take(line, id);
        }
        for line in strange {
            stock.odd(
                line,
                &line.id(),
                told!(
                    "there is no line {corrects} to correct",
                    corrects = line.corrects
                ),
            );
        }
        stock
    }

    fn odd(&mut self, line: &Movement, id: &str, what: Told) {
        self.oddities.push(Oddity {
            tag: line.tag.clone(),
            line: id.to_owned(),
            what,
        });
    }

    fn take(&mut self, line: &Movement, id: &str) {
        let before = self
            .canisters
            .get(&line.tag)
            .map(|kept| kept.standing.clone());
        if let Some(what) = odd_step(before.as_ref(), line) {
            self.odd(line, id, what);
        }
        let kept = self
            .canisters
            .entry(line.tag.clone())
            .or_insert_with(|| Kept {
                tag: line.tag.clone(),
                size: None,
                tare: None,
                gross: None,
                weighed: false,
                gas: None,
                connection: None,
                standing: Standing::Shelf,
                since: String::new(),
            });
        kept.since.clone_from(&line.time);
        if line.size.is_some() {
            kept.size.clone_from(&line.size);
        }
        // a table's guess never replaces what a label or a scale told
        if let Some(tare) = line.tare
            && (tare.1 != TareFrom::Table || kept.tare.is_none())
        {
            kept.tare = Some(tare);
        }
        kept.gas = line.gas.or(kept.gas);
        kept.connection = line.connection.or(kept.connection);
        if line.gross.is_some() {
            kept.gross = line.gross;
            kept.weighed = true;
        }
        let departure = || line.departure.clone();
        kept.standing = match line.action {
            Action::Receive | Action::Return => Standing::Shelf,
            Action::Weigh | Action::Correct => kept.standing.clone(),
            Action::Reserve => Standing::Reserved {
                departure: departure(),
            },
            Action::Issue => Standing::Out {
                departure: departure(),
            },
            Action::Drop => Standing::Dropped {
                departure: departure(),
            },
            Action::Quarantine => Standing::Quarantine,
            Action::BurnDown => Standing::BurnDown,
            Action::Retire => Standing::Retired,
            Action::Lost => Standing::Lost,
        };
        if matches!(line.action, Action::Issue | Action::Drop) {
            kept.weighed = line.gross.is_some();
        }
    }

    /// The canisters that are out or laid down for a departure.
    pub fn with<'a>(&'a self, departure: &'a str) -> impl Iterator<Item = &'a Kept> {
        self.canisters.values().filter(move |kept| {
            matches!(&kept.standing,
                Standing::Out { departure: one } | Standing::Dropped { departure: one }
                    if one == departure)
        })
    }
}

/// What is odd about a line after what stood before it; lines typed one after the other were
/// judged before, but two copies laid together may clash.
fn odd_step(before: Option<&Standing>, line: &Movement) -> Option<Told> {
    let tag = line.tag.sticker();
    match (before, line.action) {
        (None, Action::Receive) => None,
        (None, _) => Some(told!("{tag} was never received", tag)),
        (Some(Standing::Retired), Action::Receive) => None,
        (Some(before), Action::Receive) => Some(told!(
            "{tag} was received again, and was {words}",
            tag,
            words = before.told()
        )),
        (Some(before), Action::Issue | Action::Drop) if !before.is_on_shelf() => {
            let same =
                matches!(before, Standing::Dropped { departure } if *departure == line.departure);
            (!same).then(|| {
                told!(
                    "{tag} was handed out to {departure}, and was {words}",
                    tag,
                    departure = line.departure,
                    words = before.told()
                )
            })
        }
        _ => None,
    }
}

impl Movement {
    /// The line as a later one says that it should have been.
    fn corrected_by(&self, other: &Self) -> Self {
        let text = |new: &String, old: &String| if new.is_empty() { old } else { new }.clone();
        Self {
            tag: other.tag.clone(),
            size: other.size.clone().or_else(|| self.size.clone()),
            gross: other.gross.or(self.gross),
            tare: other.tare.or(self.tare),
            gas: other.gas.or(self.gas),
            connection: other.connection.or(self.connection),
            departure: text(&other.departure, &self.departure),
            leg: other.leg.or(self.leg),
            scale: text(&other.scale, &self.scale),
            note: text(&other.note, &self.note),
            ..self.clone()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Ledger;
    use super::*;

    fn line(time: &str, action: Action, departure: &str, grams: Option<f64>) -> Movement {
        let mut line = Movement::new(time, "K", Tag::numbered("F", 14), action);
        line.departure = departure.to_owned();
        line.gross = grams.map(Mass::grams);
        line
    }

    #[test]
    fn a_canister_goes_out_and_comes_back() {
        let mut ledger = Ledger::default();
        let mut receive = line("2027-05-01T08:00:00", Action::Receive, "", Some(380.0));
        receive.tare = Some((Mass::grams(150.0), TareFrom::Label));
        ledger.add(vec![
            receive,
            line("2027-05-02T08:00:00", Action::Issue, "june-1", None),
        ]);
        let out = Stock::of(ledger.lines());
        let kept = &out.canisters[&Tag::numbered("F", 14)];
        assert_eq!(kept.standing.words(), "out with june-1");
        assert!(!kept.weighed);
        ledger.add(vec![line(
            "2027-05-05T08:00:00",
            Action::Return,
            "june-1",
            Some(291.0),
        )]);
        let back = Stock::of(ledger.lines());
        let kept = &back.canisters[&Tag::numbered("F", 14)];
        assert_eq!(kept.standing, Standing::Shelf);
        assert_eq!(kept.net(), Some(Mass::grams(291.0) - Mass::grams(150.0)));
        assert!(back.oddities.is_empty());
    }

    #[test]
    fn a_correction_replaces_what_a_line_said_and_keeps_it() {
        let mut ledger = Ledger::default();
        ledger.add(vec![line(
            "2027-05-01T08:00:00",
            Action::Receive,
            "",
            Some(830.0),
        )]);
        let id = ledger.lines()[0].id();
        let mut correct = line("2027-05-01T08:05:00", Action::Correct, "", Some(380.0));
        correct.corrects = id;
        ledger.add(vec![correct]);
        let stock = Stock::of(ledger.lines());
        let kept = &stock.canisters[&Tag::numbered("F", 14)];
        assert_eq!(kept.gross, Some(Mass::grams(380.0)));
        assert_eq!(ledger.lines().len(), 2);
    }

    #[test]
    fn two_issues_of_one_canister_are_told() {
        let mut here = Ledger::default();
        here.add(vec![line(
            "2027-05-01T08:00:00",
            Action::Receive,
            "",
            Some(380.0),
        )]);
        let mut there = here.clone();
        here.add(vec![line(
            "2027-05-02T08:00:00",
            Action::Issue,
            "june-1",
            None,
        )]);
        there.add(vec![line(
            "2027-05-02T09:00:00",
            Action::Issue,
            "june-2",
            None,
        )]);
        let one = Stock::of(here.clone().merged(there.clone()).lines());
        assert_eq!(one, Stock::of(there.merged(here).lines()));
        assert_eq!(one.oddities.len(), 1);
    }
}
