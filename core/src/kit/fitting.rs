//! Parts of a kit that go together.

use super::{AccessoryKind, ImplantId, Kit, MasterSleeve};

impl Kit {
    /// True if an accessory is a spare of what has this name: one for that, with the name in its own.
    #[must_use]
    pub fn is_spare_of(&self, accessory: &str, name: &str) -> bool {
        let mut entries = self.accessories.iter();
        let entry =
            entries.find(|one| one.id.as_str() == accessory && one.kind == AccessoryKind::Spare);
        entry.is_some_and(|one| {
            one.name
                .as_str()
                .to_lowercase()
                .contains(&name.to_lowercase())
        })
    }

    /// The master sleeves that the drill sleeves of an implant's protocols fit, in the order of the
    /// kit. Empty where the kit has no protocol for it: then nothing is known of what fits.
    #[must_use]
    pub fn master_sleeves_for(&self, implant: &ImplantId) -> Vec<&MasterSleeve> {
        let protocols = self.protocols.iter();
        let steps = protocols
            .filter(|protocol| protocol.implants.contains(implant))
            .flat_map(|protocol| &protocol.steps);
        let sleeves: Vec<_> = steps
            .filter_map(|step| self.drill_sleeve(step.sleeve.as_ref()?))
            .collect();
        let fits = |master: &&MasterSleeve| {
            !sleeves.is_empty()
                && sleeves
                    .iter()
                    .all(|sleeve| sleeve.fits.contains(&master.id))
        };
        self.master_sleeves.iter().filter(fits).collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::samples::demo_kit;

    #[test]
    fn a_master_sleeve_fits_where_every_drill_sleeve_of_the_protocols_does() {
        let mut kit = demo_kit();
        let ids = |kit: &crate::kit::Kit, implant: &str| -> Vec<String> {
            let found = kit.master_sleeves_for(&implant.into());
            found.iter().map(|master| master.id.to_string()).collect()
        };
        assert_eq!(ids(&kit, "reed-363-91"), ["narrow"]);
        assert_eq!(ids(&kit, "no-such"), Vec::<String>::new());
        // One drill sleeve of the sequence that fits another master sleeve only: nothing fits all.
        let sleeve = kit
            .drill_sleeves
            .iter_mut()
            .find(|sleeve| sleeve.id.as_str() == "narrow-257");
        sleeve.unwrap().fits = vec!["wide".into()];
        assert_eq!(ids(&kit, "reed-363-91"), Vec::<String>::new());
    }
}
