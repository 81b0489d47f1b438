//! The pages hold together whatever the case.
