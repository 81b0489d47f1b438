//! The parts that are printed together or each by itself.

use super::at_the_tray::texts_under;
use super::samples::{CASES, at_teeth, changed, printed_at};
use super::*;
use crate::drawing::{TextStyle, pt};
use crate::plan::{Actionable, Known};

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

/// The form's pages by case, paper and boxes.
const MOST: [(&str, usize); 32] = [
    ("two-molars with 1 sites on A4, Blank", 4),
    ("two-molars with 1 sites on A4, Filled", 4),
    ("two-molars with 1 sites on Letter, Blank", 4),
    ("two-molars with 1 sites on Letter, Filled", 4),
    ("two-molars with 2 sites on A4, Blank", 4),
    ("two-molars with 2 sites on A4, Filled", 4),
    ("two-molars with 2 sites on Letter, Blank", 4),
    ("two-molars with 2 sites on Letter, Filled", 4),
    ("two-molars with 4 sites on A4, Blank", 5),
    ("two-molars with 4 sites on A4, Filled", 5),
    ("two-molars with 4 sites on Letter, Blank", 5),
    ("two-molars with 4 sites on Letter, Filled", 5),
    ("two-molars with 8 sites on A4, Blank", 6),
    ("two-molars with 8 sites on A4, Filled", 6),
    ("two-molars with 8 sites on Letter, Blank", 6),
    ("two-molars with 8 sites on Letter, Filled", 6),
    ("full-arch-upper with 1 sites on A4, Blank", 3),
    ("full-arch-upper with 1 sites on A4, Filled", 3),
    ("full-arch-upper with 1 sites on Letter, Blank", 4),
    ("full-arch-upper with 1 sites on Letter, Filled", 4),
    ("full-arch-upper with 2 sites on A4, Blank", 3),
    ("full-arch-upper with 2 sites on A4, Filled", 4),
    ("full-arch-upper with 2 sites on Letter, Blank", 4),
    ("full-arch-upper with 2 sites on Letter, Filled", 4),
    ("full-arch-upper with 4 sites on A4, Blank", 4),
    ("full-arch-upper with 4 sites on A4, Filled", 4),
    ("full-arch-upper with 4 sites on Letter, Blank", 4),
    ("full-arch-upper with 4 sites on Letter, Filled", 4),
    ("full-arch-upper with 8 sites on A4, Blank", 5),
    ("full-arch-upper with 8 sites on A4, Filled", 5),
    ("full-arch-upper with 8 sites on Letter, Blank", 5),
    ("full-arch-upper with 8 sites on Letter, Filled", 5),
];

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

/// The form of a case without any record, with these boxes for readings.
pub(super) fn form(case: &ValidCase, paper: Paper, readings: Readings) -> Vec<Page> {
    let worksheet = work_out(case);
    let printing = Printing {
        paper,
        parts: Parts::of([SheetPart::Form]),
        readings,
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

pub(super) const READINGS: [Readings; 2] = [Readings::Blank, Readings::Filled];
pub(super) const PAPERS: [Paper; 2] = [Paper::A4, Paper::Letter];
const LOWER: [&str; 8] = ["46", "45", "44", "43", "33", "34", "35", "36"];
const UPPER: [&str; 8] = ["15", "13", "12", "22", "23", "25", "16", "26"];

/// Cases of one, two, four and eight sites: with seven drills each in the lower jaw, with four each on a guide with pins
/// in the upper.
pub(super) fn of_many_sites() -> Vec<(&'static str, usize, ValidCase)> {
    let of = |name: &'static str, teeth: [&'static str; 8]| {
        [1, 2, 4, 8].map(|sites| {
            let case = changed(name, |case| at_teeth(case, &teeth[..sites]));
            (name, sites, case)
        })
    };
    let lower = of("two-molars", LOWER);
    lower
        .into_iter()
        .chain(of("full-arch-upper", UPPER))
        .collect()
}

/// The figures in at least 14 points under a title, in the order of their size as text.
fn large(pages: &[Page], title: &str) -> Vec<String> {
    let mut all: Vec<String> = texts_under(pages, title)
        .into_iter()
        .filter(|(size_mm, words)| {
            *size_mm >= pt(14.0) && !words.contains(|one: char| one.is_alphabetic())
        })
        .map(|(_, words)| words)
        .collect();
    all.sort();
    all
}

/// Every setting that the figures have stands in the order of use and in the loading list, to the digit: each step, pin and
/// drill once, and what a hand acts on in at least 14 points.
#[test]
fn each_setting_of_the_figures_is_in_the_form_to_the_digit() {
    let shipped = CASES.iter().map(|(name, _)| (*name, changed(name, |_| {})));
    let many = of_many_sites()
        .into_iter()
        .map(|(name, _, case)| (name, case));
    let mut seen = 0;
    for (name, case) in shipped.chain(many) {
        let worksheet = work_out(&case);
        let formatter = Formatter::english(&case, Notation::Iso);
        let acted_on = |one: Actionable<'_>| {
            let figure = one.figure(&case.kit).large()?;
            Some(formatter.set_length(&Known::Is(figure)))
        };
        let sites = worksheet.sites.iter().flat_map(|site| &site.steps);
        let steps = sites.map(Actionable::of_step);
        let pins = worksheet.pins.iter().map(Actionable::of_pin);
        let anew = worksheet.resets.iter();
        let anew = anew.filter_map(|reset| Actionable::of_item(&reset.to));
        let mut used: Vec<String> = steps.chain(pins).chain(anew).filter_map(acted_on).collect();
        let laid = worksheet.loading.iter().filter_map(Actionable::of_item);
        let mut laid: Vec<String> = laid.filter_map(acted_on).collect();
        used.sort();
        laid.sort();
        let figures =
            crate::figures::figures(&formatter, &worksheet, crate::figures::Detail::Values);
        let figures = serde_json::to_value(figures).unwrap();
        let all = |list: &str, of: &serde_json::Value| of[list].as_array().unwrap().clone();
        let sites = all("sites", &figures).into_iter();
        let mut given: Vec<serde_json::Value> =
            sites.flat_map(|site| all("steps", &site)).collect();
        given.extend(all("pins", &figures));
        // On the other paper stands the same.
        for paper in [Paper::A4] {
            for readings in READINGS {
                let form = form(&case, paper, readings);
                let place = format!("{name} on {paper:?}, {readings:?}");
                assert_eq!(large(&form, "Order of use"), used, "{place}");
                assert_eq!(large(&form, "Loading the tray"), laid, "{place}");
                let words: Vec<String> = texts_under(&form, "Order of use")
                    .into_iter()
                    .map(|(_, words)| words)
                    .collect();
                let numbers: Vec<f64> = words.iter().filter_map(|one| one.parse().ok()).collect();
                for one in &given {
                    if let Some(shown) = one["set_shown"].as_str() {
                        assert!(words.iter().any(|one| one == shown), "{place}: {one}");
                    }
                    for key in ["set_mm", "gauge_mm"] {
                        let Some(figure) = one[key].as_f64() else {
                            continue;
                        };
                        let is_it = |number: &f64| number.to_bits() == figure.to_bits();
                        assert!(numbers.iter().any(is_it), "{place}: {key} of {one}");
                        seen += 1;
                    }
                }
            }
        }
    }
    assert!(seen > 400, "{seen}");
}

/// The form's pages for so many sites on each paper, with boxes for readings or with those of the record. Fewer is the
/// aim; more is a defect. No page of several is less than a third full, but one left free for the second reading.
#[test]
fn the_form_takes_no_more_pages_than_it_did() {
    let mut all = Vec::new();
    for (name, sites, case) in of_many_sites() {
        for paper in PAPERS {
            for readings in READINGS {
                let form = form(&case, paper, readings);
                let place = format!("{name} with {sites} sites on {paper:?}, {readings:?}");
                holds_together(&form, &place);
                for (index, page) in form.iter().enumerate() {
                    let free = read(std::slice::from_ref(page)).contains("left blank");
                    let full = fullness(page, 24.0, 32.0);
                    let page = index + 1;
                    assert!(free || full > 1.0 / 3.0, "{place}, page {page}: {full:.2}");
                }
                all.push((place, form.len()));
            }
        }
    }
    let most = MOST
        .iter()
        .map(|(place, pages)| ((*place).to_owned(), *pages));
    for (one, most) in all.iter().zip(most) {
        assert_eq!(one.0, most.0);
        assert!(one.1 <= most.1, "{all:#?}");
    }
    assert_eq!(all.len(), MOST.len(), "{all:#?}");
}

/// A shipped case takes four pages at most, three with one site; what was read of each drill may take one more, and six sites do on
/// the lower paper.
#[test]
fn no_shipped_case_takes_more_than_four_pages() {
    let mut more = Vec::new();
    for (name, _) in CASES {
        let case = changed(name, |_| {});
        for paper in PAPERS {
            for readings in READINGS {
                let most = match (case.sites.len(), paper, readings) {
                    (1, Paper::Letter, Readings::Filled) => 4,
                    (1, ..) => 3,
                    (6, Paper::Letter, _) | (6, _, Readings::Filled) => 5,
                    _ => 4,
                };
                let form = form(&case, paper, readings);
                let place = format!("{name} on {paper:?}, {readings:?}");
                holds_together(&form, &place);
                if form.len() > most {
                    more.push(format!("{place}: {}", form.len()));
                }
            }
        }
    }
    assert_eq!(more, Vec::<String>::new());
}

/// What goes on behind the loading list begins below it and has its own title on the next page, once on each.
#[test]
fn what_follows_on_a_page_has_its_title_once_on_each() {
    let mut seen = 0;
    for (name, sites, case) in of_many_sites() {
        for page in form(&case, Paper::A4, Readings::Blank) {
            let titles = |title: &str| {
                let texts = page.over.texts().into_iter();
                let large = texts.filter(|text| text.style.size_mm > TextStyle::HEADING.size_mm);
                large.filter(|text| text.content == title).count()
            };
            assert!(titles("Order of use") <= 1, "{name}, {sites} sites");
            seen += usize::from(titles("Order of use") == 1 && titles("Loading the tray") == 1);
        }
    }
    assert!(seen > 0);
}

/// Nothing in the form is smaller than 8 points, and the names on the map of the tray are in 9 or more.
#[test]
fn the_form_bears_no_small_type() {
    let mut names = 0;
    let shipped = CASES.iter().map(|(name, _)| (*name, changed(name, |_| {})));
    let many = of_many_sites()
        .into_iter()
        .map(|(name, _, case)| (name, case));
    let cases: Vec<_> = shipped.chain(many).collect();
    for (name, case) in &cases {
        for paper in PAPERS {
            for page in READINGS
                .into_iter()
                .flat_map(|readings| form(case, paper, readings))
            {
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
    assert_eq!(names, 4 * cases.len());
}
