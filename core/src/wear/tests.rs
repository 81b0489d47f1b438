//! What counts as a use, when, and of which piece.

use super::*;
use crate::dentition::Jaw;
use crate::kit::{DrillId, LimitGiver, WearLimit, mark_key};
use crate::samples::{demo_kit, mm};
use crate::sign::{
    Approved, Counted as CountedEvent, DrillKey, DrillUse, EventHash, EventId, EventKind,
    Fingerprint, ItemKey, Led, Log, Merged, Piece, PieceNamed, Purpose, RecordSigned, SiteKey,
    StepDone, StepKey, StepSkipped, StepTakenBack, SurgeryBegun, Who, WriterId,
};
use std::num::NonZeroU32;

pub(crate) const PATIENT: Purpose = Purpose::Patient;

pub(crate) fn case_jaw(case: &str) -> CaseJaw {
    CaseJaw {
        case: case.to_owned(),
        jaw: Jaw::Lower,
    }
}

pub(crate) fn key(drill: &str, copy: u32) -> DrillKey {
    DrillKey {
        drill: drill.to_owned(),
        copy: NonZeroU32::new(copy).unwrap(),
    }
}

pub(crate) fn begun(anew: bool) -> EventKind {
    EventKind::SurgeryBegun(SurgeryBegun {
        fingerprint: Fingerprint::of_bytes(b"plan"),
        approval: Approved::Approved,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew,
        purpose: PATIENT,
    })
}

pub(crate) fn step(key: &DrillKey, site: &str, id: &str) -> StepKey {
    StepKey::Drill {
        site: SiteKey {
            site: site.to_owned(),
            tooth: "36".parse().unwrap(),
        },
        id: id.to_owned(),
        with: DrillUse {
            drill: key.drill.clone(),
            stop: None,
            set_mm: None,
        },
        sleeve: None,
        led: Led::Guide,
    }
}

pub(crate) fn drilled(key: &DrillKey, site: &str, id: &str) -> EventKind {
    EventKind::StepDone(StepDone {
        step: step(key, site, id),
        piece: Some(key.clone()),
        due: None,
        despite: None,
        by_hand: None,
        purpose: PATIENT,
    })
}

pub(crate) fn laid(key: &DrillKey) -> EventKind {
    EventKind::Placed {
        item: ItemKey {
            drill: key.drill.clone(),
            copy: key.copy,
            stop: None,
            setting_mm: mm("12"),
            kit_code: None,
        },
        slot: "B4".to_owned(),
        purpose: Some(PATIENT),
    }
}

pub(crate) fn fell(key: &DrillKey) -> EventKind {
    EventKind::Dropped {
        piece: Piece::Drill(key.clone()),
        purpose: Some(PATIENT),
    }
}

pub(crate) fn counted_out() -> EventKind {
    EventKind::Counted(CountedEvent {
        step: StepKey::CountOut { list: None },
        second: Who::new("CD").unwrap(),
        lines: Vec::new(),
        due: None,
        despite: None,
        purpose: PATIENT,
    })
}

pub(crate) fn signed() -> EventKind {
    EventKind::RecordSigned(RecordSigned {
        fingerprint: Fingerprint::of_bytes(b"plan"),
        open: 0,
        purpose: PATIENT,
    })
}

pub(crate) fn named(key: &DrillKey, mark: Option<&str>, sitting: Option<EventId>) -> PieceNamed {
    PieceNamed {
        drill: key.clone(),
        mark: mark.map(str::to_owned),
        sitting,
        after: None,
        purpose: PATIENT,
    }
}

pub(crate) fn desk(name: &str) -> WriterId {
    WriterId::new(name).unwrap()
}

/// Desks that each know all that was recorded before.
pub(crate) struct Desks {
    pub(crate) events: Merged,
    logs: BTreeMap<WriterId, Log>,
    case: CaseJaw,
    seconds: i64,
}

impl Desks {
    pub(crate) fn new(case: &str) -> Self {
        let case = case_jaw(case);
        Self {
            events: Merged::none(case.clone()),
            logs: BTreeMap::new(),
            case,
            seconds: 0,
        }
    }

    /// Desks of which these logs are left.
    pub(crate) fn of(case: &str, logs: impl Iterator<Item = Log>) -> Self {
        let mut desks = Self::new(case);
        desks.logs = logs.map(|log| (log.writer().clone(), log)).collect();
        let logs = desks.logs.values().cloned();
        desks.events = Merged::of(desks.case.clone(), logs).unwrap();
        desks.seconds = 60_000;
        desks
    }

    /// Records at a desk that has read everything.
    pub(crate) fn at(&mut self, name: &str, kind: EventKind) -> EventId {
        let writer = desk(name);
        let heads = self.events.heads(&writer);
        let new = || Log::new(&self.case, writer.clone());
        let log = self.logs.entry(writer.clone()).or_insert_with(new);
        self.seconds += 60;
        let at = jiff::Timestamp::from_second(1_900_000_000 + self.seconds).unwrap();
        let who = Who::new("AB").unwrap();
        let (event, _) = log.append_knowing(heads, at, who, kind).unwrap();
        let logs = self.logs.values().cloned();
        self.events = Merged::of(self.case.clone(), logs).unwrap();
        event.id()
    }

    pub(crate) fn all(&mut self, kinds: impl IntoIterator<Item = EventKind>) -> &mut Self {
        for kind in kinds {
            self.at("desk", kind);
        }
        self
    }

    /// Everything that was recorded, desk by desk.
    pub(crate) fn logs(&self) -> impl Iterator<Item = &Log> {
        self.logs.values()
    }

    pub(crate) fn wear(&self) -> CaseWear {
        wear_of(&self.events, PATIENT).unwrap()
    }
}

pub(crate) fn piece(drill: &str, mark: Option<&str>) -> WornPiece {
    WornPiece {
        drill: drill.to_owned(),
        mark: mark.map(mark_key),
    }
}

fn tally(rows: &[(&str, Option<&str>, u64, u64)]) -> Tally {
    let rows = rows.iter().map(|(drill, mark, uses, sterilisations)| {
        let worn = Worn {
            uses: *uses,
            sterilisations: *sterilisations,
        };
        (piece(drill, *mark), worn)
    });
    rows.collect()
}

/// The wear of the only sitting, closed by a count.
fn worn(kinds: impl IntoIterator<Item = EventKind>) -> Tally {
    let mut desks = Desks::new("T-1");
    desks.all(kinds).all([counted_out()]);
    let wear = desks.wear();
    let [sitting] = &wear.sittings[..] else {
        panic!("{wear:?}");
    };
    assert_eq!(sitting.closed, Some(ClosedBy::Count));
    sitting.worn.clone()
}

#[test]
fn one_osteotomy_is_one_use_however_often_the_drill_comes() {
    let (one, other) = (key("wren", 1), key("wren", 2));
    let found = worn([
        laid(&one),
        laid(&other),
        EventKind::PieceNamed(named(&one, Some("a 3"), None)),
        begun(false),
        drilled(&one, "a", "short"),
        drilled(&one, "a", "full"),
        drilled(&one, "b", "full"),
        drilled(&other, "a", "full"),
    ]);
    let want = tally(&[("wren", Some("A3"), 2, 1), ("wren", None, 1, 1)]);
    assert_eq!(found, want);
}

#[test]
fn what_was_laid_and_not_used_was_sterilised_all_the_same() {
    let one = key("wren", 1);
    let naming = EventKind::PieceNamed(named(&one, Some("A3"), None));
    let found = worn([laid(&one), naming, begun(false)]);
    assert_eq!(found, tally(&[("wren", Some("A3"), 0, 1)]));
}

#[test]
fn a_use_that_was_recorded_by_mistake_is_none() {
    let one = key("wren", 1);
    let mut desks = Desks::new("T-1");
    desks.all([begun(false)]);
    let event = desks.at("desk", drilled(&one, "a", "full"));
    desks.all([EventKind::StepTakenBack(StepTakenBack {
        reason: None,
        event,
        step: step(&one, "a", "full"),
        purpose: PATIENT,
    })]);
    desks.all([counted_out()]);
    assert_eq!(desks.wear().sittings[0].worn, Tally::new());
}

#[test]
fn a_drill_that_fell_takes_its_name_with_it() {
    let one = key("wren", 1);
    let mut desks = Desks::new("T-1");
    desks.all([
        EventKind::PieceNamed(named(&one, Some("A3"), None)),
        begun(false),
        drilled(&one, "a", "full"),
    ]);
    let fall = desks.at("desk", fell(&one));
    desks.all([drilled(&one, "b", "full"), counted_out()]);
    let worn = desks.wear().sittings[0].worn.clone();
    let want = tally(&[("wren", Some("A3"), 1, 1), ("wren", None, 1, 1)]);
    assert_eq!(worn, want, "nobody named the one that took its place");
    let begin = desks.events.in_order()[1].id();
    let later = PieceNamed {
        after: Some(fall),
        ..named(&one, Some("A4"), Some(begin))
    };
    desks.all([EventKind::PieceNamed(later)]);
    let worn = desks.wear().sittings[0].worn.clone();
    let want = tally(&[("wren", Some("A3"), 1, 1), ("wren", Some("A4"), 1, 1)]);
    assert_eq!(worn, want);
}

#[test]
fn the_last_name_stands_and_where_two_desks_differ_nobody_knows() {
    let one = key("wren", 1);
    let name = |mark: Option<&str>| EventKind::PieceNamed(named(&one, mark, None));
    let day = [begun(false), drilled(&one, "a", "full")];
    let said = |marks: &[Option<&str>]| {
        let names: Vec<EventKind> = marks.iter().map(|mark| name(*mark)).collect();
        worn(names.into_iter().chain(day.clone()))
    };
    let of = |mark| tally(&[("wren", mark, 1, 1)]);
    assert_eq!(said(&[Some("A3"), Some("A4")]), of(Some("A4")));
    assert_eq!(said(&[Some("A3"), None]), of(None));
    // Neither had read the other.
    let mut logs = Vec::new();
    for (writer, mark) in [("desk", "A3"), ("room", "A4")] {
        let mut log = Log::new(&case_jaw("T-1"), desk(writer));
        let at = jiff::Timestamp::from_second(1_900_000_000).unwrap();
        let who = || Who::new("AB").unwrap();
        log.append(at, who(), name(Some(mark))).unwrap();
        if writer == "desk" {
            for kind in day.clone().into_iter().chain([counted_out()]) {
                log.append(at, who(), kind).unwrap();
            }
        }
        logs.push(log);
    }
    let events = Merged::of(case_jaw("T-1"), logs).unwrap();
    let wear = wear_of(&events, PATIENT).unwrap();
    assert_eq!(wear.sittings[0].worn, of(None));
}

#[test]
fn a_day_is_closed_by_its_count_its_signature_or_the_next_sitting() {
    let one = key("wren", 1);
    let use_it = || drilled(&one, "a", "full");
    let closed = |kinds: Vec<EventKind>| {
        let mut desks = Desks::new("T-1");
        let wear = desks.all(kinds).wear();
        wear.sittings
            .iter()
            .map(|one| one.closed)
            .collect::<Vec<_>>()
    };
    assert_eq!(closed(vec![begun(false), use_it()]), [None]);
    assert_eq!(
        closed(vec![begun(false), use_it(), signed()]),
        [Some(ClosedBy::Signature)]
    );
    assert_eq!(
        closed(vec![begun(false), use_it(), signed(), counted_out()]),
        [Some(ClosedBy::Count)]
    );
    assert_eq!(
        closed(vec![begun(false), use_it(), begun(true), use_it()]),
        [Some(ClosedBy::NextSitting), None]
    );
    assert_eq!(
        closed(vec![signed(), begun(false)]),
        [None],
        "signed before it"
    );
    assert_eq!(closed(vec![laid(&one), signed()]), [], "nothing was begun");
}

#[test]
fn a_count_that_was_taken_back_closes_nothing() {
    let mut desks = Desks::new("T-1");
    desks.all([begun(false), drilled(&key("wren", 1), "a", "full")]);
    let event = desks.at("desk", counted_out());
    assert_eq!(desks.wear().closed().count(), 1);
    desks.all([EventKind::StepTakenBack(StepTakenBack {
        reason: None,
        event,
        step: StepKey::CountOut { list: None },
        purpose: PATIENT,
    })]);
    let wear = desks.wear();
    assert_eq!((wear.closed().count(), wear.left_open().count()), (0, 1));
}

#[test]
fn each_sitting_has_its_own_pieces() {
    let one = key("wren", 1);
    let mut desks = Desks::new("T-1");
    let naming = |mark, sitting| EventKind::PieceNamed(named(&one, Some(mark), sitting));
    desks.all([laid(&one), naming("A3", None), begun(false)]);
    desks.all([drilled(&one, "a", "full"), counted_out()]);
    desks.all([laid(&one), naming("A4", None), begun(true)]);
    desks.all([drilled(&one, "a", "full"), counted_out()]);
    let wear = desks.wear();
    let each: Vec<&Tally> = wear.sittings.iter().map(|one| &one.worn).collect();
    let want = ["A3", "A4"].map(|mark| tally(&[("wren", Some(mark), 1, 1)]));
    assert_eq!(each, want.iter().collect::<Vec<_>>());
    // Named later, of the first.
    let first = desks.events.in_order()[2].id();
    desks.all([naming("A5", Some(first))]);
    let wear = desks.wear();
    let worn = |n: usize| wear.sittings[n].worn.clone();
    assert_eq!(worn(0), tally(&[("wren", Some("A5"), 1, 1)]));
    assert_eq!(worn(1), tally(&[("wren", Some("A4"), 1, 1)]));
}

#[test]
fn what_was_practised_wears_no_drill_of_a_patients_kit() {
    let one = key("wren", 1);
    let mut desks = Desks::new("T-1");
    let practised = EventKind::StepDone(StepDone {
        step: step(&one, "a", "full"),
        piece: Some(one.clone()),
        due: None,
        despite: None,
        by_hand: None,
        purpose: Purpose::Practice,
    });
    desks.all([begun(false), practised, counted_out()]);
    assert_eq!(desks.wear().sittings[0].worn, Tally::new());
    let in_practice = wear_of(&desks.events, Purpose::Practice).unwrap();
    assert_eq!(in_practice.sittings[0].worn, tally(&[("wren", None, 1, 1)]));
}

#[test]
fn of_a_broken_record_nothing_is_said_and_of_one_with_a_loss_not_all() {
    let mut desks = Desks::new("T-1");
    desks.all([
        begun(false),
        drilled(&key("wren", 1), "a", "full"),
        counted_out(),
    ]);
    let mut broken = desks.events.clone();
    broken.set_broken();
    assert_eq!(wear_of(&broken, PATIENT), None);
    assert_eq!(desks.wear().put_aside, None);
    desks.all([EventKind::SetAside {
        of: desk("room"),
        file: "room.events.jsonl.damaged-1".to_owned(),
        content: EventHash::of_file(b"x"),
    }]);
    let wear = desks.wear();
    assert!(wear.put_aside.is_some());
    assert_eq!(wear.sittings[0].worn, tally(&[("wren", None, 1, 1)]));
    assert_eq!(Counted::of([&wear]).partial, [case_jaw("T-1")]);
}

#[test]
fn a_count_that_was_left_out_closes_the_day_too() {
    let step = StepKey::CountOut { list: None };
    let left_out = EventKind::StepSkipped(StepSkipped {
        step: step.clone(),
        reason: "bleeding".to_owned(),
        purpose: PATIENT,
    });
    let mut desks = Desks::new("T-1");
    desks.all([begun(false), drilled(&key("wren", 1), "a", "s")]);
    assert_eq!(desks.wear().sittings[0].closed, None);
    let event = desks.at("desk", left_out);
    assert_eq!(desks.wear().sittings[0].closed, Some(ClosedBy::LeftOut));
    let back = EventKind::StepTakenBack(StepTakenBack {
        reason: None,
        event,
        step,
        purpose: PATIENT,
    });
    desks.all([back]);
    assert_eq!(desks.wear().sittings[0].closed, None);
}

/// A piece of a kit that says it was new, after a case.
fn new_piece(case: &CaseWear, drill: &str, mark: &str) -> PieceWear {
    let mut kit = demo_kit();
    kit.wear.drills = vec![crate::kit::DrillWear {
        drill: drill.into(),
        limit: Some(limit(10)),
        pieces: vec![crate::kit::StockPiece {
            mark: mark.into(),
            before: Some(crate::kit::WornBefore {
                uses: 0,
                sterilisations: 0,
            }),
        }],
    }];
    let counted = Counted::of([case]);
    piece_wear(&kit, Some(&counted), (&drill.into(), Some(mark)))
}

#[test]
fn where_a_part_of_a_record_is_gone_no_piece_is_within_its_limit() {
    let mut desks = Desks::new("T-1");
    desks.all([EventKind::SetAside {
        of: desk("room"),
        file: "room.events.jsonl.damaged-1".to_owned(),
        content: EventHash::of_file(b"x"),
    }]);
    let wear = desks.wear();
    assert!(wear.sittings.is_empty(), "nothing is left of the day");
    let found = new_piece(&wear, "wren", "A3");
    assert_eq!((found.uses.least, found.uses.most), (0, None));
    assert_eq!(found.verdict(0), WearVerdict::Unknown);
    assert_eq!(found.lacks, [WearLack::PutAside]);
}

#[test]
fn what_is_used_on_a_day_that_is_open_is_told_and_its_piece_not_within() {
    let one = key("wren", 1);
    let mut desks = Desks::new("T-1");
    let naming = EventKind::PieceNamed(named(&one, Some("A3"), None));
    desks.all([naming, begun(false), drilled(&one, "a", "s")]);
    let found = new_piece(&desks.wear(), "wren", "a3");
    assert_eq!((found.uses.least, found.uses.most), (0, None));
    assert_eq!(
        (found.open_uses, found.verdict(0)),
        (1, WearVerdict::Unknown)
    );
    assert_eq!(found.lacks, [WearLack::OpenDay]);
    let other = new_piece(&desks.wear(), "wren", "A4");
    assert_eq!(other.verdict(0), WearVerdict::Within, "A3 was named");
    desks.all([drilled(&key("wren", 2), "b", "s")]);
    let other = new_piece(&desks.wear(), "wren", "A4");
    assert_eq!(other.verdict(0), WearVerdict::Unknown, "it may be A4");
    desks.all((0..9).map(|n| drilled(&one, &format!("s{n}"), "s")));
    let used = new_piece(&desks.wear(), "wren", "A3");
    assert_eq!(used.verdict(0), WearVerdict::Reached, "ten were recorded");
    assert_eq!(
        used.verdict(1),
        WearVerdict::Near,
        "the one to come may be of them"
    );
}

/// The invented kit with a limit for one drill, pieces of it that people can tell apart, and this counted.
fn judged(limit: WearLimit, counted: &[(&str, Option<&str>, u64, u64)], mark: &str) -> PieceWear {
    let mut kit = demo_kit();
    let drill = kit.drills[0].id.clone();
    let pieces = [("A1", Some((4, 3))), ("A2", Some((0, 0))), ("A3", None)];
    let pieces = pieces.map(|(mark, before)| crate::kit::StockPiece {
        mark: mark.into(),
        before: before.map(|(uses, sterilisations)| crate::kit::WornBefore {
            uses,
            sterilisations,
        }),
    });
    kit.wear.drills = vec![crate::kit::DrillWear {
        drill: drill.clone(),
        limit: Some(limit),
        pieces: pieces.to_vec(),
    }];
    let rows: Vec<_> = counted
        .iter()
        .map(|(_, mark, uses, more)| (drill.as_str(), *mark, *uses, *more))
        .collect();
    let counted = Counted {
        worn: tally(&rows),
        closings: 1,
        ..Counted::default()
    };
    piece_wear(&kit, Some(&counted), (&drill, Some(mark)))
}

fn limit(uses: u32) -> WearLimit {
    WearLimit {
        uses,
        sterilisations: None,
        warn_uses_left: None,
        given_by: LimitGiver::Maker,
        source: "its leaflet".into(),
    }
}

#[test]
fn a_limit_warns_before_it_is_reached() {
    let own = [("", Some("A1"), 5, 2)];
    let at = |uses: u32| judged(limit(uses), &own, "a1");
    assert_eq!(at(20).uses.known(), Some(9));
    for (uses, planned, want) in [
        (20, 2, WearVerdict::Within),
        (11, 2, WearVerdict::Near),
        (10, 2, WearVerdict::Beyond),
        (9, 0, WearVerdict::Reached),
        (9, 2, WearVerdict::Reached),
        (10, 0, WearVerdict::Within),
    ] {
        assert_eq!(at(uses).verdict(planned), want, "{uses} {planned}");
    }
    let warned = WearLimit {
        warn_uses_left: Some(3),
        ..limit(14)
    };
    let of = |planned| judged(warned.clone(), &own, "A1").verdict(planned);
    assert_eq!((of(1), of(2)), (WearVerdict::Within, WearVerdict::Near));
    let sterilised = WearLimit {
        sterilisations: Some(5),
        ..limit(100)
    };
    assert_eq!(
        judged(sterilised, &own, "A1").verdict(0),
        WearVerdict::Reached
    );
}

#[test]
fn an_unknown_is_never_as_good_as_new() {
    let unlisted = judged(limit(20), &[("", Some("Z9"), 2, 1)], "Z9");
    assert!(!unlisted.is_listed);
    assert_eq!((unlisted.uses.least, unlisted.uses.most), (2, None));
    assert_eq!(unlisted.verdict(1), WearVerdict::Unknown);
    let unsaid = judged(limit(20), &[], "A3");
    assert_eq!(
        unsaid.verdict(1),
        WearVerdict::Unknown,
        "nobody said how it began"
    );
    // What is known for certain is said all the same.
    let much = judged(limit(20), &[("", Some("A3"), 20, 1)], "A3");
    assert_eq!(much.verdict(0), WearVerdict::Reached);
    // Any piece of this drill may have had what nobody named.
    let unnamed = [("", Some("A2"), 2, 1), ("", None, 3, 1)];
    let of = |uses| judged(limit(uses), &unnamed, "A2");
    assert_eq!((of(9).uses.least, of(9).uses.most), (2, Some(5)));
    assert_eq!(of(9).verdict(1), WearVerdict::Within);
    assert_eq!(of(6).verdict(1), WearVerdict::Unknown);
    let kit = demo_kit();
    let id: DrillId = kit.drills[0].id.clone();
    assert_eq!(piece_wear(&kit, None, (&id, None)).uses.most, None);
}

#[test]
fn without_a_ledger_nothing_is_known() {
    let mut kit = demo_kit();
    let drill = kit.drills[0].id.clone();
    kit.wear.drills = vec![crate::kit::DrillWear {
        drill: drill.clone(),
        limit: Some(limit(20)),
        pieces: vec![crate::kit::StockPiece {
            mark: "A1".into(),
            before: Some(crate::kit::WornBefore {
                uses: 0,
                sterilisations: 0,
            }),
        }],
    }];
    let none = piece_wear(&kit, None, (&drill, Some("A1")));
    assert_eq!((none.uses.least, none.uses.most), (0, None));
    assert_eq!(none.verdict(1), WearVerdict::Unknown);
    let empty = Counted::default();
    let some = piece_wear(&kit, Some(&empty), (&drill, Some("A1")));
    assert_eq!(some.uses.known(), Some(0));
    assert_eq!(some.verdict(1), WearVerdict::Within);
}

#[test]
fn the_list_has_each_piece_once_and_those_that_the_kit_does_not_list() {
    let mut kit = demo_kit();
    let reused = kit.drills.iter().find(|drill| !drill.single_use);
    let drill = reused.unwrap().id.clone();
    kit.wear.drills = vec![crate::kit::DrillWear {
        drill: drill.clone(),
        limit: None,
        pieces: vec![crate::kit::StockPiece {
            mark: "a 1".into(),
            before: None,
        }],
    }];
    let counted = Counted {
        worn: tally(&[
            (drill.as_str(), Some("A1"), 1, 1),
            (drill.as_str(), Some("B7"), 2, 1),
            (drill.as_str(), None, 3, 1),
            ("gone", Some("X"), 1, 1),
        ]),
        closings: 1,
        ..Counted::default()
    };
    let all = pieces_of(&kit, Some(&counted));
    let told: Vec<(String, Vec<String>, u64)> = all
        .iter()
        .map(|one| {
            let marks = one.pieces.iter().map(|piece| {
                let mark = piece.mark.as_ref().unwrap();
                format!("{mark} {} {}", piece.uses.least, piece.is_listed)
            });
            (one.drill.to_string(), marks.collect(), one.unnamed_uses)
        })
        .collect();
    let words = |all: &[&str]| all.iter().map(|one| (*one).to_owned()).collect::<Vec<_>>();
    assert_eq!(
        told,
        [
            (drill.to_string(), words(&["a 1 1 true", "B7 2 false"]), 3),
            ("gone".to_owned(), words(&["X 1 false"]), 0),
        ]
    );
}

#[test]
fn a_piece_is_named_for_the_sitting_that_is_meant() {
    let one = key("wren", 1);
    let mut desks = Desks::new("T-1");
    let say = |desks: &Desks, of| {
        let named = (one.clone(), Some("A3".to_owned()));
        name_piece(&desks.events, PATIENT, named, of)
    };
    let now = |desks: &Desks, hours: i64| {
        let last = desks.events.in_order().last().unwrap().at;
        NamedFor::Now(last + jiff::SignedDuration::from_hours(hours))
    };
    assert_eq!(say(&desks, NamedFor::Last).sitting, None);
    let fall = desks.at("desk", fell(&one));
    let said = say(&desks, NamedFor::Next);
    assert_eq!(
        (said.sitting.clone(), said.after.clone()),
        (None, Some(fall))
    );
    desks.all([EventKind::PieceNamed(said)]);
    let known = |desks: &Desks, of| named_piece(&desks.events, PATIENT, &one, of);
    assert_eq!(known(&desks, now(&desks, 1)), Some("A3".to_owned()));
    let begin = desks.at("desk", begun(false));
    assert_eq!(say(&desks, now(&desks, 1)).sitting, Some(begin.clone()));
    assert_eq!(
        say(&desks, now(&desks, 13)).sitting,
        None,
        "of the day before"
    );
    assert_eq!(known(&desks, now(&desks, 1)), Some("A3".to_owned()));
    assert_eq!(
        known(&desks, now(&desks, 13)),
        None,
        "the next day's tray is another"
    );
    desks.all([counted_out()]);
    assert_eq!(say(&desks, now(&desks, 1)).sitting, None);
    assert_eq!(say(&desks, NamedFor::Last).sitting, Some(begin));
}

/// A sitting is in the count once it is counted as closed: a day that is closed by its record alone is not.
#[test]
fn a_sitting_is_counted_where_the_count_holds_it() {
    let sitting = |id: u8, closed| Sitting {
        id: EventHash::of_file(&[id]),
        at: jiff::Timestamp::UNIX_EPOCH,
        closed,
        worn: Tally::default(),
    };
    let case = |closed| CaseWear {
        case: case_jaw("DAY-1"),
        sittings: vec![sitting(1, Some(ClosedBy::NextSitting)), sitting(2, closed)],
        put_aside: None,
        logs: Vec::new(),
        events: BTreeSet::new(),
    };
    let (open, over) = (case(None), case(Some(ClosedBy::Count)));
    assert!(!Counted::default().has_last_of(&over));
    assert!(!Counted::of([&open]).has_last_of(&over));
    assert!(Counted::of([&over]).has_last_of(&over));
}
