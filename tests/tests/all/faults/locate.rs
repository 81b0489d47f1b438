//! Places of values in the text of a sound JSON file, so that a test can change them the way a hand
//! in an editor would.

use std::ops::Range;

/// The bytes of the value at `path`: keys and item numbers from the root, separated by `/`.
pub(super) fn value(text: &str, path: &str) -> Range<usize> {
    let mut at = blanks(text, 0);
    for step in path.split('/').filter(|step| !step.is_empty()) {
        let found = members(text, at)
            .into_iter()
            .find(|member| member.key == step);
        let member = found.unwrap_or_else(|| panic!("the file has no {path}: {step} is missing"));
        at = member.value.start;
    }
    at..end_of_value(text, at)
}

/// The bytes of a whole member, from its key to the end of its value.
pub(super) fn member(text: &str, path: &str) -> Range<usize> {
    let (parent, key) = path.rsplit_once('/').unwrap_or(("", path));
    let parent = value(text, parent).start;
    let found = members(text, parent).into_iter().find(|m| m.key == key);
    let member = found.unwrap_or_else(|| panic!("the file has no {path}"));
    member.start..member.value.end
}

/// The line of a byte, from 1.
pub(super) fn line(text: &str, byte: usize) -> usize {
    1 + text[..byte].matches('\n').count()
}

struct Member {
    key: String,
    start: usize,
    value: Range<usize>,
}

/// Members of the object or list that begins at `at`; items of a list have their number as key.
fn members(text: &str, at: usize) -> Vec<Member> {
    let object = text[at..].starts_with('{');
    assert!(object || text[at..].starts_with('['), "not a branch: {at}");
    let mut found = Vec::new();
    let mut at = blanks(text, at + 1);
    while !text[at..].starts_with(['}', ']']) {
        let start = at;
        let mut key = found.len().to_string();
        if object {
            let end = end_of_value(text, at);
            text[at + 1..end - 1].clone_into(&mut key);
            at = blanks(text, blanks(text, end) + 1);
        }
        let value = at..end_of_value(text, at);
        at = blanks(text, value.end);
        found.push(Member { key, start, value });
        if text[at..].starts_with(',') {
            at = blanks(text, at + 1);
        }
    }
    found
}

fn end_of_value(text: &str, at: usize) -> usize {
    if text[at..].starts_with(['{', '[']) {
        let last = members(text, at).last().map_or(at + 1, |m| m.value.end);
        return blanks(text, last) + 1;
    }
    if text[at..].starts_with('"') {
        let mut escaped = false;
        for (n, c) in text[at + 1..].char_indices() {
            if c == '"' && !escaped {
                return at + 1 + n + 1;
            }
            escaped = c == '\\' && !escaped;
        }
    }
    let end = text[at..].find([',', '}', ']', '\n', ' ']);
    end.map_or(text.len(), |n| at + n)
}

fn blanks(text: &str, at: usize) -> usize {
    let rest = text[at..].trim_start();
    text.len() - rest.len()
}

#[test]
fn values_are_found_where_they_stand() {
    let text = "{\n \"a\": [1, {\"b\": \"x\\\"}\"}, []],\n \"c\": {},\n \"d\": -2.5\n}";
    for (path, wanted) in [
        ("a/0", "1"),
        ("a/1", "{\"b\": \"x\\\"}\"}"),
        ("a/1/b", "\"x\\\"}\""),
        ("a/2", "[]"),
        ("c", "{}"),
        ("d", "-2.5"),
        ("", text),
    ] {
        assert_eq!(&text[value(text, path)], wanted, "{path}");
    }
    assert_eq!(&text[member(text, "d")], "\"d\": -2.5");
    assert_eq!(line(text, value(text, "d").start), 4);
}
