//! The head above the picture: step, site, and the guidance of the drill.

use super::facts::Facts;
use crate::charts::lines::Lines;
use crate::drawing::{Across, Drawing, TextStyle};
use crate::plan::StepPath;

/// The words above the picture, from the origin down.
pub(super) fn head(facts: &Facts<'_>, width: f64) -> Drawing {
    let title = match facts.step {
        Some(_) => facts.step_words(),
        None => facts.word("section-head-no-step"),
    };
    let mut lines = Lines::new().text(&title, TextStyle::STRONG, width).text(
        facts.section.site_name,
        TextStyle::NOTE,
        width,
    );
    if let Some(step) = facts.step {
        let led = match (step.sheet.path, step.sleeve) {
            (StepPath::DrillSleeve, Some(sleeve)) => facts.texts().get(
                "section-through-sleeve",
                &[("sleeve", sleeve.name.as_str())],
            ),
            (StepPath::Freehand, _) => facts.word("section-freehand"),
            _ => facts.word("section-through-master"),
        };
        lines = lines.text(&led, TextStyle::NOTE, width);
    }
    lines.draw(0.0, 0.0, Across::Start)
}
