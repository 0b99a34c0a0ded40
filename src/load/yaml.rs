//! Text to tree, by the one parser, with every scalar kept as typed.
//!
//! The parser decides by itself that `0310` might be a number, so the tree is
//! read twice: first its shape, then, now that it is known where the scalars
//! are, each of them as text. A scalar's place comes from the parser too: the
//! reader of a scalar stores the text and refuses it, and the parser writes
//! line and column into the refusal. The parser has stepped past the scalar by
//! then, so that reading goes on.

use super::node::{Entry, Node, Spot, Value, folded_key};
use super::wording::{line_and_column, reworded};
use crate::diag::{Problem, Source, told};
use serde::de::{self, DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

/// More open brackets than this are refused unread: the parser's time grows
/// with their square.
const MOST_BRACKETS: usize = 100;

/// More parts than this mean that a file repeats itself by anchors.
const MOST_NODES: usize = 200_000;

/// Reads a text.
///
/// # Errors
/// The first problem of shape: an empty file, deep brackets, a slip of syntax,
/// a key twice, an anchor that unfolds without end.
pub fn parse(source: &Source) -> Result<Node, Problem> {
    if source.text.trim().is_empty() {
        return Err(empty(source));
    }
    if let Some(problem) = super::foreign::foreign(source) {
        return Err(problem);
    }
    no_control_characters(source)?;
    no_deep_brackets(source)?;
    no_long_runs(source)?;

    let count = Cell::new(0);
    let shape = ShapeSeed(&count)
        .deserialize(serde_yaml::Deserializer::from_str(&source.text))
        .map_err(|error| reworded(&error, source))?;
    let tree = TreeSeed {
        shape: &shape,
        source,
        path: Arc::from(""),
    }
    .deserialize(serde_yaml::Deserializer::from_str(&source.text))
    .map_err(|error| reworded(&error, source))?;
    if tree.value == Value::Nothing {
        return Err(empty(source));
    }
    let mut root = Node {
        at: Spot::top(source),
        ..tree
    };
    settle(&mut root, &Spot::top(source));
    no_equal_keys(&root)?;
    Ok(root)
}

fn empty(source: &Source) -> Problem {
    Problem::error(
        "file.empty",
        "the file is empty",
        "write at least a title; `leeside new` starts a trip file",
    )
    .in_file(source.name.clone())
}

fn no_control_characters(source: &Source) -> Result<(), Problem> {
    let bad = source
        .text
        .char_indices()
        .find(|(_, c)| c.is_control() && !matches!(c, '\n' | '\r' | '\t' | '\u{85}'));
    let turned = source
        .text
        .char_indices()
        .find(|(_, c)| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'));
    let private = source.text.char_indices().find(|(_, c)| is_private(*c));
    if let (None, Some((byte, c))) = (bad, private) {
        return Err(Spot::of_byte(source, byte).point(Problem::error(
            "file.control",
            told!(
                "there is a sign (U+{c}) that has no meaning of its own",
                c = format!("{:04X}", c as u32)
            ),
            "delete it and type the words again by hand",
        )));
    }
    match bad {
        None => match turned {
            None => Ok(()),
            Some((byte, c)) => Err(Spot::of_byte(source, byte).point(Problem::error(
                "file.control",
                told!(
                    "there is an invisible mark (U+{c}) that turns the order of letters round",
                    c = format!("{:04X}", c as u32)
                ),
                "delete it and the letters beside it, and type the letters again",
            ))),
        },
        Some((byte, c)) => Err(Spot::of_byte(source, byte).point(Problem::error(
            "file.control",
            told!(
                "there is a control character (U+{c}) in the file",
                c = format!("{:04X}", c as u32)
            ),
            "remove it; a file is plain text",
        ))),
    }
}

/// The signs by which values keep their origin on the way to a sheet: no file may hold them.
fn is_private(sign: char) -> bool {
    matches!(sign, '\u{e000}'..='\u{e01f}')
}

fn no_deep_brackets(source: &Source) -> Result<(), Problem> {
    let mut open = 0_usize;
    for (byte, c) in source.text.bytes().enumerate() {
        match c {
            b'[' | b'{' => open += 1,
            b']' | b'}' => open = open.saturating_sub(1),
            _ => {}
        }
        if open > MOST_BRACKETS {
            return Err(Spot::of_byte(source, byte).point(Problem::error(
                "yaml.brackets",
                told!("more than {MOST_BRACKETS} brackets are open here", MOST_BRACKETS),
                "brackets are not needed: write one key a line, and a list with `- ` before each item",
            )));
        }
    }
    Ok(())
}

/// The parser keeps a level for every `- ` and `? ` at the start of a line.
fn no_long_runs(source: &Source) -> Result<(), Problem> {
    for (index, line) in source.text.lines().enumerate() {
        let marks = line
            .split(' ')
            .take_while(|part| matches!(*part, "-" | "?" | ""))
            .filter(|part| !part.is_empty())
            .count();
        if marks > MOST_BRACKETS {
            let spot = Spot {
                source: source.clone(),
                line: index + 1,
                column: 1,
            };
            return Err(spot.point(Problem::error(
                "yaml.deep",
                "this line opens more than a hundred lists in each other",
                "write one `- ` before each item of a list",
            )));
        }
    }
    Ok(())
}

fn no_equal_keys(node: &Node) -> Result<(), Problem> {
    match &node.value {
        Value::Map(entries) => {
            let mut seen: BTreeMap<String, usize> = BTreeMap::new();
            for entry in entries {
                if let Some(line) = seen.insert(folded_key(&entry.key), entry.at.line) {
                    let mut problem = entry.at.problem(Problem::error(
                        "key.twice",
                        told!(
                            "`{key}` is written twice; it stands on line {line} already",
                            key = entry.key,
                            line
                        ),
                        "keep one of the two",
                    ));
                    problem.path = Some(entry.node.path.to_string());
                    return Err(problem);
                }
                no_equal_keys(&entry.node)?;
            }
            Ok(())
        }
        Value::List(items) => items.iter().try_for_each(no_equal_keys),
        Value::Text(_) | Value::Nothing => Ok(()),
    }
}

/// The first pass: what is a mapping, a list, a scalar.
enum Shape {
    Map(Vec<Shape>),
    List(Vec<Shape>),
    Scalar,
    Nothing,
}

#[derive(Clone, Copy)]
struct ShapeSeed<'a>(&'a Cell<usize>);

impl<'de> DeserializeSeed<'de> for ShapeSeed<'_> {
    type Value = Shape;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Shape, D::Error> {
        self.0.set(self.0.get() + 1);
        if self.0.get() > MOST_NODES {
            return Err(de::Error::custom(TOO_MANY));
        }
        deserializer.deserialize_any(self)
    }
}

pub(super) const TOO_MANY: &str = "too many parts";
pub(super) const TAGGED: &str = "a tag";

impl<'de> Visitor<'de> for ShapeSeed<'_> {
    type Value = Shape;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Shape, A::Error> {
        let mut shapes = Vec::new();
        while map.next_key_seed(KeySeed)?.is_some() {
            shapes.push(map.next_value_seed(self)?);
        }
        Ok(Shape::Map(shapes))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Shape, A::Error> {
        let mut shapes = Vec::new();
        while let Some(shape) = list.next_element_seed(self)? {
            shapes.push(shape);
        }
        Ok(Shape::List(shapes))
    }
    fn visit_enum<A: de::EnumAccess<'de>>(self, _: A) -> Result<Shape, A::Error> {
        Err(de::Error::custom(TAGGED))
    }
    fn visit_bool<E>(self, _: bool) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_i64<E>(self, _: i64) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_u64<E>(self, _: u64) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_i128<E>(self, _: i128) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_u128<E>(self, _: u128) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_f64<E>(self, _: f64) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_str<E>(self, _: &str) -> Result<Shape, E> {
        Ok(Shape::Scalar)
    }
    fn visit_unit<E>(self) -> Result<Shape, E> {
        Ok(Shape::Nothing)
    }
    fn visit_none<E>(self) -> Result<Shape, E> {
        Ok(Shape::Nothing)
    }
}

/// A key in the first pass: it must be a scalar.
struct KeySeed;

impl<'de> DeserializeSeed<'de> for KeySeed {
    type Value = ();
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for KeySeed {
    type Value = ();
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }
    fn visit_str<E>(self, _: &str) -> Result<(), E> {
        Ok(())
    }
}

/// A scalar in the second pass: its text, with line and column.
struct ScalarSeed;

impl<'de> DeserializeSeed<'de> for ScalarSeed {
    type Value = (String, usize, usize);
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        let stored = RefCell::new(None);
        match deserializer.deserialize_str(Storing(&stored)) {
            Ok(()) => Err(de::Error::custom("bug: a scalar was not refused")),
            Err(error) => match stored.take() {
                Some(text) => {
                    let (line, column) = line_and_column(&error.to_string());
                    Ok((text, line, column))
                }
                None => Err(error),
            },
        }
    }
}

struct Storing<'a>(&'a RefCell<Option<String>>);

impl Visitor<'_> for Storing<'_> {
    type Value = ();
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<(), E> {
        *self.0.borrow_mut() = Some(text.to_owned());
        Err(de::Error::custom(""))
    }
}

/// The second pass.
struct TreeSeed<'a> {
    shape: &'a Shape,
    source: &'a Source,
    path: Arc<str>,
}

impl TreeSeed<'_> {
    fn spot(&self, line: usize, column: usize) -> Spot {
        Spot {
            source: self.source.clone(),
            line,
            column,
        }
    }
}

impl<'de> DeserializeSeed<'de> for TreeSeed<'_> {
    type Value = Node;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Node, D::Error> {
        match self.shape {
            Shape::Map(_) | Shape::List(_) => deserializer.deserialize_any(self),
            Shape::Scalar => {
                let (text, line, column) = ScalarSeed.deserialize(deserializer)?;
                Ok(Node {
                    // an escape in quotes can spell what a file may not hold
                    value: Value::Text(text.replace(is_private, "")),
                    at: self.spot(line, column),
                    path: self.path,
                })
            }
            Shape::Nothing => {
                deserializer.deserialize_ignored_any(IgnoredAny)?;
                // the key, or the list, knows better where it is
                Ok(Node {
                    value: Value::Nothing,
                    at: self.spot(0, 0),
                    path: self.path,
                })
            }
        }
    }
}

impl<'de> Visitor<'de> for TreeSeed<'_> {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Node, A::Error> {
        let Shape::Map(shapes) = self.shape else {
            return Err(de::Error::custom("bug: the two readings differ"));
        };
        let mut entries = Vec::with_capacity(shapes.len());
        for shape in shapes {
            let Some((key, line, column)) = map.next_key_seed(ScalarSeed)? else {
                return Err(de::Error::custom("bug: the two readings differ"));
            };
            let path = if self.path.is_empty() {
                Arc::from(key.as_str())
            } else {
                Arc::from(format!("{}.{key}", self.path))
            };
            let at = self.spot(line, column);
            let mut node = map.next_value_seed(TreeSeed {
                shape,
                source: self.source,
                path,
            })?;
            if !matches!(node.value, Value::Text(_)) {
                node.at = at.clone();
            }
            entries.push(Entry { key, at, node });
        }
        // the end of the mapping has to be read too
        if map.next_key_seed(KeySeed)?.is_some() {
            return Err(de::Error::custom("bug: the two readings differ"));
        }
        let at = entries
            .first()
            .map_or_else(|| self.spot(0, 0), |entry| entry.at.clone());
        Ok(Node {
            value: Value::Map(entries),
            at,
            path: self.path,
        })
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node, A::Error> {
        let Shape::List(shapes) = self.shape else {
            return Err(de::Error::custom("bug: the two readings differ"));
        };
        let mut items: Vec<Node> = Vec::with_capacity(shapes.len());
        for (index, shape) in shapes.iter().enumerate() {
            let item = list.next_element_seed(TreeSeed {
                shape,
                source: self.source,
                path: Arc::from(format!("{}[{index}]", self.path)),
            })?;
            items.push(item.ok_or_else(|| de::Error::custom("bug: the two readings differ"))?);
        }
        if list.next_element::<IgnoredAny>()?.is_some() {
            return Err(de::Error::custom("bug: the two readings differ"));
        }
        let known = items.iter().find(|item| item.at.line > 0);
        let at = known.map_or_else(|| self.spot(0, 0), |item| item.at.clone());
        Ok(Node {
            value: Value::List(items),
            at,
            path: self.path,
        })
    }
}

/// Gives parts without a place of their own (nothing, an empty list or block)
/// the place of what holds them.
fn settle(node: &mut Node, holder: &Spot) {
    if node.at.line == 0 {
        node.at = holder.clone();
    }
    let at = node.at.clone();
    match &mut node.value {
        Value::Map(entries) => {
            for entry in entries {
                settle(&mut entry.node, &entry.at);
            }
        }
        Value::List(items) => {
            for item in items {
                settle(item, &at);
            }
        }
        Value::Text(_) | Value::Nothing => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(text: &str) -> Source {
        Source {
            name: Arc::from("t.yaml"),
            text: Arc::from(text),
        }
    }

    #[test]
    fn scalars_come_through_as_typed() {
        let text = "a: yes\nb: 9:00\nc: 0310\nd: 2027-05-14\ne: 1.50\nf: '8'\ng: ~\nh: 0x1F\ni: |\n  two\n  lines\n";
        let root = parse(&source(text)).unwrap();
        let typed: Vec<_> = root
            .entries()
            .iter()
            .map(|entry| entry.node.text())
            .collect();
        let expected = [
            Some("yes"),
            Some("9:00"),
            Some("0310"),
            Some("2027-05-14"),
            Some("1.50"),
            Some("8"),
            None,
            Some("0x1F"),
            Some("two\nlines\n"),
        ];
        assert_eq!(typed, expected);
    }

    #[test]
    fn every_node_knows_its_place() {
        let text = "title: A\r\ncamps:\r\n  - name: Ōtaki flat\r\n    elevation:  8200 ft # high\r\n  - name: \"B\"\r\n    rules:\r\n      greywater:\r\n";
        let root = parse(&source(text)).unwrap();
        let camps = root.get("camps").unwrap();
        assert_eq!((camps.at.line, camps.at.column), (2, 1));
        let Value::List(items) = &camps.value else {
            panic!("a list")
        };
        let elevation = items[0].get("elevation").unwrap();
        assert_eq!((elevation.at.line, elevation.at.column), (4, 17));
        assert_eq!(&*elevation.path, "camps[0].elevation");
        let place = elevation.at.place();
        assert_eq!(
            (place.width, place.text.as_str()),
            (7, "    elevation:  8200 ft # high")
        );
        let nothing = items[1].get("rules").unwrap().get("greywater").unwrap();
        assert_eq!((nothing.at.line, nothing.at.column), (7, 7));
        assert_eq!(nothing.value, Value::Nothing);
        let root = parse(&source("a:\n  - {}\n  - [[]]\n  -\nb: [[], x]\n")).unwrap();
        let Value::List(items) = &root.get("a").unwrap().value else {
            panic!("a list")
        };
        assert!(items.iter().all(|item| item.at.line == 1));
    }

    #[test]
    fn equal_keys_are_refused_where_the_second_stands() {
        let problem = parse(&source("a: 1\nb:\n  c-d: 1\n  c d: 2\n")).unwrap_err();
        assert_eq!(problem.code, "key.twice");
        let place = problem.place.unwrap();
        assert_eq!((place.line, place.column), (4, 3));
    }

    #[test]
    fn traps_are_refused() {
        let code = |text: &str| parse(&source(text)).unwrap_err().code;
        assert_eq!(code(&"[".repeat(1_000_000)), "yaml.brackets");
        assert_eq!(
            code(&format!("a: {}", "[".repeat(1_000_000))),
            "yaml.brackets"
        );
        let mut bomb = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for level in 1..9 {
            let before = format!("*a{}, ", level - 1).repeat(10);
            bomb += &format!("a{level}: &a{level} [{}]\n", before.trim_end_matches(", "));
        }
        assert_eq!(code(&bomb), "yaml.anchors");
        assert_eq!(code("a:\n\tb: 1\n"), "yaml.tab");
        assert_eq!(code("a: !x 1\n"), "yaml.tag");
        assert_eq!(code("a: b: c\n"), "yaml.colon");
        assert_eq!(code("a: 1\n---\nb: 2\n"), "yaml.two");
        assert_eq!(code("a: \"open\n"), "yaml.open");
        assert_eq!(code("a: 1\nb: \u{7}\n"), "file.control");
        assert_eq!(code("  \n"), "file.empty");
        assert_eq!(code("? [a, b]\n: 1\n"), "yaml.key");
        assert_eq!(code(&"- ".repeat(400)), "yaml.deep");
    }
}
