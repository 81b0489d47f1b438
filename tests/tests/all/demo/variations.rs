//! The effect of a small change of a demo case on its findings.

use super::{changed, finding, mm, sheet, site_mut};
use traywright_core::case::{Case, GuidedExtent, NeighbourKind, Placement, Tooth, ToothState};
use traywright_core::plan::{Finding, Mistake, Verdict, Worksheet};

fn rules_at(sheet: &Worksheet, path: &str) -> Vec<(&'static str, Verdict)> {
    let here = sheet.findings.iter().filter(|f| f.place.key() == path);
    here.map(|f| (f.rule.key(), f.verdict)).collect()
}

fn tooth_mut<'a>(case: &'a mut Case, iso: &str) -> &'a mut Tooth {
    let at = iso.parse().unwrap();
    let found = case.teeth.iter_mut().find(|tooth| tooth.position == at);
    found.unwrap_or_else(|| panic!("no tooth {iso}"))
}

/// By the arch model every platform is at one height; that another site's platform was measured at
/// some height must not move the two apart.
#[test]
fn a_measured_height_does_not_count_against_the_arch_model() {
    let margin = |raised: &str| {
        let sheet = changed("full-arch-upper", |case| {
            let site = site_mut(case, "u23");
            if let Placement::Measured { platform, .. } = &mut site.placement {
                platform.z_mm += mm(raised);
            }
        });
        let key = "neighbour-implant-body sites[u23].distances[u25]";
        finding(&sheet, key).and_then(Finding::judged_length)
    };
    let as_it_is = margin("0");
    assert!(as_it_is.is_some());
    assert_eq!(margin("4.7"), as_it_is);
}

/// Between 34 and 36 is 35: each site is held against it, and not against the other site. Without
/// it, or where it is impacted, they are neighbours, and nobody has measured between them.
#[test]
fn sites_with_a_tooth_between_them_are_no_neighbours() {
    let path = "sites[k34].distances[g36]";
    assert_eq!(rules_at(&sheet("fixed-stops"), path), []);
    let without = |kind| {
        changed("fixed-stops", |case| {
            for site in &mut case.sites {
                site.distances.clear();
            }
            let tooth = tooth_mut(case, "35");
            tooth.state = ToothState::Missing;
            tooth.kind = kind;
        })
    };
    for kind in [None, Some(NeighbourKind::Impacted)] {
        assert_eq!(
            rules_at(&without(kind), path),
            [
                ("neighbour-implant", Verdict::Unknown),
                ("neighbour-implant-body", Verdict::Unknown),
                ("convergence", Verdict::Clear)
            ]
        );
    }
}

/// A limit broken by the arch model is reported past a tooth too.
#[test]
fn sites_that_touch_past_a_tooth_are_told() {
    let sheet = changed("fixed-stops", |case| {
        let Placement::OnArch { along_mm, .. } = &mut site_mut(case, "g36").placement else {
            panic!()
        };
        *along_mm = mm("-12.5");
    });
    let rules = rules_at(&sheet, "sites[k34].distances[g36]");
    assert!(
        rules.contains(&("neighbour-implant", Verdict::Short)),
        "{rules:?}"
    );
}

/// After the pilot the guide is off and no sleeve is used: the sequence is the protocol's still.
/// Another drill departs from it.
#[test]
fn a_freehand_step_without_its_sleeve_follows_the_protocol() {
    let key = "differs-from-protocol sites[s21].steps";
    assert!(finding(&sheet("fresh-socket"), key).is_none());
    let guided = changed("fresh-socket", |case| {
        case.sites[0].guided_extent = GuidedExtent::AllDrilling;
    });
    assert!(finding(&guided, key).is_some());
    let other = changed("fresh-socket", |case| {
        case.sites[0].steps[2].drill = "full-274".into();
    });
    assert!(finding(&other, key).is_some());
}

/// In a jaw without teeth no crown is beside the seat, however the implants lean. One pontic, one
/// tooth to be taken out or one position of which nothing is known, and it has to be looked at.
#[test]
fn a_jaw_without_crowns_needs_no_look_at_them() {
    type Change = fn(&mut Case);
    let key = "crowns-beside-seat sites[u15].obstacles";
    assert!(finding(&sheet("full-arch-upper"), key).is_none());
    let changes: [Change; 3] = [
        |case| tooth_mut(case, "17").kind = Some(NeighbourKind::Pontic),
        |case| tooth_mut(case, "17").state = ToothState::ToExtract,
        |case| case.teeth.retain(|tooth| tooth.position.number() != 7),
    ];
    for change in changes {
        let sheet = changed("full-arch-upper", change);
        let verdict = finding(&sheet, key).map(|f| f.verdict);
        assert_eq!(verdict, Some(Verdict::Unknown));
    }
}

/// Guided by 3.16 in a bore of 3.22; a cutting part of 3.22 passes it, one of 3.27 does not.
#[test]
fn a_cutting_part_wider_than_its_bore_does_not_pass() {
    let key = "guided-clearance sites[p35].steps[s3]";
    for (cutting, wanted) in [("3.22", None), ("3.27", Some("-0.05"))] {
        let sheet = changed("one-premolar", |case| {
            let drills = case.kit.drills.iter_mut();
            for drill in drills.filter(|drill| drill.id.as_str() == "tip-316") {
                drill.cutting_diameter_mm = mm(cutting);
            }
        });
        let found = finding(&sheet, key);
        assert_eq!(found.and_then(Finding::length_value), wanted.map(mm));
        assert!(found.is_none_or(|f| f.verdict == Verdict::Short));
    }
}

/// A drill sleeve that the case's copy of the kit holds is taken by mistake only where it is on the
/// tray.
#[test]
fn a_sleeve_that_is_not_on_the_tray_is_not_taken_by_mistake() {
    let taken = |used: bool| {
        let sheet = changed("upper-face-gauge", |case| {
            let sleeves = case.kit.drill_sleeves.iter_mut();
            for sleeve in sleeves.filter(|sleeve| sleeve.id.as_str() == "wide-407") {
                sleeve.seat_above_rim_mm = mm("-0.4");
            }
            if used {
                case.sites[0].steps[3].sleeve = Some("wide-407".into());
            }
        });
        sheet.mix_ups.iter().any(|one| {
            matches!(&one.mistake, Mistake::OtherSleeve { sleeve, .. } if sleeve.as_str() == "wide-407")
        })
    };
    assert!(!taken(false));
    assert!(taken(true));
}
