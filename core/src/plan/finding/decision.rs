//! The surgeon's decisions on findings, and what nobody can accept.

use super::{Finding, Verdict, at_most};
use crate::case::{Clearance, Decision, DecisionKind, Rule, SitePlace, StructureKind, is_name};
use crate::measure::Length;
use crate::plan::figure::Reason;

/// The surgeon's decision on a finding, as it is applied.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AppliedDecision {
    /// Its kind.
    pub judged: DecisionKind,
    /// The reason.
    pub reason: String,
    /// Name or initials of the person who decided.
    pub by: String,
}

/// A decision that does not count.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LapsedDecision {
    /// The decision.
    pub decision: AppliedDecision,
    /// Why it does not count.
    pub why: WhyLapsed,
}

/// The reason why a decision does not count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyLapsed {
    /// The finding showed something else when it was given, or cannot be intended.
    Changed,
    /// Nobody can accept the finding ([`may_be_accepted`]).
    NotAcceptable,
    /// Its reason says nothing ([`Decision::is_reason`]).
    NoReason,
    /// No person is named who could sign.
    NoName,
}

impl WhyLapsed {
    /// Its name in files and text ids.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Changed => "changed",
            Self::NotAcceptable => "not_acceptable",
            Self::NoReason => "no_reason",
            Self::NoName => "no_name",
        }
    }

    /// Nothing where the decision counts.
    fn of(decision: &Decision, finding: &Finding) -> Option<Self> {
        let is_other = finding.digest() != decision.shown
            || (decision.judged == DecisionKind::Intended && !may_be_intended(finding));
        if is_other {
            Some(Self::Changed)
        } else if !may_be_accepted(finding) {
            Some(Self::NotAcceptable)
        } else if !Decision::is_reason(&decision.reason) {
            Some(Self::NoReason)
        } else if !is_name(decision.by.as_str()) {
            Some(Self::NoName)
        } else {
            None
        }
    }
}

/// Attaches each decision to its finding: as one that counts, or as one that does not. Decisions
/// whose finding is gone have lapsed silently.
pub(in crate::plan) fn attach_decisions(findings: &mut [Finding], decisions: &[Decision]) {
    for decision in decisions {
        let Some(finding) = findings.iter_mut().find(|f| f.has_key(&decision.finding)) else {
            continue;
        };
        let applied = AppliedDecision {
            judged: decision.judged,
            reason: decision.reason.clone(),
            by: decision.by.to_string(),
        };
        match WhyLapsed::of(decision, finding) {
            None => finding.decision = Some(applied),
            Some(why) => {
                let decision = applied;
                finding.lapsed = Some(LapsedDecision { decision, why });
            }
        }
    }
}

/// True if a finding can be a planned contact at all: a sinus elevation, engagement of the nasal
/// floor's cortex. Contact with a nerve, a root or another implant never is.
#[must_use]
pub fn may_be_intended(finding: &Finding) -> bool {
    // What nobody knows is no contact that anybody planned.
    if finding.judged_length().is_none() {
        return false;
    }
    let Some(SitePlace::Structure(kind)) = finding.place.site_place() else {
        return false;
    };
    !is_nerve(*kind)
        && *kind != StructureKind::SinusAnteriorWall
        && finding.rule == Rule::DeepStructure
}

/// True if a surgeon's word can settle a finding. Nobody's can
/// - where an implant or a cut touches or overlaps a nerve, a root or another implant, or leaves less than
///   can be told from that, whether or not there is a limit;
/// - where what was measured may no longer hold: that is measured again, or confirmed, or, where it is of before a
///   graft, measured on a scan of after it;
/// - where what was entered contradicts itself: that is corrected. What is merely unlikely, such as a site far from
///   where its tooth would be in a mean arch, may be true, and is accepted with a reason;
/// - where nobody knows what a sleeve rests on, or its seat as measured is none by flange and recess: every depth
///   through it counts from there;
/// - where a step has no setting: nobody drills to a depth that nobody knows;
/// - where the instruments are invented and the case is not;
/// - where the case is of older rules: they are taken, once it is seen what that changes.
#[must_use]
pub fn may_be_accepted(finding: &Finding) -> bool {
    if !matches!(
        finding.verdict,
        Verdict::Short | Verdict::Unknown | Verdict::Tight
    ) {
        return true;
    }
    let is_doubtful = |reason: &Reason| {
        matches!(
            reason,
            Reason::Stale(..)
                | Reason::AgainstModel { .. }
                | Reason::BeforeGraft(_)
                | Reason::ScanUndated(_)
        )
    };
    let figure = finding.figure.iter().flat_map(|f| f.value.reasons());
    if finding
        .value
        .reasons()
        .iter()
        .chain(figure)
        .any(is_doubtful)
    {
        return false;
    }
    if finding.rule == Rule::SiteAwayFromItsTooth && is_other_side(finding) {
        return false;
    }
    // A crown within an implant or a sleeve is one that was measured wrong.
    if finding.rule == Rule::CrownDoubtful {
        return finding.args.get("how") == Some(&"below_occlusal".into());
    }
    match finding.rule {
        Rule::KitIsInvented
        | Rule::RulesOlder
        | Rule::ToothAtSite
        | Rule::DistanceToNoRoot
        | Rule::DistancesDisagree
        | Rule::RootDistancesDisagree
        | Rule::PunchOnBone
        | Rule::WallsDisagree
        | Rule::ConfirmedDisagree
        | Rule::SocketNotEntered
        | Rule::RecessUnknown
        | Rule::SeatAgainstFlange
        | Rule::FlangeNotInRecess
        | Rule::SettingUnknown
        | Rule::OutsideGauge
        | Rule::NoFixedLengthFits
        | Rule::NoMarkFits => false,
        _ => !(is_what_must_stay_whole(finding) && touches(finding)),
    }
}

/// True for a site on the other side of the mouth than its tooth: a slip of a sign.
fn is_other_side(finding: &Finding) -> bool {
    let how = finding.args.get("how");
    how == Some(&"side".into()) || how == Some(&"across".into())
}

/// Left of a margin, less than this cannot be told from contact: the step in which this program has
/// lengths read and set. Common practice, no source.
const LEAST_TOLD: Length = Length::from_um(100);

/// The least that a clearance must leave whatever the limit of the case.
pub(in crate::plan) fn least_left(finding: &Finding) -> Option<Length> {
    is_what_must_stay_whole(finding).then_some(LEAST_TOLD)
}

/// True if what is left, by the finding or by the figure that has no limit, is no more than contact.
fn touches(finding: &Finding) -> bool {
    let figure = finding.figure.as_ref();
    let by_figure = figure.and_then(|figure| figure.length().or_else(|| at_most(&figure.value)));
    let left = finding.judged_length().into_iter().chain(by_figure).min();
    left.is_some_and(|left| left < LEAST_TOLD)
}

/// True for the clearances to what no plan may cut into.
fn is_what_must_stay_whole(finding: &Finding) -> bool {
    let Some(clearance) = finding.rule.clearance() else {
        return false;
    };
    match clearance {
        Clearance::DeepStructure => match finding.place.site_place() {
            Some(SitePlace::Structure(kind) | SitePlace::AnteriorLoop(kind)) => is_nerve(*kind),
            _ => false,
        },
        Clearance::NeighbourRoot
        | Clearance::NeighbourOldImplant
        | Clearance::NeighbourImplant
        | Clearance::NeighbourImplantBody => true,
        // Bone, soft tissue, angles, and what was not entered.
        Clearance::Wall
        | Clearance::WallNotMeasured
        | Clearance::OralProfileNotMeasured
        | Clearance::StructureBelowNotMeasured
        | Clearance::StructureBesideNotMeasured
        | Clearance::BoneTowardsSocket
        | Clearance::NeighbourNotEntered
        | Clearance::DrillSleeveRoom
        | Clearance::TissueRoom
        | Clearance::Convergence
        | Clearance::DistanceToNoRoot
        | Clearance::DistancesDisagree
        | Clearance::RootDistancesDisagree
        | Clearance::MeasuredDownTooFar
        | Clearance::MeasuredTooFar
        | Clearance::SitesMeasuredTooFar
        | Clearance::PlacesDisagree
        | Clearance::PlatformAboveCrest
        | Clearance::SiteAwayFromItsTooth
        | Clearance::SocketGapUnusual
        | Clearance::SocketNotEntered
        | Clearance::SocketWithoutTooth
        | Clearance::ToothAtSite
        | Clearance::MeasuredTooNear
        | Clearance::AxisTiltedFar
        | Clearance::WallsDisagree
        | Clearance::ConfirmedDisagree => false,
    }
}

const fn is_nerve(kind: StructureKind) -> bool {
    match kind {
        StructureKind::MandibularCanal
        | StructureKind::MentalForamen
        | StructureKind::IncisiveCanal
        | StructureKind::NasopalatineCanal => true,
        StructureKind::SinusFloor
        | StructureKind::NasalFloor
        | StructureKind::SinusAnteriorWall => false,
    }
}
