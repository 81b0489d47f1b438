//! The part of a kit that a case keeps as its own copy.
//!
//! Every kept entry is an exact copy, never a trimmed one, so that it can be compared with the
//! live kit entry by entry. Whatever a kept entry names is kept too; nothing dangles.

use crate::case::Case;
use crate::kit::{
    CarrierId, DepthRule, DrillSleeveId, Implant, ImplantId, Kit, Label, MasterSleeveId, Protocol,
    ProtocolId, StopId, StopKind, Wear,
};
use std::collections::BTreeSet;

impl Kit {
    /// The entries of this kit that a case uses, in the order of this kit:
    ///
    /// - implants: those of the sites and all others of their families, among which the next
    ///   shorter, longer or narrower one is looked for;
    /// - drills, drill sleeves, master sleeves and stops of the sites, their steps and pins;
    /// - the drills to which the kit's final diameters lead where no protocol ends the bore, against which the last one
    ///   of a site is held;
    /// - protocols for the sites' implants in any density, and those that a site names;
    /// - carriers and drivers for the families, and the carriers that a site names;
    /// - gauge, head and tray of the setup; pins of the guide; all accessories;
    /// - whatever one of these names in turn.
    ///
    /// What its drills wear is no part of a case.
    ///
    /// Entries that this kit lacks are left out; checking the case then reports them.
    #[must_use]
    pub fn for_case(&self, case: &Case) -> Self {
        let mut used = Used::default();
        used.by_case(case);
        used.by_kit(self);
        let families = &used.families;
        let of_family = |of: &[Label]| of.iter().any(|family| families.contains(family.as_str()));
        macro_rules! kept {
            ($list:ident) => {
                kept(&self.$list, |entry| used.$list.contains(entry.id.as_str()))
            };
        }
        Self {
            traywright_kit: self.traywright_kit,
            id: self.id.clone(),
            name: self.name.clone(),
            revision: self.revision.clone(),
            demonstration: self.demonstration,
            allowances: self.allowances.clone(),
            implants: kept!(implants),
            drills: kept!(drills),
            drill_sleeves: kept!(drill_sleeves),
            master_sleeves: kept!(master_sleeves),
            stops: kept!(stops),
            gauges: kept(&self.gauges, |e| case.setup.gauge.as_ref() == Some(&e.id)),
            carriers: kept(&self.carriers, |e| {
                of_family(&e.families) || used.carriers.contains(e.id.as_str())
            }),
            heads: kept(&self.heads, |e| case.setup.head.as_ref() == Some(&e.id)),
            drivers: kept(&self.drivers, |e| {
                e.families.is_empty() || of_family(&e.families)
            }),
            pins: kept!(pins),
            accessories: self.accessories.clone(),
            protocols: kept!(protocols),
            trays: kept(&self.trays, |e| case.setup.tray.as_ref() == Some(&e.id)),
            wear: Wear::default(),
            note: self.note.clone(),
        }
    }
}

fn kept<T: Clone>(list: &[T], keep: impl Fn(&T) -> bool) -> Vec<T> {
    list.iter().filter(|entry| keep(entry)).cloned().collect()
}

/// Ids of what is used, one set for each list of the kit that entries refer to.
#[derive(Debug, Default)]
struct Used<'a> {
    families: BTreeSet<&'a str>,
    implants: BTreeSet<&'a str>,
    drills: BTreeSet<&'a str>,
    drill_sleeves: BTreeSet<&'a str>,
    master_sleeves: BTreeSet<&'a str>,
    stops: BTreeSet<&'a str>,
    carriers: BTreeSet<&'a str>,
    pins: BTreeSet<&'a str>,
    protocols: BTreeSet<&'a str>,
}

impl<'a> Used<'a> {
    /// Adds the entries that the case itself names.
    fn by_case(&mut self, case: &'a Case) {
        for site in &case.sites {
            self.implants.insert(site.implant.as_str());
            self.master_sleeves.insert(site.master_sleeve.as_str());
            self.protocols
                .extend(site.protocol.iter().map(ProtocolId::as_str));
            let insertion = &site.insertion;
            self.carriers
                .extend(insertion.carrier.iter().map(CarrierId::as_str));
            self.drill_sleeves
                .extend(insertion.sleeve.iter().map(DrillSleeveId::as_str));
            for step in &site.steps {
                self.drills.insert(step.drill.as_str());
                self.drill_sleeves
                    .extend(step.sleeve.iter().map(DrillSleeveId::as_str));
                self.stops.extend(step.stop.iter().map(StopId::as_str));
            }
        }
        let pins = case.guide.pins.iter();
        self.pins.extend(pins.map(|placed| placed.pin.as_str()));
    }

    /// Adds the drills to which the kit's final diameters lead for the sites' implants, where no protocol of the kit
    /// says how the bore ends.
    fn by_final_diameters(&mut self, kit: &'a Kit) {
        let is_used = |implant: &&Implant| self.implants.contains(implant.id.as_str());
        let mut drills = Vec::new();
        for implant in kit.implants.iter().filter(is_used) {
            for rule in &kit.allowances.final_diameter {
                let by_protocol = |protocol: &Protocol| {
                    protocol.implants.contains(&implant.id)
                        && protocol.is_held_against(rule.density)
                        && ends_the_bore(kit, protocol)
                };
                if !kit.protocols.iter().any(by_protocol) {
                    drills.extend(kit.last_drill(implant.diameter_mm - rule.below_implant_mm));
                }
            }
        }
        self.drills
            .extend(drills.iter().map(|drill| drill.id.as_str()));
    }

    /// Adds the entries that the used entries of the kit name. The order matters: each list comes
    /// after those whose entries name its own.
    fn by_kit(&mut self, kit: &'a Kit) {
        for implant in &kit.implants {
            if self.implants.contains(implant.id.as_str()) {
                self.families.insert(implant.family.as_str());
            }
        }
        self.by_final_diameters(kit);
        for protocol in &kit.protocols {
            let for_a_site = protocol
                .implants
                .iter()
                .any(|id| self.implants.contains(id.as_str()));
            if for_a_site {
                self.protocols.insert(protocol.id.as_str());
            }
        }
        // Only now the rest of the families, whose own protocols are not the case's.
        for implant in &kit.implants {
            if self.families.contains(implant.family.as_str()) {
                self.implants.insert(implant.id.as_str());
            }
        }
        for protocol in &kit.protocols {
            if !self.protocols.contains(protocol.id.as_str()) {
                continue;
            }
            self.implants
                .extend(protocol.implants.iter().map(ImplantId::as_str));
            self.drill_sleeves
                .extend(protocol.insertion_sleeve.iter().map(DrillSleeveId::as_str));
            for step in &protocol.steps {
                self.drills.insert(step.drill.as_str());
                self.drill_sleeves
                    .extend(step.sleeve.iter().map(DrillSleeveId::as_str));
            }
        }
        for sleeve in &kit.drill_sleeves {
            if self.drill_sleeves.contains(sleeve.id.as_str()) {
                self.master_sleeves
                    .extend(sleeve.fits.iter().map(MasterSleeveId::as_str));
            }
        }
        for pin in &kit.pins {
            if self.pins.contains(pin.id.as_str()) {
                self.stops.extend(pin.stop.iter().map(StopId::as_str));
            }
        }
        for stop in &kit.stops {
            if let StopKind::Fixed { lengths } = &stop.depth
                && self.stops.contains(stop.id.as_str())
            {
                self.drills
                    .extend(lengths.iter().map(|length| length.drill.as_str()));
            }
        }
        for pin in &kit.pins {
            if self.pins.contains(pin.id.as_str()) {
                self.drills.insert(pin.drill.as_str());
            }
        }
    }
}

fn ends_the_bore(kit: &Kit, protocol: &Protocol) -> bool {
    protocol.steps.iter().any(|step| {
        let drill = kit.drill(&step.drill);
        step.depth == DepthRule::Full {} && drill.is_some_and(|drill| drill.kind.makes_the_bore())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::Path;
    use crate::kit::{GaugeId, check_kit};
    use crate::samples::{demo, demo_case, demo_kit};

    fn case() -> Case {
        demo_case(demo::ONE_PREMOLAR).into_case()
    }

    fn ids<T>(list: &[T], id: impl Fn(&T) -> &str) -> Vec<&str> {
        list.iter().map(id).collect()
    }

    #[test]
    fn the_whole_family_is_kept_and_no_other() {
        let kept = demo_kit().for_case(&case());
        let all = demo_kit();
        let reed = all.implants.iter().filter(|i| i.family.as_str() == "Reed");
        assert!(kept.implants.iter().eq(reed));
        assert!(kept.implants.len() < all.implants.len());
    }

    #[test]
    fn protocols_are_those_for_the_sites_implants_with_all_that_they_name() {
        let kept = demo_kit().for_case(&case());
        let protocols = ids(&kept.protocols, |e| e.id.as_str());
        assert_eq!(protocols, ["reed-363-firm", "reed-363-soft"]);
        let drills = ids(&kept.drills, |e| e.id.as_str());
        assert_eq!(drills, ["pilot-213", "tip-257", "tip-316"]);
        let sleeves = ids(&kept.drill_sleeves, |e| e.id.as_str());
        assert_eq!(sleeves, ["narrow-213", "narrow-257", "narrow-316"]);
        assert_eq!(ids(&kept.master_sleeves, |e| e.id.as_str()), ["narrow"]);
    }

    #[test]
    fn a_protocol_that_a_site_names_is_kept_with_its_implants() {
        let mut case = case();
        case.sites[0].protocol = Some("sloe-512".into());
        let kept = demo_kit().for_case(&case);
        let protocols = ids(&kept.protocols, |e| e.id.as_str());
        assert_eq!(protocols, ["reed-363-firm", "reed-363-soft", "sloe-512"]);
        let sloe = kept.implants.iter().filter(|i| i.family.as_str() == "Sloe");
        let sloe: Vec<_> = sloe.map(|i| i.diameter_mm.um()).collect();
        assert_eq!(sloe, [5120; 4]);
        assert_eq!(check_kit(&kept, &Path::root()), []);
    }

    #[test]
    fn a_fixed_stop_brings_every_drill_that_it_gives_a_length_on() {
        let mut all = demo_kit();
        let stop = StopId::from("groove-213");
        let drill = &all.drill(&"tip-407".into()).unwrap().id.clone();
        for entry in &mut all.stops {
            if let StopKind::Fixed { lengths } = &mut entry.depth
                && entry.id == stop
            {
                lengths[0].drill = drill.clone();
            }
        }
        let mut case = case();
        case.sites[0].steps[0].stop = Some(stop);
        let kept = all.for_case(&case);
        assert!(kept.drill(drill).is_some());
        assert_eq!(check_kit(&kept, &Path::root()), []);
    }

    #[test]
    fn carriers_and_drivers_go_by_family_and_the_rest_by_choice() {
        let mut case = case();
        let kept = demo_kit().for_case(&case);
        let carriers = ids(&kept.carriers, |e| e.id.as_str());
        assert_eq!(carriers, ["reed-narrow", "reed-wide"]);
        let drivers = ids(&kept.drivers, |e| e.id.as_str());
        assert_eq!(drivers, ["driver-hand", "driver-reed", "driver-cover"]);
        assert_eq!(ids(&kept.gauges, |e| e.id.as_str()), ["bench-gauge"]);
        assert_eq!(kept.accessories, demo_kit().accessories);
        assert!(kept.pins.is_empty());

        case.setup.gauge = Some(GaugeId::from("tower-gauge"));
        case.setup.head = None;
        case.setup.tray = None;
        let kept = demo_kit().for_case(&case);
        assert_eq!(ids(&kept.gauges, |e| e.id.as_str()), ["tower-gauge"]);
        assert!(kept.heads.is_empty() && kept.trays.is_empty());
    }

    #[test]
    fn a_pin_brings_its_drill() {
        let kept = demo_kit().for_case(&demo_case(demo::FULL_ARCH_UPPER));
        assert_eq!(ids(&kept.pins, |e| e.id.as_str()), ["pin-162"]);
        assert!(kept.drill(&"pin-157".into()).is_some());
    }

    #[test]
    fn a_copy_of_a_copy_is_the_same() {
        let once = demo_kit().for_case(&case());
        assert_eq!(once.for_case(&case()), once);
    }
}
