//! One line of the ledger: what was done with one canister, when and by whom.

use super::tag::Tag;
use crate::nouns::words::words;
use crate::nouns::{Blend, Connection, Id};
use crate::units::{Mass, say};
use sha2::{Digest as _, Sha256};

words! {
    /// What was done with a canister.
    Action {
        /// Came to the shelf for the first time.
        Receive = "receive",
        /// Was put on the scale.
        Weigh = "weigh",
        /// Is kept for a departure.
        Reserve = "reserve",
        /// Went out with a departure.
        Issue = "issue",
        /// Was laid down where a departure will pick it up.
        Drop = "drop",
        /// Came back.
        Return = "return",
        /// Was set aside: dented, leaking, label gone.
        Quarantine = "quarantine",
        /// Was set aside to be burnt empty in lessons.
        BurnDown = "burn down",
        /// Left for good: empty, made safe, recycled.
        Retire = "retire",
        /// Cannot be found.
        Lost = "lost",
        /// Says what an earlier line should have said.
        Correct = "correct",
    }
}

words! {
    /// Where a mass empty comes from.
    TareFrom {
        /// Printed or stamped on the canister.
        Label = "label",
        /// This very canister was weighed empty.
        Scale = "scale",
        /// The catalogue's typical one: may be off by its spread.
        Table = "table",
    }
}

/// The headings of the ledger, in order.
pub const HEADINGS: [&str; 16] = [
    "id",
    "time",
    "who",
    "tag",
    "action",
    "size",
    "gross",
    "tare",
    "tare from",
    "gas",
    "connection",
    "departure",
    "leg",
    "scale",
    "corrects",
    "note",
];

/// One line of the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Movement {
    /// Its number: one more than that of any line known when it was written.
    pub number: u64,
    /// When, as `2027-05-14T09:30:00`: the later text is the later time.
    pub time: String,
    /// Who did it.
    pub who: String,
    /// Which canister.
    pub tag: Tag,
    /// What was done.
    pub action: Action,
    /// Its size: the id of a container.
    pub size: Option<Id>,
    /// Mass on the scale with what is in it.
    pub gross: Option<Mass>,
    /// Mass empty.
    pub tare: Option<(Mass, TareFrom)>,
    /// Composition when full, by mass.
    pub gas: Option<Blend>,
    /// How it joins a stove.
    pub connection: Option<Connection>,
    /// The departure that it is for or was with.
    pub departure: String,
    /// The leg of it, from 1.
    pub leg: Option<u32>,
    /// Which scale was used.
    pub scale: String,
    /// The id of the line that this one corrects.
    pub corrects: String,
    /// Anything else.
    pub note: String,
}

impl Movement {
    /// A line of which only the needful is said.
    #[must_use]
    pub fn new(time: &str, who: &str, tag: Tag, action: Action) -> Self {
        Self {
            number: 0,
            time: time.to_owned(),
            who: who.to_owned(),
            tag,
            action,
            size: None,
            gross: None,
            tare: None,
            gas: None,
            connection: None,
            departure: String::new(),
            leg: None,
            scale: String::new(),
            corrects: String::new(),
            note: String::new(),
        }
    }

    /// Its cells but the id, as the ledger writes them.
    #[must_use]
    pub fn cells(&self) -> [String; 15] {
        let grams = |mass: Mass| format!("{} g", say::significant(mass.in_grams(), 6));
        [
            self.time.clone(),
            safe(&self.who),
            self.tag.sticker(),
            self.action.word().to_owned(),
            self.size
                .as_ref()
                .map(ToString::to_string)
                .unwrap_or_default(),
            self.gross.map(grams).unwrap_or_default(),
            self.tare.map(|(tare, _)| grams(tare)).unwrap_or_default(),
            self.tare
                .map(|(_, from)| from.word().to_owned())
                .unwrap_or_default(),
            self.gas.map(|gas| gas.to_string()).unwrap_or_default(),
            self.connection
                .map(|joins| joins.word().to_owned())
                .unwrap_or_default(),
            safe(&self.departure),
            self.leg.map(|leg| leg.to_string()).unwrap_or_default(),
            safe(&self.scale),
            self.corrects.clone(),
            safe(&self.note),
        ]
    }

    /// Its id: its number and a short digest of its cells, so that a line that was changed by
    /// hand is seen, and two copies of a ledger edited apart can be laid together.
    #[must_use]
    pub fn id(&self) -> String {
        let mut digest = Sha256::new();
        for cell in self.cells() {
            digest.update(cell.as_bytes());
            digest.update([0x1f]);
        }
        let hex: String = digest
            .finalize()
            .iter()
            .take(4)
            .map(|byte| format!("{byte:02x}"))
            .collect();
        format!("{}-{hex}", self.number)
    }

    /// What lines are ordered by: the same for the same lines, wherever they stand in a file.
    #[must_use]
    pub fn order(&self) -> (String, u64, String) {
        (self.time.clone(), self.number, self.id())
    }
}

/// A cell that a spreadsheet cannot take for a formula, on one line.
pub(super) fn safe(text: &str) -> String {
    let line: String = text
        .chars()
        .map(|sign| if sign.is_control() { ' ' } else { sign })
        .collect();
    let line = line.trim();
    if line.starts_with(['=', '+', '-', '@', '\'']) {
        format!("'{line}")
    } else {
        line.to_owned()
    }
}

/// A cell as it was before [`Movement::cells`] made it safe.
pub(super) fn unsafe_again(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.starts_with(['=', '+', '-', '@', '\'']) => rest,
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_in_a_note_stays_text() {
        let tag = Tag::numbered("F", 1);
        let mut line = Movement::new("2027-05-14T09:30:00", "K", tag, Action::Weigh);
        line.note = "=HYPERLINK(\"x\")\nnext".into();
        let cells = line.cells();
        assert_eq!(cells[14], "'=HYPERLINK(\"x\") next");
        assert_eq!(unsafe_again(&cells[14]), "=HYPERLINK(\"x\") next");
    }

    #[test]
    fn an_id_tells_a_changed_line() {
        let tag = Tag::numbered("F", 1);
        let one = Movement::new("2027-05-14T09:30:00", "K", tag, Action::Weigh);
        let mut other = one.clone();
        other.gross = Some(Mass::grams(291.0));
        assert_ne!(one.id(), other.id());
    }
}
