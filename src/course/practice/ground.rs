//! Problems about the ground: steps to water, the last bowl, a pot that tips.

use super::desk::{Desk, Kit, cell, plain, two};
use super::types::{Above, Accept, Draft, Level, Table};
use crate::nouns::Signal;
use crate::phrase::{Phrase, phrase};
use crate::physics::{disinfect, walking};
use crate::plan::Worked;
use crate::units::{Fraction, Length, Units, say};

/// Distances of the table and problems, in the reader's units.
fn distances(kit: &Kit<'_>) -> [f64; 5] {
    if kit.us() {
        [100.0, 150.0, 200.0, 250.0, 300.0]
    } else {
        [30.0, 50.0, 60.0, 75.0, 100.0]
    }
}

/// Steps of the table and problems, in the reader's units.
fn step_lengths(kit: &Kit<'_>) -> [f64; 5] {
    if kit.us() {
        [2.0, 2.2, 2.4, 2.5, 2.6]
    } else {
        [0.6, 0.65, 0.7, 0.75, 0.8]
    }
}

fn length_unit(kit: &Kit<'_>) -> &'static str {
    if kit.us() { "ft" } else { "m" }
}

fn length(kit: &Kit<'_>, number: f64) -> Length {
    if kit.us() {
        Length::feet(number)
    } else {
        Length::metres(number)
    }
}

fn say_length(kit: &Kit<'_>, number: f64) -> String {
    let unit = length_unit(kit);
    let words = format!("{} {unit}", say::plain_significant(number, 3));
    if kit.units == Units::Both {
        let feet = Length::metres(number).in_feet();
        format!("{words} ({} ft)", say::plain_significant(feet, 3))
    } else {
        words
    }
}

fn whole_steps(kit: &Kit<'_>, distance: f64, step: f64) -> f64 {
    f64::from(walking::steps(length(kit, distance), length(kit, step)))
}

pub(super) fn above_steps(kit: &Kit<'_>, level: Level) -> Above {
    let careful = vec![(
        Signal::Notice,
        phrase!("practice-distance-land-managers-ask"),
    )];
    if level != Level::Table {
        return Above {
            numbers: vec![phrase!("practice-steps-distance-length-your")],
            table: None,
            careful,
        };
    }
    let mut head = vec![phrase!("practice-distance")];
    head.extend(step_lengths(kit).map(|step| {
        let step = say_length(kit, step);
        phrase!("practice-step", step = step)
    }));
    let rows = distances(kit)
        .into_iter()
        .map(|distance| {
            let mut row = vec![cell(say_length(kit, distance))];
            row.extend(step_lengths(kit).map(|step| cell(plain(whole_steps(kit, distance, step)))));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!("practice-steps-length-your-step"),
            head,
            rows,
        }),
        careful,
    }
}

pub(super) fn steps(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let unit = length_unit(kit);
    let distance = desk.dice.pick(&distances(kit));
    let far = say_length(kit, distance);
    if level == Level::Trip {
        let line = if kit.us() { 100.0 } else { 30.0 };
        // A line of 30 m or 100 ft takes 38 to 50 steps.
        let [first, second] = [desk.dice.between(38, 50, 1), desk.dice.between(0, 2, 1)];
        let counts = [first, first + second, first + 1.0];
        let mean = desk.lines.work(
            phrase!("sum-steps-line-mean"),
            format!("({} + {} + {}) / 3", counts[0], counts[1], counts[2]),
            "steps",
            Phrase::none(),
        );
        let step = desk.lines.work(
            phrase!("sum-your-step"),
            format!("{line} / {mean}"),
            unit,
            Phrase::none(),
        );
        let loaded = desk.lines.work(
            phrase!("sum-with-full-pot"),
            format!("{step} x 0.9"),
            unit,
            Phrase::none(),
        );
        let exact = desk.lines.work(
            phrase!("sum-steps"),
            format!("{distance} / {loaded}"),
            "steps",
            Phrase::none(),
        );
        let answer = desk.lines.given(
            phrase!("sum-whole-steps"),
            Worked::given((exact.value() - 1e-9).ceil()),
            "steps",
            phrase!("why-rounded-up-to-whole", number = exact),
        );
        let long = say_length(kit, line);
        let [first, second, third] = counts;
        return Draft {
            ask: phrase!(
                "practice-on-line-you-count",
                long = long,
                first = first,
                second = second,
                third = third,
                far = far
            ),
            accept: Accept::within(&answer, 1.0, "steps"),
            answer,
            unit: "steps".to_owned(),
        };
    }
    let step = desk.dice.pick(&step_lengths(kit));
    let step_words = say_length(kit, step);
    let answer = if level == Level::Table {
        desk.lines.given(
            phrase!("sum-steps-over", step_words = step_words, far = far),
            Worked::given(whole_steps(kit, distance, step)),
            "steps",
            phrase!("why-from-table"),
        )
    } else {
        let exact = desk.lines.work(
            phrase!("sum-steps"),
            format!("{distance} / {step}"),
            "steps",
            Phrase::none(),
        );
        desk.lines.given(
            phrase!("sum-whole-steps"),
            Worked::given((exact.value() - 1e-9).ceil()),
            "steps",
            phrase!("why-rounded-up-to-whole", number = exact),
        )
    };
    Draft {
        ask: phrase!(
            "practice-wash-water-goes-from",
            far = far,
            step = step_words
        ),
        accept: Accept::within(&answer, 1.0, "steps"),
        answer,
        unit: "steps".to_owned(),
    }
}

/// Strengths on labels, percent of available chlorine.
const LABELS: [f64; 5] = [2.5, 4.0, 5.0, 6.0, 8.0];

/// Strength of the table, ppm.
const TABLE_PPM: f64 = 100.0;

fn a_litre(ppm: f64, label: f64) -> Worked {
    Worked::four(disinfect::bleach_per_litre(ppm, Fraction::percent(label)).in_millilitres())
}

pub(super) fn above_bleach(_: &Kit<'_>, level: Level) -> Above {
    let careful = vec![
        (
            Signal::Warning,
            phrase!("practice-bleach-with-another-cleaner"),
        ),
        (
            Signal::Notice,
            phrase!("practice-strength-warmth-time-bowl"),
        ),
    ];
    if level != Level::Table {
        return Above {
            numbers: vec![phrase!("practice-millilitres-bleach-litre-water")],
            table: None,
            careful,
        };
    }
    let rows = LABELS
        .into_iter()
        .map(|label| {
            let litre = a_litre(TABLE_PPM, label).text();
            vec![cell(format!("{label} %")), cell(litre)]
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!("practice-bleach-bowl-ppm", ppm = TABLE_PPM),
            head: vec![
                phrase!("practice-on-label"),
                phrase!("practice-ml-1-l-water"),
            ],
            rows,
        }),
        careful,
    }
}

pub(super) fn bleach(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let label = desk.dice.pick(&LABELS);
    let litres = desk.dice.between(3, 12, 1);
    let number = |value: f64| Worked::given(value);
    if level == Level::Table {
        let one = desk.lines.given(
            phrase!("sum-bleach-of-label", label = label),
            a_litre(TABLE_PPM, label),
            "mL",
            phrase!("why-from-table"),
        );
        let answer = desk.lines.work(
            phrase!("sum-bleach"),
            format!("{litres} x {one}"),
            "mL",
            Phrase::none(),
        );
        return Draft {
            ask: phrase!(
                "practice-last-bowl-holds-l",
                litres = litres,
                ppm = TABLE_PPM,
                label = label
            ),
            accept: Accept::percent(&answer, 5.0),
            answer,
            unit: "mL".to_owned(),
        };
    }
    let ppm = desk.dice.pick(&[50.0, 80.0, 100.0, 120.0]);
    let one = desk.lines.work(
        phrase!("sum-bleach-for-a-litre"),
        format!("{} / (10 x {})", number(ppm), number(label)),
        "mL",
        Phrase::none(),
    );
    let bowl = desk.lines.work(
        phrase!("sum-bleach-bowl"),
        format!("{litres} x {one}"),
        "mL",
        Phrase::none(),
    );
    if level == Level::Step {
        return Draft {
            ask: phrase!(
                "practice-last-bowl-holds-l-should",
                litres = litres,
                ppm = ppm,
                label = label
            ),
            accept: Accept::percent(&bowl, 5.0),
            answer: bowl,
            unit: "mL".to_owned(),
        };
    }
    let days = desk.dice.between(2, 6, 1);
    let washes = desk.dice.between(2, 3, 1);
    let answer = desk.lines.work(
        phrase!("sum-bleach-trip"),
        format!("{days} x {washes} x {bowl}"),
        "mL",
        Phrase::none(),
    );
    Draft {
        ask: phrase!(
            "practice-group-washes-up-times",
            washes = washes,
            days = days,
            litres = litres,
            ppm = ppm,
            label = label
        ),
        accept: Accept::percent(&answer, 5.0),
        answer,
        unit: "mL".to_owned(),
    }
}

/// Weight of a kilogram, N, to two digits.
const GRAVITY: f64 = 9.806_65;

/// Base radii and rim heights of problems, in mm or quarter inches.
struct Stack {
    bases: [f64; 4],
    rims: [f64; 4],
}

fn stack(kit: &Kit<'_>) -> Stack {
    if kit.us() {
        Stack {
            bases: [1.8, 2.2, 3.0, 3.6],
            rims: [7.0, 8.0, 10.0, 12.0],
        }
    } else {
        Stack {
            bases: [45.0, 55.0, 75.0, 90.0],
            rims: [180.0, 200.0, 250.0, 300.0],
        }
    }
}

fn small_unit(kit: &Kit<'_>) -> &'static str {
    if kit.us() { "in" } else { "mm" }
}

/// The push for each kilogram or pound of the stack.
fn push_of_one(kit: &Kit<'_>, base: f64, rim: f64) -> Worked {
    if kit.us() {
        Worked::given((base / rim * 1000.0).round() / 1000.0)
    } else {
        Worked::given((GRAVITY * base / rim * 100.0).round() / 100.0)
    }
}

/// The unit of the push and of the mass.
fn push_units(kit: &Kit<'_>) -> (&'static str, &'static str) {
    if kit.us() { ("lb", "lb") } else { ("N", "kg") }
}

pub(super) fn above_push(kit: &Kit<'_>, level: Level) -> Above {
    let (push, mass) = push_units(kit);
    let small = small_unit(kit);
    let careful = vec![(Signal::Warning, phrase!("practice-pot-tips-scalds-knock"))];
    if level != Level::Table {
        let rule = if kit.us() {
            phrase!("practice-push-rim-weight-x")
        } else {
            let gravity = two(GRAVITY);
            phrase!("practice-push-rim-mass-x", gravity = gravity)
        };
        let mut numbers = vec![rule];
        if level == Level::Trip {
            numbers.push(phrase!("practice-stove-on-four-legs"));
        }
        return Above {
            numbers,
            table: None,
            careful,
        };
    }
    let Stack { bases, rims } = stack(kit);
    let mut head = vec![phrase!("practice-base-radius")];
    head.extend(rims.map(|rim| phrase!("practice-rim", rim = rim, small = small)));
    let rows = bases
        .into_iter()
        .map(|base| {
            let mut row = vec![cell(format!("{base} {small}"))];
            row.extend(rims.map(|rim| cell(push_of_one(kit, base, rim).text())));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: phrase!("practice-push-rim-tips-stack", push = push, mass = mass),
            head,
            rows,
        }),
        careful,
    }
}

pub(super) fn push(desk: &mut Desk<'_, '_>, level: Level) -> Draft {
    let kit = desk.kit;
    let (unit, mass_unit) = push_units(kit);
    let small = small_unit(kit);
    let Stack { bases, rims } = stack(kit);
    // On a canister the base is the canister's; wider ones stand on legs of their own.
    let on_canister = level == Level::Trip;
    let base = desk
        .dice
        .pick(if on_canister { &bases[..2] } else { &bases[..] });
    let rim = desk.dice.pick(&rims);
    let mass = if kit.us() {
        desk.dice.between(4, 14, 1) / 2.0
    } else {
        desk.dice.between(8, 30, 1) / 10.0
    };
    let feet = if bases[..2].contains(&base) {
        phrase!("practice-canister-2")
    } else {
        phrase!("practice-base-own")
    };
    let words = phrase!(
        "practice-stove-pot-water-together",
        mass = mass,
        unit = mass_unit
    );
    let formula = |base: &str, rim: f64| {
        if kit.us() {
            format!("{mass} x {base} / {rim}")
        } else {
            format!("{mass} x {} x {base} / {rim}", two(GRAVITY))
        }
    };
    match level {
        Level::Table => {
            let one = desk.lines.given(
                phrase!("sum-push-1", mass_unit = mass_unit),
                push_of_one(kit, base, rim),
                unit,
                phrase!("why-from-table"),
            );
            let answer = desk.lines.work(
                phrase!("sum-push"),
                format!("{mass} x {one}"),
                unit,
                Phrase::none(),
            );
            Draft {
                ask: phrase!(
                    "practice-stands-on-with-radius",
                    words = words,
                    feet = feet,
                    base = base,
                    small = small,
                    rim = rim,
                    unit = unit
                ),
                accept: Accept::percent(&answer, 3.0),
                answer,
                unit: unit.to_owned(),
            }
        }
        Level::Step => {
            let answer = desk.lines.work(
                phrase!("sum-push"),
                formula(&base.to_string(), rim),
                unit,
                Phrase::none(),
            );
            Draft {
                ask: phrase!(
                    "practice-stands-on-with-radius",
                    words = words,
                    feet = feet,
                    base = base,
                    small = small,
                    rim = rim,
                    unit = unit
                ),
                accept: Accept::percent(&answer, 3.0),
                answer,
                unit: unit.to_owned(),
            }
        }
        Level::Trip => {
            let (legs, share) = desk.dice.pick(&[(3_u32, 0.5), (4, 0.71)]);
            let reach = if kit.us() {
                desk.dice.between(10, 14, 1) / 2.0
            } else {
                desk.dice.between(125, 180, 5)
            };
            let other = desk.dice.pick(&rims[..2]);
            let canister = desk.lines.work(
                phrase!("sum-push-on-canister"),
                formula(&base.to_string(), rim),
                unit,
                Phrase::none(),
            );
            let radius = desk.lines.work(
                phrase!("sum-base-radius-legs"),
                format!("{reach} x {share}"),
                small,
                Phrase::none(),
            );
            let stood = desk.lines.work(
                phrase!("sum-push-on-legs"),
                formula(&radius.to_string(), other),
                unit,
                Phrase::none(),
            );
            let answer = desk.lines.work(
                phrase!("sum-how-many-times-much"),
                format!("{stood} / {canister}"),
                "times",
                Phrase::none(),
            );
            Draft {
                ask: phrase!(
                    "practice-on-top-canister-base",
                    words = words,
                    base = base,
                    small = small,
                    rim = rim,
                    legs = legs,
                    reach = reach,
                    other = other
                ),
                accept: Accept::percent(&answer, 3.0),
                answer,
                unit: "times".to_owned(),
            }
        }
    }
}
