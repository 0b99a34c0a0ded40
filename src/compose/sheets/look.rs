//! How sheets look and are printed: folder, copies, sides of leaves, sizes.

use crate::doc::{self, CardFold};

/// Whose folder a sheet lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Folder {
    /// What learners may hold.
    Learners,
    /// Keys, plans and records.
    Staff,
}

impl Folder {
    /// The folder's name.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Learners => "learners",
            Self::Staff => "staff",
        }
    }
}

/// How many copies of a sheet are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Copies {
    /// One.
    One,
    /// One a kitchen (for the sheet of one kitchen: one).
    PerKitchen,
    /// One a learner.
    PerLearner,
    /// One a person, instructors too.
    PerPerson,
    /// One an instructor.
    PerInstructor,
    /// One an instructor on the way, one in all for a lesson in one place.
    PerLeader,
    /// One for every two learners.
    PerPair,
    /// One for every six learners.
    PerSix,
    /// None: it is shown on a screen.
    Shown,
}

impl Copies {
    /// The rule in words.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::PerKitchen => "one a kitchen",
            Self::PerLearner => "one a learner",
            Self::PerPerson => "one a person",
            Self::PerInstructor => "one an instructor",
            Self::PerLeader => "one an instructor; one for a lesson",
            Self::PerPair => "one for two learners",
            Self::PerSix => "one for six learners",
            Self::Shown => "shown, not printed",
        }
    }
}

/// Which sides of the paper a sheet is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sides {
    /// One side of each leaf.
    One,
    /// Both sides of each leaf.
    Both,
    /// Page 1 on a leaf of its own, the rest on both sides.
    FirstAlone,
}

impl Sides {
    /// The leaves of paper that so many pages take.
    #[must_use]
    pub const fn leaves(self, pages: usize) -> usize {
        match self {
            Self::One => pages,
            Self::Both => pages.div_ceil(2),
            Self::FirstAlone if pages == 0 => 0,
            Self::FirstAlone => 1 + (pages - 1).div_ceil(2),
        }
    }

    /// Whether the back of a page (counted from 1) stays empty though another page follows.
    #[must_use]
    pub const fn empty_back(self, page: usize) -> bool {
        match self {
            Self::One => true,
            Self::Both => false,
            Self::FirstAlone => page == 1,
        }
    }
}

/// How a sheet is laid out, before paper and print size are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Body size in points.
    pub body_pt: f32,
    /// Size of cautions in points.
    pub caution_pt: f32,
    /// Side of a tick box in points.
    pub tick_pt: f32,
    /// Tick lists in two columns.
    pub two_column_ticks: bool,
    /// Margin in points.
    pub margin_pt: f32,
    /// At most so many pages.
    pub most_pages: Option<usize>,
    /// Where that many cannot hold it, up to this many are no fault.
    pub still_good_pages: Option<usize>,
    /// A hole in the corner.
    pub corner_hole: bool,
    /// Its letters come first: drawings only where they make none smaller.
    pub drawings_if_room: bool,
    /// Cards.
    pub cards: Option<CardFold>,
    /// On its side.
    pub landscape: bool,
}

/// Points in a millimetre.
pub(super) const MM: f32 = 72.0 / 25.4;

/// A sheet to read at a table.
pub const READ: Look = Look {
    body_pt: 12.0,
    caution_pt: 12.0,
    tick_pt: 4.5 * MM,
    two_column_ticks: false,
    margin_pt: 16.0 * MM,
    most_pages: None,
    still_good_pages: None,
    corner_hole: false,
    drawings_if_room: false,
    cards: None,
    landscape: false,
};

/// A sheet on one side of paper.
pub(super) const ONE_SIDE: Look = Look {
    most_pages: Some(1),
    margin_pt: 13.0 * MM,
    ..READ
};

/// The card in a cold, wet hand: large words, large boxes, a margin to hold it by.
pub(super) const CARD: Look = Look {
    body_pt: 14.0,
    caution_pt: 16.0,
    tick_pt: 6.5 * MM,
    two_column_ticks: true,
    margin_pt: 12.0 * MM,
    most_pages: Some(2),
    still_good_pages: None,
    corner_hole: true,
    drawings_if_room: true,
    cards: None,
    landscape: false,
};

/// Words to read from 3 m away, one side for each poster: a capital letter of this size is 10 mm
/// high, a three-hundredth of the way (common practice, no source).
pub(super) const POSTER: Look = Look {
    body_pt: 44.0,
    caution_pt: 44.0,
    most_pages: Some(1),
    still_good_pages: Some(usize::MAX),
    drawings_if_room: true,
    ..READ
};

/// One idea a page, for a wall.
pub(super) const SLIDE: Look = Look {
    body_pt: 32.0,
    caution_pt: 32.0,
    margin_pt: 13.0 * MM,
    landscape: true,
    ..READ
};

/// Points by which large print is larger.
const LARGER: f32 = 1.4;

impl Look {
    /// The style on a paper. In large print everything grows and the page count is free.
    #[must_use]
    pub fn style(&self, paper: doc::Paper, large_print: bool) -> doc::Style {
        let size = |points: f32| {
            if large_print {
                (points * LARGER).max(18.0)
            } else {
                points
            }
        };
        doc::Style {
            paper,
            body_pt: size(self.body_pt),
            caution_pt: size(self.caution_pt),
            tick_pt: self.tick_pt,
            two_column_ticks: self.two_column_ticks && !large_print,
            margin_pt: self.margin_pt,
            most_pages: if large_print { None } else { self.most_pages },
            still_good_pages: self.still_good_pages,
            corner_hole: self.corner_hole,
            drawings_if_room: self.drawings_if_room && !large_print,
            cards: self.cards,
            landscape: self.landscape,
        }
    }
}

/// A style for reading text that is not printed as a sheet of its own.
#[must_use]
pub fn plain_style() -> doc::Style {
    READ.style(doc::Paper::Letter, false)
}
