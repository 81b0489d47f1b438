//! The parts that a person chooses to print.

/// A part of the paper that is printed by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SheetPart {
    /// The theatre form: team check, second reading and counts, loading, order of use.
    Form,
    /// The true-scale strip.
    Strip,
    /// The surgeon's pages: the plan at a glance with its limits, the changes between the steps, the
    /// sites.
    Annex,
}

impl SheetPart {
    /// All parts, in the order in which they are printed.
    pub const ALL: [Self; 3] = [Self::Form, Self::Strip, Self::Annex];
}

/// The boxes for readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Readings {
    /// Empty, to be written in by hand.
    #[default]
    Blank,
    /// With what the record has: each figure with who and when, or that it is not recorded.
    Filled,
}

/// The parts that are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Parts([bool; 3]);

impl Parts {
    /// All of them.
    pub const ALL: Self = Self([true; 3]);

    /// These alone.
    #[must_use]
    pub fn of(parts: impl IntoIterator<Item = SheetPart>) -> Self {
        let mut chosen = Self([false; 3]);
        for part in parts {
            chosen.0[part as usize] = true;
        }
        chosen
    }

    /// True if this one is printed.
    #[must_use]
    pub const fn holds(self, part: SheetPart) -> bool {
        self.0[part as usize]
    }

    /// The same with one more, or without the one that was there; the last one stays.
    #[must_use]
    pub fn turned(mut self, part: SheetPart) -> Self {
        let before = self;
        self.0[part as usize] = !self.0[part as usize];
        if self.0.contains(&true) { self } else { before }
    }

    /// Those that are printed, in their order.
    pub fn iter(self) -> impl Iterator<Item = SheetPart> {
        SheetPart::ALL
            .into_iter()
            .filter(move |part| self.holds(*part))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_part_stays_chosen() {
        let form = Parts::of([SheetPart::Form]);
        assert_eq!(form.turned(SheetPart::Form), form);
        let two = form.turned(SheetPart::Annex);
        assert!(two.holds(SheetPart::Form) && two.holds(SheetPart::Annex));
        assert!(!two.holds(SheetPart::Strip));
        assert_eq!(two.turned(SheetPart::Annex), form);
        assert_eq!(Parts::of(SheetPart::ALL), Parts::ALL);
        assert_eq!(Parts::ALL.iter().collect::<Vec<_>>(), SheetPart::ALL);
    }
}
