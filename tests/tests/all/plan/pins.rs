//! Fixation pins: the depth of their drills, what holds the guide, and when they are loaded.

use super::kit::drill;
use super::sample::{all, mm, shown, work};
use traywright_core::case::{Case, CasePin};
use traywright_core::kit::{
    Datum, DrillKind, DrillMark, FixedLength, Pin, PinSleeve, SlotKind, StopKind,
};
use traywright_core::plan::{Operation, Reason, Verdict, Worksheet};

/// The sample with two pins, 17.0 long under the head; their drill has marks at 16.2 and 17.3.
fn pinned(change: impl FnOnce(&mut Case)) -> Worksheet {
    let mut case = super::sample::case();
    let mut own = drill("pd", DrillKind::Pin, "1.3");
    own.marks = [("first", "16.2"), ("second", "17.3")]
        .map(|(name, at)| DrillMark {
            name: name.into(),
            lower_edge_mm: mm(at),
            upper_edge_mm: None,
        })
        .into();
    case.kit.drills.push(own);
    case.kit.pins.push(Pin {
        id: "pin".into(),
        name: "Pin".into(),
        code: None,
        diameter_mm: mm("1.4"),
        length_mm: mm("17"),
        drill: "pd".into(),
        stop: None,
        sleeve: PinSleeve {
            bore_mm: mm("1.5"),
            height_mm: mm("5"),
        },
        quantity: 3,
    });
    case.guide.pins = ["front", "side"]
        .map(|name| CasePin {
            name: name.into(),
            pin: "pin".into(),
            at: "43".parse().unwrap(),
            along_mm: mm("1"),
            buccal_mm: mm("2"),
        })
        .into();
    change(&mut case);
    work(case)
}

/// The pin ends 17.0 below the rim of its sleeve: 16.2 is the deepest mark not beyond it. With a mark
/// at 17.0 it is that. Counted at its full diameter elsewhere, here its tip still ends at the pin's: no
/// point comes on top, and the mark at 17.3 does not fit. An adjustable stop is set to 17.0; a fixed one gives what it has.
#[test]
fn a_pin_drill_goes_to_the_pins_tip_and_not_beyond() {
    let sheet = pinned(|_| {});
    assert_eq!(sheet.pins.len(), 2);
    let first = &sheet.pins[0];
    assert_eq!(
        (shown(&first.exact), shown(&first.set)),
        ("17".into(), "16.2".into())
    );
    assert_eq!(first.mark.as_ref().unwrap().name, "first".into());
    assert_eq!(first.gauge, None);

    let exact = pinned(|case| case.kit.drills[3].marks[1].lower_edge_mm = mm("17"));
    assert_eq!(shown(&exact.pins[0].set), "17");
    let full = pinned(|case| case.kit.drills[3].datum = Datum::FullDiameter {});
    assert_eq!(shown(&full.pins[1].exact), "17");
    assert_eq!(shown(&full.pins[1].set), "16.2");

    let with_stop = pinned(|case| case.kit.pins[0].stop = Some("u".into()));
    let pin = &with_stop.pins[0];
    assert_eq!((shown(&pin.set), pin.mark.clone()), ("17".into(), None));
    assert_eq!(shown(pin.gauge.as_ref().unwrap()), "17");
    let fixed = pinned(|case| {
        let mut own = super::kit::stop("v");
        own.depth = StopKind::Fixed {
            lengths: vec![FixedLength {
                drill: "pd".into(),
                tip_to_landing_mm: mm("16.8"),
            }],
        };
        case.kit.stops.push(own);
        case.kit.pins[0].stop = Some("v".into());
    });
    assert_eq!(shown(&fixed.pins[0].set), "16.8");
}

/// Nothing on the drill that gives a depth is unknown, for each pin, and no number anywhere.
#[test]
fn a_pin_drill_without_a_mark_has_no_depth() {
    let sheet = pinned(|case| case.kit.drills[3].marks.clear());
    for pin in &sheet.pins {
        assert_eq!(pin.set.value.reasons(), [Reason::NothingFits]);
    }
    let found = all(&sheet, "pin-depth-not-given");
    assert_eq!(found.len(), 2);
    assert!(found.iter().all(|f| f.verdict == Verdict::Unknown));
    // One drill lies there for both: they are one pin of the kit.
    let drills = sheet.loading.iter().filter(|item| item.entry == "pd");
    let sets: Vec<_> = drills
        .map(|item| item.set.as_ref().unwrap().set.get())
        .collect();
    assert_eq!(sets, [None]);
    let no_gauge = pinned(|case| {
        case.kit.pins[0].stop = Some("u".into());
        case.setup.gauge = None;
    });
    let unknown = all(&no_gauge, "pin-depth-unknown");
    assert_eq!(unknown.len(), 2);
    assert!(unknown.iter().all(|f| f.verdict == Verdict::Unknown));
}

/// The pin is 17.0 long and may end 0.5 high: a hole 16.5 deep will do, one of 16.499 keeps the pin
/// from going in to its head. Without a limit nobody can say.
#[test]
fn a_hole_that_ends_too_high_keeps_the_pin_out() {
    let ends = |mark: &'static str, limited: bool| {
        let sheet = pinned(|case| {
            case.kit.drills[3].marks[0].lower_edge_mm = mm(mark);
            if !limited {
                case.limits.shortfall = None;
            }
        });
        let found = all(&sheet, "pin-ends-short");
        let told = found.iter().map(|f| (f.verdict, f.length_value()));
        told.collect::<Vec<_>>()
    };
    assert_eq!(ends("16.5", true), []);
    assert_eq!(
        ends("16.499", true),
        [(Verdict::Short, Some(mm("0.501"))); 2]
    );
    assert_eq!(ends("16.5", false), [(Verdict::Unknown, None); 2]);
}

/// 16.2 are needed out of the handpiece, with a stop 3.5 high and set to 17.0: 20.5.
#[test]
fn a_pin_drill_reaches_its_depth() {
    for (free, stop, reaches) in [
        ("16.2", None, true),
        ("16.199", None, false),
        ("20.5", Some("u"), true),
        ("20.499", Some("u"), false),
    ] {
        let sheet = pinned(|case| {
            case.kit.drills[3].free_length_mm = mm(free);
            case.kit.pins[0].stop = stop.map(Into::into);
        });
        let found = all(&sheet, "pin-drill-short");
        assert_eq!(found.is_empty(), reaches, "{free}");
        assert!(found.iter().all(|f| f.verdict == Verdict::Short));
    }
}

/// Its sleeve has a bore of 1.5, and its drill, guided on 1.3, may have 0.02 to 0.2 of play in it: not
/// in a bore of 1.501. A stop on it is held to what holds for any: its bore, where it clamps, the
/// gauge's face, and what of it lands on the sleeve, here (6.5 − 5.5) / 2 = 0.5, the least.
#[test]
fn a_pin_drill_and_its_stop_are_checked_as_any() {
    type Set = fn(&mut Case);
    let cases: [(&str, Set, Set); 5] = [
        (
            "guided-clearance",
            |case| case.kit.pins[0].sleeve.bore_mm = mm("1.5"),
            |case| case.kit.pins[0].sleeve.bore_mm = mm("1.501"),
        ),
        (
            "stop-bore",
            |case| case.kit.drills[3].stop_seat_diameter_mm = Some(mm("2.4")),
            |case| case.kit.drills[3].stop_seat_diameter_mm = Some(mm("2.3")),
        ),
        (
            "off-clamping-length",
            |_| {},
            |case| case.kit.drills[3].clamp.as_mut().unwrap().from_mm = mm("17.001"),
        ),
        (
            "gauge-face-unknown",
            |_| {},
            |case| case.kit.gauges[0].reads = None,
        ),
        (
            "landing-on-pin-sleeve",
            |case| case.kit.pins[0].sleeve.bore_mm = mm("5.5"),
            |case| case.kit.pins[0].sleeve.bore_mm = mm("5.502"),
        ),
    ];
    for (rule, good, bad) in cases {
        let told = |set: Set| {
            let sheet = pinned(|case| {
                case.kit.pins[0].stop = Some("u".into());
                set(case);
            });
            let found = all(&sheet, rule);
            found
                .iter()
                .any(|f| f.place.key() == "guide.pins[0]" && f.severity().is_open())
        };
        assert!(!told(good), "{rule}");
        assert!(told(bad), "{rule}");
    }
}

/// The guide is pinned before anything else is done, so its pins are loaded first.
#[test]
fn pins_and_their_drill_are_loaded_first() {
    let sheet = pinned(|_| {});
    let first: Vec<_> = sheet
        .loading
        .iter()
        .take(4)
        .map(|item| (item.kind, item.entry.as_str()))
        .collect();
    assert_eq!(
        first,
        [
            (SlotKind::Drill, "pd"),
            (SlotKind::Pin, "pin"),
            (SlotKind::Pin, "pin"),
            (SlotKind::Drill, "a"),
        ]
    );
    let set = sheet.loading[0].set.as_ref().unwrap();
    assert_eq!(set.set.get(), Some(mm("16.2")));
    assert_eq!(set.mark.as_ref().unwrap().name, "first".into());
    assert!(matches!(
        sheet.order[..2],
        [Operation::Pin { .. }, Operation::Pin { .. }]
    ));
}

/// Pins of other lengths need the drill at another depth: another one on the tray.
#[test]
fn pins_of_two_lengths_are_two_depths() {
    let sheet = pinned(|case| {
        let mut short = case.kit.pins[0].clone();
        short.id = "other".into();
        short.length_mm = mm("17.5");
        case.kit.pins.push(short);
        case.guide.pins[1].pin = "other".into();
    });
    let drills = sheet.loading.iter().filter(|item| item.entry == "pd");
    let sets: Vec<_> = drills
        .map(|item| item.set.as_ref().unwrap().set.get())
        .collect();
    assert_eq!(sets, [Some(mm("16.2")), Some(mm("17.3"))]);
}

/// What a pin is called makes no other pin of it; where it stands does.
#[test]
fn a_guide_made_by_a_pin_of_another_name_was_made_by_the_same() {
    use traywright_core::case::GuideState;
    let told = |change: fn(&mut CasePin)| {
        let sheet = pinned(|case| {
            case.guide.state = GuideState::Made;
            case.guide.made_by = Some(Box::new(case.made_by_now()));
            change(&mut case.guide.pins[0]);
        });
        all(&sheet, "guide-made-by-other").len()
    };
    assert_eq!(told(|pin| pin.name = "left".into()), 0);
    assert_eq!(told(|pin| pin.along_mm += mm("1")), 1);
}

/// Two pins with one drill: what was accepted of the one is not accepted of the other that takes its place in the list.
#[test]
fn what_was_accepted_of_one_pin_is_not_accepted_of_another() {
    let misfit = |case: &mut Case| case.kit.pins[0].sleeve.bore_mm = mm("1.501");
    let both = pinned(misfit);
    let found = all(&both, "guided-clearance");
    let own: Vec<_> = found
        .iter()
        .filter(|f| f.place.key().starts_with("guide.pins"))
        .collect();
    assert_eq!(own.len(), 2);
    assert_ne!(own[0].digest(), own[1].digest());
    let decision = traywright_core::case::Decision::new(
        (own[0].key(), own[0].digest()),
        traywright_core::case::DecisionKind::Accepted,
        "tried in the model and held",
        "N. Quill",
    );
    let judged = |change: fn(&mut Case)| {
        let sheet = pinned(|case| {
            misfit(case);
            case.judgements.extend(decision.clone());
            change(case);
        });
        let found = all(&sheet, "guided-clearance");
        let first = found.iter().find(|f| f.place.key() == "guide.pins[0]");
        first.unwrap().decision.is_some()
    };
    assert!(judged(|_| {}));
    assert!(!judged(|case| drop(case.guide.pins.remove(0))));
}

/// Two pins of different sleeves and lengths share a sort of drill and stop: each is held to its own, and a drill that one of them
/// refuses is set for neither at that setting.
#[test]
fn two_pins_that_share_a_drill_are_judged_each() {
    use traywright_core::plan::Fits;
    let sheet = |second: fn(&mut Pin)| {
        pinned(|case| {
            case.kit.pins[0].stop = Some("u".into());
            let drill = case.kit.drills.last_mut().unwrap();
            (drill.quantity, drill.free_length_mm) = (2, mm("21"));
            let mut other = case.kit.pins[0].clone();
            other.id = "other".into();
            second(&mut other);
            case.kit.pins.push(other);
            case.guide.pins[1].pin = "other".into();
        })
    };
    let told = |sheet: &Worksheet, rule: &str| -> Vec<String> {
        let found = all(sheet, rule).into_iter();
        let found = found.map(|f| f.place.key());
        found
            .filter(|place| place.starts_with("guide.pins"))
            .collect()
    };
    let fits = |sheet: &Worksheet| -> Vec<Fits> { sheet.pins.iter().map(|pin| pin.fits).collect() };
    let loose = sheet(|pin| pin.sleeve.bore_mm = mm("1.501"));
    assert_eq!(told(&loose, "guided-clearance"), ["guide.pins[1]"]);
    assert_eq!(fits(&loose), [Fits::No; 2], "one drill at one setting");
    let wide = sheet(|pin| (pin.sleeve.bore_mm, pin.length_mm) = (mm("6.5"), mm("12")));
    assert_eq!(told(&wide, "landing-on-pin-sleeve"), ["guide.pins[1]"]);
    assert_eq!(fits(&wide), [Fits::AsFarAsKnown, Fits::No]);
    let long = sheet(|pin| pin.length_mm = mm("18"));
    assert_eq!(told(&long, "pin-drill-short"), ["guide.pins[1]"]);
    assert_eq!(fits(&long), [Fits::AsFarAsKnown, Fits::No]);
}

/// Two pins of one drill: what the kit does not say of it is told once, as of the drills of the sites.
#[test]
fn what_the_kit_lacks_of_a_pin_drill_is_told_once() {
    fn own(case: &mut Case) -> &mut traywright_core::kit::Drill {
        case.kit.drills.last_mut().unwrap()
    }
    let told = |change: fn(&mut Case)| {
        let sheet = pinned(change);
        assert!(all(&sheet, "drilling-data-missing").is_empty());
        let found = all(&sheet, "pin-drilling-data-missing");
        let named = found.iter().map(|found| {
            assert_eq!(found.verdict, Verdict::Unknown);
            let lacks = ["speed", "irrigation"].map(|lacks| found.args[lacks].to_string());
            format!("{} {}", found.place.key(), lacks.join(" "))
        });
        named.collect::<Vec<_>>()
    };
    assert_eq!(told(|_| {}), [""; 0]);
    assert_eq!(
        told(|case| own(case).greatest_speed_rpm = None),
        ["kit.drills[pd] yes no"]
    );
    assert_eq!(
        told(|case| {
            own(case).greatest_speed_rpm = None;
            own(case).irrigation = None;
        }),
        ["kit.drills[pd] yes yes"]
    );
    // Where it has no setting, that is what is open.
    assert_eq!(
        told(|case| {
            own(case).irrigation = None;
            own(case).marks.clear();
        }),
        [""; 0]
    );
}
