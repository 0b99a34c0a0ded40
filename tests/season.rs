//! A season: rows become packets, only what changed is made again, slices come to the same
//! bytes, nothing in a table is run.

use crate::support::folder::{Folder, files, text};
use leeside::render::xlsx;
use std::fs;
use std::path::Path;
use std::process::Output;

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

fn folder_with(table: &str) -> Folder {
    Folder::with(&[("otter.yaml", BASE), ("season.csv", table)])
}

fn season(folder: &Folder, arguments: &[&str]) -> Output {
    folder.run(&[&["season", "season.csv"], arguments].concat())
}

fn good(folder: &Folder, arguments: &[&str]) -> String {
    folder.good(&[&["season", "season.csv"], arguments].concat())
}

#[test]
fn rows_become_packets_and_only_what_changed_is_made_again() {
    let folder = folder_with(TABLE);
    let said = good(&folder, &[]);
    assert!(
        said.contains("parted by semicolons") && said.contains("taken as notes: guide"),
        "{said}"
    );
    assert!(said.contains("3 made, 0 as they were"), "{said}");
    let out = folder.join("out");
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
        "weeks/2027-06-28.pdf",
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
    let said = good(&folder, &[]);
    assert!(said.contains("0 made, 3 as they were"), "{said}");
    assert_eq!(files(&out), first);
    // one row changes: one packet is made again, with a slip; its day is bound again
    folder.write("season.csv", TABLE.replace("14/06/2027;4", "14/06/2027;5"));
    let said = good(&folder, &[]);
    assert!(said.contains("1 made, 2 as they were"), "{said}");
    let second = files(&out);
    assert!(second.contains_key("june-two/change-slip.pdf"));
    for (path, bytes) in &first {
        let touched = path.starts_with("june-two/")
            || path.starts_with("season/")
            || path == "days/2027-06-14.pdf"
            || path == "weeks/2027-06-14.pdf";
        assert!(touched || second[path] == *bytes, "{path} changed");
    }
    assert_ne!(first["days/2027-06-14.pdf"], second["days/2027-06-14.pdf"]);
    // one is called off: its papers move aside, with what someone laid there
    fs::write(out.join("july/note.txt"), "mine").expect("written");
    folder.write("season.csv", TABLE.replace("=1+1;", "=1+1;cancelled"));
    let said = good(&folder, &[]);
    assert!(said.contains("withdrawn: july"), "{said}");
    let third = files(&out);
    assert!(
        third.contains_key("withdrawn/july/note.txt") && !third.contains_key("july/packet.pdf")
    );
}

#[test]
fn a_rows_packet_is_what_its_trip_file_makes() {
    let folder = folder_with("departure,base,learners\nalone,otter,5\n");
    good(&folder, &[]);
    let trip = BASE
        .replace("title: Otter ledge", "title: 'Otter ledge: alone'")
        .replace("learners: 3", "learners: 5");
    folder.write("alone.yaml", trip);
    let make = "make alone.yaml --bundle field --format pdf,html --out one";
    folder.good(&make.split(' ').collect::<Vec<_>>());
    let (season, one) = (
        files(&folder.join("out/alone")),
        files(&folder.join("one/alone")),
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
    let whole = folder_with(TABLE);
    good(&whole, &[]);
    let parts = folder_with(TABLE);
    good(&parts, &["--slice", "2/2"]);
    assert!(
        !parts.join("out/season").exists(),
        "a slice writes no season's papers"
    );
    good(&parts, &["--slice", "1/2"]);
    parts.good(&["season", "join", "season.csv"]);
    assert_eq!(files(&whole.join("out")), files(&parts.join("out")));
}

#[test]
fn a_bad_row_is_told_and_the_rest_is_made() {
    let table = "departure,base,start date,learners\n\
                 good,otter,2027-06-01,3\n\
                 february,otter,2027-02-31,3\n\
                 nobody,otter,2027-06-02,none\n\
                 lost,otters,2027-06-02,3\n";
    let folder = folder_with(table);
    let strict = season(&folder, &["--strict"]);
    assert_eq!(strict.status.code(), Some(1));
    assert!(files(&folder.join("out")).is_empty());
    let output = season(&folder, &[]);
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
    assert!(folder.join("out/good/packet.pdf").exists());
    let page = text(&folder.join("out"), "season/index.html");
    assert!(page.contains("no papers"), "the page tells the truth");
}

#[test]
fn an_offices_export_is_read_as_it_is() {
    // a note of two lines, a sign that no printer has, a trip file named as people write it
    let table = "Departure;Base;Start date;Learners;Instructors;Guide notes\r\n\
                 gull;Otter;2027-06-04;3;1;\"call first;\r\n\"\"Kim\"\" has the key\"\r\n\
                 tern;otter;2027-06-05;3;1;b\u{7}ell\r\n\
                 skua;Otter;2027-06-06;five;1;\r\n";
    let folder = folder_with(table);
    let output = season(&folder, &[]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    for words in [
        "2 made",
        "line breaks in cells are taken as spaces (row 2)",
        "control characters in cells are taken as spaces (row 3)",
        "departure `skua`, row 4, column D (Learners)",
    ] {
        assert!(said.contains(words), "`{words}` is not in\n{said}");
    }
    let sheet = text(&folder.join("out"), "season/season.csv");
    assert!(
        sheet.contains("call first; \"\"Kim\"\" has the key"),
        "{sheet}"
    );
    // the party is the row's, the kitchens still those of the trip file: what to write in the table
    let kitchens = BASE.replace("stove:", "kitchens:\n  - name: Blue\n    people: 4\nstove:");
    folder.write("otter.yaml", kitchens);
    folder.write("season.csv", "departure,base,learners\ngull,otter,5\n");
    let said = String::from_utf8_lossy(&season(&folder, &[]).stderr).into_owned();
    assert!(
        said.contains("for this departure alone: a column `kitchens`"),
        "{said}"
    );
    folder.write(
        "season.csv",
        "departure,base,learners,kitchens\ngull,otter,5,Blue 6\n",
    );
    good(&folder, &[]);
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
        ("PK\u{3}\u{4}", "season.workbook", "CSV UTF-8"),
    ] {
        let folder = folder_with(table);
        let output = season(&folder, &["--base", "otter.yaml"]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert_eq!(said.matches(code).count(), 1, "{code}\n{said}");
        assert!(said.contains(help), "{help}\n{said}");
    }
    // the first hundred problems are told, the rest counted
    let rows: String = (0..250).map(|row| format!("d{row},nobody\n")).collect();
    let folder = folder_with(&format!("departure,learners\n{rows}"));
    let output = season(&folder, &["--base", "otter.yaml"]);
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

/// A table of text as a workbook.
fn workbook(table: &str) -> Vec<u8> {
    let mut lines = table.lines().map(|line| line.split(';').map(str::to_owned));
    let heads = lines.next().expect("headings");
    let sheet = xlsx::Sheet {
        name: "Summer".to_owned(),
        heads: heads.map(|head| (head, 16)).collect(),
        rows: lines.map(Iterator::collect).collect(),
        red: None,
    };
    xlsx::workbook(&[
        sheet.clone(),
        xlsx::Sheet {
            name: "Else".to_owned(),
            ..sheet
        },
    ])
    .expect("a workbook")
}

#[test]
fn a_workbook_is_the_table_that_it_holds() {
    let folder = folder_with(TABLE);
    good(&folder, &[]);
    let text = folder.files("out");
    folder.write("season.xlsx", workbook(TABLE));
    let said = folder.good(&["season", "season.xlsx", "--out", "book"]);
    assert!(
        said.contains("its sheet `Summer` is read") && said.contains("are not: Else"),
        "{said}"
    );
    assert_eq!(folder.files("book"), text);
    // the crate that reads a workbook is not the one that wrote it: cells come back as they were
    let page = leeside::season::table::read("out", &text["season/season.xlsx"]).expect("a table");
    let heads: Vec<&str> = page.heads.iter().map(|head| head.text.as_str()).collect();
    assert_eq!(heads[..3], ["day", "departure", "trip"]);
    assert_eq!(page.rows.len(), 3);
    assert_eq!(page.rows[2].cells[8].text, "guide: =1+1");
    // a bad cell is told by its place in the spreadsheet
    folder.write(
        "season.xlsx",
        workbook("departure;learners\n;\na;3\nb;3\u{1}x\nc;two\n"),
    );
    let output = folder.run(&["season", "season.xlsx", "--base", "otter.yaml"]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("departure `c`, row 5"), "{said}");
}

#[test]
fn check_and_plan_take_the_table() {
    let folder = folder_with(TABLE);
    let said = folder.good(&["check", "season.csv"]);
    assert!(said.contains("nothing wrong"), "{said}");
    let said = folder.good(&["plan", "season.csv"]);
    let names: Vec<&str> = ["June one", "june-two", "july"]
        .into_iter()
        .filter(|name| said.lines().any(|line| line == *name))
        .collect();
    assert_eq!(names.len(), 3, "{said}");
    let output = folder.run(&["plan", "season.csv", "--json"]);
    let plans: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let (head, rest) = BASE.split_once("canisters_on_hand").expect("a shelf");
    let (_, camps) = rest.split_once("camps:").expect("camps");
    let alone = format!("{head}camps:{camps}").replace("learners: 3", "learners: 4");
    folder.write("alone.yaml", alone);
    let output = folder.run(&["plan", "alone.yaml", "--json"]);
    let alone: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let fuel = |plan: &serde_json::Value| plan["kitchens"][0]["fuel"]["likely_g"].clone();
    assert!(fuel(&alone).is_number());
    assert_eq!(fuel(&plans["departures"][1]["plan"]), fuel(&alone));
    // a bad row is told with its name
    folder.write("season.csv", TABLE.replace("14/06/2027", "31/02/2027"));
    for command in ["check", "plan"] {
        let output = folder.run(&[command, "season.csv"]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert!(said.contains("departure `june-two`, row 3"), "{said}");
    }
}
