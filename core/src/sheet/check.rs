//! Check that every text is on its page, whole, and on no other text.

use super::page::Page;
use crate::drawing::fonts::{self, MissingGlyph};
use std::cmp::Ordering;

use crate::drawing::{Item, Point, Rect, Text};

/// A fault of a page. Pages count from 1.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A text or shape reaches beyond the page's margin.
    #[error("page {page}: {what:?} reaches beyond the margin")]
    BeyondMargin {
        /// The page.
        page: usize,
        /// The text; empty for a shape.
        what: String,
    },
    /// A clip cuts a text.
    #[error("page {page}: {text:?} is cut off")]
    CutOff {
        /// The page.
        page: usize,
        /// The text.
        text: String,
    },
    /// Two texts overlap.
    #[error("page {page}: {first:?} and {second:?} lie on each other")]
    Overlap {
        /// The page.
        page: usize,
        /// The lower text.
        first: String,
        /// The upper text.
        second: String,
    },
    /// The edge of a box runs through a text.
    #[error("page {page}: the edge of a box runs through {text:?}")]
    Struck {
        /// The page.
        page: usize,
        /// The text.
        text: String,
    },
    /// A surface that was drawn later covers a text.
    #[error("page {page}: {text:?} is covered")]
    Covered {
        /// The page.
        page: usize,
        /// The text.
        text: String,
    },
    /// A character cannot be shown.
    #[error("page {page}: {missing}")]
    MissingGlyph {
        /// The page.
        page: usize,
        /// The character and its text.
        missing: MissingGlyph,
    },
}

/// All faults of pages on which nothing may come nearer to the paper's edge than `margin_mm`.
///
/// Texts are taken as wide as their line and as high as their glyphs. Of shapes, upright boxes are
/// held against texts: a text is wholly in a box or wholly outside. Items under a page's content,
/// such as words across it, are meant to be under texts and are held only to the margin.
#[must_use]
pub fn check(pages: &[Page], margin_mm: f64) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (index, page) in pages.iter().enumerate() {
        check_page(page, index + 1, margin_mm, &mut faults);
    }
    faults
}

fn check_page(page: &Page, number: usize, margin_mm: f64, faults: &mut Vec<Fault>) {
    let room = page.paper.rect().grown(-margin_mm).grown(1e-6);
    let mut seen: Vec<(&Item, Rect)> = Vec::new();
    page.under.visit(&mut |item, clip| {
        check_item(item, clip, room, number, faults);
    });
    page.over.visit(&mut |item, clip| {
        if let Some(bounds) = check_item(item, clip, room, number, faults) {
            seen.push((item, bounds));
        }
    });
    for (index, (item, bounds)) in seen.iter().enumerate() {
        if let Item::Text(text) = item {
            // Touching within a hundredth of a millimetre is no overlap.
            let inner = bounds.grown(-0.01);
            for (place, (other, around)) in seen.iter().enumerate() {
                if place != index && inner.overlaps(*around) {
                    let order = place.cmp(&index);
                    faults.extend(clash((text, inner), (other, *around), order, number));
                }
            }
        }
    }
}

/// The fault of a text and another item whose bounds overlap it.
fn clash(
    (text, bounds): (&Text, Rect),
    (other, around): (&Item, Rect),
    order: Ordering,
    page: usize,
) -> Option<Fault> {
    let later = order == Ordering::Greater;
    match other {
        Item::Text(upper) if later => Some(Fault::Overlap {
            page,
            first: text.content.clone(),
            second: upper.content.clone(),
        }),
        Item::Polygon { rings, paint } if is_box(rings) => {
            let text = text.content.clone();
            if later && paint.fill.is_some() {
                Some(Fault::Covered { page, text })
            } else if paint.stroke.is_some() && !around.holds(bounds) {
                Some(Fault::Struck { page, text })
            } else {
                None
            }
        }
        _ => None,
    }
}

/// True if this is one upright rectangle.
fn is_box(rings: &[Vec<Point>]) -> bool {
    let level = |a: &Point, b: &Point| (a.x - b.x).abs() < 1e-9 || (a.y - b.y).abs() < 1e-9;
    match rings {
        [ring] => {
            ring.len() == 4
                && ring
                    .iter()
                    .zip(ring.iter().cycle().skip(1))
                    .all(|(a, b)| level(a, b))
        }
        _ => false,
    }
}

/// Checks one shape or text by itself and gives back its bounds.
fn check_item(
    item: &Item,
    clip: Option<Rect>,
    room: Rect,
    page: usize,
    faults: &mut Vec<Fault>,
) -> Option<Rect> {
    let whole = item.bounds()?;
    let text = match item {
        Item::Text(text) => Some(text),
        _ => None,
    };
    if let Some(text) = text {
        if let Err(missing) = fonts::shape(&text.content, text.style.face) {
            faults.push(Fault::MissingGlyph { page, missing });
        }
        if clip.is_some_and(|clip| !clip.holds(whole)) {
            faults.push(Fault::CutOff {
                page,
                text: text.content.clone(),
            });
        }
    }
    let seen = match clip {
        Some(clip) => whole.intersection(clip)?,
        None => whole,
    };
    if !room.holds(seen) {
        faults.push(Fault::BeyondMargin {
            page,
            what: text.map(|text| text.content.clone()).unwrap_or_default(),
        });
    }
    Some(seen)
}

#[cfg(test)]
mod tests {
    use super::super::page::Paper;
    use super::*;
    use crate::drawing::{Across, Along, Drawing, Ink, Paint, Stroke, TextStyle, at};

    fn page(write: impl FnOnce(&mut Drawing)) -> Vec<Page> {
        let mut page = Page::new(Paper::A4);
        write(&mut page.over);
        vec![page]
    }

    fn word(drawing: &mut Drawing, x: f64, y: f64, text: &str) {
        drawing.text(
            at(x, y),
            (Across::Start, Along::Baseline),
            TextStyle::BODY,
            text,
        );
    }

    #[test]
    fn a_good_page_has_no_fault() {
        let pages = page(|drawing| {
            word(drawing, 20.0, 20.0, "first");
            word(drawing, 20.0, 25.0, "second");
        });
        assert_eq!(check(&pages, 10.0), []);
    }

    #[test]
    fn text_and_shapes_beyond_the_margin_are_found() {
        let pages = page(|drawing| {
            word(drawing, 195.0, 20.0, "too far out");
            drawing.circle(at(5.0, 50.0), 3.0, Paint::fill(Ink::Bone));
        });
        let faults = check(&pages, 10.0);
        assert_eq!(
            faults,
            [
                Fault::BeyondMargin {
                    page: 1,
                    what: "too far out".to_owned()
                },
                Fault::BeyondMargin {
                    page: 1,
                    what: String::new()
                },
            ]
        );
    }

    #[test]
    fn texts_on_each_other_are_found_also_turned() {
        let pages = page(|drawing| {
            word(drawing, 20.0, 20.0, "lower");
            word(drawing, 22.0, 21.0, "upper");
        });
        assert_eq!(check(&pages, 10.0).len(), 1);
        let turned = page(|drawing| {
            word(drawing, 20.0, 30.0, "level");
            drawing.text_turned(
                at(22.0, 35.0),
                (Across::Start, Along::Baseline),
                TextStyle::BODY,
                "climbing",
                -90.0,
            );
        });
        assert_eq!(check(&turned, 10.0).len(), 1);
    }

    #[test]
    fn a_box_may_hold_a_text_but_not_strike_or_cover_it() {
        let outline = Paint::outline(Stroke::THIN);
        let around = Rect::new(at(18.0, 15.0), 40.0, 10.0);
        let across = Rect::new(at(25.0, 15.0), 40.0, 10.0);
        let drawn = |rect, paint| {
            page(|drawing| {
                word(drawing, 20.0, 20.0, "a long line");
                drawing.rect(rect, paint);
            })
        };
        let text = || "a long line".to_owned();
        assert_eq!(check(&drawn(around, outline), 10.0), []);
        let struck = check(&drawn(across, outline), 10.0);
        assert_eq!(
            struck,
            [Fault::Struck {
                page: 1,
                text: text()
            }]
        );
        let covered = check(&drawn(around, Paint::fill(Ink::Bone)), 10.0);
        assert_eq!(
            covered,
            [Fault::Covered {
                page: 1,
                text: text()
            }]
        );
    }

    #[test]
    fn a_text_that_a_clip_cuts_is_found() {
        let pages = page(|drawing| {
            let mut inner = Drawing::new();
            word(&mut inner, 20.0, 20.0, "a long line");
            drawing.add_clipped(Rect::new(at(20.0, 10.0), 8.0, 20.0), inner);
        });
        let faults = check(&pages, 10.0);
        assert!(matches!(&faults[..], [Fault::CutOff { .. }]), "{faults:?}");
    }

    #[test]
    fn a_character_that_no_font_has_is_found() {
        let pages = page(|drawing| word(drawing, 20.0, 20.0, "名"));
        assert_eq!(
            check(&pages, 10.0)[0].to_string(),
            "page 1: no bundled font can show U+540D in “名”"
        );
    }
}
