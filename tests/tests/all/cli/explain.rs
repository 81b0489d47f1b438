//! `figures --explain`: terms that add up. The adding is done here anew, from the printed digits.

use super::figures::printed;
use crate::demo;
use serde_json::Value;
use std::collections::BTreeMap;

/// Thousandths of a printed decimal.
fn thousandths(number: &Value) -> Option<i64> {
    let text = number.as_number()?.to_string();
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.as_str()),
    };
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    let fraction = format!("{fraction:0<3}");
    assert_eq!(fraction.len(), 3, "{text} has more than three decimals");
    let value: i64 = format!("{whole}{fraction}").parse().unwrap();
    Some(if negative { -value } else { value })
}

/// Sum of the terms of an explanation; nothing where one of them is used otherwise than by adding
/// or taking away, or is not known.
fn added(explained: &Value) -> Option<i64> {
    let mut sum = 0;
    let terms = explained["terms"].as_array().unwrap();
    for term in terms {
        let value = thousandths(&term["value"])?;
        match term["sign"].as_str().unwrap() {
            "plus" => sum += value,
            "minus" => sum -= value,
            _ => return None,
        }
    }
    (!terms.is_empty()).then_some(sum)
}

/// Checks one site or step of the output; counts the sums by key.
fn check(name: &str, of: &Value, counts: &mut BTreeMap<String, usize>) {
    let Some(explain) = of.get("explain").and_then(Value::as_object) else {
        return;
    };
    for (key, explained) in explain {
        assert!(explained["rule"].is_string() && explained["basis"].is_string());
        if let (Some(sum), Some(value)) = (added(explained), thousandths(&of[key.as_str()])) {
            assert_eq!(sum, value, "{name} {key}: {explained}");
            *counts.entry(key.clone()).or_default() += 1;
        }
    }
}

#[test]
fn explained_terms_add_up_to_their_figure() {
    let mut counts = BTreeMap::new();
    let mut steps = 0;
    for name in demo::CASES {
        let figures = printed(name, &["--explain"]);
        for site in figures["sites"].as_array().unwrap() {
            check(name, site, &mut counts);
            for step in site["steps"].as_array().unwrap() {
                steps += 1;
                check(name, step, &mut counts);
            }
        }
    }
    let of = |key: &str| counts.get(key).copied().unwrap_or(0);
    assert_eq!(of("seat_mm"), steps, "{counts:?}");
    assert_eq!(of("exact_mm"), steps, "{counts:?}");
    assert_eq!(of("cut_mm"), steps, "{counts:?}");
    for key in [
        "prep_mm",
        "bench_mm",
        "sounding_mm",
        "final_below_coronal_mm",
        "final_below_apical_mm",
        "distance_mm",
        "gauge_mm",
    ] {
        assert!(of(key) > 0, "no {key} was added up: {counts:?}");
    }
}

/// A term that is itself a figure of the same step bears the value that the step prints for it.
#[test]
fn a_term_that_is_another_figure_has_that_figures_value() {
    let mut seen = 0;
    for name in demo::CASES {
        let figures = printed(name, &["--explain"]);
        for site in figures["sites"].as_array().unwrap() {
            for step in site["steps"].as_array().unwrap() {
                for term in step["explain"]["exact_mm"]["terms"].as_array().unwrap() {
                    let key = match term["name"].as_str().unwrap() {
                        "term-seat" => "seat_mm",
                        "term-prep" => "prep_mm",
                        _ => continue,
                    };
                    assert_eq!(term["value"], step[key], "{name}");
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 0);
}

/// Every finding with a value that was worked out can say from what.
#[test]
fn without_the_flag_nothing_is_explained() {
    let text = printed("two-molars", &[]).to_string();
    assert!(!text.contains("\"terms\""));
    assert!(
        printed("two-molars", &["--explain"])
            .to_string()
            .contains("\"terms\"")
    );
}
