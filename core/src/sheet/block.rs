//! Content that flows onto pages: blocks, and the strips they are laid out as.

use super::table::Table;
use crate::drawing::{Across, Along, Drawing, Ink, TextStyle, at, fonts};
use std::rc::Rc;

/// The tie of a strip to the next one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// A page may end after it.
    Free,
    /// The next strip stays on the same page.
    WithNext,
}

/// A piece of a page that is never split. Its drawing hangs from the origin down.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Its drawing, within 0 to its height.
    pub drawing: Drawing,
    /// Its height, mm.
    pub height: f64,
    /// Its tie to the next strip.
    pub keep: Keep,
    /// The strip repeated above it where it begins a page, such as a table's head.
    pub head: Option<Rc<Strip>>,
    /// Empty room, dropped at the top of a page.
    pub is_space: bool,
}

impl Strip {
    /// A strip after which a page may end.
    #[must_use]
    pub const fn new(drawing: Drawing, height: f64) -> Self {
        Self {
            drawing,
            height,
            keep: Keep::Free,
            head: None,
            is_space: false,
        }
    }
}

/// The width of a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Width {
    /// So many millimetres.
    Mm(f64),
    /// So many parts of what the fixed ones leave.
    Share(f64),
}

impl Width {
    /// The widths in millimetres of columns that together with gaps between them fill `total_mm`.
    #[must_use]
    pub fn resolve(widths: &[Self], gap_mm: f64, total_mm: f64) -> Vec<f64> {
        let gaps = widths.iter().skip(1).map(|_| gap_mm).sum::<f64>();
        let (mut fixed, mut shares) = (0.0, 0.0);
        for width in widths {
            match width {
                Self::Mm(mm) => fixed += mm,
                Self::Share(share) => shares += share,
            }
        }
        let rest = f64::max(total_mm - gaps - fixed, 0.0);
        widths
            .iter()
            .map(|width| match width {
                Self::Mm(mm) => *mm,
                Self::Share(share) if shares > 0.0 => rest * share / shares,
                Self::Share(_) => 0.0,
            })
            .collect()
    }
}

/// One of several columns of blocks beside each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Lane {
    /// Its width.
    pub width: Width,
    /// Its content, from the top.
    pub blocks: Vec<Block>,
}

/// Something that flows onto pages.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// Empty room, mm; dropped at the top of a page.
    Space(f64),
    /// A rule across the whole width, in the given meaning, with no room around it.
    Rule(Ink),
    /// A text that stays with what follows it.
    Heading(String, TextStyle),
    /// A text that wraps. A page may end between its lines, but never after the first or before
    /// the last.
    Paragraph(String, TextStyle),
    /// A drawing in its own frame: its leftmost and topmost points come to the block's corner.
    Picture(Drawing),
    /// A drawing as [`Block::Picture`], centred in the width.
    Centred(Drawing),
    /// A table. Its rows are never split and its head is repeated.
    Table(Table),
    /// Columns beside each other with a gap, mm; they stay together on one page.
    Beside(Vec<Lane>, f64),
    /// Blocks that stay together on one page.
    Together(Vec<Block>),
    /// A block that stays with what follows it.
    Kept(Box<Block>),
}

impl Block {
    /// The block laid out in a width, as strips from the top down.
    #[must_use]
    pub fn to_strips(&self, width_mm: f64) -> Vec<Strip> {
        match self {
            Self::Space(height) => vec![Strip {
                is_space: true,
                ..Strip::new(Drawing::new(), *height)
            }],
            Self::Rule(ink) => {
                let mut drawing = Drawing::new();
                let stroke = crate::drawing::Stroke::new(*ink, crate::drawing::LineWeight::Thin);
                drawing.line(at(0.0, 0.0), at(width_mm, 0.0), stroke);
                vec![Strip::new(drawing, 0.0)]
            }
            Self::Heading(text, style) => {
                kept_together(lines(text, *style, width_mm), Keep::WithNext)
            }
            Self::Paragraph(text, style) => {
                let mut strips = lines(text, *style, width_mm);
                let last = strips.len();
                for (index, strip) in strips.iter_mut().enumerate() {
                    let is_edge = index == 0 || index + 2 == last;
                    if is_edge && index + 1 < last {
                        strip.keep = Keep::WithNext;
                    }
                }
                strips
            }
            Self::Picture(drawing) => vec![picture(drawing, None)],
            Self::Centred(drawing) => vec![picture(drawing, Some(width_mm))],
            Self::Table(table) => table.to_strips(width_mm),
            Self::Beside(lanes, gap) => vec![beside(lanes, *gap, width_mm)],
            Self::Kept(block) => kept_together(block.to_strips(width_mm), Keep::WithNext),
            Self::Together(blocks) => kept_together(
                blocks
                    .iter()
                    .flat_map(|block| block.to_strips(width_mm))
                    .collect(),
                Keep::Free,
            ),
        }
    }
}

/// One strip per line of a wrapped text.
fn lines(text: &str, style: TextStyle, width_mm: f64) -> Vec<Strip> {
    fonts::wrap(text, style.face, style.size_mm, width_mm)
        .into_iter()
        .map(|line| {
            let mut drawing = Drawing::new();
            if !line.is_empty() {
                drawing.text(
                    at(0.0, style.ascent()),
                    (Across::Start, Along::Baseline),
                    style,
                    line,
                );
            }
            Strip::new(drawing, style.line_height())
        })
        .collect()
}

fn kept_together(mut strips: Vec<Strip>, after: Keep) -> Vec<Strip> {
    if let Some((last, others)) = strips.split_last_mut() {
        for strip in others {
            strip.keep = Keep::WithNext;
        }
        last.keep = after;
    }
    strips
}

fn picture(drawing: &Drawing, centre_in: Option<f64>) -> Strip {
    let Some(bounds) = drawing.bounds() else {
        return Strip::new(Drawing::new(), 0.0);
    };
    let left = centre_in.map_or(0.0, |width| (width - bounds.width()) / 2.0);
    let moved = drawing.clone().moved(at(left - bounds.left, -bounds.top));
    Strip::new(moved, bounds.height())
}

fn beside(lanes: &[Lane], gap_mm: f64, width_mm: f64) -> Strip {
    let widths: Vec<Width> = lanes.iter().map(|lane| lane.width).collect();
    let mut drawing = Drawing::new();
    let (mut left, mut height) = (0.0, 0.0);
    for (lane, width) in lanes.iter().zip(Width::resolve(&widths, gap_mm, width_mm)) {
        let mut down = 0.0;
        for strip in lane.blocks.iter().flat_map(|block| block.to_strips(width)) {
            drawing.add_at(at(left, down), strip.drawing);
            down += strip.height;
        }
        height = f64::max(height, down);
        left += width + gap_mm;
    }
    Strip::new(drawing, height)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn widths_fill_the_total_with_their_gaps() {
        let widths = [Width::Mm(20.0), Width::Share(1.0), Width::Share(3.0)];
        assert_eq!(Width::resolve(&widths, 2.0, 104.0), [20.0, 20.0, 60.0]);
        // Fixed widths that are too much leave nothing, never a negative rest.
        assert_eq!(Width::resolve(&widths, 2.0, 10.0), [20.0, 0.0, 0.0]);
    }

    #[test]
    fn a_paragraph_never_leaves_one_line_alone() {
        let text = "one two three four five six seven eight nine ten";
        let strips = Block::Paragraph(text.to_owned(), TextStyle::BODY).to_strips(14.0);
        assert!(strips.len() > 3);
        assert_eq!(strips[0].keep, Keep::WithNext);
        assert_eq!(strips[strips.len() - 2].keep, Keep::WithNext);
        assert_eq!(strips[strips.len() - 1].keep, Keep::Free);
        assert_eq!(strips[1].keep, Keep::Free);
    }

    #[test]
    fn text_stays_within_the_height_of_its_strip() {
        let strips = Block::Paragraph("Ắgy ÇjḀǺ".to_owned(), TextStyle::BODY).to_strips(50.0);
        let bounds = strips[0].drawing.bounds().unwrap();
        assert!(bounds.top >= 0.0 && bounds.bottom <= strips[0].height);
    }

    #[test]
    fn lanes_stand_beside_each_other_and_the_highest_counts() {
        let lane = |text: &str| Lane {
            width: Width::Share(1.0),
            blocks: vec![Block::Paragraph(text.to_owned(), TextStyle::BODY)],
        };
        let block = Block::Beside(vec![lane("one"), lane("one\ntwo\nthree")], 4.0);
        let strips = block.to_strips(64.0);
        assert_eq!(strips.len(), 1);
        assert!((strips[0].height - 3.0 * TextStyle::BODY.line_height()).abs() < 1e-9);
        assert!((strips[0].drawing.texts()[1].place.x - 34.0).abs() < 1e-9);
    }

    #[test]
    fn a_picture_comes_to_the_corner() {
        let mut drawing = Drawing::new();
        drawing.line(at(-5.0, 7.0), at(5.0, 9.0), crate::drawing::Stroke::THIN);
        let strip = &Block::Centred(drawing).to_strips(20.0)[0];
        let bounds = strip.drawing.bounds().unwrap();
        assert_eq!((bounds.left, bounds.top, strip.height), (5.0, 0.0, 2.0));
    }
}
