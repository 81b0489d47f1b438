//! The team's questions in three phases.
//!
//! The structure of three phases is that of the surgical safety checklist of the World Health
//! Organization; the items are this program's own, for this procedure, and supplement the local
//! list.

use super::Source;
use super::overview::{chart, days_to_come, open_line};
use super::pieces::{SMALL, body, column, heading, height, note, to_tick_in, verdict, worst_word};
use super::signatures::signatures;
use crate::case::GuideState;
use crate::dentition::Jaw;
use crate::drawing::{Across, TextStyle};
use crate::plan::SiteSheet;
use crate::sheet::{Block, Cell, Frame, Lane, Row, Table, Width, short_line};
use crate::wording::begin;

/// Width of the arch beside the list of sites, mm.
const ARCH: f64 = 92.0;
/// So many sites are few.
const FEW: usize = 3;
/// Between two things beside each other, mm.
const GAP: f64 = 7.0;

/// What is planned and open, the three phases and the signatures: on one page where they fit, with the
/// arch where that fits too.
pub(super) fn blocks(source: &Source<'_>, frame: Frame) -> Vec<Block> {
    let fits = |blocks: &[Block]| height(blocks, frame.area.width()) <= frame.area.height();
    let arches = if one_side(source) {
        vec![Arch::Drawn, Arch::None]
    } else {
        vec![Arch::None]
    };
    for arch in arches {
        for style in [TextStyle::BODY, SMALL] {
            let blocks = page(source, arch, Phases::Beside(style));
            if fits(&blocks) {
                return blocks;
            }
        }
    }
    page(source, Arch::None, Phases::Below)
}

/// True if all sites are on one side: then the arch has words on that side alone.
fn one_side(source: &Source<'_>) -> bool {
    let mut sides = source.case.sites.iter().map(|site| site.tooth.side());
    let first = sides.next();
    first.is_some_and(|first| sides.all(|side| side == first))
}

/// The arch is drawn or not.
#[derive(Clone, Copy)]
enum Arch {
    Drawn,
    None,
}

/// The phases are beside each other in this type, or below each other.
#[derive(Clone, Copy)]
enum Phases {
    Beside(TextStyle),
    Below,
}

fn page(source: &Source<'_>, arch: Arch, phases: Phases) -> Vec<Block> {
    let formatter = &source.formatter;
    let lane = |width, blocks| Lane { width, blocks };
    let all: Vec<&SiteSheet> = source.worksheet.sites.iter().collect();
    let mut blocks = vec![open_line(source), Block::Space(2.0)];
    blocks.extend(days_to_come(source));
    match arch {
        Arch::Drawn => blocks.push(Block::Beside(
            vec![
                lane(Width::Mm(ARCH), vec![Block::Picture(chart(source, ARCH))]),
                lane(Width::Share(1.0), vec![sites(source, &all)]),
            ],
            GAP,
        )),
        Arch::None if all.len() > FEW => blocks.push(sites_beside(source)),
        // Few sites stand over the shorter one of the columns below.
        Arch::None => {}
    }
    blocks.push(Block::Space(2.0));
    blocks.push(note(formatter.word("safety-supplement")));
    match phases {
        Phases::Below => blocks.extend(
            // A phase stays on one page, so that none of it is overlooked.
            (all.len() <= FEW)
                .then(|| sites(source, &all))
                .into_iter()
                .chain(phases_of(source, TextStyle::BODY).map(Block::Together)),
        ),
        Phases::Beside(style) => {
            let [anaesthetic, cut, leaving] = phases_of(source, style);
            let few = matches!(arch, Arch::None) && all.len() <= FEW;
            let over = few.then(|| sites(source, &all));
            let anaesthetic = over.into_iter().chain(anaesthetic).collect();
            let second = cut.into_iter().chain(leaving).collect();
            blocks.push(Block::Beside(
                vec![
                    lane(Width::Share(1.0), anaesthetic),
                    lane(Width::Share(1.0), second),
                ],
                GAP,
            ));
        }
    }
    blocks.push(signatures(source));
    blocks
}

/// The sites, many of them in two columns.
fn sites_beside(source: &Source<'_>) -> Block {
    let all: Vec<&SiteSheet> = source.worksheet.sites.iter().collect();
    if all.len() < 3 {
        return sites(source, &all);
    }
    let (left, right) = all.split_at(all.len().div_ceil(2));
    let lane = |part: &[&SiteSheet]| Lane {
        width: Width::Share(1.0),
        blocks: vec![sites(source, part)],
    };
    Block::Beside(vec![lane(left), lane(right)], GAP)
}

/// The sites with their implants and worst verdicts; no setting, which the second reader must not see.
fn sites(source: &Source<'_>, sites: &[&SiteSheet]) -> Block {
    let formatter = &source.formatter;
    if sites.is_empty() {
        return body(formatter.word("sheet-no-sites"));
    }
    let head = |id: &str, width| column(formatter.word(id), width, Across::Start);
    let rows = sites.iter().map(|sheet| {
        Row::Cells(vec![
            Cell::Text(begin(&formatter.site(&sheet.id)), SMALL.bold()),
            Cell::Text(formatter.implant(&sheet.implant), SMALL),
            verdict(sheet.worst, worst_word(source, sheet)),
        ])
    });
    Block::Table(Table {
        columns: vec![
            head("sheet-col-site", Width::Share(1.2)),
            head("sheet-col-implant", Width::Share(1.0)),
            head("sheet-col-worst", Width::Mm(24.0)),
        ],
        rows: rows.collect(),
        padding_mm: 0.8,
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
        let mut phase: Vec<Block> = heading(formatter.word(title)).into();
        phase.extend(items.into_iter().map(|item| to_tick_in(item, style)));
        phase.push(said_by(source));
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
        formatter.text(
            "safety-jaw",
            &[("jaw", &formatter.jaw()), ("teeth", &teeth)],
        ),
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
    let lane = |id: &str, share: f64, width: f64| Lane {
        width: Width::Share(share),
        blocks: vec![Block::Picture(short_line(
            width,
            &source.formatter.word(id),
        ))],
    };
    Block::Beside(
        vec![
            lane("safety-asked-by", 2.0, 48.0),
            lane("safety-at", 1.0, 24.0),
        ],
        8.0,
    )
}
