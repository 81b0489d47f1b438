//! What newer rules change of a case that was saved by older ones.

use crate::case::{RULES_VERSION, Rule, SavedFigures, SavedFinding, SavedStep, ValidCase};
use crate::kit::{SiteId, StepId};
use crate::measure::Length;
use crate::plan::finding::{Finding, Verdict};
use crate::plan::worksheet::Worksheet;
use std::collections::BTreeMap;

/// A case of older rules, beside what the rules of this program give.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OlderRules {
    /// The rules of the case.
    pub of: u32,
    /// What is known of their figures.
    pub kept: KeptFigures,
    /// What differs from them, where they are known.
    pub changes: Vec<RulesChange>,
}

/// What a file keeps of the figures of its rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeptFigures {
    /// Those of the plan as it is.
    OfThisPlan,
    /// Those of another plan: it was changed since, or its plan code covered something else.
    OfAnother,
    /// None.
    Nothing,
}

/// One thing that newer rules change, each side none where it is unknown or not there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RulesChange {
    /// The setting of a step.
    Setting(SiteId, StepId, [Option<Length>; 2]),
    /// The deepest cut of a step.
    Cut(SiteId, StepId, [Option<Length>; 2]),
    /// A finding, by its key: what it showed and shows; none where it is neither short nor unknown nor tight.
    Finding(String, [Option<String>; 2]),
}

/// What a case keeps of this worksheet when it is saved.
#[must_use]
pub fn saved_figures(worksheet: &Worksheet) -> SavedFigures {
    let sites = worksheet.sites.iter();
    let steps = sites.flat_map(|site| {
        site.steps.iter().map(|step| SavedStep {
            site: site.id.clone(),
            step: step.id.clone(),
            set_mm: step.set.length(),
            cut_mm: step.cut.length(),
        })
    });
    let findings = worksheet.findings.iter().filter(|one| is_kept(one));
    SavedFigures {
        plan_code: worksheet.fingerprint,
        steps: steps.collect(),
        findings: findings
            .map(|one| SavedFinding {
                finding: one.key(),
                shown: shown(one),
            })
            .collect(),
    }
}

/// The case as it is to be written: of these rules, with what they give; one of older rules as it is.
#[must_use]
pub fn with_saved_figures(case: ValidCase, worksheet: &Worksheet) -> ValidCase {
    if case.rules_version < RULES_VERSION {
        return case;
    }
    case.with_saved(Some(saved_figures(worksheet)))
}

/// What the rules of this program change of a case of older ones; none where it is of these.
#[must_use]
pub fn older_rules(case: &ValidCase, worksheet: &Worksheet) -> Option<OlderRules> {
    let of = (case.rules_version < RULES_VERSION).then_some(case.rules_version)?;
    let Some(before) = &case.saved_figures else {
        return Some(OlderRules {
            of,
            kept: KeptFigures::Nothing,
            changes: Vec::new(),
        });
    };
    let kept = if before.plan_code == case.fingerprint_of_its_rules() {
        KeptFigures::OfThisPlan
    } else {
        KeptFigures::OfAnother
    };
    Some(OlderRules {
        of,
        kept,
        changes: changes(before, &saved_figures(worksheet)),
    })
}

fn changes(before: &SavedFigures, after: &SavedFigures) -> Vec<RulesChange> {
    let mut changes = Vec::new();
    for [was, is] in paired(&before.steps, &after.steps, |one| (&one.site, &one.step)) {
        let Some(one) = was.or(is) else { continue };
        let of = || (one.site.clone(), one.step.clone());
        let sets = [was, is].map(|step| step.and_then(|step| step.set_mm));
        if sets[0] != sets[1] {
            let (site, step) = of();
            changes.push(RulesChange::Setting(site, step, sets));
        }
        let cuts = [was, is].map(|step| step.and_then(|step| step.cut_mm));
        if cuts[0] != cuts[1] {
            let (site, step) = of();
            changes.push(RulesChange::Cut(site, step, cuts));
        }
    }
    for [was, is] in paired(&before.findings, &after.findings, |one| &one.finding) {
        let Some(one) = was.or(is) else { continue };
        let shown = [was, is].map(|one| one.map(|one| one.shown.clone()));
        if shown[0] != shown[1] {
            changes.push(RulesChange::Finding(one.finding.clone(), shown));
        }
    }
    changes
}

/// Two lists side by side by a key, in the order of the key.
fn paired<'a, T, K: Ord>(
    before: &'a [T],
    after: &'a [T],
    key: impl Fn(&'a T) -> K,
) -> Vec<[Option<&'a T>; 2]> {
    let mut pairs: BTreeMap<K, [Option<&T>; 2]> = BTreeMap::new();
    for one in before {
        pairs.entry(key(one)).or_default()[0] = Some(one);
    }
    for one in after {
        pairs.entry(key(one)).or_default()[1] = Some(one);
    }
    pairs.into_values().collect()
}

/// That the rules are older is told by itself.
fn is_kept(finding: &Finding) -> bool {
    let open = matches!(
        finding.verdict,
        Verdict::Short | Verdict::Unknown | Verdict::Tight
    );
    open && finding.rule != Rule::RulesOlder
}

/// Verdict, value and limit of a finding, as its digest begins.
fn shown(finding: &Finding) -> String {
    let digest = finding.digest();
    digest
        .rsplit_once(' ')
        .map_or(digest.clone(), |(shown, _)| shown.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::read_case;
    use crate::plan::work_out;
    use crate::samples::{demo, demo_case};
    use serde_json::{Value, json};

    /// The case as a file of older rules, with the figures that it kept changed.
    fn older(change: impl FnOnce(&mut Value)) -> ValidCase {
        let case = demo_case(demo::TWO_MOLARS);
        let worksheet = work_out(&case);
        let mut kept = with_saved_figures(case, &worksheet);
        // As the older program knew the plan.
        let mut value = serde_json::to_value(&*kept).unwrap();
        value["rules_version"] = json!(1);
        kept = read_case(value.to_string().as_bytes()).unwrap();
        value["saved_figures"]["plan_code"] = json!(kept.fingerprint_of_its_rules());
        change(&mut value);
        read_case(value.to_string().as_bytes()).unwrap()
    }

    fn said(case: &ValidCase) -> Option<OlderRules> {
        older_rules(case, &work_out(case))
    }

    #[test]
    fn what_newer_rules_change_is_told_to_the_figure_and_nothing_else() {
        let nothing = said(&older(|_| {})).unwrap();
        assert_eq!((nothing.of, nothing.kept), (1, KeptFigures::OfThisPlan));
        assert_eq!(nothing.changes, []);
        let case = older(|value| {
            let figures = &mut value["saved_figures"];
            let steps = figures["steps"].as_array_mut().unwrap();
            let step = |step: &&mut Value| step["site"] == "m46" && step["step"] == "s2";
            let step = steps.iter_mut().find(step).unwrap();
            step["set_mm"] = json!(20.5);
            step.as_object_mut().unwrap().remove("cut_mm");
            let findings = figures["findings"].as_array_mut().unwrap();
            findings[0]["shown"] = json!("unknown none/none");
            findings.push(json!({ "finding": "wall gone", "shown": "short 1/2" }));
        });
        let worksheet = work_out(&case);
        let first = saved_figures(&worksheet).findings[0].clone();
        let step = worksheet.sites[0]
            .steps
            .iter()
            .find(|s| s.id.as_str() == "s2");
        let step = step.unwrap();
        let (site, id): (SiteId, StepId) = ("m46".into(), "s2".into());
        let mm = |text: &str| Length::parse_mm(text).ok();
        let want = [
            RulesChange::Setting(site.clone(), id.clone(), [mm("20.5"), step.set.length()]),
            RulesChange::Cut(site, id, [None, step.cut.length()]),
            RulesChange::Finding(
                first.finding,
                [Some("unknown none/none".to_owned()), Some(first.shown)],
            ),
            RulesChange::Finding("wall gone".to_owned(), [Some("short 1/2".to_owned()), None]),
        ];
        let found = said(&case).unwrap().changes;
        assert_eq!(found.len(), want.len(), "{found:#?}");
        for one in want {
            assert!(found.contains(&one), "{one:?} in {found:#?}");
        }
    }

    #[test]
    fn figures_that_were_not_kept_or_are_of_another_plan_are_told_so() {
        let none = said(&older(|value| {
            value.as_object_mut().unwrap().remove("saved_figures");
        }));
        assert_eq!(none.unwrap().kept, KeptFigures::Nothing);
        let other = said(&older(|value| {
            value["limits"]["mandibular_canal"]["limit_mm"] = json!(2.1);
        }));
        assert_eq!(other.unwrap().kept, KeptFigures::OfAnother);
        assert_eq!(said(&demo_case(demo::TWO_MOLARS)), None);
    }

    /// The plan code is that of the rules by which the figures were worked out, not of those in the file.
    #[test]
    fn a_case_of_older_rules_has_not_the_plan_code_that_was_approved() {
        let case = older(|_| {});
        assert_ne!(case.fingerprint(), case.fingerprint_of_its_rules());
        let of_these = demo_case(demo::TWO_MOLARS);
        assert_eq!(case.fingerprint(), of_these.fingerprint());
    }
}
