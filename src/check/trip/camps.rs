//! Camps with their weather, water, rules and menu; the one place of a lesson.

use super::super::desk::{Desk, Keys, shown, suggestion};
use super::super::rules;
use super::super::values::USUAL_PLACE;
use super::menu;
use crate::diag::{Told, told};
use crate::load::{Node, Value};
use crate::nouns::{
    Because, Camp, CampRule, Library, Menu, Place, Presumed, RuleValue, WaterFrom, Wind, id,
};
use crate::physics::air::pressure_us_standard_atmosphere_1976;
use crate::physics::water::saturation_temperature_if97;
use crate::units::{Length, Pressure, Temperature, Units, Volume, say};
use std::collections::BTreeMap;

/// What the trip says for all of its camps.
pub(super) struct Wide<'l> {
    pub library: &'l Library,
    pub units: Units,
    pub menu: Option<Menu>,
    pub drinking: Option<Option<Volume>>,
    pub tap: bool,
    pub checked: Option<String>,
}

/// Drinking water a person and day.
pub(super) fn drinking(desk: &Desk, node: &Node) -> Option<Volume> {
    desk.within(
        node,
        super::drinking_range(),
        "litres for each person and day, from 0 L to 15 L",
    )
}

/// The camps of a trip.
pub(super) fn camps(desk: &Desk, node: &Node, wide: &Wide<'_>) -> Option<Vec<Camp>> {
    let Value::List(items) = &node.value else {
        return desk.error(
            node,
            "value.shape",
            told!(
                "expected the camps (a list), found {kind}",
                kind = Told::from(node.kind())
            ),
            "put `- ` before the first key of each camp",
        );
    };
    if items.is_empty() {
        return desk.error(node, "value.empty", "there is no camp", "list at least one");
    }
    let read: Vec<Option<Camp>> = items.iter().map(|item| camp(desk, item, wide)).collect();
    let mut fine = true;
    for (index, camp) in read.iter().enumerate() {
        let Some(camp) = camp else { continue };
        let before = read[..index]
            .iter()
            .flatten()
            .any(|other| id(&other.name) == id(&camp.name));
        if before {
            let at = items[index].get("name").unwrap_or(&items[index]);
            desk.error::<()>(
                at,
                "trip.name",
                told!("two camps are named `{name}`", name = shown(&camp.name)),
                "give each its own name, such as `Base, second stay`",
            );
            fine = false;
        }
    }
    let nights: u32 = read.iter().flatten().map(|camp| camp.nights).sum();
    if nights > 120 {
        return desk.error(
            node,
            "trip.nights",
            told!("the camps add up to {nights} nights", nights),
            "plan at most 120 nights in one file",
        );
    }
    let camps: Option<Vec<Camp>> = read.into_iter().collect();
    camps.filter(|_| fine)
}

fn camp(desk: &Desk, node: &Node, wide: &Wide<'_>) -> Option<Camp> {
    let keys = desk.keys(node, "a camp")?;
    let name = keys
        .need("name", "write the camp's name")
        .map(|node| desk.line(node, "the camp's name"));
    let nights = keys
        .need("nights", "write how many nights are spent there")
        .map(|node| desk.whole(node, "the number of nights", 1..=60));
    let weather = weather(&keys, wide);
    let place = place(&keys, wide.library);
    let rules = place.and_then(|place| camp_rules(&keys, place, wide));
    let menu = match (keys.get("menu"), &wide.menu) {
        (Some(node), Some(base)) => menu::menu(desk, node, base, wide.library),
        (_, base) => base.clone(),
    };
    let water_from = weather.as_ref().map(|weather| weather.water_from);
    let drinking = match (keys.get("drinking"), wide.drinking) {
        (Some(node), _) => drinking(desk, node),
        (None, Some(stated)) => stated,
        (None, None) => water_from.map(|from| usual_drinking(&keys, from, wide)),
    };
    keys.done();
    let weather = weather?;
    Some(Camp {
        name: name.flatten()?,
        nights: nights.flatten()?,
        place: place?.id.clone(),
        rules: rules?,
        menu: menu?,
        drinking: drinking?,
        ..weather.camp()
    })
}

/// The one place of a lesson; its keys stand at the top of the file.
pub(super) fn lesson(keys: &Keys<'_, '_>, wide: &Wide<'_>) -> Option<Camp> {
    let indoors = indoors(keys);
    let weather = weather(keys, wide);
    let place = match keys.get("land") {
        Some(node) => keys.desk.place(node, wide.library),
        None => keys
            .desk
            .catalogue(keys.node, "place", &wide.library.places, USUAL_PLACE),
    };
    let rules = place.and_then(|place| camp_rules(keys, place, wide));
    Some(Camp {
        name: if indoors { "indoors" } else { "outdoors" }.to_owned(),
        nights: 0,
        place: place?.id.clone(),
        rules: rules?,
        menu: wide.menu.clone()?,
        drinking: Volume::ZERO,
        ..weather?.camp()
    })
}

/// Whether a lesson is held indoors.
pub(super) fn indoors(keys: &Keys<'_, '_>) -> bool {
    match keys.get("place") {
        None => {
            if keys.node.get("place").is_none() {
                keys.desk
                    .assume("place", Presumed::Word("outdoors"), Because::NotStated);
            }
            false
        }
        Some(node) => in_or_out(keys.desk, node).unwrap_or(false),
    }
}

/// `indoors` or `outdoors`.
pub(super) fn in_or_out(desk: &Desk, node: &Node) -> Option<bool> {
    desk.word(
        node,
        "a place for a lesson",
        &["outdoors", "indoors"],
        |word| word,
    )
    .map(|word| word == "indoors")
}

fn usual_drinking(keys: &Keys<'_, '_>, from: WaterFrom, wide: &Wide<'_>) -> Volume {
    let figures = &wide.library.figures;
    let (volume, why) = if from == WaterFrom::Snow {
        (figures.drinking_snow.value, Because::APersonAndDayFromSnow)
    } else {
        (figures.drinking.value, Because::APersonAndDay)
    };
    keys.desk.assume(
        keys.node.path_of("drinking"),
        Presumed::Quantity(say::volume(volume, wide.units)),
        why,
    );
    volume
}

struct Weather {
    elevation: Length,
    pressure: Option<Pressure>,
    day: Temperature,
    night: Temperature,
    water_from: WaterFrom,
    water: Temperature,
    wind: Wind,
    fuel_temperature: Option<Temperature>,
}

impl Weather {
    /// A camp with this weather; the caller fills in the rest.
    fn camp(&self) -> Camp {
        Camp {
            name: String::new(),
            nights: 0,
            elevation: self.elevation,
            pressure: self.pressure,
            day: self.day,
            night: self.night,
            water_from: self.water_from,
            water: self.water,
            wind: self.wind,
            place: String::new(),
            rules: BTreeMap::new(),
            menu: Menu {
                name: String::new(),
                supper: crate::nouns::MealNeed::COLD,
                breakfast: crate::nouns::MealNeed::COLD,
                lunch: crate::nouns::MealNeed::COLD,
                drinks: crate::nouns::MealNeed::COLD,
            },
            fuel_temperature: self.fuel_temperature,
            drinking: Volume::ZERO,
            no_stove: false,
        }
    }
}

/// The elevation of a camp, lesson or trial.
pub(in super::super) fn elevation(desk: &Desk, node: &Node) -> Option<Length> {
    desk.within(
        node,
        Length::metres(-400.0)..=Length::metres(9000.0),
        "a height above the sea from -400 m to 9000 m (-1300 ft to 29500 ft)",
    )
}

/// A barometer's reading, held against the height it was made at.
pub(in super::super) fn pressure(
    desk: &Desk,
    node: &Node,
    height: Option<Length>,
) -> Option<Pressure> {
    let read = desk.within(
        node,
        Pressure::kilopascals(25.0)..=Pressure::kilopascals(110.0),
        "the air pressure where the stove stands, from 25 kPa to 110 kPa",
    )?;
    if let Some(usual) = height.and_then(pressure_us_standard_atmosphere_1976)
        && (read / usual - 1.0).abs() > 0.08
    {
        desk.warn(
            node,
            "trip.pressure",
            told!("the air usually has about {in_kilopascals} kPa at this height", in_kilopascals = say::number(usual.in_kilopascals(), 1)),
            "weather reports and watches give the pressure reduced to sea level; write the station pressure",
        );
    }
    Some(read)
}

fn weather(keys: &Keys<'_, '_>, wide: &Wide<'_>) -> Option<Weather> {
    let desk = keys.desk;
    let figures = &wide.library.figures;
    let path = |key: &str| keys.node.path_of(key);
    let temperature = |point| say::temperature(point, wide.units);

    let elevation = keys
        .need(
            "elevation",
            "write the height above the sea, such as `8200 ft` or `2500 m`",
        )
        .and_then(|node| elevation(desk, node));
    let stated_pressure = keys
        .get("pressure")
        .map(|node| pressure(desk, node, elevation));
    let day = match (keys.get("day"), elevation) {
        (Some(node), _) => desk.outdoor_temperature(node),
        (None, Some(height)) => {
            let day =
                figures.day_sea_level.value - figures.lapse_per_km.value * height.in_kilometres();
            desk.assume(
                path("day"),
                Presumed::Quantity(temperature(day)),
                Because::SummerAir,
            );
            Some(day)
        }
        (None, None) => None,
    };
    let night = match (keys.get("night"), day) {
        (Some(node), _) => desk.outdoor_temperature(node),
        (None, Some(day)) => {
            let night = day - figures.night_below_day.value;
            desk.assume(
                path("night"),
                Presumed::Quantity(temperature(night)),
                Because::BelowTheDay(figures.night_below_day.value),
            );
            Some(night)
        }
        (None, None) => None,
    };
    if let (Some(day), Some(night), Some(node)) = (day, night, keys.node.get("night"))
        && night > day
    {
        desk.warn(
            node,
            "trip.temperature",
            told!(
                "the night ({night}) is warmer than the day ({day})",
                night = temperature(night),
                day = temperature(day)
            ),
            "`day` is the air when supper is cooked, `night` the low when breakfast is cooked",
        );
    }
    let water_from = match keys.get("water_from") {
        Some(node) => node
            .text()
            .and_then(WaterFrom::called)
            .or_else(|| desk.word(node, "a source of water", WaterFrom::ALL, WaterFrom::word)),
        None => {
            let usual = if wide.tap {
                WaterFrom::Tap
            } else {
                WaterFrom::Stream
            };
            desk.assume(
                path("water_from"),
                Presumed::Word(usual.word()),
                Because::NotStated,
            );
            Some(usual)
        }
    };
    let boiling = elevation.and_then(|height| {
        stated_pressure
            .flatten()
            .or_else(|| pressure_us_standard_atmosphere_1976(height))
            .and_then(saturation_temperature_if97)
    });
    let water = match keys.get("water") {
        Some(node) => water(desk, node, water_from, boiling, wide.units),
        None => match (water_from, day, night) {
            (Some(WaterFrom::Snow), _, Some(night)) => {
                let snow = night.min(Temperature::celsius(0.0));
                desk.assume(
                    path("water"),
                    Presumed::Quantity(temperature(snow)),
                    Because::SnowAsNight,
                );
                Some(snow)
            }
            (Some(_), Some(day), Some(night)) => {
                let (least, most) = figures.water_bounds.value;
                let water = day.midway(night).max(least).min(most);
                desk.assume(
                    path("water"),
                    Presumed::Quantity(temperature(water)),
                    Because::Midway,
                );
                Some(water)
            }
            _ => None,
        },
    };
    let wind = match keys.get("wind") {
        Some(node) => desk.word(node, "a wind", Wind::ALL, Wind::word),
        None => {
            desk.assume(
                path("wind"),
                Presumed::Word(Wind::Breezy.word()),
                Because::NotStated,
            );
            Some(Wind::Breezy)
        }
    };
    let fuel_temperature = keys.get("fuel_temperature").map(|node| {
        desk.within(
            node,
            Temperature::celsius(-60.0)..=figures.body_warm.value,
            "the temperature of the canister, at most body-warm (37 C, 99 F): a hotter one can burst",
        )
    });
    Some(Weather {
        elevation: elevation?,
        pressure: super::optional(stated_pressure)?,
        day: day?,
        night: night?,
        water_from: water_from?,
        water: water?,
        wind: wind?,
        fuel_temperature: super::optional(fuel_temperature)?,
    })
}

fn water(
    desk: &Desk,
    node: &Node,
    from: Option<WaterFrom>,
    boiling: Option<Temperature>,
    units: Units,
) -> Option<Temperature> {
    let zero = Temperature::celsius(0.0);
    if from == Some(WaterFrom::Snow) {
        let snow = desk.outdoor_temperature(node)?;
        if snow > zero {
            return desk.error(
                node,
                "trip.snow",
                "snow above 0 C (32 F) is water",
                "write the snow's own temperature, 0 C at most, or `water_from: stream`",
            );
        }
        return Some(snow);
    }
    let water = desk.quantity::<Temperature>(node)?;
    if water < zero {
        return desk.error(
            node,
            "trip.water",
            "water below 0 C (32 F) is ice",
            "write 0 C or more, or `water_from: snow`",
        );
    }
    match boiling {
        Some(boiling) if water >= boiling => desk.error(
            node,
            "trip.water",
            told!("water boils at {boiling} at this height, so it cannot be {node} before it is heated", boiling = say::temperature(boiling, units), node = shown(node.text().unwrap_or_default())),
            "write the temperature of the water as it is drawn",
        ),
        _ => Some(water),
    }
}

fn place<'l>(keys: &Keys<'_, '_>, library: &'l Library) -> Option<&'l Place> {
    match keys.get("place") {
        Some(node) => keys.desk.place(node, library),
        None => {
            let place = keys
                .desk
                .catalogue(keys.node, "place", &library.places, USUAL_PLACE)?;
            keys.desk.assume(
                keys.node.path_of("place"),
                Presumed::Name(place.title.clone()),
                Because::AskLandManager,
            );
            Some(place)
        }
    }
}

/// The rules in force: the place's, with the camp's own laid over them.
fn camp_rules(
    keys: &Keys<'_, '_>,
    place: &Place,
    wide: &Wide<'_>,
) -> Option<BTreeMap<String, CampRule>> {
    let desk = keys.desk;
    let figure = &wide.library.figures.greywater_distance;
    let mut rules = BTreeMap::from([(
        "greywater.distance".to_owned(),
        CampRule {
            value: RuleValue::Length(figure.value),
            from: "default".to_owned(),
            sources: figure.sources.clone(),
            as_of: None,
            checked: None,
            verify: false,
        },
    )]);
    for (key, rule) in &place.rules {
        rules.insert(
            key.clone(),
            CampRule {
                value: rule.value.clone(),
                from: place.id.clone(),
                sources: rule.sources.clone(),
                as_of: rule.as_of,
                checked: None,
                verify: rule.sure.unverified(),
            },
        );
    }
    let Some(node) = keys.get("rules") else {
        return Some(rules);
    };
    let checked = match node.get("checked") {
        Some(node) => Some(desk.line(node, "who told it, and when")?),
        None => wide.checked.clone(),
    };
    let mut fine = true;
    let mut stated: Vec<&str> = Vec::new();
    for (key, node) in rules::each(desk, node) {
        stated.push(key);
        match rules::value(desk, key, node) {
            Some(value) => {
                let rule = CampRule {
                    value,
                    from: "trip".to_owned(),
                    sources: Vec::new(),
                    as_of: None,
                    checked: checked.clone(),
                    verify: false,
                };
                rules.insert(key.to_owned(), rule);
            }
            None => fine = false,
        }
    }
    // Who says how wash water goes and no distance asks for none: the place's own belongs to the
    // way that was replaced.
    let method = rules.get(METHOD).filter(|_| stated.contains(&METHOD));
    if let Some(method) = method.cloned()
        && !stated.contains(&DISTANCE)
    {
        rules.insert(
            DISTANCE.to_owned(),
            CampRule {
                value: RuleValue::Length(Length::ZERO),
                ..method
            },
        );
        if !stated.contains(&FROM) {
            rules.remove(FROM);
        }
    }
    fine.then_some(rules)
}

/// Rules on wash water.
const METHOD: &str = "greywater.method";
const DISTANCE: &str = "greywater.distance";
const FROM: &str = "greywater.from";

/// The camp where new fuel is handed out.
pub(super) fn resupply(desk: &Desk, node: &Node, camps: &[Camp]) -> Option<usize> {
    let text = desk.scalar(node, "the name of a camp")?;
    if camps.is_empty() {
        return None;
    }
    match camps.iter().position(|camp| id(&camp.name) == id(text)) {
        Some(0) => desk.error(
            node,
            "trip.resupply",
            "new fuel cannot be handed out at the first camp: that is the start",
            "name a later camp, or leave `resupply` out",
        ),
        Some(index) => Some(index),
        None => desk.error(
            node,
            "name.unknown",
            told!("there is no camp named `{value}`", value = shown(text)),
            suggestion(text, camps.iter().map(|camp| camp.name.as_str())),
        ),
    }
}
