//! The course in the plan's JSON: sessions with who is where row by row, objectives, kit.

use crate::compose::{catalogue, said};
use crate::course::skills::{Check, Target};
use crate::course::syllabus::{self, Checked};
use crate::course::timetable::{
    Course, Does, Entry, LeftOut, MOST_WAITING, MenuBoil, NotMade, Place, Row, Spot, Timetable,
    What,
};
use crate::nouns::{CourseRequest, Id, Trip};
use serde_json::{Map, Value, json};

/// The course of a trip as JSON; `check` is its skills check.
#[must_use]
pub fn json(trip: &Trip, course: &Course<'_>, check: &Check<'_>) -> Value {
    let sessions = course.sessions.iter().enumerate();
    json!({
        "sessions": sessions
            .map(|(index, table)| session(trip, course, table, index))
            .collect::<Vec<_>>(),
        "objectives": objectives(course, check, &trip.course),
        "kit": kit(course),
        "menu": course.menu.iter().map(|one| menu(trip, course, one)).collect::<Vec<_>>(),
        "not_placed": course.not_placed.iter().map(|(module, why)| json!({
            "subject": module.id,
            "why": said::left_out(*why),
        })).collect::<Vec<_>>(),
    })
}

fn session(trip: &Trip, course: &Course<'_>, table: &Timetable<'_>, index: usize) -> Value {
    let mut whole = Map::new();
    let mut put = |key: &str, value: Value| whole.insert(key.to_owned(), value);
    put("name", json!(table.name));
    put("date", json!(table.date.map(|date| date.to_string())));
    put("kind", json!(table.kind.word()));
    put(
        "place",
        json!(if table.indoors { "indoors" } else { "outdoors" }),
    );
    put("starts", json!(clock(table.starts)));
    put("ends", json!(clock(table.ends)));
    put("least_ends", json!(clock(table.least_ends)));
    put("minutes", json!(table.length));
    put("focus", json!(table.focus));
    put("learners", json!(table.learners()));
    put("adults", json!(table.adults));
    put(
        "adults_per_lit_stove",
        json!(trip.people.adults_per_lit_stove),
    );
    put(
        "groups",
        table
            .groups
            .iter()
            .map(|one| json!({"name": one.name, "learners": one.learners}))
            .collect(),
    );
    put(
        "waiting",
        json!({"most_minutes": table.waits, "limit_minutes": MOST_WAITING}),
    );
    put("rows", rows(trip, table, &table.focus));
    if let (0, Some(fallback)) = (index, &course.fallback) {
        let takes = fallback.ends - fallback.starts;
        put(
            "fallback",
            json!({
                "place": if fallback.indoors { "indoors" } else { "outdoors" },
                "minutes": fallback.length,
                "focus": fallback.focus,
                "starts_by": clock((table.starts + table.length).saturating_sub(takes)),
                "rows": rows(trip, fallback, &fallback.focus),
                "left_out": fallback.left_out.iter().map(left_out).collect::<Vec<_>>(),
            }),
        );
    }
    put("left_out", table.left_out.iter().map(left_out).collect());
    Value::Object(whole)
}

fn left_out(one: &LeftOut<'_>) -> Value {
    json!({
        "segment": format!("{}.{}", one.module.id, one.segment.id),
        "why": said::left_out(one.why),
        "minutes": one.minutes,
    })
}

fn rows(trip: &Trip, table: &Timetable<'_>, focus: &[Id]) -> Value {
    table
        .rows
        .iter()
        .map(|one| row(trip, table, one, focus))
        .collect()
}

fn row(trip: &Trip, table: &Timetable<'_>, row: &Row<'_>, focus: &[Id]) -> Value {
    let entry = &table.entries[row.entry];
    let taught = entry.taught();
    let segment = match taught[..] {
        [only] => Some(only),
        _ => None,
    };
    let lit = row.places.iter().any(|place| place.lit);
    json!({
        "start": clock(row.starts),
        "end": clock(row.ends()),
        // Between two rounds burners rest.
        "segment": if entry.flame && !lit { "cooling".to_owned() } else { name(entry) },
        // What of the check it is; none for the form and for what no segment holds.
        "checks": match entry.what {
            What::Check(Some((module, segment))) => Some(format!("{}.{}", module.id, segment.id)),
            _ => None,
        },
        "kind": segment.map(|(_, segment)| segment.kind.word()),
        "flame": lit,
        "opens_fuel": lit || taught.iter().any(|(_, segment)| segment.opens_fuel),
        "outdoors_only": lit || taught.iter().any(|(_, segment)| segment.outdoors_only),
        "focus": taught.iter().any(|(module, _)| focus.contains(&module.id)),
        "teacher": entry.teacher.map(|one| table.label(&[one])),
        "places": row.places.iter().map(|one| place(trip, table, entry, one)).collect::<Vec<_>>(),
        "free_adults": row.free_adults,
    })
}

/// The segment of a row, or the word for what is none.
fn name(entry: &Entry<'_>) -> String {
    let word = match entry.what {
        What::Segment(module, segment) => return format!("{}.{}", module.id, segment.id),
        What::Carousel(_) => "carousel",
        What::Recall(_) => "recall",
        What::Drill => "drill",
        What::AllOff => "all-off",
        What::Cooling => "cooling",
        What::Break => "break",
        What::HandOut => "handing-out",
        What::Worksheet => "worksheet",
        What::Form | What::Check(_) => "check",
        What::ClearUp => "clearing-up",
    };
    word.to_owned()
}

fn place(trip: &Trip, table: &Timetable<'_>, entry: &Entry<'_>, place: &Place<'_>) -> Value {
    let kitchen = match place.at {
        Spot::Station(index) | Spot::Spare(index) => trip.kitchens.get(index),
        Spot::Bench(_) | Spot::Line => None,
    };
    let station = match place.at {
        Spot::Station(_) => kitchen.map(|one| one.name.clone()),
        Spot::Spare(_) => kitchen.map(|one| format!("{} (second burner)", one.name)),
        Spot::Bench(number) => Some(format!("bench {number}")),
        Spot::Line => None,
    };
    json!({
        "station": station,
        "stove": kitchen.map(|one| one.stove.id.clone()),
        "lit": place.lit,
        "fuel_open": place.fuel_open,
        "group": table.label(&place.learners),
        "who": place.learners.iter().map(|one| table.label(&[*one])).collect::<Vec<_>>(),
        "learners": place.learners.len(),
        "adults": place.adults,
        "free_adult_here": place.led,
        "does": match &place.does {
            Does::Entry if matches!(entry.what, What::Form) => "form".to_owned(),
            Does::Entry => "row".to_owned(),
            Does::Beside(module, segment) => format!("{}.{}", module.id, segment.id),
            Does::Rehearse => "rehearse".to_owned(),
            Does::Worksheet => "worksheet".to_owned(),
            Does::Cards => "cards".to_owned(),
            Does::Form => "form".to_owned(),
            Does::Wait => "wait".to_owned(),
        },
    })
}

fn objectives(course: &Course<'_>, check: &Check<'_>, request: &CourseRequest) -> Value {
    syllabus::taught(course, request)
        .iter()
        .map(|one| {
            let taught: Vec<String> = one
                .at
                .iter()
                .filter_map(|(session, starts)| {
                    let table = course.sessions.get(*session)?;
                    Some(format!("{} {}", table.name, clock(*starts)))
                })
                .collect();
            json!({
                "id": format!("{}.{}", one.target.module.id, one.target.id),
                "critical": one.target.objective.critical,
                "taught": taught,
                "checked": checked(check, &one.target),
            })
        })
        .collect()
}

/// `A3` for the third question of form A, `station` where an adult watches.
fn checked(check: &Check<'_>, target: &Target<'_>) -> Vec<String> {
    let all = syllabus::checked(check, target).into_iter();
    all.map(|one| match one {
        Checked::Form(letter, number) => format!("{letter}{number}"),
        Checked::Station => "station".to_owned(),
    })
    .collect()
}

/// A meal at a station: the rows in which its water is boiled and that in which it is drunk, or
/// why it is not made.
fn menu(trip: &Trip, course: &Course<'_>, one: &MenuBoil) -> Value {
    let table = &course.sessions[one.session];
    let made = one.made.as_ref();
    json!({
        "meal": one.meal.word(),
        "station": trip.kitchens.get(one.station).map(|kitchen| &kitchen.name),
        "session": table.name,
        "water_l": one.water.in_litres(),
        "people": one.people,
        "boiled": made.map_or_else(
            |_| Vec::new(),
            |made| made.rows.iter().map(|row| clock(table.rows[*row].starts)).collect(),
        ),
        "drunk": made.ok().map(|made| clock(table.entries[made.drunk].starts)),
        "why_not": made.err().map(|why| match why {
            NotMade::NothingLit => "nothing is lit",
            NotMade::NoPot => "no flame has a pot on it",
            NotMade::NeverBoils => "it never boils",
            NotMade::Short { .. } => "the flames are too short",
        }),
    })
}

/// What is brought: what the segments ask for, and the safety kit.
fn kit(course: &Course<'_>) -> Value {
    let safety = &course.safety;
    let mut all: Vec<Value> = course
        .kit
        .iter()
        .map(|one| json!({"item": catalogue::text(&one.item), "count": one.count, "where": one.stations}))
        .collect();
    let live = [
        (
            "water in open buckets, litres",
            libm::ceil(safety.water.in_litres()) as u32,
        ),
        ("burn kit", safety.burn_kits),
        ("marked cold-down zone", safety.cold_down),
        ("hair tie", safety.hair_ties),
        ("lighter", safety.lighters),
    ];
    for (item, count) in live {
        if count > 0 {
            all.push(json!({"item": item, "count": count, "where": []}));
        }
    }
    all.into()
}

/// Minutes after midnight as `09:05`.
fn clock(minutes: u32) -> String {
    format!("{:02}:{:02}", minutes / 60 % 24, minutes % 60)
}
