//! What files of the library say about each other: every link must lead
//! somewhere, and nothing may be left over.

use super::super::desk::{Desk, suggestion};
use super::prose::{in_text, placeholders};
use super::{reach, reading};
use crate::diag::{Problem, Told, told};
use crate::load::{self, Node, Value};
use crate::nouns::{Basis, Fact, Id, Library, Module, QuestionKind, RuleValue, id};
use std::collections::{BTreeMap, BTreeSet};

/// Words that fit on the back of a study card.
const LONGEST_ANSWER: usize = 25;

pub(super) fn check(desk: &Desk, files: &load::Library, library: &Library) {
    let mut used = BTreeSet::new();
    for module in library.modules.values() {
        let Some(root) = files.files.get(&format!("modules/{}.yaml", module.id)) else {
            continue;
        };
        placed_facts(desk, files, root, module, library, &mut used);
        taught_and_assessed(desk, root, module);
        segments(desk, files, root, module, library);
        places(desk, root, library);
        if module.review_by < library.edition {
            desk.warn(
                root.get("review_by").unwrap_or(root),
                "content.review",
                told!(
                    "this module was due for review on {review_by}",
                    review_by = module.review_by
                ),
                "read it again and move `reviewed` and `review_by`",
            );
        }
    }
    // who lays a folder over the built-in content need not tidy that up
    let own = |node: &Node| !files.laid_over() || !node.at.source.name.starts_with(load::BUILT_IN);
    unused_facts(desk, files, library, &used, &own);
    let mut cited = BTreeSet::new();
    for root in files.files.values() {
        sources(desk, files, root, library, &mut cited);
    }
    unused_sources(desk, files, library, &cited, &own);
    gear(desk, files, library);
    stale_rules(desk, files, library);
    cycles(desk, files, library);
}

/// What is sound and could be better: texts too hard or too long, conditions
/// that nobody meets.
pub(super) fn advise(desk: &Desk, files: &load::Library, library: &Library) {
    for module in library.modules.values() {
        let Some(root) = files.files.get(&format!("modules/{}.yaml", module.id)) else {
            continue;
        };
        // who lays a folder over the built-in content need not mend that
        if files.laid_over() && module.file.starts_with(load::BUILT_IN) {
            continue;
        }
        reach::check(desk, root, module, library);
        reading::check(desk, root, module);
        cards(desk, root, module);
    }
}

/// Every `{name}` in the prose of a module names a fact; a caution rests on no
/// fact that nobody has read at its source.
fn placed_facts(
    desk: &Desk,
    files: &load::Library,
    root: &Node,
    module: &Module,
    library: &Library,
    used: &mut BTreeSet<(Id, Id)>,
) {
    each_text(root, &mut |node, text| {
        if !has_prose(&node.path) {
            return;
        }
        for (byte, name) in placeholders(text) {
            let (owner, fact) = match name.split_once('.') {
                Some((owner, fact)) => (id(owner), id(fact)),
                None => (module.id.clone(), id(name)),
            };
            let found = library
                .modules
                .get(&owner)
                .and_then(|module| module.facts.get(&fact));
            let width = name.chars().count() + 2;
            let Some(found) = found else {
                if written(files, &owner, "facts", &fact) {
                    // it is there, and what is wrong with it is said there
                    used.insert((owner, fact));
                    continue;
                }
                let known: Vec<&str> = library
                    .modules
                    .get(&owner)
                    .map(|module| module.facts.keys().map(String::as_str).collect())
                    .unwrap_or_default();
                let problem = Problem::error(
                    "content.fact",
                    told!("`{{{name}}}` names no fact", name = super::shown(name)),
                    if library.modules.contains_key(&owner) {
                        suggestion(&fact, known)
                    } else {
                        suggestion(&owner, library.modules.keys().map(String::as_str))
                    },
                );
                desk.put(in_text(node, text, byte, width, problem));
                continue;
            };
            used.insert((owner, fact));
            if node.path.starts_with("cautions") && not_verified(found) {
                desk.put(in_text(
                    node,
                    text,
                    byte,
                    width,
                    Problem::error(
                        "content.memory",
                        "a caution rests on a fact that nobody has read at its source",
                        "read its source and write `sure: seen`, or say it without the figure",
                    ),
                ));
            }
        }
    });
}

/// Whether an entry of a module's block is written at all, sound or not. A
/// module that could not be read may hold anything.
fn written(files: &load::Library, module: &str, block: &str, entry: &str) -> bool {
    files
        .files
        .get(&format!("modules/{module}.yaml"))
        .and_then(|root| root.get(block))
        .is_some_and(|block| block.get(entry).is_some())
}

fn not_verified(fact: &Fact) -> bool {
    fact.basis == Basis::Published && fact.sure.unverified()
}

/// Whether braces at a path are facts: everywhere but where ids and values stand.
fn has_prose(path: &str) -> bool {
    let last = path.rsplit('.').next().unwrap_or(path);
    let last = last.split('[').next().unwrap_or(last);
    !matches!(
        last,
        "source" | "value" | "low" | "high" | "rule" | "after" | "objectives"
    )
}

fn each_text(node: &Node, look: &mut impl FnMut(&Node, &str)) {
    match &node.value {
        Value::Text(text) => look(node, text),
        Value::Map(entries) => {
            for entry in entries {
                each_text(&entry.node, look);
            }
        }
        Value::List(items) => {
            for item in items {
                each_text(item, look);
            }
        }
        Value::Nothing => {}
    }
}

fn unused_facts(
    desk: &Desk,
    files: &load::Library,
    library: &Library,
    used: &BTreeSet<(Id, Id)>,
    own: &impl Fn(&Node) -> bool,
) {
    for module in library.modules.values() {
        for fact in module.facts.keys() {
            if used.contains(&(module.id.clone(), fact.clone())) {
                continue;
            }
            let root = files.files.get(&format!("modules/{}.yaml", module.id));
            let node = root
                .and_then(|root| root.get("facts"))
                .and_then(|facts| facts.get(fact));
            if let Some(node) = node.filter(|node| own(node)) {
                desk.warn(
                    node,
                    "content.unused",
                    told!("no text of any module prints the fact `{fact}`", fact),
                    told!(
                        "write `{{{fact}}}` where it belongs, or take the fact out",
                        fact
                    ),
                );
            }
        }
    }
}

/// Every objective is taught by a segment and assessed by a question; every
/// question and segment names objectives that exist.
fn taught_and_assessed(desk: &Desk, root: &Node, module: &Module) {
    let known = || {
        module
            .objectives
            .keys()
            .map(String::as_str)
            .collect::<Vec<_>>()
    };
    let at = |block: &str, entry: &str, key: &str| {
        let block = root.get(block).unwrap_or(root);
        let entry = block.get(entry).unwrap_or(block);
        entry.get(key).unwrap_or(entry).clone()
    };
    for question in &module.questions {
        if !module.objectives.contains_key(&question.objective) {
            desk.error::<()>(
                &at("questions", &question.id, "objective"),
                "content.objective",
                told!(
                    "there is no objective `{objective}` in this module",
                    objective = question.objective
                ),
                suggestion(&question.objective, known()),
            );
        }
    }
    for segment in &module.segments {
        for objective in &segment.objectives {
            if !module.objectives.contains_key(objective) {
                desk.error::<()>(
                    &at("segments", &segment.id, "objectives"),
                    "content.objective",
                    told!(
                        "there is no objective `{objective}` in this module",
                        objective
                    ),
                    suggestion(objective, known()),
                );
            }
        }
    }
    for objective in module.objectives.keys() {
        let node = at("objectives", objective, "say");
        if !module
            .segments
            .iter()
            .any(|segment| segment.objectives.contains(objective))
        {
            desk.error::<()>(
                &node,
                "content.objective",
                told!("no segment teaches the objective `{objective}`", objective),
                "name it under `objectives` of a segment",
            );
        }
        if !module
            .questions
            .iter()
            .any(|question| &question.objective == objective)
        {
            desk.error::<()>(
                &node,
                "content.objective",
                told!(
                    "no question assesses the objective `{objective}`",
                    objective
                ),
                "write a question with it as its `objective`",
            );
        }
    }
}

fn segments(desk: &Desk, files: &load::Library, root: &Node, module: &Module, library: &Library) {
    for segment in &module.segments {
        for before in &segment.after {
            let exists = before.split_once('.').is_some_and(|(owner, name)| {
                library
                    .modules
                    .get(owner)
                    .is_some_and(|module| module.segments.iter().any(|segment| segment.id == name))
            });
            let unread = before
                .split_once('.')
                .is_some_and(|(owner, name)| written(files, owner, "segments", name));
            if exists || unread {
                continue;
            }
            let known: Vec<String> = library
                .modules
                .values()
                .flat_map(|module| {
                    module
                        .segments
                        .iter()
                        .map(|segment| format!("{}.{}", module.id, segment.id))
                })
                .collect();
            let node = root
                .get("segments")
                .and_then(|segments| segments.get(&segment.id))
                .and_then(|segment| segment.get("after"))
                .unwrap_or(root);
            desk.error::<()>(
                node,
                "content.segment",
                told!("there is no segment `{before}` to come after", before),
                match crate::diag::nearest(before, known.iter().map(String::as_str)) {
                    Some(near) => told!("perhaps `{near}` is meant", near),
                    None => Told::from(
                        "write `module.segment`, or the segment alone if it is in this module",
                    ),
                },
            );
        }
    }
}

/// Segments must not wait for each other in a ring.
fn cycles(desk: &Desk, files: &load::Library, library: &Library) {
    let after: BTreeMap<String, &Vec<Id>> = library
        .modules
        .values()
        .flat_map(|module| {
            module
                .segments
                .iter()
                .map(|segment| (format!("{}.{}", module.id, segment.id), &segment.after))
        })
        .collect();
    let mut placed: BTreeSet<&str> = BTreeSet::new();
    loop {
        // a segment that can be placed has all of those before it placed
        let ready: Vec<&str> = after
            .iter()
            .filter(|(name, _)| !placed.contains(name.as_str()))
            .filter(|(_, before)| {
                before
                    .iter()
                    .all(|name| placed.contains(name.as_str()) || !after.contains_key(name))
            })
            .map(|(name, _)| name.as_str())
            .collect();
        placed.extend(&ready);
        if !ready.is_empty() {
            continue;
        }
        let Some(ring) = ring(&after, &placed) else {
            break;
        };
        placed.extend(&ring);
        let [first, rest @ ..] = &ring[..] else {
            break;
        };
        let Some((module, segment)) = first.split_once('.') else {
            break;
        };
        let node = files
            .files
            .get(&format!("modules/{module}.yaml"))
            .and_then(|root| root.get("segments"))
            .and_then(|segments| segments.get(segment))
            .and_then(|segment| segment.get("after"));
        if let Some(node) = node {
            let ring = rest.iter().chain(std::iter::once(first));
            let names = ring.map(|name| Told::as_written(format!("`{name}`")));
            let waits = Told::list(names, ", which waits for ");
            desk.error::<()>(
                node,
                "content.segment",
                told!(
                    "no segment of this ring can be the first: `{first}` waits for {waits}",
                    first,
                    waits
                ),
                "take one of them out of the `after` of the one before it in this ring",
            );
        }
    }
}

/// An answer of more than a few words is on no study card. A scene (`what
/// now`, `spot the fault`) is for the skills check and may take longer.
fn cards(desk: &Desk, root: &Node, module: &Module) {
    for question in &module.questions {
        let words = question.answer.split_whitespace().count();
        let scene = [QuestionKind::WhatNow, QuestionKind::SpotTheFault].contains(&question.kind);
        if scene || words <= LONGEST_ANSWER {
            continue;
        }
        let node = root
            .get("questions")
            .and_then(|questions| questions.get(&question.id))
            .and_then(|question| question.get("answer"));
        if let Some(node) = node {
            desk.warn(
                node,
                "content.long",
                told!(
                    "the answer has {words} words, and a study card holds {LONGEST_ANSWER}",
                    words,
                    LONGEST_ANSWER
                ),
                "answer in one sentence and move the rest to `because`",
            );
        }
    }
}

/// A ring among the segments that cannot be placed: each waits for the next, the last for the
/// first, which is the first by name.
fn ring<'a>(
    after: &'a BTreeMap<String, &Vec<Id>>,
    placed: &BTreeSet<&str>,
) -> Option<Vec<&'a str>> {
    let open = |name: &str| after.contains_key(name) && !placed.contains(name);
    let mut at = after.keys().find(|name| open(name))?.as_str();
    let mut path: Vec<&str> = Vec::new();
    let start = loop {
        if let Some(seen) = path.iter().position(|name| *name == at) {
            break seen;
        }
        path.push(at);
        at = after.get(at)?.iter().find(|name| open(name))?.as_str();
    };
    let mut ring = path.split_off(start);
    let first = (0..ring.len()).min_by_key(|index| ring[*index])?;
    ring.rotate_left(first);
    Some(ring)
}

/// Places named in conditions exist.
fn places(desk: &Desk, root: &Node, library: &Library) {
    each_text(root, &mut |node, text| {
        let last = node.path.rsplit('.').next().unwrap_or(&node.path);
        let condition = node.path.contains("applies.") && last.split('[').next() == Some("place");
        if condition && !library.places.contains_key(&id(text)) {
            desk.no_place::<()>(node, library);
        }
    });
}

/// Sources that no fact, figure or rule rests on.
fn unused_sources(
    desk: &Desk,
    files: &load::Library,
    library: &Library,
    cited: &BTreeSet<Id>,
    own: &impl Fn(&Node) -> bool,
) {
    let Some(root) = files.files.get("sources.yaml") else {
        return;
    };
    for code in library.sources.keys().filter(|code| !cited.contains(*code)) {
        if let Some(node) = root.get(code).filter(|node| own(node)) {
            desk.warn(
                node,
                "content.unused",
                told!("nothing rests on the source `{code}`", code),
                told!(
                    "write `source: {code}` at the fact that it bears out, or take the source out",
                    code
                ),
            );
        }
    }
}

/// Every code of a source exists; which there are is noted.
fn sources(
    desk: &Desk,
    files: &load::Library,
    root: &Node,
    library: &Library,
    cited: &mut BTreeSet<Id>,
) {
    let listed = files.files.get("sources.yaml");
    each_text(root, &mut |node, text| {
        let path = node.path.split('[').next().unwrap_or(&node.path);
        let is_code = path.ends_with(".source");
        let known = || {
            library.sources.contains_key(text.trim())
                || listed.is_some_and(|sources| sources.get(text).is_some())
        };
        if is_code {
            cited.extend([text.trim().to_owned(), id(text)]);
        }
        if is_code && !known() {
            let near =
                crate::diag::nearest(text.trim(), library.sources.keys().map(String::as_str));
            desk.error::<()>(
                node,
                "content.source",
                told!("there is no source `{text}`", text = super::shown(text)),
                match near {
                    Some(near) => {
                        told!(
                            "perhaps `{near}` is meant; sources stand in `sources.yaml`",
                            near
                        )
                    }
                    None => Told::from("add it to `sources.yaml`"),
                },
            );
        }
    });
}

/// Stoves name fuels that exist.
fn gear(desk: &Desk, files: &load::Library, library: &Library) {
    let Some(root) = files.files.get("gear/stoves.yaml") else {
        return;
    };
    for stove in library.stoves.values() {
        let node = root.get(&stove.id).unwrap_or(root);
        for fuel in stove.fuels.iter().chain([&stove.fuel]) {
            if !library.fuels.contains_key(fuel) {
                desk.error::<()>(
                    node.get("fuels").or(node.get("fuel")).unwrap_or(node),
                    "name.unknown",
                    told!("there is no fuel named `{fuel}`", fuel),
                    suggestion(fuel, library.fuels.keys().map(String::as_str)),
                );
            }
        }
        if !stove.fuels.contains(&stove.fuel) {
            desk.error::<()>(
                node.get("fuel").unwrap_or(node),
                "content.stove",
                told!(
                    "the usual fuel `{fuel}` is not among the fuels it takes",
                    fuel = stove.fuel
                ),
                "add it to `fuels`",
            );
        }
        if !stove.wind.contains_key(&stove.screen) {
            desk.error::<()>(
                node.get("wind").unwrap_or(node),
                "content.stove",
                told!(
                    "there are no wind factors for the stove's own screen `{screen}`",
                    screen = stove.screen
                ),
                "add them under `wind`",
            );
        }
    }
}

/// Rules that were read too long before this edition.
fn stale_rules(desk: &Desk, files: &load::Library, library: &Library) {
    for place in library.places.values() {
        let Some(root) = files.files.get(&format!("places/{}.yaml", place.id)) else {
            continue;
        };
        let stale: Vec<&str> = place
            .rules
            .iter()
            .filter(|(_, rule)| {
                rule.as_of
                    .is_some_and(|day| day.plus_days(place.stale_after) < library.edition)
            })
            .map(|(key, _)| key.as_str())
            .collect();
        if let Some(first) = stale.first() {
            desk.warn(
                root,
                "content.stale",
                told!(
                    "{count} rules of this place were read too long ago, `{first}` among them",
                    count = stale.len(),
                    first
                ),
                "ask the land manager again and move `as_of`",
            );
        }
        for (key, rule) in &place.rules {
            if matches!(&rule.value, RuleValue::Text(text) if text.contains('{')) {
                desk.error::<()>(
                    root.get("rules").unwrap_or(root),
                    "content.rule",
                    told!(
                        "the rule `{key}` has braces, and a rule prints no fact",
                        key
                    ),
                    "write the words out",
                );
            }
        }
    }
}
