use crate::case::RunWishes;
use crate::dentition::Notation;
use crate::kit::SiteId;
use crate::order::{Change, Cost, Group, Objective, Tally};
use crate::plan::{Operation, OrderBy};
use crate::run::{
    Adherence, MoveRefused, NoRun, PricedOrder, RunOrder, RunStep, Wish, WishCost, run_problem,
};
use crate::wording::tests::sample::{valid, with};
use crate::wording::{CostWords, Formatter};

const fn cost(resets: u32, time_ds: u64) -> Cost {
    Cost { resets, time_ds }
}

const fn priced(cost: Cost) -> PricedOrder {
    let steps = Vec::new();
    PricedOrder { cost, steps }
}

/// A run order of these costs: the followed one, the best found and the bound.
fn order(followed: Cost, best: Cost, bound: Cost) -> RunOrder {
    RunOrder {
        by: OrderBy::Rule,
        followed: priced(followed),
        adherence: Adherence::Full,
        followed_is_least: followed == bound,
        best: priced(best),
        bound,
        proved: best == bound,
        states_expanded: 1,
        cancelled: false,
    }
}

#[test]
fn times_are_in_seconds_and_from_two_minutes_on_in_minutes() {
    with(&[], |say, _| {
        for (given, want) in [
            (0, "0 s"),
            (5, "0.5 s"),
            (1_190, "119 s"),
            (1_200, "2 min"),
            (2_505, "4 min 10.5 s"),
        ] {
            assert_eq!(say.run_time(given), want);
        }
        let costs = [(0, "no re-set"), (1, "1 re-set"), (12, "12 re-sets")];
        for (given, want) in costs {
            assert_eq!(say.run_cost(cost(given, 10)), format!("{want}, 1 s"));
        }
    });
}

#[test]
fn an_order_is_never_called_better_than_what_is_proved() {
    let (few, many) = (cost(1, 3_000), cost(3, 2_000));
    with(&[], |say, _| {
        for (run, want) in [
            (order(few, few, few), "The minimum possible."),
            (order(many, few, few), "2 re-sets above the minimum."),
            (order(cost(1, 3_100), few, few), "10 s above the minimum."),
            (
                order(few, few, cost(1, 2_900)),
                "At most 10 s above the minimum; no better one is known.",
            ),
            (
                order(many, few, cost(0, 0)),
                "At most 3 re-sets above the minimum; an order that is 2 re-sets better is known.",
            ),
        ] {
            assert_eq!(say.run_verdict(&run), want);
        }
        let broken = RunOrder {
            adherence: Adherence::Partial,
            ..order(few, many, many)
        };
        assert!(say.run_verdict(&broken).contains("breaks a rule"));
        let stopped = RunOrder {
            cancelled: true,
            ..order(many, few, cost(0, 0))
        };
        assert_eq!(
            say.run_best_verdict(&stopped),
            "The search was stopped. At most 1 re-set above the minimum."
        );
    });
}

/// If only time counts, re-sets of a bound say nothing.
#[test]
fn where_only_time_counts_the_verdict_is_in_time() {
    let mut case = valid(&[]).into_case();
    case.run.objective = Objective::LeastTime;
    let say = Formatter::english(&case, Notation::Iso);
    let run = order(cost(3, 2_000), cost(3, 2_000), cost(0, 1_500));
    assert_eq!(
        say.run_verdict(&run),
        "At most 50 s above the minimum; no better one is known."
    );
}

/// A bound of re-sets and time holds in two steps: an order with more re-sets may take less time.
#[test]
fn a_bound_of_two_parts_is_told_as_two_parts() {
    let texts = crate::text::Texts::english();
    let bound = |objective, resets, time_ds| {
        let say = CostWords { texts, objective };
        say.bound(Cost { resets, time_ds })
    };
    let fewest = Objective::FewestResets;
    for (resets, want) in [
        (0, "None takes less than 13 s without a re-set."),
        (
            1,
            "None has no re-set, and none with 1 re-set takes less than 13 s.",
        ),
        (
            2,
            "None has fewer than 2 re-sets, and none with 2 takes less than 13 s.",
        ),
    ] {
        assert_eq!(bound(fewest, resets, 130), want);
    }
    assert_eq!(
        bound(Objective::LeastTime, 7, 130),
        "None takes less than 13 s."
    );
    // That nothing takes less than no time is no bound.
    for (objective, resets, want) in [
        (fewest, 0, "No minimum known yet."),
        (fewest, 1, "None has no re-set."),
        (fewest, 2, "None has fewer than 2 re-sets."),
        (Objective::LeastTime, 7, "No minimum known yet."),
    ] {
        assert_eq!(bound(objective, resets, 0), want);
    }
}

#[test]
fn what_a_wish_costs_is_told_with_how_sure_that_is() {
    let mut case = valid(&["two-sites"]).into_case();
    let site = |n: usize, case: &crate::case::Case| case.sites[n].id.clone();
    let before = crate::case::SiteBefore {
        first: site(0, &case),
        then: site(1, &case),
    };
    case.run = RunWishes {
        before: vec![before],
        ..RunWishes::default()
    };
    let say = Formatter::english(&case, Notation::Iso);
    let all = cost(1, 3_000);
    let told = |without, cost, proved| {
        let why = WishCost {
            without,
            cost,
            proved,
        };
        say.run_why(&why, &order(all, all, all))
    };
    let (first, then) = (say.site(&site(0, &case)), say.site(&site(1, &case)));
    assert_eq!(
        told(Wish::Before(0), cost(0, 3_100), true),
        crate::wording::begin(&format!(
            "{first} before {then}: without this rule 1 re-set less (no re-set, 5 min 10 s)."
        ))
    );
    assert_eq!(
        told(Wish::Group(Group::SiteBySite), all, false),
        "Each site finished before the next: without this rule no less (1 re-set, 5 min), as far as was searched."
    );
    let weight = told(Wish::Weight(Change::Move), cost(1, 2_900), true);
    assert!(weight.starts_with("Another site: if it took no time 10 s less"));
    assert!(weight.ends_with("(1 re-set, 4 min 50 s)."), "{weight}");
}

#[test]
fn each_change_before_a_step_says_what_becomes_of_it() {
    with(&[], |say, sheet| {
        let drill = sheet
            .order
            .iter()
            .find(|one| matches!(one, Operation::Drill { .. }));
        let step = RunStep {
            what: drill.unwrap().clone(),
            copy: Some(1),
            changes: Tally {
                mounts: 1,
                resets: 1,
                moves: 1,
                sleeves: 1,
                speeds: 1,
            },
        };
        let said = say.run_step(&step, sheet);
        let set = say.setting(&sheet.sites[0].steps[0]);
        let changes: Vec<Change> = said.changes.iter().map(|(change, _)| *change).collect();
        assert_eq!(changes, Change::ALL);
        assert_eq!(said.set.as_deref(), Some(set.as_str()));
        let changes = said.changes.iter().map(|(_, words)| words.as_str());
        let line = changes
            .chain([said.line.as_str()])
            .collect::<Vec<_>>()
            .join(", ");
        for part in [
            format!("take {}", said.instrument),
            format!("re-set its stop to {set} mm"),
            format!("go to {}", said.place.as_deref().unwrap()),
            "insert ".to_owned(),
        ] {
            assert!(line.contains(&part), "{part}: {line}");
        }
        assert!(line.ends_with(&said.line));
    });
}

#[test]
fn why_there_is_no_order_names_sites_and_instruments_and_no_ids() {
    let mut case = valid(&["two-sites"]).into_case();
    let ids: Vec<SiteId> = case.sites.iter().map(|site| site.id.clone()).collect();
    for (first, then) in [(0, 1), (1, 0)] {
        case.run.before.push(crate::case::SiteBefore {
            first: ids[first].clone(),
            then: ids[then].clone(),
        });
    }
    let case = crate::case::ValidCase::try_from(case).unwrap();
    let sheet = crate::plan::work_out(&case);
    let none = run_problem(&case, &sheet).unwrap_err();
    let say = Formatter::english(&case, Notation::Iso);
    let (a, b) = (say.site(&ids[0]), say.site(&ids[1]));
    let told = say.no_run(&none).join(" ");
    assert!(told.contains("in a circle"), "{told}");
    assert!(told.contains(&format!("{a} before {b}")), "{told}");
    assert!(!told.contains("site."), "{told}");
    let nothing = say.no_run(&NoRun::Nothing);
    assert!(nothing[0].contains("Nothing is planned"), "{nothing:?}");
    let other = sheet
        .order
        .iter()
        .find(|one| matches!(one, Operation::Drill { .. }));
    let stays = say.stays(&MoveRefused::Sequence(other.unwrap().clone()), &sheet);
    let drill = say.run_instrument(other.unwrap(), &sheet);
    assert!(stays.contains(&drill), "{stays}");
}

/// A drill that takes two sorts of stops is two tools, neither with a name of its own.
#[test]
fn a_drill_without_a_stop_of_one_sort_is_told_by_its_name() {
    let mut case = valid(&["two-sites"]).into_case();
    let of = |site: &crate::case::Site| {
        site.steps
            .iter()
            .find_map(|s| s.stop.clone().map(|t| (s.drill.clone(), t)))
    };
    let (drill, stop) = of(&case.sites[0]).unwrap();
    let mut none = case.kit.stop(&stop).unwrap().clone();
    none.id = format!("{stop}-none").as_str().into();
    none.quantity = 0;
    let mut steps = case.sites[1].steps.iter_mut();
    let step = steps.find(|step| step.drill == drill && step.stop.is_some());
    step.unwrap().stop = Some(none.id.clone());
    case.kit.stops.push(none);
    let own = case.kit.drills.iter_mut().find(|one| one.id == drill);
    own.unwrap().quantity = 2;
    let case = crate::case::ValidCase::try_from(case).unwrap();
    let none = run_problem(&case, &crate::plan::work_out(&case)).unwrap_err();
    let say = Formatter::english(&case, Notation::Iso);
    let told = say.no_run(&none).join(" ");
    let name = say.drill(&drill);
    assert!(
        told.contains(&format!("No {name} with what it needs")),
        "{told}"
    );
    assert!(!told.contains(&format!("{drill}.")), "{told}");
}
