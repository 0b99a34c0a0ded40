//! The table of sheets. A new sheet is a template and a row here.

pub(super) mod look;

use super::cautions::Needed;
use super::sample;
use super::view::{
    Filled, Inputs, assess, briefing, cards, fuel, handout, kitchen, lesson, notes, office,
    packing, store, stoves,
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
    /// Its title.
    pub title: &'static str,
    /// What it is for, one line.
    pub about: &'static str,
    /// Where it lies.
    pub folder: Folder,
    /// How it looks.
    pub look: Look,
    /// How many are printed.
    pub copies: Copies,
    /// How it is printed, for the print guide.
    pub print: &'static str,
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
}

/// Every sheet, learners' first.
pub static ALL: &[Row] = &[
    Row {
        name: "briefing-sheet",
        title: "Briefing",
        about: "read out before leaving: emergency, fuel, rules, cautions, signatures",
        folder: Folder::Learners,
        look: Look {
            caution_pt: 11.0,
            ..ONE_SIDE
        },
        copies: Copies::PerLeader,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: briefing::sheets,
        sample: sample::of::<briefing::Briefing>,
    },
    Row {
        name: "packing-list",
        title: "Packing list",
        about: "what goes into each kitchen bag, with masses, who carries it, what comes back",
        folder: Folder::Learners,
        look: Look {
            body_pt: 11.0,
            tick_pt: 3.6 * MM,
            two_column_ticks: true,
            ..ONE_SIDE
        },
        copies: Copies::PerKitchen,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: packing::sheets,
        sample: sample::of::<packing::PackingList>,
    },
    Row {
        name: "kitchen-checklist",
        title: "Kitchen card",
        about: "what to do at each moment, the fuel that should be left, what to do when it goes wrong",
        folder: Folder::Learners,
        look: CARD,
        copies: Copies::PerKitchen,
        print: "both sides of one leaf; fold, hole in the corner",
        sides: Sides::Both,
        reads: &[Reads::Changes],
        needs: kitchen::needs,
        fill: kitchen::sheets,
        sample: sample::of::<kitchen::KitchenCard>,
    },
    Row {
        name: "fuel-worksheet",
        title: "Fuel worksheet",
        about: "the fuel of this trip, line by line, to work out with a pencil",
        folder: Folder::Learners,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: fuel::sheets,
        sample: sample::of::<fuel::FuelSheet>,
    },
    Row {
        name: "stove-choice",
        title: "Which stove",
        about: "every family of stove on this trip: fuel, weight, time, tipping, what comes back",
        folder: Folder::Learners,
        look: Look {
            body_pt: 11.0,
            most_pages: Some(2),
            ..READ
        },
        copies: Copies::PerPair,
        print: "both sides of one leaf",
        sides: Sides::Both,
        reads: &[Reads::OtherStoves],
        needs: nothing,
        fill: stoves::sheets,
        sample: sample::of::<stoves::StoveChoice>,
    },
    Row {
        name: "lesson-handout",
        title: "Lesson handout",
        about: "drawings, this trip's numbers, cautions, and what will be checked",
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
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: handout::needs,
        fill: handout::sheets,
        sample: sample::of::<handout::Handout>,
    },
    Row {
        name: "study-cards",
        title: "Study cards",
        about: "one idea a card, to cut, fold and learn from",
        folder: Folder::Learners,
        look: Look {
            cards: Some(CardFold::SingleSided),
            ..READ
        },
        copies: Copies::PerLearner,
        print: "one side; cut, fold on the middle line, glue",
        sides: Sides::One,
        reads: &[],
        needs: cards::needs,
        fill: cards::study_cards,
        sample: sample::of::<cards::StudyCards>,
    },
    Row {
        name: "shake-down",
        title: "Test the gear at home",
        about: "the gear tried at home, and a burn trial to measure your own stove",
        folder: Folder::Learners,
        look: Look {
            most_pages: Some(2),
            ..READ
        },
        copies: Copies::PerKitchen,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: store::shake_down_needs,
        fill: store::shake_down,
        sample: sample::of::<store::ShakeDown>,
    },
    Row {
        name: "sources",
        title: "Sources",
        about: "what the codes on the other sheets stand for",
        folder: Folder::Learners,
        look: Look {
            body_pt: 9.0,
            margin_pt: 13.0 * MM,
            ..READ
        },
        copies: Copies::One,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: store::sources,
        sample: sample::of::<store::Sources>,
    },
    Row {
        name: "fuel-worksheet-key",
        title: "Fuel worksheet: key",
        about: "the worksheet worked out",
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
        print: "both sides",
        sides: Sides::Both,
        reads: &[Reads::OtherStoves, Reads::WhatIf],
        needs: nothing,
        fill: fuel::sheets,
        sample: sample::of::<fuel::FuelSheet>,
    },
    Row {
        name: "lesson-plan",
        title: "Lesson plan",
        about: "the clock on page 1, the fallback, then a card for each segment",
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
        print: "page 1 on its own leaf, the rest on both sides",
        sides: Sides::FirstAlone,
        reads: &[],
        needs: lesson::needs,
        fill: lesson::sheets,
        sample: sample::of::<lesson::LessonPlan>,
    },
    Row {
        name: "instructor-notes",
        title: lesson::NOTES,
        about: "how each subject goes wrong, and where authorities differ",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            margin_pt: 14.0 * MM,
            most_pages: Some(4),
            still_good_pages: Some(usize::MAX),
            ..READ
        },
        copies: Copies::One,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: notes::sheets,
        sample: sample::of::<notes::InstructorNotes>,
    },
    Row {
        name: "skills-check",
        title: "Skills check",
        about: "three forms with one blueprint, and a grid for six candidates",
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
        print: "a form for each candidate, a grid for six",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: assess::skills_check,
        sample: sample::of::<assess::SkillsCheck>,
    },
    Row {
        name: "skills-check-key",
        title: "Skills check: key",
        about: "each form's answers with reasons, and what to look for at the stove",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            ..READ
        },
        copies: Copies::PerInstructor,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: assess::key,
        sample: sample::of::<assess::SkillsKey>,
    },
    Row {
        name: "return-sheet",
        title: "Return sheet",
        about: "what comes back: weights, damage, near misses, passes, signed",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::One,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: store::return_sheet,
        sample: sample::of::<store::ReturnSheet>,
    },
    Row {
        name: "intake",
        title: "What to ask before planning",
        about: "questions for the organiser and the land manager, and what was assumed",
        folder: Folder::Staff,
        look: Look {
            body_pt: 11.0,
            ..READ
        },
        copies: Copies::One,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: store::intake,
        sample: sample::of::<store::Intake>,
    },
    Row {
        name: "risk-assessment",
        title: "Risk assessment",
        about: "hazards, what this plan does about each, what remains; signed",
        folder: Folder::Staff,
        look: READ,
        copies: Copies::One,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "parent-letter",
        title: "Letter to parents",
        about: "clothes, times, consent, allergy and medicine slip to return",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "equipment-request",
        title: "Equipment request",
        about: "everything to bring, each thing once, and what to borrow",
        folder: Folder::Staff,
        look: READ,
        copies: Copies::One,
        print: "both sides",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "learner-page",
        title: "One page to keep",
        about: "what a learner must be able to do, and what to do when it goes wrong",
        folder: Folder::Learners,
        look: ONE_SIDE,
        copies: Copies::PerPair,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "station-posters",
        title: "Station posters",
        about: "large words for each station, to read from three steps away",
        folder: Folder::Staff,
        look: POSTER,
        copies: Copies::One,
        print: "one side, large",
        sides: Sides::One,
        reads: &[],
        needs: nothing,
        fill: office::station_posters,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "slides",
        title: "Slides",
        about: "one idea a page, in the order of the clock",
        folder: Folder::Staff,
        look: SLIDE,
        copies: Copies::Shown,
        print: "for a screen",
        sides: Sides::One,
        reads: &[],
        needs: nothing,
        fill: office::slides,
        sample: sample::of::<office::Slides>,
    },
    Row {
        name: "register",
        title: "Register",
        about: "who is there, by group and number; names by hand",
        folder: Folder::Staff,
        look: READ,
        copies: Copies::One,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "certificate",
        title: "What was shown",
        about: "what one learner showed, ticked and signed",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::PerLearner,
        print: "one side",
        sides: Sides::Both,
        reads: &[],
        needs: nothing,
        fill: office::sheets,
        sample: sample::of::<office::Papers>,
    },
    Row {
        name: "week-later",
        title: "A week later",
        about: "what to ask again, without notes",
        folder: Folder::Staff,
        look: ONE_SIDE,
        copies: Copies::PerInstructor,
        print: "one side",
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
