//! The platform against the crest.

use crate::case::{Rule, SiteHeight, SitePlace};
use crate::measure::Length;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};

/// Height of the platform above the whole crest beyond which it is asked whether that is meant.
/// Common practice, no source. Collars that stand out of the bone are higher; those are accepted.
const MOST_ABOVE_CREST: Length = Length::from_mm(1);

/// A platform that stands above the bone all around. A depth below the crest that was entered with
/// the wrong sign looks so, and leaves twice as much to whatever counts from the crest.
pub(in crate::plan) fn check(cut: &SiteCuts<'_>, out: &mut Vec<Finding>) {
    let site = &cut.site;
    let Some(above) = site.highest_crest().get().map(|crest| -crest) else {
        return;
    };
    if above > MOST_ABOVE_CREST {
        let place = site.at(SitePlace::Height(SiteHeight::PlatformBelowCrest));
        out.push(
            Finding::new(Rule::PlatformAboveCrest, place)
                .verdict(Verdict::Unknown)
                .length(above)
                .limit(MOST_ABOVE_CREST),
        );
    }
}
