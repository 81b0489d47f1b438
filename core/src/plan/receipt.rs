//! The guide as it came against the guide as planned.

use super::context::SiteContext;
use super::figure::Known;
use super::finding::{Finding, Subject, Verdict};
use crate::case::{LimitId, ReceiptOf};

/// What was measured on the guide at a site, against the plan.
pub(super) fn check(site: &SiteContext<'_>, out: &mut Vec<Finding>) {
    for receipt in &site.case.guide.receipt {
        if receipt.site != site.site.id {
            continue;
        }
        let (of, planned) = match receipt.of {
            ReceiptOf::MasterSleeveHeight => ("master_sleeve_height", Some(site.master.height_mm)),
            ReceiptOf::MasterSleeveBore => ("master_sleeve_bore", Some(site.master.bore_mm)),
            ReceiptOf::PlatformToSleeve => ("platform_to_sleeve", site.distance()),
        };
        let path = format!("guide.receipt[{} {of}]", site.site.id);
        let finding = Finding::new(Subject::Guide, "receipt", path.clone())
            .at_site(&site.site.id)
            .arg("of", of)
            .arg("measured", receipt.measured_mm);
        let limit = site.case.limits.get(LimitId::Receipt);
        let (Some(planned), Some(limit)) = (planned, limit) else {
            let mut finding = finding.verdict(Verdict::Unknown);
            finding.value = Known::missing(if limit.is_none() {
                "limits.receipt".to_owned()
            } else {
                site.field("platform_to_sleeve")
            });
            out.push(finding);
            continue;
        };
        let off = receipt.measured_mm - planned;
        let mut finding = finding
            .verdict(if off.abs() > limit.limit_mm {
                Verdict::Short
            } else {
                Verdict::Clear
            })
            .length(off)
            .limit(limit.limit_mm)
            .arg("planned", planned);
        finding.limit_source = Some(limit.source.clone());
        out.push(finding);
    }
}
