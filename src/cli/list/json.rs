//! What is listed as JSON, format `leeside-list/1`: SI units in the keys, ids as the files know
//! them. Keys stay; more may be added.

use super::{List, What, coverage, in_order, menu_needs, objectives, reading};
use crate::compose::catalogue::text;
use crate::compose::said;
use crate::compose::{bundles::Bundle, sheets};
use crate::course::practice::Topic;
use crate::nouns::{Library, Trip, id};
use serde_json::{Map, Value, json};

/// What is asked for.
pub(super) fn listed(args: &List, library: &Library, trip: Option<&Trip>) -> String {
    let (what, rows) = match args.what {
        What::Modules if args.coverage => ("coverage", of_table(&coverage(library))),
        What::Modules if args.reading => ("reading", of_table(&reading(library))),
        What::Modules => ("modules", modules(library, trip)),
        What::Sheets => ("sheets", sheet_rows()),
        What::Bundles => ("bundles", bundles()),
        What::Gear => ("gear", gear(library)),
        What::Fuels => ("fuels", fuels(library)),
        What::Menus => ("menus", menus(library)),
        What::Places => ("places", places(library, trip)),
        What::Profiles => ("profiles", profiles(library)),
        What::Sources => ("sources", sources(library)),
        What::Topics => ("topics", topics()),
    };
    let mut whole = json!({"format": "leeside-list/1", "what": what, "rows": rows});
    if args.coverage
        && let Some(whole) = whole.as_object_mut()
    {
        let objectives = of_table(&objectives(library));
        whole.insert("objectives".to_owned(), Value::Array(objectives));
    }
    format!("{whole:#}\n")
}

/// Rows under their heads; a whole number is a number.
fn of_table(rows: &[Vec<String>]) -> Vec<Value> {
    let Some((heads, rows)) = rows.split_first() else {
        return Vec::new();
    };
    let cell = |text: &String| match text.parse::<f64>() {
        Ok(number) if text.contains('.') => json!(number),
        Ok(_) => text
            .parse::<u64>()
            .map_or_else(|_| json!(text), |number| json!(number)),
        Err(_) => json!(text),
    };
    rows.iter()
        .map(|row| {
            let named = heads.iter().zip(row).map(|(head, text)| {
                let key = if head.is_empty() { "mark" } else { head };
                (key.replace(' ', "_"), cell(text))
            });
            Value::Object(named.collect::<Map<_, _>>())
        })
        .collect()
}

fn modules(library: &Library, trip: Option<&Trip>) -> Vec<Value> {
    let rows = in_order(library).into_iter().map(|module| {
        let mut row = json!({
            "id": module.id,
            "title": module.title,
            "summary": module.summary,
            "hazard": module.hazard,
            "review_by": module.review_by.to_string(),
        });
        if let (Some(trip), Some(row)) = (trip, row.as_object_mut()) {
            let verdict = module.applies.judged(trip);
            row.insert("applies".to_owned(), json!(verdict.is_ok()));
            let why = said::verdict(&verdict, trip.units);
            row.insert("why".to_owned(), json!(why));
        }
        row
    });
    rows.collect()
}

fn sheet_rows() -> Vec<Value> {
    let rows = sheets::ALL.iter().map(
        |sheet| json!({"id": sheet.name, "folder": sheet.folder.word(), "about": sheet.about()}),
    );
    rows.collect()
}

fn bundles() -> Vec<Value> {
    let rows = Bundle::EVERY
        .into_iter()
        .map(|bundle| json!({"id": bundle.word(), "sheets": bundle.sheets()}));
    rows.collect()
}

fn topics() -> Vec<Value> {
    let rows = Topic::ALL
        .into_iter()
        .map(|topic| json!({"id": topic.word(), "title": text(&topic.title())}));
    rows.collect()
}

fn gear(library: &Library) -> Vec<Value> {
    let stoves = library.stoves.values().map(|stove| {
        json!({
            "kind": "stove",
            "id": stove.id,
            "fuels": stove.fuels,
            "efficiency": stove.efficiency.likely.in_one(),
            "efficiency_low": stove.efficiency.low.in_one(),
            "efficiency_high": stove.efficiency.high.in_one(),
            "power_kw": stove.power.in_kilowatts(),
            "mass_g": stove.mass.in_grams(),
        })
    });
    let pots = library.materials.values().map(|material| {
        json!({
            "kind": "pot",
            "id": material.id,
            "specific_heat_kj_per_kg_k":
                material.specific_heat.in_kilojoules_per_kilogram_kelvin(),
            "base_mass_g": material.base_mass.in_grams(),
            "mass_per_litre_g": material.mass_per_litre.in_grams(),
        })
    });
    let containers = library.containers.values().map(|container| {
        let fuels: Vec<String> = container.fuels.iter().map(|fuel| id(fuel.word())).collect();
        json!({
            "kind": "container",
            "id": container.id,
            "fuel_kinds": fuels,
            "net_g": container.net.in_grams(),
            "capacity_l": container.capacity.in_litres(),
            "fill": container.fill.in_one(),
            "tare_g": container.tare.in_grams(),
        })
    });
    stoves.chain(pots).chain(containers).collect()
}

fn fuels(library: &Library) -> Vec<Value> {
    let rows = library.fuels.values().map(|fuel| {
        json!({
            "id": fuel.id,
            "fuel_kind": id(fuel.kind.word()),
            "heating_value_mj_per_kg": fuel.heating_value.in_megajoules_per_kilogram(),
            "also_called": fuel.also_called,
        })
    });
    rows.collect()
}

fn menus(library: &Library) -> Vec<Value> {
    let rows = library.menus.iter().map(|(id, menu)| {
        let [supper, breakfast, lunch, drinks] = menu_needs(menu).map(|need| {
            json!({
                "boil_l": need.boil.in_litres(),
                "simmer_minutes": need.simmer.in_minutes(),
                "times_a_day": need.times_a_day,
            })
        });
        json!({
            "id": id,
            "name": menu.name,
            "supper": supper,
            "breakfast": breakfast,
            "lunch": lunch,
            "drinks": drinks,
        })
    });
    rows.collect()
}

fn places(library: &Library, trip: Option<&Trip>) -> Vec<Value> {
    let rows = library.places.values().filter_map(|place| {
        let rules: Vec<&String> = place.rules.keys().collect();
        let mut row = json!({
            "id": place.id,
            "title": place.title,
            "country": place.country,
            "summary": place.summary,
            "rules": rules,
        });
        if let Some(trip) = trip {
            let here = trip.camps.iter().filter(|camp| camp.place == place.id);
            let camps: Vec<&str> = here.map(|camp| camp.name.as_str()).collect();
            if camps.is_empty() {
                return None;
            }
            row.as_object_mut()?
                .insert("camps".to_owned(), json!(camps));
        }
        Some(row)
    });
    rows.collect()
}

fn profiles(library: &Library) -> Vec<Value> {
    let rows = library
        .profiles
        .values()
        .map(|profile| json!({"id": profile.id, "name": profile.name, "phones": profile.phones}));
    rows.collect()
}

fn sources(library: &Library) -> Vec<Value> {
    let codes = library.sources.keys().cloned().collect();
    let in_order = crate::compose::words::by_number(&codes).into_iter();
    let rows = in_order
        .filter_map(|code| library.sources.get(code))
        .map(|source| {
            json!({
                "id": source.id,
                "title": source.title,
                "publisher": source.publisher,
                "year": source.year,
                "url": source.url,
                "seen": source.seen.map(|day| day.to_string()),
            })
        });
    rows.collect()
}
