//! What is taken although no slot of the tray is for it: guide, gauge, handpiece head, and the next
//! shorter implants, which stay closed at hand.

use super::Source;
use super::pieces::{heading, to_tick};
use crate::kit::{ImplantId, SiteId};
use crate::plan::Known;
use crate::sheet::{Block, Lane, Width};

/// Lines to tick, in two columns.
pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let mut lines = vec![guide(source), gauge(source), head(source)];
    let shorter = shorter_implants(source);
    lines.extend(
        shorter
            .into_iter()
            .map(|(id, sites)| closed(source, &id, &sites)),
    );
    let half = lines.len().div_ceil(2);
    let rest = lines.split_off(half);
    let lane = |lines: Vec<String>| Lane {
        width: Width::Share(1.0),
        blocks: lines.into_iter().map(to_tick).collect(),
    };
    let mut blocks: Vec<Block> = heading(source.say.word("sheet-beside-tray")).into();
    blocks.push(Block::Beside(vec![lane(lines), lane(rest)], 6.0));
    blocks
}

/// A next shorter implant, which stays closed, with the sites that it would be for.
fn closed(source: &Source<'_>, id: &ImplantId, sites: &[SiteId]) -> String {
    let say = &source.say;
    let sites = sites.iter().map(|site| say.site(site));
    let sites = say.joined("load-list", sites).unwrap_or_default();
    let implant = source.case.kit.implant(id);
    let words = if implant.is_some_and(|implant| implant.quantity > 0) {
        "sheet-shorter-at-hand"
    } else {
        "sheet-shorter-lacking"
    };
    say.text(words, &[("implant", &say.implant(id)), ("sites", &sites)])
}

fn guide(source: &Source<'_>) -> String {
    let say = &source.say;
    match &source.case.guide.code {
        Some(code) => say.text("sheet-take-guide", &[("code", code.as_str())]),
        None => say.word("sheet-take-guide-no-code"),
    }
}

fn gauge(source: &Source<'_>) -> String {
    let say = &source.say;
    let id = source.case.setup.gauge.as_ref();
    let Some(gauge) = id.and_then(|id| source.case.kit.gauge(id)) else {
        return say.word("sheet-gauge-none");
    };
    let name = gauge.name.as_str();
    match gauge.check_piece_mm {
        None => say.text("sheet-take-gauge-no-piece", &[("gauge", name)]),
        Some(piece) => say.text(
            "sheet-take-gauge",
            &[
                ("gauge", name),
                ("piece", &say.set_length_with_unit(&Known::Is(piece))),
            ],
        ),
    }
}

fn head(source: &Source<'_>) -> String {
    let id = source.case.setup.head.as_ref();
    id.and_then(|id| source.case.kit.head(id)).map_or_else(
        || source.say.word("sheet-take-head-none"),
        |head| head.name.to_string(),
    )
}

/// The next shorter implants, each with the sites that it would be for.
pub(super) fn shorter_implants(source: &Source<'_>) -> Vec<(ImplantId, Vec<SiteId>)> {
    let mut found: Vec<(ImplantId, Vec<SiteId>)> = Vec::new();
    for sheet in &source.worksheet.sites {
        let Some(shorter) = &sheet.shorter else {
            continue;
        };
        match found.iter_mut().find(|(id, _)| *id == shorter.implant) {
            Some((_, sites)) => sites.push(sheet.id.clone()),
            None => found.push((shorter.implant.clone(), vec![sheet.id.clone()])),
        }
    }
    found
}
