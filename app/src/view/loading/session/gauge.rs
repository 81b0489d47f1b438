//! The check of the gauge: with it every pass on the bench opens, and the first in the sterile field.

use super::Refused;
use crate::desk::policy;
use crate::view::loading::task::GaugeFacts;
use traywright_core::measure::Length;
use traywright_core::sign::{EventKind, Purpose, gauge_mistyped, gauge_off, is_on_graduation};

/// A check that is being made.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct GaugeCheck {
    /// The length marked on the check piece, where the kit names none and it was typed.
    pub piece: Option<Length>,
}

/// The outcome of a figure that was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Checked {
    /// It was the length of the check piece; what the gauge shows comes next.
    Piece,
    /// It was asked back, and that is recorded.
    AskedBack(EventKind, Refused),
    /// It is recorded, and the gauge may be used or not.
    Recorded(EventKind, Option<Refused>),
}

impl GaugeCheck {
    /// Takes a figure. One that speaks against the gauge is asked back first, since it puts in doubt what was
    /// read on the gauge: it is recorded once another speaks against it too; one that looks mistyped, once it
    /// is typed again; one that the gauge cannot show, never. What was asked back is recorded at once, so that it stands whatever becomes of the program, and
    /// again with what followed.
    pub fn take(&mut self, value: Length, gauge: &GaugeFacts, purpose: Purpose) -> Checked {
        let Some(piece_mm) = gauge.piece.or(self.piece) else {
            self.piece = Some(value);
            return Checked::Piece;
        };
        let asked_back: Vec<Length> = gauge.asked_back.iter().map(|one| one.value_mm).collect();
        let off = gauge_off(piece_mm + gauge.constant, value, Some(gauge.graduation));
        let asked = match gauge.doubt(piece_mm, value) {
            mistyped @ Some(Refused::GaugeMistyped(_)) => {
                mistyped.filter(|_| asked_back.last() != Some(&value))
            }
            no_figure @ Some(Refused::GaugeNoFigure(_)) => no_figure,
            doubted => doubted.filter(|_| asked_back.is_empty()),
        };
        if let Some(asked) = asked {
            let kind = EventKind::GaugeAskedBack {
                gauge: gauge.id.clone(),
                piece_mm,
                value_mm: value,
                purpose,
            };
            return Checked::AskedBack(kind, asked);
        }
        self.piece = None;
        let kind = EventKind::GaugeChecked {
            gauge: gauge.id.clone(),
            piece_mm,
            value_mm: value,
            asked_back_mm: asked_back,
            purpose: Some(purpose),
        };
        Checked::Recorded(kind, off.map(Refused::GaugeOff))
    }
}

impl GaugeFacts {
    /// The reason why a figure of a check piece of this length is asked back, where it speaks against the gauge.
    fn doubt(&self, piece: Length, value: Length) -> Option<Refused> {
        let should = piece + self.constant;
        if !is_on_graduation(value, self.graduation) {
            return Some(Refused::GaugeNoFigure(value));
        }
        if gauge_mistyped(should, value, Some(self.range), &policy()).is_some() {
            return Some(Refused::GaugeMistyped(value));
        }
        let off = gauge_off(should, value, Some(self.graduation));
        off.map(|_| Refused::GaugeDoubted(value))
    }

    /// The last figure that was asked back and that no check followed yet, also where the program was ended since.
    #[must_use]
    pub fn stands_asked_back(&self) -> Option<Refused> {
        let last = self.asked_back.last()?;
        self.doubt(last.piece_mm, last.value_mm)
    }
}
