//! Fields for lengths and angles: with comma or point, never changed by a scroll wheel.

use super::{Drafts, New, fault_ui};
use egui::{Id, Key, RichText, TextEdit, Ui};
use traywright_core::measure::{Angle, DecimalError, Length};
use traywright_core::say::{degrees, mm};
use traywright_core::text::Texts;

/// What a number may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds<T> {
    /// The least.
    pub least: T,
    /// The greatest.
    pub most: T,
    /// Whether it may be left out, and is unknown then.
    pub may_be_unknown: Unknown,
}

/// Whether a value may be left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unknown {
    /// An empty field means that it is unknown.
    Allowed,
    /// There has to be one.
    Refused,
}

impl<T> Bounds<T> {
    /// From least to most, empty: unknown.
    pub const fn or_unknown(least: T, most: T) -> Self {
        Self {
            least,
            most,
            may_be_unknown: Unknown::Allowed,
        }
    }

    /// From least to most, never empty.
    pub const fn needed(least: T, most: T) -> Self {
        Self {
            least,
            most,
            may_be_unknown: Unknown::Refused,
        }
    }
}

/// A field for a length in millimetres. Gives the new value when one was taken.
pub fn length(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: Id,
    value: Option<Length>,
    bounds: Bounds<Length>,
) -> Option<New<Option<Length>>> {
    number(ui, drafts, key, named, value, bounds, "mm", mm, |text| {
        Length::parse_mm(text)
    })
}

/// A field for an angle in degrees. Gives the new value when one was taken.
pub fn angle(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: Id,
    value: Option<Angle>,
    bounds: Bounds<Angle>,
) -> Option<New<Option<Angle>>> {
    number(
        ui,
        drafts,
        key,
        named,
        value,
        bounds,
        "°",
        degrees,
        Angle::parse_deg,
    )
}

#[expect(
    clippy::too_many_arguments,
    reason = "the two fields above are its only callers"
)]
fn number<T: Copy + PartialEq + PartialOrd>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: Id,
    value: Option<T>,
    bounds: Bounds<T>,
    unit: &str,
    show: impl Fn(T) -> String,
    parse: impl Fn(&str) -> Result<T, DecimalError>,
) -> Option<New<Option<T>>> {
    let shown = value.map(&show).unwrap_or_default();
    let mut text = drafts
        .draft(key)
        .map_or_else(|| shown.clone(), str::to_owned);
    let response = ui
        .horizontal(|ui| {
            let edit = TextEdit::singleline(&mut text)
                .id(Id::unique(("field", key)))
                .desired_width(64.0)
                .align(egui::Align2::RIGHT_CENTER)
                .hint_text(if bounds.may_be_unknown == Unknown::Allowed {
                    "?"
                } else {
                    ""
                });
            let response = ui.add(edit).labelled_by(named);
            ui.label(RichText::new(unit).weak());
            response
        })
        .inner;
    if response.changed() {
        drafts.keep(key, text.clone());
    }
    let mut taken = None;
    if response.lost_focus() {
        if ui.input(|input| input.key_pressed(Key::Escape)) || text.trim() == shown {
            drafts.settle(key);
        } else {
            match read(&text, bounds, &show, parse) {
                Ok(new) if new == value => drafts.settle(key),
                Ok(new) => {
                    // Until the edit is carried out the draft stays, so that a refusal loses nothing.
                    drafts.keep(key, text);
                    taken = Some(New(new));
                }
                Err(fault) => {
                    drafts.keep(key, text);
                    drafts.refuse(key, fault);
                }
            }
        }
    }
    fault_ui(ui, drafts, key);
    taken
}

/// The number that was typed, or what is wrong with it and what helps.
fn read<T: PartialOrd>(
    text: &str,
    bounds: Bounds<T>,
    show: &impl Fn(T) -> String,
    parse: impl Fn(&str) -> Result<T, DecimalError>,
) -> Result<Option<T>, String> {
    let texts = Texts::english();
    let text = text.trim();
    if text.is_empty() {
        return match bounds.may_be_unknown {
            Unknown::Allowed => Ok(None),
            Unknown::Refused => Err(texts.get("field-empty", &[])),
        };
    }
    let value = parse(text).map_err(|_| texts.get("field-no-number", &[]))?;
    if value < bounds.least || value > bounds.most {
        let (least, most) = (show(bounds.least), show(bounds.most));
        return Err(texts.get("field-out-of-range", &[("least", &least), ("most", &most)]));
    }
    Ok(Some(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(text: &str) -> Result<Option<Length>, String> {
        let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(60));
        read(text, bounds, &mm, Length::parse_mm)
    }

    #[test]
    fn comma_and_point_are_one_and_empty_is_unknown() {
        assert_eq!(typed("12,5"), Ok(Some(Length::from_um(12_500))));
        assert_eq!(typed(" 12.5 "), Ok(Some(Length::from_um(12_500))));
        assert_eq!(typed(""), Ok(None));
    }

    #[test]
    fn what_is_no_number_or_too_large_is_refused_with_its_limits() {
        assert!(typed("twelve").is_err() && typed("1.2345").is_err() && typed("nan").is_err());
        let fault = typed("61").unwrap_err();
        assert!(fault.contains("60"), "{fault}");
    }
}
