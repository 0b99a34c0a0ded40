use super::interview::{Interview, Reply, starter};
use super::{Laid, New, Voice};
use crate::check;
use crate::diag::report;
use crate::load;
use crate::nouns::{Library, Trip};

fn library() -> Library {
    let files = load::library(&[]).unwrap_or_else(|problems| panic!("{}", report(&problems)));
    check::library(&files)
        .unwrap_or_else(|problems| panic!("{}", report(&problems)))
        .0
}

fn checked(file: &str, library: &Library) -> Trip {
    let written = load::text("new.yaml", file)
        .unwrap_or_else(|problems| panic!("{}\n{file}", report(&problems)));
    check::trip(&written, library)
        .unwrap_or_else(|problems| panic!("{}\n{file}", report(&problems)))
        .0
}

/// Answers every line and gives back the last reply.
fn answered(interview: &mut Interview<'_>, lines: &[&str]) -> Reply {
    let mut last = Reply::Ask;
    for line in lines {
        last = interview.answer(line);
        assert!(
            matches!(last, Reply::Ask | Reply::Done(_)),
            "{line}: {last:?}"
        );
    }
    last
}

const PEOPLE: &[&str] = &["Long weekend", "2027-05-14", "8", "2", "13", ""];

#[test]
fn the_answers_become_a_trip() {
    let library = library();
    let mut interview = Interview::new(&library, false, Voice::english());
    answered(&mut interview, PEOPLE);
    answered(&mut interview, &["white gas", "", "filter"]);
    answered(
        &mut interview,
        &["Lower meadow", "", "8200 ft", "", "", "", "", ""],
    );
    answered(
        &mut interview,
        &[
            "Tarn bench",
            "2",
            "10100 ft",
            "snow",
            "-1 C",
            "-8 C",
            "windy",
            "alpine snow",
        ],
    );
    let Reply::Done(file) = answered(
        &mut interview,
        &["", "", "no campfires", "", "555-0117", ""],
    ) else {
        panic!("not done")
    };
    let trip = checked(&file, &library);
    assert_eq!(trip.title, "Long weekend");
    assert_eq!((trip.people.learners, trip.people.instructors), (8, 2));
    assert_eq!(trip.people.youngest, Some(13));
    assert_eq!(trip.camps.len(), 2);
    assert_eq!(trip.camps[1].nights, 2);
    assert_eq!(trip.camps[1].place, "alpine-snow");
    assert!((trip.camps[1].night.in_celsius() + 8.0).abs() < 1e-9);
    assert_eq!(trip.emergency.call.as_deref(), Some("555-0117"));
    assert!(file.contains("elevation: 8200 ft"), "{file}");
}

#[test]
fn the_answers_become_a_lesson() {
    let library = library();
    let mut interview = Interview::new(&library, true, Voice::english());
    answered(&mut interview, PEOPLE);
    answered(
        &mut interview,
        &[
            "canister on top",
            "",
            "partial",
            "alcohol",
            "titanium 0.8 L",
            "",
            "",
        ],
    );
    answered(
        &mut interview,
        &[
            "",
            "",
            "sea coast",
            "310 m",
            "14 C",
            "calm",
            "150",
            "14:30",
            "lighting-and-flames, alcohol",
            "45",
        ],
    );
    let Reply::Done(file) = answered(&mut interview, &["", "", "555-0117", "the road"]) else {
        panic!("not done")
    };
    let lesson = checked(&file, &library);
    assert_eq!(lesson.kind, crate::nouns::Kind::Lesson);
    let stoves: Vec<&str> = lesson
        .kitchens
        .iter()
        .map(|station| station.stove.id.as_str())
        .collect();
    assert_eq!(stoves, ["canister-on-top", "alcohol"]);
    assert_eq!(
        lesson.course.focus,
        ["lighting-and-flames", "alcohol-stoves"]
    );
    assert_eq!(lesson.camps[0].place, "sea-coast");
    assert_eq!(lesson.kitchens[0].screen, crate::nouns::Screen::Partial);
    assert!((lesson.kitchens[1].pots[0].capacity.in_litres() - 0.8).abs() < 1e-9);
    let session = &lesson.course.sessions[0];
    assert_eq!((session.length.in_minutes(), session.starts), (150.0, 870));
    assert!(lesson.course.fallback.is_some_and(|one| one.indoors));
    checked(&starter(true, &Voice::english()), &library);
}

#[test]
fn what_people_type_is_understood() {
    let library = library();
    for (typed, stove) in [
        ("canister", "canister-on-top"),
        ("gas", "canister-on-top"),
        ("meths", "alcohol"),
        ("methylated spirit", "alcohol"),
        ("paraffin", "kerosene"),
        ("naphtha", "white-gas"),
        ("tablets", "tablet"),
    ] {
        let mut interview = Interview::new(&library, true, Voice::english());
        answered(&mut interview, PEOPLE);
        let Reply::Understood(said) = interview.answer(typed) else {
            panic!("`{typed}` is not understood");
        };
        assert!(said.contains(&format!("`{stove}`")), "{typed}: {said}");
        // A pot that a lesson boils within a turn: 1 L or less.
        assert!(interview.prompt().contains("aluminium 1 L"));
        answered(&mut interview, &["", "", "", ""]);
        let Reply::Understood(said) = interview.answer("outside") else {
            panic!("`outside` is not understood");
        };
        assert!(said.contains("`outdoors`"), "{said}");
    }
    let mut interview = Interview::new(&library, true, Voice::english());
    answered(&mut interview, PEOPLE);
    // What might be motor fuel is not guessed at.
    assert!(matches!(interview.answer("petrol"), Reply::Wrong(_)));
}

#[test]
fn a_wrong_answer_is_refused_with_the_words_of_the_check() {
    let library = library();
    let mut interview = Interview::new(&library, false, Voice::english());
    for (line, words) in [
        ("", "an answer is needed"),
        ("back", "first question"),
        ("Weekend", ""),
        ("2027-02-30", "not a day of the calendar"),
        ("", ""),
        ("eight", "a whole number"),
        ("-3", "cannot be below zero"),
        ("0", ""),
        ("0", "nobody goes on this trip"),
        ("2", ""),
        ("2", "out of range"),
        ("-", ""),
        ("", ""),
        ("wite gas", "perhaps `white-gas` is meant"),
        ("white gas", ""),
        ("feast", "no menu named"),
        ("", ""),
        ("prayer", "not known here"),
        ("uv", ""),
        ("First", ""),
        ("half", "a whole number"),
        ("0", "out of range"),
        ("", ""),
        ("2500", "has no unit"),
        ("25 C", "expected a length"),
        ("12000 m", "too high"),
        ("2500 m", ""),
        ("snow", ""),
        ("90 C", "too high"),
        ("", ""),
        ("", ""),
        ("gale", "not known here as a wind"),
        ("", ""),
        ("the moon", "no place named"),
        ("", ""),
        ("first", "two camps are named"),
    ] {
        let before = interview.answers.clone();
        match interview.answer(line) {
            Reply::Wrong(said) => {
                assert!(!words.is_empty() && said.contains(words), "{line}: {said}");
                assert_eq!(interview.answers, before, "{line} changed something");
            }
            other => assert!(words.is_empty() && other == Reply::Ask, "{line}: {other:?}"),
        }
    }
}

#[test]
fn back_goes_one_question_back_and_offers_what_was_typed() {
    let library = library();
    let mut interview = Interview::new(&library, false, Voice::english());
    answered(&mut interview, PEOPLE);
    let at = interview.prompt();
    answered(&mut interview, &["white gas", "back"]);
    assert_ne!(interview.prompt(), at, "what was typed is offered");
    assert!(interview.prompt().contains("[white gas]"));
    answered(&mut interview, &["back"]);
    answered(&mut interview, &["back"]);
    assert!(
        interview.prompt().contains("[13]"),
        "{}",
        interview.prompt()
    );
    answered(&mut interview, &["-", "", ""]);
    assert_eq!(interview.answers.given.len(), 7);
    assert_eq!(interview.answers.given[4].1, None, "`-` leaves the age out");
    assert_eq!(interview.answers.given[6].1.as_deref(), Some("white gas"));
}

#[test]
fn every_question_explains_itself_and_takes_its_own_example() {
    let library = library();
    for lesson in [false, true] {
        asks_to_the_end(&library, lesson);
    }
}

fn asks_to_the_end(library: &Library, lesson: bool) {
    let mut interview = Interview::new(library, lesson, Voice::english());
    for _ in 0..200 {
        let question = interview.answers.next().expect("a question");
        let Reply::Explained(said) = interview.answer("?") else {
            panic!("{question:?} does not explain itself");
        };
        assert!(said.contains(question.example()), "{question:?}: {said}");
        assert!(interview.prompt().ends_with(": "), "{question:?}");
        let example = match question {
            super::questions::Question::Camp(2, super::questions::Of::Name)
            | super::questions::Question::Station(2) => "",
            question => question.example(),
        };
        match interview.answer(example) {
            Reply::Ask => {}
            Reply::Done(file) => {
                checked(&file, library);
                return;
            }
            other => panic!("{question:?}: {other:?}"),
        }
    }
    panic!("the questions do not end");
}

#[test]
fn odd_names_survive_the_way_through_the_file() {
    let library = library();
    for odd in [
        "null",
        "yes",
        "a: b # c",
        "\"x\" \\ 'y'",
        "@home",
        "{a}",
        "[b]",
        "- c",
        "é",
        "~",
        "|",
        "1",
    ] {
        // `yes` is no diet
        let diet = if odd == "yes" { "tree nuts" } else { odd };
        let mut interview = Interview::new(&library, false, Voice::english());
        answered(
            &mut interview,
            &[odd, "", "3", "", "", diet, "white gas", "cold", "tap"],
        );
        answered(&mut interview, &[odd, "", "5 m", "", "", "", "", "", ""]);
        let Reply::Done(file) = answered(&mut interview, &["", odd, odd, odd, odd]) else {
            panic!("not done")
        };
        let trip = checked(&file, &library);
        assert_eq!(trip.title, odd);
        assert_eq!(trip.camps[0].name, odd);
        assert_eq!(trip.people.diet, [diet]);
        assert_eq!(trip.restrictions.stage.as_deref(), Some(odd));
        // `-` and `?` are answers of their own; these are not
        assert_eq!(trip.emergency.nearest_help.as_deref(), Some(odd));
    }
}

#[test]
fn the_starter_is_sound_and_so_is_every_line_that_waits_in_it() {
    let library = library();
    let file = starter(false, &Voice::english());
    checked(&file, &library);
    let waits = |line: &str| {
        line.strip_prefix("# ").is_some_and(|rest| {
            let key = rest.trim_start().split(':').next().unwrap_or_default();
            rest.contains(':')
                && !key.is_empty()
                && key.chars().all(|c| c.is_ascii_lowercase() || c == '_')
        })
    };
    let count = file.lines().filter(|line| waits(line)).count();
    assert!(count > 15, "{count}\n{file}");
    let all: String = file
        .lines()
        .map(|line| {
            let line = if waits(line) { &line[2..] } else { line };
            format!("{line}\n")
        })
        .collect();
    let trip = checked(&all, &library);
    assert!(trip.starts.is_some() && trip.emergency.call.is_some());
    assert!(trip.second_stove.is_some());
}

/// English words that no Spanish sentence has, and no name of ours that an answer takes.
const ENGLISH: &[&str] = &[
    "the", "you", "which", "where", "how", "and", "when", "it", "not",
];

fn says_english(text: &str) -> Option<&str> {
    let mut outside = text.split('`').step_by(2);
    outside.find_map(|part| {
        // an id is one word, whatever stands in it
        let mut words = part.split(|sign: char| !(sign.is_alphabetic() || "-_".contains(sign)));
        words.find(|word| ENGLISH.contains(&word.to_lowercase().as_str()))
    })
}

#[test]
fn in_spanish_every_question_its_explanation_and_the_file_are_spanish() {
    let library = library();
    for lesson in [false, true] {
        let voice = Voice::of(&New {
            trip: None,
            lesson,
            language: Some("es".to_owned()),
            content: Laid::default(),
        });
        let comments = |file: &str| {
            for line in file.lines() {
                let comment = line.rsplit_once("# ").map_or("", |(_, comment)| comment);
                assert_eq!(says_english(comment), None, "{comment}");
            }
            assert!(file.contains("language: es"), "{file}");
        };
        comments(&starter(lesson, &voice));
        checked(&starter(lesson, &voice), &library);
        let mut interview = Interview::new(&library, lesson, voice);
        for _ in 0..200 {
            let prompt = interview.prompt();
            assert_eq!(says_english(&prompt), None, "{prompt}");
            let Reply::Explained(said) = interview.answer("?") else {
                panic!("{prompt} does not explain itself");
            };
            assert_eq!(says_english(&said), None, "{said}");
            let question = interview.answers.next().expect("a question");
            let example = match question {
                super::questions::Question::Camp(1, super::questions::Of::Name)
                | super::questions::Question::Station(1) => "",
                question => question.example(),
            };
            if let Reply::Done(file) = interview.answer(example) {
                comments(&file);
                break;
            }
        }
        assert_eq!(interview.answers.next(), None);
    }
}
