//! The only writer: puts packets and single files down, all or nothing.
//!
//! A packet is written into a folder of its own beside the place where it will
//! stand (`out/.leeside-SLUG.new`), made safe on the disk, and only then put in
//! place: where the system can, the two folders change names in one step, so that
//! a packet stands there at every moment; elsewhere the old one goes aside
//! (`out/.leeside-SLUG.old`) for a moment, and the next run puts it back if this
//! one was cut short just then. When several packets are written in one call,
//! none is put in place before all of them are on the disk.
//!
//! Nothing is taken away that was not asked for: what lies in the packet's folder
//! and is not made this time stays, whoever put it there. A file that a person
//! changed since it was written (its digest is in the manifest), or that never was
//! ours, is not written over unless that is asked for.
//!
//! Every [`Problem`] of this room has a code `write.*`; the program then ends
//! with exit status 3.

// Looking at what stands in the way is part of writing safely.
#![allow(
    clippy::disallowed_methods,
    reason = "this is the one room that writes"
)]

mod disk;
mod ledger;
mod manifest;
mod packets;
mod place;

use std::collections::BTreeSet;
use std::path::{Component, Path};

use crate::diag::{Outcome, Problem, Told, told};

pub use ledger::{Turn, turn};
pub use manifest::{MANIFEST, digest};
pub use packets::{Fate, Lying, Packet, Place, Sections};

/// What a step inside this room gives back: it stops at the first problem.
type Step<T> = Result<T, Box<Problem>>;

/// What the room gives back, as every stage does.
fn outcome<T>(step: Step<T>) -> Outcome<T> {
    step.map_err(|problem| vec![*problem])
}

/// Writes one file. With `overwrite` false a file that is there already is a
/// problem; with it true that file is replaced in one step.
///
/// # Errors
/// When it cannot be written; then whatever stood there still stands.
pub fn single(path: &Path, bytes: &[u8], overwrite: bool) -> Outcome<()> {
    outcome(put_single(path, bytes, overwrite))
}

fn put_single(path: &Path, bytes: &[u8], overwrite: bool) -> Step<()> {
    if path.is_dir() {
        return Err(Box::new(Problem::error(
            "write.folder",
            told!(
                "{path} is a folder, and a file was to be written there",
                path = path.display()
            ),
            "give the name of a file",
        )));
    }
    if let Some(parent) = path
        .parent()
        .filter(|parent| !parent.as_os_str().is_empty())
    {
        disk::folder(parent)?;
    }
    if !overwrite {
        return disk::new_file(path, bytes);
    }
    let mut name = std::ffi::OsString::from(".leeside-");
    name.push(path.file_name().unwrap_or_default());
    name.push(".new");
    let beside = path.with_file_name(name);
    let done = disk::file(&beside, bytes).and_then(|()| disk::rename(&beside, path));
    if done.is_err() {
        disk::remove(&beside);
    }
    done
}

/// Writes files into a folder, which may exist already, and refuses if any of
/// them does.
///
/// # Errors
/// When a file is in the way or cannot be written; then none of them is there.
pub fn tree(folder: &Path, files: &[(String, Vec<u8>)]) -> Outcome<()> {
    outcome(put_tree(folder, files))
}

fn put_tree(folder: &Path, files: &[(String, Vec<u8>)]) -> Step<()> {
    check_paths(files)?;
    let taken: Vec<_> = files
        .iter()
        .filter(|(path, _)| folder.join(path).symlink_metadata().is_ok())
        .map(|(path, _)| path.as_str())
        .collect();
    if let Some(first) = taken.first() {
        let more = match taken.len() {
            1 => Told::NOTHING,
            count => told!(" (and {count} more)", count = count - 1),
        };
        return Err(Box::new(Problem::error(
            "write.exists",
            told!(
                "{folder} is there already{more}",
                folder = folder.join(first).display(),
                more
            ),
            "choose an empty folder, or move the old files away first",
        )));
    }
    let existed = folder.exists();
    let mut written = Vec::new();
    let done = disk::folder(folder).and_then(|()| {
        files.iter().try_for_each(|(path, bytes)| {
            let target = folder.join(path);
            if let Some(parent) = target.parent() {
                disk::folder(parent)?;
            }
            disk::new_file(&target, bytes)?;
            written.push(target);
            Ok(())
        })
    });
    if done.is_err() {
        if existed {
            written.iter().for_each(|path| disk::remove(path));
        } else {
            disk::remove(folder);
        }
    }
    done
}

/// A folder's name that stays inside the out folder on every system.
fn check_slug(slug: &str) -> Step<()> {
    let plain = |sign: char| sign.is_alphanumeric() || matches!(sign, '-' | '_');
    if slug.is_empty() || !slug.chars().all(plain) {
        return Err(bug(
            slug,
            "a packet's folder is named by letters, digits and hyphens",
        ));
    }
    Ok(())
}

/// Paths that stay inside their folder on every system, each once.
fn check_paths(files: &[(String, Vec<u8>)]) -> Step<()> {
    let mut seen = BTreeSet::new();
    for (path, _) in files {
        let inside = Path::new(path)
            .components()
            .all(|part| matches!(part, Component::Normal(_)));
        let odd = |sign: char| sign.is_control() || matches!(sign, '\\' | ':');
        if path.is_empty() || !inside || path.contains(odd) {
            return Err(bug(path, "this path leads out of the packet"));
        }
        if !seen.insert(path.to_lowercase()) || path.eq_ignore_ascii_case(MANIFEST) {
            return Err(bug(path, "two files of one packet share this path"));
        }
    }
    Ok(())
}

/// A slip of the program's own.
fn bug(name: &str, what: &'static str) -> Box<Problem> {
    Box::new(Problem::error(
        "write.bug",
        told!("bug: {what}: `{name}`", what = Told::from(what), name),
        "nothing was written; please tell the makers of this program",
    ))
}
