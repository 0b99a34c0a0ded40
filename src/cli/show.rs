//! `leeside show`: a module or a kind of place as text to read.

use super::make::UnitsName;
use super::{Laid, Said};
use crate::compose;
use crate::compose::facts;
use crate::diag::{Outcome, Problem, Told, nearest, told};
use crate::nouns::{self, Id, Library, Module, Place, RuleValue};
use crate::plan;
use crate::units::Units;
use clap::{Args, ValueEnum};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// Show a module or a place of the library as text to read
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside show module greywater")]
pub struct Show {
    /// What to show
    #[arg(value_enum, ignore_case = true)]
    pub what: What,
    /// Its id, as `leeside list` prints it
    #[arg(value_name = "ID")]
    pub id: String,
    /// Units of the figures
    #[arg(long, value_enum, ignore_case = true, default_value = "both")]
    pub units: UnitsName,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// What can be shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum What {
    /// A subject that is taught
    #[value(alias = "modules")]
    Module,
    /// A kind of place with its rules
    #[value(alias = "places")]
    Place,
}

/// Runs the command.
///
/// # Errors
/// Every problem of the library; an id that it does not have.
pub fn run(args: &Show) -> Outcome<Said> {
    let (library, warnings) = super::library(&args.content.folders)?;
    let id = nouns::id(&args.id);
    let units = args.units.units();
    let text = match args.what {
        What::Module => library
            .modules
            .get(&id)
            .map(|module| of_module(&library, module, units)),
        What::Place => library
            .places
            .get(&id)
            .map(|place| of_place(&library, place, units)),
    };
    let result = text.ok_or_else(|| vec![unknown(args, &id, &library)])?;
    Ok(Said {
        result,
        warnings,
        ..Said::default()
    })
}

/// An id that nothing has.
fn unknown(args: &Show, id: &str, library: &Library) -> Problem {
    let (word, known): (&'static str, Vec<&str>) = match args.what {
        What::Module => ("module", library.modules.keys().map(Id::as_str).collect()),
        What::Place => ("place", library.places.keys().map(Id::as_str).collect()),
    };
    let help = nearest(id, known.iter().copied()).map_or_else(
        || told!("`leeside list {word}s` names them", word),
        |near| told!("did you mean `leeside show {word} {near}`?", word, near),
    );
    Problem::error(
        "flag.id",
        told!(
            "there is no {what} `{id}`",
            what = Told::from(word),
            id = args.id
        ),
        help,
    )
}

/// A text that grows part by part; empty parts are left out.
#[derive(Default)]
struct Page(String);

impl Page {
    fn paragraph(&mut self, text: &str) {
        let text = text.trim();
        if !text.is_empty() {
            let _ = write!(self.0, "{text}\n\n");
        }
    }

    fn list(&mut self, title: &str, lines: Vec<String>) {
        if lines.is_empty() {
            return;
        }
        self.paragraph(&format!("## {title}"));
        for line in lines {
            let words: Vec<&str> = line.split_whitespace().collect();
            let _ = writeln!(self.0, "- {}", words.join(" "));
        }
        self.0.push('\n');
    }

    fn part(&mut self, title: &str, text: &str) {
        if !text.trim().is_empty() {
            self.paragraph(&format!("## {title}"));
            self.paragraph(text);
        }
    }

    fn done(self) -> String {
        format!("{}\n", self.0.trim_end())
    }
}

fn of_module(library: &Library, module: &Module, units: Units) -> String {
    let told = |text: &str| facts::told(library, module, text, units);
    let mut page = Page::default();
    page.paragraph(&format!("# {}", module.title));
    page.paragraph(&told(&module.summary));
    page.paragraph(&format!(
        "Module {}, reviewed {}, due again {}.",
        module.id, module.reviewed, module.review_by
    ));
    page.paragraph(&told(&module.whole_text()));
    page.part("First response", &told(&module.first_response));
    let cautions = module.cautions.iter().map(|one| {
        let parts = [&one.consequence, &one.avoid, &one.respond]
            .into_iter()
            .filter(|part| !part.is_empty())
            .map(|part| told(part));
        let rest: Vec<String> = parts.collect();
        let signal = one.signal.word().to_uppercase();
        format!("{signal}: {}: {}.", told(&one.hazard), rest.join(". "))
    });
    page.list("Cautions", cautions.collect());
    let items = module
        .items
        .iter()
        .map(|item| format!("{}: {}", item.moment.word(), told(&item.say)));
    page.list("Checklist", items.collect());
    let objectives = module.objectives.values().map(|objective| {
        let critical = if objective.critical {
            " (critical)"
        } else {
            ""
        };
        format!("{}{critical}", told(&objective.say))
    });
    page.list("What a learner can do", objectives.collect());
    let questions = module.questions.iter().map(|question| {
        let answer = match (question.choices.as_slice(), question.sum) {
            (_, Some(sum)) => format!("a sum ({}), other numbers on each form", sum.word()),
            ([], None) => told(&question.answer),
            (steps, None) if question.kind == nouns::QuestionKind::Order => told(&steps.join("; ")),
            ([right, ..], None) => told(right),
        };
        format!("{} Answer: {answer}", told(&question.ask))
    });
    page.list("Questions", questions.collect());
    page.part("For the instructor", &told(&module.instructor));
    let mut codes = BTreeSet::new();
    let facts = module.facts.iter().map(|(id, fact)| {
        codes.extend(fact.sources.iter().cloned());
        let from = origin(fact.basis.word(), &fact.sources);
        let value = facts::fact_told(fact, units);
        format!("{id}: {}: {value} ({from})", fact.say)
    });
    page.list("Facts", facts.collect());
    page.list("Sources", sources(library, &codes));
    page.done()
}

fn of_place(library: &Library, place: &Place, units: Units) -> String {
    let mut page = Page::default();
    page.paragraph(&format!("# {}", place.title));
    page.paragraph(&place.summary);
    page.paragraph(&format!("Place {}.", place.id));
    let mut codes = BTreeSet::new();
    let rules = place.rules.iter().map(|(key, rule)| {
        codes.extend(rule.sources.iter().cloned());
        let value = match &rule.value {
            RuleValue::Length(length) => {
                compose::words::value(&plan::Value::Length(*length), units)
            }
            RuleValue::Text(text) => text.clone(),
        };
        format!(
            "{key}: {value} ({})",
            origin(rule.basis.word(), &rule.sources)
        )
    });
    page.list("Rules", rules.collect());
    page.part("Where authorities differ", &place.disagreements);
    page.list("Sources", sources(library, &codes));
    page.paragraph("The land manager's current rules come first.");
    page.done()
}

/// How a figure is known: its basis, and the codes of its sources.
fn origin(basis: &str, sources: &[Id]) -> String {
    let mut words = vec![basis];
    words.extend(sources.iter().map(Id::as_str));
    words.join(", ")
}

fn sources(library: &Library, codes: &BTreeSet<Id>) -> Vec<String> {
    let in_order = compose::words::by_number(codes).into_iter();
    let lines = in_order.filter_map(|code| library.sources.get(code));
    let lines = lines.map(|source| {
        let parts = [
            source.title.as_str(),
            &source.publisher,
            &source.year,
            source.url.as_deref().unwrap_or_default(),
        ];
        let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        format!("{}: {}", source.id, parts.join(", "))
    });
    lines.collect()
}
