//! The support of the guide.

use super::kit::drill;
use super::sample::{all, mm, one, worked};
use traywright_core::case::{Case, CasePin, Support};
use traywright_core::kit::{DrillKind, Pin, PinSleeve};
use traywright_core::measure::Length;
use traywright_core::plan::Verdict;

fn pinned(case: &mut Case) {
    case.guide.pins = vec![CasePin {
        name: "P".into(),
        pin: "pin".into(),
        at: "43".parse().unwrap(),
        along_mm: Length::ZERO,
        buccal_mm: Length::ZERO,
    }];
    case.kit.drills.push(drill("pd", DrillKind::Pin, "1.3"));
    case.kit.pins = vec![Pin {
        id: "pin".into(),
        name: "Pin".into(),
        diameter_mm: mm("1.4"),
        length_mm: mm("17"),
        drill: "pd".into(),
        stop: None,
        sleeve: PinSleeve {
            bore_mm: mm("1.5"),
            height_mm: mm("5"),
        },
        quantity: 3,
    }];
}

/// On mucosa a guide that no pin holds is short, on bone nobody said what holds it (pins for either:
/// common practice, from memory); teeth hold it.
#[test]
fn a_guide_on_mucosa_or_bone_needs_pins() {
    for (support, verdict) in [
        (Support::Mucosa, Some(Verdict::Short)),
        (Support::Bone, Some(Verdict::Unknown)),
        (Support::TeethAndMucosa, None),
        (Support::Teeth, None),
    ] {
        let sheet = worked(|case| case.guide.support = support);
        let found = all(&sheet, "guide-not-held");
        assert_eq!(found.first().map(|f| f.verdict), verdict, "{support:?}");
        let held = worked(|case| {
            case.guide.support = support;
            pinned(case);
        });
        assert!(all(&held, "guide-not-held").is_empty(), "{support:?}");
    }
    let bare = worked(|case| case.guide.support = Support::Mucosa);
    assert!(one(&bare, "guide-not-held").severity().is_open());
}
