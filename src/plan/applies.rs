//! Whether a module, caution, item or drawing applies: to a trip, at one of its camps, for one of
//! its kitchens; and why.

use crate::nouns::{
    AppliesWhen, Arrival, Camp, Family, FuelKind, Id, Kind, Kitchen, Screen, Treatment, Trip,
    Washing, WaterFrom,
};
use crate::units::{Length, Temperature};

/// A condition of [`AppliesWhen`], and what was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// It is this kind of trip or not.
    Kind(Kind),
    /// Whether a stove may be lit.
    Flame(bool),
    /// A kitchen that burns one of the fuels.
    Fuel {
        /// The fuels.
        of: Vec<FuelKind>,
        /// The kitchen and its fuel.
        found: Option<(String, String)>,
    },
    /// A kitchen with one of the stoves.
    Stove {
        /// The stoves.
        of: Vec<Family>,
        /// The kitchen and its stove.
        found: Option<(String, String)>,
    },
    /// A kitchen with one of the windscreens.
    Windscreen {
        /// The windscreens.
        of: Vec<Screen>,
        /// The kitchen and its windscreen.
        found: Option<(String, Screen)>,
    },
    /// A camp with a night below this.
    ColderThan(Temperature, Option<String>),
    /// A camp above this.
    HigherThan(Length, Option<String>),
    /// So many people or more; how many there are.
    PeopleFrom(u32, u32),
    /// Someone may be younger than this.
    YoungestUnder(u32),
    /// A camp in one of the places.
    Place {
        /// The places.
        of: Vec<Id>,
        /// The camp and its place.
        found: Option<(String, Id)>,
    },
    /// A camp in none of the places.
    PlaceOtherThan {
        /// The places.
        of: Vec<Id>,
        /// The camp and its place.
        found: Option<(String, Id)>,
    },
    /// A camp with water from one of these.
    WaterFrom {
        /// From where.
        of: Vec<WaterFrom>,
        /// The camp and where its water is from.
        found: Option<(String, WaterFrom)>,
    },
    /// They arrive so.
    Arrival(Vec<Arrival>),
    /// Water is treated in one of these ways; how it is.
    Treatment(Vec<Treatment>, Treatment),
    /// Someone has a diet or allergy.
    Diet,
    /// They wash up in one of these ways; how they do.
    Washing(Vec<Washing>, Washing),
    /// One of several holds (its reasons), or none does (why not, each).
    AnyOf(Vec<Reason>),
}

/// Why conditions hold (no reason: they always do), or the first that does not.
pub type Verdict = Result<Vec<Reason>, Reason>;

impl AppliesWhen {
    /// Whether the conditions hold on a trip: at any camp, for any kitchen.
    #[must_use]
    pub fn holds(&self, trip: &Trip) -> bool {
        self.judged(trip).is_ok()
    }

    /// Whether they hold at a camp: what is said of a camp must be true of this one.
    #[must_use]
    pub fn holds_at(&self, trip: &Trip, camp: &Camp) -> bool {
        self.judge(&Scope {
            camps: std::slice::from_ref(camp),
            ..Scope::whole(trip)
        })
        .is_ok()
    }

    /// Whether they hold for a kitchen: what is said of a kitchen must be true of this one.
    #[must_use]
    pub fn holds_for(&self, trip: &Trip, kitchen: &Kitchen) -> bool {
        let mut scope = Scope::whole(trip);
        if !scope.kitchens.is_empty() {
            scope.kitchens = std::slice::from_ref(kitchen);
        }
        self.judge(&scope).is_ok()
    }

    /// Why they hold on a trip, or the first that does not.
    ///
    /// # Errors
    /// The condition that does not hold.
    pub fn judged(&self, trip: &Trip) -> Verdict {
        self.judge(&Scope::whole(trip))
    }

    fn judge(&self, scope: &Scope<'_>) -> Verdict {
        let mut because = Vec::new();
        for (holds, reason) in self.single(scope) {
            if !holds {
                return Err(reason);
            }
            because.push(reason);
        }
        if !self.any.is_empty() {
            let judged: Vec<Verdict> = self.any.iter().map(|one| one.judge(scope)).collect();
            match judged.iter().find_map(|one| one.as_ref().ok()) {
                Some(reasons) => because.push(Reason::AnyOf(reasons.clone())),
                None => {
                    let fails = judged.into_iter().filter_map(Result::err);
                    return Err(Reason::AnyOf(fails.collect()));
                }
            }
        }
        Ok(because)
    }

    /// Each condition but `any`, and whether it holds.
    fn single(&self, scope: &Scope<'_>) -> Vec<(bool, Reason)> {
        let (trip, people) = (scope.trip, &scope.trip.people);
        let mut all = Vec::new();
        if let Some(kind) = self.kind {
            all.push((trip.kind == kind, Reason::Kind(kind)));
        }
        if let Some(flame) = self.flame {
            let nowhere = !scope.camps.is_empty() && scope.camps.iter().all(|camp| camp.no_stove);
            let lit = !trip.without_flame() && !nowhere;
            all.push((flame == lit, Reason::Flame(flame)));
        }
        self.of_kitchens(scope, &mut all);
        self.of_camps(scope, &mut all);
        if let Some(least) = self.people_from {
            let reason = Reason::PeopleFrom(least, people.all());
            all.push((people.all() >= least, reason));
        }
        if let Some(limit) = self.youngest_under {
            // An unknown age is taken for young: the cautious side.
            let young = people.youngest.is_none_or(|age| age < limit);
            all.push((young, Reason::YoungestUnder(limit)));
        }
        if !self.arrival.is_empty() {
            let so = trip.arrival.is_some_and(|how| self.arrival.contains(&how));
            all.push((so, Reason::Arrival(self.arrival.clone())));
        }
        if !self.treatment.is_empty() {
            let so = self.treatment.contains(&trip.treatment);
            let reason = Reason::Treatment(self.treatment.clone(), trip.treatment);
            all.push((so, reason));
        }
        if !self.washing.is_empty() {
            let so = trip.kind == Kind::Lesson || self.washing.contains(&trip.washing);
            let reason = Reason::Washing(self.washing.clone(), trip.washing);
            all.push((so, reason));
        }
        if self.diet {
            all.push((!people.diet.is_empty(), Reason::Diet));
        }
        all
    }

    fn of_kitchens(&self, scope: &Scope<'_>, all: &mut Vec<(bool, Reason)>) {
        let mut kitchens = scope.kitchens.iter();
        if !self.fuel.is_empty() {
            let found = kitchens
                .clone()
                .find(|one| self.fuel.contains(&one.fuel.kind))
                .map(|one| (one.name.clone(), one.fuel.name.clone()));
            let of = self.fuel.clone();
            all.push((found.is_some(), Reason::Fuel { of, found }));
        }
        if !self.stove.is_empty() {
            let found = kitchens
                .clone()
                .find(|one| self.stove.contains(&one.stove.family))
                .map(|one| (one.name.clone(), one.stove.name.clone()));
            let of = self.stove.clone();
            all.push((found.is_some(), Reason::Stove { of, found }));
        }
        if !self.windscreen.is_empty() {
            let found = kitchens
                .find(|one| self.windscreen.contains(&one.screen))
                .map(|one| (one.name.clone(), one.screen));
            let of = self.windscreen.clone();
            all.push((found.is_some(), Reason::Windscreen { of, found }));
        }
    }

    fn of_camps(&self, scope: &Scope<'_>, all: &mut Vec<(bool, Reason)>) {
        let find = |is: &dyn Fn(&Camp) -> bool| scope.camps.iter().find(|camp| is(camp));
        let name = |camp: &Camp| camp.name.clone();
        if let Some(limit) = self.colder_than {
            // A lesson has no night.
            let lesson = scope.trip.kind == Kind::Lesson;
            let coldest = |camp: &Camp| if lesson { camp.day } else { camp.night };
            let found = find(&|camp| coldest(camp) < limit).map(name);
            all.push((found.is_some(), Reason::ColderThan(limit, found)));
        }
        if let Some(limit) = self.higher_than {
            let found = find(&|camp| camp.elevation > limit).map(name);
            all.push((found.is_some(), Reason::HigherThan(limit, found)));
        }
        let place = |camp: &Camp| (camp.name.clone(), camp.place.clone());
        if !self.place.is_empty() {
            let found = find(&|camp| self.place.contains(&camp.place)).map(place);
            let of = self.place.clone();
            all.push((found.is_some(), Reason::Place { of, found }));
        }
        if !self.place_other_than.is_empty() {
            let found = find(&|camp| !self.place_other_than.contains(&camp.place)).map(place);
            let of = self.place_other_than.clone();
            all.push((found.is_some(), Reason::PlaceOtherThan { of, found }));
        }
        if !self.water_from.is_empty() {
            let found = find(&|camp| self.water_from.contains(&camp.water_from));
            let found = found.map(|camp| (camp.name.clone(), camp.water_from));
            let of = self.water_from.clone();
            all.push((found.is_some(), Reason::WaterFrom { of, found }));
        }
    }
}

/// What conditions are judged for.
#[derive(Clone, Copy)]
struct Scope<'a> {
    trip: &'a Trip,
    camps: &'a [Camp],
    kitchens: &'a [Kitchen],
}

impl<'a> Scope<'a> {
    /// A whole trip; where no stove may be lit no kitchen counts.
    fn whole(trip: &'a Trip) -> Self {
        Self {
            trip,
            camps: &trip.camps,
            kitchens: if trip.without_flame() {
                &[]
            } else {
                &trip.kitchens
            },
        }
    }
}

/// Whether all conditions hold on a trip.
#[must_use]
pub fn applies(when: &AppliesWhen, trip: &Trip) -> bool {
    when.holds(trip)
}
