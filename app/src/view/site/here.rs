//! The site that is looked at, with all that the view speaks about it, and changes of it.

use crate::action::Change;
use crate::desk::Document;
use crate::view::form::FormSubject;
use crate::view::site::Context;
use traywright_core::case::{Edit, HeldByGuide, MeasuredAt, Site, Step, supplied};
use traywright_core::kit::{DrillSleeve, DrillSleeveId, Implant, Kit, MasterSleeve, StepId};
use traywright_core::plan::{SiteSheet, StepSheet};
use traywright_core::sign::Purpose;
use traywright_core::wording::Formatter;

/// The site that is looked at.
pub(super) struct Here<'a> {
    pub(super) document: &'a Document,
    pub(super) site: &'a Site,
    pub(super) sheet: &'a SiteSheet,
    /// The kit to choose from.
    pub(super) kit: &'a Kit,
    pub(super) implant: &'a Implant,
    pub(super) master: &'a MasterSleeve,
    pub(super) formatter: Formatter<'a>,
    /// The step that is looked at.
    pub(super) step: Option<StepId>,
}

impl<'a> Here<'a> {
    /// The site that is looked at; nothing where the case has none.
    pub(super) fn of(cx: &Context<'a>, kit: &'a Kit) -> Option<Self> {
        let document = cx.document;
        let (site, sheet) = cx.site()?;
        let chosen = cx.state.step.as_ref();
        let there = chosen.filter(|id| sheet.steps.iter().any(|step| step.id == **id));
        let step = there.or_else(|| sheet.telling_step().map(|step| &step.id));
        Some(Self {
            document,
            site,
            sheet,
            kit,
            implant: document.case().kit.implant(&site.implant)?,
            master: document.case().kit.master_sleeve(&site.master_sleeve)?,
            formatter: cx.formatter(),
            step: step.cloned(),
        })
    }

    /// The site in words with its number.
    pub(super) fn name(&self) -> String {
        self.formatter.site(&self.site.id)
    }

    /// The site as something measured now remembers it.
    pub(super) fn now(&self) -> MeasuredAt {
        self.site.measured_now(self.implant.platform_to_apex_mm)
    }

    /// What the case is for.
    pub(super) fn purpose(&self) -> Purpose {
        self.document.case().purpose()
    }

    /// The parts of the site that the guide holds as they are.
    pub(super) fn held(&self) -> HeldByGuide {
        self.document.case().held_by_guide(self.site)
    }

    /// The drill sleeves that fit the master sleeve, and the one that stands there.
    pub(super) fn fitting_sleeves(
        &self,
        now: Option<&DrillSleeveId>,
    ) -> Vec<(DrillSleeveId, String)> {
        let sleeves = self.kit.drill_sleeves.iter();
        let fitting = sleeves
            .filter(|sleeve| sleeve.fits.contains(&self.master.id) || now == Some(&sleeve.id));
        let named = |sleeve: &DrillSleeve| {
            let name = self.formatter.named(&sleeve.name, &sleeve.marking);
            (sleeve.id.clone(), name)
        };
        fitting.map(named).collect()
    }

    /// The figures of the step that is looked at.
    pub(super) fn step_sheet(&self) -> Option<&'a StepSheet> {
        let id = self.step.as_ref()?;
        self.sheet.steps.iter().find(|step| step.id == *id)
    }

    /// The step that is looked at as it was entered, and its place in the sequence.
    pub(super) fn step(&self) -> Option<(usize, &'a Step)> {
        let id = self.step.as_ref()?;
        let steps = self.site.steps.iter().enumerate();
        steps.into_iter().find(|(_, step)| step.id == *id)
    }

    /// Carries out edits as one step, told by what changes.
    pub(super) fn edit(
        &self,
        cx: &mut Context<'_>,
        what: &str,
        field: Option<&str>,
        edits: Vec<Edit>,
    ) {
        let (what, site) = (cx.word(what), self.name());
        let name = cx.text("site-change", &[("what", &what), ("site", &site)]);
        let change = Change::of(name, edits);
        cx.edit(match field {
            Some(field) => change.at(self.key(field)),
            None => change,
        });
    }
}

impl FormSubject for Here<'_> {
    type Value = Site;
    type State = crate::view::site::State;

    fn value(&self) -> &Site {
        self.site
    }

    fn key(&self, field: &str) -> String {
        format!("site.{}.{field}", self.site.id)
    }

    fn change(
        &self,
        cx: &mut Context<'_>,
        what: &str,
        field: &str,
        change: impl FnOnce(&mut Site),
    ) {
        let mut site = self.site.clone();
        change(&mut site);
        let edits = vec![Edit::ChangeSite(Box::new(site))];
        let edits = supplied(self.document.case(), edits, cx.kit_at_hand());
        self.edit(cx, what, Some(field), edits);
    }
}
