//! Edits together with the kit entries that the case lacks for them, and implants that were chosen without.

use crate::case::edit::carry_out;
use crate::case::{Case, Edit};
use crate::kit::{ImplantId, Kit};

/// The edits, and after them, where the case as it will be uses what its copy of the kit lacks, or an implant was chosen
/// without a kit at hand that has it, the edit that brings all of it along from the live kit (see
/// [`Kit::with_missing_from`]). The case's own copy, which is all that a desk without a kit has, is none at hand.
///
/// Edits that cannot be carried out are given back as they are; applying them gives the reason.
#[must_use]
pub fn supplied(case: &Case, edits: Vec<Edit>, live: &Kit) -> Vec<Edit> {
    if *live == case.kit {
        return edits;
    }
    let mut after = case.clone();
    for edit in &edits {
        if carry_out(&mut after, edit).is_err() {
            return edits;
        }
    }
    let kit = after.kit.with_missing_from(live, &after);
    let chosen = after.implants().filter(|id| !case.has_whole_kit_for(id));
    let chosen: Vec<_> = chosen.cloned().collect();
    let settles = knows(live, &chosen);
    if kit == after.kit && (chosen.is_empty() || !settles) {
        return edits;
    }
    let kit = Box::new(kit);
    let mut all = edits;
    // Last, so that it also builds on a kit that the edits themselves take.
    all.push(if settles {
        Edit::TakeWholeKit(kit)
    } else {
        Edit::TakeKit(kit)
    });
    all
}

/// True if a kit has all of these implants: one of another maker says nothing of what belongs to them.
fn knows(live: &Kit, implants: &[ImplantId]) -> bool {
    implants.iter().all(|id| live.implant(id).is_some())
}

/// The edit that takes a copy of a live kit: of all that this has for the case, or of a part of it.
#[must_use]
pub fn taking(case: &Case, kit: Kit, live: &Kit) -> Edit {
    let chosen = case.implants().filter(|id| !case.has_whole_kit_for(id));
    let chosen: Vec<_> = chosen.cloned().collect();
    if kit.with_missing_from(live, case) == kit && knows(live, &chosen) {
        Edit::TakeWholeKit(Box::new(kit))
    } else {
        Edit::TakeKit(Box::new(kit))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{ValidCase, apply};
    use crate::samples::{demo, demo_case, demo_kit};

    fn case() -> ValidCase {
        demo_case(demo::ONE_PREMOLAR)
    }

    fn with_implant(case: &Case, id: &str) -> Edit {
        let mut site = case.sites[0].clone();
        site.implant = id.into();
        Edit::ChangeSite(Box::new(site))
    }

    #[test]
    fn an_edit_that_needs_nothing_stays_alone() {
        let case = case();
        let edits = vec![with_implant(&case, case.sites[0].implant.as_str())];
        assert_eq!(supplied(&case, edits.clone(), &demo_kit()), edits);
    }

    #[test]
    fn an_entry_that_the_case_lacks_comes_along() {
        let case = case();
        let edits = vec![with_implant(&case, "sloe-512-94")];
        assert!(apply(&case, &edits).is_err(), "alone it dangles");
        let edits = supplied(&case, edits, &demo_kit());
        assert_eq!(edits.len(), 2);
        let after = apply(&case, &edits).unwrap();
        assert!(after.kit.implant(&"sloe-512-94".into()).is_some());
    }

    #[test]
    fn what_no_kit_has_is_refused_when_it_is_applied() {
        let case = case();
        let edits = supplied(&case, vec![with_implant(&case, "no-such")], &demo_kit());
        assert!(apply(&case, &edits).is_err());
        let gone = vec![Edit::RemoveSite("no-such".into())];
        assert_eq!(supplied(&case, gone.clone(), &demo_kit()), gone);
    }
}
