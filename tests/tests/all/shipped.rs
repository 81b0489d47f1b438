//! The files in `assets/` that are made from the types: nobody edits them by hand.

use serde_json::{Value, json};
use std::path::Path;
use traywright_core::case::Case;
use traywright_core::document::schema_for;
use traywright_core::figures::{Figures, RecordFigures};
use traywright_core::kit::Kit;
use traywright_core::order::{Answer, Problem};
use traywright_core::sign::EventLine;

fn schemas() -> [(&'static str, String); 7] {
    [
        ("case", schema_for::<Case>()),
        ("kit", schema_for::<Kit>()),
        ("figures", schema_for::<Figures>()),
        ("record", schema_for::<RecordFigures>()),
        ("events", schema_for::<EventLine>()),
        ("order", schema_for::<Problem>()),
        ("order-answer", schema_for::<Answer>()),
    ]
}

#[test]
fn the_shipped_schemas_are_those_of_the_types() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/schema");
    for (name, schema) in schemas() {
        let file = folder.join(format!("{name}.schema.json"));
        if std::env::var_os("UPDATE_ASSETS").is_some() {
            std::fs::write(&file, &schema).unwrap();
        }
        let shipped = std::fs::read_to_string(&file).unwrap();
        for (shipped, wanted) in shipped.lines().zip(schema.lines()) {
            assert_eq!(shipped, wanted, "{name}; UPDATE_ASSETS=1 writes it anew");
        }
        assert_eq!(shipped.len(), schema.len(), "{name}");
    }
}

/// The objects of a schema that let unknown keys pass, as JSON pointers: such a type lacks
/// `deny_unknown_fields`.
fn open_objects(schema: &Value, here: &str) -> Vec<String> {
    let parts: Vec<(String, &Value)> = match schema {
        Value::Object(members) => members.iter().map(|(k, v)| (k.clone(), v)).collect(),
        Value::Array(parts) => {
            let parts = parts.iter().enumerate();
            parts.map(|(n, part)| (n.to_string(), part)).collect()
        }
        _ => Vec::new(),
    };
    let closed = ["additionalProperties", "unevaluatedProperties"];
    let is_open = schema["type"] == "object" && closed.iter().all(|key| schema.get(key).is_none());
    let below = parts
        .into_iter()
        .flat_map(|(key, part)| open_objects(part, &format!("{here}/{key}")));
    is_open
        .then(|| here.to_owned())
        .into_iter()
        .chain(below)
        .collect()
}

#[test]
fn no_schema_lets_an_unknown_key_pass() {
    for (name, schema) in schemas() {
        let mut open = open_objects(&serde_json::from_str(&schema).unwrap(), "");
        // Reasons and explanations stand under the keys that they explain.
        open.retain(|place| {
            !["unknown", "explain", "args", "Unknown"]
                .iter()
                .any(|map| place.contains(map))
        });
        assert!(open.is_empty(), "{name}: {open:?}");
    }
}

#[test]
fn an_object_that_lets_unknown_keys_pass_is_found() {
    let closed = json!({"type": "object", "additionalProperties": false, "properties": {}});
    assert_eq!(open_objects(&closed, ""), [""; 0]);
    let variant = json!({"oneOf": [{"type": "object", "properties": {"by": closed}}]});
    let open = json!({"type": "object", "$defs": {"rule": variant, "sound": closed}});
    assert_eq!(open_objects(&open, ""), ["", "/$defs/rule/oneOf/0"]);
}
