//! Which canister goes with which departure of a season.
//!
//! The departures are served in the order in which they leave. What was picked for one stays
//! with it; a canister that is out comes back with what its departure leaves in it and can go
//! again after the turnaround. What a departure takes of what it is offered is not decided here
//! but by the calculation of its own fuel, which the caller brings.

use super::learn::Told;
use super::movement::{TareFrom, safe};
use super::stock::{Kept, Standing, Stock};
use super::tag::Tag;
use crate::nouns::{Blend, Connection, Container, Date, Id};
use crate::units::{Mass, say};
use std::collections::{BTreeMap, BTreeSet};

/// The rules of the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct House {
    /// Days between coming back and leaving again: to weigh, to look at, to put away.
    pub turnaround: u32,
    /// A part-used canister with less fuel than this is not worth its steel on a trip.
    pub floor: Mass,
}

/// A departure as the shelf sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct Going {
    /// Its name.
    pub name: String,
    /// Its first day.
    pub leaves: Date,
    /// Its last day.
    pub back: Date,
    /// Whether it is a lesson: it may burn canisters empty.
    pub lesson: bool,
    /// Whether frost is likely at night: no part-used ones.
    pub frost: bool,
}

/// A canister with what is in it when it is offered.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Its tag.
    pub tag: Tag,
    /// Its size: the id of a container.
    pub size: Id,
    /// Fuel in it when it is full.
    pub filling: Mass,
    /// Mass empty.
    pub tare: Mass,
    /// Fuel in it.
    pub net: Mass,
    /// Composition when full.
    pub gas: Option<Blend>,
    /// How it joins a stove.
    pub connection: Option<Connection>,
}

/// What a departure takes of what it is offered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Choice {
    /// What it takes, each with the fuel left in it when it comes back.
    pub taken: Vec<(Tag, Mass)>,
    /// New canisters beside them, by name.
    pub new: BTreeMap<String, u32>,
    /// Mass of the new ones, full.
    pub bought: Mass,
    /// Whether no other choice of what was offered costs less.
    pub exact: bool,
}

/// Where a canister is taken from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TakenFrom {
    /// It was picked for the departure before.
    Picked,
    /// It was handed out to the departure.
    Out,
    /// It stands on the shelf.
    Shelf,
    /// It is expected back from another departure, and its fuel is what that one leaves.
    Expected(String),
    /// It went with the departure, and the departure is over.
    Back,
}

/// A canister for a departure.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The departure, by its place among those asked for.
    pub departure: usize,
    /// The canister.
    pub offer: Offer,
    /// Where it is taken from.
    pub from: TakenFrom,
    /// Whether the departure needs it: one that was picked stays, needed or not.
    pub needed: bool,
}

/// Who gets which.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assignment {
    /// The canisters, by departure in the order they leave.
    pub given: Vec<Given>,
    /// What each departure takes, in the order asked for.
    pub choices: Vec<Choice>,
    /// What a person should know.
    pub told: Vec<String>,
}

/// From when on a canister can go.
#[derive(Clone, Debug, PartialEq)]
enum Free {
    Now,
    For(String),
    After(Date, String),
}

/// A canister on its way through the season.
#[derive(Clone, Debug)]
struct Known {
    offer: Offer,
    full: bool,
    burn_down: bool,
    /// Whether it was handed out already.
    out: bool,
    free: Free,
}

impl Known {
    /// Whether it may go with a departure, and from where it then comes.
    fn for_going(&self, going: &Going, house: &House) -> Option<TakenFrom> {
        let from = match &self.free {
            // picked: whatever the rules of the house would say
            Free::For(name) => {
                let from = if self.out {
                    TakenFrom::Out
                } else {
                    TakenFrom::Picked
                };
                return (*name == going.name).then_some(from);
            }
            Free::Now => TakenFrom::Shelf,
            Free::After(day, name) if *day <= going.leaves => TakenFrom::Expected(name.clone()),
            Free::After(..) => return None,
        };
        let may = match (self.full, self.burn_down) {
            (_, true) => going.lesson && !going.frost && self.offer.net > Mass::ZERO,
            (true, false) => true,
            (false, false) => !going.frost && self.offer.net >= house.floor,
        };
        may.then_some(from)
    }
}

/// Shares the shelf out over departures. `choose` says what the departure at an index takes of
/// what it is offered.
///
/// # Errors
/// What `choose` cannot work out.
pub fn assign<E>(
    goings: &[Going],
    stock: &Stock,
    sizes: &BTreeMap<Id, Container>,
    house: &House,
    mut choose: impl FnMut(usize, &[Offer]) -> Result<Choice, E>,
) -> Result<Assignment, E> {
    let (mut shelf, told) = known(goings, stock, sizes);
    let mut assignment = Assignment {
        choices: vec![Choice::default(); goings.len()],
        told,
        ..Assignment::default()
    };
    let mut order: Vec<usize> = (0..goings.len()).collect();
    order.sort_by_key(|index| (goings[*index].leaves, *index));
    for index in order {
        let going = &goings[index];
        let mut offered: Vec<(usize, TakenFrom)> = shelf
            .iter()
            .enumerate()
            .filter_map(|(at, one)| Some((at, one.for_going(going, house)?)))
            .collect();
        let offers = |offered: &[(usize, TakenFrom)]| -> Vec<Offer> {
            let offers = offered.iter().map(|(at, _)| shelf[*at].offer.clone());
            offers.collect()
        };
        // what was handed out, and nothing still kept for it: it has left, and nothing is sent after it
        let has_left = offered.iter().any(|(_, from)| *from == TakenFrom::Out)
            && !offered.iter().any(|(_, from)| *from == TakenFrom::Picked);
        if has_left {
            offered.retain(|(_, from)| *from == TakenFrom::Out);
        }
        let mut choice = choose(index, &offers(&offered))?;
        if has_left {
            choice.new.clear();
            choice.bought = Mass::ZERO;
        }
        for (at, from) in offered {
            let one = &mut shelf[at];
            let rest = choice.taken.iter().find(|(tag, _)| *tag == one.offer.tag);
            if rest.is_none() && !matches!(from, TakenFrom::Picked | TakenFrom::Out) {
                continue;
            }
            assignment.given.push(Given {
                departure: index,
                offer: one.offer.clone(),
                needed: rest.is_some() || from == TakenFrom::Out,
                from,
            });
            if let Some((_, rest)) = rest {
                one.offer.net = *rest;
                one.full = sizes
                    .get(&one.offer.size)
                    .is_some_and(|size| size.is_full(*rest));
            }
            let again = going.back.plus_days(house.turnaround);
            one.free = Free::After(again, going.name.clone());
        }
        assignment.choices[index] = choice;
    }
    Ok(assignment)
}

/// What everything that may ever go with a departure would be if nobody else took any: what it
/// takes of that is the least that it can cost.
#[must_use]
pub fn alone(
    going: &Going,
    goings: &[Going],
    stock: &Stock,
    sizes: &BTreeMap<Id, Container>,
    house: &House,
) -> Vec<Offer> {
    let (shelf, _) = known(goings, stock, sizes);
    shelf
        .into_iter()
        .map(|one| match one.free {
            Free::For(name) if name == going.name => Known {
                free: Free::For(name),
                ..one
            },
            _ => Known {
                free: Free::Now,
                ..one
            },
        })
        .filter(|one| one.for_going(going, house).is_some())
        .map(|one| one.offer)
        .collect()
}

/// The canisters whose contents are known, and words on the others.
fn known(
    goings: &[Going],
    stock: &Stock,
    sizes: &BTreeMap<Id, Container>,
) -> (Vec<Known>, Vec<String>) {
    let names: BTreeSet<&str> = goings.iter().map(|going| going.name.as_str()).collect();
    let mut shelf = Vec::new();
    let mut unknown = Vec::new();
    let mut away = Vec::new();
    for kept in stock.canisters.values() {
        let free = match &kept.standing {
            Standing::Shelf | Standing::BurnDown => Free::Now,
            Standing::Reserved { departure }
            | Standing::Out { departure }
            | Standing::Dropped { departure } => {
                if !names.contains(departure.as_str()) {
                    away.push(format!(
                        "{} ({})",
                        kept.tag.sticker(),
                        kept.standing.words()
                    ));
                    continue;
                }
                Free::For(departure.clone())
            }
            Standing::Quarantine | Standing::Retired | Standing::Lost => continue,
        };
        match offer(kept, sizes) {
            Some((offer, full)) => shelf.push(Known {
                offer,
                full,
                burn_down: kept.standing == Standing::BurnDown,
                out: matches!(
                    kept.standing,
                    Standing::Out { .. } | Standing::Dropped { .. }
                ),
                free,
            }),
            None => unknown.push(kept.tag.sticker()),
        }
    }
    let mut told = Vec::new();
    if !unknown.is_empty() {
        told.push(format!(
            "not counted on, because what is in them is not known: {}; weigh them, and read the \
             empty mass off the label",
            unknown.join(", ")
        ));
    }
    if !away.is_empty() {
        told.push(format!(
            "not counted on, because the table does not have their departure: {}",
            away.join(", ")
        ));
    }
    (shelf, told)
}

/// A canister with its fuel, and whether it is full; none where its fuel is not known. One whose
/// mass empty is the table's guess is known only while it is full.
fn offer(kept: &Kept, sizes: &BTreeMap<Id, Container>) -> Option<(Offer, bool)> {
    let size = sizes.get(kept.size.as_ref()?)?;
    let ((tare, from), net) = (kept.tare?, kept.net()?);
    let full = size.is_full(net);
    let gone = matches!(
        kept.standing,
        Standing::Out { .. } | Standing::Dropped { .. }
    );
    let known = (kept.weighed || gone) && (from != TareFrom::Table || full);
    (known && net > Mass::ZERO).then(|| {
        let offer = Offer {
            tag: kept.tag.clone(),
            size: size.id.clone(),
            filling: size.net,
            tare,
            net,
            gas: kept.gas,
            connection: kept.connection,
        };
        (offer, full)
    })
}

/// What the table says of a canister that is out with its departure, and of one whose departure is
/// over. `season::assigned` reads both: the papers of such a departure stay as it took them along,
/// and one that is back is not with it any more, whatever its days are.
const OUT: &str = "out with it";
const BACK: &str = "back again";

impl Assignment {
    /// Adds a departure that is over, with what the ledger tells that it took: its papers stay as
    /// they were printed. What was not weighed before it went, or is on no list, is left out.
    pub fn add_over(
        &mut self,
        index: usize,
        told: &Told,
        stock: &Stock,
        sizes: &BTreeMap<Id, Container>,
    ) {
        for one in &told.outings {
            let Some(kept) = stock.canisters.get(&one.tag) else {
                continue;
            };
            let size = kept.size.as_ref().and_then(|size| sizes.get(size));
            let (Some(size), Some((tare, _)), Some(out)) = (size, kept.tare, one.out) else {
                continue;
            };
            self.given.push(Given {
                departure: index,
                offer: Offer {
                    tag: one.tag.clone(),
                    size: size.id.clone(),
                    filling: size.net,
                    tare,
                    net: out - tare,
                    gas: kept.gas,
                    connection: kept.connection,
                },
                from: TakenFrom::Back,
                needed: true,
            });
        }
        self.choices.push(Choice {
            exact: true,
            ..Choice::default()
        });
    }
}

/// Offers without those that could not be needed beside others quite like them: of canisters
/// alike, a departure that buys so much when it is offered none takes no more than twice that
/// mass, and one more for each of its `kitchens` and legs.
#[must_use]
pub fn enough(offers: &[Offer], bought: Mass, kitchens: usize) -> Vec<Offer> {
    let mut seen: Vec<(&Offer, f64)> = Vec::new();
    let alike = |a: &Offer, b: &Offer| {
        a.size == b.size
            && a.tare == b.tare
            && a.net == b.net
            && a.gas == b.gas
            && a.connection == b.connection
    };
    let mut some = Vec::new();
    for offer in offers {
        let most = 2.0 * (bought / offer.net) + kitchens as f64 + 2.0;
        let count = match seen.iter_mut().find(|(one, _)| alike(one, offer)) {
            Some((_, count)) => {
                *count += 1.0;
                *count
            }
            None => {
                seen.push((offer, 1.0));
                1.0
            }
        };
        if count <= most {
            some.push(offer.clone());
        }
    }
    some
}

/// The headings of the table of who gets which.
pub const ASSIGNED: [&str; 10] = [
    "departure",
    "leaves",
    "back",
    "tag",
    "size",
    "gross",
    "tare",
    "gas",
    "connection",
    "how",
];

impl Assignment {
    /// As a table: a line a canister, and a line without one for a departure that gets none.
    #[must_use]
    pub fn table(&self, goings: &[Going]) -> String {
        let mut lines: Vec<(usize, [String; 10])> = Vec::new();
        for (index, going) in goings.iter().enumerate() {
            let mine = || self.given.iter().filter(|given| given.departure == index);
            let start = |rest: [String; 7]| {
                let [tag, size, gross, tare, gas, connection, how] = rest;
                let [leaves, back] = [going.leaves, going.back].map(|date| date.to_string());
                let name = safe(&going.name);
                [
                    name, leaves, back, tag, size, gross, tare, gas, connection, how,
                ]
            };
            if mine().next().is_none() {
                let mut none: [String; 7] = Default::default();
                "none".clone_into(&mut none[6]);
                lines.push((index, start(none)));
            }
            lines.extend(mine().map(|given| (index, start(given.cells()))));
        }
        lines.sort_by_key(|(index, _)| (goings[*index].leaves, *index));
        let mut text = format!("{}\n", ASSIGNED.join(","));
        for (_, cells) in lines {
            let cells = cells.map(|cell| {
                if cell.contains([',', '"', ';']) {
                    format!("\"{}\"", cell.replace('"', "\"\""))
                } else {
                    cell
                }
            });
            text.push_str(&cells.join(","));
            text.push('\n');
        }
        text
    }
}

impl Given {
    /// Tag, size, masses, gas, connection, how.
    fn cells(&self) -> [String; 7] {
        let grams = |mass: Mass| format!("{} g", say::significant(mass.in_grams(), 6));
        let offer = &self.offer;
        let how = match &self.from {
            TakenFrom::Picked if self.needed => "picked".to_owned(),
            TakenFrom::Picked => "picked, not needed".to_owned(),
            TakenFrom::Shelf => "on the shelf".to_owned(),
            TakenFrom::Expected(name) => format!("expected back from {name}"),
            TakenFrom::Out => OUT.to_owned(),
            TakenFrom::Back => BACK.to_owned(),
        };
        [
            offer.tag.sticker(),
            grams(offer.filling),
            grams(offer.tare + offer.net),
            grams(offer.tare),
            offer.gas.map(|gas| gas.to_string()).unwrap_or_default(),
            offer
                .connection
                .map(|joins| joins.word().to_owned())
                .unwrap_or_default(),
            safe(&how),
        ]
    }
}
