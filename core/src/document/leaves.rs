//! The single values of a document, each with the keys that lead to it, in the order of the file.

use super::node::{Node, Shape};
use super::parse::parse;
use serde::Serialize;

/// The keys that lead to a value, a place in a list by its number from 1, and the value as written
/// in the file: digits, words, `true` or `false`.
pub type Leaf = (Vec<String>, String);

/// The single values of a document or of a part of one, in the order in which they are written.
#[must_use]
pub fn leaves<T: Serialize>(document: &T) -> Vec<Leaf> {
    let text = serde_json::to_string(document)
        .unwrap_or_else(|e| unreachable!("plain data becomes JSON: {e}"));
    let (root, _) =
        parse(&text).unwrap_or_else(|_| unreachable!("what was just written can be read"));
    let mut out = Vec::new();
    collect(&root, &mut Vec::new(), &mut out);
    out
}

fn collect(node: &Node, keys: &mut Vec<String>, out: &mut Vec<Leaf>) {
    let text = match &node.shape {
        Shape::Null => return,
        Shape::List(items) => {
            for (n, item) in items.iter().enumerate() {
                keys.push((n + 1).to_string());
                collect(item, keys, out);
                keys.pop();
            }
            return;
        }
        Shape::Object(members) => {
            for member in members {
                keys.push(member.key.clone());
                collect(&member.node, keys, out);
                keys.pop();
            }
            return;
        }
        Shape::Text(text) => text.clone(),
        Shape::Number(number) => number.kept().to_string(),
        Shape::Bool(flag) => flag.to_string(),
    };
    out.push((keys.clone(), text));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Length;

    #[derive(Serialize)]
    struct Part {
        width_mm: Length,
        marks: Vec<Mark>,
        at: Option<Length>,
        done: bool,
    }

    #[derive(Serialize)]
    struct Mark {
        name: &'static str,
    }

    #[test]
    fn values_come_in_the_order_of_the_file_with_all_their_digits() {
        let part = Part {
            width_mm: Length::from_um(6_123),
            marks: vec![Mark { name: "a" }, Mark { name: "b" }],
            at: None,
            done: true,
        };
        let told: Vec<String> = leaves(&part)
            .into_iter()
            .map(|(keys, text)| format!("{} {text}", keys.join(".")))
            .collect();
        let expected = [
            "width_mm 6.123",
            "marks.1.name a",
            "marks.2.name b",
            "done true",
        ];
        assert_eq!(told, expected);
    }
}
