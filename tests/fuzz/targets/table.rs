//! A season's table, as bytes: CSV of any kind, workbooks, and what is neither.
#![no_main]

use leeside::load;
use leeside::season::{self, InHand, table};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for name in ["season.csv", "season.xlsx"] {
        let Ok(table) = table::read(name, bytes) else {
            continue;
        };
        let Ok(season) = season::read(&table, None) else {
            continue;
        };
        let base = load::text("base.yaml", "title: Base\npeople:\n  learners: 4\n");
        if let (Ok(base), Some(first)) = (base, season.departures.first()) {
            let _ = first.over(&base, &InHand::default());
        }
    }
});
