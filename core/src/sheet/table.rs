//! Tables: columns, rows that are never split, a head that is repeated on every page.

use super::block::{Keep, Strip, Width};
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Mark, Paint, Rect, Stroke, TextStyle, at, fonts,
};
use std::rc::Rc;

/// Between the parts of a cell that are beside each other, mm.
const PART_GAP: f64 = 1.7;
/// Between the parts of a cell that are below each other, mm: of running text, the highest accented
/// capital clears the deepest letter above it.
const STACK_GAP: f64 = 1.95;
/// From what a cell blackens to the edge of its row, mm: a copier lets what is nearer run together (looked at, no source).
const CLEAR: f64 = 0.26;
/// Room above and below what has several lines, mm: rows are about as far apart as lines, with a rule
/// between them.
const SEVERAL: f64 = 0.7;
/// More room over a row that belongs to the next one, mm: without the rule above it it is nearer to that.
const BEFORE: f64 = 0.9;
/// Side of a box to tick, mm.
pub(super) const TICK_BOX: f64 = 3.6;

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Its words in the head.
    pub head: String,
    /// Its width.
    pub width: Width,
    /// Alignment of its cells in the column.
    pub align: Across,
}

/// The content of a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// A text that wraps.
    Text(String, TextStyle),
    /// A verdict's mark; its word goes beside it.
    Mark(Mark),
    /// A drawing.
    Picture(Drawing),
    /// A box as wide as the column and so many millimetres high, to write in.
    WriteBox(f64),
    /// A small box to tick.
    TickBox,
    /// The same, ticked.
    TickedBox,
    /// Cells below each other.
    Stack(Vec<Cell>),
    /// Cells beside each other, each as narrow as it can be; the last may wrap.
    Beside(Vec<Cell>),
    /// A cell at the end of the width, and one in what is left before it.
    Ends(Box<Cell>, Box<Cell>),
    /// One cell over so many columns.
    Across(usize, Box<Cell>),
}

impl Cell {
    /// A cell of running text.
    #[must_use]
    pub fn body(text: impl Into<String>) -> Self {
        Self::Text(text.into(), TextStyle::BODY)
    }

    /// The cell itself, or the one that goes over several columns.
    fn inner(&self) -> &Self {
        match self {
            Self::Across(_, inner) => inner,
            other => other,
        }
    }
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Row {
    /// One cell per column; the last of fewer takes up the room of the missing ones.
    Cells(Vec<Cell>),
    /// Cells that stay with the row after, and have no line below.
    Before(Vec<Cell>),
    /// Cells that stay with the row before.
    After(Vec<Cell>),
    /// Cells on shade that stay with the rows before and after: nothing below is done before all
    /// above.
    Barrier(Vec<Cell>),
    /// Words across all columns that stay with the next row.
    Section(String),
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its columns from left to right.
    pub columns: Vec<Column>,
    /// Its rows from the top.
    pub rows: Vec<Row>,
    /// Room above and below the content of each row, mm.
    pub padding_mm: f64,
    /// Between columns, mm.
    pub gap_mm: f64,
}

/// A laid-out cell: its top left corner at the origin.
struct Inner {
    drawing: Drawing,
    width: f64,
    height: f64,
    /// How far it blackens above its top and below its bottom, mm: accents, brackets, what hangs below a line.
    beyond: (f64, f64),
}

impl Inner {
    /// What stays within its height.
    const fn within(drawing: Drawing, width: f64, height: f64) -> Self {
        Self {
            drawing,
            width,
            height,
            beyond: (0.0, 0.0),
        }
    }

    /// The same where it has this much more room above and below.
    fn beyond_room(&self, (above, below): (f64, f64)) -> (f64, f64) {
        (
            f64::max(self.beyond.0 - above, 0.0),
            f64::max(self.beyond.1 - below, 0.0),
        )
    }
}

/// The greater of each.
fn most(one: (f64, f64), other: (f64, f64)) -> (f64, f64) {
    (f64::max(one.0, other.0), f64::max(one.1, other.1))
}

impl Table {
    /// Between columns where there is room, mm.
    pub const GAP: f64 = 3.0;

    const HEAD: TextStyle = TextStyle::NOTE;

    /// The table as strips: the head, then one strip per row that repeats the head where needed.
    #[must_use]
    pub fn to_strips(&self, width_mm: f64) -> Vec<Strip> {
        let widths: Vec<Width> = self.columns.iter().map(|column| column.width).collect();
        let widths = Width::resolve(&widths, self.gap_mm, width_mm);
        let head = Rc::new(self.head_strip(&widths, width_mm));
        let mut strips = vec![Strip::clone(&head)];
        for (index, row) in self.rows.iter().enumerate() {
            let mut strip = match row {
                Row::Cells(cells) | Row::After(cells) => {
                    let next = self.rows.get(index + 1);
                    let foot = if next.is_some_and(goes_on) {
                        Line::None
                    } else {
                        Line::Below
                    };
                    self.row_strip(cells, &widths, width_mm, foot)
                }
                Row::Before(cells) => {
                    let row = self.row_strip(cells, &widths, width_mm, Line::None);
                    let mut drawing = Drawing::new();
                    drawing.add_at(at(0.0, BEFORE), row.drawing);
                    Strip {
                        keep: Keep::WithNext,
                        ..Strip::new(drawing, BEFORE + row.height)
                    }
                }
                Row::Barrier(cells) => Strip {
                    keep: Keep::WithNext,
                    ..shaded(
                        self.row_strip(cells, &widths, width_mm, Line::Below),
                        width_mm,
                    )
                },
                Row::Section(words) => section(words, width_mm, self.padding_mm),
            };
            match self.rows.get(index + 1) {
                None => strip.keep = Keep::Free,
                Some(Row::After(_) | Row::Barrier(_)) => strip.keep = Keep::WithNext,
                Some(Row::Cells(_) | Row::Before(_) | Row::Section(_)) => {}
            }
            strip.head = Some(Rc::clone(&head));
            strips.push(strip);
        }
        strips
    }

    fn head_strip(&self, widths: &[f64], width_mm: f64) -> Strip {
        let cells: Vec<Cell> = self
            .columns
            .iter()
            .map(|column| Cell::Text(column.head.clone(), Self::HEAD))
            .collect();
        // Where no column has words the head is a line alone.
        let wordless = self.columns.iter().all(|column| column.head.is_empty());
        let (mut drawing, height) = if wordless {
            (Drawing::new(), 0.0)
        } else {
            self.draw_cells(&cells, widths, Foot::Bottom)
        };
        let stroke = Stroke::new(Ink::Strong, LineWeight::Medium);
        drawing.line(at(0.0, height), at(width_mm, height), stroke);
        Strip {
            keep: Keep::WithNext,
            ..Strip::new(drawing, height)
        }
    }

    fn row_strip(&self, cells: &[Cell], widths: &[f64], width_mm: f64, line: Line) -> Strip {
        let (mut drawing, height) = self.draw_cells(cells, widths, Foot::Middle);
        if matches!(line, Line::Below) {
            drawing.line(at(0.0, height), at(width_mm, height), Stroke::HAIRLINE);
        }
        Strip::new(drawing, height)
    }

    /// Cells in their columns; the row is as high as its highest cell with padding.
    fn draw_cells(&self, cells: &[Cell], widths: &[f64], foot: Foot) -> (Drawing, f64) {
        let mut contents: Vec<(f64, Inner)> = Vec::new();
        let (mut left, mut column) = (0.0, 0);
        for (index, cell) in cells.iter().enumerate() {
            let room = widths.get(column..).unwrap_or_default();
            let (wanted, cell) = match cell {
                // The last cell of a short row has the room of all that are missing.
                _ if index + 1 == cells.len() => (room.len(), cell.inner()),
                Cell::Across(columns, inner) => (*columns, &**inner),
                other => (1, other),
            };
            let span = &room[..wanted.clamp(0, room.len())];
            let (Some(first), false) = (self.columns.get(column), span.is_empty()) else {
                break;
            };
            let width =
                span.iter().sum::<f64>() + span[1..].iter().map(|_| self.gap_mm).sum::<f64>();
            let inner = cell_content(cell, width, first.align);
            let shift = aligned(first.align, width - inner.width);
            contents.push((left + shift, inner));
            left += width + self.gap_mm;
            column += span.len();
        }
        let highest = contents.iter().map(|(_, inner)| inner.height);
        let highest = highest.fold(0.0, f64::max);
        let spare = |inner: &Inner| {
            let all = highest - inner.height;
            match foot {
                Foot::Middle => (all / 2.0, all / 2.0),
                Foot::Bottom => (all, 0.0),
            }
        };
        // Nothing touches the lines or the rows beside it.
        let beyond = contents
            .iter()
            .map(|(_, inner)| inner.beyond_room(spare(inner)));
        let beyond = beyond.fold((0.0, 0.0), most);
        let above = f64::max(self.padding_mm, beyond.0 + CLEAR);
        let below = f64::max(self.padding_mm, beyond.1 + CLEAR);
        let height = above + highest + below;
        let mut drawing = Drawing::new();
        for (left, inner) in contents {
            let down = above + spare(&inner).0;
            drawing.add_at(at(left, down), inner.drawing);
        }
        (drawing, height)
    }
}

/// A row ends with a line or goes on.
#[derive(Clone, Copy)]
enum Line {
    Below,
    None,
}

/// True if it says more of the row before: it has nothing in its first column.
fn goes_on(row: &Row) -> bool {
    matches!(row, Row::After(cells) if matches!(cells.first(), Some(Cell::Empty)))
}

/// Place within the row of a cell that is lower than it.
#[derive(Clone, Copy)]
enum Foot {
    Middle,
    Bottom,
}

/// Share of the spare room to the left.
fn aligned(align: Across, spare: f64) -> f64 {
    match align {
        Across::Start => 0.0,
        Across::Middle => spare / 2.0,
        Across::End => spare,
    }
}

/// From the top of a row to its shade, mm: what hangs below a letter of the row before stays clear of it.
const BELOW: f64 = 0.3;

/// A row on shade.
fn shaded(row: Strip, width_mm: f64) -> Strip {
    let mut drawing = Drawing::new();
    drawing.rect(
        Rect::new(at(0.0, BELOW), width_mm, row.height - BELOW),
        Paint::fill(Ink::Shade),
    );
    drawing.add(row.drawing);
    Strip { drawing, ..row }
}

fn section(words: &str, width_mm: f64, padding_mm: f64) -> Strip {
    let style = TextStyle::STRONG;
    let padding = f64::clamp(padding_mm, 1.2, style.size_mm * 0.6);
    let inner = text(words, style, width_mm, Across::Start);
    let height = inner.height + 2.0 * padding;
    let mut drawing = Drawing::new();
    drawing.rect(
        Rect::new(at(0.0, BELOW), width_mm, height - BELOW),
        Paint::fill(Ink::Shade),
    );
    drawing.add_at(at(0.0, padding), inner.drawing);
    drawing.line(at(0.0, height), at(width_mm, height), Stroke::HAIRLINE);
    Strip {
        keep: Keep::WithNext,
        ..Strip::new(drawing, height)
    }
}

fn cell_content(cell: &Cell, width: f64, align: Across) -> Inner {
    match cell {
        Cell::Empty => Inner::within(Drawing::new(), 0.0, 0.0),
        Cell::Text(content, style) => text(content, *style, width, align),
        Cell::Mark(mark) => {
            let size = 3.4;
            let mut drawing = Drawing::new();
            drawing.mark(at(size / 2.0, size / 2.0), size, *mark);
            Inner::within(drawing, size, size)
        }
        Cell::Picture(picture) => {
            let Some(bounds) = picture.bounds() else {
                return cell_content(&Cell::Empty, width, align);
            };
            let moved = picture.clone().moved(at(-bounds.left, -bounds.top));
            Inner::within(moved, bounds.width(), bounds.height())
        }
        Cell::WriteBox(height) => boxed(width, *height),
        Cell::TickBox => boxed(TICK_BOX, TICK_BOX),
        Cell::TickedBox => ticked(),
        Cell::Stack(cells) => stacked(cells, width, align),
        Cell::Beside(cells) => side_by_side(cells, width),
        Cell::Ends(first, last) => at_both_ends(first, last, width),
        Cell::Across(_, inner) => cell_content(inner, width, align),
    }
}

fn at_both_ends(first: &Cell, last: &Cell, width: f64) -> Inner {
    let last = cell_content(last, width, Across::Start);
    let left = f64::max(width - last.width, 0.0);
    let first = cell_content(first, f64::max(left - PART_GAP, 0.0), Across::Start);
    centred(vec![(0.0, first), (left, last)], width)
}

/// Cells beside each other at these places, each in the middle of the height of the highest.
fn centred(contents: Vec<(f64, Inner)>, width: f64) -> Inner {
    let height = contents.iter().map(|(_, inner)| inner.height);
    let height = height.fold(0.0, f64::max);
    let mut drawing = Drawing::new();
    let mut beyond = (0.0, 0.0);
    for (left, inner) in contents {
        let spare = (height - inner.height) / 2.0;
        beyond = most(beyond, inner.beyond_room((spare, spare)));
        drawing.add_at(at(left, spare), inner.drawing);
    }
    Inner {
        drawing,
        width,
        height,
        beyond,
    }
}

fn boxed(width: f64, height: f64) -> Inner {
    let mut drawing = Drawing::new();
    drawing.rect(
        Rect::new(at(0.0, 0.0), width, height),
        // What cannot be ticked is not done: a box has to outlast a copier.
        Paint::both(Ink::Ground, Stroke::OUTLINE),
    );
    Inner::within(drawing, width, height)
}

/// A tick from edge to edge of its box, as thick as its outline at least: a copier leaves it.
fn ticked() -> Inner {
    let mut inner = boxed(TICK_BOX, TICK_BOX);
    let place = |across: f64, down: f64| at(TICK_BOX * across, TICK_BOX * down);
    let points = [place(0.16, 0.52), place(0.42, 0.8), place(0.86, 0.16)];
    inner.drawing.polyline(points, Stroke::OUTLINE);
    inner
}

/// From the top of the first line's capitals to the last baseline.
fn text(content: &str, style: TextStyle, width: f64, align: Across) -> Inner {
    let lines = fonts::wrap(content, style.face, style.size_mm, width);
    let widest = lines
        .iter()
        .map(|line| style.width(line))
        .fold(0.0, f64::max);
    let ink = |line: Option<&String>| {
        let line = line.map(String::as_str).unwrap_or_default();
        fonts::ink_extent(line, style.face, style.size_mm)
    };
    let above = f64::max(ink(lines.first()).0 - style.cap_height(), 0.0);
    let beyond = several(lines.len(), (above, f64::max(ink(lines.last()).1, 0.0)));
    let mut drawing = Drawing::new();
    let mut height = 0.0;
    for line in lines {
        let baseline = if height > 0.0 {
            height + style.line_height()
        } else {
            style.cap_height()
        };
        height = baseline;
        if !line.is_empty() {
            drawing.text(
                at(aligned(align, widest), baseline),
                (align, Along::Baseline),
                style,
                line,
            );
        }
    }
    Inner {
        drawing,
        width: widest,
        height,
        beyond,
    }
}

fn stacked(cells: &[Cell], width: f64, align: Across) -> Inner {
    let contents: Vec<Inner> = cells
        .iter()
        .map(|cell| cell_content(cell, width, align))
        .collect();
    let widest = contents.iter().map(|inner| inner.width).fold(0.0, f64::max);
    let above = contents.first().map_or(0.0, |inner| inner.beyond.0);
    let below = contents.last().map_or(0.0, |inner| inner.beyond.1);
    let beyond = several(contents.len(), (above, below));
    let mut drawing = Drawing::new();
    let mut height = 0.0;
    for inner in contents {
        if height > 0.0 {
            height += STACK_GAP;
        }
        let shift = aligned(align, widest - inner.width);
        drawing.add_at(at(shift, height), inner.drawing);
        height += inner.height;
    }
    Inner {
        drawing,
        width: widest,
        height,
        beyond,
    }
}

/// How far so many lines reach beyond their top and bottom, with the room that several need.
fn several(lines: usize, beyond: (f64, f64)) -> (f64, f64) {
    if lines > 1 {
        most(beyond, (SEVERAL - CLEAR, SEVERAL - CLEAR))
    } else {
        beyond
    }
}

fn side_by_side(cells: &[Cell], width: f64) -> Inner {
    let mut left = 0.0;
    let mut contents = Vec::new();
    for cell in cells {
        if !contents.is_empty() {
            left += PART_GAP;
        }
        let inner = cell_content(cell, width - left, Across::Start);
        let next = left + inner.width;
        contents.push((left, inner));
        left = next;
    }
    centred(contents, left)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(rows: Vec<Row>) -> Table {
        let column = |head: &str, width, align| Column {
            head: head.to_owned(),
            width,
            align,
        };
        Table {
            columns: vec![
                column("step", Width::Share(1.0), Across::Start),
                column("set, mm", Width::Mm(20.0), Across::End),
                column("read", Width::Mm(15.0), Across::Middle),
            ],
            rows,
            padding_mm: 2.0,
            gap_mm: Table::GAP,
        }
    }

    fn cells(step: &str, figure: &str) -> Row {
        Row::Cells(vec![
            Cell::body(step),
            Cell::Text(figure.to_owned(), TextStyle::FIGURE),
            Cell::WriteBox(8.0),
        ])
    }

    #[test]
    fn figures_end_on_one_line_and_their_digits_stand_below_each_other() {
        let strips = table(vec![cells("pilot", "21.4"), cells("profile", "9.7")]).to_strips(90.0);
        let end = |strip: &Strip| strip.drawing.texts()[1].bounds().right;
        assert!((end(&strips[1]) - end(&strips[2])).abs() < 1e-9);
        assert!((end(&strips[1]) - 72.0).abs() < 1e-9);
    }

    #[test]
    fn a_long_text_wraps_and_makes_its_row_higher() {
        let strips = table(vec![
            cells("pilot", "21.4"),
            cells(
                "a name that is much too long for the column in which it has to stand, and so \
                 it goes on for four lines and makes its row higher than the box beside it",
                "9.7",
            ),
        ])
        .to_strips(90.0);
        assert!(strips[2].height > strips[1].height + 3.0);
        let column = 90.0 - 20.0 - 15.0 - 2.0 * Table::GAP;
        for text in &strips[2].drawing.texts()[..2] {
            assert!(text.bounds().right <= column + 1e-9);
        }
    }

    #[test]
    fn every_row_carries_the_head_and_sections_hold_the_next_row() {
        let strips =
            table(vec![Row::Section("drills".to_owned()), cells("pilot", "1")]).to_strips(90.0);
        assert_eq!(strips[0].keep, Keep::WithNext);
        assert_eq!(strips[1].keep, Keep::WithNext);
        assert_eq!(strips[2].keep, Keep::Free);
        assert!(strips[1..].iter().all(|strip| strip.head.is_some()));
    }

    #[test]
    fn a_barrier_is_shaded_and_stays_with_its_neighbours() {
        let row = || vec![Cell::body("guide off")];
        let rows = vec![
            cells("pilot", "1"),
            Row::Barrier(row()),
            cells("twist", "2"),
            Row::After(row()),
            cells("tap", "3"),
            Row::Barrier(row()),
        ];
        let strips = table(rows).to_strips(90.0);
        let keeps: Vec<Keep> = strips[1..].iter().map(|strip| strip.keep).collect();
        let (with, free) = (Keep::WithNext, Keep::Free);
        assert_eq!(keeps, [with, with, with, free, with, free]);
        let shaded = |strip: &Strip| format!("{:?}", strip.drawing).contains("Shade");
        let shades: Vec<bool> = strips[1..].iter().map(shaded).collect();
        assert_eq!(shades, [false, true, false, false, false, true]);
    }

    #[test]
    fn what_stands_before_a_row_is_nearer_to_it_and_stays_with_it() {
        let rows = vec![
            cells("pilot", "1"),
            Row::Before(vec![Cell::body("accepted")]),
            cells("twist", "2"),
        ];
        let strips = table(rows).to_strips(90.0);
        let keeps: Vec<Keep> = strips[1..].iter().map(|strip| strip.keep).collect();
        assert_eq!(keeps, [Keep::Free, Keep::WithNext, Keep::Free]);
        let words = strips[2].drawing.texts()[0].bounds();
        assert!(words.top > strips[2].height - words.bottom + 0.5);
        let ruled = |strip: &Strip| format!("{:?}", strip.drawing).contains("Hairline");
        assert!(ruled(&strips[1]) && !ruled(&strips[2]) && ruled(&strips[3]));
    }

    #[test]
    fn the_last_cell_of_a_short_row_has_the_room_of_the_missing_ones() {
        let words = "words that need much more room than the first column gives them";
        let long = Row::Cells(vec![Cell::body(words)]);
        let strips = table(vec![long]).to_strips(120.0);
        assert_eq!(strips[1].drawing.texts().len(), 1);
    }

    #[test]
    fn a_cell_over_two_columns_leaves_the_third_in_its_place() {
        let words = "words that need much more room than the first column gives them alone";
        let over = Cell::Across(2, Box::new(Cell::body(words)));
        let row = Row::Cells(vec![over, Cell::WriteBox(8.0)]);
        let strips = table(vec![row, cells("pilot", "1")]).to_strips(140.0);
        assert_eq!(strips[1].drawing.texts().len(), 1);
        let right = |strip: &Strip| strip.drawing.bounds().unwrap().right;
        let box_left = |strip: &Strip| format!("{:?}", strip.drawing.items()[1]);
        assert!((right(&strips[1]) - right(&strips[2])).abs() < 1e-9);
        assert!(
            box_left(&strips[1]).contains("125"),
            "{}",
            box_left(&strips[1])
        );
    }

    #[test]
    fn parts_beside_each_other_do_not_touch() {
        let parts = Cell::Beside(vec![
            Cell::Mark(Mark::Short),
            Cell::Stack(vec![Cell::body("short"), Cell::body("1.9, limit 2.0")]),
        ]);
        let inner = cell_content(&parts, 40.0, Across::Start);
        let texts = inner.drawing.texts();
        assert!(texts[0].bounds().left > 3.4);
        assert!(!texts[0].bounds().overlaps(texts[1].bounds()));
        assert!(inner.drawing.bounds().unwrap().bottom <= inner.height + 1.0);
    }
}
