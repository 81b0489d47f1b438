//! Teeth from their occlusal side: an outline, and how it is drawn by what was entered.

use super::place::{Scene, on_chart, way};
use crate::case::{NeighbourKind, Tooth, ToothState};
use crate::dentition::{Jaw, ToothGroup, ToothOutline};
use crate::drawing::{Dash, Drawing, Ink, LineWeight, Paint, Point, Rect, Stroke};

/// Corners of an outline.
const CORNERS: u8 = 64;

/// Share of its mesiodistal width that an outline takes, so that neighbours do not run into one
/// line.
const OF_WIDTH: f64 = 0.96;

/// A tooth's outline: a rounded rectangle of its crown's two widths, narrower towards the mouth.
///
/// For layout only: no distance is taken from it.
pub(super) fn ring(jaw: Jaw, tooth: &ToothOutline) -> Vec<Point> {
    // How square it is (2: an ellipse) and by how much its buccal side is wider than the middle.
    let (square, taper) = match tooth.position.class().group() {
        ToothGroup::Incisor => (2.9, 0.10),
        ToothGroup::Canine => (2.4, 0.10),
        ToothGroup::Premolar => (2.6, 0.04),
        ToothGroup::Molar => (3.4, 0.03),
    };
    let centre = on_chart(jaw, tooth.centre.x_mm, tooth.centre.y_mm);
    let (distal, buccal) = (way(jaw, tooth.centre.distal), way(jaw, tooth.centre.buccal));
    let rounded = |part: f64| libm::pow(part.abs(), 2.0 / square).copysign(part);
    (0..CORNERS)
        .map(|corner| {
            let turn = f64::from(corner) / f64::from(CORNERS) * std::f64::consts::TAU;
            let (sin, cos) = libm::sincos(turn);
            let (along, out) = (rounded(cos), rounded(sin));
            let half_md = tooth.md_width_mm / 2.0 * OF_WIDTH * (1.0 + taper * out);
            centre + distal * (along * half_md) + buccal * (out * tooth.fl_width_mm / 2.0)
        })
        .collect()
}

/// The entries of the chart's key: each way to draw a tooth that is not simply there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum ToothLook {
    Missing,
    ToExtract,
    Pontic,
    Implant,
    RootFilled,
    Impacted,
    Remnant,
    NotEntered,
}

impl ToothLook {
    /// The text id of its words.
    pub(super) const fn text_id(self) -> &'static str {
        match self {
            Self::Missing => "chart-tooth-missing",
            Self::ToExtract => "chart-tooth-to-extract",
            Self::Pontic => "chart-tooth-pontic",
            Self::Implant => "chart-tooth-implant",
            Self::RootFilled => "chart-tooth-root-filled",
            Self::Impacted => "chart-tooth-impacted",
            Self::Remnant => "chart-tooth-remnant",
            Self::NotEntered => "chart-tooth-not-entered",
        }
    }

    /// Those in use, each once.
    pub(super) fn of_all(scene: &Scene) -> Vec<Self> {
        let teeth = scene.teeth.iter();
        let mut looks: Vec<Self> = teeth.flat_map(|tooth| Self::of(tooth.tooth)).collect();
        looks.sort_unstable();
        looks.dedup();
        looks
    }

    /// The looks of a tooth by its entry, its state first; none for one that is simply there.
    pub(super) fn of(tooth: Option<Tooth>) -> Vec<Self> {
        let Some(tooth) = tooth else {
            return vec![Self::NotEntered];
        };
        let state = match tooth.state {
            ToothState::Present => None,
            ToothState::Missing => Some(Self::Missing),
            ToothState::ToExtract => Some(Self::ToExtract),
        };
        let kind = match tooth.kind {
            None | Some(NeighbourKind::Natural) => None,
            Some(NeighbourKind::RootFilled) => Some(Self::RootFilled),
            Some(NeighbourKind::Implant) => Some(Self::Implant),
            Some(NeighbourKind::Pontic) => Some(Self::Pontic),
            Some(NeighbourKind::Impacted) => Some(Self::Impacted),
            Some(NeighbourKind::Remnant) => Some(Self::Remnant),
        };
        state.into_iter().chain(kind).collect()
    }
}

/// Draws a tooth's outline in the ways that apply; a plain one without any.
pub(super) fn draw(drawing: &mut Drawing, ring: &[Point], looks: &[ToothLook]) {
    let has = |look| looks.contains(&look);
    let line = Stroke::new(Ink::Tooth, LineWeight::Thin);
    let soft = Stroke::new(Ink::Soft, LineWeight::Thin);
    let paint = if has(ToothLook::NotEntered) {
        Paint::outline(line.dashed(Dash::Dotted))
    } else if has(ToothLook::Missing) {
        Paint::outline(line.dashed(Dash::Dashed))
    } else if has(ToothLook::Impacted) {
        Paint::both(Ink::Tooth, line.dashed(Dash::Chain))
    } else {
        Paint::both(Ink::Tooth, line)
    };
    drawing.polygon(ring.iter().copied(), paint);
    let Some(bounds) = Rect::around(ring.iter().copied()) else {
        return;
    };
    let (centre, least) = (bounds.centre(), bounds.width().min(bounds.height()));
    if has(ToothLook::Pontic) {
        drawing.hatch(&[ring.to_vec()], (least / 5.0).max(0.5), 45.0, soft);
    }
    if has(ToothLook::Implant) {
        drawing.circle(centre, least * 0.25, Paint::both(Ink::Metal, soft));
        drawing.circle(centre, least * 0.11, Paint::outline(soft));
    }
    if has(ToothLook::RootFilled) {
        drawing.circle(centre, least * 0.09, Paint::fill(Ink::Soft));
    }
    if has(ToothLook::Remnant) {
        drawing.circle(centre, least * 0.2, Paint::both(Ink::Tooth, line));
    }
    if has(ToothLook::ToExtract) {
        let cross = Stroke::new(Ink::Strong, LineWeight::Medium);
        let at_turn = |share: usize| ring[share * ring.len() / 8];
        drawing.line(at_turn(1), at_turn(5), cross);
        drawing.line(at_turn(3), at_turn(7), cross);
    }
}
