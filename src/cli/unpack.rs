//! `leeside unpack`: the built-in content and templates as files to edit.

use super::Said;
use crate::diag::Outcome;
use crate::load;
use crate::write;
use clap::Args;
use std::path::PathBuf;

/// Copy the built-in content and templates out for editing
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside unpack ours, then leeside make trip.yaml --content ours\n\n\
        Keep the files that you change and throw the rest away: what is not in the folder is \
        taken from the program."
)]
pub struct Unpack {
    /// Folder to write them into; no file in it is ever replaced
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
}

/// Runs the command.
///
/// # Errors
/// Something stands in the way or cannot be written; then nothing was written.
pub fn run(args: &Unpack) -> Outcome<Said> {
    let files = files()?;
    write::tree(&args.folder, &files)?;
    let folder = args.folder.display();
    Ok(Said {
        message: format!(
            "{} files written to {folder}\nNext: change some, then `leeside check {folder}` and \
             `leeside make TRIP.yaml --content {folder}`\n",
            files.len()
        ),
        ..Said::default()
    })
}

/// Every built-in file, at the path where a content folder wants it.
fn files() -> Outcome<Vec<(String, Vec<u8>)>> {
    let assets = load::assets(None)?;
    let content = assets
        .content
        .iter()
        .map(|(path, source)| (format!("content/{path}"), source.text.as_bytes().to_vec()));
    let templates = assets
        .templates
        .iter()
        .map(|(path, source)| (format!("templates/{path}"), source.text.as_bytes().to_vec()));
    let fonts = assets
        .fonts
        .iter()
        .map(|(path, bytes)| (format!("templates/{path}"), bytes.to_vec()));
    Ok(content.chain(templates).chain(fonts).collect())
}
