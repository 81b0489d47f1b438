//! Things that share a place on the tray, and things that never do.

use super::sample::{all, worked};
use traywright_core::kit::SlotKind;
use traywright_core::plan::{Verdict, Worksheet};

/// The settings of drill `a` on the tray, and the steps that each serves.
fn pieces(sheet: &Worksheet) -> Vec<(Option<String>, usize)> {
    let drills = sheet
        .loading
        .iter()
        .filter(|item| item.kind == SlotKind::Drill);
    drills
        .filter(|item| item.entry == "a")
        .map(|item| {
            let set = item.set.as_ref().unwrap().set.get();
            (set.map(|set| set.to_string()), item.serves.len())
        })
        .collect()
}

/// Two steps with one drill at 20.7 share a piece. Without a distance nobody knows either setting,
/// and two that nobody knows are not the same.
#[test]
fn two_unknown_settings_are_never_the_same() {
    let twice = |known: bool| {
        worked(|case| {
            let mut again = super::sample::step("a");
            again.id = "again".into();
            case.sites[0].steps.insert(1, again);
            if !known {
                case.sites[0].platform_to_sleeve = None;
            }
        })
    };
    assert_eq!(pieces(&twice(true)), [(Some("20.7".into()), 2)]);
    assert_eq!(pieces(&twice(false)), [(None, 1), (None, 1)]);
}

/// A kit that was invented for practice is nothing to work a patient's case out with.
#[test]
fn an_invented_kit_is_told_in_a_case_that_is_not() {
    for (invented, demonstration, told) in [
        (true, false, true),
        (true, true, false),
        (false, false, false),
        (false, true, false),
    ] {
        let sheet = worked(|case| {
            case.kit.demonstration = invented;
            case.demonstration = demonstration;
        });
        let found = all(&sheet, "kit-is-invented");
        assert_eq!(!found.is_empty(), told, "{invented} {demonstration}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
    }
}
