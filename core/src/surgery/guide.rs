//! The guide of the day: whether anything is still done through it, and what becomes of it where it fell.
//!
//! A guide that fell is unusable, or made sterile anew as local rules have it, or another one of its code takes its place. Which
//! of these a person says ([`StepKey::SeatAgain`]); until then nothing is done through it, and then it is seated and sounded
//! anew, as after it came off.

use super::{Day, DayStep, Work};
use crate::sign::{EventKind, Fall, Piece, Standing, StepKey};

/// Every report of this sitting that the guide fell, also those taken back: whoever reports it has looked at it, and nobody
/// knows how it sits since.
pub(super) fn reported(standing: &Standing) -> impl Iterator<Item = &Fall> {
    let falls = standing.fallen.iter();
    falls.filter(|fall| fall.in_surgery && matches!(fall.piece, Piece::Guide(_)))
}

/// The same that stand.
pub(super) fn falls(standing: &Standing) -> impl Iterator<Item = &Fall> {
    reported(standing).filter(|fall| fall.counts())
}

/// The last fall of the guide after which nobody said which guide goes in.
pub(super) fn fell(standing: &Standing) -> Option<&Fall> {
    let is_settled = |fall: &&Fall| {
        let mut day = standing.day.iter().filter(|one| one.counts());
        day.any(|one| {
            let says = matches!(
                &one.kind,
                EventKind::StepDone(done) if matches!(done.step, StepKey::SeatAgain { .. })
            );
            says && one.known.contains(&fall.place)
        })
    };
    falls(standing).filter(|fall| !is_settled(fall)).last()
}

impl Day<'_> {
    /// True as long as anything is to be done through the guide, or for it: it was not abandoned, and is not off.
    #[must_use]
    pub fn is_guide_in_use(&self) -> bool {
        let mut open = self.open_from(0);
        let off = self.abandoned.is_some() || self.is_guide_off();
        !off && open.any(|(_, step)| step.is_of_guide())
    }

    /// True if the guide can fall: it is in use, and did not fall since it was last seated or made ready to be.
    #[must_use]
    pub fn can_guide_fall(&self) -> bool {
        self.is_guide_in_use() && self.guide_fell.is_none()
    }
}

impl DayStep<'_> {
    /// True if it is done through the guide, or with the guide in hand.
    #[must_use]
    pub fn is_of_guide(&self) -> bool {
        let of_guide = matches!(
            self.work,
            Work::Pin { .. } | Work::Punch(_) | Work::Reseat | Work::Seat | Work::Sound(_)
        );
        of_guide || self.is_led()
    }
}
