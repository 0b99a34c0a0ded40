//! Figures as shapes of the word processor: lines, areas and words that stay sharp and can be
//! changed, in a group that says what it shows.
//!
//! The library has no words for shapes in groups. A figure's place is held by a sign that no text
//! can hold (`w:sym` with a font of our own) and is filled when the parts are made. Shapes follow
//! ECMA-376 part 1, chapter 20 (DrawingML); their group is the extension that word processors have
//! read since 2010, with the description in words for those that do not.

use std::fmt::Write as _;

use docx_rs::{Run, Sym};

use crate::doc::{Anchor, Figure, Fill, Pen, Shape};
use crate::render::markup::escaped;

use super::runs::clean;

/// The font by which a held place is known.
const HELD: &str = "figure-of-the-sheet";
/// A point in the format's units.
const UNITS: f32 = 12_700.0;
/// A letter's width in parts of its size, on the ample side: the words' box is as long as that.
const LETTER: f32 = 0.55;
/// From one line of words to the next, in parts of their size.
const LINE: f32 = 1.2;
/// How far the foot of letters stands under the top of their line, in parts of their size.
const FOOT: f32 = 0.97;

/// Figures that were met, ready to be put in.
#[derive(Default)]
pub(super) struct Drawings {
    made: Vec<String>,
    /// Ids given so far; each shape of a file has its own.
    ids: usize,
}

impl Drawings {
    /// A run that stands for a figure, drawn so many times as large.
    pub(super) fn inline(&mut self, figure: &Figure, scale: f32) -> Run {
        let size = extent(figure, scale);
        let shown = self.shown(figure, scale);
        self.held(format!(
            "<w:drawing><wp:inline distT=\"0\" distB=\"0\" distL=\"0\" distR=\"0\">{size}{shown}</wp:inline></w:drawing>"
        ), &figure.alt)
    }

    /// A run whose figure stands at the right margin, the words beside it.
    pub(super) fn aside(&mut self, figure: &Figure) -> Run {
        let size = extent(figure, 1.0);
        let shown = self.shown(figure, 1.0);
        self.held(format!(
            "<w:drawing><wp:anchor distT=\"0\" distB=\"0\" distL=\"114300\" distR=\"0\" simplePos=\"0\" relativeHeight=\"1\" behindDoc=\"0\" locked=\"0\" layoutInCell=\"1\" allowOverlap=\"1\"><wp:simplePos x=\"0\" y=\"0\"/><wp:positionH relativeFrom=\"margin\"><wp:align>right</wp:align></wp:positionH><wp:positionV relativeFrom=\"paragraph\"><wp:posOffset>0</wp:posOffset></wp:positionV>{size}<wp:wrapSquare wrapText=\"bothSides\"/>{shown}</wp:anchor></w:drawing>"
        ), &figure.alt)
    }

    fn held(&mut self, drawing: String, alt: &str) -> Run {
        self.made.push(format!(
            "<mc:AlternateContent><mc:Choice Requires=\"wpg\">{drawing}</mc:Choice><mc:Fallback><w:t>{}</w:t></mc:Fallback></mc:AlternateContent>",
            escaped(&clean(alt))
        ));
        let number = self.made.len() - 1;
        Run::new().add_sym(Sym::new(HELD, format!("{number:04X}")))
    }

    /// Puts the figures where their places are held.
    pub(super) fn put(&self, document: &mut Vec<u8>) {
        if self.made.is_empty() {
            return;
        }
        let open = format!("<w:sym w:font=\"{HELD}\" w:char=\"");
        let text = String::from_utf8_lossy(document).into_owned();
        let long: usize = self.made.iter().map(String::len).sum();
        let mut filled = String::with_capacity(text.len() + long);
        let mut parts = text.split(open.as_str());
        filled.push_str(parts.next().unwrap_or_default());
        for part in parts {
            let (number, rest) = part.split_once('"').unwrap_or((part, ""));
            let number = usize::from_str_radix(number, 16).ok();
            if let Some(drawing) = number.and_then(|number| self.made.get(number)) {
                filled.push_str(drawing);
            }
            filled.push_str(rest.split_once('>').map_or(rest, |(_, after)| after));
        }
        *document = filled.into_bytes();
    }

    fn id(&mut self) -> usize {
        self.ids += 1;
        self.ids
    }

    /// What it is called and told to be, and its shapes in a group.
    fn shown(&mut self, figure: &Figure, scale: f32) -> String {
        let (wide, high) = (units(figure.width * scale), units(figure.height * scale));
        let mut out = format!(
            "<wp:docPr id=\"{}\" name=\"{}\" descr=\"{}\"/><wp:cNvGraphicFramePr/><a:graphic xmlns:a=\"http://schemas.openxmlformats.org/drawingml/2006/main\"><a:graphicData uri=\"http://schemas.microsoft.com/office/word/2010/wordprocessingGroup\"><wpg:wgp><wpg:cNvGrpSpPr/><wpg:grpSpPr><a:xfrm><a:off x=\"0\" y=\"0\"/><a:ext cx=\"{wide}\" cy=\"{high}\"/><a:chOff x=\"0\" y=\"0\"/><a:chExt cx=\"{wide}\" cy=\"{high}\"/></a:xfrm></wpg:grpSpPr>",
            self.id(),
            escaped(&clean(&figure.id)),
            escaped(&clean(&figure.alt)),
        );
        let mut lines = Lines::default();
        for shape in &figure.shapes {
            match shape {
                Shape::Line {
                    points,
                    closed,
                    pen,
                    fill,
                }
                | Shape::Curve {
                    points,
                    closed,
                    pen,
                    fill,
                } => {
                    // a curve has two handles before each of its corners
                    let step = if matches!(shape, Shape::Curve { .. }) {
                        3
                    } else {
                        1
                    };
                    let looks = looks(pen, *fill, scale);
                    let corners = points.iter().copied().enumerate();
                    let path = path(corners, step, *closed, scale);
                    self.path(&mut lines, looks, path, *fill, (wide, high), &mut out);
                }
                Shape::Ellipse {
                    centre,
                    radii,
                    pen,
                    fill,
                } => {
                    self.flush(&mut lines, (wide, high), &mut out);
                    let at = (centre.0 - radii.0, centre.1 - radii.1);
                    let size = (2.0 * radii.0, 2.0 * radii.1);
                    self.open(at, size, scale, &mut out);
                    out.push_str("<a:prstGeom prst=\"ellipse\"><a:avLst/></a:prstGeom>");
                    out.push_str(&looks(pen, *fill, scale));
                    out.push_str("</wps:spPr><wps:bodyPr/></wps:wsp>");
                }
                Shape::Label {
                    at,
                    anchor,
                    size,
                    bold,
                    text,
                } => {
                    self.flush(&mut lines, (wide, high), &mut out);
                    self.label(*at, *anchor, *size, *bold, text, scale, &mut out);
                }
            }
        }
        self.flush(&mut lines, (wide, high), &mut out);
        out.push_str("</wpg:wgp></a:graphicData></a:graphic>");
        out
    }

    /// Adds a path; lines without an inside that look alike and follow each other are one shape.
    fn path(
        &mut self,
        lines: &mut Lines,
        looks: String,
        path: String,
        fill: Fill,
        canvas: (i64, i64),
        out: &mut String,
    ) {
        if lines.looks != looks || fill != Fill::None {
            self.flush(lines, canvas, out);
        }
        lines.looks = looks;
        lines.paths.push_str(&path);
        if fill != Fill::None {
            self.flush(lines, canvas, out);
        }
    }

    /// Writes the lines that were gathered; a path's own canvas is the whole drawing, so that a
    /// level line, which has no height, keeps its place.
    fn flush(&mut self, lines: &mut Lines, (wide, high): (i64, i64), out: &mut String) {
        if lines.paths.is_empty() {
            return;
        }
        let id = self.id();
        // Writing to a String cannot fail, here and below.
        let _ = write!(
            out,
            "<wps:wsp><wps:cNvPr id=\"{id}\" name=\"s{id}\"/><wps:cNvSpPr/><wps:spPr><a:xfrm><a:off x=\"0\" y=\"0\"/><a:ext cx=\"{wide}\" cy=\"{high}\"/></a:xfrm><a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/><a:rect l=\"0\" t=\"0\" r=\"r\" b=\"b\"/><a:pathLst><a:path w=\"{wide}\" h=\"{high}\">{}</a:path></a:pathLst></a:custGeom>{}</wps:spPr><wps:bodyPr/></wps:wsp>",
            lines.paths, lines.looks,
        );
        *lines = Lines::default();
    }

    /// Opens a shape with its place and size.
    fn open(&mut self, at: (f32, f32), size: (f32, f32), scale: f32, out: &mut String) {
        let id = self.id();
        let [x, y, wide, high] = [at.0, at.1, size.0, size.1].map(|one| units(one * scale));
        let _ = write!(
            out,
            "<wps:wsp><wps:cNvPr id=\"{id}\" name=\"s{id}\"/><wps:cNvSpPr/><wps:spPr><a:xfrm><a:off x=\"{x}\" y=\"{y}\"/><a:ext cx=\"{wide}\" cy=\"{high}\"/></a:xfrm>"
        );
    }

    #[allow(clippy::too_many_arguments)]
    fn label(
        &mut self,
        at: (f32, f32),
        anchor: Anchor,
        size: f32,
        bold: bool,
        text: &str,
        scale: f32,
        out: &mut String,
    ) {
        let wide = text.chars().count() as f32 * size * LETTER + 4.0;
        let (left, align) = match anchor {
            Anchor::Start => (at.0, "left"),
            Anchor::Middle => (at.0 - 0.5 * wide, "center"),
            Anchor::End => (at.0 - wide, "right"),
        };
        self.open((left, at.1 - FOOT * size), (wide, LINE * size), scale, out);
        let line = super::points(LINE * size * scale);
        let half_points = super::points(size * scale) / 10;
        let bold = if bold { "<w:b/>" } else { "" };
        let _ = write!(
            out,
            "<a:prstGeom prst=\"rect\"><a:avLst/></a:prstGeom><a:noFill/><a:ln><a:noFill/></a:ln></wps:spPr><wps:txbx><w:txbxContent><w:p><w:pPr><w:spacing w:before=\"0\" w:after=\"0\" w:line=\"{line}\" w:lineRule=\"exact\"/><w:jc w:val=\"{align}\"/></w:pPr><w:r><w:rPr>{bold}<w:sz w:val=\"{half_points}\"/></w:rPr><w:t xml:space=\"preserve\">{}</w:t></w:r></w:p></w:txbxContent></wps:txbx><wps:bodyPr wrap=\"none\" lIns=\"0\" tIns=\"0\" rIns=\"0\" bIns=\"0\" anchor=\"t\"><a:noAutofit/></wps:bodyPr></wps:wsp>",
            escaped(&clean(text))
        );
    }
}

/// Lines that are one shape.
#[derive(Default)]
struct Lines {
    looks: String,
    paths: String,
}

fn extent(figure: &Figure, scale: f32) -> String {
    let (wide, high) = (units(figure.width * scale), units(figure.height * scale));
    format!("<wp:extent cx=\"{wide}\" cy=\"{high}\"/>")
}

/// Points as the format's units; drawings are no larger than a page.
#[allow(clippy::cast_possible_truncation)]
fn units(length: f32) -> i64 {
    (length * UNITS).round() as i64
}

/// A run of points as a path, so many to a piece.
fn path(
    points: impl Iterator<Item = (usize, (f32, f32))>,
    piece: usize,
    closed: bool,
    scale: f32,
) -> String {
    let mut out = String::new();
    let word = if piece == 1 { "lnTo" } else { "cubicBezTo" };
    let mut open = false;
    for (index, (x, y)) in points {
        let (x, y) = (units(x * scale), units(y * scale));
        if index == 0 {
            let _ = write!(out, "<a:moveTo><a:pt x=\"{x}\" y=\"{y}\"/></a:moveTo>");
            continue;
        }
        if !open {
            let _ = write!(out, "<a:{word}>");
            open = true;
        }
        let _ = write!(out, "<a:pt x=\"{x}\" y=\"{y}\"/>");
        if index % piece == 0 {
            let _ = write!(out, "</a:{word}>");
            open = false;
        }
    }
    if closed && !out.is_empty() {
        out.push_str("<a:close/>");
    }
    out
}

/// Fill and line of a shape.
fn looks(pen: &Pen, fill: Fill, scale: f32) -> String {
    const BLACK: &str = "<a:solidFill><a:srgbClr val=\"000000\"/></a:solidFill>";
    let mut out = match fill {
        Fill::None => "<a:noFill/>".to_owned(),
        Fill::White => "<a:solidFill><a:srgbClr val=\"FFFFFF\"/></a:solidFill>".to_owned(),
        Fill::Black => BLACK.to_owned(),
        Fill::Hatched => "<a:pattFill prst=\"ltUpDiag\"><a:fgClr><a:srgbClr val=\"000000\"/></a:fgClr><a:bgClr><a:srgbClr val=\"FFFFFF\"/></a:bgClr></a:pattFill>".to_owned(),
    };
    if pen.width <= 0.0 {
        out.push_str("<a:ln><a:noFill/></a:ln>");
        return out;
    }
    let _ = write!(out, "<a:ln w=\"{}\">{BLACK}", units(pen.width * scale));
    if !pen.dash.is_empty() {
        // dashes and gaps in thousandths of a percent of the line's width
        let part = |length: f32| units(length / pen.width * 100_000.0 / UNITS);
        out.push_str("<a:custDash>");
        for pair in pen.dash.chunks(2) {
            let gap = pair.get(1).unwrap_or(&pair[0]);
            let (dash, gap) = (part(pair[0]), part(*gap));
            let _ = write!(out, "<a:ds d=\"{dash}\" sp=\"{gap}\"/>");
        }
        out.push_str("</a:custDash>");
    }
    out.push_str("</a:ln>");
    out
}
