//! Folders of a group's own content: laid over each other in order, named on the command line or
//! in the trip file itself.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn leeside(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("the program runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// A folder with a trip and three overlays: `club` and `crew` change one module, each its own part
/// of it; `broken` is one with a slip.
fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (path, text) in [
        (
            "club/modules/greywater.yaml",
            "extends: greywater\ntitle: The club's word on wash water\nsummary: The club says so.\n",
        ),
        (
            "crew/modules/greywater.yaml",
            "extends: greywater\nsummary: The crew says so.\n",
        ),
        (
            "broken/modules/greywater.yaml",
            "extends: greywater\nfacts:\n  distance:\n    valeu: 200 ft\n",
        ),
        (
            "trip.yaml",
            "title: Tarn\npeople:\n  learners: 4\n  instructors: 1\nstove: white gas\nwater_treatment: filter\n\
             organisation:\n  name: Our own club\n  phones: 555-0199\n  sign_off: [Cook]\n\
             notes: The gate is locked at nine\ncontent: [club, crew]\n\
             camps:\n  - name: Tarn\n    nights: 1\n    elevation: 1800 m\n",
        ),
    ] {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text).expect("a file");
    }
    folder
}

#[test]
fn folders_are_laid_over_each_other_in_order() {
    let folder = folder();
    let show = |content: &[&str]| {
        let mut args = vec!["show", "module", "greywater"];
        for folder in content {
            args.extend(["--content", folder]);
        }
        said(&leeside(folder.path(), &args))
    };
    let both = show(&["club", "crew"]);
    assert!(both.contains("The club's word on wash water"), "{both}");
    assert!(both.contains("The crew says so."), "{both}");
    let other = show(&["crew", "club"]);
    assert!(other.contains("The club says so."), "{other}");
    let crew = show(&["crew"]);
    assert!(!crew.contains("The club's word"), "{crew}");
}

#[test]
fn a_trip_brings_its_own_content_notes_and_name() {
    let folder = folder();
    let output = leeside(
        folder.path(),
        &[
            "make",
            "trip.yaml",
            "--format",
            "md",
            "--sheet",
            "briefing-sheet,lesson-handout",
        ],
    );
    assert!(output.status.success(), "{}", said(&output));
    let read = |name: &str| {
        let path = folder.path().join("out/trip/learners").join(name);
        fs::read_to_string(path).expect("the sheet")
    };
    let briefing = read("briefing-sheet.md");
    assert!(
        briefing.contains("- The gate is locked at nine"),
        "{briefing}"
    );
    for words in ["Our own club", "555-0199", "Cook"] {
        assert!(briefing.contains(words), "{words}: {briefing}");
    }
    let handout = read("lesson-handout.md");
    assert!(
        handout.contains("The club's word on wash water"),
        "{handout}"
    );
    let found = leeside(folder.path(), &["check", "trip.yaml"]);
    assert!(found.status.success(), "{}", said(&found));
}

#[test]
fn what_is_wrong_in_a_folder_is_told_in_its_own_file() {
    let folder = folder();
    let path = folder.path().join("trip.yaml");
    let trip = fs::read_to_string(&path).expect("the trip");
    fs::write(&path, trip.replace("[club, crew]", "broken")).expect("the trip");
    for command in ["check", "plan", "make", "why"] {
        let output = leeside(folder.path(), &[command, "trip.yaml"]);
        assert_eq!(
            output.status.code(),
            Some(1),
            "{command}: {}",
            said(&output)
        );
        let told = said(&output);
        assert!(
            told.contains("broken/modules/greywater.yaml:4"),
            "{command}: {told}"
        );
        assert!(
            told.contains("perhaps `value` is meant") || told.contains("value"),
            "{told}"
        );
    }
}
