//! The parts of the checklist, in the order of the work. Each begins a page.

use super::every_page::Heading;
use super::{
    SheetPart, Source, counts, loading, order, overview, run, safety, second, site, strip,
};
use crate::plan::SiteSheet;
use crate::sheet::{Block, Frame};

/// A part of the checklist.
pub(super) enum Part<'a> {
    Safety,
    SecondReading,
    Counts,
    Loading,
    Order,
    Strip,
    Overview,
    Run,
    Site(&'a SiteSheet),
}

impl<'a> Part<'a> {
    /// All that belongs to a chosen part, in the order in which it is printed.
    pub(super) fn all(of: SheetPart, source: &Source<'a>) -> Vec<Self> {
        match of {
            SheetPart::Form => {
                // The counts follow the second reading on its page.
                let second = if second::is_needed(source) {
                    Self::SecondReading
                } else {
                    Self::Counts
                };
                vec![Self::Safety, second, Self::Loading, Self::Order]
            }
            SheetPart::Strip if strip::is_needed(source) => vec![Self::Strip],
            SheetPart::Strip => Vec::new(),
            SheetPart::Annex => {
                let run = run::is_needed(source).then_some(Self::Run);
                let sites = source.worksheet.sites.iter().map(Self::Site);
                [Self::Overview]
                    .into_iter()
                    .chain(run)
                    .chain(sites)
                    .collect()
            }
        }
    }

    /// True if it may be on a leaf with the second reading.
    pub(super) const fn bears_no_setting(&self) -> bool {
        matches!(self, Self::Safety | Self::SecondReading | Self::Counts)
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
            Self::SecondReading => {
                let mut blocks = second::blocks(source);
                blocks.extend(counts::headed(source));
                blocks
            }
            Self::Strip => strip::blocks(source, frame),
            Self::Safety => safety::blocks(source, frame),
            Self::Counts => counts::blocks(source),
            Self::Order => order::blocks(source),
            Self::Run => run::blocks(source),
            Self::Site(sheet) => site::blocks(source, sheet, frame),
        }
    }
}
