//! The real window, worked by accessible names, in a world of its own.

#[cfg(test)]
mod arch;
#[cfg(test)]
mod case;
#[cfg(test)]
mod hand;
#[cfg(test)]
mod idle;
#[cfg(test)]
mod room;
#[cfg(test)]
mod start;
