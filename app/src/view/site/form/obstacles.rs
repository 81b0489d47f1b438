//! Obstacles to stop and head.

use super::common::{hint, length, length_of, pick_open, remove, stale, title};
use crate::field::{self, Bounds, New};
use crate::view::site::here::Here;
use crate::view::site::state::ObstacleBegun;
use crate::window::ViewContext;
use egui::{RichText, Ui};
use traywright_core::case::Obstacle;
use traywright_core::kit::Label;
use traywright_core::measure::Length;
use traywright_core::plan::rim_now;

fn above() -> Bounds<Length> {
    Bounds::needed(Length::from_mm(-40), Length::from_mm(40))
}

fn beside() -> Bounds<Length> {
    Bounds::needed(Length::ZERO, Length::from_mm(60))
}

/// Shows the part. `stale` says for each obstacle whether it is.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, stale: &[bool]) {
    title(ui, &cx.word("site-obstacles-title"));
    hint(ui, &cx.word("site-obstacles-what"));
    for (n, obstacle) in here.site.obstacles.iter().enumerate() {
        one(ui, cx, here, n, obstacle, stale.get(n) == Some(&true));
    }
    add(ui, cx, here);
}

fn one(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    n: usize,
    obstacle: &Obstacle,
    is_stale: bool,
) {
    let what = obstacle.name.to_string();
    ui.horizontal(|ui| {
        ui.label(RichText::new(&what).strong());
        if let Some(tooth) = obstacle.tooth {
            ui.label(RichText::new(here.formatter.tooth(tooth)).weak());
        }
        if remove(ui, cx, &what) {
            here.change(cx, "site-what-obstacle-removed", "obstacles", |site| {
                site.obstacles.remove(n);
            });
        }
    });
    let (now, rim) = (here.now(), rim_now(here.document.case(), here.site));
    let measure = |obstacle: &mut Obstacle| {
        obstacle.measured_at = now;
        obstacle.rim_above_platform_mm = rim;
    };
    let label = cx.word("site-obstacle-above");
    let field = format!("obstacle.{n}.above");
    let value = Some(obstacle.above_rim_mm);
    if let Some(New(Some(new))) = length_of(ui, cx, here, &what, (&label, &field), value, above()) {
        here.change(cx, "site-what-obstacle", &field, |site| {
            site.obstacles[n].above_rim_mm = new;
            measure(&mut site.obstacles[n]);
        });
    }
    let label = cx.word("site-obstacle-beside");
    let field = format!("obstacle.{n}.beside");
    let value = Some(obstacle.from_axis_mm);
    if let Some(New(Some(new))) = length_of(ui, cx, here, &what, (&label, &field), value, beside())
    {
        here.change(cx, "site-what-obstacle", &field, |site| {
            site.obstacles[n].from_axis_mm = new;
            measure(&mut site.obstacles[n]);
        });
    }
    if is_stale && stale(ui, cx, &what) {
        here.change(cx, "site-what-confirmed", "obstacles", |site| {
            measure(&mut site.obstacles[n]);
        });
    }
}

/// A new obstacle: its name, the tooth whose crown it is, how high and how far. It is taken once
/// name and both lengths are there.
fn add(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>) {
    let begun = cx.state.site_view.obstacle.clone();
    let key = here.key("obstacle-name");
    let new = field::row(ui, &cx.word("site-obstacle-add"), |ui, named| {
        field::text(ui, &mut cx.state.drafts, &key, named, &begun.name)
    });
    if let Some(name) = new {
        cx.state.drafts.settle(&key);
        name.trim()
            .clone_into(&mut cx.state.site_view.obstacle.name);
    }
    if begun.name.is_empty() {
        return;
    }
    let teeth: Vec<_> = here
        .document
        .case()
        .teeth
        .iter()
        .map(|tooth| (tooth.position, here.formatter.tooth(tooth.position)))
        .collect();
    let texts = (
        "site-obstacle-tooth",
        "obstacle-tooth",
        "site-obstacle-no-crown",
    );
    if let Some(New(new)) = pick_open(ui, cx, here, texts, begun.tooth.as_ref(), &teeth) {
        cx.state.site_view.obstacle.tooth = new;
    }
    let label = cx.word("site-obstacle-above");
    let texts = (label.as_str(), "obstacle-above");
    if let Some(New(new)) = length(ui, cx, here, texts, begun.above_rim, above()) {
        cx.state.drafts.settle(&here.key("obstacle-above"));
        cx.state.site_view.obstacle.above_rim = new;
    }
    let Some(above_rim_mm) = begun.above_rim else {
        return;
    };
    let label = cx.word("site-obstacle-beside");
    let texts = (label.as_str(), "obstacle-new");
    if let Some(New(Some(from_axis_mm))) = length(ui, cx, here, texts, None, beside()) {
        let obstacle = Obstacle {
            name: Label::from(begun.name.as_str()),
            tooth: begun.tooth,
            above_rim_mm,
            rim_above_platform_mm: rim_now(here.document.case(), here.site),
            from_axis_mm,
            measured_at: here.now(),
        };
        cx.state.site_view.obstacle = ObstacleBegun::default();
        here.change(cx, "site-what-obstacle-added", "obstacle-new", |site| {
            site.obstacles.push(obstacle);
        });
    }
}
