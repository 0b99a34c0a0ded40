//! What nobody has read at its source is printed with 'verify', and no caution rests on it.

use crate::support::content;
use leeside::compose::{Engine, Options, Sheet, compose};
use leeside::diag::report;
use leeside::nouns::{Basis, FactValue, Library, RuleValue, Sure};
use leeside::plan;
use std::fs;
use std::path::Path;

/// The sheets of every example trip, read with this library.
fn packets(library: &Library) -> Vec<(String, Vec<Sheet>)> {
    let engine = Engine::new(&content::templates())
        .unwrap_or_else(|problems| panic!("{}", report(&problems)));
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("content/trips");
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let trip = content::trip(&name, &fs::read_to_string(&path).unwrap(), library);
        let plan = plan::plan(&trip, library).unwrap_or_else(|p| panic!("{name}\n{}", report(&p)));
        let sheets = compose(&trip, &plan, library, &engine, &Options::default())
            .unwrap_or_else(|p| panic!("{name}\n{}", report(&p)));
        all.push((name, sheets));
    }
    assert!(all.len() >= 5, "the example trips are there");
    all
}

/// Each place of a mark such as `zq17e` in a text, with what stands after it.
fn after_marks<'t>(text: &'t str, mark: &str) -> Vec<(&'t str, &'t str)> {
    text.match_indices(mark)
        .map(|(at, _)| {
            let length = text[at..].find('e').unwrap() + 1;
            (&text[at..at + length], &text[at + length..])
        })
        .collect()
}

/// Every fact and every rule in words is made a word of its own that nobody has read: wherever
/// one is printed, on any sheet of any example, 'verify' stands behind it.
#[test]
fn an_unverified_figure_is_never_printed_without_verify() {
    let mut library = content::library();
    let mut count = 0;
    for module in library.modules.values_mut() {
        for fact in module.facts.values_mut() {
            count += 1;
            fact.value = FactValue::Text(format!("zq{count}e"));
            fact.sure = if count % 2 == 0 {
                Sure::Memory
            } else {
                Sure::SecondHand
            };
            fact.basis = Basis::Published;
        }
    }
    for place in library.places.values_mut() {
        for rule in place.rules.values_mut() {
            if let RuleValue::Text(text) = &mut rule.value {
                count += 1;
                *text = format!("zr{count}e");
                rule.sure = Sure::SecondHand;
            }
        }
    }
    let mut printed = [0, 0];
    for (trip, sheets) in packets(&library) {
        for sheet in &sheets {
            let text = sheet.markdown.replace('\\', "");
            for (kind, mark) in ["zq", "zr"].into_iter().enumerate() {
                for (word, rest) in after_marks(&text, mark) {
                    printed[kind] += 1;
                    assert!(
                        rest.starts_with(" (verify)"),
                        "{trip}, {}: {word}{}",
                        sheet.file_stem(),
                        rest.chars().take(60).collect::<String>()
                    );
                }
            }
        }
    }
    assert!(printed[0] > 200 && printed[1] > 50, "{printed:?}");
}

/// The same on the library as it is: each unverified fact and rule that a sheet prints.
#[test]
fn no_caution_of_the_library_rests_on_an_unverified_figure() {
    let library = content::library();
    let unverified = |owner: &str, name: &str| {
        let (owner, name) = name.split_once('.').unwrap_or((owner, name));
        let fact = &library.modules[owner].facts[name];
        fact.basis == Basis::Published && fact.sure.unverified()
    };
    let mut looked_at = 0;
    for module in library.modules.values() {
        for caution in &module.cautions {
            for part in [
                &caution.hazard,
                &caution.consequence,
                &caution.avoid,
                &caution.respond,
            ] {
                for piece in part.split('{').skip(1) {
                    let name = piece.split('}').next().unwrap();
                    looked_at += 1;
                    assert!(
                        !unverified(&module.id, &leeside::nouns::id(name)),
                        "{} {}: {name}",
                        module.id,
                        caution.id
                    );
                }
            }
        }
    }
    assert!(looked_at > 15, "{looked_at}");
}
