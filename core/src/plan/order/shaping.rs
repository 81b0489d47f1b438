//! Profile drills and taps of a protocol that a sequence lacks.

use crate::kit::{Drill, DrillId, DrillKind, Protocol};
use crate::plan::depth::context::{SiteContext, StepContext};
use crate::plan::order::differences::named;

/// What a sequence lacks of the shaping that a protocol does, by the names of the drills.
pub(super) struct Lacking {
    /// Drills that it leaves out.
    pub(super) left_out: Option<String>,
    /// Drills that it keeps shallower.
    pub(super) shallower: Option<String>,
}

/// True for drills that shape a bore for the implant, and make none.
pub(super) const fn shapes(kind: DrillKind) -> bool {
    matches!(kind, DrillKind::Profile | DrillKind::Tap)
}

/// What a sequence lacks of it; nothing where it shapes as much.
pub(super) fn lacking(
    site: &SiteContext<'_>,
    steps: &[StepContext<'_>],
    protocol: &Protocol,
) -> Option<Lacking> {
    let deepest = |of: &DrillId| {
        let given = protocol.steps.iter().filter(|step| step.drill == *of);
        given.map(|step| site.implant.depth_by(step.depth)).max()
    };
    let taken = |of: &DrillId| {
        let steps = steps.iter().filter(|one| one.step.drill == *of);
        steps.map(|one| site.implant.depth_by(one.step.depth)).max()
    };
    let (mut left_out, mut shallower): (Vec<&Drill>, Vec<&Drill>) = (Vec::new(), Vec::new());
    for given in &protocol.steps {
        let Some(drill) = site
            .kit
            .drill(&given.drill)
            .filter(|drill| shapes(drill.kind))
        else {
            continue;
        };
        let list = match taken(&drill.id) {
            None => &mut left_out,
            taken if taken < deepest(&drill.id) => &mut shallower,
            Some(_) => continue,
        };
        if !list.iter().any(|told| told.id == drill.id) {
            list.push(drill);
        }
    }
    let lacks = Lacking {
        left_out: named(left_out.into_iter()),
        shallower: named(shallower.into_iter()),
    };
    (lacks.left_out.is_some() || lacks.shallower.is_some()).then_some(lacks)
}
