//! Keys as stored decisions write them.

use super::*;
use crate::case::ValidCase;
use crate::plan::work_out;
use crate::samples::{demo, demo_case};
use std::collections::BTreeSet;

/// Also of a case from which everything measured was taken, which shows other rules at other places.
#[test]
fn each_key_of_a_finding_is_read_back_as_its_rule_and_place() {
    let (mut rules, mut places) = (BTreeSet::new(), BTreeSet::new());
    for (name, file) in demo::CASES {
        let case = demo_case(file);
        let mut bare = case.clone().into_case();
        for site in &mut bare.sites {
            site.walls.clear();
            site.distances.clear();
            site.structures.clear();
            site.obstacles.clear();
        }
        bare.teeth.clear();
        bare.setup.tray = None;
        for case in [case, ValidCase::checked(&bare).unwrap()] {
            for finding in work_out(&case).findings {
                let key = FindingKey {
                    rule: finding.rule,
                    place: finding.place.clone(),
                };
                assert_eq!(key.to_string(), finding.key());
                assert_eq!(FindingKey::parse(&finding.key()), Some(key), "{name}");
                rules.insert(finding.rule);
                places.insert(finding.place);
            }
        }
    }
    assert!(rules.len() >= 15 && places.len() >= 50, "{rules:?}");
}

#[test]
#[expect(clippy::too_many_lines, reason = "one row for each kind of place")]
fn every_kind_of_place_that_a_finding_has_is_read_back() {
    let site = |place| Place::Site("a.1".into(), place);
    let tooth = "45".parse().unwrap();
    for (rule, place) in [
        (Rule::NoSites, Place::Sites),
        (Rule::RulesOlder, Place::Sites),
        (Rule::AcceptedOrderDoesNotFit, Place::AcceptedOrder),
        (Rule::NoTray, Place::Tray),
        (Rule::GuideNotHeld, Place::Pins),
        (Rule::PinDepthUnknown, Place::Pin(12)),
        (Rule::NoReceipt, Place::Receipt("45".into())),
        (
            Rule::Receipt,
            Place::ReceiptOf("45".into(), ReceiptOf::MasterSleeveBore),
        ),
        (Rule::KitIsInvented, Place::Kit),
        (
            Rule::StockShort,
            Place::KitEntry {
                list: "drills",
                entry: "d".to_owned(),
            },
        ),
        (
            Rule::NoSlot,
            Place::Loading {
                entry: "d".to_owned(),
                copy: 2,
            },
        ),
        (
            Rule::LookAlikesSideBySide,
            Place::SideBySide("A 1".into(), "A 2".into()),
        ),
        (Rule::TrayPlaceDoesNotFit, Place::TrayPlace("A 1".into())),
        (Rule::SiteAwayFromItsTooth, site(SitePlace::Placement)),
        (Rule::SocketNotEntered, site(SitePlace::Whole)),
        (Rule::SleeveFaceDoubtful, site(SitePlace::PlatformToSleeve)),
        (Rule::TissueRoom, site(SitePlace::Heights)),
        (
            Rule::PlatformAboveCrest,
            site(SitePlace::Height(SiteHeight::PlatformBelowCrest)),
        ),
        (
            Rule::NothingToPunch,
            site(SitePlace::Height(SiteHeight::TissueThickness)),
        ),
        (
            Rule::MeasuredTooNear,
            site(SitePlace::Height(SiteHeight::CrestBelowOcclusal)),
        ),
        (Rule::AxisTiltedFar, site(SitePlace::Placement)),
        (Rule::ConfirmedDisagree, site(SitePlace::SocketGap)),
        (Rule::PunchOnBone, Place::Pins),
        (
            Rule::RootDistancesDisagree,
            site(SitePlace::ToTooth(tooth, None)),
        ),
        (Rule::DrillSleeveRoom, site(SitePlace::Heights)),
        (Rule::CrownsBesideSeat, site(SitePlace::Obstacles)),
        (Rule::StopRoom, site(SitePlace::Obstacle(45))),
        (
            Rule::DepthOverMadeGuide,
            site(SitePlace::Height(SiteHeight::PlatformBelowCrest)),
        ),
        (Rule::CrownDoubtful, site(SitePlace::Obstacle(1))),
        (Rule::CrownNotMeasured, site(SitePlace::Crown(tooth))),
        (Rule::CrownOfNoTooth, site(SitePlace::Crown(tooth))),
        (Rule::NoSequence, site(SitePlace::Steps)),
        (Rule::EndsShort, site(SitePlace::Step("s.1".into()))),
        (Rule::CarrierDepth, site(SitePlace::Insertion)),
        (
            Rule::WallNotMeasured,
            site(SitePlace::WallSide(WallSide::Oral)),
        ),
        (
            Rule::Wall,
            site(SitePlace::Wall(WallSide::Buccal, Height::Least)),
        ),
        (
            Rule::DeepStructure,
            site(SitePlace::Structure(StructureKind::NasalFloor)),
        ),
        (Rule::NeighbourRoot, site(SitePlace::ToTooth(tooth, None))),
        (Rule::MeasuredTooFar, site(SitePlace::ToTooth(tooth, None))),
        (
            Rule::SitesMeasuredTooFar,
            site(SitePlace::ToSite("45".into(), None)),
        ),
        (
            Rule::NeighbourImplant,
            site(SitePlace::ToSite("45".into(), None)),
        ),
        (
            Rule::NeighbourImplantBody,
            site(SitePlace::ToSite("45".into(), None)),
        ),
        (
            Rule::DistancesDisagree,
            site(SitePlace::ToSite("45".into(), None)),
        ),
        (
            Rule::Convergence,
            site(SitePlace::ToSite("45".into(), None)),
        ),
    ] {
        let key = FindingKey { rule, place };
        assert_eq!(FindingKey::parse(&key.to_string()), Some(key));
    }
}

#[test]
fn what_no_finding_is_called_is_no_key() {
    for written in [
        "",
        "wall",
        "no-such-rule sites",
        "wall sites[a",
        "wall sites[a].walls[up]",
        "wall sites[a].walls[oral crest].x",
        "receipt guide.receipt[a colour]",
        "stock-short kit.nothing[a]",
        "pin-depth-unknown guide.pins[x]",
    ] {
        assert_eq!(FindingKey::parse(written), None, "{written}");
    }
}
