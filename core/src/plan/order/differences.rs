//! What of a sequence is not its protocol's, by the names of the drills.

use crate::kit::{Drill, Kit, Protocol, ProtocolStep};
use crate::plan::depth::context::StepContext;

/// The drills by which a sequence differs from a protocol; nothing where there is none.
pub(super) struct Differences {
    /// Steps of the protocol that it lacks.
    pub(super) missing: Option<String>,
    /// Steps that the protocol does not have.
    pub(super) added: Option<String>,
    /// Steps of both that go to another depth than the protocol's.
    pub(super) depths: Option<String>,
    /// `other` where the drills of both come in another order, else `same`.
    pub(super) order: &'static str,
}

impl Differences {
    /// Each step is held against one of the same drill, first against one to the same depth.
    pub(super) fn of(kit: &Kit, steps: &[StepContext<'_>], protocol: &Protocol) -> Self {
        let mut given: Vec<Option<&ProtocolStep>> = protocol.steps.iter().map(Some).collect();
        let mut take = |fits: &dyn Fn(&ProtocolStep) -> bool| {
            let found = given.iter().position(|given| given.is_some_and(fits))?;
            given[found] = None;
            Some(found)
        };
        // The place in the protocol of each step that it has.
        let mut places: Vec<Option<usize>> = Vec::new();
        for one in steps {
            places.push(take(&|given| {
                given.drill == one.step.drill && given.depth == one.step.depth
            }));
        }
        let (mut depths, mut added) = (Vec::new(), Vec::new());
        for (one, place) in steps.iter().zip(&mut places) {
            if place.is_none() {
                *place = take(&|given| given.drill == one.step.drill);
                let list = if place.is_some() {
                    &mut depths
                } else {
                    &mut added
                };
                list.push(one.drill);
            }
        }
        let missing: Vec<&Drill> = given
            .iter()
            .flatten()
            .filter_map(|given| kit.drill(&given.drill))
            .collect();
        let both: Vec<usize> = places.into_iter().flatten().collect();
        Self {
            missing: named(missing.iter().copied()),
            added: named(added.into_iter()),
            depths: named(depths.into_iter()),
            order: if both.is_sorted() { "same" } else { "other" },
        }
    }
}

/// The names of drills; nothing where there are none.
pub(super) fn named<'a>(drills: impl Iterator<Item = &'a Drill>) -> Option<String> {
    let names: Vec<&str> = drills.map(|drill| drill.name.as_str()).collect();
    (!names.is_empty()).then(|| names.join(", "))
}
