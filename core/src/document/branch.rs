//! Choice of the alternative of a schema that was meant.
//!
//! "Not valid under any of the schemas" helps nobody: a value is compared with the alternative it
//! was meant to be, told by its tag, its only key or its type.

use serde_json::{Map, Value};
use std::collections::BTreeSet;

/// The branch that a value was meant for, or why that cannot be told.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum IntendedBranch {
    /// The alternative with this index.
    Branch(usize),
    /// One of these texts.
    OneOf(Vec<Value>),
    /// An object with this tag, which is missing and has to be one of these texts.
    TagMissing(String, Vec<Value>),
    /// An object with this tag, which has to be one of these texts.
    TagOneOf(String, Vec<Value>),
    /// An object with exactly one of these keys.
    OneKeyOf(Vec<String>),
    /// A value of one of these types.
    Types(BTreeSet<&'static str>),
    /// One of several alternatives that cannot be told apart; these are their indices.
    Unclear(Vec<usize>),
}

/// The branch that `value` was meant for among `branches`, parts of the schema `root`.
pub(super) fn meant(value: &Value, branches: &[Value], root: &Value) -> IntendedBranch {
    let resolved: Vec<&Value> = branches.iter().map(|b| resolve(b, root)).collect();
    let fitting: Vec<usize> = (0..resolved.len())
        .filter(|n| {
            let types = types(resolved[*n]);
            types.is_empty() || types.contains(type_of(value))
        })
        .collect();
    match (fitting.as_slice(), value) {
        ([], _) => IntendedBranch::Types(resolved.iter().flat_map(|b| types(b)).collect()),
        (_, Value::String(_)) if fitting.iter().all(|n| options(resolved[*n]).is_some()) => {
            let all = fitting.iter().filter_map(|n| options(resolved[*n]));
            IntendedBranch::OneOf(all.flatten().cloned().collect())
        }
        ([only], _) => IntendedBranch::Branch(*only),
        (_, Value::Object(object)) => {
            let objects: Vec<(usize, &Value)> =
                fitting.iter().map(|n| (*n, resolved[*n])).collect();
            by_tag(object, &objects)
                .or_else(|| by_only_key(object, &objects))
                .unwrap_or(IntendedBranch::Unclear(fitting))
        }
        _ => IntendedBranch::Unclear(fitting),
    }
}

/// Alternatives that are told apart by a key with a fixed text: `{"kind": "…", …}`.
fn by_tag(object: &Map<String, Value>, branches: &[(usize, &Value)]) -> Option<IntendedBranch> {
    let tag_of = |branch: &Value, key: &str| {
        let property = branch.get("properties")?.get(key)?;
        options(property)?.first().cloned()
    };
    let keys = branches.first()?.1.get("properties")?.as_object()?.keys();
    let tag = keys
        .into_iter()
        .find(|key| branches.iter().all(|(_, b)| tag_of(b, key).is_some()))?;
    let tags = || branches.iter().filter_map(|(_, b)| tag_of(b, tag));
    let Some(given) = object.get(tag) else {
        return Some(IntendedBranch::TagMissing(tag.clone(), tags().collect()));
    };
    Some(match tags().position(|one| one == *given) {
        Some(n) => IntendedBranch::Branch(branches.get(n)?.0),
        None => IntendedBranch::TagOneOf(tag.clone(), tags().collect()),
    })
}

/// Alternatives that are told apart by their only key: `{"pilot_only": …}`.
fn by_only_key(
    object: &Map<String, Value>,
    branches: &[(usize, &Value)],
) -> Option<IntendedBranch> {
    let only_key = |branch: &Value| {
        let mut keys = branch.get("properties")?.as_object()?.keys();
        let key = keys.next()?.clone();
        keys.next().is_none().then_some(key)
    };
    let keys: Option<Vec<String>> = branches.iter().map(|(_, b)| only_key(b)).collect();
    let keys = keys?;
    let mut given = keys
        .iter()
        .enumerate()
        .filter(|(_, key)| object.contains_key(*key));
    Some(match (given.next(), given.next()) {
        (Some((n, _)), None) => IntendedBranch::Branch(branches.get(n)?.0),
        _ => IntendedBranch::OneKeyOf(keys),
    })
}

/// A schema behind its references.
pub(super) fn resolve<'a>(schema: &'a Value, root: &'a Value) -> &'a Value {
    let mut schema = schema;
    // A chain of references is short; a circle must not hang the program.
    for _ in 0..16 {
        let target = schema
            .get("$ref")
            .and_then(Value::as_str)
            .and_then(|to| root.pointer(to.strip_prefix('#')?));
        match target {
            Some(target) => schema = target,
            None => break,
        }
    }
    schema
}

/// All keys that an object of a schema can have, in order.
pub(super) fn known_keys(schema: &Value, root: &Value) -> BTreeSet<String> {
    fn collect(schema: &Value, root: &Value, depth: usize, keys: &mut BTreeSet<String>) {
        if depth == 0 {
            return;
        }
        if let Some(properties) = schema.get("properties").and_then(Value::as_object) {
            keys.extend(properties.keys().cloned());
        }
        if schema.get("$ref").is_some() {
            collect(resolve(schema, root), root, depth - 1, keys);
        }
        for group in ["allOf", "anyOf", "oneOf"] {
            for part in schema
                .get(group)
                .and_then(Value::as_array)
                .into_iter()
                .flatten()
            {
                collect(part, root, depth - 1, keys);
            }
        }
    }
    let mut keys = BTreeSet::new();
    collect(schema, root, 8, &mut keys);
    keys
}

/// The fixed values of a schema, if it has such.
fn options(schema: &Value) -> Option<&[Value]> {
    if let Some(one) = schema.get("const") {
        return Some(std::slice::from_ref(one));
    }
    schema.get("enum")?.as_array().map(Vec::as_slice)
}

/// The types that a schema allows; empty for any.
fn types(schema: &Value) -> BTreeSet<&'static str> {
    let shown = |name: &Value| match name.as_str() {
        Some("null") => Some("null"),
        Some("boolean") => Some("boolean"),
        Some("integer" | "number") => Some("number"),
        Some("string") => Some("text"),
        Some("array") => Some("list"),
        Some("object") => Some("object"),
        _ => None,
    };
    match schema.get("type") {
        Some(Value::Array(names)) => names.iter().filter_map(shown).collect(),
        Some(name) => shown(name).into_iter().collect(),
        None => options(schema).into_iter().flatten().map(type_of).collect(),
    }
}

/// The type of a value, as texts call it.
pub(super) const fn type_of(value: &Value) -> &'static str {
    match value {
        Value::Null => "null",
        Value::Bool(_) => "boolean",
        Value::Number(_) => "number",
        Value::String(_) => "text",
        Value::Array(_) => "list",
        Value::Object(_) => "object",
    }
}
