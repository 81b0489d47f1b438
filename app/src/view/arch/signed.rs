//! A size with a side: "0.2 mm to mesial" is entered as a side and a number, never as a sign.

use crate::field::{self, Bounds, Drafts, New};
use egui::{Id, Ui};
use std::collections::BTreeMap;
use traywright_core::measure::{Angle, Length};

/// Sides that were chosen for sizes that are still zero, by the field's key.
pub(super) type Sides = BTreeMap<String, Side>;

/// One of two sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// The side on which the size counts down.
    Minus,
    /// The side on which it counts up.
    Plus,
}

/// A size that has a side.
pub(super) trait Sided: Copy + PartialEq {
    const ZERO: Self;
    fn side(self) -> Option<Side>;
    fn towards(self, side: Side) -> Self;
    fn size(self) -> Self;
    fn field(
        ui: &mut Ui,
        drafts: &mut Drafts,
        key: &str,
        named: Id,
        size: Self,
        most: Self,
    ) -> Option<Self>;
}

macro_rules! sided {
    ($type:ty, $field:ident) => {
        impl Sided for $type {
            const ZERO: Self = <$type>::ZERO;

            fn side(self) -> Option<Side> {
                match self.cmp(&<$type>::ZERO) {
                    std::cmp::Ordering::Less => Some(Side::Minus),
                    std::cmp::Ordering::Equal => None,
                    std::cmp::Ordering::Greater => Some(Side::Plus),
                }
            }

            fn towards(self, side: Side) -> Self {
                match side {
                    Side::Minus => -self.abs(),
                    Side::Plus => self.abs(),
                }
            }

            fn size(self) -> Self {
                self.abs()
            }

            fn field(
                ui: &mut Ui,
                drafts: &mut Drafts,
                key: &str,
                named: Id,
                size: Self,
                most: Self,
            ) -> Option<Self> {
                let bounds = Bounds::needed(<$type>::ZERO, most);
                let New(taken) = field::$field(ui, drafts, key, named, Some(size), bounds)?;
                taken
            }
        }
    };
}

sided!(Length, length);
sided!(Angle, angle);

/// The subject of a sided field.
pub(super) struct Asked<'a, T> {
    /// Its key.
    pub(super) key: &'a str,
    /// Its label.
    pub(super) label: &'a str,
    /// Its value.
    pub(super) value: T,
    /// The greatest size.
    pub(super) most: T,
    /// The two sides in words; the second counts up.
    pub(super) sides: &'a [String; 2],
    /// The words for a size without a side.
    pub(super) no_side: &'a str,
}

/// A field for a size with a side. Gives the new value when one was taken.
pub(super) fn field<T: Sided>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    chosen: &mut Sides,
    asked: &Asked<'_, T>,
) -> Option<T> {
    let mut taken = None;
    field::row(ui, asked.label, |ui, named| {
        ui.horizontal_wrapped(|ui| {
            let now = asked.value.side().or(chosen.get(asked.key).copied());
            for (side, word) in [Side::Minus, Side::Plus].into_iter().zip(asked.sides) {
                let button = ui.selectable_label(now == Some(side), word);
                let name = format!("{}: {word}", asked.label);
                let button = button.accessible_name(name);
                if button.clicked() && now != Some(side) {
                    if asked.value == T::ZERO {
                        chosen.insert(asked.key.to_owned(), side);
                    } else {
                        taken = Some(asked.value.towards(side));
                    }
                }
            }
            let size = asked.value.size();
            let Some(new) = T::field(ui, drafts, asked.key, named, size, asked.most) else {
                return;
            };
            taken = turned(new, now);
            if taken.is_none() {
                drafts.refuse(asked.key, asked.no_side.to_owned());
            } else {
                chosen.remove(asked.key);
            }
        });
    });
    taken
}

/// A size towards a side; without a side only zero is one.
fn turned<T: Sided>(size: T, side: Option<Side>) -> Option<T> {
    match side {
        Some(side) => Some(size.towards(side)),
        None => (size == T::ZERO).then_some(size),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_without_a_side_is_not_taken() {
        let mm = Length::from_mm(2);
        assert_eq!(turned(mm, None), None);
        assert_eq!(turned(Length::ZERO, None), Some(Length::ZERO));
        assert_eq!(turned(mm, Some(Side::Minus)), Some(-mm));
        assert_eq!(turned(mm, Some(Side::Plus)), Some(mm));
        let four = Angle::from_deg(4);
        assert_eq!(turned(four, Some(Side::Minus)), Some(Angle::from_deg(-4)));
    }

    #[test]
    fn a_value_shows_its_side() {
        assert_eq!(Length::from_um(-1).side(), Some(Side::Minus));
        assert_eq!(Length::ZERO.side(), None);
        assert_eq!(Angle::from_deg(3).side(), Some(Side::Plus));
    }
}
