//! The pages hold together whatever the case.

mod accepted;
mod any_case;
mod at_the_tray;
mod by_hand;
mod content;
mod day;
mod filled;
mod left_out;
mod parts;
mod record;
mod rows;
mod run;
mod samples;
mod set_anew;

use super::*;
use crate::dentition::Notation;
use crate::plan::work_out;
use crate::sheet::check;
use samples::printed_at;

/// Nothing may come nearer to the paper's edge, mm.
const MARGIN: f64 = 5.0;

/// A case's pages without any approval.
fn pages(case: &ValidCase, paper: Paper) -> Vec<Page> {
    signed(case, &Signed::nothing(), paper)
}

fn signed(case: &ValidCase, signed: &Signed, paper: Paper) -> Vec<Page> {
    let worksheet = work_out(case);
    checklist(
        case,
        &worksheet,
        signed,
        None,
        Printing::all(paper),
        Notation::Iso,
        printed_at(),
    )
    .unwrap_or_else(|error| panic!("{}: {error:?}", case.reference))
}

/// Everything that is read on a page, line by line.
fn lines(page: &Page) -> Vec<&str> {
    let texts = page.over.texts().into_iter();
    texts.map(|text| text.content.as_str()).collect()
}

/// Everything that is read on all pages, as one line without the breaks of wrapped words.
fn read(pages: &[Page]) -> String {
    let all: Vec<&str> = pages.iter().flat_map(lines).collect();
    all.join(" ")
}

/// No text leaves its page, overlaps another or is cut, and each has its words.
fn holds_together(pages: &[Page], what: &str) {
    let faults: Vec<String> = check(pages, MARGIN)
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(faults, Vec::<String>::new(), "{what}");
    let gaps = read(pages);
    let gaps: Vec<&str> = gaps.matches('⟨').collect();
    assert_eq!(gaps, Vec::<&str>::new(), "{what}: a text is missing");
}
