//! Sections of invented sites: what is in which place, to scale, and what is missing.

mod any_site;
mod gallery;
mod scale;
mod unknown;

use super::*;
use crate::charts::samples::{Sample, sample};

const NAME: &str = "lower right first molar (46)";

fn draw(sample: &Sample, step: Option<&str>, width: f64, height: f64) -> Drawing {
    try_draw(sample, step, width, height).unwrap()
}

fn try_draw(
    sample: &Sample,
    step: Option<&str>,
    width: f64,
    height: f64,
) -> Result<Drawing, NoSection> {
    let step = step.map(StepId::from);
    let section = Section {
        case: &sample.case,
        worksheet: &sample.sheet,
        site: sample.site(),
        step: step.as_ref(),
        site_name: NAME,
        texts: Texts::english(),
    };
    section.draw(Room { width, height })
}

/// Millimetres drawn for one, as the drawing itself states it.
fn stated_scale(drawing: &Drawing) -> f64 {
    let written = crate::charts::samples::written(drawing);
    let ratio = written.lines().find_map(|line| line.strip_prefix("scale "));
    let (drawn, of) = ratio.unwrap().split_once(" : ").unwrap();
    drawn.parse::<f64>().unwrap() / of.parse::<f64>().unwrap()
}

/// What counts is the measured length: it stands beside that of the label.
#[test]
fn an_implant_is_named_with_its_measured_length() {
    let sample = sample(|_| {});
    let implant = sample.case.kit.implant(&sample.case.sites[0].implant);
    let implant = implant.unwrap();
    let length = crate::number::mm(implant.platform_to_apex_mm);
    let named = format!("{}, {length} measured", implant.name);
    for step in [None, Some("s4")] {
        let drawing = draw(&sample, step, 88.0, 130.0);
        let words = unknown::said(&drawing, "sites[a].implant").replace('\n', " ");
        assert!(words.contains(&named), "{words}");
        let bare = words.matches(implant.name.as_str()).count();
        assert_eq!(bare, words.matches(&named).count(), "{words}");
    }
}
