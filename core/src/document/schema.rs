//! JSON Schemas, derived from the types so that reading and description cannot disagree.

use schemars::{JsonSchema, generate::SchemaSettings};
use serde_json::Value;
use std::any::TypeId;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

/// The schema of a type as the text of a file: two spaces, keys sorted, a line break at the end.
///
/// Draft 2020-12; titles and descriptions are the docs of the types.
#[must_use]
pub fn schema_for<T: JsonSchema>() -> String {
    format!("{:#}\n", value_for::<T>())
}

fn value_for<T: JsonSchema>() -> Value {
    let schema = SchemaSettings::draft2020_12()
        .into_generator()
        .into_root_schema_for::<T>();
    let mut schema = schema.to_value();
    schema.sort_all_objects();
    schema
}

/// A schema and its compiled form.
#[derive(Debug)]
pub(super) struct Checker {
    pub(super) schema: Value,
    pub(super) validator: Option<jsonschema::Validator>,
}

/// The checker of a type, compiled once in the life of the program.
pub(super) fn checker_for<T: JsonSchema + 'static>() -> Arc<Checker> {
    static CHECKERS: Mutex<BTreeMap<TypeId, Arc<Checker>>> = Mutex::new(BTreeMap::new());
    let mut checkers = CHECKERS.lock().unwrap_or_else(PoisonError::into_inner);
    let checker = checkers.entry(TypeId::of::<T>()).or_insert_with(|| {
        let schema = value_for::<T>();
        let validator = jsonschema::draft202012::options()
            .should_validate_formats(true)
            .build(&schema)
            .ok();
        Arc::new(Checker { schema, validator })
    });
    Arc::clone(checker)
}

/// The schema of a type and the file in which it is shipped.
#[derive(Debug, Clone)]
pub struct ShippedSchema {
    /// The file's name in `assets/schema`.
    pub file: &'static str,
    /// The content that the file has to have.
    pub text: String,
}

impl ShippedSchema {
    /// The schema of a type, shipped as `file`.
    #[must_use]
    pub fn of<T: JsonSchema>(file: &'static str) -> Self {
        Self {
            file,
            text: schema_for::<T>(),
        }
    }

    /// The difference between a shipped file's text and the schema: the first line that is not
    /// the same, or nothing.
    #[must_use]
    pub fn first_difference(&self, shipped: &str) -> Option<String> {
        if shipped == self.text {
            return None;
        }
        let lines = shipped.lines().zip(self.text.lines()).enumerate();
        let line = lines.into_iter().find(|(_, (a, b))| a != b);
        Some(match line {
            Some((n, (is, wanted))) => {
                format!("{} line {}: is {is:?}, wanted {wanted:?}", self.file, n + 1)
            }
            None => format!("{}: other length", self.file),
        })
    }

    /// Objects of the schema that let unknown keys pass, as JSON pointers. There must be none: such
    /// a type lacks `deny_unknown_fields`.
    #[must_use]
    pub fn open_objects(&self) -> Vec<String> {
        let mut open = Vec::new();
        if let Ok(schema) = serde_json::from_str(&self.text) {
            collect_open(&schema, "", &mut open);
        }
        open
    }

    /// The file's place under the folder of assets.
    #[must_use]
    pub fn path(&self, assets: &Path) -> std::path::PathBuf {
        assets.join("schema").join(self.file)
    }
}

fn collect_open(schema: &Value, here: &str, open: &mut Vec<String>) {
    match schema {
        Value::Object(members) => {
            let is_object = schema.get("type").is_some_and(|t| t == "object");
            let closed = ["additionalProperties", "unevaluatedProperties"];
            if is_object && !closed.iter().any(|key| members.contains_key(*key)) {
                open.push(here.to_owned());
            }
            for (key, part) in members {
                collect_open(part, &format!("{here}/{key}"), open);
            }
        }
        Value::Array(parts) => {
            for (n, part) in parts.iter().enumerate() {
                collect_open(part, &format!("{here}/{n}"), open);
            }
        }
        _ => {}
    }
}
