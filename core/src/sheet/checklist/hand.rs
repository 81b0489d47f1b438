//! The figure that a hand acts on, in large type.
//!
//! A stop that is set on a gauge is set to what the gauge shows; where that is another figure than
//! the length from tip to stop, the length stands beside it in small type. Where nobody knows what
//! the gauge shows no large figure stands: it would be set on the gauge. A fixed stop's length says
//! which of its lengths it is, a mark its name.

use super::pieces::fitted;
use super::{Source, places};
use crate::drawing::{TextStyle, pt};
use crate::kit::{DrillId, StopId, StopKind};
use crate::measure::Length;
use crate::plan::{Edge, Figure, Known, LoadItem, MarkEdge, StepSheet};
use crate::sheet::Cell;

/// Large enough to be read at arm's length.
const LARGE: TextStyle = TextStyle::FIGURE;
/// Words in place of a figure, which cannot be taken for one.
const WORDS: TextStyle = TextStyle::STRONG.sized(pt(10.0));
/// Width of a column of such figures, mm.
pub(super) const WIDTH: f64 = 25.0;

/// What a hand is to set, or to drill to.
pub(super) struct Hand<'a> {
    drill: &'a DrillId,
    stop: Option<&'a StopId>,
    mark: Option<&'a MarkEdge>,
    /// From tip to stop, or to the mark.
    set: Known<Length>,
    /// What the gauge then shows.
    gauge: Known<Length>,
}

impl<'a> Hand<'a> {
    pub(super) fn of_step(step: &'a StepSheet) -> Self {
        let gauge = step.gauge.as_ref();
        Self {
            drill: &step.drill,
            stop: step.stop.as_ref(),
            mark: step.mark.as_ref(),
            set: step.set.known_length(),
            gauge: gauge.map_or_else(|| Known::Unknown(Vec::new()), Figure::known_length),
        }
    }

    /// Nothing for what carries neither stop nor mark.
    pub(super) fn of_item(source: &Source<'a>, item: &'a LoadItem) -> Option<Self> {
        let on = item.set.as_ref()?;
        let mut steps = item
            .serves
            .iter()
            .filter_map(|one| places::sheet(source, one.site.as_ref()?, one.step.as_ref()?));
        Some(Self {
            drill: &on.drill,
            stop: on.stop.as_ref(),
            mark: steps.find_map(|step| step.mark.as_ref()),
            set: on.set.clone(),
            gauge: on.gauge.clone(),
        })
    }

    /// Is there a stop with a figure that the gauge shows?
    pub(super) const fn is_read(&self) -> bool {
        self.stop.is_some() && self.set.value().is_some() && self.gauge.value().is_some()
    }

    /// Is it set on the gauge, not by a groove or a mark?
    fn is_set_on_gauge(&self, source: &Source<'_>) -> bool {
        let stop = self.stop.and_then(|id| source.case.kit.stop(id));
        stop.is_some_and(|stop| matches!(stop.depth, StopKind::Adjustable {}))
    }

    /// The figure that a hand acts on; nothing where it is not known.
    pub(super) fn figure(&self, source: &Source<'_>) -> Option<Length> {
        let set = self.set.get()?;
        if self.is_set_on_gauge(source) {
            self.gauge.get()
        } else {
            Some(set)
        }
    }

    /// Which of a fixed stop's lengths it is, or the mark to drill to.
    fn limited_by(&self, source: &Source<'_>) -> Option<String> {
        let say = &source.say;
        match (self.stop, self.mark) {
            (Some(stop), _) => say.fixed_place(stop, self.drill, self.set.get()?),
            (None, Some(mark)) => {
                let id = match mark.edge {
                    Edge::Line => "sheet-mark-line",
                    Edge::Lower => "sheet-mark-lower",
                    Edge::Upper => "sheet-mark-upper",
                };
                Some(say.text(id, &[("mark", mark.name.as_str())]))
            }
            (None, None) => None,
        }
    }

    /// The figure in large type with the other one in small type, or words in its place.
    pub(super) fn cell(&self, source: &Source<'_>) -> Cell {
        let say = &source.say;
        let Known::Is(set) = self.set else {
            return Cell::Text(say.set_length(&self.set), WORDS);
        };
        let beside = |id: &str, length: Length| {
            Cell::Beside(vec![
                Cell::Text(say.word(id), TextStyle::CAPTION),
                Cell::Text(say.set_length(&Known::Is(length)), TextStyle::STRONG),
            ])
        };
        let Some(figure) = self.figure(source) else {
            let words = Cell::Text(say.word("sheet-no-gauge-figure"), WORDS);
            return Cell::Stack(vec![words, beside("sheet-tip-to-stop", set)]);
        };
        let shown = say.set_length(&Known::Is(figure));
        let style = fitted(LARGE, &shown, WIDTH);
        let large = Cell::Text(shown, style);
        let mut cells = match self.gauge.get() {
            _ if figure != set => vec![
                Cell::Text(say.word("sheet-gauge-shows"), TextStyle::CAPTION),
                large,
                beside("sheet-tip-to-stop", set),
            ],
            Some(gauge) if gauge != set => vec![large, beside("sheet-gauge-shows", gauge)],
            _ => vec![large],
        };
        let strong = TextStyle::STRONG.sized(TextStyle::CAPTION.size_mm);
        cells.extend(
            self.limited_by(source)
                .map(|words| Cell::Text(words, strong)),
        );
        Cell::Stack(cells)
    }
}
