//! Structure: what the schema says against what is there, every difference as a fault.

use super::branch::{IntendedBranch, known_keys, meant, type_of};
use super::fault::clipped;
use super::numbers::{Decimal, bound_at};
use super::schema::Checker;
use super::{Argument, Fault, Path, Rule, Step};
use crate::measure::Length;
use jsonschema::error::{TypeKind, ValidationErrorKind as Kind};
use jsonschema::{JsonType, ValidationError};
use serde_json::Value;
use std::collections::BTreeSet;

/// A difference, and how the value is mended to look further.
#[derive(Debug)]
pub(super) struct Difference {
    pub(super) fault: Fault,
    pub(super) fix: Option<Fix>,
}

/// A change that makes a value one that can be looked at further. The fault stays.
#[derive(Debug)]
pub(super) enum Fix {
    /// Leave an unknown key out.
    LeaveOut,
    /// Read a misspelt key as this one.
    Rename(String),
    /// Read a value as this one.
    Replace(Value),
}

impl From<Fault> for Difference {
    fn from(fault: Fault) -> Self {
        Self { fault, fix: None }
    }
}

impl Difference {
    fn fixed(self, fix: Fix) -> Self {
        Self {
            fix: Some(fix),
            ..self
        }
    }
}

/// A value against a schema.
pub(super) struct Structure<'a> {
    pub(super) checker: &'a Checker,
    pub(super) value: &'a Value,
}

impl Structure<'_> {
    /// Every difference, in no order.
    pub(super) fn differences(&self) -> Vec<Difference> {
        let mut found = Vec::new();
        match &self.checker.validator {
            Some(validator) => {
                for error in validator.iter_errors(self.value) {
                    self.explain(&error, &mut found);
                }
            }
            // A schema that cannot be used is a defect of the program, found by its tests. Here it
            // must not let an unchecked document pass.
            None => found.push(refused(&Path::root(), "schema")),
        }
        found
    }

    fn explain(&self, error: &ValidationError<'_>, found: &mut Vec<Difference>) {
        let path = &path_of_pointer(self.value, error.instance_path().as_str());
        let value: &Value = error.instance();
        let fault = |rule| Fault::new(path.clone(), rule);
        let unit = bound_at(path).unit;
        let number = |rule, limit: &Value| {
            fault(rule)
                .with("value", Argument::Number(value.to_string(), unit))
                .with("limit", Argument::Number(limit.to_string(), ""))
        };
        let items = |rule, limit: u64| fault(rule).with("count", count(value)).with("limit", limit);
        let text = |rule| fault(rule).with("value", shown(value));
        let difference = match error.kind() {
            Kind::AdditionalProperties { unexpected }
            | Kind::UnevaluatedProperties { unexpected } => {
                let known = known_keys(self.schema_around(error), &self.checker.schema);
                found.extend(unexpected.iter().map(|key| unknown_key(path, key, &known)));
                return;
            }
            Kind::AnyOf { context }
            | Kind::OneOfNotValid { context }
            | Kind::OneOfMultipleValid { context } => {
                let branches = self.schema_around(error).get(error.kind().keyword());
                let branches = branches.and_then(Value::as_array).map(Vec::as_slice);
                self.explain_branches(path, value, branches.unwrap_or_default(), context, found);
                return;
            }
            Kind::PropertyNames { error } => return self.explain(error, found),
            Kind::Type { kind } => wrong_type(path, value, &expected(kind)),
            Kind::Constant { expected_value } => {
                not_one_of(path, value, std::slice::from_ref(&**expected_value))
            }
            Kind::Enum { options } => {
                let options = options.as_array().map(Vec::as_slice);
                not_one_of(path, value, options.unwrap_or_default())
            }
            Kind::Required { property } => {
                let key = property.as_str().unwrap_or_default();
                let fault = Fault::new(path.key(key), Rule::MissingKey);
                fault.with("key", Argument::quote(key)).into()
            }
            Kind::Minimum { limit } => number(Rule::BelowMinimum, limit).into(),
            Kind::Maximum { limit } => number(Rule::AboveMaximum, limit).into(),
            Kind::ExclusiveMinimum { limit } => number(Rule::NotAbove, limit).into(),
            Kind::ExclusiveMaximum { limit } => number(Rule::NotBelow, limit).into(),
            Kind::MultipleOf { multiple_of } => {
                number(Rule::NotMultiple, &(*multiple_of).into()).into()
            }
            Kind::MinLength { .. } if value.as_str() == Some("") => fault(Rule::EmptyText).into(),
            Kind::MinLength { limit } => text(Rule::TextTooShort).with("limit", *limit).into(),
            Kind::MaxLength { limit } => fault(Rule::TextTooLong)
                .with("length", value.as_str().unwrap_or_default().chars().count())
                .with("limit", *limit)
                .into(),
            Kind::Pattern { pattern } => {
                let form = self.schema_around(error).get("x-form");
                text(Rule::TextForm)
                    .with("pattern", pattern.as_str())
                    .with("form", form.and_then(Value::as_str).unwrap_or("other"))
                    .into()
            }
            Kind::Format { format } => text(Rule::TextFormat)
                .with("format", format.as_str())
                .into(),
            Kind::MinItems { .. } | Kind::MinProperties { .. } if count(value) == 0 => {
                fault(Rule::EmptyList).into()
            }
            Kind::MinItems { limit } | Kind::MinProperties { limit } => {
                items(Rule::TooFew, *limit).into()
            }
            Kind::MaxItems { limit } | Kind::MaxProperties { limit } => {
                items(Rule::TooMany, *limit).into()
            }
            Kind::AdditionalItems { limit } => {
                items(Rule::TooMany, u64::try_from(*limit).unwrap_or(u64::MAX)).into()
            }
            Kind::UniqueItems => fault(Rule::RepeatedItem).into(),
            other => refused(path, other.keyword()),
        };
        found.push(difference);
    }

    /// The errors of the alternative that was meant.
    fn explain_branches(
        &self,
        path: &Path,
        value: &Value,
        branches: &[Value],
        errors: &[Vec<ValidationError<'static>>],
        found: &mut Vec<Difference>,
    ) {
        let branch = match meant(value, branches, &self.checker.schema) {
            IntendedBranch::Branch(index) => index,
            IntendedBranch::Unclear(indices) => {
                let errors_of = |n: &usize| errors.get(*n).map_or(usize::MAX, Vec::len);
                indices
                    .into_iter()
                    .min_by_key(errors_of)
                    .unwrap_or_default()
            }
            IntendedBranch::OneOf(options) => return found.push(not_one_of(path, value, &options)),
            IntendedBranch::Types(types) => return found.push(wrong_type(path, value, &types)),
            IntendedBranch::TagOneOf(tag, options) => {
                let given = value.get(&tag).unwrap_or(&Value::Null);
                return found.push(not_one_of(&path.key(&tag), given, &options));
            }
            IntendedBranch::TagMissing(tag, options) => {
                return found.push(misspelt_key(path, value, &[&tag]).unwrap_or_else(|| {
                    Fault::new(path.key(&tag), Rule::MissingTag)
                        .with("key", Argument::quote(&tag))
                        .with("known", listed(options.iter().map(shown)))
                        .into()
                }));
            }
            IntendedBranch::OneKeyOf(keys) => {
                return found.push(misspelt_key(path, value, &keys).unwrap_or_else(|| {
                    Fault::new(path.clone(), Rule::OneKeyOf)
                        .with("known", listed(keys.iter().map(|key| Argument::quote(key))))
                        .into()
                }));
            }
        };
        match errors.get(branch) {
            Some(errors) if !errors.is_empty() => {
                for error in errors {
                    self.explain(error, found);
                }
            }
            // Several alternatives hold at once, which the schemas of the types exclude.
            _ => found.push(refused(path, "oneOf")),
        }
    }

    /// The schema that has the keyword of an error.
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

fn wrong_type(path: &Path, value: &Value, expected: &BTreeSet<&'static str>) -> Difference {
    let number = expected.contains("number") || expected.contains("whole-number");
    let fault = |rule| Fault::new(path.clone(), rule).with("value", shown(value));
    match value {
        Value::Number(_) if expected.contains("whole-number") => fault(Rule::NotWhole).into(),
        Value::String(text) if number && let Ok(length) = Length::parse_mm(text) => {
            let fault = fault(Rule::NumberInQuotes)
                .with("instead", Argument::Number(length.to_string(), ""));
            let kept = Decimal::new(&length.to_string()).kept();
            Difference::from(fault).fixed(Fix::Replace(Value::Number(kept)))
        }
        _ => {
            // Saying "or null" would suggest null where leaving the key out is meant.
            let names = expected.iter().copied().filter(|name| *name != "null");
            let names = names.collect::<Vec<_>>().join("-or-");
            let names = if names.is_empty() { "null" } else { &names };
            let fault = fault(Rule::WrongType).with("found", type_of(value));
            fault.with("expected", names).into()
        }
    }
}

fn unknown_key(path: &Path, key: &str, known: &BTreeSet<String>) -> Difference {
    if let Some(instead) = nearest(key, known.iter().map(String::as_str)) {
        return misspelt(path, key, instead);
    }
    let fault = Fault::new(path.key(key), Rule::UnknownKey)
        .with("key", Argument::quote(key))
        .with(
            "known",
            listed(known.iter().map(|key| Argument::quote(key))),
        );
    Difference::from(fault).fixed(Fix::LeaveOut)
}

/// A key of an object that is like one of those that are needed.
fn misspelt_key(path: &Path, object: &Value, needed: &[impl AsRef<str>]) -> Option<Difference> {
    let needed = || needed.iter().map(AsRef::as_ref);
    let mut keys = object.as_object()?.keys();
    keys.find_map(|key| {
        let instead = nearest(key, needed()).filter(|instead| instead != key)?;
        Some(misspelt(path, key, instead))
    })
}

fn misspelt(path: &Path, key: &str, instead: &str) -> Difference {
    let fault = Fault::new(path.key(key), Rule::MisspeltKey)
        .with("key", Argument::quote(key))
        .with("instead", Argument::quote(instead));
    Difference::from(fault).fixed(Fix::Rename(instead.to_owned()))
}

fn not_one_of(path: &Path, value: &Value, options: &[Value]) -> Difference {
    let given = value.as_str().unwrap_or_default();
    let fault = |rule| {
        Fault::new(path.clone(), rule)
            .with("value", shown(value))
            .with("known", listed(options.iter().map(shown)))
    };
    match nearest(given, options.iter().filter_map(Value::as_str)) {
        Some(instead) => {
            let fault = fault(Rule::MisspeltValue).with("instead", Argument::quote(instead));
            Difference::from(fault).fixed(Fix::Replace(instead.into()))
        }
        None => fault(Rule::NotOneOf).into(),
    }
}

/// A rule that no type of this program uses, or that no sentence explains better.
fn refused(path: &Path, reason: &str) -> Difference {
    let fault = Fault::new(path.clone(), Rule::Refused);
    fault.with("reason", clipped(reason)).into()
}

fn listed(words: impl Iterator<Item = Argument>) -> Argument {
    Argument::List(words.collect())
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
pub(super) fn shown(value: &Value) -> Argument {
    match value {
        Value::String(text) => Argument::quote(text),
        Value::Array(items) if items.is_empty() => "[]".into(),
        Value::Array(_) => "[…]".into(),
        Value::Object(_) => "{…}".into(),
        scalar => scalar.to_string().into(),
    }
}

fn count(value: &Value) -> usize {
    match value {
        Value::Array(items) => items.len(),
        Value::Object(members) => members.len(),
        _ => 0,
    }
}
