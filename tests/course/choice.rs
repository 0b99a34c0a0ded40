//! The choice of segments against a search through every set.

use super::cases;
use leeside::course::timetable::choose::{Candidate, best};
use proptest::prelude::*;
use std::collections::BTreeSet;

proptest! {
    #![proptest_config(cases(3000))]

    /// The chosen set is worth as much as the best of all sets.
    #[test]
    fn the_chosen_set_equals_a_search_through_all(
        raw in prop::collection::vec(
            (1u32..20, 0u32..30, prop::collection::vec((0usize..5, 1u32..10), 0..3),
             prop::collection::vec(any::<prop::sample::Index>(), 0..3),
             any::<bool>(), 0u32..8),
            1..11,
        ),
        room in 0u32..90,
        flame_minutes in 0u32..15,
    ) {
        // One worth an objective, as in a module: the worth belongs to the objective.
        let candidates: Vec<Candidate> = raw
            .iter()
            .enumerate()
            .map(|(index, (minutes, worth, covers, needs, flame, required))| Candidate {
                minutes: *minutes,
                worth: *worth,
                covers: covers
                    .iter()
                    .map(|(objective, _)| *objective)
                    .collect::<BTreeSet<_>>()
                    .into_iter()
                    .map(|objective| (objective, 3 + objective as u32))
                    .collect(),
                needs: if index == 0 {
                    Vec::new()
                } else {
                    needs.iter().map(|need| need.index(index)).collect()
                },
                flame: *flame,
                required: *required == 0,
            })
            .collect();
        let mut most: Option<u32> = None;
        for set in 0u32..1 << candidates.len() {
            let held = |index: usize| set & (1 << index) != 0;
            let taken: Vec<&Candidate> = (0..candidates.len())
                .filter(|index| held(*index))
                .map(|index| &candidates[index])
                .collect();
            let whole = taken.iter().all(|one| one.needs.iter().all(|need| held(*need)))
                && (0..candidates.len()).all(|index| held(index) || !candidates[index].required);
            let minutes: u32 = taken.iter().map(|one| one.minutes).sum::<u32>()
                + if taken.iter().any(|one| one.flame) { flame_minutes } else { 0 };
            if whole && minutes <= room {
                let objectives: BTreeSet<(usize, u32)> =
                    taken.iter().flat_map(|one| one.covers.iter().copied()).collect();
                let worth = taken.iter().map(|one| one.worth).sum::<u32>()
                    + objectives.iter().map(|(_, worth)| worth).sum::<u32>();
                most = most.max(Some(worth));
            }
        }
        let chosen = best(&candidates, room, flame_minutes);
        prop_assert_eq!(chosen.as_ref().map(|chosen| chosen.worth), most);
        if let Some(chosen) = chosen {
            prop_assert!(chosen.exact && chosen.minutes <= room);
            let minutes: u32 = candidates
                .iter()
                .zip(&chosen.taken)
                .filter(|(_, taken)| **taken)
                .map(|(one, _)| one.minutes)
                .sum();
            prop_assert!(minutes <= chosen.minutes);
        }
    }
}
