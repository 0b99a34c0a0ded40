//! What the library teaches: questions that cannot be guessed, boxes that are short and plain,
//! one answer to each danger wherever it is spoken of.

use crate::support::content::{library, templates, trip};
use leeside::compose::{Engine, Options, Sheet, compose};
use leeside::doc::{self, Block};
use leeside::nouns::{Caution, FactValue, FuelKind, Library, Module, Question, QuestionKind};
use leeside::units::Fraction;
use leeside::{check, diag, plan};
use std::collections::BTreeSet;
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(library);

/// The example trips by name, with their sheets.
static PACKETS: LazyLock<Vec<(String, Vec<Sheet>)>> = LazyLock::new(|| {
    let engine = Engine::new(&templates()).unwrap_or_else(|all| panic!("{}", diag::report(&all)));
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content/trips");
    let mut found: Vec<(String, Vec<Sheet>)> = std::fs::read_dir(folder)
        .expect("the example trips")
        .map(|entry| {
            let entry = entry.expect("an entry");
            let name = entry.file_name().to_string_lossy().into_owned();
            let text = std::fs::read_to_string(entry.path()).expect("a trip");
            let trip = trip(&name, &text, &LIBRARY);
            let plan =
                plan::plan(&trip, &LIBRARY).unwrap_or_else(|all| panic!("{}", diag::report(&all)));
            let sheets = compose(&trip, &plan, &LIBRARY, &engine, &Options::default())
                .unwrap_or_else(|all| panic!("{}", diag::report(&all)));
            (name, sheets)
        })
        .collect();
    found.sort_by(|a, b| a.0.cmp(&b.0));
    found
});

fn questions() -> impl Iterator<Item = (&'static Module, &'static Question)> {
    LIBRARY
        .modules
        .values()
        .flat_map(|module| module.questions.iter().map(move |one| (module, one)))
}

/// A caution as it is printed.
fn printed(caution: &Caution) -> String {
    let mut text = format!("{}: {}.", caution.hazard, caution.consequence);
    for part in [&caution.avoid, &caution.respond] {
        if !part.is_empty() {
            text = format!("{text} {part}.");
        }
    }
    text
}

/// Everything that a module says, in lower case.
fn all_words(module: &Module) -> String {
    let mut all = vec![module.whole_text(), module.instructor.clone()];
    all.extend(module.cautions.iter().map(printed));
    all.extend(module.items.iter().map(|item| item.say.clone()));
    for one in &module.questions {
        all.extend([one.ask.clone(), one.answer.clone(), one.because.clone()]);
        all.extend(one.choices.clone());
    }
    all.join("\n").to_lowercase()
}

fn count(text: &str) -> usize {
    text.split_whitespace().count()
}

/// Among four choices the longest is right as often as chance would have it, or less.
#[test]
fn no_choice_is_right_by_its_length() {
    let mut all = 0;
    let mut longest = Vec::new();
    for (module, question) in questions() {
        if question.kind != QuestionKind::Choice {
            continue;
        }
        let lengths: Vec<usize> = question
            .choices
            .iter()
            .map(|choice| choice.chars().count())
            .collect();
        let (right, wrong) = lengths.split_first().expect("choices");
        all += 1;
        if wrong.iter().all(|length| length < right) {
            longest.push(format!("{}.{}", module.id, question.id));
        }
        // nor does it stand out: some wrong one is nearly as long
        let most = wrong.iter().max().copied().unwrap_or(0);
        assert!(
            *right <= most + most / 2 + 6,
            "{}.{}: {:?}",
            module.id,
            question.id,
            question.choices
        );
    }
    assert!(all > 100, "{all}");
    assert!(
        longest.len() * 4 <= all,
        "{} of {all}: {longest:?}",
        longest.len()
    );
}

/// Three forms need them: two questions each for what is a must, else one and a spare.
#[test]
fn each_objective_has_items_for_three_forms() {
    let mut missing = Vec::new();
    for module in LIBRARY.modules.values() {
        for (id, objective) in &module.objectives {
            let has = module
                .questions
                .iter()
                .filter(|one| one.objective == *id && one.sum.is_none())
                .filter(|one| one.scene.is_none())
                .count();
            let wanted = if objective.critical { 6 } else { 4 };
            if has < wanted {
                missing.push(format!("{}.{id}: {has} of {wanted}", module.id));
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

/// An objective starts with a verb that an assessor can see, and holds one idea: no second verb
/// follows an 'and'.
#[test]
fn an_objective_is_one_idea_that_can_be_seen() {
    let unseen = "know understand learn realise appreciate believe remember be feel";
    let first = |say: &str| say.split_whitespace().next().unwrap_or_default().to_owned();
    let verbs: BTreeSet<String> = LIBRARY
        .modules
        .values()
        .flat_map(|module| module.objectives.values())
        .map(|one| first(&one.say))
        .collect();
    for verb in &verbs {
        assert!(!unseen.split(' ').any(|word| word == verb), "{verb}");
    }
    for module in LIBRARY.modules.values() {
        for (id, objective) in &module.objectives {
            let second = objective.say.split(" and ").nth(1).map(first);
            if let Some(second) = second {
                assert!(
                    !verbs.contains(&second),
                    "{}.{id}: {}",
                    module.id,
                    objective.say
                );
            }
        }
    }
}

/// The boxes of a module as printed, by the published formula (Flesch-Kincaid), as `list modules
/// --reading` counts the text.
#[test]
fn boxes_read_at_grade_6() {
    for module in LIBRARY.modules.values() {
        if module.cautions.is_empty() {
            continue;
        }
        let text: Vec<String> = module.cautions.iter().map(printed).collect();
        let boxes = Module {
            text: text.join("\n\n"),
            sections: Vec::new(),
            ..module.clone()
        };
        let reading = check::reading(&boxes);
        assert!(reading.grade() <= 6.0, "{}: {}", module.id, reading.grade());
    }
}

/// Words that stand in boxes.
fn boxed_words(blocks: &[Block], boxed: bool) -> usize {
    blocks
        .iter()
        .map(|block| match block {
            Block::Caution { blocks, .. } => boxed_words(blocks, true),
            Block::Boxed(blocks) => boxed_words(blocks, boxed),
            Block::List { items, .. } => items
                .iter()
                .map(|item| boxed_words(&item.blocks, boxed))
                .sum(),
            Block::Paragraph(words) if boxed => count(&doc::plain(words)),
            _ => 0,
        })
        .sum()
}

/// Words of a sheet, the marks of Markdown left out.
fn all_of(markdown: &str) -> usize {
    markdown
        .split_whitespace()
        .filter(|word| word.chars().any(char::is_alphanumeric))
        .count()
}

#[test]
fn boxes_take_less_than_a_third_of_a_handout() {
    let mut seen = 0;
    for (name, sheets) in PACKETS.iter() {
        for sheet in sheets.iter().filter(|one| one.name == "lesson-handout") {
            let boxed = boxed_words(&sheet.document.blocks, false);
            let all = all_of(&sheet.markdown);
            assert!(boxed > 0, "{name} has no box");
            assert!(boxed * 3 < all, "{name}: {boxed} of {all} words");
            seen += 1;
        }
    }
    assert!(seen >= 5, "{seen}");
}

/// What is done first for a burn stands on each sheet for learners, once.
#[test]
fn each_learner_sheet_says_what_is_done_first() {
    let burns = &LIBRARY.modules["burns-scalds-tip-over"];
    assert!(burns.first_response.contains("{cool-for}"));
    let start = "get clear, shut the stove off only if it is safe. Cool, clean running water on it";
    for (name, sheets) in PACKETS.iter() {
        for wanted in ["lesson-handout", "study-cards"] {
            let sheet = sheets
                .iter()
                .find(|one| one.name == wanted)
                .unwrap_or_else(|| panic!("{name} has no {wanted}"));
            let told = sheet
                .markdown
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ");
            assert_eq!(told.matches(start).count(), 1, "{name}: {wanted}");
        }
    }
}

/// Each subject has a story to open with, and it stands in the notes of a packet that teaches it.
#[test]
fn a_story_opens_each_subject() {
    for module in LIBRARY.modules.values() {
        assert!(count(&module.story) >= 30, "{} has no story", module.id);
        assert!(module.story.ends_with('?'), "{}: ask at the end", module.id);
    }
    let mut told = BTreeSet::new();
    for (_, sheets) in PACKETS.iter() {
        for sheet in sheets.iter().filter(|one| one.name == "instructor-notes") {
            for module in LIBRARY.modules.values() {
                if sheet.markdown.contains(&format!("\n## {}\n", module.title)) {
                    let start: Vec<&str> = module.story.split_whitespace().take(4).collect();
                    let start = start.join(" ").replace('"', "");
                    let text = sheet
                        .markdown
                        .replace(['"', '\\', '\u{201c}', '\u{201d}'], "");
                    assert!(text.contains(&start), "{}: {start}", module.id);
                    told.insert(&module.id);
                }
            }
        }
    }
    assert!(told.len() >= 6, "{told:?}");
}

/// How full a bottle or burner is filled: three quarters everywhere (Norwegian Directorate for
/// Civil Protection, 'Avoiding accidents with methylated spirits': at most three quarters).
#[test]
fn what_holds_fuel_is_filled_to_three_quarters() {
    let three_quarters = Fraction::percent(75.0);
    let facts = [
        ("alcohol-stoves", "three-quarters"),
        ("liquid-fuel-stoves", "fill"),
        ("fuel-storage-and-transport", "bottle-fill"),
    ];
    for (module, fact) in facts {
        let value = &LIBRARY.modules[module].facts[fact].value;
        assert_eq!(
            *value,
            FactValue::Fraction(three_quarters),
            "{module}.{fact}"
        );
    }
    let mut bottles = 0;
    for container in LIBRARY.containers.values() {
        if container.kind == leeside::nouns::ContainerKind::Bottle {
            assert_eq!(container.fill, three_quarters, "{}", container.id);
            bottles += 1;
        }
    }
    assert!(bottles >= 4, "{bottles}");
}

/// Warm to the hand: shut it off. Nobody is told to turn it down, or to wait until it is hot.
#[test]
fn a_warm_canister_has_one_rule() {
    let mut asked = 0;
    for (module, question) in questions() {
        let ask = question.ask.to_lowercase();
        let warm = ["feels warm", "it is warm", "is warm to the hand"];
        if ask.contains("canister") && warm.iter().any(|words| ask.contains(words)) {
            let answer = match question.kind {
                QuestionKind::Choice => &question.choices[0],
                _ => &question.answer,
            };
            let answer = answer.to_lowercase();
            let name = format!("{}.{}: {answer}", module.id, question.id);
            assert!(answer.starts_with("shut "), "{name}");
            asked += 1;
        }
    }
    assert!(asked >= 3, "{asked}");
    for module in ["canister-stoves", "wind-and-screens"] {
        let text = LIBRARY.modules[module].whole_text().replace('*', "");
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            text.contains("Warm to the hand means shut it off."),
            "{module}"
        );
    }
    for module in LIBRARY.modules.values() {
        assert!(
            !all_words(module).contains("too warm to hold"),
            "{}",
            module.id
        );
    }
}

/// A jet is cleared with the needle that its maker gave for it, and with nothing else.
#[test]
fn only_the_makers_needle_clears_a_jet() {
    for stove in LIBRARY.stoves.values() {
        for spare in &stove.spares {
            assert!(!spare.contains("wire"), "{}: {spare}", stove.id);
        }
    }
    let repairs = &LIBRARY.modules["repairs-and-spares"];
    let text = repairs
        .text
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(text.contains("the needle that its maker gave for it, and with nothing else"));
    let question = repairs.questions.iter().find(|one| one.id == "jet-tool");
    assert_eq!(
        question.expect("a question on the jet").choices[0],
        "The needle that its maker gave"
    );
}

/// A tall yellow flame of gas is turned down; one of liquid fuel is shut off at once. Each
/// question names its stove.
#[test]
fn a_flooded_flame_has_one_answer_for_gas_and_one_for_liquid() {
    let (mut gas, mut liquid) = (0, 0);
    for (module, question) in questions() {
        let ask = question.ask.to_lowercase();
        if !ask.contains("tall") || !ask.contains("flame") || ask.contains("as tall as") {
            continue;
        }
        let answer = match question.kind {
            QuestionKind::Choice => &question.choices[0],
            _ => &question.answer,
        };
        let name = format!("{}.{}", module.id, question.id);
        if ask.contains("gas stove") && !ask.contains("white-gas stove") {
            assert!(answer.starts_with("Turn it down"), "{name}: {answer}");
            gas += 1;
        } else if ask.contains("white-gas") || ask.contains("liquid") {
            assert!(answer.starts_with("Shut the valve"), "{name}: {answer}");
            liquid += 1;
        } else {
            panic!("{name} names no stove");
        }
    }
    assert!(gas >= 1 && liquid >= 2, "{gas} {liquid}");
    let text = LIBRARY.modules["lighting-and-flames"].whole_text();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("Gas stove: turn it down; if it stays so, shut it off."));
    assert!(text.contains("Liquid fuel: shut the valve, let it die and start again cold."));
    for module in LIBRARY.modules.values() {
        for drawing in &module.drawings {
            if drawing.alt.to_lowercase().contains("flooded") {
                let alt = drawing.alt.to_lowercase();
                let fuels = &drawing.applies.fuel;
                assert!(!fuels.is_empty(), "{}.{}", module.id, drawing.id);
                for fuel in fuels {
                    let wanted = match fuel {
                        FuelKind::Canister => "gas: turn it down",
                        _ => "liquid fuel: shut it off",
                    };
                    assert!(alt.contains(wanted), "{}: {alt}", module.id);
                }
                let both = alt.contains("gas: turn") && alt.contains("liquid fuel: shut");
                assert!(!both || fuels.len() > 2, "{}: {alt}", module.id);
            }
        }
    }
}

/// The usual faults at a stove are there as drawings to judge, on the study cards too. What is said
/// for those who cannot see a drawing does not give its faults away.
#[test]
fn drawings_with_faults_are_judged() {
    let scenes: BTreeSet<String> = questions()
        .filter(|(_, question)| question.scene.is_some())
        .map(|(module, question)| format!("{}.{}", module.id, question.id))
        .collect();
    for wanted in [
        "kitchen-place.five-faults",
        "pots-lids-handles.two-stoves-scene",
        "wind-and-screens.screen-scene",
        "burns-scalds-tip-over.seat-scene",
        "fuel-storage-and-transport.bottle-scene",
        "refuelling-and-spills.refuel-scene",
        "canister-stoves.sun-scene",
        "carbon-monoxide.tent-scene",
    ] {
        assert!(scenes.contains(wanted), "{wanted}: {scenes:?}");
    }
    for (module, question) in questions() {
        let Some(scene) = &question.scene else {
            continue;
        };
        let name = format!("{}.{}", module.id, question.id);
        let told = scene.drawing.alt.to_lowercase();
        for word in ["wrong", "fault", "danger", "should"] {
            assert!(!told.contains(word), "{name}: {word}");
        }
        let faults = scene.places.iter().filter(|one| one.is_fault).count();
        assert_eq!(question.answer.matches(": ").count(), faults, "{name}");
    }
    let mut on_cards = 0;
    for (name, sheets) in PACKETS.iter() {
        let cards = sheets.iter().find(|one| one.name == "study-cards");
        let cards = &cards.unwrap_or_else(|| panic!("{name}")).document;
        let calls = |block: &Block| matches!(block, Block::Figure(figure) if scenes.iter().any(|one| one.replace('.', "-") == figure.id));
        on_cards += usize::from(cards.blocks.iter().any(calls));
    }
    assert!(on_cards >= 4, "{on_cards}");
}

/// What people really get hurt by is spoken of.
#[test]
fn the_usual_accidents_are_spoken_of() {
    let all: String = LIBRARY.modules.values().map(all_words).collect();
    let all = all.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "two stoves under one pot",
        "metal plate",
        "a lighter is a small gas can",
        "fleece",
        "insect spray",
        "hand gel",
        "cross-legged",
        "freezes skin",
        "adapter",
        "a tarp is a roof",
        "shut, wait, air, dry",
        "plastic melts",
        "thunder",
        "avalanche slope",
        "tide line",
        "cut or tear the wall",
        "wildfire smoke",
        "never heat a shut tin",
        "sand does not put out coals",
        "wood stoves are outside",
    ] {
        assert!(all.contains(words), "nobody speaks of: {words}");
    }
}
