//! From a trip to the files of its packet: plan, compose, render.

use crate::compose::{self, Engine, Sheet, sheets::Folder};
use crate::course::practice::Practice;
use crate::diag::{Outcome, Problem, Severity};
use crate::doc;
use crate::load::Assets;
use crate::nouns::{Library, Trip};
use crate::plan;
use crate::render::{docx, html, pdf};
use crate::write::Packet;
use rayon::prelude::*;
use std::borrow::Cow;
use std::collections::BTreeSet;

/// A format of the sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Format {
    /// To print.
    Pdf,
    /// To read on a screen.
    Html,
    /// The composed text itself.
    Md,
    /// For a word processor.
    Docx,
}

impl Format {
    /// The ending of its files.
    #[must_use]
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Html => "html",
            Self::Md => "md",
            Self::Docx => "docx",
        }
    }

    /// What a link to it says.
    const fn link(self) -> &'static str {
        match self {
            Self::Pdf => "PDF, to print",
            Self::Html => "on screen",
            Self::Md => "text",
            Self::Docx => "word processor",
        }
    }
}

/// What to make of each trip.
#[derive(Clone, Debug, Default)]
pub struct Job {
    /// The formats, in order.
    pub formats: Vec<Format>,
    /// Sheets, units, paper, print.
    pub options: compose::Options,
}

/// A line of the print guide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuideLine {
    /// `learners/kitchen-checklist.pdf`.
    pub file: String,
    /// How many copies.
    pub copies: u32,
    /// Sides of paper for each copy; none when no PDF was made.
    pub sides: Option<usize>,
    /// How it is printed.
    pub print: String,
}

/// A packet ready to be written.
pub struct Printed {
    /// The files.
    pub packet: Packet,
    /// The print guide.
    pub guide: Vec<GuideLine>,
    /// What deserves a look.
    pub warnings: Vec<Problem>,
}

/// All that is read once and used for every trip.
pub struct Press {
    library: Library,
    engine: Engine,
    faces: pdf::Faces,
    shell: html::Shell,
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
    /// page shell.
    ///
    /// # Errors
    /// Every problem of templates, fonts and shell.
    pub fn new(assets: &Assets, library: Library) -> Outcome<Self> {
        Ok(Self {
            library,
            engine: engine(assets)?,
            faces: faces(assets)?,
            shell: shell(assets)?,
        })
    }

    /// The library that it prints from.
    #[must_use]
    pub const fn library(&self) -> &Library {
        &self.library
    }

    /// Makes every file of a trip's packet.
    ///
    /// # Errors
    /// Whatever stands in the way of any sheet; then there is no packet.
    pub fn print(&self, trip: &Trip, job: &Job) -> Outcome<Printed> {
        let plan = if compose::compares(&job.options.only)? {
            plan::plan(trip, &self.library)?
        } else {
            plan::plan_of_own_stoves(trip, &self.library)?
        };
        let sheets = compose::compose(trip, &plan, &self.library, &self.engine, &job.options)?;
        self.bound(&trip.slug, &trip.title, &sheets, job)
    }

    /// Makes every file of a practice sheet and its key; `command` makes both again.
    ///
    /// # Errors
    /// Whatever stands in the way of either sheet; then there is no packet.
    pub fn practice(
        &self,
        set: &Practice,
        slug: &str,
        job: &Job,
        command: &str,
    ) -> Outcome<Printed> {
        let sheets =
            compose::practice::practice(set, &self.library, &self.engine, &job.options, command)?;
        self.bound(slug, "Practice", &sheets, job)
    }

    /// Draws sheets in every format and puts an index page on each folder.
    fn bound(&self, slug: &str, title: &str, sheets: &[Sheet], job: &Job) -> Outcome<Printed> {
        let drawn: Vec<Outcome<Drawn>> = sheets
            .par_iter()
            .map(|sheet| self.draw(sheet, &job.formats))
            .collect();
        let mut files = Vec::new();
        let mut warnings = Vec::new();
        let mut problems = Vec::new();
        let mut pages = Vec::new();
        for outcome in drawn {
            match outcome {
                Ok(drawn) => {
                    files.extend(drawn.files);
                    warnings.extend(drawn.warnings);
                    pages.push(drawn.pages);
                }
                Err(more) => problems.extend(more),
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        for folder in [Folder::Learners, Folder::Staff] {
            let here: Vec<(&Sheet, Option<usize>)> = sheets
                .iter()
                .zip(pages.iter().copied())
                .filter(|(sheet, _)| sheet.folder == folder)
                .collect();
            if !here.is_empty() {
                let index = index(title, &self.library, folder, &here, &job.formats);
                files.push((
                    format!("{}/index.html", folder.word()),
                    html::index(&index, &self.shell)?,
                ));
            }
        }
        let guide = sheets
            .iter()
            .zip(&pages)
            .map(|(sheet, pages)| GuideLine {
                file: path(sheet, job.formats.first().copied().unwrap_or(Format::Pdf)),
                copies: sheet.copies,
                sides: *pages,
                print: how_to_print(&sheet.print, *pages),
            })
            .collect();
        files.sort_by(|(a, _), (b, _)| a.cmp(b));
        let warnings = told_once(warnings);
        Ok(Printed {
            packet: Packet {
                slug: slug.to_owned(),
                about: vec![
                    ("title".to_owned(), title.to_owned()),
                    ("edition".to_owned(), self.library.edition.to_string()),
                ],
                files,
            },
            guide,
            warnings,
        })
    }

    /// One sheet in every format.
    fn draw(&self, sheet: &Sheet, formats: &[Format]) -> Outcome<Drawn> {
        let mut drawn = Drawn::default();
        for format in formats {
            let bytes = match format {
                Format::Pdf => {
                    let file = self.pdf(sheet, &mut drawn.warnings)?;
                    drawn.pages = Some(file.pages);
                    drawn.warnings.extend(file.warnings);
                    file.bytes
                }
                Format::Html => html::html(&sheet.document, &self.shell)?,
                Format::Md => sheet.markdown.clone().into_bytes(),
                Format::Docx => docx::docx(&sheet.document)?,
            };
            drawn.files.push((path(sheet, *format), bytes));
        }
        Ok(drawn)
    }

    /// The PDF. A sheet that cannot be held to its pages gets more of them, and a
    /// warning: a long trip's paper is better long than missing.
    fn pdf(&self, sheet: &Sheet, warnings: &mut Vec<Problem>) -> Outcome<pdf::Pdf> {
        let (file, too_long) = pdf::pdf_or_longer(&sheet.document, &self.faces, MORE_PAGES)?;
        let good = sheet.style.still_good_pages;
        if let Some(problem) = too_long
            && good.is_none_or(|good| file.pages > good)
        {
            warnings.push(Problem {
                severity: Severity::Warning,
                message: format!("{}; it is written with {}", problem.message, file.pages),
                ..problem
            });
        }
        Ok(file)
    }
}

/// A sheet is still tightened to have only so many pages more than it should.
const MORE_PAGES: usize = 4;

/// The sheets' templates; those that are laid over the built-in ones are proven.
fn engine(assets: &Assets) -> Outcome<Engine> {
    let templates = assets
        .templates
        .iter()
        .map(|(name, source)| (name.clone(), source.text.to_string()))
        .collect();
    if assets.templates_built_in() {
        Engine::proven(&templates)
    } else {
        Engine::new(&templates)
    }
}

/// The faces that a PDF is set in.
fn faces(assets: &Assets) -> Outcome<pdf::Faces> {
    let [regular, bold, italic, bold_italic] = FACES.map(|name| font(assets, name));
    pdf::Faces::new(regular?, bold?, italic?, bold_italic?)
}

/// What every HTML page stands in.
fn shell(assets: &Assets) -> Outcome<html::Shell> {
    let page = |name: &str| {
        assets
            .templates
            .get(name)
            .map(|source| source.text.to_string())
            .ok_or_else(|| missing(name))
    };
    let (shell, style) = (page("page/shell.html")?, page("page/page.css")?);
    let (script, cards) = (page("page/page.js")?, page("page/cards.js")?);
    html::Shell::new(html::ShellFiles {
        page: &shell,
        style: &style,
        script: &script,
        cards: &cards,
    })
}

/// How a sheet is printed: what fits on a leaf in the usual print may take more in large print.
fn how_to_print(print: &str, pages: Option<usize>) -> String {
    if pages > Some(2) && print.contains("one leaf") {
        "both sides".to_owned()
    } else {
        print.to_owned()
    }
}

/// The title stands on every sheet: a letter that the print lacks is told of once, not for each.
fn told_once(warnings: Vec<Problem>) -> Vec<Problem> {
    let mut told = BTreeSet::new();
    warnings
        .into_iter()
        .filter(|one| {
            let what = one.message.split(", used in").next().unwrap_or_default();
            one.code != "render.character" || told.insert(what.to_owned())
        })
        .collect()
}

/// One sheet's files.
#[derive(Default)]
struct Drawn {
    files: Vec<(String, Vec<u8>)>,
    pages: Option<usize>,
    warnings: Vec<Problem>,
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
            format!("there is no file `{name}` among the templates"),
            "put it back, or run `leeside unpack` for a fresh copy",
        )
        .in_file(format!("templates/{name}")),
    ]
}

fn path(sheet: &Sheet, format: Format) -> String {
    format!(
        "{}/{}.{}",
        sheet.folder.word(),
        sheet.file_stem(),
        format.ending()
    )
}

/// The index page of a folder, with its print guide.
fn index(
    title_of_all: &str,
    library: &Library,
    folder: Folder,
    sheets: &[(&Sheet, Option<usize>)],
    formats: &[Format],
) -> html::IndexPage {
    let paper = sheets
        .first()
        .map_or(doc::Paper::Letter, |(sheet, _)| sheet.style.paper);
    let paper_words = match paper {
        doc::Paper::Letter => "letter",
        doc::Paper::A4 => "A4",
    };
    let (title, note) = match folder {
        Folder::Learners => (
            "for learners",
            "Sheets to hand out. Keys lie with the staff.",
        ),
        Folder::Staff => (
            "for staff",
            "Keys, plans and records: keep this folder away from learners.",
        ),
    };
    let lines = sheets
        .iter()
        .map(|(sheet, pages)| {
            let sides = pages.map_or_else(
                || sheet.print.clone(),
                |pages| {
                    format!(
                        "{}; {}",
                        compose::words::count(
                            u32::try_from(pages).unwrap_or(u32::MAX),
                            "side",
                            "sides"
                        ),
                        how_to_print(&sheet.print, Some(pages))
                    )
                },
            );
            html::IndexSheet {
                title: sheet.kitchen.as_ref().map_or_else(
                    || sheet.title.clone(),
                    |kitchen| format!("{}: {kitchen}", sheet.title),
                ),
                about: sheet.about.clone(),
                links: formats
                    .iter()
                    .map(|format| {
                        (
                            format.link().to_owned(),
                            format!("{}.{}", sheet.file_stem(), format.ending()),
                        )
                    })
                    .collect(),
                copies: Some(sheet.copies),
                copies_for: sheet.copies_for.clone(),
                sides,
                paper: paper_words.to_owned(),
            }
        })
        .collect();
    html::IndexPage {
        title: format!("{title_of_all}: {title}"),
        notes: vec![note.to_owned(), library.standing_line.trim().to_owned()],
        groups: vec![html::IndexGroup {
            title: "Sheets and how to print them".to_owned(),
            sheets: lines,
        }],
        foot: format!("Content of {}.", library.edition),
        paper,
    }
}
