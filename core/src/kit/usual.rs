//! The allowances that are usual, by which those of a kit are told that are looser.

use super::Allowances;
use std::sync::LazyLock;

static USUAL: LazyLock<Allowances> = LazyLock::new(|| {
    serde_json::from_str(include_str!("../../../assets/allowances.json"))
        .expect("the allowances that ship with the program can be read")
});

/// The usual allowances, from `assets/allowances.json`: a kit's own count, and one that is looser is told where it
/// lets something pass.
///
/// # Panics
///
/// Never: the file is part of the program and a test reads it.
#[must_use]
pub fn usual_allowances() -> &'static Allowances {
    &USUAL
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::samples::demo_kit;

    /// The invented kit is no looser than usual in anything.
    #[test]
    fn the_usual_allowances_can_be_read_and_the_demo_kit_keeps_to_them() {
        let (usual, demo) = (usual_allowances(), demo_kit().allowances);
        for (usual, demo) in [
            (usual.guided_clearance, demo.guided_clearance),
            (usual.sleeve_clearance, demo.sleeve_clearance),
            (usual.stop_clearance, demo.stop_clearance),
        ] {
            assert!(usual.allows(demo.least_mm) && usual.allows(demo.most_mm));
        }
        assert!(demo.least_landing_mm >= usual.least_landing_mm);
        assert!(demo.flute_reserve_mm >= usual.flute_reserve_mm);
        assert!(demo.largest_step_mm <= usual.largest_step_mm);
    }
}
