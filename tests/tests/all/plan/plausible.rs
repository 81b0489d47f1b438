//! A slip of a decimal in a distance is asked about, and never just clear.

use super::generated_site::sites_of;
use super::sample::{all, case, mm, present, site, tooth, work, worked};
use traywright_core::case::{
    Case, Distance, DistanceTo, Height, NeighbourKind, Obstacle, StructureExtent, Tooth, ToothState,
};
use traywright_core::plan::{Verdict, may_be_accepted};

fn asked(change: impl FnOnce(&mut Case)) -> Vec<String> {
    let sheet = worked(change);
    let found = all(&sheet, "measured-too-far");
    let told = found.iter().map(|finding| {
        assert_eq!(finding.verdict, Verdict::Unknown);
        assert!(may_be_accepted(finding));
        format!("{} {}", finding.place.key(), finding.args["by"])
    });
    told.collect()
}

/// Bounds of plausibility: common practice, no source.
#[test]
fn a_distance_farther_than_any_is_asked_about() {
    assert!(asked(|_| {}).is_empty());
    let wall = |to: &'static str| asked(move |case| case.sites[0].walls[0].from_axis_mm = mm(to));
    assert!(wall("15").is_empty());
    assert_eq!(wall("15.001"), ["sites[one].walls[buccal least] usual"]);
    // From buccal to oral: 15 at the crest, 20 elsewhere, as 11 entered for 4 would make it.
    let across = |at, buccal: &'static str, oral: &'static str| {
        asked(move |case| {
            let walls = &mut case.sites[0].walls;
            for wall in walls.iter_mut() {
                wall.at = at;
            }
            (walls[0].from_axis_mm, walls[1].from_axis_mm) = (mm(buccal), mm(oral));
        })
    };
    assert!(across(Height::Crest, "6", "4").is_empty());
    assert_eq!(
        across(Height::Crest, "11", "4.001"),
        ["sites[one].walls[buccal crest] usual"]
    );
    assert!(across(Height::Apex, "11", "9").is_empty());
    assert_eq!(
        across(Height::Apex, "9", "11.001"),
        ["sites[one].walls[buccal apex] usual"]
    );
    // What is beyond by itself is told by itself.
    assert_eq!(
        across(Height::Apex, "9", "16"),
        ["sites[one].walls[oral apex] usual"]
    );
    let crown = |to: &'static str| {
        asked(move |case| {
            case.sites[0].obstacles = vec![Obstacle {
                name: "crown of 37".into(),
                tooth: None,
                above_rim_mm: mm("2"),
                rim_above_platform_mm: None,
                from_axis_mm: mm(to),
                measured_at: case.sites[0].measured_now(mm("10")),
            }];
        })
    };
    assert!(crown("30").is_empty());
    assert_eq!(crown("50"), ["sites[one].obstacles[0] usual"]);
    let below = |to: &'static str| {
        asked(move |case| {
            let StructureExtent::Below { height_mm, .. } = &mut case.sites[0].structures[0].extent
            else {
                panic!()
            };
            *height_mm = mm(to);
        })
    };
    assert!(below("30").is_empty());
    assert_eq!(
        below("60"),
        ["sites[one].structures[mandibular_canal] usual"]
    );
    let root =
        |to: &'static str| asked(move |case| case.sites[0].distances[0].from_axis_mm = mm(to));
    assert_eq!(root("60"), ["sites[one].distances[35] usual"]);
}

/// Two sites at neighbouring teeth, some 10 mm apart by mean crowns: 99 mm and 20 mm are asked about, 11 mm is not.
#[test]
fn a_distance_far_beyond_the_arch_model_is_asked_about() {
    for (entered, by) in [("99", Some("usual")), ("20", Some("model")), ("11", None)] {
        let mut case = case();
        let first = case.sites[0].clone();
        let mut second = site("two", "37", &["35"]);
        second.distances = vec![Distance {
            to: DistanceTo::Site {
                site: first.id.clone(),
            },
            at: Height::Crest,
            from_axis_mm: mm(entered),
            measured_at: second.measured_now(mm("10")),
            other_measured_at: Some(first.measured_now(mm("10"))),
        }];
        sites_of(&mut case, vec![first, second]);
        let sheet = work(case);
        let found = all(&sheet, "sites-measured-too-far");
        let told = found.iter().map(|finding| finding.args["by"].to_string());
        assert_eq!(
            told.collect::<Vec<_>>(),
            Vec::from_iter(by.map(str::to_owned)),
            "{entered}"
        );
    }
}

/// What lies buried where the next implant is planned lies beside this one too.
#[test]
fn a_remnant_at_another_site_is_held_against_both() {
    let mut case = case();
    let first = case.sites[0].clone();
    let second = site("two", "37", &["35"]);
    let position = tooth("37");
    sites_of(&mut case, vec![first, second]);
    case.teeth.retain(|tooth| tooth.position != position);
    case.teeth.push(Tooth {
        position,
        state: ToothState::Missing,
        kind: Some(NeighbourKind::Remnant),
    });
    case.teeth.push(present("38"));
    case.sites
        .iter_mut()
        .for_each(|site| site.distances.clear());
    let sheet = work(case);
    let found = all(&sheet, "neighbour-root");
    let at: Vec<String> = found.iter().map(|finding| finding.place.key()).collect();
    for site in ["one", "two"] {
        assert!(
            at.contains(&format!("sites[{site}].distances[37]")),
            "{at:?}"
        );
    }
}

/// A gap behind which the next tooth is far away by the arch model too is as far as it is.
#[test]
fn a_tooth_as_far_as_the_arch_model_says_is_not_asked_about() {
    let far = |entered: &str| {
        let mut case = case();
        case.teeth.push(present("41"));
        let mut first = site("one", "37", &["41"]);
        first.distances[0].from_axis_mm = mm(entered);
        sites_of(&mut case, vec![first]);
        let sheet = work(case);
        let found = all(&sheet, "measured-too-far");
        found
            .iter()
            .map(|f| f.args["by"].to_string())
            .collect::<Vec<_>>()
    };
    // The second molar's middle is some 50 mm from the central incisor of the other side.
    assert_eq!(far("33"), Vec::<String>::new());
    assert_eq!(far("43"), Vec::<String>::new());
    assert_eq!(far("70"), ["usual"]);
}
