//! What a lesson covers: objective by session, and what is asked again later.

use super::Inputs;
use super::common::Prose;
use crate::compose::catalogue::text;
use crate::compose::{said, words};
use crate::course::timetable::{Course, Covering};
use crate::nouns::SessionKind;
use crate::phrase::phrase;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;

/// Objectives asked for again a week later.
const ASK_AGAIN: usize = 6;

/// An objective by session.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CoverageRow {
    /// What learners can do.
    pub say: Prose,
    /// Whether they bring it.
    pub known: bool,
    /// What each session does for it.
    pub sessions: Vec<String>,
    /// What the skills check has for it.
    pub check: String,
    /// Whether failing it stops the check.
    pub critical: bool,
}

/// The objectives that one session carries equally far.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CoveredRow {
    /// How far: `practised lit`.
    pub how: String,
    /// What learners can do.
    pub say: Prose,
}

/// Every objective of the subjects and of what is taught beside them.
#[must_use]
pub fn coverage(
    inputs: &Inputs<'_>,
    course: &Course<'_>,
    sources: &mut BTreeSet<String>,
) -> Vec<CoverageRow> {
    course
        .coverage
        .iter()
        .filter_map(|one| {
            let objective = one.module.objectives.get(&one.objective)?;
            inputs.cite(one.module, &[&objective.say], sources);
            let questions = one
                .module
                .questions
                .iter()
                .filter(|question| question.objective == one.objective)
                .filter(|question| inputs.holds(&question.applies))
                .count();
            let mut check = Vec::new();
            if !objective.behaviours.is_empty() {
                check.push(text(&phrase!("cover-station")));
            }
            if questions > 0 {
                check.push(text(&phrase!("cover-questions", count = questions)));
            }
            if objective.critical {
                check.push(text(&phrase!("cover-critical")));
            }
            Some(CoverageRow {
                say: Prose::new(inputs.filler.line(one.module, &objective.say)),
                known: one.known,
                sessions: one
                    .sessions
                    .iter()
                    .zip(&course.sessions)
                    .map(|(covering, table)| match covering {
                        Some(covering) => said::covering(*covering),
                        None if table.kind == SessionKind::Check && questions > 0 => {
                            text(&phrase!("cover-written"))
                        }
                        None => not_covered(),
                    })
                    .collect(),
                check: check.join(", "),
                critical: objective.critical,
            })
        })
        .collect()
}

/// What the coverage says where a session does nothing for an objective.
fn not_covered() -> String {
    text(&phrase!("cover-not-yet"))
}

/// The objectives of one session by how far it carries them, furthest first.
#[must_use]
pub fn covered(coverage: &[CoverageRow]) -> Vec<CoveredRow> {
    let mut rows: Vec<(String, Vec<String>)> = Vec::new();
    let order = [
        Covering::Assessed,
        Covering::PractisedLit,
        Covering::Practised,
        Covering::Shown,
    ];
    let order = order.map(said::covering).into_iter();
    let order = order.chain([text(&phrase!("cover-written")), not_covered()]);
    for how in order {
        let said: Vec<String> = coverage
            .iter()
            .filter(|row| row.sessions.contains(&how))
            .map(|row| {
                let say = row.say.md.as_str();
                match (row.known, row.critical) {
                    (false, false) => say.to_owned(),
                    (true, false) => text(&phrase!("cover-known", say = say)),
                    (false, true) => text(&phrase!("cover-marked", say = say)),
                    (true, true) => text(&phrase!("cover-known-marked", say = say)),
                }
            })
            .collect();
        if !said.is_empty() {
            rows.push((how.to_owned(), said));
        }
    }
    rows.into_iter()
        .map(|(how, said)| CoveredRow {
            how: words::capital(&how),
            say: Prose::new(said.join("; ")),
        })
        .collect()
}

/// What was covered and is worth asking for again a week later: criticals first, and of those what
/// went furthest. The plan and the sheet of that day ask for the same.
#[must_use]
pub fn again(inputs: &Inputs<'_>, course: &Course<'_>) -> Vec<Prose> {
    let mut covered: Vec<(bool, Option<Covering>, Prose)> = course
        .coverage
        .iter()
        .filter(|one| one.sessions.iter().any(Option::is_some))
        .filter_map(|one| {
            let objective = one.module.objectives.get(&one.objective)?;
            let say = inputs.filler.line(one.module, &objective.say);
            let furthest = one.sessions.iter().flatten().max().copied();
            Some((!objective.critical, furthest, Prose::new(say)))
        })
        .collect();
    covered.sort_by_key(|(minor, furthest, _)| (*minor, std::cmp::Reverse(*furthest)));
    covered.truncate(ASK_AGAIN);
    covered.into_iter().map(|(.., say)| say).collect()
}
