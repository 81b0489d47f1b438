//! The parts of the checklist, in the order of the work. Each begins a page.

use super::every_page::Heading;
use super::{Source, limits, loading, order, overview, safety, second, site, strip};
use crate::plan::SiteSheet;
use crate::sheet::{Block, Frame};

/// A part of the checklist.
pub(super) enum Part<'a> {
    Overview,
    Loading,
    SecondReading,
    Strip,
    Safety,
    Order,
    Site(&'a SiteSheet),
    Limits,
}

impl<'a> Part<'a> {
    /// All parts of a case.
    pub(super) fn all(source: &Source<'a>) -> Vec<Self> {
        let mut parts = vec![Self::Overview, Self::Loading];
        if second::is_needed(source) {
            parts.push(Self::SecondReading);
        }
        if strip::is_needed(source) {
            parts.push(Self::Strip);
        }
        parts.extend([Self::Safety, Self::Order]);
        parts.extend(source.worksheet.sites.iter().map(Self::Site));
        parts.push(Self::Limits);
        parts
    }

    /// The heading of its pages.
    pub(super) fn heading(&self, source: &Source<'_>) -> Heading {
        let plain = |title: &str, subtitle: &str| Heading {
            title: source.say.word(title),
            subtitle: source.say.word(subtitle),
        };
        match self {
            Self::Overview => overview::heading(source),
            Self::Loading => plain("sheet-loading-title", "sheet-loading-subtitle"),
            Self::SecondReading => plain("sheet-second-title", "sheet-second-subtitle"),
            Self::Strip => plain("sheet-strip-title", "sheet-strip-subtitle"),
            Self::Safety => plain("safety-title", "safety-subtitle"),
            Self::Order => plain("sheet-order-title", "sheet-order-subtitle"),
            Self::Site(sheet) => site::heading(source, sheet),
            Self::Limits => plain("sheet-limits-title", "sheet-limits-subtitle"),
        }
    }

    /// What stands on its pages.
    pub(super) fn blocks(&self, source: &Source<'_>, frame: Frame) -> Vec<Block> {
        match self {
            Self::Overview => overview::blocks(source, frame),
            Self::Loading => loading::blocks(source, frame),
            Self::SecondReading => second::blocks(source),
            Self::Strip => strip::blocks(source, frame),
            Self::Safety => safety::blocks(source),
            Self::Order => order::blocks(source),
            Self::Site(sheet) => site::blocks(source, sheet, frame),
            Self::Limits => limits::blocks(source),
        }
    }
}
