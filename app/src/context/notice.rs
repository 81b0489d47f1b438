//! What the program tells the user, until the next action.

/// A notice to the user.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Notice {
    /// It went well.
    Done(String),
    /// It was not done, and why.
    Refused(String),
}
