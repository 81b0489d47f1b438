//! The digest of what a finding shows, by which a decision says what was decided on.

use crate::plan::figure::{Known, Quantity, Reason};
use crate::plan::finding::{Finding, Verdict};
use crate::sign::{DECISION, Fingerprint, without_decision};
use serde_json::{Value, json};
use std::collections::BTreeMap;

impl Verdict {
    /// Its name in a digest.
    const fn key(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Unknown => "unknown",
            Self::Tight => "tight",
            Self::Note => "note",
            Self::Clear => "clear",
        }
    }
}

impl Finding {
    /// Its digest, as `short 1.2/1.5 Q9W1DFWF077Y`: the verdict, the value (`none` where there is
    /// none) against the limit, and twelve characters that change with anything else that was there
    /// to be judged: reasons, basis, the sentence's arguments; of an unknown, and of what is
    /// short without a number or by a bound, where implant, cuts and sleeve of its sites are; of what is told of a
    /// sequence that sequence, the bone and the implant.
    ///
    /// The same finding gives the same digest on every machine. Where a limit comes from and what
    /// the surgeon said are not in it.
    #[must_use]
    pub fn digest(&self) -> String {
        self.digest_with(&self.bodies)
    }

    /// The same without the bodies that it is of: alike where what it tells is alike.
    pub(in crate::plan) fn told_digest(&self) -> String {
        self.digest_with(&[])
    }

    fn digest_with(&self, bodies: &[String]) -> String {
        let value = self
            .judged_length()
            .map(Quantity::Length)
            .or(self.value.get());
        let shown = |quantity: Option<Quantity>| quantity.map_or_else(|| "none".to_owned(), bare);
        let mut all = json!({
            "verdict": self.verdict.key(),
            "value": match &self.value {
                Known::Is(quantity) => json!({ "is": canonical(*quantity) }),
                Known::Unknown(reasons) => {
                    json!({ "unknown": reasons.iter().map(reason).collect::<Vec<_>>() })
                }
            },
            "limit": self.limit.map(canonical),
            "basis": self.basis.key(),
            "args": self.args.iter().map(|(name, value)| (*name, value.to_string())).collect::<BTreeMap<_, _>>(),
        });
        // What is known though nothing says what it is held against.
        if let Some(known) = self.figure.as_ref().and_then(|figure| figure.length())
            && matches!(self.value, Known::Unknown(_))
        {
            all["known"] = canonical(Quantity::Length(known));
        }
        if !bodies.is_empty() {
            // In whatever order the case lists them.
            let mut bodies = bodies.to_vec();
            bodies.sort();
            all["bodies"] = json!(bodies);
        }
        let rest: String = Fingerprint::of(&all)
            .to_string()
            .split_whitespace()
            .collect();
        format!(
            "{} {}/{} {rest}",
            self.verdict.key(),
            shown(value),
            shown(self.limit)
        )
    }

    /// Its key, its digest and a code of the decision on it (kind, reason and name), by which an approval
    /// names what it found accepted: another reason is another acceptance.
    #[must_use]
    pub fn acceptance(&self) -> String {
        let named = format!("{} {}", self.key(), self.digest());
        let Some(decision) = &self.decision else {
            return named;
        };
        let code = Fingerprint::of(&json!({
            "judged": decision.judged,
            "reason": decision.reason,
            "by": decision.by,
        }));
        let code: String = code.to_string().split_whitespace().collect();
        format!("{named} {DECISION}{code}")
    }
}

/// The finding's key and the digest in an [acceptance](Finding::acceptance); nothing where it is none.
#[must_use]
pub fn parse_acceptance(written: &str) -> Option<(&str, &str)> {
    let written = without_decision(written);
    // A digest is three words; a key may have more.
    let (digest, _) = written.rmatch_indices(' ').nth(2)?;
    Some((&written[..digest], &written[digest + 1..]))
}

fn bare(quantity: Quantity) -> String {
    match quantity {
        Quantity::Length(length) => length.to_string(),
        Quantity::Angle(angle) => angle.to_string(),
        Quantity::Count(count) => count.to_string(),
    }
}

fn canonical(quantity: Quantity) -> Value {
    match quantity {
        Quantity::Length(length) => json!({ "mm": length.to_string() }),
        Quantity::Angle(angle) => json!({ "deg": angle.to_string() }),
        Quantity::Count(count) => json!({ "count": count }),
    }
}

fn reason(reason: &Reason) -> Value {
    match reason {
        Reason::Missing(path) => json!({ "missing": path.key() }),
        Reason::Stale(path, _) => json!({ "stale": path.key() }),
        Reason::BeforeGraft(path) => json!({ "before_graft": path.key() }),
        Reason::ScanUndated(path) => json!({ "scan_undated": path.key() }),
        Reason::ArchModelOnly(left) => json!({ "arch_model_only": left.to_string() }),
        Reason::AgainstModel { measured, model } => {
            json!({ "against_model": [measured.to_string(), model.to_string()] })
        }
        Reason::AlongTiltedAxis(left) => json!({ "along_tilted_axis": left.to_string() }),
        Reason::CrestOfSocket(left) => json!({ "crest_of_socket": left.to_string() }),
        Reason::BetweenHeights { least, measured } => {
            json!({ "between_heights": [least.to_string(), measured.to_string()] })
        }
        Reason::SomeHeightsOnly(left) => json!({ "some_heights_only": left.to_string() }),
        Reason::NotTheLeast(left) => json!({ "not_the_least": left.to_string() }),
        Reason::ArchAngleOnly(angle) => json!({ "arch_angle_only": angle.to_string() }),
        Reason::OutsideGauge(figure) => json!({ "outside_gauge": figure.to_string() }),
        Reason::BetweenGraduations(figure) => {
            json!({ "between_graduations": figure.to_string() })
        }
        Reason::MeasuredLessDeep(left, _) => json!({ "measured_less_deep": left.to_string() }),
        Reason::AtMost(left) => json!({ "at_most": left.to_string() }),
        Reason::Between { least, most } => {
            json!({ "between": [least.to_string(), most.to_string()] })
        }
        Reason::KindNotEntered { tooth, left } => {
            let left = left.map(|(left, needed)| [left.to_string(), needed.to_string()]);
            json!({ "kind_not_entered": [json!(tooth.to_string()), json!(left)] })
        }
        Reason::CutThroughGuide(site) => json!({ "cut_through_guide": site }),
        Reason::CutBefore(site) => json!({ "cut_before": site }),
        Reason::NothingFits => json!("nothing_fits"),
        Reason::Unfit => json!("unfit"),
        Reason::Pending(what) => json!({ "pending": what }),
        Reason::NoAccuracy => json!("no_accuracy"),
    }
}
