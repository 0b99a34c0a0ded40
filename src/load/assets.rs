//! What is compiled in, with a folder laid over it.

use super::disk::{files_below, read, read_bytes, shown};
use super::language::{self, ENGLISH, WORDS};
use super::picture;
use crate::diag::{Outcome, Problem, Source, Told, told};
use include_dir::{Dir, include_dir};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

pub(super) static CONTENT: Dir<'_> = embedded!(include_dir!("$CARGO_MANIFEST_DIR/content"));
static TEMPLATES: Dir<'_> = embedded!(include_dir!("$CARGO_MANIFEST_DIR/templates"));

/// How the names of compiled-in files begin.
pub const BUILT_IN: &str = "built-in:";

/// Content, templates and fonts by their path inside `content/` and `templates/`.
#[derive(Clone, Debug, Default)]
pub struct Assets {
    /// Texts of `content/`: `modules/greywater.yaml`.
    pub content: BTreeMap<String, Source>,
    /// Texts of `templates/`: `lesson-handout.md`, `page.css`.
    pub templates: BTreeMap<String, Source>,
    /// Files of `templates/fonts/` that are fonts.
    pub fonts: BTreeMap<String, Cow<'static, [u8]>>,
    /// Texts that an overlay with `extends` stands on: those of the same path that it hides,
    /// the lowest first.
    pub beneath: BTreeMap<String, Vec<Source>>,
}

impl Assets {
    /// Lays a content file over the one of its path, which stays beneath it.
    pub(super) fn lay(&mut self, path: &str, source: Source) {
        if let Some(hidden) = self.content.insert(path.to_owned(), source) {
            self.beneath
                .entry(path.to_owned())
                .or_default()
                .push(hidden);
        }
    }

    /// The templates of a language by the names of the English ones: `sheets/intake.md` holds
    /// what `es/sheets/intake.md` says. Files that are no words are one for all.
    ///
    /// # Errors
    /// A template that the language does not have, or whose English was laid over alone.
    pub fn templates_in(&self, language: &str) -> Outcome<BTreeMap<String, Source>> {
        let mut texts = BTreeMap::new();
        let mut problems = Vec::new();
        for (name, english) in &self.templates {
            if language::of(name).is_some() {
                continue;
            }
            if language == ENGLISH || !(name.ends_with(".md") || name == WORDS) {
                texts.insert(name.clone(), english.clone());
                continue;
            }
            let own = format!("{language}/{name}");
            let group = |source: &Source| !source.name.starts_with(BUILT_IN);
            let found = self.templates.get(&own);
            match found.filter(|found| !group(english) || group(found)) {
                Some(found) => {
                    texts.insert(name.clone(), found.clone());
                }
                None => problems.push(
                    Problem::error(
                        "language.template",
                        told!("`templates/{name}` has no words in `{language}`", name, language),
                        told!("write `templates/{own}` with the same {what}; no sheet falls back on English", own, what = Told::from(if name == WORDS { "keys" } else { "tags" })),
                    )
                    .in_file(english.name.clone()),
                ),
            }
        }
        if problems.is_empty() {
            Ok(texts)
        } else {
            Err(problems)
        }
    }

    /// Whether every template is a built-in one.
    #[must_use]
    pub fn templates_built_in(&self) -> bool {
        self.templates
            .values()
            .all(|source| source.name.starts_with(BUILT_IN))
    }
}

/// The built-in assets, with the files of folders laid over them, each over the one before. In a
/// folder, `templates/X` replaces a template; every other path (with or
/// without `content/` before it) replaces or adds content.
///
/// # Errors
/// A file or a folder cannot be read.
pub fn assets(overlays: &[PathBuf]) -> Outcome<Assets> {
    let mut assets = templates();
    walk(&CONTENT, &mut |path, bytes| {
        if let Some(source) = built_in("content", path, bytes) {
            assets.content.insert(path.to_owned(), source);
        }
    });
    let mut problems = Vec::new();
    for folder in overlays {
        problems.extend(lay_over(&mut assets, folder).err().unwrap_or_default());
    }
    if problems.is_empty() {
        Ok(assets)
    } else {
        Err(problems)
    }
}

/// The built-in templates and fonts alone, for a run that has its library already.
#[must_use]
pub fn templates() -> Assets {
    let mut assets = Assets::default();
    walk(&TEMPLATES, &mut |path, bytes| {
        if is_font(path) {
            assets.fonts.insert(path.to_owned(), Cow::Borrowed(bytes));
        } else if let Some(source) = built_in("templates", path, bytes) {
            assets.templates.insert(path.to_owned(), source);
        }
    });
    assets
}

/// A built-in template by its path.
pub(super) fn built_in_template(path: &str) -> Option<Source> {
    let file = TEMPLATES.get_file(path)?;
    built_in("templates", path, file.contents())
}

/// The content files of a checkout, under the names they get when they are
/// compiled in.
///
/// # Errors
/// A file or the folder cannot be read.
pub fn assets_built_in(content: &Path) -> Outcome<Assets> {
    let mut assets = Assets::default();
    lay_over(&mut assets, content)?;
    for (path, source) in &mut assets.content {
        source.name = Arc::from(format!("{BUILT_IN}content/{path}"));
    }
    Ok(assets)
}

fn lay_over(assets: &mut Assets, folder: &Path) -> Outcome<()> {
    let mut problems = Vec::new();
    for (relative, path) in files_below(folder)? {
        let template = relative.strip_prefix("templates/");
        if template.is_some_and(is_font) {
            match read_bytes(&path) {
                Ok(bytes) => {
                    let name = template.unwrap_or_default().to_owned();
                    assets.fonts.insert(name, Cow::Owned(bytes));
                }
                Err(more) => problems.extend(more),
            }
            continue;
        }
        let source = match if is_picture(&relative) {
            pictured(&path)
        } else {
            read(&path)
        } {
            Ok(source) => source,
            Err(more) => {
                problems.extend(more);
                continue;
            }
        };
        if let Some(name) = template {
            assets.templates.insert(name.to_owned(), source);
        } else {
            let name = relative.strip_prefix("content/").unwrap_or(&relative);
            assets.lay(name, source);
        }
    }
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

fn walk(dir: &'static Dir<'_>, put: &mut impl FnMut(&'static str, &'static [u8])) {
    for file in dir.files() {
        if let Some(path) = file.path().to_str() {
            put(path, file.contents());
        }
    }
    for folder in dir.dirs() {
        walk(folder, put);
    }
}

pub(super) fn built_in(root: &str, path: &str, bytes: &'static [u8]) -> Option<Source> {
    std::str::from_utf8(bytes).ok().map(|text| Source {
        name: Arc::from(format!("{BUILT_IN}{root}/{path}")),
        text: Arc::from(text),
    })
}

/// A picture as the drawing that is printed of it.
fn pictured(path: &Path) -> Outcome<Source> {
    let name: Arc<str> = Arc::from(shown(path));
    match picture::drawing(&read_bytes(path)?) {
        Ok(text) => Ok(Source {
            name,
            text: Arc::from(text),
        }),
        Err(fault) => {
            let problem = Problem::error("mark.picture", fault.message, fault.help);
            Err(vec![problem.in_file(name)])
        }
    }
}

/// Whether a file may be a group's mark as a picture.
fn is_picture(path: &str) -> bool {
    let path = path.strip_prefix("content/").unwrap_or(path);
    path.starts_with("profiles/") && path.to_lowercase().ends_with(".png")
}

fn is_font(path: &str) -> bool {
    let path = path.to_lowercase();
    path.ends_with(".ttf") || path.ends_with(".otf")
}
