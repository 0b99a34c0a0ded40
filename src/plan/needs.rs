//! What a kitchen needs heat for: which meals, how often, how much water, how hot.

use super::camps::CampWork;
use crate::nouns::{
    Camp, Kind, Kitchen, Library, Meal, MealNeed, Menu, Treatment, Trip, WaterFrom, Wind,
};
use crate::physics::simmer::{SEA_LEVEL_BOIL, minutes_at_height};
use crate::units::{Temperature, Time, Volume};

/// How hot some water gets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum End {
    /// To the boil.
    Boil,
    /// To a temperature below it.
    At(Temperature),
}

/// Water of one row that is heated alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Part {
    /// Water, once for the kitchen.
    pub(crate) water: Volume,
    /// For each person, when it is counted so.
    pub(crate) a_person: Option<Volume>,
    /// How hot it gets.
    pub(crate) end: End,
}

/// Minutes held at the boil, each batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Hold {
    /// It need only boil.
    None,
    /// Simmer minutes of a recipe at sea level; they grow with height.
    Simmer(Time),
    /// Minutes of the rule that makes water safe.
    Rule(Time),
}

/// One use of the stove at one camp.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Need {
    /// What for.
    pub(crate) meal: Meal,
    /// How often on this trip; may be none of a meal that only a spare day would have.
    pub(crate) times: u32,
    /// How often on a full day at this camp.
    pub(crate) a_day: u32,
    /// Its water.
    pub(crate) parts: Vec<Part>,
    /// How long it is held.
    pub(crate) hold: Hold,
    /// The air around the pot.
    pub(crate) air: Temperature,
    /// The wind at the stove.
    pub(crate) wind: Wind,
    /// How often the stove is lit for it.
    pub(crate) lights: Lit,
}

/// How often the stove is lit for a row: so often in so many times.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Lit {
    /// Lightings.
    pub(crate) lightings: u32,
    /// In so many times of the row.
    pub(crate) times: u32,
}

impl Lit {
    /// Lightings each time.
    pub(crate) fn share(self) -> f64 {
        f64::from(self.lightings) / f64::from(self.times.max(1))
    }

    /// It burns already.
    pub(crate) const NEVER: Self = Self {
        lightings: 0,
        times: 1,
    };
    /// Once each time.
    pub(crate) const EACH_TIME: Self = Self {
        lightings: 1,
        times: 1,
    };
}

/// How often the stove is lit for the drinks of a day alone. They are made at the sittings of
/// supper and breakfast; at one that is cooked the flame burns already. One drink a day goes with
/// breakfast.
fn lit_for_drinks(menu: &Menu) -> Lit {
    let a_day = menu.drinks.times_a_day.max(1);
    let evening = menu.supper.is_cold() && a_day > 1;
    Lit {
        lightings: u32::from(menu.breakfast.is_cold()) + u32::from(evening),
        times: a_day,
    }
}

impl Hold {
    /// Minutes where water boils at a temperature.
    pub(crate) fn minutes(self, boiling: Temperature, factor: f64) -> Time {
        match self {
            Self::None => Time::ZERO,
            Self::Rule(time) => time,
            Self::Simmer(time) => minutes_at_height(time, boiling, factor, SEA_LEVEL_BOIL),
        }
    }
}

/// How often each meal is eaten at a camp: suppers, breakfasts, lunches.
///
/// Each night has a supper and the next day's breakfast, both at that camp, and that day's
/// lunch; the trip's last day ends with breakfast unless a later last meal is stated, its first
/// day starts with supper unless an earlier first meal is.
fn eaten(trip: &Trip, index: usize) -> (u32, u32, u32) {
    let nights = trip.camps[index].nights;
    if trip.kind == Kind::Lesson {
        return (1, 0, 0);
    }
    let (mut suppers, mut breakfasts, mut lunches) = (nights, nights, nights);
    if index + 1 == trip.camps.len() {
        match trip.last_meal {
            Meal::Supper => suppers += 1,
            Meal::Lunch => {}
            _ => lunches = lunches.saturating_sub(1),
        }
    }
    if index == 0 {
        match trip.first_meal {
            Meal::Breakfast => {
                breakfasts += 1;
                lunches += 1;
            }
            Meal::Lunch => lunches += 1,
            _ => {}
        }
    }
    (suppers, breakfasts, lunches)
}

/// Every use of the stove of one kitchen at one camp, in the order of [`Meal`].
pub(crate) fn needs(
    trip: &Trip,
    library: &Library,
    kitchen: &Kitchen,
    index: usize,
    work: &CampWork,
) -> Vec<Need> {
    let camp = &trip.camps[index];
    if trip.lights_nothing() || camp.no_stove {
        return Vec::new();
    }
    let people = f64::from(kitchen.people);
    let (suppers, breakfasts, lunches) = eaten(trip, index);
    let meal = |meal: Meal, need: &MealNeed, times: u32, a_day: u32, air, lights| Need {
        meal,
        times,
        a_day,
        parts: vec![Part {
            water: need.boil * people,
            a_person: Some(need.boil),
            end: End::Boil,
        }],
        hold: if need.simmer > Time::ZERO {
            Hold::Simmer(need.simmer)
        } else {
            Hold::None
        },
        air,
        wind: camp.wind,
        lights,
    };
    let menu = &camp.menu;
    let mut all = vec![meal(
        Meal::Supper,
        &menu.supper,
        suppers,
        1,
        camp.day,
        Lit::EACH_TIME,
    )];
    if trip.kind == Kind::Trip {
        all.push(meal(
            Meal::Breakfast,
            &menu.breakfast,
            breakfasts,
            1,
            camp.night,
            Lit::EACH_TIME,
        ));
        all.push(meal(
            Meal::Lunch,
            &menu.lunch,
            lunches,
            1,
            camp.day,
            Lit::EACH_TIME,
        ));
        let a_day = menu.drinks.times_a_day;
        all.push(meal(
            Meal::Drinks,
            &menu.drinks,
            a_day * camp.nights,
            a_day,
            camp.day,
            lit_for_drinks(menu),
        ));
        all.extend(drinking(trip, library, camp, people, work));
        all.extend(washing(trip, library, camp, people, suppers));
    }
    all.retain(|need| need.a_day > 0 && need.parts.iter().any(|part| part.water > Volume::ZERO));
    all
}

/// Drinking water that takes heat: boiled to make it safe, or melted.
fn drinking(
    trip: &Trip,
    library: &Library,
    camp: &Camp,
    people: f64,
    work: &CampWork,
) -> Option<Need> {
    let boiled = trip.treatment == Treatment::Boil;
    let melted = camp.water_from == WaterFrom::Snow;
    if !boiled && !melted {
        return None;
    }
    Some(Need {
        meal: if boiled { Meal::Treatment } else { Meal::Snow },
        times: camp.nights,
        a_day: 1,
        parts: vec![Part {
            water: camp.drinking * people,
            a_person: Some(camp.drinking),
            end: if boiled {
                End::Boil
            } else {
                End::At(library.figures.melt_to.value)
            },
        }],
        hold: if boiled && work.plan.hold > Time::ZERO {
            Hold::Rule(work.plan.hold)
        } else {
            Hold::None
        },
        air: camp.day,
        wind: camp.wind,
        lights: Lit::NEVER,
    })
}

/// Wash water that takes heat; it follows the suppers. Cold water counts only from snow.
fn washing(trip: &Trip, library: &Library, camp: &Camp, people: f64, suppers: u32) -> Option<Need> {
    let method = library.figures.washing.get(&trip.washing)?;
    let cold =
        (camp.water_from == WaterFrom::Snow).then_some(End::At(library.figures.melt_to.value));
    let mut parts = Vec::new();
    if method.a_person > Volume::ZERO
        && let Some(end) = cold
    {
        parts.push(Part {
            water: method.a_person * people,
            a_person: Some(method.a_person),
            end,
        });
    }
    for (water, at) in &method.a_kitchen {
        if let Some(end) = at.map(End::At).or(cold) {
            parts.push(Part {
                water: *water,
                a_person: None,
                end,
            });
        }
    }
    (!parts.is_empty()).then_some(Need {
        meal: Meal::Washing,
        times: suppers,
        a_day: 1,
        parts,
        hold: Hold::None,
        air: camp.day,
        wind: camp.wind,
        lights: Lit::NEVER,
    })
}
