//! Coordinates that cannot well be those of the tooth they were entered for: a slip of a sign, of an
//! axis or of a tooth, after which every distance worked out from them would be of another place.

use super::PlacedSite;
use crate::case::{Placement, PointMm, Rule, SitePlace};
use crate::dentition::{ArchModel, Jaw, Side, ToothPosition, tooth_size};
use crate::measure::Length;
use crate::plan::clearance::space::Axis;
use crate::plan::clearance::whereabouts::tooth_there;
use crate::plan::finding::{Finding, Verdict};

/// The most that a platform may stand across the midline from its tooth's side. Common practice, no
/// source: a lower central incisor's middle is 2.5 mm beside it.
const ACROSS: Length = Length::from_mm(1);

/// The most by which a platform's height may differ from that which the crest below the occlusal plane
/// and its own depth below the crest give. Common practice, no source: the occlusal curve takes up to
/// 3 mm of it.
const OFF_HEIGHT: Length = Length::from_mm(5);

/// The most that a platform may stand beside its tooth on the arch model. Common practice, no source:
/// an anterior one at 10 mm of depth stands 4 mm behind its crown, and a patient's arch is no mean one.
const OFF_ARCH: Length = Length::from_mm(8);

/// The most that a platform may stand beside the crown that it is to carry, to buccal or oral. Common
/// practice, no source: what is left of a ridge lies so much beside the teeth that stood on it.
const BESIDE_CROWN: Length = Length::from_mm(2);

/// The most that two platforms may be farther apart than the mean crowns (`assets/tooth-sizes.json`)
/// from the middle of the one tooth to that of the other are wide, and the most that the more distal
/// may stand mesial of the other. Common practice, no source: gaps between teeth, and wide ones.
const BEYOND_CROWNS: Length = Length::from_mm(8);
const OUT_OF_ORDER: Length = Length::from_mm(2);

/// What is worked out is told to a tenth of a millimetre.
const TOLD: Length = Length::from_um(100);

/// A site's place that is not that of its tooth.
pub(super) fn at_site(one: &PlacedSite<'_>, arch: Option<&ArchModel>) -> Option<Finding> {
    let own = one.cut.site.site.tooth;
    let finding = |how: &str, position: ToothPosition, by: Length| {
        let place = one.cut.site.at(SitePlace::Placement);
        let finding = Finding::new(Rule::SiteAwayFromItsTooth, place).verdict(Verdict::Unknown);
        let finding = finding.arg("how", how).arg("position", position);
        finding
            .arg("by", by.abs())
            .arg("there", tooth_there(one.cut.site.site, arch, Length::ZERO))
    };
    match one.cut.site.site.placement {
        Placement::OnArch { .. }
            if is_across(own, tooth_there(one.cut.site.site, arch, Length::ZERO)) =>
        {
            Some(finding("across", own, Length::ZERO))
        }
        Placement::OnArch { at, .. } if at != own => Some(finding("tooth", at, Length::ZERO)),
        Placement::OnArch {
            along_mm,
            buccal_mm,
            ..
        } => beside_crown(one, along_mm, buccal_mm).map(|(how, by)| finding(how, own, by)),
        Placement::Measured { platform, .. } => across(platform, own)
            .or_else(|| off_height(one, platform))
            .or_else(|| off_arch(platform, own, arch))
            .map(|(how, by)| finding(how, own, by)),
    }
}

/// True for a tooth on the other side of the mouth; at the midline that may be the next one.
fn is_across(own: ToothPosition, there: ToothPosition) -> bool {
    own.side() != there.side() && own.number().max(there.number()) > 1
}

/// How far along the arch, or beside it, from the middle of its own tooth, where that is out of the
/// crown.
fn beside_crown(
    one: &PlacedSite<'_>,
    along: Length,
    buccal: Length,
) -> Option<(&'static str, Length)> {
    let crown = tooth_size(one.cut.site.site.tooth);
    if along.abs() > crown.crown_md.half_floor() {
        return Some(("along", along));
    }
    let aside = buccal.abs() > crown.crown_fl.half_floor() + BESIDE_CROWN;
    let how = if buccal > Length::ZERO {
        "buccal"
    } else {
        "oral"
    };
    aside.then_some((how, buccal))
}

/// How far across the midline, where that is too much.
fn across(platform: PointMm, tooth: ToothPosition) -> Option<(&'static str, Length)> {
    let by = match tooth.side() {
        Side::Left => Length::ZERO - platform.x_mm,
        Side::Right => platform.x_mm,
    };
    (by > ACROSS).then_some(("side", by))
}

/// How far coronal of the occlusal plane, or of where the heights have it, where that is too much.
fn off_height(one: &PlacedSite<'_>, platform: PointMm) -> Option<(&'static str, Length)> {
    let apical = match one.cut.site.case.jaw {
        Jaw::Upper => platform.z_mm,
        Jaw::Lower => Length::ZERO - platform.z_mm,
    };
    if apical < Length::ZERO {
        return Some(("coronal", apical));
    }
    let heights = one.cut.site.site.heights_now();
    let crest = heights.crest_below_occlusal_mm?;
    let by = apical - crest - heights.platform_below_crest?.highest_mm;
    (by.abs() > OFF_HEIGHT).then_some(("height", by))
}

/// How far beside its tooth on the arch model, the mean one where the patient's has no size, where that is
/// too much.
fn off_arch(
    platform: PointMm,
    tooth: ToothPosition,
    arch: Option<&ArchModel>,
) -> Option<(&'static str, Length)> {
    let arch = arch.unwrap_or_else(|| ArchModel::mean(tooth.jaw()));
    let centre = arch.tooth(tooth)?.centre;
    let (x, y) = (platform.x_mm.mm(), platform.y_mm.mm());
    let by = Length::floor_mm(libm::hypot(x - centre.x_mm, y - centre.y_mm));
    (by > OFF_ARCH).then(|| ("arch", by.floor_to(TOLD)))
}

/// Two sites next to each other whose places, both measured, are farther apart than any teeth, or
/// whose order along the arch is not that of their teeth.
pub(super) fn between(a: &PlacedSite<'_>, b: &PlacedSite<'_>) -> Option<Finding> {
    let (axis_a, axis_b) = super::pair::measured_axes(a, b)?;
    let (tooth_a, tooth_b) = (a.cut.site.site.tooth, b.cut.site.site.tooth);
    let apart = [0, 1].map(|i| axis_a.platform[i] - axis_b.platform[i]);
    let apart = Length::floor_mm(libm::hypot(apart[0], apart[1]));
    let crowns = crowns_between(tooth_a, tooth_b);
    // Posterior and aside of the midline both grow towards distal.
    let distal = |axis: &Axis| axis.platform[1] + libm::fabs(axis.platform[0]);
    let by = if tooth_a.number() < tooth_b.number() {
        distal(&axis_a) - distal(&axis_b)
    } else {
        distal(&axis_b) - distal(&axis_a)
    };
    let by = Length::floor_mm(by);
    let (how, by) = if apart > crowns + BEYOND_CROWNS {
        ("apart", apart)
    } else if tooth_a.side() == tooth_b.side() && by > OUT_OF_ORDER {
        ("order", by)
    } else {
        return None;
    };
    let other = b.cut.site.site.id.clone();
    let place = a.cut.site.at(SitePlace::ToSite(other.clone(), None));
    Some(
        Finding::new(Rule::PlacesDisagree, place)
            .verdict(Verdict::Unknown)
            .arg("how", how)
            .arg("other", &other)
            .arg("by", by.floor_to(TOLD))
            .arg("crowns", crowns),
    )
}

/// Mean crowns from the middle of one tooth to the middle of another of the same jaw, along the arch.
fn crowns_between(a: ToothPosition, b: ToothPosition) -> Length {
    let all: Vec<ToothPosition> = ToothPosition::all_of(a.jaw()).collect();
    let place = |tooth| all.iter().position(|one| *one == tooth).unwrap_or_default();
    let (first, last) = (place(a).min(place(b)), place(a).max(place(b)));
    let width = |tooth: &ToothPosition| tooth_size(*tooth).crown_md;
    let whole: Length = all[first..=last].iter().map(width).sum();
    whole - width(&a).half_floor() - width(&b).half_floor()
}
