//! What the pages say, and what they must not say.

use super::samples::{CASES, changed, forget, printed_at};
use super::*;
use crate::drawing::TextStyle;
use crate::plan::{NOT_ASSESSED, SiteSheet};
use crate::say::cautions;
use crate::text::Texts;
use serde_json::json;
use std::collections::BTreeSet;

/// The text on a page without its wraps.
fn words(page: &Page) -> String {
    lines(page).join(" ")
}

fn under(page: &Page) -> Vec<&str> {
    let texts = page.under.texts().into_iter();
    texts.map(|text| text.content.as_str()).collect()
}

#[test]
fn every_page_says_whose_it_is() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let jaw = Speaker::english(&case, Notation::Iso).jaw();
        let pages = pages(&case, Paper::A4);
        for (index, page) in pages.iter().enumerate() {
            let lines = lines(page);
            let place = format!("{name}, page {}", index + 1);
            for wanted in [
                worksheet.reference.as_str(),
                &jaw,
                &worksheet.revision.to_string(),
                &worksheet.fingerprint.to_string(),
                "patient label",
            ] {
                assert!(lines.contains(&wanted), "{place}: no {wanted:?}");
            }
            let page_of = format!("page {} of {}", index + 1, pages.len());
            assert!(lines.iter().any(|line| line.ends_with(&page_of)), "{place}");
            assert_eq!(under(page), ["DEMONSTRATION"], "{place}");
        }
    }
}

/// The title block, the label box and the last line stand in the same place on every page.
#[test]
fn every_page_has_its_block_in_the_same_place() {
    let case = changed("full-arch-upper", |_| {});
    let fingerprint = work_out(&case).fingerprint.to_string();
    let pages = pages(&case, Paper::Letter);
    for wanted in [fingerprint.as_str(), "patient label", "state"] {
        let places: BTreeSet<String> = pages
            .iter()
            .map(|page| {
                let texts = page.over.texts();
                let found = texts.iter().rev().find(|text| text.content == wanted);
                format!("{:?}", found.unwrap().place)
            })
            .collect();
        assert_eq!(places.len(), 1, "{wanted}: {places:?}");
    }
}

#[test]
fn words_lie_across_every_page_until_an_approval_holds() {
    let by = || ("R. Thorn".to_owned(), printed_at());
    let approved = || {
        let (by, at) = by();
        ApprovalState::Approved { by, at }
    };
    let practice = || {
        let (by, at) = by();
        ApprovalState::Practice { by, at }
    };
    for (demonstration, approval, across, state) in [
        (
            false,
            ApprovalState::NotApproved,
            "NOT APPROVED",
            "not approved",
        ),
        (false, practice(), "NOT APPROVED", "practice only"),
        (false, approved(), "", "approved by R. Thorn on 2031-05-06"),
        (
            true,
            ApprovalState::NotApproved,
            "DEMONSTRATION",
            "not approved",
        ),
        (true, practice(), "DEMONSTRATION", "practice only"),
        // Whatever its events say, nothing in a demonstration counts.
        (true, approved(), "DEMONSTRATION", "practice only"),
    ] {
        let case = changed("one-premolar", |case| {
            case["demonstration"] = json!(demonstration);
        });
        let state_of = Signed {
            approval,
            bench_rule: None,
        };
        let pages = signed(&case, &state_of, Paper::A4);
        for page in &pages {
            let expected: Vec<&str> = [across].into_iter().filter(|w| !w.is_empty()).collect();
            assert_eq!(under(page), expected);
            assert!(words(page).contains(state), "{state}: {}", words(page));
        }
        holds_together(&pages, state);
    }
}

/// The settings of a site's steps as they are shown.
fn settings(say: &Speaker<'_>, site: &SiteSheet) -> Vec<String> {
    let steps = site.steps.iter().filter(|step| step.set.length().is_some());
    steps.map(|step| say.setting(step)).collect()
}

/// Every large figure is a setting that is known or what the gauge shows of one: no figure with an
/// unknown term is printed as a number.
#[test]
fn large_figures_are_known_settings_and_all_of_them_are_there() {
    for (name, _) in CASES {
        for forgotten in [false, true] {
            let case = changed(name, |case| {
                if forgotten {
                    forget(case);
                }
            });
            let worksheet = work_out(&case);
            let say = Speaker::english(&case, Notation::Iso);
            let steps = worksheet.sites.iter().flat_map(|site| &site.steps);
            let known: BTreeSet<String> = steps
                .clone()
                .flat_map(|step| [Some(&step.set), step.gauge.as_ref()])
                .flatten()
                .filter(|figure| figure.length().is_some())
                .map(|figure| say.set_length(&figure.known_length()))
                .collect();
            let pages = pages(&case, Paper::A4);
            let mut large: BTreeSet<String> = BTreeSet::new();
            for text in pages.iter().flat_map(|page| page.over.texts()) {
                let is_title = text.style.size_mm > TextStyle::TITLE.size_mm * 0.9
                    && text.content.contains(char::is_alphabetic);
                if text.style.size_mm >= TextStyle::HEADING.size_mm * 1.3 && !is_title {
                    large.insert(text.content.clone());
                }
            }
            // The letters at the ends of the arch are large too.
            large.retain(|text| text != "R" && text != "L");
            assert_eq!(
                large.difference(&known).collect::<Vec<_>>(),
                [""; 0],
                "{name}"
            );
            let sets = worksheet.sites.iter().flat_map(|site| settings(&say, site));
            let missing: Vec<String> = sets.filter(|set| !large.contains(set)).collect();
            assert_eq!(missing, [""; 0], "{name}");
            let unknown = steps.filter(|step| step.set.length().is_none()).count();
            let said = read(&pages).matches("no figure").count();
            assert!(said >= unknown, "{name}: {said} of {unknown}");
        }
    }
}

/// A site's own pages show each of its settings, in the order of its steps.
#[test]
fn the_pages_of_a_site_show_its_settings_in_order() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let say = Speaker::english(&case, Notation::Iso);
        let pages = pages(&case, Paper::A4);
        for site in &worksheet.sites {
            let title = crate::say::begin(&say.site(&site.id));
            let of_site = pages.iter().filter(|page| {
                let texts = page.over.texts();
                texts.iter().any(|text| {
                    text.content == title && text.style.size_mm > TextStyle::HEADING.size_mm
                })
            });
            let shown: Vec<String> = of_site
                .flat_map(|page| page.over.texts())
                .filter(|text| text.style == TextStyle::FIGURE)
                .map(|text| text.content.clone())
                .collect();
            let expected = settings(&say, site);
            assert!(
                shown.len() >= expected.len() && shown[..expected.len()] == expected,
                "{name}, {title}: {shown:?} instead of {expected:?}"
            );
        }
    }
}

#[test]
fn the_first_part_says_what_is_open_what_is_not_assessed_and_the_cautions() {
    let case = changed("two-molars", |_| {});
    let all = read(&pages(&case, Paper::A4));
    let flat: String = all.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("Open: 1 short, 2 unknown."), "{flat}");
    let texts = Texts::english();
    for id in NOT_ASSESSED {
        let words = texts.get(&format!("not-assessed-{id}"), &[]);
        assert!(flat.contains(&words), "{words}");
    }
    for words in cautions(texts) {
        assert!(flat.contains(&words), "{words}");
    }
    assert!(flat.contains("accuracy not assessed"));
}

#[test]
fn the_same_case_gives_the_same_pages() {
    let case = changed("fresh-socket", |_| {});
    assert_eq!(pages(&case, Paper::A4), pages(&case, Paper::A4));
}

#[test]
fn a_local_rule_about_bench_readings_is_named() {
    let case = changed("one-premolar", |_| {});
    let rule = Signed {
        bench_rule: Some("House rule 7".to_owned()),
        ..Signed::nothing()
    };
    assert!(read(&signed(&case, &rule, Paper::A4)).contains("“House rule 7”"));
    assert!(read(&pages(&case, Paper::A4)).contains("No local rule is named"));
}
