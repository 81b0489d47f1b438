//! A scanner that types: in surgery no code stands for anything, and none of its signs is a command, a figure or a reason.
//!
//! A letter waits for as long as a scanner takes to its next sign before it acts; what comes in a burst longer than any figure
//! is told and dropped.

use super::keys::Pressed;
use crate::view::loading::wedge::BURST_S;

/// No figure that is typed here has more signs.
const MOST_SIGNS: usize = 5;

/// The signs of a scanner among what a hand presses.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Scan {
    /// The time of the last sign.
    last_s: Option<f64>,
    /// A letter that may be a command or the first of a code.
    held: Option<Pressed>,
    /// The number of signs that followed each other as a scanner's do.
    run: usize,
    /// A code is being typed.
    scans: bool,
}

impl Scan {
    /// True while a letter waits.
    pub(super) const fn waits(&self) -> bool {
        self.held.is_some()
    }

    /// What a hand pressed among what came.
    pub(super) fn by_hand(&mut self, came: Vec<Pressed>, now_s: f64) -> Vec<Pressed> {
        let mut out = Vec::new();
        if !self.follows(now_s) {
            out.extend(self.held.take());
            self.scans = false;
        }
        for one in came {
            self.take(one, now_s, &mut out);
        }
        out
    }

    fn take(&mut self, one: Pressed, now_s: f64, out: &mut Vec<Pressed>) {
        let is_figure = matches!(one, Pressed::Digit(_) | Pressed::Mark);
        if !is_figure && !one.is_letter() {
            // The end of a code, or a blank in it.
            let of_code = self.scans && self.follows(now_s);
            if of_code && matches!(one, Pressed::Enter | Pressed::Done) {
                self.last_s = Some(now_s);
                return;
            }
            out.extend(self.held.take());
            self.scans = false;
            out.push(one);
            return;
        }
        self.run = if self.follows(now_s) { self.run + 1 } else { 1 };
        self.last_s = Some(now_s);
        let scanned =
            self.run > MOST_SIGNS || self.run > 1 && (self.held.is_some() || one.is_letter());
        if self.scans || scanned {
            self.held = None;
            if !self.scans {
                out.push(Pressed::Scanned);
            }
            self.scans = true;
        } else if is_figure {
            out.push(one);
        } else {
            self.held = Some(one);
        }
    }

    fn follows(&self, now_s: f64) -> bool {
        self.last_s.is_some_and(|last| now_s - last <= BURST_S)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn press(sign: char) -> Pressed {
        match sign {
            'S' => Pressed::Skip,
            'A' => Pressed::Despite,
            'F' => Pressed::Fell,
            '.' => Pressed::Mark,
            ' ' => Pressed::Done,
            '\n' => Pressed::Enter,
            digit => Pressed::Digit(u8::try_from(digit.to_digit(10).unwrap()).unwrap()),
        }
    }

    fn typed(text: &str, apart_s: f64) -> Vec<Pressed> {
        let (mut scan, mut all) = (Scan::default(), Vec::new());
        let mut now = 10.0;
        for sign in text.chars() {
            all.extend(scan.by_hand(vec![press(sign)], now));
            now += apart_s;
        }
        all.extend(scan.by_hand(Vec::new(), now + 1.0));
        all
    }

    #[test]
    fn a_scanned_code_acts_on_nothing() {
        for code in ["0104012345678901\n", "SA12F\n", "F1\n", "10AFS 7\n"] {
            for apart in [0.0, 0.01, 0.04] {
                let out = typed(code, apart);
                let acts = |one: &&Pressed| {
                    !matches!(one, Pressed::Digit(_) | Pressed::Mark | Pressed::Scanned)
                };
                assert_eq!(out.iter().find(acts), None, "{code} {apart}");
                // What was taken for a figure is dropped.
                assert_eq!(out.last(), Some(&Pressed::Scanned), "{code} {apart}");
            }
        }
    }

    #[test]
    fn what_a_hand_types_is_what_it_was() {
        for (text, apart) in [
            ("9.05\n", 0.0),
            ("9.05\n", 0.2),
            ("F1", 0.1),
            ("SA F", 0.1),
            ("35\n", 0.02),
        ] {
            let want: Vec<Pressed> = text.chars().map(press).collect();
            assert_eq!(typed(text, apart), want, "{text} {apart}");
        }
    }
}
