//! The catalogue's stoves, and how its entries are read.

use super::super::desk::{Desk, Keys};
use super::codes;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{
    Basis, Connection, Family, Geometry, HeatExtent, Id, Range, Screen, Stove, UsualRange,
    WindFactors, id,
};
use crate::units::{Length, Mass, Power, Pressure, Quantity, Time, Volume};

/// A key of an entry that may stand on another: stated, or the base's, or missing.
pub(super) struct Entry<'k, 'd, 'n> {
    pub keys: &'k Keys<'d, 'n>,
    /// Whether a base fills what is left out.
    pub based: bool,
}

impl Entry<'_, '_, '_> {
    pub fn read<T>(
        &self,
        key: &'static str,
        help: &'static str,
        base: Option<T>,
        read: impl FnOnce(&Desk, &Node) -> Option<T>,
    ) -> Option<T> {
        let found = if self.based {
            self.keys.get(key)
        } else {
            self.keys.need(key, help)
        };
        match found {
            Some(node) => read(self.keys.desk, node),
            None => base,
        }
    }

    /// As [`Entry::read`], with a value where neither entry nor base has one.
    pub fn or<T>(
        &self,
        key: &'static str,
        base: Option<T>,
        usual: T,
        read: impl FnOnce(&Desk, &Node) -> Option<T>,
    ) -> Option<T> {
        match self.keys.get(key) {
            Some(node) => read(self.keys.desk, node),
            None => Some(base.unwrap_or(usual)),
        }
    }
}

pub(super) fn positive<Q: Quantity + PartialOrd + Default>(desk: &Desk, node: &Node) -> Option<Q> {
    let value = desk.quantity::<Q>(node)?;
    if value > Q::default() {
        return Some(value);
    }
    desk.error(
        node,
        "value.range",
        told!(
            "{name} must be more than nothing",
            name = Told::from(Q::NAME)
        ),
        told!("write {examples}", examples = Told::from(Q::EXAMPLES)),
    )
}

pub(super) fn not_negative<Q: Quantity + PartialOrd + Default>(
    desk: &Desk,
    node: &Node,
) -> Option<Q> {
    let value = desk.quantity::<Q>(node)?;
    if value >= Q::default() {
        return Some(value);
    }
    desk.error(
        node,
        "value.range",
        told!("{name} cannot be below zero", name = Told::from(Q::NAME)),
        told!("write {examples}", examples = Told::from(Q::EXAMPLES)),
    )
}

/// A stove, whole or laid over a base.
pub(in super::super) fn stove(
    desk: &Desk,
    name: &Id,
    node: &Node,
    base: Option<&Stove>,
) -> Option<Stove> {
    let keys = desk.keys(node, "a stove")?;
    keys.get("extends");
    let entry = Entry {
        keys: &keys,
        based: base.is_some(),
    };
    let shown_name = entry.read(
        "name",
        "name the stove",
        base.map(|b| b.name.clone()),
        |desk, node| desk.line(node, "the stove's name"),
    );
    let family = entry.read(
        "family",
        "name its family, such as `canister on top`",
        base.map(|b| b.family),
        |desk, node| desk.word(node, "a stove family", Family::ALL, Family::word),
    );
    let fuel = entry.read(
        "fuel",
        "name the fuel it usually takes",
        base.map(|b| b.fuel.clone()),
        |desk, node| desk.scalar(node, "a fuel").map(id),
    );
    let fuels = entry.or(
        "fuels",
        base.map(|b| b.fuels.clone()),
        Vec::new(),
        |desk, node| {
            Some(
                desk.list(node, "fuels")
                    .into_iter()
                    .filter_map(|item| desk.scalar(item, "a fuel").map(id))
                    .collect(),
            )
        },
    );
    let connection = entry.or(
        "connection",
        base.map(|b| b.connection),
        None,
        |desk, node| {
            desk.word(node, "a connection", Connection::ALL, Connection::word)
                .map(Some)
        },
    );
    let liquid_feed = entry.or(
        "liquid_feed",
        base.map(|b| b.liquid_feed),
        false,
        Desk::yes_no,
    );
    let efficiency = entry.read(
        "efficiency",
        "write low, likely and high below it",
        base.map(|b| b.efficiency),
        |desk, node| range(desk, node, base.map(|b| b.efficiency)),
    );
    let wind = entry.read(
        "wind",
        "write factors for each screen and wind",
        base.map(|b| b.wind.clone()),
        wind,
    );
    let screen = entry.or(
        "screen",
        base.map(|b| b.screen),
        Screen::None,
        |desk, node| desk.word(node, "a windscreen", Screen::ALL, Screen::word),
    );
    let power = entry.read(
        "power",
        "write the burner's power, such as `2.5 kW`",
        base.map(|b| b.power),
        positive::<Power>,
    );
    let least_power = entry.or(
        "least_power",
        base.map(|b| Some(b.least_power)),
        None,
        |desk, node| positive::<Power>(desk, node).map(Some),
    );
    let to_light = entry.or(
        "to_light",
        base.map(|b| b.to_light),
        Mass::ZERO,
        not_negative::<Mass>,
    );
    let one_fill = entry.or("one_fill", base.map(|b| b.one_fill), None, |desk, node| {
        positive::<Volume>(desk, node).map(Some)
    });
    let refill_wait = entry.or(
        "refill_wait",
        base.map(|b| b.refill_wait),
        Time::ZERO,
        not_negative::<Time>,
    );
    let least_gauge = entry.or(
        "least_gauge",
        base.map(|b| b.least_gauge),
        Pressure::ZERO,
        not_negative::<Pressure>,
    );
    let regulated = entry.or("regulated", base.map(|b| b.regulated), false, Desk::yes_no);
    let shut_off = entry.read(
        "shut_off",
        "say yes if a valve shuts it off at once",
        base.map(|b| b.shut_off),
        Desk::yes_no,
    );
    let mass = entry.read(
        "mass",
        "write its mass with stand and pump",
        base.map(|b| b.mass),
        positive::<Mass>,
    );
    let burner_mass = entry.or(
        "burner_mass",
        base.map(|b| Some(b.burner_mass)),
        None,
        |desk, node| positive::<Mass>(desk, node).map(Some),
    );
    let burner_height = entry.or(
        "burner_height",
        base.map(|b| b.burner_height),
        Length::ZERO,
        not_negative::<Length>,
    );
    let geometry = entry.read(
        "geometry",
        "say what it stands on",
        base.map(|b| b.geometry),
        geometry,
    );
    let usual = entry.or("usual", base.map(|b| b.usual), UsualRange::default(), usual);
    let spares = entry.or(
        "spares",
        base.map(|b| b.spares.clone()),
        Vec::new(),
        |desk, node| {
            Some(
                desk.list(node, "spare parts")
                    .into_iter()
                    .filter_map(|item| desk.line(item, "a spare part"))
                    .collect(),
            )
        },
    );
    let warn_pot_above = entry.or(
        "warn_pot_above",
        base.map(|b| b.warn_pot_above),
        None,
        |desk, node| positive::<Volume>(desk, node).map(Some),
    );
    let own_basis = basis(&keys, base.is_some());
    let sources = if keys.get("source").is_some() {
        codes(desk, keys.get("source"))
    } else {
        base.map_or_else(Vec::new, |base| base.sources.clone())
    };
    let basis = own_basis.or(base.map(|base| base.basis));
    if basis == Some(Basis::Published) && sources.is_empty() {
        return desk.error(
            keys.node.get("basis").unwrap_or(keys.node),
            "content.source",
            "a published basis needs its source",
            "write `source: [S..]`, or `basis: common practice` or assumption",
        );
    }
    let connection = connection?;
    if let (Some(true), None, Some(node)) = (regulated, connection, keys.node.get("regulated")) {
        return desk.error(
            node,
            "content.stove",
            "a stove without a canister has no regulator for its gas",
            "leave `regulated` out; only a canister stove, with a `connection`, may have it",
        );
    }
    keys.done();

    let (power, mass, fuel) = (power?, mass?, fuel?);
    let least_power = least_power?.unwrap_or(power);
    if least_power > power {
        return desk.error(
            node,
            "content.stove",
            "the least flame is more than the full power",
            "`least_power` is the smallest steady flame; leave it out if the stove cannot be turned down",
        );
    }
    let mut fuels = fuels?;
    if fuels.is_empty() {
        fuels.push(fuel.clone());
    }
    Some(Stove {
        id: name.clone(),
        name: shown_name?,
        family: family?,
        fuel,
        fuels,
        connection,
        liquid_feed: liquid_feed?,
        efficiency: efficiency?,
        wind: wind?,
        screen: screen?,
        power,
        least_power,
        to_light: to_light?,
        one_fill: one_fill?,
        refill_wait: refill_wait?,
        least_gauge: least_gauge?,
        regulated: regulated?,
        shut_off: shut_off?,
        mass,
        burner_mass: burner_mass?.unwrap_or(mass),
        burner_height: burner_height?,
        geometry: geometry?,
        usual: usual?,
        spares: spares?,
        warn_pot_above: warn_pot_above?,
        basis: basis?,
        sources,
    })
}

fn basis(keys: &Keys<'_, '_>, optional: bool) -> Option<Basis> {
    let node = if optional {
        keys.get("basis")
    } else {
        keys.need("basis", "write published, common practice or assumption")
    };
    keys.desk.word(node?, "a basis", super::BASES, Basis::word)
}

/// An efficiency: `low`, `likely` and `high`, or the likely value alone, with
/// the rest of the base kept as far as it still holds the new value.
pub(in super::super) fn range(desk: &Desk, node: &Node, base: Option<Range>) -> Option<Range> {
    if matches!(node.value, Value::Text(_)) {
        let likely = desk.efficiency(node)?;
        return Some(Range {
            low: base.map_or(likely, |base| base.low.min(likely)),
            likely,
            high: base.map_or(likely, |base| base.high.max(likely)),
        });
    }
    let keys = desk.keys(node, "an efficiency")?;
    let [low, likely, high] = ["low", "likely", "high"].map(|key| {
        keys.need(key, "write low, likely and high, such as 35%, 50% and 60%")
            .and_then(|node| desk.efficiency(node))
    });
    keys.done();
    let (low, likely, high) = (low?, likely?, high?);
    if low > likely || likely > high {
        return desk.error(
            node,
            "value.range",
            "low, likely and high are not in that order",
            "write the smallest first",
        );
    }
    Some(Range { low, likely, high })
}

fn wind(desk: &Desk, node: &Node) -> Option<HeatExtent> {
    desk.keys(node, "wind factors")?;
    let mut factors = HeatExtent::new();
    let mut fine = true;
    for entry in node.entries() {
        let Some(screen) = Screen::from_word(&entry.key.replace('_', "-")) else {
            let known = Screen::ALL.iter().map(|screen| screen.word());
            fine = desk
                .error::<bool>(
                    &entry.node,
                    "key.unknown",
                    told!(
                        "`{key}` is not a windscreen",
                        key = super::shown(&entry.key)
                    ),
                    super::super::desk::suggestion(&entry.key, known),
                )
                .unwrap_or(false);
            continue;
        };
        let Some(keys) = desk.keys(&entry.node, "wind factors for a screen") else {
            fine = false;
            continue;
        };
        let [calm, breezy, windy] = ["calm", "breezy", "windy"].map(|key| {
            keys.need(
                key,
                "write the share of the efficiency that is left in this wind",
            )
            .and_then(|node| desk.number(node, "a wind factor", 0.01..=1.0))
        });
        let may_fail = keys
            .get("may_fail_windy")
            .map_or(Some(false), |node| desk.yes_no(node));
        keys.done();
        match (calm, breezy, windy, may_fail) {
            (Some(calm), Some(breezy), Some(windy), Some(may_fail_windy)) => {
                factors.insert(
                    screen,
                    WindFactors {
                        calm,
                        breezy,
                        windy,
                        may_fail_windy,
                    },
                );
            }
            _ => fine = false,
        }
    }
    fine.then_some(factors)
}

fn geometry(desk: &Desk, node: &Node) -> Option<Geometry> {
    let keys = desk.keys(node, "`geometry`")?;
    let stands = keys
        .need("stands", "write on canister, legs or round")
        .and_then(|node| {
            desk.word(node, "a base", &["on canister", "legs", "round"], |word| {
                word
            })
        });
    let length = |key| {
        keys.need(key, "write a length, such as `75 mm`")
            .and_then(|node| positive::<Length>(desk, node))
    };
    let read = match stands? {
        "on canister" => Some(Geometry::OnCanister),
        "legs" => {
            let count = keys
                .need("legs", "write how many legs it has")
                .and_then(|node| desk.whole(node, "the number of legs", 3..=8));
            let (radius, height) = (length("radius"), length("height"));
            match (count, radius, height) {
                (Some(count), Some(radius), Some(height)) => Some(Geometry::Legs {
                    count,
                    radius,
                    height,
                }),
                _ => None,
            }
        }
        _ => match (length("diameter"), length("height")) {
            (Some(diameter), Some(height)) => Some(Geometry::Round { diameter, height }),
            _ => None,
        },
    };
    keys.done();
    read
}

fn usual(desk: &Desk, node: &Node) -> Option<UsualRange> {
    let keys = desk.keys(node, "`usual`")?;
    let pair = |key| match keys.get(key) {
        None => Some(None),
        Some(node) => {
            let read: Vec<Option<f64>> = desk
                .list(node, "low and high")
                .into_iter()
                .map(|item| desk.number(item, "grams a person and day", 0.0..=2000.0))
                .collect();
            match read.as_slice() {
                [Some(low), Some(high)] if low <= high => Some(Some((*low, *high))),
                _ => desk.error(
                    node,
                    "value.range",
                    "expected two numbers, low and high",
                    "write the grams a person and day as two items of a list",
                ),
            }
        }
    };
    let read = (
        pair("boil_only"),
        pair("hot_wash"),
        pair("shoulder"),
        pair("winter"),
    );
    keys.done();
    Some(UsualRange {
        boil_only: read.0?,
        hot_wash: read.1?,
        shoulder: read.2?,
        winter: read.3?,
    })
}
