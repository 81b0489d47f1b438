//! An implant's measured length against the one on its label.

use crate::case::{Rule, SitePlace};
use crate::plan::depth::context::SiteContext;
use crate::plan::finding::{Finding, Verdict};

/// A platform-to-apex length below the label's: a label may leave out a smooth collar, and never adds one, so that one
/// of the two is a slip, and a length that is too small leaves more to everything below than there is.
pub(in crate::plan) fn check(site: &SiteContext<'_>, out: &mut Vec<Finding>) {
    let implant = site.implant;
    let (measured, label) = (implant.platform_to_apex_mm, implant.nominal_length_mm);
    if measured < label {
        out.push(
            Finding::new(Rule::ImplantBelowLabel, site.at(SitePlace::Whole))
                .verdict(Verdict::Unknown)
                .length(measured)
                .limit(label)
                .arg("implant", &implant.name),
        );
    }
}
