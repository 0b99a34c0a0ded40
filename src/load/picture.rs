//! A picture in PNG as the drawing that is printed of it: black areas on white, as SVG.
//!
//! Paper here knows black and white only, and a copier makes it so anyway. What is darker than
//! middle grey becomes black, edges are traced, and the rest of the program meets a drawing like
//! any other.

use crate::diag::{Told, told};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Cursor;

/// The most bytes of a file.
const MOST_BYTES: usize = 1_000_000;
/// The most dots of a picture.
const MOST_DOTS: u64 = 9_000_000;
/// Dots across and down that can be seen two fingers wide on paper.
const SEEN: (usize, usize) = (432, 156);
/// Bytes of a drawing that is fine enough.
const FINE: usize = 19_000;
/// An area of fewer dots is dust.
const DUST: f32 = 4.0;
/// How far a traced line may leave its dots: the first that makes the drawing small enough.
const TOLERANCES: [f32; 4] = [0.5, 0.8, 1.2, 1.8];

/// What is wrong with a picture, and what to do.
pub(super) struct Fault {
    pub(super) message: Told,
    pub(super) help: &'static str,
}

const SAVE: &str = "save the mark again as PNG or, better, as a drawing in SVG, black on white";

fn fault(message: impl Into<Told>, help: &'static str) -> Fault {
    let message = message.into();
    Fault { message, help }
}

/// The drawing of a picture.
///
/// # Errors
/// It is too large, no PNG, cut off, or of one shade.
pub(super) fn drawing(bytes: &[u8]) -> Result<String, Fault> {
    const SMALLER: &str = "save it smaller: a mark is printed two fingers wide";
    if bytes.len() > MOST_BYTES {
        let message = told!(
            "it has {count} bytes, and {MOST_BYTES} are enough",
            count = bytes.len(),
            MOST_BYTES
        );
        return Err(fault(message, SMALLER));
    }
    let mut decoder = png::Decoder::new(Cursor::new(bytes));
    decoder.set_transformations(png::Transformations::normalize_to_color8());
    let no_picture = |error: png::DecodingError| {
        fault(
            told!("it cannot be read as a picture in PNG: {error}", error),
            SAVE,
        )
    };
    let mut reader = decoder.read_info().map_err(no_picture)?;
    let (wide, high) = reader.info().size();
    if u64::from(wide) * u64::from(high) > MOST_DOTS {
        let message = told!("it is {wide} dots wide and {high} high", wide, high);
        return Err(fault(message, SMALLER));
    }
    let Some(size) = reader.output_buffer_size() else {
        return Err(fault("it is larger than can be read", SMALLER));
    };
    let mut dots = vec![0; size];
    let frame = reader.next_frame(&mut dots).map_err(no_picture)?;
    let grey = grey(&dots[..frame.buffer_size()], frame.color_type.samples());
    let picture = seen(&grey, wide as usize, high as usize);
    let loops = traced(&picture);
    if loops.is_empty() || picture.dark.iter().all(|dark| *dark) {
        return Err(fault(
            "it is of one shade: nothing would be seen of it in black on white",
            "draw the mark in black on white",
        ));
    }
    let drawn = TOLERANCES.map(|tolerance| svg(&picture, &loops, tolerance));
    let fine = drawn.iter().find(|text| text.len() <= FINE);
    fine.cloned().ok_or_else(|| {
        fault(
            "it is finer than can be printed two fingers wide",
            "leave out what cannot be seen so small: a photograph is no mark",
        )
    })
}

/// The light of each dot on white paper, by the weights of ITU-R BT.601 for red, green and blue.
fn grey(dots: &[u8], samples: usize) -> Vec<u8> {
    let light = |dot: &[u8]| -> u32 {
        let of = |index: usize| u32::from(dot[index]);
        let (light, cover) = match samples {
            1 => (of(0), 255),
            2 => (of(0), of(1)),
            3 => ((299 * of(0) + 587 * of(1) + 114 * of(2)) / 1000, 255),
            _ => ((299 * of(0) + 587 * of(1) + 114 * of(2)) / 1000, of(3)),
        };
        (light * cover + 255 * (255 - cover)) / 255
    };
    dots.chunks_exact(samples)
        .map(|dot| u8::try_from(light(dot)).unwrap_or(u8::MAX))
        .collect()
}

/// Dots that are black or not.
struct Picture {
    wide: usize,
    high: usize,
    dark: Vec<bool>,
}

/// The picture as far as it can be seen: blocks of dots by their mean light.
fn seen(grey: &[u8], wide: usize, high: usize) -> Picture {
    let side = wide.div_ceil(SEEN.0).max(high.div_ceil(SEEN.1)).max(1);
    let (across, down) = (wide.div_ceil(side), high.div_ceil(side));
    let mut dark = Vec::with_capacity(across * down);
    for row in 0..down {
        for column in 0..across {
            let (mut light, mut count) = (0_u32, 0_u32);
            for y in row * side..((row + 1) * side).min(high) {
                for x in column * side..((column + 1) * side).min(wide) {
                    light += u32::from(grey[y * wide + x]);
                    count += 1;
                }
            }
            dark.push(light < 128 * count.max(1));
        }
    }
    Picture {
        wide: across,
        high: down,
        dark,
    }
}

/// A place between dots.
type Corner = (usize, usize);

/// The edges between black and white as closed runs, black on their right, the largest first.
fn traced(picture: &Picture) -> Vec<Vec<(f32, f32)>> {
    let dark = |x: usize, y: usize| x < picture.wide && picture.dark[y * picture.wide + x];
    let mut edges: BTreeMap<Corner, Vec<Corner>> = BTreeMap::new();
    let mut edge = |from: Corner, to: Corner| edges.entry(from).or_default().push(to);
    for y in 0..picture.high {
        for x in (0..picture.wide).filter(|x| dark(*x, y)) {
            if y == 0 || !dark(x, y - 1) {
                edge((x, y), (x + 1, y));
            }
            if !dark(x + 1, y) {
                edge((x + 1, y), (x + 1, y + 1));
            }
            if y + 1 == picture.high || !dark(x, y + 1) {
                edge((x + 1, y + 1), (x, y + 1));
            }
            if x == 0 || !dark(x - 1, y) {
                edge((x, y + 1), (x, y));
            }
        }
    }
    let mut loops = Vec::new();
    while let Some((start, _)) = edges.first_key_value() {
        let start = *start;
        let mut run = Vec::new();
        let (mut from, mut at) = (None, start);
        while let Some(mut ways) = edges.remove(&at) {
            let next = way(from, at, &mut ways);
            if !ways.is_empty() {
                edges.insert(at, ways);
            }
            run.push(middle(at, next));
            (from, at) = (Some(at), next);
            if at == start {
                break;
            }
        }
        if area(&run).abs() >= DUST {
            loops.push(run);
        }
    }
    loops.sort_by(|a, b| area(b).abs().total_cmp(&area(a).abs()));
    loops
}

/// The way on: where two black dots meet at a corner only, round the one that was followed.
fn way(from: Option<Corner>, at: Corner, ways: &mut Vec<Corner>) -> Corner {
    let right = |next: &Corner| {
        let Some(from) = from else { return false };
        let before = (step(from.0, at.0), step(from.1, at.1));
        let after = (step(at.0, next.0), step(at.1, next.1));
        before.0 * after.1 - before.1 * after.0 > 0
    };
    let index = ways.iter().position(right).unwrap_or(0);
    ways.swap_remove(index)
}

fn step(from: usize, to: usize) -> i8 {
    match to.cmp(&from) {
        std::cmp::Ordering::Less => -1,
        std::cmp::Ordering::Equal => 0,
        std::cmp::Ordering::Greater => 1,
    }
}

fn middle(a: Corner, b: Corner) -> (f32, f32) {
    let half = |a: usize, b: usize| (a + b) as f32 / 2.0;
    (half(a.0, b.0), half(a.1, b.1))
}

/// Twice the area would be the sum; white areas have one below zero.
fn area(run: &[(f32, f32)]) -> f32 {
    let next = run.iter().cycle().skip(1);
    let sum: f32 = run
        .iter()
        .zip(next)
        .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
        .sum();
    sum / 2.0
}

/// The drawing: large areas first, white ones over the black ones round them.
fn svg(picture: &Picture, loops: &[Vec<(f32, f32)>], tolerance: f32) -> String {
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\">\n",
        picture.wide, picture.high
    );
    for run in loops {
        let fill = if area(run) > 0.0 { "black" } else { "white" };
        let corners = fewer(run, tolerance);
        if corners.len() < 3 {
            continue;
        }
        let _ = write!(out, "<path fill=\"{fill}\" d=\"");
        for (index, (x, y)) in corners.iter().enumerate() {
            let sign = if index == 0 { 'M' } else { 'L' };
            let _ = write!(out, "{sign}{x} {y}");
        }
        out.push_str("Z\"/>\n");
    }
    out.push_str("</svg>\n");
    out
}

/// A closed run with no more corners than it needs (Ramer, Douglas and Peucker).
fn fewer(run: &[(f32, f32)], tolerance: f32) -> Vec<(f32, f32)> {
    let far = |from: (f32, f32)| {
        let away = |at: &(f32, f32)| (at.0 - from.0).powi(2) + (at.1 - from.1).powi(2);
        let found = (0..run.len()).max_by(|a, b| away(&run[*a]).total_cmp(&away(&run[*b])));
        found.unwrap_or(0)
    };
    if run.is_empty() {
        return Vec::new();
    }
    // two corners that stay whatever else goes
    let one = far(run[0]);
    let other = far(run[one]);
    let (first, second) = (one.min(other), one.max(other));
    let mut kept = vec![false; run.len() + 1];
    let closed: Vec<(f32, f32)> = run[first..].iter().chain(&run[..=first]).copied().collect();
    let split = second - first;
    for end in [0, split, run.len()] {
        kept[end] = true;
    }
    let mut parts = vec![(0, split), (split, run.len())];
    while let Some((from, to)) = parts.pop() {
        let worst = (from + 1..to)
            .map(|at| (at, off(closed[at], closed[from], closed[to])))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((at, _)) = worst.filter(|(_, off)| *off > tolerance) {
            kept[at] = true;
            parts.push((from, at));
            parts.push((at, to));
        }
    }
    let corners = closed.iter().zip(&kept).take(run.len());
    corners
        .filter(|(_, kept)| **kept)
        .map(|(at, _)| *at)
        .collect()
}

/// How far a place is off the line through two others.
fn off(at: (f32, f32), from: (f32, f32), to: (f32, f32)) -> f32 {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = libm::hypotf(dx, dy);
    if long < 1e-6 {
        return libm::hypotf(at.0 - from.0, at.1 - from.1);
    }
    (dy * (at.0 - from.0) - dx * (at.1 - from.1)).abs() / long
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(rows: &[&str]) -> Picture {
        Picture {
            wide: rows[0].len(),
            high: rows.len(),
            dark: rows
                .iter()
                .flat_map(|row| row.bytes().map(|dot| dot == b'#'))
                .collect(),
        }
    }

    #[test]
    fn a_ring_is_a_black_area_with_a_white_one_in_it() {
        let ring = picture(&[
            "........", ".######.", ".#....#.", ".#....#.", ".######.", "........",
        ]);
        let loops = traced(&ring);
        assert_eq!(loops.len(), 2);
        assert!(area(&loops[0]) > 0.0 && area(&loops[1]) < 0.0);
        // each edge gives the middle of it: of a box of 6 by 4 the corners' halves are cut
        assert_eq!(loops[0].len(), 20);
        assert!((area(&loops[0]) - (24.0 - 0.5)).abs() < 1e-6);
    }

    #[test]
    fn straight_edges_keep_few_corners() {
        let rows = vec!["#".repeat(40); 30];
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let loops = traced(&picture(&rows));
        assert!(fewer(&loops[0], 0.5).len() <= 8);
    }

    #[test]
    fn dots_that_touch_at_a_corner_are_two_areas() {
        let two = picture(&["###...", "###...", "###...", "...###", "...###", "...###"]);
        assert_eq!(traced(&two).len(), 2);
    }
}
