//! Room for tissue under the sleeve, and for stop and head above the seat.

use crate::case::{
    Access, Case, LimitId, Obstacle, Place, Rule, SiteHeight, SitePlace, SleeveFace, Tooth,
    ToothState,
};
use crate::dentition::ToothPosition;
use crate::kit::{DrillSleeve, Head};
use crate::measure::Length;
use crate::plan::clearance::structures::SMALL_TILT;
use crate::plan::depth::context::{SiteContext, StepPath, seat_above_rim};
use crate::plan::depth::cuts::{SiteCuts, judged};
use crate::plan::depth::stale::stale_obstacle;
use crate::plan::figure::{Basis, Figure, Known, Quantity, Reason, Sign, Term, sum};
use crate::plan::figure_rule::FigureRule;
use crate::plan::finding::{Finding, Loosened, Verdict, margin_verdict};
use crate::plan::term_name::TermName;

/// Room under the sleeve, above the tissue or the bulging flap, beyond which it is asked to which
/// face the distance was measured. Common practice, no source: seats stand about 7–8 mm above the
/// crest, which under a sleeve of 4 mm leaves less.
const MOST_USUAL_ROOM: Length = Length::from_mm(3);

/// The same where by the estimates the guide would not seat with the other face. Common practice, no
/// source: a sleeve moved away from the bone for the gauge's or the stock's sake leaves up to this.
const MOST_ROOM: Length = Length::from_um(3_500);

/// Checks that the guide can seat: the room left between the sleeve's apical face and the tissue, or
/// with a flap the bone and the bulging flap.
pub(in crate::plan) fn check_tissue(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let (rule, terms) = under_master(&cut.site);
    let finding = room_under(cut, Rule::TissueRoom, rule, terms);
    let doubt = doubtful_face(cut, &finding);
    out.push(finding);
    out.extend(doubt);
    out.extend(nothing_to_punch(&cut.site));
}

/// Less soft tissue than there is over any crest. Common practice, no source.
const LEAST_TISSUE: Length = Length::from_um(500);

/// Hardly any soft tissue where it is to be punched: a thickness of nearly nothing is what stands there when nobody measured it.
fn nothing_to_punch(site: &SiteContext<'_>) -> Option<Finding> {
    let height = SiteHeight::TissueThickness;
    let tissue = site.height(height, site.site.heights.tissue_thickness_mm);
    let punched = site.case.guide.access == Access::Punch && !site.is_socket();
    let thin = tissue
        .get()
        .filter(|tissue| punched && *tissue < LEAST_TISSUE)?;
    let place = site.at(SitePlace::Height(height));
    let finding = Finding::new(Rule::NothingToPunch, place).verdict(Verdict::Unknown);
    Some(finding.length(thin).limit(LEAST_TISSUE))
}

/// Checks that the drill sleeve which reaches farthest out of the master sleeve has room there for
/// its barrel; nothing where none is longer than that.
pub(in crate::plan) fn check_drill_sleeve(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let site = &cut.site;
    let of_steps = site
        .steps()
        .filter(|step| step.path == StepPath::DrillSleeve)
        .filter_map(|step| step.sleeve);
    let below_rim = |sleeve: &&DrillSleeve| sleeve.length_mm - sleeve.seat_above_rim_mm;
    let sleeves = of_steps.chain(site.insertion_sleeve());
    let Some(sleeve) = sleeves.max_by_key(below_rim) else {
        return;
    };
    let height = site.master_height_at_hand();
    if height.value.get().and_then(Quantity::length) >= Some(below_rim(&sleeve)) {
        return;
    }
    let (_, mut terms) = under_master(site);
    terms.extend([
        height,
        seat_above_rim(sleeve),
        Term::kit(
            TermName::SleeveLength,
            "drill_sleeves",
            &sleeve.id,
            "length_mm",
            sleeve.length_mm,
        )
        .minus(),
    ]);
    let finding = room_under(
        cut,
        Rule::DrillSleeveRoom,
        FigureRule::DrillSleeveRoom,
        terms,
    );
    out.push(finding.arg("sleeve", &sleeve.name));
}

/// The room between the master sleeve's apical face and what is under it: how it is worked out, and
/// its terms.
fn under_master(site: &SiteContext<'_>) -> (FigureRule, Vec<Term>) {
    let mut terms = site.distance_terms();
    terms.push(site.crest().minus());
    let (rule, last) = match site.case.guide.access {
        Access::Punch => (
            FigureRule::TissueRoomPunch,
            site.height_term(
                TermName::TissueThickness,
                SiteHeight::TissueThickness,
                site.site.heights.tissue_thickness_mm,
            ),
        ),
        Access::Flap => (
            FigureRule::TissueRoomFlap,
            Term::case(
                TermName::FlapBulge,
                Place::Limit(LimitId::FlapBulge).into(),
                site.case
                    .limits
                    .flap_bulge
                    .as_ref()
                    .map(|limit| limit.limit_mm),
                Basis::Estimated,
            ),
        ),
    };
    terms.push(last.minus());
    terms.extend(site.lower_face_term());
    (rule, terms)
}

/// Such a room held against its limit.
fn room_under(cut: &SiteCuts<'_>, rule: Rule, figure: FigureRule, terms: Vec<Term>) -> Finding {
    let site = &cut.site;
    let path = site.at(SitePlace::Heights);
    let field = match rule {
        Rule::DrillSleeveRoom => "drill_sleeve_room_mm",
        _ => "room_mm",
    };
    let margin = sum(path.clone().field(field), figure, terms);
    let mut finding = cut.margin(rule, path, LimitId::TissueRoom, margin);
    // The room that the flap takes is a limit of its own, within this margin.
    if site.case.guide.access == Access::Flap {
        let bulge = Loosened::of(&site.case.limits, LimitId::FlapBulge);
        finding.loosened = finding.loosened.or(bulge);
    }
    finding
}

/// More room than is usual: a distance to the coronal rim, entered as one to the apical face, looks
/// so. Much more asks by itself, whatever the other face would leave: how far flap and tissue rise is
/// an estimate, so a guide that seems not to seat there may well do.
fn doubtful_face(cut: &SiteCuts<'_>, room: &Finding) -> Option<Finding> {
    let site = &cut.site;
    let entered = site.site.platform_to_sleeve?;
    let (left, limit) = (room.length_value()?, room.limit.and_then(Quantity::length)?);
    let height = site.master.height_mm;
    let seats_either_way = margin_verdict(left - height, limit, None) != Verdict::Short;
    let most = if seats_either_way {
        MOST_USUAL_ROOM
    } else {
        MOST_ROOM
    };
    let is_doubtful = entered.to == SleeveFace::Apical && left > most;
    is_doubtful.then(|| {
        let place = site.at(SitePlace::PlatformToSleeve);
        let finding = Finding {
            basis: room.basis,
            ..Finding::new(Rule::SleeveFaceDoubtful, place)
        };
        finding
            .verdict(Verdict::Unknown)
            .length(left)
            .limit(most)
            .arg("entered", entered.entered_mm)
            .arg("height", height)
    })
}

/// Checks that stop and head can land: nothing beside the seat stands in their way.
pub(in crate::plan) fn check_stop(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let site = &cut.site;
    out.extend(without_crown(cut));
    if !cut.steps.iter().any(|step| step.path != StepPath::Freehand) {
        return;
    }
    for (n, obstacle) in site.site.obstacles.iter().enumerate() {
        out.push(beside(cut, n, obstacle));
        out.extend(doubtful_crown(cut, n, obstacle));
    }
    if site.site.obstacles.is_empty() {
        if !has_no_crowns(site.case) {
            out.push(crowns(cut));
        }
        return;
    }
    // What was entered of one side says nothing of the other.
    let beside: Vec<ToothPosition> = crowns_beside(cut).collect();
    if !beside.is_empty() && crowns(cut).verdict != Verdict::Clear {
        out.extend(beside.into_iter().map(|tooth| not_measured(cut, tooth)));
    }
}

/// The positions next to the site that bear a crown of which no obstacle was entered.
fn crowns_beside(cut: &SiteCuts<'_>) -> impl Iterator<Item = ToothPosition> {
    let site = &cut.site;
    let own = site.site.tooth;
    let next = [Some(own.mesial_neighbour()), own.distal_neighbour()];
    next.into_iter().flatten().filter(move |position| {
        let mut teeth = site.case.teeth.iter();
        let crown = teeth.any(|tooth| tooth.position == *position && tooth.has_crown());
        let entered = site
            .site
            .obstacles
            .iter()
            .any(|o| o.tooth == Some(*position));
        crown && !entered
    })
}

fn not_measured(cut: &SiteCuts<'_>, tooth: ToothPosition) -> Finding {
    let path = cut.site.at(SitePlace::Crown(tooth));
    Finding::new(Rule::CrownNotMeasured, path)
        .verdict(Verdict::Unknown)
        .arg("position", tooth)
}

/// Crowns that were entered as obstacles of teeth that are entered as bearing none: one of the two is not
/// so any more. Of one that is still to come out it is worth knowing.
fn without_crown(cut: &SiteCuts<'_>) -> impl Iterator<Item = Finding> {
    let site = &cut.site;
    let mut named: Vec<ToothPosition> =
        site.site.obstacles.iter().filter_map(|o| o.tooth).collect();
    named.sort();
    named.dedup();
    let bare = move |tooth: &&Tooth| named.contains(&tooth.position) && !tooth.has_crown();
    site.case.teeth.iter().filter(bare).map(|tooth| {
        let path = site.at(SitePlace::Crown(tooth.position));
        Finding::new(Rule::CrownOfNoTooth, path)
            .verdict(match tooth.state {
                ToothState::ToExtract => Verdict::Note,
                ToothState::Present | ToothState::Missing => Verdict::Unknown,
            })
            .arg("position", tooth.position)
            .arg(
                "tooth",
                match tooth.state {
                    ToothState::ToExtract => "to_extract",
                    ToothState::Present | ToothState::Missing => "none",
                },
            )
    })
}

/// The most by which a neighbour's crown may stay below the occlusal plane. Common practice, no source: worn and
/// tilted teeth stay 1–2 mm below it.
const BELOW_OCCLUSAL: Length = Length::from_mm(2);

/// A crown that cannot well be where it was entered: nearer to the axis than the sleeve or the implant is wide, or so
/// far below the occlusal plane that the sign of its height, or the height, is a slip. Along the axis of a
/// site that is hardly tilted, where that plane and the rim's height then are known.
fn doubtful_crown(cut: &SiteCuts<'_>, n: usize, obstacle: &Obstacle) -> Option<Finding> {
    let site = &cut.site;
    obstacle.tooth?;
    let doubtful = |how: &str, entered: Length, expected: Length| {
        Finding::new(Rule::CrownDoubtful, site.at(SitePlace::Obstacle(n)))
            .verdict(Verdict::Unknown)
            .arg("how", how)
            .arg("obstacle", &obstacle.name)
            .arg("entered", entered)
            .arg("expected", expected)
    };
    // Below the sleeve there is the implant.
    let beside_sleeve = obstacle.above_rim_mm > -site.master.height_mm;
    let (how, radius) = if beside_sleeve {
        ("within_sleeve", site.master.outer_diameter_mm.half_ceil())
    } else {
        (
            "within_implant",
            site.implant.largest_diameter_mm.half_ceil(),
        )
    };
    if obstacle.from_axis_mm < radius {
        return Some(doubtful(how, obstacle.from_axis_mm, radius));
    }
    let tilt = site.site.placement.tilt();
    let upright = tilt.is_some_and(|tilt| tilt <= SMALL_TILT);
    let heights = site.site.heights_now();
    let crest = heights.platform_below_crest.filter(|_| upright)?.highest_mm;
    let plane = crest + heights.crest_below_occlusal_mm?;
    let expected = plane - obstacle.rim_above_platform_mm?;
    (obstacle.above_rim_mm < expected - BELOW_OCCLUSAL)
        .then(|| doubtful("below_occlusal", obstacle.above_rim_mm, expected))
}

/// True if every position of the jaw was entered, and none as having a crown now or as a tooth that
/// is still to come out.
fn has_no_crowns(case: &Case) -> bool {
    let bare = |tooth: &Tooth| tooth.state == ToothState::Missing && !tooth.has_crown();
    ToothPosition::all_of(case.jaw).all(|position| {
        let entered = case.teeth.iter().find(|tooth| tooth.position == position);
        entered.is_some_and(bare)
    })
}

/// The finding on the landed stop and the head beside one obstacle: the least over the steps, those without
/// the guide at the depth where they end.
fn beside(cut: &SiteCuts<'_>, n: usize, obstacle: &Obstacle) -> Finding {
    let site = &cut.site;
    let path = site.at(SitePlace::Obstacle(n));
    let entered = Term::case(
        TermName::AxisToObstacle,
        path.clone().field("from_axis_mm"),
        Some(obstacle.from_axis_mm),
        Basis::of(obstacle.measured_at.confirmed.as_ref()),
    );
    let rim = obstacle.rim_above_platform_mm.unwrap_or_default();
    // Up to the obstacle's top, and along it from the rim.
    let reach = rim.abs().max((rim + obstacle.above_rim_mm).abs());
    let reach = [(reach, obstacle.from_axis_mm)];
    // A move brings it nearer, and higher; or gives as much back.
    let stale = stale_obstacle(site, obstacle);
    let by = stale.as_ref().and_then(|stale| stale.takes(&reach));
    let higher = by.unwrap_or_default();
    let taken = taken_beside(cut, obstacle, higher);
    let mut unknown = lacking_beside(cut, n, obstacle);
    unknown.sort();
    unknown.dedup();
    let left = if unknown.is_empty() {
        Known::Is(obstacle.from_axis_mm - taken)
    } else {
        Known::Unknown(unknown)
    };
    let mut counted = taken;
    let (value, by_move) = match stale {
        None => (left, None),
        Some(stale) => {
            let limit = cut.limit(LimitId::StopRoom);
            match (
                stale.clone().leaves(path.clone(), &left, &reach, limit),
                left,
            ) {
                ((Known::Unknown(_), _), Known::Is(left)) => {
                    // A head that only the move may have brought beside it breaks no limit.
                    let back = taken_beside(cut, obstacle, -higher);
                    let (least, most) = (left - higher, obstacle.from_axis_mm - back + higher);
                    let left = by.map(|_| Reason::Between { least, most });
                    let given = by.map(|by| stale.given_back(by));
                    if given.is_some() {
                        counted = back;
                    }
                    (stale.leaving(path.clone(), left), given)
                }
                (left, _) => left,
            }
        }
    };
    let mut terms = vec![
        entered,
        Term {
            name: TermName::StopOrHeadRadius,
            sign: Sign::Minus,
            from: crate::plan::figure::Origin::Rule(FigureRule::StopRoom),
            value: Known::Is(Quantity::Length(counted)),
            basis: Basis::Measured,
        },
    ];
    terms.extend(by_move);
    let margin = Figure::of_length(
        path.clone().field("room_mm"),
        FigureRule::StopRoom,
        value,
        terms,
    );
    judged(
        Finding::new(Rule::StopRoom, path),
        site,
        LimitId::StopRoom,
        margin,
    )
    .arg("obstacle", &obstacle.name)
}

/// The radius that the widest of stop and head takes beside an obstacle which stands so much higher than
/// it was measured.
fn taken_beside(cut: &SiteCuts<'_>, obstacle: &Obstacle, higher: Length) -> Length {
    let site = &cut.site;
    let head = head(site);
    let rim = obstacle.rim_above_platform_mm.unwrap_or_default();
    let mut taken = Length::ZERO;
    for (step, sheet) in site.steps().zip(cut.steps) {
        let above_seat = match (step.path, sheet.seat.length()) {
            // Without the guide only what is a crown still stands there.
            (StepPath::Freehand, _) if obstacle.tooth.is_none() => continue,
            (StepPath::Freehand, seat) => rim + obstacle.above_rim_mm - seat.unwrap_or_default(),
            // A guide that was measured to seat lower leaves more of it above the seat.
            _ => {
                let sleeve = step.sleeve.map(|sleeve| sleeve.seat_above_rim_mm);
                obstacle.above_rim_mm - sleeve.unwrap_or_default() + site.receipt_deficit()
            }
        } + higher;
        if let Some(stop) = step.stop.filter(|_| above_seat > Length::ZERO) {
            let widest = stop.body_diameter_mm.max(stop.landing_diameter_mm);
            taken = taken.max(widest.half_ceil());
        }
        if let (Some(head), Some(set)) = (head, sheet.set.length())
            && above_seat > step.drill.free_length_mm - set
        {
            taken = taken.max(head.diameter_mm.half_ceil());
        }
    }
    taken
}

/// What it takes to know that and is not known: its height counts from the rim, so it holds only as long
/// as the rim stands where it did.
fn lacking_beside(cut: &SiteCuts<'_>, n: usize, obstacle: &Obstacle) -> Vec<Reason> {
    let site = &cut.site;
    let mut lacks: Vec<Reason> = Vec::new();
    for (step, sheet) in site.steps().zip(cut.steps) {
        if step.path == StepPath::Freehand && obstacle.tooth.is_none() {
            continue;
        }
        match (head(site), sheet.set.length()) {
            (Some(_), Some(_)) => {}
            (None, _) => lacks.push(Reason::Missing(Place::Head)),
            (_, None) => lacks.extend(sheet.set.value.reasons().iter().cloned()),
        }
    }
    match (site.rim(), obstacle.rim_above_platform_mm) {
        (Some(_), Some(_)) => {}
        (None, _) => lacks.push(Reason::Missing(site.at(SitePlace::PlatformToSleeve))),
        (_, None) => lacks.push(Reason::Missing(site.at(SitePlace::ObstacleRim(n)))),
    }
    lacks
}

fn head<'a>(site: &SiteContext<'a>) -> Option<&'a Head> {
    site.kit.head(site.case.setup.head.as_ref()?)
}

/// Without entered obstacles: whether crowns that reach the occlusal plane end below the lowest
/// seat. If they do, none of them is beside the stop; if not, someone has to measure.
fn crowns(cut: &SiteCuts<'_>) -> Finding {
    let site = &cut.site;
    let path = site.at(SitePlace::Obstacles);
    let lowest = site
        .steps()
        .zip(cut.steps)
        .filter(|(step, _)| step.path != StepPath::Freehand)
        .map(|(_, sheet)| &sheet.seat)
        .min_by_key(|seat| seat.length());
    let mut terms: Vec<Term> = lowest
        .map(|seat| seat.as_term(TermName::Seat, Sign::Plus))
        .into_iter()
        .collect();
    terms.push(site.crest().minus());
    terms.push(
        site.height_term(
            TermName::CrestBelowOcclusal,
            SiteHeight::CrestBelowOcclusal,
            site.site.heights.crest_below_occlusal_mm,
        )
        .minus(),
    );
    terms.extend(site.receipt_deficit_term().map(Term::minus));
    let mut above = sum(
        path.clone().field("seat_above_crowns_mm"),
        FigureRule::SeatAboveCrowns,
        terms,
    );
    // All this runs along the axis. Where that is tilted, the seat stands lower than it says.
    if site.site.placement.tilt().is_none_or(|tilt| tilt > 0.0)
        && let Some(along) = above.length()
    {
        above.value = Known::Unknown(vec![Reason::AlongTiltedAxis(along)]);
    }
    let clear = above.length().is_some_and(|above| above >= Length::ZERO);
    Finding::new(Rule::CrownsBesideSeat, path)
        .verdict(if clear {
            Verdict::Clear
        } else {
            Verdict::Unknown
        })
        .limit(Length::ZERO)
        .figure(above)
}
