//! The only writer: puts packets and single files down, all or nothing.
//!
//! A packet is written into a folder of its own beside the place where it will
//! stand (`out/.leeside-SLUG.new`), made safe on the disk, and only then put in
//! place by renaming: the packet that stood there goes aside
//! (`out/.leeside-SLUG.old`), the new one comes in, the old one is removed.
//! A write that is cut short at any moment leaves the old packet whole; what
//! such a run left behind is cleared away, or put back, by the next. When
//! several packets are written in one call, none is put in place before all of
//! them are on the disk.
//!
//! What a person put there is never removed: a folder is replaced only when it
//! holds a packet's manifest and nothing beside what that names.
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
mod place;

use std::borrow::Borrow;
use std::collections::BTreeSet;
use std::path::{Component, Path, PathBuf};

use rayon::prelude::*;

use crate::diag::{Outcome, Problem};

pub use ledger::{Turn, turn};
pub use manifest::MANIFEST;

/// What a step inside this room gives back: it stops at the first problem.
type Step<T> = Result<T, Box<Problem>>;

/// What the room gives back, as every stage does.
fn outcome<T>(step: Step<T>) -> Outcome<T> {
    step.map_err(|problem| vec![*problem])
}

/// The papers of one trip, ready to be put down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packet {
    /// The name of its folder in the out folder.
    pub slug: String,
    /// What the manifest says of the packet as a whole, in this order, after
    /// its format: `("title", "..")`, `("edition", "..")`.
    pub about: Vec<(String, String)>,
    /// Each file: its path inside the packet with `/` between folders, and its
    /// bytes.
    pub files: Vec<(String, Vec<u8>)>,
}

/// Writes one packet into `out/SLUG` and gives back that path.
///
/// # Errors
/// When it cannot be written; then whatever stood there still stands.
pub fn packet(out: &Path, packet: &Packet) -> Outcome<PathBuf> {
    packets(out, &[packet])?;
    Ok(out.join(&packet.slug))
}

/// Writes several packets, all or none, and gives back their folders in order.
///
/// # Errors
/// The first thing that stands in the way; then no packet was changed.
pub fn packets<P: Borrow<Packet>>(out: &Path, packets: &[P]) -> Outcome<Vec<PathBuf>> {
    let packets: Vec<&Packet> = packets.iter().map(Borrow::borrow).collect();
    outcome(put_packets(out, &packets))
}

fn put_packets(out: &Path, packets: &[&Packet]) -> Step<Vec<PathBuf>> {
    let mut slugs = BTreeSet::new();
    for packet in packets {
        check_slug(&packet.slug)?;
        if !slugs.insert(packet.slug.to_lowercase()) {
            return Err(bug(&packet.slug, "two packets of one call share this name"));
        }
        check_paths(&packet.files)?;
    }
    disk::folder(out)?;
    let _turn = disk::take_turn(out);
    place::clear_leftovers(out)?;
    for packet in packets {
        place::check_replaceable(&out.join(&packet.slug))?;
    }
    let written = packets.iter().try_for_each(|packet| {
        let new = place::new_folder(out, &packet.slug);
        fill(&new, &packet.files)?;
        let manifest = manifest::text(packet);
        disk::file(&new.join(MANIFEST), manifest.as_bytes())?;
        disk::settle(&new);
        Ok(())
    });
    let slugs: Vec<&str> = packets.iter().map(|packet| packet.slug.as_str()).collect();
    let done = written.and_then(|()| place::swap_in(out, &slugs));
    if done.is_err() {
        for slug in &slugs {
            disk::remove(&place::new_folder(out, slug));
        }
    }
    done?;
    Ok(slugs.iter().map(|slug| out.join(slug)).collect())
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
            format!(
                "{} is a folder, and a file was to be written there",
                path.display()
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
            1 => String::new(),
            count => format!(" (and {} more)", count - 1),
        };
        return Err(Box::new(Problem::error(
            "write.exists",
            format!("{} is there already{more}", folder.join(first).display()),
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

/// Fills a new folder; the files of a packet are many and small, and waiting
/// for the disk is most of the work, so several wait at once.
fn fill(folder: &Path, files: &[(String, Vec<u8>)]) -> Step<()> {
    disk::folder(folder)?;
    let mut folders: BTreeSet<PathBuf> = BTreeSet::new();
    for (path, _) in files {
        if let Some(parent) = folder.join(path).parent() {
            folders.insert(parent.to_owned());
        }
    }
    for inner in &folders {
        disk::folder(inner)?;
    }
    files
        .par_iter()
        .map(|(path, bytes)| disk::file(&folder.join(path), bytes))
        .collect::<Vec<_>>()
        .into_iter()
        .collect::<Step<()>>()?;
    folders.iter().for_each(|inner| disk::settle(inner));
    Ok(())
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
fn bug(name: &str, what: &str) -> Box<Problem> {
    Box::new(Problem::error(
        "write.bug",
        format!("bug: {what}: `{name}`"),
        "nothing was written; please tell the makers of this program",
    ))
}
