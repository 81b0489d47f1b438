//! The team's questions in three phases.
//!
//! The structure of three phases is that of the surgical safety checklist of the World Health
//! Organization; the items are this program's own, for this procedure, and supplement the local
//! list.

use super::every_page::SIDE;
use super::form::Counts;
use super::overview::{abandoned, days_to_come, open_line};
use super::pieces::{SMALL, body, column, height, note, to_tick_in, worst_word};
use super::signatures::signatures;
use super::{Source, counts, glance};
use crate::case::GuideState;
use crate::charts::{arch_small, mark_of};
use crate::dentition::Jaw;
use crate::drawing::{Across, TextStyle, pt};
use crate::plan::SiteSheet;
use crate::sheet::{Block, Cell, Frame, Lane, Row, Table, Width, line_after};
use crate::wording::begin;

/// The type of the line on what is open.
const HEADLINE: TextStyle = TextStyle::STRONG.sized(pt(9.5));
/// The type of a phase's title.
const PHASE: TextStyle = TextStyle::HEADING.sized(pt(10.0));
/// Width of the arch beside the list of sites, mm.
const ARCH: f64 = 47.5;
/// Between two things beside each other, mm.
const GAP: f64 = 5.5;
/// Width of who asked and of when, each with its line, mm.
const SAID: (f64, f64) = (20.0, 14.0);
/// The cautions that no question repeats.
const CAUTIONS: [&str; 3] = ["caution-aid", "caution-first", "caution-cooling"];
/// The most teeth that the question about them names again; they are listed above it.
const NAMED: usize = 3;
/// The most lines of open findings that are tried, and fewer.
const LISTED: [usize; 6] = [usize::MAX, 12, 8, 6, 4, 2];

/// What is planned, open and accepted, the three phases, the cautions and the signatures: on one page where they fit,
/// with the arch and every line of what is open where these fit too.
pub(super) fn blocks(source: &Source<'_>, frame: Frame, counts: Counts) -> Vec<Block> {
    let high = |blocks: &[Block]| height(blocks, frame.area.width());
    let mut rest = Vec::new();
    if counts == Counts::TeamCheck {
        rest.extend(counts::headed(source));
    }
    rest.push(Block::Space(1.5));
    // Two of the cautions are questions above.
    let said = CAUTIONS.iter().map(|id| source.formatter.word(id));
    rest.push(note(said.collect::<Vec<_>>().join(" ")));
    rest.push(signatures(source));
    let together = |top: Vec<Block>, phases: Vec<Block>| -> Vec<Block> {
        let parts = [top, phases, rest.clone()];
        parts.into_iter().flatten().collect()
    };
    let all = [TextStyle::BODY, SMALL].map(|style| {
        let phases = beside(source, style);
        (high(&phases) + high(&rest), phases)
    });
    for listed in LISTED {
        for arch in [Arch::Drawn, Arch::None] {
            let top = top(source, arch, listed);
            let taken = high(&top);
            let mut fit = all.iter();
            if let Some((_, phases)) = fit.find(|(high, _)| high + taken <= frame.area.height()) {
                return together(top, phases.clone());
            }
        }
    }
    // A phase stays on one page, so that none of it is overlooked.
    let below = phases_of(source, TextStyle::BODY);
    let below = below.into_iter().map(Block::Together).collect();
    together(top(source, Arch::None, LISTED[LISTED.len() - 1]), below)
}

/// The arch is drawn or not.
#[derive(Clone, Copy)]
enum Arch {
    Drawn,
    None,
}

/// What stands over the phases, with at most so many lines of what is open or accepted.
fn top(source: &Source<'_>, arch: Arch, listed: usize) -> Vec<Block> {
    let mut blocks = vec![open_line(source, HEADLINE), Block::Space(1.2)];
    blocks.extend(abandoned(source));
    blocks.extend(days_to_come(source));
    blocks.extend(planned(source, arch, listed));
    blocks
}

/// The phases beside each other in a type.
fn beside(source: &Source<'_>, style: TextStyle) -> Vec<Block> {
    let [anaesthetic, cut, leaving] = phases_of(source, style);
    let second: Vec<Block> = cut.into_iter().chain(leaving).collect();
    vec![as_low_as_can_be(source, &anaesthetic, &second)]
}

/// The sites and what is open or accepted, beside the arch where that is drawn.
fn planned(source: &Source<'_>, arch: Arch, listed: usize) -> Vec<Block> {
    let mut list = vec![sites(source)];
    list.extend(glance::blocks(source, listed));
    let formatter = &source.formatter;
    let arch = match arch {
        Arch::Drawn => arch_small(source.case, formatter.notation, formatter.texts, ARCH),
        Arch::None => None,
    };
    let Some(arch) = arch else {
        return list;
    };
    let lane = |width, blocks| Lane { width, blocks };
    vec![Block::Beside(
        vec![
            lane(Width::Mm(ARCH), vec![Block::Centred(arch)]),
            lane(Width::Share(1.0), list),
        ],
        GAP,
    )]
}

/// Two columns beside each other, as wide as makes the higher one lowest.
fn as_low_as_can_be(source: &Source<'_>, left: &[Block], right: &[Block]) -> Block {
    /// Parts of the width of the left one that are tried.
    const SHARES: [f64; 5] = [0.5, 0.47, 0.44, 0.41, 0.38];
    let width = source.paper.rect().width() - 2.0 * SIDE;
    let beside = |share: f64| {
        let lane = |share, blocks: &[Block]| Lane {
            width: Width::Share(share),
            blocks: blocks.to_vec(),
        };
        Block::Beside(vec![lane(share, left), lane(1.0 - share, right)], GAP)
    };
    let high = |share: &f64| height(&[beside(*share)], width);
    let best = SHARES
        .into_iter()
        .min_by(|a, b| high(a).total_cmp(&high(b)));
    beside(best.unwrap_or(0.5))
}

/// The sites with their implants and worst verdicts; no setting, which the second reader must not see.
fn sites(source: &Source<'_>) -> Block {
    let formatter = &source.formatter;
    let sites = &source.worksheet.sites;
    if sites.is_empty() {
        return body(formatter.word("sheet-no-sites"));
    }
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let rows = sites.iter().map(|sheet| {
        Row::Cells(vec![
            Cell::Text(begin(&formatter.site(&sheet.id)), SMALL.bold()),
            Cell::Text(formatter.implant(&sheet.implant), SMALL),
            Cell::Beside(vec![
                Cell::Mark(mark_of(sheet.worst)),
                Cell::Text(worst_word(source, sheet), SMALL.bold()),
            ]),
        ])
    });
    Block::Table(Table {
        columns: vec![
            head("sheet-col-site", Width::Mm(46.0)),
            head("sheet-col-implant", Width::Share(1.0)),
            head("sheet-col-worst", Width::Mm(32.2)),
        ],
        rows: rows.collect(),
        padding_mm: 0.6,
        gap_mm: 2.0,
    })
}

/// The three phases, each with its heading and the lines for who asked.
fn phases_of(source: &Source<'_>, style: TextStyle) -> [Vec<Block>; 3] {
    let formatter = &source.formatter;
    [
        ("safety-before-anaesthetic", before_anaesthetic(source)),
        ("safety-before-cut", before_cut(source)),
        ("safety-before-leaving", before_leaving(source)),
    ]
    .map(|(title, items)| {
        // Who asked, and when, stand beside the title.
        let title = Block::Paragraph(formatter.word(title), PHASE);
        let lane = |width, block| Lane {
            width,
            blocks: vec![block],
        };
        let title = lane(Width::Share(1.0), title);
        let said = lane(Width::Mm(SAID.0 + SAID.1 + 2.0), said_by(source));
        let title = Block::Beside(vec![title, said], 2.0);
        let mut phase = vec![Block::Space(1.8), title, Block::Space(0.8)];
        phase.extend(items.into_iter().map(|item| to_tick_in(item, style)));
        phase
    })
}

fn before_anaesthetic(source: &Source<'_>) -> Vec<String> {
    let formatter = &source.formatter;
    let case = source.case;
    let teeth: Vec<String> = case
        .sites
        .iter()
        .map(|site| formatter.tooth(site.tooth))
        .collect();
    let teeth = if teeth.is_empty() {
        formatter.word("sheet-none")
    } else {
        teeth.join(", ")
    };
    let fingerprint = source.worksheet.fingerprint.to_string();
    let mut items = vec![
        formatter.word("safety-identity"),
        if case.sites.len() > NAMED {
            let count = [("count", case.sites.len())];
            formatter.counted("safety-jaw-listed", &count, &[("jaw", &formatter.jaw())])
        } else {
            formatter.text(
                "safety-jaw",
                &[("jaw", &formatter.jaw()), ("teeth", &teeth)],
            )
        },
        formatter.word("safety-health"),
        match case.guide.scan_date {
            Some(date) => formatter.text("safety-scan", &[("date", &date.to_string())]),
            None => formatter.word("safety-scan-unknown"),
        },
        formatter.counted(
            "safety-plan",
            &[("revision", source.worksheet.revision)],
            &[
                ("case", &source.worksheet.reference),
                ("fingerprint", &fingerprint),
            ],
        ),
        match (&case.guide.code, case.guide.state) {
            (Some(code), _) => formatter.text("safety-guide-code", &[("code", code.as_str())]),
            (None, GuideState::Made) => formatter.word("safety-guide-no-code"),
            (None, GuideState::Planned) => formatter.word("safety-guide-planned"),
        },
    ];
    items.extend(stops(source).map(|id| formatter.word(id)));
    let resets = source.worksheet.resets.len();
    if resets > 0 {
        items.push(formatter.counted("safety-resets", &[("count", resets)], &[]));
    }
    items.extend([
        formatter.word("safety-tray"),
        formatter.word(implants(source)),
        formatter.word("safety-coolant"),
    ]);
    let open = source.worksheet.findings.iter();
    let open = open.filter(|finding| finding.severity().is_open()).count();
    items.push(if open == 0 {
        formatter.word("safety-open-none")
    } else {
        formatter.counted("safety-open", &[("count", open)], &[])
    });
    items
}

/// The question about the stops; nothing where none is used.
fn stops(source: &Source<'_>) -> Option<&'static str> {
    let loading = source.worksheet.loading.iter();
    let with_stop = loading.filter(|item| {
        let set = item.set.as_ref();
        set.is_some_and(|set| set.stop.is_some())
    });
    let (sealed, open): (Vec<_>, Vec<_>) = with_stop.partition(|item| item.unopened);
    match (open.is_empty(), sealed.is_empty()) {
        (true, true) => None,
        (false, true) => Some("safety-stops"),
        (false, false) => Some("safety-stops-some-sealed"),
        (true, false) => Some("safety-stops-sealed"),
    }
}

/// The question about the implants: about the next shorter ones only where the kit has such.
fn implants(source: &Source<'_>) -> &'static str {
    let sites = source.worksheet.sites.iter();
    let has_shorter = |site: &SiteSheet| {
        let shorter = site.shorter.as_ref();
        let implant = shorter.and_then(|shorter| source.case.kit.implant(&shorter.implant));
        implant.is_some_and(|implant| implant.quantity > 0)
    };
    let (with, without): (Vec<_>, Vec<_>) = sites.partition(|site| has_shorter(site));
    match (with.is_empty(), without.is_empty()) {
        (true, _) => "safety-implants",
        (false, false) => "safety-implants-some-shorter",
        (false, true) => "safety-implants-all-shorter",
    }
}

/// The question about the sounding: of the sites that have a figure, by name where not all have.
fn sounding(source: &Source<'_>) -> Option<String> {
    let formatter = &source.formatter;
    let sites = source.worksheet.sites.iter();
    let (with, without): (Vec<_>, Vec<_>) = sites.partition(|site| {
        let sounding = site.sounding.as_ref();
        sounding.is_some_and(|figure| figure.length().is_some())
    });
    let names = formatter.joined(
        "load-list",
        with.iter().map(|site| formatter.site(&site.id)),
    )?;
    Some(if without.is_empty() {
        formatter.word("safety-sounding")
    } else {
        formatter.text("safety-sounding-some", &[("sites", &names)])
    })
}

fn before_cut(source: &Source<'_>) -> Vec<String> {
    let formatter = &source.formatter;
    let mut items = vec![
        formatter.word("safety-names"),
        formatter.word("safety-aloud"),
        formatter.word("safety-small-parts"),
        formatter.word("safety-seat"),
    ];
    let pins = source.case.guide.pins.len();
    if pins > 0 {
        items.push(formatter.counted("safety-pins", &[("count", pins)], &[]));
    }
    items.extend(sounding(source));
    // What is drilled to a mark is not set.
    items.extend(stops(source).map(|_| formatter.word("safety-reading")));
    items.extend([
        formatter.word("safety-running"),
        formatter.word("safety-counted-in"),
    ]);
    items
}

fn before_leaving(source: &Source<'_>) -> Vec<String> {
    let formatter = &source.formatter;
    vec![
        formatter.word("safety-counted-out"),
        formatter.word("safety-throat"),
        formatter.word("safety-whole"),
        formatter.word("safety-record"),
        formatter.word("safety-radiograph"),
        formatter.word("safety-wear"),
        formatter.word(match source.case.jaw {
            Jaw::Lower => "safety-told-lower",
            Jaw::Upper => "safety-told-upper",
        }),
    ]
}

/// Lines for who asked, and when.
fn said_by(source: &Source<'_>) -> Block {
    let lane = |id: &str, width: f64| Lane {
        width: Width::Mm(width),
        blocks: vec![
            // What is written stands above the line.
            Block::Space(1.6),
            Block::Picture(line_after(width, &source.formatter.word(id))),
        ],
    };
    Block::Beside(
        vec![lane("safety-asked-by", SAID.0), lane("safety-at", SAID.1)],
        2.0,
    )
}
