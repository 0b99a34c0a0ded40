//! The table of what trips are usually like: whole, quiet on the trips that come with the
//! program, and a group may widen it.

use crate::support::content;
use leeside::nouns::Measure;
use leeside::{check, load};
use std::fs;
use std::path::Path;
use std::process::Command;

/// A trip that is unusual in one thing: it sleeps at 6000 m.
const HIGH: &str = "title: Two nights\npeople:\n  learners: 4\nstove: white gas\nwater_treatment: filter\ncamps:\n  - name: A\n    nights: 1\n    elevation: 6000 m\n";

#[test]
fn every_measure_has_its_range_and_reason() {
    let library = content::library();
    for measure in Measure::ALL {
        let range = library.plausible.get(measure);
        let range = range.unwrap_or_else(|| panic!("{measure} is not in the table"));
        assert!(range.because.ends_with('.'), "{measure}: {}", range.because);
        assert!(range.low.is_some() || range.high.is_some(), "{measure}");
        for bound in [&range.low, &range.high].into_iter().flatten() {
            assert!(range.possible(bound.value), "{measure}: {}", bound.words);
        }
    }
}

#[test]
fn the_trips_that_come_along_are_usual() {
    let library = content::library();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("content/trips");
    let mut trips = 0;
    for path in load::trips_in(&folder).unwrap() {
        let written = load::trip_file(&path).unwrap();
        let (_, warnings) = check::trip(&written, &library).unwrap();
        let unusual: Vec<_> = warnings
            .iter()
            .filter(|one| one.code == "trip.unusual")
            .map(|one| &one.message)
            .collect();
        assert!(unusual.is_empty(), "{}: {unusual:?}", path.display());
        trips += 1;
    }
    assert!(trips > 3, "{trips}");
}

#[test]
fn a_group_may_widen_a_range() {
    let temp = tempfile::tempdir().unwrap();
    let here = temp.path();
    fs::write(here.join("high.yaml"), HIGH).unwrap();
    fs::create_dir(here.join("ours")).unwrap();
    let check = |more: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
            .args(["check", "high.yaml"])
            .args(more)
            .current_dir(here)
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stderr).unwrap()
    };
    assert!(
        check(&[]).contains("warning[trip.unusual]: `6000 m`"),
        "{}",
        check(&[])
    );
    let own = "extends: plausible\nelevation:\n  high: 6500 m\n";
    fs::write(here.join("ours/plausible.yaml"), own).unwrap();
    let widened = check(&["--content", "ours"]);
    assert!(!widened.contains("trip.unusual"), "{widened}");
}
