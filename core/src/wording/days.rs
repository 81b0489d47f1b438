//! What is said to have been done on a day that has not come yet, or long ago.

use super::Formatter;
use crate::case::{Case, Dated, DoubtfulScan};
use jiff::civil::Date;

impl Formatter<'_> {
    /// A sentence for each, with its remedy.
    #[must_use]
    pub fn days_to_come(&self, case: &Case, today: Date) -> Vec<String> {
        let told = |(what, day): (Dated, Date)| {
            let day = day.to_string();
            match what {
                Dated::Scan => self.text("scan-to-come", &[("day", &day)]),
                Dated::Graft(site) => {
                    let args = [("site", &*self.site(&site)), ("day", &day)];
                    self.text("graft-to-come", &args)
                }
            }
        };
        case.days_to_come(today).into_iter().map(told).collect()
    }

    /// A sentence on a scan that may not show the mouth as it is; it stops nothing.
    #[must_use]
    pub fn doubtful_scan(&self, case: &Case, today: Date) -> Option<String> {
        Some(match case.doubtful_scan(today)? {
            DoubtfulScan::Undated => self.word("scan-undated"),
            DoubtfulScan::Old(day, months) => {
                let day = day.to_string();
                let count = &[("months", usize::try_from(months).unwrap_or_default())];
                self.counted("scan-old", count, &[("day", &day)])
            }
        })
    }
}
