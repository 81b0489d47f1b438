//! Mix-ups: what else on the tray would do at a site, and which of it is listed.

use super::kit::sleeve;
use super::sample::{all, distance, mm, present, site, step, worked};
use std::collections::BTreeMap;
use traywright_core::case::WallSide;
use traywright_core::case::{Case, CasePin, Direction, GuidedExtent, HeightDatum, StructureExtent};
use traywright_core::dentition::Notation;
use traywright_core::kit::{DepthRule, DrillKind, DrillMark, Pin, PinSleeve, Recess};
use traywright_core::plan::Place;
use traywright_core::plan::SiteHeight;
use traywright_core::plan::SitePlace;
use traywright_core::plan::{
    Endangered, Exceeded, Mistake, MixUp, NotTried, Reason, StepPath, Verdict, Worksheet,
};
use traywright_core::wording::Formatter;

/// The canal so far below the platform; the limit is 2.0 and the deepest cut 10.0.
pub(super) fn canal(case: &mut Case, height: &str) {
    case.sites[0].structures[0].extent = StructureExtent::Below {
        height_mm: mm(height),
        from: HeightDatum::Platform,
        direction: Direction::Vertical,
    };
}

/// The look-alikes at the first site, without the one of a lost guide, as text.
fn listed(sheet: &Worksheet) -> Vec<String> {
    let here = sheet.mix_ups.iter().filter(|l| l.site.as_str() == "one");
    here.filter_map(
        |MixUp {
             mistake, deeper, ..
         }| {
            Some(match mistake {
                Mistake::OtherSetting { drill, of, set, .. } => {
                    format!("{drill} of {of} at {set}: {deeper}")
                }
                Mistake::OtherSet { drill, of, set, .. } => {
                    format!("{drill} with its sleeve of {of} at {set}: {deeper}")
                }
                Mistake::PinDrill { drill, pin, set } => {
                    format!("{drill} of pin {pin} at {set}: {deeper}")
                }
                Mistake::WithoutSleeve { drill } => format!("{drill} without sleeve: {deeper}"),
                Mistake::OtherSleeve { sleeve, .. } => format!("in {sleeve}: {deeper}"),
                Mistake::WithoutGuide { .. } => return None,
            })
        },
    )
    .collect()
}

/// Without its sleeve a drill goes deeper by the sleeve's seat above the rim, 0.7. With 0.7 left
/// above the limit nothing breaks; with a micrometre less it does.
#[test]
fn a_forgotten_sleeve_costs_its_seat_above_the_rim() {
    let at = |height: &'static str| listed(&worked(|case| canal(case, height)));
    assert_eq!(at("12.7"), Vec::<String>::new());
    assert_eq!(at("12.699"), ["a without sleeve: 0.7"]);
}

/// Into the recess that the sleeve's flange would fill the stop, 6.5 wide, sinks as well: 0.4 more.
/// A recess a hair too narrow for it costs nothing. Where the kit gives none, a flange 0.3 below
/// the rim shows that there is one.
#[test]
fn without_its_sleeve_a_stop_sinks_into_the_recess() {
    let at = |across: &'static str, height: &'static str| {
        listed(&worked(|case| {
            canal(case, height);
            case.kit.master_sleeves[0].outer_diameter_mm = mm("8");
            case.kit.master_sleeves[0].recess = Some(Recess {
                depth_mm: mm("0.4"),
                diameter_mm: mm(across),
            });
        }))
    };
    assert_eq!(at("6.5", "13.1"), Vec::<String>::new());
    assert_eq!(at("6.5", "13.099"), ["a without sleeve: 1.1"]);
    assert_eq!(at("6.499", "12.7"), Vec::<String>::new());
    let untold = worked(|case| {
        canal(case, "12.999");
        for sleeve in &mut case.kit.drill_sleeves {
            sleeve.flange_height_mm = sleeve.seat_above_rim_mm + mm("0.3");
        }
    });
    assert_eq!(listed(&untold), ["a without sleeve: 1"]);
}

/// Two passes of one drill through one sleeve: of the tray's mistakes the likeliest, and listed
/// first although others go deeper. The first pass is 2.9 short.
#[test]
fn the_same_drill_at_its_other_setting_is_listed_first() {
    let sheet = worked(|case| {
        canal(case, "12.25");
        let mut first = step("a");
        first.id = "first".into();
        first.depth = DepthRule::ShortOfFull { by_mm: mm("2.9") };
        case.sites[0].steps.insert(0, first);
    });
    let found = &sheet.mix_ups[0];
    assert!(
        found.only_setting && found.step.as_str() == "first",
        "{found:#?}"
    );
    assert_eq!((found.exceeded, found.deeper), (Exceeded::Step, mm("2.9")));
    assert!(sheet.mix_ups[1].cut > found.cut);
    // Through another sleeve it is another mistake.
    assert!(sheet.mix_ups[1..].iter().all(|one| !one.only_setting));
}

/// Without the guide a stop lands on the crest and a mark is read there: 20.7 − 0.6 = 20.1 either way.
#[test]
fn a_mark_deceives_without_the_guide_as_a_stop_does() {
    let without_guide = |stop: Option<&str>| {
        let sheet = worked(|case| {
            canal(case, "12.25");
            case.sites[0].steps.truncate(1);
            case.sites[0].steps[0].stop = stop.map(Into::into);
            case.kit.drills[0].marks = vec![DrillMark {
                name: "one".into(),
                lower_edge_mm: mm("20.7"),
                upper_edge_mm: None,
            }];
        });
        let mut all = sheet.mix_ups.iter();
        all.find(|one| matches!(one.mistake, Mistake::WithoutGuide { .. }))
            .map(|one| one.cut)
    };
    assert_eq!(without_guide(Some("u")), Some(mm("20.1")));
    assert_eq!(without_guide(None), Some(mm("20.1")));
}

/// A sleeve on the tray, here that of the implant, that is 0.3 lower: 0.3 deeper. One that no site
/// uses is not there.
#[test]
fn a_lower_sleeve_cuts_deeper() {
    let sheet = worked(|case| {
        canal(case, "12.25");
        let mut low = sleeve("low", "3.4");
        low.seat_above_rim_mm = mm("0.4");
        case.sites[0].insertion.sleeve = Some("low".into());
        let mut unused = low.clone();
        unused.id = "unused".into();
        case.kit.drill_sleeves.extend([low, unused]);
        // Too narrow for any drill here.
        let mut narrow = sleeve("narrow", "1.8");
        narrow.seat_above_rim_mm = mm("0");
        case.kit.drill_sleeves.push(narrow);
    });
    assert_eq!(listed(&sheet), ["a without sleeve: 0.7", "in low: 0.3"]);
}

/// Another site's setting: there 7.5 + 4.0 + 0.7 + 10.0 = 22.2, here 22.2 − 10.7 = 11.5, so 1.5
/// deeper than the 10.0 planned.
#[test]
fn another_sites_setting_goes_deeper_by_the_difference() {
    let two = |case: &mut Case| {
        let mut other = site("two", "46", &[]);
        other.platform_to_sleeve.as_mut().unwrap().entered_mm = mm("7.5");
        case.sites.push(other);
        case.teeth.push(present("45"));
        case.teeth.push(present("47"));
    };
    let breaks = worked(|case| {
        two(case);
        canal(case, "13.4");
    });
    // Through the sleeve that is there, or each in its own sleeve, which stands as high.
    let all = [
        "a of two at 22.2: 1.5",
        "b of two at 22.2: 1.5",
        "c of two at 22.2: 1.5",
        "a with its sleeve of two at 22.2: 1.5",
        "b with its sleeve of two at 22.2: 1.5",
        "c with its sleeve of two at 22.2: 1.5",
    ];
    assert_eq!(listed(&breaks), all);
    let found = breaks
        .mix_ups
        .iter()
        .find(|l| l.deeper == mm("1.5"))
        .unwrap();
    assert_eq!(found.cut, mm("11.5"));
    assert_eq!(
        found.breaks.first().map(Endangered::key).as_deref(),
        Some("mandibular_canal")
    );
    // As deep as the limit allows: nothing is listed.
    let kept = worked(|case| {
        two(case);
        canal(case, "13.5");
    });
    assert_eq!(listed(&kept), Vec::<String>::new());
    // A drill that does not pass any bore here cannot be taken by mistake.
    let wide = worked(|case| {
        two(case);
        canal(case, "13.4");
        let mut drill = case.kit.drills[2].clone();
        drill.id = "w".into();
        drill.cutting_diameter_mm = mm("3.351");
        case.kit.drills.push(drill);
        case.sites[1].steps[2].drill = "w".into();
    });
    let wanted = all.iter().filter(|one| !one.starts_with('c'));
    assert!(listed(&wide).iter().eq(wanted));
}

/// If the anatomy is not known, every mistake that cuts deeper is listed, breaking nothing by name.
#[test]
fn unknown_anatomy_lists_all_that_cuts_deeper() {
    let sheet = worked(|case| case.sites[0].structures.clear());
    assert_eq!(listed(&sheet), ["a without sleeve: 0.7"]);
    assert!(
        sheet
            .mix_ups
            .iter()
            .all(|l| l.breaks.is_empty() && l.unknown)
    );
    // Without a setting there is nothing to compare with.
    let unknown = worked(|case| case.sites[0].platform_to_sleeve = None);
    assert_eq!(unknown.mix_ups, []);
    // What was not planned deeper is no mistake: the same figure at the same seat.
    let alone = worked(|case| {
        distance(case, "6.0");
        canal(case, "60");
    });
    assert_eq!(listed(&alone), Vec::<String>::new());
}

/// Step `b` is a pass 6 short of full depth, 20.7 − 6 = 14.7 set, cutting 4.0; the full setting of
/// `a` or `c` there, as deep as the site anyway, cuts 6.0 deeper than the pass.
#[test]
fn a_short_pass_drilled_with_a_full_setting_is_listed() {
    let sheet = worked(|case| {
        canal(case, "60");
        case.sites[0].steps[1].depth = DepthRule::ShortOfFull { by_mm: mm("6") };
        // What passes any sleeve.
        case.sites[0].steps[2].drill = "a".into();
        case.sites[0].steps[2].sleeve = Some("sa".into());
    });
    let found = sheet.mix_ups.iter().find(|one| {
        let full =
            matches!(&one.mistake, Mistake::OtherSetting { drill, .. } if drill.as_str() == "a");
        full && one.step.as_str() == "b"
    });
    let found = found.unwrap_or_else(|| panic!("{:#?}", sheet.mix_ups));
    assert_eq!((found.exceeded, found.deeper), (Exceeded::Step, mm("6")));
    assert_eq!((found.cut, found.breaks.as_slice()), (mm("10"), &[][..]));
    // Of steps to full depth only what is deeper than the site is told.
    let full = worked(|case| canal(case, "60"));
    assert!(
        full.mix_ups
            .iter()
            .all(|one| one.exceeded == Exceeded::Site)
    );
}

/// After the pilot everything is freehand on the bare crest, 0.6 above the platform at its
/// lowest: the pilot's guided stop, 20.7, taken there cuts 20.1.
#[test]
fn a_guided_stop_taken_at_a_freehand_step_is_listed() {
    let sheet = worked(|case| {
        case.sites[0].guided_extent = GuidedExtent::PilotOnly;
        case.kit.drills[0].kind = DrillKind::Pilot;
    });
    let found = sheet.mix_ups.iter().find(
        |one| matches!(&one.mistake, Mistake::OtherSetting { drill, .. } if drill.as_str() == "a"),
    );
    let found = found.unwrap_or_else(|| panic!("{:#?}", sheet.mix_ups));
    assert_eq!((found.path, found.cut), (StepPath::Freehand, mm("20.1")));
}

/// Without a crest nobody knows how deep a stop cuts without the guide: the reason is reported.
#[test]
fn what_could_not_be_tried_is_told() {
    let known = worked(|_| {});
    assert!(known.sites[0].mix_ups_not_tried.is_none());
    let sheet = worked(|case| case.sites[0].heights.platform_below_crest = None);
    let crest = Reason::Missing(Place::Site(
        "one".into(),
        SitePlace::Height(SiteHeight::PlatformBelowCrest),
    ));
    let not_tried = NotTried {
        here: vec![crest],
        ..NotTried::default()
    };
    assert_eq!(sheet.sites[0].mix_ups_not_tried, not_tried);
}

/// The distance of another site, or the mark of a pin's drill, has no figure: what is not known at this site is
/// told with whose drill it is; not of one that passes no bore here.
#[test]
fn whose_drill_could_not_be_tried_is_told() {
    let two = |case: &mut Case| {
        case.sites.push(site("two", "46", &[]));
        case.teeth.extend([present("45"), present("47")]);
    };
    let unset = |case: &mut Case| {
        two(case);
        case.sites[1].platform_to_sleeve = None;
    };
    let wide = |case: &mut Case| {
        unset(case);
        case.kit
            .drills
            .push(super::kit::drill("w", DrillKind::Twist, "6"));
        case.sites[1].steps.truncate(1);
        case.sites[1].steps[0].drill = "w".into();
    };
    let unmarked = |guided: &'static str| {
        move |case: &mut Case| {
            pinned(case, guided);
            case.kit.drills.last_mut().unwrap().marks.clear();
        }
    };
    let told = |change: &dyn Fn(&mut Case)| {
        let mut case = super::sample::case();
        change(&mut case);
        let case = super::sample::valid(case);
        let sheet = super::sample::work(case.clone().into_case());
        Formatter::english(&case, Notation::Iso).not_tried(&sheet.sites[0].mix_ups_not_tried)
    };
    let not_tried = |of: &str| {
        vec![format!(
            "Not tried here, since a setting of theirs has no figure: the drills of {of}."
        )]
    };
    assert_eq!(told(&two), [""; 0]);
    assert_eq!(told(&unset), not_tried("lower right first molar (46)"));
    assert_eq!(told(&wide), [""; 0]);
    assert_eq!(told(&unmarked("1.3")), not_tried("pin front"));
    assert_eq!(told(&unmarked("5")), [""; 0]);
}

/// A drill whose cutting part is wider than another sleeve's bore cannot be taken through it.
#[test]
fn a_sleeve_too_narrow_for_the_cutting_part_is_no_mistake() {
    let listed_in = |bore: &'static str| {
        let sheet = worked(|case| {
            canal(case, "12.25");
            for drill in &mut case.kit.drills {
                drill.guided_diameter_mm = mm("1.7");
            }
            let mut low = sleeve("low", bore);
            low.seat_above_rim_mm = mm("0.4");
            case.sites[0].insertion.sleeve = Some("low".into());
            case.kit.drill_sleeves.push(low);
        });
        listed(&sheet).contains(&"in low: 0.3".to_owned())
    };
    assert!(listed_in("3.4"));
    assert!(!listed_in("1.8"));
}

/// A second site whose last drill, 3.3 wide, is set to 20.0; here all is freehand after the pilot,
/// and `b`, 2.7 wide, is the last drill.
pub(super) fn narrow_beside_wide(case: &mut Case) {
    canal(case, "60");
    case.sites[0].guided_extent = GuidedExtent::PilotOnly;
    case.sites[0].steps.truncate(2);
    let mut other = site("two", "46", &[]);
    other.steps = vec![step("c")];
    other.steps[0].depth = DepthRule::BelowPlatform { depth_mm: mm("9") };
    // Freehand: its stop is set to 0.6 + 9.0 and used on the bare crest like all here.
    other.guided_extent = GuidedExtent::PilotOnly;
    case.sites.push(other);
    case.teeth.extend([present("45"), present("47")]);
}

/// At the same depth as planned or less a wider drill is still a harm: 3.3 where 2.7 is the last,
/// 0.6 wider, though it ends at 9.0 of 10.0. It takes 0.3 from what is beside; the wall, the least
/// 3.8 − 2.3 = 1.5 away, has none to give.
#[test]
fn a_wider_drill_is_listed_though_no_deeper() {
    let wide = |from_axis: &'static str| {
        let sheet = worked(|case| {
            narrow_beside_wide(case);
            case.sites[0].walls[0].from_axis_mm = mm(from_axis);
        });
        let found = sheet.mix_ups.iter().find(|one| {
            matches!(&one.mistake, Mistake::OtherSetting { drill, .. } if drill.as_str() == "c")
                && one.site.as_str() == "one"
        });
        let found = found.unwrap_or_else(|| panic!("{:#?}", sheet.mix_ups));
        (
            found.exceeded,
            found.deeper,
            found.wider,
            found.cut,
            found.breaks.first().cloned(),
        )
    };
    let (than, deeper, wider, cut) = (Exceeded::Width, mm("0"), Some(mm("0.6")), mm("9"));
    assert_eq!(wide("4.1"), (than, deeper, wider, cut, None));
    let wall = Some(Endangered::Wall(WallSide::Buccal));
    assert_eq!(wide("4.099"), (than, deeper, wider, cut, wall));
    // Where it is the last drill itself it widens nothing.
    let own = worked(|case| {
        narrow_beside_wide(case);
        case.sites[0].steps.push(step("c"));
    });
    let at_one = own.mix_ups.iter().filter(|one| one.site.as_str() == "one");
    assert!(at_one.clone().all(|one| one.wider.is_none()), "{at_one:#?}");
}

/// The canal has room for 0.7 more, but beside the axis nobody measured deeper than the implant's
/// end: what a forgotten sleeve lets the drill reach is not known.
#[test]
fn what_goes_deeper_than_anything_was_measured_is_listed() {
    let without = |to: Option<&'static str>| {
        let sheet = worked(|case| {
            canal(case, "60");
            for wall in &mut case.sites[0].walls {
                wall.measured_at.down_to_mm = to.map(mm);
            }
        });
        listed(&sheet)
    };
    assert_eq!(without(Some("10.7")), Vec::<String>::new());
    assert_eq!(without(Some("10.699")), ["a without sleeve: 0.7"]);
    assert_eq!(without(None), ["a without sleeve: 0.7"]);
}

/// The platform was set 0.1 deeper since the walls were measured, and with it every cut: down to 10.8
/// then is down to 10.7 now, where the drill without its sleeve ends. The walls themselves count by
/// what the change leaves at least.
#[test]
fn a_cut_carried_deeper_since_leaves_less_of_what_was_measured() {
    let without = |to: &'static str| {
        let sheet = worked(|case| {
            canal(case, "60");
            let site = &mut case.sites[0];
            for wall in &mut site.walls {
                wall.measured_at.down_to_mm = Some(mm(to));
                wall.from_axis_mm = mm("6");
            }
            let crest = site.heights.platform_below_crest.as_mut().unwrap();
            crest.highest_mm += mm("0.1");
            crest.lowest_mm += mm("0.1");
        });
        let walls = all(&sheet, "wall");
        assert!(
            walls
                .iter()
                .all(|f| f.verdict == Verdict::Clear && f.is_at_least())
        );
        listed(&sheet)
    };
    assert_eq!(without("10.8"), Vec::<String>::new());
    assert_eq!(without("10.799"), ["a without sleeve: 0.7"]);
}

/// Another site's drill in its own sleeve and at its own setting is a mistake even where the sleeve
/// that belongs here would not let that drill pass: 22.2 − 10.7 = 11.5 deep.
#[test]
fn another_sites_drill_and_sleeve_together_are_tried() {
    let sheet = worked(|case| {
        canal(case, "60");
        case.sites[0].steps.truncate(1);
        let mut other = site("two", "46", &[]);
        other.platform_to_sleeve.as_mut().unwrap().entered_mm = mm("7.5");
        case.sites.push(other);
        case.teeth.extend([present("45"), present("47")]);
    });
    let found: Vec<_> = sheet
        .mix_ups
        .iter()
        .filter(|one| one.site.as_str() == "one" && one.wider.is_some())
        .map(|one| (one.mistake.clone(), one.cut, one.wider))
        .collect();
    let set = |drill: &str, sleeve: &str| Mistake::OtherSet {
        drill: drill.into(),
        sleeve: sleeve.into(),
        set: mm("22.2"),
        of: "two".into(),
        step: drill.into(),
    };
    let wider = |wide| Some(mm(wide));
    assert_eq!(
        found,
        [
            (set("b", "sb"), mm("11.5"), wider("0.8")),
            (set("c", "sc"), mm("11.5"), wider("1.4")),
        ]
    );
}

/// A pin that is drilled for until the mark of 30.0 of a drill of its own.
fn pinned(case: &mut Case, guided: &'static str) {
    let mut own = super::kit::drill("pd", DrillKind::Pin, guided);
    own.marks = vec![DrillMark {
        name: "one".into(),
        lower_edge_mm: mm("30"),
        upper_edge_mm: None,
    }];
    case.kit.drills.push(own);
    case.kit.pins.push(Pin {
        id: "pin".into(),
        name: "Pin".into(),
        code: None,
        diameter_mm: mm("1.4"),
        length_mm: mm("30"),
        drill: "pd".into(),
        stop: None,
        sleeve: PinSleeve {
            bore_mm: mm("5.2"),
            height_mm: mm("5"),
        },
        quantity: 1,
    });
    case.guide.pins = vec![CasePin {
        name: "front".into(),
        pin: "pin".into(),
        at: "43".parse().unwrap(),
        along_mm: mm("1"),
        buccal_mm: mm("2"),
    }];
}

/// The pin drill passes every bore: at its mark of 30.0 it goes 30.0 − 10.7 = 19.3 deep.
#[test]
fn the_drill_of_a_pin_is_tried_too() {
    let with = |guided: &'static str| {
        let sheet = worked(|case| pinned(case, guided));
        let mut all = sheet.mix_ups.iter();
        all.find(|one| matches!(one.mistake, Mistake::PinDrill { .. }))
            .map(|one| (one.cut, one.slot.is_some()))
    };
    assert_eq!(with("1.3"), Some((mm("19.3"), true)));
    // Too wide for any bore here.
    assert_eq!(with("5"), None);
}

/// Two pins of different length share a sort of drill: each mix-up names the place of the drill of
/// its own pin.
#[test]
fn the_drill_of_each_pin_is_named_where_it_lies() {
    let sheet = worked(|case| {
        pinned(case, "1.3");
        let drill = case.kit.drills.last_mut().unwrap();
        drill.quantity = 2;
        drill.marks.push(DrillMark {
            name: "two".into(),
            lower_edge_mm: mm("33"),
            upper_edge_mm: None,
        });
        let mut longer = case.kit.pins[0].clone();
        longer.id = "longer".into();
        longer.length_mm = mm("33");
        case.kit.pins.push(longer);
        let mut back = case.guide.pins[0].clone();
        back.name = "back".into();
        back.pin = "longer".into();
        back.at = "33".parse().unwrap();
        case.guide.pins.push(back);
    });
    let mut named = BTreeMap::new();
    for one in &sheet.mix_ups {
        if let Mistake::PinDrill { set, pin, .. } = &one.mistake {
            let mut items = sheet.loading.iter();
            let its = items.find(|item| item.pins.contains(pin)).unwrap();
            assert!(one.slot.is_some());
            assert_eq!(one.slot, its.slot, "{pin}");
            named.insert(*set, one.slot.clone());
        }
    }
    assert_eq!(named.len(), 2);
    assert_ne!(named[&mm("30")], named[&mm("33")]);
}

/// On the empty master sleeve, bore 4.95, a stop as wide falls through: nothing holds the drill before its
/// shank, 34 from the tip, meets the rim 10.0 above the platform, 24 below it. One that lands holds.
#[test]
fn a_stop_that_falls_through_holds_nothing() {
    let reached = |landing: &'static str| {
        let sheet = worked(|case| {
            canal(case, "12.6");
            let mut narrow = case.kit.stops[0].clone();
            (narrow.id, narrow.landing_diameter_mm) = ("n".into(), mm(landing));
            narrow.body_diameter_mm = mm(landing);
            case.kit.stops.push(narrow);
            case.teeth.extend([present("45"), present("47")]);
            case.sites.push(site("two", "46", &["45", "47"]));
            case.sites[1].steps[0].stop = Some("n".into());
            case.kit.drills[2].guided_diameter_mm = mm("4.9");
            case.sites[0].steps[2].sleeve = None;
        });
        let through = sheet.mix_ups.iter().filter(|one| {
            let guided = !matches!(one.mistake, Mistake::WithoutGuide { .. });
            guided && one.site.as_str() == "one"
        });
        through.map(|one| one.cut).max()
    };
    assert_eq!(reached("4.95"), Some(mm("24")));
    assert_eq!(reached("3"), Some(mm("24")));
    // On the rim 20.7 − 10.0.
    assert_eq!(reached("4.951"), Some(mm("10.7")));
}
