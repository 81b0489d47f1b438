//! A case that was checked, and what of it determines a figure.

use super::{CASE_VERSION, Case, RULES_VERSION, SavedFigures, check_case};
use crate::document::{Coverage, Faults, Kind, Kinds};
use crate::kit::{KIT_VERSION, Kit, check_kit};
use crate::order::Objective;
use crate::sign::Fingerprint;
use std::ops::Deref;

/// The case file.
pub const CASE_KIND: Kind = Kind {
    key: "traywright_case",
    name: "case",
    oldest: 1,
    version: CASE_VERSION as u64,
    rules: Some(("rules_version", RULES_VERSION as u64)),
    is_printed: true,
};

/// The kit file.
pub const KIT_KIND: Kind = Kind {
    key: "traywright_kit",
    name: "kit",
    oldest: 1,
    version: KIT_VERSION as u64,
    rules: None,
    is_printed: true,
};

/// Every kind of document that may be given for another.
pub const KINDS: Kinds = &[CASE_KIND, KIT_KIND];

/// A case whose references all lead somewhere and whose values agree: only such a one is worked
/// out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ValidCase(Case);

impl Deref for ValidCase {
    type Target = Case;
    fn deref(&self) -> &Case {
        &self.0
    }
}

impl TryFrom<Case> for ValidCase {
    type Error = Faults;

    /// # Errors
    ///
    /// All faults of the case.
    fn try_from(case: Case) -> Result<Self, Faults> {
        match Faults::from_list(check_case(&case), 0, Coverage::Whole) {
            None => Ok(Self::of(case)),
            Some(faults) => Err(faults),
        }
    }
}

/// Reads a case file.
///
/// # Errors
///
/// All faults of the document.
pub fn read_case(bytes: &[u8]) -> Result<ValidCase, Faults> {
    let read = crate::document::read::<Case>(bytes, &CASE_KIND, KINDS, check_case);
    read.map(ValidCase::of)
}

/// Reads a kit file.
///
/// # Errors
///
/// All faults of the document.
pub fn read_kit(bytes: &[u8]) -> Result<Kit, Faults> {
    crate::document::read::<Kit>(bytes, &KIT_KIND, KINDS, |kit| {
        check_kit(kit, &crate::document::Path::root())
    })
}

/// The extent of the plan code, by number. 1: what determines a figure. 2: and all else that a hand acts on, which
/// are the names of instruments, what is done after a step, irrigation, the code on the guide and the date of the scan.
/// It rises whenever [`is_left_out`] changes; what was approved by a narrower one has lapsed.
pub const PLAN_CODE_COVERS: u32 = 2;

/// True if neither a figure nor a hand depends on a key: notes, sources, people, decisions (which an approval names
/// by themselves), wishes for the order, revisions, the case's reference, the kit's name and what its drills wear, which no
/// case copies.
fn is_left_out(above: &[&'static str], key: &str) -> bool {
    let here = match above {
        [] => matches!(
            key,
            "reference"
                | "other_jaw_case"
                | "revision"
                | "team"
                | "judgements"
                | "run"
                | "saved_figures"
                | "saves"
        ),
        ["kit"] => matches!(key, "revision" | "name" | "wear"),
        _ => false,
    };
    here || matches!(key, "note" | "source")
}

/// As [`is_left_out`], where least time is wished: then a drill may go through its settings in another
/// way with other weights of a mount and a re-set (`PieceRates` of the order).
fn is_left_out_in_least_time(above: &[&'static str], key: &str) -> bool {
    match above {
        [] if key == "run" => false,
        ["run"] => !matches!(key, "objective" | "weights"),
        ["run", "weights"] => !matches!(key, "mount_ds" | "reset_ds"),
        _ => is_left_out(above, key),
    }
}

impl ValidCase {
    /// A case that was checked, without what an older program kept of a guide where that leads nothing.
    fn of(mut case: Case) -> Self {
        case.forget_readings_not_led();
        Self(case)
    }

    /// A case that holds nothing which its file could not: not only its references, also every
    /// value's range and form are checked, in the same way as those of a file.
    ///
    /// # Errors
    ///
    /// All faults of the case.
    ///
    /// # Panics
    ///
    /// Never: a case has nothing that JSON cannot hold.
    pub fn checked(case: &Case) -> Result<Self, Faults> {
        let text = crate::document::print(case).expect("a case can be written as JSON");
        read_case(text.as_bytes())
    }

    /// Sets the revision; nothing else of a valid case depends on it.
    pub(super) fn set_revision(&mut self, revision: u32) {
        self.0.revision = revision;
    }

    /// The same case with what was worked out when it was saved.
    #[must_use]
    pub(crate) fn with_saved(mut self, figures: Option<SavedFigures>) -> Self {
        self.0.saved_figures = figures;
        self
    }

    /// The same case with the implants for which one of two sides had no kit at hand, as long as a site has them.
    #[must_use]
    pub(super) fn with_not_at_hand(mut self, sides: [&Self; 2]) -> Self {
        self.0.chosen_on_either([sides[0], sides[1]]);
        self
    }

    /// The same case with the readings by which a guide that is set back leads the platforms, whichever side a site is of.
    #[must_use]
    pub(super) fn with_readings_of(mut self, sides: [&Self; 2]) -> Self {
        self.0.keep_readings_of([sides[0], sides[1]]);
        self
    }

    /// The same case with what was cut before a change of the plan, on either side: whichever side a site is of, what is in the bone
    /// is there.
    #[must_use]
    pub(super) fn with_cuts_of(mut self, base: &Self, sides: [&Self; 2]) -> Self {
        self.0.keep_cuts_of(base, [sides[0], sides[1]]);
        self
    }

    /// The same case as a desk saves it: with the saves of both versions, and this one.
    #[must_use]
    pub fn saved_at(mut self, by: &super::SavedAt, before: Option<&Self>) -> Self {
        self.0.saves = super::saved::saves_of(&self, before, by);
        self
    }

    /// The case by itself, to be changed and checked anew.
    #[must_use]
    pub fn into_case(self) -> Case {
        self.0
    }

    /// Short name of all that determines a figure or that a hand acts on, and of whether it is for practice: no
    /// note, source, person, decision or revision of a document ([`PLAN_CODE_COVERS`]).
    #[must_use]
    pub fn fingerprint(&self) -> Fingerprint {
        // The rules are those by which it is worked out here, whatever those of the file.
        if self.rules_version == RULES_VERSION {
            return self.fingerprint_of_its_rules();
        }
        let mut of_these = self.clone();
        of_these.0.rules_version = RULES_VERSION;
        of_these.fingerprint_of_its_rules()
    }

    /// The same by the rules that the file names.
    #[must_use]
    pub(crate) fn fingerprint_of_its_rules(&self) -> Fingerprint {
        let left_out = match self.run.objective {
            Objective::FewestResets => is_left_out,
            Objective::LeastTime => is_left_out_in_least_time,
        };
        Fingerprint::without(&self.0, left_out)
    }
}
