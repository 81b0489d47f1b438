//! Measured distances to neighbours.

use super::SiteForm;
use super::common::begun;
use super::list::{ItemForm, Listed};
use crate::field::InCase;
use crate::look::caption;
use crate::view::form::FormSubject;
use crate::view::site::here::Here;
use crate::view::site::state::{DistanceBegun, HEIGHTS};
use traywright_core::case::{Distance, DistanceTo, Height, MeasuredAt, Site};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::Label;
use traywright_core::measure::Length;

const PLACE: InCase = InCase("sites[].distances[].from_axis_mm");

impl Listed for Distance {
    const TITLE: &'static str = "site-neighbours-title";
    const ABOUT: Option<&'static str> = Some("site-neighbours-what");
    const KEY: &'static str = "distance";
    const HEAD: Option<&'static str> = None;
    const CHANGED: &'static str = "site-what-neighbour";
    const REMOVED: &'static str = "site-what-neighbour-removed";

    fn list(site: &Site) -> &[Self] {
        &site.distances
    }

    fn list_mut(site: &mut Site) -> &mut Vec<Self> {
        &mut site.distances
    }

    fn name(&self, here: &Here<'_>) -> String {
        here.formatter.distance_to(&self.to, self.at)
    }

    fn measured_at(&mut self) -> &mut MeasuredAt {
        &mut self.measured_at
    }

    fn measure(&mut self, here: &Here<'_>) {
        self.measured_at = here.now();
        self.other_measured_at = other_now(here, &self.to);
    }

    fn confirm(&mut self, here: &Here<'_>, by: &Label) {
        let purpose = here.purpose();
        self.measured_at = self.measured_at.confirmed(&here.now(), by.clone(), purpose);
        let then = self.other_measured_at.take();
        self.other_measured_at = other_now(here, &self.to).map(|other| match then {
            Some(then) => then.confirmed(&other, by.clone(), purpose),
            None => other,
        });
    }

    /// One measurement: it went as deep at both.
    fn set_down_to(&mut self, down_to_mm: Option<Length>) {
        self.measured_at.down_to_mm = down_to_mm;
        if let Some(other) = &mut self.other_measured_at {
            other.down_to_mm = down_to_mm;
        }
    }

    fn fields(form: &mut ItemForm<'_, '_, '_, '_, Self>) {
        let distance = form.thing();
        form.measured_itself((distance.from_axis_mm, PLACE), |distance, new| {
            distance.from_axis_mm = new;
        });
        if matches!(distance.at, Height::Apex | Height::Least) {
            form.down_to(&distance.measured_at);
        }
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

/// Neighbours that a distance can lead to: the other sites, and teeth that were listed, the nearest along the
/// arch first. What stood where the implant goes is none.
fn offered(here: &Here<'_>) -> Vec<(DistanceTo, String)> {
    let case = here.document.case();
    let others = case.sites.iter().filter(|other| other.id != here.site.id);
    let others = others.map(|other| DistanceTo::Site {
        site: other.id.clone(),
    });
    let own = here.site.tooth;
    let teeth = case.teeth.iter().filter(|tooth| tooth.position != own);
    let teeth = teeth.map(|tooth| DistanceTo::Tooth {
        position: tooth.position,
    });
    let row: Vec<_> = ToothPosition::all_of(case.jaw).collect();
    let along = |tooth: ToothPosition| row.iter().position(|one| *one == tooth);
    let away = |to: &DistanceTo| {
        let tooth = match to {
            DistanceTo::Site { site } => case.site(site.as_str()).map(|site| site.tooth),
            DistanceTo::Tooth { position } => Some(*position),
        };
        let far = tooth.and_then(along).zip(along(own));
        far.map_or(usize::MAX, |(a, b)| a.abs_diff(b))
    };
    let named = |to| {
        let name = here.formatter.distance_neighbour(&to);
        (to, name)
    };
    let mut all: Vec<DistanceTo> = others.chain(teeth).collect();
    all.sort_by_key(away);
    all.into_iter().map(named).collect()
}

/// A new distance: to what, at which height, how far. It is taken once all three are
/// there; its fields have their places from the first.
pub(super) fn add(form: &mut SiteForm<'_, '_, '_>) {
    let here = form.on;
    let offered = offered(here);
    if offered.is_empty() {
        caption(form.ui, form.cx.word("site-neighbours-none"));
        return;
    }
    let texts = ("site-neighbour-add", "distance-to", "site-neighbour-which");
    let to = begun(form, texts, |state| &mut state.distance.to, &offered);
    let heights = HEIGHTS.map(|height| (height, here.formatter.height(height)));
    let texts = ("site-neighbour-height", "distance-at", "site-height-which");
    let at = form.enabled(to.is_some(), |form| {
        begun(form, texts, |state| &mut state.distance.at, &heights)
    });
    let of = to.zip(at);
    let label = form.word("site-neighbour-distance");
    let new = form.enabled(of.is_some(), |form| {
        form.needed(&label, "distance-new", None, PLACE)
    });
    if let Some(((to, at), from_axis_mm)) = of.zip(new) {
        let distance = Distance {
            other_measured_at: other_now(here, &to),
            to,
            at,
            from_axis_mm,
            measured_at: here.now(),
        };
        form.cx.own.distance = DistanceBegun::default();
        let first = format!("distance.{}", here.site.distances.len());
        form.cx.state.drafts.lead_to(here.key(&first));
        form.change("site-what-neighbour-added", "distance-new", |site| {
            site.distances.push(distance);
        });
    }
}
