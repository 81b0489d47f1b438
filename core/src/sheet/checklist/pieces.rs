//! Small things that many pages are put together from.

use super::Source;
use crate::charts::mark_of;
use crate::drawing::{Across, Ink, TextStyle};
use crate::plan::{Severity, SiteSheet};
use crate::sheet::{Block, Cell, Column, Lane, Width, tick_box};

/// Words that lead a line.
pub(super) const LABEL: TextStyle = TextStyle::BODY.inked(Ink::Soft);

/// In the type of remarks, but as dark as what is read.
pub(super) const SMALL: TextStyle = TextStyle::NOTE.inked(Ink::Strong);

/// From a box to tick to its words, mm.
const TICK_GAP: f64 = 2.4;

/// A heading within a page, with room above it.
pub(super) fn heading(words: String) -> [Block; 3] {
    [
        Block::Space(3.8),
        Block::Heading(words, TextStyle::HEADING),
        Block::Space(1.2),
    ]
}

/// A paragraph of running text.
pub(super) fn body(words: String) -> Block {
    Block::Paragraph(words, TextStyle::BODY)
}

/// A remark.
pub(super) fn note(words: String) -> Block {
    Block::Paragraph(words, TextStyle::NOTE)
}

/// Label and value on one line, the label in a column of `label_mm`.
pub(super) fn fact(label: String, value: String, label_mm: f64) -> Block {
    let lane = |width, text, style| Lane {
        width,
        blocks: vec![Block::Paragraph(text, style)],
    };
    Block::Beside(
        vec![
            lane(Width::Mm(label_mm), label, LABEL),
            lane(Width::Share(1.0), value, TextStyle::BODY),
        ],
        2.0,
    )
}

/// Words in this type with a box to tick before them, and room below.
pub(super) fn to_tick_in(words: String, style: TextStyle) -> Block {
    let tick = tick_box();
    let width = tick.bounds().map_or(0.0, crate::drawing::Rect::width);
    Block::Beside(
        vec![
            Lane {
                width: Width::Mm(width),
                blocks: vec![Block::Space(0.2), Block::Picture(tick)],
            },
            Lane {
                width: Width::Share(1.0),
                blocks: vec![Block::Paragraph(words, style), Block::Space(0.7)],
            },
        ],
        TICK_GAP,
    )
}

/// A line that begins with a dash.
pub(super) fn item(words: String) -> Block {
    let lane = |width, text: String| Lane {
        width,
        blocks: vec![body(text)],
    };
    Block::Beside(
        vec![
            lane(Width::Mm(2.4), "–".to_owned()),
            lane(Width::Share(1.0), words),
        ],
        1.0,
    )
}

/// A column of a table.
pub(super) fn column(head: String, width: Width, align: Across) -> Column {
    Column { head, width, align }
}

/// A severity's mark with its word beside it.
pub(super) fn verdict(severity: Severity, word: String) -> Cell {
    Cell::Beside(vec![
        Cell::Mark(mark_of(severity)),
        Cell::Text(word, TextStyle::STRONG),
    ])
}

/// Side of a verdict's mark in a row, mm.
const MARK: f64 = 3.4;
/// From a mark to its word in a row of the form, mm.
const MARK_GAP: f64 = 1.7;

/// A site's worst verdict in a row of the form: its mark, of which the page says what it means, and of *short* the word
/// as well, told as the site's.
pub(super) fn verdict_in_form(source: &Source<'_>, sheet: &SiteSheet) -> Cell {
    let mark = Cell::Mark(mark_of(sheet.worst));
    match short_of_site(source, sheet.worst) {
        None => mark,
        Some(word) => Cell::Beside(vec![mark, Cell::Text(word, SMALL)]),
    }
}

/// The word *short* as that of a site; nothing for another verdict.
pub(super) fn short_of_site(source: &Source<'_>, worst: Severity) -> Option<String> {
    (worst == Severity::Short).then(|| {
        let formatter = &source.formatter;
        let word = formatter.severity(worst);
        formatter.text("severity-of-site", &[("verdict", &word)])
    })
}

/// The width that these take, mm; that of the mark alone where no site is *short*.
pub(super) fn verdict_width(source: &Source<'_>) -> f64 {
    let mut sites = source.worksheet.sites.iter();
    let word = sites.find_map(|sheet| short_of_site(source, sheet.worst));
    word.map_or(MARK, |word| MARK + MARK_GAP + SMALL.width(&word) + 0.1)
}

/// The word of a site's worst verdict.
pub(super) fn worst_word(source: &Source<'_>, sheet: &SiteSheet) -> String {
    let findings = &source.worksheet.findings;
    source
        .formatter
        .worst_word(sheet.worst, &[&sheet.id], findings)
}

/// The worst verdict of a site, mark over word, as shown beside a setting.
pub(super) fn worst_of(source: &Source<'_>, sheet: &SiteSheet) -> Cell {
    let findings = &source.worksheet.findings;
    let formatter = &source.formatter;
    let word = formatter.worst_beside(sheet.worst, &[&sheet.id], findings);
    Cell::Stack(vec![
        Cell::Mark(mark_of(sheet.worst)),
        Cell::Text(word, TextStyle::CAPTION),
    ])
}

/// The largest size up to the style's own at which a text that must not break fits a width.
pub(super) fn fitted(style: TextStyle, text: &str, width_mm: f64) -> TextStyle {
    let width = style.width(text);
    if width > width_mm && width > 0.0 {
        style.sized(style.size_mm * width_mm / width)
    } else {
        style
    }
}

/// Height of blocks laid below each other in a width, mm.
pub(super) fn height(blocks: &[Block], width_mm: f64) -> f64 {
    blocks
        .iter()
        .flat_map(|block| block.to_strips(width_mm))
        .map(|strip| strip.height)
        .sum()
}
