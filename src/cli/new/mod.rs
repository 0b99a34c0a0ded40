//! `leeside new`: asks for a trip at a terminal, one question at a time, and
//! writes its file; without a terminal, a commented starter.

mod interview;
mod line;
mod questions;
mod text;

#[cfg(test)]
mod tests;

use super::speech::Speech;
use super::{Laid, Said};
use crate::check;
use crate::compose;
use crate::diag::{Messages, Outcome, Problem, Told, told};
use crate::load;
use crate::nouns::Library;
use crate::write;
use clap::Args;
use interview::{Interview, Reply, starter};
use line::line;
use std::io::{IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};

/// Ask for a trip at a terminal, or write a commented one to fill in
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside new spring-overnight.yaml\n\
        Example: leeside new --lesson stove-evening.yaml\n\n\
        Each answer is checked at once. `back` goes to the question before, `?` explains, and the \
        end of input (ctrl-D) stops without writing. Where standard input is no terminal, a \
        commented trip to fill in is written to the file, or to standard output without one.")]
pub struct New {
    /// File to write
    #[arg(value_name = "TRIP.yaml")]
    pub trip: Option<PathBuf>,
    /// A lesson in one place, with stations, in place of a trip with camps
    #[arg(long)]
    pub lesson: bool,
    /// The language to ask in
    #[arg(skip)]
    pub language: Option<String>,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// In which language is asked, and the sentences of it.
#[derive(Clone, Debug)]
pub(super) struct Voice {
    /// `en`, or the language that the file is for.
    language: String,
    messages: Messages,
}

impl Voice {
    /// English, for who asks for nothing else.
    fn english() -> Self {
        Self {
            language: load::ENGLISH.to_owned(),
            messages: Messages::english(),
        }
    }

    /// As the flag has it; a language without sentences is asked in English.
    fn of(args: &New) -> Self {
        let Some(language) = &args.language else {
            return Self::english();
        };
        let speech = Speech::of(Some(language.as_str()), &[], &args.content.folders);
        let messages = speech.messages();
        let is_spoken = messages.sentences().next().is_some();
        if !is_spoken {
            return Self::english();
        }
        Self {
            language: language.to_lowercase(),
            messages,
        }
    }

    fn says(&self, told: &Told) -> String {
        told.said_in(&self.messages)
    }
}

/// Runs the command.
///
/// # Errors
/// The input ended before the last question, or the file cannot be written.
pub fn run(args: &New) -> Outcome<Said> {
    named_a_kind(args.trip.as_deref())?;
    let voice = Voice::of(args);
    if !std::io::stdin().is_terminal() {
        return give(args.trip.as_deref(), starter(args.lesson, &voice));
    }
    let (library, _) = super::library(&args.content.folders)?;
    let say = |text: &'static str| say(&voice.says(&text.into()));
    say(
        "`?` explains a question, `back` goes to the one before, Tab fills in a word, ctrl-D stops.\n",
    );
    if !args.lesson {
        say("For a lesson in one place: leeside new --lesson\n");
    }
    say("\n");
    let file = asked(&library, args.lesson, &voice).ok_or_else(stopped)?;
    if args.trip.is_none() && !std::io::stdout().is_terminal() {
        return give(None, file);
    }
    let path = match &args.trip {
        Some(path) => path.clone(),
        None => named(&file, &voice).ok_or_else(stopped)?,
    };
    let path = put(path, &file, &voice)?;
    Ok(Said {
        warnings: warnings(&path, &file, &library),
        ..done(&path)
    })
}

/// `new lesson` asks for a lesson, not for a file of that name.
fn named_a_kind(path: Option<&Path>) -> Outcome<()> {
    let word = path.and_then(Path::to_str).unwrap_or_default();
    let help = match word.to_lowercase().as_str() {
        "lesson" => "write `leeside new --lesson lesson.yaml`",
        "trip" => "write `leeside new trip.yaml`",
        _ => return Ok(()),
    };
    Err(vec![Problem::error(
        "flag.file",
        told!(
            "`{word}` is no name of a trip file, which ends in .yaml",
            word
        ),
        help,
    )])
}

/// The file on disk, or on standard output where none is named.
fn give(path: Option<&Path>, file: String) -> Outcome<Said> {
    let Some(path) = path else {
        return Ok(Said {
            result: file,
            ..Said::default()
        });
    };
    write::single(path, file.as_bytes(), false)?;
    Ok(done(path))
}

fn done(path: &Path) -> Said {
    let path = path.display();
    Said {
        message: told!(
            "{path} written\nNext: leeside check {path}\nThen: leeside make {path}\n",
            path
        ),
        ..Said::default()
    }
}

/// What deserves a look in a file that has nothing wrong in it.
fn warnings(path: &Path, file: &str, library: &Library) -> Vec<Problem> {
    load::text(&path.to_string_lossy(), file)
        .and_then(|written| check::trip(&written, library))
        .map_or_else(|problems| problems, |(_, warnings)| warnings)
}

fn stopped() -> Vec<Problem> {
    vec![Problem::error(
        "new.stopped",
        "the input ended before the last question; nothing was written",
        "start again with `leeside new`, or fill in a starter: `leeside new TRIP.yaml < /dev/null`",
    )]
}

/// Asks until every question is answered; none when the input ends.
fn asked(library: &Library, lesson: bool, voice: &Voice) -> Option<String> {
    let mut interview = Interview::new(library, lesson, voice.clone());
    loop {
        let line = line(&interview.prompt(), &interview.choices())?;
        match interview.answer(&line) {
            Reply::Ask => {}
            Reply::Wrong(text) | Reply::Explained(text) | Reply::Understood(text) => {
                for line in text.lines() {
                    say(&format!("  {line}\n"));
                }
            }
            Reply::Done(file) => return Some(file),
        }
    }
}

/// The name of the file, from the title where only Enter is typed.
fn named(file: &str, voice: &Voice) -> Option<PathBuf> {
    let title = load::text("trip.yaml", file)
        .ok()
        .and_then(|written| Some(written.root.get("title")?.text()?.to_owned()));
    let slug = compose::slug(&title.unwrap_or_default());
    let usual = format!("{}.yaml", if slug.is_empty() { "trip" } else { &slug });
    let ask = voice.says(&told!("File to write [{usual}]: ", usual));
    let typed = line(&ask, &[])?;
    Some(PathBuf::from(match typed.trim() {
        "" => &usual,
        typed => typed,
    }))
}

/// Writes the file and gives back where; asks before it replaces one, and for
/// another name if not.
fn put(mut path: PathBuf, file: &str, voice: &Voice) -> Outcome<PathBuf> {
    let taken = |problems: &[Problem]| problems.iter().all(|one| one.code == "write.exists");
    while let Err(problems) = write::single(&path, file.as_bytes(), false) {
        if !taken(&problems) {
            return Err(problems);
        }
        let ask = voice.says(&told!(
            "{path} is there already. Replace it? yes or no [no]: ",
            path = path.display()
        ));
        let answer = line(&ask, &[]).ok_or_else(stopped)?;
        if ["yes", "y", "sí", "si", "s"].contains(&answer.trim().to_lowercase().as_str()) {
            write::single(&path, file.as_bytes(), true)?;
            break;
        }
        let ask = voice.says(&"Another name for the file: ".into());
        let other = line(&ask, &[]).ok_or_else(stopped)?;
        if !other.trim().is_empty() {
            path = PathBuf::from(other.trim());
        }
    }
    Ok(path)
}

/// Words for the person, beside what is written; a closed pipe is no reason to fail.
fn say(text: &str) {
    let _ = std::io::stderr().write_all(text.as_bytes());
    let _ = std::io::stderr().flush();
}
