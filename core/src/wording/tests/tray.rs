//! Order of use, loading, stock and mix-ups in words.

use super::sample::with;
use crate::case::{GuidedExtent, StructureKind, WallSide};
use crate::kit::{DrillSleeveId, SlotKind};
use crate::plan::{Endangered, Exceeded, Fits, Mistake, MixUp, Operation, StepPath, StockLine};

#[test]
fn the_order_of_use_reads_as_things_to_do() {
    let edits = [
        "set /sites/0/guided_extent \"pilot_only\"",
        "set /guide/access \"punch\"",
        "set /guide/pins [{\"name\": \"front\", \"pin\": \"fp\", \"at\": \"43\"}]",
        "remove /sites/0/steps/2/stop",
    ];
    let lines_where = |fits| {
        with(&edits, |say, sheet| {
            let mut sheet = sheet.clone();
            let steps = sheet.sites.iter_mut().flat_map(|site| &mut site.steps);
            steps.for_each(|step| step.fits = fits);
            let lines = sheet.order.iter().map(|one| say.use_line(one, &sheet));
            lines.collect::<Vec<_>>().join("\n")
        })
    };
    let lines = lines_where(Fits::AsFarAsKnown);
    let refused = lines_where(Fits::No);
    assert_eq!(refused.matches("Does not fit: do not drill").count(), 2);
    assert!(!refused.contains("17.8 mm") && !refused.contains("set 9.5 mm"));
    let want = "\
With the guide held in occlusion: pin “front”: pilot 1.7. No figure: do not drill.
Punch the tissue through the guide: lower right first molar (46).
Take the pins out and the guide off, remove every tissue plug, re-seat the guide in occlusion and replace its pins: front. Check through its windows, check that it does not rock.
Bone sounding: lower right first molar (46) 10.8 mm.
lower right first molar (46): pilot 1.7 through sleeve 1.7 (letter A, bar, sand), partial depth, full less 3.0 mm, then check radiograph, set 17.8 mm.
Take the pins out: front. Take the guide off. Take every guided stop off its drill, and say that it is off.
lower right first molar (46): twist 2.4 freehand, full depth, set 9.5 mm.
lower right first molar (46): twist 3.1 freehand, full depth. No figure: do not drill.
lower right first molar (46): insert the implant Wren 3.6 × 9.5, 9.5 mm measured without the guide.";
    assert_eq!(lines, want);
    let guided = with(&[], |say, sheet| {
        assert_eq!(
            say.case.sites[0].guided_extent,
            GuidedExtent::DrillingAndImplant
        );
        say.use_line(&Operation::Insert { site: "a".into() }, sheet)
    });
    assert_eq!(
        guided,
        "lower right first molar (46): insert the implant Wren 3.6 × 9.5, 9.5 mm measured through the guide."
    );
}

#[test]
fn what_goes_on_the_tray_is_told_with_stop_setting_slot_and_site() {
    let edits = [
        "two-sites",
        "set /sites/1/platform_to_sleeve/entered_mm 6.3",
        "set /kit/drills/2/single_use true",
        "set /kit/drills/2/quantity 2",
        "set /kit/stops/0/quantity 6",
    ];
    with(&edits, |say, sheet| {
        let said: Vec<_> = sheet
            .loading
            .iter()
            .map(|item| say.load(item, sheet))
            .collect();
        let second = said
            .iter()
            .find(|one| one.take == "twist 3.1, no slot left")
            .unwrap();
        assert_eq!(second.kind, "drill");
        assert_eq!(
            second.setting.as_deref(),
            Some("stop S (letter S), set 22.6 mm, the gauge shows 22.6 mm")
        );
        assert_eq!(second.slot, "no slot left");
        assert_eq!(second.serves, "twist 3.1, lower right first premolar (44)");
        assert_eq!(
            second.unopened.as_deref(),
            Some("stays unopened until called for")
        );
        assert_eq!(second.bench.len(), 1);
        let sleeve = said.iter().find(|one| one.take == "sleeve 3.1").unwrap();
        assert_eq!(sleeve.marking.as_deref(), Some("letter B, triangle"));
        assert_eq!(sleeve.slot, "slot B3");
        assert_eq!(
            sleeve.serves,
            "twist 3.1, lower right first molar (46); twist 3.1, lower right first premolar (44)"
        );
        assert_eq!(sleeve.setting, None);
    });
}

/// Two settings and one drill: the first is given at the drill, the second as its next one.
#[test]
fn what_is_set_anew_in_surgery_is_told_at_the_drill_and_before_its_step() {
    let edits = [
        "two-sites",
        "set /sites/1/platform_to_sleeve/entered_mm 6.3",
        "set /kit/drills/2/quantity 1",
        "set /kit/stops/0/quantity 6",
    ];
    with(&edits, |say, sheet| {
        let [reset] = &sheet.resets[..] else {
            panic!("{:?}", sheet.resets)
        };
        let said = say.load(&sheet.loading[reset.item], sheet);
        assert!(said.setting.unwrap().contains("set 22.1 mm"));
        assert_eq!(said.serves, "twist 3.1, lower right first molar (46)");
        assert_eq!(
            said.set_anew,
            [
                "To be re-set during surgery from 22.1 mm to 22.6 mm: after twist 3.1, lower right first molar (46); before twist 3.1, lower right first premolar (44)."
            ]
        );
        assert_eq!(
            say.reset_line(reset, sheet),
            "Re-set twist 3.1, slot A3, from 22.1 mm to 22.6 mm."
        );
        // What is shown at a second reading tells no setting.
        let words = say.reset(reset, sheet);
        for blind in [words.drill, words.when, words.before] {
            assert!(!blind.contains("22."), "{blind}");
        }
        let line = sheet.stock.iter().find(|line| line.entry == "t31").unwrap();
        assert_eq!(
            say.stock(line),
            "twist 3.1: 2 needed, 1 available, enough only with re-sets during surgery: 1 in this order"
        );
    });
}

#[test]
fn a_drill_without_a_figure_is_never_told_to_be_set() {
    let setting = |edits: &[&str]| {
        with(edits, |say, sheet| {
            let item = sheet
                .loading
                .iter()
                .find(|item| item.name.as_str() == "twist 3.1");
            say.load(item.unwrap(), sheet).setting.unwrap()
        })
    };
    assert_eq!(
        setting(&["remove /sites/0/platform_to_sleeve"]),
        "stop S (letter S): no figure, do not set"
    );
    assert_eq!(setting(&["remove /sites/0/steps/2/stop"]), "no figure");
    assert_eq!(
        setting(&["remove /kit/gauges/0/reads"]),
        "stop S (letter S), set 22.1 mm"
    );
}

#[test]
fn the_bore_that_a_drill_falls_through_is_named_with_its_slot() {
    let of = |edits: &[&str], drill: &str| {
        with(edits, |say, sheet| {
            let mut items = sheet.loading.iter();
            let item = items.find(|item| item.entry == drill).unwrap();
            say.bores(item, sheet)
        })
    };
    assert_eq!(of(&[], "t31"), ["sleeve 3.1 (letter B, triangle), slot B3"]);
    assert_eq!(
        of(&["remove /sites/0/steps/2/sleeve"], "t31"),
        ["the master sleeve of the guide at lower right first molar (46)"]
    );
    // Freehand nothing leads it.
    let freehand = ["set /sites/0/guided_extent \"pilot_only\""];
    assert_eq!(of(&freehand, "t31"), [""; 0]);
}

#[test]
fn how_deep_something_without_a_stop_goes_is_told_at_it() {
    let of = |edits: &[&str], kind: SlotKind| {
        with(edits, |say, sheet| {
            let mut items = sheet.loading.iter();
            let item = items.find(|item| item.kind == kind).unwrap();
            say.goes_in(item, sheet)
        })
    };
    let [carrier] = &of(&[], SlotKind::Carrier)[..] else {
        panic!("one site")
    };
    assert!(
        carrier.starts_with("Lower right first molar (46): "),
        "{carrier}"
    );
    assert!(carrier.contains("level with"), "{carrier}");
    assert_eq!(of(&[], SlotKind::Implant), [""; 0]);
    let freehand = ["set /sites/0/guided_extent \"pilot_only\""];
    let [implant] = &of(&freehand, SlotKind::Implant)[..] else {
        panic!("one site")
    };
    assert!(implant.contains("crest"), "{implant}");
    let by_mark = of(&["remove /sites/0/steps/0/stop"], SlotKind::Drill);
    let [by_mark] = &by_mark[..] else {
        panic!("{by_mark:?}")
    };
    assert!(by_mark.contains("level with"), "{by_mark}");
}

#[test]
fn stock_is_counted_in_one_line() {
    let line = |needed, have| StockLine {
        settings: Vec::new(),
        list: "drills",
        entry: "t31".to_owned(),
        name: "twist 3.1".into(),
        needed,
        have,
        with_resets: None,
        at_least: needed,
        unknown: Vec::new(),
    };
    with(&[], |say, _| {
        assert_eq!(
            say.stock(&line(3, 2)),
            "twist 3.1: 3 needed, 2 available, 1 missing"
        );
        assert_eq!(say.stock(&line(2, 2)), "twist 3.1: 2 needed, 2 available");
    });
}

fn without_guide() -> Mistake {
    Mistake::WithoutGuide {
        drill: "t31".into(),
        before_move: false,
    }
}

#[test]
fn mix_ups_say_what_would_be_taken_and_how_much_deeper_it_cuts() {
    let drill = || "t31".into();
    let set = crate::measure::Length::parse_mm("23.4").unwrap();
    let other = |of| Mistake::OtherSetting {
        drill: drill(),
        set,
        of,
        step: "s3".into(),
    };
    with(&["two-sites"], |say, _| {
        for (mistake, want) in [
            (
                other("b".into()),
                "twist 3.1 from slot A2 set for lower right first premolar (44) (23.4 mm), \
                 taken at step 3, directly through the master sleeve, \
                 cuts 1.3 mm deeper than anything planned here",
            ),
            (
                other("a".into()),
                "twist 3.1 from slot A2 set for another step of this site (23.4 mm), \
                 taken at step 3, directly through the master sleeve, \
                 cuts 1.3 mm deeper than anything planned here",
            ),
            (
                Mistake::PinDrill {
                    drill: drill(),
                    set,
                    pin: "front".into(),
                },
                "twist 3.1 from slot A2 for pin “front” (23.4 mm), \
                 taken at step 3, directly through the master sleeve, \
                 cuts 1.3 mm deeper than anything planned here",
            ),
            (
                Mistake::WithoutSleeve { drill: drill() },
                "twist 3.1 without its drill sleeve at step 3 cuts 1.3 mm deeper than anything planned here",
            ),
            (
                Mistake::OtherSleeve {
                    drill: drill(),
                    sleeve: DrillSleeveId::from("d31"),
                },
                "twist 3.1 in sleeve 3.1 (letter B, triangle) from slot A2 at step 3 \
                 cuts 1.3 mm deeper than anything planned here",
            ),
            (
                without_guide(),
                "twist 3.1 with its guided stop but without the guide at step 3 \
                 cuts 1.3 mm deeper than anything planned here",
            ),
        ] {
            let mut one = MixUp {
                only_setting: false,
                site: "a".into(),
                step: "s3".into(),
                path: StepPath::MasterSleeve,
                sleeve: None,
                fits: crate::plan::Fits::AsFarAsKnown,
                slot: Some("A2".into()),
                mistake,
                exceeded: Exceeded::Site,
                deeper: crate::measure::Length::parse_mm("1.3").unwrap(),
                cut: crate::measure::Length::parse_mm("12.1").unwrap(),
                wider: None,
                breaks: vec![Endangered::Structure(StructureKind::MandibularCanal)],
                unknown: false,
            };
            let said = say.mix_up(&one);
            assert_eq!(said.mistake, want);
            assert_eq!(said.site, "lower right first molar (46)");
            assert_eq!(said.cut, "cuts 12.1 mm below the platform");
            assert_eq!(said.harm, "would break the limit of the mandibular canal");
            one.unknown = true;
            assert_eq!(
                say.mix_up(&one).harm,
                "would break the limit of the mandibular canal; what else it would reach is not known"
            );
            one.breaks.push(Endangered::Wall(WallSide::Buccal));
            one.unknown = false;
            assert_eq!(
                say.mix_up(&one).harm,
                "would break the limit of the mandibular canal and of the buccal wall"
            );
            one.breaks.clear();
            assert_eq!(
                say.mix_up(&one).harm,
                "anatomy unknown here: what it would reach is not known"
            );
            // Only deeper than its step: then that is what the figure counts from.
            one.exceeded = Exceeded::Step;
            let said = say.mix_up(&one);
            assert_eq!(said.harm, "its step is to partial depth only");
            assert!(
                said.mistake
                    .ends_with("cuts 1.3 mm deeper than this step is planned"),
                "{}",
                said.mistake
            );
        }
    });
}

/// Without a tray no slot is used up: none was chosen.
#[test]
fn without_a_tray_it_is_said_that_none_was_chosen() {
    with(&["two-sites", "remove /setup/tray"], |say, sheet| {
        assert!(!sheet.loading.is_empty());
        for item in &sheet.loading {
            assert_eq!(say.slot(item), "no tray chosen");
            assert!(!say.load(item, sheet).take.contains("no slot left"));
        }
    });
}
