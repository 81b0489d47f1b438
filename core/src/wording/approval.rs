//! Approvals in words: why one does not hold.

use super::Formatter;
use crate::plan::{Worksheet, parse_acceptance};
use crate::sign::{ApprovalLapse, Argument};

impl Formatter<'_> {
    /// The reason why an approval does not hold, as a sentence. Findings are worded as in this
    /// worksheet; one that is gone from it by its key.
    #[must_use]
    pub fn approval_lapse(&self, lapse: &ApprovalLapse, worksheet: &Worksheet) -> String {
        let mut message = lapse.message();
        if let ApprovalLapse::AcceptancesNotCovered { keys }
        | ApprovalLapse::DecisionsChanged { keys }
        | ApprovalLapse::AcceptancesGone { keys } = lapse
        {
            let lines: Vec<String> = keys
                .iter()
                .map(|key| self.accepted_line(key, worksheet))
                .collect();
            message
                .args
                .insert("keys", Argument::Text(lines.join("; ")));
        }
        self.message(&message)
    }

    /// The finding of an acceptance, which is named by the finding's key with what it showed.
    fn accepted_line(&self, accepted: &str, worksheet: &Worksheet) -> String {
        let key = parse_acceptance(accepted).map(|(key, _)| key);
        let mut findings = worksheet.findings.iter();
        let named = findings.find(|finding| Some(&*finding.key()) == key);
        named.map_or_else(
            || accepted.to_owned(),
            |finding| self.line(&self.finding(finding)),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dentition::Notation;
    use crate::plan::work_out;
    use crate::samples::{demo, demo_case};

    #[test]
    fn an_acceptance_is_told_by_its_finding_and_one_that_is_gone_by_its_key() {
        let case = demo_case(demo::TWO_MOLARS);
        let worksheet = work_out(&case);
        let say = Formatter::english(&case, Notation::Iso);
        for finding in &worksheet.findings {
            let (key, shown) = (finding.key(), finding.digest());
            let acceptance = finding.acceptance();
            assert_eq!(parse_acceptance(&acceptance), Some((&*key, &*shown)));
        }
        let finding = &worksheet.findings[0];
        let line = say.line(&say.finding(finding));
        let lapse = ApprovalLapse::AcceptancesNotCovered {
            keys: vec![
                finding.acceptance(),
                "wall sites[gone].walls[oral crest] short 1/2 X".to_owned(),
            ],
        };
        let said = say.approval_lapse(&lapse, &worksheet);
        assert!(line.contains("mandibular canal"), "{line}");
        assert!(said.contains(&line), "{said}");
        assert!(said.contains("sites[gone]"), "{said}");
    }
}
