//! Putting finished folders in place of old ones.

use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

use crate::diag::Problem;

use super::Step;
use super::disk;
use super::manifest::{MANIFEST, listed};

const START: &str = ".leeside-";
const NEW: &str = ".new";
const OLD: &str = ".old";

/// Files that systems drop into any folder they show.
const DROPPINGS: [&str; 3] = [".DS_Store", "Thumbs.db", "desktop.ini"];

/// Where a packet is written before it is put in place.
pub(super) fn new_folder(out: &Path, slug: &str) -> PathBuf {
    out.join(format!("{START}{slug}{NEW}"))
}

/// Where a packet stands while another takes its place.
fn old_folder(out: &Path, slug: &str) -> PathBuf {
    out.join(format!("{START}{slug}{OLD}"))
}

/// Clears away what a run that was cut short left in the out folder. An old
/// packet that had been moved aside and has no successor goes back.
pub(super) fn clear_leftovers(out: &Path) -> Step<()> {
    let entries = fs::read_dir(out).map_err(|error| disk::problem(out, &error))?;
    for entry in entries.flatten() {
        let name = entry.file_name();
        let Some(inner) = name.to_str().and_then(|name| name.strip_prefix(START)) else {
            continue;
        };
        if inner.ends_with(NEW) {
            disk::remove(&entry.path());
        } else if let Some(slug) = inner.strip_suffix(OLD) {
            let home = out.join(slug);
            if home.symlink_metadata().is_ok() {
                disk::remove(&entry.path());
            } else {
                disk::rename(&entry.path(), &home)?;
            }
        }
    }
    Ok(())
}

/// Whether a place is free, or holds a packet and nothing that a person put
/// beside it.
pub(super) fn check_replaceable(home: &Path) -> Step<()> {
    let Ok(kind) = home.symlink_metadata() else {
        return Ok(());
    };
    let shown = home.display();
    if !kind.is_dir() {
        return Err(Box::new(Problem::error(
            "write.file-in-the-way",
            format!("{shown} is not a folder, and the packet's folder has that name"),
            "move it away, or choose another folder with `--out`",
        )));
    }
    let mut found = BTreeSet::new();
    collect(home, "", &mut found).map_err(|error| disk::problem(home, &error))?;
    let kept = fs::read_to_string(home.join(MANIFEST)).ok();
    let Some(known) = kept.as_deref().and_then(listed) else {
        if found.is_empty() {
            return Ok(());
        }
        return Err(Box::new(Problem::error(
            "write.not-a-packet",
            format!("{shown} holds other things than a packet of papers, and would be replaced"),
            "choose another folder with `--out`, or give the trip file another name",
        )));
    };
    match found.iter().find(|path| !known.contains(*path)) {
        None => Ok(()),
        Some(path) => Err(Box::new(Problem::error(
            "write.not-a-packet",
            format!(
                "{shown} also holds `{path}`, which is no part of the packet and would be lost"
            ),
            "move that file out of the folder, or choose another folder with `--out`",
        ))),
    }
}

/// The paths of all files in a folder, but for the manifest and droppings.
fn collect(folder: &Path, prefix: &str, found: &mut BTreeSet<String>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name();
        let path = format!("{prefix}{}", name.to_string_lossy());
        if entry.file_type()?.is_dir() {
            collect(&entry.path(), &format!("{path}/"), found)?;
        } else if path != MANIFEST && !DROPPINGS.iter().any(|drop| name == OsStr::new(drop)) {
            found.insert(path);
        }
    }
    Ok(())
}

/// Puts every new folder in place. If one cannot be, those before it go back.
pub(super) fn swap_in(out: &Path, slugs: &[&str]) -> Step<()> {
    for (at, slug) in slugs.iter().enumerate() {
        if let Err(problem) = swap(out, slug) {
            for slug in slugs[..at].iter().rev() {
                swap_back(out, slug);
            }
            return Err(problem);
        }
    }
    disk::settle(out);
    for slug in slugs {
        // Under the name of what is always cleared away: half removed, it must
        // never be taken for a packet to put back.
        let waste = new_folder(out, slug);
        if fs::rename(old_folder(out, slug), &waste).is_ok() {
            disk::remove(&waste);
        }
    }
    Ok(())
}

fn swap(out: &Path, slug: &str) -> Step<()> {
    let (home, old) = (out.join(slug), old_folder(out, slug));
    if home.symlink_metadata().is_ok() {
        disk::rename(&home, &old)?;
    }
    disk::rename(&new_folder(out, slug), &home).inspect_err(|_| {
        let _ = fs::rename(&old, &home);
    })
}

/// Undoes [`swap`] as far as the disk still lets it.
fn swap_back(out: &Path, slug: &str) {
    let (home, old) = (out.join(slug), old_folder(out, slug));
    if fs::rename(&home, new_folder(out, slug)).is_ok() && old.symlink_metadata().is_ok() {
        let _ = fs::rename(&old, &home);
    }
}
