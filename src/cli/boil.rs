//! `leeside boil`: one pot worked step by step, without a trip file.

use super::{Laid, Said};
use crate::compose::catalogue::text;
use crate::diag::{Outcome, Problem, Told, nearest, told};
use crate::nouns::{Blend, FuelKind, Library, Screen, Wind, id};
use crate::phrase::phrase;
use crate::plan::{self, Boil as Question, BoilOn, BoilPot, Boiled, Start, Step};
use crate::units::{
    Energy, Fraction, HeatingValue, Length, Mass, Power, Temperature, Time, Units, Volume, say,
};
use clap::{ArgGroup, Args};
use serde_json::{Value, json};
use std::fmt::Write as _;

/// Work out the fuel for one pot, step by step
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside boil --water 1L --from 5C --elevation 2400m --fuel white-gas --efficiency 45%\n\
        Example: leeside boil --water 2L --snow -5C --elevation 13000ft --fuel canister --blend \"propane 25, isobutane 75\" --efficiency 50%\n\
        Example: leeside boil --water 1L --from 5C --elevation 500m --fuel canister --stove canister-on-top --wind breezy --pot-size 1.5L"
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
    #[arg(long, value_name = "45%", value_parser = super::quantity::<Fraction>, allow_hyphen_values = true, required_unless_present = "stove")]
    pub efficiency: Option<Fraction>,
    /// Stove family, by a name of `leeside list gear`: the pot then loses heat on the way, and
    /// `--efficiency` is that of a litre in still air (left out: the family's)
    #[arg(long, value_name = "NAME")]
    pub stove: Option<String>,
    /// Wind at the stove: calm, breezy or windy
    #[arg(
        long,
        value_name = "WIND",
        default_value = "breezy",
        requires = "stove"
    )]
    pub wind: String,
    /// What keeps the wind off: none, natural, partial, full or built-in; left out, the stove's own
    #[arg(long, value_name = "KIND", requires = "stove")]
    pub windscreen: Option<String>,
    /// Whether the lid is on: yes or no
    #[arg(long, value_name = "YES", default_value = "yes", requires = "stove")]
    pub lid: String,
    /// Air around the pot; left out, as warm as the water (or snow)
    #[arg(long, value_name = "5C", value_parser = super::quantity::<Temperature>, allow_hyphen_values = true, requires = "stove")]
    pub air: Option<Temperature>,
    /// What the pot holds; left out, just large enough
    #[arg(long, value_name = "1.5L", value_parser = super::quantity::<Volume>, allow_hyphen_values = true, requires = "stove")]
    pub pot_size: Option<Volume>,
    /// Power of the flame; left out, the stove's
    #[arg(long, value_name = "2500W", value_parser = super::quantity::<Power>, allow_hyphen_values = true, requires = "stove")]
    pub power: Option<Power>,
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
    /// Own content
    #[command(flatten)]
    pub content: Laid,
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

fn wrong(flag: &str, message: Told, help: impl Into<Told>) -> Problem {
    let mut problem = Problem::error("boil.name", message, help);
    problem.path = Some(flag.to_owned());
    problem
}

/// Runs the command.
///
/// # Errors
/// A name that the library does not hold, and everything that cannot be.
pub fn run(args: &Boil) -> Outcome<Said> {
    let (library, mut warnings) = super::library(&args.content.folders)?;
    let question = question(args, &library)?;
    if let Some(fuel) = plan::fuel_called(&library, &args.fuel) {
        warnings.extend(unlike(args, &question, fuel.heating_value));
    }
    let boiled = plan::boil(&question, &library.figures).map_err(|problems| {
        // On a command line the flag stands in the message: there is no file to point at.
        problems.into_iter().map(with_flag).collect::<Vec<_>>()
    })?;
    Ok(Said {
        result: if args.json {
            to_json(&boiled, question.on.is_some())
        } else {
            to_text(&question, &boiled)
        },
        warnings,
        ..Said::default()
    })
}

pub(super) fn with_flag(mut problem: Problem) -> Problem {
    if let Some(flag) = problem.path.take() {
        problem.message = told!("{flag}: {message}", flag, message = problem.message);
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
            Some(near) => told!("did you mean `{near}`?", near),
            None => told!("write one of: {known}", known = known.join(", ")),
        };
        problems.push(wrong(
            "--fuel",
            told!("`{fuel}` is no fuel that is known here", fuel = args.fuel),
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
            told!(
                "`{pot_material}` is no pot material that is known here",
                pot_material = args.pot_material
            ),
            told!("write one of: {known}", known = known.join(", ")),
        ));
    }
    if let Some(blend) = &args.blend {
        if !blend.adds_up() {
            problems.push(wrong(
                "--blend",
                told!(
                    "the shares of the blend add to {sum} %, not 100 %",
                    sum = say::significant(blend.sum().in_percent(), 4)
                ),
                "write shares by mass, for example `propane 25, isobutane 75`",
            ));
        }
        if fuel.is_some_and(|fuel| fuel.kind != FuelKind::Canister) {
            problems.push(wrong(
                "--blend",
                told!("{fuel} is no mixture of gases", fuel = args.fuel),
                "leave `--blend` out, or write `--fuel canister`",
            ));
        }
    }
    let (Some(fuel), Some(material), true) = (fuel, material, problems.is_empty()) else {
        return Err(problems.into_iter().map(with_flag).collect());
    };
    let (heating_value, why) = match (args.heating_value, &args.blend) {
        (Some(stated), _) => (stated, phrase!("why-as-stated")),
        (None, Some(blend)) => (
            plan::blend_heating_value(library, blend).unwrap_or(fuel.heating_value),
            plan::blend_why(library, blend),
        ),
        (None, None) => (
            fuel.heating_value,
            phrase!("why-lower-heating-value", sources = fuel.sources),
        ),
    };
    let on = args
        .stove
        .as_ref()
        .map(|name| on_stove(args, library, name))
        .transpose()?;
    let efficiency = args
        .efficiency
        .or(on.as_ref().map(|(_, efficiency)| *efficiency))
        .unwrap_or(Fraction::ZERO);
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
        heating_value_why: why,
        efficiency,
        pot: args.pot.map(|mass| BoilPot {
            mass,
            material: material.name.clone(),
            specific_heat: material.specific_heat,
        }),
        evaporated: args.evaporated.unwrap_or(Mass::ZERO),
        on: on.map(|(on, _)| on),
    })
}

/// A word of a flag, or the problem that names what there is.
fn word<T: Copy>(flag: &str, text: &str, read: fn(&str) -> Option<T>, all: &[&str]) -> Outcome<T> {
    read(text).ok_or_else(|| {
        vec![with_flag(wrong(
            flag,
            told!("`{text}` is not known here", text),
            told!("write one of: {all}", all = all.join(", ")),
        ))]
    })
}

/// The stove under the pot, and the efficiency that counts.
fn on_stove(args: &Boil, library: &Library, name: &str) -> Outcome<(BoilOn, Fraction)> {
    let names: Vec<&str> = library.stoves.keys().map(String::as_str).collect();
    let Some(stove) = library.stoves.get(&id(name)) else {
        let help = match nearest(&id(name), names.iter().copied()) {
            Some(near) => told!("did you mean `{near}`?", near),
            None => told!("write one of: {names}", names = names.join(", ")),
        };
        let message = told!("`{name}` is no stove that is known here", name);
        return Err(vec![with_flag(wrong("--stove", message, help))]);
    };
    let winds: Vec<&str> = Wind::ALL.iter().map(|wind| wind.word()).collect();
    let screens: Vec<&str> = Screen::ALL.iter().map(|screen| screen.word()).collect();
    let wind = word("--wind", &args.wind, Wind::from_word, &winds)?;
    let screen = match &args.windscreen {
        Some(text) => word("--windscreen", text, Screen::from_word, &screens)?,
        None => stove.screen,
    };
    let yes_no = |text: &str| match text.trim().to_lowercase().as_str() {
        "yes" | "on" | "true" => Some(true),
        "no" | "off" | "false" => Some(false),
        _ => None,
    };
    let lid = word("--lid", &args.lid, yes_no, &["yes", "no"])?;
    let power = args.power.unwrap_or(stove.power);
    if !(Power::watts(50.0)..=Power::kilowatts(20.0)).contains(&power) {
        return Err(vec![with_flag(wrong(
            "--power",
            Told::from("no camp stove has that power"),
            "write the heat of the fuel that it burns, for example `--power 2500W`",
        ))]);
    }
    let fill = if args.snow.is_some() {
        library.figures.fill_snow.value
    } else {
        library.figures.fill.value
    };
    let capacity = args.pot_size.unwrap_or(args.water / fill.in_one().max(0.1));
    if args.pot_size.is_some_and(|pot| pot < args.water) {
        return Err(vec![with_flag(wrong(
            "--pot-size",
            Told::from("the pot is smaller than its water"),
            "write what the pot holds to the brim, for example `--pot-size 1.5L`",
        ))]);
    }
    let efficiency = args.efficiency.unwrap_or(stove.efficiency.likely);
    if !(1.0..=95.0).contains(&efficiency.in_percent()) {
        return Err(vec![with_flag(wrong(
            "--efficiency",
            Told::from("no stove has that efficiency"),
            "write 1% to 95%, or leave it out for the family's",
        ))]);
    }
    let air = args
        .air
        .or(args.from)
        .or(args.snow)
        .unwrap_or(Temperature::celsius(0.0));
    BoilOn::new(
        library,
        stove,
        efficiency,
        power,
        (wind, screen),
        capacity,
        air,
        lid,
    )
    .map(|on| (on, efficiency))
    .ok_or_else(|| {
        vec![with_flag(wrong(
            "--windscreen",
            told!("nothing is known of {name} behind it", name = stove.name),
            "choose another",
        ))]
    })
}

/// A heating value far from the fuel's own.
fn unlike(args: &Boil, question: &Question, own: HeatingValue) -> Option<Problem> {
    let stated = args.heating_value?;
    let ratio = stated.in_joules_per_kilogram() / own.in_joules_per_kilogram();
    let higher = (1.05..=1.15).contains(&ratio);
    if (0.85..=1.15).contains(&ratio) && !higher {
        return None;
    }
    let mj = |value: HeatingValue| say::significant(value.in_megajoules_per_kilogram(), 3);
    Some(Problem::warning(
        "boil.heating-value",
        if higher {
            told!(
                "--heating-value: {stated} MJ/kg is near the higher heating value of {fuel}, which has {own} MJ/kg",
                stated = mj(stated),
                fuel = question.fuel,
                own = mj(own)
            )
        } else {
            told!(
                "--heating-value: {stated} MJ/kg is far from the heating value of {fuel}, which has {own} MJ/kg",
                stated = mj(stated),
                fuel = question.fuel,
                own = mj(own)
            )
        },
        "use the lower (net) heating value, LHV: the higher one, HHV, counts the steam of the flame, \
         which no pot gets; look at the unit, MJ/kg",
    ))
}

pub(super) fn step_to_json(step: &Step) -> Value {
    json!({
        "say": text(&step.say),
        "formula": step.formula,
        "value": step.number(),
        "unit": step.unit,
        "why": text(&step.why),
    })
}

fn to_json(boiled: &Boiled, stove: bool) -> String {
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
        "fuel_g": boiled.fuel.map(Mass::in_grams),
        "fuel_ml": boiled.fuel_volume.map(Volume::in_millilitres),
        "steps": steps,
    });
    let mut value = value;
    if stove && let Some(whole) = value.as_object_mut() {
        let minutes = boiled.minutes.map(Time::in_minutes);
        whole.insert("minutes".to_owned(), json!(minutes));
        let lost = boiled.lost.map(Energy::in_kilojoules);
        whole.insert("lost".to_owned(), json!(lost));
        let stops = boiled.stops.map(Temperature::in_celsius);
        whole.insert("stops_at_c".to_owned(), json!(stops));
    }
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
    let answer = match (boiled.fuel, boiled.stops) {
        (Some(fuel), _) => {
            let minutes = boiled.minutes.map_or_else(String::new, |time| {
                format!(", {} minutes of flame", say::number(time.in_minutes(), 1))
            });
            let grams = say::significant(fuel.in_grams(), 4);
            format!("{grams} g of {}{poured}{minutes}", question.fuel)
        }
        (None, stops) => format!(
            "it will not boil: it stops at {}. A smaller pot, a windscreen, a lid or another stove \
             may do",
            stops.map_or_else(String::new, |at| temperature(at, units))
        ),
    };
    let mut text = format!(
        "{} {what} at {} {until}:\n{answer}\n\n",
        say::volume(question.water, units),
        say::elevation(question.elevation, units),
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
    let words = width(|step| text(&step.say).chars().count());
    let values = width(|step| step.value.chars().count());
    let named = width(|step| step.unit.chars().count());
    let mut out = String::new();
    for step in steps {
        let mut line = format!(
            "  {:words$}  {:>values$} {:named$}",
            text(&step.say),
            step.value,
            step.unit
        );
        if !step.formula.is_empty() {
            let _ = write!(line, "  = {}", step.formula);
        }
        if !step.why.is_none() {
            let _ = write!(line, "  [{}]", text(&step.why));
        }
        let _ = writeln!(out, "{}", line.trim_end());
    }
    out
}
