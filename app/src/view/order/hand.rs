//! A step put elsewhere by hand, by pointer or by arrows.

use super::Moved;
use super::told::Told;
use crate::action::{Action, Change};
use crate::window::Stage;
use traywright_core::case::Edit;
use traywright_core::order::Cost;
use traywright_core::plan::Use;
use traywright_core::run::moved;

/// A step that is dragged.
#[derive(Debug, Clone)]
pub(super) struct Drag {
    /// Where it was.
    pub(super) from: usize,
    /// Over which step it is held.
    pub(super) to: usize,
    /// What the order would cost, or why the step cannot go there.
    pub(super) outcome: Result<Cost, String>,
}

/// The order with one step elsewhere and what it costs, or why that cannot be.
fn tried(stage: &Stage<'_>, from: usize, to: usize) -> Result<(Vec<Use>, Cost), String> {
    let (Some(document), Some(Ok(run))) = (stage.document(), stage.desk.run.problem()) else {
        return Err(String::new());
    };
    let speaker = document.speaker(stage.desk.settings.notation());
    let worksheet = document.worksheet();
    let order = moved(document.case(), worksheet, run, from, to)
        .map_err(|stays| speaker.stays(&stays, worksheet))?;
    let priced = run
        .price(&order)
        .map_err(|none| speaker.no_run(&none).join(" "))?;
    Ok((order, priced.cost))
}

/// Takes hold of a step, or holds it over another one.
pub(super) fn hold(stage: &mut Stage<'_>, from: usize, to: usize) {
    let as_before = |drag: &Drag| (drag.from, drag.to) == (from, to);
    if stage.sight.order.drag.as_ref().is_some_and(as_before) {
        return;
    }
    let outcome = tried(stage, from, to).map(|(_, cost)| cost);
    stage.sight.order.drag = Some(Drag { from, to, outcome });
    stage.sight.order.said = None;
}

/// Lets go of the step that is dragged: it goes there, or stays and says why.
pub(super) fn let_go(stage: &mut Stage<'_>, told: &Told) {
    if let Some(Drag { from, to, .. }) = stage.sight.order.drag.take()
        && from != to
    {
        put(stage, told, from, to);
        stage.act(Action::EndGesture);
    }
}

/// Puts a step elsewhere, as part of the gesture that goes on.
pub(super) fn put(stage: &mut Stage<'_>, told: &Told, from: usize, to: usize) {
    match tried(stage, from, to) {
        Err(why) => stage.sight.order.said = Some(Moved::Stays(why)),
        Ok((order, _)) => {
            let said = &told.said[from];
            let place = said.place.clone().unwrap_or_default();
            let args = [("drill", said.instrument.as_str()), ("place", &place)];
            let name = stage.text("order-undo-moved", &args);
            let gesture = stage.sight.gesture;
            let state = &mut stage.sight.order;
            let goes_on = state.moving && matches!(state.said, Some(Moved::From(_)));
            if !goes_on {
                state.said = Some(Moved::From(told.priced.cost));
            }
            state.chosen = Some(to);
            accept(stage, name, &order, Some(gesture));
        }
    }
}

/// Has an order followed.
pub(super) fn accept(stage: &mut Stage<'_>, name: String, order: &[Use], gesture: Option<u64>) {
    let accepted = order.iter().filter_map(Use::ordered).collect();
    let mut change = Change::new(name, Edit::AcceptOrder(accepted));
    change.gesture = gesture;
    stage.edit(change);
}
