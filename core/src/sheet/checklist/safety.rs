//! The team's questions in three phases.
//!
//! The structure of three phases is that of the surgical safety checklist of the World Health
//! Organization; the items are this program's own, for this procedure, and supplement the local
//! list.

use super::Source;
use super::pieces::{heading, note, to_tick};
use crate::case::GuideState;
use crate::dentition::Jaw;
use crate::plan::SiteSheet;
use crate::sheet::{Block, Lane, Width, short_line};

/// The three phases.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let say = &source.say;
    let mut blocks = vec![note(say.word("safety-supplement"))];
    for (title, items) in [
        ("safety-before-anaesthetic", before_anaesthetic(source)),
        ("safety-before-cut", before_cut(source)),
        ("safety-before-leaving", before_leaving(source)),
    ] {
        // A phase stays on one page, so that none of it is overlooked.
        let mut phase: Vec<Block> = heading(say.word(title)).into();
        phase.extend(items.into_iter().map(to_tick));
        phase.push(Block::Space(0.8));
        phase.push(said_by(source));
        blocks.push(Block::Together(phase));
    }
    blocks
}

fn before_anaesthetic(source: &Source<'_>) -> Vec<String> {
    let say = &source.say;
    let case = source.case;
    let teeth: Vec<String> = case
        .sites
        .iter()
        .map(|site| say.tooth(site.tooth))
        .collect();
    let teeth = if teeth.is_empty() {
        say.word("sheet-none")
    } else {
        teeth.join(", ")
    };
    let fingerprint = source.worksheet.fingerprint.to_string();
    let mut items = vec![
        say.word("safety-identity"),
        say.text("safety-jaw", &[("jaw", &say.jaw()), ("teeth", &teeth)]),
        say.word("safety-health"),
        match case.guide.scan_date {
            Some(date) => say.text("safety-scan", &[("date", &date.to_string())]),
            None => say.word("safety-scan-unknown"),
        },
        say.text(
            "safety-plan",
            &[
                ("case", &source.worksheet.reference),
                ("revision", &source.worksheet.revision.to_string()),
                ("fingerprint", &fingerprint),
            ],
        ),
        match (&case.guide.code, case.guide.state) {
            (Some(code), _) => say.text("safety-guide-code", &[("code", code.as_str())]),
            (None, GuideState::Made) => say.word("safety-guide-no-code"),
            (None, GuideState::Planned) => say.word("safety-guide-planned"),
        },
    ];
    items.extend(stops(source).map(|id| say.word(id)));
    let resets = source.worksheet.resets.len();
    if resets > 0 {
        items.push(say.text("safety-resets", &[("count", &resets.to_string())]));
    }
    items.extend([
        say.word("safety-tray"),
        say.word(implants(source)),
        say.word("safety-coolant"),
    ]);
    let open = source.worksheet.findings.iter();
    let open = open.filter(|finding| finding.severity().is_open()).count();
    items.push(if open == 0 {
        say.word("safety-open-none")
    } else {
        say.text("safety-open", &[("count", &open.to_string())])
    });
    items
}

/// What is asked of the stops; nothing where none is used.
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

/// What is asked of the implants: of the next shorter ones only where the kit has such.
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

/// What is asked of the sounding: of the sites that have a figure, by name where not all have.
fn sounding(source: &Source<'_>) -> Option<String> {
    let say = &source.say;
    let sites = source.worksheet.sites.iter();
    let (with, without): (Vec<_>, Vec<_>) = sites.partition(|site| {
        let sounding = site.sounding.as_ref();
        sounding.is_some_and(|figure| figure.length().is_some())
    });
    let names = say.joined("load-list", with.iter().map(|site| say.site(&site.id)))?;
    Some(if without.is_empty() {
        say.word("safety-sounding")
    } else {
        say.text("safety-sounding-some", &[("sites", &names)])
    })
}

fn before_cut(source: &Source<'_>) -> Vec<String> {
    let say = &source.say;
    let mut items = vec![
        say.word("safety-names"),
        say.word("safety-aloud"),
        say.word("safety-small-parts"),
        say.word("safety-seat"),
    ];
    let pins = source.case.guide.pins.len();
    if pins > 0 {
        items.push(say.text("safety-pins", &[("count", &pins.to_string())]));
    }
    items.extend(sounding(source));
    // What is drilled to a mark is not set.
    items.extend(stops(source).map(|_| say.word("safety-reading")));
    items.extend([say.word("safety-running"), say.word("safety-counted-in")]);
    items
}

fn before_leaving(source: &Source<'_>) -> Vec<String> {
    let say = &source.say;
    vec![
        say.word("safety-counted-out"),
        say.word("safety-throat"),
        say.word("safety-whole"),
        say.word("safety-record"),
        say.word("safety-radiograph"),
        say.word("safety-wear"),
        say.word(match source.case.jaw {
            Jaw::Lower => "safety-told-lower",
            Jaw::Upper => "safety-told-upper",
        }),
    ]
}

/// Lines for who asked, and when.
fn said_by(source: &Source<'_>) -> Block {
    let lane = |id: &str, share: f64, width: f64| Lane {
        width: Width::Share(share),
        blocks: vec![Block::Picture(short_line(width, &source.say.word(id)))],
    };
    Block::Beside(
        vec![
            lane("safety-asked-by", 2.0, 70.0),
            lane("safety-at", 1.0, 35.0),
        ],
        8.0,
    )
}
