//! A sample of a view, made from its shape, on which templates are proven.

use schemars::{JsonSchema, schema_for};
use serde_json::{Map, Value};

/// A sample view of a type.
///
/// Full: every flag set and two entries in every list. Otherwise no flag set and
/// every list empty. Texts hold a word in both: views leave no text empty that
/// a template prints without asking.
#[must_use]
pub fn of<T: JsonSchema>(full: bool) -> Value {
    let schema = schema_for!(T).to_value();
    build(&schema, &schema, full)
}

fn build(schema: &Value, root: &Value, full: bool) -> Value {
    if let Some(target) = schema.get("$ref").and_then(Value::as_str) {
        let name = target.rsplit('/').next().unwrap_or_default();
        return root
            .get("$defs")
            .and_then(|all| all.get(name))
            .map_or(Value::Null, |inner| build(inner, root, full));
    }
    // A text that must be one of a few says so by an example.
    if let Some(example) = schema.get("examples").and_then(|all| all.get(0)) {
        return example.clone();
    }
    match schema.get("type").and_then(Value::as_str) {
        Some("string") => Value::String("words".to_owned()),
        Some("boolean") => Value::Bool(full),
        Some("array") => {
            let entry = schema
                .get("items")
                .map_or(Value::Null, |inner| build(inner, root, full));
            Value::Array(if full {
                vec![entry.clone(), entry]
            } else {
                Vec::new()
            })
        }
        Some("object") => {
            let mut map = Map::new();
            if let Some(properties) = schema.get("properties").and_then(Value::as_object) {
                for (name, inner) in properties {
                    map.insert(name.clone(), build(inner, root, full));
                }
            }
            Value::Object(map)
        }
        // Numbers do not belong in a view; null makes the proof say so.
        _ => Value::Null,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(JsonSchema)]
    #[allow(dead_code)]
    struct Inner {
        words: String,
    }

    #[derive(JsonSchema)]
    #[allow(dead_code)]
    struct View {
        flag: bool,
        rows: Vec<Inner>,
    }

    #[test]
    fn fills_or_empties() {
        assert_eq!(
            of::<View>(true),
            serde_json::json!({"flag": true, "rows": [{"words": "words"}, {"words": "words"}]})
        );
        assert_eq!(
            of::<View>(false),
            serde_json::json!({"flag": false, "rows": []})
        );
    }
}
