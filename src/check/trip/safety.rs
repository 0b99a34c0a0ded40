//! Restrictions, help, and what one part of a trip says about another.

use super::super::desk::{Desk, Keys};
use super::stage::{at_camp, told as told_by};
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{Because, Presumed};
use crate::nouns::{
    Camp, Date, Emergency, Kitchen, Library, Restrictions, STALE_DAYS, StoveRule, Treatment,
    Washing, WaterFrom,
};

/// Fire restrictions as known; which stoves are allowed is not known until somebody has told.
pub(super) fn restrictions(keys: &Keys<'_, '_>) -> Restrictions {
    let Some(node) = keys.get("restrictions") else {
        return Restrictions::default();
    };
    let desk = keys.desk;
    let Some(keys) = desk.keys(node, "`restrictions`") else {
        return Restrictions::default();
    };
    let line = |key, what| {
        keys.get(key)
            .filter(|node| node.text().is_none_or(|text| !text.trim().is_empty()))
            .and_then(|node| desk.line(node, what))
    };
    let stage = line("stage", "the stage of the restrictions");
    let checked = line("checked", "who told it, and when");
    let until = keys.get("until").and_then(|node| desk.date(node));
    let stated = keys.get("stoves").and_then(|node| stoves(desk, node));
    for (old, meant) in FORMER {
        if let Some(node) = keys.get(old) {
            let rule = match desk.yes_no(node) {
                Some(true) => meant,
                _ => StoveRule::Yes,
            };
            desk.error::<()>(
                node,
                "key.renamed",
                told!("`{old}` is said with `stoves` now", old),
                told!("write `stoves: {rule}` in its place", rule),
            );
        }
    }
    keys.done();
    let told = stage.as_deref().and_then(told_by);
    let at = node.get("stoves").unwrap_or(node);
    match (stated, told) {
        (Some(StoveRule::Yes), Some(told @ (StoveRule::No | StoveRule::WithShutOff))) => {
            desk.error::<()>(
                at,
                "trip.restrictions",
                told!(
                    "`stoves: yes` stands beside a stage that says otherwise: `{stage}`",
                    stage = stage.as_deref().unwrap_or_default()
                ),
                told!(
                    "write `stoves: {told}`; if the manager allows stoves all the same, write the \
                     stage in the manager's own words, such as `burn ban, stoves allowed`",
                    told
                ),
            );
        }
        (Some(StoveRule::WithShutOff), Some(StoveRule::No)) => {
            desk.error::<()>(
                at,
                "trip.restrictions",
                told!(
                    "the stage `{stage}` says that nothing may be lit, and `stoves` allows some",
                    stage = stage.as_deref().unwrap_or_default()
                ),
                "write `stoves: no`, or the stage in the manager's own words",
            );
        }
        (None, Some(StoveRule::No)) => desk.warn(
            node,
            "trip.restrictions",
            "the stage says that nothing may be lit, so this is planned without a flame",
            "write `stoves: no`, or what the manager allows",
        ),
        _ => {}
    }
    if (stage.is_some() || stated.is_some()) && checked.is_none() {
        desk.warn(
            node,
            "trip.restrictions",
            "the fire restrictions are stated, but not who told them and when",
            "ask the land manager and write `checked: ` with the day and the desk",
        );
    }
    Restrictions {
        stoves: stated.or(told),
        stage,
        checked,
        until,
    }
}

/// Keys that said a part of what `stoves` says, and what a yes to them meant.
const FORMER: [(&str, StoveRule); 2] = [
    ("no_flame", StoveRule::No),
    ("needs_shut_off", StoveRule::WithShutOff),
];

/// Which stoves the manager allows.
fn stoves(desk: &Desk, node: &Node) -> Option<StoveRule> {
    // yes and no come in every spelling that yes and no have elsewhere
    match node
        .text()
        .map(|text| text.trim().to_lowercase())
        .as_deref()
    {
        Some("yes" | "y" | "true" | "on") => Some(StoveRule::Yes),
        Some("no" | "n" | "false" | "off") => Some(StoveRule::No),
        _ => desk.word(
            node,
            "which stoves are allowed",
            StoveRule::ALL,
            StoveRule::word,
        ),
    }
}

/// Whom to call.
pub(super) fn emergency(keys: &Keys<'_, '_>) -> Emergency {
    let Some(node) = keys.get("emergency") else {
        return Emergency::default();
    };
    let desk = keys.desk;
    let Some(keys) = desk.keys(node, "`emergency`") else {
        return Emergency::default();
    };
    let call = keys
        .get("call")
        .and_then(|node| desk.line(node, "whom to call"));
    let nearest_help = keys
        .get("nearest_help")
        .and_then(|node| desk.line(node, "the nearest help"));
    keys.done();
    Emergency { call, nearest_help }
}

/// What the cross checks look at, beside the file itself.
pub(super) struct Whole<'a> {
    pub kitchens: &'a [Kitchen],
    pub camps: &'a [Camp],
    pub restrictions: &'a Restrictions,
    pub starts: Option<Date>,
    pub treatment: Option<Treatment>,
    pub washing: Option<Washing>,
    pub library: &'a Library,
}

/// What one part of a trip says about another.
pub(super) fn cross_checks(desk: &Desk, root: &Node, whole: &Whole<'_>) {
    let at = root.get("restrictions").unwrap_or(root);
    by_camp(desk, root, whole);
    match whole.restrictions.stoves {
        Some(StoveRule::No) => without_flame(desk, root, whole, None),
        Some(StoveRule::WithShutOff) => {
            let none = whole
                .kitchens
                .iter()
                .filter(|kitchen| !kitchen.stove.shut_off);
            for kitchen in none {
                desk.error::<()>(
                    at,
                    "trip.restrictions",
                    told!("only stoves with a shut-off valve are allowed, and `{name}` of {name_2} has none", name = kitchen.stove.name, name_2 = kitchen.name),
                    "take another stove for that kitchen, or `stoves: no` and food that needs none",
                );
            }
        }
        _ => {}
    }
    if let Some(starts) = whole.starts {
        asked_in_time(desk, at, whole, starts);
        due_for_review(desk, root, whole.library, starts);
    }
}

/// The camps with what is cooked there: nothing where no stove may be lit.
pub(super) fn cooked(desk: &Desk, restrictions: &Restrictions, mut camps: Vec<Camp>) -> Vec<Camp> {
    let nowhere = restrictions.stoves == Some(StoveRule::No);
    if nowhere {
        desk.assume("menu", Presumed::Word("cold"), Because::NothingLit);
    }
    for (index, camp) in camps.iter_mut().enumerate() {
        camp.no_stove = at_camp(camp.rules.get(FIRE_STOVES)) == Some(StoveRule::No);
        if camp.no_stove && !nowhere {
            desk.assume(
                format!("camps[{index}].menu"),
                Presumed::Word("cold"),
                Because::NothingLit,
            );
        }
        if camp.no_stove || nowhere {
            camp.menu = super::menu::cold();
        }
    }
    camps
}

/// The rule that says which stoves a camp allows.
const FIRE_STOVES: &str = "fire.stoves";

/// A camp as it stands in the file; a lesson's stands at its top.
fn camp_node(root: &Node, index: usize) -> &Node {
    match root.get("camps").map(|camps| &camps.value) {
        Some(Value::List(items)) => items.get(index).unwrap_or(root),
        _ => root,
    }
}

/// What the fire rule of a single camp asks of the trip.
fn by_camp(desk: &Desk, root: &Node, whole: &Whole<'_>) {
    if whole.restrictions.stoves == Some(StoveRule::No) {
        return;
    }
    let rule = |index: usize| {
        let camp = camp_node(root, index);
        camp.get("rules").unwrap_or(camp)
    };
    let dark: Vec<usize> = (0..whole.camps.len())
        .filter(|index| whole.camps[*index].no_stove)
        .collect();
    if !dark.is_empty() && dark.len() == whole.camps.len() {
        desk.error::<()>(
            rule(0),
            "trip.restrictions",
            "by the rules written here no stove may be lit at any camp",
            "say it once, for the whole trip: `restrictions:` with `stoves: no` below it",
        );
        return;
    }
    if let Some(first) = dark.first() {
        without_flame(desk, root, whole, Some(&whole.camps[*first].name));
    }
    for (index, camp) in whole.camps.iter().enumerate() {
        let needs_valve = at_camp(camp.rules.get(FIRE_STOVES)) == Some(StoveRule::WithShutOff);
        let without = whole.kitchens.iter().find(|one| !one.stove.shut_off);
        if let Some(kitchen) = without.filter(|_| needs_valve) {
            desk.error::<()>(
                rule(index),
                "trip.restrictions",
                told!(
                    "only stoves with a shut-off valve are allowed at `{camp}`, and `{stove}` of {kitchen} has none",
                    camp = camp.name,
                    stove = kitchen.stove.name,
                    kitchen = kitchen.name
                ),
                "take another stove for that kitchen, or write `stoves: no` below `fire` there and \
                 eat cold",
            );
        }
    }
}

/// What cannot be had without a flame: nowhere on the trip, or not at one of its camps.
fn without_flame(desk: &Desk, root: &Node, whole: &Whole<'_>, only_at: Option<&str>) {
    let at = only_at.map_or(Told::from(""), |camp| told!(" at `{camp}`", camp));
    if whole.treatment == Some(Treatment::Boil) {
        desk.error::<()>(
            root.get("water_treatment").unwrap_or(root),
            "trip.restrictions",
            told!(
                "no stove may be lit{at}, so water cannot be made safe by boiling it",
                at
            ),
            "write `water_treatment: filter`, chemical or uv",
        );
    }
    if matches!(
        whole.washing,
        Some(Washing::TwoPots | Washing::ThreeBowls | Washing::ThreeBowlsHotDip)
    ) {
        desk.error::<()>(
            root.get("washing").unwrap_or(root),
            "trip.restrictions",
            told!(
                "no stove may be lit{at}, so no water is warm to wash up in",
                at
            ),
            "write `washing: wipe and rinse`, or leave `washing` out",
        );
    }
    for (index, camp) in whole.camps.iter().enumerate() {
        let lit = only_at.is_some() && !camp.no_stove;
        if camp.water_from == WaterFrom::Snow && !lit {
            let node = camp_node(root, index);
            desk.error::<()>(
                node.get("water_from").unwrap_or(node),
                "trip.restrictions",
                told!(
                    "no stove may be lit, so no snow can be melted at `{name}`",
                    name = camp.name
                ),
                "write where water that runs is found, or camp elsewhere",
            );
        }
    }
}

/// Whether what is known of the restrictions covers the days of the trip.
fn asked_in_time(desk: &Desk, at: &Node, whole: &Whole<'_>, starts: Date) {
    let restrictions = whole.restrictions;
    let asked = restrictions.asked();
    let checked = at.get("checked").unwrap_or(at);
    // who asked long before does not know today's stage
    let stale = whole
        .camps
        .iter()
        .filter_map(|camp| whole.library.places.get(&camp.place))
        .map(|place| place.stale_after)
        .fold(STALE_DAYS, u32::min);
    if asked.is_some_and(|day| day.plus_days(stale) < starts) {
        desk.warn(
            checked,
            "trip.restrictions",
            "the fire restrictions were asked for more than a month before the start",
            "ask again shortly before leaving: stages change with the weather",
        );
    }
    if asked.is_some_and(|day| day > starts) {
        desk.warn(
            checked,
            "trip.restrictions",
            "the fire restrictions were asked for after the start of the trip",
            "write the day on which somebody asked before leaving, or mend `starts`",
        );
    }
    let nights: u32 = whole.camps.iter().map(|camp| camp.nights).sum();
    let ends = starts.plus_days(nights);
    if let Some(until) = restrictions.until.filter(|until| *until < ends) {
        desk.warn(
            at.get("until").unwrap_or(at),
            "trip.restrictions",
            told!(
                "what is known of the restrictions ends on {until}, the trip on {ends}",
                until,
                ends
            ),
            "ask the land manager what holds after that day",
        );
    }
}

/// Modules that are due for another reading before the trip.
fn due_for_review(desk: &Desk, root: &Node, library: &Library, starts: Date) {
    let stale: Vec<&str> = library
        .modules
        .values()
        .filter(|module| module.review_by < starts)
        .map(|module| module.id.as_str())
        .collect();
    if let (Some(first), Some(node)) = (stale.first(), root.get("starts")) {
        desk.warn(
            node,
            "trip.review",
            told!(
                "{count} modules are due for review before this trip, `{first}` among them",
                count = stale.len(),
                first
            ),
            "let the content keeper read them again and move `review_by`",
        );
    }
}
