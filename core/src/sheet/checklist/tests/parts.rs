//! The parts that are printed together or each by itself.

use super::at_the_tray::is_headed;
use super::samples::{CASES, at_teeth, changed, printed_at};
use super::*;
use crate::drawing::pt;

pub(super) fn part(case: &ValidCase, part: SheetPart, paper: Paper) -> Vec<Page> {
    let worksheet = work_out(case);
    let printing = Printing {
        parts: Parts::of([part]),
        ..Printing::all(paper)
    };
    let (nothing, at) = (Signed::nothing(), printed_at());
    checklist(
        case,
        &worksheet,
        &nothing,
        None,
        printing,
        Notation::Iso,
        at,
    )
    .unwrap()
}

fn titles(pages: &[Page]) -> Vec<&str> {
    pages.iter().map(|page| page.title.as_str()).collect()
}

/// Nothing is lost by printing one part after the other, and each begins with the box for the label.
#[test]
fn the_parts_make_up_the_whole_and_each_begins_with_the_label() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let whole = pages(&case, Paper::A4);
        let parts = SheetPart::ALL.map(|one| part(&case, one, Paper::A4));
        let separate: Vec<&str> = parts.iter().flat_map(|pages| titles(pages)).collect();
        assert_eq!(titles(&whole), separate, "{name}");
        let mut starts = Vec::new();
        let mut at = 0;
        for pages in &parts {
            holds_together(pages, name);
            starts.push(at);
            at += pages.len();
        }
        let labelled: Vec<usize> = (0..whole.len())
            .filter(|index| lines(&whole[*index]).contains(&"patient label"))
            .collect();
        assert_eq!(labelled, starts, "{name}");
    }
}

#[test]
fn a_case_without_a_setting_says_that_it_has_no_strip() {
    let case = changed("one-premolar", |case| {
        case["sites"] = serde_json::json!([]);
        case["judgements"] = serde_json::json!([]);
        case["guide"]["receipt"] = serde_json::json!([]);
    });
    let strip = part(&case, SheetPart::Strip, Paper::A4);
    assert_eq!(strip.len(), 1);
    assert!(lines(&strip[0]).contains(&"There is no drill with a setting to lay on it."));
    let whole = read(&pages(&case, Paper::A4));
    assert!(!whole.contains("no drill with a setting"));
}

#[test]
fn the_counts_of_parts_are_those_of_their_pages() {
    let case = changed("two-molars", |_| {});
    let worksheet = work_out(&case);
    let (nothing, at) = (Signed::nothing(), printed_at());
    let (a4, iso) = (Paper::A4, Notation::Iso);
    let counts = page_counts(
        &case,
        &worksheet,
        &nothing,
        None,
        Printing::all(a4),
        iso,
        at,
    )
    .unwrap();
    for (one, count) in counts {
        assert_eq!(part(&case, one, a4).len(), count, "{one:?}");
    }
}

/// Down to where the frame of a page is filled, as a part of its height; nothing for a page left free.
fn fullness(page: &Page, head_mm: f64, foot_mm: f64) -> f64 {
    let sheet = page.paper.rect();
    let (top, bottom) = (sheet.top + head_mm, sheet.bottom - foot_mm);
    let mut down: f64 = top;
    page.over.visit(&mut |item, _| {
        if let Some(bounds) = item.bounds()
            && bounds.bottom < bottom
        {
            down = down.max(bounds.bottom);
        }
    });
    (down - top) / (bottom - top)
}

/// No last page of several under a title is less than a third full, but one left free on purpose. A page in the
/// middle may be, where what comes next stays together.
#[test]
fn no_last_page_of_several_is_nearly_empty() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        for paper in [Paper::A4, Paper::Letter] {
            let pages = pages(&case, paper);
            for (index, page) in pages.iter().enumerate() {
                let follows = pages.get(index + 1);
                let is_last = follows.is_none_or(|next| next.title != page.title);
                let before = index.checked_sub(1).map(|before| &pages[before]);
                let alone = before.is_none_or(|before| before.title != page.title);
                let free = read(std::slice::from_ref(page)).contains("left blank");
                // The least head and the highest foot of a page, mm.
                let full = fullness(page, 24.0, 32.0);
                let place = format!("{name} on {paper:?}, page {} {full:.2}", index + 1);
                assert!(alone || free || !is_last || full > 0.3, "{place}");
            }
        }
    }
}

/// Every setting of every step stands in the form, to the digit, in at least 14 points.
#[test]
fn each_setting_is_in_the_form_in_large_type() {
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        let worksheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        let form = part(&case, SheetPart::Form, Paper::A4);
        let order: Vec<&Page> = form
            .iter()
            .filter(|page| is_headed(page, "Order of use"))
            .collect();
        let large: Vec<String> = order
            .iter()
            .flat_map(|page| page.over.texts())
            .filter(|text| text.style.size_mm >= pt(14.0))
            .map(|text| text.content.clone())
            .collect();
        let mut seen = 0;
        for step in worksheet.sites.iter().flat_map(|site| &site.steps) {
            let shown = match formatter.gauge_figure(step) {
                Some(shown) => shown,
                None => formatter.setting(step),
            };
            assert!(large.contains(&shown), "{name}: {shown} in {large:?}");
            seen += 1;
        }
        assert!(seen > 0, "{name}");
    }
}

/// The form's pages for so many sites on each paper. Fewer is the aim; more is a defect.
#[test]
fn the_form_takes_no_more_pages_than_it_did() {
    let teeth = ["46", "45", "44", "43", "33", "34", "35", "36"];
    let mut all = Vec::new();
    for sites in [1, 2, 4, 6, 8] {
        for paper in [Paper::A4, Paper::Letter] {
            let case = changed("two-molars", |case| at_teeth(case, &teeth[..sites]));
            let form = part(&case, SheetPart::Form, paper);
            holds_together(&form, &format!("{sites} sites on {paper:?}"));
            all.push((sites, form.len()));
        }
    }
    let most = [
        (1, 4),
        (1, 4),
        (2, 4),
        (2, 5),
        (4, 7),
        (4, 7),
        (6, 8),
        (6, 8),
        (8, 8),
        (8, 9),
    ];
    for (pages, most) in all.iter().zip(most) {
        assert_eq!(pages.0, most.0);
        assert!(pages.1 <= most.1, "{all:?}");
    }
}

/// Nothing in the form is smaller than 8 points, and the names on the map of the tray are in 9 or more.
#[test]
fn the_form_bears_no_small_type() {
    let mut names = 0;
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        for paper in [Paper::A4, Paper::Letter] {
            for page in part(&case, SheetPart::Form, paper) {
                for text in page.over.texts() {
                    let points = text.style.size_mm / pt(1.0);
                    let place =
                        format!("{name}, {}: {:?} in {points:.1}", page.title, text.content);
                    assert!(points > 7.99, "{place}");
                    if text.content == "Crane" {
                        assert!(points > 8.99, "{place}");
                        names += 1;
                    }
                }
            }
        }
    }
    assert_eq!(names, 2 * CASES.len());
}
