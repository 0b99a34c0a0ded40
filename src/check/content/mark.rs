//! A group's own mark: a small drawing in SVG beside its profile, in black and white line work, or
//! a picture in PNG, which `load` has made one.

use super::super::desk::{Desk, shown};
use super::svg::{Fault, Outline, Tag, numbers, outlines, tags, turn};
use crate::diag::{Problem, Told, told};
use crate::load::{self, Node, Spot};
use crate::nouns::{DrawnShape, Mark};

/// A mark is a few shapes: it is printed two fingers wide on every sheet.
const MOST_BYTES: usize = 20_000;
/// So many outlines at most.
const MOST_SHAPES: usize = 200;
/// So many times as wide as high at most, and as high as wide.
const MOST_RATIO: f64 = 6.0;

/// What stands in a drawing for people and programs, and is not drawn.
const SILENT: &[&str] = &["title", "desc", "metadata", "defs"];

const BLACK: &[&str] = &["black", "#000", "#000000", "currentColor", "rgb(0,0,0)"];
const WHITE: &[&str] = &["white", "#fff", "#ffffff", "rgb(255,255,255)"];

/// The mark that a profile names.
pub(super) fn mark(desk: &Desk, files: &load::Library, node: &Node) -> Option<Mark> {
    let name = desk.line(node, "the mark's file")?;
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | ' ');
    if !name.chars().all(plain) || name.starts_with('.') {
        return desk.error(
            node,
            "mark.place",
            told!(
                "`{name}` is not a file beside the profile",
                name = shown(&name)
            ),
            "lay the drawing into `profiles/` and write its name alone, such as `mark: club.svg`",
        );
    }
    let lower = name.to_lowercase();
    if !lower.ends_with(".svg") && !lower.ends_with(".png") {
        return desk.error(
            node,
            "mark.kind",
            told!(
                "`{name}` is no drawing in SVG and no picture in PNG",
                name = shown(&name)
            ),
            "save the mark as SVG or PNG, black on white, and write that file's name",
        );
    }
    let Some(source) = files.assets.content.get(&format!("profiles/{name}")) else {
        return desk.error(
            node,
            "mark.missing",
            told!(
                "there is no `{name}` beside the profile",
                name = shown(&name)
            ),
            "lay the drawing into `profiles/`, or take the line out",
        );
    };
    if source.text.len() > MOST_BYTES {
        return desk.error(
            node,
            "mark.large",
            told!(
                "`{name}` has {count} bytes, and a mark may have {MOST_BYTES}",
                name = shown(&name),
                count = source.text.len(),
                MOST_BYTES
            ),
            "leave out what cannot be seen two fingers wide, and save it as plain SVG",
        );
    }
    match drawn(&source.text) {
        Ok(mark) => Some(mark),
        // its text is the program's own: there is no place in it to point at
        Err(fault) if lower.ends_with(".png") => {
            desk.error(node, "mark.drawing", fault.message, fault.help)
        }
        Err(fault) => {
            let problem = Problem::error("mark.drawing", fault.message, fault.help);
            desk.put(Spot::of_byte(source, fault.at).point(problem));
            None
        }
    }
}

/// How shapes are drawn unless they say otherwise themselves.
#[derive(Clone)]
struct Looks {
    fill: &'static str,
    pen: bool,
    width: f64,
}

/// The shapes of a drawing.
fn drawn(text: &str) -> Result<Mark, Fault> {
    let tags = tags(text)?;
    let first = tags.first().filter(|tag| tag.name == "svg" && tag.opens);
    let Some(first) = first else {
        let help = "write the name of a drawing that was saved as plain SVG";
        return Err(Fault::new(0, "this is no drawing in SVG", help));
    };
    for tag in &tags {
        harmless(tag)?;
    }
    let (origin, size) = canvas(first)?;
    let mut stack = vec![Looks {
        fill: "black",
        pen: false,
        width: 1.0,
    }];
    let mut silent: Option<&str> = None;
    let mut shapes = Vec::new();
    for tag in &tags {
        if let Some(name) = silent {
            if tag.name == name && tag.closes {
                silent = None;
            }
            continue;
        }
        if SILENT.contains(&tag.name) || tag.name.contains(':') {
            silent = (tag.opens && !tag.closes).then_some(tag.name);
            continue;
        }
        let group = matches!(tag.name, "svg" | "g");
        if group && tag.closes && !tag.opens {
            stack.pop();
            continue;
        }
        if !tag.opens {
            continue;
        }
        let Some(around) = stack.last() else {
            return Err(Fault::new(
                tag.at,
                "this stands behind the end of the drawing",
                "save it again as plain SVG",
            ));
        };
        let looks = looks(tag, around)?;
        if group {
            if !tag.closes {
                stack.push(looks);
            }
            continue;
        }
        shape(tag, origin, &looks, &mut shapes)?;
        if shapes.len() > MOST_SHAPES {
            let message = told!("a mark may have {MOST_SHAPES} outlines", MOST_SHAPES);
            return Err(Fault::new(
                tag.at,
                message,
                "leave out what cannot be seen two fingers wide",
            ));
        }
    }
    if shapes.is_empty() {
        return Err(Fault::new(
            0,
            "nothing is drawn here",
            "draw the mark in black lines and areas",
        ));
    }
    Ok(Mark {
        width: size.0,
        height: size.1,
        shapes,
    })
}

/// Refuses whatever acts or reaches outside.
fn harmless(tag: &Tag<'_>) -> Result<(), Fault> {
    let plain =
        "take it out: a mark is shapes alone, and nothing in it may act or reach outside its file";
    let bare = tag.name.rsplit(':').next().unwrap_or(tag.name);
    let acts = [
        "script",
        "foreignObject",
        "image",
        "use",
        "style",
        "animate",
        "set",
        "a",
        "iframe",
    ];
    if acts.iter().any(|name| bare.eq_ignore_ascii_case(name)) {
        return Err(Fault::new(
            tag.at,
            told!("a mark cannot hold `<{name}>`", name = shown(tag.name)),
            plain,
        ));
    }
    for (key, value) in &tag.keys {
        let bare = key.rsplit(':').next().unwrap_or(key).to_lowercase();
        let reaches = bare == "href"
            || value.contains("url(")
            || value.to_lowercase().contains("javascript:");
        if bare.starts_with("on") || reaches {
            return Err(Fault::new(
                tag.at,
                told!("a mark cannot hold `{key}`", key = shown(key)),
                plain,
            ));
        }
    }
    Ok(())
}

/// A canvas: its origin, its width and height.
type Canvas = ((f64, f64), (f64, f64));

/// The origin and size of the canvas.
fn canvas(svg: &Tag<'_>) -> Result<Canvas, Fault> {
    let length = |key| {
        let text: &str = svg.get(key)?;
        let digits = text.trim_end_matches(|c: char| c.is_alphabetic());
        numbers(digits)?.first().copied()
    };
    let boxed = svg.get("viewBox").and_then(numbers);
    let canvas = match boxed.as_deref() {
        Some([x, y, width, height]) => Some(((*x, *y), (*width, *height))),
        Some(_) => None,
        None => length("width")
            .zip(length("height"))
            .map(|size| ((0.0, 0.0), size)),
    };
    let right = |(width, height): (f64, f64)| {
        width > 0.0 && height > 0.0 && width / height <= MOST_RATIO && height / width <= MOST_RATIO
    };
    canvas.filter(|(_, size)| right(*size)).ok_or_else(|| {
        Fault::new(
            svg.at,
            told!("the canvas must have a width and a height, neither more than {MOST_RATIO} times the other", MOST_RATIO),
            "write them as in `viewBox=\"0 0 120 60\"`",
        )
    })
}

/// How a tag is drawn, within what is round it.
fn looks(tag: &Tag<'_>, around: &Looks) -> Result<Looks, Fault> {
    if tag.get("transform").is_some() {
        let help = "apply the transform in the drawing program and save again";
        return Err(Fault::new(
            tag.at,
            "a shape that is moved by `transform` is not read",
            help,
        ));
    }
    let styled = |key: &str| {
        let style = tag.get("style")?;
        let mut parts = style.split(';').filter_map(|part| part.split_once(':'));
        parts
            .find(|(name, _)| name.trim() == key)
            .map(|(_, value)| value.trim())
    };
    let of = |key: &str| styled(key).or_else(|| tag.get(key));
    let mut looks = around.clone();
    let ink = |value: &str| {
        let bare: String = value.chars().filter(|c| !c.is_whitespace()).collect();
        let is = |names: &[&str]| names.iter().any(|name| bare.eq_ignore_ascii_case(name));
        if bare == "none" {
            Ok("none")
        } else if is(BLACK) {
            Ok("black")
        } else if is(WHITE) {
            Ok("white")
        } else {
            let message = told!(
                "`{value}` is not printed: sheets are black and white",
                value = shown(value)
            );
            Err(Fault::new(tag.at, message, "write black, white or none"))
        }
    };
    if let Some(fill) = of("fill") {
        looks.fill = ink(fill)?;
    }
    if let Some(stroke) = of("stroke") {
        looks.pen = ink(stroke)? == "black";
    }
    if let Some(width) = of("stroke-width") {
        let digits = width.trim_end_matches(|c: char| c.is_alphabetic());
        looks.width = numbers(digits)
            .and_then(|all| all.first().copied())
            .unwrap_or(1.0)
            .max(0.0);
    }
    Ok(looks)
}

/// Adds a tag's shapes.
fn shape(
    tag: &Tag<'_>,
    origin: (f64, f64),
    looks: &Looks,
    shapes: &mut Vec<DrawnShape>,
) -> Result<(), Fault> {
    let at = |x: f64, y: f64| (x - origin.0, y - origin.1);
    let width = if looks.pen { looks.width } else { 0.0 };
    let number = |key: &str| {
        tag.get(key)
            .and_then(numbers)
            .and_then(|all| all.first().copied())
    };
    let some = |key: &str| number(key).unwrap_or(0.0);
    let fault = |message: Told| {
        Fault::new(
            tag.at,
            message,
            "save the drawing again as plain SVG, all shapes as paths",
        )
    };
    match tag.name {
        "path" => {
            let all = outlines(tag.get("d").unwrap_or_default()).map_err(fault)?;
            let around = all.first().map_or(0.0, turn);
            for outline in all {
                // an outline that goes the other way round is a hole in the first
                let hole = turn(&outline) * around < 0.0 && looks.fill == "black";
                let fill = if hole { "white" } else { looks.fill };
                shapes.push(path(outline, origin, width, fill));
            }
        }
        "rect" => {
            let (x, y, wide, high) = (some("x"), some("y"), some("width"), some("height"));
            let points = vec![
                at(x, y),
                at(x + wide, y),
                at(x + wide, y + high),
                at(x, y + high),
            ];
            shapes.push(line(points, true, width, looks.fill));
        }
        "line" => {
            let points = vec![at(some("x1"), some("y1")), at(some("x2"), some("y2"))];
            shapes.push(line(points, false, width, "none"));
        }
        "polyline" | "polygon" => {
            let all = tag.get("points").and_then(numbers).unwrap_or_default();
            let points = all
                .chunks_exact(2)
                .map(|pair| at(pair[0], pair[1]))
                .collect();
            shapes.push(line(points, tag.name == "polygon", width, looks.fill));
        }
        "circle" | "ellipse" => {
            let radius = number("r");
            let radii = (radius.unwrap_or(some("rx")), radius.unwrap_or(some("ry")));
            shapes.push(DrawnShape::Ellipse {
                centre: at(some("cx"), some("cy")),
                radii,
                width,
                dashed: false,
                fill: looks.fill.to_owned(),
            });
        }
        other => {
            return Err(fault(told!(
                "`<{other}>` is not read in a mark",
                other = shown(other)
            )));
        }
    }
    Ok(())
}

fn line(points: Vec<(f64, f64)>, closed: bool, width: f64, fill: &str) -> DrawnShape {
    DrawnShape::Line {
        points,
        closed,
        width,
        dashed: false,
        fill: fill.to_owned(),
    }
}

fn path(outline: Outline, origin: (f64, f64), width: f64, fill: &str) -> DrawnShape {
    let moved = outline
        .points
        .iter()
        .map(|(x, y)| (x - origin.0, y - origin.1));
    DrawnShape::Curve {
        points: moved.collect(),
        closed: outline.closed || fill != "none",
        width,
        dashed: false,
        fill: fill.to_owned(),
    }
}
