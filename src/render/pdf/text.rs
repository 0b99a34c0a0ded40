//! Text: words shaped once a face and thread, runs broken into lines.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use harfrust::{
    Buffer, BufferFlags, ClusterLevel, Direction, Font, Script, ShapeOptions, ShapePlan, ShaperFont,
};
use unicode_linebreak::{BreakOpportunity, linebreaks};
use unicode_segmentation::UnicodeSegmentation;

use super::breaks;
use crate::diag::{Outcome, Problem, told};

/// The regular face's number in [`Faces`].
pub(super) const REGULAR: usize = 0;
/// The bold face's number.
pub(super) const BOLD: usize = 1;
/// The italic face's number; bold and italic add up.
pub(super) const ITALIC: usize = 2;

const DIRECTION: Direction = Direction::LeftToRight;
const SCRIPT: Option<Script> = Some(Script::LATIN);

/// More cached words a face than this, and the cache of the thread starts anew:
/// a long run over strange texts must not grow without end.
const MOST_WORDS: usize = 20_000;

/// The letter that stands for a blank or a tick box while lines are broken: a
/// private character, so it breaks like a letter.
const OBJECT: &str = "\u{e000}";

/// One drawn glyph. Lengths are in 1/1000 em, as in PDF.
pub(super) struct Glyph {
    pub id: u16,
    pub advance: f32,
    /// The width that the painter's library writes to the font's width table.
    pub natural: f32,
    /// Offset from the pen, for marks that do not compose.
    pub shift: (f32, f32),
    /// The text that the glyph stands for; "fi" for a ligature.
    pub text: Box<str>,
}

/// Shaped text: a word with the spaces after it.
pub(super) struct Word {
    pub text: Box<str>,
    pub glyphs: Vec<Glyph>,
    pub advance: f32,
    /// The advance without the spaces at the end.
    pub ink: f32,
    /// Characters that the face does not hold; a replacement is drawn.
    pub missing: Box<str>,
}

/// One face, parsed.
pub(super) struct Face {
    pub data: &'static [u8],
    font: Font,
    plan: ShapePlan,
    /// What is drawn for a character that the face does not hold.
    replacement: char,
}

type Words = BTreeMap<Box<str>, Rc<Word>>;

thread_local! {
    /// Shaped words of this thread, by the face's place in memory: the faces'
    /// bytes live as long as the process, so a place is never used twice.
    static WORDS: RefCell<BTreeMap<usize, Words>> = const { RefCell::new(BTreeMap::new()) };
}

impl Face {
    fn new(data: &'static [u8]) -> Option<Self> {
        let font = Font::new(data, 0)?;
        let plan = ShapePlan::new(&font, DIRECTION, SCRIPT, None, &[]);
        let mut face = Self {
            data,
            font,
            plan,
            replacement: '?',
        };
        if let Some(found) = ['\u{fffd}', '\u{25a1}', '?']
            .into_iter()
            .find(|&c| face.holds(c))
        {
            face.replacement = found;
        }
        Some(face)
    }

    /// Whether the face has a glyph for a character.
    fn holds(&self, character: char) -> bool {
        self.glyphs(&character.to_string())
            .iter()
            .all(|(_, id, _, _)| *id != 0)
    }

    /// The glyph id of a character, if the face has one.
    pub fn glyph(&self, character: char) -> Option<u16> {
        match self.glyphs(&character.to_string())[..] {
            [(_, id, _, _)] if id != 0 => Some(id),
            _ => None,
        }
    }

    /// The advance of a glyph in 1/1000 em.
    pub fn width(&self, glyph: u16) -> f32 {
        self.font.glyph_metrics().h_advance(glyph.into()) * self.em()
    }

    fn em(&self) -> f32 {
        1000.0 / f32::from(self.font.units_per_em())
    }

    /// Shapes a text: cluster, glyph id, advance, offsets.
    fn glyphs(&self, text: &str) -> Vec<(usize, u16, f32, (f32, f32))> {
        let mut buffer = Buffer::new();
        buffer.push_str(text);
        buffer.set_direction(DIRECTION);
        buffer.set_script(SCRIPT);
        buffer.set_cluster_level(ClusterLevel::MonotoneCharacters);
        // otherwise a soft hyphen is drawn with the glyph of the space
        buffer.set_flags(BufferFlags::REMOVE_DEFAULT_IGNORABLES);
        let options = ShapeOptions::new().plan(Some(&self.plan));
        // fails only when plan and buffer disagree about script or direction
        if harfrust::shape(&ShaperFont::new(&self.font), &mut buffer, options).is_err() {
            return Vec::new();
        }
        let em = self.em();
        let mut glyphs = Vec::with_capacity(text.len());
        for (info, position) in buffer.glyph_infos().iter().zip(buffer.glyph_positions()) {
            glyphs.push((
                info.cluster as usize,
                u16::try_from(info.glyph_id).unwrap_or(0),
                position.x_advance as f32 * em,
                (position.x_offset as f32 * em, position.y_offset as f32 * em),
            ));
        }
        glyphs
    }

    fn shape_new(&self, text: &str) -> Word {
        let mut drawn = text.replace('\t', " ");
        let mut glyphs = self.glyphs(&drawn);
        let mut missing = String::new();
        if glyphs.iter().any(|&(_, id, _, _)| id == 0) {
            drawn = drawn
                .chars()
                .map(|c| {
                    if self.holds(c) {
                        return c;
                    }
                    missing.push(c);
                    self.replacement
                })
                .collect();
            glyphs = self.glyphs(&drawn);
        }
        let mut word = Word {
            text: drawn.as_str().into(),
            glyphs: Vec::with_capacity(glyphs.len()),
            advance: 0.0,
            ink: 0.0,
            missing: missing.into(),
        };
        for (i, &(cluster, id, advance, shift)) in glyphs.iter().enumerate() {
            let end = glyphs.get(i + 1).map_or(drawn.len(), |next| next.0);
            let covered = &drawn[cluster..end];
            word.advance += advance;
            if !covered.trim_end().is_empty() {
                word.ink = word.advance;
            }
            word.glyphs.push(Glyph {
                id,
                advance,
                natural: self.width(id).trunc(),
                shift,
                text: extracted(covered),
            });
        }
        word
    }
}

/// What a reader should copy for a glyph: invisible characters removed, and a
/// plain space for every kind of space, since they share one glyph.
fn extracted(text: &str) -> Box<str> {
    match text.trim_end_matches([
        '\u{ad}', '\u{200b}', '\u{200c}', '\u{200d}', '\u{2060}', '\u{feff}',
    ]) {
        "\u{a0}" => " ".into(),
        other => other.into(),
    }
}

/// The four faces of one family, parsed once a process and shared by threads.
pub struct Faces(pub(super) [Face; 4]);

/// A stretch of text in one face, or a thing that stands in the line.
#[derive(Clone)]
pub(super) struct Run {
    pub face: usize,
    pub text: String,
    /// Whose it is: carried to the pieces of the lines.
    pub tag: usize,
    pub object: Option<Object>,
}

/// A thing that stands in a line: a blank to write on or a tick box.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Object {
    pub tick: bool,
    /// In points.
    pub width: f32,
    /// How high the line must be, in points.
    pub height: f32,
    /// What it is for, in words.
    pub tip: Rc<str>,
}

impl Run {
    /// Words in a face.
    pub fn words(face: usize, text: impl Into<String>, tag: usize) -> Self {
        Self {
            face,
            text: text.into(),
            tag,
            object: None,
        }
    }

    /// A thing in the line.
    pub fn object(object: Object, tag: usize) -> Self {
        Self {
            face: REGULAR,
            text: OBJECT.to_string(),
            tag,
            object: Some(object),
        }
    }
}

/// What a piece of a line is.
#[derive(Clone)]
pub(super) enum What {
    Word(usize, Rc<Word>),
    Object(Object),
}

/// A part of a line; `x` is in points from the line's start.
#[derive(Clone)]
pub(super) struct Piece {
    pub x: f32,
    pub width: f32,
    pub tag: usize,
    pub what: What,
}

/// A line of pieces.
#[derive(Clone, Default)]
pub(super) struct Line {
    pub pieces: Vec<Piece>,
    /// Width in points without the spaces at the end.
    pub width: f32,
    /// How high its tallest thing needs it to be, in points; 0 for words.
    pub height: f32,
    end: f32,
}

impl Line {
    fn push(&mut self, part: &Part<'_>, shaped: Shaped, em: f32) {
        let x = self.end;
        let width = shaped.advance() * em;
        if shaped.ink() > 0.0 {
            self.width = x + shaped.ink() * em;
        }
        let what = match shaped {
            Shaped::Word(word) => What::Word(part.run.face, word),
            Shaped::Object(object) => {
                self.height = self.height.max(object.height);
                self.width = x + object.width;
                self.end += object.width;
                self.pieces.push(Piece {
                    x,
                    width: object.width,
                    tag: part.run.tag,
                    what: What::Object(object.clone()),
                });
                return;
            }
        };
        self.end += width;
        self.pieces.push(Piece {
            x,
            width,
            tag: part.run.tag,
            what,
        });
    }
}

/// A run's share of an unbreakable stretch.
struct Part<'r> {
    run: &'r Run,
    text: &'r str,
}

enum Shaped<'r> {
    Word(Rc<Word>),
    Object(&'r Object),
}

impl Shaped<'_> {
    fn advance(&self) -> f32 {
        match self {
            Self::Word(word) => word.advance,
            Self::Object(_) => 0.0,
        }
    }

    fn ink(&self) -> f32 {
        match self {
            Self::Word(word) => word.ink,
            Self::Object(_) => 0.0,
        }
    }
}

impl Faces {
    /// Parses the four faces of a family.
    ///
    /// # Errors
    /// When one of them is no TrueType or OpenType font.
    pub fn new(
        regular: &'static [u8],
        bold: &'static [u8],
        italic: &'static [u8],
        bold_italic: &'static [u8],
    ) -> Outcome<Self> {
        let mut problems = Vec::new();
        let mut read = |name: &str, data| {
            Face::new(data).or_else(|| {
                problems.push(Problem::error(
                    "render.font",
                    told!("the {name} face is not a font that can be read", name),
                    "put back the font file that came with the program",
                ));
                None
            })
        };
        let faces = (
            read("regular", regular),
            read("bold", bold),
            read("italic", italic),
            read("bold italic", bold_italic),
        );
        match faces {
            (Some(a), Some(b), Some(c), Some(d)) => Ok(Self([a, b, c, d])),
            _ => Err(problems),
        }
    }

    /// The shaped word, from the thread's cache if it is there.
    pub(super) fn shape(&self, face: usize, text: &str) -> Rc<Word> {
        let face = &self.0[face];
        let key = face.data.as_ptr() as usize;
        WORDS.with_borrow_mut(|caches| {
            let words = caches.entry(key).or_default();
            if let Some(word) = words.get(text) {
                return word.clone();
            }
            if words.len() >= MOST_WORDS {
                words.clear();
            }
            let word = Rc::new(face.shape_new(text));
            words.insert(text.into(), word.clone());
            word
        })
    }

    /// Width of a text in one face, in points.
    pub(super) fn text_width(&self, face: usize, text: &str, size: f32) -> f32 {
        self.shape(face, text).ink * size / 1000.0
    }

    fn shaped<'r>(&self, part: &Part<'r>) -> Shaped<'r> {
        match &part.run.object {
            Some(object) => Shaped::Object(object),
            None => Shaped::Word(self.shape(part.run.face, part.text)),
        }
    }

    /// The width of an unbreakable stretch in points, with and without the
    /// spaces at its end.
    fn measure(&self, parts: &[Part<'_>], em: f32) -> (f32, f32) {
        let (mut advance, mut ink) = (0.0, 0.0);
        for part in parts {
            match self.shaped(part) {
                Shaped::Word(word) => {
                    if word.ink > 0.0 {
                        ink = advance + word.ink * em;
                    }
                    advance += word.advance * em;
                }
                Shaped::Object(object) => {
                    advance += object.width;
                    ink = advance;
                }
            }
        }
        (advance, ink)
    }

    /// Breaks runs into lines at most `width` points wide. A word wider than a
    /// line is broken between letters.
    pub(super) fn lines(&self, runs: &[Run], size: f32, width: f32) -> Vec<Line> {
        let em = size / 1000.0;
        let mut lines = Vec::new();
        let mut line = Line::default();
        for (parts, forced) in stretches(runs) {
            let (_, ink) = self.measure(&parts, em);
            if line.end + ink > width + 0.01 && !line.pieces.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            if ink <= width + 0.01 {
                for part in &parts {
                    let shaped = self.shaped(part);
                    line.push(part, shaped, em);
                }
            } else {
                self.broken(&parts, em, width, &mut line, &mut lines);
            }
            if forced {
                lines.push(std::mem::take(&mut line));
            }
        }
        if !line.pieces.is_empty() || lines.is_empty() {
            lines.push(line);
        }
        lines
    }

    /// Sets a stretch that is wider than a line: part by part, and what is wider still letter by
    /// letter.
    fn broken(
        &self,
        parts: &[Part<'_>],
        em: f32,
        width: f32,
        line: &mut Line,
        lines: &mut Vec<Line>,
    ) {
        for part in parts {
            if let Some(object) = &part.run.object {
                let mut object = object.clone();
                object.width = object.width.min(width);
                if line.end + object.width > width + 0.01 && !line.pieces.is_empty() {
                    lines.push(std::mem::take(line));
                }
                line.push(part, Shaped::Object(&object), em);
                continue;
            }
            let whole = self.shape(part.run.face, part.text);
            if parts.len() > 1 && whole.ink * em <= width + 0.01 {
                if line.end + whole.ink * em > width + 0.01 && !line.pieces.is_empty() {
                    lines.push(std::mem::take(line));
                }
                line.push(part, Shaped::Word(whole), em);
                continue;
            }
            for letter in part.text.graphemes(true) {
                let word = self.shape(part.run.face, letter);
                if line.end + word.ink * em > width + 0.01 && !line.pieces.is_empty() {
                    lines.push(std::mem::take(line));
                }
                line.push(part, Shaped::Word(word), em);
            }
        }
    }

    /// The narrowest width without broken words and the width without line
    /// breaks, in points, for the columns of a table.
    pub(super) fn widths(&self, runs: &[Run], size: f32) -> (f32, f32) {
        let em = size / 1000.0;
        let (mut least, mut most, mut line) = (0f32, 0f32, 0f32);
        for (parts, forced) in stretches(runs) {
            let (advance, ink) = self.measure(&parts, em);
            least = least.max(ink);
            most = most.max(line + ink);
            line = if forced { 0.0 } else { line + advance };
        }
        (least, most)
    }

    /// The width of the first `bytes` of the runs' joined text, in points.
    pub(super) fn width_before(&self, runs: &[Run], bytes: usize, size: f32) -> f32 {
        let mut left = bytes;
        let mut width = 0.0;
        for run in runs {
            if left == 0 {
                break;
            }
            let taken = left.min(run.text.len());
            width += match &run.object {
                Some(object) => object.width,
                None => self.shape(run.face, &run.text[..taken]).advance * size / 1000.0,
            };
            left -= taken;
        }
        width
    }
}

/// Where boxes and lines to write on stand in the runs' joined text, and whether each is a box.
fn objects(runs: &[Run]) -> Vec<(std::ops::Range<usize>, bool)> {
    let mut at = 0;
    let mut found = Vec::new();
    for run in runs {
        let from = at;
        at += run.text.len();
        if let Some(object) = &run.object {
            found.push((from..at, object.tick));
        }
    }
    found
}

/// Unbreakable stretches of text, and whether a line must end after each.
fn stretches(runs: &[Run]) -> Vec<(Vec<Part<'_>>, bool)> {
    let text: String = runs.iter().map(|run| run.text.as_str()).collect();
    let mut found = Vec::new();
    if text.is_empty() {
        return found;
    }
    let (mut run, mut run_start, mut start) = (0, 0, 0);
    let mut held: Vec<Part<'_>> = Vec::new();
    let labels = breaks::labels(&text, &objects(runs));
    for (end, kind) in linebreaks(&text) {
        let mut parts = Vec::with_capacity(1);
        while run < runs.len() && run_start < end {
            let run_end = run_start + runs[run].text.len();
            let (from, to) = (start.max(run_start), end.min(run_end));
            let part = runs[run].text[from - run_start..to - run_start]
                .trim_end_matches(['\n', '\r', '\u{2028}']);
            if !part.is_empty() {
                parts.push(Part {
                    run: &runs[run],
                    text: part,
                });
            }
            if run_end > end {
                break;
            }
            run_start = run_end;
            run += 1;
        }
        start = end;
        let glued = breaks::holds(&text, end, &labels);
        if glued {
            held.append(&mut parts);
            continue;
        }
        if !held.is_empty() {
            held.append(&mut parts);
            parts = std::mem::take(&mut held);
        }
        found.push((
            parts,
            kind == BreakOpportunity::Mandatory && end < text.len(),
        ));
    }
    found
}
