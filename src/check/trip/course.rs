//! The lesson that a file asks for.

use super::super::desk::{Desk, Keys, shown, suggestion};
use super::camps::in_or_out;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{
    Because, CourseRequest, Fallback, Id, Level, Library, Presumed, Session, SessionKind, id,
};
use crate::units::{Quantity as _, Time};

/// Minutes of a session when none are stated.
const USUAL_MINUTES: f64 = 120.0;
/// Start of a session when none is stated: 9:00.
const USUAL_START: u32 = 9 * 60;
/// The seed when none is stated. It is not listed among the defaults, which learners may
/// read: only the key tells it.
const USUAL_SEED: u32 = 1;

pub(super) fn course(
    root: &Keys<'_, '_>,
    kitchens: usize,
    indoors: bool,
    library: &Library,
) -> Option<CourseRequest> {
    let desk = root.desk;
    let Some(node) = root.get("course") else {
        return Some(CourseRequest {
            sessions: vec![Session {
                name: Session::unnamed(0),
                length: Time::minutes(USUAL_MINUTES),
                starts: USUAL_START,
                date: None,
                indoors,
                kind: SessionKind::Teach,
                focus: Vec::new(),
            }],
            latitude: None,
            stations: kitchens as u32,
            focus: Vec::new(),
            known: Vec::new(),
            level: Level::Scout,
            seed: USUAL_SEED,
            indoors,
            fallback: None,
            stated: false,
        });
    };
    let keys = desk.keys(node, "`course`")?;
    let indoors = match keys.get("place") {
        Some(node) => in_or_out(desk, node).map(|inside| inside || indoors),
        None => Some(indoors),
    };
    let sessions = sessions(&keys, indoors.unwrap_or(false), library);
    let stations = match keys.get("stations") {
        Some(node) => desk.whole(node, "the number of stations", 1..=50),
        None => {
            desk.assume(
                "course.stations",
                Presumed::Count(kitchens as u32),
                Because::OneAKitchen,
            );
            Some(kitchens as u32)
        }
    };
    let focus = modules(desk, keys.get("focus"), library);
    let objectives: Vec<Id> = library
        .modules
        .values()
        .flat_map(|module| {
            module
                .objectives
                .keys()
                .map(|id| format!("{}.{id}", module.id))
        })
        .collect();
    let known = ids(
        desk,
        keys.get("known"),
        "an objective",
        false,
        objectives.iter().map(String::as_str),
    );
    let level = match keys.get("level") {
        Some(node) => desk.word(node, "a level", Level::ALL, Level::word),
        None => {
            desk.assume(
                "course.level",
                Presumed::Word(Level::Scout.word()),
                Because::PlainestWords,
            );
            Some(Level::Scout)
        }
    };
    let seed = keys.get("seed").map_or(Some(USUAL_SEED), |node| {
        desk.whole(node, "the seed of the skills check", 0..=999_999_999)
    });
    let latitude = match keys.get("latitude") {
        Some(node) => desk
            .number(node, "degrees of latitude, north positive", -66.0..=66.0)
            .map(Some),
        None => Some(None),
    };
    let fallback = keys
        .get("fallback")
        .map(|node| fallback(desk, node, library));
    keys.done();
    Some(CourseRequest {
        sessions: sessions?,
        stations: stations?,
        focus: focus?,
        known: known?,
        level: level?,
        seed: seed?,
        latitude: latitude?,
        indoors: indoors?,
        fallback: super::optional(fallback)?,
        stated: true,
    })
}

/// Minutes: a plain number, or a time with its unit.
fn minutes(desk: &Desk, node: &Node) -> Option<Time> {
    let text = desk.scalar(node, "minutes")?.trim();
    if text.parse::<f64>().is_ok() {
        return desk
            .whole(node, "the minutes of a lesson", 10..=720)
            .map(|minutes| Time::minutes(f64::from(minutes)));
    }
    let limits = "the minutes of a lesson, from 10 to 720, such as `150` or `2.5 h`";
    if Time::read(text).is_err() {
        return desk.error(
            node,
            "value.quantity",
            told!("`{value}` is not a number of minutes", value = shown(text)),
            told!("write {limits}", limits = Told::from(limits)),
        );
    }
    desk.within(node, Time::minutes(10.0)..=Time::minutes(720.0), limits)
}

/// A session with the course's own values.
struct Usual {
    length: Time,
    starts: u32,
    indoors: bool,
}

impl Usual {
    fn session(&self, index: usize) -> Session {
        Session {
            name: Session::unnamed(index),
            length: self.length,
            starts: self.starts,
            date: None,
            indoors: self.indoors,
            kind: SessionKind::Teach,
            focus: Vec::new(),
        }
    }
}

fn sessions(keys: &Keys<'_, '_>, indoors: bool, library: &Library) -> Option<Vec<Session>> {
    let desk = keys.desk;
    let length = keys.get("minutes").map(|node| minutes(desk, node));
    let starts = keys.get("starts").map(|node| desk.clock(node));
    let listed = keys.node.get("sessions");
    let usual_length = match length {
        Some(read) => read,
        None => {
            if listed.is_none() {
                desk.assume(
                    "course.minutes",
                    Presumed::Quantity(format!("{USUAL_MINUTES}")),
                    Because::NotStated,
                );
            }
            Some(Time::minutes(USUAL_MINUTES))
        }
    };
    let usual_start = match starts {
        Some(read) => read,
        None => {
            if !matches!(listed.map(|node| &node.value), Some(Value::List(_))) {
                desk.assume(
                    "course.starts",
                    Presumed::Quantity("9:00".to_owned()),
                    Because::NotStated,
                );
            }
            Some(USUAL_START)
        }
    };
    let usual = Usual {
        length: usual_length?,
        starts: usual_start?,
        indoors,
    };
    match keys.get("sessions") {
        None => Some(vec![usual.session(0)]),
        Some(node) => match &node.value {
            Value::List(items) if !items.is_empty() => {
                let read: Vec<Option<Session>> = items
                    .iter()
                    .enumerate()
                    .map(|(index, item)| session(desk, item, usual.session(index), library))
                    .collect();
                let read: Vec<Session> = read.into_iter().collect::<Option<_>>()?;
                in_order(desk, items, &read);
                Some(read)
            }
            _ => {
                let count = desk.whole(node, "the number of sessions", 1..=30)?;
                Some(
                    (0..count as usize)
                        .map(|index| usual.session(index))
                        .collect(),
                )
            }
        },
    }
}

fn session(desk: &Desk, item: &Node, usual: Session, library: &Library) -> Option<Session> {
    let keys = desk.keys(item, "a session")?;
    let name = match keys.get("name") {
        Some(node) => desk.line(node, "the session's name"),
        None => Some(usual.name),
    };
    let length = match keys.get("minutes") {
        Some(node) => minutes(desk, node),
        None => Some(usual.length),
    };
    let starts = match keys.get("starts") {
        Some(node) => desk.clock(node),
        None => Some(usual.starts),
    };
    let date = match keys.get("date") {
        Some(node) => desk.date(node).map(Some),
        None => Some(None),
    };
    let indoors = match keys.get("place") {
        Some(node) => in_or_out(desk, node),
        None => Some(usual.indoors),
    };
    let kind = match keys.get("kind") {
        Some(node) => desk.word(
            node,
            "a kind of session",
            SessionKind::ALL,
            SessionKind::word,
        ),
        None => Some(SessionKind::Teach),
    };
    let focus = modules(desk, keys.get("focus"), library);
    keys.done();
    Some(Session {
        name: name?,
        length: length?,
        starts: starts?,
        date: date?,
        indoors: indoors?,
        kind: kind?,
        focus: focus?,
    })
}

/// Sessions follow each other: none before the one above it, no two on one clock, nothing checked
/// or taught back before it was taught.
fn in_order(desk: &Desk, items: &[Node], sessions: &[Session]) {
    for (index, session) in sessions.iter().enumerate() {
        let (node, earlier) = (&items[index], &sessions[..index]);
        if session.kind != SessionKind::Teach
            && !earlier.iter().any(|one| one.kind == SessionKind::Teach)
        {
            desk.error::<()>(
                node.get("kind").unwrap_or(node),
                "course.order",
                told!(
                    "`{name}` is a {kind} and nothing was taught before it",
                    name = session.name,
                    kind = session.kind
                ),
                "put a session with `kind: teach` above it, or write `kind: teach`",
            );
        }
        let Some(before) = earlier.last() else {
            continue;
        };
        let (Some(first), Some(second)) = (before.date, session.date) else {
            continue;
        };
        let ends = before.starts + before.length.in_minutes() as u32;
        if second < first {
            desk.error::<()>(
                node.get("date").unwrap_or(node),
                "course.order",
                told!(
                    "`{name}` is on a day before `{name_2}`, which stands above it",
                    name = session.name,
                    name_2 = before.name
                ),
                "list the sessions in the order in which they are held",
            );
        } else if second == first && session.starts < ends {
            desk.error::<()>(
                node.get("starts")
                    .or_else(|| node.get("date"))
                    .unwrap_or(node),
                "course.order",
                told!("`{name}` starts at {starts}:{starts_2}, and `{name_2}` runs until {ends}:{ends_2} that day", name = session.name, starts = session.starts / 60, starts_2 = format!("{:02}", session.starts % 60), name_2 = before.name, ends = ends / 60 % 24, ends_2 = format!("{:02}", ends % 60)),
                "start it later, or give it another date",
            );
        }
    }
}

/// Modules by name or a part of it.
fn modules(desk: &Desk, node: Option<&Node>, library: &Library) -> Option<Vec<Id>> {
    ids(
        desk,
        node,
        "a module",
        true,
        library.modules.keys().map(String::as_str),
    )
}

fn fallback(desk: &Desk, node: &Node, library: &Library) -> Option<Fallback> {
    let keys = desk.keys(node, "`fallback`")?;
    let length = keys
        .need("minutes", "write how many minutes the shorter plan takes")
        .map(|node| minutes(desk, node));
    let indoors = match keys.get("place") {
        Some(node) => in_or_out(desk, node),
        None => {
            desk.assume(
                "course.fallback.place",
                Presumed::Word("indoors"),
                Because::BadWeather,
            );
            Some(true)
        }
    };
    let focus = modules(desk, keys.get("focus"), library);
    keys.done();
    Some(Fallback {
        name: "Fallback".to_owned(),
        length: length.flatten()?,
        indoors: indoors?,
        focus: focus?,
    })
}

/// Ids of a list. A part of a name is enough if it names one alone; with `several`, it stands for
/// all that it names.
fn ids<'k>(
    desk: &Desk,
    node: Option<&Node>,
    what: &'static str,
    several: bool,
    known: impl Iterator<Item = &'k str> + Clone,
) -> Option<Vec<Id>> {
    let Some(node) = node else {
        return Some(Vec::new());
    };
    let mut read: Vec<Option<Id>> = Vec::new();
    for item in desk.list(node, what) {
        let Some(wanted) = desk.scalar(item, what).map(id) else {
            read.push(None);
            continue;
        };
        let part: Vec<&str> = known
            .clone()
            .filter(|name| name.split('-').any(|word| word == wanted))
            .collect();
        if known.clone().any(|name| name == wanted) {
            read.push(Some(wanted));
        } else if part.len() == 1 || (several && !part.is_empty()) {
            if several {
                desk.assume(
                    item.path.to_string(),
                    Presumed::Modules(part.iter().map(|name| (*name).to_owned()).collect()),
                    Because::StandsFor(shown(&wanted)),
                );
            }
            read.extend(part.into_iter().map(|name| Some(name.to_owned())));
        } else {
            read.push(desk.error(
                item,
                "name.unknown",
                told!(
                    "there is no {what} named `{wanted}`",
                    what = Told::from(what.trim_start_matches("an ").trim_start_matches("a ")),
                    wanted = shown(&wanted)
                ),
                suggestion(&wanted, known.clone()),
            ));
        }
    }
    let read: Option<Vec<Id>> = read.into_iter().collect();
    read.map(|all| {
        let mut once: Vec<Id> = Vec::new();
        for one in all {
            if !once.contains(&one) {
                once.push(one);
            }
        }
        once
    })
}
