//! The text of a sheet, and prose of a module.
#![no_main]

use leeside::{doc, markdown};
use libfuzzer_sys::fuzz_target;
use std::collections::BTreeMap;

fuzz_target!(|text: &str| {
    let _ = markdown::check_prose("prose", text);
    let _ = markdown::read("sheet", text, &BTreeMap::new(), doc::Style::default(), "foot");
});
