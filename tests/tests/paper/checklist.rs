//! The printed checklist of every demonstration, read back from its PDF: settings, code, scale,
//! approvals.

use super::read::{self, Picture};
use std::path::PathBuf;
use traywright_core::case::{ValidCase, read_case};
use traywright_core::dentition::Notation;
use traywright_core::drawing::fonts::composed;
use traywright_core::drawing::{Drawing, Item, Rect};
use traywright_core::figures::{Detail, figures};
use traywright_core::plan::{Known, Worksheet, case_jaw, plan_view, work_out};
use traywright_core::sheet::checklist::{
    ApprovalState, Printing, RecordedItem, Signed, checklist, checklist_pdf,
};
use traywright_core::sheet::{Page, Paper, check};
use traywright_core::sign::{Approval, EventKind, Policy, Who, WriterId, standing};
use traywright_core::store::{append_event, read_events};
use traywright_core::wording::Formatter;

const CASES: [&str; 7] = [
    "fixed-stops",
    "fresh-socket",
    "full-arch-upper",
    "one-figure",
    "one-premolar",
    "two-molars",
    "upper-face-gauge",
];

/// Nothing may come nearer to the paper's edge, mm: what usual printers leave free.
const MARGIN: f64 = 5.0;

fn printed_at() -> jiff::Timestamp {
    "2031-05-06T07:08:09Z".parse().unwrap()
}

fn demo(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("../demo/{name}.json"))
}

/// A checklist with all that it was made from.
struct Printed {
    case: ValidCase,
    worksheet: Worksheet,
    pages: Vec<Page>,
    bytes: Vec<u8>,
}

fn printed(case: ValidCase, signed: &Signed, paper: Paper) -> Printed {
    let worksheet = work_out(&case);
    let (notation, at) = (Notation::Iso, printed_at());
    let all = Printing::all(paper);
    let pages = checklist(&case, &worksheet, signed, None, all, notation, at).unwrap();
    let bytes = checklist_pdf(&case, &worksheet, signed, None, all, notation, at).unwrap();
    Printed {
        case,
        worksheet,
        pages,
        bytes,
    }
}

fn of(name: &str, paper: Paper) -> Printed {
    let case = read_case(&std::fs::read(demo(name)).unwrap()).unwrap_or_else(|f| panic!("{f:?}"));
    printed(case, &Signed::nothing(), paper)
}

/// Leaves each checklist where a person can open it.
#[test]
fn the_checklists_can_be_looked_at() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    for name in CASES {
        for (paper, size) in [(Paper::A4, "a4"), (Paper::Letter, "letter")] {
            let file = folder.join(format!("checklist-{name}-{size}.pdf"));
            std::fs::write(file, of(name, paper).bytes).unwrap();
        }
    }
}

#[test]
fn each_setting_stands_in_the_text_of_the_pdf_to_the_digit() {
    for name in CASES {
        let printed = of(name, Paper::A4);
        let pages = u32::try_from(printed.pages.len()).unwrap();
        let lines: Vec<String> = (1..=pages)
            .flat_map(|page| read::lines(&printed.bytes, page))
            .collect();
        let formatter = Formatter::english(&printed.case, Notation::Iso);
        let figures = figures(&formatter, &printed.worksheet, Detail::Values);
        let mut looked_at = 0;
        for step in figures.sites.iter().flat_map(|site| &site.steps) {
            assert!(
                lines.contains(&step.set_shown),
                "{name}: {}",
                step.set_shown
            );
            looked_at += 1;
        }
        assert!(looked_at > 2, "{name}");
    }
}

#[test]
fn no_text_leaves_a_page_of_the_pdf() {
    for name in CASES {
        for paper in [Paper::A4, Paper::Letter] {
            let printed = of(name, paper);
            assert_eq!(check(&printed.pages, MARGIN), [], "{name}");
            for (index, page) in printed.pages.iter().enumerate() {
                let drawn = page.under.texts().into_iter().chain(page.over.texts());
                let drawn: Vec<_> = drawn.map(|text| composed(&text.content)).collect();
                let number = u32::try_from(index).unwrap() + 1;
                assert_eq!(read::lines(&printed.bytes, number), drawn, "{name}");
            }
        }
    }
}

/// The text of the code on a page. As with a telephone held to paper, one look in focus is enough.
fn code(bytes: &[u8], page: usize) -> String {
    let looks = [10.0, 12.0, 16.0].into_iter();
    let mut said = looks.flat_map(|pixels| Picture::of(bytes, page, pixels).codes());
    said.next().unwrap_or_default()
}

#[test]
fn the_code_on_every_page_says_the_fingerprint() {
    let printed = of("one-premolar", Paper::A4);
    let fingerprint = printed.worksheet.fingerprint.to_string();
    for page in 1..=printed.pages.len() {
        assert_eq!(code(&printed.bytes, page), fingerprint, "page {page}");
    }
    for name in CASES {
        let printed = of(name, Paper::Letter);
        let said = code(&printed.bytes, printed.pages.len());
        assert_eq!(said, printed.worksheet.fingerprint.to_string(), "{name}");
    }
}

/// The rectangle around the group of this id on a page.
fn group(page: &Page, id: &str) -> Option<Rect> {
    fn find(items: &[Item], id: &str) -> Option<Rect> {
        items.iter().find_map(|item| match item {
            Item::Group(group) if group.id == id => {
                let mut drawing = Drawing::new();
                group
                    .items
                    .iter()
                    .cloned()
                    .for_each(|item| drawing.push(item));
                drawing.bounds()
            }
            Item::Group(group) => find(&group.items, id),
            Item::Clip { items, .. } => find(items, id),
            _ => None,
        })
    }
    find(page.over.items(), id)
}

/// The ruler and each drill's stop are as far from the line of tips as they say, in a rendering.
#[test]
fn the_strip_is_as_large_as_life() {
    let mut measured = 0;
    for (name, paper) in [
        ("full-arch-upper", Paper::A4),
        ("fixed-stops", Paper::Letter),
        ("two-molars", Paper::A4),
    ] {
        let printed = of(name, paper);
        for (index, page) in printed.pages.iter().enumerate() {
            let Some(ruler) = group(page, "control-ruler") else {
                continue;
            };
            let picture = Picture::of(&printed.bytes, index + 1, 20.0);
            let (zero, end) = picture
                .dark_extent(ruler.top + 2.7, ruler.top + 3.1)
                .unwrap();
            assert!((end - zero - 50.0).abs() < 0.3, "{name}: {zero} to {end}");
            for item in &printed.worksheet.loading {
                let id = format!("loading[{} {}]", item.entry, item.copy);
                let (Some(on), Some(row)) = (&item.set, group(page, &id)) else {
                    continue;
                };
                let (Some(stop), Known::Is(set)) = (&on.stop, &on.set) else {
                    continue;
                };
                let landing = printed.case.kit.stop(stop).unwrap().landing_diameter_mm;
                // Beside the drill, on the landing face.
                let y = row.centre().y + landing.mm() / 2.0 - 0.3;
                let tip = picture
                    .first_dark(row.centre().y, zero - 1.0, zero + 1.0)
                    .unwrap();
                let face = picture.first_dark(y, tip + 3.0, tip + 60.0).unwrap();
                let off = face - tip - set.mm();
                assert!(off.abs() < 0.3, "{name}, {id}: off by {off:.2} mm");
                measured += 1;
            }
        }
    }
    assert!(measured > 20, "{measured}");
}

#[test]
fn an_approval_beside_the_case_takes_the_words_off_and_names_who_gave_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut case = read_case(&std::fs::read(demo("one-premolar")).unwrap())
        .unwrap()
        .into_case();
    case.demonstration = false;
    case.kit.demonstration = false;
    let case = ValidCase::try_from(case).unwrap();
    let file = folder.path().join("case.json");
    let signed = |case: &ValidCase| {
        let beside = read_events(&file, &case_jaw(case)).unwrap();
        let view = plan_view(case, &work_out(case), &beside.events);
        let policy = Policy::strict(20);
        let standing = standing(&beside.events, &view, &policy).unwrap();
        Signed::of(case, (&beside.events, &standing), &policy)
    };
    let nothing = signed(&case);
    let is_unread = |one: &RecordedItem| one.first.is_none() && one.second.is_none();
    assert!(nothing.readings.iter().all(is_unread), "{nothing:?}");
    let readings = Vec::new();
    assert_eq!(
        Signed {
            readings,
            ..nothing
        },
        Signed::nothing()
    );
    let before = read_events(&file, &case_jaw(&case)).unwrap();
    let view = plan_view(&case, &work_out(&case), &before.events);
    let kind = EventKind::Approval(Approval {
        fingerprint: view.fingerprint,
        covers: view.covers,
        revision: case.revision,
        accepted: view.accepted,
        purpose: view.purpose,
    });
    let (writer, who) = (
        WriterId::new("desk").unwrap(),
        Who::new("R. Thorn").unwrap(),
    );
    append_event(&file, &case_jaw(&case), &writer, printed_at(), who, kind).unwrap();
    let approved = signed(&case);
    // The end of the record is on paper, as the history is asked for it.
    let text_of = |signed: &Signed| {
        let printed = printed(case.clone(), signed, Paper::A4);
        let pages = 1..=u32::try_from(printed.pages.len()).unwrap();
        let lines = pages.flat_map(|page| read::lines(&printed.bytes, page));
        lines.collect::<Vec<_>>().join(" ")
    };
    let pdf = text_of(&approved);
    let head = read_events(&file, &case_jaw(&case))
        .unwrap()
        .events
        .head_codes();
    let [head] = &head[..] else {
        panic!("{head:?}")
    };
    assert!(pdf.contains(&head.to_string()), "{head}: {pdf}");
    assert!(!text_of(&Signed::nothing()).contains("desk 1:"));
    assert_eq!(
        approved.approval,
        ApprovalState::Approved {
            by: "R. Thorn".to_owned(),
            at: printed_at(),
            names_decisions: true,
        }
    );
    let all = |printed: &Printed| read::lines(&printed.bytes, 1).join(" ");
    let sheet = all(&printed(case.clone(), &approved, Paper::A4));
    assert!(sheet.contains("approved by R. Thorn on 2031-05-06"));
    assert!(!sheet.contains("NOT APPROVED"));

    // Another distance is another plan: the approval lapses.
    let mut changed = case.into_case();
    let entry = changed.sites[0].platform_to_sleeve.as_mut().unwrap();
    entry.entered_mm = traywright_core::measure::Length::from_mm(7);
    let changed = ValidCase::try_from(changed).unwrap();
    let lapsed = signed(&changed);
    assert_eq!(lapsed.approval, ApprovalState::NotApproved);
    assert!(all(&printed(changed, &lapsed, Paper::A4)).contains("NOT APPROVED"));
}
