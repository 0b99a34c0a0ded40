//! How a printed value came about: its lines, what was assumed, where it was read.

use super::catalogue;
use super::words;
use crate::diag::{Outcome, Problem, Told, nearest, told};
use crate::doc::{Document, Working};
use crate::nouns::{Basis, Id, Library};
use crate::phrase::{StepId, phrase};
use crate::plan::{Origin, Statement, Statements, Step};
use crate::units::{Units, say};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// How a value came about.
#[derive(Clone, Debug, Serialize)]
pub struct Why {
    /// The statement's id.
    pub id: String,
    /// What it says, in the reader's units.
    pub text: String,
    /// In SI units; none for words.
    pub si: Option<f64>,
    /// Where it comes from, a sentence.
    pub from: String,
    /// The lines of its working, in order.
    pub steps: Vec<WhyLine>,
    /// What was assumed.
    pub assumed: Vec<String>,
    /// Where it was read.
    pub sources: Vec<WhySource>,
}

/// A line of a working.
#[derive(Clone, Debug, Serialize)]
pub struct WhyLine {
    /// Its own id.
    pub id: String,
    /// What is worked out.
    pub say: String,
    /// The formula; empty where the number is given.
    pub formula: String,
    /// The result with its unit.
    pub result: String,
    /// The assumption or the codes behind it.
    pub why: String,
}

/// A source.
#[derive(Clone, Debug, Serialize)]
pub struct WhySource {
    /// Its code.
    pub code: String,
    /// Title, publisher, year.
    pub title: String,
    /// Where it is read.
    pub url: Option<String>,
}

/// How the value of an id came about.
///
/// # Errors
/// An id that the trip does not have, with those that are near it.
pub fn why(statements: &Statements<'_>, library: &Library, units: Units, id: &str) -> Outcome<Why> {
    match statements.get(id) {
        Some(statement) => Ok(of(statement, statements, library, units)),
        None => Err(vec![unknown(statements, id)]),
    }
}

/// How a statement came about.
#[must_use]
pub fn of(
    statement: &Statement,
    statements: &Statements<'_>,
    library: &Library,
    units: Units,
) -> Why {
    told(statement, statements, library, units, &mut BTreeMap::new())
}

/// The same; lines that were told before are taken as they are.
fn told<'s>(
    statement: &Statement,
    statements: &Statements<'s>,
    library: &Library,
    units: Units,
    known: &mut BTreeMap<&'s StepId, WhyLine>,
) -> Why {
    let lines = statement
        .step
        .as_ref()
        .map(|step| statements.working(step))
        .unwrap_or_default();
    let mut assumed = Vec::new();
    let mut codes: Vec<Id> = statement.sources.clone();
    for line in &lines {
        let told = known.entry(&line.id).or_insert_with(|| WhyLine::of(line));
        if line.why.rests_on(Basis::Assumption) {
            assumed.push(format!("{}: {}", told.say, result(line)));
        }
        for code in line.why.sources() {
            if !codes.contains(code) {
                codes.push(code.clone());
            }
        }
    }
    if let Origin::Assumed(one) = &statement.origin {
        let value = catalogue::text(&(&one.value).into());
        let why = catalogue::text(&(&one.why).into());
        assumed.insert(0, format!("{value} ({why})"));
    }
    Why {
        id: statement.id.clone(),
        text: words::value(&statement.value, units),
        si: statement.value.si(),
        from: from(statement),
        steps: lines
            .into_iter()
            .filter_map(|line| known.get(&line.id).cloned())
            .collect(),
        assumed,
        sources: codes.iter().map(|code| source(library, code)).collect(),
    }
}

/// A line's result with its unit.
fn result(line: &Step) -> String {
    let value = say::in_mark(&line.value);
    format!("{value} {}", catalogue::unit(&line.unit))
}

/// How each value of a document came about, in the order in which it is first said.
#[must_use]
pub(super) fn workings(
    document: &Document,
    statements: &Statements<'_>,
    library: &Library,
    units: Units,
) -> Vec<Working> {
    let mut seen = BTreeSet::new();
    let mut known = BTreeMap::new();
    let mut all = Vec::new();
    for one in document.sayings() {
        // What a line works out is told by the line.
        let new = !one.of.ends_with(".what") && seen.insert(one.of.clone());
        let Some(statement) = statements.get(&one.of).filter(|_| new) else {
            continue;
        };
        let mut why = told(statement, statements, library, units, &mut known);
        // A line of a working stands among those that lead to it.
        if statement
            .step
            .as_ref()
            .is_some_and(|step| step.as_str() == one.of)
        {
            why.steps.drain(..why.steps.len().saturating_sub(1));
        }
        all.push(Working {
            of: one.of,
            words: one.words,
            lines: why.lines(),
        });
    }
    all
}

/// Where a statement comes from.
fn from(statement: &Statement) -> String {
    catalogue::text(&match &statement.origin {
        Origin::Trip => phrase!("from-the-trip"),
        Origin::Assumed(_) => phrase!("from-assumed"),
        Origin::Worked => phrase!("from-worked-out"),
        Origin::Fact(fact) => {
            let basis = catalogue::word(fact.basis.word(), &["basis"]);
            let fact_words = format!("{} ({basis})", fact.say.trim());
            match fact.as_of {
                Some(date) => phrase!(
                    "from-fact-as-of",
                    fact = fact_words,
                    date = date.to_string()
                ),
                None => return fact_words,
            }
        }
        Origin::Rule { from, checked } => {
            let rule = match from.as_str() {
                "trip" => phrase!("from-rule-of-trip"),
                "default" => phrase!("from-rule-of-none"),
                place => phrase!("from-rule-of-place", place = place),
            };
            match checked {
                Some(checked) => phrase!("from-rule-checked", rule = rule, checked = checked),
                None => rule,
            }
        }
    })
}

fn source(library: &Library, code: &str) -> WhySource {
    let Some(source) = library.sources.get(code) else {
        return WhySource {
            code: code.to_owned(),
            title: String::new(),
            url: None,
        };
    };
    let parts = [&source.title, &source.publisher, &source.year];
    let parts: Vec<&str> = parts.into_iter().map(String::as_str).collect();
    WhySource {
        code: code.to_owned(),
        title: parts.join(", "),
        url: source.url.clone(),
    }
}

/// An id that is not there, with the nearest ones.
fn unknown(statements: &Statements<'_>, id: &str) -> Problem {
    let known: Vec<&str> = statements.iter().map(|one| one.id.as_str()).collect();
    let mut near: Vec<&str> = known
        .iter()
        .copied()
        .filter(|one| one.starts_with(id) || one.ends_with(id))
        .take(5)
        .collect();
    near.extend(nearest(id, known.iter().copied()).filter(|one| !near.contains(one)));
    let help = if near.is_empty() {
        Told::from("leave the id out to have them all listed")
    } else {
        told!("did you mean {near}?", near = words::or_list(&near))
    };
    Problem::error(
        "flag.id",
        told!("nothing on this trip's papers is called `{id}`", id),
        help,
    )
}

impl WhyLine {
    fn of(line: &Step) -> Self {
        Self {
            id: line.id.to_string(),
            say: catalogue::text(&line.say),
            formula: say::in_mark(&line.formula.to_string()),
            result: result(line).trim().to_owned(),
            why: catalogue::text(&line.why),
        }
    }

    /// On one line: `fuel: 1727 / (0.45 x 44.7) = 85.9 g [assumption]`.
    fn text(&self) -> String {
        let mut out = format!("{}: ", self.say);
        if !self.formula.is_empty() {
            let _ = write!(out, "{} = ", self.formula);
        }
        out.push_str(&self.result);
        if !self.why.is_empty() {
            let _ = write!(out, " [{}]", self.why);
        }
        out
    }
}

impl Why {
    /// Where it comes from, line by line: a sentence, the working, what was assumed, the sources.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let mut lines = vec![super::words::capital(&self.from)];
        lines.extend(self.steps.iter().map(WhyLine::text));
        let assumed = self.assumed.iter();
        lines.extend(assumed.map(|one| catalogue::text(&phrase!("why-assumed", what = one))));
        for source in &self.sources {
            let url = source.url.as_deref().unwrap_or_default();
            let text = format!("{}: {} {url}", source.code, source.title);
            lines.push(text.trim_end().to_owned());
        }
        lines
    }

    /// As text for a terminal.
    #[must_use]
    pub fn text(&self) -> String {
        let lines = self.lines().into_iter().map(|line| format!("  {line}\n"));
        format!("{}: {}\n{}", self.id, self.text, lines.collect::<String>())
    }
}
