//! The words of a language: what [`Phrase`]s say, in Project Fluent's syntax (a line an id, what
//! stands in it by name, with plurals and choices). Only home of `fluent_bundle`.

mod held;

use crate::diag::{Outcome, Problem, Told, told};
use crate::nouns::{Library, id};
use crate::phrase::{Arg, Phrase, Token, Tokens, phrase};
use crate::units::say;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use held::{Held, held, missing};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

/// The English words, by file.
const ENGLISH: [(&str, &str); 8] = [
    (
        "content/words/en/words.ftl",
        include_str!("../../content/words/en/words.ftl"),
    ),
    (
        "content/words/en/assumed.ftl",
        include_str!("../../content/words/en/assumed.ftl"),
    ),
    (
        "content/words/en/charts.ftl",
        include_str!("../../content/words/en/charts.ftl"),
    ),
    (
        "content/words/en/plan.ftl",
        include_str!("../../content/words/en/plan.ftl"),
    ),
    (
        "content/words/en/course.ftl",
        include_str!("../../content/words/en/course.ftl"),
    ),
    (
        "content/words/en/kitchen.ftl",
        include_str!("../../content/words/en/kitchen.ftl"),
    ),
    (
        "content/words/en/sheets.ftl",
        include_str!("../../content/words/en/sheets.ftl"),
    ),
    (
        "content/words/en/lesson.ftl",
        include_str!("../../content/words/en/lesson.ftl"),
    ),
];

/// A message of ours that says which form of plurals a number has; no file has this id.
const FORM: &str = "form-of-plurals";
const FORMS: &str = "form-of-plurals =
    { $number ->
        [zero] zero
        [one] one
        [two] two
        [few] few
        [many] many
       *[other] other
    }
";

/// The words of a language.
pub struct Catalogue {
    language: String,
    mark: char,
    /// Each id, and what its words hold.
    holds: BTreeMap<String, Held>,
    bundle: FluentBundle<FluentResource>,
}

thread_local! {
    /// The language that is spoken on this thread; none is English.
    static SPOKEN: RefCell<Option<Arc<Catalogue>>> = const { RefCell::new(None) };
}

/// Runs something that speaks a language, its words and its decimal mark; none is English.
///
/// As [`say::with_mark`]: an argument of all that is said, handed on beside what is given, and
/// never beyond what runs here.
pub fn speaking<T>(words: Option<&Arc<Catalogue>>, run: impl FnOnce() -> T) -> T {
    struct Before(Option<Arc<Catalogue>>);
    impl Drop for Before {
        fn drop(&mut self) {
            SPOKEN.set(self.0.take());
        }
    }
    let _before = Before(SPOKEN.replace(words.cloned()));
    say::with_mark(words.map_or(say::POINT, |words| words.mark), run)
}

impl Catalogue {
    /// The words of a language (`en`) in some files: name and text.
    ///
    /// # Errors
    /// Lines that are not in the syntax, and ids that stand there twice, by file.
    pub fn read(language: &str, files: &[(&str, &str)]) -> Outcome<Self> {
        let named = language.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![named]);
        // Our sheets print their text as it is: no signs that set off what is put in.
        bundle.set_use_isolating(false);
        bundle.set_formatter(Some(|value, _| match value {
            FluentValue::Number(number) => Some(say::in_mark(&number.as_string())),
            _ => None,
        }));
        let mut problems = Vec::new();
        let wrong = |file: &str, what: Told| {
            let help = "write `id = words`, and what stands in them as `{ $name }`";
            Problem::error("words.syntax", what, help).in_file(file.to_owned())
        };
        for (file, text) in files {
            let resource = match FluentResource::try_new((*text).to_owned()) {
                Ok(resource) => resource,
                Err((resource, errors)) => {
                    let errors = errors.into_iter();
                    problems.extend(errors.map(|error| {
                        // where the sentence starts that is not in the syntax, or the slip itself
                        let slice = error.slice.as_ref();
                        let at = slice.map_or(error.pos.start, |slice| slice.start);
                        let line = text[..at.min(text.len())].matches('\n').count();
                        wrong(file, told!("line {line}: {error}", line = line + 1, error))
                    }));
                    resource
                }
            };
            if let Err(errors) = bundle.add_resource(resource) {
                problems.extend(
                    errors
                        .iter()
                        .map(|error| wrong(file, Told::as_written(error.to_string()))),
                );
            }
        }
        if let Ok(forms) = FluentResource::try_new(FORMS.to_owned()) {
            // only what has that id already could stand in the way
            let _ = bundle.add_resource(forms);
        }
        if problems.is_empty() {
            let mut words = Self {
                language: language.to_owned(),
                mark: say::POINT,
                holds: files
                    .iter()
                    .flat_map(|(file, text)| held(file, text))
                    .collect(),
                bundle,
            };
            let mark = words
                .word("decimal-mark")
                .and_then(|mark| mark.chars().next());
            words.mark = mark.unwrap_or(say::POINT);
            Ok(words)
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
        let missing = |what: Told| {
            let help = "add it to the files of `content/words`";
            Box::new(Problem::error("words.missing", what, help))
        };
        let message = self.bundle.get_message(phrase.id());
        let Some(words) = message.and_then(|message| message.value()) else {
            return Err(missing(told!(
                "there are no words for `{id}`",
                id = phrase.id()
            )));
        };
        let mut args = FluentArgs::new();
        for (name, arg) in phrase.args() {
            // what is placed is said; what is chosen by keeps its English word
            if self.language != "en"
                && let Arg::Word(word) | Arg::Text(word) = arg
            {
                args.set(format!("{name}-id"), word.clone());
            }
            args.set(name, self.value(arg)?);
        }
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(words, Some(&args), &mut errors);
        match errors.first() {
            None => Ok(text.into_owned()),
            Some(error) => Err(missing(told!("`{id}`: {error}", id = phrase.id(), error))),
        }
    }

    /// What it lacks beside the English words.
    fn missing(&self) -> Vec<Problem> {
        // the forms that its numbers have, each with the first number that has it
        let mut forms = BTreeMap::new();
        for number in 0..=200_u32 {
            let form = self.form(f64::from(number));
            forms.entry(form).or_insert_with(|| number.to_string());
        }
        missing(&self.language, &self.holds, &english().holds, &forms)
    }

    /// The form of plurals that a number has: `one`.
    fn form(&self, number: f64) -> String {
        let mut args = FluentArgs::new();
        args.set("number", number);
        let mut errors = Vec::new();
        let words = self.bundle.get_message(FORM).and_then(|one| one.value());
        let form = words.map(|words| self.bundle.format_pattern(words, Some(&args), &mut errors));
        form.unwrap_or_default().trim().to_owned()
    }

    /// The words of an id in which nothing is put.
    fn word(&self, id: &str) -> Option<String> {
        let words = self.bundle.get_message(id)?.value()?;
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(words, None, &mut errors);
        errors.is_empty().then(|| text.into_owned())
    }

    /// A word of the trade's own lists; in English it is what it is.
    fn of_list(&self, word: &str) -> String {
        let own = (self.language != "en").then(|| self.word(&word_id(word)));
        own.flatten().unwrap_or_else(|| word.to_owned())
    }

    fn value(&self, arg: &Arg) -> Result<FluentValue<'static>, Box<Problem>> {
        Ok(match arg {
            Arg::Word(word) => self.of_list(word).into(),
            // a quantity that was said before the language was known
            Arg::Text(text) if is_quantity(text) => say::in_mark(text).into(),
            Arg::Text(text) => text.clone().into(),
            Arg::Basis(basis) => self.of_list(basis.word()).into(),
            Arg::Sources(codes) => codes.join(", ").into(),
            Arg::Number(number) => (*number).into(),
            Arg::Printed(number) => said_number(number).marked().into(),
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

/// The words that a library's sheets are written in.
///
/// # Errors
/// Words that are not in the syntax, and what the language lacks beside English.
pub fn of(library: &Library) -> Outcome<Arc<Catalogue>> {
    let files: Vec<(&str, &str)> = library
        .words
        .iter()
        .map(|(name, text)| (name.as_str(), text.as_str()))
        .collect();
    let words = Catalogue::read(&library.language, &files)?;
    let problems = words.missing();
    if problems.is_empty() {
        Ok(Arc::new(words))
    } else {
        Err(problems)
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

/// What a phrase says in the language that is spoken.
#[must_use]
pub fn text(phrase: &Phrase) -> String {
    spoken(|words| words.text(phrase))
}

/// What a phrase says in the language that is spoken, its numbers told apart by their lines.
#[must_use]
pub fn tokens(phrase: &Phrase) -> Tokens {
    spoken(|words| words.tokens(phrase))
}

/// A unit as it is printed in the language that is spoken.
#[must_use]
pub fn unit(unit: &str) -> String {
    spoken(|words| words.unit(unit))
}

/// The words of an id that is put together: what is said of a sheet by its name.
#[must_use]
pub fn by_id(id: &str) -> String {
    spoken(|words| {
        let words = words.word(id);
        debug_assert!(words.is_some(), "bug: no words for `{id}`");
        words.unwrap_or_else(|| format!("({id})"))
    })
}

/// A word of the trade's own lists (`nouns`) in the language that is spoken; of two lists that have
/// one, the first that is named: `family-white-gas`, else `white-gas`.
#[must_use]
pub fn word(word: &str, lists: &[&str]) -> String {
    spoken(|words| {
        if words.language == "en" {
            return word.to_owned();
        }
        let own = lists.iter().map(|list| word_id(&format!("{list} {word}")));
        let mut ids = own.chain([word_id(word)]);
        ids.find_map(|id| words.word(&id))
            .unwrap_or_else(|| word.to_owned())
    })
}

/// The language that is spoken: `en`.
#[must_use]
pub fn language() -> String {
    spoken(|words| words.language.clone())
}

fn spoken<T>(say: impl FnOnce(&Catalogue) -> T) -> T {
    SPOKEN.with_borrow(|words| say(words.as_deref().unwrap_or_else(|| english())))
}

/// Whether a text is a quantity in plain signs. What carries the statement that it says has its mark
/// already, and a value beside it that programs read.
fn is_quantity(text: &str) -> bool {
    let own = |sign: char| ('\u{e000}'..='\u{f8ff}').contains(&sign);
    text.starts_with(|sign: char| sign.is_ascii_digit()) && !text.contains(own)
}

/// The id under which a language may have its own word.
fn word_id(word: &str) -> String {
    let kept: String = word
        .chars()
        .filter(|sign| sign.is_alphanumeric() || matches!(sign, ' ' | '-' | '_'))
        .collect();
    format!("word-{}", id(&kept))
}

/// A number with the decimal mark that is spoken.
fn said_number(number: &Token) -> Token {
    let mut number = number.clone();
    if let Token::Number { text, .. } | Token::Of { text, .. } = &mut number {
        *text = say::in_mark(text);
    }
    number
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_english_words_are_in_their_syntax() {
        assert!(Catalogue::read("en", &ENGLISH).is_ok());
    }

    #[test]
    fn a_word_of_the_lists_leads_to_its_id() {
        let words = english();
        let ids = words.holds.keys().filter(|id| id.starts_with("word-"));
        let strays = ids.filter(|id| {
            let own = word_id(&words.word(id).unwrap_or_default());
            // of two lists with one word the second has its name before it
            !id.ends_with(own.trim_start_matches("word"))
        });
        assert_eq!(strays.collect::<Vec<_>>(), Vec::<&String>::new());
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
