//! The contents of the pages, and what they must not contain.

use super::at_the_tray::under_title;
use super::samples::{CASES, changed, forget, printed_at};
use super::*;
use crate::drawing::TextStyle;
use crate::kit::StopKind;
use crate::plan::{Known, Severity, StepSheet};
use crate::text::Texts;
use crate::wording::cautions;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The text on a page without its wraps.
fn words(page: &Page) -> String {
    lines(page).join(" ")
}

fn under(page: &Page) -> Vec<&str> {
    let texts = page.under.texts().into_iter();
    texts.map(|text| text.content.as_str()).collect()
}

/// A scan or a graft that is dated after the day of printing is told first; on the day itself it is none.
#[test]
fn a_scan_or_graft_to_come_is_told_on_the_first_page() {
    let told = |scan: &str, graft: &str| {
        let case = changed("two-molars", |case| {
            case["guide"]["scan_date"] = json!(scan);
            case["sites"][0]["state"] = json!({ "bone": "grafted", "on": graft });
        });
        words(&pages(&case, Paper::A4)[0])
    };
    // Printed on 2031-05-06.
    let first = told("2031-05-07", "2999-01-02");
    assert!(first.contains("The scan is dated 2031-05-07"), "{first}");
    assert!(first.contains("dated 2999-01-02"), "{first}");
    let none = told("2031-05-06", "2031-05-01");
    assert!(!none.contains("has not come yet"), "{none}");
}

#[test]
fn guide_and_gauge_are_counted_in_and_out() {
    let all = pages(&changed("two-molars", |_| {}), Paper::A4);
    let counts = all.iter().map(lines).find(|page| {
        let mut lines = page.iter();
        lines.any(|line| line.contains("counted in by"))
    });
    let counts = counts.unwrap();
    for thing in ["surgical guide", "depth gauge", "depth stops"] {
        assert!(counts.contains(&thing), "{thing}: {counts:?}");
    }
}

#[test]
fn every_page_says_whose_it_is() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let jaw = Formatter::english(&case, Notation::Iso).jaw();
        let pages = pages(&case, Paper::A4);
        for (index, page) in pages.iter().enumerate() {
            let lines = lines(page);
            let place = format!("{name}, page {}", index + 1);
            for wanted in [
                worksheet.reference.as_str(),
                &jaw,
                &worksheet.revision.to_string(),
                &worksheet.fingerprint.to_string(),
            ] {
                assert!(lines.contains(&wanted), "{place}: no {wanted:?}");
            }
            let page_of = format!("page {} of {}", index + 1, pages.len());
            assert!(lines.iter().any(|line| line.ends_with(&page_of)), "{place}");
            assert_eq!(under(page), ["DEMONSTRATION"], "{place}");
        }
    }
}

/// The title block and the last line are in the same place on every page.
#[test]
fn the_title_of_a_page_is_what_stands_at_its_head() {
    let case = changed("two-molars", |_| {});
    for page in pages(&case, Paper::A4) {
        let drawing = page.drawing();
        let words: Vec<&str> = lines(&page);
        assert!(words.join(" ").contains(&page.title), "{}", page.title);
        assert!(!page.title.is_empty());
        let parts = page.under.items().len() + page.over.items().len();
        assert_eq!(drawing.items().len(), parts);
    }
}

#[test]
fn every_page_has_its_block_in_the_same_place() {
    let case = changed("full-arch-upper", |_| {});
    let fingerprint = work_out(&case).fingerprint.to_string();
    let pages = pages(&case, Paper::Letter);
    for wanted in [fingerprint.as_str(), "state"] {
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
        ApprovalState::Approved {
            by,
            at,
            names_decisions: true,
        }
    };
    let approved_once = || {
        let (by, at) = by();
        ApprovalState::Approved {
            by,
            at,
            names_decisions: false,
        }
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
        (false, approved_once(), "", "it names no decisions"),
        (true, approved_once(), "DEMONSTRATION", "practice only"),
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
            ..Signed::nothing()
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

/// The figure that a hand acts on at each step that has it: the gauge's figure for a stop that is
/// set on it, else the length that groove or mark give.
fn acted_on(case: &ValidCase, formatter: &Formatter<'_>, steps: &[StepSheet]) -> Vec<String> {
    let figure = |step: &StepSheet| {
        let stop = step.stop.as_ref().and_then(|id| case.kit.stop(id));
        match (stop.map(|stop| &stop.depth), &step.gauge) {
            (Some(StopKind::Adjustable {}), Some(gauge)) => {
                step.set.length().and_then(|_| gauge.length())
            }
            (Some(StopKind::Adjustable {}), None) => None,
            _ => step.set.length(),
        }
    };
    let known = steps.iter().filter_map(figure);
    known
        .map(|length| formatter.set_length(&Known::Is(length)))
        .collect()
}

/// The texts of the size of a setting, without titles and the letters at the ends of the arch.
fn large_figures(pages: &[Page]) -> BTreeSet<String> {
    let texts = pages.iter().flat_map(|page| page.over.texts());
    let large = texts.filter(|text| text.style.size_mm >= TextStyle::HEADING.size_mm * 1.3);
    let shown = large.map(|text| text.content.clone());
    shown
        .filter(|text| !text.contains(char::is_alphabetic))
        .collect()
}

/// No figure with an unknown term is printed as a number, and each that a hand acts on is large.
#[test]
fn large_figures_are_known_and_all_that_a_hand_acts_on_are_there() {
    for (name, _) in CASES {
        for forgotten in [false, true] {
            let case = changed(name, |case| {
                if forgotten {
                    forget(case);
                }
            });
            let worksheet = work_out(&case);
            let formatter = Formatter::english(&case, Notation::Iso);
            let steps: Vec<StepSheet> = worksheet
                .sites
                .iter()
                .flat_map(|site| site.steps.clone())
                .collect();
            let of_pins = worksheet.pins.iter();
            let known: BTreeSet<String> = steps
                .iter()
                .flat_map(|step| [Some(&step.set), step.gauge.as_ref()])
                .chain(of_pins.flat_map(|pin| [Some(&pin.set), pin.gauge.as_ref()]))
                .flatten()
                .filter(|figure| figure.length().is_some())
                .map(|figure| formatter.set_length(&figure.known_length()))
                .collect();
            let pages = pages(&case, Paper::A4);
            let large = large_figures(&pages);
            assert_eq!(large.difference(&known).next(), None, "{name}");
            for wanted in acted_on(&case, &formatter, &steps) {
                assert!(large.contains(&wanted), "{name}: {wanted}");
            }
            let unknown = steps.iter().filter(|step| step.set.length().is_none());
            let said = read(&pages).matches("no figure").count();
            assert!(said >= unknown.count(), "{name}: {said}");
        }
    }
}

/// With a gauge of which nobody knows the face, a length printed large would be set on it.
#[test]
fn without_a_gauge_figure_no_large_figure_stands_anywhere() {
    let case = changed("upper-face-gauge", |case| {
        let gauges = case["kit"]["gauges"].as_array_mut().unwrap();
        for gauge in gauges {
            gauge.as_object_mut().unwrap().remove("reads");
        }
    });
    let pages = pages(&case, Paper::A4);
    holds_together(&pages, "unknown face");
    assert_eq!(large_figures(&pages), BTreeSet::new());
    let all = read(&pages);
    assert!(all.contains("no gauge figure") && all.contains("tip to stop"));
}

/// With a gauge that adds something, what it shows is the large figure.
#[test]
fn what_the_gauge_shows_is_large_where_it_is_another_figure() {
    let case = changed("upper-face-gauge", |_| {});
    let worksheet = work_out(&case);
    let step = &worksheet.sites[0].steps[0];
    let formatter = Formatter::english(&case, Notation::Iso);
    let (set, shown) = (
        formatter.setting(step),
        formatter.gauge_figure(step).unwrap(),
    );
    assert_ne!(set, shown);
    let pages = pages(&case, Paper::A4);
    let others: Vec<Page> = pages
        .into_iter()
        .filter(|page| !words(page).contains("True-scale strip"))
        .collect();
    let large = large_figures(&others);
    assert!(large.contains(&shown) && !large.contains(&set), "{large:?}");
    assert!(
        others
            .iter()
            .any(|page| lines(page).contains(&set.as_str()))
    );
}

/// Printed on one side or both, alone or with the rest, no setting is on a leaf of the blind reading.
#[test]
fn the_second_reading_has_a_leaf_of_its_own() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let pages = pages(&case, Paper::A4);
        let of_reading: Vec<usize> = (0..pages.len())
            .filter(|index| {
                let page = words(&pages[*index]);
                page.contains("By a person other than the one who set the stops")
            })
            .collect();
        if of_reading.is_empty() {
            continue;
        }
        let worksheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        for page in &of_reading {
            for side in [page - page % 2, page - page % 2 + 1] {
                for step in worksheet.sites.iter().flat_map(|site| &site.steps) {
                    let set = formatter.setting(step);
                    let back = pages.get(side).map(lines).unwrap_or_default();
                    let shown = back.contains(&set.as_str());
                    assert!(!shown, "{name}, page {}: {set}", side + 1);
                }
            }
        }
    }
}

/// A site's own pages show what a hand acts on, in the order of its steps.
#[test]
fn the_pages_of_a_site_show_its_settings_in_order() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        let pages = pages(&case, Paper::A4);
        for site in &worksheet.sites {
            let title = crate::wording::begin(&formatter.site(&site.id));
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
            let expected = acted_on(&case, &formatter, &site.steps);
            assert!(
                shown.len() >= expected.len() && shown[..expected.len()] == expected,
                "{name}, {title}: {shown:?} instead of {expected:?}"
            );
        }
    }
}

/// Wherever an implant is named its measured length stands beside that of its label, but in the slots of the
/// drawn tray, where there is room for a name alone; the list before it says both.
#[test]
fn the_measured_length_stands_beside_each_label() {
    let case = changed("two-molars", |_| {});
    let mut seen = 0;
    for page in pages(&case, Paper::A4) {
        let words = words(&page);
        for (label, measured) in [
            ("Reed 4.37 × 9.1", ", 10.4 mm"),
            ("Reed 4.37 × 7.4", ", 8.7 mm"),
        ] {
            for (at, _) in words.match_indices(label) {
                let after = &words[at + label.len()..];
                if after.starts_with(" Heron") {
                    continue;
                }
                assert!(after.starts_with(measured), "{}", &words[at..][..60]);
                seen += 1;
            }
        }
    }
    assert!(seen > 4, "{seen}");
}

/// The first page says no more of the sites' pages than is there.
#[test]
fn what_is_only_counted_is_said_to_be_counted() {
    let case = changed("two-molars", |_| {});
    let pages = pages(&case, Paper::A4);
    let counted = "Further checks of instruments, sequence and guide that are clear: ";
    assert!(pages.iter().any(|page| words(page).contains(counted)));
    let first = "further checks that are clear are counted there, not listed.";
    assert!(pages.iter().any(|page| words(page).contains(first)));
}

#[test]
fn the_first_part_says_what_is_open_what_is_not_assessed_and_the_cautions() {
    let case = changed("two-molars", |_| {});
    let all = read(&pages(&case, Paper::A4));
    let flat: String = all.split_whitespace().collect::<Vec<_>>().join(" ");
    let worksheet = work_out(&case);
    let count = |severity| {
        let all = worksheet.findings.iter();
        all.filter(|one| one.severity() == severity).count()
    };
    let (short, unknown) = (count(Severity::Short), count(Severity::Unknown));
    assert!(short > 0 && unknown > 0);
    let open = format!("Open: {short} short, {unknown} unknown.");
    assert!(flat.contains(&open), "no {open:?}");
    let texts = Texts::english();
    for id in crate::plan::not_assessed(&case) {
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

/// A limit below the program's own: beside its source on the page of limits, and with each finding
/// that is held to it.
#[test]
fn a_loosened_limit_is_told_on_the_page_of_limits() {
    let told = "Less strict than the program's own, 1.5 mm.";
    let flat = |change: fn(&mut Value)| {
        let all = read(&pages(&changed("one-premolar", change), Paper::A4));
        all.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(!flat(|_| {}).contains("ess strict than the program's own"));
    let lowered = flat(|case| case["limits"]["buccal_wall"]["limit_mm"] = json!(0));
    assert!(lowered.contains(told));
    assert!(lowered.contains("the limit “buccal wall” is less strict than the program's own"));
}

#[test]
fn a_sleeve_offset_bears_the_face_that_it_was_given_to() {
    let apical = changed("two-molars", |_| {});
    assert!(read(&pages(&apical, Paper::A4)).contains("4.45 mm, apical face"));
    // 8.3 to the rim of a sleeve 3.85 high: 4.45 to its apical face.
    let coronal = read(&pages(&changed("fixed-stops", |_| {}), Paper::A4));
    assert!(
        coronal.contains("8.3 mm, coronal rim; 4.45 mm = 8.3"),
        "{coronal}"
    );
    assert!(coronal.contains("3.85 to the apical face"), "{coronal}");
}

/// Beside a setting a verdict says that it is the site's, so that it is not taken for the setting's.
#[test]
fn a_verdict_beside_a_setting_is_the_site_s() {
    let pages = pages(&changed("two-molars", |_| {}), Paper::A4);
    let texts = pages.iter().flat_map(|page| page.over.texts());
    let small = texts.filter(|text| text.style == TextStyle::CAPTION);
    let small: Vec<&str> = small
        .flat_map(|text| text.content.split_whitespace())
        .collect();
    for word in ["short", "unknown"] {
        let said = small.windows(2).filter(|pair| pair[1] == word);
        let before: Vec<&str> = said.map(|pair| pair[0]).collect();
        assert!(before.len() >= 4, "{word}");
        assert!(before.iter().all(|one| *one == "site:"), "{before:?}");
    }
}

/// That accuracy was not assessed is a state of the whole: once on a page with clearances, not beside
/// each; and as long as it is, no legend explains what nothing can be.
#[test]
fn accuracy_is_said_once_a_page_and_nothing_is_tight() {
    for (name, _) in CASES {
        let mut pages_with = 0;
        for page in pages(&changed(name, |_| {}), Paper::A4) {
            let text = super::lines(&page).join(" ");
            let said = text.to_lowercase().matches("accuracy not assessed").count();
            assert!(said <= 1, "{name}: {said} times\n{text}");
            pages_with += said;
            let words = text.split(|c: char| !c.is_alphabetic());
            assert!(
                words
                    .clone()
                    .all(|word| !word.eq_ignore_ascii_case("tight"))
            );
        }
        assert!(pages_with > 0, "{name}");
    }
}

/// On paper as on the screen another order than that of setting: the last set first.
#[test]
fn the_second_reading_begins_with_what_was_set_last() {
    let case = changed("two-molars", |_| {});
    let worksheet = work_out(&case);
    let set = worksheet.loading.iter().filter(|item| item.set.is_some());
    let set = set.filter(|item| !item.unopened);
    let mut slots: Vec<String> = set
        .filter_map(|item| item.slot.as_ref().map(ToString::to_string))
        .collect();
    slots.reverse();
    let pages = pages(&case, Paper::A4);
    let leaf = under_title(&pages, "Second reading").join(" ");
    let places: Vec<Option<usize>> = slots.iter().map(|slot| leaf.find(slot)).collect();
    assert!(places.len() > 3 && places.iter().all(Option::is_some));
    assert!(places.is_sorted(), "{slots:?}: {places:?}");
}
