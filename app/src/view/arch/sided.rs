//! A size with a side: "0.2 mm to mesial" is entered as a side and a number, never as a sign.

use super::State;
use crate::context::CaseContext;
use crate::field::{self, Drafts, InCase, Quantity};
use crate::view::form::{Entry, Form, FormSubject};
use egui::Ui;
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::ops::Neg;

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
pub(super) trait Sided: Quantity + Neg<Output = Self> {
    fn side(self) -> Option<Side> {
        match self.partial_cmp(&Self::ZERO)? {
            Ordering::Less => Some(Side::Minus),
            Ordering::Equal => None,
            Ordering::Greater => Some(Side::Plus),
        }
    }

    fn towards(self, side: Side) -> Self {
        match side {
            Side::Minus => -self.size(),
            Side::Plus => self.size(),
        }
    }

    fn size(self) -> Self {
        if self < Self::ZERO { -self } else { self }
    }
}

impl<T: Quantity + Neg<Output = T>> Sided for T {}

/// The subject of a sided field.
struct SidedField<'a, T> {
    /// Its key.
    key: &'a str,
    /// Its label.
    label: &'a str,
    /// What it is called where that is more than its label.
    name: Option<String>,
    /// Its value.
    value: T,
    /// Its place in the case.
    place: InCase,
    /// The two sides in words; the second counts up.
    sides: &'a [String; 2],
    /// The words for a size without a side.
    no_side: &'a str,
}

/// A field for a size with a side. Gives the new value when one was taken.
fn field<T: Sided>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    chosen: &mut Sides,
    asked: &SidedField<'_, T>,
) -> Option<T> {
    let mut taken = None;
    field::row(ui, asked.label, |ui, named| {
        let unseen = |name: &String| field::unseen_name(ui, asked.key, name);
        let named = asked.name.as_ref().map_or(named, unseen);
        ui.horizontal_wrapped(|ui| {
            let now = asked.value.side().or(chosen.get(asked.key).copied());
            for (side, word) in [Side::Minus, Side::Plus].into_iter().zip(asked.sides) {
                let button = ui.selectable_label(now == Some(side), word);
                let name = format!("{}: {word}", named.text);
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
            let new = field::size(ui, drafts, asked.key, &named, size, asked.place);
            let Some(new) = new else { return };
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

/// A row of a form with such a field.
pub(super) fn row<S: FormSubject<State = State>, T: Sided>(
    form: &mut Form<'_, '_, S>,
    Entry { label, key, what }: Entry<'_>,
    (value, place): (T, InCase),
    sides: &[String; 2],
    set: impl FnOnce(&mut S::Value, T),
) {
    let label = form.word(label);
    let asked = SidedField {
        key: &form.on.key(key),
        name: form.name(&label),
        label: &label,
        value,
        place,
        sides,
        no_side: &form.word("arch-no-side"),
    };
    let CaseContext { own, shared, .. } = &mut *form.cx;
    let new = field(form.ui, &mut shared.state.drafts, &mut own.sides, &asked);
    if let Some(new) = new {
        form.change(what, key, |thing| set(thing, new));
    }
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
    use traywright_core::measure::{Angle, Length};

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
