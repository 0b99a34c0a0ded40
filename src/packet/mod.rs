//! One trip through every stage, in memory: what the commands and the page call.
//!
//! [`Press::packet`] is the whole story: a trip as written is checked, planned, composed and
//! drawn, and comes out as the files of its packet. Nothing here reads a disk, writes to one
//! or prints; what is read once for every trip is the [`Press`].
//!
//! ```
//! use leeside::packet::{Format, Job, Press};
//! use leeside::{compose, load, ready};
//!
//! let ready = ready::library(&[]).expect("the built-in library is sound");
//! let press = Press::new(&ready.assets, ready.library, ready.digest).expect("so are its templates");
//! let text = "
//! title: Two nights by the tarn
//! people:
//!   learners: 4
//! stove: white gas
//! water_treatment: filter
//! camps:
//!   - name: Tarn
//!     nights: 2
//!     elevation: 1800 m
//! ";
//! let trip = load::text("tarn.yaml", text).expect("it is YAML");
//! let job = Job {
//!     formats: vec![Format::Md],
//!     options: compose::Options {
//!         only: vec!["kitchen-checklist".to_owned()],
//!         ..compose::Options::default()
//!     },
//!     ..Job::default()
//! };
//! let packet = press.packet(&trip, &job).expect("nothing is wrong in it");
//! assert_eq!(packet.slug, "tarn");
//! let card = packet.files.iter().find(|(path, _)| path.ends_with("kitchen-checklist.md"));
//! assert!(card.is_some_and(|(_, text)| !text.is_empty()));
//! ```

mod beside;
mod book;
mod format;
mod handed;
mod index;
mod kinds;
mod lines;
mod press;
mod revision;
mod season;

use crate::check;
use crate::compose::{self, Sheet, catalogue::text, season::Row, sheets::Folder};
use crate::course::practice::Practice;
use crate::course::timetable;
use crate::diag::{Outcome, Problem, Severity, told};
use crate::doc;
use crate::load::Written;
use crate::nouns::{Id, Trip};
use crate::phrase::phrase;
use crate::plan::{self, Plan};
use crate::render::{docx, html, pdf};
use rayon::prelude::*;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use lines::{LEARN, path};
use press::MORE_PAGES;

pub use format::Format;
pub use handed::Handed;
pub use kinds::{Front, Job, Packet};
pub use lines::{Line, Lines};
pub use press::Press;
pub use season::Kept;

impl Press {
    /// From a trip as written to every file of its packet.
    ///
    /// # Errors
    /// Every problem of the trip, or whatever stands in the way of any sheet, each with its
    /// place in the file; then there is no packet.
    pub fn packet(&self, written: &Written, job: &Job) -> Outcome<Packet> {
        let (trip, warnings) = self.trip(written)?;
        let others = match &self.other {
            Some(other) => other.twins(written, job)?,
            None => Vec::new(),
        };
        let packet = self.print_beside(&trip, job, others).map_err(|problems| {
            let located = problems.into_iter().map(|one| written.locate(one));
            located.collect::<Vec<_>>()
        })?;
        Ok(Packet {
            warnings: warnings.into_iter().chain(packet.warnings).collect(),
            ..packet
        })
    }

    /// A trip as meant, and what deserves a look in it.
    ///
    /// # Errors
    /// Every problem of the trip.
    pub fn trip(&self, written: &Written) -> Outcome<(Trip, Vec<Problem>)> {
        check::trip(written, &self.library)
    }

    /// From a trip as meant to every file of its packet.
    ///
    /// # Errors
    /// Whatever stands in the way of any sheet; then there is no packet.
    pub fn print(&self, trip: &Trip, job: &Job) -> Outcome<Packet> {
        self.print_beside(trip, job, Vec::new())
    }

    fn print_beside(&self, trip: &Trip, job: &Job, others: Vec<Sheet>) -> Outcome<Packet> {
        let plan = self.planned(trip, &job.options.only)?;
        self.speaking(|| self.spoken(trip, &plan, job, others))
    }

    /// The plan that some sheets are made from.
    pub(super) fn planned(&self, trip: &Trip, only: &[String]) -> Outcome<Plan> {
        let plan = if compose::compares(only)? {
            plan::plan(trip, &self.library)?
        } else {
            plan::plan_of_own_stoves(trip, &self.library)?
        };
        timetable::with_practice(trip, &self.library, plan)
    }

    /// The packet of a plan, in the language that is spoken, with sheets of another beside it.
    fn spoken(&self, trip: &Trip, plan: &Plan, job: &Job, others: Vec<Sheet>) -> Outcome<Packet> {
        let revision = self.revision(trip, job);
        let options = compose::Options {
            revision: Some(revision.clone()),
            ..job.options.clone()
        };
        let sheets = compose::compose(trip, plan, &self.library, &self.engine, &options)?;
        let sheets = self.set_beside(sheets, others);
        let units = options.units.unwrap_or(trip.units);
        let facts = compose::front::facts(trip, plan, units);
        let row = Row {
            revision: revision.clone(),
            ..compose::season::row(&trip.slug, trip, plan, &facts)
        };
        let front = self.front(&trip.title, facts, revision);
        let mut packet = self.bound(&trip.slug, front, sheets, job)?;
        if job.options.only.is_empty() {
            self.learn(&mut packet, trip, plan, job, &[])?;
        }
        let row = Row {
            sheets: std::mem::take(&mut packet.row.sheets),
            ..row
        };
        Ok(Packet { row, ..packet })
    }

    /// Lays the page to learn from beside the sheets of a packet, where pages are made and
    /// something is checked: all of it, or of some subjects only.
    fn learn(
        &self,
        packet: &mut Packet,
        trip: &Trip,
        plan: &Plan,
        job: &Job,
        only: &[Id],
    ) -> Outcome<()> {
        if !job.formats.contains(&Format::Html) {
            return Ok(());
        }
        let Some(mut page) = compose::learn(trip, plan, &self.library, &job.options)? else {
            return Ok(());
        };
        page.subjects
            .retain(|subject| only.is_empty() || only.contains(&subject.id));
        if page.subjects.is_empty() {
            return Ok(());
        }
        let line = Line::on_screen(&page.title, packet.front.paper, &packet.front.revision);
        let page = html::learn(&page, packet.front.paper, &self.shell)?;
        packet
            .files
            .push((line.file(LEARN, Format::Html.ending()), page));
        packet.lines.insert(LEARN.to_owned(), line);
        Ok(())
    }

    /// Makes every file of a practice sheet and its key; `command` makes both again. With a trip or
    /// lesson, the page to learn its subjects from, or `only` some of them, lies beside them.
    ///
    /// # Errors
    /// Whatever stands in the way of either sheet or of the page; then there is no packet.
    pub fn practice(
        &self,
        set: &Practice,
        slug: &str,
        job: &Job,
        command: &str,
        about: Option<&Trip>,
        only: &[Id],
    ) -> Outcome<Packet> {
        let (library, engine) = (&self.library, &self.engine);
        let sheets = self.speaking(|| {
            compose::practice::practice(set, library, engine, &job.options, command)
        })?;
        let made_from = about.map_or_else(
            || command.to_owned(),
            |trip| format!("{command} {}", self.revision(trip, job)),
        );
        let plan = about.map(|trip| plan::plan_of_own_stoves(trip, &self.library));
        let plan = plan.transpose()?;
        self.speaking(|| {
            let title = text(&phrase!("practice-title"));
            let front = self.front(&title, Vec::new(), self.revision_of(&made_from));
            let mut packet = self.bound(slug, front, sheets, job)?;
            if let (Some(trip), Some(plan)) = (about, &plan) {
                self.learn(&mut packet, trip, plan, job, only)?;
            }
            Ok(packet)
        })
    }

    fn front(&self, title: &str, facts: Vec<(String, String)>, revision: String) -> Front {
        Front {
            title: title.to_owned(),
            facts,
            standing_line: self.library.standing_line.trim().to_owned(),
            foot: text(&phrase!(
                "foot-revision",
                edition = self.library.edition.to_string(),
                revision = revision
            )),
            revision,
            paper: doc::Paper::Letter,
        }
    }

    /// Draws sheets in every format.
    fn bound(
        &self,
        slug: &str,
        front: Front,
        mut sheets: Vec<Sheet>,
        job: &Job,
    ) -> Outcome<Packet> {
        for sheet in &mut sheets {
            sheet.document.words = Arc::clone(&self.words);
        }
        let sheets = sheets.as_slice();
        let drawn: Vec<Outcome<Drawn>> = sheets
            .par_iter()
            .map(|sheet| self.draw(sheet, &job.formats))
            .collect();
        let mut files = Vec::new();
        let mut warnings = Vec::new();
        let mut problems = Vec::new();
        let mut lines = Lines::new();
        let mut says = BTreeMap::new();
        for (sheet, outcome) in sheets.iter().zip(drawn) {
            match outcome {
                Ok(drawn) => {
                    let line = Line::of(sheet, drawn.pages, &job.formats, &front.revision);
                    lines.insert(sheet.file_stem(), line);
                    says.insert(sheet.file_stem(), said(sheet));
                    files.extend(drawn.files);
                    warnings.extend(drawn.warnings);
                }
                Err(more) => problems.extend(more),
            }
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut row = Row::default();
        if let Some(bundle) = job.bundle {
            let book = book::bound(&front.title, bundle, sheets, &files, &lines)?;
            if let Some((line, bytes, kept)) = book {
                row.sheets = kept;
                files.push((line.file(book::STEM, Format::Pdf.ending()), bytes));
                lines.insert(book::STEM.to_owned(), line);
            }
        }
        let paper = sheets
            .first()
            .map_or(doc::Paper::Letter, |sheet| sheet.style.paper);
        Ok(Packet {
            slug: slug.to_owned(),
            about: vec![
                ("title".to_owned(), front.title.clone()),
                ("edition".to_owned(), self.library.edition.to_string()),
                ("revision".to_owned(), front.revision.clone()),
            ],
            files,
            lines,
            says,
            gone: BTreeSet::new(),
            front: Front { paper, ..front },
            row,
            warnings: told_once(warnings),
        })
    }

    /// Adds the pages that lead through a packet, beside what lies in its folder already: what
    /// its manifest says by sheet, and which of its files are there.
    ///
    /// # Errors
    /// When the page shell fails on one.
    pub fn indexed(
        &self,
        packet: Packet,
        said: &BTreeMap<String, BTreeMap<String, Value>>,
        files: &BTreeSet<String>,
    ) -> Outcome<Packet> {
        let (lines, gone) = lines::beside(&packet.lines, said.get(lines::SECTION), files);
        let mut packet = Packet {
            lines,
            gone,
            ..packet
        };
        let pages = self.speaking(|| self.indexes(&packet))?;
        packet.files.extend(pages);
        packet.files.sort_by(|(a, _), (b, _)| a.cmp(b));
        Ok(packet)
    }

    /// The pages that lead through a packet, in the language that is spoken.
    fn indexes(&self, packet: &Packet) -> Outcome<Vec<(String, Vec<u8>)>> {
        let front = index::front(&packet.front, &packet.lines);
        let name = index::NAME;
        let mut files = vec![(name.to_owned(), html::index(&front, &self.shell)?)];
        for folder in [Folder::Learners, Folder::Staff] {
            if let Some(page) = index::folder(&packet.front, folder, &packet.lines) {
                let path = format!("{}/{name}", folder.word());
                files.push((path, html::index(&page, &self.shell)?));
            }
        }
        Ok(files)
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
                Format::Html => html::html_with(&sheet.document, &sheet.workings, &self.shell)?,
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
                message: told!(
                    "{message}; it is written with {pages}",
                    message = problem.message,
                    pages = file.pages
                ),
                ..problem
            });
        }
        Ok(file)
    }
}

/// What a sheet says: each id and its words once.
fn said(sheet: &Sheet) -> Value {
    let mut seen = BTreeSet::new();
    let says = sheet.document.sayings().into_iter();
    says.filter(|one| seen.insert((one.of.clone(), one.words.clone())))
        .map(|one| json!({"id": one.of, "text": one.words, "si": one.si}))
        .collect()
}

impl Packet {
    /// What its manifest says by sheet.
    #[must_use]
    pub fn sections(&self) -> BTreeMap<String, BTreeMap<String, Value>> {
        let lines = self.lines.iter().map(|(stem, line)| {
            // a line is texts and numbers, which always become JSON
            (stem.clone(), serde_json::to_value(line).unwrap_or_default())
        });
        BTreeMap::from([
            (lines::SECTION.to_owned(), lines.collect()),
            ("says".to_owned(), self.says.clone()),
        ])
    }
}

/// The title stands on every sheet: a letter that the print lacks is told of once, not for each.
fn told_once(warnings: Vec<Problem>) -> Vec<Problem> {
    let mut told = BTreeSet::new();
    warnings
        .into_iter()
        .filter(|one| {
            let what = one.message.to_string();
            let what = what.split(", used in").next().unwrap_or_default();
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
