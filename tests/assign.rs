//! Who gets which canister: none is in two places at once, what was picked stays, and what each
//! departure takes is the best of what it is offered, tried by force.

use crate::support::folder::{Folder, text};
use leeside::nouns::{CanisterOnHand, Connection, Container, Date, Id, Trip};
use leeside::packet::Press;
use leeside::shelf::{
    Action, Choice, Given, Going, House, Ledger, Movement, Offer, Standing, Stock, Tag, TakenFrom,
    TareFrom, alone, assign,
};
use leeside::units::Mass;
use leeside::{check, load, ready};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::convert::Infallible;

const TIME: &str = "2027-05-01T08:00:00";

fn sizes() -> BTreeMap<Id, Container> {
    ready::library(&[]).expect("a library").library.containers
}

/// A shelf with a canister of 230 g for each of these contents in grams.
fn shelf_of(nets: &[u32]) -> Ledger {
    let mut ledger = Ledger::default();
    for (index, net) in (1..).zip(nets) {
        let mut line = Movement::new(TIME, "K", Tag::numbered("F", index), Action::Receive);
        line.size = Some("canister-230".into());
        line.tare = Some((Mass::grams(150.0), TareFrom::Label));
        line.gross = Some(Mass::grams(150.0 + f64::from(*net)));
        line.connection = Some(Connection::Thread);
        ledger.add(vec![line]);
    }
    ledger
}

fn moved(ledger: &mut Ledger, index: u32, action: Action, departure: &str) {
    let mut line = Movement::new(TIME, "K", Tag::numbered("F", index), action);
    line.departure = departure.to_owned();
    ledger.add(vec![line]);
}

fn going(index: usize, day: u32, days: u32, lesson: bool, frost: bool) -> Going {
    let first = Date::read("2027-06-01").expect("a day");
    Going {
        name: format!("d{index}"),
        leaves: first.plus_days(day),
        back: first.plus_days(day + days),
        lesson,
        frost,
    }
}

/// Takes the fullest until so many grams are there; a gram stays in each.
fn greedy(need: f64, offers: &[Offer]) -> Choice {
    let mut sorted: Vec<&Offer> = offers.iter().collect();
    sorted.sort_by(|a, b| b.net.in_grams().total_cmp(&a.net.in_grams()));
    let mut left = need;
    let mut choice = Choice::default();
    for offer in sorted {
        if left <= 0.0 {
            break;
        }
        let burnt = (offer.net.in_grams() - 1.0).clamp(0.0, left);
        left -= burnt;
        choice
            .taken
            .push((offer.tag.clone(), offer.net - Mass::grams(burnt)));
    }
    choice
}

type Drawn = (u32, u32, bool, bool, u32);

fn season() -> impl Strategy<Value = (Vec<u32>, Vec<u8>, Vec<Drawn>, u32)> {
    let departure = (
        0_u32..40,
        0_u32..6,
        any::<bool>(),
        any::<bool>(),
        20_u32..500,
    );
    (
        proptest::collection::vec(1_u32..=230, 1..20),
        proptest::collection::vec(0_u8..9, 20),
        proptest::collection::vec(departure, 1..25),
        0_u32..5,
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn no_canister_is_in_two_places_at_once((nets, moves, drawn, turnaround) in season()) {
        let mut ledger = shelf_of(&nets);
        for (index, (move_of, _)) in (1..).zip(moves.iter().zip(&nets)) {
            match move_of {
                0 => moved(&mut ledger, index, Action::Issue, "d0"),
                1 => moved(&mut ledger, index, Action::Reserve, "d1"),
                2 => moved(&mut ledger, index, Action::Quarantine, ""),
                3 => moved(&mut ledger, index, Action::Issue, "another year"),
                4 => moved(&mut ledger, index, Action::BurnDown, ""),
                _ => {}
            }
        }
        let stock = Stock::of(ledger.lines());
        let goings: Vec<Going> = drawn.iter().enumerate()
            .map(|(at, (day, days, lesson, frost, _))| going(at, *day, *days, *lesson, *frost)).collect();
        let house = House { turnaround, floor: Mass::grams(30.0) };
        let sizes = sizes();
        let made = assign(&goings, &stock, &sizes, &house, |index, offers| {
            Ok::<_, Infallible>(greedy(f64::from(drawn[index].4), offers))
        }).unwrap();
        let mut by_tag: BTreeMap<&str, Vec<&Given>> = BTreeMap::new();
        for given in &made.given {
            let going = &goings[given.departure];
            let kept = &stock.canisters[&given.offer.tag];
            match &kept.standing {
                Standing::Shelf => {}
                Standing::BurnDown => prop_assert!(going.lesson && !going.frost),
                Standing::Out { departure } | Standing::Reserved { departure } => {
                    let later = matches!(&given.from, TakenFrom::Expected(_));
                    prop_assert!(*departure == going.name || later, "{given:?}");
                }
                other => prop_assert!(false, "{other:?} is handed out"),
            }
            if !matches!(given.from, TakenFrom::Picked | TakenFrom::Out) {
                let full = sizes["canister-230"].is_full(given.offer.net);
                prop_assert!(full || !going.frost);
                let lesson = kept.standing == Standing::BurnDown;
                prop_assert!(full || lesson || given.offer.net >= house.floor);
            }
            by_tag.entry(given.offer.tag.key()).or_default().push(given);
        }
        for uses in by_tag.values_mut() {
            uses.sort_by_key(|given| goings[given.departure].leaves);
            for pair in uses.windows(2) {
                let (before, after) = (&goings[pair[0].departure], &goings[pair[1].departure]);
                prop_assert!(before.back.plus_days(turnaround) <= after.leaves, "{before:?} {after:?}");
                prop_assert!(pair[1].offer.net <= pair[0].offer.net, "fuel came from nowhere");
            }
        }
        // what was picked is with its departure, needed or not
        for kept in stock.canisters.values() {
            if let Standing::Out { departure } | Standing::Reserved { departure } = &kept.standing
                && goings.iter().any(|going| going.name == *departure)
            {
                let with = made.given.iter().any(|given| given.offer.tag == kept.tag
                    && goings[given.departure].name == *departure
                    && matches!(given.from, TakenFrom::Picked | TakenFrom::Out));
                prop_assert!(with, "{kept:?}");
            }
        }
    }
}

/// A trip that burns canisters, invented.
const TRIP: &str = "\
title: Otter ledge
starts: 2027-07-04
people:
  learners: 3
  instructors: 1
stove: canister on top
water_treatment: filter
part_used_at_most: 2
camps:
  - name: Otter ledge
    nights: 2
    elevation: 300 m
    day: 18 C
    night: 12 C
";

fn press() -> Press {
    let ready = ready::library(&[]).expect("a library");
    Press::new(&ready.assets, ready.library, ready.digest).expect("a press")
}

fn trip(press: &Press, text: &str) -> Trip {
    let written = load::text("trip.yaml", text).expect("read");
    check::trip(&written, press.library()).expect("a trip").0
}

/// What a trip takes of these canisters, and the mass of what is bought beside them.
fn taken(press: &Press, trip: &Trip, offers: &[&Offer]) -> (Vec<(Tag, Mass)>, Mass) {
    let on_hand = offers.iter().map(|offer| CanisterOnHand {
        tag: offer.tag.sticker(),
        container: offer.size.clone(),
        gross: offer.tare + offer.net,
        tare: Some(offer.tare),
        blend: press.library().figures.unknown_blend.value,
        blend_stated: false,
        present: None,
        connection: Connection::Thread,
    });
    let trip = Trip {
        canisters_on_hand: on_hand.collect(),
        ..trip.clone()
    };
    let handed = press.handed(&trip).expect("handed");
    let read = |(tag, rest): (String, Mass)| (Tag::read(&tag).expect("a tag"), rest);
    (handed.taken.into_iter().map(read).collect(), handed.bought)
}

#[test]
fn what_a_departure_takes_is_the_best_of_its_offers_tried_by_force() {
    let press = press();
    let sizes = press.library().containers.clone();
    let trips = [
        trip(&press, TRIP),
        trip(&press, &TRIP.replace("learners: 3", "learners: 2")),
    ];
    let goings = [going(0, 33, 2, false, false), going(1, 34, 2, false, false)];
    let stock = Stock::of(shelf_of(&[80, 150, 230]).lines());
    let house = House {
        turnaround: 2,
        floor: Mass::grams(30.0),
    };
    let mut least = [Mass::grams(1e9); 2];
    let made = assign(&goings, &stock, &sizes, &house, |index, offers| {
        let all: Vec<&Offer> = offers.iter().collect();
        let (tags, bought) = taken(&press, &trips[index], &all);
        for mask in 0..1_u32 << offers.len() {
            let some: Vec<&Offer> = (0..offers.len())
                .filter(|at| mask & (1 << at) != 0)
                .map(|at| &offers[at])
                .collect();
            let (_, of_some) = taken(&press, &trips[index], &some);
            least[index] = if of_some < least[index] {
                of_some
            } else {
                least[index]
            };
        }
        assert_eq!(
            bought, least[index],
            "some of its offers would need fewer new ones"
        );
        assert!(tags.len() <= 3);
        Ok::<_, Infallible>(Choice {
            taken: tags,
            bought,
            exact: true,
            ..Choice::default()
        })
    })
    .expect("never fails");
    // every way to share three canisters out over both, and the bound of each alone
    let bought = |index: usize, mask: u32| {
        let tags: Vec<Offer> = alone(&goings[index], &goings, &stock, &sizes, &house);
        let some: Vec<&Offer> = (0..tags.len())
            .filter(|at| mask & (1 << at) != 0)
            .map(|at| &tags[at])
            .collect();
        taken(&press, &trips[index], &some).1.in_grams()
    };
    let best = (0..8_u32)
        .map(|mask| bought(0, mask) + bought(1, 7 - mask))
        .fold(f64::MAX, f64::min);
    let bound = bought(0, 7) + bought(1, 7);
    let ours: f64 = made
        .choices
        .iter()
        .map(|choice| choice.bought.in_grams())
        .sum();
    assert!(bound <= best && best <= ours, "{bound} {best} {ours}");
}

const TABLE: &str = "\
departure,base,start date
one,otter,2027-07-04
two,otter,2027-07-05
three,otter,2027-07-12
";

fn with_shelf() -> Folder {
    let folder = Folder::with(&[("otter.yaml", TRIP), ("season.csv", TABLE)]);
    let receive = "shelf receive --connection thread --at 2027-05-01T08:00 --tare";
    let receive: Vec<&str> = receive.split(' ').collect();
    let more = [
        "150 g",
        "--size",
        "canister 230 g",
        "--gross",
        "270 g",
        "--count",
        "2",
    ];
    folder.good(&[&receive[..], &more].concat());
    let full = ["150 g", "--size", "canister 230 g", "--count", "2"];
    folder.good(&[&receive[..], &full].concat());
    folder
}

fn given(folder: &Folder, departure: &str) -> Vec<String> {
    text(folder.path(), "assigned.csv")
        .lines()
        .map(|line| line.split(',').collect::<Vec<_>>())
        .filter(|cells| cells[0] == departure && !cells[3].is_empty())
        .map(|cells| cells[3].to_owned())
        .collect()
}

#[test]
fn a_season_takes_what_was_assigned_and_what_was_picked_stays() {
    let folder = with_shelf();
    let run = ["shelf", "assign", "--season", "season.csv"];
    let said = folder.good(&run);
    assert!(
        said.contains("3 departures") && said.contains("wrote assigned.csv"),
        "{said}"
    );
    let (one, two) = (given(&folder, "one"), given(&folder, "two"));
    assert!(!one.is_empty(), "{said}");
    assert!(
        one.iter().all(|tag| !two.contains(tag)),
        "they are out at once"
    );
    // the same again, to the byte
    let first = text(folder.path(), "assigned.csv");
    folder.good(&run);
    assert_eq!(first, text(folder.path(), "assigned.csv"));
    // the season's packets name them, and what is short is red
    let season = ["season", "season.csv", "--assigned", "assigned.csv"];
    folder.good(&season);
    let out = folder.join("out");
    let sheet = text(&out, "one/staff/return-sheet.html");
    for tag in &one {
        assert!(
            sheet.contains(tag.as_str()),
            "{tag} is not on the return sheet"
        );
    }
    let page = text(&out, "season/index.html");
    let short = said.contains("short in the week of");
    assert_eq!(short, page.contains("not on the shelf, to order"), "{said}");
    assert!(page.contains("To have ready") || !short);
    // what the office picked for the second stays with it, whatever the first would take
    let picked = &one[0];
    folder.good(&["shelf", "reserve", picked, "--departure", "two"]);
    folder.good(&run);
    assert!(given(&folder, "two").contains(picked) && !given(&folder, "one").contains(picked));
    // other days: the canisters may be with somebody else by then
    folder.write("season.csv", TABLE.replace("2027-07-05", "2027-07-12"));
    let output = folder.run(&season);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(
        said.contains("departure `two`") && said.contains("share them out again"),
        "{said}"
    );
}

#[test]
fn a_table_edited_into_two_places_at_once_is_refused() {
    let folder = with_shelf();
    folder.good(&["shelf", "assign", "--season", "season.csv"]);
    let made = text(folder.path(), "assigned.csv");
    let line = made
        .lines()
        .find(|line| line.starts_with("one,"))
        .expect("one");
    let clash = line.replace("one,2027-07-04,2027-07-06", "two,2027-07-05,2027-07-07");
    let season = ["season", "season.csv", "--assigned", "assigned.csv"];
    for (table, says) in [
        (format!("{made}{clash}\n"), "while it is with `one`"),
        (made.replace("three,", "tree,"), "did you mean `three`?"),
        (made.replace("2027-07-12,", "July,"), "`leaves` is no day"),
        (made.replace("leaves", "when"), "no column leaves"),
    ] {
        folder.write("assigned.csv", table);
        let output = folder.run(&season);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{said}");
        assert!(
            said.contains(says) && said.contains("assigned.csv"),
            "{says}\n{said}"
        );
        assert!(!folder.join("out/one").exists());
    }
}

#[test]
fn a_kitchen_gets_at_most_so_many_part_used_ones() {
    let press = press();
    let stock = Stock::of(shelf_of(&[60, 60, 60, 60, 60]).lines());
    let house = House {
        turnaround: 2,
        floor: Mass::grams(30.0),
    };
    let offers = alone(
        &going(0, 0, 2, false, false),
        &[],
        &stock,
        &press.library().containers,
        &house,
    );
    let offers: Vec<&Offer> = offers.iter().collect();
    for most in 0..4 {
        let rule = TRIP.replace("at_most: 2", &format!("at_most: {most}"));
        let (tags, bought) = taken(&press, &trip(&press, &rule), &offers);
        assert!(tags.len() <= most, "{most}: {tags:?}");
        assert!(most > 0 || bought > Mass::ZERO);
    }
    let free = TRIP.replace("part_used_at_most: 2\n", "");
    assert!(
        taken(&press, &trip(&press, &free), &offers).0.len() > 3,
        "there is a limit to hold"
    );
}

#[test]
fn returns_teach_what_was_used_against_what_was_planned() {
    // six departures alike; each goes with a full canister and comes back with so much less
    let used = [40, 44, 48, 52, 56, 200];
    let names = ["a", "b", "c", "d", "e", "f"];
    let rows: String = names
        .iter()
        .map(|name| format!("{name},otter,2027-07-04\n"))
        .collect();
    let table = format!("departure,base,start date\n{rows}g,otter,2027-07-04\n");
    let folder = Folder::with(&[("otter.yaml", TRIP), ("season.csv", &table)]);
    let size = [
        "--size",
        "canister 230 g",
        "--count",
        "8",
        "--tare",
        "150 g",
    ];
    folder.good(&[&["shelf", "receive", "--at", "2027-06-01T08:00"], &size[..]].concat());
    for (index, (name, used)) in (1..).zip(names.iter().zip(used)) {
        let tag = format!("F-{index}");
        folder.good(&["shelf", "issue", &tag, "--departure", name]);
        let back = format!("{tag}={} g", 380 - used);
        let note = if used == 200 { "valve left open" } else { "" };
        folder.good(&["shelf", "return", &back, "--note", note]);
    }
    folder.good(&["shelf", "issue", "F-7", "--departure", "g"]);
    let run = ["shelf", "learn", "--season", "season.csv"];
    let said = folder.good(&run);
    let output = folder.run(&["plan", "otter.yaml", "--json"]);
    let plan: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let planned = plan["kitchens"][0]["fuel"]["likely_g"]
        .as_f64()
        .expect("a mass");
    // quartiles of 40, 44, 48, 52, 56, 200 straight between neighbours, as R's type 7 and
    // numpy's default have them: 45, 50, 55
    let words = |grams: f64| format!("{:.0} %", grams / planned * 100.0);
    let line = format!("used {} of what was planned", words(50.0));
    assert!(said.contains(&line), "{line}\n{said}");
    let line = format!(
        "half of the returns from {} to {}",
        words(45.0),
        words(55.0)
    );
    assert!(said.contains(&line), "{line}\n{said}");
    assert!(
        said.contains("June to August") && said.contains("6 returns"),
        "{said}"
    );
    assert!(said.contains("far from the rest, and counted: f") && said.contains("valve left open"));
    assert!(said.contains("measured: {efficiency:") && said.contains("wind: calm"));
    assert!(
        said.contains("not counted: g: F-007") && said.contains("is not back"),
        "{said}"
    );
    // the suggestion is a line that a trip file takes, and it is not applied
    let from = said.find("measured: ").expect("a line");
    let line = said[from..].lines().next().expect("a line");
    folder.write("measured.yaml", format!("{TRIP}{line}\n"));
    folder.good(&["check", "measured.yaml"]);
    assert_eq!(text(folder.path(), "otter.yaml"), TRIP);
    // four of them are too few, and half as many people fed is twice as much each
    folder.write(
        "season.csv",
        table.replace("e,otter,2027-07-04\nf,otter,2027-07-04\n", ""),
    );
    assert!(folder.good(&run).contains("too few to learn from"));
    folder.write("season.csv", &table);
    for (index, used) in (1..).zip(used) {
        let id = format!("F-{index}={} g", 380 - used);
        folder.good(&["shelf", "weigh", &id, "--note", "fed 2"]);
    }
    let line = format!("used {} of what was planned", words(100.0));
    assert!(folder.good(&run).contains(&line), "{line}");
}
