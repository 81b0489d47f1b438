//! Unknowns are left out of the picture and written in words, without a figure.

use super::draw;
use crate::charts::samples::{Sample, group, sample, tilted, upper, written};
use crate::drawing::{Drawing, Ink, Item};
use crate::kit::StepId;
use crate::plan::Fits;
use serde_json::{Value, json};

fn drawn(change: impl FnOnce(&mut Value)) -> (Sample, Drawing) {
    drawn_where(change, Fits::AsFarAsKnown)
}

/// The same with each drill of the sample that fits, or none: how it is drawn does not depend on which.
fn drawn_where(change: impl FnOnce(&mut Value), fits: Fits) -> (Sample, Drawing) {
    let mut sample = sample(change);
    let sites = sample.sheet.sites.iter_mut();
    sites
        .flat_map(|site| &mut site.steps)
        .for_each(|step| step.fits = fits);
    let drawing = draw(&sample, Some("s4"), 88.0, 130.0);
    (sample, drawing)
}

/// What does not fit is not to be used: its setting is written nowhere.
#[test]
fn a_drill_that_does_not_fit_has_no_setting() {
    let (_, drawing) = drawn_where(|_| {}, Fits::No);
    let words = said(&drawing, "sites[a].steps[s4].set_mm").replace('\n', " ");
    assert!(words.contains("does not fit, not to be used"), "{words}");
    assert!(!has_figure(&words), "{words}");
}

fn without(json: &mut Value, field: &str) {
    json["sites"][0].as_object_mut().unwrap().remove(field);
}

/// Everything written in the groups of an id, and their names.
pub(super) fn said(drawing: &Drawing, id: &str) -> String {
    fn look<'a>(items: &'a [Item], id: &str, inside: u32, words: &mut Vec<&'a str>) {
        for item in items {
            match item {
                Item::Group(group) => {
                    let inside = inside + u32::from(group.id == id);
                    if group.id == id {
                        words.push(&group.name);
                    }
                    look(&group.items, id, inside, words);
                }
                Item::Clip { items, .. } => look(items, id, inside, words),
                Item::Text(text) if inside > 0 => words.push(&text.content),
                _ => {}
            }
        }
    }
    let mut words = Vec::new();
    look(drawing.items(), id, 0, &mut words);
    words.join("\n").replace('\u{A0}', " ")
}

fn has_figure(words: &str) -> bool {
    words.chars().any(|letter| letter.is_ascii_digit())
}

fn fills(drawing: &Drawing, ink: Ink) -> bool {
    let mut found = false;
    drawing.visit(&mut |item, _| {
        if let Item::Polygon { paint, .. } = item {
            found |= paint.fill == Some(ink);
        }
    });
    found
}

/// No drill, no stop, no figure where the setting would be.
fn shows_no_setting(drawing: &Drawing, why: &str) {
    for part in ["drill", "stop"] {
        assert!(group(drawing, &format!("sites[a].steps[s4].{part}")).is_none());
    }
    let setting = said(drawing, "sites[a].steps[s4].set_mm");
    assert!(!has_figure(&setting), "{setting}");
    let flat = setting.replace('\n', " ");
    assert!(flat.contains(why), "{flat}");
    assert!(flat.contains("depth not known: no drill drawn"), "{flat}");
}

#[test]
fn a_known_site_shows_all_of_it() {
    // The counterpart: each of these parts is there when nothing is unknown.
    let (_, drawing) = drawn(|_| {});
    assert!(fills(&drawing, Ink::Bone) && fills(&drawing, Ink::Guide));
    assert!(group(&drawing, "sites[a].steps[s4].drill").is_some());
    assert!(group(&drawing, "sites[a].steps[s4].stop").is_some());
    assert!(said(&drawing, "sites[a].steps[s4].set_mm").contains("22.1"));
    let canal = said(&drawing, "sites[a].structures[mandibular_canal]");
    assert!(canal.contains("short: 1.9, limit 2.0"), "{canal}");
}

#[test]
fn without_a_crest_there_is_no_bone() {
    let (_, drawing) = drawn(|j| {
        j["sites"][0]["heights"]
            .as_object_mut()
            .unwrap()
            .remove("platform_below_crest");
    });
    assert!(!fills(&drawing, Ink::Bone) && !fills(&drawing, Ink::Tissue));
    let words = said(&drawing, "sites[a].heights.platform_below_crest");
    assert!(words.contains("crest not entered: no bone drawn"));
    assert!(!has_figure(&words));
}

#[test]
fn without_a_distance_there_is_neither_sleeve_nor_drill() {
    let (_, drawing) = drawn(|j| without(j, "platform_to_sleeve"));
    assert!(!fills(&drawing, Ink::Guide) && !fills(&drawing, Ink::Metal));
    shows_no_setting(&drawing, "sleeve offset not entered");
    let words = written(&drawing).replace('\n', " ");
    assert!(words.contains("no sleeve drawn"), "{words}");
    // Nor does the canal's margin, which rests on the cut, have a figure.
    let canal = said(&drawing, "sites[a].structures[mandibular_canal]");
    assert!(canal.contains("unknown") && !has_figure(&canal), "{canal}");
}

#[test]
fn outside_the_gauge_there_is_no_drill_and_no_figure() {
    let (_, drawing) = drawn(|j| j["kit"]["gauges"][0]["to_mm"] = json!(20));
    shows_no_setting(&drawing, "outside the gauge");
    assert!(fills(&drawing, Ink::Guide), "the sleeve's place is known");
}

#[test]
fn freehand_without_a_crest_has_no_setting() {
    let (_, drawing) = drawn(|j| {
        j["sites"][0]["guided_extent"] = json!("pilot_only");
        j["sites"][0]["heights"] = json!({});
    });
    shows_no_setting(&drawing, "crest not entered");
}

#[test]
fn a_structure_that_was_not_entered_is_asked_for() {
    let (_, drawing) = drawn(|j| j["sites"][0]["structures"] = json!([]));
    let canal = said(&drawing, "sites[a].structures[mandibular_canal]");
    assert!(
        canal.contains("unknown: not entered") && !has_figure(&canal),
        "{canal}"
    );
    assert!(!fills_circle(&drawing));
}

fn fills_circle(drawing: &Drawing) -> bool {
    let mut found = false;
    drawing.visit(&mut |item, _| {
        if let Item::Circle { paint, .. } = item {
            found |= paint.fill == Some(Ink::Danger);
        }
    });
    found
}

/// The canal as it was measured with the site elsewhere along the arch.
fn measured_elsewhere(along: f64) -> (Drawing, String) {
    let (_, drawing) = drawn(|j| {
        let site = &mut j["sites"][0];
        let mut then = site["placement"].clone();
        then["along_mm"] = json!(along);
        site["heights"]["measured_at"] = then.clone();
        site["structures"][0]["extent"]["height_mm"] = json!(16);
        site["structures"][0]["measured_at"] = json!({
            "placement": then, "platform_to_apex_mm": 9.2,
            "platform_below_crest": {"highest_mm": 0.5, "lowest_mm": 0.5},
        });
    });
    let canal = said(&drawing, "sites[a].structures[mandibular_canal]");
    (drawing, canal.replace('\n', " "))
}

#[test]
fn a_structure_measured_before_the_site_was_moved_is_not_drawn() {
    let (drawing, canal) = measured_elsewhere(1.5);
    assert!(!fills_circle(&drawing));
    assert!(canal.contains("measured before"), "{canal}");
    assert!(!has_figure(&canal), "{canal}");
}

#[test]
fn nor_is_one_of_which_only_the_least_is_known() {
    let (drawing, canal) = measured_elsewhere(0.1);
    assert!(!fills_circle(&drawing));
    assert!(canal.contains("at least"), "{canal}");
}

#[test]
fn a_height_along_a_leaning_axis_never_shows_a_margin() {
    let (_, drawing) = drawn(|j| {
        upper(j);
        tilted(j, -30.0, 0.0);
        let extent = &mut j["sites"][0]["structures"][0]["extent"];
        extent["direction"] = json!("along_axis");
        extent["height_mm"] = json!(14);
    });
    let floor = said(&drawing, "sites[a].structures[sinus_floor]").replace('\n', " ");
    assert!(floor.contains("unknown: height along the axis"), "{floor}");
    assert!(!has_figure(&floor), "{floor}");
    assert!(!written(&drawing).contains("margin"));
}

#[test]
fn a_loop_that_was_not_measured_is_unknown() {
    let (_, drawing) = drawn(|j| {
        j["sites"][0]["structures"] = json!([
            {"kind": "mental_foramen", "extent": {"measured": "beside", "from_axis_mm": 6.3}},
        ]);
    });
    let words = said(&drawing, "sites[a].structures[mental_foramen]").replace('\n', " ");
    assert!(words.contains("anterior loop not measured"), "{words}");
    assert!(!has_figure(&words), "{words}");
}

#[test]
fn a_gauge_of_unknown_face_gives_no_gauge_figure() {
    let (_, drawing) = drawn(|j| {
        j["kit"]["gauges"][0]
            .as_object_mut()
            .unwrap()
            .remove("reads");
    });
    let words = said(&drawing, "sites[a].steps[s4].set_mm").replace('\n', " ");
    assert!(words.contains("no gauge figure"), "{words}");
}

#[test]
fn a_step_that_is_not_there_is_refused() {
    let sample = sample(|_| {});
    let step = StepId::from("s9");
    let section = super::super::Section {
        case: &sample.case,
        worksheet: &sample.sheet,
        site: sample.site(),
        step: Some(&step),
        site_name: super::NAME,
        texts: crate::text::Texts::english(),
    };
    let room = |width, height| super::super::Room { width, height };
    assert_eq!(
        section
            .draw(room(88.0, 130.0))
            .unwrap_err()
            .words(section.texts),
        "site a: no step s9"
    );
    let section = super::super::Section {
        step: None,
        ..section
    };
    assert_eq!(
        section
            .draw(room(30.0, 40.0))
            .unwrap_err()
            .words(section.texts),
        "site a: section needs more room than 30 × 40 mm"
    );
}
