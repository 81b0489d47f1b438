//! Heights, each with its own datum.

use super::common::{hint, length, title};
use crate::field::Bounds;
use crate::view::site::here::Here;
use crate::window::Stage;
use egui::Ui;
use traywright_core::case::CrestDepth;
use traywright_core::measure::Length;

/// Shows the part.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, here: &Here<'_>) {
    title(ui, &stage.word("site-heights-title"));
    crest(ui, stage, here);
    let heights = here.site.heights;
    let label = stage.word("site-tissue");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(20));
    let value = heights.tissue_thickness_mm;
    if let Some(new) = length(ui, stage, here, (&label, "tissue"), value, bounds) {
        here.change(stage, "site-what-tissue", "tissue", |site| {
            site.heights.tissue_thickness_mm = new;
        });
    }
    let label = stage.word("site-occlusal");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(60));
    let value = heights.crest_below_occlusal_mm;
    if let Some(new) = length(ui, stage, here, (&label, "occlusal"), value, bounds) {
        here.change(stage, "site-what-occlusal", "occlusal", |site| {
            site.heights.crest_below_occlusal_mm = new;
        });
    }
}

/// How deep the platform lies below the crest: taken once both heights are there, unknown again
/// once one is taken away.
fn crest(ui: &mut Ui, stage: &mut Stage<'_>, here: &Here<'_>) {
    let entered = here.site.heights.platform_below_crest;
    let begun = stage.sight.site_view.crest;
    let highest = entered.map_or(begun.highest, |crest| Some(crest.highest_mm));
    let lowest = entered.map_or(begun.lowest, |crest| Some(crest.lowest_mm));
    let bounds = Bounds::or_unknown(Length::from_mm(-20), Length::from_mm(30));
    for (id, field, value) in [
        ("site-crest-highest", "crest-highest", highest),
        ("site-crest-lowest", "crest-lowest", lowest),
    ] {
        let label = stage.word(id);
        let Some(new) = length(ui, stage, here, (&label, field), value, bounds) else {
            continue;
        };
        let (highest, lowest) = if field == "crest-highest" {
            (new, lowest)
        } else {
            (highest, new)
        };
        let both = highest.zip(lowest);
        let crest = both.map(|(highest_mm, lowest_mm)| CrestDepth {
            highest_mm,
            lowest_mm,
        });
        // What is left of the two stays in its field.
        stage.sight.site_view.crest.highest = highest;
        stage.sight.site_view.crest.lowest = lowest;
        if crest.is_none() && entered.is_none() {
            stage.sight.drafts.settle(&here.key(field));
        } else {
            here.change(stage, "site-what-crest", field, |site| {
                site.heights.platform_below_crest = crest;
            });
        }
    }
    if entered.is_none() && highest.is_some() != lowest.is_some() {
        hint(ui, &stage.word("site-crest-both"));
    }
}
