//! The interview without a terminal: from answers and a line to what comes next.

use super::questions::{Answers, Empty, Question};
use super::{Voice, text};
use crate::check;
use crate::diag::{Problem, Severity, Told, told};
use crate::load;
use crate::nouns::{Library, Stove};
use std::collections::BTreeMap;

/// What an answer leads to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reply {
    /// The next question, or the one before after `back`.
    Ask,
    /// The same question again, with what is wrong in the answer.
    Wrong(String),
    /// The same question again, after its explanation.
    Explained(String),
    /// The next question, after a word on how the answer was understood.
    Understood(String),
    /// Every question is answered: the trip file.
    Done(String),
}

/// An interview about one trip.
pub struct Interview<'l> {
    library: &'l Library,
    /// The answers so far.
    pub answers: Answers,
    /// What was answered before going back, offered again.
    before: BTreeMap<Question, String>,
    voice: Voice,
}

impl<'l> Interview<'l> {
    /// An interview at its first question.
    pub fn new(library: &'l Library, lesson: bool, voice: Voice) -> Self {
        Self {
            library,
            answers: Answers {
                lesson,
                given: Vec::new(),
            },
            before: BTreeMap::new(),
            voice,
        }
    }

    /// The question to ask now, with what an empty line does in brackets.
    pub fn prompt(&self) -> String {
        let Some(question) = self.answers.next() else {
            return String::new();
        };
        let ask = self.voice.says(&question.ask());
        match self.empty(question) {
            Empty::Refused => format!("{ask}: "),
            Empty::Means(text) => format!("{ask} [{text}]: "),
            Empty::LeavesOut(then) => format!("{ask} [Enter: {}]: ", self.voice.says(&then.into())),
        }
    }

    /// The words that the question to ask now takes, where they are a closed list.
    pub fn choices(&self) -> Vec<String> {
        let question = self.answers.next();
        question.map_or_else(Vec::new, |one| one.choices(self.library))
    }

    fn empty(&self, question: Question) -> Empty {
        self.before.get(&question).map_or_else(
            || question.empty(&self.answers),
            |text| Empty::Means(text.clone()),
        )
    }

    /// Takes a line that was typed.
    pub fn answer(&mut self, line: &str) -> Reply {
        let Some(question) = self.answers.next() else {
            return Reply::Done(text::file(&self.answers, &self.voice));
        };
        let line = line.trim();
        match line {
            "?" => return Reply::Explained(self.explained(question)),
            "back" => return self.back(),
            _ => {}
        }
        let optional = matches!(question.empty(&self.answers), Empty::LeavesOut(_));
        let answer = match (line, self.empty(question)) {
            ("-", _) if optional => None,
            ("", Empty::Refused) => {
                return Reply::Wrong(
                    self.voice
                        .says(&"an answer is needed here; `?` explains the question".into()),
                );
            }
            ("", Empty::Means(text)) => Some(text),
            ("", Empty::LeavesOut(_)) => None,
            (typed, _) => Some(typed.to_owned()),
        };
        let with = |answer: Option<String>| {
            let mut with = self.answers.clone();
            with.given.push((question, answer));
            with
        };
        let mut taken = with(answer.clone());
        let mut remark = None;
        let problem = wrong(&taken, self.library);
        if problem.is_some() || is_fuel(question, answer.as_deref(), self.library) {
            let meant = answer.and_then(|typed| meant(question, &typed, self.library));
            let other = meant.map(|(meant, said)| (with(Some(meant)), said));
            match other.filter(|(other, _)| wrong(other, self.library).is_none()) {
                Some((other, said)) => (taken, remark) = (other, Some(said)),
                None => {
                    if let Some(problem) = problem {
                        return Reply::Wrong(format!(
                            "{}; {}",
                            self.voice.says(&problem.message),
                            self.voice.says(&problem.help)
                        ));
                    }
                }
            }
        }
        self.before.remove(&question);
        self.answers = taken;
        match (self.answers.next(), remark) {
            (Some(_), None) => Reply::Ask,
            (Some(_), Some(said)) => Reply::Understood(self.voice.says(&said)),
            (None, _) => Reply::Done(text::file(&self.answers, &self.voice)),
        }
    }

    fn explained(&self, question: Question) -> String {
        let mut said = question.explain(self.library);
        match self.empty(question) {
            Empty::Refused => {}
            Empty::Means(text) => said.push(told!("\nEnter takes `{text}`.", text)),
            Empty::LeavesOut(then) => {
                said.push(told!(
                    "\nEnter leaves it out: {then}.",
                    then = Told::from(then)
                ));
            }
        }
        if matches!(question.empty(&self.answers), Empty::LeavesOut(_)) {
            said.push(" So does `-`.");
        }
        said.push("\n`back` goes to the question before; end of input (ctrl-D) stops, and nothing is written.");
        self.voice.says(&said)
    }

    fn back(&mut self) -> Reply {
        match self.answers.given.pop() {
            Some((question, answer)) => {
                if let Some(text) = answer {
                    self.before.insert(question, text);
                }
                Reply::Ask
            }
            None => Reply::Wrong(self.voice.says(&"this is the first question".into())),
        }
    }
}

/// Whether a stove is named by what it burns: it is understood, and said back.
fn is_fuel(question: Question, typed: Option<&str>, library: &Library) -> bool {
    let (Question::Stove | Question::Station(_), Some(typed)) = (question, typed) else {
        return false;
    };
    let wanted = crate::nouns::id(typed);
    let mut stoves = library.stoves.values();
    let named = stoves.any(|stove| stove.id == wanted || crate::nouns::id(&stove.name) == wanted);
    !named && library.fuel_called(typed).is_some()
}

/// What an answer that is no name of ours means all the same, with a word on it: a stove by what it
/// burns, a place by everyday words.
fn meant(question: Question, typed: &str, library: &Library) -> Option<(String, Told)> {
    match question {
        Question::Stove | Question::Station(_) => {
            let fuel = library.fuel_called(typed)?;
            let mut burn: Vec<&Stove> = library
                .stoves
                .values()
                .filter(|stove| stove.fuels.contains(&fuel.id))
                .collect();
            burn.sort_by_key(|stove| stove.family);
            let first = burn.first()?.id.clone();
            let others: Vec<String> = burn[1..]
                .iter()
                .map(|stove| format!("`{}`", stove.id))
                .collect();
            let said = told!(
                "taken as `{first}`, which burns {fuel}",
                first,
                fuel = fuel.name
            );
            let said = if others.is_empty() {
                said
            } else {
                let others = Told::list(others.into_iter().map(Told::as_written), " and ");
                said.and(told!(
                    "; {others} burn it too: `back` if yours is one of them",
                    others
                ))
            };
            Some((first, said))
        }
        Question::Starts => check::day_meant(typed).map(understood),
        Question::Clock => check::clock_meant(typed).map(understood),
        Question::InOrOut => {
            let word = match typed.to_lowercase().as_str() {
                "outside" | "out" | "open air" | "yard" | "garden" => "outdoors",
                "inside" | "in" | "hall" | "room" | "classroom" => "indoors",
                _ => return None,
            };
            Some(understood(word.to_owned()))
        }
        _ => None,
    }
}

fn understood(meant: String) -> (String, Told) {
    let said = told!("taken as `{meant}`", meant);
    (meant, said)
}

/// What the check says against the answers, with examples for what has not
/// been asked: as those are right, it speaks of the last answer.
fn wrong(answers: &Answers, library: &Library) -> Option<Problem> {
    let file = text::file(&answers.filled(), &Voice::english());
    let found = match load::text("trip.yaml", &file) {
        Ok(written) => check::trip(&written, library).err(),
        Err(problems) => Some(problems),
    };
    found?
        .into_iter()
        .find(|problem| problem.severity == Severity::Error)
}

/// The commented file for who is not at a terminal: an example where a trip
/// must say something, a line that waits where it need not.
pub fn starter(lesson: bool, voice: &Voice) -> String {
    let mut answers = Answers {
        lesson,
        given: Vec::new(),
    };
    for question in [
        Question::Title,
        Question::Starts,
        Question::Learners,
        Question::Instructors,
        Question::Youngest,
    ] {
        let left_out = question == Question::Starts;
        let answer = (!left_out).then(|| question.example().to_owned());
        answers.given.push((question, answer));
    }
    text::file(&answers.filled(), voice)
}
