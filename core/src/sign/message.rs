//! A sentence to be told, without its words.

use std::collections::BTreeMap;
use std::fmt;

/// The id of a text in `assets/text` and what goes into it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Message {
    /// Id of the text, beginning with `sign-`.
    pub id: &'static str,
    /// The values of the text's variables. Lengths are millimetres in their shortest decimal.
    pub args: BTreeMap<&'static str, String>,
}

impl Message {
    pub(super) fn new<const N: usize>(
        id: &'static str,
        args: [(&'static str, &dyn fmt::Display); N],
    ) -> Self {
        Self {
            id,
            args: args.map(|(key, value)| (key, value.to_string())).into(),
        }
    }
}

impl fmt::Display for Message {
    /// For logs and tests: the id and the arguments.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id)?;
        for (key, value) in &self.args {
            write!(f, " {key}={value:?}")?;
        }
        Ok(())
    }
}
