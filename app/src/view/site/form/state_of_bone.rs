//! State of the bone and its density.

use super::common::{length, pick, pick_open, title};
use crate::field::{self, Bounds, New};
use crate::view::site::here::Here;
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::SiteState;
use traywright_core::kit::Density;
use traywright_core::measure::{Angle, Length};

/// States by name, without what belongs to them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bone {
    Healed,
    FreshSocket,
    Grafted,
    ImplantToRemove,
}

/// Shows the part.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    title(ui, &cx.word("site-bone-title"));
    let now = match here.site.state {
        SiteState::Healed {} => Bone::Healed,
        SiteState::FreshSocket { .. } => Bone::FreshSocket,
        SiteState::Grafted { .. } => Bone::Grafted,
        SiteState::ImplantToRemove {} => Bone::ImplantToRemove,
    };
    let shown = if cx.state.site_view.grafted {
        Bone::Grafted
    } else {
        now
    };
    let offered = [
        (Bone::Healed, "site-bone-healed"),
        (Bone::FreshSocket, "site-bone-fresh"),
        (Bone::Grafted, "site-bone-grafted"),
        (Bone::ImplantToRemove, "site-bone-implant"),
    ]
    .map(|(bone, id)| (bone, cx.word(id)));
    let picked = pick(ui, cx, here, ("site-bone", "state"), &shown, &offered);
    if let Some(new) = picked {
        cx.state.site_view.grafted = false;
        let state = match new {
            Bone::Healed => Some(SiteState::Healed {}),
            Bone::ImplantToRemove => Some(SiteState::ImplantToRemove {}),
            Bone::FreshSocket => Some(SiteState::FreshSocket {
                gap_mm: None,
                slope_deg: None,
            }),
            // It waits for its date.
            Bone::Grafted => None,
        };
        match state {
            Some(state) if new != now => set(cx, here, "state", state),
            Some(_) => {}
            None => cx.state.site_view.grafted = now != Bone::Grafted,
        }
    }
    match (shown, here.site.state) {
        (Bone::FreshSocket, SiteState::FreshSocket { gap_mm, slope_deg }) => {
            socket(ui, cx, here, gap_mm, slope_deg);
        }
        (Bone::Grafted, _) => grafted(ui, cx, here),
        _ => {}
    }
    let densities = [Density::D1, Density::D2, Density::D3, Density::D4]
        .map(|density| (density, here.formatter.density(Some(density))));
    let texts = ("site-density", "density", "site-density-unknown");
    let density = here.site.density.as_ref();
    if let Some(New(new)) = pick_open(ui, cx, here, texts, density, &densities) {
        here.change(cx, "site-what-density", "density", |site| {
            site.density = new;
        });
    }
}

fn set(cx: &mut ViewContext<'_>, here: &Here<'_>, field: &str, state: SiteState) {
    here.change(cx, "site-what-bone", field, |site| site.state = state);
}

fn socket(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    gap_mm: Option<Length>,
    slope_deg: Option<Angle>,
) {
    let label = cx.word("site-gap");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(20));
    if let Some(New(gap_mm)) = length(ui, cx, here, (&label, "gap"), gap_mm, bounds) {
        set(
            cx,
            here,
            "gap",
            SiteState::FreshSocket { gap_mm, slope_deg },
        );
    }
    let key = here.key("slope");
    let bounds = Bounds::or_unknown(Angle::ZERO, Angle::from_deg(90));
    let new = field::row(ui, &cx.word("site-slope"), |ui, named| {
        field::angle(ui, &mut cx.state.drafts, &key, named, slope_deg, bounds)
    });
    if let Some(New(slope_deg)) = new {
        set(
            cx,
            here,
            "slope",
            SiteState::FreshSocket { gap_mm, slope_deg },
        );
    }
}

fn grafted(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let on = match here.site.state {
        SiteState::Grafted { on } => on.to_string(),
        _ => String::new(),
    };
    let key = here.key("grafted");
    let new = field::row(ui, &cx.word("site-grafted-on"), |ui, named| {
        field::text(ui, &mut cx.state.drafts, &key, named, &on)
    });
    let Some(text) = new else { return };
    if let Ok(on) = text.trim().parse() {
        cx.state.site_view.grafted = false;
        set(cx, here, "grafted", SiteState::Grafted { on });
    } else {
        let fault = cx.word("site-date-fault");
        cx.state.drafts.refuse(&key, fault);
    }
}
