//! Which country's law a place prints, and which places are near a name that is none.

use super::desk::shown;
use crate::diag::{Told, nearest, told};
use crate::nouns::{Id, Place};
use std::collections::BTreeMap;

/// Countries by the two letters of ISO 3166-1.
const COUNTRIES: &str = "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR \
    BS BT BV BW BY BZ CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ \
    EC EE EG EH ER ES ET FI FJ FK FM FO FR GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW \
    GY HK HM HN HR HT HU ID IE IL IM IN IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN KP KR KW KY \
    KZ LA LB LC LI LK LR LS LT LU LV LY MA MC MD ME MF MG MH MK ML MM MN MO MP MQ MR MS MT MU MV \
    MW MX MY MZ NA NC NE NF NG NI NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM PN PR PS PT PW PY \
    QA RE RO RS RU RW SA SB SC SD SE SG SH SI SJ SK SL SM SN SO SR SS ST SV SX SY SZ TC TD TF TG \
    TH TJ TK TL TM TN TO TR TT TV TW TZ UA UG UM US UY UZ VA VC VE VG VI VN VU WF WS YE YT ZA ZM \
    ZW";

/// Languages by the two letters of ISO 639-1.
const LANGUAGES: &str = "aa ab ae af ak am an ar as av ay az ba be bg bi bm bn bo br bs ca ce ch co cr cs cu cv cy da \
    de dv dz ee el en eo es et eu fa ff fi fj fo fr fy ga gd gl gn gu gv ha he hi ho hr ht hu hy \
    hz ia id ie ig ii ik io is it iu ja jv ka kg ki kj kk kl km kn ko kr ks ku kv kw ky la lb lg \
    li ln lo lt lu lv mg mh mi mk ml mn mr ms mt my na nb nd ne ng nl nn no nr nv ny oc oj om or \
    os pa pi pl ps pt qu rm rn ro ru rw sa sc sd se sg sh si sk sl sm sn so sq sr ss st su sv sw \
    ta te tg th ti tk tl tn to tr ts tt tw ty ug uk ur uz ve vi vo wa wo xh yi yo za zh zu";

/// More places than this are no help.
const MOST_PLACES: usize = 6;
/// A word of fewer letters names nothing by itself.
const SHORTEST_WORD: usize = 4;

/// The codes of countries, in order.
pub fn countries() -> impl Iterator<Item = &'static str> {
    COUNTRIES.split_whitespace()
}

/// The codes of languages, in order.
pub fn languages() -> impl Iterator<Item = &'static str> {
    LANGUAGES.split_whitespace()
}

/// The help for a name that no place has. Places that hold its whole words come before those
/// spelt like it, and kinds of place that any country has before a country's law.
pub(super) fn near_places(wanted: &str, places: &BTreeMap<Id, Place>, usual: &str) -> Told {
    let words: Vec<&str> = wanted.split('-').filter(|word| !word.is_empty()).collect();
    let mut found = holding(places, |names| {
        words.iter().all(|word| names.contains(word))
    });
    if found.is_empty() {
        let long = |word: &&&str| word.chars().count() >= SHORTEST_WORD;
        found = holding(places, |names| {
            words.iter().filter(long).any(|word| names.contains(word))
        });
    }
    if found.is_empty() {
        let near = nearest(wanted, places.keys().map(String::as_str));
        found = near.and_then(|id| places.get(id)).into_iter().collect();
    }
    found.sort_by_key(|place| (place.country.is_some(), &place.id));
    found.truncate(MOST_PLACES);
    if found.is_empty() {
        return Told::from("`leeside list places` shows what there is");
    }
    let names = Told::list(found.iter().map(|place| named(place)), " or ");
    let rest = match places.get(usual) {
        Some(usual) if found.iter().all(|place| place.country.is_some()) => {
            told!("; where that is not the law, `{id}`", id = usual.id)
        }
        _ => Told::NOTHING,
    };
    told!("perhaps {names} is meant{rest}", names, rest)
}

/// The places whose id or title answers.
fn holding(places: &BTreeMap<Id, Place>, answers: impl Fn(&[&str]) -> bool) -> Vec<&Place> {
    let holds = |place: &&Place| {
        let text = format!("{} {}", place.id, place.title).to_lowercase();
        let words: Vec<&str> = text
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect();
        answers(&words)
    };
    places.values().filter(holds).collect()
}

/// An id, with the country whose law it is.
fn named(place: &Place) -> Told {
    match &place.country {
        Some(country) => told!("`{id}` (law of {country})", id = shown(&place.id), country),
        None => Told::as_written(format!("`{}`", shown(&place.id))),
    }
}
