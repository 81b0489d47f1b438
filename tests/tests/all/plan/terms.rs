//! A term that names another figure or a field of the kit names one that is there, with its value.

use super::sample::{case, mm, received, work};
use crate::demo;
use serde_json::Value;
use std::collections::BTreeMap;
use traywright_core::case::{Case, ReceiptOf, ValidCase};
use traywright_core::plan::{Figure, Known, Origin, Quantity, TermName, Worksheet, work_out};

/// A change of the sample.
type Change = fn(&mut Case);

/// Every figure of a worksheet: of sites, steps, pins, and the margins of its findings.
fn figures(sheet: &Worksheet) -> Vec<&Figure> {
    let mut all: Vec<&Figure> = Vec::new();
    for site in &sheet.sites {
        all.extend([&site.deepest_cut, &site.distance]);
        all.extend(&site.sounding);
        let depth = site.final_depth.iter();
        all.extend(depth.flat_map(|one| one.below_coronal.iter().chain([&one.below_apical])));
        all.extend(site.insertion.iter().flat_map(|i| [&i.seat, &i.shallow]));
        for step in &site.steps {
            all.extend([&step.seat, &step.prep, &step.exact, &step.set, &step.cut]);
            all.extend([&step.shortfall]);
            all.extend(step.gauge.iter().chain(&step.bench));
        }
        all.extend(
            site.play
                .iter()
                .flatten()
                .flat_map(|p| [&p.tilt, &p.at_tip]),
        );
    }
    for pin in &sheet.pins {
        all.extend([&pin.exact, &pin.set]);
        all.extend(&pin.gauge);
    }
    all.extend(sheet.findings.iter().filter_map(|f| f.figure.as_deref()));
    all
}

/// The field of a kit at a path such as `drills[t31].point`.
fn field<'a>(kit: &'a Value, path: &str) -> Option<&'a Value> {
    let (list, rest) = path.split_once('[')?;
    let (id, rest) = rest.split_once("].")?;
    let entries = kit.get(list)?.as_array()?;
    let entry = entries.iter().find(|entry| entry["id"] == id)?;
    rest.split('.').try_fold(entry, |at, key| at.get(key))
}

/// Looks through all terms; the number of those that name a figure and those that name the kit.
fn check(name: &str, case: &ValidCase) -> (usize, usize) {
    let sheet = work_out(case);
    let all = figures(&sheet);
    let values: BTreeMap<String, &Known<Quantity>> =
        all.iter().map(|f| (f.id.to_string(), &f.value)).collect();
    let kit = serde_json::to_value(&case.kit).unwrap();
    let (mut figured, mut of_kit) = (0, 0);
    for figure in &all {
        for term in &figure.terms {
            let place = format!("{name} {} {}", figure.id, term.name);
            match &term.from {
                Origin::Figure(id) => {
                    let named = values.get(&id.to_string());
                    let named = named.unwrap_or_else(|| panic!("{place}: no figure {id}"));
                    // The setting by itself is what the common figure replaced.
                    if term.name != TermName::OwnSetting {
                        assert_eq!(**named, term.value, "{place}: {id}");
                    }
                    figured += 1;
                }
                Origin::Kit {
                    list,
                    entry,
                    field: key,
                } => {
                    let path = format!("{list}[{entry}].{key}");
                    let value = field(&kit, &path).unwrap_or_else(|| panic!("{place}: no {path}"));
                    if let (Some(number), Known::Is(Quantity::Length(length))) =
                        (value.as_number(), &term.value)
                    {
                        assert_eq!(number.to_string(), length.to_string(), "{place}: {path}");
                    }
                    of_kit += 1;
                }
                Origin::Case(_) | Origin::Rule(_) => {}
            }
        }
    }
    (figured, of_kit)
}

#[test]
fn a_term_has_the_value_of_the_figure_or_field_that_it_names() {
    let (mut figured, mut of_kit) = (0, 0);
    for name in demo::CASES {
        let (a, b) = check(name, &demo::valid(name));
        figured += a;
        of_kit += b;
    }
    assert!(figured > 200 && of_kit > 200, "{figured} {of_kit}");
    let changes: [(&str, Change); 3] = [
        // The implant ends below the last cut, with and without a guide that came too low.
        ("short drill", |case| {
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].depth =
                traywright_core::kit::DepthRule::ShortOfFull { by_mm: mm("2") };
        }),
        ("short drill, low guide", |case| {
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].depth =
                traywright_core::kit::DepthRule::ShortOfFull { by_mm: mm("2") };
            case.guide.receipt = vec![received(case, ReceiptOf::MasterSleeveHeight, "3.9")];
        }),
        ("no distance", |case| {
            case.sites[0].platform_to_sleeve = None;
        }),
    ];
    for (name, change) in changes {
        let mut case = case();
        change(&mut case);
        check(name, &super::sample::valid(case));
    }
}

/// 13.0 to the canal, the implant's 10.0 end deepest, a guide 0.1 too low: 2.9 by three terms that
/// add up.
#[test]
fn a_margin_below_the_implants_end_adds_up() {
    let mut case = case();
    case.sites[0].steps[0].depth = traywright_core::kit::DepthRule::ShortOfFull { by_mm: mm("2") };
    case.sites[0].steps.truncate(1);
    case.guide.receipt = vec![received(&case, ReceiptOf::MasterSleeveHeight, "3.9")];
    let sheet = work(case);
    let found = super::sample::one(&sheet, "deep-structure");
    let names: Vec<_> = found
        .figure
        .as_ref()
        .unwrap()
        .terms
        .iter()
        .map(|t| t.name)
        .collect();
    assert_eq!(
        names,
        [
            TermName::StructureHeight,
            TermName::PlatformToApex,
            TermName::ReceiptDeficit
        ]
    );
    assert_eq!(found.length_value(), Some(mm("2.9")));
}
