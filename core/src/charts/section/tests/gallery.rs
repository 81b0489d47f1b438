//! Samples of every kind, to be looked at, and checked for texts on each other.

use super::draw;
use crate::charts::samples::{Sample, sample, tilted, upper};
use crate::drawing::{Drawing, at};
use crate::sheet::{Page, Paper, check, pdf};
use serde_json::{Value, json};

/// The cases that were looked at.
fn gallery() -> Vec<(&'static str, Sample, Option<&'static str>)> {
    fn one(
        name: &'static str,
        step: Option<&'static str>,
        change: impl FnOnce(&mut Value),
    ) -> (&'static str, Sample, Option<&'static str>) {
        (name, sample(change), step)
    }
    vec![
        one("normal", None, |_| {}),
        one("profile", Some("s5"), |_| {}),
        one("pilot", Some("s1"), |_| {}),
        one("tilted", None, |j| tilted(j, -32.0, 0.0)),
        one("tilted-both", None, |j| tilted(j, 12.0, -3.5)),
        one("no-sleeve", None, |j| {
            j["sites"][0]["steps"][3]
                .as_object_mut()
                .unwrap()
                .remove("sleeve");
        }),
        one("counterbore", None, |j| {
            for n in 0..4 {
                j["kit"]["drill_sleeves"][n]["seat_above_rim_mm"] = json!(-0.6);
                j["kit"]["drill_sleeves"][n]["flange_diameter_mm"] = json!(6.2);
            }
        }),
        one("freehand", None, |j| {
            j["sites"][0]["guided_extent"] = json!("pilot_only");
        }),
        one("upper", None, upper),
        one("upper-tilted", None, |j| {
            upper(j);
            tilted(j, -30.0, 0.0);
        }),
        one("crest-unknown", None, |j| {
            j["sites"][0]["heights"]
                .as_object_mut()
                .unwrap()
                .remove("platform_below_crest");
        }),
        one("canal-unknown", None, |j| {
            j["sites"][0]["structures"] = json!([]);
        }),
        one("distance-unknown", None, |j| {
            j["sites"][0]
                .as_object_mut()
                .unwrap()
                .remove("platform_to_sleeve");
        }),
        one("outside-gauge", None, |j| {
            j["kit"]["gauges"][0]["to_mm"] = json!(20);
        }),
        one("upper-face", None, |j| {
            j["kit"]["gauges"][0]["reads"] = json!("upper");
        }),
        one("short-sloping-crest", None, |j| {
            j["sites"][0]["heights"]["platform_below_crest"] =
                json!({"highest_mm": 1.9, "lowest_mm": -0.4});
            j["sites"][0]["structures"][0]["extent"]["height_mm"] = json!(11.9);
            j["guide"]["access"] = json!("flap");
        }),
        one("foramen-beside", None, |j| {
            j["sites"][0]["structures"] = json!([
                {"kind": "mandibular_canal", "extent": {"measured": "below", "height_mm": 15.1, "from": "crest", "direction": "along_axis"}},
                {"kind": "mental_foramen", "extent": {"measured": "beside", "from_axis_mm": 6.3}},
            ]);
        }),
        one("mark", Some("s4"), |j| {
            j["sites"][0]["steps"][3]
                .as_object_mut()
                .unwrap()
                .remove("stop");
            j["kit"]["drills"][3]["marks"] = json!([
                {"name": "C", "lower_edge_mm": 20.3, "upper_edge_mm": 21.3},
            ]);
        }),
        one("no-steps", None, |j| {
            j["sites"][0]["steps"] = json!([]);
        }),
    ]
}

/// All samples as on a site's page, four to a page.
fn overview() -> Vec<Page> {
    let drawings: Vec<Drawing> = gallery()
        .into_iter()
        .map(|(_, sample, step)| draw(&sample, step, 88.0, 130.0))
        .collect();
    let places = [(12.0, 12.0), (110.0, 12.0), (12.0, 152.0), (110.0, 152.0)];
    drawings
        .chunks(places.len())
        .map(|four| {
            let mut page = Page::new(Paper::A4);
            for (drawing, (x, y)) in four.iter().zip(places) {
                page.over.add_at(at(x, y), drawing.clone());
            }
            page
        })
        .collect()
}

/// One page per sample: as on a site's page, narrow, and large.
fn pages() -> Vec<(&'static str, Page)> {
    gallery()
        .into_iter()
        .map(|(name, sample, step)| {
            let mut page = Page::new(Paper::A4);
            page.over
                .add_at(at(12.0, 14.0), draw(&sample, step, 88.0, 130.0));
            page.over
                .add_at(at(118.0, 14.0), draw(&sample, step, 60.0, 110.0));
            page.over
                .add_at(at(20.0, 150.0), draw(&sample, step, 150.0, 135.0));
            (name, page)
        })
        .collect()
}

#[test]
fn no_text_of_any_sample_lies_on_another_or_leaves_its_room() {
    let pages = pages();
    for (name, page) in &pages {
        let faults = check(std::slice::from_ref(page), 5.0);
        assert_eq!(faults, [], "{name}");
    }
    let about = pdf::PdfMetadata {
        title: "sections".to_owned(),
        made: jiff::Timestamp::from_second(1_700_000_000).unwrap(),
    };
    let mut all = overview();
    all.extend(pages.into_iter().map(|(_, page)| page));
    let bytes = pdf::write(&all, &about).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    // To look at them: TRAYWRIGHT_LOOK=folder.
    if let Ok(folder) = std::env::var("TRAYWRIGHT_LOOK") {
        std::fs::write(format!("{folder}/sections.pdf"), bytes).unwrap();
    }
}
