//! The plan as people read it on a terminal: aligned tables in their units.

use super::cautions::caution;
use crate::compose::catalogue;
use crate::compose::said;
use crate::nouns::{Kind, Library, Meal, Signal, Trip};
use crate::plan::{CautionPlan, ComparisonRow, DayMeal, KitchenPlan, Plan, Step, Usual};
use crate::units::{Pressure, Units, say};
use std::fmt::Write as _;

/// Longest line of running text.
const WIDTH: usize = 96;

/// A table whose columns are as wide as their widest cell; numbers stand to the right.
struct Table {
    head: Vec<&'static str>,
    rows: Vec<Vec<String>>,
    /// How many columns from the left are words.
    words: usize,
}

impl Table {
    fn new(words: usize, head: &[&'static str]) -> Self {
        Self {
            head: head.to_vec(),
            rows: Vec::new(),
            words,
        }
    }

    fn row(&mut self, cells: Vec<String>) {
        self.rows
            .push(cells.iter().map(|cell| one_line(cell)).collect());
    }

    fn write(&self, out: &mut String) {
        let width = |text: &str| text.chars().count();
        let widths: Vec<usize> = (0..self.head.len())
            .map(|column| {
                let cells = self.rows.iter().map(|row| width(&row[column]));
                cells.chain([width(self.head[column])]).max().unwrap_or(0)
            })
            .collect();
        let mut line = |cells: &[&str]| {
            let mut text = String::from(" ");
            for (column, cell) in cells.iter().enumerate() {
                let gap = " ".repeat(widths[column] - width(cell));
                text.push(' ');
                if column < self.words {
                    text.push_str(cell);
                    text.push_str(&gap);
                } else {
                    text.push_str(&gap);
                    text.push_str(cell);
                }
                text.push(' ');
            }
            out.push_str(text.trim_end());
            out.push('\n');
        };
        line(&self.head);
        for row in &self.rows {
            let cells: Vec<&str> = row.iter().map(String::as_str).collect();
            line(&cells);
        }
    }
}

/// Names are plain text: no line breaks or terminal codes of their own.
fn one_line(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

/// Running text, wrapped, with a mark before its first line.
pub(crate) fn wrapped(out: &mut String, mark: &str, text: &str) {
    let indent = " ".repeat(mark.chars().count());
    let mut line = mark.to_owned();
    let mut empty = true;
    for word in one_line(text).split_whitespace() {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            line.clone_from(&indent);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}

/// Printed lines: words, formula, result; a code or assumption behind it.
fn steps(out: &mut String, steps: &[Step]) {
    for step in steps {
        let mut text = format!("{}: ", catalogue::text(&step.say));
        if !step.formula.is_empty() {
            let _ = write!(text, "{} = ", step.formula);
        }
        text.push_str(&step.value);
        if !step.unit.is_empty() {
            let _ = write!(text, " {}", step.unit);
        }
        if !step.why.is_none() {
            let _ = write!(text, "  [{}]", catalogue::text(&step.why));
        }
        wrapped(out, "    ", &text);
    }
}

/// The plan as text; with `working`, every printed step of the arithmetic too.
#[must_use]
pub fn table(plan: &Plan, trip: &Trip, library: &Library, working: bool) -> String {
    let units = trip.units;
    let mut out = String::new();
    head(plan, &mut out);
    camps(plan, units, working, &mut out);
    days(plan, units, &mut out);
    for one in &plan.kitchens {
        kitchen(plan, one, units, working, &mut out);
    }
    comparison(plan, units, &mut out);
    greywater(plan, units, working, &mut out);
    rules(plan, units, &mut out);
    if !plan.assumed.is_empty() {
        out.push_str("\nAssumed, because the trip does not say\n");
        for one in plan.assumed_in_words() {
            let text = format!("{}: {} ({})", one.what, one.value, one.why);
            wrapped(&mut out, "  - ", &text);
        }
    }
    if !plan.cautions.is_empty() {
        out.push_str("\nCautions\n");
        // What the numbers raise, and what kills; the rest would push the numbers off the screen.
        let shown =
            |one: &&CautionPlan| working || one.signal == Signal::Danger || one.module == "plan";
        for one in plan.cautions.iter().filter(shown) {
            let mark = format!("  {} ", one.signal.word().to_uppercase());
            wrapped(&mut out, &mark, &caution(trip, library, one));
        }
        let more = plan.cautions.len() - plan.cautions.iter().filter(shown).count();
        if more > 0 {
            let text = format!(
                "{more} more of the subjects stand on the papers; `leeside plan --steps` shows \
                 them too."
            );
            wrapped(&mut out, "  ", &text);
        }
    }
    out
}

fn head(plan: &Plan, out: &mut String) {
    let nights = match (plan.kind, plan.nights) {
        (Kind::Lesson, _) => "a lesson".to_owned(),
        (_, 1) => "1 night".to_owned(),
        (_, nights) => format!("{nights} nights"),
    };
    let title = one_line(&plan.title);
    let _ = writeln!(out, "{title}\n{} people, {nights}", plan.people);
}

fn camps(plan: &Plan, units: Units, working: bool, out: &mut String) {
    out.push_str("\nCamps\n");
    let mut table = Table::new(
        1,
        &[
            "camp", "nights", "height", "air kPa", "boils at", "day", "night", "water", "from",
            "wind",
        ],
    );
    for camp in &plan.camps {
        table.row(vec![
            camp.name.clone(),
            camp.nights.to_string(),
            say::elevation(camp.elevation, units),
            say::significant(camp.pressure.in_kilopascals(), 4),
            say::temperature(camp.boiling, units),
            say::temperature(camp.day, units),
            say::temperature(camp.night, units),
            say::temperature(camp.water, units),
            camp.water_from.to_string(),
            camp.wind.to_string(),
        ]);
    }
    table.write(out);
    if working {
        for camp in &plan.camps {
            let _ = writeln!(out, "  {}", one_line(&camp.name));
            steps(out, &camp.steps);
        }
    }
}

fn kitchen(plan: &Plan, kitchen: &KitchenPlan, units: Units, working: bool, out: &mut String) {
    let _ = writeln!(
        out,
        "\n{}: {} people, {}, {}",
        kitchen.name, kitchen.people, kitchen.stove_name, kitchen.fuel_name
    );
    if working {
        steps(out, &kitchen.steps);
    }
    let mut table = Table::new(
        2,
        &[
            "camp",
            "use",
            "times",
            "water",
            "batches",
            "heat kJ",
            "melt kJ",
            "efficiency",
            "fuel g",
            "minutes",
        ],
    );
    for row in &kitchen.rows {
        table.row(vec![
            plan.camps[row.camp].name.clone(),
            named(row.meal).to_owned(),
            row.times.to_string(),
            say::volume(row.water, units),
            row.batches.len().to_string(),
            say::number(row.heat.useful.in_kilojoules(), 0),
            say::number(row.heat.melt.in_kilojoules(), 0),
            format!("{}%", say::number(row.efficiency.in_percent(), 0)),
            say::number(row.fuel.in_grams(), 1),
            say::number(row.minutes.in_minutes(), 0),
        ]);
    }
    if kitchen.rows.is_empty() {
        out.push_str("  nothing is lit\n");
    } else {
        table.write(out);
    }
    if working {
        for row in &kitchen.rows {
            let _ = writeln!(
                out,
                "  {} at {}",
                named(row.meal),
                one_line(&plan.camps[row.camp].name)
            );
            steps(out, &row.steps);
            steps(out, &row.loss_steps);
        }
    }
    fuel(plan, kitchen, units, working, out);
    containers(kitchen, units, out);
    cold(plan, kitchen, units, out);
    if let Some(stability) = &kitchen.stability {
        let text = format!(
            "Tips at a push of {} N at the rim of the pot; at a tilt of {}° full, {}° at worst.",
            say::number(stability.rim_push.in_newtons(), 1),
            say::number(stability.tip_angle_full.in_degrees(), 0),
            say::number(stability.tip_angle_worst.in_degrees(), 0),
        );
        wrapped(out, "  ", &text);
        if working {
            steps(out, &stability.steps);
        }
    }
}

/// A row's use in words.
fn named(meal: Meal) -> &'static str {
    match meal {
        Meal::Snow => "melt to drink",
        Meal::Treatment => "boil to drink",
        other => other.word(),
    }
}

fn fuel(plan: &Plan, kitchen: &KitchenPlan, units: Units, working: bool, out: &mut String) {
    let fuel = &kitchen.fuel;
    if !kitchen.boils() {
        out.push_str(
            "  Fuel: none is counted: a pot never boils on this stove (see the cautions)\n",
        );
        return;
    }
    let percent = say::significant(plan.confidence.in_percent(), 3);
    let _ = writeln!(
        out,
        "  Fuel: likely {}; {percent} of 100 such trips need at most {}; take {}",
        say::fuel(fuel.likely, units),
        say::fuel(fuel.at_confidence, units),
        say::fuel(fuel.carry, units),
    );
    for (number, leg) in fuel.legs.iter().enumerate() {
        let from = plan
            .camps
            .get(leg.from)
            .map_or("", |camp| camp.name.as_str());
        let _ = writeln!(
            out,
            "    leg {} from {from}: likely {}, take {}",
            number + 1,
            say::fuel(leg.likely, units),
            say::fuel(leg.carry, units)
        );
    }
    let usual = match &fuel.usual {
        Usual::Held {
            season,
            low,
            high,
            inside,
        } => {
            let verdict = if *inside {
                "usual"
            } else {
                "unusual: check water and wind"
            };
            let season = catalogue::text(season);
            format!("{verdict} ({season}: {low:.0} to {high:.0} g)")
        }
        Usual::NotAPlan { season } => {
            format!("this stove is no plan for {}", catalogue::text(season))
        }
        Usual::NotHeld { why } => {
            format!("not held against a usual range: {}", catalogue::text(why))
        }
    };
    let _ = writeln!(
        out,
        "  {} g a person and day, {usual}",
        say::number(fuel.grams_per_person_day, 0)
    );
    if !fuel.spread.is_empty() {
        let shares: Vec<String> = fuel
            .spread
            .iter()
            .filter(|one| one.share >= 0.005)
            .map(|one| format!("{} {:.0}%", said::doubt(one.input), one.share * 100.0))
            .collect();
        let _ = writeln!(out, "  What the doubt comes from: {}", shares.join(", "));
    }
    if working {
        steps(out, &fuel.steps);
    }
}

fn containers(kitchen: &KitchenPlan, units: Units, out: &mut String) {
    if kitchen.containers.is_empty() {
        return;
    }
    let mut head = vec!["take", "tag", "count", "fuel g", "on the scale"];
    let legs = !kitchen.fuel.legs.is_empty();
    if legs {
        head.push("leg");
    }
    let mut table = Table::new(2, &head);
    for one in &kitchen.containers {
        let name = match one.fill {
            Some(fill) => format!("{}, filled with {}", one.name, say::volume(fill, units)),
            None => one.name.clone(),
        };
        let mut cells = vec![
            name,
            one.tag.clone().unwrap_or_else(|| "new".to_owned()),
            one.count.to_string(),
            say::number(one.net.in_grams(), 0),
            say::load(one.gross, units),
        ];
        if legs {
            cells.push((one.leg + 1).to_string());
        }
        table.row(cells);
    }
    table.write(out);
}

fn cold(plan: &Plan, kitchen: &KitchenPlan, units: Units, out: &mut String) {
    if kitchen.cold.is_empty() {
        return;
    }
    let mut table = Table::new(
        2,
        &[
            "canister at",
            "meal",
            "fuel gets",
            "kPa at start",
            "kPa at least",
            "kW",
            "can be drawn",
            "verdict",
        ],
    );
    for row in &kitchen.cold {
        table.row(vec![
            plan.camps[row.camp].name.clone(),
            row.meal.to_string(),
            say::temperature(row.fuel_temperature, units),
            say::number(row.gauge_start.in_kilopascals(), 0),
            if row.gauge_low < Pressure::ZERO {
                "none".to_owned()
            } else {
                say::number(row.gauge_low.in_kilopascals(), 0)
            },
            say::number(row.power.in_kilowatts(), 2),
            format!("{}%", say::number(row.usable.in_percent(), 0)),
            row.verdict.to_string(),
        ]);
    }
    table.write(out);
}

/// A meal: cold, or the water of each person's share and how long it simmers.
fn meal_words(meal: &DayMeal, units: Units) -> String {
    catalogue::text(&meal.saying(units, |_, words| words))
}

/// The meals, day by day; days that are alike are one line.
fn days(plan: &Plan, units: Units, out: &mut String) {
    if plan.days.is_empty() {
        return;
    }
    out.push_str("\nMeals\n");
    let mut table = Table::new(5, &["day", "night at", "breakfast", "lunch", "supper"]);
    let mut lines: Vec<(u32, u32, Vec<String>)> = Vec::new();
    for day in &plan.days {
        let night = day
            .sleep
            .map_or("-", |camp| plan.camps[camp].name.as_str())
            .to_owned();
        let meals = day.meals.iter().map(|meal| {
            meal.as_ref()
                .map_or_else(|| "-".to_owned(), |meal| meal_words(meal, units))
        });
        let cells: Vec<String> = [night].into_iter().chain(meals).collect();
        match lines.last_mut() {
            Some((_, to, known)) if *known == cells => *to = day.day,
            _ => lines.push((day.day, day.day, cells)),
        }
    }
    for (from, to, cells) in lines {
        let day = if from == to {
            from.to_string()
        } else {
            format!("{from} to {to}")
        };
        table.row([day].into_iter().chain(cells).collect());
    }
    table.write(out);
}

fn comparison(plan: &Plan, units: Units, out: &mut String) {
    if plan.comparison.is_empty() {
        return;
    }
    out.push_str("\nAll stoves on this trip\n");
    let price = |row: &ComparisonRow| row.carried.and_then(|one| one.price);
    let priced = plan.comparison.iter().any(|row| price(row).is_some());
    let mut heads = vec![
        "stove",
        "allowed",
        "fuel g",
        "start",
        "average",
        "min a litre",
        "containers",
        "fossil CO2 g",
    ];
    heads.extend(priced.then_some("price"));
    let mut table = Table::new(2, &heads);
    for row in &plan.comparison {
        let mut cells = vec![row.stove_name.clone(), row.allowed.word().to_owned()];
        // of a stove on which a pot never boils part of the fuel would be read as all of it
        let Some(carried) = &row.carried else {
            cells.resize(heads.len(), "-".to_owned());
            table.row(cells);
            continue;
        };
        cells.extend([
            say::number(carried.fuel.in_grams(), 0),
            say::load(carried.start, units),
            say::load(carried.average, units),
            say::number(carried.minutes_per_litre.in_minutes(), 0),
            carried.containers.to_string(),
            say::number(carried.fossil_co2.in_grams(), 0),
        ]);
        if priced {
            let price = carried.price;
            cells.push(price.map_or_else(|| "?".to_owned(), |price| say::number(price, 2)));
        }
        table.row(cells);
    }
    table.write(out);
    for row in &plan.comparison {
        if let Some(why) = &row.why {
            wrapped(
                out,
                "  - ",
                &format!("{}: {}", row.stove_name, catalogue::text(why)),
            );
        }
    }
}

fn greywater(plan: &Plan, units: Units, working: bool, out: &mut String) {
    if plan.greywater.is_empty() {
        return;
    }
    out.push_str("\nWash water to get rid of\n");
    let mut table = Table::new(1, &["camp", "a day", "distance", "your steps", "rule from"]);
    for one in &plan.greywater {
        table.row(vec![
            plan.camps[one.camp].name.clone(),
            say::volume(one.per_day, units),
            say::distance(one.distance, units),
            one.steps.to_string(),
            one.from.clone(),
        ]);
    }
    table.write(out);
    for one in &plan.greywater {
        let text = format!(
            "{}: {}",
            plan.camps[one.camp].name,
            catalogue::text(&one.method)
        );
        wrapped(out, "  - ", &text);
        if working {
            steps(out, &one.working);
        }
    }
}

fn rules(plan: &Plan, units: Units, out: &mut String) {
    // What is the same at several camps is said once.
    let mut said: Vec<(String, Vec<&str>)> = Vec::new();
    for one in &plan.rules {
        let mut text = format!(
            "{}: {} (from {}",
            one.rule.replace('.', " "),
            said::rule(&one.said.value, units),
            one.said.from,
        );
        if let Some(checked) = &one.said.checked {
            let _ = write!(text, ", checked {checked}");
        }
        if let Some(days) = one.stale {
            let _ = write!(text, ", read {days} days before: ask again");
        }
        text.push(')');
        let camp = plan.camps[one.camp].name.as_str();
        match said.iter_mut().find(|(known, _)| *known == text) {
            Some((_, camps)) => camps.push(camp),
            None => said.push((text, vec![camp])),
        }
    }
    if said.is_empty() {
        return;
    }
    out.push_str("\nRules in force\n");
    for (text, camps) in said {
        let text = if camps.len() == plan.camps.len() {
            text
        } else {
            format!("{}, {text}", camps.join(", "))
        };
        wrapped(out, "  - ", &text);
    }
}
