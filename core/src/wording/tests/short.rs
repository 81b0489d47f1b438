//! "Short" is the verdict and nothing else: what lacks is *missing*, what ends coronal of its plan is *shallower*,
//! a first pass is to *partial depth*.

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use std::path::Path;

/// The texts that say it, each with the reason why it may.
const MAY: &[(&str, &[&str])] = &[
    (
        "the verdict: a limit is broken",
        &[
            "accepted-count-short",
            "case-limits-what",
            "cli-approve-open",
            "cli-nothing-else-open",
            "cli-nothing-open",
            "cli-open",
            "cli-open-causes",
            "kit-view-open",
            "loading-plan-open",
            "rules-4",
            "rules-no-change",
            "rules-not-open",
            "severity-accepted-short",
            "severity-meaning-accepted",
            "severity-short",
            "sheet-limits-note",
            "sheet-nothing-open",
            "sheet-open-line",
            "sheet-open-note",
            "sheet-view-not-open",
            "sheet-view-nothing-open",
            "sheet-view-open",
            "sheet-view-still-open",
            "site-trial-nothing",
        ],
    ),
    (
        "how long a thing is itself, beside another or beside what it should be",
        &[
            "remedy-carrier-too-long",
            "remedy-deep-structure",
            "remedy-drill-sleeve-room",
            "remedy-free-length-short",
            "remedy-full-diameter-above-apex",
            "remedy-neighbour-implant-body",
            "remedy-pin-drill-short",
            "safety-implants-all-shorter",
            "safety-implants-some-shorter",
            "count-sealed-shorter",
            "sheet-col-set-shorter",
            "sheet-no-shorter",
            "sheet-second-how",
            "sheet-shorter-at-hand",
            "sheet-shorter-lacking",
            "shorter",
            "site-next-shorter",
            "site-no-shorter",
            "stale-since-implant",
            "surgery-change-shorter",
            "fault-other",
            "fault-text-too-long",
            "kit-field-id",
        ],
    ),
    (
        "how long something takes",
        &["order-fewest-resets", "order-least-time"],
    ),
];

/// Every word of a text, in each of its forms, without the names of its arguments.
fn words(pattern: &Pattern<String>) -> Vec<String> {
    let of = |text: &str| {
        let words = text.split(|c: char| !c.is_alphabetic());
        words.map(str::to_lowercase).collect()
    };
    let element = |element: &PatternElement<String>| match element {
        PatternElement::TextElement { value } => of(value),
        PatternElement::Placeable { expression } => match expression {
            Expression::Select { variants, .. } => {
                variants.iter().flat_map(|one| words(&one.value)).collect()
            }
            Expression::Inline(InlineExpression::StringLiteral { value }) => of(value),
            Expression::Inline(_) => Vec::new(),
        },
    };
    pattern.elements.iter().flat_map(element).collect()
}

/// The ids of all texts that say it.
fn saying() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/text/en");
    let mut found = Vec::new();
    for file in std::fs::read_dir(folder).unwrap() {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        for entry in fluent_syntax::parser::parse(text).unwrap().body {
            if let Entry::Message(message) = entry
                && let Some(pattern) = &message.value
                && words(pattern).iter().any(|word| word.starts_with("short"))
            {
                found.push(message.id.name);
            }
        }
    }
    found.sort();
    found
}

#[test]
fn short_is_the_verdict_and_nothing_else() {
    let mut may: Vec<&str> = MAY.iter().flat_map(|(_, ids)| *ids).copied().collect();
    may.sort_unstable();
    assert_eq!(saying(), may);
}
