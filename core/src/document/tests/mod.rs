//! Reading tried on a small model with every feature that the real ones use.

mod broken;
mod files;
mod properties;
mod reports;
mod schemas;
mod texts;

use super::{Argument, Fault, Faults, Kind, Path, Rule, read};
use crate::measure::{Angle, Length, Speed};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The sample's kind, in version 3, read from version 2 on.
const SAMPLE: Kind = Kind {
    key: "traywright_sample",
    name: "case",
    oldest: 2,
    version: 3,
    rules: None,
    is_printed: false,
};

const OTHER: Kind = Kind {
    key: "traywright_other",
    name: "kit",
    oldest: 1,
    version: 1,
    rules: None,
    is_printed: false,
};

static KINDS: [Kind; 2] = [SAMPLE, OTHER];

/// A sample document.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Sample {
    /// Version of the document.
    #[serde(rename = "traywright_sample")]
    #[schemars(range(min = 2, max = 3))]
    version: u32,
    /// Name of the document.
    #[schemars(length(min = 1, max = 20))]
    reference: String,
    /// A day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(extend("format" = "date"))]
    scanned: Option<String>,
    /// The sites.
    #[schemars(length(min = 1, max = 4))]
    sites: Vec<Site>,
    /// Limits by name.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    limits_mm: BTreeMap<String, Length>,
}

/// One site.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Site {
    /// Its id.
    #[schemars(length(min = 1), regex(pattern = r"^[a-z0-9-]+$"), extend("x-form" = "id"))]
    id: String,
    /// A number above 0.
    #[schemars(range(max = 40), extend("exclusiveMinimum" = 0))]
    length_mm: Length,
    /// A signed number that may be unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -5, max = 5))]
    below_crest_mm: Option<Length>,
    /// A tilt.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = -60, max = 60))]
    tilt_deg: Option<Angle>,
    /// A greatest speed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1))]
    most_rpm: Option<Speed>,
    /// Density of the bone.
    #[serde(default)]
    density: Density,
    /// The access, in two words only.
    access: Access,
    /// The placement.
    placement: Placement,
    /// The rule of a step.
    depth: DepthRule,
    /// A neighbour, if one is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    neighbour: Option<Neighbour>,
    /// The site that must be done before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    after: Option<String>,
    /// Marks of a drill.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    marks_mm: Vec<Length>,
    /// A pair of flags.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    grafted: Option<bool>,
    /// Number of uses.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    uses: Option<u8>,
}

/// Documented unit variants, which a schema lists one by one.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Density {
    /// Not known.
    #[default]
    Unknown,
    /// Soft.
    Soft,
    /// Hard.
    Hard,
}

/// Unit variants without a word on each.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum Access {
    Flap,
    TissuePunch,
}

/// Told apart by `kind`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
enum Placement {
    /// On the arch.
    OnArch {
        /// Along the arch.
        along_mm: Length,
        /// Outwards.
        #[serde(default)]
        buccal_mm: Length,
    },
    /// Measured.
    Measured {
        /// Three numbers.
        point_mm: [Length; 3],
        /// The source, which may be unknown.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<Density>,
    },
}

/// Told apart by the only key, or by a word.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum DepthRule {
    /// All the way.
    Full,
    /// So far below.
    Below(Length),
    /// Less by something.
    ShortBy {
        /// By how much.
        #[schemars(range(min = 0))]
        amount_mm: Length,
    },
}

/// A neighbour.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Neighbour {
    /// Its name.
    name: String,
    /// The material.
    density: Density,
    /// The distance.
    #[schemars(range(min = 0))]
    distance_mm: Length,
}

/// Rules that a schema cannot express: ids are unique, `after` names a site.
fn check(sample: &Sample) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut ids = BTreeMap::new();
    for (n, site) in sample.sites.iter().enumerate() {
        let here = Path::root().key("sites").item(n);
        if let Some(first) = ids.insert(site.id.as_str(), here.clone()) {
            let fault = Fault::new(here.key("id"), Rule::DuplicateId);
            faults.push(
                fault
                    .with("id", site.id.as_str())
                    .with("first", Argument::Place(first))
                    .with("key", Argument::key("id")),
            );
        }
        if let Some(after) = &site.after
            && sample.sites.iter().all(|other| other.id != *after)
        {
            let fault = Fault::new(here.key("after"), Rule::DanglingReference);
            faults.push(fault.with("id", after.as_str()).with("noun", "site"));
        }
    }
    faults
}

fn read_sample(text: impl AsRef<[u8]>) -> Result<Sample, Faults> {
    read(text.as_ref(), &SAMPLE, &KINDS, check)
}

/// A document in which every feature is used.
const GOOD: &str = r#"{
  "traywright_sample": 3,
  "reference": "S-1 \u00e4 😀",
  "scanned": "2024-02-29",
  "sites": [
    {
      "id": "36-a",
      "length_mm": 9.3,
      "below_crest_mm": -0.25,
      "tilt_deg": 12.5,
      "most_rpm": 850,
      "density": "soft",
      "access": "tissue_punch",
      "placement": { "kind": "on_arch", "along_mm": 31.75, "buccal_mm": 0.5 },
      "depth": "full",
      "neighbour": { "name": "n", "density": "hard", "distance_mm": 2.1 },
      "marks_mm": [7, 9.05, 11.005],
      "grafted": true,
      "uses": 3
    },
    {
      "id": "37",
      "length_mm": 7.7,
      "access": "flap",
      "placement": { "kind": "measured", "point_mm": [1, -2.5, 0.001], "source": "hard" },
      "depth": { "short_by": { "amount_mm": 3.3 } },
      "after": "36-a"
    }
  ],
  "limits_mm": { "canal": 2, "root 1": 1.5 }
}
"#;
