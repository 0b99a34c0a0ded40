//! Sheets to test with: every kind of block; the trips in them are invented.

use std::sync::LazyLock;

use leeside::doc::{
    Align, Anchor, Block, CardFold, Document, Figure, Fill, Inline, Item, Paper, Pen, Shape,
    Signal, Style, Table,
};
use leeside::render::pdf::{Faces, Pdf, pdf};

pub static FACES: LazyLock<Faces> = LazyLock::new(|| {
    Faces::new(
        include_bytes!("../../templates/fonts/SourceSans3_400Regular.ttf"),
        include_bytes!("../../templates/fonts/SourceSans3_700Bold.ttf"),
        include_bytes!("../../templates/fonts/SourceSans3_400Regular_Italic.ttf"),
        include_bytes!("../../templates/fonts/SourceSans3_700Bold_Italic.ttf"),
    )
    .expect("four faces")
});

pub fn style() -> Style {
    Style {
        paper: Paper::Letter,
        body_pt: 12.0,
        caution_pt: 12.0,
        tick_pt: 18.0,
        two_column_ticks: false,
        margin_pt: 50.0,
        most_pages: None,
        still_good_pages: None,
        corner_hole: false,
        drawings_if_room: false,
        cards: None,
        landscape: false,
    }
}

pub fn words(text: &str) -> Inline {
    Inline::Text(text.to_string())
}

pub fn paragraph(text: &str) -> Block {
    Block::Paragraph(vec![words(text)])
}

pub fn heading(level: u8, text: &str) -> Block {
    Block::Heading {
        level,
        anchor: text.to_lowercase().replace(' ', "-"),
        text: vec![words(text)],
    }
}

pub fn item(tick: bool, text: &str) -> Item {
    Item {
        tick,
        blocks: vec![paragraph(text)],
    }
}

pub fn ticks(texts: &[&str]) -> Block {
    Block::List {
        start: None,
        items: texts.iter().map(|text| item(true, text)).collect(),
    }
}

pub fn cells(row: &[&str]) -> Vec<Vec<Inline>> {
    row.iter()
        .map(|cell| match *cell {
            "____" => vec![Inline::Blank(4)],
            "[ ]" => vec![Inline::Tick],
            text => vec![words(text)],
        })
        .collect()
}

pub fn table(columns: &[Align], head: &[&str], rows: &[&[&str]]) -> Block {
    Block::Table(Table {
        columns: columns.to_vec(),
        head: cells(head),
        rows: rows.iter().map(|row| cells(row)).collect(),
    })
}

pub fn caution(signal: Signal, text: &str) -> Block {
    Block::Caution {
        signal,
        blocks: vec![paragraph(text)],
    }
}

pub fn figure(width: f32) -> Block {
    let pen = Pen {
        width: 1.0,
        dash: Vec::new(),
    };
    Block::Figure(Figure {
        id: "stack".to_string(),
        caption: "A pot on a burner on a canister: the lower, the steadier.".to_string(),
        alt: "Side view of a pot on a burner on a canister on the ground.".to_string(),
        width,
        height: 120.0,
        shapes: vec![
            Shape::Line {
                points: vec![(10.0, 110.0), (width - 10.0, 110.0)],
                closed: false,
                pen: pen.clone(),
                fill: Fill::None,
            },
            Shape::Line {
                points: vec![(60.0, 110.0), (60.0, 80.0), (110.0, 80.0), (110.0, 110.0)],
                closed: true,
                pen: pen.clone(),
                fill: Fill::Hatched,
            },
            Shape::Curve {
                points: vec![(70.0, 80.0), (75.0, 60.0), (95.0, 60.0), (100.0, 80.0)],
                closed: true,
                pen: pen.clone(),
                fill: Fill::White,
            },
            Shape::Ellipse {
                centre: (85.0, 40.0),
                radii: (30.0, 12.0),
                pen: Pen {
                    width: 1.0,
                    dash: vec![3.0, 2.0],
                },
                fill: Fill::None,
            },
            Shape::Label {
                at: (130.0, 44.0),
                anchor: Anchor::Start,
                size: 11.0,
                bold: true,
                text: "pot".to_string(),
            },
        ],
    })
}

/// Every kind of block once; the trip in it is invented.
pub fn everything() -> Document {
    let nested = Item {
        tick: false,
        blocks: vec![
            paragraph("Set the kitchen down in the lee:"),
            Block::List {
                start: None,
                items: vec![
                    item(false, "level ground"),
                    item(false, "nothing dry within reach of a flame"),
                ],
            },
        ],
    };
    let blocks = vec![
        heading(1, "Kitchen checklist"),
        paragraph(
            "Three nights at Kestrel Tarn for five people. Read this aloud together before the \
             first flame, and tick each line as it is done; what is not ticked is not done.",
        ),
        caution(
            Signal::Danger,
            "Never cook in a closed tent or vehicle: the gas that kills has no smell.",
        ),
        caution(
            Signal::Notice,
            "Ask the land manager which restriction holds today.",
        ),
        heading(2, "Before the flame"),
        ticks(&[
            "Stove on level ground",
            "Water within reach",
            "Ways out are clear and everyone knows where they are going if the wind turns and \
             the flame leans over the pot",
        ]),
        heading(2, "Steps"),
        Block::List {
            start: Some(9),
            items: vec![
                Item {
                    tick: false,
                    blocks: vec![Block::Paragraph(vec![
                        words("Weigh the canister: "),
                        Inline::Blank(6),
                        words(" g. See "),
                        Inline::Link {
                            target: "#fuel".to_string(),
                            text: vec![words("the fuel table")],
                        },
                        words(" and the "),
                        Inline::Link {
                            target: "https://example.org/notes on fuel".to_string(),
                            text: vec![words("notes")],
                        },
                        words("."),
                    ])],
                },
                item(false, "Light it."),
            ],
        },
        Block::List {
            start: None,
            items: vec![nested, item(false, "Wash hands.")],
        },
        heading(3, "Fuel"),
        table(
            &[Align::Left, Align::Right, Align::Centre, Align::Left],
            &["Use", "Fuel, g", "Done", "Left over, g"],
            &[
                &["Breakfast", "31.5", "[ ]", "____"],
                &["Supper with a long simmer", "104", "[ ]", "____"],
                &["All", "1,135.25", "[ ]", "____"],
            ],
        ),
        Block::Boxed(vec![
            Block::Paragraph(vec![
                Inline::Strong(vec![words("Given: ")]),
                words("water at 4 °C, air at "),
                Inline::Emphasis(vec![words("about "), Inline::Strong(vec![words("−10 °C")])]),
                words("."),
                Inline::Break,
                words("Office: café, ½ L, ≥ 3 × 2."),
            ]),
            paragraph("A second paragraph."),
        ]),
        figure(300.0),
        Block::Rule,
        paragraph("The end of the first part."),
        Block::PageBreak,
        heading(2, "Afterwards"),
        paragraph("What is left is weighed."),
    ];
    Document {
        title: "Kitchen checklist".to_string(),
        foot: "Edition of 3 May; numbers are planned, local rules come first.".to_string(),
        style: style(),
        group: None,
        words: std::sync::Arc::default(),
        blocks,
    }
}

pub fn made(document: &Document) -> Pdf {
    pdf(document, &FACES).expect("a sheet that can be drawn")
}

/// A sheet of many pages: long lists, a long table, cautions in between.
pub fn long() -> Document {
    let mut blocks = vec![heading(1, "Provisions for a long walk")];
    let row = |n: usize| {
        let amount = format!("{}.{}", n * 7, n % 10);
        vec![
            format!("Bag {n}: oats, dried fruit, nuts and what else fits"),
            amount,
        ]
    };
    let rows: Vec<Vec<String>> = (1..=60).map(row).collect();
    let rows: Vec<Vec<&str>> = rows
        .iter()
        .map(|row| row.iter().map(String::as_str).collect())
        .collect();
    let rows: Vec<&[&str]> = rows.iter().map(Vec::as_slice).collect();
    blocks.push(table(
        &[Align::Left, Align::Right],
        &["Bag", "Mass, kg"],
        &rows,
    ));
    for section in 1..=8 {
        blocks.push(heading(2, &format!("Day {section}")));
        let mut text = String::new();
        for sentence in 1..=section * 3 {
            text.push_str(&format!(
                "Sentence {sentence} of day {section} says what is carried and who carries it. "
            ));
        }
        blocks.push(paragraph(text.trim_end()));
        blocks.push(caution(
            Signal::Warning,
            "Hot water scalds: a pot stays on the ground until it has been carried away from \
             people, and a lid is lifted away from the face. This caution is long enough to take \
             several lines, so that it would show if a page broke inside it.",
        ));
        let items: Vec<String> = (1..=section + 4)
            .map(|n| format!("{} of day {section}, with words enough to need a second line when the measure is narrow, as it is here", "Pot lid cup bowl knife board sieve towel soap brush rope bag".split(' ').cycle().skip(n * section).take(1 + n % 3).collect::<Vec<_>>().join(" and ")))
            .collect();
        let items: Vec<&str> = items.iter().map(String::as_str).collect();
        blocks.push(ticks(&items));
    }
    Document {
        title: "Provisions for a long walk".to_string(),
        foot: "Invented numbers.".to_string(),
        style: style(),
        group: None,
        words: std::sync::Arc::default(),
        blocks,
    }
}

/// Short things to tick, for one side of a sheet to hold in the hand.
pub fn checklist(items: usize) -> Document {
    let mut blocks = vec![
        heading(1, "Kitchen card"),
        caution(Signal::Warning, "No flame under a tarp that can sag."),
    ];
    let texts: Vec<String> = (1..=items)
        .map(|n| match n % 3 {
            0 => format!("Lid number {n} lies ready"),
            1 => format!("The pot of fire {n} stands level on its stand"),
            _ => format!("Wind, water, way out of place {n}"),
        })
        .collect();
    for (i, part) in texts.chunks(7).enumerate() {
        blocks.push(heading(2, &format!("Moment {}", i + 1)));
        let part: Vec<&str> = part.iter().map(String::as_str).collect();
        blocks.push(ticks(&part));
    }
    Document {
        title: "Kitchen card".to_string(),
        foot: "Invented.".to_string(),
        style: Style {
            body_pt: 14.0,
            caution_pt: 16.0,
            tick_pt: 20.0,
            two_column_ticks: true,
            margin_pt: 34.0,
            most_pages: Some(1),
            corner_hole: true,
            drawings_if_room: false,
            ..style()
        },
        group: None,
        words: std::sync::Arc::default(),
        blocks,
    }
}

/// Study cards with a page of instructions before them.
pub fn cards(fold: CardFold) -> Document {
    let mut blocks = vec![
        heading(1, "Study cards"),
        paragraph("Cut along the dashed lines. Say the answer before you turn a card."),
        heading(2, "Water"),
    ];
    for n in 1..=11 {
        if n == 7 {
            blocks.push(heading(2, "Fire"));
        }
        blocks.push(heading(3, &format!("Question {n}: what comes first?")));
        blocks.push(paragraph(&format!(
            "Answer {n}. Water stands ready within reach before anything is lit."
        )));
        if n % 4 == 0 {
            blocks.push(caution(Signal::Caution, "Hot pots look like cold ones."));
        }
    }
    Document {
        title: "Study cards".to_string(),
        foot: "Invented.".to_string(),
        style: Style {
            cards: Some(fold),
            margin_pt: 36.0,
            ..style()
        },
        group: None,
        words: std::sync::Arc::default(),
        blocks,
    }
}

/// Everything that can be higher or wider than a page, or hostile.
pub fn unwieldy() -> Document {
    let long = "A kettle on the boil needs watching all the time. ".repeat(120);
    let endless = "Llanfairkestrelgogerych".repeat(12);
    let mut deep = paragraph("the innermost");
    for _ in 0..40 {
        deep = Block::List {
            start: None,
            items: vec![Item {
                tick: false,
                blocks: vec![paragraph("deeper"), deep],
            }],
        };
    }
    let blocks = vec![
        heading(1, "<Pots> & \"pans\" (100 %) \\ \u{7}"),
        heading(4, "A level that skips"),
        caution(Signal::Danger, &long),
        table(
            &[Align::Left, Align::Right],
            &["Text", "Number"],
            &[&[&long, "1"]],
        ),
        table(&[Align::Left], &["No rows"], &[]),
        table(
            &[Align::Left, Align::Left, Align::Left],
            &[&endless, "b", "c"],
            &[&[&endless, "", "x"], &["short row"]],
        ),
        ticks(&[&long]),
        Block::Boxed(vec![
            paragraph(&long),
            table(&[Align::Left], &["h"], &[&[&long], &["2"]]),
        ]),
        paragraph(&endless),
        figure(480.0),
        deep,
        Block::List {
            start: Some(u64::MAX),
            items: vec![item(false, "last"), item(false, "after the last")],
        },
        Block::Paragraph(Vec::new()),
        Block::List {
            start: None,
            items: Vec::new(),
        },
        Block::Boxed(Vec::new()),
        Block::Paragraph(vec![Inline::Blank(400), Inline::Break, Inline::Break]),
    ];
    Document {
        title: "<Pots> & \"pans\" (100 %) \\ \u{7}".to_string(),
        foot: "A foot that is long. ".repeat(20),
        style: style(),
        group: None,
        words: std::sync::Arc::default(),
        blocks,
    }
}
