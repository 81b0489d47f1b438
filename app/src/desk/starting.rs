//! Cases to start from: a new one, or one of the invented ones that come with the program.

use traywright_core::case::{
    Access, Case, Guide, GuideState, KitNotAtHand, Setup, Support, Team, UseOrder, ValidCase,
    default_limits,
};
use traywright_core::case::{read_case, read_kit};
use traywright_core::dentition::Jaw;
use traywright_core::document::Faults;
use traywright_core::kit::{Kit, Label};

macro_rules! demos {
    ($($name:literal),+ $(,)?) => {
        &[$(($name, include_bytes!(concat!("../../../demo/", $name, ".json")))),+]
    };
}

/// The invented cases, by the name of their file.
pub const DEMOS: &[(&str, &[u8])] = demos![
    "one-premolar",
    "two-molars",
    "full-arch-upper",
    "fixed-stops",
    "upper-face-gauge",
    "fresh-socket",
    "one-figure",
];

/// The invented kit.
///
/// # Panics
///
/// Never: it is part of the program and a test reads it.
#[must_use]
pub fn demo_kit() -> Kit {
    read_kit(include_bytes!("../../../demo/kit.json")).expect("the invented kit can be read")
}

/// One of the invented cases.
///
/// # Panics
///
/// Never: they are part of the program and a test reads them.
#[must_use]
pub fn demo_case(bytes: &[u8]) -> ValidCase {
    read_case(bytes).expect("the invented cases can be read")
}

/// Entries of a new case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewCase {
    /// A code for it, not a name.
    pub reference: String,
    /// The jaw.
    pub jaw: Jaw,
    /// The support of the guide.
    pub support: Support,
    /// The access to the bone.
    pub access: Access,
    /// For practice.
    pub demonstration: bool,
}

/// A case without sites, with a kit's gauge and tray where it has only one of the kind; no head.
///
/// # Errors
///
/// The faults, such as a reference that is empty.
pub fn new_case(new: &NewCase, kit: &Kit) -> Result<ValidCase, Faults> {
    let mut case = Case {
        traywright_case: traywright_core::case::CASE_VERSION,
        rules_version: traywright_core::case::RULES_VERSION,
        reference: Label::from(new.reference.trim()),
        demonstration: new.demonstration,
        jaw: new.jaw,
        other_jaw_case: None,
        revision: 0,
        guide: Guide {
            support: new.support,
            access: new.access,
            state: GuideState::Planned,
            scan_date: None,
            code: None,
            pins: Vec::new(),
            receipt: Vec::new(),
            made_by: None,
            is_made_unrecorded: false,
        },
        team: Team::default(),
        arch: None,
        teeth: Vec::new(),
        setup: Setup {
            gauge: only(&kit.gauges).map(|gauge| gauge.id.clone()),
            // Which head is in the handpiece that day nobody knows beforehand.
            head: None,
            tray: only(&kit.trays).map(|tray| tray.id.clone()),
            use_order: UseOrder::SiteBySite,
        },
        sites: Vec::new(),
        limits: default_limits(),
        judgements: Vec::new(),
        run: traywright_core::case::RunWishes::default(),
        accepted_order: Vec::new(),
        tray_places: Vec::new(),
        note: None,
        saved_figures: None,
        saves: Vec::new(),
        kit_not_at_hand: KitNotAtHand::default(),
        kit: kit.clone(),
    };
    case.kit = kit.for_case(&case);
    ValidCase::checked(&case)
}

/// The one entry of a list that has no other.
fn only<T>(list: &[T]) -> Option<&T> {
    match list {
        [one] => Some(one),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_with_the_program_can_be_read() {
        let kit = demo_kit();
        for (name, bytes) in DEMOS {
            assert!(demo_case(bytes).demonstration, "{name}");
        }
        let new = NewCase {
            reference: "K-1".to_owned(),
            jaw: Jaw::Lower,
            support: Support::Teeth,
            access: Access::Flap,
            demonstration: true,
        };
        assert_eq!(new_case(&new, &kit).unwrap().sites.len(), 0);
        let nameless = NewCase {
            reference: " ".to_owned(),
            ..new
        };
        assert!(new_case(&nameless, &kit).is_err());
    }
}
