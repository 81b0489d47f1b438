//! Names by which entries refer to each other, one type for each kind of entry.

use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;

/// Ids and names go with every figure and finding: a copy of one is a count, not a text.
fn write<S: Serializer>(text: &Arc<str>, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(text)
}

fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Arc<str>, D::Error> {
    String::deserialize(from).map(Arc::from)
}

macro_rules! id_types {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
        #[serde(transparent)]
        #[schemars(inline)]
        pub struct $name(
            #[serde(serialize_with = "write", deserialize_with = "read")]
            #[schemars(with = "String", length(min = 1, max = 60), regex(pattern = r"^[A-Za-z0-9][A-Za-z0-9._-]*$"), extend("x-form" = "id"))]
            Arc<str>,
        );

        impl $name {
            /// The id as text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self {
                Self(text.into())
            }
        }

        impl Borrow<str> for $name {
            fn borrow(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    )*};
}

id_types! {
    /// Id of a kit.
    KitId;
    /// Id of an implant.
    ImplantId;
    /// Id of a drill or bone tap.
    DrillId;
    /// Id of a drill sleeve.
    DrillSleeveId;
    /// Id of a master sleeve.
    MasterSleeveId;
    /// Id of a depth stop.
    StopId;
    /// Id of a depth gauge.
    GaugeId;
    /// Id of an implant carrier.
    CarrierId;
    /// Id of a handpiece head.
    HeadId;
    /// Id of a driver.
    DriverId;
    /// Id of a fixation pin.
    PinId;
    /// Id of an accessory.
    AccessoryId;
    /// Id of a protocol.
    ProtocolId;
    /// Id of a tray template.
    TrayId;
    /// Id of a site in a case. It is not the tooth number: that can be corrected later.
    SiteId;
    /// Id of a step in a site's sequence.
    StepId;
}

/// A name for people: one line, not empty.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(transparent)]
#[schemars(inline)]
pub struct Label(
    #[serde(serialize_with = "write", deserialize_with = "read")]
    #[schemars(with = "String", length(min = 1, max = 120), regex(pattern = r"^\S([^\r\n\t]*\S)?$"), extend("x-form" = "label"))]
    Arc<str>,
);

impl Label {
    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// A code that stands on a thing or its wrapping, as a scanner types it. It is longer than any reading and has no decimal
/// mark, so that neither is taken for the other.
#[derive(
    Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(transparent)]
#[schemars(inline)]
pub struct ScanCode(
    #[serde(serialize_with = "write", deserialize_with = "read")]
    #[schemars(with = "String", length(min = 5, max = 60), regex(pattern = r"^[!-+/-~-]+$"), extend("x-form" = "code"))]
    Arc<str>,
);

impl ScanCode {
    /// The code as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// True if a scanner types it so: keyboards differ in which of its letters are large.
    #[must_use]
    pub fn is_typed_as(&self, text: &str) -> bool {
        self.0.eq_ignore_ascii_case(text)
    }
}

impl From<&str> for ScanCode {
    fn from(text: &str) -> Self {
        Self(text.into())
    }
}

impl From<&str> for Label {
    fn from(text: &str) -> Self {
        Self(text.into())
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
