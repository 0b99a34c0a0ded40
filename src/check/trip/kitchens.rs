//! Kitchens of a trip, stations of a lesson.

use super::super::desk::{Desk, Keys};
use super::super::gear;
use super::measured::measured;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::file_name;
use crate::nouns::{Because, Presumed};
use crate::nouns::{Family, Feed, Fuel, FuelKind, Geometry, Kitchen, Library, Pot, Screen, Stove};
use crate::units::{HeatingValue, say};
use std::collections::BTreeMap;

/// Largest pot of a station of a lesson where none is stated; common practice, no source.
const STATION_POT: crate::units::Volume = crate::units::Volume::litres(1.0);

/// Keys that may stand in a kitchen, or in the trip for all of its kitchens.
#[derive(Clone, Copy)]
struct Own<'n> {
    stove: Option<&'n Node>,
    fuel: Option<&'n Node>,
    heating_value: Option<&'n Node>,
    blend: Option<&'n Node>,
    feed: Option<&'n Node>,
    windscreen: Option<&'n Node>,
    lid: Option<&'n Node>,
    pots: Option<&'n Node>,
    measured: Option<&'n Node>,
    power: Option<&'n Node>,
    least_power: Option<&'n Node>,
    efficiency: Option<&'n Node>,
}

impl<'n> Own<'n> {
    fn of(keys: &Keys<'_, 'n>) -> Self {
        Self {
            stove: keys.get("stove"),
            fuel: keys.get("fuel"),
            heating_value: keys.get("heating_value"),
            blend: keys.get("blend"),
            feed: keys.get("feed"),
            windscreen: keys.get("windscreen"),
            lid: keys.get("lid"),
            pots: keys.get("pots"),
            measured: keys.get("measured"),
            power: keys.get("power"),
            least_power: keys.get("least_power"),
            efficiency: keys.get("efficiency"),
        }
    }

    /// A kitchen's own keys, and where it has none the trip's. What belongs to
    /// the trip's stove does not carry over to a kitchen with another one.
    fn or(self, wide: Self) -> Self {
        let same = self.stove.is_none();
        let of_stove =
            |own: Option<&'n Node>, wide: Option<&'n Node>| own.or(if same { wide } else { None });
        Self {
            stove: self.stove.or(wide.stove),
            fuel: of_stove(self.fuel, wide.fuel),
            heating_value: of_stove(self.heating_value, wide.heating_value),
            blend: of_stove(self.blend, wide.blend),
            feed: of_stove(self.feed, wide.feed),
            windscreen: self.windscreen.or(wide.windscreen),
            lid: self.lid.or(wide.lid),
            pots: self.pots.or(wide.pots),
            measured: of_stove(self.measured, wide.measured),
            power: of_stove(self.power, wide.power),
            least_power: of_stove(self.least_power, wide.least_power),
            efficiency: of_stove(self.efficiency, wide.efficiency),
        }
    }
}

/// The kitchens: stated in a list under `key`, counted, or made for the party.
pub(super) fn kitchens(
    root: &Keys<'_, '_>,
    key: &'static str,
    party: Option<u32>,
    library: &Library,
) -> Option<Vec<Kitchen>> {
    let desk = root.desk;
    // a party that cannot be told is a problem already; what else is wrong is
    // still looked for
    let people = party.unwrap_or(MOST_PEOPLE);
    let wide = Own::of(root);
    let stated = root.get(key);
    if wide.lid.is_none() && !stated.is_some_and(all_state_lid) {
        desk.assume(
            root.node.path_of("lid"),
            Presumed::Word("yes"),
            Because::LidSavesFuel,
        );
    }
    match stated {
        Some(node) if matches!(node.value, Value::List(_)) => {
            listed(desk, node, key, party, wide, library)
        }
        Some(node) if matches!(node.value, Value::Map(_)) => desk.error(
            node,
            "value.shape",
            told!(
                "expected the {key} (a list, or how many there are), found a block of keys",
                key = Told::from(key)
            ),
            "put `- ` before the first key of each",
        ),
        Some(node) => {
            let count = desk.whole(node, "the number of kitchens", 1..=MOST_PEOPLE)?;
            if count > people {
                return more_than_people(desk, node, key, count, people);
            }
            counted(root, key, count, party, wide, library)
        }
        None => {
            let most = library.figures.people_a_kitchen.value.max(1.0);
            let count = libm::ceil(f64::from(people) / most - 1e-9).max(1.0) as u32;
            desk.assume(
                root.node.path_of(key),
                Presumed::Count(count),
                Because::MostAKitchen(most),
            );
            counted(root, key, count, party, wide, library)
        }
    }
}

/// As many as a file may plan for.
const MOST_PEOPLE: u32 = 200;

fn more_than_people<T>(
    desk: &Desk,
    node: &Node,
    key: &'static str,
    count: u32,
    people: u32,
) -> Option<T> {
    let party = if people == 1 {
        Told::from("one person")
    } else {
        told!("{people} people", people)
    };
    desk.error(
        node,
        "trip.kitchens",
        told!(
            "there are {count} {key} for {party}",
            count,
            key = Told::from(key),
            party
        ),
        "leave out some, or mend the number of people",
    )
}

fn all_state_lid(node: &Node) -> bool {
    match &node.value {
        Value::List(items) => items.iter().all(|item| item.get("lid").is_some()),
        _ => false,
    }
}

/// So many kitchens, as even as can be, larger ones first.
fn counted(
    root: &Keys<'_, '_>,
    key: &str,
    count: u32,
    party: Option<u32>,
    wide: Own<'_>,
    library: &Library,
) -> Option<Vec<Kitchen>> {
    if wide.stove.is_none() {
        root.need(
            "stove",
            "name the stove, such as `stove: white gas`; `leeside list gear` shows them",
        )?;
    }
    shares(party.unwrap_or(MOST_PEOPLE), count)
        .into_iter()
        .enumerate()
        .map(|(index, share)| {
            let one = One {
                desk: root.desk,
                name: numbered(key, index),
                people: share,
                party_known: party.is_some(),
                path: format!("{key}[{index}]"),
                own: wide,
                library,
            };
            one.kitchen()
        })
        .collect()
}

/// The name of a kitchen or station that has none of its own.
fn numbered(key: &str, index: usize) -> String {
    let what = if key == "stations" {
        "Station"
    } else {
        "Kitchen"
    };
    format!("{what} {}", index + 1)
}

/// A number of people over a number of kitchens.
fn shares(people: u32, count: u32) -> Vec<u32> {
    let count = count.max(1);
    (0..count)
        .map(|index| people / count + u32::from(index < people % count))
        .collect()
}

fn listed(
    desk: &Desk,
    node: &Node,
    key: &'static str,
    party: Option<u32>,
    wide: Own<'_>,
    library: &Library,
) -> Option<Vec<Kitchen>> {
    let people = party.unwrap_or(MOST_PEOPLE);
    let items = desk.list(node, Told::as_written(key));
    if items.is_empty() {
        return desk.error(
            node,
            "value.empty",
            told!("`{key}` is empty", key),
            "list them, or leave the key out",
        );
    }
    if items.len() > people as usize {
        return more_than_people(desk, node, key, items.len() as u32, people);
    }
    let mut read = Vec::new();
    let mut names: BTreeMap<String, ()> = BTreeMap::new();
    let mut fine = true;
    for (index, item) in items.iter().enumerate() {
        let Some(keys) = desk.keys(item, "a kitchen") else {
            fine = false;
            continue;
        };
        let name = match keys.get("name") {
            Some(node) => desk.line(node, "the kitchen's name").and_then(|name| {
                let slug = file_name(&name);
                if slug.is_empty() {
                    desk.error(
                        node,
                        "trip.name",
                        "a kitchen's name needs a letter or a number",
                        "its sheets are filed under it: write a word, such as `Blue`",
                    )
                } else if name.chars().count() > 40 {
                    desk.error(
                        node,
                        "value.long",
                        "a kitchen's name has at most 40 characters",
                        "shorten it",
                    )
                } else if names.insert(slug, ()).is_some() {
                    desk.error(
                        node,
                        "trip.name",
                        told!("two kitchens are named `{name}`", name),
                        "give each its own name",
                    )
                } else {
                    Some(name)
                }
            }),
            None => Some(numbered(key, index)),
        };
        let stated = keys.get("people");
        let share = stated.map(|node| desk.whole(node, "the kitchen's people", 1..=people.max(1)));
        let own = Own::of(&keys).or(wide);
        if own.stove.is_none() {
            keys.need(
                "stove",
                "name its stove, such as `stove: white gas`; `leeside list gear` shows them",
            );
        }
        keys.done();
        fine &= name.is_some() && share != Some(None) && own.stove.is_some();
        read.push((name.unwrap_or_default(), share.flatten(), own, item));
    }
    let stated: u32 = read.iter().filter_map(|(_, share, ..)| *share).sum();
    let open = read.iter().filter(|(_, share, ..)| share.is_none()).count() as u32;
    let left = people.saturating_sub(stated);
    if fine
        && party.is_some()
        && (stated > people || (open == 0 && stated != people) || left < open)
    {
        return desk.error(
            node,
            "trip.people",
            told!(
                "the {key} feed {stated} people, but the party is {people}",
                key = Told::from(key),
                stated,
                people
            ),
            "learners and instructors all eat: make the people of the kitchens add up to the party",
        );
    }
    let mut rest = shares(left, open).into_iter();
    let kitchens: Vec<Option<Kitchen>> = read
        .into_iter()
        .map(|(name, share, own, item)| {
            let people = share.unwrap_or_else(|| {
                let share = rest.next().unwrap_or(1);
                desk.assume(
                    item.path_of("people"),
                    Presumed::Count(share),
                    Because::SharedOut,
                );
                share
            });
            own.stove?;
            One {
                desk,
                name,
                people,
                party_known: party.is_some(),
                path: item.path.to_string(),
                own,
                library,
            }
            .kitchen()
        })
        .collect();
    if !fine {
        return None;
    }
    kitchens.into_iter().collect()
}

/// One kitchen about to be read.
struct One<'d, 'n, 'l> {
    desk: &'d Desk,
    name: String,
    people: u32,
    party_known: bool,
    path: String,
    own: Own<'n>,
    library: &'l Library,
}

impl One<'_, '_, '_> {
    fn kitchen(self) -> Option<Kitchen> {
        let (desk, own) = (self.desk, self.own);
        let mut stove = gear::stove(desk, own.stove?, self.library)?;
        let values = gear::own_values(desk, &mut stove, own.power, own.least_power, own.efficiency);
        let fuel = self.fuel(&stove);
        let heating_value = match own.heating_value {
            None => Some(None),
            Some(node) => desk
                .within(
                    node,
                    HeatingValue::megajoules_per_kilogram(10.0)
                        ..=HeatingValue::megajoules_per_kilogram(60.0),
                    "the lower heating value of the fuel, from 10 MJ/kg to 60 MJ/kg",
                )
                .map(Some),
        };
        let gas = stove.connection.is_some();
        let blend = match own.blend {
            None => Some(None),
            Some(node) if !gas => desk.error(
                node,
                "trip.blend",
                told!(
                    "`{name}` burns no canister gas, so it has no blend",
                    name = stove.name
                ),
                "leave `blend` out, or state `heating_value`",
            ),
            Some(node) => desk.blend(node).map(Some),
        };
        if gas && own.blend.is_none() {
            desk.assume(
                format!("{}.blend", self.path),
                Presumed::Blend(self.library.figures.unknown_blend.value),
                Because::NewCanisters,
            );
        }
        let feed = self.feed(&stove);
        let screen = self.screen(&stove);
        let lid = own.lid.map_or(Some(true), |node| desk.yes_no(node));
        let pots = self.pots(&stove);
        let measured = match own.measured {
            None => Some(None),
            Some(node) => measured(desk, node).map(Some),
        };
        values?;
        Some(Kitchen {
            name: self.name,
            people: self.people,
            fuel: fuel?,
            heating_value: heating_value?,
            blend: blend?,
            feed: feed?,
            screen: screen?,
            lid: lid?,
            pots: pots?,
            measured: measured?,
            stove,
        })
    }

    fn fuel(&self, stove: &Stove) -> Option<Fuel> {
        let desk = self.desk;
        let Some(node) = self.own.fuel else {
            return desk
                .catalogue(self.own.stove?, "fuel", &self.library.fuels, &stove.fuel)
                .cloned();
        };
        let fuel = desk.fuel(node, self.library)?;
        if stove.fuels.contains(&fuel.id) {
            return Some(fuel.clone());
        }
        let help = if fuel.kind == FuelKind::Canister && stove.connection.is_some() {
            Told::from("leave `fuel` out and state the mix: `blend: propane 30, isobutane 70`")
        } else {
            let fits: Vec<String> = stove.fuels.iter().map(|fuel| format!("`{fuel}`")).collect();
            told!("it takes {fits}", fits = fits.join(", "))
        };
        desk.error(
            node,
            "trip.fuel",
            told!(
                "`{name}` does not take {name_2}",
                name = stove.name,
                name_2 = fuel.name
            ),
            help,
        )
    }

    fn feed(&self, stove: &Stove) -> Option<Feed> {
        let Some(node) = self.own.feed else {
            return Some(Feed::Vapour);
        };
        let feed = self.desk.word(node, "a feed", Feed::ALL, Feed::word)?;
        if feed == Feed::Liquid && !stove.liquid_feed {
            return self.desk.error(
                node,
                "trip.feed",
                told!("`{name}` is not made for liquid feed: turned over, its canister would flare", name = stove.name),
                "leave `feed` out, or take a stove with a hose and a preheat loop made for it (`canister beside`)",
            );
        }
        Some(feed)
    }

    fn screen(&self, stove: &Stove) -> Option<Screen> {
        let desk = self.desk;
        let Some(node) = self.own.windscreen else {
            desk.assume(
                format!("{}.windscreen", self.path),
                Presumed::Word(stove.screen.word()),
                Because::ComesWith(stove.name.clone()),
            );
            return Some(stove.screen);
        };
        let screen = desk.word(node, "a windscreen", Screen::ALL, Screen::word)?;
        if screen == Screen::Full && stove.geometry == Geometry::OnCanister {
            return desk.error(
                node,
                "trip.windscreen",
                told!("a full windscreen round `{name}` traps heat under the pot; the canister gets hot and can burst", name = stove.name),
                "write `windscreen: partial` (on the windward side, open behind), `natural` or `none`",
            );
        }
        if !stove.wind.contains_key(&screen) {
            let fits: Vec<&str> = stove.wind.keys().map(|screen| screen.word()).collect();
            return desk.error(
                node,
                "trip.windscreen",
                told!(
                    "the catalogue has no figures for `{name}` with this windscreen",
                    name = stove.name
                ),
                told!("write one of {fits}", fits = fits.join(", ")),
            );
        }
        Some(screen)
    }

    fn pots(&self, stove: &Stove) -> Option<Vec<Pot>> {
        let desk = self.desk;
        let pots = match self.own.pots {
            None => {
                let library = self.library;
                let for_all = library.figures.pot_a_person.value * f64::from(self.people);
                // A turn at a station of a lesson is minutes: its pot is small.
                let station = self.path.starts_with("stations");
                let capacity = if station {
                    for_all.min(STATION_POT)
                } else {
                    // a default is never one that the stove would be warned of
                    stove
                        .warn_pot_above
                        .map_or(for_all, |limit| for_all.min(limit))
                };
                let material = desk.catalogue(
                    self.own.stove?,
                    "pot material",
                    &library.materials,
                    "aluminium",
                )?;
                let pot = gear::made(material, capacity, None);
                desk.assume(
                    format!("{}.pots", self.path),
                    Presumed::Pot(pot.clone()),
                    if station {
                        Because::SmallPot
                    } else if capacity < for_all {
                        Because::CarriesSafely(stove.name.clone())
                    } else {
                        Because::PotAPerson(library.figures.pot_a_person.value)
                    },
                );
                vec![pot]
            }
            Some(node) => {
                let read: Vec<Option<Pot>> = desk
                    .list(node, "the pots")
                    .into_iter()
                    .map(|item| gear::pot(desk, item, self.library))
                    .collect();
                if read.is_empty() {
                    return desk.error(
                        node,
                        "value.empty",
                        "a kitchen needs a pot",
                        "write `- aluminium 3 L` below `pots`, or leave the key out",
                    );
                }
                read.into_iter().collect::<Option<Vec<_>>>()?
            }
        };
        let largest = pots
            .iter()
            .map(|pot| pot.capacity)
            .reduce(crate::units::Volume::max)?;
        if let (Some(limit), Some(node)) = (stove.warn_pot_above, self.own.pots.or(self.own.stove))
            && largest > limit
            && self.party_known
        {
            desk.warn(
                node,
                "trip.pot",
                told!("{name}: a pot of {in_litres} L on `{name_2}` can tip it and shine heat down on the canister", name = self.name, in_litres = say::significant(largest.in_litres(), 3), name_2 = stove.name),
                told!("take a pot of {in_litres} L or less, or a stove on its own legs", in_litres = say::significant(limit.in_litres(), 3)),
            );
        }
        if let (Family::Tablet, Some(node)) = (stove.family, self.own.stove) {
            desk.warn(
                node,
                "trip.tablet",
                "tablets (hexamine) give off poisonous fumes and leave a sticky film",
                "burn them only in the open with the wind from behind, and wash hands and pot after",
            );
        }
        Some(pots)
    }
}

#[cfg(test)]
mod tests {
    use super::shares;

    #[test]
    fn people_are_shared_evenly_larger_first() {
        assert_eq!(shares(10, 2), [5, 5]);
        assert_eq!(shares(11, 3), [4, 4, 3]);
        assert_eq!(shares(1, 1), [1]);
    }
}
