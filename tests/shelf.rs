//! The ledger of canisters: two copies that were edited apart lead to one state however their lines are laid
//! together, and whatever lines a hand may have left there are read or refused.
//!
//! `PROPTEST_CASES=20000 cargo test --release shelf::` draws more; the first was run so by hand on 26 November 2026.

use leeside::diag::Source;
use leeside::shelf::{Action, HEADINGS, Ledger, Movement, Stock, Tag, TareFrom, doubts, told};
use leeside::units::Mass;
use leeside::{nouns::Connection, ready};
use proptest::collection::vec;
use proptest::prelude::*;

fn source(text: &str) -> Source {
    Source {
        name: "shelf.csv".into(),
        text: text.into(),
    }
}

fn read(text: &str) -> Ledger {
    Ledger::read(&source(text)).unwrap_or_else(|problems| panic!("{problems:?}\n{text}"))
}

/// A line as it is drawn: canister, action, hour, grams, words, which line it corrects.
type Drawn = (u32, usize, u32, u32, String, usize);

fn drawn(most: usize) -> impl Strategy<Value = Vec<Drawn>> {
    // few canisters and few hours, so that lines clash; words that a table has to quote
    let one = (
        1_u32..4,
        0..Action::ALL.len(),
        0_u32..4,
        140_u32..400,
        "[ -~\té]{0,6}",
        any::<usize>(),
    );
    vec(one, 0..most)
}

/// Puts a line into a ledger as the commands do, and gives back the text that it adds to the file.
fn put(ledger: &mut Ledger, who: &str, (tag, action, hour, grams, words, which): &Drawn) -> String {
    let time = format!("2027-05-01T{:02}:00:00", 8 + hour);
    let mut line = Movement::new(&time, who, Tag::numbered("F", *tag), Action::ALL[*action]);
    line.note.clone_from(words);
    match line.action {
        Action::Receive => {
            line.size = Some("canister-230".into());
            line.tare = Some((Mass::grams(150.0), TareFrom::Label));
            line.connection = Some(Connection::Thread);
        }
        Action::Weigh | Action::Return => line.gross = Some(Mass::grams(f64::from(*grams))),
        Action::Issue | Action::Drop | Action::Reserve => line.departure = format!("june {words}"),
        Action::Correct => {
            let earlier = ledger.lines();
            let Some(other) = earlier.get(which % earlier.len().max(1)) else {
                return String::new();
            };
            line.corrects = other.id();
            line.tag = other.tag.clone();
            line.gross = Some(Mass::grams(f64::from(*grams)));
            if grams % 3 == 0 {
                line.note = "void".to_owned();
            }
        }
        _ => {}
    }
    ledger.add(vec![line])
}

fn head() -> String {
    format!("{}\n", HEADINGS.join(","))
}

/// What somebody adds to a copy of a ledger: each line as the text that goes into the file.
fn edited(shared: &[String], who: &str, lines: &[Drawn]) -> Vec<String> {
    let mut copy = read(&file(shared));
    let mut all = shared.to_vec();
    all.extend(
        lines
            .iter()
            .map(|line| put(&mut copy, who, line).replace(&head(), ""))
            .filter(|text| !text.is_empty()),
    );
    all
}

/// Lines as a file.
fn file(lines: &[String]) -> String {
    head() + &lines.concat()
}

/// Two lists as one, each in its order; what is in both may stand there twice.
fn merged(one: &[String], other: &[String], from_one: &[bool]) -> Vec<String> {
    let (mut one, mut other) = (one.iter(), other.iter());
    let mut all: Vec<String> = Vec::new();
    for first in from_one {
        let next = if *first { one.next() } else { other.next() };
        all.extend(next.cloned());
    }
    all.extend(one.chain(other).cloned());
    all
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_state_after_any_order_preserving_merge_is_the_same(
        (base, here, there) in (drawn(12), drawn(12), drawn(12)),
        orders in vec(vec(any::<bool>(), 40), 3),
    ) {
        let shared = edited(&[], "K", &base);
        let (ones, others) = (edited(&shared, "K", &here), edited(&shared, "L", &there));
        let (one, other) = (read(&file(&ones)), read(&file(&others)));
        let whole = one.clone().merged(other.clone());
        prop_assert_eq!(whole.text(), other.clone().merged(one.clone()).text());
        prop_assert_eq!(whole.text(), whole.clone().merged(one).merged(other).text(), "twice is once");
        let state = Stock::of(whole.lines());
        for order in orders {
            let by_hand = read(&file(&merged(&ones, &others, &order)));
            prop_assert_eq!(&by_hand.warnings, &Vec::new());
            prop_assert_eq!(Stock::of(by_hand.lines()), state.clone());
        }
        // each one's own lines are in the order in which they were written
        for who in ["K", "L"] {
            let numbers: Vec<u64> = whole.lines().iter().filter(|line| line.who == who).map(|line| line.number).collect();
            prop_assert!(numbers.is_sorted(), "{numbers:?}");
        }
    }

    #[test]
    fn any_lines_are_read_or_refused(
        heads in vec(prop_oneof![9 => proptest::sample::select(HEADINGS.to_vec()).prop_map(str::to_owned), 1 => ".{0,8}"], 0..18),
        lines in vec(vec(cell(), 0..18), 0..12),
        comma in proptest::sample::select(vec![",", ";", "\t"]),
        end in proptest::sample::select(vec!["", "\n", "\r\n", "\""]),
    ) {
        // with all headings in their order one time in two, so that lines are read as well as refused
        let heads = if heads.len() % 2 == 0 { HEADINGS.map(str::to_owned).to_vec() } else { heads };
        let rows: Vec<String> = std::iter::once(heads).chain(lines).map(|row| row.join(comma)).collect();
        let text = rows.join("\n") + end;
        match Ledger::read(&source(&text)) {
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    prop_assert!(problem.place.is_some() || problem.to_string().contains("shelf.csv"), "{problem}");
                    prop_assert!(!problem.help.is_empty(), "{problem}");
                }
            }
            Ok(ledger) => {
                let stock = Stock::of(ledger.lines());
                let _ = told(ledger.lines());
                let containers = &ready::library(&[]).unwrap().library.containers;
                for line in ledger.lines() {
                    let _ = doubts(&stock, containers, line);
                }
                let kept = ledger.text();
                prop_assert_eq!(read(&kept).text(), kept, "what is kept is read as it was");
            }
        }
    }
}

/// A cell as a hand may have left it: right, nearly right, or anything.
fn cell() -> impl Strategy<Value = String> {
    let known = [
        "",
        "1-abcdef01",
        "2027-05-14T09:30",
        "2027-05-14",
        "31/02/2027",
        "2027-05-14 24:00",
        "F-014",
        "f14",
        "F-014.0",
        "receive",
        "weigh",
        "issue",
        "burn down",
        "correct",
        "lend",
        "canister-230",
        "canister 230 g",
        "291 g",
        "291",
        "-5 g",
        "1e308 g",
        "NaN g",
        "10 oz",
        "label",
        "table",
        "propane 30, isobutane 70",
        "\"propane 30, isobutane 70\"",
        "thread",
        "june-1",
        "1",
        "4294967296",
        "void",
        "=1+1",
        "'=1+1",
        "\"a, \"\"b\"\"\"",
        "\"",
    ];
    prop_oneof![
        6 => proptest::sample::select(known.map(str::to_owned).to_vec()),
        1 => ".{0,12}",
        1 => "[0-9]{1,22} ?(g|kg|oz|mg)?",
    ]
}
