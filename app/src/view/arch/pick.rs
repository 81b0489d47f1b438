//! The choice in the arch.

use crate::view::arch::Context;
use traywright_core::case::{CasePin, Site};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::Label;
use traywright_core::plan::SiteSheet;

/// The choice in the arch.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Pick {
    /// The site that is looked at in every view.
    #[default]
    Site,
    /// A tooth position.
    Tooth(ToothPosition),
    /// A fixation pin by its name.
    Pin(Label),
    /// Nothing.
    Nothing,
}

/// The choice as it is in the case; what is no longer there is not chosen either.
pub(super) enum Picked<'a> {
    Site(&'a Site, &'a SiteSheet),
    Tooth(ToothPosition),
    Pin(&'a CasePin),
    Nothing,
}

/// The choice.
pub(super) fn picked<'a>(cx: &Context<'a>) -> Picked<'a> {
    let document = cx.document;
    let case = document.case();
    match &cx.own.pick {
        Pick::Site => cx
            .site()
            .map_or(Picked::Nothing, |(site, sheet)| Picked::Site(site, sheet)),
        Pick::Tooth(position) if position.jaw() == case.jaw => Picked::Tooth(*position),
        Pick::Pin(name) => {
            let pin = case.guide.pins.iter().find(|pin| pin.name == *name);
            pin.map_or(Picked::Nothing, Picked::Pin)
        }
        Pick::Tooth(_) | Pick::Nothing => Picked::Nothing,
    }
}
