//! What reaches a terminal: problems in colours where they are wanted, and whether the result
//! could be handed over whole.

use crate::diag::{self, Messages, Problem, Severity, told};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::ffi::OsStr;
use std::io::{ErrorKind, IsTerminal as _, Write as _};

/// Red and bold, yellow and bold, plain again (ECMA-48, select graphic rendition).
const ERROR: &str = "\u{1b}[1;31m";
const WARNING: &str = "\u{1b}[1;33m";
const PLAIN: &str = "\u{1b}[0m";

/// Whether standard output took what it was given.
pub(super) enum Heard {
    /// All of it, or the reader had enough and closed the pipe.
    All,
    /// The disk stood in the way.
    No(Box<Problem>),
}

/// A progress line in a form of its own: on a terminal only, and only where there are several.
pub(super) fn progress(count: usize, form: &str) -> ProgressBar {
    let target = if std::io::stderr().is_terminal() && count > 1 {
        ProgressDrawTarget::stderr()
    } else {
        ProgressDrawTarget::hidden()
    };
    let bar = ProgressBar::with_draw_target(u64::try_from(count).ok(), target);
    if let Ok(style) = ProgressStyle::with_template(form) {
        bar.set_style(style);
    }
    bar
}

/// All problems, one after the other, for standard error.
pub(super) fn report(problems: &[Problem], messages: &Messages) -> String {
    if coloured() {
        painted(problems, messages)
    } else {
        diag::report_in(problems, messages)
    }
}

/// Whether problems are shown in colours: only to a person, and only one who has not said no.
#[allow(
    clippy::disallowed_methods,
    reason = "how problems look is asked of the terminal; no paper depends on it"
)]
fn coloured() -> bool {
    std::io::stderr().is_terminal()
        && wanted(
            std::env::var_os("NO_COLOR").as_deref(),
            std::env::var_os("TERM").as_deref(),
        )
}

/// `NO_COLOR`, whatever it holds, takes colours away unless it is empty (no-color.org, read in
/// 2026); a terminal that calls itself dumb has none.
fn wanted(no_color: Option<&OsStr>, term: Option<&OsStr>) -> bool {
    no_color.is_none_or(OsStr::is_empty) && term.is_none_or(|term| term != "dumb")
}

/// As [`diag::report`], with the first word of each problem in its colour.
fn painted(problems: &[Problem], messages: &Messages) -> String {
    let one = |problem: &Problem| {
        let text = diag::report_in(std::slice::from_ref(problem), messages);
        let colour = match problem.severity {
            Severity::Error => ERROR,
            Severity::Warning => WARNING,
        };
        match text.split_once(": ") {
            Some((head, rest)) => format!("{colour}{head}{PLAIN}: {rest}"),
            None => text,
        }
    };
    problems.iter().map(one).collect()
}

/// Text for a person; a closed pipe is no reason to fail.
pub(super) fn to_stderr(text: &str) {
    let _ = std::io::stderr().write_all(text.as_bytes());
}

/// The result. A reader that closes the pipe has had enough; a full disk is told.
pub(super) fn to_stdout(text: &str) -> Heard {
    let mut out = std::io::stdout();
    let done = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    match done {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Heard::No(Box::new(Problem::error(
            "write.output",
            told!(
                "standard output cannot be written to its end: {error}",
                error
            ),
            "make room on the disk, or write to another place",
        ))),
        _ => Heard::All,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_for_whoever_has_not_said_no() {
        let os = |text: &'static str| Some(OsStr::new(text));
        assert!(wanted(None, None));
        assert!(wanted(os(""), os("xterm")));
        for no in ["1", "0", "false"] {
            assert!(!wanted(os(no), os("xterm")));
        }
        assert!(!wanted(None, os("dumb")));
    }

    #[test]
    fn colours_change_no_word() {
        let problems = [
            Problem::error("a.b", "what: is wrong", "mend it"),
            Problem::warning("c.d", "look", "there"),
        ];
        let text = painted(&problems, &Messages::english());
        assert!(text.starts_with("\u{1b}[1;31merror[a.b]\u{1b}[0m: what: is wrong"));
        let plain = [ERROR, WARNING, PLAIN]
            .iter()
            .fold(text, |text, code| text.replace(code, ""));
        assert_eq!(plain, diag::report(&problems));
    }
}
