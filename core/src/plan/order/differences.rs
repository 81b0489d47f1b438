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
}

impl Differences {
    /// Each step is held against one of the same drill, first against one to the same depth.
    pub(super) fn of(kit: &Kit, steps: &[StepContext<'_>], protocol: &Protocol) -> Self {
        let mut given: Vec<&ProtocolStep> = protocol.steps.iter().collect();
        let mut take = |fits: &dyn Fn(&ProtocolStep) -> bool| {
            let found = given.iter().position(|given| fits(given));
            found.map(|n| given.remove(n)).is_some()
        };
        let mut others: Vec<&StepContext<'_>> = Vec::new();
        for one in steps {
            let same = |given: &ProtocolStep| {
                given.drill == one.step.drill && given.depth == one.step.depth
            };
            if !take(&same) {
                others.push(one);
            }
        }
        let same_drill = |one: &&StepContext<'_>| take(&|given| given.drill == one.step.drill);
        let (depths, added): (Vec<&StepContext<'_>>, Vec<&StepContext<'_>>) =
            others.into_iter().partition(same_drill);
        let missing: Vec<&Drill> = given
            .iter()
            .filter_map(|given| kit.drill(&given.drill))
            .collect();
        Self {
            missing: named(missing.iter().copied()),
            added: named(added.iter().map(|one| one.drill)),
            depths: named(depths.iter().map(|one| one.drill)),
        }
    }
}

/// The names of drills; nothing where there are none.
pub(super) fn named<'a>(drills: impl Iterator<Item = &'a Drill>) -> Option<String> {
    let names: Vec<&str> = drills.map(|drill| drill.name.as_str()).collect();
    (!names.is_empty()).then(|| names.join(", "))
}
