//! Properties of any input.

use super::texts::english;
use super::*;
use crate::document::parse::parse;
use crate::document::{Coverage, print};
use proptest::prelude::*;
use serde_json::{Value, json};

fn length(range: std::ops::Range<i64>) -> impl Strategy<Value = Length> {
    range.prop_map(Length::from_um)
}

fn density() -> impl Strategy<Value = Density> {
    prop_oneof![
        Just(Density::Unknown),
        Just(Density::Soft),
        Just(Density::Hard)
    ]
}

fn placement() -> impl Strategy<Value = Placement> {
    let any = || length(-2_000_000..2_000_001);
    prop_oneof![
        (any(), any()).prop_map(|(along_mm, buccal_mm)| Placement::OnArch {
            along_mm,
            buccal_mm
        }),
        ([any(), any(), any()], proptest::option::of(density()))
            .prop_map(|(point_mm, source)| Placement::Measured { point_mm, source }),
    ]
}

fn depth() -> impl Strategy<Value = DepthRule> {
    prop_oneof![
        Just(DepthRule::Full),
        length(-9_000..9_000).prop_map(DepthRule::Below),
        length(0..9_000).prop_map(|amount_mm| DepthRule::ShortBy { amount_mm }),
    ]
}

/// Any character that is seen.
macro_rules! seen {
    () => {
        r"[\u{200c}\u{200d}[^\p{Cc}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\p{Bidi_Control}]]"
    };
}

prop_compose! {
    fn site(n: usize)(
        length_mm in length(1..40_001),
        below_crest_mm in proptest::option::of(length(-5_000..5_001)),
        tilt in proptest::option::of(-60_000..60_001),
        rpm in proptest::option::of(1_u32..1_000_001),
        density in density(),
        flap: bool,
        placement in placement(),
        depth in depth(),
        neighbour in proptest::option::of((concat!(seen!(), "*"), density(), length(0..9_000))),
        after: bool,
        marks_mm in proptest::collection::vec(length(-2_000_000..2_000_001), 0..4),
        grafted: Option<bool>,
        uses: Option<u8>,
    ) -> Site {
        Site {
            id: format!("s-{n}"),
            length_mm,
            below_crest_mm,
            tilt_deg: tilt.map(Angle::from_millideg),
            most_rpm: rpm.map(Speed::from_rpm),
            density,
            access: if flap { Access::Flap } else { Access::TissuePunch },
            placement,
            depth,
            neighbour: neighbour.map(|(name, density, distance_mm)| Neighbour {
                name,
                density,
                distance_mm,
            }),
            after: after.then(|| "s-0".to_owned()),
            marks_mm,
            grafted,
            uses,
        }
    }
}

prop_compose! {
    fn sample()(
        reference in concat!(seen!(), "{1,20}"),
        sites in (1_usize..5).prop_flat_map(|n| (0..n).map(site).collect::<Vec<_>>()),
        limits_mm in proptest::collection::btree_map(concat!(seen!(), "*"), length(-2_000_000..2_000_001), 0..4),
    ) -> Sample {
        Sample { version: 3, reference, scanned: None, sites, limits_mm }
    }
}

/// Every place in a value.
fn places(value: &Value, here: &str, found: &mut Vec<String>) {
    found.push(here.to_owned());
    match value {
        Value::Array(items) => {
            for (n, item) in items.iter().enumerate() {
                places(item, &format!("{here}/{n}"), found);
            }
        }
        Value::Object(members) => {
            for (key, item) in members {
                places(item, &format!("{here}/{key}"), found);
            }
        }
        _ => {}
    }
}

#[test]
fn a_value_of_any_type_at_any_place_is_good_or_a_fault_at_that_place() {
    let good: Value = serde_json::from_str(GOOD).unwrap();
    let mut all = Vec::new();
    places(&good, "", &mut all);
    let values = [
        json!(null),
        json!(true),
        json!(-1),
        json!(1.5),
        json!(1.2345),
        json!(1e300),
        json!(""),
        json!("x"),
        json!([]),
        json!([[]]),
        json!({}),
        json!({"x": 1}),
    ];
    let mut refused = 0;
    for place in &all {
        for value in &values {
            let mut bad = good.clone();
            *bad.pointer_mut(place).unwrap() = value.clone();
            let Err(faults) = read_sample(bad.to_string()) else {
                continue;
            };
            refused += 1;
            for fault in &faults {
                let said = fault.sentence(english);
                assert!(fault.position.is_some(), "{said}");
                // Another id is also a fault of what names it.
                let first = all[0..].iter().find(|p| *p == place).unwrap();
                let keys = first.split('/').skip(1);
                let told = keys.clone().all(|key| fault.path.to_string().contains(key));
                assert!(told || first.ends_with("/id"), "{place} {value}: {said}");
            }
        }
    }
    assert!(refused > 500, "{refused} of {}", all.len() * values.len());
}

proptest! {
    #[test]
    fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let _ = read_sample(&bytes);
    }

    #[test]
    fn no_text_of_json_signs_makes_it_panic(text in r#"[\[\]{}:,"\\u0-9eE.+\-truefalsn /']{0,60}"#) {
        let _ = read_sample(text);
    }

    #[test]
    fn no_edit_of_a_good_document_makes_it_panic(
        edits in proptest::collection::vec((0_usize..1_400, any::<u8>(), 0_usize..4), 1..6),
    ) {
        let mut bytes = GOOD.as_bytes().to_vec();
        for (at, byte, gone) in edits {
            let at = at.min(bytes.len());
            let end = (at + gone).min(bytes.len());
            bytes.splice(at..end, [byte]);
        }
        if let Err(faults) = read_sample(&bytes) {
            for fault in &faults {
                prop_assert!(!fault.sentence(english).is_empty());
            }
            prop_assert!(faults.iter().is_sorted_by_key(|fault| fault.position));
        }
    }

    // serde_json is the outside check of the parser: both accept the same texts.
    #[test]
    fn the_parser_accepts_what_serde_json_accepts(
        text in r#"[\[{"]{0,3}[\[\]{}:,"\\ubn0-9eE.+\- \t\n]{0,12}[\]}"]{0,3}"#,
    ) {
        let same = |text: &str| match (parse(text), serde_json::from_str::<Value>(text)) {
            (Ok(_), Ok(_)) | (Err(_), Err(_)) => true,
            // What is beyond a double is a number all the same, and is named later.
            (Ok(_), Err(error)) => error.to_string().contains("number out of range"),
            (Err(_), Ok(_)) => false,
        };
        prop_assert!(same(&text), "{text:?}");
        prop_assert!(same(&format!("[{text}]")), "{text:?}");
        prop_assert!(same(&format!("{{\"a\":{text}}}")), "{text:?}");
    }

    #[test]
    fn the_parser_gives_the_values_that_serde_json_gives(sample in sample()) {
        let text = print(&sample).unwrap();
        let (root, duplicates) = parse(&text).unwrap();
        prop_assert!(duplicates.is_empty());
        prop_assert_eq!(root.to_value(), serde_json::from_str::<Value>(&text).unwrap());
    }

    #[test]
    fn a_number_is_read_as_serde_json_reads_it(n in -999_999_999_i64..1_000_000_000) {
        let text = Length::from_um(n).to_string();
        let (root, _) = parse(&text).unwrap();
        let value = root.to_value().as_f64();
        prop_assert_eq!(value, serde_json::from_str::<Value>(&text).unwrap().as_f64());
    }

    #[test]
    fn what_is_printed_reads_the_same_and_prints_the_same(sample in sample()) {
        let text = print(&sample).unwrap();
        match read_sample(&text) {
            Ok(again) => {
                prop_assert_eq!(&again, &sample);
                prop_assert_eq!(print(&again).unwrap(), text);
            }
            Err(faults) => prop_assert!(false, "{faults}"),
        }
    }

    #[test]
    fn a_misspelt_key_hides_no_other_fault(letter in 0_usize..8, to in "[a-z]") {
        let mut key: Vec<char> = "length_mm".chars().collect();
        key[letter] = to.chars().next().unwrap();
        let key: String = key.into_iter().collect();
        prop_assume!(key != "length_mm");
        let bad = GOOD.replacen("length_mm", &key, 1).replace("\"after\": \"36-a\"", "\"after\": \"x\"");
        let faults = read_sample(bad).unwrap_err();
        prop_assert_eq!(faults.coverage(), Coverage::Whole);
        let rules: Vec<Rule> = faults.iter().map(|fault| fault.rule).collect();
        prop_assert_eq!(rules, [Rule::MisspeltKey, Rule::DanglingReference]);
    }
}
