//! Names: sites, steps and instruments, each with how it is marked.

use super::Formatter;
use crate::dentition::{ToothPosition, label};
use crate::kit::{
    CarrierId, DrillId, DrillSleeveId, GaugeId, Implant, ImplantId, Label, Marking, MasterSleeveId,
    Shape, SiteId, SlotKind, StepId, StopId,
};
use crate::plan::LoadItem;

impl Shape {
    /// Its name in text ids.
    #[must_use]
    pub(super) const fn key(self) -> &'static str {
        match self {
            Self::Dot => "dot",
            Self::HalfDot => "half_dot",
            Self::Ring => "ring",
            Self::Bar => "bar",
            Self::Triangle => "triangle",
            Self::Diamond => "diamond",
            Self::Square => "square",
            Self::Cross => "cross",
        }
    }
}

macro_rules! entry_names {
    ($($(#[$doc:meta])* $name:ident: $id:ty;)*) => {
        impl Formatter<'_> {
            $($(#[$doc])*
            #[must_use]
            pub fn $name(&self, id: &$id) -> String {
                self.name_or_id(self.case.kit.$name(id).map(|entry| &entry.name), id.as_str())
            })*
        }
    };
}

entry_names! {
    /// The name of a drill.
    drill: DrillId;
    /// The name of a drill sleeve, without its marking.
    drill_sleeve: DrillSleeveId;
    /// The name of a master sleeve.
    master_sleeve: MasterSleeveId;
    /// The name of a gauge.
    gauge: GaugeId;
    /// The name of a carrier.
    carrier: CarrierId;
}

impl Formatter<'_> {
    /// A tooth position in words with its number: "lower right first molar (46)".
    #[must_use]
    pub fn tooth(&self, position: ToothPosition) -> String {
        label(position, self.notation, self.texts)
    }

    /// The number alone of the tooth that a site replaces, where its words stand elsewhere on the page or beside it.
    #[must_use]
    pub fn tooth_number(&self, id: &SiteId) -> String {
        self.case
            .site(id.as_str())
            .map_or_else(|| id.to_string(), |site| self.notation.show(site.tooth))
    }

    /// A site by the tooth that it replaces: "lower right first molar (46)".
    #[must_use]
    pub fn site(&self, id: &SiteId) -> String {
        match self.case.site(id.as_str()) {
            Some(site) => self.tooth(site.tooth),
            None => self.text("name-no-site", &[("id", id.as_str())]),
        }
    }

    /// A step by its drill: "twist 3.1". Where the drill comes more than once in the site's
    /// sequence the depth tells the steps apart.
    #[must_use]
    pub fn step(&self, site: &SiteId, step: &StepId) -> String {
        let site = self.case.site(site.as_str());
        let found = site.and_then(|site| {
            let step = site.steps.iter().find(|one| one.id == *step)?;
            Some((site, step))
        });
        let Some((site, step)) = found else {
            return self.text("name-no-step", &[("id", step.as_str())]);
        };
        let drill = self.drill(&step.drill);
        let often = site.steps.iter().filter(|one| one.drill == step.drill);
        if often.count() < 2 {
            return drill;
        }
        let depth = self.depth_rule(&step.depth);
        self.text("step-with-depth", &[("drill", &drill), ("depth", &depth)])
    }

    /// A stop with its marking: "stop S2 (letter S)".
    #[must_use]
    pub fn stop(&self, id: &StopId) -> String {
        match self.case.kit.stop(id) {
            Some(stop) => self.named(&stop.name, &stop.marking),
            None => self.name_or_id(None, id.as_str()),
        }
    }

    /// A drill sleeve with its marking: "drill sleeve B (letter B, triangle)".
    #[must_use]
    pub fn sleeve(&self, id: &DrillSleeveId) -> String {
        match self.case.kit.drill_sleeve(id) {
            Some(sleeve) => self.named(&sleeve.name, &sleeve.marking),
            None => self.name_or_id(None, id.as_str()),
        }
    }

    /// The marking of an instrument: "letter B, triangle, sand"; nothing where it has none.
    #[must_use]
    pub fn marking(&self, marking: &Marking) -> Option<String> {
        let letter = marking.letter.as_ref();
        let shape = marking.shape.map(Shape::key);
        let colour = marking.colour.as_ref();
        let parts = [
            letter.map(|letter| self.text("marking-letter", &[("letter", letter)])),
            shape.map(|shape| self.word(&format!("shape-{shape}"))),
            colour.map(|colour| self.text("marking-colour", &[("colour", colour)])),
        ];
        self.joined("marking-joined", parts.into_iter().flatten())
    }

    /// A name with its marking: "drill sleeve B (letter B, triangle)".
    #[must_use]
    pub fn named(&self, name: &Label, marking: &Marking) -> String {
        match self.marking(marking) {
            None => name.to_string(),
            Some(marking) => self.text(
                "named-with-marking",
                &[("name", name.as_str()), ("marking", &marking)],
            ),
        }
    }

    /// An implant by its label, with its measured length, which is the one that counts.
    #[must_use]
    pub fn implant_measured(&self, implant: &Implant) -> String {
        let length = crate::number::mm(implant.platform_to_apex_mm);
        let args = [("name", implant.name.as_str()), ("length", &length)];
        self.text("named-implant", &args)
    }

    /// The same of an implant of the case.
    #[must_use]
    pub fn implant(&self, id: &ImplantId) -> String {
        match self.case.kit.implant(id) {
            Some(implant) => self.implant_measured(implant),
            None => self.name_or_id(None, id.as_str()),
        }
    }

    /// The name of a thing for the tray; of an implant with its measured length.
    #[must_use]
    pub fn item(&self, item: &LoadItem) -> String {
        match item.kind {
            SlotKind::Implant => self.implant(&item.entry.as_str().into()),
            _ => item.name.to_string(),
        }
    }

    pub(super) fn name_or_id(&self, name: Option<&Label>, id: &str) -> String {
        match name {
            Some(name) => name.to_string(),
            None => self.text("name-no-entry", &[("id", id)]),
        }
    }
}
