//! Cases whose values are each right and do not agree: references that lead nowhere, ids given
//! twice, the other jaw.

use super::edit::{set, text};
use super::{ARCH, MOLARS, PREMOLAR, Row, row};

const ADD_OR_NAME: &str = "Add it, or name an existing one";
const OTHER_JAW: &str = "Name a tooth of this case's jaw, or check the jaw of the case; the other jaw needs a case of its own";

#[rustfmt::skip] // One row a line, so that the table reads as one.
pub(super) fn rows() -> Vec<Row> {
    vec![
        // References of every kind that lead nowhere.
        row("no such implant", PREMOLAR, [set("sites/0/implant", "\"oak-1\"")], &["sites[0] \"p35\" › implant: there is no implant with the id oak-1", ADD_OR_NAME]),
        row("misspelt implant", PREMOLAR, [set("sites/0/implant", "\"reed-363-19\"")], &["there is no implant with the id reed-363-19", "Write reed-363-", "if that is meant"]),
        row("no such master sleeve", PREMOLAR, [set("sites/0/master_sleeve", "\"grand\"")], &["sites[0] \"p35\" › master_sleeve: there is no master sleeve with the id grand", ADD_OR_NAME]),
        row("no such protocol", PREMOLAR, [set("sites/0/protocol", "\"mine\"")], &["sites[0] \"p35\" › protocol: there is no protocol with the id mine", ADD_OR_NAME]),
        row("no such carrier", PREMOLAR, [set("sites/0/insertion/carrier", "\"porter\"")], &["sites[0] \"p35\" › insertion › carrier: there is no carrier with the id porter", ADD_OR_NAME]),
        row("no such insertion sleeve", PREMOLAR, [set("sites/0/insertion", "{\"carrier\": \"reed-narrow\", \"sleeve\": \"tube\"}")], &["insertion › sleeve: there is no drill sleeve with the id tube", ADD_OR_NAME]),
        row("no such drill", PREMOLAR, [set("sites/0/steps/1/drill", "\"borer\"")], &["sites[0] \"p35\" › steps[1] \"s2\" › drill: there is no drill with the id borer", ADD_OR_NAME]),
        row("misspelt drill", PREMOLAR, [set("sites/0/steps/1/drill", "\"tip-227\"")], &["steps[1] \"s2\" › drill: there is no drill with the id tip-227", "Write tip-257 if that is meant"]),
        row("no such drill sleeve", PREMOLAR, [set("sites/0/steps/0/sleeve", "\"tube\"")], &["steps[0] \"s1\" › sleeve: there is no drill sleeve with the id tube", ADD_OR_NAME]),
        row("no such stop", PREMOLAR, [set("sites/0/steps/2/stop", "\"halt\"")], &["steps[2] \"s3\" › stop: there is no stop with the id halt", ADD_OR_NAME]),
        row("no such gauge", PREMOLAR, [set("setup/gauge", "\"ruler\"")], &["setup › gauge: there is no gauge with the id ruler", ADD_OR_NAME]),
        row("no such head", PREMOLAR, [set("setup/head", "\"big\"")], &["setup › head: there is no handpiece head with the id big", ADD_OR_NAME]),
        row("no such tray", PREMOLAR, [set("setup/tray", "\"shelf\"")], &["setup › tray: there is no tray with the id shelf", ADD_OR_NAME]),
        row("no such pin", ARCH, [set("guide/pins/1/pin", "\"nail\"")], &["guide › pins[1] › pin: there is no pin with the id nail", ADD_OR_NAME]),
        row("receipt of no site", PREMOLAR, [set("guide/receipt/0/site", "\"q99\"")], &["guide › receipt[0] › site: there is no site with the id q99", ADD_OR_NAME]),
        row("distance to no site", MOLARS, [set("sites/0/distances/1/to/site", "\"n99\"")], &["sites[0] \"m46\" › distances[1] › to › site: there is no site with the id n99", ADD_OR_NAME]),
        row("distance to itself", MOLARS, [set("sites/0/distances/1/to/site", "\"m46\"")], &["sites[0] \"m46\" › distances[1] › to › site: m46 refers to itself", "Name another one"]),
        row("distance to a tooth that is not told of", PREMOLAR, [text("      \"position\": \"36\",\n      \"state\": \"present\",\n      \"kind\": \"natural\"\n    },\n    {\n", "")], &["sites[0] \"p35\" › distances[1] › to › position: there is no tooth with the id 36", ADD_OR_NAME]),
        row("rule before for no site", MOLARS, [text("  \"setup\": {", "  \"run\": {\"before\": [{\"first\": \"m46\", \"then\": \"n99\"}]},\n  \"setup\": {")], &["run › before[0] › then: there is no site with the id n99", ADD_OR_NAME]),
        row("a site before itself", MOLARS, [text("  \"setup\": {", "  \"run\": {\"before\": [{\"first\": \"m46\", \"then\": \"m46\"}]},\n  \"setup\": {")], &["run › before[0] › then: m46 refers to itself", "Name another one"]),
        row("no site holds the guide", MOLARS, [text("  \"setup\": {", "  \"run\": {\"hold_guide\": [\"n99\"]},\n  \"setup\": {")], &["run › hold_guide[0]: there is no site with the id n99", ADD_OR_NAME]),
        // Places on the tray that a person chose.
        row("a place in no slot of the tray", MOLARS, [text("  \"setup\": {", "  \"tray_places\": [{\"slot\": \"Wren 3\", \"holds\": {\"of\": \"step\", \"site\": \"m46\", \"step\": \"s1\"}}],\n  \"setup\": {")], &["tray_places[0] › slot: there is no slot with the id Wren 3", ADD_OR_NAME]),
        row("a place in a slot of another kind", MOLARS, [text("  \"setup\": {", "  \"tray_places\": [{\"slot\": \"Finch 2\", \"holds\": {\"of\": \"step\", \"site\": \"m46\", \"step\": \"s1\"}}],\n  \"setup\": {")], &["tray_places[0] › slot: the slot Finch 2 takes the kind sleeve, not the kind drill", "Name a slot of that kind"]),
        row("two things in one slot", MOLARS, [text("  \"setup\": {", "  \"tray_places\": [{\"slot\": \"Dove 3\", \"holds\": {\"of\": \"step\", \"site\": \"m46\", \"step\": \"s1\"}}, {\"slot\": \"Dove 3\", \"holds\": {\"of\": \"step\", \"site\": \"m46\", \"step\": \"s2\"}}],\n  \"setup\": {")], &["tray_places[1] › slot: Dove 3 is given twice, first at tray_places[0]", "Correct one of them, or remove it"]),
        row("one thing in two slots", MOLARS, [text("  \"setup\": {", "  \"tray_places\": [{\"slot\": \"Dove 3\", \"holds\": {\"of\": \"step\", \"site\": \"m46\", \"step\": \"s1\"}}, {\"slot\": \"Dove 4\", \"holds\": {\"of\": \"step\", \"site\": \"m46\", \"step\": \"s1\"}}],\n  \"setup\": {")], &["tray_places[1] › holds: what is assigned to the slot Dove 4 is also assigned to Dove 3", "Remove one of the two"]),
        row("a place for a thing of no sort", MOLARS, [text("  \"setup\": {", "  \"tray_places\": [{\"slot\": \"Dove 3\", \"holds\": {\"of\": \"spoon\"}}],\n  \"setup\": {")], &["tray_places[0] › holds › of", "spoon"]),
        row("a place for the copy before the first", MOLARS, [text("  \"setup\": {", "  \"tray_places\": [{\"slot\": \"Finch 2\", \"holds\": {\"of\": \"entry\", \"kind\": \"sleeve\", \"entry\": \"narrow-213\", \"copy\": 0}}],\n  \"setup\": {")], &["tray_places[0] › holds › copy", "0"]),
        row("kit copy without its drill", PREMOLAR, [set("kit/protocols/0/steps/1/drill", "\"borer\"")], &["kit › protocols[0] \"reed-363-firm\" › steps[1] › drill: there is no drill with the id borer", ADD_OR_NAME]),
        // Ids given twice.
        row("two sites of one id", MOLARS, [set("sites/1/id", "\"m46\"")], &["sites[1] \"m46\" › id: the id m46 is given twice, first at sites[0]", "Give one of them another id, and check what names it"]),
        row("two steps of one id", PREMOLAR, [set("sites/0/steps/2/id", "\"s1\"")], &["sites[0] \"p35\" › steps[2] \"s1\" › id: the id s1 is given twice, first at sites[0] › steps[0]", "Give one of them another id"]),
        row("a tooth told of twice", PREMOLAR, [set("teeth/1/position", "\"31\"")], &["teeth[1] › position: 31 is given twice, first at teeth[0]", "Correct one of them, or remove it"]),
        row("a wall measured twice", PREMOLAR, [set("sites/0/walls/1/at", "\"crest\"")], &["sites[0] \"p35\" › walls[1] › at", "buccal crest is given twice, first at sites[0] › walls[0]", "Correct one of them, or remove it"]),
        row("a structure told of twice", PREMOLAR, [set("sites/0/structures/1/kind", "\"mental_foramen\"")], &["sites[0] \"p35\" › structures[1] › kind: mental_foramen is given twice, first at sites[0] › structures[0]", "or remove it"]),
        row("a site that a guide was made for twice", PREMOLAR, [text("\n      \"sites\": [\n        {\n          \"site\": \"p35\",", "\n      \"sites\": [\n        {\"site\": \"p35\", \"tooth\": \"35\", \"placement\": {\"by\": \"on_arch\", \"at\": \"35\", \"along_mm\": 0, \"buccal_mm\": 0, \"apex_to_distal_deg\": 0, \"apex_to_buccal_deg\": 0}, \"implant\": \"reed-363-91\", \"platform_to_apex_mm\": 10.4, \"apical_allowance_mm\": 0.4, \"guided_extent\": \"drilling_and_implant\"},\n        {\n          \"site\": \"p35\",")], &["guide › made_by › sites[1] › site: p35 is given twice, first at guide › made_by › sites[0]", "Correct one of them, or remove it"]),
        row("made by nobody knows what, and by this", PREMOLAR, [text("    \"state\": \"made\",", "    \"state\": \"planned\",\n    \"is_made_unrecorded\": true,")], &["guide › is_made_unrecorded: guide.made_by says otherwise", "Remove one of them"]),
        row("made, and set back", ARCH, [text("    \"state\": \"planned\",", "    \"state\": \"made\",\n    \"is_made_unrecorded\": true,")], &["guide › is_made_unrecorded: guide.state says otherwise", "Remove one of them"]),
        row("two pins of one name", ARCH, [set("guide/pins/2/name", "\"front\"")], &["guide › pins[2] › name: front is given twice, first at guide › pins[0]", "Correct one of them, or remove it"]),
        row("a finding judged twice", ARCH, [set("judgements/1/finding", "\"deep-structure sites[u25].structures[sinus_floor]\"")], &["judgements[1] › finding", "twice, first at judgements[0]", "Correct one of them, or remove it"]),
        row("two drills of one id in the copy", PREMOLAR, [set("kit/drills/2/id", "\"tip-257\"")], &["kit › drills[2] \"tip-257\" › id: the id tip-257 is given twice, first at kit › drills[1]", "Give one of them another id"]),
        // Jaws and teeth.
        row("site in the other jaw", PREMOLAR, [set("sites/0/tooth", "\"25\"")], &["sites[0] \"p35\" › tooth: tooth 25 is in the other jaw", OTHER_JAW]),
        row("placed in the other jaw", PREMOLAR, [set("sites/0/placement/at", "\"25\"")], &["sites[0] \"p35\" › placement › at: tooth 25 is in the other jaw", OTHER_JAW]),
        row("measured in the other jaw", PREMOLAR, [set("sites/0/walls/0/measured_at/placement/at", "\"25\"")], &["sites[0] \"p35\" › walls[0] › measured_at › placement › at: tooth 25 is in the other jaw", OTHER_JAW]),
        row("tooth of the other jaw", PREMOLAR, [set("teeth/0/position", "\"11\"")], &["teeth[0] › position: tooth 11 is in the other jaw", OTHER_JAW]),
        row("neighbour in the other jaw", PREMOLAR, [set("sites/0/distances/0/to/position", "\"24\"")], &["distances[0] › to › position: tooth 24 is in the other jaw", OTHER_JAW]),
        row("pin in the other jaw", ARCH, [set("guide/pins/0/at", "\"41\"")], &["guide › pins[0] › at: tooth 41 is in the other jaw", OTHER_JAW]),
        row("structure of the other jaw", PREMOLAR, [set("sites/0/structures/0/kind", "\"sinus_floor\"")], &["sites[0] \"p35\" › structures[0] › kind: “sinus_floor” is no structure of the lower jaw", "Name one of this case's jaw, remove it, or check the jaw of the case"]),
        row("jaw changed by hand", PREMOLAR, [text("\"jaw\": \"lower\"", "\"jaw\": \"upper\"")], &["sites[0] \"p35\" › tooth: tooth 35 is in the other jaw", "teeth[15] › position: tooth 48 is in the other jaw", OTHER_JAW]),
        row("two sites on one tooth", MOLARS, [set("sites/1/tooth", "\"46\"")], &["sites[1] \"m47\" › tooth: two sites replace tooth 46, the first is m46", "Give one of them another position"]),
        // Geometry.
        row("axis without direction", ARCH, [set("sites/1/placement/direction", "{\"x\": 0, \"y\": 0, \"z\": 0}")], &["sites[1] \"u13\" › placement › direction: the direction is 0 in all three parts", "Enter the vector from platform to apex"]),
        row("axis upside down", ARCH, [set("sites/1/placement/direction", "{\"x\": 0, \"y\": 0, \"z\": -1}")], &["sites[1] \"u13\" › placement › direction: the direction does not point from platform to apex: in the upper jaw its z is above 0", "Reverse it"]),
        row("axis level", ARCH, [set("sites/1/placement/direction", "{\"x\": 1, \"y\": 0, \"z\": 0}")], &["sites[1] \"u13\" › placement › direction: the direction does not point from platform to apex: in the upper jaw its z is above 0", "Reverse it"]),
        row("sleeve that reaches below the platform", PREMOLAR, [set("sites/0/platform_to_sleeve", "{\"entered_mm\": 3.84, \"to\": \"coronal\"}")], &["sites[0] \"p35\" › platform_to_sleeve › entered_mm: 3.84 mm must be at least the 3.85 mm of the master sleeve's height_mm", "Correct whichever of the two is wrong"]),
        row("short of full by more than full", MOLARS, [set("sites/0/steps/0/depth/by_mm", "12")], &["sites[0] \"m46\" › steps[0] \"s1\" › depth › by_mm: 12 mm must be at most the ", " mm of the full depth", "Correct whichever of the two is wrong"]),
        row("implant that stands above the crest", PREMOLAR, [set("sites/0/heights/platform_below_crest", "{\"highest_mm\": -15, \"lowest_mm\": -16}")], &["sites[0] \"p35\" › heights › platform_below_crest › highest_mm: -15 mm must be at least the -", " mm of the implant's apex", "Correct whichever of the two is wrong"]),
        row("highest crest below the lowest", PREMOLAR, [set("sites/0/heights/platform_below_crest/highest_mm", "0.1")], &["sites[0] \"p35\" › heights › platform_below_crest › highest_mm: 0.1 mm must be at least the 0.2 mm of lowest_mm", "Correct whichever of the two is wrong"]),
    ]
}
