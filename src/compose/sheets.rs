//! The table of sheets. A new sheet is a template and a row here.

pub(super) mod look;

use super::catalogue;
use super::cautions::Needed;
use super::sample;
use super::view::{
    Filled, Inputs, assess, briefing, cards, fuel, handout, kitchen, lesson, notes, office,
    packing, slides, store, stoves,
};
use crate::doc::CardFold;
use serde_json::Value;

pub(super) use look::READ;
use look::{CARD, MM, ONE_SIDE, POSTER, SLIDE};
pub use look::{Copies, Folder, Look, Sides, plain_style};

/// What a sheet reads that costs time to work out, and is left out where no sheet does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reads {
    /// The other families of stove on the same trip.
    OtherStoves,
    /// The trip planned again with one thing changed at a time, as the kitchen card tells it.
    Changes,
    /// The same side by side.
    WhatIf,
}

/// A sheet of the packet.
pub struct Row {
    /// Its name on the command line and in file names.
    pub name: &'static str,
    /// Where it lies.
    pub folder: Folder,
    /// How it looks.
    pub look: Look,
    /// How many are printed.
    pub copies: Copies,
    /// Which sides of its leaves are printed.
    pub sides: Sides,
    /// What it reads beside the trip's own plan.
    pub reads: &'static [Reads],
    /// The cautions it cannot lose, for the kitchen it is for.
    pub needs: fn(&Inputs<'_>, Option<&str>) -> Vec<Needed>,
    /// Makes its views.
    pub fill: fn(&Inputs<'_>, &str) -> Vec<Filled>,
    /// A sample of its view, full or empty.
    pub sample: fn(bool) -> Value,
}

impl Row {
    /// The name of its template.
    #[must_use]
    pub fn template(&self) -> String {
        format!("sheets/{}.md", self.name)
    }

    /// Its title.
    #[must_use]
    pub fn title(&self) -> String {
        catalogue::by_id(&format!("sheet-{}", self.name))
    }

    /// What it is for, one line.
    #[must_use]
    pub fn about(&self) -> String {
        catalogue::by_id(&format!("sheet-{}-about", self.name))
    }

    /// How it is printed, for the print guide.
    #[must_use]
    pub fn print(&self) -> String {
        catalogue::by_id(&format!("sheet-{}-print", self.name))
    }
}

/// Every sheet, learners' first.
pub static ALL: &[Row] = &[
    Row {
        name: "briefing-sheet",
        folder: Folder::Learners,
        look: Look {
            caution_pt: 11.0,
            ..ONE_SIDE
        },
        copies: Copies::PerLeader,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: briefing::sheets,
        sample: sample::of::<briefing::Briefing>,
    },
    Row {
        name: "packing-list",
        folder: Folder::Learners,
        look: Look {
            body_pt: 11.0,
            tick_pt: 3.6 * MM,
            two_column_ticks: true,
            ..ONE_SIDE
        },
        copies: Copies::PerKitchen,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: packing::sheets,
        sample: sample::of::<packing::PackingList>,
    },
    Row {
        name: "kitchen-checklist",
        folder: Folder::Learners,
        look: CARD,
        copies: Copies::PerKitchen,
        sides: Sides::Both,
        reads: &[Reads::Changes],
        needs: kitchen::needs,
        fill: kitchen::sheets,
        sample: sample::of::<kitchen::KitchenCard>,
    },
    Row {
        name: "fuel-worksheet",
        folder: Folder::Learners,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: fuel::sheets,
        sample: sample::of::<fuel::FuelSheet>,
    },
    Row {
        name: "stove-choice",
        folder: Folder::Learners,
        look: Look {
            body_pt: 11.0,
            most_pages: Some(2),
            ..READ
        },
        copies: Copies::PerPair,
        sides: Sides::Both,
        reads: &[Reads::OtherStoves],
        needs: nothing,
        fill: stoves::sheets,
        sample: sample::of::<stoves::StoveChoice>,
    },
    Row {
        name: "lesson-handout",
        folder: Folder::Learners,
        look: Look {
            body_pt: 11.0,
            caution_pt: 10.5,
            two_column_ticks: true,
            margin_pt: 13.0 * MM,
            most_pages: Some(4),
            still_good_pages: Some(6),
            ..READ
        },
        copies: Copies::PerPerson,
        sides: Sides::Both,
        reads: &[],
        needs: handout::needs,
        fill: handout::sheets,
        sample: sample::of::<handout::Handout>,
    },
    Row {
        name: "study-cards",
        folder: Folder::Learners,
        look: Look {
            cards: Some(CardFold::SingleSided),
            ..READ
        },
        copies: Copies::PerLearner,
        sides: Sides::One,
        reads: &[],
        needs: cards::needs,
        fill: cards::study_cards,
        sample: sample::of::<cards::StudyCards>,
    },
    Row {
        name: "shake-down",
        folder: Folder::Learners,
        look: Look {
            most_pages: Some(2),
            ..READ
        },
        copies: Copies::PerKitchen,
        sides: Sides::Both,
        reads: &[],
        needs: store::shake_down_needs,
        fill: store::shake_down,
        sample: sample::of::<store::ShakeDown>,
    },
    Row {
        name: "sources",
        folder: Folder::Learners,
        look: Look {
            body_pt: 9.0,
            margin_pt: 13.0 * MM,
            ..READ
        },
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: store::sources,
        sample: sample::of::<store::Sources>,
    },
    Row {
        name: "fuel-worksheet-key",
        folder: Folder::Staff,
        // every camp's workings stand behind it: tables take the width, and a long trip's get long
        look: Look {
            body_pt: 11.0,
            margin_pt: 13.0 * MM,
            most_pages: Some(5),
            still_good_pages: Some(usize::MAX),
            ..READ
        },
        copies: Copies::PerInstructor,
        sides: Sides::Both,
        reads: &[Reads::OtherStoves, Reads::WhatIf],
        needs: nothing,
        fill: fuel::sheets,
        sample: sample::of::<fuel::FuelSheet>,
    },
    Row {
        name: "lesson-plan",
        folder: Folder::Staff,
        look: Look {
            body_pt: 10.5,
            caution_pt: 10.0,
            tick_pt: 3.6 * MM,
            two_column_ticks: true,
            margin_pt: 13.0 * MM,
            most_pages: Some(5),
            ..READ
        },
        copies: Copies::PerInstructor,
        sides: Sides::FirstAlone,
        reads: &[],
        needs: lesson::needs,
        fill: lesson::sheets,
        sample: sample::of::<lesson::LessonPlan>,
    },
    Row {
        name: "instructor-notes",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            margin_pt: 14.0 * MM,
            most_pages: Some(4),
            still_good_pages: Some(usize::MAX),
            ..READ
        },
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: notes::sheets,
        sample: sample::of::<notes::InstructorNotes>,
    },
    Row {
        name: "skills-check",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            caution_pt: 10.0,
            tick_pt: 3.8 * MM,
            margin_pt: 14.0 * MM,
            most_pages: Some(2),
            ..READ
        },
        copies: Copies::PerSix,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: assess::skills_check,
        sample: sample::of::<assess::SkillsCheck>,
    },
    Row {
        name: "skills-check-key",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            ..READ
        },
        copies: Copies::PerInstructor,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: assess::key,
        sample: sample::of::<assess::SkillsKey>,
    },
    Row {
        name: "return-sheet",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: store::return_sheet,
        sample: sample::of::<store::ReturnSheet>,
    },
    Row {
        name: "intake",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            ..READ
        },
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: store::intake,
        sample: sample::of::<store::Intake>,
    },
    Row {
        name: "risk-assessment",
        folder: Folder::Staff,
        look: READ,
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "parent-letter",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "equipment-request",
        folder: Folder::Staff,
        look: READ,
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "learner-page",
        folder: Folder::Learners,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "station-posters",
        folder: Folder::Staff,
        look: POSTER,
        copies: Copies::One,
        sides: Sides::One,
        reads: &[],
        needs: nothing,
        fill: office::station_posters,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "slides",
        folder: Folder::Staff,
        look: SLIDE,
        copies: Copies::Shown,
        sides: Sides::One,
        reads: &[],
        needs: nothing,
        fill: slides::sheets,
        sample: sample::of::<slides::Slides>,
    },
    Row {
        name: "register",
        folder: Folder::Staff,
        look: READ,
        copies: Copies::One,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "certificate",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "week-later",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::PerInstructor,
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
];

/// A sheet that uses no module's text: lists, forms and sums.
fn nothing(_: &Inputs<'_>, _: Option<&str>) -> Vec<Needed> {
    Vec::new()
}

/// Every template with the sample it is proven on: the packet's sheets, then the practice's.
pub fn templates() -> impl Iterator<Item = (String, fn(bool) -> Value)> {
    let packet = ALL.iter().map(|row| (row.template(), row.sample));
    let practice = super::leaves::LEAVES
        .iter()
        .map(|leaf| (leaf.template(), leaf.sample));
    packet.chain(practice)
}

/// The sheet of a name.
#[must_use]
pub fn find(name: &str) -> Option<&'static Row> {
    ALL.iter().find(|row| row.name == name)
}
