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
    /// Figures of a gauge that were asked back, in their order, and that gauge. The next check of it starts from
    /// them, whoever makes it.
    asked_back: (String, Vec<Length>),
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
    /// The check that comes next: its piece is asked for anew.
    #[must_use]
    pub fn of_next_pass(&self) -> Self {
        Self {
            piece: None,
            asked_back: self.asked_back.clone(),
        }
    }

    /// Takes a figure. One that speaks against the gauge is asked back first, since it puts in doubt what was
    /// read on the gauge: it is recorded once another speaks against it too; one that looks mistyped, once it
    /// is typed again. What was asked back is recorded with what followed.
    pub fn take(&mut self, value: Length, gauge: &GaugeFacts, purpose: Purpose) -> Checked {
        let Some(piece_mm) = gauge.piece.or(self.piece) else {
            self.piece = Some(value);
            return Checked::Piece;
        };
        let (of, asked_back) = &mut self.asked_back;
        if *of != gauge.id {
            (*of, *asked_back) = (gauge.id.clone(), Vec::new());
        }
        let should = piece_mm + gauge.constant;
        let mistyped = gauge_mistyped(should, value, Some(gauge.range), &policy());
        let off = gauge_off(should, value, Some(gauge.graduation));
        let asked = match (mistyped, off) {
            (Some(_), _) if asked_back.last() != Some(&value) => {
                Some(Refused::GaugeMistyped(value))
            }
            (None, Some(_)) if asked_back.is_empty() => Some(Refused::GaugeDoubted(value)),
            _ => None,
        };
        if let Some(asked) = asked {
            asked_back.push(value);
            return Checked::Not(asked);
        }
        self.piece = None;
        let kind = EventKind::GaugeChecked {
            gauge: gauge.id.clone(),
            piece_mm,
            value_mm: value,
            asked_back_mm: std::mem::take(asked_back),
            purpose: Some(purpose),
        };
        Checked::Recorded(kind, off.map(Refused::GaugeOff))
    }
}
