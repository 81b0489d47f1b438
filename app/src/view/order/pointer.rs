//! A step put elsewhere by hand, by pointer or by arrows.

use super::Moved;
use super::cached::CachedOrder;
use crate::action::{Action, Change};
use crate::view::order::Context;
use traywright_core::case::Edit;
use traywright_core::order::Cost;
use traywright_core::plan::Operation;
use traywright_core::run::moved;

/// A step that is dragged.
#[derive(Debug, Clone)]
pub(super) struct Drag {
    /// Its first place.
    pub(super) from: usize,
    /// The step that it is held over.
    pub(super) to: usize,
    /// Cost of the order, or the reason why the step cannot go there.
    pub(super) outcome: Result<Cost, String>,
}

/// The order with one step elsewhere and what it costs, or why that cannot be.
fn tried(cx: &Context<'_>, from: usize, to: usize) -> Result<(Vec<Operation>, Cost), String> {
    let Some(Ok(run)) = cx.desk.run.problem() else {
        return Err(String::new());
    };
    let (document, formatter) = (cx.document, cx.formatter());
    let worksheet = document.worksheet();
    let order = moved(document.case(), worksheet, run, from, to)
        .map_err(|stays| formatter.stays(&stays, worksheet))?;
    let priced = run
        .price(&order)
        .map_err(|none| formatter.no_run(&none).join(" "))?;
    Ok((order, priced.cost))
}

/// Takes hold of a step, or holds it over another one.
pub(super) fn hold(cx: &mut Context<'_>, from: usize, to: usize) {
    let as_before = |drag: &Drag| (drag.from, drag.to) == (from, to);
    if cx.own.drag.as_ref().is_some_and(as_before) {
        return;
    }
    let outcome = tried(cx, from, to).map(|(_, cost)| cost);
    cx.own.drag = Some(Drag { from, to, outcome });
    cx.own.said = None;
}

/// Lets go of the step that is dragged: it goes there, or stays and says why.
pub(super) fn let_go(cx: &mut Context<'_>, told: &CachedOrder) {
    if let Some(Drag { from, to, .. }) = cx.own.drag.take()
        && from != to
    {
        put(cx, told, from, to);
        cx.act(Action::EndGesture);
    }
}

/// Puts a step elsewhere, as part of the gesture that goes on.
pub(super) fn put(cx: &mut Context<'_>, told: &CachedOrder, from: usize, to: usize) {
    match tried(cx, from, to) {
        Err(why) => cx.own.said = Some(Moved::Stays(why)),
        Ok((order, _)) => {
            let said = &told.said[from];
            let place = said.place.clone().unwrap_or_default();
            let args = [("drill", said.instrument.as_str()), ("place", &place)];
            let name = cx.text("order-undo-moved", &args);
            let gesture = cx.state.gesture;
            let state = &mut *cx.own;
            let goes_on = state.moving && matches!(state.said, Some(Moved::From(_)));
            if !goes_on {
                state.said = Some(Moved::From(told.priced.cost));
            }
            state.chosen = Some(to);
            accept(cx, name, &order, Some(gesture));
        }
    }
}

/// Has an order followed.
pub(super) fn accept(
    cx: &mut Context<'_>,
    name: String,
    order: &[Operation],
    gesture: Option<u64>,
) {
    let accepted = order.iter().filter_map(Operation::ordered).collect();
    let mut change = Change::new(name, Edit::AcceptOrder(accepted));
    change.gesture = gesture;
    cx.edit(change);
}
