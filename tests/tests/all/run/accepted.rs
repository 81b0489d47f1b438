//! An accepted order is followed as long as it fits, and nothing else determines a figure.

use super::{changed, done, drill, solved};
use crate::demo::{self, CASES};
use traywright_core::case::{Edit, OrderedUse, RunWishes, apply, removal};
use traywright_core::order::{Group, Objective, Weights};
use traywright_core::plan::{Operation, OrderBy, Verdict, Worksheet, work_out};

fn ordered(order: &[Operation]) -> Vec<OrderedUse> {
    order.iter().filter_map(Operation::ordered).collect()
}

fn findings(sheet: &Worksheet) -> Vec<Verdict> {
    let rule = "accepted-order-does-not-fit";
    let found = sheet.findings.iter().filter(|f| f.rule.key() == rule);
    found.map(|f| f.verdict).collect()
}

#[test]
fn the_best_order_of_every_case_can_be_accepted_and_is_followed() {
    for name in CASES {
        let before = demo::valid(name);
        let sheet = work_out(&before);
        assert_eq!(sheet.order_by, OrderBy::Rule);
        let run = solved(&before, &sheet).unwrap();
        let best = done(&run);
        let after = apply(&before, &[Edit::AcceptOrder(ordered(&best))]).unwrap();
        let sheet = work_out(&after);
        assert_eq!(
            (sheet.order_by, &sheet.order),
            (OrderBy::Accepted, &best),
            "{name}"
        );
        assert!(findings(&sheet).is_empty());
        assert_ne!(after.fingerprint(), before.fingerprint());
        // Taken back it is as before, to the letter.
        let back = apply(&after, &[Edit::AcceptOrder(Vec::new())]).unwrap();
        assert_eq!(back.fingerprint(), before.fingerprint());
        // What is followed then costs what the best costs.
        let again = solved(&after, &sheet).unwrap();
        assert_eq!(again.followed.cost, run.best.cost, "{name}");
        assert_eq!(again.followed_is_least, run.proved, "{name}");
    }
}

#[test]
fn the_tray_is_loaded_in_the_order_that_was_accepted() {
    let (case, plain) = changed("two-molars", |_| {});
    let run = solved(&case, &plain).unwrap();
    let mut order = done(&run);
    // The second site first, its own sequence kept.
    let (second, first): (Vec<Operation>, Vec<Operation>) =
        order.drain(..).partition(|one| match one {
            Operation::Drill { site, .. } | Operation::Insert { site } => site.as_str() == "m47",
            _ => false,
        });
    order.extend(second.into_iter().chain(first));
    let (_, sheet) = changed("two-molars", |case| case.accepted_order = ordered(&order));
    assert_eq!(sheet.order_by, OrderBy::Accepted);
    let drilled = sheet
        .order
        .iter()
        .find(|one| matches!(one, Operation::Drill { .. }));
    assert_eq!(drilled, Some(&drill("m47", "s1")));
    let first = |sheet: &Worksheet| {
        let serves = sheet.loading[0].serves[0].site.clone();
        serves.unwrap().to_string()
    };
    assert_eq!(
        (first(&plain), first(&sheet)),
        ("m46".to_owned(), "m47".to_owned())
    );
}

#[test]
fn an_order_that_does_not_fit_is_not_followed_and_said_to_be_so() {
    let plain = work_out(&demo::valid("full-arch-upper"));
    let good = ordered(&plain.order);
    let swapped = |a: usize, b: usize| {
        let mut order = good.clone();
        order.swap(a, b);
        order
    };
    let last_drill = good
        .iter()
        .rposition(|one| matches!(one, OrderedUse::Drill { .. }));
    let rows = [
        ("a thing left out", good[1..].to_vec()),
        (
            "a thing twice",
            [good.clone(), vec![good[0].clone()]].concat(),
        ),
        ("a step before the last pin", swapped(2, 3)),
        ("a pin at the end", swapped(0, good.len() - 1)),
        (
            "an implant before its last drill",
            swapped(last_drill.unwrap(), good.len() - 1),
        ),
        ("another case's step", {
            let mut order = good.clone();
            order[5] = OrderedUse::Insert { site: "m46".into() };
            order
        }),
    ];
    for (what, order) in rows {
        let (_, sheet) = changed("full-arch-upper", |case| case.accepted_order = order);
        assert_eq!(sheet.order_by, OrderBy::Fallback, "{what}");
        assert_eq!(sheet.order, plain.order, "{what}");
        assert_eq!(findings(&sheet), [Verdict::Unknown], "{what}");
    }
    let (_, sheet) = changed("full-arch-upper", |case| case.accepted_order = good.clone());
    assert_eq!(sheet.order_by, OrderBy::Accepted);
}

#[test]
fn guided_things_come_before_the_guide_is_off_in_any_accepted_order() {
    let plain = work_out(&demo::valid("fresh-socket"));
    let off = plain
        .order
        .iter()
        .position(|one| *one == Operation::GuideOff)
        .unwrap();
    assert!(off > 0 && off + 1 < plain.order.len());
    let mut order = ordered(&plain.order);
    order.swap(off - 1, off);
    let (_, sheet) = changed("fresh-socket", |case| case.accepted_order = order);
    assert_eq!(sheet.order_by, OrderBy::Fallback);
}

#[test]
fn wishes_determine_no_figure_and_go_with_their_site() {
    let before = demo::valid("two-molars");
    let run = RunWishes {
        weights: Weights {
            move_ds: 5,
            ..Weights::default()
        },
        groups: [Group::SiteBySite].into(),
        before: vec![traywright_core::case::SiteBefore {
            first: "m47".into(),
            then: "m46".into(),
        }],
        hold_guide: Some(vec!["m47".into()]),
        ..RunWishes::default()
    };
    let after = apply(&before, &[Edit::SetRun(Box::new(run))]).unwrap();
    assert_eq!(after.fingerprint(), before.fingerprint());
    assert_eq!(work_out(&after).order, work_out(&before).order);
    let gone = apply(&after, &removal(&after, &"m47".into())).unwrap();
    assert!(gone.run.before.is_empty());
    assert_eq!(gone.run.hold_guide, Some(Vec::new()));
    // By itself a site does not go while a wish names it.
    assert!(apply(&after, &[Edit::RemoveSite("m47".into())]).is_err());
}

/// Where least time is wished, a drill may be laid for other settings with other times of a mount and a
/// re-set; with any other weight it is not.
#[test]
fn in_least_time_the_weights_that_lay_the_drills_are_in_the_fingerprint() {
    let plain = demo::valid("two-molars");
    let wished = |objective, weights| {
        let run = RunWishes {
            objective,
            weights,
            ..RunWishes::default()
        };
        let case = apply(&plain, &[Edit::SetRun(Box::new(run))]).unwrap();
        case.fingerprint()
    };
    let least = Objective::LeastTime;
    let usual = wished(least, Weights::default());
    assert_ne!(usual, plain.fingerprint());
    let other = |change: fn(&mut Weights)| {
        let mut weights = Weights::default();
        change(&mut weights);
        weights
    };
    assert_ne!(wished(least, other(|w| w.reset_ds = 40)), usual);
    assert_ne!(wished(least, other(|w| w.mount_ds = 40)), usual);
    assert_eq!(wished(least, other(|w| w.move_ds = 40)), usual);
    let fewest = wished(Objective::FewestResets, other(|w| w.reset_ds = 40));
    assert_eq!(fewest, plain.fingerprint());
}
