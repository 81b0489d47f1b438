//! Damage done to a file by a hand, another program or a bad disk.

use super::locate;

/// One change of a file.
pub(super) enum Edit {
    /// Another text in place of the value at a path.
    Set(&'static str, String),
    /// The member at a path is taken away, with its comma.
    Without(&'static str),
    /// Other text before the member or item at a path.
    Before(&'static str, String),
    /// The first occurrence of a text is written otherwise.
    Text(&'static str, String),
    /// Something is done to the bytes.
    Bytes(fn(&str) -> Vec<u8>),
}

pub(super) fn set(path: &'static str, raw: impl Into<String>) -> Edit {
    Edit::Set(path, raw.into())
}

pub(super) fn without(path: &'static str) -> Edit {
    Edit::Without(path)
}

pub(super) fn before(path: &'static str, raw: impl Into<String>) -> Edit {
    Edit::Before(path, raw.into())
}

pub(super) fn text(from: &'static str, to: impl Into<String>) -> Edit {
    Edit::Text(from, to.into())
}

pub(super) fn bytes(change: fn(&str) -> Vec<u8>) -> Edit {
    Edit::Bytes(change)
}

/// A file after its changes, and the lines on which a report has to find them.
pub(super) struct Edited {
    pub(super) bytes: Vec<u8>,
    pub(super) lines: Vec<usize>,
}

/// Carries out the changes, one after the other.
pub(super) fn edited(source: &str, edits: &[Edit]) -> Edited {
    let mut now = source.to_owned();
    // Lines move when something is inserted above, so they are found in the text as it is then;
    // rows with several changes name them from the bottom of the file to its top.
    let mut lines = Vec::new();
    for edit in edits {
        match edit {
            Edit::Set(path, raw) => {
                let span = locate::value(&now, path);
                lines.push(locate::line(&now, span.start));
                assert_ne!(&now[span.clone()], raw, "{path} is so already");
                now.replace_range(span, raw);
            }
            Edit::Without(path) => {
                let span = locate::member(&now, path);
                let comma = now[span.end..].starts_with(',');
                let mut start = span.start;
                if !comma {
                    // The last one: the comma before it goes with it.
                    start = now[..start].rfind(',').map_or(start, |n| n);
                }
                now.replace_range(start..span.end + usize::from(comma), "");
            }
            Edit::Before(path, raw) => {
                let at = locate::member(&now, path).start;
                lines.push(locate::line(&now, at));
                now.insert_str(at, raw);
            }
            Edit::Text(from, to) => {
                let at = now
                    .find(from)
                    .unwrap_or_else(|| panic!("the file has no {from}"));
                now.replace_range(at..at + from.len(), to);
            }
            Edit::Bytes(change) => {
                return Edited {
                    bytes: change(&now),
                    lines,
                };
            }
        }
    }
    Edited {
        bytes: now.into_bytes(),
        lines,
    }
}
