//! The papers of a season as a whole, and what a departure's manifest keeps for them.

use super::kinds::{Job, Packet};
use super::lines::{self, Line};
use super::press::{MORE_PAGES, Press};
use crate::compose::{
    self,
    catalogue::{self, text},
    season::Row,
};
use crate::diag::Outcome;
use crate::doc::{Figure, Paper};
use crate::markdown;
use crate::nouns::Trip;
use crate::phrase::phrase;
use crate::render::{html, pdf};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The name of this in a manifest; it stands under the stem of the bound packet.
const SECTION: &str = "season";

/// The stem of the slip that tells what changed.
const SLIP: &str = "change-slip";

/// What the manifest of a departure's packet keeps for its season.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Kept {
    /// The table that it came from.
    pub table: String,
    /// All that its files were made from, as a digest.
    pub made_from: String,
    /// What the season's papers say of it.
    pub row: Row,
}

impl Kept {
    /// What a manifest says by sheet, read back; none where it is no packet of a season.
    #[must_use]
    pub fn of(said: &BTreeMap<String, BTreeMap<String, Value>>) -> Option<Self> {
        let value = said.get(SECTION)?.get(super::book::STEM)?;
        serde_json::from_value(value.clone()).ok()
    }

    /// Adds itself to what a manifest says by sheet.
    pub fn add_to(&self, said: &mut BTreeMap<String, BTreeMap<String, Value>>) {
        // texts and numbers, which always become JSON
        let value = serde_json::to_value(self).unwrap_or_default();
        let section = BTreeMap::from([(super::book::STEM.to_owned(), value)]);
        said.insert(SECTION.to_owned(), section);
    }
}

impl Packet {
    /// Its row under a departure's name, with the sides of its bound packet.
    #[must_use]
    pub fn row_of(&self, departure: &str) -> Row {
        let sides = self
            .lines
            .get(super::book::STEM)
            .and_then(|line| line.pages);
        Row {
            name: departure.to_owned(),
            sides: sides.unwrap_or(0),
            ..self.row.clone()
        }
    }
}

impl Press {
    /// A digest of all that a trip's files are made from: equal ones need not be made again.
    #[must_use]
    pub fn made_from(&self, trip: &Trip, job: &Job) -> String {
        let formats: Vec<&str> = job.formats.iter().map(|format| format.ending()).collect();
        let asked = format!(
            "{} {:?} {:?}",
            formats.join(" "),
            job.bundle,
            job.options.only
        );
        self.digest_of(&format!(
            "{} {} {asked}",
            trip.slug,
            super::revision::meant(trip, job)
        ))
    }

    /// A digest of a text with this content and program.
    #[must_use]
    pub fn mark(&self, text: &str) -> String {
        self.digest_of(text)
    }

    /// A paper of the season as PDF and page: its pages and bytes, and the page.
    ///
    /// # Errors
    /// A bug: text of ours that is not in the allowed Markdown.
    pub fn paper(&self, name: &str, text: &str) -> Outcome<(pdf::Pdf, Vec<u8>)> {
        let edition = self.library.edition.to_string();
        let foot = self.speaking(|| catalogue::text(&phrase!("foot-content", edition = edition)));
        let style = compose::sheets::plain_style();
        let mut document = markdown::read(name, text, &BTreeMap::new(), style, &foot)?;
        document.words = Arc::clone(&self.words);
        let (file, _) = pdf::pdf_or_longer(&document, &self.faces, MORE_PAGES)?;
        Ok((file, html::html(&document, &self.shell)?))
    }

    /// Adds the slip that tells what changed since the packet that lay there before.
    ///
    /// # Errors
    /// As [`Press::paper`].
    pub fn slip(&self, packet: &mut Packet, old: &Row, new: &Row) -> Outcome<()> {
        self.speaking(|| self.slip_spoken(packet, old, new))
    }

    fn slip_spoken(&self, packet: &mut Packet, old: &Row, new: &Row) -> Outcome<()> {
        let (file, _) = self.paper(SLIP, &compose::season::slip(old, new))?;
        let line = Line {
            sheet: SLIP.to_owned(),
            title: text(&phrase!("slip")),
            folder: String::new(),
            about: text(&phrase!("slip-about")),
            copies: 1,
            copies_for: String::new(),
            pages: Some(file.pages),
            leaves: Some(file.pages.div_ceil(2)),
            print: text(&phrase!("print-both-sides")),
            paper: lines::paper(packet.front.paper),
            formats: BTreeMap::from([("pdf".to_owned(), new.revision.clone())]),
        };
        packet.files.push((line.file(SLIP, "pdf"), file.bytes));
        packet.lines.insert(SLIP.to_owned(), line);
        Ok(())
    }

    /// Pages of figures alone, each at its place on the paper.
    ///
    /// # Errors
    /// As [`pdf::figures`].
    pub fn figures(&self, title: &str, paper: Paper, pages: &[Vec<Figure>]) -> Outcome<pdf::Pdf> {
        pdf::figures(title, paper, pages, &self.faces, &self.words)
    }

    /// The page of a season.
    ///
    /// # Errors
    /// When the page shell fails on it.
    pub fn season_page(&self, page: &html::SeasonPage) -> Outcome<Vec<u8>> {
        html::season(page, &self.shell)
    }
}
