//! Going on without the guide.

use super::room::*;
use crate::case::{Edit, GuidedExtent, Site, Step, StepThrough, WithoutGuide, apply};
use crate::kit::{DepthRule, SlotKind};
use crate::measure::Length;
use crate::plan::{plan_view, with_planned, work_out};
use crate::samples::demo;
use crate::sign::{DrillKey, Led, Merged, Policy, standing};
use crate::surgery::*;
use std::collections::BTreeMap;

impl Room {
    /// The edits that leave the guide, at the site of a step or at each.
    fn edits_without(&self, step: Option<&StepKey>) -> Vec<Edit> {
        let events = Merged::of(crate::plan::case_jaw(&self.case), [self.log.clone()]).unwrap();
        let view = plan_view(&self.case, &self.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        let day = day(&self.case, &self.worksheet, (&view, &standing));
        let site = step.and_then(StepKey::site);
        let site = site.map(|site| SiteId::from(site.site.as_str()));
        let edits = without_guide(&self.case, (&day, &standing), site.as_ref());
        tray_stays((&self.case, &self.worksheet), (&view, &standing), edits)
    }

    /// The same record once the guide was left.
    pub(super) fn without_guide(&self, step: Option<&StepKey>) -> Self {
        let case = apply(&self.case, &self.edits_without(step)).unwrap();
        let worksheet = work_out(&case);
        Self {
            case,
            worksheet,
            log: self.log.clone(),
            purpose: self.purpose,
        }
    }

    /// Every drill of the tray set and laid as planned, and everything else laid.
    pub(super) fn load(&mut self) {
        let events = Merged::of(crate::plan::case_jaw(&self.case), [self.log.clone()]).unwrap();
        let view = plan_view(&self.case, &self.worksheet, &events);
        let purpose = Some(self.purpose);
        let worksheet = self.worksheet.clone();
        for (item, planned) in with_planned(&worksheet, &view) {
            let slot = item.slot.as_ref().map(ToString::to_string);
            self.record(match planned {
                Some(planned) => EventKind::Placed {
                    item: planned.key.clone(),
                    slot: slot.unwrap(),
                    purpose,
                },
                None => EventKind::ThingPlaced {
                    thing: count::thing_of(item),
                    slot,
                    purpose,
                },
            });
        }
    }

    /// The slot of everything by the plan: drills by the step that they serve, with its setting.
    fn slots(&self, of: impl Fn(&str) -> bool) -> BTreeMap<String, Option<String>> {
        let mut found = BTreeMap::new();
        for item in &self.worksheet.loading {
            let slot = item.slot.as_ref().map(ToString::to_string);
            for one in &item.serves {
                let site = one
                    .site
                    .as_ref()
                    .map(ToString::to_string)
                    .unwrap_or_default();
                if of(&site) {
                    let step = one.step.as_ref().map(ToString::to_string);
                    // Of equal things the record knows the number, not the site.
                    let what = match item.kind {
                        SlotKind::Drill => format!("{site} {step:?}"),
                        kind => format!("{kind:?} {} {}", item.entry, item.copy),
                    };
                    found.insert(what, slot.clone());
                }
            }
        }
        found
    }

    fn led_of(&self, site: &str) -> Vec<(StepKey, bool)> {
        self.look(|day| {
            let here = day.steps.iter().filter(|step| is_drill(&step.key));
            let here = here.filter(|step| step.key.site().unwrap().site == site);
            here.map(|step| (step.key.clone(), step.state.is_over()))
                .collect()
        })
    }
}

fn is_led(key: &StepKey) -> bool {
    match key {
        StepKey::Drill { led, .. } | StepKey::Insert { led, .. } => *led == Led::Guide,
        _ => false,
    }
}

fn all_guided() -> Room {
    Room::with(demo::TWO_MOLARS, |case| {
        for site in &mut case.sites {
            site.guided_extent = GuidedExtent::DrillingAndImplant;
        }
    })
}

/// The step that is due and all later ones of its site are freehand, whatever they are; what was done stays as it was done.
#[test]
fn from_here_the_step_that_is_due_is_freehand_and_what_was_done_stays() {
    for before in 0..4_usize {
        let mut room = all_guided();
        let mut due = room.until(is_drill);
        for _ in 0..before {
            room.done(due);
            due = room.until(is_drill);
        }
        assert!(is_led(&due));
        let site = due.site().unwrap().site.clone();
        let done: Vec<StepKey> = room
            .led_of(&site)
            .into_iter()
            .filter(|(_, over)| *over)
            .map(|(key, _)| key)
            .collect();
        let elsewhere = |room: &Room| {
            room.look(|day| {
                let other = day
                    .steps
                    .iter()
                    .filter(|step| step.key.site().is_some_and(|at| at.site != site));
                other
                    .map(|step| (step.key.clone(), step.state.is_over()))
                    .collect::<Vec<_>>()
            })
        };
        let after = room.without_guide(Some(&due));
        let (over, open): (Vec<_>, Vec<_>) =
            after.led_of(&site).into_iter().partition(|(_, over)| *over);
        let over: Vec<StepKey> = over.into_iter().map(|(key, _)| key).collect();
        assert_eq!(over, done, "{before}");
        assert!(!open.is_empty());
        for (key, _) in &open {
            assert!(!is_led(key), "{before}: {key:?}");
        }
        let insert = after.look(|day| {
            day.steps
                .iter()
                .find(|step| is_insert(&step.key) && step.key.site().unwrap().site == site)
                .unwrap()
                .key
                .clone()
        });
        assert!(!is_led(&insert));
        assert_eq!(elsewhere(&after), elsewhere(&room), "{before}");
    }
}

/// A guided setting is void without the guide: it would go deeper. The drill as it is set is forbidden.
#[test]
fn a_guided_setting_is_void_without_the_guide() {
    let mut room = all_guided();
    room.load();
    let due = room.until(is_drill);
    let set = |room: &Room, key: &StepKey| {
        room.look(|day| {
            let step = day
                .steps
                .iter()
                .find(|step| step.key.is_same_work(key))
                .unwrap();
            (step.key.clone(), step.not_ready.clone())
        })
    };
    let after = room.without_guide(Some(&due));
    let (key, why) = set(&after, &due);
    let of = |key: &StepKey| match key {
        StepKey::Drill { with, .. } => with.set_mm,
        _ => None,
    };
    if let (Some(then), Some(now)) = (of(&due), of(&key)) {
        assert!(now < then, "{now:?} {then:?}");
    }
    assert!(
        why.iter().any(NotReady::forbids) || why.contains(&NotReady::NotLaid),
        "{why:?}"
    );
}

/// What lies on the tray is a fact: a change on the table moves nothing of another site, in no case and at no step.
#[test]
fn nothing_of_another_site_moves_on_the_tray() {
    for (name, file) in demo::CASES {
        let mut room = Room::of(file);
        room.load();
        let mut seen = 0;
        while let Some(due) = room.due() {
            if is_led(&due) {
                seen += 1;
                let site = due.site().unwrap().site.clone();
                let after = room.without_guide(Some(&due));
                let other = |at: &str| at != site;
                let (then, now) = (room.slots(other), after.slots(other));
                for (what, slot) in &then {
                    let after = now.get(what);
                    // A carrier or sleeve less is asked for: which one lies idle is told.
                    let is_less = after.is_none() && what.contains(' ') && !what.contains("Some(");
                    assert!(is_less || after == Some(slot), "{name}: {what}: {after:?}");
                }
            }
            room.until(|key| *key == due);
            match &due {
                StepKey::CountIn { .. } | StepKey::CountOut { .. } => room.count(due, 0),
                StepKey::Sound { planned_mm, .. } => match planned_mm {
                    Some(planned) => room.sound(due.clone(), *planned),
                    None => room.skip(due),
                },
                StepKey::Insert { led, .. } => {
                    let way = if *led == Led::Guide {
                        InsertionWay::Guided
                    } else {
                        InsertionWay::Freehand
                    };
                    room.insert(due, way);
                }
                StepKey::SetAnew { .. } => room.skip(due),
                _ => drop(room.done(due)),
            }
            if seen > 4 {
                break;
            }
        }
    }
}

/// Things that lie elsewhere by the record stay where they lie.
#[test]
fn what_lies_elsewhere_by_the_record_stays_there() {
    let mut room = all_guided();
    room.load();
    let due = room.until(is_drill);
    let site = due.site().unwrap().site.clone();
    let events = Merged::of(crate::plan::case_jaw(&room.case), [room.log.clone()]).unwrap();
    let lies = |room: &Room| -> BTreeMap<DrillKey, Option<String>> {
        let view = plan_view(&room.case, &room.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        let planned = with_planned(&room.worksheet, &view)
            .filter_map(|(item, planned)| Some((item, planned?)));
        let of_others = planned.filter(|(item, _)| {
            item.serves
                .iter()
                .all(|one| one.site.as_ref().is_none_or(|at| at.as_str() != site))
        });
        of_others
            .map(|(item, planned)| {
                let key = planned.key.drill_key();
                let now = standing.drills.get(&key).and_then(|now| now.slot.clone());
                assert_eq!(item.slot.as_ref().map(ToString::to_string), now, "{key:?}");
                (key, now)
            })
            .collect()
    };
    let before = lies(&room);
    assert!(!before.is_empty());
    lies(&room.without_guide(Some(&due)));
}

/// Once the guide was left each drill that a step names is the one that lies in its slot, whatever settings are known then.
#[test]
fn a_step_names_the_drill_that_lies_in_its_slot() {
    let mut room = all_guided();
    room.load();
    let due = room.until(is_drill);
    let after = room.without_guide(Some(&due));
    let events = Merged::of(crate::plan::case_jaw(&after.case), [room.log.clone()]).unwrap();
    let view = plan_view(&after.case, &after.worksheet, &events);
    let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
    let mut seen = 0;
    for (item, planned) in with_planned(&after.worksheet, &view) {
        let (Some(slot), Some(planned)) = (&item.slot, planned) else {
            continue;
        };
        let lies = standing.drills.iter().find(|(key, now)| {
            key.drill == planned.key.drill && now.slot.as_deref() == Some(slot.as_str())
        });
        if let Some((key, _)) = lies {
            assert_eq!(planned.key.drill_key(), *key, "{slot}");
            seen += 1;
        }
    }
    assert!(seen > 1, "{seen}");
}

/// Another sequence after the guide was left is without it: what went through the guide is named with its drill.
#[test]
fn another_sequence_is_without_the_guide_as_well() {
    let room = all_guided();
    let case = room.changed(|case| {
        let site = &mut case.sites[0];
        let first: &Step = &site.steps[0];
        let through = vec![StepThrough::of(first)];
        site.without_guide = Some(WithoutGuide::of(site, through, false));
    });
    let led = |room: &Room| {
        let site = room.case.sites[0].id.to_string();
        room.led_of(&site)
            .iter()
            .map(|(key, _)| is_led(key))
            .collect::<Vec<_>>()
    };
    assert_eq!(led(&case).iter().filter(|led| **led).count(), 1);
    let other = case.changed(|case| {
        let steps = &mut case.sites[0].steps;
        let first = steps[0].drill.clone();
        let other = steps.iter().find(|step| step.drill != first).unwrap();
        steps[0].drill = other.drill.clone();
    });
    assert_eq!(led(&other).iter().filter(|led| **led).count(), 0);
    // Nor is one of the same drill to another depth, with another sleeve or stop, or one that nobody can tell.
    let changes: [fn(&mut Site); 6] = [
        |site| {
            site.steps[0].depth = match site.steps[0].depth {
                DepthRule::Full {} => DepthRule::ShortOfFull {
                    by_mm: Length::from_um(2_000),
                },
                _ => DepthRule::Full {},
            };
        },
        |site| site.steps[0].sleeve = None,
        |site| site.steps[0].stop = None,
        |site| site.without_guide.as_mut().unwrap().through[0].depth = None,
        // What the guide led it by was another sleeve offset, or is not known.
        |site| site.platform_to_sleeve.as_mut().unwrap().entered_mm += Length::from_um(1_000),
        |site| site.without_guide.as_mut().unwrap().led_by = None,
    ];
    for change in changes {
        let other = case.changed(|case| {
            let before = case.sites[0].clone();
            change(&mut case.sites[0]);
            assert_ne!(case.sites[0], before);
        });
        assert_eq!(led(&other).iter().filter(|led| **led).count(), 0);
    }
}

impl Room {
    fn abandon(&mut self) -> crate::sign::EventId {
        let purpose = self.purpose;
        self.record(EventKind::StepDone(crate::sign::StepDone {
            step: StepKey::Abandoned {},
            piece: None,
            due: None,
            despite: Some("RT: it rocks".to_owned()),
            by_hand: None,
            purpose,
        }))
    }

    /// What is still to be done through the guide or for it, and may be.
    fn open_of_guide(&self) -> Vec<StepKey> {
        self.look(|day| {
            let open = day.open_from(0).map(|(_, step)| step);
            let of_guide = open.filter(|step| {
                let key = &step.key;
                is_led(key) && !step.not_ready.iter().any(NotReady::forbids)
                    || matches!(
                        key,
                        StepKey::Pin { .. }
                            | StepKey::Reseat {}
                            | StepKey::Seat { .. }
                            | StepKey::Sound { .. }
                    )
            });
            of_guide.map(|step| step.key.clone()).collect()
        })
    }
}

/// Once the guide is abandoned nothing of any site is done through it: by the record at once, and by the plan; what is done stays,
/// and the guide is taken off.
#[test]
fn an_abandoned_guide_leads_nothing_at_any_site() {
    for (name, file) in demo::CASES {
        let mut room = Room::of(file);
        room.load();
        let due = room.until(|key| is_drill(key) && is_led(key));
        room.done(due);
        let done = room.look(|day| {
            let over = day.steps.iter().filter(|step| step.state.is_done());
            over.map(|step| step.key.clone()).collect::<Vec<_>>()
        });
        let event = room.abandon();
        assert_eq!(room.open_of_guide(), [], "{name}");
        let after = room.without_guide(None);
        after.look(|day| {
            assert!(day.abandoned.is_some());
            for step in &day.steps {
                assert!(
                    !is_led(&step.key) || step.state.is_over(),
                    "{name}: {:?}",
                    step.key
                );
            }
            for key in &done {
                // Where nothing went through the guide its sounding is a step of no plan, and told.
                let counts = matches!(key, StepKey::CountIn { .. });
                let told = day.of_no_step.iter().any(|one| one.step() == Some(key));
                let here = day.place_of(key);
                let is_done = here.is_some_and(|at| day.steps[at].state.is_done());
                assert!(counts || told || is_done, "{name}: {key:?}");
                assert!(!told || is_sound(key), "{name}: {key:?}");
            }
            // What follows a drill that was done is still done, such as a radiograph.
            let mut due = day.open_from(0).map(|(_, step)| step.key.clone());
            let due = due.find(|key| !matches!(key, StepKey::Look { .. }));
            assert!(
                matches!(due, Some(StepKey::GuideOff {} | StepKey::SetAnew { .. })),
                "{name}: {due:?}"
            );
        });
        // By mistake: it leads what the plan has it lead.
        let before = room.copy();
        let purpose = room.purpose;
        room.record(EventKind::StepTakenBack(crate::sign::StepTakenBack {
            event,
            step: StepKey::Abandoned {},
            reason: Some("another case".to_owned()),
            purpose,
        }));
        assert!(before.open_of_guide().is_empty());
        room.look(|day| assert!(day.abandoned.is_none()));
        let open = room.look(|day| day.open_from(0).filter(|(_, step)| step.is_led()).count());
        let of_guide = room.open_of_guide();
        assert!(open == 0 || !of_guide.is_empty(), "{name}");
    }
}
