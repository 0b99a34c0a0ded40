//! The HTML page of a document: its text, what it must never hold, and that
//! equal input gives equal bytes. `tests/web` holds it against a validator, an
//! accessibility checker and a real browser.

use std::collections::BTreeMap;
use std::sync::Arc;

use leeside::doc::{
    Align, Anchor, Block, CardFold, Document, Figure, Fill, Inline, Item, Paper, Pen, Shape,
    Signal, Style, Table, Words,
};
use leeside::load;
use leeside::markdown::read;
use leeside::render::html::{IndexGroup, IndexPage, IndexSheet, Shell, ShellFiles, html, index};
use sha2::{Digest as _, Sha256};

use crate::markdown::style;

const FILES: ShellFiles<'static> = ShellFiles {
    page: include_str!("../templates/page/shell.html"),
    style: include_str!("../templates/page/page.css"),
    script: include_str!("../templates/page/page.js"),
    cards: include_str!("../templates/page/cards.js"),
    learn: include_str!("../templates/page/learn.js"),
    season: include_str!("../templates/page/season.js"),
};

/// What pages say by themselves in a language.
pub fn words(language: &str) -> Arc<Words> {
    let templates = load::templates().templates_in(language);
    let templates = templates.expect("templates in that language");
    let said = load::page_words(&templates[load::WORDS]).expect("words in that language");
    Arc::new(Words::of(language, said))
}

pub fn shell_in(language: &str) -> Shell {
    Shell::new(FILES, &words(language)).expect("the built-in shell")
}

fn shell() -> Shell {
    shell_in("en")
}

pub fn figures() -> BTreeMap<String, Figure> {
    let pen = |width| Pen {
        width,
        dash: Vec::new(),
    };
    let figure = Figure {
        id: "heat-path".into(),
        caption: "Where the heat goes".into(),
        alt: "Arrows lead from the flame to the pot & to the wind.".into(),
        width: 300.0,
        height: 120.0,
        shapes: vec![
            Shape::Line {
                points: vec![(10.0, 100.0), (290.0, 100.0)],
                closed: false,
                pen: Pen {
                    width: 1.0,
                    dash: vec![4.0, 2.0],
                },
                fill: Fill::None,
            },
            Shape::Line {
                points: vec![(100.0, 30.0), (200.0, 30.0), (200.0, 80.0), (100.0, 80.0)],
                closed: true,
                pen: pen(1.5),
                fill: Fill::Hatched,
            },
            Shape::Ellipse {
                centre: (150.0, 55.0),
                radii: (24.0, 12.0),
                pen: pen(1.0),
                fill: Fill::White,
            },
            Shape::Curve {
                points: vec![(150.0, 98.0), (140.0, 95.0), (145.0, 88.0), (150.0, 82.0)],
                closed: false,
                pen: pen(0.0),
                fill: Fill::Black,
            },
            Shape::Label {
                at: (150.0, 59.0),
                anchor: Anchor::Middle,
                size: 10.0,
                bold: true,
                text: "pot <2 L>".into(),
            },
        ],
    };
    BTreeMap::from([(figure.id.clone(), figure)])
}

pub fn sheet() -> Document {
    let text = include_str!("markdown/subset.md");
    read(
        "subset.md",
        text,
        &figures(),
        style(),
        "Content of 2027-01-15. <Not> first aid.",
    )
    .expect("reads")
}

pub fn deck() -> Document {
    let style = Style {
        cards: Some(CardFold::SingleSided),
        ..style()
    };
    let text = include_str!("render_html/cards.md");
    read("cards.md", text, &BTreeMap::new(), style, "foot").expect("reads")
}

/// A sheet with everything in it that a sheet can hold.
pub fn long() -> Document {
    let text = include_str!("render_html/long.md");
    read(
        "long.md",
        text,
        &figures(),
        style(),
        "Content of 2027-01-15.",
    )
    .expect("reads")
}

fn folder_of_sheets() -> IndexPage {
    let sheet = |title: &str, file: &str, copies| IndexSheet {
        title: title.into(),
        about: "what it is for".into(),
        links: vec![
            ("PDF".into(), format!("{file}.pdf")),
            ("on screen".into(), format!("{file}.html")),
        ],
        copies,
        copies_for: "one a kitchen".into(),
        sides: "both".into(),
        paper: "A4".into(),
    };
    IndexPage {
        title: "Quillback Ridge: for learners".into(),
        notes: vec!["Print what the table says.".into()],
        facts: vec![("Who".into(), "8 learners & 2 instructors".into())],
        ways: vec![("Front page".into(), "../index.html".into())],
        groups: vec![IndexGroup {
            title: "Before you leave".into(),
            sheets: vec![
                sheet("Briefing sheet", "briefing-sheet", Some(1)),
                sheet(
                    "Kitchen checklist: Blue & Red",
                    "kitchen-checklist-blue red",
                    Some(2),
                ),
                sheet("Study cards", "study-cards", None),
            ],
        }],
        foot: "Content of 2027-01-15".into(),
        paper: Paper::A4,
    }
}

fn text(bytes: Vec<u8>) -> String {
    String::from_utf8(bytes).expect("UTF-8")
}

fn page(document: &Document) -> String {
    text(html(document, &shell()).expect("a page"))
}

/// The part of a page between its style and its scripts.
fn middle(page: &str) -> &str {
    let start = page.find("<body").expect("a body");
    let end = page.find("<script>").unwrap_or(page.len());
    &page[start..end]
}

#[test]
fn a_sheet_as_a_page() {
    insta::assert_snapshot!(middle(&page(&sheet())));
}

#[test]
fn cards_as_a_page() {
    insta::assert_snapshot!(middle(&page(&deck())));
}

#[test]
fn an_index_as_a_page() {
    insta::assert_snapshot!(middle(&text(
        index(&folder_of_sheets(), &shell()).expect("a page")
    )));
}

#[test]
fn equal_documents_give_equal_bytes() {
    assert_eq!(page(&sheet()), page(&sheet()));
    assert_ne!(page(&sheet()), page(&deck()));
}

/// Content Security Policy Level 3, section 2.3.1: a hash source is the Base64
/// of the SHA-256 digest of the element's text.
#[test]
fn the_policy_allows_only_its_own_style_and_script() {
    let page = page(&sheet());
    for (name, open, close) in [
        ("style-src", "<style>", "</style>"),
        ("script-src", "<script>", "</script>"),
    ] {
        let start = page.find(open).expect(open) + open.len();
        let end = start + page[start..].find(close).expect(close);
        let digest = Sha256::digest(&page.as_bytes()[start..end]);
        let hex: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
        let mark = format!("{name} 'sha256-");
        let value = page[page.find(&mark).expect(name) + mark.len()..]
            .split('\'')
            .next();
        assert_eq!(hex_of_base64(value.unwrap_or_default()), hex, "{name}");
    }
    assert!(page.contains("default-src 'none'"));
}

fn hex_of_base64(text: &str) -> String {
    let signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let bits: String = text
        .chars()
        .filter_map(|sign| signs.find(sign))
        .map(|value| format!("{value:06b}"))
        .collect();
    bits.as_bytes()
        .chunks_exact(8)
        .filter_map(|byte| std::str::from_utf8(byte).ok())
        .filter_map(|byte| u8::from_str_radix(byte, 2).ok())
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

#[test]
fn nothing_is_fetched_and_nothing_runs_from_attributes() {
    for page in [
        page(&sheet()),
        page(&deck()),
        text(index(&folder_of_sheets(), &shell()).expect("a page")),
    ] {
        let middle = middle(&page);
        for word in [
            "src=",
            " style=",
            " onclick",
            " onload",
            "javascript:",
            "<link",
            "<iframe",
            "<img",
        ] {
            assert!(!middle.contains(word), "{word}");
        }
        assert!(!FILES.style.contains("url(") && !FILES.style.contains("@import"));
        for word in ["fetch(", "XMLHttpRequest", "eval(", "innerHTML"] {
            assert!(!page.contains(word), "{word}");
        }
    }
}

/// Words of a document, wherever they stand, come out escaped.
#[test]
fn hostile_words_are_never_markup() {
    const EVIL: &str = "\"><script>alert(1)</script><a href='x";
    let words = || vec![Inline::Text(EVIL.into())];
    let paragraph = || Block::Paragraph(words());
    let tick = |blocks| Item { tick: true, blocks };
    let field = vec![Inline::Text(EVIL.into()), Inline::Blank(5), Inline::Tick];
    let mut figure = figures().remove("heat-path").expect("there");
    figure.caption = EVIL.into();
    figure.alt = EVIL.into();
    figure.shapes = vec![Shape::Label {
        at: (0.0, 0.0),
        anchor: Anchor::End,
        size: 9.0,
        bold: false,
        text: EVIL.into(),
    }];
    let document = Document {
        title: EVIL.into(),
        foot: EVIL.into(),
        style: style(),
        group: None,
        words: std::sync::Arc::default(),
        blocks: vec![
            Block::Heading {
                level: 1,
                anchor: EVIL.into(),
                text: words(),
            },
            Block::List {
                start: Some(3),
                items: vec![
                    tick(vec![paragraph()]),
                    tick(vec![Block::Paragraph(field.clone())]),
                ],
            },
            Block::Table(Table {
                columns: vec![Align::Left, Align::Right],
                head: vec![words(), words()],
                rows: vec![vec![words(), field.clone()]],
            }),
            Block::Caution {
                signal: Signal::Danger,
                blocks: vec![paragraph()],
            },
            Block::Paragraph(vec![Inline::Link {
                target: format!("https://{EVIL}"),
                text: words(),
            }]),
            Block::Figure(figure),
        ],
    };
    let page = page(&document);
    assert_eq!(page.matches("<script>").count(), 1, "only the page's own");
    assert!(!page.contains("<a href='x"));
    assert!(!page.contains("\"><script>alert"));
}

#[test]
fn every_field_has_a_name_and_ids_are_unique() {
    for page in [page(&sheet()), page(&deck())] {
        let mut ids: Vec<_> = page
            .split(" id=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next())
            .collect();
        let all = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), all);
        for input in middle(&page).split("<input").skip(1) {
            let tag = input.split('>').next().unwrap_or_default();
            let id = tag
                .split(" id=\"")
                .nth(1)
                .and_then(|rest| rest.split('"').next())
                .expect("an id");
            let inside_label = input.split_once('>').is_some_and(|(_, rest)| {
                rest.trim_start_matches("<span>").find("</label>")
                    < rest.find("<input").or(Some(usize::MAX))
            });
            let named = tag.contains("aria-label=\"")
                || inside_label
                || page.contains(&format!("for=\"{id}\""));
            assert!(named, "{tag}");
        }
    }
}

#[test]
fn paper_and_sizes_come_from_the_style() {
    let mut document = sheet();
    document.style = Style {
        paper: Paper::Letter,
        landscape: true,
        body_pt: 18.0,
        two_column_ticks: true,
        ..style()
    };
    let page = page(&document);
    for part in [
        "@page{size:letter landscape;margin:36pt}",
        "--body-pt:18pt",
        "--screen:1.50",
        "--tick-columns:2",
    ] {
        assert!(page.contains(part), "{part}");
    }
}

#[test]
fn a_broken_shell_is_a_problem() {
    let broken = ShellFiles {
        page: "{% if x %}",
        ..FILES
    };
    assert_eq!(
        Shell::new(broken, &words("en")).err().expect("refused")[0].code,
        "page.shell"
    );
    let escaping = ShellFiles {
        style: "a{} </STYLE><script>",
        script: "</script>",
        ..FILES
    };
    assert_eq!(
        Shell::new(escaping, &words("en"))
            .err()
            .expect("refused")
            .len(),
        2
    );
    // what a page template loses is lost from every sheet, its cautions too
    let page = FILES.page.replace("{{ main | safe }}", "");
    for page in [
        page.as_str(),
        "{{ nothing_of_this_name.at_all }}",
        "<main></main>",
    ] {
        let losing = ShellFiles { page, ..FILES };
        let problems = Shell::new(losing, &words("en")).err().expect("refused");
        assert_eq!(problems[0].code, "page.shell", "{page}");
    }
}

/// Pages for `tests/web/check.mjs`, under the build folder's `tmp/pages`: one of
/// each kind, with everything in them that a sheet can hold.
#[test]
fn pages_for_the_web_check() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("pages");
    std::fs::create_dir_all(&folder).expect("a folder");
    let long = include_str!("render_html/long.md");
    let long = read(
        "long.md",
        long,
        &figures(),
        style(),
        "Content of 2027-01-15.",
    )
    .expect("reads");
    let mut large = long.clone();
    large.style.body_pt = 18.0;
    large.style.paper = Paper::Letter;
    // What the index leads to, so that its links can be followed.
    for sheet in folder_of_sheets()
        .groups
        .iter()
        .flat_map(|group| &group.sheets)
    {
        for (_, file) in &sheet.links {
            let page = if file.ends_with("html") {
                page(&deck())
            } else {
                String::new()
            };
            std::fs::write(folder.join(file), page).expect("written");
        }
    }
    let folder_page = text(index(&folder_of_sheets(), &shell()).expect("a page"));
    for (name, page) in [
        ("subset.html", page(&sheet())),
        ("checklist.html", page(&long)),
        ("large.html", page(&large)),
        ("cards.html", page(&deck())),
        ("index.html", folder_page),
    ] {
        assert!(page.ends_with("</html>\n"), "{name}");
        std::fs::write(folder.join(name), page).expect("written");
    }
}
