//! The lesson handout: drawings, this trip's numbers, cautions, and what the
//! reader will be checked on.

use super::common::{
    CautionGroup, CautionView, Extent, Head, Pair, Prose, for_looking_up, under_heading,
};
use super::watched::{Watched, watched};
use super::{Filled, Inputs, fuel, wash};
use crate::compose::catalogue::text;
use crate::compose::cautions::Needed;
use crate::compose::prose::lines_behind;
use crate::compose::words;
use crate::course::skills;
use crate::doc;
use crate::nouns::{Id, Level, Module, StoveRule, Treatment};
use crate::phrase::phrase;
use crate::units::{Time, say};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Words that four sides hold, a drawing counted as so many words.
const FOUR_SIDES: usize = 1950;

/// Words that six sides hold when subjects are told without their summaries: for what the
/// lesson is about.
const SIX_SIDES: usize = 3200;

/// Words whose room a drawing takes.
const DRAWING_WORDS: usize = 90;

/// Drawings of a subject on paper: its first; the page to learn from has all of them.
const MOST_DRAWINGS: usize = 1;

/// Words of what the plan warns of, a kitchen.
const WARNING_WORDS: usize = 50;

/// Words whose room a line of the numbers takes.
const ROW_WORDS: usize = 14;

/// The handout.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Handout {
    /// The head.
    pub head: Head,
    /// This trip's numbers.
    pub numbers: Vec<Pair>,
    /// The subjects told in full.
    pub sections: Vec<Section>,
    /// The other subjects in a sentence each.
    pub briefly: Vec<Section>,
    /// Whether there are any.
    pub has_briefly: bool,
    /// Whether summaries and the sections' own codes give way to what the lesson is about.
    pub tight: bool,
    /// Their cautions, gathered.
    pub brief_cautions: Vec<CautionGroup>,
    /// What the reader will be checked on, in the assessor's words; what is watched at each stands
    /// on the assessor's grid.
    pub checked: Vec<Watched>,
    /// Whether anything is checked.
    pub has_checked: bool,
    /// What is checked of the subjects that are told in a sentence, and what is watched at it.
    pub must: Vec<Must>,
    /// What the numbers themselves warn of.
    pub warnings: Vec<CautionView>,
    /// What is done first when it has gone wrong, subject by subject.
    pub first: Vec<Prose>,
    /// Whether any subject says so.
    pub has_first: bool,
}

/// What is checked of a subject that is told in a sentence.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Must {
    /// The subject's title.
    pub title: String,
    /// What is done, and what is watched at it.
    pub watched: Watched,
}

/// A subject.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Section {
    /// Its title.
    pub title: String,
    /// What it is for.
    pub summary: Prose,
    /// Its text.
    pub text: Prose,
    /// Its cautions.
    pub cautions: Vec<CautionGroup>,
    /// The instructor's box, for those who will teach it.
    pub instructor: Prose,
    /// Whether it is printed.
    pub has_instructor: bool,
    /// Its drawings.
    pub drawings: Vec<Prose>,
    /// Source codes behind its figures.
    pub codes: String,
    /// Whether there are any.
    pub has_codes: bool,
}

/// The handout of a trip.
#[must_use]
pub fn sheets(inputs: &Inputs<'_>, title: &str) -> Vec<Filled> {
    let Told { full, brief, tight } = told(inputs);
    let mut figures: BTreeMap<String, doc::Figure> = BTreeMap::new();
    let mut all_sources = BTreeSet::new();
    let mut sections = Vec::new();
    for module in &full {
        let mut one = section(inputs, module, true, &mut all_sources);
        for (fence, figure) in inputs.drawings_of(module).into_iter().take(MOST_DRAWINGS) {
            one.drawings.push(fence);
            figures.insert(figure.id.clone(), figure);
        }
        sections.push(one);
    }
    let briefly: Vec<Section> = brief
        .iter()
        .map(|module| section(inputs, module, false, &mut all_sources))
        .collect();
    let checked = watched(inputs, &inputs.check.targets);
    let first: Vec<Prose> = responding(inputs)
        .map(|module| {
            inputs.cite(module, &[&module.first_response], &mut all_sources);
            Prose::new(inputs.filler.line(module, &module.first_response))
        })
        .collect();
    let view = Handout {
        head: inputs.head(title, None, &all_sources),
        numbers: numbers(inputs),
        sections,
        has_briefly: !briefly.is_empty(),
        tight,
        briefly,
        brief_cautions: inputs.caution_groups(&brief, Extent::Gravest),
        has_checked: !checked.is_empty(),
        must: inputs
            .check
            .targets
            .iter()
            .zip(&checked)
            .filter(|(target, _)| brief.iter().any(|module| module.id == target.module.id))
            .map(|(target, watched)| Must {
                title: target.module.title.clone(),
                watched: watched.clone(),
            })
            .collect(),
        checked,
        warnings: inputs.plan_warnings(),
        has_first: !first.is_empty(),
        first,
    };
    vec![Filled::of(None, &view, figures)]
}

/// The cautions of what is told, in full, and the gravest of every other hazard.
#[must_use]
pub fn needs(inputs: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    let (full, brief) = choose(inputs);
    let full = full
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Full));
    let brief = brief
        .into_iter()
        .flat_map(|module| inputs.needed(module, Extent::Gravest));
    full.chain(brief).collect()
}

/// The modules of the trip that say what is done first when it has gone wrong.
pub fn responding<'a>(inputs: &Inputs<'a>) -> impl Iterator<Item = &'a Module> {
    let modules = inputs.modules.iter().copied();
    let react = inputs.trip.people.may_react();
    modules
        .filter(|module| !module.first_response.is_empty())
        .filter(move |module| react || !module.applies.diet)
}

/// What is told, and at which length.
struct Told<'a> {
    /// Modules told in full.
    full: Vec<&'a Module>,
    /// The others: a sentence and the gravest caution.
    brief: Vec<&'a Module>,
    /// Whether summaries give way to what the lesson is about.
    tight: bool,
}

/// The modules told in full and those told in a sentence.
#[must_use]
pub fn choose<'a>(inputs: &Inputs<'a>) -> (Vec<&'a Module>, Vec<&'a Module>) {
    let told = told(inputs);
    (told.full, told.brief)
}

/// What is told: what the lesson is about, as much as six sides hold; then, as much as four
/// sides hold, the trip's own stove, what has critical objectives and drawings, and the others.
fn told<'a>(inputs: &Inputs<'a>) -> Told<'a> {
    let focus = &about(inputs);
    let on_it: Vec<&Module> = inputs
        .modules
        .iter()
        .copied()
        .filter(|module| !for_looking_up(module) || focus.contains(&module.id))
        .collect();
    let mut ranked = on_it.clone();
    ranked.sort_by_key(|module| {
        let asked = focus.iter().position(|id| *id == module.id);
        let own_stove = !module.applies.fuel.is_empty() || !module.applies.stove.is_empty();
        let critical = module.objectives.values().any(|one| one.critical);
        let plain = module.drawings.is_empty();
        (
            asked.is_none(),
            asked,
            !(own_stove && critical),
            !critical,
            plain,
            module.order,
        )
    });
    let summaries: usize = on_it
        .iter()
        .map(|module| words::in_text(&module.summary))
        .sum();
    // By how many there may be, not by what they say: a learner more or less must not change
    // what is taught and asked.
    let kitchens = inputs.trip.kitchens.len();
    let warnings = kitchens * WARNING_WORDS;
    let rows = (inputs.plan.camps.len() + kitchens) * 2 * ROW_WORDS;
    let brief: usize = ranked
        .iter()
        .map(|module| brief_words(inputs, module))
        .sum();
    let first: usize = responding(inputs)
        .map(|module| words::in_text(&module.first_response))
        .sum();
    let mut taken = warnings + rows + first + brief;
    let mut full: BTreeSet<&str> = BTreeSet::new();
    for module in &ranked {
        let more = full_words(inputs, module).saturating_sub(brief_words(inputs, module));
        let asked = focus.contains(&module.id) && taken + more <= SIX_SIDES;
        if asked || taken + more + summaries <= FOUR_SIDES {
            taken += more;
            full.insert(&module.id);
        }
    }
    let (full, brief) = on_it
        .into_iter()
        .partition(|module| full.contains(module.id.as_str()));
    Told {
        full,
        brief,
        tight: taken + summaries > FOUR_SIDES,
    }
}

/// Words of a module told in a sentence, which is counted apart, with its gravest caution.
fn brief_words(inputs: &Inputs<'_>, module: &Module) -> usize {
    words::in_text(&module.title) + caution_count(inputs, module, Extent::Gravest)
}

/// Words of a module told in full, its drawings and what is checked counted in.
fn full_words(inputs: &Inputs<'_>, module: &Module) -> usize {
    let drawings = module
        .drawings
        .iter()
        .filter(|drawing| inputs.holds(&drawing.applies))
        .count()
        .min(MOST_DRAWINGS);
    let instructor = if for_teachers(inputs) {
        words::in_text(&module.instructor)
    } else {
        0
    };
    let checked: usize = skills::targets(&[module], &inputs.trip.course)
        .iter()
        .map(|target| words::in_text(&target.objective.say))
        .sum();
    words::in_text(&module.title)
        + words::in_text(&inputs.text_of(module))
        + instructor
        + checked
        + caution_count(inputs, module, Extent::Full)
        + drawings * DRAWING_WORDS
}

fn caution_count(inputs: &Inputs<'_>, module: &Module, extent: Extent) -> usize {
    inputs
        .chosen(module, extent)
        .into_iter()
        .map(|caution| words::in_text(&inputs.caution_words(module, caution, extent)))
        .sum()
}

fn section(
    inputs: &Inputs<'_>,
    module: &Module,
    in_full: bool,
    all: &mut BTreeSet<String>,
) -> Section {
    let mut sources = BTreeSet::new();
    let told = if in_full {
        let text = inputs.text_of(module);
        inputs.cite(module, &[&text], &mut sources);
        under_heading(&inputs.filler.prose(module, &text), 3)
    } else {
        String::new()
    };
    let instructor = if in_full && for_teachers(inputs) {
        inputs.cite(module, &[&module.instructor], &mut sources);
        lines_behind(&inputs.filler.prose(module, &module.instructor), ">")
    } else {
        String::new()
    };
    inputs.cite(module, &[&module.summary], &mut sources);
    for caution in inputs.held(module) {
        inputs.cite(
            module,
            &[
                &caution.hazard,
                &caution.consequence,
                &caution.avoid,
                &caution.respond,
            ],
            &mut sources,
        );
    }
    all.extend(sources.iter().cloned());
    Section {
        title: module.title.clone(),
        summary: Prose::new(inputs.filler.line(module, &module.summary)),
        text: Prose::new(told.trim()),
        cautions: if in_full {
            inputs.caution_groups(&[module], Extent::Full)
        } else {
            Vec::new()
        },
        has_instructor: !instructor.is_empty(),
        instructor: Prose::new(instructor),
        drawings: Vec::new(),
        has_codes: !sources.is_empty(),
        codes: words::cited(&sources),
    }
}

/// Whether the reader will teach it, and gets the instructor's boxes too.
fn for_teachers(inputs: &Inputs<'_>) -> bool {
    inputs.trip.course.level == Level::InstructorCandidate
}

/// The modules whose objectives are checked, in their order.
#[must_use]
pub fn checked<'a>(inputs: &Inputs<'a>) -> Vec<&'a Module> {
    let targets = &inputs.check.targets;
    let mut modules = inputs.modules.clone();
    modules.retain(|module| targets.iter().any(|one| one.module.id == module.id));
    modules
}

/// What the lesson is about: its focus, and then what is checked because it keeps people alive.
fn about(inputs: &Inputs<'_>) -> Vec<Id> {
    let mut about = inputs.trip.course.focus.clone();
    for target in &inputs.check.targets {
        if !about.contains(&target.module.id) {
            about.push(target.module.id.clone());
        }
    }
    about
}

/// This trip's numbers, in the order a cook meets them.
#[must_use]
pub fn numbers(inputs: &Inputs<'_>) -> Vec<Pair> {
    let units = inputs.units;
    let mut numbers = Shared::default();
    for (index, camp) in inputs.plan.camps.iter().enumerate() {
        if !inputs.flame() {
            break;
        }
        let boils = say::temperature(camp.boiling, units);
        let height = say::elevation(camp.elevation, units);
        numbers.push(
            What::Boils,
            &inputs.camp_name(camp),
            text(&phrase!(
                "numbers-boils-up",
                boils = inputs.of_camp(index, "boils", boils),
                height = inputs.of_camp(index, "elevation", height)
            )),
        );
    }
    for one in inputs.kitchens() {
        for (place, fuel) in inputs.handed(one).in_words() {
            let at = if place.is_empty() { "" } else { ": " };
            let likely = say::fuel(one.plan.fuel.likely, units);
            numbers.push(
                What::Fuel,
                &one.kitchen.name,
                if one.plan.boils() {
                    text(&phrase!(
                        "numbers-fuel-likely",
                        fuel = format!("{place}{at}{fuel}"),
                        likely = inputs.of_kitchen(one, "likely", likely),
                        stove = fuel::stove_and_fuel(one)
                    ))
                } else {
                    format!("{fuel}; {}", fuel::stove_and_fuel(one))
                },
            );
        }
    }
    if !inputs.flame() {
        numbers.push(
            What::FireRule,
            &inputs.trip.title,
            words::stove_rule(StoveRule::No),
        );
    }
    let step = inputs.say("trip.step", say::small_length(inputs.trip.step, units));
    for one in wash::lines(inputs) {
        numbers.push(
            What::Wash,
            &one.camp,
            if one.in_steps {
                text(&phrase!(
                    "numbers-wash-in-steps",
                    wash = one.words(),
                    step = step
                ))
            } else {
                one.words()
            },
        );
    }
    for one in inputs.kitchens() {
        if let Some(stability) = &one.plan.stability {
            numbers.push(What::Push, &one.kitchen.name, {
                let push = words::push_words(stability.rim_push);
                let tilt = say::number(stability.tip_angle_worst.in_degrees(), 0);
                text(&phrase!(
                    "numbers-push-and-tilt",
                    push = inputs.of_kitchen(one, "push", push),
                    tilt = inputs.of_kitchen(one, "tilt", format!("{tilt}°"))
                ))
            });
        }
    }
    let mut numbers = numbers.pairs();
    numbers.push(Pair::new(
        text(&phrase!("numbers-drinking-water")),
        words::capital(&treated(inputs)),
    ));
    numbers
}

/// What a number of camps or kitchens is about.
#[derive(Clone, Copy, PartialEq)]
enum What {
    Boils,
    Fuel,
    FireRule,
    Wash,
    Push,
}

impl What {
    /// What stands before the value of all that share it.
    fn of(self, names: &[String]) -> String {
        let of = words::list(names);
        text(&match self {
            Self::Boils => phrase!("numbers-boils", of = of),
            Self::Fuel => phrase!("numbers-fuel", of = of, count = names.len()),
            Self::FireRule => phrase!("numbers-fire-rule", of = of),
            Self::Wash => phrase!("numbers-wash", of = of),
            Self::Push => phrase!("numbers-push", of = of),
        })
    }
}

/// Numbers of camps and kitchens; those that share one stand in one line.
#[derive(Default)]
struct Shared(Vec<(What, Vec<String>, String)>);

/// What is seen of a value: equal ones of several camps are told once.
fn words_of(value: &str) -> String {
    crate::markdown::without_marks(value)
}

impl Shared {
    fn push(&mut self, what: What, name: &str, value: String) {
        let known = self
            .0
            .iter_mut()
            .find(|(other, _, said)| *other == what && words_of(said) == words_of(&value));
        match known {
            Some((_, names, _)) => names.push(name.to_owned()),
            None => self.0.push((what, vec![name.to_owned()], value)),
        }
    }

    fn pairs(self) -> Vec<Pair> {
        self.0
            .into_iter()
            .map(|(what, names, value)| Pair::new(what.of(&names), value))
            .collect()
    }
}

/// How drinking water is made safe, in words; where it is boiled, how long, by the rule in force.
#[must_use]
pub fn treated(inputs: &Inputs<'_>) -> String {
    let held = safe_boil(inputs);
    match inputs.trip.treatment {
        Treatment::Boil if !held.is_empty() => text(&phrase!("treated-boiled-for", time = held)),
        how => treatment(how),
    }
}

/// How long a rolling boil is held to make water safe: once where all camps agree, else camp by
/// camp; empty where water is made safe otherwise, or no time is asked for.
#[must_use]
pub fn safe_boil(inputs: &Inputs<'_>) -> String {
    if inputs.trip.treatment != Treatment::Boil || !inputs.flame() {
        return String::new();
    }
    let mut told: Vec<(Time, String, Vec<&str>)> = Vec::new();
    let camps = inputs.plan.camps.iter().enumerate();
    for (index, camp) in camps.filter(|(_, camp)| camp.hold > Time::ZERO) {
        match told.iter_mut().find(|(hold, ..)| *hold == camp.hold) {
            Some((.., names)) => names.push(&camp.name),
            None => {
                let held = inputs.of_camp(index, "safe-boil", say::time(camp.hold));
                told.push((camp.hold, held, vec![&camp.name]));
            }
        }
    }
    let several = told.len() > 1;
    let told: Vec<String> = told
        .into_iter()
        .map(|(_, held, names)| match several {
            true => format!("{held} ({})", names.join(", ")),
            false => held,
        })
        .collect();
    told.join(", ")
}

/// How drinking water is made safe, in words.
fn treatment(how: Treatment) -> String {
    text(&match how {
        Treatment::Tap => phrase!("treated-tap"),
        Treatment::Boil => phrase!("treated-boiled"),
        Treatment::Filter => phrase!("treated-filter"),
        Treatment::Chemical => phrase!("treated-chemical"),
        Treatment::Uv => phrase!("treated-uv"),
    })
}
