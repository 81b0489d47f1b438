//! Kit and case as text: what was printed reads back as the same.

use super::generated::{any_case, any_kit};
use super::sample::{valid, work};
use proptest::prelude::*;
use traywright_core::case::{read_case, read_kit};
use traywright_core::document::print;
use traywright_core::plan::work_out;

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_case_reads_back_as_it_was_printed(case in any_case()) {
        let text = print(&case).unwrap();
        let read = read_case(text.as_bytes());
        let read = read.map_err(|faults| TestCaseError::fail(faults.to_string()))?;
        prop_assert_eq!(&*read, &case);
        prop_assert_eq!(print(&*read).unwrap(), text);
        prop_assert_eq!(work_out(&read), work(case));
    }

    #[test]
    fn a_kit_reads_back_as_it_was_printed(kit in any_kit()) {
        let text = print(&kit).unwrap();
        let read = read_kit(text.as_bytes());
        let read = read.map_err(|faults| TestCaseError::fail(faults.to_string()))?;
        prop_assert_eq!(print(&read).unwrap(), text);
        prop_assert_eq!(read, kit);
    }

    /// Neither the order of keys nor blanks make another case.
    #[test]
    fn the_fingerprint_does_not_see_the_order_of_keys(case in any_case()) {
        let value = serde_json::to_value(&case).unwrap();
        let shuffled = turned_about(&value);
        let read = read_case(shuffled.as_bytes());
        let read = read.map_err(|faults| TestCaseError::fail(faults.to_string()))?;
        prop_assert_eq!(read.fingerprint(), valid(case).fingerprint());
    }
}

/// The value as JSON with the keys of every object backwards and blanks between all.
fn turned_about(value: &serde_json::Value) -> String {
    match value {
        serde_json::Value::Object(map) => {
            let keys = map.iter().rev();
            let members: Vec<_> = keys
                .map(|(key, value)| format!("{key:?} :  {}", turned_about(value)))
                .collect();
            format!("{{\n{} }}", members.join(" ,\t"))
        }
        serde_json::Value::Array(list) => {
            let items: Vec<_> = list.iter().map(turned_about).collect();
            format!("[ {} ]", items.join(" , "))
        }
        other => other.to_string(),
    }
}
