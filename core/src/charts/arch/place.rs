//! Places of everything on the chart, in the mouth's own millimetres.
//!
//! The chart shows each jaw from its occlusal side, the lower one from above and the upper one from
//! below, as a book that lies open before the clinician who faces the patient: the upper arch is a ∩
//! with the incisors at the top, the lower a ∪ with the incisors at the bottom, and the patient's
//! right is on the left in both. So x on the chart is x of the patient frame in both jaws, and only
//! the direction of y differs; neither view is a mirror image.

use super::outline;
use crate::case::{Case, Placement, Site, Tooth};
use crate::dentition::{ArchModel, Jaw, Side, ToothPosition};
use crate::drawing::{Point, Rect, at};

/// Fidelity of the drawn arch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fidelity {
    /// The case's own arch.
    ToScale,
    /// A mean arch: the case's was not entered.
    Schematic,
}

/// A tooth position on the chart.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ToothPlace {
    pub(super) position: ToothPosition,
    pub(super) centre: Point,
    /// Unit vector out of the arch.
    pub(super) buccal: Point,
    pub(super) fl_width: f64,
    pub(super) md_width: f64,
    pub(super) ring: Vec<Point>,
    /// The tooth as entered; nothing is unknown.
    pub(super) tooth: Option<Tooth>,
}

/// A planned implant on the chart.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SitePlace {
    pub(super) platform: Point,
    /// Its apex, seen from the same side.
    pub(super) apex: Point,
    pub(super) sleeve_radius: f64,
    pub(super) implant_radius: f64,
    /// From platform to apex.
    pub(super) length_mm: f64,
    /// Unit vector out of the arch; nothing, all zero, of a measured one.
    pub(super) buccal: Point,
}

/// A fixation pin on the chart.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PinPlace {
    pub(super) centre: Point,
    pub(super) radius: f64,
}

/// Everything of a case that has a place in the arch.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scene {
    pub(super) fidelity: Fidelity,
    pub(super) model: ArchModel,
    /// From the patient's right end to the left end.
    pub(super) teeth: Vec<ToothPlace>,
    /// In the order of the case.
    pub(super) sites: Vec<SitePlace>,
    /// In the order of the case.
    pub(super) pins: Vec<PinPlace>,
    /// Outlines of the other jaw, where both are shown.
    pub(super) other: Vec<Vec<Point>>,
}

/// A place of the patient frame on the chart.
pub(super) const fn on_chart(jaw: Jaw, x_mm: f64, y_mm: f64) -> Point {
    match jaw {
        Jaw::Upper => at(x_mm, y_mm),
        Jaw::Lower => at(x_mm, -y_mm),
    }
}

/// A direction of the patient frame on the chart.
pub(super) const fn way(jaw: Jaw, [x, y]: [f64; 2]) -> Point {
    on_chart(jaw, x, y)
}

/// The arch of a case, or a mean one: first-molar width and depth by Mina et al., Odontology
/// 2017;105:229–236.
fn model(case: &Case) -> (ArchModel, Fidelity) {
    let entered = case.arch.and_then(|arch| {
        ArchModel::new(case.jaw, arch.landmark, arch.width_mm, arch.depth_mm).ok()
    });
    match entered {
        Some(model) => (model, Fidelity::ToScale),
        None => (ArchModel::mean(case.jaw).clone(), Fidelity::Schematic),
    }
}

/// The other jaw.
pub(super) const fn other(jaw: Jaw) -> Jaw {
    match jaw {
        Jaw::Upper => Jaw::Lower,
        Jaw::Lower => Jaw::Upper,
    }
}

/// From one jaw to the other where both are shown, in the mouth's millimetres.
const BETWEEN_JAWS: f64 = 9.0;

impl Scene {
    /// The places of everything in a case.
    pub(super) fn of(case: &Case) -> Self {
        let (model, fidelity) = model(case);
        let jaw = case.jaw;
        let teeth = model
            .teeth()
            .map(|tooth| ToothPlace {
                position: tooth.position,
                centre: on_chart(jaw, tooth.centre.x_mm, tooth.centre.y_mm),
                buccal: way(jaw, tooth.centre.buccal),
                fl_width: tooth.fl_width_mm,
                md_width: tooth.md_width_mm,
                ring: outline::ring(jaw, &tooth),
                tooth: case
                    .teeth
                    .iter()
                    .find(|entered| entered.position == tooth.position)
                    .copied(),
            })
            .collect();
        let sites = case.sites.iter().map(|site| site_place(case, site, &model));
        let pins = case.guide.pins.iter().map(|pin| {
            let place = model.point_at(pin.at, pin.along_mm, pin.buccal_mm);
            let entry = case.kit.pin(&pin.pin);
            PinPlace {
                centre: place.map_or(at(0.0, 0.0), |p| on_chart(jaw, p.x_mm, p.y_mm)),
                radius: entry.map_or(0.0, |entry| entry.diameter_mm.mm() / 2.0),
            }
        });
        Self {
            sites: sites.collect(),
            pins: pins.collect(),
            fidelity,
            teeth,
            model,
            other: Vec::new(),
        }
    }

    /// The same with a mean arch of the other jaw facing it.
    pub(super) fn with_other_jaw(mut self) -> Self {
        let jaw = other(self.model.jaw());
        let rings: Vec<Vec<Point>> = ArchModel::mean(jaw)
            .teeth()
            .map(|tooth| outline::ring(jaw, &tooth))
            .collect();
        // Only the teeth count, so that the other arch stands still whatever is planned.
        let own = self.arches();
        let facing = around(&rings);
        let down = match jaw {
            Jaw::Upper => own.top - BETWEEN_JAWS - facing.bottom,
            Jaw::Lower => own.bottom + BETWEEN_JAWS - facing.top,
        };
        self.other = rings
            .into_iter()
            .map(|ring| ring.into_iter().map(|p| p + at(0.0, down)).collect())
            .collect();
        self
    }

    /// The rectangle around the teeth of what is shown.
    pub(super) fn arches(&self) -> Rect {
        let teeth: Vec<Vec<Point>> = self.teeth.iter().map(|tooth| tooth.ring.clone()).collect();
        let own = around(&teeth);
        if self.other.is_empty() {
            own
        } else {
            own.union(around(&self.other))
        }
    }

    /// The rectangle around everything.
    pub(super) fn bounds(&self) -> Rect {
        let disc = |centre: Point, radius: f64| Rect::between(centre, centre).grown(radius);
        let mut all = self.arches();
        for site in &self.sites {
            let sleeve = disc(site.platform, site.sleeve_radius.max(site.implant_radius));
            all = all.union(sleeve).union(disc(site.apex, 0.0));
        }
        for pin in &self.pins {
            all = all.union(disc(pin.centre, pin.radius));
        }
        all
    }
}

fn around(rings: &[Vec<Point>]) -> Rect {
    let origin = at(0.0, 0.0);
    Rect::around(rings.iter().flatten().copied()).unwrap_or(Rect::between(origin, origin))
}

fn site_place(case: &Case, site: &Site, model: &ArchModel) -> SitePlace {
    let implant = case.kit.implant(&site.implant);
    let sleeve = case.kit.master_sleeve(&site.master_sleeve);
    let length = implant.map_or(0.0, |implant| implant.platform_to_apex_mm.mm());
    let (platform, apical) = axis(site, case.jaw, model);
    let buccal = match site.placement {
        Placement::OnArch {
            at: position,
            along_mm,
            buccal_mm,
            ..
        } => model.point_at(position, along_mm, buccal_mm),
        Placement::Measured { .. } => None,
    };
    SitePlace {
        length_mm: length,
        buccal: buccal.map_or(at(0.0, 0.0), |point| way(case.jaw, point.buccal)),
        platform,
        apex: platform + apical * length,
        sleeve_radius: sleeve.map_or(0.0, |sleeve| sleeve.outer_diameter_mm.mm() / 2.0),
        implant_radius: implant.map_or(0.0, |implant| implant.diameter_mm.mm() / 2.0),
    }
}

/// The platform of a site and how far its axis goes sideways for each millimetre along it.
fn axis(site: &Site, jaw: Jaw, model: &ArchModel) -> (Point, Point) {
    match site.placement {
        Placement::Measured {
            platform,
            direction,
        } => {
            let [x, y, z] = [direction.x.mm(), direction.y.mm(), direction.z.mm()];
            let length = libm::sqrt(x * x + y * y + z * z);
            let platform = on_chart(jaw, platform.x_mm.mm(), platform.y_mm.mm());
            (platform, way(jaw, [x / length, y / length]))
        }
        Placement::OnArch {
            at: position,
            along_mm,
            buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
        } => {
            let Some(place) = model.point_at(position, along_mm, buccal_mm) else {
                return (at(0.0, 0.0), at(0.0, 0.0));
            };
            let distal = libm::tan(apex_to_distal_deg.radians());
            let buccal = libm::tan(apex_to_buccal_deg.radians());
            let length = libm::sqrt(1.0 + distal * distal + buccal * buccal);
            let aside = way(jaw, place.distal) * distal + way(jaw, place.buccal) * buccal;
            (
                on_chart(jaw, place.x_mm, place.y_mm),
                aside * (1.0 / length),
            )
        }
    }
}

/// The side of the chart on which something is labelled: its own, and in the middle the side of the
/// tooth it belongs to.
pub(super) fn side_of(place: Point, tooth: ToothPosition) -> Side {
    if place.x < 0.0 {
        Side::Right
    } else if place.x > 0.0 {
        Side::Left
    } else {
        tooth.side()
    }
}
