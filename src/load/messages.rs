//! What a language says of problems, and of what was done: a list of English sentences, each with
//! its own.
//!
//! The English sentences stand beside the checks that say them; `es/words/messages.yaml` has each
//! of them and its Spanish words, in any order. The built-in list says which sentences there are,
//! so that another language can be held against it.

use super::assets::{Assets, CONTENT, built_in};
use super::language::{self, Coverage};
use super::node::{Entry, Node, Value, folded_key};
use super::yaml::parse;
use crate::diag::{Messages, Outcome, Problem, told};
use std::collections::{BTreeMap, BTreeSet};

/// The list of a language, in its folder.
pub const MESSAGES: &str = "words/messages.yaml";
/// The language whose built-in list has every sentence.
const WHOLE: &str = "es";
/// Problems that are told of a list before it is said how many more there are.
const MOST_TOLD: usize = 5;

/// The sentences of a language, and how far they are.
///
/// # Errors
/// The list is no YAML.
pub fn messages(assets: &Assets, language: &str) -> Outcome<(Messages, Coverage)> {
    let path = format!("{language}/{MESSAGES}");
    let known = known()?;
    let mut said = BTreeMap::new();
    let mut coverage = Coverage {
        of: known.len(),
        ..Coverage::default()
    };
    let hidden = assets.beneath.get(&path).into_iter().flatten();
    let mut root = None;
    for source in hidden.chain(assets.content.get(&path)) {
        let tree = parse(source).map_err(|problem| vec![problem])?;
        pairs(&tree, language, &known, &mut said, &mut coverage.problems);
        root = Some(tree);
    }
    coverage.said = known.iter().filter(|one| said.contains_key(*one)).count();
    coverage
        .problems
        .extend(missing(&known, &said, language, root.as_ref()));
    Ok((Messages::new(said), coverage))
}

/// Every English sentence there is.
fn known() -> Outcome<BTreeSet<String>> {
    let path = format!("{WHOLE}/{MESSAGES}");
    let Some(source) = CONTENT
        .get_file(&path)
        .and_then(|file| built_in("content", &path, file.contents()))
    else {
        return Ok(BTreeSet::new());
    };
    let root = parse(&source).map_err(|problem| vec![problem])?;
    let english = items(&root)
        .iter()
        .filter_map(|item| item.get("en")?.text());
    Ok(english.map(str::to_owned).collect())
}

fn items(root: &Node) -> &[Node] {
    match &root.value {
        Value::List(items) => items,
        _ => &[],
    }
}

/// Puts the pairs of a list to those that are said already.
fn pairs(
    root: &Node,
    language: &str,
    known: &BTreeSet<String>,
    said: &mut BTreeMap<String, String>,
    problems: &mut Vec<Problem>,
) {
    if !matches!(root.value, Value::List(_)) {
        problems.push(root.problem(Problem::error(
            "language.shape",
            "the messages of a language are a list",
            "write `- en:` and the English sentence, and its own below it",
        )));
    }
    for item in items(root) {
        let own = |wanted: &str| {
            let entries = item.entries().iter();
            let mut found = entries.filter(|entry: &&Entry| folded_key(&entry.key) == wanted);
            found.next().and_then(|entry| entry.node.text())
        };
        let (Some(english), Some(words)) = (own("en"), own(language)) else {
            problems.push(item.problem(Problem::error(
                "language.shape",
                told!(
                    "a message has its English sentence under `en` and its own under `{language}`",
                    language
                ),
                "write both, each between quotation marks",
            )));
            continue;
        };
        if !known.contains(english) {
            problems.push(item.problem(Problem::error(
                "language.stranger",
                "no message has this English sentence",
                "copy it from the built-in list, `leeside unpack DIR`, or take it out",
            )));
        } else if names(english) != names(words) {
            problems.push(item.problem(Problem::error(
                "language.value",
                "the two sentences do not have the same names in braces",
                "write each name of the English sentence where its value is to stand",
            )));
        }
        said.insert(english.to_owned(), words.to_owned());
    }
}

/// What a list leaves out.
fn missing(
    known: &BTreeSet<String>,
    said: &BTreeMap<String, String>,
    language: &str,
    root: Option<&Node>,
) -> Option<Problem> {
    let lacks: Vec<String> = known
        .iter()
        .filter(|one| !said.contains_key(*one))
        .map(|one| format!("`{one}`"))
        .collect();
    let first = lacks.iter().take(MOST_TOLD);
    let first: Vec<&str> = first.map(String::as_str).collect();
    let problem = Problem::error(
        "language.missing",
        told!(
            "{count} messages have no words in `{language}`",
            count = lacks.len(),
            language
        ),
        told!(
            "write them in `content/{language}/{MESSAGES}`; the first are {first}",
            language,
            MESSAGES,
            first = first.join(", ")
        ),
    );
    (!lacks.is_empty()).then(|| root.map_or(problem.clone(), |root| root.problem(problem)))
}

/// The names in braces; `{{` is a brace.
fn names(sentence: &str) -> BTreeSet<String> {
    let plain = sentence.replace("{{", "").replace("}}", "");
    let parts = plain.split('{').skip(1);
    let found = parts.filter_map(|part| part.split_once('}'));
    found.map(|(name, _)| name.to_owned()).collect()
}

/// Whether a file of a language holds its messages.
pub(super) fn holds_messages(path: &str) -> bool {
    language::of(path).is_some_and(|(_, inside)| inside == MESSAGES)
}

/// The first language that a profile names, found by its id or its name.
#[must_use]
pub fn language_of_profile(assets: &Assets, wanted: &str) -> Option<String> {
    let files = assets.content.iter();
    let mut profiles =
        files.filter(|(path, _)| path.starts_with("profiles/") && path.ends_with(".yaml"));
    profiles.find_map(|(path, source)| {
        let root = parse(source).ok()?;
        let named = root.get("name").and_then(Node::text).unwrap_or_default();
        let id = path.strip_prefix("profiles/")?.strip_suffix(".yaml")?;
        let is =
            crate::nouns::id(wanted) == id || crate::nouns::id(named) == crate::nouns::id(wanted);
        let language = is.then(|| root.get("language")?.first())??;
        Some(language.to_lowercase())
    })
}
