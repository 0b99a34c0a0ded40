//! Sheets in Spanish: whole, equal in every value to the English ones, and with no English left.
//!
//! Which words are function words of English and of Spanish is common knowledge, no source.

use crate::layering::root;
use leeside::diag::{Problem, report};
use leeside::load::{self, Written};
use leeside::packet::{Format, Job, Packet, Press};
use leeside::ready;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::LazyLock;

/// Words of English that no Spanish text holds.
const ENGLISH: &[&str] = &[
    "the", "and", "with", "from", "your", "when", "then", "that", "this", "they", "which", "where",
    "their", "have", "never", "always", "before", "after", "into", "each", "who", "how", "not",
    "is", "are", "of", "for", "at", "by", "on", "water", "stove", "fuel", "cold", "hot",
];

/// Words of Spanish that no English text holds.
const SPANISH: &[&str] = &[
    "los",
    "las",
    "una",
    "para",
    "agua",
    "cocinilla",
    "cuando",
    "nunca",
    "siempre",
    "donde",
    "está",
];

fn press(language: &str) -> Press {
    let ready = ready::library_in(&[], language).unwrap_or_else(|all| panic!("{}", report(&all)));
    Press::new(&ready.assets, ready.library, ready.digest)
        .unwrap_or_else(|all| panic!("{}", report(&all)))
}

/// An example's file, its packet in English and in Spanish.
type Both = (Written, Packet, Packet);

static BOTH: LazyLock<Vec<Both>> = LazyLock::new(|| {
    let (english, spanish) = (press("en"), press("es"));
    let folder = root().join("content/trips");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("a folder of trips")
        .map(|file| file.expect("a file").path())
        .collect();
    files.sort();
    assert!(files.len() > 10);
    let job = Job {
        formats: vec![Format::Md, Format::Pdf],
        ..Job::default()
    };
    files
        .par_iter()
        .map(|file| {
            let written = load::trip_file(file).expect("a trip");
            let made = |press: &Press| {
                let packet = press.packet(&written, &job);
                packet.unwrap_or_else(|all| panic!("{}: {}", file.display(), report(&all)))
            };
            let (one, other) = (made(&english), made(&spanish));
            (written, one, other)
        })
        .collect()
});

/// The words that a file's writer chose, the longest first: they stay as they are.
pub(crate) fn own_words(written: &Written) -> Vec<String> {
    let mut all = Vec::new();
    let mut open = vec![&written.root];
    while let Some(node) = open.pop() {
        match &node.value {
            load::Value::Map(entries) => open.extend(entries.iter().map(|entry| &entry.node)),
            load::Value::List(items) => open.extend(items),
            load::Value::Text(text) => all.push(text.trim().to_lowercase()),
            load::Value::Nothing => {}
        }
    }
    // an organisation's phones and names are its own words too
    let profile = std::fs::read_to_string(root().join("content/profiles/fernhollow.yaml"));
    let profile = profile.expect("a profile").to_lowercase();
    let lines = profile
        .lines()
        .map(|line| line.trim_start_matches([' ', '-']))
        .map(|line| line.split_once(": ").map_or(line, |(_, value)| value));
    all.extend(lines.map(str::to_owned));
    all.sort_by_key(|text| std::cmp::Reverse(text.len()));
    all
}

/// The words of a sheet's Markdown that its file's writer did not choose.
fn words(markdown: &str, own: &[String]) -> BTreeSet<String> {
    // what opens a figure is its name, which nobody reads
    let read = markdown.lines().filter(|line| !line.starts_with("```"));
    let mut text = read.collect::<Vec<_>>().join("\n").to_lowercase();
    for chosen in own.iter().filter(|text| text.len() > 3) {
        text = text.replace(chosen.as_str(), " ");
    }
    let letter = |sign: char| sign.is_alphabetic();
    text.split(|sign| !letter(sign))
        .map(str::to_owned)
        .collect()
}

/// A sheet of learners as Markdown; titles of sources stay in the language of their source.
fn learners(packet: &Packet) -> impl Iterator<Item = (&str, &str)> {
    packet.files.iter().filter_map(|(path, bytes)| {
        let read = path.starts_with("learners/") && path.ends_with(".md");
        let text = std::str::from_utf8(bytes).ok()?;
        (read && !path.contains("sources")).then_some((path.as_str(), text))
    })
}

#[test]
fn no_word_of_the_other_language_stands_on_a_learners_sheet() {
    let mut found = Vec::new();
    let mut looked_at = 0;
    for (written, english, spanish) in &*BOTH {
        let own = own_words(written);
        for (packet, others) in [(english, SPANISH), (spanish, ENGLISH)] {
            for (path, text) in learners(packet) {
                looked_at += 1;
                let words = words(text, &own);
                let strange = others.iter().filter(|word| words.contains(**word));
                let strange: Vec<&&str> = strange.collect();
                if !strange.is_empty() {
                    found.push(format!("{} {path}: {strange:?}", packet.slug));
                }
            }
        }
    }
    assert!(looked_at > 200, "{looked_at}");
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn every_value_is_the_same_in_both_languages() {
    let mut held = 0;
    for (_, english, spanish) in &*BOTH {
        let sheets = |packet: &Packet| packet.says.keys().cloned().collect::<Vec<_>>();
        assert_eq!(sheets(english), sheets(spanish), "{}", english.slug);
        for (sheet, said) in &english.says {
            let values = |said: &serde_json::Value| -> BTreeMap<String, Option<String>> {
                let all = said.as_array().expect("a list").iter();
                all.map(|one| {
                    let si = one["si"].as_f64().map(|si| si.to_string());
                    (one["id"].as_str().expect("an id").to_owned(), si)
                })
                .collect()
            };
            let (one, other) = (values(said), values(&spanish.says[sheet]));
            for (id, si) in &one {
                if let Some(its) = other.get(id) {
                    assert_eq!(si, its, "{} {sheet} {id}", english.slug);
                    held += 1;
                }
            }
        }
    }
    assert!(held > 2000, "{held}");
}

#[test]
fn a_spanish_sheet_takes_no_more_than_one_side_more() {
    let mut longer = Vec::new();
    let mut sides = [0, 0];
    for (_, english, spanish) in &*BOTH {
        for (stem, line) in &english.lines {
            let (Some(pages), Some(own)) = (line.pages, spanish.lines[stem].pages) else {
                continue;
            };
            sides[0] += pages;
            sides[1] += own;
            // cards come in whole leaves, answers on the back
            let room = match stem.as_str() {
                "study-cards" | "slides" => 4,
                // one line a step, some twenty sides of them
                stem if stem.starts_with("fuel-worksheet-key") => 2,
                _ => 1,
            };
            if own > pages + room {
                longer.push(format!("{} {stem}: {pages} to {own}", english.slug));
            }
        }
    }
    assert!(longer.is_empty(), "{longer:#?}");
    assert!(sides[1] * 100 <= sides[0] * 112, "{sides:?}");
}

/// A side more is carried for a few words: what English holds on its paper, Spanish holds.
#[test]
fn no_spanish_sheet_is_too_long_that_is_not_in_english() {
    let long = |packet: &Packet| -> usize {
        let all = packet.warnings.iter();
        all.filter(|one| one.code == "render.too_long").count()
    };
    let longer = BOTH
        .iter()
        .filter(|(_, english, spanish)| long(spanish) > long(english));
    let longer: Vec<_> = longer.map(|(_, _, spanish)| &spanish.warnings).collect();
    assert!(longer.is_empty(), "{longer:#?}");
}

/// The tags of a template, in order.
fn tags(text: &str) -> Vec<&str> {
    let mut all = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(['{']) {
        let tail = &rest[at..];
        let end = match tail.as_bytes().get(1) {
            Some(b'{') => "}}",
            Some(b'%') => "%}",
            Some(b'#') => "#}",
            _ => {
                rest = &tail[1..];
                continue;
            }
        };
        let stop = tail.find(end).map_or(tail.len(), |stop| stop + 2);
        if end != "#}" {
            all.push(&tail[..stop]);
        }
        rest = &tail[stop..];
    }
    all
}

#[test]
fn a_template_has_the_same_tags_in_each_language() {
    let folder = root().join("templates/sheets");
    let mut looked_at = 0;
    for file in std::fs::read_dir(folder).expect("templates") {
        let path = file.expect("a file").path();
        let name = path.file_name().expect("a name");
        let own = root().join("templates/es/sheets").join(name);
        let read = |path: &PathBuf| std::fs::read_to_string(path).expect("a template");
        let (english, spanish) = (read(&path), read(&own));
        assert_eq!(tags(&english), tags(&spanish), "{}", own.display());
        looked_at += 1;
    }
    assert!(looked_at > 20);
}

/// What is told when a folder is laid over the content and Spanish is asked for.
fn told(files: &[(&str, &str)], language: &str) -> Vec<Problem> {
    let folder = tempfile::tempdir().expect("a folder");
    for (path, text) in files {
        let path = folder.path().join(path);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(path, text).expect("a file");
    }
    let over = [folder.path().to_owned()];
    match ready::library_in(&over, language) {
        Ok(ready) => Press::new(&ready.assets, ready.library, ready.digest)
            .err()
            .unwrap_or_default(),
        Err(problems) => problems,
    }
}

#[test]
fn a_language_that_is_not_there_names_those_that_are() {
    let problems = told(&[], "zz");
    assert_eq!(problems[0].code, "language.unknown");
    assert!(problems[0].help.contains("es"), "{}", problems[0].help);
    let problems = told(&[], "ar");
    assert_eq!(problems[0].code, "language.script");
}

#[test]
fn a_language_of_ones_own_may_be_begun_in_a_folder() {
    let text = std::fs::read_to_string(root().join("templates/es/sheets/register.md"));
    let text = text.expect("a template");
    assert!(told(&[("templates/pt/sheets/register.md", &text)], "en").is_empty());
    let wrong = told(&[("templates/pt/sheets/registre.md", &text)], "en");
    assert_eq!(wrong[0].code, "template.unknown");
}

#[test]
fn an_overlay_in_one_language_only_says_what_is_missing_and_where() {
    let module = "extends: greywater\nfacts:\n  ours:\n    value: 5 m\n    say: how far we go\n    basis: assumption\n";
    let problems = told(&[("modules/greywater.yaml", module)], "es");
    let problem = problems.first().expect("a problem");
    assert_eq!(problem.code, "language.missing");
    assert!(
        problem.message.contains("facts.ours.say"),
        "{}",
        problem.message
    );
    assert!(problem.help.contains("content/es/modules/greywater.yaml"));
    assert!(problem.place.as_ref().is_some_and(|place| place.line == 5));
}

#[test]
fn a_misspelt_key_a_lost_place_and_a_lost_sentence_are_told_with_their_file() {
    let stranger = told(
        &[("es/menus.yaml", "boil-onli:\n  name: solo hervir\n")],
        "es",
    );
    assert_eq!(stranger[0].code, "language.stranger");
    assert!(stranger[0].help.contains("boil-only"));
    let text = std::fs::read_to_string(root().join("content/es/words/plan.ftl")).expect("words");
    let lost = text.replace("{ $percent }", "algunos");
    assert_ne!(lost, text);
    let problems = told(&[("es/words/plan.ftl", &lost)], "es");
    assert!(
        problems.iter().all(|one| one.code == "words.missing"),
        "{problems:?}"
    );
    assert!(
        problems[0].message.contains("$percent"),
        "{}",
        problems[0].message
    );
    let first = text
        .lines()
        .find(|line| line.contains(" = "))
        .expect("a sentence");
    let problems = told(&[("es/words/plan.ftl", &text.replacen(first, "", 1))], "es");
    assert!(!problems.is_empty());
}

#[test]
fn a_form_of_plurals_without_words_is_told() {
    let text = std::fs::read_to_string(root().join("content/es/words/assumed.ftl"));
    let text = text.expect("words");
    let whole = text
        .lines()
        .filter(|line| !line.trim().starts_with("[one]"));
    let without = whole.collect::<Vec<_>>().join("\n") + "\n";
    assert_ne!(without.lines().count(), text.lines().count());
    let problems = told(&[("es/words/assumed.ftl", &without)], "es");
    let problem = problems.first().expect("a problem");
    assert_eq!(problem.code, "words.plural");
    let line = without
        .lines()
        .position(|line| line.starts_with("assumed-most-a-kitchen"));
    let place = problem.place.as_ref().expect("a place");
    assert_eq!(Some(place.line), line.map(|line| line + 1));
    assert!(problem.help.contains("[one]"), "{}", problem.help);
    // a choice without its last form is not in the syntax at all
    let broken = text.replace("*[other]", "[other]");
    let problems = told(&[("es/words/assumed.ftl", &broken)], "es");
    assert_eq!(problems[0].code, "words.syntax");
}

#[test]
fn a_value_that_a_translation_leaves_out_is_told_with_its_line() {
    let path = "es/modules/greywater.yaml";
    let text = std::fs::read_to_string(root().join("content").join(path)).expect("a module");
    let lost = text.replacen("{distance}", "lejos", 1);
    assert_ne!(lost, text);
    let problems = told(&[(path, &lost)], "es");
    let problem = problems.first().expect("a problem");
    assert_eq!(problem.code, "language.placeholder");
    assert!(
        problem.message.contains("{distance}"),
        "{}",
        problem.message
    );
    assert!(problem.place.as_ref().is_some_and(|place| place.line > 1));
}
