//! Advice in words, a sentence each: on the fuel worksheet's key, on a terminal, as JSON.

use super::catalogue;
use super::numbers::wrapped;
use super::view::{Inputs, OneKitchen};
use super::words;
use crate::nouns::{Library, Trip, id};
use crate::phrase::{Phrase, phrase};
use crate::plan::{
    self, Advice, Allowed, BurnAdvice, FORECAST_HEIGHT, KitchenAdvice, LightestKit, MeltAdvice,
    Plan, PotAdvice, PotLimit, WindAdvice,
};
use crate::units::{Time, Units, Volume, say};
use serde_json::{Value, json};

/// Puts a value, by its id, as the reader's page puts it.
type Tell<'t> = &'t dyn Fn(&str, String) -> String;

/// Whose advice it is: the plan, the units, and how values are put.
struct Teller<'t> {
    plan: &'t Plan,
    units: Units,
    tell: Tell<'t>,
}

/// The advice for a kitchen as the key prints it: its own, then the trip's.
pub(super) fn of_kitchen(inputs: &Inputs<'_>, one: OneKitchen<'_>) -> Vec<String> {
    if one.plan.rows.is_empty() {
        return Vec::new();
    }
    let advice = plan::advice(inputs.trip, inputs.library, inputs.plan);
    let tell = |id: &str, words: String| inputs.say(id, words);
    let teller = Teller {
        plan: inputs.plan,
        units: inputs.units,
        tell: &tell,
    };
    let mut all = advice
        .kitchens
        .get(one.index)
        .map(|mine| teller.kitchen(mine, &one.plan.slug))
        .unwrap_or_default();
    all.extend(teller.trip(&advice));
    all
}

impl Teller<'_> {
    fn kitchen(&self, one: &KitchenAdvice, slug: &str) -> Vec<String> {
        let at = format!("kitchen.{slug}.advice");
        let mut all = Vec::new();
        all.extend(one.pot.as_ref().map(|pot| self.pot(pot, &at)));
        all.extend(one.melting.iter().map(|melt| self.melt(melt, &at)));
        all.extend(one.burn.as_ref().map(|burn| self.burn(burn, &at)));
        all
    }

    fn trip(&self, advice: &Advice) -> Vec<String> {
        let mut all = Vec::new();
        all.extend(advice.lightest.as_ref().map(|kit| self.lightest(kit)));
        all.push(self.wind(&advice.wind));
        all
    }

    fn camp(&self, camp: usize) -> String {
        match self.plan.kind {
            crate::nouns::Kind::Lesson => catalogue::text(&phrase!("advice-this-place")),
            crate::nouns::Kind::Trip => self
                .plan
                .camps
                .get(camp)
                .map_or_else(String::new, |camp| camp.name.clone()),
        }
    }

    fn pot(&self, pot: &PotAdvice, at: &str) -> String {
        let volume = |what: &str, litres| (self.tell)(&format!("{at}.pot.{what}"), size(litres));
        let (meal, camp) = (pot.meal, self.camp(pot.camp));
        let limit = match pot.limit {
            PotLimit::OneBatch | PotLimit::NoneFewer => Phrase::none(),
            PotLimit::Filling => {
                return catalogue::text(&phrase!(
                    "advice-pot-filling",
                    meal = meal,
                    camp = camp,
                    now = pot.now
                ));
            }
            PotLimit::Bears(most) => {
                phrase!("advice-pot-bears", pot = volume("limit", most))
            }
            PotLimit::Overhangs(next) => {
                phrase!("advice-pot-overhangs", pot = volume("limit", next))
            }
            PotLimit::NeverBoils(next) => {
                phrase!("advice-pot-never-boils", pot = volume("limit", next))
            }
        };
        let Some(better) = pot.better else {
            return if pot.now <= 1 {
                catalogue::text(&phrase!("advice-pot-one-batch"))
            } else {
                let keep = phrase!("advice-pot-keep", meal = meal, camp = camp, now = pot.now);
                sentences(&[keep, limit])
            };
        };
        let tilt = better.tilt.map_or_else(Phrase::none, |tilt| {
            let angle = format!("{}°", say::number(tilt.in_degrees(), 0));
            let angle = (self.tell)(&format!("{at}.pot.tilt"), angle);
            phrase!("advice-pot-tilt", angle = angle)
        });
        let larger = phrase!(
            "advice-pot-larger",
            pot = volume("capacity", better.capacity),
            meal = meal,
            camp = camp,
            water = volume("water", pot.water),
            count = better.batches,
            now = pot.now
        );
        sentences(&[larger, limit, tilt])
    }

    fn melt(&self, melt: &MeltAdvice, at: &str) -> String {
        let camp = self.plan.camps.get(melt.camp);
        let slug = camp.map_or("", |camp| camp.slug.as_str());
        let at = format!("{at}.melt.{slug}");
        let tell = |what: &str, words: String| (self.tell)(&format!("{at}.{what}"), words);
        catalogue::text(&phrase!(
            "advice-melt",
            camp = self.camp(melt.camp),
            in_an_hour = tell("in-an-hour", rough(melt.in_an_hour, self.units)),
            time = tell("time", long(melt.time)),
            a_day = tell("a-day", rough(melt.a_day, self.units)),
        ))
    }

    fn burn(&self, burn: &BurnAdvice, at: &str) -> String {
        let tell = |what: &str, words: String| (self.tell)(&format!("{at}.burn.{what}"), words);
        let fuel = tell("fuel", say::fuel(burn.fuel, self.units));
        let what = match &burn.container {
            Some(name) => phrase!("advice-burn-container", name = name, fuel = fuel),
            None => phrase!("advice-burn-filling", fuel = fuel),
        };
        let full = tell("full", long(burn.full));
        catalogue::text(&match burn.least {
            Some(least) => phrase!(
                "advice-burn",
                what = what,
                full = full,
                least = tell("least", long(least))
            ),
            None => phrase!("advice-burn-always-full", what = what, full = full),
        })
    }

    fn lightest(&self, kit: &LightestKit) -> String {
        let id = format!("stove.{}.{}.start", kit.stove, kit.fuel);
        let start = (self.tell)(&id, say::load(kit.start, self.units));
        let lightest = if kit.own {
            phrase!("advice-lightest-own", stove = kit.name, start = start)
        } else {
            phrase!("advice-lightest", stove = kit.name, start = start)
        };
        let ask = if kit.allowed == Allowed::Unknown {
            phrase!("advice-lightest-ask")
        } else {
            Phrase::none()
        };
        sentences(&[lightest, ask])
    }

    fn wind(&self, wind: &WindAdvice) -> String {
        let tell = |what: &str, words: String| (self.tell)(&format!("advice.wind.{what}"), words);
        catalogue::text(&phrase!(
            "advice-wind",
            height = tell("height", say::elevation(FORECAST_HEIGHT, self.units)),
            share = tell("share", say::number(wind.share.in_percent(), 0)),
            calm = tell("calm", speed(wind.calm_below, self.units)),
            breezy = tell("breezy", speed(wind.breezy_below, self.units)),
        ))
    }
}

/// Whole sentences one after the other.
fn sentences(all: &[Phrase]) -> String {
    let said = all.iter().filter(|one| !one.is_none());
    said.map(catalogue::text).collect::<Vec<_>>().join(" ")
}

/// A time of hours in hours and minutes: `83 min`, `3 h 20 min`.
pub(super) fn long(time: Time) -> String {
    let minutes = time.in_minutes().round();
    if minutes < 120.0 {
        return format!("{} min", say::number(minutes, 0));
    }
    let (hours, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    format!("{} h {} min", say::number(hours, 0), say::number(rest, 0))
}

/// A pot's size and what goes into it, in litres as pots are named everywhere.
fn size(volume: Volume) -> String {
    format!("{} L", say::significant(volume.in_litres(), 3))
}

/// A volume as roughly as it is known.
fn rough(volume: Volume, units: Units) -> String {
    match units {
        Units::Metric => format!("{} L", say::significant(volume.in_litres(), 2)),
        Units::Us | Units::Both => words::volume(volume, units),
    }
}

/// A wind speed, rounded down so that nobody plans for less wind than there is.
fn speed(metres_a_second: f64, units: Units) -> String {
    let metric = format!("{} m/s", say::number(metres_a_second.floor(), 0));
    let us = format!(
        "{} mph",
        say::number((metres_a_second / 0.447_04).floor(), 0)
    );
    match units {
        Units::Us => us,
        Units::Metric => metric,
        Units::Both => format!("{metric} ({us})"),
    }
}

fn plainly(_: &str, words: String) -> String {
    words
}

/// All advice for a terminal, under the kitchens' names.
#[must_use]
pub fn text(trip: &Trip, library: &Library, plan: &Plan) -> String {
    let advice = plan::advice(trip, library, plan);
    let teller = Teller {
        plan,
        units: trip.units,
        tell: &plainly,
    };
    let mut out = String::new();
    let lit = plan.kitchens.iter().any(|one| !one.rows.is_empty());
    if !lit || trip.without_flame() {
        return out;
    }
    out.push_str("\nAdvice\n");
    for (kitchen, one) in plan.kitchens.iter().zip(&advice.kitchens) {
        for line in teller.kitchen(one, &kitchen.slug) {
            wrapped(&mut out, "  - ", &format!("{}: {line}", kitchen.name));
        }
    }
    for line in teller.trip(&advice) {
        wrapped(&mut out, "  - ", &line);
    }
    out
}

/// All advice as `leeside plan --json` gives it.
#[must_use]
pub fn json(trip: &Trip, library: &Library, plan: &Plan) -> Value {
    let advice = plan::advice(trip, library, plan);
    let camp = |index: usize| plan.camps.get(index).map(|camp| camp.name.as_str());
    let kitchens = plan.kitchens.iter().zip(&advice.kitchens);
    let wind = advice.wind;
    json!({
        "kitchens": kitchens.map(|(kitchen, one)| json!({
            "name": kitchen.name,
            "pot": one.pot.as_ref().map(|pot| json!({
                "camp": camp(pot.camp),
                "meal": pot.meal.word(),
                "water_l": pot.water.in_litres(),
                "batches_now": pot.now,
                "batches": pot.better.map_or(pot.now, |better| better.batches),
                "capacity_l": pot.better.map(|better| better.capacity.in_litres()),
                "tip_angle_deg": pot.better.and_then(|better| better.tilt).map(|it| it.in_degrees()),
                "limit": limit(&pot.limit),
            })),
            "melting": one.melting.iter().map(|melt| json!({
                "camp": camp(melt.camp),
                "litres_an_hour": melt.in_an_hour.in_litres(),
                "litres_a_day": melt.a_day.in_litres(),
                "minutes_a_day": melt.time.in_minutes(),
            })).collect::<Vec<_>>(),
            "burn": one.burn.as_ref().map(|burn| json!({
                "container": burn.container.as_deref().map(id),
                "fuel_g": burn.fuel.in_grams(),
                "full_minutes": burn.full.in_minutes(),
                "least_minutes": burn.least.map(Time::in_minutes),
            })),
        })).collect::<Vec<_>>(),
        "lightest": advice.lightest.map(|kit| json!({
            "stove": kit.stove,
            "fuel": kit.fuel,
            "start_mass_g": kit.start.in_grams(),
            "allowed": kit.allowed.word(),
        })),
        "wind": {
            "share_at_stove": wind.share.in_one(),
            "calm_below_m_per_s": wind.calm_below,
            "breezy_below_m_per_s": wind.breezy_below,
        },
    })
}

/// Why no larger pot, a word.
const fn limit(limit: &PotLimit) -> &'static str {
    match limit {
        PotLimit::OneBatch => "one batch",
        PotLimit::Filling => "filling",
        PotLimit::Bears(_) => "stove",
        PotLimit::Overhangs(_) => "overhang",
        PotLimit::NeverBoils(_) => "never boils",
        PotLimit::NoneFewer => "none fewer",
    }
}
