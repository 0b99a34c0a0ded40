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
    // words of lists are asked for by themselves, and the mark of decimals by every number
    let listed = |id: &String| id.starts_with("word-") || id == "decimal-mark";
    let asked = |id: &String| ids.contains(id) || sheets.contains(id) || listed(id);
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
        // This file makes nothing but problems.
        files.retain(|file| !file.ends_with("timetable/promise.rs"));
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

/// Names in the content that the rooms look for.
const NAMES: [&str; 6] = [
    "white gas",
    "hair tie",
    "alcohol burner",
    "liquid-fuel stove",
    " and fuel",
    " with lid",
];

/// Texts of words that follow each other, outside of problems, comments, attributes and tests.
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
        if at % 2 == 1
            && speaks(text)
            && !NAMES.contains(&text)
            && !in_a_problem(before, &code[from..])
        {
            found.push(text.to_owned());
        }
    }
    found
}

/// Whether two words follow each other; what stands between braces is none.
fn speaks(text: &str) -> bool {
    let is_word = |word: &&str| {
        let letters = word.trim_matches(|sign: char| !sign.is_alphabetic());
        letters.len() > 1 && letters.chars().all(char::is_alphabetic) && !word.contains('{')
    };
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(2).any(|pair| pair.iter().all(is_word))
}

/// Whether a text stands in a function that makes problems, or is one of theirs.
fn in_a_problem(before: &str, after: &str) -> bool {
    let start = before.rfind("fn ").unwrap_or_default();
    let end = after.find("\n}\n").unwrap_or(after.len());
    let end = end.min(after.find("fn ").unwrap_or(end));
    let makers = ["Problem", "Wrong", "wrong.push", "fn told", "impossible("];
    let function = [&before[start..], &after[..end]];
    makers
        .iter()
        .any(|name| function.iter().any(|part| part.contains(name)))
}

/// Figures that are worked on have a point in every language: `plan` and `course` say numbers plainly,
/// and the catalogue gives them the decimal mark of what is spoken.
#[test]
fn figures_that_are_worked_on_keep_their_point() {
    let mut found = Vec::new();
    for room in ["plan", "course", "physics"] {
        let mut files = Vec::new();
        sources(&root().join("src").join(room), &mut files);
        for file in files {
            let text = std::fs::read_to_string(&file).expect("a source");
            if text.contains("say::number(") || text.contains("say::significant(") {
                found.push(file);
            }
        }
    }
    assert!(
        found.is_empty(),
        "say::plain or say::plain_significant: {found:?}"
    );
}
