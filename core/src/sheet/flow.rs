//! Strips onto pages.

use super::block::{Block, Keep, Strip};
use super::error::SheetError;
use super::page::{Frame, Page};
use crate::drawing::at;

/// Lets blocks flow down the frame and onto new pages.
#[derive(Debug)]
pub struct Flow {
    /// Of the first page.
    first: Frame,
    /// Of every other page, as wide as the first.
    further: Frame,
    pages: Vec<Page>,
    /// Height down to which the frame of the last page is filled, mm.
    filled: f64,
    /// Height down to which each page before the last one is filled, mm.
    before: Vec<f64>,
    /// A page, counted from 0, that ends so much earlier, mm.
    shorter: Option<(usize, f64)>,
    /// Strips that wait for the one they must stay with.
    waiting: Vec<Strip>,
}

/// Pages, and the height down to which each is filled, mm.
type Filled = (Vec<Page>, Vec<f64>);

/// The pages of blocks. Where the last one would be less than a third full, the one before it ends earlier, if
/// that makes both of them at least that full.
///
/// # Errors
///
/// Strips that must stay together are higher than a page.
pub fn flowed(blocks: &[Block], first: Frame, further: Frame) -> Result<Vec<Page>, SheetError> {
    /// By how much more the page before ends earlier, mm.
    const STEP: f64 = 4.0;
    let lay = |shorter| -> Result<Filled, SheetError> {
        let mut flow = Flow {
            shorter,
            ..Flow::beginning(first, further)
        };
        for block in blocks {
            flow.add(block)?;
        }
        flow.settle()?;
        flow.before.push(flow.filled);
        Ok((flow.pages, flow.before))
    };
    let (pages, filled) = lay(None)?;
    let least = further.area.height() / 3.0;
    let Some(before) = pages.len().checked_sub(2) else {
        return Ok(pages);
    };
    if filled[before + 1] >= least {
        return Ok(pages);
    }
    let steps = std::iter::successors(Some(STEP), |cut| Some(cut + STEP));
    for cut in steps.take_while(|cut| *cut < further.area.height() - least) {
        // What does not fit any more, or needs another page, is left as it was.
        let Ok((other, filled)) = lay(Some((before, cut))) else {
            break;
        };
        if other.len() != pages.len() {
            break;
        }
        if filled[before..].iter().all(|one| *one >= least) {
            return Ok(other);
        }
    }
    Ok(pages)
}

impl Flow {
    /// Begins on a first, empty page.
    #[must_use]
    pub fn new(frame: Frame) -> Self {
        Self::beginning(frame, frame)
    }

    /// The same with a first page whose frame begins or ends at another height than that of
    /// further pages; both are equally wide.
    #[must_use]
    pub fn beginning(first: Frame, further: Frame) -> Self {
        Self {
            first,
            further,
            pages: vec![Page::new(first.paper)],
            filled: 0.0,
            before: Vec::new(),
            shorter: None,
            waiting: Vec::new(),
        }
    }

    /// Adds a block below what is there.
    ///
    /// # Errors
    ///
    /// Strips that must stay together are higher than a page.
    pub fn add(&mut self, block: &Block) -> Result<(), SheetError> {
        for mut strip in block.to_strips(self.first.area.width()) {
            // Room within what waits belongs to it: a heading is not parted from its text by it.
            if strip.is_space && !self.waiting.is_empty() {
                strip.keep = Keep::WithNext;
            }
            let keep = strip.keep;
            self.waiting.push(strip);
            if keep == Keep::Free {
                self.settle()?;
            }
        }
        Ok(())
    }

    /// Goes on on a new page, unless the last one is still empty.
    ///
    /// # Errors
    ///
    /// Strips that must stay together are higher than a page.
    pub fn new_page(&mut self) -> Result<(), SheetError> {
        self.settle()?;
        if self.filled > 0.0 {
            self.begin_page();
        }
        Ok(())
    }

    /// Number of pages so far.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.pages.len()
    }

    /// The pages.
    ///
    /// # Errors
    ///
    /// Strips that must stay together are higher than a page.
    pub fn finish(mut self) -> Result<Vec<Page>, SheetError> {
        self.settle()?;
        Ok(self.pages)
    }

    fn begin_page(&mut self) {
        self.pages.push(Page::new(self.further.paper));
        self.before.push(self.filled);
        self.filled = 0.0;
    }

    /// The frame of the last page.
    const fn frame(&self) -> Frame {
        if self.pages.len() > 1 {
            self.further
        } else {
            self.first
        }
    }

    /// Places what waits, all of it on one page.
    fn settle(&mut self) -> Result<(), SheetError> {
        let strips = std::mem::take(&mut self.waiting);
        let height: f64 = strips.iter().map(|strip| strip.height).sum();
        if strips.iter().all(|strip| strip.is_space) {
            // Room at the top or the very bottom of a page is dropped.
            if self.filled > 0.0 {
                self.filled += height;
            }
            return Ok(());
        }
        if self.filled > 0.0 && self.filled + height > self.room() {
            self.begin_page();
        }
        if self.filled > 0.0 {
            return self.place(strips, height);
        }
        let mut strips: Vec<Strip> = strips
            .into_iter()
            .skip_while(|strip| strip.is_space)
            .collect();
        if let Some(head) = strips.first().and_then(|strip| strip.head.clone()) {
            strips.insert(0, Strip::clone(&head));
        }
        let height = strips.iter().map(|strip| strip.height).sum();
        self.place(strips, height)
    }

    /// Height of the last page's frame, mm, and a hair, so that sums of heights that fill a page
    /// exactly do fit.
    fn room(&self) -> f64 {
        let shorter = match self.shorter {
            Some((page, by)) if page + 1 == self.pages.len() => by,
            _ => 0.0,
        };
        self.frame().area.height() - shorter + 1e-6
    }

    fn place(&mut self, strips: Vec<Strip>, height: f64) -> Result<(), SheetError> {
        let room = self.room();
        if self.filled + height > room {
            let words = strips.iter().find_map(|strip| {
                let texts = strip.drawing.texts();
                texts.first().map(|text| text.content.clone())
            });
            return Err(SheetError::TooTall {
                what: words.unwrap_or_default(),
                height_mm: height,
                room_mm: room,
            });
        }
        let frame = self.frame();
        let corner = at(frame.area.left, frame.area.top);
        let Some(page) = self.pages.last_mut() else {
            return Ok(());
        };
        for strip in strips {
            page.over
                .add_at(corner + at(0.0, self.filled), strip.drawing);
            self.filled += strip.height;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::super::block::Width;
    use super::super::page::Paper;
    use super::super::table::{Cell, Column, Row, Table};
    use super::*;
    use crate::drawing::{Across, TextStyle};
    use crate::text::Texts;

    fn frame() -> Frame {
        Frame::inset(Paper::A4, 20.0, 20.0, 177.0)
    }

    fn paragraph(text: &str) -> Block {
        Block::Paragraph(text.to_owned(), TextStyle::BODY)
    }

    fn words(page: &Page) -> Vec<&str> {
        page.over
            .texts()
            .into_iter()
            .map(|text| text.content.as_str())
            .collect()
    }

    fn table(rows: usize) -> Block {
        Block::Table(Table {
            columns: vec![Column {
                head: "item".to_owned(),
                width: Width::Share(1.0),
                align: Across::Start,
            }],
            rows: (1..=rows)
                .map(|row| Row::Cells(vec![Cell::body(format!("row {row}"))]))
                .collect(),
            padding_mm: 2.0,
            gap_mm: Table::GAP,
        })
    }

    #[test]
    fn rows_are_all_there_in_order_and_each_page_repeats_the_head() {
        let mut flow = Flow::new(frame());
        flow.add(&table(60)).unwrap();
        let pages = flow.finish().unwrap();
        assert!(pages.len() > 2);
        let mut rows = Vec::new();
        for page in &pages {
            let words = words(page);
            assert_eq!(words[0], "item");
            rows.extend(words[1..].iter().map(|word| (*word).to_owned()));
        }
        let expected: Vec<String> = (1..=60).map(|row| format!("row {row}")).collect();
        assert_eq!(rows, expected);
    }

    #[test]
    fn nothing_flows_out_of_the_frame() {
        let mut flow = Flow::new(frame());
        for _ in 0..3 {
            flow.add(&paragraph(&"word ".repeat(200))).unwrap();
            flow.add(&Block::Space(7.3)).unwrap();
            flow.add(&table(11)).unwrap();
        }
        for page in flow.finish().unwrap() {
            let bounds = page.over.bounds().unwrap();
            assert!(frame().area.grown(1e-6).holds(bounds), "{bounds:?}");
        }
    }

    #[test]
    fn a_heading_goes_to_the_next_page_with_what_follows() {
        let line = TextStyle::BODY.line_height();
        let mut flow = Flow::new(frame());
        flow.add(&Block::Space(1.0)).unwrap();
        flow.add(&paragraph("first")).unwrap();
        let left = frame().area.height() - line;
        flow.add(&Block::Space(left - TextStyle::HEADING.line_height() - 2.5))
            .unwrap();
        flow.add(&Block::Heading("heading".to_owned(), TextStyle::HEADING))
            .unwrap();
        flow.add(&Block::Space(2.0)).unwrap();
        flow.add(&paragraph("text")).unwrap();
        let pages = flow.finish().unwrap();
        assert_eq!(words(&pages[0]), ["first"]);
        assert_eq!(words(&pages[1]), ["heading", "text"]);
    }

    #[test]
    fn room_at_the_top_of_a_page_is_dropped() {
        let mut flow = Flow::new(frame());
        flow.add(&Block::Space(50.0)).unwrap();
        flow.add(&paragraph("first")).unwrap();
        let pages = flow.finish().unwrap();
        assert!(pages[0].over.texts()[0].bounds().top < 25.0);
    }

    #[test]
    fn what_is_higher_than_a_page_and_must_stay_together_is_refused_by_name() {
        let mut flow = Flow::new(frame());
        let tall = Block::Together(vec![paragraph(&"word\n".repeat(60))]);
        let refused = flow.add(&tall).unwrap_err().words(Texts::english());
        assert!(refused.starts_with("\"word\" is "), "{refused}");
        assert!(
            refused.contains(" mm high and must stay together"),
            "{refused}"
        );
    }

    /// Down to where a page is filled, as a part of its frame.
    fn fullness(page: &Page) -> f64 {
        let bottom = page.over.bounds().unwrap().bottom;
        (bottom - frame().area.top) / frame().area.height()
    }

    #[test]
    fn the_last_page_is_a_third_full_where_rows_can_be_moved_to_it() {
        let rows = |rows| {
            let pages = flowed(&[table(rows)], frame(), frame()).unwrap();
            let plain = {
                let mut flow = Flow::new(frame());
                flow.add(&table(rows)).unwrap();
                flow.finish().unwrap()
            };
            assert_eq!(pages.len(), plain.len());
            let words = |pages: &[Page]| {
                let all = pages.iter().flat_map(|page| words(page)).map(str::to_owned);
                all.filter(|word| word != "item").collect::<Vec<_>>()
            };
            assert_eq!(words(&pages), words(&plain));
            let full = |pages: &[Page]| pages.iter().map(fullness).fold(1.0, f64::min);
            (pages.len(), full(&plain), full(&pages))
        };
        let mut mended = 0;
        for count in 20..80 {
            let (pages, before, after) = rows(count);
            if pages > 1 {
                assert!(after > 0.32, "{count}: {before} became {after}");
                mended += usize::from(before < 0.3);
            }
        }
        assert!(mended > 2, "{mended}");
    }

    #[test]
    fn a_new_page_is_not_begun_twice() {
        let mut flow = Flow::new(frame());
        flow.new_page().unwrap();
        flow.add(&paragraph("first")).unwrap();
        flow.new_page().unwrap();
        flow.new_page().unwrap();
        flow.add(&paragraph("second")).unwrap();
        assert_eq!(flow.finish().unwrap().len(), 2);
    }
}
