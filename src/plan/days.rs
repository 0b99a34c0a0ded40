//! The meals of a trip, day by day, as they are counted.

use crate::nouns::{Date, Kind, Meal, MealNeed, Trip};
use crate::phrase::{Phrase, phrase};
use crate::units::{Units, Volume, say};

/// What is cooked on one day, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct DayPlan {
    /// The day of the trip, from 1.
    pub day: u32,
    /// Its date, where the first is stated.
    pub date: Option<Date>,
    /// Index of the camp where the night is spent; none on the last day.
    pub sleep: Option<usize>,
    /// Breakfast, lunch and supper that are eaten on the trip.
    pub meals: [Option<DayMeal>; 3],
}

/// A meal of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayMeal {
    /// Index of the camp where it is cooked.
    pub camp: usize,
    /// What it needs for each person.
    pub need: MealNeed,
}

impl DayMeal {
    /// That it is cold, or the water that each person's share takes and how long it simmers; its
    /// `water` and `simmer` put as a sheet puts them.
    pub fn saying(&self, units: Units, put: impl Fn(&str, String) -> String) -> Phrase {
        if self.need.boil <= Volume::ZERO {
            return phrase!("meal-cold");
        }
        let water = put("water", say::volume(self.need.boil, units));
        let simmer = self.need.simmer.in_minutes();
        if simmer <= 0.0 {
            return phrase!("meal-hot", water = water);
        }
        let minutes = put("simmer", format!("{} min", say::plain(simmer, 0)));
        phrase!("meal-hot-and-simmers", water = water, minutes = minutes)
    }
}

/// The days of a trip; a lesson has none.
///
/// A night has its supper, the next day's breakfast and lunch at one camp; the first and the last
/// meal cut the first and the last day short, or make them longer.
#[must_use]
pub fn days(trip: &Trip) -> Vec<DayPlan> {
    if trip.kind == Kind::Lesson {
        return Vec::new();
    }
    let nights: Vec<usize> = trip
        .camps
        .iter()
        .enumerate()
        .flat_map(|(index, camp)| (0..camp.nights).map(move |_| index))
        .collect();
    let meal = |camp: usize, meal: Meal| {
        let menu = &trip.camps[camp].menu;
        let need = match meal {
            Meal::Breakfast => &menu.breakfast,
            Meal::Lunch => &menu.lunch,
            _ => &menu.supper,
        };
        Some(DayMeal { camp, need: *need })
    };
    (0..=nights.len())
        .map(|index| {
            let here = nights.get(index).copied();
            let before = index.checked_sub(1).map(|night| nights[night]);
            let (first, last) = (before.is_none(), here.is_none());
            // On the first day all is cooked at the first camp.
            let woke = before.or(here);
            let begins = |meals: &[Meal]| !first || meals.contains(&trip.first_meal);
            let ends = |meals: &[Meal]| !last || meals.contains(&trip.last_meal);
            let breakfast = begins(&[Meal::Breakfast]);
            let lunch =
                begins(&[Meal::Breakfast, Meal::Lunch]) && ends(&[Meal::Lunch, Meal::Supper]);
            let supper = ends(&[Meal::Supper]);
            let day = index as u32;
            DayPlan {
                day: day + 1,
                date: trip.starts.map(|date| date.plus_days(day)),
                sleep: here,
                meals: [
                    woke.filter(|_| breakfast)
                        .and_then(|camp| meal(camp, Meal::Breakfast)),
                    woke.filter(|_| lunch)
                        .and_then(|camp| meal(camp, Meal::Lunch)),
                    here.or(woke)
                        .filter(|_| supper)
                        .and_then(|camp| meal(camp, Meal::Supper)),
                ],
            }
        })
        .collect()
}
