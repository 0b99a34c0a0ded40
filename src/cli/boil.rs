//! `leeside boil`: one pot worked step by step, without a trip file.

use super::Said;
use crate::diag::{Outcome, Problem, nearest};
use crate::nouns::{Blend, FuelKind, Library, id};
use crate::plan::{self, Boil as Question, BoilPot, Boiled, Start, Step};
use crate::units::{Fraction, HeatingValue, Length, Mass, Temperature, Units, Volume, say};
use clap::{ArgGroup, Args};
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

/// Work out the fuel for one pot, step by step
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside boil --water 1L --from 5C --elevation 2400m --fuel white-gas --efficiency 45%\n\
        Example: leeside boil --water 2L --snow -5C --elevation 13000ft --fuel canister --blend \"propane 25, isobutane 75\" --efficiency 50%"
)]
#[command(group(ArgGroup::new("start").required(true).args(["from", "snow"])))]
pub struct Boil {
    /// Water in the pot; with `--snow`, water wanted from snow
    #[arg(long, value_name = "1L", value_parser = super::quantity::<Volume>, allow_hyphen_values = true)]
    pub water: Volume,
    /// Temperature of the water at the start
    #[arg(long, value_name = "5C", value_parser = super::quantity::<Temperature>, allow_hyphen_values = true)]
    pub from: Option<Temperature>,
    /// Temperature of the snow that is melted, in place of `--from`
    #[arg(long, value_name = "-5C", value_parser = super::quantity::<Temperature>, allow_hyphen_values = true)]
    pub snow: Option<Temperature>,
    /// How hot it gets; left out, it boils
    #[arg(long, value_name = "60C", value_parser = super::quantity::<Temperature>, allow_hyphen_values = true)]
    pub to: Option<Temperature>,
    /// Height above the sea; in feet, the steps begin in feet, too
    #[arg(long, value_name = "2400m", value_parser = height, allow_hyphen_values = true)]
    pub elevation: Height,
    /// Fuel, by a name of `leeside list fuels`
    #[arg(long, value_name = "NAME")]
    pub fuel: String,
    /// Make-up of canister gas by mass
    #[arg(long, value_name = "\"propane 25, isobutane 75\"", value_parser = blend)]
    pub blend: Option<Blend>,
    /// Lower heating value, in place of the fuel's usual one
    #[arg(long, value_name = "\"45.7 MJ/kg\"", value_parser = super::quantity::<HeatingValue>, allow_hyphen_values = true)]
    pub heating_value: Option<HeatingValue>,
    /// Share of the fuel's heat that reaches water and pot
    #[arg(long, value_name = "45%", value_parser = super::quantity::<Fraction>, allow_hyphen_values = true)]
    pub efficiency: Fraction,
    /// Mass of the pot with its lid; left out, no pot is counted
    #[arg(long, value_name = "180g", value_parser = super::quantity::<Mass>, allow_hyphen_values = true)]
    pub pot: Option<Mass>,
    /// What the pot is made of: aluminium, titanium or stainless
    #[arg(long, value_name = "NAME", default_value = "aluminium")]
    pub pot_material: String,
    /// Water that leaves as steam
    #[arg(long, value_name = "10g", value_parser = super::quantity::<Mass>, allow_hyphen_values = true)]
    pub evaporated: Option<Mass>,
    /// Say it as JSON on standard output
    #[arg(long)]
    pub json: bool,
    /// A folder of content laid over the built-in one
    #[arg(long, value_name = "DIR")]
    pub content: Option<PathBuf>,
}

/// A height, and whether it was written in feet.
#[derive(Clone, Copy, Debug)]
pub struct Height {
    pub(super) length: Length,
    pub(super) feet: bool,
}

pub(super) fn height(text: &str) -> Result<Height, String> {
    let unit = text.trim().to_lowercase();
    Ok(Height {
        length: super::quantity(text)?,
        feet: ["ft", "feet", "foot"]
            .iter()
            .any(|word| unit.ends_with(word)),
    })
}

pub(super) fn blend(text: &str) -> Result<Blend, String> {
    Blend::read(text).map_err(|misread| format!("{}; {}", misread.message, misread.help))
}

fn wrong(flag: &str, message: String, help: impl Into<String>) -> Problem {
    let mut problem = Problem::error("boil.name", message, help);
    problem.path = Some(flag.to_owned());
    problem
}

/// Runs the command.
///
/// # Errors
/// A name that the library does not hold, and everything that cannot be.
pub fn run(args: &Boil) -> Outcome<Said> {
    let (library, warnings) = super::library(args.content.as_deref())?;
    let question = question(args, &library)?;
    let boiled = plan::boil(&question, &library.figures).map_err(|problems| {
        // On a command line the flag stands in the message: there is no file to point at.
        problems.into_iter().map(with_flag).collect::<Vec<_>>()
    })?;
    Ok(Said {
        result: if args.json {
            to_json(&boiled)
        } else {
            to_text(&question, &boiled)
        },
        warnings,
        ..Said::default()
    })
}

pub(super) fn with_flag(mut problem: Problem) -> Problem {
    if let Some(flag) = problem.path.take() {
        problem.message = format!("{flag}: {}", problem.message);
    }
    problem
}

/// The flags as a question, names looked up.
fn question(args: &Boil, library: &Library) -> Outcome<Question> {
    let mut problems = Vec::new();
    let fuel = plan::fuel_called(library, &args.fuel);
    if fuel.is_none() {
        let known: Vec<&str> = library.fuels.keys().map(String::as_str).collect();
        let near = nearest(&id(&args.fuel), known.iter().copied());
        let help = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("write one of: {}", known.join(", ")),
        };
        problems.push(wrong(
            "--fuel",
            format!("`{}` is no fuel that is known here", args.fuel),
            help,
        ));
    }
    let material = library.materials.get(&id(&args.pot_material)).or_else(|| {
        // The same metal as it is spelt elsewhere.
        let other = match id(&args.pot_material).as_str() {
            "aluminum" => "aluminium",
            "steel" | "stainless-steel" => "stainless",
            _ => return None,
        };
        library.materials.get(other)
    });
    if material.is_none() {
        let known: Vec<&str> = library.materials.keys().map(String::as_str).collect();
        problems.push(wrong(
            "--pot-material",
            format!(
                "`{}` is no pot material that is known here",
                args.pot_material
            ),
            format!("write one of: {}", known.join(", ")),
        ));
    }
    if let Some(blend) = &args.blend {
        if !blend.adds_up() {
            problems.push(wrong(
                "--blend",
                format!(
                    "the shares of the blend add to {} %, not 100 %",
                    say::significant(blend.sum().in_percent(), 4)
                ),
                "write shares by mass, for example `propane 25, isobutane 75`",
            ));
        }
        if fuel.is_some_and(|fuel| fuel.kind != FuelKind::Canister) {
            problems.push(wrong(
                "--blend",
                format!("{} is no mixture of gases", args.fuel),
                "leave `--blend` out, or write `--fuel canister`",
            ));
        }
    }
    let (Some(fuel), Some(material), true) = (fuel, material, problems.is_empty()) else {
        return Err(problems.into_iter().map(with_flag).collect());
    };
    let (heating_value, why) = match (args.heating_value, &args.blend) {
        (Some(stated), _) => (stated, "as stated".to_owned()),
        (None, Some(blend)) => (
            plan::blend_heating_value(library, blend).unwrap_or(fuel.heating_value),
            plan::blend_why(library, blend),
        ),
        (None, None) => (
            fuel.heating_value,
            format!("lower heating value {}", fuel.sources.join(", ")),
        ),
    };
    let start = match (args.from, args.snow) {
        (_, Some(snow)) => Start::Snow(snow),
        (from, None) => Start::Water(from.unwrap_or(Temperature::celsius(0.0))),
    };
    Ok(Question {
        units: if args.elevation.feet {
            Units::Us
        } else {
            Units::Metric
        },
        water: args.water,
        start,
        to: args.to,
        elevation: args.elevation.length,
        fuel: fuel.name.clone(),
        kind: fuel.kind,
        density: fuel.density,
        heating_value,
        heating_value_why: why.trim().to_owned(),
        efficiency: args.efficiency,
        pot: args.pot.map(|mass| BoilPot {
            mass,
            material: material.name.clone(),
            specific_heat: material.specific_heat,
        }),
        evaporated: args.evaporated.unwrap_or(Mass::ZERO),
    })
}

pub(super) fn step_to_json(step: &Step) -> Value {
    json!({
        "say": step.say,
        "formula": step.formula,
        "value": step.number(),
        "unit": step.unit,
        "why": step.why,
    })
}

fn to_json(boiled: &Boiled) -> String {
    let steps: Vec<Value> = boiled.steps.iter().map(step_to_json).collect();
    let heat = &boiled.heat;
    let value = json!({
        "boiling_c": boiled.boiling.in_celsius(),
        "pressure_kpa": boiled.pressure.in_kilopascals(),
        "heat_kj": {
            "water": heat.water.in_kilojoules(),
            "pot": heat.pot.in_kilojoules(),
            "melt": heat.melt.in_kilojoules(),
            "evaporation": heat.evaporation.in_kilojoules(),
            "useful": heat.useful.in_kilojoules(),
        },
        "fuel_g": boiled.fuel.in_grams(),
        "fuel_ml": boiled.fuel_volume.map(Volume::in_millilitres),
        "steps": steps,
    });
    format!("{value:#}\n")
}

/// The answer first, then how it comes about.
fn to_text(question: &Question, boiled: &Boiled) -> String {
    let units = question.units;
    let what = match question.start {
        Start::Water(_) => "water",
        Start::Snow(_) => "water from snow",
    };
    let until = match question.to {
        None => format!("to the boil, {}", temperature(boiled.boiling, units)),
        Some(to) => format!("to {}", temperature(to, units)),
    };
    let poured = boiled.fuel_volume.map_or_else(String::new, |volume| {
        format!(", {} mL", say::significant(volume.in_millilitres(), 3))
    });
    let mut text = format!(
        "{} {what} at {} {until}:\n{} g of {}{poured}\n\n",
        say::volume(question.water, units),
        say::elevation(question.elevation, units),
        say::significant(boiled.fuel.in_grams(), 4),
        question.fuel,
    );
    text.push_str(&lines(&boiled.steps));
    text.push_str(
        "\nWorked from the rounded numbers shown. What reaches the pot depends on stove, wind and \
         lid:\nmeasure yours with `leeside trial`.",
    );
    if question.pot.is_none() {
        text.push_str(" No pot is counted: add `--pot 180g`.");
    }
    text.push('\n');
    text
}

/// A temperature to a tenth of a degree.
fn temperature(at: Temperature, units: Units) -> String {
    match units {
        Units::Us => format!("{} °F", say::number(at.in_fahrenheit(), 1)),
        Units::Metric => format!("{} °C", say::number(at.in_celsius(), 1)),
        Units::Both => format!(
            "{} °C ({} °F)",
            say::number(at.in_celsius(), 1),
            say::number(at.in_fahrenheit(), 1)
        ),
    }
}

/// Steps as aligned lines: words, result, formula, source.
pub(super) fn lines(steps: &[Step]) -> String {
    let width = |of: fn(&Step) -> usize| steps.iter().map(of).max().unwrap_or(0);
    let words = width(|step| step.say.chars().count());
    let values = width(|step| step.value.chars().count());
    let named = width(|step| step.unit.chars().count());
    let mut text = String::new();
    for step in steps {
        let mut line = format!(
            "  {:words$}  {:>values$} {:named$}",
            step.say, step.value, step.unit
        );
        if !step.formula.is_empty() {
            let _ = write!(line, "  = {}", step.formula);
        }
        if !step.why.is_empty() {
            let _ = write!(line, "  [{}]", step.why);
        }
        let _ = writeln!(text, "{}", line.trim_end());
    }
    text
}
