//! Fields for lengths, angles and times: with comma or point, never changed by a scroll wheel. What a
//! number may be is said by the schema of the case, at the number's place in it.

use super::{Drafts, Named, New, fault_ui, field_id};
use egui::{Key, RichText, TextEdit, Ui};
use std::ops::RangeInclusive;
use traywright_core::case::Case;
use traywright_core::document::range_at;
use traywright_core::measure::{Angle, DecimalError, Length, parse_thousandths};
use traywright_core::text::Texts;
use traywright_core::wording::{self, degrees, mm, seconds, seconds_with_unit};

/// A place in the case whose number has a range, such as `sites[].heights.tissue_thickness_mm`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InCase(pub &'static str);

/// What is taken from a field besides the numbers in its range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Takes {
    /// An empty field: it is unknown.
    Unknown,
    /// Nothing.
    Numbers,
    /// No number below zero: the side is asked for beside it.
    Sizes,
}

/// A value with a unit.
pub trait Quantity: Copy + PartialEq + PartialOrd {
    /// Its unit, beside the field.
    const UNIT: &'static str;
    /// The text of what is no such number.
    const FAULT: &'static str = "field-no-number";
    /// Nothing of it.
    const ZERO: Self;
    /// As it is typed, without unit.
    fn typed(self) -> String;
    /// As it is shown, with its unit.
    fn said(self) -> String;
    /// The value of a typed text.
    ///
    /// # Errors
    ///
    /// Where it is no number, or one with too many decimals.
    fn parse(text: &str) -> Result<Self, DecimalError>;
    /// From thousandths of what the file holds.
    fn of_thousandths(thousandths: i64) -> Option<Self>;
}

impl Quantity for Length {
    const UNIT: &'static str = "mm";
    const ZERO: Self = Self::ZERO;

    fn typed(self) -> String {
        wording::typed(self)
    }

    fn said(self) -> String {
        mm(self)
    }

    fn parse(text: &str) -> Result<Self, DecimalError> {
        Self::parse_mm(text)
    }

    fn of_thousandths(thousandths: i64) -> Option<Self> {
        Some(Self::from_um(thousandths))
    }
}

impl Quantity for Angle {
    const UNIT: &'static str = "°";
    const ZERO: Self = Self::ZERO;

    fn typed(self) -> String {
        self.to_string()
    }

    fn said(self) -> String {
        degrees(self)
    }

    fn parse(text: &str) -> Result<Self, DecimalError> {
        Self::parse_deg(text)
    }

    fn of_thousandths(thousandths: i64) -> Option<Self> {
        thousandths.try_into().ok().map(Self::from_millideg)
    }
}

/// A time in tenths of a second.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Tenths(pub u32);

impl Quantity for Tenths {
    const UNIT: &'static str = "s";
    const FAULT: &'static str = "field-no-seconds";
    const ZERO: Self = Self(0);

    fn typed(self) -> String {
        seconds(self.0.into())
    }

    fn said(self) -> String {
        seconds_with_unit(self.0.into())
    }

    /// Seconds to one decimal; what is below 0 is beyond every range.
    fn parse(text: &str) -> Result<Self, DecimalError> {
        let thousandths = parse_thousandths(text)?;
        if thousandths % 100 != 0 {
            return Err(DecimalError::TooManyDecimals);
        }
        Ok(Self(u32::try_from(thousandths / 100).unwrap_or(u32::MAX)))
    }

    fn of_thousandths(thousandths: i64) -> Option<Self> {
        (thousandths / 1000).try_into().ok().map(Self)
    }
}

/// A field for a number that may be left out. Gives the new one when one was taken.
pub fn number<T: Quantity>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    value: Option<T>,
    place: InCase,
) -> Option<New<Option<T>>> {
    ask(ui, drafts, key, named, value, (place, Takes::Unknown))
}

/// A field for a number that has to be there. Gives the new one when one was taken.
pub fn needed<T: Quantity>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    value: Option<T>,
    place: InCase,
) -> Option<T> {
    ask(ui, drafts, key, named, value, (place, Takes::Numbers))?.0
}

/// A field for the size of a number that has a side. Gives the new one when one was taken.
pub fn size<T: Quantity>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    size: T,
    place: InCase,
) -> Option<T> {
    ask(ui, drafts, key, named, Some(size), (place, Takes::Sizes))?.0
}

fn ask<T: Quantity>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: &Named,
    value: Option<T>,
    (place, takes): (InCase, Takes),
) -> Option<New<Option<T>>> {
    let shown = value.map(T::typed).unwrap_or_default();
    let mut text = drafts
        .draft(key)
        .map_or_else(|| shown.clone(), str::to_owned);
    let response = ui
        .horizontal(|ui| {
            let edit = TextEdit::singleline(&mut text)
                .id(field_id(key))
                .desired_width(64.0)
                .align(egui::Align2::RIGHT_CENTER)
                .hint_text(if takes == Takes::Unknown { "?" } else { "" });
            let response = ui.add(edit).labelled_by(named.id);
            ui.label(RichText::new(T::UNIT).weak());
            response
        })
        .inner;
    drafts.follow_lead(key, &response);
    if response.changed() {
        drafts.keep_value(key, named, text.clone());
    }
    let mut taken = None;
    if response.lost_focus() {
        if ui.input(|input| input.key_pressed(Key::Escape)) || text.trim() == shown {
            drafts.settle(key);
        } else {
            match read(&text, takes, || range(place, takes)) {
                Ok(new) if new == value => drafts.settle(key),
                Ok(new) => {
                    // Until the edit is carried out the draft stays, so that a refusal loses nothing.
                    drafts.keep_value(key, named, text);
                    taken = Some(New(new));
                }
                Err(fault) => {
                    drafts.keep_value(key, named, text);
                    drafts.refuse(key, fault);
                }
            }
        }
    }
    fault_ui(ui, drafts, key);
    taken
}

/// The range at a place.
fn range<T: Quantity>(place: InCase, takes: Takes) -> Option<RangeInclusive<T>> {
    let (least, most) = range_at::<Case>(place.0)?.into_inner();
    let least = match takes {
        Takes::Sizes => T::ZERO,
        _ => T::of_thousandths(least)?,
    };
    Some(least..=T::of_thousandths(most)?)
}

/// The number that was typed, or what is wrong with it and what helps.
fn read<T: Quantity>(
    text: &str,
    takes: Takes,
    range: impl FnOnce() -> Option<RangeInclusive<T>>,
) -> Result<Option<T>, String> {
    let texts = Texts::english();
    let text = text.trim();
    if text.is_empty() {
        return match takes {
            Takes::Unknown => Ok(None),
            Takes::Numbers | Takes::Sizes => Err(texts.get("field-empty", &[])),
        };
    }
    let value = T::parse(text).ok();
    // Without a range nothing is taken.
    let Some((value, range)) = value.zip(range()) else {
        return Err(texts.get(T::FAULT, &[]));
    };
    if !range.contains(&value) {
        let (least, most) = (range.start().said(), range.end().said());
        return Err(texts.get("field-out-of-range", &[("least", &least), ("most", &most)]));
    }
    Ok(Some(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    const OCCLUSAL: InCase = InCase("sites[].heights.crest_below_occlusal_mm");

    fn typed(text: &str) -> Result<Option<Length>, String> {
        read(text, Takes::Unknown, || range(OCCLUSAL, Takes::Unknown))
    }

    /// Else a value could not be edited in its place.
    #[test]
    fn what_a_field_shows_can_be_read_again() {
        for um in [0, 100, 4_450, 12_345] {
            let length = Length::from_um(um);
            assert_eq!(typed(&length.typed()), Ok(Some(length)));
        }
        let angle = Angle::from_millideg(-4_500);
        assert_eq!(Angle::parse_deg(&angle.typed()), Ok(angle));
    }

    #[test]
    fn comma_and_point_are_one_and_empty_is_unknown() {
        assert_eq!(typed("12,5"), Ok(Some(Length::from_um(12_500))));
        assert_eq!(typed(" 12.5 "), Ok(Some(Length::from_um(12_500))));
        assert_eq!(typed(""), Ok(None));
    }

    #[test]
    fn seconds_have_one_decimal_at_the_most() {
        assert_eq!(Tenths::parse("12,5"), Ok(Tenths(125)));
        assert_eq!(Tenths::parse("60"), Ok(Tenths(600)));
        assert!(Tenths::parse("0.25").is_err());
        // No range lets it pass.
        assert_eq!(Tenths::parse("-1"), Ok(Tenths(u32::MAX)));
        let hour = range::<Tenths>(InCase("run.weights.mount_ds"), Takes::Numbers);
        assert_eq!(hour, Some(Tenths(0)..=Tenths(36_000)));
    }

    #[test]
    fn what_is_no_number_or_too_large_is_refused_with_its_limits() {
        assert!(typed("twelve").is_err() && typed("1.2345").is_err() && typed("nan").is_err());
        let fault = typed("61").unwrap_err();
        assert!(fault.contains("60"), "{fault}");
    }

    #[test]
    fn a_size_is_not_below_zero_and_without_a_range_nothing_is_taken() {
        let lean = InCase("sites[].placement.apex_to_buccal_deg");
        let read = |text, place| read(text, Takes::Sizes, || range::<Angle>(place, Takes::Sizes));
        assert_eq!(read("60", lean), Ok(Some(Angle::from_deg(60))));
        assert!(read("-1", lean).is_err() && read("60.1", lean).is_err());
        assert!(read("1", InCase("sites[].nowhere")).is_err());
    }

    /// Each place that a view names has a range; else its field would take nothing.
    #[test]
    fn every_place_that_a_form_names_has_a_range() {
        let mut places = Vec::new();
        let mut folders = vec![std::path::PathBuf::from(concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/src/view"
        ))];
        while let Some(folder) = folders.pop() {
            for entry in std::fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                } else {
                    let text = std::fs::read_to_string(path).unwrap();
                    let named = text.split("InCase(").skip(1);
                    let named = named.filter_map(|rest| rest.trim_start().strip_prefix('"'));
                    places.extend(named.map(|rest| rest.split('"').next().unwrap().to_owned()));
                }
            }
        }
        assert!(places.len() > 15, "{places:?}");
        places.retain(|place| range_at::<Case>(place).is_none());
        assert_eq!(places, Vec::<String>::new());
    }
}
