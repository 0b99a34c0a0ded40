//! Names of trips, kitchens and camps as parts of file names and ids: the one place that makes
//! them.

/// A name as part of a file's name or an id: lower case letters of the Latin alphabet and digits,
/// other runs of characters one hyphen. Letters with marks lose them (`Ōtaki` is `otaki`), Greek
/// and Cyrillic letters are written with Latin ones; of other scripts each letter becomes its
/// number in Unicode, so that no two names vanish into one.
///
/// ```
/// use leeside::nouns::file_name;
/// assert_eq!(file_name("Énne & Änne"), "enne-aenne");
/// assert_eq!(file_name("Ōtaki, hut 2"), "otaki-hut-2");
/// assert_eq!(file_name("Ветка"), "vetka");
/// assert_eq!(file_name("湖"), "u6e56");
/// assert_eq!(file_name("***"), "");
/// ```
#[must_use]
pub fn file_name(name: &str) -> String {
    let mut made = String::new();
    for sign in name.to_lowercase().chars() {
        if sign.is_ascii_alphanumeric() {
            made.push(sign);
        } else if let Some(latin) = latin(sign) {
            made.push_str(latin);
        } else if is_mark(sign) {
            // a mark of its own on the letter before it
        } else if sign.is_alphanumeric() {
            made.push_str(&format!("u{:x}", sign as u32));
        } else if !made.is_empty() && !made.ends_with('-') {
            made.push('-');
        }
    }
    made.trim_end_matches('-').to_owned()
}

/// A combining mark of the Latin scripts.
const fn is_mark(sign: char) -> bool {
    matches!(sign, '\u{300}'..='\u{36f}')
}

/// A lower case letter in letters of the Latin alphabet, as catalogues write it.
const fn latin(sign: char) -> Option<&'static str> {
    Some(match sign {
        'à' | 'á' | 'â' | 'ã' | 'å' | 'ā' | 'ă' | 'ą' | 'ǎ' | 'α' | 'ά' | 'а' => "a",
        'ä' | 'æ' => "ae",
        'β' | 'б' => "b",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ď' | 'đ' | 'ð' | 'δ' | 'д' => "d",
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' | 'ε' | 'έ' | 'е' | 'э' | 'є' => {
            "e"
        }
        'ё' => "yo",
        'φ' | 'ф' => "f",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' | 'γ' | 'г' | 'ґ' => "g",
        'ĥ' | 'ħ' => "h",
        'ì' | 'í' | 'î' | 'ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' | 'ι' | 'ί' | 'ϊ' | 'η' | 'ή' | 'и'
        | 'і' => "i",
        'ї' => "yi",
        'ĵ' => "j",
        'ķ' | 'κ' | 'к' => "k",
        'ĺ' | 'ļ' | 'ľ' | 'ŀ' | 'ł' | 'λ' | 'л' => "l",
        'μ' | 'м' => "m",
        'ñ' | 'ń' | 'ņ' | 'ň' | 'ŋ' | 'ν' | 'н' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ō' | 'ŏ' | 'ő' | 'ο' | 'ό' | 'ω' | 'ώ' | 'о' => "o",
        'ö' | 'ø' | 'œ' => "oe",
        'π' | 'п' => "p",
        'ŕ' | 'ŗ' | 'ř' | 'ρ' | 'р' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' | 'ș' | 'σ' | 'ς' | 'с' => "s",
        'ß' => "ss",
        'ţ' | 'ť' | 'ŧ' | 'ț' | 'τ' | 'т' => "t",
        'þ' | 'θ' => "th",
        'ù' | 'ú' | 'û' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' | 'у' => "u",
        'ü' => "ue",
        'в' => "v",
        'ŵ' => "w",
        'ξ' => "x",
        'ý' | 'ÿ' | 'ŷ' | 'υ' | 'ύ' | 'ы' | 'й' => "y",
        'ź' | 'ż' | 'ž' | 'ζ' | 'з' => "z",
        'ж' => "zh",
        'х' => "kh",
        'χ' | 'ч' => "ch",
        'ц' => "ts",
        'ψ' => "ps",
        'ш' => "sh",
        'щ' => "shch",
        'ю' => "yu",
        'я' => "ya",
        'ъ' | 'ь' => "",
        _ => return None,
    })
}
