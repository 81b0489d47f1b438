//! Edits of a case: all or none, what a made guide holds, and what undoing brings back.

use crate::demo;
use crate::desk::patient;
use traywright_core::case::{
    Edit, EditRefused, GuideState, Placement, PlatformToSleeve, ReceiptOf, Site, ValidCase, apply,
    to_save,
};
use traywright_core::measure::Length;

fn mm(text: &str) -> Length {
    Length::parse_mm(text).unwrap()
}

fn change(case: &ValidCase, of: impl FnOnce(&mut Site)) -> Edit {
    let mut site = case.sites[0].clone();
    of(&mut site);
    Edit::ChangeSite(Box::new(site))
}

fn farther(case: &ValidCase) -> Edit {
    change(case, |site| {
        let old = site.platform_to_sleeve.unwrap();
        site.platform_to_sleeve = Some(PlatformToSleeve {
            entered_mm: old.entered_mm + mm("0.1"),
            ..old
        });
    })
}

fn guide(case: &ValidCase, state: GuideState) -> Edit {
    let mut guide = case.guide.clone();
    guide.state = state;
    Edit::SetGuide(Box::new(guide))
}

#[test]
fn edits_are_carried_out_all_or_none() {
    let case = patient();
    let before = case.clone();
    let note = Edit::SetNote(Some("changed".to_owned()));
    let lost = Edit::RemoveSite("q99".into());
    let refused = apply(&case, &[note.clone(), lost.clone()]).unwrap_err();
    assert_eq!(refused, EditRefused::NoSuchSite("q99".into()));
    assert!(apply(&case, &[lost, note.clone()]).is_err());
    let unsound = change(&case, |site| site.implant = "oak".into());
    let Err(EditRefused::Invalid(faults)) = apply(&case, &[note.clone(), unsound]) else {
        panic!("an unsound case was made");
    };
    assert_eq!(faults.iter().next().unwrap().args["id"], "oak".into());
    assert_eq!(case, before);
    assert_eq!(
        apply(&case, &[note]).unwrap().note.as_deref(),
        Some("changed")
    );
}

/// Two edits that are unsound one by one and sound together.
#[test]
fn only_the_end_of_a_batch_has_to_be_sound() {
    let case = demo::valid("two-molars");
    let mut second = case.sites[1].clone();
    second.id = "m47-again".into();
    let add = Edit::AddSite(Box::new(second));
    let remove = Edit::RemoveSite("m47".into());
    assert!(
        apply(&case, std::slice::from_ref(&add)).is_err(),
        "two sites on one tooth"
    );
    // A distance of the first site names the second one by its old id.
    let first = change(&case, |site| site.distances.clear());
    let after = apply(&case, &[add, first, remove]).unwrap();
    let ids: Vec<&str> = after.sites.iter().map(|site| site.id.as_str()).collect();
    assert_eq!(ids, ["m46", "m47-again"]);
}

/// An edit of a made guide and the part that stays.
type Locked = (&'static str, fn(&ValidCase) -> Vec<Edit>);

#[test]
fn a_made_guide_locks_distance_axis_and_sleeve() {
    let case = patient();
    assert_eq!(case.guide.state, GuideState::Made);
    let locked: [Locked; 8] = [
        ("distance", |case| vec![farther(case)]),
        ("distance", |case| {
            vec![change(case, |site| site.platform_to_sleeve = None)]
        }),
        ("axis", |case| {
            vec![change(case, |site| {
                let Placement::OnArch { along_mm, .. } = &mut site.placement else {
                    panic!()
                };
                *along_mm = mm("0.4");
            })]
        }),
        ("sleeve", |case| {
            let mut kit = case.kit.clone();
            let mut other = kit.master_sleeves[0].clone();
            other.id = "other".into();
            kit.master_sleeves.push(other);
            let to_other = change(case, |site| site.master_sleeve = "other".into());
            vec![Edit::TakeKit(Box::new(kit)), to_other]
        }),
        ("sleeve", |case| {
            let mut kit = case.kit.clone();
            kit.master_sleeves[0].height_mm = mm("3.95");
            vec![Edit::TakeKit(Box::new(kit))]
        }),
        ("sleeve", |case| {
            let mut kit = case.kit.clone();
            kit.master_sleeves[0].bore_mm = mm("4.34");
            vec![Edit::TakeKit(Box::new(kit))]
        }),
        // Taken out and put in again.
        ("distance", |case| {
            let Edit::ChangeSite(site) = farther(case) else {
                panic!()
            };
            let mut guide = case.guide.clone();
            guide.receipt.clear();
            vec![
                Edit::SetGuide(Box::new(guide)),
                Edit::RemoveSite(site.id.clone()),
                Edit::AddSite(site),
            ]
        }),
        // Made anew within one batch.
        ("distance", |case| {
            vec![
                guide(case, GuideState::Planned),
                farther(case),
                guide(case, GuideState::Made),
            ]
        }),
    ];
    for (n, (part, edits)) in locked.iter().enumerate() {
        let site = case.sites[0].id.clone();
        let refused = apply(&case, &edits(&case)).unwrap_err();
        assert_eq!(refused, EditRefused::GuideIsMade { site, part }, "{n}");
    }
}

/// What the guide was not made for it does not hold: the offset, place and axis of a site that was added, which is told as
/// unknown by itself; and an offset that nobody entered.
#[test]
fn a_made_guide_holds_nothing_that_it_was_not_made_for() {
    let case = patient();
    let mut added = case.sites[0].clone();
    added.id = "added".into();
    added.tooth = "46".parse().unwrap();
    added.platform_to_sleeve = None;
    let case = apply(&case, &[Edit::AddSite(Box::new(added))]).unwrap();
    let mut site = case.sites[1].clone();
    site.platform_to_sleeve = case.sites[0].platform_to_sleeve;
    if let Placement::OnArch { at, along_mm, .. } = &mut site.placement {
        *at = site.tooth;
        *along_mm = Length::parse_mm("0.4").unwrap();
    }
    let placed = apply(&case, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    let mut lacking = patient().into_case();
    let offset = lacking.sites[0].platform_to_sleeve.take();
    let lacking = ValidCase::try_from(lacking).unwrap();
    let entered = change(&lacking, |site| site.platform_to_sleeve = offset);
    let entered = apply(&lacking, &[entered]).unwrap();
    for (case, n) in [(placed, 1), (entered, 0)] {
        assert!(case.sites[n].platform_to_sleeve.is_some());
    }
}

/// An offset that was entered after the guide was made may be a slip of a digit: it stays free until it was measured.
#[test]
fn an_offset_entered_over_a_made_guide_is_free_until_it_is_measured() {
    let made_of = |case: &ValidCase| {
        let edits = [guide(case, GuideState::Planned)];
        let mut lacking = apply(case, &edits).unwrap().into_case();
        lacking.sites[0].platform_to_sleeve = None;
        lacking.guide.made_by = None;
        let lacking = ValidCase::try_from(lacking).unwrap();
        apply(&lacking, &[guide(&lacking, GuideState::Made)]).unwrap()
    };
    let offset = patient().sites[0].platform_to_sleeve;
    let case = made_of(&patient());
    let entered = change(&case, |site| site.platform_to_sleeve = offset);
    let entered = apply(&case, &[entered]).unwrap();
    let corrected = apply(&entered, &[farther(&entered)]).unwrap();
    let mut guide = corrected.guide.clone();
    let site = &corrected.sites[0];
    let measured = site.platform_to_sleeve.unwrap().entered_mm;
    let receipt = corrected.receipt(site, ReceiptOf::PlatformToSleeve, measured);
    guide.receipt.push(receipt);
    let measured = apply(&corrected, &[Edit::SetGuide(Box::new(guide))]).unwrap();
    let refused = apply(&measured, &[farther(&measured)]).unwrap_err();
    let site = measured.sites[0].id.clone();
    let part = "distance";
    assert_eq!(refused, EditRefused::GuideIsMade { site, part });
}

/// Parts outside the guide can still be changed: another implant, another drill.
#[test]
fn a_made_guide_leaves_the_rest_free() {
    let case = patient();
    let shorter = change(&case, |site| site.implant = "reed-363-74".into());
    let fewer = change(&case, |site| drop(site.steps.remove(1)));
    let mut kit = case.kit.clone();
    kit.master_sleeves[0].name = "Narrow one".into();
    for edit in [shorter, fewer, Edit::TakeKit(Box::new(kit))] {
        assert!(apply(&case, &[edit]).is_ok());
    }
    let unlocked = apply(&case, &[guide(&case, GuideState::Planned), farther(&case)]);
    assert!(unlocked.is_ok());
}

#[test]
fn undoing_an_edit_restores_the_fingerprint() {
    for name in demo::CASES {
        let case = demo::valid(name);
        let fewer = change(&case, |site| drop(site.steps.pop()));
        let after = apply(&case, &[fewer]).unwrap();
        assert_ne!(after.fingerprint(), case.fingerprint(), "{name}");
        let undone = change(&case, |_| {});
        let back = apply(&after, &[undone]).unwrap();
        assert_eq!(back, case, "{name}");
        assert_eq!(back.fingerprint(), case.fingerprint(), "{name}");
    }
}

/// The revision rises by one where the fingerprint changes, whatever happens between two saves, and
/// never otherwise.
#[test]
fn the_revision_rises_by_one_where_a_saved_figure_changes() {
    let case = patient();
    let revision = case.revision;
    assert_eq!(to_save(&case, None).revision, revision, "the first save");
    assert_eq!(to_save(&case, Some(&case)).revision, revision);
    let note = apply(&case, &[Edit::SetNote(Some("x".to_owned()))]).unwrap();
    assert_eq!(to_save(&note, Some(&case)).revision, revision);
    let fewer =
        |case: &ValidCase| apply(case, &[change(case, |site| drop(site.steps.pop()))]).unwrap();
    let once = fewer(&case);
    assert_eq!(to_save(&once, Some(&case)).revision, revision + 1);
    let twice = fewer(&once);
    assert_eq!(
        to_save(&twice, Some(&case)).revision,
        revision + 1,
        "two edits, one save"
    );
    let saved = to_save(&once, Some(&case));
    assert_eq!(to_save(&fewer(&saved), Some(&saved)).revision, revision + 2);
    // Back at the first plan: again another one than what was saved last.
    assert_eq!(to_save(&case, Some(&saved)).revision, revision + 2);
}

/// A guide that is to be made anew was not measured: what was measured of the old one goes with the same
/// step, and does not come back with the next guide. While it was never made, nothing goes.
#[test]
fn what_was_measured_on_a_guide_goes_with_it() {
    let case = demo::valid("one-premolar");
    assert_eq!(case.guide.state, GuideState::Made);
    assert!(!case.guide.receipt.is_empty());
    let planned = apply(&case, &[guide(&case, GuideState::Planned)]).unwrap();
    assert_eq!(planned.guide.receipt, []);
    let made = apply(&planned, &[guide(&planned, GuideState::Made)]).unwrap();
    assert_eq!(made.guide.receipt, []);
    let measured = Edit::SetGuide(Box::new(case.guide.clone()));
    let measured = apply(&made, &[measured]).unwrap();
    assert_eq!(measured.guide.receipt, case.guide.receipt);
}

/// The revision does not belong to the fingerprint, or saving would withdraw every approval.
#[test]
fn saving_does_not_change_the_fingerprint() {
    let case = patient();
    let fewer = apply(&case, &[change(&case, |site| drop(site.steps.pop()))]).unwrap();
    let saved = to_save(&fewer, Some(&case));
    assert_ne!(saved.revision, fewer.revision);
    assert_eq!(saved.fingerprint(), fewer.fingerprint());
}

/// As typed in the window, and as it stands in a file: U+202E shows what follows it from right to left
/// (Unicode Standard Annex 9, 2.2).
#[test]
fn what_turns_a_text_is_refused_at_its_place() {
    use traywright_core::case::{Case, read_case, read_kit};
    use traywright_core::document::{Faults, Rule, print};
    let case = patient();
    let told = |faults: &Faults| -> Vec<String> {
        let rules = [Rule::UnseenCharacter, Rule::UnprintableCharacter];
        let unseen = faults.iter().filter(|f| rules.contains(&f.rule));
        let told = unseen.map(|fault| format!("{} {}", fault.path, fault.args["code"]));
        told.collect()
    };
    let note = Edit::SetNote(Some("deeper \u{202e}1 mm".to_owned()));
    match apply(&case, &[note]) {
        Err(EditRefused::Invalid(faults)) => assert_eq!(told(&faults), ["note U+202E"]),
        other => panic!("{other:?}"),
    }
    // A soft hyphen is drawn by nothing (`Default_Ignorable_Code_Point`): two codes would look alike.
    match apply(&case, &[Edit::SetNote(Some("KX\u{ad}17".to_owned()))]) {
        Err(EditRefused::Invalid(faults)) => assert_eq!(told(&faults), ["note U+00AD"]),
        other => panic!("{other:?}"),
    }
    // Two names in a script that paper cannot bear would be one there.
    let mut named: Case = (*case).clone();
    named.reference = "KX\t李".into();
    named.note = Some("two\nlines 李".to_owned());
    let faults = read_case(print(&named).unwrap().as_bytes()).unwrap_err();
    assert_eq!(told(&faults), ["reference U+674E"]);
    let mut written: Case = (*case).clone();
    written.reference = "KX\u{2066}-17".into();
    written.guide.code = Some("G\u{7f}1".into());
    written.kit.drills[0].name = "2.0 \u{200f}short".into();
    written.note = Some("two\nlines".to_owned());
    let text = print(&written).unwrap();
    let faults = read_case(text.as_bytes()).unwrap_err();
    let want = [
        "reference U+2066",
        "guide.code U+007F",
        "kit.drills[0].name U+200F",
    ];
    assert_eq!(told(&faults), want);
    let kit = print(&written.kit).unwrap();
    assert_eq!(told(&read_kit(kit.as_bytes()).unwrap_err()).len(), 1);
}
