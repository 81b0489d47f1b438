//! Healing: a document with a misspelt key is still worth a closer look.
//!
//! A key or word that was likely misspelt is read as the one that was meant, any other unknown key
//! is left out. That never makes a document good: the fault stays. It only lets the report be
//! complete.

use super::schema::checker_for;
use super::structure::{Difference, Fix, Structure};
use super::{Fault, Path, Step};
use schemars::JsonSchema;
use serde_json::Value;
use std::collections::BTreeMap;

/// So often it is looked at what shows behind a mended fault.
const MOST_ROUNDS: usize = 6;

/// A value as far as it could be mended, and all faults of its structure.
#[derive(Debug)]
pub(super) struct Recovered {
    pub(super) value: Value,
    pub(super) faults: Vec<Fault>,
    /// The renamed keys: the place by the new name, and the key as it was written.
    written: BTreeMap<Path, String>,
}

impl Recovered {
    /// A value held against the schema of a type.
    pub(super) fn by_schema<T: JsonSchema + 'static>(value: Value) -> Self {
        let checker = checker_for::<T>();
        let mut recovered = Self {
            value,
            faults: Vec::new(),
            written: BTreeMap::new(),
        };
        for round in 1..=MOST_ROUNDS {
            let structure = Structure {
                checker: &checker,
                value: &recovered.value,
            };
            let (mendable, others): (Vec<_>, Vec<_>) = structure
                .differences()
                .into_iter()
                .partition(|difference| difference.fix.is_some());
            let last = mendable.is_empty() || round == MOST_ROUNDS;
            for difference in mendable {
                recovered.fix(difference);
            }
            // What is not mended comes again in the next round.
            if last {
                for Difference { fault, .. } in others {
                    recovered.add(fault);
                }
                break;
            }
        }
        recovered
    }

    fn add(&mut self, mut fault: Fault) {
        fault.path = self.as_written(&fault.path);
        self.faults.push(fault);
    }

    fn fix(&mut self, Difference { fault, fix }: Difference) {
        let path = fault.path.clone();
        self.add(fault);
        let Some(fix) = fix else { return };
        if let Fix::Replace(with) = fix {
            if let Some(value) = at(&mut self.value, &path) {
                *value = with;
            }
            return;
        }
        let Some((parent, Step::Key(key))) = path.split_last() else {
            return;
        };
        let Some(object) = at(&mut self.value, &parent).and_then(Value::as_object_mut) else {
            return;
        };
        let child = object.remove(key);
        if let (Fix::Rename(to), Some(child)) = (fix, child)
            && !object.contains_key(&to)
        {
            self.written.insert(parent.key(&to), key.clone());
            object.insert(to, child);
        }
    }

    /// A place of the healed value as written in the file.
    pub(super) fn as_written(&self, path: &Path) -> Path {
        let mut recovered = Path::root();
        let mut written = Path::root();
        for step in path.steps() {
            recovered = recovered.then(step.clone());
            written = match self.written.get(&recovered) {
                Some(key) => written.key(key),
                None => written.then(step.clone()),
            };
        }
        written
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
