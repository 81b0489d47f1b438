//! Teeth along the curve.

use super::curve::HalfCurve;
use super::place::{ArchPoint, ToothOutline};
use crate::dentition::{Jaw, Side, ToothClass, ToothPosition, tooth_size};
use crate::measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

/// The teeth at whose distal contacts the arch's width and depth were measured.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[schemars(inline)]
pub enum ArchLandmark {
    /// The distal contacts of the first molars.
    FirstMolars,
    /// The distal contacts of the second molars.
    SecondMolars,
}

impl ArchLandmark {
    /// The number of the last tooth up to the landmark: 6 or 7.
    #[must_use]
    pub const fn last_number(self) -> u8 {
        match self {
            Self::FirstMolars => 6,
            Self::SecondMolars => 7,
        }
    }

    /// The text id of the landmark's name.
    #[must_use]
    pub const fn text_id(self) -> &'static str {
        match self {
            Self::FirstMolars => "arch-landmark-first-molars",
            Self::SecondMolars => "arch-landmark-second-molars",
        }
    }
}

/// Measures that are no arch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ArchError {
    /// The width is outside [`ArchModel::WIDTHS`].
    #[error("arch width {0} mm: must be {least} to {greatest} mm", least = ArchModel::WIDTHS.0, greatest = ArchModel::WIDTHS.1)]
    Width(Length),
    /// The depth is outside [`ArchModel::DEPTHS`].
    #[error("arch depth {0} mm: must be {least} to {greatest} mm", least = ArchModel::DEPTHS.0, greatest = ArchModel::DEPTHS.1)]
    Depth(Length),
}

/// The teeth of one jaw on a curve fitted to the arch's width and depth.
///
/// Up to the landmark the curve is the beta function (Braun et al., Angle Orthod 1998;68(1):29–36);
/// beyond it runs straight back. The teeth up to the landmark divide the curve by their mean crown
/// widths; the one factor by which that scales the widths also scales the teeth beyond. The two
/// sides mirror each other to the last bit.
#[derive(Debug, Clone, PartialEq)]
pub struct ArchModel {
    jaw: Jaw,
    curve: HalfCurve,
    scale: f64,
    /// The arc length from the midline to each tooth's distal contact; the first is the midline.
    bounds: [f64; TEETH + 1],
    /// The patient's left half, from the midline.
    left: [ToothOutline; TEETH],
}

const TEETH: usize = ToothClass::ALL.len();

impl ArchModel {
    /// Least and greatest width that is taken for a jaw's: well beyond any (no source). Within it
    /// and [`Self::DEPTHS`] arc lengths are good to a nanometre.
    pub const WIDTHS: (Length, Length) = (Length::from_mm(20), Length::from_mm(120));

    /// Least and greatest depth that is taken for a jaw's: well beyond any (no source).
    pub const DEPTHS: (Length, Length) = (Length::from_mm(10), Length::from_mm(80));

    /// The model of a jaw with a width and depth at a landmark.
    ///
    /// The width runs from the right landmark to the left one, the depth from the incisal midpoint
    /// straight back to the line between them.
    ///
    /// # Errors
    ///
    /// A width or depth that no jaw has.
    pub fn new(
        jaw: Jaw,
        landmark: ArchLandmark,
        width: Length,
        depth: Length,
    ) -> Result<Self, ArchError> {
        let within = |value, (least, greatest)| (least..=greatest).contains(&value);
        if !within(width, Self::WIDTHS) {
            return Err(ArchError::Width(width));
        }
        if !within(depth, Self::DEPTHS) {
            return Err(ArchError::Depth(depth));
        }
        let curve = HalfCurve::new(width.mm(), depth.mm());
        let left = ToothClass::ALL.map(|class| ToothPosition::of(jaw, Side::Left, class));
        let widths = left.map(|position| tooth_size(position).crown_md);
        let to_landmark: Length = widths[..usize::from(landmark.last_number())]
            .iter()
            .copied()
            .sum();
        let mut bounds = [0.0; TEETH + 1];
        let mut so_far = Length::ZERO;
        for (bound, width) in bounds[1..].iter_mut().zip(widths) {
            so_far += width;
            // The quotient is exactly 1 at the landmark, so the shares fill the curve exactly.
            *bound = curve.length() * (so_far.mm() / to_landmark.mm());
        }
        let scale = curve.length() / to_landmark.mm();
        let contacts = bounds.map(|bound| curve.at(bound).at);
        let outline = |i: usize| ToothOutline {
            position: left[i],
            centre: curve
                .at(f64::midpoint(bounds[i], bounds[i + 1]))
                .on_the_left(),
            mesial_contact: contacts[i],
            distal_contact: contacts[i + 1],
            md_width_mm: bounds[i + 1] - bounds[i],
            fl_width_mm: tooth_size(left[i]).crown_fl.mm() * scale,
        };
        let left = std::array::from_fn(outline);
        Ok(Self {
            jaw,
            curve,
            scale,
            bounds,
            left,
        })
    }

    /// The jaw of these teeth.
    #[must_use]
    pub const fn jaw(&self) -> Jaw {
        self.jaw
    }

    /// The factor by which the mean crown widths are scaled so that the arch closes.
    #[must_use]
    pub const fn scale(&self) -> f64 {
        self.scale
    }

    /// The mean arch of a jaw: width and depth at the first molars, upper 57.92 and 31.59 mm, lower
    /// 54.19 and 28.10 mm (Mina et al., Odontology 2017;105:229–236).
    ///
    /// # Panics
    ///
    /// Never: both are within the model's bounds.
    #[must_use]
    pub fn mean(jaw: Jaw) -> &'static Self {
        static UPPER: LazyLock<ArchModel> =
            LazyLock::new(|| of_first_molars(Jaw::Upper, 57_920, 31_590));
        static LOWER: LazyLock<ArchModel> =
            LazyLock::new(|| of_first_molars(Jaw::Lower, 54_190, 28_100));
        match jaw {
            Jaw::Upper => &UPPER,
            Jaw::Lower => &LOWER,
        }
    }

    /// Arc length of the curve in millimetres from the right landmark to the left one.
    #[must_use]
    pub fn arc_length_mm(&self) -> f64 {
        2.0 * self.curve.length()
    }

    /// Outline of a tooth on the arch; `None` for a tooth of the other jaw.
    #[must_use]
    pub fn tooth(&self, position: ToothPosition) -> Option<ToothOutline> {
        if position.jaw() != self.jaw {
            return None;
        }
        let outline = self.left[usize::from(position.number()) - 1];
        Some(match position.side() {
            Side::Left => outline,
            Side::Right => outline.mirrored(),
        })
    }

    /// All teeth of the jaw from the patient's right end to the left end.
    pub fn teeth(&self) -> impl Iterator<Item = ToothOutline> {
        ToothPosition::all_of(self.jaw).filter_map(|position| self.tooth(position))
    }

    /// The place `along` the curve from a tooth's middle, distal counting up, and then `buccal`
    /// of the curve, square to it; `None` for a tooth of the other jaw.
    ///
    /// Past the midline the curve goes on along the other side, and *distal* is still the
    /// direction in which `along` counts up.
    #[must_use]
    pub fn point_at(
        &self,
        position: ToothPosition,
        along: Length,
        buccal: Length,
    ) -> Option<ArchPoint> {
        if position.jaw() != self.jaw {
            return None;
        }
        let i = usize::from(position.number()) - 1;
        let arc = f64::midpoint(self.bounds[i], self.bounds[i + 1]) + along.mm();
        let on_curve = if arc >= 0.0 {
            self.curve.at(arc).on_the_left()
        } else {
            self.curve.at(-arc).on_the_left().mirrored().turned()
        };
        let point = on_curve.moved_out(buccal.mm());
        Some(match position.side() {
            Side::Left => point,
            Side::Right => point.mirrored(),
        })
    }
}

/// A mean arch, from its width and depth at the first molars in micrometres.
fn of_first_molars(jaw: Jaw, width_um: i64, depth_um: i64) -> ArchModel {
    let (width, depth) = (Length::from_um(width_um), Length::from_um(depth_um));
    ArchModel::new(jaw, ArchLandmark::FirstMolars, width, depth)
        .expect("a mean arch is within the model's bounds")
}
