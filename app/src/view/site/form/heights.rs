//! Heights, each with its own datum.

use super::SiteForm;
use super::common::{stale, title};
use crate::canvas::mark_in;
use crate::field::{InCase, New};
use crate::look::{Font, Theme, caption};
use crate::view::form::{FormSubject, Number, entry};
use crate::view::site::state::CrestBegun;
use egui::vec2;
use traywright_core::case::{CrestDepth, GuideState, Site};
use traywright_core::measure::Length;
use traywright_core::plan::{Severity, SiteHeight};
use traywright_core::sign::Purpose;

const SOCKET_RIM: Number<Site, Length> = Number {
    entry: entry("site-socket-rim", "socket-rim", "site-what-socket-rim"),
    place: InCase("sites[].heights.platform_below_socket_rim_mm"),
    get: |site| site.heights.platform_below_socket_rim_mm,
    set: |site, new| {
        site.heights.platform_below_socket_rim_mm = new;
        measured_now(site, SiteHeight::SocketRim);
    },
};

const HEIGHTS: [Number<Site, Length>; 2] = [
    Number {
        entry: entry("site-tissue", "tissue", "site-what-tissue"),
        place: InCase("sites[].heights.tissue_thickness_mm"),
        get: |site| site.heights.tissue_thickness_mm,
        set: |site, new| {
            site.heights.tissue_thickness_mm = new;
            measured_now(site, SiteHeight::TissueThickness);
        },
    },
    Number {
        entry: entry("site-occlusal", "occlusal", "site-what-occlusal"),
        place: InCase("sites[].heights.crest_below_occlusal_mm"),
        get: |site| site.heights.crest_below_occlusal_mm,
        set: |site, new| {
            site.heights.crest_below_occlusal_mm = new;
            measured_now(site, SiteHeight::CrestBelowOcclusal);
        },
    },
];

/// The height was measured at the site as it stands.
fn measured_now(site: &mut Site, height: SiteHeight) {
    site.heights.enter(height, site.placement);
}

/// Shows the part. Once some are `stale`, those are confirmed or taken anew together, so that a new one
/// confirms no old one by the way. A rim that is old by the depth alone is entered anew by itself.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>, is_stale: bool, is_rim_old: bool) {
    let name = form.word("site-heights-title");
    title(form.ui, &name);
    if is_stale {
        let scan_date = form.on.document.case().guide.scan_date;
        let purpose = form.on.purpose();
        let is_recorded = form.on.site.may_confirm_heights(scan_date, purpose);
        if let Some(by) = stale(form.ui, form.cx, &name, is_recorded) {
            form.change("site-what-confirmed", "heights", |site| {
                site.confirm_heights(scan_date, &by, purpose);
            });
        }
        let anew = form.word("site-heights-anew");
        if form.ui.small_button(anew).clicked() {
            form.change("site-what-heights", "heights", |site| {
                site.forget_stale_heights(purpose);
            });
        }
    }
    form.enabled(!is_stale, |form| {
        crest(form);
        let socket = form.on.site.state.socket().is_some();
        form.enabled(socket, |form| form.declared(&SOCKET_RIM));
        for height in &HEIGHTS {
            form.declared(height);
        }
    });
    // Below all fields, which else would move while the depth is entered.
    let is_made = form.on.document.case().guide.state == GuideState::Made;
    if is_made && form.on.site.heights.is_off_guide() && !is_stale {
        off_guide(form);
    }
    if is_rim_old && !is_stale {
        let colour = Theme::of(form.ui).fault();
        let told = Font::Caption.text(form.word("site-rim-old")).color(colour);
        form.ui.label(told);
    }
}

/// A depth to which the guide does not lead: a person says that it is a reading of the crest. Nobody does without a name.
fn off_guide(form: &mut SiteForm<'_, '_, '_>) {
    let colour = Theme::of(form.ui).fault();
    let purpose = form.on.purpose();
    let by = form.cx.whose_word();
    let cx = &form.cx;
    let clicked = form.ui.horizontal_wrapped(|ui| {
        let say = |ui: &mut egui::Ui, id| ui.label(Font::Caption.text(cx.word(id)).color(colour));
        mark_in(ui, vec2(14.0, 16.0), 13.0, Severity::Unknown);
        say(ui, "site-crest-off");
        if purpose == Purpose::Practice {
            say(ui, "site-crest-practice");
            return false;
        }
        let Some(by) = &by else {
            say(ui, "site-crest-nobody");
            return false;
        };
        ui.small_button(cx.text("site-crest-read", &[("by", by.as_str())]))
            .clicked()
    });
    if let Some(by) = by.filter(|_| clicked.inner) {
        form.change("site-what-crest-read", "crest-read", |site| {
            site.say_crest_is_read(&by, purpose);
        });
    }
}

/// Depth of the platform below the crest: taken once both heights are there, unknown again once one
/// is taken away.
fn crest(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    let entered = here.site.heights.platform_below_crest;
    if entered.is_some() {
        // Both are in the case: what was begun does not come back when they go.
        form.cx.own.crest = CrestBegun::default();
    }
    let begun = form.cx.own.crest;
    let highest = entered.map_or(begun.highest, |crest| Some(crest.highest_mm));
    let lowest = entered.map_or(begun.lowest, |crest| Some(crest.lowest_mm));
    for (id, field, value, place) in [
        (
            "site-crest-highest",
            "crest-highest",
            highest,
            InCase("sites[].heights.platform_below_crest.highest_mm"),
        ),
        (
            "site-crest-lowest",
            "crest-lowest",
            lowest,
            InCase("sites[].heights.platform_below_crest.lowest_mm"),
        ),
    ] {
        let label = form.word(id);
        let Some(New(new)) = form.number(&label, field, value, place) else {
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
        if crest.is_none() {
            // What is left of the two stays in its field. A pair is the case's, or refused there.
            form.cx.own.crest = CrestBegun { highest, lowest };
        }
        if crest.is_none() && entered.is_none() {
            form.cx.state.drafts.settle(&here.key(field));
        } else {
            form.change("site-what-crest", field, |site| {
                site.heights.platform_below_crest = crest;
                measured_now(site, SiteHeight::PlatformBelowCrest);
            });
        }
    }
    // Told always: what comes and goes would move what stands below.
    caption(form.ui, form.cx.word("site-crest-both"));
    if here.document.case().guide.state == GuideState::Made && entered.is_some() {
        caption(form.ui, form.cx.word("site-crest-made"));
    }
}
