//! The rules of a case: barriers for the whole jaw, what holds the guide, and the user's own.

use super::chains::{ChainDraft, Phase};
use crate::case::Case;
use crate::kit::SiteId;
use crate::order::{Before, Id, Rules};
use crate::plan::holding_by_default;
use std::collections::BTreeSet;

pub(super) fn rules(case: &Case, drafts: &[ChainDraft]) -> Rules {
    let mut before = barriers(drafts);
    let mut add = |first: &SiteId, then: &SiteId| {
        for phase in [Phase::Guided, Phase::Freehand] {
            let chain = |id: &SiteId| {
                let word = if phase == Phase::Guided {
                    "site"
                } else {
                    "freehand"
                };
                let id = Id::from(format!("{word}.{id}").as_str());
                drafts.iter().any(|one| one.id == id).then_some(id)
            };
            if let (Some(first), Some(then)) = (chain(first), chain(then)) {
                before.push(arc(first, then));
            }
        }
    };
    let held = holding(case);
    for first in &held {
        for then in case.sites.iter().map(|site| &site.id) {
            if !held.contains(then) {
                add(first, then);
            }
        }
    }
    for rule in &case.run.before {
        add(&rule.first, &rule.then);
    }
    Rules {
        before,
        groups: case.run.groups.clone(),
    }
}

fn arc(first: Id, then: Id) -> Before {
    Before {
        first,
        first_step: None,
        then,
        then_step: None,
    }
}

/// Each chain of a phase waits for all of the phase before.
fn barriers(drafts: &[ChainDraft]) -> Vec<Before> {
    let phases: BTreeSet<Phase> = drafts.iter().map(|one| one.phase).collect();
    let mut before = Vec::new();
    for (earlier, later) in phases.iter().zip(phases.iter().skip(1)) {
        for first in drafts.iter().filter(|one| one.phase == *earlier) {
            let then = drafts.iter().filter(|one| one.phase == *later);
            before.extend(then.map(|then| arc(first.id.clone(), then.id.clone())));
        }
    }
    before
}

/// The sites whose implants hold the guide and so come first: those that the case names, else those
/// of [`holding_by_default`].
#[must_use]
pub fn holding(case: &Case) -> BTreeSet<SiteId> {
    if let Some(named) = &case.run.hold_guide {
        return named.iter().cloned().collect();
    }
    holding_by_default(case)
}
