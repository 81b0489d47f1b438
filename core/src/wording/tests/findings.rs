//! Every rule of the worksheet: edits of the sample that bring it about, and its headlines.

use super::sample::with;
use crate::plan::{FindingKey, Rule, Subject, Verdict};
use crate::text::Texts;
use std::collections::{BTreeMap, BTreeSet};

const TABLE: &str = include_str!("findings.txt");

/// One block of the table.
struct Block {
    rule: &'static str,
    edits: Vec<&'static str>,
    /// Lines `said …` and `remedy …`.
    says: Vec<String>,
}

fn blocks() -> Vec<Block> {
    let lines = TABLE.lines().filter(|line| !line.starts_with('#'));
    let mut blocks: Vec<Block> = Vec::new();
    for line in lines.filter(|line| !line.is_empty()) {
        match line.strip_prefix("  ") {
            None => blocks.push(Block {
                rule: line,
                edits: Vec::new(),
                says: Vec::new(),
            }),
            Some(part) => {
                let block = blocks.last_mut().unwrap();
                if part.starts_with("said ") || part.starts_with("remedy ") {
                    block.says.push(part.to_owned());
                } else {
                    block.edits.push(part);
                }
            }
        }
    }
    blocks
}

/// Headlines by a rule after these edits.
fn said(rule: &str, edits: &[&str]) -> Vec<String> {
    with(edits, |say, sheet| {
        let found = sheet.findings.iter().filter(|f| f.rule.key() == rule);
        found
            .flat_map(|finding| {
                let said = say.finding(finding);
                let head = format!("said [{}] {}", said.word, said.headline);
                let remedy = said.remedy.map(|remedy| format!("remedy {remedy}"));
                std::iter::once(head).chain(remedy)
            })
            .collect()
    })
}

#[test]
fn each_rule_reads_as_in_the_table() {
    let mut others = Vec::new();
    for block in blocks() {
        let said = said(block.rule, &block.edits);
        if said.is_empty() || said != block.says {
            let (is, table) = (said.join("\n  "), block.says.join("\n  "));
            others.push(format!(
                "{} by {:?}\n  {is}\nnot\n  {table}\n",
                block.rule, block.edits
            ));
        }
    }
    assert!(others.is_empty(), "{}", others.join("\n"));
}

/// Texts of every finding have these arguments whatever the rule.
const COMMON: &[&str] = &[
    "accept", "guide", "state", "value", "size", "sign", "limit", "thing",
];

/// Arguments that no English sentence needs: the difference covers them.
const UNSAID: &[(&str, &str)] = &[("receipt", "planned")];

#[test]
fn each_rule_has_its_texts_and_gives_them_all_that_they_use_and_nothing_else() {
    let texts = Texts::english();
    for block in blocks() {
        with(&block.edits, |_, sheet| {
            for finding in sheet.findings.iter().filter(|f| f.rule.key() == block.rule) {
                let rule = finding.rule.key();
                let key = FindingKey::parse(&finding.key()).expect(rule);
                assert_eq!((key.rule, &key.place), (finding.rule, &finding.place));
                let head = texts.arguments(&format!("finding-{rule}")).expect(rule);
                let remedies =
                    ["remedy", "remedy-unknown"].map(|family| format!("{family}-{rule}"));
                let remedies = remedies.iter().filter_map(|id| texts.arguments(id));
                let used: BTreeSet<&str> = head
                    .iter()
                    .chain(remedies.flatten())
                    .map(String::as_str)
                    .filter(|name| !COMMON.contains(name))
                    .collect();
                let given: BTreeSet<&str> = finding.args.keys().copied().collect();
                let unsaid = |name: &&str| UNSAID.contains(&(rule, *name));
                let unused: Vec<_> = given.difference(&used).filter(|n| !unsaid(n)).collect();
                let lacking: Vec<_> = used.difference(&given).collect();
                assert!(unused.is_empty(), "{rule}: {unused:?} unused");
                assert!(lacking.is_empty(), "{rule}: {lacking:?} lacking");
            }
        });
    }
}

/// A rule that is always unknown for a reason would else have a remedy that nobody reads.
#[test]
fn each_remedy_of_a_rule_is_told_somewhere_in_the_table() {
    let mut told = BTreeSet::new();
    for block in blocks() {
        with(&block.edits, |_, sheet| {
            let findings = sheet.findings.iter().filter(|f| f.rule.key() == block.rule);
            for finding in findings.filter(|f| f.verdict != Verdict::Clear) {
                let of_unknown =
                    finding.verdict == Verdict::Unknown && !finding.value.reasons().is_empty();
                let family = if of_unknown {
                    "remedy-unknown"
                } else {
                    "remedy"
                };
                told.insert(format!("{family}-{}", finding.rule));
            }
        });
    }
    let texts = Texts::english();
    let written: BTreeSet<_> = texts.ids().filter(|id| id.starts_with("remedy-")).collect();
    let unread: Vec<_> = written.iter().filter(|id| !told.contains(**id)).collect();
    assert!(unread.is_empty(), "{unread:?}");
    // What is told by no reason has its text.
    let by_rule = told.iter().filter(|id| !id.starts_with("remedy-unknown-"));
    let lacking: Vec<_> = by_rule
        .filter(|id| !written.contains(id.as_str()))
        .collect();
    assert!(lacking.is_empty(), "{lacking:?}");
}

#[test]
fn the_table_has_every_rule_and_no_text_is_left_over() {
    let in_table: BTreeSet<String> = blocks().iter().map(|b| b.rule.to_owned()).collect();
    let rules: BTreeSet<String> = Rule::ALL.iter().map(ToString::to_string).collect();
    assert_eq!(rules.len(), Rule::ALL.len(), "two rules with one key");
    assert_eq!(in_table, rules);
    let texts = Texts::english();
    let written = texts.ids().filter_map(|id| id.strip_prefix("finding-"));
    let left: Vec<_> = written.filter(|rule| !in_table.contains(*rule)).collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn every_subject_of_the_worksheet_stands_in_the_table() {
    let mut seen: BTreeMap<Subject, &str> = BTreeMap::new();
    for block in blocks() {
        with(&block.edits, |_, sheet| {
            for finding in sheet.findings.iter().filter(|f| f.rule.key() == block.rule) {
                seen.insert(finding.subject(), block.rule);
            }
        });
    }
    assert_eq!(seen.len(), 5, "{seen:?}");
}
