//! The parts that are printed together or each by itself.

use super::samples::{CASES, changed, printed_at};
use super::*;

pub(super) fn part(case: &ValidCase, part: SheetPart, paper: Paper) -> Vec<Page> {
    let worksheet = work_out(case);
    let printing = Printing {
        paper,
        parts: Parts::of([part]),
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
    let counts = page_counts(&case, &worksheet, &nothing, None, a4, iso, at).unwrap();
    for (one, count) in counts {
        assert_eq!(part(&case, one, a4).len(), count, "{one:?}");
    }
}
