//! Accepted findings are shown on the first page of the plan as what they are.

use super::samples::changed;
use super::*;
use serde_json::{Value, json};

/// The first page of the plan of a case without its deep structures, what is then open accepted as asked.
fn first_page(name: &str, accept: fn(&str) -> Option<&'static str>) -> String {
    let without = |case: &mut Value| {
        for site in case["sites"].as_array_mut().unwrap() {
            site.as_object_mut().unwrap().remove("structures");
        }
    };
    let bare = work_out(&changed(name, without));
    let words: Vec<Value> = bare
        .findings
        .iter()
        .filter(|finding| finding.severity().is_open())
        .filter_map(|finding| {
            let reason = accept(&finding.key())?;
            Some(json!({
                "finding": finding.key(),
                "judged": "accepted",
                "shown": finding.digest(),
                "reason": reason,
                "by": "RT"
            }))
        })
        .collect();
    let case = changed(name, |case| {
        without(case);
        case["judgements"] = Value::Array(words);
    });
    let all = pages(&case, Paper::A4);
    let plan = all
        .iter()
        .find(|page| page.title.starts_with("Implant checklist"));
    lines(plan.unwrap()).join(" ")
}

/// Nor does a file whose reason says nothing: it still opens, and nothing in it is accepted.
#[test]
fn an_accepted_unknown_is_counted_and_named() {
    let page = first_page("one-premolar", |_| Some("seen on the radiograph"));
    assert!(!page.contains("Nothing assessed is open"), "{page}");
    assert!(
        page.contains("Accepted although unknown:") && !page.contains("short: 0"),
        "{page}"
    );
    assert!(page.contains("accepted, unknown"), "{page}");
    let nothing = first_page("one-premolar", |_| Some("x"));
    assert!(!nothing.contains("ccepted although"), "{nothing}");
    let none = first_page("one-premolar", |_| None);
    assert!(!none.contains("ccepted although"), "{none}");
}
