//! Bone from the axis to the walls.

use super::common::{down_to, hint, length, stale, title};
use crate::field::{Bounds, New};
use crate::view::site::here::Here;
use crate::view::site::state::SIDES;
use crate::window::ViewContext;
use egui::Ui;
use traywright_core::case::{Height, Wall, WallSide};
use traywright_core::measure::Length;

/// Heights at which a wall is measured.
const HEIGHTS: [Height; 4] = [Height::Crest, Height::Mid, Height::Apex, Height::Least];

/// Shows the part. `stale` says for each wall, in the order of the case, whether it is.
pub(super) fn ui(ui: &mut Ui, cx: &mut ViewContext<'_>, here: &Here<'_>, stale: &[bool]) {
    title(ui, &cx.word("site-walls-title"));
    hint(ui, &cx.word("site-walls-what"));
    for side in SIDES {
        for at in HEIGHTS {
            wall(ui, cx, here, stale, side, at);
        }
    }
}

fn wall(
    ui: &mut Ui,
    cx: &mut ViewContext<'_>,
    here: &Here<'_>,
    are_stale: &[bool],
    side: WallSide,
    at: Height,
) {
    let walls = &here.site.walls;
    let index = walls
        .iter()
        .position(|wall| wall.side == side && wall.at == at);
    let value = index.map(|n| walls[n].from_axis_mm);
    let label = here.formatter.wall_at(side, at);
    let field = format!("wall.{side:?}.{at:?}");
    let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(40));
    if let Some(New(new)) = length(ui, cx, here, (&label, &field), value, bounds) {
        let measured_at = here.now();
        here.change(cx, "site-what-wall", &field, |site| {
            site.walls.retain(|wall| (wall.side, wall.at) != (side, at));
            site.walls.extend(new.map(|from_axis_mm| Wall {
                side,
                at,
                from_axis_mm,
                measured_at,
            }));
            site.walls.sort_by_key(|wall| (wall.side, wall.at));
        });
    }
    if let Some(n) = index.filter(|_| matches!(at, Height::Apex | Height::Least)) {
        let field = format!("{field}.down_to");
        let then = walls[n].measured_at;
        if let Some(then) = down_to(ui, cx, here, (&label, &field), then) {
            here.change(cx, "site-what-wall", &field, |site| {
                site.walls[n].measured_at = then;
            });
        }
    }
    let Some(n) = index.filter(|n| are_stale.get(*n) == Some(&true)) else {
        return;
    };
    if stale(ui, cx, &label) {
        let now = here.still(&walls[n].measured_at);
        here.change(cx, "site-what-confirmed", &field, |site| {
            site.walls[n].measured_at = now;
        });
    }
}
