//! The body of a site that a person judges where nothing could be worked out.

use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};
use serde_json::json;

/// Gives each unknown without a value the bodies that it is of, for its digest: no value changes with
/// them, and what was said of one body is not said of another.
pub(in crate::plan) fn attach_bodies(findings: &mut [Finding], cuts: &[SiteCuts<'_>]) {
    let without_value = findings.iter_mut().filter(|finding| {
        finding.verdict == Verdict::Unknown
            && finding.value.get().is_none()
            && finding.judged_length().is_none()
    });
    for finding in without_value {
        let of = cuts.iter().filter(|cut| finding.is_of(&cut.site.site.id));
        finding.bodies = of.map(body).collect();
    }
}

/// Where implant and cuts are, how deep and how wide, and where the sleeve is; whole micrometres.
fn body(cut: &SiteCuts<'_>) -> String {
    let (site, implant) = (cut.site.site, cut.site.implant);
    let cuts = cut.steps.iter().map(|sheet| {
        let depth = sheet.cut.length().map(|depth| depth.um());
        json!([depth, sheet.point.um(), sheet.diameter.um()])
    });
    json!({
        "placement": site.placement,
        "platform_below_crest": site.heights.platform_below_crest,
        "platform_to_sleeve": site.platform_to_sleeve,
        "implant": [cut.site.implant_end().um(), implant.largest_diameter_mm.um()],
        "cuts": cuts.collect::<Vec<_>>(),
    })
    .to_string()
}
