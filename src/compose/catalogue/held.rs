//! What files of words hold: each id with what stands in its words and by which forms they choose,
//! and where a language falls short of the English ones.

use crate::diag::{Place, Problem, told};
use std::collections::{BTreeMap, BTreeSet};

/// The names that the forms of plurals have (CLDR, plural rules).
const FORMS: [&str; 6] = ["zero", "one", "two", "few", "many", "other"];

/// The words of one id.
#[derive(Clone, Debug, Default)]
pub(super) struct Held {
    /// The names of what stands in them; a name of what is chosen by (`stage-id`) counts as what is
    /// placed (`stage`).
    pub names: BTreeSet<String>,
    /// The choices by a number: its name, and the forms that have words.
    choices: Vec<(String, BTreeSet<String>)>,
    /// The file, the line in it (from 1) and the text of the line.
    file: String,
    line: usize,
    text: String,
}

impl Held {
    /// A problem at the line where the words start.
    fn problem(&self, problem: Problem) -> Problem {
        problem.placed(Place {
            file: self.file.as_str().into(),
            line: self.line,
            column: 1,
            width: self
                .text
                .split(" =")
                .next()
                .map_or(1, |id| id.chars().count().max(1)),
            text: self.text.clone(),
        })
    }
}

/// Each id of a file of words.
pub(super) fn held(file: &str, text: &str) -> BTreeMap<String, Held> {
    let mut all: BTreeMap<String, Held> = BTreeMap::new();
    let mut id = String::new();
    // the choices that the line stands in, by their place in the list
    let mut open: Vec<Option<usize>> = Vec::new();
    for (at, line) in text
        .lines()
        .enumerate()
        .filter(|(_, line)| !line.starts_with('#'))
    {
        if let Some((name, _)) = line.split_once(" =")
            && line.starts_with(char::is_alphabetic)
        {
            name.clone_into(&mut id);
            open.clear();
            all.entry(id.clone()).or_insert_with(|| Held {
                file: file.to_owned(),
                line: at + 1,
                text: line.to_owned(),
                ..Held::default()
            });
        }
        if let Some(one) = all.get_mut(&id) {
            one.names
                .extend(named(line).map(|name| name.trim_end_matches("-id").to_owned()));
            one.choose(line, &mut open);
        }
    }
    all
}

/// The names behind `$` in a line.
fn named(line: &str) -> impl Iterator<Item = &str> {
    line.split('$').skip(1).map(|rest| {
        let part = |sign: char| sign.is_alphanumeric() || matches!(sign, '_' | '-');
        let end = rest.find(|sign| !part(sign)).unwrap_or(rest.len());
        // `$name ->` opens a choice and is no part of the name
        rest[..end].trim_end_matches('-')
    })
}

impl Held {
    /// Notes the form that a line has words for, and the choices that it opens and closes.
    fn choose(&mut self, line: &str, open: &mut Vec<Option<usize>>) {
        let start = line.trim_start().trim_start_matches('*');
        let key = start
            .strip_prefix('[')
            .and_then(|rest| rest.split_once(']'));
        if let (Some((key, _)), Some(Some(at))) = (key, open.last()) {
            self.choices[*at].1.insert(key.trim().to_owned());
        }
        for (at, sign) in line.char_indices() {
            match sign {
                '{' => {
                    let inside = line[at + 1..].split(['{', '}']).next().unwrap_or_default();
                    let choice = inside
                        .split_once("->")
                        .and_then(|(name, _)| named(name).next());
                    open.push(choice.map(|name| {
                        self.choices.push((name.to_owned(), BTreeSet::new()));
                        self.choices.len() - 1
                    }));
                }
                '}' => {
                    open.pop();
                }
                _ => {}
            }
        }
    }
}

/// What the words of a language lack beside the English ones: ids, what must stand in them, and
/// forms of its plurals (each with a number that has it).
pub(super) fn missing(
    language: &str,
    own: &BTreeMap<String, Held>,
    english: &BTreeMap<String, Held>,
    forms: &BTreeMap<String, String>,
) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (id, meant) in english {
        let Some(own) = own.get(id) else {
            let file = meant.file.rsplit('/').next().unwrap_or_default();
            let help = told!(
                "write `{id} = ..` there; the English words are line {line} of `{file}`",
                id,
                line = meant.line,
                file = meant.file
            );
            let message = told!(
                "there are no words for `{id}` in `{language}`",
                id,
                language
            );
            let problem = Problem::error("words.missing", message, help);
            problems.push(problem.in_file(format!("content/{language}/words/{file}")));
            continue;
        };
        if let Some(lost) = meant.names.difference(&own.names).next() {
            problems.push(own.problem(Problem::error(
                "words.missing",
                told!(
                    "the words for `{id}` in `{language}` lose `${lost}`",
                    id,
                    language,
                    lost
                ),
                told!("put `{{ ${lost} }}` where it belongs", lost),
            )));
        }
        problems.extend(own.without_form(id, language, forms));
    }
    problems
}

impl Held {
    /// A choice by the forms of plurals that has no words for one of them.
    fn without_form(
        &self,
        id: &str,
        language: &str,
        forms: &BTreeMap<String, String>,
    ) -> Option<Problem> {
        self.choices.iter().find_map(|(name, said)| {
            let form = |key: &String| FORMS.contains(&key.as_str()) && key != "other";
            let by_form = said.iter().any(form);
            let lone = said.len() == 1 && !name.ends_with("-id");
            if !by_form && !lone {
                return None;
            }
            // the form of one may be said by that number
            let says = |form: &String, number: &String| {
                said.contains(form) || (form == "one" && said.contains(number))
            };
            let (form, number) = forms.iter().find(|(form, number)| !says(form, number))?;
            Some(self.problem(Problem::error(
                "words.plural",
                told!(
                    "the words for `{id}` in `{language}` choose by `${name}` and have none for `{form}`, as for {number}",
                    id,
                    language,
                    name,
                    form,
                    number
                ),
                told!("add a line `[{form}] ..` to that choice", form),
            )))
        })
    }
}
