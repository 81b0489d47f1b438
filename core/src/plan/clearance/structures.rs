//! Deep structures: canals, foramen, sinus, nasal floor.
//!
//! For a flat structure at a vertical height h below the platform of a site tilted by θ, what is
//! left is the least of
//!
//! ```text
//! tip       h − cut·cos θ
//! shoulder  h − (cut − point)·cos θ − r·sin θ
//! implant   h − z·cos θ − r·sin θ   for each ring of its outline, for a cylinder its flat end
//! ```
//!
//! A height along the axis is h / cos θ of such a structure.

use crate::case::{
    Direction, Field, Height, HeightDatum, LimitId, Place, Placement, Rule, SitePlace, Structure,
    StructureExtent, StructureKind,
};
use crate::dentition::{ArchModel, Jaw, ToothPosition};
use crate::measure::{Angle, Length};
use crate::plan::clearance::space;
use crate::plan::clearance::walls::radius_term;
use crate::plan::clearance::whereabouts::tooth_there;
use crate::plan::depth::cuts::{Bore, SiteCuts};
use crate::plan::depth::partial::PartlyKnown;
use crate::plan::depth::stale::{reach, stale_structure};
use crate::plan::figure::{Basis, Figure, Known, Origin, Quantity, Reason, Sign, Term};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::term_name::TermName;

/// The greatest tilt at which a height along the axis is taken for a vertical one by its cosine, in
/// radians: 10°. Common practice, no source. The structure was met 0.17 of that height aside of the
/// platform, 2.4 mm for 14, and is assumed level so far, as it is for a vertical height.
pub(super) const SMALL_TILT: f64 = 10.0 * std::f64::consts::PI / 180.0;

impl StructureKind {
    pub(in crate::plan) const fn limit(self) -> LimitId {
        match self {
            Self::MandibularCanal => LimitId::MandibularCanal,
            Self::MentalForamen => LimitId::MentalForamen,
            Self::IncisiveCanal => LimitId::IncisiveCanal,
            Self::NasopalatineCanal => LimitId::NasopalatineCanal,
            Self::SinusFloor | Self::SinusAnteriorWall => LimitId::Sinus,
            Self::NasalFloor => LimitId::NasalFloor,
        }
    }
}

/// The structures that must be known at a position: for each group, one of it suffices.
fn expected(jaw: Jaw, number: u8) -> &'static [&'static [StructureKind]] {
    use StructureKind::{
        IncisiveCanal, MandibularCanal, MentalForamen, NasalFloor, NasopalatineCanal,
        SinusAnteriorWall, SinusFloor,
    };
    match (jaw, number) {
        (Jaw::Lower, 6..) => &[&[MandibularCanal]],
        // Near the foramen both count: the canal below, its opening and loop beside.
        (Jaw::Lower, 4..=5) => &[&[MandibularCanal], &[MentalForamen]],
        // The canal's loop reaches mesial of the foramen, and the incisive canal goes on from there
        // to the middle. At a premolar it lies where the canal is asked for.
        (Jaw::Lower, 3) => &[&[IncisiveCanal], &[MentalForamen]],
        (Jaw::Lower, _) => &[&[IncisiveCanal]],
        (Jaw::Upper, 4..) => &[&[SinusFloor]],
        // The sinus reaches forward to the canine, in front of which its wall rises.
        (Jaw::Upper, 3) => &[&[NasalFloor], &[SinusAnteriorWall, SinusFloor]],
        (Jaw::Upper, 1) => &[&[NasalFloor], &[NasopalatineCanal]],
        (Jaw::Upper, _) => &[&[NasalFloor]],
    }
}

const ANTERIOR_WALL: &[StructureKind] = &[StructureKind::SinusAnteriorWall];

/// Tilt in degrees from which on an implant beside the sinus passes in front of it, and not below it alone.
/// Common practice, no source: those that are meant to are tilted by 30° or so.
const PASSES_THE_SINUS_DEG: i32 = 10;

/// True if a site's implant leans along or towards the sinus's anterior wall: to mesial at a premolar, or to distal from
/// in front of it, where it comes as far as the canine. Its floor, which is taken as level, says nothing of that. By
/// coordinates, by the arch model, the mean one where the patient's has no size.
fn passes_the_sinus(
    cut: &SiteCuts<'_>,
    arch: Option<&ArchModel>,
    ends: [ToothPosition; 2],
) -> bool {
    let (jaw, site) = (cut.site.case.jaw, cut.site.site);
    let most = Angle::from_deg(PASSES_THE_SINUS_DEG).radians();
    let to_distal = match site.placement {
        Placement::OnArch {
            apex_to_distal_deg, ..
        } => apex_to_distal_deg.radians(),
        Placement::Measured { .. } => {
            let model = arch.unwrap_or_else(|| ArchModel::mean(jaw));
            let there = model.tooth(site.tooth).map(|tooth| tooth.centre.distal);
            let axis = space::axis_of(site.placement, jaw, arch);
            let to_distal = there.zip(axis).map(|([x, y], axis)| {
                let [along_x, along_y, _] = axis.apical;
                along_x * x + along_y * y
            });
            libm::asin(to_distal.unwrap_or_default())
        }
    };
    let numbers = [ends[0], ends[1], site.tooth].map(|tooth| tooth.number());
    let has = |from, to| numbers.iter().any(|number| (from..=to).contains(number));
    let along_it = -to_distal > most && has(4, 5);
    let towards_it = to_distal > most && has(1, 3) && has(3, 8);
    jaw == Jaw::Upper && (along_it || towards_it)
}

/// The deep structures of a site: each entered one, and those that must be known of at its tooth and
/// where its platform and its apex are.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, arch: Option<&ArchModel>, out: &mut Vec<Finding>) {
    let site = cut.site.site;
    for structure in &site.structures {
        out.push(entered(cut, structure));
        if let Some(rule) = untold(structure) {
            out.push(missing(cut, rule, structure.kind));
        }
    }
    let at = |tooth: ToothPosition| expected(cut.site.case.jaw, tooth.number());
    let ends = [Length::ZERO, cut.site.implant.platform_to_apex_mm];
    let teeth = ends.map(|depth| tooth_there(site, arch, depth));
    let mut groups: Vec<_> = at(site.tooth).iter().collect();
    for group in teeth.into_iter().flat_map(at) {
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    if passes_the_sinus(cut, arch, teeth) {
        // Where the floor would do as well, it does no longer.
        groups.retain(|group| !group.contains(&StructureKind::SinusAnteriorWall));
        groups.push(&ANTERIOR_WALL);
    }
    for group in groups {
        let known = site
            .structures
            .iter()
            .any(|structure| group.contains(&structure.kind));
        if !known {
            let rule = Rule::DeepStructure;
            out.push(missing(cut, rule, group[0]));
        }
    }
}

/// The side of a structure that its measure says nothing of. A floor, or a canal that runs along the jaw below the
/// site, is told by its height alone: what is clear beside the site says nothing of what lies below. The nasopalatine
/// canal and the sinus's anterior wall run beside an implant, and a height says nothing of how far. A foramen given
/// by a height is unknown for want of its loop.
fn untold(structure: &Structure) -> Option<Rule> {
    let is_below = matches!(structure.extent, StructureExtent::Below { .. });
    match structure.kind {
        StructureKind::SinusFloor
        | StructureKind::NasalFloor
        | StructureKind::MandibularCanal
        | StructureKind::IncisiveCanal => (!is_below).then_some(Rule::StructureBelowNotMeasured),
        StructureKind::NasopalatineCanal | StructureKind::SinusAnteriorWall => {
            is_below.then_some(Rule::StructureBesideNotMeasured)
        }
        StructureKind::MentalForamen => None,
    }
}

fn missing(cut: &SiteCuts<'_>, rule: Rule, kind: StructureKind) -> Finding {
    let path = cut.site.at(SitePlace::Structure(kind));
    let mut finding = Finding::new(rule, path.clone())
        .verdict(Verdict::Unknown)
        .arg("structure", kind);
    finding.value = Known::missing(path);
    finding.held_to(&cut.site.case.limits, kind.limit())
}

fn entered(cut: &SiteCuts<'_>, structure: &Structure) -> Finding {
    let path = cut.site.at(SitePlace::Structure(structure.kind));
    let id = path.clone().field("margin_mm");
    let margin = match structure.extent {
        StructureExtent::Below {
            height_mm,
            from,
            direction,
        } => below(cut, structure, &path, id, (height_mm, from, direction)),
        StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm,
        } => beside(cut, structure, &path, id, (from_axis_mm, anterior_loop_mm)),
    };
    cut.margin(Rule::DeepStructure, path, structure.kind.limit(), margin)
        .arg("structure", structure.kind)
}

fn below(
    cut: &SiteCuts<'_>,
    structure: &Structure,
    path: &Place,
    id: Field,
    (height, from, direction): (Length, HeightDatum, Direction),
) -> Figure {
    let mut terms = vec![Term::case(
        TermName::StructureHeight,
        path.clone().field("height_mm"),
        Some(height),
        Basis::of(structure.measured_at.confirmed.as_ref()),
    )];
    // As the site stood when this was measured: what it moved since is taken off at the end.
    let then = cut.site.as_placed(structure.measured_at.placement);
    let crest = match from {
        HeightDatum::Platform => Known::Is(Length::ZERO),
        HeightDatum::Crest => {
            terms.push(then.crest().minus());
            then.highest_crest()
        }
    };
    let deepest = cut.deepest();
    let end = deepest_terms(cut, &deepest.clone().known());
    let tilt = structure
        .measured_at
        .placement
        .tilt()
        .filter(|tilt| *tilt > 0.0);
    let along = |deepest| from_crest(crest.clone(), deepest, |crest, end| height - crest - end);
    let (rule, value) = match (direction, tilt) {
        // Upright, both directions are one, and everything ends at the deepest point.
        (_, None) => {
            terms.extend(end);
            (FigureRule::StructureUpright, along(deepest))
        }
        (Direction::AlongAxis, Some(tilt)) if tilt > SMALL_TILT => {
            terms.extend(end);
            terms.push(tilt_term(cut, tilt));
            let value = match along(deepest) {
                Known::Is(left) => Known::Unknown(vec![Reason::AlongTiltedAxis(left)]),
                Known::Unknown(reasons) => Known::Unknown(reasons),
            };
            (FigureRule::StructureAlongAxis, value)
        }
        (_, Some(tilt)) => {
            let nearest = crest
                .get()
                .zip(cut.bores().known().value())
                .map(|(crest, bores)| {
                    nearest_over_tilted(cut, bores, (height, direction), crest, tilt)
                });
            terms.extend(nearest.map_or(end, |nearest| nearest.terms(cut)));
            terms.push(tilt_term(cut, tilt));
            let value = from_crest(crest, cut.bores(), |crest, bores| {
                nearest_over_tilted(cut, &bores, (height, direction), crest, tilt).left
            });
            let rule = match direction {
                Direction::Vertical => FigureRule::StructureTilted,
                Direction::AlongAxis => FigureRule::StructureAlongTilted,
            };
            (rule, value)
        }
    };
    let deepest = cut.deepest().known().get().unwrap_or_default();
    let value = match value {
        Known::Is(left) if from == HeightDatum::Crest && cut.site.is_socket() => {
            Known::Unknown(vec![Reason::CrestOfSocket(left)])
        }
        value => value,
    };
    let value = if structure.kind == StructureKind::MentalForamen {
        without_loop(cut, structure, value, &mut terms)
    } else {
        value
    };
    // A turn carries the point of the crest that it counts from, and this one the platform.
    let swung = match from {
        HeightDatum::Platform => Length::ZERO,
        HeightDatum::Crest => reach(&cut.site, &structure.measured_at, Height::Crest),
    };
    let depth = deepest + swung + swung;
    let value = since_moved(cut, structure, depth, value, &mut terms);
    Figure::of_length(id, rule, value, terms)
}

/// What is left of a margin to the foramen without the loop that nobody measured, which can only take
/// from it.
fn without_loop(
    cut: &SiteCuts<'_>,
    structure: &Structure,
    left: Known<Length>,
    terms: &mut Vec<Term>,
) -> Known<Length> {
    let at = cut.site.at(SitePlace::AnteriorLoop(structure.kind));
    let entered = Term::case(
        TermName::AnteriorLoop,
        at.clone().into(),
        None,
        Basis::Measured,
    );
    terms.push(entered.minus());
    let lacks = Reason::Missing(at);
    match left {
        Known::Is(left) => PartlyKnown::whole(left).lacking(&[lacks]).margin(),
        Known::Unknown(mut reasons) => {
            reasons.insert(0, lacks);
            Known::Unknown(reasons)
        }
    }
}

/// What is left since the structure was measured, of a body that ends at a depth.
fn since_moved(
    cut: &SiteCuts<'_>,
    structure: &Structure,
    depth: Length,
    left: Known<Length>,
    terms: &mut Vec<Term>,
) -> Known<Length> {
    let Some(stale) = stale_structure(&cut.site, structure) else {
        return left;
    };
    let at = cut.site.at(SitePlace::Structure(structure.kind));
    let limit = cut.limit(structure.kind.limit());
    let (left, taken) = stale.leaves(at, &left, &[cut.reach(depth)], limit);
    terms.extend(taken);
    left
}

/// Terms of the deepest end, that of the implant or a cut, so that the margin can be followed.
fn deepest_terms(cut: &SiteCuts<'_>, deepest: &Known<Length>) -> Vec<Term> {
    let implant = cut.site.implant;
    let ends_at = cut.site.implant_end();
    let deficit = cut.site.receipt_deficit_term();
    if deepest.get() == Some(ends_at) {
        let end = Term::kit(
            TermName::PlatformToApex,
            "implants",
            &implant.id,
            "platform_to_apex_mm",
            implant.platform_to_apex_mm,
        );
        let deeper = deficit.filter(|_| cut.site.implant_deficit() > Length::ZERO);
        return std::iter::once(end)
            .chain(deeper)
            .map(Term::minus)
            .collect();
    }
    let cuts = Term {
        name: TermName::DeepestCut,
        sign: Sign::Minus,
        from: Origin::Figure(cut.site.field("deepest_cut_mm")),
        value: deepest.clone().map(Quantity::Length),
        basis: Basis::Measured,
    };
    // What the guide came lower is within the cut already.
    std::iter::once(cuts)
        .chain(deficit.map(Term::with))
        .collect()
}

/// A margin from what is known of the cuts; without the crest that it counts from there is none.
fn from_crest<T>(
    crest: Known<Length>,
    cuts: PartlyKnown<T>,
    left: impl FnOnce(Length, T) -> Length,
) -> Known<Length> {
    match crest {
        Known::Is(crest) => cuts.map(|cuts| left(crest, cuts)).margin(),
        Known::Unknown(reasons) => Known::Unknown(cuts.lacks_beside(&reasons)),
    }
}

/// The point of a tilted body that comes nearest to a level structure.
#[derive(Debug, Clone, Copy)]
struct Nearest {
    /// What is left there.
    left: Length,
    /// Its depth along the axis, below the platform.
    depth: Length,
    /// Its diameter.
    across: Length,
}

impl Nearest {
    fn terms(&self, cut: &SiteCuts<'_>) -> Vec<Term> {
        let term = |name, value| Term {
            name,
            sign: Sign::With,
            from: Origin::Rule(FigureRule::StructureTilted),
            value: Known::Is(Quantity::Length(value)),
            basis: Basis::Measured,
        };
        let mut terms = vec![term(TermName::NearestDepth, self.depth)];
        if self.across > Length::ZERO {
            terms.push(term(TermName::NearestAcross, self.across));
        }
        // What the guide came lower is within that depth already.
        terms.extend(cut.site.receipt_deficit_term().map(Term::with));
        terms
    }
}

/// The least over tips, shoulders and the implant's rings. A height along the axis is a vertical one
/// by the cosine of the tilt, for a structure that is level.
fn nearest_over_tilted(
    cut: &SiteCuts<'_>,
    bores: &[Bore],
    (height, direction): (Length, Direction),
    crest: Length,
    tilt: f64,
) -> Nearest {
    let (sin, cos) = (libm::sin(tilt), libm::cos(tilt));
    let h = match direction {
        Direction::Vertical => height.mm() - crest.mm() * cos,
        Direction::AlongAxis => (height - crest).mm() * cos,
    };
    let at = |(depth, across): (Length, Length)| Nearest {
        left: Length::floor_mm(h - depth.mm() * cos - across.mm() / 2.0 * sin),
        depth,
        across,
    };
    let rings = cut.site.implant.rings();
    let rings = rings.map(|(depth, across)| (depth + cut.site.implant_deficit(), across));
    let cuts = bores.iter().flat_map(|bore| {
        let shoulder = (bore.depth - bore.point, bore.diameter);
        [(bore.depth, Length::ZERO), shoulder]
    });
    let nearest = rings.chain(cuts).map(at).min_by_key(|point| point.left);
    nearest.unwrap_or_else(|| at((Length::ZERO, Length::ZERO)))
}

fn tilt_term(cut: &SiteCuts<'_>, tilt: f64) -> Term {
    Term {
        name: TermName::Tilt,
        sign: Sign::With,
        from: Origin::Case(cut.site.at(SitePlace::Placement).into()),
        value: Known::Is(Quantity::Angle(Angle::ceil_radians(tilt))),
        basis: Basis::Measured,
    }
}

fn beside(
    cut: &SiteCuts<'_>,
    structure: &Structure,
    path: &Place,
    id: Field,
    (from_axis, anterior_loop): (Length, Option<Length>),
) -> Figure {
    let radius = cut.widest_radius();
    let mut terms = vec![
        Term::case(
            TermName::AxisToStructure,
            path.clone().field("from_axis_mm"),
            Some(from_axis),
            Basis::of(structure.measured_at.confirmed.as_ref()),
        ),
        radius_term(radius.clone().known(), Sign::Minus),
    ];
    let mut left = radius.map(|radius| from_axis - radius);
    if structure.kind == StructureKind::MentalForamen {
        let path = cut.site.at(SitePlace::AnteriorLoop(structure.kind));
        terms.push(
            Term::case(
                TermName::AnteriorLoop,
                path.clone().into(),
                anterior_loop,
                Basis::of(structure.measured_at.confirmed.as_ref()),
            )
            .minus(),
        );
        // How far it loops forward can only take more.
        left = match anterior_loop {
            Some(extent) => left.map(|left| left - extent),
            None => left.lacking(&[Reason::Missing(path)]),
        };
    }
    let left = cut.as_deep_as(&structure.measured_at, left.margin());
    let value = since_moved(
        cut,
        structure,
        structure.measured_at.depth(),
        left,
        &mut terms,
    );
    Figure::of_length(id, FigureRule::StructureBeside, value, terms)
}
