//! A season: rows become packets, only what changed is made again, slices come to the same
//! bytes, nothing in a table is run.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A short trip, invented.
const BASE: &str = "\
title: Otter ledge
starts: 2027-06-04
people:
  learners: 3
  instructors: 1
stove: canister on top
water_treatment: filter
canisters_on_hand:
  - tag: F-014
    size: 230 g
    gross: 291 g
    tare: 150 g
    blend: propane 30, isobutane 70
    connection: thread
camps:
  - name: Otter ledge
    nights: 1
    elevation: 900 m
";

const TABLE: &str = "\
departure;base;start date;learners;canisters;emergency call;guide;status
June one;otter;13/06/2027;3;F-014;555-0117;Guide A;
june-two;otter;14/06/2027;4;none;;Guide B;
;;;;;;;
july;otter;02/07/2027;3;;555-0117;=1+1;
";

struct Folder(tempfile::TempDir);

impl Folder {
    fn with(table: &str) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join("otter.yaml"), BASE).expect("written");
        fs::write(folder.path().join("season.csv"), table).expect("written");
        Self(folder)
    }

    fn path(&self) -> PathBuf {
        self.0.path().to_owned()
    }

    fn run(&self, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_leeside"))
            .args(["season", "season.csv"])
            .args(arguments)
            .current_dir(self.0.path())
            .output()
            .expect("the program runs")
    }

    fn good(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.success(), "{said}");
        said
    }
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    fn walk(folder: &Path, prefix: &str, all: &mut BTreeMap<String, Vec<u8>>) {
        for entry in fs::read_dir(folder).expect("a folder").flatten() {
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                walk(&entry.path(), &format!("{name}/"), all);
            } else {
                all.insert(name, fs::read(entry.path()).expect("read"));
            }
        }
    }
    let mut all = BTreeMap::new();
    walk(folder, "", &mut all);
    all
}

fn text(folder: &Path, path: &str) -> String {
    fs::read_to_string(folder.join(path)).expect(path)
}

#[test]
fn rows_become_packets_and_only_what_changed_is_made_again() {
    let folder = Folder::with(TABLE);
    let said = folder.good(&[]);
    assert!(
        said.contains("parted by semicolons") && said.contains("taken as notes: guide"),
        "{said}"
    );
    assert!(said.contains("3 made, 0 as they were"), "{said}");
    let out = folder.path().join("out");
    let first = files(&out);
    for path in [
        "june-one/packet.pdf",
        "june-one/index.html",
        "june-one/learners/briefing-sheet.html",
        "june-two/staff/return-sheet.pdf",
        "july/manifest.json",
        "season/index.html",
        "season/day-list.pdf",
        "season/season.csv",
        "days/2027-06-13.pdf",
        "days/2027-07-02.pdf",
    ] {
        assert!(first.contains_key(path), "{path}: {:?}", first.keys());
    }
    assert!(
        text(&out, "june-one/learners/briefing-sheet.html").contains("June one"),
        "the departure's name"
    );
    let page = text(&out, "season/index.html");
    assert!(
        page.contains("no number to call") && page.contains("Guide B"),
        "what is red, who leads"
    );
    // text that a spreadsheet would run is text there
    assert!(text(&out, "season/season.csv").contains("\"guide: =1+1\""));
    // the same again makes nothing and changes no byte
    let said = folder.good(&[]);
    assert!(said.contains("0 made, 3 as they were"), "{said}");
    assert_eq!(files(&out), first);
    // one row changes: one packet is made again, with a slip; its day is bound again
    fs::write(
        folder.path().join("season.csv"),
        TABLE.replace("14/06/2027;4", "14/06/2027;5"),
    )
    .expect("written");
    let said = folder.good(&[]);
    assert!(said.contains("1 made, 2 as they were"), "{said}");
    let second = files(&out);
    assert!(second.contains_key("june-two/change-slip.pdf"));
    for (path, bytes) in &first {
        let touched = path.starts_with("june-two/")
            || path.starts_with("season/")
            || path == "days/2027-06-14.pdf";
        assert!(touched || second[path] == *bytes, "{path} changed");
    }
    assert_ne!(first["days/2027-06-14.pdf"], second["days/2027-06-14.pdf"]);
    // one is called off: its papers move aside, with what someone laid there
    fs::write(out.join("july/note.txt"), "mine").expect("written");
    fs::write(
        folder.path().join("season.csv"),
        TABLE.replace("=1+1;", "=1+1;cancelled"),
    )
    .expect("written");
    let said = folder.good(&[]);
    assert!(said.contains("withdrawn: july"), "{said}");
    let third = files(&out);
    assert!(
        third.contains_key("withdrawn/july/note.txt") && !third.contains_key("july/packet.pdf")
    );
}

#[test]
fn a_rows_packet_is_what_its_trip_file_makes() {
    let folder = Folder::with("departure,base,learners\nalone,otter,5\n");
    folder.good(&[]);
    let trip = BASE
        .replace("title: Otter ledge", "title: 'Otter ledge: alone'")
        .replace("learners: 3", "learners: 5");
    fs::write(folder.path().join("alone.yaml"), trip).expect("written");
    let made = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args([
            "make",
            "alone.yaml",
            "--bundle",
            "field",
            "--format",
            "pdf,html",
            "--out",
            "one",
        ])
        .current_dir(folder.path())
        .status()
        .expect("the program runs");
    assert!(made.success());
    let (season, one) = (
        files(&folder.path().join("out/alone")),
        files(&folder.path().join("one/alone")),
    );
    assert_eq!(
        season.keys().collect::<Vec<_>>(),
        one.keys().collect::<Vec<_>>()
    );
    for (path, bytes) in season.iter().filter(|(path, _)| *path != "manifest.json") {
        assert_eq!(*bytes, one[path], "{path}");
    }
}

#[test]
fn slices_joined_are_one_run_to_the_byte() {
    let whole = Folder::with(TABLE);
    whole.good(&[]);
    let parts = Folder::with(TABLE);
    parts.good(&["--slice", "2/2"]);
    assert!(
        !parts.path().join("out/season").exists(),
        "a slice writes no season's papers"
    );
    parts.good(&["--slice", "1/2"]);
    parts.good(&["--join"]);
    assert_eq!(
        files(&whole.path().join("out")),
        files(&parts.path().join("out"))
    );
}

#[test]
fn a_bad_row_is_told_and_the_rest_is_made() {
    let table = "departure,base,start date,learners\n\
                 good,otter,2027-06-01,3\n\
                 february,otter,2027-02-31,3\n\
                 nobody,otter,2027-06-02,none\n\
                 lost,otters,2027-06-02,3\n";
    let folder = Folder::with(table);
    let strict = folder.run(&["--strict"]);
    assert_eq!(strict.status.code(), Some(1));
    assert!(files(&folder.path().join("out")).is_empty());
    let output = folder.run(&[]);
    assert_eq!(output.status.code(), Some(1));
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    for words in [
        "departure `february`, row 3",
        "departure `nobody`, row 4",
        "departure `lost`, row 5",
        "1 made",
    ] {
        assert!(said.contains(words), "`{words}` is not in\n{said}");
    }
    assert!(folder.path().join("out/good/packet.pdf").exists());
    let page = text(&folder.path().join("out"), "season/index.html");
    assert!(page.contains("no papers"), "the page tells the truth");
}

#[test]
fn what_is_wrong_with_the_whole_table_is_said_once() {
    for (table, code, help) in [
        (
            "departure,,learners\na,1,2\n",
            "season.heading",
            "write a heading",
        ),
        (
            "departure,lerners\na,1\n",
            "season.heading",
            "did you mean `learners`",
        ),
        (
            "departure,learners,clients\na,1,2\n",
            "season.heading",
            "keep one",
        ),
        ("learners\n3\n", "season.name", "column `departure`"),
        (
            "departure,start date\na,03/04/2027\nb,05/06/2027\n",
            "season.date-order",
            "--dates",
        ),
        (
            "departure,emergency call\na,\"555\nb,2\n",
            "season.cell",
            "one line",
        ),
        ("PK\u{3}\u{4}", "season.table", "CSV UTF-8"),
    ] {
        let folder = Folder::with(table);
        let output = folder.run(&["--base", "otter.yaml"]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert_eq!(said.matches(code).count(), 1, "{code}\n{said}");
        assert!(said.contains(help), "{help}\n{said}");
    }
    // the first hundred problems are told, the rest counted
    let rows: String = (0..250).map(|row| format!("d{row},nobody\n")).collect();
    let folder = Folder::with(&format!("departure,learners\n{rows}"));
    let output = folder.run(&["--base", "otter.yaml"]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(said.matches("error[").count(), 101);
    assert!(
        said.contains("150 more problems"),
        "{}",
        &said[said.len() - 400..]
    );
}

#[test]
fn the_template_and_the_example_are_tables_that_are_read() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let template = leeside::season::template();
    let example = fs::read(root.join("content/seasons/summer-2027.csv")).expect("the example");
    for (name, bytes, count) in [
        ("template", template.into_bytes(), 1),
        ("example", example, 40),
    ] {
        let table = leeside::season::table::read(name, &bytes).expect("a table");
        let season = leeside::season::read(&table, None).expect("a season");
        assert!(season.bad.is_empty(), "{:?}", season.bad);
        assert_eq!(season.departures.len(), count);
    }
}
