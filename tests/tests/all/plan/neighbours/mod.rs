//! Neighbouring roots and implants: measured, from two measured axes, or from the arch model.

mod heights;
pub(crate) mod implants;
mod old_implant;
mod places;
mod roots;
mod true_pairs;

use traywright_core::plan::{Finding, Verdict, Worksheet};

fn at<'a>(sheet: &'a Worksheet, path: &str) -> Option<&'a Finding> {
    sheet.findings.iter().find(|f| f.place.key() == path)
}

fn verdict_at(sheet: &Worksheet, path: &str) -> Option<(&'static str, Verdict)> {
    at(sheet, path).map(|f| (f.rule.key(), f.verdict))
}
