//! Proves a template before it is used: every name in it exists in the view,
//! and nothing in it can undo the escaping of values.
//!
//! The template engine takes `{% if x.typo %}` for "no" and prints nothing, so
//! a misspelt name would quietly drop a line, perhaps a caution. Here every
//! dotted name is looked up in a full sample of the view instead.

use super::scan::{self, Tag, Token};
use crate::diag::{Place, Problem, Told, nearest, told};
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The template of shared components, the only one that may lift the escaping.
pub const PARTS: &str = "sheets/parts.md";

/// Names that open or close blocks and bind operators.
const WORDS: [&str; 22] = [
    "if",
    "elif",
    "else",
    "endif",
    "for",
    "in",
    "endfor",
    "set",
    "and",
    "or",
    "not",
    "is",
    "true",
    "false",
    "component",
    "endcomponent",
    "raw",
    "endraw",
    "filter",
    "endfilter",
    "break",
    "continue",
];

/// Tags that would bring in text that this proof has not read.
const REFUSED_TAGS: [&str; 6] = [
    "include",
    "extends",
    "block",
    "import",
    "macro",
    "set_global",
];

/// What a name stands for: a piece of the sample view.
type Scope = Vec<(String, Value)>;

/// Proves one template against a full sample of its view.
///
/// `parts` holds the shared components, so that what they do with a value is
/// proven with the value they are given.
#[must_use]
pub fn names(name: &str, text: &str, parts: &str, sample: &Value) -> Vec<Problem> {
    let mut proof = Proof {
        file: Arc::from(name),
        text,
        components: components(parts),
        problems: Vec::new(),
        depth: 0,
    };
    let tags = scan::tags(text);
    let mut scope: Scope = sample
        .as_object()
        .map(|map| {
            map.iter()
                .map(|(key, value)| (key.clone(), value.clone()))
                .collect()
        })
        .unwrap_or_default();
    proof.walk(&tags, &mut scope);
    proof.problems.dedup();
    proof.problems
}

/// A component of the shared template: its arguments and the tags in its body.
struct Component {
    arguments: Vec<String>,
    body: Vec<Tag>,
    text: Arc<str>,
}

fn components(parts: &str) -> BTreeMap<String, Component> {
    let text: Arc<str> = Arc::from(parts);
    let mut found = BTreeMap::new();
    let mut open: Option<(String, Component)> = None;
    for tag in scan::tags(parts) {
        match tag.word() {
            Some("component") => {
                let names: Vec<String> = tag.tokens[1..]
                    .iter()
                    .filter_map(|token| match token {
                        Token::Name(name, _) => Some(name.clone()),
                        _ => None,
                    })
                    .collect();
                if let Some((name, arguments)) = names.split_first() {
                    open = Some((
                        name.clone(),
                        Component {
                            arguments: arguments.to_vec(),
                            body: Vec::new(),
                            text: text.clone(),
                        },
                    ));
                }
            }
            Some("endcomponent") => {
                if let Some((name, component)) = open.take() {
                    found.insert(name, component);
                }
            }
            _ => {
                if let Some((_, component)) = &mut open {
                    component.body.push(tag);
                }
            }
        }
    }
    found
}

struct Proof<'a> {
    file: Arc<str>,
    text: &'a str,
    components: BTreeMap<String, Component>,
    problems: Vec<Problem>,
    depth: usize,
}

impl Proof<'_> {
    fn problem(
        &mut self,
        at: usize,
        code: &'static str,
        message: impl Into<Told>,
        help: impl Into<Told>,
    ) {
        let place = place(&self.file, self.text, at);
        self.problems
            .push(Problem::error(code, message, help).placed(place));
    }

    /// Goes through tags in order, keeping what the loop names stand for.
    fn walk(&mut self, tags: &[Tag], scope: &mut Scope) {
        let mut loops: Vec<usize> = Vec::new();
        for tag in tags {
            match tag.word() {
                Some(word) if REFUSED_TAGS.contains(&word) => self.problem(
                    tag.at,
                    "template.tag",
                    told!("a sheet's template cannot use `{word}`", word),
                    "write the text out, or use a component of parts.md",
                ),
                Some("for") => {
                    loops.push(scope.len());
                    self.bind_loop(tag, scope);
                }
                Some("endfor") => {
                    if let Some(length) = loops.pop() {
                        scope.truncate(length);
                    }
                }
                Some("set") => {
                    let value = self.expression(tag, 3, scope);
                    if let Some(Token::Name(name, _)) = tag.tokens.get(1) {
                        scope.push((name.clone(), value));
                    }
                }
                Some("component" | "endcomponent") if self.depth == 0 => self.problem(
                    tag.at,
                    "template.tag",
                    Told::from("components belong in parts.md"),
                    "move it there",
                ),
                Some("endcomponent" | "raw" | "endraw") => {}
                Some(_) => {
                    self.expression(tag, 1, scope);
                }
                None => {
                    let value = self.expression(tag, 0, scope);
                    if matches!(value, Value::Array(_) | Value::Object(_)) {
                        self.problem(
                            tag.at,
                            "template.value",
                            Told::from("this prints a whole list or group of values"),
                            "name one text in it, or loop over it; prose goes through <prose of={..} />",
                        );
                    }
                }
            }
        }
    }

    /// `for x in list`: x stands for the list's first entry.
    fn bind_loop(&mut self, tag: &Tag, scope: &mut Scope) {
        let names: Vec<&str> = tag
            .tokens
            .iter()
            .skip(1)
            .map_while(|token| match token {
                Token::Name(name, _) if name == "in" => None,
                Token::Name(name, _) => Some(name.as_str()),
                _ => Some(","),
            })
            .collect();
        let value = self.expression(tag, names.len() + 2, scope);
        let one = match &value {
            Value::Array(entries) => entries.first().cloned().unwrap_or(Value::Null),
            Value::Null => Value::Null,
            _ => {
                self.problem(
                    tag.at,
                    "template.value",
                    Told::from("this loops over something that is no list"),
                    "name a list of the view",
                );
                Value::Null
            }
        };
        let Some(first) = names.first() else { return };
        scope.push(((*first).to_owned(), one));
    }

    /// Checks what stands from a token on; gives the value when it is one name alone.
    fn expression(&mut self, tag: &Tag, from: usize, scope: &Scope) -> Value {
        let tokens = tag.tokens.get(from..).unwrap_or_default();
        if let [Token::Sign('<', _), Token::Name(name, at), rest @ ..] = tokens {
            self.call(name, *at, rest, scope);
            return Value::Null;
        }
        let mut only = Value::Null;
        let mut values = 0;
        for (index, token) in tokens.iter().enumerate() {
            let before = index.checked_sub(1).map(|before| &tokens[before]);
            match token {
                Token::Name(name, at) => {
                    let after_pipe = matches!(before, Some(Token::Sign('|', _)));
                    let after_is = matches!(before, Some(Token::Name(word, _)) if word == "is")
                        || matches!(before, Some(Token::Name(word, _)) if word == "not")
                            && matches!(index.checked_sub(2).map(|two| &tokens[two]), Some(Token::Name(word, _)) if word == "is");
                    let calls = matches!(tokens.get(index + 1), Some(Token::Sign('(', _)));
                    let names_argument = matches!(tokens.get(index + 1), Some(Token::Sign('=', _)))
                        && !matches!(tokens.get(index + 2), Some(Token::Sign('=', _)))
                        && !matches!(before, Some(Token::Sign('=', _)));
                    if after_pipe {
                        self.filter(name, *at);
                    } else if after_is || names_argument || WORDS.contains(&name.as_str()) {
                    } else if calls {
                        self.problem(
                            *at,
                            "template.function",
                            told!("a sheet's template cannot call `{name}`", name),
                            "have the value ready in the view",
                        );
                    } else {
                        only = self.look_up(name, *at, scope);
                        values += 1;
                    }
                }
                Token::Sign('+' | '*' | '/' | '%' | '~', at) => self.problem(
                    *at,
                    "template.arithmetic",
                    Told::from("a sheet's template works nothing out"),
                    "have the value ready in the view",
                ),
                Token::Sign('-', at) if index + 1 < tokens.len() => self.problem(
                    *at,
                    "template.arithmetic",
                    Told::from("a sheet's template works nothing out"),
                    "have the value ready in the view",
                ),
                _ => {}
            }
        }
        if values == 1 && tokens.len() == 1 {
            only
        } else {
            Value::Null
        }
    }

    fn filter(&mut self, name: &str, at: usize) {
        if name == "safe" && self.depth == 0 && &*self.file != PARTS {
            self.problem(
                at,
                "template.safe",
                Told::from("only the component `prose` of parts.md may print text as it is"),
                "write {{ <prose of={..} /> }} for a module's prose; leave `| safe` out elsewhere",
            );
        }
    }

    /// A component: its arguments are looked up and its body proven with them.
    fn call(&mut self, name: &str, at: usize, rest: &[Token], scope: &Scope) {
        let mut given: Scope = Vec::new();
        let mut index = 0;
        while index < rest.len() {
            if let (Some(Token::Name(argument, _)), Some(Token::Sign('=', _))) =
                (rest.get(index), rest.get(index + 1))
            {
                match (rest.get(index + 2), rest.get(index + 3)) {
                    (Some(Token::Sign('{', _)), Some(Token::Name(path, at))) => {
                        let value = if path == "true" || path == "false" {
                            Value::Bool(path == "true")
                        } else {
                            self.look_up(path, *at, scope)
                        };
                        given.push((argument.clone(), value));
                        index += 4;
                    }
                    (Some(Token::Text(..)), _) => {
                        given.push((argument.clone(), Value::String("words".to_owned())));
                        index += 2;
                    }
                    _ => index += 1,
                }
            }
            index += 1;
        }
        if self.depth > 8 {
            return;
        }
        let Some(component) = self.components.get(name) else {
            let known = self.components.keys().map(String::as_str);
            let help = nearest(name, known).map_or_else(
                || Told::from("use one of parts.md"),
                |near| told!("did you mean `{near}`?", near),
            );
            self.problem(
                at,
                "template.component",
                told!("no component is called `{name}`", name),
                help,
            );
            return;
        };
        for argument in &component.arguments {
            if !given.iter().any(|(name, _)| name == argument) {
                given.push((argument.clone(), Value::Null));
            }
        }
        let (body, text) = (component.body.clone(), component.text.clone());
        let mut inner = Proof {
            file: Arc::from(PARTS),
            text: &text,
            components: std::mem::take(&mut self.components),
            problems: Vec::new(),
            depth: self.depth + 1,
        };
        inner.walk(&body, &mut given);
        self.components = std::mem::take(&mut inner.components);
        self.problems.append(&mut inner.problems);
    }

    /// A dotted name in the sample; null stands for what cannot be known.
    fn look_up(&mut self, path: &str, at: usize, scope: &Scope) -> Value {
        if path == "__tera_context" {
            self.problem(
                at,
                "template.name",
                Told::from("`__tera_context` prints every value at once"),
                "name the values that the sheet needs",
            );
            return Value::Null;
        }
        let mut parts = path.split('.');
        let first = parts.next().unwrap_or_default();
        if first == "loop" {
            return Value::Null;
        }
        let Some((_, value)) = scope.iter().rev().find(|(name, _)| name == first) else {
            let names: Vec<&str> = scope.iter().map(|(name, _)| name.as_str()).collect();
            self.unknown(path, first, at, names);
            return Value::Null;
        };
        let mut value = value.clone();
        for part in parts {
            match value {
                Value::Null => return Value::Null,
                Value::Object(ref map) if map.contains_key(part) => value = map[part].clone(),
                Value::Object(ref map) => {
                    let names = map.keys().map(String::as_str).collect();
                    self.unknown(path, part, at, names);
                    return Value::Null;
                }
                _ => {
                    self.unknown(path, part, at, Vec::new());
                    return Value::Null;
                }
            }
        }
        value
    }

    fn unknown(&mut self, path: &str, part: &str, at: usize, known: Vec<&str>) {
        let near = nearest(part, known.iter().copied());
        let help = match (near, known.is_empty()) {
            (Some(near), _) => told!("did you mean `{near}`?", near),
            (None, true) => Told::from("it is a text and has nothing inside"),
            (None, false) => told!("here one of: {known}", known = known.join(", ")),
        };
        self.problem(
            at,
            "template.name",
            told!("the sheet's view has no `{part}` (in `{path}`)", part, path),
            help,
        );
    }
}

/// Line and column of a byte in a template.
#[must_use]
pub fn place(file: &Arc<str>, text: &str, at: usize) -> Place {
    let before = &text[..at.min(text.len())];
    let line = before.matches('\n').count() + 1;
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let shown: String = text[start..]
        .lines()
        .next()
        .unwrap_or("")
        .chars()
        .take(120)
        .collect();
    Place {
        file: file.clone(),
        line,
        column: text[start..before.len()].chars().count() + 1,
        width: 1,
        text: shown,
    }
}
