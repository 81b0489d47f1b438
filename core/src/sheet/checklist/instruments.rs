//! Instruments in cells: a sleeve by name and marking, a drill's speeds.

use super::pieces::SMALL;
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

/// The letter and shape alone, in the type of running text; the colour in words is in the loading list.
pub(super) fn engraved_small(marking: &Marking) -> Option<Cell> {
    let (drawing, _) = charts::marking(marking, SMALL.bold())?;
    Some(Cell::Picture(drawing))
}

/// The guidance of a step: the drill sleeve with its marking, the master sleeve, or freehand.
pub(super) fn guidance(source: &Source<'_>, sheet: &StepSheet) -> Cell {
    let formatter = &source.formatter;
    match (sheet.path, &sheet.sleeve) {
        (StepPath::DrillSleeve, Some(id)) => sleeve(source, id),
        (StepPath::Freehand, _) => Cell::Text(formatter.path(sheet.path), TextStyle::STRONG),
        (path, _) => Cell::body(formatter.path(path)),
    }
}

/// The same for a row of the form: the sleeve with its slot.
pub(super) fn sleeve_from(source: &Source<'_>, sheet: &StepSheet) -> Cell {
    let words = |id: &str| Cell::Text(source.formatter.word(id), SMALL);
    let id = match (sheet.path, &sheet.sleeve) {
        (StepPath::DrillSleeve, Some(id)) => id,
        (StepPath::MasterSleeve, _) => return words("sheet-through-master"),
        (path, _) => return Cell::Text(source.formatter.path(path), SMALL.bold()),
    };
    let item = places::of_entry(source, SlotKind::Sleeve, id.as_str());
    let kit = source.case.kit.drill_sleeve(id);
    let marking = kit.and_then(|sleeve| engraved_small(&sleeve.marking));
    let slot = item.map(|item| Cell::Text(places::slot(source, item), SMALL.bold()));
    let first: Vec<Cell> = marking.into_iter().chain(slot).collect();
    // What is marked and lies in a slot is found by these; its name is in the loading list.
    if first.len() > 1 {
        return Cell::Beside(first);
    }
    let name = Cell::Text(source.formatter.drill_sleeve(id), SMALL);
    Cell::Stack(vec![Cell::Beside(first), name])
}

/// A drill sleeve with its marking.
fn sleeve(source: &Source<'_>, id: &DrillSleeveId) -> Cell {
    let sleeve = source.case.kit.drill_sleeve(id);
    let first: Vec<Cell> = sleeve
        .and_then(|sleeve| engraved(&sleeve.marking))
        .into_iter()
        .collect();
    let name = Cell::Text(source.formatter.drill_sleeve(id), TextStyle::CAPTION);
    Cell::Stack(vec![Cell::Beside(first), name])
}

/// The same as [`running`] for a row: a torque is told where there is one, a direction where it is not clockwise
/// or not known; an irrigation other than the usual one has a line of its own
/// ([`other_irrigation`](super::legend::other_irrigation)).
pub(super) fn running_short(source: &Source<'_>, drill: &Drill) -> String {
    let formatter = &source.formatter;
    let missing = |id: &str| formatter.word(id);
    let speed = drill.greatest_speed_rpm.map_or_else(
        || missing("sheet-no-speed"),
        |speed| formatter.counted("sheet-rpm-most", &[("speed", speed.rpm())], &[]),
    );
    let torque = drill
        .torque_limit_ncm
        .map(|torque| formatter.text("sheet-ncm-most", &[("torque", &torque.to_string())]));
    let direction = match drill.direction {
        Some(Direction::Forward) => None,
        Some(Direction::Reverse) => Some(formatter.word("sheet-reverse")),
        None => Some(missing("sheet-no-direction")),
    };
    let lines = [Some(speed), torque, direction];
    lines.into_iter().flatten().collect::<Vec<_>>().join("\n")
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
