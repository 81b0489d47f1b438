//! Breaking a text into lines.

use super::{Face, composed, shape::clusters, width};

/// Tolerance between the sum of parts and the whole, mm.
const HAIR: f64 = 1e-9;

/// The lines of `text`, none wider than `width_mm`.
///
/// Lines break at spaces, at line feeds, and after a hyphen or slash between two letters. A word
/// that is too wide on its own is broken between characters, but a number of up to eight characters
/// stays whole even where it is too wide: half a figure reads as another figure, and the page check
/// finds what sticks out. Nothing is ever left out or shortened. A text without words gives one
/// empty line.
#[must_use]
pub fn wrap(text: &str, face: Face, size_mm: f64, width_mm: f64) -> Vec<String> {
    let fits = |line: &str| width(line, face, size_mm) <= width_mm + HAIR;
    let mut lines = Vec::new();
    let text = composed(text);
    for paragraph in text.split('\n') {
        // A line is as wide as its pieces together: there is no kerning.
        let (mut line, mut line_mm) = (String::new(), 0.0);
        for piece in pieces(paragraph) {
            let word = piece.trim_end();
            let piece_mm = width(piece, face, size_mm);
            let word_mm = if word.len() == piece.len() {
                piece_mm
            } else {
                width(word, face, size_mm)
            };
            if word.is_empty() || line_mm + word_mm <= width_mm + HAIR {
                line.push_str(piece);
                line_mm += piece_mm;
                continue;
            }
            if !line.trim_end().is_empty() {
                lines.push(line.trim_end().to_owned());
            }
            if word_mm <= width_mm + HAIR {
                piece.clone_into(&mut line);
                line_mm = piece_mm;
            } else {
                line = broken(piece, &fits, &mut lines);
                line_mm = width(&line, face, size_mm);
            }
        }
        lines.push(line.trim_end().to_owned());
    }
    lines
}

/// Pushes full lines of a piece that is too wide and gives back what is left of it.
fn broken(piece: &str, fits: &impl Fn(&str) -> bool, lines: &mut Vec<String>) -> String {
    let mut line = String::new();
    for part in unbreakable(piece) {
        if !line.is_empty() && !fits(format!("{line}{part}").trim_end()) {
            lines.push(std::mem::take(&mut line));
        }
        line.push_str(part);
    }
    line
}

/// The parts of a word that stay whole: characters with their marks, and short numbers.
fn unbreakable(piece: &str) -> Vec<&str> {
    const LONGEST: usize = 8;
    let in_number = |cluster: &str| {
        cluster
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '−'))
    };
    let mut parts = Vec::new();
    let (mut start, mut end, mut held) = (0, 0, 0);
    for cluster in clusters(piece) {
        let joins = held > 0 && held < LONGEST && in_number(cluster);
        if !joins && start < end {
            parts.push(&piece[start..end]);
            start = end;
        }
        held = match (joins, in_number(cluster)) {
            (true, _) => held + 1,
            (false, number) => usize::from(number),
        };
        end += cluster.len();
    }
    if start < end {
        parts.push(&piece[start..end]);
    }
    parts
}

/// The paragraph cut where a line may break; joined again it is the same.
pub(crate) fn pieces(paragraph: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    let mut start = 0;
    let mut characters = paragraph.char_indices().peekable();
    let mut before = ' ';
    while let Some((_, character)) = characters.next() {
        let Some(&(next_index, next)) = characters.peek() else {
            break;
        };
        let after_space = character == ' ' && next != ' ';
        let after_joint =
            matches!(character, '-' | '/') && before.is_alphabetic() && next.is_alphabetic();
        if after_space || after_joint {
            pieces.push(&paragraph[start..next_index]);
            start = next_index;
        }
        before = character;
    }
    pieces.push(&paragraph[start..]);
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn lines(text: &str, width_mm: f64) -> Vec<String> {
        wrap(text, Face::Regular, 4.0, width_mm)
    }

    #[test]
    fn lines_break_at_spaces_and_keep_every_word() {
        assert_eq!(
            lines("set every stop on the gauge", 25.0),
            ["set every", "stop on the", "gauge"]
        );
        assert_eq!(lines("one\n\ntwo", 100.0), ["one", "", "two"]);
        assert_eq!(lines("", 10.0), [""]);
    }

    #[test]
    fn a_number_is_never_broken_where_it_fits() {
        assert_eq!(lines("1/2 −0.5 46-47", 14.0), ["1/2", "−0.5", "46-47"]);
        assert_eq!(lines("tooth-supported", 20.0), ["tooth-", "supported"]);
        // A no-break space holds a figure and its unit together.
        assert_eq!(lines("depth 21.4\u{A0}mm", 20.0), ["depth", "21.4\u{A0}mm"]);
    }

    #[test]
    fn a_word_that_is_too_wide_is_broken_and_none_of_it_is_lost() {
        let broken = lines("Chateaubriandstraße", 15.0);
        assert!(broken.len() > 1);
        assert_eq!(broken.concat(), "Chateaubriandstraße");
    }

    #[test]
    fn half_a_figure_never_stands_on_a_line() {
        assert_eq!(lines("ab21.4cd", 6.0), ["ab", "21.4", "cd"]);
        assert_eq!(lines("21.4", 1.0), ["21.4"]);
        // A long code has to break somewhere.
        assert_eq!(lines("123456789012", 20.0).concat(), "123456789012");
        assert!(lines("123456789012", 20.0).len() > 1);
    }

    #[test]
    fn a_letter_wider_than_the_column_still_has_its_line() {
        assert_eq!(lines("WWW", 0.1), ["W", "W", "W"]);
    }

    proptest! {
        #[test]
        fn every_line_fits_and_nothing_but_spaces_is_lost(
            text in "[a-zA-Z0-9 ,.\\-/äŁж☐]{0,80}",
            width_mm in 26.0..80.0_f64,
        ) {
            let lines = lines(&text, width_mm);
            for line in &lines {
                prop_assert!(width(line, Face::Regular, 4.0) <= width_mm + HAIR);
            }
            let solid = |text: &str| text.replace(' ', "");
            prop_assert_eq!(solid(&lines.concat()), solid(&text));
        }
    }
}
