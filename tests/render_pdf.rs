//! The PDF of a document: layout as text, structure, fields, fonts, equal bytes.

mod sheets;

use leeside::render::pdf::layout_text;
use sheets::{FACES, everything, made};

#[test]
fn every_block_is_placed() {
    let text = layout_text(&everything(), &FACES).expect("a layout");
    insta::with_settings!({prepend_module_to_snapshot => false, snapshot_path => "snapshots"}, {
        insta::assert_snapshot!("pdf_every_block", text);
    });
    assert_eq!(made(&everything()).pages, 3);
}
