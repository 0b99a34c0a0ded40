//! Content in another language: its texts, laid over the English ones key by key.
//!
//! `es/modules/greywater.yaml` has the keys of `modules/greywater.yaml` that are read by people,
//! and nothing else. Every such text must be there: a sheet speaks one language or is not made.

use super::node::{Entry, Node, Value, same_key};
use crate::diag::{Problem, Told, nearest, told};
use std::collections::{BTreeMap, BTreeSet};

/// The language of the content itself.
pub const ENGLISH: &str = "en";

/// Languages that need more than a page set from left to right with spaces between words.
const NOT_BUILT: &[&str] = &[
    "ar", "dv", "fa", "he", "ja", "km", "lo", "my", "ps", "th", "ur", "yi", "zh",
];

/// What stands in a language's folder for names of kit, English to its own.
pub const KIT: &str = "kit.yaml";

/// What pages say by themselves: its path among the templates, and in the folder of each language.
pub const WORDS: &str = "page/words.json";

/// Problems that are told of a file before it is said how many more there are.
const MOST_TOLD: usize = 5;

/// Keys whose values are read by people, by the folder or file that they stand in.
fn texts(path: &str) -> &'static [&'static str] {
    match path.split_once('/').map_or(path, |(folder, _)| folder) {
        "modules" => &[
            "title",
            "summary",
            "text",
            "instructor",
            "story",
            "first_response",
            "say",
            "disagreement",
            "hazard",
            "consequence",
            "avoid",
            "respond",
            "behaviours",
            "ask",
            "choices",
            "because",
            "answer",
            "set_out",
            "show",
            "sentence",
            "watch_for",
            "stop_if",
            "alone",
            "caption",
            "alt",
        ],
        "places" => &[
            "title",
            "summary",
            "text",
            "note",
            "disagreement",
            "disagreements",
            "say",
        ],
        "gear" => &["name", "also_called", "note", "spares"],
        "menus.yaml" => &["name"],
        "figures.yaml" => &["what"],
        "library.yaml" => &["title", "standing_line"],
        _ => &[],
    }
}

/// The language and the path in it that a content file is for: `es` and `modules/greywater.yaml`
/// of `es/modules/greywater.yaml`; none for a file of the library itself.
#[must_use]
pub fn of(path: &str) -> Option<(&str, &str)> {
    let (folder, rest) = path.split_once('/')?;
    let code =
        (2..=3).contains(&folder.len()) && folder.bytes().all(|one| one.is_ascii_lowercase());
    code.then_some((folder, rest))
}

/// Whether a file of a language holds words of sheets.
pub fn holds_words(inside: &str) -> bool {
    inside.starts_with("words/") && inside.ends_with(".ftl")
}

/// The languages that content files speak beside English.
pub fn spoken<'a>(paths: impl Iterator<Item = &'a String>) -> Vec<String> {
    let mut all: Vec<String> = paths
        .filter_map(|path| of(path))
        .map(|(code, _)| code.to_owned())
        .collect();
    all.push(ENGLISH.to_owned());
    all.sort();
    all.dedup();
    all
}

/// That a language is asked for which there is not.
#[must_use]
pub fn unknown(language: &str, spoken: &[String]) -> Problem {
    if NOT_BUILT.contains(&language) {
        return Problem::error(
            "language.script",
            told!(
                "sheets in `{language}` are not built: its letters run the other way or have no spaces",
                language
            ),
            told!("choose one of: {spoken}", spoken = spoken.join(", ")),
        );
    }
    let help = match nearest(language, spoken.iter().map(String::as_str)) {
        Some(near) => told!("perhaps `{near}` is meant", near),
        None => told!(
            "there is {spoken}; a new one is a folder of content, see content/README.md",
            spoken = spoken.join(", ")
        ),
    };
    Problem::error(
        "language.unknown",
        told!("there is no content in the language `{language}`", language),
        help,
    )
}

/// How far a language is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Coverage {
    /// Texts that people read.
    pub of: usize,
    /// Those that the language has.
    pub said: usize,
    /// What is wrong or missing.
    pub problems: Vec<Problem>,
}

impl Coverage {
    /// Lays the texts of one file over it.
    pub(super) fn lay(&mut self, language: &str, path: &str, base: &mut Node, over: Option<&Node>) {
        let mut laying = Laying {
            file: format!("content/{language}/{path}"),
            texts: texts(path),
            missing: Vec::new(),
            coverage: self,
        };
        laying.node(base, over, 0, "");
        let missing = std::mem::take(&mut laying.missing);
        let file = std::mem::take(&mut laying.file);
        if let Some((first, node)) = missing.first() {
            let (more, count) = (missing.len() - 1, missing.len());
            let keys: Vec<&str> = missing
                .iter()
                .take(MOST_TOLD)
                .map(|(key, _)| key.as_str())
                .collect();
            let rest = match missing.len().saturating_sub(MOST_TOLD) {
                0 => Told::NOTHING,
                rest => told!(" and {rest} more", rest),
            };
            let said = if more == 0 {
                told!("`{first}` has no words in `{language}`", first, language)
            } else {
                told!(
                    "{count} texts of this file have no words in `{language}`",
                    count,
                    language
                )
            };
            let problem = Problem::error(
                "language.missing",
                said,
                told!(
                    "write {keys}{rest} in `{file}`; no sheet falls back on English",
                    keys = keys.join(", "),
                    rest,
                    file
                ),
            );
            self.problems.push(node.problem(problem));
        }
        if let Some(over) = over {
            strangers(base, over, &mut self.problems);
        }
    }
}

/// One file on its way.
struct Laying<'c> {
    file: String,
    texts: &'static [&'static str],
    missing: Vec<(String, Node)>,
    coverage: &'c mut Coverage,
}

impl Laying<'_> {
    fn node(&mut self, base: &mut Node, over: Option<&Node>, depth: usize, key: &str) {
        let path = base.path.to_string();
        let drawing = depth == 2 && path.starts_with("drawings.");
        let number = depth == 2 && base.get("kind").and_then(Node::text) == Some("number");
        if drawing {
            self.labels(base, over.and_then(|over| over.get("labels")));
        }
        let is_text = self.is_text(key, depth, &base.value);
        match &mut base.value {
            Value::Map(entries) => {
                for entry in entries {
                    if (number && same_key(&entry.key, "answer"))
                        || (drawing && same_key(&entry.key, "shapes"))
                    {
                        continue;
                    }
                    let over = over.and_then(|over| over.get(&entry.key));
                    let name = entry.key.clone();
                    self.node(&mut entry.node, over, depth + 1, &name);
                }
            }
            Value::Text(_) | Value::List(_) if is_text => {
                self.coverage.of += 1;
                match over {
                    Some(over) if alike(&base.value, &over.value) => {
                        self.coverage.said += 1;
                        self.coverage.problems.extend(loses(base, over));
                        base.value = over.value.clone();
                        base.at = over.at.clone();
                    }
                    Some(over) => self.coverage.problems.push(over.problem(Problem::error(
                        "language.shape",
                        told!(
                            "`{key}` must be {value} here",
                            key,
                            value = shape(&base.value)
                        ),
                        "write one for each English one, in their order",
                    ))),
                    None => self.missing.push((path, base.clone())),
                }
            }
            _ => {}
        }
    }

    /// Whether a value is read by people. The `hazard` at the top of a module is a yes or no.
    fn is_text(&self, key: &str, depth: usize, value: &Value) -> bool {
        let named = self.texts.iter().any(|text| same_key(text, key));
        let words = match value {
            Value::List(items) => items.iter().all(|item| item.text().is_some()),
            _ => !(depth == 1 && same_key(key, "hazard")),
        };
        named && words
    }

    /// The labels of a drawing: a list of English words and their own.
    fn labels(&mut self, base: &mut Node, over: Option<&Node>) {
        let Value::Map(entries) = &mut base.value else {
            return;
        };
        let Some(shapes) = entries
            .iter_mut()
            .find(|entry| same_key(&entry.key, "shapes"))
        else {
            return;
        };
        let Value::List(shapes) = &mut shapes.node.value else {
            return;
        };
        for shape in shapes {
            let Value::Map(entries) = &mut shape.value else {
                continue;
            };
            let Some(label) = entries
                .iter_mut()
                .find(|entry| same_key(&entry.key, "label"))
            else {
                continue;
            };
            let Some(words) = label.node.text().map(str::to_owned) else {
                continue;
            };
            self.coverage.of += 1;
            let found = over.and_then(|over| exact(over, &words));
            match found {
                Some(own) if own.text().is_some() => {
                    self.coverage.said += 1;
                    label.node.value = own.value.clone();
                    label.node.at = own.at.clone();
                }
                _ => {
                    let key = format!("{}.labels.{words}", base.path);
                    self.missing.push((key, label.node.clone()));
                }
            }
        }
    }
}

/// That a file of a language stands over nothing.
pub(super) fn unplaced(path: &str, root: &Node) -> Problem {
    root.problem(Problem::error(
        "language.unplaced",
        told!(
            "there is no English `content/{path}` that this file could say in its own words",
            path
        ),
        "give it the path of the English file, inside the folder of its language",
    ))
}

/// What a key holds that is written exactly so: labels differ in capitals.
fn exact<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    let entries = node.entries().iter();
    entries
        .filter(|entry| entry.key == key)
        .map(|entry| &entry.node)
        .next()
}

fn alike(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Text(_), Value::Text(_)) => true,
        (Value::List(a), Value::List(b)) => {
            a.len() == b.len() && b.iter().all(|item| item.text().is_some())
        }
        _ => false,
    }
}

/// That a text leaves out a value that the English one puts in.
fn loses(base: &Node, over: &Node) -> Option<Problem> {
    if let (Value::List(items), Value::List(own)) = (&base.value, &over.value) {
        return items
            .iter()
            .zip(own)
            .find_map(|(base, own)| loses(base, own));
    }
    let (english, own) = (base.text()?, over.text()?);
    let own: BTreeSet<&str> = placed(own).collect();
    let lost = placed(english).find(|name| !own.contains(name))?;
    Some(over.problem(Problem::error(
        "language.placeholder",
        told!(
            "these words leave out `{{{lost}}}`, which the English ones put in",
            lost
        ),
        told!("write `{{{lost}}}` where the value belongs", lost),
    )))
}

/// The names in braces of a text, which values take the place of.
fn placed(text: &str) -> impl Iterator<Item = &str> {
    let parts = text.split('{').skip(1);
    parts
        .filter_map(|part| part.split_once('}'))
        .map(|(name, _)| name)
        .filter(|name| {
            let sign = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '.' | '_');
            !name.is_empty() && name.chars().all(sign)
        })
}

fn shape(value: &Value) -> Told {
    match value {
        Value::List(items) => told!("a list of {count}", count = items.len()),
        _ => Told::from("one text"),
    }
}

/// Keys that the English file does not have: most likely misspelt.
fn strangers(base: &Node, over: &Node, problems: &mut Vec<Problem>) {
    for Entry { key, node, at } in over.entries() {
        if same_key(key, "labels") || (base.path.is_empty() && same_key(key, "base")) {
            continue;
        }
        match base.get(key) {
            Some(beneath) => strangers(beneath, node, problems),
            None => {
                let known = base.entries().iter().map(|entry| entry.key.as_str());
                let help = match nearest(key, known) {
                    Some(near) => told!("perhaps `{near}` is meant", near),
                    None => {
                        Told::from("delete it: a language only says what the English file holds")
                    }
                };
                problems.push(at.problem(Problem::error(
                    "language.stranger",
                    told!("the English file has no `{key}` here", key),
                    help,
                )));
            }
        }
    }
}

/// Names of kit in a language, by the English ones.
///
/// Each name of kit that a segment asks for must be there; others may, for a thing that segments
/// want in one state and another.
pub(super) fn kit(
    files: &BTreeMap<String, Node>,
    language: &str,
    list: Option<&Node>,
    coverage: &mut Coverage,
) -> BTreeMap<String, String> {
    let listed = list.map(Node::entries).unwrap_or_default().iter();
    let names: BTreeMap<String, String> = listed
        .filter_map(|entry| Some((entry.key.clone(), entry.node.text()?.to_owned())))
        .collect();
    let mut asked = BTreeSet::new();
    for (path, root) in files {
        if !path.starts_with("modules/") {
            continue;
        }
        let segments = root.get("segments").map(Node::entries).unwrap_or_default();
        for segment in segments {
            for entry in segment
                .node
                .get("kit")
                .map(Node::entries)
                .unwrap_or_default()
            {
                if !asked.insert(&entry.key) {
                    continue;
                }
                coverage.of += 1;
                match names.get(&entry.key) {
                    Some(_) => coverage.said += 1,
                    None => coverage.problems.push(entry.at.problem(Problem::error(
                        "language.missing",
                        told!(
                            "`{key}` has no name in `{language}`",
                            key = entry.key,
                            language
                        ),
                        told!("write it in `content/{language}/{KIT}`", language, KIT),
                    ))),
                }
            }
        }
    }
    names
}
