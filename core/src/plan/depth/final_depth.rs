//! Final depth of an implant that goes in without the guide, counted from the crest: then neither
//! carrier nor sleeve says when to stop.

use crate::case::GuidedExtent;
use crate::plan::depth::context::SiteContext;
use crate::plan::figure::{Figure, sum};
use crate::plan::figure_rule::FigureRule;

/// The final depth of the platform, along the axis; unknown where the crest was not measured here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FinalDepth {
    /// Apical of the most coronal point of the crest; negative: coronal of it.
    pub below_coronal: Figure,
    /// Apical of the most apical point of the crest; negative: coronal of it, above the bone there.
    pub below_apical: Figure,
}

/// The final depth at a site; nothing where the guide leads the implant.
pub(in crate::plan) fn final_depth(site: &SiteContext<'_>) -> Option<FinalDepth> {
    if site.site.guided_extent == GuidedExtent::DrillingAndImplant {
        return None;
    }
    let figure = |name, term| {
        let id = site.field(name);
        sum(id, FigureRule::FinalDepth, vec![term])
    };
    Some(FinalDepth {
        below_coronal: figure("final_depth.below_coronal_mm", site.crest()),
        below_apical: figure("final_depth.below_apical_mm", site.lowest_crest_term()),
    })
}
