//! Final depth of an implant that goes in without the guide, counted from the crest: then neither
//! carrier nor sleeve says when to stop.

use crate::case::{Case, ValidCase, as_confirmed};
use crate::kit::SiteId;
use crate::plan::depth::context::SiteContext;
use crate::plan::figure::{Figure, sum};
use crate::plan::figure_rule::FigureRule;

/// The final depth of the platform, along the axis; unknown where crest or rim was not measured here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FinalDepth {
    /// Apical of the most coronal point of the crest; negative: coronal of it. Nothing in a fresh
    /// socket.
    pub below_coronal: Option<Figure>,
    /// Apical of the most apical point of the crest, or of a fresh socket's rim; negative: coronal of
    /// it, above the bone there.
    pub below_apical: Figure,
}

/// The final depth at a site; nothing where the guide leads the implant.
pub(in crate::plan) fn final_depth(site: &SiteContext<'_>) -> Option<FinalDepth> {
    let guided = site.site.leads_implant();
    (!guided).then(|| by_crest(site))
}

/// The final depth of an implant that is turned to it by hand although the guide led it first; nothing for a site that
/// the case has not.
#[must_use]
pub fn final_depth_by_hand(case: &ValidCase, site: &SiteId) -> Option<FinalDepth> {
    let confirmed = as_confirmed(case);
    let case: &Case = &confirmed;
    let site = case.site(site.as_str())?;
    Some(by_crest(&SiteContext::new(case, site)))
}

fn by_crest(site: &SiteContext<'_>) -> FinalDepth {
    let figure = |name, term| {
        let id = site.field(name);
        sum(id, FigureRule::FinalDepth, vec![term])
    };
    FinalDepth {
        below_coronal: (!site.is_socket())
            .then(|| figure("final_depth.below_coronal_mm", site.crest())),
        below_apical: figure("final_depth.below_apical_mm", site.freehand_datum_term()),
    }
}
