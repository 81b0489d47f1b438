//! Remedies of shortages.

use super::super::Formatter;
use crate::kit::SiteId;
use crate::number::mm;
use crate::run::{StockChange, StockRemedy};

impl Formatter<'_> {
    /// The change of a remedy: "one figure for the sequence at lower right first molar (46)". A
    /// stop that the case does not have yet is named by `live`, the kit that it is offered from.
    #[must_use]
    pub fn stock_remedy(&self, remedy: &StockRemedy, live: &crate::kit::Kit) -> String {
        let stop = |stop: &crate::kit::StopId| {
            let kit = self.case.kit.together_with(live);
            match kit.stop(stop) {
                Some(stop) => self.named(&stop.name, &stop.marking),
                None => self.stop(stop),
            }
        };
        let sites = |sites: &[SiteId]| {
            let names = sites.iter().map(|site| self.site(site));
            self.joined("load-list", names).unwrap_or_default()
        };
        match &remedy.change {
            StockChange::OtherStop {
                stop: id,
                sites: at,
            } => self.text(
                "run-remedy-other-stop",
                &[("stop", &stop(id)), ("sites", &sites(at))],
            ),
            StockChange::FixedStop {
                stop: id,
                sites: at,
            } => self.text(
                "run-remedy-fixed-stop",
                &[("stop", &stop(id)), ("sites", &sites(at))],
            ),
            StockChange::OneFigure { sites: at } => {
                self.text("run-remedy-one-figure", &[("sites", &sites(at))])
            }
            StockChange::Distance { site, entered_mm } => self.text(
                "run-remedy-distance",
                &[("site", &self.site(site)), ("distance", &mm(*entered_mm))],
            ),
        }
    }
}
