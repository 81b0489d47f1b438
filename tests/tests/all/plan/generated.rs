//! Cases and kits of all kinds, for properties: sound, but not sensible.

use super::generated_site::{any_site, sites_of};
use super::kit::{drill, kit, sleeve, stop};
use super::sample::{case, deg, mm};
use proptest::prelude::*;
use traywright_core::case::{
    Access, ArchSize, Case, CasePin, GuideState, LimitId, NeighbourKind, StructureKind, Tooth,
    ToothState, UseOrder,
};
use traywright_core::dentition::{ArchLandmark, Jaw, ToothPosition};
use traywright_core::kit::{
    Accessory, AccessoryKind, Datum, Drill, DrillKind, DrillMark, Driver, FixedLength, Gauge,
    GaugeFace, Implant, Kit, Label, Pin, PinSleeve, Point, ProfilePoint, Recess, Shape, Stop,
    StopKind,
};
use traywright_core::measure::{Angle, Length, Speed, Torque};

/// A length between two texts in mm, to the micrometre.
pub(super) fn any_length(from: &str, to: &str) -> impl Strategy<Value = Length> + use<> {
    (mm(from).um()..=mm(to).um()).prop_map(Length::from_um)
}

pub(super) fn any_angle(from: &str, to: &str) -> impl Strategy<Value = Angle> + use<> {
    (deg(from).millideg()..=deg(to).millideg()).prop_map(Angle::from_millideg)
}

/// A name for people in some alphabets.
pub(super) fn any_label() -> impl Strategy<Value = Label> {
    "[A-Za-zà-žα-ω]{1,6}( [A-Z0-9/.]{1,4})?".prop_map(|text| text.as_str().into())
}

fn any_datum() -> impl Strategy<Value = Datum> {
    prop_oneof![
        Just(Datum::Tip {}),
        Just(Datum::FullDiameter {}),
        any_length("0", "6").prop_map(|from_tip_mm| Datum::Line { from_tip_mm }),
    ]
}

fn any_point() -> impl Strategy<Value = Point> {
    prop_oneof![
        any_angle("60", "150").prop_map(|point_deg| Point::Angle { point_deg }),
        any_length("0", "3").prop_map(|point_mm| Point::Length { point_mm }),
    ]
}

prop_compose! {
    fn any_drill(id: &'static str, kind: DrillKind)(
        name in any_label(),
        cutting in any_length("1.5", "4.8"),
        guided in any_length("1.5", "4.8"),
        guided_from in prop::option::weighted(0.7, any_length("0", "12")),
        point in any_point(),
        datum in any_datum(),
        flute in any_length("8", "30"),
        marks in prop::collection::vec((any_length("1", "20"), prop::option::of(any_length("20", "30"))), 0..4),
        speed in prop::option::of(1_u32..3000),
        torque in prop::option::of(1..80),
        shape in prop::option::of(prop_oneof![Just(Shape::Ring), Just(Shape::HalfDot)]),
        bare in any::<bool>(),
    ) -> Drill {
        let mut one = drill(id, kind, "2");
        one.name = name;
        one.cutting_diameter_mm = cutting;
        one.guided_diameter_mm = guided;
        one.guided_from_mm = guided_from;
        one.point = point;
        one.datum = datum;
        one.flute_to_mm = flute;
        one.marks = (0..).zip(marks).map(|(n, (lower, upper))| DrillMark {
            name: format!("m{n}").as_str().into(),
            lower_edge_mm: lower,
            upper_edge_mm: upper,
        }).collect();
        one.greatest_speed_rpm = speed.map(Speed::from_rpm);
        one.torque_limit_ncm = torque.map(Torque::from_ncm);
        one.marking.shape = shape;
        if bare {
            one.stop_seat_diameter_mm = None;
            one.clamp = None;
        }
        one
    }
}

prop_compose! {
    fn any_implant(id: &'static str)(
        length in any_length("6", "15"),
        diameter in any_length("3", "5"),
        collar in any_length("0", "0.6"),
        allowance in prop_oneof![Just(Length::ZERO), any_length("0", "1")],
        profile in prop::collection::vec((any_length("0", "6"), any_length("1", "3")), 0..4),
    ) -> Implant {
        let mut profile: Vec<_> = profile.into_iter().map(|(z, d)| ProfilePoint {
            below_platform_mm: z,
            diameter_mm: d,
        }).collect();
        // Somewhere an outline is as wide as the implant.
        if let Some(first) = profile.first_mut() {
            first.diameter_mm = diameter;
        }
        profile.sort_by_key(|point| point.below_platform_mm);
        Implant {
            id: id.into(),
            diameter_mm: diameter,
            largest_diameter_mm: diameter + collar,
            platform_to_apex_mm: length,
            apical_allowance_mm: allowance,
            profile,
            ..kit().implants[0].clone()
        }
    }
}

fn any_stop(id: &'static str) -> impl Strategy<Value = Stop> {
    let fixed = prop::collection::vec(any_length("8", "26"), 1..4).prop_map(|lengths| {
        let of = |drill: &'static str| {
            lengths.clone().into_iter().map(move |length| FixedLength {
                drill: drill.into(),
                tip_to_landing_mm: length,
            })
        };
        StopKind::Fixed {
            lengths: of("a").chain(of("b")).chain(of("c")).collect(),
        }
    });
    let kind = prop_oneof![3 => Just(StopKind::Adjustable {}), 1 => fixed];
    (kind, any_length("1", "5"), 0_u32..20).prop_map(move |(depth, body, quantity)| Stop {
        depth,
        body_height_mm: body,
        quantity,
        ..stop(id)
    })
}

fn any_gauge() -> impl Strategy<Value = Gauge> {
    let graduation = prop_oneof![
        Just("0.1"),
        Just("0.5"),
        Just("0.25"),
        Just("0.001"),
        Just("0.3")
    ];
    let reads = prop_oneof![
        3 => Just(Some(GaugeFace::Landing)),
        3 => Just(Some(GaugeFace::Upper)),
        1 => Just(None),
    ];
    let range = (any_length("0", "16"), any_length("0", "30"));
    (graduation, reads, any_length("-3", "3"), range).prop_map(
        |(graduation, reads, constant, (from, span))| Gauge {
            graduation_mm: mm(graduation),
            reads,
            constant_mm: Some(constant),
            from_mm: from,
            to_mm: from + span,
            ..kit().gauges[0].clone()
        },
    )
}

prop_compose! {
    /// A kit with the sample's ids and other figures.
    pub(super) fn any_kit()(
        implants in (any_implant("long"), any_implant("short")),
        drills in (
            any_drill("a", DrillKind::Pilot),
            any_drill("b", DrillKind::Twist),
            any_drill("c", DrillKind::Profile),
        ),
        stops in (any_stop("u"), any_stop("v")),
        gauge in any_gauge(),
        sleeves in [(any_length("1.5", "4.8"), any_length("2", "9"), any_length("-1.5", "2")),
            (any_length("1.5", "4.8"), any_length("2", "9"), any_length("-1.5", "2")),
            (any_length("1.5", "4.8"), any_length("2", "9"), any_length("-1.5", "2"))],
        master in any_length("2", "6"),
        recess in prop::option::of((any_length("0.1", "1.5"), any_length("5", "6"))),
        with_pin in any::<bool>(),
        note in prop::option::of("[a-zà-ž \\n]{0,20}"),
    ) -> Kit {
        let mut kit = kit();
        kit.implants = vec![implants.0, implants.1];
        kit.drills = vec![drills.0, drills.1, drills.2];
        kit.stops = vec![stops.0, stops.1];
        kit.gauges = vec![gauge];
        kit.drill_sleeves = ["sa", "sb", "sc"].into_iter().zip(sleeves).map(|(id, (bore, length, seat))| {
            let mut one = sleeve(id, "2");
            (one.bore_mm, one.length_mm, one.seat_above_rim_mm) = (bore, length, seat);
            one
        }).collect();
        kit.master_sleeves[0].height_mm = master;
        kit.master_sleeves[0].recess = recess.map(|(depth_mm, diameter_mm)| Recess {
            depth_mm,
            diameter_mm,
        });
        kit.note = note;
        if with_pin {
            kit.drills.push(drill("pd", DrillKind::Pin, "1.3"));
            kit.pins.push(Pin {
                id: "pin".into(),
                name: "Pin".into(),
                code: None,
                diameter_mm: mm("1.4"),
                length_mm: mm("17"),
                drill: "pd".into(),
                stop: None,
                sleeve: PinSleeve { bore_mm: mm("1.5"), height_mm: mm("5") },
                quantity: 3,
            });
            kit.drivers.push(Driver {
                id: "dr".into(),
                name: "Driver".into(),
                code: None,
                families: vec![],
                quantity: 1,
            });
            kit.accessories.push(Accessory {
                id: "key".into(),
                name: "Key".into(),
                code: None,
                kind: AccessoryKind::LockKey,
                wanted: 2,
                quantity: 1,
            });
        }
        kit
    }
}

fn any_tooth(position: ToothPosition) -> impl Strategy<Value = Option<Tooth>> {
    let state = prop_oneof![
        Just(ToothState::Present),
        Just(ToothState::Missing),
        Just(ToothState::ToExtract)
    ];
    let kind = prop_oneof![
        Just(NeighbourKind::Natural),
        Just(NeighbourKind::RootFilled),
        Just(NeighbourKind::Implant),
        Just(NeighbourKind::Pontic),
        Just(NeighbourKind::Impacted),
        Just(NeighbourKind::Remnant),
    ];
    prop::option::weighted(
        0.8,
        (state, prop::option::of(kind)).prop_map(move |(state, kind)| Tooth {
            position,
            state,
            kind,
        }),
    )
}

fn any_arch() -> impl Strategy<Value = Option<ArchSize>> {
    let landmark = prop_oneof![
        Just(ArchLandmark::FirstMolars),
        Just(ArchLandmark::SecondMolars)
    ];
    let size = (landmark, any_length("44", "70"), any_length("26", "50"));
    prop::option::weighted(
        0.8,
        size.prop_map(|(landmark, width_mm, depth_mm)| ArchSize {
            landmark,
            width_mm,
            depth_mm,
        }),
    )
}

/// A valid case: one to three sites anywhere in a jaw, whatever can be unknown now and then so.
pub(super) fn any_case() -> impl Strategy<Value = Case> {
    let jaw = prop_oneof![Just(Jaw::Upper), Just(Jaw::Lower)];
    (jaw, any_kit()).prop_flat_map(|(jaw, kit)| {
        let positions: Vec<_> = ToothPosition::all_of(jaw).collect();
        let teeth: Vec<_> = positions.iter().map(|p| any_tooth(*p)).collect();
        let sites = prop::sample::subsequence(positions, 1..=3)
            .prop_shuffle()
            .prop_flat_map(|places| {
                let sites = places.into_iter().zip(["one", "two", "three"]);
                sites.map(|(at, id)| any_site(id, at)).collect::<Vec<_>>()
            });
        let choices = (
            any::<(bool, bool, bool, bool, bool)>(),
            prop::option::of(any::<prop::sample::Index>()),
            any_arch(),
            any_label(),
        );
        (teeth, sites, choices).prop_map(move |(teeth, sites, choices)| {
            let ((punch, made, by_diameter, no_head, no_gauge), no_limit, arch, name) = choices;
            let mut case = case();
            case.jaw = jaw;
            case.kit = kit.clone();
            case.teeth = teeth.into_iter().flatten().collect();
            case.arch = arch;
            case.team.surgeon = Some(name);
            if punch {
                case.guide.access = Access::Punch;
            }
            if made {
                case.guide.state = GuideState::Made;
            }
            if by_diameter {
                case.setup.use_order = UseOrder::ByDiameter;
            }
            if no_head {
                case.setup.head = None;
            }
            if no_gauge && punch && made {
                case.setup.gauge = None;
            }
            if !kit.pins.is_empty() {
                case.guide.pins = vec![CasePin {
                    name: "P1".into(),
                    pin: "pin".into(),
                    at: ToothPosition::all_of(jaw).next().unwrap(),
                    along_mm: mm("1.5"),
                    buccal_mm: mm("4"),
                }];
            }
            if let Some(index) = no_limit {
                let id = LimitId::ALL[index.index(LimitId::ALL.len())];
                drop_limit(&mut case, id);
            }
            sites_of(&mut case, sites);
            for site in &mut case.sites {
                let kinds = StructureKind::of_jaw(jaw);
                site.structures.retain(|one| kinds.contains(&one.kind));
            }
            case
        })
    })
}

fn drop_limit(case: &mut Case, id: LimitId) {
    let mut limits = serde_json::to_value(&case.limits).unwrap();
    limits.as_object_mut().unwrap().remove(id.key()).unwrap();
    case.limits = serde_json::from_value(limits).unwrap();
}
