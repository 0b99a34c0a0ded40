//! Charts: their words keep apart and on the canvas, and they say what the plan says.

use crate::support::content;
use leeside::compose::{Engine, Options, Sheet, compose};
use leeside::diag::{Outcome, report};
use leeside::doc::{Anchor, Figure, Shape};
use leeside::nouns::{FuelKind, Library, Trip};
use leeside::plan::{self, Plan};
use leeside::{check, load};
use std::sync::LazyLock;

static BUILT_IN: LazyLock<(Library, Engine)> =
    LazyLock::new(|| (content::library(), good(Engine::new(&content::templates()))));

/// The demo trips, whose places, names and kitchens differ.
const TRIPS: [&str; 5] = [
    "quillback-ridge",
    "kestrel-ten-days",
    "hoarfrost-basin",
    "three-stoves",
    "boathouse-evening",
];

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

fn made(name: &str) -> (Trip, Plan, Vec<Sheet>) {
    let (library, engine) = &*BUILT_IN;
    let path = format!("{}/content/trips/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
    let written = good(load::trip_file(std::path::Path::new(&path)));
    let (trip, _) = good(check::trip(&written, library));
    let plan = good(plan::plan(&trip, library));
    let options = Options {
        only: [
            "fuel-worksheet-key",
            "lesson-plan",
            "kitchen-checklist",
            "stove-choice",
        ]
        .map(str::to_owned)
        .to_vec(),
        ..Options::default()
    };
    let sheets = good(compose(&trip, &plan, library, engine, &options));
    (trip, plan, sheets)
}

/// Left, right, top and foot of each label, by a mean width of letters.
fn boxes(figure: &Figure) -> Vec<(f32, f32, f32, f32, &str)> {
    figure
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Label {
                at,
                anchor,
                size,
                text,
                ..
            } => {
                let wide = text.chars().count() as f32 * size * 0.48;
                let left = match anchor {
                    Anchor::Start => at.0,
                    Anchor::Middle => at.0 - wide / 2.0,
                    Anchor::End => at.0 - wide,
                };
                Some((left, left + wide, at.1 - 0.7 * size, at.1, text.as_str()))
            }
            _ => None,
        })
        .collect()
}

/// The figures that are charts, not a module's drawings.
fn charts(sheet: &Sheet) -> impl Iterator<Item = &Figure> {
    sheet.figures.values()
}

#[test]
fn words_keep_apart_and_on_the_canvas() {
    let mut seen = 0;
    for name in TRIPS {
        for sheet in &made(name).2 {
            for figure in charts(sheet) {
                seen += 1;
                let of = format!("{name}, {}, {}", sheet.file_stem(), figure.id);
                assert!(figure.width <= 480.0, "{of}");
                assert!(!figure.alt.is_empty() && !figure.caption.is_empty(), "{of}");
                let boxes = boxes(figure);
                for (index, a) in boxes.iter().enumerate() {
                    assert!(
                        a.0 >= 0.0 && a.1 <= figure.width && a.2 >= -1.0 && a.3 <= figure.height,
                        "{of}: `{}` leaves the canvas",
                        a.4
                    );
                    for b in &boxes[index + 1..] {
                        let apart = a.1 <= b.0 || b.1 <= a.0 || a.3 <= b.2 || b.3 <= a.2;
                        assert!(apart, "{of}: `{}` over `{}`", a.4, b.4);
                    }
                }
            }
        }
    }
    assert!(seen > 20, "only {seen} charts");
}

#[test]
fn every_chart_is_called_with_its_numbers_in_words() {
    for name in TRIPS {
        let (trip, plan, sheets) = made(name);
        for sheet in &sheets {
            for figure in charts(sheet) {
                let fence = format!("```figure {}\n- ", figure.id);
                assert!(sheet.markdown.contains(&fence), "{name}: {}", figure.id);
            }
        }
        let key = |id: &str| {
            let keys = sheets
                .iter()
                .filter(|sheet| sheet.name == "fuel-worksheet-key");
            keys.filter(|sheet| sheet.figures.contains_key(id)).count()
        };
        // One key has the trip's comparison; a lesson has no nights to compare.
        assert_eq!(
            key("mass-by-nights"),
            usize::from(plan.nights > 0),
            "{name}"
        );
        let gas = trip
            .kitchens
            .iter()
            .any(|one| one.fuel.kind == FuelKind::Canister);
        assert_eq!(key("canister-pressure") > 0, gas, "{name}");
    }
}

#[test]
fn a_pressure_curve_starts_where_the_cold_table_does() {
    let (trip, plan, _) = made("kestrel-ten-days");
    let mut compared = 0;
    for (index, kitchen) in plan.kitchens.iter().enumerate() {
        let Some(of) = plan::canister_curves(&trip, &plan, index) else {
            continue;
        };
        for curve in &of.curves {
            let row = kitchen
                .cold
                .iter()
                .find(|row| row.camp == curve.camp && row.meal == curve.meal)
                .expect("a row of the same meal");
            let start = curve.points[0].1.in_pascals();
            assert!((start - row.gauge_start.in_pascals()).abs() < 1.0);
            // Vapour drawn from a mixture leaves the heavier gas (Raoult, Rayleigh): never more pressure.
            let falls = |pair: &[(_, leeside::units::Pressure)]| pair[1].1 <= pair[0].1;
            assert!(curve.points.windows(2).all(falls));
            compared += 1;
        }
    }
    assert!(compared > 1);
}

#[test]
fn the_stack_drawn_tips_at_the_tilt_printed() {
    for name in TRIPS {
        let (trip, plan, _) = made(name);
        for (index, kitchen) in plan.kitchens.iter().enumerate() {
            let drawn = plan::stack_outline(&trip, &BUILT_IN.0, &plan, index);
            assert_eq!(drawn.is_some(), kitchen.stability.is_some());
            if let (Some(drawn), Some(said)) = (drawn, &kitchen.stability) {
                // Statics: it tips when the centre of mass stands over the edge.
                let slope = drawn.base.in_metres() / drawn.centre.in_metres();
                let angle = libm::atan(slope).to_degrees();
                assert!(
                    (angle - said.tip_angle_worst.in_degrees()).abs() < 1e-6,
                    "{name}"
                );
            }
        }
    }
}

/// Heavy lines of two points: the levels of gauges, from left to right.
fn levels(figure: &Figure) -> Vec<f32> {
    let level = |shape: &Shape| match shape {
        Shape::Line { points, pen, .. } if points.len() == 2 && pen.width == 2.0 => {
            Some(points[0].1)
        }
        _ => None,
    };
    figure.shapes.iter().filter_map(level).collect()
}

#[test]
fn a_gauge_stands_as_high_as_the_fuel_that_is_left() {
    let mut compared = 0;
    for name in TRIPS {
        let (_, plan, sheets) = made(name);
        for sheet in sheets
            .iter()
            .filter(|sheet| sheet.name == "fuel-worksheet-key")
        {
            let Some(figure) = sheet.figures.get("fuel-gauge") else {
                assert!(plan.nights == 0, "{name}: no gauge");
                continue;
            };
            let of = |kitchen: &&usize| {
                let title = format!("{}:", plan.kitchens[**kitchen].name);
                figure.caption.starts_with(&title)
            };
            let all: Vec<usize> = (0..plan.kitchens.len()).collect();
            let kitchen = *all.iter().find(of).expect("whose gauge it is");
            let nights = plan::fuel_so_far(&plan, kitchen);
            let legs = plan::issues(&plan, &plan.kitchens[kitchen]);
            let mut wished: Vec<f64> = Vec::new();
            for leg in &legs {
                wished.push(if leg.containers.is_empty() {
                    leg.needed.in_grams()
                } else {
                    leg.issued.in_grams()
                });
                let here = leg.from..leg.until;
                let nights = nights.iter().filter(|night| here.contains(&night.camp));
                wished.extend(nights.map(|night| night.left.in_grams()));
            }
            let drawn = levels(figure);
            assert_eq!(drawn.len(), wished.len(), "{name}");
            // equal steps of fuel are equal heights
            let (most, top) = (wished[0], f64::from(drawn[0]));
            let (least, foot) = (
                *wished.last().expect("nights"),
                f64::from(drawn[drawn.len() - 1]),
            );
            for (mass, y) in wished.iter().zip(&drawn) {
                let y_of = foot + (top - foot) * (mass - least) / (most - least);
                assert!(
                    (f64::from(*y) - y_of).abs() < 0.1,
                    "{name}: {mass} g at {y}"
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 20, "only {compared} levels");
}

#[test]
fn bars_of_stoves_are_as_long_as_what_is_carried() {
    for name in TRIPS {
        let (_, plan, sheets) = made(name);
        let sheet = sheets.iter().find(|sheet| sheet.name == "stove-choice");
        let figure = &sheet.expect("the sheet").figures["stoves-at-the-start"];
        let masses: Vec<f64> = plan
            .comparison
            .iter()
            .filter_map(|row| row.carried)
            .map(|carried| carried.start.in_grams())
            .collect();
        // blocks on one height are one bar
        let mut bars: Vec<(f32, f32)> = Vec::new();
        for shape in &figure.shapes {
            if let Shape::Line {
                points,
                closed: true,
                ..
            } = shape
            {
                let (long, y) = (points[1].0 - points[0].0, points[0].1);
                match bars.iter_mut().find(|bar| bar.0 == y) {
                    Some(bar) => bar.1 += long,
                    None => bars.push((y, long)),
                }
            }
        }
        assert!(bars.len() >= masses.len() && masses.len() > 1, "{name}");
        for (bar, mass) in bars.iter().zip(&masses) {
            let share = f64::from(bar.1) / f64::from(bars[0].1);
            assert!((share - mass / masses[0]).abs() < 1e-3, "{name}: {share}");
        }
    }
}
