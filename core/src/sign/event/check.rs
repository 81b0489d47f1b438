//! What an event cannot say.

use super::{EventKind, ItemKey, Piece};
use crate::document::is_unseen;
use crate::measure::{Length, Torque};
use crate::sign::message::{Argument, Message};
use crate::sign::piece::PieceNamed;
use crate::sign::record::{Entry, EntryKind, PlacedImplant, StabilityMethod};
use crate::sign::surgery::{DrillUse, SiteKey, StepKey};
use jiff::civil::{Date, date};

/// No instrument is longer: a bound of plausibility, as in the schema.
const LONGEST: Length = Length::from_mm(2000);
/// The greatest torque, N·cm: a bound of plausibility, as in the schema.
const HARDEST: i32 = 200;
/// No label in use bears a day before or after these: bounds of plausibility, against a slip of a digit.
const DAYS: (Date, Date) = (date(2000, 1, 1), date(2099, 12, 31));

/// A reason why an event cannot be as it says. Its `Display` is for logs.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KindFault {
    /// A name or text that has to be given is empty.
    #[error("{key} is empty")]
    Empty {
        /// The key in the file.
        key: &'static str,
    },
    /// A name or text above its limit.
    #[error("{key} has {found} characters, the limit is {limit}")]
    Long {
        /// The key in the file.
        key: &'static str,
        /// Number of characters.
        found: usize,
        /// Greatest number of characters.
        limit: usize,
    },
    /// A character that is not seen and can show the text as another one.
    #[error("{key} holds {found:?}")]
    Character {
        /// The key in the file.
        key: &'static str,
        /// The first such character.
        found: char,
    },
    /// A torque that no implant is turned in with.
    #[error("{key} is {found} N·cm: must be at least 1 and at most {HARDEST}")]
    Torque {
        /// The key in the file.
        key: &'static str,
        /// The torque.
        found: Torque,
    },
    /// A day that no label in use bears.
    #[error("{key} is {found}: must be from {} to {}", DAYS.0, DAYS.1)]
    Day {
        /// The key in the file.
        key: &'static str,
        /// The day.
        found: Date,
    },
    /// A figure that its scale does not have.
    #[error("{key} is {found}: must be from {least} to {most}")]
    Scale {
        /// The key in the file.
        key: &'static str,
        /// The figure.
        found: i32,
        /// The least.
        least: i32,
        /// The greatest.
        most: i32,
    },
    /// A correction of one thing by another.
    #[error("{key} is of another kind than what is corrected")]
    OtherKind {
        /// The key in the file.
        key: &'static str,
    },
    /// A length that no instrument has.
    #[error("{key} is {found} mm: must be above 0 and at most {LONGEST}")]
    Length {
        /// The key in the file.
        key: &'static str,
        /// The length.
        found: Length,
    },
}

impl KindFault {
    /// The sentence that tells it.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Empty { key } => Message::new("sign-kind-empty", [("key", key)]),
            Self::Long { key, found, limit } => Message::new(
                "sign-kind-long",
                [("key", key), ("found", found), ("limit", limit)],
            ),
            Self::Character { key, found } => Message::new(
                "sign-kind-character",
                [
                    ("key", key),
                    ("found", &format!("U+{:04X}", u32::from(*found))),
                ],
            ),
            Self::Torque { key, found } => Message::new(
                "sign-kind-torque",
                [
                    ("key", key),
                    ("found", &found.to_string()),
                    ("limit", &HARDEST.to_string()),
                ],
            ),
            Self::Day { key, found } => {
                let (found, first, last) =
                    (found.to_string(), DAYS.0.to_string(), DAYS.1.to_string());
                Message::new(
                    "sign-kind-day",
                    [
                        ("key", &(*key).to_owned()),
                        ("found", &found),
                        ("first", &first),
                        ("last", &last),
                    ],
                )
            }
            Self::Scale {
                key,
                found,
                least,
                most,
            } => Message::new(
                "sign-kind-scale",
                [
                    ("key", &(*key).to_owned()),
                    ("found", &found.to_string()),
                    ("least", &least.to_string()),
                    ("most", &most.to_string()),
                ],
            ),
            Self::OtherKind { key } => Message::new("sign-kind-other", [("key", key)]),
            Self::Length { key, found } => Message::new(
                "sign-kind-length",
                [
                    ("key", key),
                    ("found", found),
                    ("limit", &Argument::BareLength(LONGEST)),
                ],
            ),
        }
    }
}

impl EventKind {
    /// Greatest number of characters of a name.
    const NAME: usize = 200;
    /// Greatest number of characters of a finding's key with what it showed.
    const ACCEPTED: usize = 420;
    /// Greatest number of characters of a text.
    const TEXT: usize = 4000;

    /// Refuses what cannot be: an empty name, a length of nothing.
    ///
    /// # Errors
    ///
    /// The first such fault.
    #[expect(clippy::too_many_lines, reason = "one arm for each kind")]
    pub fn check(&self) -> Result<(), KindFault> {
        match self {
            Self::Approval(approval) => approval
                .accepted
                .iter()
                .try_for_each(|key| words("accepted", key, Self::ACCEPTED)),
            Self::ApprovalWithdrawn { reason, .. } => words("reason", reason, Self::TEXT),
            Self::Reading(reading) => {
                reading.item.check()?;
                words("gauge", &reading.gauge, Self::NAME)?;
                length("value_mm", reading.value_mm)
            }
            Self::Handled { item, .. } => item.check(),
            Self::Opened { thing, .. } | Self::Told { thing, .. } => {
                words("entry", &thing.entry, Self::NAME)
            }
            Self::Beside { what, .. } => words("what", what, Self::TEXT),
            Self::PassBegun { .. } | Self::PassEnded { .. } | Self::RecordSigned(_) => Ok(()),
            Self::Reset {
                drill, passed_over, ..
            } => {
                words("drill", &drill.drill, Self::NAME)?;
                passed_over.iter().try_for_each(ItemKey::check)
            }
            Self::Landed { drill, .. } => words("drill", &drill.drill, Self::NAME),
            Self::Dropped { piece, .. } | Self::FallTakenBack { piece, .. } => match piece {
                Piece::Drill(drill) => words("drill", &drill.drill, Self::NAME),
                Piece::Gauge(name) => words("gauge", name, Self::NAME),
                Piece::Guide(guide) => guide_code(guide.code.as_deref()),
                Piece::Thing(thing) => words("entry", &thing.entry, Self::NAME),
                Piece::Other(name) => words("other", name, Self::NAME),
            },
            Self::Placed { item, slot, .. } => {
                item.check()?;
                words("slot", slot, Self::NAME)
            }
            Self::ThingPlaced { thing, slot, .. } => {
                words("entry", &thing.entry, Self::NAME)?;
                let mut slot = slot.iter();
                slot.try_for_each(|slot| words("slot", slot, Self::NAME))
            }
            Self::GaugeChecked {
                gauge,
                piece_mm,
                value_mm,
                asked_back_mm,
                ..
            } => {
                words("gauge", gauge, Self::NAME)?;
                length("piece_mm", *piece_mm)?;
                let mut asked = asked_back_mm.iter();
                asked.try_for_each(|one| length("asked_back_mm", *one))?;
                length("value_mm", *value_mm)
            }
            Self::GaugeAskedBack {
                gauge,
                piece_mm,
                value_mm,
                ..
            } => {
                words("gauge", gauge, Self::NAME)?;
                length("piece_mm", *piece_mm)?;
                length("value_mm", *value_mm)
            }
            Self::SurgeryBegun(begun) => {
                let mut things = begun.lies_wrong.iter();
                things.try_for_each(|thing| words("entry", &thing.entry, Self::NAME))?;
                despite(begun.despite.as_deref())
            }
            Self::StepDone(done) => {
                steps(&done.step, done.due.as_deref())?;
                let mut piece = done.piece.iter();
                piece.try_for_each(|drill| words("drill", &drill.drill, Self::NAME))?;
                let mut aimed = done.by_hand.iter().filter_map(|one| one.aimed_mm);
                aimed.try_for_each(|found| length("aimed_mm", found))?;
                despite(done.despite.as_deref())
            }
            Self::StepSkipped(skipped) => {
                skipped.step.check()?;
                words("reason", &skipped.reason, Self::TEXT)
            }
            Self::StepTakenBack(back) => {
                let mut reason = back.reason.iter();
                reason.try_for_each(|reason| words("reason", reason, Self::TEXT))?;
                back.step.check()
            }
            Self::Sounded(sounded) => {
                steps(&sounded.step, sounded.due.as_deref())?;
                length("found_mm", sounded.found_mm)
            }
            Self::Inserted(inserted) => {
                steps(&inserted.step, inserted.due.as_deref())?;
                let mut torque = inserted.torque_ncm.into_iter();
                torque.try_for_each(|found| torque_of("torque_ncm", found))?;
                let mut depth = inserted.coronal_of_plan_mm.into_iter();
                depth.try_for_each(|found| signed("coronal_of_plan_mm", found))?;
                despite(inserted.despite.as_deref())
            }
            Self::Counted(counted) => {
                steps(&counted.step, counted.due.as_deref())?;
                let mut lines = counted.lines.iter();
                lines.try_for_each(|line| words("what", &line.what, 2 * Self::NAME))?;
                despite(counted.despite.as_deref())
            }
            Self::Recorded(recorded) => recorded.entry.check(),
            Self::RecordCorrected(corrected) => {
                let mut to = corrected.to.iter();
                to.try_for_each(|to| corrected.field.is_kind_of(to))?;
                let mut to = corrected.to.iter();
                to.try_for_each(Entry::check)?;
                words("reason", &corrected.reason, Self::TEXT)
            }
            Self::PieceNamed(named) => {
                words("drill", &named.drill.drill, Self::NAME)?;
                let mut mark = named.mark.iter();
                mark.try_for_each(|mark| words("mark", mark, PieceNamed::MARK))
            }
            Self::SetAside { file, .. } | Self::LineLost { file, .. } => {
                words("file", file, Self::NAME)
            }
            Self::Note { text } => words("text", text, Self::TEXT),
        }
    }
}

impl ItemKey {
    fn check(&self) -> Result<(), KindFault> {
        words("drill", &self.drill, EventKind::NAME)?;
        if let Some(stop) = &self.stop {
            words("stop", stop, EventKind::NAME)?;
        }
        length("setting_mm", self.setting_mm)
    }
}

impl StepKey {
    fn check(&self) -> Result<(), KindFault> {
        match self {
            Self::CountIn { .. }
            | Self::Reseat {}
            | Self::Lifted {}
            | Self::Abandoned {}
            | Self::SeatAgain { .. }
            | Self::GuideOff {}
            | Self::CountOut { .. } => Ok(()),
            Self::Pin { pin, with } => {
                words("pin", pin, EventKind::NAME)?;
                with.check()
            }
            Self::SetAnew { with, .. } => with.check(),
            Self::Punch { sites } => sites.iter().try_for_each(SiteKey::check),
            Self::Seat { guide } => guide_code(guide.as_deref()),
            Self::Sound {
                site,
                planned_mm,
                guide,
            } => {
                site.check()?;
                guide_code(guide.as_deref())?;
                let mut planned = planned_mm.iter();
                planned.try_for_each(|planned| signed("planned_mm", *planned))
            }
            Self::Drill {
                site,
                id,
                with,
                sleeve,
                ..
            } => {
                site.check()?;
                words("id", id, EventKind::NAME)?;
                let mut sleeve = sleeve.iter();
                sleeve.try_for_each(|sleeve| words("sleeve", sleeve, EventKind::NAME))?;
                with.check()
            }
            Self::Look { site, id, what } => {
                site.check()?;
                words("id", id, EventKind::NAME)?;
                words("what", what, EventKind::NAME)
            }
            Self::ImplantChanged {
                site,
                implant,
                from,
            } => {
                site.check()?;
                words("implant", implant, EventKind::NAME)?;
                let mut from = from.iter();
                from.try_for_each(|from| words("from", from, EventKind::NAME))
            }
            Self::ProfileDropped { site } | Self::GuideLeft { site } => site.check(),
            Self::Insert { site, implant, .. } | Self::Finish { site, implant } => {
                site.check()?;
                words("implant", implant, EventKind::NAME)
            }
        }
    }
}

impl EntryKind {
    fn is_kind_of(self, entry: &Entry) -> Result<(), KindFault> {
        if entry.kind() == self {
            Ok(())
        } else {
            Err(KindFault::OtherKind { key: "to" })
        }
    }
}

impl Entry {
    fn check(&self) -> Result<(), KindFault> {
        const LINE: usize = 2 * EventKind::NAME;
        self.site().map_or(Ok(()), SiteKey::check)?;
        match self {
            Self::Implant(placed) => placed.check(),
            Self::Torque { torque_ncm, .. } => torque_of("torque_ncm", *torque_ncm),
            Self::Depth {
                coronal_of_plan_mm, ..
            } => signed("coronal_of_plan_mm", *coronal_of_plan_mm),
            Self::Stability { value, .. } => {
                let ((least, most), found) = (StabilityMethod::FIGURES, *value);
                if (least..=most).contains(&found) {
                    return Ok(());
                }
                Err(KindFault::Scale {
                    key: "value",
                    found,
                    least,
                    most,
                })
            }
            Self::Graft { material, .. } => material.as_ref().map_or(Ok(()), |material| {
                words("what", &material.what, LINE)?;
                lot(material.lot.as_deref())?;
                expiry(material.expiry)
            }),
            Self::Closure { how, .. } => words("how", how, LINE),
            Self::Healing { part, .. } => part.as_ref().map_or(Ok(()), |part| {
                words("what", &part.what, LINE)?;
                lot(part.lot.as_deref())?;
                let mut torque = part.torque_ncm.into_iter();
                torque.try_for_each(|found| torque_of("torque_ncm", found))
            }),
            Self::Deviation { departure, .. } => departure.as_ref().map_or(Ok(()), |departure| {
                words("what", &departure.what, LINE)?;
                words("reason", &departure.reason, EventKind::TEXT)
            }),
            Self::Discarded { what, reason } => {
                words("what", what, LINE)?;
                words("reason", reason, EventKind::TEXT)
            }
        }
    }
}

impl PlacedImplant {
    fn check(&self) -> Result<(), KindFault> {
        words("code", &self.code, EventKind::NAME)?;
        lot(self.lot.as_deref())?;
        expiry(self.expiry)?;
        for (key, id) in [("implant", &self.implant), ("planned", &self.planned)] {
            id.as_ref()
                .map_or(Ok(()), |id| words(key, id, EventKind::NAME))?;
        }
        let mut compared = self.compared.iter();
        compared.try_for_each(|one| words("name", &one.name, EventKind::NAME))?;
        let mut because = self.because.iter();
        because.try_for_each(|why| words("because", why, EventKind::TEXT))
    }
}

fn lot(lot: Option<&str>) -> Result<(), KindFault> {
    lot.map_or(Ok(()), |lot| words("lot", lot, EventKind::NAME))
}

fn expiry(day: Option<Date>) -> Result<(), KindFault> {
    match day {
        Some(found) if found < DAYS.0 || found > DAYS.1 => Err(KindFault::Day {
            key: "expiry",
            found,
        }),
        _ => Ok(()),
    }
}

impl SiteKey {
    fn check(&self) -> Result<(), KindFault> {
        words("site", &self.site, EventKind::NAME)
    }
}

impl DrillUse {
    fn check(&self) -> Result<(), KindFault> {
        words("drill", &self.drill, EventKind::NAME)?;
        let mut stop = self.stop.iter();
        stop.try_for_each(|stop| words("stop", stop, EventKind::NAME))?;
        let mut set = self.set_mm.iter();
        set.try_for_each(|set| length("set_mm", *set))
    }
}

fn guide_code(code: Option<&str>) -> Result<(), KindFault> {
    code.map_or(Ok(()), |code| words("guide", code, EventKind::NAME))
}

/// A step and the one that was due.
fn steps(step: &StepKey, due: Option<&StepKey>) -> Result<(), KindFault> {
    step.check()?;
    due.map_or(Ok(()), StepKey::check)
}

fn despite(reason: Option<&str>) -> Result<(), KindFault> {
    reason.map_or(Ok(()), |reason| words("despite", reason, EventKind::TEXT))
}

fn words(key: &'static str, text: &str, limit: usize) -> Result<(), KindFault> {
    let found = text.chars().count();
    if text.trim().is_empty() {
        Err(KindFault::Empty { key })
    } else if found > limit {
        Err(KindFault::Long { key, found, limit })
    } else if let Some(found) = text.chars().find(|c| is_unseen(*c)) {
        Err(KindFault::Character { key, found })
    } else {
        Ok(())
    }
}

fn length(key: &'static str, found: Length) -> Result<(), KindFault> {
    if found > Length::ZERO && found <= LONGEST {
        Ok(())
    } else {
        Err(KindFault::Length { key, found })
    }
}

/// A length to either side.
fn signed(key: &'static str, found: Length) -> Result<(), KindFault> {
    if found.abs() <= LONGEST {
        Ok(())
    } else {
        Err(KindFault::Length { key, found })
    }
}

fn torque_of(key: &'static str, found: Torque) -> Result<(), KindFault> {
    if found >= Torque::from_ncm(1) && found <= Torque::from_ncm(HARDEST) {
        Ok(())
    } else {
        Err(KindFault::Torque { key, found })
    }
}
