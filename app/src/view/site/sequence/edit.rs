//! Steps added, dropped and moved.

use crate::action::Action;
use crate::view::form::FormSubject;
use crate::view::site::Context;
use crate::view::site::here::Here;
use traywright_core::case::Site;
use traywright_core::kit::{DrillId, StepId};
use traywright_core::plan::step_with;

/// Moves the step that is looked at: down where `by` is positive, else up; at either end it stays.
pub(in crate::view::site) fn move_step(cx: &mut Context<'_>, here: &Here<'_>, by: i8) {
    let Some((at, _)) = here.step() else { return };
    let Some(to) = at.checked_add_signed(isize::from(by)) else {
        return;
    };
    if to >= here.site.steps.len() {
        return;
    }
    here.change(cx, "site-what-order", "steps", |site| {
        site.steps.swap(at, to);
    });
    // The same one is looked at wherever it now stands.
    cx.act(Action::ChooseStep(here.step.clone()));
}

/// Drops the step that is looked at.
pub(super) fn drop_step(cx: &mut Context<'_>, here: &Here<'_>) {
    let Some((at, step)) = here.step() else {
        return;
    };
    let fields = here.key(&format!("step.{}.", step.id));
    cx.state.drafts.forget_under(&fields);
    here.change(cx, "site-what-step-dropped", "steps", |site| {
        site.steps.remove(at);
    });
    let steps = &here.site.steps;
    let next = steps
        .get(at + 1)
        .or_else(|| at.checked_sub(1).and_then(|before| steps.get(before)));
    cx.act(Action::ChooseStep(next.map(|step| step.id.clone())));
}

/// Adds a step with a drill after the one that is looked at, or at the end.
pub(super) fn add_step(cx: &mut Context<'_>, here: &Here<'_>, drill: &DrillId) {
    let Some(drill) = here.kit.drill(drill) else {
        return;
    };
    let id = fresh_id(here.site);
    let step = step_with(here.kit, here.master, id.clone(), drill);
    let at = here.step().map_or(here.site.steps.len(), |(at, _)| at + 1);
    here.change(cx, "site-what-step-added", "steps", |site| {
        site.steps.insert(at, step);
    });
    cx.act(Action::ChooseStep(Some(id)));
}

/// An id that no step of a site has.
fn fresh_id(site: &Site) -> StepId {
    let mut number = site.steps.len() + 1;
    loop {
        let id = StepId::from(format!("s{number}").as_str());
        if site.steps.iter().all(|step| step.id != id) {
            return id;
        }
        number += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DEMOS, demo_case};

    #[test]
    fn a_new_step_takes_no_id_that_is_there() {
        let mut site = demo_case(DEMOS[0].1).sites[0].clone();
        assert!(site.steps.len() > 1);
        for _ in 0..3 {
            let id = fresh_id(&site);
            assert!(site.steps.iter().all(|step| step.id != id));
            let mut step = site.steps[0].clone();
            step.id = id;
            site.steps.remove(1);
            site.steps.push(step);
        }
    }
}
