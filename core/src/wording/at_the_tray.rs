//! Help for a hand at the tray: the bore that a drill falls through, the depth of a thing that has
//! no stop, and the things beside the tray.

use super::Formatter;
use super::order::step_sheet;
use crate::kit::{DrillSleeveId, ImplantId, SiteId, SlotKind};
use crate::plan::{Known, LoadItem, ServedPlace, StepPath, Worksheet};

impl Formatter<'_> {
    /// The bores that lead a drill, each with where it is: "sleeve 3.1 (letter B), slot B3". None for
    /// what nothing leads.
    #[must_use]
    pub fn bores(&self, item: &LoadItem, worksheet: &Worksheet) -> Vec<String> {
        self.each_bore(item, worksheet, |id| self.sleeve(id))
    }

    /// The same without the markings of the sleeves: "sleeve 3.1, slot B3".
    #[must_use]
    pub fn bores_by_name(&self, item: &LoadItem, worksheet: &Worksheet) -> Vec<String> {
        let kit = &self.case.kit;
        self.each_bore(item, worksheet, |id| {
            kit.drill_sleeve(id)
                .map_or_else(|| self.sleeve(id), |sleeve| sleeve.name.to_string())
        })
    }

    fn each_bore(
        &self,
        item: &LoadItem,
        worksheet: &Worksheet,
        sleeve: impl Fn(&DrillSleeveId) -> String,
    ) -> Vec<String> {
        let mut bores: Vec<String> = Vec::new();
        let drills = item.serves.iter().filter(|_| item.kind == SlotKind::Drill);
        for said in drills.filter_map(|one| self.bore(one, worksheet, &sleeve)) {
            if !bores.contains(&said) {
                bores.push(said);
            }
        }
        bores
    }

    fn bore(
        &self,
        serves: &ServedPlace,
        worksheet: &Worksheet,
        sleeve: impl Fn(&DrillSleeveId) -> String,
    ) -> Option<String> {
        let (Some(site), Some(step)) = (&serves.site, &serves.step) else {
            return Some(self.word("bore-pin"));
        };
        let sheet = step_sheet(worksheet, site, step)?;
        match (sheet.path, &sheet.sleeve) {
            (StepPath::Freehand, _) => None,
            (StepPath::DrillSleeve, Some(id)) => {
                let mut loading = worksheet.loading.iter();
                let lying = loading
                    .find(|one| one.kind == SlotKind::Sleeve && one.entry == id.as_str())
                    .map_or_else(|| self.without_slot(), |one| self.slot(one));
                let sleeve = sleeve(id);
                Some(self.text("load-one-of", &[("name", &sleeve), ("slot", &lying)]))
            }
            (StepPath::DrillSleeve | StepPath::MasterSleeve, _) => {
                let site = self.site(site);
                Some(self.text("bore-master", &[("site", &site)]))
            }
        }
    }

    /// Place of a thing: "slot A2", or that it has none.
    #[must_use]
    pub fn slot(&self, item: &LoadItem) -> String {
        match &item.slot {
            Some(slot) => self.text("load-slot", &[("slot", slot.as_str())]),
            None => self.without_slot(),
        }
    }

    /// The reason why a thing has no slot: none is left, or no tray was chosen.
    #[must_use]
    pub fn without_slot(&self) -> String {
        self.word(match self.case.setup.tray {
            Some(_) => "load-no-slot",
            None => "missing-tray",
        })
    }

    /// Depth of a thing that has no stop, at each site that it serves: until which mark of a drill
    /// or line of a carrier, or where the platform of an implant that goes in freehand is to end.
    #[must_use]
    pub fn goes_in(&self, item: &LoadItem, worksheet: &Worksheet) -> Vec<String> {
        let said = item.serves.iter().filter_map(|serves| {
            let id = serves.site.as_ref()?;
            let site = worksheet.sites.iter().find(|one| one.id == *id)?;
            let words = match item.kind {
                SlotKind::Drill => {
                    let step = step_sheet(worksheet, id, serves.step.as_ref()?)?;
                    super::begin(&self.until_level(step)?)
                }
                SlotKind::Carrier => self.insertion(Some(site.insertion.as_ref()?)),
                SlotKind::Implant => super::begin(&self.final_depth(site.final_depth.as_ref()?)),
                _ => return None,
            };
            let site = super::begin(&self.site(id));
            Some(self.text("load-goes-in", &[("site", &site), ("words", &words)]))
        });
        said.collect()
    }

    /// Things to take although no slot of the tray is for them: guide, gauge, handpiece head, and
    /// the next shorter implants, which stay closed at hand.
    #[must_use]
    pub fn beside_tray(&self, worksheet: &Worksheet) -> Vec<String> {
        let mut lines = vec![
            self.guide_to_take(),
            self.gauge_to_take(),
            self.head_to_take(),
        ];
        let shorter = shorter_implants(worksheet);
        lines.extend(
            shorter
                .into_iter()
                .map(|(id, sites)| self.closed(&id, &sites)),
        );
        lines
    }

    /// The guide among the things to take: drills are dropped through its sleeves.
    #[must_use]
    pub fn guide_to_take(&self) -> String {
        match &self.case.guide.code {
            Some(code) => self.text("sheet-take-guide", &[("code", code.as_str())]),
            None => self.word("sheet-take-guide-no-code"),
        }
    }

    fn gauge_to_take(&self) -> String {
        let Some(gauge) = self.case.gauge() else {
            return self.word("sheet-gauge-none");
        };
        let name = ("gauge", gauge.name.as_str());
        match gauge.check_piece_mm {
            None => self.text("sheet-take-gauge-no-piece", &[name]),
            Some(piece) => {
                let piece = self.set_length_with_unit(&Known::Is(piece));
                self.text("sheet-take-gauge", &[name, ("piece", &piece)])
            }
        }
    }

    fn head_to_take(&self) -> String {
        let id = self.case.setup.head.as_ref();
        id.and_then(|id| self.case.kit.head(id)).map_or_else(
            || self.word("sheet-take-head-none"),
            |head| head.name.to_string(),
        )
    }

    /// A next shorter implant, which stays closed, with the sites that it would be for.
    fn closed(&self, id: &ImplantId, sites: &[SiteId]) -> String {
        let sites = sites.iter().map(|site| self.site(site));
        let sites = self.joined("load-list", sites).unwrap_or_default();
        let implant = self.case.kit.implant(id);
        let words = if implant.is_some_and(|implant| implant.quantity > 0) {
            "sheet-shorter-at-hand"
        } else {
            "sheet-shorter-lacking"
        };
        self.text(words, &[("implant", &self.implant(id)), ("sites", &sites)])
    }
}

/// The next shorter implants, each with the sites that it would be for.
pub(crate) fn shorter_implants(worksheet: &Worksheet) -> Vec<(ImplantId, Vec<SiteId>)> {
    let mut found: Vec<(ImplantId, Vec<SiteId>)> = Vec::new();
    for sheet in &worksheet.sites {
        let Some(shorter) = &sheet.shorter else {
            continue;
        };
        match found.iter_mut().find(|(id, _)| *id == shorter.implant) {
            Some((_, sites)) => sites.push(sheet.id.clone()),
            None => found.push((shorter.implant.clone(), vec![sheet.id.clone()])),
        }
    }
    found
}
