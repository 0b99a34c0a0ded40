//! `leeside canister`: how one canister does in the cold, without a trip file.

use super::boil::lines;
use super::{Laid, Said};
use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Blend, Container, ContainerKind, Family, Library, Screen, Verdict, Wind};
use crate::plan::{self, CanisterBurn, CanisterBurnt};
use crate::units::{Mass, Power, Temperature, Time, Units, say};
use clap::Args;
use serde_json::{Value, json};

/// Work out how a gas canister does in the cold: pressure, flame, what is left
#[derive(Args, Debug)]
#[command(
    after_help = "Example: leeside canister --size 230g --left 120g --air -5C --minutes 12\n\
        Example: leeside canister --size 100g --blend \"propane 20, isobutane 80\" --air 20F --minutes 6 --wind breezy --windscreen partial --elevation 8000ft"
)]
pub struct Canister {
    /// Fuel in it when full: 100g, 230g or 450g
    #[arg(long, value_name = "230g", value_parser = super::quantity::<Mass>, allow_hyphen_values = true)]
    pub size: Mass,
    /// Fuel in it now, by the scale less the empty mass; left out, it is full
    #[arg(long, value_name = "120g", value_parser = super::quantity::<Mass>, allow_hyphen_values = true)]
    pub left: Option<Mass>,
    /// Make-up by mass as its label says; left out, the cautious mixture
    #[arg(long, value_name = "\"propane 25, isobutane 75\"", value_parser = super::boil::blend, conflicts_with = "present")]
    pub blend: Option<Blend>,
    /// Make-up by mass of what is in it now
    #[arg(long, value_name = "\"propane 12, isobutane 88\"", value_parser = super::boil::blend)]
    pub present: Option<Blend>,
    /// Temperature of the air
    #[arg(long, value_name = "-5C", value_parser = super::quantity::<Temperature>, allow_hyphen_values = true)]
    pub air: Temperature,
    /// Temperature of the fuel when it is lit; left out, the air's
    #[arg(long, value_name = "10C", value_parser = super::quantity::<Temperature>, allow_hyphen_values = true)]
    pub fuel_temperature: Option<Temperature>,
    /// Minutes of flame
    #[arg(long, value_name = "12", value_parser = minutes, allow_hyphen_values = true)]
    pub minutes: Time,
    /// What the burner is set to; left out, its usual full power
    #[arg(long, value_name = "2500W", value_parser = super::quantity::<Power>, allow_hyphen_values = true)]
    pub power: Option<Power>,
    /// The wind: calm, breezy or windy
    #[arg(long, value_name = "calm", default_value = "calm", value_parser = wind)]
    pub wind: Wind,
    /// The windscreen: none, natural, partial, full or built-in
    #[arg(long, value_name = "none", default_value = "none", value_parser = screen)]
    pub windscreen: Screen,
    /// Height above the sea; in feet, the answer is in US units
    #[arg(long, value_name = "0m", default_value = "0m", value_parser = super::boil::height, allow_hyphen_values = true)]
    pub elevation: super::boil::Height,
    /// The canister stands beside the burner, on a hose
    #[arg(long)]
    pub beside: bool,
    /// The burner has a regulator
    #[arg(long)]
    pub regulated: bool,
    /// Say it as JSON on standard output
    #[arg(long)]
    pub json: bool,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// Minutes, with or without the word.
fn minutes(text: &str) -> Result<Time, String> {
    match text.trim().parse::<f64>() {
        Ok(minutes) if minutes.is_finite() => Ok(Time::minutes(minutes)),
        _ => super::quantity::<Time>(text),
    }
}

fn wind(text: &str) -> Result<Wind, String> {
    Wind::from_word(text).ok_or_else(|| format!("`{text}` is no wind; write calm, breezy or windy"))
}

fn screen(text: &str) -> Result<Screen, String> {
    Screen::from_word(text).ok_or_else(|| {
        format!("`{text}` is no windscreen; write none, natural, partial, full or built-in")
    })
}

/// Runs the command.
///
/// # Errors
/// A size that is not sold, and everything that cannot be.
pub fn run(args: &Canister) -> Outcome<Said> {
    let (library, warnings) = super::library(&args.content.folders)?;
    let answered = asked(args, &library).and_then(|asked| {
        let burnt = plan::burn_canister(&asked, &library)?;
        Ok(if args.json {
            to_json(&burnt)
        } else {
            to_text(&asked, &burnt)
        })
    });
    let result = answered.map_err(|problems: Vec<Problem>| {
        // On a command line the flag stands in the message: there is no file to point at.
        problems
            .into_iter()
            .map(super::boil::with_flag)
            .collect::<Vec<_>>()
    })?;
    Ok(Said {
        result,
        warnings,
        ..Said::default()
    })
}

/// The flags as a question, size and stove looked up.
fn asked<'a>(args: &Canister, library: &'a Library) -> Outcome<CanisterBurn<'a>> {
    let canisters = || {
        library
            .containers
            .values()
            .filter(|one| one.kind == ContainerKind::Canister)
    };
    let family = if args.beside {
        Family::CanisterBeside
    } else {
        Family::CanisterOnTop
    };
    let size = canisters().find(|one| (one.net - args.size).in_grams().abs() < 0.5);
    let stove = library.stoves.values().find(|one| one.family == family);
    let (Some(size), Some(stove)) = (size, stove) else {
        let mut sizes: Vec<&Container> = canisters().collect();
        sizes.sort_by(|a, b| a.net.in_grams().total_cmp(&b.net.in_grams()));
        let known: Vec<String> = sizes
            .iter()
            .map(|one| format!("{} g", say::significant(one.net.in_grams(), 3)))
            .collect();
        let mut problem = Problem::error(
            "canister.size",
            told!(
                "no canister of {size} g is known here",
                size = say::significant(args.size.in_grams(), 4)
            ),
            told!(
                "write the net mass on its label, one of {known}",
                known = known.join(", ")
            ),
        );
        problem.path = Some("--size".to_owned());
        return Err(vec![problem]);
    };
    Ok(CanisterBurn {
        units: if args.elevation.feet {
            Units::Us
        } else {
            Units::Metric
        },
        size,
        stove,
        left: args.left,
        blend: args.blend,
        present: args.present,
        air: args.air,
        fuel: args.fuel_temperature,
        minutes: args.minutes,
        power: args.power,
        wind: args.wind,
        screen: args.windscreen,
        elevation: args.elevation.length,
        regulated: args.regulated,
    })
}

fn to_json(burnt: &CanisterBurnt) -> String {
    let steps: Vec<Value> = burnt.steps.iter().map(super::boil::step_to_json).collect();
    let value = json!({
        "end_c": burnt.end.in_celsius(),
        "gauge_start_kpa": burnt.gauge_start.in_kilopascals(),
        "gauge_end_kpa": burnt.gauge_end.in_kilopascals(),
        "mean_power_kw": burnt.mean.in_kilowatts(),
        "burnt_g": burnt.burnt.in_grams(),
        "left_g": burnt.left.in_grams(),
        "verdict": burnt.verdict.word(),
        "steps": steps,
    });
    format!("{value:#}\n")
}

/// The answer first, then how it comes about.
fn to_text(asked: &CanisterBurn<'_>, burnt: &CanisterBurnt) -> String {
    let kilopascals =
        |gauge: crate::units::Pressure| say::number(gauge.in_kilopascals().max(0.0), 0);
    let mut text = format!(
        "{} with {} g, {} min of flame in air of {}: {}\n\
         mean power {} of {} kW, gauge pressure {} to {} kPa, fuel {} at the end, {} g left\n\n",
        asked.size.name,
        say::significant((burnt.left + burnt.burnt).in_grams(), 3),
        say::significant(asked.minutes.in_minutes(), 3),
        say::temperature(asked.air, asked.units),
        burnt.verdict,
        say::significant(burnt.mean.in_kilowatts(), 3),
        say::significant(burnt.set.in_kilowatts(), 3),
        kilopascals(burnt.gauge_start),
        kilopascals(burnt.gauge_end),
        say::temperature(burnt.end, asked.units),
        say::number(burnt.left.in_grams(), 0),
    );
    text.push_str(&lines(&burnt.steps));
    if matches!(burnt.verdict, Verdict::Weak | Verdict::WillNotWork) {
        text.push_str(
            "\nA fuller canister, a mixture with more propane, or fuel carried inside a jacket before \
             the meal does better.\nNever warm it with a flame or hot water. Warm to the hand: shut it off.\n",
        );
    }
    text
}
