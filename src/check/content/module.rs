//! A content module: facts, text, cautions, checklist, packing list, objectives.

use super::super::desk::{Desk, Keys};
use super::super::rules;
use super::applies::applies;
use super::pieces;
use super::prose::{phrase, phrase_with_numbers, prose};
use super::{entry_id, optional, origin};
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{
    Caution, Fact, FactValue, Id, Item, Level, Module, Moment, Objective, PackItem, Signal,
};
use crate::units::{
    Angle, Fraction, Length, Mass, Pressure, Quantity as _, Temperature, Time, Volume,
};
use std::collections::BTreeMap;

/// The longest checklist item: a line or two in large print.
const LONGEST_ITEM: usize = 130;
/// The longest part of a caution.
const LONGEST_CAUTION: usize = 260;
/// The longest title or phrase.
const LONGEST_PHRASE: usize = 200;
/// The longest story or first response: a minute to tell.
const LONGEST_STORY: usize = 700;
/// Parts of a packing list's bag.
const BAGS: &[&str] = &["fire", "cook", "wash", "safety", "repair"];

pub(super) fn module(desk: &Desk, name: &Id, node: &Node) -> Option<Module> {
    let keys = desk.keys(node, "a module")?;
    // what it was laid over is not part of it
    keys.get("extends");
    let title = keys
        .need("title", "name what the module is about")
        .and_then(|node| desk.line(node, "the title"));
    let summary = keys
        .need("summary", "say in one sentence what it is for")
        .and_then(|node| phrase(desk, node, "the summary", 300));
    let order = keys
        .need("order", "write a number; low ones stand first")
        .and_then(|node| desk.whole(node, "the order", 0..=100_000));
    let hazard = keys
        .need(
            "hazard",
            "write `yes` if the subject can hurt someone, else `no`",
        )
        .and_then(|node| desk.yes_no(node));
    let reviewed = keys
        .need("reviewed", "write the day it was last read with care")
        .and_then(|node| desk.date(node));
    let review_by = keys
        .need("review_by", "write the day by which it must be read again")
        .and_then(|node| desk.date(node));
    if let (Some(reviewed), Some(by), Some(node)) = (reviewed, review_by, node.get("review_by"))
        && by <= reviewed
    {
        desk.error::<()>(
            node,
            "content.review",
            "the next review is not after the last one",
            "write a later day",
        );
    }
    let applies = applies(&keys);
    let facts = keyed(&keys, "facts", fact);
    let text = keys
        .need(
            "text",
            "write what learners read, as Markdown below `text: |`",
        )
        .and_then(|node| prose(desk, node));
    let sections = listed(&keys, "sections", pieces::section);
    let instructor = keys
        .get("instructor")
        .map_or(Some(String::new()), |node| prose(desk, node));
    let story = keys.get("story").map_or(Some(String::new()), |node| {
        phrase(desk, node, "the story", LONGEST_STORY)
    });
    let first_response = keys
        .get("first_response")
        .map_or(Some(String::new()), |node| {
            phrase(desk, node, "what is done first", LONGEST_STORY)
        });
    let mut cautions: Vec<Caution> = listed(&keys, "cautions", caution);
    cautions.sort_by_key(|caution| caution.signal);
    if hazard == Some(true) && cautions.is_empty() {
        desk.error::<()>(
            node.get("hazard").unwrap_or(node),
            "content.hazard",
            "a module with a hazard has no caution",
            "write at least one under `cautions`: what it is, what happens, how to avoid it",
        );
    }
    let mut items = checklist(&keys);
    items.sort_by_key(|item| (item.moment, item.rank));
    let pack = listed(&keys, "pack", pack_item);
    let shake_down = listed(&keys, "shake_down", |desk, id, node| {
        item(desk, id, node, Moment::Home)
    });
    let objectives = keyed(&keys, "objectives", objective);
    let questions = listed(&keys, "questions", pieces::question);
    let segments = listed(&keys, "segments", |desk, id, node| {
        pieces::segment(desk, name, id, node)
    });
    let drawings = listed(&keys, "drawings", super::drawings::drawing);
    keys.done();
    Some(Module {
        id: name.clone(),
        file: node.at.source.name.clone(),
        title: title?,
        summary: summary?,
        order: order?,
        hazard: hazard?,
        reviewed: reviewed?,
        review_by: review_by?,
        applies: applies?,
        facts,
        text: text?,
        sections,
        instructor: instructor?,
        story: story?,
        first_response: first_response?,
        cautions,
        items,
        pack,
        shake_down,
        objectives,
        questions,
        segments,
        drawings,
    })
}

/// A block keyed by id.
fn keyed<T>(
    keys: &Keys<'_, '_>,
    key: &'static str,
    read: impl Fn(&Desk, &Id, &Node) -> Option<T>,
) -> BTreeMap<Id, T> {
    let Some(node) = keys.get(key) else {
        return BTreeMap::new();
    };
    super::keyed(keys.desk, node, Told::as_written(format!("`{key}`")), read)
}

/// A block keyed by id whose order counts.
fn listed<T>(
    keys: &Keys<'_, '_>,
    key: &'static str,
    read: impl Fn(&Desk, &Id, &Node) -> Option<T>,
) -> Vec<T> {
    let Some(node) = keys.get(key) else {
        return Vec::new();
    };
    entries(keys.desk, node, key, read)
}

fn entries<T>(
    desk: &Desk,
    node: &Node,
    what: &str,
    read: impl Fn(&Desk, &Id, &Node) -> Option<T>,
) -> Vec<T> {
    if desk
        .keys(node, told!("`{what}`, each by its id", what))
        .is_none()
    {
        return Vec::new();
    }
    node.entries()
        .iter()
        .filter_map(|entry| read(desk, &entry_id(desk, entry), &entry.node))
        .collect()
}

fn fact(desk: &Desk, _: &Id, node: &Node) -> Option<Fact> {
    let keys = desk.keys(node, "a fact")?;
    let value = fact_value(&keys);
    let say = keys
        .need("say", "say in a phrase what the figure is")
        .and_then(|node| phrase(desk, node, "the phrase", LONGEST_PHRASE));
    let rule = keys.get("rule").map(|node| {
        let text = desk.line(node, "a rule")?;
        if rules::kind_of(&text).is_some() {
            return Some(text);
        }
        let known = rules::RULES.iter().map(|(name, _)| *name);
        desk.error(
            node,
            "name.unknown",
            told!(
                "there is no rule named `{text}`",
                text = super::shown(&text)
            ),
            super::super::desk::suggestion(&text, known),
        )
    });
    let disagreement = keys
        .get("disagreement")
        .map_or(Some(String::new()), |node| prose(desk, node));
    let origin = origin(&keys, true);
    keys.done();
    let (origin, value, rule) = (origin?, value?, optional(rule)?);
    if let Some(rule) = &rule {
        let fits = matches!(
            (rules::kind_of(rule), &value),
            (Some(rules::RuleKind::Length), FactValue::Length(_))
                | (Some(rules::RuleKind::Text), FactValue::Text(_))
        );
        if !fits {
            desk.error::<()>(
                node,
                "content.rule",
                told!("the rule `{rule}` and this value are not of one kind", rule),
                "a rule on a distance overrides a length, a rule in words a text",
            );
        }
    }
    Some(Fact {
        value,
        say: say?,
        basis: origin.basis,
        sure: origin.sure,
        sources: origin.sources,
        as_of: origin.as_of,
        rule,
        disagreement: disagreement?,
    })
}

/// One of `value`, `low` with `high`, `text`, `warming`.
fn fact_value(keys: &Keys<'_, '_>) -> Option<FactValue> {
    const HELP: &str = "write `value: 200 ft`, or `low` and `high`, or `text`, or `warming: 6.5 C`";
    let desk = keys.desk;
    let (value, low, high) = (keys.get("value"), keys.get("low"), keys.get("high"));
    let (text, warming) = (keys.get("text"), keys.get("warming"));
    let ways = [value, low.or(high), text, warming]
        .iter()
        .filter(|way| way.is_some())
        .count();
    if ways != 1 {
        return desk.error(
            keys.node,
            "content.fact",
            if ways == 0 {
                "the fact has no value"
            } else {
                "the fact has more than one value"
            },
            HELP,
        );
    }
    if let Some(node) = value {
        return quantity(desk, node);
    }
    if let Some(node) = text {
        return phrase_with_numbers(desk, node, "the text", 300).map(FactValue::Text);
    }
    if let Some(node) = warming {
        return super::figures::warming(desk, node).map(FactValue::Warming);
    }
    let low = low.or_else(|| keys.need("low", HELP))?;
    let high = high.or_else(|| keys.need("high", HELP))?;
    let (from, to) = (quantity(desk, low)?, quantity(desk, high)?);
    if std::mem::discriminant(&from) != std::mem::discriminant(&to) {
        return desk.error(
            high,
            "content.fact",
            "low and high are not of one kind",
            "write both with units of the same quantity",
        );
    }
    if !in_order(&from, &to) {
        return desk.error(
            high,
            "content.fact",
            "high is not above low",
            "write the smaller one as `low`",
        );
    }
    Some(FactValue::Between(Box::new(from), Box::new(to)))
}

fn in_order(low: &FactValue, high: &FactValue) -> bool {
    use FactValue as F;
    match (low, high) {
        (F::Length(a), F::Length(b)) => a < b,
        (F::Temperature(a), F::Temperature(b)) => a < b,
        (F::Mass(a), F::Mass(b)) => a < b,
        (F::Volume(a), F::Volume(b)) => a < b,
        (F::Time(a), F::Time(b)) => a < b,
        (F::Pressure(a), F::Pressure(b)) => a < b,
        (F::Fraction(a), F::Fraction(b)) => a < b,
        (F::Angle(a), F::Angle(b)) => a < b,
        (F::Number(a), F::Number(b)) => a < b,
        _ => true,
    }
}

/// A quantity of whatever kind its unit says, or a plain number.
fn quantity(desk: &Desk, node: &Node) -> Option<FactValue> {
    let text = desk.scalar(node, "a value")?.trim();
    let plain = text.replace('\u{2212}', "-");
    if let Ok(number) = plain.parse::<f64>()
        && number.is_finite()
        && plain
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '-' | '.'))
    {
        return Some(FactValue::Number(number));
    }
    let read = Length::read(text)
        .map(FactValue::Length)
        .or_else(|_| Temperature::read(text).map(FactValue::Temperature))
        .or_else(|_| Mass::read(text).map(FactValue::Mass))
        .or_else(|_| Volume::read(text).map(FactValue::Volume))
        .or_else(|_| Time::read(text).map(FactValue::Time))
        .or_else(|_| Pressure::read(text).map(FactValue::Pressure))
        .or_else(|_| Fraction::read(text).map(FactValue::Fraction))
        .or_else(|_| Angle::read(text).map(FactValue::Angle));
    read.ok().or_else(|| {
        desk.error(
            node,
            "content.fact",
            told!(
                "`{text}` is not a number with a unit that is known here",
                text = super::shown(text)
            ),
            "write a quantity such as `200 ft`, `77 C`, `20 min`, `45%`, or use `text` for words",
        )
    })
}

fn caution(desk: &Desk, name: &Id, node: &Node) -> Option<Caution> {
    let keys = desk.keys(node, "a caution")?;
    let signal = keys
        .need("signal", "write danger, warning, caution or notice")
        .and_then(|node| desk.word(node, "a signal word", Signal::ALL, Signal::word));
    let part = |key, help: &'static str, what: &'static str| {
        keys.need(key, help)
            .and_then(|node| fragment(desk, node, what))
    };
    let hazard = part("hazard", "say what the hazard is", "the hazard");
    let consequence = part("consequence", "say what happens", "the consequence");
    let avoid = part("avoid", "say how to avoid it", "how to avoid it");
    let respond = keys.get("respond").map_or(Some(String::new()), |node| {
        fragment(desk, node, "what to do first")
    });
    let applies = applies(&keys);
    keys.done();
    Some(Caution {
        id: name.clone(),
        signal: signal?,
        hazard: hazard?,
        consequence: consequence?,
        avoid: avoid?,
        respond: respond?,
        applies: applies?,
    })
}

/// A part of a caution, which is set between others: no full stop at its end.
fn fragment(desk: &Desk, node: &Node, what: &'static str) -> Option<String> {
    let text = phrase(desk, node, what, LONGEST_CAUTION)?;
    if text.ends_with('.') && !text.ends_with("..") {
        desk.error::<()>(
            node,
            "content.full-stop",
            told!(
                "{what} ends with a full stop, and the sheet sets one after it",
                what = Told::from(what)
            ),
            "leave the last full stop off",
        );
    }
    Some(text)
}

fn checklist(keys: &Keys<'_, '_>) -> Vec<Item> {
    let desk = keys.desk;
    let Some(node) = keys.get("checklist") else {
        return Vec::new();
    };
    if desk.keys(node, "`checklist`").is_none() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for entry in node.entries() {
        let Some(moment) = Moment::from_word(&entry.key.replace('_', " ")) else {
            let known = Moment::ALL.iter().map(|moment| moment.word());
            let mut problem = entry.at.problem(crate::diag::Problem::error(
                "key.unknown",
                told!(
                    "`{key}` is not a moment of the day",
                    key = super::shown(&entry.key)
                ),
                super::super::desk::suggestion(&entry.key, known),
            ));
            problem.path = Some(entry.node.path.to_string());
            desk.put(problem);
            continue;
        };
        if matches!(entry.node.value, Value::Nothing) {
            continue;
        }
        found.extend(entries(desk, &entry.node, &entry.key, |desk, id, node| {
            item(desk, id, node, moment)
        }));
    }
    found
}

fn item(desk: &Desk, name: &Id, node: &Node, moment: Moment) -> Option<Item> {
    let keys = desk.keys(node, "an item")?;
    let say = keys
        .need("say", "write what to do, verb first")
        .and_then(|node| phrase(desk, node, "the item", LONGEST_ITEM));
    let rank = match keys.get("rank") {
        Some(node) => desk.whole(node, "the rank", 1..=3),
        None => Some(2),
    };
    let applies = applies(&keys);
    keys.done();
    Some(Item {
        id: name.clone(),
        moment,
        say: say?,
        rank: rank?,
        applies: applies?,
    })
}

fn pack_item(desk: &Desk, name: &Id, node: &Node) -> Option<PackItem> {
    let keys = desk.keys(node, "a thing to pack")?;
    let say = keys
        .need("say", "name it")
        .and_then(|node| phrase(desk, node, "the name", 80));
    let count = |key| {
        keys.get(key)
            .map_or(Some(0), |node| desk.whole(node, "how many", 0..=100))
    };
    let (a_kitchen, a_person) = (count("a_kitchen"), count("a_person"));
    let mass = keys.get("mass").map_or(Some(Mass::ZERO), |node| {
        desk.within(
            node,
            Mass::ZERO..=Mass::kilograms(50.0),
            "the mass of one, such as `40 g`",
        )
    });
    let bag = keys
        .need("bag", "write fire, cook, wash, safety or repair")
        .and_then(|node| desk.word(node, "a part of the bag", BAGS, |bag| bag));
    let returns = keys
        .get("returns")
        .map_or(Some(true), |node| desk.yes_no(node));
    let not_by_air = keys
        .get("not_by_air")
        .map_or(Some(false), |node| desk.yes_no(node));
    let applies = applies(&keys);
    keys.done();
    if a_kitchen == Some(0) && a_person == Some(0) {
        return desk.error(
            node,
            "content.pack",
            "nobody takes any of it",
            "write `a_kitchen: 1` or `a_person: 1`",
        );
    }
    Some(PackItem {
        id: name.clone(),
        say: say?,
        a_kitchen: a_kitchen?,
        a_person: a_person?,
        mass: mass?,
        bag: bag?.to_owned(),
        returns: returns?,
        not_by_air: not_by_air?,
        applies: applies?,
    })
}

fn objective(desk: &Desk, name: &Id, node: &Node) -> Option<Objective> {
    let keys = desk.keys(node, "an objective")?;
    let say = keys
        .need("say", "say what a learner can do afterwards, verb first")
        .and_then(|node| phrase(desk, node, "the objective", LONGEST_PHRASE));
    let behaviours: Vec<String> = keys
        .need("behaviours", "list what an assessor sees")
        .map(|node| {
            desk.list(node, "behaviours")
                .into_iter()
                .filter_map(|item| phrase(desk, item, "the behaviour", LONGEST_PHRASE))
                .collect()
        })
        .unwrap_or_default();
    let critical = keys
        .get("critical")
        .map_or(Some(false), |node| desk.yes_no(node));
    let levels: Option<Vec<Level>> = keys.get("levels").map_or(Some(Vec::new()), |node| {
        let read: Vec<_> = desk
            .list(node, "levels")
            .into_iter()
            .map(|item| desk.word(item, "a level", Level::ALL, Level::word))
            .collect();
        read.into_iter().collect()
    });
    keys.done();
    Some(Objective {
        id: name.clone(),
        say: say?,
        behaviours,
        critical: critical?,
        levels: levels?,
    })
}
