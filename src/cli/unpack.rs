//! `leeside unpack`: the built-in content and templates as files to edit.

use super::Said;
use crate::diag::{Outcome, Problem, Told, nearest, told};
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
    /// Only these: a file or folder, such as modules/greywater.yaml or templates/sheets
    #[arg(value_name = "PATH")]
    pub paths: Vec<String>,
}

/// Runs the command.
///
/// # Errors
/// Something stands in the way or cannot be written; then nothing was written.
pub fn run(args: &Unpack) -> Outcome<Said> {
    let files = wanted(files()?, &args.paths)?;
    write::tree(&args.folder, &files)?;
    let folder = args.folder.display();
    Ok(Said {
        message: told!(
            "{count} files written to {folder}\nNext: change some, then `leeside check {folder}` and \
             `leeside make TRIP.yaml --content {folder}`\n",
            count = files.len(),
            folder
        ),
        ..Said::default()
    })
}

/// The files that are asked for; all of them where none is named.
fn wanted(files: Vec<(String, Vec<u8>)>, paths: &[String]) -> Outcome<Vec<(String, Vec<u8>)>> {
    if paths.is_empty() {
        return Ok(files);
    }
    let plain: Vec<String> = paths.iter().map(|path| plain(path)).collect();
    let is = |file: &str, path: &str| {
        let inside = file.strip_prefix("content/").unwrap_or(file);
        [file, inside].iter().any(|name| {
            let rest = name.strip_prefix(path);
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        })
    };
    let unknown: Vec<Problem> = plain
        .iter()
        .filter(|path| !files.iter().any(|(file, _)| is(file, path)))
        .map(|path| {
            let names = files
                .iter()
                .map(|(file, _)| file.strip_prefix("content/").unwrap_or(file));
            let help = nearest(path, names).map_or_else(
                || {
                    Told::from("without a path everything is copied; `leeside list modules` names the modules")
                },
                |near| told!("perhaps `{near}` is meant", near),
            );
            let message = told!("nothing built in lies at `{path}`", path);
            Problem::error("flag.path", message, help)
        })
        .collect();
    if !unknown.is_empty() {
        return Err(unknown);
    }
    let asked = |file: &str| plain.iter().any(|path| is(file, path));
    Ok(files.into_iter().filter(|(file, _)| asked(file)).collect())
}

/// A path as it is compared: with `/` on every system, and none at its end.
fn plain(path: &str) -> String {
    path.replace('\\', "/").trim_matches('/').to_owned()
}

/// Every built-in file, at the path where a content folder wants it.
fn files() -> Outcome<Vec<(String, Vec<u8>)>> {
    let assets = load::assets(&[])?;
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
