//! Arguments that a text may use, found in its source.
//!
//! Putting a text together reports only what is missing on the way taken; a text with a choice in
//! it may need more on another way. The whole list is what callers are held to.

use super::texts::TextFault;
use fluent_bundle::FluentResource;
use fluent_syntax::ast::{
    CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement,
};
use std::collections::{BTreeMap, BTreeSet};

/// Needs of the texts read so far: arguments, and each other.
#[derive(Debug, Default)]
pub(super) struct Needs {
    texts: BTreeMap<String, Need>,
    terms: BTreeMap<String, Need>,
}

/// Needs of one text by itself.
#[derive(Debug, Default)]
struct Need {
    arguments: BTreeSet<String>,
    texts: BTreeSet<String>,
    terms: BTreeSet<String>,
}

impl Needs {
    /// Adds what the texts of a file need.
    pub(super) fn read(&mut self, resource: &FluentResource) -> Result<(), TextFault> {
        for entry in resource.entries() {
            match entry {
                Entry::Message(message) => {
                    let id = message.id.name.to_owned();
                    let Some(value) = &message.value else {
                        return Err(TextFault::NoWords { id });
                    };
                    self.texts.insert(id, Need::of(value));
                }
                Entry::Term(term) => {
                    let id = term.id.name.to_owned();
                    self.terms.insert(id, Need::of(&term.value));
                }
                _ => {}
            }
        }
        Ok(())
    }

    /// Every text's id with the arguments that it, and the texts it refers to, may use.
    pub(super) fn arguments_by_id(&self) -> Result<BTreeMap<String, BTreeSet<String>>, TextFault> {
        let terms = self.terms.iter().map(|(id, need)| (format!("-{id}"), need));
        let texts = self.texts.iter().map(|(id, need)| (id.clone(), need));
        for (id, need) in texts.chain(terms) {
            let texts = need.texts.iter().filter(|to| !self.texts.contains_key(*to));
            let terms = need.terms.iter().filter(|to| !self.terms.contains_key(*to));
            let dangling = texts.cloned().chain(terms.map(|to| format!("-{to}")));
            if let Some(to) = dangling.into_iter().next() {
                return Err(TextFault::Dangling { id, to });
            }
        }
        let arguments = self.texts.keys().map(|id| (id.clone(), self.reached(id)));
        Ok(arguments.collect())
    }

    /// The arguments of a text and of all that it refers to, each visited once.
    fn reached(&self, id: &str) -> BTreeSet<String> {
        let mut arguments = BTreeSet::new();
        let mut seen = BTreeSet::new();
        let mut ahead = vec![id];
        while let Some(id) = ahead.pop() {
            if let (true, Some(need)) = (seen.insert(id), self.texts.get(id)) {
                arguments.extend(need.arguments.iter().cloned());
                ahead.extend(need.texts.iter().map(String::as_str));
            }
        }
        arguments
    }
}

impl Need {
    fn of(value: &Pattern<&str>) -> Self {
        let mut need = Self::default();
        need.add_pattern(value);
        need
    }

    fn add_pattern(&mut self, pattern: &Pattern<&str>) {
        for element in &pattern.elements {
            if let PatternElement::Placeable { expression } = element {
                self.add_expression(expression);
            }
        }
    }

    fn add_expression(&mut self, expression: &Expression<&str>) {
        match expression {
            Expression::Inline(inline) => self.add_inline(inline),
            Expression::Select { selector, variants } => {
                self.add_inline(selector);
                for variant in variants {
                    self.add_pattern(&variant.value);
                }
            }
        }
    }

    fn add_inline(&mut self, inline: &InlineExpression<&str>) {
        match inline {
            InlineExpression::VariableReference { id } => {
                self.arguments.insert(id.name.to_owned());
            }
            InlineExpression::MessageReference { id, .. } => {
                self.texts.insert(id.name.to_owned());
            }
            InlineExpression::TermReference { id, arguments, .. } => {
                // A term sees only what it is called with, so its own needs are not the text's.
                self.terms.insert(id.name.to_owned());
                if let Some(call) = arguments {
                    self.add_call(call);
                }
            }
            InlineExpression::FunctionReference { arguments, .. } => self.add_call(arguments),
            InlineExpression::Placeable { expression } => self.add_expression(expression),
            InlineExpression::StringLiteral { .. } | InlineExpression::NumberLiteral { .. } => {}
        }
    }

    fn add_call(&mut self, call: &CallArguments<&str>) {
        let named = call.named.iter().map(|argument| &argument.value);
        for inline in call.positional.iter().chain(named) {
            self.add_inline(inline);
        }
    }
}
