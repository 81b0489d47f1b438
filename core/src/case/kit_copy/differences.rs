//! Differences between a case's copy of its kit entries and the live kit.

use crate::case::Case;
use crate::kit::{Kit, in_every_list};

/// One entry that is not the same in a case's copy and in the live kit.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Difference {
    /// Its list in the kit file, such as `drills`; `allowances` for the rules of combining, and
    /// `kit` for what names the kit and its revision.
    pub list: &'static str,
    /// The entry's id; the kit's own where there is no list.
    pub id: String,
    /// The kind of difference.
    pub kind: DifferenceKind,
}

/// The kind of difference between two versions of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DifferenceKind {
    /// Both have it, and not alike.
    Changed,
    /// The case has it, the live kit no longer does.
    Gone,
    /// The live kit has it for this case, the case's copy does not.
    Added,
}

/// Differences of a case's copy from the live kit, list by list in the order of the kit file;
/// within a list first the entries of the case, in its order, then those that the live kit adds.
///
/// An entry of the live kit that this case does not use is no difference.
#[must_use]
pub fn kit_differences(case: &Case, live: &Kit) -> Vec<Difference> {
    let copy = &case.kit;
    let wanted = live.for_case(case);
    let mut out = Vec::new();
    let mut changed = |list: &'static str| {
        out.push(Difference {
            list,
            id: live.id.to_string(),
            kind: DifferenceKind::Changed,
        });
    };
    let names = |kit: &Kit| {
        let texts = (kit.id.clone(), kit.name.clone(), kit.revision.clone());
        (
            kit.traywright_kit,
            kit.demonstration,
            texts,
            kit.note.clone(),
        )
    };
    // Nobody knows what the copy lacks for what was chosen without the kit, until the whole is taken.
    if names(copy) != names(live) || !case.kit_not_at_hand.is_none() {
        changed("kit");
    }
    if copy.allowances != live.allowances {
        changed("allowances");
    }
    macro_rules! compare {
        ($($list:ident),*) => {
            $(compare(stringify!($list), [&copy.$list, &live.$list, &wanted.$list], |e| e.id.as_str(), &mut out);)*
        };
    }
    in_every_list!(compare);
    out
}

fn compare<T: PartialEq>(
    list: &'static str,
    [copy, live, wanted]: [&[T]; 3],
    id: impl Fn(&T) -> &str,
    out: &mut Vec<Difference>,
) {
    let find = |list: &[T], wanted: &T| list.iter().position(|entry| id(entry) == id(wanted));
    let mut add = |entry: &T, kind| {
        out.push(Difference {
            list,
            id: id(entry).to_owned(),
            kind,
        });
    };
    for entry in copy {
        match find(live, entry) {
            None => add(entry, DifferenceKind::Gone),
            Some(n) if live[n] != *entry => add(entry, DifferenceKind::Changed),
            Some(_) => {}
        }
    }
    for entry in wanted {
        if find(copy, entry).is_none() {
            add(entry, DifferenceKind::Added);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::ImplantId;
    use crate::measure::Length;
    use crate::samples::{demo, demo_case, demo_kit};

    fn case() -> Case {
        demo_case(demo::ONE_PREMOLAR).into_case()
    }

    fn told(live: &Kit) -> Vec<(&'static str, String, DifferenceKind)> {
        let list = kit_differences(&case(), live);
        list.into_iter().map(|d| (d.list, d.id, d.kind)).collect()
    }

    #[test]
    fn a_fresh_copy_does_not_differ() {
        assert_eq!(told(&demo_kit()), []);
    }

    #[test]
    fn an_entry_that_changed_is_told_by_list_and_id() {
        let mut live = demo_kit();
        let stop = live.stops.iter_mut().find(|s| s.id.as_str() == "stop-257");
        stop.unwrap().body_height_mm = Length::from_um(4250);
        live.allowances.least_landing_mm = Length::from_um(310);
        live.revision = "second, invented".into();
        let changed = |list, id: &str| (list, id.to_owned(), DifferenceKind::Changed);
        assert_eq!(
            told(&live),
            [
                changed("kit", "hedgerow"),
                changed("allowances", "hedgerow"),
                changed("stops", "stop-257")
            ]
        );
    }

    #[test]
    fn what_the_case_does_not_use_is_no_difference() {
        let mut live = demo_kit();
        let unused = |id: &ImplantId| id.as_str().starts_with("sloe");
        live.implants.retain(|implant| !unused(&implant.id));
        live.protocols.retain(|p| !p.implants.iter().any(unused));
        assert_eq!(told(&live), []);
    }

    #[test]
    fn an_implant_that_is_gone_does_not_make_its_family_look_gone() {
        let mut live = demo_kit();
        let used = ImplantId::from("reed-363-91");
        live.implants.retain(|implant| implant.id != used);
        for protocol in &mut live.protocols {
            protocol.implants.retain(|id| *id != used);
        }
        assert_eq!(
            told(&live),
            [
                ("implants", used.to_string(), DifferenceKind::Gone),
                ("protocols", "reed-363-firm".into(), DifferenceKind::Changed),
                ("protocols", "reed-363-soft".into(), DifferenceKind::Changed),
            ]
        );
    }

    #[test]
    fn a_new_implant_of_the_family_is_told_as_added() {
        let mut live = demo_kit();
        let mut new = live.implants[0].clone();
        new.id = "reed-363-83".into();
        live.implants.push(new);
        assert_eq!(
            told(&live),
            [("implants", "reed-363-83".into(), DifferenceKind::Added)]
        );
    }
}
