//! Settings that differ between two worksheets of one case.

use crate::kit::SiteId;
use crate::plan::depth::steps::StepSheet;
use crate::plan::worksheet::Worksheet;

/// A step whose setting, gauge figure or deepest cut is not the same before and after a change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChangedSetting<'a> {
    /// The site.
    pub site: &'a SiteId,
    /// The step before; nothing where it was not there.
    pub before: Option<&'a StepSheet>,
    /// The step after; nothing where it is no longer there.
    pub after: Option<&'a StepSheet>,
}

/// The steps whose setting, gauge figure or deepest cut a change from one worksheet to the other
/// alters, adds or takes away, in the order of the worksheet before, then what only the other has.
#[must_use]
pub fn changed_settings<'a>(
    before: &'a Worksheet,
    after: &'a Worksheet,
) -> Vec<ChangedSetting<'a>> {
    let all = |worksheet: &'a Worksheet| {
        worksheet.sites.iter().flat_map(|site| {
            let steps = site.steps.iter();
            steps.map(|step| (&site.id, step))
        })
    };
    let find = |worksheet, (site, step): (&SiteId, &StepSheet)| {
        let mut steps = all(worksheet);
        let found = steps.find(|(other, one)| *other == site && one.id == step.id);
        found.map(|(_, step)| step)
    };
    let of_before = all(before).map(|(site, step)| ChangedSetting {
        site,
        before: Some(step),
        after: find(after, (site, step)),
    });
    let only_after = all(after).filter(|one| find(before, *one).is_none());
    let only_after = only_after.map(|(site, step)| ChangedSetting {
        site,
        before: None,
        after: Some(step),
    });
    of_before
        .chain(only_after)
        .filter(|one| match (one.before, one.after) {
            (Some(before), Some(after)) => !same(before, after),
            _ => true,
        })
        .collect()
}

/// True if a hand would do the same: the set length, the gauge's figure, and the depth of the cut.
fn same(a: &StepSheet, b: &StepSheet) -> bool {
    let gauge = |step: &StepSheet| step.gauge.as_ref().map(|figure| figure.value.clone());
    a.set.value == b.set.value
        && gauge(a) == gauge(b)
        && a.cut.value == b.cut.value
        && a.mark == b.mark
        && a.drill == b.drill
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Case, ValidCase};
    use crate::measure::Length;
    use crate::plan::work_out;
    use crate::samples::{demo, demo_case};

    fn case() -> ValidCase {
        demo_case(demo::TWO_MOLARS)
    }

    #[test]
    fn nothing_changes_where_nothing_was_changed() {
        let one = work_out(&case());
        assert_eq!(changed_settings(&one, &one.clone()), []);
    }

    #[test]
    fn a_higher_master_sleeve_changes_what_is_guided_through_it_and_nothing_else() {
        let before = work_out(&case());
        let mut other: Case = (*case()).clone();
        let sleeve = other.sites[0].master_sleeve.clone();
        for entry in &mut other.kit.master_sleeves {
            if entry.id == sleeve {
                entry.height_mm += Length::from_um(200);
            }
        }
        let other = ValidCase::try_from(other).unwrap();
        let after = work_out(&other);
        let changed = changed_settings(&before, &after);
        let same_sleeve =
            |site: &SiteId| other.site(site.as_str()).unwrap().master_sleeve == sleeve;
        let guided: usize = before
            .sites
            .iter()
            .filter(|site| same_sleeve(&site.id))
            .map(|site| site.steps.len())
            .sum();
        assert_eq!(changed.len(), guided);
        for one in changed {
            let (before, after) = (one.before.unwrap(), one.after.unwrap());
            let (before, after) = (before.set.length().unwrap(), after.set.length().unwrap());
            assert_eq!(after - before, Length::from_um(200));
        }
    }

    #[test]
    fn a_step_that_is_dropped_and_one_that_is_added_are_told() {
        let before = work_out(&case());
        let mut other: Case = (*case()).clone();
        other.sites[0].steps.pop();
        let after = work_out(&ValidCase::try_from(other).unwrap());
        let gone = changed_settings(&before, &after);
        assert!(gone.iter().any(|one| one.after.is_none()));
        let back = changed_settings(&after, &before);
        assert!(back.iter().any(|one| one.before.is_none()));
    }
}
