//! Sites put into a case and taken out of it whole, with all that hangs on them.

use super::{
    Case, Decision, DistanceTo, Edit, FindingKey, GuidedExtent, Heights, Insertion, NeighbourKind,
    Placement, Setting, Site, SiteState, Tooth, ToothState,
};
use crate::dentition::ToothPosition;
use crate::kit::{ImplantId, MasterSleeveId, SiteId};
use crate::measure::{Angle, Length};

/// The first entries of a site: all that cannot be unknown. The rest is, until it is entered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewSite {
    /// The tooth that it replaces; it is upright at that position's middle.
    pub tooth: ToothPosition,
    /// State of the bone.
    pub state: SiteState,
    /// The implant.
    pub implant: ImplantId,
    /// The master sleeve.
    pub master_sleeve: MasterSleeveId,
    /// The extent of the guidance.
    pub guided_extent: GuidedExtent,
}

impl NewSite {
    /// The edits that put the site in, with an id that no site or decision of the case has, and
    /// that make the tooth there what the state of the bone says of it.
    #[must_use]
    pub fn edits(&self, case: &Case) -> (SiteId, Vec<Edit>) {
        let id = free_id(case);
        let site = Site {
            id: id.clone(),
            tooth: self.tooth,
            placement: Placement::OnArch {
                at: self.tooth,
                along_mm: Length::ZERO,
                buccal_mm: Length::ZERO,
                apex_to_distal_deg: Angle::ZERO,
                apex_to_buccal_deg: Angle::ZERO,
            },
            state: self.state.clone(),
            implant: self.implant.clone(),
            master_sleeve: self.master_sleeve.clone(),
            guided_extent: self.guided_extent,
            without_guide: None,
            cut_before: Vec::new(),
            platform_to_sleeve: None,
            density: None,
            heights: Heights::default(),
            walls: Vec::new(),
            distances: Vec::new(),
            structures: Vec::new(),
            obstacles: Vec::new(),
            insertion: Insertion::default(),
            setting: Setting::EachStep,
            protocol: None,
            steps: Vec::new(),
            note: None,
        };
        let mut edits = vec![Edit::AddSite(Box::new(site))];
        let now = case.teeth.iter().find(|tooth| tooth.position == self.tooth);
        let tooth = tooth_by(&self.state, self.tooth, now.copied());
        edits.extend(tooth.map(Edit::SetTooth));
        (id, edits)
    }
}

/// The tooth at a site's position by the state of its bone, where that differs from what was
/// entered. A buried one stays, and an implant that is not to be removed: no state of the bone takes
/// it away. So does one entered as present: a finding asks, since one of tooth and site is at the wrong place.
fn tooth_by(state: &SiteState, position: ToothPosition, now: Option<Tooth>) -> Option<Tooth> {
    let kind = now.and_then(|tooth| tooth.kind);
    let is_to_remove = matches!(state, SiteState::ImplantToRemove { .. });
    match kind {
        Some(NeighbourKind::Impacted | NeighbourKind::Remnant) => return None,
        Some(NeighbourKind::Implant) if !is_to_remove => return None,
        _ if now.is_some_and(|now| now.state == ToothState::Present) => return None,
        _ => {}
    }
    let tooth = |state, kind| Tooth {
        position,
        state,
        kind,
    };
    let by_state = match state {
        SiteState::Healed {} | SiteState::Grafted { .. } => tooth(ToothState::Missing, None),
        SiteState::FreshSocket { .. } => match now {
            // It is out already.
            Some(now) if now.state == ToothState::Missing => now,
            _ => tooth(ToothState::ToExtract, kind),
        },
        SiteState::ImplantToRemove { .. } => {
            tooth(ToothState::Present, Some(NeighbourKind::Implant))
        }
    };
    (now != Some(by_state)).then_some(by_state)
}

/// The edits that let a site stand for another tooth: it leaves the one and makes of the other what
/// the state of its bone says.
#[must_use]
pub fn at_another_tooth(case: &Case, site: &Site, tooth: ToothPosition) -> Vec<Edit> {
    let mut moved = site.clone();
    moved.tooth = tooth;
    let now = case.teeth.iter().find(|entered| entered.position == tooth);
    let there = tooth_by(&site.state, tooth, now.copied()).map(Edit::SetTooth);
    let edits = [Edit::ChangeSite(Box::new(moved))];
    edits
        .into_iter()
        .chain(left_behind(case, site))
        .chain(there)
        .collect()
}

/// The edit that takes back what was entered of a site's tooth for the site's sake, once the site is
/// not there: whatever stood there before is asked for anew, rather than believed to be gone.
fn left_behind(case: &Case, site: &Site) -> Option<Edit> {
    let position = site.tooth;
    let now = case
        .teeth
        .iter()
        .find(|entered| entered.position == position)?;
    let for_the_site = match site.state {
        SiteState::Healed {} | SiteState::Grafted { .. } => now.state == ToothState::Missing,
        SiteState::FreshSocket { .. } => now.state == ToothState::ToExtract,
        SiteState::ImplantToRemove { .. } => now.kind == Some(NeighbourKind::Implant),
    };
    for_the_site.then_some(Edit::ForgetTooth(position))
}

fn free_id(case: &Case) -> SiteId {
    let taken = |id: &str| {
        let mut judged = case.judgements.iter();
        let mut made = case.guide.made_by.iter().flat_map(|made| &made.sites);
        case.site(id).is_some()
            || judged.any(|j| is_about(j, &SiteId::from(id)))
            // A sleeve of a guide that was made is no other site's.
            || made.any(|site| site.site.as_str() == id)
    };
    let mut number = 1_u32;
    loop {
        let id = format!("s{number}");
        if !taken(&id) {
            return SiteId::from(id.as_str());
        }
        number += 1;
    }
}

/// True if a decision is about a site, or about something else in relation to it.
fn is_about(decision: &Decision, site: &SiteId) -> bool {
    FindingKey::parse(&decision.finding).is_some_and(|key| key.place.names(site))
}

/// The edits that take a site out with all that refers to it: what was measured of the guide
/// there, distances of other sites to it, its places on the tray, what was entered of its tooth for
/// its sake, and the decisions on its findings.
#[must_use]
pub fn removal(case: &Case, id: &SiteId) -> Vec<Edit> {
    let mut edits = Vec::new();
    let to_it = DistanceTo::Site { site: id.clone() };
    for site in case.sites.iter().filter(|site| site.id != *id) {
        if site.distances.iter().any(|distance| distance.to == to_it) {
            let mut without = site.clone();
            without.distances.retain(|distance| distance.to != to_it);
            edits.push(Edit::ChangeSite(Box::new(without)));
        }
    }
    if case.guide.receipt.iter().any(|receipt| receipt.site == *id) {
        let mut guide = case.guide.clone();
        guide.receipt.retain(|receipt| receipt.site != *id);
        edits.push(Edit::SetGuide(Box::new(guide)));
    }
    let run = case.run.without(id);
    if run != case.run {
        edits.push(Edit::SetRun(Box::new(run)));
    }
    if case.tray_places.iter().any(|p| p.holds.is_of_site(id)) {
        let mut places = case.tray_places.clone();
        places.retain(|place| !place.holds.is_of_site(id));
        edits.push(Edit::SetTrayPlaces(places));
    }
    edits.extend(
        case.site(id.as_str())
            .and_then(|site| left_behind(case, site)),
    );
    let judged = case.judgements.iter().filter(|j| is_about(j, id));
    edits.extend(judged.map(|decision| Edit::Unjudge(decision.finding.clone())));
    edits.push(Edit::RemoveSite(id.clone()));
    edits
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{ReceiptOf, ValidCase, apply};
    use crate::samples::{demo, demo_case};

    fn two_molars() -> ValidCase {
        demo_case(demo::TWO_MOLARS)
    }

    fn new(tooth: &str, state: SiteState) -> NewSite {
        NewSite {
            tooth: tooth.parse().unwrap(),
            state,
            implant: "reed-437-91".into(),
            master_sleeve: "wide".into(),
            guided_extent: GuidedExtent::AllDrilling,
        }
    }

    #[test]
    fn a_new_site_is_sound_and_its_tooth_is_what_the_bone_says() {
        let case = two_molars();
        let position: ToothPosition = "36".parse().unwrap();
        let unknown = apply(&case, &[Edit::ForgetTooth(position)]).unwrap();
        let fresh = SiteState::FRESH_SOCKET;
        let present = (ToothState::Present, Some(NeighbourKind::Natural));
        for (state, want) in [
            (SiteState::Healed {}, (ToothState::Missing, None)),
            (fresh, (ToothState::ToExtract, None)),
            (
                SiteState::IMPLANT_TO_REMOVE,
                (ToothState::Present, Some(NeighbourKind::Implant)),
            ),
        ] {
            for (case, want) in [(&unknown, want), (&case, present)] {
                let (id, edits) = new("36", state.clone()).edits(case);
                let after = apply(case, &edits).unwrap();
                let site = after.site(id.as_str()).unwrap();
                assert_eq!(site.state, state);
                assert!(site.steps.is_empty() && site.platform_to_sleeve.is_none());
                let entered = after.teeth.iter().find(|t| t.position == site.tooth);
                let entered = entered.unwrap();
                assert_eq!((entered.state, entered.kind), want);
            }
        }
    }

    /// A tooth that stands where a site is put, or corrected to, is not gone for that.
    #[test]
    fn a_tooth_entered_as_present_stays_and_is_asked_about() {
        let case = two_molars();
        let position: ToothPosition = "36".parse().unwrap();
        let corrected = at_another_tooth(&case, &case.sites[0], position);
        for edits in [new("36", SiteState::Healed {}).edits(&case).1, corrected] {
            let after = apply(&case, &edits).unwrap();
            let tooth = after.teeth.iter().find(|t| t.position == position);
            assert_eq!(tooth.unwrap().state, ToothState::Present);
            let sheet = crate::plan::work_out(&after);
            let mut rules = sheet.findings.iter().map(|finding| finding.rule);
            assert!(rules.any(|rule| rule == crate::case::Rule::ToothAtSite));
        }
    }

    /// A site put at the wrong tooth leaves that one to be asked for anew, not as missing, whether it
    /// is moved to the right one or taken out.
    #[test]
    fn a_tooth_that_a_site_leaves_is_unknown_again() {
        let case = two_molars();
        let forgotten = |iso: &str| Edit::ForgetTooth(iso.parse().unwrap());
        let case = apply(&case, &[forgotten("36"), forgotten("37")]).unwrap();
        let entered = |case: &ValidCase, iso: &str| {
            let position: ToothPosition = iso.parse().unwrap();
            let teeth = case.teeth.iter();
            teeth
                .filter(|t| t.position == position)
                .map(|t| t.state)
                .next()
        };
        assert_eq!(entered(&case, "36"), None);
        let fresh = SiteState::FRESH_SOCKET;
        for (state, there) in [
            (SiteState::Healed {}, ToothState::Missing),
            (fresh, ToothState::ToExtract),
        ] {
            let (id, edits) = new("36", state).edits(&case);
            let wrong = apply(&case, &edits).unwrap();
            assert_eq!(entered(&wrong, "36"), Some(there));

            let site = wrong.site(id.as_str()).unwrap();
            let edits = at_another_tooth(&wrong, site, "37".parse().unwrap());
            let moved = apply(&wrong, &edits).unwrap();
            assert_eq!(entered(&moved, "36"), None);
            assert_eq!(entered(&moved, "37"), Some(there));

            let out = apply(&wrong, &removal(&wrong, &id)).unwrap();
            assert_eq!(entered(&out, "36"), None);
        }
    }

    #[test]
    fn what_lies_buried_stays_and_so_does_an_implant() {
        for kind in [NeighbourKind::Remnant, NeighbourKind::Implant] {
            let mut case = two_molars().into_case();
            let position: ToothPosition = "36".parse().unwrap();
            let tooth = case.teeth.iter_mut().find(|t| t.position == position);
            let tooth = tooth.unwrap();
            (tooth.state, tooth.kind) = (ToothState::Missing, Some(kind));
            let (_, edits) = new("36", SiteState::Healed {}).edits(&case);
            assert_eq!(edits.len(), 1, "{kind:?}");
        }
    }

    #[test]
    fn ids_of_sites_and_of_judged_ones_are_not_given_again() {
        let mut case = two_molars().into_case();
        let (first, _) = new("36", SiteState::Healed {}).edits(&case);
        assert_eq!(first.as_str(), "s1");
        case.sites[0].id = "s1".into();
        case.judgements.push(crate::case::Decision {
            finding: "wall sites[s2].walls[oral]".to_owned(),
            judged: crate::case::DecisionKind::Accepted,
            shown: "x".to_owned(),
            reason: "x".to_owned(),
            by: "x".into(),
        });
        let (third, _) = new("36", SiteState::Healed {}).edits(&case);
        assert_eq!(third.as_str(), "s3");
    }

    #[test]
    fn a_site_called_like_a_tooth_takes_no_word_on_that_tooth() {
        let mut case = two_molars().into_case();
        let stays = case.sites[1].id.clone();
        case.sites[0].id = "45".into();
        let judged = |finding: String| Decision {
            finding,
            judged: crate::case::DecisionKind::Accepted,
            shown: "x".to_owned(),
            reason: "x".to_owned(),
            by: "x".into(),
        };
        let of_others = [
            format!("neighbour-root sites[{stays}].distances[45]"),
            format!("crown-not-measured sites[{stays}].obstacles[45]"),
            format!("ends-short sites[{stays}].steps[45]"),
            "no-slot loading[45 1]".to_owned(),
            "stock-short kit.drills[45]".to_owned(),
            "tray-place-does-not-fit tray_places[45]".to_owned(),
        ];
        let of_it = [
            "wall sites[45].walls[oral crest]".to_owned(),
            "receipt-seat guide.receipt[45]".to_owned(),
            "receipt guide.receipt[45 platform_to_sleeve]".to_owned(),
            format!("neighbour-implant sites[{stays}].distances[45]"),
        ];
        case.judgements = of_others
            .iter()
            .chain(&of_it)
            .cloned()
            .map(judged)
            .collect();
        let edits = removal(&case, &"45".into());
        let gone = edits.into_iter().filter_map(|edit| match edit {
            Edit::Unjudge(finding) => Some(finding),
            _ => None,
        });
        assert!(gone.eq(of_it));
    }

    #[test]
    fn a_site_goes_with_all_that_refers_to_it() {
        let mut case = two_molars().into_case();
        let (gone, stays) = (case.sites[0].id.clone(), case.sites[1].id.clone());
        let of = ReceiptOf::MasterSleeveHeight;
        let receipt = case.receipt(&case.sites[0], of, Length::from_mm(4));
        case.guide.receipt.push(receipt);
        let mut distance = crate::case::Distance {
            to: DistanceTo::Site { site: gone.clone() },
            at: crate::case::Height::Crest,
            from_axis_mm: Length::from_mm(7),
            measured_at: case.sites[1].measured_now(Length::from_mm(9)),
            other_measured_at: None,
        };
        distance.other_measured_at = Some(case.sites[0].measured_now(Length::from_mm(9)));
        case.sites[1].distances.push(distance);
        let case = ValidCase::checked(&case).unwrap();
        let alone = [Edit::RemoveSite(gone.clone())];
        assert!(apply(&case, &alone).is_err(), "alone it leaves loose ends");
        let after = apply(&case, &removal(&case, &gone)).unwrap();
        assert!(after.site(gone.as_str()).is_none() && after.site(stays.as_str()).is_some());
        assert!(
            after
                .guide
                .receipt
                .iter()
                .all(|receipt| receipt.site != gone)
        );
    }
}
