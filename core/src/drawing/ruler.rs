//! A ruler at true scale.

use super::{Across, Along, Drawing, Ink, LineWeight, Stroke, TextStyle, at};

/// A ruler of so many whole millimetres, 1 : 1, its zero at the origin and its marks hanging down:
/// short ones each millimetre, longer ones each five and ten. `label` stands behind its end.
#[must_use]
pub fn ruler(length_mm: u32, label: &str) -> Drawing {
    let mut drawing = Drawing::new();
    let end = f64::from(length_mm);
    let stroke = Stroke::new(Ink::Strong, LineWeight::Thin);
    drawing.line(at(0.0, 0.0), at(end, 0.0), stroke);
    for mark in 0..=length_mm {
        let reach = match mark {
            ten if ten % 10 == 0 => 3.4,
            five if five % 5 == 0 => 2.4,
            _ => 1.4,
        };
        let x = f64::from(mark);
        drawing.line(at(x, 0.0), at(x, reach), stroke);
    }
    if !label.is_empty() {
        drawing.text(
            at(end + 2.0, 0.0),
            (Across::Start, Along::Top),
            TextStyle::NOTE,
            label,
        );
    }
    drawing
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ruler_is_as_long_as_it_says() {
        let ruler = ruler(50, "");
        assert!((ruler.bounds().unwrap().width() - 50.0).abs() < 1e-9);
    }
}
