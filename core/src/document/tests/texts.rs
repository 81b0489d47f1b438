//! The sentences: every rule has one, and every argument that it names is given.

use super::{Faults, Rule};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};

/// English, as the text room gives it.
pub(super) fn english(id: &str, args: &[(&str, &str)]) -> String {
    let source = include_str!("../../../../assets/text/en/faults.ftl");
    let resource = FluentResource::try_new(source.to_owned()).expect("the text can be read");
    let mut bundle = FluentBundle::new(vec!["en".parse().unwrap()]);
    bundle.set_use_isolating(false);
    bundle.add_resource(resource).expect("no id stands twice");
    let message = bundle.get_message(id).and_then(|m| m.value());
    let message = message.unwrap_or_else(|| panic!("{id} has no text"));
    let args: FluentArgs<'_> = args.iter().copied().collect();
    let mut errors = Vec::new();
    let text = bundle.format_pattern(message, Some(&args), &mut errors);
    assert!(errors.is_empty(), "{id}: {errors:?}");
    text.into_owned()
}

/// All faults as sentences, one a line.
pub(super) fn sentences(faults: &Faults) -> String {
    let lines = faults.iter().map(|fault| fault.sentence(english));
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn every_rule_has_a_text_that_needs_only_what_the_rule_gives() {
    let source = include_str!("../rule.rs");
    for rule in Rule::ALL {
        // The arguments of a rule stand in its docs, in backquotes behind "Args:".
        let (before, _) = source.split_once(&format!("\"{}\"", rule.id())).unwrap();
        let docs = before.rsplit("///").next().unwrap();
        let args = docs.split_once("Args:").map_or("", |(_, args)| args);
        let names = args.split('`').skip(1).step_by(2);
        let args: Vec<(&str, &str)> = names.map(|name| (name, "§")).collect();
        let text = english(rule.id(), &args);
        assert_eq!(text.matches('§').count() > 0, !args.is_empty(), "{text}");
        let first = text.chars().next().unwrap();
        assert!(!first.is_uppercase() && !text.ends_with('.'), "{text}");
        assert!(
            text.contains(". ") || text.contains("; "),
            "no remedy: {text}"
        );
    }
}
