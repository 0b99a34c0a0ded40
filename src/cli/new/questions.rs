//! The questions about a trip: their words, defaults, examples, and the order
//! in which the answers so far call for them.

use crate::diag::{Told, told};
use crate::nouns::{Library, Screen, StoveRule, Treatment, WaterFrom, Wind};

/// One question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// What the trip is called.
    Title,
    /// The first day.
    Starts,
    /// How many learn.
    Learners,
    /// How many lead.
    Instructors,
    /// The youngest's age.
    Youngest,
    /// What someone must not or will not eat.
    Diet,
    /// The stove of every kitchen.
    Stove,
    /// The stove of one station of a lesson, counted from 0.
    Station(usize),
    /// The pot of that station.
    Pot(usize),
    /// What keeps the wind off there.
    Screen(usize),
    /// Whether a lesson is held outdoors or indoors.
    InOrOut,
    /// The kind of place that a lesson is held at, for its rules.
    Land,
    /// What a lesson is about.
    Focus,
    /// What is cooked.
    Menu,
    /// How drinking water is made safe.
    Treatment,
    /// Something of one camp, counted from 0.
    Camp(usize, Of),
    /// Height of a lesson's place.
    Height,
    /// The air at a lesson.
    Air,
    /// The wind at a lesson's stoves.
    Wind,
    /// How long a lesson is.
    Minutes,
    /// When a lesson starts.
    Clock,
    /// How long the lesson is that bad weather leaves.
    Fallback,
    /// Which stoves the land manager allows.
    Stoves,
    /// The fire restriction in force.
    Stage,
    /// Who told of it, and when.
    Checked,
    /// Whom to call.
    Call,
    /// Where help is.
    NearestHelp,
}

/// What is asked of each camp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Of {
    /// Its name.
    Name,
    /// Nights spent there.
    Nights,
    /// Height above the sea.
    Elevation,
    /// Where its water comes from.
    WaterFrom,
    /// The air when supper is cooked.
    Day,
    /// The low when breakfast is cooked.
    Night,
    /// The wind where the stove stands.
    Wind,
    /// The kind of place, for its rules.
    Place,
}

impl Of {
    /// Every one, in the order asked and written.
    pub const ALL: &'static [Self] = &[
        Self::Name,
        Self::Nights,
        Self::Elevation,
        Self::WaterFrom,
        Self::Day,
        Self::Night,
        Self::Wind,
        Self::Place,
    ];

    /// The key in the file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Nights => "nights",
            Self::Elevation => "elevation",
            Self::WaterFrom => "water_from",
            Self::Day => "day",
            Self::Night => "night",
            Self::Wind => "wind",
            Self::Place => "place",
        }
    }
}

/// What a question does with an empty line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Empty {
    /// An answer is needed.
    Refused,
    /// This is taken.
    Means(String),
    /// It is left out, and then this holds.
    LeavesOut(&'static str),
}

impl Question {
    /// The question as asked, without what an empty line does.
    pub fn ask(self) -> Told {
        let text = match self {
            Self::Title => "Name of the trip",
            Self::Starts => "First day, year-month-day",
            Self::Learners => "How many learners",
            Self::Instructors => "How many instructors",
            Self::Youngest => "Age of the youngest",
            Self::Diet => "Allergies and diets: what, not who, and how strict",
            Self::Stove => "Stove",
            Self::Station(0) => "Stove of the first station",
            Self::Station(_) => "Stove of the next station",
            Self::Pot(_) => "Its pot, metal and size",
            Self::Screen(_) => "What keeps the wind off it",
            Self::InOrOut => "Outdoors or indoors",
            Self::Land => "Kind of place, for its rules",
            Self::Focus => "What it is about, subjects with commas between",
            Self::Height => "Height of the place above the sea",
            Self::Air => "Air when you cook",
            Self::Wind => "Wind where the stoves stand",
            Self::Minutes => "Minutes of the lesson",
            Self::Clock => "It starts at, hours and minutes",
            Self::Fallback => "Minutes indoors, nothing lit, if it storms",
            Self::Stoves => "Stoves that the land manager allows there now",
            Self::Stage => "Fire restriction in force there",
            Self::Checked => "Who told you of it, and when",
            Self::Menu => "Menu",
            Self::Treatment => "Drinking water is made safe by",
            Self::Camp(0, Of::Name) => "Name of the first camp",
            Self::Camp(_, Of::Name) => "Name of the next camp",
            Self::Camp(index, of) => {
                let what = match of {
                    Of::Nights => "nights there",
                    Of::Elevation => "height above the sea",
                    Of::WaterFrom => "water comes from",
                    Of::Day => "air when supper is cooked",
                    Of::Night => "coldest air, when breakfast is cooked",
                    Of::Wind => "wind where the stove stands",
                    Of::Name | Of::Place => "kind of place, for its rules",
                };
                return told!(
                    "Camp {number}: {what}",
                    number = index + 1,
                    what = Told::from(what)
                );
            }
            Self::Call => "Whom to call in an emergency",
            Self::NearestHelp => "Nearest help, and how long it takes to get there",
        };
        text.into()
    }

    /// What an empty line does.
    pub fn empty(self, answers: &Answers) -> Empty {
        let means = |text: &str| Empty::Means(text.to_owned());
        match self {
            Self::Starts => Empty::LeavesOut("no date on the sheets"),
            Self::Instructors => means("0"),
            Self::Youngest => Empty::LeavesOut("someone may be under 16"),
            Self::Diet => Empty::LeavesOut("none known"),
            Self::Station(0) | Self::Height => Empty::Refused,
            Self::Station(_) => Empty::LeavesOut("no more stations"),
            Self::Pot(_) => means("aluminium 1 L"),
            Self::Screen(_) => Empty::LeavesOut("the stove's own, else none"),
            Self::InOrOut => means("outdoors"),
            Self::Land => means("developed site"),
            Self::Focus => Empty::LeavesOut("all that safety requires of these stoves"),
            Self::Air => Empty::LeavesOut("summer air at that height"),
            Self::Wind => means(Wind::Breezy.word()),
            Self::Minutes => means("120"),
            Self::Clock => means("9:00"),
            Self::Fallback => Empty::LeavesOut("no plan for bad weather"),
            Self::Stoves => Empty::LeavesOut("not known, and so not allowed: ask"),
            Self::Stage => Empty::LeavesOut("no words of the manager's on the sheets"),
            Self::Checked => Empty::LeavesOut("a line to fill in by hand"),
            Self::Menu => means("boil only"),
            Self::Camp(0, Of::Name)
            | Self::Title
            | Self::Learners
            | Self::Stove
            | Self::Treatment => Empty::Refused,
            Self::Camp(_, Of::Name) => Empty::LeavesOut("no more camps"),
            Self::Camp(_, Of::Nights) => means("1"),
            Self::Camp(_, Of::Elevation) => Empty::Refused,
            Self::Camp(_, Of::WaterFrom) => {
                let tap = answers
                    .get(Self::Treatment)
                    .is_some_and(|text| Treatment::from_word(text) == Some(Treatment::Tap));
                means(
                    if tap {
                        WaterFrom::Tap
                    } else {
                        WaterFrom::Stream
                    }
                    .word(),
                )
            }
            Self::Camp(_, Of::Day) => Empty::LeavesOut("summer air at that height"),
            Self::Camp(_, Of::Night) => Empty::LeavesOut("so much below the day"),
            Self::Camp(_, Of::Wind) => means(Wind::Breezy.word()),
            Self::Camp(_, Of::Place) => means("inland forest"),
            Self::Call | Self::NearestHelp => Empty::LeavesOut("a line to fill in by hand"),
        }
    }

    /// An answer that is right, for the explanation and the starter.
    pub const fn example(self) -> &'static str {
        match self {
            Self::Title => "Our first overnight",
            Self::Starts => "2027-05-14",
            Self::Learners => "8",
            Self::Instructors => "2",
            Self::Youngest => "14",
            Self::Diet => "tree nuts, strict",
            Self::Stove | Self::Station(_) => "white gas",
            Self::Pot(_) => "aluminium 1 L",
            Self::Screen(_) => "partial",
            Self::InOrOut => "outdoors",
            Self::Land => "developed site",
            Self::Focus => "lighting-and-flames, greywater",
            Self::Height => "310 m",
            Self::Air => "14 C",
            Self::Wind => "calm",
            Self::Minutes => "150",
            Self::Clock => "14:30",
            Self::Fallback => "45",
            Self::Stoves => "with a shut-off valve",
            Self::Stage => "stage 1",
            Self::Checked => "2027-05-12, ranger desk",
            Self::Menu => "boil only",
            Self::Treatment => "filter",
            Self::Camp(0, Of::Name) => "First camp",
            Self::Camp(_, Of::Name) => "Next camp",
            Self::Camp(_, Of::Nights) => "1",
            Self::Camp(_, Of::Elevation) => "1200 m",
            Self::Camp(_, Of::WaterFrom) => "stream",
            Self::Camp(_, Of::Day) => "15 C",
            Self::Camp(_, Of::Night) => "5 C",
            Self::Camp(_, Of::Wind) => "breezy",
            Self::Camp(_, Of::Place) => "inland forest",
            Self::Call => "555-0117",
            Self::NearestHelp => "road, 2 h walk out",
        }
    }

    /// What stands beside the line in the file.
    pub const fn comment(self) -> &'static str {
        match self {
            Self::Starts => "the first day",
            Self::Learners => "or clients",
            Self::Youngest => "under 16: an adult beside each lit stove",
            Self::Stove | Self::Station(0) => "`leeside list gear` shows them",
            Self::Diet => "what, not who",
            Self::Screen(0) => "none, natural, partial, full, built-in",
            Self::InOrOut => "or indoors: then nothing is lit",
            Self::Land => "whose rules hold; `leeside list places` shows them",
            Self::Focus => "`leeside list modules` shows them",
            Self::Air => "air when you cook",
            Self::Wind => "calm, breezy, windy",
            Self::Fallback => "the shorter plan, nothing lit",
            Self::Stoves => "yes, with a shut-off valve, no; left out: not known, not allowed",
            Self::Stage => "in the land manager's words",
            Self::Menu => "supper, breakfast, hot drinks; or `cold`",
            Self::Treatment => "tap, boil, filter, chemical, uv",
            Self::Camp(0, Of::WaterFrom) => "stream, tap, snow",
            Self::Camp(0, Of::Day) => "air when supper is cooked",
            Self::Camp(0, Of::Night) => "low, when breakfast is cooked",
            Self::Camp(0, Of::Wind) => "calm, breezy, windy",
            Self::Camp(0, Of::Place) => "`leeside list places` shows them",
            _ => "",
        }
    }

    /// The words that it takes, where they are a closed list.
    pub fn choices(self, library: &Library) -> Vec<String> {
        fn owned<'t>(all: impl IntoIterator<Item = &'t str>) -> Vec<String> {
            all.into_iter().map(str::to_owned).collect()
        }
        match self {
            Self::Stove | Self::Station(_) => {
                owned(library.stoves.values().map(|one| one.name.as_str()))
            }
            Self::Menu => {
                let menus = library.menus.values().map(|one| one.name.as_str());
                owned(menus.chain(["cold"]))
            }
            Self::Treatment => owned(all(Treatment::ALL, Treatment::word)),
            Self::Camp(_, Of::WaterFrom) => owned(all(WaterFrom::ALL, WaterFrom::word)),
            Self::Camp(_, Of::Wind) | Self::Wind => owned(all(Wind::ALL, Wind::word)),
            Self::Camp(_, Of::Place) | Self::Land => {
                owned(library.places.keys().map(String::as_str))
            }
            Self::Screen(_) => owned(all(Screen::ALL, Screen::word)),
            Self::InOrOut => owned(["outdoors", "indoors"]),
            Self::Focus => owned(library.modules.keys().map(String::as_str)),
            Self::Stoves => owned(all(StoveRule::ALL, StoveRule::word)),
            _ => Vec::new(),
        }
    }

    /// The explanation behind `?`.
    pub fn explain(self, library: &Library) -> Told {
        let choices = self.choices(library);
        let what = match self {
            Self::Title => "It heads every sheet.",
            Self::Starts => "It dates the sheets, and says whether content is due for review.",
            Self::Learners => "Everyone who is taught, clients too; they eat and drink.",
            Self::Instructors => "Those who lead; they eat and drink as well.",
            Self::Youngest => "Under 16, an adult stands beside each lit stove.",
            Self::Diet => {
                "The food and how strict; never a name. It brings the allergy rules onto the \
                 sheets."
            }
            Self::Camp(_, Of::Name) => "As people on the trip call it; each camp has its own name.",
            Self::Camp(_, Of::Nights) => "Nights in a row at this camp, a whole number.",
            Self::Camp(_, Of::Elevation) | Self::Height => {
                "A number and a unit, m or ft: water boils cooler up high."
            }
            Self::Camp(_, Of::Day | Of::Night) => {
                "A number and a unit, C or F: cold air chills the canister and the water."
            }
            Self::Camp(_, Of::Wind) | Self::Wind => {
                "Breezy moves leaves; above windy no flame burns in the open."
            }
            Self::Pot(_) => "A metal and a size: a small pot boils within a turn at the stove.",
            Self::InOrOut => "Indoors nothing is lit and no fuel is opened.",
            Self::Land => "A school yard is a developed site.",
            Self::Air => "A number and a unit, C or F.",
            Self::Minutes => "A whole number, from first word to packed up.",
            Self::Clock => "By a clock of 24 hours.",
            Self::Fallback => "A second, shorter timetable for a storm: talk, show and dry runs.",
            Self::Stage => "In the land manager's words, as of now; never from memory.",
            Self::Checked => "A day and a desk, or a name at it.",
            Self::Call => "A name and a number, as they should stand on the sheets.",
            Self::NearestHelp => "A place, and the time to reach it.",
            Self::Stove
            | Self::Station(_)
            | Self::Menu
            | Self::Treatment
            | Self::Screen(_)
            | Self::Focus
            | Self::Stoves
            | Self::Camp(_, Of::WaterFrom | Of::Place) => "",
        };
        let mut said = Told::NOTHING;
        if !choices.is_empty() {
            said.push(told!("One of: {choices}. ", choices = choices.join(", ")));
        }
        if !what.is_empty() {
            said.push(what);
            said.push(" ");
        }
        said.push(told!("For example: {example}", example = self.example()));
        said
    }
}

fn all<T: Copy>(all: &[T], word: impl Fn(T) -> &'static str) -> Vec<&'static str> {
    all.iter().map(|one| word(*one)).collect()
}

/// Questions with their answers in the order given; none where it was left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Answers {
    /// Whether they are about a lesson in one place.
    pub lesson: bool,
    /// What was asked and answered.
    pub given: Vec<(Question, Option<String>)>,
}

impl Answers {
    /// What was answered; none if it was left out or not asked yet.
    pub fn get(&self, question: Question) -> Option<&str> {
        self.given
            .iter()
            .find(|(one, _)| *one == question)
            .and_then(|(_, answer)| answer.as_deref())
    }

    /// How many camps have a name.
    pub fn camps(&self) -> usize {
        self.count(|one| matches!(one, Question::Camp(_, Of::Name)))
    }

    /// How many stations have a stove.
    pub fn stations(&self) -> usize {
        self.count(|one| matches!(one, Question::Station(_)))
    }

    fn count(&self, wanted: impl Fn(Question) -> bool) -> usize {
        self.given
            .iter()
            .filter(|(one, answer)| wanted(*one) && answer.is_some())
            .count()
    }

    /// What to ask next; none at the end.
    pub fn next(&self) -> Option<Question> {
        use Question as Q;
        let Some((last, answer)) = self.given.last() else {
            return Some(Q::Title);
        };
        Some(match last {
            Q::Title => Q::Starts,
            Q::Starts => Q::Learners,
            Q::Learners => Q::Instructors,
            Q::Instructors => Q::Youngest,
            Q::Youngest => Q::Diet,
            Q::Diet if self.lesson => Q::Station(0),
            Q::Diet => Q::Stove,
            Q::Station(_) if answer.is_none() => Q::Menu,
            Q::Station(index) => Q::Pot(*index),
            Q::Pot(index) => Q::Screen(*index),
            Q::Screen(index) => Q::Station(index + 1),
            Q::Stove => Q::Menu,
            Q::Menu if self.lesson => Q::InOrOut,
            Q::InOrOut => Q::Land,
            Q::Land => Q::Height,
            Q::Menu => Q::Treatment,
            Q::Treatment => Q::Camp(0, Of::Name),
            Q::Height => Q::Air,
            Q::Air => Q::Wind,
            Q::Wind => Q::Minutes,
            Q::Minutes => Q::Clock,
            Q::Clock => Q::Focus,
            Q::Focus => Q::Fallback,
            Q::Fallback => Q::Stoves,
            Q::Camp(_, Of::Name) if answer.is_none() => Q::Stoves,
            Q::Camp(index, of) => {
                let at = Of::ALL.iter().position(|one| one == of).unwrap_or(0);
                match Of::ALL.get(at + 1) {
                    Some(of) => Q::Camp(*index, *of),
                    None => Q::Camp(index + 1, Of::Name),
                }
            }
            Q::Stoves => Q::Stage,
            Q::Stage if answer.is_some() || self.get(Q::Stoves).is_some() => Q::Checked,
            Q::Stage | Q::Checked => Q::Call,
            Q::Call => Q::NearestHelp,
            Q::NearestHelp => return None,
        })
    }

    /// These answers with, for each question that has not been asked yet, what
    /// an empty line means or else an example.
    pub fn filled(&self) -> Self {
        let mut filled = self.clone();
        while let Some(question) = filled.next() {
            let answer = match question.empty(&filled) {
                // a party of nobody is for the last of its questions to refuse
                _ if question == Question::Instructors => Some("1".to_owned()),
                Empty::Refused => Some(question.example().to_owned()),
                Empty::Means(text) => Some(text),
                Empty::LeavesOut(_) => None,
            };
            filled.given.push((question, answer));
        }
        filled
    }
}
