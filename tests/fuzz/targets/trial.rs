//! A burn trial: read, checked and worked out.
#![no_main]

use leeside::nouns::Library;
use leeside::{check, load, plan, ready};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(|| match ready::library(&[]) {
    Ok(ready) => ready.library,
    Err(problems) => panic!("{problems:?}"),
});

fuzz_target!(|text: &str| {
    let Ok(written) = load::text("trial.yaml", text) else {
        return;
    };
    if let Ok((trial, _)) = check::trial(&written, &LIBRARY) {
        let _ = plan::trial(&trial, &LIBRARY);
    }
});
