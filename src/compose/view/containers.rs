//! What a kitchen is handed, in words: one wording for every sheet.

use super::{Inputs, OneKitchen};
use crate::compose::catalogue::text;
use crate::compose::words;
use crate::markdown;
use crate::nouns::{ContainerKind, FuelKind, id};
use crate::phrase::phrase;
use crate::plan::statements::container_id;
use crate::plan::{Issue, IssuedContainer, KitchenPlan, Plan, issues};
use crate::units::{Mass, Units, say};
use schemars::JsonSchema;
use serde::Serialize;

/// What is handed out to a kitchen for one leg.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct IssueBlock {
    /// `at the start` or `at Otter weir`; empty where all is handed out at the start.
    pub place: String,
    /// Whether it goes into the bag at the start, and not to a drop on the way.
    pub in_bag: bool,
    /// `needs 1185 g (41.8 oz), issued 1267 g (44.7 oz)`.
    pub sums: String,
    /// `5 containers`.
    pub count: String,
    /// All of them on the scale.
    pub gross: String,
    /// A line a container.
    pub lines: Vec<ContainerLine>,
}

/// One container.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ContainerLine {
    /// `canister 230 g F-014`, or `canister 450 g, new 2 of 3`.
    pub name: String,
    /// Fuel in it, with how far a bottle is filled.
    pub fuel: String,
    /// On the scale.
    pub gross: String,
    /// Mass on the scale in grams, without its unit.
    pub gross_g: String,
    /// Empty in grams, or `not known`.
    pub tare_g: String,
}

/// What one kitchen is handed, on its way into words.
#[derive(Clone, Copy)]
pub struct Handed<'a> {
    plan: &'a Plan,
    kitchen: &'a KitchenPlan,
    units: Units,
    /// What is stated, so that the words stand under their ids; none off the sheets.
    inputs: Option<&'a Inputs<'a>>,
}

impl<'a> Inputs<'a> {
    /// What a kitchen is handed.
    #[must_use]
    pub fn handed(&'a self, one: OneKitchen<'a>) -> Handed<'a> {
        Handed {
            plan: self.plan,
            kitchen: one.plan,
            units: self.units,
            inputs: Some(self),
        }
    }
}

impl<'a> Handed<'a> {
    /// The same in plain words, for what is no sheet.
    #[must_use]
    pub const fn plain(plan: &'a Plan, kitchen: &'a KitchenPlan, units: Units) -> Self {
        Self {
            plan,
            kitchen,
            units,
            inputs: None,
        }
    }

    fn say(&self, id: &str, words: String) -> String {
        match self.inputs {
            Some(inputs) => inputs.say(id, words),
            None => words,
        }
    }

    fn of_leg(&self, one: &Issue, what: &str, words: String) -> String {
        let id = format!("kitchen.{}.leg-{}.{what}", self.kitchen.slug, one.leg + 1);
        self.say(&id, words)
    }

    fn of_container(&self, one: &IssuedContainer, what: &str, words: String) -> String {
        let id = container_id(self.kitchen, one.line);
        self.say(&format!("{id}.{what}"), words)
    }

    /// The legs for which something is needed.
    fn issues(&self) -> Vec<Issue> {
        let mut all = issues(self.plan, self.kitchen);
        all.retain(|one| one.needed > Mass::ZERO);
        all
    }

    /// What it is handed, a block a leg; none where nothing is.
    #[must_use]
    pub fn blocks(&self) -> Vec<IssueBlock> {
        let issues = self.issues();
        let blocks = issues.iter().map(|one| IssueBlock {
            place: self.place(one),
            in_bag: one.in_bag,
            sums: self.sums(one),
            count: count(one),
            gross: self.of_leg(one, "gross", say::load(one.gross, self.units)),
            lines: one.containers.iter().map(|one| self.line(one)).collect(),
        });
        blocks.collect()
    }

    /// Where it is handed out; nothing where all of it is at the start.
    fn place(&self, one: &Issue) -> String {
        match self.plan.camps.get(one.from) {
            Some(camp) if !one.in_bag => text(&phrase!("handed-at", camp = camp.name)),
            _ if one.until < self.plan.camps.len() => text(&phrase!("handed-at-start")),
            _ => String::new(),
        }
    }

    /// What the practice burns of a lesson take, beside its menu; empty where they take nothing.
    #[must_use]
    pub fn practice(&self) -> String {
        let issues = self.issues();
        let burns = issues.iter().find(|one| one.practice > Mass::ZERO);
        burns.map_or_else(String::new, |one| {
            self.of_leg(one, "practice", say::fuel(one.practice, self.units))
        })
    }

    /// `needs 1185 g, issued 1267 g`; in a lesson with what practice burns of it.
    fn sums(&self, one: &Issue) -> String {
        let fuel = |what, mass| self.of_leg(one, what, say::fuel(mass, self.units));
        let needed = fuel("needed", one.needed);
        let practice = (one.practice > Mass::ZERO).then(|| fuel("practice", one.practice));
        let issued = (!one.containers.is_empty()).then(|| fuel("issued", one.issued));
        text(&match (practice, issued) {
            (None, None) => phrase!("handed-needs", needed = needed),
            (Some(practice), None) => {
                phrase!(
                    "handed-needs-practice",
                    needed = needed,
                    practice = practice
                )
            }
            (None, Some(issued)) => phrase!("handed-issued", needed = needed, issued = issued),
            (Some(practice), Some(issued)) => phrase!(
                "handed-issued-practice",
                needed = needed,
                practice = practice,
                issued = issued
            ),
        })
    }

    fn line(&self, one: &IssuedContainer) -> ContainerLine {
        let units = self.units;
        let of = |what, words| self.of_container(one, what, words);
        let net = of("net", say::fuel(one.net, units));
        let grams = |mass: Mass| say::number(mass.in_grams(), 0);
        ContainerLine {
            name: name(one),
            fuel: text(&match (one.kind, one.fill) {
                (ContainerKind::Bottle, Some(fill)) => phrase!(
                    "container-fill",
                    fill = of("fill", say::volume(fill, units)),
                    net = net
                ),
                _ => phrase!("container-fuel", net = net),
            }),
            gross: of("gross", say::fuel(one.gross, units)),
            gross_g: of("gross", grams(one.gross)),
            tare_g: one.tare.map_or_else(
                || text(&phrase!("not-known")),
                |tare| of("tare", grams(tare)),
            ),
        }
    }

    /// A container for a list: its name, and how far a bottle is filled.
    #[must_use]
    pub fn packed(&self, one: &IssuedContainer) -> String {
        match (one.kind, one.fill) {
            (ContainerKind::Bottle, Some(fill)) => {
                let fill = self.of_container(one, "fill", say::volume(fill, self.units));
                text(&phrase!("container-packed", name = name(one), fill = fill))
            }
            _ => name(one),
        }
    }

    /// A leg's containers in a few words: `F-014 (141 g), 3 × new canister 450 g (450 g each)`.
    fn in_short(&self, one: &Issue) -> Vec<String> {
        let mut groups: Vec<(&IssuedContainer, u32)> = Vec::new();
        for container in &one.containers {
            let same = |(known, _): &&mut (&IssuedContainer, u32)| {
                known.tag.is_none()
                    && container.tag.is_none()
                    && known.name == container.name
                    && known.net == container.net
            };
            match groups.iter_mut().find(same) {
                Some((_, count)) => *count += 1,
                None => groups.push((container, 1)),
            }
        }
        let groups = groups.into_iter().map(|(one, count)| {
            let grams = format!("{} g", say::number(one.net.in_grams(), 0));
            let grams = self.of_container(one, "net", grams);
            match &one.tag {
                Some(tag) => format!("{tag} ({grams})"),
                None => text(&phrase!(
                    "containers-new",
                    count = count,
                    name = one.name,
                    grams = grams
                )),
            }
        });
        groups.collect()
    }

    /// Why it is handed nothing: its pots that never boil, and what would make each; those that
    /// stop alike together.
    #[must_use]
    pub fn will_not_boil(&self) -> Option<String> {
        let mut alike: Vec<(Vec<String>, [String; 2])> = Vec::new();
        for row in self.kitchen.failing() {
            let Some(stops) = &row.stops else { continue };
            let camp = &self.plan.camps[row.camp];
            let meal = text(&phrase!("meal-at", meal = row.meal, camp = camp.name));
            let at = format!(
                "kitchen.{}.{}.{}",
                self.kitchen.slug,
                camp.slug,
                id(row.meal.word())
            );
            let stops_at = say::temperature(stops.at, self.units);
            let stop = [
                self.say(&format!("{at}.stops-at"), stops_at),
                text(&stops.remedy_saying(|most| self.say(&format!("{at}.pot-at-most"), most))),
            ];
            let seen = |stop: &[String; 2]| stop.each_ref().map(|one| markdown::without_marks(one));
            let same = |known: &&mut (Vec<String>, [String; 2])| seen(&known.1) == seen(&stop);
            match alike.iter_mut().find(same) {
                Some((meals, _)) => meals.push(meal),
                None => alike.push((vec![meal], stop)),
            }
        }
        let each: Vec<String> = alike
            .iter()
            .map(|(meals, [at, remedy])| {
                text(&phrase!(
                    "handed-stops",
                    meals = words::list(meals),
                    at = at,
                    remedy = remedy
                ))
            })
            .collect();
        let each = each.join(". ");
        (!each.is_empty()).then(|| text(&phrase!("handed-will-not-boil", each = each)))
    }

    /// Why it is handed nothing, where something stands in the way.
    fn nothing(&self) -> Option<String> {
        let cold = || {
            self.kitchen
                .stays_cold
                .then(|| text(&phrase!("handed-stays-cold")))
        };
        self.will_not_boil().or_else(cold)
    }

    /// What it is handed in one phrase a leg, without the containers' names: for a sheet that
    /// lists them.
    #[must_use]
    pub fn in_brief(&self) -> Vec<(String, String)> {
        if let Some(why) = self.nothing() {
            return vec![(String::new(), why)];
        }
        let blocks = self.blocks().into_iter();
        blocks.map(|one| (one.place, one.sums)).collect()
    }

    /// What it is handed in one phrase a leg: place (empty where there is one leg), then needed,
    /// issued, containers; or why it is handed nothing.
    #[must_use]
    pub fn in_words(&self) -> Vec<(String, String)> {
        if let Some(why) = self.nothing() {
            return vec![(String::new(), why)];
        }
        let issues = self.issues();
        let words = issues.iter().map(|one| {
            let containers = self.in_short(one);
            let words = if containers.is_empty() {
                self.sums(one)
            } else {
                text(&phrase!(
                    "handed-in",
                    sums = self.sums(one),
                    count = count(one),
                    containers = words::list(&containers)
                ))
            };
            (self.place(one), words)
        });
        words.collect()
    }

    /// What it starts each leg with, for the card; or why it starts with nothing.
    #[must_use]
    pub fn starts_with(&self) -> Vec<String> {
        if let Some(why) = self.will_not_boil() {
            return vec![text(&phrase!("starts-with-nothing", why = why))];
        }
        if let Some(why) = self.nothing() {
            return vec![why];
        }
        let issues = self.issues();
        let words = issues.iter().map(|one| {
            let camp = self.plan.camps.get(one.from).filter(|_| !one.in_bag);
            let fuel = |what, mass| self.of_leg(one, what, say::fuel(mass, self.units));
            let needed = fuel("needed", one.needed);
            let starts = if one.containers.is_empty() {
                phrase!("starts-with", needed = needed)
            } else {
                let issued = fuel("issued", one.issued);
                phrase!(
                    "starts-with-issued",
                    issued = issued,
                    count = count(one),
                    needed = needed
                )
            };
            text(&match camp {
                Some(camp) => phrase!("starts-from", camp = camp.name, starts = starts),
                None => starts,
            })
        });
        words.collect()
    }
}

fn count(one: &Issue) -> String {
    text(&phrase!("containers-count", count = one.containers.len()))
}

/// A container by its tag, or which new one it is.
fn name(one: &IssuedContainer) -> String {
    match (&one.tag, one.new) {
        (Some(tag), _) => format!("{} {tag}", one.name),
        (None, Some((number, of))) if of > 1 => text(&phrase!(
            "container-new-of",
            name = one.name,
            number = number,
            of = of
        )),
        (None, _) => text(&phrase!("container-new", name = one.name)),
    }
}

/// How the fuel left is found without a scale.
#[must_use]
pub fn without_scale(kind: FuelKind) -> String {
    text(&match kind {
        FuelKind::Canister => phrase!("no-scale-canister"),
        FuelKind::WhiteGas | FuelKind::Kerosene | FuelKind::Alcohol => phrase!("no-scale-bottle"),
        FuelKind::Tablet => phrase!("no-scale-tablets"),
    })
}
