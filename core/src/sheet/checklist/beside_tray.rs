//! What is taken although no slot of the tray is for it: guide, gauge, handpiece head, and the next
//! shorter implants, which stay closed at hand.

use super::Source;
use crate::drawing::TextStyle;
use crate::kit::{ImplantId, SiteId};
use crate::plan::Known;
use crate::sheet::{Cell, Row};

/// Rows for the table of what is taken.
pub(super) fn rows(source: &Source<'_>) -> Vec<Row> {
    let say = &source.say;
    let whole = |what: String| row(what, say.word("load-whole-case"));
    let mut rows = vec![
        Row::Section(say.word("sheet-beside-tray")),
        whole(guide(source)),
        whole(gauge(source)),
        whole(head(source)),
    ];
    for (implant, sites) in shorter_implants(source) {
        let sites = sites.iter().map(|site| say.site(site));
        let have = source.case.kit.implant(&implant);
        let id = if have.is_some_and(|implant| implant.quantity > 0) {
            "sheet-shorter-at-hand"
        } else {
            "sheet-shorter-lacking"
        };
        rows.push(row(
            say.text(id, &[("implant", &say.implant(&implant))]),
            say.joined("load-list", sites).unwrap_or_default(),
        ));
    }
    rows
}

fn row(what: String, serves: String) -> Row {
    Row::Cells(vec![
        Cell::Empty,
        Cell::Empty,
        Cell::Text(what, TextStyle::STRONG),
        Cell::Text(serves, TextStyle::NOTE),
        Cell::TickBox,
    ])
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
