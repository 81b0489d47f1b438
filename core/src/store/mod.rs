//! The only room that touches the disk.
