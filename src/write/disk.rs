//! Single steps on the disk, with what can go wrong in words a cook understands.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write as _};
use std::path::Path;

use crate::diag::{Problem, told};

use super::Step;

/// Makes a folder and those above it, if they are not there.
pub(super) fn folder(path: &Path) -> Step<()> {
    fs::create_dir_all(path).map_err(|error| problem(path, &error))
}

/// Writes a file and waits until it is safe on the disk.
pub(super) fn file(path: &Path, bytes: &[u8]) -> Step<()> {
    let write = || {
        let mut file = File::create(path)?;
        file.write_all(bytes)?;
        file.sync_all()
    };
    write().map_err(|error| problem(path, &error))
}

/// As [`file`], but refuses when one is there; a file that could not be
/// written whole is taken away again.
pub(super) fn new_file(path: &Path, bytes: &[u8]) -> Step<()> {
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = opened.map_err(|error| {
        if error.kind() == ErrorKind::AlreadyExists {
            Box::new(Problem::error(
                "write.exists",
                told!("{path} is there already", path = path.display()),
                "choose another name, or move the old file away first",
            ))
        } else {
            problem(path, &error)
        }
    })?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    written.map_err(|error| {
        remove(path);
        problem(path, &error)
    })
}

/// Moves a file or folder to another name on the same disk.
pub(super) fn rename(from: &Path, to: &Path) -> Step<()> {
    fs::rename(from, to).map_err(|error| problem(to, &error))
}

/// Changes the names of two folders in one step; false where the system or the disk cannot.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
pub(super) fn exchange(one: &Path, other: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).is_ok()
}

/// Changes the names of two folders in one step; false where the system or the disk cannot.
#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
pub(super) fn exchange(_: &Path, _: &Path) -> bool {
    false
}

/// Takes away a file, or a folder with all in it. Left-overs that cannot be
/// removed now are tried again by the next run.
pub(super) fn remove(path: &Path) {
    let is_folder = path.symlink_metadata().is_ok_and(|kind| kind.is_dir());
    let _ = if is_folder {
        fs::remove_dir_all(path)
    } else {
        fs::remove_file(path)
    };
}

/// Makes the names in a folder safe on the disk, where the system can.
pub(super) fn settle(folder: &Path) {
    if let Ok(opened) = File::open(folder) {
        let _ = opened.sync_all();
    }
}

/// Waits until no other run writes into a folder, where the system can say so;
/// the turn lasts as long as what is given back.
pub(super) fn take_turn(folder: &Path) -> Option<File> {
    let opened = File::open(folder).ok()?;
    opened.lock().ok()?;
    Some(opened)
}

/// Takes a turn that others may have at the same time, each with a `mark` of its own, and nobody
/// else; who holds it first does what has to be done `alone`.
pub(super) fn share_turn(
    folder: &Path,
    mark: &Path,
    alone: impl FnOnce() -> Step<()>,
) -> Step<Vec<File>> {
    let Ok(opened) = File::open(folder) else {
        return Ok(Vec::new());
    };
    if opened.try_lock().is_ok() {
        alone()?;
        let _ = opened.unlock();
    }
    if opened.lock_shared().is_err() {
        return Ok(Vec::new());
    }
    let mark_file = File::create(mark).map_err(|error| problem(mark, &error))?;
    let _ = mark_file.lock();
    Ok(vec![opened, mark_file])
}

/// What a failure of the disk means, and what to do.
pub(super) fn problem(path: &Path, error: &io::Error) -> Box<Problem> {
    let shown = path.display();
    let (code, message, help) = match error.kind() {
        ErrorKind::PermissionDenied => (
            "write.permission",
            told!(
                "{shown} cannot be written: this account may not write there, or a file in it is open in another program",
                shown
            ),
            "close the file, or choose another folder with `--out`",
        ),
        ErrorKind::ReadOnlyFilesystem => (
            "write.read-only",
            told!(
                "{shown} cannot be written: that disk can only be read",
                shown
            ),
            "choose a folder on another disk with `--out`",
        ),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => (
            "write.full",
            told!("{shown} cannot be written: the disk is full", shown),
            "make room, or choose a folder on another disk with `--out`",
        ),
        ErrorKind::NotADirectory | ErrorKind::IsADirectory | ErrorKind::AlreadyExists => (
            "write.file-in-the-way",
            told!(
                "{shown} cannot be written: a file stands where a folder should be, or a folder where a file should",
                shown
            ),
            "choose another folder, or move what is in the way",
        ),
        ErrorKind::InvalidFilename => (
            "write.name",
            told!(
                "{shown} cannot be written: the disk does not take so long or such a name",
                shown
            ),
            "give the trip file a shorter, plain name",
        ),
        _ => (
            "write.disk",
            told!("{shown} cannot be written: {error}", shown, error),
            "see whether the disk is there and has room, then try again",
        ),
    };
    Box::new(Problem::error(code, message, help))
}
