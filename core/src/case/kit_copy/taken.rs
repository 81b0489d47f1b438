//! A case's copy of its kit with one entry taken over from the live kit.

use super::{Difference, DifferenceKind};
use crate::kit::{Kit, in_every_list};

impl Kit {
    /// This copy with one entry made as it is in the live kit: changed, added at the end, or left
    /// out; everything else stays as it is.
    ///
    /// An entry may name others that the copy does not have, and one that goes may still be named:
    /// whether the case is sound with it is for the case to be checked.
    #[must_use]
    pub fn with_taken(&self, difference: &Difference, live: &Self) -> Self {
        let mut taken = self.clone();
        let id = difference.id.as_str();
        macro_rules! list {
            ($($name:ident),*) => {
                match difference.list {
                    "allowances" => taken.allowances = live.allowances.clone(),
                    "kit" => {
                        taken.traywright_kit = live.traywright_kit;
                        taken.id = live.id.clone();
                        taken.name = live.name.clone();
                        taken.revision = live.revision.clone();
                        taken.note.clone_from(&live.note);
                    }
                    $(stringify!($name) => {
                        let new = live.$name.iter().find(|entry| entry.id.as_str() == id);
                        replace(&mut taken.$name, new, difference.kind, |entry| entry.id.as_str() == id);
                    })*
                    _ => {}
                }
            };
        }
        in_every_list!(list);
        // One invented thing in it makes it a kit to practise with.
        taken.demonstration |= live.demonstration && difference.kind != DifferenceKind::Gone;
        taken
    }
}

fn replace<T: Clone>(
    list: &mut Vec<T>,
    new: Option<&T>,
    kind: DifferenceKind,
    is_it: impl Fn(&T) -> bool,
) {
    match (kind, new) {
        (DifferenceKind::Gone, _) => list.retain(|entry| !is_it(entry)),
        (_, None) => {}
        (_, Some(new)) => match list.iter_mut().find(|entry| is_it(entry)) {
            Some(old) => *old = new.clone(),
            None => list.push(new.clone()),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::kit_differences;
    use crate::case::{Case, Edit, EditRefused, ValidCase, apply};
    use crate::measure::Length;
    use crate::samples::{demo, demo_case, demo_kit};

    fn case() -> ValidCase {
        demo_case(demo::ONE_PREMOLAR)
    }

    /// A live kit that differs in many ways, all of which the case can take.
    fn other() -> Kit {
        let mut live = demo_kit();
        live.revision = "second, invented".into();
        live.allowances.least_landing_mm = Length::from_um(310);
        for stop in &mut live.stops {
            stop.body_height_mm += Length::from_um(10);
        }
        let mut new = live.implants[0].clone();
        new.id = "reed-363-83".into();
        live.implants.push(new);
        live
    }

    #[test]
    fn taking_one_over_settles_that_difference_and_no_other() {
        let (case, live) = (case(), other());
        let all = kit_differences(&case, &live);
        assert!(all.len() > 4, "{all:?}");
        for difference in &all {
            let taken = case.kit.with_taken(difference, &live);
            let mut after: Case = (*case).clone();
            after.kit = taken;
            let left = kit_differences(&after, &live);
            let rest: Vec<_> = all.iter().filter(|other| *other != difference).collect();
            assert_eq!(left.iter().collect::<Vec<_>>(), rest, "{difference:?}");
        }
    }

    #[test]
    fn taking_all_over_one_by_one_leaves_no_difference() {
        let (case, live) = (case(), other());
        let mut after: Case = (*case).clone();
        for difference in kit_differences(&case, &live) {
            after.kit = after.kit.with_taken(&difference, &live);
        }
        assert_eq!(kit_differences(&after, &live), []);
    }

    #[test]
    fn an_entry_that_the_case_needs_cannot_go() {
        let mut live = demo_kit();
        live.drills.retain(|drill| drill.id.as_str() != "tip-316");
        let case = case();
        let gone = kit_differences(&case, &live)
            .into_iter()
            .find(|difference| difference.id == "tip-316")
            .unwrap();
        let kit = case.kit.with_taken(&gone, &live);
        let refused = apply(&case, &[Edit::TakeKit(Box::new(kit))]);
        assert!(matches!(refused, Err(EditRefused::Invalid(_))));
    }

    #[test]
    fn one_invented_entry_makes_the_copy_a_kit_to_practise_with() {
        let mut copy = case().kit.clone();
        copy.demonstration = false;
        let live = other();
        for difference in kit_differences(&case(), &live) {
            let taken = copy.with_taken(&difference, &live);
            let gone = difference.kind == DifferenceKind::Gone;
            assert_eq!(taken.demonstration, !gone, "{difference:?}");
        }
    }
}
