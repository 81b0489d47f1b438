//! Sums as they are written.

use crate::measure::Length;
use crate::number::{exact, summand};
use crate::plan::{Known, Quantity, Sign, Term};

/// A sum as it is written.
pub(super) struct Sum {
    pub(super) length: Length,
    pub(super) text: String,
    /// Number of terms written.
    pub(super) parts: usize,
}

/// The sum of the terms that are added or taken away; nothing where one of them is unknown or no
/// length. Zeros are left out unless there is nothing else.
pub(super) fn sum(terms: &[&Term]) -> Option<Sum> {
    let mut sum = Sum {
        length: Length::ZERO,
        text: String::new(),
        parts: 0,
    };
    for term in terms {
        let Known::Is(Quantity::Length(length)) = term.value else {
            if term.sign == Sign::With {
                continue;
            }
            return None;
        };
        let part = match term.sign {
            Sign::Plus => length,
            Sign::Minus => -length,
            Sign::With => continue,
        };
        if part == Length::ZERO {
            continue;
        }
        sum.length += part;
        sum.text.push_str(&summand(part, sum.parts == 0));
        sum.parts += 1;
    }
    if sum.parts == 0 {
        sum.text = exact(Length::ZERO);
    }
    Some(sum)
}
