//! The plan as JSON, format `leeside-plan/1`: SI units in the keys, nothing rounded but what the
//! printed steps decide (fuel, likely, carry).
//!
//! Keys stay; more may be added. What was not worked out is absent, never zero.

use super::cautions::caution;
use crate::compose::catalogue::text;
use crate::compose::said;
use crate::nouns::{Library, Trip, id};
use crate::plan::{
    ColdRow, ComparisonRow, ContainerPlan, FuelPlan, KitchenPlan, Plan, Row, StabilityPlan, Step,
    Usual, issues,
};
use crate::units::{Mass, Units};
use serde_json::{Map, Value, json};

/// The plan as `leeside plan --json` prints it.
#[must_use]
pub fn json(plan: &Plan, trip: &Trip, library: &Library) -> Value {
    let mut whole = object(json!({
        "format": "leeside-plan/1",
        "title": plan.title,
        "kind": plan.kind.word(),
        "people": plan.people,
        "nights": plan.nights,
        "confidence": plan.confidence.in_one(),
        "camps": plan.camps.iter().map(|camp| json!({
            "name": camp.name,
            "nights": camp.nights,
            "elevation_m": camp.elevation.in_metres(),
            "pressure_kpa": camp.pressure.in_kilopascals(),
            "boiling_c": camp.boiling.in_celsius(),
            "wind": camp.wind.word(),
            "day_c": camp.day.in_celsius(),
            "night_c": camp.night.in_celsius(),
            "water_c": camp.water.in_celsius(),
            "water_from": camp.water_from.word(),
            "safe_boil_minutes": camp.hold.in_minutes(),
            "steps": steps(&camp.steps),
        })).collect::<Vec<_>>(),
        "kitchens": plan.kitchens.iter().map(|one| kitchen(plan, one)).collect::<Vec<_>>(),
    }));
    if !plan.comparison.is_empty() {
        whole.insert(
            "comparison".to_owned(),
            plan.comparison.iter().map(comparison).collect(),
        );
        whole.insert(
            "crossings".to_owned(),
            plan.crossings
                .iter()
                .map(|one| json!({"before": one.before, "after": one.after, "nights": one.nights}))
                .collect(),
        );
    }
    if let Some(choice) = &plan.assignment {
        whole.insert(
            "assignment".to_owned(),
            json!({
                "left_over_g": choice.left_over.in_grams(),
                "bound_g": choice.bound.in_grams(),
                "exact": choice.exact,
            }),
        );
    }
    let rest = object(json!({
        "greywater": plan.greywater.iter().map(|one| json!({
            "camp": plan.camps[one.camp].name,
            "litres_per_day": one.per_day.in_litres(),
            "distance_m": one.distance.in_metres(),
            "steps": one.steps,
            "method": text(&one.method),
            "from": one.from,
            "working": steps(&one.working),
        })).collect::<Vec<_>>(),
        "rules": plan.rules.iter().map(|one| json!({
            "camp": plan.camps[one.camp].name,
            "rule": one.rule,
            "value": said::rule(&one.said.value, Units::Both),
            "from": one.said.from,
            "checked": one.said.checked,
            "as_of": one.said.as_of.map(|date| date.to_string()),
            "stale_days": one.stale,
        })).collect::<Vec<_>>(),
        "modules": plan.modules.iter().map(|one| json!({
            "id": one.id,
            "title": one.title,
            "applies": one.verdict.is_ok(),
            "why": said::verdict(&one.verdict, plan.units),
        })).collect::<Vec<_>>(),
        "assumed": plan.assumed.iter().map(|one| json!({
            "what": one.what,
            "value": text(&(&one.value).into()),
            "why": text(&(&one.why).into()),
        })).collect::<Vec<_>>(),
        "cautions": plan.cautions.iter().map(|one| json!({
            "signal": one.signal.word(),
            "module": one.module,
            "id": one.id,
            "text": caution(trip, library, one),
        })).collect::<Vec<_>>(),
    }));
    whole.extend(rest);
    Value::Object(whole)
}

/// The members of an object that was just written.
fn object(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(map) => map,
        _ => Map::new(),
    }
}

/// Printed lines.
fn steps(steps: &[Step]) -> Vec<Value> {
    steps
        .iter()
        .map(|step| {
            json!({
                "say": text(&step.say),
                "formula": step.formula,
                "value": step.value,
                "unit": step.unit,
                "why": text(&step.why),
            })
        })
        .collect()
}

fn kitchen(plan: &Plan, kitchen: &KitchenPlan) -> Value {
    let mut whole = object(json!({
        "name": kitchen.name,
        "people": kitchen.people,
        "stove": kitchen.stove,
        "steps": steps(&kitchen.steps),
        "meals": kitchen.rows.iter().map(|row| meal(plan, row)).collect::<Vec<_>>(),
        "fuel": fuel(plan, kitchen),
        "containers": kitchen.containers.iter().map(container).collect::<Vec<_>>(),
        "cold": kitchen.cold.iter().map(|row| cold(plan, kitchen, row)).collect::<Vec<_>>(),
    }));
    if let Some(stability) = &kitchen.stability {
        whole.insert("stability".to_owned(), self::stability(stability));
    }
    Value::Object(whole)
}

fn meal(plan: &Plan, row: &Row) -> Value {
    let boils = row.stops.is_none();
    let mut whole = object(json!({
        "camp": plan.camps[row.camp].name,
        "meal": row.meal.word(),
        "times": row.times,
        "water_l": row.water.in_litres(),
        "batches": row.batches.len(),
        "heat_kj": {
            "water": row.heat.water.in_kilojoules(),
            "pot": row.heat.pot.in_kilojoules(),
            "melt": row.heat.melt.in_kilojoules(),
            "simmer": row.heat.simmer.in_kilojoules(),
            "useful": row.heat.useful.in_kilojoules(),
        },
        "efficiency": row.efficiency.in_one(),
        "fuel_g": boils.then(|| row.fuel.in_grams()),
        "minutes": boils.then(|| row.minutes.in_minutes()),
        "flame_minutes": boils.then(|| row.flame.in_minutes()),
        "lost_kj": boils.then(|| row.lost.in_kilojoules()),
        "stops_at_c": row.stops.as_ref().map(|stops| stops.at.in_celsius()),
        "would_boil": row.stops.as_ref().map(|stops| {
            stops.remedies.iter().map(|one| text(&one.says())).collect::<Vec<_>>()
        }),
        "can_hold": row.can_hold,
        "hold_minutes": row.hold.in_minutes(),
        "to_light_g": row.to_light.in_grams(),
        "may_not_boil": row.may_not_boil,
        "steps": steps(&row.steps),
        "loss_steps": steps(&row.loss_steps),
    }));
    if row.fills > 0 {
        whole.insert("fills".to_owned(), json!(row.fills));
    }
    Value::Object(whole)
}

fn fuel(plan: &Plan, kitchen: &KitchenPlan) -> Value {
    let fuel: &FuelPlan = &kitchen.fuel;
    // Where a pot never boils there are no sums.
    let grams = |mass: Mass| kitchen.boils().then(|| mass.in_grams());
    let mut whole = object(json!({
        "kind": id(fuel.kind.word()),
        "heating_value_mj_per_kg": fuel.heating_value.in_megajoules_per_kilogram(),
        "likely_g": grams(fuel.likely),
        "at_confidence_g": grams(fuel.at_confidence),
        "spare_g": grams(fuel.spare),
        "carry_g": grams(fuel.carry),
        "practice_g": fuel.practice.in_grams(),
        "stays_cold": kitchen.stays_cold,
        "decides": fuel.decides.word(),
        "grams_per_person_day": kitchen.boils().then_some(fuel.grams_per_person_day),
        "may_fail": fuel.may_fail.in_one(),
        "usual": usual(&fuel.usual),
        "spread": fuel.spread.iter().map(|one| json!({
            "input": one.input,
            "share": one.share,
        })).collect::<Vec<_>>(),
        "steps": steps(&fuel.steps),
    }));
    let camp = |index: usize| plan.camps.get(index).map(|camp| camp.name.as_str());
    let legs = issues(plan, kitchen).into_iter().map(|one| {
        let sums = fuel.legs.get(one.leg);
        json!({
            "from": camp(one.from),
            "to": camp(one.until.saturating_sub(1)),
            "needed_g": one.needed.in_grams(),
            "practice_g": one.practice.in_grams(),
            "issued_g": one.issued.in_grams(),
            "gross_g": one.gross.in_grams(),
            "likely_g": sums.map_or(fuel.likely, |leg| leg.likely).in_grams(),
            "at_confidence_g": sums.map_or(fuel.at_confidence, |leg| leg.at_confidence).in_grams(),
            "spare_g": sums.map_or(fuel.spare, |leg| leg.spare).in_grams(),
            "carry_g": sums.map_or(fuel.carry, |leg| leg.carry).in_grams(),
            "decides": sums.map_or(fuel.decides, |leg| leg.decides).word(),
        })
    });
    whole.insert("legs".to_owned(), legs.collect());
    Value::Object(whole)
}

fn usual(usual: &Usual) -> Value {
    match usual {
        Usual::NotHeld { why } => json!({"season": null, "why": text(why)}),
        Usual::NotAPlan { season } => {
            json!({"season": text(season), "inside": false, "why": "this stove is no plan for it"})
        }
        Usual::Held {
            season,
            low,
            high,
            inside,
        } => json!({"season": text(season), "low": low, "high": high, "inside": inside}),
    }
}

fn container(one: &ContainerPlan) -> Value {
    json!({
        "tag": one.tag,
        "container": one.container,
        "kind": id(one.kind.word()),
        "size_g": one.size.in_grams(),
        "net_g": one.net.in_grams(),
        "usable_g": one.usable.in_grams(),
        "gross_g": one.gross.in_grams(),
        "tare_g": one.tare.map(|tare| tare.in_grams()),
        "fill_ml": one.fill.map(|fill| fill.in_millilitres()),
        "on_hand": one.on_hand,
        "count": one.count,
        "leg": one.leg,
    })
}

fn cold(plan: &Plan, kitchen: &KitchenPlan, row: &ColdRow) -> Value {
    json!({
        "camp": plan.camps[row.camp].name,
        "meal": row.meal.word(),
        "leg": row.leg,
        "container": in_use(kitchen, row),
        "fuel_temperature_c": row.fuel_temperature.in_celsius(),
        "gauge_start_kpa": row.gauge_start.in_kilopascals(),
        "gauge_low_kpa": row.gauge_low.in_kilopascals(),
        "power_kw": row.power.in_kilowatts(),
        "verdict": row.verdict.word(),
        "usable_fraction": row.usable.in_one(),
    })
}

/// The canister of a row: its tag, or which of the new ones.
fn in_use(kitchen: &KitchenPlan, row: &ColdRow) -> Option<String> {
    let one = &kitchen.containers[row.container?];
    Some(one.tag.clone().unwrap_or_else(|| {
        let grams = crate::units::say::number(one.size.in_grams(), 0);
        format!("new {grams} g, {} of {}", row.number, one.count)
    }))
}

fn stability(one: &StabilityPlan) -> Value {
    json!({
        "tip_angle_full_deg": one.tip_angle_full.in_degrees(),
        "tip_angle_worst_deg": one.tip_angle_worst.in_degrees(),
        "rim_push_n": one.rim_push.in_newtons(),
        "shim_mm": one.shim.in_millimetres(),
        "notes": one.notes.iter().map(text).collect::<Vec<_>>(),
        "steps": steps(&one.steps),
    })
}

/// Of a stove on which a pot never boils there are no masses: null, never zero.
fn comparison(row: &ComparisonRow) -> Value {
    let carried = row.carried;
    json!({
        "stove": row.stove,
        "fuel": row.fuel,
        "allowed": row.allowed.word(),
        "why": row.why.as_ref().map(text),
        "may_not_boil": row.may_not_boil,
        "fuel_g": carried.map(|one| one.fuel.in_grams()),
        "start_mass_g": carried.map(|one| one.start.in_grams()),
        "average_mass_g": carried.map(|one| one.average.in_grams()),
        "minutes_per_litre": carried.map(|one| one.minutes_per_litre.in_minutes()),
        "containers": carried.map(|one| one.containers),
        "rim_push_n": row.rim_push.map(|push| push.in_newtons()),
        "tip_angle_deg": row.tip_angle.map(|angle| angle.in_degrees()),
        "fossil_co2_g": carried.map(|one| one.fossil_co2.in_grams()),
        "energy_mj_per_l": row.energy_per_litre.in_megajoules(),
        "energy_mj_per_kg_with_container": carried
            .map(|one| one.energy_per_kilogram_with_container.in_megajoules()),
        "container_g_per_g": carried.map(|one| one.container_share),
        "price": carried.and_then(|one| one.price),
        "start_mass_g_by_nights": row.by_nights.iter().map(|mass| mass.in_grams()).collect::<Vec<_>>(),
    })
}
