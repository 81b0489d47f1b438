//! Samples as the types of the program, for the tests of every room.

use crate::case::{Case, ValidCase, read_case, read_kit};
use crate::dentition::ToothPosition;
use crate::kit::Kit;
use crate::measure::Length;
use serde_json::Value;
pub(crate) use traywright_samples::*;

/// A length as written, in mm.
pub(crate) fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

/// A tooth by its code of ISO 3950.
pub(crate) fn tooth(iso: &str) -> ToothPosition {
    iso.parse().unwrap()
}

/// A case without a fault.
pub(crate) fn valid(case: Case) -> ValidCase {
    ValidCase::try_from(case).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A case of JSON, or its faults.
pub(crate) fn checked(case: Value) -> Result<ValidCase, String> {
    let case: Case = serde_json::from_value(case).map_err(|error| error.to_string())?;
    ValidCase::try_from(case).map_err(|faults| faults.to_string())
}

/// A case of JSON without a fault.
pub(crate) fn valid_json(case: Value) -> ValidCase {
    checked(case).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Has what was measured on the guide be of the guide as it is planned.
pub(crate) fn receive(case: &mut Value) {
    let read: Case = serde_json::from_value(case.clone()).unwrap();
    let receipts = read.guide.receipt.iter().map(|this| {
        let site = read.site(this.site.as_str()).unwrap();
        read.receipt(site, this.of, this.measured_mm)
    });
    if !read.guide.receipt.is_empty() {
        case["guide"]["receipt"] = serde_json::to_value(receipts.collect::<Vec<_>>()).unwrap();
    }
}

/// A case that ships with the program.
pub(crate) fn demo_case(file: &[u8]) -> ValidCase {
    read_case(file).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// The kit that ships with the program.
pub(crate) fn demo_kit() -> Kit {
    read_kit(demo::KIT).unwrap()
}
