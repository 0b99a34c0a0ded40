//! Every public function of `physics` states its formula, range and source and shows an example that runs.

use std::path::Path;

/// What each function's doc must hold; the fence makes the example a doctest.
const PARTS: [&str; 4] = ["Formula:", "Valid:", "Source:", "```"];

/// The functions of a source text, each with what its doc lacks.
fn functions(source: &str) -> Vec<(String, Vec<&'static str>)> {
    let mut doc = String::new();
    let mut found = Vec::new();
    for line in source.lines().map(str::trim) {
        if let Some(text) = line.strip_prefix("///") {
            doc.push_str(text);
            doc.push('\n');
        } else if let Some(rest) = line
            .strip_prefix("pub fn ")
            .or_else(|| line.strip_prefix("pub const fn "))
        {
            let name = rest.split(['(', '<']).next().unwrap_or(rest).to_owned();
            let lacks = PARTS
                .into_iter()
                .filter(|part| !doc.contains(part))
                .collect();
            found.push((name, lacks));
            doc.clear();
        } else if !line.starts_with("#[") {
            doc.clear();
        }
    }
    found
}

#[test]
fn every_function_is_documented() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/physics");
    let mut all = 0;
    let mut faults = Vec::new();
    #[expect(
        clippy::disallowed_methods,
        reason = "a test of the sources reads them"
    )]
    let files = std::fs::read_dir(&folder).expect("the room is there");
    for file in files.map(|file| file.expect("an entry").path()) {
        #[expect(
            clippy::disallowed_methods,
            reason = "a test of the sources reads them"
        )]
        let source = std::fs::read_to_string(&file).expect("a source file");
        for (name, lacks) in functions(&source) {
            all += 1;
            if !lacks.is_empty() {
                faults.push(format!(
                    "{}: {name} lacks {}",
                    file.display(),
                    lacks.join(", ")
                ));
            }
        }
    }
    faults.sort();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(all > 30, "only {all} public functions found");
}

#[test]
fn a_bare_function_is_found_out() {
    let source = "/// Formula: a\n/// Valid: b\n/// ```\n#[must_use]\npub fn half(x: f64) -> f64 {\n}\n\n\
                  /// Formula: Valid: Source: ``` \nconst N: u8 = 1;\npub const fn bare() {}\n";
    let found = functions(source);
    assert_eq!(found[0], ("half".to_owned(), vec!["Source:"]));
    assert_eq!(found[1], ("bare".to_owned(), PARTS.to_vec()));
}
