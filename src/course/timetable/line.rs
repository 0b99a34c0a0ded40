//! A line of a session before it stands on the clock, and the breaks between lines.

use super::piece::Piece;
use super::rotation::Round;
use super::types::What;
use std::collections::BTreeSet;

/// Minutes of a break; common practice, no source.
pub(super) const BREAK: u32 = 10;
/// Fewest minutes of lesson before and after a break.
const AWAY_FROM_BREAK: u32 = 20;
/// Minutes of lesson that a break divides.
const BREAK_EVERY: u32 = 90;

/// Breaks of so many minutes.
pub(super) const fn breaks(minutes: u32) -> u32 {
    minutes.div_ceil(BREAK_EVERY).saturating_sub(1)
}

/// What a line does with its minutes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Goes {
    /// Everyone together.
    All,
    /// As its piece does.
    Piece(usize),
    /// As the last flame did, for another minute.
    LastFlame,
    /// Everyone is watched with nothing lit, so many to an adult.
    Watched(u32),
    /// This piece with nothing lit, each learner watched.
    Seen(usize),
    /// The parts go from place to place of this carousel.
    Round(usize),
}

/// A line without its clock time.
#[derive(Clone)]
pub(super) struct Line<'a> {
    pub what: What<'a>,
    pub goes: Goes,
    pub minutes: u32,
    pub least: u32,
    pub usual: u32,
    pub flame: bool,
}

impl<'a> Line<'a> {
    pub(super) const fn fixed(what: What<'a>, minutes: u32) -> Self {
        Self {
            what,
            goes: Goes::All,
            minutes,
            least: minutes,
            usual: minutes,
            flame: false,
        }
    }

    pub(super) fn of(piece: &Piece<'a>, index: usize) -> Self {
        Self {
            what: What::Segment(piece.module, piece.segment),
            goes: Goes::Piece(index),
            minutes: piece.least,
            least: piece.least,
            usual: piece.usual,
            flame: piece.segment.flame,
        }
    }

    pub(super) const fn piece(&self) -> Option<usize> {
        match self.goes {
            Goes::Piece(index) => Some(index),
            _ => None,
        }
    }
}

/// Minutes of rounds.
pub(super) fn total(rounds: &[Round]) -> u32 {
    rounds.iter().map(|round| round.minutes).sum()
}

/// Puts breaks where they divide the time most evenly and nothing is lit; none soon after the
/// start or before the end.
pub(super) fn pause(lines: &mut Vec<Line<'_>>, takes: &[u32], length: u32) {
    let total: u32 = takes.iter().sum();
    let count = breaks(total).min(breaks(length));
    let mut after: BTreeSet<usize> = BTreeSet::new();
    for number in 1..=count {
        let ideal = total * number / (count + 1);
        let mut at = 0;
        let mut best: Option<(u32, usize)> = None;
        for (index, (line, takes)) in lines.iter().zip(takes).enumerate() {
            at += takes;
            let soon = at < AWAY_FROM_BREAK || total - at < AWAY_FROM_BREAK;
            if line.flame || soon || after.contains(&index) {
                continue;
            }
            let off = at.abs_diff(ideal);
            if best.is_none_or(|(least, _)| off < least) {
                best = Some((off, index));
            }
        }
        if let Some((_, index)) = best {
            after.insert(index);
        }
    }
    for index in after.iter().rev() {
        lines.insert(index + 1, Line::fixed(What::Break, BREAK));
    }
}
