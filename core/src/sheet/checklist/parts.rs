//! The parts of strip and annex, in the order of the work. Each begins a page; those of the form are in
//! [`form`](super::form).

use super::every_page::Heading;
use super::{SheetPart, Source, overview, run, site, strip};
use crate::plan::SiteSheet;
use crate::sheet::{Block, Frame};

/// A part of the checklist.
pub(super) enum Part<'a> {
    Strip,
    Overview,
    Run,
    Site(&'a SiteSheet),
}

impl<'a> Part<'a> {
    /// All that belongs to a chosen part, in the order in which it is printed; of the form nothing.
    pub(super) fn all(of: SheetPart, source: &Source<'a>) -> Vec<Self> {
        match of {
            SheetPart::Strip if strip::is_needed(source) => vec![Self::Strip],
            SheetPart::Form | SheetPart::Strip => Vec::new(),
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

    /// The heading of its pages.
    pub(super) fn heading(&self, source: &Source<'_>) -> Heading {
        let plain = |title: &str, subtitle: &str| Heading {
            title: source.formatter.word(title),
            subtitle: source.formatter.word(subtitle),
        };
        match self {
            Self::Overview => overview::heading(source),
            Self::Strip => plain("sheet-strip-title", "sheet-strip-subtitle"),
            Self::Run => plain("sheet-run-title", "sheet-run-subtitle"),
            Self::Site(sheet) => site::heading(source, sheet),
        }
    }

    /// The content of its pages.
    pub(super) fn blocks(&self, source: &Source<'_>, frame: Frame) -> Vec<Block> {
        match self {
            Self::Overview => overview::blocks(source, frame),
            Self::Strip => strip::blocks(source, frame),
            Self::Run => run::blocks(source),
            Self::Site(sheet) => site::blocks(source, sheet, frame),
        }
    }
}
