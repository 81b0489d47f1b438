//! What is said once over the order of use: what is the same for every drill, and what its signs mean.

use super::Source;
use super::pieces::{SMALL, worst_word};
use crate::charts::mark_of;
use crate::drawing::{Across, Along, Drawing, Mark, at};
use crate::kit::{Drill, Label};
use crate::sheet::Block;

/// Side of a mark, and from it to its word, mm.
const MARK: (f64, f64) = (3.4, 1.0);
/// From one mark's word to the next mark, mm.
const GAP: f64 = 4.0;

/// A drill's irrigation in words, where it is not the one that was said for the others.
pub(super) fn other_irrigation(source: &Source<'_>, drill: &Drill) -> Option<String> {
    let usual = usual_irrigation(source)?;
    (usual.value != irrigation(Some(drill))).then(|| {
        let value = in_words(source, irrigation(Some(drill)));
        source
            .formatter
            .text("sheet-irrigation-other", &[("value", &value)])
    })
}

/// The lines.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let irrigation = usual_irrigation(source).map(|usual| {
        let id = if usual.of_all {
            "sheet-irrigation-all"
        } else {
            "sheet-irrigation-usual"
        };
        formatter.text(id, &[("value", &in_words(source, usual.value))])
    });
    let torque = drills(source)
        .any(|drill| drill.is_some_and(|drill| drill.torque_limit_ncm.is_none()))
        .then(|| formatter.word("sheet-torque-not-in-kit"));
    let bench = Some(formatter.word("sheet-bench-explained"));
    let words: Vec<String> = [irrigation, torque, bench].into_iter().flatten().collect();
    vec![
        Block::Paragraph(words.join(" "), SMALL),
        Block::Space(0.8),
        Block::Picture(marks(source)),
        Block::Space(1.4),
    ]
}

/// Each mark that a site has with its word.
pub(super) fn marks(source: &Source<'_>) -> Drawing {
    let mut all: Vec<(Mark, String)> = Vec::new();
    for sheet in &source.worksheet.sites {
        let one = (mark_of(sheet.worst), worst_word(source, sheet));
        if !all.contains(&one) {
            all.push(one);
        }
    }
    let mut drawing = Drawing::new();
    let mut words = |left: f64, words: String| {
        let right = left + SMALL.width(&words);
        drawing.text(
            at(left, MARK.0 / 2.0),
            (Across::Start, Along::Middle),
            SMALL,
            words,
        );
        right
    };
    let mut left = words(0.0, source.formatter.word("sheet-mark-explained"));
    let mut places = Vec::new();
    for (mark, word) in all {
        places.push((left + MARK.0, mark));
        left = words(left + 1.5 * MARK.0 + MARK.1, word) + GAP - MARK.0 / 2.0;
    }
    for (middle, mark) in places {
        drawing.mark(at(middle, MARK.0 / 2.0), MARK.0, mark);
    }
    drawing
}

/// Those of the sites and of the pins.
fn drills<'a>(source: &Source<'a>) -> impl Iterator<Item = Option<&'a Drill>> {
    let steps = source.worksheet.sites.iter().flat_map(|site| &site.steps);
    let of_pins = source.worksheet.pins.iter().map(|pin| &pin.drill);
    let all = steps.map(|step| &step.drill).chain(of_pins);
    all.map(|id| source.case.kit.drill(id))
}

/// What is said of the irrigation for all drills.
struct Usual<'a> {
    value: Option<&'a str>,
    /// No drill has another.
    of_all: bool,
}

fn irrigation(drill: Option<&Drill>) -> Option<&str> {
    drill?.irrigation.as_ref().map(Label::as_str)
}

fn in_words(source: &Source<'_>, value: Option<&str>) -> String {
    value.map_or_else(
        || source.formatter.word("sheet-not-in-kit"),
        ToOwned::to_owned,
    )
}

/// The irrigation that most rows have, of several as usual ones the first; nothing where there is no drill.
fn usual_irrigation<'a>(source: &Source<'a>) -> Option<Usual<'a>> {
    let all: Vec<Option<&str>> = drills(source).map(irrigation).collect();
    let count = |value: Option<&str>| all.iter().filter(|one| **one == value).count();
    let value = *all.iter().rev().max_by_key(|value| count(**value))?;
    let of_all = all.iter().all(|one| *one == value);
    Some(Usual { value, of_all })
}
