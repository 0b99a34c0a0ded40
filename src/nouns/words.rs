//! Closed sets of words, and dates.

use serde::{Deserialize, Serialize};
use std::fmt;

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, ::serde::Deserialize, ::serde::Serialize)]
        pub enum $name { $($(#[$vdoc])* $variant,)+ }

        impl $name {
            /// Every one, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// As people write it.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }

            /// The one that a person's spelling means; spaces and hyphens are
            /// the same, capitals do not count.
            #[must_use]
            pub fn from_word(text: &str) -> Option<Self> {
                let wanted = $crate::nouns::id(text);
                Self::ALL.iter().copied().find(|one| $crate::nouns::id(one.word()) == wanted)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.word())
            }
        }
    };
}
pub(crate) use words;

words! {
    /// The wind where the stove stands.
    Wind {
        /// Under 5 mph (2.2 m/s).
        Calm = "calm",
        /// 5 to 10 mph (2.2-4.5 m/s); leaves move.
        Breezy = "breezy",
        /// 10 to 18 mph (4.5-8 m/s); above that no flame in the open.
        Windy = "windy",
    }
}
impl Wind {
    /// One class calmer; calm stays calm.
    #[must_use]
    pub const fn calmer(self) -> Self {
        match self {
            Self::Calm | Self::Breezy => Self::Calm,
            Self::Windy => Self::Breezy,
        }
    }

    /// The upper end of the class, m/s; above that of windy nothing is lit in the open.
    #[must_use]
    pub const fn up_to(self) -> f64 {
        match self {
            Self::Calm => 2.2,
            Self::Breezy => 4.5,
            Self::Windy => 8.0,
        }
    }

    /// One class windier; windy stays windy.
    #[must_use]
    pub const fn windier(self) -> Self {
        match self {
            Self::Calm => Self::Breezy,
            Self::Breezy | Self::Windy => Self::Windy,
        }
    }
}

words! {
    /// What keeps the wind off the flame.
    Screen {
        /// Nothing.
        None = "none",
        /// A boulder, a hollow.
        Natural = "natural",
        /// A screen on the windward side, open behind.
        Partial = "partial",
        /// A screen all round.
        Full = "full",
        /// Part of the stove.
        BuiltIn = "built-in",
    }
}
words! {
    /// The four signal words, with the meanings of ANSI Z535 and ISO 3864.
    Signal {
        /// Will kill or seriously injure if not avoided.
        Danger = "danger",
        /// Could kill or seriously injure.
        Warning = "warning",
        /// Could injure a little or moderately.
        Caution = "caution",
        /// No injury; damage or a rule.
        Notice = "notice",
    }
}
words! {
    /// When in the day of a kitchen an item is looked at.
    Moment {
        /// At home, before leaving.
        Pack = "pack",
        /// On arriving: where and how the kitchen stands.
        SetUp = "set up",
        /// Just before and while lighting.
        Light = "light",
        /// While it burns and while food is served.
        Cook = "cook",
        /// Washing up and pouring away.
        CleanUp = "clean up",
        /// Before sleeping.
        Night = "night",
        /// Leaving the site.
        Leave = "leave",
        /// Back home.
        Home = "home",
        /// Something went wrong: flare, spill, scald, tip-over.
        Trouble = "trouble",
    }
}
words! {
    /// How drinking water is made safe.
    Treatment {
        /// From a safe tap.
        Tap = "tap",
        /// By boiling.
        Boil = "boil",
        /// Through a filter.
        Filter = "filter",
        /// With a chemical.
        Chemical = "chemical",
        /// With ultraviolet light.
        Uv = "uv",
    }
}
words! {
    /// Where the water comes from.
    WaterFrom {
        /// Stream, lake, spring.
        Stream = "stream",
        /// A tap or carried in.
        Tap = "tap",
        /// Snow or ice, which must be melted.
        Snow = "snow",
    }
}

impl WaterFrom {
    /// Other words that people write for them.
    pub const ALSO: &'static [(&'static str, Self)] = &[
        ("river", Self::Stream),
        ("creek", Self::Stream),
        ("brook", Self::Stream),
        ("lake", Self::Stream),
        ("pond", Self::Stream),
        ("spring", Self::Stream),
        ("well", Self::Tap),
        ("pump", Self::Tap),
        ("tank", Self::Tap),
        ("carried in", Self::Tap),
        ("ice", Self::Snow),
    ];

    /// The one of a word or of one of its other words.
    #[must_use]
    pub fn called(text: &str) -> Option<Self> {
        let wanted = super::id(text);
        let also = || {
            Self::ALSO
                .iter()
                .find(|(word, _)| super::id(word) == wanted)
        };
        Self::from_word(text).or_else(|| also().map(|(_, from)| *from))
    }
}
words! {
    /// How pots and bowls are washed.
    Washing {
        /// Scrape, wipe, a little cold water.
        WipeAndRinse = "wipe and rinse",
        /// Two pots of warm water.
        TwoPots = "two pots",
        /// Three bowls of warm water.
        ThreeBowls = "three bowls",
        /// Three bowls, the last a hot dip.
        ThreeBowlsHotDip = "three bowls with hot dip",
    }
}
words! {
    /// What people eat from.
    Eating {
        /// Each their own bowl.
        OwnBowls = "own bowls",
        /// All from one pot.
        SharedPot = "shared pot",
        /// Straight from the pouch.
        FromThePouch = "from the pouch",
    }
}
words! {
    /// Whose rule says how long a rolling boil makes water safe.
    BoilRules {
        /// US Centers for Disease Control and Prevention.
        Cdc = "cdc",
        /// The same body's book for travellers.
        CdcTravel = "cdc-travel",
        /// US Environmental Protection Agency.
        Epa = "epa",
        /// Health Canada.
        HealthCanada = "health-canada",
        /// World Health Organization.
        Who = "who",
    }
}

/// A calendar date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
pub struct Date {
    /// Year.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day, 1 to 31.
    pub day: u8,
}

impl Date {
    /// Reads `2027-05-14`; none if that day does not exist.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.trim().split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        if parts.next().is_some() || year.len() != 4 || month.len() != 2 || day.len() != 2 {
            return None;
        }
        let date = Self {
            year: year.parse().ok()?,
            month: month.parse().ok()?,
            day: day.parse().ok()?,
        };
        (date.year >= 1900
            && (1..=12).contains(&date.month)
            && date.day >= 1
            && date.day <= date.days_in_month())
        .then_some(date)
    }

    fn days_in_month(self) -> u8 {
        match self.month {
            4 | 6 | 9 | 11 => 30,
            2 if self.year.is_multiple_of(4)
                && (!self.year.is_multiple_of(100) || self.year.is_multiple_of(400)) =>
            {
                29
            }
            2 => 28,
            _ => 31,
        }
    }

    /// The Monday on or before it (ISO 8601 weeks start there), by the rule of March-based
    /// months that gives a day's number since a fixed Sunday.
    #[must_use]
    pub fn monday(self) -> Self {
        let (year, month) = (i32::from(self.year), i32::from(self.month));
        let (year, month) = if month < 3 {
            (year - 1, month + 12)
        } else {
            (year, month)
        };
        // Zeller's congruence for the Gregorian calendar, turned so that Monday is 0
        let number =
            i32::from(self.day) + 13 * (month + 1) / 5 + year + year / 4 - year / 100 + year / 400;
        let mut date = self;
        for _ in 0..(number + 5).rem_euclid(7) {
            date = date.day_before();
        }
        date
    }

    fn day_before(self) -> Self {
        if self.day > 1 {
            return Self {
                day: self.day - 1,
                ..self
            };
        }
        let (year, month) = if self.month > 1 {
            (self.year, self.month - 1)
        } else {
            (self.year - 1, 12)
        };
        let last = Self {
            year,
            month,
            day: 1,
        };
        Self {
            day: last.days_in_month(),
            ..last
        }
    }

    /// The day of the year, counted from 1.
    #[must_use]
    pub fn day_of_year(self) -> u32 {
        let before = (1..self.month).map(|month| {
            let first = Self {
                month,
                day: 1,
                ..self
            };
            u32::from(first.days_in_month())
        });
        before.sum::<u32>() + u32::from(self.day)
    }

    /// The day after so many days.
    #[must_use]
    pub fn plus_days(self, days: u32) -> Self {
        let mut date = self;
        for _ in 0..days {
            if date.day < date.days_in_month() {
                date.day += 1;
            } else {
                date.day = 1;
                date.month += 1;
                if date.month > 12 {
                    date.month = 1;
                    date.year += 1;
                }
            }
        }
        date
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}
