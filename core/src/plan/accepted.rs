//! An order that was accepted, as long as it does everything that is to be done, each in its turn.

use super::Use;
use super::finding::{Finding, Subject, Verdict};
use crate::case::{Case, OrderedUse};
use std::collections::BTreeMap;

/// What decides in which order things are done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderBy {
    /// The plain rule of the setup.
    Rule,
    /// The order that was accepted.
    Accepted,
    /// The plain rule, because the accepted order does not fit the plan any more.
    RuleForWant,
}

impl OrderBy {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Rule => "rule",
            Self::Accepted => "accepted",
            Self::RuleForWant => "rule_for_want",
        }
    }
}

impl Use {
    /// The same as an accepted order holds it; nothing for taking the guide off.
    #[must_use]
    pub fn ordered(&self) -> Option<OrderedUse> {
        Some(match self.clone() {
            Self::Pin { name } => OrderedUse::Pin { pin: name },
            Self::Punch { site } => OrderedUse::Punch { site },
            Self::Drill { site, step } => OrderedUse::Drill { site, step },
            Self::Insert { site } => OrderedUse::Insert { site },
            Self::GuideOff => return None,
        })
    }

    fn of(one: &OrderedUse) -> Self {
        match one.clone() {
            OrderedUse::Pin { pin } => Self::Pin { name: pin },
            OrderedUse::Punch { site } => Self::Punch { site },
            OrderedUse::Drill { site, step } => Self::Drill { site, step },
            OrderedUse::Insert { site } => Self::Insert { site },
        }
    }
}

/// The order to follow: the accepted one where it fits, else `plain`.
///
/// It fits when it holds the same things as `plain`, those of each site in the same sequence, and
/// each before or after the guide comes off as there, pins first, then punches.
pub(super) fn order_to_follow(case: &Case, plain: Vec<Use>) -> (Vec<Use>, OrderBy) {
    if case.accepted_order.is_empty() {
        return (plain, OrderBy::Rule);
    }
    let accepted: Vec<Use> = case.accepted_order.iter().map(Use::of).collect();
    let guided = plain.iter().position(|one| *one == Use::GuideOff);
    let mut full = accepted;
    full.insert(guided.unwrap_or(full.len()).min(full.len()), Use::GuideOff);
    if rows(&full) == rows(&plain) && parts(&full) == parts(&plain) {
        (full, OrderBy::Accepted)
    } else {
        (plain, OrderBy::RuleForWant)
    }
}

/// What is done at each site, in sequence, with what comes for the whole jaw.
fn rows(order: &[Use]) -> BTreeMap<String, Vec<&Use>> {
    let mut rows: BTreeMap<String, Vec<&Use>> = BTreeMap::new();
    for one in order {
        // A letter before it keeps a pin's name and a site's id apart.
        let key = match one {
            Use::Pin { name } => format!("p{name}"),
            Use::Punch { site } => format!("u{site}"),
            Use::Drill { site, .. } | Use::Insert { site } => format!("s{site}"),
            Use::GuideOff => String::new(),
        };
        rows.entry(key).or_default().push(one);
    }
    rows
}

/// Pins, punches, what the guide leads and what it does not, each part without its order.
fn parts(order: &[Use]) -> Vec<(u8, Vec<OrderedUse>)> {
    let mut parts: Vec<(u8, Vec<OrderedUse>)> = Vec::new();
    let mut off = 0;
    for one in order {
        let part = match one {
            Use::Pin { .. } => 0,
            Use::Punch { .. } => 1,
            Use::Drill { .. } | Use::Insert { .. } => 2 + off,
            Use::GuideOff => {
                off = 1;
                continue;
            }
        };
        match parts.last_mut().filter(|(last, _)| *last == part) {
            Some((_, members)) => members.extend(one.ordered()),
            None => parts.push((part, Vec::from_iter(one.ordered()))),
        }
    }
    for (_, members) in &mut parts {
        members.sort();
    }
    parts
}

/// Says so where the accepted order is not followed.
pub(super) fn check(by: OrderBy) -> Option<Finding> {
    (by == OrderBy::RuleForWant).then(|| {
        Finding::new(
            Subject::Sequence,
            "accepted-order-does-not-fit",
            "accepted_order",
        )
        .verdict(Verdict::Unknown)
    })
}
