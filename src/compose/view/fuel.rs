//! The fuel worksheet and its key: the same lines, blank and filled in.

use super::common::{Head, Pair};
use super::fuel_form::Form;
use super::fuel_lines::{Line, lines, worked_row};
use super::key_charts::KeyCharts;
use super::key_more::KeyMore;
use super::{Filled, Inputs, OneKitchen, containers};
use crate::compose::catalogue::{self, text};
use crate::compose::said;
use crate::compose::say;
use crate::compose::words;
use crate::course::timetable::{Does, What};
use crate::nouns::{Kind, WaterFrom};
use crate::phrase::phrase;
use crate::plan::statements::assumed_id;
use crate::plan::{CampPlan, Role, Row, Step, Usual, step_of};
use crate::units::Units;
use crate::units::say::{elevation, fuel as fuel_words, in_mark, number, significant};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The worksheet of one kitchen, or of several that cook alike.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct FuelSheet {
    /// The head.
    pub head: Head,
    /// Whose fuel is worked: `Kitchen 1: 5 people, white gas stove, white gas`.
    pub whose: String,
    /// Which row is worked line by line: `supper at Lower meadow`.
    pub worked: String,
    /// The camp whose meals are added up.
    pub first_camp: String,
    /// Whom the form is for.
    pub form: Form,
    /// What is given.
    pub givens: Vec<Pair>,
    /// The lines of the worked row.
    pub lines: Vec<Line>,
    /// The rows of the first camp.
    pub rows: Vec<MealRow>,
    /// The rows of the other camps.
    pub more_rows: Vec<MealRow>,
    /// Whether there are other camps.
    pub has_more: bool,
    /// The lines from the sum to what is carried.
    pub fuel_lines: Vec<Line>,
    /// What to carry: `525 g (18.5 oz)`.
    pub carry: String,
    /// The likely need.
    pub likely: String,
    /// The need at the trip's confidence, with the percent: `490 g in nine trips of ten`.
    pub band: String,
    /// What is handed out, a block a leg.
    pub containers: Vec<containers::IssueBlock>,
    /// Whether containers are known.
    pub has_containers: bool,
    /// Grams a person and day.
    pub per_day: String,
    /// Whether a usual range fits.
    pub has_usual: bool,
    /// The usual range: `28 to 45 g (summer, boil only)`.
    pub usual: String,
    /// Whether the need lies inside it.
    pub is_usual: bool,
    /// What to say of the result: usual, unusual, or why it is not held.
    pub verdict: String,
    /// Other kitchens' results, when several cook alike.
    pub others: Vec<Pair>,
    /// Whether there are others.
    pub has_others: bool,
    /// Whether there is a spread.
    pub has_spread: bool,
    /// Which input causes how much of the spread.
    pub spread: Vec<Pair>,
    /// Why nothing is added up; empty where everything boils.
    pub stops: String,
    /// What is handed out beside it to practise with; empty where nothing is.
    pub practice: String,
    /// What was assumed.
    pub assumed: Vec<Assumption>,
    /// Whether anything was assumed.
    pub has_assumed: bool,
    /// Whether the efficiency was measured by the user.
    pub measured: bool,
    /// How sure the efficiency is.
    pub efficiency_note: String,
    /// The other rows, line by line.
    pub workings: Vec<Working>,
    /// Whether there are any.
    pub has_workings: bool,
    /// What the numbers themselves warn of.
    pub warnings: Vec<super::common::CautionView>,
    /// The charts of the key.
    pub charts: KeyCharts,
    /// What if, and advice.
    pub more: KeyMore,
}

/// One use of the stove.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct MealRow {
    /// The camp.
    pub camp: String,
    /// What for.
    pub meal: String,
    /// Water for one time.
    pub water: String,
    /// Fuel for one time, grams.
    pub fuel: String,
    /// How often.
    pub times: String,
    /// Fuel in all, grams.
    pub total: String,
    /// Minutes for one time.
    pub minutes: String,
    /// Whether it is the row that the lines work out.
    pub worked: bool,
}

/// A row's lines.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Working {
    /// Which row.
    pub title: String,
    /// Its lines.
    pub lines: Vec<Line>,
}

/// A default that was used.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Assumption {
    /// What.
    pub what: String,
    /// The value.
    pub value: String,
    /// Why that one.
    pub why: String,
}

/// What was assumed because nobody said. What to write in the file stands in the reasons between
/// backticks, as on a terminal; on paper it stands between quotation marks.
pub(super) fn assumptions(inputs: &Inputs<'_>) -> Vec<Assumption> {
    inputs
        .plan
        .assumed_lines()
        .into_iter()
        .map(|(path, one)| {
            let id = assumed_id(&path);
            Assumption {
                what: one.what,
                value: inputs.say(&id, one.value),
                why: inputs.say(&format!("{id}.why"), one.why.replace('`', "\"")),
            }
        })
        .collect()
}

/// Whether there is a meal to work out, or the clock gives minutes to a worksheet.
#[must_use]
pub fn works(inputs: &Inputs<'_>) -> bool {
    let on_the_clock = inputs.course.iter().any(|course| {
        let rows = course.sessions.iter().flat_map(|table| &table.rows);
        let mut places = rows.flat_map(|row| &row.places);
        let mut entries = course.sessions.iter().flat_map(|table| &table.entries);
        entries.any(|entry| entry.what == What::Worksheet)
            || places.any(|place| place.does == Does::Worksheet)
    });
    let meals = inputs
        .kitchens()
        .iter()
        .any(|one| worked_row(*one).is_some());
    inputs.flame() && (inputs.trip.kind != Kind::Lesson || meals || on_the_clock)
}

/// The worksheets of a trip or lesson; none of a lesson that cooks nothing.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    if !works(inputs) {
        return Vec::new();
    }
    let groups = inputs.groups().into_iter();
    groups
        .map(|(name, kitchens)| {
            let mut view = sheet(inputs, title, name.as_deref(), &kitchens);
            let mut figures = BTreeMap::new();
            view.charts = KeyCharts::of(inputs, kitchens[0], &mut figures);
            view.more = KeyMore::of(inputs, kitchens[0]);
            let mut filled = Filled::of(name, &view, figures);
            // the losses take a side of their own
            filled.most_pages = view.form.has_losses.then_some(2);
            filled
        })
        .collect()
}

fn sheet(
    inputs: &Inputs<'_>,
    title: &str,
    name: Option<&str>,
    kitchens: &[OneKitchen<'_>],
) -> FuelSheet {
    let first = kitchens[0];
    let fuel = &first.plan.fuel;
    let units = inputs.units;
    let row = worked_row(first);
    let mut sources = BTreeSet::new();
    let rows = first.plan.rows.iter().flat_map(|row| &row.steps);
    rows.chain(&fuel.steps)
        .chain(inputs.plan.camps.iter().flat_map(|camp| &camp.steps))
        .for_each(|step| sources.extend(step.why.sources().cloned()));
    let (mut lines, fuel_lines, workings) = numbered(inputs, first);
    let form = Form::of(inputs, first, &mut lines);
    let containers = inputs.handed(first).blocks();
    let usual = usual_words(&fuel.usual);
    let others: Vec<Pair> = kitchens
        .iter()
        .skip(1)
        .map(|one| {
            Pair::new(
                format!(
                    "{} ({})",
                    one.kitchen.name,
                    words::people(one.kitchen.people)
                ),
                inputs.of_kitchen(*one, "needed", fuel_words(one.plan.fuel.carry, units)),
            )
        })
        .collect();
    let spread: Vec<Pair> = fuel
        .spread
        .iter()
        .filter(|share| share.share >= 0.005)
        .map(|share| {
            Pair::new(
                said::doubt(share.input),
                inputs.of_kitchen(
                    first,
                    &format!("spread.{}", share.input),
                    format!("{}%", number(share.share * 100.0, 0)),
                ),
            )
        })
        .collect();
    let of = |what: &str, mass| inputs.of_kitchen(first, what, fuel_words(mass, units));
    let assumed = assumptions(inputs);
    let measured = first.kitchen.measured.is_some();
    FuelSheet {
        head: inputs.head(title, name, &sources),
        whose: format!(
            "{}: {}, {}",
            first.kitchen.name,
            words::people(first.kitchen.people),
            stove_and_fuel(first)
        ),
        worked: row.map_or_else(
            || text(&phrase!("fuel-no-meal")),
            |row| row_name(inputs, row),
        ),
        first_camp: row.map_or_else(
            || text(&phrase!("fuel-the-camp")),
            |row| inputs.camp_name(&inputs.plan.camps[row.camp]),
        ),
        givens: row.map_or_else(Vec::new, |row| givens(inputs, first, row)),
        form,
        lines,
        rows: meal_rows(inputs, first, true),
        has_more: inputs.plan.camps.len() > 1,
        more_rows: meal_rows(inputs, first, false),
        fuel_lines,
        carry: of("needed", fuel.carry),
        likely: of("likely", fuel.likely),
        band: text(&phrase!(
            "fuel-covers",
            fuel = of("at-confidence", fuel.at_confidence),
            trips = inputs.say(
                "trip.confidence",
                confidence(inputs.plan.confidence.in_percent())
            )
        )),
        has_containers: !containers.is_empty(),
        containers,
        per_day: inputs.of_kitchen(first, "person-day", number(fuel.grams_per_person_day, 0)),
        has_usual: matches!(fuel.usual, Usual::Held { .. }),
        usual: if matches!(fuel.usual, Usual::Held { .. }) {
            inputs.of_kitchen(first, "usual", usual.0)
        } else {
            usual.0
        },
        is_usual: usual.2,
        verdict: usual.1,
        has_others: !others.is_empty(),
        others,
        has_spread: !spread.is_empty(),
        spread,
        has_assumed: !assumed.is_empty(),
        assumed,
        measured,
        efficiency_note: text(&if measured {
            phrase!("fuel-efficiency-measured")
        } else {
            phrase!("fuel-efficiency-assumed")
        }),
        stops: inputs.handed(first).will_not_boil().unwrap_or_default(),
        has_workings: !workings.is_empty(),
        workings,
        warnings: inputs.plan_warnings(),
        practice: inputs.handed(first).practice(),
        charts: KeyCharts::default(),
        more: KeyMore::default(),
    }
}

/// The rows of the first camp that is cooked at, or those of the others.
fn meal_rows(inputs: &Inputs<'_>, one: OneKitchen<'_>, of_first: bool) -> Vec<MealRow> {
    let rows = &one.plan.rows;
    let first = rows.first().map(|row| row.camp);
    let worked = worked_row(one);
    let of = |row: &Row, what: &str, words: String| inputs.of_row(one, row, what, words);
    rows.iter()
        .filter(|row| (Some(row.camp) == first) == of_first)
        .map(|row| MealRow {
            camp: inputs.camp_name(&inputs.plan.camps[row.camp]),
            meal: catalogue::word(row.meal.word(), &[]),
            water: of(
                row,
                "water",
                format!("{} L", significant(row.water.in_litres(), 3)),
            ),
            fuel: of(row, "fuel", significant(row.fuel.in_grams(), 4)),
            times: of(row, "times", row.times.to_string()),
            total: of(
                row,
                "fuel-in-all",
                significant(row.fuel.in_grams() * f64::from(row.times), 4),
            ),
            minutes: of(row, "minutes", number(row.minutes.in_minutes(), 0)),
            worked: Some(row) == worked,
        })
        .collect()
}

/// How many trips in a hundred.
#[must_use]
pub fn confidence(percent: f64) -> String {
    text(&phrase!("fuel-trips-covered", percent = number(percent, 0)))
}

/// `white gas stove`, `canister on top, burning canister gas`.
#[must_use]
pub fn stove_and_fuel(one: OneKitchen<'_>) -> String {
    let stove = &one.kitchen.stove.name;
    let fuel = &one.kitchen.fuel.name;
    if stove.contains(fuel.as_str()) {
        stove.clone()
    } else {
        text(&phrase!("stove-burning", stove = stove, fuel = fuel))
    }
}

/// `supper at Lower meadow`.
#[must_use]
pub fn row_name(inputs: &Inputs<'_>, row: &Row) -> String {
    let camp = inputs.camp_name(&inputs.plan.camps[row.camp]);
    text(&phrase!("meal-at", meal = row.meal, camp = camp))
}

/// What the worked row starts from.
fn givens(inputs: &Inputs<'_>, one: OneKitchen<'_>, row: &Row) -> Vec<Pair> {
    let camp = &inputs.plan.camps[row.camp];
    let pots: Vec<String> = one.kitchen.pots.iter().map(words::pot).collect();
    let water = if camp.water_from == WaterFrom::Snow {
        phrase!("given-snow")
    } else {
        phrase!("given-water")
    };
    let of_camp = |what: &str, words: String| inputs.of_camp(row.camp, what, words);
    let of_row = |what: &str, words: String| inputs.of_row(one, row, what, words);
    // What the lines work with, and no other rounding of it.
    let printed = |camp: &CampPlan, role, at| {
        let step = step_of(&camp.steps, role).map(|step| step.value.clone());
        say::exact(step, at, inputs.units)
    };
    let heat = one.plan.fuel.heating_value.in_megajoules_per_kilogram();
    let heat = significant(heat, 4);
    let mut givens = vec![
        Pair::new(
            text(&phrase!("given-height")),
            of_camp("elevation", elevation(camp.elevation, inputs.units)),
        ),
        Pair::new(
            text(&phrase!("given-boils")),
            of_camp("boils", printed(camp, Role::Boils, camp.boiling)),
        ),
        Pair::new(
            text(&water),
            of_camp("water", printed(camp, Role::Water, camp.water)),
        ),
        Pair::new(
            text(&phrase!("given-wind")),
            catalogue::word(camp.wind.word(), &[]),
        ),
        Pair::new(text(&phrase!("given-pots")), words::list(&pots)),
        Pair::new(
            text(&phrase!("given-still-share")),
            of_row("still-share", significant(row.still_share.in_one(), 4)),
        ),
        Pair::new(
            text(&phrase!("given-left-in-wind")),
            of_row("flame-factor", significant(row.flame_factor, 4)),
        ),
        Pair::new(
            text(&phrase!("given-heat")),
            inputs.of_kitchen(
                one,
                "heating-value",
                text(&phrase!("given-heat-a-gram", kilojoules = heat)),
            ),
        ),
    ];
    if row.to_light.in_grams() > 0.0 {
        let grams = number(row.to_light.in_grams(), 0);
        givens.push(Pair::new(
            text(&phrase!("given-to-light")),
            of_row(
                "light",
                text(&phrase!("given-each-lighting", grams = grams)),
            ),
        ));
    }
    givens
}

/// The lines of the worked row, of the sum, and of everything else.
///
/// The worksheet works one meal from its water to its grams; air, boiling point
/// and minutes are worked on the key's further pages.
fn numbered(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> (Vec<Line>, Vec<Line>, Vec<Working>) {
    let Some(row) = worked_row(one) else {
        return (Vec::new(), lines(&one.plan.fuel.steps, &[]), Vec::new());
    };
    let (grams, minutes) = row.steps.split_at(to_grams(row));
    let mut workings = Vec::new();
    let mut add = |title: String, steps: &[Step]| {
        if !steps.is_empty() {
            workings.push(Working {
                title,
                lines: lines(steps, &[]),
            });
        }
    };
    for camp in &inputs.plan.camps {
        add(text(&phrase!("working-air", camp = camp.name)), &camp.steps);
    }
    let lost = |row: &Row| text(&phrase!("working-lost", meal = row_name(inputs, row)));
    add(lost(row), &row.loss_steps);
    let name = row_name(inputs, row);
    add(text(&phrase!("working-minutes", meal = name)), minutes);
    for other in one.plan.rows.iter().filter(|other| *other != row) {
        add(words::capital(&row_name(inputs, other)), &other.steps);
        add(lost(other), &other.loss_steps);
    }
    let mut fuel = lines(&one.plan.fuel.steps, grams);
    let mut hidden = BTreeSet::new();
    for (line, step) in fuel.iter_mut().zip(&one.plan.fuel.steps) {
        let products = line.formula.matches(" x ").count();
        // A trip with fuel handed out on the way has a sum for each leg: the key's.
        line.shown = step.leg.is_none();
        if !line.shown {
            hidden.insert(&step.id);
        }
        let on_hidden = step.formula.inputs().any(|input| hidden.contains(input));
        if (products > 2 && step.role != Role::AtCamp(row.camp)) || on_hidden {
            line.asked = false;
        } else if step.role == Role::Carry {
            let step = fuel_words(inputs.library.figures.round_up.value, Units::Metric);
            let step = inputs.say("figure.round-up", step);
            line.blank = text(&phrase!("blank-to-a-full", step = step));
        } else if words::width(&line.blank) > LONGEST_FORMULA {
            line.blank = text(&if step.role == Role::Sum {
                phrase!("blank-add-camps")
            } else {
                phrase!("blank-add-totals")
            });
        }
    }
    let mut worked = lines(grams, &[]);
    // What stands in the box of givens is not said again in the table.
    let boxed = [row.still_share.in_one(), row.flame_factor].map(|one| significant(one, 4));
    for (line, step) in worked.iter_mut().zip(grams) {
        line.shown = line.worked || !boxed.contains(&in_mark(&step.value));
    }
    (worked, fuel, workings)
}

/// Characters of a formula that stand on one line of the form.
const LONGEST_FORMULA: usize = 44;

/// How many of a row's steps lead to its grams; what follows are its minutes.
fn to_grams(row: &Row) -> usize {
    row.steps
        .iter()
        .rposition(|step| step.unit == "g")
        .map_or(row.steps.len(), |last| last + 1)
}

/// The usual range, what to say, and whether the need lies inside.
#[must_use]
pub fn usual_words(usual: &Usual) -> (String, String, bool) {
    let (range, verdict, inside) = match usual {
        Usual::NotHeld { why } => (
            phrase!("usual-none-fits"),
            phrase!("usual-not-held", why = why),
            false,
        ),
        Usual::NotAPlan { season } => (
            phrase!("usual-no-plan"),
            phrase!("usual-choose-another", season = season),
            false,
        ),
        Usual::Held {
            season,
            low,
            high,
            inside,
        } => (
            phrase!(
                "usual-range",
                low = number(*low, 0),
                high = number(*high, 0),
                season = season
            ),
            if *inside {
                phrase!("usual-inside")
            } else {
                phrase!("usual-check")
            },
            *inside,
        ),
    };
    (text(&range), text(&verdict), inside)
}
