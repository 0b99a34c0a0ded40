//! The camp's places from above, to scale, with the distances in force and the reader's steps.

use super::Chart;
use super::board::{Board, LEAD, WIDE, dashed, nice_step, solid};
use crate::compose::catalogue::text;
use crate::compose::view::Inputs;
use crate::compose::words;
use crate::doc::{Anchor, Fill, Pen, Shape};
use crate::nouns::{FactValue, Kind, RuleValue};
use crate::phrase::phrase;
use crate::units::{Length, Units, say};

/// The distances in force at a camp.
#[derive(Clone, Debug, PartialEq)]
struct Distances {
    /// The camp from water.
    camp: Option<Length>,
    /// Wash water from water and camp, with the words for the steps.
    wash: Option<(Length, String)>,
    /// Tents, kitchen and food store from one another.
    apart: Option<Length>,
}

/// The places of each camp, one chart for all camps that are alike; none where no distance is
/// in force.
#[must_use]
pub fn places(inputs: &Inputs<'_>) -> Vec<Chart> {
    let mut found: Vec<(Distances, usize, Vec<&str>)> = Vec::new();
    for (index, camp) in inputs.plan.camps.iter().enumerate() {
        let distances = in_force(inputs, index);
        match found.iter_mut().find(|(other, ..)| *other == distances) {
            Some((.., names)) => names.push(&camp.name),
            None => found.push((distances, index, vec![&camp.name])),
        }
    }
    found
        .iter()
        .enumerate()
        .filter_map(|(index, (distances, camp, names))| {
            chart(inputs, index, *camp, distances, names)
        })
        .collect()
}

fn in_force(inputs: &Inputs<'_>, camp: usize) -> Distances {
    let length = |key: &str| match inputs.trip.camps[camp].rules.get(key)?.value {
        RuleValue::Length(length) if length > Length::ZERO => Some(length),
        _ => None,
    };
    let wash = inputs
        .plan
        .greywater
        .iter()
        .find(|one| one.camp == camp && one.steps > 0)
        .map(|one| (one.distance, steps_words(one.steps)));
    Distances {
        // A lesson has no camp to keep from water.
        camp: length("camp.distance").filter(|_| inputs.trip.kind == Kind::Trip),
        wash,
        apart: apart(inputs, camp),
    }
}

/// How far apart tents, kitchen and food store are kept: in bear country, by the fact of the
/// kitchen's own subject.
fn apart(inputs: &Inputs<'_>, camp: usize) -> Option<Length> {
    if inputs.trip.camps[camp].place != "bear-country" {
        return None;
    }
    match inputs
        .module("kitchen-place")?
        .facts
        .get("bear-triangle")?
        .value
    {
        FactValue::Length(length) => Some(length),
        _ => None,
    }
}

fn steps_words(steps: u32) -> String {
    text(&phrase!("chart-steps", steps = steps))
}

/// A distance and its steps, a line each.
fn told(inputs: &Inputs<'_>, length: Length) -> [String; 2] {
    let steps = (length.in_metres() / inputs.trip.step.in_metres()).round();
    [
        say::distance(length, inputs.units),
        steps_words(steps.clamp(0.0, 1e6) as u32),
    ]
}

/// What lies beside the kitchen.
#[derive(Clone, Copy, PartialEq)]
enum Beside {
    Tents,
    FoodStore,
}

/// Metres right of the water's edge and away from the line of the kitchen.
type Spot = (f64, f64);

fn chart(
    inputs: &Inputs<'_>,
    index: usize,
    camp: usize,
    distances: &Distances,
    names: &[&str],
) -> Option<Chart> {
    let wash = distances
        .wash
        .as_ref()
        .map(|(length, _)| length.in_metres());
    let from_water = distances.camp.map(Length::in_metres).or(wash);
    let apart = distances.apart.map(Length::in_metres);
    let kitchen: Spot = (from_water.or(apart)?, 0.0);
    // As far from the camp as from the water.
    let spot: Option<Spot> = wash.map(|far| {
        let beside = kitchen.0 - far;
        let up = libm::sqrt((far * far - beside * beside).max(0.0));
        (far, up.max(0.5 * far))
    });
    let others: Vec<(Spot, Beside)> = apart.map_or_else(Vec::new, |far| {
        let (across, half) = (far * 0.866_025_403_784, far * 0.5);
        vec![
            ((kitchen.0 + across, half), Beside::Tents),
            ((kitchen.0 + across, -half), Beside::FoodStore),
        ]
    });
    let spots = || {
        spot.iter()
            .chain(others.iter().map(|(spot, _)| spot))
            .chain([&kitchen])
    };
    let most = |of: fn(&Spot) -> f64| spots().map(of).fold(0.0, f64::max);
    let (right, above) = (most(|spot| spot.0), most(|spot| spot.1));
    let below = spots().map(|spot| -spot.1).fold(0.0, f64::max);
    let scale = (330.0 / right.max(1.0)).min(210.0 / (above + below).max(1.0)) as f32;
    let shore = 62.0;
    let level = 34.0 + above as f32 * scale;
    let at = |spot: Spot| (shore + spot.0 as f32 * scale, level - spot.1 as f32 * scale);
    let foot = level + (below as f32 * scale).max(2.5 * LEAD) + 16.0;
    let mut board = Board::default();
    water(&mut board, shore, foot);
    let here = at(kitchen);
    let mut lines = Vec::new();
    if let Some(far) = distances
        .camp
        .or(distances.wash.as_ref().map(|(far, _)| *far))
    {
        measured(&mut board, (shore, level), here);
        let words = told(inputs, far);
        let middle = 0.5 * (shore + here.0);
        board.stacked((middle, level + LEAD), Anchor::Middle, &words);
        if distances.camp.is_some() {
            let [far, steps] = &words;
            let far = inputs.of_rule(camp, "camp.distance", far);
            lines.push(text(&phrase!(
                "chart-camp-from-water",
                far = far,
                steps = steps
            )));
        }
    }
    if let (Some(place), Some((far, steps))) = (spot, &distances.wash) {
        let there = at(place);
        let words = vec![say::distance(*far, inputs.units), steps.clone()];
        measured(&mut board, (shore, there.1), there);
        let middle = 0.5 * (shore + there.0);
        board.stacked((middle, there.1 - LEAD - 4.0), Anchor::Middle, &words);
        let to_camp = libm::hypot(place.0 - kitchen.0, place.1 - kitchen.1);
        if (to_camp - far.in_metres()).abs() < 0.02 * far.in_metres() {
            measured(&mut board, here, there);
            let half = (0.5 * (here.0 + there.0), 0.5 * (here.1 + there.1));
            board.stacked((half.0 - 8.0, half.1), Anchor::End, &words);
        }
        board.circle(there, 5.0, dashed(1.0), Fill::Hatched);
        board.words(
            (there.0 + 10.0, there.1 + 3.5),
            Anchor::Start,
            true,
            &text(&phrase!("chart-wash-water")),
        );
        lines.push(text(&phrase!(
            "chart-wash-from-water",
            far = inputs.of_camp(camp, "wash-distance", &words[0]),
            steps = inputs.of_camp(camp, "wash-steps", steps)
        )));
    }
    if let (Some(far), [(tents, _), (food, _)]) = (distances.apart, &others[..]) {
        let (tents, food) = (at(*tents), at(*food));
        for (a, b) in [(here, tents), (here, food), (tents, food)] {
            measured(&mut board, a, b);
        }
        let [far, steps] = told(inputs, far);
        let words = [
            far.clone(),
            steps.clone(),
            text(&phrase!("chart-each-side")),
        ];
        let inside = (here.0 + 0.62 * (tents.0 - here.0), level - 0.5 * LEAD);
        board.stacked(inside, Anchor::Middle, &words);
        lines.push(text(&phrase!(
            "chart-apart",
            far = inputs.say("fact.kitchen-place.bear-triangle", far),
            steps = steps
        )));
    }
    for (place, beside) in &others {
        let (x, y) = at(*place);
        let name = if *beside == Beside::Tents {
            board.outline(
                &[(x - 9.0, y + 6.0), (x, y - 8.0), (x + 9.0, y + 6.0)],
                Fill::White,
            );
            phrase!("chart-tents")
        } else {
            board.block(x - 6.0, y - 6.0, 12.0, 12.0, Fill::White);
            phrase!("chart-food-store")
        };
        board.words((x + 13.0, y + 3.5), Anchor::Start, true, &text(&name));
    }
    board.block(here.0 - 6.0, here.1 - 6.0, 12.0, 12.0, Fill::Black);
    let name_at = if others.is_empty() {
        ((here.0 + 10.0, here.1 + 3.5), Anchor::Start)
    } else {
        ((here.0 - 2.0, here.1 + 18.0 + 2.0 * LEAD), Anchor::Middle)
    };
    let kitchen = text(&phrase!("chart-kitchen"));
    board.words(name_at.0, name_at.1, true, &kitchen);
    let end = scale_bar(inputs, &mut board, scale, foot + 14.0);
    let names: Vec<String> = names.iter().map(|&name| name.to_owned()).collect();
    let camps = words::list(&names);
    let caption = if others.is_empty() {
        phrase!("chart-places", camps = camps)
    } else {
        phrase!("chart-places-apart", camps = camps)
    };
    Some(Chart::new(
        format!("camp-places-{}", index + 1),
        text(&caption),
        phrase!("chart-places-about"),
        lines,
        board,
        end,
    ))
}

/// The water's edge as a wave, with its name.
fn water(board: &mut Board, shore: f32, foot: f32) {
    let top = 8.0;
    let waves = 6;
    let step = (foot - top) / waves as f32;
    let mut points = vec![(shore, top)];
    for index in 0..waves {
        let y = top + index as f32 * step;
        let side = if index % 2 == 0 { -4.0 } else { 4.0 };
        points.push((shore + side, y + step / 3.0));
        points.push((shore + side, y + 2.0 * step / 3.0));
        points.push((shore, y + step));
    }
    board.shapes.push(Shape::Curve {
        points,
        closed: false,
        pen: solid(1.5),
        fill: Fill::None,
    });
    board.words(
        (shore - 10.0, 0.5 * (top + foot)),
        Anchor::End,
        true,
        &text(&phrase!("chart-water")),
    );
}

/// A thin dashed line between two places.
fn measured(board: &mut Board, from: (f32, f32), to: (f32, f32)) {
    board.line(
        &[from, to],
        Pen {
            width: 0.6,
            dash: vec![3.0, 2.0],
        },
    );
}

/// A bar of a round length; gives the height of the whole drawing.
fn scale_bar(inputs: &Inputs<'_>, board: &mut Board, scale: f32, y: f32) -> f32 {
    let feet = inputs.units == Units::Us;
    let unit = if feet { 0.3048 } else { 1.0 };
    let step = nice_step(f64::from(WIDE / scale) / unit, 5.0);
    let long = (step * unit) as f32 * scale;
    let x = 62.0;
    board.block(x, y, long, 3.0, Fill::Black);
    let words = say::distance(Length::metres(step * unit), inputs.units);
    board.words((x + long + 6.0, y + 5.0), Anchor::Start, false, &words);
    y + 12.0
}
