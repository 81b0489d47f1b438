//! Ids that are given once, and references that lead somewhere.

use super::{Argument, Fault, Path, Rule, bound_at};
use std::collections::BTreeMap;
use std::fmt::Display;

/// Gathers the faults of a document's own checks.
#[derive(Debug, Default)]
pub struct Checks {
    faults: Vec<Fault>,
}

impl Checks {
    /// The faults that were found.
    #[must_use]
    pub fn into_faults(self) -> Vec<Fault> {
        self.faults
    }

    /// Adds a fault.
    pub fn push(&mut self, fault: Fault) {
        self.faults.push(fault);
    }

    /// Each id of a list is given once; `key` is the key that holds it in each item.
    pub fn unique<I: Display>(&mut self, list: &Path, key: &str, ids: impl IntoIterator<Item = I>) {
        let mut first: BTreeMap<String, usize> = BTreeMap::new();
        for (n, id) in ids.into_iter().enumerate() {
            let id = id.to_string();
            if let Some(before) = first.get(&id) {
                self.same(list.item(n).key(key), list.item(*before), (key, &id));
            } else {
                first.insert(id, n);
            }
        }
    }

    /// What may be given once is given again, under this key.
    pub fn same(&mut self, at: Path, first: Path, (key, id): (&str, &str)) {
        let fault = Fault::new(at, Rule::DuplicateId)
            .with("first", Argument::Place(first))
            .with("id", id)
            .with("key", Argument::key(key));
        self.push(fault);
    }

    /// An id leads to one of those that are known; `noun` is their key in `fault-noun`.
    pub fn reference<'k>(
        &mut self,
        at: Path,
        noun: &str,
        id: &str,
        known: impl IntoIterator<Item = &'k str>,
    ) {
        // Only one slip of the hand away, and only where one id alone is: the next drill of the
        // ladder is a likely name too, and naming it would invite taking it.
        let mut near = None;
        let mut several = false;
        for other in known {
            if other == id {
                return;
            }
            if strsim::osa_distance(id, other) == 1 {
                several |= near.is_some_and(|before| before != other);
                near = Some(other);
            }
        }
        let fault = match near.filter(|_| !several) {
            Some(instead) => Fault::new(at, Rule::MisspeltReference).with("instead", instead),
            None => Fault::new(at, Rule::DanglingReference),
        };
        self.push(fault.with("id", id).with("noun", noun));
    }

    /// One value is at least as great as another one of the document: that of the key `other`, or
    /// what `fault-other` has under it.
    pub fn at_least<T: PartialOrd + Display>(
        &mut self,
        at: Path,
        value: &T,
        limit: &T,
        other: &str,
    ) {
        if value < limit {
            self.push(against(Rule::BelowOther, at, value, limit, other));
        }
    }

    /// One value is at most as great as another one of the document, as in [`Self::at_least`].
    pub fn at_most<T: PartialOrd + Display>(
        &mut self,
        at: Path,
        value: &T,
        limit: &T,
        other: &str,
    ) {
        if value > limit {
            self.push(against(Rule::AboveOther, at, value, limit, other));
        }
    }
}

/// A value that does not agree with another one, both with their unit.
fn against<T: Display>(rule: Rule, at: Path, value: &T, limit: &T, other: &str) -> Fault {
    let unit = bound_at(&at).unit;
    let shown = |value: &T| Argument::Number(value.to_string(), unit);
    Fault::new(at, rule)
        .with("value", shown(value))
        .with("limit", shown(limit))
        .with("other", Argument::key(other))
}
