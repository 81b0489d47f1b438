//! A page from afar: its shapes, and a bar for each line of text, which nobody could read.

use traywright_core::drawing::{Dash, Drawing, Ink, Item, LineWeight, Paint, Rect, Stroke, at};

/// Of the height of a line of text, how much its bar takes from the top and from the bottom.
const OFF: f64 = 0.3;

/// Shapes smaller than this are left out, mm.
const LEAST: f64 = 1.5;

/// The page as it looks from afar.
pub(super) fn thumb(page: &Drawing) -> Drawing {
    let mut out = Drawing::new();
    items(page.items(), &mut out);
    out
}

fn items(items_of_page: &[Item], out: &mut Drawing) {
    for item in items_of_page {
        match item {
            Item::Text(text) => {
                let area = text.bounds();
                let cut = area.height() * OFF;
                let ink = match text.style.ink {
                    Ink::Strong => Ink::Faint,
                    Ink::Watermark => Ink::Watermark,
                    _ => Ink::Hairline,
                };
                bar(
                    Rect {
                        top: area.top + cut,
                        bottom: area.bottom - cut,
                        ..area
                    },
                    ink,
                    out,
                );
            }
            Item::Clip { items: within, .. } => items(within, out),
            Item::Group(group) => items(&group.items, out),
            Item::Polygon { rings, .. } if rings.len() > 20 => {
                // A code: from afar it is a grey square.
                if let Some(area) = item.bounds() {
                    bar(area, Ink::Faint, out);
                }
            }
            other => {
                let large = |area: Rect| area.width() > LEAST || area.height() > LEAST;
                if other.bounds().is_some_and(large) {
                    out.push(thinned(other.clone()));
                }
            }
        }
    }
}

/// Dashes would only be dust.
fn thinned(item: Item) -> Item {
    let hair = Stroke {
        dash: Dash::Solid,
        weight: LineWeight::Hair,
        ink: Ink::Hairline,
    };
    match item {
        Item::Line { points, .. } => Item::Line {
            points,
            stroke: hair,
        },
        Item::Polygon { rings, paint } => Item::Polygon {
            rings,
            paint: Paint {
                stroke: paint.stroke.map(|_| hair),
                ..paint
            },
        },
        other => other,
    }
}

fn bar(area: Rect, ink: Ink, out: &mut Drawing) {
    let ring = vec![
        at(area.left, area.top),
        at(area.right, area.top),
        at(area.right, area.bottom),
        at(area.left, area.bottom),
    ];
    out.push(Item::Polygon {
        rings: vec![ring],
        paint: Paint {
            fill: Some(ink),
            stroke: None,
        },
    });
}
