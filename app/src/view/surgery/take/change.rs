//! A change on the table: chosen by its number, done by a second answer alone.

use super::super::change::{Kind, What, foretold, named, next, one};
use super::super::doing::{Asked, Doing, For};
use super::super::scene::Scene;
use super::reason::decided;
use super::{Outcome, Wanted};
use traywright_core::sign::{SiteKey, StepKey};
use traywright_core::surgery::{DayStep, tray_stays, without_guide};

/// A change is chosen: its reason is asked, and where the record has that already, to be said once more.
pub(super) fn change(scene: &Scene<'_>, doing: &mut Doing, number: u8) -> Outcome {
    Kind::of(number).map_or_else(Outcome::default, |kind| choose_change(scene, doing, kind))
}

/// The same by what it is.
pub(super) fn choose_change(scene: &Scene<'_>, doing: &mut Doing, kind: Kind) -> Outcome {
    let step = scene.step().map(|(_, step)| step);
    let Some(found) = step.and_then(|step| one(scene, step, kind)) else {
        return Outcome::default();
    };
    let what = match found.what {
        Ok(what) => what,
        Err(why) => {
            let why = scene.text("surgery-not-now", &[("why", &why)]);
            let args = [("name", found.name.as_str()), ("why", why.as_str())];
            return Outcome::tell(scene.text("surgery-change-not-now", &args));
        }
    };
    let edits = match (&what, found.kind) {
        (What::Edit(edits), _) => edits.clone(),
        (What::Record, Kind::Abandon) => {
            without_guide(scene.document.case(), (scene.day, scene.recorded().1), None)
        }
        (What::Record, _) => Vec::new(),
    };
    let told = foretold(scene, found.kind, &edits);
    doing.ask(match found.kind {
        Kind::StopHere => Asked::Reason(For::StopHere),
        Kind::Lifted => Asked::Reason(For::Lifted),
        Kind::NotLifted => Asked::Reason(For::NotLifted),
        Kind::Abandon => Asked::Reason(For::Abandon),
        Kind::NotAbandoned => Asked::Reason(For::NotAbandoned),
        // Who decided that, and why, the record has with the word that it is abandoned.
        Kind::PlanAbandoned => Asked::Confirm(Kind::PlanAbandoned),
        kind @ (Kind::Shorter | Kind::Narrower | Kind::NoProfile | Kind::Freehand) => {
            Asked::Reason(For::Change(kind))
        }
    });
    doing.foretold = told;
    Outcome::default()
}

/// The plan is changed for a reason, which is recorded first: where that cannot be written, the plan stays.
pub(super) fn changed(
    scene: &Scene<'_>,
    doing: &mut Doing,
    (kind, reason): (Kind, String),
) -> Outcome {
    let recorded = scene
        .step()
        .and_then(|(_, step)| step_of(scene, step, kind));
    let outcome = confirmed(scene, doing, kind);
    match (recorded, &outcome.wanted) {
        (Some(step), Wanted::Edit(_)) => Outcome {
            wanted: outcome.wanted,
            ..decided(scene, doing, (step, reason))
        },
        (_, Wanted::Nothing) => outcome,
        _ => Outcome::tell(scene.word("surgery-gone")),
    }
}

/// What a change of a site is recorded as.
fn step_of(scene: &Scene<'_>, step: &DayStep<'_>, kind: Kind) -> Option<StepKey> {
    let case = scene.document.case();
    let site = case.site(step.site()?.as_str())?;
    let key = SiteKey {
        site: site.id.to_string(),
        tooth: site.tooth,
    };
    Some(match kind {
        Kind::Shorter | Kind::Narrower => StepKey::ImplantChanged {
            site: key,
            implant: next(scene, site, kind)?.id.to_string(),
            from: Some(site.implant.to_string()),
        },
        Kind::NoProfile => StepKey::ProfileDropped { site: key },
        Kind::Freehand => StepKey::GuideLeft { site: key },
        _ => return None,
    })
}

/// An edit of the case was said once more.
pub(super) fn confirmed(scene: &Scene<'_>, doing: &mut Doing, kind: Kind) -> Outcome {
    let step = scene.step().map(|(_, step)| step);
    let found = step.and_then(|step| one(scene, step, kind));
    doing.look_at(None);
    let Some((name, Ok(What::Edit(edits)))) = found.map(|one| (one.name, one.what)) else {
        return Outcome::tell(scene.word("surgery-gone"));
    };
    let edits = tray_stays(scene.planned(), scene.recorded(), edits);
    Outcome {
        wanted: Wanted::Edit(named(&name, edits)),
        ..Outcome::default()
    }
}
