//! The steps of reading, from bytes to a document or to all its faults.

use super::kind::{self, Kinds};
use super::node::Source;
use super::recover::Recovered;
use super::{Coverage, Fault, Faults, Kind, Path, Rule, encoding, numbers, parse, unseen};
use schemars::JsonSchema;
use serde::de::DeserializeOwned;
use std::collections::{BTreeMap, BTreeSet};

/// Reads a document of `kind`: all its faults are reported at once.
///
/// `check` is the caller's own look at what a schema cannot say, such as references. It also gets
/// documents with faults, as far as they could be healed: what it finds there is added to the
/// report.
///
/// # Errors
///
/// All faults, in the order of the file. No document with a fault is ever returned.
pub fn read<T: DeserializeOwned + JsonSchema + 'static>(
    bytes: &[u8],
    kind: &Kind,
    kinds: Kinds,
    check: impl FnOnce(&T) -> Vec<Fault>,
) -> Result<T, Faults> {
    let text = encoding::text(bytes).map_err(Faults::only)?;
    let (root, duplicates) = parse::parse(text).map_err(Faults::only)?;
    let source = Source::new(text, root);
    if let Err(mut fault) = kind::check(source.root(), kind, kinds) {
        source.locate(&mut fault);
        return Err(Faults::only(fault));
    }
    let faults = duplicates.iter().map(|key| source.duplicate_key(key));
    let mut faults: Vec<Fault> = faults.collect();
    numbers::check(source.root(), &Path::root(), &mut faults);
    unseen::check(source.root(), kind.is_printed, &Path::root(), &mut faults);
    let mut recovered = Recovered::by_schema::<T>(source.root().to_value());
    faults.append(&mut recovered.faults);
    leave_out_echoes(&mut faults);
    let value = std::mem::take(&mut recovered.value);
    let (value, coverage) = match serde_path_to_error::deserialize::<_, T>(value) {
        Ok(value) => {
            faults.extend(check(&value).into_iter().map(|fault| Fault {
                path: recovered.as_written(&fault.path),
                ..fault
            }));
            (Some(value), Coverage::Whole)
        }
        Err(error) => {
            if faults.is_empty() {
                faults.push(refused(&error));
            }
            (None, Coverage::EachValue)
        }
    };
    match (source.faults(faults, coverage), value) {
        (Some(faults), _) => Err(faults),
        (None, Some(value)) => Ok(value),
        (None, None) => Err(Faults::only(Fault::new(Path::root(), Rule::Refused))),
    }
}

/// Of several faults of one value, those that say nothing new are left out: the range of a number
/// that is beyond all bounds, the words that would be allowed where there is no text at all.
fn leave_out_echoes(faults: &mut Vec<Fault>) {
    let mut named: BTreeMap<Path, BTreeSet<Rule>> = BTreeMap::new();
    for fault in &*faults {
        let rules = named.entry(fault.path.clone()).or_default();
        rules.insert(fault.rule);
    }
    faults.retain(|fault| {
        let said = |rule| {
            named
                .get(&fault.path)
                .is_some_and(|rules| rules.contains(&rule))
        };
        !match fault.rule {
            Rule::BelowMinimum | Rule::AboveMaximum | Rule::NotAbove | Rule::NotBelow => {
                said(Rule::BeyondAllBounds) || said(Rule::MinusZero)
            }
            Rule::NotOneOf => said(Rule::WrongType),
            Rule::TextForm | Rule::TextFormat => said(Rule::EmptyText),
            _ => false,
        }
    });
}

/// A refusal by a type itself, for a reason that its schema does not tell.
fn refused(error: &serde_path_to_error::Error<serde_json::Error>) -> Fault {
    use serde_path_to_error::Segment;
    let path = error
        .path()
        .iter()
        .fold(Path::root(), |path, segment| match segment {
            Segment::Seq { index } => path.item(*index),
            Segment::Map { key } => path.key(key),
            Segment::Enum { .. } | Segment::Unknown => path,
        });
    let reason = super::fault::clipped(&error.inner().to_string());
    Fault::new(path, Rule::Refused).with("reason", reason)
}
