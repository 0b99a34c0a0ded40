//! Sheets in two languages beside each other: briefing and kitchen card, which people of both read
//! in a hurry.

use super::kinds::Job;
use super::press::Press;
use crate::compose::catalogue::text;
use crate::compose::{self, Sheet};
use crate::diag::Outcome;
use crate::load::Written;
use crate::phrase::phrase;
use std::sync::Arc;

/// The sheets that have both languages.
const SHEETS: [&str; 2] = ["briefing-sheet", "kitchen-checklist"];

impl Press {
    /// The sheets in this language that stand beside those in another.
    pub(super) fn twins(&self, written: &Written, job: &Job) -> Outcome<Vec<Sheet>> {
        let asked = compose::wanted(&job.options.only)?;
        let only: Vec<String> = SHEETS
            .into_iter()
            .filter(|name| asked.iter().any(|row| row.name == *name))
            .map(str::to_owned)
            .collect();
        if only.is_empty() {
            return Ok(Vec::new());
        }
        let (trip, _) = self.trip(written)?;
        let plan = self.planned(&trip, &only)?;
        let options = compose::Options {
            only,
            ..job.options.clone()
        };
        self.speaking(|| compose::compose(&trip, &plan, &self.library, &self.engine, &options))
    }

    /// Sheets with those of the same name in another language beside them.
    pub(super) fn set_beside(&self, sheets: Vec<Sheet>, mut others: Vec<Sheet>) -> Vec<Sheet> {
        let Some(other) = &self.other else {
            return sheets;
        };
        let with = |mut sheet: Sheet| {
            let stem = sheet.file_stem();
            let Some(at) = others.iter().position(|one| one.file_stem() == stem) else {
                return sheet;
            };
            let mut twin = others.swap_remove(at);
            sheet.document.words = Arc::clone(&self.words);
            twin.document.words = Arc::clone(&other.words);
            sheet.document = sheet.document.beside(twin.document);
            sheet.style = sheet.document.style.clone();
            sheet.print = text(&phrase!("print-both-sides"));
            sheet.markdown = format!("{}\n\n{}", sheet.markdown.trim_end(), twin.markdown);
            sheet
        };
        sheets.into_iter().map(with).collect()
    }
}
