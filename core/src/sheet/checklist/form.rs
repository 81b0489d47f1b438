//! The pages of the theatre form: as few as its content allows, and the second reading on leaves without a setting.

use super::arrange::{PartPages, needs_free_page};
use super::done::ToldOfDay;
use super::every_page::{EveryPage, Heading};
use super::{Readings, Source};
use super::{counts, loading, order, safety, second, tray};
use crate::drawing::TextStyle;
use crate::sheet::error::SheetError;
use crate::sheet::{Block, Frame, Lane, Page, Width, flowed};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// Room above and below what is in a row, mm, that is tried, the most first; the last is the least: a copier leaves settings
/// that are 1 mm apart, with a rule between them, to themselves (looked at, no source).
const ROOM: [f64; 5] = [1.9, 1.4, 1.0, 0.7, 0.5];

/// The fewest pages of any form: two of a leaf without a setting, and one with.
const LEAST: usize = 3;

/// What the counts follow.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Counts {
    SecondReading,
    TeamCheck,
    Order,
}

/// The page with the map of the tray and the things that are not set.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Tray {
    WithLoading,
    AfterSecondReading,
    OnItsOwn,
}

/// The page on which the order of use begins.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Order {
    OnItsOwn,
    AfterLoading,
}

/// A part of the form; each begins a page.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum FormPart {
    Safety(Counts),
    Second(Counts, Tray),
    Tray,
    Loading(Tray, Order, Counts),
    Order(Counts),
}

impl FormPart {
    /// True if it may take no more than one page: what follows the first thing has no page of its own title.
    const fn is_one_page(self) -> bool {
        matches!(self, Self::Second(_, Tray::AfterSecondReading))
    }

    /// What of it has to be on its first page, where only what follows goes on under a title of its own.
    const fn first_page(self) -> Option<Self> {
        match self {
            Self::Loading(tray, Order::AfterLoading, counts) => {
                Some(Self::Loading(tray, Order::OnItsOwn, counts))
            }
            _ => None,
        }
    }

    /// The heading of its further pages, where it is another.
    fn further(self, source: &Source<'_>) -> Option<Heading> {
        let Self::Loading(_, Order::AfterLoading, counts) = self else {
            return None;
        };
        Some(Self::Order(counts).heading(source))
    }

    /// True if it may be on a leaf with the second reading.
    const fn bears_no_setting(self) -> bool {
        matches!(self, Self::Safety(_) | Self::Second(..) | Self::Tray)
    }

    pub(super) fn heading(self, source: &Source<'_>) -> Heading {
        let plain = |title: &str, subtitle: &str| Heading {
            title: source.formatter.word(title),
            subtitle: source.formatter.word(subtitle),
        };
        match self {
            Self::Safety(_) => plain("safety-title", "safety-subtitle"),
            Self::Second(..) if !second::is_needed(source) => plain("count-heading", "count-how"),
            Self::Second(..) => plain("sheet-second-title", "sheet-second-subtitle"),
            Self::Tray => Heading {
                title: source.formatter.word("sheet-tray-title"),
                subtitle: String::new(),
            },
            Self::Loading(..) => plain("sheet-loading-title", "sheet-loading-subtitle"),
            Self::Order(_) => plain("sheet-order-title", "sheet-order-subtitle"),
        }
    }

    fn blocks(self, source: &Source<'_>, frame: Frame, room_mm: f64) -> Vec<Block> {
        match self {
            Self::Safety(counts) => safety::blocks(source, frame, counts),
            Self::Second(counts, tray) => {
                let mut blocks = if second::is_needed(source) {
                    let mut blocks = second::blocks(source, room_mm);
                    if counts == Counts::SecondReading {
                        blocks.extend(counts::headed(source));
                    }
                    blocks
                } else {
                    counts::blocks(source)
                };
                if tray == Tray::AfterSecondReading {
                    blocks.extend(titled(source, "sheet-tray-title", ""));
                    blocks.extend(tray::blocks(source, frame));
                }
                blocks
            }
            Self::Tray => tray::blocks(source, frame),
            Self::Loading(tray, after, counts) => {
                // Where the order of use follows, what its marks mean is said there.
                let marks = match after {
                    Order::AfterLoading => loading::Marks::Elsewhere,
                    Order::OnItsOwn => loading::Marks::Explained,
                };
                let map = match tray {
                    Tray::WithLoading => loading::Map::Below,
                    Tray::AfterSecondReading | Tray::OnItsOwn => loading::Map::Elsewhere,
                };
                let mut blocks = loading::blocks(source, room_mm, (marks, map));
                if tray == Tray::WithLoading {
                    blocks.push(Block::Space(3.0));
                    blocks.extend(tray::blocks(source, frame));
                }
                if after == Order::AfterLoading {
                    let title = ("sheet-order-title", "sheet-order-subtitle");
                    blocks.extend(titled_in_line(source, title.0, title.1));
                    blocks.extend(order_and_counts(source, counts, room_mm));
                }
                blocks
            }
            Self::Order(counts) => order_and_counts(source, counts, room_mm),
        }
    }
}

fn order_and_counts(source: &Source<'_>, counts: Counts, room_mm: f64) -> Vec<Block> {
    let mut blocks = order::blocks(source, room_mm);
    if counts == Counts::Order {
        blocks.extend(counts::headed(source));
    }
    blocks
}

/// The same on one line with what it says more.
pub(super) fn titled_in_line(source: &Source<'_>, title: &str, subtitle: &str) -> Vec<Block> {
    /// From the top of the title to that of the smaller words, mm.
    const DOWN: f64 = 2.7;
    let style = super::every_page::TITLE;
    let title = source.formatter.word(title);
    let subtitle = source.formatter.word(subtitle);
    let lane = |width, blocks| Lane { width, blocks };
    let first = lane(
        Width::Mm(style.width(&title) + 0.1),
        vec![Block::Paragraph(title, style)],
    );
    let second = vec![
        Block::Space(DOWN),
        Block::Paragraph(subtitle, TextStyle::NOTE),
    ];
    vec![
        Block::Space(1.2),
        Block::Kept(Box::new(Block::Beside(
            vec![first, lane(Width::Share(1.0), second)],
            4.0,
        ))),
        Block::Space(0.6),
    ]
}

/// The title of something that follows something else on its page.
pub(super) fn titled(source: &Source<'_>, title: &str, subtitle: &str) -> Vec<Block> {
    let mut blocks = vec![
        Block::Space(4.0),
        Block::Heading(source.formatter.word(title), super::every_page::TITLE),
    ];
    if !subtitle.is_empty() {
        let words = source.formatter.word(subtitle);
        blocks.push(Block::Heading(words, TextStyle::NOTE));
    }
    blocks.push(Block::Space(1.0));
    blocks
}

/// The form, in the arrangement that takes the fewest pages, and of these the one that leaves none free and
/// has things where they are looked for first: each as roomy as its pages allow.
///
/// # Errors
///
/// Something that must stay together is higher than a page.
pub(super) fn pages(
    source: &Source<'_>,
    every: &EveryPage<'_>,
) -> Result<Vec<PartPages>, SheetError> {
    let blank = arranged(source, every)?;
    if source.readings == Readings::Blank || source.signed.day.is_none() {
        return Ok(blank);
    }
    // What is recorded takes no page more: who and when go before what is in the boxes does.
    let most = sheets(&blank);
    let told = |told| arranged(&Source { told, ..*source }, every);
    match told(ToldOfDay::Times) {
        Ok(all) if sheets(&all) <= most => Ok(all),
        _ => told(ToldOfDay::Boxes),
    }
}

/// The number of pages, with one that is left free where one is needed.
fn sheets(parts: &[PartPages]) -> usize {
    let count = |blind: bool| {
        let these = parts.iter().filter(|part| part.bears_no_setting == blind);
        these.map(|part| part.pages.len()).sum::<usize>()
    };
    let (blind, others) = (count(true), count(false));
    blind + others + usize::from(needs_free_page(blind, others))
}

/// The same with as much of the day as the source tells.
fn arranged(source: &Source<'_>, every: &EveryPage<'_>) -> Result<Vec<PartPages>, SheetError> {
    let mut laid = BTreeMap::new();
    let mut best: Option<((usize, usize), Vec<FormPart>)> = None;
    let mut refused = None;
    for parts in arrangements(source) {
        let (mut blind, mut others) = (0, 0);
        let mut holds = true;
        for part in &parts {
            for part in part.first_page().into_iter().chain([*part]) {
                if let Entry::Vacant(place) = laid.entry(part) {
                    // Where it cannot be laid so, it may be otherwise.
                    place.insert(match lay(source, every, part, ROOM[ROOM.len() - 1]) {
                        Ok(pages) => pages,
                        Err(why) => {
                            refused.get_or_insert(why);
                            Vec::new()
                        }
                    });
                }
                holds &= laid.get(&part).is_some_and(|pages| !pages.is_empty());
            }
            let pages = |part: &FormPart| laid.get(part).map_or(0, Vec::len);
            let count = pages(part);
            holds &= count == 1 || !part.is_one_page();
            holds &= part.first_page().is_none_or(|first| pages(&first) == 1);
            holds &= laid
                .get(part)
                .is_some_and(|pages| begins_all(*part, source, pages));
            if part.bears_no_setting() {
                blind += count;
            } else {
                others += count;
            }
        }
        let free = usize::from(needs_free_page(blind, others));
        let worth = (blind + others + free, free);
        if holds && best.as_ref().is_none_or(|(before, _)| worth < *before) {
            best = Some((worth, parts));
        }
        if holds && worth.0 <= LEAST {
            break;
        }
    }
    let parts = match (best, refused) {
        (Some((_, parts)), _) => parts,
        (None, Some(why)) => return Err(why),
        (None, None) => Vec::new(),
    };
    let mut all = Vec::new();
    for (index, part) in parts.into_iter().enumerate() {
        let least = laid.remove(&part).unwrap_or_default();
        let count = least.len();
        let mut pages = least;
        let has_rows = !matches!(part, FormPart::Safety(_));
        let roomier = ROOM[..ROOM.len() - 1].iter().filter(|_| has_rows);
        for room in roomier {
            // What does not fit with more room is laid with less.
            if let Ok(roomy) = lay(source, every, part, *room)
                && roomy.len() == count
                && begins_all(part, source, &roomy)
            {
                pages = roomy;
                break;
            }
        }
        all.push(PartPages {
            bears_no_setting: part.bears_no_setting(),
            is_reading: matches!(part, FormPart::Second(..)),
            heading: part.heading(source),
            further: part.further(source),
            labelled: index == 0,
            pages,
        });
    }
    Ok(all)
}

fn lay(
    source: &Source<'_>,
    every: &EveryPage<'_>,
    part: FormPart,
    room_mm: f64,
) -> Result<Vec<Page>, SheetError> {
    let heading = part.heading(source);
    let labelled = matches!(part, FormPart::Safety(_));
    let first = every.first_frame(&heading, labelled);
    let further = part.further(source).unwrap_or(heading);
    flowed(
        &part.blocks(source, first, room_mm),
        first,
        every.frame(&further),
    )
}

/// True if what goes on under a title of its own began on the first page, so that no page bears that title twice.
fn begins_all(part: FormPart, source: &Source<'_>, pages: &[Page]) -> bool {
    let Some(further) = part.further(source) else {
        return true;
    };
    let texts = pages.first().map(|page| page.over.texts());
    let mut texts = texts.unwrap_or_default().into_iter();
    texts.any(|text| text.content == further.title && text.style == super::every_page::TITLE)
}

/// The ways to lay the form, those first in which each thing is where it is looked for first.
fn arrangements(source: &Source<'_>) -> Vec<Vec<FormPart>> {
    let counts: &[Counts] = if second::is_needed(source) {
        &[Counts::SecondReading, Counts::TeamCheck, Counts::Order]
    } else {
        &[Counts::SecondReading]
    };
    let mut all = Vec::new();
    for counts in counts {
        for tray in [Tray::WithLoading, Tray::AfterSecondReading, Tray::OnItsOwn] {
            for order in [Order::OnItsOwn, Order::AfterLoading] {
                let on_second = match counts {
                    Counts::TeamCheck => Counts::Order,
                    other => *other,
                };
                let mut parts = vec![FormPart::Safety(*counts), FormPart::Second(on_second, tray)];
                parts.extend((tray == Tray::OnItsOwn).then_some(FormPart::Tray));
                parts.push(FormPart::Loading(tray, order, *counts));
                parts.extend((order == Order::OnItsOwn).then_some(FormPart::Order(*counts)));
                all.push(parts);
            }
        }
    }
    all
}
