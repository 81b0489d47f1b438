//! The hash that binds a line of an event file to the one before it.

use crate::sign::canonical::{LeftOut, canonical};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};
use sha2::{Digest as _, Sha256};
use std::fmt;

/// A SHA-256 that binds a line to the one before it; 64 small hexadecimal digits in JSON.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EventHash([u8; 32]);

impl EventHash {
    /// The hash of the canonical form of a value of this room, without the keys that are left out.
    /// It holds strings, whole numbers and names only, so there is one.
    pub(in crate::sign) fn of<T: Serialize>(value: &T, left_out: LeftOut) -> Self {
        let bytes = canonical(value, left_out)
            .unwrap_or_else(|e| unreachable!("plain data becomes JSON: {e}"));
        Self(Sha256::digest(bytes).into())
    }
}

impl EventHash {
    /// The hash of the bytes of a whole file.
    #[must_use]
    pub fn of_file(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }
}

impl fmt::Display for EventHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&data_encoding::HEXLOWER.encode(&self.0))
    }
}

impl Serialize for EventHash {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl schemars::JsonSchema for EventHash {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "EventHash".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "pattern": "^[0-9a-f]{64}$" })
    }
}

impl<'de> Deserialize<'de> for EventHash {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let bytes = data_encoding::HEXLOWER
            .decode(text.as_bytes())
            .ok()
            .and_then(|bytes| <[u8; 32]>::try_from(bytes).ok());
        bytes
            .map(Self)
            .ok_or_else(|| D::Error::custom("a hash has 64 small hexadecimal digits"))
    }
}
