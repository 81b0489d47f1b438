//! Healing: a document with unknown keys is still worth a closer look.
//!
//! A key that was likely misspelt is read as the one that was meant, any other unknown key is left
//! out. That never makes a document good: the fault stays. It only lets the report be complete.

use super::fault::quoted;
use super::schema::checker_for;
use super::structure::Structure;
use super::{Fault, Path, Rule, Step};
use schemars::JsonSchema;
use serde_json::Value;
use std::collections::BTreeMap;

/// So often a misspelt key inside of a misspelt key is looked into.
const MOST_ROUNDS: usize = 4;

/// A value with its unknown keys renamed or left out, and all faults of its structure.
pub(super) struct Healed {
    pub(super) value: Value,
    pub(super) faults: Vec<Fault>,
}

impl Healed {
    pub(super) fn by_schema<T: JsonSchema + 'static>(mut value: Value) -> Self {
        let checker = checker_for::<T>();
        let mut spelling = Vec::new();
        // Where a key was renamed: the place as it is now, and the key as it was written.
        let mut written: BTreeMap<Path, String> = BTreeMap::new();
        for _ in 0..MOST_ROUNDS {
            let structure = Structure {
                checker: &checker,
                value: &value,
            };
            let (keys, others): (Vec<_>, Vec<_>) = structure
                .faults()
                .into_iter()
                .partition(|f| matches!(f.rule, Rule::MisspeltKey | Rule::UnknownKey));
            let mut renamed = false;
            for fault in &keys {
                renamed |= heal(&mut value, fault, &mut written);
            }
            spelling.extend(keys);
            if !renamed {
                spelling.extend(others);
                break;
            }
        }
        for fault in &mut spelling {
            fault.path = as_written(&fault.path, &written);
        }
        Self {
            value,
            faults: spelling,
        }
    }
}

/// Renames or leaves out an unknown key; whether it was renamed.
fn heal(value: &mut Value, fault: &Fault, written: &mut BTreeMap<Path, String>) -> bool {
    let Some((parent, Step::Key(key))) = fault.path.split_last() else {
        return false;
    };
    let Some(object) = at(value, &parent).and_then(Value::as_object_mut) else {
        return false;
    };
    let Some(child) = object.remove(key) else {
        return false;
    };
    // The suggestion stands quoted in the fault; the keys of a type need no escapes.
    let instead = fault.args.get("instead").map(|text| text.trim_matches('"'));
    match instead {
        Some(instead) if !object.contains_key(instead) && quoted(instead).len() > 2 => {
            object.insert(instead.to_owned(), child);
            written.insert(parent.key(instead), key.clone());
            true
        }
        _ => false,
    }
}

fn at<'a>(value: &'a mut Value, path: &Path) -> Option<&'a mut Value> {
    path.steps()
        .iter()
        .try_fold(value, |value, step| match step {
            Step::Key(key) => value.get_mut(key),
            Step::Item(index) => value.get_mut(index),
        })
}

/// A place of the healed document as it stands in the file.
fn as_written(path: &Path, written: &BTreeMap<Path, String>) -> Path {
    let mut now = Path::root();
    let mut then = Path::root();
    for step in path.steps() {
        now = now.then(step.clone());
        then = match written.get(&now) {
            Some(key) => then.key(key),
            None => then.then(step.clone()),
        };
    }
    then
}
