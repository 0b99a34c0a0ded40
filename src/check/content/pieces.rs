//! Sections, questions and segments of a module.

use super::super::desk::Desk;
use super::applies::applies;
use super::prose::{phrase, prose};
use super::scene::{self, scene};
use crate::diag::told;
use crate::load::Node;
use crate::nouns::{Id, Light, Question, QuestionKind, Section, Segment, SegmentKind, Sum, id};
use crate::units::Time;

const LONGEST_QUESTION: usize = 600;
const LONGEST_CHOICE: usize = 160;
const LONGEST_NOTE: usize = 600;

/// A part of the learner text that not every trip needs.
pub(super) fn section(desk: &Desk, name: &Id, node: &Node) -> Option<Section> {
    let keys = desk.keys(node, "a section")?;
    let text = keys
        .need(
            "text",
            "write what learners read, as Markdown below `text: |`",
        )
        .and_then(|node| prose(desk, node));
    let applies = applies(&keys);
    keys.done();
    Some(Section {
        id: name.clone(),
        text: text?,
        applies: applies?,
    })
}

pub(super) fn question(desk: &Desk, name: &Id, node: &Node) -> Option<Question> {
    let keys = desk.keys(node, "a question")?;
    let kind = keys
        .need(
            "kind",
            "write choice, number, order, short, spot the fault or what now",
        )
        .and_then(|node| {
            desk.word(
                node,
                "a kind of question",
                QuestionKind::ALL,
                QuestionKind::word,
            )
        });
    let objective = keys
        .need("objective", "name the objective that it assesses")
        .and_then(|node| desk.line(node, "the objective"))
        .map(|text| id(&text));
    let ask = keys
        .need("ask", "write the question")
        .and_then(|node| phrase(desk, node, "the question", LONGEST_QUESTION));
    let choices: Vec<String> = keys
        .get("choices")
        .map(|node| {
            desk.list(node, "choices")
                .into_iter()
                .filter_map(|item| phrase(desk, item, "a choice", LONGEST_CHOICE))
                .collect()
        })
        .unwrap_or_default();
    let answer = keys.get("answer").map_or(Some(String::new()), |node| {
        phrase(desk, node, "the answer", LONGEST_NOTE)
    });
    let drawn = keys.get("scene").map(|node| scene(desk, name, node));
    let because = keys
        .need("because", "say why that is right")
        .and_then(|node| phrase(desk, node, "the reason", LONGEST_NOTE));
    let sum = keys
        .get("sum")
        .map(|node| desk.word(node, "a sum", Sum::ALL, Sum::word));
    let applies = applies(&keys);
    let kind = kind?;
    if let (Some(written), true) = (node.get("sum"), kind != QuestionKind::Number) {
        desk.error::<()>(
            written,
            "content.question",
            told!("a question of the kind `{kind}` has no sum", kind),
            "leave `sum` out, or write `kind: number`",
        );
    }
    if let (Some(written), true) = (node.get("scene"), kind != QuestionKind::SpotTheFault) {
        desk.error::<()>(
            written,
            "content.question",
            told!("a question of the kind `{kind}` has no scene", kind),
            "leave `scene` out, or write `kind: spot the fault`",
        );
    }
    match kind {
        QuestionKind::Choice | QuestionKind::Order => {
            let least = 2;
            if choices.len() < least {
                desk.error::<()>(
                    node,
                    "content.question",
                    "the question has nothing to choose from",
                    "list at least two `choices`: of a choice the first is right, of an order the right order",
                );
            }
            for (at, choice) in choices.iter().enumerate() {
                if choices[..at].contains(choice) {
                    desk.error::<()>(
                        node,
                        "content.question",
                        told!(
                            "the choice `{choice}` stands there twice",
                            choice = super::shown(choice)
                        ),
                        "change one of the two",
                    );
                }
            }
        }
        _ => {
            let own = if drawn.is_some() && kind == QuestionKind::SpotTheFault {
                Some("the answer of a question with a `scene` is its faults")
            } else {
                sum.as_ref()
                    .map(|_| "the answer of a question with a `sum` is worked out for each form")
            };
            match (own, node.get("answer")) {
                (None, _) => {
                    keys.need("answer", "write the answer")?;
                }
                (Some(why), Some(written)) => {
                    desk.error::<()>(written, "content.question", why, "leave `answer` out");
                }
                (Some(_), None) => {}
            }
            if let Some(choices) = node.get("choices") {
                desk.error::<()>(
                    choices,
                    "content.question",
                    told!("a question of the kind `{kind}` has no choices", kind),
                    "leave them out, or write `kind: choice`",
                );
            }
        }
    }
    keys.done();
    let scene = match drawn {
        Some(read) => Some(read?),
        None => None,
    };
    Some(Question {
        id: name.clone(),
        kind,
        objective: objective?,
        ask: ask?,
        choices,
        answer: match &scene {
            Some(scene) => scene::faults(scene),
            None => answer?,
        },
        scene,
        because: because?,
        sum: match sum {
            Some(read) => Some(read?),
            None => None,
        },
        applies: applies?,
    })
}

/// A segment; names in `after` and `objectives` are of its own module if they
/// name none.
pub(super) fn segment(desk: &Desk, module: &Id, name: &Id, node: &Node) -> Option<Segment> {
    let keys = desk.keys(node, "a segment")?;
    let title = keys
        .need("title", "name the segment")
        .and_then(|node| desk.line(node, "the title"));
    let kind = keys
        .need("kind", "write talk, show, say it, dry run unlit, do together, `you do it, I stand beside` or check")
        .and_then(|node| desk.word(node, "a kind of segment", SegmentKind::ALL, SegmentKind::word));
    let minutes = |key: &'static str, help: &'static str| {
        keys.need(key, help).and_then(|node| {
            desk.within(
                node,
                Time::minutes(1.0)..=Time::hours(8.0),
                "minutes, such as `10 min`",
            )
        })
    };
    let least = minutes("least", "write the fewest minutes that do it justice");
    let usual = minutes("usual", "write the usual minutes");
    let after = keys.get("after").map_or_else(Vec::new, |node| {
        super::applies::ids(desk, node)
            .into_iter()
            .map(|name| {
                if name.contains('.') {
                    name
                } else {
                    format!("{module}.{name}")
                }
            })
            .collect()
    });
    let flame = keys
        .get("flame")
        .map_or(Some(false), |node| desk.yes_no(node));
    let yes = |key| keys.get(key).map_or(Some(false), |node| desk.yes_no(node));
    let (opens_fuel, outdoors_only) = (yes("opens_fuel"), yes("outdoors_only"));
    let pot = yes("pot");
    let light = match keys.get("light") {
        Some(node) => desk
            .word(
                node,
                "a light that a segment needs",
                Light::ALL,
                Light::word,
            )
            .map(Some),
        None => Some(None),
    };
    let ratio = keys
        .get("learners_per_instructor")
        .map_or(Some(12), |node| {
            desk.whole(node, "learners an instructor can watch", 1..=60)
        });
    let required = keys
        .get("required")
        .map_or(Some(false), |node| desk.yes_no(node));
    let objectives = keys
        .get("objectives")
        .map_or_else(Vec::new, |node| super::applies::ids(desk, node));
    let kit = keys
        .get("kit")
        .map_or_else(Vec::new, |node| kit(desk, node));
    let flame_minutes = keys.get("flame_minutes").map_or(Some(Time::ZERO), |node| {
        desk.within(
            node,
            Time::ZERO..=Time::hours(4.0),
            "minutes of full flame, such as `4 min`",
        )
    });
    let note = |key| {
        keys.get(key)
            .map_or(Some(String::new()), |node| prose(desk, node))
    };
    let (set_out, show, sentence) = (note("set_out"), note("show"), note("sentence"));
    let (ask, watch_for, stop_if) = (note("ask"), note("watch_for"), note("stop_if"));
    let alone = note("alone");
    let applies = applies(&keys);
    keys.done();
    if let (Some(least), Some(usual)) = (least, usual)
        && least > usual
    {
        desk.error::<()>(
            node.get("least").unwrap_or(node),
            "content.segment",
            "the least minutes are more than the usual ones",
            "swap them",
        );
    }
    let (flame, flame_minutes) = (flame?, flame_minutes?);
    if !flame && flame_minutes > Time::ZERO {
        desk.error::<()>(
            node.get("flame_minutes").unwrap_or(node),
            "content.segment",
            "minutes of flame are counted, but nothing is lit",
            "write `flame: yes`, or leave `flame_minutes` out",
        );
    }
    if !flame && pot == Some(true) {
        desk.error::<()>(
            node.get("pot").unwrap_or(node),
            "content.segment",
            "a pot stands on the flame, but nothing is lit",
            "write `flame: yes`, or leave `pot` out",
        );
    }
    if flame && kind == Some(SegmentKind::DryRun) {
        desk.error::<()>(
            node.get("flame").unwrap_or(node),
            "content.segment",
            "a dry run is unlit, and this one has a flame",
            "write `flame: no`, or another kind",
        );
    }
    if (flame || opens_fuel == Some(true)) && node.get("alone").is_some() {
        desk.error::<()>(
            node.get("alone").unwrap_or(node),
            "content.segment",
            "learners are left alone with it, and there is a flame or open fuel in it",
            "leave `alone` out: an adult stands beside it",
        );
    }
    Some(Segment {
        id: name.clone(),
        title: title?,
        kind: kind?,
        least: least?,
        usual: usual?,
        after,
        flame,
        pot: pot?,
        opens_fuel: opens_fuel? || flame,
        outdoors_only: outdoors_only? || flame,
        light: light?,
        learners_per_instructor: ratio?,
        required: required?,
        objectives,
        kit,
        flame_minutes,
        set_out: set_out?,
        show: show?,
        sentence: sentence?,
        ask: ask?,
        watch_for: watch_for?,
        stop_if: stop_if?,
        alone: alone?,
        applies: applies?,
    })
}

fn kit(desk: &Desk, node: &Node) -> Vec<(String, u32, u32)> {
    if desk.keys(node, "`kit`").is_none() {
        return Vec::new();
    }
    node.entries()
        .iter()
        .filter_map(|entry| {
            let keys = desk.keys(&entry.node, "a thing to bring")?;
            let count = |key| {
                keys.get(key)
                    .map_or(Some(0), |node| desk.whole(node, "how many", 0..=100))
            };
            let (station, learner) = (count("a_station"), count("a_learner"));
            keys.done();
            Some((entry.key.clone(), station?, learner?))
        })
        .collect()
}
