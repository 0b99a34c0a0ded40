//! What was assumed, as phrases.

use super::{Arg, Phrase, Said, phrase};
use crate::nouns::{Because, Blend, Presumed};
use crate::units::say;

/// `propane 30, n-butane 70`.
impl Said for Blend {
    fn said(&self) -> Arg {
        let gases = [
            ("propane", self.propane),
            ("isobutane", self.isobutane),
            ("n-butane", self.butane),
        ];
        let gases = gases
            .into_iter()
            .filter(|(_, share)| share.in_percent() > 0.0);
        let gases = gases.map(|(name, share)| {
            let gas = Arg::Word(name.to_owned());
            let percent = say::plain_significant(share.in_percent(), 4);
            phrase!("blend-gas", gas = gas, percent = percent)
        });
        let all = gases.reduce(|some, more| phrase!("blend-gases", some = some, more = more));
        Arg::Phrase(all.unwrap_or_default())
    }
}

impl From<&Presumed> for Phrase {
    fn from(value: &Presumed) -> Self {
        let value = match value {
            Presumed::Percent(percent) => {
                return phrase!("assumed-percent", percent = percent);
            }
            Presumed::Word(word) => Arg::Word((*word).to_owned()),
            Presumed::Count(count) => count.said(),
            Presumed::Quantity(words) | Presumed::Name(words) => words.said(),
            Presumed::Modules(ids) => ids.join(", ").said(),
            Presumed::Blend(blend) => blend.said(),
            Presumed::Pot(pot) => pot.said(),
        };
        phrase!("assumed-value", value = value)
    }
}

impl From<&Because> for Phrase {
    fn from(why: &Because) -> Self {
        match why {
            Because::NotStated => phrase!("assumed-not-stated"),
            Because::NoneStated => phrase!("assumed-none-stated"),
            Because::NoMenuStated => phrase!("assumed-no-menu"),
            Because::NothingLit => phrase!("assumed-nothing-lit"),
            Because::LessonBringsWater => phrase!("assumed-lesson-water"),
            Because::FirstElevation => phrase!("assumed-first-elevation"),
            Because::CountYourSteps => phrase!("assumed-count-steps"),
            Because::LivesOnSnow => phrase!("assumed-lives-on-snow"),
            Because::AgeNotStated => phrase!("assumed-age-not-stated"),
            Because::SomeoneUnder16 => phrase!("assumed-someone-under-16"),
            Because::NobodyUnder16 => phrase!("assumed-nobody-under-16"),
            Because::APersonAndDay => phrase!("assumed-a-person-and-day"),
            Because::APersonAndDayFromSnow => phrase!("assumed-a-person-and-day-from-snow"),
            Because::SummerAir => phrase!("assumed-summer-air"),
            Because::BelowTheDay(by) => {
                phrase!("assumed-below-day", kelvins = whole(by.kelvins()))
            }
            Because::SnowAsNight => phrase!("assumed-snow-as-night"),
            Because::Midway => phrase!("assumed-midway"),
            Because::AskLandManager => phrase!("assumed-ask-land-manager"),
            Because::LidSavesFuel => phrase!("assumed-lid-saves-fuel"),
            Because::MostAKitchen(most) => {
                phrase!("assumed-most-a-kitchen", people = whole(*most))
            }
            Because::SharedOut => phrase!("assumed-shared-out"),
            Because::NewCanisters => phrase!("assumed-new-canisters"),
            Because::CautiousInTheCold => phrase!("assumed-cautious-in-cold"),
            Because::CalmTrial => phrase!("assumed-calm-trial"),
            Because::ComesWith(stove) => phrase!("assumed-comes-with", stove = stove),
            Because::SmallPot => phrase!("assumed-small-pot"),
            Because::CarriesSafely(stove) => phrase!("assumed-carries-safely", stove = stove),
            Because::PotAPerson(pot) => {
                let litres = say::plain_significant(pot.in_litres(), 3);
                phrase!("assumed-pot-a-person", litres = litres)
            }
            Because::OneAKitchen => phrase!("assumed-one-a-kitchen"),
            Because::PlainestWords => phrase!("assumed-plainest-words"),
            Because::BadWeather => phrase!("assumed-bad-weather"),
            Because::StandsFor(part) => phrase!("assumed-stands-for", part = part),
        }
    }
}

/// A number that is printed whole.
fn whole(number: f64) -> Arg {
    Arg::Number(libm::round(number))
}
