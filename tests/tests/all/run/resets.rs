//! Fewer drills or stops than settings: what is set anew in surgery, held against the run order's
//! own count and against a tray that is worked through by hand.

use super::go_on;
use crate::demo;
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use traywright_core::case::{Case, OrderedUse, RunWishes, UseOrder, ValidCase};
use traywright_core::kit::{DrillId, StopId};
use traywright_core::measure::Length;
use traywright_core::order::{Budget, Objective, Rules, ValidProblem, Weights, cost_of_order};
use traywright_core::plan::{LoadItem, Operation, Worksheet, work_out};
use traywright_core::run::{PricedOrder, run_order, run_problem};

type Set = (DrillId, Option<StopId>, Option<Length>);

fn set_of(item: &LoadItem) -> Set {
    let on = item.set.as_ref().unwrap();
    (on.drill.clone(), on.stop.clone(), on.set.get())
}

/// The setting that an operation wants its drill set to.
fn wanted(sheet: &Worksheet, one: &Operation) -> Option<Set> {
    match one {
        Operation::Pin { name } => {
            let pin = sheet.pins.iter().find(|pin| pin.name == *name)?;
            Some((pin.drill.clone(), pin.stop.clone(), pin.set.length()))
        }
        Operation::Drill { site, step } => {
            let site = sheet.sites.iter().find(|one| one.id == *site)?;
            let step = site.steps.iter().find(|one| one.id == *step)?;
            Some((step.drill.clone(), step.stop.clone(), step.set.length()))
        }
        _ => None,
    }
}

/// Number of lines of drills and stops that are short, and true if re-sets do for each of them.
fn short(sheet: &Worksheet) -> (usize, bool) {
    let lines = sheet.stock.iter();
    let short = lines.filter(|l| ["drills", "stops"].contains(&l.list) && l.needed > l.have);
    let all: Vec<bool> = short.map(|line| line.with_resets.is_some()).collect();
    (all.len(), all.iter().all(|does| *does))
}

/// Works through the order with the drills as they are laid and set anew: each use finds a drill at
/// its setting, nothing is set anew that was not laid, and never are there more drills or stops than
/// the kit has.
fn work_through(case: &Case, sheet: &Worksheet) -> Result<(), TestCaseError> {
    let mut tray: BTreeMap<usize, Set> = BTreeMap::new();
    for (place, item) in sheet.loading.iter().enumerate() {
        if item.set.is_some() {
            tray.insert(place, set_of(item));
        }
    }
    let there = |tray: &BTreeMap<usize, Set>| -> Result<(), TestCaseError> {
        for drill in &case.kit.drills {
            let laid = tray.values().filter(|set| set.0 == drill.id).count();
            prop_assert!(laid <= drill.quantity as usize, "{} {}", drill.id, laid);
        }
        for stop in &case.kit.stops {
            let on = tray.values().filter(|set| set.1.as_ref() == Some(&stop.id));
            let on = on.count();
            prop_assert!(on <= stop.quantity as usize, "{} {}", stop.id, on);
        }
        Ok(())
    };
    there(&tray)?;
    let mut done = 0;
    for (place, one) in sheet.order.iter().enumerate() {
        for reset in sheet.resets_before(place) {
            prop_assert!(reset.after < reset.before);
            let on = reset.from.clone();
            let was = tray.insert(reset.item, set_of(&reset.to));
            prop_assert_eq!(was, Some((on.drill, on.stop, on.set.get())));
            prop_assert_eq!(&reset.to.slot, &sheet.loading[reset.item].slot);
            there(&tray)?;
            done += 1;
        }
        let Some(set) = wanted(sheet, one) else {
            continue;
        };
        prop_assert!(tray.values().any(|on| *on == set), "{one:?} wants {set:?}");
        if let Operation::Drill { site, step } = one {
            // It is told where that drill lies, at that setting.
            let told = sheet.drill_of(site, step).unwrap();
            prop_assert_eq!(set_of(told), set.clone());
            let mut on = tray.iter().filter(|(_, on)| **on == set);
            prop_assert!(on.any(|(place, _)| sheet.loading[*place].slot == told.slot));
        }
    }
    prop_assert_eq!(done, sheet.resets.len());
    Ok(())
}

/// Merges the rows of all sites anew, each kept in its sequence and each part by itself.
fn shuffled(sheet: &Worksheet, picks: &[usize]) -> Vec<OrderedUse> {
    let mut order = Vec::new();
    let mut picks = picks.iter().cycle();
    for part in sheet.order.split(|one| one.ordered().is_none()) {
        let mut rows: BTreeMap<String, Vec<OrderedUse>> = BTreeMap::new();
        for one in part.iter().rev().filter_map(Operation::ordered) {
            let row = match &one {
                OrderedUse::Pin { pin } => format!("pin {pin}"),
                OrderedUse::Drill { site, .. } | OrderedUse::Insert { site } => site.to_string(),
            };
            rows.entry(row).or_default().push(one);
        }
        let mut rows: Vec<Vec<OrderedUse>> = rows.into_values().collect();
        while !rows.is_empty() {
            let n = picks.next().unwrap() % rows.len();
            order.extend(rows[n].pop());
            rows.retain(|row| !row.is_empty());
        }
    }
    order
}

prop_compose! {
    /// A demonstration case with sites at other distances, other quantities and any order.
    fn any_short()(
        name in prop::sample::select(vec!["two-molars", "full-arch-upper", "upper-face-gauge", "fixed-stops", "one-figure"]),
        further in prop::collection::vec(0..4_i64, 6),
        drills in prop::collection::vec(1..4_u32, 8),
        stops in prop::collection::vec(1..5_u32, 8),
        none_of in prop::option::weighted(0.2, 0..4_usize),
        // One sort of stop for all drills, or each its own.
        one_stop in prop::bool::weighted(0.3),
        // One site takes another sort of stop for all its drills.
        other_stop in prop::option::weighted(0.3, 0..6_usize),
        by_diameter in any::<bool>(),
        picks in prop::option::of(prop::collection::vec(0..6_usize, 40)),
    ) -> ValidCase {
        let mut case: Case = demo::valid(name).into_case();
        case.setup.use_order = if by_diameter { UseOrder::ByDiameter } else { UseOrder::SiteBySite };
        for (site, further) in case.sites.iter_mut().zip(further) {
            if let Some(distance) = site.platform_to_sleeve.as_mut() {
                distance.entered_mm += Length::from_um(100 * further);
            }
        }
        if one_stop && let Some(stop) = case.kit.stops.first().map(|stop| stop.id.clone()) {
            let steps = case.sites.iter_mut().flat_map(|site| &mut site.steps);
            for step in steps.filter(|step| step.stop.is_some()) {
                step.stop = Some(stop.clone());
            }
        }
        if let Some(other) = other_stop.filter(|n| *n < case.sites.len()) {
            let stop = case.kit.stops.get(1).map(|stop| stop.id.clone());
            let steps = case.sites[other].steps.iter_mut();
            steps.filter(|step| step.stop.is_some()).for_each(|step| step.stop.clone_from(&stop));
        }
        for (drill, quantity) in case.kit.drills.iter_mut().zip(drills) {
            drill.quantity = quantity;
        }
        for (stop, quantity) in case.kit.stops.iter_mut().zip(stops) {
            stop.quantity = if one_stop { quantity + 3 } else { quantity };
        }
        if let Some(drill) = none_of.and_then(|n| case.kit.drills.get_mut(n)) {
            drill.quantity = 0;
        }
        case.accepted_order.clear();
        if let Some(picks) = picks {
            let plain = ValidCase::try_from(case.clone()).unwrap();
            case.accepted_order = shuffled(&work_out(&plain), &picks);
        }
        ValidCase::try_from(case).unwrap()
    }
}

/// 400 cases of all kinds with what is worked out of each, made once for all that look at them.
static WORKED: LazyLock<Vec<(ValidCase, Worksheet)>> = LazyLock::new(|| {
    let mut runner = TestRunner::deterministic();
    let mut worked = || {
        let case = any_short().new_tree(&mut runner).unwrap().current();
        let sheet = work_out(&case);
        (case, sheet)
    };
    (0..400).map(|_| worked()).collect()
});

/// Re-sets that the run order counts in the order that is followed; nothing where there is no way
/// to do it with what there is.
fn reckoned(case: &ValidCase, sheet: &Worksheet) -> Option<u32> {
    let run = run_problem(case, sheet).ok()?;
    let mut free = (*run.problem).clone();
    // An order may break a wish and is reckoned all the same.
    free.rules = Rules::default();
    let free = ValidProblem::try_from(free).unwrap();
    let costed = cost_of_order(&free, &run.chains_of(&sheet.order)).unwrap();
    Some(costed.cost.resets)
}

/// On 400 cases of all kinds: what is laid and set anew does every step with what there is, and is
/// set anew exactly as often as the run order's exact programme counts for the same order. Where
/// re-sets do not help, none is given and all is laid as before.
#[test]
fn re_sets_are_as_few_as_the_run_order_reckons_and_every_step_finds_its_drill() {
    let (mut with_resets, mut many, mut helpless) = (0, 0, 0);
    for (case, sheet) in WORKED.iter() {
        let (short, all_do) = short(sheet);
        if !all_do {
            helpless += 1;
            let lines = sheet.stock.iter().filter(|line| line.list == "drills");
            for line in lines.filter(|l| l.needed > l.have && l.with_resets.is_none()) {
                let of_line = |item: &&LoadItem| item.set.is_some() && item.entry == line.entry;
                let laid = sheet.loading.iter().filter(of_line).count();
                assert_eq!(laid, line.needed as usize, "{}", line.entry);
            }
            continue;
        }
        work_through(case, sheet).unwrap();
        let mut sets = sheet.loading.iter().filter_map(|item| item.set.as_ref());
        if sets.any(|on| on.set.get().is_none()) {
            // The run order has no answer, and nothing is set anew to what nobody knows.
            assert_eq!(reckoned(case, sheet), None);
            continue;
        }
        let resets = u32::try_from(sheet.resets.len()).unwrap();
        assert_eq!(short > 0, resets > 0);
        assert_eq!(reckoned(case, sheet), Some(resets), "{:?}", sheet.resets);
        with_resets += u32::from(resets > 0);
        many += u32::from(resets > 3);
    }
    assert!(
        with_resets > 60 && many > 20 && helpless > 60,
        "{with_resets} {many} {helpless}"
    );
}

/// Settings laid and set anew are those of the order of use, step by step: a re-set where the
/// worksheet has one and nowhere else, of the drill that it names.
fn tell_the_same(sheet: &Worksheet, priced: &PricedOrder) {
    let order: Vec<&Operation> = priced.steps.iter().map(|step| &step.what).collect();
    assert_eq!(order, sheet.order.iter().collect::<Vec<_>>());
    for (place, step) in priced.steps.iter().enumerate() {
        let anew = sheet.resets_before(place).count();
        assert_eq!(step.changes.resets as usize, anew, "{place}: {step:?}");
        let laid = sheet.loading.iter().enumerate();
        // The one that serves it, as it was laid or as it was set anew last.
        let mut serving = laid.filter(|(at, item)| {
            let resets = sheet.resets_of(*at).map(|reset| &reset.to);
            std::iter::once(*item)
                .chain(resets)
                .any(|one| serves(one, &step.what))
        });
        let copy = serving.next().map(|(_, item)| item.copy as usize);
        assert!(serving.next().is_none() || copy.is_none());
        if copy.is_some() {
            assert_eq!(step.copy, copy, "{place}: {step:?}");
        }
    }
}

fn serves(item: &LoadItem, one: &Operation) -> bool {
    let on_it = match one {
        Operation::Pin { name } => item.pins.contains(name),
        Operation::Drill { site, step } => item.serves.iter().any(|one| one.is_step(site, step)),
        _ => false,
    };
    item.set.is_some() && on_it
}

/// On 400 cases of all kinds: the order of use sets anew the same drills at the same steps as the
/// worksheet does.
#[test]
fn the_order_of_use_tells_the_re_sets_of_the_worksheet_at_the_same_steps() {
    let mut with_resets = 0;
    for (case, sheet) in WORKED.iter() {
        let Ok(run) = run_problem(case, sheet) else {
            continue;
        };
        if short(sheet).1 {
            tell_the_same(sheet, &run.price(&sheet.order).unwrap());
            with_resets += u32::from(!sheet.resets.is_empty());
        }
    }
    assert!(with_resets > 60, "{with_resets}");
}

/// Two pilot drills for three settings in a row. A re-set of the one in the hand saves a mount, and with
/// fewest re-sets first there is one either way.
#[test]
fn the_drill_in_the_hand_is_set_anew_where_that_saves_a_mount() {
    let (case, sheet) = pilots(2, RunWishes::default());
    let [reset] = &sheet.resets[..] else {
        panic!("{:?}", sheet.resets)
    };
    let run = run_problem(&case, &sheet).unwrap();
    let priced = run.price(&sheet.order).unwrap();
    tell_the_same(&sheet, &priced);
    let changes = priced.steps[reset.before].changes;
    assert_eq!((changes.resets, changes.mounts), (1, 0));
}

fn pilots(quantity: u32, wishes: RunWishes) -> (ValidCase, Worksheet) {
    let mut case: Case = demo::valid("two-molars").into_case();
    let drill = DrillId::from("pilot-213");
    let own = case.kit.drills.iter_mut().find(|one| one.id == drill);
    own.unwrap().quantity = quantity;
    case.run = wishes;
    let case = ValidCase::try_from(case).unwrap();
    let sheet = work_out(&case);
    (case, sheet)
}

/// Least time, a re-set costing less than a mount.
fn cheap_resets() -> RunWishes {
    RunWishes {
        objective: Objective::LeastTime,
        weights: Weights {
            mount_ds: 50,
            reset_ds: 40,
            ..Weights::default()
        },
        ..RunWishes::default()
    }
}

/// With fewer drills than settings one that is set anew costs less than an unused one, and least time is
/// wished: the worksheet lays so, and what is shown is what is proved.
#[test]
fn a_re_set_that_costs_less_than_a_mount_is_laid_and_proved() {
    let (case, sheet) = pilots(2, cheap_resets());
    assert_eq!(sheet.resets.len(), 2, "{:?}", sheet.resets);
    let order = run_order(&case, &sheet, &Budget::default(), &mut |_| go_on()).unwrap();
    assert!(order.proved, "{:?} {:?}", order.best.cost, order.bound);
    assert_eq!(order.best.cost.time_ds, order.bound.time_ds);
}

/// A stop is never set anew in surgery while there is a drill for each setting, whatever that would save.
#[test]
fn where_there_is_a_drill_for_each_setting_nothing_is_set_anew() {
    let (case, sheet) = pilots(4, cheap_resets());
    let plain = pilots(4, RunWishes::default()).1;
    assert_eq!((sheet.resets.len(), &sheet.loading), (0, &plain.loading));
    let order = run_order(&case, &sheet, &Budget::default(), &mut |_| go_on()).unwrap();
    assert!(order.proved && order.best.cost.resets == 0);
}

/// On 300 cases of all kinds, half of them with re-sets cheaper than mounts: an order costs what the bare
/// problem says that it costs, and the worksheet lays and sets anew just so.
#[test]
fn an_order_costs_what_the_bare_problem_says_and_is_laid_so() {
    let mut runner = TestRunner::deterministic();
    let mut with_resets = 0;
    for n in 0..300 {
        let case = any_short().new_tree(&mut runner).unwrap().current();
        let mut case = case.into_case();
        if n % 2 == 0 {
            case.run = cheap_resets();
        }
        let case = ValidCase::try_from(case).unwrap();
        let sheet = work_out(&case);
        let Ok(run) = run_problem(&case, &sheet) else {
            continue;
        };
        let mut free = (*run.problem).clone();
        free.rules = Rules::default();
        let free = ValidProblem::try_from(free).unwrap();
        let costed = cost_of_order(&free, &run.chains_of(&sheet.order)).unwrap();
        let priced = run.price(&sheet.order).unwrap();
        assert_eq!(priced.cost, costed.cost, "{n}");
        tell_the_same(&sheet, &priced);
        with_resets += u32::from(!sheet.resets.is_empty());
    }
    assert!(with_resets > 60, "{with_resets}");
}
