//! Things on the chart that a hand points at, and the places where it would put them.
//!
//! Points are places on the chart, in its millimetres. What is given back is what the case holds:
//! offsets along the arch and square to it in whole tenths of a millimetre, tilts in whole degrees.

use super::layout::View;
use super::place::{self, Fidelity, Scene};
use super::pointer::{self, ArchSpot, Arrow};
use super::{ArchSelection, space};
use crate::case::{Case, CasePin, Placement, Site};
use crate::dentition::{ArchModel, ToothPosition};
use crate::drawing::{Drawing, Item, Point};
use crate::kit::{Label, SiteId};
use crate::measure::{Angle, Length};

/// An arch chart with what a hand on it points at.
#[derive(Debug, Clone, PartialEq)]
pub struct ArchFrame {
    /// The chart.
    pub drawing: Drawing,
    /// The sites, in the order of the case.
    pub sites: Vec<SiteFrame>,
    /// The pins, in the order of the case.
    pub pins: Vec<PinFrame>,
    /// The tooth positions, from the patient's right end to the left end.
    pub teeth: Vec<ToothFrame>,
    is_to_scale: bool,
    model: ArchModel,
    view: View,
}

/// A site on the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteFrame {
    /// The site.
    pub id: SiteId,
    /// Its platform's middle.
    pub platform: Point,
    /// Its apex.
    pub apex: Point,
    /// Radius of its sleeve or implant, whichever is larger.
    pub radius: f64,
    /// The ring by which a hand tilts it, where it is the chosen one and placed on the arch.
    pub handle: Option<Point>,
    /// From platform to apex in the mouth, mm.
    length_mm: f64,
}

/// A fixation pin on the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct PinFrame {
    /// Its name.
    pub name: Label,
    /// Its middle.
    pub centre: Point,
    /// Its radius.
    pub radius: f64,
}

/// A tooth position on the chart.
#[derive(Debug, Clone, PartialEq)]
pub struct ToothFrame {
    /// The position.
    pub position: ToothPosition,
    /// The middle of its outline.
    pub centre: Point,
    /// Its outline.
    pub ring: Vec<Point>,
}

/// From the sleeve of the chosen site to the ring that tilts it, mm on the chart.
const HANDLE_OFF: f64 = 7.0;

/// The ring that tilts a site: beside its sleeve, towards the inside of the arch, moved as far as
/// the apex is. Nothing for a site that was measured: a hand on a schematic is no measurement. Nor
/// where the guide is made: then nothing is tilted any more.
pub(super) fn handle(
    case: &Case,
    site: &Site,
    at: &place::SitePlace,
    view: &View,
) -> Option<Point> {
    let Placement::OnArch { .. } = site.placement else {
        return None;
    };
    if case.held_by_guide(site).axis {
        return None;
    }
    let radius = at.sleeve_radius.max(at.implant_radius) * view.scale;
    let beside = at.buccal * -(radius + HANDLE_OFF);
    Some(view.point(at.apex) + beside)
}

impl ArchFrame {
    pub(super) fn of(
        drawing: Drawing,
        case: &Case,
        scene: Scene,
        view: View,
        chosen: Option<ArchSelection<'_>>,
    ) -> Self {
        let sites = case.sites.iter().zip(&scene.sites).map(|(site, place)| {
            let is_chosen = chosen == Some(ArchSelection::Site(&site.id));
            SiteFrame {
                id: site.id.clone(),
                platform: view.point(place.platform),
                apex: view.point(place.apex),
                radius: place.sleeve_radius.max(place.implant_radius) * view.scale,
                handle: handle(case, site, place, &view).filter(|_| is_chosen),
                length_mm: place.length_mm,
            }
        });
        let pins = case.guide.pins.iter().zip(&scene.pins);
        let teeth = scene.teeth.iter().map(|tooth| ToothFrame {
            position: tooth.position,
            centre: view.point(tooth.centre),
            ring: view.ring(&tooth.ring),
        });
        Self {
            drawing,
            sites: sites.collect(),
            pins: pins
                .map(|(pin, place)| PinFrame {
                    name: pin.name.clone(),
                    centre: view.point(place.centre),
                    radius: place.radius * view.scale,
                })
                .collect(),
            teeth: teeth.collect(),
            is_to_scale: scene.fidelity == Fidelity::ToScale,
            model: scene.model,
            view,
        }
    }

    /// Millimetres of the chart for one of the mouth.
    #[must_use]
    pub fn scale(&self) -> f64 {
        self.view.scale
    }

    /// Millimetres of the chart for one of the mouth; nothing for a schematic one.
    #[must_use]
    pub fn scale_of_mouth(&self) -> Option<f64> {
        self.is_to_scale.then_some(self.view.scale)
    }

    /// The tooth position that a point lies in; nothing beside the arch.
    #[must_use]
    pub fn tooth_at(&self, point: Point) -> Option<ToothPosition> {
        let mut teeth = self.teeth.iter();
        let tooth = teeth.find(|tooth| space::holds(&tooth.ring, point))?;
        Some(tooth.position)
    }

    /// The site nearest to a point whose sleeve holds it, with `more` mm around.
    #[must_use]
    pub fn site_at(&self, point: Point, more: f64) -> Option<&SiteFrame> {
        let off = |site: &&SiteFrame| (site.platform - point).length();
        let here = self.sites.iter().filter(|s| off(s) <= s.radius + more);
        here.min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// The pin nearest to a point that holds it, with `more` mm around.
    #[must_use]
    pub fn pin_at(&self, point: Point, more: f64) -> Option<&PinFrame> {
        let off = |pin: &&PinFrame| (pin.centre - point).length();
        let here = self.pins.iter().filter(|p| off(p) <= p.radius + more);
        here.min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// A point counted from a tooth position, to the nearest tenth of a millimetre. Nothing for a
    /// position of the other jaw.
    #[must_use]
    pub fn spot(&self, from: ToothPosition, point: Point) -> Option<ArchSpot> {
        pointer::spot(&self.model, from, self.view.mouth_from_page(point))
    }

    /// A placement moved so that its platform lies at a point, tilts as they were. Nothing for a
    /// measured one: a hand on a schematic is no measurement.
    #[must_use]
    pub fn moved(&self, placement: Placement, to: Point) -> Option<Placement> {
        let Placement::OnArch {
            at,
            apex_to_distal_deg,
            apex_to_buccal_deg,
            ..
        } = placement
        else {
            return None;
        };
        let spot = self.spot(at, to)?;
        Some(Placement::OnArch {
            at,
            along_mm: spot.along_mm,
            buccal_mm: spot.buccal_mm,
            apex_to_distal_deg,
            apex_to_buccal_deg,
        })
    }

    /// A site's placement tilted so that its apex is seen at a point. Nothing for a measured one.
    #[must_use]
    pub fn tilted(&self, site: &Site, apex: Point) -> Option<Placement> {
        let length_mm = self.site(&site.id)?.length_mm;
        let apex = self.view.mouth_from_page(apex);
        pointer::tilted(&self.model, site.placement, length_mm, apex)
    }

    /// A placement moved by a step along the arch or square to it, whichever an arrow comes
    /// nearer to. Nothing for a measured one or where it would leave what a case can hold.
    #[must_use]
    pub fn nudged(&self, placement: Placement, arrow: Arrow, by: Length) -> Option<Placement> {
        pointer::nudged(&self.model, placement, arrow, by)
    }

    /// A placement with its apex leant by an angle more towards the side that an arrow points to.
    /// Nothing for a measured one or where it would leave what a case can hold.
    #[must_use]
    pub fn leant(&self, placement: Placement, arrow: Arrow, by: Angle) -> Option<Placement> {
        pointer::leant(&self.model, placement, arrow, by)
    }

    /// A pin moved so that its middle lies at a point.
    #[must_use]
    pub fn pin_moved(&self, pin: &CasePin, to: Point) -> Option<CasePin> {
        let spot = self.spot(pin.at, to)?;
        Some(CasePin {
            along_mm: spot.along_mm,
            buccal_mm: spot.buccal_mm,
            ..pin.clone()
        })
    }

    /// A pin moved by a step along the arch or square to it.
    #[must_use]
    pub fn pin_nudged(&self, pin: &CasePin, arrow: Arrow, by: Length) -> Option<CasePin> {
        let spot = ArchSpot {
            at: pin.at,
            along_mm: pin.along_mm,
            buccal_mm: pin.buccal_mm,
        };
        let spot = pointer::stepped(&self.model, spot, arrow, by)?;
        Some(CasePin {
            along_mm: spot.along_mm,
            buccal_mm: spot.buccal_mm,
            ..pin.clone()
        })
    }

    /// The placement on the arch that is nearest to a measured one, counted from a tooth position;
    /// one on the arch stays as it is.
    #[must_use]
    pub fn on_arch(&self, placement: Placement, from: ToothPosition) -> Option<Placement> {
        pointer::on_arch(&self.model, placement, from)
    }

    /// Description of a thing on the chart.
    #[must_use]
    pub fn name_of(&self, thing: ArchSelection<'_>) -> Option<&str> {
        let id = thing.group_id();
        self.drawing.items().iter().find_map(|item| match item {
            Item::Group(group) if group.id == id => Some(group.name.as_str()),
            _ => None,
        })
    }

    fn site(&self, id: &SiteId) -> Option<&SiteFrame> {
        self.sites.iter().find(|site| site.id == *id)
    }
}
