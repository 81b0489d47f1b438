//! Properties that hold for every arch.
#![expect(
    clippy::float_cmp,
    reason = "where two places are one, they are so to the last bit"
)]

use super::*;
use crate::dentition::{Jaw, Side, ToothPosition, tooth_size};
use crate::measure::Length;
use proptest::prelude::*;

fn at(iso: &str) -> ToothPosition {
    iso.parse().unwrap()
}

fn um(um: i64) -> Length {
    Length::from_um(um)
}

/// The upper arch of the published means (Mina et al., Odontology 2017;105:229–236).
fn upper() -> ArchModel {
    ArchModel::new(
        Jaw::Upper,
        ArchLandmark::FirstMolars,
        um(57_920),
        um(31_590),
    )
    .unwrap()
}

prop_compose! {
    fn any_arch()(
        jaw in prop_oneof![Just(Jaw::Upper), Just(Jaw::Lower)],
        landmark in prop_oneof![Just(ArchLandmark::FirstMolars), Just(ArchLandmark::SecondMolars)],
        width in ArchModel::WIDTHS.0.um()..=ArchModel::WIDTHS.1.um(),
        depth in ArchModel::DEPTHS.0.um()..=ArchModel::DEPTHS.1.um(),
    ) -> (ArchModel, ArchLandmark, Length, Length) {
        let (width, depth) = (um(width), um(depth));
        (ArchModel::new(jaw, landmark, width, depth).unwrap(), landmark, width, depth)
    }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn bits(v: [f64; 2]) -> [u64; 2] {
    [v[0].abs().to_bits(), v[1].to_bits()]
}

proptest! {
    #[test]
    fn the_shares_fill_the_curve((model, landmark, width, depth) in any_arch()) {
        let last = landmark.last_number();
        let ends: Vec<_> = model.teeth().filter(|t| t.position.number() == last).collect();
        // The last contact is the landmark itself, to the bit.
        let (half, back) = (width.mm() / 2.0, depth.mm());
        prop_assert_eq!(ends[0].distal_contact, [-half, back]);
        prop_assert_eq!(ends[1].distal_contact, [half, back]);
        let up_to = |t: &ToothOutline| t.position.number() <= last;
        let sum: f64 = model.teeth().filter(up_to).map(|t| t.md_width_mm).sum();
        prop_assert!((sum - model.arc_length_mm()).abs() < 1e-11);
        for t in model.teeth() {
            let mean = tooth_size(t.position);
            prop_assert!((t.md_width_mm - mean.crown_md.mm() * model.scale()).abs() < 1e-11);
            prop_assert!((t.fl_width_mm - mean.crown_fl.mm() * model.scale()).abs() < 1e-11);
        }
    }

    #[test]
    fn neighbours_touch((model, ..) in any_arch()) {
        for t in model.teeth() {
            let mesial = model.tooth(t.position.mesial_neighbour()).unwrap();
            let theirs = if t.position.number() == 1 {
                mesial.mesial_contact
            } else {
                mesial.distal_contact
            };
            prop_assert_eq!(t.mesial_contact, theirs);
            // No chord is longer than its arc, and the teeth do not fold back.
            let chord = distance(t.mesial_contact, t.distal_contact);
            prop_assert!(chord <= t.md_width_mm + 1e-9 && chord > 0.0);
        }
    }

    #[test]
    fn the_sides_mirror_each_other_to_the_bit(
        (model, ..) in any_arch(),
        along in -8_000_i64..=8_000,
        buccal in -5_000_i64..=5_000,
    ) {
        for left in ToothPosition::all_of(model.jaw()).filter(|p| p.side() == Side::Left) {
            let (l, r) = (model.tooth(left).unwrap(), model.tooth(left.mirrored()).unwrap());
            prop_assert!(l.centre.x_mm > 0.0 && r.centre.x_mm < 0.0);
            for (a, b) in [
                ([l.centre.x_mm, l.centre.y_mm], [r.centre.x_mm, r.centre.y_mm]),
                (l.mesial_contact, r.mesial_contact),
                (l.distal_contact, r.distal_contact),
                (l.centre.distal, r.centre.distal),
                (l.centre.buccal, r.centre.buccal),
            ] {
                prop_assert_eq!(bits(a), bits(b));
            }
            let a = model.point_at(left, um(along), um(buccal)).unwrap();
            let b = model.point_at(left.mirrored(), um(along), um(buccal)).unwrap();
            prop_assert_eq!(a.x_mm.to_bits(), (0.0 - b.x_mm).to_bits());
            prop_assert_eq!(bits([a.x_mm, a.y_mm]), bits([b.x_mm, b.y_mm]));
            prop_assert_eq!(bits(a.distal), bits(b.distal));
        }
    }

    #[test]
    fn directions_are_square_and_point_back_and_out(
        (model, ..) in any_arch(),
        number in 1_u8..=8,
        along in -4_000_i64..=8_000,
    ) {
        let quadrant = match model.jaw() { Jaw::Upper => 1, Jaw::Lower => 3 };
        let position = ToothPosition::new(quadrant, number).unwrap();
        let here = model.point_at(position, um(along), um(0)).unwrap();
        let ([dx, dy], [bx, by]) = (here.distal, here.buccal);
        prop_assert!((dx.hypot(dy) - 1.0).abs() < 1e-12 && (bx.hypot(by) - 1.0).abs() < 1e-12);
        prop_assert!((dx * bx + dy * by).abs() < 1e-12);
        // Out of the arch: away from a place well inside it.
        prop_assert!(bx * here.x_mm + by * (here.y_mm - ArchModel::DEPTHS.1.mm()) > 0.0);
        // A short way on, the curve has gone that far in the direction called distal.
        let on = model.point_at(position, um(along + 1), um(0)).unwrap();
        let gone = (on.x_mm - here.x_mm) * dx + (on.y_mm - here.y_mm) * dy;
        prop_assert!((gone - 0.001).abs() < 1e-6, "{}", gone);
    }
}

#[test]
fn a_tooths_own_place_is_its_centre() {
    let model = upper();
    for t in model.teeth() {
        assert_eq!(model.point_at(t.position, um(0), um(0)), Some(t.centre));
    }
}

#[test]
fn half_a_width_along_is_the_contact() {
    let model = upper();
    for t in model.teeth() {
        let half = Length::floor_mm(t.md_width_mm / 2.0);
        for (along, contact) in [(half, t.distal_contact), (-half, t.mesial_contact)] {
            let p = model.point_at(t.position, along, um(0)).unwrap();
            assert!(
                distance([p.x_mm, p.y_mm], contact) < 0.001_001,
                "{}",
                t.position
            );
        }
    }
}

#[test]
fn buccal_is_square_to_the_curve_and_outwards() {
    let model = upper();
    for (iso, buccal, want_side) in [("26", um(2_000), 1.0), ("16", um(2_000), -1.0)] {
        let on = model.point_at(at(iso), um(0), um(0)).unwrap();
        let out = model.point_at(at(iso), um(0), buccal).unwrap();
        assert!((distance([on.x_mm, on.y_mm], [out.x_mm, out.y_mm]) - 2.0).abs() < 1e-12);
        assert!((out.x_mm - on.x_mm) * want_side > 1.0);
    }
    // In front, out is forward.
    let front = model.point_at(at("11"), um(0), um(1_000)).unwrap();
    assert!(front.y_mm < model.tooth(at("11")).unwrap().centre.y_mm);
}

#[test]
fn beyond_the_landmark_the_teeth_stand_straight_behind_each_other() {
    let model = upper();
    for iso in ["27", "28"] {
        let t = model.tooth(at(iso)).unwrap();
        assert_eq!((t.mesial_contact[0], t.distal_contact[0]), (28.96, 28.96));
        assert_eq!((t.centre.distal, t.centre.buccal), ([0.0, 1.0], [1.0, 0.0]));
        assert!((t.distal_contact[1] - t.mesial_contact[1] - t.md_width_mm).abs() < 1e-12);
    }
}

#[test]
fn past_the_midline_the_way_goes_on_along_the_other_side() {
    let model = upper();
    let centre = model.tooth(at("21")).unwrap().centre;
    let over = Length::floor_mm(-model.tooth(at("11")).unwrap().md_width_mm);
    let p = model.point_at(at("11"), over, um(0)).unwrap();
    assert!(distance([p.x_mm, p.y_mm], [centre.x_mm, centre.y_mm]) < 0.001_001);
    // Still the distal of 11: towards the patient's right, where 21's own points left.
    assert!(p.distal[0] < -0.9 && centre.distal[0] > 0.9);
    assert!(p.buccal[1] < 0.0);
}

#[test]
fn the_other_jaw_has_no_place_here() {
    assert_eq!(upper().tooth(at("36")), None);
    assert_eq!(upper().point_at(at("36"), um(0), um(0)), None);
}

#[test]
fn measures_that_no_jaw_has_are_refused_with_the_limits() {
    let arch = |w, d| ArchModel::new(Jaw::Lower, ArchLandmark::FirstMolars, um(w), um(d));
    for (w, d, says) in [
        (0, 30_000, "arch width 0 mm: must be 20 to 120 mm"),
        (-54_000, 30_000, "arch width -54 mm"),
        (5_419_000, 28_100, "arch width 5419 mm"),
        (54_190, 0, "arch depth 0 mm: must be 10 to 80 mm"),
        (54_190, 80_001, "arch depth 80.001 mm"),
    ] {
        let error = arch(w, d).unwrap_err().to_string();
        assert!(error.contains(says), "{error}");
    }
    assert!(arch(20_000, 80_000).is_ok() && arch(120_000, 10_000).is_ok());
}
