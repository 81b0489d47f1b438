//! Strips: true to scale, nothing for what is not known.

use super::*;
use crate::charts::samples::{Sample, sample};
use crate::sheet::{Page, Paper, check, pdf};
use serde_json::json;

fn strip(sample: &Sample, width: f64) -> TrueScale {
    let name = |id: &SiteId| format!("46 ({id})");
    true_scale(&sample.case, &sample.sheet, &name, width, Texts::english())
}

/// A page with a strip on it.
fn page(strip: &TrueScale) -> Page {
    let mut page = Page::new(Paper::A4);
    let mut down = 14.0;
    for piece in std::iter::once(&strip.head).chain(&strip.rows) {
        page.over.add_at(at(12.0, down), piece.clone());
        down += piece.bounds().unwrap().bottom;
    }
    page
}

fn gallery() -> Vec<Sample> {
    vec![
        sample(|_| {}),
        sample(|j| {
            j["kit"]["gauges"][0]["reads"] = json!("upper");
            j["kit"]["drills"][1]["overall_length_mm"] = json!(99);
            j["kit"]["drills"][1]["free_length_mm"] = json!(97);
            j["kit"]["drills"][0]["name"] = json!("pilot with a long name 2.3");
        }),
        sample(|j| {
            j["sites"][0]["guided_extent"] = json!("pilot_only");
            j["sites"][0]["heights"] = json!({});
            j["sites"][0]["steps"][0]
                .as_object_mut()
                .unwrap()
                .remove("stop");
            j["kit"]["drills"][0]["marks"] = json!([
                {"name": "C", "lower_edge_mm": 20.3, "upper_edge_mm": 21.3},
                {"name": "D", "lower_edge_mm": 24.3},
            ]);
        }),
    ]
}

#[test]
fn no_text_of_a_strip_lies_on_another_or_leaves_it() {
    let mut pages = Vec::new();
    for sample in gallery() {
        for width in [186.0, 120.0] {
            let strip = strip(&sample, width);
            for piece in std::iter::once(&strip.head).chain(&strip.rows) {
                let bounds = piece.bounds().unwrap();
                assert!(
                    bounds.left > -1e-9 && bounds.right < width + 1e-9,
                    "{bounds:?}"
                );
            }
            pages.push(page(&strip));
        }
    }
    assert_eq!(check(&pages, 10.0), []);
    let about = pdf::About {
        title: "strips".to_owned(),
        made: jiff::Timestamp::from_second(1_700_000_000).unwrap(),
    };
    let bytes = pdf::write(&pages, &about).unwrap();
    if let Ok(folder) = std::env::var("TRAYWRIGHT_LOOK") {
        std::fs::write(format!("{folder}/strips.pdf"), bytes).unwrap();
    }
}
