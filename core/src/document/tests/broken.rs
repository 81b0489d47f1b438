//! Texts that are no JSON, with the sentences that they give.

/// The bytes of a file and the report on it.
pub(super) const BROKEN: &[(&[u8], &str)] = &[
    (
        b"",
        "the file is empty. Choose another file, or restore this one from a backup",
    ),
    (
        b" \n\t ",
        "the file is empty. Choose another file, or restore this one from a backup",
    ),
    (
        b"\xEF\xBB\xBF",
        "the file is empty. Choose another file, or restore this one from a backup",
    ),
    (
        b"{\n \"a\": \"\xFCber\"}",
        "line 2, column 8: the byte FC is not UTF-8. Save the text as UTF-8; if it was saved that way, the file is damaged: restore it from a backup",
    ),
    (
        b"{\n\0}",
        "line 2, column 1: the text has a NUL byte, so the file is damaged or not text. Restore it from a backup",
    ),
    (
        b"\0\0\0\0\0\0",
        "line 1, column 1: the text has a NUL byte, so the file is damaged or not text. Restore it from a backup",
    ),
    (
        b"{",
        "line 1, column 2: the text stops inside an object, which begins with { on line 1. If the file was cut off, restore it from a backup; otherwise close what is open",
    ),
    (
        b"[1,\n[2",
        "line 2, column 3: [1][0]: the text stops inside a list, which begins with [ on line 2. If the file was cut off, restore it from a backup; otherwise close what is open",
    ),
    (
        b"{\"a\": \"b",
        "line 1, column 9: a: the text stops inside a text, which begins with a quote on line 1. If the file was cut off, restore it from a backup; otherwise close what is open",
    ),
    (
        b"{\"a\": ",
        "line 1, column 7: a: the text stops inside a value on line 1. If the file was cut off, restore it from a backup; otherwise close what is open",
    ),
    (
        b"{\"a\": tru",
        "line 1, column 10: a: the text stops inside a value on line 1. If the file was cut off, restore it from a backup; otherwise close what is open",
    ),
    (
        b"{\"a\": 1.",
        "line 1, column 9: a: the text stops inside a value on line 1. If the file was cut off, restore it from a backup; otherwise close what is open",
    ),
    (
        b"{\"a\" 1}",
        "line 1, column 6: a: a colon is expected between key and value, not “1”. Enter a colon",
    ),
    (
        b"{\"a\": 1 \"b\": 2}",
        "line 1, column 9: a: a comma or the closing } is expected here, not “\"”. Enter the one that is missing, or remove what does not belong here",
    ),
    (
        b"[1 2]",
        "line 1, column 4: [0]: a comma or the closing ] is expected here, not “2”. Enter the one that is missing, or remove what does not belong here",
    ),
    (
        b"[1}",
        "line 1, column 3: [0]: a comma or the closing ] is expected here, not “}”. Enter the one that is missing, or remove what does not belong here",
    ),
    (
        b"{\"a\": 1,}",
        "line 1, column 9: there is one comma too many, or something is missing next to it. Remove the comma, or enter what is missing",
    ),
    (
        b"[1,]",
        "line 1, column 4: [1]: there is one comma too many, or something is missing next to it. Remove the comma, or enter what is missing",
    ),
    (
        b"[1,,2]",
        "line 1, column 4: [1]: there is one comma too many, or something is missing next to it. Remove the comma, or enter what is missing",
    ),
    (
        b"{\"a\": }",
        "line 1, column 7: a: a value is missing before “}”. Enter the value, or leave the key out if that is allowed",
    ),
    (
        b"{a: 1}",
        "line 1, column 2: a key in double quotes is expected here, not “a”. Put the key in double quotes, or remove the comma before it if nothing follows",
    ),
    (
        b"{1: 1}",
        "line 1, column 2: a key in double quotes is expected here, not “1”. Put the key in double quotes, or remove the comma before it if nothing follows",
    ),
    (
        b"{'a': 1}",
        "line 1, column 2: texts and keys need double quotes (\"), not any others. Use double quotes",
    ),
    (
        "{“a”: 1}".as_bytes(),
        "line 1, column 2: texts and keys need double quotes (\"), not any others. Use double quotes",
    ),
    (
        b"{\"a\": 'x'}",
        "line 1, column 7: a: texts and keys need double quotes (\"), not any others. Use double quotes",
    ),
    (
        b"// c\n{}",
        "line 1, column 1: a document cannot contain comments. Remove the comment",
    ),
    (
        b"{} # c",
        "line 1, column 4: a document cannot contain comments. Remove the comment",
    ),
    (
        b"[1 /* c */]",
        "line 1, column 4: [0]: a document cannot contain comments. Remove the comment",
    ),
    (
        b"{}{}",
        "line 1, column 3: the document has ended, but “{” follows. Remove what follows, or one closing bracket too many",
    ),
    (
        b"{}]",
        "line 1, column 3: the document has ended, but “]” follows. Remove what follows, or one closing bracket too many",
    ),
    (
        b"{\"a\": True}",
        "line 1, column 7: a: “True” is not a value. Put a text in double quotes; without quotes use only true, false, null or a number",
    ),
    (
        b"{\"a\": nulll}",
        "line 1, column 7: a: “nulll” is not a value. Put a text in double quotes; without quotes use only true, false, null or a number",
    ),
    (
        b"{\"a\": @}",
        "line 1, column 7: a: a value is expected here, not “@”. Enter a number, a text in double quotes, a list, an object, true, false or null",
    ),
    (
        b"{\"a\": nan}",
        "line 1, column 7: a: “nan” is not a number that can be stored. Enter a number, or leave the key out if it is unknown",
    ),
    (
        b"{\"a\": -inf}",
        "line 1, column 7: a: “-inf” is not a number that can be stored. Enter a number, or leave the key out if it is unknown",
    ),
    (
        "{\"a\": ∞}".as_bytes(),
        "line 1, column 7: a: “∞” is not a number that can be stored. Enter a number, or leave the key out if it is unknown",
    ),
    (
        b"{\"a\": 0x1F}",
        "line 1, column 7: a: “0x1F” is not written as a number. Use digits with a point and without unit, plus sign or leading zeros",
    ),
    (
        b"{\"a\": 1.}",
        "line 1, column 7: a: “1.” is not written as a number. Use digits with a point and without unit, plus sign or leading zeros",
    ),
    (
        b"{\"a\": 1e}",
        "line 1, column 7: a: “1e” is not written as a number. Use digits with a point and without unit, plus sign or leading zeros",
    ),
    (
        b"{\"a\": --1}",
        "line 1, column 7: a: “--1” is not written as a number. Use digits with a point and without unit, plus sign or leading zeros",
    ),
    (
        b"{\"a\": 1.2.3}",
        "line 1, column 7: a: “1.2.3” is not written as a number. Use digits with a point and without unit, plus sign or leading zeros",
    ),
    (
        b"{\"a\": 12,5}",
        "line 1, column 9: a: “12,5” has a comma as decimal mark. Write 12.5",
    ),
    (
        b"{\"a\": \"\\x\"}",
        "line 1, column 8: a: “\\x\"}” is not an escape. Write \\\\ for a backslash, or \\u and four digits for a character",
    ),
    (
        b"{\"a\": \"\\u12\"}",
        "line 1, column 8: a: “\\u12\"}” is not an escape. Write \\\\ for a backslash, or \\u and four digits for a character",
    ),
    (
        b"{\"a\": \"\\ud800\"}",
        "line 1, column 8: a: “\\ud800” is not an escape. Write \\\\ for a backslash, or \\u and four digits for a character",
    ),
    (
        b"{\"a\": \"b\nc\"}",
        "line 1, column 9: a: a text cannot contain the character U+000A as it is. Write it as an escape, such as \\n for a line break, or remove it",
    ),
    (
        b"PK\x03\x04",
        "line 1, column 1: “PK” is not a value. Put a text in double quotes; without quotes use only true, false, null or a number",
    ),
    (
        b"<html></html>",
        "line 1, column 1: a value is expected here, not “<”. Enter a number, a text in double quotes, a list, an object, true, false or null",
    ),
    (
        b"{\"a\": \"\\ud83d\\ue000\"}",
        "line 1, column 8: a: “\\ud83d” is not an escape. Write \\\\ for a backslash, or \\u and four digits for a character",
    ),
    (
        b"{\"a\": \"\\udc00\"}",
        "line 1, column 8: a: “\\udc00” is not an escape. Write \\\\ for a backslash, or \\u and four digits for a character",
    ),
];
