//! The file of words that pages have by themselves: one a language, all with the keys of the
//! built-in English one, and with the values that it puts in.

use super::assets::built_in_template;
use super::language::{self, WORDS};
use super::node::{Node, Value};
use super::yaml::parse;
use crate::diag::{Outcome, Problem, Source, Told, nearest, told};
use std::collections::{BTreeMap, BTreeSet};

/// Keys that are told of a file before it is said that there are more.
const MOST_TOLD: usize = 5;

/// Whether a template's name is that of a file of words, of any language.
#[must_use]
pub fn are_words(name: &str) -> bool {
    name == WORDS || language::of(name).is_some_and(|(_, path)| path == WORDS)
}

/// The words of a file by their keys.
///
/// # Errors
/// The file is not as JSON is written; a key is missing, misspelt or holds no words; words do not
/// put in what the English ones put in, or something else.
pub fn page_words(source: &Source) -> Outcome<BTreeMap<String, String>> {
    let root = parse(source).map_err(|problem| vec![problem])?;
    let english = match built_in_template(WORDS) {
        Some(english) if english.name != source.name => {
            parse(&english).map_err(|problem| vec![problem])?
        }
        _ => root.clone(),
    };
    let mut said = BTreeMap::new();
    let mut problems = Vec::new();
    for entry in root.entries() {
        let Some(meant) = english.get(&entry.key) else {
            problems.push(entry.at.problem(stranger(&entry.key, &english)));
            continue;
        };
        match &entry.node.value {
            Value::Text(words) if !words.trim().is_empty() => {
                let meant = values(meant.text().unwrap_or_default());
                problems
                    .extend(unlike(&entry.key, &meant, words).map(|one| entry.node.problem(one)));
                said.insert(entry.key.clone(), words.clone());
            }
            _ => problems.push(entry.at.problem(Problem::error(
                "words.none",
                told!("`{key}` holds no words", key = entry.key),
                "write them between quotation marks after the colon",
            ))),
        }
    }
    problems.extend(missing(&root, &english));
    if problems.is_empty() {
        Ok(said)
    } else {
        Err(problems)
    }
}

/// That a key stands for nothing.
fn stranger(key: &str, english: &Node) -> Problem {
    let known = english.entries().iter().map(|entry| entry.key.as_str());
    let help = nearest(key, known).map_or_else(
        || Told::from("delete it: no page says it"),
        |near| told!("perhaps `{near}` is meant", near),
    );
    Problem::error(
        "words.unknown",
        told!("no page has words under `{key}`", key),
        help,
    )
}

/// The keys that a file lacks.
fn missing(root: &Node, english: &Node) -> Option<Problem> {
    let has: BTreeSet<&str> = root.entries().iter().map(|one| one.key.as_str()).collect();
    let lacks: Vec<&str> = english
        .entries()
        .iter()
        .map(|one| one.key.as_str())
        .filter(|key| !has.contains(key))
        .collect();
    let first = lacks.first()?;
    let named: Vec<String> = lacks
        .iter()
        .take(MOST_TOLD)
        .map(|key| format!("`{key}`"))
        .collect();
    let (said, more) = match lacks.len() {
        1 => (told!("there are no words under `{first}`", first), ""),
        ..=MOST_TOLD => (Told::from("some keys have no words"), ""),
        _ => (Told::from("many keys have no words"), " and the others"),
    };
    let help = told!(
        "write {named}{more} in this file, each with its words: the built-in English file has them all",
        named = named.join(", "),
        more = Told::from(more)
    );
    Some(root.problem(Problem::error("words.missing", said, help)))
}

/// That words do not put in the values that the English ones put in.
fn unlike(key: &str, meant: &BTreeSet<&str>, words: &str) -> Option<Problem> {
    let own = values(words);
    if let Some(lost) = meant.difference(&own).next() {
        return Some(Problem::error(
            "words.value",
            told!("the words under `{key}` leave out `{{{lost}}}`", key, lost),
            told!("write `{{{lost}}}` where its value is to stand", lost),
        ));
    }
    let odd = own.difference(meant).next()?;
    let help = if meant.is_empty() {
        Told::from("delete it: nothing is put in here")
    } else {
        let known: Vec<String> = meant.iter().map(|one| format!("`{{{one}}}`")).collect();
        told!("only {known} can stand here", known = known.join(", "))
    };
    Some(Problem::error(
        "words.value",
        told!("nothing is put in for `{{{odd}}}` under `{key}`", odd, key),
        help,
    ))
}

/// The names in braces.
fn values(words: &str) -> BTreeSet<&str> {
    words
        .split('{')
        .skip(1)
        .filter_map(|part| part.split_once('}').map(|(name, _)| name))
        .collect()
}
