//! What is typed where a command should stand, and what to type instead.
//!
//! The table of DEVELOPERS.md, *What is typed and what happens*, tells the whole; a test holds
//! the words below against it.

use crate::diag::{Problem, Told, nearest, told};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use std::path::Path;

/// Words that people type by habit, each group with the command that does it.
const HABITS: &[(&[&str], &str, &str)] = &[
    (
        &[
            "build", "run", "print", "generate", "create", "render", "export", "pdf", "write", "do",
        ],
        "to write the papers",
        "make TRIP.yaml",
    ),
    (
        &["validate", "lint", "verify", "test", "doctor", "proof"],
        "to see what is wrong",
        "check TRIP.yaml",
    ),
    (
        &["init", "start", "add", "wizard"],
        "to start a trip file",
        "new TRIP.yaml",
    ),
    (
        &["open", "view", "preview", "serve"],
        "to write the papers and the page that opens them",
        "make TRIP.yaml",
    ),
    (
        &["calc", "compute", "fuel", "numbers"],
        "to see the numbers",
        "plan TRIP.yaml",
    ),
    (
        &["explain", "trace", "source"],
        "to see where a value comes from",
        "why TRIP.yaml ID",
    ),
    (
        &["ls", "dir", "catalog", "index", "stoves", "modules"],
        "to see what the library holds",
        "list modules",
    ),
    (
        &["quiz", "exam", "drill"],
        "to practise",
        "practice --seed 1",
    ),
    (
        &["cat", "print-module", "text"],
        "to read a module",
        "show module ID",
    ),
    (
        &["extract", "copy", "eject"],
        "to have the content as files",
        "unpack DIR",
    ),
    (
        &["completion", "complete"],
        "to have a shell complete what you type",
        "completions bash",
    ),
    (&["manual", "docs"], "to read the manual", "man"),
    (&["version"], "to see the version", "--version"),
];

/// What to say when what stands in the place of a command is none; nothing where the line is
/// wrong in another way.
#[must_use]
pub fn mistaken(error: &clap::Error, commands: &[String]) -> Option<Problem> {
    if error.kind() != ErrorKind::InvalidSubcommand {
        return None;
    }
    let Some(ContextValue::String(word)) = error.get(ContextKind::InvalidSubcommand) else {
        return None;
    };
    Some(instead(word, commands))
}

/// A word that is no command, with what to type instead.
fn instead(word: &str, commands: &[String]) -> Problem {
    let wrong = |message: Told, help: Told| Problem::error("flag.command", message, help);
    let ending = Path::new(word)
        .extension()
        .map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("yaml" | "yml") => {
            return wrong(
                told!(
                    "`{word}` is a file, and a command was expected before it",
                    word
                ),
                told!(
                    "write `leeside make {word}` for its papers, or `leeside check {word}`",
                    word
                ),
            );
        }
        Some("csv") => {
            return wrong(
                told!(
                    "`{word}` is a table, and a command was expected before it",
                    word
                ),
                told!(
                    "write `leeside season {word}` for the papers of its departures",
                    word
                ),
            );
        }
        _ => {}
    }
    let message = told!("leeside has no command `{word}`", word);
    let lower = word.to_lowercase();
    let habit = HABITS
        .iter()
        .find(|(words, ..)| words.contains(&lower.as_str()));
    if let Some((_, what, command)) = habit {
        return wrong(
            message,
            told!(
                "{what}: `leeside {command}`",
                what = Told::from(*what),
                command
            ),
        );
    }
    let near = nearest(&lower, commands.iter().map(String::as_str));
    let help = match near {
        Some(near) => told!("did you mean `leeside {near}`?", near),
        None if Path::new(word).exists() => told!(
            "for the papers of the trips in it write `leeside make {word}`; `leeside --help` \
             lists the commands",
            word
        ),
        None => told!(
            "the commands are {commands}",
            commands = commands.join(", ")
        ),
    };
    wrong(message, help)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_habit_leads_to_a_command_and_stands_once() {
        let commands = crate::cli::commands();
        let mut seen = std::collections::BTreeSet::new();
        for (words, _, command) in HABITS {
            let first = command.split(' ').next().unwrap_or_default();
            assert!(
                first == "--version" || commands.iter().any(|one| one == first),
                "{command} is no command"
            );
            for word in *words {
                assert!(seen.insert(word), "{word} stands twice");
                assert!(!commands.iter().any(|one| one == word), "{word} is one");
            }
        }
    }

    #[test]
    fn the_table_of_the_guide_names_every_word() {
        let guide = include_str!("../../DEVELOPERS.md");
        for (words, _, command) in HABITS {
            for word in *words {
                let mut rows = guide
                    .lines()
                    .filter(|line| line.starts_with('|') && line.contains(&format!("`{word}`")));
                assert!(
                    rows.any(|row| row.contains(&format!("`leeside {command}`"))),
                    "no row leads from `{word}` to `leeside {command}`"
                );
            }
        }
    }
}
