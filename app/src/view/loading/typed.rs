//! A figure as it is typed on the keypad. Where a gauge shows two figures before the decimal mark the field sets the mark
//! itself, so that 191 reads 19.1. What is longer than any reading, or has letters, is a code that a scanner typed.

use traywright_core::measure::Length;

/// The most decimals where nobody knows the gauge: a length is whole micrometres.
const MOST_DECIMALS: usize = 3;
/// The most figures before the decimal mark: no gauge shows a length of more.
const MOST_BEFORE: usize = 3;
/// The figures before the decimal mark where the field sets it.
const BEFORE: usize = 2;
/// A reading has no more signs than this without its mark; what has more is a code.
pub(super) const MOST_SIGNS: usize = 4;
/// What is longer is not taken: no code is.
const MOST_TYPED: usize = 120;

/// The form of the figures that are read. Where one is expected a scanner may type a code instead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Form {
    /// The field sets the mark after two figures: of all that the gauge shows, most have two before it and none more.
    sets_mark: bool,
    /// The number of decimals, as its graduation takes and as its figures are written.
    decimals: usize,
}

impl Form {
    /// Of a length that no gauge shows.
    pub const ANY: Self = Self {
        sets_mark: false,
        decimals: MOST_DECIMALS,
    };

    /// Of a gauge of this range and graduation.
    #[must_use]
    pub fn of_gauge((least, greatest): (Length, Length), graduation: Length) -> Self {
        let two = Length::from_mm(10)..Length::from_mm(100);
        Self {
            sets_mark: least >= Length::ZERO && two.contains(&greatest),
            decimals: graduation.decimals().max(1),
        }
    }
}

/// A figure as it is typed, in millimetres, or a code.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Typed {
    /// Every sign as it came, but for marks where the field has one.
    signs: String,
    /// A mark was typed, so that no code is.
    marked: bool,
    /// The text that stands in the field.
    shown: String,
    form: Option<Form>,
}

/// What was given by a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Given {
    /// A length.
    Length(Length),
    /// Nothing, or a length of which there is none.
    Nothing,
    /// Figures that the gauge shows nothing like: too many, too few, or more decimals than it has. As they stood in the
    /// field.
    Mistyped(String),
    /// A code.
    Code(String),
}

impl Typed {
    /// The text that stands in the field.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.shown
    }

    /// From now on figures of this form are typed.
    pub fn expects(&mut self, form: Form) {
        if self.form != Some(form) {
            self.form = Some(form);
            self.show();
        }
    }

    /// Adds a digit. Where no form is expected one too many is not taken.
    pub fn digit(&mut self, digit: u8) {
        let room = match self.shown.split_once('.') {
            Some((_, decimals)) => decimals.len() < MOST_DECIMALS,
            None => self.shown.len() < MOST_BEFORE,
        };
        if digit < 10 && (room || self.form.is_some()) {
            self.sign(char::from(b'0' + digit));
        }
    }

    /// Adds the decimal mark, once; where the field has just set it nothing.
    pub fn mark(&mut self) {
        if self.is_code() {
            self.sign('.');
            return;
        }
        if !self.shown.contains('.') {
            self.sign('.');
        }
        self.marked = true;
    }

    /// Adds a sign of a code.
    pub fn sign(&mut self, sign: char) {
        if self.signs.len() < MOST_TYPED {
            self.signs.push(sign);
            self.show();
        }
    }

    /// Takes the last sign away, and with it the mark that the field set after it.
    pub fn back(&mut self) {
        self.signs.pop();
        self.marked &= !self.signs.is_empty();
        self.show();
    }

    /// Takes all away.
    pub fn clear(&mut self) {
        self.signs.clear();
        self.marked = false;
        self.shown.clear();
    }

    /// What is given by the text.
    #[must_use]
    pub fn given(&self) -> Given {
        if self.is_code() {
            return Given::Code(self.signs.clone());
        }
        let (whole, decimals) = self.shown.split_once('.').unwrap_or((&self.shown, ""));
        let Ok(length) = Length::parse_mm(self.shown.trim_end_matches('.')) else {
            return Given::Nothing;
        };
        let fits = match self.form {
            Some(form) if form.sets_mark => {
                whole.len() <= BEFORE && decimals.len() == form.decimals
            }
            Some(form) => whole.len() <= MOST_BEFORE && decimals.len() <= form.decimals,
            None => true,
        };
        match fits {
            _ if self.signs.chars().all(|sign| sign == '.') => Given::Nothing,
            false => Given::Mistyped(self.shown.trim_end_matches('.').to_owned()),
            true if length > Length::ZERO => Given::Length(length),
            true => Given::Nothing,
        }
    }

    /// The length; nothing where it is none, or none that can be recorded.
    #[must_use]
    pub fn value(&self) -> Option<Length> {
        match self.given() {
            Given::Length(length) => Some(length),
            Given::Nothing | Given::Mistyped(_) | Given::Code(_) => None,
        }
    }

    /// True for what can be no reading: it has a sign that no figure has, or more figures than any without a mark.
    fn is_code(&self) -> bool {
        let figure = |sign: char| sign.is_ascii_digit() || sign == '.';
        let many = self.signs.len() > MOST_SIGNS && !self.marked;
        self.form.is_some() && many || !self.signs.chars().all(figure)
    }

    fn show(&mut self) {
        self.shown = if self.is_code() {
            self.signs.clone()
        } else {
            self.laid_out()
        };
    }

    /// The figures with the mark that the field sets, or that was typed.
    fn laid_out(&self) -> String {
        let sets_mark = self.form.is_some_and(|form| form.sets_mark);
        let mut text = String::new();
        for sign in self.signs.chars() {
            if sign == '.' && text.is_empty() {
                text.push('0');
            }
            text.push(sign);
            if sets_mark && text.len() == BEFORE && !text.contains('.') {
                text.push('.');
            }
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed_on(form: Form, keys: &str) -> Typed {
        let mut typed = Typed::default();
        typed.expects(form);
        type_on(typed, keys)
    }

    fn type_on(mut typed: Typed, keys: &str) -> Typed {
        for key in keys.chars() {
            match key {
                '.' => typed.mark(),
                '<' => typed.back(),
                key => match key.to_digit(10) {
                    Some(digit) => typed.digit(u8::try_from(digit).unwrap()),
                    None => typed.sign(key),
                },
            }
        }
        typed
    }

    fn gauge(least: &str, greatest: &str, graduation: &str) -> Form {
        let mm = |text| Length::parse_mm(text).unwrap();
        Form::of_gauge((mm(least), mm(greatest)), mm(graduation))
    }

    fn length(um: i64) -> Given {
        Given::Length(Length::from_um(um))
    }

    fn mistyped(text: &str) -> Given {
        Given::Mistyped(text.to_owned())
    }

    fn code(text: &str) -> Given {
        Given::Code(text.to_owned())
    }

    /// Where no reading is expected.
    #[test]
    fn what_is_typed_stands_there_and_is_a_length() {
        for (keys, stands, given) in [
            ("24.3", "24.3", length(24_300)),
            ("243", "243", length(243_000)),
            ("24..3", "24.3", length(24_300)),
            ("24.", "24.", length(24_000)),
            ("24.3<4", "24.4", length(24_400)),
            (".5", "0.5", length(500)),
            ("1234", "123", length(123_000)),
            ("12345", "123", length(123_000)),
            ("1.2345", "1.234", length(1_234)),
            ("", "", Given::Nothing),
            ("<", "", Given::Nothing),
            ("0", "0", Given::Nothing),
            ("0.0", "0.0", Given::Nothing),
            (".", "0.", Given::Nothing),
        ] {
            let typed = type_on(Typed::default(), keys);
            assert_eq!(typed.as_str(), stands, "{keys}");
            assert_eq!(typed.given(), given, "{keys}");
        }
    }

    #[test]
    fn the_field_sets_the_mark_where_the_gauge_has_two_figures_before_it() {
        for (keys, stands, given) in [
            ("191", "19.1", length(19_100)),
            ("19.1", "19.1", length(19_100)),
            ("19..1", "19.1", length(19_100)),
            ("9.1", "9.1", length(9_100)),
            ("091", "09.1", length(9_100)),
            ("09.1", "09.1", length(9_100)),
            // What went for 243 mm, and was mistyped.
            ("243", "24.3", length(24_300)),
            ("1", "1", mistyped("1")),
            ("19", "19.", mistyped("19")),
            ("19.", "19.", mistyped("19")),
            ("9", "9", mistyped("9")),
            ("9.", "9.", mistyped("9")),
            ("1911", "19.11", mistyped("19.11")),
            ("19.11", "19.11", mistyped("19.11")),
            ("9.12", "9.12", mistyped("9.12")),
            ("191.2", "19.12", mistyped("19.12")),
            ("", "", Given::Nothing),
            (".", "0.", Given::Nothing),
            ("000", "00.0", Given::Nothing),
        ] {
            let typed = typed_on(gauge("9", "36", "0.1"), keys);
            assert_eq!(typed.as_str(), stands, "{keys}");
            assert_eq!(typed.given(), given, "{keys}");
        }
    }

    #[test]
    fn as_many_decimals_as_the_graduation_takes_are_typed() {
        for (graduation, keys, given) in [
            ("0.05", "1915", length(19_150)),
            ("0.05", "19.15", length(19_150)),
            ("0.05", "191", mistyped("19.1")),
            ("0.2", "192", length(19_200)),
            ("0.5", "195", length(19_500)),
            // It is written with one decimal too.
            ("1", "190", length(19_000)),
            ("1", "19", mistyped("19")),
        ] {
            let typed = typed_on(gauge("9", "36", graduation), keys);
            assert_eq!(typed.given(), given, "{graduation} {keys}");
        }
    }

    /// Some of its figures have three before the mark, or a sign: nobody knows where the mark is to stand.
    #[test]
    fn the_mark_is_typed_where_the_gauge_has_other_figures() {
        for (least, greatest) in [("12", "120"), ("-2", "36"), ("1", "9.9")] {
            let form = gauge(least, greatest, "0.1");
            assert_eq!(typed_on(form, "191").given(), length(191_000));
            assert_eq!(typed_on(form, "19.1").given(), length(19_100));
            assert_eq!(typed_on(form, "19.15").given(), mistyped("19.15"));
            assert_eq!(typed_on(form, "1915").given(), mistyped("1915"));
        }
    }

    #[test]
    fn a_sign_is_taken_back_with_the_mark_that_the_field_set() {
        for (keys, stands) in [
            ("19<", "1"),
            ("19.<", "1"),
            ("191<", "19."),
            ("191<2", "19.2"),
            ("191<<", "1"),
            ("9.<", "9"),
            ("9.1<", "9."),
            ("1911<", "19.1"),
            ("19..1<<8", "18."),
            ("19.1<<<191", "19.1"),
        ] {
            let typed = typed_on(gauge("9", "36", "0.1"), keys);
            assert_eq!(typed.as_str(), stands, "{keys}");
        }
    }

    /// A scanner types a code as a keyboard would: none of its figures is a reading.
    #[test]
    fn what_is_longer_than_a_reading_or_has_letters_is_a_code() {
        let form = gauge("9", "36", "0.1");
        for keys in ["19123", "4012345678901", "HD-257", "1A", "19-1", "A"] {
            let typed = typed_on(form, keys);
            assert_eq!(typed.as_str(), keys);
            assert_eq!(typed.given(), code(keys));
            assert_eq!(typed_on(Form::ANY, keys).given(), code(keys));
        }
        // Figures that were typed before it belong to it.
        assert_eq!(typed_on(form, "19HD-257").given(), code("19HD-257"));
        let long = "1".repeat(500);
        assert_eq!(typed_on(form, &long).as_str().len(), MOST_TYPED);
    }
}
