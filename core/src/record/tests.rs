//! The record by what was entered: missing, corrected, signed, added since, differing, taken back, broken.

use super::*;
use crate::case::Case;
use crate::dentition::Notation;
use crate::measure::{Length, Torque};
use crate::plan::{case_jaw, plan_view, work_out};
use crate::samples::{demo, demo_case, mm, valid};
use crate::sign::{
    Approved, CountLine, Counted, DrillKey, DrillUse, Entry, Given, Inserted, InsertionWay, Led,
    Log, Material, Merged, Piece, PlacedImplant, Policy, RecordCorrected, RecordSigned, Recorded,
    StabilityMethod, StepDone, StepTakenBack, SurgeryBegun, Who, WriterId, standing,
};
use crate::wording::Formatter;
use proptest::prelude::*;
use std::num::NonZeroU32;

/// A case and the logs of two desks.
struct Desks {
    case: ValidCase,
    worksheet: Worksheet,
    logs: [Log; 2],
    purpose: Purpose,
    /// Seconds that the second desk's clock is off.
    off: i64,
    count: i64,
}

impl Desks {
    fn new() -> Self {
        Self::with(|_| {})
    }

    fn with(change: impl FnOnce(&mut Case)) -> Self {
        let mut case: Case = (*demo_case(demo::TWO_MOLARS)).clone();
        case.demonstration = false;
        case.kit.demonstration = false;
        change(&mut case);
        let case = valid(case);
        let worksheet = work_out(&case);
        let log = |desk: &str| Log::new(&case_jaw(&case), WriterId::new(desk).unwrap());
        let logs = [log("desk"), log("other")];
        let purpose = case.purpose();
        Self {
            case,
            worksheet,
            logs,
            purpose,
            off: 0,
            count: 0,
        }
    }

    /// Records at a desk that had read the other's log up to here, or not.
    fn record(&mut self, desk: usize, read: bool, kind: EventKind) -> EventId {
        self.count += 1;
        let off = if desk == 1 { self.off } else { 0 };
        let at = 1_900_000_000 + 60 * self.count + off;
        let at = jiff::Timestamp::from_second(at).unwrap();
        let other = &self.logs[1 - desk];
        let seen = match other.head() {
            Some(head) if read => [(other.writer().clone(), head)].into(),
            _ => crate::sign::Heads::default(),
        };
        let who = Who::new(["MK", "JH"][desk]).unwrap();
        let log = &mut self.logs[desk];
        log.append_knowing(seen, at, who, kind).unwrap();
        log.events().last().unwrap().id()
    }

    fn enter(&mut self, desk: usize, entry: Entry) -> EventId {
        let purpose = self.purpose;
        self.record(desk, true, EventKind::Recorded(Recorded { entry, purpose }))
    }

    fn correct(
        &mut self,
        (desk, read): (usize, bool),
        event: &EventId,
        to: Result<Entry, EntryKind>,
    ) -> EventId {
        let (field, to) = match to {
            Ok(entry) => (entry.kind(), Some(entry)),
            Err(field) => (field, None),
        };
        let corrected = EventKind::RecordCorrected(RecordCorrected {
            event: event.clone(),
            field,
            to,
            reason: "read wrongly".to_owned(),
            purpose: self.purpose,
        });
        self.record(desk, read, corrected)
    }

    fn sign(&mut self, desk: usize, read: bool) -> EventId {
        let open = self.look(|record| record.open());
        let signed = EventKind::RecordSigned(RecordSigned {
            fingerprint: self.worksheet.fingerprint,
            open,
            purpose: self.purpose,
        });
        self.record(desk, read, signed)
    }

    fn insert(&mut self, torque: Option<i32>, coronal: Option<&str>) -> (StepKey, EventId) {
        let step = StepKey::Insert {
            site: self.site(0),
            implant: self.worksheet.sites[0].implant.to_string(),
            led: Led::Guide,
        };
        let purpose = self.purpose;
        let inserted = EventKind::Inserted(Inserted {
            step: step.clone(),
            way: InsertionWay::Guided,
            torque_ncm: torque.map(Torque::from_ncm),
            coronal_of_plan_mm: coronal.map(mm),
            due: None,
            despite: None,
            purpose,
        });
        (step, self.record(0, true, inserted))
    }

    fn site(&self, index: usize) -> SiteKey {
        let sheet = &self.worksheet.sites[index];
        SiteKey {
            site: sheet.id.to_string(),
            tooth: sheet.tooth,
        }
    }

    fn torque(&self, ncm: i32) -> Entry {
        Entry::Torque {
            site: self.site(0),
            torque_ncm: Torque::from_ncm(ncm),
        }
    }

    fn placed(&self, implant: Option<&str>, expiry: &str) -> Entry {
        Entry::Implant(PlacedImplant {
            site: self.site(0),
            code: "R-1".to_owned(),
            lot: Some("L7".to_owned()),
            expiry: read_day(expiry),
            given: Given::Typed,
            implant: implant.map(str::to_owned),
            planned: Some(self.worksheet.sites[0].implant.to_string()),
            because: None,
            compared: None,
        })
    }

    fn merged(&self) -> Merged {
        Merged::of(case_jaw(&self.case), self.logs.clone()).unwrap()
    }

    fn look<T>(&self, look: impl FnOnce(&CaseRecord<'_>) -> T) -> T {
        self.look_at(&self.merged(), look)
    }

    fn look_at<T>(&self, events: &Merged, look: impl FnOnce(&CaseRecord<'_>) -> T) -> T {
        let view = plan_view(&self.case, &self.worksheet, events);
        let standing = standing(events, &view, &Policy::strict(20)).unwrap();
        look(&record(&self.case, &self.worksheet, (&view, &standing)))
    }

    /// What stands of a thing at the first site, as text: `-` not recorded, `a | b` differing; then what stood before.
    fn told(&self, kind: EntryKind) -> String {
        self.look(|record| told_of(record, kind))
    }
}

fn told_of(record: &CaseRecord<'_>, kind: EntryKind) -> String {
    let field = record.implants[0].field(kind).unwrap();
    let value = |said: &Said<'_>| match &said.entry {
        None => "none".to_owned(),
        Some(Entry::Torque { torque_ncm, .. }) => torque_ncm.to_string(),
        Some(Entry::Depth {
            coronal_of_plan_mm, ..
        }) => coronal_of_plan_mm.to_string(),
        Some(Entry::Stability { value, .. }) => value.to_string(),
        Some(Entry::Closure { how, .. }) => how.clone(),
        Some(Entry::Implant(placed)) => placed.code.clone(),
        Some(other) => format!("{other:?}"),
    };
    let answer = |answer: &Answer<'_, '_>| match answer {
        Answer::NotRecorded => "-".to_owned(),
        Answer::Recorded(said) => format!("{} {}", value(said), said.who),
        Answer::Differs(all) => {
            let mut all: Vec<String> = all.iter().map(|said| value(said)).collect();
            all.sort();
            all.join(" | ")
        }
    };
    let answers: Vec<String> = field.answers().iter().map(answer).collect();
    let before: Vec<String> = field
        .lines
        .iter()
        .flat_map(|line| line.before.iter().map(value))
        .collect();
    format!("{}; {}", answers.join(", "), before.join(", "))
        .trim_end_matches("; ")
        .to_owned()
}

#[test]
fn what_nobody_recorded_is_not_recorded() {
    let desks = Desks::new();
    for kind in EntryKind::OF_IMPLANT {
        assert_eq!(desks.told(kind), "-", "{kind:?}");
    }
    desks.look(|record| {
        assert_eq!(record.implants.len(), desks.case.sites.len());
        // Of each site all that is asked for, and both counts.
        let wanted = EntryKind::OF_IMPLANT.len() * record.implants.len() + 2;
        assert_eq!(record.missing.len(), wanted, "{:?}", record.missing);
        assert_eq!(record.open() as usize, wanted);
        assert!(record.missing.contains(&Missing::CountOut));
        assert!(record.signature().is_none() && record.told.is_empty());
        assert!(record.implants.iter().all(|one| one.on.is_none()));
    });
}

#[test]
fn an_insertion_tells_torque_and_depth_and_nothing_else() {
    let mut desks = Desks::new();
    desks.insert(Some(35), Some("0.3"));
    assert_eq!(desks.told(EntryKind::Torque), "35 MK");
    assert_eq!(desks.told(EntryKind::Depth), "0.3 MK");
    assert_eq!(desks.told(EntryKind::Implant), "-");
    // One that does not tell it leaves it not recorded, and an entry takes its place without a correction.
    let mut desks = Desks::new();
    desks.insert(None, None);
    assert_eq!(desks.told(EntryKind::Torque), "-");
    let entry = desks.torque(30);
    desks.enter(1, entry);
    assert_eq!(desks.told(EntryKind::Torque), "30 JH");
    desks.look(|record| {
        let site = &record.implants[0].site;
        let missing = |kind| Missing::Field(site.clone(), kind);
        assert!(!record.missing.contains(&missing(EntryKind::Torque)));
        assert!(record.missing.contains(&missing(EntryKind::Depth)));
    });
}

#[test]
fn a_correction_keeps_what_stood_before_with_who_and_why() {
    let mut desks = Desks::new();
    let (_, inserted) = desks.insert(Some(35), Some("0"));
    let to = desks.torque(45);
    let first = desks.correct((1, true), &inserted, Ok(to));
    assert_eq!(desks.told(EntryKind::Torque), "45 JH; 35");
    // The depth of the same insertion stands.
    assert_eq!(desks.told(EntryKind::Depth), "0 MK");
    let to = desks.torque(40);
    let second = desks.correct((0, true), &first, Ok(to));
    assert_eq!(desks.told(EntryKind::Torque), "40 MK; 35, 45");
    desks.look(|record| {
        let field = record.implants[0].field(EntryKind::Torque).unwrap();
        let said = field.one().unwrap();
        assert_eq!(said.corrects, Some((&first, "read wrongly")));
    });
    // Corrected to nothing: not recorded again, and told as missing.
    desks.correct((0, true), &second, Err(EntryKind::Torque));
    assert_eq!(desks.told(EntryKind::Torque), "-; 35, 45, 40");
    desks.look(|record| {
        let site = record.implants[0].site.clone();
        let missing = Missing::Field(site, EntryKind::Torque);
        assert!(record.missing.contains(&missing));
    });
}

#[test]
fn desks_that_did_not_know_of_each_other_differ_until_it_is_settled() {
    let mut desks = Desks::new();
    let entry = desks.torque(35);
    let first = desks.enter(0, entry);
    let (a, b) = (desks.torque(40), desks.torque(50));
    let one = desks.correct((0, false), &first, Ok(a.clone()));
    let other = desks.correct((1, false), &first, Ok(b));
    assert_eq!(desks.told(EntryKind::Torque), "40 | 50; 35");
    desks.look(|record| {
        let site = Some(record.implants[0].site.clone());
        assert_eq!(record.told, [Told::Differs(site, EntryKind::Torque)]);
    });
    let settled = desks.correct((0, true), &other, Ok(a));
    assert_eq!(desks.told(EntryKind::Torque), "40 MK; 35, 50");
    // Taken away at one desk and corrected at another: that differs as well.
    let c = desks.torque(42);
    desks.correct((0, false), &one, Err(EntryKind::Torque));
    desks.correct((1, false), &one, Ok(c));
    desks.correct((0, true), &settled, Err(EntryKind::Torque));
    assert_eq!(
        desks.told(EntryKind::Torque),
        "42 | none | none; 35, 40, 50, 40"
    );
}

/// The same thing entered at two desks alike is one answer; what was entered twice by mistake is settled by taking one away.
#[test]
fn what_two_desks_enter_alike_is_one_answer() {
    let mut desks = Desks::new();
    let entry = |desks: &Desks, ncm| desks.torque(ncm);
    let (a, b) = (entry(&desks, 35), entry(&desks, 35));
    desks.enter(0, a);
    desks.enter(1, b);
    assert_eq!(desks.told(EntryKind::Torque), "35 MK");
    let c = entry(&desks, 45);
    let third = desks.enter(1, c);
    assert_eq!(desks.told(EntryKind::Torque), "35 | 35 | 45");
    desks.correct((0, true), &third, Err(EntryKind::Torque));
    assert_eq!(desks.told(EntryKind::Torque), "35 MK; 45");
}

/// Of stability there may be several; each is corrected by itself.
#[test]
fn several_of_a_kind_stand_side_by_side() {
    let mut desks = Desks::new();
    let of = |desks: &Desks, method, value| Entry::Stability {
        site: desks.site(0),
        method,
        value,
    };
    let (a, b) = (
        of(&desks, StabilityMethod::Resonance, 70),
        of(&desks, StabilityMethod::Damping, -3),
    );
    let first = desks.enter(0, a);
    desks.enter(1, b);
    assert_eq!(desks.told(EntryKind::Stability), "70 MK, -3 JH");
    let to = of(&desks, StabilityMethod::Resonance, 72);
    desks.correct((0, true), &first, Ok(to));
    assert_eq!(desks.told(EntryKind::Stability), "72 MK, -3 JH; 70");
}

#[test]
fn a_correction_of_what_does_not_stand_is_told_and_changes_nothing() {
    let mut desks = Desks::new();
    let (step, inserted) = desks.insert(Some(35), Some("0"));
    let to = desks.torque(45);
    desks.correct((1, true), &inserted, Ok(to));
    let purpose = desks.purpose;
    let back = StepTakenBack {
        event: inserted.clone(),
        step,
        reason: None,
        purpose,
    };
    desks.record(0, true, EventKind::StepTakenBack(back));
    assert_eq!(desks.told(EntryKind::Torque), "-");
    assert_eq!(desks.look(|record| record.astray.len()), 1);
    // Another site's value is none of this one's, and nothing that is not there is corrected.
    let entry = desks.torque(35);
    let entered = desks.enter(0, entry);
    let elsewhere = Entry::Torque {
        site: desks.site(1),
        torque_ncm: Torque::from_ncm(10),
    };
    desks.correct((0, true), &entered, Ok(elsewhere));
    let nowhere = EventId {
        writer: WriterId::new("desk").unwrap(),
        seq: 99,
    };
    let to = desks.torque(50);
    desks.correct((0, true), &nowhere, Ok(to));
    desks.correct((0, true), &entered, Err(EntryKind::Depth));
    assert_eq!(desks.told(EntryKind::Torque), "35 MK");
    assert_eq!(desks.look(|record| record.astray.len()), 4);
    assert!(desks.look(|record| usize::try_from(record.open()).unwrap() > record.missing.len()));
}

/// A signature covers what its desk had read, whatever the clocks say.
#[test]
fn what_came_since_the_signature_is_told_by_what_desks_knew() {
    for off in [0, -100_000, 100_000] {
        let mut desks = Desks::new();
        desks.off = off;
        let entry = desks.torque(35);
        let entered = desks.enter(1, entry);
        desks.sign(0, true);
        desks.look(|record| {
            assert_eq!(record.signature().unwrap().who.as_str(), "MK");
            assert!(record.since().is_empty(), "{off}");
            let open = record.signature().unwrap().signed.open;
            assert_eq!(open, record.open(), "{off}");
        });
        // Elsewhere at the same time, and afterwards.
        let closure = Entry::Closure {
            site: desks.site(0),
            how: "closed".to_owned(),
        };
        let purpose = desks.purpose;
        let entry = EventKind::Recorded(Recorded {
            entry: closure,
            purpose,
        });
        let unread = desks.record(1, false, entry);
        let to = desks.torque(40);
        let later = desks.correct((0, true), &entered, Ok(to));
        desks.look(|record| {
            let mut since: Vec<_> = record.since().iter().map(|one| one.id.clone()).collect();
            since.sort();
            let mut wanted = vec![unread.clone(), later.clone()];
            wanted.sort();
            assert_eq!(since, wanted, "{off}");
            assert!(record.is_since(&later) && !record.is_since(&entered));
        });
        desks.sign(0, true);
        desks.look(|record| {
            assert_eq!(record.signatures.len(), 2);
            assert!(off != 0 || record.since().is_empty(), "{off}");
        });
    }
}

#[test]
fn a_signature_under_another_plan_is_told() {
    let mut desks = Desks::new();
    desks.sign(0, true);
    assert!(!desks.look(|record| record.is_signed_otherwise()));
    let mut changed = Desks::with(|case| {
        case.kit.implants[0].code = Some("REF-1".into());
    });
    changed.logs = desks.logs.clone();
    assert!(changed.look(|record| record.is_signed_otherwise()));
}

/// What is recorded of a site that the plan does not have any more is told all the same.
#[test]
fn a_site_that_left_the_plan_keeps_its_record() {
    let mut desks = Desks::new();
    let entry = Entry::Closure {
        site: desks.site(1),
        how: "closed".to_owned(),
    };
    desks.enter(0, entry);
    let mut changed = Desks::with(|case| {
        case.sites.truncate(1);
        case.sites[0].distances.clear();
        case.judgements.clear();
        case.guide.receipt.clear();
    });
    changed.logs = desks.logs.clone();
    changed.look(|record| {
        let gone = &record.implants[1];
        assert_eq!(gone.site, desks.site(1));
        assert!(gone.sheet.is_none() && gone.planned().is_none());
        assert!(!gone.field(EntryKind::Closure).unwrap().is_missing());
        assert!(record.told.contains(&Told::NotPlanned(gone.site.clone())));
    });
}

#[test]
fn another_implant_and_one_that_nobody_knows_are_told() {
    let planned = Desks::new().worksheet.sites[0].implant.to_string();
    let site = Desks::new().site(0);
    for (implant, told) in [
        (Some(planned.as_str()), None),
        (Some("heron"), Some(Told::OtherImplant(site.clone()))),
        (None, Some(Told::UnknownImplant(site.clone()))),
    ] {
        let mut desks = Desks::new();
        let entry = desks.placed(implant, "2099-12-31");
        desks.enter(0, entry);
        let found = desks.look(|record| record.told.clone());
        assert_eq!(found, Vec::from_iter(told), "{implant:?}");
    }
}

/// The day is that of the insertion, where one is recorded; a day's last is not passed on it. 1 900 000 000 s: 2030-03-17.
#[test]
fn an_expiry_that_was_passed_is_told() {
    let planned = Desks::new().worksheet.sites[0].implant.to_string();
    for (expiry, passed) in [
        ("2030-03-16", true),
        ("2030-03-17", false),
        ("2030-03", false),
        ("2030-02", true),
    ] {
        let mut desks = Desks::new();
        let entry = desks.placed(Some(&planned), expiry);
        desks.enter(0, entry);
        let expired = |record: &CaseRecord<'_>| {
            let mut told = record.told.iter();
            told.any(|one| matches!(one, Told::Expired { kind, .. } if *kind == EntryKind::Implant))
        };
        assert_eq!(desks.look(expired), passed, "{expiry}");
        let graft = Entry::Graft {
            site: desks.site(0),
            material: Some(Material {
                what: "granules".to_owned(),
                lot: None,
                expiry: read_day(expiry),
            }),
        };
        desks.enter(0, graft);
        let told = desks.look(|record| record.told.len());
        assert_eq!(told, 2 * usize::from(passed), "{expiry}");
        let lot = Missing::GraftLot(desks.site(0));
        assert!(desks.look(|record| record.missing.contains(&lot)));
    }
}

#[test]
fn what_is_off_a_limit_is_told_also_once_it_was_corrected() {
    let mut desks = Desks::new();
    let limit = {
        let id = &desks.worksheet.sites[0].implant;
        let implant = desks.case.kit.implant(id).unwrap();
        implant.torque_limit_ncm.unwrap()
    };
    let (_, inserted) = desks.insert(Some(35), Some("1.5"));
    let told = |desks: &Desks| desks.look(|record| record.told.clone());
    let site = desks.site(0);
    let coronal = mm("1.5");
    assert_eq!(
        told(&desks),
        [Told::Depth {
            site: site.clone(),
            coronal
        }]
    );
    let to = Entry::Depth {
        site: site.clone(),
        coronal_of_plan_mm: Length::ZERO,
    };
    desks.correct((0, true), &inserted, Ok(to));
    assert_eq!(told(&desks), []);
    let to = desks.torque(199);
    desks.correct((0, true), &inserted, Ok(to));
    let torque = Torque::from_ncm(199);
    assert_eq!(
        told(&desks),
        [Told::Torque {
            site,
            torque,
            limit
        }]
    );
}

#[test]
fn counts_and_the_run_of_the_day_are_told_with_their_times() {
    let mut desks = Desks::new();
    let purpose = desks.purpose;
    let begun = EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: desks.worksheet.fingerprint,
        approval: Approved::Open,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew: false,
        purpose,
    });
    desks.record(0, true, begun);
    let counted = |found, list| {
        EventKind::Counted(Counted {
            step: StepKey::CountOut { list },
            second: Who::new("JH").unwrap(),
            lines: vec![CountLine {
                kind: None,
                what: "stops".to_owned(),
                wanted: 3,
                found,
            }],
            due: None,
            despite: None,
            purpose,
        })
    };
    desks.record(0, true, counted(2, None));
    desks.look(|record| {
        assert_eq!(record.run.len(), 2);
        assert!(record.count_out.is_some() && record.count_in.is_none());
        assert!(record.missing.contains(&Missing::CountIn));
        assert!(!record.missing.contains(&Missing::CountOut));
        // It is of no list of the plan, and something lacked.
        assert_eq!(record.told, [Told::CountOut]);
    });
    let list = desks.look(|_| {
        let events = desks.merged();
        let view = plan_view(&desks.case, &desks.worksheet, &events);
        let standing = standing(&events, &view, &Policy::strict(20)).unwrap();
        let day = day(&desks.case, &desks.worksheet, (&view, &standing));
        match &day.steps.last().unwrap().key {
            StepKey::CountOut { list } => *list,
            key => panic!("{key:?}"),
        }
    });
    desks.record(0, true, counted(3, list));
    assert_eq!(desks.look(|record| record.told.clone()), []);
}

/// What was practised is none of a patient's, and with a break nothing counts.
#[test]
fn neither_practice_nor_a_broken_record_counts() {
    let mut desks = Desks::new();
    desks.purpose = Purpose::Practice;
    let entry = desks.torque(35);
    desks.enter(0, entry);
    desks.sign(0, true);
    assert_eq!(desks.told(EntryKind::Torque), "-");
    assert!(desks.look(|record| record.signatures.is_empty()));
    desks.purpose = Purpose::Patient;
    let entry = desks.torque(35);
    desks.enter(0, entry);
    desks.sign(0, true);
    assert_eq!(desks.told(EntryKind::Torque), "35 MK");
    let mut broken = desks.merged();
    broken.set_broken();
    desks.look_at(&broken, |record| {
        assert!(record.broken && record.signatures.is_empty());
        assert_eq!(told_of(record, EntryKind::Torque), "-");
    });
    // In a demonstration everything counts, as practice.
    let mut demo = Desks::with(|case| {
        case.demonstration = true;
        case.kit.demonstration = true;
    });
    let entry = demo.torque(35);
    demo.enter(0, entry);
    assert_eq!(demo.told(EntryKind::Torque), "35 MK");
    assert_eq!(demo.look(|record| record.purpose), Purpose::Practice);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Whatever two desks enter and correct: what one of them said last of a thing is there, as standing or before; the clocks
    /// change no answer; and the order in which logs are merged changes nothing.
    #[test]
    fn nothing_that_was_entered_is_ever_lost_and_no_clock_decides(
        steps in prop::collection::vec((0_usize..2, any::<bool>(), 0_usize..4, 1_i32..6), 1..14),
        off in -200_000_i64..200_000,
    ) {
        let mut at_hand: Vec<String> = Vec::new();
        for off in [0, off] {
            let mut desks = Desks::new();
            desks.off = off;
            let mut ids: Vec<EventId> = Vec::new();
            for (desk, read, of, value) in &steps {
                let entry = desks.torque(10 * value);
                let id = match ids.get(*of).cloned() {
                    // A desk corrects only what it can have read.
                    Some(id) if id.writer == *desks.logs[*desk].writer() || *read => {
                        let to = if *value == 5 { Err(EntryKind::Torque) } else { Ok(entry) };
                        desks.correct((*desk, *read), &id, to)
                    }
                    _ => {
                        let purpose = desks.purpose;
                        let kind = EventKind::Recorded(Recorded { entry, purpose });
                        desks.record(*desk, *read, kind)
                    }
                };
                ids.push(id);
            }
            let (all, told) = desks.look(|record| {
                let field = record.implants[0].field(EntryKind::Torque).unwrap();
                let lines = field.lines.iter();
                let said = lines.flat_map(|line| line.last.iter().chain(&line.before));
                let all: BTreeSet<EventId> = said.map(|said| said.id.clone()).collect();
                let told = match &field.answers()[..] {
                    [Answer::Recorded(said)] => format!("{:?}", said.entry),
                    [Answer::NotRecorded] => "-".to_owned(),
                    [Answer::Differs(all)] => {
                        let mut all: Vec<String> =
                            all.iter().map(|said| format!("{:?}", said.entry)).collect();
                        all.sort();
                        all.join("|")
                    }
                    other => format!("{other:?}"),
                };
                (all, told)
            });
            let entered: BTreeSet<EventId> = ids.into_iter().collect();
            prop_assert_eq!(all, entered);
            let [a, b] = desks.logs.clone();
            let turned = Merged::of(case_jaw(&desks.case), [b, a]).unwrap();
            let same = desks.look_at(&turned, |record| told_of(record, EntryKind::Torque));
            prop_assert_eq!(same, desks.told(EntryKind::Torque));
            at_hand.push(told);
        }
        prop_assert_eq!(&at_hand[0], &at_hand[1]);
    }
}

/// What bears the number of a drill that fell is its spare, and the record says so.
#[test]
fn a_spare_that_drills_is_told_as_the_spare() {
    let mut desks = Desks::new();
    let purpose = desks.purpose;
    let piece = DrillKey {
        drill: "kestrel".to_owned(),
        copy: NonZeroU32::MIN,
    };
    let drilled = || {
        EventKind::StepDone(StepDone {
            step: StepKey::Drill {
                site: desks.site(0),
                id: "s1".to_owned(),
                with: DrillUse {
                    drill: piece.drill.clone(),
                    stop: None,
                    set_mm: None,
                },
                sleeve: None,
                led: Led::Freehand,
            },
            piece: Some(piece.clone()),
            due: None,
            despite: None,
            by_hand: None,
            purpose,
        })
    };
    let (first, again) = (drilled(), drilled());
    let fell = EventKind::Dropped {
        piece: Piece::Drill(piece.clone()),
        purpose: Some(purpose),
    };
    desks.record(0, true, first);
    desks.record(0, true, fell);
    desks.record(0, true, again);
    let formatter = Formatter::english(&desks.case, Notation::Iso);
    desks.look(|record| {
        for words in [
            [0, 1].map(|n| formatter.record_run_of(record, &record.run[n])),
            [0, 1].map(|n| formatter.record_run_at(record, &record.run[n])),
        ] {
            assert!(words[0].contains("no. 1"), "{words:?}");
            assert!(!words[0].contains("spare"), "{words:?}");
            assert!(words[1].contains("the spare for no. 1"), "{words:?}");
        }
    });
}

/// A change on the table stands before all else, by whom and why.
#[test]
fn a_change_on_the_table_is_told() {
    let mut desks = Desks::new();
    let purpose = desks.purpose;
    let changed = EventKind::StepDone(StepDone {
        step: StepKey::ImplantChanged {
            site: desks.site(0),
            implant: desks.worksheet.sites[0].implant.to_string(),
            from: Some("heron".to_owned()),
        },
        piece: None,
        due: None,
        despite: Some("RT: poor bone".to_owned()),
        by_hand: None,
        purpose,
    });
    desks.record(0, true, changed);
    let formatter = Formatter::english(&desks.case, Notation::Iso);
    desks.look(|record| {
        let told: Vec<String> = record
            .told
            .iter()
            .map(|one| formatter.record_told(record, one))
            .collect();
        assert!(told.concat().contains("RT: poor bone"), "{told:?}");
    });
}
