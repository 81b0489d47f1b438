//! What is read off the label of a package.
//!
//! Labels of medical devices bear a machine-readable code made of element strings: each begins with an application identifier
//! that says what follows. Source: GS1 General Specifications, section 3 (identifiers 01, 10, 11, 17, 21, 240; element strings
//! without a fixed length end with the separator FNC1, sent as U+001D, or with the code) and 7.9 (check digit).

use jiff::civil::Date;

/// The parts of a label that the record asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The number of the article, identifier 01.
    pub code: String,
    /// The lot, identifier 10.
    pub lot: Option<String>,
    /// The last day of use, identifier 17.
    pub expiry: Option<Date>,
}

/// What ends a part without a fixed length.
const SEPARATOR: char = '\u{1d}';

/// The parts of a scanned label; none where a text is not one to the letter: then it is a code that somebody typed.
///
/// A scanner that drops the separator leaves a lot that reaches to the end of the text: what it shows is looked at by who
/// enters it.
#[must_use]
pub fn read_label(text: &str) -> Option<Label> {
    let text = text.trim();
    // What a scanner sends before the code itself to say of which sort that is.
    let signs = ["]d2", "]C1", "]Q3", "]e0"];
    let text = (signs.iter())
        .find_map(|sign| text.strip_prefix(sign))
        .unwrap_or(text);
    let printed = text.starts_with('(');
    let mut rest = text.trim_start_matches(SEPARATOR);
    let mut label = Label {
        code: String::new(),
        lot: None,
        expiry: None,
    };
    while !rest.is_empty() {
        let (identifier, after) = identifier(rest, printed)?;
        let (value, after) = match identifier {
            "01" => at(after, 14)?,
            "11" | "17" => at(after, 6)?,
            _ => {
                let end = if printed { '(' } else { SEPARATOR };
                after.find(end).map_or((after, ""), |at| after.split_at(at))
            }
        };
        let value = value.trim_end_matches(SEPARATOR);
        match identifier {
            "01" if label.code.is_empty() && has_check_digit(value) => {
                value.clone_into(&mut label.code);
            }
            "10" if label.lot.is_none() && is_variable(value) => label.lot = Some(value.to_owned()),
            "17" if label.expiry.is_none() => label.expiry = Some(expiry(value)?),
            "11" if digits(value) => {}
            "21" | "240" if is_variable(value) => {}
            _ => return None,
        }
        rest = after.trim_start_matches(SEPARATOR);
    }
    (!label.code.is_empty()).then_some(label)
}

/// A day as it is typed: `2031-05-31`, or `2031-05`, which is its last day, as labels mean it.
#[must_use]
pub fn read_day(text: &str) -> Option<Date> {
    let text = text.trim();
    let parts: Vec<&str> = text.split('-').collect();
    let number = |part: &str| {
        let right = part.len() == 2 && digits(part);
        right.then(|| part.parse::<i8>().ok()).flatten()
    };
    let (&year, rest) = parts.split_first()?;
    if year.len() != 4 || !digits(year) {
        return None;
    }
    let year: i16 = year.parse().ok()?;
    match rest {
        [month] => Some(Date::new(year, number(month)?, 1).ok()?.last_of_month()),
        [month, day] => Date::new(year, number(month)?, number(day)?).ok(),
        _ => None,
    }
}

fn identifier(text: &str, printed: bool) -> Option<(&str, &str)> {
    let known = ["01", "10", "11", "17", "21", "240"];
    if printed {
        let (inner, after) = text.strip_prefix('(')?.split_once(')')?;
        return known.contains(&inner).then_some((inner, after));
    }
    let found = known.into_iter().find(|one| text.starts_with(one))?;
    Some((found, &text[found.len()..]))
}

fn at(text: &str, length: usize) -> Option<(&str, &str)> {
    text.split_at_checked(length)
}

fn digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|c| c.is_ascii_digit())
}

/// A part without a fixed length has at most thirty signs.
fn is_variable(text: &str) -> bool {
    let printable = text.chars().all(|c| c.is_ascii_graphic());
    !text.is_empty() && text.len() <= 30 && printable
}

/// Year, month and day by two digits each; day 00 is the month's last. Labels in use are of this century.
fn expiry(text: &str) -> Option<Date> {
    if !digits(text) {
        return None;
    }
    let (year, rest) = text.split_at_checked(2)?;
    let (month, day) = rest.split_at_checked(2)?;
    let (year, month, day): (i16, i8, i8) =
        (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
    match day {
        0 => Some(Date::new(2000 + year, month, 1).ok()?.last_of_month()),
        day => Date::new(2000 + year, month, day).ok(),
    }
}

/// True if the last digit is the one that follows from the others: weights 3 and 1 from the right, together a whole ten.
fn has_check_digit(text: &str) -> bool {
    if text.len() != 14 || !digits(text) {
        return false;
    }
    let digits = text.bytes().rev().map(|c| u32::from(c - b'0'));
    let weights = [1, 3].into_iter().cycle();
    let sum: u32 = digits
        .zip(weights)
        .map(|(digit, weight)| digit * weight)
        .sum();
    sum.is_multiple_of(10)
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    /// Article, lot and day of a text; a dash where it has none, nothing where it is no label.
    fn read(text: &str) -> String {
        let Some(label) = read_label(text) else {
            return String::new();
        };
        let lot = label.lot.unwrap_or_else(|| "-".to_owned());
        let expiry = label.expiry.map_or("-".to_owned(), |day| day.to_string());
        format!("{} {lot} {expiry}", label.code)
    }

    #[test]
    fn a_label_is_read_part_by_part_or_not_at_all() {
        let whole = "04012345678901 L7-A 2031-05-31";
        for (text, want) in [
            ("010401234567890117310531 10L7-A", ""),
            ("01040123456789011731053110L7-A", whole),
            ("]d201040123456789011731053110L7-A", whole),
            ("\u{1d}010401234567890110L7-A\u{1d}17310531", whole),
            ("(01)04012345678901(17)310531(10)L7-A", whole),
            ("(01)04012345678901(10)L7-A(17)310531(21)99", whole),
            // Day 00: the last of the month.
            ("010401234567890117280200", "04012345678901 - 2028-02-29"),
            ("0104012345678901", "04012345678901 - -"),
            // A digit misread: the check digit tells it.
            ("0104012345678902", ""),
            ("010401234567890117311331", ""),
            ("01040123456789011731053110", ""),
            ("0104012345678901XX", ""),
            ("R-363-074", ""),
            ("17310531", ""),
            ("", ""),
        ] {
            assert_eq!(read(text), want, "{text:?}");
        }
    }

    #[test]
    fn a_day_is_typed_whole_or_as_a_month() {
        for (text, want) in [
            ("2031-05-31", Some(date(2031, 5, 31))),
            (" 2028-02 ", Some(date(2028, 2, 29))),
            ("2031-05-32", None),
            ("2031-13", None),
            ("31-05-31", None),
            ("2031-5-1", None),
            ("2031", None),
            ("31.5.2031", None),
        ] {
            assert_eq!(read_day(text), want, "{text}");
        }
    }
}
