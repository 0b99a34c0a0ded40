//! Where a file is read against what it should be: problems pile up on the
//! desk, and every default that is used is noted.

use crate::diag::{Outcome, Problem, Severity, Told, near, nearest, told};
use crate::load::{Node, Value, folded_key, same_key};
use crate::nouns::{Assumed, Because, Presumed};
use std::cell::{Cell, RefCell};

/// No more problems than this are listed for one reading: nobody reads further.
const MOST_PROBLEMS: usize = 100;

/// More names than this are not listed in a message.
const LONGEST_LIST: usize = 12;

/// Keys that are often written one level too far out, with the key that they belong below.
const HOMES: &[(&[&str], &str)] = &[
    (
        &[
            "learners",
            "instructors",
            "youngest",
            "diet",
            "adults_per_lit_stove",
        ],
        "people",
    ),
    (
        &["name", "nights", "elevation", "night", "day", "wind"],
        "camps",
    ),
    (&["boil", "simmer"], "supper"),
    (&["supper", "breakfast", "lunch", "drinks"], "menu"),
    (&["call", "nearest_help"], "emergency"),
    (&["stoves", "stage", "checked", "until"], "restrictions"),
    (
        &["minutes", "focus", "fallback", "level", "sessions"],
        "course",
    ),
];

/// Quotes that a word processor writes.
const CURLY: [char; 4] = ['\u{201c}', '\u{201d}', '\u{2018}', '\u{2019}'];

/// Problems and defaults, as they are found.
#[derive(Default)]
pub(super) struct Desk {
    problems: RefCell<Vec<Problem>>,
    assumed: RefCell<Vec<Assumed>>,
    failed: Cell<bool>,
    unlisted: Cell<usize>,
}

impl Desk {
    /// Notes a problem that has its place.
    pub fn put(&self, problem: Problem) {
        if problem.severity == Severity::Error {
            self.failed.set(true);
        }
        self.problems.borrow_mut().push(problem);
    }

    /// Whether an error was found.
    pub fn failed(&self) -> bool {
        self.failed.get()
    }

    /// Whether an error at a key path is known already.
    pub fn told(&self, path: &str) -> bool {
        let problems = self.problems.borrow();
        problems
            .iter()
            .any(|one| one.severity == Severity::Error && one.path.as_deref() == Some(path))
    }

    /// Whether enough problems lie here. Then one more is counted only: to look
    /// up its place would take time that nobody gets anything for.
    fn full(&self, severity: Severity) -> bool {
        let full = self.problems.borrow().len() >= MOST_PROBLEMS;
        if full {
            self.unlisted.set(self.unlisted.get() + 1);
            if severity == Severity::Error {
                self.failed.set(true);
            }
        }
        full
    }

    /// An error at a node. Returns none, so that a reader can end with it.
    pub fn error<T>(
        &self,
        node: &Node,
        code: &'static str,
        message: impl Into<Told>,
        help: impl Into<Told>,
    ) -> Option<T> {
        if !self.full(Severity::Error) {
            self.put(node.problem(Problem::error(code, message, help)));
        }
        None
    }

    /// A warning at a node.
    pub fn warn(
        &self,
        node: &Node,
        code: &'static str,
        message: impl Into<Told>,
        help: impl Into<Told>,
    ) {
        if !self.full(Severity::Warning) {
            self.put(node.problem(Problem::warning(code, message, help)));
        }
    }

    /// Notes a default that is used.
    pub fn assume(&self, what: impl Into<String>, value: Presumed, why: Because) {
        let what = what.into();
        self.assumed.borrow_mut().push(Assumed { what, value, why });
    }

    /// The defaults noted so far.
    pub fn assumed(&self) -> Vec<Assumed> {
        self.assumed.borrow().clone()
    }

    /// What was read with the warnings, or every problem. A value that is
    /// missing without an error is a slip of this program.
    pub fn finish<T>(self, value: Option<T>) -> Outcome<(T, Vec<Problem>)> {
        let mut problems = self.problems.into_inner();
        problems.sort_by(|a, b| place_order(a).cmp(&place_order(b)));
        problems.dedup();
        match value {
            Some(value) if !self.failed.get() => Ok((value, problems)),
            _ => {
                if self.unlisted.get() > 0 {
                    problems.push(Problem::error(
                        "check.more",
                        told!(
                            "{unlisted} more problems are not listed",
                            unlisted = self.unlisted.get()
                        ),
                        "mend these first, then check again",
                    ));
                }
                Err(problems)
            }
        }
    }

    /// The keys of a block; an error if the node is no block.
    pub fn keys<'n>(&self, node: &'n Node, what: impl Into<Told>) -> Option<Keys<'_, 'n>> {
        let what = what.into();
        match &node.value {
            Value::Map(_) => Some(Keys {
                desk: self,
                node,
                what,
                asked: RefCell::default(),
            }),
            Value::Nothing => self.error(
                node,
                "value.shape",
                told!("{what} is empty", what),
                "write its keys below it, two spaces further in, or leave it out",
            ),
            _ => self.error(
                node,
                "value.shape",
                told!(
                    "expected {what} (a block of `key: value` lines), found {kind}",
                    what,
                    kind = Told::from(node.kind())
                ),
                if node.path.is_empty() {
                    Told::from("a file is made of lines such as `title: Three stoves overnight`")
                } else {
                    let such_as = match what.to_string().as_str() {
                        "`people`" => "such as `learners: 8`",
                        "`emergency`" => "such as `call: 555-0117`",
                        "`restrictions`" => {
                            "such as `stoves: yes` and `checked: 2027-05-12, ranger desk`"
                        }
                        "`course`" | "`fallback`" => "such as `minutes: 45`",
                        "a camp" => "such as `name: Lower meadow`",
                        _ => "",
                    };
                    let lines = "write the keys on lines of their own, two spaces further in";
                    if such_as.is_empty() {
                        lines.into()
                    } else {
                        told!(
                            "{what}, {such_as}",
                            what = Told::from(lines),
                            such_as = Told::from(such_as)
                        )
                    }
                },
            ),
        }
    }

    /// The items of a list; one value alone counts as a list of one.
    pub fn list<'n>(&self, node: &'n Node, what: impl Into<Told>) -> Vec<&'n Node> {
        let what = what.into();
        match &node.value {
            Value::List(items) => items.iter().collect(),
            Value::Text(_) => vec![node],
            Value::Nothing => Vec::new(),
            Value::Map(_) => {
                self.error::<()>(
                    node,
                    "value.shape",
                    told!("expected {what} (a list), found a block of keys", what),
                    "put `- ` before each item",
                );
                Vec::new()
            }
        }
    }
}

fn place_order(problem: &Problem) -> (Option<&str>, usize, usize) {
    let place = problem.place.as_ref();
    (
        problem.file.as_deref(),
        place.map_or(0, |place| place.line),
        place.map_or(0, |place| place.column),
    )
}

/// The keys of a block. What is asked for is what may stand there: at the end,
/// [`Keys::done`] refuses the rest.
pub(super) struct Keys<'d, 'n> {
    pub desk: &'d Desk,
    pub node: &'n Node,
    what: Told,
    asked: RefCell<Vec<&'static str>>,
}

impl<'n> Keys<'_, 'n> {
    /// What a key holds; none if it is not there or nothing stands after it.
    pub fn get(&self, key: &'static str) -> Option<&'n Node> {
        self.asked.borrow_mut().push(key);
        self.node
            .get(key)
            .filter(|node| node.value != Value::Nothing)
    }

    /// As [`Keys::get`], and an error when it is missing.
    pub fn need(&self, key: &'static str, help: &'static str) -> Option<&'n Node> {
        let found = self.get(key);
        if found.is_none() && !self.desk.full(Severity::Error) {
            let at = self.node.get(key).unwrap_or(self.node);
            let help = Told::from(help);
            let comment = at.is_commented_out();
            let help = if comment {
                told!(
                    "{help}; what stands after `#` is a comment, so put quotes around a text that starts with `#`",
                    help
                )
            } else {
                help
            };
            let bare = self.node.get(key).is_some() && !comment;
            let message = if bare {
                told!(
                    "nothing stands after or below `{key}`",
                    key = shown_key(key)
                )
            } else {
                told!(
                    "`{key}` is missing in {what}",
                    key = shown_key(key),
                    what = self.what
                )
            };
            let mut problem = at.problem(Problem::error("key.missing", message, help));
            problem.path = Some(self.node.path_of(&shown_key(key)));
            self.desk.put(problem);
        }
        found
    }

    /// The lines of a list, or the one line that stands in its place; empty if it is not there.
    pub fn lines(&self, key: &'static str, what: &'static str) -> Vec<String> {
        let Some(node) = self.get(key) else {
            return Vec::new();
        };
        let items = self.desk.list(node, what).into_iter();
        items
            .filter_map(|item| self.desk.line(item, what))
            .collect()
    }

    /// Refuses a key that belongs elsewhere, with the reason.
    pub fn refuse(&self, key: &'static str, message: impl Into<Told>, help: &'static str) {
        if let Some(entry) = self
            .node
            .entries()
            .iter()
            .find(|entry| same_key(&entry.key, key))
        {
            let mut problem = entry
                .at
                .problem(Problem::error("key.elsewhere", message, help));
            problem.path = Some(entry.node.path.to_string());
            self.desk.put(problem);
            self.asked.borrow_mut().push(key);
        }
    }

    /// Refuses every key that was not asked for.
    pub fn done(self) {
        let asked = self.asked.into_inner();
        for entry in self.node.entries() {
            if asked.iter().any(|known| same_key(known, &entry.key)) {
                continue;
            }
            if self.desk.full(Severity::Error) {
                continue;
            }
            let home = HOMES
                .iter()
                .find(|(keys, home)| {
                    keys.iter().any(|key| same_key(key, &entry.key))
                        && asked.iter().any(|known| same_key(known, home))
                })
                .map(|(_, home)| home);
            let bare = entry.key.trim_matches(CURLY);
            let help = match nearest(&folded_key(bare), asked.iter().copied()) {
                Some(near) if bare != entry.key => {
                    told!(
                        "write `{near}` without the curly quotes",
                        near = shown_key(near)
                    )
                }
                Some(near) => told!("perhaps `{near}` is meant", near = shown_key(near)),
                None if home.is_some() => told!(
                    "it belongs below `{copied}`: put it there, two spaces further in",
                    copied = home.copied().unwrap_or_default()
                ),
                None => {
                    let mut known: Vec<String> = asked.iter().map(|key| shown_key(key)).collect();
                    known.sort();
                    known.dedup();
                    told!("known here: {known}", known = known.join(", "))
                }
            };
            let mut problem = entry.at.problem(Problem::error(
                "key.unknown",
                told!(
                    "`{key}` is not a key of {what}",
                    key = shown(&entry.key),
                    what = self.what
                ),
                help,
            ));
            problem.path = Some(entry.node.path.to_string());
            self.desk.put(problem);
        }
    }
}

/// A key as it is shown.
fn shown_key(key: &str) -> String {
    key.to_owned()
}

/// A text from a file inside a message: short, and without control characters.
pub(super) fn shown(text: &str) -> String {
    let clean: String = text
        .trim()
        .chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .take(41)
        .collect();
    if clean.chars().count() > 40 {
        clean.chars().take(37).chain("...".chars()).collect()
    } else {
        clean
    }
}

/// `perhaps X is meant`, or the whole list if nothing is near.
pub(super) fn suggestion<'a>(word: &str, known: impl IntoIterator<Item = &'a str> + Clone) -> Told {
    match near(&word.trim().to_lowercase(), known.clone()).as_slice() {
        [one] => told!("perhaps `{one}` is meant", one),
        several if (2..=LONGEST_LIST).contains(&several.len()) => {
            let several: Vec<String> = several.iter().map(|name| format!("`{name}`")).collect();
            told!(
                "perhaps one of {several} is meant",
                several = several.join(", ")
            )
        }
        _ => {
            let known: Vec<String> = known.into_iter().map(|name| format!("`{name}`")).collect();
            if known.is_empty() {
                Told::from("there is none yet")
            } else if known.len() > LONGEST_LIST {
                Told::from("`leeside list` shows what there is")
            } else {
                told!("write one of {known}", known = known.join(", "))
            }
        }
    }
}
