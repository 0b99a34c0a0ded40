//! A group's own look: its mark and name on every sheet, from the profile alone.

use crate::support::content;
use leeside::compose::{Engine, Options, compose};
use leeside::diag::{Outcome, report};
use leeside::doc::Shape;
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
