//! Cases of many sites, made from the demonstration of a full arch.

use std::path::Path;
use traywright_core::case::{Case, DistanceTo, Placement, ValidCase, read_case};
use traywright_core::dentition::ToothPosition;
use traywright_core::kit::SiteId;

/// A case of so many sites: the six of the demonstration and more like them at other teeth.
pub(crate) fn sites(count: usize) -> ValidCase {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo/full-arch-upper.json");
    let bytes = std::fs::read(file).expect("the demonstration is there");
    let mut case: Case = read_case(&bytes).expect("it can be read").into_case();
    let free: Vec<ToothPosition> = ToothPosition::all_of(case.jaw)
        .filter(|position| case.sites.iter().all(|site| site.tooth != *position))
        .collect();
    let models = case.sites.clone();
    for (position, model) in free.into_iter().zip(models.iter().cycle()) {
        if case.sites.len() >= count {
            break;
        }
        let mut site = model.clone();
        site.id = SiteId::from(format!("more-{position}").as_str());
        site.tooth = position;
        if let Placement::OnArch { at, .. } = &mut site.placement {
            *at = position;
        }
        site.distances
            .retain(|d| !matches!(d.to, DistanceTo::Site { .. }));
        case.sites.push(site);
    }
    ValidCase::try_from(case).expect("the copies are sound")
}
