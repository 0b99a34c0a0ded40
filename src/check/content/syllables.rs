//! How many syllables an English word has, by its letters.
//!
//! A rule of thumb that counts the groups of vowels and mends what English
//! spelling makes of them: silent e, `-ed`, `-es`, vowels side by side that are
//! spoken apart. Single words may be off by one; over a page the slips cancel
//! out. The tests hold it against a pronouncing dictionary.

/// Endings that leave the word before them as it was spoken, with their own
/// syllables: `care|less|ly`, `wire|less`.
const ENDINGS: &[(&str, usize)] = &[
    ("ly", 1),
    ("ful", 1),
    ("less", 1),
    ("ness", 1),
    ("ment", 1),
    ("some", 1),
    ("where", 1),
    ("times", 1),
    ("thing", 1),
];

/// Words whose spelling tells nothing of how they are spoken.
const AS_SPOKEN: &[(&str, usize)] = &[
    ("anyone", 3),
    ("area", 3),
    ("being", 2),
    ("business", 2),
    ("create", 2),
    ("does", 1),
    ("every", 3),
    ("everybody", 4),
    ("everyone", 3),
    ("everything", 3),
    ("everywhere", 3),
    ("goes", 1),
    ("idea", 3),
    ("juice", 1),
    ("liquid", 3),
    ("ocean", 2),
    ("people", 2),
    ("poem", 2),
    ("really", 2),
    ("science", 2),
    ("shoes", 1),
    ("somebody", 3),
    ("someone", 2),
    ("something", 2),
    ("tired", 2),
    ("toes", 1),
];

/// Pairs of vowels that are spoken apart.
const APART: &[&str] = &["ia", "io", "iu", "ua", "uo", "eo", "ii", "uu", "ya", "yi"];

/// The syllables of what stands between two spaces; at least one. A number
/// counts as one.
pub(super) fn of_token(token: &str) -> usize {
    token
        .split(|c: char| !(c.is_alphabetic() || matches!(c, '\'' | '\u{2019}')))
        .map(of_word)
        .sum::<usize>()
        .max(1)
}

/// The syllables of a run of letters.
fn of_word(word: &str) -> usize {
    let word: String = word
        .to_lowercase()
        .chars()
        .map(|c| match c {
            'é' | 'è' | 'ê' => 'e',
            '\u{2019}' => '\'',
            c => c,
        })
        .collect();
    let word = word.trim_matches('\'');
    let word = word.strip_suffix("'s").unwrap_or(word);
    if word.is_empty() {
        return 0;
    }
    let plain = word.replace('\'', "");
    of_letters(&plain)
}

fn of_letters(word: &str) -> usize {
    if let Some((_, spoken)) = AS_SPOKEN.iter().find(|(known, _)| *known == word) {
        return *spoken;
    }
    for (ending, own) in ENDINGS {
        if let Some(stem) = word.strip_suffix(ending)
            && stem.len() >= 3
            && stem.chars().any(is_vowel)
        {
            return of_letters(stem) + own;
        }
    }
    let letters: Vec<char> = word.chars().collect();
    let vowel =
        |at: usize| letters.get(at).copied().is_some_and(is_vowel) && !starts_with_y(&letters, at);
    let mut count: usize = (0..letters.len())
        .filter(|&at| vowel(at) && (at == 0 || !vowel(at - 1)))
        .count();
    count += apart(word);
    if silent_end(&letters) {
        count = count.saturating_sub(1);
    }
    count.max(1)
}

fn is_vowel(letter: char) -> bool {
    matches!(letter, 'a' | 'e' | 'i' | 'o' | 'u' | 'y')
}

/// Whether a y opens the word, where it is no vowel.
fn starts_with_y(letters: &[char], at: usize) -> bool {
    at == 0 && letters[0] == 'y'
}

/// How many pairs of vowels are spoken apart.
fn apart(word: &str) -> usize {
    // `-tion`, `-cial`, `-geon`, and `qu`, `gu` before a vowel are one sound
    let softened = [
        "tia", "cia", "sia", "tio", "sio", "cio", "gio", "geo", "qua", "quo", "gua", "lua",
    ];
    let pairs = APART
        .iter()
        .flat_map(|pair| word.match_indices(pair))
        .filter(|(at, pair)| {
            *at == 0
                || !word.is_char_boundary(at - 1)
                || !softened.contains(&&word[at - 1..at + pair.len()])
        })
        .count();
    let ending = [
        "eing", "oing", "uing", "ying", "iest", "ier", "iers", "uel", "uels", "uid", "ious",
    ]
    .iter()
    .any(|end| word.ends_with(end));
    pairs + usize::from(ending && pairs == 0)
}

/// Whether the last vowel is written and not spoken: `stove`, `stoves`, `rinsed`.
fn silent_end(letters: &[char]) -> bool {
    let last = |back: usize| letters.len().checked_sub(back).map(|at| letters[at]);
    let consonant = |back: usize| last(back).is_some_and(|c| !is_vowel(c));
    match last(1) {
        // not after a consonant and l: `bottle` ends in a syllable
        Some('e') => consonant(2) && !(last(2) == Some('l') && consonant(3)),
        Some('d') => {
            last(2) == Some('e')
                && consonant(3)
                && !matches!(last(3), Some('t' | 'd'))
                && !(last(3) == Some('l') && consonant(4) && last(4) != Some('l'))
        }
        Some('s') => {
            last(2) == Some('e')
                && consonant(3)
                && !matches!(last(3), Some('s' | 'x' | 'z' | 'c' | 'g'))
                && !(last(3) == Some('h') && matches!(last(4), Some('c' | 's')))
                && !(last(3) == Some('l') && consonant(4))
        }
        _ => false,
    }
}
