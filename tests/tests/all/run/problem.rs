//! The parts of a case that become a problem, and their cost.

use super::{changed, done, drill, solved};
use crate::demo::{self, CASES};
use std::ops::ControlFlow;
use traywright_core::case::{GuidedExtent, SiteBefore};
use traywright_core::kit::SiteId;
use traywright_core::order::{Budget, Change, Group, Refused, Unsolvable, Weights};
use traywright_core::plan::{Operation, Reason, work_out};
use traywright_core::run::{Adherence, NoRun, Wish, run_problem, why};

#[test]
fn every_case_is_solved_and_everything_is_done_once() {
    for name in CASES {
        let case = demo::valid(name);
        let sheet = work_out(&case);
        let run = solved(&case, &sheet).unwrap();
        let mut best: Vec<String> = done(&run).iter().map(|one| format!("{one:?}")).collect();
        let mut all: Vec<String> = sheet.order.iter().map(|one| format!("{one:?}")).collect();
        best.sort();
        all.sort();
        assert_eq!(best, all, "{name}");
        assert!(run.proved, "{name}");
        let value = |resets: u32, time: u64| (resets, time);
        let cost = |cost: traywright_core::order::Cost| value(cost.resets, cost.time_ds);
        assert!(
            run.adherence == Adherence::Partial || cost(run.best.cost) <= cost(run.followed.cost)
        );
    }
}

/// One site, three drills, each set to its own figure with a sleeve of its own, the implant through
/// the master sleeve with its carrier: by hand four mounts and three sleeves.
#[test]
fn one_premolar_costs_what_it_does_by_hand() {
    let (case, sheet) = changed("one-premolar", |case| {
        case.run.weights = Weights {
            mount_ds: 1000,
            reset_ds: 100_000 / 4,
            move_ds: 100,
            sleeve_ds: 10,
            speed_ds: 0,
        };
    });
    let run = solved(&case, &sheet).unwrap();
    assert_eq!(run.best.cost.time_ds, 4 * 1000 + 3 * 10);
    assert_eq!((run.best.cost.resets, run.proved), (0, true));
    assert!(run.followed_is_least);
}

/// One site, drilled through the guide, the implant by hand: nobody goes anywhere.
#[test]
fn whoever_stays_at_a_site_after_the_guide_came_off_does_not_move() {
    let (case, sheet) = changed("one-premolar", |case| {
        case.sites[0].guided_extent = GuidedExtent::AllDrilling;
    });
    let run = solved(&case, &sheet).unwrap();
    assert!(done(&run).contains(&Operation::GuideOff) && run.proved);
    for order in [&run.best, &run.followed] {
        let moves = order
            .steps
            .iter()
            .map(|step| step.changes.moves)
            .sum::<u32>();
        assert_eq!(moves, 0);
    }
}

#[test]
fn pins_then_punches_then_all_that_is_guided() {
    let (case, sheet) = changed("full-arch-upper", |_| {});
    let run = solved(&case, &sheet).unwrap();
    let part = |one: &Operation| match one {
        Operation::Pin { .. } => 0,
        Operation::Punch { .. } => 1,
        Operation::Reseat | Operation::Sound { .. } => 2,
        Operation::Drill { .. } | Operation::Insert { .. } => 3,
        Operation::GuideOff => 4,
    };
    let parts: Vec<i32> = done(&run).iter().map(part).collect();
    assert!(parts.is_sorted(), "{parts:?}");
    assert_eq!(parts.iter().filter(|part| **part == 0).count(), 3);
}

/// On mucosa 12 in front and 25 across come first (common practice, no source); the case can name
/// others, or none.
#[test]
fn what_holds_the_guide_on_mucosa_comes_first_unless_the_case_says_otherwise() {
    let first = |held: Option<Vec<SiteId>>| {
        let (case, sheet) = changed("full-arch-upper", |case| {
            case.run.hold_guide = held;
            case.run.weights.move_ds = 0;
        });
        let order = done(&solved(&case, &sheet).unwrap());
        let mut sites: Vec<String> = Vec::new();
        for one in order {
            if let Operation::Insert { site } = one {
                sites.push(site.to_string());
            }
        }
        let mut two = sites[..2].to_vec();
        two.sort();
        two
    };
    assert_eq!(first(None), ["u12", "u25"]);
    let named = vec!["u15".into(), "u22".into()];
    assert_eq!(first(Some(named)), ["u15", "u22"]);
}

#[test]
fn a_pilot_alone_is_guided_and_the_rest_comes_after_the_guide_is_off() {
    let (case, sheet) = changed("full-arch-upper", |case| {
        case.sites[0].guided_extent = GuidedExtent::PilotOnly;
    });
    match solved(&case, &sheet) {
        Ok(run) => {
            let order = done(&run);
            let at = |one: &Operation| order.iter().position(|other| other == one).unwrap();
            let off = at(&Operation::GuideOff);
            assert!(at(&drill("u15", "s1")) < off && off < at(&drill("u15", "s2")));
        }
        // Freehand the settings may be unknown; then there is no problem.
        Err(none) => assert!(matches!(none, NoRun::Unknown(_)), "{none:?}"),
    }
}

#[test]
fn an_unknown_setting_leaves_the_run_order_unknown_with_the_same_reason() {
    let (case, sheet) = changed("two-molars", |case| case.sites[0].platform_to_sleeve = None);
    let Err(NoRun::Unknown(reasons)) = solved(&case, &sheet) else {
        panic!("it was solved");
    };
    let missing = reasons.iter().filter_map(|reason| match reason {
        Reason::Missing(place) => Some(place.to_string()),
        _ => None,
    });
    let missing: Vec<_> = missing.collect();
    assert!(
        missing.contains(&"sites[m46].platform_to_sleeve".to_owned()),
        "{reasons:?}"
    );
}

#[test]
fn a_drill_that_is_not_there_is_named() {
    let (case, sheet) = changed("two-molars", |case| {
        for drill in &mut case.kit.drills {
            if drill.id.as_str() == "tip-316" {
                drill.quantity = 0;
            }
        }
    });
    let Err(NoRun::Refused(Refused::Unsolvable(reasons))) = solved(&case, &sheet) else {
        panic!("it was solved");
    };
    let [Unsolvable::NoCopy { tool, .. }] = reasons.as_slice() else {
        panic!("{reasons:?}");
    };
    assert_eq!(tool.as_str(), "drill.tip-316");
}

/// Two drills take one sort of stop: each has one, and what is left goes to whom it helps.
#[test]
fn drills_that_take_the_same_stop_share_what_there_is() {
    for (quantity, ok) in [(2, true), (1, false)] {
        let (case, sheet) = changed("two-molars", |case| {
            for stop in &mut case.kit.stops {
                if stop.id.as_str() == "stop-529" {
                    stop.quantity = quantity;
                }
            }
        });
        assert_eq!(run_problem(&case, &sheet).is_ok(), ok, "{quantity}");
    }
}

#[test]
fn why_tells_what_each_wish_costs() {
    let (case, sheet) = changed("two-molars", |case| {
        case.run.groups = [Group::SiteBySite].into();
        case.run.before = vec![SiteBefore {
            first: "m47".into(),
            then: "m46".into(),
        }];
    });
    let run = solved(&case, &sheet).unwrap();
    let budget = Budget::default();
    let all = why(&case, &sheet, &run.best, &budget, &mut |_| {
        ControlFlow::Continue(())
    });
    let of = |wish: Wish| all.iter().find(|why| why.without == wish).unwrap();
    assert_eq!(all.len(), 7);
    for why in &all {
        assert!(why.proved);
        assert!(why.cost.time_ds <= run.best.cost.time_ds, "{why:?}");
    }
    // Without site by site, one mount serves both sites.
    let free = of(Wish::Group(Group::SiteBySite));
    // Both rules together: m46 still waits for m47, so that one rule alone frees nothing.
    assert_eq!(free.cost.time_ds, run.best.cost.time_ds);
    let no_moves = of(Wish::Weight(Change::Move));
    assert_eq!(
        run.best.cost.time_ds - no_moves.cost.time_ds,
        u64::from(case.run.weights.move_ds)
    );
}
