//! State of the bone and its density.

use super::SiteForm;
use super::common::{stale, title};
use crate::field::{InCase, New};
use crate::view::form::{FormSubject, Number, entry};
use traywright_core::case::{BoneState, GapMeasuredAt, Site, SiteState, Socket};
use traywright_core::kit::Density;
use traywright_core::measure::Angle;

const CHANGED: &str = "site-what-bone";

const GAP: InCase = InCase("sites[].state.gap_mm");

const SLOPE: Number<Site, Angle> = Number {
    entry: entry("site-slope", "slope", CHANGED),
    place: InCase("sites[].state.slope_deg"),
    get: |site| site.state.socket().and_then(|socket| socket.slope_deg),
    set: |site, new| {
        if let Some(socket) = site.state.socket_mut() {
            socket.slope_deg = new;
        }
    },
};

/// Shows the part; the gap of a socket may be `gap_is_stale`.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>, gap_is_stale: bool) {
    let here = form.on;
    title(form.ui, &form.cx.word("site-bone-title"));
    let now = here.site.state.bone();
    let shown = if form.cx.own.grafted {
        BoneState::Grafted
    } else {
        now
    };
    let offered = [
        (BoneState::Healed, "site-bone-healed"),
        (BoneState::FreshSocket, "site-bone-fresh"),
        (BoneState::Grafted, "site-bone-grafted"),
        (BoneState::ImplantToRemove, "site-bone-implant"),
    ]
    .map(|(bone, id)| (bone, form.word(id)));
    if let Some(new) = form.choice("site-bone", "state", &shown, &offered) {
        form.cx.own.grafted = false;
        let state = match new {
            BoneState::Healed => Some(SiteState::Healed {}),
            BoneState::ImplantToRemove => Some(SiteState::IMPLANT_TO_REMOVE),
            BoneState::FreshSocket => Some(SiteState::FRESH_SOCKET),
            // It waits for its date.
            BoneState::Grafted => None,
        };
        match state {
            Some(state) if new != now => set(form, "state", state),
            Some(_) => {}
            None => form.cx.own.grafted = now != BoneState::Grafted,
        }
    }
    let densities = [Density::D1, Density::D2, Density::D3, Density::D4]
        .map(|density| (density, here.formatter.density(Some(density))));
    let (asked, open) = (
        entry("site-density", "density", "site-what-density"),
        "site-density-unknown",
    );
    let now = here.site.density.as_ref();
    form.pick_open(asked, open, now, &densities, |site, new| {
        site.density = new;
    });
    let socket = here
        .site
        .state
        .socket()
        .filter(|_| shown != BoneState::Grafted);
    form.reserved(2, |form| match socket {
        Some(socket) => {
            gap(form, socket, gap_is_stale);
            form.declared(&SLOPE);
        }
        None if shown == BoneState::Grafted => grafted(form),
        None => {}
    });
}

/// The gap of a socket, which remembers the site and the implant that it was measured to. Beside another
/// implant it is another gap, which nobody confirms.
fn gap(form: &mut SiteForm<'_, '_, '_>, socket: &Socket, is_stale: bool) {
    let (now, then) = (socket.gap_mm, socket.gap_measured_at.as_ref());
    let label = form.word("site-gap");
    let measured_at = GapMeasuredAt {
        site: form.on.now(),
        implant_diameter_mm: form.on.implant.largest_diameter_mm,
    };
    let new = form.number(&label, "gap", now, GAP);
    let mut new = new.map(|New(gap)| (gap, measured_at.clone()));
    if is_stale {
        let beside_this =
            |one: &&GapMeasuredAt| one.implant_diameter_mm == measured_at.implant_diameter_mm;
        let then = then.filter(beside_this);
        let by = stale(form.ui, form.cx, &label, then.is_some());
        if let Some((then, by)) = then.zip(by) {
            let site = then
                .site
                .confirmed(&measured_at.site, by, form.on.purpose());
            new = Some((
                now,
                GapMeasuredAt {
                    site,
                    ..measured_at
                },
            ));
        }
    }
    let Some((new, measured_at)) = new else {
        return;
    };
    form.change(CHANGED, "gap", |site| {
        if let Some(socket) = site.state.socket_mut() {
            socket.gap_mm = new;
            socket.gap_measured_at = new.map(|_| measured_at);
        }
    });
}

fn set(form: &mut SiteForm<'_, '_, '_>, field: &str, state: SiteState) {
    form.change(CHANGED, field, |site| site.state = state);
}

fn grafted(form: &mut SiteForm<'_, '_, '_>) {
    let on = match form.on.site.state {
        SiteState::Grafted { on } => on.to_string(),
        _ => String::new(),
    };
    let Some(text) = form.text("site-grafted-on", "grafted", &on) else {
        return;
    };
    if let Ok(on) = text.trim().parse() {
        form.cx.own.grafted = false;
        set(form, "grafted", SiteState::Grafted { on });
    } else {
        let fault = form.word("site-date-fault");
        let key = form.on.key("grafted");
        form.cx.state.drafts.refuse(&key, fault);
    }
}
