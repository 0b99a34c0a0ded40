//! A layout as text, a line of text a placed line: what a person compares when
//! the layout changes.

use std::fmt::Write as _;

use super::{Layout, Mark, Page};
use crate::render::pdf::text::What;

/// Things whose heights differ by less stand on one line, in points.
const SAME: f32 = 0.6;

/// Every page's lines: the place of the first thing (x, y from the top left,
/// in points), then what stands on it.
pub(in crate::render::pdf) fn say(layout: &Layout) -> String {
    let mut text = String::new();
    for (i, page) in layout.pages.iter().enumerate() {
        let _ = writeln!(
            text,
            "== page {} of {} ({} x {})",
            i + 1,
            layout.pages.len(),
            layout.width.round(),
            layout.height.round()
        );
        say_page(page, &mut text);
    }
    text
}

fn say_page(page: &Page, text: &mut String) {
    let mut said: Vec<(f32, f32, String)> = Vec::new();
    for placed in &page.items {
        let (mut x, mut y) = (placed.x, placed.y);
        let words = match &placed.mark {
            Mark::Text { size, pieces } => {
                let words: String = pieces
                    .iter()
                    .filter_map(|piece| match &piece.what {
                        What::Word(_, word) => Some(&*word.text),
                        What::Object(_) => None,
                    })
                    .collect();
                let face = match pieces.first().map(|piece| &piece.what) {
                    Some(What::Word(face, _)) => ["", "b", "i", "bi"][*face],
                    _ => "",
                };
                format!("{}{face} {}", size.round(), words.trim_end())
            }
            Mark::Field {
                tick: true, height, ..
            } => {
                y += height;
                "[ ]".to_string()
            }
            Mark::Field { width, height, .. } => {
                y += height;
                format!("____ {}", width.round())
            }
            Mark::Frame { width, height, .. } if width != height => {
                format!("box {} x {}", width.round(), height.round())
            }
            Mark::Rule { dx, dy, .. } if *dy == 0.0 => {
                x = x.min(x + dx);
                format!("-- {}", dx.round())
            }
            Mark::Rule { dy, .. } => format!("| {}", dy.round()),
            Mark::Path(path) => format!("path of {} points", path.points.len()),
            Mark::Frame { .. } | Mark::Link { .. } | Mark::Spot { .. } => continue,
        };
        said.push((y, x, words));
    }
    said.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut from = 0;
    while from < said.len() {
        let y = said[from].0;
        let count = said[from..]
            .iter()
            .take_while(|line| line.0 - y < SAME)
            .count();
        let mut line = said[from..from + count].to_vec();
        line.sort_by(|a, b| a.1.total_cmp(&b.1));
        let words: Vec<&str> = line.iter().map(|(_, _, words)| words.as_str()).collect();
        let _ = writeln!(
            text,
            "{:>4} {:>4}  {}",
            line[0].1.round(),
            y.round(),
            words.join("  ~  ")
        );
        from += count;
    }
}
