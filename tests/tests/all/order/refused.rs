//! Problems that no order can obey are refused with the names of what is wrong.

use super::random::{Lie, large};
use traywright_core::order::{
    Before, Group, Id, LinkReason, Problem, Refused, StepName, Unsolvable, ValidProblem, Weights,
    read_problem,
};

fn base() -> Problem {
    large(4, 3, 3, Lie::Shared, Weights::default())
}

fn reasons(problem: Problem) -> Vec<Unsolvable> {
    match ValidProblem::try_from(problem) {
        Err(Refused::Unsolvable(reasons)) => reasons,
        other => panic!("{other:?}"),
    }
}

fn step(site: &str, step: usize) -> StepName {
    StepName {
        site: Id::from(site),
        step,
    }
}

fn before(first: &str, then: &str) -> Before {
    Before {
        first: Id::from(first),
        first_step: None,
        then: Id::from(then),
        then_step: None,
    }
}

#[test]
fn a_tool_or_sleeve_that_nobody_has_is_named_each_of_them() {
    let mut problem = base();
    problem.tools[1].copies = 0;
    problem.sleeves[0].pieces = 0;
    let named = reasons(problem);
    assert_eq!(
        named,
        [
            Unsolvable::NoCopy {
                tool: Id::from("t1"),
                at: step("p0", 2)
            },
            Unsolvable::NoPiece {
                sleeve: Id::from("v0"),
                at: step("p0", 2)
            },
        ]
    );
}

#[test]
fn what_nobody_needs_may_be_missing() {
    let mut problem = base();
    let mut spare = problem.tools[0].clone();
    (spare.id, spare.copies) = (Id::from("spare"), 0);
    problem.tools.push(spare);
    assert!(ValidProblem::try_from(problem).is_ok());
}

#[test]
fn rules_in_a_circle_are_named_with_the_steps_between_them() {
    let mut problem = base();
    problem.rules.before = vec![before("p0", "p1"), before("p2", "p0"), before("p1", "p2")];
    let named = reasons(problem);
    let [Unsolvable::Contradiction { circle }] = named.as_slice() else {
        panic!("{named:?}");
    };
    let rules: Vec<usize> = circle
        .iter()
        .filter_map(|link| match link.reason {
            LinkReason::Before(n) => Some(n),
            _ => None,
        })
        .collect();
    assert_eq!(rules.len(), 3, "{circle:?}");
    for (n, link) in circle.iter().enumerate() {
        assert_eq!(link.then, circle[(n + 1) % circle.len()].first);
    }
}

#[test]
fn a_site_that_falls_contradicts_by_diameter_and_is_named() {
    let mut problem = base();
    problem.sites[1].steps.swap(0, 2);
    assert!(ValidProblem::try_from(problem.clone()).is_ok());
    problem.rules.groups.insert(Group::ByDiameter);
    let named = reasons(problem);
    assert_eq!(
        named,
        [
            Unsolvable::Falling { at: step("p1", 2) },
            Unsolvable::Falling { at: step("p1", 3) }
        ]
    );
}

#[test]
fn both_group_rules_at_once_contradict_where_sites_overlap() {
    let mut problem = base();
    problem.rules.groups = [Group::ByDiameter, Group::SiteBySite].into();
    let named = reasons(problem.clone());
    assert!(
        matches!(named.as_slice(), [Unsolvable::Contradiction { .. }]),
        "{named:?}"
    );
    // With one tool at each site they do not.
    for (n, site) in problem.sites.iter_mut().enumerate() {
        site.steps = vec![site.steps[n].clone()];
    }
    assert!(ValidProblem::try_from(problem).is_ok());
}

#[test]
fn faults_of_the_file_are_told_all_at_once_with_their_places() {
    let text = br#"{
  "traywright_order": 1,
  "weights": { "mount_ds": 40000, "rest_ds": 3 },
  "tools": [{ "id": "a", "copies": 1 }, { "id": "a", "copies": 2 }],
  "sites": [
    { "id": "36", "steps": [{ "instrument": { "tool": "b" }, "sleeve": { "place": "s" } }] },
    { "id": "46", "steps": [] }
  ],
  "rules": { "before": [{ "first": "36", "first_step": 2, "then": "36" }] }
}"#;
    let Err(Refused::Faults(faults)) = read_problem(text) else {
        panic!("it was read");
    };
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    let places = [
        "mount_ds",
        "rest_ds",
        "tools[1]",
        "instrument › tool",
        "place",
        "sites[1]",
        "first_step",
        "then",
    ];
    for place in places {
        assert!(
            told.iter().any(|line| line.contains(place)),
            "{place} is not in {told:#?}"
        );
    }
}
