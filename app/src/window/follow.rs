//! The keyboard kept in sight: a form longer than the window follows it.

use egui::accesskit::{Action, ActionRequest, TreeId};
use egui::{Context, Event, Id, Key};

/// A control higher than this fills its place by itself, points: a drawing, a page.
const LARGE: f32 = 200.0;

/// The widget that had the keyboard last, and the one still to be brought into sight.
#[derive(Debug, Default)]
pub(super) struct Follow {
    last: Option<Id>,
    hidden: Option<Id>,
    /// What was pressed by the pointer since anything had the keyboard: there it goes on.
    pressed: Option<Id>,
}

impl Follow {
    /// Before a frame: Tab goes on from what was pressed by the pointer, which gives no control the keyboard;
    /// asks the area of a control out of sight to scroll to it, as a screen reader would.
    pub(super) fn before(&mut self, ctx: &Context) {
        let goes_on = ctx.input(|input| input.key_pressed(Key::Tab));
        if goes_on
            && ctx.memory(|memory| memory.focused().is_none())
            && let Some(pressed) = self.pressed.take()
            && ctx.read_response(pressed).is_some()
        {
            ctx.memory_mut(|memory| memory.request_focus(pressed));
        }
        let Some(hidden) = self.hidden.take() else {
            return;
        };
        let request = ActionRequest {
            action: Action::ScrollIntoView,
            target_node: hidden.accesskit_id(),
            target_tree: TreeId::ROOT,
            data: None,
        };
        let event = Event::AccessKitActionRequest(request);
        ctx.input_mut(|input| input.events.push(event));
    }

    /// After a frame: looks whether what was just given the keyboard can be seen.
    pub(super) fn after(&mut self, ctx: &Context) {
        let focused = ctx.memory(|memory| memory.focused());
        match (
            focused,
            ctx.interaction_snapshot(|snapshot| snapshot.clicked),
        ) {
            (Some(_), _) => self.pressed = None,
            (None, Some(clicked)) => self.pressed = Some(clicked),
            (None, None) => {}
        }
        if focused == self.last {
            return;
        }
        self.last = focused;
        let Some(response) = focused.and_then(|id| ctx.read_response(id)) else {
            return;
        };
        let (whole, seen) = (response.rect, response.interact_rect);
        if whole.height() < LARGE && seen.expand(1.0).intersect(whole) != whole {
            self.hidden = focused;
            ctx.request_repaint();
        }
    }
}
