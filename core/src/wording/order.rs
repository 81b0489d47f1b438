//! The order of use, one line a thing to do.

use super::Formatter;
use super::mm;
use crate::kit::{Label, SiteId, StepId};
use crate::measure::Length;
use crate::plan::{Fits, Known, Operation, StepSheet, Worksheet, holding_by_default};

impl Formatter<'_> {
    /// One thing to do, with the step's setting from the worksheet.
    #[must_use]
    pub fn use_line(&self, one: &Operation, worksheet: &Worksheet) -> String {
        match one {
            Operation::Pin { name } => self.pin_line(name, worksheet),
            Operation::Punch { sites } => {
                let sites = self.joined("load-list", sites.iter().map(|site| self.site(site)));
                // Pins were set with the guide seated.
                let id = if worksheet.pins.is_empty() {
                    "use-punch-seat"
                } else {
                    "use-punch"
                };
                self.text(id, &[("sites", &sites.unwrap_or_default())])
            }
            Operation::Reseat => self.reseat_line(),
            Operation::Sound { sites } => self.sound_line(sites, worksheet),
            Operation::Drill { site, step } => self.drill_line(site, step, worksheet),
            Operation::Insert { site } => self.insert_line(site),
            Operation::GuideOff => self.guide_off_line(),
        }
    }

    fn drill_line(&self, site: &SiteId, step: &StepId, worksheet: &Worksheet) -> String {
        let Some(sheet) = step_sheet(worksheet, site, step) else {
            return self.text("name-no-step", &[("id", step.as_str())]);
        };
        let (place, drill) = (self.site(site), self.drill(&sheet.drill));
        let (path, depth) = (self.guidance(sheet), self.depth(site, sheet));
        let set = sheet.set.known_length();
        let shown = self.set_length_with_unit(&set);
        let mark = self.mark(sheet);
        let id = match (&set, &mark) {
            (Known::Unknown(_), _) => "use-drill-none",
            _ if sheet.fits == Fits::No => "use-drill-does-not-fit",
            (Known::Is(_), Some(_)) => "use-drill-mark",
            (Known::Is(_), None) => "use-drill",
        };
        self.text(
            id,
            &[
                ("site", &place),
                ("drill", &drill),
                ("path", &path),
                ("depth", &depth),
                ("set", &shown),
                ("mark", mark.as_deref().unwrap_or_default()),
                ("rim", &self.rim_of_step(sheet)),
            ],
        )
    }

    fn reseat_line(&self) -> String {
        match self.pins() {
            None => self.word("use-reseat"),
            Some(pins) => self.text("use-reseat-pins", &[("pins", &pins)]),
        }
    }

    /// Seat the guide where nothing seated it before, look at it, sound each site that has a crest
    /// to sound against.
    fn sound_line(&self, sites: &[SiteId], worksheet: &Worksheet) -> String {
        let known = self.joined(
            "load-list",
            soundings(sites, worksheet).filter_map(|(site, size)| {
                let (site, size) = (self.site(site), mm(size?));
                Some(self.text("use-sound-site", &[("site", &site), ("size", &size)]))
            }),
        );
        let known = known.map(|sites| self.text("use-sound", &[("sites", &sites)]));
        self.seat_and(known, sites, worksheet)
    }

    /// The same where the figures have places of their own below the line, with how far off they may be.
    #[must_use]
    pub fn sound_below_line(
        &self,
        sites: &[SiteId],
        worksheet: &Worksheet,
        limit: Option<Length>,
    ) -> String {
        let any = soundings(sites, worksheet).any(|(_, size)| size.is_some());
        let known = any.then(|| match limit {
            Some(limit) => self.text("use-sound-here", &[("limit", &mm(limit))]),
            None => self.word("use-sound-here-no-limit"),
        });
        self.seat_and(known, sites, worksheet)
    }

    fn seat_and(&self, sound: Option<String>, sites: &[SiteId], worksheet: &Worksheet) -> String {
        let unknown = soundings(sites, worksheet).filter(|(_, size)| size.is_none());
        let unknown = self.joined("load-list", unknown.map(|(site, _)| self.site(site)));
        let unknown = unknown.map(|sites| self.text("use-sound-unknown", &[("sites", &sites)]));
        let seat = if worksheet.order.contains(&Operation::Reseat) {
            None
        } else if worksheet.pins.is_empty() {
            Some("use-seat")
        } else {
            Some("use-look")
        };
        // What is below the line ends it.
        let parts = [seat.map(|id| self.word(id)), unknown, sound];
        let line = self.joined("use-then", parts.into_iter().flatten());
        line.unwrap_or_default()
    }

    fn pin_line(&self, name: &Label, worksheet: &Worksheet) -> String {
        let name = ("name", name.as_str());
        let Some(sheet) = worksheet
            .pins
            .iter()
            .find(|pin| pin.name.as_str() == name.1)
        else {
            return self.text("name-no-entry", &[("id", name.1)]);
        };
        let drill = self.drill(&sheet.drill);
        let set = sheet.set.known_length();
        let shown = self.set_length_with_unit(&set);
        let mark = sheet.mark.as_ref().map(|mark| self.mark_edge(mark));
        let (drill, shown) = (("drill", drill.as_str()), ("set", shown.as_str()));
        match (&set, &mark) {
            (Known::Unknown(_), _) => self.text("use-pin-none", &[name, drill]),
            _ if sheet.fits == Fits::No => self.text("use-pin-does-not-fit", &[name, drill]),
            (Known::Is(_), Some(mark)) => {
                self.text("use-pin-mark", &[name, drill, shown, ("mark", mark)])
            }
            (Known::Is(_), None) => self.text("use-pin", &[name, drill, shown]),
        }
    }

    /// Carriers that held the guide come off with it, and its pins before it.
    fn guide_off_line(&self) -> String {
        let held = holding_by_default(self.case);
        let carriers = (!held.is_empty()).then(|| self.word("use-carriers-out"));
        let pins = self.pins();
        let pins = pins.map(|pins| self.text("use-pins-out", &[("pins", &pins)]));
        let parts = carriers.into_iter().chain(pins);
        let parts = parts.chain([self.word("use-guide-off")]);
        parts.collect::<Vec<_>>().join(" ")
    }

    /// The names of the guide's pins.
    fn pins(&self) -> Option<String> {
        let pins = self.case.guide.pins.iter().map(|pin| pin.name.to_string());
        self.joined("use-pins", pins)
    }

    /// That the carrier of an implant that holds the guide stays in; nothing elsewhere.
    #[must_use]
    pub fn carrier_stays(&self, id: &SiteId) -> Option<String> {
        let holds = holding_by_default(self.case).contains(id);
        holds.then(|| self.word("use-carrier-stays"))
    }

    fn insert_line(&self, id: &SiteId) -> String {
        let Some(site) = self.case.site(id.as_str()) else {
            return self.site(id);
        };
        let line = if site.leads_implant() {
            "use-insert-guided"
        } else {
            "use-insert-freehand"
        };
        let implant = self.implant(&site.implant);
        let line = self.text(line, &[("site", &self.site(id)), ("implant", &implant)]);
        match self.carrier_stays(id) {
            Some(stays) => format!("{line} {stays}"),
            None => line,
        }
    }
}

/// The sheet of a step.
pub(super) fn step_sheet<'a>(
    worksheet: &'a Worksheet,
    site: &SiteId,
    step: &StepId,
) -> Option<&'a StepSheet> {
    let site = worksheet.sites.iter().find(|one| one.id == *site)?;
    site.steps.iter().find(|one| one.id == *step)
}

/// The sites to sound, each with its figure where there is one.
fn soundings<'a>(
    sites: &'a [SiteId],
    worksheet: &'a Worksheet,
) -> impl Iterator<Item = (&'a SiteId, Option<Length>)> {
    sites.iter().map(|id| {
        let sheet = worksheet.sites.iter().find(|site| site.id == *id);
        let sounding = sheet.and_then(|sheet| sheet.sounding.as_ref());
        (id, sounding.and_then(|figure| figure.length()))
    })
}
