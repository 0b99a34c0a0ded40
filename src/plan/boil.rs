//! One pot brought to the boil, worked line by line: `leeside boil`.

use super::boil_on::{Way, on_a_stove};
use super::camps::{behind, temperature};
use super::pot::{Boil, BoilHeat, Boiled, Start};
use super::steps::{Lines, Worked};
use crate::diag::{Outcome, Problem, Told, told};
use crate::nouns::{Blend, Figures, Fuel, FuelKind, Library};
use crate::phrase::{Phrase, phrase};
use crate::physics::{air, water};
use crate::units::{
    Energy, Fraction, HeatingValue, Mass, Pressure, Temperature, Units, Volume, Warming, say,
};

/// How far above the boil a stated end may lie: temperatures are rounded to tenths.
const ROUNDED_K: f64 = 0.05;

/// More than any pot.
const MOST_WATER: Volume = Volume::litres(1000.0);

/// A fuel by the word a person uses for it: its id, a name of it in another trade or country,
/// or a kind (`canister`, `alcohol`, `tablet`: what the catalogue's stove of that kind burns).
#[must_use]
pub fn fuel_called<'a>(library: &'a Library, word: &str) -> Option<&'a Fuel> {
    library.fuel_called(word)
}

/// Heating value of a blend: the mean by mass of its gases. None where the library lacks one.
#[must_use]
pub fn blend_heating_value(library: &Library, blend: &Blend) -> Option<HeatingValue> {
    let mut sum = 0.0;
    for (gas, share) in gases(blend) {
        let value = library.fuels.get(gas)?.heating_value;
        sum += share.in_one() * value.in_joules_per_kilogram();
    }
    Some(HeatingValue::joules_per_kilogram(
        sum / blend.sum().in_one(),
    ))
}

/// The gases of a blend by their ids in the catalogue, those that are there.
fn gases(blend: &Blend) -> impl Iterator<Item = (&'static str, Fraction)> {
    [
        ("propane", blend.propane),
        ("isobutane", blend.isobutane),
        ("n-butane", blend.butane),
    ]
    .into_iter()
    .filter(|(_, share)| *share > Fraction::ZERO)
}

/// How the heating value of a blend comes about, in words.
#[must_use]
pub fn blend_why(library: &Library, blend: &Blend) -> Phrase {
    let parts = gases(blend)
        .filter_map(|(gas, _)| {
            let fuel = library.fuels.get(gas)?;
            let value = fuel.heating_value.in_megajoules_per_kilogram();
            let value = say::plain_significant(value, 4);
            Some(phrase!("why-gas", gas = fuel.name, value = value))
        })
        .reduce(|some, more| phrase!("why-gases", some = some, more = more))
        .unwrap_or_else(Phrase::none);
    phrase!("why-mean-by-mass", blend = blend, gases = parts)
}

fn impossible(flag: &str, message: impl Into<Told>, help: impl Into<Told>) -> Problem {
    let mut problem = Problem::error("boil.impossible", message, help);
    problem.path = Some(flag.to_owned());
    problem
}

/// All that cannot be, flag by flag.
fn refusals(boil: &Boil, boiling: Option<Temperature>) -> Vec<Problem> {
    let mut wrong = Vec::new();
    if boil.water <= Volume::ZERO {
        wrong.push(impossible(
            "--water",
            "there is no water to heat",
            "write more than nothing, for example `--water 1L`",
        ));
    }
    if boil.water > MOST_WATER {
        wrong.push(impossible(
            "--water",
            "no pot holds a cubic metre of water",
            "write the water of one pot, for example `--water 1L`",
        ));
    }
    if !(boil.efficiency > Fraction::ZERO && boil.efficiency <= Fraction::of_one(1.0)) {
        wrong.push(impossible(
            "--efficiency",
            "an efficiency is above 0 % and at most 100 %: no pot gets more heat than the fuel has",
            "write the share of the fuel's heat that reaches the pot, for example `--efficiency 45%`",
        ));
    }
    if boil.heating_value <= HeatingValue::ZERO {
        wrong.push(impossible(
            "--heating-value",
            "a fuel without heat heats nothing",
            "write for example `--heating-value \"45.7 MJ/kg\"`",
        ));
    }
    if boil.pot.as_ref().is_some_and(|pot| pot.mass < Mass::ZERO) {
        wrong.push(impossible(
            "--pot",
            "a pot cannot weigh less than nothing",
            "write its mass with lid, for example `--pot 180g`",
        ));
    }
    if boil.evaporated < Mass::ZERO || boil.evaporated.in_kilograms() > boil.water.in_litres() {
        wrong.push(impossible(
            "--evaporated",
            "the water boiled away is between nothing and all of it",
            "write the grams lost as steam, for example `--evaporated 10g`",
        ));
    }
    let zero = Temperature::celsius(0.0);
    let Some(boiling) = boiling else {
        wrong.push(impossible(
            "--elevation",
            "this height lies outside the standard atmosphere used here",
            "write a height from -400 m to 11000 m",
        ));
        return wrong;
    };
    let boils = told!(
        "water boils at {in_celsius} C at this height",
        in_celsius = format!("{:.2}", boiling.in_celsius())
    );
    let end = boil.to.unwrap_or(boiling);
    if end - boiling > Warming::of_kelvins(ROUNDED_K) {
        wrong.push(impossible(
            "--to",
            told!(
                "water cannot get as hot as {in_celsius} C: {boils}",
                in_celsius = format!("{:.2}", end.in_celsius()),
                boils
            ),
            "leave `--to` out to bring it to the boil",
        ));
    }
    match boil.start {
        Start::Water(from) if from < zero => wrong.push(impossible(
            "--from",
            "water colder than 0 C is ice",
            "for snow or ice write `--snow` and its temperature in place of `--from`",
        )),
        Start::Water(from) if from > end => wrong.push(impossible(
            "--from",
            told!("the water is hotter at the start ({in_celsius} C) than at the end ({in_celsius_2} C): {boils}", in_celsius = format!("{:.2}", from.in_celsius()), in_celsius_2 = format!("{:.2}", end.in_celsius()), boils),
            "write the temperature of the water as it comes from the stream or bottle",
        )),
        Start::Snow(snow) if snow > zero => wrong.push(impossible(
            "--snow",
            "snow is not warmer than 0 C",
            "write its temperature, for example `--snow -5C`; for water write `--from`",
        )),
        Start::Snow(snow) if snow < Temperature::celsius(-80.0) => wrong.push(impossible(
            "--snow",
            "no snow on earth is that cold",
            "write its temperature, for example `--snow -5C`",
        )),
        Start::Snow(_) if end < zero => wrong.push(impossible(
            "--to",
            "water from snow is at 0 C at least",
            "write a temperature above 0 C",
        )),
        _ => {}
    }
    wrong
}

/// Works one pot out.
///
/// # Errors
/// Everything that cannot be, each with its flag as the path.
pub fn boil(boil: &Boil, figures: &Figures) -> Outcome<Boiled> {
    let pressure = air::pressure_us_standard_atmosphere_1976(boil.elevation);
    let boiling = pressure.and_then(water::saturation_temperature_if97);
    let wrong = refusals(boil, boiling);
    let (Some(pressure), Some(boiling), true) = (pressure, boiling, wrong.is_empty()) else {
        return Err(wrong);
    };

    let mut lines = Lines::default();
    let end = air_lines(&mut lines, boil, pressure);
    let kilograms = water_line(&mut lines, boil, figures);
    let c = Worked::four(figures.water_heat.value.in_kilojoules_per_kilogram_kelvin());
    let mut parts: Vec<Worked> = Vec::new();
    let start = match boil.start {
        Start::Water(from) => {
            let from = temperature(
                &mut lines,
                phrase!("sum-water-start"),
                from,
                boil.units,
                Phrase::none(),
            );
            parts.push(lines.work(
                phrase!("line-heat-into-water"),
                format!("{kilograms} x {c} x ({end} - {from})"),
                "kJ",
                behind(&figures.water_heat),
            ));
            from
        }
        Start::Snow(snow) => {
            let snow = temperature(
                &mut lines,
                phrase!("sum-snow"),
                snow,
                boil.units,
                Phrase::none(),
            );
            let ice = Worked::four(figures.ice_heat.value.in_kilojoules_per_kilogram_kelvin());
            let fusion = Worked::given(figures.fusion.value.in_joules_per_kilogram() / 1000.0);
            parts.push(lines.work(
                phrase!("line-heat-to-melt"),
                format!("{kilograms} x ({ice} x (0 - {snow}) + {fusion})"),
                "kJ",
                behind(&figures.fusion),
            ));
            parts.push(lines.work(
                phrase!("line-heat-into-melted-water"),
                format!("{kilograms} x {c} x ({end} - 0)"),
                "kJ",
                behind(&figures.water_heat),
            ));
            snow
        }
    };
    if let Some(pot) = &boil.pot {
        let mass = Worked::given(pot.mass.in_kilograms());
        let metal = Worked::four(pot.specific_heat.in_kilojoules_per_kilogram_kelvin());
        parts.push(lines.work(
            phrase!("line-heat-into-pot", pot = pot.material),
            format!("{mass} x {metal} x ({end} - {start})"),
            "kJ",
            phrase!("why-as-warm-as-water"),
        ));
    }
    if boil.evaporated > Mass::ZERO {
        let mass = Worked::given(boil.evaporated.in_kilograms());
        let latent = Worked::given(figures.evaporation.value.in_joules_per_kilogram() / 1000.0);
        parts.push(lines.work(
            phrase!("line-heat-away-with-steam"),
            format!("{mass} x {latent}"),
            "kJ",
            behind(&figures.evaporation),
        ));
    }
    let useful = match parts.as_slice() {
        [only] => only.clone(),
        many => {
            let sum: Vec<String> = many.iter().map(ToString::to_string).collect();
            lines.work(
                phrase!("line-useful-heat"),
                sum.join(" + "),
                "kJ",
                Phrase::none(),
            )
        }
    };
    let way = boil
        .on
        .as_ref()
        .map(|on| on_a_stove(&mut lines, boil, on, figures, &useful, (boiling, &end)));
    if let Some(Way {
        time: None, stops, ..
    }) = way
    {
        return Ok(Boiled {
            pressure,
            boiling,
            heat: heat(boil, figures, boil.to.unwrap_or(boiling)),
            fuel: None,
            minutes: None,
            lost: None,
            stops,
            fuel_volume: None,
            steps: lines.steps(),
        });
    }
    let (grams, fuel_volume) = fuel_lines(&mut lines, boil, &useful, way.as_ref());

    Ok(Boiled {
        pressure,
        boiling,
        heat: heat(boil, figures, boil.to.unwrap_or(boiling)),
        fuel: Some(grams),
        minutes: way.as_ref().and_then(|way| way.time),
        lost: way.as_ref().and_then(|way| way.lost),
        stops: None,
        fuel_volume,
        steps: lines.steps(),
    })
}

/// Where the heat goes, unrounded.
fn heat(boil: &Boil, figures: &Figures, end: Temperature) -> BoilHeat {
    let mass = Mass::kilograms(boil.water.in_litres() * figures.water_density.value);
    let zero = Temperature::celsius(0.0);
    let (start, melt, liquid) = match boil.start {
        Start::Water(from) => (from, Energy::ZERO, from),
        Start::Snow(snow) => (
            snow,
            water::heat_to_melt(mass, figures.ice_heat.value, snow, figures.fusion.value),
            zero,
        ),
    };
    let into_water = water::heat_to_warm(mass, figures.water_heat.value, end - liquid);
    let pot = boil.pot.as_ref().map_or(Energy::ZERO, |pot| {
        water::heat_to_warm(pot.mass, pot.specific_heat, end - start)
    });
    let evaporation = water::heat_to_evaporate(boil.evaporated, figures.evaporation.value);
    BoilHeat {
        water: into_water,
        pot,
        melt,
        evaporation,
        useful: into_water + pot + melt + evaporation,
    }
}

/// Height, pressure and boiling point; gives the temperature at the end.
fn air_lines(lines: &mut Lines, boil: &Boil, pressure: Pressure) -> Worked {
    let atmosphere = phrase!("why-standard-atmosphere");
    let z = if boil.units == Units::Us {
        let feet = Worked::given(boil.elevation.in_feet());
        lines.work(
            phrase!("line-height-metres"),
            format!("{feet} x 0.3048"),
            "m",
            Phrase::none(),
        )
    } else {
        lines.given(
            phrase!("line-height"),
            Worked::given(boil.elevation.in_metres()),
            "m",
            Phrase::none(),
        )
    };
    let h = lines.work(
        phrase!("line-height-corrected-gravity"),
        format!("6356766 x {z} / (6356766 + {z})"),
        "m",
        atmosphere.clone(),
    );
    let p = lines.work(
        phrase!("line-air-pressure"),
        format!("101.325 x (1 - 0.0065 x {h} / 288.15)^5.25588"),
        "kPa",
        atmosphere,
    );
    let read_off = water::saturation_temperature_if97(Pressure::kilopascals(p.value()))
        .or_else(|| water::saturation_temperature_if97(pressure))
        .map_or(f64::NAN, Temperature::in_celsius);
    let boils = lines.given(
        phrase!("line-boils-at-pressure", pressure = p),
        Worked::hundredths(read_off),
        "°C",
        phrase!("why-steam-tables"),
    );
    match boil.to {
        None => boils,
        Some(to) => temperature(
            lines,
            phrase!("line-water-end"),
            to,
            boil.units,
            Phrase::none(),
        ),
    }
}

/// Kilograms of water.
fn water_line(lines: &mut Lines, boil: &Boil, figures: &Figures) -> Worked {
    let density = Worked::given(figures.water_density.value);
    let (say, what) = match boil.start {
        Start::Water(_) => (phrase!("line-water"), phrase!("line-water-in-litres")),
        Start::Snow(_) => (
            phrase!("line-from-snow"),
            phrase!("line-from-snow-in-litres"),
        ),
    };
    let litres = if boil.units == Units::Us {
        let quarts = Worked::given(boil.water.in_quarts());
        lines.work(what, format!("{quarts} x 0.946353"), "L", Phrase::none())
    } else {
        Worked::given(boil.water.in_litres())
    };
    lines.work(
        say,
        format!("{litres} x {density}"),
        "kg",
        phrase!("why-litre-taken-kilogram"),
    )
}

/// Heat of the fuel, its grams, and its millilitres where it is poured.
fn fuel_lines(
    lines: &mut Lines,
    boil: &Boil,
    useful: &Worked,
    way: Option<&Way>,
) -> (Mass, Option<Volume>) {
    let burnt = if let Some(way) = way {
        lines.work(
            phrase!("line-heat-of-fuel"),
            format!("({useful} + {}) / {}", way.lost_printed, way.share),
            "kJ",
            phrase!("why-rest-warms-air-once"),
        )
    } else {
        let efficiency = Worked::given(boil.efficiency.in_one());
        lines.work(
            phrase!(
                "line-heat-of-fuel-at",
                percent = say::plain_significant(boil.efficiency.in_percent(), 4)
            ),
            format!("{useful} / {efficiency}"),
            "kJ",
            phrase!("why-rest-warms-air"),
        )
    };
    let value = lines.given(
        phrase!("sum-heat-gram", fuel = boil.fuel),
        Worked::four(boil.heating_value.in_megajoules_per_kilogram()),
        "kJ/g",
        boil.heating_value_why.clone(),
    );
    let grams = lines.work(
        phrase!("sum-fuel"),
        format!("{burnt} / {value}"),
        "g",
        Phrase::none(),
    );
    let poured = matches!(
        boil.kind,
        FuelKind::WhiteGas | FuelKind::Kerosene | FuelKind::Alcohol
    );
    let volume = (poured && boil.density > 0.0).then(|| {
        let density = Worked::four(boil.density);
        let millilitres = lines.work(
            phrase!("line-fuel-poured"),
            format!("{grams} / {density}"),
            "mL",
            phrase!("why-density-about-15-c"),
        );
        Volume::millilitres(millilitres.value())
    });
    (Mass::grams(grams.value()), volume)
}
