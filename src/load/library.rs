//! The library as written: every content file as a tree, overlays merged.

use super::assets::{Assets, BUILT_IN, assets};
use super::disk::{files_below, is_yaml};
use super::language::{self, Coverage, ENGLISH};
use super::merge::laid_over;
use super::messages::holds_messages;
use super::node::{Entry, Node, Value, folded_key};
use super::stamp;
use super::yaml::parse;
use crate::diag::{Outcome, Problem, Source, Told, nearest, told};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Files that stand alone in the library.
const SINGLE: &[&str] = &[
    "library.yaml",
    "sources.yaml",
    "menus.yaml",
    "figures.yaml",
    "plausible.yaml",
    "gear/stoves.yaml",
    "gear/fuels.yaml",
    "gear/pots.yaml",
    "gear/containers.yaml",
];
/// Folders with a file for each id.
const FOLDERS: &[&str] = &["modules", "places", "profiles"];
/// Folders of examples, which are not part of the library.
const EXAMPLES: &[&str] = &["trips", "trials"];

/// The library as written.
#[derive(Clone, Debug)]
pub struct Library {
    /// The texts and fonts it was read from.
    pub assets: Assets,
    /// Trees by path: `modules/greywater.yaml`, `gear/stoves.yaml`.
    pub files: BTreeMap<String, Node>,
    /// What is worth a look about files that stand on others.
    pub notes: Vec<Problem>,
    /// The language that its texts are in: `en`, or the folder that was laid over it.
    pub language: String,
    /// Names of kit in that language, by the English ones; none in English.
    pub kit: BTreeMap<String, String>,
    /// The words of sheets in that language, by file; none in English.
    pub words: BTreeMap<String, String>,
}

impl Library {
    /// Whether anything is laid over the built-in content.
    #[must_use]
    pub fn laid_over(&self) -> bool {
        self.assets
            .content
            .values()
            .any(|source| !source.name.starts_with(BUILT_IN))
    }

    /// The languages that it can be read in.
    #[must_use]
    pub fn spoken(&self) -> Vec<String> {
        language::spoken(self.assets.content.keys())
    }

    /// The same in a language, whole: not one text stays English.
    ///
    /// # Errors
    /// A language that is not there, and each file with texts that it does not say.
    pub fn in_language(self, language: &str) -> Outcome<Self> {
        let (library, coverage) = self.said_in(language)?;
        if coverage.problems.is_empty() {
            Ok(library)
        } else {
            Err(coverage.problems)
        }
    }

    /// The same in a language as far as it is said there, and how far that is.
    ///
    /// # Errors
    /// A language that is not there, and files that are no YAML.
    pub fn said_in(mut self, language: &str) -> Outcome<(Self, Coverage)> {
        let mut coverage = Coverage::default();
        if language == ENGLISH {
            return Ok((self, coverage));
        }
        let spoken = self.spoken();
        if !spoken.iter().any(|one| one == language) {
            return Err(vec![language::unknown(language, &spoken)]);
        }
        let own = self.own(language)?;
        for (path, root) in &mut self.files {
            coverage.lay(language, path, root, own.get(path));
        }
        self.kit = language::kit(&self.files, language, own.get(language::KIT), &mut coverage);
        for (path, root) in &own {
            if !self.files.contains_key(path) && path != language::KIT {
                coverage.problems.push(language::unplaced(path, root));
            }
        }
        for (path, source) in &self.assets.content {
            let own = language::of(path).filter(|(code, _)| *code == language);
            if own.is_some_and(|(_, inside)| language::holds_words(inside)) {
                let name = format!("content/{path}");
                self.words.insert(name, source.text.to_string());
            }
        }
        language.clone_into(&mut self.language);
        Ok((self, coverage))
    }

    /// The files of a language as trees, by the path that each is laid over.
    fn own(&self, language: &str) -> Outcome<BTreeMap<String, Node>> {
        let mut own = BTreeMap::new();
        let mut problems = Vec::new();
        for (path, source) in &self.assets.content {
            let Some((_, inside)) = language::of(path).filter(|(code, _)| *code == language) else {
                continue;
            };
            if !is_yaml(path) || holds_messages(path) {
                continue;
            }
            let hidden = self.assets.beneath.get(path).into_iter().flatten();
            let trees: Vec<_> = hidden.chain([source]).map(parse).collect();
            let mut whole: Option<Node> = None;
            for tree in trees {
                match tree {
                    Ok(tree) => {
                        whole = Some(whole.map_or(tree.clone(), |below| laid_over(&below, &tree)));
                    }
                    Err(problem) => problems.push(problem),
                }
            }
            own.extend(whole.map(|root| (inside.to_owned(), root)));
        }
        if problems.is_empty() {
            Ok(own)
        } else {
            Err(problems)
        }
    }
}

/// Reads the built-in library with folders laid over it, each over the one before.
///
/// # Errors
/// Every file that cannot be read, the first problem of shape of each, and
/// files that the library has no place for.
pub fn library(overlays: &[PathBuf]) -> Outcome<Library> {
    library_of(assets(overlays)?)
}

/// As [`library`], with more content files laid over it: (path inside
/// `content/`, text).
///
/// # Errors
/// As [`library`].
pub fn library_with(overlays: &[PathBuf], more: &[(String, Source)]) -> Outcome<Library> {
    let mut assets = assets(overlays)?;
    for (path, source) in more {
        assets.lay(path, source.clone());
    }
    library_of(assets)
}

/// The path inside `content/` that a file on disk stands for, told by its name
/// and the folder it lies in; none if it is not a content file.
#[must_use]
pub fn content_path(path: &Path) -> Option<String> {
    let name = path.file_name()?.to_str()?;
    let folder = path
        .parent()
        .and_then(Path::file_name)
        .and_then(|folder| folder.to_str())
        .unwrap_or_default();
    let with_folder = format!("{folder}/{name}");
    if FOLDERS.contains(&folder) || SINGLE.contains(&with_folder.as_str()) {
        Some(with_folder)
    } else if SINGLE.contains(&name) {
        Some(name.to_owned())
    } else {
        None
    }
}

/// The library of assets that are in hand.
///
/// # Errors
/// As [`library`].
pub fn library_of(assets: Assets) -> Outcome<Library> {
    let mut problems = Vec::new();
    let mut notes = Vec::new();
    let mut files = BTreeMap::new();
    let mut extending = Vec::new();
    let mut taken = Vec::with_capacity(assets.content.len());
    for (path, source) in &assets.content {
        match place_of(path) {
            Some(true) => taken.push((path, source)),
            Some(false) => {}
            None => problems.push(unplaced(path, source)),
        }
    }
    // the files on all cores; what is said of them keeps their order
    let roots: Vec<_> = taken.par_iter().map(|(_, source)| parse(source)).collect();
    for ((path, _), root) in taken.into_iter().zip(roots) {
        match root {
            Ok(root) if root.get("extends").is_some() => extending.push((path.clone(), root)),
            Ok(root) => {
                files.insert(path.clone(), root);
            }
            Err(problem) => problems.push(problem),
        }
    }
    for (path, root) in extending {
        let hidden = assets.beneath.get(&path).map_or(&[][..], Vec::as_slice);
        let merged = beneath(&path, hidden, &files)
            .and_then(|below| extended(&path, &root, &files, below.as_ref()));
        match merged {
            Ok((merged, note)) => {
                files.insert(path, merged);
                notes.extend(note);
            }
            Err(problem) => problems.push(problem),
        }
    }
    for root in files.values_mut() {
        if let Err(problem) = extend_entries(root) {
            problems.push(problem);
        }
    }
    if problems.is_empty() {
        Ok(Library {
            assets,
            files,
            notes,
            language: ENGLISH.to_owned(),
            kit: BTreeMap::new(),
            words: BTreeMap::new(),
        })
    } else {
        Err(problems)
    }
}

/// Whether a path is part of the library (`Some(true)`), may lie there without
/// being part of it (`Some(false)`), or has no place in it.
fn place_of(path: &str) -> Option<bool> {
    if !is_yaml(path) || language::of(path).is_some() {
        return Some(false);
    }
    if SINGLE.contains(&path) {
        return Some(true);
    }
    let (folder, name) = path.split_once('/')?;
    if EXAMPLES.contains(&folder) {
        return Some(false);
    }
    (FOLDERS.contains(&folder) && !name.contains('/') && name.ends_with(".yaml")).then_some(true)
}

/// Whether a folder holds trips rather than content: YAML files lie in it, none of them where
/// the library has a place for it, and no folder of content or templates beside them.
#[must_use]
pub fn holds_trips(folder: &Path) -> bool {
    let Ok(found) = files_below(folder) else {
        return false;
    };
    let content = |path: &str| {
        path.contains('/')
            || place_of(path) == Some(true)
            || nearest(path, SINGLE.iter().copied()).is_some()
    };
    let ours = |path: &str| path.starts_with("templates/") || (is_yaml(path) && content(path));
    found.iter().any(|(path, _)| is_yaml(path)) && !found.iter().any(|(path, _)| ours(path))
}

fn unplaced(path: &str, source: &Source) -> Problem {
    let known = SINGLE.iter().copied();
    let help = match nearest(path, known) {
        Some(near) => told!("perhaps `{near}` is meant", near),
        None => Told::from(
            "modules go into `modules/`, places into `places/`, profiles into `profiles/`, each as ID.yaml",
        ),
    };
    Problem::error(
        "content.unplaced",
        told!("the library has no place for `{path}`", path),
        help,
    )
    .in_file(source.name.clone())
}

/// The id that a path stands for: `greywater` of `modules/greywater.yaml`.
fn stem(path: &str) -> &str {
    let name = path.rsplit_once('/').map_or(path, |(_, name)| name);
    name.strip_suffix(".yaml").unwrap_or(name)
}

/// What the hidden files of a path come to, each laid over the one below where it extends it.
fn beneath(
    path: &str,
    hidden: &[Source],
    files: &BTreeMap<String, Node>,
) -> Result<Option<Node>, Problem> {
    let mut below = None;
    for source in hidden {
        let root = parse(source)?;
        below = Some(match root.get("extends") {
            Some(_) => extended(path, &root, files, below.as_ref())?.0,
            None => root,
        });
    }
    Ok(below)
}

fn extended(
    path: &str,
    root: &Node,
    files: &BTreeMap<String, Node>,
    below: Option<&Node>,
) -> Result<(Node, Option<Problem>), Problem> {
    let named = root.get("extends").unwrap_or(root);
    let wanted = named.text().map(crate::nouns::id).unwrap_or_default();
    let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
    let target = if folder.is_empty() {
        format!("{wanted}.yaml")
    } else {
        format!("{folder}/{wanted}.yaml")
    };
    let base = if target == path {
        below
    } else {
        files.get(&target)
    };
    let Some(base) = base else {
        let known: Vec<&str> = files
            .keys()
            .filter(|other| other.rsplit_once('/').map_or("", |(folder, _)| folder) == folder)
            .map(|other| stem(other))
            .collect();
        let help = match nearest(&wanted, known.iter().copied()) {
            Some(near) => told!("perhaps `{near}` is meant", near),
            None => told!("known here: {known}", known = known.join(", ")),
        };
        return Err(named.problem(Problem::error(
            "content.extends",
            told!("there is nothing named `{wanted}` to extend", wanted),
            help,
        )));
    };
    let note = stamp::held_against(root, &wanted, base, &target);
    let over = without(root, &["extends", "base"]);
    Ok((laid_over(base, &over), note))
}

fn without(node: &Node, keys: &[&str]) -> Node {
    let mut node = node.clone();
    if let Value::Map(entries) = &mut node.value {
        entries.retain(|entry| !keys.contains(&folded_key(&entry.key).as_str()));
    }
    node
}

/// An entry of a file keyed by id may extend another entry of it.
fn extend_entries(root: &mut Node) -> Result<(), Problem> {
    let Value::Map(entries) = &mut root.value else {
        return Ok(());
    };
    for at in 0..entries.len() {
        let Some(named) = entries[at].node.get("extends") else {
            continue;
        };
        let wanted = folded_key(named.text().unwrap_or_default());
        let base = entries.iter().enumerate().find(|(other, entry)| {
            *other != at && folded_key(&entry.key) == wanted && entry.node.get("extends").is_none()
        });
        let Some((_, Entry { node: base, .. })) = base else {
            let known = entries.iter().map(|entry| entry.key.as_str());
            let help = match nearest(named.text().unwrap_or_default(), known) {
                Some(near) => told!("perhaps `{near}` is meant", near),
                None => {
                    Told::from("name another entry of this file, one that does not extend itself")
                }
            };
            return Err(named.problem(Problem::error(
                "content.extends",
                "there is no such entry to extend in this file",
                help,
            )));
        };
        let merged = laid_over(base, &without(&entries[at].node, &["extends"]));
        entries[at].node = merged;
    }
    Ok(())
}
