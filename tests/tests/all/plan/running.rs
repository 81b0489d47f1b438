//! What the kit says of running a drill.

use super::sample::{all, one, worked};
use traywright_core::case::Case;
use traywright_core::kit::DrillKind;
use traywright_core::plan::Verdict;

/// Each of the three steps has a drill of its own. However many lack however much, it is told once;
/// a torque limit is asked of taps only.
#[test]
fn drilling_data_that_the_kit_lacks_are_told_once() {
    let told = |change: fn(&mut Case)| {
        let sheet = worked(change);
        let found = all(&sheet, "drilling-data-missing");
        assert!(found.len() <= 1);
        found.first().map(|f| {
            assert_eq!((f.verdict, f.place.key()), (Verdict::Unknown, "kit".into()));
            ["steps", "speed", "irrigation", "torque"].map(|name| f.args[name].to_string())
        })
    };
    let counts = |of: [&str; 4]| Some(of.map(str::to_owned));
    assert_eq!(told(|_| {}), None);
    assert_eq!(
        told(|case| case.kit.drills[1].irrigation = None),
        counts(["1", "0", "1", "0"])
    );
    assert_eq!(
        told(|case| {
            for drill in &mut case.kit.drills {
                drill.greatest_speed_rpm = None;
            }
            case.kit.drills[2].irrigation = None;
        }),
        counts(["3", "3", "1", "0"])
    );
    assert_eq!(
        told(|case| case.kit.drills[2].kind = DrillKind::Tap),
        counts(["1", "0", "0", "1"])
    );
}

/// Where a step has no setting, that is what is open.
#[test]
fn drilling_data_are_asked_for_last() {
    let sheet = worked(|case| {
        case.kit.drills[1].irrigation = None;
        case.sites[0].platform_to_sleeve = None;
    });
    assert!(all(&sheet, "drilling-data-missing").is_empty());
    assert_eq!(one(&sheet, "tissue-room").verdict, Verdict::Unknown);
}
