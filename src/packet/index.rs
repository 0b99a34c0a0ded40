//! The pages that lead through a packet on a screen: one in front, one for each folder.

use super::format::Format;
use super::kinds::Front;
use super::lines::{Line, Lines};
use crate::compose::{bundles::Bundle, sheets::Folder};
use crate::doc::Words;
use crate::render::html::{IndexGroup, IndexPage, IndexSheet};

/// The name of the page that opens a folder.
pub(super) const NAME: &str = "index.html";

/// The page in front of a packet.
pub(super) fn front(front: &Front, lines: &Lines, words: &Words) -> IndexPage {
    let mut ways = Vec::new();
    for (folder, say) in [
        (Folder::Learners, words.say("front-learners")),
        (Folder::Staff, words.say("front-staff")),
    ] {
        if lines.values().any(|line| line.folder == folder.word()) {
            ways.push((say.to_owned(), format!("{}/{NAME}", folder.word())));
        }
    }
    let in_front: Vec<(&String, &Line)> = Line::in_order(lines)
        .into_iter()
        .filter(|(_, line)| line.folder.is_empty())
        .collect();
    let (title, first) = if in_front.is_empty() {
        (words.say("goes-along"), along(lines))
    } else {
        (words.say("print-first"), in_front)
    };
    let sheets = first.into_iter();
    let sheets: Vec<IndexSheet> = sheets
        .map(|(stem, line)| sheet(&line.file(stem, ""), line, front, words))
        .collect();
    let groups = if sheets.is_empty() {
        Vec::new()
    } else {
        vec![IndexGroup {
            title: title.to_owned(),
            sheets,
        }]
    };
    let all: Vec<&Line> = lines
        .values()
        .filter(|line| !line.folder.is_empty())
        .collect();
    let mut notes = paper_in_all(&all, words);
    notes.push(front.standing_line.clone());
    IndexPage {
        title: front.title.clone(),
        notes,
        facts: front.facts.clone(),
        ways,
        groups,
        foot: front.foot.clone(),
        paper: front.paper,
    }
}

/// The sheets that everyone who goes needs on the way: the field papers, and where there are
/// none those of the evening.
fn along(lines: &Lines) -> Vec<(&String, &Line)> {
    let of = |bundle: Bundle| -> Vec<(&String, &Line)> {
        let wanted = bundle.sheets();
        Line::in_order(lines)
            .into_iter()
            .filter(|(_, line)| wanted.contains(&line.sheet.as_str()))
            .collect()
    };
    let field = of(Bundle::Field);
    if field.is_empty() {
        of(Bundle::Tonight)
    } else {
        field
    }
}

/// The index page of a folder, with its print guide; none where no sheet lies.
pub(super) fn folder(
    front: &Front,
    folder: Folder,
    lines: &Lines,
    words: &Words,
) -> Option<IndexPage> {
    let here: Vec<(&String, &Line)> = Line::in_order(lines)
        .into_iter()
        .filter(|(_, line)| line.folder == folder.word())
        .collect();
    if here.is_empty() {
        return None;
    }
    let (title, note) = match folder {
        Folder::Learners => (
            words.put("for-learners", &[("name", &front.title)]),
            words.say("about-learners"),
        ),
        Folder::Staff => (
            words.put("for-staff", &[("name", &front.title)]),
            words.say("about-staff"),
        ),
    };
    let mut notes = vec![note.to_owned()];
    notes.extend(paper_in_all(
        &here.iter().map(|(_, line)| *line).collect::<Vec<_>>(),
        words,
    ));
    notes.push(front.standing_line.clone());
    Some(IndexPage {
        title,
        notes,
        facts: Vec::new(),
        ways: vec![(words.say("front-page").to_owned(), format!("../{NAME}"))],
        groups: vec![IndexGroup {
            title: words.say("sheets-and-print").to_owned(),
            sheets: here
                .into_iter()
                .map(|(stem, line)| sheet(stem, line, front, words))
                .collect(),
        }],
        foot: front.foot.clone(),
        paper: front.paper,
    })
}

/// What printing everything takes.
fn paper_in_all(lines: &[&Line], words: &Words) -> Vec<String> {
    let leaves: usize = lines.iter().map(|line| line.leaves_of_all()).sum();
    if leaves == 0 {
        return Vec::new();
    }
    let key = if leaves == 1 {
        "leaves-one"
    } else {
        "leaves-many"
    };
    vec![words.put(key, &[("n", &leaves.to_string())])]
}

/// A line of an index page, `stem` with the way to it. A file that was made from another state of the trip says so.
fn sheet(stem: &str, line: &Line, front: &Front, words: &Words) -> IndexSheet {
    let sides = line.pages.map_or_else(
        || line.print.clone(),
        |pages| {
            let key = if pages == 1 { "side-one" } else { "side-many" };
            words.put(key, &[("n", &pages.to_string()), ("name", &line.print)])
        },
    );
    let links = Format::EVERY.into_iter().filter_map(|format| {
        let revision = line.formats.get(format.ending())?;
        let link = format.link(words);
        let say = if *revision == front.revision {
            link.to_owned()
        } else {
            words.put("older", &[("name", link)])
        };
        Some((
            say,
            format!("{}.{}", stem.trim_end_matches('.'), format.ending()),
        ))
    });
    IndexSheet {
        title: line.title.clone(),
        about: line.about.clone(),
        links: links.collect(),
        copies: (line.copies > 0).then_some(line.copies),
        copies_for: line.copies_for.clone(),
        sides,
        paper: line.paper.clone(),
    }
}
