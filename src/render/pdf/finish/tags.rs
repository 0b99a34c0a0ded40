//! The structure tree: every element with its text, fields and links in reading
//! order, and the way back from the pages to it.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object, ObjectId, dictionary, text_string};

use super::super::layout::{Element, ElementId, Layout, Mark, Numbering, Placed, Role};
use super::super::paint::{Marked, role_name, round};
use super::annotations::{Annotation, Annotations};

/// What an element holds.
enum Kid {
    Element(ElementId),
    Text { page: usize, number: usize },
    Annotation { page: usize, id: ObjectId },
}

/// Adds the structure tree and gives its root.
pub(super) fn add(
    document: &mut Document,
    pages: &[ObjectId],
    layout: &Layout,
    marked: &[Vec<Marked>],
    annotations: &Annotations,
) -> Result<ObjectId, lopdf::Error> {
    let elements = &layout.tree.elements;
    let kids = gather(elements, marked, &annotations.all);
    let ids: Vec<Option<ObjectId>> = kids
        .iter()
        .map(|kids| kids.is_some().then(|| document.new_object_id()))
        .collect();
    let root = document.new_object_id();
    let figures = figures(layout);
    let homes = homes(elements, &kids);
    for (element, kids) in kids.iter().enumerate() {
        let (Some(kids), Some(id)) = (kids, ids[element]) else {
            continue;
        };
        let mut entry = describe(&elements[element], figures.get(&element).copied());
        let parent = elements[element].parent.and_then(|parent| ids[parent]);
        entry.set("P", parent.unwrap_or(root));
        // readers look a table up by the page that it starts on
        if elements[element].role == Role::Table
            && let Some(home) = homes[element]
        {
            entry.set("Pg", pages[home]);
        }
        hold(&mut entry, kids, pages, &ids);
        document.set_object(id, entry);
    }
    let parents = parent_tree(document, marked, &annotations.all, &ids);
    let mut entry = dictionary! {
        "Type" => "StructTreeRoot",
        "ParentTree" => parents,
        "ParentTreeNextKey" => (pages.len() + annotations.all.len()) as i64,
    };
    if let Some(Some(first)) = ids.first() {
        entry.set("K", *first);
    }
    document.set_object(root, entry);
    Ok(root)
}

/// The kids of each element in reading order; nothing for an element that
/// holds nothing and need not stand for itself.
fn gather(
    elements: &[Element],
    marked: &[Vec<Marked>],
    annotations: &[Annotation],
) -> Vec<Option<Vec<Kid>>> {
    let mut kids: Vec<Vec<(u32, Kid)>> = elements.iter().map(|_| Vec::new()).collect();
    for (page, stretches) in marked.iter().enumerate() {
        for (number, stretch) in stretches.iter().enumerate() {
            kids[stretch.element].push((stretch.order, Kid::Text { page, number }));
        }
    }
    for annotation in annotations {
        let kid = Kid::Annotation {
            page: annotation.page,
            id: annotation.id,
        };
        kids[annotation.element].push((annotation.order, kid));
    }
    let mut gathered: Vec<Option<Vec<Kid>>> = elements.iter().map(|_| None).collect();
    // from the last to the first: children come after their parents
    for (id, element) in elements.iter().enumerate().rev() {
        let stands = matches!(
            element.role,
            Role::Document | Role::Cell | Role::HeadCell | Role::RowHead | Role::Body
        );
        if kids[id].is_empty() && !stands {
            continue;
        }
        let mut own = std::mem::take(&mut kids[id]);
        // the sort keeps what has one place in the order as it came: by page
        own.sort_by_key(|(order, _)| *order);
        gathered[id] = Some(own.into_iter().map(|(_, kid)| kid).collect());
        if let Some(parent) = element.parent {
            kids[parent].push((element.order, Kid::Element(id)));
        }
    }
    gathered
}

/// The first page of each element, its descendants' included.
fn homes(elements: &[Element], kids: &[Option<Vec<Kid>>]) -> Vec<Option<usize>> {
    let mut homes: Vec<Option<usize>> = vec![None; elements.len()];
    for id in (0..elements.len()).rev() {
        let own = kids[id].iter().flatten().filter_map(|kid| match kid {
            Kid::Text { page, .. } | Kid::Annotation { page, .. } => Some(*page),
            Kid::Element(_) => None,
        });
        let first = own.chain(homes[id]).min();
        homes[id] = first;
        if let (Some(parent), Some(page)) = (elements[id].parent, first) {
            homes[parent] = Some(homes[parent].map_or(page, |before| before.min(page)));
        }
    }
    homes
}

/// An element's entries, without its kids.
fn describe(element: &Element, figure: Option<[f32; 4]>) -> Dictionary {
    let mut entry = dictionary! { "S" => role_name(element.role) };
    if let Some(language) = &element.language {
        entry.set("Lang", text_string(language));
    }
    match element.role {
        Role::List(numbering) => {
            let name = match numbering {
                Numbering::None => "None",
                Numbering::Disc => "Disc",
                Numbering::Circle => "Circle",
                Numbering::Decimal => "Decimal",
            };
            entry.set("A", dictionary! { "O" => "List", "ListNumbering" => name });
        }
        Role::HeadCell => {
            entry.set("A", dictionary! { "O" => "Table", "Scope" => "Column" });
        }
        Role::RowHead => {
            entry.set("A", dictionary! { "O" => "Table", "Scope" => "Row" });
        }
        Role::Figure => {
            entry.set(
                "Alt",
                text_string(element.alt.as_deref().unwrap_or("Figure")),
            );
            if let Some(corners) = figure {
                let corners: Vec<Object> = corners
                    .into_iter()
                    .map(|value| Object::Real(round(value)))
                    .collect();
                entry.set(
                    "A",
                    dictionary! { "O" => "Layout", "BBox" => corners, "Placement" => "Block" },
                );
            }
        }
        _ => {}
    }
    entry
}

/// Sets an element's kids and the page that most of them need not name.
fn hold(entry: &mut Dictionary, kids: &[Kid], pages: &[ObjectId], ids: &[Option<ObjectId>]) {
    let home = kids.iter().find_map(|kid| match kid {
        Kid::Text { page, .. } | Kid::Annotation { page, .. } => Some(*page),
        Kid::Element(_) => None,
    });
    if let Some(home) = home {
        entry.set("Pg", pages[home]);
    }
    let mut list: Vec<Object> = Vec::with_capacity(kids.len());
    for kid in kids {
        match kid {
            Kid::Element(element) => {
                list.extend(ids[*element].map(Object::Reference));
            }
            Kid::Text { page, number } if Some(*page) == home => {
                list.push(Object::Integer(*number as i64));
            }
            Kid::Text { page, number } => list.push(Object::Dictionary(dictionary! {
                "Type" => "MCR",
                "Pg" => pages[*page],
                "MCID" => *number as i64,
            })),
            Kid::Annotation { page, id } => list.push(Object::Dictionary(dictionary! {
                "Type" => "OBJR",
                "Pg" => pages[*page],
                "Obj" => *id,
            })),
        }
    }
    match list.len() {
        0 => {}
        1 => entry.set("K", list.swap_remove(0)),
        _ => entry.set("K", list),
    }
}

/// From marked stretches and annotations back to their elements.
fn parent_tree(
    document: &mut Document,
    marked: &[Vec<Marked>],
    annotations: &[Annotation],
    ids: &[Option<ObjectId>],
) -> ObjectId {
    let reference = |element: ElementId| ids[element].map_or(Object::Null, Object::Reference);
    let mut numbers: Vec<Object> = Vec::new();
    for (page, stretches) in marked.iter().enumerate() {
        numbers.push(Object::Integer(page as i64));
        let parents = stretches.iter().map(|s| reference(s.element)).collect();
        numbers.push(Object::Array(parents));
    }
    for (i, annotation) in annotations.iter().enumerate() {
        numbers.push(Object::Integer((marked.len() + i) as i64));
        numbers.push(reference(annotation.element));
    }
    document.add_object(dictionary! { "Nums" => numbers })
}

/// The box round each figure, from the bottom left of its page.
fn figures(layout: &Layout) -> BTreeMap<ElementId, [f32; 4]> {
    let mut boxes: BTreeMap<ElementId, [f32; 4]> = BTreeMap::new();
    for placed in layout.pages.iter().flat_map(|page| &page.items) {
        let Some(element) = placed.element else {
            continue;
        };
        if layout.tree.elements[element].role != Role::Figure {
            continue;
        }
        let corners = boxes
            .entry(element)
            .or_insert([f32::MAX, f32::MAX, f32::MIN, f32::MIN]);
        for (x, y) in outline(placed) {
            let y = layout.height - y;
            corners[0] = corners[0].min(x);
            corners[1] = corners[1].min(y);
            corners[2] = corners[2].max(x);
            corners[3] = corners[3].max(y);
        }
    }
    boxes
}

/// Points that a placed thing reaches to.
fn outline(placed: &Placed) -> Vec<(f32, f32)> {
    let (x, y) = (placed.x, placed.y);
    match &placed.mark {
        Mark::Path(path) => path
            .points
            .iter()
            .map(|(px, py, _)| (x + px, y + py))
            .collect(),
        Mark::Text { size, pieces } => {
            let width = pieces.last().map_or(0.0, |piece| piece.x + piece.width);
            vec![(x, y - size), (x + width, y + 0.3 * size)]
        }
        _ => Vec::new(),
    }
}
