//! A small library and trips built by hand, so that a number can be tested without reading files.
//!
//! The stoves, fuels and figures repeat the assumptions of `content/` that these tests lean on;
//! every name is invented.

use leeside::nouns::*;
use leeside::units::*;
use std::collections::BTreeMap;
use std::sync::Arc;

fn constant<T>(value: T) -> Constant<T> {
    Constant {
        value,
        what: "a figure".to_owned(),
        basis: Basis::Assumption,
        sources: Vec::new(),
    }
}

fn minutes(
    low: f64,
    above: Option<Length>,
    from_that_height: bool,
    high: f64,
) -> Constant<BoilMinutes> {
    constant(BoilMinutes {
        low: Time::minutes(low),
        above,
        from_that_height,
        high: Time::minutes(high),
    })
}

fn wash(a_person: f64, a_kitchen: &[(f64, f64)]) -> WashMethod {
    WashMethod {
        a_person: Volume::litres(a_person),
        a_kitchen: a_kitchen
            .iter()
            .map(|(litres, at)| (Volume::litres(*litres), Some(Temperature::celsius(*at))))
            .collect(),
        basis: Basis::CommonPractice,
        sources: Vec::new(),
    }
}

/// The figures of the calculation.
pub fn figures() -> Figures {
    Figures {
        water_heat: constant(SpecificHeat::kilojoules_per_kilogram_kelvin(4.186)),
        ice_heat: constant(SpecificHeat::kilojoules_per_kilogram_kelvin(2.10)),
        fusion: constant(HeatingValue::joules_per_kilogram(333_550.0)),
        evaporation: constant(HeatingValue::joules_per_kilogram(2.26e6)),
        gas_latent: constant(HeatingValue::joules_per_kilogram(370_000.0)),
        gas_heat: constant(SpecificHeat::kilojoules_per_kilogram_kelvin(2.4)),
        steel_heat: constant(SpecificHeat::kilojoules_per_kilogram_kelvin(0.46)),
        canister_film: constant(BTreeMap::from([
            (Wind::Calm, 10.0),
            (Wind::Breezy, 27.0),
            (Wind::Windy, 38.0),
        ])),
        burner_warmth: constant(Power::watts(5.0)),
        open_valve: constant(2.0),
        regulator_gauge: constant(Pressure::kilopascals(60.0)),
        body_warm: constant(Temperature::celsius(37.0)),
        fill: constant(Fraction::percent(75.0)),
        fill_snow: constant(Fraction::percent(60.0)),
        set_up: constant(Time::minutes(2.0)),
        melt_to: constant(Temperature::celsius(5.0)),
        simmer_factor: constant(1.6),
        pot_loss: constant(BTreeMap::from([
            (Wind::Calm, 16.0),
            (Wind::Breezy, 30.0),
            (Wind::Windy, 45.0),
        ])),
        reference_boil: constant(ReferencePot {
            water: Volume::litres(1.0),
            start: Temperature::celsius(15.0),
            end: Temperature::celsius(99.97),
            air: Temperature::celsius(15.0),
            capacity: Volume::litres(1.5),
            mass: Mass::grams(165.0),
            heat: SpecificHeat::kilojoules_per_kilogram_kelvin(0.897),
        }),
        boil_margin: constant(1.15),
        open_top: constant(OpenPot {
            radiation: 6.0,
            humidity: Fraction::percent(50.0),
            latent: HeatingValue::megajoules_per_kilogram(2.30),
            held_below: Warming::of_kelvins(3.0),
        }),
        spill_likely: constant(Fraction::percent(2.0)),
        spill_most: constant(Fraction::percent(4.0)),
        measured_spread: constant(Fraction::percent(8.0)),
        wind_spread: constant(Fraction::percent(15.0)),
        trip_wind_spread: constant(Fraction::percent(20.0)),
        other_wind: constant(Fraction::percent(10.0)),
        loss_spread: constant(Fraction::percent(25.0)),
        unboiled: constant(4.0),
        water_spread: constant(Warming::of_kelvins(3.0)),
        amount_spread: constant(Fraction::percent(10.0)),
        drinking: constant(Volume::litres(3.0)),
        drinking_snow: constant(Volume::litres(4.0)),
        round_up: constant(Mass::grams(5.0)),
        unknown_blend: constant(blend(0.3, 0.0, 0.7)),
        drawn_at: constant(Temperature::celsius(10.0)),
        nearly_empty: constant(Mass::grams(5.0)),
        greywater_distance: constant(Length::feet(200.0)),
        step: constant(Length::metres(0.76)),
        water_density: constant(1.0),
        washing: BTreeMap::from([
            (Washing::WipeAndRinse, wash(0.5, &[])),
            (Washing::TwoPots, wash(0.0, &[(2.5, 45.0)])),
            (Washing::ThreeBowls, wash(0.0, &[(15.0, 45.0)])),
            (
                Washing::ThreeBowlsHotDip,
                wash(0.0, &[(10.0, 45.0), (5.0, 77.0)]),
            ),
        ]),
        boil_minutes: BTreeMap::from([
            (
                BoilRules::Cdc,
                minutes(1.0, Some(Length::feet(6500.0)), false, 3.0),
            ),
            (
                BoilRules::Epa,
                minutes(1.0, Some(Length::feet(5000.0)), true, 3.0),
            ),
            (
                BoilRules::HealthCanada,
                minutes(1.0, Some(Length::metres(2000.0)), false, 2.0),
            ),
            (BoilRules::Who, minutes(0.0, None, false, 0.0)),
        ]),
        people_a_kitchen: constant(5.0),
        pot_a_person: constant(Volume::litres(0.75)),
        day_sea_level: constant(Temperature::celsius(20.0)),
        lapse_per_km: constant(Warming::of_kelvins(6.5)),
        night_below_day: constant(Warming::of_kelvins(10.0)),
        water_bounds: constant((Temperature::celsius(2.0), Temperature::celsius(15.0))),
    }
}

/// A mixture by mass.
pub fn blend(propane: f64, isobutane: f64, butane: f64) -> Blend {
    Blend {
        propane: Fraction::of_one(propane),
        isobutane: Fraction::of_one(isobutane),
        butane: Fraction::of_one(butane),
    }
}

fn factors(calm: f64, breezy: f64, windy: f64, may_fail_windy: bool) -> WindFactors {
    WindFactors {
        calm,
        breezy,
        windy,
        may_fail_windy,
    }
}

/// A stove family with the catalogue's assumptions.
pub fn stove(family: Family) -> Stove {
    let (bare, partial, full) = match family {
        Family::Alcohol | Family::Tablet => (
            factors(0.8, 0.55, 0.25, true),
            factors(0.85, 0.7, 0.45, false),
            factors(0.9, 0.8, 0.6, false),
        ),
        Family::HeatExchanger => {
            let same = factors(0.97, 0.9, 0.6, false);
            (same, same, same)
        }
        _ => (
            factors(0.85, 0.75, 0.35, true),
            factors(0.9, 0.85, 0.6, false),
            factors(0.95, 0.9, 0.8, false),
        ),
    };
    let ((low, likely, high), kilowatts, least, fuel, screen) = match family {
        Family::CanisterOnTop => ((35.0, 50.0, 60.0), 2.5, 350.0, "canister-gas", Screen::None),
        Family::HeatExchanger => (
            (50.0, 62.0, 72.0),
            2.2,
            350.0,
            "canister-gas",
            Screen::BuiltIn,
        ),
        Family::CanisterBeside => ((35.0, 48.0, 58.0), 2.6, 400.0, "canister-gas", Screen::None),
        Family::WhiteGas => ((30.0, 42.0, 52.0), 2.7, 500.0, "white-gas", Screen::Full),
        Family::Kerosene => ((28.0, 40.0, 50.0), 2.5, 600.0, "kerosene", Screen::Full),
        Family::Alcohol => ((28.0, 38.0, 60.0), 1.0, 1000.0, "ethanol", Screen::None),
        Family::Tablet => ((20.0, 30.0, 38.0), 0.7, 700.0, "hexamine", Screen::None),
    };
    let liquid = matches!(family, Family::WhiteGas | Family::Kerosene);
    let canister = matches!(
        family,
        Family::CanisterOnTop | Family::HeatExchanger | Family::CanisterBeside
    );
    let (boil_only, hot_wash, shoulder, winter) = match family {
        Family::CanisterOnTop => (
            (20.0, 35.0),
            Some((35.0, 60.0)),
            (30.0, 55.0),
            Some((100.0, 180.0)),
        ),
        Family::HeatExchanger => (
            (15.0, 25.0),
            Some((30.0, 45.0)),
            (22.0, 40.0),
            Some((75.0, 130.0)),
        ),
        Family::CanisterBeside => (
            (22.0, 35.0),
            Some((40.0, 65.0)),
            (32.0, 55.0),
            Some((90.0, 160.0)),
        ),
        Family::WhiteGas => (
            (28.0, 45.0),
            Some((55.0, 75.0)),
            (45.0, 75.0),
            Some((110.0, 180.0)),
        ),
        Family::Kerosene => (
            (30.0, 50.0),
            Some((55.0, 80.0)),
            (45.0, 80.0),
            Some((115.0, 190.0)),
        ),
        Family::Alcohol => ((45.0, 85.0), Some((80.0, 130.0)), (70.0, 130.0), None),
        Family::Tablet => ((50.0, 90.0), None, (80.0, 120.0), None),
    };
    Stove {
        id: id(family.word()),
        name: format!("{family} stove"),
        family,
        fuel: fuel.to_owned(),
        fuels: vec![fuel.to_owned()],
        connection: canister.then_some(Connection::Thread),
        liquid_feed: family == Family::CanisterBeside,
        efficiency: Range {
            low: Fraction::percent(low),
            likely: Fraction::percent(likely),
            high: Fraction::percent(high),
        },
        wind: BTreeMap::from([
            (Screen::None, bare),
            (Screen::Natural, partial),
            (Screen::Partial, partial),
            (Screen::Full, full),
            (Screen::BuiltIn, full),
        ]),
        screen,
        power: Power::kilowatts(kilowatts),
        least_power: Power::watts(least),
        to_light: Mass::grams(if liquid { 5.0 } else { 0.0 }),
        one_fill: (family == Family::Alcohol).then_some(Volume::millilitres(50.0)),
        refill_wait: Time::minutes(if family == Family::Alcohol { 10.0 } else { 0.0 }),
        least_gauge: Pressure::kilopascals(20.0),
        regulated: false,
        shut_off: !matches!(family, Family::Alcohol | Family::Tablet),
        mass: Mass::grams(if liquid { 430.0 } else { 85.0 }),
        burner_mass: Mass::grams(85.0),
        burner_height: Length::millimetres(75.0),
        geometry: if canister && family != Family::CanisterBeside {
            Geometry::OnCanister
        } else {
            Geometry::Legs {
                count: 3,
                radius: Length::millimetres(80.0),
                height: Length::millimetres(80.0),
            }
        },
        usual: UsualRange {
            boil_only: Some(boil_only),
            hot_wash,
            shoulder: Some(shoulder),
            winter,
        },
        spares: Vec::new(),
        warn_pot_above: (canister && family != Family::CanisterBeside)
            .then_some(Volume::litres(2.0)),
        basis: Basis::Assumption,
        sources: Vec::new(),
    }
}

/// A fuel by id.
pub fn fuel(id: &str) -> Fuel {
    let (kind, megajoules, density) = match id {
        "propane" => (FuelKind::Canister, 46.34, 0.507),
        "isobutane" => (FuelKind::Canister, 45.55, 0.563),
        "n-butane" => (FuelKind::Canister, 45.72, 0.584),
        "white-gas" => (FuelKind::WhiteGas, 44.7, 0.70),
        "kerosene" => (FuelKind::Kerosene, 43.0, 0.80),
        "ethanol" => (FuelKind::Alcohol, 26.8, 0.789),
        "methanol" => (FuelKind::Alcohol, 19.9, 0.792),
        "hexamine" => (FuelKind::Tablet, 28.1, 1.33),
        _ => (FuelKind::Canister, 45.91, 0.559),
    };
    let value = HeatingValue::megajoules_per_kilogram(megajoules);
    Fuel {
        id: id.to_owned(),
        name: id.replace('-', " "),
        kind,
        heating_value: value,
        heating_range: (value, value),
        density,
        fossil_co2: 3.0,
        also_called: Vec::new(),
        note: String::new(),
        sources: Vec::new(),
    }
}

fn container(
    name: &str,
    kind: ContainerKind,
    fuels: &[FuelKind],
    size: f64,
    tare: f64,
) -> Container {
    let canister = kind == ContainerKind::Canister;
    Container {
        id: id(name),
        name: name.to_owned(),
        kind,
        fuels: fuels.to_vec(),
        net: if kind == ContainerKind::Bottle {
            Mass::ZERO
        } else {
            Mass::grams(size)
        },
        capacity: if kind == ContainerKind::Bottle {
            Volume::litres(size)
        } else {
            Volume::ZERO
        },
        fill: Fraction::percent(if kind == ContainerKind::Bottle {
            75.0
        } else {
            100.0
        }),
        tare: Mass::grams(tare),
        tare_spread: Mass::grams(10.0),
        diameter: Length::millimetres(110.0),
        height: Length::millimetres(95.0),
        residue: Mass::grams(if canister { 4.0 } else { 0.0 }),
        residue_share: Fraction::percent(match (kind, fuels) {
            (ContainerKind::Bottle, [FuelKind::Alcohol]) => 15.0,
            (ContainerKind::Bottle, _) => 3.0,
            _ => 0.0,
        }),
    }
}

/// The library: gear, fuels and figures, no modules.
pub fn library() -> Library {
    let stoves = Family::ALL.iter().map(|family| {
        let stove = stove(*family);
        (stove.id.clone(), stove)
    });
    let fuels = [
        "canister-gas",
        "propane",
        "isobutane",
        "n-butane",
        "white-gas",
        "kerosene",
        "ethanol",
        "methanol",
        "hexamine",
    ];
    let liquid = [FuelKind::WhiteGas, FuelKind::Kerosene];
    let containers = [
        container(
            "canister 100",
            ContainerKind::Canister,
            &[FuelKind::Canister],
            100.0,
            100.0,
        ),
        container(
            "canister 230",
            ContainerKind::Canister,
            &[FuelKind::Canister],
            230.0,
            150.0,
        ),
        container(
            "canister 450",
            ContainerKind::Canister,
            &[FuelKind::Canister],
            450.0,
            205.0,
        ),
        container("bottle 0.6l", ContainerKind::Bottle, &liquid, 0.6, 100.0),
        container("bottle 1l", ContainerKind::Bottle, &liquid, 1.0, 135.0),
        container(
            "bottle 0.5l alcohol",
            ContainerKind::Bottle,
            &[FuelKind::Alcohol],
            0.5,
            50.0,
        ),
        container(
            "bottle 1l alcohol",
            ContainerKind::Bottle,
            &[FuelKind::Alcohol],
            1.0,
            85.0,
        ),
        container(
            "tablets",
            ContainerKind::Pack,
            &[FuelKind::Tablet],
            100.0,
            10.0,
        ),
    ];
    Library {
        language: "en".to_owned(),
        kit: BTreeMap::new(),
        words: BTreeMap::new(),
        edition: Date::read("2026-11-20").expect("a date"),
        title: "a library by hand".to_owned(),
        standing_line: String::new(),
        modules: BTreeMap::new(),
        places: BTreeMap::new(),
        stoves: stoves.collect(),
        fuels: fuels
            .iter()
            .map(|id| ((*id).to_owned(), fuel(id)))
            .collect(),
        materials: BTreeMap::new(),
        containers: containers.into_iter().map(|c| (c.id.clone(), c)).collect(),
        menus: BTreeMap::new(),
        profiles: BTreeMap::new(),
        plausible: BTreeMap::new(),
        figures: figures(),
        sources: BTreeMap::new(),
    }
}

/// An aluminium pot of some litres and grams; of the usual mass if none are given.
pub fn pot(litres: f64, grams: Option<f64>) -> Pot {
    Pot {
        material: "aluminium".to_owned(),
        specific_heat: SpecificHeat::kilojoules_per_kilogram_kelvin(0.897),
        capacity: Volume::litres(litres),
        mass: Mass::grams(grams.unwrap_or(60.0 + 70.0 * litres)),
        mass_stated: grams.is_some(),
    }
}

/// A kitchen with a catalogue stove and its usual screen.
pub fn kitchen(people: u32, family: Family, pots: Vec<Pot>) -> Kitchen {
    let stove = stove(family);
    Kitchen {
        name: "Kitchen 1".to_owned(),
        people,
        fuel: fuel(&stove.fuel),
        heating_value: None,
        blend: None,
        feed: Feed::Vapour,
        screen: stove.screen,
        lid: true,
        pots,
        measured: None,
        stove,
    }
}

/// Water for each person.
pub fn boil(litres: f64) -> MealNeed {
    MealNeed {
        boil: Volume::litres(litres),
        simmer: Time::ZERO,
        times_a_day: 1,
    }
}

/// The default menu.
pub fn menu() -> Menu {
    Menu {
        name: "boil only".to_owned(),
        supper: boil(0.6),
        breakfast: boil(0.35),
        lunch: MealNeed::COLD,
        drinks: MealNeed {
            times_a_day: 2,
            ..boil(0.25)
        },
    }
}

/// A camp at a height with a stream, in a breeze.
pub fn camp(name: &str, nights: u32, metres: f64) -> Camp {
    Camp {
        name: name.to_owned(),
        nights,
        elevation: Length::metres(metres),
        pressure: None,
        day: Temperature::celsius(12.0),
        night: Temperature::celsius(2.0),
        water_from: WaterFrom::Stream,
        water: Temperature::celsius(8.0),
        wind: Wind::Breezy,
        place: "inland-forest".to_owned(),
        rules: BTreeMap::from([(
            "greywater.distance".to_owned(),
            CampRule {
                value: RuleValue::Length(Length::feet(200.0)),
                from: "default".to_owned(),
                sources: Vec::new(),
                as_of: None,
                checked: None,
                verify: false,
            },
        )]),
        menu: menu(),
        fuel_temperature: None,
        drinking: Volume::litres(3.0),
        no_stove: false,
    }
}

/// A trip of these camps and kitchens.
pub fn trip(camps: Vec<Camp>, kitchens: Vec<Kitchen>) -> Trip {
    let people = kitchens.iter().map(|kitchen| kitchen.people).sum();
    Trip {
        slug: "by-hand".to_owned(),
        file: Arc::from("by-hand.yaml"),
        title: "A trip by hand".to_owned(),
        kind: Kind::Trip,
        starts: None,
        organisation: None,
        notes: Vec::new(),
        first_meal: Meal::Supper,
        last_meal: Meal::Breakfast,
        arrival: None,
        units: Units::Metric,
        paper: Paper::A4,
        languages: vec!["en".to_owned()],
        people: People {
            learners: people,
            instructors: 0,
            youngest: None,
            adults_per_lit_stove: 1.0,
            diet: Vec::new(),
        },
        kitchens,
        camps,
        spare: Spare::OneExtraDay,
        confidence: Fraction::percent(90.0),
        second_stove: None,
        resupply: None,
        prices: Vec::new(),
        canisters_on_hand: Vec::new(),
        part_used_at_most: None,
        treatment: Treatment::Filter,
        washing: Washing::WipeAndRinse,
        eating: Eating::OwnBowls,
        step: Length::metres(0.76),
        boil_rules: BoilRules::Cdc,
        restrictions: Restrictions::default(),
        emergency: Emergency::default(),
        course: CourseRequest {
            latitude: None,
            sessions: vec![Session {
                name: "Session 1".to_owned(),
                length: Time::minutes(150.0),
                starts: 540,
                date: None,
                indoors: false,
                kind: leeside::nouns::SessionKind::Teach,
                focus: Vec::new(),
            }],
            stations: 1,
            focus: Vec::new(),
            known: Vec::new(),
            level: Level::Scout,
            seed: 1,
            indoors: false,
            fallback: None,
            stated: false,
        },
        assumed: Vec::new(),
    }
}

/// Five people, one night at 2500 m, white gas.
pub fn one_night() -> Trip {
    trip(
        vec![camp("Lower meadow", 1, 2500.0)],
        vec![kitchen(5, Family::WhiteGas, vec![pot(3.0, None)])],
    )
}
