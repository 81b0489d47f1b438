//! The place of something in a document.

use std::fmt;

/// One step into a document.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// Into the member of an object.
    Key(String),
    /// Into the item of a list, counted from 0.
    Item(usize),
}

/// A place in a document, by the steps from its root.
///
/// Its text is exact, such as `sites[2].heights.platform_below_crest_mm`; the root's is empty.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Path(Vec<Step>);

impl Path {
    /// The whole document.
    #[must_use]
    pub const fn root() -> Self {
        Self(Vec::new())
    }

    /// The member `key` of the object that is here.
    #[must_use]
    pub fn key(&self, key: impl Into<String>) -> Self {
        self.then(Step::Key(key.into()))
    }

    /// The item `index` of the list that is here, counted from 0.
    #[must_use]
    pub fn item(&self, index: usize) -> Self {
        self.then(Step::Item(index))
    }

    /// One step further.
    #[must_use]
    pub fn then(&self, step: Step) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }

    /// The steps from the root.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.0
    }

    /// The place that holds this one, and the last step; none for the root.
    #[must_use]
    pub fn split_last(&self) -> Option<(Self, &Step)> {
        let (last, parent) = self.0.split_last()?;
        Some((Self(parent.to_vec()), last))
    }

    /// The last key on the way, also for an item of a list.
    pub(super) fn last_key(&self) -> Option<&str> {
        self.0.iter().rev().find_map(|step| match step {
            Step::Key(key) => Some(key.as_str()),
            Step::Item(_) => None,
        })
    }
}

/// A key as written in a path: bare where it is a plain word, else quoted.
pub(super) fn shown_key(key: &str) -> String {
    let plain = !key.is_empty() && key.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_');
    if plain {
        key.to_owned()
    } else {
        super::fault::quoted(key)
    }
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (n, step) in self.0.iter().enumerate() {
            match step {
                Step::Item(index) => write!(f, "[{index}]")?,
                Step::Key(key) if n == 0 => f.write_str(&shown_key(key))?,
                Step::Key(key) => write!(f, ".{}", shown_key(key))?,
            }
        }
        Ok(())
    }
}
