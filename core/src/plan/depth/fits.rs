//! The use of a drill, by whether it fits.

/// The use of a drill with its stop and sleeves as the plan has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fits {
    /// Nothing is known to speak against it.
    AsFarAsKnown,
    /// It does not fit, and nobody accepted that: nothing is set and nothing drilled.
    No,
}
