//! What newer rules change of a case of older ones, in words.

use super::{Formatter, mm};
use crate::case::RULES_VERSION;
use crate::measure::Length;
use crate::plan::{KeptFigures, OlderRules, RulesChange, Severity, Worksheet};

impl Formatter<'_> {
    /// What the rules of this program change of a case of older ones: a sentence each.
    #[must_use]
    pub fn older_rules(&self, older: &OlderRules, worksheet: &Worksheet) -> Vec<String> {
        let versions = [("before", older.of), ("now", RULES_VERSION)];
        let none: &[(&str, &str)] = &[];
        let mut said = vec![self.counted("rules-older", &versions, none)];
        for (version, what) in [
            (2, "rules-2"),
            (3, "rules-3"),
            (4, "rules-4"),
            (5, "rules-5"),
            (6, "rules-6"),
            (7, "rules-7"),
            (8, "rules-8"),
            (9, "rules-9"),
            (10, "rules-10"),
            (11, "rules-11"),
        ] {
            if older.of < version {
                said.push(self.word(what));
            }
        }
        match older.kept {
            KeptFigures::Nothing => said.push(self.word("rules-nothing-kept")),
            KeptFigures::OfAnother => said.push(self.word("rules-of-another")),
            KeptFigures::OfThisPlan => {}
        }
        let changes = older.changes.iter();
        said.extend(changes.map(|one| self.rules_change(one, worksheet)));
        if older.changes.is_empty() && older.kept != KeptFigures::Nothing {
            said.push(self.word("rules-no-change"));
        }
        said
    }

    fn rules_change(&self, change: &RulesChange, worksheet: &Worksheet) -> String {
        let length = |one: &Option<Length>| one.map_or_else(|| self.word("rules-unknown"), mm);
        match change {
            RulesChange::Setting(site, step, [before, after])
            | RulesChange::Cut(site, step, [before, after]) => {
                let (at, name) = (self.site(site), self.step(site, step));
                let (before, after) = (length(before), length(after));
                let args = [
                    ("site", at.as_str()),
                    ("step", &name),
                    ("before", &before),
                    ("after", &after),
                ];
                let id = match change {
                    RulesChange::Cut(..) => "rules-cut",
                    _ => "rules-setting",
                };
                self.texts.get(id, &args)
            }
            RulesChange::Finding(key, [before, after]) => {
                let shown = |one: &Option<String>| match one {
                    Some(shown) => self.kept_verdict(shown),
                    None => self.word("rules-not-open"),
                };
                let mut findings = worksheet.findings.iter();
                let named = findings.find(|finding| finding.key() == *key);
                let name =
                    named.map_or_else(|| key.clone(), |finding| self.line(&self.finding(finding)));
                let (before, after) = (shown(before), shown(after));
                let args = [
                    ("finding", name.as_str()),
                    ("before", &before),
                    ("after", &after),
                ];
                self.text("rules-finding", &args)
            }
        }
    }

    /// A verdict as a file keeps it: `short 1.2/1.5`.
    fn kept_verdict(&self, shown: &str) -> String {
        let (verdict, of) = shown.split_once(' ').unwrap_or((shown, ""));
        let verdict = match verdict {
            "short" => self.severity(Severity::Short),
            "unknown" => self.severity(Severity::Unknown),
            "tight" => self.severity(Severity::Tight),
            other => other.to_owned(),
        };
        match of.split_once('/') {
            Some((value, limit)) if value != "none" && limit != "none" => {
                let args = [
                    ("verdict", verdict.as_str()),
                    ("value", value),
                    ("limit", limit),
                ];
                self.text("rules-shown", &args)
            }
            _ => verdict,
        }
    }
}
