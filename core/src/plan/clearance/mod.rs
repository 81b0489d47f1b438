//! The distances between the cuts and what must not be hurt: structures, walls, neighbours, crowns.

use super::finding::Finding;

pub(super) mod confirmed;
pub(super) mod crest;
pub(super) mod neighbours;
pub(super) mod plausible;
pub(super) mod room;
mod socket;
pub(super) mod space;
pub(super) mod structures;
pub(super) mod walls;
mod whereabouts;

/// The findings of a check by the cuts as they are; where one is unknown for want of a gauge, by the
/// deepest that any could give, if there is that.
pub(super) fn with_any_gauge<T>(
    by_cuts: &T,
    by_deepest: Option<&T>,
    check: impl Fn(&T, &mut Vec<Finding>),
    out: &mut Vec<Finding>,
) {
    let findings = |of: &T| {
        let mut found = Vec::new();
        check(of, &mut found);
        found
    };
    let deepest = by_deepest.map(findings).unwrap_or_default();
    out.extend(findings(by_cuts).into_iter().map(|finding| {
        let is_same = |one: &&Finding| one.rule == finding.rule && one.place == finding.place;
        let same = deepest.iter().find(is_same);
        finding.or_with_any_gauge(same)
    }));
}
