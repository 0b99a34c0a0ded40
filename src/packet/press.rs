//! What is read once and used for every trip: library, templates, fonts, page shell.

use crate::compose::Engine;
use crate::diag::{Outcome, Problem, Source, Told, nearest, told};
use crate::doc;
use crate::load::{self, Assets};
use crate::nouns::Library;
use crate::render::{html, pdf};
use sha2::{Digest as _, Sha256};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

/// All that is read once and used for every trip.
pub struct Press {
    pub(super) library: Library,
    pub(super) engine: Engine,
    pub(super) faces: pdf::Faces,
    pub(super) shell: html::Shell,
    /// What every page says by itself, in the language of the library.
    pub(super) words: Arc<doc::Words>,
    /// The SHA-256 (FIPS 180-4) of library and templates.
    pub(super) content: [u8; 32],
    /// What prints the language that stands beside this one on some sheets.
    pub(super) other: Option<Box<Press>>,
}

/// The faces of the family, in the order that the PDF wants them.
const FACES: [&str; 4] = [
    "fonts/SourceSans3_400Regular.ttf",
    "fonts/SourceSans3_700Bold.ttf",
    "fonts/SourceSans3_400Regular_Italic.ttf",
    "fonts/SourceSans3_700Bold_Italic.ttf",
];

impl Press {
    /// Reads the templates (proving those that are laid over the built-in ones), fonts and
    /// page shell; `digest` is the library's.
    ///
    /// # Errors
    /// Every problem of templates, fonts and shell.
    pub fn new(assets: &Assets, library: Library, digest: [u8; 32]) -> Outcome<Self> {
        misspelt(assets)?;
        let templates = assets.templates_in(&library.language)?;
        let words = Arc::new(words(&templates, &library.language)?);
        Ok(Self {
            content: content(&templates, digest),
            engine: engine(assets, &templates, &library)?,
            library,
            faces: faces(assets)?,
            shell: shell(&templates, &words)?,
            words,
            other: None,
        })
    }

    /// The same with another language beside its own on the sheets that are read in a hurry by
    /// people of both.
    #[must_use]
    pub fn beside(self, other: Self) -> Self {
        let mut hash = Sha256::new();
        hash.update(self.content);
        hash.update(other.content);
        Self {
            content: hash.finalize().into(),
            other: Some(Box::new(other)),
            ..self
        }
    }

    /// Runs something that speaks the language of its sheets.
    pub fn speaking<T>(&self, run: impl FnOnce() -> T) -> T {
        self.engine.speaking(run)
    }

    /// The library that it prints from.
    #[must_use]
    pub const fn library(&self) -> &Library {
        &self.library
    }
}

/// A template that nothing reads would be lost without a word: one that is laid over the
/// built-in ones has the name of one of them, or is named in another template.
fn misspelt(assets: &Assets) -> Outcome<()> {
    if assets.templates_built_in() {
        return Ok(());
    }
    let known = load::templates();
    let read = |name: &String| {
        // a language of one's own says what the English template of that name says
        let english = load::of_language(name).map_or(name.as_str(), |(_, inside)| inside);
        known.templates.contains_key(english)
            || assets
                .templates
                .values()
                .any(|other| other.text.contains(name.as_str()))
    };
    let unread = assets.templates.iter().filter(|(name, _)| !read(name));
    let problems: Vec<Problem> = unread
        .map(|(name, source)| {
            let near = nearest(name, known.templates.keys().map(String::as_str));
            let help = near.map_or_else(
                || {
                    Told::from(
                        "take it out of the folder; `leeside unpack` shows the names there are",
                    )
                },
                |near| told!("did you mean `templates/{near}`?", near),
            );
            let message = told!("no sheet is made from `templates/{name}`", name);
            Problem::error("template.unknown", message, help).in_file(source.name.clone())
        })
        .collect();
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

/// A digest of all that sheets are made from beside the trip.
fn content(templates: &BTreeMap<String, Source>, library: [u8; 32]) -> [u8; 32] {
    let mut hash = Sha256::new();
    hash.update(library);
    for (name, source) in templates {
        hash.update(name);
        hash.update([0]);
        hash.update(source.text.as_bytes());
        hash.update([0]);
    }
    hash.finalize().into()
}

/// The sheets' templates; those that are laid over the built-in ones are proven.
fn engine(
    assets: &Assets,
    templates: &BTreeMap<String, Source>,
    library: &Library,
) -> Outcome<Engine> {
    let templates = templates
        .iter()
        .map(|(name, source)| (name.clone(), source.text.to_string()))
        .collect();
    let engine = if assets.templates_built_in() {
        Engine::proven(&templates)
    } else {
        Engine::new(&templates)
    };
    engine?.in_language_of(library)
}

/// The faces that a PDF is set in.
fn faces(assets: &Assets) -> Outcome<pdf::Faces> {
    let [regular, bold, italic, bold_italic] = FACES.map(|name| font(assets, name));
    pdf::Faces::new(regular?, bold?, italic?, bold_italic?)
}

/// What pages say by themselves.
fn words(templates: &BTreeMap<String, Source>, language: &str) -> Outcome<doc::Words> {
    let source = templates
        .get(load::WORDS)
        .ok_or_else(|| missing(load::WORDS))?;
    Ok(doc::Words::of(language, load::page_words(source)?))
}

/// What every HTML page stands in.
fn shell(templates: &BTreeMap<String, Source>, words: &Arc<doc::Words>) -> Outcome<html::Shell> {
    let page = |name: &str| {
        templates
            .get(name)
            .map(|source| source.text.to_string())
            .ok_or_else(|| missing(name))
    };
    let (shell, style) = (page("page/shell.html")?, page("page/page.css")?);
    let (script, cards) = (page("page/page.js")?, page("page/cards.js")?);
    let learn = page("page/learn.js")?;
    let season = page("page/season.js")?;
    let files = html::ShellFiles {
        page: &shell,
        style: &style,
        script: &script,
        cards: &cards,
        learn: &learn,
        season: &season,
    };
    html::Shell::new(files, words)
}

/// A font of the assets, for as long as the program runs.
fn font(assets: &Assets, name: &str) -> Outcome<&'static [u8]> {
    match assets.fonts.get(name) {
        Some(Cow::Borrowed(bytes)) => Ok(bytes),
        // Read once a call from an overlay; faces live as long as the process.
        Some(Cow::Owned(bytes)) => Ok(Box::leak(bytes.clone().into_boxed_slice())),
        None => Err(missing(name)),
    }
}

fn missing(name: &str) -> Vec<Problem> {
    vec![
        Problem::error(
            "template.missing",
            told!("there is no file `{name}` among the templates", name),
            "put it back, or run `leeside unpack` for a fresh copy",
        )
        .in_file(format!("templates/{name}")),
    ]
}

/// A sheet is still tightened to have only so many pages more than it should.
pub(super) const MORE_PAGES: usize = 4;
