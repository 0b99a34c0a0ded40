//! Files on disk, read whole, or the reason why not.

use crate::diag::{Outcome, Problem, Source, Told, nearest, told};
use crate::load::Spot;
use std::fs::{self, File};
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

/// The largest file that is read: a trip file is a few pages, and two
/// megabytes are a thousand.
pub const LARGEST_FILE: u64 = 2_000_000;

/// The name under which a file is given on standard input.
pub const STANDARD_INPUT: &str = "-";

/// What came on standard input, for whoever reads it first and for whoever asks again.
static TYPED: OnceLock<Option<Vec<u8>>> = OnceLock::new();

fn standard_input() -> Outcome<Source> {
    let bytes = TYPED.get_or_init(|| {
        let mut bytes = Vec::new();
        let read = std::io::stdin()
            .lock()
            .take(LARGEST_FILE + 1)
            .read_to_end(&mut bytes);
        read.is_ok().then_some(bytes)
    });
    let name: Arc<str> = Arc::from("standard-input");
    match bytes {
        Some(bytes) => fitting(name, bytes.clone()),
        None => Err(vec![
            Problem::error(
                "file.unreadable",
                "standard input cannot be read to its end",
                "name a file in place of `-`",
            )
            .in_file(name),
        ]),
    }
}

/// Reads a text file, or standard input where `-` stands for one; a byte order mark at its
/// start is dropped.
///
/// # Errors
/// One problem: there is no such file, it is a folder, may not be read, is too
/// large, or is not UTF-8 text.
pub fn read(path: &Path) -> Outcome<Source> {
    if path.as_os_str() == STANDARD_INPUT {
        return standard_input();
    }
    let name: Arc<str> = Arc::from(shown(path));
    let refused = |message: &'static str, help: Told| {
        vec![Problem::error("file.unreadable", message, help).in_file(name.clone())]
    };
    let about = fs::metadata(path).map_err(|error| match error.kind() {
        ErrorKind::NotFound => vec![missing(path, &name)],
        ErrorKind::PermissionDenied => refused(
            "the file may not be read",
            "ask its owner for leave to read it".into(),
        ),
        _ => refused(
            "the file cannot be read",
            "check its name and the disk it is on".into(),
        ),
    })?;
    if about.is_dir() {
        return Err(refused(
            "this is a folder, and a file was expected",
            in_it(path),
        ));
    }
    if !about.is_file() {
        return Err(refused(
            "this is not a plain file",
            "name a file on disk".into(),
        ));
    }
    let mut bytes = Vec::new();
    File::open(path)
        .and_then(|file| file.take(LARGEST_FILE + 1).read_to_end(&mut bytes))
        .map_err(|error| {
            refused(
                if error.kind() == ErrorKind::PermissionDenied {
                    "the file may not be read"
                } else {
                    "the file cannot be read to its end"
                },
                "check who may read it, and the disk it is on".into(),
            )
        })?;
    fitting(name, bytes)
}

/// What to write in place of a folder where one file is wanted.
fn in_it(folder: &Path) -> Told {
    const MOST: usize = 5;
    let files = trips_in(folder).unwrap_or_default();
    let names: Vec<String> = files.iter().take(MOST).map(|path| shown(path)).collect();
    match files.len() {
        0 => Told::from("name the file in it"),
        count if count > MOST => told!(
            "name one file in it, such as {names}",
            names = names.join(", ")
        ),
        _ => told!("name one file in it: {names}", names = names.join(", ")),
    }
}

/// Bytes as text, if they are no more than a file may have.
fn fitting(name: Arc<str>, bytes: Vec<u8>) -> Outcome<Source> {
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(vec![
            Problem::error(
                "file.large",
                told!(
                    "the file is larger than {size} MB, which no trip or module needs",
                    size = LARGEST_FILE / 1_000_000
                ),
                "name the right file, or take out what does not belong in it",
            )
            .in_file(name),
        ]);
    }
    decoded(name, bytes).map_err(|problem| vec![problem])
}

fn missing(path: &Path, name: &Arc<str>) -> Problem {
    let wanted = path
        .file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default();
    let folder = match path.parent() {
        Some(parent) if parent.as_os_str().is_empty() => Path::new("."),
        Some(parent) => parent,
        None => Path::new("."),
    };
    let beside: Vec<String> = fs::read_dir(folder)
        .map(|entries| {
            let mut names: Vec<String> = entries
                .flatten()
                .map(|entry| entry.file_name().to_string_lossy().into_owned())
                .filter(|name| Path::new(name).extension() == path.extension())
                .collect();
            names.sort();
            names
        })
        .unwrap_or_default();
    // the endings are mostly equal and say nothing: names are near if they are without them
    let stem = |name: &str| {
        name.rsplit_once('.')
            .map_or(name, |(stem, _)| stem)
            .to_owned()
    };
    let stems: Vec<String> = beside.iter().map(|name| stem(name)).collect();
    let near = nearest(&stem(&wanted), stems.iter().map(String::as_str))
        .and_then(|near| stems.iter().position(|stem| stem == near))
        .and_then(|index| beside.get(index));
    let help = near.map_or_else(
        || Told::from("check the name and the folder"),
        |near| told!("perhaps `{near}` is meant, in the same folder", near),
    );
    Problem::error("file.missing", "there is no such file", help).in_file(name.clone())
}

fn decoded(name: Arc<str>, bytes: Vec<u8>) -> Result<Source, Problem> {
    let looks_utf16 = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    match String::from_utf8(bytes) {
        Ok(text) => Ok(Source {
            name,
            text: Arc::from(text.strip_prefix('\u{feff}').unwrap_or(&text)),
        }),
        Err(error) => {
            let good = error.utf8_error().valid_up_to();
            let source = Source {
                name,
                text: Arc::from(String::from_utf8_lossy(error.as_bytes())),
            };
            let help = if looks_utf16 {
                "the file is saved as UTF-16: save it again as UTF-8"
            } else {
                "save the file again as UTF-8 text"
            };
            Err(Spot::of_byte(&source, good).point(Problem::error(
                "file.utf8",
                "the file is not UTF-8 text from here on",
                help,
            )))
        }
    }
}

/// A path as a person typed it, with `/` on every system.
pub(super) fn shown(path: &Path) -> String {
    path.to_string_lossy()
        .chars()
        .map(|c| match c {
            '\\' if std::path::MAIN_SEPARATOR == '\\' => '/',
            c if c.is_control() => '\u{fffd}',
            c => c,
        })
        .collect()
}

/// Every file below a folder with its path relative to it, sorted; hidden ones
/// are left out, and links to folders are not followed.
///
/// # Errors
/// One problem if the folder cannot be listed.
pub(super) fn files_below(folder: &Path) -> Outcome<Vec<(String, PathBuf)>> {
    fn walk(
        folder: &Path,
        prefix: &str,
        found: &mut Vec<(String, PathBuf)>,
    ) -> std::io::Result<()> {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if name.starts_with('.') {
                continue;
            }
            let relative = format!("{prefix}{name}");
            let kind = entry.file_type()?;
            if kind.is_dir() {
                walk(&entry.path(), &format!("{relative}/"), found)?;
            } else {
                found.push((relative, entry.path()));
            }
        }
        Ok(())
    }
    let name = shown(folder);
    let refused = |message: &'static str, help: &'static str| {
        vec![Problem::error("folder.unreadable", message, help).in_file(name.clone())]
    };
    if !folder.is_dir() {
        return Err(refused(
            if folder.exists() {
                "a folder was expected, and this is a file"
            } else {
                "there is no such folder"
            },
            "name the folder that holds the content to lay over the built-in one",
        ));
    }
    let mut found = Vec::new();
    walk(folder, "", &mut found)
        .map_err(|_| refused("the folder cannot be listed", "check who may read it"))?;
    found.sort();
    Ok(found)
}

/// The YAML files below a folder, sorted.
///
/// # Errors
/// One problem if the folder cannot be listed.
pub fn yaml_files(folder: &Path) -> Outcome<Vec<PathBuf>> {
    Ok(files_below(folder)?
        .into_iter()
        .filter(|(relative, _)| is_yaml(relative))
        .map(|(_, path)| path)
        .collect())
}

/// The YAML files that lie in a folder itself, sorted: its trips.
///
/// # Errors
/// One problem if the folder cannot be listed.
pub fn trips_in(folder: &Path) -> Outcome<Vec<PathBuf>> {
    Ok(files_below(folder)?
        .into_iter()
        .filter(|(relative, _)| is_yaml(relative) && !relative.contains('/'))
        .map(|(_, path)| path)
        .collect())
}

pub(super) fn is_yaml(name: &str) -> bool {
    let name = name.to_lowercase();
    name.ends_with(".yaml") || name.ends_with(".yml")
}

/// The largest table that is read: a hundred thousand departures have room in it.
const LARGEST_TABLE: u64 = 60_000_000;

/// Reads a table as it lies there.
///
/// # Errors
/// There is no such file, it may not be read, or it is too large.
pub fn table(path: &Path) -> Outcome<Vec<u8>> {
    let name: Arc<str> = Arc::from(shown(path));
    match fs::metadata(path) {
        Err(error) if error.kind() == ErrorKind::NotFound => Err(vec![missing(path, &name)]),
        Ok(about) if about.len() > LARGEST_TABLE => Err(vec![
            Problem::error(
                "file.large",
                told!(
                    "the table is larger than {size} MB",
                    size = LARGEST_TABLE / 1_000_000
                ),
                "cut it into several, a month each",
            )
            .in_file(name),
        ]),
        _ => bytes(path),
    }
}

/// Reads a file of bytes.
///
/// # Errors
/// It cannot be read.
pub fn bytes(path: &Path) -> Outcome<Vec<u8>> {
    read_bytes(path)
}

pub(super) fn read_bytes(path: &Path) -> Outcome<Vec<u8>> {
    fs::read(path).map_err(|_| {
        vec![
            Problem::error(
                "file.unreadable",
                "the file cannot be read",
                "check who may read it",
            )
            .in_file(shown(path)),
        ]
    })
}
