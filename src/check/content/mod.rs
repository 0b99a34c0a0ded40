//! The library as meant: every content file read, then the links between them.

mod applies;
mod drawings;
mod figures;
mod fuels;
pub(super) mod gear;
mod letters;
mod links;
mod mark;
mod module;
mod one_rule;
mod pieces;
mod places;
mod prose;
mod reach;
mod reading;
mod scene;
mod sketch;
mod svg;
mod syllables;

pub use reading::{Reading, reading};

use super::desk::{Desk, Keys, shown, suggestion};
use super::trip::read_menu;
use crate::diag::{Outcome, Problem, Told, told};
use crate::load::{self, Node};
use crate::nouns::{Basis, Date, Id, Library, Measure, Menu, Plausible, Source, Sure, id};
use std::collections::BTreeMap;

/// The library, with the warnings.
pub(super) fn library(files: &load::Library) -> Outcome<(Library, Vec<Problem>)> {
    let desk = Desk::default();
    let library = read(&desk, files);
    if let Some(library) = &library {
        links::check(&desk, files, library);
        one_rule::check(&desk, files, library);
        // what is wrong comes first, what could be better after it
        if !desk.failed() {
            for note in &files.notes {
                desk.put(note.clone());
            }
            links::advise(&desk, files, library);
        }
    }
    desk.finish(library)
}

/// A file that the library cannot do without.
fn needed<'f>(desk: &Desk, files: &'f load::Library, path: &str) -> Option<&'f Node> {
    let found = files.files.get(path);
    if found.is_none() {
        desk.put(
            Problem::error(
                "content.missing",
                told!("the library has no file `{path}`", path),
                "add it; `leeside unpack` copies the built-in one out",
            )
            .in_file(format!("content/{path}")),
        );
    }
    found
}

fn read(desk: &Desk, files: &load::Library) -> Option<Library> {
    let about = needed(desk, files, "library.yaml").and_then(|node| about(desk, node));
    let sources = needed(desk, files, "sources.yaml")
        .map(|node| keyed(desk, node, "a source", source))
        .unwrap_or_default();
    let stoves = needed(desk, files, "gear/stoves.yaml")
        .map(|node| {
            keyed(desk, node, "a stove", |desk, id, node| {
                gear::stove(desk, id, node, None)
            })
        })
        .unwrap_or_default();
    let fuels = needed(desk, files, "gear/fuels.yaml")
        .map(|node| keyed(desk, node, "a fuel", fuels::fuel))
        .unwrap_or_default();
    let materials = needed(desk, files, "gear/pots.yaml")
        .map(|node| keyed(desk, node, "a pot material", fuels::material))
        .unwrap_or_default();
    let containers = needed(desk, files, "gear/containers.yaml")
        .map(|node| keyed(desk, node, "a container", fuels::container))
        .unwrap_or_default();
    let menus = needed(desk, files, "menus.yaml")
        .map(|node| keyed(desk, node, "a menu", menu))
        .unwrap_or_default();
    let plausible = needed(desk, files, "plausible.yaml")
        .map(|node| plausible(desk, node))
        .unwrap_or_default();
    let figures = needed(desk, files, "figures.yaml").and_then(|node| figures::figures(desk, node));
    let modules = folder(desk, files, "modules/", module::module);
    let places = folder(desk, files, "places/", places::place);
    let profiles = folder(desk, files, "profiles/", |desk, id, node| {
        places::profile(desk, files, id, node)
    });
    let (title, edition, standing_line) = about?;
    Some(Library {
        language: files.language.clone(),
        kit: files.kit.clone(),
        words: files.words.clone(),
        edition,
        title,
        standing_line,
        modules,
        places,
        stoves,
        fuels,
        materials,
        containers,
        menus,
        profiles,
        plausible,
        figures: figures?,
        sources,
    })
}

/// What trips are usually like, each measure by its name.
fn plausible(desk: &Desk, node: &Node) -> BTreeMap<Measure, Plausible> {
    let mut found = BTreeMap::new();
    if desk.keys(node, "a measure each by its name").is_none() {
        return found;
    }
    for entry in node.entries() {
        let Some(measure) = Measure::from_word(&entry.key.replace('_', " ")) else {
            let known = Measure::ALL.iter().map(|one| one.word());
            let message = told!("nothing measures `{key}`", key = shown(&entry.key));
            let help = suggestion(&entry.key, known);
            let problem = Problem::error("content.plausible", message, help);
            desk.put(entry.at.problem(problem));
            continue;
        };
        if let Some(one) = usual(desk, measure, &entry.node) {
            found.insert(measure, one);
        }
    }
    found
}

fn usual(desk: &Desk, measure: Measure, node: &Node) -> Option<Plausible> {
    let keys = desk.keys(node, "what is usual")?;
    keys.get("extends");
    let line = |key, help| keys.need(key, help).and_then(|node| desk.line(node, key));
    let say = line("say", "say what is measured");
    let ends = ["least", "low", "high", "most"].map(|key| {
        keys.get(key)
            .map(|node| (node, super::plausible::bound(desk, measure, node)))
    });
    let perhaps = keys
        .get("perhaps")
        .map(|node| desk.list(node, "units"))
        .unwrap_or_default()
        .into_iter()
        .filter_map(|node| desk.line(node, "a unit"))
        .collect();
    let because = line("because", "say why this is the range");
    let origin = origin(&keys, false);
    keys.done();
    if ends.iter().all(Option::is_none) {
        return desk.error(
            node,
            "content.plausible",
            "the range has no end",
            "write `low` or `high`, or both",
        );
    }
    let mut before: Option<f64> = None;
    for (node, bound) in ends.iter().flatten() {
        let value = bound.as_ref()?.value;
        if before.is_some_and(|before| value < before) {
            return desk.error(
                node,
                "content.plausible",
                "this end of the range lies below the one before it",
                "order them as least, low, high, most",
            );
        }
        before = Some(value);
    }
    let [least, low, high, most] = ends.map(|end| end.and_then(|(_, bound)| bound));
    let origin = origin?;
    Some(Plausible {
        say: say?,
        low,
        high,
        least,
        most,
        perhaps,
        because: because?,
        basis: origin.basis,
        sources: origin.sources,
    })
}

fn about(desk: &Desk, node: &Node) -> Option<(String, Date, String)> {
    let keys = desk.keys(node, "the library's own file")?;
    let title = keys
        .need("title", "name the library")
        .map(|node| desk.line(node, "the title"));
    let edition = keys
        .need(
            "edition",
            "write the day of this edition, which every sheet prints",
        )
        .map(|node| desk.date(node));
    let line = keys
        .need("standing_line", "say whose word comes first")
        .map(|node| desk.line(node, "the standing line"));
    keys.done();
    Some((title.flatten()?, edition.flatten()?, line.flatten()?))
}

/// A file that is a mapping keyed by id.
fn keyed<T>(
    desk: &Desk,
    node: &Node,
    what: impl Into<Told>,
    read: impl Fn(&Desk, &Id, &Node) -> Option<T>,
) -> BTreeMap<Id, T> {
    let mut found = BTreeMap::new();
    if desk
        .keys(node, told!("{what} each by its id", what = what.into()))
        .is_none()
    {
        return found;
    }
    for entry in node.entries() {
        let id = entry_id(desk, entry);
        if let Some(value) = read(desk, &id, &entry.node) {
            found.insert(id, value);
        }
    }
    found
}

/// The id of an entry. Codes of sources keep their capitals.
fn entry_id(desk: &Desk, entry: &load::Entry) -> Id {
    let code = entry.key.len() <= 6 && entry.key.starts_with('S');
    let name = if code {
        entry.key.clone()
    } else {
        id(&entry.key)
    };
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '-' | '.');
    if !name.chars().all(plain) || name.is_empty() {
        desk.put(entry.at.problem(Problem::error(
            "content.id",
            told!("`{key}` cannot be an id", key = shown(&entry.key)),
            "write letters, numbers and hyphens",
        )));
    }
    name
}

/// A folder with a file for each id.
fn folder<T>(
    desk: &Desk,
    files: &load::Library,
    prefix: &str,
    read: impl Fn(&Desk, &Id, &Node) -> Option<T>,
) -> BTreeMap<Id, T> {
    let mut found = BTreeMap::new();
    for (path, node) in &files.files {
        let Some(stem) = path
            .strip_prefix(prefix)
            .and_then(|name| name.strip_suffix(".yaml"))
        else {
            continue;
        };
        let name = id(stem);
        if name != stem {
            desk.error::<()>(
                node,
                "content.id",
                told!("the file name `{stem}` is not an id", stem = shown(stem)),
                told!("name the file `{name}.yaml`", name),
            );
        }
        if let Some(value) = read(desk, &name, node) {
            found.insert(name, value);
        }
    }
    found
}

fn source(desk: &Desk, id: &Id, node: &Node) -> Option<Source> {
    let keys = desk.keys(node, "a source")?;
    let line = |key, what| keys.get(key).map(|node| desk.line(node, what));
    let title = keys
        .need("title", "write the title")
        .map(|node| desk.line(node, "the title"));
    let publisher = line("publisher", "the publisher");
    let year = line("year", "the year");
    let url = keys.get("url").map(|node| {
        let text = desk.scalar(node, "the address")?.trim().to_owned();
        if text.chars().count() > 1000 || text.chars().any(|c| c.is_whitespace() || c.is_control())
        {
            desk.error(
                node,
                "content.url",
                "an address has no spaces and no end of length",
                "write the address alone",
            )
        } else if text.starts_with("https://") || text.starts_with("http://") {
            Some(text)
        } else {
            desk.error(
                node,
                "content.url",
                "an address starts with https://",
                "write the whole address",
            )
        }
    });
    let seen = keys
        .need("seen", "write the day it was looked up, or `no`")
        .and_then(|node| seen(desk, node));
    let note = line("note", "the note");
    keys.done();
    Some(Source {
        id: id.clone(),
        title: title.flatten()?,
        publisher: publisher.unwrap_or(Some(String::new()))?,
        year: year.unwrap_or(Some(String::new()))?,
        url: optional(url)?,
        seen: seen?,
        note: note.unwrap_or(Some(String::new()))?,
    })
}

/// The day on which a source was looked up, or `no`.
fn seen(desk: &Desk, node: &Node) -> Option<Option<Date>> {
    let text = desk.scalar(node, "the day it was looked up")?.trim();
    if text.eq_ignore_ascii_case("no") {
        return Some(None);
    }
    match Date::read(text) {
        Some(day) => Some(Some(day)),
        None => desk.error(
            node,
            "content.seen",
            told!(
                "expected the day it was looked up, or `no`, found `{value}`",
                value = shown(text)
            ),
            "write year, month and day, such as `2026-11-26`: a keeper must see how old it is",
        ),
    }
}

fn menu(desk: &Desk, id: &Id, node: &Node) -> Option<Menu> {
    let keys = desk.keys(node, "a menu")?;
    let name = match keys.get("name") {
        Some(node) => desk.line(node, "the menu's name"),
        None => Some(id.replace('-', " ")),
    };
    let menu = read_menu(&keys, name.unwrap_or_default());
    keys.done();
    menu
}

/// Something optional that was read: stated and wrong is not the same as left out.
fn optional<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(Some(value)) => Some(Some(value)),
        Some(None) => None,
    }
}

const BASES: &[Basis] = &[Basis::Published, Basis::CommonPractice, Basis::Assumption];
const SURE: &[(Sure, &str)] = &[
    (Sure::Seen, "seen"),
    (Sure::SeenMirror, "seen-mirror"),
    (Sure::SecondHand, "second-hand"),
    (Sure::Derived, "derived"),
    (Sure::Memory, "memory"),
];

/// Where a value comes from.
struct Origin {
    basis: Basis,
    sure: Sure,
    sources: Vec<Id>,
    as_of: Option<Date>,
}

/// `basis`, `source`, and where they make sense `sure` and `as_of`.
fn origin(keys: &Keys<'_, '_>, dated: bool) -> Option<Origin> {
    let desk = keys.desk;
    let basis = keys
        .need("basis", "write published, common practice or assumption")
        .and_then(|node| desk.word(node, "a basis", BASES, Basis::word));
    let sources = codes(desk, keys.get("source"));
    let sure = if dated {
        keys.get("sure").map(|node| {
            desk.word(node, "a word for how sure it is", SURE, |(_, word)| word)
                .map(|(sure, _)| sure)
        })
    } else {
        None
    };
    let as_of = if dated {
        keys.get("as_of").map(|node| desk.date(node))
    } else {
        None
    };
    let basis = basis?;
    if basis == Basis::Published && sources.is_empty() {
        desk.error::<()>(
            keys.node,
            "content.source",
            "a published value needs the code of its source",
            "write `source: S03`, or say `basis: common practice` or `assumption`",
        );
    }
    Some(Origin {
        basis,
        sure: optional(sure)?.unwrap_or(Sure::Seen),
        sources,
        as_of: optional(as_of)?,
    })
}

/// Codes of sources; that each exists is checked with the links.
fn codes(desk: &Desk, node: Option<&Node>) -> Vec<Id> {
    node.map(|node| {
        desk.list(node, "codes of sources")
            .into_iter()
            .filter_map(|item| desk.line(item, "the code of a source"))
            .collect()
    })
    .unwrap_or_default()
}
