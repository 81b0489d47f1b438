//! The first page: the plan at a glance.

use super::Source;
use super::every_page::Heading;
use super::findings::{Place, findings};
use super::limits;
use super::pieces::{
    body, column, fact, heading as within, height, item, note, verdict, worst_word,
};
use crate::case::day_of;
use crate::charts::mark_of;
use crate::charts::{ArchOptions, Arches, arch};
use crate::dentition::Side;
use crate::drawing::{Across, Drawing, TextStyle, at};
use crate::plan::{Finding, FindingLine, Severity, by_cause};
use crate::sheet::{Block, Cell, Frame, Lane, Row, Table, Width};
use crate::wording::cautions;
use std::collections::BTreeSet;

/// Width of the labels of facts, mm.
const LABELS: f64 = 20.0;
/// Width of the column of facts, mm.
const FACTS: f64 = 62.0;
/// Between chart and facts, mm.
const GAP: f64 = 5.0;
/// Part of a page's height that chart and facts may take beside each other.
const SHARE: f64 = 0.5;
/// Number of open findings of sites on the first page; all are on the sites' pages.
const WORST: usize = 8;

pub(super) fn heading(source: &Source<'_>) -> Heading {
    let formatter = &source.formatter;
    Heading {
        title: formatter.text("sheet-overview-title", &[("jaw", &formatter.jaw())]),
        subtitle: formatter.word("sheet-overview-subtitle"),
    }
}

pub(super) fn blocks(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut blocks = vec![open_line(source, TextStyle::HEADING), Block::Space(4.0)];
    blocks.extend(abandoned(source));
    blocks.extend(days_to_come(source));
    blocks.extend(chart_and_facts(source, frame));
    blocks.extend(within(formatter.word("sheet-sites-heading")));
    blocks.push(sites(source));
    blocks.extend(open(source));
    blocks.extend(spoken_for(source));
    blocks.push(standing_words(source));
    if let Some(words) = &source.case.note {
        blocks.extend(within(formatter.word("sheet-case-note")));
        blocks.push(body(words.clone()));
    }
    blocks.extend(limits::blocks(source));
    blocks
}

/// That the guide is abandoned by the record, and the plan still leads through it.
pub(super) fn abandoned(source: &Source<'_>) -> Vec<Block> {
    let one = source.signed.abandoned.as_ref();
    let told = one.map(|one| {
        let words = source.formatter.abandoned_while_led(one);
        let words = Block::Paragraph(words, TextStyle::BODY.bold());
        [words, Block::Space(2.0)]
    });
    told.into_iter().flatten().collect()
}

/// A scan or a graft of a day to come: with a slip of a year there the scan seems one of after a graft; an old or undated one.
pub(super) fn days_to_come(source: &Source<'_>) -> Vec<Block> {
    let today = day_of(source.printed_at);
    let told = source.formatter.days_to_come(source.case, today);
    let doubt = source.formatter.doubtful_scan(source.case, today);
    let told = told.into_iter().chain(doubt).map(|told| {
        let words = Block::Paragraph(told, TextStyle::BODY.bold());
        [words, Block::Space(2.0)]
    });
    told.flatten().collect()
}

/// The arch with what is planned in it, and the facts beside it. Sites on both sides have words on
/// both sides: then the arch takes the whole width, and the facts are below in two columns.
fn chart_and_facts(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let facts = facts(source);
    let lane = |width, blocks| Lane { width, blocks };
    let sides: BTreeSet<Side> = source
        .case
        .sites
        .iter()
        .map(|site| site.tooth.side())
        .collect();
    let most = frame.area.height() * SHARE;
    if sides.len() < 2 && height(&facts, FACTS) <= most {
        let narrow = frame.area.width() - FACTS - GAP;
        let beside = vec![Block::Picture(chart(source, narrow))];
        if height(&beside, narrow) <= most {
            let lanes = vec![
                lane(Width::Mm(narrow), beside),
                lane(Width::Share(1.0), facts),
            ];
            return vec![Block::Beside(lanes, GAP)];
        }
    }
    let (first, rest) = facts.split_at(facts.len().div_ceil(4) * 2);
    let lanes = [first, rest].map(|part| lane(Width::Share(1.0), part.to_vec()));
    vec![
        Block::Picture(chart(source, frame.area.width())),
        Block::Space(4.0),
        Block::Beside(lanes.into(), GAP),
    ]
}

pub(super) fn chart(source: &Source<'_>, width_mm: f64) -> Drawing {
    let formatter = &source.formatter;
    let options = ArchOptions {
        width_mm,
        height_mm: None,
        notation: formatter.notation,
        texts: formatter.texts,
        // The findings stand in full below; beside the arch the verdict is enough.
        headline: &|_| String::new(),
        arches: Arches::Own,
        chosen: None,
    };
    arch(source.case, source.worksheet, &options)
}

/// Facts of the whole case.
fn facts(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let case = source.case;
    let guide = &case.guide;
    let not_entered = || formatter.word("sheet-not-entered");
    let setup = &case.setup;
    let chosen = |name: Option<String>| name.unwrap_or_else(|| formatter.word("sheet-not-chosen"));
    let head = setup.head.as_ref().and_then(|id| case.kit.head(id));
    let tray = setup.tray.as_ref().and_then(|id| case.kit.tray(id));
    let pins: Vec<String> = guide
        .pins
        .iter()
        .map(|pin| {
            let place = formatter.tooth(pin.at);
            let args = [("name", pin.name.as_str()), ("place", place.as_str())];
            formatter.text("sheet-pin-at", &args)
        })
        .collect();
    let kit = formatter.text(
        "sheet-kit-named",
        &[
            ("kit", case.kit.name.as_str()),
            ("revision", case.kit.revision.as_str()),
        ],
    );
    let mut facts = vec![
        ("sheet-fact-jaw", formatter.jaw()),
        ("sheet-fact-support", formatter.support(guide.support)),
        ("sheet-fact-access", formatter.access(guide.access)),
        ("sheet-fact-guide", formatter.guide_state(guide.state)),
        (
            "sheet-fact-code",
            guide
                .code
                .as_ref()
                .map_or_else(not_entered, ToString::to_string),
        ),
        (
            "sheet-fact-scan",
            guide
                .scan_date
                .map_or_else(not_entered, |date| date.to_string()),
        ),
        (
            "sheet-fact-pins",
            if pins.is_empty() {
                formatter.word("sheet-none")
            } else {
                pins.join("; ")
            },
        ),
        (
            "sheet-fact-order",
            formatter.order_by(source.worksheet.order_by),
        ),
        (
            "sheet-fact-gauge",
            chosen(setup.gauge.as_ref().map(|id| formatter.gauge(id))),
        ),
        (
            "sheet-fact-head",
            chosen(head.map(|head| head.name.to_string())),
        ),
        (
            "sheet-fact-tray",
            chosen(tray.map(|tray| tray.name.to_string())),
        ),
        ("sheet-fact-kit", kit),
    ];
    if let Some(other) = &case.other_jaw_case {
        let said = formatter.text("sheet-other-jaw", &[("case", other.as_str())]);
        facts.push(("sheet-fact-other-jaw", said));
    }
    facts
        .into_iter()
        .flat_map(|(label, value)| {
            [
                fact(formatter.word(label), value, LABELS),
                Block::Space(0.6),
            ]
        })
        .collect()
}

/// The sites with their settings and worst verdicts.
fn sites(source: &Source<'_>) -> Block {
    let formatter = &source.formatter;
    if source.worksheet.sites.is_empty() {
        return body(formatter.word("sheet-no-sites"));
    }
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let columns = vec![
        head("sheet-col-site", Width::Share(1.45)),
        head("sheet-col-implant", Width::Share(0.85)),
        head("sheet-col-extent", Width::Share(1.3)),
        head("sheet-col-settings", Width::Share(0.85)),
        head("sheet-col-worst", Width::Mm(22.0)),
    ];
    let rows = source.worksheet.sites.iter().map(|sheet| {
        let site = source.case.site(sheet.id.as_str());
        Row::Cells(vec![
            Cell::Text(
                crate::wording::begin(&formatter.site(&sheet.id)),
                TextStyle::STRONG,
            ),
            Cell::body(formatter.implant(&sheet.implant)),
            Cell::body(site.map_or_else(String::new, |site| formatter.extent_at(site))),
            Cell::body(formatter.site_settings(sheet)),
            verdict(sheet.worst, worst_word(source, sheet)),
        ])
    });
    Block::Table(Table {
        columns,
        rows: rows.collect(),
        padding_mm: 1.0,
        gap_mm: Table::GAP,
    })
}

/// The number of open findings, with the mark of the worst of all findings.
pub(super) fn open_line(source: &Source<'_>, style: TextStyle) -> Block {
    let formatter = &source.formatter;
    let all = source.worksheet.findings.iter().map(Finding::severity);
    let count = |wanted: Severity| all.clone().filter(|one| *one == wanted).count();
    let (short, unknown) = (count(Severity::Short), count(Severity::Unknown));
    // Where nothing was looked at nothing is known.
    let worst = all.clone().min().unwrap_or(Severity::Unknown);
    let accepted = formatter.accepted_count(&source.worksheet.findings);
    let words = if short == 0 && unknown == 0 {
        let count = &[("count", formatter.not_assessed().len())];
        let list = ("list", &*formatter.not_assessed_heading());
        // What was accepted is not said to be nothing.
        match &accepted {
            None => formatter.counted("sheet-open-line-none", count, &[list]),
            Some(accepted) => {
                let args = &[list, ("accepted", accepted)];
                formatter.counted("sheet-open-line-accepted", count, args)
            }
        }
    } else {
        let counts = &[("short", short), ("unknown", unknown)];
        let open = formatter.counted("sheet-open-line", counts, &[]);
        accepted.map_or_else(|| open.clone(), |accepted| format!("{open} {accepted}"))
    };
    let size = 4.0;
    let mut sign = Drawing::new();
    sign.mark(at(size / 2.0, size / 2.0), size, mark_of(worst));
    Block::Beside(
        vec![
            Lane {
                width: Width::Mm(size),
                blocks: vec![Block::Space(0.4), Block::Picture(sign)],
            },
            Lane {
                width: Width::Share(1.0),
                blocks: vec![Block::Paragraph(words, style)],
            },
        ],
        2.4,
    )
}

/// Findings of these severities, worst first.
fn listed<'a>(source: &Source<'a>, wanted: fn(&Finding) -> bool) -> Vec<&'a Finding> {
    let all = source.worksheet.findings.iter();
    let mut list: Vec<&Finding> = all.filter(|finding| wanted(finding)).collect();
    list.sort_by_key(|finding| finding.severity());
    list
}

/// The open findings, worst first, or the words that there are none. Those of the whole case are
/// listed nowhere else and are never left out.
fn open(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let all = listed(source, |finding| finding.severity().is_open());
    // What hangs on one cause counts once, and is listed or left out together.
    let mut of_sites = 0;
    let list: Vec<&Finding> = by_cause(all.clone(), |finding| finding)
        .into_iter()
        .map(|told| match told {
            FindingLine::One(finding) => vec![finding],
            FindingLine::Cause(_, findings) => findings,
        })
        .filter(|findings| {
            let whole = findings.iter().any(|finding| finding.site.is_none());
            of_sites += usize::from(!whole);
            whole || of_sites <= WORST
        })
        .flatten()
        .collect();
    let mut blocks: Vec<Block> = within(formatter.word("sheet-open-heading")).into();
    let Some(table) = findings(source, Place::Case, &list) else {
        blocks.push(body(formatter.word("sheet-nothing-open")));
        return blocks;
    };
    blocks.extend([table, Block::Space(1.5)]);
    let more = all.len() - list.len();
    if more > 0 {
        blocks.push(Block::Paragraph(
            formatter.counted("sheet-open-more", &[("more", more)], &[]),
            TextStyle::STRONG,
        ));
    }
    blocks.push(note(formatter.word("sheet-open-note")));
    blocks
}

/// Findings that were accepted or are intended, with figure, reason and by whom; and what else is
/// to be known of the whole case.
fn spoken_for(source: &Source<'_>) -> Vec<Block> {
    let list = listed(source, |finding| match finding.severity() {
        Severity::Accepted | Severity::Intended => true,
        Severity::Tight | Severity::Note => finding.site.is_none(),
        Severity::Short | Severity::Unknown | Severity::Clear => false,
    });
    let Some(table) = findings(source, Place::Case, &list) else {
        return Vec::new();
    };
    let mut blocks: Vec<Block> = within(source.formatter.word("sheet-accepted-heading")).into();
    blocks.push(table);
    blocks
}

/// The list of what is not assessed, and the cautions, beside each other.
fn standing_words(source: &Source<'_>) -> Block {
    let formatter = &source.formatter;
    let lane = |share, heading: String, items: Vec<String>| {
        let mut blocks: Vec<Block> = within(heading).into();
        blocks.extend(items.into_iter().map(item));
        Lane {
            width: Width::Share(share),
            blocks,
        }
    };
    let cautions = cautions(formatter.texts);
    let mut not_assessed = lane(
        0.8,
        formatter.not_assessed_heading(),
        formatter.not_assessed(),
    );
    not_assessed
        .blocks
        .extend(within(formatter.word("sheet-code-leaves-out-heading")));
    not_assessed
        .blocks
        .push(item(formatter.word("sheet-code-leaves-out")));
    Block::Beside(
        vec![
            not_assessed,
            lane(1.2, formatter.word("sheet-cautions-heading"), cautions),
        ],
        8.0,
    )
}
