//! Without the guide the crest is the seat, and guided settings are void.

use super::sample::{all, case, mm, one, shown, step_of, valid, worked};
use jiff::civil::Date;
use traywright_core::case::{
    Case, CrestDepth, Edit, GuidedExtent, Site, SiteState, ValidCase, apply,
};
use traywright_core::kit::DepthRule;
use traywright_core::plan::{
    Endangered, Mistake, Operation, Place, Reason, SiteHeight, SitePlace, StepPath, Verdict,
    work_out,
};

fn pilot_only(case: &mut Case) {
    case.sites[0].guided_extent = GuidedExtent::PilotOnly;
}

/// The pilot is guided (10.7 + 10.0 = 20.7); after it the lowest crest, 0.6 above the platform, is
/// the seat: 0.6 + 10.0 = 10.6. Read at the highest, 1.0 above it, the same mark ends 0.4 shallower;
/// counted from there and read at the lowest it would end 0.4 too deep.
#[test]
fn behind_the_pilot_the_crest_is_the_seat() {
    let sheet = worked(pilot_only);
    let [pilot, second, third] = &sheet.sites[0].steps[..] else {
        panic!()
    };
    assert_eq!(
        (pilot.path, shown(&pilot.set)),
        (StepPath::DrillSleeve, "20.7".into())
    );
    for step in [second, third] {
        assert_eq!(step.path, StepPath::Freehand);
        assert_eq!(
            [&step.seat, &step.set, &step.cut].map(shown),
            ["0.6", "10.6", "10"]
        );
        assert!(step.bench.is_none());
    }
    assert!(sheet.sites[0].play[0].is_some());
    assert!(sheet.sites[0].play[1].is_none());
    assert!(sheet.sites[0].insertion.is_none());
    let idle = all(&sheet, "sleeve-without-guide");
    assert_eq!(idle.len(), 2);
    assert!(idle.iter().all(|f| f.verdict == Verdict::Note));
    // A platform above the crest: seat −0.5, 9.5 to the bone's depth.
    let above = worked(|case| {
        pilot_only(case);
        let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
        (crest.highest_mm, crest.lowest_mm) = (mm("-0.5"), mm("-0.5"));
    });
    assert_eq!(shown(&step_of(&above, 1).set), "9.5");
}

#[test]
fn without_a_crest_there_is_no_freehand_figure() {
    let sheet = worked(|case| {
        pilot_only(case);
        case.sites[0].heights.platform_below_crest = None;
    });
    assert_eq!(shown(&step_of(&sheet, 0).set), "20.7");
    for n in [1, 2] {
        let step = step_of(&sheet, n);
        for figure in [&step.seat, &step.exact, &step.set, &step.cut] {
            assert_eq!(shown(figure), "unknown", "{}", figure.id);
        }
    }
    assert_eq!(shown(&sheet.sites[0].deepest_cut), "unknown");
    assert_eq!(all(&sheet, "setting-unknown").len(), 2);
    assert_eq!(one(&sheet, "deep-structure").verdict, Verdict::Unknown);
}

/// The pilot has the longest setting, 20.7 from its seat on the sleeve, but the last drill cuts as
/// deep from the crest: it speaks for the site. Without any step of full depth the deepest does.
#[test]
fn the_deepest_cut_speaks_for_the_site_not_the_longest_setting() {
    let telling = |change: fn(&mut Case)| {
        let sheet = worked(|case| {
            pilot_only(case);
            change(case);
        });
        sheet.sites[0].telling_step().unwrap().id.to_string()
    };
    assert_eq!(telling(|_| {}), "c");
    let all_short: fn(&mut Case) = |case| {
        for (step, by) in case.sites[0].steps.iter_mut().zip(["3", "1", "2"]) {
            step.depth = DepthRule::ShortOfFull { by_mm: mm(by) };
        }
    };
    assert_eq!(telling(all_short), "b");
}

/// Within a fresh socket there is no crest: what was measured of the crest around it gives no freehand
/// figure, and nothing is sounded. The rim does, 0.3 above the platform: 0.3 + 10.0 = 10.3. So it is within
/// the bed of an implant that comes out.
#[test]
fn in_a_fresh_socket_freehand_depth_counts_from_its_rim_alone() {
    for bone in [SiteState::FRESH_SOCKET, SiteState::IMPLANT_TO_REMOVE] {
        counts_from_the_rim(&bone);
    }
}

fn counts_from_the_rim(bone: &SiteState) {
    let socket = |rim: Option<&str>| {
        worked(|case| {
            pilot_only(case);
            case.sites[0].state = bone.clone();
            case.sites[0].heights.platform_below_socket_rim_mm = rim.map(mm);
        })
    };
    let without = socket(None);
    let rim = Place::Site("one".into(), SitePlace::Height(SiteHeight::SocketRim));
    let missing = [Reason::Missing(rim)];
    for n in [1, 2] {
        assert_eq!(step_of(&without, n).set.value.reasons(), missing);
    }
    let depth = without.sites[0].final_depth.as_ref().unwrap();
    assert_eq!(depth.below_apical.value.reasons(), missing);
    assert_eq!(without.sites[0].sounding, None);
    let with = socket(Some("0.3"));
    for n in [1, 2] {
        let step = step_of(&with, n);
        let figures = [&step.seat, &step.set, &step.cut].map(shown);
        assert_eq!(figures, ["0.3", "10.3", "10"]);
    }
    let depth = with.sites[0].final_depth.as_ref().unwrap();
    assert_eq!(
        (shown(&depth.below_apical), &depth.below_coronal),
        ("0.3".into(), &None)
    );
}

/// Grafted on the day of the scan or after it, the crest is not that of the scan: neither freehand
/// depth nor room under the sleeve is known. Scanned the day after, both are.
#[test]
fn a_crest_measured_before_the_graft_is_unknown() {
    let scanned = |day: i8| {
        worked(|case| {
            pilot_only(case);
            let on = Date::constant(2026, 5, 2);
            case.sites[0].state = SiteState::Grafted { on };
            case.guide.scan_date = Some(Date::constant(2026, 5, day));
        })
    };
    for day in [1, 2] {
        let sheet = scanned(day);
        let set = step_of(&sheet, 1).set.value.clone();
        assert!(matches!(set.reasons(), [Reason::BeforeGraft(_)]), "{set:?}");
        assert_eq!(one(&sheet, "tissue-room").verdict, Verdict::Unknown);
        assert_eq!(one(&sheet, "scan-before-graft").verdict, Verdict::Unknown);
    }
    let after = scanned(3);
    assert_eq!(shown(&step_of(&after, 1).set), "10.6");
    assert!(all(&after, "scan-before-graft").is_empty());
}

/// A stop set for the guide, 20.7, and used on the bare crest, at its lowest 0.6 above the platform,
/// cuts 20.1: deeper than the planned 10.0 by seat − crest = 10.7 − 0.6 = 10.1.
#[test]
fn a_guided_stop_used_freehand_goes_deeper_by_seat_less_crest() {
    let sheet = worked(|_| {});
    let [found] = &sheet.mix_ups[..] else {
        panic!("{:#?}", sheet.mix_ups)
    };
    assert!(matches!(found.mistake, Mistake::WithoutGuide { .. }));
    assert_eq!((found.cut, found.deeper), (mm("20.1"), mm("10.1")));
    assert_eq!(
        found.breaks.first().map(Endangered::key).as_deref(),
        Some("mandibular_canal")
    );
}

/// The platform is 1.0 apical of the most coronal crest and 0.6 of the most apical; a carrier that
/// goes through the guide says it instead.
#[test]
fn an_implant_without_the_guide_ends_by_the_crest() {
    let ends = |change: fn(&mut Case)| {
        let depth = worked(change).sites[0].final_depth.clone();
        depth.map(|depth| {
            let coronal = depth.below_coronal.as_ref().map_or("none".into(), shown);
            [coronal, shown(&depth.below_apical)]
        })
    };
    assert_eq!(ends(|_| {}), None);
    assert_eq!(ends(pilot_only), Some(["1".into(), "0.6".into()]));
    let all_drilling = |case: &mut Case| {
        case.sites[0].guided_extent = GuidedExtent::AllDrilling;
        let crest = case.sites[0].heights.platform_below_crest.as_mut().unwrap();
        (crest.highest_mm, crest.lowest_mm) = (mm("0.2"), mm("-0.5"));
    };
    assert_eq!(ends(all_drilling), Some(["0.2".into(), "-0.5".into()]));
    let unmeasured = |case: &mut Case| {
        pilot_only(case);
        case.sites[0].heights.measured_at = None;
    };
    assert_eq!(ends(unmeasured), Some(["unknown".into(), "unknown".into()]));
}

/// Before the first guided cut, once; never where nothing is guided.
#[test]
fn the_guide_is_sounded_before_the_first_guided_cut() {
    let at = |change: fn(&mut Case)| {
        let order = worked(change).order;
        let sound = |one: &Operation| matches!(one, Operation::Sound { .. });
        assert!(order.iter().filter(|one| sound(one)).count() < 2);
        order.iter().position(sound)
    };
    assert_eq!(at(|_| {}), Some(0));
    let freehand = |case: &mut Case| {
        pilot_only(case);
        case.sites[0].steps.remove(0);
    };
    assert_eq!(at(freehand), None);
}

/// Guide-off is one barrier for the jaw: all guided steps come before it, all others after it.
#[test]
fn the_guide_comes_off_once() {
    let sheet = worked(|case| {
        pilot_only(case);
        let mut other = super::sample::site("two", "45", &[]);
        other.steps.truncate(2);
        case.sites.push(other);
        case.teeth.push(super::sample::present("44"));
    });
    let off = sheet
        .order
        .iter()
        .position(|u| *u == Operation::GuideOff)
        .unwrap();
    let sites = &sheet.sites;
    let path = |site: &str, step: &str| {
        let site = sites.iter().find(|s| s.id.as_str() == site).unwrap();
        site.steps
            .iter()
            .find(|s| s.id.as_str() == step)
            .unwrap()
            .path
    };
    let mut drilled = 0;
    for (n, one) in sheet.order.iter().enumerate() {
        if let Operation::Drill { site, step } = one {
            drilled += 1;
            let guided = path(site.as_str(), step.as_str()) != StepPath::Freehand;
            assert_eq!(guided, n < off, "{one:?}");
        }
    }
    assert_eq!(drilled, 5);
    assert_eq!(
        sheet
            .order
            .iter()
            .filter(|u| **u == Operation::GuideOff)
            .count(),
        1
    );
}

/// The rim of a socket is measured from the platform: once that is set to another depth it is asked for anew, and
/// counts again where it was measured, or entered again.
#[test]
fn the_rim_of_a_socket_is_asked_for_anew_once_the_platform_is_set_elsewhere() {
    let mut begun = case();
    pilot_only(&mut begun);
    begun.sites[0].state = SiteState::FRESH_SOCKET;
    let begun = valid(begun);
    let changed = |case: &ValidCase, change: &dyn Fn(&mut Site)| {
        let mut site = case.sites[0].clone();
        change(&mut site);
        apply(case, &[Edit::ChangeSite(Box::new(site))]).unwrap()
    };
    let enter = |site: &mut Site, rim: &str| {
        site.heights.platform_below_socket_rim_mm = Some(mm(rim));
        site.heights.enter(SiteHeight::SocketRim, site.placement);
    };
    let depth = |site: &mut Site, highest: &str, lowest: &str| {
        site.heights.platform_below_crest = Some(CrestDepth {
            highest_mm: mm(highest),
            lowest_mm: mm(lowest),
        });
    };
    let entered = changed(&begun, &|site| enter(site, "0.4"));
    let seat = |case: &ValidCase| step_of(&work_out(case), 1).seat.value.clone();
    let known = seat(&entered);
    assert!(known.reasons().is_empty());
    // Only one of the two.
    for (highest, lowest) in [("1", "0.5"), ("0.9", "0.6"), ("0", "-0.4")] {
        let deeper = changed(&entered, &|site| depth(site, highest, lowest));
        let seat_now = seat(&deeper);
        assert!(
            matches!(seat_now.reasons(), [Reason::Stale(..)]),
            "{seat_now:?}"
        );
        let other = changed(&deeper, &|site| depth(site, "1.7", "1.3"));
        assert!(matches!(seat(&other).reasons(), [Reason::Stale(..)]));
        let back = changed(&other, &|site| depth(site, "1", "0.6"));
        assert_eq!(seat(&back), known);
        let anew = changed(&other, &|site| enter(site, "1.2"));
        assert!(seat(&anew).reasons().is_empty());
        // Nobody confirms what the change of depth certainly changed.
        assert!(!deeper.sites[0].may_confirm_heights(None, deeper.purpose()));
    }
    // A height that has nothing to do with the depth holds.
    let tissue = changed(&entered, &|site| depth(site, "0", "-0.4"));
    assert_eq!(
        tissue.sites[0].heights_now().tissue_thickness_mm,
        entered.sites[0].heights.tissue_thickness_mm
    );
}
