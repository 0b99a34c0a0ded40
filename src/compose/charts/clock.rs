//! A session as a line of time: a lane for each place, who is there, and when a stove burns.

use super::Chart;
use super::board::{Board, LEAD, WIDE, room, shortened, solid};
use crate::compose::catalogue::text;
use crate::compose::view::Inputs;
use crate::compose::view::hours::hour;
use crate::compose::view::lesson_rotation::spot;
use crate::course::timetable::{Row, Spot, Timetable};
use crate::doc::{Anchor, Fill, Pen};
use crate::phrase::phrase;
use std::collections::BTreeSet;

/// The most room that the names of places get.
const NAMES: f32 = 104.0;
/// Height of a bar.
const BAR: f32 = 14.0;
/// From one lane to the next.
const PITCH: f32 = 18.0;
/// Height of the black edge of a bar at whose place a stove burns.
const FLAME: f32 = 3.5;
/// Where the first lane begins, under the hours.
const TOP: f32 = 18.0;
/// At most so many hours are named.
const MOST_HOURS: u32 = 8;

/// What goes on at a place without a change.
struct Bar {
    starts: u32,
    ends: u32,
    lit: bool,
    entry: usize,
    who: String,
}

/// A session with several places; none where all are together from start to end.
#[must_use]
pub fn clock(inputs: &Inputs<'_>, table: &Timetable<'_>, number: usize) -> Option<Chart> {
    let until = table.rows.iter().map(Row::ends).max()?;
    let places = table.rows.iter().flat_map(|row| &row.places);
    let spots: BTreeSet<Spot> = places.map(|place| place.at).collect();
    if spots.len() < 2 || until <= table.starts {
        return None;
    }
    let lanes: Vec<(String, Vec<Bar>)> = spots
        .into_iter()
        .map(|at| (named(inputs, at), bars(table, at)))
        .collect();
    let names = lanes.iter().map(|(name, _)| room(name));
    let left = names.fold(0.0, f32::max).min(NAMES) + 8.0;
    let wide = WIDE - left - 2.0;
    let per_minute = wide / (until - table.starts) as f32;
    let across = |minute: u32| left + (minute - table.starts) as f32 * per_minute;
    let mut board = Board::default();
    let free = table.lit > 0;
    let foot = TOP + PITCH * (lanes.len() + usize::from(free)) as f32;
    hours(&mut board, table.starts, until, foot, &across);
    let mut y = TOP;
    for (name, bars) in &lanes {
        let name = shortened(name, left - 8.0);
        board.words((left - 6.0, y + BAR - 3.5), Anchor::End, false, &name);
        for bar in bars {
            let (from, to) = (across(bar.starts), across(bar.ends));
            board.block(from, y, to - from, BAR, Fill::White);
            if bar.lit {
                board.block(from, y, to - from, FLAME, Fill::Black);
            }
            if room(&bar.who) + 2.0 <= to - from {
                let middle = 0.5 * (from + to);
                board.words((middle, y + BAR - 2.0), Anchor::Middle, false, &bar.who);
            }
        }
        y += PITCH;
    }
    if free {
        board.words(
            (left - 6.0, y + BAR - 3.5),
            Anchor::End,
            true,
            &text(&phrase!("chart-adults-free")),
        );
        for (starts, ends, adults) in free_adults(table) {
            let middle = 0.5 * (across(starts) + across(ends));
            let count = adults.to_string();
            if room(&count) + 2.0 <= across(ends) - across(starts) {
                board.words((middle, y + BAR - 3.5), Anchor::Middle, true, &count);
            }
        }
        y += PITCH;
        board.block(left, y, 24.0, BAR, Fill::White);
        board.block(left, y, 24.0, FLAME, Fill::Black);
        board.words(
            (left + 30.0, y + BAR - 3.5),
            Anchor::Start,
            false,
            &text(&phrase!("chart-burns-here")),
        );
        y += LEAD + 4.0;
    }
    let lines = lanes.iter().map(|(name, bars)| told(name, bars)).collect();
    Some(Chart::new(
        format!("clock-{number}"),
        text(&phrase!(
            "chart-clock",
            from = hour(table.starts),
            until = hour(until)
        )),
        phrase!("chart-clock-about"),
        lines,
        board,
        y + 2.0,
    ))
}

/// The hours, and a thin line down from each.
fn hours(board: &mut Board, from: u32, until: u32, foot: f32, across: &dyn Fn(u32) -> f32) {
    let span = until - from;
    let steps = [5, 10, 15, 30, 60, 120, 240, 480];
    let step = steps.into_iter().find(|step| span / step < MOST_HOURS);
    let step = step.unwrap_or(span.max(1));
    for at in (from.div_ceil(step)..=until / step).map(|count| count * step) {
        let x = across(at);
        let half = 0.5 * room("00:00");
        let middle = x.clamp(half, WIDE - half);
        board.words((middle, 9.0), Anchor::Middle, false, &hour(at));
        let thin = Pen {
            dash: vec![1.0, 2.0],
            ..solid(0.4)
        };
        board.line(&[(x, TOP - 5.0), (x, foot)], thin);
    }
}

/// What goes on at one place.
fn bars(table: &Timetable<'_>, at: Spot) -> Vec<Bar> {
    let mut bars: Vec<Bar> = Vec::new();
    for row in &table.rows {
        for place in row.places.iter().filter(|place| place.at == at) {
            let who = table.label(&place.learners);
            match bars.last_mut() {
                Some(last)
                    if last.ends == row.starts
                        && last.lit == place.lit
                        && last.entry == row.entry
                        && last.who == who =>
                {
                    last.ends = row.ends();
                }
                _ => bars.push(Bar {
                    starts: row.starts,
                    ends: row.ends(),
                    lit: place.lit,
                    entry: row.entry,
                    who,
                }),
            }
        }
    }
    bars
}

/// How many adults have no stove while one burns, as long as their number stays.
fn free_adults(table: &Timetable<'_>) -> Vec<(u32, u32, u32)> {
    let mut found: Vec<(u32, u32, u32)> = Vec::new();
    for row in &table.rows {
        if !row.places.iter().any(|place| place.lit) {
            continue;
        }
        match found.last_mut() {
            Some((_, ends, adults)) if *ends == row.starts && *adults == row.free_adults => {
                *ends = row.ends();
            }
            _ => found.push((row.starts, row.ends(), row.free_adults)),
        }
    }
    found
}

/// A place as its lane is named.
fn named(inputs: &Inputs<'_>, at: Spot) -> String {
    match at {
        Spot::Line => text(&phrase!("chart-all-or-line")),
        at => spot(inputs, at),
    }
}

/// A lane in words.
fn told(name: &str, bars: &[Bar]) -> String {
    let parts: Vec<String> = bars
        .iter()
        .map(|bar| {
            let (from, until) = (hour(bar.starts), hour(bar.ends));
            text(&if bar.lit {
                phrase!("chart-bar-lit", from = from, until = until, who = bar.who)
            } else {
                phrase!("chart-bar", from = from, until = until, who = bar.who)
            })
        })
        .collect();
    format!("{name}: {}", parts.join("; "))
}
