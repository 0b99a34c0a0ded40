//! A module of a group's own, laid over the built-in content.
#![no_main]

use leeside::diag::Source;
use leeside::{check, load};
use libfuzzer_sys::fuzz_target;
use std::sync::Arc;

fuzz_target!(|text: &str| {
    let source = Source {
        name: Arc::from("modules/greywater.yaml"),
        text: Arc::from(text),
    };
    let more = [("modules/greywater.yaml".to_owned(), source)];
    if let Ok(files) = load::library_with(&[], &more) {
        let _ = check::library(&files);
    }
});
