//! Files that hide what is in them: other encodings, broken JSON, other kinds and versions.

use super::broken::BROKEN;
use super::texts::sentences;
use super::*;
use crate::document::{Coverage, DEEPEST, MOST_BYTES, MOST_VALUES};

/// The report on a file.
fn report(bytes: impl AsRef<[u8]>) -> String {
    match read_sample(bytes) {
        Ok(_) => "good".to_owned(),
        Err(faults) => sentences(&faults),
    }
}

fn utf16(text: &str, of_unit: impl Fn(u16) -> [u8; 2]) -> Vec<u8> {
    text.encode_utf16().flat_map(of_unit).collect()
}

fn utf32(text: &str, of_char: impl Fn(u32) -> [u8; 4]) -> Vec<u8> {
    text.chars().flat_map(|c| of_char(u32::from(c))).collect()
}

#[test]
fn another_encoding_is_called_by_its_name() {
    let marked = format!("\u{FEFF}{GOOD}");
    for (bytes, name) in [
        (utf16(GOOD, u16::to_le_bytes), "UTF-16 LE"),
        (utf16(GOOD, u16::to_be_bytes), "UTF-16 BE"),
        (utf16(&marked, u16::to_le_bytes), "UTF-16 LE"),
        (utf16(&marked, u16::to_be_bytes), "UTF-16 BE"),
        (utf32(GOOD, u32::to_le_bytes), "UTF-32 LE"),
        (utf32(GOOD, u32::to_be_bytes), "UTF-32 BE"),
        (utf32(&marked, u32::to_le_bytes), "UTF-32 LE"),
        (utf32(&marked, u32::to_be_bytes), "UTF-32 BE"),
    ] {
        let wanted = format!("the text is encoded as {name}. Save it as UTF-8");
        assert_eq!(report(bytes), wanted);
    }
    assert_eq!(report(&marked), "good", "a UTF-8 mark means nothing");
}

#[test]
fn what_is_no_json_is_told_with_line_and_column() {
    for (bytes, wanted) in BROKEN {
        assert_eq!(report(bytes), *wanted, "{}", String::from_utf8_lossy(bytes));
    }
}

#[test]
fn what_is_no_document_of_the_kind_is_called_what_it_is() {
    let nothing_else = "line 1, column 1: this is not a Traywright case: the key \"traywright_sample\" is missing. Choose another file";
    for (text, wanted) in [
        ("{}", nothing_else),
        ("[]", nothing_else),
        ("3", nothing_else),
        ("null", nothing_else),
        ("\"traywright_sample\"", nothing_else),
        (r#"{"a": {"traywright_sample": 3}}"#, nothing_else),
        (
            r#"{"traywright_other": 1}"#,
            "line 1, column 1: this is a Traywright kit, not a case. Choose the case",
        ),
        (
            r#"{"traywright_sample": 4, "x": 1.2345}"#,
            "line 1, column 2: traywright_sample: the case is of version 4, and this program reads versions up to 3. Update the program",
        ),
        (
            r#"{"traywright_sample": 1}"#,
            "line 1, column 2: traywright_sample: the case is of version 1, and this program reads versions from 2. Open and save it with an older program first",
        ),
        (
            r#"{"traywright_sample": "3"}"#,
            "line 1, column 2: traywright_sample: \"3\" is not a version. Write 3, or the version that the file was saved with",
        ),
        (
            r#"{"traywright_sample": 0}"#,
            "line 1, column 2: traywright_sample: 0 is not a version. Write 3, or the version that the file was saved with",
        ),
        (
            r#"{"traywright_sample": -3}"#,
            "line 1, column 2: traywright_sample: -3 is not a version. Write 3, or the version that the file was saved with",
        ),
        (
            r#"{"traywright_sample": 3.5}"#,
            "line 1, column 2: traywright_sample: 3.5 is not a version. Write 3, or the version that the file was saved with",
        ),
        (
            r#"{"traywright_sample": null}"#,
            "line 1, column 2: traywright_sample: null is not a version. Write 3, or the version that the file was saved with",
        ),
        (
            r#"{"traywright_sample": [3]}"#,
            "line 1, column 2: traywright_sample: […] is not a version. Write 3, or the version that the file was saved with",
        ),
        (
            r#"{"traywright_sample": 99999999999999999999999}"#,
            "line 1, column 2: traywright_sample: 99999999999999999999999 is not a version. Write 3, or the version that the file was saved with",
        ),
    ] {
        assert_eq!(report(text), wanted, "{text}");
    }
}

#[test]
fn a_document_cut_off_at_any_byte_is_refused_and_says_so() {
    let end = GOOD.trim_end().len();
    for cut in 0..end {
        let faults = read_sample(&GOOD.as_bytes()[..cut]).unwrap_err();
        assert_eq!(faults.coverage(), Coverage::UpToFault);
        let rule = faults.iter().next().unwrap().rule;
        let told = matches!(rule, Rule::Empty | Rule::Unfinished | Rule::NotUtf8);
        assert!(told, "cut at {cut}: {}", sentences(&faults));
    }
    assert!(read_sample(&GOOD.as_bytes()[..end]).is_ok());
}

#[test]
fn depth_and_size_have_a_limit_that_is_named() {
    for (open, close) in [("[", "]"), ("{\"a\":", "}")] {
        let nested = |n: usize| format!("{}1{}", open.repeat(n), close.repeat(n));
        let deep =
            "brackets are nested more than 64 levels deep. Choose a document of this program";
        assert!(report(nested(100_000)).ends_with(deep));
        assert!(report(open.repeat(100_000)).ends_with(deep));
        assert!(report(nested(DEEPEST + 1)).ends_with(deep));
        assert!(!report(nested(DEEPEST)).ends_with(deep));
    }
    let many = format!("[{}1]", "1,".repeat(MOST_VALUES));
    assert!(report(many).ends_with("there are more than the 200000 values that a document can have. Choose a document of this program"));
    let large = vec![b' '; MOST_BYTES + 1];
    assert_eq!(
        report(&large),
        "the file has 16777217 bytes, more than the 16777216 allowed for a document. Choose a document of this program"
    );
    assert!(report(&large[1..]).starts_with("the file is empty"));
}

#[test]
fn a_file_with_faults_in_each_value_gives_a_report_that_can_be_read() {
    let bad = "1.2345,".repeat(50_000);
    let bad = GOOD.replace("[7, ", &format!("[7, {bad}"));
    let faults = read_sample(bad).unwrap_err();
    assert_eq!(faults.iter().count(), Faults::MOST_LISTED);
    assert_eq!(faults.left_out(), 49_000);
    assert_eq!(faults.count(), 50_000);
}

#[test]
fn of_two_equal_keys_the_first_is_read_on_and_each_other_is_told() {
    let twice = r#"{ "b": 1, "a": {"b": 1, "b": 2}, "b": [0], "b": 3 }"#;
    let (root, duplicates) = crate::document::parse::parse(twice).unwrap();
    assert_eq!(root.to_value(), serde_json::json!({"a": {"b": 1}, "b": 1}));
    let paths: Vec<String> = duplicates.iter().map(|d| d.path.to_string()).collect();
    assert_eq!(paths, ["a.b", "b", "b"]);
    let bad = GOOD.replace(
        "\"uses\": 3",
        &format!("\"uses\": 3{}", ",\n\"uses\": 4".repeat(3000)),
    );
    let faults = read_sample(bad).unwrap_err();
    assert_eq!(faults.count(), 3000);
    let last = faults.iter().last().unwrap();
    assert_eq!(last.position.unwrap().line, 19 + 1000);
    assert_eq!(last.args["line"], Argument::Count(19));
}

#[test]
fn a_fault_that_two_checks_find_is_told_once() {
    let fault = |key: &str| Fault::new(Path::root().key(key), Rule::MissingKey);
    let list = vec![fault("b"), fault("a"), fault("b")];
    let faults = Faults::from_list(list, 0, Coverage::Whole).unwrap();
    assert_eq!(
        faults.iter().collect::<Vec<_>>(),
        [&fault("a"), &fault("b")]
    );
    assert_eq!(Faults::from_list(Vec::new(), 0, Coverage::Whole), None);
}
