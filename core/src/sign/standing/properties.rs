//! Properties of every plan, every history and every edit.

#[cfg(test)]
mod tests {
    use super::super::tables::{k1, plan};
    use super::super::*;
    use crate::sign::samples::*;
    use crate::sign::{
        Event, EventId, EventKind, Fingerprint, HandStep, ItemKey, Log, Piece, Purpose, Reading,
        Stage, Turn, read_log,
    };
    use proptest::prelude::*;

    fn any_item() -> impl Strategy<Value = ItemKey> {
        let names = prop::sample::select(vec!["kestrel", "plover"]);
        let stops = prop::sample::select(vec![None, Some("s2")]);
        let settings = prop::sample::select(vec!["18", "24.3"]);
        (names, 1..3_u32, stops, settings).prop_map(|(name, n, stop, mm)| item(name, n, stop, mm))
    }

    fn any_gauge() -> impl Strategy<Value = String> {
        prop_oneof![3 => Just("g"), 1 => Just("h")].prop_map(str::to_owned)
    }

    fn any_purpose() -> impl Strategy<Value = Purpose> {
        prop_oneof![4 => Just(Purpose::Patient), 1 => Just(Purpose::Practice)]
    }

    fn any_reading() -> impl Strategy<Value = EventKind> {
        let stages = vec![Stage::Bench, Stage::SterileField, Stage::AfterUse];
        let stages = prop::sample::select(stages);
        let turns = prop::sample::select(vec![Turn::First, Turn::Second]);
        let values = prop::sample::select(vec!["18", "24.2", "24.3", "24.4", "243"]);
        (
            any_item(),
            any_gauge(),
            values,
            stages,
            turns,
            any_purpose(),
        )
            .prop_map(|(item, gauge, value, stage, turn, purpose)| {
                EventKind::Reading(Reading {
                    item,
                    gauge,
                    value_mm: mm(value),
                    stage,
                    turn,
                    purpose,
                    entered_by: None,
                })
            })
    }

    fn any_step() -> impl Strategy<Value = HandStep> {
        prop::sample::select(vec![HandStep::Set, HandStep::Locked, HandStep::Tugged])
    }

    fn any_kind() -> impl Strategy<Value = EventKind> {
        let plans = || prop::sample::select(vec![b"plan".as_slice(), b"other"]);
        let drill = || any_item().prop_map(|item| item.drill_key());
        prop_oneof![
                    6 => any_reading(),
                    2 => (any_gauge(), prop::sample::select(vec!["20", "20", "20.2"])).prop_map(
                        |(gauge, value)| EventKind::GaugeChecked {
                            gauge, piece_mm: mm("20"), value_mm: mm(value), purpose: Some(Purpose::Patient),
        asked_back_mm: Vec::new(),
        }
                    ),
                    1 => (any_item(), any_step()).prop_map(|(item, step)| handled(item, step)),
                    1 => drill().prop_map(|drill| EventKind::Reset { drill, to: None, passed_over: None, purpose: None }),
                    1 => drill().prop_map(|drill| EventKind::Dropped { piece: Piece::Drill(drill), purpose: None }),
                    1 => any_gauge().prop_map(|g| EventKind::Dropped { piece: Piece::Gauge(g), purpose: None }),
                    1 => (drill(), 1..4_u32)
                        .prop_map(|(drill, n)| EventKind::Landed { drill, times: copy(n), purpose: None }),
                    1 => (any_item(), "[A-C][1-4]").prop_map(|(item, slot)| EventKind::Placed { item, slot, purpose: Some(Purpose::Patient) }),
                    1 => (0..2_u32, prop::option::of("[A-C][1-4]")).prop_map(|(n, slot)| {
                        thing_placed(crate::kit::SlotKind::Pin, "wren", n + 1, slot.as_deref())
                    }),
                    2 => (plans(), any_purpose()).prop_map(|(p, purpose)| approval(p, &["36/canal"], purpose)),
                    1 => plans().prop_map(|p| EventKind::ApprovalWithdrawn {
                        fingerprint: Fingerprint::of_bytes(p), reason: "r".to_owned()
                    }),
                    // Lines and paragraphs are ended by no text.
                    1 => "[\\PC--[\\p{Zl}\\p{Zp}]]{1,12}x".prop_map(|text| EventKind::Note { text }),
                ]
    }

    /// A log by this desk; its clock may go back.
    fn any_log(desk: &'static str) -> impl Strategy<Value = Log> {
        let event = (any_kind(), -60..600_i64, 0..3_usize);
        prop::collection::vec(event, 0..10).prop_map(move |events| {
            let mut log = Log::new(&case_jaw(), writer(desk));
            let mut now = 1000;
            for (kind, later, person) in events {
                now += later;
                let who = who(["AB", "CD", "Ж"][person]);
                log.append(at(now), who, kind).unwrap();
            }
            log
        })
    }

    fn any_events() -> impl Strategy<Value = Merged> {
        (any_log("desk"), any_log("room"))
            .prop_map(|(a, b)| Merged::of(case_jaw(), [a, b]).unwrap())
    }

    /// Many readings of one drill by a checked gauge, so that a good part of them verify it.
    fn busy_events() -> impl Strategy<Value = Merged> {
        let values = prop::sample::select(vec!["24.2", "24.3", "24.3", "24.4"]);
        let turns = prop::sample::select(vec![Turn::First, Turn::Second]);
        let readings = (values, turns, 0..2_usize, any_purpose());
        prop::collection::vec(readings, 2..6).prop_map(|readings| {
            let mut log = log_of("desk", [checked("20", "20")]);
            for (value, turn, person, purpose) in readings {
                let mut reading = reading(k1(), value);
                (reading.turn, reading.purpose) = (turn, purpose);
                let who = who(["AB", "CD"][person]);
                log.append(at(9), who, EventKind::Reading(reading)).unwrap();
            }
            Merged::of(case_jaw(), [log]).unwrap()
        })
    }

    fn any_plan() -> impl Strategy<Value = PlanView> {
        let figure = prop::sample::select(vec![None, Some("18"), Some("24.3")]);
        let planned = (any_item(), any_gauge(), figure);
        (prop::collection::vec(planned, 0..12), any_purpose()).prop_map(|(items, purpose)| {
            let template = plan();
            let mut made: Vec<PlannedItem> = Vec::new();
            for (key, gauge, figure) in items {
                if made.iter().all(|item| item.key != key) {
                    made.push(PlannedItem {
                        key,
                        gauge,
                        gauge_figure_mm: figure.map(mm),
                        ..template.items[0].clone()
                    });
                }
            }
            PlanView {
                items: made,
                purpose,
                ..template
            }
        })
    }

    /// A log cut after so many events, as another desk may have it.
    fn beginning(log: &Log, events: usize) -> Log {
        let text = log.text();
        let lines: Vec<&str> = text.lines().take(events + 1).collect();
        let text = lines.join("\n") + "\n";
        let reading = read_log("f", text.as_bytes(), &case_jaw());
        reading.log.unwrap()
    }

    /// Some of what three desks know: beginnings of the same logs.
    fn any_parts() -> impl Strategy<Value = [Merged; 3]> {
        let cuts = prop::array::uniform3((0..11_usize, 0..11_usize));
        (any_log("desk"), any_log("room"), cuts).prop_map(|(a, b, cuts)| {
            cuts.map(|(i, j)| {
                let logs = [beginning(&a, i), beginning(&b, j)];
                let known = logs.into_iter().filter(|log| !log.events().is_empty());
                Merged::of(case_jaw(), known).unwrap()
            })
        })
    }

    /// True if the plan has the drill at the reading's stop and setting, read on its gauge.
    fn planned(reading: &Reading, plan: &PlanView) -> bool {
        let same = |item: &PlannedItem| item.key == reading.item && item.gauge == reading.gauge;
        plan.items.iter().any(same)
    }

    proptest! {
        #[test]
        fn a_log_written_and_read_is_the_same(log in any_log("desk")) {
            let reading = read_log("f", log.text().as_bytes(), &case_jaw());
            prop_assert_eq!(reading.log, Some(log.clone()));
            let only_clock = reading.problems.iter().all(|p| p.message().id.ends_with("clock-went-back"));
            prop_assert!(only_clock, "{:?}", reading.problems);
            let lines: String = log.events().iter().map(|e: &Event| e.line() + "\n").collect();
            prop_assert_eq!(log.text(), log.header().line() + "\n" + &lines);
        }

        #[test]
        fn union_is_idempotent_commutative_and_associative([a, b, c] in any_parts()) {
            let union = |a: &Merged, b: &Merged| a.clone().union(b.clone()).unwrap();
            prop_assert_eq!(union(&a, &a), a.clone());
            prop_assert_eq!(union(&a, &b), union(&b, &a));
            prop_assert_eq!(union(&union(&a, &b), &c), union(&a, &union(&b, &c)));
            let all = union(&a, &b);
            let ids: Vec<_> = all.in_order().iter().map(|e| e.id()).collect();
            let mut distinct = ids.clone();
            distinct.sort();
            distinct.dedup();
            prop_assert_eq!(distinct.len(), ids.len());
            for e in a.in_order() {
                prop_assert_eq!(all.event(&e.id()), Some(e));
            }
        }

        #[test]
        fn the_order_is_total_and_keeps_each_writers_own(events in any_events()) {
            let order = events.in_order();
            for (i, a) in order.iter().enumerate() {
                for b in &order[i + 1..] {
                    prop_assert!(a.writer != b.writer || a.seq < b.seq);
                }
            }
        }

        #[test]
        fn an_edit_withdraws_a_reading_exactly_when_its_drill_or_setting_changed(
            events in any_events(), before in any_plan(), after in any_plan(),
        ) {
            let after = PlanView { purpose: before.purpose, ..after };
            let policy = Policy::strict(5);
            let was = standing(&events, &before, &policy).unwrap();
            let withdrawn = withdrawn_by(&before, &after, &events, &policy).unwrap();
            let gone: Vec<_> = withdrawn.readings.iter().map(|r| &r.id).collect();
            for r in &was.readings {
                let counted = match before.purpose {
                    Purpose::Patient => r.counts(),
                    Purpose::Practice => r.lapses == [Lapse::Practice],
                };
                let changed = counted && !planned(&r.reading, &after);
                prop_assert_eq!(gone.contains(&&r.id), changed, "{:?}", r);
                prop_assert!(!counted || planned(&r.reading, &before));
            }
        }

        #[test]
        fn an_edit_and_its_undo_leave_everything_as_it_was(
            events in any_events(), before in any_plan(), after in any_plan(),
        ) {
            let policy = Policy::strict(5);
            let was = standing(&events, &before, &policy).unwrap();
            let _ = withdrawn_by(&before, &after, &events, &policy).unwrap();
            prop_assert_eq!(standing(&events, &before, &policy).unwrap(), was);
            prop_assert!(withdrawn_by(&before, &before, &events, &policy).unwrap().is_empty());
        }

        #[test]
        fn what_is_verified_was_read_twice_by_two_people_never_deeper(
            events in busy_events(), purpose in any_purpose(),
        ) {
            let plan = PlanView { purpose, ..plan() };
            let standing = standing(&events, &plan, &Policy::strict(5)).unwrap();
            for (item, planned) in standing.items.iter().zip(&plan.items) {
                for (stage, check) in item.checks.iter().filter(|(_, check)| check.is_verified()) {
                    prop_assert_eq!(plan.purpose, Purpose::Patient);
                    let event = |id: &Option<EventId>| events.event(id.as_ref()?).cloned();
                    let (first, second) = (event(&check.first).unwrap(), event(&check.second).unwrap());
                    prop_assert!(!first.who.may_be_same(&second.who));
                    for event in [first, second] {
                        let EventKind::Reading(reading) = event.kind else {
                            return Err(TestCaseError::fail("no reading"));
                        };
                        prop_assert_eq!(reading.stage, *stage);
                        prop_assert_eq!(&reading.item, &planned.key);
                        prop_assert!(Some(reading.value_mm) <= planned.gauge_figure_mm);
                        prop_assert_eq!(reading.purpose, Purpose::Patient);
                    }
                }
            }
        }

        #[test]
        fn any_bytes_are_read_without_panic(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
            let reading = read_log("f", &bytes, &case_jaw());
            prop_assert!(reading.log.is_none());
            prop_assert!(!reading.problems.is_empty());
        }
    }
}
