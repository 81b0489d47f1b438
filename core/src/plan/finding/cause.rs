//! One cause is told once, with the findings that hang on it beneath.

use super::{Finding, Severity};
use crate::case::{Place, Rule, SiteHeight, SitePlace};
use crate::kit::SiteId;
use crate::plan::figure::{Change, Known, Reason, Since};
use std::collections::BTreeMap;

/// What several findings are unknown for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum CommonCause {
    /// Something was not entered or is not in the kit.
    Missing(Place),
    /// Something was changed since they were measured.
    Changed(Since),
    /// The guide that was made, and was measured, is of another plan of a site.
    GuideOfOtherPlan(SiteId),
    /// The guide was left at a site before all went through it that it was to lead there.
    GuideLeft(SiteId),
    /// What was drilled at a site by a plan that was changed since.
    CutBefore(SiteId),
    /// A site was grafted after the scan on which they were measured.
    Grafted(SiteId),
    /// A drill at a site goes deeper than was measured.
    GoesDeeper(SiteId),
    /// The gauge does not reach what it would have to show.
    OutsideGauge,
    /// Nothing was measured, and the arch model alone says something.
    ArchModelOnly,
    /// What stands beside sites comes out: how much bone is left towards the sockets nobody knows yet.
    Sockets,
    /// Teeth were entered without their kind.
    Kinds,
    /// The date of the scan was not entered, and bone was grafted.
    ScanUndated,
}

/// One line of a list of findings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FindingLine<T> {
    /// A finding by itself.
    One(T),
    /// A cause, with the unknown findings that hang on it: two at least.
    Cause(CommonCause, Vec<T>),
}

/// A list with each cause told once, at the place of the first finding that hangs on it; no finding is
/// lost and none told twice. One that hangs on several causes is told under the one on which most do.
#[must_use]
pub fn by_cause<'a, T>(list: Vec<T>, finding: impl Fn(&T) -> &'a Finding) -> Vec<FindingLine<T>> {
    let mut causes: Vec<Vec<CommonCause>> = list.iter().map(|one| causes(finding(one))).collect();
    // A cause may itself be a finding, at its place.
    for (n, one) in list.iter().enumerate() {
        let itself = match (finding(one).rule, &finding(one).site) {
            (Rule::ScanBeforeGraft, _) if is_of_no_date(finding(one)) => CommonCause::ScanUndated,
            (Rule::ScanBeforeGraft, Some(site)) => CommonCause::Grafted(site.clone()),
            _ => CommonCause::Missing(finding(one).place.clone()),
        };
        let is_bare = finding(one).value == Known::Unknown(Vec::new());
        let is_unknown = finding(one).severity() == Severity::Unknown;
        if is_unknown && is_bare && causes.iter().flatten().any(|cause| *cause == itself) {
            causes[n].push(itself);
        }
    }
    let count = |of: &mut dyn Iterator<Item = &CommonCause>| {
        let mut many: BTreeMap<CommonCause, usize> = BTreeMap::new();
        of.for_each(|cause| *many.entry(cause.clone()).or_default() += 1);
        many
    };
    let many = count(&mut causes.iter().flatten());
    // The first of equals.
    let most =
        |causes: &Vec<CommonCause>| causes.iter().rev().max_by_key(|cause| many[cause]).cloned();
    let under: Vec<Option<CommonCause>> = causes.iter().map(most).collect();
    let together = count(&mut under.iter().flatten());
    let mut told: Vec<FindingLine<T>> = Vec::new();
    for (one, under) in list.into_iter().zip(under) {
        let Some(cause) = under.filter(|cause| together[cause] > 1) else {
            told.push(FindingLine::One(one));
            continue;
        };
        let there = told.iter_mut().find_map(|told| match told {
            FindingLine::Cause(other, on_it) if *other == cause => Some(on_it),
            _ => None,
        });
        match there {
            Some(on_it) => on_it.push(one),
            None => told.push(FindingLine::Cause(cause, vec![one])),
        }
    }
    told
}

/// True if it is told for want of the scan's date.
fn is_of_no_date(finding: &Finding) -> bool {
    finding
        .args
        .get("scan")
        .is_some_and(|scan| scan.to_string() == "none")
}

/// Everything that a finding is unknown for and others may be as well, each once.
fn causes(finding: &Finding) -> Vec<CommonCause> {
    if finding.severity() != Severity::Unknown {
        return Vec::new();
    }
    if let Some(cause) = &finding.hangs_on {
        return vec![cause.clone()];
    }
    let mut causes = Vec::new();
    if finding.rule == Rule::BoneTowardsSocket {
        causes.push(CommonCause::Sockets);
    }
    for reason in finding.value.reasons() {
        let cause = match reason {
            Reason::Missing(place) => CommonCause::Missing(place.clone()),
            Reason::Stale(_, since) if since.change == Change::DepthMissing => {
                let depth = SitePlace::Height(SiteHeight::PlatformBelowCrest);
                CommonCause::Missing(Place::Site(since.site.clone(), depth))
            }
            Reason::Stale(_, since) => CommonCause::Changed(since.clone()),
            Reason::BeforeGraft(Place::Site(site, _)) => CommonCause::Grafted(site.clone()),
            Reason::ScanUndated(_) => CommonCause::ScanUndated,
            Reason::MeasuredLessDeep(_, site) => CommonCause::GoesDeeper(site.clone()),
            Reason::OutsideGauge(_) => CommonCause::OutsideGauge,
            Reason::ArchModelOnly(_) | Reason::ArchAngleOnly(_) => CommonCause::ArchModelOnly,
            Reason::KindNotEntered { .. } => CommonCause::Kinds,
            Reason::CutThroughGuide(site) => CommonCause::GuideLeft(site.clone()),
            Reason::CutBefore(site) => CommonCause::CutBefore(site.clone()),
            _ => continue,
        };
        if !causes.contains(&cause) {
            causes.push(cause);
        }
    }
    causes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Rule;
    use crate::plan::finding::Verdict;

    fn unknown(at: Place, reasons: &[Place]) -> Finding {
        let mut finding = Finding::new(Rule::SettingUnknown, at).verdict(Verdict::Unknown);
        let reasons = reasons.iter().cloned().map(Reason::Missing);
        finding.value = Known::Unknown(reasons.collect());
        finding
    }

    /// The places in the list, by cause.
    fn told(list: &[Finding]) -> Vec<(Option<Place>, Vec<usize>)> {
        let numbers = (0..list.len()).collect();
        let told = by_cause(numbers, |n| &list[*n]).into_iter();
        told.map(|told| match told {
            FindingLine::One(n) => (None, vec![n]),
            FindingLine::Cause(CommonCause::Missing(place), on_it) => (Some(place), on_it),
            FindingLine::Cause(..) => panic!(),
        })
        .collect()
    }

    #[test]
    fn one_cause_is_told_once_and_nothing_is_lost() {
        let (gauge, head, tray) = (Place::Gauge, Place::Head, Place::Tray);
        let list = [
            unknown(Place::Sites, std::slice::from_ref(&gauge)),
            unknown(Place::Pins, &[head.clone(), gauge.clone()]),
            unknown(Place::Arch, &[tray]),
            unknown(gauge.clone(), &[]),
            unknown(Place::Kit, &[head]),
            Finding::new(Rule::NoSites, gauge.clone()).verdict(Verdict::Short),
        ];
        let want = [
            (Some(gauge), vec![0, 1, 3]),
            (None, vec![2]),
            (None, vec![4]),
            (None, vec![5]),
        ];
        assert_eq!(told(&list), want);
    }

    /// What has no reason at all hangs on what others lack, not on another such.
    #[test]
    fn two_without_a_reason_have_no_cause_in_common() {
        let list = [unknown(Place::Sites, &[]), unknown(Place::Sites, &[])];
        assert_eq!(told(&list), [(None, vec![0]), (None, vec![1])]);
    }

    #[test]
    fn of_two_causes_that_are_as_many_the_first_counts() {
        let both = [Place::Head, Place::Gauge];
        let list = [unknown(Place::Sites, &both), unknown(Place::Pins, &both)];
        assert_eq!(told(&list), [(Some(Place::Head), vec![0, 1])]);
    }
}
