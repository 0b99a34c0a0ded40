//! The template engine for sheets: one instance, one escape function.

use super::catalogue::{self, Catalogue};
use super::proof::{self, PARTS};
use super::sheets;
use crate::diag::{Outcome, Place, Problem, Told, told};
use crate::markdown;
use crate::nouns::Library;
use serde_json::Value;
use std::collections::BTreeMap;
use std::error::Error;
use std::io::Write;
use std::sync::Arc;
use tera::{Context, ErrorKind, Tera};

/// Template texts by name (`sheets/fuel-worksheet.md`), overlays already laid over.
pub type Templates = BTreeMap<String, String>;

/// Templates that have been proven and are ready to be filled.
pub struct Engine {
    /// The words that sheets are written in; none is English.
    words: Option<Arc<Catalogue>>,
    tera: Tera,
    texts: Templates,
}

impl Engine {
    /// Reads every sheet's template and proves it on a sample of its view.
    ///
    /// # Errors
    /// Each misspelt name, refused tag, broken template or missing file.
    pub fn new(templates: &Templates) -> Outcome<Self> {
        let texts = wanted(templates)?;
        // Names first: the proof knows the line of what the engine only names.
        let misspelt: Vec<Problem> = sheets::templates()
            .flat_map(|(name, sample)| {
                proof::names(&name, &texts[&name], &texts[PARTS], &sample(true))
            })
            .collect();
        if !misspelt.is_empty() {
            return Err(misspelt);
        }
        let engine = Self::of(texts)?;
        let proven: Vec<Problem> = sheets::templates()
            .flat_map(|(name, sample)| engine.prove(&name, sample))
            .collect();
        if proven.is_empty() {
            Ok(engine)
        } else {
            Err(proven)
        }
    }

    /// Reads templates that were proven before: the built-in ones are by the
    /// tests, and a run need not do it again.
    ///
    /// # Errors
    /// A broken template or a missing file.
    pub fn proven(templates: &Templates) -> Outcome<Self> {
        Self::of(wanted(templates)?)
    }

    fn of(texts: Templates) -> Outcome<Self> {
        let mut tera = Tera::default();
        tera.autoescape_on(vec![".md"]);
        tera.set_escape_fn(escape);
        tera.add_raw_templates(texts.iter())
            .map_err(|error| vec![problem(&error, PARTS, &texts)])?;
        Ok(Self {
            words: None,
            tera,
            texts,
        })
    }

    /// The same in the language of a library.
    ///
    /// # Errors
    /// Words that are missing or not in their syntax.
    pub fn in_language_of(self, library: &Library) -> Outcome<Self> {
        let words = match library.language.as_str() {
            "en" => None,
            _ => Some(catalogue::of(library)?),
        };
        Ok(Self { words, ..self })
    }

    /// Runs something that speaks the language of its sheets.
    pub fn speaking<T>(&self, run: impl FnOnce() -> T) -> T {
        catalogue::speaking(self.words.as_ref(), run)
    }

    /// One sheet's template filled with a full and an empty sample of its view.
    fn prove(&self, name: &str, sample: fn(bool) -> Value) -> Vec<Problem> {
        [sample(true), sample(false)]
            .iter()
            .filter_map(|sample| {
                let text = match self.fill(name, sample) {
                    Ok(text) => text,
                    Err(problems) => return Some(problems),
                };
                let figures = BTreeMap::new();
                markdown::read(name, &text, &figures, sheets::plain_style(), "").err()
            })
            .flatten()
            .collect()
    }

    /// Fills a template.
    ///
    /// # Errors
    /// What the engine could not do, at its place in the template.
    pub fn fill(&self, name: &str, view: &Value) -> Outcome<String> {
        let context = Context::from_serialize(view)
            .map_err(|error| vec![problem(&error, name, &self.texts)])?;
        self.tera
            .render(name, &context)
            .map(|text| tidy(&text))
            .map_err(|error| vec![problem(&error, name, &self.texts)])
    }
}

/// The templates of the sheets, and what they share.
fn wanted(templates: &Templates) -> Outcome<Templates> {
    let mut problems = Vec::new();
    let mut texts = Templates::new();
    let names = sheets::templates()
        .map(|(name, _)| name)
        .chain([PARTS.to_owned()]);
    for name in names {
        match templates.get(&name) {
            // A checkout with other line ends must give the same sheets.
            Some(text) => {
                texts.insert(name, text.replace("\r\n", "\n"));
            }
            None => problems.push(
                Problem::error(
                    "template.missing",
                    told!("there is no template `{name}`", name),
                    "put it back, or run `leeside unpack` for a fresh copy",
                )
                .in_file(name),
            ),
        }
    }
    if problems.is_empty() {
        Ok(texts)
    } else {
        Err(problems)
    }
}

/// The one escape function: a value stays plain text in Markdown.
fn escape(value: &str, out: &mut dyn Write) -> std::io::Result<()> {
    out.write_all(markdown::escape(value).as_bytes())
}

/// At most one empty line in a row, none at the start, one line end at the end.
fn tidy(text: &str) -> String {
    let mut tidy = String::with_capacity(text.len());
    let mut empty = true;
    for line in text.lines() {
        let line = line.trim_end();
        if line.is_empty() {
            if !empty {
                tidy.push('\n');
            }
            empty = true;
        } else {
            tidy.push_str(line);
            tidy.push('\n');
            empty = false;
        }
    }
    let kept = tidy.trim_end().len();
    tidy.truncate(kept);
    tidy.push('\n');
    tidy
}

/// An error of the engine in a keeper's words, at its place.
fn problem(error: &tera::Error, name: &str, texts: &Templates) -> Problem {
    let help = "compare with the built-in template (`leeside unpack` writes it out)";
    match error.kind() {
        ErrorKind::SyntaxError(report) | ErrorKind::RenderingError(report) => {
            let file = if report.filename().is_empty() {
                name
            } else {
                report.filename()
            };
            let span = report.span();
            let text = texts
                .get(file)
                .and_then(|text| text.lines().nth(span.start_line.saturating_sub(1)))
                .unwrap_or_default();
            Problem::error("template.broken", Told::as_written(report.message()), help).placed(
                Place {
                    file: Arc::from(file),
                    line: span.start_line.max(1),
                    column: span.start_col + 1,
                    width: 1,
                    text: text.chars().take(120).collect(),
                },
            )
        }
        _ => {
            let mut message = error.to_string();
            if let Some(source) = error.source() {
                message = format!("{message}: {source}");
            }
            Problem::error("template.broken", Told::as_written(message), help).in_file(name)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The built-in templates, as the binary holds them.
    fn built_in() -> Templates {
        let mut templates = Templates::new();
        for (name, _) in sheets::templates() {
            let path = format!("{}/templates/{name}", env!("CARGO_MANIFEST_DIR"));
            #[allow(clippy::disallowed_methods, reason = "a test reads its own source")]
            let text = std::fs::read_to_string(path).unwrap();
            templates.insert(name, text);
        }
        templates.insert(
            PARTS.to_owned(),
            include_str!("../../templates/sheets/parts.md").to_owned(),
        );
        templates
    }

    #[test]
    fn every_template_is_proven() {
        if let Err(problems) = Engine::new(&built_in()) {
            panic!("{}", crate::diag::report(&problems));
        }
    }

    #[test]
    fn leaves_one_empty_line_at_most() {
        assert_eq!(tidy("\n\n# A  \n\n\nb\n\n"), "# A\n\nb\n");
    }
}
