//! Steps done since a plan was approved, kept until the case changes.

use crate::desk::Document;
use std::collections::BTreeMap;
use traywright_core::sign::Fingerprint;

/// Names of the steps done since each approved plan.
#[derive(Debug)]
pub(super) struct Held {
    of: (u64, usize),
    since: BTreeMap<Fingerprint, Option<Vec<String>>>,
}

impl Held {
    /// The steps done since the plans that were approved, found anew only where `kept` is old.
    pub(super) fn of(kept: Option<Self>, document: &Document) -> Self {
        let approvals = &document.record.standing.approvals;
        let of = (document.generation(), approvals.len());
        match kept {
            Some(kept) if kept.of == of => kept,
            _ => {
                let since = approvals.iter().map(|approval| {
                    let fingerprint = approval.approval.fingerprint;
                    let names = document.steps_since(fingerprint);
                    let owned = |names: Vec<&str>| names.into_iter().map(str::to_owned).collect();
                    (fingerprint, names.map(owned))
                });
                Self {
                    of,
                    since: since.collect(),
                }
            }
        }
    }

    /// The steps done since a plan; nothing where that is not known.
    pub(super) fn since(&self, fingerprint: Fingerprint) -> Option<&[String]> {
        self.since.get(&fingerprint)?.as_deref()
    }
}
