//! Instruments in cells: a sleeve by name and marking, a drill's speeds.

use super::{Source, places};
use crate::charts;
use crate::drawing::TextStyle;
use crate::kit::{Direction, Drill, DrillSleeveId, Marking, SlotKind};
use crate::plan::{StepPath, StepSheet};
use crate::sheet::Cell;

/// The letter and shape of an instrument as they are engraved, and its colour in words.
pub(super) fn engraved(marking: &Marking) -> Option<Cell> {
    let drawn = charts::marking(marking, TextStyle::HEADING);
    let colour = marking.colour.clone();
    let parts: Vec<Cell> = [
        drawn.map(|(drawing, _)| Cell::Picture(drawing)),
        colour.map(|colour| Cell::Text(colour, TextStyle::NOTE)),
    ]
    .into_iter()
    .flatten()
    .collect();
    (!parts.is_empty()).then_some(Cell::Beside(parts))
}

/// The guidance of a step: the drill sleeve with its marking, the master sleeve, or freehand.
pub(super) fn guidance(source: &Source<'_>, sheet: &StepSheet) -> Cell {
    let formatter = &source.formatter;
    match (sheet.path, &sheet.sleeve) {
        (StepPath::DrillSleeve, Some(id)) => sleeve(source, id, None),
        (StepPath::Freehand, _) => Cell::Text(formatter.path(sheet.path), TextStyle::STRONG),
        (path, _) => Cell::body(formatter.path(path)),
    }
}

/// The same with the sleeve's slot.
pub(super) fn led_from(source: &Source<'_>, sheet: &StepSheet) -> Cell {
    match (sheet.path, &sheet.sleeve) {
        (StepPath::DrillSleeve, Some(id)) => {
            let item = places::of_entry(source, SlotKind::Sleeve, id.as_str());
            sleeve(source, id, item.map(|item| places::slot(source, item)))
        }
        _ => guidance(source, sheet),
    }
}

/// A drill sleeve with its marking.
fn sleeve(source: &Source<'_>, id: &DrillSleeveId, slot: Option<String>) -> Cell {
    let sleeve = source.case.kit.drill_sleeve(id);
    let mut first: Vec<Cell> = sleeve
        .and_then(|sleeve| engraved(&sleeve.marking))
        .into_iter()
        .collect();
    first.extend(slot.map(|slot| Cell::Text(slot, TextStyle::STRONG)));
    let name = Cell::Text(source.formatter.drill_sleeve(id), TextStyle::CAPTION);
    Cell::Stack(vec![Cell::Beside(first), name])
}

/// Speed, torque, direction and irrigation of a drill, each from the kit or said to be missing.
pub(super) fn running(source: &Source<'_>, drill: &Drill) -> String {
    let formatter = &source.formatter;
    let or_missing = |value: Option<String>, id: &str| {
        let value = value.unwrap_or_else(|| formatter.word("sheet-not-in-kit"));
        formatter.text(id, &[("value", &value)])
    };
    let speed = drill
        .greatest_speed_rpm
        .map(|speed| formatter.counted("sheet-rpm", &[("speed", speed.rpm())], &[]));
    let torque = drill
        .torque_limit_ncm
        .map(|torque| formatter.text("sheet-ncm", &[("torque", &torque.to_string())]));
    let direction = drill.direction.map(|direction| {
        formatter.word(match direction {
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
    .join("; ")
}
