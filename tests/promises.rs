//! The promises in DEVELOPERS.md name tests and files that exist.

use std::path::Path;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn section<'a>(text: &'a str, heading: &str) -> &'a str {
    text.split(&format!("\n## {heading}\n"))
        .nth(1)
        .unwrap_or_else(|| panic!("DEVELOPERS.md has a section '{heading}'"))
        .split("\n## ")
        .next()
        .unwrap_or_default()
}

/// Words between backticks in the last cell of each row.
fn named(section: &str) -> Vec<String> {
    section
        .lines()
        .filter(|line| {
            line.starts_with("| ") && !line.starts_with("| promise") && !line.starts_with("| point")
        })
        .flat_map(|line| {
            let cell = line
                .trim_matches('|')
                .rsplit('|')
                .next()
                .unwrap_or_default();
            cell.split('`')
                .skip(1)
                .step_by(2)
                .map(str::to_owned)
                .collect::<Vec<_>>()
        })
        .collect()
}

fn all_text(folder: &Path, text: &mut String) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = path
            .file_name()
            .map(|n| n.to_string_lossy().into_owned())
            .unwrap_or_default();
        if path.is_dir() && name != "node_modules" {
            all_text(&path, text);
        } else if path
            .extension()
            .is_some_and(|ext| ext == "rs" || ext == "py" || ext == "mjs")
        {
            text.push_str(&std::fs::read_to_string(&path).expect("a text"));
        }
    }
}

#[test]
fn every_promise_names_a_test_that_exists() {
    let guide = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let mut tests = String::new();
    all_text(&root().join("tests"), &mut tests);
    all_text(&root().join("src"), &mut tests);
    let names = named(section(&guide, "What must always hold"));
    assert!(names.len() > 15, "the table was read");
    for name in names {
        let found = ["fn NAME(", "def NAME(", "test(\"NAME\""]
            .iter()
            .any(|form| tests.contains(&form.replace("NAME", &name)));
        assert!(
            found,
            "DEVELOPERS.md names the test `{name}`, which is gone"
        );
    }
}

#[test]
fn every_safety_point_names_a_place_that_exists() {
    let guide = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    let mut file = String::new();
    let names = named(section(&guide, "Safety of the paper"));
    assert!(names.len() > 15, "the table was read");
    for name in names {
        if name.contains('/') {
            file = std::fs::read_to_string(root().join(&name))
                .unwrap_or_else(|_| panic!("DEVELOPERS.md names `{name}`, which is gone"));
        } else {
            assert!(
                file.contains(&format!("{name}:")),
                "`{name}` is not in the file named before it"
            );
        }
    }
}
