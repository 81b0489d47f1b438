//! A picture of how an axis leans, seen from the cheek and along the arch.

use crate::case::{Placement, Site};
use crate::dentition::{Jaw, Side};
use crate::drawing::{
    Across, Along, Dash, Drawing, Ink, LineWeight, Paint, Point, Stroke, TextStyle, at,
};
use crate::measure::Angle;

/// Words for the sides that an apex can lean to, from `formatter`.
#[derive(Debug, Clone, Copy)]
pub struct LeanWords<'a> {
    /// To mesial and to distal.
    pub along: &'a [String; 2],
    /// To oral and to buccal.
    pub across: &'a [String; 2],
    /// The lean along the arch in words: "4° to mesial".
    pub lean_along: &'a str,
    /// The lean square to it in words.
    pub lean_across: &'a str,
}

/// Width of one of the two views, mm.
const VIEW: f64 = 34.0;
/// Half the length and half the width of the implant in it, mm: its form only stands for one.
const HALF: Point = at(1.8, 4.6);
/// Height of a view, words aside, mm.
const TALL: f64 = 12.0;

/// Two small views of a site's axis, each between the names of its sides: along the arch as one
/// faces the patient, and square to it. Apical is down in the lower jaw and up in the upper. The
/// angles are true, sizes are not. Nothing for a measured axis.
#[must_use]
pub fn lean(site: &Site, jaw: Jaw, words: &LeanWords<'_>) -> Option<Drawing> {
    let Placement::OnArch {
        apex_to_distal_deg,
        apex_to_buccal_deg,
        ..
    } = site.placement
    else {
        return None;
    };
    // Facing the patient, distal of the patient's right lies to the left.
    let facing = match site.tooth.side() {
        Side::Right => -1.0,
        Side::Left => 1.0,
    };
    let mut drawing = Drawing::new();
    let views = [
        (apex_to_distal_deg, facing, words.along, words.lean_along),
        (apex_to_buccal_deg, 1.0, words.across, words.lean_across),
    ];
    for (index, (angle, right, [minus, plus], said)) in (0_u8..).zip(views) {
        let middle = at(VIEW * (f64::from(index) + 0.5), TALL / 2.0);
        let sides = if right > 0.0 {
            [minus, plus]
        } else {
            [plus, minus]
        };
        view(&mut drawing, middle, turn(angle, right, jaw), sides);
        let place = at(middle.x, TALL + 1.0);
        let style = TextStyle::NOTE.bold().inked(Ink::Strong);
        drawing.text(place, (Across::Middle, Along::Top), style, said);
    }
    Some(drawing)
}

/// By how much an upright implant is turned on the page, degrees, clockwise.
fn turn(angle: Angle, right: f64, jaw: Jaw) -> f64 {
    let towards_right = angle.radians().to_degrees() * right;
    match jaw {
        // The apex at the foot goes right when the whole turns against the clock.
        Jaw::Lower => -towards_right,
        Jaw::Upper => towards_right,
    }
}

fn view(drawing: &mut Drawing, middle: Point, turn_deg: f64, [left, right]: [&String; 2]) {
    let upright = Stroke::new(Ink::Faint, LineWeight::Hair).dashed(Dash::Chain);
    let half = at(0.0, TALL / 2.0);
    drawing.line(middle - half, middle + half, upright);
    let corner = |x: f64, y: f64| middle + at(x, y).turned(turn_deg);
    let ring = [
        corner(-HALF.x, -HALF.y),
        corner(HALF.x, -HALF.y),
        corner(HALF.x, HALF.y),
        corner(-HALF.x, HALF.y),
    ];
    drawing.polygon(ring, Paint::both(Ink::Implant, Stroke::OUTLINE));
    drawing.line(
        corner(0.0, -HALF.y - 1.0),
        corner(0.0, HALF.y + 1.0),
        Stroke::THIN,
    );
    for (x, across, side) in [
        (-VIEW / 2.0 + 1.0, Across::Start, left),
        (VIEW / 2.0 - 1.0, Across::End, right),
    ] {
        let place = middle + at(x, 0.0);
        drawing.text(place, (across, Along::Middle), TextStyle::CAPTION, side);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::charts::arch_samples::{measured, on_arch, site, tooth};
    use crate::drawing::Item;

    fn words() -> ([String; 2], [String; 2]) {
        let own = |words: [&str; 2]| words.map(str::to_owned);
        (own(["mesial", "distal"]), own(["oral", "buccal"]))
    }

    fn picture(iso: &str, distal: i32, buccal: i32) -> Drawing {
        let at = tooth(iso);
        let (along, across) = words();
        let words = LeanWords {
            along: &along,
            across: &across,
            lean_along: "a",
            lean_across: "b",
        };
        lean(
            &site("s", at, on_arch(at, distal, buccal)),
            at.jaw(),
            &words,
        )
        .unwrap()
    }

    /// Offset of the middle of the apical edge of a view's implant from the middle of the view.
    fn apex(drawing: &Drawing, view: usize, jaw: Jaw) -> Point {
        let rings: Vec<&Vec<Vec<Point>>> = drawing
            .items()
            .iter()
            .filter_map(|item| match item {
                Item::Polygon { rings, .. } => Some(rings),
                _ => None,
            })
            .collect();
        let ring = &rings[view][0];
        let edge = match jaw {
            Jaw::Upper => (ring[0] + ring[1]) * 0.5,
            Jaw::Lower => (ring[2] + ring[3]) * 0.5,
        };
        let middles = [at(VIEW * 0.5, TALL / 2.0), at(VIEW * 1.5, TALL / 2.0)];
        edge - middles[view]
    }

    fn side(drawing: &Drawing, word: &str) -> f64 {
        let texts = drawing.texts();
        texts.iter().find(|t| t.content == word).unwrap().place.x
    }

    #[test]
    fn the_apex_leans_towards_the_word_that_says_so_by_the_true_angle() {
        for iso in ["16", "26", "36", "46"] {
            let jaw = tooth(iso).jaw();
            for (distal, buccal) in [(20, 10), (-20, -10)] {
                let drawing = picture(iso, distal, buccal);
                for (view, angle, words) in [
                    (0, distal, ["mesial", "distal"]),
                    (1, buccal, ["oral", "buccal"]),
                ] {
                    let apex = apex(&drawing, view, jaw);
                    assert_eq!(apex.y > 0.0, jaw == Jaw::Lower, "{iso}");
                    let way = side(&drawing, words[1]) - side(&drawing, words[0]);
                    let towards = apex.x * way.signum() * f64::from(angle.signum());
                    assert!(towards > 0.0, "{iso} {angle}");
                    let leant = (apex.x.abs() / apex.y.abs()).atan().to_degrees();
                    assert!((leant - f64::from(angle.abs())).abs() < 1e-9, "{leant}");
                }
            }
        }
    }

    #[test]
    fn distal_is_outwards_as_one_faces_the_patient() {
        let right = picture("46", 5, 0);
        assert!(side(&right, "distal") < side(&right, "mesial"));
        let left = picture("36", 5, 0);
        assert!(side(&left, "distal") > side(&left, "mesial"));
    }

    #[test]
    fn a_measured_axis_has_no_such_picture() {
        let (along, across) = words();
        let words = LeanWords {
            along: &along,
            across: &across,
            lean_along: "",
            lean_across: "",
        };
        let placement = measured(Jaw::Lower, 0, 0, (500, 0));
        let site = site("s", tooth("46"), placement);
        assert!(lean(&site, Jaw::Lower, &words).is_none());
    }
}
