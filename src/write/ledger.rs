//! Adds lines to a ledger: a file that is only ever added to.

use super::{Step, disk, outcome};
use crate::diag::Outcome;
use std::fs::{File, OpenOptions};
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

/// The turn to read a ledger and add to it: nobody else of ours adds while it lasts.
#[derive(Debug)]
pub struct Turn {
    path: PathBuf,
    _lock: Option<File>,
}

/// Waits for the turn at a ledger. Take it before the ledger is read: what is added must follow
/// from what stands there.
///
/// # Errors
/// When its folder cannot be made.
pub fn turn(path: &Path) -> Outcome<Turn> {
    outcome(take(path))
}

fn take(path: &Path) -> Step<Turn> {
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    disk::folder(folder)?;
    Ok(Turn {
        path: path.to_owned(),
        _lock: disk::take_turn(folder),
    })
}

impl Turn {
    /// Adds text to the ledger and waits until it is safe on the disk. The last `torn` bytes
    /// that stand there were cut short when they were written and go into a file beside it
    /// (`shelf.csv.torn`), so that nothing is lost.
    ///
    /// # Errors
    /// When it cannot be written; then what stood there stands, and nothing of the text.
    pub fn add(&self, torn: usize, text: &str) -> Outcome<()> {
        let add = || {
            let mut file = OpenOptions::new()
                .read(true)
                .write(true)
                .create(true)
                .truncate(false)
                .open(&self.path)?;
            if torn > 0 {
                let whole = file.metadata()?.len().saturating_sub(torn as u64);
                let mut torn = Vec::new();
                file.seek(SeekFrom::Start(whole))?;
                file.read_to_end(&mut torn)?;
                let mut name = self.path.clone().into_os_string();
                name.push(".torn");
                let mut aside = OpenOptions::new().append(true).create(true).open(name)?;
                aside.write_all(&torn)?;
                aside.write_all(b"\n")?;
                aside.sync_all()?;
                file.set_len(whole)?;
            }
            let stood = file.seek(SeekFrom::End(0))?;
            let added = file
                .write_all(text.as_bytes())
                .and_then(|()| file.sync_all());
            if added.is_err() {
                // half of a handing-out is worse than none; where this fails too, a line that was
                // cut short is told and laid aside by the next command
                let _ = file.set_len(stood).and_then(|()| file.sync_all());
            }
            added
        };
        outcome(add().map_err(|error| {
            let mut problem = disk::problem(&self.path, &error);
            problem.help = "nothing was added: make room, or close the file in the other program; then say it again".into();
            problem
        }))
    }
}
