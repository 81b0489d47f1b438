//! The true-scale strip: each drill with its stop, as large as life, under a ruler to check first.

use super::Source;
use super::loading::set_items;
use super::pieces::body;
use crate::charts::true_scale;
use crate::drawing::{Drawing, Rect, at};
use crate::kit::SiteId;
use crate::sheet::{Block, Frame};

/// Between two drills, mm.
const GAP: f64 = 3.0;

/// True if there is a drill with a setting to lay on it.
pub(super) fn is_needed(source: &Source<'_>) -> bool {
    set_items(source).next().is_some()
}

/// The strip, its head and ruler on every page: each page is printed at a scale of its own.
pub(super) fn blocks(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let formatter = &source.formatter;
    if !is_needed(source) {
        return vec![body(formatter.word("sheet-strip-none"))];
    }
    let site_name = |id: &SiteId| formatter.site(id);
    let strip = true_scale(
        source.case,
        source.worksheet,
        &site_name,
        frame.area.width(),
        formatter.texts,
    );
    let head_height = bottom(&strip.head) + GAP;
    let mut blocks = Vec::new();
    let mut page = strip.head.clone();
    let mut down = head_height;
    let mut rows = 0;
    for row in strip.rows {
        let height = bottom(&row);
        if rows > 0 && down + height > frame.area.height() {
            blocks.push(Block::Picture(page));
            page = strip.head.clone();
            down = head_height;
            rows = 0;
        }
        page.add_at(at(0.0, down), row);
        down += height + GAP;
        rows += 1;
    }
    blocks.push(Block::Picture(page));
    blocks
}

/// Reach of a drawing below the origin, mm.
fn bottom(drawing: &Drawing) -> f64 {
    drawing
        .bounds()
        .map_or(0.0, |bounds: Rect| bounds.bottom.max(0.0))
}
