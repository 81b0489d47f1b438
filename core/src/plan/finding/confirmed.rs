//! What was confirmed and not measured anew, told beside each finding that counts on it.

use super::Finding;
use crate::case::{Case, Confirmed, DistanceTo, MeasuredAt, Place, SitePlace};
use crate::measure::Length;
use crate::plan::figure::{Basis, Origin};

/// Says of each finding who confirmed what it was worked out from (`confirmed_by`), and how far the
/// site had moved by then (`moved_by`): of several the farthest, nothing where that cannot be told.
pub(in crate::plan) fn attach_confirmations(findings: &mut [Finding], case: &Case) {
    for finding in findings {
        let terms = finding.figure.iter().flat_map(|figure| &figure.terms);
        let confirmed = terms.filter(|term| term.basis == Basis::Confirmed);
        let words = confirmed.filter_map(|term| match &term.from {
            Origin::Case(field) => word_on(case, &field.at),
            _ => None,
        });
        let farthest = words.max_by_key(|(_, moved)| moved.unwrap_or(Length::from_mm(1_000)));
        let Some((word, moved)) = farthest else {
            continue;
        };
        finding.args.insert("confirmed_by", (&word.by).into());
        if let Some(moved) = moved {
            finding.args.insert("moved_by", moved.into());
        }
    }
}

/// The word on the value at a place, and how far its site had moved.
fn word_on<'a>(case: &'a Case, place: &Place) -> Option<(&'a Confirmed, Option<Length>)> {
    let Place::Site(id, part) = place else {
        return None;
    };
    let site = case.sites.iter().find(|site| site.id == *id)?;
    let of = |one: &'a MeasuredAt| one.confirmed.as_ref();
    let word = match part {
        SitePlace::Height(height) => site.heights.word_on(*height),
        SitePlace::Wall(side, at) => {
            let wall = site.walls.iter().find(|w| (w.side, w.at) == (*side, *at));
            wall.and_then(|wall| of(&wall.measured_at))
        }
        SitePlace::Structure(kind) | SitePlace::AnteriorLoop(kind) => {
            let structure = site.structures.iter().find(|s| s.kind == *kind);
            structure.and_then(|structure| of(&structure.measured_at))
        }
        SitePlace::SocketGap => site.state.gap_confirmed(),
        SitePlace::Obstacle(n) => site.obstacles.get(*n).and_then(|o| of(&o.measured_at)),
        SitePlace::ToTooth(position, Some(at)) => {
            let to = DistanceTo::Tooth {
                position: *position,
            };
            let distance = site.distances.iter().find(|d| (&d.to, d.at) == (&to, *at));
            distance.and_then(|distance| of(&distance.measured_at))
        }
        SitePlace::ToSite(other, Some(at)) => {
            // Entered from either of the two.
            let from = |id: &crate::kit::SiteId, to: &crate::kit::SiteId| {
                let site = case.sites.iter().find(|site| site.id == *id)?;
                let to = DistanceTo::Site { site: to.clone() };
                let distance = site
                    .distances
                    .iter()
                    .find(|d| (&d.to, d.at) == (&to, *at))?;
                let word = of(&distance.measured_at)?;
                Some((word, word.moved(&site.placement)))
            };
            return from(id, other).or_else(|| from(other, id));
        }
        _ => None,
    }?;
    Some((word, word.moved(&site.placement)))
}
