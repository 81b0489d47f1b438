//! `check` and `sheet` where the record has it that the guide is abandoned, and the case still leads by it.

use crate::desk::{Beside, said};
use traywright::Outcome;
use traywright_core::case::{Edit, Site, WithoutGuide};
use traywright_core::plan::case_jaw;
use traywright_core::sign::{EventKind, Purpose, StepDone, StepKey, Who, WriterId};
use traywright_core::store::append_event;

const WORDS: &str = "The guide is abandoned by the record, and the plan still leads through it";

fn abandon(beside: &Beside) {
    let case = beside.read();
    let kind = EventKind::StepDone(StepDone {
        step: StepKey::Abandoned {},
        piece: None,
        due: None,
        despite: Some("RT: it rocks".to_owned()),
        by_hand: None,
        purpose: Purpose::Patient,
    });
    let at = "2030-03-04T05:06:07Z".parse().unwrap();
    let (desk, who) = (WriterId::new("desk").unwrap(), Who::new("MK").unwrap());
    append_event(&beside.case, &case_jaw(&case), &desk, at, who, kind).unwrap();
}

/// Both say it, with who and why, and what to do; `check` does not end as if nothing were open.
#[test]
fn check_and_sheet_tell_an_abandoned_guide_that_the_case_still_leads_by() {
    let beside = Beside::new();
    assert!(!beside.says("check").out.contains("is abandoned"));
    abandon(&beside);
    let checked = beside.says("check");
    assert!(checked.out.contains(WORDS), "{}", checked.out);
    assert!(checked.out.contains("RT: it rocks"), "{}", checked.out);
    assert_eq!(checked.outcome, Outcome::Open);
    let to = beside.folder.path().join("sheet.pdf");
    let sheet = said(&[&"sheet", &beside.case, &"--to", &to]);
    assert!(sheet.out.contains(WORDS), "{} {}", sheet.out, sheet.err);
    // Once the plan follows nothing of it is told.
    let site = beside.read().sites[0].clone();
    let left = Site {
        without_guide: Some(WithoutGuide::of(&site, Vec::new(), false)),
        ..site
    };
    beside.save(&[Edit::ChangeSite(Box::new(left))]);
    let checked = beside.says("check");
    assert!(
        !checked.out.contains("is abandoned by the record"),
        "{}",
        checked.out
    );
}
