//! The gap of a socket, a tooth's or that of an implant which comes out: beside the implant, and no bone.

use crate::case::{BoneState, Height, MeasuredAt, SitePlace, Wall, WallSide};
use crate::measure::Length;
use crate::plan::depth::context::SiteContext;
use crate::plan::depth::partial::PartlyKnown;
use crate::plan::figure::{Change, Reason};

/// From the axis to the inner surface of a wall at the crest, as of when the wall was measured; zero
/// where bone begins at the body itself.
///
/// The gap is that to the buccal wall, for which an implant stands back in a socket; towards the
/// apex the socket narrows to the implant. Where the wall is measured at its closest alone, nothing says
/// what is left at the crest.
pub(super) fn inner_face(site: &SiteContext<'_>, wall: &Wall) -> PartlyKnown<Length> {
    let none = PartlyKnown::whole(Length::ZERO);
    let Some(socket) = site.site.state.socket() else {
        return none;
    };
    match (wall.side, wall.at) {
        (WallSide::Oral, _) | (_, Height::Mid | Height::Apex) => return none,
        (WallSide::Buccal, Height::Crest) => {}
        (WallSide::Buccal, Height::Least) => {
            let crest = |one: &Wall| (one.side, one.at) == (WallSide::Buccal, Height::Crest);
            if site.site.walls.iter().any(crest) {
                return none;
            }
            let place = site.at(SitePlace::Wall(WallSide::Buccal, Height::Crest));
            return none.lacking(&[Reason::Missing(place)]);
        }
    }
    let place = site.at(SitePlace::SocketGap);
    let lacking = match (socket.gap_mm, socket.gap_measured_at.as_ref()) {
        (None, _) => Reason::Missing(place),
        (Some(gap), Some(then)) => match change_between(&then.site, &wall.measured_at) {
            None => return PartlyKnown::whole(gap + then.implant_diameter_mm.half_ceil()),
            Some(change) => Reason::Stale(place, site.since(change)),
        },
        (Some(_), None) => Reason::Stale(place, site.since(Change::Unrecorded)),
    };
    none.lacking(&[lacking])
}

/// True if both are said, and not the same.
fn differ(one: Option<BoneState>, other: Option<BoneState>) -> bool {
    one.zip(other).is_some_and(|(one, other)| one != other)
}

/// What changed between two measurements at the crest; nothing where they belong together.
fn change_between(one: &MeasuredAt, other: &MeasuredAt) -> Option<Change> {
    if one.placement != other.placement {
        Some(Change::Moved)
    } else if one.platform_below_crest != other.platform_below_crest {
        Some(Change::Depth)
    } else if differ(one.bone_then.state, other.bone_then.state) {
        Some(Change::Bone)
    } else {
        None
    }
}
