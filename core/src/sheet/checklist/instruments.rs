//! Instruments in cells: a sleeve by name and marking, a drill's speeds.

use super::Source;
use crate::charts;
use crate::drawing::TextStyle;
use crate::kit::{Direction, Drill, DrillSleeveId, Marking};
use crate::plan::{StepPath, StepSheet};
use crate::sheet::Cell;

/// The letter and shape of an instrument as they are engraved, and all its marking in words.
pub(super) fn marked(source: &Source<'_>, marking: &Marking) -> Vec<Cell> {
    let engraved = charts::marking(marking, TextStyle::HEADING);
    let words = source.say.marking(marking);
    let parts = [
        engraved.map(|(drawing, _)| Cell::Picture(drawing)),
        words.map(|words| Cell::Text(words, TextStyle::CAPTION)),
    ];
    parts.into_iter().flatten().collect()
}

/// How a step is led: the drill sleeve with its marking, the master sleeve, or freehand.
pub(super) fn led(source: &Source<'_>, sheet: &StepSheet) -> Cell {
    let say = &source.say;
    match (sheet.path, &sheet.sleeve) {
        (StepPath::DrillSleeve, Some(id)) => sleeve(source, id),
        (StepPath::Freehand, _) => Cell::Text(say.path(sheet.path), TextStyle::STRONG),
        (path, _) => Cell::body(say.path(path)),
    }
}

/// A drill sleeve with its marking.
pub(super) fn sleeve(source: &Source<'_>, id: &DrillSleeveId) -> Cell {
    let mut cells = Vec::new();
    if let Some(sleeve) = source.case.kit.drill_sleeve(id) {
        cells.extend(marked(source, &sleeve.marking));
    }
    cells.push(Cell::Text(source.say.drill_sleeve(id), TextStyle::CAPTION));
    Cell::Stack(cells)
}

/// Speed, torque, direction and irrigation of a drill, each from the kit or said to be missing.
pub(super) fn running(source: &Source<'_>, drill: &Drill) -> String {
    let say = &source.say;
    let or_missing = |value: Option<String>, id: &str| {
        let value = value.unwrap_or_else(|| say.word("sheet-not-in-kit"));
        say.text(id, &[("value", &value)])
    };
    let speed = drill
        .greatest_speed_rpm
        .map(|speed| say.text("sheet-rpm", &[("speed", &speed.to_string())]));
    let torque = drill
        .torque_limit_ncm
        .map(|torque| say.text("sheet-ncm", &[("torque", &torque.to_string())]));
    let direction = drill.direction.map(|direction| {
        say.word(match direction {
            Direction::Forward => "sheet-forward",
            Direction::Reverse => "sheet-reverse",
        })
    });
    let irrigation = drill.irrigation.as_ref().map(ToString::to_string);
    [
        or_missing(speed, "sheet-speed"),
        or_missing(torque, "sheet-torque"),
        or_missing(direction, "sheet-direction"),
        or_missing(irrigation, "sheet-irrigation"),
    ]
    .join("\n")
}
