//! `leeside trial`: a burn trial at home as an efficiency to put in the trip.

use super::{Laid, Said};
use crate::check;
use crate::compose::catalogue;
use crate::diag::Outcome;
use crate::load;
use crate::nouns::Trial as Measured;
use crate::plan::{self, Paste, RunResult, TrialResult};
use crate::units::{Power, say};
use clap::Args;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

/// Turn a burn trial at home into a measured efficiency
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside trial my-stove.yaml")]
pub struct Trial {
    /// What was weighed and read
    #[arg(value_name = "TRIAL.yaml")]
    pub trial: PathBuf,
    /// Say it as JSON on standard output
    #[arg(long)]
    pub json: bool,
    /// Own content
    #[command(flatten)]
    pub content: Laid,
}

/// Runs the command.
///
/// # Errors
/// Every problem of the file, and every run that cannot have been.
pub fn run(args: &Trial) -> Outcome<Said> {
    let (library, _) = super::library(&args.content.folders)?;
    let written = load::trip_file(&args.trial)?;
    let (trial, warnings) = check::trial(&written, &library)?;
    let result = plan::trial(&trial, &library).map_err(|problems| {
        problems
            .into_iter()
            .map(|problem| written.locate(problem))
            .collect::<Vec<_>>()
    })?;
    Ok(Said {
        result: if args.json {
            to_json(&result)
        } else {
            to_text(&trial, &result)
        },
        warnings,
        ..Said::default()
    })
}

fn run_json(run: &RunResult) -> Value {
    json!({
        "efficiency": run.efficiency.in_one(),
        "efficiency_with_pot": run.efficiency_with_pot.in_one(),
        "efficiency_to_plan": run.efficiency_to_plan.in_one(),
        "end_c": run.end.in_celsius(),
        "water_kj": run.water_heat.in_kilojoules(),
        "evaporation_kj": run.evaporation.in_kilojoules(),
        "pot_kj": run.pot_heat.in_kilojoules(),
        "useful_kj": run.useful.in_kilojoules(),
        "fuel_kj": run.fuel_heat.in_kilojoules(),
        "fuel_g": run.fuel.in_grams(),
        "fuel_g_per_litre": run.fuel_per_litre.in_grams(),
        "power_w": run.power.map(Power::in_watts),
        "wind": run.wind.map(|wind| wind.word()),
    })
}

/// The lines of a trip's file that a block stands for.
fn pasted(block: &Paste) -> String {
    let mut lines = format!(
        "measured:\n  efficiency: {}%\n  wind: {}",
        say::number(block.efficiency.in_percent(), 1),
        block.wind
    );
    if let Some(spread) = block.spread {
        let _ = write!(
            lines,
            "\n  spread: {}%",
            say::number(spread.in_percent(), 0)
        );
    }
    if let Some(power) = block.power {
        let kilowatts = say::significant(power.in_kilowatts(), 3);
        let _ = write!(lines, "\npower: {kilowatts} kW");
    }
    lines
}

fn to_json(result: &TrialResult) -> String {
    let value = json!({
        "boiling_c": result.boiling.in_celsius(),
        "pressure_kpa": result.pressure.in_kilopascals(),
        "efficiency": result.efficiency.in_one(),
        "efficiency_with_pot": result.efficiency_with_pot.in_one(),
        "efficiency_to_plan": result.efficiency_to_plan.in_one(),
        "flame_w": result.flame.map(Power::in_watts),
        "spread": result.spread.map(|spread| spread.in_one()),
        "range": {"low": result.range.0.in_one(), "high": result.range.1.in_one()},
        "useful_kj": result.useful.in_kilojoules(),
        "fuel_kj": result.fuel_heat.in_kilojoules(),
        "fuel_g_per_litre": result.fuel_per_litre.in_grams(),
        "power_w": result.power.map(Power::in_watts),
        "paste": result.paste.iter().map(pasted).collect::<Vec<_>>(),
        "notes": result.notes.iter().map(catalogue::text).collect::<Vec<_>>(),
        "runs": result.runs.iter().map(run_json).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

fn to_text(trial: &Measured, result: &TrialResult) -> String {
    let mut text = format!(
        "Burn trial with {}: water boils at {} °C there\n\n",
        trial.fuel.name,
        say::number(result.boiling.in_celsius(), 2)
    );
    let _ = writeln!(
        text,
        "  run  fuel g  water kJ  steam kJ  pot kJ  of fuel kJ  test %  with pot %  to plan %"
    );
    for (index, run) in result.runs.iter().enumerate() {
        let _ = writeln!(
            text,
            "  {:>3}  {:>6.1}  {:>8.1}  {:>8.1}  {:>6.1}  {:>10.1}  {:>6.1}  {:>10.1}  {:>9.1}",
            index + 1,
            run.fuel.in_grams(),
            run.water_heat.in_kilojoules(),
            run.evaporation.in_kilojoules(),
            run.pot_heat.in_kilojoules(),
            run.fuel_heat.in_kilojoules(),
            run.efficiency.in_percent(),
            run.efficiency_with_pot.in_percent(),
            run.efficiency_to_plan.in_percent(),
        );
    }
    text.push('\n');
    let mut line = |say: &str, value: String| {
        let _ = writeln!(text, "  {say:<44}  {value}");
    };
    let percent = |share: crate::units::Fraction| format!("{:.1} %", share.in_percent());
    line(
        "efficiency by the boiling test (with steam)",
        percent(result.efficiency),
    );
    line("the same with the pot", percent(result.efficiency_with_pot));
    line(
        "to plan with (water and pot)",
        percent(result.efficiency_to_plan),
    );
    if let Some(spread) = result.spread {
        line(
            "between runs: standard deviation, range",
            format!(
                "{}, {:.1} to {:.1} %",
                percent(spread),
                result.range.0.in_percent(),
                result.range.1.in_percent()
            ),
        );
    }
    line(
        "fuel for a litre",
        format!("{:.1} g", result.fuel_per_litre.in_grams()),
    );
    if let Some(power) = result.power {
        if let Some(flame) = result.flame {
            line("power of the flame", format!("{:.0} W", flame.in_watts()));
        }
        line("useful power", format!("{:.0} W", power.in_watts()));
    }
    text.push_str("\nPaste into the kitchen of your trip:\n\n");
    for block in &result.paste {
        for line in pasted(block).lines() {
            let _ = writeln!(text, "    {line}");
        }
        text.push('\n');
    }
    for note in &result.notes {
        let _ = writeln!(text, "Note: {}.", catalogue::text(note));
    }
    text
}
