//! The outline, from the headings in document order, and the spots that links
//! lead to.

use std::collections::BTreeMap;

use lopdf::{Document, Object, ObjectId, dictionary, text_string};

use super::super::layout::{Layout, Mark};
use super::super::paint::round;

/// A heading's place.
pub(super) struct Spot {
    pub anchor: String,
    level: u8,
    words: String,
    page: usize,
    x: f32,
    y: f32,
}

impl Spot {
    /// Where a link to it leads.
    pub fn destination(&self, pages: &[ObjectId], height: f32) -> Object {
        Object::Array(vec![
            Object::Reference(pages[self.page]),
            "XYZ".into(),
            Object::Real(round(self.x)),
            Object::Real(round(height - self.y)),
            Object::Null,
        ])
    }
}

/// The headings in reading order.
pub(super) fn spots(layout: &Layout) -> Vec<Spot> {
    let mut found: Vec<(u32, Spot)> = Vec::new();
    for (page, placed) in layout
        .pages
        .iter()
        .enumerate()
        .flat_map(|(i, page)| page.items.iter().map(move |placed| (i, placed)))
    {
        if let Mark::Spot {
            anchor,
            level,
            words,
        } = &placed.mark
        {
            found.push((
                placed.order,
                Spot {
                    anchor: anchor.to_string(),
                    level: *level,
                    words: words.to_string(),
                    page,
                    x: placed.x,
                    y: placed.y,
                },
            ));
        }
    }
    found.sort_by_key(|(order, _)| *order);
    found.into_iter().map(|(_, spot)| spot).collect()
}

/// Adds the outline; a document of one heading has none.
pub(super) fn add(
    document: &mut Document,
    pages: &[ObjectId],
    spots: &[Spot],
    height: f32,
) -> Option<ObjectId> {
    if spots.len() < 2 {
        return None;
    }
    let root = document.new_object_id();
    let ids: Vec<ObjectId> = spots.iter().map(|_| document.new_object_id()).collect();
    // parents: the nearest heading before of a lower level
    let mut parents: Vec<Option<usize>> = Vec::with_capacity(spots.len());
    let mut open: Vec<usize> = Vec::new();
    for (i, spot) in spots.iter().enumerate() {
        while open
            .last()
            .is_some_and(|&before| spots[before].level >= spot.level)
        {
            open.pop();
        }
        parents.push(open.last().copied());
        open.push(i);
    }
    let mut children: BTreeMap<Option<usize>, Vec<usize>> = BTreeMap::new();
    for (i, parent) in parents.iter().enumerate() {
        children.entry(*parent).or_default().push(i);
    }
    for (parent, kids) in &children {
        for (place, &i) in kids.iter().enumerate() {
            let mut entry = dictionary! {
                "Title" => text_string(&spots[i].words),
                "Parent" => parent.map_or(root, |p| ids[p]),
                "Dest" => spots[i].destination(pages, height),
            };
            if let Some(&before) = place.checked_sub(1).and_then(|p| kids.get(p)) {
                entry.set("Prev", ids[before]);
            }
            if let Some(&next) = kids.get(place + 1) {
                entry.set("Next", ids[next]);
            }
            if let Some(own) = children.get(&Some(i)) {
                entry.set("First", ids[own[0]]);
                entry.set("Last", ids[own[own.len() - 1]]);
                entry.set("Count", descendants(i, &children));
            }
            document.set_object(ids[i], entry);
        }
    }
    let top = children.get(&None)?;
    document.set_object(
        root,
        dictionary! {
            "Type" => "Outlines",
            "First" => ids[top[0]],
            "Last" => ids[top[top.len() - 1]],
            "Count" => spots.len() as i64,
        },
    );
    Some(root)
}

/// How many entries stand below one.
fn descendants(of: usize, children: &BTreeMap<Option<usize>, Vec<usize>>) -> i64 {
    children.get(&Some(of)).map_or(0, |kids| {
        kids.iter().map(|&kid| 1 + descendants(kid, children)).sum()
    })
}
