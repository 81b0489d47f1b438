//! Findings as plain data.

use super::explain::{Explained, explained};
use super::{Detail, reason};
use crate::case::DecisionKind;
use crate::measure::{Angle, Length};
use crate::plan::{
    AppliedDecision, CommonCause, Finding, FindingLine, Quantity, Subject, WhyLapsed, Worksheet,
    by_cause,
};
use crate::wording::Formatter;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// One finding.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FindingFigures {
    /// short, unknown, tight, accepted, intended, note or clear.
    pub severity: String,
    /// clearance, instrument, stock, sequence or guide.
    pub subject: String,
    /// Its place, as a path in the case.
    pub path: String,
    /// The rule that was checked.
    pub rule: String,
    /// The name by which a decision in the case file refers to it.
    pub key: String,
    /// Its digest, in one word: a decision holds as long as this stays the same.
    pub shown: String,
    /// The same in words.
    pub says: String,
    /// The site, where it belongs to one.
    pub site: Option<String>,
    /// The other site, where it is between two.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_site: Option<String>,
    /// The step, where it belongs to one.
    pub step: Option<String>,
    /// The value, where it is a length and known.
    pub value_mm: Option<Length>,
    /// The limit, where it is a length.
    pub limit_mm: Option<Length>,
    /// The value, where it is an angle and known.
    pub value_deg: Option<Angle>,
    /// The limit, where it is an angle.
    pub limit_deg: Option<Angle>,
    /// Source of the limit.
    pub limit_source: Option<String>,
    /// The limit of the case that counts here and is less strict than the program's own.
    pub loosened: Option<LoosenedFigures>,
    /// Basis of the value: measured, entered, estimated or `arch_model`.
    pub basis: String,
    /// Accuracy of the value: `not_assessed` for a clearance, absent for the rest.
    pub accuracy: Option<String>,
    /// Reasons why the value is not known.
    pub unknown: Vec<String>,
    /// Further arguments of its sentence.
    pub args: BTreeMap<String, String>,
    /// The surgeon's decision that holds.
    pub judged: Option<DecisionFigures>,
    /// The surgeon's decision that does not count, as one on what was shown before.
    pub lapsed: Option<DecisionFigures>,
    /// Derivation of the value, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub explain: Option<Explained>,
}

/// A limit that is less strict than the program's own.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LoosenedFigures {
    /// Its key in the case.
    pub limit: String,
    /// The program's own limit, where it is a length.
    pub own_mm: Option<Length>,
    /// The program's own limit, where it is an angle.
    pub own_deg: Option<Angle>,
}

/// The surgeon's decision on a finding.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DecisionFigures {
    /// accepted or intended.
    pub judged: DecisionKind,
    /// The reason.
    pub reason: String,
    /// Name or initials of the person who decided.
    pub by: String,
    /// Why it does not count: changed, `not_acceptable`, `no_reason` or `no_name`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<&'static str>,
}

/// A cause on which several unknown findings hang.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CauseFigures {
    /// The cause in words, with the number of findings.
    pub says: String,
    /// What would make them known, in words.
    pub remedy: String,
    /// The place of what is missing, where that is the cause.
    pub missing: Option<String>,
    /// The site that was changed or grafted since something was measured, or since the guide was made, where that is the
    /// cause.
    pub changed: Option<String>,
    /// The names of the findings that hang on it, worst first.
    pub findings: Vec<String>,
}

pub(super) fn causes(formatter: &Formatter<'_>, worksheet: &Worksheet) -> Vec<CauseFigures> {
    let all: Vec<&Finding> = worksheet.findings.iter().collect();
    let told = by_cause(all, |finding| finding).into_iter();
    told.filter_map(|told| match told {
        FindingLine::One(_) => None,
        FindingLine::Cause(cause, findings) => Some((cause, findings)),
    })
    .map(|(cause, findings)| {
        let said = formatter.cause(&cause, findings.iter().copied());
        let (missing, changed) = match cause {
            CommonCause::Missing(place) => (Some(place.key()), None),
            CommonCause::Changed(since) => (None, Some(since.site.to_string())),
            CommonCause::GuideOfOtherPlan(site)
            | CommonCause::GuideLeft(site)
            | CommonCause::CutBefore(site)
            | CommonCause::Grafted(site) => (None, Some(site.to_string())),
            CommonCause::GoesDeeper(_)
            | CommonCause::OutsideGauge
            | CommonCause::ArchModelOnly
            | CommonCause::Sockets
            | CommonCause::Kinds
            | CommonCause::ScanUndated => (None, None),
        };
        CauseFigures {
            says: said.headline,
            remedy: said.remedy,
            missing,
            changed,
            findings: findings.into_iter().map(Finding::key).collect(),
        }
    })
    .collect()
}

fn decision(decision: &AppliedDecision, why: Option<WhyLapsed>) -> DecisionFigures {
    DecisionFigures {
        judged: decision.judged,
        reason: decision.reason.clone(),
        by: decision.by.clone(),
        why: why.map(WhyLapsed::key),
    }
}

pub(super) fn finding(
    formatter: &Formatter<'_>,
    finding: &Finding,
    detail: Detail,
) -> FindingFigures {
    let length = |q: Option<Quantity>| q.and_then(Quantity::length);
    let angle = |q: Option<Quantity>| match q {
        Some(Quantity::Angle(angle)) => Some(angle),
        _ => None,
    };
    FindingFigures {
        severity: finding.severity().key().to_owned(),
        subject: finding.subject().key().to_owned(),
        path: finding.place.key(),
        rule: finding.rule.key().to_owned(),
        key: finding.key(),
        shown: finding.digest(),
        says: formatter.finding(finding).headline,
        site: finding.site.as_ref().map(ToString::to_string),
        other_site: finding.other_site().map(ToString::to_string),
        step: finding.step.as_ref().map(ToString::to_string),
        value_mm: length(finding.value.get()),
        limit_mm: length(finding.limit),
        value_deg: angle(finding.value.get()),
        limit_deg: angle(finding.limit),
        limit_source: finding.limit_source.clone(),
        loosened: finding.loosened.map(|one| LoosenedFigures {
            limit: one.limit.to_owned(),
            own_mm: length(Some(one.own)),
            own_deg: angle(Some(one.own)),
        }),
        basis: finding.basis.key().to_owned(),
        accuracy: (finding.subject() == Subject::Clearance).then(|| "not_assessed".to_owned()),
        unknown: finding.value.reasons().iter().map(reason).collect(),
        args: finding
            .args
            .iter()
            .map(|(name, value)| ((*name).to_owned(), value.to_string()))
            .collect(),
        judged: finding.decision.as_ref().map(|one| decision(one, None)),
        lapsed: (finding.lapsed.as_ref()).map(|one| decision(&one.decision, Some(one.why))),
        explain: match (detail, &finding.figure) {
            (Detail::Explained, Some(figure)) => Some(explained(figure)),
            _ => None,
        },
    }
}
