//! The arch as it is read from afar: its teeth as outlines, each site a disc with its number, the one that is worked at
//! larger and filled.

use super::place::Scene;
use crate::case::{Case, ValidCase};
use crate::dentition::Notation;
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Paint, Point, Stroke, TextStyle, at, pt,
};
use crate::kit::SiteId;
use crate::text::Texts;

/// The number of a site, and of the one that is worked at.
const NUMBER: TextStyle = TextStyle::STRONG.sized(pt(11.0));
const HERE: TextStyle = TextStyle::STRONG.sized(pt(17.0));
/// The letters of the sides.
const SIDE: TextStyle = TextStyle::STRONG.sized(pt(17.0));
/// Radius of the disc of a site, and of the one that is worked at, mm on the page.
const DISC: f64 = 4.1;
const HERE_DISC: f64 = 6.2;

/// How a site is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SiteLook {
    /// It is worked at.
    Here,
    /// Something is still to be done there.
    Open,
    /// All is done there.
    Over,
}

/// Draws the teeth of the case's jaw so wide, mm, as the clinician faces the patient, with the sites by number as
/// `look` wants them and the letters of the patient's sides.
#[must_use]
pub fn arch_from_afar(
    case: &ValidCase,
    (notation, texts): (Notation, &Texts),
    width_mm: f64,
    look: &dyn Fn(&SiteId) -> SiteLook,
) -> Drawing {
    let case: &Case = case;
    let scene = Scene::of(case);
    let bounds = scene.arches();
    let scale = (width_mm - 2.0 * HERE_DISC) / bounds.width();
    let place = |point: Point| (point - bounds.centre()) * scale;
    let mut drawing = Drawing::new();
    let hair = Stroke::new(Ink::Hairline, LineWeight::Medium);
    for tooth in &scene.teeth {
        let ring: Vec<Point> = tooth.ring.iter().map(|point| place(*point)).collect();
        drawing.polygon(ring, Paint::both(Ink::Tooth, hair));
    }
    let heavy = Stroke::new(Ink::Strong, LineWeight::Heavy);
    let soft = Stroke::new(Ink::Faint, LineWeight::Medium);
    let accent = Stroke::new(Ink::Accent, LineWeight::Heavy);
    let mut sites: Vec<_> = case.sites.iter().zip(&scene.sites).collect();
    // What is worked at lies over the others.
    sites.sort_by_key(|(site, _)| look(&site.id) == SiteLook::Here);
    for (site, found) in sites {
        let centre = place(found.platform);
        let (radius, paint, style) = match look(&site.id) {
            SiteLook::Here => (HERE_DISC, Paint::both(Ink::Implant, accent), HERE),
            SiteLook::Open => (DISC, Paint::both(Ink::Tooth, heavy), NUMBER),
            SiteLook::Over => (DISC, Paint::both(Ink::Shade, soft), NUMBER.inked(Ink::Soft)),
        };
        drawing.circle(centre, radius, paint);
        let number = notation.show(site.tooth);
        drawing.text(centre, (Across::Middle, Along::Middle), style, number);
    }
    // The patient's right is on the left, as on every chart.
    let inner = bounds.width() * scale / 6.0;
    for (id, x) in [("side-letter-right", -inner), ("side-letter-left", inner)] {
        let letter = texts.get(id, &[]);
        drawing.text(at(x, 0.0), (Across::Middle, Along::Middle), SIDE, letter);
    }
    drawing
}
