//! Measured distances to neighbours.

use super::common::{down_to, hint, length, pick_open, remove, stale, title};
use crate::field::{Bounds, New};
use crate::view::site::here::Here;
use crate::view::site::state::DistanceBegun;
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::{Distance, DistanceTo, Height, MeasuredAt};
use traywright_core::measure::Length;

const HEIGHTS: [Height; 4] = [Height::Crest, Height::Mid, Height::Apex, Height::Least];

fn bounds() -> Bounds<Length> {
    Bounds::needed(Length::ZERO, Length::from_mm(100))
}

/// Shows the part. `stale` says for each distance whether it is.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, stale: &[bool]) {
    title(ui, &cx.word("site-neighbours-title"));
    hint(ui, &cx.word("site-neighbours-what"));
    for (n, distance) in here.site.distances.iter().enumerate() {
        one(ui, cx, here, n, distance, stale.get(n) == Some(&true));
    }
    add(ui, cx, here);
}

fn one(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    n: usize,
    distance: &Distance,
    is_stale: bool,
) {
    let what = here.formatter.distance_to(&distance.to, distance.at);
    let field = format!("distance.{n}");
    let value = Some(distance.from_axis_mm);
    let now = here.now();
    let other = other_now(here, &distance.to);
    if let Some(New(Some(new))) = length(ui, cx, here, (&what, &field), value, bounds()) {
        here.change(cx, "site-what-neighbour", &field, |site| {
            let distance = &mut site.distances[n];
            distance.from_axis_mm = new;
            distance.measured_at = now;
            distance.other_measured_at = other;
        });
    }
    if matches!(distance.at, Height::Apex | Height::Least) {
        let field = format!("{field}.down_to");
        let then = distance.measured_at;
        if let Some(then) = down_to(ui, cx, here, (&what, &field), then) {
            here.change(cx, "site-what-neighbour", &field, |site| {
                let distance = &mut site.distances[n];
                distance.measured_at = then;
                // One measurement: it went as deep at both.
                if let Some(other) = &mut distance.other_measured_at {
                    other.down_to_mm = then.down_to_mm;
                }
            });
        }
    }
    if is_stale && stale(ui, cx, &what) {
        let now = here.still(&distance.measured_at);
        let other = other.map(|other| MeasuredAt {
            down_to_mm: distance.other_measured_at.and_then(|then| then.down_to_mm),
            ..other
        });
        here.change(cx, "site-what-confirmed", &field, |site| {
            site.distances[n].measured_at = now;
            site.distances[n].other_measured_at = other;
        });
    }
    if remove(ui, cx, &what) {
        here.change(cx, "site-what-neighbour-removed", &field, |site| {
            site.distances.remove(n);
        });
    }
}

/// The other site as something measured now remembers it; nothing for a tooth.
fn other_now(here: &Here<'_>, to: &DistanceTo) -> Option<MeasuredAt> {
    let DistanceTo::Site { site } = to else {
        return None;
    };
    let case = here.document.case();
    let other = case.site(site.as_str())?;
    let implant = case.kit.implant(&other.implant)?;
    Some(other.measured_now(implant.platform_to_apex_mm))
}

/// Neighbours that a distance can lead to: teeth that were listed, and the other sites.
fn offered(here: &Here<'_>) -> Vec<(DistanceTo, String)> {
    let case = here.document.case();
    let others = case.sites.iter().filter(|other| other.id != here.site.id);
    let others = others.map(|other| {
        let to = DistanceTo::Site {
            site: other.id.clone(),
        };
        let name = here.formatter.distance_neighbour(&to);
        (to, name)
    });
    let teeth = case.teeth.iter().map(|tooth| {
        let to = DistanceTo::Tooth {
            position: tooth.position,
        };
        let name = here.formatter.distance_neighbour(&to);
        (to, name)
    });
    others.chain(teeth).collect()
}

/// A new distance: to what, at which height, how far. It is taken once all three are there.
fn add(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let offered = offered(here);
    if offered.is_empty() {
        hint(ui, &cx.word("site-neighbours-none"));
        return;
    }
    let DistanceBegun { to, at } = cx.state.site_view.distance.clone();
    let texts = ("site-neighbour-add", "distance-to", "site-neighbour-which");
    if let Some(New(new)) = pick_open(ui, cx, here, texts, to.as_ref(), &offered) {
        cx.state.site_view.distance.to = new;
    }
    let Some(to) = to else { return };
    let heights = HEIGHTS.map(|height| (height, here.formatter.height_word(height)));
    let texts = ("site-neighbour-height", "distance-at", "site-height-which");
    if let Some(New(new)) = pick_open(ui, cx, here, texts, at.as_ref(), &heights) {
        cx.state.site_view.distance.at = new;
    }
    let Some(at) = at else { return };
    let label = cx.word("site-neighbour-distance");
    let taken = length(ui, cx, here, (&label, "distance-new"), None, bounds());
    if let Some(New(Some(from_axis_mm))) = taken {
        let distance = Distance {
            other_measured_at: other_now(here, &to),
            to,
            at,
            from_axis_mm,
            measured_at: here.now(),
        };
        cx.state.site_view.distance = DistanceBegun::default();
        here.change(cx, "site-what-neighbour-added", "distance-new", |site| {
            site.distances.push(distance);
        });
    }
}
