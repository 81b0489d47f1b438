//! Neighbours: natural roots, implants placed earlier, other planned implants.
//!
//! A distance is measured, or comes from two measured placements, or from the arch model. What
//! comes from the arch model is short where it breaks the limit and unknown otherwise. A distance
//! that was measured before something moved, or that the model grossly contradicts, does not hide it.
//! Of several that count the least does, and that they contradict each other is a finding.

mod astray;
mod beside_implant;
mod beside_model;
mod between_heights;
mod between_platforms;
mod disagree;
mod impacted;
mod least;
mod pair;
mod points;
mod tooth;

use crate::case::{
    Distance, DistanceTo, NeighbourKind, Place, Rule, SitePlace, SiteState, Tooth, ToothState,
};
use crate::dentition::{ArchModel, ToothPosition};
use crate::measure::Length;
use crate::plan::clearance::plausible;
use crate::plan::clearance::space::Axis;
use crate::plan::depth::body::body;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::figure::{Basis, Known, Origin, Quantity, Reason, Sign, Term};
use crate::plan::finding::{Finding, Verdict};
use crate::plan::term_name::TermName;
use pair::pair_findings;
use std::collections::BTreeSet;
use tooth::tooth_finding;

/// A site with its cut and its axis.
pub(in crate::plan) struct PlacedSite<'a> {
    pub(in crate::plan) cut: SiteCuts<'a>,
    pub(in crate::plan) axis: Option<Axis>,
}

/// The neighbours of all sites.
pub(in crate::plan) fn check(
    placed: &[PlacedSite<'_>],
    arch: Option<&ArchModel>,
    out: &mut Vec<Finding>,
) {
    for one in placed {
        let mut told = BTreeSet::from([one.cut.site.site.tooth]);
        at_site(one, arch, out);
        for towards in [Towards::Mesial, Towards::Distal] {
            beside(one, placed, arch, towards, &mut told, out);
        }
        impacted::behind(one, &mut told, out);
        entered_beyond(one, arch, &told, out);
        contradictions(one, out);
        plausible::neighbours(one, placed, arch, out);
    }
    let order: Vec<ToothPosition> = placed
        .first()
        .map(|one| ToothPosition::all_of(one.cut.site.case.jaw).collect())
        .unwrap_or_default();
    let place = |one: &PlacedSite<'_>| order.iter().position(|p| *p == one.cut.site.site.tooth);
    let mut along: Vec<&PlacedSite<'_>> = placed.iter().collect();
    along.sort_by_key(|one| place(one));
    for (n, m) in (0..along.len()).flat_map(|n| (n + 1..along.len()).map(move |m| (n, m))) {
        // The pair is named from the site entered first, so that a mirrored case names it alike.
        let (a, b) = (along[n], along[m]);
        let index = |one: &PlacedSite<'_>| {
            placed
                .iter()
                .position(|p| p.cut.site.site.id == one.cut.site.site.id)
        };
        let (a, b) = if index(a) <= index(b) { (a, b) } else { (b, a) };
        let between = if m == n + 1 {
            between(a, b, &order)
        } else {
            Between::Site
        };
        pair_findings(a, b, between, out);
        if m == n + 1 {
            out.extend(astray::between(a, b));
        }
    }
}

/// The thing between two sites.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Between {
    /// Nothing that is known of.
    Nothing,
    /// A tooth or an implant placed earlier: each site is held against it instead.
    Tooth,
    /// A tooth of which nobody entered what kind it is: it may be buried, or a pontic, and part nothing.
    OfUnknownKind(ToothPosition),
    /// Another site: each is held against that one first.
    Site,
}

fn between(a: &PlacedSite<'_>, b: &PlacedSite<'_>, order: &[ToothPosition]) -> Between {
    let place = |one: &PlacedSite<'_>| order.iter().position(|p| *p == one.cut.site.site.tooth);
    let (Some(a_place), Some(b_place)) = (place(a), place(b)) else {
        return Between::Nothing;
    };
    let (first, last) = (a_place.min(b_place), a_place.max(b_place));
    let inner = order.get(first + 1..last).unwrap_or_default();
    // Impacted teeth and root remnants part nothing at the crest.
    let parts =
        |tooth: &&Tooth| inner.contains(&tooth.position) && stands(**tooth) && !is_buried(**tooth);
    let teeth = a.cut.site.case.teeth.iter();
    let parting: Vec<&Tooth> = teeth.filter(parts).collect();
    if parting.iter().any(|tooth| tooth.kind.is_some()) {
        return Between::Tooth;
    }
    // The one beside the first site is named.
    let place = |tooth: &ToothPosition| order.iter().position(|p| p == tooth);
    let from_first = |tooth: &ToothPosition| place(tooth).map(|at| at.abs_diff(a_place));
    let parting = parting.into_iter().map(|tooth| tooth.position);
    let first = parting.min_by_key(from_first);
    first.map_or(Between::Nothing, Between::OfUnknownKind)
}

/// The finding on the site's own place: a tooth that no one marked to be extracted is a
/// contradiction, and a buried root or tooth a neighbour.
fn at_site(one: &PlacedSite<'_>, arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    let site = one.cut.site.site;
    let own = site.tooth;
    out.extend(astray::at_site(one, arch));
    let Some(tooth) = one.cut.site.case.teeth.iter().find(|t| t.position == own) else {
        out.push(not_entered(one, own));
        return;
    };
    out.extend(as_the_bone(one, *tooth));
    let removed = matches!(site.state, SiteState::ImplantToRemove { .. })
        && tooth.kind == Some(NeighbourKind::Implant);
    match tooth.kind {
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant) if stands(*tooth) => {
            // The arch model knows of no depth, so it cannot say how far off a buried one lies.
            out.push(tooth_finding(one, *tooth, None));
        }
        kind if stands(*tooth) && !removed => out.push(
            Finding::new(Rule::ToothAtSite, neighbour_path(one, own))
                .verdict(Verdict::Short)
                .arg("position", own)
                .arg(
                    "what",
                    match kind {
                        Some(NeighbourKind::Implant) => "implant",
                        _ => "tooth",
                    },
                ),
        ),
        _ if !entered_to(one, own).is_empty() => out.push(no_root(one, *tooth)),
        _ => {}
    }
}

/// A tooth, buried or not, or an implant that comes out right before and a bone that is no socket, or a
/// socket of what has no root: without the guide depths count from the rim of a socket, in healed bone from the crest.
fn as_the_bone(one: &PlacedSite<'_>, tooth: Tooth) -> Option<Finding> {
    let is_implant = tooth.kind == Some(NeighbourKind::Implant);
    let is_pontic = tooth.kind == Some(NeighbourKind::Pontic);
    let (bone, is_of_this) = match one.cut.site.site.state {
        SiteState::FreshSocket { .. } => (Some("socket"), true),
        SiteState::ImplantToRemove { .. } => (Some("implant"), is_implant),
        SiteState::Healed {} | SiteState::Grafted { .. } => (None, false),
    };
    let rule = match tooth.state {
        _ if is_pontic && bone.is_some() => Rule::SocketWithoutTooth,
        ToothState::ToExtract if !is_of_this && !is_pontic => Rule::SocketNotEntered,
        ToothState::Missing if bone.is_some() && !stands(tooth) => Rule::SocketWithoutTooth,
        _ => return None,
    };
    let what = match is_pontic {
        true => "pontic",
        false if is_buried(tooth) => "buried",
        false => "none",
    };
    let finding = Finding::new(rule, one.cut.site.at(SitePlace::Whole));
    let finding = finding.verdict(Verdict::Unknown);
    let finding = finding.arg("bone", bone.unwrap_or("healed"));
    Some(finding.arg("what", what).arg("position", tooth.position))
}

/// The distances of a site entered to the tooth at this position.
fn entered_to<'a>(one: &PlacedSite<'a>, position: ToothPosition) -> Vec<&'a Distance> {
    let distances = one.cut.site.site.distances.iter();
    distances
        .filter(|distance| distance.to == DistanceTo::Tooth { position })
        .collect()
}

/// Distances entered to teeth that the walk along the arch did not come to: none is left unsaid.
fn entered_beyond(
    one: &PlacedSite<'_>,
    arch: Option<&ArchModel>,
    told: &BTreeSet<ToothPosition>,
    out: &mut Vec<Finding>,
) {
    let entered: BTreeSet<ToothPosition> = one
        .cut
        .site
        .site
        .distances
        .iter()
        .filter_map(|distance| match distance.to {
            DistanceTo::Tooth { position } => Some(position),
            DistanceTo::Site { .. } => None,
        })
        .filter(|position| !told.contains(position))
        .collect();
    for position in entered {
        let teeth = &one.cut.site.case.teeth;
        match teeth.iter().find(|tooth| tooth.position == position) {
            Some(tooth) if !stands(*tooth) => {
                // Until it is out its root is there.
                let root = comes_out(*tooth).then(|| tooth_finding(one, *tooth, arch));
                let near = root.filter(|root| root.verdict == Verdict::Short);
                out.push(near.unwrap_or_else(|| no_root(one, *tooth)));
            }
            Some(tooth) => out.push(tooth_finding(one, *tooth, arch)),
            // Someone measured to it, so something stands there.
            None => {
                let tooth = Tooth {
                    position,
                    state: ToothState::Present,
                    kind: None,
                };
                out.push(tooth_finding(one, tooth, arch));
            }
        }
    }
}

/// Teeth to which distances were entered that cannot all be true.
fn contradictions(one: &PlacedSite<'_>, out: &mut Vec<Finding>) {
    let distances = one.cut.site.site.distances.iter();
    let teeth: BTreeSet<ToothPosition> = distances
        .filter_map(|distance| match distance.to {
            DistanceTo::Tooth { position } => Some(position),
            DistanceTo::Site { .. } => None,
        })
        .collect();
    out.extend(
        teeth
            .into_iter()
            .filter_map(|position| tooth::disagreement(one, position)),
    );
}

/// A distance was entered to a place without a root. To a tooth entered as missing that is a
/// contradiction; to one that will be gone, or a pontic, it is worth knowing.
fn no_root(one: &PlacedSite<'_>, tooth: Tooth) -> Finding {
    let gone = tooth.state == ToothState::ToExtract || tooth.kind == Some(NeighbourKind::Pontic);
    Finding::new(Rule::DistanceToNoRoot, neighbour_path(one, tooth.position))
        .verdict(if gone {
            Verdict::Note
        } else {
            Verdict::Unknown
        })
        .arg("position", tooth.position)
        .arg("tooth", root_now(tooth))
}

/// Whether the root of a tooth that bears no root in the plan is still there.
fn root_now(tooth: Tooth) -> &'static str {
    match tooth.state {
        ToothState::ToExtract if tooth.kind != Some(NeighbourKind::Pontic) => "to_extract",
        ToothState::Present | ToothState::Missing | ToothState::ToExtract => "none",
    }
}

/// Walks from a site along the arch to the first root or implant that is there, or to a position of
/// which nothing was entered. Buried roots and teeth on the way are reported too, and do not end
/// it; nor does a tooth of unknown kind, which may be one of them or a pontic: what is behind it is unknown for that.
fn beside(
    one: &PlacedSite<'_>,
    placed: &[PlacedSite<'_>],
    arch: Option<&ArchModel>,
    towards: Towards,
    told: &mut BTreeSet<ToothPosition>,
    out: &mut Vec<Finding>,
) {
    let case = one.cut.site.case;
    let own = one.cut.site.site.tooth;
    let mut at = own;
    let mut behind: Option<ToothPosition> = None;
    while let Some(next) = towards.next(own, at) {
        at = next;
        let tooth = case.teeth.iter().find(|tooth| tooth.position == at);
        let planned = placed.iter().find(|other| other.cut.site.site.tooth == at);
        let is_measured = !entered_to(one, at).is_empty();
        if let Some(unknown) = behind {
            // What was measured is told by itself.
            let stands = tooth.is_none_or(|tooth| stands(*tooth));
            let is_asked = stands && !is_measured && (tooth.is_some() || planned.is_none());
            if is_asked && told.insert(at) {
                let asked = behind_unknown(one, at, tooth, arch, unknown);
                // One kind after the other: what is behind it is asked once this is known.
                let is_last = asked.is_some() && tooth.is_none_or(|tooth| tooth.kind.is_none());
                out.extend(asked);
                if is_last {
                    return;
                }
            }
        } else if let Some(tooth) = tooth.filter(|tooth| is_buried(**tooth) && stands(**tooth))
            && told.insert(at)
        {
            out.push(tooth_finding(one, *tooth, arch));
        }
        let is_socket = tooth.is_some_and(|tooth| comes_out(*tooth))
            || planned.is_some_and(|other| other.cut.site.is_socket());
        if is_socket && towards.next(own, own) == Some(at) {
            let finding = Finding::new(Rule::BoneTowardsSocket, neighbour_path(one, at));
            let mut finding = finding.verdict(Verdict::Unknown).arg("position", at);
            finding.bodies.extend(planned.map(|other| body(&other.cut)));
            out.push(finding);
        }
        if planned.is_some() {
            return; // A planned implant: the pair is looked at by itself.
        }
        let Some(tooth) = tooth else {
            if behind.is_none() && !is_measured {
                out.push(not_entered(one, at));
            }
            return;
        };
        if !stands(*tooth) || is_buried(*tooth) {
            continue;
        }
        if behind.is_none() && told.insert(at) {
            out.push(tooth_finding(one, *tooth, arch));
        }
        match tooth.kind {
            Some(_) => return,
            None => behind = behind.or(Some(at)),
        }
    }
}

/// What would be told of a place if the tooth in front of it parted nothing, unknown for want of that one's kind; nothing
/// where it would be clear.
fn behind_unknown(
    one: &PlacedSite<'_>,
    at: ToothPosition,
    tooth: Option<&Tooth>,
    arch: Option<&ArchModel>,
    unknown: ToothPosition,
) -> Option<Finding> {
    let told = match tooth {
        Some(tooth) => tooth_finding(one, *tooth, arch),
        None => Finding::new(Rule::NeighbourRoot, neighbour_path(one, at))
            .verdict(Verdict::Unknown)
            .arg("position", at),
    };
    let is_open = matches!(told.verdict, Verdict::Short | Verdict::Unknown);
    is_open.then(|| unknown_for_kind(told, unknown))
}

/// A finding that would be another if a tooth were of another kind.
fn unknown_for_kind(finding: Finding, tooth: ToothPosition) -> Finding {
    Finding {
        value: Known::Unknown(vec![Reason::KindNotEntered { tooth, left: None }]),
        basis: Basis::Measured,
        figure: None,
        ..finding.verdict(Verdict::Unknown)
    }
}

/// A direction along the arch, seen from a site.
#[derive(Debug, Clone, Copy)]
enum Towards {
    Mesial,
    Distal,
}

impl Towards {
    /// The next position; past the midline it goes on along the other side.
    fn next(self, start: ToothPosition, at: ToothPosition) -> Option<ToothPosition> {
        match self {
            Self::Mesial if at.side() == start.side() => Some(at.mesial_neighbour()),
            Self::Mesial | Self::Distal => at.distal_neighbour(),
        }
    }
}

fn is_buried(tooth: Tooth) -> bool {
    matches!(
        tooth.kind,
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant)
    )
}

/// True if a root or an implant is there: a buried one, or an implant, whose tooth is missing too.
fn stands(tooth: Tooth) -> bool {
    match tooth.kind {
        Some(NeighbourKind::Pontic) => false,
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant | NeighbourKind::Implant) => {
            tooth.state != ToothState::ToExtract
        }
        _ => tooth.state == ToothState::Present,
    }
}

/// True if a root or an implant is there until it is taken out: then its socket is.
fn comes_out(tooth: Tooth) -> bool {
    tooth.state == ToothState::ToExtract && tooth.kind != Some(NeighbourKind::Pontic)
}

fn neighbour_path(one: &PlacedSite<'_>, position: ToothPosition) -> Place {
    one.cut.site.at(SitePlace::ToTooth(position, None))
}

fn not_entered(one: &PlacedSite<'_>, position: ToothPosition) -> Finding {
    let path = neighbour_path(one, position);
    let mut finding = Finding::new(Rule::NeighbourNotEntered, path)
        .verdict(Verdict::Unknown)
        .arg("position", position);
    finding.value = Known::missing(Place::Tooth(position));
    finding
}

/// A margin by the arch model only bounds the true one.
fn of_model(margin: Known<Length>) -> Known<Length> {
    match margin {
        Known::Is(left) => Known::Unknown(vec![Reason::ArchModelOnly(left)]),
        unknown @ Known::Unknown(_) => unknown,
    }
}

fn model_term(one: &PlacedSite<'_>) -> Term {
    Term {
        name: TermName::ArchModel,
        sign: Sign::With,
        from: Origin::Case(Place::Arch.into()),
        value: Known::Is(Quantity::Length(
            one.cut
                .site
                .case
                .arch
                .map_or(Length::ZERO, |arch| arch.width_mm),
        )),
        basis: Basis::ArchModel,
    }
}
