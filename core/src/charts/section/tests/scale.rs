//! Places in the picture: every length of it is the case's length times the stated scale.

use super::{draw, stated_scale};
use crate::charts::samples::{Sample, bounds, group, sample, tilted, upper};
use crate::drawing::{Drawing, Item, Point, at};
use serde_json::json;

/// A section with its own scale, in a frame whose y is the height above the platform.
struct Measured {
    drawing: Drawing,
    scale: f64,
    platform: f64,
    coronal: f64,
}

impl Measured {
    fn of(sample: &Sample, step: Option<&str>, room: (f64, f64)) -> Self {
        let drawing = draw(sample, step, room.0, room.1);
        let implant = bounds(&drawing, "sites[a].implant");
        let lower = sample.case.jaw == crate::dentition::Jaw::Lower;
        // The implant's group in the column comes later; the first one is its outline.
        let (platform, coronal) = if lower {
            (implant.top, -1.0)
        } else {
            (implant.bottom, 1.0)
        };
        Self {
            scale: stated_scale(&drawing),
            drawing,
            platform,
            coronal,
        }
    }

    /// Heights above the platform at which a group begins and ends, mm of the case.
    fn reach(&self, id: &str) -> (f64, f64) {
        let rect = bounds(&self.drawing, id);
        let above = |y: f64| (y - self.platform) * self.coronal / self.scale;
        let (a, b) = (above(rect.top), above(rect.bottom));
        (a.min(b), a.max(b))
    }

    fn width(&self, id: &str) -> f64 {
        bounds(&self.drawing, id).width() / self.scale
    }
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9, "{a} is not {b}");
}

const ROOMS: [(f64, f64); 3] = [(60.0, 120.0), (88.0, 130.0), (180.0, 260.0)];

#[test]
fn every_part_stands_at_its_height_in_both_jaws_and_at_every_scale() {
    let mut scales = Vec::new();
    for sample in [sample(|_| {}), sample(upper)] {
        for room in ROOMS {
            let measured = Measured::of(&sample, None, room);
            scales.push(measured.scale);
            let step = &sample.site().steps[3];
            let mm = |figure: &crate::plan::Figure| figure.length().unwrap().mm();
            // By hand: 5.8 + 4.4 + 1.1 = 11.3; 11.3 + 9.2 + 0.3 + 1.351 = 22.151, set 22.1.
            near(mm(&step.seat), 11.3);
            near(mm(&step.set), 22.1);
            let (low, rim) = measured.reach("sites[a].master_sleeve");
            near(low, 5.8);
            near(rim, 5.8 + 4.4);
            let (end, seat) = measured.reach("sites[a].steps[s4].sleeve");
            near(seat, 11.3);
            near(end, 11.3 - 5.9);
            let (landing, upper_face) = measured.reach("sites[a].steps[s4].stop");
            near(landing, 11.3);
            near(upper_face, 11.3 + 3.6);
            let (tip, _) = measured.reach("sites[a].steps[s4].drill");
            near(landing - tip, 22.1);
            near(tip, -10.8);
            let (apex, platform) = measured.reach("sites[a].implant");
            near(platform - apex, 9.2);
            near(measured.width("sites[a].steps[s4].stop"), 6.4);
            near(measured.width("sites[a].master_sleeve"), 6.6);
            near(measured.width("sites[a].steps[s4].sleeve"), 7.4);
            near(measured.width("sites[a].implant"), 4.9);
            near(measured.width("sites[a].steps[s4].drill"), 4.5);
        }
    }
    assert!(scales[0] < scales[1] && scales[1] < scales[2], "{scales:?}");
}

/// Every circle and line within a group.
fn shapes(drawing: &Drawing, id: &str) -> Vec<Item> {
    let mut inner = Drawing::new();
    for item in &group(drawing, id).unwrap().items {
        inner.push(item.clone());
    }
    let mut shapes = Vec::new();
    inner.visit(&mut |item, _| shapes.push(item.clone()));
    shapes
}

#[test]
fn a_canal_touches_the_height_that_was_measured() {
    let id = "sites[a].structures[mandibular_canal]";
    let measured = Measured::of(&sample(|_| {}), None, ROOMS[1]);
    let circle = shapes(&measured.drawing, id)
        .into_iter()
        .find_map(|item| match item {
            Item::Circle { centre, radius, .. } => Some((centre, radius)),
            _ => None,
        });
    let (centre, radius) = circle.unwrap();
    near(
        (centre.y - radius - measured.platform) / measured.scale,
        12.7,
    );
}

/// The first straight line of a group.
fn line(drawing: &Drawing, id: &str) -> (Point, Point) {
    shapes(drawing, id)
        .into_iter()
        .find_map(|item| match item {
            Item::Line { points, .. } => Some((points[0], points[1])),
            _ => None,
        })
        .unwrap()
}

#[test]
fn a_level_floor_over_a_leaning_axis_lies_at_its_vertical_height() {
    let id = "sites[a].structures[sinus_floor]";
    let sample = sample(|j| {
        upper(j);
        tilted(j, -30.0, 0.0);
    });
    let measured = Measured::of(&sample, None, ROOMS[1]);
    let (from, to) = line(&measured.drawing, id);
    // The platform's middle, and the vertical of a site whose apex leans 30° to the right.
    let implant = bounds(&measured.drawing, "sites[a].implant");
    let platform = at(implant.centre().x, measured.platform);
    let vertical = at(-0.5, -(3.0_f64.sqrt() / 2.0));
    for end in [from, to] {
        let way = (end - platform) * (1.0 / measured.scale);
        let height = way.x * vertical.x + way.y * vertical.y;
        assert!((height - 12.7).abs() < 1e-9, "{height}");
    }
    // The lowest corner of the drill is as far from it as the worksheet says: 3.34.
    let margin = sample
        .sheet
        .findings
        .iter()
        .find(|f| f.place.key() == id)
        .unwrap();
    let margin = margin.length_value().unwrap().mm();
    let step = &sample.site().steps[3];
    let (sin, cos) = (0.5, 3.0_f64.sqrt() / 2.0);
    let cut = step.cut.length().unwrap().mm();
    let tip = 12.7 - cut * cos;
    let shoulder = 12.7 - (cut - step.point.mm()) * cos - 4.5 / 2.0 * sin;
    let corner = 12.7 - 9.2 * cos - 3.1 / 2.0 * sin;
    assert!((tip.min(shoulder).min(corner) - margin).abs() < 0.001);
}

#[test]
fn a_counterbore_sets_the_seat_below_the_rim() {
    let sample = sample(|j| {
        j["kit"]["drill_sleeves"][3]["seat_above_rim_mm"] = json!(-0.6);
    });
    let measured = Measured::of(&sample, Some("s4"), ROOMS[1]);
    let (landing, _) = measured.reach("sites[a].steps[s4].stop");
    let (_, rim) = measured.reach("sites[a].master_sleeve");
    near(rim - landing, 0.6);
}

#[test]
fn without_the_guide_the_stop_lands_on_the_crest() {
    let sample = sample(|j| j["sites"][0]["guided_extent"] = json!("pilot_only"));
    let measured = Measured::of(&sample, Some("s4"), ROOMS[1]);
    let (landing, _) = measured.reach("sites[a].steps[s4].stop");
    near(landing, 0.5);
    assert!(group(&measured.drawing, "sites[a].master_sleeve").is_none());
    assert!(group(&measured.drawing, "sites[a].steps[s4].sleeve").is_none());
}

/// A seat that was measured 0.4 lower than planned: the drill ends as much deeper, and so do the
/// words on it.
#[test]
fn a_cut_is_drawn_as_the_guide_at_hand_leads_it() {
    let tip = |receipt: &[serde_json::Value]| {
        let sample = sample(|j| {
            j["guide"]["state"] = json!("made");
            j["guide"]["receipt"] = json!(receipt);
        });
        let measured = Measured::of(&sample, Some("s4"), ROOMS[1]);
        let (tip, _) = measured.reach("sites[a].steps[s4].drill");
        let cut = sample.site().steps[3].cut.length().unwrap().mm();
        near(tip, -cut);
        let words = crate::charts::samples::written(&measured.drawing);
        assert!(words.contains(&format!("{cut:.1}")), "{cut} in {words}");
        tip
    };
    let lower = json!({"site": "a", "of": "platform_to_sleeve", "measured_mm": 5.4});
    near(tip(&[]) - tip(&[lower]), 0.4);
}

/// Between its walls the master sleeve is as wide as its bore: by the kit 5.4, as measured 5.6.
#[test]
fn a_measured_bore_is_the_one_that_is_drawn() {
    let bore = |receipt: &[serde_json::Value]| {
        let sample = sample(|j| j["guide"]["receipt"] = json!(receipt));
        let measured = Measured::of(&sample, Some("s4"), ROOMS[1]);
        let walls = bounds(&measured.drawing, "sites[a].master_sleeve");
        let middle = walls.left.midpoint(walls.right);
        let mut inner = f64::INFINITY;
        for item in shapes(&measured.drawing, "sites[a].master_sleeve") {
            let Item::Polygon { rings, .. } = item else {
                continue;
            };
            for point in rings.iter().flatten() {
                inner = inner.min((point.x - middle).abs());
            }
        }
        2.0 * inner / measured.scale
    };
    near(bore(&[]), 5.4);
    let wider = json!({"site": "a", "of": "master_sleeve_bore", "measured_mm": 5.6});
    near(bore(&[wider]), 5.6);
}

#[test]
fn a_crest_measured_before_the_site_was_moved_is_not_drawn() {
    let sample = sample(|j| {
        let mut then = j["sites"][0]["placement"].clone();
        then["along_mm"] = json!(1.5);
        j["sites"][0]["heights"]["measured_at"] = then;
    });
    let drawing = draw(&sample, None, ROOMS[1].0, ROOMS[1].1);
    let words = crate::charts::samples::written(&drawing);
    assert!(
        words
            .replace('\n', " ")
            .contains("crest measured before the site was moved")
    );
}

/// A hole that was cut before the plan was changed is drawn as deep as it is, and named; also where nobody knows of another.
#[test]
fn what_was_cut_before_is_drawn() {
    for tip in [6, 14] {
        for unknown in [false, true] {
            let sample = sample(|j| {
                let site = &j["sites"][0];
                let from = json!({"placement": site["placement"],
                    "to_sleeve_mm": site["platform_to_sleeve"]["entered_mm"]});
                let one = |name: &str| {
                    json!({"name": name, "step": "x", "kind": "twist", "point_mm": 1,
                    "tip_to_datum_mm": 0, "diameter_mm": 2, "from": from, "purpose": "patient"})
                };
                let (mut known, nobody_knows) = (one("first drill"), one("other drill"));
                known["tip_mm"] = json!(tip);
                let mut all = vec![known];
                all.extend(unknown.then_some(nobody_knows));
                j["sites"][0]["cut_before"] = json!(all);
                j["demonstration"] = json!(false);
            });
            assert_eq!(sample.site().deepest_cut.length().is_none(), unknown);
            let measured = Measured::of(&sample, Some("s4"), ROOMS[1]);
            let (bottom, _) = measured.reach("sites[a].cut_before");
            near(bottom, -f64::from(tip));
            let words = crate::charts::samples::written(&measured.drawing).replace('\n', " ");
            assert!(words.contains("first drill"), "{words}");
            assert!(!words.contains("other drill"), "{words}");
        }
    }
}
