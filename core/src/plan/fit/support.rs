//! The support of the guide.

use crate::case::{Case, Place, Rule, Support};
use crate::plan::finding::{Finding, Verdict};

/// A guide that no tooth holds and no fixation pin either.
///
/// On mucosa it gives way; on bone something else may hold it, but nobody said so.
pub(in crate::plan) fn check(case: &Case) -> Option<Finding> {
    let (support, verdict) = match case.guide.support {
        Support::Teeth | Support::TeethAndMucosa => return None,
        Support::Mucosa => ("mucosa", Verdict::Short),
        Support::Bone => ("bone", Verdict::Unknown),
    };
    case.guide.pins.is_empty().then(|| {
        Finding::new(Rule::GuideNotHeld, Place::Pins)
            .verdict(verdict)
            .arg("support", support)
    })
}
