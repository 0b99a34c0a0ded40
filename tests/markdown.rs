//! The allowed subset of Markdown: what it reads, what it refuses, and that a
//! value never turns into markup. Rules of Markdown itself are held against the
//! examples of the CommonMark specification 0.31.2 (https://spec.commonmark.org/0.31.2/)
//! and, for tables, GitHub Flavored Markdown 0.29 (https://github.github.com/gfm/).

use std::collections::BTreeMap;

use leeside::diag::Problem;
use leeside::doc::{Align, Block, Document, Figure, Inline, Paper, Signal, Style, plain};
use leeside::markdown::{check_prose, escape, read};
use proptest::prelude::*;

pub fn style() -> Style {
    Style {
        paper: Paper::A4,
        body_pt: 11.0,
        caution_pt: 12.0,
        tick_pt: 18.0,
        two_column_ticks: false,
        margin_pt: 36.0,
        most_pages: None,
        still_good_pages: None,
        corner_hole: false,
        drawings_if_room: false,
        cards: None,
        landscape: false,
    }
}

fn figures() -> BTreeMap<String, Figure> {
    let figure = Figure {
        id: "heat-path".into(),
        caption: "Where the heat goes".into(),
        alt: "Arrows from flame to pot".into(),
        width: 100.0,
        height: 50.0,
        shapes: Vec::new(),
    };
    BTreeMap::from([(figure.id.clone(), figure)])
}

fn parse(text: &str) -> Result<Document, Vec<Problem>> {
    read("sheet.md", text, &figures(), style(), "foot")
}

fn blocks(body: &str) -> Vec<Block> {
    let document = parse(&format!("# Sheet\n\n{body}\n"));
    let mut document = document.unwrap_or_else(|problems| panic!("{body}\n{problems:?}"));
    document.blocks.remove(0);
    document.blocks
}

/// Code, line and column of each problem in a body that starts on line 3.
fn refused(body: &str) -> Vec<(&'static str, usize, usize)> {
    let problems = parse(&format!("# Sheet\n\n{body}\n")).expect_err(body);
    let place = |problem: &Problem| {
        assert!(!problem.help.is_empty() && !problem.message.is_empty());
        let place = problem.place.clone().expect("a place");
        assert_eq!(&*place.file, "sheet.md");
        (problem.code, place.line, place.column)
    };
    problems.iter().map(place).collect()
}

fn text(words: &str) -> Inline {
    Inline::Text(words.into())
}

#[test]
fn reads_the_whole_subset() {
    let document = parse(include_str!("markdown/subset.md")).expect("no problems");
    insta::assert_debug_snapshot!(document.blocks);
}

#[test]
fn a_sheet_has_a_title_foot_and_style() {
    let document = parse("# Two *words*\n").expect("no problems");
    assert_eq!(document.title, "Two words");
    assert_eq!(document.foot, "foot");
    assert_eq!(document.style, style());
}

#[test]
fn blanks_and_ticks_are_never_markup() {
    assert_eq!(
        blocks("(____) and (____) [ ] x"),
        [Block::Paragraph(vec![
            text("("),
            Inline::Blank(4),
            text(") and ("),
            Inline::Blank(4),
            text(") "),
            Inline::Tick,
            text("\u{a0}x"),
        ])]
    );
    assert_eq!(blocks("______"), [Block::Paragraph(vec![Inline::Blank(6)])]);
    assert_eq!(
        blocks(r"\_\_\_ \[ ] \[ \]"),
        [Block::Paragraph(vec![text("___ [ ] [ ]")])]
    );
}

#[test]
fn tables_keep_ticks_blanks_and_bars() {
    let [Block::Table(table)] =
        &blocks("| a | b | c |\n|:--|:-:|--:|\n| [ ] | ___ | x \\| y |")[..]
    else {
        panic!("one table");
    };
    assert_eq!(table.columns, [Align::Left, Align::Centre, Align::Right]);
    assert_eq!(
        table.rows,
        [[
            vec![Inline::Tick],
            vec![Inline::Blank(3)],
            vec![text("x | y")]
        ]]
    );
}

#[test]
fn cautions_carry_their_signal() {
    for (word, signal) in [
        ("DANGER", Signal::Danger),
        ("WARNING", Signal::Warning),
        ("CAUTION", Signal::Caution),
        ("NOTICE", Signal::Notice),
    ] {
        let words = vec![Block::Paragraph(vec![text("Hot pot.")])];
        let caution = Block::Caution {
            signal,
            blocks: words.clone(),
        };
        assert_eq!(
            blocks(&format!("> [!{word}]\n> Hot pot.")),
            std::slice::from_ref(&caution)
        );
        assert_eq!(blocks(&format!("> [!{word}]\n>\n> Hot pot.")), [caution]);
        assert_eq!(blocks("> Hot pot."), [Block::Boxed(words)]);
    }
}

/// CommonMark 0.31.2, examples 12 and 14 (all ASCII punctuation can be escaped;
/// an escaped sign has no meaning), 27 (a numeric entity does not make markup).
#[test]
fn commonmark_escapes_hold() {
    let all = "\\!\\\"\\#\\$\\%\\&\\'\\(\\)\\*\\+\\,\\-\\.\\/\\:\\;\\<\\=\\>\\?\\@\\[\\\\\\]\\^\\_\\`\\{\\|\\}\\~";
    assert_eq!(
        blocks(all),
        [Block::Paragraph(vec![text(
            "!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~"
        )])]
    );
    assert_eq!(
        blocks(
            "\\*not emphasized*\n\\<br/> not a tag\n\\[not a link](/foo)\n\\&ouml; not a character entity"
        ),
        [Block::Paragraph(vec![text(
            "*not emphasized* <br/> not a tag [not a link](/foo) &ouml; not a character entity"
        )])]
    );
    assert_eq!(
        blocks("&#42;foo&#42;"),
        [Block::Paragraph(vec![text("*foo*")])]
    );
}

#[test]
fn refuses_what_is_outside() {
    for (body, code, line, column) in [
        ("Use `code` here", "markdown.code", 3, 5),
        ("    four blanks", "markdown.code", 3, 5),
        ("```\nx\n```", "markdown.fence", 3, 1),
        ("```rust\nx\n```", "markdown.fence", 3, 1),
        ("a <b>c</b>", "markdown.html", 3, 3),
        ("<div>", "markdown.html", 3, 1),
        ("see ![x](y.png)", "markdown.image", 3, 5),
        ("note[^1]", "markdown.footnote", 3, 5),
        ("[^1]: note", "markdown.reference", 3, 1),
        ("[a]: https://example.org", "markdown.reference", 3, 1),
        ("[a](http://example.org)", "markdown.link", 3, 1),
        ("[a](javascript:alert(1))", "markdown.link", 3, 1),
        ("[a](data:text/html,x)", "markdown.link", 3, 1),
        ("[a](other.html)", "markdown.link", 3, 1),
        ("[a](#nowhere)", "markdown.anchor", 3, 1),
        ("[](https://example.org)", "markdown.empty", 3, 1),
        ("|a|b|\n|-|-|\n|1|2|\n\n|3|4|", "markdown.table", 7, 1),
        ("|a|b|\n|-|-|\n|1|", "markdown.table", 5, 1),
        ("|a|b|\n|-|-|\n|1|2|3|", "markdown.table", 5, 1),
        ("|a|b|\n|-|-|\n|1|2|\nwords", "markdown.table", 6, 1),
        ("a **** b", "markdown.emphasis", 3, 3),
        ("a ** ** b", "markdown.emphasis", 3, 3),
        ("a __ b", "markdown.emphasis", 3, 3),
        ("a ~~b~~", "markdown.emphasis", 3, 3),
        ("****", "markdown.rule", 3, 1),
        ("* * *", "markdown.rule", 3, 1),
        ("- a\n\n  ***", "markdown.rule", 5, 3),
        ("##", "markdown.empty", 3, 1),
        ("-\n- b", "markdown.empty", 3, 1),
        ("- [ ]\n- b", "markdown.empty", 3, 1),
        ("- [x] b", "markdown.tick", 3, 1),
        (">", "markdown.empty", 3, 1),
        ("> [!WARNING]", "markdown.empty", 3, 1),
        ("> [!TIP]\n> x", "markdown.signal", 3, 1),
        ("> [!WARNING] x", "markdown.signal", 3, 1),
        (
            "> [!WARNING]\n> a\n> [!NOTICE]\n> b",
            "markdown.signal",
            5,
            1,
        ),
        ("> [!WARNING]\n> a\nb", "markdown.box", 5, 1),
        ("### deep", "markdown.level", 3, 1),
        ("# second", "markdown.title", 3, 1),
        ("words\n---", "markdown.heading", 3, 1),
        ("> ## x", "markdown.heading", 3, 3),
        ("```figure heat-pat\n```", "markdown.figure", 3, 1),
        ("é \u{202e}x", "markdown.character", 3, 3),
        ("- > box first", "markdown.item", 3, 1),
    ] {
        assert!(
            refused(body).contains(&(code, line, column)),
            "{body:?} gave {:?}",
            refused(body)
        );
    }
}

#[test]
fn refuses_a_sheet_without_its_title() {
    for body in ["words", "## x", "words\n\n# late", ""] {
        let problems = parse(body).expect_err(body);
        assert!(
            problems
                .iter()
                .any(|problem| problem.code == "markdown.title")
        );
    }
}

#[test]
fn reports_every_problem_in_order() {
    let codes: Vec<_> = refused("`a`\n\n<b>\n\n![c](d)")
        .into_iter()
        .map(|p| p.1)
        .collect();
    assert_eq!(codes, [3, 5, 7]);
}

#[test]
fn very_deep_nesting_is_refused() {
    for body in [
        ">".repeat(5000) + " x",
        "- ".repeat(5000) + "x",
        "*_".repeat(5000) + "x",
    ] {
        let _ = parse(&format!("# Sheet\n\n{body}"));
    }
    assert!(
        refused(&(">".repeat(60) + " x"))
            .iter()
            .any(|p| p.0 == "markdown.deep")
    );
}

#[test]
fn prose_is_checked_alone() {
    assert_eq!(
        check_prose(
            "m.yaml",
            "### Wind\n\n{distance} [x](#there)\n\n```figure any\n```"
        ),
        []
    );
    let codes: Vec<_> = check_prose("m.yaml", "# Wind\n\n`x`")
        .iter()
        .map(|p| p.code)
        .collect();
    assert_eq!(codes, ["markdown.title", "markdown.code"]);
}

/// The words of a value with runs of blanks made one and unseen signs gone.
fn said(value: &str) -> String {
    let seen: String = value
        .chars()
        .map(|sign| if sign.is_control() && !matches!(sign, '\n' | '\t' | '\r') { '\u{0}' } else { sign })
        .filter(|sign| *sign != '\u{0}')
        .filter(|sign| !matches!(*sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}'))
        .collect();
    seen.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// One plain text, or nothing if there is markup in it.
fn words(inlines: &[Inline]) -> Option<String> {
    inlines
        .iter()
        .all(|inline| matches!(inline, Inline::Text(_)))
        .then(|| said(&plain(inlines)))
}

fn stays_plain(value: &str) {
    let put = escape(value);
    let want = said(value);
    let para = |blocks: &[Block]| match blocks {
        [Block::Paragraph(inlines)] => words(inlines),
        _ => None,
    };
    let ok = |got: Option<String>, spot: &str| {
        assert_eq!(got.as_ref(), Some(&want), "{spot}: {value:?} -> {put:?}");
    };
    ok(para(&blocks(&format!("x\n\n{put}"))[1..]), "paragraph");
    let [Block::Table(table)] = &blocks(&format!("| a | b |\n|---|---|\n| {put} | z |"))[..] else {
        panic!("table: {value:?}");
    };
    ok(words(&table.rows[0][0]), "cell");
    assert_eq!(table.rows[0][1], [text("z")], "next cell: {value:?}");
    let [Block::List { items, start: None }] = &blocks(&format!("- {put}\n- z"))[..] else {
        panic!("list: {value:?}");
    };
    assert_eq!(items.len(), 2);
    ok(para(&items[0].blocks), "item");
    let [Block::List { items, .. }] = &blocks(&format!("1. [ ] {put}"))[..] else {
        panic!("ticks: {value:?}");
    };
    assert!(items[0].tick);
    ok(para(&items[0].blocks), "tick item");
    let [Block::Heading { text: heading, .. }] = &blocks(&format!("## {put}"))[..] else {
        panic!("heading: {value:?}");
    };
    ok(words(heading), "heading");
    let [Block::Caution { blocks: inner, .. }] = &blocks(&format!("> [!DANGER]\n> {put}"))[..]
    else {
        panic!("caution: {value:?}");
    };
    ok(para(inner), "caution");
    let [Block::Boxed(inner)] = &blocks(&format!("> {put}"))[..] else {
        panic!("box: {value:?}");
    };
    ok(para(inner), "box");
    let [Block::Paragraph(inlines)] = &blocks(&format!("a **{put}** b"))[..] else {
        panic!("bold: {value:?}");
    };
    // A value may open with a sign that keeps `**` from working; it shows then, no more.
    assert!(said(&plain(inlines)).contains(&want), "bold: {value:?}");
}

#[test]
fn hostile_values_stay_plain() {
    for value in [
        "**bold**",
        "_x_",
        "__x__",
        "***",
        "---",
        "___",
        "- - -",
        "* * *",
        "# Title",
        "###### x",
        "a #",
        "a ##",
        "#",
        "##",
        "= =",
        "===",
        "x\n===",
        "x\n---",
        "1. one",
        "1) one",
        "999999999. x",
        "- a",
        "+ a",
        "* a",
        "> quote",
        "> [!DANGER]",
        "[!DANGER]",
        "[ ]",
        "[x]",
        "[a](https://example.org)",
        "[a]: https://example.org",
        "[^1]",
        "[^1]: x",
        "![a](b)",
        "<script>alert(1)</script>",
        "<!-- x -->",
        "<https://example.org>",
        "&lt;",
        "&#42;",
        "&amp;",
        "`code`",
        "```figure heat-path",
        "~~~",
        "~~x~~",
        "| a | b |",
        "|---|---|",
        "a | b",
        "\\",
        "\\\\",
        "\\|",
        "a\\",
        "a\\\nb",
        "a  \nb",
        "    code",
        "\tcode",
        "{{ config }}",
        "{% raw %}",
        "{distance}",
        "$x$",
        "$$x$$",
        "^x^",
        "H~2~O",
        ":--|",
        ": x",
        "# #",
        "- #",
        "\u{0}",
        "a\u{0}b",
        "a\u{1}\u{1}\u{1}b",
        "a\u{2} \u{3}",
        "\u{202e}evil",
        "\u{feff}# x",
        "\u{85}# x",
        "a\u{2028}# x",
        "\u{b}- x",
        "(___) (___)",
        "a_b_c",
        "2*3*4",
        "*",
        "_",
        "~",
        "!",
        "'quoted' \"text\"",
        "-- --- ...",
        "5 °C",
        "½ L",
        "no. 1.",
        "1.",
        "-5",
        "+5",
        "=",
    ] {
        if !said(value).is_empty() {
            stays_plain(value);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn any_value_stays_plain(value in r"[-\\`*_\[\]<>|~&!^{}#+=:.()0-9a x\n\t$\x01-\x04é]{1,24}") {
        if !said(&value).is_empty() {
            stays_plain(&value);
        }
    }

    #[test]
    fn any_unicode_value_stays_plain(value in "\\PC{1,16}") {
        if !said(&value).is_empty() {
            stays_plain(&value);
        }
    }

    /// Whatever is written, reading it ends, and every problem has a place in it.
    #[test]
    fn any_text_is_read_or_refused(body in r"([-\\`*_\[\]<>|~!^{}#+=:.() a\n\t]|\[ \]|\n> |\n- |\[!NOTICE\]|___){0,60}") {
        let text = format!("# Sheet\n\n{body}");
        if let Err(problems) = parse(&text) {
            for problem in problems {
                let place = problem.place.expect("a place");
                let line = text.lines().nth(place.line - 1).unwrap_or_default();
                prop_assert!(place.column <= line.chars().count() + 1);
            }
        }
    }
}
