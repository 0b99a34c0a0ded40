//! The skills check: forms of one blueprint that differ, a seed that only the key tells, grids
//! for six, and questions that the handout answers.

use crate::support::content::{library, templates, trip};
use leeside::compose::catalogue::text;
use leeside::compose::sheets::Folder;
use leeside::compose::{Engine, Options, Sheet, compose};
use leeside::course::skills::{self, Check, Form, Item};
use leeside::nouns::{AppliesWhen, FuelKind, Level, Library, Module, Question, QuestionKind};
use leeside::units::Units;
use leeside::{diag, plan};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(library);

static ENGINE: LazyLock<Engine> = LazyLock::new(|| {
    Engine::new(&templates()).unwrap_or_else(|all| panic!("{}", diag::report(&all)))
});

/// The sheets of a trip given as text.
fn sheets(text: &str) -> Vec<Sheet> {
    let trip = trip("skills.yaml", text, &LIBRARY);
    let plan = plan::plan(&trip, &LIBRARY).unwrap_or_else(|all| panic!("{}", diag::report(&all)));
    compose(&trip, &plan, &LIBRARY, &ENGINE, &Options::default())
        .unwrap_or_else(|all| panic!("{}", diag::report(&all)))
}

fn example(name: &str) -> String {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content/trips");
    std::fs::read_to_string(path.join(name)).expect("an example trip")
}

fn text_of<'s>(sheets: &'s [Sheet], stem: &str) -> &'s str {
    let found = sheets.iter().find(|sheet| sheet.file_stem() == stem);
    &found.unwrap_or_else(|| panic!("no sheet {stem}")).markdown
}

/// The forms for some modules, every question taken to hold.
fn made<'a>(modules: &[&'a Module], level: Level, seed: u32) -> Check<'a> {
    let lesson = trip("skills.yaml", &lesson(8, "scout", 1, ""), &LIBRARY);
    let mut course = lesson.course;
    course.level = level;
    let targets = skills::targets(modules, &course);
    skills::check(targets, |_, _| true, &LIBRARY, Units::Metric, seed)
        .unwrap_or_else(|all| panic!("{}", diag::report(&all)))
}

/// A lesson about gas stoves and wash water, in short.
fn lesson(learners: u32, level: &str, seed: u32, more: &str) -> String {
    format!(
        "kind: lesson
title: A lesson
people:
  learners: {learners}
  instructors: 2
  youngest: 14
stove: canister on top
water_treatment: tap
place: outdoors
elevation: 300 m
course:
  minutes: 240
  level: {level}
  seed: {seed}
  focus:
    - canister-stoves
    - pots-lids-handles
{more}"
    )
}

fn name(item: &Item<'_>) -> String {
    format!("{}.{}", item.target.module.id, item.question.id)
}

/// What a reader sees of a question: which one, its choices in order, the numbers of its sum.
fn seen(item: &Item<'_>) -> String {
    let sum: Vec<String> = item
        .sum
        .iter()
        .flat_map(|group| &group.problems)
        .map(|problem| text(&problem.ask))
        .collect();
    format!("{} {:?} {sum:?}", name(item), item.shown)
}

/// How many questions and sums each objective gets.
fn blueprint(form: &Form<'_>) -> BTreeMap<(String, bool), usize> {
    let mut all = BTreeMap::new();
    for item in &form.items {
        let objective = format!("{}.{}", item.target.module.id, item.target.id);
        *all.entry((objective, item.sum.is_some())).or_insert(0) += 1;
    }
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn forms_cover_alike_and_differ(
        seed in 0u32..=999_999_999,
        picked in proptest::collection::btree_set(0usize..31, 1..5),
        level in 0usize..3,
    ) {
        let all: Vec<&Module> = LIBRARY.modules.values().collect();
        let modules: Vec<&Module> = picked.iter().filter_map(|at| all.get(*at).copied()).collect();
        let check = made(&modules, Level::ALL[level], seed);
        prop_assert_eq!(check.forms.len(), 3);
        let first = blueprint(&check.forms[0]);
        for form in &check.forms {
            // The same number of questions for each objective, and all that are not set aside.
            prop_assert_eq!(&blueprint(form), &first);
            for target in &check.targets {
                let objective = format!("{}.{}", target.module.id, target.id);
                let aside = check.only_watched.contains(target);
                let asked = first.get(&(objective, false)).copied().unwrap_or(0);
                let may = if aside { 0..=0 } else { 1..=check.each };
                prop_assert!(may.contains(&asked), "{} {}", target.id, asked);
            }
            prop_assert_eq!(form.items.iter().filter(|item| item.sum.is_some()).count(), check.sums);
            // Nothing is asked twice on a form.
            let names: BTreeSet<String> = form.items.iter().map(name).collect();
            prop_assert_eq!(names.len(), form.items.len());
            for item in &form.items {
                let mut sorted = item.shown.clone();
                sorted.sort_unstable();
                prop_assert_eq!(sorted, (0..item.question.choices.len()).collect::<Vec<_>>());
                if item.question.kind == QuestionKind::Order {
                    prop_assert!(!item.shown.is_sorted(), "the right order is given away");
                }
            }
        }
        // No form shares a question with another: the library has enough of every objective.
        let mut asked: BTreeSet<String> = BTreeSet::new();
        for form in &check.forms {
            prop_assert!(form.repeats.is_empty());
            for item in form.items.iter().filter(|item| item.sum.is_none()) {
                prop_assert!(asked.insert(name(item)), "{} twice", name(item));
            }
        }
        // What stands on two forms looks different on each, where it can.
        let mut places: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for item in check.forms.iter().flat_map(|form| &form.items) {
            if item.sum.is_some() || item.question.choices.len() > 2 {
                places.entry(name(item)).or_default().push(seen(item));
            }
        }
        for (name, shown) in places {
            let distinct: BTreeSet<&String> = shown.iter().collect();
            prop_assert_eq!(distinct.len(), shown.len(), "{} looks the same twice", name);
        }
        let whole = |form: &Form<'_>| form.items.iter().map(seen).collect::<BTreeSet<_>>();
        prop_assert_ne!(whole(&check.forms[0]), whole(&check.forms[1]));
        prop_assert_eq!(&check, &made(&modules, Level::ALL[level], seed));
    }
}

#[test]
fn another_seed_draws_other_forms() {
    let modules: Vec<&Module> = LIBRARY.modules.values().take(4).collect();
    let forms: BTreeSet<Vec<String>> = (0..200)
        .map(|seed| {
            let check = made(&modules, Level::Scout, seed);
            check.forms[0].items.iter().map(seen).collect()
        })
        .collect();
    assert!(forms.len() > 190, "{} forms of 200 seeds", forms.len());
}

/// Over the seeds each letter is right about as often as the others.
#[test]
fn no_letter_is_right_more_often() {
    let modules: Vec<&Module> = LIBRARY.modules.values().collect();
    let mut right = [0u32; 4];
    for seed in 0..60 {
        for chunk in modules.chunks(3) {
            for item in made(chunk, Level::Scout, seed)
                .forms
                .iter()
                .flat_map(|form| &form.items)
            {
                if item.question.kind == QuestionKind::Choice && item.shown.len() == 4 {
                    let at = item.shown.iter().position(|shown| *shown == 0).unwrap();
                    right[at] += 1;
                }
            }
        }
    }
    let all: u32 = right.iter().sum();
    for count in right {
        assert!(count * 5 > all && count * 10 < all * 3, "{right:?}");
    }
}

#[test]
fn what_learners_bring_is_not_asked_unless_it_keeps_people_alive() {
    let lesson = trip("skills.yaml", &lesson(8, "scout", 1, ""), &LIBRARY);
    let mut course = lesson.course;
    let modules = [&LIBRARY.modules["canister-stoves"]];
    course.known = vec![
        "canister-stoves.check-leaks".to_owned(),
        "canister-stoves.join-canister".to_owned(),
        "canister-stoves.keep-right-warmth".to_owned(),
    ];
    let left: Vec<&str> = skills::targets(&modules, &course)
        .iter()
        .map(|target| target.id.as_str())
        .collect();
    assert_eq!(left, ["check-leaks", "join-canister"]);
}

#[test]
fn only_the_key_tells_the_seed() {
    for name in ["boathouse-evening.yaml", "three-stoves.yaml"] {
        let text = example(name).replace("course:\n", "course:\n  seed: 736190852\n");
        let sheets = sheets(&text);
        for sheet in &sheets {
            let tells = sheet.markdown.contains("736190852") || sheet.markdown.contains("seed 7");
            assert_eq!(
                tells,
                sheet.name == "skills-check-key",
                "{}",
                sheet.file_stem()
            );
        }
        for sheet in sheets
            .iter()
            .filter(|one| one.name.starts_with("skills-check"))
        {
            assert_eq!(sheet.folder, Folder::Staff);
        }
    }
}

#[test]
fn every_six_candidates_get_a_grid_with_what_the_handout_says() {
    for (learners, grids) in [(1, 1), (6, 1), (7, 2), (12, 2), (13, 3)] {
        let sheets = sheets(&lesson(learners, "scout", 1, ""));
        let grid = text_of(&sheets, "skills-check-grid");
        assert_eq!(
            grid.matches("| Candidates ").count(),
            grids,
            "{learners} learners"
        );
        assert_eq!(grid.matches("Entered in the register").count(), grids);
        for head in grid
            .lines()
            .filter(|line| line.starts_with("| Candidates "))
        {
            assert_eq!(head.matches(" |").count(), 7, "{head}");
        }
        // The handout says each objective in the very words of the grid.
        let rows: Vec<String> = grid
            .lines()
            .filter(|line| line.starts_with("| **"))
            .filter_map(|line| line[4..].split_once(".**"))
            .map(|(say, _)| say.to_owned())
            .collect();
        let told: Vec<String> = text_of(&sheets, "lesson-handout")
            .lines()
            .skip_while(|line| *line != "## What you will be checked on")
            .filter_map(|line| line.strip_prefix("- [ ] "))
            .map(|line| line.replace("**MUST:**", "MUST:"))
            .collect();
        assert!(told.len() >= 4, "{told:?}");
        assert_eq!(rows.len(), told.len() * grids);
        for row in rows {
            assert!(told.contains(&row), "{row}\n{told:#?}");
        }
    }
}

#[test]
fn the_key_tells_the_right_letters_of_each_form() {
    let sheets = sheets(&example("boathouse-evening.yaml"));
    let key = text_of(&sheets, "skills-check-key");
    let of_forms: Vec<&str> = key.split("\n## Form ").skip(1).collect();
    let stems = ["skills-check", "skills-check-form-b", "skills-check-form-c"];
    assert_eq!(of_forms.len(), stems.len());
    let mut checked = 0;
    for (stem, answers) in stems.into_iter().zip(of_forms) {
        let form = text_of(&sheets, stem);
        for question in LIBRARY
            .modules
            .values()
            .flat_map(|module| &module.questions)
        {
            if question.kind != QuestionKind::Choice || question.ask.contains('{') {
                continue;
            }
            let Some((_, after)) = form.split_once(&question.ask) else {
                continue;
            };
            let right = after
                .lines()
                .find_map(|line| {
                    let line = line.trim().strip_prefix("- [ ] ")?;
                    line.ends_with(&question.choices[0]).then_some(line)
                })
                .unwrap_or_else(|| panic!("{stem}: {}", question.id));
            assert!(answers.contains(right), "{stem}: {right}");
            checked += 1;
        }
    }
    assert!(checked >= 3, "{checked}");
}

/// Sums of the forms worked again from what is printed on them (a distance over a step; the
/// weight of a canister less that of the empty one).
#[test]
fn a_sum_of_each_form_works_out_from_the_page() {
    let text = example("three-stoves.yaml").replace("- lighting-and-flames\n", "- greywater\n");
    let sheets = sheets(&text);
    let key = text_of(&sheets, "skills-check-key");
    let mut distances = BTreeSet::new();
    for stem in ["skills-check", "skills-check-form-b", "skills-check-form-c"] {
        let form = text_of(&sheets, stem);
        let line = form
            .lines()
            .find(|line| line.contains("from the lake, and your step is"))
            .unwrap_or_else(|| panic!("{stem} has no sum"));
        let numbers: Vec<f64> = line
            .split_whitespace()
            .filter_map(|word| word.trim_end_matches('.').parse().ok())
            .collect();
        let [distance, step] = numbers[..] else {
            panic!("{line}")
        };
        let (_, after) = key.split_once(line.trim()).expect("the key has the sum");
        let printed: f64 = after
            .trim_start()
            .trim_start_matches("**")
            .split(' ')
            .next()
            .and_then(|word| word.parse().ok())
            .expect("an answer");
        assert!(
            (printed - distance / step).abs() <= 1.0,
            "{line}: {printed}"
        );
        distances.insert(line.to_owned());
    }
    assert_eq!(distances.len(), 3, "each form has numbers of its own");
}

#[test]
fn handout_and_cards_follow_what_is_checked_and_for_whom() {
    let scout = sheets(&lesson(8, "scout", 1, ""));
    let teacher = sheets(&lesson(8, "instructor candidate", 1, ""));
    let module = &LIBRARY.modules["canister-stoves"];
    let title = format!("## {}", module.title);
    let note = "For those who will teach it";
    assert!(text_of(&scout, "lesson-handout").contains(&title));
    assert!(!text_of(&scout, "lesson-handout").contains(note));
    assert!(text_of(&teacher, "lesson-handout").contains(note));
    // Only the subjects that are checked have cards.
    for (sheets, group) in [(&scout, false), (&teacher, true)] {
        let cards = text_of(sheets, "study-cards");
        let key = text_of(sheets, "skills-check-key");
        let fronts: Vec<&str> = cards
            .lines()
            .filter(|line| line.contains("what can hurt you"))
            .collect();
        assert!(!fronts.is_empty());
        for front in fronts {
            let title = front.trim_start_matches("### ");
            let title = title.split(": what can").next().unwrap();
            let mut modules = LIBRARY.modules.values();
            let module = modules.find(|one| one.title == title).expect(title);
            // asked, or watched where the handout tells it in short
            let mut watched = module.objectives.values();
            assert!(watched.any(|one| key.contains(&one.say)), "{front}");
        }
        assert_eq!(cards.contains("## What an assessor looks for"), group);
    }
    // An objective for grown-ups is neither told nor asked of scouts.
    let adults: Vec<(&str, &str)> = LIBRARY
        .modules
        .values()
        .flat_map(|module| {
            module
                .objectives
                .iter()
                .filter(|(_, one)| !one.levels.is_empty() && !one.levels.contains(&Level::Scout))
                .map(|(id, _)| (module.id.as_str(), id.as_str()))
        })
        .collect();
    assert!(!adults.is_empty());
    for (module, id) in adults {
        let module = [&LIBRARY.modules[module]];
        let ids = |level| -> Vec<String> {
            let check = made(&module, level, 1);
            check
                .targets
                .iter()
                .map(|target| target.id.clone())
                .collect()
        };
        assert!(!ids(Level::Scout).iter().any(|one| one == id));
        assert!(ids(Level::InstructorCandidate).iter().any(|one| one == id));
    }
}

/// A form asks only about what the handout of the same packet tells in full.
#[test]
fn the_handout_tells_whatever_is_asked() {
    for name in [
        "boathouse-evening.yaml",
        "candidates-three-days.yaml",
        "family-evening.yaml",
        "gull-strand.yaml",
        "hoarfrost-basin.yaml",
        "kestrel-ten-days.yaml",
        "lantern-sands.yaml",
        "quillback-ridge.yaml",
        "school-yard.yaml",
        "three-stoves.yaml",
    ] {
        let sheets = sheets(&example(name));
        let handout = text_of(&sheets, "lesson-handout");
        let key = text_of(&sheets, "skills-check-key");
        let mut asked = 0;
        for module in LIBRARY.modules.values() {
            if key.contains(&format!("({})\n", module.title)) {
                let told = handout.contains(&format!("\n## {}\n", module.title));
                assert!(told, "{name}: {}", module.id);
                asked += 1;
            }
        }
        assert!(asked >= 1, "{name}");
    }
}

/// Words that say nothing about the subject.
const SMALL: &str = "a an the and or of to in on at it its is are be was not no nor than then that \
    this these those with without for from by as up out off so if but one two three four there \
    their them they he she his her you your who what which how when where into onto over under \
    all any some each every only just also can may must does do did done has have had been more \
    most less least very too own same other another such here again before after while until \
    near nearly still yet about say says write put let get give gives take takes keep keeps make \
    makes";

/// The stems of the words that carry the sense.
fn stems(text: &str) -> Vec<String> {
    let plain: String = strip_names(text);
    plain
        .split(|sign: char| !sign.is_ascii_alphabetic())
        .map(str::to_lowercase)
        .filter(|word| word.len() > 2 && !SMALL.split_whitespace().any(|small| small == word))
        .map(|word| {
            let ending = ["ing", "ed", "es", "s", "ly", "er", "en"]
                .into_iter()
                .find(|ending| word.ends_with(ending) && word.len() - ending.len() >= 3);
            let mut stem = word[..word.len() - ending.map_or(0, str::len)].to_owned();
            let bytes = stem.as_bytes();
            if bytes.len() > 3 && bytes[bytes.len() - 1] == bytes[bytes.len() - 2] {
                stem.pop();
            }
            stem.trim_end_matches('e').to_owned()
        })
        .collect()
}

/// The text without its `{facts}`.
fn strip_names(text: &str) -> String {
    text.split('{')
        .enumerate()
        .map(|(at, part)| match (at, part.split_once('}')) {
            (0, _) | (_, None) => part,
            (_, Some((_, after))) => after,
        })
        .collect()
}

/// The facts that a text prints.
fn facts(text: &str) -> BTreeSet<String> {
    text.split('{')
        .skip(1)
        .filter_map(|part| Some(part.split_once('}')?.0.to_owned()))
        .collect()
}

/// Whether something holds for a kitchen that burns this.
fn fits(applies: &AppliesWhen, fuel: FuelKind) -> bool {
    applies.fuel.is_empty() || applies.fuel.contains(&fuel)
}

/// What a module's section of the handout says to those who burn this.
fn told(module: &Module, fuel: FuelKind) -> String {
    let text = module.text_where(|applies| fits(applies, fuel));
    let mut all = vec![
        module.title.as_str(),
        module.summary.as_str(),
        text.as_str(),
    ];
    for one in &module.cautions {
        all.extend([
            one.hazard.as_str(),
            one.consequence.as_str(),
            one.avoid.as_str(),
            one.respond.as_str(),
        ]);
    }
    for one in &module.drawings {
        all.extend([one.caption.as_str(), one.alt.as_str()]);
    }
    let mut told = all.join(" ");
    for name in facts(&told) {
        if let Some(fact) = module.facts.get(&name)
            && let leeside::nouns::FactValue::Text(text) = &fact.value
        {
            told.push(' ');
            told.push_str(text);
        }
    }
    told
}

fn answer(question: &Question) -> String {
    match question.kind {
        QuestionKind::Choice => question.choices[0].clone(),
        QuestionKind::Order => question.choices.join(" "),
        _ => question.answer.clone(),
    }
}

/// Every question can be answered from the handout alone, as far as words show it: the facts of
/// the answer stand in the section, and at least half of the words that carry its sense stand
/// there or in the question.
#[test]
fn the_handout_answers_every_question() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for (module, fuel) in LIBRARY.modules.values().flat_map(|module| {
        FuelKind::ALL
            .iter()
            .filter(|fuel| fits(&module.applies, **fuel))
            .map(move |fuel| (module, *fuel))
    }) {
        let told = told(module, fuel);
        let known: BTreeSet<String> = stems(&told).into_iter().collect();
        let numbers = facts(&told);
        for question in &module.questions {
            // the givens of a sum stand beside it
            if question.sum.is_some() || !fits(&question.applies, fuel) {
                continue;
            }
            count += 1;
            let answer = answer(question);
            for fact in facts(&answer) {
                if !numbers.contains(&fact) {
                    wrong.push(format!("{}.{}: no {{{fact}}}", module.id, question.id));
                }
            }
            let asked: BTreeSet<String> = stems(&question.ask).into_iter().collect();
            let words = stems(&answer);
            let missing: Vec<&String> = words
                .iter()
                .filter(|word| !known.contains(*word) && !asked.contains(*word))
                .collect();
            if missing.len() * 2 > words.len() {
                wrong.push(format!(
                    "{}.{} ({fuel}): {missing:?}",
                    module.id, question.id
                ));
            }
        }
    }
    assert!(count > 130, "{count}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// So that neighbours at a table have different questions.
#[test]
fn every_objective_has_two_questions() {
    for module in LIBRARY.modules.values() {
        for id in module.objectives.keys() {
            let plain = module
                .questions
                .iter()
                .filter(|one| one.objective == *id && one.sum.is_none());
            assert!(plain.count() >= 2, "{}.{id}", module.id);
        }
    }
}
