//! A line typed at the terminal, with arrow keys, and Tab for the words that a question takes.

use super::say;

/// As many words as are shown before they are asked for.
const SHOWN: usize = 8;

/// A line from the terminal; none at the end of input. The words that it may be are shown where
/// they are few.
pub(super) fn line(prompt: &str, choices: &[String]) -> Option<String> {
    if !choices.is_empty() && choices.len() <= SHOWN {
        say(&format!("  {}\n", choices.join(", ")));
    }
    let line = typed(prompt, choices);
    if line.is_none() {
        say("\n");
    }
    line
}

#[cfg(not(target_family = "wasm"))]
use at_terminal::typed;

/// The page's program is at no terminal and never asks.
#[cfg(target_family = "wasm")]
fn typed(_: &str, _: &[String]) -> Option<String> {
    None
}

#[cfg(not(target_family = "wasm"))]
mod at_terminal {
    use crate::nouns::id;
    use rustyline::completion::Completer;
    use rustyline::highlight::Highlighter;
    use rustyline::hint::Hinter;
    use rustyline::history::DefaultHistory;
    use rustyline::validate::Validator;
    use rustyline::{Behavior, CompletionType, Config, Context, Editor, Helper, Result};
    use std::io::IsTerminal as _;

    pub(super) fn typed(prompt: &str, choices: &[String]) -> Option<String> {
        // the file itself may go to standard output
        let behavior = if std::io::stdout().is_terminal() {
            Behavior::Stdio
        } else {
            Behavior::PreferTerm
        };
        let config = Config::builder()
            .behavior(behavior)
            .completion_type(CompletionType::List)
            .build();
        let mut editor: Editor<Words, DefaultHistory> = Editor::with_config(config).ok()?;
        editor.set_helper(Some(Words(choices.to_vec())));
        editor.readline(prompt).ok()
    }

    /// What Tab fills in: the words that begin as the answer does, after its last comma.
    struct Words(Vec<String>);

    impl Completer for Words {
        type Candidate = String;

        fn complete(&self, line: &str, at: usize, _: &Context<'_>) -> Result<(usize, Vec<String>)> {
            let last = line[..at].rfind(',').map_or(0, |comma| comma + 1);
            let start = at - line[last..at].trim_start().len();
            let begun = id(&line[start..at]);
            let words = self.0.iter().filter(|word| id(word).starts_with(&begun));
            Ok((start, words.cloned().collect()))
        }
    }

    impl Hinter for Words {
        type Hint = String;
    }
    impl Highlighter for Words {}
    impl Validator for Words {}
    impl Helper for Words {}
}
