//! The faults of a document.

use super::path::shown_key;
use super::{Argument, Path, Rule, Step};
use std::collections::BTreeMap;
use std::fmt::{self, Write as _};

/// A place in a text, as editors count: from 1, columns in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Position {
    /// The line, from 1.
    pub line: usize,
    /// The character in the line, from 1.
    pub column: usize,
}

/// One fault: where, which rule, and with which values.
///
/// Faults sort by their position in the file, those without one first.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Its position in the file, when it was read from one.
    pub position: Option<Position>,
    /// Its path in the document.
    pub path: Path,
    /// The ids of the items on the path, beside its steps; none where it was not looked up.
    pub ids: Vec<Option<String>>,
    /// The rule that is broken.
    pub rule: Rule,
    /// The arguments of the rule's text: the value, the limit, a suggestion.
    pub args: BTreeMap<&'static str, Argument>,
}

impl Fault {
    /// A fault at `path`, its position still unknown.
    #[must_use]
    pub fn new(path: Path, rule: Rule) -> Self {
        Self {
            position: None,
            path,
            ids: Vec::new(),
            rule,
            args: BTreeMap::new(),
        }
    }

    /// The fault with one more argument for its text.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<Argument>) -> Self {
        self.args.insert(name, value.into());
        self
    }

    /// Its steps, each with the id of the item that it leads to.
    pub fn steps(&self) -> impl Iterator<Item = (&Step, Option<&str>)> {
        let ids = self.ids.iter().map(Option::as_deref);
        let ids = ids.chain(std::iter::repeat(None));
        self.path.steps().iter().zip(ids)
    }

    /// Its path for people: items that have an id are named by it too, as in
    /// `sites[2] "36-a" › heights › platform_below_crest_mm`. Empty for the whole document.
    fn place(&self) -> String {
        place_of(&self.path, &self.ids)
    }

    /// The fault as a sentence: what, where, limit and remedy, without a capital at its start and a
    /// full stop at its end. `text` gives the text of an id with its arguments.
    #[must_use]
    pub fn sentence(&self, text: impl Fn(&str, &[(&str, &str)]) -> String) -> String {
        let args = self.args.iter();
        let args: Vec<(&str, String)> = args.map(|(k, v)| (*k, v.to_string())).collect();
        let args: Vec<(&str, &str)> = args.iter().map(|(k, v)| (*k, v.as_str())).collect();
        let what = text(self.rule.id(), &args);
        let place = self.place();
        let place = place.as_str();
        let Some(Position { line, column }) = self.position else {
            return if place.is_empty() {
                what
            } else {
                text("fault-at-place", &[("place", place), ("what", &what)])
            };
        };
        let (line, column) = (line.to_string(), column.to_string());
        let args = [
            ("line", line.as_str()),
            ("column", &column),
            ("what", &what),
        ];
        if place.is_empty() {
            text("fault-at-line", &args)
        } else {
            let [line, column, what] = args;
            text(
                "fault-at-line-and-place",
                &[line, column, ("place", place), what],
            )
        }
    }
}

/// Most steps of a place that are shown; no document of this program goes so deep.
const MOST_STEPS: usize = 16;

/// A path for people with the ids beside its steps; of one deeper than any document the beginning.
pub(super) fn place_of(path: &Path, ids: &[Option<String>]) -> String {
    let mut place = String::new();
    let steps = path.steps();
    for (n, step) in steps.iter().take(MOST_STEPS).enumerate() {
        let _ = match step {
            Step::Item(index) => write!(place, "[{index}]"),
            Step::Key(key) if n == 0 => write!(place, "{}", shown_key(key)),
            Step::Key(key) => write!(place, " › {}", shown_key(key)),
        };
        if let Some(Some(id)) = ids.get(n) {
            let _ = write!(place, " {}", quoted(id));
        }
    }
    if steps.len() > MOST_STEPS {
        place.push_str(" …");
    }
    place
}

impl fmt::Display for Fault {
    /// A terse form for logs and tests; people read the text of [`Rule::id`].
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(position) = self.position {
            write!(f, "{}:{} ", position.line, position.column)?;
        }
        let place = self.place();
        if !place.is_empty() {
            write!(f, "{place}: ")?;
        }
        f.write_str(self.rule.id())?;
        for (n, (name, value)) in self.args.iter().enumerate() {
            let before = if n == 0 { " (" } else { ", " };
            write!(f, "{before}{name} {value}")?;
        }
        if self.args.is_empty() {
            Ok(())
        } else {
            f.write_str(")")
        }
    }
}

/// The part of a document that was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Coverage {
    /// Only up to a fault that hides what follows: no text, no JSON, another kind or version.
    UpToFault,
    /// Every value by itself, but not whether they agree: a reference, for instance, is looked up
    /// once the faults listed are mended.
    EachValue,
    /// Everything.
    Whole,
}

/// All faults of a document, in the order of the file. There is always one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Faults {
    list: Vec<Fault>,
    left_out: usize,
    coverage: Coverage,
}

impl Faults {
    /// So many faults are kept; the others are counted.
    pub const MOST_LISTED: usize = 1000;

    /// The faults in order, each once, or none when the list is empty. `beyond` more are known but
    /// not in the list.
    #[must_use]
    pub fn from_list(mut list: Vec<Fault>, beyond: usize, coverage: Coverage) -> Option<Self> {
        list.sort();
        list.dedup();
        let left_out = beyond + list.len().saturating_sub(Self::MOST_LISTED);
        list.truncate(Self::MOST_LISTED);
        (!list.is_empty()).then_some(Self {
            list,
            left_out,
            coverage,
        })
    }

    /// The one fault that hides all others.
    #[must_use]
    pub fn only(fault: Fault) -> Self {
        Self {
            list: vec![fault],
            left_out: 0,
            coverage: Coverage::UpToFault,
        }
    }

    /// The faults in the order of the file.
    pub fn iter(&self) -> std::slice::Iter<'_, Fault> {
        self.list.iter()
    }

    /// The number of faults, also of those that are not listed.
    #[must_use]
    pub fn count(&self) -> usize {
        self.list.len() + self.left_out
    }

    /// The number of faults that are counted but not listed.
    #[must_use]
    pub const fn left_out(&self) -> usize {
        self.left_out
    }

    /// The part of the document that was looked at.
    #[must_use]
    pub const fn coverage(&self) -> Coverage {
        self.coverage
    }
}

impl<'a> IntoIterator for &'a Faults {
    type Item = &'a Fault;
    type IntoIter = std::slice::Iter<'a, Fault>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl fmt::Display for Faults {
    /// One fault a line, in the terse form.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (n, fault) in self.list.iter().enumerate() {
            if n > 0 {
                f.write_str("\n")?;
            }
            fault.fmt(f)?;
        }
        if self.left_out > 0 {
            write!(f, "\nfaults-left-out ({})", self.left_out)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

/// Most characters of a value that are quoted in a fault.
pub(super) const MOST_QUOTED: usize = 60;

/// A text in quotes, cut to a readable length, nothing in it that could garble a line.
pub(super) fn quoted(text: &str) -> String {
    format!("\"{}\"", clipped(text))
}

/// A text cut to a readable length, nothing in it that could garble a line.
#[must_use]
pub fn clipped(text: &str) -> String {
    match text.char_indices().nth(MOST_QUOTED) {
        Some((end, _)) => legible(text.get(..end).unwrap_or_default()) + "…",
        None => legible(text),
    }
}

/// A text with nothing in it that could garble a line, such as the name of a file.
#[must_use]
pub fn legible(text: &str) -> String {
    let mut shown = String::new();
    for c in text.chars() {
        if c.is_control() || super::is_unseen(c) {
            shown.extend(c.escape_unicode());
        } else {
            shown.push(c);
        }
    }
    shown
}
