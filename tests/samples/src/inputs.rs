//! Inputs for a reader of files that nobody meant: the files of a corpus, and those changed in some places. A few in every
//! run of the tests; `traywright-inputs` gives many.

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use std::path::Path;

/// Inputs of each reader where nobody asks for more.
const FEW: u32 = 200;

/// What is put into a file: what readers trip over.
const PIECES: &[&[u8]] = &[
    b"{",
    b"}",
    b"[",
    b"]",
    b"\"",
    b",",
    b":",
    b"\\",
    b"\\u0000",
    b"\\ud800",
    b"\n",
    b"\r\n",
    b"\0",
    b"\xff",
    b"\xef\xbb\xbf",
    b"\xed\xa0\x80",
    b"null",
    b"true",
    b"-",
    b"-0",
    b"0",
    b"1e999",
    b"1e-999",
    b"0.0005",
    b"99999999999999999999",
    b"-9223372036854775808",
    b"18446744073709551615",
    b"4294967296",
    b"2147.484",
    b"\"\"",
    b"\" \"",
    b"[[[[[[[[[[[[[[[[",
    b"{\"a\":{\"a\":{\"a\":",
    b"\"9999-12-31T23:59:59Z\"",
    b"\"-009999-01-01T00:00:00Z\"",
    b"\xe2\x80\xae",
    "\u{202e}".as_bytes(),
    "ß".as_bytes(),
];

/// One change of an input.
#[derive(Debug, Clone)]
enum Change {
    /// This byte in place of the one there.
    Byte(u32, u8),
    /// This piece put in.
    Piece(u32, u8),
    /// A number there in place of another one.
    Number(u32, u8),
    /// So many bytes taken out.
    Without(u32, u8),
    /// A part of it once more, elsewhere.
    Again(u32, u32, u16),
    /// The end taken off.
    Until(u32),
}

fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        any::<(u32, u8)>().prop_map(|(at, byte)| Change::Byte(at, byte)),
        any::<(u32, u8)>().prop_map(|(at, piece)| Change::Piece(at, piece)),
        any::<(u32, u8)>().prop_map(|(at, piece)| Change::Number(at, piece)),
        any::<(u32, u8)>().prop_map(|(at, length)| Change::Without(at, length)),
        any::<(u32, u32, u16)>().prop_map(|(from, to, length)| Change::Again(from, to, length)),
        any::<u32>().prop_map(Change::Until),
    ]
}

fn place(at: u32, within: usize) -> usize {
    usize::try_from(at).unwrap_or(0) % (within + 1)
}

fn piece(of: u8) -> &'static [u8] {
    PIECES[usize::from(of) % PIECES.len()]
}

fn carry_out(bytes: &mut Vec<u8>, change: &Change) {
    let length = bytes.len();
    match change {
        Change::Byte(at, byte) => {
            if let Some(old) = bytes.get_mut(place(*at, length.saturating_sub(1))) {
                *old = *byte;
            }
        }
        Change::Piece(at, of) => {
            let at = place(*at, length);
            bytes.splice(at..at, piece(*of).iter().copied());
        }
        Change::Number(at, of) => {
            let from = place(*at, length);
            let Some(start) = bytes[from..].iter().position(u8::is_ascii_digit) else {
                return;
            };
            let start = from + start;
            let rest = bytes[start..].iter();
            let digits = rest
                .take_while(|b| b.is_ascii_digit() || **b == b'.')
                .count();
            bytes.splice(start..start + digits, piece(*of).iter().copied());
        }
        Change::Without(at, many) => {
            let at = place(*at, length);
            bytes.drain(at..length.min(at + usize::from(*many)));
        }
        Change::Again(from, to, many) => {
            let from = place(*from, length);
            let part = bytes[from..length.min(from + usize::from(*many))].to_vec();
            let to = place(*to, length);
            bytes.splice(to..to, part);
        }
        Change::Until(at) => bytes.truncate(place(*at, length)),
    }
}

/// The files of a corpus, by name, those for every reader behind its own.
fn corpus(reader: &str) -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../corpus");
    let mut found = Vec::new();
    for part in [reader, "any"] {
        let entries = std::fs::read_dir(folder.join(part)).expect("a folder of the corpus");
        let mut files: Vec<_> = entries.map(|entry| entry.expect("a file").path()).collect();
        files.sort();
        found.extend(files.into_iter().map(|file| {
            let bytes = std::fs::read(&file).expect("a file of the corpus");
            (file.display().to_string(), bytes)
        }));
    }
    found
}

/// Gives a reader every file of its corpus as it is, then a few changed in a few places.
///
/// # Panics
///
/// The reader panics; the least changes that make it do so are told.
pub fn read_all(reader: &str, read: impl Fn(&[u8])) {
    read_many(reader, FEW, read);
}

/// The same with so many changed ones.
///
/// # Panics
///
/// As [`read_all`].
pub fn read_many(reader: &str, inputs: u32, read: impl Fn(&[u8])) {
    let seeds = corpus(reader);
    for (_, bytes) in &seeds {
        read(bytes);
    }
    let config = Config {
        cases: inputs,
        failure_persistence: None,
        ..Config::default()
    };
    let changes = (any::<u16>(), proptest::collection::vec(change(), 1..6));
    let ran = TestRunner::new(config).run(&changes, |(seed, changes)| {
        let (_, bytes) = &seeds[usize::from(seed) % seeds.len()];
        let mut bytes = bytes.clone();
        for change in &changes {
            carry_out(&mut bytes, change);
        }
        read(&bytes);
        Ok(())
    });
    if let Err(found) = ran {
        panic!("{reader}: {found}");
    }
}
