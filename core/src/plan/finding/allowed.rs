//! What only an allowance of the kit lets pass that is looser than usual.

use super::{Finding, Loosened, Verdict};
use crate::kit::{Clearance, usual_allowances};
use crate::measure::Length;
use crate::plan::figure::Quantity;

/// A value held against an allowance of the kit, and against the usual one.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct Allowed {
    /// The allowance's key in the kit.
    pub(in crate::plan) key: &'static str,
    /// True if the kit allows it.
    pub(in crate::plan) by_kit: bool,
    /// True if the usual allowance does.
    pub(in crate::plan) by_usual: bool,
    /// The usual allowance.
    pub(in crate::plan) usual: Length,
}

impl Allowed {
    /// A difference between two diameters, held against a clearance of the kit.
    pub(in crate::plan) fn clearance(
        key: &'static str,
        kit: Clearance,
        usual: Clearance,
        is: Length,
    ) -> Self {
        Self {
            key,
            by_kit: kit.allows(is),
            by_usual: usual.allows(is),
            usual: usual.nearest(is),
        }
    }

    /// What runs in a bore that leads it.
    pub(in crate::plan) fn guided(kit: Clearance, is: Length) -> Self {
        let usual = usual_allowances().guided_clearance;
        Self::clearance("guided_clearance", kit, usual, is)
    }

    /// A least that there has to be: so much by the kit, so much usually.
    pub(in crate::plan) fn least(
        key: &'static str,
        kit: Length,
        usual: Length,
        is: Length,
    ) -> Self {
        Self {
            key,
            by_kit: is >= kit,
            by_usual: is >= usual,
            usual,
        }
    }

    /// A finding with this verdict where the kit does not allow it, worth knowing where only the kit
    /// does; nothing where it is usual.
    pub(in crate::plan) fn told(
        self,
        finding: impl FnOnce() -> Finding,
        verdict: Verdict,
    ) -> Option<Finding> {
        if !self.by_kit {
            return Some(finding().verdict(verdict));
        }
        (!self.by_usual).then(|| Finding {
            loosened: Some(Loosened {
                limit: self.key,
                own: Quantity::Length(self.usual),
            }),
            ..finding().verdict(Verdict::Note)
        })
    }
}
