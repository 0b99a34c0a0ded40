//! `extends`: a block laid over another, key by key.

use super::node::{Entry, Node, Value, folded_key};

/// A node laid over another: mappings merge by key, in the order of the one
/// beneath and then what is new; a key with nothing after it, or with the word
/// `remove`, takes the key away; everything else replaces. Each part keeps the
/// place where it was written.
#[must_use]
pub fn laid_over(beneath: &Node, over: &Node) -> Node {
    let (Value::Map(below), Value::Map(above)) = (&beneath.value, &over.value) else {
        return over.clone();
    };
    let find = |entries: &[Entry], key: &str| {
        entries
            .iter()
            .position(|entry| folded_key(&entry.key) == folded_key(key))
    };
    let mut entries = Vec::new();
    for entry in below {
        match find(above, &entry.key).map(|at| &above[at]) {
            None => entries.push(entry.clone()),
            Some(over) if removes(&over.node) => {}
            Some(over) => entries.push(Entry {
                key: entry.key.clone(),
                at: over.at.clone(),
                node: laid_over(&entry.node, &over.node),
            }),
        }
    }
    for entry in above {
        if find(below, &entry.key).is_none() && !removes(&entry.node) {
            entries.push(entry.clone());
        }
    }
    Node {
        value: Value::Map(entries),
        at: over.at.clone(),
        path: over.path.clone(),
    }
}

fn removes(node: &Node) -> bool {
    node.value == Value::Nothing || node.text() == Some("remove")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load;

    #[test]
    fn merges_by_key_and_takes_away() {
        let below = load::text("a", "a: 1\nb:\n  c: 1\n  d: 2\ne: [1, 2]\n").unwrap();
        let over = load::text("b", "b:\n  d: 3\n  f: 4\na: remove\ne: [3]\n").unwrap();
        let merged = laid_over(&below.root, &over.root);
        let expected = load::text("c", "b:\n  c: 1\n  d: 3\n  f: 4\ne: [3]\n").unwrap();
        assert!(same(&merged, &expected.root));
        assert_eq!(
            &*merged.get("b").unwrap().get("d").unwrap().at.source.name,
            "b"
        );
        assert_eq!(
            &*merged.get("b").unwrap().get("c").unwrap().at.source.name,
            "a"
        );
    }

    fn same(a: &Node, b: &Node) -> bool {
        match (&a.value, &b.value) {
            (Value::Map(a), Value::Map(b)) => {
                a.len() == b.len()
                    && a.iter()
                        .zip(b)
                        .all(|(a, b)| a.key == b.key && same(&a.node, &b.node))
            }
            (Value::List(a), Value::List(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
            }
            (a, b) => a == b,
        }
    }
}
