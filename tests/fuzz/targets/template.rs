//! A sheet's template of a group's own, proven on a sample as every run with one does.
#![no_main]

use leeside::compose::{Engine, Templates};
use leeside::load;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static BUILT_IN: LazyLock<Templates> = LazyLock::new(|| {
    let texts = load::templates().templates.into_iter();
    texts.map(|(name, source)| (name, source.text.to_string())).collect()
});

fuzz_target!(|text: &str| {
    let mut templates = BUILT_IN.clone();
    templates.insert("sheets/sources.md".to_owned(), text.to_owned());
    let _ = Engine::new(&templates);
});
