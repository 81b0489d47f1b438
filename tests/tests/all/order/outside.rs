//! Answers of OR-Tools CP-SAT (`oracles-data/run_order.py`): equal where it proved its answer, else
//! between its bound and its best.

use super::{solved, valid};
use serde_json::Value;
use traywright_core::order::{Problem, read_problem};

#[test]
fn the_least_cost_is_that_of_another_solver() {
    let text = include_str!("../../../oracles-data/run_order.json");
    let data: Value = serde_json::from_str(text).unwrap();
    let rows = data["rows"].as_array().unwrap();
    let mut proved = 0;
    for (n, row) in rows.iter().enumerate() {
        let problem = read_problem(row["problem"].to_string().as_bytes()).unwrap();
        let problem: Problem = (*problem).clone();
        let outcome = solved(&problem);
        assert!(outcome.proved, "row {n}");
        // The script counts a re-set that comes first as so much more.
        let ahead = row["answer"]["ahead"].as_u64().unwrap();
        let own = u64::from(outcome.cost.resets) * ahead + outcome.cost.time_ds;
        assert_eq!(
            i64::try_from(own).unwrap(),
            valid(&problem).value(outcome.cost),
            "row {n}"
        );
        let value = row["answer"]["value"].as_u64().unwrap();
        let bound = row["answer"]["bound"].as_u64().unwrap();
        if row["answer"]["status"] == "OPTIMAL" {
            assert_eq!(own, value, "row {n}");
            proved += 1;
        } else {
            assert!(
                bound <= own && own <= value,
                "row {n}: {bound} {own} {value}"
            );
        }
    }
    assert!(proved >= 5, "{proved} of {}", rows.len());
}
