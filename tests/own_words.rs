//! What pages say by themselves: one file of words a language, whole, and no word of another
//! language beside them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use leeside::doc::learn::{Objective, Page, Subject, Sum, Sums, Try, Way};
use leeside::doc::{CardFold, Document, Inline, Paper, Signal, Style, Words};
use leeside::load::{self, WORDS};
use leeside::markdown::read;
use leeside::render::docx;
use leeside::render::html::{
    IndexGroup, IndexPage, IndexSheet, SeasonPage, SeasonRow, html, index, learn, season,
};

use crate::layering::{root, sources};
use crate::markdown::style;
use crate::render_html::{shell_in, words};

#[test]
fn the_words_that_any_sheet_needs_are_those_of_the_file() {
    let bare = Words::of("en", words("en").all().clone());
    let built_in = Words::default();
    assert_eq!(bare.page, built_in.page);
    assert_eq!(bare.signals, built_in.signals);
    let pairs = [
        (bare.language, built_in.language),
        (bare.table, built_in.table),
        (bare.drawing, built_in.drawing),
        (bare.write_here, built_in.write_here),
        (bare.tick_when_done, built_in.tick_when_done),
        (bare.second_box, built_in.second_box),
        (bare.line_to_write_on, built_in.line_to_write_on),
        (bare.box_to_tick, built_in.box_to_tick),
        (bare.empty_side, built_in.empty_side),
    ];
    for (file, built_in) in pairs {
        assert_eq!(file, built_in);
    }
}

/// What stands between quotation marks right after `ask` in a text.
fn asked<'t>(text: &'t str, ask: &str) -> Vec<&'t str> {
    text.split(ask)
        .skip(1)
        .filter_map(|rest| rest.trim_start().strip_prefix('"')?.split('"').next())
        .collect()
}

fn text_of(path: &Path) -> String {
    std::fs::read_to_string(path).expect("a source")
}

/// A key that is misspelt in a script, the page template or the program would print nothing.
#[test]
fn every_key_that_is_asked_for_has_words_and_every_word_is_asked_for() {
    let known: BTreeSet<String> = words("en").all().keys().cloned().collect();
    let mut rust: Vec<PathBuf> = vec![root().join("src/doc/words.rs")];
    sources(&root().join("src/render/html"), &mut rust);
    sources(&root().join("src/packet"), &mut rust);
    let mut told = String::new();
    let mut keys: BTreeSet<String> = BTreeSet::new();
    for path in rust {
        let text = text_of(&path);
        // tests within a file ask for words of their own
        let text = text.split("#[cfg(test)]").next().unwrap_or_default();
        for ask in [".say(", ".put("] {
            keys.extend(asked(text, ask).into_iter().map(str::to_owned));
        }
        told.push_str(text);
    }
    for name in ["shell.html", "page.js", "cards.js", "learn.js", "season.js"] {
        let text = text_of(&root().join("templates/page").join(name));
        for ask in ["WORDS[", "words["] {
            let found = asked(&text, ask).into_iter().map(str::to_owned);
            keys.extend(found);
        }
    }
    assert!(keys.len() > 100, "{} keys were found", keys.len());
    let without: Vec<&String> = keys.difference(&known).collect();
    assert!(without.is_empty(), "no words under {without:?}");
    let unsaid = known.difference(&keys);
    let unsaid: Vec<&String> = unsaid
        .filter(|key| !told.contains(&format!("\"{key}\"")))
        .collect();
    assert!(unsaid.is_empty(), "nothing says {unsaid:?}");
}

/// A sheet of invented Spanish text with all that a page can hold.
fn sheet_in_spanish(style: Style) -> Document {
    let text = "# Junco Alto\n\n## Antes\n\n- [ ] Llene la olla\n- [ ] Revise [ ]\n\n\
        Nombre: ____________\n\n## Comida\n\n\
        | Plato | Tazas |\n| --- | ---: |\n| Sopa | 2 |\n\n\
        > [!WARNING]\n> Apague la llama.\n\n## Lavado\n\nCuele.\n\n## Regreso\n\nRevise.\n\n\
        ### Pregunta\n\nRespuesta.\n";
    let foot = "Contenido del 2027-01-15.";
    let mut document =
        read("junco.md", text, &BTreeMap::new(), style, foot).expect("it is in the subset");
    document.words = words("es");
    document
}

fn deck_in_spanish() -> Document {
    let style = Style {
        cards: Some(CardFold::SingleSided),
        ..style()
    };
    let text = "# Tarjetas\n\n## Llama\n\n### Primera\n\nUna.\n\n### Segunda\n\nOtra.\n";
    let mut document = read("tarjetas.md", text, &BTreeMap::new(), style, "Pie").expect("reads");
    document.words = words("es");
    document
}

fn course_in_spanish() -> Page {
    let say = |words: &str| vec![Inline::Text(words.to_owned())];
    let one = |id: &str, way, choices: &[&str]| Try {
        id: format!("llama.{id}"),
        objective: "llama.apagar".to_owned(),
        way,
        ask: say("Llama alta y amarilla"),
        choices: choices.iter().map(|one| say(one)).collect(),
        answer: say("Cierre la perilla"),
        because: say("Queda combustible"),
        scene: None,
    };
    let objective = |id: &str, must| Objective {
        id: format!("llama.{id}"),
        say: say("Apague la cocinilla"),
        must,
    };
    Page {
        title: "Junco Alto".to_owned(),
        notes: vec!["Hoja inventada".to_owned()],
        subjects: vec![Subject {
            id: "llama".to_owned(),
            title: "Llama".to_owned(),
            about: say("Encender y apagar"),
            figures: Vec::new(),
            steps: vec![say("Cierre la perilla")],
            cautions: Signal::ALL.map(|one| (one, say("Quema"))).to_vec(),
            objectives: vec![objective("apagar", true), objective("mirar", false)],
            tries: vec![
                one("q1", Way::Choice, &["Cerrar", "Soplar"]),
                one("q2", Way::Order, &["Cerrar", "Esperar"]),
                one("q3", Way::Words, &[]),
            ],
        }],
        sums: vec![Sums {
            title: "Combustible".to_owned(),
            numbers: vec!["15 g".to_owned()],
            table: None,
            problems: vec![Sum {
                ask: "Gramos para dos cenas".to_owned(),
                answer: "30".to_owned(),
                unit: "g".to_owned(),
                range: (29.0, 31.0),
                tolerance: "1 g".to_owned(),
                steps: vec![("Dos cenas".to_owned(), "2 x 15".to_owned(), "30".to_owned())],
            }],
        }],
        foot: "Pie".to_owned(),
    }
}

fn folder_in_spanish() -> IndexPage {
    IndexPage {
        title: "Junco Alto".to_owned(),
        notes: Vec::new(),
        facts: Vec::new(),
        ways: Vec::new(),
        groups: vec![IndexGroup {
            title: "Hojas".to_owned(),
            sheets: vec![IndexSheet {
                title: "Tarjeta de cocina".to_owned(),
                about: String::new(),
                links: vec![("PDF".to_owned(), "tarjeta.pdf".to_owned())],
                copies: Some(1),
                copies_for: "una por cocina".to_owned(),
                sides: "2 caras".to_owned(),
                paper: "A4".to_owned(),
            }],
        }],
        foot: "Pie".to_owned(),
        paper: Paper::A4,
    }
}

fn season_in_spanish() -> SeasonPage {
    let row = SeasonRow {
        day: "2027-01-15".to_owned(),
        name: "Junco".to_owned(),
        trip: "Alto".to_owned(),
        red: vec!["Falta guía".to_owned()],
        ..SeasonRow::default()
    };
    SeasonPage {
        title: "Temporada".to_owned(),
        rows: vec![row],
        orders: vec![["3".to_owned(), "cartucho".to_owned(), "2".to_owned()]],
        foot: "Pie".to_owned(),
        ..SeasonPage::default()
    }
}

/// Every page of ours in Spanish: its name and its text.
fn pages_in_spanish() -> Vec<(&'static str, String)> {
    let shell = shell_in("es");
    let pages = [
        ("sheet", html(&sheet_in_spanish(style()), &shell)),
        ("cards", html(&deck_in_spanish(), &shell)),
        ("course", learn(&course_in_spanish(), Paper::A4, &shell)),
        ("index", index(&folder_in_spanish(), &shell)),
        ("season", season(&season_in_spanish(), &shell)),
    ];
    pages
        .map(|(name, page)| {
            (
                name,
                String::from_utf8(page.expect("a page")).expect("UTF-8"),
            )
        })
        .to_vec()
}

/// What a person sees or hears of a page: its text, labels, and the sentences in its scripts.
fn spoken(page: &str) -> Vec<String> {
    let mut said = Vec::new();
    let (_, body) = page.split_once("</head>").expect("a head");
    let (body, script) = body.split_once("<script>").unwrap_or((body, ""));
    for piece in body.split('<').skip(1) {
        let (tag, text) = piece.split_once('>').unwrap_or((piece, ""));
        said.push(text.to_owned());
        for label in tag.split("aria-label=\"").skip(1) {
            said.extend(label.split('"').next().map(str::to_owned));
        }
    }
    let code: Vec<&str> = script
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect();
    // a text of ours has a capital or a blank in it; names of events and classes have neither
    let code = code.join("\n").replace("\\\"", "'");
    let texts = code.split('"').skip(1).step_by(2);
    said.extend(
        texts
            .filter(|text| text.contains(' ') || text.contains(char::is_uppercase))
            .map(str::to_owned),
    );
    said
}

/// Words that English sentences are made with and Spanish ones never hold.
const ENGLISH: &[&str] = &[
    "the", "of", "and", "to", "is", "are", "was", "this", "that", "these", "for", "with", "what",
    "where", "which", "you", "your", "it", "its", "on", "at", "or", "from", "one", "all", "here",
    "back", "by", "be", "as", "when", "each", "how", "known", "page", "sheet", "card", "cards",
    "right", "wrong", "answer", "check", "learn", "look", "write", "step", "table", "drawing",
];

/// A text without the names of what is put into it.
fn without_values(text: &str) -> String {
    let pieces = text.split('{').enumerate();
    pieces
        .map(|(at, piece)| match piece.split_once('}') {
            Some((_, rest)) if at > 0 => rest,
            _ => piece,
        })
        .collect()
}

#[test]
fn a_page_in_spanish_says_no_english() {
    let (english, spanish) = (words("en"), words("es"));
    for (name, page) in pages_in_spanish() {
        assert!(page.contains("<html lang=\"es\">"), "{name}");
        let said = spoken(&page);
        assert!(said.len() > 10, "{name}: {said:?}");
        for text in &said {
            // choosing parts of a page and switching a script's mode are no sentences
            let chooses = text.contains(['#', '[', '.']) && text.contains([':', '[', '>']);
            let chooses = chooses && !text.contains(". ") || text.starts_with('.');
            if chooses || text == "use strict" {
                continue;
            }
            let english = without_values(text)
                .split(|sign: char| !sign.is_alphabetic())
                .find(|word| ENGLISH.contains(&word.to_lowercase().as_str()))
                .map(str::to_owned);
            assert_eq!(english, None, "{name}: {text:?}");
        }
        for (key, words) in english.all() {
            let own = &spanish.all()[key];
            let stands = said.iter().any(|text| text.trim() == words.as_str());
            assert!(own == words || !stands, "{name}: {words:?}");
        }
    }
}

/// The same test on an English page finds what it looks for.
#[test]
fn english_is_found_where_it_stands() {
    let page = html(&sheet_in_spanish(style()), &shell_in("en")).expect("a page");
    let said = spoken(&String::from_utf8(page).expect("UTF-8"));
    for words in ["To the sheet", "Clear this sheet", "{n} of {of}"] {
        assert!(said.iter().any(|text| text == words), "{words}: {said:?}");
    }
}

/// What a screen reader says of fields, tables and cautions, on the page and in print.
#[test]
fn fields_and_feet_speak_the_language_of_the_sheet() {
    let document = sheet_in_spanish(style());
    let page = html(&document, &shell_in("es")).expect("a page");
    let page = String::from_utf8(page).expect("UTF-8");
    for words in ["Tabla 1: Comida", ">ADVERTENCIA</p>", "Vaciar esta hoja"] {
        assert!(page.contains(words), "{words}");
    }
    assert!(!page.contains("WORDS["), "words that were not put in");
    let word = docx::docx(&document).expect("a file");
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(word)).expect("an archive");
    let foot: String = (0..archive.len())
        .map(|at| {
            std::io::read_to_string(archive.by_index(at).expect("a part")).unwrap_or_default()
        })
        .collect();
    assert!(foot.contains("Página ") && foot.contains(">es<"));
}

#[test]
fn a_language_of_its_own_has_the_keys_and_values_of_the_english_one() {
    let templates = load::templates().templates;
    let files = templates.keys().filter(|name| load::are_words(name));
    let files: Vec<&String> = files.collect();
    assert_eq!(files, ["es/page/words.json", WORDS]);
    for name in files {
        let said = load::page_words(&templates[name]).expect("whole");
        assert_eq!(said.len(), words("en").all().len(), "{name}");
    }
}

/// A language whose file of words is missing gets no packet: nothing falls back on English.
#[test]
fn a_language_without_words_of_its_own_is_refused() {
    let mut assets = load::templates();
    assets.templates.remove("es/page/words.json");
    let problems = assets.templates_in("es").expect_err("refused");
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].code, "language.template");
    assert!(problems[0].message.contains(WORDS), "{problems:?}");
}
