//! That a hand puts things where it points, worked by hand and against the model itself.

use super::*;
use crate::dentition::{ArchLandmark, Jaw};
use crate::samples::tooth;
use proptest::prelude::*;

fn model(jaw: Jaw) -> ArchModel {
    let (width, depth) = (Length::from_um(56_200), Length::from_um(30_700));
    ArchModel::new(jaw, ArchLandmark::FirstMolars, width, depth).unwrap()
}

fn placed(at: &str, along: i64, buccal: i64, distal: i32, out: i32) -> Placement {
    Placement::OnArch {
        at: tooth(at),
        along_mm: Length::from_um(along),
        buccal_mm: Length::from_um(buccal),
        apex_to_distal_deg: Angle::from_deg(distal),
        apex_to_buccal_deg: Angle::from_deg(out),
    }
}

/// Beyond the landmark the arch runs straight back, so the offsets can be read off a ruler: 37 is
/// on the patient's left, where x grows to buccal and y to distal.
#[test]
fn on_the_straight_part_offsets_are_those_of_a_ruler() {
    let model = model(Jaw::Lower);
    let at_37 = model.tooth(tooth("37")).unwrap().centre;
    let place = on_chart(Jaw::Lower, at_37.x_mm + 1.23, at_37.y_mm + 2.06);
    let spot = spot(&model, tooth("37"), place).unwrap();
    assert_eq!(spot.along_mm, Length::from_um(2_100));
    assert_eq!(spot.buccal_mm, Length::from_um(1_200));
}

/// On the straight part of the lower left, buccal is to the right of the chart and distal up.
#[test]
fn arrows_go_the_way_they_point() {
    let model = model(Jaw::Lower);
    let at = placed("37", 0, 0, 0, 0);
    let step = Length::from_um(100);
    for (arrow, along, buccal) in [
        (Arrow::Right, 0, 100),
        (Arrow::Left, 0, -100),
        (Arrow::Up, 100, 0),
        (Arrow::Down, -100, 0),
    ] {
        let want = placed("37", along, buccal, 0, 0);
        assert_eq!(nudged(&model, at, arrow, step), Some(want), "{arrow:?}");
    }
    let leant = leant(&model, at, Arrow::Up, Angle::from_deg(1));
    assert_eq!(leant, Some(placed("37", 0, 0, 1, 0)));
}

#[test]
fn nothing_leaves_what_a_case_can_hold() {
    let model = model(Jaw::Lower);
    let step = Length::from_um(100);
    let edge = placed("37", 0, 20_000, 0, 60);
    assert_eq!(nudged(&model, edge, Arrow::Right, step), None);
    assert_eq!(leant(&model, edge, Arrow::Right, Angle::from_deg(1)), None);
    let far = spot(&model, tooth("37"), at(900.0, 0.0)).unwrap();
    assert!(far.along_mm.abs() <= Length::from_mm(20) && far.buccal_mm == Length::from_mm(20));
    let laid = tilted(&model, placed("37", 0, 0, 0, 0), 11.0, at(900.0, 0.0)).unwrap();
    let Placement::OnArch {
        apex_to_buccal_deg, ..
    } = laid
    else {
        panic!("{laid:?}")
    };
    assert_eq!(apex_to_buccal_deg, Angle::from_deg(60));
}

/// The slopes 3 : 4 : 5 lean by atan(0.6) = 30.96° and atan(0.8) = 38.66° from z.
#[test]
fn a_measured_axis_comes_onto_the_arch_with_its_slopes() {
    use crate::case::{PointMm, Vector};
    let model = model(Jaw::Lower);
    let at_37 = model.tooth(tooth("37")).unwrap().centre;
    let measured = Placement::Measured {
        platform: PointMm {
            x_mm: Length::floor_mm(at_37.x_mm - 0.5),
            y_mm: Length::floor_mm(at_37.y_mm),
            z_mm: Length::ZERO,
        },
        direction: Vector {
            x: Length::from_mm(3),
            y: Length::from_mm(-4),
            z: Length::from_mm(-5),
        },
    };
    let want = placed("37", 0, -500, -39, 31);
    assert_eq!(on_arch(&model, measured, tooth("37")), Some(want));
    assert_eq!(nudged(&model, measured, Arrow::Up, STEP), None);
    assert_eq!(tilted(&model, measured, 11.0, at(0.0, 0.0)), None);
}

proptest! {
    /// A hand that points where the model puts a place finds it again.
    #[test]
    fn a_place_is_found_again(
        position in prop::sample::select(ToothPosition::all().collect::<Vec<_>>()),
        along in -60..=60_i64,
        buccal in -40..=40_i64,
    ) {
        let model = model(position.jaw());
        let (along, buccal) = (Length::from_um(along * 100), Length::from_um(buccal * 100));
        let point = model.point_at(position, along, buccal).unwrap();
        let place = on_chart(position.jaw(), point.x_mm, point.y_mm);
        let found = spot(&model, position, place).unwrap();
        // Inside a bend of the curve two places along it lead to the same point, so it is the point
        // that counts: within a step each way.
        let again = model
            .point_at(position, found.along_mm, found.buccal_mm)
            .unwrap();
        let off = (again.x_mm - point.x_mm).hypot(again.y_mm - point.y_mm);
        prop_assert!(off <= 0.15, "{found:?}: {off} mm beside");
    }

    /// A hand that points where the tilts put an apex finds the tilts again.
    #[test]
    fn tilts_are_found_again(
        position in prop::sample::select(ToothPosition::all().collect::<Vec<_>>()),
        distal in -45..=45_i32,
        out in -45..=45_i32,
        length in 6.0..16.0_f64,
    ) {
        let model = model(position.jaw());
        let jaw = position.jaw();
        let upright = placed(&position.to_string(), 300, -200, 0, 0);
        let (_, point) = stands(&model, upright).unwrap();
        let (d, b) = (f64::from(distal).to_radians().tan(), f64::from(out).to_radians().tan());
        let aside = (way(jaw, point.distal) * d + way(jaw, point.buccal) * b)
            * (length / (1.0 + d * d + b * b).sqrt());
        let apex = on_chart(jaw, point.x_mm, point.y_mm) + aside;
        let want = placed(&position.to_string(), 300, -200, distal, out);
        prop_assert_eq!(tilted(&model, upright, length, apex), Some(want));
    }

    /// The four arrows are four different ways, each the opposite of its opposite.
    #[test]
    fn opposite_arrows_undo_each_other(
        position in prop::sample::select(ToothPosition::all().collect::<Vec<_>>()),
    ) {
        let model = model(position.jaw());
        let point = model.tooth(position).unwrap().centre;
        let of = |arrow| by_arrow(&model, &point, arrow);
        let back = |(a, b): (i64, i64)| (-a, -b);
        prop_assert_eq!(of(Arrow::Left), back(of(Arrow::Right)));
        prop_assert_eq!(of(Arrow::Up), back(of(Arrow::Down)));
        prop_assert_ne!(of(Arrow::Left), of(Arrow::Up));
        prop_assert_ne!(of(Arrow::Left), of(Arrow::Down));
    }
}
