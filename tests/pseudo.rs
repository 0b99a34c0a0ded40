//! Sheets in a language made from English: an accent on each vowel, words a third longer, marks at
//! both ends of what is said at once. A word that stays as it was was never asked of a language; a
//! sheet that bursts would burst in a real one. `LEESIDE_PSEUDO=all` makes every example, in every
//! format (half a minute); by itself the test makes two.
//!
//! That words grow by a third is a translator's rule of thumb (common practice, no source).

use crate::layering::root;
use crate::spanish::own_words;
use leeside::diag::{Problem, report};
use leeside::load::{self, Node, Value};
use leeside::packet::{Format, Job, Packet, Press};
use leeside::ready;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Its code: that of a language with the plurals of English that is not there.
const CODE: &str = "eo";

/// Examples that are made every time: one a trip, one a lesson.
const USUAL: [&str; 2] = ["three-stoves", "rainy-day"];

/// The most letters that a text of a line may grow to, by its key: `check` holds content to what fits
/// on its sheet, and labels stand in drawings of their own width.
fn room(key: &str) -> usize {
    match key {
        "label" => 0,
        "say" => 78,
        "text" => 198,
        _ => 125,
    }
}

/// What is the same in every language, or not the program's: signs of units, what is written into a
/// file (`lid: no`), and how CLDR lists two things in this one.
const SIGNS: &[&str] = &["min", "oz", "kpa", "lid", "no", "yes", "kaj"];

/// Names that the program gives where nobody did, and by which files are called: they have one form
/// in all languages, so that what two sheets say has one id.
const NAMES: &[&str] = &["kitchen", "station"];

fn accented(letter: char) -> Option<char> {
    Some(match letter {
        'a' => 'á',
        'e' => 'é',
        'i' => 'í',
        'o' => 'ó',
        'u' => 'ú',
        'y' => 'ý',
        'A' => 'Á',
        'E' => 'É',
        'I' => 'Í',
        'O' => 'Ó',
        'U' => 'Ú',
        'Y' => 'Ý',
        _ => return None,
    })
}

/// One word in it; `longer` by a third, by vowels that stand twice.
fn word(text: &str, longer: bool) -> String {
    let mut more = if longer { (text.len() + 1) / 3 } else { 0 };
    let mut said = String::new();
    for letter in text.chars() {
        let own = accented(letter);
        said.push(own.unwrap_or(letter));
        if let (Some(own), true) = (own, more > 0) {
            said.extend(own.to_lowercase());
            more -= 1;
        }
    }
    said
}

/// A text in it: words between braces, in code, in targets of links and in brackets of signals, and
/// signs of units behind a number stay as they are.
fn text(english: &str, longer: bool) -> String {
    let mut said = String::new();
    let mut rest = english;
    let mut numbered = false;
    while let Some(first) = rest.chars().next() {
        let until = |end: &str, from: usize| {
            let found = rest[from..].find(end);
            found.map_or(rest.len(), |at| from + at + end.len())
        };
        let stop = match first {
            '{' => until("}", 0),
            '`' => until("`", 1),
            _ if rest.starts_with("](") => until(")", 0),
            _ if rest.starts_with("[!") => until("]", 0),
            _ if first.is_alphabetic() => {
                let end = |sign: char| !sign.is_alphabetic();
                rest.find(end).unwrap_or(rest.len())
            }
            _ => first.len_utf8(),
        };
        let part = &rest[..stop];
        if first.is_alphabetic() && !(numbered && SIGNS.contains(&part)) {
            said.push_str(&word(part, longer));
        } else {
            said.push_str(part);
        }
        numbered = first.is_ascii_digit() || (numbered && first.is_whitespace());
        rest = &rest[stop..];
    }
    said
}

/// What stands up to the brace that ends it, and the rest.
fn to_brace(from: &str) -> (&str, &str) {
    let mut open = 0_usize;
    for (at, sign) in from.char_indices() {
        match sign {
            '{' => open += 1,
            '}' if open == 0 => return (&from[..at], &from[at + 1..]),
            '}' => open -= 1,
            _ => {}
        }
    }
    panic!("a brace without its end: {from}");
}

/// The words of a message of Fluent.
fn pattern(english: &str) -> String {
    let Some((before, after)) = english.split_once('{') else {
        return text(english, true);
    };
    let (inside, rest) = to_brace(after);
    let own = match inside.split_once("->") {
        Some((name, variants)) => choice(name, variants),
        None => format!("{{{inside}}}"),
    };
    format!("{}{own}{}", text(before, true), pattern(rest))
}

/// Words that are chosen: by a number as in English, by a word by its English one.
fn choice(name: &str, variants: &str) -> String {
    let mut all: Vec<(String, String)> = Vec::new();
    let mut open = 0_i32;
    for line in variants.lines().skip(1) {
        let key = line.trim_start();
        match key.split_once(']') {
            Some((key, words)) if open == 0 && key.trim_start_matches('*').starts_with('[') => {
                all.push((format!("{key}]"), words.to_owned()));
            }
            _ => {
                if let Some((_, words)) = all.last_mut() {
                    let _ = write!(words, "\n{line}");
                }
            }
        }
        let count = |sign: char| i32::try_from(line.matches(sign).count()).expect("few");
        open += count('{') - count('}');
    }
    let number = |key: &str| {
        let key = key.trim_matches(['*', '[', ']']);
        key.parse::<f64>().is_ok() || ["zero", "one", "two", "few", "many", "other"].contains(&key)
    };
    let by_word = if all.iter().all(|(key, _)| number(key)) {
        ""
    } else {
        "-id"
    };
    let mut said = format!("{{ {}{by_word} ->\n", name.trim());
    for (key, words) in all {
        let own = pattern(words.trim());
        let _ = writeln!(said, "        {key} {own}");
    }
    said + "    }"
}

/// A file of Fluent's messages.
fn words(english: &str) -> String {
    let mut messages: Vec<(String, String)> = Vec::new();
    for line in english.lines().filter(|line| !line.starts_with('#')) {
        match line.split_once(" =") {
            Some((id, words)) if line.starts_with(char::is_alphabetic) => {
                messages.push((id.to_owned(), words.trim().to_owned()));
            }
            _ => {
                if let Some((_, words)) = messages.last_mut() {
                    let _ = write!(words, "\n{line}");
                }
            }
        }
    }
    let mut said = String::new();
    for (id, words) in messages {
        let words = words.trim_end();
        let own = if id == "decimal-mark" {
            ",".to_owned()
        } else if words.contains('\n') || id.starts_with("word-") {
            pattern(words)
        } else {
            format!("«{}»", pattern(words))
        };
        let _ = writeln!(said, "{id} = {own}");
    }
    said
}

/// A template: what stands between its tags.
fn template(english: &str) -> String {
    let mut said = String::new();
    let mut rest = english;
    while let Some(at) = ["{{", "{%", "{#"]
        .iter()
        .filter_map(|tag| rest.find(tag))
        .min()
    {
        let end = match rest.as_bytes()[at + 1] {
            b'{' => "}}",
            b'%' => "%}",
            _ => "#}",
        };
        let stop = at + rest[at..].find(end).expect("the end of a tag") + 2;
        said.push_str(&text(&rest[..at], true));
        said.push_str(&rest[at..stop]);
        rest = &rest[stop..];
    }
    said + &text(rest, true)
}

/// A text of content: longer where there is room, with marks at its ends where it is one line.
fn said(english: &str, name: &str) -> String {
    let prose =
        english.contains('\n') || matches!(name, "instructor" | "disagreement" | "disagreements");
    if prose {
        return text(english, true);
    }
    let longer = text(english, true);
    if longer.chars().count() + 2 <= room(name) {
        format!("«{longer}»")
    } else {
        text(english, false)
    }
}

/// The file of a language as the Spanish one has it, with the texts of the English one.
fn file(out: &mut String, english: Option<&Node>, own: &Node, name: &str, depth: usize) {
    let indent = "  ".repeat(depth);
    let quoted = |text: &str| serde_json::to_string(text).expect("a text");
    for entry in own.entries() {
        let key = quoted(&entry.key);
        let below = english.and_then(|english| english.get(&entry.key));
        match &entry.node.value {
            Value::Map(_) => {
                let _ = writeln!(out, "{indent}{key}:");
                file(out, below, &entry.node, &entry.key, depth + 1);
            }
            Value::List(_) => {
                let _ = writeln!(out, "{indent}{key}:");
                let Some(Value::List(items)) = below.map(|below| &below.value) else {
                    panic!("no English list at {key}");
                };
                for item in items {
                    let one = said(item.text().expect("a text"), &entry.key);
                    let _ = writeln!(out, "{indent}- {}", quoted(&one));
                }
            }
            _ => {
                // names of kit and labels of drawings stand under their English words
                let (english, name) = match below.and_then(Node::text) {
                    Some(text) if name != "labels" => (text, entry.key.as_str()),
                    _ => (entry.key.as_str(), "label"),
                };
                let _ = writeln!(out, "{indent}{key}: {}", quoted(&said(english, name)));
            }
        }
    }
}

/// The files below a folder, by their path in it.
fn below(folder: &Path) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(at) = open.pop() {
        for file in std::fs::read_dir(&at).expect("a folder") {
            let path = file.expect("a file").path();
            if path.is_dir() {
                open.push(path);
            } else if let Ok(text) = std::fs::read_to_string(&path) {
                let inside = path.strip_prefix(folder).expect("inside");
                all.insert(inside.to_string_lossy().into_owned(), text);
            }
        }
    }
    all
}

/// The language in a folder of its own.
fn language() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let put = |path: String, text: &str| {
        let path = folder.path().join(path);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(path, text).expect("a file");
    };
    let content = root().join("content");
    for (path, english) in below(&content.join("words/en")) {
        put(format!("{CODE}/words/{path}"), &words(&english));
    }
    for (path, spanish) in below(&content.join("es")) {
        if !path.ends_with(".yaml") {
            continue;
        }
        let tree = |text: &str| load::text(&path, text).expect("YAML").root;
        let english = std::fs::read_to_string(content.join(&path)).ok();
        let english = english.map(|text| tree(&text));
        let mut own = String::new();
        file(&mut own, english.as_ref(), &tree(&spanish), "", 0);
        put(format!("{CODE}/{path}"), &own);
    }
    for (path, english) in below(&root().join("templates/sheets")) {
        put(
            format!("templates/{CODE}/sheets/{path}"),
            &template(&english),
        );
    }
    let english = std::fs::read_to_string(root().join("templates/page/words.json"));
    let english: BTreeMap<String, String> =
        serde_json::from_str(&english.expect("words")).expect("texts");
    let own: BTreeMap<_, _> = english
        .iter()
        .map(|(key, one)| (key, text(one, true)))
        .collect();
    let own = serde_json::to_string_pretty(&own).expect("JSON");
    put(format!("templates/{CODE}/page/words.json"), &own);
    folder
}

fn press(over: &[PathBuf], language: &str) -> Press {
    let told = |all: Vec<Problem>| -> ! { panic!("{}", report(&all)) };
    let ready = ready::library_in(over, language).unwrap_or_else(|all| told(all));
    Press::new(&ready.assets, ready.library, ready.digest).unwrap_or_else(|all| told(all))
}

/// Words of a sheet that no language was asked for: more than two letters, a vowel, no accent, and
/// not its file's own.
fn missed(markdown: &str, own: &[String]) -> BTreeSet<String> {
    // what opens a figure and what signals a caution is no word that is read
    let read = markdown
        .lines()
        .filter(|line| !line.starts_with("```") && !line.starts_with("> [!"));
    let mut text = read.collect::<Vec<_>>().join("\n").to_lowercase();
    for chosen in own.iter().filter(|text| text.len() > 3) {
        text = text.replace(chosen.as_str(), " ");
    }
    let plain = |word: &&str| {
        word.len() > 2
            && word.is_ascii()
            && word.contains(|letter| accented(letter).is_some())
            && !SIGNS.contains(word)
            && !NAMES.contains(word)
            && !own.iter().any(|name| name == word)
    };
    let all = text.split(|sign: char| !sign.is_alphabetic());
    all.filter(plain).map(str::to_owned).collect()
}

/// How many sides a sheet may have that has so many in English: a third more, one at least; cards
/// come in whole leaves.
fn most_sides(stem: &str, english: usize) -> usize {
    let leaf = usize::from(stem == "study-cards" || stem == "slides") * 3;
    english + english.div_ceil(3).max(1) + leaf
}

fn held(file: &Path, english: &Press, own: &Press) -> Vec<String> {
    let written = load::trip_file(file).expect("a trip");
    let made = |press: &Press, formats: &[Format]| -> Packet {
        let job = Job {
            formats: formats.to_vec(),
            ..Job::default()
        };
        let packet = press.packet(&written, &job);
        packet.unwrap_or_else(|all| panic!("{}: {}", file.display(), report(&all)))
    };
    let before = made(english, &[Format::Pdf]);
    let packet = made(own, &[Format::Md, Format::Pdf, Format::Html, Format::Docx]);
    let mut found = Vec::new();
    for (stem, line) in &before.lines {
        let sides = |line: Option<usize>| line.unwrap_or_default();
        let (pages, longer) = (sides(line.pages), sides(packet.lines[stem].pages));
        if longer > most_sides(stem, pages) {
            found.push(format!(
                "{} {stem}: {pages} sides become {longer}",
                packet.slug
            ));
        }
    }
    let chosen = own_words(&written);
    for (path, bytes) in packet
        .files
        .iter()
        .filter(|(path, _)| path.ends_with(".md"))
    {
        let text = std::str::from_utf8(bytes).expect("text");
        // titles of sources stay in the language of their source
        let missed = missed(text, &chosen);
        if !missed.is_empty() && !path.contains("sources") {
            found.push(format!("{} {path}: {missed:?}", packet.slug));
        }
        // a rule too long for its line says where the rule stands instead, after its own first words
        let cut: Vec<&str> = text
            .lines()
            .filter(|line| line.matches('«').count() != line.matches('»').count())
            .filter(|line| !line.ends_with("óówn rúúlé»"))
            .collect();
        if !cut.is_empty() {
            found.push(format!("{} {path}: something is cut: {cut:?}", packet.slug));
        }
    }
    let longer = ["render.too_long"];
    for one in &packet.warnings {
        if !longer.contains(&one.code) && !before.warnings.iter().any(|was| was.code == one.code) {
            found.push(format!("{}: {} {}", packet.slug, one.code, one.message));
        }
    }
    found
}

#[test]
fn no_word_is_missed_and_no_page_bursts_in_a_language_a_third_longer() {
    let folder = language();
    let (english, own) = (press(&[], "en"), press(&[folder.path().to_owned()], CODE));
    let trips = root().join("content/trips");
    let all = std::env::var("LEESIDE_PSEUDO").is_ok_and(|what| what == "all");
    let mut files: Vec<PathBuf> = if all {
        let listed = std::fs::read_dir(trips).expect("trips");
        listed.map(|file| file.expect("a file").path()).collect()
    } else {
        USUAL.map(|name| trips.join(format!("{name}.yaml"))).into()
    };
    files.sort();
    let found: Vec<String> = files
        .par_iter()
        .flat_map(|file| held(file, &english, &own))
        .collect();
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn the_language_is_made_as_it_says() {
    assert_eq!(word("water", true), "wáátéér");
    assert_eq!(
        text("Within 30 min of {distance}, `lid: no`", false),
        "Wíthín 30 min óf {distance}, `lid: no`"
    );
    let english =
        "one =\n    { $legs ->\n        [one] a leg\n       *[other] { $legs } legs\n    }\n";
    let own = words(english);
    assert!(
        own.contains("{ $legs ->") && own.contains("*[other] { $legs } léégs"),
        "{own}"
    );
    let own = words("two = { $stage ->\n        [burn] flame\n       *[other] none\n    }\n");
    assert!(own.contains("{ $stage-id ->"), "{own}");
    assert_eq!(
        template("{% if x %}Back by{% endif %} {{ x }}"),
        "{% if x %}Bááck býý{% endif %} {{ x }}"
    );
}
