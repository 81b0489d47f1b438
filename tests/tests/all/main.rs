//! Checks of the program against the outside, in one binary.

mod oracles;
