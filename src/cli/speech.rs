//! The language in which a run speaks: that of the flag, else that of the first trip file that is
//! named, else English.
//!
//! It is looked for only when there is something to say; a file that cannot be read says nothing
//! of its language, and its problems are told in English.

use crate::diag::{Messages, Problem};
use crate::load::{self, Assets, ENGLISH, Written};
use std::path::{Path, PathBuf};

/// What was typed that bears on the language.
#[derive(Clone, Debug, Default)]
pub(super) struct Speech {
    flag: Option<String>,
    named: Vec<PathBuf>,
    content: Vec<PathBuf>,
}

impl Speech {
    /// Of flags and files that are known.
    pub(super) fn of(flag: Option<&str>, named: &[PathBuf], content: &[PathBuf]) -> Self {
        Self {
            flag: flag.map(str::to_owned),
            named: named.to_vec(),
            content: content.to_vec(),
        }
    }

    /// Of a command line as typed, even one that cannot be read.
    pub(super) fn typed() -> Self {
        let mut speech = Self::default();
        let mut words = std::env::args_os().skip(1);
        while let Some(word) = words.next() {
            let text = word.to_string_lossy();
            let (name, value) = match text.split_once('=') {
                Some((name, value)) => (name, Some(value.to_owned())),
                None => (&*text, None),
            };
            let mut value = || {
                value.clone().or_else(|| {
                    let next = words.next()?;
                    Some(next.to_string_lossy().into_owned())
                })
            };
            match name {
                "--language" => speech.flag = value(),
                "--content" => speech.content.extend(value().map(PathBuf::from)),
                _ => speech.named.push(PathBuf::from(word)),
            }
        }
        speech
    }

    /// The sentences to speak in.
    pub(super) fn messages(&self) -> Messages {
        let language = match &self.flag {
            Some(flag) => flag
                .split([',', '+'])
                .next()
                .unwrap_or(ENGLISH)
                .trim()
                .to_lowercase(),
            None => self.of_files(),
        };
        if language == ENGLISH {
            return Messages::english();
        }
        let assets = load::assets(&self.content).or_else(|_| load::assets(&[]));
        let spoken = assets
            .ok()
            .and_then(|all| load::messages(&all, &language).ok());
        spoken.map_or_else(Messages::english, |(messages, _)| messages)
    }

    /// As the first trip file states it that states one.
    fn of_files(&self) -> String {
        let files = self.named.iter().filter(|path| is_yaml(path));
        let stated = files
            .filter_map(|path| load::trip_file(path).ok())
            .find_map(|written| self.stated(&written));
        stated.unwrap_or_else(|| ENGLISH.to_owned())
    }

    fn stated(&self, written: &Written) -> Option<String> {
        let own = written.root.get("language").and_then(|node| node.first());
        let first = own.and_then(|own| own.split('+').next());
        first.map(|own| own.trim().to_lowercase()).or_else(|| {
            let profile = written.root.get("organisation")?.text()?;
            let mut folders = written.content().unwrap_or_default();
            folders.extend_from_slice(&self.content);
            let assets: Assets = load::assets(&folders).ok()?;
            load::language_of_profile(&assets, profile)
        })
    }
}

fn is_yaml(path: &Path) -> bool {
    let ending = path.extension().map(|ending| ending.to_ascii_lowercase());
    ending.is_some_and(|ending| ending == "yaml" || ending == "yml") && path.is_file()
}

/// The languages that problems are told in are those of their run: what `check --json` says of one.
pub(super) fn as_json(problem: &Problem, messages: &Messages) -> serde_json::Value {
    serde_json::json!({
        "code": problem.code,
        "message": problem.message.said_in(messages),
        "file": problem.file.as_deref(),
        "line": problem.place.as_ref().map(|place| place.line),
        "column": problem.place.as_ref().map(|place| place.column),
        "path": problem.path,
        "help": problem.help.said_in(messages),
    })
}
