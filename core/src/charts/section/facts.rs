//! The facts of a site: everything of the case and its worksheet that a section shows.

use super::structures::{Structure, structures};
use super::tilt::{Tilt, tilt};
use super::{NoSection, Section};
use crate::case::{CutBefore, ReceiptOf, Site};
use crate::kit::{Drill, DrillSleeve, Implant, MasterSleeve, Stop};
use crate::measure::Length;
use crate::number::mm;
use crate::plan::{StepPath, StepSheet};
use crate::text::Texts;

/// The step that is shown.
#[derive(Clone, Copy)]
pub(super) struct ShownStep<'a> {
    pub(super) sheet: &'a StepSheet,
    /// Its place in the sequence, from 1.
    pub(super) number: usize,
    pub(super) drill: &'a Drill,
    pub(super) sleeve: Option<&'a DrillSleeve>,
    pub(super) stop: Option<&'a Stop>,
}

/// A site with all that a section shows of it.
pub(super) struct Facts<'a> {
    pub(super) section: Section<'a>,
    pub(super) site: &'a Site,
    pub(super) implant: &'a Implant,
    pub(super) master: &'a MasterSleeve,
    pub(super) step: Option<ShownStep<'a>>,
    pub(super) tilt: Option<Tilt>,
    pub(super) structures: Vec<Structure<'a>>,
}

impl<'a> Facts<'a> {
    /// Looks everything up.
    pub(super) fn gather(section: &Section<'a>) -> Result<Self, NoSection> {
        let section = *section;
        let case = section.case;
        let stranger = || NoSection::Site {
            site: section.site.id.clone(),
        };
        let site = case
            .sites
            .iter()
            .find(|site| site.id == section.site.id)
            .ok_or_else(stranger)?;
        let tilt = tilt(site, case.jaw, section.texts);
        Ok(Self {
            section,
            site,
            implant: case.kit.implant(&site.implant).ok_or_else(stranger)?,
            master: case
                .kit
                .master_sleeve(&site.master_sleeve)
                .ok_or_else(stranger)?,
            step: shown(&section)?,
            structures: structures(&section, site, tilt.as_ref()),
            tilt,
        })
    }

    /// What was cut here before the plan was changed and is known how deep, the deepest first, each with its tip below the platform.
    pub(super) fn holes(&self) -> Vec<(&'a CutBefore, f64)> {
        let case = self.section.case;
        let here = self.site.cut_before.iter();
        let here = here.filter(|one| one.purpose == case.purpose() && one.kind.is_some());
        let known = here.filter_map(|one| Some((one, one.tip(self.site, &case.kit)?.mm())));
        let mut holes: Vec<_> = known.collect();
        holes.sort_by(|a, b| b.1.total_cmp(&a.1));
        holes
    }

    /// Bore of the master sleeve in the guide at hand: as measured, else by the kit.
    pub(super) fn master_bore(&self) -> Length {
        let case = self.section.case;
        let measured = case.received(self.site, ReceiptOf::MasterSleeveBore);
        measured.unwrap_or(self.master.bore_mm)
    }

    /// The implant by its label, with its measured length, which is the one that is drawn.
    pub(super) fn implant_named(&self) -> String {
        let length = mm(self.implant.platform_to_apex_mm);
        let args = [("name", self.implant.name.as_str()), ("length", &length)];
        self.texts().get("section-implant", &args)
    }

    pub(super) const fn texts(&self) -> &'a Texts {
        self.section.texts
    }

    /// A text without arguments.
    pub(super) fn word(&self, id: &str) -> String {
        self.texts().get(id, &[])
    }

    /// A path within this site: the id of what is drawn there.
    pub(super) fn path(&self, field: &str) -> String {
        format!("sites[{}].{field}", self.site.id)
    }

    /// A path within the shown step.
    pub(super) fn step_path(&self, field: &str) -> String {
        match self.step {
            Some(step) => self.path(&format!("steps[{}].{field}", step.sheet.id)),
            None => self.path(field),
        }
    }

    /// The accessible name of the whole.
    pub(super) fn name(&self) -> String {
        let args = [
            ("site", self.section.site_name),
            ("step", &self.step_words()),
        ];
        self.texts().get("section-name", &args)
    }

    /// The shown step in words.
    pub(super) fn step_words(&self) -> String {
        let Some(step) = self.step else {
            return self.word("section-no-step");
        };
        let (number, count) = (step.number, self.section.site.steps.len());
        self.texts().counted(
            "section-step",
            &[("number", number), ("count", count)],
            &[("drill", step.drill.name.as_str())],
        )
    }

    /// True if the guide is in the mouth at this step; it is where there is no step yet.
    pub(super) fn is_guided(&self) -> bool {
        self.step
            .is_none_or(|step| step.sheet.path != StepPath::Freehand)
    }

    /// Heights above the platform, in millimetres; whatever is not known is absent.
    pub(super) fn levels(&self) -> Levels {
        let mm = |length: Option<Length>| length.map(Length::mm);
        let site = self.section.site;
        let crest = self.site.heights_now().platform_below_crest;
        let apex = -self.implant.platform_to_apex_mm.mm();
        let sleeve = mm(site.distance.length()).filter(|_| self.is_guided());
        // The cut knows how the guide was measured; the face that the stop lands on follows it.
        let tip = self
            .step
            .and_then(|step| mm(step.sheet.cut.length()))
            .map(|cut| -cut);
        let set = self.step.and_then(|step| mm(step.sheet.set.length()));
        let planned_seat = self.step.and_then(|step| mm(step.sheet.seat.length()));
        let seat = tip.zip(set).map(|(tip, set)| tip + set).or(planned_seat);
        let deepest_cut = mm(site.deepest_cut.length()).map(|cut| -cut);
        Levels {
            highest_crest: crest.map(|crest| crest.highest_mm.mm()),
            lowest_crest: crest.map(|crest| crest.lowest_mm.mm()),
            tissue: mm(self.site.heights_now().tissue_thickness_mm),
            sleeve,
            rim: sleeve.map(|sleeve| sleeve + self.master.height_mm.mm()),
            seat,
            tip,
            apex,
            deepest_cut,
            deepest: deepest_cut.map(|cut| cut.min(apex)),
        }
    }
}

/// Heights above the platform, along the axis, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Levels {
    /// The highest crest within the sleeve's radius.
    pub(super) highest_crest: Option<f64>,
    /// The lowest crest around the site.
    pub(super) lowest_crest: Option<f64>,
    /// Thickness of the soft tissue: a length, not a height.
    pub(super) tissue: Option<f64>,
    /// The master sleeve's apical face.
    pub(super) sleeve: Option<f64>,
    /// The master sleeve's coronal rim.
    pub(super) rim: Option<f64>,
    /// The face that the stop lands on.
    pub(super) seat: Option<f64>,
    /// The drill's tip.
    pub(super) tip: Option<f64>,
    /// The implant's end.
    pub(super) apex: f64,
    /// The deepest point of all the site's cuts.
    pub(super) deepest_cut: Option<f64>,
    /// The deepest of cuts and implant.
    pub(super) deepest: Option<f64>,
}

/// The step that is asked for, or the one that is shown by default.
fn shown<'a>(section: &Section<'a>) -> Result<Option<ShownStep<'a>>, NoSection> {
    let steps = &section.site.steps;
    let index = match section.step {
        Some(id) => {
            let found = steps.iter().position(|step| step.id == *id);
            Some(found.ok_or_else(|| NoSection::Step {
                site: section.site.id.clone(),
                step: id.clone(),
            })?)
        }
        None => section
            .site
            .telling_step()
            .and_then(|telling| steps.iter().position(|step| step.id == telling.id)),
    };
    let kit = &section.case.kit;
    let step = index.and_then(|index| {
        let sheet = &steps[index];
        Some(ShownStep {
            sheet,
            number: index + 1,
            drill: kit.drill(&sheet.drill)?,
            sleeve: sheet
                .sleeve
                .as_ref()
                .filter(|_| sheet.path == StepPath::DrillSleeve)
                .and_then(|id| kit.drill_sleeve(id)),
            stop: sheet.stop.as_ref().and_then(|id| kit.stop(id)),
        })
    });
    Ok(step)
}
