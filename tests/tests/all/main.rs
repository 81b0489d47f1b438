//! Checks of the program against the outside, in one binary.

// Marked as a test module so that the lints see the helpers in it as tests.
#[cfg(test)]
mod demo;
#[cfg(test)]
mod faults;
#[cfg(test)]
mod oracles;
#[cfg(test)]
mod plan;
#[cfg(test)]
mod shipped;
