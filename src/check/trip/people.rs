//! Who goes.

use super::super::desk::Desk;
use super::optional;
use crate::diag::{nearest, told};
use crate::load::{Node, Value};
use crate::nouns::{Because, Library, People, Presumed, Profile, id};

/// The party. A youngest under 16, or of unknown age, wants an adult at each
/// lit stove.
pub(super) fn people(desk: &Desk, node: &Node) -> Option<People> {
    let keys = desk.keys(node, "`people`")?;
    let learners = keys
        .need("learners", "write how many learners (or clients) go")
        .map(|node| desk.whole(node, "the number of learners", 0..=200));
    let instructors = match keys.get("instructors") {
        Some(node) => desk.whole(node, "the number of instructors", 0..=200),
        None => {
            desk.assume(
                "people.instructors",
                Presumed::Count(0),
                Because::NoneStated,
            );
            Some(0)
        }
    };
    let youngest = keys
        .get("youngest")
        .map(|node| desk.whole(node, "the age of the youngest", 3..=110));
    let adults = match keys.get("adults_per_lit_stove") {
        Some(node) => desk.number(node, "adults beside each lit stove", 0.0..=10.0),
        None => {
            let age = youngest.flatten();
            let minor = age.is_none_or(|age| age < 16);
            desk.assume(
                "people.adults_per_lit_stove",
                Presumed::Count(u32::from(minor)),
                match age {
                    None => Because::AgeNotStated,
                    Some(_) if minor => Because::SomeoneUnder16,
                    Some(_) => Because::NobodyUnder16,
                },
            );
            Some(if minor { 1.0 } else { 0.0 })
        }
    };
    let diet: Option<Vec<String>> = keys.get("diet").map_or(Some(Vec::new()), |node| {
        let read: Vec<_> = desk
            .list(node, "the diets")
            .into_iter()
            .map(|item| diet(desk, item))
            .collect();
        read.into_iter().collect()
    });
    keys.done();
    let (learners, instructors) = (learners.flatten()?, instructors?);
    if learners + instructors == 0 {
        return desk.error(
            node,
            "trip.people",
            "nobody goes on this trip",
            "write at least one learner or instructor",
        );
    }
    if learners + instructors > 200 {
        return desk.error(
            node,
            "trip.people",
            told!(
                "{instructors} people are more than one file plans for",
                instructors = learners + instructors
            ),
            "split the party into files of at most 200 people",
        );
    }
    Some(People {
        learners,
        instructors,
        youngest: optional(youngest)?,
        adults_per_lit_stove: adults?,
        diet: diet?,
    })
}

/// A diet or an allergy: what it is, not that there is one.
fn diet(desk: &Desk, node: &Node) -> Option<String> {
    let text = desk.line(node, "a diet")?;
    if ["yes", "no", "none", "true", "false"].contains(&text.to_lowercase().as_str()) {
        return desk.error(
            node,
            "value.diet",
            told!("`{text}` does not say which diet or allergy", text),
            "write what it is, such as `tree nuts, strict`; where there is none leave `diet` out",
        );
    }
    Some(text)
}

/// Who runs it: a profile of the library, a name of their own, or name, phones and lines to sign.
pub(super) fn organisation(desk: &Desk, node: &Node, library: &Library) -> Option<Profile> {
    if !matches!(node.value, Value::Map(_)) {
        let written = node.text().unwrap_or_default();
        let wanted = id(written);
        let profiles = library.profiles.values();
        let found = profiles
            .clone()
            .find(|one| one.id == wanted || id(&one.name) == wanted);
        if found.is_none() && nearest(&wanted, profiles.map(|one| one.id.as_str())).is_none() {
            return desk
                .line(node, "the organisation")
                .map(|name| own(name, &[], &[]));
        }
        return desk
            .named(node, "profile", &library.profiles, |profile| &profile.name)
            .cloned();
    }
    let keys = desk.keys(node, "`organisation`")?;
    let name = keys
        .need("name", "name the organisation")
        .and_then(|node| desk.line(node, "the name"));
    let phones = keys.lines("phones", "a phone line");
    let sign_off = keys.lines("sign_off", "a sign-off line");
    keys.done();
    name.map(|name| own(name, &phones, &sign_off))
}

fn own(name: String, phones: &[String], sign_off: &[String]) -> Profile {
    Profile {
        id: id(&name),
        name,
        phones: phones.to_vec(),
        sign_off: sign_off.to_vec(),
        mark: None,
        paper: None,
        units: None,
        languages: Vec::new(),
    }
}
