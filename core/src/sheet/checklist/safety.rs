//! The team's questions in three phases.
//!
//! The structure of three phases is that of the surgical safety checklist of the World Health
//! Organization; the items are this program's own, for this procedure, and supplement the local
//! list.

use super::Source;
use super::overview::open_line;
use super::pieces::{heading, note, to_tick};
use super::signatures::signatures;
use crate::case::GuideState;
use crate::dentition::Jaw;
use crate::plan::SiteSheet;
use crate::sheet::{Block, Lane, Width, short_line};

/// The three phases.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut blocks = vec![
        open_line(source),
        Block::Space(2.0),
        note(formatter.word("safety-supplement")),
    ];
    for (title, items) in [
        ("safety-before-anaesthetic", before_anaesthetic(source)),
        ("safety-before-cut", before_cut(source)),
        ("safety-before-leaving", before_leaving(source)),
    ] {
        // A phase stays on one page, so that none of it is overlooked.
        let mut phase: Vec<Block> = heading(formatter.word(title)).into();
        phase.extend(items.into_iter().map(to_tick));
        phase.push(Block::Space(0.8));
        phase.push(said_by(source));
        blocks.push(Block::Together(phase));
    }
    blocks.push(signatures(source));
    blocks
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
            lane("safety-asked-by", 2.0, 70.0),
            lane("safety-at", 1.0, 35.0),
        ],
        8.0,
    )
}
