//! The words of a language: what [`Phrase`]s say, in Project Fluent's syntax (a line an id, what
//! stands in it by name, with plurals and choices). Only home of `fluent_bundle`.

use crate::diag::{Outcome, Problem};
use crate::phrase::{Arg, Phrase, Tokens, phrase};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::sync::LazyLock;

/// The English words, by file.
const ENGLISH: [(&str, &str); 2] = [
    (
        "content/words/en/plan.ftl",
        include_str!("../../content/words/en/plan.ftl"),
    ),
    (
        "content/words/en/course.ftl",
        include_str!("../../content/words/en/course.ftl"),
    ),
];

/// The words of a language.
pub struct Catalogue {
    bundle: FluentBundle<FluentResource>,
}

impl Catalogue {
    /// The words of a language (`en`) in some files: name and text.
    ///
    /// # Errors
    /// Lines that are not in the syntax, and ids that stand there twice, by file.
    pub fn read(language: &str, files: &[(&str, &str)]) -> Outcome<Self> {
        let language = language.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        // Our sheets print their text as it is: no signs that set off what is put in.
        bundle.set_use_isolating(false);
        let mut problems = Vec::new();
        let wrong = |file: &str, what: String| {
            let help = "write `id = words`, and what stands in them as `{ $name }`";
            Problem::error("words.syntax", what, help).in_file(file.to_owned())
        };
        for (file, text) in files {
            let resource = match FluentResource::try_new((*text).to_owned()) {
                Ok(resource) => resource,
                Err((resource, errors)) => {
                    let errors = errors.into_iter();
                    problems.extend(errors.map(|error| {
                        let line = text[..error.pos.start.min(text.len())]
                            .matches('\n')
                            .count();
                        wrong(file, format!("line {}: {error}", line + 1))
                    }));
                    resource
                }
            };
            if let Err(errors) = bundle.add_resource(resource) {
                problems.extend(errors.iter().map(|error| wrong(file, error.to_string())));
            }
        }
        if problems.is_empty() {
            Ok(Self { bundle })
        } else {
            Err(problems)
        }
    }

    /// What a phrase says; its numbers carry the lines that they are from.
    ///
    /// # Errors
    /// An id without words, and words that name what the phrase does not hold.
    pub fn filled(&self, phrase: &Phrase) -> Result<String, Box<Problem>> {
        if phrase.is_none() {
            return Ok(String::new());
        }
        let missing = |what: String| {
            let help = "add it to the files of `content/words`";
            Box::new(Problem::error("words.missing", what, help))
        };
        let message = self.bundle.get_message(phrase.id());
        let Some(words) = message.and_then(|message| message.value()) else {
            return Err(missing(format!("there are no words for `{}`", phrase.id())));
        };
        let mut args = FluentArgs::new();
        for (name, arg) in phrase.args() {
            args.set(name, self.value(arg)?);
        }
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(words, Some(&args), &mut errors);
        match errors.first() {
            None => Ok(text.into_owned()),
            Some(error) => Err(missing(format!("`{}`: {error}", phrase.id()))),
        }
    }

    fn value(&self, arg: &Arg) -> Result<FluentValue<'static>, Box<Problem>> {
        Ok(match arg {
            Arg::Text(text) | Arg::Word(text) => text.clone().into(),
            Arg::Basis(basis) => basis.word().into(),
            Arg::Sources(codes) => codes.join(", ").into(),
            Arg::Number(number) => (*number).into(),
            Arg::Printed(number) => number.marked().into(),
            Arg::Phrase(phrase) => self.filled(phrase)?.into(),
        })
    }

    /// What a phrase says, its numbers told apart by the lines that they are from. A phrase without
    /// words, which no test lets through, says its id.
    #[must_use]
    pub fn tokens(&self, phrase: &Phrase) -> Tokens {
        Tokens::read(&self.marked(phrase))
    }

    fn marked(&self, phrase: &Phrase) -> String {
        let filled = self.filled(phrase);
        debug_assert!(filled.is_ok(), "bug: {:?}", filled.err());
        filled.unwrap_or_else(|_| format!("({})", phrase.id()))
    }

    /// What a phrase says, as text.
    #[must_use]
    pub fn text(&self, phrase: &Phrase) -> String {
        Tokens::plain(self.marked(phrase))
    }

    /// A unit as it is printed: the sign of one, or the word for what is counted.
    #[must_use]
    pub fn unit(&self, unit: &str) -> String {
        self.text(&match unit {
            "boils" => phrase!("unit-boils"),
            "canisters" => phrase!("unit-canisters"),
            "days" => phrase!("unit-days"),
            "steps" => phrase!("unit-steps"),
            "times" => phrase!("unit-times"),
            sign => return sign.to_owned(),
        })
    }
}

/// The English words.
#[must_use]
pub fn english() -> &'static Catalogue {
    static WORDS: LazyLock<Catalogue> = LazyLock::new(|| match Catalogue::read("en", &ENGLISH) {
        Ok(words) => words,
        // The files are held inside the program, and a test reads them.
        Err(problems) => panic!("bug: the words are not in their syntax: {problems:?}"),
    });
    &WORDS
}

/// What a phrase says in English.
#[must_use]
pub fn text(phrase: &Phrase) -> String {
    english().text(phrase)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_english_words_are_in_their_syntax() {
        assert!(Catalogue::read("en", &ENGLISH).is_ok());
    }

    #[test]
    fn what_is_missing_is_named() {
        let words = Catalogue::read("en", &[("a.ftl", "two = { $one } and { $other }\n")]);
        let words = words.expect("words");
        let whole = phrase!("two", one = 1_u32, other = "x");
        assert_eq!(words.text(&whole), "1 and x");
        let told = |phrase: &Phrase| words.filled(phrase).unwrap_err().message;
        assert_eq!(told(&phrase!("three")), "there are no words for `three`");
        let part = told(&phrase!("two", one = 1_u32));
        assert!(part.contains("`two`") && part.contains("other"), "{part}");
    }

    #[test]
    fn a_slip_of_the_syntax_names_file_and_line() {
        let broken = Catalogue::read("en", &[("a.ftl", "one = 1\ntwo = { $x\n")]);
        let problems = broken.err().expect("problems");
        assert!(problems[0].message.starts_with("line 2: "), "{problems:?}");
    }
}
