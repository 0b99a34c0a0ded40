//! What the topics share: the library's figures rounded for a pencil, givens in the
//! reader's units, and the sums of one problem.

use super::types::{Accept, Table};
use crate::course::dice::Dice;
use crate::diag::{Outcome, Problem, told};
use crate::nouns::{Container, ContainerKind, Family, Fuel, Library, Material, Stove};
use crate::phrase::{Phrase, Said, phrase};
use crate::physics::{air, water};
use crate::plan::{Lines, Worked, fuel_called};
use crate::units::{Length, Temperature, Units, Volume, say};
use std::cell::OnceCell;

/// What every problem is made from.
pub(super) struct Kit<'a> {
    /// Figures and gear.
    pub library: &'a Library,
    /// The reader's units.
    pub units: Units,
    /// The gas that tables are made for.
    pub gas: &'a Fuel,
    /// The fuels that problems speak of.
    pub fuels: Vec<&'a Fuel>,
    /// Canister sizes, smallest first.
    pub canisters: Vec<&'a Container>,
    /// The burner of problems about a plan that changes.
    pub burner: &'a Stove,
    /// What their pot is made of.
    pub metal: &'a Material,
    /// Grams for one boil of theirs, by row and column of their table, once it is asked for.
    pub potfuls: OnceCell<Vec<f64>>,
}

/// Efficiency that tables are made for, percent: a canister stove with lid in shelter.
pub(super) const TABLE_EFFICIENCY: f64 = 50.0;

impl<'a> Kit<'a> {
    /// The kit of a library.
    ///
    /// # Errors
    /// When the library has no canister gas or no canister: most topics speak of them.
    pub(super) fn new(library: &'a Library, units: Units) -> Outcome<Self> {
        let missing = |what: &'static str| {
            vec![Problem::error(
                /*keep*/
                "practice.gear",
                told!(
                    "the library has no {what}, which the practice problems speak of",
                    what = crate::diag::Told::from(what)
                ),
                "leave it in the content, or add one of your own",
            )]
        };
        let gas = fuel_called(library, "canister").ok_or_else(|| missing("canister gas"))?;
        let mut fuels = vec![gas];
        for word in ["white gas", "kerosene", "ethanol"] {
            fuels.extend(fuel_called(library, word));
        }
        let mut canisters: Vec<&Container> = library
            .containers
            .values()
            .filter(|one| one.kind == ContainerKind::Canister)
            .collect();
        if canisters.is_empty() {
            return Err(missing("canister"));
        }
        canisters.sort_by(|a, b| a.net.in_grams().total_cmp(&b.net.in_grams()));
        let burner = library
            .stoves
            .values()
            .find(|stove| stove.family == Family::CanisterOnTop)
            .ok_or_else(|| missing("stove on top of its canister"))?;
        let metal = library
            .materials
            .get("aluminium")
            .or_else(|| library.materials.values().next())
            .ok_or_else(|| missing("material of pots"))?;
        Ok(Self {
            library,
            units,
            gas,
            fuels,
            canisters,
            burner,
            metal,
            potfuls: OnceCell::new(),
        })
    }

    /// Heat to warm a litre by a degree, kJ, to two digits: a pencil's number.
    pub(super) fn water_heat(&self) -> Worked {
        let c = self.library.figures.water_heat.value;
        two(c.in_kilojoules_per_kilogram_kelvin())
    }

    /// Heat in a gram of a fuel, kJ, to two digits.
    pub(super) fn in_a_gram(&self, fuel: &Fuel) -> Worked {
        two(fuel.heating_value.in_megajoules_per_kilogram())
    }

    /// Whether the reader measures in feet, quarts and degrees Fahrenheit.
    pub(super) fn us(&self) -> bool {
        self.units == Units::Us
    }

    /// The unit of water in tables and problems.
    pub(super) fn volume_unit(&self) -> &'static str {
        if self.us() { "qt" } else { "L" }
    }

    /// A volume of a number of the reader's units.
    pub(super) fn volume(&self, number: f64) -> Volume {
        if self.us() {
            Volume::quarts(number)
        } else {
            Volume::litres(number)
        }
    }

    /// A volume in words.
    pub(super) fn say_volume(&self, number: f64) -> String {
        let unit = self.volume_unit();
        let plain = format!("{} {unit}", say::plain_significant(number, 3));
        match self.units {
            Units::Both => {
                let quarts = Volume::litres(number).in_quarts();
                format!("{plain} ({} qt)", say::plain_significant(quarts, 2))
            }
            _ => plain,
        }
    }

    /// The heights of the boiling table.
    pub(super) fn heights(&self) -> Vec<Length> {
        if self.us() {
            (0..=6)
                .map(|n| Length::feet(f64::from(n) * 2000.0))
                .collect()
        } else {
            (0..=8)
                .map(|n| Length::metres(f64::from(n) * 500.0))
                .collect()
        }
    }

    /// Where water boils, °C to a tenth, as the table prints it.
    pub(super) fn boils(&self, height: Length) -> Worked {
        let celsius = air::pressure_us_standard_atmosphere_1976(height)
            .and_then(water::saturation_temperature_if97)
            .map_or(f64::NAN, Temperature::in_celsius);
        tenth(celsius)
    }

    /// The same in °F to a tenth.
    pub(super) fn boils_fahrenheit(&self, height: Length) -> Worked {
        let fahrenheit = air::pressure_us_standard_atmosphere_1976(height)
            .and_then(water::saturation_temperature_if97)
            .map_or(f64::NAN, Temperature::in_fahrenheit);
        tenth(fahrenheit)
    }

    /// The table of boiling points by height.
    pub(super) fn boiling_table(&self) -> Table {
        let mut head = vec![phrase!("practice-height")];
        let (celsius, fahrenheit) = (phrase!("practice-boils-c"), phrase!("practice-boils-f"));
        match self.units {
            Units::Metric => head.push(celsius),
            Units::Us => head.extend([fahrenheit, celsius]),
            Units::Both => head.extend([celsius, fahrenheit]),
        }
        let rows = self
            .heights()
            .into_iter()
            .map(|height| {
                let c = cell(say::plain(self.boils(height).value(), 1));
                let f = cell(say::plain(self.boils_fahrenheit(height).value(), 1));
                let mut row = vec![cell(say::elevation(height, self.units))];
                match self.units {
                    Units::Metric => row.push(c),
                    Units::Us => row.extend([f, c]),
                    Units::Both => row.extend([c, f]),
                }
                row
            })
            .collect();
        Table {
            caption: phrase!("practice-where-water-boils-usual"),
            head,
            rows,
        }
    }

    /// The figures of heat sums, a line each.
    pub(super) fn heat_numbers(&self, fuels: &[&Fuel]) -> Vec<Phrase> {
        let mut lines = vec![phrase!(
            "practice-kj-warm-1-l",
            water_heat = self.water_heat()
        )];
        if !fuels.is_empty() {
            let heats = fuels.iter().map(|fuel| {
                phrase!(
                    "practice-fuel-holds",
                    fuel = fuel.name,
                    heat = self.in_a_gram(fuel)
                )
            });
            let heats =
                heats.reduce(|some, more| phrase!("practice-and-holds", some = some, more = more));
            let heats = heats.unwrap_or_default();
            lines.push(phrase!("practice-heat-gram-stove-passes", heats = heats));
        }
        if self.us() {
            lines.push(phrase!("practice-1-qt-0-9464"));
        }
        lines
    }
}

/// What a table says in one place: a number, a name.
pub(super) fn cell(words: impl Said) -> Phrase {
    phrase!("as-written", words = words)
}

/// A canister by its size: `230 g canister`.
pub(super) fn size(canister: &Container) -> Phrase {
    let grams = say::plain(canister.net.in_grams(), 0);
    phrase!("practice-g-canister", grams = grams)
}

/// A number to two digits.
pub(super) fn two(value: f64) -> Worked {
    Worked::given(parse(&say::plain_significant(value, 2)))
}

/// A number to a tenth.
pub(super) fn tenth(value: f64) -> Worked {
    Worked::given(parse(&say::plain(value, 1)))
}

fn parse(text: &str) -> f64 {
    text.parse().unwrap_or(f64::NAN)
}

/// The next multiple of five, as fuel is weighed out.
pub(super) fn up_to_five(grams: f64) -> f64 {
    (grams / 5.0 - 1e-9).ceil() * 5.0
}

/// One problem being made.
pub(super) struct Desk<'k, 'a> {
    /// What it is made from.
    pub kit: &'k Kit<'a>,
    /// Its numbers.
    pub dice: Dice,
    /// Its sums.
    pub lines: Lines,
}

/// A given: its words in the problem and its number in the sums.
pub(super) struct Told {
    /// `3 L`.
    pub words: String,
    /// In the unit of the sums.
    pub worth: Worked,
}

impl Desk<'_, '_> {
    /// Water of a number of the reader's units; worth litres.
    pub(super) fn water(&mut self, say: Phrase, number: f64) -> Told {
        let given = Worked::given(number);
        let worth = if self.kit.us() {
            self.lines.work(
                phrase!("sum-in-litres-of", what = say),
                format!("{given} x 0.9464"),
                "L",
                Phrase::none(),
            )
        } else {
            self.lines.given(say, given, "L", Phrase::none())
        };
        Told {
            words: self.kit.say_volume(number),
            worth,
        }
    }

    /// The temperature of a stream or bottle; worth °C.
    pub(super) fn stream(&mut self) -> Told {
        let at = if self.kit.us() {
            Temperature::fahrenheit(self.dice.between(35, 60, 5))
        } else {
            Temperature::celsius(self.dice.pick(&[2.0, 4.0, 5.0, 8.0, 10.0, 12.0, 15.0]))
        };
        self.temperature(phrase!("sum-water-start"), at)
    }

    /// A given temperature, whole in the reader's degrees; worth °C.
    pub(super) fn temperature(&mut self, say: Phrase, at: Temperature) -> Told {
        let worth = if self.kit.us() {
            let fahrenheit = Worked::given(at.in_fahrenheit().round());
            self.lines.work_temperature(
                phrase!("sum-in-celsius", what = say),
                format!("({fahrenheit} - 32) x 5 / 9"),
                Phrase::none(),
            )
        } else {
            self.lines.given(
                say,
                Worked::given(at.in_celsius().round()),
                "°C",
                Phrase::none(),
            )
        };
        Told {
            words: say::temperature(at, self.kit.units),
            worth,
        }
    }

    /// A height of the boiling table; worth the boiling point, °C.
    pub(super) fn camp(&mut self) -> Told {
        let heights = self.kit.heights();
        let height = self.dice.pick(&heights);
        let words = say::elevation(height, self.kit.units);
        let worth = self.lines.given(
            phrase!("sum-water-boils-at-height", height = words),
            self.kit.boils(height),
            "°C",
            phrase!("why-from-table"),
        );
        Told { words, worth }
    }

    /// An efficiency in percent, from a range by fives; worth a share.
    pub(super) fn efficiency(&mut self, least: u32, most: u32) -> Told {
        let percent = self.dice.between(least, most, 5);
        Told {
            words: format!("{percent} %"),
            worth: Worked::given(percent / 100.0),
        }
    }

    /// A whole number that the sums round up to.
    pub(super) fn whole_up(&mut self, say: Phrase, from: &Worked, unit: &str) -> Worked {
        let up = (from.value() - 1e-9).ceil();
        self.lines.given(
            say,
            Worked::given(up),
            unit,
            phrase!("why-rounded-up", number = from),
        )
    }

    /// Grams rounded up to what is weighed out.
    pub(super) fn five_up(&mut self, from: &Worked) -> Worked {
        self.lines.given(
            phrase!("sum-weigh-out"),
            Worked::given(up_to_five(from.value())),
            "g",
            phrase!("why-rounded-up-to-5-g", number = from),
        )
    }

    /// What counts for grams that were rounded up to five.
    pub(super) fn five_accepted(from: &Worked, percent: f64) -> Accept {
        let share = percent / 100.0;
        Accept {
            least: up_to_five(from.value() * (1.0 - share)),
            most: up_to_five(from.value() * (1.0 + share)),
            says: phrase!("practice-within-before-rounded-up", percent = percent),
        }
    }
}

/// A volume's number, as the head of a table row.
pub(super) fn plain(number: f64) -> String {
    say::plain_significant(number, 4)
}
