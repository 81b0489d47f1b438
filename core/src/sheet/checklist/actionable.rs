//! The figure to act on, in large type; which one that is [`ActionableFigure`] says. A fixed stop's
//! length says which of its lengths it is, a mark its name.

use super::Source;
use super::pieces::{SMALL, fitted};
use crate::drawing::{TextStyle, pt};
use crate::measure::Length;
use crate::plan::{Actionable, ActionableFigure, Edge, Fits, Known};
use crate::sheet::Cell;

/// Large enough to be read at arm's length.
const LARGE: TextStyle = TextStyle::FIGURE;
/// In the rows of the form: smaller, and never below 14 points.
const IN_FORM: TextStyle = TextStyle::FIGURE.sized(pt(14.2));
/// Words in place of a figure, which cannot be taken for one.
const WORDS: TextStyle = TextStyle::STRONG.sized(pt(10.0));
/// Width of a column of such figures, mm.
pub(super) const WIDTH: f64 = 25.0;

/// The figure in large type with the other one in small type, or words in its place.
pub(super) fn cell(actionable: &Actionable<'_>, source: &Source<'_>) -> Cell {
    Cell::Stack(cells(
        actionable,
        source,
        (LARGE, WIDTH),
        TextStyle::CAPTION,
    ))
}

/// The same for a row of the form, in a column of this width.
pub(super) fn in_form(
    actionable: &Actionable<'_>,
    source: &Source<'_>,
    width_mm: f64,
) -> Vec<Cell> {
    let mut all = figures(actionable, source, (IN_FORM, width_mm), SMALL);
    let limited = limited_by(actionable, source);
    all.extend(limited.map(|words| Cell::Text(words, SMALL.bold())));
    all
}

/// The same without what limits it, which [`limited_by`] says.
pub(super) fn figure_in_form(
    actionable: &Actionable<'_>,
    source: &Source<'_>,
    width_mm: f64,
) -> Cell {
    Cell::Stack(figures(actionable, source, (IN_FORM, width_mm), SMALL))
}

/// True if there is but one figure: nothing else stands over or below it.
pub(super) fn is_alone(actionable: &Actionable<'_>, source: &Source<'_>) -> bool {
    matches!(
        actionable.figure(&source.case.kit),
        ActionableFigure::SetLength { gauge: None, .. }
    )
}

fn cells(
    actionable: &Actionable<'_>,
    source: &Source<'_>,
    size: (TextStyle, f64),
    small: TextStyle,
) -> Vec<Cell> {
    let mut all = figures(actionable, source, size, small);
    let strong = TextStyle::STRONG.sized(small.size_mm);
    let limited = limited_by(actionable, source);
    all.extend(limited.map(|words| Cell::Text(words, strong)));
    all
}

fn figures(
    actionable: &Actionable<'_>,
    source: &Source<'_>,
    (style, width_mm): (TextStyle, f64),
    small: TextStyle,
) -> Vec<Cell> {
    let formatter = &source.formatter;
    let shown = |length| formatter.set_length(&Known::Is(length));
    let caption = |id: &str| Cell::Text(formatter.word(id), small);
    let beside = |id: &str, length: Length| {
        Cell::Beside(vec![
            caption(id),
            Cell::Text(shown(length), TextStyle::STRONG),
        ])
    };
    let large = |length| {
        let shown = shown(length);
        let style = fitted(style, &shown, width_mm);
        Cell::Text(shown, style)
    };
    match actionable.figure(&source.case.kit) {
        ActionableFigure::Nothing => {
            vec![Cell::Text(formatter.set_length(actionable.set()), WORDS)]
        }
        ActionableFigure::DoesNotFit => {
            let words = formatter.set_to_use(actionable.set(), Fits::No);
            vec![Cell::Text(words, WORDS)]
        }
        ActionableFigure::NotOnGauge { set } => vec![
            Cell::Text(formatter.word("sheet-no-gauge-figure"), WORDS),
            beside("sheet-tip-to-stop", set),
        ],
        ActionableFigure::GaugeFigure { gauge, set } => vec![
            caption("sheet-gauge-shows"),
            large(gauge),
            beside("sheet-tip-to-stop", set),
        ],
        ActionableFigure::SetLength {
            set,
            gauge: Some(gauge),
        } => vec![large(set), beside("sheet-gauge-shows", gauge)],
        ActionableFigure::SetLength { set, gauge: None } => vec![large(set)],
    }
}

/// True if there is a figure to act on.
pub(super) fn is_known(actionable: &Actionable<'_>, source: &Source<'_>) -> bool {
    actionable.figure(&source.case.kit).large().is_some()
}

/// The choice among a fixed stop's lengths, or the mark to drill to.
pub(super) fn limited_by(actionable: &Actionable<'_>, source: &Source<'_>) -> Option<String> {
    let formatter = &source.formatter;
    if actionable.figure(&source.case.kit) == ActionableFigure::DoesNotFit {
        return None;
    }
    if let Some(stop) = actionable.stop() {
        return formatter.fixed_place(stop, actionable.drill(), actionable.set().get()?);
    }
    let mark = actionable.mark()?;
    let id = match mark.edge {
        Edge::Line => "sheet-mark-line",
        Edge::Lower => "sheet-mark-lower",
        Edge::Upper => "sheet-mark-upper",
    };
    Some(formatter.text(id, &[("mark", mark.name.as_str())]))
}
