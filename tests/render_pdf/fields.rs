//! What is filled in on a screen, and links: tagged, named, leading somewhere.

use super::sheets::{everything, made};
use super::{all_sheets, file, tool};
use leeside::doc::{Block, Inline};

#[test]
fn fields_and_links_belong_to_the_structure() {
    for (_, sheet) in all_sheets() {
        file::annotations_are_tagged(&made(&sheet).bytes);
    }
    let fields = file::fields(&made(&everything()).bytes);
    let tips: Vec<&str> = fields.iter().map(|(_, tip)| tip.as_str()).collect();
    assert!(tips.contains(&"Stove on level ground"), "{tips:?}");
    assert!(tips.contains(&"Left over, g: Breakfast"), "{tips:?}");
    assert!(tips.contains(&"Done: All"), "{tips:?}");
}

#[test]
fn each_field_of_a_line_has_its_own_words() {
    let mut sheet = everything();
    sheet.blocks.push(Block::Paragraph(vec![
        Inline::Text("Wind ".to_string()),
        Inline::Tick,
        Inline::Text(" calm ".to_string()),
        Inline::Tick,
        Inline::Text(" breezy; said by ".to_string()),
        Inline::Blank(12),
    ]));
    let fields = file::fields(&made(&sheet).bytes);
    let tips: Vec<&str> = fields.iter().map(|(_, tip)| tip.as_str()).collect();
    for tip in ["calm", "breezy; said by"] {
        assert!(tips.contains(&tip), "{tips:?}");
    }
}

#[test]
fn a_link_that_leads_nowhere_is_said() {
    let mut sheet = everything();
    sheet.blocks.push(Block::Paragraph(vec![Inline::Link {
        target: "#gone".to_string(),
        text: vec![Inline::Text("gone".to_string())],
    }]));
    let made = made(&sheet);
    assert_eq!(made.warnings.len(), 1);
    assert!(made.warnings[0].message.contains("#gone"));
    let raw = tool(
        "qpdf",
        &["--qdf", "--object-streams=disable", "FILE", "-"],
        &made.bytes,
    );
    assert!(
        raw.contains("https://example.org/notes%20on%20fuel"),
        "encoded"
    );
}
