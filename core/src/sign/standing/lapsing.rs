//! What makes a reading or an approval lapse, worked by hand.

use super::tables::{
    changed, first, k1, lapses, merged, objections, of_desk, plan, policy, second,
};
use super::*;
use crate::kit::SlotKind;
use crate::sign::samples::*;
use crate::sign::{EventKind, ItemKey, Log, Piece, Purpose, Stage, ThingKey};

#[test]
fn a_change_that_takes_one_thing_away_is_not_empty() {
    assert!(Withdrawn::default().is_empty());
    let placed = vec![(k1(), "A1".to_owned())];
    let one = Withdrawn {
        placed,
        ..Withdrawn::default()
    };
    assert!(!one.is_empty());
}

#[test]
#[rustfmt::skip] // One row a line, so that the table reads as one.
fn a_reading_lapses_with_its_drill_stop_setting_gauge_and_handling() {
    let drill = || k1().drill_key();
    let other = || crate::sign::samples::drill("kestrel", 2);
    let landed = |times| EventKind::Landed {
        drill: drill(),
        times: copy(times),
purpose: None,
};
    let dropped = |drill| EventKind::Dropped {
        piece: Piece::Drill(drill),
purpose: None,
};
    let sitting = |anew| EventKind::SurgeryBegun(crate::sign::SurgeryBegun {
        fingerprint: crate::sign::Fingerprint::of_bytes(b"plan"),
        approval: crate::sign::Approved::Open,
        lies_wrong: Vec::new(),
        despite: None,
        wrong_as: Vec::new(),
        anew,
        purpose: Purpose::Patient,
    });
    let step = || EventKind::StepDone(crate::sign::StepDone {
        step: crate::sign::StepKey::Reseat {},
        piece: None,
        due: None,
        despite: None,
        by_hand: None,
        purpose: Purpose::Patient,
    });
    // Whose stop was taken off is set to nothing any more.
    let by_hand = |drill| EventKind::StepDone(crate::sign::StepDone {
        step: crate::sign::StepKey::Reseat {},
        piece: Some(drill),
        due: None,
        despite: Some("the guide was left".to_owned()),
        by_hand: Some(crate::sign::ByHand { aimed_mm: None }),
        purpose: Purpose::Patient,
    });
    let item = |i: ItemKey| changed("24.3", |r| r.item = i);
    let kestrel = |n, stop, setting| crate::sign::samples::item("kestrel", n, stop, setting);
    for (name, kinds, want) in [
        ("untouched", vec![first("24.3")], vec!["counts"]),
        ("out of tolerance", vec![first("29.9")], vec!["counts"]),
        ("practice", vec![changed("24.3", |r| r.purpose = Purpose::Practice)], vec!["practice"]),
        ("drill", vec![item(crate::sign::samples::item("heron", 1, Some("s2"), "24.3"))], vec!["drill-not-in-plan"]),
        ("copy", vec![item(kestrel(3, Some("s2"), "24.3"))], vec!["copy-not-in-plan"]),
        ("stop", vec![item(kestrel(1, Some("s3"), "24.3"))], vec!["stop-changed"]),
        ("no stop", vec![item(kestrel(1, None, "24.3"))], vec!["stop-changed"]),
        ("setting", vec![item(kestrel(1, Some("s2"), "24.2"))], vec!["setting-changed"]),
        ("gauge", vec![changed("24.3", |r| r.gauge = "h".to_owned())], vec!["gauge-changed"]),
        ("gauge since", vec![first("24.3"), second("24.3"), changed("24.9", |r| r.gauge = "h".to_owned()), first("24.3")], vec!["other-gauge", "other-gauge", "gauge-changed other-gauge", "counts"]),
        ("gauge since, aloud", vec![first("24.3"), changed("24.9", |r| { r.gauge = "h".to_owned(); r.entered_by = Some(who("OW")); })], vec!["counts", "gauge-changed"]),
        ("gauge since, practice", vec![first("24.3"), changed("24.9", |r| { r.gauge = "h".to_owned(); r.purpose = Purpose::Practice; })], vec!["counts", "practice gauge-changed"]),
        ("reset", vec![first("24.3"), EventKind::Reset { drill: drill(), to: None, passed_over: None, purpose: None }], vec!["reset"]),
        ("by hand", vec![first("24.3"), by_hand(drill())], vec!["reset"]),
        ("another by hand", vec![first("24.3"), by_hand(other())], vec!["counts"]),
        ("by hand before", vec![by_hand(drill()), first("24.3")], vec!["counts"]),
        ("reset before", vec![EventKind::Reset { drill: drill(), to: None, passed_over: None, purpose: None }, first("24.3")], vec!["counts"]),
        ("reset of another", vec![first("24.3"), EventKind::Reset { drill: other(), to: None, passed_over: None, purpose: None }], vec!["counts"]),
        ("fall", vec![first("24.3"), dropped(drill())], vec!["dropped"]),
        ("fall of another", vec![first("24.3"), dropped(other())], vec!["counts"]),
        ("fall of something else", vec![first("24.3"), EventKind::Dropped { piece: Piece::Other("kestrel".to_owned()), purpose: None }], vec!["counts"]),
        ("another sitting", vec![first("24.3"), step(), sitting(true)], vec!["another-sitting"]),
        ("read for another sitting", vec![step(), first("24.3"), sitting(true)], vec!["counts"]),
        ("the same sitting", vec![first("24.3"), step(), sitting(false)], vec!["counts"]),
        ("another sitting before", vec![step(), sitting(true), first("24.3")], vec!["counts"]),
        ("four landings", vec![first("24.3"), landed(4)], vec!["counts"]),
        ("five landings", vec![first("24.3"), landed(2), landed(3)], vec!["landings"]),
        ("landings before", vec![landed(4), first("24.3"), landed(4)], vec!["counts"]),
        ("read again", vec![first("24.3"), first("24.2")], vec!["superseded", "counts"]),
        ("second is another place", vec![first("24.3"), second("24.3")], vec!["counts", "counts"]),
        ("practice moves nothing", vec![first("24.3"), changed("24.3", |r| r.purpose = Purpose::Practice)], vec!["counts", "practice"]),
        ("practice at another setting moves nothing", vec![first("24.3"), changed("22", |r| { r.purpose = Purpose::Practice; r.item.setting_mm = mm("22"); })], vec!["counts", "practice setting-changed"]),
        ("read at another setting", vec![first("24.3"), item(kestrel(1, Some("s2"), "22"))], vec!["read-otherwise", "setting-changed"]),
        ("other copy elsewhere", vec![first("24.3"), item(kestrel(2, Some("s2"), "22"))], vec!["counts", "setting-changed"]),
        ("all at once", vec![first("24.3"), EventKind::Reset { drill: drill(), to: None, passed_over: None, purpose: None }, dropped(drill()), landed(9)], vec!["reset dropped landings"]),
    ] {
        assert_eq!(lapses(&of_desk(kinds)), want, "{name}");
    }
}

#[test]
#[rustfmt::skip] // One row a line, so that the table reads as one.
fn approvals_hold_for_what_they_name() {
    let practice = Purpose::Practice;
    let withdrawn = |plan: &[u8]| EventKind::ApprovalWithdrawn {
        fingerprint: crate::sign::Fingerprint::of_bytes(plan),
        reason: "new scan".to_owned(),
    };
    let good = || approval(b"plan", &["36/canal"], Purpose::Patient);
    for (name, kinds, want) in [
        ("as it is", vec![good()], vec![]),
        ("practice", vec![approval(b"plan", &["36/canal"], practice)], vec!["practice"]),
        ("another plan", vec![approval(b"other", &["36/canal"], Purpose::Patient)], vec!["fingerprint-differs"]),
        ("withdrawn", vec![good(), withdrawn(b"plan")], vec!["withdrawn"]),
        ("withdrawn before", vec![withdrawn(b"plan"), good()], vec![]),
        ("another withdrawn", vec![good(), withdrawn(b"other")], vec![]),
        ("accepted since", vec![approval(b"plan", &[], Purpose::Patient)], vec!["acceptances-not-covered"]),
        ("no longer accepted", vec![approval(b"plan", &["36/canal", "37/root"], Purpose::Patient)], vec!["acceptances-gone"]),
        ("other accepted", vec![approval(b"plan", &["37/root"], Purpose::Patient)], vec!["acceptances-not-covered", "acceptances-gone"]),
        ("everything", vec![approval(b"other", &[], practice), withdrawn(b"other")], vec!["practice", "fingerprint-differs", "withdrawn", "acceptances-not-covered"]),
    ] {
        let standing = of_desk(kinds);
        let told = standing.approvals[0]
            .lapses
            .iter()
            .map(|lapse| lapse.message().id);
        let told: Vec<&str> = told
            .map(|id| id.trim_start_matches("sign-approval-"))
            .collect();
        assert_eq!(told, want, "{name}");
        let valid = standing.valid_approvals().count();
        let last_is_good = want.is_empty();
        assert_eq!(valid, usize::from(last_is_good), "{name}");
    }
}

/// An event of a desk that had read this of the others.
fn knowing(log: &mut Log, of: &[&Log], seconds: i64, name: &str, kind: EventKind) {
    let heads = of
        .iter()
        .map(|log| (log.writer().clone(), log.head().unwrap()));
    let heads = heads.collect();
    log.append_knowing(heads, at(seconds), who(name), kind)
        .unwrap();
}

#[test]
fn what_another_desk_did_counts_as_later_unless_it_was_known_whatever_the_clocks_say() {
    for seconds in [-90_000, 879, 999, 1001, 90_000] {
        let mut here = log_of("desk", [checked("20", "20")]);
        let mut there = Log::new(&case_jaw(), writer("room"));
        let drill = k1().drill_key();
        let reset = EventKind::Reset {
            drill,
            to: None,
            passed_over: None,
            purpose: None,
        };
        there.append(at(seconds), who("CD"), reset).unwrap();
        let mut knew = here.clone();
        here.append(at(1000), who("AB"), first("24.3")).unwrap();
        let events = merged([here, there.clone()]);
        let told = lapses(&standing(&events, &plan(), &policy()).unwrap());
        assert_eq!(told, ["reset"], "{seconds}");
        knowing(&mut knew, &[&there], 1000, "AB", first("24.3"));
        let events = merged([knew, there]);
        let told = lapses(&standing(&events, &plan(), &policy()).unwrap());
        assert_eq!(told, ["counts"], "{seconds}");
    }
}

/// A withdrawal stamped three minutes, or a day, before the approval that it withdraws.
#[test]
fn a_withdrawal_counts_whatever_its_clock_says_unless_the_approval_was_given_knowing_it() {
    let approve = || approval(b"plan", &["36/canal"], crate::sign::Purpose::Patient);
    let withdraw = || EventKind::ApprovalWithdrawn {
        fingerprint: crate::sign::Fingerprint::of_bytes(b"plan"),
        reason: "seen again".to_owned(),
    };
    let valid = |logs: [Log; 2]| {
        let standing = standing(&merged(logs), &plan(), &policy()).unwrap();
        standing.valid_approvals().count()
    };
    for seconds in [-86_400, -180, 0, 180, 86_400] {
        let mut desk = Log::new(&case_jaw(), writer("desk"));
        desk.append(at(0), who("AB"), approve()).unwrap();
        let mut room = Log::new(&case_jaw(), writer("room"));
        knowing(&mut room, &[&desk], seconds, "CD", withdraw());
        assert_eq!(valid([desk.clone(), room.clone()]), 0, "{seconds}");
        // Of two that do not know of each other the withdrawal counts too.
        let mut apart = Log::new(&case_jaw(), writer("room"));
        apart.append(at(seconds), who("CD"), withdraw()).unwrap();
        assert_eq!(valid([desk.clone(), apart]), 0, "{seconds}");
        knowing(&mut desk, &[&room], -86_400, "AB", approve());
        assert_eq!(valid([desk, room]), 1, "{seconds}");
    }
}

/// Taken off the tray or opened and fallen at another desk: a thing lies, and is open, only where it is known to
/// have been laid or opened after that.
#[test]
fn a_thing_taken_off_at_another_desk_does_not_lie_whatever_the_clocks_say() {
    let pin = |slot| thing_placed(SlotKind::Pin, "wren", 1, slot);
    let thing = ThingKey {
        of: SlotKind::Pin,
        entry: "wren".to_owned(),
        copy: copy(1),
    };
    let opened = EventKind::Opened {
        thing,
        purpose: crate::sign::Purpose::Patient,
    };
    let fell = EventKind::Dropped {
        piece: Piece::Other("wren".to_owned()),
        purpose: None,
    };
    let here = |logs: [&Log; 2]| {
        let standing = standing(&merged(logs.map(Log::clone)), &plan(), &policy()).unwrap();
        standing.thing_slots.len() + standing.opened.len()
    };
    for (there, gone) in [(pin(Some("B4")), pin(None)), (opened, fell)] {
        for seconds in [-86_400, -1, 0, 1, 86_400] {
            let desk = log_of("desk", [there.clone()]);
            let mut room = Log::new(&case_jaw(), writer("room"));
            room.append(at(seconds), who("CD"), gone.clone()).unwrap();
            assert_eq!(here([&desk, &room]), 0, "nobody knows: {seconds}");
            let mut after = Log::new(&case_jaw(), writer("desk"));
            knowing(&mut after, &[&room], 0, "AB", there.clone());
            assert_eq!(here([&after, &room]), 1, "known to be after: {seconds}");
            let mut then = Log::new(&case_jaw(), writer("room"));
            knowing(&mut then, &[&desk], seconds, "CD", gone.clone());
            assert_eq!(here([&desk, &then]), 0, "known to be before: {seconds}");
        }
    }
}

#[test]
fn what_is_not_done_for_the_order_of_two_desks_is_done_for_that_of_one() {
    // At one desk the order of the file decides, whatever its clock says.
    let mut log = log_of("desk", [checked("20", "20")]);
    let drill = k1().drill_key();
    log.append(
        at(500),
        who("AB"),
        EventKind::Reset {
            drill,
            to: None,
            passed_over: None,
            purpose: None,
        },
    )
    .unwrap();
    log.append(at(100), who("AB"), first("24.3")).unwrap();
    let events = merged([log]);
    assert_eq!(
        lapses(&standing(&events, &plan(), &policy()).unwrap()),
        ["counts"]
    );

    // Two first readings within the doubt both stand, so that neither hides the other.
    let mut here = log_of("desk", [checked("20", "20")]);
    here.append(at(1000), who("AB"), first("24.6")).unwrap();
    here.append(at(1001), who("CD"), second("24.3")).unwrap();
    let mut there = Log::new(&case_jaw(), writer("room"));
    there.append(at(1002), who("EF"), first("24.3")).unwrap();
    let both = standing(&merged([here, there]), &plan(), &policy()).unwrap();
    assert_eq!(lapses(&both), ["counts", "counts", "counts"]);
    // Nor does the other desk know of the gauge's check.
    let told = objections(&both, Stage::Bench);
    assert_eq!(told, ["gauge-not-checked", "contradicted"]);
}

#[test]
fn a_change_of_plan_tells_exactly_what_it_takes_away_and_undo_brings_it_back() {
    let before = plan();
    let mut after = plan();
    after.fingerprint = crate::sign::Fingerprint::of_bytes(b"edited");
    after.items[0].key.setting_mm = mm("23.9");
    after.items[0].gauge_figure_mm = Some(mm("23.9"));
    // The plover's setting stays, but its gauge is found to show 0.3 mm less.
    after.items[2].gauge_figure_mm = Some(mm("17.7"));
    let plover = item("plover", 1, None, "18");
    let log = log_of(
        "desk",
        [
            checked("20", "20"),
            first("24.3"),
            changed("24.3", |r| r.item.copy = copy(2)),
            EventKind::Reading(reading(plover, "18")),
            approval(b"plan", &["36/canal"], Purpose::Patient),
            approval(b"older", &["36/canal"], Purpose::Patient),
            EventKind::Placed {
                item: k1(),
                slot: "B4".to_owned(),
                purpose: Some(Purpose::Patient),
            },
        ],
    );
    let events = merged([log]);
    let withdrawn = withdrawn_by(&before, &after, &events, &policy()).unwrap();
    let seqs = |r: &[ReadingStanding]| r.iter().map(|r| r.id.seq).collect::<Vec<_>>();
    assert_eq!(seqs(&withdrawn.readings), [2]);
    assert_eq!(withdrawn.readings[0].lapses.len(), 1);
    assert_eq!(seqs(&withdrawn.contradicted), [4]);
    let approvals: Vec<u64> = withdrawn.approvals.iter().map(|a| a.id.seq).collect();
    assert_eq!(approvals, [5], "the older one did not hold before");
    assert_eq!(withdrawn.placed, [(k1(), "B4".to_owned())]);

    let back = withdrawn_by(&after, &before, &events, &policy()).unwrap();
    assert!(back.is_empty(), "undo takes nothing away: {back:?}");
    let undone = standing(&events, &before, &policy()).unwrap();
    assert_eq!(lapses(&undone), ["counts"; 3]);
    assert_eq!(undone.valid_approvals().count(), 1);
}

/// A drill that was read and laid at the setting that only comes second under the new plan.
#[test]
fn a_setting_that_only_comes_later_is_withdrawn() {
    let before = plan();
    let mut after = plan();
    let mut first_now = after.items[0].clone();
    first_now.key.setting_mm = mm("23.9");
    first_now.gauge_figure_mm = Some(mm("23.9"));
    after.items[0].state = SettingState::Later;
    after.items.push(first_now);
    let placed = EventKind::Placed {
        item: k1(),
        slot: "B4".to_owned(),
        purpose: Some(Purpose::Patient),
    };
    let events = merged([log_of("desk", [checked("20", "20"), first("24.3"), placed])]);
    let withdrawn = withdrawn_by(&before, &after, &events, &policy()).unwrap();
    assert_eq!(withdrawn.placed, [(k1(), "B4".to_owned())]);
    let [reading] = &withdrawn.readings[..] else {
        panic!("{withdrawn:?}")
    };
    assert_eq!(
        reading.lapses,
        [Lapse::SettingChanged {
            drill: k1().drill_key(),
            read_mm: mm("24.3"),
            planned_mm: mm("23.9"),
        }]
    );
    let back = withdrawn_by(&after, &before, &events, &policy()).unwrap();
    assert!(back.is_empty(), "undo takes nothing away: {back:?}");
    // Once it is left for the next, it lies as it did and is being set anew.
    after.items[0].state = SettingState::NoMore;
    let left = withdrawn_by(&before, &after, &events, &policy()).unwrap();
    assert_eq!(left.placed, []);
}

#[test]
fn undo_does_not_bring_back_a_setting_that_was_set_otherwise_meanwhile() {
    let meanwhile = changed("23.9", |r| r.item.setting_mm = mm("23.9"));
    let standing = of_desk([checked("20", "20"), first("24.3"), meanwhile]);
    assert_eq!(lapses(&standing), ["read-otherwise", "setting-changed"]);
}
