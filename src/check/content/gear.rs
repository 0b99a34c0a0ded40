//! The catalogue: stoves, fuels, pot materials, containers.

use super::super::desk::{Desk, Keys};
use super::{codes, optional};
use crate::load::{Node, Value};
use crate::nouns::{
    Basis, Connection, Container, ContainerKind, Family, Fuel, FuelKind, Geometry, HeatExtent, Id,
    Material, Range, Screen, Stove, UsualRange, WindFactors, id,
};
use crate::units::{
    Fraction, HeatingValue, Length, Mass, Power, Pressure, Quantity, SpecificHeat, Time, Volume,
};

/// A key of an entry that may stand on another: stated, or the base's, or missing.
struct Entry<'k, 'd, 'n> {
    keys: &'k Keys<'d, 'n>,
    /// Whether a base fills what is left out.
    based: bool,
}

impl Entry<'_, '_, '_> {
    fn read<T>(
        &self,
        key: &'static str,
        help: &str,
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
    fn or<T>(
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

fn positive<Q: Quantity + PartialOrd + Default>(desk: &Desk, node: &Node) -> Option<Q> {
    let value = desk.quantity::<Q>(node)?;
    if value > Q::default() {
        return Some(value);
    }
    desk.error(
        node,
        "value.range",
        format!("{} must be more than nothing", Q::NAME),
        format!("write {}", Q::EXAMPLES),
    )
}

fn not_negative<Q: Quantity + PartialOrd + Default>(desk: &Desk, node: &Node) -> Option<Q> {
    let value = desk.quantity::<Q>(node)?;
    if value >= Q::default() {
        return Some(value);
    }
    desk.error(
        node,
        "value.range",
        format!("{} cannot be below zero", Q::NAME),
        format!("write {}", Q::EXAMPLES),
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
    let (_, _) = (
        basis(&keys, base.is_some()),
        codes(desk, keys.get("source")),
    );
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
        connection: connection?,
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
        shut_off: shut_off?,
        mass,
        burner_mass: burner_mass?.unwrap_or(mass),
        burner_height: burner_height?,
        geometry: geometry?,
        usual: usual?,
        spares: spares?,
        warn_pot_above: warn_pot_above?,
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
                    format!("`{}` is not a windscreen", super::shown(&entry.key)),
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

/// A fuel.
pub(super) fn fuel(desk: &Desk, name: &Id, node: &Node) -> Option<Fuel> {
    let keys = desk.keys(node, "a fuel")?;
    let entry = Entry {
        keys: &keys,
        based: false,
    };
    let shown_name = entry.read("name", "name the fuel", None, |desk, node| {
        desk.line(node, "the fuel's name")
    });
    let kind = entry.read("kind", "write its kind", None, |desk, node| {
        desk.word(node, "a kind of fuel", FuelKind::ALL, FuelKind::word)
    });
    let value = entry.read(
        "heating_value",
        "write the lower heating value, such as `44.7 MJ/kg`",
        None,
        positive::<HeatingValue>,
    );
    let low = keys
        .get("heating_low")
        .map(|node| positive::<HeatingValue>(desk, node));
    let high = keys
        .get("heating_high")
        .map(|node| positive::<HeatingValue>(desk, node));
    let density = entry.read(
        "density",
        "write kilograms in a litre",
        None,
        |desk, node| desk.number(node, "a density in kg/L", 0.1..=3.0),
    );
    let fossil_co2 = entry.read(
        "fossil_co2",
        "write grams of fossil CO2 for each gram burnt",
        None,
        |desk, node| desk.number(node, "grams of CO2 a gram", 0.0..=5.0),
    );
    let also_called = keys.get("also_called").map(|node| {
        desk.list(node, "other names")
            .into_iter()
            .filter_map(|item| desk.line(item, "a name"))
            .collect()
    });
    let note = keys.get("note").map(|node| super::prose::prose(desk, node));
    let origin = super::origin(&keys, false);
    keys.done();
    let (value, low, high) = (value?, optional(low)?, optional(high)?);
    let (low, high) = (low.unwrap_or(value), high.unwrap_or(value));
    if low > value || value > high {
        return desk.error(
            node,
            "value.range",
            "the heating value does not lie between its low and high",
            "`heating_low` is the smallest, `heating_high` the largest",
        );
    }
    Some(Fuel {
        id: name.clone(),
        name: shown_name?,
        kind: kind?,
        heating_value: value,
        heating_range: (low, high),
        density: density?,
        fossil_co2: fossil_co2?,
        also_called: also_called.unwrap_or_default(),
        note: optional(note)?.unwrap_or_default(),
        sources: origin?.sources,
    })
}

/// What a pot is made of.
pub(super) fn material(desk: &Desk, name: &Id, node: &Node) -> Option<Material> {
    let keys = desk.keys(node, "a pot material")?;
    let entry = Entry {
        keys: &keys,
        based: false,
    };
    let shown_name = entry.read("name", "name the material", None, |desk, node| {
        desk.line(node, "the name")
    });
    let heat = entry.read(
        "specific_heat",
        "write kJ to warm a kilogram by one kelvin",
        None,
        |desk, node| desk.number(node, "a specific heat in kJ/(kg K)", 0.05..=5.0),
    );
    let base_mass = entry.read("base_mass", "write a mass", None, not_negative::<Mass>);
    let mass_per_litre = entry.read("mass_per_litre", "write a mass", None, not_negative::<Mass>);
    let origin = super::origin(&keys, false);
    keys.done();
    Some(Material {
        id: name.clone(),
        name: shown_name?,
        specific_heat: SpecificHeat::kilojoules_per_kilogram_kelvin(heat?),
        base_mass: base_mass?,
        mass_per_litre: mass_per_litre?,
        sources: origin?.sources,
    })
}

/// A container.
pub(super) fn container(desk: &Desk, name: &Id, node: &Node) -> Option<Container> {
    let keys = desk.keys(node, "a container")?;
    let entry = Entry {
        keys: &keys,
        based: false,
    };
    let shown_name = entry.read("name", "name the container", None, |desk, node| {
        desk.line(node, "the name")
    });
    let kind = entry.read(
        "kind",
        "write canister, bottle or pack",
        None,
        |desk, node| {
            desk.word(
                node,
                "a kind of container",
                ContainerKind::ALL,
                ContainerKind::word,
            )
        },
    );
    let fuels = entry.read(
        "fuels",
        "list the kinds of fuel it holds",
        None,
        |desk, node| {
            let read: Vec<_> = desk
                .list(node, "kinds of fuel")
                .into_iter()
                .map(|item| desk.word(item, "a kind of fuel", FuelKind::ALL, FuelKind::word))
                .collect();
            read.into_iter().collect::<Option<Vec<_>>>()
        },
    );
    let net = keys.get("net").map(|node| positive::<Mass>(desk, node));
    let capacity = keys
        .get("capacity")
        .map(|node| positive::<Volume>(desk, node));
    let fill = keys.get("fill").map(|node| {
        desk.within(
            node,
            Fraction::percent(10.0)..=Fraction::percent(100.0),
            "a share from 10% to 100%",
        )
    });
    let tare = entry.read("tare", "write its mass empty", None, positive::<Mass>);
    let spread = entry.or("tare_spread", None, Mass::ZERO, not_negative::<Mass>);
    let diameter = entry.read("diameter", "write its diameter", None, positive::<Length>);
    let height = entry.read("height", "write its height", None, positive::<Length>);
    let residue = entry.or("residue", None, Mass::ZERO, not_negative::<Mass>);
    let residue_share = keys
        .get("residue_share")
        .map_or(Some(Fraction::ZERO), |node| {
            desk.within(
                node,
                Fraction::ZERO..=Fraction::percent(50.0),
                "a share from 0% to 50%",
            )
        });
    let origin = super::origin(&keys, false);
    let kind = kind?;
    if kind == ContainerKind::Bottle {
        keys.need("capacity", "a bottle has a capacity, such as `1 L`")?;
    } else {
        keys.need("net", "write the mass of fuel in a full one")?;
    }
    keys.done();
    origin?;
    Some(Container {
        id: name.clone(),
        name: shown_name?,
        kind,
        fuels: fuels?,
        net: optional(net)?.unwrap_or(Mass::ZERO),
        capacity: optional(capacity)?.unwrap_or(Volume::ZERO),
        fill: optional(fill)?.unwrap_or(Fraction::of_one(1.0)),
        tare: tare?,
        tare_spread: spread?,
        diameter: diameter?,
        height: height?,
        residue: residue?,
        residue_share: residue_share?,
    })
}
