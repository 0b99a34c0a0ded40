//! The questions about a trip: their words, defaults, examples, and the order
//! in which the answers so far call for them.

use crate::nouns::{Library, Treatment, WaterFrom, Wind};

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
    /// The stove of every kitchen.
    Stove,
    /// What is cooked.
    Menu,
    /// How drinking water is made safe.
    Treatment,
    /// Something of one camp, counted from 0.
    Camp(usize, Of),
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
    pub fn ask(self) -> String {
        let text = match self {
            Self::Title => "Name of the trip",
            Self::Starts => "First day, year-month-day",
            Self::Learners => "How many learners",
            Self::Instructors => "How many instructors",
            Self::Youngest => "Age of the youngest",
            Self::Stove => "Stove",
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
                return format!("Camp {}: {what}", index + 1);
            }
            Self::Call => "Whom to call in an emergency",
            Self::NearestHelp => "Nearest help, and how long it takes to get there",
        };
        text.to_owned()
    }

    /// What an empty line does.
    pub fn empty(self, answers: &Answers) -> Empty {
        let means = |text: &str| Empty::Means(text.to_owned());
        match self {
            Self::Starts => Empty::LeavesOut("no date on the sheets"),
            Self::Instructors => means("0"),
            Self::Youngest => Empty::LeavesOut("someone may be under 16"),
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
            Self::Stove => "white gas",
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
            Self::Stove => "`leeside list gear` shows them",
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

    /// The explanation behind `?`.
    pub fn explain(self, library: &Library) -> String {
        let words = |words: &[&str]| format!("One of: {}.", words.join(", "));
        let names = |names: Vec<&str>| format!("One of: {}.", names.join(", "));
        let what = match self {
            Self::Title => "It heads every sheet.".to_owned(),
            Self::Starts => {
                "It dates the sheets, and says whether content is due for review.".to_owned()
            }
            Self::Learners => "Everyone who is taught, clients too; they eat and drink.".to_owned(),
            Self::Instructors => "Those who lead; they eat and drink as well.".to_owned(),
            Self::Youngest => "Under 16, an adult stands beside each lit stove.".to_owned(),
            Self::Stove => names(
                library
                    .stoves
                    .values()
                    .map(|one| one.name.as_str())
                    .collect(),
            ),
            Self::Menu => names(
                library
                    .menus
                    .values()
                    .map(|one| one.name.as_str())
                    .chain(["cold"])
                    .collect(),
            ),
            Self::Treatment => words(&all(Treatment::ALL, Treatment::word)),
            Self::Camp(_, of) => match of {
                Of::Name => "As people on the trip call it; each camp has its own name.".to_owned(),
                Of::Nights => "Nights in a row at this camp, a whole number.".to_owned(),
                Of::Elevation => {
                    "A number and a unit, m or ft: water boils cooler up high.".to_owned()
                }
                Of::WaterFrom => words(&all(WaterFrom::ALL, WaterFrom::word)),
                Of::Day | Of::Night => {
                    "A number and a unit, C or F: cold air chills the canister and the water."
                        .to_owned()
                }
                Of::Wind => format!(
                    "{} Breezy moves leaves; above windy no flame burns in the open.",
                    words(&all(Wind::ALL, Wind::word))
                ),
                Of::Place => names(library.places.keys().map(String::as_str).collect()),
            },
            Self::Call => "A name and a number, as they should stand on the sheets.".to_owned(),
            Self::NearestHelp => "A place, and the time to reach it.".to_owned(),
        };
        format!("{what} For example: {}", self.example())
    }
}

fn all<T: Copy>(all: &[T], word: impl Fn(T) -> &'static str) -> Vec<&'static str> {
    all.iter().map(|one| word(*one)).collect()
}

/// Questions with their answers in the order given; none where it was left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Answers(pub Vec<(Question, Option<String>)>);

impl Answers {
    /// What was answered; none if it was left out or not asked yet.
    pub fn get(&self, question: Question) -> Option<&str> {
        self.0
            .iter()
            .find(|(one, _)| *one == question)
            .and_then(|(_, answer)| answer.as_deref())
    }

    /// How many camps have a name.
    pub fn camps(&self) -> usize {
        self.0
            .iter()
            .filter(|(one, answer)| matches!(one, Question::Camp(_, Of::Name)) && answer.is_some())
            .count()
    }

    /// What to ask next; none at the end.
    pub fn next(&self) -> Option<Question> {
        use Question as Q;
        let Some((last, answer)) = self.0.last() else {
            return Some(Q::Title);
        };
        Some(match last {
            Q::Title => Q::Starts,
            Q::Starts => Q::Learners,
            Q::Learners => Q::Instructors,
            Q::Instructors => Q::Youngest,
            Q::Youngest => Q::Stove,
            Q::Stove => Q::Menu,
            Q::Menu => Q::Treatment,
            Q::Treatment => Q::Camp(0, Of::Name),
            Q::Camp(_, Of::Name) if answer.is_none() => Q::Call,
            Q::Camp(index, of) => {
                let at = Of::ALL.iter().position(|one| one == of).unwrap_or(0);
                match Of::ALL.get(at + 1) {
                    Some(of) => Q::Camp(*index, *of),
                    None => Q::Camp(index + 1, Of::Name),
                }
            }
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
            filled.0.push((question, answer));
        }
        filled
    }
}
