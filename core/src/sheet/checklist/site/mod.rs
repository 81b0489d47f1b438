//! The pages of one site: what a hand acts on first, then what it rests on.

mod checked;
mod mix_ups;
mod more;
mod steps;

pub(super) use steps::bench_figure;

use super::Source;
use super::every_page::Heading;
use super::implants::implant_torque;
use super::pieces::{LABEL, body, fact, heading as within, height, note};
use crate::case::{Site, SiteState, SleeveFace};
use crate::charts::{Room, Section};
use crate::drawing::Drawing;
use crate::plan::{SiteSheet, StepPath};
use crate::sheet::{Block, Frame, Lane, Width, write_box};

/// Room for the section.
const SECTION: Room = Room {
    width: 92.0,
    height: 104.0,
};
/// Below this height a section is not worth squeezing onto a page, mm.
const LEAST_SECTION: f64 = 84.0;
/// Between the drawing and the facts beside it, mm.
const GAP: f64 = 8.0;
/// Number of other distances listed.
const OFFERS: usize = 2;
/// Width of the labels of facts, mm.
const LABELS: f64 = 24.0;

pub(super) fn heading(source: &Source<'_>, sheet: &SiteSheet) -> Heading {
    let formatter = &source.formatter;
    let subtitle = source.case.site(sheet.id.as_str()).map(|site| {
        formatter.text(
            "sheet-site-subtitle",
            &[
                ("implant", &formatter.implant(&sheet.implant)),
                ("extent", &formatter.extent_at(site)),
                ("tilt", &formatter.tilt(site)),
                ("density", &formatter.density(site.density)),
                ("support", &formatter.support(source.case.guide.support)),
            ],
        )
    });
    Heading {
        title: crate::wording::begin(&formatter.site(&sheet.id)),
        subtitle: subtitle.unwrap_or_default(),
    }
}

pub(super) fn blocks(source: &Source<'_>, sheet: &SiteSheet, frame: Frame) -> Vec<Block> {
    let formatter = &source.formatter;
    let Some(site) = source.case.site(sheet.id.as_str()) else {
        return Vec::new();
    };
    let mut blocks = steps::blocks(source, sheet);
    blocks.push(Block::Space(3.5));
    let used = height(&blocks, frame.area.width());
    blocks.extend(beside(
        section(source, sheet, frame.area.height() - used),
        facts(source, site, sheet),
        frame,
    ));
    blocks.extend(checked::clearances(source, sheet));
    blocks.extend(checked::others(source, sheet));
    blocks.extend(fitting(source, sheet));
    blocks.extend(mix_ups::blocks(source, sheet));
    blocks.extend(more::blocks(source, sheet));
    if let Some(words) = &site.note {
        blocks.extend(within(formatter.word("sheet-site-note")));
        blocks.push(body(words.clone()));
    }
    blocks
}

/// The section, or why there is none: smaller where it then fits below the rest of the page.
fn section(source: &Source<'_>, sheet: &SiteSheet, left_mm: f64) -> Result<Drawing, Vec<Block>> {
    let formatter = &source.formatter;
    let site_name = formatter.site(&sheet.id);
    let section = Section {
        case: source.case,
        worksheet: source.worksheet,
        site: sheet,
        step: None,
        site_name: &site_name,
        texts: formatter.texts,
    };
    let lower = Room {
        height: left_mm.min(SECTION.height),
        ..SECTION
    };
    if left_mm >= LEAST_SECTION
        && let Ok(drawing) = section.draw(lower)
    {
        return Ok(drawing);
    }
    section.draw(SECTION).map_err(|reason| {
        let reason = reason.words(formatter.texts);
        vec![body(
            formatter.text("sheet-section-none", &[("reason", &reason)]),
        )]
    })
}

/// The sleeve offset as it was entered, with its face; where that is the coronal rim, with what it
/// leaves to the apical face, which every setting counts from.
fn sleeve_offset(source: &Source<'_>, site: &Site, sheet: &SiteSheet) -> String {
    let formatter = &source.formatter;
    let entered = formatter.sleeve_offset(site);
    match site.platform_to_sleeve.map(|offset| offset.to) {
        Some(SleeveFace::Coronal) => {
            let apical = formatter.figure_line(&sheet.distance);
            let args = [("entered", entered.as_str()), ("apical", &apical)];
            formatter.text("sheet-offset-to-rim", &args)
        }
        Some(SleeveFace::Apical) | None => entered,
    }
}

/// The facts beside the section.
fn facts(source: &Source<'_>, site: &Site, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    let mut blocks = Vec::new();
    let distance = sheet.distance.length().map_or_else(
        || {
            let reasons = formatter.reasons(sheet.distance.value.reasons());
            let reasons = reasons.unwrap_or_default();
            formatter.text("sheet-no-figure", &[("reasons", &reasons)])
        },
        |_| sleeve_offset(source, site, sheet),
    );
    for (label, value) in [
        ("sheet-fact-bone", formatter.bone(&site.state)),
        (
            "sheet-fact-master",
            formatter.master_sleeve(&site.master_sleeve),
        ),
        ("sheet-fact-distance", distance),
    ] {
        blocks.push(fact(formatter.word(label), value, LABELS));
        blocks.push(Block::Space(0.8));
    }
    let headed = |label: &str, text: String| {
        [
            Block::Space(2.2),
            Block::Paragraph(formatter.word(label), LABEL.bold()),
            body(crate::wording::begin(&text)),
        ]
    };
    if let Some(sounding) = &sheet.sounding {
        blocks.extend(headed("sheet-sounding", formatter.sounding(sounding)));
        // The seat is that of the first guided step: its sleeve has to be in place.
        let guided = sheet
            .steps
            .iter()
            .find(|one| one.path != StepPath::Freehand);
        if let Some(step) = guided {
            blocks.push(body(
                formatter.text("sheet-probe", &[("led", &formatter.guidance(step))]),
            ));
        }
        if sounding.length().is_some() {
            let label = formatter.word("sheet-sounded");
            blocks.push(Block::Space(1.2));
            blocks.push(Block::Picture(write_box(36.0, 10.0, &label)));
        }
    } else if site.state.socket().is_some() {
        blocks.push(Block::Space(2.2));
        blocks.push(body(formatter.word(match site.state {
            SiteState::ImplantToRemove { .. } => "sheet-sounding-bed",
            _ => "sheet-sounding-fresh",
        })));
    }
    blocks.extend(headed(
        "sheet-insertion",
        formatter.insertion(sheet.insertion.as_ref()),
    ));
    if let Some(depth) = &sheet.final_depth {
        blocks.push(Block::Space(0.8));
        blocks.push(body(crate::wording::begin(&formatter.final_depth(depth))));
    }
    if let Some(torque) = implant_torque(source, sheet) {
        blocks.push(note(torque));
    }
    blocks
}

/// Other distances at which fixed stops fit, the best first.
fn fitting(source: &Source<'_>, sheet: &SiteSheet) -> Vec<Block> {
    let formatter = &source.formatter;
    let offers = &sheet.fitting_distances;
    if offers.is_empty() {
        return Vec::new();
    }
    let mut blocks: Vec<Block> = within(formatter.word("sheet-fitting")).into();
    let listed = offers.iter().take(OFFERS);
    blocks.extend(listed.flat_map(|offer| {
        let words = formatter.fitting_distance(&sheet.id, offer);
        [body(crate::wording::begin(&words)), Block::Space(0.8)]
    }));
    let more = offers.len().saturating_sub(OFFERS);
    if more > 0 {
        blocks.push(note(formatter.counted(
            "sheet-fitting-more",
            &[("more", more)],
            &[],
        )));
    }
    blocks
}

/// A drawing with blocks beside it; below it where they are higher than a page.
fn beside(picture: Result<Drawing, Vec<Block>>, blocks: Vec<Block>, frame: Frame) -> Vec<Block> {
    let left = match picture {
        Ok(drawing) => vec![Block::Picture(drawing)],
        Err(words) => words,
    };
    if left.is_empty() {
        return blocks;
    }
    let room = frame.area.width() - SECTION.width - GAP;
    let fits = |blocks: &[Block], width| height(blocks, width) <= frame.area.height();
    if !fits(&blocks, room) || !fits(&left, SECTION.width) {
        return left
            .into_iter()
            .chain([Block::Space(4.0)])
            .chain(blocks)
            .collect();
    }
    vec![Block::Beside(
        vec![
            Lane {
                width: Width::Mm(SECTION.width),
                blocks: left,
            },
            Lane {
                width: Width::Share(1.0),
                blocks,
            },
        ],
        GAP,
    )]
}
