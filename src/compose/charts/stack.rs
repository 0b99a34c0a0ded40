//! The stove with its pot from the side, to scale: the push that tips it, then the tilt.

use super::Chart;
use super::board::{Board, LEAD, WIDE, dashed, solid};
use crate::compose::catalogue::text;
use crate::compose::view::{Inputs, OneKitchen};
use crate::compose::words;
use crate::doc::{Anchor, Fill};
use crate::phrase::phrase;
use crate::plan::stack_outline;
use crate::units::{Length, say};

/// The most height that the stack itself takes.
const HIGH: f32 = 190.0;

/// The most width.
const BROAD: f32 = 190.0;

/// A kitchen's least stable pot on its stove; none where nothing is cooked.
#[must_use]
pub fn stack(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Option<Chart> {
    let stability = one.plan.stability.as_ref()?;
    let sizes = stack_outline(inputs.trip, inputs.library, inputs.plan, one.index)?;
    let under = sizes.canister.map_or(Length::ZERO, |(_, height)| height);
    let foot_of_pot = under + sizes.burner;
    let height = sizes.rim();
    let widest = [sizes.base * 2.0, sizes.pot.0]
        .into_iter()
        .fold(Length::ZERO, Length::max);
    let (tall, broad) = (height.in_millimetres(), widest.in_millimetres());
    if tall <= 0.0 || broad <= 0.0 {
        return None;
    }
    let scale = (HIGH / tall as f32).min(BROAD / broad as f32);
    let size = |length: Length| length.in_millimetres() as f32 * scale;
    let mut board = Board::default();
    let middle = 0.5 * WIDE;
    let ground = size(height) + 34.0;
    let up = |length: Length| ground - size(length);
    let base = size(sizes.base);
    let half = 0.5 * size(sizes.pot.0);
    let right = middle + half.max(base) + 26.0;
    board.line(
        &[(middle - 130.0, ground), (right - 10.0, ground)],
        solid(1.5),
    );
    if let Some((wide, high)) = sizes.canister {
        board.block(
            middle - 0.5 * size(wide),
            up(high),
            size(wide),
            size(high),
            Fill::White,
        );
    }
    let plate = 0.3 * size(sizes.pot.0);
    if sizes.legs {
        for side in [-1.0, 1.0] {
            board.line(
                &[
                    (middle + side * plate * 0.5, up(foot_of_pot)),
                    (middle + side * base, ground),
                ],
                solid(2.0),
            );
        }
        board.block(
            middle - 5.0,
            up(sizes.burner),
            10.0,
            0.5 * size(sizes.burner),
            Fill::Hatched,
        );
    } else if sizes.canister.is_some() {
        board.block(
            middle - 6.0,
            up(foot_of_pot),
            12.0,
            size(sizes.burner),
            Fill::Hatched,
        );
    } else {
        board.block(
            middle - base,
            up(sizes.burner),
            2.0 * base,
            size(sizes.burner),
            Fill::Hatched,
        );
    }
    board.line(
        &[
            (middle - plate, up(foot_of_pot)),
            (middle + plate, up(foot_of_pot)),
        ],
        solid(2.0),
    );
    board.block(
        middle - half,
        up(height),
        2.0 * half,
        size(sizes.pot.1),
        Fill::White,
    );
    let water = up(foot_of_pot + sizes.water);
    board.line(
        &[(middle - half, water), (middle + half, water)],
        dashed(0.75),
    );
    // The centre of mass, and the edge over which it goes.
    let centre = (middle, up(sizes.centre));
    let edge = (middle + base, ground);
    board.line(&[edge, (edge.0, up(sizes.centre) - 12.0)], dashed(0.75));
    board.line(&[edge, centre], dashed(0.75));
    board.circle(centre, 4.0, solid(1.0), Fill::White);
    board.circle(centre, 1.5, solid(0.0), Fill::Black);
    // The push at the rim.
    let rim = up(height) + 4.0;
    board.arrow((middle - half - 46.0, rim), (middle - half - 1.0, rim));
    let push = words::push_words(stability.rim_push);
    let tilt = format!(
        "{}\u{b0}",
        say::number(stability.tip_angle_worst.in_degrees(), 0)
    );
    let (force, weight) = push
        .split_once(" (")
        .map_or((push.as_str(), ""), |(force, rest)| {
            (force, rest.trim_end_matches(')'))
        });
    let left = middle - half.max(base) - 52.0;
    board.words(
        (left, rim + 1.0),
        Anchor::End,
        true,
        &text(&phrase!("chart-push-of", force = force)),
    );
    board.words((left, rim + 1.0 + LEAD), Anchor::End, false, weight);
    board.words(
        (left, rim + 1.0 + 2.0 * LEAD),
        Anchor::End,
        false,
        &text(&phrase!("chart-at-the-rim")),
    );
    // Names at the right, clear of the stack.
    let mut named = vec![
        (
            0.5 * (up(height) + water),
            phrase!("chart-pot"),
            middle + half,
        ),
        (water, phrase!("chart-water-in-pot"), middle + half),
        (centre.1, phrase!("chart-centre-of-mass"), middle + 5.0),
    ];
    if let Some((wide, high)) = sizes.canister {
        named.push((
            up(high * 0.5),
            phrase!("chart-canister"),
            middle + 0.5 * size(wide),
        ));
    }
    named.sort_by(|a, b| a.0.total_cmp(&b.0));
    let tips = phrase!("chart-tips-when-tilted", tilt = tilt);
    named.push((ground - 12.0, tips.clone(), edge.0));
    let wishes: Vec<f32> = named.iter().map(|one| one.0).collect();
    let places = super::board::spread_out(&wishes, LEAD, 10.0, ground + 4.0);
    for ((from, name, edge_x), place) in named.iter().zip(places) {
        board.line(&[(*edge_x, *from), (right - 4.0, place)], solid(0.4));
        let bold = *name == tips;
        board.words((right, place + 3.5), Anchor::Start, bold, &text(name));
    }
    let pot = one.kitchen.pots.get(stability.pot)?;
    let of = |what: &str, words: String| inputs.of_kitchen(one, what, words);
    let lines = vec![
        text(&phrase!("chart-tipping-push", push = of("push", push))),
        text(&phrase!("chart-tipping-tilt", tilt = of("tilt", tilt))),
        text(&phrase!(
            "chart-rim-height",
            height = of("rim-height", say::small_length(height, inputs.units))
        )),
        text(&phrase!(
            "chart-base",
            base = of("base", say::small_length(sizes.base, inputs.units))
        )),
    ];
    Some(Chart::new(
        format!("stack-{}", one.index + 1),
        text(&phrase!(
            "chart-stack",
            kitchen = one.kitchen.name,
            pot = pot,
            stove = one.kitchen.stove.name
        )),
        phrase!("chart-stack-about"),
        lines,
        board,
        ground + 12.0,
    ))
}
