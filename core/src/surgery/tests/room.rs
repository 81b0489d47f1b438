//! A case and what was recorded of its day.

use crate::case::Case;
use crate::kit::SlotKind;
use crate::measure::Torque;
use crate::plan::{case_jaw, plan_view, work_out};
use crate::samples::{demo_case, valid};
use crate::sign::{
    Approved, CountLine, Counted, EventId, Inserted, InsertionWay, Log, Merged, Piece, Policy,
    Purpose, Sounded, StepDone, StepSkipped, SurgeryBegun, ThingKey, ThingKind, Who, WriterId,
    standing,
};
use crate::surgery::*;

/// A case, its worksheet and what was recorded.
pub(super) struct Room {
    pub(super) case: ValidCase,
    pub(super) worksheet: Worksheet,
    pub(super) log: Log,
    pub(super) purpose: Purpose,
}

impl Room {
    pub(super) fn of(demo: &[u8]) -> Self {
        Self::with(demo, |_| {})
    }

    pub(super) fn with(demo: &[u8], change: impl FnOnce(&mut Case)) -> Self {
        let mut case: Case = (*demo_case(demo)).clone();
        change(&mut case);
        let case = valid(case);
        let worksheet = work_out(&case);
        let writer = WriterId::new("desk").unwrap();
        let log = Log::new(&case_jaw(&case), writer);
        let purpose = case.purpose();
        Self {
            case,
            worksheet,
            log,
            purpose,
        }
    }

    /// The same record under a plan that was changed.
    pub(super) fn changed(&self, change: impl FnOnce(&mut Case)) -> Self {
        let mut case: Case = (*self.case).clone();
        change(&mut case);
        let case = valid(case);
        let worksheet = work_out(&case);
        Self {
            case,
            worksheet,
            log: self.log.clone(),
            purpose: self.purpose,
        }
    }

    pub(super) fn record(&mut self, kind: EventKind) -> EventId {
        let n = i64::try_from(self.log.events().len()).unwrap();
        let at = jiff::Timestamp::from_second(1_900_000_000 + 60 * n).unwrap();
        self.log.append(at, Who::new("MK").unwrap(), kind).unwrap();
        self.log.events().last().unwrap().id()
    }

    pub(super) fn look<T>(&self, look: impl FnOnce(&Day<'_>) -> T) -> T {
        let events = Merged::of(case_jaw(&self.case), [self.log.clone()]).unwrap();
        let view = plan_view(&self.case, &self.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        look(&day(&self.case, &self.worksheet, (&view, &standing)))
    }

    /// The events of the day.
    pub(super) fn day_of<T>(&self, look: impl FnOnce(&[DayEvent]) -> T) -> T {
        let events = Merged::of(case_jaw(&self.case), [self.log.clone()]).unwrap();
        let view = plan_view(&self.case, &self.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        look(&standing.day)
    }

    /// The key of the step that is due.
    pub(super) fn due(&self) -> Option<StepKey> {
        self.look(|day| Some(day.steps[day.next()?].key.clone()))
    }

    pub(super) fn done(&mut self, step: StepKey) -> EventId {
        let purpose = self.purpose;
        self.record(EventKind::StepDone(StepDone {
            step,
            piece: None,
            due: None,
            despite: None,
            by_hand: None,
            purpose,
        }))
    }

    pub(super) fn skip(&mut self, step: StepKey) {
        let purpose = self.purpose;
        self.record(EventKind::StepSkipped(StepSkipped {
            step,
            reason: "told".to_owned(),
            purpose,
        }));
    }

    /// The same room, to go on otherwise.
    pub(super) fn copy(&self) -> Self {
        self.changed(|_| {})
    }

    pub(super) fn sounded(&self, step: StepKey, found: Length) -> EventKind {
        EventKind::Sounded(Sounded {
            step,
            found_mm: found,
            due: None,
            purpose: self.purpose,
        })
    }

    pub(super) fn sound(&mut self, step: StepKey, found: Length) {
        let kind = self.sounded(step, found);
        self.record(kind);
    }

    pub(super) fn insert(&mut self, step: StepKey, way: InsertionWay) {
        let purpose = self.purpose;
        self.record(EventKind::Inserted(Inserted {
            step,
            way,
            torque_ncm: Some(Torque::from_ncm(35)),
            coronal_of_plan_mm: None,
            due: None,
            despite: None,
            purpose,
        }));
    }

    /// Does everything that is due until this is, as it should be done.
    pub(super) fn until(&mut self, stop: impl Fn(&StepKey) -> bool) -> StepKey {
        for _ in 0..400 {
            let due = self.due().expect("a step is due");
            if stop(&due) {
                return due;
            }
            match due.clone() {
                StepKey::CountIn { .. } | StepKey::CountOut { .. } => self.count(due, 0),
                StepKey::Sound { planned_mm, .. } => self.sound(due, planned_mm.unwrap()),
                StepKey::Insert { led, .. } => {
                    let way = match led {
                        crate::sign::Led::Guide => InsertionWay::Guided,
                        crate::sign::Led::Freehand => InsertionWay::Freehand,
                    };
                    self.insert(due, way);
                }
                StepKey::SetAnew { .. } => self.skip(due),
                _ => drop(self.done(due)),
            }
        }
        panic!("never due")
    }

    pub(super) fn count(&mut self, step: StepKey, lacking: u32) {
        let purpose = self.purpose;
        self.record(EventKind::Counted(Counted {
            step,
            second: Who::new("JH").unwrap(),
            lines: vec![CountLine {
                kind: None,
                what: "stops".to_owned(),
                wanted: 3,
                found: 3 - lacking,
            }],
            due: None,
            despite: None,
            purpose,
        }));
    }
}

pub(super) const fn is_count_in(key: &StepKey) -> bool {
    matches!(key, StepKey::CountIn { .. })
}

pub(super) const fn is_count_out(key: &StepKey) -> bool {
    matches!(key, StepKey::CountOut { .. })
}

pub(super) fn is_sound(key: &StepKey) -> bool {
    matches!(key, StepKey::Sound { .. })
}

pub(super) fn is_drill(key: &StepKey) -> bool {
    matches!(key, StepKey::Drill { .. })
}

pub(super) fn is_insert(key: &StepKey) -> bool {
    matches!(key, StepKey::Insert { .. })
}

impl Room {
    pub(super) fn place(&mut self, of: SlotKind, entry: &str, slot: Option<&str>) {
        let purpose = Some(self.purpose);
        self.record(EventKind::ThingPlaced {
            thing: thing(of, entry),
            slot: slot.map(str::to_owned),
            purpose,
        });
    }

    pub(super) fn drop_thing(&mut self, of: SlotKind, entry: &str) {
        let piece = Piece::Thing(ThingKind {
            copy: None,
            of,
            entry: entry.to_owned(),
        });
        let purpose = Some(self.purpose);
        self.record(EventKind::Dropped { piece, purpose });
    }

    pub(super) fn not_ready(&self, key: &StepKey) -> Vec<NotReady> {
        self.look(|day| day.steps[day.place_of(key).unwrap()].not_ready.clone())
    }

    pub(super) fn begin(&mut self) {
        let purpose = self.purpose;
        self.record(EventKind::SurgeryBegun(SurgeryBegun {
            fingerprint: self.worksheet.fingerprint,
            approval: Approved::Open,
            lies_wrong: Vec::new(),
            despite: None,
            wrong_as: Vec::new(),
            anew: false,
            purpose,
        }));
    }

    pub(super) fn wanted_out(&self) -> Vec<CountWanted> {
        self.look(|day| match &day.steps.last().unwrap().work {
            Work::Count(wanted) => wanted.clone(),
            work => panic!("{work:?}"),
        })
    }
}

pub(super) fn thing(of: SlotKind, entry: &str) -> ThingKey {
    ThingKey {
        of,
        entry: entry.to_owned(),
        copy: std::num::NonZeroU32::MIN,
    }
}
