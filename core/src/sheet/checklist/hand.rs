//! The figure that a hand acts on, in large type; which one that is [`ActsOn`] says. A fixed stop's
//! length says which of its lengths it is, a mark its name.

use super::Source;
use super::pieces::fitted;
use crate::drawing::{TextStyle, pt};
use crate::measure::Length;
use crate::plan::{ActsOn, Edge, Hand, Known};
use crate::sheet::Cell;

/// Large enough to be read at arm's length.
const LARGE: TextStyle = TextStyle::FIGURE;
/// Words in place of a figure, which cannot be taken for one.
const WORDS: TextStyle = TextStyle::STRONG.sized(pt(10.0));
/// Width of a column of such figures, mm.
pub(super) const WIDTH: f64 = 25.0;

/// The figure in large type with the other one in small type, or words in its place.
pub(super) fn cell(hand: &Hand<'_>, source: &Source<'_>) -> Cell {
    let formatter = &source.formatter;
    let shown = |length| formatter.set_length(&Known::Is(length));
    let caption = |id: &str| Cell::Text(formatter.word(id), TextStyle::CAPTION);
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
    let mut cells = match hand.acts_on(&source.case.kit) {
        ActsOn::Nothing => return Cell::Text(formatter.set_length(hand.set()), WORDS),
        ActsOn::NotOnGauge { set } => vec![
            Cell::Text(formatter.word("sheet-no-gauge-figure"), WORDS),
            beside("sheet-tip-to-stop", set),
        ],
        ActsOn::GaugeFigure { gauge, set } => vec![
            caption("sheet-gauge-shows"),
            large(gauge),
            beside("sheet-tip-to-stop", set),
        ],
        ActsOn::SetLength {
            set,
            gauge: Some(gauge),
        } => vec![large(set), beside("sheet-gauge-shows", gauge)],
        ActsOn::SetLength { set, gauge: None } => vec![large(set)],
    };
    let strong = TextStyle::STRONG.sized(TextStyle::CAPTION.size_mm);
    let limited = limited_by(hand, source);
    cells.extend(limited.map(|words| Cell::Text(words, strong)));
    Cell::Stack(cells)
}

/// Is there a figure that a hand can act on?
pub(super) fn is_known(hand: &Hand<'_>, source: &Source<'_>) -> bool {
    hand.acts_on(&source.case.kit).figure().is_some()
}

/// The choice among a fixed stop's lengths, or the mark to drill to.
fn limited_by(hand: &Hand<'_>, source: &Source<'_>) -> Option<String> {
    let formatter = &source.formatter;
    if let Some(stop) = hand.stop() {
        return formatter.fixed_place(stop, hand.drill(), hand.set().get()?);
    }
    let mark = hand.mark()?;
    let id = match mark.edge {
        Edge::Line => "sheet-mark-line",
        Edge::Lower => "sheet-mark-lower",
        Edge::Upper => "sheet-mark-upper",
    };
    Some(formatter.text(id, &[("mark", mark.name.as_str())]))
}
