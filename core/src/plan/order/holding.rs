//! Implants that hold a guide that nothing else holds.

use crate::case::{Case, Site, Support};
use crate::dentition::Side;
use crate::kit::SiteId;
use std::collections::BTreeSet;

/// The sites whose implants hold the guide and so come first: on mucosa one in front and one across
/// (common practice, no source), where there are more than two. The one in front is nearest the
/// middle; the one across is farthest from the middle on the other side. Their carriers stay in until
/// the guide comes off.
///
/// The wishes of the case are no part of it: the plain order and the contents of the tray depend on
/// what is planned alone.
#[must_use]
pub fn holding_by_default(case: &Case) -> BTreeSet<SiteId> {
    if case.guide.support != Support::Mucosa {
        return BTreeSet::new();
    }
    let carried = |site: &&Site| site.leads_implant();
    let sites: Vec<&Site> = case.sites.iter().filter(carried).collect();
    let side = |side: Side| side == Side::Left;
    let front = sites
        .iter()
        .min_by_key(|site| (site.tooth.number(), side(site.tooth.side())));
    let Some(front) = front.filter(|_| sites.len() > 2) else {
        return BTreeSet::new();
    };
    let others = sites.iter().filter(|site| site.id != front.id);
    let across = others.max_by_key(|site| {
        let other = site.tooth.side() != front.tooth.side();
        (other, site.tooth.number())
    });
    let mut held = BTreeSet::from([front.id.clone()]);
    held.extend(across.map(|site| site.id.clone()));
    held
}
