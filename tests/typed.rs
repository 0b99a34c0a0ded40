//! The command line that people expect: the rows of DEVELOPERS.md, *What is typed and what
//! happens*, typed one by one.

use serde_json::Value;
use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// A trip as a newcomer writes it.
const TRIP: &str = "title: Two days\npeople:\n  learners: 4\nstove: white gas\nwater_treatment: filter\ncamps:\n  - name: A\n    nights: 1\n    elevation: 1000 m\n";

fn leeside(args: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("the program runs")
}

fn fed(args: &[&str], input: &str, folder: &Path) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(args)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    let mut stdin = child.stdin.take().expect("a pipe");
    stdin.write_all(input.as_bytes()).expect("it reads");
    drop(stdin);
    child.wait_with_output().expect("it ends")
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn parsed(output: &Output) -> Value {
    assert_eq!(output.status.code(), Some(0), "{}", err(output));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// A folder with two trips and a note in it.
fn two_trips() -> tempfile::TempDir {
    let temp = tempfile::tempdir().unwrap();
    let trips = temp.path().join("trips");
    fs::create_dir(&trips).unwrap();
    fs::write(trips.join("a.yaml"), TRIP).unwrap();
    fs::write(trips.join("b.yaml"), TRIP.replace("Two days", "Three days")).unwrap();
    fs::write(trips.join("notes.txt"), "buy matches\n").unwrap();
    temp
}

#[test]
fn a_word_of_habit_gets_a_hint_and_status_2() {
    let here = Path::new(ROOT);
    let guide = fs::read_to_string(here.join("DEVELOPERS.md")).unwrap();
    let mut typed = 0;
    for row in guide
        .lines()
        .filter(|line| line.contains("a hint: `leeside "))
    {
        let mut cells = row.split(" | ");
        let (words, hint) = (cells.next().unwrap(), cells.next().unwrap());
        let command = hint.split('`').nth(1).expect("a command");
        for word in words.split('`').skip(1).step_by(2) {
            let output = leeside(&[word, "trip.yaml"], here);
            assert_eq!(output.status.code(), Some(2), "{word}");
            let said = err(&output);
            assert!(said.starts_with("error[flag.command]"), "{word}: {said}");
            assert!(said.contains(command), "{word}: {said}");
            typed += 1;
        }
    }
    assert!(typed > 30, "{typed} words");
    for (word, hint) in [
        ("ridge.yaml", "`leeside make ridge.yaml`"),
        ("summer.csv", "`leeside season summer.csv`"),
        ("content", "`leeside make content`"),
        ("mkae", "did you mean `leeside make`?"),
        ("chekc", "did you mean `leeside check`?"),
        ("zzzzzzzz", "the commands are make, plan, check"),
    ] {
        let output = leeside(&[word], here);
        assert_eq!(output.status.code(), Some(2), "{word}");
        assert!(err(&output).contains(hint), "{word}: {}", err(&output));
    }
    for word in ["lesson", "Trip"] {
        let temp = tempfile::tempdir().unwrap();
        let output = leeside(&["new", word], temp.path());
        assert_eq!(output.status.code(), Some(2), "{word}");
        assert_eq!(fs::read_dir(temp.path()).unwrap().count(), 0, "{word}");
    }
}

#[test]
fn the_exit_status_follows_one_rule() {
    let temp = two_trips();
    let here = temp.path();
    fs::write(here.join("wrong.yaml"), "title: x\n").unwrap();
    fs::write(here.join("taken"), "a file\n").unwrap();
    let trip = "trips/a.yaml";
    for (args, status) in [
        (&["check", trip][..], 0),
        (&["check", "wrong.yaml"], 1),
        (&["check", "nowhere.yaml"], 1),
        (&["plan", "trips"], 1),
        (&["make", trip, "--sheet", "nothing"], 2),
        (&["make", trip, "--bundle", "nothing"], 2),
        (&["make", trip, "--format", "png"], 2),
        (&["make", trip, "--open"], 2),
        (&["practice", "--topic", "nothing", "--seed", "1"], 2),
        (&["check", "--stale", "tomorrow"], 2),
        (&["list", "gear", "--coverage"], 2),
        (&["why", trip, "camp.nowhere.night"], 2),
        (&["man", "nothing"], 2),
        (&["make", trip, "--out", "taken", "--format", "md"], 3),
        (&["unpack", "trips/a.yaml"], 3),
    ] {
        let output = leeside(args, here);
        assert_eq!(
            output.status.code(),
            Some(status),
            "{args:?}: {}",
            err(&output)
        );
        assert!(!output.stderr.is_empty(), "{args:?} says nothing");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_behind_standard_output_is_status_3() {
    let full = fs::OpenOptions::new().write(true).open("/dev/full");
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(["list", "sheets"])
        .stdout(full.expect("the device that is always full"))
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(3));
    assert!(
        err(&output).starts_with("error[write.output]"),
        "{}",
        err(&output)
    );
}

#[test]
fn folders_stand_for_the_trips_in_them() {
    let temp = two_trips();
    let here = temp.path();
    let made = leeside(&["make", "trips", "-o", "papers", "--format", "md"], here);
    assert!(made.status.success(), "{}", err(&made));
    for slug in ["a", "b"] {
        assert!(
            here.join("papers")
                .join(slug)
                .join("manifest.json")
                .exists()
        );
    }
    let checked = leeside(&["check", "trips"], here);
    assert!(checked.status.success(), "{}", err(&checked));
    assert!(
        err(&checked).contains("2 files checked"),
        "{}",
        err(&checked)
    );
    let one = err(&leeside(&["plan", "trips"], here));
    assert!(one.contains("trips/a.yaml, trips/b.yaml"), "{one}");
    fs::create_dir(here.join("bare")).unwrap();
    let none = leeside(&["make", "bare"], here);
    assert_eq!(none.status.code(), Some(1));
    assert!(err(&none).contains("no trip file"), "{}", err(&none));
}

#[test]
fn a_hyphen_is_standard_input() {
    let temp = tempfile::tempdir().unwrap();
    let here = temp.path();
    let made = fed(&["make", "-", "--format", "md"], TRIP, here);
    assert!(made.status.success(), "{}", err(&made));
    assert!(here.join("out/standard-input/manifest.json").exists());
    let plan = parsed(&fed(&["plan", "-", "--json"], TRIP, here));
    assert_eq!(plan["title"], "Two days");
    let wrong = fed(&["check", "-"], &TRIP.replace("1000 m", "1000"), here);
    assert_eq!(wrong.status.code(), Some(1));
    assert!(
        err(&wrong).contains("--> standard-input:9:16"),
        "{}",
        err(&wrong)
    );
    let empty = fed(&["check", "-"], "", here);
    assert!(err(&empty).contains("file.empty"), "{}", err(&empty));
    // the place of what only the plan can find is told too
    let cold = TRIP.replace("stove: white gas", "stove: canister on top");
    let twice = fed(&["make", "-", "-", "--format", "md"], &cold, here);
    assert_eq!(twice.status.code(), Some(1));
    assert!(err(&twice).contains("make.same_name"), "{}", err(&twice));
}

#[test]
fn a_dry_run_tells_what_becomes_of_each_file_and_changes_none() {
    let temp = two_trips();
    let here = temp.path();
    let args = ["make", "trips/a.yaml", "--format", "md"];
    let dry = |more: &[&str]| {
        let all: Vec<&str> = args
            .iter()
            .chain(&["--dry-run"])
            .chain(more)
            .copied()
            .collect();
        let output = leeside(&all, here);
        assert!(output.status.success(), "{}", err(&output));
        out(&output)
    };
    let first = dry(&[]);
    assert!(!here.join("out").exists(), "a dry run writes nothing");
    assert!(
        first.lines().all(|line| line.starts_with("new ")),
        "{first}"
    );
    let made = leeside(&args, here);
    assert!(made.status.success());
    for line in first.lines() {
        let path = line.split_whitespace().last().unwrap();
        assert!(here.join(path).exists(), "{path} was promised");
    }
    assert!(dry(&[]).lines().all(|line| line.starts_with("same ")));
    let card = here.join("out/a/learners/lesson-handout.md");
    fs::write(&card, "mine\n").unwrap();
    fs::write(here.join("out/a/note.txt"), "mine\n").unwrap();
    let changed = fs::read_to_string(here.join("trips/a.yaml")).unwrap();
    fs::write(
        here.join("trips/a.yaml"),
        changed.replace("learners: 4", "learners: 6"),
    )
    .unwrap();
    let told = dry(&[]);
    let fate = |path: &str| {
        let line = told.lines().find(|line| line.ends_with(path));
        line.and_then(|line| line.split_whitespace().next().map(str::to_owned))
    };
    assert_eq!(
        fate("out/a/learners/lesson-handout.md").as_deref(),
        Some("edited")
    );
    assert_eq!(fate("out/a/note.txt").as_deref(), Some("stays"));
    assert!(
        told.lines().any(|line| line.starts_with("replaced ")),
        "{told}"
    );
    assert_eq!(fs::read_to_string(&card).unwrap(), "mine\n");
    let json = leeside(
        &["make", "trips/a.yaml", "--format", "md", "-n", "--json"],
        here,
    );
    let json = parsed(&json);
    assert_eq!(json["format"], "leeside-make/1");
    let would = json["packets"][0]["would"].as_array().unwrap();
    assert_eq!(would.len(), told.lines().count());
}

#[test]
fn make_says_what_it_wrote_as_json_too() {
    let temp = two_trips();
    let output = leeside(
        &["make", "trips", "--format", "md,html", "--json"],
        temp.path(),
    );
    let json = parsed(&output);
    assert!(output.stderr.is_empty(), "{}", err(&output));
    let packets = json["packets"].as_array().unwrap();
    assert_eq!(packets.len(), 2);
    for packet in packets {
        let folder = temp.path().join(packet["folder"].as_str().unwrap());
        assert!(temp.path().join(packet["open"].as_str().unwrap()).exists());
        let sheets = packet["sheets"].as_array().unwrap();
        assert!(sheets.len() > 20);
        for sheet in sheets {
            assert!(
                folder.join(sheet["file"].as_str().unwrap()).exists(),
                "{sheet}"
            );
        }
    }
}

#[test]
fn quiet_says_only_what_is_wrong_or_deserves_a_look() {
    let temp = two_trips();
    let here = temp.path();
    let quiet = leeside(&["-q", "make", "trips/a.yaml", "--format", "md"], here);
    assert!(quiet.status.success());
    let loud = leeside(&["make", "trips/b.yaml", "--format", "md"], here);
    assert!(
        err(&loud).contains("open out/b/index.html"),
        "{}",
        err(&loud)
    );
    assert!(!err(&quiet).contains("open out/a"), "{}", err(&quiet));
    let wrong = leeside(&["check", "nowhere.yaml", "--quiet"], here);
    assert!(err(&wrong).contains("file.missing"));
    assert!(!out(&leeside(&["list", "sheets", "-q"], here)).is_empty());
}

#[test]
fn capitals_are_no_mistake() {
    let temp = two_trips();
    let here = temp.path();
    for args in [
        &["list", "MODULES"][..],
        &["schema", "Trip"],
        &[
            "practice", "--topic", "Fuel", "--seed", "1", "--format", "MD", "--paper", "A4",
        ],
        &["plan", "trips/a.yaml", "--units", "Metric"],
        &[
            "make",
            "trips/a.yaml",
            "--sheet",
            "Kitchen Checklist",
            "--bundle",
            "Tonight",
            "--format",
            "Md",
            "--dry-run",
        ],
        &["man", "Make"],
        &["completions", "BASH"],
    ] {
        let output = leeside(args, here);
        assert_eq!(output.status.code(), Some(0), "{args:?}: {}", err(&output));
    }
}

/// The ids of a list.
fn ids(what: &str, kind: Option<&str>, folder: &Path) -> Vec<String> {
    let listed = parsed(&leeside(&["list", what, "--json"], folder));
    assert_eq!(listed["format"], "leeside-list/1");
    let rows = listed["rows"].as_array().unwrap();
    let ids: Vec<String> = rows
        .iter()
        .filter(|row| kind.is_none_or(|kind| row["kind"] == kind))
        .map(|row| row["id"].as_str().expect("an id").to_owned())
        .collect();
    assert!(!ids.is_empty(), "{what} lists nothing");
    let text = out(&leeside(&["list", what], folder));
    for id in &ids {
        let mut firsts = text
            .lines()
            .filter_map(|line| line.split_whitespace().next());
        assert!(
            firsts.any(|first| first == id),
            "{what}: {id} is not in the table"
        );
    }
    ids
}

#[test]
fn listed_names_are_taken_where_a_name_is_asked_for() {
    let temp = two_trips();
    let here = temp.path();
    let sheets = ids("sheets", None, here).join(",");
    let output = leeside(&["make", "trips/a.yaml", "--sheet", &sheets, "-n"], here);
    assert!(output.status.success(), "{}", err(&output));
    let topics = ids("topics", None, here).join(",");
    let args = [
        "practice", "--topic", &topics, "--seed", "3", "--format", "md",
    ];
    assert!(leeside(&args, here).status.success());
    for bundle in ids("bundles", None, here) {
        let args = [
            "make",
            "trips/a.yaml",
            "--bundle",
            &bundle,
            "-n",
            "--format",
            "md",
        ];
        assert!(leeside(&args, here).status.success(), "{bundle}");
    }
    let mut trips: Vec<(String, String)> = Vec::new();
    for place in ids("places", None, here) {
        trips.push((
            format!("place-{place}"),
            format!("{TRIP}    place: {place}\n"),
        ));
    }
    for stove in ids("stoves", Some("stove"), here) {
        let trip = TRIP.replace("stove: white gas", &format!("stove: {stove}"));
        trips.push((format!("stove-{stove}"), trip));
    }
    for menu in ids("menus", None, here) {
        let trip = TRIP.replace("stove:", &format!("menu: {menu}\nstove:"));
        trips.push((format!("menu-{menu}"), trip));
    }
    for profile in ids("profiles", None, here) {
        let trip = TRIP.replace("stove:", &format!("organisation: {profile}\nstove:"));
        trips.push((format!("profile-{profile}"), trip));
    }
    for (name, text) in trips {
        let said = fed(&["check", "-"], &text, here);
        assert!(said.status.success(), "{name}: {}", err(&said));
    }
    assert!(!ids("modules", None, here).is_empty() && !ids("sources", None, here).is_empty());
    assert!(!ids("fuels", None, here).is_empty());
    assert!(!ids("gear", Some("container"), here).is_empty());
}

#[test]
fn counts_and_reading_are_numbers_in_json() {
    let here = Path::new(ROOT);
    let coverage = parsed(&leeside(&["list", "modules", "--coverage", "--json"], here));
    assert!(
        coverage["rows"][0]["facts"].is_u64(),
        "{}",
        coverage["rows"][0]
    );
    assert!(coverage["objectives"][0]["taught_in"].is_string());
    let reading = parsed(&leeside(&["list", "modules", "--reading", "--json"], here));
    assert!(
        reading["rows"][0]["grade"].is_f64(),
        "{}",
        reading["rows"][0]
    );
}

#[test]
fn no_colours_where_no_person_looks() {
    let output = leeside(&["check", "nowhere.yaml"], Path::new(ROOT));
    assert!(!err(&output).contains('\u{1b}'));
}

/// The scripts are held by the shell itself where it is there: that they are read without a word.
#[test]
fn completions_name_every_command_and_the_shell_reads_them() {
    let here = Path::new(ROOT);
    let help = out(&leeside(&["--help"], here));
    let commands: Vec<&str> = help
        .lines()
        .skip_while(|line| *line != "Commands:")
        .skip(1)
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.strip_prefix("  ")?.split_whitespace().next())
        .collect();
    assert!(
        commands.contains(&"make") && commands.len() > 14,
        "{commands:?}"
    );
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = out(&leeside(&["completions", shell], here));
        for command in &commands {
            assert!(script.contains(command), "{shell}: {command}");
        }
    }
    let script = out(&leeside(&["completions", "bash"], here));
    let read = Command::new("bash")
        .args(["-n", "-c", &script])
        .output()
        .expect("bash");
    assert!(read.status.success(), "{}", err(&read));
    for command in &commands {
        let page = out(&leeside(&["man", command], here));
        if *command != "help" {
            assert!(page.contains(".SH NAME"), "{command}: {page}");
        }
    }
    let page = out(&leeside(&["man"], here));
    assert!(
        page.starts_with(".ie") || page.contains(".TH leeside 1"),
        "{page}"
    );
}
