//! Names of sites, tools, settings and sleeves in a bare problem.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::borrow::Borrow;
use std::fmt;

/// A short name by which the parts of a problem refer to each other.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(transparent)]
#[schemars(inline)]
pub struct Id(
    #[schemars(length(min = 1, max = 60), regex(pattern = r"^[A-Za-z0-9][A-Za-z0-9._-]*$"), extend("x-form" = "id"))]
     String,
);

impl Id {
    /// The id as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<&str> for Id {
    fn from(text: &str) -> Self {
        Self(text.to_owned())
    }
}

impl Borrow<str> for Id {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
