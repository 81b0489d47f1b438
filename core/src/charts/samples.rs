//! Invented cases for the tests of the charts.

use crate::case::ValidCase;
use crate::drawing::{Drawing, Group, Item, Rect};
use crate::plan::{SiteSheet, Worksheet, work_out};
use crate::samples::{measure_missing, over_canal, valid_json};
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

/// The sample over a canal, changed by `change`.
pub(super) fn sample(change: impl FnOnce(&mut Value)) -> Sample {
    let mut json = over_canal();
    change(&mut json);
    // What was measured was measured at the site as it is, unless the sample says otherwise.
    measure_missing(&mut json);
    crate::samples::receive(&mut json);
    let case = valid_json(json);
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
