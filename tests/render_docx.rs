//! The word-processor file: what of a sheet is in it, and that equal input gives
//! equal bytes. Its parts follow ECMA-376 (Office Open XML), part 1.

use leeside::doc::{Anchor, Block, Document, Figure, Fill, Group, Inline, Item, Pen, Shape};
use leeside::render::docx::docx;

use crate::markdown::style;
use crate::render_html::{deck, long, sheet};

fn file(document: &Document) -> Vec<u8> {
    docx(document).expect("a file")
}

/// A part of the file; the parts are stored as they are, not packed.
fn part(bytes: &[u8], name: &str) -> String {
    let text = String::from_utf8_lossy(bytes);
    let start = text.find(&format!("{name}<?xml")).expect(name) + name.len();
    let end = text[start..]
        .find("PK\u{3}\u{4}")
        .or_else(|| text[start..].find("PK\u{1}\u{2}"));
    text[start..start + end.expect("an end")].to_owned()
}

fn body(document: &Document) -> String {
    part(&file(document), "word/document.xml")
}

#[test]
fn equal_documents_give_equal_bytes_in_any_order_and_thread() {
    let first = file(&long());
    let _ = file(&deck());
    assert!(file(&long()) == first);
    let other = std::thread::spawn(|| file(&long())).join().expect("ended");
    assert!(other == first);
}

#[test]
fn headings_lists_and_boxes_are_real_ones() {
    let body = body(&long());
    for (mark, count) in [
        ("<w:pStyle w:val=\"Heading1\" />", 1),
        ("<w:pStyle w:val=\"Heading2\" />", 5),
        ("<w:pStyle w:val=\"Heading3\" />", 1),
        ("<w:pStyle w:val=\"SignalWord\" />", 3),
        ("<w:tblHeader/>", 1),
        ("<w:pageBreakBefore />", 1),
        ("w:anchor=\"section2\"", 1),
    ] {
        assert_eq!(body.matches(mark).count(), count, "{mark}");
    }
    assert!(!body.contains("trHeight"), "only a mark for header rows");
    assert!(body.contains("________"));
    let numbering = part(&file(&long()), "word/numbering.xml");
    assert!(
        numbering.contains("w:val=\"\u{2610}\""),
        "boxes as marks of a list"
    );
}

/// Every word of the page is in the file too.
#[test]
fn no_words_are_lost() {
    for document in [long(), sheet(), deck()] {
        let body = body(&document);
        for block in &document.blocks {
            if let Block::Heading { text, .. } | Block::Paragraph(text) = block {
                for inline in text {
                    if let Inline::Text(words) = inline {
                        let words = words
                            .trim()
                            .replace('&', "&amp;")
                            .replace('<', "&lt;")
                            .replace('"', "&quot;");
                        assert!(body.contains(&words), "{words}");
                    }
                }
            }
        }
        let figures = document.blocks.iter().filter_map(|block| match block {
            Block::Figure(figure) => Some(figure),
            _ => None,
        });
        for figure in figures {
            assert!(
                body.contains(&figure.alt.replace('&', "&amp;")),
                "{}",
                figure.id
            );
            assert!(body.contains(&figure.caption), "{}", figure.id);
        }
    }
}

/// Drawings are groups of shapes with their description, and their words are words.
#[test]
fn a_drawing_is_shapes_that_say_what_they_show() {
    for document in [long(), sheet(), deck()] {
        let body = body(&document);
        assert!(
            !body.contains("<w:sym "),
            "a place is left without its drawing"
        );
        let figures: Vec<&Figure> = document
            .blocks
            .iter()
            .filter_map(|block| match block {
                Block::Figure(figure) => Some(figure),
                _ => None,
            })
            .collect();
        assert_eq!(body.matches("<wp:inline ").count(), figures.len());
        for figure in figures {
            let escaped = |words: &str| {
                let words = words.replace('&', "&amp;").replace('<', "&lt;");
                let words = words.replace('>', "&gt;").replace('"', "&quot;");
                words.replace('\'', "&#39;")
            };
            let told = escaped(&figure.alt);
            assert!(body.contains(&format!("descr=\"{told}\"")), "{}", figure.id);
            for shape in &figure.shapes {
                if let Shape::Label { text, .. } = shape {
                    let text = escaped(text);
                    assert!(body.contains(&format!(">{text}</w:t></w:r></w:p></w:txbxContent>")));
                }
            }
        }
    }
    let drawn = sheet_with_every_shape();
    let body = body(&drawn);
    for (mark, count) in [
        ("<a:cubicBezTo>", 1),
        ("prst=\"ellipse\"", 1),
        ("<a:pattFill prst=\"ltUpDiag\">", 1),
        // a dash of 4 and a gap of 3 with a pen of 0.5, in thousandths of a percent of it
        ("<a:ds d=\"800000\" sp=\"600000\"/>", 1),
        // lines that look alike and follow each other are one shape of two runs
        ("<a:moveTo>", 5),
        ("<a:custGeom>", 4),
        // the mark of the group stands beside the title, once
        ("<wp:anchor ", 1),
        // evil words are words
        ("&lt;/w:t&gt;", 1),
    ] {
        assert_eq!(body.matches(mark).count(), count, "{mark}");
    }
}

fn sheet_with_every_shape() -> Document {
    let pen = |width: f32, dash: &[f32]| Pen {
        width,
        dash: dash.to_vec(),
    };
    let line = |y: f32, pen: Pen, fill: Fill| Shape::Line {
        points: vec![(0.0, y), (20.0, y)],
        closed: false,
        pen,
        fill,
    };
    let figure = |shapes: Vec<Shape>| Figure {
        id: "all".to_owned(),
        caption: "All shapes".to_owned(),
        alt: "Every shape.".to_owned(),
        width: 100.0,
        height: 50.0,
        shapes,
    };
    let solid = || pen(1.0, &[]);
    let shapes = vec![
        line(10.0, solid(), Fill::None),
        line(20.0, solid(), Fill::None),
        line(30.0, pen(0.5, &[4.0, 3.0]), Fill::None),
        Shape::Curve {
            points: vec![(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 3.0)],
            closed: true,
            pen: solid(),
            fill: Fill::Hatched,
        },
        Shape::Ellipse {
            centre: (50.0, 25.0),
            radii: (5.0, 5.0),
            pen: pen(0.0, &[]),
            fill: Fill::Black,
        },
        Shape::Label {
            at: (10.0, 40.0),
            anchor: Anchor::Middle,
            size: 10.0,
            bold: true,
            text: "</w:t>".to_owned(),
        },
    ];
    let mut sheet = sheet();
    sheet.group = Some(Group {
        line: "A group".to_owned(),
        mark: Some(figure(vec![line(5.0, solid(), Fill::None)])),
    });
    sheet.blocks = vec![
        Block::Heading {
            level: 1,
            anchor: "a".to_owned(),
            text: vec![Inline::Text("A".to_owned())],
        },
        Block::Figure(figure(shapes)),
    ];
    sheet
}

#[test]
fn every_numbered_list_starts_anew() {
    let text = |words: &str| Block::Paragraph(vec![Inline::Text(words.into())]);
    let list = |start| Block::List {
        start: Some(start),
        items: vec![
            Item {
                tick: false,
                blocks: vec![text("a")],
            },
            Item {
                tick: true,
                blocks: vec![text("b"), text("more")],
            },
        ],
    };
    let document = Document {
        group: None,
        words: std::sync::Arc::default(),
        blocks: vec![list(1), list(7), list(1)],
        ..sheet()
    };
    let body = body(&document);
    for id in [10, 11, 12] {
        assert_eq!(
            body.matches(&format!("<w:numId w:val=\"{id}\" />")).count(),
            2,
            "{id}"
        );
    }
    let numbering = part(&file(&document), "word/numbering.xml");
    assert!(numbering.contains("<w:start w:val=\"7\" />"));
}

#[test]
fn hostile_words_stay_words() {
    const EVIL: &str = "</w:t></w:r><w:p>\u{0}\u{8}\u{ffff}&<![CDATA[\"'";
    let words = || vec![Inline::Text(EVIL.into())];
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
            Block::Paragraph(vec![
                Inline::Link {
                    target: format!("https://{EVIL}"),
                    text: words(),
                },
                Inline::Link {
                    target: "#no-such".into(),
                    text: words(),
                },
            ]),
        ],
    };
    let bytes = file(&document);
    for name in [
        "word/document.xml",
        "docProps/core.xml",
        "word/footer1.xml",
        "word/_rels/document.xml.rels",
    ] {
        let part = part(&bytes, name);
        assert!(
            !part.contains("</w:t></w:r><w:p>\u{0}") && !part.contains("<![CDATA["),
            "{name}"
        );
        assert!(!part.contains(['\u{0}', '\u{8}', '\u{ffff}']), "{name}");
    }
}

/// A file for a look with a word processor, under the build folder's `tmp`.
#[test]
fn a_file_to_look_at() {
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("checklist.docx");
    std::fs::write(&path, file(&long())).expect("written");
    // ZIP files start so (APPNOTE 6.3, section 4.3.7).
    assert!(
        std::fs::read(&path)
            .expect("read")
            .starts_with(b"PK\x03\x04")
    );
}
