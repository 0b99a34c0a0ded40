//! A trip or lesson, every default filled in.

mod camps;
mod course;
mod kitchens;
mod measured;
mod menu;
mod people;
mod safety;
mod stage;
mod stores;

pub(super) use camps::{elevation, pressure};

use super::desk::{Desk, Keys};
use super::plausible;
use super::values::in_feet;
use crate::diag::{Outcome, Problem, told};
use crate::load::{ENGLISH, Node, Value, Written};
use crate::nouns::{
    Arrival, BoilRules, Camp, Eating, Kind, Kitchen, Library, Meal, Paper, Profile, Spare,
    Treatment, Trip, Washing, WaterFrom, id,
};
use crate::nouns::{Because, Presumed};
use crate::units::{Fraction, Length, Units, Volume, say};

pub(super) fn trip(written: &Written, library: &Library) -> Outcome<(Trip, Vec<Problem>)> {
    let desk = Desk::default();
    let root = &written.root;
    if root.get("runs").is_some() && root.get("people").is_none() && root.get("camps").is_none() {
        desk.error::<()>(
            root,
            "trip.is_trial",
            "this is a burn trial and not a trip",
            "`leeside trial FILE` works it out",
        );
        return desk.finish(None);
    }
    let trip = desk
        .keys(&written.root, "a trip file")
        .and_then(|keys| read(keys, written, library));
    plausible::values(&desk, root, library);
    if let Some(trip) = &trip {
        plausible::pairs(&desk, root, trip, library);
    }
    let trip = trip.map(|trip| Trip {
        assumed: desk.assumed(),
        ..trip
    });
    desk.finish(trip)
}

/// The name of a packet's folder, from the name of its file and never from its
/// title: lower case, runs of anything but letters and digits one hyphen.
#[must_use]
pub fn slug(file: &str) -> String {
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file);
    let lower = name.to_lowercase();
    let stem = [".yaml", ".yml"]
        .iter()
        .find_map(|ending| lower.strip_suffix(ending))
        .unwrap_or(&lower);
    let slug = crate::nouns::file_name(stem);
    if slug.is_empty() {
        "trip".to_owned()
    } else {
        slug
    }
}

const UNITS: &[(Units, &str)] = &[
    (Units::Us, "us"),
    (Units::Metric, "metric"),
    (Units::Both, "both"),
];

/// `us`, `metric` or `both`.
pub(super) fn read_units(desk: &Desk, node: &Node) -> Option<Units> {
    desk.word(node, "a set of units", UNITS, |(_, word)| word)
        .map(|(units, _)| units)
}

fn read(keys: Keys<'_, '_>, written: &Written, library: &Library) -> Option<Trip> {
    let desk = keys.desk;
    let root = keys.node;
    let kind = match keys.get("kind") {
        Some(node) => desk.word(node, "a kind of file", Kind::ALL, Kind::word)?,
        None => {
            if root.get("stations").is_some() && root.get("camps").is_none() {
                desk.error::<()>(
                    root,
                    "key.missing",
                    "the file has stations and no camps, but does not say that it is a lesson",
                    "write `kind: lesson` at the top",
                );
                return None;
            }
            Kind::Trip
        }
    };
    let lesson = kind == Kind::Lesson;
    elsewhere(&keys, lesson);

    let title = keys
        .need("title", "write `title: ` and a few words")
        .map(|node| desk.line(node, "the title"));
    let starts = keys.get("starts").map(|node| desk.date(node));
    let organisation = keys
        .get("organisation")
        .map(|node| people::organisation(desk, node, library));
    // which folders these are is settled before the library is read: `Written::content`
    keys.get("content");
    let notes = keys.lines("notes", "a note");
    let profile: Option<Profile> = organisation.clone().flatten();
    let units = units(&keys, profile.as_ref());
    let paper = paper(&keys, profile.as_ref(), units);
    // whether there is such a language is settled when its content is read
    keys.lines("language", "a language, such as `es`");
    let languages = wanted_in(written, library);
    let people = keys
        .need("people", "write `learners` and `instructors` below it")
        .and_then(|node| people::people(desk, node));
    let treatment = match keys.get("water_treatment") {
        Some(node) => desk.word(
            node,
            "a way to make water safe",
            Treatment::ALL,
            Treatment::word,
        ),
        None if lesson => {
            desk.assume(
                "water_treatment",
                Presumed::Word("tap"),
                Because::LessonBringsWater,
            );
            Some(Treatment::Tap)
        }
        None => {
            keys.need(
                "water_treatment",
                "write how drinking water is made safe: tap, boil, filter, chemical or uv",
            );
            None
        }
    };

    let library_menu = menu::base(&keys, library);
    let menu_node = keys.get("menu");
    let menu = library_menu.and_then(|base| match menu_node {
        Some(node) => menu::menu(desk, node, &base, library),
        None => {
            desk.assume(
                "menu",
                Presumed::Name(base.name.clone()),
                Because::NoMenuStated,
            );
            Some(base)
        }
    });
    let kitchens = kitchens::kitchens(
        &keys,
        if lesson { "stations" } else { "kitchens" },
        people.as_ref().map(crate::nouns::People::all),
        library,
    );

    let restrictions = safety::restrictions(&keys);
    let wide = camps::Wide {
        library,
        units,
        menu: menu.clone(),
        drinking: keys.get("drinking").map(|node| camps::drinking(desk, node)),
        tap: treatment == Some(Treatment::Tap),
        checked: restrictions.checked.clone(),
    };
    let camps = if lesson {
        camps::lesson(&keys, &wide).map(|camp| vec![camp])
    } else {
        keys.need(
            "camps",
            "list the camps, each with name, nights and elevation",
        )
        .and_then(|node| camps::camps(desk, node, &wide))
    };
    let camps = camps.map(|camps| safety::cooked(desk, &restrictions, camps));
    if let (Some(camps), Some(kitchens), Some(node)) = (&camps, &kitchens, keys.node.get("camps")) {
        sittings(desk, node, camps, kitchens);
    }
    let snow = camps
        .as_ref()
        .is_some_and(|camps| camps.iter().any(|camp| camp.water_from == WaterFrom::Snow));

    let first_meal = meal(
        &keys,
        "first_meal",
        Meal::Supper,
        &[Meal::Breakfast, Meal::Lunch, Meal::Supper],
        lesson,
    );
    let last_meal = meal(
        &keys,
        "last_meal",
        Meal::Breakfast,
        &[Meal::Breakfast, Meal::Lunch, Meal::Supper],
        lesson,
    );
    let arrival = keys
        .get("arrival")
        .map(|node| desk.word(node, "a way to arrive", Arrival::ALL, Arrival::word));
    let spare = spare(&keys, lesson);
    let confidence = confidence(&keys, snow);
    let second_stove = keys.get("second_stove").map(|node| desk.yes_no(node));
    let resupply = keys
        .get("resupply")
        .map(|node| camps::resupply(desk, node, camps.as_deref().unwrap_or_default()));
    let prices = keys
        .get("prices")
        .map_or(Some(Vec::new()), |node| stores::prices(desk, node, library));
    let canisters_on_hand = keys
        .get("canisters_on_hand")
        .map_or(Some(Vec::new()), |node| {
            stores::canisters(desk, node, kitchens.as_deref(), library)
        });
    let part_used_at_most = keys
        .get("part_used_at_most")
        .map(|node| desk.whole(node, "a number of canisters", 0..=20));
    let washing = chosen(
        &keys,
        ("washing", "a way to wash up"),
        Washing::WipeAndRinse,
        Washing::ALL,
        Washing::word,
        lesson,
    );
    let eating = chosen(
        &keys,
        ("eating", "a way to eat"),
        Eating::OwnBowls,
        Eating::ALL,
        Eating::word,
        lesson,
    );
    let boil_rules = chosen(
        &keys,
        ("boil_rules", "a set of boiling rules"),
        BoilRules::Cdc,
        BoilRules::ALL,
        BoilRules::word,
        lesson,
    );
    let step = match keys.get("step_length") {
        Some(node) => desk.within(
            node,
            Length::metres(0.3)..=Length::metres(1.5),
            "the length of one step, from 0.3 m to 1.5 m (12 in to 59 in)",
        ),
        None => {
            let step = library.figures.step.value;
            desk.assume(
                "step_length",
                Presumed::Quantity(format!("{} m", say::significant(step.in_metres(), 3))),
                Because::CountYourSteps,
            );
            Some(step)
        }
    };
    let emergency = safety::emergency(&keys);
    let indoors = lesson && camps::indoors(&keys);
    let course = course::course(
        &keys,
        kitchens.as_ref().map_or(1, Vec::len),
        indoors,
        library,
    );
    if indoors && menu_node.is_some_and(|node| node.text() != Some("cold")) {
        desk.warn(
            menu_node.unwrap_or(root),
            "trip.indoors",
            "nothing is lit indoors: this menu is not cooked, and no fuel is counted for it",
            "write `place: outdoors` to cook it; it may stay for the next dry day",
        );
    }
    keys.done();
    safety::cross_checks(
        desk,
        root,
        &safety::Whole {
            kitchens: kitchens.as_deref().unwrap_or_default(),
            camps: camps.as_deref().unwrap_or_default(),
            restrictions: &restrictions,
            starts: starts.flatten(),
            treatment,
            washing,
            library,
        },
    );

    Some(Trip {
        slug: slug(&written.source.name),
        file: written.source.name.clone(),
        title: title.flatten()?,
        kind,
        starts: optional(starts)?,
        organisation: optional(organisation)?,
        notes,
        first_meal: first_meal?,
        last_meal: last_meal?,
        arrival: optional(arrival)?,
        units,
        paper,
        languages,
        people: people?,
        kitchens: kitchens?,
        camps: camps?,
        spare: spare?,
        confidence: confidence?,
        second_stove: optional(second_stove)?,
        resupply: optional(resupply)?,
        prices: prices?,
        canisters_on_hand: canisters_on_hand?,
        part_used_at_most: optional(part_used_at_most)?,
        treatment: treatment?,
        washing: washing?,
        eating: eating?,
        step: step?,
        boil_rules: boil_rules?,
        restrictions,
        emergency,
        course: course?,
        assumed: Vec::new(),
    })
}

/// The meals of a named menu of the library.
pub(super) fn read_menu(keys: &Keys<'_, '_>, name: String) -> Option<crate::nouns::Menu> {
    menu::meals(keys, None, name)
}

/// Something optional that was read: stated and wrong is not the same as left out.
fn optional<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(Some(value)) => Some(Some(value)),
        Some(None) => None,
    }
}

/// Keys that belong to the other kind of file.
fn elsewhere(keys: &Keys<'_, '_>, lesson: bool) {
    if lesson {
        for key in [
            "camps",
            "kitchens",
            "first_meal",
            "last_meal",
            "arrival",
            "resupply",
            "spare",
            "drinking",
        ] {
            keys.refuse(
                key,
                told!("`{key}` belongs to a trip, and this is a lesson", key),
                "leave it out; a lesson has `place`, `elevation` and `stations`",
            );
        }
    } else {
        keys.refuse(
            "land",
            "`land` belongs to a lesson; each camp of a trip has its own `place`",
            "write `place` in the camp that it is true for",
        );
        keys.refuse(
            "stations",
            "`stations` belong to a lesson, and this is a trip",
            "write `kitchens`, or `kind: lesson` at the top; stations side by side go into `course`",
        );
        for key in [
            "place",
            "elevation",
            "pressure",
            "day",
            "night",
            "wind",
            "water",
            "water_from",
            "fuel_temperature",
            "rules",
        ] {
            keys.refuse(
                key,
                told!(
                    "`{key}` stands outside the camps, but each camp has its own",
                    key
                ),
                "move it into the camp that it is true for",
            );
        }
    }
}

fn units(keys: &Keys<'_, '_>, profile: Option<&Profile>) -> Units {
    let stated = keys
        .get("units")
        .and_then(|node| read_units(keys.desk, node));
    if let Some(units) = stated.or(profile.and_then(|profile| profile.units)) {
        return units;
    }
    let camps = keys.node.get("camps");
    let first = match camps.map(|camps| &camps.value) {
        Some(crate::load::Value::List(items)) => {
            items.first().and_then(|camp| camp.get("elevation"))
        }
        _ => keys.node.get("elevation"),
    };
    let (units, word) = if first.is_some_and(in_feet) {
        (Units::Us, "us")
    } else {
        (Units::Metric, "metric")
    };
    keys.desk
        .assume("units", Presumed::Word(word), Because::FirstElevation);
    units
}

fn paper(keys: &Keys<'_, '_>, profile: Option<&Profile>, units: Units) -> Paper {
    let stated = keys.get("paper").and_then(|node| {
        keys.desk
            .word(node, "a size of paper", Paper::ALL, Paper::word)
    });
    stated
        .or(profile.and_then(|profile| profile.paper))
        .unwrap_or(if units == Units::Us {
            Paper::Letter
        } else {
            Paper::A4
        })
}

/// The languages that a trip file asks for, before its values are looked at: the words of its
/// messages and the content that it is checked against follow from them.
#[must_use]
pub fn wanted_in(written: &Written, library: &Library) -> Vec<String> {
    let texts = |node: &Node| match &node.value {
        Value::List(items) => items
            .iter()
            .filter_map(Node::text)
            .map(str::to_owned)
            .collect(),
        _ => node
            .text()
            .map(str::to_owned)
            .into_iter()
            .collect::<Vec<_>>(),
    };
    let profile = written.root.get("organisation").and_then(Node::text);
    let profile = profile.and_then(|name| {
        let wanted = id(name);
        let mut all = library.profiles.values();
        all.find(|one| one.id == wanted || id(&one.name) == wanted)
    });
    let stated = written.root.get("language").map(texts).unwrap_or_default();
    let usual = || profile.map(|profile| profile.languages.clone());
    let chosen = Some(stated).filter(|stated| !stated.is_empty());
    let chosen = chosen.or_else(usual).filter(|chosen| !chosen.is_empty());
    chosen.unwrap_or_else(|| vec![ENGLISH.to_owned()])
}

fn meal(
    keys: &Keys<'_, '_>,
    key: &'static str,
    usual: Meal,
    fits: &[Meal],
    lesson: bool,
) -> Option<Meal> {
    match keys.get(key) {
        Some(node) => keys.desk.word(node, "a meal", fits, Meal::word),
        None => {
            if !lesson {
                keys.desk
                    .assume(key, Presumed::Word(usual.word()), Because::NotStated);
            }
            Some(usual)
        }
    }
}

/// A word with a default.
fn chosen<T: Copy>(
    keys: &Keys<'_, '_>,
    (key, what): (&'static str, &'static str),
    usual: T,
    all: &[T],
    word: impl Fn(T) -> &'static str + Copy,
    lesson: bool,
) -> Option<T> {
    match keys.get(key) {
        Some(node) => keys.desk.word(node, what, all, word),
        None => {
            if !lesson {
                keys.desk
                    .assume(key, Presumed::Word(word(usual)), Because::NotStated);
            }
            Some(usual)
        }
    }
}

fn spare(keys: &Keys<'_, '_>, lesson: bool) -> Option<Spare> {
    if lesson {
        return Some(Spare::None);
    }
    match keys.get("spare") {
        Some(node) => match node.text().map(str::trim) {
            Some("no" | "No" | "NO" | "false") => Some(Spare::None),
            Some("yes" | "Yes" | "YES" | "true") => Some(Spare::OneExtraDay),
            _ => keys.desk.word(node, "a spare", Spare::ALL, Spare::word),
        },
        None => {
            keys.desk.assume(
                "spare",
                Presumed::Word(Spare::OneExtraDay.word()),
                Because::NotStated,
            );
            Some(Spare::OneExtraDay)
        }
    }
}

fn confidence(keys: &Keys<'_, '_>, snow: bool) -> Option<Fraction> {
    match keys.get("confidence") {
        Some(node) => keys.desk.within(
            node,
            Fraction::percent(50.0)..=Fraction::percent(99.5),
            "how sure you want to be that the fuel lasts, from 50% to 99.5%",
        ),
        None => {
            let (percent, why) = if snow {
                (95.0, Because::LivesOnSnow)
            } else {
                (90.0, Because::NotStated)
            };
            keys.desk
                .assume("confidence", Presumed::Percent(percent), why);
            Some(Fraction::percent(percent))
        }
    }
}

/// Litres of drinking water a person and day.
pub(super) fn drinking_range() -> std::ops::RangeInclusive<Volume> {
    Volume::ZERO..=Volume::litres(15.0)
}

/// More kitchens times nights than this are no longer one plan.
const MOST_SITTINGS: u32 = 2400;

/// Refuses so many kitchens for so many nights that a plan would take minutes.
fn sittings(desk: &Desk, node: &Node, camps: &[Camp], kitchens: &[Kitchen]) {
    let nights: u32 = camps.iter().map(|camp| camp.nights).sum();
    let count = u32::try_from(kitchens.len()).unwrap_or(u32::MAX);
    if nights.saturating_mul(count) > MOST_SITTINGS {
        desk.error::<()>(
            node,
            "trip.size",
            told!("{count} kitchens for {nights} nights are more than one plan can hold", count, nights),
            told!("plan at most {MOST_SITTINGS} kitchens times nights in one file: split the party or the route", MOST_SITTINGS),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_packet_is_filed_under_the_files_name() {
        assert_eq!(slug("trips/Quillback Ridge_2.yaml"), "quillback-ridge-2");
        assert_eq!(slug("../../..yaml"), "trip");
        assert_eq!(slug("a/../b.yml"), "b");
    }
}
