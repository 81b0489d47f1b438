//! Shapes into the drawing operations of a PDF page.

use super::curve::{self, PathPoint, PathPointKind};
use super::fonts::UsedFonts;
use super::{SheetError, points, text};
use crate::drawing::{Item, Paint, Point, Rect, Stroke, Text};
use crate::sheet::theme::{self, Colour};
use printpdf::{
    Color, Greyscale, Line, LineDashPattern, LinePoint, Op, PaintMode, Polygon, PolygonRing, Pt,
    Rgb, WindingOrder,
};

/// Draws one page and remembers which state the page is in, so that it is set only when it changes.
pub(super) struct Pen<'a> {
    height_mm: f64,
    used: &'a mut UsedFonts,
    ops: Vec<Op>,
    state: State,
}

/// The graphics state of a page; `None` where it is the default or not known.
#[derive(Clone, Copy, Default)]
struct State {
    fill: Option<Colour>,
    line: Option<Colour>,
    width_pt: Option<f32>,
    dash: Option<&'static [f64]>,
}

impl<'a> Pen<'a> {
    /// Begins a page of a height, mm.
    pub(super) fn new(height_mm: f64, used: &'a mut UsedFonts) -> Self {
        Self {
            height_mm,
            used,
            ops: Vec::new(),
            state: State::default(),
        }
    }

    /// The page's operations.
    pub(super) fn finish(self) -> Vec<Op> {
        self.ops
    }

    /// Draws items over what is there.
    pub(super) fn draw(&mut self, items: &[Item]) -> Result<(), SheetError> {
        for item in items {
            match item {
                Item::Line { points, stroke } => {
                    let path = points
                        .iter()
                        .map(|point| (*point, PathPointKind::Through))
                        .collect();
                    self.line(path, *stroke);
                }
                Item::Arc {
                    centre,
                    radius,
                    start_deg,
                    sweep_deg,
                    stroke,
                } => self.line(
                    curve::arc(*centre, *radius, *start_deg, *sweep_deg),
                    *stroke,
                ),
                Item::Polygon { rings, paint } => {
                    let paths = rings.iter().map(|ring| closed(ring)).collect();
                    self.shape(paths, *paint);
                }
                Item::Circle {
                    centre,
                    radius,
                    paint,
                } => self.shape(vec![curve::arc(*centre, *radius, 0.0, 360.0)], *paint),
                Item::Text(text) => self.text(text)?,
                Item::Clip { region, items } => self.clipped(*region, items)?,
                Item::Group(group) => self.draw(&group.items)?,
            }
        }
        Ok(())
    }

    fn clipped(&mut self, region: Rect, items: &[Item]) -> Result<(), SheetError> {
        let outside = self.state;
        self.ops.push(Op::SaveGraphicsState);
        let ring = self.ring(closed(&region.corners()));
        self.ops.push(Op::DrawPolygon {
            polygon: Polygon {
                rings: vec![ring],
                mode: PaintMode::Clip,
                winding_order: WindingOrder::NonZero,
            },
        });
        self.draw(items)?;
        self.ops.push(Op::RestoreGraphicsState);
        self.state = outside;
        Ok(())
    }

    fn line(&mut self, path: Vec<PathPoint>, stroke: Stroke) {
        self.set_stroke(stroke);
        let points = self.ring(path).points;
        self.ops.push(Op::DrawLine {
            line: Line {
                points,
                is_closed: false,
            },
        });
    }

    fn shape(&mut self, paths: Vec<Vec<PathPoint>>, paint: Paint) {
        let mode = match (paint.fill, paint.stroke) {
            (Some(_), Some(_)) => PaintMode::FillStroke,
            (Some(_), None) => PaintMode::Fill,
            (None, Some(_)) => PaintMode::Stroke,
            (None, None) => return,
        };
        if let Some(ink) = paint.fill {
            self.set_fill(theme::fill(ink));
        }
        if let Some(stroke) = paint.stroke {
            self.set_stroke(stroke);
        }
        let rings = paths.into_iter().map(|path| self.ring(path)).collect();
        self.ops.push(Op::DrawPolygon {
            polygon: Polygon {
                rings,
                mode,
                winding_order: WindingOrder::EvenOdd,
            },
        });
    }

    fn text(&mut self, line: &Text) -> Result<(), SheetError> {
        let shaped = text::shaped(line)?;
        if shaped.glyphs.is_empty() {
            return Ok(());
        }
        for glyph in &shaped.glyphs {
            self.used.add(glyph);
        }
        self.set_fill(theme::line(line.style.ink));
        let origin = self.place(line.origin());
        self.ops.extend(text::ops(line, &shaped, origin));
        Ok(())
    }

    fn set_fill(&mut self, colour: Colour) {
        if self.state.fill != Some(colour) {
            self.state.fill = Some(colour);
            self.ops.push(Op::SetFillColor { col: color(colour) });
        }
    }

    fn set_stroke(&mut self, stroke: Stroke) {
        let colour = theme::line(stroke.ink);
        if self.state.line != Some(colour) {
            self.state.line = Some(colour);
            self.ops.push(Op::SetOutlineColor { col: color(colour) });
        }
        let width = points(theme::width_mm(stroke.weight));
        if self
            .state
            .width_pt
            .is_none_or(|set| set.to_bits() != width.to_bits())
        {
            self.state.width_pt = Some(width);
            self.ops.push(Op::SetOutlineThickness { pt: Pt(width) });
        }
        let dash = theme::dash_mm(stroke.dash);
        if self.state.dash.unwrap_or_default() != dash {
            self.state.dash = Some(dash);
            let pattern: Vec<f32> = dash.iter().map(|length| points(*length)).collect();
            self.ops.push(Op::SetLineDashPattern {
                dash: LineDashPattern::new(0.0, &pattern),
            });
        }
    }

    fn ring(&self, path: Vec<PathPoint>) -> PolygonRing {
        let points = path
            .into_iter()
            .map(|(point, lean)| LinePoint {
                p: self.place(point),
                bezier: lean == PathPointKind::Towards,
            })
            .collect();
        PolygonRing { points }
    }

    /// A place on the page, which a PDF counts from its lower left corner.
    fn place(&self, point: Point) -> printpdf::Point {
        printpdf::Point {
            x: Pt(points(point.x)),
            y: Pt(points(self.height_mm - point.y)),
        }
    }
}

/// A ring as a path that ends where it begins: the writer closes only the last ring by itself.
fn closed(ring: &[Point]) -> Vec<PathPoint> {
    let mut path: Vec<PathPoint> = ring
        .iter()
        .map(|point| (*point, PathPointKind::Through))
        .collect();
    path.extend(path.first().copied());
    path
}

fn color(colour: Colour) -> Color {
    let [r, g, b] = colour.map(|channel| {
        // Three decimals tell 256 steps apart and are short to write.
        (f32::from(channel) / 255.0 * 1000.0).round() / 1000.0
    });
    if colour[0] == colour[1] && colour[1] == colour[2] {
        Color::Greyscale(Greyscale::new(r, None))
    } else {
        Color::Rgb(Rgb::new(r, g, b, None))
    }
}
