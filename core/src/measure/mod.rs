//! Lengths, angles, speeds and torques as types of their own, exact to the last digit that a
//! person can enter.
//!
//! A length is a whole number of micrometres, so sums of entered values are exact: 6.1 + 3.5 +
//! 0.7 + 14.0 mm is 24.3 mm, where binary fractions would divide to 242 graduations of 0.1 mm.

mod angle;
mod decimal;
mod length;
mod speed;
pub mod trig;

pub use angle::Angle;
pub(crate) use decimal::write_thousandths;
pub use decimal::{DecimalError, parse_thousandths};
pub use length::Length;
pub use speed::{Speed, Torque};
