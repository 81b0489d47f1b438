//! Days in the case on which something was done.

use super::{Case, SiteState};
use crate::kit::SiteId;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;

/// Something that was done on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Dated {
    /// The scan.
    Scan,
    /// The graft at a site.
    Graft(SiteId),
}

/// The latest day that it is anywhere at this moment: nothing is said to be of a day to come that has come somewhere.
#[must_use]
pub fn day_of(now: Timestamp) -> Date {
    Offset::constant(14).to_datetime(now).date()
}

impl Case {
    /// What is said to have been done on a day after this one. A slip of a year there makes a scan seem one of after
    /// a graft.
    #[must_use]
    pub fn days_to_come(&self, today: Date) -> Vec<(Dated, Date)> {
        let scan = self.guide.scan_date.map(|day| (Dated::Scan, day));
        let grafts = self.sites.iter().filter_map(|site| match site.state {
            SiteState::Grafted { on } => Some((Dated::Graft(site.id.clone()), on)),
            _ => None,
        });
        let all = scan.into_iter().chain(grafts);
        all.filter(|(_, day)| *day > today).collect()
    }
}
