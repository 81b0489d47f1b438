//! The team's questions in three phases.
//!
//! The structure of three phases is that of the surgical safety checklist of the World Health
//! Organization; the items are this program's own, for this procedure, and supplement the local
//! list.

use super::Source;
use super::pieces::{heading, note, to_tick};
use crate::case::GuideState;
use crate::dentition::Jaw;
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
        say.word("safety-tray"),
        say.word("safety-implants"),
        say.word("safety-coolant"),
    ];
    let open = source.worksheet.findings.iter();
    let open = open.filter(|finding| finding.severity().is_open()).count();
    items.push(if open == 0 {
        say.word("safety-open-none")
    } else {
        say.text("safety-open", &[("count", &open.to_string())])
    });
    items
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
    items.extend([
        say.word("safety-sounding"),
        say.word("safety-reading"),
        say.word("safety-running"),
        say.word("safety-counted-in"),
    ]);
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
