//! What was cut is in the bone, whatever becomes of the plan.

use super::room::Room;
use crate::case::{Case, Edit, GuidedExtent, Setting, ValidCase, apply};
use crate::kit::{DepthRule, SiteId};
use crate::measure::Length;
use crate::plan::{StepSheet, Verdict, case_jaw, plan_view, work_out};
use crate::samples::{demo, valid};
use crate::sign::{ByHand, EventKind, Merged, Policy, StepDone, StepKey, standing};
use crate::surgery::*;

impl Room {
    /// A changed case with what was cut until then.
    fn kept(&self, after: &ValidCase) -> ValidCase {
        let events = Merged::of(case_jaw(&self.case), [self.log.clone()]).unwrap();
        let view = plan_view(&self.case, &self.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        let recorded = (&view, &standing);
        let before = (&self.case, &self.worksheet);
        let edits = what_was_cut(before, recorded, (after, &work_out(after)));
        apply(after, &edits).unwrap()
    }

    /// What is cut at each site by the steps that were done, by the plan.
    fn done_cuts(&self) -> Vec<(SiteId, StepSheet)> {
        self.look(|day| {
            let done = day.steps.iter().filter(|step| step.state.is_done());
            let drills = done.filter_map(|step| match &step.work {
                Work::Drill(drilling) => Some((drilling.site.id.clone(), drilling.step.clone())),
                _ => None,
            });
            drills.collect()
        })
    }
}

type Change = fn(&mut Case);

/// Each lets the same steps, or others in their place, cut less deep or less wide by the plan.
const CHANGES: [(&str, Change); 8] = [
    ("steps taken out", |case| {
        case.sites.iter_mut().for_each(|site| site.steps.clear());
    }),
    ("each its own setting, or one figure", |case| {
        for site in &mut case.sites {
            site.setting = match site.setting {
                Setting::OneFigure => Setting::EachStep,
                Setting::EachStep => Setting::OneFigure,
            };
        }
    }),
    ("the pilot alone", |case| {
        for site in &mut case.sites {
            site.guided_extent = GuidedExtent::PilotOnly;
        }
    }),
    ("less allowance", |case| {
        for implant in &mut case.kit.implants {
            implant.apical_allowance_mm = Length::ZERO;
        }
    }),
    ("thinner drills", |case| {
        for drill in &mut case.kit.drills {
            drill.cutting_diameter_mm = drill.cutting_diameter_mm - Length::from_um(100);
        }
    }),
    ("shallower", |case| {
        for step in case.sites.iter_mut().flat_map(|site| &mut site.steps) {
            step.depth = DepthRule::BelowPlatform {
                depth_mm: Length::from_mm(4),
            };
        }
    }),
    ("less deep below the crest", |case| {
        for site in &mut case.sites {
            if let Some(crest) = &mut site.heights.platform_below_crest {
                crest.highest_mm += Length::from_um(-500);
                crest.lowest_mm += Length::from_um(-500);
            }
        }
    }),
    ("deeper", |case| {
        for site in &mut case.sites {
            if let Some(crest) = &mut site.heights.platform_below_crest {
                crest.highest_mm += Length::from_mm(1);
                crest.lowest_mm += Length::from_mm(1);
            }
        }
    }),
];

/// Every step that was done counts as deep as it was cut, or nobody knows: in no demo case, at no step, after no change does the
/// deepest cut of its site become less than that.
#[test]
fn what_was_done_counts_whatever_is_planned_since() {
    let mut kept = 0;
    for (name, file) in demo::CASES {
        let mut room = Room::of(file);
        let is_drill = |key: &StepKey| matches!(key, StepKey::Drill { .. });
        for _ in 0..5 {
            let open = |day: &Day<'_>| day.open_from(0).any(|(_, step)| is_drill(&step.key));
            if !room.look(open) {
                break;
            }
            let due = room.until(|key| matches!(key, StepKey::Drill { .. }));
            room.done(due);
        }
        let done = room.done_cuts();
        assert!(!done.is_empty(), "{name}");
        for (what, change) in CHANGES {
            let mut changed: Case = (*room.case).clone();
            change(&mut changed);
            let Ok(changed) = ValidCase::checked(&changed) else {
                continue;
            };
            let after = room.kept(&changed);
            kept += after
                .sites
                .iter()
                .map(|site| site.cut_before.len())
                .sum::<usize>();
            let sheet = work_out(&after);
            for (site, step) in &done {
                let (Some(cut), Some(sheet)) = (
                    step.cut.length(),
                    sheet.sites.iter().find(|one| one.id == *site),
                ) else {
                    continue;
                };
                let deepest = sheet.deepest_cut.length();
                assert!(
                    deepest.is_none_or(|deepest| deepest >= cut),
                    "{name}, {what}: {deepest:?} for {cut}"
                );
            }
        }
    }
    assert!(kept > 20, "{kept}");
}

/// The plan as it was cuts what was cut: nothing is kept, so that what was approved is that still, after any number of steps; nor is
/// anything kept twice, nor where nothing was ever cut.
#[test]
fn a_change_that_is_undone_leaves_nothing() {
    let mut most = 0;
    for (name, file) in demo::CASES {
        let mut room = Room::of(file);
        let due = room.until(|key| matches!(key, StepKey::Drill { .. }));
        room.done(due);
        assert_eq!(room.kept(&room.case), room.case, "{name}");
        let mut other: Case = (*room.case).clone();
        other.note = Some("seen".to_owned());
        let other = valid(other);
        assert_eq!(room.kept(&other), other, "{name}");
        let first = room.case.clone();
        let mut now = room.copy();
        for allowance in [100, 200, 300, 400] {
            let mut case: Case = (*now.case).clone();
            for implant in &mut case.kit.implants {
                implant.apical_allowance_mm = Length::from_um(allowance);
            }
            let kept = now.kept(&valid(case));
            now = now.changed(|case| *case = (*kept).clone());
            let all = now.case.sites.iter().flat_map(|site| &site.cut_before);
            // A fixed stop may cut as before.
            let kept = all.count();
            assert!(kept <= 1, "{name}");
            most = most.max(kept);
        }
        assert_eq!(now.kept(&first), first, "{name}");
        let changed = room.changed(|case| CHANGES[0].1(case));
        let kept = room.kept(&changed.case);
        assert_ne!(kept, changed.case, "{name}");
        // A version of another desk that does not cut it has it still.
        let after = room.changed(|case| *case = (*kept).clone());
        assert_eq!(after.kept(&changed.case), kept, "{name}");
    }
    assert_eq!(most, 1);
}

/// What a person measured or said of it stays; what was taken back in the record goes.
#[test]
fn what_a_person_said_of_it_stays() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let due = room.until(|key| matches!(key, StepKey::Drill { .. }));
    let event = room.done(due.clone());
    let changed = room.changed(|case| CHANGES[0].1(case));
    let kept = room.kept(&changed.case);
    let mut out = room.changed(|case| {
        *case = (*kept).clone();
        for one in case.sites.iter_mut().flat_map(|site| &mut site.cut_before) {
            one.out = true;
        }
    });
    assert_eq!(out.kept(&out.case), out.case);
    assert_eq!(out.kept(&changed.case), out.case);
    let purpose = out.purpose;
    out.record(EventKind::StepTakenBack(crate::sign::StepTakenBack {
        event,
        step: due,
        reason: Some("another site".to_owned()),
        purpose,
    }));
    assert_eq!(out.kept(&out.case), changed.case);
}

/// By hand nobody knows how deep: nothing there is clear once the plan is another. What was practised is in nobody's bone.
#[test]
fn by_hand_nobody_knows_how_deep() {
    let mut room = Room::of(demo::TWO_MOLARS);
    let due = room.until(|key| matches!(key, StepKey::Drill { .. }));
    let site = due.site().unwrap().site.clone();
    let purpose = room.purpose;
    room.record(EventKind::StepDone(StepDone {
        step: due,
        piece: None,
        due: None,
        despite: None,
        by_hand: Some(ByHand { aimed_mm: None }),
        purpose,
    }));
    let changed = room.changed(|case| CHANGES[0].1(case));
    let kept = room.kept(&changed.case);
    let here = kept.site(&site).unwrap();
    assert_eq!(here.cut_before.len(), 1);
    assert_eq!(here.cut_before[0].tip_mm, None);
    let found = |case: &ValidCase| {
        let sheet = work_out(case);
        let mut here = sheet.findings.into_iter().filter(|one| {
            let at = crate::case::Rule::CutBeforeUnknown;
            one.rule == at && one.is_of(&SiteId::from(site.as_str()))
        });
        here.next().map(|one| one.verdict)
    };
    assert_eq!(found(&kept), Some(Verdict::Unknown));
    let practice = kept.demonstration;
    let other = apply(&kept, &[Edit::SetDemonstration(!practice)]).unwrap();
    assert_eq!(found(&other), None);
}

/// What was drilled before the plan was changed, and cannot be set as the plan now has it: to accept that makes no figure of it that
/// a hand would set. Where nothing was drilled the word of who accepts it counts.
#[test]
fn what_was_used_is_accepted_and_not_set_anew() {
    use crate::case::{Decision, DecisionKind, Rule};
    use crate::plan::Fits;
    for drilled in [false, true] {
        let mut room = Room::of(demo::TWO_MOLARS);
        let due = room.until(|key| matches!(key, StepKey::Drill { .. }));
        let StepKey::Drill { site, id, .. } = due.clone() else {
            panic!("{due:?}")
        };
        if drilled {
            room.done(due);
        }
        // The stop no longer sits on the drill's clamping length.
        let nearer = room.changed(|case| {
            let distance = case.sites[0].platform_to_sleeve.as_mut().unwrap();
            distance.entered_mm = distance.entered_mm - crate::samples::mm("0.4");
        });
        let kept = room.kept(&nearer.case);
        let here = |case: &ValidCase| {
            let sheet = work_out(case);
            let sheet = sheet
                .sites
                .into_iter()
                .find(|one| one.id.as_str() == site.site);
            let step = sheet
                .unwrap()
                .steps
                .into_iter()
                .find(|step| step.id.as_str() == id);
            step.unwrap().fits
        };
        assert_eq!(here(&kept), Fits::No);
        let sheet = work_out(&kept);
        let off = |one: &&crate::plan::Finding| one.rule == Rule::OffClampingLength;
        let off = sheet.findings.iter().find(off).unwrap();
        let word = Decision::new(
            (off.key(), off.digest()),
            DecisionKind::Accepted,
            "drilled before the change",
            "R. Teal",
        );
        let accepted = apply(&kept, &[Edit::Judge(word.unwrap())]).unwrap();
        let fits = if drilled {
            Fits::No
        } else {
            Fits::AsFarAsKnown
        };
        assert_eq!(here(&accepted), fits, "{drilled}");
    }
}

/// A patient's site at which something is in the bone is taken out by no edit; what is out, or was practised, holds nothing.
#[test]
fn a_site_with_a_hole_stays() {
    let mut room = Room::with(demo::TWO_MOLARS, |case| case.demonstration = false);
    let without = room.changed(|case| {
        let first = case.sites[0].id.clone();
        case.sites.retain(|site| site.id != first);
        case.guide.receipt.retain(|one| one.site != first);
        case.tray_places.clear();
        case.run = crate::case::RunWishes::default();
        for site in &mut case.sites {
            site.distances.clear();
        }
    });
    let stays = |room: &Room| {
        let events = Merged::of(case_jaw(&room.case), [room.log.clone()]).unwrap();
        let view = plan_view(&room.case, &room.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        cut_without_site(&room.case, &standing, &without.case)
    };
    assert_eq!(stays(&room), None);
    let first = room.case.sites[0].id.to_string();
    let of_first = |key: &StepKey| matches!(key, StepKey::Drill { site, .. } if site.site == first);
    let due = room.until(of_first);
    room.done(due);
    assert_eq!(stays(&room), Some(SiteId::from(&*first)));
    assert_eq!(stays(&room.changed(|case| case.demonstration = true)), None);
}

/// Once a record was put aside its events are counted from one again: what another event of the same place did is another thing.
#[test]
fn what_a_new_record_has_is_kept_beside_what_an_older_one_had() {
    let is_drill = |key: &StepKey| matches!(key, StepKey::Drill { .. });
    let mut room = Room::of(demo::TWO_MOLARS);
    let due = room.until(is_drill);
    room.done(due.clone());
    let mut anew = room.changed(|_| {});
    let shallower = room.changed(|case| CHANGES[5].1(case));
    let kept = room.kept(&shallower.case);
    assert_eq!(kept.sites[0].cut_before.len(), 1);
    anew.case = kept;
    anew.worksheet = work_out(&anew.case);
    let before = anew.log.clone();
    anew.log = crate::sign::Log::new(
        &case_jaw(&anew.case),
        crate::sign::WriterId::new("desk").unwrap(),
    );
    let site = due.site().unwrap();
    let drills: Vec<StepKey> = anew.look(|day| {
        let here = day.steps.iter().map(|step| step.key.clone());
        let here = here.filter(|key| is_drill(key) && key.site() == Some(site));
        here.collect()
    });
    let places = before.events().len();
    for step in drills.into_iter().cycle().take(places) {
        let at = jiff::Timestamp::from_second(1_950_000_000).unwrap();
        let kind = EventKind::StepDone(StepDone {
            step,
            piece: None,
            due: None,
            despite: None,
            by_hand: None,
            purpose: anew.purpose,
        });
        let who = crate::sign::Who::new("MK").unwrap();
        anew.log.append(at, who, kind).unwrap();
    }
    let changed = anew.changed(|case| CHANGES[0].1(case));
    let all = anew.kept(&changed.case);
    let entries: usize = all.sites.iter().map(|site| site.cut_before.len()).sum();
    assert_eq!(entries, 1 + places);
}
