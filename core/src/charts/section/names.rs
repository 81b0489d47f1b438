//! Names in the column: tissue, crest, platform, implant, apex, structures with their verdicts, and
//! every unknown in words.

use super::column::Entry;
use super::deep;
use super::picture::{CANAL_RADIUS, Picture};
use super::soft::names_deepest;
use super::structures::{Place, Structure};
use crate::case::Access;
use crate::charts::lines::Lines;
use crate::drawing::{Across, Ink, Mark, Point, TextStyle, at};

const NAME: TextStyle = TextStyle::NOTE;
const VERDICT: TextStyle = TextStyle::NOTE.bold().inked(Ink::Strong);

/// Builds entries of one width.
struct Names<'p, 'a, 'c> {
    picture: &'p Picture<'a, 'c>,
    width: f64,
    entries: Vec<Entry>,
}

/// Every entry of the column but the setting.
pub(super) fn names(picture: &Picture<'_, '_>, width: f64) -> Vec<Entry> {
    let mut names = Names {
        picture,
        width,
        entries: Vec::new(),
    };
    names.soft();
    names.implant();
    names.unknown_metal();
    for structure in &picture.facts.structures {
        names.structure(structure);
    }
    names.entries
}

impl Names<'_, '_, '_> {
    /// A name tied to a height at the picture's edge.
    fn at_level(&mut self, field: &str, text_id: &str, above: f64) {
        let text = self.picture.facts.word(text_id);
        let y = self.picture.frame.y(above);
        let from = at(self.picture.body().right, y);
        self.push(field, &text.clone(), y, Some(from), |lines, width| {
            lines.text(&text, NAME, width)
        });
    }

    /// An unknown, in words with its mark, near a height.
    fn unknown(&mut self, field: &str, text: &str, above: f64) {
        let y = self.picture.frame.y(above);
        self.push(field, text, y, None, |lines, width| {
            lines.marked(Mark::Unknown, text, VERDICT, width)
        });
    }

    fn push(
        &mut self,
        field: &str,
        name: &str,
        wanted: f64,
        from: Option<Point>,
        write: impl FnOnce(Lines, f64) -> Lines,
    ) {
        self.entries.push(Entry {
            wanted,
            from,
            lines: write(Lines::new(), self.width),
            side: Across::Start,
            id: self.picture.facts.path(field),
            name: name.to_owned(),
        });
    }

    fn soft(&mut self) {
        const CREST: &str = "heights.platform_below_crest";
        const TISSUE: &str = "heights.tissue_thickness_mm";
        let levels = self.picture.levels;
        let facts = self.picture.facts;
        let Some((highest, lowest)) = levels.highest_crest.zip(levels.lowest_crest) else {
            let text = facts.word(match facts.site.heights.platform_below_crest {
                Some(_) => "section-crest-stale",
                None => "section-crest-unknown",
            });
            self.unknown(CREST, &text, 1.0);
            return;
        };
        match (levels.tissue, facts.section.case.guide.access) {
            (Some(thickness), Access::Punch) => {
                self.at_level(TISSUE, "section-tissue", highest + thickness);
            }
            (Some(thickness), Access::Flap) => {
                self.at_level(TISSUE, "section-tissue-reflected", highest + thickness);
            }
            (None, Access::Punch) => {
                let text = facts.word("section-tissue-unknown");
                self.unknown(TISSUE, &text, highest + 1.0);
            }
            (None, Access::Flap) => {}
        }
        if highest > lowest {
            self.at_level(CREST, "section-crest-highest", highest);
            self.at_level(CREST, "section-crest-lowest", lowest);
        } else {
            self.at_level(CREST, "section-crest", highest);
        }
    }

    fn implant(&mut self) {
        let picture = self.picture;
        let facts = picture.facts;
        let apex = picture.levels.apex;
        self.at_level("platform", "section-platform", 0.0);
        let text = facts.implant_named();
        let half = facts.implant.diameter_mm.mm() / 2.0;
        let from = picture.frame.place(half, apex * 0.7);
        self.push("implant", &text, from.y, Some(from), |lines, width| {
            lines.text(&text, NAME, width)
        });
        self.at_level("apex", "section-apex", apex);
        if let Some((one, tip)) = facts.holes().first() {
            let text = facts
                .texts()
                .get("section-cut-before", &[("name", one.name.as_str())]);
            let from = picture.frame.place(0.0, -tip);
            self.push("cut_before", &text, from.y, Some(from), |lines, width| {
                lines.text(&text, NAME, width)
            });
        }
        if facts.step.is_none() {
            return;
        }
        match picture.levels.deepest_cut {
            Some(cut) if names_deepest(picture) => {
                self.at_level("deepest_cut_mm", "section-deepest", cut);
            }
            Some(_) => {}
            None => {
                let text = facts.word("section-deepest-unknown");
                self.unknown("deepest_cut_mm", &text, apex - 0.5);
            }
        }
    }

    fn unknown_metal(&mut self) {
        let facts = self.picture.facts;
        if facts.is_guided() && self.picture.levels.sleeve.is_none() {
            let text = facts.word("section-sleeve-unknown");
            let above = self.picture.levels.highest_crest.unwrap_or(0.0) + 3.0;
            self.unknown("platform_to_sleeve", &text, above);
        }
    }

    fn structure(&mut self, structure: &Structure<'_>) {
        let picture = self.picture;
        let facts = picture.facts;
        let frame = picture.frame;
        let end = frame.y(picture.apical);
        let shown = picture.shows(structure.place);
        let (wanted, from) = match structure.place {
            Place::Canal(near) if shown => {
                let centre = frame.place(0.0, deep::canal_centre(near));
                let edge = centre + at(CANAL_RADIUS * frame.scale, 0.0);
                (edge.y, Some(edge))
            }
            Place::Floor(near) if shown => {
                let above = near.at(picture.right).max(picture.apical);
                let edge = at(picture.body().right, frame.y(above));
                (edge.y, Some(edge))
            }
            Place::Beside { from_axis, .. } if shown => {
                let centre = deep::beside_centre(picture, from_axis);
                let edge = centre + at(CANAL_RADIUS * frame.scale, 0.0);
                (edge.y, Some(edge))
            }
            Place::Beside { .. } => (frame.y(picture.levels.apex / 2.0), None),
            _ => (end, None),
        };
        let words = structure.words(&facts.section);
        let elsewhere = match structure.place {
            Place::Canal(_) | Place::Floor(_) if !shown => Some("section-deeper"),
            Place::Beside { .. } if !shown => Some("section-farther"),
            _ => None,
        };
        let mut lines = Lines::new().text(&structure.name, NAME, self.width).marked(
            structure.mark(),
            &words,
            VERDICT,
            self.width,
        );
        if let Some(id) = elsewhere {
            lines = lines.text(&facts.word(id), TextStyle::CAPTION, self.width);
        }
        self.entries.push(Entry {
            wanted,
            from,
            lines,
            side: Across::Start,
            id: structure.finding.place.key(),
            name: format!("{} {words}", structure.name),
        });
    }
}
