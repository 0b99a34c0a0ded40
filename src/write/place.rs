//! Putting finished folders in place of old ones.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use crate::diag::{Problem, told};

use super::Step;
use super::disk;
use super::manifest::MANIFEST;

const START: &str = ".leeside-";
const NEW: &str = ".new";
const OLD: &str = ".old";
const PART: &str = ".part";

/// Where a packet is written before it is put in place.
pub(super) fn new_folder(out: &Path, slug: &str) -> PathBuf {
    out.join(format!("{START}{slug}{NEW}"))
}

/// The mark of one part of a work that several runs share.
pub(super) fn part_mark(out: &Path, part: usize, of: usize) -> PathBuf {
    out.join(format!("{START}{part}-of-{of}{PART}"))
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
        if inner.ends_with(NEW) || inner.ends_with(PART) {
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

/// The paths of all files in a folder but its manifest; none where there is no folder.
pub(super) fn files(home: &Path) -> Step<BTreeSet<PathBuf>> {
    let mut found = BTreeSet::new();
    match home.symlink_metadata() {
        Err(_) => return Ok(found),
        Ok(kind) if kind.is_dir() => {}
        Ok(_) => {
            return Err(Box::new(Problem::error(
                "write.file-in-the-way",
                told!(
                    "{home} is not a folder, and the packet's folder has that name",
                    home = home.display()
                ),
                "move it away, or choose another folder with `--out`",
            )));
        }
    }
    collect(home, Path::new(""), &mut found).map_err(|error| disk::problem(home, &error))?;
    Ok(found)
}

fn collect(folder: &Path, inside: &Path, found: &mut BTreeSet<PathBuf>) -> std::io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = inside.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            collect(&entry.path(), &path, found)?;
        } else if path != Path::new(MANIFEST) {
            found.insert(path);
        }
    }
    Ok(())
}

/// Takes files of the old folder over into the new one, as second names of the same files where
/// the disk has such; else as copies.
pub(super) fn keep<'a>(
    home: &Path,
    new: &Path,
    paths: impl Iterator<Item = &'a PathBuf>,
) -> Step<()> {
    for path in paths {
        let (from, to) = (home.join(path), new.join(path));
        if let Some(parent) = to.parent() {
            disk::folder(parent)?;
        }
        if fs::hard_link(&from, &to).is_err() {
            fs::copy(&from, &to).map_err(|error| disk::problem(&from, &error))?;
        }
    }
    Ok(())
}

/// Puts every new folder in place. If one cannot be, those before it go back.
/// `known` tells the files that a packet had when its new folder was made.
pub(super) fn swap_in<'a>(
    out: &Path,
    slugs: &[&str],
    known: impl Fn(&str) -> &'a BTreeSet<PathBuf>,
) -> Step<()> {
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
        let _ = fs::rename(old_folder(out, slug), &waste);
        rescue(&waste, &out.join(slug), known(slug));
        disk::remove(&waste);
    }
    Ok(())
}

/// What a person laid into the old folder while the new one was being written comes along.
fn rescue(old: &Path, home: &Path, known: &BTreeSet<PathBuf>) {
    for path in files(old).unwrap_or_default() {
        let to = home.join(&path);
        if !known.contains(&path) && to.symlink_metadata().is_err() {
            if let Some(parent) = to.parent() {
                let _ = fs::create_dir_all(parent);
            }
            let _ = fs::rename(old.join(&path), to);
        }
    }
}

/// Puts a new folder in the place of the old one: in one step where the system can change two
/// names at once, so that a packet stands there at every moment; else the old one goes aside.
fn swap(out: &Path, slug: &str) -> Step<()> {
    let (home, new, old) = (out.join(slug), new_folder(out, slug), old_folder(out, slug));
    if home.symlink_metadata().is_err() {
        return disk::rename(&new, &home);
    }
    if disk::exchange(&new, &home) {
        return Ok(());
    }
    disk::rename(&home, &old)?;
    disk::rename(&new, &home).inspect_err(|_| {
        let _ = fs::rename(&old, &home);
    })
}

/// Undoes [`swap`] as far as the disk still lets it.
fn swap_back(out: &Path, slug: &str) {
    let (home, new, old) = (out.join(slug), new_folder(out, slug), old_folder(out, slug));
    // after an exchange the old packet stands under the new one's name
    if new.symlink_metadata().is_ok() {
        disk::exchange(&new, &home);
    } else if fs::rename(&home, &new).is_ok() && old.symlink_metadata().is_ok() {
        let _ = fs::rename(&old, &home);
    }
}
