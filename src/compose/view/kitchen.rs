//! The kitchen card: what to do at each moment, the fuel that should be left,
//! what changes the numbers, and what to do when it goes wrong.

use super::common::{CautionGroup, Extent, Head, Pair, Prose, for_looking_up};
use super::{Filled, Inputs, OneKitchen, containers, fuel, handout, wash};
use crate::compose::advice::long;
use crate::compose::catalogue::text;
use crate::compose::cautions::Needed;
use crate::compose::{charts, words};
use crate::nouns::{AppliesWhen, Item, Kind, Meal, Module, Moment, Signal, StoveRule};
use crate::phrase::{Phrase, phrase};
use crate::plan::statements::change_id;
use crate::plan::{self, Change, NightLeft, Row, Stops};
use crate::units::{Mass, Time, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// At most so many items a moment: more are not read with cold hands.
pub const MOST_ITEMS: usize = 7;

/// Items that keep only the meal or the place get in while a moment has fewer.
const MOST_LESSER: usize = 4;

/// Characters of an item that its place on the card holds.
const LONGEST_ITEM: usize = 140;

/// The moments of the card, in the order of the day, with their headings.
const MOMENTS: [(Moment, Phrase); 6] = [
    (Moment::SetUp, phrase!("card-set-up")),
    (Moment::Light, phrase!("card-light")),
    (Moment::Cook, phrase!("card-cook")),
    (Moment::CleanUp, phrase!("card-clean-up")),
    (Moment::Night, phrase!("card-night")),
    (Moment::Leave, phrase!("card-leave")),
];

/// The card of one kitchen, or of several that cook alike.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct KitchenCard {
    /// The head.
    pub head: Head,
    /// The stove and its fuel, or that none may be lit.
    pub stove: String,
    /// Where or when no stove is cleared.
    pub not_cleared: Vec<String>,
    /// Whether a stove may be lit.
    pub flame: bool,
    /// Whether one is lit here.
    pub lights: bool,
    /// What to do, by moment.
    pub moments: Vec<MomentView>,
    /// What to do when it goes wrong.
    pub trouble: Vec<Prose>,
    /// Whether there is anything.
    pub has_trouble: bool,
    /// The emergency number.
    pub call: String,
    /// Whether one was given.
    pub has_call: bool,
    /// The nearest help.
    pub help: String,
    /// Whether it was given.
    pub has_help: bool,
    /// Cautions, gathered under their signal words.
    pub cautions: Vec<CautionGroup>,
    /// The heads of the fuel table.
    pub columns: Vec<String>,
    /// A line a night, or two nights a line on a long trip.
    pub nights: Vec<NightRow>,
    /// Whether there are nights.
    pub has_nights: bool,
    /// The call for the gauge of fuel, or none.
    pub gauge: Vec<Prose>,
    /// Fuel at the start, one line a kitchen.
    pub start: Vec<Pair>,
    /// Whether its flame can be turned down.
    pub turns_down: bool,
    /// How to tell without a scale.
    pub without_scale: String,
    /// What changes the fuel, and by how much.
    pub changes: Vec<Pair>,
    /// Whether that was worked out.
    pub has_changes: bool,
    /// Where wash water goes, a line a camp.
    pub greywater: Vec<wash::WashLine>,
    /// Whether there is any.
    pub has_greywater: bool,
    /// How long snow is melted a day to drink, a line a camp.
    pub melting: Vec<Pair>,
    /// Where water boils, a line a camp.
    pub boils: Vec<Pair>,
    /// How long a rolling boil makes water safe; empty where it is made safe otherwise.
    pub safe_boil: String,
    /// The push at the rim that tips it.
    pub push: String,
    /// Whether that is known.
    pub has_push: bool,
    /// The tip angle, printed after the push.
    pub tip: String,
    /// Adults a lit stove, when someone is young.
    pub adults: String,
}

/// A moment of the day.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct MomentView {
    /// Its heading.
    pub title: String,
    /// What to do.
    pub items: Vec<Prose>,
}

/// A line of the fuel table.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct NightRow {
    /// Its cells: `1, Lower meadow`, `410 (385 to 435)`, and one to write in.
    pub cells: Vec<NightCell>,
}

/// A cell of the fuel table.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct NightCell {
    /// What it says.
    pub text: String,
    /// Whether it is there to write in.
    pub write_in: bool,
}

/// The cards of a trip or lesson; none where nothing is lit in a yard or hall: nobody cooks there.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    if inputs.trip.kind == Kind::Lesson && !inputs.lights() {
        return Vec::new();
    }
    inputs
        .groups()
        .into_iter()
        .map(|(name, kitchens)| {
            let mut view = card(inputs, title, name.as_deref(), &kitchens);
            let mut figures = BTreeMap::new();
            if has_gauge(&view, &kitchens) {
                let gauge = charts::gauge(inputs, kitchens[0], true);
                view.gauge.extend(gauge.map(|one| one.call(&mut figures)));
            }
            Filled::of(name, &view, figures)
        })
        .collect()
}

/// Whether the card has room for a gauge of its fuel: a table of few nights, one kitchen's.
fn has_gauge(view: &KitchenCard, kitchens: &[OneKitchen<'_>]) -> bool {
    view.lights && view.nights.len() < LONG_TRIP && unlike(kitchens).len() == 1
}

/// The gravest caution of each hazard that the card warns of.
#[must_use]
pub fn needs(inputs: &Inputs<'_>, kitchen: Option<&str>) -> Vec<Needed> {
    inputs.of_sheet(kitchen).map_or_else(Vec::new, |one| {
        cautioned(inputs, one)
            .iter()
            .filter_map(|module| {
                let caution = inputs.gravest_for(module, one)?;
                Some(inputs.must_show(module, caution, Extent::Gravest))
            })
            .collect()
    })
}

/// The modules whose gravest caution stands on the card: what can kill, and what
/// the card tells what to do about when it goes wrong. The other hazards stand
/// among the items of the moments, killers first.
fn cautioned<'a>(inputs: &Inputs<'a>, one: OneKitchen<'_>) -> Vec<&'a Module> {
    inputs
        .modules_for(one)
        .into_iter()
        .filter(|module| {
            let gravest = inputs.gravest_for(module, one);
            // a lesser item has no room where seven graver ones tell what to do
            let trouble = module.items.iter().any(|item| {
                let told = item.moment == Moment::Trouble && item.rank == 1;
                told && on_card(inputs, one, module, item)
            });
            trouble || gravest.is_some_and(|one| one.signal == Signal::Danger)
        })
        .collect()
}

fn card(
    inputs: &Inputs<'_>,
    title: &str,
    name: Option<&str>,
    kitchens: &[OneKitchen<'_>],
) -> KitchenCard {
    let first = kitchens[0];
    let mut sources = BTreeSet::new();
    let moments = MOMENTS
        .iter()
        .filter(|(moment, _)| inputs.flame() || *moment != Moment::Light)
        .map(|(moment, heading)| MomentView {
            title: text(heading),
            items: items(inputs, &[first], *moment, &mut sources),
        })
        .filter(|moment| !moment.items.is_empty())
        .collect();
    let trouble = items(inputs, &[first], Moment::Trouble, &mut sources);
    let modules = cautioned(inputs, first);
    let cautions = inputs.card_cautions(&modules, first);
    let unlike = unlike(kitchens);
    let lights = !inputs.trip.lights_nothing();
    let (columns, nights) = if lights {
        night_table(inputs, &unlike)
    } else {
        Default::default()
    };
    let changes = change_lines(inputs, &unlike);
    let greywater = wash::lines(inputs);
    let stability = first.plan.stability.as_ref();
    let emergency = &inputs.trip.emergency;
    KitchenCard {
        head: inputs.head(title, name, &sources),
        not_cleared: plan::fire_rule_lacks(inputs.trip)
            .iter()
            .map(|(_, one)| text(one))
            .collect(),
        flame: inputs.flame(),
        lights,
        stove: if inputs.flame() {
            fuel::stove_and_fuel(first)
        } else {
            words::stove_rule(StoveRule::No)
        },
        moments,
        has_trouble: !trouble.is_empty(),
        trouble,
        has_call: emergency.call.is_some(),
        call: emergency
            .call
            .clone()
            .unwrap_or_else(|| text(&phrase!("not-given"))),
        has_help: emergency.nearest_help.is_some(),
        help: emergency
            .nearest_help
            .clone()
            .unwrap_or_else(|| text(&phrase!("not-given"))),
        cautions,
        columns,
        has_nights: !nights.is_empty(),
        gauge: Vec::new(),
        nights,
        start: unlike
            .iter()
            .filter(|_| lights)
            .map(|(name, one)| {
                let legs = inputs.handed(*one).starts_with();
                Pair::new(name.clone(), legs.join("; "))
            })
            .filter(|one| !one.value.is_empty())
            .collect(),
        turns_down: first.kitchen.stove.turns_down(),
        without_scale: containers::without_scale(first.plan.fuel.kind),
        has_changes: lights && !changes.is_empty(),
        changes,
        has_greywater: !greywater.is_empty(),
        greywater,
        boils: if lights { boils(inputs) } else { Vec::new() },
        safe_boil: if lights {
            handout::safe_boil(inputs)
        } else {
            String::new()
        },
        melting: melting(inputs, first),
        has_push: stability.is_some(),
        push: stability.map_or_else(String::new, |one| {
            inputs.of_kitchen(first, "push", words::push_words(one.rim_push))
        }),
        tip: stability.map_or_else(String::new, |one| {
            let degrees = say::number(one.tip_angle_worst.in_degrees(), 0);
            inputs.of_kitchen(first, "tilt", format!("{degrees}°"))
        }),
        adults: text(&phrase!(
            "card-adults",
            adults = libm::ceil(inputs.trip.people.adults_per_lit_stove)
        )),
    }
}

/// How long snow is melted a day to drink, camp by camp.
fn melting(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<Pair> {
    let melted = plan::melting(inputs.plan, one.plan).into_iter();
    melted
        .map(|melt| {
            let camp = &inputs.plan.camps[melt.camp];
            let at = format!("advice.melt.{}.time", camp.slug);
            Pair::new(
                camp.name.clone(),
                inputs.of_kitchen(one, &at, long(melt.time)),
            )
        })
        .collect()
}

/// Where water boils, camp by camp, or from where to where on a long trip.
fn boils(inputs: &Inputs<'_>) -> Vec<Pair> {
    let camps = &inputs.plan.camps;
    let raw = |camp: &crate::plan::CampPlan| say::temperature(camp.boiling, inputs.units);
    let said =
        |camp: &crate::plan::CampPlan| inputs.say(&format!("camp.{}.boils", camp.slug), raw(camp));
    let by_height = |a: &&crate::plan::CampPlan, b: &&crate::plan::CampPlan| {
        a.boiling.in_celsius().total_cmp(&b.boiling.in_celsius())
    };
    if let [first, others @ ..] = &camps[..]
        && others.len() > 1
        && others.iter().all(|camp| raw(camp) == raw(first))
    {
        return vec![Pair::new(text(&phrase!("every-camp")), said(first))];
    }
    if camps.len() <= 3 {
        return camps
            .iter()
            .map(|camp| Pair::new(camp.name.clone(), said(camp)))
            .collect();
    }
    [
        camps.iter().min_by(by_height),
        camps.iter().max_by(by_height),
    ]
    .into_iter()
    .flatten()
    .map(|camp| Pair::new(camp.name.clone(), said(camp)))
    .collect()
}

/// Whether two kitchens burn the same for the same meals.
fn alike(a: &OneKitchen<'_>, b: &OneKitchen<'_>) -> bool {
    fn burnt(row: &Row) -> (usize, Meal, u32, Mass, Time, &Option<Stops>) {
        (
            row.camp,
            row.meal,
            row.times,
            row.fuel,
            row.minutes,
            &row.stops,
        )
    }
    a.plan
        .rows
        .iter()
        .map(burnt)
        .eq(b.plan.rows.iter().map(burnt))
}

/// The kitchens that differ in fuel, each named with those that are like it.
fn unlike<'a>(kitchens: &[OneKitchen<'a>]) -> Vec<(String, OneKitchen<'a>)> {
    let mut found: Vec<(Vec<&str>, OneKitchen<'a>)> = Vec::new();
    for one in kitchens {
        let same = found.iter_mut().find(|(_, other)| {
            other.plan.fuel.carry == one.plan.fuel.carry
                && other.plan.containers == one.plan.containers
                && alike(other, one)
        });
        match same {
            Some((names, _)) => names.push(&one.kitchen.name),
            None => found.push((vec![&one.kitchen.name], *one)),
        }
    }
    found
        .into_iter()
        .map(|(names, one)| (names.join(", "), one))
        .collect()
}

/// The most important items of a moment for a kitchen, killers first.
fn items(
    inputs: &Inputs<'_>,
    kitchens: &[OneKitchen<'_>],
    moment: Moment,
    sources: &mut BTreeSet<String>,
) -> Vec<Prose> {
    let mut found: Vec<(u32, &Module, &Item)> = Vec::new();
    for module in inputs.modules_for(kitchens[0]) {
        for item in &module.items {
            if item.moment == moment && on_card(inputs, kitchens[0], module, item) {
                found.push((item.rank, module, item));
            }
        }
    }
    // Stable: inside a rank the modules' own order stays.
    found.sort_by_key(|(rank, _, _)| *rank);
    let mut said = BTreeSet::new();
    let mut chosen = Vec::new();
    for (rank, module, item) in found {
        let words = inputs.filler.item_for(module, &item.say, &item.applies);
        let words = brief(&item.say, words);
        let most = if rank == 1 { MOST_ITEMS } else { MOST_LESSER };
        if chosen.len() < most && said.insert(words.clone()) {
            inputs.cite(module, &[&item.say], sources);
            chosen.push(Prose::new(words));
        }
    }
    chosen
}

/// Whether an item may stand on the card of a kitchen: what a module for looking up says of lesser
/// weight has no room there.
fn on_card(inputs: &Inputs<'_>, one: OneKitchen<'_>, module: &Module, item: &Item) -> bool {
    let grave = item.rank == 1 || !for_looking_up(module);
    grave && inputs.holds_for(&item.applies, one)
}

/// An item in two or three lines: where rules differ from camp to camp, what
/// stands before its colon; the rules themselves are on the other side. What `written` says behind
/// its colon without a value is no rule, and stays however long it is.
fn brief(written: &str, words: String) -> String {
    let rules = written
        .split_once(':')
        .is_some_and(|(_, behind)| behind.contains('{'));
    match words.split_once(':') {
        Some((before, _)) if rules && super::super::words::width(&words) > LONGEST_ITEM => {
            text(&phrase!("card-other-side", item = before))
        }
        _ => words,
    }
}

impl<'a> Inputs<'a> {
    /// Whether conditions hold for one kitchen: its own stove and fuel, the trip's rest.
    #[must_use]
    pub fn holds_for(&self, applies: &AppliesWhen, one: OneKitchen<'_>) -> bool {
        applies.holds_for(self.trip, one.kitchen)
    }

    /// The modules that hold for one kitchen.
    #[must_use]
    pub fn modules_for(&self, one: OneKitchen<'_>) -> Vec<&'a Module> {
        self.modules
            .iter()
            .copied()
            .filter(|module| self.holds_for(&module.applies, one))
            .collect()
    }
}

/// Nights from which on two of them share a line.
const LONG_TRIP: usize = 5;

/// What should be left after each night: heads and lines of the table.
fn night_table(
    inputs: &Inputs<'_>,
    kitchens: &[(String, OneKitchen<'_>)],
) -> (Vec<String>, Vec<NightRow>) {
    let by_kitchen: Vec<_> = kitchens
        .iter()
        .map(|(_, one)| crate::plan::fuel_so_far(inputs.plan, one.index))
        .collect();
    let said = |words: String| NightCell {
        text: words,
        write_in: false,
    };
    let nights = by_kitchen.first().map_or(0, Vec::len);
    let paired = kitchens.len() == 1 && nights >= LONG_TRIP;
    let mut heads = vec![text(&match paired {
        true => phrase!("card-head-night"),
        false => phrase!("card-head-after-night"),
    })];
    heads.extend(kitchens.iter().map(|(name, _)| {
        text(&if paired {
            phrase!("card-head-left-and-scale")
        } else if kitchens.len() == 1 {
            phrase!("card-head-left")
        } else {
            phrase!("card-head-left-of", kitchen = name)
        })
    }));
    heads.push(text(&phrase!("card-head-we-have")));
    let mut rows: Vec<NightRow> =
        (0..nights)
            .map(|index| {
                let night = &by_kitchen[0][index];
                let camp = &inputs.plan.camps[night.camp].name;
                let mut cells = vec![said(if paired {
                    night.night.to_string()
                } else {
                    format!("{}, {camp}", night.night)
                })];
                cells.extend(by_kitchen.iter().zip(kitchens).map(|(nights, (_, one))| {
                    said(left_words(inputs, *one, &nights[index], paired))
                }));
                cells.push(NightCell {
                    text: String::new(),
                    write_in: true,
                });
                NightRow { cells }
            })
            .collect();
    if paired {
        heads.extend(heads.clone());
        let width = rows[0].cells.len();
        let half = nights.div_ceil(2);
        let second = rows.split_off(half);
        for (row, more) in rows.iter_mut().zip(&second) {
            row.cells.extend(more.cells.iter().cloned());
        }
        for row in rows.iter_mut().skip(second.len()) {
            row.cells
                .extend((0..width).map(|_| said("\u{2013}".to_owned())));
        }
    }
    (heads, rows)
}

/// Grams left with their band, and what the scale shows; `short` where the
/// head of the column says which number is which.
fn left_words(inputs: &Inputs<'_>, one: OneKitchen<'_>, left: &NightLeft, short: bool) -> String {
    let grams = |what: &str, mass: crate::units::Mass| {
        let at = format!("night-{}.{what}", left.night);
        inputs.of_kitchen(one, &at, say::number(mass.in_grams(), 0))
    };
    let now = grams("left", left.left);
    let (low, high) = (grams("left-low", left.low), grams("left-high", left.high));
    let scale = left.scale.map(|mass| grams("scale", mass));
    match (short, scale) {
        (true, None) => format!("{now} ({low}\u{2013}{high})"),
        (true, Some(scale)) => format!("{now} ({low}\u{2013}{high}); {scale}"),
        (false, None) => text(&phrase!("card-left", left = now, low = low, high = high)),
        (false, Some(scale)) => text(&phrase!(
            "card-left-on-scale",
            left = now,
            low = low,
            high = high,
            scale = scale
        )),
    }
}

/// How the fuel changes with the trip, one line a change, a figure a kitchen.
fn change_lines(inputs: &Inputs<'_>, kitchens: &[(String, OneKitchen<'_>)]) -> Vec<Pair> {
    // a kitchen whose pot does not boil as it is, or that is never lit, has no sum that could change
    let kitchens: Vec<_> = kitchens
        .iter()
        .filter(|(_, one)| one.plan.boils() && !one.plan.stays_cold)
        .collect();
    let told = plan::changes_on_the_way(inputs.trip, inputs.plan);
    inputs
        .changes
        .iter()
        .filter(|change| told.contains(&change.kind))
        // what comes to nothing for these kitchens is not spoken of
        .filter(|change| {
            kitchens.iter().any(|(_, one)| {
                let more = change.more(inputs.plan, one.index);
                change.kitchens.get(one.index).is_some_and(|changed| {
                    more.is_none_or(|more| more.in_grams().abs() >= 0.5) || changed.may_not_boil
                })
            })
        })
        .map(|change| {
            let figures: Vec<String> = kitchens
                .iter()
                .map(|(name, one)| {
                    let figure = changed(inputs, one, change);
                    if kitchens.len() == 1 {
                        figure
                    } else {
                        format!("{name} {figure}")
                    }
                })
                .collect();
            Pair::new(
                words::capital(&inputs.change(&change.kind)),
                figures.join("; "),
            )
        })
        .collect()
}

/// What a change comes to for a kitchen: grams more or less, or that its pot will not boil.
fn changed(inputs: &Inputs<'_>, one: &OneKitchen<'_>, change: &Change) -> String {
    let Some(more) = change.more(inputs.plan, one.index) else {
        return text(&phrase!("change-will-not-boil"));
    };
    let grams = more.in_grams();
    let sign = if grams < 0.0 { "\u{2212}" } else { "+" };
    let figure = if grams.abs() < 0.5 {
        text(&phrase!("change-no-more"))
    } else {
        let id = change_id(&one.plan.slug, &change.kind);
        inputs.say(&id, format!("{sign}{} g", say::number(grams.abs(), 0)))
    };
    if change.kitchens[one.index].may_not_boil {
        text(&phrase!("change-may-not-boil", fuel = figure))
    } else {
        figure
    }
}
