//! Characters that are not seen, or not printed, and can show a text as another one.

use super::node::{Node, Shape};
use super::{Fault, Path, Rule};
use crate::drawing::fonts::coverage;

/// True for a character that no name, code or note may hold: a control character (general category `Cc`)
/// but a line feed and a tabulator, a line or paragraph separator (`Zl`, `Zp`), and every character of the property
/// `Bidi_Control`, which turns the direction of what follows. Source: Unicode Standard Annex 9, section 2, and
/// `PropList.txt`; Unicode Technical Report 36, section 3.6, on what a text made with them can be taken for.
#[must_use]
pub fn is_unseen(c: char) -> bool {
    is_direction_mark(c)
        || matches!(c, '\u{2028}' | '\u{2029}')
        || c.is_control() && !matches!(c, '\n' | '\t')
}

/// True for a character that nothing is drawn for, so that two names with and without it look alike: the property
/// `Default_Ignorable_Code_Point` (`DerivedCoreProperties.txt`, Unicode 16) without the joiners U+200C and U+200D, which
/// are letters' business in Persian and Hindi. No document holds one; events of before may.
const fn is_drawn_by_nothing(c: char) -> bool {
    matches!(
        c,
        '\u{AD}' | '\u{34F}' | '\u{61C}' | '\u{115F}'..='\u{1160}' | '\u{17B4}'..='\u{17B5}'
            | '\u{180B}'..='\u{180F}' | '\u{200B}' | '\u{200E}'..='\u{200F}' | '\u{202A}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}' | '\u{3164}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{FFA0}'
            | '\u{FFF0}'..='\u{FFF8}' | '\u{1BCA0}'..='\u{1BCA3}' | '\u{1D173}'..='\u{1D17A}'
            | '\u{E0000}'..='\u{E0FFF}'
    )
}

/// The property `Bidi_Control`: marks and embeddings that turn the direction of what follows.
pub(super) const fn is_direction_mark(c: char) -> bool {
    matches!(
        c,
        '\u{61C}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}'
    )
}

/// Finds the first such character of each text of a document, and where that is printed the first that no
/// bundled font has.
pub(super) fn check(node: &Node, is_printed: bool, path: &Path, faults: &mut Vec<Fault>) {
    match &node.shape {
        Shape::Text(text) => check_one(text, is_printed, path, faults),
        Shape::List(items) => {
            for (index, item) in items.iter().enumerate() {
                check(item, is_printed, &path.item(index), faults);
            }
        }
        Shape::Object(members) => {
            for member in members {
                let at = path.key(&member.key);
                check_one(&member.key, is_printed, &at, faults);
                // What a person wrote freely is printed with a stand-in.
                let is_code = !FREE.contains(&member.key.as_str());
                check(&member.node, is_printed && is_code, &at, faults);
            }
        }
        Shape::Null | Shape::Bool(_) | Shape::Number(_) => {}
    }
}

/// Keys of texts that name nothing and say nothing that a hand does.
const FREE: [&str; 3] = ["note", "reason", "source"];

fn check_one(text: &str, is_printed: bool, path: &Path, faults: &mut Vec<Fault>) {
    let unseen = text
        .chars()
        .find(|c| is_unseen(*c) || is_drawn_by_nothing(*c));
    let (rule, found) = match unseen {
        Some(found) => (Rule::UnseenCharacter, found),
        // Two codes that paper shows alike are one in the hand.
        None if is_printed => match coverage(&text.replace('\t', " ")) {
            Ok(()) => return,
            Err(missing) => (Rule::UnprintableCharacter, missing.character),
        },
        None => return,
    };
    let code = format!("U+{:04X}", u32::from(found));
    let fault = Fault::new(path.clone(), rule).with("code", code);
    faults.push(match rule {
        Rule::UnprintableCharacter => fault.with("found", found.to_string()),
        _ => fault,
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The lines `Bidi_Control` of `PropList.txt` (Unicode 16), and beside each a neighbour that is none.
    #[test]
    fn these_are_the_characters_that_turn_a_text() {
        let all = ['\0'..='\u{7}', '\u{7f}'..='\u{9f}'].into_iter().flatten();
        let all = all.chain(['\r', '\u{1b}', '\u{2028}', '\u{2029}', '\u{61c}']);
        let all = all
            .chain('\u{200e}'..='\u{200f}')
            .chain('\u{202a}'..='\u{202e}');
        for c in all.chain('\u{2066}'..='\u{2069}') {
            assert!(is_unseen(c), "{c:?}");
        }
        // Joiners are letters' business in Persian and Hindi, and Hebrew and Arabic turn by themselves.
        for c in "aé\u{61b}\u{61d}\u{200c}\u{200d}\u{2010}\u{2027}\u{202f}\u{2065}\u{206a}אب\n\t°"
            .chars()
        {
            assert!(!is_unseen(c), "{c:?}");
        }
    }

    /// Lines of `Default_Ignorable_Code_Point` (`DerivedCoreProperties.txt`, Unicode 16) at both their ends, and
    /// neighbours that are none.
    #[test]
    fn these_are_drawn_by_nothing() {
        for c in "\u{ad}\u{34f}\u{1160}\u{180f}\u{200b}\u{2060}\u{206f}\u{3164}\u{fe00}\u{fe0f}\u{feff}\u{e0fff}".chars() {
            assert!(is_drawn_by_nothing(c), "{c:?}");
        }
        for c in "aé\u{ac}\u{ae}\u{200a}\u{200c}\u{200d}\u{2010}\u{205f}\u{2070}\u{3163}\u{fe10}\u{e1000}".chars() {
            assert!(!is_drawn_by_nothing(c), "{c:?}");
        }
    }
}
