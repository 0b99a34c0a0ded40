//! Problems about the ground: steps to water, the last bowl, a pot that tips.

use super::desk::{Desk, Kit, plain, two};
use super::{Above, Accept, Draft, Level, Table};
use crate::nouns::Signal;
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
    let words = format!("{} {unit}", say::significant(number, 3));
    if kit.units == Units::Both {
        let feet = Length::metres(number).in_feet();
        format!("{words} ({} ft)", say::significant(feet, 3))
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
        "The distance is the land manager's: ask for it. Count flat steps with what you will carry."
            .to_owned(),
    )];
    if level != Level::Table {
        return Above {
            numbers: vec![
                "Steps = distance / length of your step, up to the next whole one.".to_owned(),
            ],
            table: None,
            careful,
        };
    }
    let mut head = vec!["Distance".to_owned()];
    head.extend(step_lengths(kit).map(|step| format!("step {}", say_length(kit, step))));
    let rows = distances(kit)
        .into_iter()
        .map(|distance| {
            let mut row = vec![say_length(kit, distance)];
            row.extend(step_lengths(kit).map(|step| plain(whole_steps(kit, distance, step))));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: "Steps by the length of your step".to_owned(),
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
            "steps for the line, in the mean",
            format!("({} + {} + {}) / 3", counts[0], counts[1], counts[2]),
            "steps",
            "",
        );
        let step = desk
            .lines
            .work("your step", format!("{line} / {mean}"), unit, "");
        let loaded = desk
            .lines
            .work("with a full pot", format!("{step} x 0.9"), unit, "");
        let exact = desk
            .lines
            .work("steps", format!("{distance} / {loaded}"), "steps", "");
        let answer = desk.lines.given(
            "whole steps",
            Worked::given((exact.value() - 1e-9).ceil()),
            "steps",
            format!("{exact}, rounded up"),
        );
        return Draft {
            ask: format!(
                "On a line of {} you count {}, {} and {} steps. With a full pot you step a tenth \
                 shorter. The wash water goes {far} from the lake. How many steps with the pot is that?",
                say_length(kit, line),
                counts[0],
                counts[1],
                counts[2]
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
            format!("steps of {step_words} over {far}"),
            Worked::given(whole_steps(kit, distance, step)),
            "steps",
            "from the table",
        )
    } else {
        let exact = desk
            .lines
            .work("steps", format!("{distance} / {step}"), "steps", "");
        desk.lines.given(
            "whole steps",
            Worked::given((exact.value() - 1e-9).ceil()),
            "steps",
            format!("{exact}, rounded up"),
        )
    };
    Draft {
        ask: format!(
            "The wash water goes {far} from the lake, and your step is {step_words}. How many steps is \
             that?"
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
            "Bleach with another cleaner, an acid or ammonia gives off a gas that can kill. Plain, \
             unscented bleach only, into clean water, with gloves and eyes away from the splash."
                .to_owned(),
        ),
        (
            Signal::Notice,
            "Strength, warmth and time in the bowl are the health department's: use its numbers, and \
             the label's. Test strips tell what the bowl has."
                .to_owned(),
        ),
    ];
    if level != Level::Table {
        return Above {
            numbers: vec![
                "Millilitres of bleach for a litre of water = ppm / (10 x the label's percent)."
                    .to_owned(),
            ],
            table: None,
            careful,
        };
    }
    let rows = LABELS
        .into_iter()
        .map(|label| vec![format!("{label} %"), a_litre(TABLE_PPM, label).text()])
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: format!("Bleach for a bowl of {TABLE_PPM} ppm"),
            head: vec!["On the label".to_owned(), "mL for 1 L of water".to_owned()],
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
            format!("bleach of {label} % for 1 L"),
            a_litre(TABLE_PPM, label),
            "mL",
            "from the table",
        );
        let answer = desk
            .lines
            .work("bleach", format!("{litres} x {one}"), "mL", "");
        return Draft {
            ask: format!(
                "The last bowl holds {litres} L and should be at {TABLE_PPM} ppm. The label says {label} \
                 %. How many millilitres of bleach go in?"
            ),
            accept: Accept::percent(&answer, 5.0),
            answer,
            unit: "mL".to_owned(),
        };
    }
    let ppm = desk.dice.pick(&[50.0, 80.0, 100.0, 120.0]);
    let one = desk.lines.work(
        "bleach for 1 L",
        format!("{} / (10 x {})", number(ppm), number(label)),
        "mL",
        "",
    );
    let bowl = desk
        .lines
        .work("bleach for the bowl", format!("{litres} x {one}"), "mL", "");
    if level == Level::Step {
        return Draft {
            ask: format!(
                "The last bowl holds {litres} L and should be at {ppm} ppm. The label says {label} %. How \
                 many millilitres of bleach go in?"
            ),
            accept: Accept::percent(&bowl, 5.0),
            answer: bowl,
            unit: "mL".to_owned(),
        };
    }
    let days = desk.dice.between(2, 6, 1);
    let washes = desk.dice.between(2, 3, 1);
    let answer = desk.lines.work(
        "bleach for the trip",
        format!("{days} x {washes} x {bowl}"),
        "mL",
        "",
    );
    Draft {
        ask: format!(
            "A group washes up {washes} times a day for {days} days, each time with a last bowl of \
             {litres} L at {ppm} ppm. The label says {label} %. How many millilitres of bleach does it \
             pack?"
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
    let careful = vec![(
        Signal::Warning,
        "A pot that tips scalds. A knock needs less than this slow push, and soft ground sinks first: \
         set the stove level and firm, handles in, nobody sitting below the rim."
            .to_owned(),
    )];
    if level != Level::Table {
        let rule = if kit.us() {
            "Push at the rim = weight x base radius / height of the rim. It is a force, said as the \
             weight that would press as hard."
                .to_owned()
        } else {
            format!(
                "Push at the rim = mass x {} x base radius / height of the rim. 1 N is the weight of \
                 about 100 g.",
                two(GRAVITY)
            )
        };
        let mut numbers = vec![rule];
        if level == Level::Trip {
            numbers.push(
                "A stove on four legs tips over the line between two feet: its base radius is 0.71 of \
                 a leg's reach; on three legs 0.5 of it."
                    .to_owned(),
            );
        }
        return Above {
            numbers,
            table: None,
            careful,
        };
    }
    let Stack { bases, rims } = stack(kit);
    let mut head = vec!["Base radius".to_owned()];
    head.extend(rims.map(|rim| format!("rim at {rim} {small}")));
    let rows = bases
        .into_iter()
        .map(|base| {
            let mut row = vec![format!("{base} {small}")];
            row.extend(rims.map(|rim| push_of_one(kit, base, rim).text()));
            row
        })
        .collect();
    Above {
        numbers: Vec::new(),
        table: Some(Table {
            caption: format!("Push at the rim that tips the stack, {push} for each {mass} of it"),
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
        "a canister"
    } else {
        "a base of its own"
    };
    let words = format!("Stove, pot and water together weigh {mass} {mass_unit}");
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
                format!("push for 1 {mass_unit}"),
                push_of_one(kit, base, rim),
                unit,
                "from the table",
            );
            let answer = desk.lines.work("push", format!("{mass} x {one}"), unit, "");
            Draft {
                ask: format!(
                    "{words}; it stands on {feet} with a radius of {base} {small} and the rim is \
                     {rim} {small} up. What sideways push at the rim tips it, in {unit}?"
                ),
                accept: Accept::percent(&answer, 3.0),
                answer,
                unit: unit.to_owned(),
            }
        }
        Level::Step => {
            let answer = desk
                .lines
                .work("push", formula(&base.to_string(), rim), unit, "");
            Draft {
                ask: format!(
                    "{words}; it stands on {feet} with a radius of {base} {small} and the rim is \
                     {rim} {small} up. What sideways push at the rim tips it, in {unit}?"
                ),
                accept: Accept::percent(&answer, 3.0),
                answer,
                unit: unit.to_owned(),
            }
        }
        Level::Trip => {
            let (legs, share) = desk.dice.pick(&[(3, 0.5), (4, 0.71)]);
            let reach = if kit.us() {
                desk.dice.between(10, 14, 1) / 2.0
            } else {
                desk.dice.between(125, 180, 5)
            };
            let other = desk.dice.pick(&rims[..2]);
            let canister = desk.lines.work(
                "push, on the canister",
                formula(&base.to_string(), rim),
                unit,
                "",
            );
            let radius = desk.lines.work(
                "base radius of the legs",
                format!("{reach} x {share}"),
                small,
                "",
            );
            let stood = desk.lines.work(
                "push, on the legs",
                formula(&radius.to_string(), other),
                unit,
                "",
            );
            let answer = desk.lines.work(
                "how many times as much",
                format!("{stood} / {canister}"),
                "times",
                "",
            );
            Draft {
                ask: format!(
                    "{words}. On top of a canister the base has a radius of {base} {small} and the rim is \
                     {rim} {small} up; on {legs} legs that reach {reach} {small} from the middle it is \
                     {other} {small} up. How many times the push does the stove on legs stand?"
                ),
                accept: Accept::percent(&answer, 3.0),
                answer,
                unit: "times".to_owned(),
            }
        }
    }
}
