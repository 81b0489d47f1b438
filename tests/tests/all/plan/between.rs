//! After a small move a margin lies between two bounds, and both are kept.

use super::sample::{case, deg, mm, valid, work, worked};
use traywright_core::case::{Case, Placement};
use traywright_core::dentition::Notation;
use traywright_core::measure::Length;
use traywright_core::plan::{Finding, Mistake, Verdict, Worksheet};

use traywright_core::wording::Formatter;

/// 0.1 mm along the arch, where a crest of 45° takes or gives back 0.1·√2 = 0.14142 mm.
fn nudged(case: &mut Case) {
    let Placement::OnArch { along_mm, .. } = &mut case.sites[0].placement else {
        panic!()
    };
    *along_mm += mm("0.1");
}

const MOST: &str = "0.142";

fn canal(sheet: &Worksheet) -> &Finding {
    let mut all = sheet.findings.iter();
    all.find(|f| f.key().ends_with("sites[one].structures[mandibular_canal]"))
        .unwrap()
}

fn with_limit(limit: Length) -> Case {
    let mut case = case();
    case.limits.mandibular_canal.as_mut().unwrap().limit_mm = limit;
    case
}

fn headline(case: Case) -> String {
    let sheet = work(case.clone());
    let case = valid(case);
    let formatter = Formatter::english(&case, Notation::Iso);
    formatter.finding(canal(&sheet)).headline
}

fn left() -> Length {
    canal(&worked(|_| {})).length_value().unwrap()
}

#[test]
fn a_known_short_that_a_move_may_settle_keeps_its_bounds() {
    let left = left();
    let limit = left + mm("0.05");
    let short = with_limit(limit);
    assert_eq!(canal(&work(short.clone())).verdict, Verdict::Short);
    let mut moved = short;
    nudged(&mut moved);
    let sheet = work(moved.clone());
    let finding = canal(&sheet);
    assert_eq!(finding.verdict, Verdict::Unknown);
    assert_eq!(finding.judged_length(), Some(left + mm(MOST)));
    assert_eq!(finding.between(), Some((left - mm(MOST), left + mm(MOST))));
    let said = headline(moved);
    // To a hundredth, each to the side where it holds: the least down, the most up.
    let floor = Length::from_um((left - mm(MOST)).um().div_euclid(10) * 10);
    let ceil = Length::from_um(-(-(left + mm(MOST)).um()).div_euclid(10) * 10);
    let want = format!(
        "at worst {floor} mm, at best {ceil} mm, limit {limit} mm: measured before the site was moved or tilted"
    );
    assert!(said.ends_with(&want), "{said} for {want}");
}

#[test]
fn short_at_best_it_is_short_with_its_number() {
    let left = left();
    let mut moved = with_limit(left + mm("0.3"));
    nudged(&mut moved);
    let sheet = work(moved.clone());
    let finding = canal(&sheet);
    assert_eq!(finding.verdict, Verdict::Short);
    assert_eq!(finding.length_value(), Some(left + mm(MOST)));
    // A bound is rounded to the side where it still holds: what is left at most goes up.
    let most = Length::from_um(-(-(left + mm(MOST)).um()).div_euclid(10) * 10);
    assert!(most > left + mm(MOST));
    let said = headline(moved);
    assert!(said.contains(&format!("{most} mm at most")), "{said}");
    // Nothing settles what no longer holds but measuring anew.
    assert!(!traywright_core::plan::may_be_accepted(finding));
}

/// Without the guide a stop lands on the crest: as deep as it would have before the move, about.
#[test]
fn a_moved_site_keeps_its_mix_ups() {
    let kinds = |case: Case| -> Vec<(bool, Length)> {
        let sheet = work(case);
        let without = |m: &Mistake| matches!(m, Mistake::WithoutGuide { .. });
        let all = sheet.mix_ups.iter();
        all.map(|one| (without(&one.mistake), one.cut)).collect()
    };
    let before = kinds(case());
    assert!(before.iter().any(|(without_guide, _)| *without_guide));
    let mut moved = case();
    nudged(&mut moved);
    assert_eq!(kinds(moved.clone()), before);
    let sheet = work(moved.clone());
    let moved = valid(moved);
    let formatter = Formatter::english(&moved, Notation::Iso);
    let said = formatter.mix_up(&sheet.mix_ups[0]).mistake;
    let by = "by the crest as it was measured before the site was moved or tilted";
    assert!(said.ends_with(by), "{said}");
    // And it is said that this is not known for sure.
    assert!(!sheet.sites[0].mix_ups_not_tried.is_none());
    // A tilt by as little does the same.
    let mut tilted = case();
    if let Placement::OnArch {
        apex_to_buccal_deg, ..
    } = &mut tilted.sites[0].placement
    {
        *apex_to_buccal_deg = deg("0.1");
    }
    assert_eq!(kinds(tilted), before);
}
