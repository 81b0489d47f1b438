//! Strips: true to scale, nothing for what is not known.

use super::*;
use crate::charts::samples::{Sample, bounds, group, sample, written};
use crate::drawing::{Ink, Item};
use crate::plan::{Fits, Worksheet};
use crate::sheet::{Page, Paper, check, pdf};
use serde_json::json;

/// The strip of a sample as if all of it fitted: how it is drawn does not depend on that.
fn strip(sample: &Sample, width: f64) -> TrueScale {
    let mut sheet = sample.sheet.clone();
    let sets = sheet
        .loading
        .iter_mut()
        .filter_map(|item| item.set.as_mut());
    sets.for_each(|on| on.fits = Fits::AsFarAsKnown);
    strip_of(sample, &sheet, width)
}

fn strip_of(sample: &Sample, sheet: &Worksheet, width: f64) -> TrueScale {
    let name = |id: &SiteId| format!("46 ({id})");
    true_scale(&sample.case, sheet, &name, width, Texts::english())
}

/// What does not fit is not to be used: it has neither picture nor figure.
#[test]
fn a_drill_that_does_not_fit_has_no_figure() {
    let sample = sample(|_| {});
    let mut sheet = sample.sheet.clone();
    let sets = sheet
        .loading
        .iter_mut()
        .filter_map(|item| item.set.as_mut());
    sets.for_each(|on| on.fits = Fits::No);
    let strip = strip_of(&sample, &sheet, 186.0);
    assert_eq!(strip.rows.len(), 5);
    for row in &strip.rows {
        let (_, landing) = tip_and_landing(row, group_id(row).as_str());
        assert!(landing.is_infinite());
        let said = written(row).replace('\n', " ");
        assert!(said.contains("does not fit, not to be used"), "{said}");
        assert!(!said.contains("mm"), "{said}");
    }
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
    let about = pdf::PdfMetadata {
        title: "strips".to_owned(),
        made: jiff::Timestamp::from_second(1_700_000_000).unwrap(),
    };
    let bytes = pdf::write(&pages, &about).unwrap();
    if let Ok(folder) = std::env::var("TRAYWRIGHT_LOOK") {
        std::fs::write(format!("{folder}/strips.pdf"), bytes).unwrap();
    }
}

/// The x of a row's tip and of its stop's landing face.
fn tip_and_landing(row: &Drawing, item: &str) -> (f64, f64) {
    let mut tip = f64::INFINITY;
    let mut landing = f64::INFINITY;
    let group = group(row, item).unwrap();
    for item in &group.items {
        if let (Item::Polygon { paint, .. }, Some(bounds)) = (item, item.bounds()) {
            match paint.fill {
                Some(Ink::Metal) => tip = tip.min(bounds.left),
                Some(Ink::Strong) => landing = landing.min(bounds.left),
                _ => {}
            }
        }
    }
    (tip, landing)
}

#[test]
fn each_stop_lands_at_its_setting_and_all_tips_stand_on_one_line() {
    for sample in &gallery()[..2] {
        for width in [186.0, 120.0] {
            let strip = strip(sample, width);
            let zero = bounds(&strip.head, "control-ruler").left;
            assert_eq!(strip.rows.len(), 5);
            for (row, step) in strip.rows.iter().zip(&sample.site().steps) {
                let (tip, landing) = tip_and_landing(row, &format!("loading[{} 1]", step.drill));
                let set = step.set.length().unwrap();
                // Within a micrometre.
                assert!((landing - tip - set.mm()).abs() < 0.001, "{}", step.drill);
                let figure = format!("{:.1}", set.mm());
                assert!(written(row).lines().any(|line| line == figure), "{figure}");
                // The ruler's zero, less the half width of a figure under it.
                let half = TextStyle::CAPTION.width("0") / 2.0;
                assert!((tip - zero - half).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn the_control_ruler_is_as_long_as_it_says() {
    let strip = strip(&gallery()[0], 186.0);
    let mut marks: Vec<f64> = Vec::new();
    for item in &group(&strip.head, "control-ruler").unwrap().items {
        if let Item::Line { points, .. } = item
            && (points[0].x - points[1].x).abs() < 1e-9
        {
            marks.push(points[0].x);
        }
    }
    let length = marks.iter().copied().fold(f64::NEG_INFINITY, f64::max)
        - marks.iter().copied().fold(f64::INFINITY, f64::min);
    assert!((length - 50.0).abs() < 1e-9);
    assert!(written(&strip.head).contains("Measure this ruler first"));
}

#[test]
fn a_drill_longer_than_its_room_is_broken_and_keeps_its_setting() {
    let sample = &gallery()[1];
    let strip = strip(sample, 120.0);
    let long = &strip.rows[1];
    let (tip, landing) = tip_and_landing(long, "loading[T31 1]");
    assert!((landing - tip - 21.7).abs() < 0.001);
    let bounds = long.bounds().unwrap();
    assert!(bounds.right <= 120.0 + 1e-9 && bounds.right - tip < 99.0);
}

#[test]
fn a_drill_whose_stop_does_not_fit_has_no_picture() {
    let sample = sample(|j| {
        for n in 0..5 {
            j["kit"]["drills"][n]["overall_length_mm"] = json!(80);
            j["kit"]["drills"][n]["free_length_mm"] = json!(75);
        }
        j["kit"]["gauges"][0]["to_mm"] = json!(80);
        j["sites"][0]["platform_to_sleeve"]["entered_mm"] = json!(45);
    });
    let strip = strip(&sample, 120.0);
    for row in &strip.rows {
        let (_, landing) = tip_and_landing(row, group_id(row).as_str());
        assert!(landing.is_infinite());
        assert!(
            written(row)
                .replace('\n', " ")
                .contains("longer than this strip")
        );
    }
}

/// The id of a row's one group.
fn group_id(row: &Drawing) -> String {
    match &row.items()[0] {
        Item::Group(group) => group.id.clone(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_drill_without_a_setting_is_listed_in_words_alone() {
    let strip = strip(&gallery()[2], 186.0);
    for (row, name) in
        strip.rows[1..]
            .iter()
            .zip(["twist 3.1", "twist 3.7", "twist 4.5", "profile"])
    {
        let words = written(row);
        assert!(
            words.contains(name) && words.contains("no setting"),
            "{words}"
        );
        let beside: String = words.replace(name, "").replace("46 (a)", "");
        assert!(
            !beside.chars().any(|letter| letter.is_ascii_digit()),
            "{words}"
        );
        let (tip, landing) = tip_and_landing(row, &group_id(row));
        assert!(tip.is_infinite() && landing.is_infinite());
    }
    // The one with a mark is drawn, with a line where its depth is read.
    assert!(written(&strip.rows[0]).contains("tip to mark C, edge nearer the shank"));
}
