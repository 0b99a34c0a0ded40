//! Objective by session.

use super::piece::Piece;
use super::pieces::Aim;
use super::types::{Covered, Covering, Timetable, What};
use crate::nouns::{SegmentKind, Trip};

/// What is done for an objective in a segment of a kind, lit or not.
const fn covering(kind: SegmentKind, flame: bool) -> Covering {
    match kind {
        SegmentKind::Talk | SegmentKind::Show => Covering::Shown,
        SegmentKind::Check => Covering::Assessed,
        SegmentKind::SayIt
        | SegmentKind::DryRun
        | SegmentKind::DoTogether
        | SegmentKind::YouDoIt => {
            if flame {
                Covering::PractisedLit
            } else {
                Covering::Practised
            }
        }
    }
}

/// Every objective of the subjects, and of whatever else is taught, with what each session does
/// for it.
pub(super) fn coverage<'a>(
    trip: &Trip,
    aims: &[&Aim],
    all: &[Piece<'a>],
    sessions: &[Timetable<'a>],
) -> Vec<Covered<'a>> {
    let mut modules: Vec<(&Piece<'a>, bool)> = Vec::new();
    for piece in all {
        if !modules
            .iter()
            .any(|(other, _)| other.module.id == piece.module.id)
        {
            modules.push((piece, aims.iter().any(|aim| aim.names(piece))));
        }
    }
    modules.sort_by_key(|(piece, _)| {
        let ranks = aims.iter().filter_map(|aim| aim.rank(piece));
        let rank = ranks.min().unwrap_or(usize::MAX);
        (rank, piece.module.order, &piece.module.id)
    });
    modules
        .iter()
        .flat_map(|(piece, subject)| {
            let module = piece.module;
            module.objectives.keys().filter_map(move |id| {
                let by_session: Vec<Option<Covering>> = sessions
                    .iter()
                    .map(|session| {
                        let on_the_clock = session.entries.iter().flat_map(|entry| {
                            let checks = matches!(entry.what, What::Check(_));
                            let of_it = entry.segments().into_iter().filter(|(from, segment)| {
                                from.id == module.id && segment.objectives.contains(id)
                            });
                            of_it.map(move |(_, segment)| match checks {
                                true => Covering::Assessed,
                                false => covering(segment.kind, segment.flame),
                            })
                        });
                        let beside = session.beside.iter().filter_map(|one| {
                            let of_it =
                                one.module.id == module.id && one.segment.objectives.contains(id);
                            of_it.then(|| covering(one.segment.kind, false))
                        });
                        on_the_clock.chain(beside).max()
                    })
                    .collect();
                let shown = *subject || by_session.iter().any(Option::is_some);
                shown.then(|| Covered {
                    module,
                    objective: id.clone(),
                    known: trip.course.known.contains(&format!("{}.{id}", module.id)),
                    sessions: by_session,
                })
            })
        })
        .collect()
}
