//! A small invented kit in which everything fits.

use super::sample::{deg, mm};
use traywright_core::kit::{
    Allowances, Carrier, CarrierLine, Clearance, Datum, Density, Drill, DrillKind, DrillSleeve,
    FinalDiameter, Gauge, GaugeFace, Head, Implant, KIT_VERSION, Kit, Marking, MasterSleeve, Point,
    ProfilePoint, SlotKind, Span, Stop, StopKind, TraySlot, TrayTemplate,
};
use traywright_core::measure::Length;

/// Implants `long` and `short`; drills `a`, `b`, `c` with the sleeves `sa`, `sb`, `sc`; master
/// sleeve `m`, stop `u`, gauge `g`, carrier `k`, head `h`, tray `t`.
pub(crate) fn kit() -> Kit {
    Kit {
        traywright_kit: KIT_VERSION,
        id: "kit".into(),
        name: "Invented kit".into(),
        revision: "1".into(),
        demonstration: false,
        allowances: allowances(),
        implants: vec![implant("long", "10.0"), implant("short", "8.2")],
        drills: vec![
            drill("a", DrillKind::Pilot, "1.9"),
            drill("b", DrillKind::Twist, "2.7"),
            drill("c", DrillKind::Twist, "3.3"),
        ],
        drill_sleeves: vec![
            sleeve("sa", "1.95"),
            sleeve("sb", "2.75"),
            sleeve("sc", "3.35"),
        ],
        master_sleeves: vec![MasterSleeve {
            id: "m".into(),
            name: "Master".into(),
            bore_mm: mm("4.95"),
            outer_diameter_mm: mm("6.1"),
            height_mm: mm("4.0"),
            recess: None,
            source: None,
        }],
        stops: vec![stop("u")],
        gauges: vec![gauge()],
        carriers: vec![carrier()],
        heads: vec![Head {
            id: "h".into(),
            name: "Head".into(),
            height_mm: mm("14"),
            diameter_mm: mm("9"),
        }],
        drivers: vec![],
        pins: vec![],
        accessories: vec![],
        protocols: vec![],
        trays: vec![tray()],
        note: None,
    }
}

fn allowances() -> Allowances {
    let between = |least, most| Clearance {
        least_mm: mm(least),
        most_mm: mm(most),
    };
    Allowances {
        guided_clearance: between("0.02", "0.2"),
        sleeve_clearance: between("0.02", "0.1"),
        stop_clearance: between("0", "0.1"),
        least_landing_mm: mm("0.5"),
        flute_reserve_mm: mm("2"),
        largest_step_mm: Some(mm("0.8")),
        final_diameter: vec![FinalDiameter {
            density: Density::D2,
            below_implant_mm: mm("1.1"),
        }],
        source: None,
    }
}

fn implant(id: &str, length: &str) -> Implant {
    Implant {
        id: id.into(),
        name: id.into(),
        family: "F".into(),
        diameter_mm: mm("4.4"),
        largest_diameter_mm: mm("4.6"),
        nominal_length_mm: mm(length),
        platform_to_apex_mm: mm(length),
        apical_allowance_mm: Length::ZERO,
        profile: vec![],
        torque_limit_ncm: None,
        quantity: 4,
        source: None,
    }
}

/// A drill counted at its tip, with a point of 118°.
pub(crate) fn drill(id: &str, kind: DrillKind, diameter: &str) -> Drill {
    Drill {
        id: id.into(),
        name: id.into(),
        kind,
        cutting_diameter_mm: mm(diameter),
        guided_diameter_mm: mm(diameter),
        guided_from_mm: None,
        stop_seat_diameter_mm: Some(mm("2.4")),
        point: Point::Angle {
            point_deg: deg("118"),
        },
        datum: Datum::Tip {},
        overall_length_mm: mm("44"),
        free_length_mm: mm("34"),
        flute_to_mm: mm("24"),
        clamp: Some(Span {
            from_mm: mm("6"),
            to_mm: mm("32"),
        }),
        marks: vec![],
        greatest_speed_rpm: None,
        torque_limit_ncm: None,
        direction: None,
        irrigation: None,
        quantity: 4,
        single_use: false,
        marking: Marking::default(),
        source: None,
    }
}

/// An implant's outline: how far below the platform, and how wide there.
pub(crate) fn outline<const N: usize>(points: [(&str, &str); N]) -> Vec<ProfilePoint> {
    points
        .map(|(below, diameter)| ProfilePoint {
            below_platform_mm: mm(below),
            diameter_mm: mm(diameter),
        })
        .into()
}

pub(crate) fn sleeve(id: &str, bore: &str) -> DrillSleeve {
    DrillSleeve {
        id: id.into(),
        name: id.into(),
        fits: vec!["m".into()],
        bore_mm: mm(bore),
        barrel_diameter_mm: mm("4.9"),
        length_mm: mm("6"),
        flange_height_mm: mm("0.7"),
        flange_diameter_mm: mm("7"),
        seat_above_rim_mm: mm("0.7"),
        quantity: 2,
        marking: Marking::default(),
        source: None,
    }
}

pub(crate) fn stop(id: &str) -> Stop {
    Stop {
        id: id.into(),
        name: id.into(),
        bore_mm: mm("2.44"),
        body_diameter_mm: mm("6.5"),
        landing_diameter_mm: mm("6.5"),
        body_height_mm: mm("3.5"),
        depth: StopKind::Adjustable {},
        quantity: 20,
        marking: Marking::default(),
        source: None,
    }
}

fn gauge() -> Gauge {
    Gauge {
        id: "g".into(),
        name: "Gauge".into(),
        from_mm: mm("5"),
        to_mm: mm("30"),
        graduation_mm: mm("0.1"),
        reads: Some(GaugeFace::Landing),
        constant_mm: Length::ZERO,
        check_piece_mm: None,
        source: None,
    }
}

fn carrier() -> Carrier {
    Carrier {
        id: "k".into(),
        name: "Carrier".into(),
        families: vec!["F".into()],
        guided_diameter_mm: mm("4.9"),
        lines: vec![
            CarrierLine {
                name: "near".into(),
                above_platform_mm: mm("8"),
            },
            CarrierLine {
                name: "far".into(),
                above_platform_mm: mm("10"),
            },
        ],
        quantity: 2,
        marking: Marking::default(),
        source: None,
    }
}

fn tray() -> TrayTemplate {
    let kinds = [
        SlotKind::Drill,
        SlotKind::Sleeve,
        SlotKind::Implant,
        SlotKind::Carrier,
    ];
    let slots = kinds
        .iter()
        .zip([("D", 0), ("S", 10), ("I", 20), ("C", 30)])
        .flat_map(|(kind, (letter, far))| {
            (0..10).map(move |n| TraySlot {
                name: format!("{letter}{n}").as_str().into(),
                kind: *kind,
                left_mm: Length::from_mm(n * 10),
                far_mm: Length::from_mm(far),
                width_mm: mm("8"),
                depth_mm: mm("8"),
            })
        });
    TrayTemplate {
        id: "t".into(),
        name: "Tray".into(),
        width_mm: mm("120"),
        depth_mm: mm("60"),
        slots: slots.collect(),
    }
}
