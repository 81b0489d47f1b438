//! JSON Schemas, derived from the types so that reading and description cannot disagree.

use schemars::{JsonSchema, generate::SchemaSettings};
use serde_json::Value;
use std::any::TypeId;
use std::collections::BTreeMap;
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
