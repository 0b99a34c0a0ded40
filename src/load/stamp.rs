//! A short mark of what a file says, so that an overlay can tell when the file
//! that it was written over has changed.

use super::node::{Node, Value, folded_key};
use crate::diag::{Problem, Told, told};
use sha2::{Digest as _, Sha256};

/// Parts that a warning names before it says how many more there are.
const MOST_NAMED: usize = 5;
/// Days of reading again change nothing that an overlay rests on.
const NOT_SAID: &[&str] = &["reviewed", "review_by"];

/// Eight digits in two groups, such as `4f2a-91c3`: the start of the SHA-256
/// (FIPS 180-4) of keys and values. How lines are broken and what stands in
/// comments does not count, nor do the days of review.
#[must_use]
pub fn stamp(root: &Node) -> String {
    let mut hash = Sha256::new();
    feed(root, true, &mut hash);
    let digest = hash.finalize();
    format!(
        "{:02x}{:02x}-{:02x}{:02x}",
        digest[0], digest[1], digest[2], digest[3]
    )
}

fn feed(node: &Node, top: bool, hash: &mut Sha256) {
    match &node.value {
        Value::Map(entries) => {
            hash.update(b"{");
            for entry in entries {
                let key = folded_key(&entry.key);
                if top && NOT_SAID.contains(&key.as_str()) {
                    continue;
                }
                hash.update(key.as_bytes());
                hash.update(b"\x1f");
                feed(&entry.node, false, hash);
            }
            hash.update(b"}");
        }
        Value::List(items) => {
            hash.update(b"[");
            for item in items {
                feed(item, false, hash);
            }
            hash.update(b"]");
        }
        Value::Text(text) => {
            for word in text.split_whitespace() {
                hash.update(word.as_bytes());
                hash.update(b" ");
            }
            hash.update(b"\x1e");
        }
        Value::Nothing => hash.update(b"\x1d"),
    }
}

/// What there is to say of an overlay's `base` beside the file it stands on.
pub(super) fn held_against(root: &Node, name: &str, base: &Node, path: &str) -> Option<Problem> {
    let parts = edited(root, base);
    if parts.is_empty() {
        // what only adds to a file does not rest on what that says
        return None;
    }
    let (now, edited) = (stamp(base), named(&parts));
    match root.get("base") {
        Some(node) if node.text().map(str::trim) == Some(now.as_str()) => None,
        Some(node) => Some(node.problem(Problem::warning(
            "content.base",
            told!("`{name}` is not what it was when this was written over it", name),
            told!("run `leeside unpack DIR` and read `DIR/content/{path}` beside what you changed ({edited}); then write `base: {now}`", path, edited, now),
        ))),
        None => root.get("extends").map(|node| {
            node.problem(Problem::warning(
                "content.base",
                told!("nothing will tell you when `{name}` changes below your edit", name),
                told!("write `base: {now}` on the next line: it is the mark of `{name}` as it is today", now, name),
            ))
        }),
    }
}

/// The key paths of the values of a file that an overlay changes or takes away.
fn edited(over: &Node, base: &Node) -> Vec<String> {
    let mut found = Vec::new();
    for entry in over.entries() {
        let Some(below) = base.get(&entry.key) else {
            continue;
        };
        let both = [&entry.node, below]
            .iter()
            .all(|node| matches!(node.value, Value::Map(_)));
        if both {
            found.extend(edited(&entry.node, below));
        } else {
            found.push(entry.node.path.to_string());
        }
    }
    found
}

fn named(parts: &[String]) -> Told {
    let words = parts
        .iter()
        .take(MOST_NAMED)
        .map(|part| format!("`{part}`"));
    let mut words: Vec<Told> = words.map(Told::as_written).collect();
    if parts.len() > MOST_NAMED {
        words.push(told!("{more} more", more = parts.len() - MOST_NAMED));
    }
    Told::list(words, ", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> String {
        stamp(&crate::load::text("t", text).unwrap().root)
    }

    #[test]
    fn changes_with_what_is_said_and_not_with_how_it_is_laid_out() {
        let first = of("title: A\ntext: |\n  One two\n  three.\n");
        assert_eq!(first.len(), 9);
        assert_eq!(
            first,
            of("# a word\ntitle: \"A\"\ntext: |\n  One\n  two three.\nreviewed: 2027-01-01\n")
        );
        for other in [
            "title: B\ntext: |\n  One two\n  three.\n",
            "title: A\ntext: |\n  One two\n  four.\n",
            "title: A\n",
            "title: A\ntext: |\n  One two\n  three.\nfacts:\n  x: 1\n",
        ] {
            assert_ne!(first, of(other), "{other}");
        }
    }

    #[test]
    fn names_what_an_overlay_changes_and_not_what_it_adds() {
        let read = |text| crate::load::text("t", text).unwrap().root;
        let base = read("text: a\ncautions:\n  hot:\n    avoid: b\n  cold:\n    avoid: c\n");
        let over = read(
            "extends: a\nbase: 0\ntext: x\nnew: z\ncautions:\n  hot:\n    avoid: y\n    more: z\n  cold: remove\n",
        );
        assert_eq!(
            named(&edited(&over, &base)),
            "`text`, `cautions.hot.avoid`, `cautions.cold`"
        );
        let adds = read("extends: a\nnew: z\n");
        assert_eq!(held_against(&adds, "a", &base, "a.yaml"), None);
        assert!(held_against(&over, "a", &base, "a.yaml").is_some());
        let marked = read(&format!("extends: a\nbase: {}\ntext: x\n", stamp(&base)));
        assert_eq!(held_against(&marked, "a", &base, "a.yaml"), None);
    }
}
