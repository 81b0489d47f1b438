//! A change tried on a copy: what it would settle and what it would open.

use crate::case::{Case, Edit, EditRefused, Site, Step, ValidCase, apply, supplied};
use crate::kit::{ImplantId, Kit};
use crate::plan::figure::Quantity;
use crate::plan::finding::{Finding, Severity};
use crate::plan::order::sequence::{protocols_for, steps_of_protocol};
use crate::plan::worksheet::{Worksheet, work_out};
use std::collections::BTreeMap;

/// The result of a change. Findings are held against each other by their keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrialResult {
    /// The case after it.
    pub case: ValidCase,
    /// Its worksheet.
    pub worksheet: Worksheet,
    /// Short, unknown or tight before and no longer, or gone: as they were.
    pub settled: Vec<Finding>,
    /// Short, unknown or tight after it and not before, or worse than before: as they would be.
    pub opened: Vec<Finding>,
    /// Short before and after it, and farther beyond the limit: as they would be.
    pub worsened: Vec<Finding>,
    /// Short, unknown or tight before and after, no worse but not showing the same: as they would be.
    pub changed: Vec<Finding>,
    /// Notes after it that were not there before.
    pub noted: Vec<Finding>,
}

/// Tries edits on a copy of a case. `before` is the case's worksheet.
///
/// # Errors
///
/// The reason why the edits would be refused.
pub fn try_edits(
    case: &ValidCase,
    before: &Worksheet,
    edits: &[Edit],
) -> Result<TrialResult, EditRefused> {
    let case = apply(case, edits)?;
    let worksheet = work_out(&case);
    let (was, is) = (by_key(&before.findings), by_key(&worksheet.findings));
    let of = |findings: &BTreeMap<String, &Finding>, key: &str| {
        findings.get(key).map_or(Severity::Clear, |f| f.severity())
    };
    let settled = before
        .findings
        .iter()
        .filter(|finding| is_concern(finding.severity()) && !is_concern(of(&is, &finding.key())));
    let concerns = worksheet.findings.iter();
    let concerns = concerns.filter(|finding| is_concern(finding.severity()));
    let (opened, stayed): (Vec<&Finding>, Vec<&Finding>) = concerns.partition(|finding| {
        // Worse sorts first.
        finding.severity() < of(&was, &finding.key())
    });
    let differs = |finding: &&Finding| {
        let before = was.get(&finding.key());
        before.is_none_or(|before| before.told_digest() != finding.told_digest())
    };
    let (worsened, changed): (Vec<&Finding>, Vec<&Finding>) =
        stayed.into_iter().filter(differs).partition(|finding| {
            let before = was.get(&finding.key());
            before.is_some_and(|before| beyond(finding) > beyond(before))
        });
    let noted = worksheet.findings.iter().filter(|finding| {
        finding.severity() == Severity::Note && of(&was, &finding.key()) == Severity::Clear
    });
    Ok(TrialResult {
        noted: noted.cloned().collect(),
        settled: settled.cloned().collect(),
        worsened: worsened.into_iter().cloned().collect(),
        changed: changed.into_iter().cloned().collect(),
        opened: opened.into_iter().cloned().collect(),
        case,
        worksheet,
    })
}

/// How far a short is beyond its limit, in thousandths of a millimetre or of a degree; nothing where there
/// are not both, or it is not short.
fn beyond(finding: &Finding) -> Option<i64> {
    if finding.severity() != Severity::Short {
        return None;
    }
    match (finding.value.get()?, finding.limit?) {
        (Quantity::Length(is), Quantity::Length(limit)) => Some((is - limit).abs().um()),
        (Quantity::Angle(is), Quantity::Angle(limit)) => {
            Some((i64::from(is.millideg()) - i64::from(limit.millideg())).abs())
        }
        _ => None,
    }
}

/// The worst finding of each key.
fn by_key(findings: &[Finding]) -> BTreeMap<String, &Finding> {
    let mut worst: BTreeMap<String, &Finding> = BTreeMap::new();
    for finding in findings {
        let one = worst.entry(finding.key()).or_insert(finding);
        if finding.severity() < one.severity() {
            *one = finding;
        }
    }
    worst
}

const fn is_concern(severity: Severity) -> bool {
    matches!(
        severity,
        Severity::Short | Severity::Unknown | Severity::Tight
    )
}

/// The edits that give a site another implant of a kit.
///
/// The sequence stays unless it was taken from a protocol that is not for that implant; then the
/// first protocol of the kit for it, in the site's density, takes its place, and where there is none
/// the sequence stays and a finding says so.
#[must_use]
pub fn edits_for_implant(case: &Case, site: &Site, implant: &ImplantId, live: &Kit) -> Vec<Edit> {
    let kit = case.kit.together_with(live);
    let mut site = site.clone();
    site.implant = implant.clone();
    let now = site.protocol.as_ref().and_then(|id| kit.protocol(id));
    let astray = now.is_some_and(|protocol| !protocol.implants.contains(implant));
    if let Some(implant) = kit.implant(implant).filter(|_| astray)
        && let Some(protocol) = protocols_for(&kit, implant, site.density).next()
    {
        let was = std::mem::replace(&mut site.steps, steps_of_protocol(&kit, protocol));
        follow_as_before(&mut site.steps, &was);
        site.insertion.sleeve.clone_from(&protocol.insertion_sleeve);
        site.protocol = Some(protocol.id.clone());
    }
    supplied(case, vec![Edit::ChangeSite(Box::new(site))], live)
}

/// What followed a drill before follows it in the other sequence, too; where that has not the drill, what followed first
/// follows its first step.
fn follow_as_before(steps: &mut [Step], was: &[Step]) {
    for before in was.iter().filter(|step| step.then.is_some()) {
        let here = steps
            .iter()
            .position(|step| step.drill == before.drill && step.then.is_none());
        let free = || steps.iter().position(|step| step.then.is_none());
        if let Some(at) = here.or_else(free) {
            steps[at].then.clone_from(&before.then);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Rule;
    use crate::samples::{demo, demo_case, demo_kit};

    fn molars() -> ValidCase {
        demo_case(demo::TWO_MOLARS)
    }

    fn keys(findings: &[Finding]) -> Vec<String> {
        findings.iter().map(Finding::key).collect()
    }

    /// A radiograph that was asked for stays asked for, whatever sequence another implant brings: after the same drill, else
    /// after the first.
    #[test]
    fn what_follows_a_drill_is_not_lost_with_another_sequence() {
        use crate::kit::Label;
        let kit = demo_kit();
        let mut others = 0;
        for implant in &kit.implants {
            let mut case: Case = (*molars()).clone();
            let site = &mut case.sites[0];
            let what = Label::from("radiograph");
            site.steps[0].then = Some(what.clone());
            let site = site.clone();
            let changed = edits_for_implant(&case, &site, &implant.id, &kit);
            for edit in changed {
                let Edit::ChangeSite(other) = edit else {
                    continue;
                };
                others += usize::from(other.protocol != site.protocol);
                let follows = other.steps.iter().filter_map(|step| step.then.as_ref());
                assert_eq!(
                    follows.collect::<Vec<_>>(),
                    [&what],
                    "{}",
                    implant.id.as_str()
                );
                let with = |steps: &[Step]| {
                    let mut steps = steps.iter();
                    steps
                        .find(|step| step.then.is_some())
                        .unwrap()
                        .drill
                        .clone()
                };
                let drill = with(&site.steps);
                if other.steps.iter().any(|step| step.drill == drill) {
                    assert_eq!(with(&other.steps), drill);
                }
            }
        }
        assert!(others > 0, "the kit has protocols for other implants");
    }

    /// The trial of another implant at the first site.
    fn with_implant(case: &ValidCase, id: &str) -> TrialResult {
        let edits = edits_for_implant(case, &case.sites[0], &id.into(), &demo_kit());
        try_edits(case, &work_out(case), &edits).unwrap()
    }

    #[test]
    fn nothing_changed_is_nothing_settled_and_nothing_opened() {
        let case = molars();
        let trial = try_edits(&case, &work_out(&case), &[]).unwrap();
        assert_eq!((trial.settled, trial.opened), (vec![], vec![]));
        assert_eq!((trial.changed, trial.noted), (vec![], vec![]));
    }

    #[test]
    fn every_concern_is_in_exactly_one_list_or_shows_the_same() {
        let case = molars();
        let before = work_out(&case);
        let (mut settled_any, mut opened_any) = (false, false);
        for id in ["reed-437-74", "reed-437-113", "reed-363-91", "sloe-388-94"] {
            let trial = with_implant(&case, id);
            let concerns = |sheet: &Worksheet| {
                let open = sheet.findings.iter().filter(|f| is_concern(f.severity()));
                open.map(|f| (f.key(), f.told_digest()))
                    .collect::<BTreeMap<_, _>>()
            };
            let (was, is) = (concerns(&before), concerns(&trial.worksheet));
            let gone = was.keys().filter(|key| !is.contains_key(*key));
            let mut settled = keys(&trial.settled);
            settled.sort();
            assert!(gone.eq(settled.iter()), "{id}");
            for (key, digest) in &is {
                let lists = [&trial.opened, &trial.worsened, &trial.changed];
                let told = lists.iter().filter(|list| keys(list).contains(key)).count();
                assert_eq!(told == 1, was.get(key) != Some(digest), "{id}: {key}");
            }
            settled_any |= !trial.settled.is_empty();
            opened_any |= !trial.opened.is_empty();
        }
        assert!(settled_any && opened_any);
    }

    /// The canal below 46 is short already, at 1.9 of 2.0: an implant 2.2 longer makes it worse, a shorter one
    /// settles it.
    #[test]
    fn a_short_that_gets_worse_is_told_as_such() {
        let case = molars();
        let canal = "deep-structure sites[m46].structures[mandibular_canal]".to_owned();
        let longer = with_implant(&case, "reed-437-113");
        assert!(
            keys(&longer.worsened).contains(&canal),
            "{:?}",
            keys(&longer.worsened)
        );
        assert!(!keys(&longer.changed).contains(&canal));
        let shorter = with_implant(&case, "reed-437-74");
        assert!(keys(&shorter.settled).contains(&canal));
        assert_eq!(shorter.worsened, vec![]);
    }

    #[test]
    fn a_change_that_is_refused_says_so() {
        let case = molars();
        let gone = [Edit::RemoveSite("no-such".into())];
        assert!(try_edits(&case, &work_out(&case), &gone).is_err());
    }

    #[test]
    fn a_narrower_implant_that_its_drills_would_leave_loose_is_short() {
        // Where the kit has no protocol for the narrow one the sequence stays.
        let mut live = demo_kit();
        live.protocols
            .retain(|protocol| !protocol.id.as_str().starts_with("reed-363"));
        let case = molars();
        let edits = edits_for_implant(&case, &case.sites[0], &"reed-363-91".into(), &live);
        let trial = try_edits(&case, &work_out(&case), &edits).unwrap();
        let loose = |finding: &&Finding| finding.rule == Rule::WiderThanImplant;
        let loose: Vec<&Finding> = trial.opened.iter().filter(loose).collect();
        assert!(!loose.is_empty() && loose.iter().all(|f| f.severity() == Severity::Short));
        // The protocol that it came from is not one for the new implant.
        let other = |finding: &Finding| finding.rule == Rule::ProtocolForAnotherImplant;
        assert!(trial.opened.iter().any(other));
    }

    #[test]
    fn a_protocol_for_other_implants_gives_way_to_the_one_for_the_new() {
        let case = molars();
        let old = case.sites[0].protocol.clone().unwrap();
        let trial = with_implant(&case, "sloe-388-94");
        let site = &trial.case.sites[0];
        assert_ne!(site.protocol, Some(old));
        assert!(trial.worksheet.findings.iter().all(|finding| {
            finding.site.as_ref() != Some(&site.id)
                || finding.rule != Rule::ProtocolForAnotherImplant
        }));
    }
}
