//! The sheet as a record: readings with who and when, or that there is none.

use super::samples::changed;
use super::*;
use crate::measure::Length;
use crate::sign::Stage;

fn form(case: &ValidCase, signed: &Signed, readings: Readings) -> Vec<Page> {
    let printing = Printing {
        parts: Parts::of([SheetPart::Form]),
        readings,
        ..Printing::all(Paper::A4)
    };
    let worksheet = work_out(case);
    let (iso, at) = (Notation::Iso, printed_at());
    let pages = checklist(case, &worksheet, signed, None, printing, iso, at).unwrap();
    holds_together(&pages, "record");
    pages
}

/// One drill was read once, with a figure of its own so that it is found.
fn one_reading(case: &ValidCase) -> (Signed, usize) {
    let worksheet = work_out(case);
    let read = worksheet.loading.iter().filter(|item| {
        let on = item.set.as_ref();
        on.is_some_and(|on| on.stop.is_some())
    });
    let items: Vec<_> = read.collect();
    let on = items[0].set.as_ref().unwrap();
    let readings = vec![RecordedItem {
        drill: items[0].entry.clone(),
        stop: on.stop.as_ref().map(ToString::to_string),
        set: on.set.get().unwrap(),
        first: Some(RecordedReading {
            value: Length::from_um(17_650),
            who: "R. Thorn".to_owned(),
            at: printed_at(),
            stage: Stage::Bench,
        }),
        second: None,
    }];
    let signed = Signed {
        readings,
        ..Signed::nothing()
    };
    (signed, items.len())
}

#[test]
fn what_was_read_stands_with_who_and_when_and_what_was_not_is_said() {
    let case = changed("two-molars", |_| {});
    let (signed, count) = one_reading(&case);
    let text = read(&form(&case, &signed, Readings::Filled));
    assert!(text.contains("17.65 R. Thorn, 2031-05-06"), "{text}");
    // What stays sealed is read when it is opened, and has boxes for that.
    let sealed = work_out(&case).loading;
    let sealed = sealed
        .iter()
        .filter(|item| item.unopened && item.set.is_some());
    let sealed = sealed.count();
    assert!(
        sealed > 0 && text.contains("Sealed until called for"),
        "{text}"
    );
    let unread = text.matches("not recorded").count();
    assert_eq!(unread, 2 * (count - sealed) - 1);
    assert_eq!(text.matches("record closed by").count(), 1);
    // The leaf for a reading without figures is for what was not read twice.
    assert!(text.contains("By a person other than"), "{text}");
    let blank = read(&form(&case, &signed, Readings::Blank));
    assert!(!blank.contains("17.65") && !blank.contains("not recorded"));
    assert!(blank.contains("By a person other than"));
}
