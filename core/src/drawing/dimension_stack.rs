//! Several dimension lines along one side of a drawing, without collisions.

use super::geometry::{Point, Rect, at};
use super::item::Drawing;
use super::style::{Ink, LineWeight, Stroke};
use super::text::{Across, Along, TextStyle};

/// Half the length of the tick at each end, mm.
const TICK: f64 = 0.9;
/// From the line to its label, mm.
const GAP: f64 = 1.1;
/// The line and its ticks.
const LINE: Stroke = Stroke::new(Ink::Strong, LineWeight::Thin);
/// From the measured points to the line.
const EXTENSION: Stroke = Stroke::HAIRLINE;
/// From a dimension line to the next one's labels or line, mm.
const LANE_GAP: f64 = 2.4;
/// Least room between two labels of a lane, mm.
const LABEL_GAP: f64 = 0.7;

/// The side of the drawing for dimensions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// To the left; the dimensions measure heights.
    Left,
    /// To the right; the dimensions measure heights.
    Right,
    /// Above; the dimensions measure widths.
    Above,
    /// Below; the dimensions measure widths.
    Below,
}

impl Side {
    /// A point so far along the measured direction and so far away from the drawing's edge.
    fn point(self, along: f64, away: f64) -> Point {
        match self {
            Self::Left => at(-away, along),
            Self::Right => at(away, along),
            Self::Above => at(along, -away),
            Self::Below => at(along, away),
        }
    }

    const fn is_upright(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }

    /// A coordinate of the page as a distance that grows away from the drawing.
    const fn away(self, coordinate: f64) -> f64 {
        match self {
            Self::Left | Self::Above => -coordinate,
            Self::Right | Self::Below => coordinate,
        }
    }
}

/// One dimension of a stack.
#[derive(Debug, Clone, PartialEq)]
pub struct Span {
    /// The two measured coordinates: y for upright dimensions, x for level ones; mm.
    pub ends: [f64; 2],
    /// Other coordinate at which each end's extension line begins, mm. `None`: at the stack's edge.
    pub reach: [Option<f64>; 2],
    /// The figure as it is to be read.
    pub label: String,
    /// Style of the figure.
    pub style: TextStyle,
    /// A few words under the figure, if any.
    pub note: Option<String>,
}

impl Span {
    /// A dimension with extension lines from the stack's edge, no words under its figure.
    #[must_use]
    pub fn new(from: f64, to: f64, label: impl Into<String>, style: TextStyle) -> Self {
        Self {
            ends: [from.min(to), from.max(to)],
            reach: [None, None],
            label: label.into(),
            style,
            note: None,
        }
    }

    /// The same with a few words under the figure.
    #[must_use]
    pub fn noted(self, note: impl Into<String>) -> Self {
        Self {
            note: Some(note.into()),
            ..self
        }
    }

    const NOTE: TextStyle = TextStyle::CAPTION;

    /// Width and height of its label.
    fn label_size(&self) -> (f64, f64) {
        let note = self.note.as_ref().map_or((0.0, 0.0), |note| {
            (Self::NOTE.width(note), Self::NOTE.size_mm * 1.2)
        });
        (
            self.style.width(&self.label).max(note.0),
            self.style.cap_height() + note.1,
        )
    }

    fn middle(&self) -> f64 {
        f64::midpoint(self.ends[0], self.ends[1])
    }
}

/// Dimensions along one side of a drawing. Short ones are nearest; those that do not overlap share
/// a lane; a label that would touch another is moved along and tied to its line by a hair.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionStack {
    side: Side,
    edge: f64,
    spans: Vec<Span>,
}

/// A span in its lane, its label in its final place.
struct Seated<'a> {
    span: &'a Span,
    /// Distance of the dimension line, away from the drawing.
    line: f64,
    /// Middle of the label along the measured direction.
    label: f64,
}

impl DimensionStack {
    /// An empty stack whose first lane begins at `edge`: the x (upright) or y (level) of the
    /// drawing's outline on that side, mm.
    #[must_use]
    pub const fn new(side: Side, edge: f64) -> Self {
        Self {
            side,
            edge,
            spans: Vec::new(),
        }
    }

    /// Adds a dimension.
    pub fn add(&mut self, span: Span) {
        self.spans.push(span);
    }

    /// The stack as a drawing in the frame of its edge and spans.
    #[must_use]
    pub fn draw(&self) -> Drawing {
        let seated = self.seated();
        let labels: Vec<Rect> = seated.iter().map(|seat| self.label_box(seat)).collect();
        let mut drawing = Drawing::new();
        for seat in &seated {
            self.draw_extensions(&mut drawing, seat, &labels);
        }
        for seat in &seated {
            self.draw_line(&mut drawing, seat);
            self.draw_label(&mut drawing, seat);
        }
        drawing
    }

    /// Gives every span its lane and every label its place.
    fn seated(&self) -> Vec<Seated<'_>> {
        let mut line = self.side.away(self.edge) + LANE_GAP;
        let mut seated = Vec::new();
        for lane in self.lanes() {
            let wanted: Vec<(f64, f64)> = lane
                .iter()
                .map(|span| (span.middle(), self.along(span.label_size()) + LABEL_GAP))
                .collect();
            let deepest = lane
                .iter()
                .map(|span| self.across(span.label_size()))
                .fold(0.0, f64::max);
            for (span, label) in lane.iter().zip(spread(&wanted)) {
                seated.push(Seated { span, line, label });
            }
            line += TICK.max(GAP + deepest) + LANE_GAP;
        }
        seated
    }

    /// Spans that do not overlap share a lane; short ones come first.
    fn lanes(&self) -> Vec<Vec<&Span>> {
        let mut order: Vec<&Span> = self.spans.iter().collect();
        let length = |span: &Span| span.ends[1] - span.ends[0];
        order.sort_by(|a, b| {
            length(a)
                .total_cmp(&length(b))
                .then(a.ends[0].total_cmp(&b.ends[0]))
        });
        let mut lanes: Vec<Vec<&Span>> = Vec::new();
        for span in order {
            let free = lanes.iter_mut().find(|lane| {
                lane.iter()
                    .all(|other| span.ends[1] <= other.ends[0] || other.ends[1] <= span.ends[0])
            });
            match free {
                Some(lane) => lane.push(span),
                None => lanes.push(vec![span]),
            }
        }
        for lane in &mut lanes {
            lane.sort_by(|a, b| a.middle().total_cmp(&b.middle()));
        }
        lanes
    }

    const fn along(&self, (width, height): (f64, f64)) -> f64 {
        if self.side.is_upright() {
            height
        } else {
            width
        }
    }

    const fn across(&self, (width, height): (f64, f64)) -> f64 {
        if self.side.is_upright() {
            width
        } else {
            height
        }
    }

    fn label_box(&self, seat: &Seated) -> Rect {
        let size = seat.span.label_size();
        let half = self.along(size) / 2.0;
        let near = seat.line + GAP;
        Rect::between(
            self.side.point(seat.label - half, near),
            self.side.point(seat.label + half, near + self.across(size)),
        )
    }

    fn draw_line(&self, drawing: &mut Drawing, seat: &Seated) {
        let point = |along, away| self.side.point(along, away);
        let [start, end] = seat.span.ends;
        drawing.line(point(start, seat.line), point(end, seat.line), LINE);
        for along in [start, end] {
            drawing.line(
                point(along, seat.line - TICK),
                point(along, seat.line + TICK),
                LINE,
            );
        }
        let outside = seat.label < start || seat.label > end;
        if outside {
            let from = point(seat.span.middle(), seat.line);
            let to = point(seat.label, seat.line + GAP * 0.8);
            drawing.line(from, to, EXTENSION);
        }
    }

    /// Extension lines run from the drawing to the dimension line and give way to labels.
    fn draw_extensions(&self, drawing: &mut Drawing, seat: &Seated, labels: &[Rect]) {
        for (along, reach) in seat.span.ends.into_iter().zip(seat.span.reach) {
            let start = self.side.away(reach.unwrap_or(self.edge));
            let mut from = start;
            let mut breaks: Vec<(f64, f64)> = labels
                .iter()
                .map(|label| self.turned(label.grown(LABEL_GAP / 2.0)))
                .filter(|label| label.left < along && along < label.right)
                .map(|label| (label.top, label.bottom))
                .filter(|(near, _)| *near > start && *near < seat.line)
                .collect();
            breaks.sort_by(|a, b| a.0.total_cmp(&b.0));
            for (near, far) in breaks {
                if near > from {
                    drawing.line(
                        self.side.point(along, from),
                        self.side.point(along, near),
                        EXTENSION,
                    );
                }
                from = from.max(far);
            }
            if seat.line > from {
                drawing.line(
                    self.side.point(along, from),
                    self.side.point(along, seat.line),
                    EXTENSION,
                );
            }
        }
    }

    /// A page rectangle with x along the measured direction and y away from the drawing.
    const fn turned(&self, rect: Rect) -> Rect {
        let (a, b) = if self.side.is_upright() {
            (at(rect.top, rect.left), at(rect.bottom, rect.right))
        } else {
            (at(rect.left, rect.top), at(rect.right, rect.bottom))
        };
        Rect::between(at(a.x, self.side.away(a.y)), at(b.x, self.side.away(b.y)))
    }

    fn draw_label(&self, drawing: &mut Drawing, seat: &Seated) {
        let label = self.label_box(seat);
        let (x, across) = match self.side {
            Side::Left => (label.right, Across::End),
            Side::Right => (label.left, Across::Start),
            Side::Above | Side::Below => (label.centre().x, Across::Middle),
        };
        drawing.text(
            at(x, label.top),
            (across, Along::Top),
            seat.span.style,
            seat.span.label.clone(),
        );
        if let Some(note) = &seat.span.note {
            drawing.text(
                at(x, label.bottom),
                (across, Along::Baseline),
                Span::NOTE,
                note.clone(),
            );
        }
    }
}

/// Moves intervals, given by wanted middle and length in ascending order, as little as needed so
/// that they do not overlap; those that push each other are centred on what they wanted.
fn spread(wanted: &[(f64, f64)]) -> Vec<f64> {
    struct Cluster {
        middle: f64,
        length: f64,
        members: Vec<f64>,
    }
    let mut clusters: Vec<Cluster> = Vec::new();
    for &(middle, length) in wanted {
        let mut next = Cluster {
            middle,
            length,
            members: vec![length],
        };
        while let Some(last) = clusters.pop() {
            if last.middle + last.length / 2.0 <= next.middle - next.length / 2.0 {
                clusters.push(last);
                break;
            }
            let length = last.length + next.length;
            // Both keep their own centre of pull, weighted by what they hold.
            next = Cluster {
                middle: (last.middle * last.length + next.middle * next.length) / length,
                length,
                members: last.members.into_iter().chain(next.members).collect(),
            };
        }
        clusters.push(next);
    }
    clusters
        .into_iter()
        .flat_map(|cluster| {
            let mut start = cluster.middle - cluster.length / 2.0;
            cluster.members.into_iter().map(move |length| {
                let middle = start + length / 2.0;
                start += length;
                middle
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn stack(side: Side, spans: &[(f64, f64)]) -> Drawing {
        let mut stack = DimensionStack::new(side, 0.0);
        for (from, to) in spans {
            let label = format!("{:.1}", to - from);
            stack.add(Span::new(*from, *to, label, TextStyle::BODY));
        }
        stack.draw()
    }

    #[test]
    fn a_chain_shares_a_lane_and_the_whole_stands_outside() {
        let drawing = stack(Side::Left, &[(0.0, 30.0), (0.0, 12.0), (12.0, 30.0)]);
        let texts = drawing.texts();
        let place = |label: &str| {
            texts
                .iter()
                .find(|text| text.content == label)
                .unwrap()
                .place
        };
        assert!((place("12.0").x - place("18.0").x).abs() < 1e-9);
        assert!(place("30.0").x < place("12.0").x - 5.0);
    }

    #[test]
    fn labels_of_short_spans_are_pushed_apart_and_tied_to_their_lines() {
        let spans = [(0.0, 0.5), (0.5, 1.0), (1.0, 1.4)];
        let drawing = stack(Side::Right, &spans);
        let boxes: Vec<Rect> = drawing.texts().iter().map(|text| text.bounds()).collect();
        assert!(!boxes[0].overlaps(boxes[1]) && !boxes[1].overlaps(boxes[2]));
        // The outer two have a tie, the middle one needs none.
        let plain = stack(Side::Right, &[(0.0, 20.0), (20.0, 40.0), (40.0, 60.0)]);
        assert_eq!(drawing.items().len(), plain.items().len() + 2);
    }

    #[test]
    fn spreading_moves_nothing_that_fits() {
        let wanted = [(0.0, 2.0), (5.0, 2.0), (5.5, 2.0), (20.0, 2.0)];
        let placed = spread(&wanted);
        assert_eq!(placed, [0.0, 4.25, 6.25, 20.0]);
    }

    proptest! {
        #[test]
        fn no_two_labels_ever_overlap(
            spans in prop::collection::vec((0.0..60.0_f64, 0.2..30.0_f64), 1..9),
            side in prop::sample::select(vec![Side::Left, Side::Right, Side::Above, Side::Below]),
        ) {
            let spans: Vec<_> = spans.into_iter().map(|(from, length)| (from, from + length)).collect();
            let drawing = stack(side, &spans);
            let boxes: Vec<Rect> = drawing.texts().iter().map(|text| text.bounds()).collect();
            for (index, one) in boxes.iter().enumerate() {
                for other in &boxes[index + 1..] {
                    prop_assert!(!one.overlaps(*other), "{one:?} {other:?}");
                }
            }
        }
    }
}
