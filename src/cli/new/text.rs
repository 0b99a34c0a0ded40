//! Answers as a trip file: block style, one fact a line, a comment where a
//! person might wonder. What was left out stands there as a comment to fill in.

use super::Voice;
use super::questions::{Answers, Of, Question};
use crate::load::ENGLISH;
use std::fmt::Write as _;

/// Comments of a line start here, where the line leaves room.
const COLUMN: usize = 43;

/// More that a trip may state; each is right as it stands once its `# ` is gone.
const MORE: &[(&str, &str)] = &[
    (
        "organisation: fernhollow",
        "a profile: name, phones, sign-off lines",
    ),
    ("first_meal: supper", "breakfast, lunch, supper"),
    ("last_meal: breakfast", "breakfast, lunch, supper"),
    ("arrival: foot", "road, foot, boat, air"),
    ("units: both", "us, metric, both"),
    ("paper: a4", "letter, a4"),
    ("kitchens: 1", "how many cook side by side"),
    (
        "windscreen: partial",
        "none, natural, partial, full, built-in",
    ),
    ("lid: yes", ""),
    (
        "spare: one extra day",
        "what is carried beyond the likely fuel",
    ),
    ("confidence: 90%", "how sure the fuel must last"),
    ("second_stove: yes", "a spare stove is carried"),
    ("drinking: 3 L", "each person, each day"),
    (
        "washing: wipe and rinse",
        "or two pots, three bowls, three bowls with hot dip",
    ),
    ("eating: own bowls", "own bowls, shared pot, from the pouch"),
    ("step_length: 0.76 m", "one counted step of yours"),
    (
        "boil_rules: cdc",
        "cdc, cdc-travel, epa, health-canada, who",
    ),
];

/// Of these, what a lesson may state too.
const MORE_OF_A_LESSON: &[&str] = &["organisation", "units", "paper", "windscreen", "lid"];

/// The trip or lesson file of some answers.
pub fn file(answers: &Answers, voice: &Voice) -> String {
    if answers.lesson {
        lesson(answers, voice)
    } else {
        trip(answers, voice)
    }
}

fn lesson(answers: &Answers, voice: &Voice) -> String {
    let mut file = File::new(voice);
    file.prose(
        "A lesson for leeside. Lines that begin with # are for the reader, not for the program.",
    );
    file.prose("What is left out takes a default, and the intake sheet lists the defaults used.");
    file.line("kind: lesson", "in one place; a trip has camps instead");
    people(&mut file, answers);
    file.key("", "menu", answers, Question::Menu);
    file.key("", "place", answers, Question::InOrOut);
    file.key("", "land", answers, Question::Land);
    file.key("", "elevation", answers, Question::Height);
    file.key("", "day", answers, Question::Air);
    file.key("", "wind", answers, Question::Wind);
    file.line("stations:", "each with its own stove");
    for index in 0..answers.stations() {
        file.line(&format!("  - name: Station {}", index + 1), "");
        file.key("    ", "stove", answers, Question::Station(index));
        file.line("    pots:", "");
        file.item("      ", answers, Question::Pot(index));
        file.key("    ", "windscreen", answers, Question::Screen(index));
    }
    file.line("course:", "");
    file.key("  ", "minutes", answers, Question::Minutes);
    file.key("  ", "starts", answers, Question::Clock);
    focus(&mut file, answers);
    let none = answers.get(Question::Fallback).is_none();
    file.line(if none { "#   fallback:" } else { "  fallback:" }, "");
    file.key("    ", "minutes", answers, Question::Fallback);
    restrictions(&mut file, answers);
    emergency(&mut file, answers);
    file.more(|key| MORE_OF_A_LESSON.contains(&key));
    file.text
}

/// The subjects, one a line.
fn focus(file: &mut File<'_>, answers: &Answers) {
    let given = answers.get(Question::Focus);
    let mark = if given.is_some() { "" } else { "# " };
    file.line(&format!("{mark}  focus:"), Question::Focus.comment());
    let subjects = given.unwrap_or(Question::Focus.example());
    for subject in subjects.split(',').filter(|one| !one.trim().is_empty()) {
        file.line(&format!("{mark}    - {}", scalar(subject.trim())), "");
    }
}

fn people(file: &mut File<'_>, answers: &Answers) {
    file.key("", "title", answers, Question::Title);
    if file.voice.language != ENGLISH {
        let language = format!("language: {}", file.voice.language);
        file.line(&language, "of the sheets and of what the program says");
    }
    file.key("", "starts", answers, Question::Starts);
    file.line("people:", "");
    file.key("  ", "learners", answers, Question::Learners);
    file.key("  ", "instructors", answers, Question::Instructors);
    file.key("  ", "youngest", answers, Question::Youngest);
    file.key("  ", "diet", answers, Question::Diet);
}

fn trip(answers: &Answers, voice: &Voice) -> String {
    let mut file = File::new(voice);
    file.prose(
        "A trip for leeside. Lines that begin with # are for the reader, not for the program.",
    );
    file.prose("What is left out takes a default, and every sheet lists the defaults used.");
    file.prose(
        "Quantities are a number and a unit: 8200 ft, 2500 m, 41 F, 5 C, 0.6 L, 230 g, 45%.",
    );
    people(&mut file, answers);
    file.key("", "stove", answers, Question::Stove);
    file.key("", "menu", answers, Question::Menu);
    file.key("", "water_treatment", answers, Question::Treatment);
    file.line("camps:", "in the order of the trip");
    for index in 0..answers.camps() {
        let name = answers.get(Question::Camp(index, Of::Name));
        file.line(
            &format!("  - name: {}", scalar(name.unwrap_or_default())),
            "",
        );
        for of in Of::ALL.iter().filter(|of| **of != Of::Name) {
            file.key("    ", of.key(), answers, Question::Camp(index, *of));
        }
    }
    restrictions(&mut file, answers);
    emergency(&mut file, answers);
    file.more(|_| true);
    file.text
}

fn restrictions(file: &mut File<'_>, answers: &Answers) {
    let none = [Question::Stoves, Question::Stage]
        .iter()
        .all(|question| answers.get(*question).is_none());
    file.line(
        if none {
            "# restrictions:"
        } else {
            "restrictions:"
        },
        "",
    );
    file.key("  ", "stoves", answers, Question::Stoves);
    file.key("  ", "stage", answers, Question::Stage);
    file.key("  ", "checked", answers, Question::Checked);
}

fn emergency(file: &mut File<'_>, answers: &Answers) {
    let none = [Question::Call, Question::NearestHelp]
        .iter()
        .all(|question| answers.get(*question).is_none());
    file.line(if none { "# emergency:" } else { "emergency:" }, "");
    for (key, question) in [
        ("call", Question::Call),
        ("nearest_help", Question::NearestHelp),
    ] {
        file.key("  ", key, answers, question);
    }
}

/// A file as it grows.
struct File<'v> {
    text: String,
    voice: &'v Voice,
}

impl<'v> File<'v> {
    fn new(voice: &'v Voice) -> Self {
        Self {
            text: String::new(),
            voice,
        }
    }

    /// What else may be stated, as lines that wait, where the key is wanted.
    fn more(&mut self, wanted: impl Fn(&str) -> bool) {
        self.text.push('\n');
        self.prose("More that may be stated: take the `# ` away, and change what is not so.");
        for (line, comment) in MORE {
            if line.split(':').next().is_some_and(&wanted) {
                self.line(&format!("# {line}"), comment);
            }
        }
    }

    fn prose(&mut self, text: &'static str) {
        let _ = writeln!(self.text, "# {}", self.voice.says(&text.into()));
    }

    fn line(&mut self, line: &str, comment: &'static str) {
        if comment.is_empty() {
            let _ = writeln!(self.text, "{line}");
        } else {
            let width = COLUMN.max(line.chars().count() + 1);
            let comment = self.voice.says(&comment.into());
            let _ = writeln!(self.text, "{line:<width$}# {comment}");
        }
    }

    /// An item of a list with its answer, or the example.
    fn item(&mut self, indent: &str, answers: &Answers, question: Question) {
        let value = answers.get(question).unwrap_or(question.example());
        self.line(&format!("{indent}- {}", scalar(value)), question.comment());
    }

    /// A key with its answer, or as a comment with an example.
    fn key(&mut self, indent: &str, key: &str, answers: &Answers, question: Question) {
        match answers.get(question) {
            Some(value) => self.line(
                &format!("{indent}{key}: {}", scalar(value)),
                question.comment(),
            ),
            None => self.line(
                &format!("# {indent}{key}: {}", question.example()),
                question.comment(),
            ),
        }
    }
}

/// A text as a scalar of YAML: as typed where that is safe, else in quotes.
fn scalar(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " .,-+/()%'".contains(c);
    let inside = text.chars().all(|c| plain(c) || c == ':' || c == '&');
    let starts = text
        .chars()
        .next()
        .is_some_and(|c| c.is_alphanumeric() || c == '(');
    let word = !matches!(text.to_lowercase().as_str(), "null" | "nan");
    let colon = text.contains(": ") || text.ends_with(':');
    let spaced = text.trim() != text;
    if inside && starts && word && !colon && !spaced {
        return text.to_owned();
    }
    // a negative temperature reads better bare
    let negative = text
        .strip_prefix('-')
        .is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
    if negative && inside && !colon && !spaced {
        return text.to_owned();
    }
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                quoted.push('\\');
                quoted.push(c);
            }
            c if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}') => {
                let _ = write!(quoted, "\\u{:04X}", c as u32);
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::scalar;
    use crate::load;

    #[test]
    fn whatever_is_typed_comes_back_as_typed() {
        for text in [
            "Tarn bench",
            "yes",
            "null",
            "~",
            "-4 C",
            "- a dash",
            "a: b",
            "#1 and #2",
            "a # b",
            "it's \"quoted\" \\ so",
            "@home & away",
            "[list]",
            "{map}",
            "*star",
            "!tag",
            "%percent",
            "50%",
            "é 日本",
            "ends:",
            "2027-05-14",
            "0310",
            "|",
            "> x",
            "?",
            "",
        ] {
            let file = format!("title: {}\n", scalar(text));
            let written = load::text("t.yaml", &file).unwrap_or_else(|_| panic!("{file}"));
            let title = written.root.get("title").and_then(load::Node::text);
            assert_eq!(title, Some(text), "{file}");
        }
    }
}
