//! A measured value belongs to the bone that it was measured in: that scan, that state.

use super::sample::{case, mm, valid};
use traywright_core::case::{BoneState, Edit, Placement, SiteState, ValidCase, apply};
use traywright_core::plan::{
    Change, CommonCause, FindingLine, Reason, Rule, Severity, SiteHeight, Worksheet, by_cause,
    stale_values, work_out,
};
use traywright_core::sign::Purpose;

/// Of the sample's site, grafted on 2 May: the wall, and the crest that freehand depth counts from.
fn on_the_bone(case: &ValidCase) -> [Vec<Reason>; 2] {
    let sheet = work_out(case);
    let reasons = |key| {
        let found = sheet.findings.iter().find(|f| f.rule.key() == key);
        found.unwrap().value.reasons().to_vec()
    };
    [reasons("wall"), reasons("tissue-room")]
}

/// The scan of before the graft stays what was measured on it, whatever is said of another scan, and
/// what is measured on that one counts.
#[test]
fn another_scan_revives_nothing_that_was_measured_before_the_graft() {
    let mut case = case();
    let on = "2026-05-02".parse().unwrap();
    case.sites[0].state = SiteState::Grafted { on };
    case.guide.scan_date = Some("2026-05-01".parse().unwrap());
    let mut case = valid(case);
    let before = |reasons: &[Reason]| matches!(reasons[0], Reason::BeforeGraft(_));
    assert!(on_the_bone(&case).iter().all(|reasons| before(reasons)));
    for day in [None, Some("2026-05-03")] {
        let mut guide = case.guide.clone();
        guide.scan_date = day.map(|day| day.parse().unwrap());
        case = apply(&case, &[Edit::SetGuide(Box::new(guide))]).unwrap();
        assert!(
            on_the_bone(&case).iter().all(|reasons| before(reasons)),
            "{day:?}"
        );
    }
    let stale = stale_values(&case, &case.sites[0]);
    assert!(stale.heights && stale.walls.iter().all(|stale| *stale));
    // On the new scan.
    let mut site = case.sites[0].clone();
    for wall in &mut site.walls {
        wall.measured_at = case.sites[0].measured_now(mm("10"));
        wall.from_axis_mm += mm("0.001");
    }
    site.confirm_heights(case.guide.scan_date, &"RT".into(), Purpose::Practice);
    let anew = apply(&case, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    assert!(
        on_the_bone(&anew).iter().all(Vec::is_empty),
        "{:?}",
        on_the_bone(&anew)
    );
    let then = &anew.sites[0].walls[0].measured_at.bone_then;
    assert_eq!(then.scan_date, anew.guide.scan_date);
    assert_eq!(then.state, Some(BoneState::Grafted));
    // A file in which the scan's date alone was changed by hand.
    let mut by_hand = anew.clone().into_case();
    by_hand.guide.scan_date = Some("2026-05-09".parse().unwrap());
    assert!(
        on_the_bone(&valid(by_hand.clone()))
            .iter()
            .all(Vec::is_empty)
    );
    let on = "2026-05-04".parse().unwrap();
    by_hand.sites[0].state = SiteState::Grafted { on };
    assert!(
        on_the_bone(&valid(by_hand.clone()))
            .iter()
            .all(|reasons| before(reasons))
    );
}

/// Without a date of the scan nobody knows of which bone it is: what was measured on it counts no more than the other.
#[test]
fn a_scan_of_no_date_is_of_no_grafted_bone() {
    let mut case = case();
    assert!(on_the_bone(&valid(case.clone())).iter().all(Vec::is_empty));
    let on = "2026-05-02".parse().unwrap();
    case.sites[0].state = SiteState::Grafted { on };
    case.guide.scan_date = None;
    let undated = |reasons: &Vec<Reason>| matches!(reasons[..], [Reason::ScanUndated(_)]);
    let told = on_the_bone(&valid(case.clone()));
    assert!(told.iter().all(undated), "{told:?}");
    // All of it is one line.
    let sheet = work_out(&valid(case.clone()));
    let unknown = || {
        sheet
            .findings
            .iter()
            .filter(|f| f.severity() == Severity::Unknown)
    };
    let lines = by_cause(unknown().collect(), |one| one);
    assert!(unknown().count() > 2);
    let [FindingLine::Cause(CommonCause::ScanUndated, _)] = lines[..] else {
        panic!("{lines:?}");
    };
    // Nor where the site was moved, or set to another depth, since: that takes of it what it may, and gives it no date.
    let undated_wall = |sheet: &Worksheet| {
        let walls = sheet.findings.iter().filter(|one| one.rule == Rule::Wall);
        let walls: Vec<&[Reason]> = walls.map(|one| one.value.reasons()).collect();
        assert!(!walls.is_empty());
        let is_it = |reason: &Reason| matches!(reason, Reason::ScanUndated(_));
        walls.iter().all(|reasons| reasons.iter().any(is_it))
    };
    for change in [0, 1] {
        let mut site = case.sites[0].clone();
        if let (Placement::OnArch { along_mm, .. }, 0) = (&mut site.placement, change) {
            *along_mm += mm("0.1");
        } else {
            let depth = site.heights.platform_below_crest.as_mut().unwrap();
            depth.highest_mm += mm("0.1");
            depth.lowest_mm += mm("0.1");
        }
        let changed = apply(&valid(case.clone()), &[Edit::ChangeSite(Box::new(site))]).unwrap();
        assert!(undated_wall(&work_out(&changed)), "{change}");
    }
    case.guide.scan_date = Some("2026-05-03".parse().unwrap());
    assert!(on_the_bone(&valid(case)).iter().all(Vec::is_empty));
}

/// Walls and crest of a socket are not those of healed bone.
#[test]
fn what_was_measured_in_another_state_of_the_bone_is_stale() {
    let case = valid(case());
    let mut site = case.sites[0].clone();
    site.state = SiteState::Grafted {
        on: "2020-05-02".parse().unwrap(),
    };
    let other = apply(&case, &[Edit::ChangeSite(Box::new(site))]).unwrap();
    let bone = |reasons: &Vec<Reason>| matches!(&reasons[0], Reason::Stale(_, since) if since.change == Change::Bone);
    assert!(
        on_the_bone(&other).iter().all(bone),
        "{:?}",
        on_the_bone(&other)
    );
    let stale = stale_values(&other, &other.sites[0]);
    assert!(stale.heights && stale.walls.iter().all(|stale| *stale));
    let mut back = other.sites[0].clone();
    back.state = SiteState::Healed {};
    let back = apply(&other, &[Edit::ChangeSite(Box::new(back))]).unwrap();
    assert!(on_the_bone(&back).iter().all(Vec::is_empty));
    let mut site = other.sites[0].clone();
    site.confirm_heights(None, &"RT".into(), Purpose::Practice);
    assert_eq!(
        site.heights
            .word_on(SiteHeight::PlatformBelowCrest)
            .unwrap()
            .bone_then
            .state,
        Some(BoneState::Healed)
    );
}
