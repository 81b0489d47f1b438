//! Fields for lengths and angles: with comma or point, never changed by a scroll wheel.

use super::{Drafts, New, fault_ui};
use egui::{Id, Key, RichText, TextEdit, Ui};
use traywright_core::measure::{Angle, DecimalError, Length, parse_thousandths};
use traywright_core::text::Texts;
use traywright_core::wording::{degrees, mm};

/// The values that a number may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds<T> {
    /// The least.
    pub least: T,
    /// The greatest.
    pub most: T,
    /// The rule on leaving it out, unknown then.
    pub may_be_unknown: Unknown,
}

/// The rule on leaving a value out.
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
    let typed = |length| format!("{length:.1}");
    let forms = Forms {
        unit: "mm",
        typed: &typed,
        said: &mm,
        parse: &Length::parse_mm,
    };
    number(ui, drafts, key, named, value, bounds, &forms)
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
    let typed = |angle: Angle| angle.to_string();
    let forms = Forms {
        unit: "°",
        typed: &typed,
        said: &degrees,
        parse: &Angle::parse_deg,
    };
    number(ui, drafts, key, named, value, bounds, &forms)
}

/// A field for a time in seconds, to tenths; the value is in tenths. Gives the new value when one was
/// taken.
pub fn seconds(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: Id,
    value_ds: u32,
    bounds: Bounds<u32>,
) -> Option<New<u32>> {
    let typed = |ds: u32| match ds % 10 {
        0 => (ds / 10).to_string(),
        tenths => format!("{}.{tenths}", ds / 10),
    };
    let forms = Forms {
        unit: "s",
        typed: &typed,
        said: &|ds| format!("{} s", typed(ds)),
        parse: &tenths,
    };
    let taken = number(ui, drafts, key, named, Some(value_ds), bounds, &forms);
    taken.and_then(|New(ds)| ds.map(New))
}

/// Seconds to one decimal as tenths; what is below 0 is beyond every bound.
fn tenths(text: &str) -> Result<u32, DecimalError> {
    let thousandths = parse_thousandths(text)?;
    if thousandths % 100 != 0 {
        return Err(DecimalError::TooManyDecimals);
    }
    Ok(u32::try_from(thousandths / 100).unwrap_or(u32::MAX))
}

/// The written forms of a value.
struct Forms<'a, T> {
    /// Its unit, beside the field.
    unit: &'a str,
    /// As it is typed, without unit.
    typed: &'a dyn Fn(T) -> String,
    /// As it is shown, with its unit.
    said: &'a dyn Fn(T) -> String,
    /// The value of a typed text.
    parse: &'a dyn Fn(&str) -> Result<T, DecimalError>,
}

fn number<T: Copy + PartialEq + PartialOrd>(
    ui: &mut Ui,
    drafts: &mut Drafts,
    key: &str,
    named: Id,
    value: Option<T>,
    bounds: Bounds<T>,
    forms: &Forms<'_, T>,
) -> Option<New<Option<T>>> {
    let shown = value.map(forms.typed).unwrap_or_default();
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
            ui.label(RichText::new(forms.unit).weak());
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
            match read(&text, bounds, forms) {
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
fn read<T: Copy + PartialOrd>(
    text: &str,
    bounds: Bounds<T>,
    forms: &Forms<'_, T>,
) -> Result<Option<T>, String> {
    let texts = Texts::english();
    let text = text.trim();
    if text.is_empty() {
        return match bounds.may_be_unknown {
            Unknown::Allowed => Ok(None),
            Unknown::Refused => Err(texts.get("field-empty", &[])),
        };
    }
    let value = (forms.parse)(text).map_err(|_| {
        let id = if forms.unit == "s" {
            "field-no-seconds"
        } else {
            "field-no-number"
        };
        texts.get(id, &[])
    })?;
    if value < bounds.least || value > bounds.most {
        let (least, most) = ((forms.said)(bounds.least), (forms.said)(bounds.most));
        return Err(texts.get("field-out-of-range", &[("least", &least), ("most", &most)]));
    }
    Ok(Some(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(text: &str) -> Result<Option<Length>, String> {
        let bounds = Bounds::or_unknown(Length::ZERO, Length::from_mm(60));
        let forms = Forms {
            unit: "mm",
            typed: &|length| format!("{length:.1}"),
            said: &mm,
            parse: &Length::parse_mm,
        };
        read(text, bounds, &forms)
    }

    /// Else a value could not be edited in its place.
    #[test]
    fn what_a_field_shows_can_be_read_again() {
        for um in [0, 100, 4_450, 12_345] {
            let length = Length::from_um(um);
            assert_eq!(typed(&format!("{length:.1}")), Ok(Some(length)));
        }
        let angle = Angle::from_millideg(-4_500);
        assert_eq!(Angle::parse_deg(&angle.to_string()), Ok(angle));
    }

    #[test]
    fn comma_and_point_are_one_and_empty_is_unknown() {
        assert_eq!(typed("12,5"), Ok(Some(Length::from_um(12_500))));
        assert_eq!(typed(" 12.5 "), Ok(Some(Length::from_um(12_500))));
        assert_eq!(typed(""), Ok(None));
    }

    #[test]
    fn seconds_have_one_decimal_at_the_most() {
        assert_eq!(tenths("12,5"), Ok(125));
        assert_eq!(tenths("60"), Ok(600));
        assert!(tenths("0.25").is_err());
        // No bound lets it pass.
        assert_eq!(tenths("-1"), Ok(u32::MAX));
    }

    #[test]
    fn what_is_no_number_or_too_large_is_refused_with_its_limits() {
        assert!(typed("twelve").is_err() && typed("1.2345").is_err() && typed("nan").is_err());
        let fault = typed("61").unwrap_err();
        assert!(fault.contains("60"), "{fault}");
    }
}
