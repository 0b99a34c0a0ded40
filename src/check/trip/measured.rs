//! What a kitchen's own burn trial measured.

use super::super::desk::Desk;
use crate::diag::told;
use crate::load::Node;
use crate::nouns::{Because, Measured, Presumed, Wind};
use crate::units::Fraction;

/// A measured efficiency: 5 to 90 %, with a warning outside 20 to 80 %.
fn measured_share(desk: &Desk, node: &Node) -> Option<Fraction> {
    let share = desk.efficiency(node)?;
    let percent = share.in_percent();
    let help = "write the `efficiency_to_plan` that `leeside trial` printed, such as `47%`";
    if !(5.0..=90.0).contains(&percent) {
        let message = told!(
            "no stove has an efficiency of {percent} % (5 to 90 %)",
            percent
        );
        return desk.error(node, "measured.efficiency", message, help);
    }
    if !(20.0..=80.0).contains(&percent) {
        let message = told!(
            "an efficiency of {percent} % is unusual (20 to 80 %)",
            percent
        );
        desk.warn(node, "measured.efficiency", message, help);
    }
    Some(share)
}

/// The efficiency of a trial, its wind and how far it may be off.
pub(super) fn measured(desk: &Desk, node: &Node) -> Option<Measured> {
    let keys = desk.keys(node, "`measured`")?;
    let efficiency = keys
        .need(
            "efficiency",
            "write the `efficiency_to_plan` that `leeside trial` printed",
        )
        .map(|node| measured_share(desk, node));
    let wind = match keys.get("wind") {
        Some(node) => desk.word(node, "a wind", Wind::ALL, Wind::word),
        None => {
            desk.assume(
                node.path_of("wind"),
                Presumed::Word(Wind::Calm.word()),
                Because::CalmTrial,
            );
            Some(Wind::Calm)
        }
    };
    let spread = match keys.get("spread") {
        Some(node) => desk
            .within(
                node,
                Fraction::percent(1.0)..=Fraction::percent(50.0),
                "how far the efficiency may be off, from 1% to 50% of itself",
            )
            .map(Some),
        None => Some(None),
    };
    keys.done();
    Some(Measured {
        efficiency: efficiency??,
        wind: wind?,
        spread: spread?,
    })
}
