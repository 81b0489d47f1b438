//! An order that was accepted, as long as it does everything that is to be done, each in its turn.

use crate::case::{Case, OrderedUse, Place, Rule};
use crate::kit::SiteId;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::order::operations::Operation;
use std::collections::BTreeMap;

/// The source of the order in which things are done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderBy {
    /// The plain rule of the setup.
    Rule,
    /// The order that was accepted.
    Accepted,
    /// The plain rule, because the accepted order does not fit the plan any more.
    Fallback,
}

impl OrderBy {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Rule => "rule",
            Self::Accepted => "accepted",
            Self::Fallback => "fallback",
        }
    }
}

impl Operation {
    /// The same as an accepted order holds it; nothing for what is done for the whole jaw.
    #[must_use]
    pub fn ordered(&self) -> Option<OrderedUse> {
        match self.clone() {
            Self::Pin { name } => Some(OrderedUse::Pin { pin: name }),
            Self::Drill { site, step } => Some(OrderedUse::Drill { site, step }),
            Self::Insert { site } => Some(OrderedUse::Insert { site }),
            Self::Punch { .. } | Self::Reseat | Self::Sound { .. } | Self::GuideOff => None,
        }
    }

    fn of(one: &OrderedUse) -> Self {
        match one.clone() {
            OrderedUse::Pin { pin } => Self::Pin { name: pin },
            OrderedUse::Drill { site, step } => Self::Drill { site, step },
            OrderedUse::Insert { site } => Self::Insert { site },
        }
    }
}

/// The order to follow: the accepted one where it fits, else `plain`.
///
/// It fits when it holds the same things as `plain`, those of each site in the same sequence, pins
/// first, and each before or after the guide comes off as there. What is done for the whole jaw comes
/// where it comes in `plain`.
pub(in crate::plan) fn order_to_follow(
    case: &Case,
    plain: Vec<Operation>,
) -> (Vec<Operation>, OrderBy) {
    if case.accepted_order.is_empty() {
        return (plain, OrderBy::Rule);
    }
    let mut accepted = case.accepted_order.iter();
    let full: Option<Vec<Operation>> = plain
        .iter()
        .map(|one| match one.ordered() {
            Some(_) => accepted.next().map(Operation::of),
            None => Some(one.clone()),
        })
        .collect();
    let full = full.filter(|_| accepted.next().is_none());
    match full.filter(|full| rows(full) == rows(&plain) && parts(full) == parts(&plain)) {
        Some(full) => (full, OrderBy::Accepted),
        None => (plain, OrderBy::Fallback),
    }
}

/// The operations at each site, in sequence.
fn rows(order: &[Operation]) -> BTreeMap<&SiteId, Vec<&Operation>> {
    let mut rows: BTreeMap<&SiteId, Vec<&Operation>> = BTreeMap::new();
    for one in order {
        if let Operation::Drill { site, .. } | Operation::Insert { site } = one {
            rows.entry(site).or_default().push(one);
        }
    }
    rows
}

/// Pins, what the guide leads and what it does not, each part without its order.
fn parts(order: &[Operation]) -> Vec<(u8, Vec<OrderedUse>)> {
    let mut parts: Vec<(u8, Vec<OrderedUse>)> = Vec::new();
    let mut off = 0;
    for one in order {
        let part = match one {
            Operation::Pin { .. } => 0,
            Operation::Drill { .. } | Operation::Insert { .. } => 1 + off,
            Operation::Punch { .. } | Operation::Reseat | Operation::Sound { .. } => continue,
            Operation::GuideOff => {
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
pub(in crate::plan) fn check(by: OrderBy) -> Option<Finding> {
    (by == OrderBy::Fallback).then(|| {
        Finding::new(Rule::AcceptedOrderDoesNotFit, Place::AcceptedOrder).verdict(Verdict::Unknown)
    })
}
