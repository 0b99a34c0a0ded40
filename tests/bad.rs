//! Wrong input: each file below `tests/bad/` with the message that it gets.
//!
//! `NAME.yaml` (or a folder `NAME/`, which is laid over the content) is checked by the real
//! program; what it says on standard error must be `NAME.stderr`. A file `NAME.args` replaces
//! the usual `check FILE`, with `FILE` standing for the case. Dropping in two files adds a
//! case; `UPDATE=1 cargo test bad` writes the messages anew. What lies in `look/` and `usual/`
//! passes with warnings; all else is refused.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};

const ROOT: &str = env!("CARGO_MANIFEST_DIR");
/// A refusal takes a third of a second. What is looked for is a run that hangs: a build without
/// optimisation on a machine that does ten other things may take a hundred times as long.
const LONGEST: Duration = Duration::from_secs(60);

fn leeside(args: &[&str], folder: &Path) -> (Output, Duration) {
    let started = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("the program runs");
    (output, started.elapsed())
}

/// What every refusal has in common: exit status, no panic, nothing on standard output, quick.
fn refused(name: &str, args: &[&str], folder: &Path, status: i32) -> String {
    let (output, took) = leeside(args, folder);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(status), "{name}: {said}");
    assert!(!said.contains("panicked"), "{name}: {said}");
    assert!(
        output.stdout.is_empty(),
        "{name}: {}",
        String::from_utf8_lossy(&output.stdout)
    );
    assert!(took < LONGEST, "{name} took {took:?}");
    assert!(
        said.contains("help: ") || said.contains("qué hacer: "),
        "{name} gives no help: {said}"
    );
    said
}

/// The cases of a folder of `tests/bad/`, without their endings.
fn cases(stage: &str) -> Vec<PathBuf> {
    let folder = Path::new(ROOT).join("tests/bad").join(stage);
    let mut found: Vec<PathBuf> = fs::read_dir(&folder)
        .expect("the folder of cases")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.is_dir() || path.extension().is_some_and(|ending| ending == "yaml"))
        .collect();
    found.sort();
    found
}

fn run(stage: &str, status: i32) {
    let folder = Path::new(ROOT).join("tests/bad").join(stage);
    let mut wrong = Vec::new();
    for case in cases(stage) {
        let file = case.file_name().unwrap().to_str().unwrap();
        let stem = case.file_stem().unwrap().to_str().unwrap();
        let stored = fs::read_to_string(folder.join(format!("{stem}.args")));
        let args: Vec<&str> = match &stored {
            Ok(args) => args
                .split_whitespace()
                .map(|arg| if arg == "FILE" { file } else { arg })
                .collect(),
            Err(_) => vec!["check", file],
        };
        let said = refused(stem, &args, &folder, status);
        // how many files the library has is no part of a case
        let said: String = said
            .split_inclusive('\n')
            .filter(|line| !line.contains("checked: nothing wrong"))
            .collect();
        let expected = folder.join(format!("{stem}.stderr"));
        if std::env::var("UPDATE").is_ok_and(|update| update == "1") {
            fs::write(&expected, &said).expect("the message is written");
            continue;
        }
        let wanted = fs::read_to_string(&expected).unwrap_or_default();
        if said != wanted.replace("\r\n", "\n") {
            wrong.push(format!(
                "{stage}/{stem}\n--- expected\n{wanted}\n--- said\n{said}"
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn files_that_cannot_be_read() {
    run("load", 1);
}

#[test]
fn trips_lessons_and_trials_that_cannot_be() {
    run("check", 1);
}

#[test]
fn command_lines_that_cannot_be_read() {
    run("flag", 2);
}

/// What people type who have never written such a file.
#[test]
fn first_tries() {
    run("first", 1);
}

#[test]
fn values_that_cannot_be_right() {
    run("range", 1);
}

#[test]
fn values_that_are_asked_about() {
    run("usual", 0);
}

#[test]
fn content_that_cannot_be_used() {
    run("content", 1);
}

#[test]
fn what_passes_but_is_worth_a_look() {
    run("look", 0);
}

/// The first lines of a message, which say what and where.
fn head(said: &str) -> String {
    said.lines().take(2).collect::<Vec<_>>().join("\n")
}

#[test]
fn files_that_are_not_there_or_are_something_else() {
    let temp = tempfile::tempdir().unwrap();
    let here = temp.path();
    fs::write(here.join("ridge.yaml"), "title: x\n").unwrap();
    let said = refused("missing", &["check", "rigde.yaml"], here, 1);
    assert_eq!(
        said.trim_end(),
        "error[file.missing]: there is no such file\n --> rigde.yaml\n  = help: perhaps `ridge.yaml` is meant, in the same folder"
    );
    fs::create_dir(here.join("folder.yaml")).unwrap();
    let said = refused("folder", &["make", "folder.yaml"], here, 1);
    assert!(head(&said).contains("this is a folder"), "{said}");
    let said = refused(
        "no content",
        &["check", "ridge.yaml", "--content", "nowhere"],
        here,
        1,
    );
    assert!(head(&said).contains("there is no such folder"), "{said}");
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read() {
    use std::os::unix::fs::PermissionsExt as _;
    let temp = tempfile::tempdir().unwrap();
    let file = temp.path().join("shut.yaml");
    fs::write(&file, "title: x\n").unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o000)).unwrap();
    if fs::read(&file).is_ok() {
        // the superuser reads everything; a loop of links cannot be read by anyone
        fs::remove_file(&file).unwrap();
        std::os::unix::fs::symlink(&file, &file).unwrap();
    }
    let said = refused("unreadable", &["check", "shut.yaml"], temp.path(), 1);
    assert!(head(&said).starts_with("error[file.unreadable]"), "{said}");
}

/// Large and malicious files are made here, so that they need not be kept.
#[test]
fn files_made_to_break_it() {
    let temp = tempfile::tempdir().unwrap();
    let here = temp.path();
    let trip = |title: &str, more: &str| {
        format!(
            "title: {title}\npeople:\n  learners: 4\nstove: white gas\nwater_treatment: filter\n{more}camps:\n  - name: A\n    nights: 1\n    elevation: 1000 m\n"
        )
    };
    let mut anchors = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
    for level in 1..12 {
        let before = vec![format!("*a{}", level - 1); 10].join(", ");
        anchors += &format!("a{level}: &a{level} [{before}]\n");
    }
    let keys: String = (0..8_000).map(|key| format!("key{key}: 1\n")).collect();
    let camps: String = (0..20_000)
        .map(|_| "  - name: 1\n    nights: x\n")
        .collect();
    let cases = [
        ("brackets at the top", "[".repeat(1 << 20), "yaml.brackets"),
        (
            "brackets after a key",
            format!("a: {}", "[".repeat(1 << 20)),
            "yaml.brackets",
        ),
        (
            "braces after a key",
            format!("a: {}", "{a: ".repeat(1 << 18)),
            "yaml.brackets",
        ),
        ("anchors", anchors, "yaml.anchors"),
        (
            "a title of five megabytes",
            trip(&"x".repeat(5 << 20), ""),
            "file.large",
        ),
        (
            "a title of one megabyte",
            trip(&"x".repeat(1 << 20), ""),
            "value.long",
        ),
        ("dashes", "- ".repeat(1 << 19), "yaml.deep"),
        ("questions", "? ".repeat(1 << 19), "yaml."),
        ("many unknown keys", trip("T", &keys), "key.unknown"),
        (
            "many bad camps",
            format!("title: T\ncamps:\n{camps}"),
            "value.whole",
        ),
        (
            "a line without end",
            format!("title: T\nstove: \"{}\"\n", "w ".repeat(1 << 19)),
            "name.unknown",
        ),
        ("zeros", "\0".repeat(1 << 20), "file.control"),
    ];
    for (name, text, code) in cases {
        fs::write(here.join("case.yaml"), text).unwrap();
        let said = refused(name, &["check", "case.yaml"], here, 1);
        assert!(
            said.contains(&format!("error[{code}")),
            "{name}: {}",
            head(&said)
        );
        assert!(said.len() < 60_000, "{name} says {} bytes", said.len());
        assert!(
            said.lines().all(|line| line.chars().count() < 600),
            "{name} has a line that nobody reads"
        );
        // nothing is made of it either
        refused(name, &["make", "case.yaml", "--out", "out"], here, 1);
        assert!(!here.join("out").exists(), "{name} left something behind");
    }
}

#[test]
fn a_title_is_text_and_goes_nowhere_else() {
    let temp = tempfile::tempdir().unwrap();
    let here = temp.path();
    for (index, title) in [
        "\"../../up\"",
        "\"/etc/passwd\"",
        "\"<script>x</script> **b** {{ 7 }}\"",
    ]
    .iter()
    .enumerate()
    {
        let file = format!("t{index}.yaml");
        let text = format!(
            "title: {title}\npeople:\n  learners: 4\nstove: white gas\nwater_treatment: filter\ncamps:\n  - name: A\n    nights: 1\n    elevation: 1000 m\n"
        );
        fs::write(here.join(&file), text).unwrap();
        let args = [
            "make",
            &file,
            "--out",
            "out",
            "--sheet",
            "kitchen-checklist",
            "--format",
            "md",
        ];
        let (output, _) = leeside(&args, here);
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
        assert!(here.join(format!("out/t{index}/manifest.json")).exists());
    }
    let names: Vec<_> = fs::read_dir(here.join("out"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    assert_eq!(names.len(), 3, "{names:?}");
}

#[test]
fn a_folder_that_cannot_be_written_to_is_exit_3() {
    let temp = tempfile::tempdir().unwrap();
    let file = temp.path().join("out");
    fs::write(&file, "a file, not a folder\n").unwrap();
    let trip = Path::new(ROOT).join("content/trips/quillback-ridge.yaml");
    let args = [
        "make",
        trip.to_str().unwrap(),
        "--out",
        "out",
        "--format",
        "md",
    ];
    let said = refused("out is a file", &args, temp.path(), 3);
    assert!(head(&said).starts_with("error[write."), "{said}");
    assert_eq!(fs::read_to_string(&file).unwrap(), "a file, not a folder\n");
}

#[test]
fn flags_that_cannot_be_read_are_exit_2() {
    let here = Path::new(ROOT);
    for args in [
        &["check", "--jsn"][..],
        &["list"],
        &["list", "kayaks"],
        &[
            "list",
            "gear",
            "--for",
            "content/trips/quillback-ridge.yaml",
        ],
        &["nothing"],
        &["make"],
        &[],
    ] {
        let (output, _) = leeside(args, here);
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        assert!(output.stdout.is_empty(), "{args:?}");
    }
    let (output, _) = leeside(&["--help"], here);
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn check_says_it_as_json_too() {
    let folder = Path::new(ROOT).join("tests/bad/check");
    let (output, _) = leeside(&["check", "bare-number.yaml", "--json"], &folder);
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stderr.is_empty());
    let said: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(said["format"], "leeside-check/1");
    assert_eq!(said["warnings"].as_array().map(Vec::len), Some(0));
    let problem = &said["problems"][0];
    assert_eq!(problem["file"], "bare-number.yaml");
    assert_eq!(
        (problem["line"].as_u64(), problem["column"].as_u64()),
        (Some(11), Some(16))
    );
    assert_eq!(problem["path"], "camps[0].elevation");
    for key in ["code", "message", "help"] {
        assert!(
            !problem[key].as_str().unwrap_or_default().is_empty(),
            "{key}"
        );
    }
}
