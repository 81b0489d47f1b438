//! The day of surgery as it is recorded: which step was done, left out or taken back, and what it brought.
//!
//! A step is named by what a hand does in it ([`StepKey`]): site, drill, sleeve, stop and setting as the plan had them then.
//! Under another plan it is another step, so that an old event never says that something new was done.

mod counted;
mod done;
mod key;

pub use counted::{CountKind, CountLine, Counted};
pub use done::{
    Approved, ByHand, Inserted, InsertionWay, Sounded, StepDone, StepSkipped, StepTakenBack,
    SurgeryBegun,
};
pub use key::{DrillUse, Led, SiteKey, StepKey, WhichGuide};
