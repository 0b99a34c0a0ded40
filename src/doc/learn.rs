//! A page to learn from by oneself, without a format: subjects, questions with their reasons,
//! sums with every step.

use super::{Figure, Inline, Signal};

/// The page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Its title.
    pub title: String,
    /// Lines under the title, plain words.
    pub notes: Vec<String>,
    /// The subjects, in the order they are learned.
    pub subjects: Vec<Subject>,
    /// Sums, by topic and from the easiest on.
    pub sums: Vec<Sums>,
    /// The line at its foot.
    pub foot: String,
}

/// What one module teaches.
#[derive(Clone, Debug, PartialEq)]
pub struct Subject {
    /// The module's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it is about, a line or two.
    pub about: Vec<Inline>,
    /// What to look at.
    pub figures: Vec<Figure>,
    /// What to do, step by step.
    pub steps: Vec<Vec<Inline>>,
    /// What can hurt, with what to do when it happens.
    pub cautions: Vec<(Signal, Vec<Inline>)>,
    /// What one can do afterwards.
    pub objectives: Vec<Objective>,
    /// Questions on it.
    pub tries: Vec<Try>,
}

/// Something one can do afterwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Objective {
    /// `module.objective`.
    pub id: String,
    /// What, verb first.
    pub say: Vec<Inline>,
    /// Whether it must be known: failing it stops a check.
    pub must: bool,
}

/// How a question is answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// By choosing one of several.
    Choice,
    /// By putting steps in order.
    Order,
    /// In a few words, held against the answer by the learner.
    Words,
    /// By choosing every place of a drawing that is wrong.
    Places,
}

impl Way {
    /// Its word in the page.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Choice => "choice",
            Self::Order => "order",
            Self::Words => "words",
            Self::Places => "places",
        }
    }
}

/// A question with its answer and the reason.
#[derive(Clone, Debug, PartialEq)]
pub struct Try {
    /// `module.question`.
    pub id: String,
    /// The objective it is for: `module.objective`.
    pub objective: String,
    /// How it is answered.
    pub way: Way,
    /// What is asked.
    pub ask: Vec<Inline>,
    /// The choices, the right one first, or the steps in their order, or what is at each place.
    pub choices: Vec<Vec<Inline>>,
    /// The drawing whose places are judged.
    pub scene: Option<Scene>,
    /// The answer, where it is given in words.
    pub answer: Vec<Inline>,
    /// Why.
    pub because: Vec<Inline>,
}

/// A drawing with a letter on each place.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// The drawing.
    pub figure: Figure,
    /// Of each place the middle of its mark, as shares of width and height, and whether it is wrong.
    pub places: Vec<(f32, f32, bool)>,
}

/// Sums of one topic and level.
#[derive(Clone, Debug, PartialEq)]
pub struct Sums {
    /// The topic, its heading.
    pub title: String,
    /// Figures to work with, each with its word and unit.
    pub numbers: Vec<String>,
    /// A table to read from: its caption, head and rows.
    pub table: Option<(String, Vec<String>, Vec<Vec<String>>)>,
    /// The problems, the first of them to be shown worked.
    pub problems: Vec<Sum>,
}

/// A sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Sum {
    /// What is asked.
    pub ask: String,
    /// The answer as printed.
    pub answer: String,
    /// Its unit; empty for a plain number.
    pub unit: String,
    /// The least and the most that count as right.
    pub range: (f64, f64),
    /// The same in words: `within 3 %`.
    pub tolerance: String,
    /// Each step: what is worked out, how, and the result.
    pub steps: Vec<(String, String, String)>,
}
