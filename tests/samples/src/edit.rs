//! Changes of a case in JSON.

use serde_json::{Value, json};

/// Lets all that was measured at every site be measured at the sites as they are, to so many
/// millimetres below the platform.
///
/// # Panics
///
/// Where the case is no case.
pub fn measure_anew(case: &mut Value, down_to_mm: Option<f64>) {
    measure(case, down_to_mm, &|_| true);
}

/// The same for what does not say when it was measured.
///
/// # Panics
///
/// Where the case is no case.
pub fn measure_missing(case: &mut Value) {
    measure(case, None, &Value::is_null);
}

fn measure(case: &mut Value, down_to_mm: Option<f64>, due: &dyn Fn(&Value) -> bool) {
    let now: Vec<(Value, Value)> = list(&case["sites"])
        .map(|site| (site["id"].clone(), measured_now(case, site, down_to_mm)))
        .collect();
    let sites = case["sites"].as_array_mut().expect("a case has sites");
    for (site, (_, here)) in sites.iter_mut().zip(&now) {
        if due(&site["heights"]["measured_at"]) {
            site["heights"]["measured_at"] = site["placement"].clone();
        }
        for kind in ["walls", "distances", "structures", "obstacles"] {
            let listed = site.get_mut(kind).and_then(Value::as_array_mut);
            for one in listed.into_iter().flatten() {
                if due(&one["measured_at"]) {
                    one["measured_at"] = here.clone();
                }
                if one["to"]["neighbour"] == "site" && due(&one["other_measured_at"]) {
                    let other = now.iter().find(|(id, _)| *id == one["to"]["site"]);
                    one["other_measured_at"] = other.map_or(Value::Null, |(_, at)| at.clone());
                }
            }
        }
    }
}

/// The site as a value measured now carries it.
fn measured_now(case: &Value, site: &Value, down_to_mm: Option<f64>) -> Value {
    let implant = list(&case["kit"]["implants"]).find(|implant| implant["id"] == site["implant"]);
    let implant = implant.expect("the site's implant is in the kit");
    let mut now = json!({
        "placement": site["placement"],
        "platform_to_apex_mm": implant["platform_to_apex_mm"],
    });
    if let Some(crest) = site["heights"].get("platform_below_crest") {
        now["platform_below_crest"] = crest.clone();
    }
    if let Some(down) = down_to_mm {
        now["down_to_mm"] = json!(down);
    }
    now
}

fn list(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().into_iter().flatten()
}

/// Makes one edit: `set POINTER JSON` or `remove POINTER`.
///
/// # Panics
///
/// Where the edit is none, or what it names is not there.
pub fn apply(case: &mut Value, edit: &str) {
    let mut words = edit.splitn(3, ' ');
    let (verb, at, value) = (words.next(), words.next(), words.next());
    let (above, key) = at.and_then(|at| at.rsplit_once('/')).expect(edit);
    let above = case.pointer_mut(above).expect(edit);
    match (verb, value, above) {
        (Some("set"), Some(value), Value::Array(list)) => {
            list[key.parse::<usize>().expect(edit)] = serde_json::from_str(value).expect(edit);
        }
        (Some("set"), Some(value), object) => {
            object[key] = serde_json::from_str(value).expect(edit);
        }
        (Some("remove"), None, Value::Object(object)) => {
            object.remove(key).expect(edit);
        }
        _ => panic!("{edit}"),
    }
}
