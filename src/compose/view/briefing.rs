//! The briefing: one side that the leader reads out and two people sign.

use super::common::{CautionGroup, Extent, Head, Pair, Prose, most_wind, signal_word};
use super::lesson_taught::taught;
use super::{Filled, Inputs, handout, wash};
use crate::compose::catalogue::{self, text};
use crate::compose::{front, words};
use crate::markdown;
use crate::nouns::{Arrival, Caution, Kind, Module};
use crate::phrase::phrase;
use crate::plan::fire_rule_lacks;
use crate::plan::statements::caution_id;
use crate::units::say;
use schemars::JsonSchema;
use serde::Serialize;

/// Cautions read out: more are not heard.
const READ_OUT: usize = 5;

/// Characters of a rule that one side has room for.
const LONGEST_RULE: usize = 160;

/// The briefing.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Briefing {
    /// The head.
    pub head: Head,
    /// The emergency number.
    pub call: String,
    /// Whether it is known.
    pub has_call: bool,
    /// Nearest help.
    pub help: String,
    /// Whether it is known.
    pub has_help: bool,
    /// Further phones, a line each.
    pub phones: Vec<String>,
    /// Whether there are any.
    pub has_phones: bool,
    /// Camps: height, night's low, water.
    pub camps: Vec<CampLine>,
    /// Fuel a kitchen: containers and grams.
    pub fuel: Vec<Pair>,
    /// The stage and which stoves may be lit.
    pub stage: String,
    /// Whether the manager's words are known.
    pub has_stage: bool,
    /// Whether it is known which stoves may be lit.
    pub has_rule: bool,
    /// Where or when nothing is cleared all the same.
    pub not_cleared: Vec<String>,
    /// Who checked it and when.
    pub checked: String,
    /// Whether that is known.
    pub has_checked: bool,
    /// The gravest cautions, gathered.
    pub cautions: Vec<CautionGroup>,
    /// Whether a stove may be lit.
    pub flame: bool,
    /// The last day that the fire rule holds.
    pub until: String,
    /// Whether that is known.
    pub has_until: bool,
    /// Where wash water goes, a line for camps that do it alike.
    pub wash: Vec<wash::WashLine>,
    /// How far camp and kitchen keep from water.
    pub camp_distance: String,
    /// Whether a rule says so.
    pub has_camp_distance: bool,
    /// Whether the tide decides where the kitchen stands.
    pub tide: bool,
    /// How water is made safe.
    pub treatment: String,
    /// Whether a kitchen has a card.
    pub card: bool,
    /// The wind above which nothing is lit in the open.
    pub most_wind: String,
    /// Where food is kept.
    pub food: String,
    /// Whether a rule says so.
    pub has_food: bool,
    /// Whether nobody may bring fuel.
    pub by_air: bool,
    /// Lines to sign besides the leader's.
    pub sign_off: Vec<String>,
    /// Whether a guardian signs.
    pub guardian: bool,
}

/// A camp in one line.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CampLine {
    /// Its name.
    pub name: String,
    /// Nights.
    pub nights: String,
    /// Height.
    pub height: String,
    /// The night's low.
    pub low: String,
    /// Where water comes from.
    pub water: String,
}

/// The briefing of a trip.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let trip = inputs.trip;
    let units = inputs.units;
    let emergency = &trip.emergency;
    let phones = trip
        .organisation
        .as_ref()
        .map(|profile| profile.phones.clone())
        .unwrap_or_default();
    let sign_off = trip
        .organisation
        .as_ref()
        .map(|profile| profile.sign_off.clone())
        .filter(|lines| !lines.is_empty())
        .unwrap_or_else(|| vec![text(&phrase!("briefing-leader"))]);
    // One side holds one rule; where camps differ the leader reads each on the day.
    let food = inputs.filler.rule("food.storage");
    let food_differs = words::width(&food) > LONGEST_RULE;
    let food = if food_differs {
        text(&phrase!("briefing-food-differs"))
    } else {
        food
    };
    let camp_distance = inputs.filler.rule("camp.distance");
    let restrictions = &trip.restrictions;
    let (cautions, sources) = gravest(inputs);
    let view = Briefing {
        head: inputs.head(title, None, &sources),
        has_call: emergency.call.is_some(),
        call: emergency.call.clone().unwrap_or_default(),
        has_help: emergency.nearest_help.is_some(),
        help: emergency.nearest_help.clone().unwrap_or_default(),
        has_phones: !phones.is_empty(),
        phones,
        camps: camps(inputs),
        fuel: inputs
            .kitchens()
            .into_iter()
            .flat_map(|one| {
                let name = format!("{} ({})", one.kitchen.name, one.kitchen.fuel.name);
                inputs
                    .handed(one)
                    .in_words()
                    .into_iter()
                    .map(move |(place, fuel)| {
                        let at = if place.is_empty() { "" } else { ", " };
                        Pair::new(format!("{name}{at}{place}"), fuel)
                    })
            })
            .collect(),
        flame: inputs.lights(),
        card: inputs.trip.kind != Kind::Lesson || inputs.lights(),
        has_stage: restrictions.stage.is_some(),
        has_rule: restrictions.stoves.is_some(),
        stage: front::allowed(trip),
        not_cleared: fire_rule_lacks(trip)
            .iter()
            .map(|(_, one)| text(one))
            .collect(),
        has_until: restrictions.until.is_some(),
        until: restrictions
            .until
            .map_or_else(String::new, |date| date.to_string()),
        wash: wash::lines(inputs),
        has_camp_distance: !camp_distance.is_empty(),
        camp_distance,
        tide: tide(inputs),
        has_checked: restrictions.checked.is_some(),
        checked: restrictions.checked.clone().unwrap_or_default(),
        cautions,
        treatment: words::capital(&handout::treated(inputs)),
        most_wind: inputs.say("figure.most-wind", most_wind(units)),
        has_food: !food.is_empty(),
        food,
        by_air: trip.arrival == Some(Arrival::Air),
        sign_off,
        guardian: trip.people.youngest.is_none_or(|age| age < 18),
    };
    Filled::one(&view)
}

/// Whether the tide decides where the kitchen stands: where the caution about it holds.
fn tide(inputs: &Inputs<'_>) -> bool {
    let module = inputs.library.modules.get("kitchen-place");
    let caution = module.and_then(|module| module.cautions.iter().find(|one| one.id == "tide"));
    caution.is_some_and(|caution| inputs.holds(&caution.applies))
}

fn camps(inputs: &Inputs<'_>) -> Vec<CampLine> {
    let units = inputs.units;
    inputs
        .plan
        .camps
        .iter()
        .enumerate()
        .map(|(index, camp)| CampLine {
            name: camp.name.clone(),
            nights: inputs.of_camp(index, "nights", camp.nights.to_string()),
            height: inputs.of_camp(index, "elevation", say::elevation(camp.elevation, units)),
            low: inputs.of_camp(index, "night", say::temperature(camp.night, units)),
            water: catalogue::word(camp.water_from.word(), &[]),
        })
        .collect()
}

/// The few cautions that are read out, gravest first, hazards of life before rules.
fn gravest(inputs: &Inputs<'_>) -> (Vec<CautionGroup>, std::collections::BTreeSet<String>) {
    let mut sources = std::collections::BTreeSet::new();
    let mut groups: Vec<CautionGroup> = Vec::new();
    let mut add = |signal: &str, words: String| match groups.iter_mut().find(|g| g.signal == signal)
    {
        Some(group) => group.lines.push(Prose::new(words)),
        None => groups.push(CautionGroup {
            signal: signal.to_owned(),
            lines: vec![Prose::new(words)],
        }),
    };
    // a lesson that lights nothing is told of what it does, and of no kitchen
    let taught = match &inputs.course {
        Ok(course) if !inputs.lights() && inputs.trip.kind == Kind::Lesson => {
            let (asked, beside) = taught(course);
            Some([asked, beside].concat())
        }
        _ => None,
    };
    let modules = taught.as_ref().unwrap_or(&inputs.modules);
    let mut found: Vec<(&Module, &Caution)> = modules
        .iter()
        .flat_map(|module| inputs.held(module).map(move |caution| (*module, caution)))
        .collect();
    found.sort_by_key(|(_, caution)| caution.signal);
    // the line of the fire rule says these in bold
    let with_the_rule: Vec<_> = fire_rule_lacks(inputs.trip)
        .into_iter()
        .map(|(id, _)| id)
        .collect();
    let raised: Vec<_> = inputs
        .plan
        .cautions
        .iter()
        .filter(|caution| caution.module == "plan" && !caution.for_the_office())
        .filter(|caution| !with_the_rule.contains(&caution.id.as_str()))
        .take(2)
        .collect();
    for (module, caution) in found.iter().take(READ_OUT - raised.len()) {
        inputs.cite(module, &[&caution.hazard, &caution.avoid], &mut sources);
        add(
            signal_word(caution.signal),
            inputs.caution_words(module, caution, Extent::Short),
        );
    }
    for caution in raised {
        add(
            signal_word(caution.signal),
            inputs.say(
                &caution_id(caution),
                markdown::escape(&in_short(&inputs.caution_text(caution))),
            ),
        );
    }
    groups.sort_by_key(|group| {
        ["DANGER", "WARNING", "CAUTION", "NOTICE"]
            .iter()
            .position(|word| *word == group.signal)
    });
    (groups, sources)
}

/// What the numbers warn of, cut to its first part where it is long.
fn in_short(words: &str) -> String {
    match words.split_once(';') {
        Some((first, _)) if words::width(words) > LONGEST_RULE => {
            text(&phrase!("briefing-see-handout", first = first))
        }
        _ => words.to_owned(),
    }
}
