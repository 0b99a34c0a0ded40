//! How hard a text is to read: its school grade by the formula of Kincaid,
//! Fishburne, Rogers and Chissom, "Derivation of New Readability Formulas",
//! Research Branch Report 8-75, Naval Technical Training Command, 1975.

use super::super::desk::Desk;
use super::prose::in_text;
use super::syllables;
use crate::diag::{Problem, told};
use crate::load::Node;
use crate::nouns::{AppliesWhen, FactValue, FuelKind, Module, id};

/// The hardest grade for what learners read.
const HARDEST_GRADE: f64 = 8.0;
/// Words of learner text that fill about one side of a handout.
const MOST_WORDS: usize = 400;
/// Words of the hardest sentence that a message repeats.
const SHOWN_WORDS: usize = 8;

/// What was counted in a text. A figure that is filled in counts as one short
/// word; headings and tables are not read as sentences.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reading {
    /// Words.
    pub words: usize,
    /// Sentences; a heading, an item of a list or a paragraph ends one.
    pub sentences: usize,
    /// Syllables.
    pub syllables: usize,
    /// The sentence of the highest grade.
    pub hardest: Option<Sentence>,
}

/// One sentence of a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Sentence {
    /// The byte of the text that it starts at.
    pub byte: usize,
    /// Its first words.
    pub start: String,
    /// How many words it has.
    pub words: usize,
    /// How many syllables they have.
    pub syllables: usize,
}

/// The grade of so many words, sentences and syllables.
#[expect(clippy::cast_precision_loss, reason = "counts of one text")]
fn grade(words: usize, sentences: usize, syllables: usize) -> f64 {
    if words == 0 || sentences == 0 {
        return 0.0;
    }
    let words_a_sentence = words as f64 / sentences as f64;
    let syllables_a_word = syllables as f64 / words as f64;
    0.39 * words_a_sentence + 11.8 * syllables_a_word - 15.59
}

impl Sentence {
    /// The school grade of this sentence alone.
    #[must_use]
    pub fn grade(&self) -> f64 {
        grade(self.words, 1, self.syllables)
    }
}

impl Reading {
    /// The school grade of the whole text.
    #[must_use]
    pub fn grade(&self) -> f64 {
        grade(self.words, self.sentences, self.syllables)
    }

    fn take(&mut self, sentence: Sentence) {
        if sentence.words == 0 {
            return;
        }
        self.words += sentence.words;
        self.syllables += sentence.syllables;
        self.sentences += 1;
        if self
            .hardest
            .as_ref()
            .is_none_or(|hardest| sentence.grade() > hardest.grade())
        {
            self.hardest = Some(sentence);
        }
    }
}

/// The learner text of a module, read.
#[must_use]
pub fn reading(module: &Module) -> Reading {
    let fact = |name: &str| match module.facts.get(&id(name)).map(|fact| &fact.value) {
        Some(FactValue::Text(text)) => text.clone(),
        _ => "ten".to_owned(),
    };
    read(&module.whole_text(), &fact)
}

/// Counts a text of Markdown; `fact` gives the words of a name in braces.
fn read(text: &str, fact: &dyn Fn(&str) -> String) -> Reading {
    let mut reading = Reading::default();
    let mut open: Option<Sentence> = None;
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let offset = start;
        start += line.len();
        let bare = line.trim_start();
        let apart = bare.trim_end().is_empty() || bare.starts_with(['#', '|']);
        if (apart || item_mark(bare) > 0)
            && let Some(sentence) = open.take()
        {
            reading.take(sentence);
        }
        if apart {
            continue;
        }
        let indent = line.len() - bare.len();
        let mark = item_mark(bare);
        let mut at = offset + indent + mark;
        for token in bare[mark..].split_inclusive(char::is_whitespace) {
            let byte = at;
            at += token.len();
            let token = token.trim();
            if !token.chars().any(char::is_alphanumeric) {
                continue;
            }
            let sentence = open.get_or_insert_with(|| Sentence {
                byte,
                start: String::new(),
                words: 0,
                syllables: 0,
            });
            if sentence.words < SHOWN_WORDS {
                if !sentence.start.is_empty() {
                    sentence.start.push(' ');
                }
                sentence.start.push_str(&token.replace('*', ""));
            }
            for word in filled(token, fact).split_whitespace() {
                sentence.words += 1;
                sentence.syllables += syllables::of_token(word);
            }
            if ends(token)
                && let Some(sentence) = open.take()
            {
                reading.take(sentence);
            }
        }
    }
    if let Some(sentence) = open {
        reading.take(sentence);
    }
    reading
}

/// How many bytes the mark of a list's item or a quotation takes.
fn item_mark(line: &str) -> usize {
    let digits = line.chars().take_while(char::is_ascii_digit).count();
    if digits > 0 && line[digits..].starts_with(". ") {
        return digits + 2;
    }
    ["- ", "* ", "+ ", "> "]
        .iter()
        .find(|mark| line.starts_with(**mark))
        .map_or(0, |mark| mark.len())
}

/// A token with the names in braces replaced by what they print.
fn filled(token: &str, fact: &dyn Fn(&str) -> String) -> String {
    let mut out = String::new();
    let mut rest = token;
    while let Some((before, after)) = rest.split_once('{') {
        let Some((name, tail)) = after.split_once('}') else {
            break;
        };
        out.push_str(before);
        out.push_str(&fact(name));
        rest = tail;
    }
    out.push_str(rest);
    // of a link the words are read, not the address
    match (out.split_once("]("), out.find(')')) {
        (Some((words, _)), Some(_)) => words.to_owned(),
        _ => out,
    }
}

/// Whether a sentence ends with this token.
fn ends(token: &str) -> bool {
    let bare = token.trim_end_matches(['*', '_', '"', '\'', ')', ']', '\u{201d}', '\u{2019}']);
    let short = ["e.g.", "i.e.", "approx.", "no.", "cf."];
    bare.ends_with(['.', '!', '?']) && !short.contains(&bare.to_lowercase().as_str())
}

/// Words of the longest text that a reader with one kind of fuel gets.
fn most_words(module: &Module) -> usize {
    let of = |fuel: FuelKind| {
        let fits = |applies: &AppliesWhen| applies.fuel.is_empty() || applies.fuel.contains(&fuel);
        read(&module.text_where(fits), &|_| "ten".to_owned()).words
    };
    FuelKind::ALL.iter().copied().map(of).max().unwrap_or(0)
}

/// The text or section in which a byte of the whole lies: its place in the file, its words, and
/// how many bytes stand before it.
fn part_of<'a>(
    root: &'a Node,
    node: &'a Node,
    module: &'a Module,
    byte: usize,
) -> (&'a Node, &'a str, usize) {
    let mut found = (node, module.text.as_str(), 0);
    let mut before = module.text.len();
    for section in &module.sections {
        before += section.gap().len();
        if byte >= before {
            let own = root
                .get("sections")
                .and_then(|all| all.get(&section.id))
                .and_then(|one| one.get("text"));
            found = (own.unwrap_or(node), &section.text, before);
        }
        before += section.text.len();
    }
    found
}

/// Warns of a text that is too hard or too long for those who read it.
pub(super) fn check(desk: &Desk, root: &Node, module: &Module) {
    let Some(node) = root.get("text") else {
        return;
    };
    let reading = reading(module);
    let grade = reading.grade();
    if let (true, Some(hardest)) = (grade > HARDEST_GRADE, &reading.hardest) {
        let problem = Problem::warning(
            "content.reading",
            told!(
                "the text reads at school grade {grade}; {HARDEST_GRADE} is the most that learners get",
                grade = format!("{grade:.1}"),
                HARDEST_GRADE = format!("{HARDEST_GRADE:.0}")
            ),
            told!(
                "start with the hardest sentence, `{start} ..` ({words} words, grade {grade}): cut it in two and take shorter words",
                start = hardest.start,
                words = hardest.words,
                grade = format!("{:.0}", hardest.grade())
            ),
        );
        let (node, text, before) = part_of(root, node, module, hardest.byte);
        desk.put(in_text(
            node,
            text,
            hardest.byte - before,
            hardest.start.chars().count(),
            problem,
        ));
    }
    let words = most_words(module);
    if words > MOST_WORDS {
        desk.warn(
            node,
            "content.long",
            told!(
                "the text has {words} words; {MOST_WORDS} fill a side of the handout",
                words,
                MOST_WORDS
            ),
            "take out what the lesson can do without, or move it to `instructor`",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> Reading {
        read(text, &|_| "ten".to_owned())
    }

    #[test]
    fn counts_words_and_sentences_of_markdown() {
        let text = "### A heading\n\n**Cool.** Wait {minutes}, then\ntouch it. Ask:\n\n- the *pot*\n- the lid\n\n| a | b |\n";
        let reading = plain(text);
        // Cool | Wait ten then touch it | Ask | the pot | the lid
        assert_eq!((reading.words, reading.sentences), (11, 5));
        assert_eq!(reading.syllables, 11);
    }

    #[test]
    fn the_grade_follows_the_published_formula() {
        // ten words in one sentence, 13 syllables
        let reading = plain("The water in the pot boils after a little while.");
        assert_eq!((reading.words, reading.syllables), (10, 13));
        let by_hand = 0.39 * 10.0 + 11.8 * 1.3 - 15.59;
        assert!((reading.grade() - by_hand).abs() < 1e-12);
    }

    #[test]
    fn the_hardest_sentence_is_found_where_it_stands() {
        let text = "Stir it.\n\nEvaporation considerably accelerates refrigeration. Stop.\n";
        let hardest = plain(text).hardest.unwrap();
        assert!(text[hardest.byte..].starts_with("Evaporation"));
        assert_eq!(hardest.words, 4);
    }

    #[test]
    fn a_fact_in_words_counts_by_its_words() {
        let reading = read("Keep it {how}.", &|_| "dry and cool".to_owned());
        assert_eq!(reading.words, 5);
    }
}
