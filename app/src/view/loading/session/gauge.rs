//! The check of the gauge: with it every pass on the bench opens, and the first in the sterile field.

use super::Refused;
use crate::desk::policy;
use crate::view::loading::task::GaugeFacts;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Purpose, gauge_mistyped, gauge_off};

/// A check that is being made.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct GaugeCheck {
    /// The length marked on the check piece, where the kit names none and it was typed.
    pub piece: Option<Length>,
    /// A figure that looked mistyped.
    doubtful: Option<Length>,
}

/// The outcome of a figure that was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Checked {
    /// It was the length of the check piece; what the gauge shows comes next.
    Piece,
    /// It is not recorded.
    Not(Refused),
    /// It is recorded, and the gauge may be used or not.
    Recorded(EventKind, Option<Refused>),
}

impl GaugeCheck {
    /// Takes a figure. One that looks mistyped is recorded when it is typed once more: a gauge that is
    /// found off puts in doubt what was read on it.
    pub fn take(&mut self, value: Length, gauge: &GaugeFacts, purpose: Purpose) -> Checked {
        let Some(piece_mm) = gauge.piece.or(self.piece) else {
            self.piece = Some(value);
            return Checked::Piece;
        };
        let doubtful = self.doubtful.take();
        let mistyped = gauge_mistyped(piece_mm, value, Some(gauge.range), &policy());
        if mistyped.is_some() && doubtful != Some(value) {
            self.doubtful = Some(value);
            return Checked::Not(Refused::GaugeMistyped(value));
        }
        self.piece = None;
        let off = gauge_off(piece_mm, value, Some(gauge.graduation));
        let kind = EventKind::GaugeChecked {
            gauge: gauge.id.clone(),
            piece_mm,
            value_mm: value,
            purpose: Some(purpose),
        };
        Checked::Recorded(kind, off.map(Refused::GaugeOff))
    }
}
