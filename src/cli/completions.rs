//! `leeside completions`: a script by which a shell completes commands and flags.

use super::Said;
use crate::diag::Outcome;
use clap::{Args, Command};
use clap_complete::Shell;

/// Print a script that lets a shell complete commands and flags
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside completions bash > ~/.local/share/bash-completion/completions/leeside"
)]
pub struct Completions {
    /// Which shell
    #[arg(value_enum, ignore_case = true)]
    pub shell: Shell,
}

/// Runs the command.
///
/// # Errors
/// None; the signature is that of the other commands.
pub fn run(args: &Completions, mut whole: Command) -> Outcome<Said> {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut whole, "leeside", &mut script);
    Ok(Said {
        result: String::from_utf8_lossy(&script).into_owned(),
        ..Said::default()
    })
}
