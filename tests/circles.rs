//! No circles of files inside a room: what a file uses never uses it back, so that each can be
//! read after those that it stands on.

use crate::layering::{code, root, sources};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The rooms that are held to it.
const ROOMS: [&str; 4] = ["compose", "course", "packet", "plan"];

/// A file of a room, by its path of modules: `timetable::lay`; a room's own file is empty.
type Module = Vec<String>;

/// The files of a room with their code, without their own tests.
fn modules(room: &str) -> BTreeMap<Module, String> {
    let folder = root().join("src").join(room);
    let mut files = Vec::new();
    sources(&folder, &mut files);
    files
        .into_iter()
        .map(|path| {
            let text = std::fs::read_to_string(&path).expect("a source");
            let own = text.split("#[cfg(test)]").next().unwrap_or_default();
            (
                module(path.strip_prefix(&folder).expect("inside")),
                code(own),
            )
        })
        .collect()
}

fn module(path: &Path) -> Module {
    let mut parts: Module = path
        .with_extension("")
        .components()
        .map(|part| part.as_os_str().to_string_lossy().into_owned())
        .collect();
    if parts.last().is_some_and(|last| last == "mod") {
        parts.pop();
    }
    parts
}

/// Every path of names in a piece of code, groups in braces opened: `a::{b, c::d}` is `a::b`
/// and `a::c::d`.
fn paths(code: &str) -> Vec<Vec<String>> {
    // who may see a thing is no use of it
    let code = code
        .replace("pub(in crate::", "pub(")
        .replace("pub(in super::", "pub(");
    let mut all = Vec::new();
    let mut tokens = Vec::new();
    let mut name = String::new();
    for sign in code.chars().chain([' ']) {
        if sign.is_alphanumeric() || sign == '_' {
            name.push(sign);
            continue;
        }
        if !name.is_empty() {
            tokens.push(std::mem::take(&mut name));
        }
        if matches!(sign, ':' | '{' | '}' | ',' | ';' | '*') || !sign.is_whitespace() {
            tokens.push(sign.to_string());
        }
    }
    let mut at = 0;
    while at < tokens.len() {
        let starts = is_name(&tokens[at]) && (at < 2 || tokens[at - 1] != ":");
        if starts
            && tokens.get(at + 1).is_some_and(|next| next == ":")
            && tokens.get(at + 2).is_some_and(|next| next == ":")
        {
            at = walk(&tokens, at, Vec::new(), &mut all);
        } else {
            at += 1;
        }
    }
    all
}

fn is_name(token: &str) -> bool {
    token.starts_with(|sign: char| sign.is_alphabetic() || sign == '_')
}

/// Reads one path from a token on; gives back where it ends.
fn walk(
    tokens: &[String],
    mut at: usize,
    mut before: Vec<String>,
    all: &mut Vec<Vec<String>>,
) -> usize {
    loop {
        match tokens.get(at).map(String::as_str) {
            Some("{") => {
                at += 1;
                while tokens.get(at).is_some_and(|token| token != "}") {
                    if is_name(&tokens[at]) {
                        at = walk(tokens, at, before.clone(), all);
                    } else {
                        at += 1;
                    }
                }
                return at + 1;
            }
            Some(name) if is_name(name) => {
                before.push(name.to_owned());
                at += 1;
            }
            _ => break,
        }
        let more = tokens.get(at).is_some_and(|token| token == ":")
            && tokens.get(at + 1).is_some_and(|token| token == ":");
        if !more {
            break;
        }
        at += 2;
    }
    all.push(before);
    at
}

/// The file that a path leads to, from a file of the room; none where it leaves the room.
fn target(
    room: &str,
    from: &Module,
    path: &[String],
    files: &BTreeMap<Module, String>,
) -> Option<Module> {
    let (mut base, mut rest): (Module, &[String]) = match path.first()?.as_str() {
        "crate" if path.get(1).is_some_and(|name| name == room) => (Vec::new(), &path[2..]),
        "self" => (from.clone(), &path[1..]),
        "super" => {
            let ups = path.iter().take_while(|name| *name == "super").count();
            (
                from.len()
                    .checked_sub(ups)
                    .map(|left| from[..left].to_vec())?,
                &path[ups..],
            )
        }
        name => {
            let mut child = from.clone();
            child.push(name.to_owned());
            files.contains_key(&child).then_some((from.clone(), path))?
        }
    };
    while let Some((name, after)) = rest.split_first() {
        base.push(name.clone());
        if !files.contains_key(&base) {
            base.pop();
            break;
        }
        rest = after;
    }
    // what a file only hands on belongs to the file that it comes from
    if let Some(item) = rest.first()
        && base != *from
        && let Some(home) = handed_on(&base, item, files)
    {
        return Some(home);
    }
    Some(base)
}

/// The child of a file that a name comes from, when the file only hands it on.
fn handed_on(base: &Module, item: &str, files: &BTreeMap<Module, String>) -> Option<Module> {
    paths(files.get(base)?).into_iter().find_map(|path| {
        let (last, before) = path.split_last()?;
        let mut home = base.clone();
        home.extend(before.iter().filter(|name| *name != "self").cloned());
        (last == item && !before.is_empty() && files.contains_key(&home)).then_some(home)
    })
}

/// Files of a room that can be reached from themselves.
fn in_circles(room: &str, files: &BTreeMap<Module, String>) -> BTreeSet<String> {
    let uses: BTreeMap<&Module, BTreeSet<Module>> = files
        .iter()
        .map(|(from, code)| {
            let own = code
                .lines()
                .filter(|line| !line.trim_start().starts_with("pub use"));
            let own: String = own.collect::<Vec<_>>().join("\n");
            let to = paths(&own)
                .into_iter()
                .filter_map(|path| target(room, from, &path, files));
            (from, to.filter(|to| to != from).collect())
        })
        .collect();
    let mut found = BTreeSet::new();
    for start in files.keys() {
        let mut seen: BTreeSet<&Module> = BTreeSet::new();
        let mut open: Vec<&Module> = uses[start].iter().collect();
        while let Some(next) = open.pop() {
            if next == start {
                found.insert(format!("{room}::{}", start.join("::")));
                break;
            }
            if seen.insert(next) {
                open.extend(uses.get(next).into_iter().flatten());
            }
        }
    }
    found
}

#[test]
fn no_file_uses_what_uses_it() {
    let mut found = BTreeSet::new();
    for room in ROOMS {
        let files = modules(room);
        assert!(files.len() > 3, "the room `{room}` was read");
        found.extend(in_circles(room, &files));
    }
    assert!(
        found.is_empty(),
        "these stand in a circle of files: {found:#?}"
    );
}

#[test]
fn a_planted_circle_is_found() {
    let file = |code: &str| code.to_owned();
    let files = BTreeMap::from([
        (
            vec![],
            file("mod a;\nmod b;\nmod c;\npub use a::One;\nfn all() { b::two(); c::three(); }"),
        ),
        (vec!["a".to_owned()], file("pub struct One;")),
        (
            vec!["b".to_owned()],
            file("use super::One;\nuse super::{c::three};\npub fn two() {}"),
        ),
        (
            vec!["c".to_owned()],
            file("use crate::room::b::two;\npub fn three() {}"),
        ),
    ]);
    let found: Vec<String> = in_circles("room", &files).into_iter().collect();
    assert_eq!(found, ["room::b", "room::c"]);
}
