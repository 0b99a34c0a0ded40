//! Nothing that a person may type makes the program fall over.

use super::{SHORT, library, read};
use leeside::diag::{Severity, report};
use leeside::{load, plan};

/// A fixed sequence of numbers, so that a failure can be had again.
struct Sequence(u64);

impl Sequence {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % limit.max(1)
    }
}

/// Values that people, other programs and mischief put after a colon.
const VALUES: &[&str] = &[
    "",
    "~",
    "0",
    "-1",
    "1e9",
    "NaN",
    ".inf m",
    "9999999999999999999",
    "\"\"",
    "[]",
    "{}",
    "- x",
    "yes",
    "9:00",
    "0310",
    "8200 ft",
    "-60 C",
    "60 C",
    "0 L",
    "10 L",
    "200",
    "1.5",
    "5 kPa",
    "100%",
    "0%",
    "aluminium 0.1 L",
    "propane 100",
    "snow",
    "cold",
    "windy",
    "full",
    "liquid",
    "alpine snow",
    "canister on top",
    "alcohol",
    "Lower meadow",
    "2027-02-29",
    "x: y",
    "|",
    ">-",
    "*a",
    "&a b",
    "!t v",
    "\u{202e}",
    "\u{1f525}",
    "'",
    "\"",
    "boil",
    "three bowls with hot dip",
];

#[test]
fn whatever_is_typed_is_read_or_refused() {
    let library = library();
    let trips: Vec<String> = load::assets(&[])
        .unwrap()
        .content
        .into_iter()
        .filter(|(path, _)| path.starts_with("trips/"))
        .map(|(_, source)| source.text.to_string())
        .chain([SHORT.to_owned()])
        .collect();
    let mut sequence = Sequence(7);
    let (mut sound, mut refused) = (0, 0);
    for round in 0..4000 {
        let mut lines: Vec<String> = trips[round % trips.len()]
            .lines()
            .map(str::to_owned)
            .collect();
        for _ in 0..=sequence.below(2) {
            let at = sequence.below(lines.len());
            match sequence.below(8) {
                0 => {
                    lines.remove(at);
                }
                1 => {
                    let other = lines[sequence.below(lines.len())].clone();
                    lines.insert(at, other);
                }
                2 => lines[at].insert(0, ' '),
                3 => {
                    let keep: String = {
                        let count = sequence.below(lines[at].chars().count() + 1);
                        lines[at].chars().take(count).collect()
                    };
                    lines[at] = keep;
                }
                _ => {
                    if let Some((key, _)) = lines[at].split_once(':') {
                        lines[at] = format!("{key}: {}", VALUES[sequence.below(VALUES.len())]);
                    }
                }
            }
            if lines.is_empty() {
                lines.push(String::new());
            }
        }
        let text = lines.join("\n");
        match read(&text, &library) {
            Ok((trip, warnings)) => {
                sound += 1;
                assert!(
                    warnings
                        .iter()
                        .all(|problem| problem.severity == Severity::Warning)
                );
                let eaters: u32 = trip.kitchens.iter().map(|kitchen| kitchen.people).sum();
                assert_eq!(eaters, trip.people.all(), "{text}");
                // plan presumes what check lets through
                if round % 8 == 0 {
                    let _ = plan::plan(&trip, &library);
                }
            }
            Err(problems) => {
                refused += 1;
                assert!(!problems.is_empty());
                for problem in &problems {
                    assert!(!problem.message.is_empty() && !problem.help.is_empty());
                    assert!(problem.file.is_some(), "{problem}\n{text}");
                }
                let _ = report(&problems);
            }
        }
    }
    // the changes must not all be harmless, nor all fatal
    assert!(
        sound > 400 && refused > 400,
        "{sound} read, {refused} refused"
    );
}
