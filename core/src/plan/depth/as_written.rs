//! Whether a sequence is its maker's, to the letter.

use crate::kit::{Density, Protocol};
use crate::plan::depth::context::{SiteContext, StepContext, StepPath};
use crate::plan::finding::Verdict;

/// Verdict on a departure from what is usual at a site: a note where its maker wants it so, in the
/// very words of a protocol for this implant and density.
pub(in crate::plan) fn departure(site: &SiteContext<'_>) -> Verdict {
    if as_written(site, site.site.density) {
        Verdict::Note
    } else {
        Verdict::Short
    }
}

/// True if the steps are to the letter those of the site's protocol, which is for its implant and for bone of this
/// density.
pub(in crate::plan) fn as_written(site: &SiteContext<'_>, density: Option<Density>) -> bool {
    let protocol = site.site.protocol.as_ref();
    protocol
        .and_then(|id| site.kit.protocol(id))
        .is_some_and(|protocol| {
            follows(site.steps(), protocol)
                && protocol.implants.contains(&site.implant.id)
                && density.is_some_and(|density| protocol.densities.contains(&density))
        })
}

/// True if the steps are those of a protocol. A step without the guide has no drill sleeve, so
/// there the protocol's own does not count.
pub(in crate::plan) fn follows<'a>(
    steps: impl Iterator<Item = StepContext<'a>>,
    protocol: &Protocol,
) -> bool {
    let steps: Vec<_> = steps.collect();
    steps.len() == protocol.steps.len()
        && steps.iter().zip(&protocol.steps).all(|(context, given)| {
            let step = context.step;
            let freehand = context.path == StepPath::Freehand;
            step.drill == given.drill
                && step.depth == given.depth
                && (step.sleeve == given.sleeve || freehand)
        })
}
