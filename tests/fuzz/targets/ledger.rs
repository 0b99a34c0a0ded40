//! A ledger of canisters: read, kept, laid together with itself in either order.
#![no_main]

use leeside::diag::Source;
use leeside::shelf::Ledger;
use libfuzzer_sys::fuzz_target;
use std::sync::Arc;

fuzz_target!(|text: &str| {
    let read = |text: &str| {
        Ledger::read(&Source {
            name: Arc::from("shelf.csv"),
            text: Arc::from(text),
        })
    };
    let Ok(ledger) = read(text) else {
        return;
    };
    let kept = ledger.text();
    let again = read(&kept).expect("what is kept can be read");
    assert_eq!(again.text(), kept, "what is kept stays as it is");
    let merged = again.merged(ledger);
    assert_eq!(merged.text(), kept, "a ledger laid on itself is itself");
});
