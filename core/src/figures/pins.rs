//! Fixation pins as plain data.

use super::explain::Explained;
use super::sites::{Keyed, MarkFigures, mark};
use super::{Detail, Unknown};
use crate::measure::Length;
use crate::plan::{Fits, PinSheet};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// A fixation pin with the depth of its drill.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PinFigures {
    /// Its name in the case.
    pub name: String,
    /// The pin.
    pub pin: String,
    /// The drill that prepares it.
    pub drill: String,
    /// The stop on that drill; null where its marks are read.
    pub stop: Option<String>,
    /// From the drill's tip to the rim of the pin's sleeve, before any graduation.
    pub exact_mm: Option<Length>,
    /// The same, as it can be set or read.
    pub set_mm: Option<Length>,
    /// The gauge's figure; also null where the drill's marks are read.
    pub gauge_mm: Option<Length>,
    /// The mark to read at the rim, where no stop is used.
    pub mark: Option<MarkFigures>,
    /// True if it does not fit and nobody accepted that, so that it is not to be set or used; absent where not.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schemars(default)]
    pub does_not_fit: bool,
    /// Reasons why values are not known, by key.
    pub unknown: Unknown,
    /// Derivation of the figures, by key, where that was asked for.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(default)]
    pub explain: BTreeMap<String, Explained>,
}

pub(super) fn pin(sheet: &PinSheet, detail: Detail) -> PinFigures {
    let mut keyed = Keyed::new(detail);
    let fits = sheet.fits;
    PinFigures {
        name: sheet.name.to_string(),
        pin: sheet.pin.to_string(),
        drill: sheet.drill.to_string(),
        stop: sheet.stop.as_ref().map(ToString::to_string),
        exact_mm: keyed.length_to_use(fits, "exact_mm", &sheet.exact),
        set_mm: keyed.length_to_use(fits, "set_mm", &sheet.set),
        gauge_mm: sheet
            .gauge
            .as_ref()
            .and_then(|figure| keyed.length_to_use(fits, "gauge_mm", figure)),
        mark: sheet.mark.as_ref().filter(|_| fits != Fits::No).map(mark),
        does_not_fit: sheet.fits == Fits::No,
        unknown: keyed.unknown,
        explain: keyed.explain,
    }
}
