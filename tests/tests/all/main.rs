//! Checks of the program against the outside, in one binary.

// Marked as a test module so that the lints see the helpers in it as tests.
#[cfg(test)]
mod cli;
#[cfg(test)]
mod clocks;
#[cfg(test)]
mod codes;
#[cfg(test)]
mod demo;
#[cfg(test)]
mod desk;
#[cfg(test)]
mod edits;
#[cfg(test)]
mod event_lines;
#[cfg(test)]
mod faults;
#[cfg(test)]
mod hazards;
#[cfg(test)]
mod inputs;
#[cfg(test)]
mod kept;
#[cfg(test)]
mod oracles;
#[cfg(test)]
mod order;
#[cfg(test)]
mod plan;
#[cfg(test)]
mod rooms;
#[cfg(test)]
mod run;
#[cfg(test)]
mod shipped;
#[cfg(test)]
mod texts;
#[cfg(test)]
mod withdrawal;
