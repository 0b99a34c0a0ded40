//! What returns teach: fuel used against fuel planned.
//!
//! A return counts when every canister of its departure was weighed going out and coming back.
//! Ratios of used to planned are gathered by stove, season and place; the middle one and the
//! quartiles are printed, so that a single odd trip moves little and none has to be left out.

use super::movement::{Action, Movement};
use super::stock::corrected;
use super::tag::Tag;
use crate::units::Mass;
use std::collections::BTreeMap;

/// One canister with one departure.
#[derive(Clone, Debug, PartialEq)]
pub struct Outing {
    /// Which canister.
    pub tag: Tag,
    /// On the scale when it went.
    pub out: Option<Mass>,
    /// On the scale when it came back; the mass empty of one that was burnt empty.
    pub back: Option<Mass>,
    /// Whether it is still out, or lost.
    pub ended: Option<Action>,
}

/// What the ledger tells of a departure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// Its canisters.
    pub outings: Vec<Outing>,
    /// People who really ate, where a line's note says so: `fed 7`.
    pub fed: Option<u32>,
    /// What else the notes of its lines say.
    pub notes: Vec<String>,
}

impl Told {
    /// Whether everything that it took is back, lost or gone for good.
    #[must_use]
    pub fn is_over(&self) -> bool {
        !self.outings.is_empty() && self.outings.iter().all(|one| one.ended.is_some())
    }

    /// Fuel used, or why that is not known.
    ///
    /// # Errors
    /// A reason in words.
    pub fn used(&self) -> Result<Mass, String> {
        let mut used = Mass::ZERO;
        for one in &self.outings {
            let tag = one.tag.sticker();
            let (out, back) = match (one.ended, one.out, one.back) {
                (None, ..) => return Err(format!("{tag} is not back")),
                (Some(Action::Lost), ..) => return Err(format!("{tag} was lost")),
                (_, None, _) => return Err(format!("{tag} was not weighed before it went")),
                (_, _, None) => return Err(format!("{tag} was not weighed when it came back")),
                (_, Some(out), Some(back)) => (out, back),
            };
            if back > out {
                return Err(format!("{tag} came back heavier than it went"));
            }
            used += out - back;
        }
        Ok(used)
    }
}

/// What the ledger tells of each departure that took canisters, by its name.
#[must_use]
pub fn told(lines: &[Movement]) -> BTreeMap<String, Told> {
    let mut all: BTreeMap<String, Told> = BTreeMap::new();
    let mut with: BTreeMap<Tag, String> = BTreeMap::new();
    let mut known: BTreeMap<Tag, (Option<Mass>, Option<Mass>)> = BTreeMap::new();
    let (lines, _) = corrected(lines);
    for (_, line) in &lines {
        let tag = &line.tag;
        let (gross, tare) = known.entry(tag.clone()).or_default();
        *gross = line.gross.or(*gross);
        *tare = line.tare.map(|(tare, _)| tare).or(*tare);
        if matches!(line.action, Action::Issue | Action::Drop) {
            // laid down first and taken up later is one outing
            if with.get(tag) != Some(&line.departure) {
                all.entry(line.departure.clone())
                    .or_default()
                    .outings
                    .push(Outing {
                        tag: tag.clone(),
                        out: *gross,
                        back: None,
                        ended: None,
                    });
                with.insert(tag.clone(), line.departure.clone());
            }
            *gross = None;
        }
        let Some(departure) = with.get(tag).cloned() else {
            continue;
        };
        let told = all.entry(departure).or_default();
        let outing = told.outings.iter_mut().rev().find(|one| one.tag == *tag);
        if let Some(outing) = outing {
            match line.action {
                Action::Return | Action::Lost => {
                    outing.ended = Some(line.action);
                    outing.back = line.gross;
                }
                Action::Retire => {
                    outing.ended = outing.ended.or(Some(Action::Retire));
                    outing.back = outing.back.or(line.gross).or(*tare);
                }
                // weighed later in the week, before it went again
                Action::Weigh if outing.ended == Some(Action::Return) => {
                    outing.back = outing.back.or(line.gross);
                }
                _ => {}
            }
        }
        let note = line.note.trim();
        match note
            .strip_prefix("fed ")
            .and_then(|rest| rest.trim().parse().ok())
        {
            Some(fed) => told.fed = Some(fed),
            // a note stands on each line of a run: it is one reason
            None if !note.is_empty() && !told.notes.iter().any(|one| one == note) => {
                told.notes.push(note.to_owned());
            }
            None => {}
        }
    }
    all
}

/// A departure's ratio of used to planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Ratio {
    /// The departure.
    pub departure: String,
    /// Used by planned.
    pub ratio: f64,
    /// What its notes say.
    pub notes: Vec<String>,
}

/// The ratios of one stove, season and place.
#[derive(Clone, Debug, PartialEq)]
pub struct Learnt {
    /// The middle ratio.
    pub median: f64,
    /// A quarter lies below this.
    pub low: f64,
    /// A quarter lies above this.
    pub high: f64,
    /// Those far from the rest: more than one and a half times the distance of the quartiles
    /// beyond them (J. W. Tukey, Exploratory Data Analysis, 1977; from memory).
    pub far: Vec<Ratio>,
}

/// The value below which a share of sorted values lies, straight between neighbours.
///
/// Worked example: of 1, 2, 3, 4 a quarter lies below 1.75.
#[must_use]
pub fn quantile(sorted: &[f64], share: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else {
        return f64::NAN;
    };
    let at = share.clamp(0.0, 1.0) * last as f64;
    let below = at.floor() as usize;
    let above = (below + 1).min(last);
    sorted[below] + (sorted[above] - sorted[below]) * (at - below as f64)
}

/// What the ratios of a group teach; none of none.
#[must_use]
pub fn learn(ratios: &[Ratio]) -> Option<Learnt> {
    let mut sorted: Vec<f64> = ratios.iter().map(|one| one.ratio).collect();
    sorted.sort_by(f64::total_cmp);
    if sorted.is_empty() {
        return None;
    }
    let [low, median, high] = [0.25, 0.5, 0.75].map(|share| quantile(&sorted, share));
    let reach = 1.5 * (high - low);
    let far = ratios
        .iter()
        .filter(|one| one.ratio < low - reach || one.ratio > high + reach)
        .cloned()
        .collect();
    Some(Learnt {
        median,
        low,
        high,
        far,
    })
}
