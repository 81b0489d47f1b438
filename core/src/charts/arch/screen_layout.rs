//! A layout for the screen: the arch takes the whole height, and does not move whatever is planned
//! and written on it. The explanations of the chart are in the corners of the columns.

use super::label::Label;
use super::layout::{Columns, LEAST_COLUMN, Lane, View, margin};
use super::outline::ToothLook;
use super::place::{Fidelity, Scene};
use super::{ArchOptions, Arches, furniture};
use crate::dentition::Side;
use crate::drawing::{Drawing, Rect, TextStyle, at};

/// From words to the next things above and below, mm.
const APART: f64 = 3.0;

/// A layout for the screen.
pub(super) struct ScreenLayout {
    pub(super) view: View,
    /// Width of each column, mm.
    column: f64,
}

impl ScreenLayout {
    /// The layout in a page of this size, with the things in its corners drawn.
    pub(super) fn drawn(
        drawing: &mut Drawing,
        scene: &Scene,
        options: &ArchOptions<'_>,
        captions: &[(String, TextStyle)],
        (width, height): (f64, f64),
    ) -> Self {
        let texts = options.texts;
        let least = (width * 0.21).max(LEAST_COLUMN);
        let margin = margin(scene, options);
        let bounds = scene.arches();
        let by_height = (height - 2.0 * margin.y) / bounds.height();
        let by_width = (width - 2.0 * least - 2.0 * margin.x) / bounds.width();
        let scale = by_height.min(by_width).max(0.1);
        // What a narrow arch leaves goes to the words.
        let rest = (width - bounds.width() * scale - 2.0 * margin.x) / 2.0;
        let column = rest.clamp(least, (width * 0.3).max(least));
        let room = Rect::new(at(column, 0.0), width - 2.0 * column, height);

        let said = furniture::captions(drawing, captions, column - 2.0);
        furniture::letters(drawing, texts, room);
        let (mut scale_bar, mut key) = (Drawing::new(), Drawing::new());
        let mut below = 0.0;
        if scene.fidelity == Fidelity::ToScale {
            let middle = (10.0 * scale / 2.0 + 1.0).min(column / 2.0);
            below += furniture::scale_bar(&mut scale_bar, 10, scale, middle, 0.0);
        }
        if options.arches == Arches::Both {
            let remark = texts.get("chart-arch-other-jaw", &[]);
            below += furniture::remark(&mut scale_bar, &remark, below + 1.0, 0.0, column - 2.0);
            below += 1.0;
        }
        let looks = ToothLook::of_all(scene);
        let keyed = furniture::key(&mut key, texts, &looks, 0.0, 0.0, column - 2.0);
        drawing.add_at(at(0.0, height - below), scale_bar);
        drawing.add_at(at(room.right + 2.0, height - keyed), key);
        let lanes = [
            Lane {
                top: said + APART,
                bottom: height - below - APART,
            },
            Lane {
                top: 1.0,
                bottom: height - keyed - APART,
            },
        ];
        Self {
            view: View::centred(bounds, scale, room, lanes),
            column,
        }
    }

    /// The labels in their columns. Where a column has no room for all of them, those that are not
    /// chosen say less: what is more than the worst first, then all but whose it is and its mark.
    pub(super) fn columns(&self, labels: &[Label], chosen: impl Fn(&Label) -> bool) -> Columns {
        let [right, left] = self.view.lanes.map(|lane| lane.bottom - lane.top);
        let tried = |less: [usize; 2]| {
            let labels = labels.iter().map(|label| {
                let less = match label.side {
                    Side::Right => less[0],
                    Side::Left => less[1],
                };
                let less = if chosen(label) { 0 } else { less };
                label.clone().saying_less(less)
            });
            Columns::wide(labels.collect(), self.column, self.column)
        };
        let mut less = [0, 0];
        loop {
            let columns = tried(less);
            let over = [
                columns.stacked(Side::Right) > right,
                columns.stacked(Side::Left) > left,
            ];
            let more = [0, 1].map(|side| less[side] + usize::from(over[side] && less[side] < 2));
            if more == less {
                return columns;
            }
            less = more;
        }
    }
}
