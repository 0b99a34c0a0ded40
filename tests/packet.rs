//! A packet in its folder: a narrower run takes nothing away, the index pages tell what lies
//! there, each sheet names the revision that it was made from.

use crate::support::folder::{Folder, files, text};
use std::path::{Path, PathBuf};

/// A short trip, invented.
const TRIP: &str = "\
title: Otter ledge
starts: 2027-06-04
people:
  learners: 6
  instructors: 2
stove: canister on top
water_treatment: filter
emergency:
  call: 555-0117
camps:
  - name: Otter ledge
    nights: 1
    elevation: 900 m
";

fn folder_with(trip: &str) -> Folder {
    Folder::with(&[("otter.yaml", trip)])
}

/// Every link of a page that leads to a file.
fn links(page: &str) -> Vec<String> {
    page.split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|to| !to.starts_with('#'))
        .map(str::to_owned)
        .collect()
}

/// The index pages name each file of the packet, and none that is not there.
fn index_is_true(home: &Path) {
    let mut linked: Vec<PathBuf> = Vec::new();
    for page in ["index.html", "learners/index.html", "staff/index.html"] {
        if !home.join(page).exists() {
            continue;
        }
        let folder = Path::new(page).parent().expect("a folder");
        for to in links(&text(home, page)) {
            let target = home.join(folder).join(&to);
            assert!(target.exists(), "{page} links to {to}, which is not there");
            linked.push(target.canonicalize().expect("a path"));
        }
    }
    for path in files(home).keys().filter(|path| *path != "manifest.json") {
        let path = home.join(path).canonicalize().expect("a path");
        let front = home.join("index.html").canonicalize().expect("a path");
        assert!(
            path == front || linked.contains(&path),
            "{} is on no index",
            path.display()
        );
    }
}

#[test]
fn a_narrower_run_takes_nothing_away_and_the_index_tells_what_lies_there() {
    let folder = folder_with(TRIP);
    let home = folder.join("out/otter");
    folder.good(&["make", "otter.yaml", "--format", "html,md"]);
    let full = files(&home);
    index_is_true(&home);
    folder.good(&[
        "make",
        "otter.yaml",
        "--sheet",
        "briefing-sheet",
        "--format",
        "pdf",
    ]);
    let after = files(&home);
    for (path, bytes) in &full {
        assert!(after.contains_key(path), "{path} is gone");
        let index = path.ends_with("index.html") || path == "manifest.json";
        assert!(index || after[path] == *bytes, "{path} changed");
    }
    assert!(after.contains_key("learners/briefing-sheet.pdf"));
    assert_eq!(after.len(), full.len() + 1);
    index_is_true(&home);
    assert!(!text(&home, "learners/index.html").contains("older than the trip"));
    // a changed trip: what was made before says that it is older
    let more = TRIP.replace("learners: 6", "learners: 4");
    folder.write("otter.yaml", more);
    folder.good(&[
        "make",
        "otter.yaml",
        "--sheet",
        "packing-list",
        "--format",
        "html",
    ]);
    index_is_true(&home);
    let index = text(&home, "learners/index.html");
    assert!(index.contains("older than the trip"), "{index}");
    // four learners and two instructors are two kitchens as before; six people in one are not
    let one = TRIP.replace("learners: 6", "learners: 2");
    folder.write("otter.yaml", one);
    folder.good(&["make", "otter.yaml", "--format", "html"]);
    let left = files(&home);
    assert!(
        !left.contains_key("learners/packing-list-kitchen-2.html"),
        "a kitchen that is no more"
    );
    index_is_true(&home);
}

#[test]
fn each_sheet_names_the_revision_that_it_was_made_from() {
    let folder = folder_with(TRIP);
    let home = folder.join("out/otter");
    let run = [
        "make",
        "otter.yaml",
        "--format",
        "html",
        "--sheet",
        "packing-list,intake",
    ];
    folder.good(&run);
    let revision = |path: &str| {
        let page = text(&home, path);
        let (_, rest) = page.split_once("Revision ").expect("a revision");
        rest.split('.').next().expect("an end").to_owned()
    };
    let first = revision("learners/packing-list-kitchen-1.html");
    assert_eq!(first.len(), 6);
    assert_eq!(first, revision("learners/packing-list-kitchen-2.html"));
    assert_eq!(first, revision("staff/intake.html"));
    assert_eq!(first, revision("index.html"));
    // the file's name and comments are no part of what is meant; a person more is
    folder.write("otter.yaml", format!("# a word\n{TRIP}"));
    folder.good(&run);
    assert_eq!(first, revision("staff/intake.html"));
    let more = TRIP.replace("learners: 6", "learners: 7");
    folder.write("otter.yaml", more);
    folder.good(&run);
    assert_ne!(first, revision("staff/intake.html"));
}

#[test]
fn the_front_page_tells_when_who_fuel_and_whom_to_call() {
    let folder = folder_with(TRIP);
    let said = folder.good(&["make", "otter.yaml", "--format", "pdf,html"]);
    let front = text(&folder.join("out/otter"), "index.html");
    for words in [
        "2027-06-04",
        "6 learners",
        "2 instructors",
        "canister",
        "call 555-0117",
        "learners/index.html",
        "staff/index.html",
    ] {
        assert!(front.contains(words), "the front page lacks `{words}`");
    }
    assert!(
        said.contains("leaves of paper in all") && said.contains("index.html"),
        "{said}"
    );
    let back = text(&folder.join("out/otter"), "learners/index.html");
    assert!(back.contains("../index.html"));
    let sheet = text(&folder.join("out/otter"), "learners/briefing-sheet.html");
    assert!(links(&sheet).contains(&"index.html".to_owned()));
}

#[test]
fn a_bundle_is_bound_with_each_sheet_on_leaves_of_its_own() {
    let folder = folder_with(TRIP);
    let said = folder.good(&["make", "otter.yaml", "--bundle", "field", "--format", "pdf"]);
    assert!(said.contains("packet.pdf"), "{said}");
    let home = folder.join("out/otter");
    index_is_true(&home);
    let book = lopdf::Document::load(home.join("packet.pdf")).expect("a PDF");
    // ISO 32000-1: the outline's entries at the top (12.3.3), the fields' full names (12.7.3.2)
    let catalog = book.catalog().expect("a catalog");
    let dictionary = |of: &lopdf::Dictionary, key: &[u8]| {
        let id = of
            .get(key)
            .and_then(lopdf::Object::as_reference)
            .expect("a reference");
        book.get_dictionary(id).expect("an entry").clone()
    };
    let mut entry = dictionary(&dictionary(catalog, b"Outlines"), b"First");
    let mut titles = Vec::new();
    let pages: Vec<lopdf::ObjectId> = book.get_pages().into_values().collect();
    loop {
        titles
            .push(lopdf::decode_text_string(entry.get(b"Title").expect("a title")).expect("text"));
        let to = entry
            .get(b"Dest")
            .and_then(lopdf::Object::as_array)
            .expect("a place")[0]
            .as_reference();
        let page = pages
            .iter()
            .position(|id| Some(*id) == to.as_ref().ok().copied())
            .expect("a page");
        assert_eq!(
            page % 2,
            0,
            "{titles:?} starts on the back of another sheet"
        );
        if !entry.has(b"Next") {
            break;
        }
        entry = dictionary(&entry, b"Next");
    }
    let order = [
        "Briefing",
        "Packing list: Kitchen 1",
        "Packing list: Kitchen 2",
        "Kitchen card",
    ];
    for (title, start) in titles.iter().zip(order) {
        assert!(title.starts_with(start), "{titles:?}");
    }
    assert_eq!(titles.last().map(String::as_str), Some("Return sheet"));
    let fields = dictionary(catalog, b"AcroForm");
    let fields = fields
        .get(b"Fields")
        .and_then(lopdf::Object::as_array)
        .expect("fields");
    let names: std::collections::BTreeSet<Vec<u8>> = fields
        .iter()
        .map(|field| {
            let field = book
                .get_dictionary(field.as_reference().expect("one"))
                .expect("a field");
            field
                .get(b"T")
                .and_then(lopdf::Object::as_str)
                .expect("a name")
                .to_vec()
        })
        .collect();
    assert!(names.len() > 20);
    assert_eq!(names.len(), fields.len(), "two fields share a name");
    let output = folder.run(&["make", "otter.yaml", "--bundle", "feild"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stderr).contains("did you mean `field`?"));
}

#[test]
fn a_template_that_nothing_reads_and_a_page_that_loses_its_sheet_are_refused() {
    for (path, text, says) in [
        (
            "sheets/breifing-sheet.md",
            "# {{ head.title }}\n",
            "did you mean `templates/sheets/briefing-sheet.md`?",
        ),
        ("page/shell.html", "<main></main>", "does not print `main`"),
    ] {
        let folder = folder_with(TRIP);
        folder.write(&format!("ours/templates/{path}"), text);
        let output = folder.run(&["make", "otter.yaml", "--content", "ours"]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert!(said.contains(says), "{said}");
        assert!(!folder.join("out").exists(), "nothing is written");
    }
}
