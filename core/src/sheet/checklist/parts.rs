//! The parts of the checklist, in the order of the work. Each begins a page.

use super::every_page::Heading;
use super::{Source, counts, loading, order, overview, run, safety, second, site, strip};
use crate::plan::SiteSheet;
use crate::sheet::{Block, Frame};

/// A part of the checklist.
pub(super) enum Part<'a> {
    Overview,
    Loading,
    SecondReading,
    Safety,
    Counts,
    Strip,
    Order,
    Run,
    Site(&'a SiteSheet),
}

impl<'a> Part<'a> {
    /// All parts of a case.
    pub(super) fn all(source: &Source<'a>) -> Vec<Self> {
        let mut parts = vec![Self::Overview, Self::Loading];
        if second::is_needed(source) {
            parts.push(Self::SecondReading);
        }
        parts.extend([Self::Safety, Self::Counts]);
        if strip::is_needed(source) {
            parts.push(Self::Strip);
        }
        parts.push(Self::Order);
        if run::is_needed(source) {
            parts.push(Self::Run);
        }
        parts.extend(source.worksheet.sites.iter().map(Self::Site));
        parts
    }

    /// True if it may be on the back of the second reading.
    pub(super) const fn bears_no_setting(&self) -> bool {
        matches!(self, Self::Safety | Self::Counts)
    }

    /// The heading of its pages.
    pub(super) fn heading(&self, source: &Source<'_>) -> Heading {
        let plain = |title: &str, subtitle: &str| Heading {
            title: source.formatter.word(title),
            subtitle: source.formatter.word(subtitle),
        };
        match self {
            Self::Overview => overview::heading(source),
            Self::Loading => plain("sheet-loading-title", "sheet-loading-subtitle"),
            Self::SecondReading => plain("sheet-second-title", "sheet-second-subtitle"),
            Self::Strip => plain("sheet-strip-title", "sheet-strip-subtitle"),
            Self::Safety => plain("safety-title", "safety-subtitle"),
            Self::Order => plain("sheet-order-title", "sheet-order-subtitle"),
            Self::Run => plain("sheet-run-title", "sheet-run-subtitle"),
            Self::Counts => plain("count-heading", "count-how"),
            Self::Site(sheet) => site::heading(source, sheet),
        }
    }

    /// The content of its pages.
    pub(super) fn blocks(&self, source: &Source<'_>, frame: Frame) -> Vec<Block> {
        match self {
            Self::Overview => overview::blocks(source, frame),
            Self::Loading => loading::blocks(source, frame),
            Self::SecondReading => second::blocks(source),
            Self::Strip => strip::blocks(source, frame),
            Self::Safety => safety::blocks(source),
            Self::Counts => counts::blocks(source),
            Self::Order => order::blocks(source),
            Self::Run => run::blocks(source),
            Self::Site(sheet) => site::blocks(source, sheet, frame),
        }
    }
}
