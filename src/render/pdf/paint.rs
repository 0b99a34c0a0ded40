//! Painting: placed things to drawing operations. With `finish`, the only file
//! that knows the libraries that write PDF.

use std::collections::BTreeMap;

use printpdf::{
    Codepoint, Color, DictItem, FontId, Greyscale, Line, LineDashPattern, LinePoint, Mm, Op,
    PaintMode, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfSaveOptions, Point,
    Polygon, PolygonRing, Pt, Rect, TextItem, TextMatrix, WindingOrder,
};
use subsetter::GlyphRemapper;

use super::layout::{ElementId, Ink, Layout, Mark, Path, Placed, Role};
use super::sfnt::with_characters;
use super::text::{Faces, Piece, REGULAR, What};
use crate::diag::{Outcome, Problem};

/// The distance of the lines of a hatching, in points.
const HATCH: f32 = 4.0;

/// Letters beyond ASCII that a written field can show.
const WRITTEN: &str = "°·×÷±½¼¾–—‘’“”•…€£ÀÁÂÄÇÈÉÊËÍÎÓÔÖÚÜÑàáâäæçèéêëìíîïñòóôöøùúûüåß";

/// A marked stretch of a page: whose it is, and its place in the order.
#[derive(Clone, Copy)]
pub(super) struct Marked {
    pub element: ElementId,
    pub order: u32,
}

/// What painting gives to finishing.
pub(super) struct Painted {
    pub document: lopdf::Document,
    /// The marked stretches of each page; the number is the place in the list.
    pub marked: Vec<Vec<Marked>>,
    /// Widths of the characters that a written field can show, by their code in
    /// WinAnsiEncoding; empty without such fields.
    pub written: BTreeMap<u8, f32>,
}

/// The glyphs used so far in one face, with the text that each stands for.
#[derive(Default)]
struct Used {
    ids: GlyphRemapper,
    texts: BTreeMap<u16, String>,
}

struct Painter {
    height: f32,
    used: [Used; 4],
    ops: Vec<Op>,
    font: Option<(usize, f32)>,
    in_text: bool,
    weight: f32,
    dashed: bool,
}

/// The font resource's name.
pub(super) fn font_name(face: usize) -> String {
    format!("T{face}")
}

/// The structure type of a role, in the words of ISO 32000-1.
pub(super) fn role_name(role: Role) -> &'static str {
    match role {
        Role::Document => "Document",
        Role::Heading(1) => "H1",
        Role::Heading(2) => "H2",
        Role::Heading(3) => "H3",
        Role::Heading(4) => "H4",
        Role::Heading(5) => "H5",
        Role::Heading(_) => "H6",
        Role::Paragraph => "P",
        Role::List(_) => "L",
        Role::Item => "LI",
        Role::Label => "Lbl",
        Role::Body => "LBody",
        Role::Table => "Table",
        Role::Row => "TR",
        Role::HeadCell | Role::RowHead => "TH",
        Role::Cell => "TD",
        Role::Figure => "Figure",
        Role::Link => "Link",
        Role::Form => "Form",
        Role::Group => "Div",
    }
}

/// Paints all pages and embeds the glyphs that they use.
pub(super) fn paint(layout: &Layout, faces: &Faces) -> Outcome<Painted> {
    let mut painter = Painter {
        height: layout.height,
        used: Default::default(),
        ops: Vec::new(),
        font: None,
        in_text: false,
        weight: 1.0,
        dashed: false,
    };
    let mut document = PdfDocument::new(&layout.title);
    let mut marked = Vec::with_capacity(layout.pages.len());
    for page in &layout.pages {
        marked.push(painter.page(&page.items, layout));
        let ops = std::mem::take(&mut painter.ops);
        // the true size is written when the file is finished
        document.pages.push(PdfPage::new(Mm(1.0), Mm(1.0), ops));
    }
    let fields = layout.pages.iter().flat_map(|page| &page.items);
    let writes = fields
        .into_iter()
        .any(|placed| matches!(placed.mark, Mark::Field { tick: false, .. }));
    let mut written = BTreeMap::new();
    for (face, mut used) in painter.used.into_iter().enumerate() {
        let letters = if face == REGULAR && writes {
            letters(faces, &mut used, &mut written)
        } else {
            BTreeMap::new()
        };
        if used.texts.is_empty() {
            continue;
        }
        let font = embed(faces, face, &used, &letters).ok_or_else(|| {
            vec![Problem::error(
                "render.font",
                "a face cannot be cut down to the letters that are used",
                "put back the font files that came with the program",
            )]
        })?;
        document
            .resources
            .fonts
            .map
            .insert(FontId(font_name(face)), PdfFont::new(font));
    }
    let options = PdfSaveOptions {
        optimize: false,
        // the faces are cut down already
        subset_fonts: false,
        ..PdfSaveOptions::default()
    };
    Ok(Painted {
        document: document.to_lopdf_document(&options, &mut Vec::new()),
        marked,
        written,
    })
}

/// Takes into a face the letters that written fields can show; gives their new
/// glyph ids and notes their widths.
fn letters(faces: &Faces, used: &mut Used, written: &mut BTreeMap<u8, f32>) -> BTreeMap<char, u16> {
    let face = &faces.0[REGULAR];
    let mut ids = BTreeMap::new();
    for character in (' '..='~').chain(WRITTEN.chars()) {
        if let (Some(code), Some(glyph)) = (win_ansi(character), face.glyph(character)) {
            ids.insert(character, used.ids.remap(glyph));
            written.insert(code, face.width(glyph));
        }
    }
    ids
}

/// The code of a character in WinAnsiEncoding (ISO 32000-1, annex D.2), for the
/// characters of [`WRITTEN`] and ASCII.
fn win_ansi(character: char) -> Option<u8> {
    match character {
        ' '..='~' => u8::try_from(u32::from(character)).ok(),
        '\u{a0}'..='\u{ff}' => u8::try_from(u32::from(character)).ok(),
        '€' => Some(0x80),
        '…' => Some(0x85),
        '‘' => Some(0x91),
        '’' => Some(0x92),
        '“' => Some(0x93),
        '”' => Some(0x94),
        '•' => Some(0x95),
        '–' => Some(0x96),
        '—' => Some(0x97),
        _ => None,
    }
}

fn embed(
    faces: &Faces,
    face: usize,
    used: &Used,
    letters: &BTreeMap<char, u16>,
) -> Option<ParsedFont> {
    let mut program = subsetter::subset(faces.0[face].data, 0, &used.ids).ok()?;
    if !letters.is_empty() {
        program = with_characters(&program, letters)?;
    }
    let mut font = ParsedFont::from_bytes(&program, 0, &mut Vec::new())?;
    let style = ["Regular", "Bold", "Italic", "BoldItalic"][face];
    let letter = ["A", "B", "C", "D"][face];
    font.font_name = Some(format!("LEESD{letter}+Text-{style}"));
    Some(font)
}

impl Painter {
    /// Paints one page: lines that adorn it, its text in reading order, then
    /// words that are no part of the text.
    fn page(&mut self, items: &[Placed], layout: &Layout) -> Vec<Marked> {
        self.font = None;
        self.weight = 1.0;
        self.dashed = false;
        let (mut adorn, mut read): (Vec<&Placed>, Vec<&Placed>) = items
            .iter()
            .filter(|placed| !matches!(placed.mark, Mark::Link { .. } | Mark::Spot { .. }))
            .partition(|placed| placed.element.is_none());
        adorn.sort_by_key(|placed| placed.order);
        read.sort_by_key(|placed| placed.order);
        let (said, drawn): (Vec<&Placed>, Vec<&Placed>) = adorn
            .into_iter()
            .partition(|placed| matches!(placed.mark, Mark::Text { .. }));
        self.artifact(&drawn);
        let mut marked: Vec<Marked> = Vec::new();
        // the words before and after a field are two stretches, for the field
        // is read between them
        let mut cut = false;
        for placed in read {
            let Some(element) = placed.element else {
                continue;
            };
            if matches!(placed.mark, Mark::Field { .. }) {
                cut = true;
                continue;
            }
            if cut || marked.last().is_none_or(|last| last.element != element) {
                cut = false;
                if !marked.is_empty() {
                    self.end_text();
                    self.ops.push(Op::EndMarkedContent);
                }
                let number = DictItem::Int(marked.len() as i64);
                self.ops.push(Op::BeginMarkedContentWithProperties {
                    tag: role_name(layout.tree.elements[element].role).to_string(),
                    properties: DictItem::Dict {
                        map: std::iter::once(("MCID".to_string(), number)).collect(),
                    },
                });
                marked.push(Marked {
                    element,
                    order: placed.order,
                });
            }
            self.placed(placed);
        }
        if !marked.is_empty() {
            self.end_text();
            self.ops.push(Op::EndMarkedContent);
        }
        self.artifact(&said);
        marked
    }

    /// What is no part of the document's text.
    fn artifact(&mut self, items: &[&Placed]) {
        if items.is_empty() {
            return;
        }
        self.ops.push(Op::BeginMarkedContent {
            tag: "Artifact".to_string(),
        });
        for placed in items {
            self.placed(placed);
        }
        self.end_text();
        self.ops.push(Op::EndMarkedContent);
    }

    fn placed(&mut self, placed: &Placed) {
        let (x, y) = (placed.x, self.height - placed.y);
        match &placed.mark {
            Mark::Text { size, pieces } => self.text(pieces, *size, x, y),
            Mark::Rule {
                dx,
                dy,
                weight,
                dash,
            } => {
                self.end_text();
                self.pen(*weight, dash);
                let points = vec![corner(x, y, false), corner(x + dx, y - dy, false)];
                self.ops.push(Op::DrawLine {
                    line: Line {
                        points,
                        is_closed: false,
                    },
                });
            }
            Mark::Frame {
                width,
                height,
                weight,
            } => {
                self.end_text();
                self.pen(*weight, &[]);
                self.ops.push(Op::DrawRectangle {
                    rectangle: Rect {
                        x: Pt(round(x)),
                        y: Pt(round(y - height)),
                        width: Pt(round(*width)),
                        height: Pt(round(*height)),
                        mode: Some(PaintMode::Stroke),
                        winding_order: None,
                    },
                });
            }
            Mark::Path(path) => {
                self.end_text();
                self.path(path, x, y);
            }
            Mark::Field { .. } | Mark::Link { .. } | Mark::Spot { .. } => {}
        }
    }

    fn path(&mut self, path: &Path, x: f32, y: f32) {
        let points: Vec<LinePoint> = path
            .points
            .iter()
            .map(|&(px, py, control)| corner(x + px, y - py, control))
            .collect();
        if path.weight > 0.0 {
            self.pen(path.weight, &path.dash);
        }
        let polygon = |mode| Op::DrawPolygon {
            polygon: Polygon {
                rings: vec![PolygonRing {
                    points: points.clone(),
                }],
                mode,
                winding_order: WindingOrder::NonZero,
            },
        };
        match path.fill {
            Ink::None => {}
            Ink::Black => self.ops.push(polygon(PaintMode::Fill)),
            Ink::White => {
                self.ops.push(fill(1.0));
                self.ops.push(polygon(PaintMode::Fill));
                self.ops.push(fill(0.0));
            }
            Ink::Hatched => {
                self.ops.push(Op::SaveGraphicsState);
                self.ops.push(polygon(PaintMode::Clip));
                self.hatch(path, x, y);
                self.ops.push(Op::RestoreGraphicsState);
            }
        }
        if path.weight > 0.0 {
            self.ops.push(Op::DrawLine {
                line: Line {
                    points,
                    is_closed: path.closed,
                },
            });
        }
    }

    /// Slanting lines over the box round a path; the path clips them.
    fn hatch(&mut self, path: &Path, x: f32, y: f32) {
        let (mut left, mut right) = (f32::MAX, f32::MIN);
        let (mut top, mut bottom) = (f32::MAX, f32::MIN);
        for &(px, py, _) in &path.points {
            left = left.min(px);
            right = right.max(px);
            top = top.min(py);
            bottom = bottom.max(py);
        }
        let tall = bottom - top;
        self.ops.push(Op::SetOutlineThickness { pt: Pt(0.4) });
        self.ops.push(Op::SetLineDashPattern {
            dash: LineDashPattern::default(),
        });
        let mut from = left - tall;
        // no figure is large enough for more lines than this
        for _ in 0..2000 {
            if from > right {
                break;
            }
            let points = vec![
                corner(x + from, y - bottom, false),
                corner(x + from + tall, y - top, false),
            ];
            self.ops.push(Op::DrawLine {
                line: Line {
                    points,
                    is_closed: false,
                },
            });
            from += HATCH;
        }
    }

    fn pen(&mut self, weight: f32, dash: &[f32]) {
        let weight = round(weight);
        if self.weight.to_bits() != weight.to_bits() {
            self.weight = weight;
            self.ops.push(Op::SetOutlineThickness { pt: Pt(weight) });
        }
        if !dash.is_empty() || self.dashed {
            self.dashed = !dash.is_empty();
            self.ops.push(Op::SetLineDashPattern {
                dash: LineDashPattern::new(0.0, dash),
            });
        }
    }

    fn end_text(&mut self) {
        if self.in_text {
            self.in_text = false;
            self.ops.push(Op::EndTextSection);
        }
    }

    fn text(&mut self, pieces: &[Piece], size: f32, x: f32, y: f32) {
        if !self.in_text {
            self.in_text = true;
            self.ops.push(Op::StartTextSection);
        }
        let mut moved = false;
        let mut run: Vec<Codepoint> = Vec::new();
        for piece in pieces {
            let What::Word(face, word) = &piece.what else {
                continue;
            };
            if self.font != Some((*face, size)) {
                self.show(&mut run);
                self.font = Some((*face, size));
                self.ops.push(Op::SetFont {
                    font: PdfFontHandle::External(FontId(font_name(*face))),
                    size: Pt(round(size)),
                });
                moved = false;
            }
            let mut pen = x + piece.x;
            if !moved {
                moved = true;
                self.ops.push(move_to(pen, y));
            }
            for glyph in &word.glyphs {
                let used = &mut self.used[*face];
                let id = used.ids.remap(glyph.id);
                // one text a glyph, or the last one wins for all
                let text = used
                    .texts
                    .entry(id)
                    .or_insert_with(|| glyph.text.to_string())
                    .clone();
                let mut code = Codepoint::with_cid(id, glyph.natural - glyph.advance, text);
                let shifted = glyph.shift != (0.0, 0.0);
                if shifted {
                    self.show(&mut run);
                    let (dx, dy) = glyph.shift;
                    self.ops
                        .push(move_to(pen + dx * size / 1000.0, y + dy * size / 1000.0));
                    code.offset = 0.0;
                }
                run.push(code);
                pen += glyph.advance * size / 1000.0;
                if shifted {
                    self.show(&mut run);
                    self.ops.push(move_to(pen, y));
                }
            }
        }
        self.show(&mut run);
    }

    fn show(&mut self, run: &mut Vec<Codepoint>) {
        if !run.is_empty() {
            self.ops.push(Op::ShowText {
                items: vec![TextItem::GlyphIds(std::mem::take(run))],
            });
        }
    }
}

fn fill(grey: f32) -> Op {
    Op::SetFillColor {
        col: Color::Greyscale(Greyscale::new(grey, None)),
    }
}

fn corner(x: f32, y: f32, bezier: bool) -> LinePoint {
    LinePoint {
        p: Point {
            x: Pt(round(x)),
            y: Pt(round(y)),
        },
        bezier,
    }
}

fn move_to(x: f32, y: f32) -> Op {
    Op::SetTextMatrix {
        matrix: TextMatrix::Raw([1.0, 0.0, 0.0, 1.0, round(x), round(y)]),
    }
}

/// To a hundredth of a point: finer than any printer, and short in the file.
pub(super) fn round(length: f32) -> f32 {
    (length * 100.0).round() / 100.0
}
