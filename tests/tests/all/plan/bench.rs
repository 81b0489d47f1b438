//! The two checks that need no patient and no program: the bench and the probe.

use super::sample::{received, shown, step_of, worked};
use traywright_core::case::{GuidedExtent, ReceiptOf, SiteState};

/// In its sleeve in the guide, stop landed, the tip is set − master sleeve − seat above rim below
/// the master sleeve's lower face: 20.7 − 4.0 − 0.7 = 16.0, which is distance + cut, 6.0 + 10.0.
/// Without a drill sleeve 20.0 − 4.0 = 16.0.
#[test]
fn the_tip_below_the_sleeve_on_the_bench() {
    let sheet = worked(|case| case.sites[0].steps[1].sleeve = None);
    for n in [0, 1] {
        assert_eq!(shown(step_of(&sheet, n).bench.as_ref().unwrap()), "16");
    }
    let item = sheet.loading.iter().find(|item| item.entry == "a").unwrap();
    let bench: Vec<_> = item.set.as_ref().unwrap().bench.iter().collect();
    assert_eq!(bench.len(), 1);
    assert_eq!(bench[0].get(), Some(super::sample::mm("16")));
}

/// From the first guided step's seat down to the crest: 10.7 − 1.0 = 9.7.
#[test]
fn sounding_from_the_seat_to_the_crest() {
    let sounding =
        |sheet: &traywright_core::plan::Worksheet| sheet.sites[0].sounding.as_ref().map(shown);
    assert_eq!(sounding(&worked(|_| {})).as_deref(), Some("9.7"));
    // The first step goes straight through the master sleeve: 10.0 − 1.0.
    let straight = worked(|case| case.sites[0].steps[0].sleeve = None);
    assert_eq!(sounding(&straight).as_deref(), Some("9"));
    let unknown = worked(|case| case.sites[0].heights.platform_below_crest = None);
    assert_eq!(sounding(&unknown).as_deref(), Some("unknown"));
    // In a fresh socket there is no crest to sound against.
    for bone in [SiteState::FRESH_SOCKET, SiteState::IMPLANT_TO_REMOVE] {
        let socket = worked(|case| case.sites[0].state = bone);
        assert_eq!(sounding(&socket), None);
    }
    // Freehand throughout: the first drill is no pilot.
    let freehand = worked(|case| {
        case.sites[0].guided_extent = GuidedExtent::PilotOnly;
        case.sites[0].steps.remove(0);
    });
    assert_eq!(sounding(&freehand), None);
}

/// With the master sleeve measured 0.2 higher than the 4.0 planned and 0.3 nearer the bone: the tip
/// 20.7 − 4.2 − 0.7 = 15.8 below the face that is there, the seat 10.7 − 0.1, the probe 10.6 − 1.0.
#[test]
fn both_checks_are_of_the_guide_at_hand() {
    let of = |measured: &[(ReceiptOf, &str)]| {
        let sheet = worked(|case| {
            let taken = measured.iter().map(|(of, mm)| received(case, *of, mm));
            case.guide.receipt = taken.collect();
        });
        let bench = shown(step_of(&sheet, 0).bench.as_ref().unwrap());
        (bench, shown(sheet.sites[0].sounding.as_ref().unwrap()))
    };
    let figures = |bench: &str, sounding: &str| (bench.to_owned(), sounding.to_owned());
    let (height, distance) = (ReceiptOf::MasterSleeveHeight, ReceiptOf::PlatformToSleeve);
    assert_eq!(of(&[]), figures("16", "9.7"));
    assert_eq!(of(&[(height, "4.2")]), figures("15.8", "9.9"));
    assert_eq!(of(&[(distance, "5.7")]), figures("16", "9.4"));
    let both = [(height, "4.2"), (distance, "5.7")];
    assert_eq!(of(&both), figures("15.8", "9.6"));
}
