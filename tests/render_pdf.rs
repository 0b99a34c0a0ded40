//! The PDF of a document: layout as text, structure, fields, fonts, equal bytes.

mod fields;
mod file;
mod sheets;

use std::collections::BTreeMap;
use std::process::Command;

use leeside::doc::{Align, Block, CardFold, Document, Paper, Signal};
use leeside::render::pdf::{layout_text, pdf};
use sheets::{
    FACES, cards, caution, checklist, everything, figure, heading, long, made, paragraph, table,
    unwieldy,
};

/// What a tool of the system says about a PDF; a tool that is missing fails
/// the test.
fn tool(program: &str, arguments: &[&str], bytes: &[u8]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("sheet.pdf");
    std::fs::write(&file, bytes).expect("a file");
    let mut command = Command::new(program);
    for argument in arguments {
        if *argument == "FILE" {
            command.arg(&file);
        } else {
            command.arg(argument);
        }
    }
    let output = command
        .output()
        .unwrap_or_else(|error| panic!("`{program}` must be installed for this test: {error}"));
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{program}: {said}{errors}");
    assert_eq!(errors, "", "{program} warns");
    said
}

fn large(mut document: Document) -> Document {
    document.style.body_pt = 18.0;
    document.style.caution_pt = 18.0;
    document
}

fn sideways(mut document: Document) -> Document {
    document.style.landscape = true;
    document.style.paper = Paper::A4;
    document
}

fn all_sheets() -> Vec<(&'static str, Document)> {
    vec![
        ("everything", everything()),
        ("everything, large", large(everything())),
        ("everything, sideways", sideways(everything())),
        ("long", long()),
        ("long, large", large(long())),
        ("long, sideways", sideways(long())),
        ("checklist", checklist(21)),
        ("cards, long edge", cards(CardFold::DuplexLongEdge)),
        (
            "cards, short edge",
            sideways(cards(CardFold::DuplexShortEdge)),
        ),
        ("cards, one side", cards(CardFold::SingleSided)),
        ("cards, large", large(cards(CardFold::SingleSided))),
        ("unwieldy", unwieldy()),
        ("unwieldy, large", large(unwieldy())),
    ]
}

fn placed(document: &Document) -> String {
    layout_text(document, &FACES).expect("a layout")
}

fn snapshot(name: &str, document: &Document) {
    insta::with_settings!({prepend_module_to_snapshot => false, snapshot_path => "snapshots"}, {
        insta::assert_snapshot!(name, placed(document));
    });
}

#[test]
fn lines_stand_where_they_stood() {
    snapshot("pdf_every_block", &everything());
    snapshot("pdf_checklist", &checklist(21));
    snapshot("pdf_cards_long_edge", &cards(CardFold::DuplexLongEdge));
    snapshot("pdf_cards_one_side", &cards(CardFold::SingleSided));
}

#[test]
fn qpdf_finds_no_fault() {
    for (name, sheet) in all_sheets() {
        let said = tool("qpdf", &["--check", "FILE"], &made(&sheet).bytes);
        assert!(
            said.contains("No syntax or stream encoding errors"),
            "{name}: {said}"
        );
        assert!(said.contains("PDF Version: 1.7"), "{name}: {said}");
    }
}

#[test]
fn fonts_are_embedded_and_cut_down() {
    for (name, sheet) in all_sheets() {
        let said = tool("pdffonts", &["FILE"], &made(&sheet).bytes);
        let fonts: Vec<&str> = said.lines().skip(2).collect();
        assert!(!fonts.is_empty(), "{name}: no fonts");
        for font in fonts {
            assert!(font.contains("yes yes"), "{name}: {font}");
        }
    }
}

#[test]
fn text_reads_in_document_order() {
    let text = tool(
        "pdftotext",
        &["-raw", "FILE", "-"],
        &made(&everything()).bytes,
    );
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut from = 0;
    for part in [
        "Three nights at Kestrel Tarn",
        "DANGER: Never cook in a closed tent",
        "NOTICE: Ask the land manager",
        "Before the flame",
        "Stove on level ground",
        "Water within reach",
        "9. Weigh the canister:",
        "g. See the fuel table and the notes.",
        "10. Light it.",
        "nothing dry within reach",
        "Breakfast 31.5",
        "1,135.25",
        "Given: water at 4 °C, air at about −10 °C.",
        "Office: café, ½ L, ≥ 3 × 2.",
        "A pot on a burner",
        "Afterwards",
    ] {
        let at = flat[from..]
            .find(part)
            .unwrap_or_else(|| panic!("`{part}` in {}", &flat[from..]));
        from += at + part.len();
    }
}

#[test]
fn structure_follows_the_document() {
    let text = tool(
        "pdfinfo",
        &["-struct-text", "FILE"],
        &made(&everything()).bytes,
    );
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    let mut from = 0;
    for part in [
        "Document",
        "H1 (block)",
        "P (block)",
        "Div",
        "H2 (block)",
        "LI (block)",
        "Lbl (block)",
        "Form",
        "LBody (block)",
        "\"Stove on level ground\"",
        "/ListNumbering /Decimal",
        "\"9.\"",
        "\"Weigh the canister: \"",
        "Form",
        "\" g. See \"",
        "Link (inline)",
        "\"the fuel table\"",
        "\" and the \"",
        "/ListNumbering /Disc",
        "/ListNumbering /Circle",
        "Table (block)",
        "TH:",
        "/Scope /Column",
        "\"Use\"",
        "TH:",
        "/Scope /Row",
        "\"Breakfast\"",
        "TD",
        "\"31.5\"",
        "\"Given: water at 4 °C, air at about −10 °C. Office: café, ½ L, ≥ 3 × 2.\"",
        "Figure:",
    ] {
        let at = lines[from..]
            .iter()
            .position(|line| line.starts_with(part))
            .unwrap_or_else(|| panic!("`{part}` after line {from} of {text}"));
        from += at + 1;
    }
}

#[test]
fn what_crosses_pages_stays_one() {
    let text = tool(
        "pdfinfo",
        &["-struct-text", "FILE"],
        &made(&large(long())).bytes,
    );
    let count = |what: &str| {
        text.lines()
            .filter(|line| line.trim().starts_with(what))
            .count()
    };
    assert_eq!(count("Table"), 1);
    assert_eq!(count("TR"), 61, "a head and sixty rows");
    assert_eq!(count("H2"), 8);
    // one before each caution, one in it, and the foot once at the very end
    assert_eq!(count("P (block)"), 17);
    assert!(text.trim_end().ends_with("\"Invented numbers.\""), "{text}");
}

/// The pages of a layout, each its lines without the foot.
fn pages(document: &Document) -> Vec<Vec<String>> {
    let text = placed(document);
    text.split("== page ")
        .skip(1)
        .map(|page| {
            let lines: Vec<String> = page.lines().skip(1).map(str::to_string).collect();
            let foot = lines
                .iter()
                .position(|line| line.contains(" page ") && line.contains(" of "))
                .expect("a foot");
            lines[..foot - 1].to_vec()
        })
        .collect()
}

#[test]
fn nothing_is_torn_apart() {
    for document in [long(), large(long()), sideways(long())] {
        for (number, page) in pages(&document).iter().enumerate() {
            let texts: Vec<&String> = page.iter().filter(|line| !line.contains("box ")).collect();
            let last = texts.last().expect("a line");
            assert!(
                !last.contains("b Day "),
                "page {number} ends with a heading: {last}"
            );
            let boxes = page.iter().filter(|line| line.contains("box ")).count();
            let count = |what: &str| page.iter().filter(|line| line.contains(what)).count();
            assert_eq!(
                count("WARNING:"),
                boxes,
                "page {number}: a caution is whole"
            );
            assert_eq!(
                count("it broke") + count("page broke"),
                boxes,
                "page {number}"
            );
            let ticks = count("[ ]");
            let ends = page
                .iter()
                .filter(|line| {
                    line.ends_with(" it is here")
                        || line.ends_with(" is here")
                        || line.ends_with(" here")
                })
                .count();
            assert_eq!(ticks, ends, "page {number}: items are whole");
        }
    }
}

#[test]
fn table_heads_come_again() {
    let pages = pages(&long());
    let with_rows: Vec<_> = pages
        .iter()
        .filter(|page| {
            page.iter()
                .any(|line| line.contains("Bag ") && line.contains("oats"))
        })
        .collect();
    assert!(with_rows.len() >= 2);
    for page in with_rows {
        let head = page
            .iter()
            .position(|line| line.contains("Mass, kg"))
            .expect("a head");
        let row = page
            .iter()
            .position(|line| line.contains("oats"))
            .expect("a row");
        assert!(head < row);
    }
}

/// Words with their boxes (left, top, right, bottom), from `pdftotext -bbox`.
fn boxes(bytes: &[u8]) -> Vec<(usize, String, [f64; 4])> {
    let xml = tool("pdftotext", &["-bbox", "FILE", "-"], bytes);
    let mut page = 0;
    let mut found = Vec::new();
    for line in xml.lines() {
        if line.contains("<page ") {
            page += 1;
        }
        let Some(rest) = line.trim().strip_prefix("<word ") else {
            continue;
        };
        let value = |name: &str| -> f64 {
            let start = rest.find(name).expect("a corner") + name.len() + 2;
            let end = start + rest[start..].find('"').expect("its end");
            rest[start..end].parse().expect("a number")
        };
        let corners = [value("xMin"), value("yMin"), value("xMax"), value("yMax")];
        let start = rest.find('>').expect("words") + 1;
        let end = rest.find("</word>").expect("their end");
        found.push((page, rest[start..end].to_string(), corners));
    }
    found
}

#[test]
fn every_word_stays_on_the_page() {
    for (name, sheet) in all_sheets() {
        let (width, height) = match (sheet.style.paper, sheet.style.landscape) {
            (Paper::Letter, false) => (612.0, 792.0),
            (Paper::Letter, true) => (792.0, 612.0),
            (Paper::A4, false) => (595.3, 841.9),
            (Paper::A4, true) => (841.9, 595.3),
        };
        for (page, word, [left, top, right, bottom]) in boxes(&made(&sheet).bytes) {
            let inside =
                left >= 30.0 && top >= 25.0 && right <= width - 30.0 && bottom <= height - 25.0;
            // lists forty deep leave the paper; nothing else does
            let deep = word.contains("deep") || "deeperinnermosttheâ\u{2013}".contains(&word);
            assert!(
                inside || deep,
                "{name}, page {page}: `{word}` at {left} {top} {right} {bottom}"
            );
        }
    }
}

#[test]
fn numbers_line_up_at_the_point() {
    let words = boxes(&made(&everything()).bytes);
    let right = |number: &str| {
        words
            .iter()
            .find(|(_, word, _)| word == number)
            .map(|(_, _, corners)| corners[2])
            .unwrap_or_else(|| panic!("{number}"))
    };
    // the face's figures are all equally wide: 497 of 1000 (its hmtx table)
    let figure = 0.497 * 12.0;
    let point = right("1,135.25") - 2.0 * figure;
    assert!((right("31.5") - figure - point).abs() < 0.1);
    let full_stop = 0.249 * 12.0;
    assert!((right("104") - (point - full_stop)).abs() < 0.1);
}

#[test]
fn equal_documents_give_equal_bytes() {
    let first: Vec<Vec<u8>> = all_sheets()
        .iter()
        .map(|(_, sheet)| made(sheet).bytes)
        .collect();
    let again: Vec<Vec<u8>> = all_sheets()
        .iter()
        .map(|(_, sheet)| made(sheet).bytes)
        .collect();
    assert!(first == again, "the second of a process differs");
    let threads: Vec<_> = (0..4)
        .map(|_| {
            std::thread::spawn(|| -> Vec<Vec<u8>> {
                all_sheets()
                    .iter()
                    .map(|(_, sheet)| made(sheet).bytes)
                    .collect()
            })
        })
        .collect();
    for thread in threads {
        let bytes = thread.join().expect("a thread");
        assert!(first == bytes, "a thread differs");
    }
}

#[test]
fn a_missing_character_is_said_and_seen() {
    let mut sheet = everything();
    sheet.blocks.push(paragraph("Snow ☃ and 火."));
    let made = made(&sheet);
    let said: Vec<String> = made.warnings.iter().map(ToString::to_string).collect();
    assert_eq!(said.len(), 1, "{said:?}");
    for part in ["☃", "U+2603", "火", "U+706B"] {
        assert!(said[0].contains(part), "{said:?}");
    }
    let text = tool("pdftotext", &["FILE", "-"], &made.bytes);
    assert!(!text.contains("Snow  and"), "something is drawn");
    // ISO 14289-1, 7.21.8: no text refers to the glyph for no character
    file::no_notdef(&made.bytes);
}

/// On a card a drawing makes no letter smaller and adds no side: it stands where there is room.
#[test]
fn drawings_stand_where_the_words_leave_room() {
    let card = |items: usize, drawing: Option<f32>| {
        let mut card = checklist(items);
        card.style.drawings_if_room = true;
        card.blocks.extend(drawing.map(figure));
        card
    };
    let full = (8..120)
        .find(|items| layout_text(&card(*items + 1, None), &FACES).is_err())
        .expect("a card that is full");
    assert_eq!(placed(&card(full, Some(300.0))), placed(&card(full, None)));
    // one of few words has it, and its words stand as they stood
    let (with, without) = (placed(&card(8, Some(120.0))), placed(&card(8, None)));
    assert!(with.contains("the steadier") && !without.contains("the steadier"));
    let mut lines = with.lines();
    let stands = without.lines().filter(|line| line.contains("Lid number"));
    assert!(
        stands
            .into_iter()
            .all(|line| lines.any(|other| other == line))
    );
}

#[test]
fn a_sheet_that_is_too_long_is_refused() {
    assert_eq!(made(&checklist(35)).pages, 1, "tightened to one page");
    let problems = pdf(&checklist(120), &FACES).expect_err("too much for a page");
    assert_eq!(problems[0].code, "render.too_long");
    assert!(problems[0].message.contains("Kitchen card"), "{problems:?}");
    assert!(problems[0].help.contains("Moment"), "{problems:?}");
}

#[test]
fn a_card_that_is_too_full_is_refused() {
    let mut sheet = cards(CardFold::DuplexLongEdge);
    sheet.blocks.push(heading(3, "Too much"));
    sheet
        .blocks
        .push(paragraph(&"And then some more. ".repeat(300)));
    let problems = pdf(&sheet, &FACES).expect_err("too much for a card");
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].code, "render.card_full");
    assert!(problems[0].message.contains("Too much"), "{problems:?}");
}

/// Fronts and backs as they meet when the paper is turned: on the long edge of
/// upright paper left and right change, on the short edge top and bottom.
#[test]
fn backs_lie_behind_their_fronts() {
    for (fold, landscape) in [
        (CardFold::DuplexLongEdge, false),
        (CardFold::DuplexShortEdge, false),
        (CardFold::DuplexLongEdge, true),
        (CardFold::DuplexShortEdge, true),
    ] {
        let mut sheet = cards(fold);
        sheet.style.landscape = landscape;
        let (width, height) = if landscape {
            (792.0, 612.0)
        } else {
            (612.0, 792.0)
        };
        let words = boxes(&made(&sheet).bytes);
        let find = |label: &str, number: &str| {
            let at = words
                .windows(2)
                .position(|pair| {
                    pair[0].1 == label && pair[1].1.trim_end_matches([':', '.']) == number
                })
                .unwrap_or_else(|| panic!("{label} {number}"));
            (words[at].0, words[at].2)
        };
        for number in ["1", "2", "5", "11"] {
            let (page, front) = find("Question", number);
            let (behind, back) = find("Answer", number);
            assert_eq!(page % 2, 1, "a front on the first side of a leaf");
            assert_eq!(behind, page + 1);
            let (left, right) = (front[0] < width / 2.0, back[0] < width / 2.0);
            let swaps_sides = (fold == CardFold::DuplexLongEdge) != landscape;
            assert_eq!(left != right, swaps_sides, "{fold:?} {landscape} {number}");
            // the cells' area ends above the foot
            let middle = (height - 30.0) / 2.0;
            if !swaps_sides && number != "5" {
                assert_ne!(
                    front[1] < middle,
                    back[1] < middle,
                    "{fold:?} {landscape} {number}"
                );
            }
        }
    }
}

#[test]
fn a_number_keeps_its_degrees() {
    for width in 1..60 {
        let mut sheet = everything();
        let text = format!("{} and −6 °C, then 50 % of it.", "x".repeat(width));
        sheet.blocks = vec![heading(1, "Degrees"), paragraph(&text)];
        for page in pages(&sheet) {
            for line in page {
                assert!(!line.ends_with("−6") && !line.ends_with("50"), "{line}");
            }
        }
    }
}

#[test]
fn numbers_stay_with_their_units_in_narrow_cells() {
    let long = "so many words that the columns beside it must be as narrow as can be";
    let text = format!(
        "# Key\n\n| Line | What | How | Result |\n|---|---|---|---|\n\
         | 10 | {long} {long} | {long} | 177.2 g |\n| 11 | {long} | {long} {long} | 0.2893 kJ/°C |\n"
    );
    let document = leeside::markdown::read("key", &text, &BTreeMap::new(), sheets::style(), "");
    let said = placed(&document.expect("plain Markdown"));
    for whole in ["177.2\u{a0}g", "0.2893\u{a0}kJ/°C"] {
        assert!(said.contains(whole), "{whole} in {said}");
    }
}

#[test]
fn faces_that_are_none_are_refused() {
    let problems = leeside::render::pdf::Faces::new(b"no", b"font", b"at", b"all")
        .err()
        .expect("no faces");
    assert_eq!(problems.len(), 4);
    assert_eq!(problems[0].code, "render.font");
}

#[test]
fn a_box_round_a_table_goes_over_pages() {
    let rows: Vec<Vec<String>> = (0..80).map(|n| vec![format!("row {n}")]).collect();
    let rows: Vec<Vec<&str>> = rows.iter().map(|row| vec![row[0].as_str()]).collect();
    let rows: Vec<&[&str]> = rows.iter().map(Vec::as_slice).collect();
    let mut sheet = everything();
    sheet.blocks = vec![
        heading(1, "Boxed"),
        Block::Boxed(vec![
            paragraph("Before"),
            table(&[Align::Left], &["Row"], &rows),
            caution(Signal::Notice, "After"),
        ]),
    ];
    let pages = pages(&sheet);
    assert!(pages.len() >= 3);
    for page in &pages {
        assert!(page.iter().any(|line| line.contains("box ")), "{page:?}");
        assert!(page.iter().any(|line| line.ends_with("b Row")), "{page:?}");
    }
}
