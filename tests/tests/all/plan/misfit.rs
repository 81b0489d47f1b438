//! A drill that does not fit in one step is set in none: no figure of its setting stands anywhere, nor one from which it follows.

use crate::demo::valid;
use serde_json::{Value, json};
use traywright_core::case::{Case, ValidCase};
use traywright_core::dentition::Notation;
use traywright_core::figures::{Detail, figures};
use traywright_core::measure::Length;
use traywright_core::plan::{Fits, Mistake, StepSheet, Worksheet, work_out};
use traywright_core::wording::Formatter;

/// Two molars of which no stop fits any drill; whatever else lies on the tray is tried at each step.
fn misfit() -> (ValidCase, Worksheet) {
    let mut case: Case = valid("two-molars").into_case();
    for stop in &mut case.kit.stops {
        stop.bore_mm = Length::from_mm(1);
    }
    let case = ValidCase::try_from(case).unwrap();
    let sheet = work_out(&case);
    (case, sheet)
}

fn refused(sheet: &Worksheet) -> Vec<&StepSheet> {
    let steps = sheet.sites.iter().flat_map(|site| &site.steps);
    let refused: Vec<_> = steps.filter(|step| step.fits == Fits::No).collect();
    assert!(!refused.is_empty());
    refused
}

#[test]
fn the_figures_of_a_misfit_hold_no_setting() {
    let (case, sheet) = misfit();
    let say = Formatter::english(&case, Notation::Iso);
    let given = serde_json::to_value(figures(&say, &sheet, Detail::Explained)).unwrap();
    let steps = given["sites"].as_array().unwrap().iter();
    let steps: Vec<&Value> = steps
        .flat_map(|site| site["steps"].as_array().unwrap())
        .collect();
    let loading = given["loading"].as_array().unwrap();
    let marked: Vec<&Value> = steps
        .into_iter()
        .chain(loading)
        .filter(|one| one["does_not_fit"] == json!(true))
        .collect();
    assert!(marked.len() > refused(&sheet).len());
    for one in marked {
        for key in ["exact_mm", "set_mm", "gauge_mm", "mark", "shortfall_mm"] {
            assert!(one[key].is_null(), "{key}: {one}");
            assert!(one["explain"][key].is_null(), "{key}: {one}");
        }
        for key in ["cut_mm", "bench_mm"] {
            assert!(one["explain"][key].is_null(), "{key}: {one}");
        }
        let bench = &one["bench_mm"];
        let none = bench
            .as_array()
            .is_none_or(|all| all.iter().all(Value::is_null));
        assert!(none && !bench.is_number(), "{one}");
    }
}

#[test]
fn the_derivation_of_a_misfit_names_no_setting() {
    let (case, sheet) = misfit();
    let say = Formatter::english(&case, Notation::Iso);
    for step in refused(&sheet) {
        assert_eq!(say.setting_line(step), "does not fit");
        assert!(say.setting_terms(step).is_empty());
    }
}

#[test]
fn look_alikes_name_no_setting_of_a_misfit() {
    let (case, sheet) = misfit();
    let say = Formatter::english(&case, Notation::Iso);
    let mut seen = 0;
    for one in &sheet.mix_ups {
        let (Mistake::OtherSetting { set, of, step, .. } | Mistake::OtherSet { set, of, step, .. }) =
            &one.mistake
        else {
            continue;
        };
        let site = sheet.sites.iter().find(|site| site.id == *of).unwrap();
        let theirs = site.steps.iter().find(|theirs| theirs.id == *step).unwrap();
        let shown = say.set_length_with_unit(&traywright_core::plan::Known::Is(*set));
        let said = say.mix_up(one).mistake;
        assert_eq!(theirs.fits == Fits::No, !said.contains(&shown), "{said}");
        seen += usize::from(theirs.fits == Fits::No);
    }
    assert!(seen > 0);
}
