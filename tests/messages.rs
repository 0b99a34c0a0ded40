//! What the program says of problems, in each language: no sentence of the sources is without its
//! Spanish one, none stands there for nothing, and what is told in Spanish is told of the same
//! place and holds no English.

use leeside::load;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// Calls whose texts are messages or pieces of them, wherever they stand.
const SAYING: &[&str] = &[
    "Problem::error",
    "Problem::warning",
    "Told::from",
    "Fault::new",
    "never",
    "impossible",
    "unlikely",
    "refused",
];
/// Calls whose texts are pieces of messages in the rooms that read files.
const READING: &[&str] = &[
    ".error", ".warn", ".need", ".refuse", ".keys", ".list", ".lines", ".line", ".scalar",
    ".within", ".number", ".whole", ".named", "phrase", "keyed", "fault",
];
const READERS: &[&str] = &["check", "load", "markdown"];

/// A text in a source: where it starts and ends there, and what it says.
struct Text {
    start: usize,
    end: usize,
    says: String,
}

/// The texts between double quotes of a source, and the source with them and its remarks blanked.
fn texts(source: &str) -> (Vec<Text>, Vec<u8>) {
    let bytes = source.as_bytes();
    let mut plain = bytes.to_vec();
    let mut found = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let rest = &source[at..];
        let end = if rest.starts_with("//") {
            at + rest.find('\n').unwrap_or(rest.len())
        } else if let Some(inside) = rest.strip_prefix("r#\"") {
            at + 3 + inside.find("\"#").expect("a raw text ends") + 2
        } else if rest.starts_with('"') {
            let mut end = at + 1;
            while bytes[end] != b'"' {
                end += if bytes[end] == b'\\' { 2 } else { 1 };
            }
            found.push(Text {
                start: at,
                end: end + 1,
                says: unescaped(&source[at + 1..end]),
            });
            end + 1
        } else if rest.starts_with("'\\") {
            at + 2 + rest[3..].find('\'').expect("a sign ends") + 2
        } else if rest.starts_with('\'') && rest.chars().nth(2) == Some('\'') {
            at + rest
                .char_indices()
                .nth(3)
                .map_or(rest.len(), |(next, _)| next)
        } else {
            at += rest.chars().next().map_or(1, char::len_utf8);
            continue;
        };
        plain[at..end].fill(b' ');
        at = end;
    }
    (found, plain)
}

fn unescaped(written: &str) -> String {
    let mut said = String::new();
    let mut signs = written.chars().peekable();
    while let Some(sign) = signs.next() {
        if sign != '\\' {
            said.push(sign);
            continue;
        }
        match signs.next() {
            Some('n') => said.push('\n'),
            Some('t') => said.push('\t'),
            Some('\n') => while signs.next_if(|sign| sign.is_whitespace()).is_some() {},
            Some('u') => {
                let code: String = signs.by_ref().take_while(|sign| *sign != '}').collect();
                let code = u32::from_str_radix(code.trim_start_matches('{'), 16);
                said.extend(code.ok().and_then(char::from_u32));
            }
            other => said.extend(other),
        }
    }
    said
}

/// Where the parenthesis that opens at a byte closes.
fn closing(plain: &[u8], open: usize) -> usize {
    let mut depth = 0;
    for (at, sign) in plain.iter().enumerate().skip(open) {
        match sign {
            b'(' => depth += 1,
            b')' if depth == 1 => return at,
            b')' => depth -= 1,
            _ => {}
        }
    }
    plain.len()
}

/// The parentheses after each call of a name.
fn calls(plain: &[u8], name: &str) -> Vec<(usize, usize)> {
    let text = String::from_utf8_lossy(plain);
    let mut found = Vec::new();
    for (at, _) in text.match_indices(name) {
        let before = text[..at].chars().next_back().unwrap_or(' ');
        if !name.starts_with('.') && (before.is_alphanumeric() || "_.".contains(before)) {
            continue;
        }
        if text[..at].ends_with("fn ") {
            continue;
        }
        let after = &text[at + name.len()..];
        let open = match after.strip_prefix("::<") {
            Some(_) => after.find(">(").map(|end| end + 1),
            None => after.starts_with('(').then_some(0),
        };
        if let Some(open) = open {
            let open = at + name.len() + open;
            found.push((open, closing(plain, open)));
        }
    }
    found
}

/// Whether a text is words for a person and not a key, a code or a pattern.
fn is_prose(text: &str) -> bool {
    text.trim().contains(' ') && text.chars().any(char::is_alphabetic)
}

/// Sentences and pieces of the program's sources by where they stand, and every text in them.
fn said() -> (BTreeMap<String, String>, BTreeSet<String>) {
    let mut files = Vec::new();
    super::layering::sources(&Path::new(ROOT).join("src"), &mut files);
    let mut messages = BTreeMap::new();
    let mut all = BTreeSet::new();
    for file in files {
        let path = file.strip_prefix(ROOT).expect("a path below").to_owned();
        let source = std::fs::read_to_string(&file).expect("a source");
        let own = source
            .split("#[cfg(test)]\nmod tests {")
            .next()
            .unwrap_or_default();
        let (texts, plain) = texts(own);
        all.extend(texts.iter().map(|text| text.says.clone()));
        let inside = path.to_string_lossy().replace('\\', "/");
        if inside.ends_with("src/told.rs") {
            continue;
        }
        let reads = READERS
            .iter()
            .any(|room| inside.starts_with(&format!("src/{room}")));
        let mut spans: Vec<(usize, usize)> =
            SAYING.iter().flat_map(|name| calls(&plain, name)).collect();
        if reads {
            spans.extend(READING.iter().flat_map(|name| calls(&plain, name)));
        }
        let other: Vec<(usize, usize)> = [
            "format!",
            "assume",
            "strip_prefix",
            "contains",
            "starts_with",
            "ends_with",
            "find",
        ]
        .iter()
        .flat_map(|name| {
            calls(&plain, name)
                .into_iter()
                .chain(calls(&plain, &format!(".{name}")))
        })
        .collect();
        let within = |spans: &[(usize, usize)], text: &Text| {
            spans
                .iter()
                .any(|(open, close)| (*open..*close).contains(&text.start))
        };
        let told = calls(&plain, "told!");
        for text in &texts {
            let line = own[..text.start].matches('\n').count() + 1;
            let template = told
                .iter()
                .filter_map(|(open, _)| own.get(open + 1..text.start))
                .any(|between| between.trim().is_empty());
            let piece = within(&spans, text) && !within(&other, text) && is_prose(&text.says);
            if template || piece {
                messages.insert(text.says.clone(), format!("{inside}:{line}"));
            }
            if template {
                names_are_given(own, text, &told, &inside);
            }
        }
    }
    (messages, all)
}

/// Every name in the braces of a template stands among the values beside it.
fn names_are_given(source: &str, text: &Text, told: &[(usize, usize)], file: &str) {
    let Some((_, close)) = told
        .iter()
        .find(|(open, close)| *open < text.start && text.end <= *close)
    else {
        return;
    };
    let values = &source[text.end..*close];
    for name in names(&text.says) {
        let given = values.split(|sign: char| !(sign.is_alphanumeric() || sign == '_'));
        assert!(
            given.into_iter().any(|word| word == name),
            "{file}: `{name}` of {:?} has no value",
            text.says
        );
    }
}

fn names(sentence: &str) -> BTreeSet<String> {
    let plain = sentence.replace("{{", "").replace("}}", "");
    let parts = plain.split('{').skip(1);
    parts
        .filter_map(|part| part.split_once('}'))
        .map(|(name, _)| name.to_owned())
        .collect()
}

/// What the table of usual values says, which messages carry.
fn usual() -> BTreeSet<String> {
    let table =
        std::fs::read_to_string(Path::new(ROOT).join("content/plausible.yaml")).expect("the table");
    let lines = table.lines().filter_map(|line| {
        let line = line.trim();
        line.strip_prefix("say: ")
            .or_else(|| line.strip_prefix("because: "))
    });
    lines
        .map(|line| line.trim_end_matches('.').to_owned())
        .collect()
}

fn spanish() -> BTreeMap<String, String> {
    let assets = load::assets(&[]).expect("the built-in content");
    let (messages, coverage) = load::messages(&assets, "es").expect("a list");
    assert!(coverage.problems.is_empty(), "{:?}", coverage.problems);
    let pairs = messages.sentences();
    pairs
        .map(|(en, es)| (en.to_owned(), es.to_owned()))
        .collect()
}

#[test]
fn every_message_of_the_sources_has_its_spanish_words() {
    let (messages, all) = said();
    assert!(
        messages.len() > 1000,
        "only {} messages were found",
        messages.len()
    );
    let spanish = spanish();
    let mut lost: Vec<String> = messages
        .iter()
        .filter(|(english, _)| !spanish.contains_key(*english))
        .map(|(english, place)| format!("{place}: {english:?}"))
        .collect();
    let usual = usual();
    lost.extend(
        usual
            .iter()
            .filter(|one| !spanish.contains_key(*one))
            .cloned(),
    );
    assert!(
        lost.is_empty(),
        "{} without Spanish:\n{}",
        lost.len(),
        lost.join("\n")
    );
    let article = |one: &str| {
        ["a ", "an "]
            .iter()
            .any(|article| all.contains(&format!("{article}{one}")))
    };
    let stale: Vec<&String> = spanish
        .keys()
        .filter(|one| !all.contains(*one) && !usual.contains(*one) && !article(one))
        .collect();
    assert!(stale.is_empty(), "no source says: {stale:#?}");
}

/// English words that are no Spanish ones, and hold a sentence together.
const ENGLISH: &[&str] = &[
    "the", "and", "or", "is", "are", "was", "of", "with", "without", "write", "there", "this",
    "that", "which", "must", "cannot", "not", "has", "have", "for", "from", "expected", "found",
    "named", "perhaps", "it", "its", "than", "least", "known", "here", "below", "above", "leave",
];

/// The head of a problem, where it is, and its words: message and help, without what stands between
/// backticks or quotation marks.
fn problems(said: &str) -> Vec<(String, String, String)> {
    let mut found: Vec<(String, String, String)> = Vec::new();
    for line in said.lines() {
        if let Some((head, words)) = line.split_once("]: ") {
            let code = head.rsplit('[').next().unwrap_or_default();
            if head.starts_with("error[")
                || head.starts_with("warning[")
                || head.starts_with("aviso[")
            {
                found.push((code.to_owned(), String::new(), words.to_owned()));
                continue;
            }
        }
        let Some(last) = found.last_mut() else {
            continue;
        };
        if let Some((_, place)) = line.split_once("--> ") {
            last.1 = place.to_owned();
        } else if let Some((_, help)) = line
            .strip_prefix("  = ")
            .and_then(|line| line.split_once(": "))
        {
            last.2 = format!("{} {help}", last.2);
        }
    }
    found
}

fn run(folder: &Path, args: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("the program runs");
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn english_in(words: &str, names: &[String]) -> Option<String> {
    let named = names
        .iter()
        .fold(words.to_owned(), |words, name| words.replace(name, ""));
    let outside: String = named
        .split(['`', '"'])
        .step_by(2)
        .collect::<Vec<_>>()
        .join(" ");
    let mut each = outside.split(|sign: char| !(sign.is_alphabetic() || sign == '_'));
    each.find(|word| ENGLISH.contains(&word.to_lowercase().as_str()))
        .map(str::to_owned)
}

/// What a message may hold that is nobody's sentence: titles of the library, and what the reader
/// of pictures says.
fn names_of_the_library() -> Vec<String> {
    let library = leeside::ready::library(&[]).expect("the library").library;
    let segments = |module: &leeside::nouns::Module| -> Vec<String> {
        let all = module.segments.iter();
        all.map(|one| one.title.clone()).collect()
    };
    let mut names: Vec<String> = library.modules.values().flat_map(segments).collect();
    names.extend(library.modules.values().map(|one| one.title.clone()));
    names.push("unexpected end of file".to_owned());
    names
}

/// What one case is told in Spanish: how many problems, and what is wrong with them.
fn twin(stage: &str, case: &Path, names: &[String]) -> (usize, Vec<String>) {
    let folder = case.parent().expect("a folder");
    let file = case
        .file_name()
        .and_then(|name| name.to_str())
        .expect("a name");
    let stem = case
        .file_stem()
        .and_then(|name| name.to_str())
        .expect("a name");
    let stored = std::fs::read_to_string(folder.join(format!("{stem}.args")));
    let args = stored
        .unwrap_or(format!("check {file}"))
        .replace("FILE", file);
    let mut args: Vec<&str> = args.split_whitespace().collect();
    args.extend(["--language", "es"]);
    let stated = std::fs::read_to_string(folder.join(format!("{stem}.stderr")));
    let english = problems(&stated.unwrap_or_default());
    let said = run(folder, &args);
    let spanish = problems(&said);
    let places = |all: &[(String, String, String)]| -> Vec<(String, String)> {
        let places = all.iter();
        places
            .map(|(code, place, _)| (code.clone(), place.clone()))
            .collect()
    };
    let mut wrong = Vec::new();
    if places(&english) != places(&spanish) {
        wrong.push(format!("{stage}/{stem} tells of other places:\n{said}"));
    }
    for (_, place, words) in &spanish {
        if let Some(word) = english_in(words, names) {
            wrong.push(format!("{stage}/{stem} {place} says `{word}`: {words}"));
        }
    }
    (spanish.len(), wrong)
}

#[test]
fn a_problem_is_told_in_spanish_of_the_same_place_and_without_english() {
    let names = names_of_the_library();
    let mut cases = Vec::new();
    for stage in [
        "load", "check", "first", "range", "usual", "content", "look", "flag",
    ] {
        let folder = Path::new(ROOT).join("tests/bad").join(stage);
        for entry in std::fs::read_dir(&folder).expect("the cases") {
            let path = entry.expect("an entry").path();
            if path.is_dir() || path.extension().is_some_and(|ending| ending == "yaml") {
                cases.push((stage, path));
            }
        }
    }
    let told: Vec<(usize, Vec<String>)> = cases
        .par_iter()
        .map(|(stage, case)| twin(stage, case, &names))
        .collect();
    let count: usize = told.iter().map(|(count, _)| count).sum();
    let wrong: Vec<&String> = told.iter().flat_map(|(_, wrong)| wrong).collect();
    assert!(count > 400, "only {count} problems were told");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_trip_says_in_which_language_its_problems_are_told_and_the_flag_goes_before_it() {
    let temp = tempfile::tempdir().unwrap();
    let trip = "title: Prueba\nlanguage: es\npeople:\n  lerners: 4\n";
    std::fs::write(temp.path().join("trip.yaml"), trip).unwrap();
    let said = run(temp.path(), &["check", "trip.yaml"]);
    assert!(
        said.contains("`lerners` no es una clave de `people`"),
        "{said}"
    );
    assert!(said.contains("= qué hacer: "), "{said}");
    let said = run(temp.path(), &["check", "trip.yaml", "--language", "en"]);
    assert!(
        said.contains("`lerners` is not a key of `people`"),
        "{said}"
    );
    let said = run(temp.path(), &["plan", "none.yaml", "--language", "es"]);
    assert!(said.contains("no existe ese archivo"), "{said}");
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(["check", "trip.yaml", "--json"])
        .current_dir(temp.path())
        .output()
        .expect("the program runs");
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let all = json["problems"].to_string();
    assert!(all.contains("no es una clave de"), "{all}");
}
