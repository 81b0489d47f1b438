//! The shapes of egui for a drawing.

use super::Camera;
use crate::look::{Theme, bold};
use egui::epaint::{CircleShape, Mesh, PathShape, PathStroke, TextShape};
use egui::{Color32, FontFamily, FontId, Painter, Pos2, Shape, Stroke, vec2};
use lyon_tessellation::math::point;
use lyon_tessellation::path::Path;
use lyon_tessellation::{BuffersBuilder, FillOptions, FillTessellator, FillVertex, VertexBuffers};
use traywright_core::drawing::fonts::{Face, composed};
use traywright_core::drawing::{self, Dash, Drawing, Item, LineWeight, Paint, Point, Text};

/// The shapes of a drawing seen by a camera. `painter` lays out text; nothing is painted.
#[must_use]
pub fn shapes(drawing: &Drawing, camera: Camera, theme: Theme, painter: &Painter) -> Vec<Shape> {
    let mut brush = Brush {
        camera,
        theme,
        painter,
        out: Vec::new(),
    };
    brush.items(drawing.items());
    brush.out
}

struct Brush<'a> {
    camera: Camera,
    theme: Theme,
    painter: &'a Painter,
    out: Vec<Shape>,
}

impl Brush<'_> {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            self.item(item);
        }
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Line { points, stroke } => {
                let points = self.points(points);
                self.line(points, *stroke);
            }
            Item::Polygon { rings, paint } => self.polygon(rings, *paint),
            Item::Circle {
                centre,
                radius,
                paint,
            } => self.circle(*centre, *radius, *paint),
            Item::Arc {
                centre,
                radius,
                start_deg,
                sweep_deg,
                stroke,
            } => {
                let points = arc(*centre, *radius, *start_deg, *sweep_deg);
                let points = self.points(&points);
                self.line(points, *stroke);
            }
            Item::Text(text) => self.text(text),
            Item::Clip { region, items } => self.clipped(*region, items),
            Item::Group(group) => self.items(&group.items),
        }
    }

    fn points(&self, points: &[Point]) -> Vec<Pos2> {
        let on_screen = |&point| self.camera.screen_from_drawing(point);
        points.iter().map(on_screen).collect()
    }

    fn pen(&self, stroke: drawing::Stroke) -> Stroke {
        let scaled = (self.camera.per_mm / super::PER_MM).clamp(THINNEST, 1.0);
        Stroke::new(width(stroke.weight) * scaled, self.theme.line(stroke.ink))
    }

    fn line(&mut self, points: Vec<Pos2>, stroke: drawing::Stroke) {
        let pen = self.pen(stroke);
        let (dashes, gaps): (&[f32], &[f32]) = match stroke.dash {
            Dash::Solid => {
                self.out.push(Shape::line(points, pen));
                return;
            }
            Dash::Dashed => (&[5.0], &[3.0]),
            Dash::Dotted => (&[1.5], &[2.5]),
            Dash::Chain => (&[12.0, 1.5], &[3.0, 3.0]),
        };
        let dashed = Shape::dashed_line_with_offset(&points, pen, dashes, gaps, 0.0);
        self.out.extend(dashed);
    }

    fn polygon(&mut self, rings: &[Vec<Point>], paint: Paint) {
        let rings: Vec<Vec<Pos2>> = rings.iter().map(|ring| self.points(ring)).collect();
        if let Some(ink) = paint.fill {
            let mesh = filled(&rings, self.theme.fill(ink));
            self.out.push(Shape::mesh(mesh));
        }
        let Some(stroke) = paint.stroke else { return };
        for mut ring in rings {
            if stroke.dash == Dash::Solid {
                let pen = PathStroke::from(self.pen(stroke));
                self.out
                    .push(Shape::Path(PathShape::closed_line(ring, pen)));
            } else {
                ring.extend(ring.first().copied());
                self.line(ring, stroke);
            }
        }
    }

    #[expect(
        clippy::cast_possible_truncation,
        reason = "pixels need no more than a float holds"
    )]
    fn circle(&mut self, centre: Point, radius: f64, paint: Paint) {
        let dashed = paint.stroke.filter(|stroke| stroke.dash != Dash::Solid);
        let solid = paint.stroke.filter(|stroke| stroke.dash == Dash::Solid);
        self.out.push(Shape::Circle(CircleShape {
            center: self.camera.screen_from_drawing(centre),
            radius: radius as f32 * self.camera.per_mm,
            fill: paint
                .fill
                .map_or(Color32::TRANSPARENT, |ink| self.theme.fill(ink)),
            stroke: solid.map_or(Stroke::NONE, |stroke| self.pen(stroke)),
        }));
        if let Some(stroke) = dashed {
            let points = self.points(&arc(centre, radius, 0.0, 360.0));
            self.line(points, stroke);
        }
    }

    #[expect(
        clippy::cast_possible_truncation,
        reason = "pixels need no more than a float holds"
    )]
    fn text(&mut self, text: &Text) {
        let family = match text.style.face {
            Face::Regular => FontFamily::Proportional,
            Face::Bold => bold(),
        };
        let font = FontId::new(text.style.size_mm as f32 * self.camera.per_mm, family);
        let colour = self.theme.line(text.style.ink);
        let content = composed(&text.content).into_owned();
        let galley = self.painter.layout_no_wrap(content, font, colour);
        let baseline = galley.rows.first().map_or(0.0, |row| {
            row.pos.y + row.glyphs.first().map_or(0.0, |glyph| glyph.pos.y)
        });
        let origin = self.camera.screen_from_drawing(text.origin());
        let angle = text.turn_deg.to_radians() as f32;
        let up = egui::emath::Rot2::from_angle(angle) * vec2(0.0, baseline);
        let shape = TextShape::new(origin - up, galley, colour).with_angle(angle);
        self.out.push(Shape::Text(shape));
    }

    /// Draws the items within a region. egui clips by painter, not by shape, so lines are cut here
    /// and shapes outside dropped; any other shape across the edge is shown whole.
    fn clipped(&mut self, region: drawing::Rect, items: &[Item]) {
        let region = self.camera.rect(region);
        let before = self.out.len();
        self.items(items);
        let drawn = self.out.split_off(before);
        let kept = drawn
            .into_iter()
            .filter(|shape| shape.visual_bounding_rect().intersects(region));
        self.out.extend(kept.map(|shape| cut(shape, region)));
    }
}

/// A straight line cut at the edges of a region; anything else as it is.
fn cut(shape: Shape, region: egui::Rect) -> Shape {
    match shape {
        Shape::LineSegment { points, stroke } => match segment_within(points, region) {
            Some(points) => Shape::LineSegment { points, stroke },
            None => Shape::Noop,
        },
        Shape::Path(path) if path.points.len() == 2 && !path.closed => {
            match segment_within([path.points[0], path.points[1]], region) {
                Some(points) => Shape::Path(PathShape {
                    points: points.to_vec(),
                    ..path
                }),
                None => Shape::Noop,
            }
        }
        Shape::Mesh(mesh) => {
            let mut mesh = (*mesh).clone();
            for vertex in &mut mesh.vertices {
                vertex.pos = vertex.pos.clamp(region.min, region.max);
            }
            Shape::mesh(mesh)
        }
        Shape::Path(mut path) => {
            for point in &mut path.points {
                *point = point.clamp(region.min, region.max);
            }
            Shape::Path(path)
        }
        other => other,
    }
}

/// The part of a straight line within a region (Liang and Barsky's way).
fn segment_within([from, to]: [Pos2; 2], region: egui::Rect) -> Option<[Pos2; 2]> {
    let way = to - from;
    let (mut start, mut end) = (0.0_f32, 1.0_f32);
    for (step, room) in [
        (-way.x, from.x - region.left()),
        (way.x, region.right() - from.x),
        (-way.y, from.y - region.top()),
        (way.y, region.bottom() - from.y),
    ] {
        if step.abs() < f32::EPSILON {
            if room < 0.0 {
                return None;
            }
        } else if step < 0.0 {
            start = start.max(room / step);
        } else {
            end = end.min(room / step);
        }
    }
    (start <= end).then(|| [from + way * start, from + way * end])
}

/// The surface within rings; where they overlap an even number of times there is a hole.
fn filled(rings: &[Vec<Pos2>], colour: Color32) -> Mesh {
    let mut path = Path::builder();
    for ring in rings {
        let mut corners = ring.iter();
        let Some(first) = corners.next() else {
            continue;
        };
        path.begin(point(first.x, first.y));
        for corner in corners {
            path.line_to(point(corner.x, corner.y));
        }
        path.end(true);
    }
    let mut buffers: VertexBuffers<Pos2, u32> = VertexBuffers::new();
    let mut target = BuffersBuilder::new(&mut buffers, |vertex: FillVertex<'_>| {
        let place = vertex.position();
        Pos2::new(place.x, place.y)
    });
    let options = FillOptions::even_odd();
    let mut mesh = Mesh::default();
    // A ring that cannot be filled keeps its outline; nothing else of it is shown.
    if FillTessellator::new()
        .tessellate_path(&path.build(), &options, &mut target)
        .is_ok()
    {
        mesh.indices = buffers.indices;
        for place in buffers.vertices {
            mesh.colored_vertex(place, colour);
        }
    }
    mesh
}

/// Points along an arc, close enough together to look round.
fn arc(centre: Point, radius: f64, start_deg: f64, sweep_deg: f64) -> Vec<Point> {
    const STEP_DEG: f64 = 6.0;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at most sixty steps"
    )]
    let steps = (sweep_deg.abs() / STEP_DEG).ceil().clamp(1.0, 60.0) as u32;
    (0..=steps)
        .map(|step| {
            let turn = start_deg + sweep_deg * f64::from(step) / f64::from(steps);
            centre + drawing::at(radius, 0.0).turned(turn)
        })
        .collect()
}

/// Of a line's width, what is left of it on a drawing that is shown small.
const THINNEST: f32 = 0.4;

/// Width of a line, points: the same at every scale but where a drawing is shown smaller than on
/// the desk.
const fn width(weight: LineWeight) -> f32 {
    match weight {
        LineWeight::Hair => 0.75,
        LineWeight::Thin => 1.0,
        LineWeight::Medium => 1.5,
        LineWeight::Heavy => 2.5,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn a_ring_within_a_ring_is_a_hole() {
        let square = |half: f32| {
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(x, y)| pos2(x * half, y * half))
                .to_vec()
        };
        let mesh = filled(&[square(10.0), square(4.0)], Color32::WHITE);
        let area: f32 = mesh
            .indices
            .chunks_exact(3)
            .map(|corner| {
                let [a, b, c] = [corner[0], corner[1], corner[2]]
                    .map(|index| mesh.vertices[index as usize].pos);
                let (u, v) = (b - a, c - a);
                (u.x * v.y - u.y * v.x).abs() / 2.0
            })
            .sum();
        assert!((area - (400.0 - 64.0)).abs() < 0.01, "{area}");
    }

    #[test]
    fn a_line_is_cut_at_the_region_and_none_is_left_outside() {
        let region = egui::Rect::from_min_max(pos2(0.0, 0.0), pos2(10.0, 10.0));
        let through = segment_within([pos2(-5.0, 5.0), pos2(15.0, 5.0)], region);
        assert_eq!(through, Some([pos2(0.0, 5.0), pos2(10.0, 5.0)]));
        assert_eq!(
            segment_within([pos2(-5.0, 12.0), pos2(15.0, 12.0)], region),
            None
        );
    }
}
