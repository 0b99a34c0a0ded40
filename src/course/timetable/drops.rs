//! What goes first when time runs short.

use super::piece::Piece;
use std::collections::BTreeSet;

/// The lines that may go, by their index, the first to go first: the least class first, in it the
/// least worth, and nothing before what still needs it. `lines` are the pieces of each; those of `fast` stay, with what they
/// need and with whatever shares a line with them.
pub(super) fn drops(
    worths: &[u32],
    class: &dyn Fn(usize) -> u32,
    all: &[Piece<'_>],
    lines: &[Vec<usize>],
    fast: &BTreeSet<usize>,
) -> Vec<usize> {
    let mut fast = fast.clone();
    for line in lines.iter().rev() {
        let stays = |index: &usize| all[*index].drills() || fast.contains(index);
        if line.iter().any(stays) {
            for index in line {
                fast.insert(*index);
                fast.extend(all[*index].needs.iter().copied());
            }
        }
    }
    let mut remaining: Vec<usize> = (0..lines.len())
        .filter(|at| !lines[*at].is_empty())
        .collect();
    let mut drops = Vec::new();
    loop {
        let others = |at: usize| {
            let others = remaining.iter().filter(move |other| **other != at);
            others.flat_map(|other| &lines[*other])
        };
        let worth = |index: usize, at: usize| {
            let held = |id: &String| {
                others(at).any(|other| all[*other].covers.iter().any(|(known, _)| known == id))
            };
            let covers = all[index].covers.iter().filter(|(id, _)| !held(id));
            worths[index] * (1 + covers.map(|(_, worth)| worth).sum::<u32>())
        };
        let next = remaining
            .iter()
            .copied()
            .filter(|at| !lines[*at].iter().any(|index| fast.contains(index)))
            .filter(|at| {
                let needed = |index| others(*at).any(|other| all[*other].needs.contains(index));
                !lines[*at].iter().any(needed)
            })
            .min_by_key(|at| {
                let sum: u32 = lines[*at].iter().map(|index| worth(*index, *at)).sum();
                let class = lines[*at].iter().map(|index| class(*index)).max();
                (class, sum, usize::MAX - at)
            });
        let Some(next) = next else { break };
        remaining.retain(|at| *at != next);
        drops.push(next);
    }
    drops
}
