//! The invented kit and cases that ship with the program: that they are sound and say what they
//! are meant to show.

mod causes;
mod files;
mod outcomes;
mod overlap;
mod settings;
mod variations;

use std::path::PathBuf;
use traywright_core::case::{Case, Site, ValidCase, read_case};
use traywright_core::measure::Length;
use traywright_core::plan::{Figure, Finding, Severity, SiteSheet, StepSheet, Worksheet, work_out};

/// The cases, by file name without its ending.
pub(crate) const CASES: &[&str] = &[
    "fixed-stops",
    "fresh-socket",
    "full-arch-upper",
    "one-figure",
    "one-premolar",
    "two-molars",
    "upper-face-gauge",
];

pub(crate) fn path(name: &str) -> PathBuf {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo");
    PathBuf::from(demo).join(format!("{name}.json"))
}

pub(crate) fn bytes(name: &str) -> Vec<u8> {
    std::fs::read(path(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

pub(crate) fn valid(name: &str) -> ValidCase {
    read_case(&bytes(name)).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"))
}

fn sheet(name: &str) -> Worksheet {
    work_out(&valid(name))
}

/// The worksheet of a case after a change that leaves it sound.
fn changed(name: &str, change: impl FnOnce(&mut Case)) -> Worksheet {
    let mut case = valid(name).into_case();
    change(&mut case);
    work_out(&ValidCase::try_from(case).unwrap())
}

fn site<'a>(sheet: &'a Worksheet, id: &str) -> &'a SiteSheet {
    let found = sheet.sites.iter().find(|site| site.id.as_str() == id);
    found.unwrap_or_else(|| panic!("no site {id}"))
}

pub(crate) fn step<'a>(sheet: &'a Worksheet, site_id: &str, id: &str) -> &'a StepSheet {
    let steps = &site(sheet, site_id).steps;
    let found = steps.iter().find(|step| step.id.as_str() == id);
    found.unwrap_or_else(|| panic!("no step {id} at {site_id}"))
}

fn site_mut<'a>(case: &'a mut Case, id: &str) -> &'a mut Site {
    let found = case.sites.iter_mut().find(|site| site.id.as_str() == id);
    found.unwrap_or_else(|| panic!("no site {id}"))
}

fn finding<'a>(sheet: &'a Worksheet, key: &str) -> Option<&'a Finding> {
    sheet.findings.iter().find(|finding| finding.key() == key)
}

fn keys(sheet: &Worksheet, severity: Severity) -> Vec<String> {
    let of = sheet.findings.iter().filter(|f| f.severity() == severity);
    of.map(Finding::key).collect()
}

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

/// The figure's length as its file would write it; `?` where it is unknown.
pub(crate) fn shown(figure: &Figure) -> String {
    figure
        .length()
        .map_or_else(|| "?".into(), |l| l.to_string())
}
