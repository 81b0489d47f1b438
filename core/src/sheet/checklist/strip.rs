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
    let heights: Vec<f64> = strip.rows.iter().map(bottom).collect();
    let room = frame.area.height() - head_height;
    let pages = pages_of(&heights, room);
    // As many on the last page as on the others.
    let count = f64::from(u32::try_from(pages.len().max(1)).unwrap_or(u32::MAX));
    let all: f64 = heights.iter().map(|height| height + GAP).sum();
    let highest = heights.iter().copied().fold(0.0, f64::max);
    let even = pages_of(&heights, f64::min(room, all / count + highest));
    let pages = if even.len() == pages.len() {
        even
    } else {
        pages
    };
    let mut rows = strip.rows.into_iter();
    pages
        .into_iter()
        .map(|count| {
            let mut page = strip.head.clone();
            let mut down = head_height;
            for row in rows.by_ref().take(count) {
                let height = bottom(&row);
                page.add_at(at(0.0, down), row);
                down += height + GAP;
            }
            Block::Picture(page)
        })
        .collect()
}

/// The number of rows on each page with so much room for them, mm; at least one.
fn pages_of(heights: &[f64], room: f64) -> Vec<usize> {
    let mut pages = Vec::new();
    let (mut rows, mut down) = (0, 0.0);
    for height in heights {
        if rows > 0 && down + height > room {
            pages.push(rows);
            (rows, down) = (0, 0.0);
        }
        rows += 1;
        down += height + GAP;
    }
    pages.push(rows);
    pages
}

/// Reach of a drawing below the origin, mm.
fn bottom(drawing: &Drawing) -> f64 {
    drawing
        .bounds()
        .map_or(0.0, |bounds: Rect| bounds.bottom.max(0.0))
}
