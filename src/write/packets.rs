//! Packets put down: the new files beside those that stay, all or nothing.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::path::{Path, PathBuf};

use rayon::prelude::*;
use serde_json::Value;

use super::manifest::{self, Listed, MANIFEST, Manifest};
use super::{Step, bug, check_paths, check_slug, disk, outcome, place};
use crate::diag::{Outcome, Problem, told};

/// What a manifest says by sheet: a name for what is said (`sheets`, `says`), and under it
/// the sheets by the stem of their files' names.
pub type Sections = BTreeMap<String, BTreeMap<String, Value>>;

/// The papers of one trip, ready to be put down.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Packet {
    /// The name of its folder in the out folder.
    pub slug: String,
    /// What the manifest says of the packet as a whole, in this order, after
    /// its format: `("title", "..")`, `("edition", "..")`.
    pub about: Vec<(String, String)>,
    /// What the manifest says by sheet; sheets that lie there already and are not named keep
    /// what it said of them.
    pub sections: Sections,
    /// Each file: its path inside the packet with `/` between folders, and its
    /// bytes.
    pub files: Vec<(String, Vec<u8>)>,
    /// Sheets, by stem, that the trip no longer has: their files are taken away.
    pub gone: BTreeSet<String>,
}

/// What lies in a packet's folder.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lying {
    /// What its manifest says by sheet.
    pub sections: Sections,
    /// The files of ours that are still there.
    pub files: BTreeSet<String>,
    /// Those of them that someone has changed since.
    pub edited: BTreeSet<String>,
}

/// An out folder that one run may write into; others wait until this is dropped.
#[derive(Debug)]
pub struct Place {
    out: PathBuf,
    _locks: Vec<File>,
}

/// What would become of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It is not there yet.
    New,
    /// It is there and would be the same.
    Same,
    /// What we wrote there would be replaced.
    Replaced,
    /// Someone changed it or put it there: only `--force` replaces it.
    Edited,
    /// The trip no longer has it, and it would be taken away.
    Gone,
    /// It lies there and is not made this time.
    Stays,
}

impl Fate {
    /// The word for it on a terminal.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Same => "same",
            Self::Replaced => "replaced",
            Self::Edited => "edited",
            Self::Gone => "gone",
            Self::Stays => "stays",
        }
    }
}

/// The name of a sheet's file without folder and ending.
fn stem(path: &str) -> &str {
    let name = path.rsplit('/').next().unwrap_or(path);
    name.split_once('.').map_or(name, |(stem, _)| stem)
}

impl Place {
    /// Waits until no other run writes there, and clears away what a run that was cut short left behind.
    ///
    /// # Errors
    /// When the folder cannot be made or written to.
    pub fn take(out: &Path) -> Outcome<Self> {
        let take = || {
            disk::folder(out)?;
            let lock = disk::take_turn(out);
            place::clear_leftovers(out)?;
            Ok(Self {
                out: out.to_owned(),
                _locks: lock.into_iter().collect(),
            })
        };
        outcome(take())
    }

    /// As [`Place::take`] for one part of a work that several runs do at the same time, each its own
    /// packets: other parts may write there too; whoever takes the place as a whole, and a second
    /// run of the same part, waits.
    ///
    /// # Errors
    /// When the folder cannot be made or written to.
    pub fn take_part(out: &Path, part: usize, of: usize) -> Outcome<Self> {
        let take = || {
            disk::folder(out)?;
            let mark = place::part_mark(out, part, of);
            let locks = disk::share_turn(out, &mark, || place::clear_leftovers(out))?;
            Ok(Self {
                out: out.to_owned(),
                _locks: locks,
            })
        };
        outcome(take())
    }

    /// A look at an out folder: nothing in it is changed, and nobody is kept waiting.
    #[must_use]
    pub fn look(out: &Path) -> Self {
        Self {
            out: out.to_owned(),
            _locks: Vec::new(),
        }
    }

    /// What would become of each file if a packet were put down, by path.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn fates(&self, packet: &Packet) -> Outcome<Vec<(String, Fate)>> {
        outcome(Home::of(&self.out, &packet.slug).map(|home| home.fates(packet)))
    }

    /// What lies in the folder of a packet now.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn lying(&self, slug: &str) -> Outcome<Lying> {
        outcome(Home::of(&self.out, slug).map(|home| home.lying()))
    }

    /// What the manifest of a packet says by sheet; nothing where there is none.
    ///
    /// # Errors
    /// When the folder cannot be read.
    pub fn sections(&self, slug: &str) -> Outcome<Sections> {
        let text = fs::read_to_string(self.out.join(slug).join(MANIFEST)).unwrap_or_default();
        Ok(manifest::read(&text).unwrap_or_default().sections)
    }

    /// The folders that lie there, by name.
    ///
    /// # Errors
    /// When the out folder cannot be read.
    pub fn slugs(&self) -> Outcome<Vec<String>> {
        let entries =
            fs::read_dir(&self.out).map_err(|error| vec![*disk::problem(&self.out, &error)])?;
        let folders = entries.flatten().filter(|entry| entry.path().is_dir());
        let mut names: Vec<String> = folders
            .filter_map(|entry| entry.file_name().into_string().ok())
            .filter(|name| !name.starts_with('.'))
            .collect();
        names.sort();
        Ok(names)
    }

    /// Moves a packet's folder, with all that lies in it, into `withdrawn`.
    ///
    /// # Errors
    /// When it cannot be moved.
    pub fn withdraw(&self, slug: &str) -> Outcome<()> {
        self.aside(Path::new(slug), slug, "")
    }

    /// Moves a file, named as seen from the out folder, into `withdrawn`; one that is not there
    /// is none to move.
    ///
    /// # Errors
    /// When it cannot be moved.
    pub fn withdraw_file(&self, path: &Path) -> Outcome<()> {
        if !self.out.join(path).exists() {
            return Ok(());
        }
        let bare = path.with_extension("");
        let words: Vec<_> = bare.iter().map(|part| part.to_string_lossy()).collect();
        let ending = path.extension().unwrap_or_default().to_string_lossy();
        self.aside(path, &words.join("-"), &format!(".{ending}"))
    }

    fn aside(&self, path: &Path, name: &str, ending: &str) -> Outcome<()> {
        let aside = self.out.join("withdrawn");
        outcome(disk::folder(&aside))?;
        let names = (1..).map(|count| match count {
            1 => format!("{name}{ending}"),
            more => format!("{name}-{more}{ending}"),
        });
        let mut free = names.filter(|name| aside.join(name).symlink_metadata().is_err());
        let name = free.next().unwrap_or_else(|| format!("{name}{ending}"));
        outcome(disk::rename(&self.out.join(path), &aside.join(name)))
    }

    /// Puts packets down, all or none, and gives back their folders in order. With `force`,
    /// files that a person changed are written over.
    ///
    /// # Errors
    /// Every file that would be written over though it is not as we wrote it; or the first
    /// thing that stands in the way. Then no packet was changed.
    pub fn put(&self, packets: &[Packet], force: bool) -> Outcome<Vec<PathBuf>> {
        let mut slugs = BTreeSet::new();
        for packet in packets {
            outcome(check_slug(&packet.slug).and_then(|()| check_paths(&packet.files)))?;
            if !slugs.insert(packet.slug.to_lowercase()) {
                let problem = bug(&packet.slug, "two packets of one call share this name");
                return Err(vec![*problem]);
            }
        }
        let homes: Step<Vec<Home>> = packets
            .iter()
            .map(|packet| Home::of(&self.out, &packet.slug))
            .collect();
        let homes = outcome(homes)?;
        if !force {
            let both = packets.iter().zip(&homes);
            let problems: Vec<Problem> = both
                .flat_map(|(packet, home)| home.edited(packet))
                .collect();
            if !problems.is_empty() {
                return Err(problems);
            }
        }
        outcome(self.place(packets, &homes))?;
        Ok(homes.into_iter().map(|home| home.folder).collect())
    }

    fn place(&self, packets: &[Packet], homes: &[Home]) -> Step<()> {
        let known: BTreeMap<&str, &BTreeSet<PathBuf>> = packets
            .iter()
            .zip(homes)
            .map(|(packet, home)| (packet.slug.as_str(), &home.there))
            .collect();
        let slugs: Vec<&str> = packets.iter().map(|packet| packet.slug.as_str()).collect();
        let fill = |(packet, home): (&Packet, &Home)| {
            home.fill(packet, &place::new_folder(&self.out, &packet.slug))
        };
        let written = packets.iter().zip(homes).try_for_each(fill);
        let done = written.and_then(|()| place::swap_in(&self.out, &slugs, |slug| known[slug]));
        if done.is_err() {
            for slug in &slugs {
                disk::remove(&place::new_folder(&self.out, slug));
            }
        }
        done
    }
}

/// A packet's place, as it is now.
struct Home {
    folder: PathBuf,
    /// Every file there but the manifest, ours or not.
    there: BTreeSet<PathBuf>,
    manifest: Manifest,
}

impl Home {
    fn of(out: &Path, slug: &str) -> Step<Self> {
        let folder = out.join(slug);
        let there = place::files(&folder)?;
        let text = fs::read_to_string(folder.join(MANIFEST)).unwrap_or_default();
        Ok(Self {
            folder,
            there,
            manifest: manifest::read(&text).unwrap_or_default(),
        })
    }

    /// Whether a file of the manifest is there, and still as it was written.
    fn untouched(&self, path: &str, listed: &Listed) -> bool {
        fs::read(self.folder.join(path)).is_ok_and(|bytes| Listed::of(&bytes) == *listed)
    }

    fn lying(&self) -> Lying {
        let mut lying = Lying {
            sections: self.manifest.sections.clone(),
            ..Lying::default()
        };
        for (path, listed) in &self.manifest.files {
            if self.there.contains(Path::new(path)) {
                lying.files.insert(path.clone());
                if !self.untouched(path, listed) {
                    lying.edited.insert(path.clone());
                }
            }
        }
        lying
    }

    /// The files of ours that a packet takes away.
    fn gone<'a>(&'a self, packet: &'a Packet) -> impl Iterator<Item = &'a String> {
        let paths = self.manifest.files.keys();
        paths.filter(|path| packet.gone.contains(stem(path)))
    }

    fn fates(&self, packet: &Packet) -> Vec<(String, Fate)> {
        let mut fates = BTreeMap::new();
        for path in &self.there {
            fates.insert(path.to_string_lossy().replace('\\', "/"), Fate::Stays);
        }
        for path in self.gone(packet) {
            if self.there.contains(Path::new(path)) {
                fates.insert(path.clone(), Fate::Gone);
            }
        }
        for (path, bytes) in &packet.files {
            let fate = if !self.there.contains(Path::new(path)) {
                Fate::New
            } else if self.untouched(path, &Listed::of(bytes)) {
                Fate::Same
            } else {
                Fate::Replaced
            };
            fates.insert(path.clone(), fate);
        }
        for path in self.lost(packet) {
            fates.insert(path.to_owned(), Fate::Edited);
        }
        fates.into_iter().collect()
    }

    /// A problem for each file that would be lost though it is not as we wrote it.
    fn edited(&self, packet: &Packet) -> Vec<Problem> {
        self.lost(packet)
            .map(|path| {
                Problem::error(
                    "write.edited",
                    told!("{path} is not as it was written: someone changed it or put it there", path = self.folder.join(path).display()),
                    "rename it to keep it, or write `--force` to have it replaced; nothing was written",
                )
            })
            .collect()
    }

    /// The files that would be lost though they are not as we wrote them.
    fn lost<'a>(&'a self, packet: &'a Packet) -> impl Iterator<Item = &'a str> {
        let new = packet.files.iter().map(|(path, bytes)| (path, Some(bytes)));
        let gone = self.gone(packet).map(|path| (path, None));
        new.chain(gone)
            .filter(|(path, new)| {
                if !self.there.contains(Path::new(path)) {
                    return false;
                }
                let ours = self.manifest.files.get(*path);
                let same = new.is_some_and(|new| self.untouched(path, &Listed::of(new)));
                !same && !ours.is_some_and(|listed| self.untouched(path, listed))
            })
            .map(|(path, _)| path.as_str())
    }

    /// Fills the folder that will take this one's place. The files of a packet are many and
    /// small, and waiting for the disk is most of the work, so several wait at once.
    fn fill(&self, packet: &Packet, new: &Path) -> Step<()> {
        disk::folder(new)?;
        let gone: BTreeSet<&Path> = self.gone(packet).map(Path::new).collect();
        let written: BTreeSet<&Path> = packet
            .files
            .iter()
            .map(|(path, _)| Path::new(path))
            .collect();
        let stays =
            |path: &&PathBuf| !gone.contains(path.as_path()) && !written.contains(path.as_path());
        place::keep(&self.folder, new, self.there.iter().filter(stays))?;
        let mut folders: BTreeSet<PathBuf> = BTreeSet::new();
        for (path, _) in &packet.files {
            if let Some(parent) = new.join(path).parent() {
                folders.insert(parent.to_owned());
            }
        }
        for inner in &folders {
            disk::folder(inner)?;
        }
        packet
            .files
            .par_iter()
            .map(|(path, bytes)| disk::file(&new.join(path), bytes))
            .collect::<Vec<_>>()
            .into_iter()
            .collect::<Step<()>>()?;
        folders.iter().for_each(|inner| disk::settle(inner));
        let text = self.manifest(packet);
        disk::file(&new.join(MANIFEST), text.as_bytes())?;
        disk::settle(new);
        Ok(())
    }

    /// The manifest of what will lie there: what is new, and what stays of ours.
    fn manifest(&self, packet: &Packet) -> String {
        let mut files: BTreeMap<String, Listed> = BTreeMap::new();
        let mut stems: BTreeSet<&str> = BTreeSet::new();
        for (path, listed) in &self.manifest.files {
            if self.there.contains(Path::new(path)) && !packet.gone.contains(stem(path)) {
                files.insert(path.clone(), listed.clone());
                stems.insert(stem(path));
            }
        }
        for (path, bytes) in &packet.files {
            files.insert(path.clone(), Listed::of(bytes));
        }
        let mut sections = packet.sections.clone();
        for (name, sheets) in &self.manifest.sections {
            let kept = sheets
                .iter()
                .filter(|(sheet, _)| stems.contains(sheet.as_str()));
            let section = sections.entry(name.clone()).or_default();
            for (sheet, said) in kept {
                section.entry(sheet.clone()).or_insert_with(|| said.clone());
            }
        }
        manifest::text(packet, &sections, &files)
    }
}
