//! One canister burnt at a demand: `leeside canister`.

use super::boil::{blend_heating_value, blend_why};
use super::burning::{film, gas, warmth, zero_gauge};
use super::camps::behind;
use super::cold::{blend_of, of_blend};
use super::steps::{Lines, Worked};
use super::types::Step;
use crate::diag::{Outcome, Problem, Told, told};
use crate::nouns::{Basis, Blend, Container, Family, Library, Screen, Stove, Verdict, Wind};
use crate::phrase::{Phrase, phrase};
use crate::physics::air;
use crate::physics::burn::{Around, Burner, Gas, Lump, burn_lump};
use crate::physics::canister::{drawn_rayleigh, self_cooling};
use crate::physics::fuel::fuel_burnt;
use crate::physics::vapour::bubble_pressure_raoult;
use crate::units::{
    Fraction, Length, Mass, Power, Pressure, Temperature, Time, Units, Warming, say,
};

/// One canister to burn.
#[derive(Clone, Debug, PartialEq)]
pub struct CanisterBurn<'a> {
    /// The reader's units.
    pub units: Units,
    /// Its size.
    pub size: &'a Container,
    /// The stove that burns it.
    pub stove: &'a Stove,
    /// Fuel in it; none is full.
    pub left: Option<Mass>,
    /// What its label says; none is the unknown mixture.
    pub blend: Option<Blend>,
    /// What is in it now, in place of what is worked out from the label.
    pub present: Option<Blend>,
    /// The air.
    pub air: Temperature,
    /// The fuel when it is lit; none is the air's.
    pub fuel: Option<Temperature>,
    /// How long it burns.
    pub minutes: Time,
    /// What the burner is set to; none is the stove's full power.
    pub power: Option<Power>,
    /// The wind.
    pub wind: Wind,
    /// The windscreen.
    pub screen: Screen,
    /// Height above the sea.
    pub elevation: Length,
    /// Whether a regulator holds its power.
    pub regulated: bool,
}

/// How it did.
#[derive(Clone, Debug, PartialEq)]
pub struct CanisterBurnt {
    /// Fuel at the end.
    pub end: Temperature,
    /// Gauge pressure when it was lit.
    pub gauge_start: Pressure,
    /// Gauge pressure at the end.
    pub gauge_end: Pressure,
    /// Mean power over the time asked for.
    pub mean: Power,
    /// What the burner was set to.
    pub set: Power,
    /// Fuel burnt.
    pub burnt: Mass,
    /// Fuel left.
    pub left: Mass,
    /// How it did.
    pub verdict: Verdict,
    /// How it comes about, line by line.
    pub steps: Vec<Step>,
}

/// The least flame and the most that any burner here has.
const POWERS: [Power; 2] = [Power::watts(50.0), Power::kilowatts(20.0)];
/// The longest burn that is worked out.
const LONGEST: Time = Time::hours(24.0);

fn impossible(flag: &str, message: impl Into<Told>, help: impl Into<Told>) -> Problem {
    let mut problem = Problem::error("canister.impossible", message, help);
    problem.path = Some(flag.to_owned());
    problem
}

/// All that cannot be, flag by flag.
fn refusals(asked: &CanisterBurn<'_>, library: &Library) -> Vec<Problem> {
    let mut wrong = Vec::new();
    let warmest = library.figures.body_warm.value;
    if let Some(left) = asked.left
        && !(left >= Mass::ZERO && left <= asked.size.net)
    {
        wrong.push(impossible(
            "--left",
            told!("a {name} holds between nothing and {net}", name = asked.size.name, net = grams(asked.size.net)),
            "weigh it and take off the empty mass on its label: write what is left, such as `--left 120g`",
        ));
    }
    for (flag, blend) in [("--blend", asked.blend), ("--present", asked.present)] {
        if let Some(blend) = blend.filter(|blend| !blend.adds_up()) {
            wrong.push(impossible(
                flag,
                told!(
                    "the shares of the blend add to {sum} %, not 100 %",
                    sum = say::plain_significant(blend.sum().in_percent(), 4)
                ),
                "write shares by mass, for example `propane 25, isobutane 75`",
            ));
        }
    }
    if asked.fuel.is_some_and(|fuel| fuel > warmest) {
        wrong.push(impossible(
            "--fuel-temperature",
            told!("a canister is never made warmer than body-warm water, {both}: a hotter one can burst", both = say::temperature(warmest, Units::Both)),
            "write the temperature of the fuel as it is lit; warm to the hand means shut it off",
        ));
    }
    let outdoors = Temperature::celsius(-60.0)..=Temperature::celsius(60.0);
    for (flag, value) in [
        ("--air", Some(asked.air)),
        ("--fuel-temperature", asked.fuel),
    ] {
        if value.is_some_and(|value| !outdoors.contains(&value)) {
            wrong.push(impossible(
                flag,
                "nobody cooks outdoors below -60 C or above 60 C",
                "write a temperature such as `-5C` or `23F`",
            ));
        }
    }
    if !(asked.minutes > Time::ZERO && asked.minutes <= LONGEST) {
        wrong.push(impossible(
            "--minutes",
            "a burn lasts more than nothing and a day at most",
            "write the minutes of flame, for example `--minutes 12`",
        ));
    }
    let [least, most] = POWERS;
    if asked
        .power
        .is_some_and(|power| !(least..=most).contains(&power))
    {
        wrong.push(impossible(
            "--power",
            "camp burners give between 50 W and 20 kW",
            "write the burner's power, for example `--power 2500W`; left out, it is the usual one",
        ));
    }
    if asked.screen == Screen::Full && asked.stove.family != Family::CanisterBeside {
        wrong.push(impossible(
            "--windscreen",
            "a full windscreen round a burner on its canister traps heat; the canister can burst",
            "write `partial`, `natural` or `none`; a screen all round is for `--beside`",
        ));
    }
    wrong
}

fn grams(mass: Mass) -> String {
    format!("{} g", say::plain_significant(mass.in_grams(), 3))
}

/// Burns one canister.
///
/// # Errors
/// Everything that cannot be, each with its flag as the path.
pub fn burn_canister(asked: &CanisterBurn<'_>, library: &Library) -> Outcome<CanisterBurnt> {
    let mut wrong = refusals(asked, library);
    let pressure = air::pressure_us_standard_atmosphere_1976(asked.elevation);
    if pressure.is_none() {
        wrong.push(impossible(
            "--elevation",
            "this height lies outside the standard atmosphere used here",
            "write a height from -400 m to 11000 m",
        ));
    }
    let (Some(pressure), true) = (pressure, wrong.is_empty()) else {
        return Err(wrong);
    };
    let burning = Burning::of(asked, library, pressure);
    Ok(burning.worked(asked, library))
}

/// A canister about to be burnt.
struct Burning {
    lump: Lump,
    blend: Blend,
    around: Around,
    burner: Burner,
    gas: Gas,
}

impl Burning {
    fn of(asked: &CanisterBurn<'_>, library: &Library, pressure: Pressure) -> Self {
        let figures = &library.figures;
        let net = asked.left.unwrap_or(asked.size.net);
        let label = asked.blend.unwrap_or(figures.unknown_blend.value);
        let liquid = match &asked.present {
            Some(present) => of_blend(net, present),
            None => drawn_rayleigh(
                &of_blend(asked.size.net, &label),
                net,
                figures.drawn_at.value,
            ),
        };
        let blend = blend_of(&liquid);
        let stove = asked.stove;
        let set = asked.power.unwrap_or(stove.power);
        let value = blend_heating_value(library, &blend);
        let value = value.unwrap_or(crate::units::HeatingValue::megajoules_per_kilogram(45.8));
        Self {
            lump: Lump {
                liquid,
                temperature: asked.fuel.unwrap_or(asked.air),
                tare: asked.size.tare,
                diameter: asked.size.diameter,
                height: asked.size.height,
            },
            blend,
            around: Around {
                air: asked.air,
                pressure,
                film: film(figures, asked.wind, asked.screen),
                warmth: warmth(figures, stove.family, stove.geometry),
            },
            burner: Burner {
                set,
                family: stove.power,
                open: figures.open_valve.value,
                regulated: asked.regulated.then_some(figures.regulator_gauge.value),
            },
            gas: gas(figures, value, asked.size.residue),
        }
    }

    fn worked(&self, asked: &CanisterBurn<'_>, library: &Library) -> CanisterBurnt {
        let minutes = asked.minutes;
        let burnt = burn_lump(
            &self.lump,
            &self.around,
            &self.burner,
            &self.gas,
            minutes,
            |_| Some(minutes),
            |_| (),
        );
        let mean = burnt.mean * (burnt.time / minutes);
        let gone_out = burnt.gauge_start <= Pressure::ZERO || (burnt.emptied && !burnt.done);
        let end = burnt.after.temperature;
        let zero = zero_gauge(&burnt.after.liquid, self.around.pressure)
            .filter(|_| burnt.gauge_end < Pressure::ZERO && burnt.gauge_start > Pressure::ZERO);
        let end = zero.map_or(end, |zero| end.max(zero.min(self.lump.temperature)));
        let left = burnt.after.liquid.total();
        let mut answer = CanisterBurnt {
            end,
            gauge_start: burnt.gauge_start,
            gauge_end: burnt.gauge_end,
            mean,
            set: self.burner.set,
            burnt: self.lump.liquid.total() - left,
            left,
            verdict: if gone_out {
                Verdict::WillNotWork
            } else {
                Verdict::of_share(Fraction::of_one(mean / self.burner.set))
            },
            steps: Vec::new(),
        };
        answer.steps = self.steps(asked, library, &answer);
        answer
    }

    /// How it comes about: the start worked, the burn as it was solved, what is left worked.
    fn steps(
        &self,
        asked: &CanisterBurn<'_>,
        library: &Library,
        answer: &CanisterBurnt,
    ) -> Vec<Step> {
        let figures = &library.figures;
        let mut lines = Lines::default();
        let net = Worked::four(self.lump.liquid.total().in_grams());
        let net = lines.given(phrase!("line-fuel-in-it"), net, "g", Phrase::none());
        let why = if asked.present.is_some() {
            phrase!("why-as-stated")
        } else {
            behind(&figures.drawn_at)
        };
        for (name, share) in [
            ("propane", self.blend.propane),
            ("isobutane", self.blend.isobutane),
            ("n-butane", self.blend.butane),
        ] {
            if share > Fraction::ZERO {
                let share = Worked::four(share.in_percent());
                lines.given(
                    phrase!("line-gas-by-mass", gas = name),
                    share,
                    "%",
                    why.clone(),
                );
            }
        }
        let start = Worked::hundredths(self.lump.temperature.in_celsius());
        lines.given(phrase!("line-fuel-when-lit"), start, "°C", Phrase::none());
        let vapour = bubble_pressure_raoult(&self.lump.liquid, self.lump.temperature)
            .unwrap_or(Pressure::ZERO);
        let vapour = Worked::four(vapour.in_kilopascals());
        let vapour = lines.given(
            phrase!("line-vapour-pressure"),
            vapour,
            "kPa",
            phrase!("why-raoults-law"),
        );
        let air = Worked::four(self.around.pressure.in_kilopascals());
        let air = lines.given(
            phrase!("line-pressure-air"),
            air,
            "kPa",
            phrase!("why-standard-atmosphere-1976"),
        );
        lines.work(
            phrase!("line-gauge-pressure"),
            format!("{vapour} - {air}"),
            "kPa",
            Phrase::none(),
        );
        let value = Worked::four(self.gas.heating_value.in_megajoules_per_kilogram());
        let value = lines.given(
            phrase!("line-heating-value-in-it"),
            value,
            "MJ/kg",
            blend_why(library, &self.blend),
        );
        let set = Worked::given(self.burner.set.in_kilowatts());
        let latent = Worked::given(self.gas.latent.in_joules_per_kilogram() / 1000.0);
        lines.work(
            phrase!("line-heat-vapour-takes-up", set = set.text()),
            format!("{set} / {value} x {latent}"),
            "W",
            behind(&figures.gas_latent),
        );
        let film = Worked::given(self.around.film);
        let [wide, high] =
            [self.lump.diameter, self.lump.height].map(|length| Worked::given(length.in_metres()));
        lines.work(
            phrase!("line-heat-from-air-each"),
            format!("{film} x 3.1416 x ({wide} x {high} + {wide} x {wide} / 2)"),
            "W",
            behind(&figures.canister_film),
        );
        let tare = Worked::given(self.lump.tare.in_kilograms());
        let liquid = self.gas.liquid_heat.in_kilojoules_per_kilogram_kelvin();
        let steel = self.gas.steel_heat.in_kilojoules_per_kilogram_kelvin();
        let (liquid, steel) = (Worked::given(liquid), Worked::given(steel));
        lines.work(
            phrase!("line-heat-cools-1-c"),
            format!("{net} / 1000 x {liquid} + {tare} x {steel}"),
            "kJ",
            behind(&figures.gas_heat),
        );
        self.bound(&mut lines, asked);
        let solved = || phrase!("why-solved-by-seconds");
        let end = Worked::hundredths(answer.end.in_celsius());
        lines.given(phrase!("line-fuel-end"), end, "°C", solved());
        let gauge = Worked::four(answer.gauge_end.in_kilopascals());
        lines.given(phrase!("line-gauge-pressure-end"), gauge, "kPa", solved());
        let mean = Worked::four(answer.mean.in_kilowatts());
        let mean = lines.given(phrase!("line-mean-power"), mean, "kW", solved());
        lines.work(
            phrase!("line-share-what-set"),
            format!("{mean} / {set} x 100"),
            "%",
            phrase!("why-verdicts", basis = Basis::Assumption),
        );
        let minutes = Worked::given(asked.minutes.in_minutes());
        let gone = lines.work(
            phrase!("line-fuel-burnt"),
            format!("{mean} x {minutes} x 60 / {value}"),
            "g",
            Phrase::none(),
        );
        lines.work(
            phrase!("sum-fuel-left"),
            format!("{net} - {gone}"),
            "g",
            Phrase::none(),
        );
        lines.steps()
    }

    /// The worst case, no warmth at all.
    fn bound(&self, lines: &mut Lines, asked: &CanisterBurn<'_>) {
        let drawn = fuel_burnt(self.burner.set, asked.minutes, self.gas.heating_value);
        let cooling = self_cooling(
            self.lump.liquid.total(),
            self.lump.tare,
            drawn,
            self.gas.latent,
            self.gas.liquid_heat,
            self.gas.steel_heat,
        );
        if cooling < Warming::of_kelvins(100.0) {
            lines.given(
                phrase!("line-worst-case-full-power"),
                Worked::four(cooling.kelvins()),
                "°C",
                phrase!("why-bound-not-forecast"),
            );
        }
    }
}
