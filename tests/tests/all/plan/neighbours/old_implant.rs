//! A site beside an implant placed earlier, which may lean and end anywhere: between the heights that were measured.

use super::super::sample::{all, mm, one, worked};
use traywright_core::case::{DistanceTo, Height, NeighbourKind};
use traywright_core::plan::{Reason, Verdict, Worksheet};

use Height::{Apex, Crest, Least, Mid};

/// The sample with an implant at 37 and these distances to it; all radii are 2.2, the heights 0, 5 and 10 below the platform.
fn told(limit: &str, heights: &[(Height, &str)]) -> Verdict {
    let sheet = beside(Some(NeighbourKind::Implant), limit, heights);
    one(&sheet, "neighbour-old-implant").verdict
}

/// The same with what stands there of this kind; nobody entered which.
fn beside(kind: Option<NeighbourKind>, limit: &str, heights: &[(Height, &str)]) -> Worksheet {
    worked(|case| {
        case.teeth[1].kind = kind;
        case.limits.neighbour_implant.as_mut().unwrap().limit_mm = mm(limit);
        let site = &mut case.sites[0];
        let is_mesial = |to: &DistanceTo| matches!(to, DistanceTo::Tooth { position } if *position == case.teeth[1].position);
        let first = site.distances.iter().find(|one| is_mesial(&one.to));
        let first = first.unwrap().clone();
        site.distances.retain(|one| !is_mesial(&one.to));
        for (at, from_axis) in heights {
            let mut distance = first.clone();
            (distance.at, distance.from_axis_mm) = (*at, mm(from_axis));
            site.distances.push(distance);
        }
    })
}

/// 6.29, 5.32 and 8.4: what lies between there and a straight body is convex along the axis. Above the middle it is
/// no less than on the line through the lower two, 2.24 and 0.616 a millimetre, and, as one goes along the axis, than 6.29
/// less the way from where that was read, at the crest 1.0 coronal of the platform: 3.40 at 1.9 down, 1.20 beside a radius of 2.2.
#[test]
fn an_implant_that_ends_or_leans_may_be_nearer_between_the_heights() {
    let each = [(Crest, "6.29"), (Mid, "5.32"), (Apex, "8.4")];
    assert_eq!(told("3.12", &each), Verdict::Unknown);
    assert_eq!(told("1.21", &each), Verdict::Unknown);
    // The pieces on which the radius counts take 0.16 at most.
    assert_eq!(told("1", &each), Verdict::Clear);
    assert_eq!(told("3.13", &each), Verdict::Short);
    let [a, b, c] = each;
    assert_eq!(told("2.8", &[a, b, c, (Least, "5.1")]), Verdict::Clear);
    // More than another distance it is not the least.
    assert_eq!(told("2.8", &[a, b, c, (Least, "5.4")]), Verdict::Unknown);
    // Alongside each other: 5.32 less 2.3, which the neck takes.
    let alike = [(Crest, "5.32"), (Mid, "5.32"), (Apex, "5.32")];
    assert_eq!(told("3.02", &alike), Verdict::Clear);
}

/// Of what stands there nobody entered the kind: it may be an implant, which may be nearer between the heights.
#[test]
fn what_may_be_an_implant_is_clear_where_an_implant_is() {
    let told = |limit: &str, heights: &[(Height, &str)]| {
        let sheet = beside(None, limit, heights);
        let found = all(&sheet, "neighbour-root");
        let found = found.into_iter().find(|one| {
            let position = one.args.get("position").map(ToString::to_string);
            position.is_some_and(|at| at == "37")
        });
        let found = found.unwrap();
        let of_kind = found
            .value
            .reasons()
            .iter()
            .any(|one| matches!(one, Reason::KindNotEntered { .. }));
        (found.verdict, of_kind)
    };
    let each = [(Crest, "6.29"), (Mid, "5.32"), (Apex, "8.4")];
    assert_eq!(told("3.12", &each), (Verdict::Unknown, true));
    assert_eq!(told("1", &each), (Verdict::Clear, false));
    let [a, b, c] = each;
    assert_eq!(
        told("2.8", &[a, b, c, (Least, "5.1")]),
        (Verdict::Clear, false)
    );
}
