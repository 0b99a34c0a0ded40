//! A trip file: read, checked and, where it is good and small, planned and laid out in time.
#![no_main]

use leeside::course::timetable;
use leeside::nouns::Library;
use leeside::{check, load, plan, ready};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(|| match ready::library(&[]) {
    Ok(ready) => ready.library,
    Err(problems) => panic!("{problems:?}"),
});

fuzz_target!(|text: &str| {
    let Ok(written) = load::text("trip.yaml", text) else {
        return;
    };
    let Ok((trip, _)) = check::trip(&written, &LIBRARY) else {
        return;
    };
    let nights: u32 = trip.camps.iter().map(|camp| camp.nights).sum();
    if nights > 6 || trip.kitchens.len() > 3 || trip.people.all() > 20 {
        return; // right, and long: seconds a plan
    }
    if let Ok(planned) = plan::plan(&trip, &LIBRARY) {
        let modules = timetable::applying(&trip, &LIBRARY);
        let _ = timetable::timetable(&trip, &LIBRARY, &planned, &modules);
    }
});
