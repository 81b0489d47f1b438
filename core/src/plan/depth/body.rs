//! The body of a site that a person judges where there is no value, or only a bound.

use crate::case::Place;
use crate::plan::depth::cuts::SiteCuts;
use crate::plan::finding::{Finding, Verdict};
use serde_json::json;

/// Gives each finding that is judged without a value, or with a bound alone, the bodies that it is of, for its digest: no value
/// changes with them, and what was said of one body is not said of another. What is of no site may be of the
/// guide, and brings what else it is of.
pub(in crate::plan) fn attach_bodies(findings: &mut [Finding], cuts: &[SiteCuts<'_>]) {
    let bodies: Vec<String> = cuts.iter().map(body).collect();
    let of_case = cuts.first().map(|cut| {
        let guide = &cut.site.case.guide;
        json!([guide.support, guide.pins, cut.site.case.teeth]).to_string()
    });
    // What was judged for practice is not judged for a patient.
    if cuts.iter().any(|cut| cut.site.case.demonstration) {
        for finding in &mut *findings {
            finding.bodies.push("practice".to_owned());
        }
    }
    // A bound of what is unknown says nothing of the rest; what is short has its number, where it has one.
    let of_bodies = findings.iter_mut().filter(|finding| match finding.verdict {
        Verdict::Unknown => true,
        Verdict::Short => finding.value.get().is_none() && finding.judged_length().is_none(),
        _ => false,
    });
    for finding in of_bodies {
        let of = bodies.iter().zip(cuts);
        let here: Vec<String> = of
            .filter(|(_, cut)| finding.is_of(&cut.site.site.id))
            .map(|(body, _)| body.clone())
            .collect();
        if here.is_empty() {
            let of_guide = matches!(finding.place, Place::Pins);
            finding.bodies.extend(of_case.clone().filter(|_| of_guide));
        } else {
            finding.bodies.extend(here);
        }
    }
}

/// Where implant and cuts are, in what bone, how deep and how wide, by which drills, and where the sleeve
/// is; whole micrometres.
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
        "bone": json!([site.state, site.density, site.protocol]),
        "by": json!([site.implant, site.master_sleeve, site.steps, cut.site.case.setup.head]),
    })
    .to_string()
}
