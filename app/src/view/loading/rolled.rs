//! A list that may be longer than the screen: rolled by keys, and known to have been shown to its end or not.

use egui::scroll_area::ScrollAreaOutput;
use egui::style::ScrollAnimation;
use egui::{Key, Modifiers, Ui, vec2};

/// Rolls what stands in this area by the keys for it, a page of `page` points.
pub(in crate::view) fn by_keys(ui: &Ui, page: f32) {
    // There they move the caret.
    if ui.ctx().text_edit_focused() {
        return;
    }
    let line = page / 8.0;
    let all = 1.0e6;
    let steps = [
        (Key::PageDown, page * 0.9),
        (Key::PageUp, page * -0.9),
        (Key::ArrowDown, line),
        (Key::ArrowUp, -line),
        (Key::End, all),
        (Key::Home, -all),
    ];
    for (key, by) in steps {
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, key)) {
            ui.scroll_with_delta_animation(vec2(0.0, -by), ScrollAnimation::none());
        }
    }
}

/// What of a list was shown to its end.
#[derive(Debug, Clone, Default)]
pub(super) struct ShownToEnd {
    sentences: Vec<String>,
    end: bool,
}

impl ShownToEnd {
    /// Takes note of what the area shows of these sentences.
    pub(super) fn look<R>(&mut self, sentences: Vec<String>, area: &ScrollAreaOutput<R>) {
        // A sentence more may be one that nobody saw.
        if self.sentences != sentences {
            *self = Self {
                sentences,
                end: false,
            };
        }
        let bottom = area.state.clamped_offset().y + area.inner_rect.height();
        self.end |= bottom + 2.0 >= area.content_size.y;
    }

    /// True if these are other sentences than the last that were looked at: they begin at their beginning.
    pub(super) fn is_new(&self, sentences: &[String]) -> bool {
        self.sentences != sentences
    }

    /// True if these sentences were shown to the end of them.
    pub(super) fn is_shown(&self, sentences: &[String]) -> bool {
        self.end && self.sentences == sentences
    }
}
