//! A drawing with faults in it: its marked places, some of them wrong. Each place gets a letter.

use super::super::desk::Desk;
use super::prose::phrase;
use super::{drawings, entry_id};
use crate::diag::told;
use crate::load::Node;
use crate::nouns::{Id, MARK_RADIUS, Scene, ScenePlace, place_letter};

/// Fewer can be guessed.
const FEWEST: usize = 4;
/// More cannot be looked at one by one on a phone.
const MOST: usize = 10;
/// The longest word on a place: a line beside its box.
const LONGEST_PLACE: usize = 80;
/// How far apart the middles of two marks are at least, as a share of the drawing's width: on a
/// phone, where that is 340 CSS pixels, a finger tells them apart (a target and its room are 24 of
/// them across in WCAG 2.2, success criterion 2.5.8).
const APART: f64 = 0.09;

/// A scene; its drawing is named after its question.
pub(super) fn scene(desk: &Desk, name: &Id, node: &Node) -> Option<Scene> {
    let (drawing, places) = drawings::with_places(desk, name, node);
    let (drawing, nodes) = (drawing?, places?.entries());
    let read: Vec<Option<ScenePlace>> = nodes
        .iter()
        .map(|entry| {
            entry_id(desk, entry);
            place(desk, &entry.node)
        })
        .collect();
    let places: Vec<ScenePlace> = read.into_iter().collect::<Option<_>>()?;
    let faults = places.iter().filter(|one| one.is_fault).count();
    if !(FEWEST..=MOST).contains(&places.len()) || faults == 0 || faults == places.len() {
        desk.error::<()>(
            node,
            "content.scene",
            told!("the scene has {count} places, {faults} of them wrong", count = places.len(), faults),
            told!("mark {FEWEST} to {MOST} places below `places`, some with `fault: yes` and some without", FEWEST, MOST),
        );
    }
    let apart = APART * drawing.width;
    for (at, one) in places.iter().enumerate() {
        let outside = one.at.0 < MARK_RADIUS
            || one.at.1 < MARK_RADIUS
            || one.at.0 > drawing.width - MARK_RADIUS
            || one.at.1 > drawing.height - MARK_RADIUS;
        if outside {
            desk.error::<()>(
                &nodes[at].node,
                "content.scene",
                told!(
                    "the mark {at} lies outside the drawing",
                    at = place_letter(at)
                ),
                told!(
                    "keep its middle {MARK_RADIUS} points inside the frame",
                    MARK_RADIUS
                ),
            );
        }
        let near = places[..at].iter().position(|other| {
            let (dx, dy) = (one.at.0 - other.at.0, one.at.1 - other.at.1);
            dx * dx + dy * dy < apart * apart
        });
        if let Some(other) = near {
            desk.error::<()>(
                &nodes[at].node,
                "content.scene",
                told!(
                    "the marks {other} and {at} lie so near that a finger cannot tell them apart",
                    other = place_letter(other),
                    at = place_letter(at)
                ),
                told!(
                    "set their middles {apart} points apart or more",
                    apart = format!("{apart:.0}")
                ),
            );
        }
    }
    Some(Scene { drawing, places })
}

fn place(desk: &Desk, node: &Node) -> Option<ScenePlace> {
    let keys = desk.keys(node, "a place of the scene")?;
    let at = keys
        .need("at", "write where its mark is, such as `at: [120, 60]`")
        .and_then(|node| drawings::point(desk, node));
    let say = keys
        .need("say", "say what is there, not whether it is right")
        .and_then(|node| phrase(desk, node, "the words", LONGEST_PLACE));
    let is_fault = keys
        .get("fault")
        .map_or(Some(false), |node| desk.yes_no(node));
    keys.done();
    Some(ScenePlace {
        at: at?,
        say: say?,
        is_fault: is_fault?,
    })
}

/// The faults in words, with their letters.
pub(super) fn faults(scene: &Scene) -> String {
    let all: Vec<String> = scene
        .places
        .iter()
        .enumerate()
        .filter(|(_, place)| place.is_fault)
        .map(|(at, place)| format!("{}: {}", place_letter(at), place.say))
        .collect();
    all.join("; ")
}
