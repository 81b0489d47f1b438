//! Invented cases for the tests of this room: bare ones, and any that can be.

use crate::case::{
    ArchSize, Case, CasePin, NeighbourKind, Placement, PointMm, Site, Tooth, ToothState, Vector,
};
use crate::dentition::{ArchLandmark, Jaw, ToothPosition};
use crate::kit::SlotKind;
use crate::measure::{Angle, Length};
use crate::samples;
pub(super) use crate::samples::{mm, tooth};
use proptest::prelude::*;
use serde_json::json;

/// A case without sites, teeth, pins and arch.
pub(super) fn bare(jaw: Jaw) -> Case {
    let mut case: Case = serde_json::from_value(samples::bare()).unwrap();
    case.jaw = jaw;
    case
}

/// The mean arch of a jaw, entered.
pub(super) fn with_arch(mut case: Case) -> Case {
    case.arch = Some(ArchSize {
        landmark: ArchLandmark::FirstMolars,
        width_mm: mm("56.2"),
        depth_mm: mm("30.7"),
    });
    case
}

/// A site at a tooth.
pub(super) fn site(id: &str, at: ToothPosition, placement: Placement) -> Site {
    let step = |id: &str, drill: &str, sleeve: &str, stop: &str| {
        json!({
            "id": id, "drill": drill, "sleeve": sleeve, "stop": stop, "depth": {"rule": "full"},
        })
    };
    serde_json::from_value(json!({
        "id": id, "tooth": at, "placement": placement, "state": {"bone": "healed"},
        "implant": "i", "master_sleeve": "m", "guided_extent": "all_drilling",
        "platform_to_sleeve": {"entered_mm": 6.2, "to": "apical"},
        "setting": "each_step",
        "steps": [step("1", "p", "s", "st"), step("2", "f", "s2", "st2")],
    }))
    .unwrap()
}

/// A place on the arch, tilted by so many degrees.
pub(super) fn on_arch(at: ToothPosition, to_distal: i32, to_buccal: i32) -> Placement {
    Placement::OnArch {
        at,
        along_mm: Length::ZERO,
        buccal_mm: Length::ZERO,
        apex_to_distal_deg: Angle::from_deg(to_distal),
        apex_to_buccal_deg: Angle::from_deg(to_buccal),
    }
}

/// A measured place, pointing straight to apical but for its two slopes.
pub(super) fn measured(jaw: Jaw, x_um: i64, y_um: i64, slopes: (i64, i64)) -> Placement {
    let z = match jaw {
        Jaw::Upper => 10_000,
        Jaw::Lower => -10_000,
    };
    Placement::Measured {
        platform: PointMm {
            x_mm: Length::from_um(x_um),
            y_mm: Length::from_um(y_um),
            z_mm: Length::ZERO,
        },
        direction: Vector {
            x: Length::from_um(slopes.0),
            y: Length::from_um(slopes.1),
            z: Length::from_um(z),
        },
    }
}

pub(super) fn present(at: ToothPosition) -> Tooth {
    Tooth {
        position: at,
        state: ToothState::Present,
        kind: None,
    }
}

/// The same case on the patient's other side.
pub(super) fn mirrored(case: &Case) -> Case {
    let mut case = case.clone();
    for tooth in &mut case.teeth {
        tooth.position = tooth.position.mirrored();
    }
    for pin in &mut case.guide.pins {
        pin.at = pin.at.mirrored();
    }
    for site in &mut case.sites {
        site.tooth = site.tooth.mirrored();
        match &mut site.placement {
            Placement::OnArch { at, .. } => *at = at.mirrored(),
            Placement::Measured {
                platform,
                direction,
            } => {
                platform.x_mm = -platform.x_mm;
                direction.x = -direction.x;
            }
        }
    }
    case
}

fn any_tooth(position: ToothPosition) -> impl Strategy<Value = Option<Tooth>> {
    let states = [
        ToothState::Present,
        ToothState::Missing,
        ToothState::ToExtract,
    ];
    let kinds = [
        NeighbourKind::Natural,
        NeighbourKind::RootFilled,
        NeighbourKind::Implant,
        NeighbourKind::Pontic,
        NeighbourKind::Impacted,
        NeighbourKind::Remnant,
    ];
    let tooth = (
        prop::sample::select(states.to_vec()),
        prop::option::of(prop::sample::select(kinds.to_vec())),
    );
    prop::option::weighted(0.8, tooth).prop_map(move |tooth| {
        tooth.map(|(state, kind)| Tooth {
            position,
            state,
            kind,
        })
    })
}

fn any_placement(at: ToothPosition) -> impl Strategy<Value = Placement> {
    let on_arch = (-6_000..6_000_i64, -4_000..4_000_i64, -45..=45_i32, -30..=30).prop_map(
        move |(along, buccal, distal, out)| Placement::OnArch {
            at,
            along_mm: Length::from_um(along),
            buccal_mm: Length::from_um(buccal),
            apex_to_distal_deg: Angle::from_deg(distal),
            apex_to_buccal_deg: Angle::from_deg(out),
        },
    );
    let measured = (
        -34_000..34_000_i64,
        -4_000..60_000_i64,
        -9_000..9_000_i64,
        -9_000..9_000_i64,
    )
        .prop_map(move |(x, y, dx, dy)| measured(at.jaw(), x, y, (dx, dy)));
    prop_oneof![3 => on_arch, 1 => measured]
}

/// Cases with up to eight sites and four pins, with and without a size of the arch.
pub(super) fn any_case() -> impl Strategy<Value = Case> {
    prop_oneof![Just(Jaw::Upper), Just(Jaw::Lower)].prop_flat_map(|jaw| {
        let positions: Vec<ToothPosition> = ToothPosition::all_of(jaw).collect();
        let teeth: Vec<_> = positions.iter().map(|&p| any_tooth(p)).collect();
        let sites = prop::sample::subsequence(positions.clone(), 0..=8).prop_flat_map(|at| {
            let one = |p| any_placement(p).prop_map(move |placement| (p, placement));
            at.into_iter().map(one).collect::<Vec<_>>()
        });
        let pins = prop::collection::vec(
            (
                prop::sample::select(positions),
                -9_000..9_000_i64,
                -9_000..20_000_i64,
                "[A-Z][a-z]{0,12}( [a-z]{1,9}){0,3}",
            ),
            0..=4,
        );
        let arch = prop::option::weighted(0.8, (44_000..66_000_i64, 22_000..46_000_i64));
        (teeth, sites, pins, arch).prop_map(move |(teeth, sites, pins, arch)| {
            let mut case = bare(jaw);
            case.teeth = teeth.into_iter().flatten().collect();
            case.sites = sites
                .into_iter()
                .map(|(at, placement)| site(&format!("s{at}"), at, placement))
                .collect();
            for (n, (at, along, buccal, name)) in pins.into_iter().enumerate() {
                case.guide.pins.push(CasePin {
                    name: format!("{name} {n}").as_str().into(),
                    pin: "pin".into(),
                    at,
                    along_mm: Length::from_um(along),
                    buccal_mm: Length::from_um(buccal),
                });
            }
            case.arch = arch.map(|(width, depth)| ArchSize {
                landmark: ArchLandmark::FirstMolars,
                width_mm: Length::from_um(width),
                depth_mm: Length::from_um(depth),
            });
            case
        })
    })
}

/// Slots of every kind in a grid of any cell size, so many of each, on a tray that holds them.
pub(super) fn with_slots(mut case: Case, width: i64, depth: i64, each: i64) -> Case {
    let kinds = [
        SlotKind::Drill,
        SlotKind::Sleeve,
        SlotKind::Implant,
        SlotKind::Pin,
    ];
    let tray = &mut case.kit.trays[0];
    let first = tray.slots[0].clone();
    let gap = 2;
    tray.width_mm = Length::from_mm((width + gap) * each + gap).max(Length::from_mm(10));
    tray.depth_mm = Length::from_mm((depth + gap) * 4 + gap).max(Length::from_mm(10));
    tray.slots = kinds
        .into_iter()
        .zip(0_i64..)
        .flat_map(|(kind, row)| (0..each).map(move |n| (kind, row, n)))
        .map(|(kind, row, n)| {
            let mut slot = first.clone();
            slot.name = format!("Row {row} no {n}").as_str().into();
            slot.kind = kind;
            slot.left_mm = Length::from_mm(gap + n * (width + gap));
            slot.far_mm = Length::from_mm(gap + row * (depth + gap));
            slot.width_mm = Length::from_mm(width);
            slot.depth_mm = Length::from_mm(depth);
            slot
        })
        .collect();
    case
}
