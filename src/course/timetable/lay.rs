//! A session on the clock: order, breaks, minutes, what goes first when time runs short.

use super::ask::{Ask, Fill};
use super::beside::{self, Draft, FORM, WORKSHEET};
use super::carousel::{self, Carousel, Unit};
use super::drops::drops;
use super::line::{BREAK, Goes, Line, breaks, pause, total};
use super::piece::Piece;
use super::rotation::{self, Burners, Round, Turn};
use super::types::{CarouselStop, Entry, Spot, Timetable, What, whole};
use crate::nouns::{Id, Module, Segment, SegmentKind};
use std::collections::BTreeSet;

// Minutes of what no module brings; common practice, no source.
/// Recall of the last session, one objective a minute.
pub(super) const RECALL: u32 = 5;
/// The drill with nothing lit.
pub(super) const DRILL: u32 = 3;
/// Fewest minutes in which learners are watched with nothing lit.
const CHECK_UNLIT: u32 = 8;
/// Learners that one adult watches at once in a check.
const CHECKED_AT_ONCE: u32 = 4;
/// 'All off' called while stoves are lit.
pub(super) const ALL_OFF: u32 = 1;
/// Minutes of a session from which on its first and last words take their usual time.
const LONG: u32 = 45;
/// Minutes of a session that are kept at its end where nothing suffers for it: whoever begins a part
/// so much late is still done in time.
pub(super) const LATE: u32 = 5;
/// Cooling before packing.
pub(super) const COOLING: u32 = 10;

/// What a session holds.
#[derive(Default)]
pub(super) struct Held<'a> {
    /// Indices of its segments, in order.
    pub kept: Vec<usize>,
    /// Objectives to recall first.
    pub recall: Vec<(&'a Module, Id)>,
    /// Indices of those that may not be dropped: safety requires them, they were asked for, or a
    /// later session needs them.
    pub fast: BTreeSet<usize>,
    /// Whether the drill must be added when something is lit.
    pub drill: bool,
    /// Whether no better choice exists for certain.
    pub exact: bool,
    /// Pieces that are done beside the flame and not on their own.
    pub wanted: Vec<usize>,
    /// More that may be done there, the worthiest first.
    pub open: Vec<usize>,
    /// The check that it ends with.
    pub check: Option<Checked>,
    /// Indices of what is watched with nothing lit before it.
    pub watch: Vec<usize>,
    /// Whether learners teach its segments.
    pub teach_back: bool,
    /// Whether parts may go from place to place.
    pub carousels: bool,
}

/// How a session checks.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Checked {
    /// At the flame of this piece.
    Lit(usize),
    /// With nothing lit.
    Unlit,
}

/// A session on the clock, and what did not come out as wanted.
pub(super) struct Laid<'a> {
    pub table: Timetable<'a>,
    /// Minutes over its length.
    pub over: u32,
    /// Pieces done beside the flame.
    pub placed: BTreeSet<usize>,
    /// Pieces that need a light which their hour does not have for certain.
    pub dark: BTreeSet<usize>,
    /// The lit piece with the most rounds.
    pub longest: Option<usize>,
}

/// Minutes of handing out and of clearing up.
pub(super) const fn first_and_last(minutes: u32) -> (u32, u32) {
    if minutes < LONG { (2, 3) } else { (3, 5) }
}

/// Minutes kept at the end of a session.
const fn late(minutes: u32) -> u32 {
    if minutes < LONG { 0 } else { LATE }
}

/// What learners should still know of a session that held these segments: as much as fits into
/// the minutes of recall, what is critical first.
pub(super) fn recalled<'a>(all: &[Piece<'a>], kept: &[usize]) -> Vec<(&'a Module, Id)> {
    let mut recalled: Vec<(&Module, Id)> = Vec::new();
    for index in kept {
        let (module, segment) = (all[*index].module, all[*index].segment);
        for id in &segment.objectives {
            if !recalled
                .iter()
                .any(|(known, other)| known.id == module.id && other == id)
            {
                recalled.push((module, id.clone()));
            }
        }
    }
    recalled.sort_by_key(|(module, id)| {
        let objective = module.objectives.get(id);
        !objective.is_some_and(|objective| objective.critical)
    });
    recalled.truncate(RECALL as usize);
    recalled
}

/// The line of a session that is laid: start, its rounds.
type Run = (u32, Vec<Round>);

struct Layer<'a, 'f> {
    fill: &'f Fill<'a, 'f>,
    ask: &'f Ask,
    held: &'f Held<'a>,
    carousels: Vec<Carousel>,
}

/// Puts a session on the clock: with places side by side where that holds as much.
pub(super) fn lay<'a>(fill: &Fill<'a, '_>, ask: &Ask, held: &Held<'a>) -> Laid<'a> {
    let plain = laid(fill, ask, held, Vec::new());
    if held.check.is_some() || held.teach_back || !held.carousels || plain.over > 0 {
        return plain;
    }
    let carousels = carousel::carousels(fill.ground, fill.all, &held.kept, &held.fast);
    if carousels.is_empty() {
        return plain;
    }
    let turning = laid(fill, ask, held, carousels);
    let as_good = turning.over == 0
        && turning.table.waits <= plain.table.waits
        && turning.dark == plain.dark
        && turning.placed.is_superset(&plain.placed);
    if as_good { turning } else { plain }
}

fn laid<'a>(fill: &Fill<'a, '_>, ask: &Ask, held: &Held<'a>, carousels: Vec<Carousel>) -> Laid<'a> {
    let layer = Layer {
        fill,
        ask,
        held,
        carousels,
    };
    let mut lines = layer.lines();
    layer.stretch(&mut lines);
    let laid = layer.put(&lines, true);
    // What is written of the form while others are watched is not written again.
    if held.check.is_some() && laid.0 < FORM {
        let rest = Line::fixed(What::Form, laid.0);
        lines.retain(|line| line.what != What::Form || rest.minutes > 0);
        for line in lines.iter_mut().filter(|line| line.what == What::Form) {
            line.clone_from(&rest);
        }
        return layer.put(&lines, true).1;
    }
    let spare = ask.minutes.saturating_sub(laid.1.table.ends - ask.starts);
    // Who had no time for the worksheet while waiting has it at the end.
    if laid.0 == 0 || spare < WORKSHEET || held.check.is_some() || held.teach_back {
        return laid.1;
    }
    let last = lines.len().saturating_sub(1);
    lines.insert(last, Line::fixed(What::Worksheet, WORKSHEET));
    let with = layer.put(&lines, false).1;
    if with.over > 0 { laid.1 } else { with }
}

impl<'a> Layer<'a, '_> {
    /// The lines in order: handing out, recall, segments, and after the last flame the call and the
    /// cooling; then the check, and clearing up.
    fn lines(&self) -> Vec<Line<'a>> {
        let (held, all) = (self.held, self.fill.all);
        let (hand_out, clear_up) = first_and_last(self.ask.minutes);
        let mut lines = vec![Line::fixed(What::HandOut, hand_out)];
        if !held.recall.is_empty() {
            lines.push(Line::fixed(What::Recall(held.recall.clone()), RECALL));
        }
        let lit = |index: &&usize| all[**index].segment.flame;
        let check_lit = matches!(held.check, Some(Checked::Lit(_)));
        let first = held.kept.iter().find(lit).copied();
        let last = held.kept.iter().rev().find(lit).copied();
        let units = carousel::units(all, &held.kept, &self.carousels).unwrap_or_default();
        for unit in units {
            let index = match unit {
                Unit::One(index) => index,
                Unit::Carousel(at) => {
                    lines.push(self.round(at));
                    continue;
                }
            };
            if Some(index) == first && held.drill {
                lines.push(Line::fixed(What::Drill, DRILL));
            }
            lines.push(Line::of(&all[index], index));
            if Some(index) == last && !check_lit {
                self.put_out(&mut lines);
            }
        }
        for index in &held.watch {
            let piece = &all[*index];
            lines.push(Line {
                what: What::Check(Some((piece.module, piece.segment))),
                goes: Goes::Seen(*index),
                ..Line::of(piece, *index)
            });
        }
        match held.check {
            Some(Checked::Lit(index)) => {
                if first.is_none() {
                    lines.push(Line::fixed(What::Drill, DRILL));
                }
                let piece = &all[index];
                lines.push(Line {
                    what: What::Check(Some((piece.module, piece.segment))),
                    ..Line::of(piece, index)
                });
                self.put_out(&mut lines);
                lines.push(Line::fixed(What::Form, FORM));
            }
            Some(Checked::Unlit) => {
                lines.push(Line {
                    goes: Goes::Watched(CHECKED_AT_ONCE),
                    usual: CHECK_UNLIT + 4,
                    ..Line::fixed(What::Check(None), CHECK_UNLIT)
                });
                lines.push(Line::fixed(What::Form, FORM));
            }
            None => {}
        }
        lines.push(Line::fixed(What::ClearUp, clear_up));
        lines
    }

    fn round(&self, at: usize) -> Line<'a> {
        let carousel = &self.carousels[at];
        let stops = carousel.stops.iter().map(|(spot, index)| CarouselStop {
            at: *spot,
            module: self.fill.all[*index].module,
            segment: self.fill.all[*index].segment,
        });
        Line {
            goes: Goes::Round(at),
            usual: carousel.usual,
            ..Line::fixed(What::Carousel(stops.collect()), carousel.least)
        }
    }

    /// The pieces of a line.
    fn pieces(&self, line: &Line<'a>) -> Vec<usize> {
        match line.goes {
            Goes::Round(at) => self.carousels[at].pieces().collect(),
            _ => line.piece().into_iter().collect(),
        }
    }

    /// The call while the last stoves burn, and the cooling after it.
    fn put_out(&self, lines: &mut Vec<Line<'a>>) {
        lines.push(Line {
            goes: Goes::LastFlame,
            flame: true,
            ..Line::fixed(What::AllOff, ALL_OFF)
        });
        let all = self.fill.all;
        let cooling = all.iter().position(Piece::cools);
        lines.push(cooling.map_or_else(
            || Line::fixed(What::Cooling, COOLING),
            |index| Line::of(&all[index], index),
        ));
    }

    /// The rounds of every line at its minute; none where a flame cannot be held.
    fn run(&self, lines: &[Line<'a>]) -> Option<Vec<Run>> {
        let ground = self.fill.ground;
        let mut burners = Burners::after(self.fill.spares, self.ask.had.clone());
        let everyone: Vec<u32> = (0..ground.learners).collect();
        let mut last: Vec<Turn> = Vec::new();
        let mut now = self.ask.starts;
        let mut all = Vec::new();
        for line in lines {
            let rounds = match line.goes {
                Goes::All => vec![Round {
                    minutes: line.minutes,
                    active: everyone.clone(),
                    ..Round::default()
                }],
                Goes::Piece(index) => {
                    let piece = &self.fill.all[index];
                    rotation::rounds(ground, piece, line.minutes, now, &mut burners)?
                }
                Goes::LastFlame => {
                    for turn in &last {
                        burners.out(ground, turn.station, turn.spare, now + line.minutes);
                    }
                    vec![Round {
                        minutes: line.minutes,
                        lit: last.clone(),
                        ..Round::default()
                    }]
                }
                Goes::Watched(each) => rotation::unlit_rounds(ground, each, line.minutes),
                Goes::Seen(index) => {
                    let piece = &self.fill.all[index];
                    rotation::watched_rounds(ground, piece, CHECKED_AT_ONCE, line.minutes)
                }
                Goes::Round(at) => self.carousels[at].rounds(self.fill.all, line.minutes),
            };
            if let Some(round) = rounds.iter().rev().find(|round| !round.lit.is_empty()) {
                last.clone_from(&round.lit);
            }
            let takes: u32 = rounds.iter().map(|round| round.minutes).sum();
            all.push((now, rounds));
            now += takes;
        }
        Some(all)
    }

    fn ends(&self, lines: &[Line<'a>]) -> Option<u32> {
        let run = self.run(lines)?;
        let (starts, rounds) = run.last()?;
        Some(starts + rounds.iter().map(|round| round.minutes).sum::<u32>())
    }

    /// Gives spare minutes to the lines, a minute a round in turn, up to their usual time.
    fn stretch(&self, lines: &mut [Line<'a>]) {
        let pauses = breaks(self.ask.minutes) * BREAK;
        let kept = pauses + late(self.ask.minutes);
        let latest = self.ask.starts + self.ask.minutes.saturating_sub(kept);
        loop {
            let mut stretched = false;
            for at in 0..lines.len() {
                if lines[at].minutes >= lines[at].usual {
                    continue;
                }
                lines[at].minutes += 1;
                if self.ends(lines).is_some_and(|ends| ends <= latest) {
                    stretched = true;
                } else {
                    lines[at].minutes -= 1;
                }
            }
            if !stretched {
                break;
            }
        }
    }

    /// The table of these lines with their breaks, and how many minutes the paper still takes whoever
    /// wrote least of it while waiting.
    fn put(&self, lines: &[Line<'a>], papers: bool) -> (u32, Laid<'a>) {
        let (ground, all, held) = (self.fill.ground, self.fill.all, self.held);
        let mut lines = lines.to_vec();
        let run = self.run(&lines).unwrap_or_default();
        let takes: Vec<u32> = run.iter().map(|(_, rounds)| total(rounds)).collect();
        pause(&mut lines, &takes, self.ask.minutes);
        let run = self.run(&lines).unwrap_or_default();
        let least: Vec<Line<'a>> = lines
            .iter()
            .map(|line| Line {
                minutes: line.least,
                ..line.clone()
            })
            .collect();
        let least_run = self.run(&least).unwrap_or_default();
        let of_lines: Vec<Vec<usize>> = lines
            .iter()
            .map(|line| match line.what {
                // Cooling stays whatever the hour.
                What::Segment(..) | What::Carousel(_) => {
                    let pieces = self.pieces(line);
                    let stays = |index: &usize| !held.kept.contains(index);
                    if pieces.iter().any(stays) {
                        Vec::new()
                    } else {
                        pieces
                    }
                }
                _ => Vec::new(),
            })
            .collect();
        let drops = self.drops(&lines, &run, &of_lines);
        let mut dark = BTreeSet::new();
        let mut entries = Vec::new();
        let mut taught = 0;
        let on_the_clock = lines.iter().zip(&run).zip(&least_run).enumerate();
        for (at, ((line, (starts, rounds)), (_, least))) in on_the_clock {
            let piece = line.piece().map(|index| &all[index]);
            // Who stands at a flame or rehearses for it cannot teach it: the adults beside it do.
            let turns = piece.is_some_and(Piece::lights_each);
            let teaches = held.teach_back && matches!(line.what, What::Segment(..)) && !turns;
            let entry = Entry {
                what: line.what.clone(),
                starts: *starts,
                minutes: total(rounds),
                least: total(least),
                rounds: rounds
                    .iter()
                    .filter(|round| !(line.flame && round.lit.is_empty()))
                    .count() as u32,
                stations: piece.map_or_else(Vec::new, |piece| piece.places.clone()),
                flame: line.flame,
                burns: piece.map_or(0, |piece| whole(piece.segment.flame_minutes)),
                lights_each: piece.is_some_and(Piece::lights_each),
                teacher: teaches.then_some(taught % ground.learners),
                drop: drops
                    .iter()
                    .position(|other| *other == at)
                    .map(|place| place as u32 + 1),
            };
            taught += u32::from(teaches);
            if let (Some(index), Some(light)) =
                (line.piece(), piece.and_then(|one| one.segment.light))
                && !self.ask.has(light, entry.starts, entry.ends())
            {
                dark.insert(index);
            }
            entries.push(entry);
        }
        let drafts = self.drafts(&lines, run);
        let may = self.may(&lines);
        let filled = beside::fill(ground, all, &drafts, &may, papers);
        let ends = entries.last().map_or(self.ask.starts, Entry::ends);
        let longest = entries
            .iter()
            .zip(&lines)
            .filter(|(entry, _)| entry.flame)
            .max_by_key(|(entry, _)| entry.minutes)
            .and_then(|(_, line)| line.piece());
        let spares: BTreeSet<usize> = filled
            .rows
            .iter()
            .flat_map(|row| &row.places)
            .filter_map(|place| match place.at {
                Spot::Spare(station) => Some(station),
                _ => None,
            })
            .collect();
        let lit = |row: &super::types::Row<'_>| {
            row.places.iter().filter(|place| place.lit).count() as u32
        };
        let table = Timetable {
            name: self.ask.name.clone(),
            date: self.ask.date,
            kind: self.ask.kind,
            focus: self.ask.focus.clone(),
            starts: self.ask.starts,
            length: self.ask.minutes,
            indoors: self.ask.indoors,
            ends,
            // where haste only makes a burner wait until it is cold, the plan as it stands is sooner
            least_ends: least_run
                .last()
                .map_or(ends, |(starts, rounds)| starts + total(rounds))
                .min(ends),
            lit: filled.rows.iter().map(lit).max().unwrap_or(0),
            entries,
            groups: ground.groups.clone(),
            adults: ground.adults,
            rows: filled.rows,
            beside: filled.beside,
            waits: filled.waits,
            spares: spares.into_iter().collect(),
            left_out: Vec::new(),
            exact: held.exact,
        };
        let laid = Laid {
            over: ends.saturating_sub(self.ask.starts + self.ask.minutes),
            table,
            placed: filled.placed,
            dark,
            longest,
        };
        (filled.unwritten, laid)
    }

    /// The lines that may go, the first to go first: breaks, then what lies outside the subjects,
    /// then the subjects with nothing lit, and flames last. Nobody is late for what comes first.
    fn drops(&self, lines: &[Line<'a>], run: &[Run], of_lines: &[Vec<usize>]) -> Vec<usize> {
        let all = self.fill.all;
        let late = |at: &usize| run[*at].0 > self.ask.starts + LATE;
        let class = |index: usize| match (self.ask.aim.rank(&all[index]), all[index].segment.flame)
        {
            (_, true) => 2,
            (Some(_), _) if self.ask.aim.asked => 1,
            _ => 0,
        };
        let worths = self.fill.worths(self.ask);
        let pieces = drops(&worths, &class, all, of_lines, &self.held.fast);
        let breaks = (0..lines.len())
            .rev()
            .filter(|at| lines[*at].what == What::Break);
        breaks.chain(pieces.into_iter().filter(late)).collect()
    }

    /// The rounds of all lines, and whether those without a part are kept busy.
    fn drafts(&self, lines: &[Line<'a>], run: Vec<Run>) -> Vec<Draft> {
        let mut drafts = Vec::new();
        for (entry, (line, (starts, rounds))) in lines.iter().zip(run).enumerate() {
            let (segment, at) = match (&line.what, line.goes) {
                (What::Segment(_, segment), _) => (Some(*segment), line.piece()),
                (What::Check(Some((_, segment))), Goes::Seen(index)) => {
                    (Some(*segment), Some(index))
                }
                _ => (None, None),
            };
            let mut now = starts;
            for round in rounds {
                let minutes = round.minutes;
                drafts.push(Draft {
                    entry,
                    starts: now,
                    round,
                    unlit_at: segment.map_or_else(Vec::new, |one| self.stations_of(one, at)),
                    benches: at.is_some_and(|index| {
                        !self.fill.all[index].wants_a_stove(self.fill.ground.rests.len())
                    }),
                    fuel_open: segment.is_some_and(|one| one.opens_fuel && !line.flame),
                    fills: matches!(line.goes, Goes::Piece(_) | Goes::Watched(_) | Goes::Seen(_)),
                    checks: matches!(line.what, What::Check(_)),
                });
                now += minutes;
            }
        }
        drafts
    }

    /// The stations at which a segment is done with nothing lit; none where it is talked about.
    fn stations_of(&self, segment: &Segment, piece: Option<usize>) -> Vec<usize> {
        let does = matches!(
            segment.kind,
            SegmentKind::DryRun | SegmentKind::DoTogether | SegmentKind::YouDoIt
        );
        match piece {
            Some(index) if does && !self.fill.all[index].cools() => {
                self.fill.all[index].places.clone()
            }
            _ => Vec::new(),
        }
    }

    /// What may be done beside a flame, and the entry after which it may begin: nothing lit, no fuel
    /// open, no need of the clock's own place.
    fn may(&self, lines: &[Line<'a>]) -> Vec<(usize, usize)> {
        let (held, all) = (self.held, self.fill.all);
        let mut may = Vec::new();
        let needed: BTreeSet<usize> = held
            .kept
            .iter()
            .flat_map(|index| all[*index].needs.iter().copied())
            .collect();
        let movable = held.kept.iter().filter(|index| !needed.contains(index));
        for index in held.wanted.iter().chain(movable).chain(&held.open) {
            let piece = &all[*index];
            let segment = piece.segment;
            if segment.flame
                || segment.opens_fuel
                || segment.light.is_some()
                || piece.cools()
                || piece.drills()
                || held.teach_back
                || held.check.is_some()
            {
                continue;
            }
            let at = |need: &usize| {
                let mut lines = lines.iter();
                lines.position(|line| self.pieces(line).contains(need))
            };
            let late = piece.needs.iter().any(|need| {
                at(need).is_none() && (held.wanted.contains(need) || held.open.contains(need))
            });
            if !late {
                let after = piece.needs.iter().filter_map(at).max().unwrap_or(0);
                may.push((*index, after));
            }
        }
        may
    }
}
