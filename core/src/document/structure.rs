//! Structure: what the schema says against what is there, every difference as a fault.

use super::branch::{Meant, known_keys, meant, type_of};
use super::fault::{clipped, quoted};
use super::schema::Checker;
use super::{Fault, Path, Rule, Step};
use jsonschema::error::{TypeKind, ValidationErrorKind as Kind};
use jsonschema::{JsonType, ValidationError};
use serde_json::Value;
use std::collections::BTreeSet;

/// A value against a schema.
pub(super) struct Structure<'a> {
    pub(super) checker: &'a Checker,
    pub(super) value: &'a Value,
}

impl Structure<'_> {
    /// Every difference, in no order.
    pub(super) fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        match &self.checker.validator {
            Some(validator) => {
                for error in validator.iter_errors(self.value) {
                    self.explain(&error, &mut faults);
                }
            }
            // A schema that cannot be used is a defect of the program, found by its tests. Here it
            // must not let an unchecked document pass.
            None => faults.push(Fault::new(Path::root(), Rule::Refused).with("reason", "schema")),
        }
        faults
    }

    fn explain(&self, error: &ValidationError<'_>, faults: &mut Vec<Fault>) {
        let path = path_of_pointer(self.value, error.instance_path().as_str());
        let value: &Value = error.instance();
        let fault = |rule| Fault::new(path.clone(), rule);
        let number = |rule, limit: &Value| {
            fault(rule)
                .with("value", shown(value))
                .with("limit", shown(limit))
        };
        faults.push(match error.kind() {
            Kind::AdditionalProperties { unexpected }
            | Kind::UnevaluatedProperties { unexpected } => {
                let known = known_keys(self.schema_around(error), &self.checker.schema);
                faults.extend(unexpected.iter().map(|key| unknown_key(&path, key, &known)));
                return;
            }
            Kind::AnyOf { context }
            | Kind::OneOfNotValid { context }
            | Kind::OneOfMultipleValid { context } => {
                let keyword = error.kind().keyword();
                let branches = self.schema_around(error).get(keyword);
                let branches = branches.and_then(Value::as_array).map(Vec::as_slice);
                return self.explain_branches(
                    &path,
                    value,
                    branches.unwrap_or_default(),
                    context,
                    faults,
                );
            }
            Kind::Required { property } => {
                let key = property.as_str().unwrap_or_default();
                Fault::new(path.key(key), Rule::MissingKey).with("key", quoted(key))
            }
            Kind::Type { kind } => wrong_type(&path, value, &expected(kind)),
            Kind::Constant { expected_value } => {
                not_one_of(&path, value, std::slice::from_ref(&**expected_value))
            }
            Kind::Enum { options } => {
                let options = options.as_array().map(Vec::as_slice);
                not_one_of(&path, value, options.unwrap_or_default())
            }
            Kind::Minimum { limit } => number(Rule::BelowMinimum, limit),
            Kind::Maximum { limit } => number(Rule::AboveMaximum, limit),
            Kind::ExclusiveMinimum { limit } => number(Rule::NotAbove, limit),
            Kind::ExclusiveMaximum { limit } => number(Rule::NotBelow, limit),
            Kind::MultipleOf { multiple_of } => number(Rule::NotMultiple, &(*multiple_of).into()),
            Kind::MinLength { .. } if value.as_str() == Some("") => fault(Rule::EmptyText),
            Kind::MinLength { limit } => number(Rule::TextTooShort, &(*limit).into()),
            Kind::MaxLength { limit } => fault(Rule::TextTooLong)
                .with("length", value.as_str().unwrap_or_default().chars().count())
                .with("limit", limit),
            Kind::Pattern { pattern } => fault(Rule::TextForm)
                .with("value", shown(value))
                .with("pattern", pattern),
            Kind::Format { format } => fault(Rule::TextFormat)
                .with("value", shown(value))
                .with("format", format),
            Kind::MinItems { limit } | Kind::MinProperties { limit } => match count(value) {
                0 => fault(Rule::EmptyList),
                n => fault(Rule::TooFew).with("count", n).with("limit", limit),
            },
            Kind::MaxItems { limit } | Kind::MaxProperties { limit } => fault(Rule::TooMany)
                .with("count", count(value))
                .with("limit", limit),
            Kind::AdditionalItems { limit } => fault(Rule::TooMany)
                .with("count", count(value))
                .with("limit", limit),
            Kind::UniqueItems => fault(Rule::RepeatedItem),
            Kind::PropertyNames { error } => return self.explain(error, faults),
            other => fault(Rule::Refused).with("reason", clipped(other.keyword())),
        });
    }

    /// The errors of the alternative that was meant.
    fn explain_branches(
        &self,
        path: &Path,
        value: &Value,
        branches: &[Value],
        errors: &[Vec<ValidationError<'static>>],
        faults: &mut Vec<Fault>,
    ) {
        let branch = match meant(value, branches, &self.checker.schema) {
            Meant::Branch(index) => index,
            Meant::Unclear(indices) => {
                let least = |n: &usize| errors.get(*n).map_or(usize::MAX, Vec::len);
                indices.into_iter().min_by_key(least).unwrap_or_default()
            }
            Meant::OneOf(options) => return faults.push(not_one_of(path, value, &options)),
            Meant::TagMissing(tag) => {
                let fault = Fault::new(path.key(&tag), Rule::MissingKey);
                return faults.push(fault.with("key", quoted(&tag)));
            }
            Meant::TagOneOf(tag, options) => {
                let given = value.get(&tag).unwrap_or(&Value::Null);
                return faults.push(not_one_of(&path.key(&tag), given, &options));
            }
            Meant::OneKeyOf(keys) => {
                let known = keys.iter().map(|key| quoted(key)).collect::<Vec<_>>();
                let fault = Fault::new(path.clone(), Rule::OneKeyOf);
                return faults.push(fault.with("known", known.join(", ")));
            }
            Meant::Types(types) => return faults.push(wrong_type(path, value, &types)),
        };
        match errors.get(branch) {
            Some(errors) if !errors.is_empty() => {
                for error in errors {
                    self.explain(error, faults);
                }
            }
            // Several alternatives hold at once, which the schemas of the types exclude.
            _ => faults.push(Fault::new(path.clone(), Rule::Refused).with("reason", "oneOf")),
        }
    }

    /// The schema in which the keyword of an error stands.
    fn schema_around(&self, error: &ValidationError<'_>) -> &Value {
        let pointer = error.schema_path().as_str();
        let around = pointer.rsplit_once('/').map_or("", |(around, _)| around);
        self.checker.schema.pointer(around).unwrap_or(&Value::Null)
    }
}

/// A JSON pointer as a path: a number is an index only where a list is.
fn path_of_pointer(root: &Value, pointer: &str) -> Path {
    let mut path = Path::root();
    let mut here = Some(root);
    for part in pointer.split('/').skip(1) {
        let key = part.replace("~1", "/").replace("~0", "~");
        let (step, next) = match (here, key.parse::<usize>()) {
            (Some(Value::Array(items)), Ok(index)) => (Step::Item(index), items.get(index)),
            (here, _) => {
                let next = here.and_then(|value| value.get(&key));
                (Step::Key(key), next)
            }
        };
        path = path.then(step);
        here = next;
    }
    path
}

fn expected(kind: &TypeKind) -> BTreeSet<&'static str> {
    let name = |one| match one {
        JsonType::Null => "null",
        JsonType::Boolean => "boolean",
        JsonType::Integer => "whole-number",
        JsonType::Number => "number",
        JsonType::String => "text",
        JsonType::Array => "list",
        JsonType::Object => "object",
    };
    match kind {
        TypeKind::Single(one) => BTreeSet::from([name(*one)]),
        TypeKind::Multiple(set) => set.iter().map(name).collect(),
    }
}

fn wrong_type(path: &Path, value: &Value, expected: &BTreeSet<&'static str>) -> Fault {
    let number = expected.contains("number") || expected.contains("whole-number");
    let fault = |rule| Fault::new(path.clone(), rule).with("value", shown(value));
    match value {
        Value::Number(_) if expected.contains("whole-number") => fault(Rule::NotWhole),
        Value::String(text) if number && crate::measure::parse_thousandths(text).is_ok() => {
            let instead = text.trim().replace(',', ".");
            fault(Rule::NumberInQuotes).with("instead", clipped(&instead))
        }
        _ => {
            // Saying "or null" would suggest null where leaving the key out is meant.
            let names = expected.iter().copied().filter(|name| *name != "null");
            let names = names.collect::<Vec<_>>().join("|");
            fault(Rule::WrongType)
                .with("found", type_of(value))
                .with("expected", if names.is_empty() { "null" } else { &names })
        }
    }
}

fn unknown_key(path: &Path, key: &str, known: &BTreeSet<String>) -> Fault {
    let here = path.key(key);
    match nearest(key, known.iter().map(String::as_str)) {
        Some(instead) => Fault::new(here, Rule::MisspeltKey)
            .with("key", quoted(key))
            .with("instead", quoted(instead)),
        None => {
            let known = known.iter().map(|key| quoted(key)).collect::<Vec<_>>();
            Fault::new(here, Rule::UnknownKey)
                .with("key", quoted(key))
                .with("known", known.join(", "))
        }
    }
}

fn not_one_of(path: &Path, value: &Value, options: &[Value]) -> Fault {
    let given = value.as_str().unwrap_or_default();
    let near = nearest(given, options.iter().filter_map(Value::as_str));
    let known = options.iter().map(shown).collect::<Vec<_>>().join(", ");
    let fault = |rule| {
        Fault::new(path.clone(), rule)
            .with("value", shown(value))
            .with("known", &known)
    };
    match near {
        Some(instead) => fault(Rule::MisspeltValue).with("instead", quoted(instead)),
        None => fault(Rule::NotOneOf),
    }
}

/// The word among `known` that was likely meant by `word`, if one is near enough.
pub(super) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A long word is compared with none: the work grows with the product of both lengths.
    let length = word.chars().count();
    if !(3..=80).contains(&length) {
        return None;
    }
    let lower = word.to_lowercase();
    known
        .into_iter()
        .map(|other| (strsim::osa_distance(&lower, &other.to_lowercase()), other))
        .filter(|(distance, _)| *distance <= 1 + length / 5)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, other)| other)
}

/// A value in a fault: short, on one line.
pub(super) fn shown(value: &Value) -> String {
    match value {
        Value::String(text) => quoted(text),
        Value::Array(items) if items.is_empty() => "[]".to_owned(),
        Value::Array(_) => "[…]".to_owned(),
        Value::Object(_) => "{…}".to_owned(),
        scalar => scalar.to_string(),
    }
}

fn count(value: &Value) -> usize {
    match value {
        Value::Array(items) => items.len(),
        Value::Object(members) => members.len(),
        _ => 0,
    }
}
