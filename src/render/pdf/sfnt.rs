//! Gives a cut-down font program its table of characters back, for the simple
//! font that written form fields need. (OpenType specification: 'cmap' table,
//! format 4; table directory.)

use std::collections::BTreeMap;

/// The font with a `cmap` that leads from characters to glyph ids; nothing if
/// the program is no font.
pub(super) fn with_characters(program: &[u8], ids: &BTreeMap<char, u16>) -> Option<Vec<u8>> {
    let mut tables: BTreeMap<[u8; 4], &[u8]> = BTreeMap::new();
    let count = usize::from(u16_at(program, 4)?);
    for i in 0..count {
        let record = program.get(12 + 16 * i..28 + 16 * i)?;
        let tag: [u8; 4] = record[..4].try_into().ok()?;
        let (start, length) = (u32_at(record, 8)?, u32_at(record, 12)?);
        tables.insert(tag, program.get(start..start.checked_add(length)?)?);
    }
    let cmap = cmap(ids)?;
    tables.insert(*b"cmap", &cmap);
    write(program.get(..4)?, &tables)
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<usize> {
    let value = u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?);
    usize::try_from(value).ok()
}

/// A table for platform 3, encoding 1 (Windows, Unicode), in format 4 with a
/// segment a run of characters whose ids follow one another.
fn cmap(ids: &BTreeMap<char, u16>) -> Option<Vec<u8>> {
    let mut segments: Vec<(u16, u16, u16)> = Vec::new();
    for (&character, &id) in ids {
        let code = u16::try_from(u32::from(character)).ok()?;
        let delta = id.wrapping_sub(code);
        match segments.last_mut() {
            Some((_, end, d)) if *d == delta && *end + 1 == code => *end = code,
            _ => segments.push((code, code, delta)),
        }
    }
    segments.push((0xffff, 0xffff, 1));
    let count = u16::try_from(segments.len()).ok()?;
    let (range, selector, shift) = search(count, 2);
    let mut table = Vec::new();
    for value in [0, 1, 3, 1] {
        put(&mut table, value);
    }
    table.extend(12u32.to_be_bytes());
    for value in [4, 16 + 8 * count, 0, 2 * count, range, selector, shift] {
        put(&mut table, value);
    }
    segments.iter().for_each(|s| put(&mut table, s.1));
    put(&mut table, 0);
    segments.iter().for_each(|s| put(&mut table, s.0));
    segments.iter().for_each(|s| put(&mut table, s.2));
    segments.iter().for_each(|_| put(&mut table, 0));
    Some(table)
}

/// The numbers for a binary search that some table heads carry.
fn search(count: u16, unit: u16) -> (u16, u16, u16) {
    let selector = count.max(1).ilog2() as u16;
    let range = unit << selector;
    (range, selector, unit * count - range)
}

fn put(table: &mut Vec<u8>, value: u16) {
    table.extend(value.to_be_bytes());
}

fn write(version: &[u8], tables: &BTreeMap<[u8; 4], &[u8]>) -> Option<Vec<u8>> {
    let count = u16::try_from(tables.len()).ok()?;
    let (range, selector, shift) = search(count, 16);
    let mut font = version.to_vec();
    for value in [count, range, selector, shift] {
        put(&mut font, value);
    }
    let mut start = 12 + 16 * tables.len();
    for (tag, table) in tables {
        font.extend(tag);
        font.extend(checksum(table).to_be_bytes());
        font.extend(u32::try_from(start).ok()?.to_be_bytes());
        font.extend(u32::try_from(table.len()).ok()?.to_be_bytes());
        start += table.len().next_multiple_of(4);
    }
    for table in tables.values() {
        font.extend_from_slice(table);
        font.resize(font.len().next_multiple_of(4), 0);
    }
    Some(font)
}

fn checksum(table: &[u8]) -> u32 {
    table.chunks(4).fold(0, |sum: u32, part| {
        let mut word = [0; 4];
        word[..part.len()].copy_from_slice(part);
        sum.wrapping_add(u32::from_be_bytes(word))
    })
}

#[cfg(test)]
mod tests {
    use super::cmap;

    /// Segments by the example of the OpenType specification for format 4:
    /// characters 10-20 to glyphs 1-11, 30-90 to 12-72.
    #[test]
    fn runs_become_segments() {
        let ids = (10..=20u32)
            .zip(1..)
            .chain((30..=90).zip(12..))
            .filter_map(|(code, id)| Some((char::from_u32(code)?, id)))
            .collect();
        let table = cmap(&ids).expect("a table");
        let words: Vec<u16> = table
            .chunks(2)
            .map(|pair| u16::from_be_bytes([pair[0], pair[1]]))
            .collect();
        assert_eq!(words[9], 6, "three segments, doubled");
        assert_eq!(words[13..16], [20, 90, 0xffff], "ends");
        assert_eq!(words[17..20], [10, 30, 0xffff], "starts");
        let delta = |by: i16| by as u16;
        assert_eq!(words[20..23], [delta(-9), delta(-18), 1], "deltas");
    }
}
