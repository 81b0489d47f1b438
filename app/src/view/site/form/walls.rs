//! Bone from the axis to the walls.

use super::SiteForm;
use super::common::title;
use super::list::{Item, ItemForm, Listed};
use crate::field::{InCase, New};
use crate::look::caption;
use crate::view::form::Form;
use crate::view::site::here::Here;
use crate::view::site::state::{HEIGHTS, SIDES};
use traywright_core::case::{Height, MeasuredAt, Site, Wall, WallSide};

const PLACE: InCase = InCase("sites[].walls[].from_axis_mm");

impl Listed for Wall {
    const TITLE: &'static str = "site-walls-title";
    const ABOUT: Option<&'static str> = Some("site-walls-what");
    const KEY: &'static str = "wall";
    const HEAD: Option<&'static str> = None;
    const CHANGED: &'static str = "site-what-wall";
    /// A wall is taken away with its length.
    const REMOVED: &'static str = Self::CHANGED;

    fn list(site: &Site) -> &[Self] {
        &site.walls
    }

    fn list_mut(site: &mut Site) -> &mut Vec<Self> {
        &mut site.walls
    }

    fn name(&self, here: &Here<'_>) -> String {
        here.formatter.wall_at(self.side, self.at)
    }

    fn measured_at(&mut self) -> &mut MeasuredAt {
        &mut self.measured_at
    }

    fn fields(form: &mut ItemForm<'_, '_, '_, '_, Self>) {
        let wall = form.thing();
        if matches!(wall.at, Height::Apex | Height::Least) {
            form.down_to(&wall.measured_at);
        }
    }
}

/// Shows the part: each wall at each height. `stale` tells of each wall, in the order of the case,
/// whether it is.
pub(super) fn ui(form: &mut SiteForm<'_, '_, '_>, stale: &[bool]) {
    title(form.ui, &form.cx.word(Wall::TITLE));
    caption(form.ui, form.cx.word("site-walls-what"));
    for side in SIDES {
        for at in HEIGHTS {
            wall(form, stale, side, at);
        }
    }
}

fn wall(form: &mut SiteForm<'_, '_, '_>, stale: &[bool], side: WallSide, at: Height) {
    let here = form.on;
    let walls = &here.site.walls;
    let index = walls
        .iter()
        .position(|wall| (wall.side, wall.at) == (side, at));
    let value = index.map(|n| walls[n].from_axis_mm);
    let label = here.formatter.wall_at(side, at);
    let key = format!("{}.{side:?}.{at:?}", Wall::KEY);
    if let Some(New(new)) = form.number(&label, &key, value, PLACE) {
        let measured_at = here.now();
        form.change(Wall::CHANGED, &key, |site| {
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
    let Some(n) = index else { return };
    let item: Item<'_, '_, Wall> = Item::new(here, n, key);
    let mut form = Form {
        ui: form.ui,
        cx: form.cx,
        on: &item,
    };
    Wall::fields(&mut form);
    form.stale(stale.get(n) == Some(&true));
}
