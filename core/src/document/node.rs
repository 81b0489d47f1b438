//! A document as it was written: every value with its place in the text, every number as its
//! digits, every key even if it occurs twice.

use super::fault::{MOST_QUOTED, Position};
use super::numbers::Decimal;
use super::parse::Duplicate;
use super::{Argument, Coverage, Fault, Faults, Rule, Step};
use serde_json::Value;

/// So many faults are looked up in the text.
const MOST_LOCATED: usize = 2 * Faults::MOST_LISTED;

/// A value and the byte at which it begins.
#[derive(Debug)]
pub(super) struct Node {
    pub(super) start: usize,
    pub(super) shape: Shape,
}

/// The form of a value.
#[derive(Debug)]
pub(super) enum Shape {
    Null,
    Bool(bool),
    Number(Decimal),
    Text(String),
    List(Vec<Node>),
    Object(Vec<Member>),
}

/// A key with its value, and the byte at which the key begins.
#[derive(Debug)]
pub(super) struct Member {
    pub(super) start: usize,
    pub(super) key: String,
    pub(super) node: Node,
}

impl Node {
    /// The value at one step further; of a key that occurs twice, the first.
    pub(super) fn child(&self, step: &Step) -> Option<&Self> {
        match (&self.shape, step) {
            (Shape::List(items), Step::Item(index)) => items.get(*index),
            (Shape::Object(_), Step::Key(key)) => self.member(key).map(|member| &member.node),
            _ => None,
        }
    }

    /// The member with this key; the first, if there are several.
    pub(super) fn member(&self, key: &str) -> Option<&Member> {
        match &self.shape {
            Shape::Object(members) => members.iter().find(|member| member.key == key),
            _ => None,
        }
    }

    /// The document as the value that is given to the schema check and to serde: numbers cut to
    /// what can be kept, of a key that occurs twice the first.
    pub(super) fn to_value(&self) -> Value {
        match &self.shape {
            Shape::Null => Value::Null,
            Shape::Bool(yes) => Value::Bool(*yes),
            Shape::Number(decimal) => Value::Number(decimal.kept()),
            Shape::Text(text) => Value::String(text.clone()),
            Shape::List(items) => items.iter().map(Self::to_value).collect(),
            Shape::Object(members) => Value::Object(
                members
                    .iter()
                    .rev()
                    .map(|member| (member.key.clone(), member.node.to_value()))
                    .collect(),
            ),
        }
    }
}

/// A document read from a text: what is needed to find the position of something.
#[derive(Debug)]
pub(super) struct Source {
    text: String,
    root: Node,
    line_starts: Vec<usize>,
}

impl Source {
    pub(super) fn new(text: &str, root: Node) -> Self {
        Self {
            text: text.to_owned(),
            root,
            line_starts: std::iter::once(0)
                .chain(text.match_indices('\n').map(|(at, _)| at + 1))
                .collect(),
        }
    }

    pub(super) fn root(&self) -> &Node {
        &self.root
    }

    /// All faults with their positions, in the order of the file; none when the list is empty.
    pub(super) fn faults(&self, mut list: Vec<Fault>, coverage: Coverage) -> Option<Faults> {
        // A hostile file can have a fault in each of its values: it is enough to count most.
        let beyond = list.len().saturating_sub(MOST_LOCATED);
        list.truncate(MOST_LOCATED);
        for fault in &mut list {
            self.locate(fault);
        }
        Faults::from_list(list, beyond, coverage)
    }

    /// Fills in position and ids of a fault from its path. What is not there is put where it
    /// would be: at the nearest place that is.
    pub(super) fn locate(&self, fault: &mut Fault) {
        let mut ids = Vec::new();
        let mut start = self.root.start;
        let mut here = Some(&self.root);
        for step in fault.path.steps() {
            if let (Some(node), Step::Key(key)) = (here, step)
                && let Some(member) = node.member(key)
            {
                start = member.start;
            }
            here = here.and_then(|node| node.child(step));
            let item = here.filter(|_| matches!(step, Step::Item(_)));
            start = item.map_or(start, |node| node.start);
            ids.push(item.and_then(Node::id));
        }
        fault.ids = ids;
        if fault.position.is_none() {
            fault.position = Some(self.position(start));
        }
    }

    /// The fault of a key that occurs twice.
    pub(super) fn duplicate_key(&self, duplicate: &Duplicate) -> Fault {
        let key = duplicate.path.last_key().unwrap_or_default();
        let mut fault = Fault::new(duplicate.path.clone(), Rule::DuplicateKey)
            .with("key", Argument::quote(key))
            .with("line", self.position(duplicate.first).line);
        fault.position = Some(self.position(duplicate.start));
        fault
    }

    /// Line and column of a byte offset.
    fn position(&self, offset: usize) -> Position {
        let line = self.line_starts.partition_point(|start| *start <= offset);
        let start = line.checked_sub(1).and_then(|n| self.line_starts.get(n));
        let before = self.text.get(start.copied().unwrap_or(0)..offset);
        Position {
            line,
            column: before.unwrap_or_default().chars().count() + 1,
        }
    }
}

impl Node {
    /// The id of an item of a list; of a long one no more than it takes to show it.
    fn id(&self) -> Option<String> {
        match &self.member("id")?.node.shape {
            Shape::Text(id) if !id.is_empty() => Some(id.chars().take(MOST_QUOTED + 1).collect()),
            _ => None,
        }
    }
}
