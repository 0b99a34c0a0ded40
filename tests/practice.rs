//! Practice problems: drawn by seed, every printed line of the key re-worked, ranges that hold.

use leeside::compose::catalogue::text;
use leeside::course::practice::{Level, Practice, Request, Topic, practice};
use leeside::nouns::Library;
use leeside::phrase::Phrase;
use leeside::plan::Step;
use leeside::units::Units;
use leeside::{check, load};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

fn request(topics: &[Topic], count: usize, seed: u64, units: Units) -> Request {
    Request {
        topics: topics.to_vec(),
        count,
        level: None,
        seed,
        units,
    }
}

/// The library that the program brings along.
fn library() -> &'static Library {
    static LIBRARY: OnceLock<Library> = OnceLock::new();
    LIBRARY.get_or_init(|| {
        let files = load::library(&[]).expect("files");
        check::library(&files).expect("a library").0
    })
}

fn made(request: &Request) -> Practice {
    practice(library(), request).expect("problems")
}

/// All problems of many seeds, topics, units.
fn many() -> Vec<Practice> {
    let mut all = Vec::new();
    for units in [Units::Metric, Units::Us, Units::Both] {
        for seed in 0..40 {
            all.push(made(&request(
                &Topic::ALL,
                6 * Topic::ALL.len(),
                seed,
                units,
            )));
        }
    }
    all
}

#[test]
fn the_same_seed_gives_the_same_and_another_seed_other_numbers() {
    for topic in Topic::ALL {
        let one = made(&request(&[topic], 12, 7, Units::Metric));
        assert_eq!(one, made(&request(&[topic], 12, 7, Units::Metric)));
        let other = made(&request(&[topic], 12, 8, Units::Metric));
        let asked = |set: &Practice| -> Vec<String> {
            set.groups
                .iter()
                .flat_map(|group| &group.problems)
                .map(|problem| text(&problem.ask))
                .collect()
        };
        assert_ne!(asked(&one), asked(&other), "{topic:?}");
        // No problem twice on a sheet.
        let asked = asked(&one);
        let different: BTreeSet<&String> = asked.iter().collect();
        assert_eq!(different.len(), asked.len(), "{topic:?}");
    }
}

#[test]
fn the_count_and_the_levels_are_those_that_were_asked_for() {
    for count in 1..=30 {
        let set = made(&request(&Topic::ALL, count, 3, Units::Metric));
        let numbers: Vec<usize> = set
            .groups
            .iter()
            .flat_map(|group| &group.problems)
            .map(|problem| problem.number)
            .collect();
        assert_eq!(numbers, (1..=count).collect::<Vec<_>>());
    }
    for level in Level::ALL {
        let mut wanted = request(&Topic::ALL, 24, 3, Units::Us);
        wanted.level = Some(level);
        let set = made(&wanted);
        assert!(set.groups.iter().all(|group| group.level == level));
        // To be read off a table there must be one.
        assert!(
            level != Level::Table
                || set.groups.iter().all(|group| {
                    group.table.is_some()
                        || group
                            .numbers
                            .iter()
                            .any(|line| text(line).contains("table"))
                })
        );
    }
}

#[test]
fn every_printed_line_of_a_key_works_out() {
    let mut worked = 0;
    for set in many() {
        for problem in set.groups.iter().flat_map(|group| &group.problems) {
            for step in &problem.steps {
                assert!(step.number().is_finite(), "{step:?}");
                if !step.formula.is_empty() {
                    worked += 1;
                    let value = crate::plan::pencil(&step.formula);
                    assert!(crate::plan::agrees(step, value), "{step:?}");
                } else if let Some(from) = rounded_from(step) {
                    worked += 1;
                    let by = step.number() - from;
                    let right = if text(&step.why).ends_with("up to 5 g") {
                        (0.0..5.0).contains(&by) && step.number() % 5.0 == 0.0
                    } else if text(&step.why).ends_with("up") {
                        (0.0..1.0).contains(&by)
                    } else if text(&step.why).ends_with("down") {
                        (-1.0..=0.0).contains(&by)
                    } else {
                        by.abs() <= 0.5
                    };
                    assert!(right, "{step:?}");
                }
            }
        }
    }
    assert!(worked > 10_000, "{worked}");
}

/// The number that a line says it was rounded from.
fn rounded_from(step: &Step) -> Option<f64> {
    let words = ["rounded", "to the nearest"];
    let why = text(&step.why);
    let says = words.iter().any(|word| why.contains(word));
    says.then(|| {
        let first = why.split([' ', ',']).next().unwrap_or_default();
        first.parse().expect("a number before `rounded`")
    })
}

#[test]
fn every_number_in_a_sum_is_given_or_worked_before_it() {
    for set in many().into_iter().step_by(7) {
        for group in &set.groups {
            let mut sheet = joined(&group.numbers);
            for earlier in &set.groups {
                sheet += &joined(&earlier.numbers);
                for row in earlier.table.iter().flat_map(|table| &table.rows) {
                    sheet += &format!(" {} ", joined(row));
                }
            }
            // Conversions and parts of a rule that the problem says in words.
            let ruled = [
                "0.9464", "32", "5", "9", "60", "1", "0", "10", "3", "0.9", "0.5", "0.71",
            ];
            let mut known: BTreeSet<String> = ruled.map(str::to_owned).into();
            known.extend(numbers(&sheet));
            for problem in &group.problems {
                let mut here = known.clone();
                for number in numbers(&text(&problem.ask)) {
                    // A share stands as percent in words, as a decimal in sums.
                    let value: f64 = number.parse().unwrap_or(f64::NAN);
                    here.insert(format!("{}", value / 100.0));
                    here.insert(number);
                }
                for step in &problem.steps {
                    for number in numbers(&step.formula) {
                        assert!(
                            here.contains(&number),
                            "{number} of `{}` is nowhere: {}",
                            step.formula,
                            text(&problem.ask)
                        );
                    }
                    here.insert(step.value.trim_start_matches('-').to_owned());
                }
            }
        }
    }
}

fn joined(phrases: &[Phrase]) -> String {
    let words: Vec<String> = phrases.iter().map(text).collect();
    words.join(" ")
}

fn numbers(text: &str) -> Vec<String> {
    text.split(|sign: char| !(sign.is_ascii_digit() || sign == '.'))
        .map(|part| part.trim_matches('.').to_owned())
        .filter(|part| !part.is_empty())
        .collect()
}

#[test]
fn the_answer_is_the_last_line_and_lies_in_its_range() {
    for set in many() {
        for problem in set.groups.iter().flat_map(|group| &group.problems) {
            let answer: f64 = problem.answer.parse().expect("a number");
            let last = problem.steps.last().expect("a line").number();
            assert!((answer - last).abs() <= 5e-4 * last.abs(), "{problem:?}");
            assert!(
                problem.accept.least <= last && last <= problem.accept.most,
                "{problem:?}"
            );
            // No camp burns nothing, and no learner should meet an absurd number.
            assert!(answer > 0.0 && answer < 20_000.0, "{problem:?}");
        }
    }
}

fn leeside(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_leeside"))
        .arg("practice")
        .args(args)
        .arg("--out")
        .arg(folder)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .join("practice")
        .join(name);
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

#[test]
fn writes_both_sheets_in_every_format_with_the_seed_on_the_key_only() {
    let (one, two) = (folder("one"), folder("two"));
    for folder in [&one, &two] {
        let args = [
            "--topic",
            "all",
            "--count",
            "22",
            "--seed",
            "90417",
            "--format",
            "pdf,html,md,docx",
        ];
        let output = leeside(folder, &args);
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
    }
    let read = |root: &Path, name: &str| {
        std::fs::read(root.join("practice-all-90417").join(name)).expect(name)
    };
    for stem in ["learners/practice", "staff/practice-key"] {
        for ending in ["pdf", "html", "md", "docx"] {
            let name = format!("{stem}.{ending}");
            assert_eq!(read(&one, &name), read(&two, &name), "{name}");
        }
    }
    let text = |name: &str| String::from_utf8(read(&one, name)).expect("text");
    assert!(text("staff/practice-key.md").contains("Seed 90417."));
    for name in [
        "learners/practice.md",
        "learners/practice.html",
        "learners/index.html",
    ] {
        assert!(!text(name).contains("90417"), "{name}");
    }
    // Every problem stands on both.
    let (sheet, key) = (text("learners/practice.md"), text("staff/practice-key.md"));
    for number in 1..=22 {
        let start = format!("**{number}.** ");
        let ask = |text: &str| {
            text.lines()
                .find(|line| line.starts_with(&start))
                .map(str::to_owned)
                .expect("a problem")
        };
        assert_eq!(ask(&sheet), ask(&key));
    }
}

#[test]
fn what_cannot_be_read_is_said_in_words() {
    let cases = [
        (
            ["--seed", "seven", "--topic", "fuel"],
            2,
            "a seed is a whole number",
        ),
        (
            ["--seed", "-3", "--topic", "fuel"],
            2,
            "a seed is a whole number",
        ),
        (
            ["--seed", "7", "--topic", "fule"],
            2,
            "did you mean `fuel`?",
        ),
        (
            ["--seed", "7", "--topic", "knots"],
            2,
            "write one of: fuel, boils",
        ),
        (["--seed", "7", "--count", "0"], 2, "no number of problems"),
        (["--seed", "7", "--level", "4"], 2, "read it off the table"),
    ];
    for (args, status, words) in cases {
        let folder = folder("wrong");
        let output = leeside(&folder, &args);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{args:?}: {said}");
        assert!(said.contains(words), "{args:?}: {said}");
        assert!(!folder.exists(), "{args:?} wrote something");
    }
}

#[test]
fn a_subject_with_one_question_has_a_page_and_one_without_is_told() {
    let own = folder("one-question");
    std::fs::create_dir_all(own.join("modules")).expect("a folder");
    let head = "title: A quiet corner\nsummary: One place in camp is for those who want to be quiet.\n\
                order: 990\nhazard: no\nreviewed: 2026-11-26\nreview_by: 2028-11-25\ntext: |\n  Speak low there.\n\
                segments:\n  corner:\n    title: The corner\n    kind: say it\n    least: 3 min\n    \
                usual: 5 min\n    show: Walk there.\n    sentence: Here we speak low.\n    ask: Where?\n    \
                watch_for: Loud voices.\n    stop_if: Someone needs help.\n";
    let one = "    objectives: [keep]\nobjectives:\n  keep:\n    say: keep the corner quiet\n    behaviours:\n      \
               - speaks low\nquestions:\n  where:\n    kind: short\n    objective: keep\n    ask: Where do we speak \
               low?\n    answer: In the corner\n    because: Some need rest\n";
    for (name, text, status) in [("with", one, 0), ("without", "", 1)] {
        let home = folder(&format!("one-question-{name}"));
        let module = own.join("modules/quiet-corner.yaml");
        std::fs::write(module, format!("{head}{text}")).expect("a module");
        let content = own.to_str().expect("a path");
        let args = [
            "--subject",
            "quiet-corner",
            "--content",
            content,
            "--count",
            "1",
            "--seed",
            "3",
            "--format",
            "html",
        ];
        let output = leeside(&home, &args);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(status), "{name}: {said}");
        if status == 0 {
            let page = home.join("practice-all-3-quiet-corner/learners/learn.html");
            assert_eq!(
                asked(&page),
                BTreeSet::from(["quiet-corner.where".to_owned()])
            );
        } else {
            assert!(said.contains("no page to learn it from"), "{said}");
            assert!(!home.exists(), "it wrote something");
        }
    }
}

/// What a page to learn from asks, by the ids of its questions.
fn asked(page: &Path) -> BTreeSet<String> {
    let text = std::fs::read_to_string(page).expect("a page to learn from");
    text.split("data-try=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .map(str::to_owned)
        .collect()
}

#[test]
fn a_subject_or_a_trip_has_its_page_to_learn_from() {
    let home = folder("learn");
    let made = |args: &[&str]| {
        let count = ["--count", "11", "--seed", "3", "--format", "html"];
        let output = leeside(&home, &[args, &count].concat());
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        (output.status.code(), said)
    };
    assert_eq!(made(&["--subject", "greywater"]).0, Some(0));
    let own = asked(&home.join("practice-all-3-greywater/learners/learn.html"));
    assert!(own.len() >= 4, "{own:?}");
    let library = library();
    for id in &own {
        let (module, question) = id.split_once('.').expect("module and question");
        assert_eq!(module, "greywater");
        let mut questions = library.modules[module].questions.iter();
        assert!(questions.any(|one| one.id == question), "{id}");
    }
    let trip =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("content/trips/half-hour-wash-water.yaml");
    let path = trip.to_str().expect("a path");
    assert_eq!(made(&["--for", path]).0, Some(0));
    let output = Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(["make", path, "--format", "html", "--out"])
        .arg(&home)
        .output()
        .expect("the program runs");
    assert!(output.status.success());
    let packet = asked(&home.join("half-hour-wash-water/learners/learn.html"));
    let page = home.join("practice-all-3-half-hour-wash-water/learners/learn.html");
    assert_eq!(asked(&page), packet);
    let (status, said) = made(&["--subject", "graywater"]);
    assert_eq!(status, Some(1));
    assert!(said.contains("`greywater`"), "{said}");
}
