//! A row laid over the trip file that it stands on.

use crate::diag::Problem;
use crate::load::{Entry, Node, Spot, Value, folded_key};
use std::sync::Arc;

/// A step of a key path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// A key, or the name of an item of a list.
    Key(String),
    /// An item of a list, counted from 0.
    Index(usize),
}

/// `camps[0].elevation` or `camps.Tarn bench.elevation` as steps; none if it is no key path.
pub(super) fn steps(path: &str) -> Option<Vec<Step>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (key, mut rest) = part.find('[').map_or((part, ""), |at| part.split_at(at));
        if key.trim().is_empty() {
            return None;
        }
        steps.push(Step::Key(key.trim().to_owned()));
        while let Some(inside) = rest.strip_prefix('[') {
            let (number, after) = inside.split_once(']')?;
            steps.push(Step::Index(number.trim().parse().ok()?));
            rest = after;
        }
        if !rest.is_empty() {
            return None;
        }
    }
    Some(steps)
}

/// Puts a value at a key path, making what is missing on the way.
pub(super) fn put(
    root: &mut Node,
    path: &str,
    value: Value,
    at: &Spot,
) -> Result<(), Box<Problem>> {
    let steps = steps(path).unwrap_or_default();
    put_below(root, &steps, value, at, String::new())
}

fn put_below(
    node: &mut Node,
    steps: &[Step],
    value: Value,
    at: &Spot,
    path: String,
) -> Result<(), Box<Problem>> {
    let Some((step, rest)) = steps.split_first() else {
        node.value = value;
        node.at = at.clone();
        node.path = Arc::from(path);
        return Ok(());
    };
    match step {
        Step::Key(name) if matches!(node.value, Value::List(_)) => {
            let index = named(node, name).map_err(|names| {
                let help = if names.is_empty() {
                    "count them from 0 instead: `camps[0].nights`".to_owned()
                } else {
                    format!("there are {}", names.join(", "))
                };
                problem(
                    at,
                    format!("the trip's `{path}` has none called `{name}`"),
                    help,
                )
            })?;
            put_in_list(node, index, rest, value, at, path)
        }
        Step::Key(key) => {
            let path = if path.is_empty() {
                key.clone()
            } else {
                format!("{path}.{key}")
            };
            entry(node, key, at, &path)
                .map_or(Ok(()), |below| put_below(below, rest, value, at, path))
        }
        Step::Index(index) => put_in_list(node, *index, rest, value, at, path),
    }
}

/// Takes keys out of a block of the trip.
pub(super) fn forget(root: &mut Node, block: &str, keys: &[&str]) {
    let Value::Map(entries) = &mut root.value else {
        return;
    };
    let found = entries
        .iter_mut()
        .find(|entry| folded_key(&entry.key) == folded_key(block));
    if let Some(Value::Map(inside)) = found.map(|entry| &mut entry.node.value) {
        inside.retain(|entry| !keys.contains(&folded_key(&entry.key).as_str()));
    }
}

fn put_in_list(
    node: &mut Node,
    index: usize,
    rest: &[Step],
    value: Value,
    at: &Spot,
    path: String,
) -> Result<(), Box<Problem>> {
    let path = format!("{path}[{index}]");
    match &mut node.value {
        Value::List(list) if index < list.len() => {
            put_below(&mut list[index], rest, value, at, path)
        }
        _ => Err(problem(
            at,
            format!("the trip has no `{path}`"),
            "count from 0, or name it: `camps.Tarn bench.nights`".to_owned(),
        )),
    }
}

/// What stands at a key of a mapping, made if it is not there.
fn entry<'a>(node: &'a mut Node, key: &str, at: &Spot, path: &str) -> Option<&'a mut Node> {
    if !matches!(node.value, Value::Map(_)) {
        node.value = Value::Map(Vec::new());
    }
    let Value::Map(entries) = &mut node.value else {
        return None;
    };
    let found = entries
        .iter()
        .position(|entry| folded_key(&entry.key) == folded_key(key));
    let index = found.unwrap_or_else(|| {
        entries.push(Entry {
            key: key.to_owned(),
            at: at.clone(),
            node: Node {
                value: Value::Nothing,
                at: at.clone(),
                path: Arc::from(path),
            },
        });
        entries.len() - 1
    });
    entries.get_mut(index).map(|entry| &mut entry.node)
}

/// The item of a list whose `name` or `tag` is this; else the names there are.
fn named(list: &Node, name: &str) -> Result<usize, Vec<String>> {
    let Value::List(items) = &list.value else {
        return Err(Vec::new());
    };
    let names: Vec<Option<&str>> = items
        .iter()
        .map(|item| {
            item.get("name")
                .or_else(|| item.get("tag"))
                .and_then(Node::text)
        })
        .collect();
    let same = |one: &Option<&str>| one.is_some_and(|one| folded_key(one) == folded_key(name));
    names
        .iter()
        .position(same)
        .ok_or_else(|| names.into_iter().flatten().map(str::to_owned).collect())
}

/// Keeps those items of a list of the trip that are named, in the order named.
fn keep(root: &mut Node, key: &str, wanted: &[String], at: &Spot) -> Result<(), Box<Problem>> {
    let Some(list) = entry(root, key, at, key) else {
        return Ok(());
    };
    let mut kept = Vec::new();
    for name in wanted {
        match named(list, name) {
            Ok(index) => {
                if let Value::List(items) = &list.value {
                    kept.push(items[index].clone());
                }
            }
            Err(names) => {
                let help = if names.is_empty() {
                    format!("write `{key}` with names into the trip file that this row stands on")
                } else {
                    format!("its trip file has {}", names.join(", "))
                };
                return Err(problem(
                    at,
                    format!("`{key}` has none called `{name}`"),
                    help,
                ));
            }
        }
    }
    list.value = Value::List(kept);
    Ok(())
}

/// `Blue 5, Red 4`: those kitchens of the trip, with so many people; a number alone is how many
/// kitchens there are.
pub(super) fn kitchens(root: &mut Node, cell: &str, at: &Spot) -> Result<(), Box<Problem>> {
    if cell.parse::<u32>().is_ok() {
        return put(root, "kitchens", Value::Text(cell.to_owned()), at);
    }
    let mut wanted = Vec::new();
    for part in cell.split([',', ';']) {
        let part = part.trim();
        let Some((name, people)) = part
            .rsplit_once(' ')
            .filter(|(_, last)| last.parse::<u32>().is_ok())
        else {
            return Err(problem(
                at,
                format!("`{part}` is not a kitchen and its people"),
                "write `Blue 5, Red 4`, or how many kitchens there are".to_owned(),
            ));
        };
        wanted.push((name.trim().to_owned(), people.to_owned()));
    }
    let names: Vec<String> = wanted.iter().map(|(name, _)| name.clone()).collect();
    let key = if root.get("stations").is_some() {
        "stations"
    } else {
        "kitchens"
    };
    keep(root, key, &names, at)?;
    for (index, (_, people)) in wanted.into_iter().enumerate() {
        put(
            root,
            &format!("{key}[{index}].people"),
            Value::Text(people),
            at,
        )?;
    }
    Ok(())
}

/// `F-014, F-020`: those of the trip's canisters on hand; `none` is none.
pub(super) fn canisters(root: &mut Node, cell: &str, at: &Spot) -> Result<(), Box<Problem>> {
    let tags: Vec<String> = cell
        .split([',', ';'])
        .map(|tag| tag.trim().to_owned())
        .filter(|tag| !tag.is_empty() && tag != "none")
        .collect();
    keep(root, "canisters_on_hand", &tags, at)
}

/// A cell of several entries, parted by semicolons.
pub(super) fn list(cell: &str, path: &str, at: &Spot) -> Value {
    let items = cell
        .split(';')
        .map(str::trim)
        .filter(|item| !item.is_empty());
    let node = |(index, item): (usize, &str)| Node {
        value: Value::Text(item.to_owned()),
        at: at.clone(),
        path: Arc::from(format!("{path}[{index}]")),
    };
    Value::List(items.enumerate().map(node).collect())
}

fn problem(at: &Spot, message: String, help: String) -> Box<Problem> {
    Box::new(at.problem(Problem::error("season.cell", message, help)))
}
