//! Sites of all kinds, for properties.

use super::generated::{any_angle, any_label, any_length};
use super::sample::{site, step};
use proptest::prelude::*;
use std::collections::BTreeMap;
use traywright_core::case::{
    Case, CrestDepth, Direction, Distance, DistanceTo, GuidedExtent, Height, HeightDatum,
    MeasuredAt, Obstacle, Placement, PlatformToSleeve, PointMm, Setting, Site, SiteState,
    SleeveFace, Socket, Step, Structure, StructureExtent, StructureKind, Vector, Wall, WallSide,
};
use traywright_core::dentition::{Jaw, ToothPosition};
use traywright_core::kit::{Density, DepthRule, Label};
use traywright_core::measure::Length;

fn any_placement(at: ToothPosition) -> impl Strategy<Value = Placement> {
    let on_arch = (
        (any_length("-3", "3"), any_length("-2", "2")),
        prop_oneof![
            Just(Default::default()),
            (any_angle("-35", "35"), any_angle("-20", "20"))
        ],
    );
    let on_arch =
        on_arch.prop_map(
            move |((along, buccal), (distal, to_buccal))| Placement::OnArch {
                at,
                along_mm: along,
                buccal_mm: buccal,
                apex_to_distal_deg: distal,
                apex_to_buccal_deg: to_buccal,
            },
        );
    let across = || any_length("-0.7", "0.7");
    let measured = (
        (
            // Some of them right on the midline, as near to one side as to the other.
            prop_oneof![19 => any_length("-30", "30"), 1 => Just(Length::ZERO)],
            any_length("0", "45"),
            any_length("-14", "14"),
        ),
        (across(), across(), any_length("0.4", "1")),
    );
    let measured = measured.prop_map(move |(p, d)| Placement::Measured {
        platform: PointMm {
            x_mm: p.0,
            y_mm: p.1,
            z_mm: p.2,
        },
        direction: Vector {
            x: d.0,
            y: d.1,
            z: match at.jaw() {
                Jaw::Upper => d.2,
                Jaw::Lower => -d.2,
            },
        },
    });
    prop_oneof![on_arch, measured]
}

fn any_depth() -> impl Strategy<Value = DepthRule> {
    prop_oneof![
        3 => Just(DepthRule::Full {}),
        1 => any_length("0", "9").prop_map(|depth_mm| DepthRule::BelowPlatform { depth_mm }),
        1 => any_length("0.001", "5").prop_map(|by_mm| DepthRule::ShortOfFull { by_mm }),
    ]
}

fn any_steps() -> impl Strategy<Value = Vec<Step>> {
    let drill = prop_oneof![Just("a"), Just("b"), Just("c")];
    let with = |weight| prop::bool::weighted(weight);
    let one = (
        drill,
        with(0.8),
        prop::option::weighted(0.9, with(0.7)),
        any_depth(),
    );
    prop::collection::vec(one, 0..5).prop_map(|steps| {
        let steps = (0..).zip(steps);
        let made = steps.map(|(n, (drill, with_sleeve, stop, depth))| {
            let mut one = step(drill);
            one.id = format!("s{n}").as_str().into();
            one.sleeve = one.sleeve.filter(|_| with_sleeve);
            one.stop = stop.map(|first| if first { "u" } else { "v" }.into());
            one.depth = depth;
            one
        });
        made.collect()
    })
}

fn any_height() -> impl Strategy<Value = Height> {
    prop_oneof![
        Just(Height::Crest),
        Just(Height::Mid),
        Just(Height::Apex),
        Just(Height::Least)
    ]
}

fn any_extent() -> impl Strategy<Value = StructureExtent> {
    let from = prop_oneof![Just(HeightDatum::Platform), Just(HeightDatum::Crest)];
    let direction = prop_oneof![Just(Direction::Vertical), Just(Direction::AlongAxis)];
    let below = (any_length("5", "20"), from, direction);
    let beside = (
        any_length("2", "10"),
        prop::option::of(any_length("0", "3")),
    );
    prop_oneof![
        below.prop_map(|(height_mm, from, direction)| StructureExtent::Below {
            height_mm,
            from,
            direction,
        }),
        beside.prop_map(|(from_axis_mm, anterior_loop_mm)| StructureExtent::Beside {
            from_axis_mm,
            anterior_loop_mm,
        }),
    ]
}

fn any_kind() -> impl Strategy<Value = StructureKind> {
    prop_oneof![
        Just(StructureKind::MandibularCanal),
        Just(StructureKind::MentalForamen),
        Just(StructureKind::SinusFloor),
        Just(StructureKind::NasalFloor),
    ]
}

/// A site at a position. Its measured values are fresh, except that one in five was measured at
/// another placement.
pub(super) fn any_site(id: &'static str, at: ToothPosition) -> impl Strategy<Value = Site> {
    let extent = prop_oneof![
        Just(GuidedExtent::PilotOnly),
        Just(GuidedExtent::AllDrilling),
        Just(GuidedExtent::DrillingAndImplant)
    ];
    let state = prop_oneof![
        3 => Just(SiteState::Healed {}),
        1 => Just(SiteState::FreshSocket(Socket { gap_mm: None, gap_measured_at: None, slope_deg: None })),
    ];
    let face = prop_oneof![Just(SleeveFace::Apical), Just(SleeveFace::Coronal)];
    let plan = (
        (
            any_placement(at),
            any_placement(at),
            prop::bool::weighted(0.2),
        ),
        (extent, state),
        prop::option::weighted(0.9, (any_length("2", "12"), face)),
        any_steps(),
        any::<(bool, bool)>(),
    );
    let heights = (
        prop::option::weighted(0.9, (any_length("-1", "2"), any_length("0", "1"))),
        prop::option::weighted(0.9, any_length("1", "4")),
        prop::option::weighted(0.9, any_length("6", "11")),
    );
    let around = (
        prop::collection::btree_map((any::<bool>(), any_height()), any_length("2", "6"), 0..4),
        prop::option::of((any_kind(), any_extent())),
        prop::collection::vec((any::<bool>(), any_height(), any_length("2", "9")), 0..3),
        prop::option::of((any_label(), any_length("-5", "15"), any_length("2", "8"))),
        prop::option::of(Just(Density::D3)),
    );
    (plan, heights, around).prop_map(move |(plan, heights, around)| {
        let ((placement, other, is_old), (extent, state), entered, steps, (one_figure, short)) =
            plan;
        let mut one = site(id, "36", &[]);
        one.tooth = at;
        one.placement = placement;
        one.state = state;
        one.guided_extent = extent;
        one.platform_to_sleeve =
            entered.map(|(entered_mm, to)| PlatformToSleeve { entered_mm, to });
        one.steps = steps;
        if one_figure {
            one.setting = Setting::OneFigure;
        }
        if short {
            one.implant = "short".into();
        }
        one.heights.platform_below_crest = heights.0.map(|(lowest, more)| CrestDepth {
            highest_mm: lowest + more,
            lowest_mm: lowest,
        });
        one.heights.tissue_thickness_mm = heights.1;
        one.heights.crest_below_occlusal_mm = heights.2;
        // Now and then the heights are older than the place.
        let before = is_old && one_figure;
        one.heights.measured_at = Some(if before { other } else { placement });
        let mut then = one.measured_now(Length::from_mm(10));
        if is_old {
            then.placement = other;
        }
        measured_around(&mut one, &then, around);
        one
    })
}

/// Measurements around a site: walls, a structure, neighbours, a crown; and its density.
type Around = (
    BTreeMap<(bool, Height), Length>,
    Option<(StructureKind, StructureExtent)>,
    Vec<(bool, Height, Length)>,
    Option<(Label, Length, Length)>,
    Option<Density>,
);

fn measured_around(one: &mut Site, then: &MeasuredAt, around: Around) {
    let (walls, structure, distances, obstacle, density) = around;
    one.density = density;
    one.walls = walls
        .into_iter()
        .map(|((buccal, at), from_axis_mm)| Wall {
            side: if buccal {
                WallSide::Buccal
            } else {
                WallSide::Oral
            },
            at,
            from_axis_mm,
            measured_at: then.clone(),
        })
        .collect();
    one.structures = structure
        .into_iter()
        .map(|(kind, extent)| Structure {
            kind,
            extent,
            measured_at: then.clone(),
            source: None,
        })
        .collect();
    one.distances = distances
        .into_iter()
        .map(|(mesial, at, from_axis_mm)| Distance {
            to: DistanceTo::Tooth {
                position: if mesial {
                    one.tooth.mesial_neighbour()
                } else {
                    one.tooth.distal_neighbour().unwrap_or(one.tooth)
                },
            },
            at,
            from_axis_mm,
            measured_at: then.clone(),
            other_measured_at: None,
        })
        .collect();
    one.obstacles = obstacle
        .into_iter()
        .map(|(name, above_rim_mm, from_axis_mm)| Obstacle {
            name,
            tooth: None,
            above_rim_mm,
            rim_above_platform_mm: None,
            from_axis_mm,
            measured_at: then.clone(),
        })
        .collect();
}

/// Puts the sites into a case: what was measured was so with the implant's own length, distances
/// to teeth that were not entered fall away, and the first two sites know their distance.
pub(super) fn sites_of(case: &mut Case, mut sites: Vec<Site>) {
    for site in &mut sites {
        let length = case.kit.implant(&site.implant).unwrap().platform_to_apex_mm;
        let master = case.kit.master_sleeve(&site.master_sleeve).unwrap();
        // A distance to the rim holds the sleeve.
        if let Some(entry) = &mut site.platform_to_sleeve
            && entry.to == SleeveFace::Coronal
        {
            entry.entered_mm = entry.entered_mm.max(master.height_mm);
        }
        let rim = site.platform_to_sleeve.map(|entry| match entry.to {
            SleeveFace::Apical => entry.entered_mm + master.height_mm,
            SleeveFace::Coronal => entry.entered_mm,
        });
        for obstacle in &mut site.obstacles {
            obstacle.rim_above_platform_mm = rim;
        }
        site.walls
            .iter_mut()
            .for_each(|w| w.measured_at.platform_to_apex_mm = length);
        for structure in &mut site.structures {
            structure.measured_at.platform_to_apex_mm = length;
        }
        for obstacle in &mut site.obstacles {
            obstacle.measured_at.platform_to_apex_mm = length;
        }
        for distance in &mut site.distances {
            distance.measured_at.platform_to_apex_mm = length;
        }
        let teeth = &case.teeth;
        site.distances.retain(|distance| match &distance.to {
            DistanceTo::Tooth { position } => teeth.iter().any(|t| t.position == *position),
            DistanceTo::Site { .. } => true,
        });
    }
    if let [first, second, ..] = &mut sites[..]
        && !first.walls.is_empty()
    {
        let now = |site: &Site| {
            let length = case.kit.implant(&site.implant).unwrap().platform_to_apex_mm;
            site.measured_now(length)
        };
        let distance = Distance {
            to: DistanceTo::Site {
                site: second.id.clone(),
            },
            at: first.walls[0].at,
            from_axis_mm: Length::from_mm(7),
            measured_at: now(first),
            other_measured_at: Some(now(second)),
        };
        first.distances.push(distance);
    }
    case.sites = sites;
}
