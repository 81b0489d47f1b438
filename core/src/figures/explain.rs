//! Derivation of a figure.

use crate::plan::{Figure, Known, Origin, Quantity, Sign};
use schemars::JsonSchema;
use serde::Serialize;

/// The derivation of a figure.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Explained {
    /// The rule by which it was worked out: the id of a text.
    pub rule: String,
    /// Its basis: measured, entered, estimated or `arch_model`; the weakest of its terms.
    pub basis: String,
    /// The terms from which it was worked out.
    pub terms: Vec<ExplainedTerm>,
}

/// One term of a figure.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExplainedTerm {
    /// Its name: the id of a text.
    pub name: String,
    /// `plus`, `minus`, or `with` where it is used otherwise.
    pub sign: String,
    /// `case`, `kit`, `figure` or `rule`.
    pub source: String,
    /// Its place there.
    pub path: String,
    /// Its value, in the unit that it is kept in: millimetres, degrees or pieces.
    pub value: Option<serde_json::Number>,
}

pub(super) fn explained(figure: &Figure) -> Explained {
    Explained {
        rule: figure.rule.key().to_owned(),
        basis: figure.basis.key().to_owned(),
        terms: figure
            .terms
            .iter()
            .map(|term| {
                let (source, path) = match &term.from {
                    Origin::Case(field) => ("case", field.to_string()),
                    Origin::Kit { list, entry, field } => {
                        ("kit", format!("{list}[{entry}].{field}"))
                    }
                    Origin::Figure(field) => ("figure", field.to_string()),
                    Origin::Rule(rule) => ("rule", rule.key().to_owned()),
                };
                ExplainedTerm {
                    name: term.name.key().to_owned(),
                    sign: match term.sign {
                        Sign::Plus => "plus",
                        Sign::Minus => "minus",
                        Sign::With => "with",
                    }
                    .to_owned(),
                    source: source.to_owned(),
                    path,
                    value: number(&term.value),
                }
            })
            .collect(),
    }
}

/// A quantity as a number, in the unit that it is kept in.
pub(super) fn number(value: &Known<Quantity>) -> Option<serde_json::Number> {
    let value = match value.get()? {
        Quantity::Length(length) => serde_json::to_value(length),
        Quantity::Angle(angle) => serde_json::to_value(angle),
        Quantity::Count(count) => serde_json::to_value(count),
    };
    match value {
        Ok(serde_json::Value::Number(number)) => Some(number),
        _ => None,
    }
}
