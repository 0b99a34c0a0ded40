//! Sheets for the store room and the desk: what comes back, the test of the
//! gear at home, what to ask before planning, the sources.

use super::common::{CautionGroup, Extent, Head, Pair, Prose};
use super::{Filled, Inputs, fuel};
use crate::compose::catalogue::{self, text};
use crate::compose::cautions::Needed;
use crate::compose::{said, words};
use crate::markdown;
use crate::nouns::{Basis, FuelKind, Library, Module};
use crate::phrase::phrase;
use crate::plan::RulePlan;
use crate::units::say;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeSet;

/// The return sheet.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ReturnSheet {
    /// The head.
    pub head: Head,
    /// A line a container.
    pub containers: Vec<Returned>,
    /// Whether containers are known.
    pub has_containers: bool,
    /// Whether a stove may be lit, so that fuel went out.
    pub flame: bool,
    /// Whether canisters went out.
    pub canisters: bool,
    /// Fuel needed and issued, a line a kitchen and place.
    pub planned: Vec<Pair>,
    /// What must come back beside fuel, a line a kitchen.
    pub kitchens: Vec<String>,
}

/// A container that went out.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Returned {
    /// The kitchen.
    pub kitchen: String,
    /// Its tag or what it is.
    pub tag: String,
    /// Gross when it went out.
    pub gross: String,
    /// Empty, if known.
    pub tare: String,
}

/// The return sheet of a trip.
#[must_use]
pub fn return_sheet(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let mut containers = Vec::new();
    let mut planned = Vec::new();
    for one in inputs.kitchens() {
        let name = &one.kitchen.name;
        if let Some(why) = inputs.handed(one).will_not_boil() {
            planned.push(Pair::new(name.clone(), why));
        }
        for (leg, block) in (1..).zip(inputs.handed(one).blocks()) {
            // A leg's place is said once, below the table: its rows stay one line high.
            let (kitchen, place) = if block.place.is_empty() {
                (name.clone(), name.clone())
            } else {
                let short = format!("{name} {leg}");
                (short.clone(), format!("{short}, {}", block.place))
            };
            planned.push(Pair::new(
                place,
                text(&phrase!(
                    "issued-on-scale",
                    sums = block.sums,
                    gross = block.gross
                )),
            ));
            containers.extend(block.lines.into_iter().map(|line| Returned {
                kitchen: kitchen.clone(),
                tag: line.name,
                gross: line.gross_g,
                tare: line.tare_g,
            }));
        }
    }
    let view = ReturnSheet {
        head: inputs.head(title, None, &BTreeSet::new()),
        flame: inputs.flame(),
        canisters: inputs
            .trip
            .kitchens
            .iter()
            .any(|kitchen| kitchen.fuel.kind == FuelKind::Canister),
        has_containers: !containers.is_empty(),
        containers,
        planned,
        kitchens: inputs
            .kitchens()
            .into_iter()
            .map(|one| one.kitchen.name.clone())
            .collect(),
    };
    Filled::one(&view)
}

/// The test of the gear at home.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShakeDown {
    /// The head.
    pub head: Head,
    /// A part a module.
    pub parts: Vec<ShakePart>,
    /// Cautions of those modules.
    pub cautions: Vec<CautionGroup>,
    /// Stoves with their spare parts.
    pub spares: Vec<Pair>,
    /// Whether there are any.
    pub has_spares: bool,
    /// The stoves to try.
    pub stoves: String,
    /// The efficiency assumed until it is measured, a line a kitchen.
    pub assumed: Vec<Pair>,
    /// Where water boils at home by the height written in: none is printed.
    pub water: String,
}

/// Steps of one module.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShakePart {
    /// Its title.
    pub title: String,
    /// Its steps.
    pub items: Vec<Prose>,
}

/// The modules that bring steps for the test at home.
fn tested<'a>(inputs: &Inputs<'a>) -> Vec<&'a Module> {
    inputs
        .modules
        .iter()
        .copied()
        .filter(|module| !module.shake_down.is_empty())
        .collect()
}

/// The gravest caution of each of them: what is tried at home can burn too.
#[must_use]
pub fn shake_down_needs(inputs: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    tested(inputs)
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Gravest))
        .collect()
}

/// The home test of a trip's gear.
#[must_use]
pub fn shake_down(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    if !inputs.flame() {
        return Vec::new();
    }
    let mut sources = BTreeSet::new();
    let modules = tested(inputs);
    let parts = modules
        .iter()
        .map(|module| {
            let mut items: Vec<_> = module
                .shake_down
                .iter()
                .filter(|item| inputs.holds(&item.applies))
                .collect();
            items.sort_by_key(|item| item.rank);
            ShakePart {
                title: module.title.clone(),
                items: items
                    .into_iter()
                    .map(|item| {
                        inputs.cite(module, &[&item.say], &mut sources);
                        Prose::new(inputs.filler.line(module, &item.say))
                    })
                    .collect(),
            }
        })
        .filter(|part| !part.items.is_empty())
        .collect();
    let mut stoves: Vec<(String, Vec<String>)> = Vec::new();
    for one in inputs.kitchens() {
        let name = one.kitchen.stove.name.clone();
        if !stoves.iter().any(|(known, _)| *known == name) {
            stoves.push((name, one.kitchen.stove.spares.clone()));
        }
    }
    let names: Vec<String> = stoves.iter().map(|(name, _)| name.clone()).collect();
    let spares: Vec<Pair> = stoves
        .iter()
        .filter(|(_, spares)| !spares.is_empty())
        .map(|(name, spares)| Pair::new(words::capital(name), words::list(spares)))
        .collect();
    let view = ShakeDown {
        head: inputs.head(title, None, &sources),
        parts,
        cautions: inputs.caution_groups(&modules, Extent::Gravest),
        has_spares: !spares.is_empty(),
        spares,
        stoves: words::list(&names),
        assumed: inputs
            .kitchens()
            .into_iter()
            .filter(|one| one.kitchen.measured.is_none())
            .map(|one| {
                Pair::new(
                    format!("{}, {}", one.kitchen.name, one.kitchen.stove.name),
                    inputs.of_kitchen(
                        one,
                        "calm-efficiency",
                        text(&phrase!(
                            "efficiency-in-calm-air",
                            percent =
                                say::number(one.kitchen.stove.efficiency.likely.in_percent(), 0)
                        )),
                    ),
                )
            })
            .collect(),
        water: text(&phrase!("shake-down-water")),
    };
    Filled::one(&view)
}

/// What to ask before planning.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Intake {
    /// The head.
    pub head: Head,
    /// What was assumed because nobody said.
    pub assumed: Vec<fuel::Assumption>,
    /// Whether anything was.
    pub has_assumed: bool,
    /// Rules in force, with who checked them.
    pub rules: Vec<RuleLine>,
    /// Whether there are any.
    pub has_rules: bool,
    /// The meals, day by day.
    pub days: Vec<DayLine>,
    /// Whether there are any.
    pub has_days: bool,
    /// Whether the fire restriction is known.
    pub has_stage: bool,
    /// The length unit to write.
    pub length: String,
    /// The temperature unit to write.
    pub degrees: String,
}

/// The meals of a day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct DayLine {
    /// The day, with its date.
    pub day: String,
    /// Where the night is spent.
    pub night: String,
    /// Breakfast.
    pub breakfast: String,
    /// Lunch.
    pub lunch: String,
    /// Supper.
    pub supper: String,
}

/// A rule in force.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct RuleLine {
    /// The camp, or those that share it.
    pub camp: String,
    /// What it is about.
    pub rule: String,
    /// What it says.
    pub value: String,
    /// Where it comes from.
    pub from: String,
    /// Who checked it and when.
    pub checked: String,
    /// Whether it was read too long ago.
    pub stale: bool,
}

impl RuleLine {
    /// Whether it says the same in the same words, whichever camp's rule it is.
    fn reads_as(&self, other: &Self) -> bool {
        let plain = |one: &Self| Self {
            value: markdown::without_marks(&one.value),
            ..one.clone()
        };
        plain(self) == plain(other)
    }
}

/// The intake sheet, with what this trip left open.
#[must_use]
pub fn intake(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let assumed = fuel::assumptions(inputs);
    let rules = rules(inputs);
    let days: Vec<DayLine> = inputs
        .plan
        .days
        .iter()
        .map(|day| {
            let meal = |index: usize| {
                let meal: Option<&crate::plan::DayMeal> = day.meals[index].as_ref();
                let name = ["breakfast", "lunch", "supper"][index];
                let at = format!("day.{}.{name}", day.day);
                let of = |what: &str, words: String| inputs.say(&format!("{at}.{what}"), words);
                meal.map_or_else(
                    || "–".to_owned(),
                    |meal| text(&meal.saying(inputs.units, of)),
                )
            };
            let night = day.sleep.map_or_else(
                || text(&phrase!("night-at-home")),
                |camp| inputs.plan.camps[camp].name.clone(),
            );
            DayLine {
                day: day.date.map_or_else(
                    || day.day.to_string(),
                    |date| format!("{}, {date}", day.day),
                ),
                night,
                breakfast: meal(0),
                lunch: meal(1),
                supper: meal(2),
            }
        })
        .collect();
    let view = Intake {
        has_days: !days.is_empty(),
        days,
        head: inputs.head(title, None, &BTreeSet::new()),
        has_assumed: !assumed.is_empty(),
        assumed,
        has_rules: !rules.is_empty(),
        rules,
        has_stage: inputs.trip.restrictions.stage.is_some()
            || inputs.trip.restrictions.stoves.is_some(),
        length: match inputs.units {
            crate::units::Units::Us => "ft",
            _ => "m",
        }
        .to_owned(),
        degrees: match inputs.units {
            crate::units::Units::Us => "°F",
            _ => "°C",
        }
        .to_owned(),
    };
    Filled::one(&view)
}

/// What a rule says, with from what its place keeps a distance that no rule of its own names.
fn with_note(inputs: &Inputs<'_>, rule: &RulePlan, value: String) -> String {
    let place = inputs.library.places.get(&rule.said.from);
    let note = place
        .filter(|_| rule.rule == "soap.distance")
        .and_then(|place| place.rules.get(&rule.rule))
        .map_or("", |rule| rule.note.as_str());
    if note.is_empty() {
        value
    } else {
        format!("{value}, {note}")
    }
}

/// The rules in force, each with where it comes from and who checked it; a rule
/// that several camps share is one line.
#[must_use]
pub fn rules(inputs: &Inputs<'_>) -> Vec<RuleLine> {
    let lines = inputs.plan.rules.iter().map(|rule| {
        let sources: Vec<String> = rule
            .said
            .sources
            .iter()
            .map(|code| format!("[{code}]"))
            .collect();
        let from = said::rule_from(&rule.said.from, inputs.library);
        let from = if sources.is_empty() {
            from
        } else {
            format!("{from} {}", sources.join(" "))
        };
        RuleLine {
            camp: inputs.plan.camps[rule.camp].name.clone(),
            rule: catalogue::word(&rule.rule.replace('.', ", "), &[]),
            value: with_note(
                inputs,
                rule,
                inputs.of_rule(rule.camp, &rule.rule, inputs.filler.rule_words(&rule.said)),
            ),
            from,
            checked: rule.said.checked.clone().unwrap_or_else(|| {
                text(&match rule.said.as_of {
                    None => phrase!("checked-by-nobody"),
                    Some(date) => phrase!("rule-read-on", date = date.to_string()),
                })
            }),
            stale: rule.stale.is_some(),
        }
    });
    let mut shared: Vec<(Vec<String>, RuleLine)> = Vec::new();
    for mut line in lines {
        let camp = std::mem::take(&mut line.camp);
        match shared.iter_mut().find(|(_, known)| known.reads_as(&line)) {
            Some((camps, _)) => camps.push(camp),
            None => shared.push((vec![camp], line)),
        }
    }
    // stable: what is said of a thing stands together, in the order of the camps
    shared.sort_by(|(_, a), (_, b)| a.rule.cmp(&b.rule));
    shared
        .into_iter()
        .map(|(camps, line)| RuleLine {
            camp: words::camps(&camps, inputs.plan.camps.len()),
            ..line
        })
        .collect()
}

/// The sources sheet.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Sources {
    /// The head.
    pub head: Head,
    /// Each source once.
    pub sources: Vec<SourceLine>,
    /// Figures without a source: common practice and assumptions, by module.
    pub unsourced: Vec<Pair>,
    /// Whether there are any.
    pub has_unsourced: bool,
    /// What the library is called.
    pub library: String,
}

/// A source.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct SourceLine {
    /// Its code.
    pub code: String,
    /// Title, publisher, year.
    pub words: String,
    /// Its address as Markdown.
    pub link: Prose,
    /// Whether it has one.
    pub has_link: bool,
    /// Whether its own text was not seen.
    pub unseen: bool,
    /// The day on which it was looked up.
    pub seen: String,
}

/// The sources of a packet.
#[must_use]
pub fn sources(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let codes = all_codes(inputs);
    let sources = words::by_number(&codes)
        .into_iter()
        .filter_map(|code| inputs.library.sources.get(code))
        .map(|source| {
            let undated = text(&phrase!("source-undated"));
            let parts: Vec<&str> = [
                source.title.as_str(),
                source.publisher.as_str(),
                if source.year.is_empty() {
                    undated.as_str()
                } else {
                    source.year.as_str()
                },
            ]
            .into_iter()
            .map(|part| part.trim_end_matches('.'))
            .filter(|part| !part.is_empty())
            .collect();
            let link = source.url.as_deref().and_then(link);
            SourceLine {
                code: source.id.clone(),
                words: parts.join(". "),
                has_link: link.is_some(),
                link: Prose::new(link.unwrap_or_default()),
                unseen: source.seen.is_none(),
                seen: source.seen.map_or_else(String::new, |day| day.to_string()),
            }
        })
        .collect();
    let unsourced: Vec<Pair> = inputs
        .modules
        .iter()
        .flat_map(|module| {
            module
                .facts
                .iter()
                .filter(|(_, fact)| fact.basis != Basis::Published)
                .map(|(name, fact)| {
                    let said = words::fact(&fact.value, inputs.units);
                    let id = format!("fact.{}.{name}", module.id);
                    Pair::new(
                        format!("{}: {}", fact.say, inputs.say(&id, said)),
                        catalogue::word(fact.basis.word(), &[]),
                    )
                })
        })
        .collect();
    let view = Sources {
        head: inputs.head(title, None, &BTreeSet::new()),
        sources,
        has_unsourced: !unsourced.is_empty(),
        unsourced,
        library: inputs.library.title.clone(),
    };
    Filled::one(&view)
}

/// An address as a link, if it is one that a sheet may carry.
fn link(url: &str) -> Option<String> {
    let secure = url
        .strip_prefix("https://")
        .or_else(|| url.strip_prefix("http://"))?;
    let plain = secure.chars().all(|c| {
        c.is_ascii_graphic() && !matches!(c, '(' | ')' | '<' | '>' | '\\' | '[' | ']' | '`')
    });
    plain.then(|| {
        format!(
            "[{}](https://{secure})",
            crate::markdown::escape(secure.trim_end_matches('/'))
        )
    })
}

/// Every source that a sheet of the packet can cite.
fn all_codes(inputs: &Inputs<'_>) -> BTreeSet<String> {
    let mut codes = BTreeSet::new();
    for module in &inputs.modules {
        for fact in module.facts.values() {
            codes.extend(fact.sources.iter().cloned());
        }
    }
    for camp in &inputs.trip.camps {
        for rule in camp.rules.values() {
            codes.extend(rule.sources.iter().cloned());
        }
    }
    for kitchen in inputs.trip.kitchens.iter().filter(|_| inputs.flame()) {
        codes.extend(kitchen.fuel.sources.iter().cloned());
        codes.extend(kitchen.stove.sources.iter().cloned());
        for pot in &kitchen.pots {
            if let Some(material) = inputs.library.materials.get(&pot.material) {
                codes.extend(material.sources.iter().cloned());
            }
        }
    }
    let camps = inputs.plan.camps.iter().flat_map(|camp| &camp.steps);
    let kitchens = inputs.plan.kitchens.iter().flat_map(|kitchen| {
        kitchen
            .rows
            .iter()
            .flat_map(|row| &row.steps)
            .chain(&kitchen.fuel.steps)
            .chain(kitchen.stability.iter().flat_map(|one| &one.steps))
    });
    let washing = inputs.plan.greywater.iter().flat_map(|one| &one.working);
    for step in camps.chain(kitchens).chain(washing) {
        codes.extend(step.why.sources().cloned());
    }
    codes.extend(figure_codes(inputs.library));
    codes
}

/// The sources of the calculation's figures.
fn figure_codes(library: &Library) -> BTreeSet<String> {
    let figures = &library.figures;
    [
        &figures.water_heat.sources,
        &figures.ice_heat.sources,
        &figures.fusion.sources,
        &figures.evaporation.sources,
        &figures.simmer_factor.sources,
        &figures.open_top.sources,
        &figures.drinking.sources,
        &figures.greywater_distance.sources,
    ]
    .into_iter()
    .flatten()
    .cloned()
    .collect()
}
