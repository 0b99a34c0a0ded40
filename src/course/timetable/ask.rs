//! What a session is asked for, and what it is filled from.

use super::ground::Ground;
use super::piece::Piece;
use super::pieces::Aim;
use super::types::Why;
use crate::diag::Problem;
use crate::nouns::{Date, Id, Light, SessionKind, Trip};
use std::collections::BTreeSet;

/// Most minutes that a learner may wait in a session without anything to do; common practice, no
/// source.
pub const MOST_WAITING: u32 = 15;
/// Minutes longer that are tried to tell how many would do.
pub(super) const MORE: u32 = 240;

/// A session as asked for.
#[derive(Clone)]
pub(super) struct Ask {
    pub name: String,
    pub minutes: u32,
    pub starts: u32,
    pub date: Option<Date>,
    pub indoors: bool,
    pub kind: SessionKind,
    /// The subjects that the file names for it.
    pub focus: Vec<Id>,
    pub aim: Aim,
    /// Whether it has subjects of its own, all of which it must hold.
    pub own: bool,
    /// Minutes after midnight between which it is daylight for certain, and between which it may be
    /// dusk.
    pub daylight: (u32, u32),
    pub dusk: Option<(u32, u32)>,
    /// Whether it is the shorter plan for bad weather.
    pub shorter: bool,
    /// Who was at which station's flame in the sessions before: station, learner.
    pub had: BTreeSet<(usize, u32)>,
    /// The key path of its minutes.
    pub key: String,
}

impl Ask {
    /// Whether so many of its minutes have the light that is needed for certain.
    fn offers(&self, light: Light, minutes: u32) -> bool {
        let longest = |(from, to): (u32, u32)| {
            let ends = to.min(self.starts + self.minutes);
            ends.saturating_sub(from.max(self.starts))
        };
        let window = match light {
            Light::Daylight => Some(self.daylight),
            Light::Dusk => self.dusk,
        };
        window.is_some_and(|window| longest(window) >= minutes)
    }

    /// Whether these minutes have the light that is needed for certain.
    pub(super) fn has(&self, light: Light, starts: u32, ends: u32) -> bool {
        let within = |(from, to): (u32, u32)| starts >= from && ends <= to;
        match light {
            Light::Daylight => within(self.daylight),
            Light::Dusk => self.dusk.is_some_and(within),
        }
    }
}

/// A session that cannot hold what safety requires.
pub(super) struct Short {
    /// The problem to show.
    pub problem: Box<Problem>,
    /// Minutes that are missing.
    pub missing: u32,
}

/// What sessions are filled from.
#[derive(Clone, Copy)]
pub(super) struct Fill<'a, 'f> {
    pub trip: &'f Trip,
    pub ground: &'f Ground,
    pub all: &'f [Piece<'a>],
    /// Whether a second burner may stand where one needs its rest.
    pub spares: bool,
}

/// The minutes to count for a segment while choosing.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Pace {
    Least,
    Usual,
}

impl Pace {
    pub(super) fn of(self, piece: &Piece<'_>) -> u32 {
        match self {
            Self::Least => piece.least_total(),
            Self::Usual => piece.usual_total(),
        }
    }
}

impl Fill<'_, '_> {
    /// What each piece is worth in a session.
    pub(super) fn worths(&self, ask: &Ask) -> Vec<u32> {
        self.all.iter().map(|piece| ask.aim.weight(piece)).collect()
    }

    /// Why segments cannot be held at all, by index.
    pub(super) fn refused(&self, ask: &Ask) -> Vec<Option<Why>> {
        let mut refused: Vec<Option<Why>> = self
            .all
            .iter()
            .map(|piece| match (ask.indoors, piece.segment) {
                (true, one) if one.flame => Some(Why::Indoors),
                (true, one) if one.opens_fuel => Some(Why::OpensFuel),
                (true, one) if one.outdoors_only => Some(Why::OutdoorsOnly),
                (_, one) if one.flame && piece.places.is_empty() => Some(Why::Ban),
                _ if piece.least_in_all.is_none() => Some(Why::NoAdult),
                (_, one)
                    if one
                        .light
                        .is_some_and(|light| !ask.offers(light, piece.least_total())) =>
                {
                    Some(Why::Light)
                }
                _ => None,
            })
            .collect();
        self.spread(&mut refused);
        refused
    }

    /// What needs something that cannot be held cannot be held.
    pub(super) fn spread(&self, refused: &mut [Option<Why>]) {
        for (index, piece) in self.all.iter().enumerate() {
            let needed = piece.needs.iter().find_map(|need| refused[*need]);
            refused[index] = refused[index].or(needed);
        }
    }
}
