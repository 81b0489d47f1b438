//! Tooth numbers, mean sizes and the arch.

use serde_json::Value;
use traywright_core::dentition::{
    ArchLandmark, ArchModel, Jaw, Notation, Side, ToothPosition, tooth_size,
};
use traywright_core::measure::Length;

fn tooth(iso: &str) -> ToothPosition {
    iso.parse().unwrap()
}

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

fn arch(jaw: Jaw, landmark: ArchLandmark, width: &str, depth: &str) -> ArchModel {
    ArchModel::new(jaw, landmark, mm(width), mm(depth)).unwrap()
}

/// Published pairs of ISO 3950 and Universal numbers.
#[test]
fn universal_numbers_as_published() {
    for (iso, universal) in [
        ("26", "14"),
        ("25", "13"),
        ("28", "16"),
        ("43", "27"),
        ("31", "24"),
        ("41", "25"),
        ("36", "19"),
        ("46", "30"),
    ] {
        assert_eq!(Notation::Universal.show(tooth(iso)), universal, "{iso}");
        assert_eq!(Notation::Universal.parse(universal), Ok(tooth(iso)));
    }
    // The published 43 is quadrant notation 3, of the lower right.
    assert_eq!(Notation::Quadrant.show(tooth("43")), "LR3");
}

/// Identities: 1p ↔ 9 − p, 2p ↔ 8 + p, 3p ↔ 25 − p, 4p ↔ 24 + p.
#[test]
fn universal_numbers_of_all_positions() {
    for position in ToothPosition::all() {
        let p = position.number();
        let want = match position.quadrant() {
            1 => 9 - p,
            2 => 8 + p,
            3 => 25 - p,
            _ => 24 + p,
        };
        assert_eq!(Notation::Universal.show(position), want.to_string());
    }
    // What the count means: 1 to 16 and 17 to 32 go round the mouth without a jump.
    let upper = ToothPosition::all_of(Jaw::Upper);
    let lower: Vec<_> = ToothPosition::all_of(Jaw::Lower).collect();
    for (n, position) in (1..).zip(upper.chain(lower.into_iter().rev())) {
        assert_eq!(Notation::Universal.parse(&n.to_string()), Ok(position));
    }
}

/// Ash & Nelson / Wheeler, Dental Anatomy, table of average sizes: the rows that were read in a
/// publication. Crown, root, mesiodistal crown and cervix, faciolingual crown, in mm.
#[test]
fn tooth_sizes_as_published() {
    for (iso, row) in [
        ("11", ["10.5", "13", "8.5", "7", "7"]),
        ("22", ["9", "13", "6.5", "5", "6"]),
        ("15", ["8.5", "14", "7", "5", "9"]),
        ("26", ["7.5", "12", "10", "8", "11"]),
        ("41", ["9", "12.5", "5", "3.5", "6"]),
        ("33", ["11", "16", "7", "5.5", "7.5"]),
    ] {
        let size = tooth_size(tooth(iso));
        let sizes = [
            size.crown_length,
            size.root_length,
            size.crown_md,
            size.cervix_md,
            size.crown_fl,
        ];
        assert_eq!(sizes, row.map(mm), "{iso}");
    }
}

/// Closed forms of the beta curve (Braun, Hnat, Fender, Legan, Angle Orthod 1998;68(1):29–36; the
/// formula from memory), recomputed. The first two are the mean first-molar measures of Mina et
/// al., Odontology 2017;105:229–236.
#[test]
fn arc_lengths_of_the_beta_curve() {
    for (jaw, width, depth, want) in [
        (Jaw::Upper, "57.92", "31.59", 91.205),
        (Jaw::Lower, "54.19", "28.10", 83.056),
        (Jaw::Upper, "55", "45", 111.604),
    ] {
        let length = arch(jaw, ArchLandmark::FirstMolars, width, depth).arc_length_mm();
        assert!(
            (length - want).abs() < 0.0005,
            "{width} × {depth}: {length}"
        );
    }
}

/// Two published things agree: the mean arch (Mina et al., Odontology 2017;105:229–236) and the
/// sum of the mean crowns (Ash & Nelson / Wheeler): within about 2 %.
#[test]
fn mean_crowns_nearly_fill_the_mean_arch() {
    for (jaw, width, depth) in [
        (Jaw::Upper, "57.92", "31.59"),
        (Jaw::Lower, "54.19", "28.10"),
    ] {
        let scale = arch(jaw, ArchLandmark::FirstMolars, width, depth).scale();
        assert!((scale - 1.0).abs() < 0.025, "{jaw:?}: {scale}");
    }
}

/// The arcs and the teeth's places against `SciPy`: `oracles-data/arch.py` made the data.
#[test]
fn arches_as_integrated_by_scipy() {
    let data: Value =
        serde_json::from_str(include_str!("../../../oracles-data/arch.json")).unwrap();
    assert_eq!(data["library"], "SciPy");
    let arches = data["arches"].as_array().unwrap();
    assert_eq!(arches.len(), 10);
    for case in arches {
        let field = |name: &str| serde_json::from_value(case[name].clone()).unwrap();
        let (width, depth) = (field("width_mm"), field("depth_mm"));
        let jaw: Jaw = serde_json::from_value(case["jaw"].clone()).unwrap();
        let landmark: ArchLandmark = serde_json::from_value(case["landmark"].clone()).unwrap();
        let model = ArchModel::new(jaw, landmark, width, depth).unwrap();
        let arc = case["arc_mm"].as_f64().unwrap();
        let off = (model.arc_length_mm() - arc).abs();
        assert!(off < CLOSE_MM, "{width} × {depth}: off by {off:e}");

        for place in case["teeth"].as_array().unwrap() {
            let number = u8::try_from(place["number"].as_u64().unwrap()).unwrap();
            for side in Side::ALL {
                let position = ToothPosition::all_of(jaw)
                    .find(|p| p.number() == number && p.side() == side)
                    .unwrap();
                let outline = model.tooth(position).unwrap();
                let sign = if side == Side::Left { 1.0 } else { -1.0 };
                let middle = [outline.centre.x_mm, outline.centre.y_mm];
                for (ours, theirs) in [
                    (middle, &place["middle_mm"]),
                    (outline.distal_contact, &place["distal_contact_mm"]),
                ] {
                    let x = sign * theirs[0].as_f64().unwrap();
                    let y = theirs[1].as_f64().unwrap();
                    let off = (ours[0] - x).hypot(ours[1] - y);
                    assert!(
                        off < CLOSE_MM,
                        "{width} × {depth}, {position}: off by {off:e}"
                    );
                }
            }
        }
    }
}

/// A ten-thousandth of the least length that the program keeps.
const CLOSE_MM: f64 = 1e-7;
