//! The record of a case on paper: what was placed and what became of it, one page a patient where it fits.
//!
//! Each page bears the same as those of the checklist. What is not recorded is said to be not recorded; nothing is left out to
//! save a page.

use super::arrange::PartPages;
use super::done::ToldOfDay;
use super::every_page::{EveryPage, Heading};
use super::pieces::{LABEL, SMALL, body, fact, height};
use super::signatures::ends;
use super::{Readings, Signed, Source, every_page};
use crate::case::ValidCase;
use crate::dentition::Notation;
use crate::drawing::{TextStyle, pt};
use crate::plan::Worksheet;
use crate::record::{CaseRecord, ImplantRecord};
use crate::sheet::error::SheetError;
use crate::sheet::flow::flowed;
use crate::sheet::pdf::{self, PdfMetadata};
use crate::sheet::{Block, Lane, Page, Paper, Width, signature_line};
use crate::sign::{DayEvent, EntryKind, EventKind, Who};
use crate::surgery::done_before;
use crate::wording::{Formatter, RecordFieldText, begin, cautions};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;

/// Width of the names of what is recorded of the case, mm.
const NAMES: f64 = 42.0;
/// Width of the names of what is recorded of an implant, mm.
const FIELDS: f64 = 26.0;
/// Width of the line to sign on, mm.
const SIGNED: f64 = 56.0;
/// Between two columns, mm.
const GAP: f64 = 5.0;
/// Height up to which what is recorded of an implant stands in two columns, which stay on one page, mm.
const BESIDE: f64 = 70.0;
/// A value of more characters than this runs over the whole width, so that a page may end within it.
const LONG: usize = 900;

/// The least type that is read, mm.
const TIGHT: f64 = pt(8.0);
/// A heading among it, mm.
const TIGHT_HEADING: f64 = pt(9.5);

/// The pages of the record.
///
/// `worksheet` is the one worked out from `case`, `record` what was derived from it. The same arguments give the same pages.
///
/// # Errors
///
/// Something that must stay together is higher than a page.
pub fn record_pages(
    (case, worksheet): (&ValidCase, &Worksheet),
    signed: &Signed,
    record: &CaseRecord<'_>,
    (paper, notation): (Paper, Notation),
    printed_at: Timestamp,
) -> Result<Vec<Page>, SheetError> {
    let source = Source {
        case,
        worksheet,
        signed,
        best: None,
        formatter: Formatter::english(case, notation),
        paper,
        readings: Readings::Blank,
        told: ToldOfDay::Nothing,
        printed_at,
    };
    let every = EveryPage::new(&source)?;
    let formatter = &source.formatter;
    let heading = Heading {
        title: formatter.text("sheet-day-title", &[("jaw", &formatter.jaw())]),
        subtitle: formatter.word("sheet-day-subtitle"),
    };
    let first = every.first_frame(&heading, true);
    let further = every.frame(&heading);
    let all = blocks(&source, record, Listed::EachOnALine);
    let mut pages = flowed(&all, first, further)?;
    if pages.len() > 1 {
        let further = every.frame(&heading);
        let all = blocks(&source, record, Listed::Running);
        let all: Vec<Block> = all.into_iter().map(tighter).collect();
        let tight = flowed(&all, every.first_frame(&heading, true), further)?;
        if tight.len() < pages.len() {
            pages = tight;
        }
    }
    let mut pages = every.finish(vec![PartPages {
        bears_no_setting: false,
        is_reading: false,
        pages,
        heading,
        further: None,
        labelled: true,
    }]);
    // What was recorded stays recorded: a name that no font has makes no record unprintable.
    for page in &mut pages {
        page.under.stand_in();
        page.over.stand_in();
    }
    Ok(pages)
}

/// The record as the bytes of a PDF.
///
/// # Errors
///
/// As [`record_pages`], and anything that the PDF writer warns of.
pub fn record_pdf(
    (case, worksheet): (&ValidCase, &Worksheet),
    signed: &Signed,
    record: &CaseRecord<'_>,
    (paper, notation): (Paper, Notation),
    printed_at: Timestamp,
) -> Result<Vec<u8>, SheetError> {
    let on = (paper, notation);
    let pages = record_pages((case, worksheet), signed, record, on, printed_at)?;
    let formatter = Formatter::english(case, notation);
    let args = [("case", &*worksheet.reference), ("jaw", &formatter.jaw())];
    let title = formatter.text("sheet-day-pdf-title", &args);
    let made = printed_at;
    pdf::write(&pages, &PdfMetadata { title, made })
}

/// The same in the least type that is read, with the least room between: where that saves a page.
fn tighter(block: Block) -> Block {
    let at_most = |style: TextStyle, most: f64| style.sized(style.size_mm.min(most));
    match block {
        Block::Space(room) => Block::Space(room * 0.5),
        Block::Heading(words, style) => Block::Heading(words, at_most(style, TIGHT_HEADING)),
        Block::Paragraph(words, style) => Block::Paragraph(words, at_most(style, TIGHT)),
        Block::Beside(lanes, gap) => {
            let lanes = lanes.into_iter().map(|lane| Lane {
                blocks: lane.blocks.into_iter().map(tighter).collect(),
                ..lane
            });
            Block::Beside(lanes.collect(), gap)
        }
        other => other,
    }
}

/// How things of one sort are listed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Listed {
    EachOnALine,
    /// One after the other.
    Running,
}

fn blocks(source: &Source<'_>, record: &CaseRecord<'_>, listed: Listed) -> Vec<Block> {
    let formatter = &source.formatter;
    let strong = |words: String| Block::Paragraph(words, TextStyle::STRONG);
    let mut blocks = vec![strong(formatter.record_state(record).join(" "))];
    let told = record.told.iter();
    blocks.extend(told.map(|told| strong(formatter.record_told(record, told))));
    let astray = record.astray.iter();
    blocks.extend(astray.map(|one| strong(formatter.record_astray(one))));
    let missing = formatter.record_missing(record).join(". ");
    if !missing.is_empty() {
        blocks.push(body(missing));
    }
    for one in &record.implants {
        blocks.extend(implant(source, record, one));
    }
    blocks.extend(within(formatter.word("sheet-day-case")));
    let counts = [
        ("surgery-step-count-in", record.count_in),
        ("surgery-step-count-out", record.count_out),
    ];
    let counts: Vec<Vec<Block>> = counts
        .into_iter()
        .map(|(name, count)| {
            let name = begin(&formatter.word(name));
            let style = match count {
                None => TextStyle::STRONG,
                Some(_) => TextStyle::BODY,
            };
            said(name, formatter.record_count(record, count), (style, NAMES))
        })
        .collect();
    blocks.extend(columns(source, counts));
    let discarded = formatter.record_field(record, (EntryKind::Discarded, &record.discarded), None);
    blocks.extend(field(discarded, NAMES));
    if !record.worn.is_empty() {
        let worn = record.worn.join("; ");
        let words = formatter.word("wear-after");
        let style = (TextStyle::STRONG, NAMES);
        blocks.push(Block::Paragraph(words, LABEL));
        blocks.extend(said(String::new(), worn, style));
    }
    blocks.extend(match listed {
        Listed::EachOnALine => {
            let falls = record.fallen.iter();
            falls
                .map(|fall| body(formatter.record_fall(fall)))
                .collect()
        }
        Listed::Running => running(
            source,
            record.fallen.iter().map(|fall| {
                let said = formatter.record_fall_at(fall);
                ((day_of(fall.at), &fall.who), said)
            }),
        ),
    });
    blocks.extend(run(source, record));
    let since = formatter.record_since(record);
    if !since.is_empty() {
        blocks.extend(within(formatter.word("sheet-day-since")));
        blocks.extend(match listed {
            Listed::EachOnALine => since.into_iter().map(body).collect(),
            Listed::Running => {
                let each = record.since().iter().zip(formatter.record_since_at(record));
                running(
                    source,
                    each.map(|(one, said)| ((day_of(one.at), &one.who), said)),
                )
            }
        });
    }
    blocks.push(Block::Space(3.0));
    blocks.push(foot(source));
    blocks
}

/// A line to sign on, and beside it the ends of the logs and the cautions.
fn foot(source: &Source<'_>) -> Block {
    let formatter = &source.formatter;
    let line = signature_line(SIGNED, &formatter.word("sheet-closed-by"));
    let cautions = cautions(formatter.texts).join(" ");
    let mut right = vec![Block::Paragraph(cautions, TextStyle::NOTE)];
    right.extend(ends(source));
    let lane = |width, blocks| Lane { width, blocks };
    let lanes = vec![
        lane(Width::Mm(SIGNED), vec![Block::Picture(line)]),
        lane(Width::Share(1.0), right),
    ];
    Block::Beside(lanes, GAP)
}

/// A heading, with less room about it than on the pages that are worked from.
fn within(words: String) -> [Block; 3] {
    [
        Block::Space(2.4),
        Block::Heading(words, TextStyle::HEADING),
        Block::Space(0.6),
    ]
}

/// A site with all that is recorded of it.
fn implant(source: &Source<'_>, record: &CaseRecord<'_>, one: &ImplantRecord<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let site = begin(&formatter.record_site(&one.site));
    let planned = formatter.record_planned(one);
    let args = [("site", &*site), ("planned", &*planned)];
    let title = match one.on {
        None => formatter.text("sheet-day-site", &args),
        Some(on) => {
            let args = [args[0], args[1], ("day", &*on.to_string())];
            formatter.text("sheet-day-site-on", &args)
        }
    };
    let mut blocks: Vec<Block> = within(title).into();
    let fields: Vec<Vec<Block>> = one
        .fields
        .iter()
        .map(|of| {
            field(
                formatter.record_field_of(record, (of, Some(one)), one.on),
                FIELDS,
            )
        })
        .collect();
    blocks.extend(columns(source, fields));
    blocks
}

/// Things in two columns, or where that would be high, below each other, so that a page may end between them.
fn columns(source: &Source<'_>, things: Vec<Vec<Block>>) -> Vec<Block> {
    let (left, right) = things.split_at(things.len().div_ceil(2));
    let lane = |things: &[Vec<Block>]| Lane {
        width: Width::Share(1.0),
        blocks: things.concat(),
    };
    let beside = Block::Beside(vec![lane(left), lane(right)], GAP);
    let sides = 2.0 * every_page::SIDE;
    let width = source.paper.rect().width() - sides;
    if height(std::slice::from_ref(&beside), width) <= BESIDE {
        vec![beside]
    } else {
        things.into_iter().flatten().collect()
    }
}

/// What is recorded of one thing, and what stood before.
fn field(text: RecordFieldText, names: f64) -> Vec<Block> {
    let style = if text.is_open {
        TextStyle::STRONG
    } else {
        TextStyle::BODY
    };
    let stands = text.stands.join("\n");
    let mut blocks = said(begin(&text.name), stands, (style, names));
    for before in text.before {
        blocks.extend(said(String::new(), before, (SMALL, names)));
    }
    blocks
}

/// A name and what belongs to it.
fn said(name: String, words: String, (style, names): (TextStyle, f64)) -> Vec<Block> {
    if words.chars().count() > LONG {
        let named = (!name.is_empty()).then_some(Block::Paragraph(name, LABEL));
        return named
            .into_iter()
            .chain([Block::Paragraph(words, style)])
            .collect();
    }
    let mut line = fact(name, words, names);
    if let Block::Beside(lanes, _) = &mut line
        && let Some(Block::Paragraph(_, of)) =
            lanes.last_mut().and_then(|lane| lane.blocks.last_mut())
    {
        *of = style;
    }
    vec![line]
}

/// The events of the day, a paragraph for each date and person.
fn run(source: &Source<'_>, record: &CaseRecord<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut blocks: Vec<Block> = within(formatter.word("sheet-day-run")).into();
    if record.run.is_empty() {
        blocks.push(body(begin(&formatter.word("record-not-recorded"))));
    }
    // What was left out at once for one reason is told with it once.
    let together = |one: &DayEvent, next: &DayEvent| {
        let (EventKind::StepSkipped(this), EventKind::StepSkipped(other)) = (&one.kind, &next.kind)
        else {
            return false;
        };
        let same = (&one.who, minute_of(one.at)) == (&next.who, minute_of(next.at));
        let plain = |one: &DayEvent| one.stands() && done_before(record.run, one).is_none();
        same && this.reason == other.reason && plain(one) && plain(next)
    };
    let each = record.run.chunk_by(together).filter_map(|all| {
        let first = all.first()?;
        let said = match all {
            [one] => formatter.record_run_at(record, one),
            all => formatter.record_skipped_at(all),
        };
        Some(((day_of(first.at), &first.who), said))
    });
    blocks.extend(running(source, each));
    blocks
}

fn day_of(at: Timestamp) -> Date {
    Offset::UTC.to_datetime(at).date()
}

/// A time without its seconds.
fn minute_of(at: Timestamp) -> i64 {
    at.as_second().div_euclid(60)
}

/// What happened one after the other, a paragraph for each date and person.
fn running<'a>(
    source: &Source<'_>,
    each: impl Iterator<Item = ((Date, &'a Who), String)>,
) -> Vec<Block> {
    let mut parts: Vec<((Date, &Who), Vec<String>)> = Vec::new();
    for (by, said) in each {
        match parts.last_mut() {
            Some((of, all)) if *of == by => all.push(said),
            _ => parts.push((by, vec![said])),
        }
    }
    let parts = parts.into_iter().map(|((day, who), all)| {
        let args = [
            ("day", &*day.to_string()),
            ("who", who.as_str()),
            ("events", &*all.join(" · ")),
        ];
        let words = source.formatter.text("sheet-day-events", &args);
        Block::Paragraph(words, SMALL)
    });
    parts.collect()
}
