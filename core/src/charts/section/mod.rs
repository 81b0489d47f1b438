//! The section of a site, to scale, along its axis: bone, guide, sleeves, drill, stop, implant and
//! what must not be touched, with the lengths that lead to the setting.
//!
//! Apical is down in the lower jaw and up in the upper jaw; words are always upright. The picture
//! is as large as its room allows, at a scale that it states. Whatever is not known is left out of
//! the picture and named in words.

mod column;
mod deep;
mod dimensions;
mod facts;
mod foot;
mod frame;
mod hard;
mod head;
mod names;
mod picture;
mod setting;
mod soft;
mod structures;
#[cfg(test)]
mod tests;
mod tilt;

use crate::case::ValidCase;
use crate::drawing::{Drawing, at};
use crate::kit::{SiteId, StepId};
use crate::measure::Length;
use crate::number::{shortest, shortest_mm};
use crate::plan::{SiteSheet, Worksheet};
use crate::text::Texts;
use facts::Facts;
use picture::Picture;

/// A section to be drawn.
#[derive(Clone, Copy)]
pub struct Section<'a> {
    /// The case.
    pub case: &'a ValidCase,
    /// Its worksheet.
    pub worksheet: &'a Worksheet,
    /// The site's figures in that worksheet.
    pub site: &'a SiteSheet,
    /// The step to show; `None`: the deepest of full depth, or else the deepest.
    pub step: Option<&'a StepId>,
    /// The site in words with its number.
    pub site_name: &'a str,
    /// The words.
    pub texts: &'a Texts,
}

/// The room that a section may take, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// From left to right.
    pub width: f64,
    /// From top to bottom.
    pub height: f64,
}

/// A reason why no section can be drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoSection {
    /// The site does not belong to the case.
    Site {
        /// The site.
        site: SiteId,
    },
    /// The site has no such step.
    Step {
        /// The site.
        site: SiteId,
        /// The step.
        step: StepId,
    },
    /// Not even the smallest scale fits.
    Room {
        /// The site.
        site: SiteId,
        /// The width that was given, rounded.
        width: u32,
        /// The height that was given, rounded.
        height: u32,
    },
}

impl NoSection {
    /// The reason in words, without a full stop.
    #[must_use]
    pub fn words(&self, texts: &Texts) -> String {
        match self {
            Self::Site { site } => texts.get("section-none-site", &[("site", site.as_str())]),
            Self::Step { site, step } => {
                let args = [("site", site.as_str()), ("step", step.as_str())];
                texts.get("section-none-step", &args)
            }
            Self::Room {
                site,
                width,
                height,
            } => {
                let [width, height] = [*width, *height].map(|side| Length::from_mm(side.into()));
                let args = [
                    ("site", site.as_str()),
                    ("width", &shortest(width)),
                    ("height", &shortest_mm(height)),
                ];
                texts.get("section-none-room", &args)
            }
        }
    }
}

impl Section<'_> {
    /// Draws the section within a room, its top left corner at the origin.
    ///
    /// Everything is one group with the site's path as id; within it each thing of the case is a
    /// group of its own.
    ///
    /// # Errors
    ///
    /// A site or step that is not there, or a room in which not even the smallest scale fits.
    /// A section without unknowns fits 60 by 120 mm; the words about unknowns take up to 180 mm of
    /// height in so narrow a room.
    pub fn draw(&self, room: Room) -> Result<Drawing, NoSection> {
        let facts = Facts::gather(self)?;
        let head = head::head(&facts, room.width);
        let mut down = head.bounds().map_or(0.0, |bounds| bounds.bottom + GAP);
        for scale in frame::SCALES {
            let foot = foot::foot(&facts, scale, room.width);
            let below = foot.bounds().map_or(0.0, |bounds| bounds.bottom + GAP);
            let left = Room {
                width: room.width,
                height: room.height - down - below,
            };
            let Some(picture) = Picture::fitting(&facts, scale, left) else {
                continue;
            };
            let mut all = head;
            let bounds = picture
                .bounds()
                .unwrap_or(crate::drawing::Rect::between(at(0.0, 0.0), at(0.0, 0.0)));
            all.add_at(at(-bounds.left, down - bounds.top), picture);
            down += bounds.height() + GAP;
            all.add_at(at(0.0, down), foot);
            let mut drawing = Drawing::new();
            drawing.add_group(facts.path("section"), facts.name(), all);
            return Ok(drawing);
        }
        Err(NoSection::Room {
            site: self.site.id.clone(),
            width: whole(room.width),
            height: whole(room.height),
        })
    }
}

/// Between head, picture and foot, mm.
const GAP: f64 = 3.0;

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast saturates, and the figure is only told"
)]
fn whole(mm: f64) -> u32 {
    libm::round(mm) as u32
}
