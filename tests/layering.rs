//! The rooms of `src/` import only what the table in DEVELOPERS.md allows.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

type Table = BTreeMap<String, BTreeSet<String>>;

pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Rows of the table under a heading of DEVELOPERS.md: first cell to last cell.
fn rows(heading: &str) -> Vec<(String, String)> {
    let text = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let part = text
        .split(&format!("\n## {heading}\n"))
        .nth(1)
        .unwrap_or_else(|| panic!("DEVELOPERS.md has a section '{heading}'"));
    part.split("\n## ")
        .next()
        .unwrap_or_default()
        .lines()
        .filter(|line| line.starts_with("| `"))
        .map(|line| {
            let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            (
                cells[0].replace('`', ""),
                cells[cells.len() - 1].replace('`', ""),
            )
        })
        .collect()
}

fn allowed() -> Table {
    let rows = rows("Rooms");
    let all: BTreeSet<String> = rows.iter().map(|(room, _)| room.clone()).collect();
    assert!(all.len() > 10, "the table of rooms was read: {all:?}");
    rows.into_iter()
        .map(|(room, may)| {
            let may = match may.as_str() {
                "all" => all.clone(),
                "-" => BTreeSet::new(),
                list => list.split(',').map(|name| name.trim().to_owned()).collect(),
            };
            (room, may)
        })
        .collect()
}

pub fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("src")
        .map(|entry| entry.expect("entry").path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            found.push(path);
        }
    }
}

/// The code of a file without comments and string contents, so that a word in
/// prose is not an import.
pub fn code(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for line in text.lines() {
        let mut quoted = false;
        let mut chars = line.chars().peekable();
        while let Some(c) = chars.next() {
            match c {
                '\\' if quoted => {
                    chars.next();
                }
                '"' => quoted = !quoted,
                '/' if !quoted && chars.peek() == Some(&'/') => break,
                _ if quoted => {}
                _ => out.push(c),
            }
        }
        out.push('\n');
    }
    out
}

/// Rooms named after `crate::` in a piece of code, grouped imports included.
fn imports(code: &str) -> BTreeSet<String> {
    let flat: String = code.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut found = BTreeSet::new();
    for (at, _) in flat.match_indices("crate::") {
        if flat[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == '$') {
            continue;
        }
        let rest = &flat[at + "crate::".len()..];
        if let Some(group) = rest.strip_prefix('{') {
            let mut depth = 0;
            let mut name = String::new();
            let mut at_start = true;
            for c in group.chars() {
                match c {
                    '{' => depth += 1,
                    '}' if depth == 0 => break,
                    '}' => depth -= 1,
                    ',' if depth == 0 => {
                        found.insert(std::mem::take(&mut name));
                        at_start = true;
                        continue;
                    }
                    c if depth == 0 && at_start && (c.is_alphanumeric() || c == '_') => {
                        name.push(c)
                    }
                    ' ' if name.is_empty() => {}
                    _ => at_start = false,
                }
            }
            found.insert(name);
        } else {
            found.insert(
                rest.chars()
                    .take_while(|c| c.is_alphanumeric() || *c == '_')
                    .collect(),
            );
        }
    }
    found.remove("");
    found
}

fn room_of(path: &Path) -> String {
    let inside = path.strip_prefix(root().join("src")).expect("inside src");
    let first = inside.components().next().expect("a name").as_os_str();
    Path::new(first)
        .file_stem()
        .expect("a stem")
        .to_string_lossy()
        .into_owned()
}

/// What one file imports against the table, as sentences.
fn violations(file: &str, room: &str, text: &str, table: &Table) -> Vec<String> {
    let may = &table[room];
    imports(&code(text))
        .into_iter()
        .filter(|other| other != room && table.contains_key(other) && !may.contains(other))
        .map(|other| {
            format!("{file}: room `{room}` imports `{other}`, which DEVELOPERS.md does not allow")
        })
        .collect()
}

#[test]
fn rooms_import_only_what_the_table_allows() {
    let table = allowed();
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    let mut found = Vec::new();
    for path in files {
        let room = room_of(&path);
        if matches!(room.as_str(), "main" | "lib" | "build") {
            continue;
        }
        let file = path
            .strip_prefix(root())
            .expect("inside")
            .display()
            .to_string();
        assert!(
            table.contains_key(&room),
            "{file}: room `{room}` has no row in DEVELOPERS.md"
        );
        let text = std::fs::read_to_string(&path).expect("a source");
        found.extend(violations(&file, &room, &text, &table));
    }
    assert!(found.is_empty(), "\n{}", found.join("\n"));
}

#[test]
fn crates_stay_in_their_homes() {
    let homes = rows("Homes of crates");
    assert!(!homes.is_empty(), "the table of homes was read");
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    let mut found = Vec::new();
    for path in files {
        let file = path
            .strip_prefix(root())
            .expect("inside")
            .display()
            .to_string();
        let code = code(&std::fs::read_to_string(&path).expect("a source"));
        for (name, home) in &homes {
            let home: Vec<&str> = home.split(',').map(str::trim).collect();
            let used = [
                format!("use {name}::"),
                format!(" {name}::"),
                format!("({name}::"),
                format!("<{name}::"),
            ]
            .iter()
            .any(|mark| code.contains(mark.as_str()));
            if used && !home.iter().any(|place| file.starts_with(place)) {
                found.push(format!(
                    "{file}: uses the crate `{name}`, whose home is {}",
                    home.join(", ")
                ));
            }
        }
    }
    assert!(found.is_empty(), "\n{}", found.join("\n"));
}

/// A crate that nothing names any more is dead weight: it is built, shipped and watched for nothing.
#[test]
fn every_crate_that_is_asked_for_is_used() {
    let manifest = std::fs::read_to_string(root().join("Cargo.toml")).expect("the manifest");
    let mut section = "";
    let mut asked = Vec::new();
    for line in manifest.lines() {
        if line.starts_with('[') {
            section = line;
        } else if section.ends_with("dependencies]")
            && !section.contains("dev-")
            && let Some((name, _)) = line.split_once(" = ")
        {
            asked.push(name.replace('-', "_"));
        }
    }
    assert!(asked.len() > 30, "the manifest was read: {asked:?}");
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    let texts: Vec<String> = files
        .iter()
        .map(|path| code(&std::fs::read_to_string(path).expect("a source")))
        .collect();
    asked.retain(|name| {
        let path = format!("{name}::");
        !texts.iter().any(|text| text.contains(&path))
    });
    assert!(asked.is_empty(), "asked for and not used: {asked:?}");
}

#[test]
fn a_planted_violation_is_found() {
    let table = allowed();
    let plant = "use crate::plan::Plan;\nuse crate::{doc::Block, course};\n// crate::load is only prose here\n";
    let found = violations("src/render/planted.rs", "render", plant, &table);
    assert_eq!(
        found,
        [
            "src/render/planted.rs: room `render` imports `course`, which DEVELOPERS.md does not allow",
            "src/render/planted.rs: room `render` imports `plan`, which DEVELOPERS.md does not allow",
        ]
    );
}
