//! `leeside man`: the manual page of the program or of one command.

use super::Said;
use crate::diag::{Outcome, Problem, nearest, told};
use clap::{Args, Command};
use clap_mangen::Man as Page;

/// Print the manual page of the program, or of one command
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside man make > leeside-make.1, then man ./leeside-make.1")]
pub struct Man {
    /// A command; left out, the page of the whole
    #[arg(value_name = "COMMAND")]
    pub command: Option<String>,
}

/// Runs the command.
///
/// # Errors
/// There is no such command.
pub fn run(args: &Man, mut whole: Command) -> Outcome<Said> {
    whole.build();
    let page = match &args.command {
        None => Page::new(whole),
        Some(name) => Page::new(one(&whole, name)?),
    };
    let mut text = Vec::new();
    // writing into memory cannot fail
    let _ = page.render(&mut text);
    Ok(Said {
        result: String::from_utf8_lossy(&text).into_owned(),
        ..Said::default()
    })
}

/// One command of the whole.
fn one(whole: &Command, name: &str) -> Outcome<Command> {
    let wanted = name.to_lowercase();
    let found = whole
        .get_subcommands()
        .find(|one| one.get_name() == wanted && wanted != "help");
    found.cloned().ok_or_else(|| {
        let known: Vec<&str> = whole
            .get_subcommands()
            .map(Command::get_name)
            .filter(|name| *name != "help")
            .collect();
        let help = nearest(&wanted, known.iter().copied()).map_or_else(
            || told!("the commands are {known}", known = known.join(", ")),
            |near| told!("did you mean `leeside man {near}`?", near),
        );
        let message = told!("leeside has no command `{name}`", name);
        vec![Problem::error("flag.command", message, help)]
    })
}
