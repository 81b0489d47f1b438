//! Entries that a case's copy of its kit lacks for a case as it will be.

use crate::case::Case;
use crate::kit::{Kit, in_every_list};

impl Kit {
    /// This copy with whatever a case uses and the copy lacks, taken from the live kit.
    ///
    /// `case` is the case as it will be; its own copy is not looked at. An entry that the copy has
    /// stays as it is, also where the live kit has another of its id: such differences are taken
    /// over one by one. Whatever a new entry names comes along, and where the copy has it, the
    /// copy's own counts. Accessories belong to no site, so a new one is a difference and does not
    /// come along.
    #[must_use]
    pub fn with_missing_from(&self, live: &Self, case: &Case) -> Self {
        let used = self.together_with(live).for_case(case);
        // Of a live kit that is invented, only what is used makes this one so.
        let used = Self {
            accessories: Vec::new(),
            demonstration: live.demonstration,
            ..used
        };
        Self {
            accessories: self.accessories.clone(),
            ..self.together_with(&used)
        }
    }

    /// This kit with the entries of another whose ids it lacks, after its own: what can be offered
    /// for a case whose copy this is. With one that is invented it is a kit to practise with.
    #[must_use]
    pub fn together_with(&self, other: &Self) -> Self {
        let mut all = self.clone();
        let mut joined = 0_usize;
        macro_rules! join {
            ($($list:ident),*) => {
                $(for entry in &other.$list {
                    if self.$list.iter().all(|own| own.id != entry.id) {
                        all.$list.push(entry.clone());
                        joined += 1;
                    }
                })*
            };
        }
        in_every_list!(join);
        all.demonstration |= other.demonstration && joined > 0;
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::ValidCase;
    use crate::measure::Length;
    use crate::samples::{demo, demo_case, demo_kit};

    fn case() -> Case {
        demo_case(demo::ONE_PREMOLAR).into_case()
    }

    #[test]
    fn an_unchanged_case_needs_nothing() {
        let case = case();
        assert_eq!(case.kit.with_missing_from(&demo_kit(), &case), case.kit);
    }

    #[test]
    fn another_implant_brings_its_family_its_protocols_and_what_they_name() {
        let mut case = case();
        case.sites[0].implant = "sloe-512-94".into();
        assert!(ValidCase::checked(&case).is_err(), "the copy lacks it");
        let before = case.kit.clone();
        case.kit = before.with_missing_from(&demo_kit(), &case);
        ValidCase::checked(&case).unwrap();
        let ids: Vec<&str> = case.kit.protocols.iter().map(|p| p.id.as_str()).collect();
        assert!(ids.contains(&"sloe-512"), "{ids:?}");
        assert!(case.kit.implants.starts_with(&before.implants));
        assert!(case.kit.drills.len() > before.drills.len());
    }

    #[test]
    fn what_the_copy_has_stays_and_is_what_new_entries_use() {
        let mut case = case();
        let mut live = demo_kit();
        let worn = Length::from_um(14_777);
        live.drills[0].overall_length_mm = worn;
        let shared = live.drills[0].id.clone();
        assert!(case.kit.drill(&shared).is_some(), "the copy has the pilot");
        case.sites[0].implant = "sloe-512-94".into();
        let with = case.kit.with_missing_from(&live, &case);
        assert_eq!(with.drill(&shared), case.kit.drill(&shared));
        assert_ne!(with.drill(&shared).unwrap().overall_length_mm, worn);
    }

    #[test]
    fn what_comes_from_an_invented_kit_makes_the_copy_one() {
        let mut case = case();
        case.kit.demonstration = false;
        assert!(demo_kit().demonstration);
        let same = case.kit.with_missing_from(&demo_kit(), &case);
        assert!(!same.demonstration, "nothing came along");
        case.sites[0].implant = "sloe-512-94".into();
        let with = case.kit.with_missing_from(&demo_kit(), &case);
        assert!(with.demonstration);
    }

    #[test]
    fn a_new_accessory_of_the_live_kit_does_not_come_along() {
        let case = case();
        let mut live = demo_kit();
        live.accessories[0].id = "another".into();
        let with = case.kit.with_missing_from(&live, &case);
        assert_eq!(with.accessories, case.kit.accessories);
    }
}
