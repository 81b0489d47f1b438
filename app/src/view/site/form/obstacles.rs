//! What stands in the way of stop and head.

use super::common::{hint, length, length_of, pick_open, remove, stale, title};
use crate::field::{self, Bounds, New};
use crate::view::site::here::Here;
use crate::view::site::state::ObstacleBegun;
use crate::window::Stage;
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

/// Shows the part. `stale` tells of each obstacle whether it is.
pub(super) fn ui(ui: &mut Ui, stage: &mut Stage<'_>, here: &Here<'_>, stale: &[bool]) {
    title(ui, &stage.word("site-obstacles-title"));
    hint(ui, &stage.word("site-obstacles-what"));
    for (n, obstacle) in here.site.obstacles.iter().enumerate() {
        one(ui, stage, here, n, obstacle, stale.get(n) == Some(&true));
    }
    add(ui, stage, here);
}

fn one(
    ui: &mut Ui,
    stage: &mut Stage<'_>,
    here: &Here<'_>,
    n: usize,
    obstacle: &Obstacle,
    is_stale: bool,
) {
    let what = obstacle.name.to_string();
    ui.horizontal(|ui| {
        ui.label(RichText::new(&what).strong());
        if let Some(tooth) = obstacle.tooth {
            ui.label(RichText::new(here.speaker.tooth(tooth)).weak());
        }
        if remove(ui, stage, &what) {
            here.change(stage, "site-what-obstacle-removed", "obstacles", |site| {
                site.obstacles.remove(n);
            });
        }
    });
    let (now, rim) = (here.now(), rim_now(here.document.case(), here.site));
    let measure = |obstacle: &mut Obstacle| {
        obstacle.measured_at = now;
        obstacle.rim_above_platform_mm = rim;
    };
    let label = stage.word("site-obstacle-above");
    let field = format!("obstacle.{n}.above");
    let value = Some(obstacle.above_rim_mm);
    if let Some(New(Some(new))) =
        length_of(ui, stage, here, &what, (&label, &field), value, above())
    {
        here.change(stage, "site-what-obstacle", &field, |site| {
            site.obstacles[n].above_rim_mm = new;
            measure(&mut site.obstacles[n]);
        });
    }
    let label = stage.word("site-obstacle-beside");
    let field = format!("obstacle.{n}.beside");
    let value = Some(obstacle.from_axis_mm);
    if let Some(New(Some(new))) =
        length_of(ui, stage, here, &what, (&label, &field), value, beside())
    {
        here.change(stage, "site-what-obstacle", &field, |site| {
            site.obstacles[n].from_axis_mm = new;
            measure(&mut site.obstacles[n]);
        });
    }
    if is_stale && stale(ui, stage, &what) {
        here.change(stage, "site-what-confirmed", "obstacles", |site| {
            measure(&mut site.obstacles[n]);
        });
    }
}

/// A new obstacle: its name, the tooth whose crown it is, how high and how far. It is taken once
/// name and both lengths are there.
fn add(ui: &mut Ui, stage: &mut Stage<'_>, here: &Here<'_>) {
    let begun = stage.sight.site_view.obstacle.clone();
    let key = here.key("obstacle-name");
    let new = field::row(ui, &stage.word("site-obstacle-add"), |ui, named| {
        field::text(ui, &mut stage.sight.drafts, &key, named, &begun.name)
    });
    if let Some(name) = new {
        stage.sight.drafts.settle(&key);
        name.trim()
            .clone_into(&mut stage.sight.site_view.obstacle.name);
    }
    if begun.name.is_empty() {
        return;
    }
    let teeth: Vec<_> = here
        .document
        .case()
        .teeth
        .iter()
        .map(|tooth| (tooth.position, here.speaker.tooth(tooth.position)))
        .collect();
    let texts = (
        "site-obstacle-tooth",
        "obstacle-tooth",
        "site-obstacle-no-crown",
    );
    if let Some(New(new)) = pick_open(ui, stage, here, texts, begun.tooth.as_ref(), &teeth) {
        stage.sight.site_view.obstacle.tooth = new;
    }
    let label = stage.word("site-obstacle-above");
    let texts = (label.as_str(), "obstacle-above");
    if let Some(New(new)) = length(ui, stage, here, texts, begun.above_rim, above()) {
        stage.sight.drafts.settle(&here.key("obstacle-above"));
        stage.sight.site_view.obstacle.above_rim = new;
    }
    let Some(above_rim_mm) = begun.above_rim else {
        return;
    };
    let label = stage.word("site-obstacle-beside");
    let texts = (label.as_str(), "obstacle-new");
    if let Some(New(Some(from_axis_mm))) = length(ui, stage, here, texts, None, beside()) {
        let obstacle = Obstacle {
            name: Label::from(begun.name.as_str()),
            tooth: begun.tooth,
            above_rim_mm,
            rim_above_platform_mm: rim_now(here.document.case(), here.site),
            from_axis_mm,
            measured_at: here.now(),
        };
        stage.sight.site_view.obstacle = ObstacleBegun::default();
        here.change(stage, "site-what-obstacle-added", "obstacle-new", |site| {
            site.obstacles.push(obstacle);
        });
    }
}
