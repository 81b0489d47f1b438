//! Obstacles to stop and head.

use super::SiteForm;
use super::common::begun;
use super::list::{ItemForm, Listed};
use crate::field::InCase;
use crate::view::form::FormSubject;
use crate::view::site::here::Here;
use crate::view::site::state::ObstacleBegun;
use traywright_core::case::{MeasuredAt, Obstacle, Site};
use traywright_core::kit::Label;
use traywright_core::plan::rim_now;

const ABOVE: InCase = InCase("sites[].obstacles[].above_rim_mm");
const BESIDE: InCase = InCase("sites[].obstacles[].from_axis_mm");

impl Listed for Obstacle {
    const TITLE: &'static str = "site-obstacles-title";
    const ABOUT: Option<&'static str> = Some("site-obstacles-what");
    const KEY: &'static str = "obstacle";
    const HEAD: Option<&'static str> = Some("obstacles");
    const CHANGED: &'static str = "site-what-obstacle";
    const REMOVED: &'static str = "site-what-obstacle-removed";

    fn list(site: &Site) -> &[Self] {
        &site.obstacles
    }

    fn list_mut(site: &mut Site) -> &mut Vec<Self> {
        &mut site.obstacles
    }

    fn name(&self, _: &Here<'_>) -> String {
        self.name.to_string()
    }

    fn aside(&self, here: &Here<'_>) -> Option<String> {
        self.tooth.map(|tooth| here.formatter.tooth(tooth))
    }

    fn measured_at(&mut self) -> &mut MeasuredAt {
        &mut self.measured_at
    }

    fn confirm(&mut self, here: &Here<'_>, by: &Label) {
        let then = &self.measured_at;
        self.measured_at = then.confirmed(&here.now(), by.clone(), here.purpose());
        // A rim that moved took the height above it along: that is measured again, no word makes it hold.
        if self.rim_above_platform_mm.is_none() {
            self.rim_above_platform_mm = rim_now(here.document.case(), here.site);
        }
    }

    /// Height and distance share what the site was like: a new one of them does not make the other
    /// true, so that both stay what they are until they are confirmed.
    fn fields(form: &mut ItemForm<'_, '_, '_, '_, Self>) {
        let obstacle = form.thing();
        let here = form.site();
        let rim = rim_now(here.document.case(), here.site);
        // Where only the rim was moved, a new height is all there is to measure.
        let (then, now) = (&obstacle.measured_at, here.now());
        let only_rim = then.placement == now.placement
            && then.platform_below_crest == now.platform_below_crest;
        let above = (obstacle.above_rim_mm, ABOVE);
        form.one_of("site-obstacle-above", "above", above, |obstacle, new| {
            obstacle.above_rim_mm = new;
            if only_rim {
                obstacle.rim_above_platform_mm = rim;
            }
        });
        let beside = (obstacle.from_axis_mm, BESIDE);
        form.one_of("site-obstacle-beside", "beside", beside, |obstacle, new| {
            obstacle.from_axis_mm = new;
        });
    }
}

/// A new obstacle: its name, the tooth whose crown it is, how high and how far. It is taken once
/// name and both lengths are there; its fields have their places from the first.
pub(super) fn add(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    // What is taken here counts at once: the Tab that left a field goes to the next one within this frame.
    let ObstacleBegun {
        mut name,
        mut above_rim,
        ..
    } = form.cx.own.obstacle.clone();
    if let Some(new) = form.text("site-obstacle-add", "obstacle-name", &name) {
        form.cx.state.drafts.settle(&here.key("obstacle-name"));
        new.trim().clone_into(&mut name);
        form.cx.own.obstacle.name.clone_from(&name);
    }
    let named = !name.is_empty();
    let teeth = here.document.case().teeth.iter();
    let teeth: Vec<_> = teeth
        .map(|tooth| (tooth.position, here.formatter.tooth(tooth.position)))
        .collect();
    let texts = (
        "site-obstacle-tooth",
        "obstacle-tooth",
        "site-obstacle-no-crown",
    );
    let tooth = form.enabled(named, |form| {
        begun(form, texts, |state| &mut state.obstacle.tooth, &teeth)
    });
    let label = form.word("site-obstacle-above");
    let new = form.enabled(named, |form| {
        form.needed(&label, "obstacle-above", above_rim, ABOVE)
    });
    if new.is_some() {
        form.cx.state.drafts.settle(&here.key("obstacle-above"));
        form.cx.own.obstacle.above_rim = new;
        above_rim = new;
    }
    let label = form.word("site-obstacle-beside");
    let new = form.enabled(named && above_rim.is_some(), |form| {
        form.needed(&label, "obstacle-new", None, BESIDE)
    });
    if let Some((above_rim_mm, from_axis_mm)) = above_rim.zip(new) {
        let obstacle = Obstacle {
            name: Label::from(name.as_str()),
            tooth,
            above_rim_mm,
            rim_above_platform_mm: rim_now(here.document.case(), here.site),
            from_axis_mm,
            measured_at: here.now(),
        };
        form.cx.own.obstacle = ObstacleBegun::default();
        let first = format!("obstacle.{}.above", here.site.obstacles.len());
        form.cx.state.drafts.lead_to(here.key(&first));
        form.change("site-what-obstacle-added", "obstacle-new", |site| {
            site.obstacles.push(obstacle);
        });
    }
}
