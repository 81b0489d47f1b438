//! Codes of things, for a scanner.

use traywright_core::case::read_kit;
use traywright_core::document::print;
use traywright_core::kit::{Kit, ScanCode, SlotKind};

fn demo_kit() -> Kit {
    read_kit(include_bytes!("../../../demo/kit.json")).expect("the invented kit")
}

fn faults(kit: &Kit) -> Vec<String> {
    let text = print(kit).unwrap();
    let faults = read_kit(text.as_bytes()).err();
    let faults = faults.iter().flat_map(|faults| faults.iter());
    faults.map(|fault| format!("{fault:?}")).collect()
}

#[test]
fn a_code_names_one_thing_however_its_letters_are_typed() {
    let mut kit = demo_kit();
    for one in &mut kit.drills {
        one.code = None;
    }
    kit.drills[0].code = Some(ScanCode::from("HD-21300"));
    kit.accessories[0].code = Some(ScanCode::from("HA-00001"));
    assert_eq!(faults(&kit), Vec::<String>::new());
    let coded = kit.coded();
    let of = |code: &str| coded.iter().find(|one| one.code.is_typed_as(code)).unwrap();
    assert_eq!(of("hd-21300").kind, SlotKind::Drill);
    assert_eq!(of("hd-21300").entry, kit.drills[0].id.as_str());
    assert_eq!(of("HA-00001").kind, SlotKind::Accessory);
    kit.accessories[0].code = Some(ScanCode::from("hd-21300"));
    let told = faults(&kit);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].contains("DuplicateId"), "{told:?}");
}

/// What could be typed as a reading is no code.
#[test]
fn a_code_is_no_reading() {
    let mut kit = demo_kit();
    for code in [
        "191",
        "1911",
        "19.11",
        "HD 21300",
        "A",
        "4012,3",
        "\u{e4}bcdef",
    ] {
        kit.drills[0].code = Some(ScanCode::from(code));
        assert_eq!(faults(&kit).len(), 1, "{code}: {:?}", faults(&kit));
    }
    for code in ["19123", "4012345678901", "HD-213/b", "+$!#ab"] {
        kit.drills[0].code = Some(ScanCode::from(code));
        assert_eq!(faults(&kit), Vec::<String>::new(), "{code}");
    }
}
