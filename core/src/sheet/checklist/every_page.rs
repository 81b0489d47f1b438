//! The parts of every page: heading, label box, title block with its code, caution line, words
//! across.

use super::arrange::PartPages;
use super::{ApprovalState, Source};
use crate::drawing::{
    Across, Along, Drawing, Ink, LineWeight, Rect, Stroke, TextStyle, at, fonts, pt, qr,
};
use crate::sheet::error::SheetError;
use crate::sheet::{Field, Frame, Page, Width, stamp, title_block, title_block_height, write_box};

/// From the paper's edge to everything at the sides, mm.
pub(super) const SIDE: f64 = 12.0;
/// From the paper's edge to the heading, mm.
const TOP: f64 = 9.0;
/// From the paper's lower edge to the last line, mm.
const FOOT: f64 = 8.0;
/// From there up to the line of caution where both do not fit beside each other, mm.
const CAUTION: f64 = 3.6;
/// From the last line up to the title block, mm.
const BLOCK_FOOT: f64 = 3.6;
/// Width of the box for the patient's label, mm.
const LABEL_WIDTH: f64 = 64.0;
/// Height of that box, mm. It is on the first page of each part that is printed by itself.
const LABEL_HEIGHT: f64 = 22.0;
/// Between two things that are beside or below each other, mm.
const GAP: f64 = 2.4;
/// From a title to the words beside it, mm.
const HEAD_GAP: f64 = 4.0;
/// Side of one module of the code, mm. A telephone reads a third of a millimetre.
const MODULE: f64 = 0.5;

/// The type of a page's title.
pub(super) const TITLE: TextStyle = TextStyle::TITLE.sized(pt(16.0));
const SUBTITLE: TextStyle = TextStyle::NOTE.sized(pt(8.5));

/// The heading of a page.
pub(super) struct Heading {
    /// The title of the page.
    pub(super) title: String,
    /// One line that says more; may be empty.
    pub(super) subtitle: String,
}

/// A page's place in its part.
#[derive(Clone, Copy)]
enum Which {
    First,
    Further,
}

/// The parts of every page.
pub(super) struct EveryPage<'a> {
    source: &'a Source<'a>,
    fields: Vec<Field>,
    /// The code of the fingerprint.
    code: Drawing,
    code_side: f64,
    /// From the paper's lower edge to the title block, mm.
    block_foot: f64,
    /// Height of the title block or its code, mm.
    block: f64,
}

impl<'a> EveryPage<'a> {
    /// Measures the parts of every page.
    ///
    /// # Errors
    ///
    /// The fingerprint is too long for a code, which it never is.
    pub(super) fn new(source: &'a Source<'a>) -> Result<Self, SheetError> {
        let fields = fields(source);
        let code = qr(&source.worksheet.fingerprint.to_string(), MODULE)?;
        let code_side = code.bounds().map_or(0.0, Rect::width);
        let mut every = Self {
            source,
            fields,
            code,
            code_side,
            block_foot: FOOT + BLOCK_FOOT,
            block: code_side,
        };
        if !every.foot_is_one_line() {
            every.block_foot += CAUTION;
        }
        every.block = f64::max(
            code_side,
            title_block_height(&every.fields, every.block_width()),
        );
        Ok(every)
    }

    /// Frame in which blocks flow on the first page of something, with the box for the label or without.
    pub(super) fn first_frame(&self, heading: &Heading, labelled: bool) -> Frame {
        self.below(self.head(heading, Which::First, labelled))
    }

    /// Frame in which blocks flow on every other page of it.
    pub(super) fn frame(&self, heading: &Heading) -> Frame {
        self.below(self.head(heading, Which::Further, false))
    }

    /// Height of the heading and what is beside it, mm.
    fn head(&self, heading: &Heading, which: Which, labelled: bool) -> f64 {
        let (_, height) = self.draw_heading(heading, which, labelled);
        f64::max(height, if labelled { LABEL_HEIGHT } else { 0.0 })
    }

    fn below(&self, head: f64) -> Frame {
        Frame::inset(
            self.source.paper,
            SIDE,
            TOP + head + 2.0 * GAP,
            self.block_foot + self.block + GAP,
        )
    }

    /// True if the caution and the page's number are beside each other, on whatever page.
    fn foot_is_one_line(&self) -> bool {
        let style = TextStyle::NOTE;
        let caution = style.width(&self.source.formatter.word("sheet-foot"));
        let last = self.page_line(1000, 1000);
        caution + 3.0 + style.width(&last) <= self.width()
    }

    /// The page's number among all.
    fn page_line(&self, page: usize, count: usize) -> String {
        let numbers = [("page", page), ("count", count)];
        self.source.formatter.counted("sheet-page", &numbers, &[])
    }

    /// All pages in their order, with everything drawn on them.
    pub(super) fn finish(&self, parts: Vec<PartPages>) -> Vec<Page> {
        let count = parts.iter().map(|part| part.pages.len()).sum();
        let words = self.words_across();
        let mut pages = Vec::new();
        for part in parts {
            for (index, mut page) in part.pages.into_iter().enumerate() {
                if let Some(words) = &words {
                    page.under.add(stamp(self.source.paper, words));
                }
                let which = if index == 0 {
                    Which::First
                } else {
                    Which::Further
                };
                let labelled = part.labelled && index == 0;
                let further = part.further.as_ref().filter(|_| index > 0);
                let heading = further.unwrap_or(&part.heading);
                let (drawing, _) = self.draw_heading(heading, which, labelled);
                page.over.add_at(at(SIDE, TOP), drawing);
                page.title.clone_from(&heading.title);
                let head = self.head(heading, which, labelled);
                page.over
                    .add(self.draw_frame(pages.len() + 1, count, (head, labelled)));
                pages.push(page);
            }
        }
        pages
    }

    fn width(&self) -> f64 {
        self.source.paper.rect().width() - 2.0 * SIDE
    }

    fn block_width(&self) -> f64 {
        self.width() - self.code_side - 1.0
    }

    /// The words across a page: a demonstration says so whatever is approved in it.
    fn words_across(&self) -> Option<String> {
        let formatter = &self.source.formatter;
        if self.source.worksheet.demonstration {
            return Some(formatter.word("sheet-stamp-demonstration"));
        }
        match self.source.signed.approval {
            ApprovalState::Approved { .. } => None,
            ApprovalState::RecordBroken
            | ApprovalState::NotApproved
            | ApprovalState::Practice { .. } => Some(formatter.word("sheet-stamp-not-approved")),
        }
    }

    /// The heading with its top left corner at the origin, and its height.
    fn draw_heading(&self, heading: &Heading, which: Which, labelled: bool) -> (Drawing, f64) {
        let subtitle = match which {
            Which::First => heading.subtitle.clone(),
            Which::Further => self
                .source
                .formatter
                .text("sheet-continued", &[("subtitle", &heading.subtitle)]),
        };
        let beside = if labelled { LABEL_WIDTH + GAP } else { 0.0 };
        let room = self.width() - beside;
        let mut drawing = Drawing::new();
        let mut down = 0.0;
        let title = TITLE.width(&heading.title);
        // What says more stands beside the title where both have room there.
        if !labelled && title + HEAD_GAP + SUBTITLE.width(&subtitle) <= room {
            for (left, text, style) in [
                (0.0, heading.title.clone(), TITLE),
                (title + HEAD_GAP, subtitle, SUBTITLE),
            ] {
                if !text.is_empty() {
                    let place = at(left, TITLE.ascent());
                    drawing.text(place, (Across::Start, Along::Baseline), style, text);
                }
            }
            return (drawing, TITLE.line_height());
        }
        for (text, style) in [(heading.title.clone(), TITLE), (subtitle, SUBTITLE)] {
            if text.is_empty() {
                continue;
            }
            for line in fonts::wrap(&text, style.face, style.size_mm, room) {
                let place = at(0.0, down + style.ascent());
                drawing.text(place, (Across::Start, Along::Baseline), style, line);
                down += style.line_height();
            }
            down += 0.6;
        }
        (drawing, down)
    }

    /// Label box, rule, title block, code and the last line.
    fn draw_frame(&self, page: usize, count: usize, (head, labelled): (f64, bool)) -> Drawing {
        let formatter = &self.source.formatter;
        let sheet = self.source.paper.rect();
        let right = sheet.right - SIDE;
        let mut drawing = Drawing::new();
        if labelled {
            let label = formatter.word("sheet-label-box");
            drawing.add_at(
                at(right - LABEL_WIDTH, TOP),
                write_box(LABEL_WIDTH, LABEL_HEIGHT, &label),
            );
        }
        let under_head = TOP + head + GAP;
        let rule = Stroke::new(Ink::Strong, LineWeight::Medium);
        drawing.line(at(SIDE, under_head), at(right, under_head), rule);

        let block_bottom = sheet.bottom - self.block_foot;
        let block_height = title_block_height(&self.fields, self.block_width());
        drawing.add_at(
            at(SIDE, block_bottom - block_height),
            title_block(&self.fields, self.block_width()),
        );
        drawing.add_at(
            at(right - self.code_side, block_bottom - self.code_side),
            self.code.clone(),
        );
        let style = TextStyle::NOTE;
        let foot = sheet.bottom - FOOT;
        let caution = self.block_foot - FOOT - BLOCK_FOOT;
        drawing.text(
            at(SIDE, foot - caution),
            (Across::Start, Along::Baseline),
            style,
            formatter.word("sheet-foot"),
        );
        drawing.text(
            at(right, foot),
            (Across::End, Along::Baseline),
            style,
            self.page_line(page, count),
        );
        drawing
    }
}

fn fields(source: &Source<'_>) -> Vec<Field> {
    let formatter = &source.formatter;
    let field = |label: &str, value: String, width: Width| Field {
        label: formatter.word(label),
        value,
        width,
    };
    let worksheet = source.worksheet;
    vec![
        field(
            "sheet-field-case",
            worksheet.reference.clone(),
            Width::Share(1.0),
        ),
        field("sheet-field-jaw", formatter.jaw(), Width::Mm(22.0)),
        field(
            "sheet-field-revision",
            worksheet.revision.to_string(),
            Width::Mm(17.0),
        ),
        field(
            "sheet-field-fingerprint",
            worksheet.fingerprint.to_string(),
            Width::Mm(34.0),
        ),
        field("sheet-field-state", state(source), Width::Share(1.6)),
        field(
            "sheet-field-printed",
            source.printed_at.strftime("%Y-%m-%d %H:%M UTC").to_string(),
            Width::Mm(26.0),
        ),
    ]
}

/// Not approved, approved by whom and when, or practice.
fn state(source: &Source<'_>) -> String {
    let formatter = &source.formatter;
    let day = |at: &jiff::Timestamp| at.strftime("%Y-%m-%d").to_string();
    match &source.signed.approval {
        ApprovalState::RecordBroken => formatter.word("sheet-state-record-broken"),
        ApprovalState::NotApproved if source.worksheet.demonstration => {
            formatter.word("sheet-state-demonstration")
        }
        ApprovalState::NotApproved => formatter.word("sheet-state-not-approved"),
        // An approval of a demonstration never counts, whatever its event says.
        ApprovalState::Practice { by, at } => {
            formatter.text("sheet-state-practice", &[("by", by), ("on", &day(at))])
        }
        ApprovalState::Approved {
            by,
            at,
            names_decisions,
        } => {
            let id = match (source.worksheet.demonstration, names_decisions) {
                (true, _) => "sheet-state-practice",
                (_, true) => "sheet-state-approved",
                (_, false) => "sheet-state-approved-for-any-decision",
            };
            formatter.text(id, &[("by", by), ("on", &day(at))])
        }
    }
}
