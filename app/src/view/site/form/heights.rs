//! Heights, each with its own datum.

use super::common::{hint, length, stale, title};
use crate::field::{Bounds, New};
use crate::view::site::here::Here;
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::{CrestDepth, Heights};
use traywright_core::measure::Length;

/// Shows the part. All heights were measured at one placement: once they are `stale`, they are
/// confirmed or taken anew together, so that a new one confirms no old one by the way.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, is_stale: bool) {
    let name = cx.word("site-heights-title");
    title(ui, &name);
    if is_stale {
        if stale(ui, cx, &name) {
            here.change(cx, "site-what-confirmed", "heights", |site| {
                site.heights.measured_at = Some(site.placement);
            });
        }
        if ui.small_button(cx.word("site-heights-anew")).clicked() {
            here.change(cx, "site-what-heights", "heights", |site| {
                site.heights = Heights::default();
            });
        }
    }
    ui.add_enabled_ui(!is_stale, |ui| fields(ui, cx, here));
}

/// Sets heights of the site, measured as it is now.
fn set(cx: &mut ViewContext<'_>, here: &Here<'_>, what: &str, field: &str, heights: Heights) {
    here.change(cx, what, field, |site| {
        site.heights = Heights {
            measured_at: Some(site.placement),
            ..heights
        };
    });
}

fn fields(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    crest(ui, cx, here);
    let heights = here.site.heights;
    let label = cx.word("site-tissue");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(20));
    let value = heights.tissue_thickness_mm;
    if let Some(New(new)) = length(ui, cx, here, (&label, "tissue"), value, bounds) {
        let heights = Heights {
            tissue_thickness_mm: new,
            ..heights
        };
        set(cx, here, "site-what-tissue", "tissue", heights);
    }
    let label = cx.word("site-occlusal");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(60));
    let value = heights.crest_below_occlusal_mm;
    if let Some(New(new)) = length(ui, cx, here, (&label, "occlusal"), value, bounds) {
        let heights = Heights {
            crest_below_occlusal_mm: new,
            ..heights
        };
        set(cx, here, "site-what-occlusal", "occlusal", heights);
    }
}

/// Depth of the platform below the crest: taken once both heights are there, unknown again once one
/// is taken away.
fn crest(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let entered = here.site.heights.platform_below_crest;
    let begun = cx.state.site_view.crest;
    let highest = entered.map_or(begun.highest, |crest| Some(crest.highest_mm));
    let lowest = entered.map_or(begun.lowest, |crest| Some(crest.lowest_mm));
    let bounds = Bounds::or_unknown(Length::from_mm(-20), Length::from_mm(30));
    for (id, field, value) in [
        ("site-crest-highest", "crest-highest", highest),
        ("site-crest-lowest", "crest-lowest", lowest),
    ] {
        let label = cx.word(id);
        let Some(New(new)) = length(ui, cx, here, (&label, field), value, bounds) else {
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
        cx.state.site_view.crest.highest = highest;
        cx.state.site_view.crest.lowest = lowest;
        if crest.is_none() && entered.is_none() {
            cx.state.drafts.settle(&here.key(field));
        } else {
            let heights = Heights {
                platform_below_crest: crest,
                ..here.site.heights
            };
            set(cx, here, "site-what-crest", field, heights);
        }
    }
    if entered.is_none() && highest.is_some() != lowest.is_some() {
        hint(ui, &cx.word("site-crest-both"));
    }
}
