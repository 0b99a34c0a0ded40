//! The words of a language hold what the program asks for, and nothing else.

use crate::layering::{root, sources};
use leeside::compose::sheets;
use std::collections::{BTreeMap, BTreeSet};

/// A phrase that the program asks for: its id, and the names of what stands in it.
type Asked = (String, BTreeSet<String>);

/// The phrases of a source: each `phrase!(".." , name = value)`, comments and tests left out.
fn asked(source: &str) -> Vec<Asked> {
    let own = source.split("#[cfg(test)]").next().unwrap_or_default();
    let lines = own
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let code: String = lines.collect::<Vec<_>>().join("\n");
    let calls = code.split("phrase!(").skip(1);
    calls
        .filter(|call| call.trim_start().starts_with('"'))
        .map(|call| {
            let call = call.trim_start().trim_start_matches('"');
            let (id, rest) = call.split_once('"').expect("an id in quotes");
            (id.to_owned(), names(rest))
        })
        .collect()
}

/// The names before `=` on the outermost level of a call, up to its end.
fn names(call: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let (mut depth, mut quoted, mut part) = (0_u32, false, String::new());
    for sign in call.chars() {
        match sign {
            '"' => quoted = !quoted,
            _ if quoted => {}
            ')' if depth == 0 => break,
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth -= 1,
            ',' if depth == 0 => part.clear(),
            '=' if depth == 0 => {
                found.insert(part.trim().to_owned());
            }
            _ => part.push(sign),
        }
    }
    found
}

/// Each id of the words of a language, and the names that stand in its words.
fn held(language: &str) -> BTreeMap<String, BTreeSet<String>> {
    let folder = root().join("content/words").join(language);
    let mut all: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for file in std::fs::read_dir(folder).expect("a folder of words") {
        let text = std::fs::read_to_string(file.expect("a file").path()).expect("words");
        let mut id = String::new();
        for line in text.lines().filter(|line| !line.starts_with('#')) {
            let named = line.split_once(" =");
            if let Some((name, _)) = named.filter(|_| line.starts_with(char::is_alphabetic)) {
                id = name.to_owned();
                assert!(!all.contains_key(&id), "`{id}` stands there twice");
            }
            if !id.is_empty() {
                all.entry(id.clone()).or_default().extend(placed(line));
            }
        }
    }
    all
}

/// The names after `$` in a line of words.
fn placed(line: &str) -> BTreeSet<String> {
    let name = |rest: &str| {
        let end = rest.find(|sign: char| !(sign.is_alphanumeric() || sign == '_' || sign == '-'));
        rest[..end.unwrap_or(rest.len())].to_owned()
    };
    line.split('$').skip(1).map(name).collect()
}

#[test]
fn what_is_asked_for_has_words_and_each_place_is_filled() {
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    let mut all = Vec::new();
    for file in files {
        all.extend(asked(&std::fs::read_to_string(file).expect("a source")));
    }
    let words = held("en");
    assert!(all.len() > 200 && words.len() > 200);
    for (id, given) in &all {
        let wanted = words.get(id);
        assert_eq!(wanted, Some(given), "`{id}`: its words, and what is given");
    }
    let ids: BTreeSet<&String> = all.iter().map(|(id, _)| id).collect();
    // what is said of a sheet is asked for by its name
    let sheets = sheets::ALL
        .iter()
        .flat_map(|row| ["", "-about", "-print"].map(|what| format!("sheet-{}{what}", row.name)));
    let sheets: BTreeSet<String> = sheets.collect();
    let asked = |id: &String| ids.contains(id) || sheets.contains(id);
    let idle: Vec<&String> = words.keys().filter(|id| !asked(id)).collect();
    assert!(idle.is_empty(), "nothing asks for these words: {idle:?}");
}

/// What a person reads on paper is the catalogue's: `plan` and `course` hold no sentence of theirs
/// but what a problem says.
#[test]
fn no_sentence_stands_in_plan_and_course() {
    let mut found = Vec::new();
    for room in ["plan", "course"] {
        let mut files = Vec::new();
        sources(&root().join("src").join(room), &mut files);
        for file in files {
            let text = std::fs::read_to_string(&file).expect("a source");
            let name = file.strip_prefix(root()).expect("inside").display();
            for said in sentences(&text) {
                found.push(format!("{name}: {said}"));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Texts of three words and more outside of problems, comments, attributes and tests.
fn sentences(source: &str) -> Vec<String> {
    let own = source.split("#[cfg(test)]").next().unwrap_or_default();
    let code: Vec<&str> = own
        .lines()
        .filter(|line| !line.trim_start().starts_with("//") && !line.contains("reason = \""))
        .collect();
    let code = code.join("\n");
    let mut found = Vec::new();
    let mut from = 0;
    for (at, text) in code.split('"').enumerate() {
        let before = &code[..from];
        from += text.len() + 1;
        let words = text
            .split(|sign: char| !sign.is_alphabetic())
            .filter(|word| word.len() > 2)
            .count();
        if at % 2 == 1 && words > 2 && !in_a_problem(before) && !text.contains('`') {
            found.push(text.to_owned());
        }
    }
    found
}

/// Whether code ends inside a call that makes a problem.
fn in_a_problem(before: &str) -> bool {
    let makers = [
        "Problem::",
        "Wrong::",
        "impossible(",
        "outside(",
        "wrong(",
        "at(",
        "fn told",
        "missing",
    ];
    let last = makers.iter().filter_map(|name| before.rfind(name)).max();
    last.is_some_and(|at| {
        let call = &before[at..];
        call.matches('(').count() > call.matches(')').count() || call.contains("fn told")
    })
}
