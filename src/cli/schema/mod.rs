//! `leeside schema`: JSON Schema (2020-12) of every file that people write, for
//! editors that complete and check YAML, and of what commands print with `--json`.
//!
//! `check` reads a tree by hand-written rules; here are the same keys as data.
//! `tests/outside/test_schema.py` asks `check` which keys it knows in every
//! block and holds them against these.

mod content;
mod gear;
mod parts;
mod results;
mod trip;

use super::Said;
use crate::diag::Outcome;
use clap::{Args, ValueEnum};
use serde_json::{Map, Value, json};

/// Print the JSON Schema of a kind of file, for editors, or of a result, for programs
#[derive(Args, Debug)]
#[command(after_help = "Example: leeside schema trip > trip.schema.json\n\n\
        An editor with a YAML language server then completes keys and marks slips as you type: put \
        this line at the top of a trip,\n\n    \
        # yaml-language-server: $schema=trip.schema.json\n\n\
        or name the schema in the editor's settings for all files of a folder. Keys are completed as \
        the guides spell them, with underscores. What a schema cannot see (whether kitchens add up \
        to the party, whether a stove is in the catalogue) `leeside check` says.")]
pub struct Schema {
    /// Which file
    #[arg(value_enum, ignore_case = true)]
    pub kind: FileKind,
}

/// Kinds of file that people write, and results for other programs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum FileKind {
    /// A trip
    Trip,
    /// A lesson without a trip (`kind: lesson`)
    Lesson,
    /// A burn trial
    Trial,
    /// modules/ID.yaml
    Module,
    /// places/ID.yaml
    Place,
    /// profiles/ID.yaml
    Profile,
    /// menus.yaml
    Menus,
    /// gear/stoves.yaml
    Stoves,
    /// gear/fuels.yaml
    Fuels,
    /// gear/pots.yaml
    Pots,
    /// gear/containers.yaml
    Containers,
    /// figures.yaml
    Figures,
    /// plausible.yaml
    Plausible,
    /// sources.yaml
    Sources,
    /// library.yaml
    Library,
    /// What `plan --json` prints
    Plan,
    /// What `check --json` prints
    Check,
    /// What `why --json` prints
    Why,
    /// What `list --json` prints
    List,
    /// What `make --json` prints
    Make,
}

/// Runs the command.
///
/// # Errors
/// None; the signature is that of the other commands.
pub fn run(args: &Schema) -> Outcome<Said> {
    Ok(Said {
        result: format!("{:#}\n", schema(args.kind)),
        ..Said::default()
    })
}

/// The schema of a kind, with every definition that it refers to.
fn schema(kind: FileKind) -> Value {
    let (title, body) = match kind {
        FileKind::Trip => ("A trip", trip::trip()),
        FileKind::Lesson => ("A lesson", trip::lesson()),
        FileKind::Trial => ("A burn trial", trip::trial()),
        FileKind::Module => ("A module", parts::over_file(content::module())),
        FileKind::Place => ("A place", parts::over_file(content::place())),
        FileKind::Profile => ("A profile", parts::over_file(content::profile())),
        FileKind::Menus => ("Named menus", content::menus()),
        FileKind::Stoves => ("Stoves", gear::stoves()),
        FileKind::Fuels => ("Fuels", gear::fuels()),
        FileKind::Pots => ("Pot materials", gear::pots()),
        FileKind::Containers => ("Containers", gear::containers()),
        FileKind::Figures => (
            "Figures of the calculation",
            parts::over_file(gear::figures()),
        ),
        FileKind::Plausible => ("What trips are usually like", content::plausible()),
        FileKind::Sources => ("Sources", content::sources()),
        FileKind::Plan => ("What `leeside plan --json` prints", results::plan()),
        FileKind::Check => ("What `leeside check --json` prints", results::check()),
        FileKind::Why => ("What `leeside why --json` prints", results::why()),
        FileKind::List => ("What `leeside list --json` prints", results::listed()),
        FileKind::Make => ("What `leeside make --json` prints", results::made()),
        FileKind::Library => (
            "The library's own file",
            parts::over_file(content::library()),
        ),
    };
    let mut whole = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
    });
    let mut definitions = Map::new();
    define(&body, &mut definitions);
    definitions.sort_keys();
    if let (Value::Object(whole), Value::Object(body)) = (&mut whole, body) {
        whole.extend(body);
        if !definitions.is_empty() {
            whole.insert("$defs".to_owned(), Value::Object(definitions));
        }
    }
    whole
}

/// Adds what a schema refers to, and what that refers to.
fn define(schema: &Value, definitions: &mut Map<String, Value>) {
    match schema {
        Value::Object(keys) => {
            let name = keys
                .get("$ref")
                .and_then(Value::as_str)
                .and_then(|path| path.strip_prefix("#/$defs/"));
            if let Some(name) = name
                && !definitions.contains_key(name)
                && let Some(definition) = parts::definition(name)
            {
                definitions.insert(name.to_owned(), definition.clone());
                define(&definition, definitions);
            }
            keys.values().for_each(|value| define(value, definitions));
        }
        Value::Array(items) => items.iter().for_each(|item| define(item, definitions)),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every `$ref` of a value.
    fn references(value: &Value, found: &mut Vec<String>) {
        match value {
            Value::Object(keys) => {
                found.extend(keys.get("$ref").and_then(Value::as_str).map(str::to_owned));
                keys.values().for_each(|value| references(value, found));
            }
            Value::Array(items) => items.iter().for_each(|item| references(item, found)),
            _ => {}
        }
    }

    #[test]
    fn every_schema_stands_alone() {
        for kind in FileKind::value_variants() {
            let schema = schema(*kind);
            let mut found = Vec::new();
            references(&schema, &mut found);
            for reference in found {
                let path = reference.trim_start_matches('#');
                assert!(schema.pointer(path).is_some(), "{kind:?}: {reference}");
            }
        }
    }
}
