//! Sheets from files to text: templates are proven, cautions cannot be lost, a
//! change in the trip reaches the sheets it must reach and no other.

use crate::support::content;
use leeside::compose::sheets::{self, Folder};
use leeside::compose::{Engine, Options, Sheet, Templates, compose};
use leeside::diag::{Outcome, Problem, report};
use leeside::doc::{self, Block};
use leeside::nouns::Library;
use leeside::{check, load, plan, season};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The demo trip of the project.
const DEMO: &str = "content/trips/quillback-ridge.yaml";

/// The built-in library and templates, read once.
static BUILT_IN: LazyLock<(Library, Templates)> =
    LazyLock::new(|| (content::library(), content::templates()));

fn good<T>(outcome: Outcome<T>) -> T {
    outcome.unwrap_or_else(|problems| panic!("{}", report(&problems)))
}

fn demo() -> load::Written {
    good(load::trip_file(&path(DEMO)))
}

fn path(relative: &str) -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(relative)
}

/// The sheets of a trip with some templates replaced.
fn sheets_with(written: &load::Written, templates: &Templates) -> Outcome<Vec<Sheet>> {
    let library = &BUILT_IN.0;
    let engine = Engine::new(templates)?;
    let (trip, _) = check::trip(written, library)?;
    let plan = plan::plan(&trip, library)?;
    compose(&trip, &plan, library, &engine, &Options::default())
}

fn sheets_of(written: &load::Written) -> Vec<Sheet> {
    good(sheets_with(written, &BUILT_IN.1))
}

fn by_stem(sheets: &[Sheet]) -> BTreeMap<String, &Sheet> {
    sheets
        .iter()
        .map(|sheet| (sheet.file_stem(), sheet))
        .collect()
}

/// The problems of the built-in templates with one of them changed.
fn refused(name: &str, change: impl Fn(&str) -> String) -> Vec<Problem> {
    let mut templates = BUILT_IN.1.clone();
    let text = change(&templates[name]);
    assert_ne!(text, templates[name], "the change must change `{name}`");
    templates.insert(name.to_owned(), text);
    match sheets_with(&demo(), &templates) {
        Ok(_) => panic!("`{name}` was accepted"),
        Err(problems) => problems,
    }
}

#[test]
fn a_misspelt_name_is_found_with_its_line() {
    let name = "sheets/kitchen-checklist.md";
    // A condition on a name that is not there is what an engine passes over in silence.
    let problems = refused(name, |text| {
        text.replace("{% if has_changes %}", "{% if has_chnages %}")
    });
    let problem = &problems[0];
    assert_eq!(problem.code, "template.name");
    assert!(problem.help.contains("has_changes"), "{problem}");
    let place = problem.place.as_ref().unwrap();
    let line = BUILT_IN.1[name]
        .lines()
        .position(|line| line.contains("{% if has_changes %}"))
        .unwrap();
    assert_eq!((&*place.file, place.line), (name, line + 1));
}

#[test]
fn a_misspelt_name_inside_a_loop_or_component_is_found() {
    let in_loop = refused("sheets/sources.md", |text| {
        text.replace("one.unseen", "one.unsen")
    });
    assert_eq!(in_loop[0].code, "template.name");
    let in_part = refused("sheets/parts.md", |text| {
        text.replace("head.has_codes", "head.has_code")
    });
    assert_eq!(in_part[0].code, "template.name");
    assert_eq!(&*in_part[0].place.as_ref().unwrap().file, "sheets/parts.md");
}

#[test]
fn what_would_undo_the_proof_is_refused() {
    for (added, code) in [
        ("{{ __tera_context }}", "template.name"),
        ("{{ head.trip | safe }}", "template.safe"),
        ("{{ head.trip ~ head.when }}", "template.arithmetic"),
        ("{% include \"sheets/parts.md\" %}", "template.tag"),
        ("{{ range(end=3) }}", "template.function"),
        ("{{ head }}", "template.value"),
        ("{{ <no_such_part of={head} /> }}", "template.component"),
        ("{% if head %}", "template.broken"),
    ] {
        let problems = refused("sheets/intake.md", |text| format!("{text}\n{added}\n"));
        assert!(
            problems.iter().any(|problem| problem.code == code),
            "{added}: {}",
            report(&problems)
        );
    }
}

#[test]
fn no_template_can_lose_a_caution() {
    let left_out = [
        (
            "sheets/lesson-handout.md",
            "{{ <caution_groups of={section.cautions} /> }}",
        ),
        (
            "sheets/lesson-handout.md",
            "{{ <caution_lines of={brief_cautions} /> }}",
        ),
        (
            "sheets/kitchen-checklist.md",
            "{{ <caution_lines of={cautions} /> }}",
        ),
        (
            "sheets/shake-down.md",
            "{{ <caution_lines of={cautions} /> }}",
        ),
    ];
    for (name, call) in left_out {
        let problems = refused(name, |text| text.replace(call, ""));
        assert!(
            problems
                .iter()
                .all(|one| one.code == "compose.caution_lost"),
            "{}",
            report(&problems)
        );
    }
    // Printed, but not as a caution.
    let unmarked = refused("sheets/parts.md", |text| {
        text.replace("> [!{{ group.signal }}]\n", "")
    });
    assert!(
        unmarked
            .iter()
            .any(|one| one.code == "compose.caution_lost")
    );
    // Printed under a milder word.
    let milder = refused("sheets/parts.md", |text| {
        text.replace("> [!{{ group.signal }}]", "> [!NOTICE]")
    });
    assert!(milder.iter().any(|one| one.code == "compose.caution_lost"));
}

#[test]
fn every_caution_of_a_subject_told_in_full_stands_on_the_handout() {
    let written = demo();
    let sheets = sheets_of(&written);
    let handout = by_stem(&sheets)["lesson-handout"];
    let boxes = cautions(&handout.document.blocks);
    let library = &BUILT_IN.0;
    let (trip, _) = good(check::trip(&written, library));
    let told: Vec<_> = library
        .modules
        .values()
        .filter(|module| {
            handout
                .markdown
                .contains(&format!("\n## {}\n", module.title))
        })
        .collect();
    assert!(told.len() >= 2, "a handout tells more than one subject");
    for module in told {
        for caution in &module.cautions {
            if !plan::applies(&caution.applies, &trip) {
                continue;
            }
            let hazard = caution.hazard.split('{').next().unwrap_or_default();
            assert!(
                boxes.iter().any(|text| text.contains(hazard)),
                "{}: {hazard}",
                module.id
            );
        }
    }
}

fn cautions(blocks: &[Block]) -> Vec<String> {
    blocks
        .iter()
        .filter_map(|block| match block {
            Block::Caution { blocks, .. } => Some(
                blocks
                    .iter()
                    .filter_map(|block| match block {
                        Block::Paragraph(words) => Some(doc::plain(words)),
                        _ => None,
                    })
                    .collect(),
            ),
            _ => None,
        })
        .collect()
}

#[test]
fn a_hostile_title_is_plain_text_on_every_sheet() {
    let titles = [
        "# Heading",
        "**bold** and [link](javascript:alert(1))",
        "<script>alert(1)</script> & co",
        "../../etc/passwd",
        "{{ head.trip }} {% raw %}",
        "| a | b |",
        "```figure x",
        "> [!DANGER]",
        "- [ ] tick ____ ***",
        "1. one",
    ];
    for title in titles {
        let text = demo().source.text.replace(
            "Quillback Ridge spring traverse ",
            &format!("{} ", quoted(title)),
        );
        let written = good(load::text("hostile.yaml", &text));
        let sheets = sheets_of(&written);
        let stems = by_stem(&sheets);
        let shown = &stems["lesson-handout"].document.title;
        assert_eq!(shown, &format!("Handout: {title}"));
        for sheet in &sheets {
            assert!(!sheet.file_stem().contains(['/', '.', ' ']));
        }
    }
}

fn quoted(text: &str) -> String {
    format!("'{}'", text.replace('\'', "''"))
}

#[test]
fn keys_lie_with_the_staff_and_forms_hold_no_answers() {
    let sheets = sheets_of(&demo());
    let stems = by_stem(&sheets);
    for (stem, sheet) in &stems {
        if stem.contains("key") || stem.starts_with("skills-check") {
            assert_eq!(sheet.folder, Folder::Staff, "{stem}");
        }
    }
    let library = &BUILT_IN.0;
    let (trip, _) = good(check::trip(&demo(), library));
    let plan = good(plan::plan(&trip, library));
    let carry = format!("{} g", plan.kitchens[0].fuel.carry.in_grams().round());
    assert!(stems["fuel-worksheet-key"].markdown.contains(&carry));
    assert!(!stems["fuel-worksheet"].markdown.contains(&carry));
}

#[test]
fn the_card_holds_at_most_seven_items_a_moment() {
    for name in example_trips() {
        let written = good(load::trip_file(&path(&name)));
        for sheet in sheets_of(&written) {
            if sheet.name != "kitchen-checklist" {
                continue;
            }
            for block in &sheet.document.blocks {
                if let Block::List { items, .. } = block {
                    let ticks = items.iter().filter(|item| item.tick).count();
                    assert!(ticks <= 7, "{name}: {ticks} items in one moment");
                }
            }
        }
    }
}

fn example_trips() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(path("content/trips"))
        .unwrap()
        .map(|entry| format!("content/trips/{}", entry.unwrap().file_name().display()))
        .collect();
    names.sort();
    assert!(names.len() >= 7);
    names
}

#[test]
fn the_same_trip_gives_the_same_text() {
    let texts = |sheets: Vec<Sheet>| -> Vec<String> {
        sheets.into_iter().map(|sheet| sheet.markdown).collect()
    };
    assert_eq!(texts(sheets_of(&demo())), texts(sheets_of(&demo())));
}

#[test]
fn an_unknown_sheet_is_named_with_the_nearest() {
    let Err(problems) = leeside::compose::wanted(&["kitchen-cheklist".to_owned()]) else {
        panic!("accepted");
    };
    assert!(problems[0].help.contains("kitchen-checklist"));
}

#[test]
fn the_table_of_sheets_is_the_design() {
    let names = |folder: Folder| -> Vec<&str> {
        sheets::ALL
            .iter()
            .filter(|row| row.folder == folder)
            .map(|row| row.name)
            .collect()
    };
    for name in [
        "briefing-sheet",
        "packing-list",
        "kitchen-checklist",
        "fuel-worksheet",
        "stove-choice",
        "lesson-handout",
        "study-cards",
        "shake-down",
        "sources",
    ] {
        assert!(names(Folder::Learners).contains(&name), "{name}");
    }
    for name in [
        "fuel-worksheet-key",
        "lesson-plan",
        "instructor-notes",
        "skills-check",
        "skills-check-key",
        "return-sheet",
        "intake",
    ] {
        assert!(names(Folder::Staff).contains(&name), "{name}");
    }
}

#[test]
fn what_each_fuel_is_like_is_told_where_stoves_are_chosen() {
    let library = &BUILT_IN.0;
    let sheets = sheets_of(&demo());
    let text = &by_stem(&sheets)["stove-choice"].markdown;
    let mut told = 0;
    for stove in library.stoves.values() {
        let fuel = &library.fuels[&stove.fuel];
        let start: Vec<&str> = fuel.note.split_whitespace().take(4).collect();
        assert!(text.contains(&start.join(" ")), "{}", fuel.id);
        told += 1;
    }
    assert!(told >= 6);
}

/// What has no room on the lesson plan, and what authorities say differently, is told on a sheet
/// of its own.
#[test]
fn no_note_for_the_instructor_is_lost() {
    let library = &BUILT_IN.0;
    let mut sent_on = 0;
    for trip in ["boathouse-evening", "quillback-ridge", "three-stoves"] {
        let written = good(load::trip_file(&path(&format!(
            "content/trips/{trip}.yaml"
        ))));
        let sheets = sheets_of(&written);
        let sheets = by_stem(&sheets);
        let plan = &sheets["lesson-plan"].markdown;
        let notes = &sheets["instructor-notes"].markdown;
        let elsewhere = plan
            .lines()
            .find_map(|line| line.split_once("stand on the sheet \"Notes for the instructor\": "));
        if let Some((_, titles)) = elsewhere {
            for title in titles.trim_end_matches('.').split("; ") {
                assert!(
                    notes.contains(&format!("\n## {title}\n")),
                    "{trip}: {title}"
                );
                sent_on += 1;
            }
        }
        for line in plan.lines() {
            if let Some(title) = line.strip_prefix("## For the instructor: ") {
                assert!(
                    notes.contains(&format!("\n## {title}\n")),
                    "{trip}: {title}"
                );
            }
        }
        let (trip_read, _) = good(check::trip(&written, library));
        let mut differing = 0;
        for module in library.modules.values() {
            if !plan::applies(&module.applies, &trip_read) {
                continue;
            }
            for fact in module.facts.values() {
                let text = fact.disagreement.split_whitespace().take(4);
                let start = text.collect::<Vec<_>>().join(" ");
                if !start.is_empty() && !start.contains('{') {
                    assert!(notes.contains(&start), "{trip}: {}: {start}", module.id);
                    differing += 1;
                }
            }
        }
        assert!(differing > 10, "{trip}: {differing}");
    }
    assert!(sent_on > 0);
}

/// What no wanted sheet reads is not worked out; a sheet that is asked for alone must not miss it.
#[test]
fn a_sheet_asked_for_alone_is_the_sheet_of_the_packet() {
    let library = &BUILT_IN.0;
    let engine = good(Engine::new(&BUILT_IN.1));
    let written = good(load::trip_file(&path(
        "content/trips/kestrel-ten-days.yaml",
    )));
    let (trip, _) = good(check::trip(&written, library));
    let whole = good(plan::plan(&trip, library));
    let packet = good(compose(
        &trip,
        &whole,
        library,
        &engine,
        &Options::default(),
    ));
    let mut compared = 0;
    for row in sheets::ALL {
        let options = Options {
            only: vec![row.name.to_owned()],
            ..Options::default()
        };
        let plan = if good(leeside::compose::compares(&options.only)) {
            compared += 1;
            plan::plan(&trip, library)
        } else {
            plan::plan_of_own_stoves(&trip, library)
        };
        let alone = good(compose(&trip, &good(plan), library, &engine, &options));
        let same: Vec<&Sheet> = packet.iter().filter(|one| one.name == row.name).collect();
        assert_eq!(alone.len(), same.len(), "{}", row.name);
        for (one, other) in alone.iter().zip(same) {
            assert_eq!(one.markdown, other.markdown, "{}", row.name);
            assert_eq!(one.document, other.document, "{}", row.name);
        }
    }
    assert!(compared > 0 && compared < sheets::ALL.len());
}

/// Each row of `tests/changes.csv` lays one new value over the demo trip: the
/// sheets it names must change and hold the phrase, others must stay as they were.
#[test]
fn a_change_reaches_the_sheets_it_must_and_no_other() {
    let before = sheets_of(&demo());
    let before = by_stem(&before);
    let table = std::fs::read_to_string(path("tests/changes.csv")).unwrap();
    let mut rows = csv::Reader::from_reader(table.as_bytes());
    let mut count = 0;
    let mut wrong = Vec::new();
    for row in rows.records() {
        let row = row.unwrap();
        let (key, value) = (&row[0], &row[1]);
        let cells = format!("departure,{key}\nx,{value}\n");
        let cells = good(season::table::read("changes.csv", cells.as_bytes()));
        let departure = good(season::read(&cells, None)).departures.remove(0);
        let changed = good(departure.over(&demo(), &season::InHand::default()));
        let after = sheets_of(&changed);
        let after = by_stem(&after);
        for must in row[2].split(';').filter(|must| !must.trim().is_empty()) {
            let (stem, phrase) = must.split_once(':').unwrap();
            let (stem, phrase) = (stem.trim(), phrase.trim());
            let text = &after[stem].markdown;
            if !text.contains(phrase) {
                wrong.push(format!("{key}: `{stem}` lacks `{phrase}`"));
            }
            if *text == before[stem].markdown {
                wrong.push(format!("{key}: `{stem}` stayed as it was"));
            }
        }
        for must_not in row[3].split(';').filter(|stem| !stem.trim().is_empty()) {
            let stem = must_not.trim();
            if after[stem].markdown != before[stem].markdown {
                wrong.push(format!("{key}: `{stem}` changed"));
            }
        }
        count += 1;
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(count >= 12);
}
