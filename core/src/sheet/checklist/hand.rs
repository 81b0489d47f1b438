//! The figure that a hand acts on, in large type; which one that is [`ActsOn`] says.

use super::Source;
use super::pieces::fitted;
use crate::drawing::{TextStyle, pt};
use crate::measure::Length;
use crate::plan::{ActsOn, Hand, Known};
use crate::sheet::Cell;

/// Large enough to be read at arm's length.
const LARGE: TextStyle = TextStyle::FIGURE;
/// Words in place of a figure, which cannot be taken for one.
const WORDS: TextStyle = TextStyle::STRONG.sized(pt(10.0));
/// Width of a column of such figures, mm.
pub(super) const WIDTH: f64 = 25.0;

/// The figure in large type with the other one in small type, or words in its place.
pub(super) fn cell(hand: &Hand<'_>, source: &Source<'_>) -> Cell {
    let say = &source.say;
    let shown = |length| say.set_length(&Known::Is(length));
    let caption = |id: &str| Cell::Text(say.word(id), TextStyle::CAPTION);
    let beside = |id: &str, length: Length| {
        Cell::Beside(vec![
            caption(id),
            Cell::Text(shown(length), TextStyle::STRONG),
        ])
    };
    let large = |length| {
        let shown = shown(length);
        let style = fitted(LARGE, &shown, WIDTH);
        Cell::Text(shown, style)
    };
    match hand.acts_on(&source.case.kit) {
        ActsOn::Nothing => Cell::Text(say.set_length(hand.set()), WORDS),
        ActsOn::NotOnGauge { set } => Cell::Stack(vec![
            Cell::Text(say.word("sheet-no-gauge-figure"), WORDS),
            beside("sheet-tip-to-stop", set),
        ]),
        ActsOn::GaugeFigure { gauge, set } => Cell::Stack(vec![
            caption("sheet-gauge-shows"),
            large(gauge),
            beside("sheet-tip-to-stop", set),
        ]),
        ActsOn::SetLength {
            set,
            gauge: Some(gauge),
        } => Cell::Stack(vec![large(set), beside("sheet-gauge-shows", gauge)]),
        ActsOn::SetLength { set, gauge: None } => large(set),
    }
}
