//! Advice from the same sums, each with its reason: the pot, melting snow, what a container has to
//! teach with, the lightest kit, and what a forecast of wind means at the stove.

use super::stability;
use super::types::{Allowed, KitchenPlan, Plan, Row};
use crate::nouns::{
    Container, ContainerKind, Fuel, Id, Kitchen, Library, Meal, Pot, Trip, WaterFrom, Wind,
};
use crate::physics::heating::surface_m2;
use crate::physics::pots;
use crate::physics::wind::share_at_height_log_law;
use crate::units::{Angle, Fraction, Length, Mass, Time, Volume};

/// Capacities that pots come in, litres (assumption).
const SIZES_L: [f64; 10] = [0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0];

/// The height that a weather service's wind is given for (WMO-No. 8, second-hand).
pub const FORECAST_HEIGHT: Length = Length::metres(10.0);

/// The height of a pot on a stove that stands on the ground (assumption).
const STOVE_HEIGHT: Length = Length::metres(0.3);

/// Roughness length of open, even grass (WMO-No. 8, second-hand).
const OPEN_GROUND: Length = Length::metres(0.03);

/// All advice for a trip or lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// One a kitchen, in order.
    pub kitchens: Vec<KitchenAdvice>,
    /// The lightest kit; none where no stoves were compared or none may be used.
    pub lightest: Option<LightestKit>,
    /// What a forecast means at the stove.
    pub wind: WindAdvice,
}

/// Advice for one kitchen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct KitchenAdvice {
    /// On its pot; none where nothing is cooked or a pot never boils.
    pub pot: Option<PotAdvice>,
    /// On melting snow, one a camp that lives on it.
    pub melting: Vec<MeltAdvice>,
    /// What one container or filling gives; none where nothing is lit.
    pub burn: Option<BurnAdvice>,
}

/// The pot that takes the fewest batches.
#[derive(Clone, Debug, PartialEq)]
pub struct PotAdvice {
    /// Index of the camp of the meal that takes the most batches.
    pub camp: usize,
    /// That meal.
    pub meal: Meal,
    /// Its water.
    pub water: Volume,
    /// Its batches in the pots there are.
    pub now: usize,
    /// A pot that would take fewer; none where none does.
    pub better: Option<BetterPot>,
    /// Why no larger one.
    pub limit: PotLimit,
}

/// A pot that takes fewer batches than those there are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BetterPot {
    /// Its capacity.
    pub capacity: Volume,
    /// Its batches of the meal.
    pub batches: usize,
    /// The least tilt that tips it, full of water.
    pub tilt: Option<Angle>,
}

/// Why no larger pot is better still.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PotLimit {
    /// The meal is one batch.
    OneBatch,
    /// An alcohol burner's filling is the limit, whatever the pot.
    Filling,
    /// The stove is warned of above this capacity.
    Bears(Volume),
    /// A pot of this capacity stands out too far over the canister.
    Overhangs(Volume),
    /// A pot of this capacity would not boil at every meal.
    NeverBoils(Volume),
    /// No size that pots come in takes fewer.
    NoneFewer,
}

/// Melting snow at one camp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeltAdvice {
    /// Index of the camp.
    pub camp: usize,
    /// Water melted a day.
    pub a_day: Volume,
    /// Water melted in an hour at the stove, set-up included.
    pub in_an_hour: Volume,
    /// Time at the stove for it a day.
    pub time: Time,
}

/// How long one container or filling burns.
#[derive(Clone, Debug, PartialEq)]
pub struct BurnAdvice {
    /// What: a container's name, none for a burner's filling.
    pub container: Option<String>,
    /// The fuel in it that can be burnt.
    pub fuel: Mass,
    /// At full flame, warm.
    pub full: Time,
    /// At the least flame; none where it cannot be turned down.
    pub least: Option<Time>,
}

/// The lightest kit at the start.
#[derive(Clone, Debug, PartialEq)]
pub struct LightestKit {
    /// Id of its stove.
    pub stove: Id,
    /// Id of its fuel.
    pub fuel: Id,
    /// Name of its stove.
    pub name: String,
    /// Stoves, containers and fuel at the start.
    pub start: Mass,
    /// Whether it may be used here, or has to be asked.
    pub allowed: Allowed,
    /// Whether a kitchen has it already.
    pub own: bool,
}

/// A forecast of wind at the stove.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindAdvice {
    /// Share of the forecast wind that reaches a stove on open, even ground.
    pub share: Fraction,
    /// Forecasts below this are calm at the stove, m/s.
    pub calm_below: f64,
    /// Forecasts below this, and not calm, are breezy at the stove, m/s.
    pub breezy_below: f64,
}

/// Advice for a planned trip.
#[must_use]
pub fn advice(trip: &Trip, library: &Library, plan: &Plan) -> Advice {
    let share = share_at_height_log_law(STOVE_HEIGHT, FORECAST_HEIGHT, OPEN_GROUND);
    let forecast = |wind: Wind| wind.up_to() / share.in_one();
    Advice {
        kitchens: trip
            .kitchens
            .iter()
            .zip(&plan.kitchens)
            .map(|(kitchen, one)| KitchenAdvice {
                pot: pot(kitchen, library, one),
                melting: melting(plan, one),
                burn: burn(kitchen, library, one),
            })
            .collect(),
        lightest: lightest(plan),
        wind: WindAdvice {
            share,
            calm_below: forecast(Wind::Calm),
            breezy_below: forecast(Wind::Breezy),
        },
    }
}

/// The pot for the meal that takes the most batches; snow, drinking and wash water aside.
fn pot(kitchen: &Kitchen, library: &Library, plan: &KitchenPlan) -> Option<PotAdvice> {
    if !plan.boils() {
        return None;
    }
    let size = |row: &&Row| row.batches.len() * 1_000_000 + row.water.in_millilitres() as usize;
    // Snow, drinking and wash water go on potful by potful: nobody carries a pot for them.
    let meal = |row: &&Row| !matches!(row.meal, Meal::Snow | Meal::Treatment | Meal::Washing);
    // of equals the first
    let row = plan.rows.iter().filter(meal).rev().max_by_key(size)?;
    let now = row.batches.len();
    let of = |better, limit| {
        Some(PotAdvice {
            camp: row.camp,
            meal: row.meal,
            water: row.water,
            now,
            better,
            limit,
        })
    };
    if now <= 1 {
        return of(None, PotLimit::OneBatch);
    }
    if kitchen.stove.one_fill.is_some() {
        return of(None, PotLimit::Filling);
    }
    let figures = &library.figures;
    let fill = if row.heat.melt.in_kilojoules() > 0.0 {
        figures.fill_snow.value
    } else {
        figures.fill.value
    };
    let batches = |capacity| pots::batches(row.water, &[capacity], fill).len();
    let mut better: Option<BetterPot> = None;
    for capacity in SIZES_L.map(Volume::litres) {
        let least = better.map_or(now, |one| one.batches);
        let count = batches(capacity);
        if count >= least {
            continue;
        }
        let water = row.water.min(capacity * fill.in_one());
        let stood = stability::with_pot(kitchen, library, plan, &like(kitchen, capacity)?, water);
        let limit = match kitchen.stove.warn_pot_above {
            Some(most) if capacity > most => Some(PotLimit::Bears(most)),
            _ if stood.is_some_and(|one| one.overhangs) => Some(PotLimit::Overhangs(capacity)),
            _ if !boils(kitchen, library, plan, capacity) => Some(PotLimit::NeverBoils(capacity)),
            _ => None,
        };
        if let Some(limit) = limit {
            return of(better, limit);
        }
        better = Some(BetterPot {
            capacity,
            batches: count,
            tilt: stood.map(|one| one.tilt),
        });
        if count == 1 {
            return of(better, PotLimit::OneBatch);
        }
    }
    of(better, PotLimit::NoneFewer)
}

/// The largest pot of a kitchen at another capacity, its mass in proportion.
fn like(kitchen: &Kitchen, capacity: Volume) -> Option<Pot> {
    let litres = |pot: &&Pot| pot.capacity.in_litres();
    let largest = kitchen
        .pots
        .iter()
        .max_by(|a, b| litres(a).total_cmp(&litres(b)))?;
    Some(Pot {
        capacity,
        mass: largest.mass * (capacity / largest.capacity),
        ..largest.clone()
    })
}

/// Whether a pot of this capacity boils in every row: the whole loss grows with the surface.
fn boils(kitchen: &Kitchen, library: &Library, plan: &KitchenPlan, capacity: Volume) -> bool {
    plan.rows.iter().all(|row| {
        let (Some(term), Some(batch)) = (row.terms.heating.first(), row.batches.first()) else {
            return true;
        };
        let Some(pot) = kitchen.pots.get(batch.pot) else {
            return true;
        };
        let wind = &term.winds[1];
        let larger = surface_m2(capacity) / surface_m2(pot.capacity);
        let lost = wind.loss.at(batch.end) * larger;
        wind.flow >= lost * library.figures.boil_margin.value
    })
}

/// Snow melted to drink, camp by camp.
#[must_use]
pub fn melting(plan: &Plan, kitchen: &KitchenPlan) -> Vec<MeltAdvice> {
    let melts = |row: &&Row| {
        let drunk = matches!(row.meal, Meal::Snow | Meal::Treatment);
        let snow = plan.camps[row.camp].water_from == WaterFrom::Snow;
        drunk && snow && row.stops.is_none() && row.minutes > Time::ZERO
    };
    let of = |row: &Row| {
        let nights = plan.camps[row.camp].nights.max(1);
        let times = f64::from(row.times) / f64::from(nights);
        MeltAdvice {
            camp: row.camp,
            a_day: row.water * times,
            in_an_hour: row.water * (Time::hours(1.0) / row.minutes),
            time: row.minutes * times,
        }
    };
    kitchen.rows.iter().filter(melts).map(of).collect()
}

/// The mass of a filling or of what can be burnt of a full container.
fn usable(kitchen: &Kitchen, container: &Container, fuel: &Fuel) -> Mass {
    let full = match container.kind {
        ContainerKind::Bottle => {
            let litres = container.capacity.in_litres() * container.fill.in_one();
            Mass::kilograms(litres * fuel.density)
        }
        ContainerKind::Canister | ContainerKind::Pack => container.net,
    };
    debug_assert!(container.fuels.contains(&kitchen.fuel.kind));
    full - container.residue - full * container.residue_share.in_one()
}

/// How long the first kind of container that is handed out burns, or an alcohol burner's filling.
fn burn(kitchen: &Kitchen, library: &Library, plan: &KitchenPlan) -> Option<BurnAdvice> {
    if plan.rows.is_empty() {
        return None;
    }
    let stove = &kitchen.stove;
    let (container, fuel) = if let Some(fill) = stove.one_fill {
        let mass = Mass::kilograms(fill.in_litres() * kitchen.fuel.density);
        (None, mass)
    } else {
        let first = plan.containers.first()?;
        let container = library.containers.get(&first.container)?;
        let mass = usable(kitchen, container, &kitchen.fuel);
        (Some(container.name.clone()), mass)
    };
    let heat = plan.fuel.heating_value * fuel;
    let least = stove.least_power;
    Some(BurnAdvice {
        container,
        fuel,
        full: heat / stove.power,
        least: (least < stove.power).then(|| heat / least),
    })
}

/// The lightest kit of the stoves that are not ruled out here.
fn lightest(plan: &Plan) -> Option<LightestKit> {
    plan.comparison
        .iter()
        .filter(|row| row.allowed != Allowed::No)
        .filter_map(|row| Some((row, row.carried?.start)))
        .min_by(|(_, a), (_, b)| a.in_grams().total_cmp(&b.in_grams()))
        .map(|(row, start)| LightestKit {
            stove: row.stove.clone(),
            fuel: row.fuel.clone(),
            name: row.stove_name.clone(),
            start,
            allowed: row.allowed,
            own: plan.kitchens.iter().any(|one| one.stove == row.stove),
        })
}
