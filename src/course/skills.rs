//! The skills check: parallel forms of one blueprint, drawn from a seed.
//!
//! 1. [`targets`] are the objectives that are checked;
//! 2. the blueprint says how many questions each gets and which sums are set;
//! 3. each form draws other questions where an objective has several, else the same ones in
//!    another order, with other choices first and other numbers in the sums.
//!
//! What is watched at the stove is the same for every form. Scenes with marked places are for
//! study cards and the page to learn from: a form has no room for a drawing.

use crate::course::dice::Dice;
use crate::course::practice::{self, Group, Level as SumLevel, Request, Topic};
use crate::diag::Outcome;
use crate::nouns::{CourseRequest, Id, Library, Module, Objective, Question, QuestionKind, Sum};
use crate::units::Units;

/// The forms: two for neighbours at a table, one for the day when someone tries again.
pub const LETTERS: [char; 3] = ['A', 'B', 'C'];

/// Lines of writing that two sides of paper hold.
const MOST_LINES: usize = 84;

/// Letters in a line.
const LINE: usize = 84;

/// Questions for an objective at most.
const MOST_EACH: usize = 2;

/// Sums on a form at most.
const MOST_SUMS: usize = 2;

/// Draws before a repetition is let stand.
const TRIES: u64 = 40;

/// An objective that is checked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target<'a> {
    /// Its module.
    pub module: &'a Module,
    /// Its id in the module.
    pub id: &'a Id,
    /// What the learner can do.
    pub objective: &'a Objective,
}

/// The parallel forms and what they have in common.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Check<'a> {
    /// What is watched at the stove, the criticals first.
    pub targets: Vec<Target<'a>>,
    /// Most questions for an objective, the same on every form; one that has too few for three forms
    /// without a repetition gets one.
    pub each: usize,
    /// Sums on every form.
    pub sums: usize,
    /// Objectives without a question: two sides hold no more, or the handout does not tell their
    /// subject in full. They are watched only.
    pub only_watched: Vec<Target<'a>>,
    /// The forms, in the order of their letters.
    pub forms: Vec<Form<'a>>,
}

/// A form.
#[derive(Clone, Debug, PartialEq)]
pub struct Form<'a> {
    /// `A`.
    pub letter: char,
    /// Its questions in order.
    pub items: Vec<Item<'a>>,
    /// Numbers of those, from 1, that an earlier form asks too: the pool holds no others. Sums have
    /// other numbers on each form and are not among them.
    pub repeats: Vec<usize>,
}

/// A question on a form.
#[derive(Clone, Debug, PartialEq)]
pub struct Item<'a> {
    /// The objective that it is for.
    pub target: Target<'a>,
    /// The question.
    pub question: &'a Question,
    /// The choices or steps as shown: indices into those of the question.
    pub shown: Vec<usize>,
    /// A sum with its numbers, one problem in a group.
    pub sum: Option<Group>,
}

impl Item<'_> {
    /// Whether a wrong answer stops the check: sums never do.
    #[must_use]
    pub const fn critical(&self) -> bool {
        self.target.objective.critical && self.question.sum.is_none()
    }
}

/// The objectives that are checked: those of these modules for the learners' level, without
/// what they bring unless it keeps people alive; the criticals first.
#[must_use]
pub fn targets<'a>(modules: &[&'a Module], course: &CourseRequest) -> Vec<Target<'a>> {
    let mut targets: Vec<Target<'a>> = modules
        .iter()
        .flat_map(|module| {
            let module: &'a Module = module;
            module.objectives.iter().map(move |(id, objective)| Target {
                module,
                id,
                objective,
            })
        })
        .filter(|one| {
            let levels = &one.objective.levels;
            levels.is_empty() || levels.contains(&course.level)
        })
        .filter(|one| {
            let name = format!("{}.{}", one.module.id, one.id);
            one.objective.critical || !course.known.contains(&name)
        })
        .collect();
    targets.sort_by_key(|one| !one.objective.critical);
    targets
}

/// The forms for these objectives; `holds` says whether a question of a module is asked on the trip.
///
/// # Errors
/// When the library lacks what a sum speaks of.
pub fn check<'a>(
    targets: Vec<Target<'a>>,
    holds: impl Fn(&Module, &Question) -> bool,
    library: &Library,
    units: Units,
    seed: u32,
) -> Outcome<Check<'a>> {
    let mut asked: Vec<(Target<'a>, Vec<&'a Question>)> = Vec::new();
    let mut only_watched = Vec::new();
    let mut sums: Vec<(Target<'a>, &'a Question)> = Vec::new();
    for target in &targets {
        let pool: Vec<&Question> = target
            .module
            .questions
            .iter()
            .filter(|question| question.objective == *target.id && question.scene.is_none())
            .filter(|question| holds(target.module, question))
            .collect();
        let (plain, of_sums): (Vec<_>, Vec<_>) =
            pool.iter().partition(|question| question.sum.is_none());
        if pool.is_empty() {
            only_watched.push(*target);
        } else if plain.is_empty() {
            asked.push((*target, pool));
        } else {
            sums.extend(of_sums.first().map(|question| (*target, *question)));
            asked.push((*target, plain));
        }
    }
    sums.truncate(MOST_SUMS);
    let of_sums: usize = sums.iter().map(|(_, question)| lines(question)).sum();
    // The last of those that are not critical go: the criticals stand in front and stay.
    while asked
        .last()
        .is_some_and(|(target, _)| !target.objective.critical)
        && longest(&asked, 1) + of_sums > MOST_LINES
    {
        only_watched.extend(asked.pop().map(|(target, _)| target));
    }
    let several = asked.iter().any(|(_, pool)| many(pool, MOST_EACH) > 1);
    let each = if several && longest(&asked, MOST_EACH) + of_sums <= MOST_LINES {
        MOST_EACH
    } else {
        1
    };
    let mut forms: Vec<Form<'a>> = Vec::new();
    for (place, letter) in LETTERS.into_iter().enumerate() {
        let mut items = Vec::new();
        for (target, pool) in &asked {
            for question in drawn(pool, many(pool, each), place, seed, target) {
                items.push(item(
                    *target, question, place, &forms, library, units, seed,
                )?);
            }
        }
        for (target, question) in &sums {
            items.push(item(
                *target, question, place, &forms, library, units, seed,
            )?);
        }
        let order = Dice::new(u64::from(seed), &[name("order"), number(place)]).order(items.len());
        let mut waiting: Vec<Option<Item<'a>>> = items.into_iter().map(Some).collect();
        let items: Vec<Item<'a>> = order
            .into_iter()
            .filter_map(|index| waiting[index].take())
            .collect();
        let before = |item: &Item<'a>| {
            let mut asked = forms.iter().flat_map(|form| &form.items);
            item.sum.is_none() && asked.any(|one| std::ptr::eq(one.question, item.question))
        };
        let repeats = (0..items.len())
            .filter(|index| before(&items[*index]))
            .map(|index| index + 1)
            .collect();
        forms.push(Form {
            letter,
            items,
            repeats,
        });
    }
    Ok(Check {
        each,
        sums: sums.len(),
        only_watched,
        forms,
        targets,
    })
}

/// Questions of an objective on each form: no more than all forms together find without asking one
/// twice.
fn many(pool: &[&Question], most: usize) -> usize {
    if pool.len() >= LETTERS.len() * most {
        most
    } else {
        1
    }
}

/// The questions of an objective on one form: the next ones of a drawn order, so that forms
/// share none while there are enough.
fn drawn<'a>(
    pool: &[&'a Question],
    each: usize,
    place: usize,
    seed: u32,
    target: &Target<'_>,
) -> Vec<&'a Question> {
    let own = name(&format!("{}.{}", target.module.id, target.id));
    let order = Dice::new(u64::from(seed), &[own]).order(pool.len());
    let first = place * each;
    if first + each <= pool.len() {
        return order[first..first + each]
            .iter()
            .map(|index| pool[*index])
            .collect();
    }
    // No more that are new: any of them, so that the third form is not the first again.
    let again = Dice::new(u64::from(seed), &[own, number(place)]).order(pool.len());
    let fresh = order.iter().skip(first).copied();
    let mut chosen: Vec<usize> = fresh.collect();
    for index in again {
        if chosen.len() < each && !chosen.contains(&index) {
            chosen.push(index);
        }
    }
    chosen.into_iter().map(|index| pool[index]).collect()
}

fn item<'a>(
    target: Target<'a>,
    question: &'a Question,
    place: usize,
    earlier: &[Form<'a>],
    library: &Library,
    units: Units,
    seed: u32,
) -> Outcome<Item<'a>> {
    let own = name(&format!("{}.{}", target.module.id, question.id));
    let before: Vec<&Item<'a>> = earlier
        .iter()
        .flat_map(|form| &form.items)
        .filter(|one| one.target.module.id == target.module.id && one.question.id == question.id)
        .collect();
    let mut shown = Vec::new();
    let mut sum = None;
    let mut attempt = 0;
    loop {
        let mut dice = Dice::new(u64::from(seed), &[own, number(place), attempt]);
        let count = question.choices.len();
        match question.kind {
            QuestionKind::Choice => {
                // Another letter is right on each form.
                let first = Dice::new(u64::from(seed), &[own]).below(count);
                shown = dice.order(count.saturating_sub(1));
                for index in &mut shown {
                    *index += 1;
                }
                if count > 0 {
                    shown.insert((first + place) % count, 0);
                }
            }
            QuestionKind::Order => shown = dice.order(count),
            _ => {}
        }
        if let Some(of) = question.sum {
            sum = Some(numbers(of, library, units, &mut dice)?);
        }
        attempt += 1;
        let given_away = question.kind == QuestionKind::Order && shown.is_sorted();
        let seen = before.iter().any(|one| {
            one.shown == shown && one.sum == sum && !(shown.is_empty() && sum.is_none())
        });
        if attempt >= TRIES || !(given_away || seen) {
            break;
        }
    }
    if question.kind == QuestionKind::Order && shown.is_sorted() {
        shown.reverse();
    }
    Ok(Item {
        target,
        question,
        shown,
        sum,
    })
}

/// A sum with numbers of its own.
fn numbers(of: Sum, library: &Library, units: Units, dice: &mut Dice) -> Outcome<Group> {
    let topic = match of {
        Sum::Boils => Topic::Boils,
        Sum::Canister => Topic::Canister,
        Sum::Snow => Topic::Snow,
        Sum::Spare => Topic::Spare,
        Sum::Steps => Topic::Steps,
        Sum::Bleach => Topic::Bleach,
        Sum::Push => Topic::Push,
    };
    let request = Request {
        topics: vec![topic],
        count: 1,
        level: Some(SumLevel::Step),
        seed: number(dice.below(1_000_000_000)),
        units,
    };
    let made = practice::practice(library, &request)?;
    Ok(made.groups.into_iter().next().unwrap_or(Group {
        topic,
        level: SumLevel::Step,
        numbers: Vec::new(),
        table: None,
        careful: Vec::new(),
        problems: Vec::new(),
    }))
}

/// Lines that the longest form can take.
fn longest(asked: &[(Target<'_>, Vec<&Question>)], each: usize) -> usize {
    asked
        .iter()
        .map(|(_, pool)| {
            let mut of_each: Vec<usize> = pool.iter().map(|question| lines(question)).collect();
            of_each.sort_unstable_by(|a, b| b.cmp(a));
            of_each.into_iter().take(many(pool, each)).sum::<usize>()
        })
        .sum()
}

/// Lines that a question takes, with the room to answer and the gap after it.
fn lines(question: &Question) -> usize {
    let of = |text: &str| text.chars().count().div_ceil(LINE);
    let choices: usize = question.choices.iter().map(|choice| of(choice)).sum();
    let ask = of(&question.ask) + 1;
    match question.kind {
        QuestionKind::Choice => ask + choices,
        QuestionKind::Order => ask + choices + 2,
        QuestionKind::Number if question.sum.is_some() => ask + 9,
        QuestionKind::Number | QuestionKind::Short => ask + 2,
        QuestionKind::SpotTheFault | QuestionKind::WhatNow => ask + 4,
    }
}

/// A number for a name, the same on every machine.
fn name(of: &str) -> u64 {
    of.bytes().fold(0xcbf2_9ce4_8422_2325, |state, byte| {
        (state ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

fn number(of: usize) -> u64 {
    u64::try_from(of).unwrap_or(u64::MAX)
}
