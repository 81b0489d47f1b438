//! Invented cases for the tests of the charts.

use crate::case::{Case, ValidCase, default_limits};
use crate::drawing::{Drawing, Group, Item, Rect};
use crate::plan::{SiteSheet, Worksheet, work_out};
use serde_json::{Value, json};

/// A case with its worksheet.
pub(super) struct Sample {
    pub(super) case: ValidCase,
    pub(super) sheet: Worksheet,
}

impl Sample {
    /// The one site of the case.
    pub(super) fn site(&self) -> &SiteSheet {
        &self.sheet.sites[0]
    }
}

/// The group of this id, wherever it is in a drawing.
pub(super) fn group<'a>(drawing: &'a Drawing, id: &str) -> Option<&'a Group> {
    fn find<'a>(items: &'a [Item], id: &str) -> Option<&'a Group> {
        items.iter().find_map(|item| match item {
            Item::Group(group) if group.id == id => Some(group),
            Item::Group(group) => find(&group.items, id),
            Item::Clip { items, .. } => find(items, id),
            _ => None,
        })
    }
    find(drawing.items(), id)
}

/// The rectangle around a group.
pub(super) fn bounds(drawing: &Drawing, id: &str) -> Rect {
    let group = group(drawing, id).unwrap_or_else(|| panic!("no group {id}"));
    group
        .items
        .iter()
        .filter_map(Item::bounds)
        .reduce(Rect::union)
        .unwrap()
}

/// All that is written in a drawing, line by line.
pub(super) fn written(drawing: &Drawing) -> String {
    let lines: Vec<&str> = drawing
        .texts()
        .iter()
        .map(|text| text.content.as_str())
        .collect();
    lines.join("\n").replace('\u{A0}', " ")
}

/// One site over a canal with four drills and a profile drill, changed by `change`.
pub(super) fn sample(change: impl FnOnce(&mut Value)) -> Sample {
    let mut json = lower_molar();
    change(&mut json);
    // What was measured was measured at the site as it is, unless the sample says otherwise.
    let crest = json["sites"][0]["heights"]["platform_below_crest"].clone();
    let placement = json["sites"][0]["placement"].clone();
    let length = json["kit"]["implants"][0]["platform_to_apex_mm"].clone();
    let heights = &mut json["sites"][0]["heights"];
    if heights["measured_at"].is_null() {
        heights["measured_at"] = placement.clone();
    }
    if let Some(structures) = json["sites"][0]["structures"].as_array_mut() {
        for structure in structures {
            if structure["measured_at"].is_null() {
                let mut at = json!({"placement": placement, "platform_to_apex_mm": length});
                if !crest.is_null() {
                    at["platform_below_crest"] = crest.clone();
                }
                structure["measured_at"] = at;
            }
        }
    }
    let case: Case = serde_json::from_value(json).unwrap();
    let case = match ValidCase::try_from(case) {
        Ok(case) => case,
        Err(faults) => panic!("{faults:?}"),
    };
    let sheet = work_out(&case);
    Sample { case, sheet }
}

/// The same site in the upper jaw under a sinus floor.
pub(super) fn upper(json: &mut Value) {
    json["jaw"] = json!("upper");
    let site = &mut json["sites"][0];
    site["tooth"] = json!("16");
    site["placement"]["at"] = json!("16");
    site["structures"] = json!([{
        "kind": "sinus_floor",
        "extent": {"measured": "below", "height_mm": 12.7, "from": "platform", "direction": "along_axis"},
    }]);
}

/// Makes the site's axis lean and its structure's height a vertical one.
pub(super) fn tilted(json: &mut Value, distal: f64, buccal: f64) {
    let site = &mut json["sites"][0];
    site["placement"]["apex_to_distal_deg"] = json!(distal);
    site["placement"]["apex_to_buccal_deg"] = json!(buccal);
    site["structures"][0]["extent"]["direction"] = json!("vertical");
}

fn drill(id: &str, diameter: f64, change: &Value) -> Value {
    let mut drill = json!({
        "id": id,
        "name": format!("twist {diameter}"),
        "kind": "twist",
        "cutting_diameter_mm": diameter,
        "guided_diameter_mm": diameter,
        "stop_seat_diameter_mm": 2.6,
        "point": {"given_by": "angle", "point_deg": 118},
        "datum": {"counted_to": "full_diameter"},
        "overall_length_mm": 41.3,
        "free_length_mm": 31.2,
        "flute_to_mm": 17.4,
        "clamp": {"from_mm": 8, "to_mm": 30},
        "quantity": 2,
    });
    for (key, value) in change.as_object().unwrap() {
        drill[key] = value.clone();
    }
    drill
}

fn sleeve(id: &str, name: &str, bore: f64) -> Value {
    json!({
        "id": id, "name": name, "fits": ["M"], "bore_mm": bore,
        "barrel_diameter_mm": 5.3, "length_mm": 5.9, "flange_height_mm": 1.1,
        "flange_diameter_mm": 7.4, "seat_above_rim_mm": 1.1, "quantity": 2,
    })
}

fn step(id: &str, drill: &str, sleeve: &str) -> Value {
    json!({
        "id": id, "drill": drill, "sleeve": sleeve, "stop": "A", "depth": {"rule": "full"},
    })
}

fn lower_molar() -> Value {
    let kit = json!({
        "traywright_kit": 1, "id": "demo", "name": "invented kit", "revision": "1",
        "allowances": {
            "guided_clearance": {"least_mm": 0.02, "most_mm": 0.4},
            "sleeve_clearance": {"least_mm": 0.02, "most_mm": 0.4},
            "stop_clearance": {"least_mm": 0.02, "most_mm": 0.4},
            "least_landing_mm": 0.3, "flute_reserve_mm": 1,
        },
        "implants": [{
            "id": "K9", "name": "K 4.7 × 9.2", "family": "K", "diameter_mm": 4.7,
            "largest_diameter_mm": 4.9, "nominal_length_mm": 9, "platform_to_apex_mm": 9.2,
            "apical_allowance_mm": 0.3, "quantity": 1,
            "profile": [
                {"below_platform_mm": 0, "diameter_mm": 4.9},
                {"below_platform_mm": 1.3, "diameter_mm": 4.7},
                {"below_platform_mm": 7.1, "diameter_mm": 4.3},
                {"below_platform_mm": 9.2, "diameter_mm": 3.1},
            ],
        }],
        "drills": [
            drill("P23", 2.3, &json!({"kind": "pilot", "name": "pilot 2.3"})),
            drill("T31", 3.1, &json!({})),
            drill("T37", 3.7, &json!({})),
            drill("T45", 4.5, &json!({})),
            drill("F45", 4.9, &json!({
                "kind": "profile", "name": "profile", "guided_diameter_mm": 4.5,
                "point": {"given_by": "length", "point_mm": 0.4}, "datum": {"counted_to": "tip"},
                "flute_to_mm": 6.2,
            })),
        ],
        "drill_sleeves": [
            sleeve("N", "N", 2.4), sleeve("R", "R", 3.2), sleeve("T", "T", 3.8), sleeve("V", "V", 4.6),
        ],
        "master_sleeves": [{
            "id": "M", "name": "M", "bore_mm": 5.4, "outer_diameter_mm": 6.6, "height_mm": 4.4,
        }],
        "stops": [{
            "id": "A", "name": "A", "bore_mm": 2.7, "body_diameter_mm": 6.4,
            "landing_diameter_mm": 5.6, "body_height_mm": 3.6, "depth": {"kind": "adjustable"},
            "quantity": 8,
        }],
        "gauges": [{
            "id": "G", "name": "G", "from_mm": 5, "to_mm": 35, "graduation_mm": 0.1,
            "reads": "landing",
        }],
    });
    json!({
        "traywright_case": 1, "rules_version": 1, "reference": "HV-0312", "demonstration": true,
        "jaw": "lower", "revision": 7,
        "guide": {"support": "teeth", "access": "punch", "state": "planned"},
        "setup": {"gauge": "G", "use_order": "site_by_site"},
        "sites": [{
            "id": "a", "tooth": "46",
            "placement": {
                "by": "on_arch", "at": "46", "along_mm": 0, "buccal_mm": 0,
                "apex_to_distal_deg": 0, "apex_to_buccal_deg": 0,
            },
            "state": {"bone": "healed"},
            "implant": "K9", "master_sleeve": "M", "guided_extent": "drilling_and_implant",
            "platform_to_sleeve": {"entered_mm": 5.8, "to": "apical"},
            "density": "d2",
            "heights": {
                "platform_below_crest": {"highest_mm": 0.5, "lowest_mm": 0.5},
                "tissue_thickness_mm": 2.4,
            },
            "structures": [{
                "kind": "mandibular_canal",
                "extent": {
                    "measured": "below", "height_mm": 12.7, "from": "platform",
                    "direction": "along_axis",
                },
            }],
            "setting": "each_step",
            "steps": [
                step("s1", "P23", "N"), step("s2", "T31", "R"), step("s3", "T37", "T"),
                step("s4", "T45", "V"),
                {
                    "id": "s5", "drill": "F45", "sleeve": "V", "stop": "A",
                    "depth": {"rule": "below_platform", "depth_mm": 2.4},
                },
            ],
        }],
        "limits": serde_json::to_value(default_limits()).unwrap(),
        "kit": kit,
    })
}
