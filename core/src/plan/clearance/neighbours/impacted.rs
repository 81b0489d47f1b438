//! Impacted teeth behind what stands beside a site: they lie where the walk along the arch does not come to.

use super::tooth::tooth_finding;
use super::{PlacedSite, entered_to, stands, unknown_for_kind};
use crate::case::NeighbourKind;
use crate::dentition::{ToothPosition, tooth_size};
use crate::measure::Length;
use crate::plan::finding::Finding;
use std::collections::BTreeSet;

/// Asks for the distance to each impacted tooth that may reach the site and was not `told` yet. Those of unknown kind may be
/// impacted: the kind of the nearest is asked for, of all that were not measured.
pub(super) fn behind(
    one: &PlacedSite<'_>,
    told: &mut BTreeSet<ToothPosition>,
    out: &mut Vec<Finding>,
) {
    let own = one.cut.site.site.tooth;
    let mut of_unknown_kind = Vec::new();
    for tooth in &one.cut.site.case.teeth {
        let position = tooth.position;
        let may_be_impacted = match tooth.kind {
            Some(kind) => kind == NeighbourKind::Impacted,
            None => entered_to(one, position).is_empty(),
        };
        if may_be_impacted && stands(*tooth) && may_reach(position, own) && told.insert(position) {
            match tooth.kind {
                // As on the site's own place: nobody knows from its position how it lies.
                Some(_) => out.push(tooth_finding(one, *tooth, None)),
                None => of_unknown_kind.push(*tooth),
            }
        }
    }
    let nearest = of_unknown_kind
        .iter()
        .min_by_key(|tooth| away(tooth.position, own));
    if let Some(nearest) = nearest {
        let finding = tooth_finding(one, *nearest, None);
        let mut finding = unknown_for_kind(finding, nearest.position);
        // Whoever accepts one of them accepts no more than these.
        let all = of_unknown_kind.iter();
        let all = all.map(|tooth| format!("no kind {}", tooth.position));
        finding.bodies.extend(all);
        out.push(finding);
    }
}

/// Number of places between two teeth of a jaw along the row.
fn away(one: ToothPosition, other: ToothPosition) -> usize {
    let row: Vec<ToothPosition> = ToothPosition::all_of(one.jaw()).collect();
    let place = |of| row.iter().position(|position| *position == of);
    place(one)
        .zip(place(other))
        .map_or(usize::MAX, |(a, b)| a.abs_diff(b))
}

/// True if a tooth that lies flat, with one end at its own place, may reach the middle of another: it is as
/// long as the way along the row, by mean sizes.
fn may_reach(impacted: ToothPosition, site: ToothPosition) -> bool {
    let row: Vec<ToothPosition> = ToothPosition::all_of(site.jaw()).collect();
    let place = |of| row.iter().position(|position| *position == of);
    let Some((a, b)) = place(impacted).zip(place(site)) else {
        return false;
    };
    let width = |position: &ToothPosition| tooth_size(*position).crown_md;
    let from_first_to_last: Length = row[a.min(b)..=a.max(b)].iter().map(width).sum();
    let ends = width(&impacted) + width(&site);
    let size = tooth_size(impacted);
    size.crown_length + size.root_length >= from_first_to_last - ends.half_ceil()
}
