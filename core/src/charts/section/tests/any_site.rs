//! Whatever a site is like, no text of its section overlaps another or leaves the room.

use crate::charts::samples::{sample, tilted, upper};
use crate::dentition::Jaw;
use crate::drawing::{Drawing, at};
use crate::sheet::{Page, Paper, check};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Properties of a site; lengths in tenths of a millimetre.
#[derive(Debug, Clone)]
#[expect(clippy::struct_excessive_bools, reason = "each is a case of its own")]
struct Like {
    jaw: Jaw,
    distance: Option<i32>,
    master: i32,
    seat: i32,
    length: i32,
    diameter: i32,
    crest: Option<(i32, i32)>,
    tissue: Option<i32>,
    flap: bool,
    structure: Option<i32>,
    beside: Option<(i32, Option<i32>)>,
    tilt: (i32, i32),
    vertical: bool,
    pilot_only: bool,
    stop_height: i32,
    gauge_to: i32,
    step: usize,
    long_names: bool,
}

prop_compose! {
    fn any_site()(
        jaw in prop::sample::select(vec![Jaw::Upper, Jaw::Lower]),
        distance in prop::option::weighted(0.9, 20..120_i32),
        master in 20..70_i32,
        seat in -10..30_i32,
        length in 55..160_i32,
        diameter in 27..60_i32,
        crest in prop::option::weighted(0.85, (-10..40_i32, 0..30_i32)),
        tissue in prop::option::of(5..45_i32),
        flap in any::<bool>(),
        structure in prop::option::weighted(0.8, 40..260_i32),
        beside in prop::option::of((20..150_i32, prop::option::of(0..40_i32))),
    )(
        tilt in (-40..40_i32, -20..20_i32),
        vertical in any::<bool>(),
        pilot_only in any::<bool>(),
        stop_height in 15..70_i32,
        gauge_to in 150..500_i32,
        step in 0..5_usize,
        long_names in any::<bool>(),
        site in Just((jaw, distance, master, seat, length, diameter, crest, tissue, flap, structure, beside)),
    ) -> Like {
        let (jaw, distance, master, seat, length, diameter, crest, tissue, flap, structure, beside) = site;
        Like {
            jaw, distance, master, seat, length, diameter, crest, tissue, flap, structure, beside,
            tilt, vertical, pilot_only, stop_height, gauge_to, step, long_names,
        }
    }
}

fn mm(tenths: i32) -> Value {
    json!(f64::from(tenths) / 10.0)
}

fn change(json: &mut Value, like: &Like) {
    if like.jaw == Jaw::Upper {
        upper(json);
    }
    let kit = &mut json["kit"];
    kit["master_sleeves"][0]["height_mm"] = mm(like.master);
    kit["gauges"][0]["to_mm"] = mm(like.gauge_to);
    kit["stops"][0]["body_height_mm"] = mm(like.stop_height);
    for n in 0..4 {
        kit["drill_sleeves"][n]["seat_above_rim_mm"] = mm(like.seat);
    }
    let implant = &mut kit["implants"][0];
    implant["platform_to_apex_mm"] = mm(like.length);
    implant["diameter_mm"] = mm(like.diameter);
    implant["largest_diameter_mm"] = mm(like.diameter + 2);
    implant["profile"] = json!([]);
    if like.long_names {
        implant["name"] = json!("Årrelångt implantat, självgängande 4.7 × 9.2");
        kit["drills"][like.step]["name"] =
            json!("a drill with an uncommonly long name, second edition");
        kit["drill_sleeves"][3]["name"] = json!("sleeve for drills of the last step");
    }
    json["guide"]["access"] = json!(if like.flap { "flap" } else { "punch" });
    let site = &mut json["sites"][0];
    match like.distance {
        Some(distance) => site["platform_to_sleeve"]["entered_mm"] = mm(distance),
        None => drop(site.as_object_mut().unwrap().remove("platform_to_sleeve")),
    }
    let mut heights = json!({});
    if let Some((highest, fall)) = like.crest {
        heights["platform_below_crest"] =
            json!({"highest_mm": mm(highest), "lowest_mm": mm(highest - fall)});
    }
    if let Some(tissue) = like.tissue {
        heights["tissue_thickness_mm"] = mm(tissue);
    }
    site["heights"] = heights;
    if like.pilot_only {
        site["guided_extent"] = json!("pilot_only");
    }
    match like.structure {
        Some(height) => site["structures"][0]["extent"]["height_mm"] = mm(height),
        None => site["structures"] = json!([]),
    }
    if let (Some((from_axis, loop_mm)), Jaw::Lower) = (like.beside, like.jaw) {
        let mut extent = json!({"measured": "beside", "from_axis_mm": mm(from_axis)});
        if let Some(loop_mm) = loop_mm {
            extent["anterior_loop_mm"] = mm(loop_mm);
        }
        let foramen = json!({"kind": "mental_foramen", "extent": extent});
        site["structures"].as_array_mut().unwrap().push(foramen);
    }
    // A third of the sites stands upright.
    if like.tilt.0 % 3 != 0 {
        let vertical = like.vertical && like.structure.is_some();
        site["placement"]["apex_to_distal_deg"] = json!(like.tilt.0);
        site["placement"]["apex_to_buccal_deg"] = json!(like.tilt.1);
        if vertical {
            tilted(json, f64::from(like.tilt.0), f64::from(like.tilt.1));
        }
    }
}

/// The faults of a drawing in its room.
fn faults(drawing: &Drawing, width: f64, height: f64) -> Vec<String> {
    let mut page = Page::new(Paper::A4);
    page.over.add_at(at(10.0, 10.0), drawing.clone());
    let mut faults: Vec<String> = check(&[page], 9.99)
        .iter()
        .map(ToString::to_string)
        .collect();
    let bounds = drawing.bounds().unwrap();
    if bounds.left < -1e-6
        || bounds.top < -1e-6
        || bounds.right > width + 1e-6
        || bounds.bottom > height + 1e-6
    {
        faults.push(format!("{bounds:?} leaves {width} × {height}"));
    }
    faults
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn no_text_lies_on_another_or_leaves_the_room(
        like in any_site(),
        width in 60.0..190.0_f64,
        height in 120.0..270.0_f64,
    ) {
        let sample = sample(|json| change(json, &like));
        let steps = ["s1", "s2", "s3", "s4", "s5"];
        for step in [None, Some(steps[like.step])] {
            match super::try_draw(&sample, step, width, height) {
                Ok(drawing) => {
                    let faults = faults(&drawing, width, height);
                    prop_assert!(faults.is_empty(), "{faults:#?}");
                }
                // Only a low room may be refused.
                Err(refused) => prop_assert!(height < 180.0, "{refused:?}"),
            }
        }
    }
}
