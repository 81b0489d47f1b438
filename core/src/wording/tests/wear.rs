//! The wear of drills as it is told: why a count is not known.

use crate::kit::Kit;
use crate::samples::demo_kit;
use crate::sign::CaseJaw;
use crate::text::Texts;
use crate::wear::{Counted, WornPiece, piece_wear};
use crate::wording::{KitFormatter, WearSource};
use serde_json::json;

fn kit() -> Kit {
    let mut kit = demo_kit();
    let wear = json!({ "drills": [{
        "drill": kit.drills[1].id,
        "limit": { "uses": 9, "given_by": "user", "source": "own" },
        "pieces": [
            { "mark": "A3", "before": { "uses": 2, "sterilisations": 1 } },
            { "mark": "A4" },
        ],
    }]});
    kit.wear = serde_json::from_value(wear).unwrap();
    kit
}

fn lines(kit: &Kit, counted: Option<&Counted>) -> Vec<String> {
    let say = KitFormatter {
        texts: Texts::english(),
        kit,
    };
    let told = say.wear(counted);
    assert!(told.is_open);
    let pieces = told.drills.iter().flat_map(|drill| &drill.pieces);
    pieces.map(|(line, _)| line.clone()).collect()
}

#[test]
fn a_count_that_is_not_known_says_why() {
    let kit = kit();
    let mut counted = Counted::default();
    let before = "nobody said what it was used for before it was counted)";
    let told = lines(&kit, Some(&counted));
    assert_eq!(told[0], "A3: 2 uses, 1 sterilisation; within its limit");
    assert!(told[1].ends_with(before), "{told:?}");
    let told = lines(&kit, None);
    assert!(told[0].starts_with("A3: at least 2 uses"), "{told:?}");
    assert!(told[0].ends_with("(no count was read)"), "{told:?}");
    assert!(told[1].ends_with(before), "{told:?}");
    counted.partial.push(CaseJaw {
        case: "T-1".to_owned(),
        jaw: crate::dentition::Jaw::Lower,
    });
    let told = lines(&kit, Some(&counted));
    assert!(
        told[0].ends_with("(a part of a record is damaged or put aside, and with it perhaps uses)"),
        "{told:?}"
    );
    counted.partial.clear();
    let any = WornPiece {
        drill: kit.drills[1].id.to_string(),
        mark: None,
    };
    counted.worn.entry(any).or_default().uses = 1;
    let told = lines(&kit, Some(&counted));
    assert!(told[0].starts_with("A3: 2 to 3 uses"), "{told:?}");
}

#[test]
fn at_the_tray_a_count_that_nobody_read_is_never_one_of_none() {
    let kit = kit();
    let say = KitFormatter {
        texts: Texts::english(),
        kit: &kit,
    };
    let told = |mark, counted, source| {
        let piece = piece_wear(&kit, counted, (&kit.drills[1].id, mark));
        say.wear_warning(&piece, 1, source)
    };
    let none = Counted::default();
    assert_eq!(told(Some("A3"), Some(&none), WearSource::Counted), None);
    for (source, words) in [
        (WearSource::BeingRead, "its count is being read"),
        (WearSource::NotThere, "no count beside the kit"),
        (
            WearSource::Unread,
            "the count beside the kit cannot be read",
        ),
    ] {
        let said = told(Some("A3"), None, source).unwrap();
        assert!(
            said.starts_with("piece A3: ") && said.ends_with(words),
            "{said}"
        );
        let said = told(None, None, source).unwrap();
        assert_eq!(
            said,
            "which piece it is nobody said: its uses are not known"
        );
    }
}

#[test]
fn a_limit_of_sterilisations_is_told_with_their_number() {
    let mut kit = kit();
    let limit = kit.wear.drills[0].limit.as_mut().unwrap();
    (limit.uses, limit.sterilisations) = (30, Some(1));
    let say = KitFormatter {
        texts: Texts::english(),
        kit: &kit,
    };
    let none = Counted::default();
    let piece = piece_wear(&kit, Some(&none), (&kit.drills[1].id, Some("A3")));
    assert_eq!(
        say.wear_warning(&piece, 1, WearSource::Counted).unwrap(),
        "piece A3: 2 uses and 1 sterilisation, limit 30 uses and 1 sterilisation; LIMIT REACHED: not to be used again"
    );
}
