//! A scanner that types: a code comes as a burst of keys, ended by Enter. None of them is a command, though most are the keys
//! of some. So a letter waits for as long as a scanner takes to its next sign before it acts.

use super::keys::Pressed;
use super::session::Input;
use super::typed::MOST_SIGNS;

/// Signs nearer to each other than this are of a scanner, in seconds of the window's clock. A hand takes longer from one key
/// to the next but for digits, which act on nothing by themselves. Common practice, no source.
pub(in crate::view) const BURST_S: f64 = 0.05;

/// The signs of a scanner among what a hand presses.
#[derive(Debug, Default)]
pub(super) struct Wedge {
    /// The time of the last sign.
    last_s: Option<f64>,
    /// A letter that may be a command or the first of a code, and what it asks for.
    held: Option<(char, Option<Pressed>)>,
    /// The number of signs that followed each other as a scanner's do.
    run: usize,
    /// The sign before was of a code that is still being typed.
    scans: bool,
}

/// A sign or a key, as it comes.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Came {
    /// A letter key, and what it asks for by itself.
    Letter(char, Pressed),
    /// A sign that is typed, as text.
    Text(char),
    /// Anything else that asks for something.
    Other(Pressed),
}

impl Wedge {
    /// True while a letter waits.
    pub(super) const fn waits(&self) -> bool {
        self.held.is_some()
    }

    /// True if a code is being typed: its Enter is the code's, whatever has the keyboard.
    pub(super) fn is_scanning(&self, now_s: f64) -> bool {
        self.scans && self.follows(now_s)
    }

    /// Forgets what came before.
    pub(super) fn clear(&mut self) {
        *self = Self::default();
    }

    /// Looks at the clock: a letter that nothing followed was a hand's.
    pub(super) fn look(&mut self, now_s: f64, out: &mut Vec<Pressed>) {
        if !self.follows(now_s) {
            self.release(out);
            self.scans = false;
        }
    }

    /// Takes what came.
    pub(super) fn take(&mut self, came: Came, now_s: f64, out: &mut Vec<Pressed>) {
        self.look(now_s, out);
        match came {
            // A key and the text of it are one.
            Came::Text(sign) if self.is_held(sign) => {
                if let Some((held, _)) = &mut self.held {
                    *held = sign;
                }
            }
            Came::Text(sign) => {
                self.run = if self.follows(now_s) { self.run + 1 } else { 1 };
                self.scans |= self.run > MOST_SIGNS;
                let figure = figure(sign);
                let letters = self.scans || self.held.is_some();
                if figure.is_none() && !letters && !self.follows(now_s) {
                    self.held = Some((sign, None));
                } else {
                    self.is_of_code(out);
                    let typed = figure.unwrap_or(Input::Sign(sign));
                    self.scans |= !matches!(typed, Input::Digit(_) | Input::Mark);
                    out.push(Pressed::Input(typed));
                }
                self.last_s = Some(now_s);
            }
            Came::Letter(sign, asks) => {
                if self.follows(now_s) {
                    // Its text follows, where it is of a code.
                    self.is_of_code(out);
                    self.scans = true;
                } else if out.iter().all(Pressed::is_typing) {
                    self.held = Some((sign, Some(asks)));
                }
                self.last_s = Some(now_s);
            }
            // A blank within a code.
            Came::Other(Pressed::Input(Input::Done)) if self.is_scanning(now_s) => {
                self.last_s = Some(now_s);
            }
            Came::Other(pressed) => {
                self.release(out);
                self.scans = false;
                out.push(pressed);
            }
        }
    }

    fn follows(&self, now_s: f64) -> bool {
        self.last_s.is_some_and(|last| now_s - last <= BURST_S)
    }

    fn is_held(&self, sign: char) -> bool {
        let same = |(held, asks): &(char, Option<Pressed>)| {
            asks.is_some() && held.eq_ignore_ascii_case(&sign)
        };
        // Of two alike the second is of a code.
        self.held.as_ref().is_some_and(same) && !self.scans
    }

    /// A letter that waits is of a code.
    fn is_of_code(&mut self, out: &mut Vec<Pressed>) {
        if let Some((sign, _)) = self.held.take() {
            out.push(Pressed::Input(Input::Sign(sign)));
            self.scans = true;
        }
    }

    /// A letter that waits was a hand's.
    fn release(&mut self, out: &mut Vec<Pressed>) {
        out.extend(self.held.take().and_then(|(_, asks)| asks));
    }
}

/// A digit or a mark, as it is typed.
fn figure(sign: char) -> Option<Input> {
    match sign {
        ',' | '.' => Some(Input::Mark),
        _ => sign
            .to_digit(10)
            .and_then(|digit| u8::try_from(digit).ok())
            .map(Input::Digit),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asks(key: char) -> Pressed {
        match key {
            'R' => Pressed::Input(Input::Reset),
            'L' => Pressed::List,
            _ => Pressed::Input(Input::Fell),
        }
    }

    /// Key and text of each sign, so many seconds apart; what came of it until long after.
    fn typed(text: &str, apart_s: f64) -> Vec<Pressed> {
        let (mut wedge, mut all) = (Wedge::default(), Vec::new());
        let mut now = 10.0;
        for sign in text.chars() {
            // A frame each.
            let mut out = Vec::new();
            if sign == '\n' {
                wedge.take(Came::Other(Pressed::Input(Input::Enter)), now, &mut out);
            } else {
                if sign.is_ascii_alphabetic() {
                    let key = sign.to_ascii_uppercase();
                    wedge.take(Came::Letter(key, asks(key)), now, &mut out);
                }
                wedge.take(Came::Text(sign), now, &mut out);
            }
            now += apart_s;
            wedge.look(now, &mut out);
            all.append(&mut out);
        }
        wedge.look(now + 1.0, &mut all);
        all
    }

    fn signs(out: &[Pressed]) -> String {
        let sign = |one: &Pressed| match one {
            Pressed::Input(Input::Sign(sign)) => *sign,
            Pressed::Input(Input::Digit(digit)) => char::from(b'0' + digit),
            Pressed::Input(Input::Mark) => '.',
            Pressed::Input(Input::Enter) => '\n',
            other => panic!("{other:?}"),
        };
        out.iter().map(sign).collect()
    }

    #[test]
    fn a_burst_of_letters_is_a_code_and_no_command() {
        for code in [
            "HD-21300\n",
            "RRRRRRR\n",
            "4012FR88\n",
            "19RL12\n",
            "fr-11-lr\n",
            "-RF-1\n",
            "RF-1-R\n",
        ] {
            for apart in [0.0, 0.002, 0.03] {
                assert_eq!(signs(&typed(code, apart)), code, "{code} {apart}");
            }
        }
    }

    #[test]
    fn letters_that_a_hand_types_are_commands() {
        for apart in [0.08, 0.3, 2.0] {
            let out = typed("RLR", apart);
            assert_eq!(out, [asks('R'), Pressed::List, asks('R')], "{apart}");
        }
        // Digits act on nothing, however fast, and a command after them is one.
        assert_eq!(signs(&typed("191\n", 0.0)), "191\n");
        assert_eq!(typed("1R", 0.2)[1], asks('R'));
        // What no key asks for does nothing by itself.
        assert_eq!(typed("-", 0.2), []);
    }

    #[test]
    fn a_letter_waits_for_the_next_sign_and_no_longer() {
        let (mut wedge, mut out) = (Wedge::default(), Vec::new());
        wedge.take(Came::Letter('R', asks('R')), 10.0, &mut out);
        wedge.take(Came::Text('r'), 10.0, &mut out);
        wedge.look(10.04, &mut out);
        assert!(out.is_empty() && wedge.waits());
        wedge.look(10.06, &mut out);
        assert_eq!(out, [asks('R')]);
        assert!(!wedge.waits());
        // An arrow is of no code.
        out.clear();
        wedge.take(Came::Letter('R', asks('R')), 11.0, &mut out);
        let next = Pressed::Input(Input::Next);
        wedge.take(Came::Other(next.clone()), 11.01, &mut out);
        assert_eq!(out, [asks('R'), next]);
    }

    /// After a press that acts in the same frame nobody has seen what it did.
    #[test]
    fn a_letter_after_a_press_that_acts_is_not_kept_for_later() {
        let (mut wedge, mut out) = (Wedge::default(), Vec::new());
        wedge.take(Came::Other(Pressed::Input(Input::Next)), 10.0, &mut out);
        wedge.take(Came::Letter('R', asks('R')), 10.0, &mut out);
        wedge.look(11.0, &mut out);
        assert_eq!(out, [Pressed::Input(Input::Next)]);
    }
}
