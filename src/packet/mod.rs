//! One trip through every stage, in memory: what the commands and the page call.
//!
//! [`Press::packet`] is the whole story: a trip as written is checked, planned, composed and
//! drawn, and comes out as the files of its packet. Nothing here reads a disk, writes to one
//! or prints; what is read once for every trip is the [`Press`].

mod index;
mod press;

use crate::check;
use crate::compose::{self, Sheet, sheets::Folder};
use crate::course::practice::Practice;
use crate::diag::{Outcome, Problem, Severity};
use crate::load::Written;
use crate::nouns::Trip;
use crate::plan;
use crate::render::{docx, html, pdf};
use rayon::prelude::*;
use std::collections::BTreeSet;

pub use press::Press;

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
pub struct Packet {
    /// The name of its folder.
    pub slug: String,
    /// What its manifest says of it as a whole, in this order: `("title", "..")`.
    pub about: Vec<(String, String)>,
    /// Each file: its path inside the packet with `/` between folders, and its bytes.
    pub files: Vec<(String, Vec<u8>)>,
    /// The print guide.
    pub guide: Vec<GuideLine>,
    /// What deserves a look.
    pub warnings: Vec<Problem>,
}

impl Press {
    /// From a trip as written to every file of its packet.
    ///
    /// # Errors
    /// Every problem of the trip, or whatever stands in the way of any sheet, each with its
    /// place in the file; then there is no packet.
    pub fn packet(&self, written: &Written, job: &Job) -> Outcome<Packet> {
        let (trip, warnings) = check::trip(written, &self.library)?;
        let packet = self.print(&trip, job).map_err(|problems| {
            let located = problems.into_iter().map(|one| written.locate(one));
            located.collect::<Vec<_>>()
        })?;
        Ok(Packet {
            warnings: warnings.into_iter().chain(packet.warnings).collect(),
            ..packet
        })
    }

    /// From a trip as meant to every file of its packet.
    ///
    /// # Errors
    /// Whatever stands in the way of any sheet; then there is no packet.
    pub fn print(&self, trip: &Trip, job: &Job) -> Outcome<Packet> {
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
    ) -> Outcome<Packet> {
        let sheets =
            compose::practice::practice(set, &self.library, &self.engine, &job.options, command)?;
        self.bound(slug, "Practice", &sheets, job)
    }

    /// Draws sheets in every format and puts an index page on each folder.
    fn bound(&self, slug: &str, title: &str, sheets: &[Sheet], job: &Job) -> Outcome<Packet> {
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
                let index = index::page(title, &self.library, folder, &here, &job.formats);
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
        Ok(Packet {
            slug: slug.to_owned(),
            about: vec![
                ("title".to_owned(), title.to_owned()),
                ("edition".to_owned(), self.library.edition.to_string()),
            ],
            files,
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

fn path(sheet: &Sheet, format: Format) -> String {
    format!(
        "{}/{}.{}",
        sheet.folder.word(),
        sheet.file_stem(),
        format.ending()
    )
}
