//! Menus: named ones, and those of a trip or camp laid over them.

use super::super::desk::{Desk, Keys};
use crate::load::{Node, Value};
use crate::nouns::{Library, MealNeed, Menu};
use crate::units::{Quantity as _, Time, Volume};

/// The default menu.
pub(super) fn base(keys: &Keys<'_, '_>, library: &Library) -> Option<Menu> {
    keys.desk
        .catalogue(keys.node, "menu", &library.menus, "boil-only")
        .cloned()
}

/// Nothing is cooked.
pub(super) fn cold() -> Menu {
    Menu {
        name: "cold".to_owned(),
        supper: MealNeed::COLD,
        breakfast: MealNeed::COLD,
        lunch: MealNeed::COLD,
        drinks: MealNeed::COLD,
    }
}

/// A menu by name, or a block laid over another menu key by key.
pub(super) fn menu(desk: &Desk, node: &Node, base: &Menu, library: &Library) -> Option<Menu> {
    if let Value::Text(text) = &node.value {
        if text.trim() == "cold" {
            return Some(cold());
        }
        return desk
            .named(node, "menu", &library.menus, |menu| &menu.name)
            .cloned();
    }
    let keys = desk.keys(node, "a menu")?;
    let base = match keys.get("extends") {
        Some(named) => desk.named(named, "menu", &library.menus, |menu| &menu.name)?,
        None => base,
    };
    let menu = meals(&keys, Some(base), format!("{}, changed", base.name));
    keys.done();
    menu
}

/// The meals of a menu block; a meal that is not there is the base's, or cold.
pub(in super::super) fn meals(
    keys: &Keys<'_, '_>,
    base: Option<&Menu>,
    name: String,
) -> Option<Menu> {
    let desk = keys.desk;
    let read = |key, before: Option<MealNeed>| match keys.get(key) {
        Some(node) => meal(desk, node, before),
        None => Some(before.unwrap_or(MealNeed::COLD)),
    };
    let supper = read("supper", base.map(|base| base.supper));
    let breakfast = read("breakfast", base.map(|base| base.breakfast));
    let lunch = read("lunch", base.map(|base| base.lunch));
    let drinks = read("drinks", base.map(|base| base.drinks));
    Some(Menu {
        name,
        supper: supper?,
        breakfast: breakfast?,
        lunch: lunch?,
        drinks: drinks?,
    })
}

/// One meal: `cold`, an amount to boil, or a block; keys left out of the block
/// stay as they were.
fn meal(desk: &Desk, node: &Node, before: Option<MealNeed>) -> Option<MealNeed> {
    let before = before.filter(|meal| !meal.is_cold());
    match &node.value {
        Value::Text(text) if text.trim().eq_ignore_ascii_case("cold") => Some(MealNeed::COLD),
        Value::Text(text) if Volume::read(text).is_ok() => Some(MealNeed {
            boil: amount(desk, node)?,
            ..before.unwrap_or(MealNeed::COLD)
        }),
        Value::Text(text) if ["none", "no", "nothing"].contains(&text.trim()) => desk.error(
            node,
            "trip.menu",
            "a meal is `cold` or says how much water it boils",
            "write `cold`: nothing is heated for it",
        ),
        Value::Text(_) => desk.error(
            node,
            "trip.menu",
            "a meal is `cold` or says how much water it boils",
            "write `cold`, or `boil: 0.6 L` on the next line, two spaces further in",
        ),
        _ => {
            let keys = desk.keys(node, "a meal")?;
            let boil = match (keys.get("boil"), before) {
                (Some(node), _) => amount(desk, node),
                (None, Some(before)) => Some(before.boil),
                (None, None) => {
                    keys.need(
                        "boil",
                        "write how much water each person's share boils, such as `boil: 0.6 L`",
                    );
                    None
                }
            };
            let simmer = match keys.get("simmer") {
                Some(node) => desk.within(
                    node,
                    Time::ZERO..=Time::hours(6.0),
                    "minutes of simmering at sea level, such as `8 min`",
                ),
                None => Some(before.map_or(Time::ZERO, |before| before.simmer)),
            };
            let times = match keys.get("times_a_day") {
                Some(node) => desk.whole(node, "how often a day", 1..=20),
                None => Some(before.map_or(1, |before| before.times_a_day)),
            };
            keys.done();
            Some(MealNeed {
                boil: boil?,
                simmer: simmer?,
                times_a_day: times?,
            })
        }
    }
}

fn amount(desk: &Desk, node: &Node) -> Option<Volume> {
    desk.within(
        node,
        Volume::ZERO..=Volume::litres(10.0),
        "litres for each person, from 0 L to 10 L",
    )
}
