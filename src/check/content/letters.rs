//! How wide words are drawn.

/// The first character of the tables.
const FIRST: char = ' ';
/// A character that is not in the tables, in thousandths of the size: as wide as most capitals.
const OTHER: u16 = 650;

/// How far each character from the space to the tilde takes the pen, in thousandths of the size: the
/// table `hmtx` of the regular face that sheets are set in (OpenType specification).
const REGULAR: [u16; 95] = [
    200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497,
    497, 497, 497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 543, 588, 571, 615, 527,
    494, 617, 652, 263, 479, 579, 486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513,
    476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456, 555, 496, 292, 504, 544, 246, 247, 495,
    255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
];

/// As [`REGULAR`], of the bold face.
const BOLD: [u16; 95] = [
    200, 340, 537, 528, 528, 857, 667, 300, 344, 344, 457, 528, 300, 332, 300, 339, 528, 528, 528,
    528, 528, 528, 528, 528, 528, 528, 300, 300, 528, 528, 528, 463, 902, 573, 605, 582, 635, 548,
    524, 638, 674, 301, 509, 614, 518, 762, 665, 684, 596, 684, 613, 556, 556, 665, 556, 813, 567,
    525, 541, 344, 339, 344, 528, 500, 555, 527, 573, 468, 573, 518, 341, 534, 571, 276, 278, 548,
    286, 857, 572, 555, 573, 573, 398, 443, 383, 568, 523, 776, 514, 521, 460, 344, 268, 344, 528,
];

/// The letter that carries an accent, which takes no room of its own.
fn plain(letter: char) -> char {
    match letter {
        'á' | 'à' | 'â' | 'ä' | 'ã' | 'å' => 'a',
        'Á' | 'À' | 'Â' | 'Ä' | 'Ã' | 'Å' => 'A',
        'é' | 'è' | 'ê' | 'ë' => 'e',
        'É' | 'È' | 'Ê' | 'Ë' => 'E',
        'í' | 'ì' | 'î' | 'ï' => 'i',
        'Í' | 'Ì' | 'Î' | 'Ï' => 'I',
        'ó' | 'ò' | 'ô' | 'ö' | 'õ' => 'o',
        'Ó' | 'Ò' | 'Ô' | 'Ö' | 'Õ' => 'O',
        'ú' | 'ù' | 'û' | 'ü' => 'u',
        'Ú' | 'Ù' | 'Û' | 'Ü' => 'U',
        'ý' | 'ÿ' => 'y',
        'Ý' => 'Y',
        'ñ' => 'n',
        'Ñ' => 'N',
        'ç' => 'c',
        'Ç' => 'C',
        other => other,
    }
}

/// How wide words are, as a multiple of their size. Kerning is left out: it draws letters together
/// by far less than a label stands apart.
pub(super) fn width(text: &str, bold: bool) -> f64 {
    let table = if bold { &BOLD } else { &REGULAR };
    let thousandths: f64 = text
        .chars()
        .map(|letter| {
            let at = u32::from(plain(letter)).wrapping_sub(u32::from(FIRST));
            let found = usize::try_from(at).ok().and_then(|at| table.get(at));
            f64::from(*found.unwrap_or(&OTHER))
        })
        .sum();
    thousandths / 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pair(bytes: &[u8], at: usize) -> usize {
        usize::from(u16::from_be_bytes([bytes[at], bytes[at + 1]]))
    }

    fn four(bytes: &[u8], at: usize) -> usize {
        pair(bytes, at) << 16 | pair(bytes, at + 2)
    }

    /// Where a table of a font file starts (OpenType specification, table directory).
    fn table(font: &[u8], tag: &[u8; 4]) -> usize {
        let found = (0..pair(font, 4))
            .map(|record| 12 + 16 * record)
            .find(|at| font[*at..*at + 4] == *tag);
        four(font, found.expect("the table") + 8)
    }

    /// The glyph of a character (the same, table `cmap`, format 4).
    fn glyph(font: &[u8], letter: usize) -> usize {
        let cmap = table(font, b"cmap");
        let map = (0..pair(font, cmap + 2))
            .map(|record| cmap + four(font, cmap + 4 + 8 * record + 4))
            .find(|at| pair(font, *at) == 4)
            .expect("a map of format 4");
        let twice = pair(font, map + 6);
        let ends = map + 14;
        let segment = (0..twice / 2)
            .find(|segment| pair(font, ends + 2 * segment) >= letter)
            .expect("the last one ends at 0xffff");
        let [start, delta, offset] = [1, 2, 3].map(|row| ends + 2 + row * twice + 2 * segment);
        assert!(pair(font, start) <= letter, "{letter} has a glyph");
        if pair(font, offset) == 0 {
            return (letter + pair(font, delta)) & 0xffff;
        }
        let at = offset + pair(font, offset) + 2 * (letter - pair(font, start));
        (pair(font, at) + pair(font, delta)) & 0xffff
    }

    #[test]
    fn the_tables_are_those_of_the_faces() {
        let regular: &[u8] = include_bytes!("../../../templates/fonts/SourceSans3_400Regular.ttf");
        let bold: &[u8] = include_bytes!("../../../templates/fonts/SourceSans3_700Bold.ttf");
        for (font, widths) in [(regular, REGULAR), (bold, BOLD)] {
            assert_eq!(pair(font, table(font, b"head") + 18), 1000, "units an em");
            let full = pair(font, table(font, b"hhea") + 34);
            for (at, width) in widths.into_iter().enumerate() {
                let glyph = glyph(font, at + 32).min(full - 1);
                let advance = pair(font, table(font, b"hmtx") + 4 * glyph);
                assert_eq!(advance, usize::from(width), "character {}", at + 32);
            }
        }
    }

    #[test]
    fn words_are_as_wide_as_their_letters() {
        assert!((width("ab", false) - 1.057).abs() < 1e-9);
        // an accent makes a letter no wider; one that the table does not hold is wide
        assert!((width("\u{e9}", true) - width("e", true)).abs() < 1e-9);
        assert!((width("\u{4e2d}", true) - 0.65).abs() < 1e-9);
    }
}
