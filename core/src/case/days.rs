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

/// Why a scan may not show the mouth as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DoubtfulScan {
    /// Nobody entered its day.
    Undated,
    /// It is of this day, so many whole months ago.
    Old(Date, i32),
}

/// The whole months from which a scan is old: teeth wander, and bone goes where they are gone. Common practice, no
/// source.
const OLD_MONTHS: i32 = 12;

impl Case {
    /// The reason to doubt that the scan shows the mouth as it is; nothing for practice, whose patients do not age.
    #[must_use]
    pub fn doubtful_scan(&self, today: Date) -> Option<DoubtfulScan> {
        if self.demonstration {
            return None;
        }
        let Some(day) = self.guide.scan_date else {
            return Some(DoubtfulScan::Undated);
        };
        let months = 12 * i32::from(today.year() - day.year())
            + i32::from(today.month() - day.month())
            - i32::from(today.day() < day.day());
        (months >= OLD_MONTHS).then_some(DoubtfulScan::Old(day, months))
    }

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
