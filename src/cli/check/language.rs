//! How far the content is in a language; whether a trip's sheets can be made in theirs.

use super::super::press;
use super::{Check, Said};
use crate::check;
use crate::compose::catalogue;
use crate::diag::{Outcome, Problem, told};
use crate::load::{self, ENGLISH, Written};
use crate::nouns::Library;
use crate::ready;
use serde_json::json;

/// The texts that a language says, and each file with some that it does not.
///
/// # Errors
/// What is missing or wrong in it.
pub(super) fn said(args: &Check, language: &str) -> Outcome<Said> {
    let files = load::library_with(&args.content.folders, &[])?;
    let (files, coverage) = files.said_in(&language.to_lowercase())?;
    let (messages, spoken) = load::messages(&files.assets, &language.to_lowercase())?;
    let (of, said) = (coverage.of + spoken.of, coverage.said + spoken.said);
    let mut problems = coverage.problems;
    problems.extend(spoken.problems);
    let templates = files.assets.templates_in(&language.to_lowercase());
    problems.extend(match templates {
        Ok(templates) => templates
            .get(load::WORDS)
            .and_then(|source| load::page_words(source).err())
            .unwrap_or_default(),
        Err(missing) => missing,
    });
    if problems.is_empty() {
        problems.extend(match check::library(&files) {
            Ok((library, _)) if library.language != ENGLISH => {
                catalogue::of(&library).err().unwrap_or_default()
            }
            Ok(_) => Vec::new(),
            Err(more) => more,
        });
    }
    if args.json {
        let all = json!({
            "format": "leeside-language/1",
            "language": language,
            "texts": of,
            "said": said,
            "problems": problems.iter().map(|one| super::as_json(one, &messages)).collect::<Vec<_>>(),
        });
        return Ok(Said {
            result: format!("{all:#}\n"),
            wrong: !problems.is_empty(),
            ..Said::default()
        });
    }
    if !problems.is_empty() {
        problems.push(Problem::warning(
            "language.far",
            told!(
                "{said} of {of} texts are said in `{language}`",
                said,
                of,
                language
            ),
            "write what is missing; no sheet is made before all of them are there",
        ));
        return Err(problems);
    }
    Ok(Said {
        message: told!(
            "{of} texts, all of them said in `{language}`\n",
            of,
            language
        ),
        ..Said::default()
    })
}

/// What stands in the way of a trip's sheets in the languages that it asks for.
pub(super) fn of_sheets(written: &Written, args: &Check, library: &Library) -> Vec<Problem> {
    let wanted = check::wanted_in(written, library);
    let folders = match args.content.over(written) {
        Ok(folders) => folders,
        // told where the trip is checked
        Err(_) => return Vec::new(),
    };
    let of = |language: &String| -> Vec<Problem> {
        let (own, other) = match press::named(language) {
            Ok(named) => named,
            Err(problems) => return problems,
        };
        let others = [Some(own), other].into_iter().flatten();
        others
            .filter(|language| language != ENGLISH)
            .filter_map(|language| ready::library_in(&folders, &language).err())
            .flatten()
            .collect()
    };
    wanted
        .iter()
        .flat_map(of)
        .map(|problem| press::asked(written, problem))
        .collect()
}
