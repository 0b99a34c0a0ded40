//! Form fields and links: what a reader can tick, write in and follow.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary, text_string};

use super::super::layout::{ElementId, Layout, Mark, Placed};
use super::super::paint::{font_name, round};
use super::super::text::REGULAR;
use super::outline::Spot;
use crate::diag::{Problem, told};

/// The name of the font that written fields show their text in.
pub(in crate::render::pdf) const FONT: &str = "Write";

/// An annotation that belongs to an element.
pub(super) struct Annotation {
    pub id: ObjectId,
    pub page: usize,
    pub element: ElementId,
    pub order: u32,
}

/// Everything that was added.
pub(super) struct Annotations {
    pub all: Vec<Annotation>,
    pub form: Option<ObjectId>,
}

/// Adds the fields and links of all pages in reading order.
pub(super) fn add(
    document: &mut Document,
    pages: &[ObjectId],
    layout: &Layout,
    written: &BTreeMap<u8, f32>,
    spots: &[Spot],
    warnings: &mut Vec<Problem>,
) -> Result<Annotations, lopdf::Error> {
    let mut found: Vec<(usize, &Placed)> = Vec::new();
    for (page, placed) in layout
        .pages
        .iter()
        .enumerate()
        .flat_map(|(i, page)| page.items.iter().map(move |placed| (i, placed)))
    {
        if placed.element.is_some() && matches!(placed.mark, Mark::Field { .. } | Mark::Link { .. })
        {
            found.push((page, placed));
        }
    }
    found.sort_by_key(|(_, placed)| placed.order);
    let mut maker = Maker {
        ticks: BTreeMap::new(),
        fields: Vec::new(),
        font: None,
        counts: [0, 0],
    };
    let mut all = Vec::new();
    let mut on_page: Vec<Vec<Object>> = vec![Vec::new(); pages.len()];
    for (page, placed) in found {
        let Some(element) = placed.element else {
            continue;
        };
        let key = (pages.len() + all.len()) as i64;
        let mut entry = match &placed.mark {
            Mark::Field {
                tick: true, tip, ..
            } => maker.tick(document, placed, tip),
            Mark::Field { tip, .. } => maker.blank(document, placed, tip, written)?,
            Mark::Link { target, words, .. } => {
                match link(target, words, spots, pages, layout.height) {
                    Some(entry) => entry,
                    None => {
                        warnings.push(nowhere(&layout.title, target));
                        continue;
                    }
                }
            }
            _ => continue,
        };
        entry.set("Type", "Annot");
        entry.set("F", 4);
        entry.set("P", pages[page]);
        entry.set("Rect", rectangle(placed, layout.height));
        entry.set("StructParent", key);
        let field = entry.has(b"FT");
        let id = document.add_object(entry);
        if field {
            maker.fields.push(Object::Reference(id));
        }
        on_page[page].push(Object::Reference(id));
        all.push(Annotation {
            id,
            page,
            element,
            order: placed.order,
        });
    }
    for (page, annotations) in pages.iter().zip(on_page) {
        if !annotations.is_empty() {
            let page = document.get_object_mut(*page)?.as_dict_mut()?;
            page.set("Annots", annotations);
        }
    }
    let form = maker.form(document);
    Ok(Annotations { all, form })
}

fn nowhere(title: &str, target: &str) -> Problem {
    Problem::warning(
        "render.link",
        told!(
            "a link in `{title}` leads to `{target}`, which is not there",
            title,
            target
        ),
        "link to the anchor of a heading of the same sheet, or to an https: address",
    )
}

/// The corners of a placed field or link.
fn rectangle(placed: &Placed, page: f32) -> Vec<Object> {
    let (width, height) = extent(placed);
    let (x, y) = (placed.x, page - placed.y);
    [x, y - height, x + width, y]
        .into_iter()
        .map(|value| Object::Real(round(value)))
        .collect()
}

fn extent(placed: &Placed) -> (f32, f32) {
    match &placed.mark {
        Mark::Field { width, height, .. } | Mark::Link { width, height, .. } => (*width, *height),
        _ => (0.0, 0.0),
    }
}

/// A link's entries; nothing if it leads nowhere.
fn link(
    target: &str,
    words: &str,
    spots: &[Spot],
    pages: &[ObjectId],
    height: f32,
) -> Option<Dictionary> {
    let mut entry = dictionary! {
        "Subtype" => "Link",
        "Border" => vec![0.into(), 0.into(), 0.into()],
        "Contents" => text_string(words),
    };
    if let Some(anchor) = target.strip_prefix('#') {
        let spot = spots.iter().find(|spot| spot.anchor == anchor)?;
        entry.set("Dest", spot.destination(pages, height));
    } else {
        let action = dictionary! {
            "S" => "URI",
            "URI" => Object::string_literal(encoded(target)),
        };
        entry.set("A", action);
    }
    Some(entry)
}

/// An address in the characters that a URI may have (RFC 3986, section 2);
/// what is encoded already stays.
fn encoded(address: &str) -> String {
    use std::fmt::Write as _;
    let mut text = String::with_capacity(address.len());
    for byte in address.bytes() {
        let plain = byte.is_ascii_alphanumeric() || b"-._~:/?#[]@!$&'()*+,;=%".contains(&byte);
        if plain {
            text.push(char::from(byte));
        } else {
            let _ = write!(text, "%{byte:02X}");
        }
    }
    text
}

struct Maker {
    /// Appearances of a ticked and an empty box, by its side in hundredths.
    ticks: BTreeMap<i64, (ObjectId, ObjectId)>,
    fields: Vec<Object>,
    font: Option<ObjectId>,
    counts: [usize; 2],
}

impl Maker {
    /// A box to tick. The box itself is part of the page; the field shows the
    /// tick alone.
    fn tick(&mut self, document: &mut Document, placed: &Placed, tip: &str) -> Dictionary {
        let side = round(extent(placed).0);
        let (on, off) = *self.ticks.entry((side * 100.0) as i64).or_insert_with(|| {
            let at = |share: f32| round(share * side);
            let draw = format!(
                "q {} w 1 J 1 j {} {} m {} {} l {} {} l S Q",
                at(0.13),
                at(0.2),
                at(0.5),
                at(0.42),
                at(0.24),
                at(0.82),
                at(0.8)
            );
            let mut appearance = |draw: String| {
                document.add_object(Stream::new(form_box(side, side), draw.into_bytes()))
            };
            (appearance(draw), appearance(String::new()))
        });
        self.counts[0] += 1;
        dictionary! {
            "Subtype" => "Widget",
            "FT" => "Btn",
            "T" => text_string(&format!("tick-{}", self.counts[0])),
            "TU" => text_string(tip),
            "V" => "Off",
            "AS" => "Off",
            "AP" => dictionary! { "N" => dictionary! { "Yes" => on, "Off" => off } },
        }
    }

    /// A line to write on.
    fn blank(
        &mut self,
        document: &mut Document,
        placed: &Placed,
        tip: &str,
        written: &BTreeMap<u8, f32>,
    ) -> Result<Dictionary, lopdf::Error> {
        let (_, height) = extent(placed);
        if self.font.is_none() {
            self.font = Some(write_font(document, written)?);
        }
        self.counts[1] += 1;
        let size = (0.8 * height).min(14.0).floor();
        // no appearance yet: readers draw one when something is written
        Ok(dictionary! {
            "Subtype" => "Widget",
            "FT" => "Tx",
            "T" => text_string(&format!("write-{}", self.counts[1])),
            "TU" => text_string(tip),
            "DA" => Object::string_literal(format!("/{FONT} {size} Tf 0 g")),
        })
    }

    /// The form that holds all fields, if there are any.
    fn form(self, document: &mut Document) -> Option<ObjectId> {
        if self.fields.is_empty() {
            return None;
        }
        let mut form = dictionary! { "Fields" => self.fields };
        if let Some(font) = self.font {
            form.set("DR", dictionary! { "Font" => dictionary! { FONT => font } });
            form.set("DA", Object::string_literal(format!("/{FONT} 12 Tf 0 g")));
        }
        Some(document.add_object(form))
    }
}

fn form_box(width: f32, height: f32) -> Dictionary {
    dictionary! {
        "Type" => "XObject",
        "Subtype" => "Form",
        "BBox" => vec![0.into(), 0.into(), Object::Real(width), Object::Real(height)],
    }
}

/// A simple font for what a reader writes: the same embedded program as the
/// regular face of the page, by its characters instead of its glyphs.
fn write_font(
    document: &mut Document,
    written: &BTreeMap<u8, f32>,
) -> Result<ObjectId, lopdf::Error> {
    let page_font = page_font(document, &font_name(REGULAR))?;
    let base = page_font.get(b"BaseFont")?.clone();
    let descendant = document
        .dereference(page_font.get(b"DescendantFonts")?)?
        .1
        .as_array()?
        .first()
        .ok_or(lopdf::Error::DictKey("DescendantFonts".to_string()))?;
    let descriptor = document
        .dereference(descendant)?
        .1
        .as_dict()?
        .get(b"FontDescriptor")?
        .clone();
    let (first, last) = (
        written.keys().next().copied().unwrap_or(32),
        written.keys().next_back().copied().unwrap_or(32),
    );
    let widths: Vec<Object> = (first..=last)
        .map(|code| {
            written
                .get(&code)
                .map_or(0.into(), |w| Object::Integer(*w as i64))
        })
        .collect();
    Ok(document.add_object(dictionary! {
        "Type" => "Font",
        "Subtype" => "TrueType",
        "BaseFont" => base,
        "FirstChar" => i64::from(first),
        "LastChar" => i64::from(last),
        "Widths" => widths,
        "FontDescriptor" => descriptor,
        "Encoding" => "WinAnsiEncoding",
    }))
}

/// A font of the pages' resources.
fn page_font(document: &Document, name: &str) -> Result<Dictionary, lopdf::Error> {
    let page = document
        .page_iter()
        .next()
        .ok_or(lopdf::Error::DictKey("Pages".to_string()))?;
    let resources = document.get_object(page)?.as_dict()?.get(b"Resources")?;
    let resources = document.dereference(resources)?.1.as_dict()?;
    let fonts = document.dereference(resources.get(b"Font")?)?.1.as_dict()?;
    let font = document.dereference(fonts.get(name.as_bytes())?)?.1;
    Ok(font.as_dict()?.clone())
}
