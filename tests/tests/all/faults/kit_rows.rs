//! Kits whose values are each right and do not agree with each other.

use super::edit::{set, text};
use super::{Of, PREMOLAR, Row, row};

const ADD_OR_NAME: &str = "Add it, or name an existing one";

#[rustfmt::skip] // One row a line, so that the table reads as one.
pub(super) fn rows() -> Vec<Row> {
    vec![
        row("sleeve for no master sleeve", Of::Kit, [set("drill_sleeves/0/fits/0", "\"grand\"")], &["drill_sleeves[0] \"narrow-213\" › fits[0]: there is no master sleeve with the id grand", ADD_OR_NAME]),
        row("groove for no drill", Of::Kit, [set("stops/10/depth/lengths/1/drill", "\"borer\"")], &["stops[10] \"groove-213\" › depth › lengths[1] › drill: there is no drill with the id borer", ADD_OR_NAME]),
        row("pin without its drill", Of::Kit, [set("pins/0/drill", "\"borer\"")], &["pins[0] \"pin-162\" › drill: there is no drill with the id borer", ADD_OR_NAME]),
        row("protocol for no implant", Of::Kit, [set("protocols/0/implants/2", "\"oak\"")], &["protocols[0] \"reed-363-firm\" › implants[2]: there is no implant with the id oak", ADD_OR_NAME]),
        row("protocol with no such drill", Of::Kit, [set("protocols/0/steps/1/drill", "\"tip-227\"")], &["protocols[0] \"reed-363-firm\" › steps[1] › drill: there is no drill with the id tip-227", "Write tip-257 if that is meant"]),
        // One digit off is offered; another drill of the ladder, two digits off, is not.
        row("a drill one digit off", Of::Kit, [set("protocols/0/steps/2/drill", "\"tip-317\"")], &["protocols[0] \"reed-363-firm\" › steps[2] › drill: there is no drill with the id tip-317", "Write tip-316 if that is meant"]),
        row("a drill of no ladder", Of::Kit, [set("protocols/0/steps/2/drill", "\"tip-330\"")], &["protocols[0] \"reed-363-firm\" › steps[2] › drill: there is no drill with the id tip-330", ADD_OR_NAME]),
        row("protocol with no such sleeve", Of::Kit, [set("protocols/0/steps/1/sleeve", "\"tube\"")], &["protocols[0] \"reed-363-firm\" › steps[1] › sleeve: there is no drill sleeve with the id tube", ADD_OR_NAME]),
        row("two drills of one id", Of::Kit, [set("drills/1/id", "\"pilot-213\"")], &["drills[1] \"pilot-213\" › id: the id pilot-213 is given twice, first at drills[0]", "Give one of them another id"]),
        row("two stops of one id", Of::Kit, [set("stops/1/id", "\"stop-213\"")], &["stops[1] \"stop-213\" › id: the id stop-213 is given twice, first at stops[0]", "Give one of them another id"]),
        row("two slots of one name", Of::Kit, [set("trays/0/slots/1/name", "\"Crane 1\"")], &["trays[0] \"tray-plain\" › slots[1] › name", "Crane 1 is given twice, first at trays[0]", "Correct one of them, or remove it"]),
        row("two marks of one name", Of::Kit, [set("drills/0/marks/1/name", "\"I\"")], &["drills[0] \"pilot-213\" › marks[1] › name: I is given twice", "is given twice, first at drills[0]", "Correct one of them, or remove it"]),
        row("implant thicker than its widest", Of::Kit, [set("implants/0/largest_diameter_mm", "3.5")], &["implants[0] \"reed-363-74\" › largest_diameter_mm: 3.5 mm must be at least the 3.63 mm of ", "Correct whichever of the two is wrong"]),
        row("sleeve bored through its wall", Of::Kit, [set("drill_sleeves/0/bore_mm", "4.3")], &["drill_sleeves[0] \"narrow-213\" › bore_mm: 4.3 mm must be at most the 4.26 mm of ", "Correct whichever of the two is wrong"]),
        row("flange longer than its sleeve", Of::Kit, [set("drill_sleeves/0/flange_height_mm", "4.5")], &["drill_sleeves[0] \"narrow-213\" › flange_height_mm: 4.5 mm must be at most the 4.4 mm of ", "Correct whichever of the two is wrong"]),
        row("seat above the sleeve's end", Of::Kit, [set("drill_sleeves/0/seat_above_rim_mm", "5")], &["drill_sleeves[0] \"narrow-213\" › seat_above_rim_mm: 5 mm must be at most the 4.4 mm of ", "Correct whichever of the two is wrong"]),
        row("master sleeve without wall", Of::Kit, [set("master_sleeves/0/bore_mm", "6.9")], &["master_sleeves[0] \"narrow\" › bore_mm: 6.9 mm must be at most the ", "of outer_diameter_mm", "Correct whichever of the two is wrong"]),
        row("stop that lands within its bore", Of::Kit, [set("stops/0/landing_diameter_mm", "2.1")], &["stops[0] \"stop-213\" › landing_diameter_mm: 2.1 mm must be at least the 2.16 mm of ", "Correct whichever of the two is wrong"]),
        row("gauge that runs backwards", Of::Kit, [set("gauges/0/to_mm", "8")], &["gauges[0] \"bench-gauge\" › to_mm: 8 mm must be at least the 9 mm of ", "Correct whichever of the two is wrong"]),
        row("drill freer than long", Of::Kit, [set("drills/0/free_length_mm", "50")], &["drills[0] \"pilot-213\" › free_length_mm: 50 mm must be at most the 43.6 mm of ", "Correct whichever of the two is wrong"]),
        row("flute longer than the drill", Of::Kit, [set("drills/0/flute_to_mm", "44")], &["drills[0] \"pilot-213\" › flute_to_mm: 44 mm must be at most the 43.6 mm of ", "Correct whichever of the two is wrong"]),
        row("clamp that runs backwards", Of::Kit, [set("drills/0/clamp/to_mm", "17")], &["drills[0] \"pilot-213\" › clamp › to_mm: 17 mm must be at least the 17.6 mm of ", "Correct whichever of the two is wrong"]),
        row("mark upside down", Of::Kit, [set("drills/0/marks/1/upper_edge_mm", "12")], &["drills[0] \"pilot-213\" › marks[1] › upper_edge_mm: 12 mm must be at least the 13.5 mm of ", "Correct whichever of the two is wrong"]),
        row("datum behind the shank", Of::Kit, [set("drills/9/datum/from_tip_mm", "59")], &["drills[9] \"profile-429\" › datum › from_tip_mm: 59 mm must be at most the ", " mm of overall_length_mm. Correct whichever of the two is wrong"]),
        row("clearance that runs backwards", Of::Kit, [set("allowances/guided_clearance/most_mm", "0.01")], &["allowances › guided_clearance › most_mm: 0.01 mm must be at least the 0.03 mm of ", "Correct whichever of the two is wrong"]),
        row("a density told of twice", Of::Kit, [set("allowances/final_diameter/1/density", "\"d1\"")], &["allowances › final_diameter[1] › density", "is given twice, first at allowances", "Correct one of them, or remove it"]),
        row("slot beside the tray", Of::Kit, [set("trays/0/slots/0/width_mm", "240")], &["trays[0] \"tray-plain\" › slots[0] › width_mm: 251 mm must be at most the 247 mm of the tray with left_mm counted in", "Correct whichever of the two is wrong"]),
        row("slot over its neighbour", Of::Kit, [set("trays/0/slots/1/left_mm", "26.999")], &["trays[0] \"tray-plain\" › slots[1] › left_mm: the slot Crane 2 overlaps the slot Crane 1", "Correct the position or size of one of them"]),
        row("slot over the row behind", Of::Kit, [set("trays/0/slots/9/far_mm", "50")], &["slots[9] › far_mm: the slot Dove 1 overlaps the slot Crane 1", "Correct the position or size of one of them"]),
        row("landing face below the master sleeve", Of::Kit, [set("drill_sleeves/0/seat_above_rim_mm", "-3.86")], &["drill_sleeves[0] \"narrow-213\" › seat_above_rim_mm: -3.86 mm must be at least the -3.85 mm of the apical face of a master sleeve that it fits", "Correct whichever of the two is wrong"]),
        row("recess deeper than its sleeve", Of::Kit, [set("master_sleeves/1/recess/depth_mm", "4.66")], &["master_sleeves[1] \"wide\" › recess › depth_mm: 4.66 mm must be at most the 4.65 mm of height_mm", "Correct whichever of the two is wrong"]),
        row("recess narrower than the bore", Of::Kit, [set("master_sleeves/1/recess/diameter_mm", "5.36")], &["recess › diameter_mm: 5.36 mm must be at least the 5.37 mm of bore_mm", "Correct whichever of the two is wrong"]),
        row("recess through the wall", Of::Kit, [set("master_sleeves/1/recess/diameter_mm", "7.93")], &["recess › diameter_mm: 7.93 mm must be at most the 7.92 mm of outer_diameter_mm", "Correct whichever of the two is wrong"]),
        row("guided part behind the shank", Of::Kit, [set("drills/9/guided_from_mm", "59")], &["drills[9] \"profile-429\" › guided_from_mm: 59 mm must be at most the ", " mm of overall_length_mm", "Correct whichever of the two is wrong"]),
        row("mark behind the shank", Of::Kit, [set("drills/0/marks/6/lower_edge_mm", "43.7")], &["drills[0] \"pilot-213\" › marks[6] › lower_edge_mm: 43.7 mm must be at most the 43.6 mm of overall_length_mm", "Correct whichever of the two is wrong"]),
        row("groove behind the shank", Of::Kit, [set("stops/10/depth/lengths/3/tip_to_landing_mm", "43.7")], &["stops[10] \"groove-213\" › depth › lengths[3] › tip_to_landing_mm: 43.7 mm must be at most the 43.6 mm of overall_length_mm of its drill", "Correct whichever of the two is wrong"]),
        row("pin thicker than its sleeve", Of::Kit, [set("pins/0/diameter_mm", "1.67")], &["pins[0] \"pin-162\" › diameter_mm: 1.67 mm must be at most the 1.66 mm of its sleeve's bore_mm", "Correct whichever of the two is wrong"]),
        row("pin drill thicker than the sleeve", Of::Kit, [set("pins/0/sleeve/bore_mm", "1.56")], &["pins[0] \"pin-162\" › sleeve › bore_mm: 1.56 mm must be at least the 1.57 mm of its drill's diameter", "Correct whichever of the two is wrong"]),
        row("pin that ends in its sleeve", Of::Kit, [set("pins/0/length_mm", "5.1")], &["pins[0] \"pin-162\" › length_mm: 5.1 mm must be at least the 5.2 mm of its sleeve's height_mm", "Correct whichever of the two is wrong"]),
        row("pin with no such stop", Of::Kit, [text("\"drill\": \"pin-157\",", "\"drill\": \"pin-157\", \"stop\": \"halt\",")], &["pins[0] \"pin-162\" › stop: there is no stop with the id halt", ADD_OR_NAME]),
        row("protocol short of all its depth", Of::Kit, [set("protocols/1/steps/2/depth/by_mm", "20")], &["protocols[1] \"reed-363-soft\" › steps[2] › depth › by_mm: 20 mm must be at most the ", " mm of the full depth of its shortest implant", "Correct whichever of the two is wrong"]),
        row("two lines of one name", Of::Kit, [set("carriers/0/lines/1/name", "\"low\"")], &["carriers[0] \"reed-narrow\" › lines[1] › name: low is given twice", "Correct one of them, or remove it"]),
        row("copy of the kit that disagrees", PREMOLAR, [set("kit/stops/0/body_diameter_mm", "2")], &["kit › stops[0] \"stop-213\" › body_diameter_mm: 2 mm must be at least the 2.16 mm of ", "Correct whichever of the two is wrong"]),
    ]
}
