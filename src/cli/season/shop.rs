//! The packets of a season bound for the print shop: a file a day, a file a week.

use super::Run;
use crate::compose::catalogue::text;
use crate::compose::season::Listed;
use crate::compose::shop::{self, By, Volume};
use crate::diag::Outcome;
use crate::load;
use crate::phrase::phrase;
use crate::render::pdf::{self, Part};
use crate::season;
use crate::write;
use clap::ValueEnum;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::PathBuf;

/// What one file for the print shop holds, on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PrintBy {
    /// A day's departures
    Day,
    /// A week's departures, from Monday
    Week,
    /// A file a day, and a file a week
    Both,
    /// No such files
    None,
}

impl PrintBy {
    const fn wants(self, by: By) -> bool {
        matches!(
            (self, by),
            (Self::Both, _) | (Self::Day, By::Day) | (Self::Week, By::Week)
        )
    }
}

/// The files of one kind, by name without ending, with what the season's manifest says of each.
type Files = BTreeMap<String, Value>;

/// The files that lie there, by the folder that they lie in.
pub(super) type Shop = BTreeMap<String, Files>;

/// A sheet or leaf on its way into a file.
struct Bound {
    title: String,
    bytes: Vec<u8>,
    empty_backs: Vec<usize>,
    under: bool,
}

impl Run<'_> {
    /// Binds what is asked for and is not bound yet from the same packets; files of before that
    /// are no longer true are moved aside. Gives back what lies there then.
    pub(super) fn bind(&self, listed: &[Listed<'_>]) -> Outcome<Shop> {
        let mut before = self.place.sections("season")?;
        let mut shop = Shop::new();
        for by in By::BOTH {
            let old = before.remove(by.folder()).unwrap_or_default();
            let files = self.bind_by(by, listed, &old)?;
            for stem in old.keys().filter(|stem| !files.contains_key(*stem)) {
                self.place.withdraw_file(&file(by, stem))?;
            }
            shop.insert(by.folder().to_owned(), files);
        }
        Ok(shop)
    }

    fn bind_by(&self, by: By, listed: &[Listed<'_>], old: &Files) -> Outcome<Files> {
        let mut files = Files::new();
        // one after the other: a file being bound is most of what a run holds
        for volume in shop::volumes(listed, by) {
            if let Some(kept) = self.volume(by, &volume, old.get(&volume.stem))? {
                files.insert(volume.stem, kept);
            }
        }
        Ok(files)
    }

    /// Binds one file, where it is asked for and does not lie there already as it would be.
    fn volume(
        &self,
        by: By,
        volume: &Volume<'_, '_>,
        old: Option<&Value>,
    ) -> Outcome<Option<Value>> {
        let said: Vec<String> = volume
            .here
            .iter()
            .map(|one| format!("{:?} {:?}", one.row, one.notes))
            .collect();
        let mark = self
            .press
            .mark(&format!("{} {}", volume.title, said.join("\n")));
        let path = self.out.join(file(by, &volume.stem));
        // by what the file is, not by what was last said of it: a run may have been cut short
        // after it had bound the file
        let lies_there = |old: &&Value| {
            old["made_from"] == mark.as_str()
                && load::bytes(&path).is_ok_and(|bytes| old["sha256"] == write::digest(&bytes))
        };
        if let Some(old) = old.filter(lies_there) {
            return Ok(Some(old.clone()));
        }
        if !self.print_by.wants(by) {
            return Ok(None);
        }
        let held = self.parts(volume)?;
        let parts: Vec<Part<'_>> = held
            .iter()
            .map(|one| Part {
                title: one.title.clone(),
                bytes: &one.bytes,
                empty_backs: one.empty_backs.clone(),
                under: one.under,
            })
            .collect();
        let title = format!("{}: {}", self.rows.stem, volume.title);
        let bound = pdf::bind(&title, &parts)?;
        write::single(&path, &bound.bytes, true)?;
        Ok(Some(
            json!({"made_from": mark, "sha256": write::digest(&bound.bytes)}),
        ))
    }

    /// Cover, each departure's leaf and sheets, then what comes back.
    fn parts(&self, volume: &Volume<'_, '_>) -> Outcome<Vec<Bound>> {
        let cover = self.leaf(
            &text(&phrase!("shop-packets-of", what = volume.title)),
            &shop::cover(volume),
        )?;
        let mut parts = vec![cover];
        for one in &volume.here {
            parts.push(self.leaf(&one.row.name, &shop::leaf(one))?);
            parts.extend(self.sheets(one, false)?);
        }
        let returning = volume.returning();
        if !returning.is_empty() {
            parts.push(self.leaf(&text(&phrase!("shop-returns")), &shop::returns(volume))?);
        }
        for one in returning {
            parts.extend(self.sheets(one, true)?);
        }
        Ok(parts)
    }

    fn leaf(&self, title: &str, text: &str) -> Outcome<Bound> {
        let (file, _) = self.press.paper("leaf", text)?;
        Ok(Bound {
            title: title.to_owned(),
            bytes: file.bytes,
            empty_backs: Vec::new(),
            under: false,
        })
    }

    /// The sheets of a departure that come back to the store room, or the others.
    fn sheets(&self, one: &Listed<'_>, returns: bool) -> Outcome<Vec<Bound>> {
        let folder = self.out.join(season::slug(&one.row.name));
        let sheets = one.row.sheets.iter();
        let chosen = sheets.filter(|sheet| sheet.returns == returns);
        chosen
            .map(|sheet| {
                let title = if returns {
                    one.row.name.clone()
                } else {
                    sheet.title.clone()
                };
                Ok(Bound {
                    title,
                    bytes: load::bytes(&folder.join(&sheet.file))?,
                    empty_backs: sheet.empty_backs.clone(),
                    under: true,
                })
            })
            .collect()
    }
}

/// A file's place, seen from the out folder.
fn file(by: By, stem: &str) -> PathBuf {
    PathBuf::from(by.folder()).join(format!("{stem}.pdf"))
}
