//! A group's own look: its mark and name on every sheet, from the profile alone.

use crate::support::content;
use leeside::compose::{Engine, Options, compose};
use leeside::diag::{Outcome, report};
use leeside::doc::Shape;
use leeside::nouns::DrawnShape;
use leeside::render::pdf::{Faces, pdf_or_longer};
use leeside::{check, load, plan};

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

#[test]
fn a_groups_mark_is_on_every_sheet() {
    let library = content::library();
    let path = format!(
        "{}/content/trips/kestrel-ten-days.yaml",
        env!("CARGO_MANIFEST_DIR")
    );
    let written = good(load::trip_file(std::path::Path::new(&path)));
    let (trip, _) = good(check::trip(&written, &library));
    let plan = good(plan::plan(&trip, &library));
    let faces = good(Faces::new(
        include_bytes!("../templates/fonts/SourceSans3_400Regular.ttf"),
        include_bytes!("../templates/fonts/SourceSans3_700Bold.ttf"),
        include_bytes!("../templates/fonts/SourceSans3_400Regular_Italic.ttf"),
        include_bytes!("../templates/fonts/SourceSans3_700Bold_Italic.ttf"),
    ));
    let engine = good(Engine::new(&content::templates()));
    // the key's pages are many, and like any other's
    let only = [
        "briefing-sheet",
        "kitchen-checklist",
        "packing-list",
        "study-cards",
        "return-sheet",
    ];
    let options = Options {
        only: only.map(str::to_owned).to_vec(),
        ..Options::default()
    };
    let sheets = good(compose(&trip, &plan, &library, &engine, &options));
    assert!(sheets.len() >= only.len());
    for sheet in &sheets {
        let stem = sheet.file_stem();
        let Some(group) = &sheet.document.group else {
            panic!("{stem} does not say whose it is");
        };
        assert!(
            group.line.starts_with("Fernhollow Outdoor School"),
            "{stem}"
        );
        assert!(group.line.contains("555-0117"), "{stem}");
        let Some(mark) = &group.mark else {
            panic!("{stem} has no mark");
        };
        assert!(mark.shapes.len() > 5 && mark.width <= 72.01 && mark.height <= 26.01);
        assert!(
            mark.shapes
                .iter()
                .all(|shape| !matches!(shape, Shape::Label { .. }))
        );
        let mut without = sheet.document.clone();
        without.group = None;
        let (with, _) = good(pdf_or_longer(&sheet.document, &faces, 1));
        let (without, _) = good(pdf_or_longer(&without, &faces, 1));
        assert_eq!(with.pages, without.pages, "{stem} gets longer by the mark");
        assert!(
            with.bytes.len() > without.bytes.len() + 100,
            "{stem}: nothing is drawn"
        );
    }
}

/// Twice the area of a closed run of corners.
fn twice_the_area(points: &[(f64, f64)]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let pairs = points.iter().zip(next);
    pairs.map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs()
}

/// The picture shows a ring round a triangle that stands on its tip, with a round hole in it,
/// drawn to measure: its areas are those of geometry.
#[test]
fn a_picture_becomes_the_areas_that_it_shows() {
    let folder = tempfile::tempdir().expect("a folder");
    let profiles = folder.path().join("profiles");
    std::fs::create_dir(&profiles).expect("a folder");
    let picture = include_bytes!("support/club.png");
    std::fs::write(profiles.join("club.png"), picture).expect("written");
    std::fs::write(
        profiles.join("club.yaml"),
        "name: Heron Club\nmark: club.png\n",
    )
    .expect("written");
    let library = content::library_over(folder.path());
    let mark = library.profiles["club"].mark.as_ref().expect("a mark");
    assert_eq!((mark.width, mark.height), (120.0, 120.0));
    let areas: Vec<(f64, &str)> = mark
        .shapes
        .iter()
        .map(|shape| match shape {
            DrawnShape::Curve {
                points,
                closed,
                width,
                fill,
                ..
            } => {
                assert!(*closed && *width == 0.0);
                // straight pieces: their ends are the corners
                let corners: Vec<(f64, f64)> = points.iter().copied().step_by(3).collect();
                (twice_the_area(&corners) / 2.0, fill.as_str())
            }
            other => panic!("{other:?} is no area"),
        })
        .collect();
    // what it was drawn by is half as large as its canvas: area and length of the edge of each part
    let circle = |radius: f64| {
        let radius = 2.0 * radius;
        (
            std::f64::consts::PI * radius * radius,
            2.0 * std::f64::consts::PI * radius,
        )
    };
    let (high, half) = (48.0_f64, 48.0_f64 / 2.2);
    let triangle = (high * half, 2.0 * half + 2.0 * high.hypot(half));
    let wished = [
        (circle(27.0), "black"),
        (circle(22.0), "white"),
        (triangle, "black"),
        (circle(4.0), "white"),
    ];
    assert_eq!(areas.len(), wished.len());
    for ((area, fill), ((wish, edge), wished_fill)) in areas.iter().zip(wished) {
        assert_eq!(*fill, wished_fill);
        // an edge is found to half a dot
        assert!((area - wish).abs() < 0.5 * edge, "{area} for {wish}");
    }
}
